//! Photographs over HTTP: upload tokens, uploads by tus 1.0 (core and creation), and downloads.
//!
//! The address of an upload is the photograph's SHA-256 digest. A device that lost the address, or another
//! device with the same picture, can therefore continue where the upload stopped. A piece may carry
//! `Content-Digest` (RFC 9530); the complete photograph is always checked against its digest.

use std::sync::Arc;
use std::time::Instant;

use axum::Json;
use axum::body::Body;
use axum::extract::{Path, State};
use axum::http::{HeaderMap, HeaderName, HeaderValue, StatusCode, header};
use axum::response::{IntoResponse as _, Response};
use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::{Certificate, Trusts};
use farsiding_core::ids::{DeviceId, Digest};
use farsiding_core::store::{Scope, Store, StoreError, StoredPhoto, Write};
use farsiding_core::sync::{PASS_WINDOW_MILLIS, PassRequest};
use sha2::Digest as _;

use super::body;
use crate::database_error::DatabaseError;
use crate::office_database::OfficeDatabase;
use crate::photo_store::PhotoError;
use crate::photo_uploads::{self as uploads, Upload};
use crate::quotas::{self, Quotas};
use crate::state::Office;
use crate::state::request_error::{RequestError, TUS_CHECKSUM_MISMATCH};
use crate::state::upload_tokens::UPLOAD_TOKEN_LIFETIME;
use farsiding_host::SystemRandomness;

const TUS_VERSION: &str = "1.0.0";
const TUS_RESUMABLE: HeaderName = HeaderName::from_static("tus-resumable");
const UPLOAD_OFFSET: HeaderName = HeaderName::from_static("upload-offset");
const UPLOAD_LENGTH: HeaderName = HeaderName::from_static("upload-length");
const UPLOAD_METADATA: HeaderName = HeaderName::from_static("upload-metadata");
const CONTENT_DIGEST: HeaderName = HeaderName::from_static("content-digest");
const REPR_DIGEST: HeaderName = HeaderName::from_static("repr-digest");

/// `POST /v1/pass`: takes a signed request and returns an upload token.
pub async fn give_pass(
    State(office): State<Arc<Office>>,
    headers: HeaderMap,
    body: Body,
) -> Result<Response, RequestError> {
    let bytes = body::whole(&headers, body, 4096, office.limits.pause).await?;
    let (device, request) =
        PassRequest::open(&bytes).map_err(|e| RequestError::bad_request("unreadable", e.to_string()))?;
    check_enrolled(&office, device).await?;
    let now = office.now();
    if request.organisation_key != office.key.public() {
        return Err(RequestError::bad_request("other_server", "this request is meant for another server"));
    }
    if now.since(request.at).saturating_abs() > PASS_WINDOW_MILLIS {
        let message =
            "the time in this request is too far from the server's; sign it again with the time given";
        return Err(
            RequestError::new(StatusCode::UNAUTHORIZED, "other_time", message).with_server_time(now.0)
        );
    }
    let mut randomness = SystemRandomness::new().map_err(|e| RequestError::failed(&e.to_string()))?;
    let pass =
        office.upload_tokens.give(&bytes, device, Instant::now(), &mut randomness).ok_or_else(|| {
            RequestError::bad_request("seen_before", "this request was honoured before; sign a new one")
        })?;
    let reply = serde_json::json!({ "pass": pass, "seconds": UPLOAD_TOKEN_LIFETIME.as_secs() });
    Ok(([(header::CACHE_CONTROL, "no-store")], Json(reply)).into_response())
}

async fn check_enrolled(office: &Office, device: DeviceId) -> Result<(), RequestError> {
    let refuse = |code, message: &str| Err(RequestError::new(StatusCode::FORBIDDEN, code, message));
    match office.on_database(move |database| database.device(device)).await? {
        None => refuse("unknown_device", "this device is not enrolled with this organisation"),
        Some(known) if known.revoked_at.is_some() => refuse("revoked", "this device has been revoked"),
        Some(_) => Ok(()),
    }
}

/// Returns the device whose upload token a request carries. The device must be enrolled and not revoked.
pub async fn holder(office: &Office, headers: &HeaderMap) -> Result<DeviceId, RequestError> {
    let text = headers.get(header::AUTHORIZATION).and_then(|v| v.to_str().ok()?.strip_prefix("Bearer "));
    let device = text.and_then(|text| office.upload_tokens.holder(text.trim(), Instant::now()));
    let device = device.ok_or_else(RequestError::no_pass)?;
    check_enrolled(office, device).await?;
    Ok(device)
}

