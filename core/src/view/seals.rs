//! Seals, photographs, the housing cover and the protections: what secures the car and shows it.

use serde::Serialize;

use super::defects::photos_about;
use super::fold_context::{Attested, Attribution, FoldContext};
use crate::entry::vocabulary::{PhotoOf, PhotoRef, Protection, SealEvent, SealPlace};
use crate::entry::{Seal, Slot, Statement};
use crate::ids::Digest;

/// One place for a seal.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct SealView {
    /// Where.
    pub place: SealPlace,
    /// What was found on arrival.
    pub found: Option<Attested<Seal>>,
    /// What was put on or taken off here last.
    pub now: Option<Attested<Seal>>,
    /// Photographs that belong to it.
    pub photos: Vec<Digest>,
    /// What an applied seal still lacks, in words.
    pub lacks: Vec<&'static str>,
    /// Whether the one found was replaced by another here.
    pub replaced: bool,
}

/// A photograph.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct PhotoView {
    /// Digest, length and media type of its bytes.
    pub photo: PhotoRef,
    /// What it shows.
    pub of: PhotoOf,
    /// The slot it belongs to; empty when none.
    pub about: String,
    /// Who took it.
    pub said: Attribution,
}

/// The housing cover.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct CoverState {
    /// Whether it is down.
    pub closed: bool,
    /// Whether the pin is in.
    pub pinned: bool,
    /// Bolts counted in place.
    pub bolts_in_place: u16,
    /// Bolts it should have.
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
    /// Which.
    pub what: Protection,
    /// Whether it is set; nothing while nobody said so.
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

/// What the applied seal of a slot still lacks. Entries that agree complete each other.
fn lacks(ledger: &FoldContext<'_>, slot: &str) -> Vec<&'static str> {
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
        lacks.push("its number");
    }
    if !applied.iter().any(|seal| seal.kind.is_some()) {
        lacks.push("its kind");
    }
    let noted = applied.iter().any(|seal| !seal.note.text().trim().is_empty());
    if applied.iter().any(|seal| seal.place == SealPlace::Elsewhere) && !noted {
        lacks.push("its place in words");
    }
    let photographed =
        applied.iter().any(|seal| seal.photo.is_some()) || !photos_about(ledger, slot).is_empty();
    if !photographed && !noted {
        lacks.push("a photograph of it in place, or the reason why there is none");
    }
    if applied.iter().any(|seal| !seal.intact) {
        lacks.push("being whole");
    }
    lacks
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
