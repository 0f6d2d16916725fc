//! What stands in the record as typed and is used for nothing: numbers, counts, tables and times that cannot be, and codes
//! that are none. Each is pointed out, so that nobody looks for it in a drawing or a figure.
//!
//! Called by the findings. The bounds are in `units::bounds`; that nothing is drawn or computed of it is seen to where it
//! is read: an amount has then no number.

use super::fold_context::FoldContext;
use super::slots::{Fate, Item};
use crate::clock::UtcMillis;
use crate::entry::Statement;
use crate::units::bounds::{DRAWN_AROUND_MILLIS, MOST_BOLTS, table_can_be};
use crate::units::{Amount, Finding, Severity, Unused};

/// As many are named one by one; of more the number is said.
const NAMED: usize = 5;

pub(super) fn findings(ledger: &FoldContext<'_>, findings: &mut Vec<Finding>) {
    let (mut named, mut of_all) = (Vec::new(), 0);
    for item in ledger.slots.items().iter().filter(|item| matches!(item.fate, Fate::Live | Fate::MovedOn)) {
        if let Some(why) = of_item(item) {
            of_all += 1;
            if named.len() < NAMED {
                named.push(format!("\u{201c}{}\u{201d} {why}", ledger.sentence_briefly(item)));
            }
        }
    }
    if of_all > 0 {
        let more = if of_all > NAMED { format!(" And {} more.", of_all - NAMED) } else { String::new() };
        let message = format!(
            "Kept as typed, and neither drawn nor computed with: {}.{more}",
            named.join("; ").trim_end_matches('.')
        );
        findings.push(Finding::new("cannot_be", Severity::Check, message));
    }
    times(ledger, findings);
    let codes = ledger.slots.items().iter().filter(|item| !item.entry.body.by.is_in_bounds()).count();
    if codes > 0 {
        let message = format!(
            "{} by a code that is none (1 to 64 printable characters): shown shortened.",
            entries(codes, "names its person", "name their person")
        );
        findings.push(Finding::new("code_is_none", Severity::Check, message));
    }
}

fn entries(count: usize, one: &str, many: &str) -> String {
    if count == 1 { format!("1 entry {one}") } else { format!("{count} entries {many}") }
}

fn times(ledger: &FoldContext<'_>, findings: &mut Vec<Finding>) {
    let mut times: Vec<UtcMillis> = ledger.slots.items().iter().map(|item| item.at).collect();
    times.sort_unstable();
    let Some(middle) = times.get(times.len() / 2) else { return };
    let far = times.iter().filter(|at| at.since(*middle).saturating_abs() > DRAWN_AROUND_MILLIS).count();
    if far > 0 {
        let message = format!(
            "{} a time more than a month from the others': a clock was wrong. What was read then stands in the tables and not in the drawings.",
            entries(far, "claims", "claim")
        );
        findings.push(Finding::new("far_from_the_others", Severity::Note, message));
    }
}

/// Why something of an entry is not used, if so.
fn of_item(item: &Item<'_>) -> Option<&'static str> {
    let says = &item.entry.body.says;
    match says {
        Statement::Cover { bolts_in_place, bolts_required, .. }
            if (*bolts_in_place).max(*bolts_required) > MOST_BOLTS =>
        {
            Some("has more bolts than any cover")
        }
        Statement::OutageTable { rows, .. } if !table_can_be(rows) => {
            Some("has rows that cannot be, or more than any table")
        }
        _ => says.amounts().find_map(Amount::unused).map(|why| match why {
            Unused::CannotBe => "is no amount that can be",
            Unused::DoesNotFit => "comes with a number that does not fit what was typed",
            Unused::NotRead => "begins as a number and is not understood",
        }),
    }
}
