//! Parts of the record that are kept as typed but used for nothing: impossible numbers, counts, tables and
//! times, and invalid codes. Each is pointed out, so that nobody looks for it in a drawing or a result.
//!
//! The findings call this module. The bounds are in `units::bounds`. An amount outside them has no number, so
//! nothing is drawn or computed from it.

use super::fold_context::FoldContext;
use super::slots::{Fate, Item};
use crate::clock::UtcMillis;
use crate::entry::Statement;
use crate::units::bounds::{DRAWN_AROUND_MILLIS, MOST_BOLTS, table_can_be};
use crate::units::{Amount, Finding, Severity, Unused};
use crate::{Arg, Joint, Message, message};

/// The most cases listed individually; of further ones only the number is stated.
const NAMED: usize = 5;

pub(super) fn findings(ledger: &FoldContext<'_>, findings: &mut Vec<Finding>) {
    let (mut named, mut of_all) = (Vec::new(), 0_usize);
    for item in ledger.slots.items().iter().filter(|item| matches!(item.fate, Fate::Live | Fate::MovedOn)) {
        if let Some(why) = of_item(item) {
            of_all += 1;
            if named.len() < NAMED {
                named.push(message!(
                    "finding-unused-entry",
                    entry = ledger.sentence_briefly(item),
                    why = Message::new(why)
                ));
            }
        }
    }
    if of_all > 0 {
        let message = message!(
            "finding-unused",
            entries = Arg::list(Joint::Sentences, named),
            more = of_all.saturating_sub(NAMED),
        );
        findings.push(Finding::new("cannot_be", Severity::Check, message));
    }
    times(ledger, findings);
    let codes = ledger.slots.items().iter().filter(|item| !item.entry.body.by.is_in_bounds()).count();
    if codes > 0 {
        let message = message!("finding-code-is-none", count = codes);
        findings.push(Finding::new("code_is_none", Severity::Check, message));
    }
}

fn times(ledger: &FoldContext<'_>, findings: &mut Vec<Finding>) {
    let mut times: Vec<UtcMillis> = ledger.slots.items().iter().map(|item| item.at).collect();
    times.sort_unstable();
    let Some(middle) = times.get(times.len() / 2) else { return };
    let far = times.iter().filter(|at| at.since(*middle).saturating_abs() > DRAWN_AROUND_MILLIS).count();
    if far > 0 {
        let message = message!("finding-far-from-the-others", count = far);
        findings.push(Finding::new("far_from_the_others", Severity::Note, message));
    }
}

/// Returns the id of why part of an entry is not used, if so.
fn of_item(item: &Item<'_>) -> Option<&'static str> {
    let says = &item.entry.body.says;
    match says {
        Statement::Cover { bolts_in_place, bolts_required, .. }
            if (*bolts_in_place).max(*bolts_required) > MOST_BOLTS =>
        {
            Some("finding-unused-bolts")
        }
        Statement::OutageTable { rows, .. } if !table_can_be(rows) => Some("finding-unused-rows"),
        _ => says.amounts().find_map(Amount::unused).map(|why| match why {
            Unused::CannotBe => "finding-unused-cannot-be",
            Unused::DoesNotFit => "finding-unused-does-not-fit",
            Unused::NotRead => "finding-unused-not-read",
        }),
    }
}
