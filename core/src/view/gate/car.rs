//! Blockers of the car as a whole: empty proof, final pressure, tally, cover, seals, sign, holds,
//! disagreements, defects.

use super::super::VisitParts;
use super::super::fittings::FittingSlots;
use super::super::fold_context::FoldContext;
use super::super::seals::CoverState;
use super::super::story::{seal_place, spoken_slot};
use super::super::tally::speaks_for_liquid;
use super::{Blocker, BlockerKind};
use crate::entry::vocabulary::{ClosureState, Fitting, Protection, SealPlace, StepOutcome};
use crate::entry::{Slot, Statement, under};
use crate::procedure::{Basis, Source};

pub(super) fn blockers(ledger: &FoldContext<'_>, parts: &VisitParts<'_>, blockers: &mut Vec<Blocker>) {
    unreadable(ledger, blockers);
    opened(ledger, blockers);
    empty(ledger, blockers);
    final_pressure(ledger, blockers);
    tally(ledger, parts, blockers);
    cover(ledger, parts, blockers);
    seals(ledger, parts, blockers);
    blue_sign(ledger, parts, blockers);
    for hold in parts.holds.iter().filter(|hold| hold.open) {
        let missing = format!("A hold stands: {}.", hold.because.trim_end_matches('.'));
        let slot = Slot::hold(&hold.id);
        blockers.push(Blocker::new(
            ledger,
            (BlockerKind::HoldOpen, &hold.id.short()),
            missing,
            Basis::practice(),
            &slot,
        ));
    }
    for slot in ledger.slots.disagreements() {
        let missing = format!("Two records differ and nobody settled it: {}.", spoken_slot(slot));
        let basis = Basis::this_record("a record that contradicts itself proves nothing");
        blockers.push(Blocker::new(ledger, (BlockerKind::Disagreement, slot), missing, basis, slot));
    }
    for defect in parts.defects.iter().filter(|defect| defect.lacks_authority()) {
        if defect.visit.is_some_and(|visit| !ledger.visits.contains(&visit)) {
            continue; // an earlier visit's: a finding, not a blocker of this one
        }
        let missing = format!(
            "\u{201c}{}\u{201d} moves only with an authority's approval, and none with a name and a date is recorded.",
            defect.what
        );
        let basis = Basis::law(Source::read("49 CFR 174.50"));
        let slot = Slot::defect(&defect.id);
        let authority = Slot::authority(&defect.id);
        let of = (BlockerKind::AuthorityMissing, &*defect.id.short());
        let blocker =
            Blocker::new(ledger, of, missing, basis, &slot).standing_on(ledger, [authority.as_str()]);
        blockers.push(Blocker { fitting: defect.fitting, ..blocker });
    }
}

/// A hold may be in what cannot be read.
fn unreadable(ledger: &FoldContext<'_>, blockers: &mut Vec<Blocker>) {
    if ledger.ctx.unreadable > 0 {
        let missing = super::super::findings::unreadable(ledger.ctx.unreadable);
        let basis = Basis::this_record("a hold may stand in what cannot be read");
        let of = (BlockerKind::UnreadableEntries, "");
        blockers.push(Blocker::new(ledger, of, missing, basis, &Slot::OPENED));
    }
}

fn opened(ledger: &FoldContext<'_>, blockers: &mut Vec<Blocker>) {
    if !ledger.all_claim(&Slot::OPENED, |says| matches!(says, Statement::Opened(_))) {
        let missing = "The entry that opened the visit is not here: which car this is, is not known.";
        let basis = Basis::this_record("everything is filed under the car's number");
        blockers.push(Blocker::new(
            ledger,
            (BlockerKind::NotOpened, ""),
            missing.to_owned(),
            basis,
            &Slot::OPENED,
        ));
    }
}

