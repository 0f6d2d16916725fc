//! Tests that the default procedure is valid and covers the job, and that each mistake in a text is refused
//! by name.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a failed unwrap is a failed test"
)]

use super::*;
use crate::entry::vocabulary::{Fitting, Receiver};

fn default_procedure() -> Procedure {
    Procedure::read(BUILT_IN[BUILT_IN.len() - 1]).unwrap()
}

/// The digests of texts that have been in use. Editing a text instead of adding a new one breaks this test,
/// and would break every visit that names the old digest.
const SHIPPED: [&str; BUILT_IN.len()] = ["281caea97a2846d59d72c7cd5a17bd81c2bcbade458a4393afb79a3b6c0fc4e2"];

#[test]
fn a_shipped_text_is_never_edited() {
    for (text, shipped) in BUILT_IN.iter().zip(SHIPPED) {
        assert_eq!(Digest::of(text.as_bytes()).to_string(), shipped, "add a new edition instead");
    }
}

#[test]
fn every_built_in_text_reads_and_is_found_by_its_digest() {
    let procedures = Procedures::built_in().unwrap();
    for text in BUILT_IN {
        assert!(procedures.get(Digest::of(text.as_bytes())).is_some());
    }
    assert_eq!(procedures.default_procedure(), Some(&default_procedure()));
    assert_eq!(procedures.iter().count(), BUILT_IN.len());
}

#[test]
fn the_default_covers_every_stage_for_both_receivers() {
    let procedure = default_procedure();
    for receiver in Receiver::ALL {
        let steps = procedure.expand(Some(*receiver), &Fitting::USUAL);
        for stage in Stage::ALL {
            assert!(steps.iter().any(|s| s.step.stage == stage), "{receiver}: no step for {stage:?}");
        }
    }
    let ids = |receiver| -> Vec<String> {
        procedure.expand(Some(receiver), &Fitting::USUAL).into_iter().map(|s| s.id).collect()
    };
    assert!(ids(Receiver::Truck).contains(&"truck_loads".to_owned()));
    assert!(!ids(Receiver::FixedTank).contains(&"truck_loads".to_owned()));
    assert!(ids(Receiver::FixedTank).contains(&"tank_level".to_owned()));
}

#[test]
fn one_line_is_gone_through_whole_before_the_next_and_vapour_comes_last() {
    let procedure = default_procedure();
    let ids: Vec<String> = procedure
        .expand(Some(Receiver::FixedTank), &Fitting::USUAL)
        .into_iter()
        .filter(|s| s.step.stage == Stage::Disconnect)
        .map(|s| s.id)
        .collect();
    let at = |id: &str| ids.iter().position(|i| i == id).unwrap_or_else(|| panic!("{id} is missing"));
    let in_order = [
        "shut_valve.liquid_a",
        "bleed.liquid_a",
        "listen.liquid_a",
        "break_coupling.liquid_a",
        "adapter_out.liquid_a",
        "look_for_liquid.liquid_a",
        "closure_tight.liquid_a",
        "threads.liquid_a",
        "adapter_away.liquid_a",
        "shut_valve.liquid_b",
        "shut_valve.vapour",
        "break_coupling.vapour",
    ];
    for pair in in_order.windows(2) {
        assert!(at(pair[0]) < at(pair[1]), "{} stands after {}", pair[0], pair[1]);
    }
    assert!(!ids.iter().any(|id| id == "look_for_liquid.vapour"));
}

#[test]
fn an_opening_without_a_valve_is_not_asked_to_shut_one() {
    let procedure = default_procedure();
    let steps = procedure.expand(None, &Fitting::USUAL);
    let records = |id: &str| steps.iter().find(|s| s.id == id).unwrap().records();
    let shuts = |records: Vec<Record>| records.iter().any(|r| matches!(r, Record::Valve { .. }));
    assert!(!shuts(records("opening_closed.gauging_device")));
    assert!(shuts(records("opening_closed.sample_line")));
    assert!(
        records("adapter_in.vapour").contains(&Record::ItemOut { item: "adapter vapour".to_owned() }),
        "the tally names the fitting"
    );
}

