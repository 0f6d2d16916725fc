//! `POST /v1/sync`: a round's bytes in, the signed reply's bytes out. What they mean is the core's.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Arc;

use axum::body::Body;
use axum::extract::State;
use axum::http::{HeaderMap, StatusCode, header};
use axum::response::{IntoResponse as _, Response};
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::{Entry, OrganisationKey, Statement};
use farsiding_core::evidence::ledger_log;
use farsiding_core::store::{Store, StoreError, Write};
use farsiding_core::sync::{Answer, Answerer, Refusal};

use super::problem::Problem;
use super::{Office, body};
use crate::office::ledger::Ledger;

/// Answers one round.
pub async fn sync(
    State(office): State<Arc<Office>>,
    headers: HeaderMap,
    body: Body,
) -> Result<Response, Problem> {
    let limits = &office.limits;
    let read = body::whole(&headers, body, limits.request_bytes, limits.pause);
    let request = tokio::time::timeout(limits.in_all, read).await.map_err(|_| {
        Problem::new(StatusCode::REQUEST_TIMEOUT, "too_slow", "the request took too long; send it again")
    })??;
    let (now, key, epoch, most) = (office.now(), office.key.clone(), office.epoch, limits.inflated_bytes);
    let (answer, position) =
        office.on_ledger(move |ledger| answer(ledger, &key, epoch, most, &request, now)).await??;
    tracing::info!(
        device = answer.device.short(),
        new = answer.new.len(),
        refused = answer.refused,
        ahead_millis = answer.device_ahead_millis,
        reply_bytes = answer.reply.len(),
        "sync"
    );
    let (device, ahead, unsent) = (answer.device, answer.device_ahead_millis, answer.unsent);
    // Telemetry: that it cannot be written is logged and is no reason to withhold a receipt.
    let noted = office.on_register(move |register| register.seen(device, now, ahead, unsent, position)).await;
    if let Err(problem) = noted {
        tracing::warn!(?problem, "the register could not note a sync");
    }
    if unsent != (0, 0) {
        let _ = office.news.send(()); // as below
    }
    if !answer.new.is_empty() {
        let _ = office.hints.send(()); // an error only means that nobody listens
    }
    let headers = [(header::CONTENT_TYPE, "application/cbor"), (header::CACHE_CONTROL, "no-store")];
    Ok((headers, answer.reply).into_response())
}

fn answer(
    ledger: &mut dyn Ledger,
    key: &OrganisationKey,
    epoch: u64,
    most: usize,
    request: &[u8],
    now: UtcMillis,
) -> Result<(Answer, u64), Problem> {
    let store = ledger.store_mut();
    let outcome = catch_unwind(AssertUnwindSafe(|| {
        let mut answerer = Answerer::new(&mut *store, key, epoch);
        answerer.largest_bulk = most;
        answerer.answer(request, now)
    }));
    let answer = match outcome {
        Ok(outcome) => outcome.map_err(|refusal| {
            if let Refusal::Unreadable(error) = &refusal {
                tracing::warn!(%error, bytes = request.len(), "unreadable sync request");
            }
            Problem::from(refusal)
        })?,
        Err(_) => {
            tracing::error!(
                bytes = request.len(),
                "answering a sync request panicked; its bytes are kept aside"
            );
            let why = "answering this request panicked";
            store.commit(&[Write::Quarantine { subject: None, bytes: request, why, at: now }])?;
            return Err(Problem::bad_request(
                "unreadable",
                "this request could not be processed; it was kept aside",
            ));
        }
    };
    expect_photos(store, &answer)?;
    if !answer.new.is_empty() {
        // The leaves are in already; a checkpoint that cannot be published now is published at the next.
        if let Err(error) = ledger_log::publish(store, key, now) {
            tracing::error!(%error, "no checkpoint could be published");
        }
    }
    let position = store.newest_position()?;
    Ok((answer, position))
}

/// Notes the photographs that new entries speak of, so that those still to come are known.
fn expect_photos(store: &mut dyn Store, answer: &Answer) -> Result<(), StoreError> {
    for (_, id) in &answer.new {
        let Some(row) = store.entry(*id)? else { continue };
        if let Ok(Entry { body, .. }) = Entry::reopen(row.id, row.bytes)
            && let Statement::Photo { photo, .. } = body.says
        {
            let (sha256, length, media) = (photo.sha256, photo.length, photo.media.as_str());
            store.commit(&[Write::Photo { sha256, length, media, here: false, held: false }])?;
        }
    }
    Ok(())
}
