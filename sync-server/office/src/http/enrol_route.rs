//! `GET /v1/enrol` returns the organisation's key and the server's time. `POST /v1/enrol` takes a request
//! signed by the key to be enrolled, and returns the organisation's key and the device's certificate.

use std::sync::{Arc, PoisonError};

use axum::Json;
use axum::body::Body;
use axum::extract::State;
use axum::http::{HeaderMap, StatusCode, header};
use axum::response::{IntoResponse as _, Response};
use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use farsiding_core::entry::EnrolmentRequest;
use farsiding_core::ids::{DeviceId, OrganisationId};
use serde::{Deserialize, Serialize};

use super::body;
use crate::enrolment;
use crate::state::Office;
use crate::state::request_error::RequestError;

/// The largest request, in bytes.
const LARGEST: usize = 4096;

/// What a device signs in addition to its code.
#[derive(Debug, Serialize, Deserialize)]
pub struct WhoReply {
    /// The organisation's public key, as 64 hexadecimal digits.
    pub organisation_key: DeviceId,
    /// The server's time, in milliseconds since 1970.
    pub server_time: i64,
}

/// The reply to an enrolled device.
#[derive(Debug, Serialize, Deserialize)]
pub struct EnrolReply {
    /// The organisation's public key, as 64 hexadecimal digits.
    pub organisation_key: DeviceId,
    /// The device's signed certificate, base64.
    pub certificate: String,
    /// The root's statements about the organisation's keys, oldest first, each as base64. They include the
    /// key that signed the certificate.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub key_statements: Vec<String>,
    /// The server's time, in milliseconds since 1970.
    pub server_time: i64,
}

/// Returns the organisation's key and the server's time to anybody. Both are also in every receipt.
pub async fn who(State(office): State<Arc<Office>>) -> Response {
    let reply = WhoReply { organisation_key: office.key.public(), server_time: office.now().0 };
    ([(header::CACHE_CONTROL, "no-store")], Json(reply)).into_response()
}

/// Returns whether a request has the form of an earlier app: an unsigned JSON object with the code in plain
/// text.
fn is_of_before(bytes: &[u8]) -> bool {
    let value: Result<serde_json::Value, _> = serde_json::from_slice(bytes);
    value.is_ok_and(|value| value.get("code").is_some_and(serde_json::Value::is_string))
}

fn opened(bytes: &[u8]) -> Result<(DeviceId, EnrolmentRequest), RequestError> {
    EnrolmentRequest::open(bytes).map_err(|error| match is_of_before(bytes) {
        true => RequestError::new(
            StatusCode::FORBIDDEN,
            "too_old",
            "this app is too old to be enrolled here: it does not sign its request. Update it (a phone: close the \
             app and open it again while there is signal), then use the same code",
        ),
        false => RequestError::bad_request("unreadable", error.to_string()),
    })
}

/// Enrols a device.
pub async fn enrol(
    State(office): State<Arc<Office>>,
    headers: HeaderMap,
    body: Body,
) -> Result<Response, RequestError> {
    let bytes = body::whole(&headers, body, LARGEST, office.limits.pause).await?;
    let (now, key, database) = (office.now(), office.key.clone(), Arc::clone(&office.database));
    let (device, request) = opened(&bytes)?;
    if request.organisation != OrganisationId::of_key(&key.public()) {
        return Err(RequestError::new(
            StatusCode::FORBIDDEN,
            "other_office",
            "this request was signed for another organisation than the one that answers here",
        ));
    }
    if !request.is_fresh(now) {
        return Err(RequestError::new(
            StatusCode::FORBIDDEN,
            "stale_request",
            "this request was signed too long ago, or with another time than this server's; ask again",
        )
        .with_server_time(now.0));
    }
    let EnrolmentRequest { code, name, .. } = request;
    let outcome = office
        .on_ledger(move |ledger| {
            let database = database.lock().unwrap_or_else(PoisonError::into_inner);
            enrolment::redeem(&database, ledger.store_mut(), &key, &code, device, &name, now)
        })
        .await?;
    let certificate = outcome.inspect_err(|error| tracing::warn!(%error, "enrolment refused"))?;
    tracing::info!(device = device.short(), "enrolled");
    let reply = EnrolReply {
        organisation_key: office.key.public(),
        certificate: STANDARD.encode(certificate),
        key_statements: office.key.keys().signed().map(|bytes| STANDARD.encode(bytes)).collect(),
        server_time: now.0,
    };
    Ok(([(header::CACHE_CONTROL, "no-store")], Json(reply)).into_response())
}
