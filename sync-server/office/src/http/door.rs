//! Reads a sync request from any client. The outline comes first, the bulk is set aside, and the signature is
//! checked before the bulk is decoded. All of this happens without the ledger's lock.
//!
//! The bulk of a message comes before its head, so the sender is known only at the end. Until then a stranger
//! costs a few kilobytes of memory: a longer bulk goes into an unnamed temporary file, which vanishes when it
//! is closed.

use std::io::{Read as _, Seek as _};
use std::path::Path;

use axum::body::Body;
use axum::http::{HeaderMap, StatusCode, header};
use farsiding_core::sync::{AnswerError, OpenedRequest, Outline, Vouched};
use sha2::Digest as _;
use tokio::io::AsyncWriteExt as _;

use super::body::Incoming;
use crate::state::Office;
use crate::state::request_error::RequestError;

/// The bytes of a bulk that are kept in memory before its sender is known.
const IN_MEMORY: usize = 16 * 1024;

/// A bulk whose sender is not known yet.
enum Aside {
    Memory(Vec<u8>),
    File { file: tokio::fs::File, length: usize },
}

impl Aside {
    async fn add(&mut self, bytes: &[u8], folder: &Path) -> Result<(), RequestError> {
        let failed = |error: std::io::Error| match error.kind() {
            std::io::ErrorKind::StorageFull => {
                RequestError::new(StatusCode::INSUFFICIENT_STORAGE, "full", "the server has no room left")
            }
            _ => RequestError::failed(&error.to_string()),
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

/// A request whose head is signed by a device of this organisation, with its undecoded bulk.
struct Signed {
    vouched: Vouched,
    bulk: Aside,
    digest: [u8; 16],
}

/// Reads a request, finds out its sender, and decodes it.
///
/// # Errors
/// Returns a [`RequestError`] for a request that is too long, too slow, malformed, or not signed by a device of
/// this organisation. The rest of its body is then not read.
pub async fn open(office: &Office, headers: &HeaderMap, body: Body) -> Result<OpenedRequest, RequestError> {
    let Signed { vouched, bulk, digest } = receive(office, headers, body).await?;
    let _turn = office.opening.acquire().await.map_err(|_| RequestError::busy())?;
    let bulk = match bulk {
        Aside::Memory(bytes) => bytes,
        Aside::File { mut file, length } => {
            file.flush().await.map_err(|e| RequestError::failed(&e.to_string()))?;
            let mut file = file.into_std().await;
            let read = move || {
                let mut bytes = Vec::with_capacity(length);
                file.rewind()?;
                file.read_to_end(&mut bytes).map(|_| bytes)
            };
            let read = tokio::task::spawn_blocking(read).await;
            let read = read.map_err(|_| RequestError::failed("reading a request's bulk stopped"))?;
            read.map_err(|e| RequestError::failed(&e.to_string()))?
        }
    };
    let most = office.limits.inflated_bytes;
    let opened = tokio::task::spawn_blocking(move || OpenedRequest::open(vouched, &bulk, digest, most)).await;
    // Only a hostile bulk causes a panic here. The request is refused; nothing else was affected.
    let opened = opened.map_err(|_| unreadable("this request could not be processed"))?;
    opened.map_err(|refusal| {
        if let AnswerError::Unreadable(error) = &refusal {
            tracing::warn!(%error, "unreadable sync request");
        }
        RequestError::from(refusal)
    })
}

fn unreadable(why: &str) -> RequestError {
    RequestError::bad_request("unreadable", why)
}

async fn receive(office: &Office, headers: &HeaderMap, body: Body) -> Result<Signed, RequestError> {
    let most = office.limits.request_bytes;
    let announced = headers.get(header::CONTENT_LENGTH).and_then(|v| v.to_str().ok()?.parse::<u64>().ok());
    if announced.is_some_and(|length| length > most as u64) {
        return Err(RequestError::too_large(most as u64));
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
        return Err(RequestError::too_large(most as u64));
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
