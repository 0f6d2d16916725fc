//! The table of rights: every kind of statement belongs to an act, and every act has a row.
//!
//! Which act a kind of statement is stands in its row (`entry::Statement`); a kind without a row does not compile.
//! `judge` reads the table. `core/AUTHORITY.md` says it in words, and a test prints what follows from it for every kind of
//! statement into `tests/golden/authority.txt`.

pub use crate::entry::Act;
use crate::entry::{Right, Role, Statement};

/// The kinds of documents in which an act may stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Homes {
    /// A visit's document.
    pub visit: bool,
    /// A car's document.
    pub car: bool,
    /// A site's document.
    pub site: bool,
    /// The roster.
    pub roster: bool,
}

/// A row of the table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ActRow {
    /// The act.
    pub act: Act,
    /// The right that the act requires in a visit's or car's document. In a site's document and in the
    /// roster, the right to keep those records is required instead.
    pub right: Right,
    /// The kinds of documents in which it may stand.
    pub homes: Homes,
}

const fn homes(visit: bool, car: bool, site: bool, roster: bool) -> Homes {
    Homes { visit, car, site, roster }
}

const fn row(act: Act, right: Right, homes: Homes) -> ActRow {
    ActRow { act, right, homes }
}

/// The rights that acts require. Correcting another device's entry requires [`Right::Settle`] in addition.
pub const TABLE: [ActRow; 20] = [
    row(Act::Record, Right::Record, homes(true, false, false, false)),
    row(Act::Open, Right::Record, homes(true, false, false, false)),
    row(Act::KnowCar, Right::Record, homes(true, true, false, false)),
    row(Act::Note, Right::Record, homes(true, true, true, true)),
    row(Act::Settle, Right::Settle, homes(true, true, true, true)),
    row(Act::Withdraw, Right::Record, homes(true, true, true, true)),
    row(Act::Join, Right::Settle, homes(true, false, false, false)),
    row(Act::LiftHold, Right::LiftHold, homes(true, false, false, false)),
    row(Act::PassOver, Right::Override, homes(true, false, false, false)),
    row(Act::Clear, Right::Release, homes(true, false, false, false)),
    row(Act::Release, Right::Release, homes(true, false, false, false)),
    row(Act::KeepSite, Right::KeepSite, homes(false, false, true, false)),
    row(Act::IssueSeals, Right::IssueSeals, homes(false, false, true, false)),
    row(Act::KeepPeople, Right::KeepPeople, homes(false, false, false, true)),
    row(Act::PublishProcedure, Right::PublishProcedures, homes(false, false, false, true)),
    row(Act::ExpectCar, Right::KeepSite, homes(false, false, true, false)),
    row(Act::OfferKey, Right::Record, homes(false, false, false, true)),
    row(Act::HoldPhone, Right::Record, homes(true, false, false, false)),
    row(Act::Admit, Right::Admit, homes(true, true, true, true)),
    row(Act::Unknown, Right::Record, homes(true, true, true, true)),
];

impl Act {
    /// Returns the act's row.
    pub fn row(self) -> ActRow {
        let found = TABLE.into_iter().find(|row| row.act == self);
        // A test ensures that every act has a row. An act without one would be permitted nowhere.
        found.unwrap_or(row(self, Right::Enrol, homes(false, false, false, false)))
    }

    /// Returns the act of a statement.
    pub fn of(says: &Statement) -> Act {
        says.spec().act
    }
}

/// Returns the rights that a role includes. An operator can finish a stay without mobile reception: settle,
/// lift a hold, pass over a blocker and release, each with a reason.
pub const fn rights_of(role: Role) -> &'static [Right] {
    match role {
        Role::Operator => {
            &[Right::Record, Right::Settle, Right::LiftHold, Right::Override, Right::Release, Right::Read]
        }
        Role::Office => &Right::ALL,
        Role::Inspector => &[],
    }
}
