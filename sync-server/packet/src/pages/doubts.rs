//! The section on doubts: defects, disagreements side by side, corrections, blockers that were passed over,
//! and findings.

use farsiding_core::ids::EntryId;
use farsiding_core::units::Severity;
use farsiding_core::view::{Claim, Fate, fate_spoken};

use super::super::sheet::{Cell, Sheet};
use super::Told;
use super::story::told_first;

pub(super) fn defects(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    let view = told.view();
    sheet.heading("1  Defects and holds");
    if view.defects.is_empty() && view.holds.is_empty() {
        sheet.paragraph("No defect and no hold is recorded.");
        return;
    }
    let visits = &view.header.visits;
    for defect in &view.defects {
        let at = defect.fitting.map_or(String::new(), |f| format!(" at the {}", f.name()));
        let earlier = match defect.visit {
            Some(visit) if !visits.contains(&visit) => {
                format!(" (noted at an earlier stay, visit {})", visit.short())
            }
            _ => String::new(),
        };
        sheet.subheading(&format!("Defect{at}: {}{earlier}", defect.what.trim()));
        let mut rows = vec![(
            "Noted",
            format!("{}; received {}", told.by(&defect.said), told.received(defect.said.entry)),
        )];
        if defect.needs_authority {
            rows.push(("Movement", "said to need an authority's approval (49 CFR 174.50)".to_owned()));
        }
        for forwarded in &defect.forwarded {
            rows.push((
                "Reported",
                format!("to {} ({}); {}", forwarded.to, forwarded.how, told.by(&forwarded.said)),
            ));
        }
        if let Some(answer) = &defect.authority {
            let value = &answer.value;
            let spoken = value.spoken_at.map_or(String::new(), |at| format!(", spoken {}", told.shown(at)));
            let written =
                value.written_at.map_or(String::new(), |at| format!(", in writing {}", told.shown(at)));
            let due = value.written_due_shown.as_ref().map_or(String::new(), |due| {
                format!(", due in writing by {due}{}", if value.overdue { " (OVERDUE)" } else { "" })
            });
            rows.push((
                "Authority",
                format!(
                    "{}, reference {}{spoken}{written}{due}; {}",
                    value.by,
                    value.reference,
                    told.known_by(answer)
                ),
            ));
        }
        rows.push((
            "Put right",
            defect
                .resolved
                .as_ref()
                .map_or("not recorded: OPEN".to_owned(), |r| format!("{}; {}", r.value, told.known_by(r))),
        ));
        if !defect.photos.is_empty() {
            let numbers: Vec<String> = view
                .photos
                .iter()
                .enumerate()
                .filter(|(_, photo)| defect.photos.contains(&photo.photo.sha256))
                .map(|(at, _)| (at + 1).to_string())
                .collect();
            let named =
                if numbers.is_empty() { "named, of another stay".to_owned() } else { numbers.join(", ") };
            rows.push(("Photograph", named));
        }
        sheet.facts(&rows);
    }
    for hold in &view.holds {
        let lifted = hold.lifted.as_ref().map_or("NOT LIFTED".to_owned(), |lifted| {
            format!("lifted: {} ({})", lifted.value, told.known_by(lifted))
        });
        sheet.item(&format!("HOLD: {} ({}). {lifted}", hold.because, told.by(&hold.said)));
    }
}

/// Returns the accounts side by side. `agreed` is the account that a settlement kept.
fn claims(told: &Told<'_>, claims: &[Claim], agreed: Option<EntryId>) -> Vec<Vec<Cell>> {
    claims
        .iter()
        .map(|claim| {
            let kept = agreed == Some(claim.said.entry);
            let sentence =
                if kept { format!("AGREED ON: {}", claim.sentence) } else { claim.sentence.clone() };
            vec![
                if kept || agreed.is_none() { Cell::strong(sentence) } else { sentence.into() },
                told.by(&claim.said).into(),
                told.received(claim.said.entry).into(),
            ]
        })
        .collect()
}

const SIDES: [(&str, f32); 3] =
    [("What was said", 48.0), ("By whom, when claimed", 34.0), ("Received", 18.0)];

pub(super) fn disagreements(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    let view = told.view();
    sheet.heading("2  Disagreements");
    if view.disagreements.is_empty() && view.ended_disagreements.is_empty() {
        sheet.paragraph("No two entries of which neither names the other say different things.");
        return;
    }
    sheet.small("Two entries disagree when neither names the other as known and they differ. Both are kept; what a settlement agreed on stands.");
    for disagreement in &view.disagreements {
        sheet.subheading(&format!("NOT SETTLED: {}", disagreement.about));
        sheet.table(&SIDES, claims(told, &disagreement.claims, None));
        for back in &disagreement.reopened {
            sheet.paragraph(&format!(
                "It had been settled; the settlement was taken back by {} (reason given: {}).",
                told.by(&back.said),
                back.said.why
            ));
        }
    }
    for ended in &view.ended_disagreements {
        sheet.subheading(&format!("{}: {}", if ended.settled { "Settled" } else { "Moved on" }, ended.about));
        sheet.table(&SIDES, claims(told, &ended.claims, ended.agreed));
        let how = if ended.settled { "Settled by" } else { "A later entry took its place, by" };
        let why = if ended.ended_by.said.why.is_empty() {
            "no reason was given".to_owned()
        } else {
            format!("reason given: {}", ended.ended_by.said.why)
        };
        sheet.paragraph(&format!(
            "{how} {}: {} ({why})",
            told.by(&ended.ended_by.said),
            ended.ended_by.sentence
        ));
    }
}

