//! The script formulas that return a judgement: leak hold, empty proof, wear, freeze advice.

use super::Answer;
use super::line_error::LineError;
use super::liquid::WELL_F;
use super::reading::{Reading, missing};
use super::schema::{
    ELEVATION, Formula, GAUGE_GRADE, GAUGE_OVERDUE, GAUGE_SPAN, GRADE, Input, Kind, Need, PSIG, mix, number,
    source_of,
};
use crate::Message;
use crate::calc::Measured;
use crate::calc::empty_proof::{self, Evidence, GaugeRod, HoldTest, LiquidValve, Outcome};
use crate::calc::fluid::{Composition, Fluid, Mix};
use crate::calc::freeze::{self, Conditions, Precipitation};
use crate::calc::leak::{self, Hold, LeakVerdict, TestGas};
use crate::calc::wear::{self, Effort, EffortBand, Trend};
use crate::units::Unit;

const fn word(key: &'static str, about: &'static str, words: &'static [&'static str]) -> Input {
    Input { key, about: Some(about), need: Need::Optional, kind: Kind::Word { words } }
}

fn detail(result: &impl serde::Serialize) -> Result<serde_json::Value, LineError> {
    serde_json::to_value(result)
        .map_err(|_| LineError::new("internal", Message::new("calc-line-not-written")))
}

pub(super) const LEAK_HOLD: Formula = Formula {
    name: "leak_hold",
    inputs: &[
        number("start_psig", "start pressure", Unit::PsiGauge, (-14.0, 500.0), 1.2),
        number("start_f", "start temperature", Unit::Fahrenheit, (-80.0, 200.0), WELL_F)
            .means("calc_input-gas_f"),
        number("end_psig", "end pressure", Unit::PsiGauge, (-14.0, 500.0), 1.2)
            .means("calc_input-end_psig_same"),
        number("end_f", "end temperature", Unit::Fahrenheit, (-80.0, 200.0), WELL_F)
            .means("calc_input-gas_f"),
        number("minutes", "hold", Unit::Minute, (1.0, 10_080.0), 0.0),
        ELEVATION,
        mix().optional().means("calc_input-mix_under_test"),
    ],
    unit: Unit::PsiGauge,
    answer: |line| {
        let result = leak::judge(&Hold {
            gas: line.mix("mix")?.map_or(TestGas::Permanent, TestGas::Vapour),
            start: line.number("start_psig")?,
            start_temperature: line.number("start_f")?,
            end: line.number("end_psig")?,
            end_temperature: line.number("end_f")?,
            minutes: line.number("minutes")?.value,
            elevation: line.number("elev_ft")?,
        })?;
        let verdict = match result.verdict {
            LeakVerdict::LeakIndicated => "leak_indicated",
            LeakVerdict::NoneIndicated => "none_indicated",
            LeakVerdict::CannotTell => "cannot_tell",
            LeakVerdict::Rose => "rose",
        };
        let detail = serde_json::json!({
            "verdict": verdict,
            "expected_psia": result.expected,
            "smallest_visible_psi_per_hour": result.smallest_visible,
        });
        Ok(Answer::from(result.change).detailed(detail))
    },
};

pub(super) const EMPTY_PROOF: Formula = Formula {
    name: "empty_proof",
    inputs: &[
        word("rod", "calc_input-rod", &["at_bottom", "finds_liquid"]),
        word("valve", "calc_input-valve", &["vapour", "liquid"]),
        PSIG.optional(),
        number("low_f", "low temperature", Unit::Fahrenheit, (-80.0, 200.0), WELL_F).optional(),
        number("ambient_f", "outside temperature", Unit::Fahrenheit, (-80.0, 200.0), 2.0).optional(),
        number("hold_end_psig", "pressure at the end of the hold", Unit::PsiGauge, (-14.0, 500.0), 0.6)
            .optional()
            .means("calc_input-hold_end_psig"),
        number("hold_start_psig", "pressure at the start of the hold", Unit::PsiGauge, (-14.0, 500.0), 0.6)
            .optional(),
        number("hold_minutes", "hold", Unit::Minute, (1.0, 1_440.0), 0.0).optional(),
        ELEVATION.optional(),
        GAUGE_GRADE,
        GAUGE_SPAN,
        GAUGE_OVERDUE,
        mix().optional().means("calc_input-mix_or_grade_short"),
        GRADE,
    ],
    unit: Unit::One,
    answer: empty_proof_answer,
};

