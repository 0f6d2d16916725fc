//! Tests of an organisation's own editions: how they are made from a built-in one, what of law cannot vanish, and
//! where a mistake is said to stand.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a failed unwrap is a failed test"
)]

use super::*;
use crate::English as _;
use crate::entry::vocabulary::Gate;

const NEWEST: &str = BUILT_IN[BUILT_IN.len() - 1];

fn started() -> EditedText {
    let mut edited = EditedText::start(NEWEST).unwrap();
    edited.name_edition("Siding 1");
    edited
}

fn root() -> &'static Procedure {
    built_in().last().unwrap()
}

fn english(text: &str) -> OwnTexts {
    [("en-US".to_owned(), text.to_owned())].into()
}

fn step<'p>(procedure: &'p Procedure, id: &str) -> &'p Step {
    procedure.steps.iter().find(|step| step.id == id).unwrap_or_else(|| panic!("{id}"))
}

#[test]
fn a_started_edition_says_what_its_start_says() {
    let own = started().procedure().unwrap();
    assert_eq!(own.starts_from, Some(root().digest));
    assert_ne!(own.digest, root().digest);
    assert_eq!(own.title, root().title);
    assert_eq!((&own.steps, &own.gates, &own.order), (&root().steps, &root().gates, &root().order));
    assert!(lost(root(), &own).is_empty());
    // The text can be edited on, whatever was written into it.
    let mut again = started();
    again.reword("chocks", Sentence::WhatToDo, &english("Two \"wedges\",\neach\tat an axle \\ \u{1}."));
    let text = again.text();
    assert_eq!(EditedText::read(&text).unwrap().text(), text);
    assert_eq!(Procedure::read(&text).unwrap().digest, Digest::of(text.as_bytes()));
}

#[test]
fn own_words_stand_in_the_languages_they_were_written_in_and_the_catalogues_in_the_others() {
    let mut edited = started();
    edited.reword("chocks", Sentence::Title, &english("Wedges set"));
    let own = edited.procedure().unwrap();
    let title = &step(&own, "chocks").title;
    let said = |tag: &str| {
        let language = farsiding_words::Language::all().find(|language| language.as_str() == tag).unwrap();
        farsiding_words::Words::of(language).text(title)
    };
    assert_eq!(said("en-US"), "Wedges set");
    let spanish = farsiding_words::Language::all().find(|language| language.as_str() == "es-MX").unwrap();
    assert_eq!(said("es-MX"), farsiding_words::Words::of(spanish).text(&step(root(), "chocks").title));
    assert_eq!(step(&own, "chocks").laws, step(root(), "chocks").laws, "the law stays");
}

#[test]
fn what_law_asks_for_is_left_out_only_with_a_reason() {
    let mut edited = started();
    edited.switch_off("chocks", "");
    assert_eq!(edited.procedure(), Err(ProcedureError::StepUnexplained("chocks".into())));
    edited.switch_on("chocks");
    assert_eq!(edited.procedure().unwrap().steps, root().steps);
    assert_eq!(edited.procedure().unwrap().gates, root().gates);
    edited.switch_off("chocks", "wheel stops are built into the track");
    let own = edited.procedure().unwrap();
    let what: Vec<&str> = own.left_out.iter().map(|own| own.what.name()).collect();
    assert!(what.contains(&"chocks") && what.contains(&"protection_not_set.chocks"), "{what:?}");
    assert!(own.left_out.iter().all(|own| own.because == "wheel stops are built into the track"));
    // What is merely common practice needs no reason.
    let mut edited = started();
    edited.switch_off("escape_way", "");
    assert!(edited.procedure().unwrap().steps.iter().all(|step| step.id != "escape_way"));
}

#[test]
fn a_law_cannot_vanish_by_weakening_its_step_or_its_item() {
    let text = started().text();
    let marked = |from: &str, to: &str| {
        assert!(text.contains(from), "{from}");
        Procedure::read(&text.replacen(from, to, 1))
    };
    let hand_brake = "id = \"hand_brake\"\nstage = \"receive\"\n";
    let refused = Err(ProcedureError::StepUnexplained("hand_brake".into()));
    assert_eq!(marked(hand_brake, &format!("{hand_brake}optional = true\n")), refused);
    assert_eq!(marked(hand_brake, &format!("{hand_brake}only_for = \"truck\"\n")), refused);
    let cites =
        "law = [{ binds = \"unloading\", cites = \"49 CFR 173.31(g)(3)\" }, { binds = \"transloading\"";
    let weaker = "law = [{ binds = \"transloading\"";
    assert_eq!(
        marked(
            &format!("{cites}, cites = \"49 CFR 174.67(a)(2)\" }}]"),
            &format!("{weaker}, cites = \"49 CFR 174.67(a)(2)\" }}]")
        ),
        refused
    );
    let rule = "[[gate]]\ngate = [\"release\"]\nitem = \"last_round_missing\"";
    let unload = rule.replace("release", "unload");
    assert_eq!(marked(rule, &unload), Err(ProcedureError::RuleUnexplained("last_round_missing".into())));
}

