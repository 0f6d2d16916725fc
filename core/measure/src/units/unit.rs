//! The units used in the trade, each with its dimension and its conversion to SI units through `uom`.
//!
//! Gauge and absolute pressure are different units on purpose: the conversion between them depends on the
//! site's atmospheric pressure (see `calc::atmosphere`), so `Unit` never performs it.

use serde::{Deserialize, Serialize};
use uom::si::f64::{
    Length, Mass, MassDensity, Pressure, ThermodynamicTemperature, Time, Torque, Volume, VolumeRate,
};
use uom::si::{length, pressure, thermodynamic_temperature, time, volume};

use super::exact;
use farsiding_message::{Arg, Message, message};

/// The kind of quantity that a unit measures. Amounts can be compared only within one dimension.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Dimension {
    /// Pressure above the local atmosphere (gauge); SI unit Pa.
    GaugePressure,
    /// Pressure above vacuum (absolute); SI unit Pa.
    AbsolutePressure,
    /// Temperature; SI unit K.
    Temperature,
    /// A difference of temperatures; SI unit K.
    TemperatureDifference,
    /// Length; SI unit m.
    Length,
    /// Volume; SI unit m³.
    Volume,
    /// Mass; SI unit kg.
    Mass,
    /// Density; SI unit kg/m³.
    Density,
    /// Volume per time; SI unit m³/s.
    VolumeRate,
    /// Torque; SI unit N·m.
    Torque,
    /// Time; SI unit s.
    Time,
    /// A plain ratio; SI unit 1.
    Ratio,
    /// Turns of engaged thread, counted.
    Turns,
    /// A count of things.
    Count,
    /// Money in the office's own currency.
    Money,
    /// Money per time.
    MoneyRate,
}

impl Dimension {
    /// Returns the name in snake_case, as stored.
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

/// A unit as it stands on an instrument or a paper.
///
/// ```
/// use farsiding_measure::units::{Dimension, Unit};
///
/// assert_eq!(Unit::read("deg F"), Ok(Unit::Fahrenheit));
/// assert_eq!(Unit::PsiGauge.dimension(), Dimension::GaugePressure);
///
/// // The SI unit of temperature is the kelvin: water boils at 373.15 K.
/// assert!((Unit::Fahrenheit.to_si(212.0) - 373.15).abs() < 1e-9);
/// // A US gallon has exactly 231 cubic inches, which is 3.785 411 784 L.
/// let cubic_metres = Unit::Gallon.to_si(1.0);
/// assert!((Unit::Litre.from_si(cubic_metres) - 3.785_411_784).abs() < 1e-12);
/// ```
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

/// The error for a text that names no known unit.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("unknown_unit")]
pub struct UnitError {
    /// The text.
    pub text: String,
}

impl UnitError {
    /// Returns what is wrong, with the symbols that are accepted.
    pub fn message(&self) -> Message {
        let known = Unit::ALL.iter().map(|unit| unit.symbol()).collect::<Vec<_>>().join(" ");
        message!("units-unknown", text = Arg::typed(&self.text), known = Arg::Typed(known))
    }
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

    /// Returns the symbol as printed beside a number and as stored.
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

    /// Returns the name in snake_case, as messages use it.
    pub const fn word(self) -> &'static str {
        match self {
            Unit::PsiGauge => "psi_gauge",
            Unit::KilopascalGauge => "kilopascal_gauge",
            Unit::BarGauge => "bar_gauge",
            Unit::PsiAbsolute => "psi_absolute",
            Unit::KilopascalAbsolute => "kilopascal_absolute",
            Unit::Fahrenheit => "fahrenheit",
            Unit::Celsius => "celsius",
            Unit::Kelvin => "kelvin",
            Unit::FahrenheitDifference => "fahrenheit_difference",
            Unit::Inch => "inch",
            Unit::Foot => "foot",
            Unit::Metre => "metre",
            Unit::Millimetre => "millimetre",
            Unit::Gallon => "gallon",
            Unit::Litre => "litre",
            Unit::CubicFoot => "cubic_foot",
            Unit::CubicMetre => "cubic_metre",
            Unit::Pound => "pound",
            Unit::Kilogram => "kilogram",
            Unit::PoundPerCubicFoot => "pound_per_cubic_foot",
            Unit::KilogramPerCubicMetre => "kilogram_per_cubic_metre",
            Unit::PoundPerGallon => "pound_per_gallon",
            Unit::GallonPerMinute => "gallon_per_minute",
            Unit::GallonPerHour => "gallon_per_hour",
            Unit::CubicFootPerMinute => "cubic_foot_per_minute",
            Unit::FootPound => "foot_pound",
            Unit::NewtonMetre => "newton_metre",
            Unit::Second => "second",
            Unit::Minute => "minute",
            Unit::Hour => "hour",
            Unit::One => "one",
            Unit::Percent => "percent",
            Unit::Turns => "turns",
            Unit::Pieces => "pieces",
            Unit::Money => "money",
            Unit::MoneyPerHour => "money_per_hour",
        }
    }

    /// Returns the dimension of the unit.
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

    /// Returns the number of decimals to print for a value read on an instrument.
    pub const fn usual_decimals(self) -> usize {
        match self {
            Unit::One => 4,
            Unit::PoundPerCubicFoot | Unit::PoundPerGallon | Unit::BarGauge => 3,
            Unit::Metre | Unit::KilogramPerCubicMetre | Unit::Money | Unit::MoneyPerHour => 2,
            Unit::Gallon | Unit::Litre | Unit::Pound | Unit::Kilogram | Unit::Pieces => 0,
            _ => 1,
        }
    }

    /// Converts `value` from this unit to the SI unit of its [`Unit::dimension`]. Gauge pressures stay gauge
    /// pressures, and turns, pieces and money are unchanged.
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

    /// Converts a value from SI units to this unit; the inverse of [`Unit::to_si`].
    ///
    /// All conversions are affine, so two points of `to_si` determine the inverse without a second table.
    pub fn from_si(self, si: f64) -> f64 {
        let zero = self.to_si(0.0);
        let slope = self.to_si(1.0) - zero;
        (si - zero) / slope
    }

    /// Parses a symbol or a common spelling ("PSIG", "deg F", "gallons").
    ///
    /// # Errors
    /// [`UnitError`] if the text matches no unit; its message lists the accepted symbols.
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
            _ => return Err(UnitError { text: text.to_owned() }),
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

    /// These conversions are exact by definition: NIST SP 811 (2008), Appendix B (gallon 231 in³, inch 25.4
    /// mm, pound).
    #[test]
    fn the_defined_conversions_are_exact() {
        assert!((Unit::Gallon.to_si(1.0) - 0.003_785_411_784).abs() < 1e-12);
        assert!((Unit::Pound.to_si(1.0) - 0.453_592_37).abs() < 1e-12);
        assert!((Unit::PsiGauge.to_si(1.0) - 6_894.757_293_168).abs() < 1e-6);
        assert!((Unit::Fahrenheit.to_si(60.0) - 288.705_555_555).abs() < 1e-6);
    }
}
