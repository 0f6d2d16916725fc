//! The judgement of each piece of evidence for an empty car.
//!
//! Only `calc::empty_proof` calls this module. If a composition is presumed, a piece indicates liquid or no
//! liquid only if it does so for every composition that the product may have.

use super::{
    DRY_SUPERHEAT_F, GaugeRod, HoldTest, LARGE_REBOUND_PSI, LiquidValve, NEAR_AMBIENT_F, Piece, Says,
    WET_SUPERHEAT_F, Weight,
};
use crate::Message;
use crate::calc::error::{CalcError, Limits, Range};
use crate::calc::fluid::{self, Composition, Mix};
use crate::calc::residue::absolute_pressure;
use crate::calc::uncertainty::{Measured, Method, Propagated, propagate};
use crate::calc::{said, sources};
use crate::units::Unit;

/// Formula id of the superheat.
pub(super) const SUPERHEAT: &str = "superheat/1";
const HOLD_MINUTES: Range = Range::new(1.0, 1_440.0, Unit::Minute, Limits::Reason("calc-limits-hold"));

pub(super) fn gauge_rod(rod: GaugeRod) -> Piece {
    let (says, weight, reason) = match rod {
        GaugeRod::AtBottom => (Says::NoLiquid, Weight::Weak, "calc-empty-rod-bottom"),
        GaugeRod::FindsLiquid => (Says::Liquid, Weight::Strong, "calc-empty-rod-liquid"),
    };
    Piece { name: "gauge_rod", says, weight, reason: Message::new(reason), computed: None }
}

pub(super) fn liquid_valve(valve: LiquidValve) -> Piece {
    let (says, weight, reason) = match valve {
        LiquidValve::Vapour => (Says::NoLiquid, Weight::Weak, "calc-empty-valve-vapor"),
        LiquidValve::Liquid => (Says::Liquid, Weight::Strong, "calc-empty-valve-liquid"),
    };
    Piece { name: "liquid_valve", says, weight, reason: Message::new(reason), computed: None }
}

/// The readings on which superheat and saturation bound are based.
pub(super) struct Around<'a> {
    pub pressure: &'a Measured,
    pub low: &'a Measured,
    pub ambient: Option<&'a Measured>,
    pub elevation: &'a Measured,
    pub composition: &'a Composition,
}

impl Around<'_> {
    fn absolute(&self) -> Result<[Measured; 2], CalcError> {
        absolute_pressure(self.pressure, self.elevation)
    }

    /// Returns the compositions with the lowest and the highest value of `of`.
    fn ends(&self, of: impl Fn(&Mix) -> Result<f64, CalcError>) -> Result<[(Mix, f64); 2], CalcError> {
        let mut values = Vec::new();
        for mix in self.composition.mixes()? {
            let value = of(&mix)?;
            values.push((mix, value));
        }
        values.sort_by(|a, b| a.1.total_cmp(&b.1));
        match (values.first(), values.last()) {
            (Some(low), Some(high)) => Ok([low.clone(), high.clone()]),
            _ => Err(CalcError::Inconsistent(Message::new("calc-no-composition"))),
        }
    }

    /// Applies the rule that dry vapour cannot exceed the saturation pressure at the coldest place it
    /// touches.
    pub(super) fn saturation_bound(&self) -> Result<Piece, CalcError> {
        let low = self.low.checked(fluid::TEMPERATURE_F)?;
        let parts = self.absolute()?;
        let bubble = |mix: &Mix, fahrenheit: f64| {
            fluid::bubble(mix, Unit::Fahrenheit.to_si(fahrenheit))
                .map(|s| Unit::PsiAbsolute.from_si(s.pascal))
        };
        let dew = |mix: &Mix, fahrenheit: f64| {
            fluid::dew(mix, Unit::Fahrenheit.to_si(fahrenheit)).map(|s| Unit::PsiAbsolute.from_si(s.pascal))
        };
        // If the composition is presumed, only what holds for the lightest possible one is certain.
        let [_, (lightest, _)] = self.ends(|mix| dew(mix, low.value))?;
        let [_, (liveliest, highest)] = self.ends(|mix| bubble(mix, low.value))?;
        let over = |mix: &Mix, of: &dyn Fn(&Mix, f64) -> Result<f64, CalcError>| {
            propagate(&[&parts[0], &parts[1], &low], Method::Exact, |x| Ok(x[0] + x[1] - of(mix, x[2])?))
        };
        let margin = over(&lightest, &dew)?;
        let above_all = over(&liveliest, &bubble)?;
        let psia = parts[0].value + parts[1].value;
        let spread = margin.plus_minus();
        let said = |id| {
            let pressure = |psia: f64| said::pressure(psia, self.pressure, parts[1].value);
            Message::new(id)
                .with("read", pressure(psia))
                .with("condenses", pressure(psia - margin.value))
                .with("product", lightest.message())
                .with("low", said::temperature(low.value, self.low))
                .with("margin", said::pressure_difference(margin.value, Some(spread), self.pressure))
        };
        let (says, weight, reason) = if above_all.value > above_all.plus_minus() {
            (Says::Liquid, Weight::Strong, {
                let highest = said::pressure(highest, self.pressure, parts[1].value);
                said("calc-empty-above-liquid").with("highest", highest)
            })
        } else if margin.value > -spread {
            (Says::Liquid, Weight::Moderate, said("calc-empty-at-saturation"))
        } else {
            (Says::Nothing, Weight::None, said("calc-empty-below-saturation"))
        };
        let source = lightest.source();
        let computed = margin.computed(Unit::PsiGauge, "saturation_bound/1", &source, Vec::new());
        Ok(Piece { name: "saturation_bound", says, weight, reason, computed: Some(computed) })
    }

    /// Judges the superheat: the temperature at the bottom of the tank minus the temperature at which the
    /// vapour there would condense.
    pub(super) fn superheat(&self) -> Result<Piece, CalcError> {
        let low = self.low.checked(fluid::TEMPERATURE_F)?;
        let parts = self.absolute()?;
        let condenses = |mix: &Mix, psia: f64| {
            fluid::condensing_kelvin(mix, Unit::PsiAbsolute.to_si(psia))
                .map(|kelvin| Unit::Fahrenheit.from_si(kelvin))
        };
        let psia = parts[0].value + parts[1].value;
        // The heaviest composition condenses at the highest temperature and has the least superheat. Dryness
        // must hold for the heaviest one, and wetness for the lightest.
        let [(lightest, coldest), (heaviest, at)] = self.ends(|mix| condenses(mix, psia))?;
        let superheat = superheat(&low, &parts, &heaviest)?;
        let most = low.value - coldest;
        let spread = superheat.plus_minus();
        let degrees = |degrees: f64| said::temperature_difference(degrees, None, self.low);
        let said = |id| {
            Message::new(id)
                .with("low", said::temperature(low.value, self.low))
                .with("condenses", said::temperature(at, self.low))
                .with("product", heaviest.message())
                .with("pressure", said::pressure(psia, self.pressure, parts[1].value))
                .with("superheat", said::temperature_difference(superheat.value, Some(spread), self.low))
        };
        let near_ambient = match self.ambient {
            Some(ambient) => {
                let ambient = ambient.checked(fluid::TEMPERATURE_F)?.value;
                ((at - ambient).abs() <= NEAR_AMBIENT_F).then_some(ambient)
            }
            None => None,
        };
        let (says, weight, reason) = if most < WET_SUPERHEAT_F {
            (Says::Liquid, Weight::Moderate, said("calc-empty-wet").with("bound", degrees(WET_SUPERHEAT_F)))
        } else if let Some(ambient) = near_ambient {
            (Says::Nothing, Weight::None, {
                let outside = said::temperature(ambient, self.ambient.unwrap_or(self.low));
                let near = said("calc-empty-near-outside").with("outside", outside);
                near.with("bound", degrees(NEAR_AMBIENT_F))
            })
        } else if self.ambient.is_none() {
            (Says::Nothing, Weight::None, said("calc-empty-no-outside"))
        } else if superheat.value - spread > DRY_SUPERHEAT_F {
            (Says::NoLiquid, Weight::Moderate, said("calc-empty-dry").with("bound", degrees(DRY_SUPERHEAT_F)))
        } else if most - superheat.value > 0.1 {
            let other = said("calc-empty-composition").with("other", lightest.message());
            (Says::Nothing, Weight::None, other.with("most", degrees(most)))
        } else {
            (Says::Nothing, Weight::None, said("calc-empty-between"))
        };
        let source = heaviest.source();
        let computed = superheat.computed(Unit::FahrenheitDifference, SUPERHEAT, &source, Vec::new());
        Ok(Piece { name: "superheat", says, weight, reason, computed: Some(computed) })
    }
}