#[test]
fn without_some_things_no_record_can_be_kept() {
    for id in ["open_visit", "fit_to_unload", "release"] {
        let mut edited = started();
        edited.switch_off(id, "no need");
        assert_eq!(edited.procedure(), Err(ProcedureError::Essential(id.into())), "{id}");
    }
    for code in ["hold_open", "alarm", "disagreement", "not_opened"] {
        let mut edited = started();
        edited.switch_rule_off(code, "no need");
        assert_eq!(edited.procedure(), Err(ProcedureError::Essential(code.into())), "{code}");
    }
    let quiet = started().text().replace("not_right_holds = true", "not_right_holds = false");
    assert!(matches!(Procedure::read(&quiet), Err(ProcedureError::Essential(_))));
}

#[test]
fn a_step_is_moved_within_its_stage_and_what_it_comes_after_follows() {
    let mut edited = started();
    assert!(!edited.move_step("open_visit", true), "nothing stands before it");
    assert!(edited.move_step("blue_sign_up", true));
    while edited.move_step("blue_sign_up", true) {}
    let own = edited.procedure().unwrap();
    assert_eq!(own.steps[0].id, "blue_sign_up");
    assert!(step(&own, "blue_sign_up").after.is_empty(), "its predecessors come later now");
    while edited.move_step("blue_sign_up", false) {}
    let own = edited.procedure().unwrap();
    assert_eq!(step(&own, "blue_sign_up").after, ["track_secured", "hand_brake"]);
    assert_eq!(own.steps.iter().rfind(|step| step.stage == Stage::Receive).unwrap().id, "blue_sign_up");
}

#[test]
fn a_step_of_ones_own_blocks_what_it_is_said_to_block() {
    let mut edited = started();
    let sentences = [
        (Sentence::Title, english("Gate to the yard locked")),
        (Sentence::WhatToDo, english("Lock the gate.")),
        (Sentence::Why, english("Nobody walks in.")),
    ];
    let id = edited.add_step(Stage::Gauge, Added::Check, &sentences);
    edited.set_blocks(&id, Gate::Unload, true, "");
    let own = edited.procedure().unwrap();
    let added = step(&own, &id);
    assert_eq!(added.title.en(), "Gate to the yard locked");
    assert_eq!(added.records, [Record::Check { what: "Gate to the yard locked".into() }]);
    assert_eq!(added.holds.len(), 1, "not right holds the job");
    let rule = own.gates.iter().find(|rule| rule.asked == Asked::Step(id.clone())).unwrap();
    assert_eq!((rule.gates.as_slice(), rule.item), ([Gate::Unload].as_slice(), BlockerKind::StepOpen));
    assert_eq!(edited.blocks(&id), [Gate::Unload]);
    edited.set_blocks(&id, Gate::Unload, false, "");
    assert!(edited.blocks(&id).is_empty());
    edited.remove_added(&id);
    assert_eq!(edited.procedure().unwrap().steps, root().steps);
    // A gate that is signed before the step comes could never open.
    let late = edited.add_step(Stage::Close, Added::Acknowledgement, &sentences);
    edited.set_blocks(&late, Gate::Unload, true, "");
    assert_eq!(edited.procedure(), Err(ProcedureError::BlocksTooLate { step: late, gate: Gate::Unload }));
}

#[test]
fn a_step_of_the_built_in_edition_stops_blocking_and_blocks_again() {
    let mut edited = started();
    assert_eq!(edited.blocks("chocks"), [Gate::Unload]);
    edited.set_blocks("chocks", Gate::Unload, false, "");
    assert_eq!(edited.procedure(), Err(ProcedureError::RuleUnexplained("protection_not_set.chocks".into())));
    edited.set_blocks("chocks", Gate::Unload, true, "");
    assert_eq!(edited.procedure().unwrap().gates, root().gates);
    edited.set_blocks("weather", Gate::Unload, false, "");
    assert!(edited.procedure().unwrap().gates.iter().all(|rule| rule.of != "weather"));
    edited.set_blocks("placement", Gate::Release, true, "");
    assert_eq!(edited.blocks("placement"), [Gate::Release]);
}

