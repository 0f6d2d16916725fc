//! Tests of editions of the procedure that live side by side, of answers that hold the job, and of what
//! counts only after the last line came off.

use super::*;
use crate::Message;
use crate::procedure::{BUILT_IN, Record};

fn begun_under(edition: usize) -> Statement {
    let Statement::Opened(opened) = opened(Receiver::FixedTank) else { panic!("opened") };
    let procedure = Digest::of(BUILT_IN[edition - 1].as_bytes());
    Statement::Opened(Opened { procedure, ..opened })
}

fn step_of(phone: &Phone, id: &str) -> StepView {
    phone.view().steps.step(id).unwrap_or_else(|| panic!("{id} is no step")).clone()
}

fn in_english(messages: &[Message]) -> String {
    messages.iter().map(|message| message.en()).collect::<Vec<_>>().join(" / ")
}

pub(super) fn heard(fitting: Fitting, heard: Heard) -> Statement {
    Statement::Listen { fitting, heard }
}

fn left(step: &str, outcome: StepOutcome, note: &str) -> Statement {
    Statement::Step { step: step.into(), outcome, note: note.into() }
}

#[test]
fn a_stay_goes_on_under_the_edition_it_was_begun_with() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(begun_under(1));
    let view = phone.view();
    assert!(view.header.procedure_known);
    assert_eq!(
        view.header.procedure_title.en(),
        "Unloading a pressure tank car of liquefied petroleum gas, edition 1"
    );
    let chocks = step_of(&phone, "chocks");
    assert_eq!(chocks.title.as_typed(), Some("Wheel chocked"), "its own words, as they were typed");
    assert!(view.steps.step("esv_proved.liquid_a").is_none());
    phone.says(protection(Protection::Chocks, true));
    assert_eq!(step_of(&phone, "chocks").status, StepStatus::Recorded);
    let json = serde_json::to_string(&phone.view().steps).unwrap();
    assert!(!json.contains("\"reasons\"") && !json.contains("\"now\""), "nothing was added to its steps");
    // What it did not hold then it does not hold now.
    phone.says(heard(Fitting::LiquidA, Heard::Hiss));
    phone.says(left("look_round", StepOutcome::NotRight, "dent"));
    assert_eq!(step_of(&phone, "look_round").status, StepStatus::NotRight);
    assert_ne!(step_of(&phone, "line_as_found.liquid_a").status, StepStatus::Held);
}

#[test]
fn a_new_stay_begins_under_the_newest_edition_in_the_language_of_the_reader() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::FixedTank));
    let step = step_of(&phone, "esv_proved.liquid_a");
    assert_eq!(step.title.en(), "Emergency valve proved · liquid valve A");
    for language in farsiding_words::Language::all() {
        let words = farsiding_words::Words::of(language);
        let text = words.text(&step.what_to_do);
        assert!(!text.contains('⟨'), "{language}: {text}");
        let english = language == farsiding_words::Language::ENGLISH;
        assert_eq!(text == step.what_to_do.en(), english, "{language}");
    }
    assert!(phone.view().header.procedure_title.en().ends_with("edition 2"));
}

#[test]
fn a_leak_heard_holds_the_step_until_it_is_quiet() {
    let mut phone = Phone::of("op-a", 1);
    let a = Fitting::LiquidA;
    phone.says(opened(Receiver::FixedTank));
    phone.says(line(a, true));
    phone.says(valve(a, ValvePosition::Open));
    phone.says(valve(a, ValvePosition::Shut));
    phone.says(heard(a, Heard::Hiss));
    let step = step_of(&phone, "listen.liquid_a");
    assert_eq!(step.status, StepStatus::Held);
    assert!(!step.status.is_closed());
    assert!(in_english(&step.reasons).to_lowercase().contains("leaking by"), "{}", in_english(&step.reasons));
    assert!(step.what_now.unwrap().en().contains("hold on the car"));
    assert!(step.now.contains(&Record::Hold {}) && step.missing.contains(&Record::Listen {}));
    let view = phone.view();
    assert_eq!(view.steps.next[0], "listen.liquid_a", "it comes first");
    let guide = Guide::of(&view, None);
    let asks = guide.steps.iter().find(|asks| asks.id == "listen.liquid_a").unwrap();
    assert!(asks.now.iter().any(|ask| ask.record == Record::Hold {}) && asks.records[0].missing);
    phone.says(heard(a, Heard::Quiet));
    assert_eq!(step_of(&phone, "listen.liquid_a").status, StepStatus::Recorded);
    assert_eq!(step_of(&phone, "listen.liquid_a").reasons, Vec::new());
    // A leak heard after that is a leak.
    phone.says(heard(a, Heard::Hiss));
    assert_eq!(step_of(&phone, "listen.liquid_a").status, StepStatus::Held);
}

#[test]
fn one_phones_quiet_does_not_outvote_another_phones_leak() {
    let mut a = Phone::of("op-a", 1);
    a.says(opened(Receiver::FixedTank));
    a.says(line(Fitting::LiquidA, true));
    a.says(valve(Fitting::LiquidA, ValvePosition::Shut));
    let mut b = Phone::of("op-b", 2);
    (b.knows, b.now) = (a.knows.clone(), a.now);
    b.says(heard(Fitting::LiquidA, Heard::Hiss));
    a.now = b.now + 5 * MINUTE;
    a.says(heard(Fitting::LiquidA, Heard::Quiet));
    a.meets(&mut b);
    assert_eq!(step_of(&a, "listen.liquid_a").status, StepStatus::Held);
}

