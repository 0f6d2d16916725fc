//! The uncertainty of readings: gauges by grade and span, thermometers, gauge rods, hydrometers.
//!
//! This module converts a reading to a [`Measured`] with findings. The view calls it with the instruments
//! from the site's document, and `calc::lines` calls it as well.

use serde::{Deserialize, Serialize};

use super::error::{CalcError, Limits, Range, input};
use super::uncertainty::Measured;
use crate::message;
use crate::units::{Finding, Severity, Unit};

/// The factor by which an instrument's limits are widened if its calibration is overdue. Common practice, no
/// source.
pub const OVERDUE_FACTOR: f64 = 2.0;

/// Accuracy grades of dial gauges, ASME B40.100. Per cent of span, from memory.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum GaugeGrade {
    /// ±0.1 % of span.
    #[serde(rename = "4A")]
    FourA,
    /// ±0.25 %.
    #[serde(rename = "3A")]
    ThreeA,
    /// ±0.5 %.
    #[serde(rename = "2A")]
    TwoA,
    /// ±1 %.
    #[serde(rename = "1A")]
    OneA,
    /// ±2 %, ±1 % in the middle half.
    A,
    /// ±3 %, ±2 % in the middle half.
    B,
    /// ±4 %, ±3 % in the middle half.
    C,
    /// ±5 %.
    D,
}

impl GaugeGrade {
    /// Every grade, best first.
    pub const ALL: [GaugeGrade; 8] = [
        GaugeGrade::FourA,
        GaugeGrade::ThreeA,
        GaugeGrade::TwoA,
        GaugeGrade::OneA,
        GaugeGrade::A,
        GaugeGrade::B,
        GaugeGrade::C,
        GaugeGrade::D,
    ];

    /// The grade as marked on the dial.
    pub const fn mark(self) -> &'static str {
        match self {
            GaugeGrade::FourA => "4A",
            GaugeGrade::ThreeA => "3A",
            GaugeGrade::TwoA => "2A",
            GaugeGrade::OneA => "1A",
            GaugeGrade::A => "A",
            GaugeGrade::B => "B",
            GaugeGrade::C => "C",
            GaugeGrade::D => "D",
        }
    }

    /// Limits in per cent of span: in the outer quarters, in the middle half.
    const fn per_cent(self) -> (f64, f64) {
        match self {
            GaugeGrade::FourA => (0.1, 0.1),
            GaugeGrade::ThreeA => (0.25, 0.25),
            GaugeGrade::TwoA => (0.5, 0.5),
            GaugeGrade::OneA => (1.0, 1.0),
            GaugeGrade::A => (2.0, 1.0),
            GaugeGrade::B => (3.0, 2.0),
            GaugeGrade::C => (4.0, 3.0),
            GaugeGrade::D => (5.0, 5.0),
        }
    }

    /// Half-width of the limits at a reading, in the unit of `span`. The quarter marks belong to the middle.
    pub fn half_width(self, reading: f64, span: f64) -> f64 {
        let (outer, middle) = self.per_cent();
        let in_middle = (0.25 * span..=0.75 * span).contains(&reading);
        span * if in_middle { middle } else { outer } / 100.0
    }
}

/// A dial gauge from zero to its span.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Gauge {
    /// Its grade.
    pub grade: GaugeGrade,
    /// Full scale, in `unit`.
    pub span: f64,
    /// Unit of the dial.
    pub unit: Unit,
    /// Whether its calibration date has passed.
    pub overdue: bool,
}

impl Gauge {
    /// A reading of this gauge as a measured pressure.
    ///
    /// Uncertainty: the grade's limits, rectangular, doubled when calibration is overdue. Findings: overdue
    /// calibration; a reading in the lowest tenth of the span, where a lower-range gauge tells more.
    ///
    /// # Errors
    /// Not a number; wrong unit; below −1 % of span or above the span (the pointer is off its scale).
    pub fn measured(
        &self,
        name: &str,
        reading: f64,
        unit: Unit,
    ) -> Result<(Measured, Vec<Finding>), CalcError> {
        Range::new(1e-3, 1e6, self.unit, Limits::Unsaid).check("span", self.span)?;
        let on_dial = Measured::exact(name, reading, unit).to(self.unit)?;
        Range::new(-0.01 * self.span, self.span, self.unit, Limits::Reason("calc-limits-scale"))
            .check(name, on_dial.value)?;
        let mut findings = Vec::new();
        let mut half_width = self.grade.half_width(on_dial.value, self.span);
        if self.overdue {
            half_width *= OVERDUE_FACTOR;
            findings.push(overdue(name));
        }
        if on_dial.value < 0.1 * self.span && on_dial.value != 0.0 {
            findings.push(Finding::new(
                "low_on_scale",
                Severity::Note,
                message!(
                    "calc-gauge-low",
                    reading = unit.plain(reading),
                    span = self.unit.plain(self.span),
                    half_width = self.unit.figure(half_width, 1),
                ),
            ));
        }
        Ok((Measured::within(name, on_dial.value, self.unit, half_width), findings))
    }
}

