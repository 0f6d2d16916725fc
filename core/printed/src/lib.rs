//! A whole visit as plain text for a terminal or a printer: first the state, then what is needed next.
//!
//! Each amount appears with its unit, disagreements appear side by side, and each blocker appears with who
//! asks for it. Nothing is decided here; the module prints a [`VisitView`]. What was recorded in particular is
//! printed by `recorded`.

mod page;
mod recorded;

use farsiding_core::entry::vocabulary::Receiver;
use farsiding_core::procedure::Stage;
use farsiding_core::units::Severity;
use farsiding_core::view::{Blocker, Met, StepView, VisitView, code_message, item_message};
use farsiding_core::{Arg, Joint, Message, message};
use farsiding_words::Words;

use page::{Page, by, list, marked, said};

/// Returns the visit as text in the language of `words`; each line ends with a line feed.
pub fn show(view: &VisitView, words: &'static Words) -> String {
    let mut page = Page::new(words);
    head(view, &mut page);
    state(view, &mut page);
    disagreements(view, &mut page);
    next(view, &mut page);
    unloading(view, &mut page);
    release(view, &mut page);
    findings(view, &mut page);
    recorded::write(view, &mut page);
    page.line(&view.release.note);
    page.into_text()
}

fn typed(text: impl Into<String>) -> Message {
    Message::typed(text)
}

fn head(view: &VisitView, page: &mut Page) {
    let header = &view.header;
    page.line(&if header.car.is_empty() { message!("printed-car-not-known") } else { typed(&header.car) });
    let mut place: Vec<Message> =
        [&header.site_name, &header.spot].into_iter().filter(|part| !part.is_empty()).map(typed).collect();
    match header.receiver {
        Some(Receiver::FixedTank) => place.push(message!("printed-into-tank")),
        Some(Receiver::Truck) => place.push(message!("printed-into-trucks")),
        None => {}
    }
    if !place.is_empty() {
        page.row("", &place);
    }
    if !header.product.is_empty() {
        page.line(&message!("printed-product", product = Arg::typed(&header.product)));
    }
    if !header.procedure_title.is_empty() {
        let title = match header.procedure {
            Some(digest) => {
                let digest = Arg::typed(digest.short());
                message!("printed-because", what = header.procedure_title.clone(), why = digest)
            }
            None => header.procedure_title.clone(),
        };
        page.line(&match header.procedure_known {
            true => message!("printed-procedure", title = title),
            false => message!("printed-procedure-stand-in", title = title),
        });
    }
    page.line(&message!(
        "printed-times",
        zone = Arg::typed(&header.zone),
        since = Arg::typed(&header.since_shown),
        entries = Arg::Number(view.entries.to_string()),
        unsent = Arg::Number(view.unreceipted.to_string()),
    ));
    if !header.local_rules.is_empty() {
        page.line(&message!("printed-local-rules", rules = Arg::typed(&header.local_rules)));
    }
    for visit in header.visits.iter().skip(1) {
        page.line(&message!("printed-joined", visit = Arg::typed(visit.short())));
    }
}

fn state(view: &VisitView, page: &mut Page) {
    page.section("printed-heading-state");
    for hold in view.holds.iter().filter(|hold| hold.open) {
        let hold_said = message!("printed-hold", because = Arg::typed(&hold.because));
        page.item(&said(hold_said, by(&hold.said)));
    }
    for incident in view.incidents.iter().filter(|incident| incident.open) {
        let what = message!("printed-hold", because = incident.briefly());
        page.item(&said(what, by(&incident.said)));
    }
    for leak in view.leaks.iter().filter(|leak| leak.open) {
        page.item(&said(message!("printed-hold", because = leak.briefly()), by(&leak.said)));
    }
    if let Some(outcome) = &view.leaving.outcome {
        let (load, because) = (outcome.value.load.term(), outcome.value.because.message());
        let what = message!("printed-goes", load = load, because = because);
        page.item(&said(marked(outcome, what), by(&outcome.said)));
    }
    match &view.release.released {
        Some(released) => {
            let how = match released.value {
                true => message!("printed-released-residue"),
                false => message!("printed-released-not-residue"),
            };
            page.item(&said(marked(released, how), by(&released.said)));
        }
        None => page.item(&message!("printed-stage", stage = view.stage.term())),
    }
    let progress: Vec<Message> = view
        .steps
        .stages
        .iter()
        .map(|s| {
            let closed = Arg::typed(format!("{}/{}", s.closed, s.of));
            message!("printed-progress", stage = s.stage.term(), closed = closed)
        })
        .collect();
    page.row("  ", &progress);
    if view.tally.out.is_empty() {
        page.item(&message!("printed-tally-none"));
    } else {
        for item in &view.tally.out {
            let out = message!("printed-out", item = item_message(&item.item));
            page.item(&match &item.out {
                Some(taken) => said(out, by(taken)),
                None => out,
            });
        }
    }
    for offer in &view.offers {
        let other = Arg::typed(offer.other.short());
        page.item(&message!("printed-offer", says = offer.sentence.clone(), visit = other));
    }
}

