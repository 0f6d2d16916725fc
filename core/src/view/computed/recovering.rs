//! How long the recovery of vapor takes down to the planned pressure, and where it no longer pays.
//!
//! Nothing is computed until somebody recorded a plan. `make` in the parent module calls this module.

use super::inputs::{Inputs, refused};
use super::quantities::cannot;
use crate::calc::error::CalcError;
use crate::calc::fluid::composition::Mix;
use crate::calc::fluid::grade::band;
use crate::calc::recovery::PumpDown;
use crate::calc::uncertainty::Measured;
use crate::entry::RecoveryPlanned;
use crate::entry::vocabulary::{Measured as What, Place, Purpose};
use crate::units::{Computed, Dimension, Unit};
use crate::view::quantity::Quantity;
use crate::{Message, message};

/// The half-width presumed for an efficiency that nobody stated, as a share of one; common practice, no source.
const EFFICIENCY: (f64, f64) = (0.75, 0.15);

/// Adds what the plan comes to, or why it cannot be computed.
pub(super) fn recovery(inputs: &Inputs<'_>, quantities: &mut Vec<Quantity>) {
    let Some(plan) = inputs.plan else { return };
    let car = down(inputs, plan);
    let made = |name: &'static str, formula: &dyn Fn(&PumpDown) -> Result<Computed, CalcError>| {
        let found = car.as_ref().map_err(Clone::clone).and_then(|car| {
            let (_, composition) = inputs.composition()?;
            let of = |mix: &Mix| formula(&PumpDown { mix: mix.clone(), ..car.clone() });
            band(&composition, of).map(|band| (band, composition.message())).map_err(refused)
        });
        match found {
            Ok((band, product)) => Quantity::between(name, band.low, band.high, &product),
            Err(why) => Quantity::missing(name, cannot(&why)),
        }
    };
    quantities.push(match Measured::of("target", &plan.target, 0.0) {
        Ok(target) => made("recovery_time", &|car| Ok(car.to_pressure(&target)?.minutes)),
        Err(why) => Quantity::missing("recovery_time", cannot(&refused(why))),
    });
    let money = |amount: &Option<crate::units::Amount>| amount.as_ref().and_then(|amount| amount.value);
    if let (Some(price), Some(cost)) = (money(&plan.price), money(&plan.cost)) {
        quantities.push(made("economic_stop", &|car| {
            let stop = car.economic_stop(price, cost)?;
            // The pressure is found by halving and has no ± of its own; that of the time says how sure it is.
            let (value, unit) =
                stop.psig.map_or((stop.psia, Unit::PsiAbsolute), |psig| (psig, Unit::PsiGauge));
            Ok(Computed { value, unit, plus_minus: None, ..stop.way.minutes })
        }));
    }
}

/// Returns the car as it is now being drawn down; its mix is a placeholder.
fn down(inputs: &Inputs<'_>, plan: &RecoveryPlanned) -> Result<PumpDown, Message> {
    let last = |purpose, what, place| inputs.series(purpose, what, place).last().map(|(_, reading)| *reading);
    let pressure = last(Purpose::Recovery, What::Pressure, Place::Car)
        .or_else(|| last(Purpose::Transfer, What::Pressure, Place::Car));
    let pressure = match pressure {
        Some(reading) => reading,
        None => inputs.reading(Purpose::Arrival, What::Pressure, Place::Car)?,
    };
    let temperature = match last(Purpose::EmptyProof, What::Temperature, Place::CarLow) {
        Some(reading) => reading,
        None => inputs.reading(Purpose::Arrival, What::Temperature, Place::Car)?,
    };
    let swept = plan.swept.as_ref().ok_or(Message::new("quantity-no-swept"))?;
    let efficiency = match &plan.efficiency {
        Some(stated) => {
            Measured::of("efficiency", stated, 0.0).and_then(|one| one.to(Unit::One)).map_err(refused)?
        }
        None => Measured {
            presumed: Some(message!(
                "calc-presumed-efficiency",
                efficiency = Unit::Percent.figure(100.0 * EFFICIENCY.0, 0)
            )),
            ..Measured::within("efficiency", EFFICIENCY.0, Unit::One, EFFICIENCY.1)
        },
    };
    if swept.unit.dimension() != Dimension::VolumeRate {
        return Err(Message::new("quantity-no-swept"));
    }
    Ok(PumpDown {
        volume: inputs.shell()?,
        temperature: inputs.temperature(temperature)?.measured,
        start: inputs.pressure(pressure)?.measured,
        swept: Measured::of("swept volume", swept, 0.0)
            .and_then(|one| one.to(Unit::CubicFootPerMinute))
            .map_err(refused)?,
        efficiency,
        elevation: inputs.elevation()?,
        mix: Mix::pure(crate::calc::fluid::composition::Fluid::Propane),
    })
}
