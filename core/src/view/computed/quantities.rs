//! The quantities in the car, what is left after unloading, and the comparison with the paper.

use super::inputs::{Inputs, refused};
use crate::calc::fluid::composition::{Fluid, Mix};
use crate::calc::fluid::grade::{Composition, band};
use crate::calc::quantity::{self, Expansion, Load, PROPYLENE_LIMIT};
use crate::calc::uncertainty::{COVERAGE, Measured};
use crate::calc::{arrival, outage_table, over_short, residue, tank};
use crate::entry::vocabulary::{BilledBy, Measured as What, Place, Purpose};
use crate::units::{Computed, Dimension, Finding, Severity};
use crate::view::quantity::Quantity;
use crate::{Message, message};

/// Returns all quantities in the order of the job.
pub fn quantities(inputs: &Inputs<'_>) -> (Vec<Quantity>, Vec<Finding>) {
    let mut quantities = Vec::new();
    let mut findings = Vec::new();
    on_arrival(inputs, &mut quantities, &mut findings);
    left_over(inputs, &mut quantities);
    (quantities, findings)
}

fn on_arrival(inputs: &Inputs<'_>, quantities: &mut Vec<Quantity>, findings: &mut Vec<Finding>) {
    const GROSS: &str = "gross_volume";
    const NET: &str = "net_volume";
    findings.extend(inputs.grade_finding());
    let gross = match gross(inputs) {
        Ok(gross) => gross,
        Err(why) => {
            quantities.push(Quantity::missing(GROSS, cannot(&why)));
            return;
        }
    };
    quantities.push(Quantity::one(GROSS, gross.clone(), &Message::default()));
    match net(inputs, &gross) {
        Err(why) => quantities.push(Quantity::missing(NET, cannot(&why))),
        Ok(found) => {
            let pair = |name, low: &Computed, high: &Computed| {
                Quantity::between(name, low.clone(), high.clone(), &found.product)
            };
            quantities.push(pair(NET, &found.low, &found.high));
            let whole = whole(inputs, &gross, &found);
            compare(inputs, &found, whole.as_ref().ok(), quantities);
            match weights(&found) {
                Ok((low, high)) => {
                    for (name, low, high) in [
                        ("weight_in_vacuum", &low.lb_vacuum, &high.lb_vacuum),
                        ("weight_in_air", &low.lb_air, &high.lb_air),
                    ] {
                        quantities.push(pair(name, low, high));
                    }
                }
                Err(why) => quantities.push(Quantity::missing("weight_in_vacuum", cannot(&why))),
            }
            quantities.push(match &whole {
                Ok((low, high)) => pair("vapor_volume", &low.vapour_gallons, &high.vapour_gallons),
                Err(why) => Quantity::missing("vapor_volume", cannot(why)),
            });
            overfill(inputs, &found, findings);
            super::receiving::room(inputs, &found, quantities, findings);
        }
    }
    arrival_pressure(inputs, findings);
}

/// Returns the liquid volume under the outage, from the owner's table if there is one.
fn gross(inputs: &Inputs<'_>) -> Result<Computed, Message> {
    let reading = inputs.reading(Purpose::Arrival, What::Outage, Place::Car)?;
    let outage = inputs.outage(reading)?;
    let mut computed = match inputs.outage_table() {
        Some(table) => {
            let (table, doubts) = table?;
            let mut computed = outage_table::liquid_volume(&outage.measured, &table).map_err(refused)?;
            computed.findings.extend(doubts);
            computed
        }
        None => {
            let (diameter, shell) = (inputs.diameter()?, inputs.shell()?);
            tank::outage_volume(&outage.measured, &diameter, &shell, tank::Heads::TwoToOne)
                .map_err(refused)?
        }
    };
    computed.findings.extend(outage.findings);
    Ok(computed)
}

/// The liquid in the car at 60 °F. It takes the gauging, a temperature and a relative density; where the
/// product has no composition or Table 24E holds for all of them, low and high are one.
pub(super) struct Net {
    low: Computed,
    pub(super) high: Computed,
    pub(super) relative_density: Measured,
    temperature: Measured,
    product: Message,
}

