//! The section on doubts: defects, disagreements side by side, corrections, blockers that were passed over,
//! and findings.

use farsiding_core::ids::EntryId;
use farsiding_core::units::Severity;
use farsiding_core::view::{Blocker, Claim, DefectView, Fate, fate_message};
use farsiding_core::{Arg, Joint, Message, message};

use super::super::sheet::{Cell, Sheet};
use super::story::told_first;
use super::{Spoken as _, Told};

/// Returns the heading of a defect.
fn defect_named(defect: &DefectView, visits: &[farsiding_core::ids::VisitId]) -> Message {
    let what = Arg::typed(defect.what.trim());
    let earlier = defect.visit.filter(|visit| !visits.contains(visit)).map(|visit| visit.short());
    match (defect.fitting, earlier) {
        (None, None) => message!("packet-defect", what = what),
        (None, Some(visit)) => message!("packet-defect-earlier", what = what, visit = Arg::typed(visit)),
        (Some(fitting), None) => message!("packet-defect-at", what = what, fitting = fitting.term()),
        (Some(fitting), Some(visit)) => message!(
            "packet-defect-at-earlier",
            what = what,
            fitting = fitting.term(),
            visit = Arg::typed(visit)
        ),
    }
}

/// Returns the rows on what an authority answered.
fn authority(defect: &DefectView, told: &Told<'_>) -> Option<Message> {
    let answer = defect.authority.as_ref()?;
    let value = &answer.value;
    let mut parts = vec![message!(
        "packet-authority",
        by = value.by.as_message(),
        reference = value.reference.as_message()
    )];
    parts.extend(value.spoken_at.map(|at| message!("packet-authority-spoken", at = told.at(at))));
    parts.extend(value.written_at.map(|at| message!("packet-authority-written", at = told.at(at))));
    parts.extend(value.written_due_shown.as_ref().map(|due| match value.overdue {
        false => message!("packet-authority-due", due = due.as_message()),
        true => message!("packet-authority-overdue", due = due.as_message()),
    }));
    parts.push(told.known_by(answer));
    Some(message!("packet-parts", parts = Arg::list(Joint::Semicolon, parts)))
}

pub(super) fn defects(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    let view = told.view();
    sheet.heading(&told.say("packet-heading-defects"));
    let carried: Vec<_> = view.car.carried.iter().filter(|one| one.is_open()).collect();
    if view.defects.is_empty() && view.holds.is_empty() && carried.is_empty() {
        sheet.paragraph(&told.say("packet-no-defects"));
        return;
    }
    for defect in &view.defects {
        sheet.subheading(&told.text(&defect_named(defect, &view.header.visits)));
        let noted = message!(
            "packet-noted-received",
            by = told.by(&defect.said),
            received = told.received(defect.said.entry)
        );
        let mut rows = vec![(told.say("packet-row-noted"), told.text(&noted))];
        if defect.needs_authority {
            rows.push((told.say("packet-row-movement"), told.say("packet-needs-authority")));
        }
        for forwarded in &defect.forwarded {
            let reported = message!(
                "packet-reported",
                to = forwarded.to.as_message(),
                how = forwarded.how.as_message(),
                by = told.by(&forwarded.said)
            );
            rows.push((told.say("packet-row-reported"), told.text(&reported)));
        }
        rows.extend(authority(defect, told).map(|said| (told.say("packet-row-authority"), told.text(&said))));
        let resolved = defect.resolved.as_ref().map_or_else(
            || message!("packet-not-put-right"),
            |r| message!("packet-put-right", how = r.value.as_message(), by = told.known_by(r)),
        );
        rows.push((told.say("packet-row-put-right"), told.text(&resolved)));
        if !defect.photos.is_empty() {
            let numbers: Vec<String> = view
                .photos
                .iter()
                .enumerate()
                .filter(|(_, photo)| defect.photos.contains(&photo.photo.sha256))
                .map(|(at, _)| (at + 1).to_string())
                .collect();
            let named =
                if numbers.is_empty() { told.say("packet-photograph-elsewhere") } else { numbers.join(", ") };
            rows.push((told.say("packet-row-photograph"), named));
        }
        sheet.facts(&rows);
    }
    for one in carried {
        let (what, by) = (one.says.as_message(), told.by(&one.said));
        sheet.item(&told.text(&message!("packet-next-time", what = what, by = by)));
    }
    for hold in &view.holds {
        let because = hold.because.as_message();
        let by = told.by(&hold.said);
        sheet.item(&told.text(&match &hold.lifted {
            None => message!("packet-hold-open", because = because, by = by),
            Some(lifted) => message!(
                "packet-hold-lifted",
                because = because,
                by = by,
                lifted = lifted.value.as_message(),
                lifter = told.known_by(lifted)
            ),
        }));
    }
}

