//! Sums of many cars by site, by shipper and over a month, with correlated uncertainties.
//!
//! Uncertainties that cars share through one instrument, table or shipper are added linearly, because they
//! all pull in the same direction. All others are added in squares (JCGM 100:2008, 5.2.2 with correlation 1
//! and 0). Called by `report` and `bias`.

use farsiding_core::calc::uncertainty::COVERAGE;
use serde::{Deserialize, Serialize};

use super::comparison::{Compared, Comparison};
use crate::sharing::of_sum;

/// The sum of several cars.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Total {
    /// The kind of sum: `site`, `shipper` or `month`.
    pub by: String,
    /// The name of the site, the shipper or the month.
    pub name: String,
    /// The compared quantities.
    pub compared: Compared,
    /// The number of cars in the sum.
    pub cars: usize,
    /// The number of cars that could not be compared.
    pub not_compared: usize,
    /// The quantity billed, in net gal.
    pub billed: f64,
    /// The other quantity, in net gal.
    pub other: f64,
    /// The other quantity minus the quantity billed.
    pub difference: f64,
    /// The difference in percent of the quantity billed.
    pub percent: f64,
    /// The standard uncertainty of the difference, in gal.
    pub standard: f64,
    /// The part of the standard uncertainty that cars share, in gal.
    pub shared: f64,
    /// The expanded uncertainty at 95 % (coverage factor 2), in gal.
    pub plus_minus: f64,
    /// Whether the difference is within the expanded uncertainty.
    pub within: bool,
}

/// Returns the sum of several cars.
pub fn total(by: &str, name: &str, compared: Compared, cars: &[Option<&Comparison>]) -> Total {
    let there: Vec<&Comparison> = cars.iter().copied().flatten().collect();
    let sum = |of: fn(&Comparison) -> f64| there.iter().map(|comparison| of(comparison)).sum::<f64>();
    let (billed, other) = (sum(|c| c.billed), sum(|c| c.other));
    let difference = sum(|c| c.difference);
    let (shared, alone) = of_sum(there.iter().map(|comparison| comparison.parts.as_slice()));
    let standard = shared.hypot(alone);
    let plus_minus = COVERAGE * standard;
    Total {
        by: by.to_owned(),
        name: name.to_owned(),
        compared,
        cars: there.len(),
        not_compared: cars.len() - there.len(),
        billed,
        other,
        difference,
        percent: if billed > 0.0 { 100.0 * difference / billed } else { 0.0 },
        standard,
        shared,
        plus_minus,
        within: difference.abs() <= plus_minus,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::facts::Share;

    fn part(key: &str, standard: f64) -> Vec<Share> {
        vec![Share { from: farsiding_core::Message::typed(key), key: key.to_owned(), standard }]
    }

    #[test]
    fn one_gauges_error_over_a_hundred_cars_does_not_average_away() {
        let one_gauge: Vec<Vec<Share>> = (0..100).map(|_| part("outage/GR-1", 20.0)).collect();
        let (shared, alone) = of_sum(one_gauge.iter().map(Vec::as_slice));
        assert_eq!((shared, alone), (2000.0, 0.0), "all pull one way");
        let each_its_own: Vec<Vec<Share>> = (0..100).map(|_| part("", 20.0)).collect();
        let (shared, alone) = of_sum(each_its_own.iter().map(Vec::as_slice));
        assert_eq!(shared, 0.0);
        assert!((alone - 200.0).abs() < 1e-9, "in squares: {alone}");
        let two_gauges: Vec<Vec<Share>> =
            (0..100).map(|n| part(if n < 50 { "outage/GR-1" } else { "outage/GR-2" }, 20.0)).collect();
        let (shared, _) = of_sum(two_gauges.iter().map(Vec::as_slice));
        assert!((shared - 1000.0_f64.hypot(1000.0)).abs() < 1e-9);
    }
}
