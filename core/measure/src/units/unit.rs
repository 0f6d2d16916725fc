//! The units of the trade, each with its dimension and its conversion to SI through `uom`.
//!
//! Gauge and absolute pressure are different units here on purpose: going from one to the other
//! needs the site's atmosphere (see `calc::atmosphere`), so `Unit` alone never does it.

use serde::{Deserialize, Serialize};
use uom::si::f64::{
    Length, Mass, MassDensity, Pressure, ThermodynamicTemperature, Time, Torque, Volume, VolumeRate,
};
use uom::si::{length, pressure, thermodynamic_temperature, time, volume};

use super::exact;

/// What kind of quantity a unit measures. Two amounts compare only within one dimension.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Dimension {
    /// Pressure above the local atmosphere, SI base Pa (gauge).
    GaugePressure,
    /// Pressure above vacuum, SI base Pa.
    AbsolutePressure,
    /// Temperature, SI base K.
    Temperature,
    /// A difference of temperatures, SI base K.
    TemperatureDifference,
    /// Length, SI base m.
    Length,
    /// Volume, SI base m³.
    Volume,
    /// Mass, SI base kg.
    Mass,
    /// Density, SI base kg/m³.
    Density,
    /// Volume per time, SI base m³/s.
    VolumeRate,
    /// Torque, SI base N·m.
    Torque,
    /// Time, SI base s.
    Time,
    /// A plain ratio, SI base 1.
    Ratio,
    /// Engaged thread turns, counted.
    Turns,
    /// A count of things.
    Count,
    /// Money in the office's own currency.
    Money,
    /// Money per time.
    MoneyRate,
}

impl Dimension {
    /// Its name in snake_case, as it is stored.
    pub const fn word(self) -> &'static str {
        match self {
            Dimension::GaugePressure => "gauge_pressure",
            Dimension::AbsolutePressure => "absolute_pressure",
            Dimension::Temperature => "temperature",
            Dimension::TemperatureDifference => "temperature_difference",
            Dimension::Length => "length",
            Dimension::Volume => "volume",
            Dimension::Mass => "mass",
            Dimension::Density => "density",
            Dimension::VolumeRate => "volume_rate",
            Dimension::Torque => "torque",
            Dimension::Time => "time",
            Dimension::Ratio => "ratio",
            Dimension::Turns => "turns",
            Dimension::Count => "count",
            Dimension::Money => "money",
            Dimension::MoneyRate => "money_rate",
        }
    }
}

/// A unit as it stands on the instrument or the paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "shell-types", derive(ts_rs::TS))]
pub enum Unit {
    /// Pound-force per square inch, gauge.
    #[serde(rename = "psi")]
    PsiGauge,
    /// Kilopascal, gauge.
    #[serde(rename = "kPa")]
    KilopascalGauge,
    /// Bar, gauge.
    #[serde(rename = "bar")]
    BarGauge,
    /// Pound-force per square inch, absolute.
    #[serde(rename = "psia")]
    PsiAbsolute,
    /// Kilopascal, absolute.
    #[serde(rename = "kPa abs")]
    KilopascalAbsolute,
    /// Degree Fahrenheit.
    #[serde(rename = "°F")]
    Fahrenheit,
    /// Degree Celsius.
    #[serde(rename = "°C")]
    Celsius,
    /// Kelvin.
    #[serde(rename = "K")]
    Kelvin,
    /// A difference of Fahrenheit degrees.
    #[serde(rename = "Δ°F")]
    FahrenheitDifference,
    /// Inch.
    #[serde(rename = "in")]
    Inch,
    /// Foot.
    #[serde(rename = "ft")]
    Foot,
    /// Metre.
    #[serde(rename = "m")]
    Metre,
    /// Millimetre.
    #[serde(rename = "mm")]
    Millimetre,
    /// US liquid gallon, 231 in³.
    #[serde(rename = "gal")]
    Gallon,
    /// Litre.
    #[serde(rename = "L")]
    Litre,
    /// Cubic foot.
    #[serde(rename = "ft³")]
    CubicFoot,
    /// Cubic metre.
    #[serde(rename = "m³")]
    CubicMetre,
    /// Avoirdupois pound.
    #[serde(rename = "lb")]
    Pound,
    /// Kilogram.
    #[serde(rename = "kg")]
    Kilogram,
    /// Pound per cubic foot.
    #[serde(rename = "lb/ft³")]
    PoundPerCubicFoot,
    /// Kilogram per cubic metre.
    #[serde(rename = "kg/m³")]
    KilogramPerCubicMetre,
    /// Pound per US gallon.
    #[serde(rename = "lb/gal")]
    PoundPerGallon,
    /// US gallon per minute.
    #[serde(rename = "gal/min")]
    GallonPerMinute,
    /// US gallon per hour.
    #[serde(rename = "gal/h")]
    GallonPerHour,
    /// Cubic foot per minute.
    #[serde(rename = "ft³/min")]
    CubicFootPerMinute,
    /// Foot pound-force, of torque.
    #[serde(rename = "ft·lbf")]
    FootPound,
    /// Newton metre, of torque.
    #[serde(rename = "N·m")]
    NewtonMetre,
    /// Second.
    #[serde(rename = "s")]
    Second,
    /// Minute.
    #[serde(rename = "min")]
    Minute,
    /// Hour.
    #[serde(rename = "h")]
    Hour,
    /// A ratio, such as relative density or CTL.
    #[serde(rename = "1")]
    One,
    /// Percent.
    #[serde(rename = "%")]
    Percent,
    /// Turns of thread engaged.
    #[serde(rename = "turns")]
    Turns,
    /// Pieces.
    #[serde(rename = "pcs")]
    Pieces,
    /// Money, in the currency the office named in its tariff.
    #[serde(rename = "money")]
    Money,
    /// Money per hour, as a running cost.
    #[serde(rename = "money/h")]
    MoneyPerHour,
}

