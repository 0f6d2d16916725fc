//! What repeats: the mean difference of a gauge, a site or a shipper, its interval, and a tabular CUSUM.
//!
//! The scatter gives the standard error and Student's interval; beside it stands what the instruments may
//! repeat within their limits. The CUSUM is the tabular one of NIST/SEMATECH e-Handbook 6.3.2.3 (from memory;
//! its recursion and an example read in a textbook's chapter on quality control, see the test). Called by
//! `report`; what is made of it is in `judgement`.

use serde::{Deserialize, Serialize};

use super::Settings;
use super::comparison::{Compared, Comparison};
use super::distribution::student_enclosing;
use super::totals::of_sum;

/// Mean moving range of pairs over the standard deviation, d₂ for 2 (individuals charts, NIST/SEMATECH
/// e-Handbook 6.3.2.2, from memory).
pub const MOVING_RANGE: f64 = 1.128;
/// How much of what instruments may repeat is allowed before the CUSUM counts, in standard uncertainties.
pub const ALLOWED: f64 = 2.0;

/// What a group of cars has in common.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Bias {
    /// `gauge`, `site` or `shipper`.
    pub by: String,
    /// Which of them.
    pub name: String,
    /// The site, for a gauge.
    pub site: String,
    /// What is compared.
    pub compared: Compared,
    /// Cars in it.
    pub cars: usize,
    /// Mean difference, gal a car.
    pub mean: f64,
    /// Standard deviation of the differences, gal.
    pub deviation: f64,
    /// Standard error of the mean, gal.
    pub error: f64,
    /// Low end of the interval of the mean at 95 % (Student), gal.
    pub low: f64,
    /// High end.
    pub high: f64,
    /// Standard uncertainty of the mean that instruments may repeat within their limits, gal.
    pub shared: f64,
    /// The tabular CUSUM, in the order in which the cars came; for gauges only.
    pub cusum: Option<Cusum>,
}

/// A tabular CUSUM about 0.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Cusum {
    /// Standard deviation of one car, from the mean moving range, gal.
    pub sigma: f64,
    /// Reference value K, gal.
    pub reference: f64,
    /// Decision interval H, gal.
    pub interval: f64,
    /// Each car: its index among the report's cars, its difference, upper and lower sum.
    pub points: Vec<Point>,
    /// Places in `points` at which a sum passed H; both sums begin again at 0 after it.
    pub signals: Vec<usize>,
}

/// A point of the chart.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Point {
    /// Index among the report's cars.
    pub car: usize,
    /// The difference, gal.
    pub difference: f64,
    /// Upper sum, gal.
    pub upper: f64,
    /// Lower sum, gal.
    pub lower: f64,
}

/// Mean, scatter and interval of a group. Nothing with fewer than two cars.
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

/// Mean and standard deviation (n − 1) of two values or more.
pub fn mean_and_deviation(values: &[f64]) -> (f64, f64) {
    let count = values.len() as f64;
    let mean = values.iter().sum::<f64>() / count;
    let squares: f64 = values.iter().map(|value| (value - mean).powi(2)).sum();
    (mean, (squares / (count - 1.0)).sqrt())
}

/// Returns the CUSUM of a gauge's cars in the order in which they came: (index among the report's cars,
/// comparison).
///
/// K = [`ALLOWED`] × what instruments may repeat + `cusum_reference` × σ; H = `cusum_interval` × σ; σ from
/// the mean moving range, which a lasting shift hardly moves, and never less than what a car's own parts say.
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

/// Upper and lower sums about a target, and the places at which one passed the interval. A sum never falls
/// below 0; both begin again at 0 after a signal.
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

    /// A textbook's example of a tabular CUSUM (chemical process concentration, target 99, K = 1, H = 10): twenty
    /// observations with both sums as printed (chapter 16 "Statistical quality control", table 16-8).
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
