//! Correction for the temperature of the liquid, API MPMS 11.2.4 (2007) / GPA TP-27: tables 23E and 24E.
//!
//! This module holds the tables in °F and relative density. The metric tables are in `ctl::metric`, the
//! parameters in `ctl::reference_fluids`. `calc::quantity` and `calc::lines` call it.
//!
//! The tables are not valid for propylene: the method interpolates between ethane, propane and heavier
//! paraffins by density alone and has an error of −1.7 to +3.0 % between −40 and 130 °F (independent
//! calculation, CoolProp 8.0.0).

pub mod metric;
mod reference_fluids;

use self::reference_fluids::{REFERENCE_FLUIDS, ReferenceFluid};
use super::error::{CalcError, Limits, Range, input};
use super::rounding::half_away;
use super::sources;
use super::uncertainty::{Measured, Method, propagate};
use crate::Message;
use crate::units::{Computed, Unit};

const LIMITS: Limits = Limits::Document("API MPMS 11.2.4 / GPA TP-27");
/// Temperatures of tables 23E and 24E, after rounding to 0.1 °F.
pub const TEMPERATURE_F: Range = Range::new(-50.8, 199.4, Unit::Fahrenheit, LIMITS);
/// Relative densities at 60 °F of table 24E, after rounding to 0.0001.
pub const RD60: Range = Range::new(0.35, 0.688, Unit::One, LIMITS);
/// Observed relative densities of table 23E, after rounding to 0.0001.
pub const RD_OBSERVED: Range = Range::new(0.21, 0.74, Unit::One, LIMITS);

/// The formula id of table 24E.
pub const FORMULA_24E: &str = "ctl/1";
/// The formula id of table 23E.
pub const FORMULA_23E: &str = "rd60/1";

/// The uncertainty of the tables. They agree with the data behind them within about ±0.3 %; the number is the
/// standard uncertainty relative to the result. From memory; common practice.
const METHOD: Method = Method::Relative("table 24e", 0.001);

fn temperature_to_table(temperature_f: f64) -> Result<f64, CalcError> {
    TEMPERATURE_F.check("temperature", half_away(temperature_f, 1))
}

/// Table 24E as printed: CTL at 60 °F base, rounded.
///
/// Inputs: temperature of the liquid, °F (−50.8 to 199.4, rounded to 0.1); relative density at 60 °F
/// (0.3500 to 0.6880, rounded to 0.0001). Result to 0.00001. Method: TP-27, 24E procedure: two reference
/// fluids around the density, corresponding states, interpolation. What makes it wrong: a density at
/// another temperature, olefins (propylene), a temperature that is not the bulk liquid's.
///
/// # Errors
/// Out of range, not a number, or above the pseudo-critical temperature of that density.
///
/// ```
/// use farsiding_measure::calc::ctl::table_24e;
///
/// assert_eq!(table_24e(80.0, 0.51), Ok(0.96709));
/// assert!(table_24e(250.0, 0.51).is_err());
/// ```
pub fn table_24e(temperature_f: f64, rd60: f64) -> Result<f64, CalcError> {
    let temperature_f = temperature_to_table(temperature_f)?;
    let rd60 = RD60.check("relative density", half_away(rd60, 4))?;
    unrounded_24e(temperature_f, rd60).map(|ctl| half_away(ctl, 5))
}

/// Table 23E as printed: relative density at 60 °F from one observed at another temperature, rounded.
///
/// Inputs: temperature, °F (−50.8 to 199.4, rounded to 0.1); observed relative density (0.2100 to 0.7400,
/// rounded to 0.0001). Result to 0.0001. Method: the density whose 24E correction gives the observation
/// back, bracketed (the product is monotone). What makes it wrong: as [`table_24e`].
///
/// # Errors
/// Out of range, not a number, or no density at 60 °F within 0.3500 to 0.6880 gives the observation.
pub fn table_23e(temperature_f: f64, rd_observed: f64) -> Result<f64, CalcError> {
    let temperature_f = temperature_to_table(temperature_f)?;
    let observed = RD_OBSERVED.check("observed relative density", half_away(rd_observed, 4))?;
    unrounded_23e(temperature_f, observed).map(|rd60| half_away(rd60, 4))
}

/// Table 24E with uncertainty: the rounded value, and ± from the inputs through the unrounded equation.
///
/// # Errors
/// As [`table_24e`].
pub fn ctl(temperature: &Measured, rd60: &Measured) -> Result<Computed, CalcError> {
    let (temperature, rd60) = (temperature.to(Unit::Fahrenheit)?, rd60.to(Unit::One)?);
    let value = table_24e(temperature.value, rd60.value)?;
    with_spread(value, &temperature, &rd60, unrounded_24e, (FORMULA_24E, sources::TABLE_24E))
}

