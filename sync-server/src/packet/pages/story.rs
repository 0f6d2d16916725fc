//! The story: every entry in time order, with the time claimed and the time received.

use farsiding_core::view::{Fate, fate_spoken};

use super::super::sheet::{Cell, Sheet};
use super::Told;

/// "clock 3 min ahead"; nothing below two minutes.
fn clock_difference(ahead_millis: i64) -> String {
    crate::command::clock_words(ahead_millis).trim_start_matches(" \u{b7} its ").to_owned()
}

pub(super) fn write(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    let view = told.view();
    sheet.heading("1  The story in time order");
    sheet.small(
        "\u{201c}Claimed\u{201d} is the device's own time, corrected by what was last known of its clock; what the \
         device itself displayed stands beneath where the two differ. \u{201c}Received\u{201d} is when the office's \
         log first held the entry. Entries that no longer stand are shown with what became of them. A number such \
         as [1a2b3c4d] begins the entry's id.",
    );
    let rows = view
        .history
        .iter()
        .map(|line| {
            let said = &line.said;
            let mut claimed = said.shown.clone();
            match said.ahead_millis.map(clock_difference) {
                Some(words) if !words.is_empty() => {
                    claimed += &format!("\n({}; displayed {})", words, said.device_time);
                }
                None => claimed += "\n(clock never compared)",
                Some(_) => {}
            }
            let mut what = line.sentence.clone();
            if !said.why.is_empty() {
                what += &format!("\nReason given: {}", said.why);
            }
            if let Some(fate) = fate_spoken(line.fate).filter(|_| line.fate != Fate::MovedOn) {
                let why =
                    if line.why_gone.is_empty() { String::new() } else { format!(": {}", line.why_gone) };
                what += &format!("\n\u{2192} {}{why}", fate.to_uppercase());
            } else if line.fate == Fate::MovedOn {
                what += "\n\u{2192} later changed";
            }
            let mut who = format!("{}\n{} [{}]", said.name, said.device_name, said.entry.short());
            if let Some(warning) = said.standing.warning() {
                who += &format!("\n{}", warning.to_uppercase());
            }
            let stands = matches!(line.fate, Fate::Live | Fate::MovedOn | Fate::Withdrawal);
            let what: Cell =
                if stands { what.into() } else { Cell::from(format!("(no longer stands) {what}")) };
            vec![claimed.into(), told.received(said.entry).into(), who.into(), what]
        })
        .collect();
    sheet.table(
        &[("Claimed", 17.0), ("Received", 16.0), ("Who, on what", 18.0), ("What was recorded", 49.0)],
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