#[test]
fn thresholds_have_bounds_and_reach_the_steps() {
    let mut edited = started();
    edited.set_threshold(Threshold::ReadingInterval, Some(30));
    edited.set_interval("tank_level", Some(15));
    let own = edited.procedure().unwrap();
    assert_eq!(step(&own, "transfer_readings").repeat_minutes, Some(30));
    assert_eq!(step(&own, "tank_level").repeat_minutes, Some(15));
    assert_eq!(edited.interval("transfer_readings"), Some(None));
    assert_eq!(edited.interval("tank_level"), Some(Some(15)));
    assert_eq!(edited.interval("chocks"), None);
    for threshold in Threshold::ALL {
        let (least, most) = threshold.bounds();
        for (number, fits) in [(least - 1, false), (least, true), (most, true), (most + 1, false)] {
            let mut edited = started();
            edited.set_threshold(threshold, Some(number));
            assert_eq!(edited.procedure().is_ok(), fits, "{threshold:?} {number}");
        }
        assert!(threshold.usual().is_none_or(|usual| (least..=most).contains(&usual)));
        assert_eq!(Threshold::read(threshold.word()), Some(threshold));
    }
}

#[test]
fn a_mistake_is_said_with_its_line() {
    let text = started().text();
    let line_of = |wrong: &str| {
        let error = Procedure::read(wrong).unwrap_err();
        (error.line(wrong), error)
    };
    let at = |text: &str, what: &str| text.lines().position(|line| line.contains(what)).unwrap() + 1;
    let torn = text.replacen("id = \"weather\"", "id = weather", 1);
    assert_eq!(line_of(&torn).0, Some(at(&torn, "id = weather")));
    let typo = text.replacen("id = \"weather\"", "id = \"weather\"\ntytle = \"x\"", 1);
    assert_eq!(line_of(&typo).0, Some(at(&typo, "tytle")));
    let twice = text.replacen("id = \"weather\"", "id = \"escape_way\"", 1);
    let (line, error) = line_of(&twice);
    assert_eq!(error, ProcedureError::DuplicateId("escape_way".into()));
    let lines: Vec<&str> = twice.lines().collect();
    assert_eq!(line, lines.iter().rposition(|line| *line == "id = \"escape_way\"").map(|line| line + 1));
    let wild = text.replacen("[[order]]", "[thresholds]\nhold_minutes = 9999\n\n[[order]]", 1);
    assert_eq!(line_of(&wild).0, Some(at(&wild, "hold_minutes")));
    let record = text.replacen("statement = \"weather\"", "statement = \"whether\"", 1);
    assert_eq!(line_of(&record).0, Some(at(&record, "id = \"weather\"")));
    let unknown = text.replacen("starts_from = \"", "starts_from = \"0", 1);
    assert_eq!(line_of(&unknown), (Some(at(&unknown, "starts_from")), ProcedureError::UnknownStart));
    let unexplained = format!("{text}\n[[left_out]]\nstep = \"chocks\"\nbecause = \"none\"\n");
    let (line, error) = line_of(&unexplained);
    assert_eq!(error, ProcedureError::LeftOutStands("chocks".into()));
    assert_eq!(line, Some(at(&unexplained, "step = \"chocks\"")));
    let said = error.message_in(&unexplained).en();
    assert!(said.starts_with("Line ") && said.contains("chocks"), "{said}");
    // Every kind of mistake is said in the reader's language, what the libraries say in none.
    let empty_gate =
        text.replacen("[[order]]", "[[gate]]\nitem = \"alarm\"\ngate = []\nsay = \"x\"\n\n[[order]]", 1);
    for (tag, parts) in [
        ("es-MX", ["Línea", "no se conoce aquí", "el texto no es TOML", "exactamente uno"]),
        ("fr-CA", ["Ligne", "pas connu ici", "n’est pas du TOML", "exactement un"]),
    ] {
        let language = farsiding_words::Language::all().find(|known| known.as_str() == tag).unwrap();
        let said = |wrong: &str| {
            let mistake = Procedure::read(wrong).unwrap_err().message_in(wrong);
            farsiding_words::Words::of(language).text(&mistake)
        };
        for (wrong, part) in [(&typo, parts[1]), (&torn, parts[2]), (&empty_gate, parts[3])] {
            let said = said(wrong);
            assert!(said.contains(part), "{said}");
            assert!(said.starts_with(parts[0]), "{said}");
        }
    }
}