fn read_name(text: &str) -> Result<Digest, RequestError> {
    Digest::read(text).map_err(|_| RequestError::not_found())
}

fn check_tus(headers: &HeaderMap) -> Result<(), RequestError> {
    match headers.get(TUS_RESUMABLE).map(HeaderValue::as_bytes) {
        Some(version) if version == TUS_VERSION.as_bytes() => Ok(()),
        _ => Err(RequestError::new(
            StatusCode::PRECONDITION_FAILED,
            "tus_version",
            "uploads here follow tus 1.0.0; say so in Tus-Resumable",
        )
        .with_header(HeaderName::from_static("tus-version"), TUS_VERSION)),
    }
}

fn number(headers: &HeaderMap, name: &HeaderName) -> Option<u64> {
    headers.get(name)?.to_str().ok()?.parse().ok()
}

/// Returns a response with the headers of the tus protocol.
fn tus_answer(status: StatusCode, offset: Option<u64>) -> Response {
    let mut response = status.into_response();
    let headers = response.headers_mut();
    headers.insert(TUS_RESUMABLE, HeaderValue::from_static(TUS_VERSION));
    headers.insert(header::CACHE_CONTROL, HeaderValue::from_static("no-store"));
    if let Some(offset) = offset {
        headers.insert(UPLOAD_OFFSET, HeaderValue::from(offset));
    }
    response
}

/// `OPTIONS`: returns the supported parts of the tus protocol.
pub async fn options(State(office): State<Arc<Office>>) -> Response {
    let mut response = tus_answer(StatusCode::NO_CONTENT, None);
    let headers = response.headers_mut();
    headers.insert("tus-version", HeaderValue::from_static(TUS_VERSION));
    headers.insert("tus-extension", HeaderValue::from_static("creation"));
    headers.insert("tus-max-size", HeaderValue::from(office.limits.photo_bytes));
    response
}

/// Returns one decoded value of `Upload-Metadata`.
fn metadata(headers: &HeaderMap, wanted: &str) -> Option<String> {
    let text = headers.get(UPLOAD_METADATA)?.to_str().ok()?;
    let pair = text.split(',').map(str::trim).find_map(|pair| {
        let (key, value) = pair.split_once(' ')?;
        (key == wanted).then_some(value)
    })?;
    String::from_utf8(STANDARD.decode(pair.trim()).ok()?).ok()
}

/// Returns a media type that is safe to send to a browser: an image type, or the type of plain bytes.
fn safe_media(text: Option<String>) -> String {
    let plain = |c: char| c.is_ascii_alphanumeric() || matches!(c, '-' | '+' | '.');
    text.filter(|media| {
        // SVG is excluded because an SVG file may contain scripts.
        media.len() <= 64
            && media.strip_prefix("image/").is_some_and(|kind| !kind.is_empty() && kind.chars().all(plain))
            && !media.contains("svg")
    })
    .unwrap_or_else(|| "application/octet-stream".to_owned())
}

/// `POST /v1/photos`: announces a photograph by digest and length.
pub async fn create(State(office): State<Arc<Office>>, headers: HeaderMap) -> Result<Response, RequestError> {
    let device = holder(&office, &headers).await?;
    check_tus(&headers)?;
    let most = office.limits.photo_bytes;
    let length = number(&headers, &UPLOAD_LENGTH).filter(|length| *length > 0).ok_or_else(|| {
        RequestError::bad_request("no_length", "Upload-Length must say how many bytes will come")
    })?;
    if length > most {
        return Err(RequestError::too_large(most));
    }
    let sha256 = metadata(&headers, "sha256").and_then(|text| Digest::read(&text).ok()).ok_or_else(|| {
        RequestError::bad_request(
            "no_name",
            "Upload-Metadata must give sha256: 64 hexadecimal digits, base64",
        )
    })?;
    let media = safe_media(metadata(&headers, "media"));
    let now = office.now();
    if !is_here(&office, sha256).await? {
        let upload = Upload { sha256, device, length, media };
        announce(&office, upload, now).await?;
    }
    let mut response = tus_answer(StatusCode::CREATED, None);
    let location = HeaderValue::from_str(&format!("/v1/photos/{sha256}"));
    response
        .headers_mut()
        .insert(header::LOCATION, location.map_err(|e| RequestError::failed(&e.to_string()))?);
    Ok(response)
}

/// Registers an upload that an entry refers to and that is within the device's limits. A repeated
/// announcement continues the upload; one with another length starts it again.
async fn announce(office: &Office, upload: Upload, now: UtcMillis) -> Result<(), RequestError> {
    let (sha256, device) = (upload.sha256, upload.device);
    let lock = office.photos.lock_of(sha256, device);
    let _alone = lock.lock().await;
    let quotas = office.limits.quotas.clone();
    let outcome = office.on_database(move |database| note_upload(database, &quotas, &upload, now)).await?;
    if outcome? == Noted::Anew {
        office.photos.clear_beginning(sha256, device).await?;
    }
    Ok(())
}