fn empty_proof_answer(line: &Reading) -> Result<Answer, LineError> {
    let known = line.has("mix") || line.has("grade");
    let composition =
        if known { line.composition()? } else { Composition::Known(line.mix_or_propane("mix")?) };
    let hold = match (
        line.optional("hold_start_psig")?,
        line.optional("hold_end_psig")?,
        line.optional("hold_minutes")?,
    ) {
        (Some(start), Some(end), Some(minutes)) => Some(HoldTest { start, end, minutes: minutes.value }),
        (None, None, None) => None,
        _ => {
            let message = Message::new("calc-line-hold");
            return Err(LineError::new("missing_input", message));
        }
    };
    let pressure = if line.has("psig") { Some(line.gauge("psig")?) } else { None };
    let needs_elevation = pressure.is_some() || hold.is_some();
    let elevation =
        if needs_elevation { line.number("elev_ft")? } else { Measured::exact("elevation", 0.0, Unit::Foot) };
    let weighed = empty_proof::weigh(&Evidence {
        composition,
        elevation,
        gauge_rod: line.word("rod")?.map(|word| match word {
            "at_bottom" => GaugeRod::AtBottom,
            _ => GaugeRod::FindsLiquid,
        }),
        liquid_valve: line.word("valve")?.map(|word| match word {
            "vapour" => LiquidValve::Vapour,
            _ => LiquidValve::Liquid,
        }),
        pressure,
        low_temperature: line.optional("low_f")?,
        ambient: line.optional("ambient_f")?,
        hold,
    })?;
    let outcome = match weighed.outcome {
        Outcome::LiquidIndicated => "liquid_indicated",
        Outcome::NoLiquidIndicated => "no_liquid_indicated",
        Outcome::NotEnoughEvidence => "not_enough_evidence",
    };
    Ok(Answer::judged(outcome, "empty_proof/1", source_of("empty_proof"), Vec::new())
        .detailed(detail(&weighed)?))
}

pub(super) const WEAR: Formula = Formula {
    name: "wear",
    inputs: &[
        Input {
            key: "efforts",
            about: Some("calc_input-efforts"),
            need: Need::Required,
            kind: Kind::Rows { columns: &["day", "torque"] },
        },
        number("band_low", "lowest usual effort", Unit::FootPound, (0.0, 500.0), 0.0).or(20.0),
        number("band_high", "highest usual effort", Unit::FootPound, (0.0, 500.0), 0.0).or(40.0),
    ],
    unit: Unit::FootPound,
    answer: |line| {
        let rows =
            line.rows("efforts")?.ok_or_else(|| missing("efforts", Message::new("calc-line-wants-rows")))?;
        let effort = |row: &Vec<f64>| Some(Effort { day: *row.first()?, foot_pounds: *row.get(1)? });
        let efforts: Vec<Effort> = rows.iter().filter_map(effort).collect();
        let band = EffortBand { low: line.number("band_low")?.value, high: line.number("band_high")?.value };
        let found = wear::judge(&efforts, band)?;
        let outcome = match found.trend {
            Trend::TooFew => "too_few",
            Trend::Steady => "steady",
            Trend::Rising => "rising",
            Trend::Falling => "falling",
        };
        let detail = detail(&found)?;
        Ok(Answer::judged(outcome, wear::FORMULA, source_of("wear"), found.findings).detailed(detail))
    },
};

pub(super) const FREEZE: Formula = Formula {
    name: "freeze",
    inputs: &[
        number("air_f", "air temperature", Unit::Fahrenheit, (-80.0, 140.0), 0.0),
        word(
            "precipitation",
            "calc_input-precipitation",
            &["none", "rain", "freezing_rain", "snow", "frost"],
        ),
        Input {
            key: "liquid_may_flash",
            about: Some("calc_input-liquid_may_flash"),
            need: Need::Optional,
            kind: Kind::Flag,
        },
        ELEVATION.or(0.0),
        mix().optional().means("calc_input-mix_or_propane"),
    ],
    unit: Unit::Fahrenheit,
    answer: |line| {
        let mix = line.mix("mix")?.unwrap_or_else(|| Mix::pure(Fluid::Propane));
        let conditions = Conditions {
            air: line.number("air_f")?.value,
            precipitation: match line.word("precipitation")? {
                Some("rain") => Precipitation::Rain,
                Some("freezing_rain") => Precipitation::FreezingRain,
                Some("snow") => Precipitation::Snow,
                Some("frost") => Precipitation::Frost,
                _ => Precipitation::None,
            },
            mix,
            elevation: line.number("elev_ft")?.value,
            liquid_may_flash: line.flag("liquid_may_flash")?.unwrap_or(true),
        };
        let advice = freeze::advice(&conditions)?;
        let outcome = if advice.is_empty() { "nothing_freezes" } else { "advice" };
        let flash = freeze::flash_temperature(&conditions.mix, conditions.elevation)?;
        Ok(Answer::judged(outcome, "freeze/1", source_of("freeze"), advice)
            .detailed(serde_json::json!({ "flash_temperature_f": flash })))
    },
};
