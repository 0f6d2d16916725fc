//! The car's shell from its dimensions: the liquid volume under an outage.
//!
//! This module computes cylinders with flat, ellipsoidal or custom heads. The owner's outage table, which
//! takes precedence if there is one, is in `calc::outage_table`.

use std::f64::consts::PI;

use super::error::{CalcError, Limits, Range};
use super::sources;
use super::uncertainty::{Measured, Method, propagate};
use crate::units::{Computed, Finding, Severity, Unit};
use crate::{Arg, message};

/// The formula id.
pub const FORMULA: &str = "outage_volume/1";
/// The accepted inside diameters.
pub const DIAMETER_IN: Range = Range::new(12.0, 240.0, Unit::Inch, Limits::TOOL);
/// The accepted shell volumes.
pub const TOTAL_GAL: Range = Range::new(10.0, 100_000.0, Unit::Gallon, Limits::TOOL);

/// The shape of the two heads, by their depth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Heads {
    /// 2:1 ellipsoidal: depth a quarter of the inside diameter.
    TwoToOne,
    /// Flat.
    Flat,
    /// Hemispherical: depth half the diameter.
    Hemispherical,
    /// Spheroidal of that depth in metres, more than flat and at most half the diameter.
    Depth(f64),
}

/// A horizontal shell. Lengths in metres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shell {
    radius: f64,
    head_depth: f64,
    straight: f64,
}

impl Shell {
    /// From inside diameter and seam-to-seam length of the cylinder, metres.
    ///
    /// # Errors
    /// Out of range, not a number, heads deeper than half the diameter.
    pub fn from_length(diameter: f64, heads: Heads, straight: f64) -> Result<Shell, CalcError> {
        DIAMETER_IN.check("diameter", Unit::Inch.from_si(diameter))?;
        const STRAIGHT_IN: Range = Range::new(0.0, 2_400.0, Unit::Inch, Limits::TOOL);
        STRAIGHT_IN.check("straight length", Unit::Inch.from_si(straight))?;
        let radius = 0.5 * diameter;
        let head_depth = match heads {
            Heads::TwoToOne => 0.5 * radius,
            Heads::Flat => 0.0,
            Heads::Hemispherical => radius,
            Heads::Depth(depth) => depth,
        };
        let most = Unit::Inch.from_si(radius);
        Range::new(0.0, most * (1.0 + 1e-12), Unit::Inch, Limits::Reason("calc-limits-half-diameter"))
            .check("head depth", Unit::Inch.from_si(head_depth))?;
        Ok(Shell { radius, head_depth, straight })
    }

    /// From inside diameter (m) and the total volume (m³): the straight length follows.
    ///
    /// # Errors
    /// As [`Shell::from_length`]; [`CalcError::Inconsistent`] when the heads alone hold more.
    pub fn from_total(diameter: f64, heads: Heads, total: f64) -> Result<Shell, CalcError> {
        TOTAL_GAL.check("total volume", Unit::Gallon.from_si(total))?;
        let only_heads = Shell::from_length(diameter, heads, 0.0)?;
        let left = total - only_heads.total();
        if left < 0.0 {
            return Err(CalcError::Inconsistent(message!(
                "calc-heads-hold-more",
                diameter = Unit::Inch.figure(Unit::Inch.from_si(diameter), 2),
                heads = Unit::Gallon.figure(Unit::Gallon.from_si(only_heads.total()), 0),
                total = Unit::Gallon.figure(Unit::Gallon.from_si(total), 0),
            )));
        }
        let radius = only_heads.radius;
        Shell::from_length(diameter, heads, left / (PI * radius * radius))
    }

    /// Volume when full, m³.
    pub fn total(&self) -> f64 {
        PI * self.radius * self.radius * (self.straight + 4.0 / 3.0 * self.head_depth)
    }

    /// Inside diameter, m.
    pub const fn diameter(&self) -> f64 {
        2.0 * self.radius
    }

    /// Seam-to-seam length of the cylinder, m.
    pub const fn straight(&self) -> f64 {
        self.straight
    }

