//! What a recorded figure is worth: the ± that belongs to a reading, by the instrument that gave it.
//!
//! The limits are the core's (`calc::instrument`); a figure nobody knows the ± of says so.

use farsiding_core::calc::instrument::{Gauge, GaugeGrade, Limited, presumed_gauge};
use farsiding_core::calc::uncertainty::COVERAGE;
use farsiding_core::entry::vocabulary::Measured;
use farsiding_core::entry::{Reading, Statement};
use farsiding_core::units::{Amount, Computed, Unit};
use farsiding_core::view::SiteView;

/// The ± of what a statement says, in words to stand behind its sentence; nothing where it has no figure.
pub fn plus_minus(says: &Statement, site: Option<&SiteView>) -> Option<String> {
    match says {
        Statement::Reading(reading) => {
            Some(reading_shown(reading, site).unwrap_or_else(|| "± not known".to_owned()))
        }
        Statement::Effort { amount, .. }
        | Statement::CarCapacity { capacity: amount, .. }
        | Statement::CarDiameter { diameter: amount } => Some(unstated(amount)),
        Statement::TruckLoad(load) => Some(unstated(&load.amount)),
        Statement::Threads { .. } => Some("counted, ± not stated".to_owned()),
        Statement::Paper(paper) if paper.billed.is_some() => Some("as on the paper, ± not stated".to_owned()),
        _ => None,
    }
}

fn unstated(amount: &Amount) -> String {
    match amount.value {
        Some(_) => "± not stated".to_owned(),
        None => "not a number".to_owned(),
    }
}

fn reading_shown(reading: &Reading, site: Option<&SiteView>) -> Option<String> {
    let (value, unit) = (reading.amount.value?, reading.amount.unit);
    let (measured, whence) = match reading.measured {
        Measured::Pressure => {
            let known = site.and_then(|site| site.instrument(&reading.instrument));
            let recorded = known.and_then(|instrument| {
                let grade =
                    GaugeGrade::ALL.into_iter().find(|grade| grade.mark() == instrument.grade.trim())?;
                let span = instrument.span.value?;
                Some(Gauge { grade, span, unit: instrument.span.unit, overdue: false })
            });
            let whence = match &recorded {
                Some(gauge) => format!("grade {}, span {} {}", gauge.grade.mark(), gauge.span, gauge.unit),
                None => "a usual gauge presumed".to_owned(),
            };
            let gauge = recorded.unwrap_or(presumed_gauge(reading.amount.value_in(Unit::PsiGauge)?));
            (gauge.measured("pressure", value, unit).ok()?.0, whence)
        }
        Measured::Temperature => limited(Limited::THERMOMETER, value, unit)?,
        Measured::Outage => limited(Limited::GAUGE_ROD, value, unit)?,
        Measured::RelativeDensity => limited(Limited::HYDROMETER, value, unit)?,
        Measured::Level | Measured::Volume | Measured::Rate => return None,
    };
    let shown = Computed {
        value: measured.value,
        unit: measured.unit,
        plus_minus: Some(COVERAGE * measured.standard),
        largest: None,
        formula: String::new(),
        source: farsiding_core::Message::default(),
        findings: Vec::new(),
    };
    Some(format!("{}, {whence}", shown.shown()))
}

fn limited(
    limits: Limited,
    value: f64,
    unit: Unit,
) -> Option<(farsiding_core::calc::uncertainty::Measured, String)> {
    let whence = format!("limits ±{} {} presumed", limits.half_width, limits.unit);
    Some((limits.measured("reading", value, unit).ok()?.0, whence))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use farsiding_core::entry::vocabulary::{Place, Purpose};

    fn shown(measured: Measured, text: &str, unit: Unit) -> String {
        let (amount, _) = Amount::read(text, unit);
        let reading = Reading {
            measured,
            place: Place::Car,
            purpose: Purpose::Final,
            amount,
            instrument: "LG-12".into(),
        };
        plus_minus(&Statement::Reading(reading), None).unwrap()
    }

    /// Grade B on a span of 60 psi is good to ±1.2 psi in its middle half; ± at 95 % is twice that over √3.
    #[test]
    fn a_reading_carries_what_its_gauge_is_worth() {
        assert_eq!(
            shown(Measured::Pressure, "38.5", Unit::PsiGauge),
            "38.5 ± 1.4 psi, a usual gauge presumed"
        );
        assert_eq!(
            shown(Measured::Temperature, "54", Unit::Fahrenheit),
            "54.0 ± 1.2 °F, limits ±1 °F presumed"
        );
        assert_eq!(shown(Measured::Level, "79", Unit::Percent), "± not known");
        assert_eq!(shown(Measured::Pressure, "about forty", Unit::PsiGauge), "± not known");
    }
}
