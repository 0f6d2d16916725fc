//! Device certificates: the organisation's signed statement that a key belongs to one of its devices, and
//! what that device may do at which sites.
//!
//! A certificate of version one contains organisation, name and role, and applies to all sites. Version two
//! adds the issuer, the sites, the rights, the expiry, and the last entry of a revoked device. The
//! consequences of a certificate are decided in `authority`.

use serde::{Deserialize, Serialize};

use super::cbor;
use super::error::EntryError;
use super::key::{OrganisationKey, PublicKey, open_envelope_as};
use super::organisation::{KeyFault, Trusts, Use};
use crate::Message;
use crate::clock::UtcMillis;
use crate::ids::{DeviceId, EntryId, OrganisationId, SiteId};

fn malformed(why: &str) -> EntryError {
    EntryError::NotAllowed(why.to_owned(), Message::new("refusal-certificate"))
}

/// The role of a device, which stands for a set of rights.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Role {
    /// Records work at the siding.
    Operator,
    /// Reads everything, settles disagreements, issues and revokes certificates.
    Office,
    /// Reads the records handed to it.
    Inspector,
}

impl Role {
    /// Every role.
    pub const ALL: [Role; 3] = [Role::Operator, Role::Office, Role::Inspector];

    /// Returns the word for the role as typed, shown and stored.
    pub const fn as_str(self) -> &'static str {
        match self {
            Role::Operator => "operator",
            Role::Office => "office",
            Role::Inspector => "inspector",
        }
    }
}

/// One thing that a device may do at the sites of its certificate.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Right {
    /// Record a stay: everything observed, done, read or said there.
    Record,
    /// Settle a disagreement, correct an entry of another device, join two visits of one stay.
    Settle,
    /// Lift a hold.
    LiftHold,
    /// Pass over a blocker, with a reason.
    Override,
    /// Release the car.
    Release,
    /// Withdraw an entry of another device.
    WithdrawOthers,
    /// Maintain the record of a site: tanks, instruments, hoses, contacts.
    KeepSite,
    /// Issue seals to a site.
    IssueSeals,
    /// Maintain the record of the organisation's people, their keys, and the rights of roles.
    KeepPeople,
    /// Publish procedures.
    PublishProcedures,
    /// Admit late entries of a revoked or lost device.
    Admit,
    /// Enrol and revoke devices.
    Enrol,
    /// Receive records.
    Read,
}

impl Right {
    /// Every right.
    pub const ALL: [Right; 13] = [
        Right::Record,
        Right::Settle,
        Right::LiftHold,
        Right::Override,
        Right::Release,
        Right::WithdrawOthers,
        Right::KeepSite,
        Right::IssueSeals,
        Right::KeepPeople,
        Right::PublishProcedures,
        Right::Admit,
        Right::Enrol,
        Right::Read,
    ];

    /// Returns the word used on the wire.
    pub const fn word(self) -> &'static str {
        match self {
            Right::Record => "record",
            Right::Settle => "settle",
            Right::LiftHold => "lift_hold",
            Right::Override => "override",
            Right::Release => "release",
            Right::WithdrawOthers => "withdraw_others",
            Right::KeepSite => "keep_site",
            Right::IssueSeals => "issue_seals",
            Right::KeepPeople => "keep_people",
            Right::PublishProcedures => "publish_procedures",
            Right::Admit => "admit",
            Right::Enrol => "enrol",
            Right::Read => "read",
        }
    }

    /// Parses the word used on the wire.
    pub fn read(word: &str) -> Option<Right> {
        Right::ALL.into_iter().find(|right| right.word() == word)
    }
}

/// The last entry of a device that its organisation had received when the device was revoked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct LastEntry {
    /// The entry's number in the device's chain.
    pub seq: u64,
    /// The entry's id.
    pub entry: EntryId,
}

