//! The two gates of a stay, fit to unload and fit to release: what is missing, who asks for it, and what was
//! overridden.
//!
//! What is asked stands in the procedure as data (`procedure::GateRule`); `rules` goes through it, `conditions` and
//! `fittings` hold an evaluator for each condition, and `places` says what came after what. An item is computed from
//! the record and from nothing else. A person may override items, with a reason and under their name; the record
//! shows that for ever. A gate says what was recorded and what it implies. It does not declare the car safe.

mod conditions;
mod fittings;
mod overrides;
mod places;
mod rules;
mod troubles;

use serde::Serialize;

use super::fold_context::{Attested, Attribution, FoldContext};
use crate::entry::vocabulary::{Fitting, Gate};
use crate::entry::{Slot, Statement};
use crate::ids::EntryId;
use crate::procedure::{AskedBy, Basis, BlockerKind};
use crate::units::{Finding, Severity};
use crate::{Message, message};

pub use overrides::PassedOver;
pub(super) use overrides::passed_over;
pub(super) use rules::{AtGate, Facts, at_gate};

/// Something that is missing at a gate.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Blocker {
    /// What kind of thing is missing.
    #[serde(skip)]
    pub kind: BlockerKind,
    /// Stable code with its fitting, slot or name, such as `closure_not_tool_tight.liquid_a`.
    pub code: String,
    /// What is missing, in a sentence.
    pub missing: Message,
    /// Who asks for it.
    pub asked_by: AskedBy,
    /// On what ground, in words.
    pub source: Message,
    /// The slot in which it is missing.
    pub slot: String,
    /// At which fitting.
    pub fitting: Option<Fitting>,
    /// The live entries it stands on. Whoever passes it over puts these into `seen`.
    pub evidence: Vec<EntryId>,
    /// Who passed it over, where that stands.
    pub passed_over: Option<PassedOver>,
}

impl Blocker {
    /// `of` is the fitting, slot or name it is about; empty where there is one of the kind.
    pub(super) fn new(
        ledger: &FoldContext<'_>,
        (kind, of): (BlockerKind, &str),
        missing: impl Into<Message>,
        basis: Basis,
        slot: &str,
    ) -> Blocker {
        let code = if of.is_empty() { kind.to_string() } else { format!("{kind}.{of}") };
        Blocker {
            kind,
            code,
            missing: missing.into(),
            asked_by: basis.asked_by,
            source: basis.source.message(),
            slot: slot.to_owned(),
            fitting: None,
            evidence: ledger.evidence([slot]),
            passed_over: None,
        }
    }

    pub(super) fn standing_on<'s>(
        mut self,
        ledger: &FoldContext<'_>,
        slots: impl IntoIterator<Item = &'s str>,
    ) -> Blocker {
        self.evidence.extend(ledger.evidence(slots));
        self.evidence.sort_unstable();
        self.evidence.dedup();
        self
    }
}

/// Something that a gate asks for and that is there.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Met {
    /// The kind of the item that it would be.
    pub item: BlockerKind,
    /// What is there, in a few words.
    pub what: Message,
    /// The entry that met it last, where it is one that can be named.
    pub by: Option<Attribution>,
}

/// Where the gate before unloading stands. Once unloading began, this is how the gate stood then; only overriding
/// is still taken into account.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct UnloadingView {
    /// Whether the stay's procedure has this gate.
    pub asked: bool,
    /// Who signed that the stay is fit to unload.
    pub fit: Option<Attested<bool>>,
    /// The entry with which unloading began.
    pub began: Option<Attribution>,
    /// What is missing, alarms first.
    pub blockers: Vec<Blocker>,
    /// What is there.
    pub met: Vec<Met>,
    /// Items nobody overrode.
    pub open: usize,
    /// Items that were overridden.
    pub passed_over: usize,
}

/// Where release stands.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct ReleaseView {
    /// Whether the car was released, and whether as residue.
    pub released: Option<Attested<bool>>,
    /// Blockers nobody passed over.
    pub open: usize,
    /// Blockers that were passed over.
    pub passed_over: usize,
    /// What the gate asks for and is there.
    pub met: Vec<Met>,
    /// Always shown beside it.
    pub note: Message,
}

