//! US customary units by their exact definitions, added to `uom` because its own are rounded to seven digits.
//!
//! The inch is 25.4 mm, the pound 0.453 592 37 kg and the gallon 231 in³, all exactly; standard gravity is
//! 9.806 65 m/s² (NIST SP 811, 2008, Appendix B). Every other factor here follows from these four.

/// Metres in an inch, exact.
pub const INCH: f64 = 0.0254;
/// Kilograms in an avoirdupois pound, exact.
pub const POUND: f64 = 0.453_592_37;
/// Standard gravity in m/s², exact.
pub const STANDARD_GRAVITY: f64 = 9.806_65;
/// Cubic metres in a US gallon, exact.
pub const GALLON: f64 = 231.0 * INCH * INCH * INCH;
/// Pascals in a pound-force per square inch.
pub const PSI: f64 = POUND * STANDARD_GRAVITY / (INCH * INCH);
/// Cubic metres in a cubic foot, exact.
pub const CUBIC_FOOT: f64 = 1728.0 * INCH * INCH * INCH;

/// Pressures.
pub mod pressure {
    unit! {
        system: uom::si;
        quantity: uom::si::pressure;
        @psi: crate::units::exact::PSI; "psi", "pound-force per square inch", "pounds-force per square inch";
    }
}
/// Volumes.
pub mod volume {
    unit! {
        system: uom::si;
        quantity: uom::si::volume;
        @us_gallon: crate::units::exact::GALLON; "gal", "US gallon", "US gallons";
        @cubic_foot: crate::units::exact::CUBIC_FOOT; "ft³", "cubic foot", "cubic feet";
    }
}
/// Masses.
pub mod mass {
    unit! {
        system: uom::si;
        quantity: uom::si::mass;
        @pound: crate::units::exact::POUND; "lb", "pound", "pounds";
    }
}
/// Densities.
pub mod mass_density {
    unit! {
        system: uom::si;
        quantity: uom::si::mass_density;
        @pound_per_cubic_foot: crate::units::exact::POUND / crate::units::exact::CUBIC_FOOT; "lb/ft³", "pound per cubic foot", "pounds per cubic foot";
        @pound_per_gallon: crate::units::exact::POUND / crate::units::exact::GALLON; "lb/gal", "pound per US gallon", "pounds per US gallon";
    }
}
/// Volume rates.
pub mod volume_rate {
    unit! {
        system: uom::si;
        quantity: uom::si::volume_rate;
        @gallon_per_minute: crate::units::exact::GALLON / 60.0; "gal/min", "US gallon per minute", "US gallons per minute";
        @gallon_per_hour: crate::units::exact::GALLON / 3600.0; "gal/h", "US gallon per hour", "US gallons per hour";
        @cubic_foot_per_minute: crate::units::exact::CUBIC_FOOT / 60.0; "ft³/min", "cubic foot per minute", "cubic feet per minute";
    }
}
/// Torques.
pub mod torque {
    unit! {
        system: uom::si;
        quantity: uom::si::torque;
        @foot_pound_force: crate::units::exact::POUND * crate::units::exact::STANDARD_GRAVITY * 12.0 * crate::units::exact::INCH; "ft·lbf", "foot pound-force", "foot pounds-force";
    }
}
