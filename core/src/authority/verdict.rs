//! The possible verdicts on an entry: it counts, it is not checked yet, or it is kept without counting.

use serde::Serialize;

use crate::Message;
use crate::entry::Right;

/// Whether an entry counts. As certificates, receipts and other entries arrive, a verdict only ever changes
/// from [`Verdict::NotChecked`] to one of the others, but for an entry that rests on one of another car.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(tag = "is", content = "why", rename_all = "snake_case")]
pub enum Verdict {
    /// A device of the organisation made the entry and was permitted to.
    Counts,
    /// No organisation is known. The entry counts, but nothing was checked.
    Unchecked,
    /// Information needed for a decision is still missing. Until it arrives the entry has no effect.
    NotChecked(NotYet),
    /// The entry is kept and has no effect.
    Kept(Kept),
}

/// The information that is missing for a verdict.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum NotYet {
    /// The certificate of the device is missing.
    NoCertificate,
    /// The device was revoked, and it is not known whether the office had the entry before.
    BeforeRevocationUnknown,
    /// The site of the stay is not known.
    SiteUnknown,
    /// The entry that this one withdraws or corrects is missing.
    ReplacedUnknown,
    /// The kind of statement was introduced in a later version.
    KindUnknown,
    /// The entry of another car that this one rests on is not here.
    GroundUnknown,
}

/// The reason why an entry is kept without counting.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Kept {
    /// The signer is not a device of this organisation.
    NoDevice,
    /// The device was revoked, and the office did not have the entry before that.
    AfterRevocation,
    /// The certificate had expired.
    Expired,
    /// The device has no rights at this site.
    OtherSite,
    /// The device lacks this right.
    NoRight(Right),
    /// The entry withdraws or corrects another device's entry.
    NotOwn,
    /// The entry may not stand in this kind of document.
    Misplaced,
    /// The entry of another car that this one rests on does not hold.
    GroundFell,
}

impl Verdict {
    /// Returns true if the entry has an effect on the record.
    pub const fn counts(self) -> bool {
        matches!(self, Verdict::Counts | Verdict::Unchecked)
    }

    /// Returns true if a device should refuse to make such an entry instead of keeping it without effect. A
    /// device that was revoked, or is at a site that its certificate does not name, may record nevertheless,
    /// so that no observation is lost.
    pub const fn refused_when_made(self) -> bool {
        matches!(self, Verdict::Kept(Kept::NoRight(_) | Kept::NotOwn | Kept::Misplaced))
    }

    /// Returns what a person is told who tries to make such an entry: why it would not count, and who may make it.
    pub fn refusal_message(self) -> Message {
        Message::new(match self {
            Verdict::Kept(Kept::NoRight(right)) => match right {
                Right::KeepSite => "authority-keep-site",
                Right::IssueSeals => "authority-issue-seals",
                Right::KeepPeople => "authority-keep-people",
                Right::PublishProcedures => "authority-publish-procedures",
                Right::Admit => "authority-admit",
                Right::Release => "authority-release",
                Right::Override => "authority-override",
                Right::LiftHold => "authority-lift-hold",
                Right::Settle => "authority-settle",
                _ => "authority-not-this",
            },
            Verdict::Kept(Kept::NotOwn) => "authority-not-own",
            Verdict::Kept(Kept::Misplaced) => "authority-misplaced",
            _ => "authority-not-this",
        })
    }

    /// Returns the same in English, for logs.
    pub const fn refusal(self) -> Option<&'static str> {
        Some(match self {
            Verdict::Kept(Kept::NoRight(right)) => match right {
                Right::KeepSite => "only a device of the office says what a site is",
                Right::IssueSeals => "only a device of the office issues seals",
                Right::KeepPeople => "only a device of the office says who belongs to the organisation",
                Right::PublishProcedures => "only a device of the office publishes procedures",
                Right::Admit => "only a device of the office admits late entries",
                Right::Release => "this device may not release a car; ask the office",
                Right::Override => {
                    "this device may not pass over what speaks against release; ask the office"
                }
                Right::LiftHold => "this device may not lift a hold; ask the office",
                Right::Settle => "this device may not settle or correct what others recorded; ask the office",
                _ => "this device may not say this; ask the office",
            },
            Verdict::Kept(Kept::NotOwn) => {
                "only the office takes back what another recorded; record what you see beside it"
            }
            Verdict::Kept(Kept::Misplaced) => "this does not belong into this kind of record",
            _ => return None,
        })
    }

    /// Returns the reason that people see after "kept, not counted" or "not checked", or `None` for an entry
    /// that counts.
    pub fn reason(self) -> Option<Message> {
        Some(match self {
            Verdict::Counts | Verdict::Unchecked => return None,
            Verdict::NotChecked(not_yet) => Message::term(
                "not_checked",
                match not_yet {
                    NotYet::NoCertificate => "no_certificate",
                    NotYet::BeforeRevocationUnknown => "before_revocation_unknown",
                    NotYet::SiteUnknown => "site_unknown",
                    NotYet::ReplacedUnknown => "replaced_unknown",
                    NotYet::KindUnknown => "kind_unknown",
                    NotYet::GroundUnknown => "ground_unknown",
                },
            ),
            Verdict::Kept(kept) => Message::term(
                "kept",
                match kept {
                    Kept::NoDevice => "no_device",
                    Kept::AfterRevocation => "after_revocation",
                    Kept::Expired => "expired",
                    Kept::OtherSite => "other_site",
                    Kept::NoRight(_) => "no_right",
                    Kept::NotOwn => "not_own",
                    Kept::Misplaced => "misplaced",
                    Kept::GroundFell => "ground_fell",
                },
            ),
        })
    }
}
