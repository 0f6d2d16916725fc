//! The plan of the fittings: what is recorded, and nothing else, is drawn and said.

use super::*;
use crate::view::{HousingPlan, PlanFitting};

fn drawn(plan: &HousingPlan, fitting: Fitting) -> &PlanFitting {
    plan.fittings.iter().find(|one| one.fitting == fitting).unwrap()
}

/// The pens of a fitting, in order.
fn pens(one: &PlanFitting) -> Vec<&'static str> {
    one.shapes.iter().map(|shape| shape.pen).collect()
}

/// What is said of a fitting under its name.
fn said(one: &PlanFitting) -> Vec<(String, &'static str)> {
    let words = one.words.iter().skip(1).flat_map(|text| &text.words);
    words.map(|word| (word.says.en(), word.pen)).collect()
}

fn opened_phone() -> Phone {
    let mut phone = Phone::of("A. Operator", 1);
    phone.says(opened(Receiver::FixedTank));
    phone
}

#[test]
fn what_nobody_recorded_is_dashed_and_a_question() {
    let plan = opened_phone().view().plan;
    for one in plan.fittings.iter().filter(|one| one.fitting != Fitting::ReliefDevice) {
        let states = pens(one);
        assert!(states.iter().all(|pen| ["unknown", "line"].contains(pen)), "{} {states:?}", one.fitting);
        assert!(said(one).iter().all(|(word, _)| word == "?"), "{} {:?}", one.fitting, said(one));
    }
    let relief = drawn(&plan, Fitting::ReliefDevice);
    assert!(said(relief).is_empty() && relief.next.is_empty(), "nothing of it is operated: {relief:?}");
}

#[test]
fn each_state_has_its_own_shape_and_word_and_what_needs_attention_is_hot() {
    let of = |states: &[Statement]| {
        let mut phone = opened_phone();
        for says in states {
            phone.says(says.clone());
        }
        let plan = phone.view().plan;
        let one = drawn(&plan, Fitting::LiquidA);
        (pens(one), said(one))
    };
    let at = Fitting::LiquidA;
    let hot = |word: &str| (word.to_owned(), "state-hot");
    let calm = |word: &str| (word.to_owned(), "state");
    let tight = of(&[valve(at, ValvePosition::Shut), closure(at, ClosureState::ToolTight)]);
    assert_eq!(tight.0, ["line", "solid", "solid", "bar-on-solid"]);
    assert_eq!(tight.1, [calm("Closed"), calm("tight")]);
    let by_hand = of(&[valve(at, ValvePosition::Open), closure(at, ClosureState::HandTight)]);
    assert_eq!(by_hand.0, ["line", "thin", "hollow-hot", "hot-fill", "hollow-hot", "bar-hot"]);
    assert_eq!(by_hand.1, [hot("Open"), hot("hand-tight")]);
    let out = of(&[closure(at, ClosureState::Open)]);
    assert_eq!((out.0, out.1), (vec!["line", "hot", "unknown"], vec![calm("?"), hot("removed")]));
    let on = of(&[closure(at, ClosureState::Open), line(at, true)]);
    assert_eq!(on.0, ["line", "hose", "hose-core", "solid", "unknown"]);
    assert_eq!(on.1, [calm("?"), calm("hose")]);
    let leaks = of(&[valve(at, ValvePosition::Shut), Statement::Listen { fitting: at, heard: Heard::Hiss }]);
    assert_eq!((leaks.0.last(), leaks.1), (Some(&"hot"), vec![hot("Leaking by")]));
}

#[test]
fn two_records_that_differ_about_a_fitting_are_neither_of_both_states_in_words() {
    let mut one = opened_phone();
    let mut other = Phone::of("B. Operator", 2);
    one.meets(&mut other);
    one.says(valve(Fitting::Vapour, ValvePosition::Shut));
    other.says(valve(Fitting::Vapour, ValvePosition::Open));
    one.meets(&mut other);
    let plan = one.view().plan;
    assert_eq!(said(drawn(&plan, Fitting::Vapour)), [("entries differ".to_owned(), "state-hot")]);
    assert_ne!(said(drawn(&plan, Fitting::LiquidA)), said(drawn(&plan, Fitting::Vapour)));
}

#[test]
fn bolts_are_drawn_one_by_one_and_more_than_a_cover_has_are_said_alone() {
    let of = |there, wanted| {
        let mut phone = opened_phone();
        phone.says(Statement::Cover {
            closed: true,
            pinned: true,
            bolts_in_place: there,
            bolts_required: wanted,
        });
        phone.view().plan
    };
    let count = |plan: &HousingPlan, pen| plan.ground.iter().filter(|shape| shape.pen == pen).count();
    let cover = |plan: &HousingPlan| plan.words.last().unwrap().words[0].says.en();
    let some = of(3, 4);
    assert_eq!((count(&some, "solid"), count(&some, "hollow-hot")), (3, 1));
    assert_eq!(cover(&some), "3 of 4 bolts");
    let twenty = of(20, 20);
    assert_eq!((count(&twenty, "solid"), cover(&twenty)), (20, "Cover closed".to_owned()));
    let many = of(65_535, 65_535);
    assert_eq!(count(&many, "solid"), 0);
    let bytes = serde_json::to_vec(&many).unwrap().len();
    assert!(bytes < 12_000, "{bytes} bytes");
    assert_eq!(cover(&opened_phone().view().plan), "Cover: ?");
}

#[test]
fn every_path_is_drawn_with_numbers_and_everything_stays_on_the_plan() {
    let plan = whole_job(Receiver::FixedTank).view().plan;
    let of_fittings = plan.fittings.iter().flat_map(|one| one.shapes.iter().map(|shape| &shape.path));
    for path in plan.ground.iter().map(|shape| &shape.path).chain(of_fittings) {
        assert!(path.starts_with('M') && !path.contains("NaN") && !path.contains("inf"), "{path}");
    }
    let [left, top, width, height] = plan.bounds;
    let inside = |[x, y]: [f64; 2]| (left..left + width).contains(&x) && (top..top + height).contains(&y);
    assert!(plan.fittings.iter().all(|one| inside(one.at) && inside(one.target.at)));
    assert!(plan.fittings.iter().flat_map(|one| &one.words).chain(&plan.words).all(|text| inside(text.at)));
}
