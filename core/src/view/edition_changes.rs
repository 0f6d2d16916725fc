//! What an edition changes against another, and what it leaves out, in words. Pages show it before publishing, and
//! every stay under the edition shows what is left out.
//!
//! Which of that needs a reason is decided in `procedure::left_out`.

use super::story::code_message;
use crate::procedure::{Asked, Law, Lost, Procedure, Step, Threshold, built_in, lost};
use crate::{Arg, Joint, Message, message};

fn step_of<'p>(procedure: &'p Procedure, id: &str) -> Option<&'p Step> {
    procedure.steps.iter().find(|step| step.id == id)
}

/// Returns the words for something that is left out, as `base` calls it.
pub fn lost_words(what: &Lost, base: &Procedure) -> Message {
    match what {
        Lost::Step(id) => step_of(base, id).map_or_else(|| Message::typed(id), |step| step.title.clone()),
        Lost::Rule(code) => match code.split_once('.') {
            // The item of a step has the step's title.
            Some(("step_open", step)) if step_of(base, step).is_some() => {
                message!("procedure-change-item", item = lost_words(&Lost::Step(step.to_owned()), base))
            }
            _ => message!("procedure-change-item", item = code_message(code)),
        },
    }
}

fn cited(laws: &[Law]) -> Arg {
    let mut cites: Vec<Message> = Vec::new();
    for law in laws {
        if !cites.contains(&law.source.cites) {
            cites.push(law.source.cites.clone());
        }
    }
    if cites.is_empty() { Arg::Count(0) } else { Arg::list(Joint::Semicolon, cites) }
}

/// Returns what an edition leaves out of the built-in one that it starts from: each thing that has a reason with the
/// reason, and one sentence for the common practice that has none.
pub fn left_out_words(edition: &Procedure) -> Vec<Message> {
    let Some(root) = built_in().iter().find(|root| Some(root.digest) == edition.starts_from) else {
        return Vec::new();
    };
    let all = lost(root, edition);
    let mut said: Vec<Message> = Vec::new();
    for own in &edition.left_out {
        let laws = all.iter().find(|(what, _)| *what == own.what).map_or(&[][..], |(_, laws)| laws);
        said.push(message!(
            "finding-procedure-leaves-out",
            what = lost_words(&own.what, root),
            laws = cited(laws),
            because = Arg::typed(own.because.trim_end_matches('.')),
        ));
    }
    let rest: Vec<Message> = all
        .iter()
        .filter(|(what, _)| edition.left_out.iter().all(|own| own.what != *what))
        .map(|(what, _)| lost_words(what, root))
        .collect();
    if !rest.is_empty() {
        said.push(message!("finding-procedure-without", what = Arg::list(Joint::Semicolon, rest)));
    }
    said
}

/// Returns what an edition changes against the one that it was made from, one sentence each.
pub fn edition_changes(base: &Procedure, edition: &Procedure) -> Vec<Message> {
    let mut said = Vec::new();
    if base.title != edition.title {
        said.push(message!("procedure-change-title", title = edition.title.clone()));
    }
    for (what, laws) in lost(base, edition) {
        let reason = edition.left_out.iter().find(|own| own.what == what).map(|own| own.because.clone());
        said.push(message!(
            "procedure-change-left-out",
            what = lost_words(&what, base),
            laws = cited(&laws),
            because = reason.map_or(Arg::Count(0), Arg::Typed),
        ));
    }
    for step in &edition.steps {
        let title = || step.title.clone();
        let Some(before) = step_of(base, &step.id) else {
            said.push(message!("procedure-change-added", step = title()));
            continue;
        };
        let words = |step: &Step| (step.title.clone(), step.what_to_do.clone(), step.why.clone());
        if words(before) != words(step) {
            said.push(message!("procedure-change-words", step = title()));
        }
        if before.repeat_minutes != step.repeat_minutes {
            let minutes = step.repeat_minutes.unwrap_or(0);
            said.push(message!("procedure-change-interval", step = title(), minutes = minutes));
        }
        let neighbour = |procedure: &Procedure, other: &Procedure| {
            let at = procedure.steps.iter().position(|own| own.id == step.id)?;
            let before = procedure.steps.get(..at)?.iter().rev();
            before.map(|own| own.id.clone()).find(|id| step_of(other, id).is_some())
        };
        if neighbour(base, edition) != neighbour(edition, base) {
            said.push(message!("procedure-change-moved", step = title()));
        }
    }
    for rule in &edition.gates {
        let Asked::Step(id) = &rule.asked else { continue };
        let before = |gate| base.gates.iter().any(|old| old.asked == rule.asked && old.gates.contains(gate));
        let step = || step_of(edition, id).map_or_else(|| Message::typed(id), |step| step.title.clone());
        let added = rule.gates.iter().filter(|gate| !before(gate));
        said.extend(added.map(|gate| message!("procedure-change-blocks", step = step(), gate = gate.term())));
    }
    for threshold in Threshold::ALL {
        let (old, new) = (base.thresholds.get(threshold), edition.thresholds.get(threshold));
        if old != new {
            let threshold_words = Message::term("procedure-threshold", threshold.word());
            said.push(match new {
                Some(new) => {
                    message!("procedure-change-threshold", threshold = threshold_words, number = new)
                }
                None => message!("procedure-change-threshold-usual", threshold = threshold_words),
            });
        }
    }
    said
}
