//! What the scenario says a device shows, held against what it shows: the demonstration fails when they
//! differ.

use farsiding_core::calc::empty_proof::Outcome;
use farsiding_core::view::{CheckIn, VisitView};
use farsiding_core::{Arg, Message, message};
use farsiding_words::english;

/// A blocker's code in full: `authority_missing.it` stands for the one such there is.
pub fn full_code(view: &VisitView, code: &str) -> String {
    let begun = code.strip_suffix(".it").map(|begun| format!("{begun}."));
    let found = begun.and_then(|begun| view.blockers.iter().find(|b| b.code.starts_with(&begun)));
    found.map_or_else(|| code.to_owned(), |blocker| blocker.code.clone())
}

/// The lines to tell; an error says what is shown instead.
///
/// # Errors
/// What the device shows instead.
pub fn shown(view: &VisitView, words: &[String]) -> Result<Vec<String>, String> {
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    match words.as_slice() {
        ["next", ids @ ..] => next(view, ids),
        ["blocker", codes @ ..] => codes.iter().map(|code| blocker(view, code)).collect(),
        ["no-blocker", codes @ ..] => match codes.iter().find(|code| blocker(view, code).is_ok()) {
            Some(code) => blocker(view, code).and_then(Err),
            None => Ok(codes.iter().map(|code| format!("no longer missing: {}", spoken(code))).collect()),
        },
        ["ready"] => ready(view),
        ["disagreement", slot] => disagreement(view, slot),
        ["no-disagreement"] => match view.disagreements.first() {
            Some(found) => Err(format!("there is one on {}", english(&found.about))),
            None => Ok(vec!["the records agree".to_owned()]),
        },
        ["settled", slot] => settled(view, slot),
        ["offer", likeness] => offer(view, likeness),
        ["finding", codes @ ..] => codes.iter().map(|code| finding(view, code)).collect(),
        ["no-finding", codes @ ..] => match codes.iter().find(|code| finding(view, code).is_ok()) {
            Some(code) => finding(view, code).and_then(Err),
            None => Ok(Vec::new()),
        },
        ["advice", codes @ ..] => codes.iter().map(|code| advice(view, code)).collect(),
        ["computed", names @ ..] => names.iter().map(|name| computed(view, name)).collect(),
        ["check-in", standing] => check_in(view, standing),
        ["procedure", edition] => procedure(view, edition),
        ["weighed", outcome] => weighed(view, outcome),
        ["visits", count] => {
            let visits = view.header.visits.len();
            match visits.to_string() == *count {
                true => Ok(vec![format!("one record, from {visits} visits")]),
                false => Err(format!("it is made of {visits} visits")),
            }
        }
        ["hold"] => match view.holds.iter().find(|hold| hold.open) {
            Some(hold) => Ok(vec![format!("HOLD: {}", hold.because)]),
            None => Err("nothing is on hold".to_owned()),
        },
        _ => Err(format!("\"{}\" is nothing that can be shown", words.join(" "))),
    }
}

/// A code in words.
fn spoken(code: &str) -> String {
    code.trim_end_matches(".it").replace('_', " ").replace('.', ", ")
}

fn next(view: &VisitView, ids: &[&str]) -> Result<Vec<String>, String> {
    if let Some(missing) = ids.iter().find(|id| !view.steps.next.iter().any(|next| next == *id)) {
        return Err(format!("{missing} is not next; next: {}", view.steps.next.join(", ")));
    }
    Ok(view
        .steps
        .next
        .iter()
        .filter(|id| ids.is_empty() || ids.contains(&id.as_str()))
        .filter_map(|id| view.steps.step(id))
        .map(|step| {
            let cautions: String =
                step.cautions.iter().map(|caution| format!(" CAUTION: {}", english(caution))).collect();
            format!("next: {}. {}{cautions}", english(&step.title), english(&step.what_to_do))
        })
        .collect())
}

fn blocker(view: &VisitView, code: &str) -> Result<String, String> {
    let code = full_code(view, code);
    let found = view.blockers.iter().find(|blocker| blocker.code == code);
    found
        .map(|blocker| {
            let asked_by = english(&blocker.asked_by.term());
            format!(
                "MISSING before release: {} (asked for by {asked_by}: {})",
                english(&blocker.missing),
                english(&blocker.source)
            )
        })
        .ok_or_else(|| {
            let codes: Vec<&str> = view.blockers.iter().map(|blocker| blocker.code.as_str()).collect();
            format!("{code} is not among what is missing: {}", codes.join(", "))
        })
}

fn ready(view: &VisitView) -> Result<Vec<String>, String> {
    let open: Vec<&str> = view
        .blockers
        .iter()
        .filter(|blocker| blocker.passed_over.is_none())
        .map(|blocker| blocker.code.as_str())
        .collect();
    if !open.is_empty() {
        return Err(format!("this is still missing: {}", open.join(", ")));
    }
    let nothing = "nothing that the record looks for is missing, or it was passed over with a reason";
    Ok(vec![nothing.to_owned()])
}

