//! `GET /office/live`: server-sent events that tell an open page only that there is something new.

use std::convert::Infallible;
use std::net::SocketAddr;
use std::sync::Arc;
use std::time::Duration;

use axum::extract::{ConnectInfo, State};
use axum::http::HeaderMap;
use axum::response::sse::{Event, KeepAlive, Sse};
use futures_util::stream::{self, Stream};
use tokio::sync::broadcast::error::RecvError;

use super::frame::RecordViewer;
use super::page_error::PageError;
use crate::state::{Office, RequestError};

/// The longest duration of a stream. After it the page connects again, and its session is checked again.
const LONGEST: Duration = Duration::from_secs(10 * 60);

/// Streams hints to a signed-in person.
pub async fn events(
    State(office): State<Arc<Office>>,
    ConnectInfo(peer): ConnectInfo<SocketAddr>,
    headers: HeaderMap,
    _reader: RecordViewer,
) -> Result<Sse<impl Stream<Item = Result<Event, Infallible>>>, PageError> {
    let address = office.concurrency.address(peer, &headers);
    let session = super::cookies::token_of(&headers, office.secure).unwrap_or_default();
    let own = office.concurrency.stream(address, session.as_bytes()).ok_or_else(RequestError::too_often)?;
    let place = Arc::clone(&office.streams).try_acquire_owned().map_err(|_| RequestError::busy())?;
    let place = (place, own);
    let until = tokio::time::Instant::now() + LONGEST;
    let state = (office.news.subscribe(), office.stopping.clone(), place, true);
    // Browsers ignore an event without data and do not pass it to the page.
    let events = stream::unfold(state, move |(mut news, mut stopping, place, first)| async move {
        if first {
            return Some((Ok(Event::default().event("hello").data("-")), (news, stopping, place, false)));
        }
        let go_on = tokio::select! {
            // Having missed some hints is also a reason to refresh.
            outcome = news.recv() => !matches!(outcome, Err(RecvError::Closed)),
            _ = stopping.wait_for(|stop| *stop) => false,
            () = tokio::time::sleep_until(until) => false,
        };
        go_on.then(|| (Ok(Event::default().event("new").data("-")), (news, stopping, place, false)))
    });
    Ok(Sse::new(events).keep_alive(KeepAlive::new().interval(Duration::from_secs(20))))
}