#[derive(Debug, PartialEq, Eq)]
enum Noted {
    Known,
    Anew,
}

fn note_upload(
    database: &mut OfficeDatabase,
    quotas: &Quotas,
    upload: &Upload,
    now: UtcMillis,
) -> Result<Result<Noted, RequestError>, DatabaseError> {
    let database = database.connection();
    let conflict = |code, why: &str| Ok(Err(RequestError::new(StatusCode::CONFLICT, code, why)));
    let lengths = uploads::lengths_of(database, upload.sha256)?;
    if lengths.is_empty() {
        return conflict("no_entry", "no record here speaks of this photograph; send the records first");
    }
    if !lengths.contains(&upload.length) {
        return conflict("other_length", "the records give this photograph another length");
    }
    if uploads::find(database, upload.sha256, upload.device)?
        .is_some_and(|known| known.length == upload.length)
    {
        return Ok(Ok(Noted::Known));
    }
    let day = quotas::day_of(now);
    let mut brought = quotas::brought(database, upload.device, day)?;
    brought.photos += 1;
    brought.photo_bytes = brought.photo_bytes.saturating_add(upload.length);
    let too_many = |why: &str| {
        let why = format!("{why}; it is kept on the device. Who runs the office's server can raise this");
        Ok(Err(RequestError::new(StatusCode::TOO_MANY_REQUESTS, "over_quota", why)
            .with_header(header::RETRY_AFTER, "3600")))
    };
    if brought.photos > quotas.photos || brought.photo_bytes > quotas.photo_bytes {
        return too_many(
            "this device has sent as many photographs as it may in a day; the rest goes tomorrow",
        );
    }
    if uploads::under_way(database, upload.device)? >= quotas.uploads {
        return too_many("this device has too many photographs half sent; finish those first");
    }
    quotas::note(database, upload.device, day, &brought)?;
    uploads::begin(database, upload, now)?;
    Ok(Ok(Noted::Anew))
}

async fn is_here(office: &Office, sha256: Digest) -> Result<bool, RequestError> {
    let found = office.on_ledger(move |ledger| ledger.store().photo(sha256)).await??;
    Ok(found.is_some_and(|photo| photo.here))
}

/// `HEAD /v1/photos/{sha256}`: returns how many bytes of the photograph have arrived.
pub async fn offset(
    State(office): State<Arc<Office>>,
    Path(name): Path<String>,
    headers: HeaderMap,
) -> Result<Response, RequestError> {
    let device = holder(&office, &headers).await?;
    let sha256 = read_name(&name)?;
    let found = office.on_ledger(move |ledger| ledger.store().photo(sha256)).await??;
    let (offset, length) = match found.filter(|photo| photo.here) {
        Some(photo) => (photo.length, photo.length),
        None => {
            let upload = begun(&office, sha256, device).await?;
            let lock = office.photos.lock_of(sha256, device);
            let _alone = lock.lock().await;
            let received = office.photos.received(sha256, device).await?;
            if received == upload.length {
                finish(&office, &upload).await?; // for a server that stopped between the last byte and the check
            }
            (received, upload.length)
        }
    };
    let mut response = tus_answer(StatusCode::OK, Some(offset));
    response.headers_mut().insert(UPLOAD_LENGTH, HeaderValue::from(length));
    Ok(response)
}

async fn begun(office: &Office, sha256: Digest, device: DeviceId) -> Result<Upload, RequestError> {
    let upload =
        office.on_database(move |database| uploads::find(database.connection(), sha256, device)).await?;
    upload.ok_or_else(|| {
        RequestError::new(
            StatusCode::NOT_FOUND,
            "not_begun",
            "this upload has not been announced; create it first",
        )
    })
}