fn empty(ledger: &FoldContext<'_>, blockers: &mut Vec<Blocker>) {
    const SLOT: Slot = Slot::EMPTY_DECISION;
    let basis = || {
        Basis::law(Source::read(
            "49 CFR 173.29(a) with interpretation 14-0024: unloaded to the maximum extent practicable",
        ))
    };
    if !ledger.all_claim(&SLOT, |says| matches!(says, Statement::EmptyDecision { accepted: true, .. })) {
        let missing = match ledger.slots.latest(&SLOT) {
            None => "Nobody decided that the car is empty of liquid.",
            Some(_) => "It was not accepted that the car is empty of liquid.",
        };
        let kind = BlockerKind::EmptyNotAccepted;
        blockers.push(Blocker::new(ledger, (kind, ""), missing.to_owned(), basis(), &SLOT));
        return;
    }
    let decided = ledger.slots.live(&SLOT).map(|item| item.claim_place).max();
    for slot in ledger.slots.names_under(under::EMPTY).filter(|slot| *slot != &*SLOT) {
        let liquid_since = ledger.slots.live(slot).any(|item| {
            matches!(item.claim, Some(Statement::EmptySign { sign, seen }) if speaks_for_liquid(*sign, *seen))
                && decided.is_some_and(|decided| item.claim_place > decided)
        });
        if liquid_since {
            let missing = format!(
                "After the car was taken as empty, a sign of liquid was recorded ({}): decide again.",
                spoken_slot(slot).to_lowercase()
            );
            let blocker = Blocker::new(ledger, (BlockerKind::EmptyContradicted, ""), missing, basis(), &SLOT);
            blockers.push(blocker.standing_on(ledger, [slot]));
            return;
        }
    }
}

fn final_pressure(ledger: &FoldContext<'_>, blockers: &mut Vec<Blocker>) {
    let read = ledger.all_claim(&Slot::FINAL_PRESSURE, |says| {
        // The slot already says final, pressure, and at the car.
        matches!(says, Statement::Reading(r) if r.amount.value.is_some() && !r.instrument.trim().is_empty())
    });
    if read {
        return;
    }
    let missing = match ledger.slots.latest(&Slot::FINAL_PRESSURE).map(|item| item.claim) {
        Some(Some(Statement::Reading(r))) if r.instrument.trim().is_empty() => {
            "The final pressure does not say on which instrument it was read.".to_owned()
        }
        Some(_) => "The final pressure cannot be read as a number.".to_owned(),
        None => {
            let elsewhere: Vec<String> = ledger
                .slots
                .names_under(under::FINAL_PRESSURES)
                .filter_map(|slot| slot.rsplit('/').next())
                .map(|place| place.replace('_', " "))
                .collect();
            if elsewhere.is_empty() {
                "The final pressure was not read at the car.".to_owned()
            } else {
                format!(
                    "The final pressure was read at the {} only, not on an instrument at the car.",
                    elsewhere.join(" and the ")
                )
            }
        }
    };
    let kind = BlockerKind::FinalPressureMissing;
    blockers.push(Blocker::new(ledger, (kind, ""), missing, Basis::practice(), &Slot::FINAL_PRESSURE));
}

fn tally(ledger: &FoldContext<'_>, parts: &VisitParts<'_>, blockers: &mut Vec<Blocker>) {
    for item in &parts.tally.out {
        let slot = Slot::item(&item.item);
        let by = item.out.as_ref().map_or(String::new(), |said| format!(" (out: {})", said.signature()));
        let missing = format!("{} has not come back{by}.", item.item);
        let of = item.item.trim().to_lowercase();
        let blocker = Blocker::new(ledger, (BlockerKind::ItemOut, &of), missing, Basis::practice(), &slot);
        blockers.push(Blocker { fitting: item.fitting, ..blocker });
    }
}

fn cover(ledger: &FoldContext<'_>, parts: &VisitParts<'_>, blockers: &mut Vec<Blocker>) {
    const SLOT: Slot = Slot::COVER;
    let basis = || Basis::law(Source::from_memory("49 CFR 173.31(d)(1), protective housing secured"));
    let mut block = |kind: BlockerKind, missing: String| {
        blockers.push(Blocker::new(ledger, (kind, ""), missing, basis(), &SLOT));
    };
    let states: Vec<Option<CoverState>> =
        ledger.claims(&SLOT).into_iter().map(|claim| claim.and_then(CoverState::read)).collect();
    if states.is_empty() {
        block(BlockerKind::CoverNotClosed, "Nobody recorded the housing cover as closed.".to_owned());
        return;
    }
    let all = |passes: fn(&CoverState) -> bool| states.iter().all(|s| s.as_ref().is_some_and(passes));
    if !all(|cover| cover.closed) {
        block(BlockerKind::CoverNotClosed, "The housing cover is recorded open.".to_owned());
    } else if let Some(work) = work_under_closed_cover(ledger, parts) {
        block(
            BlockerKind::CoverNotClosed,
            format!("The housing cover was last recorded closed before the last work under it ({work})."),
        );
    }
    if !all(|cover| cover.pinned) {
        block(BlockerKind::CoverNotPinned, "The pin of the housing cover is not in.".to_owned());
    }
    if !all(|cover| cover.bolts_in_place >= cover.bolts_required) {
        let short = states.iter().flatten().find(|cover| cover.bolts_in_place < cover.bolts_required);
        let missing = short.map_or("The cover bolts were not counted.".to_owned(), |cover| {
            format!("{} of {} cover bolts are in place.", cover.bolts_in_place, cover.bolts_required)
        });
        block(BlockerKind::CoverBolts, missing);
    }
}