    /// Liquid volume (m³) when the surface stands `outage` metres under the top of the shell.
    ///
    /// V(h) = L [r² acos((r−h)/r) − (r−h) √(2rh−h²)] + π (a/r) h² (r − h/3), h = 2r − outage.
    ///
    /// # Errors
    /// Outage outside 0 to the diameter, or not a number.
    pub fn liquid(&self, outage: f64) -> Result<f64, CalcError> {
        let diameter_in = Unit::Inch.from_si(self.diameter());
        let outage_in = Unit::Inch.from_si(outage);
        // A conversion there and back may leave the edge by a hair; the reading itself may not.
        let range = Range::new(-1e-9, diameter_in + 1e-9, Unit::Inch, Limits::Reason("calc-limits-diameter"));
        range.check("outage", outage_in)?;
        let r = self.radius;
        let h = (2.0 * r - outage).clamp(0.0, 2.0 * r);
        let circle = r * r * (1.0 - h / r).acos() - (r - h) * (2.0 * r * h - h * h).max(0.0).sqrt();
        let heads = PI * self.head_depth / r * h * h * (r - h / 3.0);
        Ok((self.straight * circle + heads).clamp(0.0, self.total()))
    }
}

/// Liquid in a shell with 2:1 or other heads, from outage, inside diameter and total volume.
///
/// Inputs: outage (0 to the diameter), inside diameter (12–240 in), total volume (10–100 000 gal). Result:
/// gal at the liquid's own temperature. Method: closed form, see [`Shell::liquid`]. What makes it wrong: a
/// shell that slopes (many cars fall to the middle), dents, inside coils, an outage read at a slope or from
/// another datum than the top of the shell.
///
/// # Errors
/// Out of range, not a number, wrong unit, heads that hold more than the total.
///
/// ```
/// use farsiding_measure::calc::Measured;
/// use farsiding_measure::calc::tank::{Heads, outage_volume};
/// use farsiding_measure::units::Unit;
///
/// let outage = Measured::within("outage", 59.5, Unit::Inch, 0.125);
/// let diameter = Measured::exact("diameter", 119.0, Unit::Inch);
/// let total = Measured::exact("total volume", 33_000.0, Unit::Gallon);
/// let liquid = outage_volume(&outage, &diameter, &total, Heads::TwoToOne)?;
/// // An outage of half the diameter means that the shell is half full.
/// assert!((liquid.value - 16_500.0).abs() < 1e-6);
/// assert!(liquid.plus_minus.is_some_and(|plus_minus| plus_minus > 0.0));
/// # Ok::<(), farsiding_measure::calc::CalcError>(())
/// ```
pub fn outage_volume(
    outage: &Measured,
    diameter: &Measured,
    total: &Measured,
    heads: Heads,
) -> Result<Computed, CalcError> {
    let outage = outage.to(Unit::Inch)?;
    let diameter = diameter.checked(DIAMETER_IN)?;
    let total = total.checked(TOTAL_GAL)?;
    Range::new(0.0, diameter.value, Unit::Inch, Limits::Reason("calc-limits-diameter"))
        .check("outage", outage.value)?;
    let liquid = |x: &[f64]| {
        let shell = Shell::from_total(Unit::Inch.to_si(x[1]), heads, Unit::Gallon.to_si(x[2]))?;
        shell.liquid(Unit::Inch.to_si(x[0])).map(|volume| Unit::Gallon.from_si(volume))
    };
    let gallons = propagate(&[&outage, &diameter, &total], Method::Exact, liquid)?;
    let mut findings = Vec::new();
    if gallons.value > 0.98 * total.value {
        let full = 100.0 * gallons.value / total.value;
        findings.push(Finding::new(
            "nearly_full",
            Severity::Alarm,
            message!("calc-nearly-full", share = Arg::number(full, 1)),
        ));
    }
    Ok(gallons.computed(Unit::Gallon, FORMULA, &sources::said("calc-source-geometry"), findings))
}
