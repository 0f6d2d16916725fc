//! The release gate: what is missing before the car may go, who asks for it, and what was passed over.
//!
//! A blocker is computed from the record and from nothing else. A person may pass one over, with a
//! reason and under their name; the record shows that for ever. The gate says what was recorded and
//! what it implies. It does not declare the car safe.

mod car;
mod fittings;

use std::collections::{HashMap, HashSet};
use std::fmt;

use serde::{Deserialize, Serialize};

use super::VisitParts;
use super::fold_context::{Attested, Attribution, FoldContext};
use super::story::spoken_code;
use crate::entry::vocabulary::{Fitting, words};
use crate::entry::{ClaimKey, Slot, Statement};
use crate::ids::EntryId;
use crate::procedure::{AskedBy, Basis};
use crate::units::{Finding, Severity, agree};

/// A person's word that a blocker was seen and passed over.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct PassedOver {
    /// The blocker's code.
    pub blocker: String,
    /// The code in words.
    pub spoken: String,
    /// Why, in the person's words.
    pub why: String,
    /// Who and when.
    pub said: Attribution,
    /// Whether this word still stands: given with a reason, not withdrawn, and the record has not
    /// said anything else since.
    pub stands: bool,
    /// Why it does not stand, when it does not.
    pub fallen: Option<&'static str>,
    /// Whether the blocker is still there.
    pub blocks_still: bool,
}

words!(
    /// What is missing. The words begin the codes of blockers, and are frozen with them.
    BlockerKind {
        /// A line was not recorded as taken off.
        LineConnected = "line_connected",
        /// A valve is not recorded shut.
        ValveNotShut = "valve_not_shut",
        /// Nobody listened since a valve was shut.
        ListenMissing = "listen_missing",
        /// Something passes.
        HissHeard = "hiss_heard",
        /// A closure is not tool-tight.
        ClosureNotToolTight = "closure_not_tool_tight",
        /// Too few threads are engaged, and it was not reported up.
        ThreadsOneOrLess = "threads_one_or_less",
        /// Entries cannot be read.
        UnreadableEntries = "unreadable_entries",
        /// The entry that opened the visit is not here.
        NotOpened = "not_opened",
        /// Nobody accepted that the car is empty of liquid.
        EmptyNotAccepted = "empty_not_accepted",
        /// A sign of liquid came after that.
        EmptyContradicted = "empty_contradicted",
        /// The final pressure was not read at the car.
        FinalPressureMissing = "final_pressure_missing",
        /// Something that was taken out is not back.
        ItemOut = "item_out",
        /// The housing cover is not closed.
        CoverNotClosed = "cover_not_closed",
        /// Its pin is not in.
        CoverNotPinned = "cover_not_pinned",
        /// Its bolts are not all in place.
        CoverBolts = "cover_bolts",
        /// Something about a seal was not recorded.
        SealIncomplete = "seal_incomplete",
        /// No seal was put on.
        SealMissing = "seal_missing",
        /// The blue sign came down too early.
        BlueSignDownEarly = "blue_sign_down_early",
        /// A hold stands.
        HoldOpen = "hold_open",
        /// Two accounts differ.
        Disagreement = "disagreement",
        /// An approval is missing.
        AuthorityMissing = "authority_missing",
    }
);

