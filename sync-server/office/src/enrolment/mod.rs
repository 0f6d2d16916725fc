//! Enrols devices by one-time codes, changes what a device is granted, and revokes devices.
//!
//! A code has twelve characters from an alphabet of 30 letters and digits without look-alikes, which are 58
//! random bits. It is valid for one device and for some minutes, so it cannot be guessed, and storing its
//! hash is enough. A device whose answer was lost may ask again with the same code. A code never changes a
//! device that is enrolled already; only the office changes a grant ([`change`]).

pub mod narrowing;

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::{
    Certificate, EarlierGrant, EntryError, LastEntry, OrganisationKey, Role, Trusts as _, Use, is_sound_key,
};
use farsiding_core::ids::{DeviceId, Digest, Randomness};
use farsiding_core::store::{Store, StoreError, Write};
use farsiding_core::sync::{CERTIFICATES_VERSION, parting_time};
use farsiding_words::{Language, Words};

use crate::data_folder::organisation_id;
use crate::database_error::DatabaseError;
use crate::grants::Grant;
use crate::index::IndexError;
use crate::index::ledger_reader::LedgerReader;
use crate::language;
use crate::ledger::LedgerPlace;
use crate::names::{clean_name, plain_name};
use crate::office_database::{IssuedCode, NewDevice, OfficeDatabase, RegisteredDevice};

/// The id of the name that the office signer is enrolled under, in the language that the organisation has then. The
/// certificate keeps that name.
const OFFICE_SIGNER: &str = "office-devices-desk";

/// Returns the name of the office signer among the devices.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn office_signer_name(database: &OfficeDatabase) -> Result<String, DatabaseError> {
    Ok(language::organisation_words(database)?.say(OFFICE_SIGNER))
}

/// Returns true if the name is that of the office signer in any language.
fn is_of_office_signer(plain: &str) -> bool {
    Language::all().any(|language| plain_name(&Words::of(language).say(OFFICE_SIGNER)) == plain)
}

