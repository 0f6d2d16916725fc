//! `GET /v1/enrol`: who this office is and what time it has. `POST /v1/enrol`: a request signed by the key that
//! is to be enrolled in, the organisation's key and the device's certificate out.

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
use crate::state::problem::Problem;

/// The longest request taken, in bytes.
const LARGEST: usize = 4096;

/// What a device has to sign over besides its code.
#[derive(Debug, Serialize, Deserialize)]
pub struct WhoReply {
    /// The organisation's public key, 64 hexadecimal digits.
    pub organisation_key: DeviceId,
    /// The server's time, milliseconds since 1970.
    pub server_time: i64,
}

/// What an enrolled device gets.
#[derive(Debug, Serialize, Deserialize)]
pub struct EnrolReply {
    /// The organisation's public key, 64 hexadecimal digits.
    pub organisation_key: DeviceId,
    /// The device's signed certificate, base64.
    pub certificate: String,
    /// What the organisation's root said of its keys, oldest first, base64 each: whoever signed the certificate is
    /// among them.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub key_statements: Vec<String>,
    /// The server's time, milliseconds since 1970.
    pub server_time: i64,
}

/// Says who this office is, to anybody: both stand in every receipt as well.
pub async fn who(State(office): State<Arc<Office>>) -> Response {
    let reply = WhoReply { organisation_key: office.key.public(), server_time: office.now().0 };
    ([(header::CACHE_CONTROL, "no-store")], Json(reply)).into_response()
}

/// Returns a request as an app of before sent it: a JSON object with the code in the open, signed by nobody.
fn is_of_before(bytes: &[u8]) -> bool {
    let value: Result<serde_json::Value, _> = serde_json::from_slice(bytes);
    value.is_ok_and(|value| value.get("code").is_some_and(serde_json::Value::is_string))
}

fn opened(bytes: &[u8]) -> Result<(DeviceId, EnrolmentRequest), Problem> {
    EnrolmentRequest::open(bytes).map_err(|error| match is_of_before(bytes) {
        true => Problem::new(
            StatusCode::FORBIDDEN,
            "too_old",
            "this app is too old to be enrolled here: it does not sign its request. Update it (a phone: close the \
             app and open it again while there is signal), then use the same code",
        ),
        false => Problem::bad_request("unreadable", error.to_string()),
    })
}

/// Enrols a device.
pub async fn enrol(
    State(office): State<Arc<Office>>,
    headers: HeaderMap,
    body: Body,
) -> Result<Response, Problem> {
    let bytes = body::whole(&headers, body, LARGEST, office.limits.pause).await?;
    let (now, key, database) = (office.now(), office.key.clone(), Arc::clone(&office.database));
    let (device, request) = opened(&bytes)?;
    if request.organisation != OrganisationId::of_key(&key.public()) {
        return Err(Problem::new(
            StatusCode::FORBIDDEN,
            "other_office",
            "this request was signed for another organisation than the one that answers here",
        ));
    }
    if !request.is_fresh(now) {
        return Err(Problem::new(
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
