//! Script formulas for arrival, transfer and recovery: connects `catalogue` entries to `calc`'s functions.

use super::Answer;
use super::liquid::{HYDROMETER, WELL_F, expansion};
use super::refusal::Refusal;
use super::schema::{
    ELEVATION, Formula, GAUGE_GRADE, GAUGE_OVERDUE, GAUGE_SPAN, GRADE, Input, Kind, Need, PRODUCT, PSIA,
    PSIG, mix, number,
};
use crate::calc::Measured;
use crate::calc::arrival;
use crate::calc::quantity;
use crate::calc::receiver::{self, FillingLimit, Setting};
use crate::calc::recovery::PumpDown;
use crate::calc::transfer::{self, Level};
use crate::units::{Finding, Severity, Unit};

const RD60: Input = number("rd60", "relative density at 60 °F", Unit::One, (0.35, 0.688), HYDROMETER);
const NET: Input = number("net_gal", "net volume", Unit::Gallon, (0.0, 1_000_000.0), 0.0).about("at 60 °F");

pub(super) const ARRIVAL_PRESSURE: Formula = Formula {
    name: "arrival_pressure",
    about: "a loaded car's pressure beside saturation at its liquid's temperature",
    inputs: &[
        number("temp_f", "temperature", Unit::Fahrenheit, (-80.0, 200.0), WELL_F)
            .about("temperature of the liquid"),
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
    method: "pressure read against the bubble point, both with ±: above (inerts, wrong product, bad reading), below (bad reading, not at equilibrium) or fits",
    source: "equations of state as psat; atmosphere ISO 2533:1975",
    wrong_when: "a temperature from the sunny side, a gauge left closed, another composition",
    answer: |line| {
        let (reading, elevation) = line.pressure()?;
        let found = arrival::pressure(&line.number("temp_f")?, &reading, &elevation, &line.composition()?)?;
        let outcome = match found.verdict {
            arrival::PressureVerdict::Fits => "fits",
            arrival::PressureVerdict::Above => "above",
            arrival::PressureVerdict::Below => "below",
        };
        let (formula, source) =
            (arrival::FORMULA_PRESSURE, "equations of state as psat; atmosphere ISO 2533:1975");
        Ok(Answer::judged(outcome, formula, source, vec![found.finding])
            .with("read", found.read)
            .with("saturation_low", found.saturation.low)
            .with("saturation_high", found.saturation.high))
    },
};

pub(super) const QUANTITY: Formula = Formula {
    name: "quantity",
    about: "all that is in a car: liquid net and vapour as liquid equivalent, with weights",
    inputs: &[
        number("liquid_gal", "liquid volume", Unit::Gallon, (0.0, 100_000.0), 0.0)
            .about("at temp_f, from the gauging; state liquid_gal_pm"),
        number("shell_gal", "shell volume", Unit::Gallon, (10.0, 100_000.0), 0.0)
            .about("water capacity of the shell"),
        number("temp_f", "temperature", Unit::Fahrenheit, (-80.0, 200.0), WELL_F)
            .about("temperature of the liquid"),
        RD60.optional().about("at 60 °F; may be left out when the mix is given"),
        PSIG.optional().about("pressure in the vapour space; saturation when left out"),
        ELEVATION.optional().about("with psig"),
        GAUGE_GRADE,
        GAUGE_SPAN,
        GAUGE_OVERDUE,
        mix().optional().about("composition; pure propane for the vapour when left out"),
        PRODUCT,
    ],
    unit: Unit::Gallon,
    method: "net_volume, and the vapour space by equation of state at the liquid's temperature",
    source: "Table 24E or density ratio as net_volume; equations of state as psat",
    wrong_when: "vapour and liquid at different temperatures, air or nitrogen in the vapour",
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
    about: "outage left when the liquid warms to the reference temperature",
    inputs: &[
        NET,
        number("shell_gal", "shell volume", Unit::Gallon, (10.0, 100_000.0), 0.0)
            .about("water capacity of the shell"),
        RD60,
        number("reference_f", "reference temperature", Unit::Fahrenheit, (-50.8, 199.4), 0.0)
            .or(arrival::REFERENCE_UNINSULATED_F)
            .about("115 °F uninsulated, 105 °F insulated (49 CFR 173.24b(a), from memory)"),
        number("least_percent", "least outage", Unit::Percent, (0.0, 50.0), 0.0)
            .or(arrival::LEAST_OUTAGE_PERCENT),
    ],
    unit: Unit::Percent,
    method: "net ÷ CTL at the reference temperature against the shell",
    source: "Table 24E; limits 49 CFR 173.24b(a) from memory, configurable",
    wrong_when: "propylene by relative density, a shell volume that is not the water capacity",
    answer: |line| {
        let [net, shell, rd60] = ["net_gal", "shell_gal", "rd60"].map(|key| line.number(key));
        let (reference, least) = (line.number("reference_f")?.value, line.number("least_percent")?.value);
        let found = arrival::overfill(&net?, &shell?, &rd60?, reference, least)?;
        Ok(Answer::from(found.outage).detailed(serde_json::json!({ "overfilled": found.overfilled })))
    },
};

pub(super) const RECEIVER_ROOM: Formula = Formula {
    name: "receiver_room",
    about: "net gallons at 60 °F that still fit the receiver",
    inputs: &[
        number("capacity_gal", "capacity", Unit::Gallon, (10.0, 10_000_000.0), 0.0)
            .about("water capacity of the receiver"),
        number("held_gal", "liquid held", Unit::Gallon, (0.0, 1_000_000.0), 0.0)
            .about("liquid in it now, at temp_f"),
        number("temp_f", "temperature", Unit::Fahrenheit, (-50.8, 199.4), WELL_F)
            .about("of the liquid in it"),
        number("coming_gal", "net volume to come", Unit::Gallon, (0.0, 1_000_000.0), 0.0)
            .about("net at 60 °F"),
        RD60,
        Input {
            key: "setting",
            about: "which column of the published table; or give filling_density or level_percent",
            need: Need::Optional,
            kind: Kind::Word { words: &["above_ground_small", "above_ground_large", "underground"] },
        },
        number("filling_density", "filling density", Unit::Percent, (10.0, 70.0), 0.0)
            .optional()
            .about("set by the site"),
        number("level_percent", "level limit", Unit::Percent, (1.0, 95.0), 0.0)
            .optional()
            .about("set by the site"),
        number("reference_f", "reference temperature", Unit::Fahrenheit, (-50.8, 199.4), 0.0)
            .or(105.0)
            .about("the temperature it may warm to; default from memory"),
    ],
    unit: Unit::Gallon,
    method: "capacity × filling density ÷ relative density − what is held; levels today and warm by Table 24E",
    source: "WAC 296-307-41037 Table U-4 (as 29 CFR 1910.110(b)(11)); Table 24E",
    wrong_when: "another product in the receiver, a level gauge out of true, a local code that asks for less",
    answer: |line| {
        let setting = line.word("setting")?.map(|word| match word {
            "above_ground_small" => Setting::AboveGroundSmall,
            "underground" => Setting::Underground,
            _ => Setting::AboveGroundLarge,
        });
        let limit = match (setting, line.optional("filling_density")?, line.optional("level_percent")?) {
            (Some(setting), None, None) => FillingLimit::Table(setting),
            (None, Some(density), None) => FillingLimit::Density(density.value),
            (None, None, Some(level)) => FillingLimit::Level(level.value),
            (None, None, None) => {
                return Err(Refusal::new(
                    "missing_input",
                    "a filling limit is missing: setting, filling_density or level_percent",
                ));
            }
            _ => {
                return Err(Refusal::new(
                    "inconsistent_input",
                    "give one of setting, filling_density and level_percent, not more",
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
    about: "rate out of the car and time left, from the level readings so far",
    inputs: &[
        Input {
            key: "readings",
            about: "three or more, times rising",
            need: Need::Required,
            kind: Kind::Rows { columns: &["minutes", "gallons left"] },
        },
        number("level_limit_gal", "limits of a level reading", Unit::Gallon, (0.0, 10_000.0), 0.0)
            .or(50.0)
            .about("half-width of one reading"),
        number("target_gal", "target", Unit::Gallon, (0.0, 1_000_000.0), 0.0).or(0.0).about("where to stop"),
    ],
    unit: Unit::GallonPerMinute,
    method: "Theil–Sen slope of the last six readings; stall and reversal from the last three",
    source: "P. K. Sen, J. Am. Stat. Assoc. 63 (1968) 1379–1389",
    wrong_when: "the receiver's readings taken for the car's, a level read while it surges",
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
    about: "minutes of recovery from one pressure to another, what it brings, and where it stops paying",
    inputs: &[
        number("shell_gal", "shell volume", Unit::Gallon, (10.0, 100_000.0), 0.0).about("vapour space"),
        number("temp_f", "temperature", Unit::Fahrenheit, (-80.0, 200.0), 5.0)
            .about("of the vapour, taken as constant"),
        number("start_psig", "start pressure", Unit::PsiGauge, (-14.0, 500.0), 3.2),
        number("end_psig", "end pressure", Unit::PsiGauge, (-14.0, 500.0), 1.2)
            .optional()
            .about("may be left out when price and cost are given"),
        number("cfm", "swept volume", Unit::CubicFootPerMinute, (0.1, 5_000.0), 0.0)
            .about("of the compressor"),
        number("efficiency", "volumetric efficiency", Unit::One, (0.05, 1.0), 0.0)
            .or(1.0)
            .about("1 when left out: the shortest time there is"),
        ELEVATION,
        mix().optional().about("composition; pure propane when left out"),
        number("price_gal", "price of a gallon", Unit::Money, (1e-6, 1e6), 0.0).optional(),
        number("cost_hour", "cost of an hour", Unit::MoneyPerHour, (1e-6, 1e6), 0.0).optional(),
    ],
    unit: Unit::Minute,
    method: "t = (V/Sη) ln(ρ1/ρ2), densities by equation of state; isothermal, no heel",
    source: "equations of state as psat; atmosphere ISO 2533:1975",
    wrong_when: "liquid left in the car, an efficiency that falls as the pressure ratio grows, a car that chills",
    answer: |line| {
        if !line.has("efficiency") {
            line.find(Finding::new(
                "efficiency_presumed",
                Severity::Check,
                "No volumetric efficiency was given: 1 was presumed, so the time is the shortest there is.",
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
                return Err(Refusal::new(
                    "missing_input",
                    "an economic stop needs both price_gal and cost_hour",
                ));
            }
        };
        let (way, end) = match (line.optional("end_psig")?, &stop) {
            (Some(end), _) => (car.to_pressure(&end)?, end.value),
            (None, Some(stop)) => (stop.way.clone(), stop.psig.unwrap_or_default()),
            (None, None) => {
                return Err(Refusal::new("missing_input", "end_psig is missing; it is needed in psi"));
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
