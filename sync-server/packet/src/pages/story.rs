//! The section with the story: every entry in order of time, with the claimed time and the time of receipt.

use farsiding_core::clock::UtcMillis;
use farsiding_core::view::{Fate, HistoryLine, fate_message};
use farsiding_core::{Arg, message};

use super::super::sheet::{Cell, Sheet};
use super::{Spoken as _, Told};

/// Returns the reason with a prominent beginning: "kept, not counted: signed by …" becomes "KEPT, NOT
/// COUNTED: signed by …".
pub(super) fn told_first(reason: &str) -> String {
    match reason.split_once(':') {
        Some((first, rest)) => format!("{}:{rest}", first.to_uppercase()),
        None => reason.to_uppercase(),
    }
}

/// The difference in milliseconds from which a clock's correction is told.
const TOLD_FROM_MILLIS: u64 = 120_000;

/// Returns when an entry says it was made: by its device's clock, and corrected where that clock was found to be wrong.
fn claimed(told: &Told<'_>, line: &HistoryLine) -> String {
    let said = &line.said;
    let on_two_lines = |at| told.both(at).replace(" = ", "\n= ");
    let mut claimed = on_two_lines(said.claimed);
    match said.ahead_millis {
        Some(ahead) if ahead.unsigned_abs() >= TOLD_FROM_MILLIS => {
            let corrected = UtcMillis(said.claimed.0.saturating_sub(ahead));
            let time = Arg::typed(on_two_lines(corrected));
            claimed += "\n";
            claimed += &told.text(&message!("packet-corrected-time", time = time));
        }
        None => {
            claimed += "\n";
            claimed += &told.say("packet-clock-never-compared");
        }
        Some(_) => {}
    }
    claimed
}

/// Returns what an entry says, with its reason and what became of it.
fn what(told: &Told<'_>, line: &HistoryLine) -> String {
    let mut what = told.of(&line.sentence);
    let mut add = |text: String| {
        what += "\n";
        what += &text;
    };
    if !line.said.why.is_empty() {
        add(told.text(&message!("packet-reason", why = line.said.why.as_message())));
    }
    let why_gone = told.of(&line.why_gone);
    match (line.fate, fate_message(line.fate)) {
        (Fate::Kept, _) => add(format!("\u{2192} {}", told_first(&why_gone))),
        (Fate::MovedOn, _) => add(format!("\u{2192} {}", told.say("packet-later-changed"))),
        (_, Some(fate)) => {
            let fate = told.text(&fate).to_uppercase();
            add(if why_gone.is_empty() {
                format!("\u{2192} {fate}")
            } else {
                let fate = Arg::typed(fate);
                let because = message!("packet-fate-because", fate = fate, why = Arg::typed(why_gone));
                format!("\u{2192} {}", told.text(&because))
            });
        }
        (_, None) => {}
    }
    match line.fate {
        Fate::Live | Fate::MovedOn | Fate::Agreed | Fate::Withdrawal => what,
        Fate::Kept => told.text(&message!("packet-no-part", what = Arg::typed(what))),
        Fate::Corrected | Fate::Withdrawn | Fate::Settled => {
            told.text(&message!("packet-no-longer", what = Arg::typed(what)))
        }
    }
}

pub(super) fn write(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    let view = told.view();
    sheet.heading(&told.say("packet-annex-story"));
    sheet.small(&told.say("packet-annex-story-what"));
    let rows = view
        .history
        .iter()
        .map(|line| {
            let said = &line.said;
            let mut who = format!("{}, {}", said.name, said.device_name);
            if let Some(how) = told.person_known(said) {
                who += "\n";
                who += &told.text(&how);
            }
            if let Some(warning) = said.standing.warning() {
                who += "\n";
                who += &told.of(&warning).to_uppercase();
            }
            let number = told.number(said.entry).map_or(String::new(), |number| number.to_string());
            vec![
                Cell::strong(number),
                claimed(told, line).into(),
                told.text(&told.received(said.entry)).into(),
                who.into(),
                what(told, line).into(),
            ]
        })
        .collect();
    let columns = told.columns(&[
        ("packet-column-number", 6.0),
        ("packet-column-claimed", 19.0),
        ("packet-column-received", 18.0),
        ("packet-column-who-device", 16.0),
        ("packet-column-recorded", 41.0),
    ]);
    sheet.table(&columns, rows);
    if !view.handovers.is_empty() {
        sheet.subheading(&told.say("packet-heading-responsible"));
        for handover in &view.handovers {
            let at =
                handover.given.as_ref().or(handover.taken.as_ref()).map_or("", |said| said.shown.as_str());
            let (from, to, at) = (handover.from.as_message(), handover.to.as_message(), Arg::typed(at));
            sheet.item(&told.text(&match handover.one_sided {
                false => message!("packet-handover", from = from, to = to, at = at),
                true => message!("packet-handover-one-sided", from = from, to = to, at = at),
            }));
        }
    }
    if !view.attendance.gaps.is_empty() {
        sheet.subheading(&told.say("packet-heading-attendance"));
        for gap in &view.attendance.gaps {
            let minutes = Arg::Number(gap.minutes.to_string());
            let mut parts = vec![message!("packet-gap", when = gap.shown.as_message(), minutes = minutes)];
            parts.extend(gap.said_away.then(|| message!("packet-gap-away")));
            parts.extend(gap.valves_shut.then(|| message!("packet-gap-shut")));
            let parts = Arg::list(farsiding_core::Joint::Comma, parts);
            sheet.item(&told.text(&message!("packet-parts", parts = parts)));
        }
    }
}
