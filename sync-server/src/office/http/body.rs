//! Reading bodies from senders that may be slow, endless or hostile.

use std::time::Duration;

use axum::body::{Body, Bytes};
use axum::http::{HeaderMap, StatusCode, header};
use http_body_util::BodyExt as _;

use super::problem::Problem;

/// The next piece of a body; nothing at its end.
///
/// # Errors
/// [`Problem`] when the sender pauses too long or goes away.
pub async fn next_piece(body: &mut Body, pause: Duration) -> Result<Option<Bytes>, Problem> {
    loop {
        let frame = tokio::time::timeout(pause, body.frame()).await.map_err(|_| {
            Problem::new(StatusCode::REQUEST_TIMEOUT, "too_slow", "nothing came for too long; send it again")
        })?;
        match frame {
            None => return Ok(None),
            Some(Err(_)) => return Err(Problem::bad_request("cut_off", "the request was cut off")),
            Some(Ok(frame)) => {
                if let Ok(bytes) = frame.into_data() {
                    return Ok(Some(bytes));
                }
            }
        }
    }
}

/// The whole body, if it is no longer than `most`.
///
/// # Errors
/// [`Problem`] when it is longer, or as [`next_piece`].
pub async fn whole(
    headers: &HeaderMap,
    mut body: Body,
    most: usize,
    pause: Duration,
) -> Result<Vec<u8>, Problem> {
    let announced = headers.get(header::CONTENT_LENGTH).and_then(|v| v.to_str().ok()?.parse::<u64>().ok());
    if announced.is_some_and(|length| length > most as u64) {
        return Err(Problem::too_large(most as u64));
    }
    let mut bytes = Vec::new();
    while let Some(piece) = next_piece(&mut body, pause).await? {
        if bytes.len() + piece.len() > most {
            return Err(Problem::too_large(most as u64));
        }
        bytes.extend_from_slice(&piece);
    }
    Ok(bytes)
}
