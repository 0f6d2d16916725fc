//! Changes of an office's keys: the request to the root, the root's signature, and what the office does with
//! the answer.
//!
//! Every change has the same three steps, on one machine or on two. First the office makes a request, and
//! creates the secret of a new key beside the current one. Then whoever holds the root key signs the request.
//! Finally the office applies the answer: it stores the statements, switches to the new key, and signs
//! certificates and declarations again whose old signature is no longer believed. A step that was interrupted
//! can be repeated.

use std::path::{Path, PathBuf};

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::{
    AnyTime, KeyError, KeyStanding, KeyWord, OrganisationKey, OrganisationKeys, SignedUpTo, Trusts as _,
    WhyWithdrawn,
};
use farsiding_core::evidence::{Checkpoint, ledger_log};
use farsiding_core::ids::{DeviceId, Randomness};
use farsiding_core::store::{Store, learn_keys, organisation_keys};
use farsiding_core::sync::ledger_time;

use crate::OfficeError;
use crate::data_folder::{DataFolder, Held};
use crate::enrolment;
use crate::key_files::{self, KeyFileError, Request};
use crate::ledger::{Ledger as _, OfficeLedger};
use crate::office_database::OfficeDatabase;
use farsiding_host::private_file;

/// The placeholder for a lost secret. The root names no key with this secret, so nothing is ever signed with
/// it.
const NOBODYS: [u8; 32] = [0; 32];

/// Why keys were not changed. The keys from before stay in use.
#[derive(Debug, thiserror::Error)]
pub enum KeyChangeError {
    /// A key file could not be used.
    #[error(transparent)]
    File(#[from] KeyFileError),
    /// The root key's statements do not allow the change.
    #[error("this cannot be said of the keys: {0}")]
    Key(#[from] KeyError),
    /// The folder, the ledger or the database failed.
    #[error(transparent)]
    Office(#[from] OfficeError),
    /// The folder's key is the root key itself.
    #[error(
        "the root lies on this server and signs by itself; take it off first: farsiding key offline --out FILE"
    )]
    RootIsHere,
    /// The root key was taken off this server already.
    #[error("the root is not on this server: a key that it named signs here (farsiding key show)")]
    RootIsAway,
    /// The key is not the root key.
    #[error("{0} holds another key ({1}) than the organisation's root of now ({2})")]
    NotTheRoot(String, DeviceId, DeviceId),
    /// The statements are about another root.
    #[error("{0} is of another organisation's root ({1})")]
    OtherRoot(String, DeviceId),
    /// The statements do not continue the known ones.
    #[error("{0} does not go on from what this office knows: {1}")]
    DoesNotFollow(String, String),
    /// After the change, this office would have no signing key.
    #[error(
        "nothing in it names a key that this office holds; its request was made by another folder, or another request was made since"
    )]
    NoKeyHere,
    /// There is no such key.
    #[error("no key of this organisation begins with \"{0}\"")]
    NoSuchKey(String),
    /// The given checkpoint cannot be used.
    #[error("the checkpoint cannot be named: {0}")]
    Checkpoint(String),
    /// The copy of the root key could not be read back.
    #[error(
        "the copy of the root in {0} reads back as something else; nothing was changed, the root is still here"
    )]
    NotReadBack(String),
}

/// A folder whose keys are being changed. Its lock is held, so that no server runs on it meanwhile.
#[derive(Debug)]
pub struct KeyChanging {
    folder: DataFolder,
    key: OrganisationKey,
    /// The signing key of this folder, even if its secret is lost.
    signer: DeviceId,
    now: UtcMillis,
    _held: Held,
}

/// The result of applying statements.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Taken {
    /// The number of statements that were new here.
    pub new: usize,
    /// The current signing key.
    pub signer: DeviceId,
    /// The number of certificates that were signed again.
    pub certificates: usize,
}