fn net(inputs: &Inputs<'_>, gross: &Computed) -> Result<Net, Message> {
    let temperature =
        inputs.temperature(inputs.reading(Purpose::Arrival, What::Temperature, Place::Car)?)?.measured;
    let relative_density = inputs.relative_density()?.measured;
    let liquid = from(gross, "liquid");
    // Without a paper nothing says that the product is propylene, for which alone Table 24E does not hold.
    let composition = inputs.composition().ok().map(|(_, composition)| composition);
    let expansions = match &composition {
        None => vec![Expansion::table(relative_density.clone(), None).map_err(refused)?],
        Some(composition) => composition
            .mixes()
            .and_then(|mixes| mixes.iter().map(|mix| expansion(&relative_density, mix)).collect())
            .map_err(refused)?,
    };
    let mut found: Option<(Computed, Computed)> = None;
    for expansion in expansions {
        let this = quantity::net_volume(&liquid, &temperature, &expansion).map_err(refused)?;
        found = Some(match found {
            None => (this.clone(), this),
            Some((low, high)) if this.value < low.value => (this, high),
            Some((low, high)) if this.value > high.value => (low, this),
            Some(both) => both,
        });
    }
    let (low, high) = found.ok_or(Message::new("quantity-no-composition"))?;
    let product = composition.map_or_else(Message::default, |composition| composition.message());
    Ok(Net { low, high, relative_density, temperature, product })
}

/// Returns the weights of the liquid.
fn weights(net: &Net) -> Result<(quantity::Weights, quantity::Weights), Message> {
    let of = |computed: &Computed| quantity::weights(&from(computed, "net volume"), &net.relative_density);
    Ok((of(&net.low).map_err(refused)?, of(&net.high).map_err(refused)?))
}

/// Returns all that is in the car, liquid and vapor, for the compositions with the least and the most of it.
fn whole(
    inputs: &Inputs<'_>,
    gross: &Computed,
    net: &Net,
) -> Result<(quantity::Quantity, quantity::Quantity), Message> {
    let (_, composition) = inputs.composition()?;
    let (shell, elevation) = (inputs.shell()?, inputs.elevation()?);
    let pressure = match inputs.reading(Purpose::Arrival, What::Pressure, Place::Car) {
        Ok(reading) => Some(inputs.pressure(reading)?.measured),
        Err(_) => None,
    };
    let mut found: Option<(quantity::Quantity, quantity::Quantity)> = None;
    for mix in composition.mixes().map_err(refused)? {
        let load = Load {
            liquid: from(gross, "liquid"),
            shell: shell.clone(),
            temperature: net.temperature.clone(),
            expansion: expansion(&net.relative_density, &mix).map_err(refused)?,
            mix,
            pressure: pressure.clone(),
            elevation: elevation.clone(),
        };
        let this = quantity::quantity(&load).map_err(refused)?;
        found = Some(match found {
            None => (this.clone(), this),
            Some((low, high)) if this.vapour_gallons.value < low.vapour_gallons.value => (this, high),
            Some((low, high)) if this.vapour_gallons.value > high.vapour_gallons.value => (low, this),
            Some(both) => both,
        });
    }
    found.ok_or(Message::new("quantity-no-composition"))
}

/// Table 24E is not valid for propylene; the equation of state provides the ratio instead.
fn expansion(relative_density: &Measured, mix: &Mix) -> Result<Expansion, crate::calc::error::CalcError> {
    if mix.fraction(Fluid::Propylene) > PROPYLENE_LIMIT {
        return Ok(Expansion::Ratio { mix: mix.clone() });
    }
    Expansion::table(relative_density.clone(), Some(mix))
}

/// Compares the billed with the measured quantity, like with like: a bill by outage table or meter is for the
/// liquid; a bill by scale is the difference of two weights, in which the heel that was in the car before
/// loading is on neither side. The residue that leaves again stands for that heel, once it is known.
fn compare(
    inputs: &Inputs<'_>,
    net: &Net,
    whole: Option<&(quantity::Quantity, quantity::Quantity)>,
    quantities: &mut Vec<Quantity>,
) {
    const NAME: &str = "against_paper";
    let Some(amount) = inputs.paper().and_then(|paper| paper.billed.as_ref()) else {
        quantities.push(Quantity::missing(NAME, cannot(&Message::new("quantity-no-billed"))));
        return;
    };
    let by_scale = inputs.billed_by() == Some(BilledBy::Scale);
    let ends = || -> Result<(Computed, Computed), Message> {
        let billed = Measured::of("billed", amount, 0.0).map_err(refused)?;
        let of = |found: Measured| {
            let found = found.to(billed.unit).map_err(refused)?;
            over_short::over_short(&billed, &found).map(|found| found.difference).map_err(refused)
        };
        if amount.unit.dimension() != Dimension::Mass {
            return Ok((of(from(&net.low, "found"))?, of(from(&net.high, "found"))?));
        }
        if !by_scale {
            let (low, high) = weights(net)?;
            return Ok((of(from(&low.lb_vacuum, "found"))?, of(from(&high.lb_vacuum, "found"))?));
        }
        let (low, high) = whole.ok_or_else(|| Message::new("quantity-scale-needs-vapor"))?;
        let heel = heel(inputs);
        let less = |whole: &Computed| {
            let whole = from(whole, "found");
            match &heel {
                Ok(heel) => Measured {
                    value: whole.value - heel.value,
                    standard: whole.standard.hypot(heel.standard),
                    ..whole
                },
                Err(_) => whole,
            }
        };
        let mut ends = (of(less(&low.weights.lb_vacuum))?, of(less(&high.weights.lb_vacuum))?);
        if heel.is_err() {
            ends.0.findings.push(Finding::new(
                "heel_unknown",
                Severity::Check,
                Message::new("calc-bill-heel"),
            ));
        }
        Ok(ends)
    };
    quantities.push(match ends() {
        Ok((low, high)) => Quantity::between(NAME, low, high, &net.product),
        Err(why) => Quantity::missing(NAME, cannot(&why)),
    });
}

