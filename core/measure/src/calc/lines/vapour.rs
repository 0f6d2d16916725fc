//! Script formulas for saturation, vapour and residue: connects `catalogue` entries to `calc`'s functions.

use super::Answer;
use super::liquid::WELL_F;
use super::reading::Reading;
use super::refusal::Refusal;
use super::schema::{
    ELEVATION, Formula, GAUGE_GRADE, GAUGE_OVERDUE, GAUGE_SPAN, GRADE, Input, PSIA, PSIG, mix, number,
};
use crate::calc::arrival;
use crate::calc::empty_proof;
use crate::calc::fluid::{self, Band, Composition, Mix, band};
use crate::calc::quantity;
use crate::calc::residue::{self, Evidence};
use crate::calc::uncertainty::{Method, propagate};
use crate::calc::{CalcError, Measured};
use crate::units::{Computed, Unit};

const FLUID_F: Input = number("temp_f", "temperature", Unit::Fahrenheit, (-80.0, 200.0), WELL_F)
    .about("and below 98.5 % of the critical temperature");
const EQUATIONS: &str = "propane Lemmon, McLinden & Wagner 2009; butanes and ethane Bücker & Wagner 2006; propylene Lemmon et al.; mixes GERG-2008 (Kunz & Wagner 2012), propylene pairs Bell & Lemmon 2016";
const COMPOSITION_DOUBT: &str =
    "another composition (3 % ethane moves the pressure by 7 %), air or nitrogen in the vapour";

/// One value for a known composition, a band for a grade.
pub(super) fn answer(
    composition: &Composition,
    formula: impl Fn(&Mix) -> Result<Computed, CalcError>,
) -> Result<Answer, Refusal> {
    match composition {
        Composition::Known(mix) => Ok(formula(mix)?.into()),
        Composition::Presumed(_) => Ok(Answer::from(band(composition, formula)?)),
    }
}

pub(super) const PSAT: Formula = Formula {
    name: "psat",
    about: "saturation pressure; of a mix, the pressure at which its liquid begins to boil",
    inputs: &[FLUID_F, mix().optional(), GRADE],
    unit: Unit::PsiAbsolute,
    method: "equal fugacities by Helmholtz equations of state",
    source: EQUATIONS,
    wrong_when: COMPOSITION_DOUBT,
    answer: |line| {
        let temperature = line.number("temp_f")?;
        answer(&line.composition()?, |mix| arrival::saturation_pressure(&temperature, mix))
    },
};

pub(super) const TSAT: Formula = Formula {
    name: "tsat",
    about: "saturation temperature; of a mix, the temperature at which its liquid begins to boil",
    inputs: &[PSIA, mix().optional(), GRADE],
    unit: Unit::Fahrenheit,
    method: "bracketed search on psat; the answer lies within −80 to 200 °F",
    source: EQUATIONS,
    wrong_when: COMPOSITION_DOUBT,
    answer: |line| {
        let pressure = line.number("psia")?;
        answer(&line.composition()?, |mix| boiling(&pressure, mix))
    },
};

fn boiling(pressure: &Measured, mix: &Mix) -> Result<Computed, CalcError> {
    let pressure = pressure.checked(fluid::PRESSURE_PSIA)?;
    let own = if mix.single().is_some() { 0.03 } else { 0.3 };
    let fahrenheit = propagate(&[&pressure], Method::Absolute("equation of state", own), |x| {
        let kelvin = fluid::boiling_kelvin(mix, Unit::PsiAbsolute.to_si(x[0]))?;
        Ok(Unit::Fahrenheit.from_si(kelvin))
    })?;
    Ok(fahrenheit.computed(Unit::Fahrenheit, "tsat/1", &mix.source(), quantity::estimated_pair(mix)))
}

pub(super) const VAPOUR_DENSITY: Formula = Formula {
    name: "vapour_density",
    about: "density of vapour alone",
    inputs: &[
        FLUID_F,
        PSIA.optional(),
        PSIG.optional(),
        ELEVATION.optional(),
        GAUGE_GRADE,
        GAUGE_SPAN,
        GAUGE_OVERDUE,
        mix().optional(),
        GRADE,
    ],
    unit: Unit::PoundPerCubicFoot,
    method: "Helmholtz equation of state; refused at and above the pressure where some would condense",
    source: EQUATIONS,
    wrong_when: COMPOSITION_DOUBT,
    answer: |line| {
        let temperature = line.number("temp_f")?;
        let (reading, elevation) = line.pressure()?;
        answer(&line.composition()?, |mix| density(&temperature, &reading, &elevation, mix))
    },
};

