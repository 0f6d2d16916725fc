//! Quantiles of the normal distribution and of Student's distribution, for confidence intervals and for
//! thresholds.
//!
//! The formulas are closed: the normal distribution by its series of positive terms (G. Marsaglia, J. Stat.
//! Softw. 11 (2004) 4, from memory), Student's by Abramowitz & Stegun 26.7.3 and 26.7.4 (from memory).
//! `tests/reconcile/check.py` checks both against scipy. Called by `bias` and `judgement`.

use std::f64::consts::PI;

/// Returns P(|Z| ≤ z) of the standard normal distribution.
fn normal_within(z: f64) -> f64 {
    let (mut term, mut sum, mut k) = (z, z, 1.0);
    while term > 1e-18 * sum && k < 2_000.0 {
        k += 2.0;
        term *= z * z / k;
        sum += term;
    }
    (2.0 * sum * (-0.5 * z * z).exp() / (2.0 * PI).sqrt()).min(1.0)
}

/// Returns P(|T| ≤ t) of Student's distribution with a whole number of degrees of freedom.
fn student_within(t: f64, degrees: u32) -> f64 {
    let angle = (t / f64::from(degrees).sqrt()).atan();
    let (sine, cosine) = (angle.sin(), angle.cos());
    let squared = cosine * cosine;
    if degrees == 1 {
        return 2.0 * angle / PI;
    }
    let odd = degrees % 2 == 1;
    let mut term = if odd { cosine } else { 1.0 };
    let mut sum = term;
    let mut k = if odd { 3 } else { 2 };
    while k < degrees {
        term *= squared * f64::from(k - 1) / f64::from(k);
        sum += term;
        k += 2;
    }
    if odd { 2.0 / PI * (angle + sine * sum) } else { sine * sum }
}

fn inverse(within: impl Fn(f64) -> f64, probability: f64, mut high: f64) -> f64 {
    let mut low = 0.0;
    for _ in 0..200 {
        let middle = 0.5 * (low + high);
        if within(middle) < probability {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}

/// Returns the z for which the standard normal distribution has `probability` between −z and z. `probability`
/// is clamped to 0 to 1 − 1e-12.
pub fn normal_enclosing(probability: f64) -> f64 {
    inverse(normal_within, probability.clamp(0.0, 1.0 - 1e-12), 8.0)
}

/// Returns the t for which Student's distribution has `probability` between −t and t. `degrees` counts as at
/// least one.
pub fn student_enclosing(probability: f64, degrees: usize) -> f64 {
    let degrees = u32::try_from(degrees.clamp(1, 5_000)).unwrap_or(5_000);
    inverse(|t| student_within(t, degrees), probability.clamp(0.0, 1.0 - 1e-12), 1e7)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The expected values are from any textbook's tables of Student's t and of the normal distribution, to
    /// three decimals.
    #[test]
    fn quantiles_are_those_of_the_tables() {
        for (degrees, expected) in [(1, 12.706), (2, 4.303), (4, 2.776), (9, 2.262), (29, 2.045), (60, 2.000)]
        {
            let t = student_enclosing(0.95, degrees);
            assert!((t - expected).abs() < 6e-4, "{degrees}: {t}");
        }
        assert!((normal_enclosing(0.95) - 1.959_964).abs() < 1e-6);
        assert!((normal_enclosing(0.9973) - 2.999_98).abs() < 1e-4);
        assert!((student_enclosing(0.999, 4_000) - normal_enclosing(0.999)).abs() < 3e-3);
    }
}
