//! The content of statements that are made for the next person at a car: notes for next time, how a valve turned, and
//! the condition of plugs and of the parts of the cover.
//!
//! The fields are frozen wire format. The statements that contain them, and their slots, are in `statement`; which of
//! them the next visit shows is decided in `view::carried`.

use std::fmt;

use serde::{Deserialize, Serialize};

use super::vocabulary::{Fitting, words};
use crate::ids::NoteId;

words!(
    /// How a valve turned by hand.
    Feel as "feel" {
        /// Easier than usual.
        Easy = "easy",
        /// As usual.
        Normal = "normal",
        /// Harder than usual.
        Hard = "hard",
    }
);
words!(
    /// The condition of a plug and of the square that the wrench takes.
    PlugState as "plug_state" {
        /// Nothing is wrong with it.
        Sound = "sound",
        /// The corners of the square are rounded.
        Rounded = "rounded",
        /// It does not turn.
        Seized = "seized",
    }
);
words!(
    /// A part of the housing cover.
    CoverPart as "cover_part" {
        /// The pin that holds the cover down.
        Pin = "pin",
        /// A lug.
        Lug = "lug",
        /// The hinge.
        Hinge = "hinge",
    }
);
words!(
    /// The condition of a part of the housing cover.
    PartState as "part_state" {
        /// Nothing is wrong with it.
        Sound = "sound",
        /// Worn.
        Worn = "worn",
        /// Bent.
        Bent = "bent",
        /// Cracked or broken.
        Broken = "broken",
        /// Missing.
        Missing = "missing",
    }
);

/// A note for the next visit of the car.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct NextTime {
    /// The id of the note.
    pub note: NoteId,
    /// What the next person should know or do.
    pub what: String,
    /// The fitting, if it is about one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fitting: Option<Fitting>,
}

/// Somebody saw to a note for the next visit.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct NextTimeDone {
    /// Which note.
    pub note: NoteId,
    /// What was done.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub how: String,
}

/// How a valve turned, by hand and without a torque wrench.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct ValveFeel {
    /// Whose valve.
    pub fitting: Fitting,
    /// How it turned.
    pub feel: Feel,
}

/// The condition of a plug and its square.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct PlugCondition {
    /// Whose plug.
    pub fitting: Fitting,
    /// Its condition.
    pub state: PlugState,
    /// What was seen.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// The condition of a part of the housing cover.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct CoverCondition {
    /// Which part.
    pub part: CoverPart,
    /// Its condition.
    pub state: PartState,
    /// What was seen.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}
