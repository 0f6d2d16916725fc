//! Compares the quantities of one car: found against billed, and received (including what was left in the
//! car) against billed.
//!
//! Both sides are in net gallons at 60 °F. The difference keeps the named parts of its uncertainty, so that
//! `totals` and `bias` can add the parts that cars share in the right way. Called by `report`.

use farsiding_core::calc::uncertainty::COVERAGE;
use farsiding_core::units::Unit;
use serde::{Deserialize, Serialize};

use super::Settings;
use crate::facts::{Amounted, Facts, Share};

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

    /// Returns the comparison in words, for people.
    pub const fn words(self) -> &'static str {
        match self {
            Compared::Found => "found on arrival less billed",
            Compared::Received => "taken in and left less billed",
        }
    }
}

/// A difference with its uncertainty.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Comparison {
    /// The compared quantities.
    pub compared: Compared,
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
/// Returns a sentence on why the quantities cannot be compared.
pub fn compare(facts: &Facts, compared: Compared, settings: &Settings) -> Result<Comparison, String> {
    let missing = |what: &str| {
        let said = facts.missing.iter().find(|why| why.starts_with(what)).cloned();
        said.unwrap_or_else(|| format!("{what}: not recorded"))
    };
    let billed = facts.billed.as_ref().ok_or_else(|| missing("billed"))?;
    let found = facts.found.as_ref();
    let mut parts: Vec<Share>;
    let (other, instrument) = match compared {
        Compared::Found => {
            let found = found.ok_or_else(|| missing("found"))?;
            parts = found.parts.clone();
            (found.value, found.instrument.clone())
        }
        Compared::Received => {
            let received = facts.received.as_ref().ok_or_else(|| missing("received"))?;
            let left = facts.left.as_ref().ok_or_else(|| missing("left"))?;
            parts = received.parts.iter().chain(&left.parts).cloned().collect();
            (received.value + left.value, received.instrument.clone())
        }
    };
    let billed = in_gallons(billed, found)?;
    let shipper = facts.paper.shipper.to_lowercase();
    parts.push(Share {
        from: "the shipper's measure".to_owned(),
        key: format!("billed/{shipper}"),
        standard: billed * settings.billed_percent / 100.0 / COVERAGE,
    });
    let difference = other - billed;
    let standard = parts.iter().fold(0.0_f64, |sum, part| sum.hypot(part.standard));
    if !(difference.is_finite() && standard.is_finite()) {
        return Err("the quantities are no numbers".to_owned());
    }
    let plus_minus = COVERAGE * standard;
    Ok(Comparison {
        compared,
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
fn in_gallons(billed: &Amounted, found: Option<&Amounted>) -> Result<f64, String> {
    if billed.unit == Unit::Gallon {
        return Ok(billed.value);
    }
    let ratio = found.and_then(|found| found.pounds_per_gallon).filter(|ratio| *ratio > 0.0);
    let ratio = ratio.ok_or("billed by weight, and what a gallon weighs is not known without gauging")?;
    Ok(billed.value / ratio)
}