/// Why a device was not enrolled or revoked.
#[derive(Debug, thiserror::Error)]
pub enum EnrolmentError {
    /// There is no such code.
    #[error("this code is not one of ours: check it letter by letter, or ask the office for a new one")]
    WrongCode,
    /// The code has expired.
    #[error("this code has expired: ask the office for a new one")]
    Expired,
    /// Another device has used the code.
    #[error("this code has already enrolled another device: ask the office for a new one")]
    AlreadyUsed,
    /// A newer code for the same name has replaced this one.
    #[error("another code was made for this name since, and this one is good no longer: use the newer one")]
    Replaced,
    /// The device is enrolled already, and a code does not change that.
    #[error(
        "this device is enrolled already, as \"{0}\"; a code changes nothing about it. What it may do is \
         changed at the office, on the page Devices"
    )]
    AlreadyEnrolled(String),
    /// Another device has the name.
    #[error(
        "another device is called \"{name}\" ({id}); two devices of one name could not be told apart in a \
         record. Choose another name, such as \"{free}\""
    )]
    NameTaken {
        /// The name of the other device.
        name: String,
        /// The beginning of the other device's id.
        id: String,
        /// A similar name that is free.
        free: String,
    },
    /// The name is reserved for the office signer.
    #[error("\"{0}\" is what the office's own device is called; choose another name")]
    NameOfTheOffice(String),
    /// The bytes are not a valid public key.
    #[error("this is no key a device can have; set the device up anew")]
    NoKey,
    /// The device was revoked and cannot be enrolled again.
    #[error("this device was revoked and stays so: set it up anew (a new key) and ask for a new code")]
    Revoked,
    /// There is no device of that name or id.
    #[error("no device is called or numbered \"{0}\"")]
    NoSuchDevice(String),
    /// Several devices match the name or id.
    #[error("several devices fit \"{text}\"; give one of these ids: {choices}")]
    Ambiguous {
        /// The given text.
        text: String,
        /// The devices that match.
        choices: String,
    },
    /// The name is empty, too long or otherwise invalid.
    #[error("a device needs a name of 1 to 64 characters without line breaks")]
    BadName,
    /// The office database failed.
    #[error(transparent)]
    OfficeDatabase(#[from] DatabaseError),
    /// The ledger failed.
    #[error(transparent)]
    Ledger(#[from] StoreError),
    /// The ledger could not be read.
    #[error(transparent)]
    Reading(#[from] IndexError),
    /// The certificate could not be written.
    #[error(transparent)]
    Certificate(#[from] EntryError),
}

/// The alphabet of codes. It lacks 0, O, 1, I, L and U, which are easily misread.
const ALPHABET: &[u8; 30] = b"23456789ABCDEFGHJKMNPQRSTVWXYZ";
const LETTERS: usize = 12;

/// Returns a new one-time code in three groups of four characters.
pub fn new_code(randomness: &mut dyn Randomness) -> String {
    let mut code = String::with_capacity(LETTERS + 2);
    let mut letters = 0;
    while letters < LETTERS {
        let mut byte = [0u8; 1];
        randomness.fill(&mut byte);
        // 240 is the largest multiple of 30 that fits in a byte. Using larger values would make some letters
        // more likely.
        if byte[0] >= 240 {
            continue;
        }
        if letters > 0 && letters % 4 == 0 {
            code.push('-');
        }
        code.push(char::from(ALPHABET[usize::from(byte[0] % 30)]));
        letters += 1;
    }
    code
}

/// Returns the hash under which a code is stored. The code is first put into upper case, without dashes and
/// spaces.
pub fn code_hash(code: &str) -> Digest {
    let plain: String =
        code.chars().filter(char::is_ascii_alphanumeric).map(|c| c.to_ascii_uppercase()).collect();
    Digest::of(format!("farsiding enrolment code {plain}").as_bytes())
}

/// A device that the office is going to enrol.
#[derive(Debug, Clone)]
pub struct Invitation<'a> {
    /// The device's name.
    pub name: &'a str,
    /// The device's role.
    pub role: Role,
    /// The device's grant.
    pub grant: Grant,
    /// The number of minutes for which the code is valid.
    pub minutes: u32,
}

/// A new code.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MadeCode {
    /// The code, which is stored nowhere.
    pub code: String,
    /// The time at which the code expires.
    pub expires_at: UtcMillis,
    /// Whether the code replaces an open code for the same name.
    pub replaces: bool,
}

/// Issues a code for a device. A name that another device has is refused. An open code for the same name
/// becomes invalid.
///
/// # Errors
/// Returns an [`EnrolmentError`] when the name is refused or the database fails.
pub fn issue(
    database: &OfficeDatabase,
    invitation: &Invitation<'_>,
    now: UtcMillis,
    randomness: &mut dyn Randomness,
) -> Result<MadeCode, EnrolmentError> {
    let name = clean_name(invitation.name).ok_or(EnrolmentError::BadName)?;
    let plain = plain_name(&name);
    if is_of_office_signer(&plain) {
        return Err(EnrolmentError::NameOfTheOffice(name));
    }
    let code = new_code(randomness);
    let expires_at = UtcMillis(now.0.saturating_add(i64::from(invitation.minutes) * 60_000));
    let row = IssuedCode {
        name,
        role: invitation.role,
        grant: invitation.grant.clone().for_role(invitation.role),
        expires_at,
        used_by: None,
        replaced_at: None,
    };
    let is_same = |other: &str| plain_name(other) == plain;
    let replaces = database
        .add_code(code_hash(&code), &row, now, is_same, |devices| check_name(&row.name, None, devices))?;
    Ok(MadeCode { code, expires_at, replaces })
}

/// Refuses a name that people could not tell from the name of another device. Revoked devices count as well,
/// because their entries stay in the records.
fn check_name(
    name: &str,
    whose: Option<DeviceId>,
    devices: &[RegisteredDevice],
) -> Result<(), EnrolmentError> {
    let taken = |name: &str| {
        let plain = plain_name(name);
        devices.iter().find(|other| Some(other.device) != whose && plain_name(&other.name) == plain)
    };
    let Some(other) = taken(name) else { return Ok(()) };
    let short: String = name.chars().take(56).collect();
    let free = (2..).map(|number| format!("{short} ({number})")).find(|free| taken(free).is_none());
    Err(EnrolmentError::NameTaken {
        name: other.name.clone(),
        id: other.device.short(),
        free: free.unwrap_or_default(),
    })
}

/// Uses a code for a device and returns the device's certificate. The caller must check that the device holds
/// its key.
///
/// # Errors
/// Returns an [`EnrolmentError`] when the code is refused or the certificate cannot be written.
pub fn redeem(
    database: &OfficeDatabase,
    store: &mut dyn Store,
    key: &OrganisationKey,
    code: &str,
    device: DeviceId,
    own_name: &str,
    now: UtcMillis,
) -> Result<Vec<u8>, EnrolmentError> {
    if !is_sound_key(&device) {
        return Err(EnrolmentError::NoKey);
    }
    let own_name = clean_name(own_name).unwrap_or_default();
    let asking = (device, own_name.as_str(), key.signer());
    let registered = database.use_code(code_hash(code), asking, now, |code, before, devices| {
        let code = code.ok_or(EnrolmentError::WrongCode)?;
        let own = code.used_by == Some(device);
        match code.used_by {
            Some(_) if !own => return Err(EnrolmentError::AlreadyUsed),
            None if code.replaced_at.is_some() => return Err(EnrolmentError::Replaced),
            None if now >= code.expires_at => return Err(EnrolmentError::Expired),
            _ => {}
        }
        match before {
            Some(before) if before.revoked_at.is_some() => Err(EnrolmentError::Revoked),
            Some(_) if own => Ok(()),
            Some(before) => Err(EnrolmentError::AlreadyEnrolled(before.name.clone())),
            None => check_name(&code.name, Some(device), devices),
        }
    })?;
    certify(database, store, key, registered, now)
}

/// Enrols the office signer, which needs no code. Its name is `name`, followed by a number if a device
/// already has that name.
///
/// # Errors
/// Returns an [`EnrolmentError`] when the certificate cannot be written.
pub fn enrol_own(
    database: &OfficeDatabase,
    store: &mut dyn Store,
    key: &OrganisationKey,
    (device, name): (DeviceId, &str),
    now: UtcMillis,
) -> Result<(), EnrolmentError> {
    let name = match check_name(name, Some(device), &database.devices()?) {
        Err(EnrolmentError::NameTaken { free, .. }) => free,
        _ => name.to_owned(),
    };
    let (own_name, grant) = (name.as_str(), Grant::default());
    let new = NewDevice {
        device,
        name: own_name,
        own_name,
        role: Role::Office,
        grant: &grant,
        issuer: key.signer(),
    };
    let registered = database.add_device(&new, now)?;
    certify(database, store, key, registered, now)?;
    Ok(())
}

/// Changes the grant of a device, or grants the same again, and issues its certificate again.
///
/// # Errors
/// Returns an [`EnrolmentError`]; a revoked device is not changed.
pub fn change(
    database: &OfficeDatabase,
    (store, ledger_file): (&mut dyn Store, &LedgerPlace),
    key: &OrganisationKey,
    (text, grant): (&str, &Grant),
    now: UtcMillis,
) -> Result<RegisteredDevice, EnrolmentError> {
    let device = find(database, text)?;
    if device.revoked_at.is_some() {
        return Err(EnrolmentError::Revoked);
    }
    issue_anew(database, (store, ledger_file), key, (&device, grant), now)
}

/// Issues a device's certificate again with its present grant, under the current rules.
///
/// # Errors
/// Returns an [`EnrolmentError`] when the certificate cannot be written.
pub fn renew(
    database: &OfficeDatabase,
    stores: (&mut dyn Store, &LedgerPlace),
    key: &OrganisationKey,
    device: &RegisteredDevice,
    now: UtcMillis,
) -> Result<RegisteredDevice, EnrolmentError> {
    issue_anew(database, stores, key, (device, &device.grant.clone()), now)
}

fn issue_anew(
    database: &OfficeDatabase,
    (store, ledger_file): (&mut dyn Store, &LedgerPlace),
    key: &OrganisationKey,
    (device, grant): (&RegisteredDevice, &Grant),
    now: UtcMillis,
) -> Result<RegisteredDevice, EnrolmentError> {
    let mut earlier = device.earlier.clone();
    // The rights up to now are taken from the certificate, because rules may have narrowed the grant.
    let before = certificate_of(store, key, device.device)?;
    let (sites, rights) = match before {
        Some(before) => (before.sites, before.rights),
        None => (device.grant.sites.clone(), device.grant.rights.clone()),
    };
    let gives = narrowing::narrowed(device.role, grant, &narrowing::rules(store, key)?);
    let gives_the_same = sites == grant.sites && rights == gives;
    let last = last_of(&LedgerReader::open(ledger_file)?.chain_of(device.device)?);
    if let (Some(last), false) = (last, gives_the_same) {
        earlier.push(EarlierGrant { role: device.role, sites, rights, last });
    }
    let changed = database.change_grant(device.device, (grant, &earlier), key.signer(), now)?;
    let changed = changed.ok_or_else(|| EnrolmentError::NoSuchDevice(device.name.clone()))?;
    certify(database, store, key, changed.clone(), now)?;
    Ok(changed)
}

/// Returns a device's certificate from the ledger.
///
/// # Errors
/// Returns [`EnrolmentError::Ledger`] when the ledger fails.
pub fn certificate_of(
    store: &dyn Store,
    key: &OrganisationKey,
    device: DeviceId,
) -> Result<Option<Certificate>, EnrolmentError> {
    let bytes = store.certificate(device)?;
    Ok(bytes.and_then(|bytes| Certificate::open(&bytes, key).ok()))
}

/// Revokes a device, given by its name, its id or the beginning of its id. The revocation takes effect at
/// once, also in a running server. The certificate names the last entry that the ledger in `ledger_file` has
/// of the device.
///
/// # Errors
/// Returns an [`EnrolmentError`] when no device or more than one matches, or when the certificate cannot be
/// written.
pub fn revoke(
    database: &OfficeDatabase,
    (store, ledger_file): (&mut dyn Store, &LedgerPlace),
    key: &OrganisationKey,
    text: &str,
    now: UtcMillis,
) -> Result<RegisteredDevice, EnrolmentError> {
    let device = find(database, text)?.device;
    let now = parting_time(store, now)?;
    let last = last_of(&LedgerReader::open(ledger_file)?.chain_of(device)?);
    let revoked = database.revoke(device, last, key.signer(), now)?;
    let revoked = revoked.ok_or_else(|| EnrolmentError::NoSuchDevice(text.to_owned()))?;
    certify(database, store, key, revoked.clone(), now)?;
    Ok(revoked)
}

/// The largest gap between the numbers of two entries of a device that can be due to unsent entries; no phone
/// has so many. Without this limit, the holder of a stolen phone could deliver one entry with a very high
/// number, and everything signed later would seem to come before the revocation.
const LARGEST_GAP: u64 = 10_000;

/// Returns the entry of a chain with the highest number. Entries beyond a gap larger than [`LARGEST_GAP`] are
/// ignored.
fn last_of(chain: &[LastEntry]) -> Option<LastEntry> {
    let mut chain = chain.to_vec();
    chain.sort_by_key(|entry| entry.seq);
    let mut last: Option<LastEntry> = None;
    for entry in chain {
        let before = last.map_or(0, |last| last.seq);
        if entry.seq.saturating_sub(before) > LARGEST_GAP {
            break;
        }
        // Of two entries with the same number, the one that arrived first is used.
        if last.is_none_or(|last| entry.seq > last.seq) {
            last = Some(entry);
        }
    }
    last
}

/// Returns the device with this name, this id or this beginning of an id.
///
/// # Errors
/// Returns an [`EnrolmentError`] when no device or more than one matches.
pub fn find(database: &OfficeDatabase, text: &str) -> Result<RegisteredDevice, EnrolmentError> {
    let wanted = text.trim();
    let devices = database.devices()?;
    let by_name: Vec<&RegisteredDevice> =
        devices.iter().filter(|d| plain_name(&d.name) == plain_name(wanted)).collect();
    let found = if by_name.is_empty() && wanted.len() >= 4 {
        let id = wanted.to_ascii_lowercase();
        devices.iter().filter(|d| d.device.to_string().starts_with(&id)).collect()
    } else {
        by_name
    };
    match found.as_slice() {
        [] => Err(EnrolmentError::NoSuchDevice(text.to_owned())),
        [one] => Ok((*one).clone()),
        several => {
            let digits = digits_apart(several);
            let id = |d: &RegisteredDevice| d.device.to_string().chars().take(digits).collect::<String>();
            let choices: Vec<String> = several.iter().map(|d| format!("{} ({})", id(d), d.name)).collect();
            Err(EnrolmentError::Ambiguous { text: text.to_owned(), choices: choices.join(", ") })
        }
    }
}

/// Returns how many digits of their ids tell these devices apart, but at least eight.
fn digits_apart(devices: &[&RegisteredDevice]) -> usize {
    let ids: Vec<String> = devices.iter().map(|d| d.device.to_string()).collect();
    let told_apart = |digits: &usize| {
        let short: std::collections::BTreeSet<&str> = ids.iter().filter_map(|id| id.get(..*digits)).collect();
        short.len() == ids.len()
    };
    (8..64).find(told_apart).unwrap_or(64)
}

/// Brings the certificates in the ledger into agreement with the database, in case the program crashed
/// between writing the two.
///
/// # Errors
/// Returns an [`EnrolmentError`] when a certificate cannot be written.
pub fn certify_all(
    database: &OfficeDatabase,
    store: &mut dyn Store,
    key: &OrganisationKey,
    now: UtcMillis,
) -> Result<(), EnrolmentError> {
    for device in database.devices()? {
        certify(database, store, key, device, now)?;
    }
    Ok(())
}

/// Signs a device's certificate according to the database and stores it in the ledger, from where sync sends
/// it.
fn certify(
    database: &OfficeDatabase,
    store: &mut dyn Store,
    key: &OrganisationKey,
    mut device: RegisteredDevice,
    now: UtcMillis,
) -> Result<Vec<u8>, EnrolmentError> {
    loop {
        device = issued_in_time(database, store, key, device, now)?;
        let bytes = put_certificate(store, key, &device, now)?;
        // Another process may have changed or revoked the device meanwhile, so the database is read again.
        let issued = |device: &RegisteredDevice| (device.revoked_at, device.renewed_at);
        match database.device(device.device)? {
            Some(current) if issued(&current) != issued(&device) => device = current,
            _ => return Ok(bytes),
        }
    }
}

/// Returns the device. It is first issued again if its certificate must be signed by a key that was not yet
/// valid when the certificate was last issued.
fn issued_in_time(
    database: &OfficeDatabase,
    store: &dyn Store,
    key: &OrganisationKey,
    device: RegisteredDevice,
    now: UtcMillis,
) -> Result<RegisteredDevice, EnrolmentError> {
    let said = [device.renewed_at, device.revoked_at].into_iter().flatten().max();
    let at = said.map_or(device.issued_at, |said| said.max(device.issued_at));
    let by_the_root = key.signer() == key.public();
    let may = key.keys().allows(&key.signer(), Use::Certificate { at }).is_ok();
    if by_the_root || (may && device.issuer.is_some()) || believed(store, key, &device)?.is_some() {
        return Ok(device);
    }
    let issued = database.issue_anew(device.device, key.signer(), now)?;
    issued.ok_or(EnrolmentError::NoSuchDevice(device.name))
}

/// Returns the certificate of a device from the ledger, if its signature is believed and it agrees with the
/// database.
fn believed(
    store: &dyn Store,
    key: &OrganisationKey,
    device: &RegisteredDevice,
) -> Result<Option<Vec<u8>>, EnrolmentError> {
    let Some(bytes) = store.certificate(device.device)? else { return Ok(None) };
    let Ok(known) = Certificate::open(&bytes, key) else { return Ok(None) };
    let wanted = called_for(store, key, device)?;
    let says_the_same =
        Certificate { issuer: None, ..known.clone() } == Certificate { issuer: None, ..wanted.clone() };
    let of_one_version = known.issuer.is_some() == wanted.issuer.is_some();
    Ok((says_the_same && of_one_version).then_some(bytes))
}

/// Returns the certificate that the database calls for.
fn called_for(
    store: &dyn Store,
    key: &OrganisationKey,
    device: &RegisteredDevice,
) -> Result<Certificate, EnrolmentError> {
    let plain = Certificate {
        revoked_at: device.revoked_at,
        ..Certificate::by_role(
            organisation_id(key),
            device.device,
            device.name.clone(),
            device.role,
            device.issued_at,
        )
    };
    // Until somebody changes the device, its certificate stays byte for byte as version one wrote it.
    if device.issuer.is_none() {
        return Ok(plain);
    }
    let rights = narrowing::narrowed(device.role, &device.grant, &narrowing::rules(store, key)?);
    Ok(Certificate {
        issuer: Some(key.signer()),
        sites: device.grant.sites.clone(),
        rights,
        earlier: device.earlier.clone(),
        renewed_at: device.renewed_at,
        valid_until: device.grant.valid_until,
        last: device.last.filter(|_| device.revoked_at.is_some()),
        ..plain
    })
}

fn put_certificate(
    store: &mut dyn Store,
    key: &OrganisationKey,
    device: &RegisteredDevice,
    now: UtcMillis,
) -> Result<Vec<u8>, EnrolmentError> {
    // A new signing key does not sign certificates again that are still believed.
    if let Some(bytes) = believed(store, key, device)? {
        return Ok(bytes);
    }
    let certificate = called_for(store, key, device)?;
    let bytes = certificate.seal(key)?;
    let known = store.certificates()?.into_iter().find(|(id, _)| *id == device.device);
    if known.is_none_or(|(_, before)| before != bytes) {
        // The version must only differ from all earlier ones, because devices compare it for equality. The
        // time together with a part of the certificate's digest achieves that even if two processes write at
        // once.
        let digest = Digest::of(&bytes);
        let version =
            (now.0.cast_unsigned() << 16) | u64::from(u16::from_be_bytes([digest.0[0], digest.0[1]]));
        store.commit(&[
            Write::Certificate { device: device.device, bytes: &bytes },
            Write::Value { key: CERTIFICATES_VERSION, value: &version.to_be_bytes() },
        ])?;
    }
    Ok(bytes)
}

/// Returns the enrolment text: the server's address, the code, and the organisation's public key, by which
/// the device recognises the right server. The text is meant for a QR code. Opened in a browser it leads to
/// the server, and the part after `#` is never sent over the network.
pub fn enrolment_text(url: &str, code: &str, key: &OrganisationKey) -> String {
    use base64::Engine as _;
    let public = base64::engine::general_purpose::URL_SAFE_NO_PAD.encode(key.public().0);
    format!("{}/#enrol={code}&key={public}", url.trim_end_matches('/'))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use farsiding_core::store::MemoryStore;
    use farsiding_testkit::Dice;

    #[test]
    fn a_code_is_easy_to_say_and_forgives_how_it_is_typed() {
        let code = new_code(&mut Dice::of(3));
        assert_eq!(code.len(), 14, "{code}");
        assert!(code.chars().all(|c| c == '-' || (c.is_ascii_alphanumeric() && !"01OILU".contains(c))));
        let typed = code.to_lowercase().replace('-', " ");
        assert_eq!(code_hash(&typed), code_hash(&code));
        assert_ne!(code_hash("AAAA-AAAA-AAAA"), code_hash(&code));
    }

    #[test]
    fn a_name_is_one_short_line() {
        assert_eq!(clean_name("  Phone 3 "), Some("Phone 3".to_owned()));
        for bad in ["", "  ", "a\nb", "\u{1b}[31m", &"x".repeat(65), "a\u{202e}b", "a\u{200b}b", "\u{3164}"] {
            assert_eq!(clean_name(bad), None, "{bad:?}");
        }
    }

    #[test]
    fn an_entry_with_a_number_out_of_all_proportion_does_not_end_a_chain() {
        let at = |seq: u64| LastEntry { seq, entry: farsiding_core::ids::EntryId([seq as u8; 32]) };
        assert_eq!(last_of(&[]), None);
        assert_eq!(last_of(&[at(2), at(1), at(7)]), Some(at(7)), "what lies between may still come");
        assert_eq!(last_of(&[at(1), at(2), at(u64::MAX)]), Some(at(2)));
        assert_eq!(last_of(&[at(u64::MAX)]), None);
        let twin = LastEntry { seq: 2, entry: farsiding_core::ids::EntryId([9; 32]) };
        assert_eq!(last_of(&[at(1), at(2), twin]), Some(at(2)), "the first that came");
    }

    struct Scene {
        database: OfficeDatabase,
        store: MemoryStore,
        key: OrganisationKey,
        dice: Dice,
        folder: tempfile::TempDir,
    }

    const NOW: UtcMillis = UtcMillis(1_790_000_000_000);

    impl Scene {
        fn new() -> Scene {
            let folder = tempfile::tempdir().unwrap();
            let database = OfficeDatabase::open(&folder.path().join("server.db")).unwrap();
            let key = OrganisationKey::from_secret([5; 32]);
            Scene { database, store: MemoryStore::new(), key, dice: Dice::of(3), folder }
        }

        fn issue(&mut self, name: &str) -> Result<MadeCode, EnrolmentError> {
            let (role, grant) = (Role::Operator, Grant::default());
            let invitation = Invitation { name, role, grant, minutes: 60 };
            issue(&self.database, &invitation, NOW, &mut self.dice)
        }

        fn redeem(&mut self, code: &str, device: DeviceId) -> Result<Certificate, EnrolmentError> {
            let bytes = redeem(&self.database, &mut self.store, &self.key, code, device, "mine", NOW)?;
            Ok(Certificate::open(&bytes, &self.key.public())?)
        }

        fn change(
            &mut self,
            name: &str,
            grant: &Grant,
            now: UtcMillis,
        ) -> Result<RegisteredDevice, EnrolmentError> {
            let file = self.folder.path().join("ledger.db").into();
            drop(crate::ledger::OfficeLedger::open(&file).unwrap());
            change(&self.database, (&mut self.store, &file), &self.key, (name, grant), now)
        }

        fn enrol(&mut self, name: &str, device: DeviceId) -> Certificate {
            let code = self.issue(name).unwrap().code;
            self.redeem(&code, device).unwrap()
        }
    }

    fn key_of(number: u8) -> DeviceId {
        farsiding_core::entry::DeviceKey::from_secret([number; 32]).public()
    }

    #[test]
    fn a_code_never_changes_a_device_that_is_known() {
        let mut scene = Scene::new();
        let code = scene.issue("Phone 1").unwrap().code;
        let first = scene.redeem(&code, key_of(1)).unwrap();
        assert_eq!(
            scene.redeem(&code, key_of(1)).unwrap(),
            first,
            "the answer got lost and is asked for again"
        );
        let other = scene.issue("Somebody else").unwrap().code;
        let refused = scene.redeem(&other, key_of(1)).unwrap_err();
        assert!(matches!(&refused, EnrolmentError::AlreadyEnrolled(name) if name == "Phone 1"), "{refused}");
        assert_eq!(scene.database.device(key_of(1)).unwrap().unwrap().name, "Phone 1");
        assert_eq!(scene.redeem(&other, key_of(2)).unwrap().name, "Somebody else", "the code is still good");
    }

    #[test]
    fn two_devices_that_share_the_eight_bytes_of_a_hint_are_two_devices() {
        let mut scene = Scene::new();
        let one = key_of(1);
        let twin = (0..=u8::MAX)
            .map(|last| {
                let mut bytes = one.0;
                bytes[30] ^= 1;
                bytes[29] = last;
                DeviceId(bytes)
            })
            .find(is_sound_key)
            .unwrap();
        let first = scene.enrol("Phone 1", one);
        let second = scene.enrol("Phone 2", twin);
        assert_eq!((first.name.as_str(), second.name.as_str()), ("Phone 1", "Phone 2"));
        assert_eq!(scene.store.certificates().unwrap().len(), 2);
        let why = find(&scene.database, &one.short()).unwrap_err().to_string();
        let ids: Vec<&str> = why.split([' ', ',', ';', ':']).filter(|word| word.len() > 16).collect();
        assert!(ids.len() >= 2 && ids[0] != ids[1], "the two are told apart: {why}");
    }

    #[test]
    fn points_that_are_no_keys_are_not_enrolled() {
        let mut scene = Scene::new();
        let code = scene.issue("Phone 1").unwrap().code;
        let mut identity = [0; 32];
        identity[0] = 1;
        for bytes in [identity, [0; 32], [0xff; 32]] {
            assert!(matches!(scene.redeem(&code, DeviceId(bytes)), Err(EnrolmentError::NoKey)));
        }
        assert!(scene.redeem(&code, key_of(1)).is_ok(), "and the code was not used up");
    }

    #[test]
    fn two_devices_of_one_name_are_refused_however_it_is_written() {
        let mut scene = Scene::new();
        scene.enrol("Phone 3", key_of(1));
        for same in ["phone 3", "PHONE  3", "Phone\u{a0}3"] {
            let why = scene.issue(same).unwrap_err().to_string();
            assert!(why.contains("Phone 3") && why.contains("(2)"), "{why}");
        }
        for name in ["Office Desk", "escritorio de la oficina", "Poste du bureau"] {
            assert!(matches!(scene.issue(name), Err(EnrolmentError::NameOfTheOffice(_))), "{name}");
        }
        // Two codes are issued for one name; the later one is valid.
        let first = scene.issue("Phone 4").unwrap();
        let second = scene.issue("phone 4").unwrap();
        assert_eq!((first.replaces, second.replaces), (false, true));
        assert!(matches!(scene.redeem(&first.code, key_of(2)), Err(EnrolmentError::Replaced)));
        assert_eq!(scene.redeem(&second.code, key_of(2)).unwrap().name, "phone 4");
    }

    #[test]
    fn new_certificates_are_of_version_two_and_old_ones_keep_their_bytes_until_somebody_changes_them() {
        let mut scene = Scene::new();
        let sites = Some(vec![farsiding_core::ids::SiteId([1; 16])]);
        let grant = Grant::new(sites.clone(), None, Some(UtcMillis(NOW.0 + 5)));
        let invitation = Invitation { name: "Phone 1", role: Role::Operator, grant, minutes: 60 };
        let code = issue(&scene.database, &invitation, NOW, &mut scene.dice).unwrap().code;
        let made = scene.redeem(&code, key_of(1)).unwrap();
        assert_eq!((made.issuer, made.renewed_at), (Some(scene.key.public()), Some(NOW)));
        assert_eq!((made.sites, made.valid_until), (sites, Some(UtcMillis(NOW.0 + 5))));

        // This is how version one left the device in the database.
        scene.enrol("Old phone", key_of(2));
        let sql = "UPDATE device SET issuer = NULL, renewed_at = NULL WHERE device = ?1";
        scene.database.connection().execute(sql, [key_of(2).0]).unwrap();
        let organisation = organisation_id(&scene.key);
        let old = Certificate::by_role(organisation, key_of(2), "Old phone", Role::Operator, NOW);
        let bytes = |scene: &Scene| {
            let all = scene.store.certificates().unwrap();
            all.into_iter().find(|(id, _)| *id == key_of(2)).unwrap().1
        };
        certify_all(&scene.database, &mut scene.store, &scene.key, NOW).unwrap();
        assert_eq!(bytes(&scene), old.seal(&scene.key).unwrap());
        // The clock stands still or goes back between the changes, but the later certificate still counts.
        let earlier = UtcMillis(NOW.0 - 1000);
        let grant = Grant::new(None, Some(vec![farsiding_core::entry::Right::Record]), None);
        scene.change("old phone", &grant, earlier).unwrap();
        let changed = Certificate::open(&bytes(&scene), &scene.key.public()).unwrap();
        assert!(changed.supersedes(&old), "{changed:?}");
        let again = scene.change("old phone", &grant, earlier).unwrap().renewed_at;
        assert!(again > changed.renewed_at);
    }
}
