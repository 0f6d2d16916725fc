//! Tests of the weighing of evidence: what each piece may and may not indicate.

#![allow(clippy::unwrap_used, reason = "a test may stop at a surprise")]

use super::*;
use crate::calc::fluid::{Fluid, Grade};

fn nothing() -> Evidence {
    Evidence {
        composition: Composition::Known(Mix::pure(Fluid::Propane)),
        elevation: Measured::exact("elevation", 0.0, Unit::Foot),
        gauge_rod: None,
        liquid_valve: None,
        pressure: None,
        low_temperature: None,
        ambient: None,
        hold: None,
    }
}

fn psig(value: f64) -> Option<Measured> {
    Some(Measured::within("pressure", value, Unit::PsiGauge, 0.6))
}

fn degrees(value: f64) -> Option<Measured> {
    Some(Measured::within("temperature", value, Unit::Fahrenheit, 1.0))
}

/// 40 psig of propane saturates at about 18.6 °F: 45 °F low in the tank is 26 °F of superheat.
fn dry() -> Evidence {
    Evidence {
        gauge_rod: Some(GaugeRod::AtBottom),
        liquid_valve: Some(LiquidValve::Vapour),
        pressure: psig(40.0),
        low_temperature: degrees(45.0),
        ambient: degrees(60.0),
        ..nothing()
    }
}

fn piece<'a>(weighed: &'a Weighed, name: &str) -> &'a Piece {
    weighed.pieces.iter().find(|piece| piece.name == name).unwrap()
}

#[test]
fn nothing_known_is_not_enough_and_every_piece_is_asked_for() {
    let weighed = weigh(&nothing()).unwrap();
    assert_eq!(weighed.outcome, Outcome::NotEnoughEvidence);
    assert!(weighed.pieces.is_empty());
    assert_eq!(weighed.next.len(), 7);
    assert!(farsiding_words::english(&weighed.caution).contains("not field-tested"));
}

#[test]
fn warm_dry_vapour_with_an_agreeing_rod_indicates_no_liquid() {
    let weighed = weigh(&dry()).unwrap();
    assert_eq!(weighed.outcome, Outcome::NoLiquidIndicated, "{:#?}", weighed.pieces);
    let superheat = piece(&weighed, "superheat").computed.as_ref().unwrap();
    assert!((superheat.value - 26.0).abs() < 1.5, "{}", superheat.value);
}

/// 40 psig of propane saturates at about 18.6 °F. At 28 °F the superheat is about 9.4 °F; with a thermometer
/// of ±3 °F it may as well be 6 °F, which is under the bound of a dry tank.
#[test]
fn no_liquid_is_indicated_only_beyond_the_bound_with_the_whole_uncertainty() {
    let low = |half_width: f64| Some(Measured::within("temperature", 28.0, Unit::Fahrenheit, half_width));
    let coarse = weigh(&Evidence { low_temperature: low(3.0), ..dry() }).unwrap();
    let superheat = piece(&coarse, "superheat");
    let computed = superheat.computed.as_ref().unwrap();
    assert!(
        computed.value > DRY_SUPERHEAT_F && computed.value - computed.plus_minus.unwrap() < DRY_SUPERHEAT_F
    );
    assert_eq!(superheat.says, Says::Nothing);
    assert_eq!(coarse.outcome, Outcome::NotEnoughEvidence);
    let fine = weigh(&Evidence {
        low_temperature: Some(Measured::exact("temperature", 31.0, Unit::Fahrenheit)),
        ..dry()
    });
    assert_eq!(fine.unwrap().outcome, Outcome::NoLiquidIndicated);
}

#[test]
fn rod_and_valve_alone_are_never_enough() {
    let weak = Evidence { pressure: None, ..dry() };
    assert_eq!(weigh(&weak).unwrap().outcome, Outcome::NotEnoughEvidence);
}

