//! A book of signed notes: one SQLite file, one mergeable document, one key.
//!
//! Small on purpose: it carries the whole way from a signature to a durable row and a merge, so that each
//! language and each platform is proved on the real libraries. Called from every other language.

use std::sync::{Mutex, MutexGuard};

use automerge::{AutoCommit, ReadDoc, ScalarValue, Value, transaction::Transactable};
use ed25519_dalek::{Signature, Signer, SigningKey, VerifyingKey};
use rusqlite::{Connection, params};
use sha2::{Digest, Sha256};

use crate::{Trouble, storage};

/// One note of the book, checked when it was read.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct Note {
    /// SHA-256 of the text and the time, in hexadecimal.
    pub id: String,
    /// What was written.
    pub text: String,
    /// When, in milliseconds since 1970 UTC, as the caller had it.
    pub written_ms: i64,
    /// The writer's Ed25519 public key, in hexadecimal. (No bytes in records: Kotlin would compare them by
    /// identity, so that two equal notes would differ.)
    pub writer: String,
}

/// How much is in the book.
#[derive(Debug, Clone, Copy, PartialEq, Eq, uniffi::Record)]
pub struct BookSize {
    /// Notes.
    pub notes: u64,
    /// Bytes of the document when exported.
    pub document_bytes: u64,
}

/// An open book. Calls are serialised; none keeps a lock after it returns.
#[derive(uniffi::Object)]
pub struct Book {
    state: Mutex<State>,
}

struct State {
    store: Connection,
    document: AutoCommit,
    key: SigningKey,
}

#[uniffi::export]
impl Book {
    /// Opens or makes the book `name` in `folder`. `key` is the device's 32-byte Ed25519 secret.
    ///
    /// # Errors
    /// `NoStorage` before `prepare_storage`, `WrongCall` for a key of another length, `Refused` when the
    /// file is no book.
    #[uniffi::constructor]
    pub fn open(folder: String, name: String, key: Vec<u8>) -> Result<Book, Trouble> {
        let key: [u8; 32] =
            key.try_into().map_err(|_| Trouble::WrongCall { why: "a key has 32 bytes".to_owned() })?;
        let store = Connection::open(storage::location(&folder, &name)?)?;
        store.pragma_update(None, "journal_mode", storage::JOURNAL_MODE)?;
        store.pragma_update(None, "synchronous", "FULL")?;
        store.execute_batch(
            "CREATE TABLE IF NOT EXISTS note (id TEXT PRIMARY KEY, signed BLOB NOT NULL) STRICT, WITHOUT ROWID",
        )?;
        let mut document = AutoCommit::new();
        {
            let mut all = store.prepare("SELECT id, signed FROM note")?;
            let mut rows = all.query(())?;
            while let Some(row) = rows.next()? {
                put(&mut document, &row.get::<_, String>(0)?, row.get::<_, Vec<u8>>(1)?)?;
            }
        }
        Ok(Book { state: Mutex::new(State { store, document, key: SigningKey::from_bytes(&key) }) })
    }

    /// Signs and stores one note; when it returns, the note is on the disk.
    ///
    /// # Errors
    /// `NotStored` when the disk refuses.
    pub fn write(&self, text: String, written_ms: i64) -> Result<Note, Trouble> {
        let mut state = self.state()?;
        let signed = seal(&state.key, &text, written_ms);
        let note = open_sealed(&signed)?;
        state.keep(vec![(note.id.clone(), signed)])?;
        Ok(note)
    }

    /// Signs and stores many notes of one instant in one transaction.
    ///
    /// # Errors
    /// `NotStored` when the disk refuses; then none is stored.
    pub fn write_all(&self, texts: Vec<String>, written_ms: i64) -> Result<u64, Trouble> {
        let mut state = self.state()?;
        let mut sealed = Vec::with_capacity(texts.len());
        for text in &texts {
            let signed = seal(&state.key, text, written_ms);
            sealed.push((open_sealed(&signed)?.id, signed));
        }
        state.keep(sealed)
    }

    /// All notes, oldest first, each with its signature checked.
    ///
    /// # Errors
    /// `Refused` when a stored note does not verify.
    pub fn notes(&self) -> Result<Vec<Note>, Trouble> {
        let state = self.state()?;
        let mut all = state.store.prepare("SELECT signed FROM note")?;
        let mut rows = all.query(())?;
        let mut notes = Vec::new();
        while let Some(row) = rows.next()? {
            notes.push(open_sealed(&row.get::<_, Vec<u8>>(0)?)?);
        }
        notes.sort_by(|a, b| (a.written_ms, &a.id).cmp(&(b.written_ms, &b.id)));
        Ok(notes)
    }