/// What a certificate granted before it was renewed; it applies to entries made until then.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct EarlierGrant {
    /// The role.
    pub role: Role,
    /// The sites; absent for all sites.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sites: Option<Vec<SiteId>>,
    /// The rights; absent for those of the role.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rights: Option<Vec<Right>>,
    /// The last entry of the device that the organisation had received at the renewal.
    pub last: LastEntry,
}

/// The content of a device certificate.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Certificate {
    /// The organisation.
    pub organisation: OrganisationId,
    /// The device's public key.
    pub device: DeviceId,
    /// The name it was enrolled under.
    pub name: String,
    /// The device's role.
    pub role: Role,
    /// The time of issue by the server's clock.
    pub issued_at: UtcMillis,
    /// The time of revocation by the server's clock. A later certificate of a device replaces an earlier one,
    /// but a revoked device stays revoked.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub revoked_at: Option<UtcMillis>,
    /// The public key of the issuer; absent in version one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub issuer: Option<PublicKey>,
    /// The sites the certificate applies to; absent for all sites, including future ones.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sites: Option<Vec<SiteId>>,
    /// The rights that replace those of the role.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rights: Option<Vec<Right>>,
    /// The time of the last issue; of two certificates of a device the later one counts. Absent in version
    /// one, where a revoked certificate counts.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub renewed_at: Option<UtcMillis>,
    /// The time of expiry by the server's clock; absent if the certificate is valid until it is revoked.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub valid_until: Option<UtcMillis>,
    /// For a revoked device, its last entry that the organisation had received. Entries after it are late.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub last: Option<LastEntry>,
    /// The earlier grants, oldest first. Because of them a device that is assigned other sites keeps the
    /// entries it made at its previous sites.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub earlier: Vec<EarlierGrant>,
}

const VERSION_ONE: &str = "farsiding certificate 1";
const VERSION_TWO: &str = "farsiding certificate 2";

impl Certificate {
    /// Creates a certificate of version one: all sites, the rights of the role, valid until revoked.
    pub fn by_role(
        organisation: OrganisationId,
        device: DeviceId,
        name: impl Into<String>,
        role: Role,
        issued_at: UtcMillis,
    ) -> Certificate {
        Certificate {
            organisation,
            device,
            name: name.into(),
            role,
            issued_at,
            revoked_at: None,
            issuer: None,
            sites: None,
            rights: None,
            renewed_at: None,
            valid_until: None,
            last: None,
            earlier: Vec::new(),
        }
    }

