//! Drafts for a person's decisions about a displayed record: settle, withdraw, pass over, release.
//!
//! Each function takes the view on which the decision was based, so that the entry names exactly what the
//! person saw.

use super::{BookError, Draft};
use crate::entry::vocabulary::StepOutcome;
use crate::entry::{EntryError, Statement};
use crate::ids::EntryId;
use crate::view::{EndedDisagreement, VisitView};

fn refuse<T>(why: String) -> Result<T, BookError> {
    Err(EntryError::NotAllowed(why).into())
}

impl Draft {
    /// Returns a draft that settles the open disagreement containing `keeps` in favour of that entry.
    ///
    /// # Errors
    /// [`BookError::Entry`] if the entry is in no open disagreement, or no reason is given.
    pub fn settling(view: &VisitView, keeps: EntryId, why: &str) -> Result<Draft, BookError> {
        let Some(disagreement) = view.disagreements.iter().find(|d| d.entries.contains(&keeps)) else {
            return refuse(format!("entry {} is in no open disagreement", keeps.short()));
        };
        let draft = Draft::instead_of(Statement::Agreement { keeps }, disagreement.entries.clone(), why);
        Ok(Draft { slot: disagreement.slot.clone(), ..draft })
    }

    /// Returns a draft that withdraws a settlement, which reopens its disagreement. `entry` is the settlement
    /// or any entry that it settled.
    ///
    /// # Errors
    /// [`BookError::Entry`] if the entry neither is a standing settlement nor was settled by one, or no
    /// reason is given.
    pub fn reopening(view: &VisitView, entry: EntryId, why: &str) -> Result<Draft, BookError> {
        let speaks_of = |ended: &&EndedDisagreement| {
            ended.reopened_by_withdrawing == Some(entry)
                || ended.claims.iter().any(|claim| claim.said.entry == entry)
        };
        let settled = view.ended_disagreements.iter().filter(speaks_of);
        let Some(settlement) = settled.filter_map(|ended| ended.reopened_by_withdrawing).next_back() else {
            return refuse(format!("entry {} is in no settlement that stands", entry.short()));
        };
        Draft::withdrawing(view, settlement, why)
    }

    /// Returns a draft that withdraws an entry without a replacement.
    ///
    /// # Errors
    /// [`BookError::Entry`] if the record has no such entry.
    pub fn withdrawing(view: &VisitView, entry: EntryId, why: &str) -> Result<Draft, BookError> {
        let Some(line) = view.history.iter().find(|line| line.said.entry == entry) else {
            return refuse(format!("entry {} is not in this record", entry.short()));
        };
        let draft = Draft::instead_of(Statement::Withdrawn {}, vec![entry], why);
        Ok(Draft { slot: line.slot.clone(), ..draft })
    }

    /// Returns a draft that passes over a blocker with a reason. The blocker returns if the record changes
    /// later.
    ///
    /// # Errors
    /// [`BookError::Entry`] if there is no blocker with this code now.
    pub fn passing_over(view: &VisitView, code: &str, why: &str) -> Result<Draft, BookError> {
        let Some(blocker) = view.blockers.iter().find(|blocker| blocker.code == code.trim()) else {
            return refuse(format!("\"{code}\" does not speak against release now"));
        };
        let says = Statement::PassedOver { blocker: blocker.code.clone(), seen: blocker.evidence.clone() };
        Ok(Draft::of(says).because(why))
    }

    /// Returns a draft that releases the car.
    ///
    /// # Errors
    /// [`BookError::Entry`] naming the blockers that were not passed over.
    pub fn releasing(view: &VisitView, as_residue: bool) -> Result<Draft, BookError> {
        let open: Vec<&str> = view
            .blockers
            .iter()
            .filter(|blocker| blocker.passed_over.is_none())
            .map(|blocker| blocker.missing.as_str())
            .collect();
        if open.is_empty() {
            Ok(Draft::of(Statement::Released { as_residue }))
        } else {
            refuse(format!("still open, and not passed over with a reason: {}", open.join(" · ")))
        }
    }

    /// Returns a draft that closes a step as done, not right, or skipped; for a skipped step the note is the
    /// reason.
    pub fn of_step(step: &str, outcome: StepOutcome, note: &str) -> Draft {
        Draft::of(Statement::Step { step: step.to_owned(), outcome, note: note.to_owned() })
    }
}
