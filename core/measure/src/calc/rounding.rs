//! Rounding as the published tables intend it: decimal, half away from zero.
//!
//! 60.05 is stored in binary as 60.049 999…, so rounding the binary value to 60.0 would disagree with the
//! printed table. Therefore the shortest decimal text that reads back as the number is rounded. `calc::ctl`
//! calls this module. Rounding for display is in `units::Computed`.

/// `value` rounded to `places` decimals, half away from zero, in decimal.
///
/// Not finite, or 1e15 and more in size (where an `f64` has no decimals worth rounding): returned as it is.
pub fn half_away(value: f64, places: usize) -> f64 {
    if !value.is_finite() || value.abs() >= 1e15 {
        return value;
    }
    let text = value.abs().to_string();
    let Some((whole, decimals)) = text.split_once('.') else { return value };
    if decimals.len() <= places {
        return value;
    }
    let (kept, dropped) = decimals.split_at(places);
    // At most 16 digits stand before the point and `places` after it: u128 holds them all.
    let Ok(mut digits) = format!("{whole}{kept}").parse::<u128>() else { return value };
    if dropped.as_bytes().first().is_some_and(|digit| *digit >= b'5') {
        digits += 1;
    }
    let mut rounded = format!("{digits:0>width$}", width = places + 1);
    rounded.insert(rounded.len() - places, '.');
    rounded.parse::<f64>().map_or(value, |number| number.copysign(value))
}

#[cfg(test)]
mod tests {
    use super::half_away;

    #[test]
    fn a_half_goes_away_from_zero_in_decimal() {
        for (value, places, rounded) in [
            (60.05, 1, 60.1),
            (-50.75, 1, -50.8),
            (20.25, 1, 20.3),
            (0.35005, 4, 0.3501),
            (1.005, 2, 1.01),
            (2.5, 0, 3.0),
            (-0.04, 1, 0.0),
            (0.999_995, 5, 1.0),
            (59.949_999_9, 1, 59.9),
        ] {
            assert_eq!(half_away(value, places), rounded, "{value} to {places}");
        }
    }

    #[test]
    fn rounding_twice_changes_nothing() {
        for tenth in -999..999 {
            let value = f64::from(tenth) / 7.0;
            let once = half_away(value, 4);
            assert_eq!(half_away(once, 4), once);
        }
    }
}
