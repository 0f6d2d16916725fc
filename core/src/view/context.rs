//! What a fold is given besides entries: the time, the procedures, the site, the car, the devices.
//!
//! Everything comes in as an argument, so that a view can be made again from the same inputs. Filled
//! by `book` on a device and by the server.

use std::collections::BTreeMap;

use serde::Serialize;

use super::chain::Chains;
use super::formulas::Formulas;
use super::near::Brief;
use super::site::SiteView;
use crate::authority::Authority;
use crate::clock::UtcMillis;
use crate::entry::site_facts::Operator;
use crate::entry::{Certificate, Entry, Role};
use crate::ids::{DeviceId, OperatorId};
use crate::procedure::Procedures;

/// An entry and what is known of its way here.
#[derive(Clone, Copy, Debug)]
pub struct Recorded<'a> {
    /// The checked entry.
    pub entry: &'a Entry,
    /// Whether a verified receipt of the server covers it.
    pub receipted: bool,
    /// When the server received it, by its clock; nothing when that is not known here.
    pub received_at: Option<UtcMillis>,
}

impl<'a> Recorded<'a> {
    /// The entry and when the office had it, as authority takes it.
    pub fn received(&self) -> (&'a Entry, Option<UtcMillis>) {
        (self.entry, self.received_at)
    }

    /// An entry that has not left its device, as far as is known here.
    pub fn unsent(entry: &'a Entry) -> Recorded<'a> {
        Recorded { entry, receipted: false, received_at: None }
    }
}

/// What is known of a device.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DeviceFacts {
    /// The name it was enrolled under.
    pub name: String,
    /// What it may do.
    pub role: Role,
    /// When it was revoked, by the server's clock.
    pub revoked_at: Option<UtcMillis>,
}

impl From<&Certificate> for DeviceFacts {
    fn from(certificate: &Certificate) -> DeviceFacts {
        DeviceFacts {
            name: certificate.name.clone(),
            role: certificate.role,
            revoked_at: certificate.revoked_at,
        }
    }
}

/// How the organisation stands behind the device that made an entry.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Standing {
    /// The device holds the organisation's certificate.
    Certified,
    /// The device was certified after the entry was made, as far as the device's clock says.
    BeforeEnrolment,
    /// No certificate of the device is known here: it may not have been enrolled, or its certificate
    /// has not come yet.
    NotCertified,
    /// The device was revoked later; the server held the entry before that.
    BeforeRevocation,
    /// The device is revoked and the server did not hold the entry before that: what the entry says
    /// of its own time proves nothing.
    NotHeldBeforeRevocation,
}

impl Standing {
    /// For people; nothing for the ordinary case.
    pub fn warning(self) -> Option<&'static str> {
        match self {
            Standing::Certified | Standing::BeforeRevocation => None,
            Standing::BeforeEnrolment => Some("before the device was enrolled"),
            Standing::NotCertified => Some("device not certified"),
            Standing::NotHeldBeforeRevocation => Some("device revoked"),
        }
    }
}

static NO_DEVICES: BTreeMap<DeviceId, DeviceFacts> = BTreeMap::new();
static NO_PEOPLE: BTreeMap<OperatorId, Operator> = BTreeMap::new();

/// What a fold is given besides the visit's entries.
#[derive(Clone, Copy, Debug)]
pub struct Context<'a> {
    /// Now.
    pub now: UtcMillis,
    /// The procedures known here.
    pub procedures: &'a Procedures,
    /// The site, folded from its document; times are shown in UTC without it.
    pub site: Option<&'a SiteView>,
    /// Who may say what. Without it nobody is known, and whatever is given counts.
    pub authority: &'a Authority,
    /// The entries of the car's document, from this visit and others.
    pub car: &'a [Recorded<'a>],
    /// Devices by their keys.
    pub devices: &'a BTreeMap<DeviceId, DeviceFacts>,
    /// People by their codes, from the roster.
    pub people: &'a BTreeMap<OperatorId, Operator>,
    /// The chains of all entries held here, to see gaps; without it only this visit's are looked at.
    pub chains: Option<&'a Chains>,
    /// The other visits known here, to see near misses and doubles.
    pub others: &'a [Brief],
    /// How many entries of this record are here and cannot be read: said, and never taken for what nobody did.
    pub unreadable: usize,
    /// Whether quantities are computed: what lists many stays may do without. Whether a car taken as empty
    /// shows liquid is looked at all the same until it is released.
    pub compute: bool,
    /// What formulas made before, for whoever folds often.
    pub formulas: Option<&'a Formulas>,
}

impl<'a> Context<'a> {
    /// A context that knows nothing but the time and the procedures.
    pub fn at(now: UtcMillis, procedures: &'a Procedures) -> Context<'a> {
        Context {
            now,
            procedures,
            site: None,
            authority: Authority::nobody(),
            car: &[],
            devices: &NO_DEVICES,
            people: &NO_PEOPLE,
            chains: None,
            others: &[],
            unreadable: 0,
            compute: true,
            formulas: None,
        }
    }

    /// The time zone of the site, or UTC.
    pub fn zone(&self) -> chrono_tz::Tz {
        self.site.and_then(|site| site.zone.parse().ok()).unwrap_or(chrono_tz::Tz::UTC)
    }

    pub(super) fn standing(&self, entry: &Entry, received_at: Option<UtcMillis>) -> Standing {
        match self.devices.get(&entry.device).map(|facts| facts.revoked_at) {
            None => Standing::NotCertified,
            Some(None) if self.authority.was_made_before_enrolment(entry) => Standing::BeforeEnrolment,
            Some(None) => Standing::Certified,
            Some(Some(revoked)) if received_at.is_some_and(|at| at < revoked) => Standing::BeforeRevocation,
            Some(Some(_)) => Standing::NotHeldBeforeRevocation,
        }
    }
}
