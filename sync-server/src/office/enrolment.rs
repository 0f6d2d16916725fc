//! Enrolling a device by a one-time code, and revoking one.
//!
//! A code is twelve characters of a 30-letter alphabet without look-alikes: 58 random bits, good for
//! one device and for minutes, so guessing is hopeless and the hash kept in the register is enough to
//! check one. A device whose answer got lost may ask again with the same code.

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::{Certificate, EntryError, OrganisationKey, Role};
use farsiding_core::ids::{DeviceId, Digest, Randomness};
use farsiding_core::store::{Store, StoreError, Write};
use farsiding_core::sync::CERTIFICATES_VERSION;

use super::data_folder::organisation_id;
use super::register::{IssuedCode, Register, RegisterError, RegisteredDevice};

/// Why a device was not enrolled or revoked.
#[derive(Debug, thiserror::Error)]
pub enum EnrolmentError {
    /// No such code.
    #[error("this code is not one of ours: check it letter by letter, or ask the office for a new one")]
    WrongCode,
    /// Too late.
    #[error("this code has expired: ask the office for a new one")]
    Expired,
    /// Somebody had it first.
    #[error("this code has already enrolled another device: ask the office for a new one")]
    AlreadyUsed,
    /// A revoked device stays revoked.
    #[error("this device was revoked and stays so: set it up anew (a new key) and ask for a new code")]
    Revoked,
    /// Nobody by that name or id.
    #[error("no device is called or numbered \"{0}\"")]
    NoSuchDevice(String),
    /// Several by that name or id.
    #[error("several devices fit \"{text}\"; give one of these ids: {choices}")]
    Ambiguous {
        /// What was given.
        text: String,
        /// What it may mean.
        choices: String,
    },
    /// A name that says nothing or too much.
    #[error("a device needs a name of 1 to 64 characters without line breaks")]
    BadName,
    /// The register failed.
    #[error(transparent)]
    Register(#[from] RegisterError),
    /// The ledger failed.
    #[error(transparent)]
    Ledger(#[from] StoreError),
    /// The certificate could not be written.
    #[error(transparent)]
    Certificate(#[from] EntryError),
}

/// No 0, O, 1, I, L, U: they are misread on a cold screen.
const ALPHABET: &[u8; 30] = b"23456789ABCDEFGHJKMNPQRSTVWXYZ";
const LETTERS: usize = 12;

/// A one-time code in three groups of four.
pub fn new_code(randomness: &mut dyn Randomness) -> String {
    let mut code = String::with_capacity(LETTERS + 2);
    let mut letters = 0;
    while letters < LETTERS {
        let mut byte = [0u8; 1];
        randomness.fill(&mut byte);
        // 240 is the largest multiple of 30 in a byte; taking more would favour some letters.
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

/// The hash a code is kept and looked up under: upper case, without dashes and spaces.
pub fn code_hash(code: &str) -> Digest {
    let plain: String =
        code.chars().filter(char::is_ascii_alphanumeric).map(|c| c.to_ascii_uppercase()).collect();
    Digest::of(format!("farsiding enrolment code {plain}").as_bytes())
}

/// Issues a code for a device to be called `name`.
///
/// # Errors
/// [`EnrolmentError`].
pub fn issue(
    register: &Register,
    name: &str,
    role: Role,
    minutes: u32,
    now: UtcMillis,
    randomness: &mut dyn Randomness,
) -> Result<(String, UtcMillis), EnrolmentError> {
    let name = clean_name(name).ok_or(EnrolmentError::BadName)?;
    let code = new_code(randomness);
    let expires_at = UtcMillis(now.0.saturating_add(i64::from(minutes) * 60_000));
    register.add_code(code_hash(&code), &IssuedCode { name, role, expires_at, used_by: None }, now)?;
    Ok((code, expires_at))
}

/// A device's name, trimmed; nothing when it is empty, too long or not one line.
pub fn clean_name(name: &str) -> Option<String> {
    let name = name.trim();
    let fits = !name.is_empty() && name.chars().count() <= 64 && !name.chars().any(char::is_control);
    fits.then(|| name.to_owned())
}

/// Uses a code for a device; returns its certificate.
///
/// # Errors
/// [`EnrolmentError`].
pub fn redeem(
    register: &mut Register,
    store: &mut dyn Store,
    key: &OrganisationKey,
    code: &str,
    device: DeviceId,
    own_name: &str,
    now: UtcMillis,
) -> Result<Vec<u8>, EnrolmentError> {
    let own_name = clean_name(own_name).unwrap_or_default();
    let registered = register.use_code(code_hash(code), device, &own_name, now, |code, before| {
        let code = code.ok_or(EnrolmentError::WrongCode)?;
        match code.used_by {
            Some(used_by) if used_by != device => return Err(EnrolmentError::AlreadyUsed),
            None if now >= code.expires_at => return Err(EnrolmentError::Expired),
            _ => {}
        }
        match before.and_then(|b| b.revoked_at) {
            Some(_) => Err(EnrolmentError::Revoked),
            None => Ok(()),
        }
    })?;
    certify(register, store, key, registered, now)
}

/// Revokes a device given by name, id or the beginning of its id. It takes effect at once, also in a
/// running server.
///
/// # Errors
/// [`EnrolmentError`].
pub fn revoke(
    register: &Register,
    store: &mut dyn Store,
    key: &OrganisationKey,
    text: &str,
    now: UtcMillis,
) -> Result<RegisteredDevice, EnrolmentError> {
    let device = find(register, text)?.device;
    let revoked = register.revoke(device, now)?;
    let revoked = revoked.ok_or_else(|| EnrolmentError::NoSuchDevice(text.to_owned()))?;
    certify(register, store, key, revoked.clone(), now)?;
    Ok(revoked)
}

fn find(register: &Register, text: &str) -> Result<RegisteredDevice, EnrolmentError> {
    let wanted = text.trim();
    let devices = register.devices()?;
    let by_name: Vec<&RegisteredDevice> =
        devices.iter().filter(|d| d.name.eq_ignore_ascii_case(wanted)).collect();
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
            let choices: Vec<String> =
                several.iter().map(|d| format!("{} ({})", d.device.short(), d.name)).collect();
            Err(EnrolmentError::Ambiguous { text: text.to_owned(), choices: choices.join(", ") })
        }
    }
}

/// Makes the ledger's certificates those the register calls for: after a crash between the two.
///
/// # Errors
/// [`EnrolmentError`].
pub fn certify_all(
    register: &Register,
    store: &mut dyn Store,
    key: &OrganisationKey,
    now: UtcMillis,
) -> Result<(), EnrolmentError> {
    for device in register.devices()? {
        certify(register, store, key, device, now)?;
    }
    Ok(())
}

/// Signs a device's certificate as the register has it and puts it into the ledger, where sync looks.
fn certify(
    register: &Register,
    store: &mut dyn Store,
    key: &OrganisationKey,
    mut device: RegisteredDevice,
    now: UtcMillis,
) -> Result<Vec<u8>, EnrolmentError> {
    loop {
        let bytes = put_certificate(store, key, &device, now)?;
        // Another process may have revoked it in between; the register has the last word.
        match register.device(device.device)? {
            Some(current) if current.revoked_at != device.revoked_at => device = current,
            _ => return Ok(bytes),
        }
    }
}

fn put_certificate(
    store: &mut dyn Store,
    key: &OrganisationKey,
    device: &RegisteredDevice,
    now: UtcMillis,
) -> Result<Vec<u8>, EnrolmentError> {
    let certificate = Certificate {
        revoked_at: device.revoked_at,
        ..Certificate::by_role(
            organisation_id(key),
            device.device,
            device.name.clone(),
            device.role,
            device.issued_at,
        )
    };
    let bytes = certificate.seal(key)?;
    let known = store.certificates()?.into_iter().find(|(id, _)| *id == device.device);
    if known.is_none_or(|(_, before)| before != bytes) {
        // The version only has to differ from every one before: devices compare it for equality. The
        // time and some of the certificate's digest do that also when two processes write at once.
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

/// What a device needs to enrol, as one text: the server's address, the code, and the organisation's
/// public key to know the right server by. Made to be shown as a QR code: opened in a browser it
/// leads to the server, and the part behind `#` is never sent over the network.
pub fn enrolment_text(url: &str, code: &str, key: &OrganisationKey) -> String {
    use base64::Engine as _;
    let public = base64::engine::general_purpose::URL_SAFE_NO_PAD.encode(key.public().0);
    format!("{}/#enrol={code}&key={public}", url.trim_end_matches('/'))
}

/// A key's fingerprint, for reading aloud: the first sixteen digits in groups of four.
pub fn fingerprint(key: &DeviceId) -> String {
    let digits = key.to_string();
    [&digits[0..4], &digits[4..8], &digits[8..12], &digits[12..16]].join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    struct Dice(u8);
    impl Randomness for Dice {
        fn fill(&mut self, bytes: &mut [u8]) {
            for byte in bytes {
                self.0 = self.0.wrapping_mul(5).wrapping_add(77);
                *byte = self.0;
            }
        }
    }

    #[test]
    fn a_code_is_easy_to_say_and_forgives_how_it_is_typed() {
        let code = new_code(&mut Dice(3));
        assert_eq!(code.len(), 14, "{code}");
        assert!(code.chars().all(|c| c == '-' || (c.is_ascii_alphanumeric() && !"01OILU".contains(c))));
        let typed = code.to_lowercase().replace('-', " ");
        assert_eq!(code_hash(&typed), code_hash(&code));
        assert_ne!(code_hash("AAAA-AAAA-AAAA"), code_hash(&code));
    }

    #[test]
    fn a_name_is_one_short_line() {
        assert_eq!(clean_name("  Phone 3 "), Some("Phone 3".to_owned()));
        for bad in ["", "  ", "a\nb", "\u{1b}[31m", &"x".repeat(65)] {
            assert_eq!(clean_name(bad), None, "{bad:?}");
        }
    }
}
