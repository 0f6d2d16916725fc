//! Pressures and temperatures in words: in the unit that was typed, with the absolute pressure beside a gauge
//! pressure.
//!
//! Formulas work in psia and °F; only what they say about a reading goes through here.

use super::uncertainty::Measured;
use crate::units::Unit;
use crate::{Arg, Message, message};

/// Returns an absolute pressure (psia) in the unit of `reading`. `air` is the atmospheric pressure, psia.
pub(super) fn pressure(psia: f64, reading: &Measured, air: f64) -> Message {
    let absolute = reading.unit.absolute();
    let figure = absolute.figure(absolute.from_si(Unit::PsiAbsolute.to_si(psia)), absolute.usual_decimals());
    if !reading.unit.is_gauge() {
        return message!("calc-pressure", pressure = figure);
    }
    let gauge = reading.unit.from_si(Unit::PsiAbsolute.to_si(psia - air));
    let gauge = reading.unit.figure(gauge, reading.unit.usual_decimals());
    message!("calc-pressure-both", gauge = gauge, absolute = figure)
}

/// Returns the lowest and the highest of two pressures, or the pressure if they are the same.
pub(super) fn pressures(low: f64, high: f64, reading: &Measured, air: f64) -> Message {
    let of = |psia: f64| pressure(psia, reading, air);
    if low == high {
        return of(low);
    }
    message!("calc-pressure-between", low = of(low), high = of(high))
}

/// Returns a difference of pressures (psi) with its ± in the unit of `reading`.
pub(super) fn pressure_difference(psi: f64, plus_minus: Option<f64>, reading: &Measured) -> Arg {
    let (word, scale, decimals) = match reading.unit {
        Unit::KilopascalGauge | Unit::KilopascalAbsolute => ("kilopascal_difference", 1e-3, 1),
        Unit::BarGauge => ("bar_difference", 1e-5, 3),
        _ => ("psi_difference", 1.0 / Unit::PsiGauge.to_si(1.0), 1),
    };
    let converted = |psi: f64| Unit::PsiGauge.to_si(psi) * scale;
    rename(Unit::PsiGauge, converted(psi), plus_minus.map(converted), decimals, word)
}

/// Returns a temperature (°F) in the unit of `reading`.
pub(super) fn temperature(fahrenheit: f64, reading: &Measured) -> Arg {
    let unit = if reading.unit.dimension() == Unit::Fahrenheit.dimension() {
        reading.unit
    } else {
        Unit::Fahrenheit
    };
    unit.figure(unit.from_si(Unit::Fahrenheit.to_si(fahrenheit)), 1)
}

/// Returns a difference of temperatures (°F) with its ± in degrees of the unit of `reading`.
pub(super) fn temperature_difference(degrees: f64, plus_minus: Option<f64>, reading: &Measured) -> Arg {
    let (word, scale) = match reading.unit {
        Unit::Celsius | Unit::Kelvin => ("celsius_difference", 1.0 / 1.8),
        _ => ("fahrenheit_difference", 1.0),
    };
    rename(Unit::FahrenheitDifference, degrees * scale, plus_minus.map(|pm| pm * scale), 1, word)
}

fn rename(unit: Unit, value: f64, plus_minus: Option<f64>, decimals: usize, word: &str) -> Arg {
    let figure = match plus_minus {
        None => unit.figure(value, decimals),
        Some(plus_minus) => unit.figure_within(value, plus_minus, decimals),
    };
    match figure {
        Arg::Figure { value, plus_minus, .. } => Arg::Figure { value, plus_minus, unit: word.to_owned() },
        other => other,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(message: &Message) -> String {
        farsiding_words::english(message)
    }

    #[test]
    fn a_pressure_is_said_in_the_unit_that_was_typed_with_the_absolute_one_beside_it() {
        let psig = Measured::exact("pressure", 40.0, Unit::PsiGauge);
        assert_eq!(said(&pressure(54.7, &psig, 14.7)), "40.0 psig (54.7 psia)");
        let kilopascal = Measured::exact("pressure", 275.8, Unit::KilopascalGauge);
        assert_eq!(said(&pressure(54.7, &kilopascal, 14.7)), "275.8 kPa (377.1 kPa (abs))");
        let psia = Measured::exact("pressure", 54.7, Unit::PsiAbsolute);
        assert_eq!(said(&pressure(54.7, &psia, 0.0)), "54.7 psia");
    }

    #[test]
    fn a_difference_is_above_nothing() {
        let shown = |arg: Arg| said(&message!("calc-pressure", pressure = arg));
        let psig = Measured::exact("pressure", 40.0, Unit::PsiGauge);
        assert_eq!(shown(pressure_difference(-4.0, Some(0.5), &psig)), "-4.0 ± 0.5 psi");
        let kilopascal = Measured::exact("pressure", 275.8, Unit::KilopascalGauge);
        assert_eq!(shown(pressure_difference(1.0, None, &kilopascal)), "6.9 kPa");
        let celsius = Measured::exact("temperature", 10.0, Unit::Celsius);
        assert_eq!(shown(temperature_difference(9.0, None, &celsius)), "5.0 °C");
        assert_eq!(shown(temperature(50.0, &celsius)), "10.0 °C");
    }
}