/// Returns the accounts side by side. `agreed` is the account that a settlement kept.
fn claims(told: &Told<'_>, claims: &[Claim], agreed: Option<EntryId>) -> Vec<Vec<Cell>> {
    claims
        .iter()
        .map(|claim| {
            let kept = agreed == Some(claim.said.entry);
            let sentence = claim.sentence.as_message();
            let sentence =
                told.text(&if kept { message!("packet-agreed-on", sentence = sentence) } else { sentence });
            vec![
                if kept || agreed.is_none() { Cell::strong(sentence) } else { sentence.into() },
                told.text(&told.by(&claim.said)).into(),
                told.text(&told.received(claim.said.entry)).into(),
            ]
        })
        .collect()
}

const SIDES: [(&str, f32); 3] =
    [("packet-column-said", 48.0), ("packet-column-by-when", 34.0), ("packet-column-received", 18.0)];

pub(super) fn disagreements(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    let view = told.view();
    sheet.heading(&told.say("packet-heading-disagreements"));
    if view.disagreements.is_empty() && view.ended_disagreements.is_empty() {
        sheet.paragraph(&told.say("packet-no-disagreements"));
        return;
    }
    sheet.small(&told.say("packet-disagreements-what"));
    for disagreement in &view.disagreements {
        let about = disagreement.about.as_message();
        sheet.subheading(&told.text(&message!("packet-not-settled", about = about)));
        sheet.table(&told.columns(&SIDES), claims(told, &disagreement.claims, None));
        for back in &disagreement.reopened {
            let reopened =
                message!("packet-reopened", by = told.by(&back.said), why = back.said.why.as_message());
            sheet.paragraph(&told.text(&reopened));
        }
    }
    for ended in &view.ended_disagreements {
        let about = ended.about.as_message();
        sheet.subheading(&told.text(&match ended.settled {
            true => message!("packet-settled", about = about),
            false => message!("packet-moved-on", about = about),
        }));
        sheet.table(&told.columns(&SIDES), claims(told, &ended.claims, ended.agreed));
        let said = &ended.ended_by.said;
        let why = if said.why.is_empty() {
            message!("packet-no-reason")
        } else {
            message!("packet-reason-given", why = said.why.as_message())
        };
        let (by, what) = (told.by(said), ended.ended_by.sentence.as_message());
        sheet.paragraph(&told.text(&match ended.settled {
            true => message!("packet-settled-by", by = by, what = what, why = why),
            false => message!("packet-later-by", by = by, what = what, why = why),
        }));
    }
}

pub(super) fn corrections(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    let view = told.view();
    sheet.heading(&told.say("packet-heading-corrections"));
    let rows: Vec<Vec<Cell>> = view
        .history
        .iter()
        .filter(|line| matches!(line.fate, Fate::Corrected | Fate::Withdrawn))
        .map(|line| {
            let why_gone = told.of(&line.why_gone);
            // The entry that replaced it is in the same slot and gives the reason.
            let by = view
                .history
                .iter()
                .find(|other| {
                    other.slot == line.slot
                        && other.said.entry != line.said.entry
                        && told.of(&other.said.why) == why_gone
                        && !why_gone.is_empty()
                })
                .map_or(String::new(), |other| told.of_whom(&other.sentence, &other.said));
            vec![
                told.of_whom(&line.sentence, &line.said).into(),
                fate_message(line.fate).map_or(String::new(), |fate| told.of(&fate)).into(),
                by.into(),
                why_gone.into(),
            ]
        })
        .collect();
    if rows.is_empty() {
        sheet.paragraph(&told.say("packet-no-corrections"));
        return;
    }
    let columns = told.columns(&[
        ("packet-column-first", 34.0),
        ("", 10.0),
        ("packet-column-stands", 34.0),
        ("packet-column-reason", 22.0),
    ]);
    sheet.table(&columns, rows);
}

