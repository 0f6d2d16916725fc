//! Compares the quantities of one car: found against billed, and received (including what was left in the
//! car) against billed.
//!
//! Like is compared with like. A bill by outage table or meter is for liquid. A bill by scale is the difference of two
//! weights: the vapour is weighed with the liquid, and the heel that came back with the car is on neither side, for
//! which the residue that leaves again stands. The vapour that came above the liquid passes no liquid meter and stands
//! on the side of what was received, so that one car has one difference whichever way its shipper measured. While
//! nobody said how a bill was measured, nothing is compared.
//!
//! Both sides are in net gallons at 60 °F. The difference keeps the named parts of its uncertainty, so that
//! `totals` and `bias` can add the parts that cars share in the right way. Called by `report`.

use farsiding_core::Message;
use farsiding_core::calc::uncertainty::COVERAGE;
use farsiding_core::entry::vocabulary::BilledBy;
use farsiding_core::units::Unit;
use serde::{Deserialize, Serialize};

use super::Settings;
use crate::facts::{Amounted, Facts, Missing, Share, Side};
use crate::sharing::of_sum;

/// The two quantities that are compared.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Compared {
    /// The quantity found by gauging on arrival, minus the quantity billed.
    Found,
    /// The quantity received by storage or trucks, plus what was left in the car, minus the quantity billed.
    Received,
}

impl Compared {
    /// Both comparisons.
    pub const ALL: [Compared; 2] = [Compared::Found, Compared::Received];

    /// Returns the comparison in words.
    pub fn term(self) -> Message {
        match self {
            Compared::Found => Message::new("reconcile-compared-found"),
            Compared::Received => Message::new("reconcile-compared-received"),
        }
    }
}

/// A difference with its uncertainty.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Comparison {
    /// The compared quantities.
    pub compared: Compared,
    /// How the bill was measured.
    pub basis: BilledBy,
    /// What was held against what, in words.
    pub method: Message,
    /// The quantity billed, in net gal at 60 °F.
    pub billed: f64,
    /// The other quantity, in net gal at 60 °F.
    pub other: f64,
    /// The other quantity minus the quantity billed; negative is short.
    pub difference: f64,
    /// The difference in percent of the quantity billed.
    pub percent: f64,
    /// The parts of the uncertainty, in gal.
    pub parts: Vec<Share>,
    /// The combined standard uncertainty, in gal.
    pub standard: f64,
    /// The expanded uncertainty at 95 % (coverage factor 2), in gal.
    pub plus_minus: f64,
    /// Whether the difference is within the expanded uncertainty, so that measurement explains it.
    pub within: bool,
    /// The instrument behind the other quantity; empty when none was named.
    pub instrument: String,
}

/// Compares two quantities of one stay.
///
/// # Errors
/// Returns why the quantities cannot be compared.
pub fn compare(facts: &Facts, compared: Compared, settings: &Settings) -> Result<Comparison, Message> {
    let missing = |of: Side| {
        let said = facts.missing.iter().find(|missing| missing.of == of).cloned();
        said.unwrap_or_else(|| Missing { of, why: Message::new("reconcile-not-recorded") }).message()
    };
    let billed = facts.billed.as_ref().ok_or_else(|| missing(Side::Billed))?;
    let basis = settings.basis(facts).ok_or_else(|| Message::new("reconcile-basis-unknown"))?;
    let by_scale = basis == BilledBy::Scale;
    let found = facts.found.as_ref();
    let left = || facts.left.as_ref().ok_or_else(|| missing(Side::Left));
    let vapour = || facts.vapour.as_ref().ok_or_else(|| Message::new("reconcile-scale-needs-vapor"));
    let mut parts: Vec<Share>;
    let (other, instrument) = match compared {
        Compared::Found => {
            let found = found.ok_or_else(|| missing(Side::Found))?;
            parts = found.parts.clone();
            let mut value = found.value;
            if by_scale {
                let (vapour, heel) = (vapour()?, left()?);
                value += vapour.value - heel.value;
                parts.extend(vapour.parts.iter().chain(&heel.parts).cloned());
            }
            (value, found.instrument.clone())
        }
        Compared::Received => {
            let received = facts.received.as_ref().ok_or_else(|| missing(Side::Received))?;
            parts = received.parts.clone();
            let mut value = received.value;
            let beside = if by_scale { vapour()? } else { left()? };
            value += beside.value;
            parts.extend(beside.parts.iter().cloned());
            (value, received.instrument.clone())
        }
    };
    let weighed = billed.unit != Unit::Gallon;
    let shipper = facts.paper.shipper.trim().to_lowercase();
    let billed = in_gallons(billed, found)?;
    if weighed || by_scale {
        parts.push(turned(billed, weighed, found, &shipper)?);
    }
    parts.push(Share {
        from: Message::new("reconcile-from-shipper"),
        key: format!("billed/{shipper}"),
        standard: billed * settings.billed_percent / 100.0 / COVERAGE,
    });
    let difference = other - billed;
    // What is shared through one instrument pulls one way within a car as well.
    let (shared, alone) = of_sum([parts.as_slice()]);
    let standard = shared.hypot(alone);
    if !(difference.is_finite() && standard.is_finite()) {
        return Err(Message::new("reconcile-no-numbers"));
    }
    let plus_minus = COVERAGE * standard;
    Ok(Comparison {
        compared,
        basis,
        method: method(compared, basis, weighed),
        billed,
        other,
        difference,
        percent: 100.0 * difference / billed,
        parts,
        standard,
        plus_minus,
        within: difference.abs() <= plus_minus,
        instrument,
    })
}

