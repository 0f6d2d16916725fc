//! The quantities in the car, what is left after unloading, and the comparison with the paper.

use super::inputs::Inputs;
use crate::calc::fluid::composition::{Fluid, Mix};
use crate::calc::fluid::grade::{Composition, band};
use crate::calc::quantity::{self, Expansion, Load, PROPYLENE_LIMIT};
use crate::calc::uncertainty::{COVERAGE, Measured};
use crate::calc::{arrival, outage_table, over_short, residue, tank};
use crate::entry::vocabulary::{Measured as What, Place, Purpose};
use crate::units::{Computed, Dimension, Finding};
use crate::view::quantity::Quantity;

/// Returns all quantities in the order of the job.
pub fn quantities(inputs: &Inputs<'_>) -> (Vec<Quantity>, Vec<Finding>) {
    let mut quantities = Vec::new();
    let mut findings = Vec::new();
    on_arrival(inputs, &mut quantities, &mut findings);
    left_over(inputs, &mut quantities);
    (quantities, findings)
}

fn on_arrival(inputs: &Inputs<'_>, quantities: &mut Vec<Quantity>, findings: &mut Vec<Finding>) {
    const GROSS: (&str, &str) = ("gross_volume", "Liquid as gauged, at its own temperature");
    const NET: (&str, &str) = ("net_volume", "In the car on arrival, net at 60 °F");
    let gross = match gross(inputs) {
        Ok(gross) => gross,
        Err(why) => {
            quantities.push(Quantity::missing(GROSS.0, GROSS.1, cannot(&why)));
            return;
        }
    };
    quantities.push(Quantity::one(GROSS.0, GROSS.1, gross.clone(), ""));
    match net(inputs, &gross) {
        Err(why) => quantities.push(Quantity::missing(NET.0, NET.1, cannot(&why))),
        Ok(found) => {
            let (low, high) = (&found.low, &found.high);
            let pair = |name, title, low: &Computed, high: &Computed| {
                Quantity::between(name, title, low.clone(), high.clone(), &found.product)
            };
            quantities.push(pair(NET.0, NET.1, &low.net_gallons, &high.net_gallons));
            compare(inputs, &found, quantities);
            for (name, title, low, high) in [
                ("weight_in_vacuum", "By weight, in vacuum", &low.weights.lb_vacuum, &high.weights.lb_vacuum),
                ("weight_in_air", "By weight, in air", &low.weights.lb_air, &high.weights.lb_air),
            ] {
                quantities.push(pair(name, title, low, high));
            }
            overfill(inputs, &found, findings);
            super::receiving::room(inputs, &found, quantities, findings);
        }
    }
    arrival_pressure(inputs, findings);
}

/// Returns the liquid volume under the outage, from the owner's table if there is one.
fn gross(inputs: &Inputs<'_>) -> Result<Computed, String> {
    let reading = inputs.reading(Purpose::Arrival, What::Outage, Place::Car)?;
    let outage = inputs.outage(reading)?;
    let mut computed = match inputs.outage_table() {
        Some(table) => {
            let (table, doubts) = table?;
            let mut computed =
                outage_table::liquid_volume(&outage.measured, &table).map_err(|e| e.to_string())?;
            computed.findings.extend(doubts);
            computed
        }
        None => {
            let (diameter, shell) = (inputs.diameter()?, inputs.shell()?);
            tank::outage_volume(&outage.measured, &diameter, &shell, tank::Heads::TwoToOne)
                .map_err(|e| e.to_string())?
        }
    };
    computed.findings.extend(outage.findings);
    Ok(computed)
}

/// The content of the car, for the extreme compositions that the product may have.
pub(super) struct Net {
    low: quantity::Quantity,
    pub(super) high: quantity::Quantity,
    pub(super) relative_density: Measured,
    product: String,
}

fn net(inputs: &Inputs<'_>, gross: &Computed) -> Result<Net, String> {
    let (_, composition) = inputs.composition()?;
    let temperature =
        inputs.temperature(inputs.reading(Purpose::Arrival, What::Temperature, Place::Car)?)?.measured;
    let relative_density = inputs.relative_density()?.measured;
    let shell = inputs.shell()?;
    let elevation = inputs.elevation()?;
    let pressure = match inputs.reading(Purpose::Arrival, What::Pressure, Place::Car) {
        Ok(reading) => Some(inputs.pressure(reading)?.measured),
        Err(_) => None,
    };
    let mut found: Option<(quantity::Quantity, quantity::Quantity)> = None;
    for mix in composition.mixes().map_err(|e| e.to_string())? {
        let load = Load {
            liquid: from(gross, "liquid"),
            shell: shell.clone(),
            temperature: temperature.clone(),
            expansion: expansion(&relative_density, &mix).map_err(|e| e.to_string())?,
            mix,
            pressure: pressure.clone(),
            elevation: elevation.clone(),
        };
        let this = quantity::quantity(&load).map_err(|e| e.to_string())?;
        found = Some(match found {
            None => (this.clone(), this),
            Some((low, high)) if this.net_gallons.value < low.net_gallons.value => (this, high),
            Some((low, high)) if this.net_gallons.value > high.net_gallons.value => (low, this),
            Some(both) => both,
        });
    }
    let (low, high) = found.ok_or("the product has no known composition")?;
    Ok(Net { low, high, relative_density, product: composition.described() })
}

