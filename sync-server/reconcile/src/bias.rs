//! Systematic differences: the mean difference of a gauge, a site or a shipper, its confidence interval, and
//! a tabular CUSUM.
//!
//! The scatter of the cars gives the standard error and Student's interval. The uncertainty that instruments
//! may repeat from car to car within their limits is given separately. The CUSUM is the tabular one of
//! NIST/SEMATECH e-Handbook 6.3.2.3 (from memory; its recursion and an example were read in a textbook's
//! chapter on quality control, see the test). Called by `report`; `judgement` decides what follows from it.

use serde::{Deserialize, Serialize};

use super::Settings;
use super::comparison::{Compared, Comparison};
use super::distribution::student_enclosing;
use crate::sharing::of_sum;

/// The ratio of the mean moving range of pairs to the standard deviation, d₂ for 2 (individuals charts,
/// NIST/SEMATECH e-Handbook 6.3.2.2, from memory).
pub const MOVING_RANGE: f64 = 1.128;
/// The part of the repeated uncertainty of instruments that is allowed before the CUSUM counts, in standard
/// uncertainties.
pub const ALLOWED: f64 = 2.0;

/// The systematic difference of a group of cars.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Bias {
    /// The kind of group: `gauge`, `site` or `shipper`.
    pub by: String,
    /// The name of the gauge, the site or the shipper.
    pub name: String,
    /// The site of a gauge.
    pub site: String,
    /// The compared quantities.
    pub compared: Compared,
    /// The number of cars in the group.
    pub cars: usize,
    /// The mean difference, in gal per car.
    pub mean: f64,
    /// The standard deviation of the differences, in gal.
    pub deviation: f64,
    /// The standard error of the mean, in gal.
    pub error: f64,
    /// The lower end of the mean's confidence interval at 95 % (Student), in gal.
    pub low: f64,
    /// The upper end of that interval, in gal.
    pub high: f64,
    /// The standard uncertainty of the mean that instruments may repeat within their limits, in gal.
    pub shared: f64,
    /// The tabular CUSUM, in the order in which the cars came; only for gauges.
    pub cusum: Option<Cusum>,
}

/// A tabular CUSUM about 0.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Cusum {
    /// The standard deviation of one car, from the mean moving range, in gal.
    pub sigma: f64,
    /// The reference value K, in gal.
    pub reference: f64,
    /// The decision interval H, in gal.
    pub interval: f64,
    /// A point for each car.
    pub points: Vec<Point>,
    /// The indices in `points` at which a sum passed H. After each, both sums begin again at 0.
    pub signals: Vec<usize>,
}

/// A point of the CUSUM chart.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Point {
    /// The car's index among the report's cars.
    pub car: usize,
    /// The car's difference, in gal.
    pub difference: f64,
    /// The upper sum, in gal.
    pub upper: f64,
    /// The lower sum, in gal.
    pub lower: f64,
}

/// Returns the mean, the scatter and the interval of a group, or `None` for fewer than two cars.
pub fn bias(by: &str, name: &str, site: &str, compared: Compared, cars: &[&Comparison]) -> Option<Bias> {
    if cars.len() < 2 {
        return None;
    }
    let differences: Vec<f64> = cars.iter().map(|car| car.difference).collect();
    let (mean, deviation) = mean_and_deviation(&differences);
    let count = cars.len() as f64;
    let error = deviation / count.sqrt();
    let half = student_enclosing(0.95, cars.len() - 1) * error;
    let (shared, _) = of_sum(cars.iter().map(|car| car.parts.as_slice()));
    Some(Bias {
        by: by.to_owned(),
        name: name.to_owned(),
        site: site.to_owned(),
        compared,
        cars: cars.len(),
        mean,
        deviation,
        error,
        low: mean - half,
        high: mean + half,
        shared: shared / count,
        cusum: None,
    })
}

/// Returns the mean and the standard deviation (n − 1) of at least two values.
pub fn mean_and_deviation(values: &[f64]) -> (f64, f64) {
    let count = values.len() as f64;
    let mean = values.iter().sum::<f64>() / count;
    let squares: f64 = values.iter().map(|value| (value - mean).powi(2)).sum();
    (mean, (squares / (count - 1.0)).sqrt())
}