/// Returns the quantity billed in gallons. A weight is converted with the weight of a gallon according to the
/// car's own gauging.
fn in_gallons(billed: &Amounted, found: Option<&Amounted>) -> Result<f64, Message> {
    if billed.unit == Unit::Gallon {
        return Ok(billed.value);
    }
    let ratio = found.and_then(|found| found.pounds_per_gallon).filter(|ratio| *ratio > 0.0);
    let ratio = ratio.ok_or_else(|| Message::new("reconcile-weight-without-gauging"))?;
    Ok(billed.value / ratio)
}

/// Returns what turning a weight into gallons adds to the uncertainty: here by the density measured at the car, or at the
/// shipper's, where a weight is billed as gallons.
fn turned(billed: f64, weighed: bool, found: Option<&Amounted>, shipper: &str) -> Result<Share, Message> {
    let density = found.and_then(|found| found.density.as_ref());
    let density = density.ok_or_else(|| Message::new("reconcile-weight-without-gauging"))?;
    let (key, from) = match weighed {
        true => (density.key.clone(), density.from.clone()),
        false => (format!("density/{shipper}"), Message::new("reconcile-from-shipper-density")),
    };
    Ok(Share { from, key, standard: billed * density.standard })
}

/// Returns what was held against what.
fn method(compared: Compared, basis: BilledBy, weighed: bool) -> Message {
    let id = match (compared, basis == BilledBy::Scale, weighed) {
        (_, false, false) => "reconcile-method-liquid",
        (_, false, true) => "reconcile-method-liquid-weight",
        (Compared::Found, true, true) => "reconcile-method-scale",
        (Compared::Found, true, false) => "reconcile-method-scale-gallons",
        (Compared::Received, true, true) => "reconcile-method-scale-received",
        (Compared::Received, true, false) => "reconcile-method-scale-received-gallons",
    };
    Message::new(id).with("basis", basis.term())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use crate::facts::sample;

    fn amount(value: f64, unit: Unit, standard: f64, key: &str) -> Amounted {
        Amounted {
            value,
            unit,
            parts: vec![Share { from: Message::typed(key), key: key.to_owned(), standard }],
            how: Message::default(),
            instrument: String::new(),
            pounds_per_gallon: Some(4.25),
            density: Some(Share {
                from: Message::typed("hydrometer"),
                key: "density/h".into(),
                standard: 0.001,
            }),
        }
    }

    /// An invented car: 29 000 gal of liquid, 70 gal as vapor above it, 620 gal as vapor when it leaves; 28 300 gal
    /// were taken in. A gallon weighs 4.25 lb.
    fn stay(billed: f64, unit: Unit, by: Option<BilledBy>) -> Facts {
        let mut facts = sample("ZZQX 1");
        facts.paper.billed_by = by;
        facts.billed = Some(amount(billed, unit, 0.0, ""));
        facts.found = Some(amount(29_000.0, Unit::Gallon, 30.0, "outage/r"));
        facts.vapour = Some(amount(70.0, Unit::Gallon, 2.0, ""));
        facts.left = Some(amount(620.0, Unit::Gallon, 6.0, ""));
        facts.received = Some(amount(28_300.0, Unit::Gallon, 40.0, "meter/m"));
        facts
    }

    fn difference(facts: &Facts, compared: Compared) -> f64 {
        compare(facts, compared, &Settings::default()).unwrap().difference
    }

    #[test]
    fn liquid_is_held_against_liquid() {
        for by in [BilledBy::Table, BilledBy::Meter] {
            let facts = stay(29_050.0, Unit::Gallon, Some(by));
            assert!((difference(&facts, Compared::Found) + 50.0).abs() < 1e-9, "29 000 less 29 050");
            assert!(
                (difference(&facts, Compared::Received) + 130.0).abs() < 1e-9,
                "28 300 + 620 less 29 050"
            );
            let weight = stay(29_050.0 * 4.25, Unit::Pound, Some(by));
            assert!((difference(&weight, Compared::Found) + 50.0).abs() < 1e-9);
        }
    }

    /// By scale, 29 000 + 70 − 620 = 28 450 gal were loaded on top of the heel: 120 912.5 lb.
    #[test]
    fn by_scale_a_difference_of_weights_is_held_against_all_that_came_without_the_heel() {
        let facts = stay(28_450.0 * 4.25 + 425.0, Unit::Pound, Some(BilledBy::Scale));
        assert!((difference(&facts, Compared::Found) + 100.0).abs() < 1e-9, "425 lb are 100 gal");
        assert!(
            (difference(&facts, Compared::Received) + 180.0).abs() < 1e-9,
            "28 300 + 70 less 28 550: no residue"
        );
        // Liquid against a weight of everything would have made 450 gal over of it.
        let as_liquid = Facts {
            paper: crate::facts::PaperFacts { billed_by: Some(BilledBy::Meter), ..facts.paper.clone() },
            ..facts.clone()
        };
        assert!((difference(&as_liquid, Compared::Found) - 450.0).abs() < 1e-9);
        let comparison = compare(&facts, Compared::Found, &Settings::default()).unwrap();
        // 30 (outage), 2 (vapor), 6 (residue), 28 550 × 0.001 (density), 28 550 × 0.2 % / 2 (the shipper's).
        let squares = 30.0_f64.powi(2) + 4.0 + 36.0 + 28.55_f64.powi(2) + 28.55_f64.powi(2);
        assert!((comparison.standard - squares.sqrt()).abs() < 1e-9, "{}", comparison.standard);
        assert_eq!(comparison.basis, BilledBy::Scale);
        assert!(farsiding_words::english(&comparison.method).contains("difference of weights"));
    }

    /// What is loaded as 29 050 gal of liquid is, with 70 gal of vapor above it and without a heel of 620 gal, 28 500 gal by
    /// scale: whichever way the shipper measured, the car is short by the same quantity.
    #[test]
    fn one_car_has_one_difference_whichever_way_its_shipper_measured() {
        let by_table = stay(29_050.0, Unit::Gallon, Some(BilledBy::Table));
        let by_scale = stay(28_500.0 * 4.25, Unit::Pound, Some(BilledBy::Scale));
        for compared in [Compared::Found, Compared::Received] {
            let (table, scale) = (difference(&by_table, compared), difference(&by_scale, compared));
            assert!((table - scale).abs() < 1e-9, "{compared:?}: {table} by table, {scale} by scale");
        }
    }

    #[test]
    fn one_hydrometers_error_in_volume_and_weight_adds_up_within_a_car() {
        let mut facts = stay(28_450.0 * 4.25, Unit::Pound, Some(BilledBy::Scale));
        facts.found.as_mut().unwrap().parts = amount(0.0, Unit::Gallon, 10.0, "density/h").parts;
        let comparison = compare(&facts, Compared::Found, &Settings::default()).unwrap();
        let squares = 4.0 + 36.0 + (10.0 + 28.45_f64).powi(2) + 28.45_f64.powi(2);
        assert!((comparison.standard - squares.sqrt()).abs() < 1e-9, "{}", comparison.standard);
    }

    #[test]
    fn a_bill_of_which_nobody_said_how_it_was_measured_is_not_compared_unless_the_shipper_is_known() {
        let mut facts = stay(29_050.0, Unit::Gallon, None);
        facts.paper.shipper = "North Terminal (invented)".to_owned();
        let why = compare(&facts, Compared::Found, &Settings::default()).unwrap_err();
        assert!(farsiding_words::english(&why).contains("how the bill was measured"), "{why:?}");
        let mut settings = Settings::default();
        settings.billed_by.insert("north terminal (invented)".to_owned(), BilledBy::Meter);
        assert!(compare(&facts, Compared::Found, &settings).is_ok());
        facts.paper.billed_by = Some(BilledBy::Scale);
        let said = compare(&facts, Compared::Found, &settings).unwrap();
        assert_eq!(said.basis, BilledBy::Scale, "what the paper says goes before");
    }

    #[test]
    fn by_scale_nothing_is_presumed_for_vapor_or_residue_that_is_not_known() {
        let mut facts = stay(120_000.0, Unit::Pound, Some(BilledBy::Scale));
        facts.vapour = None;
        assert!(compare(&facts, Compared::Found, &Settings::default()).is_err());
        assert!(compare(&facts, Compared::Received, &Settings::default()).is_err());
        facts = stay(120_000.0, Unit::Pound, Some(BilledBy::Scale));
        facts.left = None;
        assert!(compare(&facts, Compared::Found, &Settings::default()).is_err());
        assert!(compare(&facts, Compared::Received, &Settings::default()).is_ok(), "it is on neither side");
    }
}