#[test]
fn one_piece_that_shows_liquid_outweighs_all_that_show_none() {
    for wet in [
        Evidence { gauge_rod: Some(GaugeRod::FindsLiquid), ..dry() },
        Evidence { liquid_valve: Some(LiquidValve::Liquid), ..dry() },
        Evidence {
            hold: Some(HoldTest {
                start: Measured::within("pressure", 36.0, Unit::PsiGauge, 0.6),
                end: Measured::within("pressure", 40.0, Unit::PsiGauge, 0.6),
                minutes: 15.0,
            }),
            ..dry()
        },
    ] {
        let weighed = weigh(&wet).unwrap();
        assert_eq!(weighed.outcome, Outcome::LiquidIndicated);
        assert!(weighed.next[0].id() == "calc-next-liquid-off");
    }
}

#[test]
fn a_tank_at_saturation_is_wet() {
    let weighed = weigh(&Evidence { low_temperature: degrees(20.0), ..dry() }).unwrap();
    assert_eq!(weighed.outcome, Outcome::LiquidIndicated);
    assert_eq!(piece(&weighed, "superheat").says, Says::Liquid);
    assert_eq!(piece(&weighed, "saturation_bound").says, Says::Liquid);
}

#[test]
fn a_pressure_no_dry_vapour_could_have_is_strong_evidence() {
    let weighed = weigh(&Evidence { low_temperature: degrees(5.0), ..dry() }).unwrap();
    let bound = piece(&weighed, "saturation_bound");
    assert_eq!((bound.says, bound.weight), (Says::Liquid, Weight::Strong));
}

#[test]
fn no_rise_in_a_hold_proves_nothing() {
    let hold = HoldTest {
        start: Measured::within("pressure", 40.0, Unit::PsiGauge, 0.6),
        end: Measured::within("pressure", 40.1, Unit::PsiGauge, 0.6),
        minutes: 15.0,
    };
    let weighed = weigh(&Evidence { hold: Some(hold), ..nothing() }).unwrap();
    assert_eq!(weighed.outcome, Outcome::NotEnoughEvidence);
    assert_eq!(piece(&weighed, "hold_test").says, Says::Nothing);
}

#[test]
fn superheat_says_nothing_when_the_pressure_saturates_near_the_outside_temperature() {
    // 40 psig saturates at 18.6 °F; outside 25 °F is within 10 °F.
    let weighed =
        weigh(&Evidence { ambient: degrees(25.0), low_temperature: degrees(30.0), ..dry() }).unwrap();
    assert_eq!(piece(&weighed, "superheat").says, Says::Nothing);
    assert_eq!(weighed.outcome, Outcome::NotEnoughEvidence);
    let unknown = weigh(&Evidence { ambient: None, ..dry() }).unwrap();
    assert_eq!(unknown.outcome, Outcome::NotEnoughEvidence);
}

#[test]
fn a_presumed_composition_speaks_only_where_all_it_may_be_agree() {
    let with = |grade: Grade| Evidence { composition: Composition::Presumed(grade), ..dry() };
    // Anything from n-butane to propane: n-butane at 40 psig condenses near 98 °F, propane near 19 °F.
    let wide = weigh(&with(Grade::ButanePropane)).unwrap();
    assert_eq!(wide.outcome, Outcome::NotEnoughEvidence);
    assert!(piece(&wide, "superheat").reason.id() == "calc-empty-composition");
    assert_eq!(weigh(&with(Grade::Hd5Propane)).unwrap().outcome, Outcome::NoLiquidIndicated);
    let cold = Evidence { low_temperature: degrees(5.0), ..with(Grade::Hd5Propane) };
    assert_eq!(weigh(&cold).unwrap().outcome, Outcome::LiquidIndicated);
}

#[test]
fn readings_that_are_none_are_refused() {
    for broken in [
        Evidence { pressure: psig(f64::NAN), ..dry() },
        Evidence { low_temperature: degrees(1e9), ..dry() },
        Evidence { pressure: Some(Measured::exact("pressure", 40.0, Unit::Inch)), ..dry() },
    ] {
        assert!(weigh(&broken).is_err());
    }
}
