//! Script formulas for arrival, transfer and recovery: connects `catalogue` entries to `calc`'s functions.

use super::Answer;
use super::line_error::LineError;
use super::liquid::{HYDROMETER, WELL_F, expansion};
use super::reading::missing;
use super::schema::{
    ELEVATION, Formula, GAUGE_GRADE, GAUGE_OVERDUE, GAUGE_SPAN, GRADE, Input, Kind, Need, PRODUCT, PSIA,
    PSIG, mix, number, source_of,
};
use crate::calc::Measured;
use crate::calc::arrival;
use crate::calc::quantity;
use crate::calc::receiver::{self, FillingLimit, Setting};
use crate::calc::recovery::PumpDown;
use crate::calc::transfer::{self, Level};
use crate::units::{Finding, Severity, Unit};
use crate::{Arg, Message, message};

const RD60: Input = number("rd60", "relative density", Unit::One, (0.35, 0.688), HYDROMETER);
const NET: Input =
    number("net_gal", "net volume", Unit::Gallon, (0.0, 1_000_000.0), 0.0).means("calc_input-net_60f");

pub(super) const ARRIVAL_PRESSURE: Formula = Formula {
    name: "arrival_pressure",
    inputs: &[
        number("temp_f", "temperature", Unit::Fahrenheit, (-80.0, 200.0), WELL_F)
            .means("calc_input-temp_f_liquid"),
        PSIA.optional(),
        PSIG.optional(),
        ELEVATION.optional(),
        GAUGE_GRADE,
        GAUGE_SPAN,
        GAUGE_OVERDUE,
        mix().optional(),
        GRADE,
    ],
    unit: Unit::PsiAbsolute,
    answer: |line| {
        let (reading, elevation) = line.pressure()?;
        let found = arrival::pressure(&line.number("temp_f")?, &reading, &elevation, &line.composition()?)?;
        let outcome = match found.verdict {
            arrival::PressureVerdict::Fits => "fits",
            arrival::PressureVerdict::Above => "above",
            arrival::PressureVerdict::Below => "below",
        };
        let (formula, source) = (arrival::FORMULA_PRESSURE, source_of("arrival_pressure"));
        Ok(Answer::judged(outcome, formula, source, vec![found.finding])
            .with("read", found.read)
            .with("saturation_low", found.saturation.low)
            .with("saturation_high", found.saturation.high))
    },
};

pub(super) const QUANTITY: Formula = Formula {
    name: "quantity",
    inputs: &[
        number("liquid_gal", "liquid volume", Unit::Gallon, (0.0, 100_000.0), 0.0)
            .means("calc_input-liquid_gal"),
        number("shell_gal", "shell volume", Unit::Gallon, (10.0, 100_000.0), 0.0)
            .means("calc_input-shell_water"),
        number("temp_f", "temperature", Unit::Fahrenheit, (-80.0, 200.0), WELL_F)
            .means("calc_input-temp_f_liquid"),
        RD60.optional().means("calc_input-rd60_or_mix"),
        PSIG.optional().means("calc_input-psig_vapor"),
        ELEVATION.optional().means("calc_input-with_psig"),
        GAUGE_GRADE,
        GAUGE_SPAN,
        GAUGE_OVERDUE,
        mix().optional().means("calc_input-mix_of_vapor"),
        PRODUCT,
    ],
    unit: Unit::Gallon,
    answer: |line| {
        let (pressure, elevation) = if line.has("psig") {
            (Some(line.gauge("psig")?), line.number("elev_ft")?)
        } else {
            (None, Measured::exact("elevation", 0.0, Unit::Foot))
        };
        let found = quantity::quantity(&quantity::Load {
            liquid: line.number("liquid_gal")?,
            shell: line.number("shell_gal")?,
            temperature: line.number("temp_f")?,
            expansion: expansion(line)?,
            mix: match line.table_mix()? {
                Some(mix) => mix,
                None => line.mix_or_propane("mix")?,
            },
            pressure,
            elevation,
        })?;
        Ok(Answer::from(found.net_gallons)
            .with("liquid", found.liquid_gallons)
            .with("vapour", found.vapour_gallons)
            .with("litres_15c", found.net_litres)
            .with("lb_vacuum", found.weights.lb_vacuum)
            .with("lb_air", found.weights.lb_air)
            .with("kg_vacuum", found.weights.kg_vacuum)
            .with("kg_air", found.weights.kg_air))
    },
};

