//! Seals, photographs, the housing cover and the protections: what secures the car and documents it.

use serde::Serialize;

use super::defects::photos_about;
use super::fold_context::{Attested, Attribution, FoldContext};
use crate::Message;
use crate::entry::vocabulary::{PhotoOf, PhotoRef, Protection, SealEvent, SealPlace};
use crate::entry::{Seal, Slot, Statement};
use crate::ids::Digest;

/// A place for a seal.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct SealView {
    /// The place.
    pub place: SealPlace,
    /// The seal found on arrival.
    pub found: Option<Attested<Seal>>,
    /// The seal last applied or removed here.
    pub now: Option<Attested<Seal>>,
    /// The photographs that belong to it.
    pub photos: Vec<Digest>,
    /// What the record of an applied seal still lacks, in words.
    pub lacks: Vec<Message>,
    /// Whether the seal found was replaced by another one here.
    pub replaced: bool,
}

/// A photograph.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct PhotoView {
    /// The digest, length and media type of the photograph's bytes.
    pub photo: PhotoRef,
    /// The object that the photograph shows.
    pub of: PhotoOf,
    /// The slot that the photograph belongs to; empty if there is none.
    pub about: String,
    /// The entry's attribution.
    pub said: Attribution,
}

/// The housing cover.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct CoverState {
    /// Whether the cover is closed.
    pub closed: bool,
    /// Whether the pin is in place.
    pub pinned: bool,
    /// The number of bolts in place.
    pub bolts_in_place: u16,
    /// The number of bolts required.
    pub bolts_required: u16,
}

impl CoverState {
    pub(super) fn read(says: &Statement) -> Option<CoverState> {
        match says {
            Statement::Cover { closed, pinned, bolts_in_place, bolts_required } => Some(CoverState {
                closed: *closed,
                pinned: *pinned,
                bolts_in_place: *bolts_in_place,
                bolts_required: *bolts_required,
            }),
            _ => None,
        }
    }
}

/// A protection.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct ProtectionView {
    /// The protection.
    pub what: Protection,
    /// Whether it is set; `None` if nobody recorded it.
    pub set: Option<Attested<bool>>,
}

pub(super) fn fold(ledger: &FoldContext<'_>) -> Vec<SealView> {
    SealPlace::ALL
        .iter()
        .filter_map(|place| {
            let (slot, found_slot) = (Slot::seal(*place), Slot::seal_found(*place));
            let seal = |slot: &str| {
                ledger.known(slot, |says| match says {
                    Statement::Seal(seal) => Some(seal.clone()),
                    _ => None,
                })
            };
            let (found, now) = (seal(&found_slot), seal(&slot));
            if found.is_none() && now.is_none() {
                return None;
            }
            let mut photos: Vec<Digest> =
                [&found, &now].into_iter().flatten().filter_map(|known| known.value.photo).collect();
            photos.extend(photos_about(ledger, &slot));
            photos.extend(photos_about(ledger, &found_slot));
            photos.sort_unstable();
            photos.dedup();
            let lacks = lacks(ledger, &slot);
            let applied = now.as_ref().filter(|known| known.value.event == SealEvent::Applied);
            let replaced = found.is_some() && applied.is_some();
            Some(SealView { place: *place, found, now, photos, lacks, replaced })
        })
        .collect()
}

/// Returns what the record of an applied seal still lacks. Entries that agree complete each other.
fn lacks(ledger: &FoldContext<'_>, slot: &str) -> Vec<Message> {
    let applied: Vec<&Seal> = ledger
        .slots
        .live(slot)
        .filter_map(|item| match item.claim {
            Some(Statement::Seal(seal)) if seal.event == SealEvent::Applied => Some(seal),
            _ => None,
        })
        .collect();
    let mut lacks = Vec::new();
    if applied.is_empty() {
        return lacks;
    }
    if !applied.iter().any(|seal| !seal.number.trim().is_empty()) {
        lacks.push(Message::new("seal-lacks-number"));
    }
    if !applied.iter().any(|seal| seal.kind.is_some()) {
        lacks.push(Message::new("seal-lacks-kind"));
    }
    let noted = applied.iter().any(|seal| !seal.note.text().trim().is_empty());
    if applied.iter().any(|seal| seal.place == SealPlace::Elsewhere) && !noted {
        lacks.push(Message::new("seal-lacks-place"));
    }
    let photographed = applied.iter().any(|seal| seal.photo.is_some()) || photographed_since(ledger, slot);
    if !photographed && !noted {
        lacks.push(Message::new("seal-lacks-photo"));
    }
    if applied.iter().any(|seal| !seal.intact) {
        lacks.push(Message::new("seal-lacks-intact"));
    }
    lacks
}

/// Returns true if the seal's place was photographed after the last word about the seal before: the picture of the
/// seal as found, or of the place while it was open, says nothing of the seal applied later.
fn photographed_since(ledger: &FoldContext<'_>, slot: &str) -> bool {
    let is_applied =
        |says: &Statement| matches!(says, Statement::Seal(seal) if seal.event == SealEvent::Applied);
    let found_slot = format!("{slot}/found");
    let before = [slot, &found_slot]
        .into_iter()
        .flat_map(|slot| ledger.slots.stood(slot))
        .filter(|item| item.claim.is_some_and(|says| !is_applied(says)))
        .map(|item| item.claim_place)
        .max();
    ledger.slots.stood(&Slot::PHOTOS).any(|item| {
        matches!(item.claim, Some(Statement::Photo { about, .. }) if about == slot)
            && before.is_none_or(|before| item.claim_place > before)
    })
}

pub(super) fn photos(ledger: &FoldContext<'_>) -> Vec<PhotoView> {
    ledger
        .slots
        .stood(&Slot::PHOTOS)
        .filter_map(|item| match item.claim {
            Some(Statement::Photo { photo, of, about }) => Some(PhotoView {
                photo: photo.clone(),
                of: *of,
                about: about.clone(),
                said: ledger.said(item),
            }),
            _ => None,
        })
        .collect()
}

pub(super) fn cover(ledger: &FoldContext<'_>) -> Option<Attested<CoverState>> {
    ledger.known(&Slot::COVER, CoverState::read)
}

pub(super) fn protections(ledger: &FoldContext<'_>) -> Vec<ProtectionView> {
    Protection::ALL
        .iter()
        .map(|what| {
            let set = ledger.known(&Slot::protection(*what), |says| match says {
                Statement::Protection { set, .. } => Some(*set),
                _ => None,
            });
            ProtectionView { what: *what, set }
        })
        .collect()
}