/// The gauge presumed when nobody recorded one: grade B, span 60 psi up to 60 psig, 160 to 160, else 400.
/// Common practice, no source.
pub fn presumed_gauge(psig: f64) -> Gauge {
    let span = [60.0, 160.0, 400.0].into_iter().find(|span| psig <= *span).unwrap_or(600.0);
    Gauge { grade: GaugeGrade::B, span, unit: Unit::PsiGauge, overdue: false }
}

/// An instrument with one limit over its whole range: thermometer, gauge rod, hydrometer.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Limited {
    /// Half-width of its limits, in `unit` (for a temperature: degrees of that scale).
    pub half_width: f64,
    /// Unit.
    pub unit: Unit,
    /// Whether its calibration date has passed.
    pub overdue: bool,
}

impl Limited {
    /// A thermometer in a well, ±1 °F. Common practice, no source.
    pub const THERMOMETER: Limited = Limited { half_width: 1.0, unit: Unit::Fahrenheit, overdue: false };
    /// A gauge rod read at the car, ±1/8 in. Common practice, no source.
    pub const GAUGE_ROD: Limited = Limited { half_width: 0.125, unit: Unit::Inch, overdue: false };
    /// A pressure hydrometer, ±0.001. Common practice, no source.
    pub const HYDROMETER: Limited = Limited { half_width: 0.001, unit: Unit::One, overdue: false };

    /// A reading of this instrument, in its own unit.
    ///
    /// # Errors
    /// Not a number, or a unit of another kind.
    pub fn measured(
        &self,
        name: &str,
        reading: f64,
        unit: Unit,
    ) -> Result<(Measured, Vec<Finding>), CalcError> {
        let value = Measured::exact(name, reading, unit).to(self.unit)?.value;
        let factor = if self.overdue { OVERDUE_FACTOR } else { 1.0 };
        let findings = if self.overdue { vec![overdue(name)] } else { Vec::new() };
        Ok((Measured::within(name, value, self.unit, factor * self.half_width), findings))
    }
}

fn overdue(name: &str) -> Finding {
    Finding::new(
        "calibration_overdue",
        Severity::Check,
        message!("calc-calibration-overdue", input = input(name)),
    )
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may stop at a surprise")]
    use super::*;

    /// Limits as used in an independent calculation of residue: grade B, 60 psi span.
    #[test]
    fn a_grade_b_gauge_is_best_in_its_middle_half() {
        for (reading, limit) in [(10.0, 1.8), (15.0, 1.2), (40.0, 1.2), (45.0, 1.2), (60.0, 1.8)] {
            assert_eq!(GaugeGrade::B.half_width(reading, 60.0), limit, "{reading}");
        }
    }

    #[test]
    fn an_overdue_gauge_counts_for_less_and_says_so() {
        let fresh = Gauge { overdue: false, ..presumed_gauge(30.0) };
        let late = Gauge { overdue: true, ..fresh };
        let (fresh, none) = fresh.measured("pressure", 30.0, Unit::PsiGauge).unwrap();
        let (late, findings) = late.measured("pressure", 30.0, Unit::PsiGauge).unwrap();
        assert_eq!(late.standard, 2.0 * fresh.standard);
        assert!(none.is_empty() && findings[0].code == "calibration_overdue");
    }

    #[test]
    fn a_pointer_off_its_scale_is_no_reading() {
        let gauge = presumed_gauge(30.0);
        for reading in [61.0, -5.0, f64::NAN] {
            assert!(gauge.measured("pressure", reading, Unit::PsiGauge).is_err());
        }
        assert!(gauge.measured("pressure", 30.0, Unit::PsiAbsolute).is_err());
    }

    #[test]
    fn a_bar_reading_is_taken_on_a_psi_dial() {
        let (measured, _) = presumed_gauge(30.0).measured("pressure", 2.0, Unit::BarGauge).unwrap();
        assert!((measured.value - 29.0075).abs() < 1e-3);
    }
}