pub(super) const OVERFILL: Formula = Formula {
    name: "overfill",
    inputs: &[
        NET,
        number("shell_gal", "shell volume", Unit::Gallon, (10.0, 100_000.0), 0.0)
            .means("calc_input-shell_water"),
        RD60,
        number("reference_f", "reference temperature", Unit::Fahrenheit, (-50.8, 199.4), 0.0)
            .or(arrival::REFERENCE_UNINSULATED_F)
            .means("calc_input-reference_f"),
        number("least_percent", "least outage", Unit::Percent, (0.0, 50.0), 0.0)
            .or(arrival::LEAST_OUTAGE_PERCENT),
    ],
    unit: Unit::Percent,
    answer: |line| {
        let [net, shell, rd60] = ["net_gal", "shell_gal", "rd60"].map(|key| line.number(key));
        let (reference, least) = (line.number("reference_f")?.value, line.number("least_percent")?.value);
        let found = arrival::overfill(&net?, &shell?, &rd60?, reference, least)?;
        Ok(Answer::from(found.outage).detailed(serde_json::json!({ "overfilled": found.overfilled })))
    },
};

pub(super) const RECEIVER_ROOM: Formula = Formula {
    name: "receiver_room",
    inputs: &[
        number("capacity_gal", "capacity", Unit::Gallon, (10.0, 10_000_000.0), 0.0)
            .means("calc_input-capacity_gal"),
        number("held_gal", "liquid held", Unit::Gallon, (0.0, 1_000_000.0), 0.0).means("calc_input-held_gal"),
        number("temp_f", "temperature", Unit::Fahrenheit, (-50.8, 199.4), WELL_F)
            .means("calc_input-temp_f_held"),
        number("coming_gal", "to come", Unit::Gallon, (0.0, 1_000_000.0), 0.0).means("calc_input-coming_gal"),
        RD60,
        Input {
            key: "setting",
            about: Some("calc_input-setting"),
            need: Need::Optional,
            kind: Kind::Word { words: &["above_ground_small", "above_ground_large", "underground"] },
        },
        number("filling_density", "filling density", Unit::Percent, (10.0, 70.0), 0.0)
            .optional()
            .means("calc_input-filling_density"),
        number("level_percent", "level limit", Unit::Percent, (1.0, 95.0), 0.0)
            .optional()
            .means("calc_input-level_percent"),
        number("reference_f", "reference temperature", Unit::Fahrenheit, (-50.8, 199.4), 0.0)
            .or(105.0)
            .means("calc_input-reference_f_receiver"),
    ],
    unit: Unit::Gallon,
    answer: |line| {
        let setting = line.word("setting")?.map(|word| match word {
            "above_ground_small" => Setting::AboveGroundSmall,
            "underground" => Setting::Underground,
            _ => Setting::AboveGroundLarge,
        });
        let words = Arg::typed("setting, filling_density, level_percent");
        let limit = match (setting, line.optional("filling_density")?, line.optional("level_percent")?) {
            (Some(setting), None, None) => FillingLimit::Table(setting),
            (None, Some(density), None) => FillingLimit::Density(density.value),
            (None, None, Some(level)) => FillingLimit::Level(level.value),
            (None, None, None) => {
                return Err(LineError::new(
                    "missing_input",
                    message!("calc-line-one-of", key = Message::new("input-filling_limit"), words = words),
                ));
            }
            _ => {
                return Err(LineError::new(
                    "inconsistent_input",
                    message!("calc-line-only-one", words = words),
                ));
            }
        };
        let room = receiver::room(&receiver::Transfer {
            capacity: line.number("capacity_gal")?,
            held: line.number("held_gal")?,
            held_temperature: line.number("temp_f")?,
            coming: line.number("coming_gal")?,
            rd60: line.number("rd60")?,
            limit,
            reference_temperature: line.number("reference_f")?.value,
        })?;
        let mut detail = serde_json::json!({ "fits": room.fits });
        if let Some(density) = room.filling_density {
            detail["filling_density"] = serde_json::json!(density);
        }
        Ok(Answer::from(room.room)
            .with("allowed", room.allowed)
            .with("level_today", room.level_today)
            .with("level_warm", room.level_warm)
            .detailed(detail))
    },
};