/// Table 24E is not valid for propylene; the equation of state provides the ratio instead.
fn expansion(relative_density: &Measured, mix: &Mix) -> Result<Expansion, crate::calc::error::CalcError> {
    if mix.fraction(Fluid::Propylene) > PROPYLENE_LIMIT {
        return Ok(Expansion::Ratio { mix: mix.clone() });
    }
    Expansion::table(relative_density.clone(), Some(mix))
}

/// Compares the billed with the measured quantity, by volume or by weight according to the paper.
fn compare(inputs: &Inputs<'_>, net: &Net, quantities: &mut Vec<Quantity>) {
    const NAME: &str = "against_paper";
    const TITLE: &str = "Found less billed (billed taken as net at 60 °F, or as weight in vacuum)";
    let Some(billed) = inputs.paper().and_then(|paper| paper.billed.as_ref()) else {
        quantities.push(Quantity::missing(NAME, TITLE, cannot("the paper has no quantity")));
        return;
    };
    let of = |computed: &Computed| {
        let billed = Measured::of("billed", billed, 0.0).map_err(|e| e.to_string())?;
        let found = from(computed, "found").to(billed.unit).map_err(|e| e.to_string())?;
        over_short::over_short(&billed, &found).map_err(|e| e.to_string())
    };
    let ends = match billed.unit.dimension() {
        Dimension::Mass => (of(&net.low.weights.lb_vacuum), of(&net.high.weights.lb_vacuum)),
        _ => (of(&net.low.net_gallons), of(&net.high.net_gallons)),
    };
    quantities.push(match ends {
        (Ok(low), Ok(high)) => Quantity::between(NAME, TITLE, low.difference, high.difference, &net.product),
        (Err(why), _) | (_, Err(why)) => Quantity::missing(NAME, TITLE, cannot(&why)),
    });
}

fn overfill(inputs: &Inputs<'_>, net: &Net, findings: &mut Vec<Finding>) {
    let Ok(shell) = inputs.shell() else { return };
    let checked = arrival::overfill(
        &from(&net.high.liquid_gallons, "net liquid"),
        &shell,
        &net.relative_density,
        arrival::REFERENCE_UNINSULATED_F,
        arrival::LEAST_OUTAGE_PERCENT,
    );
    if let Ok(checked) = checked {
        findings.extend(checked.outage.findings);
    }
}

fn arrival_pressure(inputs: &Inputs<'_>, findings: &mut Vec<Finding>) {
    let check = || -> Result<Finding, String> {
        let (_, composition) = inputs.composition()?;
        let pressure = inputs.reading(Purpose::Arrival, What::Pressure, Place::Car)?;
        let temperature = inputs.reading(Purpose::Arrival, What::Temperature, Place::Car)?;
        let checked = arrival::pressure(
            &inputs.temperature(temperature)?.measured,
            &inputs.pressure(pressure)?.measured,
            &inputs.elevation()?,
            &composition,
        );
        checked.map(|checked| checked.finding).map_err(|e| e.to_string())
    };
    findings.extend(check());
}

/// Adds the vapour left at the final pressure.
fn left_over(inputs: &Inputs<'_>, quantities: &mut Vec<Quantity>) {
    const NAME: &str = "residue";
    const TITLE: &str = "Left as vapour, liquid equivalent at 60 °F";
    let found = || -> Result<Quantity, String> {
        let reading = inputs.reading(Purpose::Final, What::Pressure, Place::Car)?;
        let pressure = inputs.pressure(reading)?;
        let temperature = inputs
            .reading(Purpose::Final, What::Temperature, Place::Car)
            .or_else(|_| inputs.reading(Purpose::Final, What::Temperature, Place::CarLow))
            .map_err(|_| "the final temperature in the car was not recorded".to_owned())?;
        let (_, composition) = inputs.composition()?;
        let evidence = residue::Evidence {
            temperature: inputs.temperature(temperature)?.measured,
            pressure: pressure.measured,
            elevation: inputs.elevation()?,
            shell: inputs.shell()?,
            mix: Mix::pure(Fluid::Propane),
        };
        let mut band = residue_band(&evidence, &composition)?;
        band.0.findings.extend(pressure.findings);
        Ok(Quantity::between(NAME, TITLE, band.0, band.1, &composition.described()))
    };
    quantities.push(found().unwrap_or_else(|why| Quantity::missing(NAME, TITLE, cannot(&why))));
}

fn residue_band(
    evidence: &residue::Evidence,
    composition: &Composition,
) -> Result<(Computed, Computed), String> {
    band(composition, |mix| residue::residue(&residue::Evidence { mix: mix.clone(), ..evidence.clone() }))
        .map(|band| (band.low, band.high))
        .map_err(|e| e.to_string())
}

/// Converts a computed value to the input of another formula.
pub(super) fn from(computed: &Computed, name: &str) -> Measured {
    Measured {
        standard: computed.plus_minus.unwrap_or(0.0) / COVERAGE,
        ..Measured::exact(name, computed.value, computed.unit)
    }
}

pub(super) fn cannot(why: &str) -> String {
    format!("cannot be computed: {}", why.trim_end_matches('.'))
}
