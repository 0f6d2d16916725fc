//! Drafts for what a person does about a record as it is shown: settle, withdraw, pass over, release.
//!
//! Each takes the view it was decided on, so that the entry names exactly what the person saw.

use super::{BookError, Draft};
use crate::entry::vocabulary::StepOutcome;
use crate::entry::{EntryError, Statement};
use crate::ids::EntryId;
use crate::view::{EndedDisagreement, VisitView};

fn refuse<T>(why: String) -> Result<T, BookError> {
    Err(EntryError::NotAllowed(why).into())
}

impl Draft {
    /// Settles the open disagreement that `keeps` is part of in its favour.
    ///
    /// # Errors
    /// [`BookError::Entry`] when the entry is in no open disagreement, or no reason is given.
    pub fn settling(view: &VisitView, keeps: EntryId, why: &str) -> Result<Draft, BookError> {
        let Some(disagreement) = view.disagreements.iter().find(|d| d.entries.contains(&keeps)) else {
            return refuse(format!("entry {} is in no open disagreement", keeps.short()));
        };
        let draft = Draft::instead_of(Statement::Agreement { keeps }, disagreement.entries.clone(), why);
        Ok(Draft { slot: disagreement.slot.clone(), ..draft })
    }

    /// Takes a settlement back, so that the accounts it settled stand against each other again. `entry` is the
    /// settlement, or any account it settled.
    ///
    /// # Errors
    /// [`BookError::Entry`] when no settlement that stands is, or settled, that entry, or no reason is given.
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

    /// Takes an entry back; nothing stands in its place.
    ///
    /// # Errors
    /// [`BookError::Entry`] when the record has no such entry.
    pub fn withdrawing(view: &VisitView, entry: EntryId, why: &str) -> Result<Draft, BookError> {
        let Some(line) = view.history.iter().find(|line| line.said.entry == entry) else {
            return refuse(format!("entry {} is not in this record", entry.short()));
        };
        let draft = Draft::instead_of(Statement::Withdrawn {}, vec![entry], why);
        Ok(Draft { slot: line.slot.clone(), ..draft })
    }

    /// Passes over a blocker with a reason; it opens again should the record say something else later.
    ///
    /// # Errors
    /// [`BookError::Entry`] when nothing of that code blocks now.
    pub fn passing_over(view: &VisitView, code: &str, why: &str) -> Result<Draft, BookError> {
        let Some(blocker) = view.blockers.iter().find(|blocker| blocker.code == code.trim()) else {
            return refuse(format!("\"{code}\" does not speak against release now"));
        };
        let says = Statement::PassedOver { blocker: blocker.code.clone(), seen: blocker.evidence.clone() };
        Ok(Draft::of(says).because(why))
    }

    /// Releases the car.
    ///
    /// # Errors
    /// [`BookError::Entry`] naming what still speaks against it and was not passed over.
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

    /// Leaves a step as done, not right, or skipped (with the reason as its note).
    pub fn of_step(step: &str, outcome: StepOutcome, note: &str) -> Draft {
        Draft::of(Statement::Step { step: step.to_owned(), outcome, note: note.to_owned() })
    }
}