/// Returns the weight (lb) of the residue as vapor, the middle over the possible compositions.
fn heel(inputs: &Inputs<'_>) -> Result<Measured, Message> {
    let (evidence, composition, _) = residue_evidence(inputs)?;
    let weight = |mix: &Mix| {
        let evidence = residue::Evidence { mix: mix.clone(), ..evidence.clone() };
        residue::all(&evidence).map(|all| all.pounds)
    };
    let band = band(&composition, weight).map_err(refused)?;
    let half = 0.5 * (band.most() - band.least());
    Ok(Measured::stated("residue", 0.5 * (band.most() + band.least()), band.low.unit, half))
}

fn overfill(inputs: &Inputs<'_>, net: &Net, findings: &mut Vec<Finding>) {
    let checked = inputs.shell().and_then(|shell| {
        let liquid = from(&net.high, "net liquid");
        let (insulation, winter) = (inputs.insulation(), inputs.winter_fill());
        arrival::fill(&liquid, &shell, &net.relative_density, insulation, winter).map_err(refused)
    });
    match checked {
        Ok(checked) => findings.extend(checked.outage.findings),
        Err(why) => findings.push(Finding::new(
            "fill_not_checked",
            Severity::Note,
            message!("calc-fill-not-checked", why = why),
        )),
    }
}

fn arrival_pressure(inputs: &Inputs<'_>, findings: &mut Vec<Finding>) {
    let check = || -> Result<Finding, Message> {
        let (_, composition) = inputs.composition()?;
        let pressure = inputs.reading(Purpose::Arrival, What::Pressure, Place::Car)?;
        let temperature = inputs.reading(Purpose::Arrival, What::Temperature, Place::Car)?;
        let checked = arrival::pressure(
            &inputs.temperature(temperature)?.measured,
            &inputs.pressure(pressure)?.measured,
            &inputs.elevation()?,
            &composition,
        );
        checked.map(|checked| checked.finding).map_err(refused)
    };
    findings.extend(check());
}

/// Adds the vapour left at the final pressure.
fn left_over(inputs: &Inputs<'_>, quantities: &mut Vec<Quantity>) {
    const NAME: &str = "residue";
    let found = || -> Result<Quantity, Message> {
        let (evidence, composition, doubts) = residue_evidence(inputs)?;
        let mut band = residue_band(&evidence, &composition)?;
        band.0.findings.extend(doubts);
        Ok(Quantity::between(NAME, band.0, band.1, &composition.message()))
    };
    quantities.push(found().unwrap_or_else(|why| Quantity::missing(NAME, cannot(&why))));
}

/// Returns the readings at the final pressure, what the product may be made of, and findings about the
/// readings.
fn residue_evidence(inputs: &Inputs<'_>) -> Result<(residue::Evidence, Composition, Vec<Finding>), Message> {
    let pressure = inputs.pressure(inputs.reading(Purpose::Final, What::Pressure, Place::Car)?)?;
    let temperature = inputs
        .reading(Purpose::Final, What::Temperature, Place::Car)
        .or_else(|_| inputs.reading(Purpose::Final, What::Temperature, Place::CarLow))
        .map_err(|_| Message::new("quantity-no-final-temperature"))?;
    let (_, composition) = inputs.composition()?;
    let evidence = residue::Evidence {
        temperature: inputs.temperature(temperature)?.measured,
        pressure: pressure.measured,
        elevation: inputs.elevation()?,
        shell: inputs.shell()?,
        mix: Mix::pure(Fluid::Propane),
    };
    Ok((evidence, composition, pressure.findings))
}

fn residue_band(
    evidence: &residue::Evidence,
    composition: &Composition,
) -> Result<(Computed, Computed), Message> {
    band(composition, |mix| residue::residue(&residue::Evidence { mix: mix.clone(), ..evidence.clone() }))
        .map(|band| (band.low, band.high))
        .map_err(refused)
}

/// Converts a computed value to the input of another formula.
pub(super) fn from(computed: &Computed, name: &str) -> Measured {
    Measured {
        standard: computed.plus_minus.unwrap_or(0.0) / COVERAGE,
        ..Measured::exact(name, computed.value, computed.unit)
    }
}

pub(super) fn cannot(why: &Message) -> Message {
    message!("quantity-cannot", why = why.clone())
}
