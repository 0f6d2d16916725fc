//! The content of statements about how a car is left: for a time with product in it, moved during its stay, and how it
//! goes away.
//!
//! The fields are frozen wire format. The statements that contain them, and their slots, are in `statement`; what
//! follows from them is decided in `view::leaving` and in the rules of the gates.

use std::fmt;

use serde::{Deserialize, Serialize};

use super::coded::Coded;
use super::vocabulary::words;
use crate::clock::UtcMillis;

words!(
    /// What was seen to when a car was left. For transloading 49 CFR 174.67(k) asks for all five while equipment is
    /// attached (read).
    LeftCondition as "left_condition" {
        /// A designated person on the site knows the product and what to do in an emergency.
        Designated = "designated",
        /// A signaling system alerts somebody, or the system is checked every hour.
        Monitored = "monitored",
        /// The valves of car and facility are closed and secured.
        ValvesClosed = "valves_closed",
        /// Brakes are set and wheels blocked.
        BrakesBlocked = "brakes_blocked",
        /// Access to the track is secured.
        TrackSecured = "track_secured",
    }
);
words!(
    /// How much a car holds when it goes away.
    CarLoad as "car_load" {
        /// Unloaded as far as practicable.
        Residue = "residue",
        /// Partly unloaded.
        PartLoaded = "part_loaded",
        /// As it came.
        Loaded = "loaded",
    }
);
words!(
    /// Why a car goes away. Anything else is typed.
    LeavesAs as "leaves_as" {
        /// It was unloaded.
        Unloaded = "unloaded",
        /// Something about the car is not in order.
        BadOrder = "bad_order",
        /// It was refused.
        Refused = "refused",
        /// It goes on to another place.
        Diverted = "diverted",
    }
);

/// The car was left with nobody at it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct CarLeft {
    /// Whether unloading equipment stays attached.
    pub connected: bool,
    /// What was seen to.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub conditions: Vec<LeftCondition>,
    /// Until when, if that is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub until: Option<UtcMillis>,
    /// Anything else about it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// The car was moved during its stay.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct CarMoved {
    /// The track or spot where it stands now.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub to: String,
    /// Who moved it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub by: String,
}

/// How the car goes away.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct CarOutcome {
    /// How much it holds.
    pub load: CarLoad,
    /// Why it goes, as a code or as typed.
    pub because: Coded<LeavesAs>,
    /// Where it goes; empty if that is not known.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub to: String,
    /// Anything else about it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}
