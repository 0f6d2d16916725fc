//! The content of statements about trouble: incidents with what is reported of them, and leaks.
//!
//! The fields are frozen wire format. The statements that contain them, and their slots, are in `statement`; what
//! follows from them is decided in `view::incidents` and `view::leaks`.

use std::fmt;

use serde::{Deserialize, Serialize};

use super::coded::Coded;
use super::vocabulary::{Fitting, words};
use crate::clock::UtcMillis;
use crate::ids::{IncidentId, LeakId};
use crate::units::Amount;

words!(
    /// What an incident came from. Anything else is typed.
    IncidentSource as "incident_source" {
        /// A valve or opening of the car.
        Fitting = "fitting",
        /// A hose or arm.
        Hose = "hose",
        /// A coupling or adapter.
        Coupling = "coupling",
        /// Piping, compressor or tank of the plant.
        Plant = "plant",
        /// The car's pressure relief device.
        ReliefDevice = "relief_device",
        /// The car's tank.
        Tank = "tank",
        /// A truck.
        Truck = "truck",
    }
);
words!(
    /// The worst that happened to anybody.
    Injury as "injury" {
        /// Nobody was hurt.
        None = "none",
        /// First aid.
        FirstAid = "first_aid",
        /// Somebody was admitted to a hospital.
        Hospital = "hospital",
        /// Somebody died.
        Death = "death",
    }
);
words!(
    /// Who was moved away.
    Evacuation as "evacuation" {
        /// Nobody.
        None = "none",
        /// People of the site.
        Site = "site",
        /// The public, for less than an hour.
        Public = "public",
        /// The public, for an hour or more.
        PublicHour = "public_hour",
    }
);
words!(
    /// Whom somebody called or wrote to about an incident. Anybody else is typed.
    Called as "called" {
        /// The local emergency number, fire service or police.
        Emergency = "emergency",
        /// The National Response Center (USA), by telephone.
        ResponseCenter = "response_center",
        /// CANUTEC (Canada).
        Canutec = "canutec",
        /// The written report: form F 5800.1 in the USA, the 30-day report in Canada.
        WrittenReport = "written_report",
        /// The carrier.
        Carrier = "carrier",
        /// The shipper.
        Shipper = "shipper",
        /// The car's owner.
        Owner = "owner",
        /// The organisation's own office.
        Office = "office",
    }
);
words!(
    /// Where a leak was found. Anywhere else is typed.
    LeakAt as "leak_at" {
        /// At a coupling or adapter.
        Coupling = "coupling",
        /// In a hose or arm.
        Hose = "hose",
        /// At a valve's packing or stem.
        Packing = "packing",
        /// At a plug or cap.
        Plug = "plug",
        /// At a flange or gasket.
        Gasket = "gasket",
        /// At the pressure relief device.
        ReliefDevice = "relief_device",
        /// In the piping of the plant.
        Plant = "plant",
    }
);

/// Something that went wrong: a release, a fire, an injury.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Incident {
    /// The id of the incident.
    pub incident: IncidentId,
    /// What it came from, as a code or as typed.
    pub source: Coded<IncidentSource>,
    /// The fitting, if it was at one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fitting: Option<Fitting>,
    /// When it was noticed.
    pub noticed_at: UtcMillis,
    /// The worst that happened to anybody; absent if that was not said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub injury: Option<Injury>,
    /// Whether anything caught fire; absent if that was not said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ignition: Option<bool>,
    /// Who was moved away; absent if that was not said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub evacuation: Option<Evacuation>,
    /// Whether a road, a railroad line or a facility was closed for an hour or more; absent if that was not said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub closed: Option<bool>,
    /// What happened.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub what: String,
}

/// The end of the release of an incident.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct IncidentStopped {
    /// Which incident.
    pub incident: IncidentId,
    /// When it stopped.
    pub at: UtcMillis,
    /// How much was lost, as estimated.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub loss: Option<Amount>,
    /// Whether it was no more than the minimal amount of connecting, disconnecting or venting, and damaged nothing;
    /// absent if that was not said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub minimal: Option<bool>,
}

/// A call or report about an incident.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct IncidentCall {
    /// Which incident.
    pub incident: IncidentId,
    /// To whom, as a code or as typed.
    pub to: Coded<Called>,
    /// When.
    pub at: UtcMillis,
    /// The number that the report was given, or the person who answered; empty if there was none.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub number: String,
}

/// A leak that was found.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Leak {
    /// The id of the leak.
    pub leak: LeakId,
    /// Where, as a code or as typed.
    pub at: Coded<LeakAt>,
    /// The fitting, if it was at one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fitting: Option<Fitting>,
    /// What was done about it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub action: String,
}

/// A leak was checked again.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct LeakChecked {
    /// Which leak.
    pub leak: LeakId,
    /// Whether it is tight now.
    pub tight: bool,
    /// What was done in between, and how it was checked.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}