/// The id of what is always shown beside a release: that the tool records, and does not declare a car safe.
pub const NOTE: &str = "gate-note";

/// The alarms that a gate itself raises. They speak of open items and are no items.
const OF_GATES: [&str; 2] = ["released_over_open_blockers", "fit_over_open_items"];

/// Puts each standing word of overriding to its item.
pub(super) fn answer(gate: Gate, blockers: &mut [Blocker], words: &[PassedOver]) {
    for blocker in blockers {
        let shared = overrides::is_shared(&blocker.code);
        let word = words.iter().rev().filter(|word| word.stands && word.blocker == blocker.code);
        blocker.passed_over =
            word.clone().find(|word| shared || word.gate.is_none_or(|given| given == gate)).cloned();
    }
}

fn open_items(blockers: &[Blocker]) -> Vec<&Blocker> {
    blockers.iter().filter(|blocker| blocker.passed_over.is_none()).collect()
}

/// Returns the place at which unloading began, if it did.
pub(super) fn began(ledger: &FoldContext<'_>) -> Option<usize> {
    places::Places::of(ledger).began()
}

/// What was pointed out before the stay reached a gate: gates' own alarms are no items of theirs.
pub(super) fn facing_gates<'f>(found: impl IntoIterator<Item = &'f Finding>) -> Vec<Finding> {
    found.into_iter().filter(|finding| !OF_GATES.contains(&finding.code.as_str())).cloned().collect()
}

/// Says where the gate before unloading stands, and raises the alarms about it: unloading began before anybody
/// signed, or over open items.
pub(super) fn unloading(
    ledger: &FoldContext<'_>,
    at_gate: AtGate,
    words: &[PassedOver],
    findings: &mut Vec<Finding>,
) -> UnloadingView {
    let AtGate { mut blockers, met } = at_gate;
    answer(Gate::Unload, &mut blockers, words);
    let fit = ledger.known(&Slot::FIT_TO_UNLOAD, |says| match says {
        Statement::FitToUnload {} => Some(true),
        _ => None,
    });
    let began = began(ledger).and_then(|place| ledger.slots.items().get(place));
    let open = open_items(&blockers);
    let mut alarm = |code: &str, message: Message| {
        findings.push(Finding::new(code, Severity::Alarm, message));
    };
    let cleared = ledger.slots.stood(&Slot::FIT_TO_UNLOAD).map(|item| item.claim_place).min();
    match began {
        Some(began) if cleared.is_none_or(|cleared| cleared > began.place) => {
            let message = message!("gate-unloading-not-cleared", entry = ledger.sentence_briefly(began));
            alarm("unloading_not_cleared", message);
        }
        _ => {}
    }
    if !open.is_empty() {
        if began.is_some() {
            let message = message!("finding-unloaded-over-open-items", count = open.len());
            alarm("unloaded_over_open_items", message);
        } else if fit.is_some() {
            alarm("fit_over_open_items", message!("finding-fit-over-open-items", count = open.len()));
        }
    }
    let open = open.len();
    UnloadingView {
        asked: true,
        fit,
        began: began.map(|item| ledger.said(item)),
        passed_over: blockers.len() - open,
        open,
        blockers,
        met,
    }
}

pub(super) fn release(
    ledger: &FoldContext<'_>,
    blockers: &[Blocker],
    met: Vec<Met>,
    findings: &mut Vec<Finding>,
) -> ReleaseView {
    let released = ledger.known(&Slot::RELEASED, |says| match says {
        Statement::Released { as_residue } => Some(*as_residue),
        _ => None,
    });
    let open = open_items(blockers);
    if released.is_some() && !open.is_empty() {
        let message = message!("finding-released-over-open-items", count = open.len());
        findings.push(Finding::new("released_over_open_blockers", Severity::Alarm, message));
    }
    ReleaseView {
        released,
        open: open.len(),
        passed_over: blockers.len() - open.len(),
        met,
        note: Message::new(NOTE),
    }
}
