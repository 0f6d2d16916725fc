//! `GET /v1/hints`: server-sent events that say only that there is something new. A device that misses a hint
//! finds out at its next sync round.

use std::convert::Infallible;
use std::net::SocketAddr;
use std::sync::Arc;
use std::time::Duration;

use axum::extract::{ConnectInfo, State};
use axum::http::HeaderMap;
use axum::response::sse::{Event, KeepAlive, Sse};
use futures_util::stream::{self, Stream};
use tokio::sync::broadcast::error::RecvError;

use super::photo_routes;
use crate::state::Office;
use crate::state::request_error::RequestError;

/// Streams hints to the device that an upload token belongs to.
pub async fn hints(
    State(office): State<Arc<Office>>,
    ConnectInfo(peer): ConnectInfo<SocketAddr>,
    headers: HeaderMap,
) -> Result<Sse<impl Stream<Item = Result<Event, Infallible>>>, RequestError> {
    let device = photo_routes::holder(&office, &headers).await?;
    let address = office.concurrency.address(peer, &headers);
    let own = office.concurrency.stream(address, &device.0).ok_or_else(RequestError::too_often)?;
    let place = Arc::clone(&office.streams).try_acquire_owned().map_err(|_| RequestError::busy())?;
    let place = (place, own);
    let state = (office.hints.subscribe(), office.stopping.clone(), place, true);
    let events = stream::unfold(state, |(mut news, mut stopping, place, first)| async move {
        if first {
            return Some((Ok(Event::default().event("hello").data("")), (news, stopping, place, false)));
        }
        let go_on = tokio::select! {
            // Having missed some hints is also a reason to sync.
            outcome = news.recv() => !matches!(outcome, Err(RecvError::Closed)),
            _ = stopping.wait_for(|stop| *stop) => false,
        };
        go_on.then(|| (Ok(Event::default().event("new").data("")), (news, stopping, place, false)))
    });
    Ok(Sse::new(events).keep_alive(KeepAlive::new().interval(Duration::from_secs(20))))
}