/// Superheat in °F of a vapour at a temperature (°F) and two psi parts that sum to absolute.
pub(super) fn superheat(
    temperature: &Measured,
    parts: &[Measured; 2],
    mix: &Mix,
) -> Result<Propagated, CalcError> {
    let method = Method::Absolute("equation of state", if mix.single().is_some() { 0.05 } else { 0.3 });
    propagate(&[temperature, &parts[0], &parts[1]], method, |x| {
        let kelvin = fluid::condensing_kelvin(mix, Unit::PsiAbsolute.to_si(x[1] + x[2]))?;
        Ok(x[0] - Unit::Fahrenheit.from_si(kelvin))
    })
}

/// Judges the rise in pressure during a hold. A rise can indicate liquid, but its absence cannot exclude it.
pub(super) fn hold_test(hold: &HoldTest, elevation: &Measured) -> Result<Piece, CalcError> {
    let minutes = HOLD_MINUTES.check("hold", hold.minutes)?;
    let start = absolute_pressure(&hold.start, elevation)?;
    let end = absolute_pressure(&hold.end, elevation)?;
    if start[0].unit != end[0].unit {
        return Err(CalcError::wrong_unit(&hold.end.name, hold.end.unit, hold.start.unit));
    }
    // Both readings are above the same atmospheric pressure, which cancels in the difference.
    let rise = propagate(&[&start[0], &end[0]], Method::Exact, |x| Ok(x[1] - x[0]))?;
    let spread = rise.plus_minus();
    let said = |id| {
        Message::new(id)
            .with("change", said::pressure_difference(rise.value, Some(spread), &hold.end))
            .with("minutes", Unit::Minute.figure(minutes, 0))
    };
    let (says, weight, reason) = if rise.value > LARGE_REBOUND_PSI.max(spread) {
        (Says::Liquid, Weight::Moderate, {
            let bound = said::pressure_difference(LARGE_REBOUND_PSI, None, &hold.end);
            said("calc-empty-rebound").with("bound", bound)
        })
    } else {
        (Says::Nothing, Weight::None, said("calc-empty-no-rebound"))
    };
    let computed =
        rise.computed(Unit::PsiGauge, "hold_test/1", &sources::said("calc-source-two-readings"), Vec::new());
    Ok(Piece { name: "hold_test", says, weight, reason, computed: Some(computed) })
}
