//! Who may say what, as data: every kind of statement belongs to an act, and every act is a row.
//!
//! A new kind of statement does not compile until it has an act here. `judge` reads the table; DEVELOPERS.md
//! shows it, and a test compares the two.

use crate::entry::{Right, Role, Statement};

/// What a statement does, as far as rights are concerned.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Act {
    /// Something seen, done, read or said during a stay.
    Record,
    /// A stay begins, or how it began is corrected.
    Open,
    /// Something known of the car that follows it.
    KnowCar,
    /// A remark or a photograph, which stands wherever it is needed.
    Note,
    /// A disagreement is settled.
    Settle,
    /// An entry is taken back: one's own by anybody who may record, another's by [`Right::WithdrawOthers`].
    Withdraw,
    /// Two records are, or are not, of one stay.
    Join,
    /// A hold is lifted.
    LiftHold,
    /// A blocker is passed over.
    PassOver,
    /// The car is released.
    Release,
    /// What a site is.
    KeepSite,
    /// Seals are issued to a site.
    IssueSeals,
    /// Who belongs to the organisation, whose key is whose, what roles may do.
    KeepPeople,
    /// A phone made a key for a person; without effect until it is confirmed.
    OfferKey,
    /// A person says that they hold the phone.
    HoldPhone,
    /// Late word is admitted.
    Admit,
    /// A later version's kind: kept whole, without effect.
    Unknown,
}

/// The documents an act may stand in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Homes {
    /// A visit's.
    pub visit: bool,
    /// A car's.
    pub car: bool,
    /// A site's.
    pub site: bool,
    /// The roster.
    pub roster: bool,
}

/// A row of the table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Row {
    /// The act.
    pub act: Act,
    /// The right it takes. In a site's document and in the roster it takes the right to keep those instead.
    pub right: Right,
    /// Where it may stand.
    pub homes: Homes,
}

const fn homes(visit: bool, car: bool, site: bool, roster: bool) -> Homes {
    Homes { visit, car, site, roster }
}

const fn row(act: Act, right: Right, homes: Homes) -> Row {
    Row { act, right, homes }
}

/// Who may say what. Correcting what another device recorded takes [`Right::Settle`] besides.
pub const TABLE: [Row; 17] = [
    row(Act::Record, Right::Record, homes(true, false, false, false)),
    row(Act::Open, Right::Record, homes(true, false, false, false)),
    row(Act::KnowCar, Right::Record, homes(true, true, false, false)),
    row(Act::Note, Right::Record, homes(true, true, true, true)),
    row(Act::Settle, Right::Settle, homes(true, true, true, true)),
    row(Act::Withdraw, Right::Record, homes(true, true, true, true)),
    row(Act::Join, Right::Settle, homes(true, false, false, false)),
    row(Act::LiftHold, Right::LiftHold, homes(true, false, false, false)),
    row(Act::PassOver, Right::Override, homes(true, false, false, false)),
    row(Act::Release, Right::Release, homes(true, false, false, false)),
    row(Act::KeepSite, Right::KeepSite, homes(false, false, true, false)),
    row(Act::IssueSeals, Right::IssueSeals, homes(false, false, true, false)),
    row(Act::KeepPeople, Right::KeepPeople, homes(false, false, false, true)),
    row(Act::OfferKey, Right::Record, homes(false, false, false, true)),
    row(Act::HoldPhone, Right::Record, homes(true, false, false, false)),
    row(Act::Admit, Right::Admit, homes(true, true, true, true)),
    row(Act::Unknown, Right::Record, homes(true, true, true, true)),
];

impl Act {
    /// The act's row.
    pub fn row(self) -> Row {
        let found = TABLE.into_iter().find(|row| row.act == self);
        // Every act has a row (held by a test); an act without one would be nobody's.
        found.unwrap_or(row(self, Right::Enrol, homes(false, false, false, false)))
    }

    /// What a statement does.
    pub fn of(says: &Statement) -> Act {
        match says {
            Statement::Opened(_) => Act::Open,
            Statement::Paper(_)
            | Statement::Clock { .. }
            | Statement::Reading(_)
            | Statement::Step { .. }
            | Statement::Valve { .. }
            | Statement::Closure { .. }
            | Statement::Listen { .. }
            | Statement::Line { .. }
            | Statement::ItemOut { .. }
            | Statement::ItemIn { .. }
            | Statement::Seal(_)
            | Statement::Hold { .. }
            | Statement::HandoverGiven { .. }
            | Statement::HandoverTaken { .. }
            | Statement::Attendance { .. }
            | Statement::Cover { .. }
            | Statement::Protection { .. }
            | Statement::Weather { .. }
            | Statement::EmptySign { .. }
            | Statement::EmptyDecision { .. }
            | Statement::TruckLoad { .. }
            | Statement::Check { .. }
            | Statement::CarNumberAgain { .. } => Act::Record,
            Statement::Effort { .. }
            | Statement::Threads { .. }
            | Statement::Defect(_)
            | Statement::Forwarded { .. }
            | Statement::Authority { .. }
            | Statement::Resolved { .. }
            | Statement::CarFittings { .. }
            | Statement::CarCapacity { .. }
            | Statement::CarDiameter { .. }
            | Statement::OutageTable { .. }
            | Statement::CarTestDate { .. } => Act::KnowCar,
            Statement::Photo { .. } | Statement::Remark { .. } => Act::Note,
            Statement::Agreement { .. } => Act::Settle,
            Statement::Withdrawn {} => Act::Withdraw,
            Statement::Joined { .. } | Statement::NotJoined { .. } => Act::Join,
            Statement::HoldLifted { .. } => Act::LiftHold,
            Statement::PassedOver { .. } => Act::PassOver,
            Statement::Released { .. } => Act::Release,
            Statement::Site(_)
            | Statement::Tank(_)
            | Statement::Instrument(_)
            | Statement::Hose(_)
            | Statement::Contact(_) => Act::KeepSite,
            Statement::SealStock(_) => Act::IssueSeals,
            Statement::Operator(_)
            | Statement::PersonKeyConfirmed { .. }
            | Statement::PersonKeyEnded { .. }
            | Statement::Rules(_) => Act::KeepPeople,
            Statement::PersonKey(_) => Act::OfferKey,
            Statement::HeldBy { .. } => Act::HoldPhone,
            Statement::Admitted { .. } => Act::Admit,
            Statement::Unrecognised { .. } => Act::Unknown,
        }
    }
}

/// The rights a role bundles. An operator of a site can finish there without signal: settle, lift a hold,
/// pass over and release, each with a reason.
pub const fn rights_of(role: Role) -> &'static [Right] {
    match role {
        Role::Operator => {
            &[Right::Record, Right::Settle, Right::LiftHold, Right::Override, Right::Release, Right::Read]
        }
        Role::Office => &Right::ALL,
        Role::Inspector => &[],
    }
}