/// A unit text that names no known unit.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("\"{text}\" is not a unit this tool knows; write one of: {known}")]
pub struct UnitError {
    /// What was written.
    pub text: String,
    /// The symbols that would have been understood.
    pub known: String,
}

impl Unit {
    /// Every unit, in the order of the enum.
    pub const ALL: [Unit; 36] = [
        Unit::PsiGauge,
        Unit::KilopascalGauge,
        Unit::BarGauge,
        Unit::PsiAbsolute,
        Unit::KilopascalAbsolute,
        Unit::Fahrenheit,
        Unit::Celsius,
        Unit::Kelvin,
        Unit::FahrenheitDifference,
        Unit::Inch,
        Unit::Foot,
        Unit::Metre,
        Unit::Millimetre,
        Unit::Gallon,
        Unit::Litre,
        Unit::CubicFoot,
        Unit::CubicMetre,
        Unit::Pound,
        Unit::Kilogram,
        Unit::PoundPerCubicFoot,
        Unit::KilogramPerCubicMetre,
        Unit::PoundPerGallon,
        Unit::GallonPerMinute,
        Unit::CubicFootPerMinute,
        Unit::FootPound,
        Unit::NewtonMetre,
        Unit::Second,
        Unit::Minute,
        Unit::Hour,
        Unit::One,
        Unit::Percent,
        Unit::Turns,
        Unit::Pieces,
        Unit::Money,
        Unit::GallonPerHour,
        Unit::MoneyPerHour,
    ];