fn disagreement(view: &VisitView, slot: &str) -> Result<Vec<String>, String> {
    let found = view.disagreements.iter().find(|d| d.slot == slot);
    let found = found.ok_or_else(|| {
        let slots: Vec<&str> = view.disagreements.iter().map(|d| d.slot.as_str()).collect();
        format!("the disagreements are: {}", slots.join(", "))
    })?;
    let claims = found.claims.iter().map(|claim| {
        format!(
            "  {} ({}, on {})",
            english(&claim.sentence),
            english(&claim.said.signature()),
            claim.said.device_name
        )
    });
    Ok(std::iter::once("TWO RECORDS DIFFER:".to_owned()).chain(claims).collect())
}

fn settled(view: &VisitView, slot: &str) -> Result<Vec<String>, String> {
    let found = view.ended_disagreements.iter().find(|ended| ended.slot == slot && ended.settled);
    let found = found.ok_or_else(|| "it was not settled".to_owned())?;
    let by = &found.ended_by;
    Ok(vec![format!(
        "{} Because: {} ({})",
        english(&by.sentence),
        by.said.why,
        english(&by.said.signature())
    )])
}

fn offer(view: &VisitView, likeness: &str) -> Result<Vec<String>, String> {
    let word = |offer: &farsiding_core::view::Offer| {
        serde_json::to_value(offer.likeness).ok().and_then(|value| value.as_str().map(str::to_owned))
    };
    let found: Vec<String> = view
        .offers
        .iter()
        .filter(|offer| word(offer).as_deref() == Some(likeness))
        .map(|offer| english(&offer.sentence))
        .collect();
    if found.is_empty() { Err(format!("there are {} other offers", view.offers.len())) } else { Ok(found) }
}

fn finding(view: &VisitView, code: &str) -> Result<String, String> {
    let found = view.findings.iter().find(|finding| finding.code == code);
    found.map(|finding| english(&finding.message)).ok_or_else(|| {
        let codes: Vec<&str> = view.findings.iter().map(|finding| finding.code.as_str()).collect();
        format!("{code} is not among the findings: {}", codes.join(", "))
    })
}

fn advice(view: &VisitView, code: &str) -> Result<String, String> {
    let of_fittings = view.fittings.iter().flat_map(|fitting| &fitting.advice);
    let all: Vec<_> = view.advice.iter().chain(of_fittings).collect();
    let found = all.iter().find(|finding| finding.code == code);
    found.map(|finding| english(&finding.message)).ok_or_else(|| {
        let codes: Vec<&str> = all.iter().map(|finding| finding.code.as_str()).collect();
        format!("{code} is not among the advice: {}", codes.join(", "))
    })
}

fn computed(view: &VisitView, name: &str) -> Result<String, String> {
    let found = view.computed.iter().find(|quantity| quantity.name == name && quantity.value.is_some());
    found
        .map(|quantity| format!("{}: {}", english(&quantity.title), english(&quantity.message())))
        .ok_or_else(|| {
            let all: Vec<String> =
                view.computed.iter().map(|q| format!("{}: {}", q.name, english(&q.message()))).collect();
            format!("what is computed is: {}", all.join("; "))
        })
}

/// How the next word that all is well stands, as the phone asks for it.
fn check_in(view: &VisitView, standing: &str) -> Result<Vec<String>, String> {
    let Some(asked) = &view.check_in else { return Err("nobody is asked whether all is well".to_owned()) };
    let (word, title) = match asked.at(view.folded_at) {
        CheckIn::NotYet => ("not_yet", "phone-check_in-title"),
        CheckIn::Due => ("due", "phone-check_in-title"),
        CheckIn::Overdue => ("overdue", "phone-check_in-overdue"),
    };
    if word != standing {
        return Err(format!("it is {word}, last heard {}", asked.shown));
    }
    let last = message!("phone-check_in-last", time = Arg::typed(&asked.shown), minutes = asked.minutes);
    Ok(vec![format!("{} {}", english(&Message::new(title)), english(&last))])
}

/// The procedure that the stay was begun under.
fn procedure(view: &VisitView, edition: &str) -> Result<Vec<String>, String> {
    let title = english(&view.header.procedure_title);
    match view.header.procedure_known && title.contains(edition) {
        true => Ok(vec![format!("this stay follows: {title}")]),
        false => Err(format!("it follows {title}")),
    }
}

fn weighed(view: &VisitView, outcome: &str) -> Result<Vec<String>, String> {
    let Some(weighed) = &view.empty.weighed else {
        return Err(format!(
            "it was not weighed: {}",
            view.empty.not_weighed.as_ref().map(english).unwrap_or_default()
        ));
    };
    let (word, spoken) = match weighed.outcome {
        Outcome::LiquidIndicated => ("liquid", "what was recorded indicates LIQUID"),
        Outcome::NoLiquidIndicated => ("no_liquid", "what was recorded indicates no liquid"),
        Outcome::NotEnoughEvidence => ("not_enough", "what was recorded is not enough to tell"),
    };
    let mut lines = vec![format!("IS THE LIQUID OUT? {spoken}:")];
    lines.extend(weighed.pieces.iter().map(|piece| format!("  {}", english(&piece.reason))));
    lines.extend(weighed.next.iter().map(|step| format!("  next: {}", english(step))));
    if word == outcome { Ok(lines) } else { Err(lines.join(" ")) }
}