pub(super) const TRANSFER_RATE: Formula = Formula {
    name: "transfer_rate",
    inputs: &[
        Input {
            key: "readings",
            about: Some("calc_input-readings"),
            need: Need::Required,
            kind: Kind::Rows { columns: &["minutes", "left"] },
        },
        number("level_limit_gal", "limits of a level reading", Unit::Gallon, (0.0, 10_000.0), 0.0)
            .or(50.0)
            .means("calc_input-level_limit_gal"),
        number("target_gal", "target", Unit::Gallon, (0.0, 1_000_000.0), 0.0)
            .or(0.0)
            .means("calc_input-target_gal"),
    ],
    unit: Unit::GallonPerMinute,
    answer: |line| {
        let rows = line.rows("readings")?.unwrap_or_default();
        let level = |row: &Vec<f64>| Some(Level { minutes: *row.first()?, gallons: *row.get(1)? });
        let levels: Vec<Level> = rows.iter().filter_map(level).collect();
        let (limit, target) = (line.number("level_limit_gal")?.value, line.number("target_gal")?.value);
        let found = transfer::progress(&levels, limit, target)?;
        let answer = Answer::from(found.rate).detailed(serde_json::json!({ "flow": found.flow }));
        Ok(match found.minutes_left {
            Some(minutes) => answer.with("minutes_left", minutes),
            None => answer,
        })
    },
};

pub(super) const PUMP_DOWN: Formula = Formula {
    name: "pump_down",
    inputs: &[
        number("shell_gal", "shell volume", Unit::Gallon, (10.0, 100_000.0), 0.0)
            .means("calc_input-shell_vapor"),
        number("temp_f", "temperature", Unit::Fahrenheit, (-80.0, 200.0), 5.0)
            .means("calc_input-temp_f_constant"),
        number("start_psig", "start pressure", Unit::PsiGauge, (-14.0, 500.0), 3.2),
        number("end_psig", "end pressure", Unit::PsiGauge, (-14.0, 500.0), 1.2)
            .optional()
            .means("calc_input-end_psig_or_price"),
        number("cfm", "swept volume", Unit::CubicFootPerMinute, (0.1, 5_000.0), 0.0).means("calc_input-cfm"),
        number("efficiency", "volumetric efficiency", Unit::One, (0.05, 1.0), 0.0)
            .or(1.0)
            .means("calc_input-efficiency"),
        ELEVATION,
        mix().optional().means("calc_input-mix_or_propane"),
        number("price_gal", "price of a gallon", Unit::Money, (1e-6, 1e6), 0.0).optional(),
        number("cost_hour", "cost of an hour", Unit::MoneyPerHour, (1e-6, 1e6), 0.0).optional(),
    ],
    unit: Unit::Minute,
    answer: |line| {
        if !line.has("efficiency") {
            line.find(Finding::new(
                "efficiency_presumed",
                Severity::Check,
                Message::new("calc-efficiency-presumed"),
            ));
        }
        let car = PumpDown {
            volume: line.number("shell_gal")?,
            temperature: line.number("temp_f")?,
            start: line.number("start_psig")?,
            swept: line.number("cfm")?,
            efficiency: line.number("efficiency")?,
            elevation: line.number("elev_ft")?,
            mix: line.mix_or_propane("mix")?,
        };
        let stop = match (line.optional("price_gal")?, line.optional("cost_hour")?) {
            (Some(price), Some(cost)) => Some(car.economic_stop(price.value, cost.value)?),
            (None, None) => None,
            _ => {
                return Err(LineError::new("missing_input", Message::new("calc-line-stop")));
            }
        };
        let (way, end) = match (line.optional("end_psig")?, &stop) {
            (Some(end), _) => (car.to_pressure(&end)?, end.value),
            (None, Some(stop)) => (stop.way.clone(), stop.psig.unwrap_or_default()),
            (None, None) => {
                return Err(missing("end_psig", Unit::PsiGauge.term()));
            }
        };
        let mut detail = serde_json::json!({ "end_psig": end });
        let mut answer =
            Answer::from(way.minutes).with("recovered", way.gallons).with("marginal", way.marginal);
        if let Some(stop) = stop {
            detail["stop_psia"] = serde_json::json!(stop.psia);
            if let Some(psig) = stop.psig {
                detail["stop_psig"] = serde_json::json!(psig);
            }
            answer = answer.with("stop_minutes", stop.way.minutes).with("stop_recovered", stop.way.gallons);
        }
        Ok(answer.detailed(detail))
    },
};
