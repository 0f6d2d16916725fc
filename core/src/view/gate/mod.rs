//! The release gate: what is missing before the car may go, who asks for it, and what was passed over.
//!
//! A blocker is computed from the record and from nothing else. A person may pass one over, with a
//! reason and under their name; the record shows that for ever. The gate says what was recorded and
//! what it implies. It does not declare the car safe.

mod car;
mod fittings;

use serde::Serialize;

use super::VisitParts;
use super::ledger::{Known, Ledger, Said};
use super::slots::differ;
use super::story::spoken_code;
use crate::entry::Statement;
use crate::entry::vocabulary::Fitting;
use crate::ids::EntryId;
use crate::procedure::{AskedBy, Basis};
use crate::units::{Finding, Severity};

/// A person's word that a blocker was seen and passed over.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PassedOver {
    /// The blocker's code.
    pub blocker: String,
    /// The code in words.
    pub spoken: String,
    /// Why, in the person's words.
    pub why: String,
    /// Who and when.
    pub said: Said,
    /// Whether this word still stands: given with a reason, not withdrawn, and the record has not
    /// said anything else since.
    pub stands: bool,
    /// Why it does not stand, when it does not.
    pub fallen: Option<&'static str>,
    /// Whether the blocker is still there.
    pub blocks_still: bool,
}

/// Something that is missing before release.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Blocker {
    /// Stable code with its fitting, slot or name, such as `closure_not_tool_tight.liquid_a`.
    pub code: String,
    /// What is missing, in a sentence.
    pub missing: String,
    /// Who asks for it.
    pub asked_by: AskedBy,
    /// On what ground, in words.
    pub source: String,
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
    pub(super) fn new(
        ledger: &Ledger<'_>,
        code: String,
        missing: String,
        basis: Basis,
        slot: &str,
    ) -> Blocker {
        Blocker {
            code,
            missing,
            asked_by: basis.asked_by,
            source: basis.source.shown(),
            slot: slot.to_owned(),
            fitting: None,
            evidence: ledger.evidence([slot]),
            passed_over: None,
        }
    }

    pub(super) fn at(mut self, fitting: Fitting) -> Blocker {
        self.fitting = Some(fitting);
        self
    }

    pub(super) fn standing_on<'s>(
        mut self,
        ledger: &Ledger<'_>,
        slots: impl IntoIterator<Item = &'s str>,
    ) -> Blocker {
        self.evidence.extend(ledger.evidence(slots));
        self.evidence.sort_unstable();
        self.evidence.dedup();
        self
    }
}

/// Where release stands.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ReleaseView {
    /// Whether the car was released, and whether as residue.
    pub released: Option<Known<bool>>,
    /// Blockers nobody passed over.
    pub open: usize,
    /// Blockers that were passed over.
    pub passed_over: usize,
    /// Always shown beside it.
    pub note: &'static str,
}

/// Always shown beside a release.
pub const NOTE: &str = "The tool records what people did and said; it does not declare the car safe. Local codes, the owner's instructions and licensed practice come first.";

/// All blockers, and every word of passing over ever given.
pub(super) fn fold(ledger: &Ledger<'_>, parts: &VisitParts<'_>) -> (Vec<Blocker>, Vec<PassedOver>) {
    let mut blockers = Vec::new();
    fittings::blockers(ledger, parts, &mut blockers);
    car::blockers(ledger, parts, &mut blockers);
    let given = passed_over(ledger, &blockers);
    for blocker in &mut blockers {
        blocker.passed_over = given.iter().rfind(|word| word.stands && word.blocker == blocker.code).cloned();
    }
    (blockers, given)
}

fn passed_over(ledger: &Ledger<'_>, blockers: &[Blocker]) -> Vec<PassedOver> {
    let mut words = Vec::new();
    for item in ledger.slots.items() {
        let Statement::PassedOver { blocker: code, seen } = &item.entry.body.says else { continue };
        let blocker = blockers.iter().find(|blocker| blocker.code == *code);
        let why = item.entry.body.why.trim().to_owned();
        let fallen = if !matches!(item.fate, super::slots::Fate::Live | super::slots::Fate::MovedOn) {
            Some("it was taken back")
        } else if why.is_empty() {
            Some("no reason was given")
        } else if blocker.is_some_and(|blocker| !still_as_seen(ledger, seen, &blocker.evidence)) {
            Some("the record says something else since; look again")
        } else {
            None
        };
        words.push(PassedOver {
            blocker: code.clone(),
            spoken: spoken_code(code),
            why,
            said: ledger.said(item),
            stands: fallen.is_none(),
            fallen,
            blocks_still: blocker.is_some(),
        });
    }
    words
}

/// Whether all that a blocker stands on now was seen, or says the same as something that was seen.
fn still_as_seen(ledger: &Ledger<'_>, seen: &[EntryId], evidence: &[EntryId]) -> bool {
    seen.is_empty()
        || evidence.iter().all(|id| {
            seen.contains(id)
                || ledger.slots.item(*id).is_some_and(|new| {
                    seen.iter().filter_map(|id| ledger.slots.item(*id)).any(|old| {
                        old.entry.body.says.slot() == new.entry.body.says.slot()
                            && !differ(old.claim, new.claim)
                    })
                })
        })
}

pub(super) fn release(ledger: &Ledger<'_>, blockers: &[Blocker], findings: &mut Vec<Finding>) -> ReleaseView {
    let released = ledger.known("released", |says| match says {
        Statement::Released { as_residue } => Some(*as_residue),
        _ => None,
    });
    let open: Vec<&Blocker> = blockers.iter().filter(|blocker| blocker.passed_over.is_none()).collect();
    if released.is_some() && !open.is_empty() {
        let codes: Vec<String> = open.iter().map(|blocker| spoken_code(&blocker.code)).collect();
        findings.push(Finding::new(
            "released_over_open_blockers",
            Severity::Alarm,
            format!("Released while this was open and not passed over: {}.", codes.join("; ")),
        ));
    }
    ReleaseView { released, open: open.len(), passed_over: blockers.len() - open.len(), note: NOTE }
}