impl KeyChanging {
    /// Opens the folder and takes its lock.
    ///
    /// # Errors
    /// Returns [`KeyChangeError::Office`], also while a server runs on the folder, because the server would
    /// go on signing with the old key.
    pub fn open(data: &Path, now: UtcMillis) -> Result<KeyChanging, KeyChangeError> {
        let folder = DataFolder::open(data)?;
        let held = folder.hold()?;
        if folder.key_file().exists() {
            let key = folder.organisation_key_here()?;
            let signer = key.signer();
            return Ok(KeyChanging { folder, key, signer, now, _held: held });
        }
        // The secret is lost, but the root's statements are still here, and the root can name another key.
        let keys = key_files::read_statements(&folder.key_statements_file())?;
        let newest = keys.known().iter().rev().find(|known| !known.root);
        let signer = newest.map_or(keys.root_now(), |known| known.key);
        let key = OrganisationKey::among(NOBODYS, keys);
        Ok(KeyChanging { folder, key, signer, now, _held: held })
    }

    /// Returns the signing key together with the organisation's other keys.
    pub fn key(&self) -> &OrganisationKey {
        &self.key
    }

    fn root_is_here(&self) -> bool {
        self.key.signer() == self.key.keys().root_now()
    }

    fn next_file(&self) -> PathBuf {
        self.folder.key_file().with_extension("key.next")
    }

    /// Returns the next signing key: the one from an earlier request, or a new one.
    fn next_key(&self, randomness: &mut dyn Randomness) -> Result<DeviceId, KeyChangeError> {
        let file = self.next_file();
        if let Ok((secret, _)) = key_files::read_signing(&file) {
            let made = OrganisationKey::from_secret(secret).public();
            if self.key.keys().standing(&made, self.now) == KeyStanding::Unknown {
                return Ok(made);
            }
            std::fs::remove_file(&file).map_err(|e| KeyFileError::file(&file, e))?;
        }
        let made = OrganisationKey::random(randomness);
        key_files::write_signing(&file, made.secret(), self.key.public())
            .map_err(|e| KeyFileError::file(&file, e))?;
        Ok(made.public())
    }

    /// Returns a request for a new signing key.
    ///
    /// # Errors
    /// Returns a [`KeyChangeError`] when the change is refused or fails.
    pub fn ask_renewal(
        &self,
        until: Option<UtcMillis>,
        randomness: &mut dyn Randomness,
    ) -> Result<Request, KeyChangeError> {
        let key = self.next_key(randomness)?;
        Ok(self.asking(vec![KeyWord::Key { key, from: self.now, until }]))
    }

    /// Returns a request to withdraw a key: the signing key, or the key whose digits begin with the given
    /// text. If the signing key is withdrawn, the request also asks for its successor. The checkpoint, from a
    /// file or the newest, says how far the log is vouched for.
    ///
    /// # Errors
    /// Returns a [`KeyChangeError`] when the change is refused or fails.
    pub fn ask_withdrawal(
        &self,
        (why, named): (WhyWithdrawn, Option<&str>),
        checkpoint: Option<&str>,
        until: Option<UtcMillis>,
        randomness: &mut dyn Randomness,
    ) -> Result<Request, KeyChangeError> {
        let key = match named {
            None => self.signer,
            Some(text) => {
                let wanted = text.trim().to_ascii_lowercase();
                let fits = |key: &DeviceId| !wanted.is_empty() && key.to_string().starts_with(&wanted);
                let mut found = self.key.keys().known().iter().map(|known| known.key).filter(fits);
                match (found.next(), found.next()) {
                    (Some(key), None) => key,
                    _ => return Err(KeyChangeError::NoSuchKey(text.to_owned())),
                }
            }
        };
        let checkpoint = self.vouched_for(checkpoint)?;
        let mut asks = vec![KeyWord::KeyWithdrawn { key, why, checkpoint }];
        if key == self.signer {
            let next = self.next_key(randomness)?;
            asks.push(KeyWord::Key { key: next, from: self.now, until });
        }
        Ok(self.asking(asks))
    }