/// Writes the statements that the record does not follow.
pub(super) fn not_counted(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    let rows: Vec<Vec<Cell>> = told
        .kept()
        .map(|line| {
            let mut what = told.of(&line.sentence);
            if !line.said.why.is_empty() {
                what += "\n";
                what += &told.text(&message!("packet-reason", why = line.said.why.as_message()));
            }
            vec![
                what.into(),
                told.text(&told.by(&line.said)).into(),
                told.text(&told.received(line.said.entry)).into(),
                Cell::strong(told_first(&told.of(&line.why_gone))),
            ]
        })
        .collect();
    if rows.is_empty() {
        return;
    }
    sheet.subheading(&told.say("packet-heading-not-counted"));
    sheet.small(&told.say("packet-not-counted-what"));
    let columns = told.columns(&[
        ("packet-column-said", 34.0),
        ("packet-column-by-when", 26.0),
        ("packet-column-received", 16.0),
        ("packet-column-why-not", 24.0),
    ]);
    sheet.table(&columns, rows);
}

pub(super) fn passed_over(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    let view = told.view();
    sheet.heading(&told.say("packet-heading-passed-over"));
    if view.unloading.asked {
        sheet.subheading(&told.say("gate-unload"));
        let signed = match &view.unloading.fit {
            Some(fit) => message!("gate-signed", who = fit.said.signature()),
            None => message!("gate-not-signed"),
        };
        sheet.paragraph(&told.text(&signed));
        missing(sheet, told, &view.unloading.blockers);
        sheet.subheading(&told.say("gate-release"));
    }
    missing(sheet, told, &view.blockers);
    passed(sheet, told);
    sheet.small(&told.say(farsiding_core::view::NOTE));
}

/// What is missing at a gate, with who asks for it.
fn missing(sheet: &mut Sheet<'_>, told: &Told<'_>, blockers: &[Blocker]) {
    let open: Vec<_> = blockers.iter().filter(|blocker| blocker.passed_over.is_none()).collect();
    if open.is_empty() {
        sheet.paragraph(&told.say("packet-nothing-missing"));
    } else {
        let rows = open
            .iter()
            .map(|b| {
                let asked =
                    message!("packet-asked-by", basis = b.asked_by.term(), source = b.source.as_message());
                vec![Cell::strong(told.of(&b.missing)), told.text(&asked).into()]
            })
            .collect();
        let columns = told.columns(&[("packet-column-missing", 58.0), ("packet-column-asked", 42.0)]);
        sheet.table(&columns, rows);
    }
}

/// What was overridden, and whether that still stands.
fn passed(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    let view = told.view();
    if !view.passed_over.is_empty() {
        sheet.subheading(&told.say("packet-heading-passed"));
        let rows = view
            .passed_over
            .iter()
            .map(|word| {
                let mut what = told.of(&word.spoken);
                if let Some(why) = &word.fallen {
                    what += "\n";
                    what += &told.text(&message!("packet-does-not-stand", why = why.as_message()));
                }
                vec![Cell::strong(what), told.of_whom(&told.of(&word.why), &word.said).into()]
            })
            .collect();
        let columns = told.columns(&[("packet-column-what", 40.0), ("packet-column-reason-by", 60.0)]);
        sheet.table(&columns, rows);
    }
}

pub(super) fn worth_knowing(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    let view = told.view();
    sheet.heading(&told.say("packet-heading-findings"));
    if view.findings.is_empty() && view.advice.is_empty() {
        sheet.paragraph(&told.say("packet-nothing-found"));
    }
    for finding in view.findings.iter().chain(&view.advice) {
        let what = finding.message.as_message();
        sheet.item(&told.text(&match finding.severity {
            Severity::Alarm => message!("packet-finding-alarm", what = what),
            Severity::Check => message!("packet-finding-check", what = what),
            Severity::Note => what,
        }));
    }
    for check in &view.checks {
        let what = check.what.as_message();
        let mut result = vec![match check.right.value {
            true => message!("packet-check-right"),
            false => message!("packet-check-wrong"),
        }];
        if !check.note.is_empty() {
            result.push(check.note.as_message());
        }
        let result = Arg::list(Joint::Comma, result);
        let checked =
            message!("packet-checked", what = what, result = result, by = told.known_by(&check.right));
        sheet.item(&told.text(&checked));
    }
    if !view.unrecognised.is_empty() {
        sheet.strong(&told.text(&message!("packet-unrecognised", count = view.unrecognised.len())));
    }
}