    fn purpose(&self) -> &'static str {
        if self.issuer.is_some() { VERSION_TWO } else { VERSION_ONE }
    }

    /// Signs the certificate.
    ///
    /// # Errors
    /// [`EntryError`] if the certificate cannot be encoded, or has fields of version two without an issuer.
    pub fn seal(&self, key: &OrganisationKey) -> Result<Vec<u8>, EntryError> {
        self.check_form()?;
        if self.issuer.is_some_and(|issuer| issuer != key.signer()) {
            return Err(EntryError::WrongSigner);
        }
        Ok(key.seal(cbor::encode(self)?, self.purpose()))
    }

    /// Opens a certificate and checks it with the organisation's keys.
    ///
    /// # Errors
    /// [`EntryError`] if the envelope, the signature or the signer is wrong; [`EntryError::Key`] if the
    /// signer is one of the organisation's keys but was not permitted to sign this certificate.
    pub fn open(bytes: &[u8], organisation: &dyn Trusts) -> Result<Certificate, EntryError> {
        Ok(Certificate::open_signed(bytes, organisation)?.1)
    }

    /// Does the same as [`Certificate::open`] and also returns the key that signed.
    ///
    /// # Errors
    /// As for [`Certificate::open`].
    pub fn open_signed(
        bytes: &[u8],
        organisation: &dyn Trusts,
    ) -> Result<(PublicKey, Certificate), EntryError> {
        let (signer, certificate) = open_envelope_as(bytes, |payload| {
            let certificate: Certificate = cbor::decode(payload)?;
            Ok((certificate.purpose(), certificate))
        })?;
        let root = organisation.root();
        // A key that the root named must state itself as the issuer.
        let named = signer == root
            || (certificate.issuer.is_some() && certificate.organisation == OrganisationId::of_key(&root));
        if !named || certificate.issuer.is_some_and(|issuer| issuer != signer) {
            return Err(EntryError::WrongSigner);
        }
        match organisation.allows(&signer, Use::Certificate { at: certificate.said_at() }) {
            Ok(()) => {}
            Err(KeyFault::Unknown(_)) => return Err(EntryError::WrongSigner),
            Err(fault) => return Err(fault.into()),
        }
        certificate.check_form()?;
        Ok((signer, certificate))
    }

    /// Returns the latest of the certificate's times of issue, renewal and revocation.
    pub fn said_at(&self) -> UtcMillis {
        let last = [self.renewed_at, self.revoked_at].into_iter().flatten().max();
        last.map_or(self.issued_at, |last| last.max(self.issued_at))
    }

    /// Checks that a certificate of version one has no fields of version two.
    fn check_form(&self) -> Result<(), EntryError> {
        let says_more = self.sites.is_some()
            || self.rights.is_some()
            || self.renewed_at.is_some()
            || self.valid_until.is_some()
            || self.last.is_some()
            || !self.earlier.is_empty();
        if self.issuer.is_none() && says_more {
            return Err(malformed("a certificate of version one has no sites or rights"));
        }
        if self.last.is_some() && self.revoked_at.is_none() {
            return Err(malformed("only a revocation names a last entry"));
        }
        Ok(())
    }

    /// Returns true if this certificate takes precedence over another one of the same device: a revoked one
    /// over one that is not, otherwise the one issued later.
    pub fn supersedes(&self, other: &Certificate) -> bool {
        let rank = |c: &Certificate| {
            (c.revoked_at.is_some(), c.renewed_at.unwrap_or(c.issued_at), c.issuer.is_some(), c.revoked_at)
        };
        rank(self) > rank(other)
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;

    fn key() -> OrganisationKey {
        OrganisationKey::from_secret([5; 32])
    }

    fn plain() -> Certificate {
        let organisation = OrganisationId::of_key(&key().public());
        Certificate::by_role(organisation, DeviceId([9; 32]), "phone", Role::Operator, UtcMillis(1_000))
    }

    #[test]
    fn a_certificate_of_version_two_is_never_read_as_one_of_version_one() {
        let limited =
            Certificate { issuer: Some(key().public()), sites: Some(vec![SiteId([1; 16])]), ..plain() };
        let bytes = limited.seal(&key()).unwrap();
        assert_eq!(Certificate::open(&bytes, &key().public()).unwrap(), limited);
        // Signed as version one, this payload would hide its sites from a reader of version one.
        let smuggled = key().seal(cbor::encode(&limited).unwrap(), VERSION_ONE);
        assert!(Certificate::open(&smuggled, &key().public()).is_err());
        let unnamed = Certificate { issuer: None, ..limited };
        assert!(unnamed.seal(&key()).is_err());
        let smuggled = key().seal(cbor::encode(&unnamed).unwrap(), VERSION_ONE);
        assert!(Certificate::open(&smuggled, &key().public()).is_err());
    }

    #[test]
    fn another_organisations_word_is_no_certificate_here() {
        let other = OrganisationKey::from_secret([6; 32]);
        let bytes = plain().seal(&other).unwrap();
        assert_eq!(Certificate::open(&bytes, &key().public()), Err(EntryError::WrongSigner));
    }

    #[test]
    fn once_revoked_stays_revoked_whichever_comes_later() {
        let revoked = Certificate { revoked_at: Some(UtcMillis(5_000)), ..plain() };
        let renewed =
            Certificate { issuer: Some(key().public()), renewed_at: Some(UtcMillis(9_000)), ..plain() };
        assert!(revoked.supersedes(&renewed));
        assert!(!renewed.supersedes(&revoked));
        assert!(renewed.supersedes(&plain()));
        assert!(!plain().supersedes(&plain()));
    }
}