#[test]
fn a_law_for_transloading_is_practice_at_a_fixed_tank() {
    let procedure = default_procedure();
    let sign = procedure.steps.iter().find(|s| s.id == "blue_sign_up").unwrap();
    assert_eq!(sign.basis(Some(Receiver::Truck)).asked_by, AskedBy::Law);
    let fixed = sign.basis(Some(Receiver::FixedTank));
    assert_eq!(fixed.asked_by, AskedBy::Practice);
    assert!(fixed.source.shown().contains("174.67(a)"));
    let attended = procedure.steps.iter().find(|s| s.id == "attend").unwrap();
    assert!(attended.basis(Some(Receiver::Truck)).source.shown().contains("from memory, confirm"));
}

#[test]
fn every_step_that_can_hurt_names_what_hurts() {
    let procedure = default_procedure();
    for id in ["open_closure", "open_valve", "leak_check", "bleed", "break_coupling", "cover_down", "rod"] {
        let step = procedure.steps.iter().find(|s| s.id == id).unwrap();
        assert!(!step.cautions.is_empty(), "{id} shows no caution");
    }
}

fn with_steps(steps: &str) -> Result<Procedure, ProcedureError> {
    Procedure::read(&format!("id = \"p\"\nedition = \"1\"\ntitle = \"t\"\nnote = \"\"\n{steps}"))
}

fn step(id: &str, stage: &str, more: &str) -> String {
    format!(
        "[[steps]]\nid = \"{id}\"\nstage = \"{stage}\"\ntitle = \"t\"\nwhat_to_do = \"w\"\nwhy = \"y\"\n{more}\n"
    )
}

#[test]
fn each_mistake_in_a_text_is_refused_by_name() {
    use ProcedureError as E;
    let s = || "s".to_owned();
    assert!(with_steps(&step("s", "receive", "")).is_ok());
    let cases: Vec<(String, E)> = vec![
        ("steps = []".into(), E::Empty),
        (step("S 1", "receive", ""), E::BadId("S 1".into())),
        (step("s", "receive", "") + &step("s", "gauge", ""), E::DuplicateId(s())),
        (step("a", "gauge", "") + &step("s", "receive", ""), E::StageOutOfOrder(s())),
        (step("s", "receive", "after = [\"x\"]"), E::UnknownAfter { step: s(), after: "x".into() }),
        (step("s", "receive", "records = [{ statement = \"listen\" }]"), E::NoFitting(s())),
        (step("s", "receive", "for_each = \"lines\"\nfitting = \"vapour\""), E::TwoFittings(s())),
        (step("s", "receive", "since = \"shut\""), E::SinceWithoutFitting(s())),
        (step("s", "receive", "law = \"x\""), E::LawUnclear(s())),
        (step("s", "receive", "law_binds = \"truck\""), E::LawUnclear(s())),
        (
            step(
                "s",
                "receive",
                "records = [{ statement = \"reading\", measured = \"outage\", place = \"car\", purpose = \"arrival\", unit = \"psi\" }]",
            ),
            E::WrongUnit(s()),
        ),
        (
            "[[order]]\nrule = \"vapour_last\"\nstep = \"s\"\n".to_owned() + &step("s", "receive", ""),
            E::BadOrderRule(s()),
        ),
        (
            step("s", "receive", "").replace("\"w\"", "\" \""),
            E::EmptyField { step: s(), field: "what_to_do" },
        ),
    ];
    for (text, expected) in cases {
        assert_eq!(with_steps(&text), Err(expected), "{text}");
    }
    for unreadable in [
        step("s", "receive", "typo = 1"),
        step("s", "lunch", ""),
        step("s", "receive", "records = [{ statement = \"closure\", state = \"tight\" }]"),
        step("s", "receive", "records = [{ statement = \"paper\", extra = 1 }]"),
    ] {
        assert!(matches!(with_steps(&unreadable), Err(E::Unreadable(_))), "{unreadable}");
    }
    assert!(matches!(Procedure::read(&" ".repeat(LARGEST_PROCEDURE + 1)), Err(E::TooLarge(_))));
}
