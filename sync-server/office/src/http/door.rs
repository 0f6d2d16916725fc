//! Reading a sync request from anybody: its outline from the first bytes, its bulk aside, its signature before
//! the bulk is looked at, and nothing of it under the ledger's lock.
//!
//! A message has its bulk before its head, so that whose it is stands at its end. Until then a stranger costs a
//! few kilobytes of memory: a longer bulk waits in a file without a name, which is gone when it is closed.

use std::io::{Read as _, Seek as _};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use axum::body::Body;
use axum::http::{HeaderMap, StatusCode, header};
use farsiding_core::sync::{CERTIFICATES_VERSION, Devices, OpenedRequest, Outline, Refusal, Vouched};
use sha2::Digest as _;
use tokio::io::AsyncWriteExt as _;

use super::Office;
use super::body::Incoming;
use super::problem::Problem;
use crate::index::ledger_reader::LedgerReader;

/// Bytes of a bulk that are kept in memory before it is known whose it is.
const IN_MEMORY: usize = 16 * 1024;
/// Requests whose bulk is inflated and checked at once: each may take some tens of megabytes.
pub const OPENED_AT_ONCE: usize = 2;

/// The devices a server knows, as the ledger had them when it was last looked at; looked at again when the
/// version of its list differs. Reading it waits for no lock but its own.
pub struct KnownDevices {
    ledger: PathBuf,
    known: tokio::sync::Mutex<Option<(LedgerReader, Arc<Devices>)>>,
}

impl std::fmt::Debug for KnownDevices {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("KnownDevices").finish_non_exhaustive()
    }
}

impl KnownDevices {
    /// Of this ledger.
    pub fn of(ledger: PathBuf) -> KnownDevices {
        KnownDevices { ledger, known: tokio::sync::Mutex::default() }
    }

    /// The devices as they are now.
    ///
    /// # Errors
    /// [`Problem`] when the ledger cannot be read.
    pub async fn now(&self) -> Result<Arc<Devices>, Problem> {
        let mut known = self.known.lock().await;
        // One row by its key, out of a page that is in memory: no work for another thread.
        let failed = |error: crate::index::IndexError| Problem::failed(&error.to_string());
        let (reader, before) = match known.take() {
            Some((reader, devices)) => (reader, Some(devices)),
            None => (LedgerReader::open(&self.ledger).map_err(failed)?, None),
        };
        let version = reader.value(CERTIFICATES_VERSION).map_err(failed)?;
        let version = version.and_then(|v| v.try_into().ok()).map_or(0, u64::from_be_bytes);
        let devices = match before.filter(|devices| devices.version == version) {
            Some(devices) => devices,
            None => Arc::new(Devices::new(version, reader.certificates().map_err(failed)?)),
        };
        *known = Some((reader, Arc::clone(&devices)));
        Ok(devices)
    }
}

/// A bulk nobody vouched for yet.
enum Aside {
    Memory(Vec<u8>),
    File { file: tokio::fs::File, length: usize },
}

impl Aside {
    async fn add(&mut self, bytes: &[u8], folder: &Path) -> Result<(), Problem> {
        let failed = |error: std::io::Error| match error.kind() {
            std::io::ErrorKind::StorageFull => {
                Problem::new(StatusCode::INSUFFICIENT_STORAGE, "full", "the server has no room left")
            }
            _ => Problem::failed(&error.to_string()),
        };
        match self {
            Aside::Memory(held) if held.len() + bytes.len() <= IN_MEMORY => held.extend_from_slice(bytes),
            Aside::Memory(held) => {
                let mut file = tokio::fs::File::from_std(tempfile::tempfile_in(folder).map_err(failed)?);
                file.write_all(held).await.map_err(failed)?;
                file.write_all(bytes).await.map_err(failed)?;
                *self = Aside::File { length: held.len() + bytes.len(), file };
            }
            Aside::File { file, length } => {
                file.write_all(bytes).await.map_err(failed)?;
                *length += bytes.len();
            }
        }
        Ok(())
    }
}

