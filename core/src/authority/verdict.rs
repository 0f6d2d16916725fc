//! What is said of an entry: it counts, it is not checked yet, or it is kept and does not count.

use serde::Serialize;

use crate::entry::Right;

/// Whether an entry counts. It only ever grows from [`Verdict::NotChecked`] to the others as certificates,
/// receipts and other entries arrive.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(tag = "is", content = "why", rename_all = "snake_case")]
pub enum Verdict {
    /// A device of the organisation said it, and may.
    Counts,
    /// No organisation is known here: it counts here, and nothing was checked.
    Unchecked,
    /// What it takes to decide is not here yet. It touches no state until then.
    NotChecked(NotYet),
    /// It is kept and touches no state.
    Kept(Kept),
}

/// What is still missing for a verdict.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum NotYet {
    /// No certificate of the device is known here.
    NoCertificate,
    /// The device was revoked, and whether the office had the entry before is not known here.
    BeforeRevocationUnknown,
    /// At which site the stay is, is not known here.
    SiteUnknown,
    /// The entry it takes back or corrects is not here.
    ReplacedUnknown,
    /// A later version's kind of statement.
    KindUnknown,
}

/// Why an entry is kept without counting.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Kept {
    /// The signer is no device of this organisation.
    NoDevice,
    /// The device was revoked, and the office did not have the entry before.
    AfterRevocation,
    /// The certificate had run out.
    Expired,
    /// The device is not for this site.
    OtherSite,
    /// The device may not say this.
    NoRight(Right),
    /// It takes back or corrects what another recorded.
    NotOwn,
    /// It does not belong into this kind of record.
    Misplaced,
}

impl Verdict {
    /// Whether the entry takes part in what the record says.
    pub const fn counts(self) -> bool {
        matches!(self, Verdict::Counts | Verdict::Unchecked)
    }

    /// Whether whoever makes such an entry is better told so than to find it kept later. A device that was
    /// revoked, or stands at a site its certificate does not name, records all the same: nothing seen is lost.
    pub const fn refused_when_made(self) -> bool {
        matches!(self, Verdict::Kept(Kept::NoRight(_) | Kept::NotOwn | Kept::Misplaced))
    }

    /// What to tell whoever makes such an entry: why it would not count, and who may say it.
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

    /// For people, after "kept, not counted" or "not checked"; nothing for an entry that counts.
    pub const fn reason(self) -> Option<&'static str> {
        Some(match self {
            Verdict::Counts | Verdict::Unchecked => return None,
            Verdict::NotChecked(not_yet) => match not_yet {
                NotYet::NoCertificate => {
                    "not checked: the certificate of the device that signed it has not come here yet"
                }
                NotYet::BeforeRevocationUnknown => {
                    "not checked: the device was revoked, and it is not known here whether the office had this before"
                }
                NotYet::SiteUnknown => "not checked: it is not known here at which site this stay is",
                NotYet::ReplacedUnknown => "not checked: the entry it takes back is not here yet",
                NotYet::KindUnknown => "not checked: this version does not know this kind of entry",
            },
            Verdict::Kept(kept) => match kept {
                Kept::NoDevice => "kept, not counted: signed by no device of this organisation",
                Kept::AfterRevocation => "kept, not counted: it came after the device was revoked",
                Kept::Expired => "kept, not counted: the device's certificate had run out",
                Kept::OtherSite => "kept, not counted: the device is not for this site",
                Kept::NoRight(_) => "kept, not counted: the device may not say this",
                Kept::NotOwn => "kept, not counted: it takes back what another recorded",
                Kept::Misplaced => "kept, not counted: it does not belong into this kind of record",
            },
        })
    }
}