/// Table 23E with uncertainty, see [`ctl`].
///
/// # Errors
/// As [`table_23e`].
pub fn rd60(temperature: &Measured, rd_observed: &Measured) -> Result<Computed, CalcError> {
    let (temperature, observed) = (temperature.to(Unit::Fahrenheit)?, rd_observed.to(Unit::One)?);
    let value = table_23e(temperature.value, observed.value)?;
    with_spread(value, &temperature, &observed, unrounded_23e, (FORMULA_23E, sources::TABLE_23E))
}

fn with_spread(
    value: f64,
    temperature: &Measured,
    density: &Measured,
    equation: fn(f64, f64) -> Result<f64, CalcError>,
    (formula, source): (&str, &str),
) -> Result<Computed, CalcError> {
    // The spread is taken around the rounded inputs: at the edge of the table the raw ones lie outside it.
    let around = [
        Measured { value: half_away(temperature.value, 1), ..temperature.clone() },
        Measured { value: half_away(density.value, 4), ..density.clone() },
    ];
    let spread = propagate(&[&around[0], &around[1]], METHOD, |x| equation(x[0], x[1]))?;
    Ok(Computed { value, ..spread.computed(Unit::One, formula, &sources::cited(source), Vec::new()) })
}

/// The equation of table 24E without any rounding, in °F. Used between tables and for sensitivities.
///
/// # Errors
/// Outside the reference fluids, or above the pseudo-critical temperature.
pub fn unrounded_24e(temperature_f: f64, rd60: f64) -> Result<f64, CalcError> {
    const REFERENCE: Range = Range::new(0.325_022, 0.688_039, Unit::One, LIMITS);
    REFERENCE.check("relative density", rd60)?;
    if !temperature_f.is_finite() {
        return Err(CalcError::not_a_number("temperature", temperature_f));
    }
    let kelvin = (temperature_f + 459.67) / 1.8;
    let (light, heavy, part) = neighbours(rd60);
    let critical = light.critical_kelvin + part * (heavy.critical_kelvin - light.critical_kelvin);
    let reduced = kelvin / critical;
    if reduced > 1.0 || reduced <= 0.0 {
        return Err(CalcError::OutOfRange {
            input: Box::new(input("temperature")),
            value: temperature_f,
            low: TEMPERATURE_F.low,
            high: critical * 1.8 - 459.67,
            unit: Unit::Fahrenheit,
            why: Some(Box::new(Message::new("calc-limits-critical"))),
        });
    }
    let reduced_60 = 519.67 / (1.8 * critical);
    let scale =
        (light.critical_z * light.critical_mol_per_litre) / (heavy.critical_z * heavy.critical_mol_per_litre);
    let blend = |reduced: f64| {
        let (of_light, of_heavy) = (light.saturated(reduced), heavy.saturated(reduced));
        of_light / (1.0 + part * (of_light / (scale * of_heavy) - 1.0))
    };
    Ok(blend(reduced) / blend(reduced_60))
}

/// The equation of table 23E without any rounding, in °F.
///
/// # Errors
/// No density at 60 °F within table 24E gives the observation.
pub fn unrounded_23e(temperature_f: f64, rd_observed: f64) -> Result<f64, CalcError> {
    let observed_from = |rd60: f64| unrounded_24e(temperature_f, rd60).map(|ctl| rd60 * ctl);
    // Light liquids do not exist above their pseudo-critical temperature, so start at the lightest that does.
    let mut low = RD60.low;
    let mut high = RD60.high;
    if observed_from(low).is_err() {
        let (mut without, mut with) = (low, high);
        observed_from(with)?;
        for _ in 0..60 {
            let middle = 0.5 * (without + with);
            if observed_from(middle).is_ok() { with = middle } else { without = middle }
        }
        low = with;
    }
    let (least, most) = (observed_from(low)?, observed_from(high)?);
    Range::new(least, most, Unit::One, Limits::Reason("calc-limits-base-density"))
        .check("observed relative density", rd_observed)?;
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if observed_from(middle)? < rd_observed { low = middle } else { high = middle }
    }
    Ok(0.5 * (low + high))
}

/// The reference fluids either side of a relative density and how far it lies between them, 0 to 1.
fn neighbours(rd60: f64) -> (&'static ReferenceFluid, &'static ReferenceFluid, f64) {
    let above = REFERENCE_FLUIDS.iter().position(|fluid| fluid.rd60 >= rd60);
    let heavy = above.unwrap_or(REFERENCE_FLUIDS.len() - 1).max(1);
    let (light, heavy) = (&REFERENCE_FLUIDS[heavy - 1], &REFERENCE_FLUIDS[heavy]);
    (light, heavy, (rd60 - light.rd60) / (heavy.rd60 - light.rd60))
}

impl ReferenceFluid {
    /// Saturated liquid density in mol/L at a reduced temperature. The denominator divides all three terms.
    fn saturated(&self, reduced: f64) -> f64 {
        let below = 1.0 - reduced;
        let [k1, k2, k3, k4] = self.k;
        let sum = k1 * below.powf(0.35) + k3 * below * below + k4 * below * below * below;
        self.critical_mol_per_litre * (1.0 + sum / (1.0 + k2 * below.powf(0.65)))
    }
}
