//! Reads request bodies from clients that may be slow, endless or hostile.

use std::time::Duration;

use axum::body::{Body, Bytes};
use axum::http::{HeaderMap, StatusCode, header};
use http_body_util::BodyExt as _;

use crate::state::request_error::RequestError;
use farsiding_host::line::SLOWEST_LINE;

/// Returns the next piece of a body, or `None` at its end.
///
/// # Errors
/// Returns a [`RequestError`] when the client pauses too long or disconnects.
pub async fn next_piece(body: &mut Body, pause: Duration) -> Result<Option<Bytes>, RequestError> {
    loop {
        let frame = tokio::time::timeout(pause, body.frame()).await.map_err(|_| too_slow())?;
        match frame {
            None => return Ok(None),
            Some(Err(_)) => return Err(RequestError::bad_request("cut_off", "the request was cut off")),
            Some(Ok(frame)) => {
                if let Ok(bytes) = frame.into_data() {
                    return Ok(Some(bytes));
                }
            }
        }
    }
}

/// Returns the whole body if it has at most `most` bytes and arrives no slower than on the slowest
/// connection. Without the lower bound on speed, a client that sends a byte now and then could occupy a place
/// for hours.
///
/// # Errors
/// Returns a [`RequestError`] when the body is too long or too slow, or the errors of [`next_piece`].
pub async fn whole(
    headers: &HeaderMap,
    body: Body,
    most: usize,
    pause: Duration,
) -> Result<Vec<u8>, RequestError> {
    let announced = headers.get(header::CONTENT_LENGTH).and_then(|v| v.to_str().ok()?.parse::<u64>().ok());
    if announced.is_some_and(|length| length > most as u64) {
        return Err(RequestError::too_large(most as u64));
    }
    let mut incoming = Incoming::new(body, pause);
    let mut bytes = Vec::new();
    while let Some(piece) = incoming.next().await? {
        if bytes.len() + piece.len() > most {
            return Err(RequestError::too_large(most as u64));
        }
        bytes.extend_from_slice(&piece);
    }
    Ok(bytes)
}

/// A body that must arrive no slower than on the slowest connection, so that a client that sends a byte now
/// and then cannot occupy a place for hours.
#[derive(Debug)]
pub struct Incoming {
    body: Body,
    pause: Duration,
    began: tokio::time::Instant,
    came: u64,
}

impl Incoming {
    /// Returns a body of which nothing has been read yet.
    pub fn new(body: Body, pause: Duration) -> Incoming {
        Incoming { body, pause, began: tokio::time::Instant::now(), came: 0 }
    }

    /// Returns the next piece, or `None` at the end.
    ///
    /// # Errors
    /// Returns the errors of [`next_piece`].
    pub async fn next(&mut self) -> Result<Option<Bytes>, RequestError> {
        let until = self.began + 2 * self.pause + Duration::from_secs(self.came / SLOWEST_LINE);
        let piece = tokio::time::timeout_at(until, next_piece(&mut self.body, self.pause)).await;
        let piece = piece.map_err(|_| too_slow())??;
        self.came += piece.as_ref().map_or(0, |piece| piece.len() as u64);
        Ok(piece)
    }
}

fn too_slow() -> RequestError {
    RequestError::new(StatusCode::REQUEST_TIMEOUT, "too_slow", "nothing came for too long; send it again")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[tokio::test]
    async fn a_byte_now_and_then_is_not_waited_for_for_ever() {
        let drip = futures_util::stream::unfold((), |()| async {
            tokio::time::sleep(Duration::from_millis(20)).await;
            Some((Ok::<_, std::convert::Infallible>(Bytes::from_static(b"x")), ()))
        });
        let pause = Duration::from_millis(50);
        let headers = HeaderMap::new();
        let read = whole(&headers, Body::from_stream(drip), 1_000_000, pause);
        let outcome = tokio::time::timeout(Duration::from_secs(5), read).await;
        assert!(matches!(outcome, Ok(Err(_))), "it was waited for, or taken for whole");
    }
}
