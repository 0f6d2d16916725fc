//! Water at 60 °F: the reference of relative densities, and the weight of a gallon.
//!
//! Two weights of the same gallon are in use; every result states which one it is based on.

/// Density of water at 60 °F, kg/m³ (GPA TP-27 / 2145 practice).
pub const DENSITY_60F: f64 = 999.016;
/// Pounds per US gallon of water at 60 °F in vacuum: 999.016 kg/m³ in exact pounds and gallons.
pub const LB_PER_GALLON_VACUUM: f64 = DENSITY_60F * crate::units::exact::GALLON / crate::units::exact::POUND;
/// Pounds per US gallon of water at 60 °F weighed in air with brass weights (29 CFR / WAC practice).
pub const LB_PER_GALLON_AIR: f64 = 8.328_28;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_gallon_of_water_weighs_what_the_tables_say() {
        assert!((LB_PER_GALLON_VACUUM - 8.337_19).abs() < 6e-6);
        // Buoyancy in air takes about 0.107 % off water: 1.2 kg/m³ against water and brass.
        let buoyed = LB_PER_GALLON_VACUUM * (1.0 - 1.2 / DENSITY_60F) / (1.0 - 1.2 / 8_400.0);
        assert!((buoyed - LB_PER_GALLON_AIR).abs() < 1e-3);
    }
}
