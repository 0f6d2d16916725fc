//! The multi-fluid model: residual Helmholtz energy of a mix, its pressure and fugacities.
//!
//! Method: GERG-2008 form (Kunz & Wagner 2012): pure reference equations at the mix's reduced state,
//! reducing functions with binary parameters, one departure function for the paraffin pairs. The pure
//! equations are the full reference ones, not GERG's shorter ones, as CoolProp does it.
//! Called by `calc::fluid::phase` alone.

use super::composition::{Fluid, Mix};
use super::helmholtz::{Power, Reduced, Residual, powers};

/// Molar gas constant of the equations of state, J/(mol K) (their authors' value, CODATA 2006).
pub(super) const GAS: f64 = 8.314_472;

/// Parameters of one pair, first fluid before second.
struct Pair {
    first: Fluid,
    second: Fluid,
    beta_t: f64,
    gamma_t: f64,
    beta_v: f64,
    gamma_v: f64,
    /// Weight of the departure function.
    departure: f64,
}

const fn pair(first: Fluid, second: Fluid, t: [f64; 2], v: [f64; 2], departure: f64) -> Pair {
    Pair { first, second, beta_t: t[0], gamma_t: t[1], beta_v: v[0], gamma_v: v[1], departure }
}

/// Binary parameters. Paraffins: Kunz & Wagner 2012. Propylene pairs: Bell & Lemmon 2016. Propylene with
/// n-butane was never fitted: linear mixing of critical temperature and volume (γ below), an estimate.
static PAIRS: [Pair; 10] = {
    use Fluid::{Ethane, Isobutane, NButane, Propane, Propylene};
    [
        pair(Ethane, Propane, [0.996199694, 1.01473019], [0.997607277, 1.00303472], 0.13042476515),
        pair(Ethane, Isobutane, [1.0, 1.033283811], [1.0, 1.006616886], 0.260632376098),
        pair(
            NButane,
            Ethane,
            [1.000870202594165, 1.034832749],
            [1.000843505902557, 1.006179146],
            0.281570073085,
        ),
        pair(
            NButane,
            Propane,
            [0.9996898072493984, 1.007392782],
            [1.000204173678381, 1.003264179],
            0.0312572600489,
        ),
        pair(Propane, Isobutane, [0.998012298, 1.005250774], [0.999243146, 1.001156119], -0.0551609771024),
        pair(NButane, Isobutane, [1.000077547, 1.001432824], [1.000880464, 1.00041444], -0.0551240293009),
        pair(Propylene, Propane, [1.00022004841065, 0.9935], [1.0, 1.0], 0.0),
        pair(Propylene, Isobutane, [0.9707418409148271, 1.0126], [1.0, 1.0], 0.0),
        pair(Propylene, Ethane, [1.000720518773517, 1.0056], [1.0, 1.0], 0.0),
        pair(NButane, Propylene, [1.0, 1.002991062526746], [1.0, 1.009062100652009], 0.0),
    ]
};

const fn term(n: f64, t: f64, d: i32) -> Power {
    Power { n, t, d, l: 0 }
}

/// Generalised departure function of the paraffin pairs, Kunz & Wagner 2012.
static DEPARTURE: [Power; 10] = [
    term(2.5574776844118, 1.0, 1),
    term(-7.9846357136353, 1.55, 1),
    term(4.7859131465806, 1.7, 1),
    term(-0.73265392369587, 0.25, 2),
    term(1.3805471345312, 1.35, 2),
    term(0.28349603476365, 0.0, 3),
    term(-0.49087385940425, 1.25, 3),
    term(-0.10291888921447, 0.0, 4),
    term(0.11836314681968, 0.7, 4),
    term(5.5527385721943e-5, 5.4, 4),
];

/// A mix prepared for evaluation: reducing state and its derivatives by composition.
pub(super) struct Model {
    x: [f64; 5],
    reducing_kelvin: f64,
    reducing_mol: f64,
    /// n ∂Tᵣ/∂nᵢ divided by Tᵣ.
    kelvin_by_part: [f64; 5],
    /// n ∂vᵣ/∂nᵢ divided by vᵣ.
    volume_by_part: [f64; 5],
    /// Σ xᵢ xⱼ Fᵢⱼ.
    departure: f64,
    /// Σⱼ xⱼ Fᵢⱼ.
    departure_by_part: [f64; 5],
}

/// One state of a mix: what pressure and fugacity need.
pub(super) struct State {
    /// Compression factor Z.
    pub z: f64,
    /// ∂p/∂ρ divided by RT.
    pub slope: f64,
}