    /// The symbol, as printed beside a number and as stored.
    pub const fn symbol(self) -> &'static str {
        match self {
            Unit::PsiGauge => "psi",
            Unit::KilopascalGauge => "kPa",
            Unit::BarGauge => "bar",
            Unit::PsiAbsolute => "psia",
            Unit::KilopascalAbsolute => "kPa abs",
            Unit::Fahrenheit => "°F",
            Unit::Celsius => "°C",
            Unit::Kelvin => "K",
            Unit::FahrenheitDifference => "Δ°F",
            Unit::Inch => "in",
            Unit::Foot => "ft",
            Unit::Metre => "m",
            Unit::Millimetre => "mm",
            Unit::Gallon => "gal",
            Unit::Litre => "L",
            Unit::CubicFoot => "ft³",
            Unit::CubicMetre => "m³",
            Unit::Pound => "lb",
            Unit::Kilogram => "kg",
            Unit::PoundPerCubicFoot => "lb/ft³",
            Unit::KilogramPerCubicMetre => "kg/m³",
            Unit::PoundPerGallon => "lb/gal",
            Unit::GallonPerMinute => "gal/min",
            Unit::GallonPerHour => "gal/h",
            Unit::CubicFootPerMinute => "ft³/min",
            Unit::FootPound => "ft·lbf",
            Unit::NewtonMetre => "N·m",
            Unit::Second => "s",
            Unit::Minute => "min",
            Unit::Hour => "h",
            Unit::One => "1",
            Unit::Percent => "%",
            Unit::Turns => "turns",
            Unit::Pieces => "pcs",
            Unit::Money => "money",
            Unit::MoneyPerHour => "money/h",
        }
    }

    /// What the unit measures.
    pub const fn dimension(self) -> Dimension {
        match self {
            Unit::PsiGauge | Unit::KilopascalGauge | Unit::BarGauge => Dimension::GaugePressure,
            Unit::PsiAbsolute | Unit::KilopascalAbsolute => Dimension::AbsolutePressure,
            Unit::Fahrenheit | Unit::Celsius | Unit::Kelvin => Dimension::Temperature,
            Unit::FahrenheitDifference => Dimension::TemperatureDifference,
            Unit::Inch | Unit::Foot | Unit::Metre | Unit::Millimetre => Dimension::Length,
            Unit::Gallon | Unit::Litre | Unit::CubicFoot | Unit::CubicMetre => Dimension::Volume,
            Unit::Pound | Unit::Kilogram => Dimension::Mass,
            Unit::PoundPerCubicFoot | Unit::KilogramPerCubicMetre | Unit::PoundPerGallon => {
                Dimension::Density
            }
            Unit::GallonPerMinute | Unit::GallonPerHour | Unit::CubicFootPerMinute => Dimension::VolumeRate,
            Unit::FootPound | Unit::NewtonMetre => Dimension::Torque,
            Unit::Second | Unit::Minute | Unit::Hour => Dimension::Time,
            Unit::One | Unit::Percent => Dimension::Ratio,
            Unit::Turns => Dimension::Turns,
            Unit::Pieces => Dimension::Count,
            Unit::Money => Dimension::Money,
            Unit::MoneyPerHour => Dimension::MoneyRate,
        }
    }

    /// Decimals that are sensible to print for a value read on an instrument.
    pub const fn usual_decimals(self) -> usize {
        match self {
            Unit::One => 4,
            Unit::PoundPerCubicFoot | Unit::PoundPerGallon | Unit::BarGauge => 3,
            Unit::Metre | Unit::KilogramPerCubicMetre | Unit::Money | Unit::MoneyPerHour => 2,
            Unit::Gallon | Unit::Litre | Unit::Pound | Unit::Kilogram | Unit::Pieces => 0,
            _ => 1,
        }
    }

    /// The SI value of `value` in this unit (base unit of [`Unit::dimension`]; gauge stays gauge).
    /// Turns, pieces and money stay as they are.
    pub fn to_si(self, value: f64) -> f64 {
        match self {
            Unit::PsiGauge | Unit::PsiAbsolute => Pressure::new::<exact::pressure::psi>(value).value,
            Unit::KilopascalGauge | Unit::KilopascalAbsolute => {
                Pressure::new::<pressure::kilopascal>(value).value
            }
            Unit::BarGauge => Pressure::new::<pressure::bar>(value).value,
            Unit::Fahrenheit => {
                ThermodynamicTemperature::new::<thermodynamic_temperature::degree_fahrenheit>(value).value
            }
            Unit::Celsius => {
                ThermodynamicTemperature::new::<thermodynamic_temperature::degree_celsius>(value).value
            }
            Unit::Kelvin => value,
            Unit::FahrenheitDifference => value / 1.8,
            Unit::Inch => Length::new::<length::inch>(value).value,
            Unit::Foot => Length::new::<length::foot>(value).value,
            Unit::Metre => value,
            Unit::Millimetre => Length::new::<length::millimeter>(value).value,
            Unit::Gallon => Volume::new::<exact::volume::us_gallon>(value).value,
            Unit::Litre => Volume::new::<volume::liter>(value).value,
            Unit::CubicFoot => Volume::new::<exact::volume::cubic_foot>(value).value,
            Unit::CubicMetre => value,
            Unit::Pound => Mass::new::<exact::mass::pound>(value).value,
            Unit::Kilogram => value,
            Unit::PoundPerCubicFoot => {
                MassDensity::new::<exact::mass_density::pound_per_cubic_foot>(value).value
            }
            Unit::KilogramPerCubicMetre => value,
            Unit::PoundPerGallon => MassDensity::new::<exact::mass_density::pound_per_gallon>(value).value,
            Unit::GallonPerMinute => VolumeRate::new::<exact::volume_rate::gallon_per_minute>(value).value,
            Unit::GallonPerHour => VolumeRate::new::<exact::volume_rate::gallon_per_hour>(value).value,
            Unit::CubicFootPerMinute => {
                VolumeRate::new::<exact::volume_rate::cubic_foot_per_minute>(value).value
            }
            Unit::FootPound => Torque::new::<exact::torque::foot_pound_force>(value).value,
            Unit::NewtonMetre => value,
            Unit::Second => value,
            Unit::Minute => Time::new::<time::minute>(value).value,
            Unit::Hour => Time::new::<time::hour>(value).value,
            Unit::Percent => value / 100.0,
            Unit::One | Unit::Turns | Unit::Pieces | Unit::Money | Unit::MoneyPerHour => value,
        }
    }

    /// The value in this unit of an SI value, the inverse of [`Unit::to_si`].
    ///
    /// Every conversion here is affine, so two points of `to_si` give it without a second table.
    pub fn from_si(self, si: f64) -> f64 {
        let zero = self.to_si(0.0);
        let slope = self.to_si(1.0) - zero;
        (si - zero) / slope
    }

    /// Reads a symbol or one of the ways people write it ("PSIG", "deg F", "gallons").
    ///
    /// # Errors
    /// [`UnitError`] when nothing matches; the error lists what would have.
    pub fn read(text: &str) -> Result<Unit, UnitError> {
        let folded: String =
            text.trim().chars().filter(|c| !matches!(c, ' ' | '.' | '_')).collect::<String>().to_lowercase();
        let unit = match folded.as_str() {
            "psi" | "psig" | "lbs" | "#" => Unit::PsiGauge,
            "kpa" | "kpag" => Unit::KilopascalGauge,
            "bar" | "barg" => Unit::BarGauge,
            "psia" => Unit::PsiAbsolute,
            "kpaabs" | "kpaa" => Unit::KilopascalAbsolute,
            "°f" | "f" | "degf" | "fahrenheit" => Unit::Fahrenheit,
            "°c" | "c" | "degc" | "celsius" => Unit::Celsius,
            "k" | "kelvin" => Unit::Kelvin,
            "δ°f" | "deltaf" => Unit::FahrenheitDifference,
            "in" | "inch" | "inches" | "\"" | "″" => Unit::Inch,
            "ft" | "foot" | "feet" | "'" => Unit::Foot,
            "m" | "metre" | "meter" => Unit::Metre,
            "mm" => Unit::Millimetre,
            "gal" | "gals" | "gallon" | "gallons" | "usgal" => Unit::Gallon,
            "l" | "litre" | "liter" | "litres" | "liters" => Unit::Litre,
            "ft³" | "ft3" | "cuft" => Unit::CubicFoot,
            "m³" | "m3" => Unit::CubicMetre,
            "lb" | "pound" | "pounds" => Unit::Pound,
            "kg" | "kilogram" | "kilograms" => Unit::Kilogram,
            "lb/ft³" | "lb/ft3" => Unit::PoundPerCubicFoot,
            "kg/m³" | "kg/m3" => Unit::KilogramPerCubicMetre,
            "lb/gal" => Unit::PoundPerGallon,
            "gal/min" | "gpm" => Unit::GallonPerMinute,
            "gal/h" | "gph" => Unit::GallonPerHour,
            "ft³/min" | "ft3/min" | "cfm" => Unit::CubicFootPerMinute,
            "ft·lbf" | "ftlbf" | "ftlb" | "ft-lb" | "ft-lbf" | "ft·lb" => Unit::FootPound,
            "n·m" | "nm" => Unit::NewtonMetre,
            "s" | "sec" => Unit::Second,
            "min" | "minutes" => Unit::Minute,
            "h" | "hr" | "hours" => Unit::Hour,
            "1" | "" | "sg" | "rd" => Unit::One,
            "%" | "percent" => Unit::Percent,
            "turns" | "turn" | "threads" | "thread" => Unit::Turns,
            "pcs" | "pieces" => Unit::Pieces,
            "money" => Unit::Money,
            "money/h" => Unit::MoneyPerHour,
            _ => {
                let known = Unit::ALL.iter().map(|u| u.symbol()).collect::<Vec<_>>().join(" ");
                return Err(UnitError { text: text.to_owned(), known });
            }
        };
        Ok(unit)
    }
}