    /// Returns a request that another key become the root.
    ///
    /// # Errors
    /// Returns [`KeyChangeError::RootIsHere`] while the root key is on this server.
    pub fn ask_successor(&self, key: DeviceId) -> Result<Request, KeyChangeError> {
        if self.root_is_here() {
            return Err(KeyChangeError::RootIsHere);
        }
        Ok(self.asking(vec![KeyWord::Successor { key }]))
    }

    fn asking(&self, asks: Vec<KeyWord>) -> Request {
        Request::new(self.key.keys(), self.now, asks)
    }

    fn vouched_for(&self, note: Option<&str>) -> Result<Option<SignedUpTo>, KeyChangeError> {
        let read = |note: &str| {
            Checkpoint::open(note, &AnyTime(&self.key))
                .map(|checkpoint| Some(checkpoint.signed_up_to()))
                .map_err(|e| KeyChangeError::Checkpoint(e.to_string()))
        };
        if let Some(note) = note {
            return read(note);
        }
        let ledger = OfficeLedger::open(&self.folder.ledger_place()).map_err(OfficeError::from)?;
        let newest = ledger.store().log().newest_checkpoint().map_err(OfficeError::from)?;
        newest.map_or(Ok(None), |newest| read(&newest.note))
    }

    /// Takes the root key off this server: writes it into a new file, reads the file back, names a signing
    /// key that is valid until `until`, and switches to that key.
    ///
    /// # Errors
    /// Returns a [`KeyChangeError`]. Nothing is changed before the copy was read back.
    pub fn take_root_off(
        &mut self,
        out: &Path,
        until: Option<UtcMillis>,
        randomness: &mut dyn Randomness,
    ) -> Result<Taken, KeyChangeError> {
        if !self.root_is_here() {
            return Err(KeyChangeError::RootIsAway);
        }
        write_root(out, &self.key)?;
        if private_file::read_secret(out).ok() != Some(self.key.secret()) {
            return Err(KeyChangeError::NotReadBack(out.display().to_string()));
        }
        let request = self.ask_renewal(until, randomness)?;
        let signed = sign(&request, self.key.keys().clone(), &self.key)?;
        self.take(&signed)
    }

    /// Applies statements: stores them, switches to the prepared key, and signs again what is no longer
    /// believed.
    ///
    /// # Errors
    /// Returns a [`KeyChangeError`]. After an interruption, apply the same statements again.
    pub fn take(&mut self, brought: &OrganisationKeys) -> Result<Taken, KeyChangeError> {
        if brought.root() != self.key.public() {
            return Err(KeyChangeError::OtherRoot("what was brought".to_owned(), brought.root()));
        }
        let mut keys = self.key.keys().clone();
        let learned = keys.learn(brought.signed());
        if let Some(why) = learned.refused {
            return Err(KeyChangeError::DoesNotFollow("what was brought".to_owned(), why.to_string()));
        }
        let (secret, goes_over) = self.signing_after(&keys)?;
        let statements = self.folder.key_statements_file();
        key_files::write_statements(&statements, &keys)?;
        private_file::narrow(&statements).map_err(|e| KeyFileError::file(&statements, e))?;
        if goes_over {
            // The file is replaced atomically, so an interruption leaves either the old or the new key.
            let file = self.folder.key_file();
            std::fs::rename(self.next_file(), &file)
                .and_then(|()| private_file::sync_folder(self.folder.path()))
                .map_err(|e| KeyFileError::file(&file, e))?;
        }
        self.key = OrganisationKey::among(secret, keys);
        self.signer = self.key.signer();
        let certificates = self.sign_anew()?;
        Ok(Taken { new: learned.new, signer: self.key.signer(), certificates })
    }

