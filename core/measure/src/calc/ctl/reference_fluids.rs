//! The twelve reference fluids of API MPMS 11.2.4 / GPA TP-27, table 1: data only.
//!
//! Read by `calc::ctl` alone. EE and EP are ethane–ethylene and ethane–propane mixes.

/// One reference fluid: relative density at 60 °F, critical temperature (K), critical compression factor,
/// critical density (mol/L) and the four parameters of its saturated-density equation.
pub(super) struct ReferenceFluid {
    pub rd60: f64,
    pub critical_kelvin: f64,
    pub critical_z: f64,
    pub critical_mol_per_litre: f64,
    pub k: [f64; 4],
}

const fn fluid(rd60: f64, tc: f64, zc: f64, rhoc: f64, k: [f64; 4]) -> ReferenceFluid {
    ReferenceFluid { rd60, critical_kelvin: tc, critical_z: zc, critical_mol_per_litre: rhoc, k }
}

/// In order of relative density: EE 68/32, ethane, EP 65/35, EP 35/65, propane, isobutane, n-butane,
/// isopentane, n-pentane, isohexane, n-hexane, n-heptane.
pub(super) const REFERENCE_FLUIDS: [ReferenceFluid; 12] = [
    fluid(
        0.325022,
        298.11,
        0.27998,
        6.250,
        [2.54616855327, -0.058244177754, 0.803398090807, -0.745720314137],
    ),
    fluid(
        0.355994,
        305.33,
        0.28220,
        6.870,
        [1.89113042610, -0.370305782347, -0.544867288720, 0.337876634952],
    ),
    fluid(
        0.429277,
        333.67,
        0.28060,
        5.615,
        [2.20970078464, -0.294253708172, -0.405754420098, 0.319443433421],
    ),
    fluid(
        0.470381,
        352.46,
        0.27930,
        5.110,
        [2.25341981320, -0.266542138024, -0.372756711655, 0.384734185665],
    ),
    fluid(
        0.507025,
        369.78,
        0.27626,
        5.000,
        [1.96568366933, -0.327662435541, -0.417979702538, 0.303271602831],
    ),
    fluid(
        0.562827,
        407.85,
        0.28326,
        3.860,
        [2.04748034410, -0.289734363425, -0.330345036434, 0.291757103132],
    ),
    fluid(
        0.584127,
        425.16,
        0.27536,
        3.920,
        [2.03734743118, -0.299059145695, -0.418883095671, 0.380367738748],
    ),
    fluid(
        0.624285,
        460.44,
        0.27026,
        3.247,
        [2.06541640707, -0.238366208840, -0.161440492247, 0.258681568613],
    ),
    fluid(
        0.631054,
        469.65,
        0.27235,
        3.200,
        [2.11263474494, -0.261269413560, -0.291923445075, 0.308344290017],
    ),
    fluid(
        0.657167,
        498.05,
        0.26706,
        2.727,
        [2.02382197871, -0.423550090067, -1.152810982570, 0.950139001678],
    ),
    fluid(
        0.664064,
        507.35,
        0.26762,
        2.704,
        [2.17134547773, -0.232997313405, -0.267019794036, 0.378629524102],
    ),
    fluid(
        0.688039,
        540.15,
        0.26312,
        2.315,
        [2.19773533433, -0.275056764147, -0.447144095029, 0.493770995799],
    ),
];
