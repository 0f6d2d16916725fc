//! The section with the story: every entry in order of time, with the claimed time and the time of receipt.

use farsiding_core::clock::UtcMillis;
use farsiding_core::view::{Fate, fate_spoken};

use super::super::sheet::{Cell, Sheet};
use super::Told;

/// Returns the device's own time, without the date if it is the same day.
fn displayed<'t>(shown: &str, device_time: &'t str) -> &'t str {
    match (shown.split_once(' '), device_time.split_once(' ')) {
        (Some((day, _)), Some((same, time))) if day == same => time,
        _ => device_time,
    }
}

/// Returns the reason with a prominent beginning: "kept, not counted: signed by …" becomes "KEPT, NOT
/// COUNTED: signed by …".
pub(super) fn told_first(reason: &str) -> String {
    match reason.split_once(':') {
        Some((first, rest)) => format!("{}:{rest}", first.to_uppercase()),
        None => reason.to_uppercase(),
    }
}

pub(super) fn write(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    let view = told.view();
    sheet.heading("Annex A  Every entry of the stay, in time order");
    sheet.small(
        "\u{201c}Claimed\u{201d} is the device's own time, corrected by what was last known of its clock; what the \
         device itself displayed stands beneath where its clock was two minutes off or more. \u{201c}Received\u{201d} is when the office's \
         log first held the entry. Entries that no longer stand are shown with what became of them, those that do not count with the \
         reason. How a person is known stands with acts that bind and with what was signed by hand. No. is the entry's place among those of the stay in the order of receipt; it is cited throughout.",
    );
    let rows = view
        .history
        .iter()
        .map(|line| {
            let said = &line.said;
            let corrected = UtcMillis(said.claimed.0.saturating_sub(said.ahead_millis.unwrap_or(0)));
            let mut claimed = told.both(corrected).replace(" = ", "\n= ");
            match said.ahead_millis {
                Some(ahead) if ahead.unsigned_abs() >= 120_000 => {
                    claimed += &format!("\ndevice: {}", displayed(&said.shown, &said.device_time));
                }
                None => claimed += "\nclock never compared",
                Some(_) => {}
            }
            let mut what = line.sentence.clone();
            if !said.why.is_empty() {
                what += &format!("\nReason given: {}", said.why);
            }
            if line.fate == Fate::Kept {
                what += &format!("\n\u{2192} {}", told_first(&line.why_gone));
            } else if let Some(fate) = fate_spoken(line.fate).filter(|_| line.fate != Fate::MovedOn) {
                let why =
                    if line.why_gone.is_empty() { String::new() } else { format!(": {}", line.why_gone) };
                what += &format!("\n\u{2192} {}{why}", fate.to_uppercase());
            } else if line.fate == Fate::MovedOn {
                what += "\n\u{2192} later changed";
            }
            let mut who = format!("{}, {}", said.name, said.device_name);
            if let Some(how) = told.person_known(said) {
                who += &format!("\n{how}");
            }
            if let Some(warning) = said.standing.warning() {
                who += &format!("\n{}", warning.to_uppercase());
            }
            let what: Cell = match line.fate {
                Fate::Live | Fate::MovedOn | Fate::Agreed | Fate::Withdrawal => what.into(),
                Fate::Kept => Cell::from(format!("(no part of the record) {what}")),
                Fate::Corrected | Fate::Withdrawn | Fate::Settled => {
                    Cell::from(format!("(no longer stands) {what}"))
                }
            };
            let number = told.number(said.entry).map_or(String::new(), |number| number.to_string());
            vec![Cell::strong(number), claimed.into(), told.received(said.entry).into(), who.into(), what]
        })
        .collect();
    sheet.table(
        &[
            ("No.", 6.0),
            ("Claimed", 19.0),
            ("Received", 18.0),
            ("Who, on what", 16.0),
            ("What was recorded", 41.0),
        ],
        rows,
    );
    if !view.handovers.is_empty() {
        sheet.subheading("Who was responsible");
        for handover in &view.handovers {
            let sides = if handover.one_sided { " (signed by one side only)" } else { "" };
            let at =
                handover.given.as_ref().or(handover.taken.as_ref()).map_or("", |said| said.shown.as_str());
            sheet.item(&format!("{} handed over to {}, {at}{sides}", handover.from, handover.to));
        }
    }
    if !view.attendance.gaps.is_empty() {
        sheet.subheading("Times without a sign of attendance while a line was on");
        for gap in &view.attendance.gaps {
            let away = if gap.said_away { ", somebody had written that they left" } else { "" };
            let shut = if gap.valves_shut { ", every valve with a line recorded shut" } else { "" };
            sheet.item(&format!("{} ({} min){away}{shut}", gap.shown, gap.minutes));
        }
    }
}