pub(super) fn corrections(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    let view = told.view();
    sheet.heading("3  Corrections, and what does not count");
    let rows: Vec<Vec<Cell>> = view
        .history
        .iter()
        .filter(|line| matches!(line.fate, Fate::Corrected | Fate::Withdrawn))
        .map(|line| {
            // The entry that replaced it is in the same slot and gives the reason.
            let by = view
                .history
                .iter()
                .find(|other| {
                    other.slot == line.slot
                        && other.said.entry != line.said.entry
                        && other.said.why == line.why_gone
                        && !line.why_gone.is_empty()
                })
                .map_or(String::new(), |other| format!("{}\n{}", other.sentence, told.by(&other.said)));
            vec![
                format!("{}\n{}", line.sentence, told.by(&line.said)).into(),
                fate_spoken(line.fate).unwrap_or_default().into(),
                by.into(),
                line.why_gone.clone().into(),
            ]
        })
        .collect();
    if rows.is_empty() {
        sheet.paragraph("No entry was corrected or withdrawn.");
    } else {
        sheet.table(
            &[
                ("What was said first", 34.0),
                ("", 10.0),
                ("What stands in its place, by whom", 34.0),
                ("Reason given", 22.0),
            ],
            rows,
        );
    }
}

/// Writes the statements that the record does not follow.
pub(super) fn not_counted(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    let rows: Vec<Vec<Cell>> = told
        .kept()
        .map(|line| {
            let why = if line.said.why.is_empty() {
                String::new()
            } else {
                format!("\nReason given: {}", line.said.why)
            };
            vec![
                format!("{}{why}", line.sentence).into(),
                told.by(&line.said).into(),
                told.received(line.said.entry).into(),
                Cell::strong(told_first(&line.why_gone)),
            ]
        })
        .collect();
    if rows.is_empty() {
        return;
    }
    sheet.subheading("Entries that are kept and do not count");
    sheet.small(
        "They came to the office and are attached like all others, but whoever made them could not say this here. \
         They are part of no state, no measurement and no list in this document.",
    );
    sheet.table(
        &[
            ("What was said", 34.0),
            ("By whom, when claimed", 26.0),
            ("Received", 16.0),
            ("Why it does not count", 24.0),
        ],
        rows,
    );
}

pub(super) fn passed_over(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    let view = told.view();
    sheet.heading("4  Before release: what was missing, what was passed over");
    let open: Vec<_> = view.blockers.iter().filter(|blocker| blocker.passed_over.is_none()).collect();
    if open.is_empty() {
        sheet.paragraph(
            "Nothing that this record looks for is missing, or all of it was passed over with a reason.",
        );
    } else {
        let rows = open
            .iter()
            .map(|b| {
                vec![Cell::strong(b.missing.clone()), format!("{}: {}", b.asked_by.spoken(), b.source).into()]
            })
            .collect();
        sheet.table(&[("Missing", 58.0), ("Asked for by", 42.0)], rows);
    }
    if !view.passed_over.is_empty() {
        sheet.subheading("Passed over");
        let rows = view
            .passed_over
            .iter()
            .map(|word| {
                let stands = word.fallen.map_or(String::new(), |why| format!("\nDoes not stand: {why}."));
                vec![
                    Cell::strong(format!("{}{stands}", word.spoken)),
                    format!("{}\n{}", word.why, told.by(&word.said)).into(),
                ]
            })
            .collect();
        sheet.table(&[("What", 40.0), ("Reason given, by whom", 60.0)], rows);
    }
    sheet.small(farsiding_core::view::NOTE);
}

pub(super) fn worth_knowing(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    let view = told.view();
    sheet.heading("5  What the program points out");
    if view.findings.is_empty() && view.advice.is_empty() {
        sheet.paragraph("Nothing.");
    }
    for finding in view.findings.iter().chain(&view.advice) {
        let weight = match finding.severity {
            Severity::Alarm => "ALARM: ",
            Severity::Check => "Check: ",
            Severity::Note => "",
        };
        sheet.item(&format!("{weight}{}", finding.message));
    }
    for check in &view.checks {
        let right = if check.right.value { "right" } else { "NOT right" };
        let note = if check.note.is_empty() { String::new() } else { format!(", {}", check.note) };
        sheet.item(&format!("Checked, {}: {right}{note} ({})", check.what, told.known_by(&check.right)));
    }
    if !view.unrecognised.is_empty() {
        sheet.strong(&format!(
            "{} entries are of a kind this version does not know; they are attached whole.",
            view.unrecognised.len()
        ));
    }
}