fn density(
    temperature: &Measured,
    reading: &Measured,
    elevation: &Measured,
    mix: &Mix,
) -> Result<Computed, CalcError> {
    let temperature = temperature.checked(fluid::TEMPERATURE_F)?;
    let parts = residue::absolute_pressure(reading, elevation)?;
    let own = Method::Relative("equation of state", if mix.single().is_some() { 0.0005 } else { 0.005 });
    let density = propagate(&[&temperature, &parts[0], &parts[1]], own, |x| {
        let pascal = Unit::PsiAbsolute.to_si(x[1] + x[2]);
        let density = fluid::vapour_density(mix, Unit::Fahrenheit.to_si(x[0]), pascal)?;
        Ok(Unit::PoundPerCubicFoot.from_si(density))
    })?;
    let findings = quantity::estimated_pair(mix);
    Ok(density.computed(Unit::PoundPerCubicFoot, "vapour_density/1", &mix.source(), findings))
}

pub(super) const DENSITY_RATIO: Formula = Formula {
    name: "density_ratio",
    about: "correction of liquid volume to 60 °F by equation of state; for propylene, where Table 24E does not hold",
    inputs: &[FLUID_F, mix().optional(), GRADE],
    unit: Unit::One,
    method: "saturated liquid density at temp_f over that at 60 °F",
    source: EQUATIONS,
    wrong_when: "another composition; liquid far above its own vapour pressure",
    answer: |line| {
        let temperature = line.number("temp_f")?;
        answer(&line.composition()?, |mix| quantity::density_ratio(&temperature, mix))
    },
};

pub(super) const SUPERHEAT: Formula = Formula {
    name: "superheat",
    about: "temperature less that at which the vapour would condense; negative: below it",
    inputs: &[
        FLUID_F,
        PSIA.optional(),
        PSIG.optional(),
        ELEVATION.optional(),
        GAUGE_GRADE,
        GAUGE_SPAN,
        GAUGE_OVERDUE,
        mix().optional(),
        GRADE,
    ],
    unit: Unit::FahrenheitDifference,
    method: "temp_f − condensing temperature at the pressure; model: above 8 °F dry, under 4 °F wet, not field-tested, not valid within 10 °F of the outside temperature",
    source: EQUATIONS,
    wrong_when: "a temperature not taken low in the tank, a heel of heavier product than given",
    answer: |line| {
        let temperature = line.number("temp_f")?;
        let (reading, elevation) = line.pressure()?;
        let parts = residue::absolute_pressure(&reading, &elevation)?;
        answer(&line.composition()?, |mix| empty_proof::superheat(&temperature, &parts, mix))
    },
};

pub(super) const RESIDUE: Formula = Formula {
    name: "residue",
    about: "vapour left in the car as liquid equivalent at 60 °F",
    inputs: &[
        number("temp_f", "temperature", Unit::Fahrenheit, (-80.0, 200.0), 5.0)
            .about("temperature of the vapour in the shell"),
        PSIG,
        ELEVATION,
        number("shell_gal", "shell volume", Unit::Gallon, (10.0, 100_000.0), 0.0)
            .about("water capacity of the shell"),
        GAUGE_GRADE,
        GAUGE_SPAN,
        GAUGE_OVERDUE,
        mix().optional().about("composition; pure propane when neither mix nor grade is given"),
        GRADE,
    ],
    unit: Unit::Gallon,
    method: "vapour density by equation of state × shell ÷ saturated liquid density at 60 °F",
    source: "Lemmon, McLinden & Wagner 2009 (propane; others by mix); atmosphere ISO 2533:1975",
    wrong_when: "liquid still in the car, a pressure not read at the car, a temperature that is not the vapour's, inert gas in it",
    answer: residue_answer,
};

fn residue_answer(line: &Reading) -> Result<Answer, Refusal> {
    let (temperature, pressure) = (line.number("temp_f")?, line.gauge("psig")?);
    let (elevation, shell) = (line.number("elev_ft")?, line.number("shell_gal")?);
    let evidence = Evidence::propane(temperature, pressure, elevation, shell);
    if line.has("grade") {
        let span: Band = residue::over_grade(&evidence, &line.composition()?)?;
        return Ok(span.into());
    }
    let all = residue::all(&Evidence { mix: line.mix_or_propane("mix")?, ..evidence })?;
    Ok(Answer::from(all.gallons)
        .with("lb_vacuum", all.pounds)
        .with("kg_vacuum", all.kilograms)
        .with("density", all.density)
        .with("pressure_abs", all.pressure))
}
