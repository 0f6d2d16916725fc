//! Tests that the default procedure is valid and covers the job, and that each mistake in a text is refused
//! by name.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a failed unwrap is a failed test"
)]

use std::collections::BTreeSet;

use super::*;
use crate::English as _;
use crate::entry::vocabulary::{Fitting, Receiver};

fn default_procedure() -> Procedure {
    Procedure::read(BUILT_IN[BUILT_IN.len() - 1]).unwrap()
}

/// The digests of texts that have been in use. Editing a text instead of adding a new one breaks this test,
/// and would break every visit that names the old digest.
const SHIPPED: [&str; BUILT_IN.len()] = [
    "281caea97a2846d59d72c7cd5a17bd81c2bcbade458a4393afb79a3b6c0fc4e2",
    "7d944b758601ec25a46e5097caec7c6f1cfe1acecfdf097161f4b1f07384a193",
];

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
        let steps = procedure.expand(Some(*receiver), Leaving::Residue, &Fitting::USUAL);
        for stage in Stage::ALL {
            assert!(steps.iter().any(|s| s.step.stage == stage), "{receiver}: no step for {stage:?}");
        }
    }
    let ids = |receiver| -> Vec<String> {
        procedure
            .expand(Some(receiver), Leaving::Residue, &Fitting::USUAL)
            .into_iter()
            .map(|s| s.id)
            .collect()
    };
    assert!(ids(Receiver::Truck).contains(&"truck_loads".to_owned()));
    assert!(!ids(Receiver::FixedTank).contains(&"truck_loads".to_owned()));
    assert!(ids(Receiver::FixedTank).contains(&"tank_level".to_owned()));
}