/// Returns the CUSUM of a gauge's cars in the order in which they came. Each car is given by its index among
/// the report's cars and its comparison.
///
/// K = [`ALLOWED`] × the repeated uncertainty of the instruments + `cusum_reference` × σ; H =
/// `cusum_interval` × σ. σ comes from the mean moving range, which a lasting shift hardly changes, and is at
/// least the uncertainty of a car's own parts.
pub fn cusum(cars: &[(usize, &Comparison)], settings: &Settings) -> Option<Cusum> {
    if cars.len() < settings.fewest_cars.max(2) {
        return None;
    }
    let ranges: f64 = cars.windows(2).map(|pair| (pair[1].1.difference - pair[0].1.difference).abs()).sum();
    let count = cars.len() as f64;
    let (shared, alone) = of_sum(cars.iter().map(|(_, car)| car.parts.as_slice()));
    let sigma = (ranges / (count - 1.0) / MOVING_RANGE).max(alone / count.sqrt());
    let reference = ALLOWED * shared / count + settings.cusum_reference * sigma;
    let interval = settings.cusum_interval * sigma;
    let differences: Vec<f64> = cars.iter().map(|(_, car)| car.difference).collect();
    let (sums, signals) = tabular(&differences, 0.0, reference, interval);
    let points = cars
        .iter()
        .zip(sums)
        .map(|((car, comparison), (upper, lower))| Point {
            car: *car,
            difference: comparison.difference,
            upper,
            lower,
        })
        .collect();
    Some(Cusum { sigma, reference, interval, points, signals })
}

/// Returns the upper and lower sums about a target, and the indices at which a sum passed the interval. A sum
/// never falls below 0, and both begin again at 0 after a signal.
pub fn tabular(values: &[f64], target: f64, reference: f64, interval: f64) -> (Vec<(f64, f64)>, Vec<usize>) {
    let (mut upper, mut lower) = (0.0_f64, 0.0_f64);
    let mut signals = Vec::new();
    let sums = values
        .iter()
        .enumerate()
        .map(|(at, value)| {
            upper = (upper + value - target - reference).max(0.0);
            lower = (lower + target - reference - value).max(0.0);
            let here = (upper, lower);
            if upper > interval || lower > interval {
                signals.push(at);
                (upper, lower) = (0.0, 0.0);
            }
            here
        })
        .collect();
    (sums, signals)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The values are a textbook's example of a tabular CUSUM (chemical process concentration, target 99, K =
    /// 1, H = 10): twenty observations with both sums as printed (chapter 16 "Statistical quality control",
    /// table 16-8).
    #[test]
    fn the_tabular_cusum_gives_a_textbooks_table() {
        let observed = [
            102.0, 94.8, 98.3, 98.4, 102.0, 98.5, 99.0, 97.7, 100.0, 98.1, 101.3, 98.7, 101.1, 98.4, 97.0,
            96.7, 100.3, 101.4, 97.2, 101.0,
        ];
        let upper = [
            2.0, 0.0, 0.0, 0.0, 2.0, 0.5, 0.0, 0.0, 0.0, 0.0, 1.3, 0.0, 1.1, 0.0, 0.0, 0.0, 0.3, 1.7, 0.0,
            1.0,
        ];
        let lower = [
            0.0, 3.2, 2.9, 2.5, 0.0, 0.0, 0.0, 0.3, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 1.0, 2.3, 0.0, 0.0, 0.8,
            0.0,
        ];
        let (sums, signals) = tabular(&observed, 99.0, 1.0, 10.0);
        assert!(signals.is_empty());
        for (at, (high, low)) in sums.iter().enumerate() {
            assert!((high - upper[at]).abs() < 1e-9 && (low - lower[at]).abs() < 1e-9, "{at}: {high} {low}");
        }
    }

    #[test]
    fn after_a_signal_the_sums_begin_again() {
        let (sums, signals) = tabular(&[4.0; 9], 0.0, 1.0, 5.0);
        assert_eq!(signals, [1, 3, 5, 7], "3, 6 and again 3, 6");
        assert_eq!(sums[2], (3.0, 0.0));
        let (_, none) = tabular(&[0.9, -0.9, 0.9, -0.9], 0.0, 1.0, 5.0);
        assert!(none.is_empty(), "what lies within the reference value never adds up");
    }
}
