//! `POST /v1/log`: answers a device's request about the ledger's log. The core decides the answer.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Arc;

use axum::body::Body;
use axum::extract::State;
use axum::http::{HeaderMap, StatusCode, header};
use axum::response::{IntoResponse as _, Response};
use farsiding_core::sync::{answer_log, open_log_request};

use super::body;
use crate::state::Office;
use crate::state::request_error::RequestError;

/// The largest request in bytes: the largest number of entries one may ask about, and some room.
const REQUEST_BYTES: usize = 64 * 1024;

/// Answers a request about the log.
pub async fn log(
    State(office): State<Arc<Office>>,
    headers: HeaderMap,
    body: Body,
) -> Result<Response, RequestError> {
    let read = body::whole(&headers, body, REQUEST_BYTES, office.limits.pause);
    let request = tokio::time::timeout(office.limits.in_all, read).await.map_err(|_| {
        RequestError::new(StatusCode::REQUEST_TIMEOUT, "too_slow", "the request took too long; send it again")
    })??;
    // The signature is checked first, so that strangers neither wait for the ledger nor keep it from others.
    open_log_request(&*office.devices.now().await?, &office.key, &request)?;
    let (now, key) = (office.now(), office.key.clone());
    let outcome = office
        .on_ledger(move |ledger| {
            catch_unwind(AssertUnwindSafe(|| answer_log(ledger.store_mut(), &key, &request, now)))
        })
        .await?;
    let answer = outcome.map_err(|_| {
        tracing::error!("answering a log request panicked");
        RequestError::bad_request("unreadable", "this request could not be processed")
    })??;
    if let Some(size) = answer.device_knows_more {
        tracing::error!(
            device = answer.device.short(),
            size,
            "a device was shown a longer log than this ledger has: the ledger was put back from a backup. \
             Declare it with `farsiding restored`, or devices will hold that history was rewritten"
        );
    }
    tracing::info!(device = answer.device.short(), reply_bytes = answer.reply.len(), "log");
    let headers = [(header::CONTENT_TYPE, "application/cbor"), (header::CACHE_CONTROL, "no-store")];
    Ok((headers, answer.reply).into_response())
}
