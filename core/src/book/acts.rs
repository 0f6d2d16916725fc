//! Drafts for a person's decisions about a displayed record: settle, withdraw, override, sign fit to unload,
//! release.
//!
//! Each function takes the view on which the decision was based, so that the entry names exactly what the
//! person saw.

use super::{BookError, Draft};
use crate::entry::coded::{Coded, OverrideReason};
use crate::entry::vocabulary::{CarLoad, Gate, StepOutcome};
use crate::entry::{EntryError, Statement};
use crate::ids::EntryId;
use crate::view::{Blocker, EndedDisagreement, VisitView};
use crate::{Arg, Joint, Message, message};

fn refuse<T>(why: String, says: Message) -> Result<T, BookError> {
    Err(EntryError::NotAllowed(why, says).into())
}

/// Returns the items that nobody overrode, in a log's words and as sentences, or `None` if there are none.
fn open_items(blockers: &[Blocker]) -> Option<(String, Arg)> {
    let open: Vec<&Blocker> = blockers.iter().filter(|blocker| blocker.passed_over.is_none()).collect();
    if open.is_empty() {
        return None;
    }
    let codes: Vec<&str> = open.iter().map(|blocker| blocker.code.as_str()).collect();
    let items = Arg::list(Joint::Sentences, open.iter().map(|blocker| blocker.missing.clone()));
    Some((format!("still open, and not overridden with a reason: {}", codes.join(" · ")), items))
}

impl Draft {
    /// Returns a draft that settles the open disagreement containing `keeps` in favour of that entry.
    ///
    /// # Errors
    /// [`BookError::Entry`] if the entry is in no open disagreement, or no reason is given.
    pub fn settling(view: &VisitView, keeps: EntryId, why: &str) -> Result<Draft, BookError> {
        let Some(disagreement) = view.disagreements.iter().find(|d| d.entries.contains(&keeps)) else {
            let why = format!("entry {} is in no open disagreement", keeps.short());
            return refuse(why, Message::new("refusal-not-in-disagreement"));
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
            let why = format!("entry {} is in no settlement that stands", entry.short());
            return refuse(why, Message::new("refusal-not-resolved"));
        };
        Draft::withdrawing(view, settlement, why)
    }

    /// Returns a draft that withdraws an entry without a replacement.
    ///
    /// # Errors
    /// [`BookError::Entry`] if the record has no such entry.
    pub fn withdrawing(view: &VisitView, entry: EntryId, why: &str) -> Result<Draft, BookError> {
        let Some(line) = view.history.iter().find(|line| line.said.entry == entry) else {
            let why = format!("entry {} is not in this record", entry.short());
            return refuse(why, Message::new("refusal-not-in-record"));
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
        let mut items = view.blockers.iter().chain(&view.unloading.blockers);
        let Some(blocker) = items.find(|blocker| blocker.code == code.trim()) else {
            let why = format!("\"{code}\" is no open item now");
            return refuse(why, Message::new("refusal-no-open-item"));
        };
        let says = Statement::PassedOver { blocker: blocker.code.clone(), seen: blocker.evidence.clone() };
        Ok(Draft::of(says).because(why))
    }

    /// Returns a draft that overrides several items of one gate in one act, for one reason: a code of
    /// [`OverrideReason`], or words. Each item is open again if the record changes later.
    ///
    /// # Errors
    /// [`BookError::Entry`] if no item is named, one of them is not open at this gate now, or no reason is given.
    pub fn overriding(
        view: &VisitView,
        gate: Gate,
        codes: &[String],
        reason: &str,
    ) -> Result<Draft, BookError> {
        let reason = Coded::<OverrideReason>::typed(reason.trim());
        if reason.is_empty() {
            return Err(EntryError::NoReason.into());
        }
        let at_gate = match gate {
            Gate::Unload => &view.unloading.blockers,
            Gate::Release => &view.blockers,
        };
        let (mut items, mut seen): (Vec<String>, Vec<EntryId>) = (Vec::new(), Vec::new());
        for code in codes {
            let Some(blocker) = at_gate.iter().find(|blocker| blocker.code == code.trim()) else {
                let why = format!("\"{code}\" is no open item now");
                return refuse(why, Message::new("refusal-no-open-item"));
            };
            if !items.contains(&blocker.code) {
                items.push(blocker.code.clone());
                seen.extend(&blocker.evidence);
            }
        }
        if items.is_empty() {
            return refuse("no item is named".to_owned(), Message::new("refusal-no-open-item"));
        }
        seen.sort_unstable();
        seen.dedup();
        Ok(Draft::of(Statement::Overridden { gate, items, seen, reason }))
    }

    /// Returns a draft that signs the stay as fit to unload.
    ///
    /// # Errors
    /// [`BookError::Entry`] naming the items that are open and not overridden, or if the stay's procedure has no
    /// such gate.
    pub fn clearing(view: &VisitView) -> Result<Draft, BookError> {
        if !view.unloading.asked {
            let why = "the procedure of this record has no gate before unloading".to_owned();
            return refuse(why, Message::new("refusal-no-gate"));
        }
        match open_items(&view.unloading.blockers) {
            None => Ok(Draft::of(Statement::FitToUnload {})),
            Some((why, items)) => refuse(why, message!("refusal-not-fit-to-unload", items = items)),
        }
    }

    /// Returns a draft that releases the car.
    ///
    /// # Errors
    /// [`BookError::Entry`] naming the blockers that were not passed over, or if the car is to go otherwise than it
    /// was said to.
    pub fn releasing(view: &VisitView, as_residue: bool) -> Result<Draft, BookError> {
        if let Some(outcome) = &view.leaving.outcome
            && as_residue != (outcome.value.load == CarLoad::Residue)
        {
            let says = message!("refusal-released-otherwise", load = outcome.value.load.term());
            return refuse(format!("it goes {}", outcome.value.load), says);
        }
        match open_items(&view.blockers) {
            None => Ok(Draft::of(Statement::Released { as_residue })),
            Some((why, items)) => refuse(why, message!("refusal-still-open", items = items)),
        }
    }

    /// Returns a draft that closes a step as done, not right, or skipped; for a skipped step the note is the
    /// reason.
    pub fn of_step(step: &str, outcome: StepOutcome, note: &str) -> Draft {
        Draft::of(Statement::Step { step: step.to_owned(), outcome, note: note.to_owned() })
    }
}