/// `PATCH /v1/photos/{sha256}`: appends bytes to the photograph.
pub async fn append(
    State(office): State<Arc<Office>>,
    Path(name): Path<String>,
    headers: HeaderMap,
    body: Body,
) -> Result<Response, RequestError> {
    let device = holder(&office, &headers).await?;
    check_tus(&headers)?;
    let sha256 = read_name(&name)?;
    let expected = HeaderValue::from_static("application/offset+octet-stream");
    if headers.get(header::CONTENT_TYPE) != Some(&expected) {
        let message = "pieces are sent as application/offset+octet-stream";
        return Err(RequestError::new(StatusCode::UNSUPPORTED_MEDIA_TYPE, "media_type", message));
    }
    let offset = number(&headers, &UPLOAD_OFFSET).ok_or_else(|| {
        RequestError::bad_request("no_offset", "Upload-Offset must say where this piece begins")
    })?;
    let digest = content_digest(&headers)?;
    // The piece is written in a task of its own, so that a broken connection does not interrupt the writing:
    // the bytes that arrived are flushed to the disk, and the lock is held until then.
    let task = tokio::spawn(async move { take_piece(&office, (sha256, device), offset, digest, body).await });
    let reached = task.await.map_err(|_| RequestError::failed("an upload's task stopped"))??;
    Ok(tus_answer(StatusCode::NO_CONTENT, Some(reached)))
}

/// Returns the SHA-256 digest of the piece, if the client sent one.
fn content_digest(headers: &HeaderMap) -> Result<Option<Digest>, RequestError> {
    let Some(value) = headers.get(CONTENT_DIGEST) else { return Ok(None) };
    let unreadable =
        || RequestError::bad_request("digest", "Content-Digest is read as sha-256=:base64: (RFC 9530)");
    let text = value.to_str().map_err(|_| unreadable())?;
    let of_sha256 = text.split(',').map(str::trim).find_map(|item| item.strip_prefix("sha-256=:"));
    let Some(encoded) = of_sha256 else { return Ok(None) }; // other algorithms are not checked
    let bytes =
        STANDARD.decode(encoded.strip_suffix(':').ok_or_else(unreadable)?).map_err(|_| unreadable())?;
    Ok(Some(Digest(bytes.try_into().map_err(|_| unreadable())?)))
}

async fn take_piece(
    office: &Office,
    (sha256, device): (Digest, DeviceId),
    offset: u64,
    digest: Option<Digest>,
    mut body: Body,
) -> Result<u64, RequestError> {
    let lock = office.photos.lock_of(sha256, device);
    let _alone = lock.try_lock().map_err(|_| {
        RequestError::new(
            StatusCode::LOCKED,
            "under_way",
            "this photograph is being received; ask again for its offset",
        )
    })?;
    let upload = match begun(office, sha256, device).await {
        Ok(upload) => upload,
        Err(_) if is_here(office, sha256).await? => {
            return Err(RequestError::new(
                StatusCode::CONFLICT,
                "complete",
                "this photograph is here already",
            ));
        }
        Err(problem) => return Err(problem),
    };
    let mut beginning = office.photos.go_on(sha256, device).await?;
    if beginning.length() != offset {
        let message = format!("{} bytes are here; go on from there", beginning.length());
        return Err(RequestError::new(StatusCode::CONFLICT, "other_offset", message));
    }
    let mut hash = sha2::Sha256::new();
    let outcome = loop {
        match body::next_piece(&mut body, office.limits.pause).await {
            Ok(None) => break Ok(()),
            Ok(Some(piece)) if beginning.length() + piece.len() as u64 > upload.length => {
                let message = "more bytes came than were announced";
                break Err(RequestError::bad_request("too_many_bytes", message));
            }
            Ok(Some(piece)) => {
                hash.update(&piece);
                beginning.add(&piece).await?;
            }
            Err(problem) => break Err(problem),
        }
    };
    let differs = digest.is_some_and(|digest| digest.0 != <[u8; 32]>::from(hash.finalize()));
    if outcome.is_ok() && differs {
        beginning.take_back().await?;
        let status = StatusCode::from_u16(TUS_CHECKSUM_MISMATCH).unwrap_or(StatusCode::BAD_REQUEST);
        return Err(RequestError::new(status, "piece_differs", "this piece arrived altered; send it again"));
    }
    let reached = beginning.keep().await?; // includes bytes that came before a connection broke
    if reached > offset {
        let now = office.now();
        office
            .on_database(move |database| uploads::moved(database.connection(), sha256, device, now))
            .await?;
    }
    outcome?;
    if reached == upload.length {
        finish(office, &upload).await?;
    }
    Ok(reached)
}