fn disagreements(view: &VisitView, page: &mut Page) {
    if !view.disagreements.is_empty() {
        page.section("printed-heading-disagreements");
        for disagreement in &view.disagreements {
            page.item(&message!("printed-about", about = disagreement.about.clone()));
            for claim in &disagreement.claims {
                page.under(&said(claim.sentence.clone(), by(&claim.said)));
            }
        }
    }
    if !view.ended_disagreements.is_empty() {
        page.section("printed-heading-ended");
        for ended in &view.ended_disagreements {
            page.item(&message!("printed-about", about = ended.about.clone()));
            for claim in &ended.claims {
                page.under(&said(claim.sentence.clone(), by(&claim.said)));
            }
            let says = said(ended.ended_by.sentence.clone(), by(&ended.ended_by.said));
            page.under(&match ended.settled {
                true => message!("printed-settled", says = says),
                false => message!("printed-moved-on", says = says),
            });
            if !ended.ended_by.said.why.is_empty() {
                page.under(&message!("printed-why", why = Arg::typed(&ended.ended_by.said.why)));
            }
        }
    }
}

fn step_lines(step: &StepView, page: &mut Page) {
    page.item(&message!(
        "printed-step",
        title = step.title.clone(),
        id = Arg::typed(step.id.to_string()),
        status = step.status.term()
    ));
    page.under(&step.what_to_do);
    page.under(&message!(
        "printed-step-why",
        why = step.why.clone(),
        asked_by = step.asked_by.term(),
        source = step.source.clone()
    ));
    for caution in &step.cautions {
        page.under(&message!("printed-caution", caution = caution.clone()));
    }
}

fn next(view: &VisitView, page: &mut Page) {
    let (again, next): (Vec<&String>, Vec<&String>) =
        view.steps.next.iter().partition(|id| view.steps.again.contains(*id));
    for (heading, ids) in [("printed-heading-again", again), ("printed-heading-next", next)] {
        if !ids.is_empty() {
            page.section(heading);
        }
        for step in ids.into_iter().filter_map(|id| view.steps.step(id)) {
            step_lines(step, page);
        }
    }
    if !view.steps.left_behind.is_empty() {
        page.section("printed-heading-left-behind");
        let steps = view.steps.left_behind.iter().filter_map(|id| view.steps.step(id));
        page.item(&list(Joint::Comma, steps.map(|step| step.title.clone())));
    }
}

fn unloading(view: &VisitView, page: &mut Page) {
    let gate = &view.unloading;
    if !gate.asked {
        return;
    }
    page.section("gate-unload");
    page.item(&match &gate.fit {
        Some(fit) => message!("printed-signed-by", by = by(&fit.said)),
        None => message!("printed-not-signed"),
    });
    for blocker in gate.blockers.iter().filter(|blocker| blocker.passed_over.is_none()) {
        missing(blocker, page);
    }
    met(&gate.met, page);
}

fn missing(blocker: &Blocker, page: &mut Page) {
    let code = Arg::typed(blocker.code.to_string());
    page.item(&message!("printed-missing", what = blocker.missing.clone(), code = code));
    page.under(&message!(
        "printed-asked-by",
        asked_by = blocker.asked_by.term(),
        source = blocker.source.clone()
    ));
}

fn met(met: &[Met], page: &mut Page) {
    if !met.is_empty() {
        let there = Arg::list(Joint::Semicolon, met.iter().map(|met| met.what.clone()));
        page.item(&message!("printed-there", what = there));
    }
}

fn release(view: &VisitView, page: &mut Page) {
    page.section("gate-release");
    let open: Vec<&Blocker> = view.blockers.iter().filter(|blocker| blocker.passed_over.is_none()).collect();
    if open.is_empty() {
        page.item(&message!("printed-nothing-missing"));
    } else if view.stage < Stage::Disconnect && view.release.released.is_none() {
        // The rest of the job in a few lines. Each step is printed in full once the lines are off.
        let mut kinds: Vec<(Message, Vec<Message>)> = Vec::new();
        for blocker in &open {
            let kind = blocker.kind.term();
            let item = code_message(&blocker.code);
            match kinds.iter_mut().find(|(known, _)| *known == kind) {
                Some((_, all)) => all.push(item),
                None => kinds.push((kind, vec![item])),
            }
        }
        for (_, items) in kinds {
            page.item(&message!("printed-still-open", what = Arg::list(Joint::Semicolon, items)));
        }
    } else {
        open.into_iter().for_each(|blocker| missing(blocker, page));
        met(&view.release.met, page);
    }
    for word in &view.passed_over {
        let what = word.spoken.clone();
        page.item(&match &word.fallen {
            Some(why) => message!("printed-overridden-fallen", what = what, why = why.clone()),
            None => message!("printed-overridden", what = what),
        });
        page.under(&message!("printed-why", why = said(word.why.clone(), by(&word.said))));
    }
}

fn findings(view: &VisitView, page: &mut Page) {
    if view.findings.is_empty() && view.advice.is_empty() {
        return;
    }
    page.section("printed-heading-notices");
    for finding in view.findings.iter().chain(&view.advice) {
        let what = finding.message.clone();
        page.item(&match finding.severity {
            Severity::Alarm => message!("printed-alarm", what = what),
            Severity::Check => message!("printed-check", what = what),
            Severity::Note => what,
        });
    }
}