/// Something that is missing before release.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Blocker {
    /// What kind of thing is missing.
    #[serde(skip)]
    pub kind: BlockerKind,
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
    /// `of` is the fitting, slot or name it is about; empty where there is one of the kind.
    pub(super) fn new(
        ledger: &FoldContext<'_>,
        (kind, of): (BlockerKind, &str),
        missing: String,
        basis: Basis,
        slot: &str,
    ) -> Blocker {
        let code = if of.is_empty() { kind.to_string() } else { format!("{kind}.{of}") };
        Blocker {
            kind,
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
        ledger: &FoldContext<'_>,
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
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct ReleaseView {
    /// Whether the car was released, and whether as residue.
    pub released: Option<Attested<bool>>,
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
pub(super) fn fold(ledger: &FoldContext<'_>, parts: &VisitParts<'_>) -> (Vec<Blocker>, Vec<PassedOver>) {
    let mut blockers = Vec::new();
    fittings::blockers(ledger, parts, &mut blockers);
    car::blockers(ledger, parts, &mut blockers);
    let given = passed_over(ledger, &blockers);
    let standing: HashMap<&str, &PassedOver> =
        given.iter().filter(|word| word.stands).map(|word| (word.blocker.as_str(), word)).collect();
    for blocker in &mut blockers {
        blocker.passed_over = standing.get(blocker.code.as_str()).map(|word| (*word).clone());
    }
    (blockers, given)
}

fn passed_over(ledger: &FoldContext<'_>, blockers: &[Blocker]) -> Vec<PassedOver> {
    let mut words = Vec::new();
    let mut by_code: HashMap<&str, &Blocker> = HashMap::new();
    for blocker in blockers {
        by_code.entry(&blocker.code).or_insert(blocker);
    }
    let mut stands: HashMap<&str, Stands> = HashMap::new();
    for item in ledger.slots.items() {
        let Statement::PassedOver { blocker: code, seen } = &item.entry.body.says else { continue };
        let blocker = by_code.get(code.as_str()).copied();
        let why = item.entry.body.why.trim().to_owned();
        let fallen = if !matches!(item.fate, super::slots::Fate::Live | super::slots::Fate::MovedOn) {
            Some("it was taken back")
        } else if why.is_empty() {
            Some("no reason was given")
        } else if blocker.is_some_and(|blocker| {
            let stands = stands.entry(&blocker.code).or_insert_with(|| Stands::of(ledger, &blocker.evidence));
            !stands.was_seen(ledger, seen)
        }) {
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

/// What a blocker stands on, each claim once with the entries that make it.
struct Stands {
    claims: Vec<(String, Option<ClaimKey>, Vec<EntryId>)>,
}

impl Stands {
    fn of(ledger: &FoldContext<'_>, evidence: &[EntryId]) -> Stands {
        let mut known: HashMap<(String, Vec<u8>, u64), usize> = HashMap::new();
        let mut claims: Vec<(String, Option<ClaimKey>, Vec<EntryId>)> = Vec::new();
        for id in evidence {
            let Some(item) = ledger.slots.item(*id) else {
                claims.push((String::new(), None, vec![*id]));
                continue;
            };
            let slot = item.entry.body.says.slot();
            let Some(key) = item.claim.and_then(Statement::claim_key) else {
                claims.push((slot, None, vec![*id]));
                continue;
            };
            let one = (slot.clone(), key.words.clone(), key.number.map_or(u64::MAX, f64::to_bits));
            let at = *known.entry(one).or_insert_with(|| {
                claims.push((slot, Some(key), Vec::new()));
                claims.len() - 1
            });
            claims[at].2.push(*id);
        }
        Stands { claims }
    }

    /// Whether all of it was seen, or says the same as something that was seen.
    fn was_seen(&self, ledger: &FoldContext<'_>, seen: &[EntryId]) -> bool {
        if seen.is_empty() {
            return true;
        }
        let ids: HashSet<EntryId> = seen.iter().copied().collect();
        let mut said: HashMap<(String, Vec<u8>), Vec<Option<f64>>> = HashMap::new();
        for item in ids.iter().filter_map(|id| ledger.slots.item(*id)) {
            if let Some(key) = item.claim.and_then(Statement::claim_key) {
                said.entry((item.entry.body.says.slot(), key.words)).or_default().push(key.number);
            }
        }
        for numbers in said.values_mut() {
            numbers.sort_by(|a, b| a.unwrap_or(0.0).total_cmp(&b.unwrap_or(0.0)));
        }
        self.claims.iter().all(|(slot, key, made_by)| {
            made_by.iter().all(|id| ids.contains(id))
                || key.as_ref().is_some_and(|key| {
                    let numbers = said.get(&(slot.clone(), key.words.clone()));
                    numbers.is_some_and(|numbers| holds(numbers, key.number))
                })
        })
    }
}

/// Whether one of these numbers, ascending, is this one within rounding: its neighbours are asked.
fn holds(numbers: &[Option<f64>], number: Option<f64>) -> bool {
    let Some(number) = number else { return !numbers.is_empty() };
    let after = numbers.partition_point(|known| known.is_some_and(|known| known < number));
    let neighbours = numbers[after.saturating_sub(1)..].iter().take(2);
    neighbours.flatten().any(|known| agree(*known, number))
}

pub(super) fn release(
    ledger: &FoldContext<'_>,
    blockers: &[Blocker],
    findings: &mut Vec<Finding>,
) -> ReleaseView {
    let released = ledger.known(&Slot::RELEASED, |says| match says {
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