/// Checks and stores a complete upload, and has the next signed reply confirm it.
async fn finish(office: &Office, upload: &Upload) -> Result<(), RequestError> {
    let Upload { sha256, device, length, media } = upload.clone();
    match office.photos.complete(sha256, device).await {
        Ok(()) => {}
        Err(error @ PhotoError::OtherBytes { .. }) => {
            office.on_database(move |database| uploads::end(database.connection(), sha256, device)).await?;
            tracing::warn!(photo = sha256.short(), "an upload was not what it was announced as");
            return Err(error.into());
        }
        Err(error) => return Err(error.into()),
    }
    office
        .on_ledger(move |ledger| {
            let photo = Write::Photo { sha256, length, media: &media, here: true, held: false };
            ledger.store_mut().commit(&[photo]).map(|_| ())
        })
        .await??;
    // Other devices may be uploading the same photograph. They learn that it is here when they ask where to
    // continue.
    let all = office.on_database(move |database| uploads::all_of(database.connection(), sha256)).await?;
    for Upload { device, .. } in all {
        office.on_database(move |database| uploads::end(database.connection(), sha256, device)).await?;
        office.photos.clear_beginning(sha256, device).await?;
    }
    tracing::info!(photo = sha256.short(), bytes = length, "photograph received");
    let _ = office.hints.send(()); // an error only means that there are no listeners
    Ok(())
}

/// Returns the photograph if the device may have it. A device with a restricted list of sites may have only
/// the photographs that entries of those sites' records name.
fn photo_given_to(
    store: &dyn Store,
    device: DeviceId,
    key: &dyn Trusts,
    sha256: Digest,
) -> Result<Option<StoredPhoto>, StoreError> {
    let certificate = store.certificate(device)?.and_then(|bytes| Certificate::open(&bytes, key).ok());
    let scope = certificate.map_or(Scope::Nothing, |certificate| Scope::of(&certificate));
    if scope != Scope::Everything && !store.scopes().names_photo(sha256, &scope)? {
        return Ok(None);
    }
    store.photo(sha256)
}

/// Deletes the uploads that have received nothing for too long, together with their bytes. Returns how many
/// were deleted.
///
/// # Errors
/// Returns a [`RequestError`] when the database or the file system fails.
pub async fn forget_old_uploads(office: &Office) -> Result<usize, RequestError> {
    let days = i64::try_from(office.limits.quotas.upload_days).unwrap_or(i64::MAX);
    let since = UtcMillis(office.now().0.saturating_sub(days.saturating_mul(86_400_000)));
    let old = office.on_database(move |database| uploads::at_rest(database.connection(), since)).await?;
    for Upload { sha256, device, .. } in &old {
        let (sha256, device) = (*sha256, *device);
        let lock = office.photos.lock_of(sha256, device);
        let Ok(_alone) = lock.try_lock() else { continue }; // the upload is receiving bytes just now
        office.on_database(move |database| uploads::end(database.connection(), sha256, device)).await?;
        office.photos.clear_beginning(sha256, device).await?;
    }
    Ok(old.len())
}

/// `GET /v1/photos/{sha256}`: returns the photograph. To a device that may not have it, the answer is the
/// same as for a missing photograph.
pub async fn download(
    State(office): State<Arc<Office>>,
    Path(name): Path<String>,
    headers: HeaderMap,
) -> Result<Response, RequestError> {
    let device = holder(&office, &headers).await?;
    let sha256 = read_name(&name)?;
    let key = office.key.clone();
    let photo =
        office.on_ledger(move |ledger| photo_given_to(ledger.store(), device, &key, sha256)).await??;
    let photo = photo.filter(|photo| photo.here).ok_or(PhotoError::NotHere)?;
    let (length, bytes) = office.photos.read(sha256).await?;
    let digest = format!("sha-256=:{}:", STANDARD.encode(sha256.0));
    let mut response = Body::from_stream(bytes).into_response();
    let headers = response.headers_mut();
    let text = |text: &str| HeaderValue::from_str(text).map_err(|e| RequestError::failed(&e.to_string()));
    headers.insert(header::CONTENT_TYPE, text(&safe_media(Some(photo.media)))?);
    headers.insert(header::CONTENT_LENGTH, HeaderValue::from(length));
    headers.insert(header::ETAG, text(&format!("\"{sha256}\""))?);
    headers.insert(REPR_DIGEST, text(&digest)?);
    headers.insert(header::CACHE_CONTROL, HeaderValue::from_static("private, max-age=31536000, immutable"));
    headers.insert(header::X_CONTENT_TYPE_OPTIONS, HeaderValue::from_static("nosniff"));
    headers.insert(header::CONTENT_SECURITY_POLICY, HeaderValue::from_static("default-src 'none'; sandbox"));
    Ok(response)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_pictures_are_sent_back_as_what_they_say_they_are() {
        assert_eq!(safe_media(Some("image/jpeg".into())), "image/jpeg");
        for odd in ["text/html", "image/svg+xml", "image/", "image/a\r\nb", "image/png; x=y"] {
            assert_eq!(safe_media(Some(odd.into())), "application/octet-stream", "{odd:?}");
        }
    }
}