    /// How much is in the book.
    ///
    /// # Errors
    /// `NotStored` when the file cannot be read.
    pub fn size(&self) -> Result<BookSize, Trouble> {
        let mut state = self.state()?;
        let notes: i64 = state.store.query_row("SELECT count(*) FROM note", (), |row| row.get(0))?;
        let bytes = state.document.save().len();
        Ok(BookSize { notes: notes.unsigned_abs(), document_bytes: bytes as u64 })
    }

    /// The whole book as one mergeable document, to hand to another device.
    ///
    /// # Errors
    /// None today; declared because every call that reads the book may fail.
    pub fn document(&self) -> Result<Vec<u8>, Trouble> {
        Ok(self.state()?.document.save())
    }

    /// Takes in another device's document; returns how many notes were new here.
    ///
    /// # Errors
    /// `Refused`, and nothing is taken in, when the bytes are no document or one note does not verify.
    pub fn merge(&self, document: Vec<u8>) -> Result<u64, Trouble> {
        let other = AutoCommit::load(&document).map_err(refused)?;
        let mut state = self.state()?;
        let mut fresh = Vec::new();
        for item in other.map_range(automerge::ROOT, ..) {
            let (key, value) = (item.key.to_string(), Value::from(item.value));
            let Value::Scalar(scalar) = value else {
                return Err(Trouble::Refused { why: format!("{key} is no signed note") });
            };
            let ScalarValue::Bytes(signed) = scalar.as_ref() else {
                return Err(Trouble::Refused { why: format!("{key} is no signed note") });
            };
            let note = open_sealed(signed)?;
            if note.id != key {
                return Err(Trouble::Refused { why: format!("{key} holds another note") });
            }
            fresh.push((key, signed.clone()));
        }
        state.keep(fresh)
    }
}

impl Book {
    fn state(&self) -> Result<MutexGuard<'_, State>, Trouble> {
        self.state.lock().map_err(|_| Trouble::NotStored {
            why: "an earlier call broke off; open the book again".to_owned(),
        })
    }
}

impl State {
    /// Stores sealed notes in one transaction, then shows them in the document. Returns how many were new.
    fn keep(&mut self, sealed: Vec<(String, Vec<u8>)>) -> Result<u64, Trouble> {
        let mut fresh = Vec::with_capacity(sealed.len());
        let transaction = self.store.transaction()?;
        {
            let mut insert =
                transaction.prepare("INSERT OR IGNORE INTO note (id, signed) VALUES (?1, ?2)")?;
            for (id, signed) in sealed {
                if insert.execute(params![id, signed])? == 1 {
                    fresh.push((id, signed));
                }
            }
        }
        transaction.commit()?;
        let count = fresh.len() as u64;
        for (id, signed) in fresh {
            put(&mut self.document, &id, signed)?;
        }
        Ok(count)
    }
}

fn put(document: &mut AutoCommit, id: &str, signed: Vec<u8>) -> Result<(), Trouble> {
    document.put(automerge::ROOT, id, ScalarValue::Bytes(signed)).map_err(refused)
}

fn refused(error: automerge::AutomergeError) -> Trouble {
    Trouble::Refused { why: error.to_string() }
}

/// Signature, public key, time, text: 64, 32 and 8 bytes, then the rest.
fn seal(key: &SigningKey, text: &str, written_ms: i64) -> Vec<u8> {
    let mut message = key.verifying_key().to_bytes().to_vec();
    message.extend_from_slice(&written_ms.to_be_bytes());
    message.extend_from_slice(text.as_bytes());
    let mut signed = key.sign(&message).to_bytes().to_vec();
    signed.append(&mut message);
    signed
}

fn open_sealed(signed: &[u8]) -> Result<Note, Trouble> {
    let short = || Trouble::Refused { why: "a signed note is cut short".to_owned() };
    let (signature, message) = signed.split_first_chunk::<64>().ok_or_else(short)?;
    let (writer, rest) = message.split_first_chunk::<32>().ok_or_else(short)?;
    let (time, text) = rest.split_first_chunk::<8>().ok_or_else(short)?;
    VerifyingKey::from_bytes(writer)
        .and_then(|key| key.verify_strict(message, &Signature::from_bytes(signature)))
        .map_err(|error| Trouble::Refused { why: format!("a note's signature is wrong: {error}") })?;
    let text = String::from_utf8(text.to_vec())
        .map_err(|_| Trouble::Refused { why: "a note is not text".to_owned() })?;
    Ok(Note {
        id: hexadecimal(&Sha256::digest(message)),
        text,
        written_ms: i64::from_be_bytes(*time),
        writer: hexadecimal(writer),
    })
}

fn hexadecimal(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}