#[test]
fn one_line_is_gone_through_whole_before_the_next_and_vapour_comes_last() {
    let procedure = default_procedure();
    let ids: Vec<String> = procedure
        .expand(Some(Receiver::FixedTank), Leaving::Residue, &Fitting::USUAL)
        .into_iter()
        .filter(|s| s.step.stage == Stage::Disconnect)
        .map(|s| s.id)
        .collect();
    let at = |id: &str| ids.iter().position(|i| i == id).unwrap_or_else(|| panic!("{id} is missing"));
    let in_order = [
        "shut_valve.liquid_a",
        "draw_down.liquid_a",
        "bleed.liquid_a",
        "listen.liquid_a",
        "break_coupling.liquid_a",
        "listen_open.liquid_a",
        "adapter_out.liquid_a",
        "look_for_liquid.liquid_a",
        "closure_tight.liquid_a",
        "adapter_away.liquid_a",
        "threads.liquid_a",
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
    let steps = procedure.expand(None, Leaving::Residue, &Fitting::USUAL);
    let records = |id: &str| steps.iter().find(|s| s.id == id).unwrap().records();
    let shuts = |records: Vec<Record>| records.iter().any(|r| matches!(r, Record::Valve { .. }));
    assert!(!shuts(records("opening_as_found.gauging_device")));
    assert!(shuts(records("opening_as_found.sample_line")));
    assert_eq!(records("last_round"), [Record::LastRound {}], "one act goes to every fitting");
    assert!(
        records("adapter_in.vapour").contains(&Record::ItemOut { item: "adapter vapour".to_owned() }),
        "the tally names the fitting"
    );
}

#[test]
fn in_the_first_edition_a_law_for_transloading_is_practice_at_a_fixed_tank() {
    let procedure = Procedure::read(BUILT_IN[0]).unwrap();
    let sign = procedure.steps.iter().find(|s| s.id == "blue_sign_up").unwrap();
    assert_eq!(sign.basis(Some(Receiver::Truck)).asked_by, AskedBy::Law);
    let fixed = sign.basis(Some(Receiver::FixedTank));
    assert_eq!(fixed.asked_by, AskedBy::Practice);
    assert!(fixed.source.message().en().contains("174.67(a)"));
    let attended = procedure.steps.iter().find(|s| s.id == "attend").unwrap();
    assert!(attended.basis(Some(Receiver::Truck)).source.message().en().contains("from memory; confirm"));
}

#[test]
fn every_step_that_can_hurt_names_what_hurts() {
    let procedure = default_procedure();
    let dangerous = [
        "open_closure",
        "open_valve",
        "vapor_test",
        "leak_check",
        "arrival_outage",
        "transfer_readings",
        "liquid_closed",
        "shut_valve",
        "bleed",
        "break_coupling",
        "look_for_liquid",
        "final_pressure",
        "cover_down",
        "rod",
    ];
    for id in dangerous {
        let step = procedure.steps.iter().find(|s| s.id == id).unwrap();
        assert!(!step.cautions.is_empty(), "{id} shows no caution");
    }
}

#[test]
fn each_law_is_named_with_whom_it_binds_and_the_day_it_was_read() {
    let procedure = default_procedure();
    let said = |id: &str, receiver| {
        let basis = procedure.steps.iter().find(|s| s.id == id).unwrap().basis(receiver);
        (basis.asked_by, basis.source.message().en())
    };
    let (asked, fixed) = said("blue_sign_up", Some(Receiver::FixedTank));
    assert_eq!(asked, AskedBy::Law, "173.31(g) asks for the sign at every unloading");
    assert!(fixed.contains("173.31(g)(2)") && fixed.contains("1910.110(b)(15)(ii)"), "{fixed}");
    assert!(!fixed.contains("174.67") && fixed.contains("2026-11-28"), "{fixed}");
    let (_, truck) = said("blue_sign_up", Some(Receiver::Truck));
    assert!(truck.contains("174.67(a)(4)") && !truck.contains("1910.110"), "{truck}");
    let (asked, fixed) = said("shut_valve", Some(Receiver::FixedTank));
    assert_eq!(asked, AskedBy::Practice, "174.67(l) binds transloading only");
    assert!(fixed.contains("174.67(l)") && fixed.contains("common practice"), "{fixed}");
    assert_eq!(said("shut_valve", Some(Receiver::Truck)).0, AskedBy::Law);
    for receiver in Receiver::ALL {
        let (asked, last) = said("last_round", Some(*receiver));
        assert_eq!(asked, AskedBy::Law, "{receiver}");
        assert!(last.contains("173.31(d)(1)(iv)") && last.contains("offers the car"), "{last}");
    }
    assert_eq!(said("attend", Some(Receiver::FixedTank)).0, AskedBy::Law);
    assert!(procedure.steps.iter().flat_map(|step| &step.laws).all(|law| {
        law.source.standing == SourceStanding::Read && law.source.read_on.is_some() && law.binds.is_some()
    }));
}

/// The ids of the catalogue's file of an edition, attributes with their message.
fn ids_of(file: &str) -> BTreeSet<String> {
    let mut message = String::new();
    let mut ids = BTreeSet::new();
    for line in file.lines() {
        let Some((id, _)) = line.split_once(" = ") else { continue };
        match id.strip_prefix("    ") {
            Some(attribute) => assert!(ids.insert(format!("{message}{attribute}")), "{id}"),
            None => {
                message = id.to_owned();
                assert!(ids.insert(message.clone()), "{id}");
            }
        }
    }
    ids
}

#[test]
fn every_sentence_of_a_procedure_stands_in_every_language_and_none_is_left_over() {
    let mut in_catalogues = 0;
    for text in BUILT_IN {
        let procedure = Procedure::read(text).unwrap();
        if !procedure.in_catalogues {
            continue;
        }
        in_catalogues += 1;
        let mut said: BTreeSet<String> =
            [&procedure.title, &procedure.note].map(|message| message.id().to_owned()).into();
        for step in &procedure.steps {
            let own = [&step.title, &step.what_to_do, &step.why].into_iter().chain(&step.what_now);
            said.extend(own.chain(&step.cautions).map(|message| message.id().to_owned()));
        }
        let groups = procedure.together.iter().flat_map(|group| [&group.title, &group.what_to_do]);
        said.extend(groups.map(|message| message.id().to_owned()));
        let name = format!("{}.ftl", procedure.title.id());
        for language in farsiding_words::Language::all() {
            let file = farsiding_words::files(language).iter().find(|(file, _)| *file == name);
            let ids = ids_of(file.unwrap_or_else(|| panic!("{language} has no {name}")).1);
            let (missing, unused) = (said.difference(&ids), ids.difference(&said));
            assert_eq!(missing.collect::<Vec<_>>(), Vec::<&String>::new(), "{language}: missing");
            assert_eq!(unused.collect::<Vec<_>>(), Vec::<&String>::new(), "{language}: unused");
        }
    }
    assert!(in_catalogues > 0);
}

#[test]
fn the_file_of_an_edition_with_its_words_in_the_catalogues_has_no_sentence() {
    for text in BUILT_IN.into_iter().filter(|text| text.contains("in_catalogues = true")) {
        for line in text.lines().filter(|line| !line.starts_with('#')) {
            let longest = line.split('"').skip(1).step_by(2).map(|quoted| quoted.split(' ').count()).max();
            let names = line.contains("cites = ") || line.contains("what = ") || line.starts_with("of = ");
            assert!(names || longest.unwrap_or_default() <= 2, "a sentence: {line}");
        }
    }
}

#[test]
fn what_an_organisation_types_into_its_own_procedure_is_shown_as_typed() {
    let text = with_steps(&step("s", "receive", "cautions = [\"mind the cat\"]")).unwrap();
    let only = &text.steps[0];
    assert_eq!(only.what_to_do.as_typed(), Some("w"));
    assert_eq!(only.cautions[0].as_typed(), Some("mind the cat"));
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
        (step("s", "receive", "law = [{ cites = \"x\", binds = \"unloading\" }]"), E::LawUnclear(s())),
        (step("s", "receive", "records = [{ statement = \"weather\", holds = [true] }]"), E::BadHolds(s())),
        (
            step("s", "receive", "records = [{ statement = \"check\", what = \"x\", holds = [\"wrong\"] }]"),
            E::BadHolds(s()),
        ),
        ("in_catalogues = true\n".to_owned() + &step("s", "receive", ""), E::SentenceInCatalogues(s())),
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
    for unreadable in [step("s", "receive", "typo = 1"), step("s", "lunch", "")] {
        assert!(matches!(with_steps(&unreadable), Err(E::Unreadable(_))), "{unreadable}");
    }
    for bad_record in [
        step("s", "receive", "records = [{ statement = \"closure\", state = \"tight\" }]"),
        step("s", "receive", "records = [{ statement = \"paper\", extra = 1 }]"),
    ] {
        assert!(matches!(with_steps(&bad_record), Err(E::BadRecord { .. })), "{bad_record}");
    }
    assert!(matches!(Procedure::read(&" ".repeat(LARGEST_PROCEDURE + 1)), Err(E::TooLarge(_))));
}
