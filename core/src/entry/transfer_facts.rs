//! The content of statements about what receives the cargo and how vapor is recovered: tanks before and after, loads
//! of trucks, what a recovery is planned to reach, and somebody who inspects.
//!
//! The fields are frozen wire format. The statements that contain them, and their slots, are in `statement`; what
//! follows from them is decided in `view::received`.

use std::fmt;

use serde::{Deserialize, Serialize};

use super::vocabulary::words;
use crate::units::Amount;

words!(
    /// When a receiving tank was read.
    TankMoment as "tank_moment" {
        /// Before the transfer.
        Before = "before",
        /// After the transfer.
        After = "after",
    }
);
words!(
    /// The kind of a car's gauging device.
    GaugingKind as "gauging_kind" {
        /// A rod or a magnetic tape that vents nothing.
        Rod = "rod",
        /// A slip tube, which vents.
        SlipTube = "slip_tube",
        /// Another one.
        Other = "other",
    }
);
words!(
    /// An end of a car.
    CarEnd as "car_end" {
        /// The A end.
        A = "a",
        /// The B end.
        B = "b",
    }
);

/// What a receiving tank showed before or after the transfer.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct TankGauged {
    /// The site's name of the tank.
    pub tank: String,
    /// Before or after.
    pub moment: TankMoment,
    /// The level, a share of the water capacity from 0 to 100 %.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub level: Option<Amount>,
    /// The pressure in the tank.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pressure: Option<Amount>,
    /// The temperature of the liquid in the tank.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub temperature: Option<Amount>,
    /// What the meter in the line to it shows.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub meter: Option<Amount>,
}

/// A truck was loaded from the car.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct TruckLoad {
    /// Which truck.
    pub truck: String,
    /// How much went into it.
    pub amount: Amount,
    /// The number of its ticket.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub ticket: String,
    /// Who drives it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub driver: String,
    /// The level in it afterwards, a share of the water capacity from 0 to 100 %.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub level: Option<Amount>,
    /// The temperature of what is in it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub temperature: Option<Amount>,
    /// The number of its seal.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub seal: String,
}

impl TruckLoad {
    /// Returns a load of which the truck and the amount are known.
    pub fn of(truck: impl Into<String>, amount: Amount) -> TruckLoad {
        TruckLoad {
            truck: truck.into(),
            amount,
            ticket: String::new(),
            driver: String::new(),
            level: None,
            temperature: None,
            seal: String::new(),
        }
    }
}

/// Down to which pressure vapor is to be recovered, and what is known of the compressor and of the money.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct RecoveryPlanned {
    /// The pressure in the car at which recovery is to end.
    pub target: Amount,
    /// The volume that the compressor sweeps.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub swept: Option<Amount>,
    /// Its volumetric efficiency.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub efficiency: Option<Amount>,
    /// The price of a gallon.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub price: Option<Amount>,
    /// The cost of running for an hour.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cost: Option<Amount>,
}

/// Somebody from outside inspected the car or the site.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Inspection {
    /// Whose inspector, and who.
    pub by: String,
    /// What was looked at.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub looked_at: String,
    /// Whether something was found that has to be put right; absent if that was not said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub found: Option<bool>,
    /// The finding.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub finding: String,
    /// Whether a copy was left; absent if that was not said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub copy_left: Option<bool>,
}
