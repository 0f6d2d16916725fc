//! Device certificates: the organisation's signed word that a key belongs to one of its devices, and
//! what that device may do where.
//!
//! Version one said organisation, name and role, and means "all sites, by role". Version two also says
//! who issued it, the sites, the rights, until when, and with which entry a revoked device ends. What
//! follows from a certificate is decided in `authority`.

use serde::{Deserialize, Serialize};

use super::cbor;
use super::error::EntryError;
use super::key::{OrganisationKey, PublicKey, open_envelope_as};
use super::organisation::{KeyFault, Trusts, Use};
use crate::clock::UtcMillis;
use crate::ids::{DeviceId, EntryId, OrganisationId, SiteId};

/// What a device or person may do, as a bundle of rights.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Role {
    /// Records at the siding.
    Operator,
    /// Reads everything, settles, issues and revokes.
    Office,
    /// Reads what it is given.
    Inspector,
}

impl Role {
    /// Every role.
    pub const ALL: [Role; 3] = [Role::Operator, Role::Office, Role::Inspector];

    /// The word a role is typed, shown and stored under.
    pub const fn as_str(self) -> &'static str {
        match self {
            Role::Operator => "operator",
            Role::Office => "office",
            Role::Inspector => "inspector",
        }
    }
}

/// One thing a device may do, at the sites of its certificate.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Right {
    /// Record a stay: everything seen, done, read and said there.
    Record,
    /// Settle a disagreement, correct what another recorded, join two records of one stay.
    Settle,
    /// Lift a hold.
    LiftHold,
    /// Pass over what speaks against release, with a reason.
    Override,
    /// Release the car.
    Release,
    /// Take back what another recorded.
    WithdrawOthers,
    /// Say what a site is: tanks, instruments, hoses, whom to call.
    KeepSite,
    /// Issue seals to a site.
    IssueSeals,
    /// Say who belongs to the organisation, whose key is whose, and what roles may do.
    KeepPeople,
    /// Publish procedures.
    PublishProcedures,
    /// Admit what a revoked or lost device still delivered.
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

    /// The wire word.
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

    /// Reads the wire word.
    pub fn read(word: &str) -> Option<Right> {
        Right::ALL.into_iter().find(|right| right.word() == word)
    }
}

/// The last entry of a device that its organisation had when it was revoked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct LastEntry {
    /// Its number in the device's chain.
    pub seq: u64,
    /// Which it is.
    pub entry: EntryId,
}

/// What a certificate gave before it was renewed, for the entries made until then.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct EarlierGrant {
    /// The role.
    pub role: Role,
    /// The sites; absent means all.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sites: Option<Vec<SiteId>>,
    /// The rights; absent means by role.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rights: Option<Vec<Right>>,
    /// The last entry of the device that the organisation had then.
    pub last: LastEntry,
}

/// Who a device is, in the organisation's words.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Certificate {
    /// The organisation.
    pub organisation: OrganisationId,
    /// The device's public key.
    pub device: DeviceId,
    /// The name it was enrolled under.
    pub name: String,
    /// What it may do.
    pub role: Role,
    /// When it was issued, by the server's clock.
    pub issued_at: UtcMillis,
    /// When it was revoked, by the server's clock. A later certificate of the same device replaces
    /// an earlier one; once revoked a device stays revoked.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub revoked_at: Option<UtcMillis>,
    /// Version two: the public key that issued it. Absent in version one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub issuer: Option<PublicKey>,
    /// The sites it is for; absent means all of them, also those that come later.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sites: Option<Vec<SiteId>>,
    /// What it may do, in place of what its role may.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rights: Option<Vec<Right>>,
    /// When it was issued last: of two certificates of one device the later counts. Absent in version
    /// one, where a revoked one counts.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub renewed_at: Option<UtcMillis>,
    /// Until when it holds, by the server's clock; absent means until it is revoked.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub valid_until: Option<UtcMillis>,
    /// With a revocation: the last entry the organisation had of the device. What lies after it is late.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub last: Option<LastEntry>,
    /// What it gave before, oldest first: a device that was given other sites does not lose what it recorded
    /// at the ones before.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub earlier: Vec<EarlierGrant>,
}

const VERSION_ONE: &str = "farsiding certificate 1";
const VERSION_TWO: &str = "farsiding certificate 2";

impl Certificate {
    /// A certificate as version one wrote it: all sites, by role, until revoked.
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
    /// [`EntryError`] when it cannot be encoded, or says what version one cannot say without naming its issuer.
    pub fn seal(&self, key: &OrganisationKey) -> Result<Vec<u8>, EntryError> {
        self.check_form()?;
        if self.issuer.is_some_and(|issuer| issuer != key.signer()) {
            return Err(EntryError::WrongSigner);
        }
        Ok(key.seal(cbor::encode(self)?, self.purpose()))
    }

    /// Checks a certificate against the organisation's keys.
    ///
    /// # Errors
    /// [`EntryError`] when the envelope, the signature or the signer is not right, [`EntryError::Key`] when the
    /// signer is one of the organisation's keys and may not have signed this.
    pub fn open(bytes: &[u8], organisation: &dyn Trusts) -> Result<Certificate, EntryError> {
        Ok(Certificate::open_signed(bytes, organisation)?.1)
    }

    /// As [`Certificate::open`], with the key that signed it.
    ///
    /// # Errors
    /// As [`Certificate::open`].
    pub fn open_signed(
        bytes: &[u8],
        organisation: &dyn Trusts,
    ) -> Result<(PublicKey, Certificate), EntryError> {
        let (signer, certificate) = open_envelope_as(bytes, |payload| {
            let certificate: Certificate = cbor::decode(payload)?;
            Ok((certificate.purpose(), certificate))
        })?;
        let root = organisation.root();
        // A key named by the root says whose certificate it issues, and as whom.
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

    /// The last of its times: when it was issued, renewed or revoked.
    pub fn said_at(&self) -> UtcMillis {
        let last = [self.renewed_at, self.revoked_at].into_iter().flatten().max();
        last.map_or(self.issued_at, |last| last.max(self.issued_at))
    }

    /// What only version two can say is never read out of a version-one certificate.
    fn check_form(&self) -> Result<(), EntryError> {
        let says_more = self.sites.is_some()
            || self.rights.is_some()
            || self.renewed_at.is_some()
            || self.valid_until.is_some()
            || self.last.is_some()
            || !self.earlier.is_empty();
        if self.issuer.is_none() && says_more {
            return Err(EntryError::NotAllowed(
                "a certificate of version one has no sites or rights".to_owned(),
            ));
        }
        if self.last.is_some() && self.revoked_at.is_none() {
            return Err(EntryError::NotAllowed("only a revocation names a last entry".to_owned()));
        }
        Ok(())
    }

    /// Whether this certificate counts before another of the same device: once revoked, always revoked;
    /// otherwise the one issued last.
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
        // The same payload signed for version one would hide its sites from a reader of version one.
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
