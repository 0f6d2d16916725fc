//! Leaks: where one was found, what was done, and whether it was checked tight again.
//!
//! A recorded leak stops the job until it was checked tight again. What is heard while listening at a valve is in
//! `fittings`; a leak is found with soap, a detector, the eye or the nose.

use serde::Serialize;

use super::findings::Found;
use super::fold_context::{Attested, Attribution, FoldContext};
use super::slots::Item;
use crate::entry::coded::Coded;
use crate::entry::vocabulary::{Fitting, LeakAt};
use crate::entry::{Leak, Slot, Statement, under};
use crate::ids::LeakId;
use crate::{Message, message};

/// A leak.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct LeakView {
    /// The id of the leak.
    pub id: LeakId,
    /// Where, as a code or as typed.
    pub at: Coded<LeakAt>,
    /// The fitting, if it was at one.
    pub fitting: Option<Fitting>,
    /// What was done about it.
    pub action: String,
    /// The attribution of the entry that told of it.
    pub said: Attribution,
    /// Whether it still stops the job.
    pub open: bool,
    /// Whether it was tight when it was checked last.
    pub checked: Option<Attested<bool>>,
}

/// Returns all leaks in the order in which they were recorded.
pub(super) fn fold(ledger: &FoldContext<'_>) -> Vec<LeakView> {
    let leaks = told(ledger).into_iter().map(|(item, leak)| LeakView {
        id: leak.leak,
        at: leak.at.clone(),
        fitting: leak.fitting,
        action: leak.action.trim().to_owned(),
        said: ledger.said(item),
        open: is_open(ledger, leak.leak),
        checked: ledger.known(&Slot::leak_checked(&leak.leak), |says| match says {
            Statement::LeakChecked(checked) => Some(checked.tight),
            _ => None,
        }),
    });
    leaks.collect()
}

/// Returns the entries that tell of each leak last, in order.
fn told<'l, 'a>(ledger: &'l FoldContext<'a>) -> Vec<(&'l Item<'a>, &'a Leak)> {
    let last = |slot: &str| {
        let told = ledger.slots.stood(slot).filter_map(|item| match item.claim {
            Some(Statement::Leak(leak)) => Some((item, leak)),
            _ => None,
        });
        told.max_by_key(|(item, _)| item.claim_place)
    };
    let mut leaks: Vec<_> = ledger.slots.names_under(under::LEAKS).filter_map(last).collect();
    leaks.sort_by_key(|(item, _)| item.place);
    leaks
}

/// A leak is over when everybody who checked it last found it tight.
fn is_open(ledger: &FoldContext<'_>, leak: LeakId) -> bool {
    let is_tight = |says: &Statement| matches!(says, Statement::LeakChecked(checked) if checked.tight);
    !ledger.all_claim(&Slot::leak_checked(&leak), is_tight)
}

/// Returns the entries of the leaks that stop a step at this fitting: those found there, and those at no fitting.
pub(super) fn stopping<'l, 'a>(ledger: &'l FoldContext<'a>, fitting: Option<Fitting>) -> Vec<&'l Item<'a>> {
    let open = told(ledger).into_iter().filter(|(_, leak)| is_open(ledger, leak.leak));
    let here = open.filter(|(_, leak)| leak.fitting.is_none() || leak.fitting == fitting);
    here.map(|(item, _)| item).collect()
}

impl LeakView {
    /// Returns in a few words that it is a leak, and where.
    pub fn briefly(&self) -> Message {
        message!("list-leak", at = self.message())
    }

    /// Returns where it is.
    pub(super) fn message(&self) -> Message {
        match self.fitting {
            Some(fitting) => message!("leak-at-fitting", at = self.at.message(), fitting = fitting.term()),
            None => self.at.message(),
        }
    }
}

/// Points out leaks that stop the job.
pub(super) fn findings(leaks: &[LeakView], found: &mut Found<'_>) {
    for leak in leaks.iter().filter(|leak| leak.open) {
        found.check("leak_open", message!("finding-leak-open", leak = leak.message()));
    }
}