impl std::fmt::Display for Unit {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(self.symbol())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_symbol_reads_back_as_its_own_unit() {
        for unit in Unit::ALL {
            assert_eq!(Unit::read(unit.symbol()), Ok(unit));
            let json = serde_json::to_string(&unit).unwrap_or_default();
            assert_eq!(json, format!("\"{}\"", unit.symbol()));
        }
    }

    #[test]
    fn converting_there_and_back_is_the_identity() {
        for unit in Unit::ALL {
            for value in [-40.0, 0.0, 1.0, 14.7, 33_700.0] {
                let back = unit.from_si(unit.to_si(value));
                assert!((back - value).abs() <= 1e-9 * value.abs().max(1.0), "{unit}: {value} -> {back}");
            }
        }
    }

    /// Exact by definition: NIST SP 811 (2008), Appendix B (gallon 231 in³, inch 25.4 mm, pound).
    #[test]
    fn the_defined_conversions_are_exact() {
        assert!((Unit::Gallon.to_si(1.0) - 0.003_785_411_784).abs() < 1e-12);
        assert!((Unit::Pound.to_si(1.0) - 0.453_592_37).abs() < 1e-12);
        assert!((Unit::PsiGauge.to_si(1.0) - 6_894.757_293_168).abs() < 1e-6);
        assert!((Unit::Fahrenheit.to_si(60.0) - 288.705_555_555).abs() < 1e-6);
    }
}
