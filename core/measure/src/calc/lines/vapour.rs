//! Script formulas for saturation, vapour and residue: connects `catalogue` entries to `calc`'s functions.

use super::Answer;
use super::line_error::LineError;
use super::liquid::WELL_F;
use super::reading::Reading;
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
    .means("calc_input-temp_f_fluid");

/// One value for a known composition, a band for a grade.
pub(super) fn answer(
    composition: &Composition,
    formula: impl Fn(&Mix) -> Result<Computed, CalcError>,
) -> Result<Answer, LineError> {
    match composition {
        Composition::Known(mix) => Ok(formula(mix)?.into()),
        Composition::Presumed(_) => Ok(Answer::from(band(composition, formula)?)),
    }
}

pub(super) const PSAT: Formula = Formula {
    name: "psat",
    inputs: &[FLUID_F, mix().optional(), GRADE],
    unit: Unit::PsiAbsolute,
    answer: |line| {
        let temperature = line.number("temp_f")?;
        answer(&line.composition()?, |mix| arrival::saturation_pressure(&temperature, mix))
    },
};

pub(super) const TSAT: Formula = Formula {
    name: "tsat",
    inputs: &[PSIA, mix().optional(), GRADE],
    unit: Unit::Fahrenheit,
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
    inputs: &[FLUID_F, mix().optional(), GRADE],
    unit: Unit::One,
    answer: |line| {
        let temperature = line.number("temp_f")?;
        answer(&line.composition()?, |mix| quantity::density_ratio(&temperature, mix))
    },
};

pub(super) const SUPERHEAT: Formula = Formula {
    name: "superheat",
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
    answer: |line| {
        let temperature = line.number("temp_f")?;
        let (reading, elevation) = line.pressure()?;
        let parts = residue::absolute_pressure(&reading, &elevation)?;
        answer(&line.composition()?, |mix| empty_proof::superheat(&temperature, &parts, mix))
    },
};

pub(super) const RESIDUE: Formula = Formula {
    name: "residue",
    inputs: &[
        number("temp_f", "temperature", Unit::Fahrenheit, (-80.0, 200.0), 5.0)
            .means("calc_input-temp_f_vapor"),
        PSIG,
        ELEVATION,
        number("shell_gal", "shell volume", Unit::Gallon, (10.0, 100_000.0), 0.0)
            .means("calc_input-shell_water"),
        GAUGE_GRADE,
        GAUGE_SPAN,
        GAUGE_OVERDUE,
        mix().optional().means("calc_input-mix_or_grade"),
        GRADE,
    ],
    unit: Unit::Gallon,
    answer: residue_answer,
};

fn residue_answer(line: &Reading) -> Result<Answer, LineError> {
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
