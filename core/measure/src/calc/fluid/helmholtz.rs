//! The residual Helmholtz energy of one fluid: its form and evaluation. The coefficients are in
//! `coefficients`.
//!
//! Only `calc::fluid::mixture` uses this module.

/// A term n τ^t δ^d exp(−δ^l), without the exponential when l is 0.
pub(super) struct Power {
    pub n: f64,
    pub t: f64,
    pub d: i32,
    pub l: i32,
}

/// A term n τ^t δ^d exp(−η(δ−ε)² − β(τ−γ)²).
pub(super) struct Gaussian {
    pub n: f64,
    pub t: f64,
    pub d: i32,
    pub eta: f64,
    pub beta: f64,
    pub gamma: f64,
    pub epsilon: f64,
}

/// A pure fluid's equation of state and the constants that go with it.
pub(super) struct PureFluid {
    pub key: &'static str,
    pub source: &'static str,
    /// kg/mol.
    pub molar_mass: f64,
    pub reducing_kelvin: f64,
    /// mol/m³.
    pub reducing_mol: f64,
    pub critical_kelvin: f64,
    pub critical_pascal: f64,
    pub acentric: f64,
    pub power: &'static [Power],
    pub gaussian: &'static [Gaussian],
}

/// Residual reduced Helmholtz energy and the derivatives that are needed, each times its variable.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Residual {
    /// αʳ.
    pub a: f64,
    /// δ ∂αʳ/∂δ.
    pub d: f64,
    /// δ² ∂²αʳ/∂δ².
    pub dd: f64,
    /// τ ∂αʳ/∂τ.
    pub t: f64,
}

impl Residual {
    pub(super) fn add(&mut self, other: Residual, times: f64) {
        self.a += times * other.a;
        self.d += times * other.d;
        self.dd += times * other.dd;
        self.t += times * other.t;
    }
}

/// A reduced state with the logarithms and powers every term needs.
#[derive(Clone, Copy)]
pub(super) struct Reduced {
    delta: f64,
    tau: f64,
    ln_delta: f64,
    ln_tau: f64,
    /// δ^l for l from 0 to 4.
    delta_to: [f64; 5],
}

impl Reduced {
    pub(super) fn new(delta: f64, tau: f64) -> Reduced {
        let (two, ln_delta) = (delta * delta, delta.ln());
        Reduced {
            delta,
            tau,
            ln_delta,
            ln_tau: tau.ln(),
            delta_to: [1.0, delta, two, two * delta, two * two],
        }
    }
}

impl Power {
    fn add_to(&self, at: &Reduced, sum: &mut Residual) {
        let (d, l) = (f64::from(self.d), f64::from(self.l));
        let (decay, slope) = match self.delta_to(at) {
            Some(power) => (power, d - l * power),
            None => (0.0, d),
        };
        let term = self.n * (self.t * at.ln_tau + d * at.ln_delta - decay).exp();
        sum.a += term;
        sum.d += term * slope;
        sum.dd += term * (slope * (slope - 1.0) - l * l * decay);
        sum.t += term * self.t;
    }

    fn delta_to(&self, at: &Reduced) -> Option<f64> {
        (self.l > 0)
            .then(|| at.delta_to.get(self.l as usize).copied().unwrap_or_else(|| at.delta.powi(self.l)))
    }
}

impl Gaussian {
    fn add_to(&self, at: &Reduced, sum: &mut Residual) {
        let d = f64::from(self.d);
        let (from_epsilon, from_gamma) = (at.delta - self.epsilon, at.tau - self.gamma);
        let exponent = self.t * at.ln_tau + d * at.ln_delta
            - self.eta * from_epsilon * from_epsilon
            - self.beta * from_gamma * from_gamma;
        let term = self.n * exponent.exp();
        let slope = d - 2.0 * self.eta * at.delta * from_epsilon;
        sum.a += term;
        sum.d += term * slope;
        sum.dd += term * (slope * slope - d - 2.0 * self.eta * at.delta * at.delta);
        sum.t += term * (self.t - 2.0 * self.beta * at.tau * from_gamma);
    }
}

/// The sum of a list of power terms.
pub(super) fn powers(terms: &[Power], at: &Reduced) -> Residual {
    let mut sum = Residual::default();
    for term in terms {
        term.add_to(at, &mut sum);
    }
    sum
}

impl PureFluid {
    /// The residual Helmholtz energy at a reduced state.
    pub(super) fn residual(&self, at: &Reduced) -> Residual {
        let mut sum = powers(self.power, at);
        for term in self.gaussian {
            term.add_to(at, &mut sum);
        }
        sum
    }
}

#[cfg(test)]
mod tests {
    use super::super::coefficients::{ETHANE, ISOBUTANE, N_BUTANE, PROPANE, PROPYLENE};
    use super::*;

    #[test]
    fn every_derivative_is_the_slope_of_the_one_before() {
        for fluid in [&PROPANE, &N_BUTANE, &ISOBUTANE, &PROPYLENE, &ETHANE] {
            for (delta, tau) in [(0.01, 1.1), (0.2, 1.3), (1.1, 1.05), (2.5, 1.4)] {
                let at = |delta: f64, tau: f64| fluid.residual(&Reduced::new(delta, tau));
                let (h, here) = (1e-5, at(delta, tau));
                let (up, down) = (at(delta * (1.0 + h), tau), at(delta * (1.0 - h), tau));
                let slope = (up.a - down.a) / (2.0 * h);
                assert!((slope - here.d).abs() < 1e-7 * (1.0 + here.d.abs()), "{} {delta} {tau}", fluid.key);
                // δ d/dδ (δ αδ) = δ αδ + δ² αδδ
                let second = (up.d - down.d) / (2.0 * h) - here.d;
                assert!(
                    (second - here.dd).abs() < 1e-6 * (1.0 + here.dd.abs()),
                    "{} {delta} {tau}",
                    fluid.key
                );
                let by_tau = (at(delta, tau * (1.0 + h)).a - at(delta, tau * (1.0 - h)).a) / (2.0 * h);
                assert!((by_tau - here.t).abs() < 1e-6 * (1.0 + here.t.abs()), "{} {delta} {tau}", fluid.key);
            }
        }
    }
}