    /// Returns the secret that signs under these keys, and whether it is the prepared one.
    fn signing_after(&self, keys: &OrganisationKeys) -> Result<([u8; 32], bool), KeyChangeError> {
        let may = |key: DeviceId| {
            matches!(
                keys.standing(&key, self.now),
                KeyStanding::Root | KeyStanding::Working { .. } | KeyStanding::NotYet { .. }
            )
        };
        if let Ok((secret, _)) = key_files::read_signing(&self.next_file())
            && may(OrganisationKey::from_secret(secret).public())
        {
            return Ok((secret, true));
        }
        if may(self.key.signer()) { Ok((self.key.secret(), false)) } else { Err(KeyChangeError::NoKeyHere) }
    }

    /// Updates the ledger to the current keys.
    fn sign_anew(&self) -> Result<usize, KeyChangeError> {
        if !self.folder.ledger_file().exists() && !self.folder.has_database() {
            return Ok(0);
        }
        let mut ledger = OfficeLedger::open(&self.folder.ledger_place()).map_err(OfficeError::from)?;
        let database = OfficeDatabase::open(&self.folder.database_file()).map_err(OfficeError::from)?;
        let ledger_now = ledger_time(ledger.store(), self.now).map_err(OfficeError::from)?;
        Ok(put_in_order(ledger.store_mut(), &database, &self.key, (self.now, ledger_now))?)
    }
}

/// Stores the root's statements in the ledger, and signs again the certificates and declarations whose
/// signature is no longer believed, and the newest checkpoint, at the ledger's own time. A second call
/// changes nothing. Returns the number of certificates.
///
/// # Errors
/// Returns an [`OfficeError`] when the office's data cannot be read or written.
pub fn put_in_order(
    store: &mut dyn Store,
    database: &OfficeDatabase,
    key: &OrganisationKey,
    (now, ledger_now): (UtcMillis, UtcMillis),
) -> Result<usize, OfficeError> {
    let mut known = organisation_keys(store, &key.public())?;
    learn_keys(store, &mut known, key.keys().signed())?;
    let before = store.certificates()?;
    enrolment::certify_all(database, store, key, now)?;
    ledger_log::declare_anew(store, key)?;
    ledger_log::publish(store, key, ledger_now)?;
    Ok(store.certificates()?.iter().filter(|one| !before.contains(one)).count())
}

/// Signs a request with the root key and returns all statements afterwards.
///
/// # Errors
/// Returns [`KeyChangeError::NotTheRoot`] or [`KeyChangeError::Key`] when the request is refused.
pub fn sign(
    request: &Request,
    mut keys: OrganisationKeys,
    root: &OrganisationKey,
) -> Result<OrganisationKeys, KeyChangeError> {
    if root.signer() != keys.root_now() {
        return Err(KeyChangeError::NotTheRoot("the file".to_owned(), root.signer(), keys.root_now()));
    }
    for says in &request.asks {
        keys.say(request.at, says.clone(), root)?;
    }
    Ok(keys)
}

/// Reads a root key's secret from its file.
///
/// # Errors
/// Returns [`KeyChangeError::File`] when the file cannot be read.
pub fn read_root(file: &Path) -> Result<OrganisationKey, KeyChangeError> {
    let secret = private_file::read_secret(file).map_err(|e| KeyFileError::file(file, e))?;
    Ok(OrganisationKey::from_secret(secret))
}

/// Writes a root key's secret into a new private file. A file that already holds the same secret is left
/// unchanged.
///
/// # Errors
/// Returns [`KeyChangeError::File`], also when the file holds something else.
pub fn write_root(file: &Path, root: &OrganisationKey) -> Result<(), KeyChangeError> {
    match private_file::write_secret(file, root.secret()) {
        Err(e) if e.kind() == std::io::ErrorKind::AlreadyExists => {
            if private_file::read_secret(file).ok() == Some(root.secret()) {
                return Ok(());
            }
            Err(KeyFileError::file(file, "it exists and holds something else; name a new file").into())
        }
        outcome => Ok(outcome.map_err(|e| KeyFileError::file(file, e))?),
    }
}