/// A request whose head is signed by a device of this organisation, and its bulk, still as it came.
struct Signed {
    vouched: Vouched,
    bulk: Aside,
    digest: [u8; 16],
}

/// Reads a request, finds out whose it is, and opens it.
///
/// # Errors
/// [`Problem`] for what is too long, too slow, no request, or signed by nobody here; the rest of its body is
/// then not read.
pub async fn open(office: &Office, headers: &HeaderMap, body: Body) -> Result<OpenedRequest, Problem> {
    let Signed { vouched, bulk, digest } = receive(office, headers, body).await?;
    let _turn = office.opening.acquire().await.map_err(|_| Problem::busy())?;
    let bulk = match bulk {
        Aside::Memory(bytes) => bytes,
        Aside::File { mut file, length } => {
            file.flush().await.map_err(|e| Problem::failed(&e.to_string()))?;
            let mut file = file.into_std().await;
            let read = move || {
                let mut bytes = Vec::with_capacity(length);
                file.rewind()?;
                file.read_to_end(&mut bytes).map(|_| bytes)
            };
            let read = tokio::task::spawn_blocking(read).await;
            let read = read.map_err(|_| Problem::failed("reading a request's bulk stopped"))?;
            read.map_err(|e| Problem::failed(&e.to_string()))?
        }
    };
    let most = office.limits.inflated_bytes;
    let opened = tokio::task::spawn_blocking(move || OpenedRequest::open(vouched, &bulk, digest, most)).await;
    // A panic is a hostile bulk's doing: it is refused and nothing else happened.
    let opened = opened.map_err(|_| unreadable("this request could not be processed"))?;
    opened.map_err(|refusal| {
        if let Refusal::Unreadable(error) = &refusal {
            tracing::warn!(%error, "unreadable sync request");
        }
        Problem::from(refusal)
    })
}

fn unreadable(why: &str) -> Problem {
    Problem::bad_request("unreadable", why)
}

async fn receive(office: &Office, headers: &HeaderMap, body: Body) -> Result<Signed, Problem> {
    let most = office.limits.request_bytes;
    let announced = headers.get(header::CONTENT_LENGTH).and_then(|v| v.to_str().ok()?.parse::<u64>().ok());
    if announced.is_some_and(|length| length > most as u64) {
        return Err(Problem::too_large(most as u64));
    }
    let mut incoming = Incoming::new(body, office.limits.pause);
    let mut first = Vec::new();
    while first.len() < Outline::NEEDED
        && let Some(piece) = incoming.next().await?
    {
        first.extend_from_slice(&piece);
    }
    let outline = Outline::of(&first)?;
    if outline.bulk.end > most {
        return Err(Problem::too_large(most as u64));
    }
    let longest = outline.longest();
    if announced.is_some_and(|length| length > longest as u64) {
        return Err(unreadable("it goes on after its end"));
    }
    let folder = office.folder.upload_folder();
    let (mut whole, mut bulk, mut after) = (sha2::Sha256::new(), Aside::Memory(Vec::new()), Vec::new());
    let (mut at, mut piece) = (0, axum::body::Bytes::from(first));
    loop {
        if at + piece.len() > longest {
            return Err(unreadable("it goes on after its end"));
        }
        whole.update(&piece);
        let part = |from: usize, to: usize| {
            let from = from.saturating_sub(at).min(piece.len());
            piece.get(from..to.saturating_sub(at).min(piece.len())).unwrap_or_default()
        };
        bulk.add(part(outline.bulk.start, outline.bulk.end), &folder).await?;
        after.extend_from_slice(part(outline.bulk.end, longest));
        at += piece.len();
        match incoming.next().await? {
            Some(next) => piece = next,
            None => break,
        }
    }
    let head = outline.head(&after)?;
    let vouched = office.devices.now().await?.vouch(head, &office.key)?;
    let whole: [u8; 32] = whole.finalize().into();
    let mut digest = [0u8; 16];
    digest.copy_from_slice(&whole[..16]);
    Ok(Signed { vouched, bulk, digest })
}