#[test]
fn what_is_done_later_is_not_what_was_found() {
    let mut phone = Phone::of("op-a", 1);
    let a = Fitting::LiquidA;
    phone.says(opened(Receiver::FixedTank));
    phone.says(valve(a, ValvePosition::Open));
    assert_eq!(step_of(&phone, "line_as_found.liquid_a").status, StepStatus::Held, "found open");
    phone.says(valve(a, ValvePosition::Shut));
    phone.says(closure(a, ClosureState::ToolTight));
    phone.says(heard(a, Heard::Quiet));
    assert_eq!(step_of(&phone, "line_as_found.liquid_a").status, StepStatus::Recorded);
    phone.says(closure(a, ClosureState::Open));
    phone.says(line(a, true));
    phone.says(valve(a, ValvePosition::Open));
    assert_eq!(step_of(&phone, "line_as_found.liquid_a").status, StepStatus::Recorded);
}

#[test]
fn a_check_or_step_that_was_not_right_is_not_done() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::FixedTank));
    let odorant = |right| Statement::Check { what: "odorant".into(), right, note: "no smell".into() };
    phone.says(odorant(false));
    assert_eq!(step_of(&phone, "odorant").status, StepStatus::Held);
    phone.says(odorant(true));
    assert_eq!(step_of(&phone, "odorant").status, StepStatus::Recorded);
    phone.says(line(Fitting::LiquidA, true));
    phone.says(left("vapor_test.liquid_a", StepOutcome::NotRight, "bubbles at the adapter"));
    let step = step_of(&phone, "vapor_test.liquid_a");
    assert_eq!((step.status, step.note.as_str()), (StepStatus::Held, "bubbles at the adapter"));
    assert_eq!(step.reasons.len(), 1);
    assert!(step.what_now.unwrap().en().contains("test again"));
    phone.says(left("vapor_test.liquid_a", StepOutcome::Done, "tight"));
    assert_eq!(step_of(&phone, "vapor_test.liquid_a").status, StepStatus::Done);
}

#[test]
fn a_person_goes_on_in_spite_of_an_answer_only_after_it_and_with_a_reason() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::FixedTank));
    phone.says(left("rod", StepOutcome::Skipped, "slip tube, no rod"));
    phone.says(Statement::EmptySign { sign: EmptySign::RodAtBottom, seen: false });
    assert_eq!(step_of(&phone, "rod").status, StepStatus::Held, "the reason came before the answer");
    phone.says(left("rod", StepOutcome::Skipped, " "));
    assert_eq!(step_of(&phone, "rod").status, StepStatus::Held, "no reason");
    phone.says(left("rod", StepOutcome::Skipped, "slip tube, read at its stop"));
    assert_eq!(step_of(&phone, "rod").status, StepStatus::Skipped);
}

#[test]
fn one_thread_engaged_holds_and_two_do_not() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::FixedTank));
    phone.says(line(Fitting::LiquidA, true));
    phone.says(line(Fitting::LiquidA, false));
    for (typed, status) in [("1", StepStatus::Held), ("2", StepStatus::Recorded), ("0.5", StepStatus::Held)] {
        phone.says(turns(Fitting::LiquidA, typed));
        assert_eq!(step_of(&phone, "threads.liquid_a").status, status, "{typed}");
    }
}

#[test]
fn the_last_round_counts_only_after_the_last_line_came_off() {
    let mut phone = Phone::of("op-a", 1);
    let (a, vapour) = (Fitting::LiquidA, Fitting::Vapour);
    phone.says(opened(Receiver::FixedTank));
    let round = |except: Vec<Fitting>| {
        let fittings = Fitting::USUAL.into_iter().filter(|fitting| !except.contains(fitting)).collect();
        let note = if except.is_empty() { String::new() } else { "the plug turns".to_owned() };
        Statement::LastRound { fittings, except, note, photo: None }
    };
    let status = |phone: &Phone| step_of(phone, "last_round").status;
    phone.says(round(vec![]));
    assert_eq!(status(&phone), StepStatus::Open, "made on arrival");
    for fitting in [a, vapour] {
        phone.says(closure(fitting, ClosureState::Open));
        phone.says(line(fitting, true));
    }
    phone.says(line(a, false));
    phone.says(round(vec![]));
    assert_eq!(status(&phone), StepStatus::Open, "the vapor line is still on");
    phone.says(line(vapour, false));
    assert_eq!(status(&phone), StepStatus::Open, "made before the last line came off");
    phone.says(round(vec![]));
    assert_eq!(status(&phone), StepStatus::Recorded);
    // A line put on again takes it back.
    phone.says(line(vapour, true));
    assert_eq!(status(&phone), StepStatus::Open);
    phone.says(line(vapour, false));
    // A closure that is not in order holds the job until a round finds every one in order.
    phone.says(round(vec![a]));
    assert_eq!(status(&phone), StepStatus::Held);
    phone.says(round(vec![]));
    assert_eq!(status(&phone), StepStatus::Recorded);
}

#[test]
fn another_order_than_vapor_last_is_only_noted() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::FixedTank));
    for fitting in [Fitting::LiquidA, Fitting::Vapour] {
        phone.says(line(fitting, true));
    }
    phone.says(line(Fitting::Vapour, false));
    phone.says(line(Fitting::LiquidA, false));
    let view = phone.view();
    assert_eq!(finding(&view, "vapour_not_last").unwrap().severity, crate::units::Severity::Note);
}