impl Model {
    pub(super) fn new(mix: &Mix) -> Model {
        let x = *mix.fractions();
        let (mut kelvin, mut volume) = (Sum::default(), Sum::default());
        let (mut departure, mut departure_by_part) = (0.0, [0.0; 5]);
        for fluid in Fluid::ALL {
            let equation = fluid.equation();
            kelvin.square(fluid, &x, equation.reducing_kelvin);
            volume.square(fluid, &x, 1.0 / equation.reducing_mol);
        }
        for pair in &PAIRS {
            let (i, j) = (pair.first as usize, pair.second as usize);
            if x[i] == 0.0 && x[j] == 0.0 {
                continue;
            }
            let (a, b) = (pair.first.equation(), pair.second.equation());
            let between = (a.reducing_kelvin * b.reducing_kelvin).sqrt();
            kelvin.pair(pair, &x, pair.beta_t, pair.gamma_t * between);
            let root = a.reducing_mol.powf(-1.0 / 3.0) + b.reducing_mol.powf(-1.0 / 3.0);
            volume.pair(pair, &x, pair.beta_v, pair.gamma_v * root * root * root / 8.0);
            departure += x[i] * x[j] * pair.departure;
            departure_by_part[i] += x[j] * pair.departure;
            departure_by_part[j] += x[i] * pair.departure;
        }
        Model {
            x,
            reducing_kelvin: kelvin.value,
            reducing_mol: 1.0 / volume.value,
            kelvin_by_part: kelvin.per_mole(&x),
            volume_by_part: volume.per_mole(&x),
            departure,
            departure_by_part,
        }
    }

    /// Molar density of reduction, mol/m³: a scale for guesses.
    pub(super) const fn reducing_mol(&self) -> f64 {
        self.reducing_mol
    }

    /// Temperature of reduction, K.
    pub(super) const fn reducing_kelvin(&self) -> f64 {
        self.reducing_kelvin
    }

    fn at(&self, kelvin: f64, mol: f64) -> Reduced {
        Reduced::new(mol / self.reducing_mol, self.reducing_kelvin / kelvin)
    }

    /// Pressure and its slope at a temperature (K) and molar density (mol/m³).
    pub(super) fn state(&self, kelvin: f64, mol: f64) -> State {
        let at = self.at(kelvin, mol);
        let mut sum = Residual::default();
        for fluid in Fluid::ALL {
            let x = self.x[fluid as usize];
            if x > 0.0 {
                sum.add(fluid.equation().residual(&at), x);
            }
        }
        if self.departure != 0.0 {
            sum.add(powers(&DEPARTURE, &at), self.departure);
        }
        State { z: 1.0 + sum.d, slope: 1.0 + 2.0 * sum.d + sum.dd }
    }

    /// Logarithms of the fugacity coefficients of the fluids present; meaningless for absent ones.
    pub(super) fn ln_fugacity(&self, kelvin: f64, mol: f64) -> [f64; 5] {
        let at = self.at(kelvin, mol);
        let (mut sum, mut own) = (Residual::default(), [0.0; 5]);
        for fluid in Fluid::ALL {
            let i = fluid as usize;
            if self.x[i] > 0.0 {
                let part = fluid.equation().residual(&at);
                own[i] = part.a;
                sum.add(part, self.x[i]);
            }
        }
        if self.departure_by_part.iter().any(|f| *f != 0.0) {
            let part = powers(&DEPARTURE, &at);
            sum.add(part, self.departure);
            for (own, by_part) in own.iter_mut().zip(self.departure_by_part) {
                *own += by_part * part.a;
            }
        }
        let mean: f64 = self.x.iter().zip(own).map(|(x, own)| x * own).sum();
        let ln_z = (1.0 + sum.d).ln();
        let mut result = [0.0; 5];
        for (i, ln_phi) in result.iter_mut().enumerate() {
            let shift =
                sum.d * (1.0 + self.volume_by_part[i]) + sum.t * self.kelvin_by_part[i] + (own[i] - mean);
            *ln_phi = sum.a + shift - ln_z;
        }
        result
    }
}

/// A reducing function and its partial derivatives by mole fraction.
#[derive(Default)]
struct Sum {
    value: f64,
    by_fraction: [f64; 5],
}

impl Sum {
    fn square(&mut self, fluid: Fluid, x: &[f64; 5], own: f64) {
        let i = fluid as usize;
        self.value += x[i] * x[i] * own;
        self.by_fraction[i] += 2.0 * x[i] * own;
    }

    /// Adds 2 β γ Y xᵢxⱼ (xᵢ+xⱼ)/(β²xᵢ+xⱼ).
    fn pair(&mut self, pair: &Pair, x: &[f64; 5], beta: f64, between: f64) {
        let (i, j) = (pair.first as usize, pair.second as usize);
        let (a, b, square) = (x[i], x[j], beta * beta);
        let (sum, below, factor) = (a + b, square * a + b, 2.0 * beta * between);
        self.value += factor * a * b * sum / below;
        self.by_fraction[i] += factor * (b * sum + a * b - a * b * sum * square / below) / below;
        self.by_fraction[j] += factor * (a * sum + a * b - a * b * sum / below) / below;
    }

    /// n ∂Y/∂nᵢ divided by Y.
    fn per_mole(&self, x: &[f64; 5]) -> [f64; 5] {
        let mean: f64 = x.iter().zip(self.by_fraction).map(|(x, by)| x * by).sum();
        self.by_fraction.map(|by| (by - mean) / self.value)
    }
}
