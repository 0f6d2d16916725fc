//! The bounds of amounts: the least and the greatest value of each dimension.
//!
//! The bounds do not judge readings. They are so wide that nothing at a siding, at a tank or in an office
//! comes near them, and exclude only values that no instrument shows and that arithmetic cannot handle: 1e17
//! psi, a span of 1e-20, infinity, NaN. A value outside the bounds is kept and shown as typed, but neither
//! drawn nor used in computations. [`super::Amount`] and readers of numbers without a unit apply the bounds.
//! Which readings are unusual for a car is decided in `calc` and `view::findings`.

use super::{Dimension, Unit};

/// The smallest absolute value other than zero, in SI units: a thousandth of a microlitre, or a billionth of
/// a pascal (chosen for this program, no source).
pub const FINEST: f64 = 1e-9;

/// The greatest number of bolts of a housing cover. Twenty are usual (common practice, no source), and a ring
/// of three times as many still fits a drawing.
pub const MOST_BOLTS: u16 = 64;

/// The greatest number of rows of an outage table. A table with a row for each sixteenth of an inch of the
/// widest shell has about 2000.
pub const MOST_TABLE_ROWS: usize = 2_048;

/// The time in milliseconds (31 days) before and after the middle reading within which the other readings
/// appear in a drawing. The readings of one car lie within hours or days of each other. Readings farther
/// apart come from a clock that was never set (1970) or was set wrong, and appear only in the table beside
/// the drawing.
pub const DRAWN_AROUND_MILLIS: i64 = 31 * 24 * 60 * 60 * 1000;

impl Dimension {
    /// Returns the least and the greatest plausible value in SI units. Each bound was chosen for this program
    /// for the reason stated beside it.
    pub const fn plausible(self) -> (f64, f64) {
        match self {
            // From below vacuum, as a gauge with a zero error may show, to 100 MPa. Shells burst at about 3
            // MPa to 7 MPa, and hydraulic tools work at 70 MPa.
            Dimension::GaugePressure => (-1.2e5, 1e8),
            // The same bounds above vacuum, with a margin below it for a gauge with a zero error.
            Dimension::AbsolutePressure => (-1e4, 1e8),
            // From absolute zero to above any flame (a cutting torch reaches about 3500 K).
            Dimension::Temperature => (0.0, 5e3),
            Dimension::TemperatureDifference => (-5e3, 5e3),
            // Lengths include elevations: from the deepest mine to above the highest mountain.
            Dimension::Length => (-1e4, 1e4),
            // A refrigerated tank at a sea terminal holds 1e5 m³. Negative values occur as differences.
            Dimension::Volume => (-1e6, 1e6),
            // Ten full trains of tank cars weigh 1e8 kg.
            Dimension::Mass => (-1e8, 1e8),
            // The densest metal has 22 600 kg/m³.
            Dimension::Density => (0.0, 2.5e4),
            // A pump at a siding moves 0.05 m³/s.
            Dimension::VolumeRate => (-1e2, 1e2),
            // A person with a long bar reaches 2e3 N·m.
            Dimension::Torque => (-1e6, 1e6),
            // A hundred years.
            Dimension::Time => (-3.2e9, 3.2e9),
            // Up to 100 000 %: percents and relative densities are below 2.
            Dimension::Ratio => (-1e3, 1e3),
            // No thread has a thousand turns.
            Dimension::Turns => (-1e3, 1e3),
            Dimension::Count => (-1e6, 1e6),
            // More than any invoice, in any currency.
            Dimension::Money => (-1e13, 1e13),
            Dimension::MoneyRate => (-1e10, 1e10),
        }
    }
}

impl Unit {
    /// Returns true if a value in this unit is possible: it is finite, within [`Dimension::plausible`], and
    /// either zero or at least [`FINEST`] in size.
    pub fn can_be(self, value: f64) -> bool {
        let si = self.to_si(value);
        let (least, greatest) = self.dimension().plausible();
        let fine_enough = value == 0.0 || value.abs() >= FINEST;
        // A rounding error in the conversion must not exclude the bound itself.
        let slack = 1e-9 * least.abs().max(greatest.abs());
        value.is_finite() && fine_enough && si >= least - slack && si <= greatest + slack
    }
}

/// Returns true if the rows of an outage table are possible: there are not too many, and each is an outage in
/// inches and a volume in gallons within the bounds.
pub fn table_can_be(rows: &[(f64, f64)]) -> bool {
    rows.len() <= MOST_TABLE_ROWS
        && rows.iter().all(|(outage, volume)| Unit::Inch.can_be(*outage) && Unit::Gallon.can_be(*volume))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Values that occur at sidings, tanks and offices are well within the bounds.
    #[test]
    fn what_the_trade_writes_is_within_the_bounds() {
        for (unit, values) in [
            (Unit::PsiGauge, &[-14.7, 0.0, 118.0, 1_000.0, 10_000.0][..]),
            (Unit::BarGauge, &[-1.0, 0.0, 700.0]),
            (Unit::PsiAbsolute, &[0.0, 14.7]),
            (Unit::Fahrenheit, &[-459.67, -80.0, 0.0, 60.0, 2_000.0]),
            (Unit::Celsius, &[-273.15, 15.0]),
            (Unit::Kelvin, &[0.0, 288.15]),
            (Unit::Foot, &[-280.0, 0.0, 29_032.0]),
            (Unit::Inch, &[0.0, 0.0625, 120.0]),
            (Unit::Gallon, &[0.0, 1.0, 33_700.0, 26_000_000.0]),
            (Unit::Pound, &[0.0, 263_000.0]),
            (Unit::One, &[0.0, 0.5, 1.0]),
            (Unit::Percent, &[0.0, 2.5, 100.0]),
            (Unit::GallonPerHour, &[0.0, 1.0, 30_000.0]),
            (Unit::Turns, &[0.0, 0.5, 12.0]),
            (Unit::Money, &[0.01, 1e9]),
        ] {
            for value in values {
                assert!(unit.can_be(*value), "{value} {unit}");
            }
        }
    }

    #[test]
    fn what_no_instrument_shows_is_outside() {
        for unit in Unit::ALL {
            for value in
                [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 1e17, -1e17, f64::MAX, 1e-20, 5e-324, -1e-300]
            {
                assert!(!unit.can_be(value), "{value} {unit}");
            }
        }
        assert!(!Unit::Fahrenheit.can_be(-460.0) && !Unit::PsiGauge.can_be(-30.0));
        assert!(!table_can_be(&[(0.0, f64::NAN)]) && !table_can_be(&vec![(1.0, 1.0); MOST_TABLE_ROWS + 1]));
        assert!(table_can_be(&[(0.0, 33_000.0), (0.25, 32_990.0)]));
    }
}
