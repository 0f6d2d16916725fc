//! The input of a fold besides entries: the time, the procedures, the site, the car, the devices.
//!
//! All input is passed as arguments, so that a view can be reproduced from the same input. On a device `book`
//! fills in the context, at the office the server does.

use std::collections::BTreeMap;

use serde::Serialize;

use super::chain::Chains;
use super::editions::Editions;
use super::formulas::Formulas;
use super::near::Brief;
use super::people::Person;
use super::site::SiteView;
use crate::Message;
use crate::authority::Authority;
use crate::clock::UtcMillis;
use crate::entry::{Certificate, Entry, Role};
use crate::ids::{DeviceId, Digest, OperatorId};
use crate::procedure::{Procedure, Procedures};

/// An entry with what is known about its transfer to the server.
#[derive(Clone, Copy, Debug)]
pub struct Recorded<'a> {
    /// The checked entry.
    pub entry: &'a Entry,
    /// Whether a verified receipt of the server covers the entry.
    pub receipted: bool,
    /// The time when the server received the entry, by the server's clock; `None` if it is not known here.
    pub received_at: Option<UtcMillis>,
}

impl<'a> Recorded<'a> {
    /// Returns the entry and the time of its arrival at the office, in the form that authority takes.
    pub fn received(&self) -> (&'a Entry, Option<UtcMillis>) {
        (self.entry, self.received_at)
    }

    /// Creates the record of an entry that is not known to have left its device.
    pub fn unsent(entry: &'a Entry) -> Recorded<'a> {
        Recorded { entry, receipted: false, received_at: None }
    }
}

/// What is known about a device.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DeviceFacts {
    /// The name it was enrolled under.
    pub name: String,
    /// The device's role.
    pub role: Role,
    /// The time of its revocation by the server's clock.
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

/// The standing of the device that made an entry with its organisation.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Standing {
    /// The device has the organisation's certificate.
    Certified,
    /// By the device's clock, the entry was made before the device was certified.
    BeforeEnrolment,
    /// No certificate of the device is known here: the device was not enrolled, or its certificate has not
    /// arrived yet.
    NotCertified,
    /// The device was revoked later, and the server had received the entry before that.
    BeforeRevocation,
    /// The device was revoked, and the server had not received the entry before that. The time that the entry
    /// claims proves nothing.
    NotHeldBeforeRevocation,
}

impl Standing {
    /// Returns a warning for people, or `None` in the ordinary case.
    pub fn warning(self) -> Option<Message> {
        let word = match self {
            Standing::Certified | Standing::BeforeRevocation => return None,
            Standing::BeforeEnrolment => "before_enrolment",
            Standing::NotCertified => "not_certified",
            Standing::NotHeldBeforeRevocation => "revoked",
        };
        Some(Message::term("standing", word))
    }
}

static NO_DEVICES: BTreeMap<DeviceId, DeviceFacts> = BTreeMap::new();
static NO_PEOPLE: BTreeMap<OperatorId, Person> = BTreeMap::new();

/// The input of a fold besides the visit's entries.
#[derive(Clone, Copy, Debug)]
pub struct Context<'a> {
    /// The present time.
    pub now: UtcMillis,
    /// The known procedures.
    pub procedures: &'a Procedures,
    /// The editions that the organisation published, from the roster.
    pub editions: Option<&'a Editions>,
    /// The site, folded from its document. Without it times are shown in UTC.
    pub site: Option<&'a SiteView>,
    /// The authority that judges entries. Without certificates every entry counts.
    pub authority: &'a Authority,
    /// The entries of the car's document, from this visit and others.
    pub car: &'a [Recorded<'a>],
    /// The entries of other cars at the site on which this stay rests, or could (see `view::is_of_the_track`).
    pub track: &'a [Recorded<'a>],
    /// Devices by their keys.
    pub devices: &'a BTreeMap<DeviceId, DeviceFacts>,
    /// People by their codes, from the roster and the names beside it.
    pub people: &'a BTreeMap<OperatorId, Person>,
    /// The chains of all entries held here, for finding gaps. Without them only this visit's entries are
    /// examined.
    pub chains: Option<&'a Chains>,
    /// The other known visits, for finding similar car numbers and duplicate records.
    pub others: &'a [Brief],
    /// The number of damaged entries of this record. It is reported, so that they are not taken for work that
    /// nobody did.
    pub unreadable: usize,
    /// Whether to compute quantities; lists of many stays can do without. Until the car is released, the
    /// evidence of remaining liquid is weighed in any case.
    pub compute: bool,
    /// Cached results of formulas, for callers that fold often.
    pub formulas: Option<&'a Formulas>,
}

impl<'a> Context<'a> {
    /// Creates a context with only the time and the procedures.
    pub fn at(now: UtcMillis, procedures: &'a Procedures) -> Context<'a> {
        Context {
            now,
            procedures,
            editions: None,
            site: None,
            authority: Authority::nobody(),
            car: &[],
            track: &[],
            devices: &NO_DEVICES,
            people: &NO_PEOPLE,
            chains: None,
            others: &[],
            unreadable: 0,
            compute: true,
            formulas: None,
        }
    }

    /// Returns the procedure with this digest: a built-in one, or an edition of the organisation.
    pub fn procedure(&self, digest: Digest) -> Option<&'a Procedure> {
        self.procedures.get(digest).or_else(|| self.editions?.get(digest))
    }

    /// Returns the time zone of the site, or UTC.
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