/// The last work under the housing, if it came after the cover was last recorded.
fn work_under_closed_cover(ledger: &FoldContext<'_>, parts: &VisitParts<'_>) -> Option<String> {
    let closed = ledger.slots.live(&Slot::COVER).map(|item| item.claim_place).max()?;
    let mut slots: Vec<Slot> = Vec::new();
    for fitting in parts.counting {
        let of = FittingSlots::of(*fitting);
        slots.extend([of.valve, of.closure, of.line]);
    }
    let last = slots
        .iter()
        .flat_map(|slot| ledger.slots.stood(slot))
        .max_by_key(|item| item.claim_place)
        .filter(|item| item.claim_place > closed)?;
    Some(ledger.sentence(last).trim_end_matches('.').to_owned())
}

/// No rule is known that asks for a seal on an empty car; it protects whoever released it, and so a
/// seal that is put on is recorded in full (common practice, no source).
fn seals(ledger: &FoldContext<'_>, parts: &VisitParts<'_>, blockers: &mut Vec<Blocker>) {
    let mut applied = false;
    for seal in parts.seals {
        let slot = Slot::seal(seal.place);
        let on = ledger.slots.live(&slot).any(|item| {
            matches!(item.claim, Some(Statement::Seal(s)) if s.event == crate::entry::vocabulary::SealEvent::Applied)
        });
        applied |= on;
        if !seal.lacks.is_empty() {
            let missing = format!("The seal {} lacks {}.", seal_place(seal.place), seal.lacks.join(" and "));
            let of = (BlockerKind::SealIncomplete, seal.place.word());
            blockers.push(Blocker::new(ledger, of, missing, Basis::practice(), &slot));
        }
    }
    let skipped = ledger.all_claim(&Slot::step("seal"), |says| {
        matches!(says, Statement::Step { outcome: StepOutcome::Skipped, note, .. } if !note.trim().is_empty())
    });
    if !applied && !skipped {
        let missing = "No seal was put on, and nobody said why not.".to_owned();
        let basis = Basis::practice();
        let of = (BlockerKind::SealMissing, "");
        blockers.push(Blocker::new(ledger, of, missing, basis, &Slot::seal(SealPlace::HousingPin)));
    }
}

/// The blue sign stays up until all closures are secured (49 CFR 174.67(a), read).
fn blue_sign(ledger: &FoldContext<'_>, parts: &VisitParts<'_>, blockers: &mut Vec<Blocker>) {
    let slot = Slot::protection(Protection::BlueSign);
    let is_down = |says: &Statement| matches!(says, Statement::Protection { set: false, .. });
    let down = ledger
        .slots
        .live(&slot)
        .filter(|item| item.claim.is_some_and(is_down))
        .map(|item| item.claim_place)
        .max();
    let Some(down) = down else { return };
    let late = parts.counting.iter().find(|fitting| !closed_before(ledger, **fitting, down));
    if let Some(fitting) = late {
        let missing = format!(
            "The blue sign was taken down before the {} was closed; it stays up until every closure is secured.",
            fitting.name()
        );
        let basis = Basis::transloading(Source::read("49 CFR 174.67(a)"), ledger.receiver);
        let closures: Vec<Slot> =
            parts.counting.iter().map(|fitting| FittingSlots::of(*fitting).closure).collect();
        let blocker = Blocker::new(ledger, (BlockerKind::BlueSignDownEarly, ""), missing, basis, &slot)
            .standing_on(ledger, closures.iter().map(Slot::as_str));
        blockers.push(blocker);
    }
}

/// Whether the closure is tool-tight and was so before the entry at `place`, and its line was off.
fn closed_before(ledger: &FoldContext<'_>, fitting: Fitting, place: usize) -> bool {
    let slots = FittingSlots::of(fitting);
    let tight = ledger.all_claim(&slots.closure, |says| {
        matches!(says, Statement::Closure { state: ClosureState::ToolTight, .. })
    });
    let none_later = |slot: &str| ledger.slots.stood(slot).all(|item| item.claim_place < place);
    tight && none_later(&slots.closure) && none_later(&slots.line)
}
