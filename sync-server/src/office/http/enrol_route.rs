//! `POST /v1/enrol`: a one-time code and a device's public key in, the organisation's key and the
//! device's certificate out.

use std::sync::{Arc, PoisonError};

use axum::Json;
use axum::body::Body;
use axum::extract::State;
use axum::http::{HeaderMap, header};
use axum::response::{IntoResponse as _, Response};
use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use farsiding_core::ids::DeviceId;
use serde::{Deserialize, Serialize};

use super::problem::Problem;
use super::{Office, body};
use crate::office::enrolment;

/// What a device sends to be enrolled.
#[derive(Debug, Serialize, Deserialize)]
pub struct EnrolRequest {
    /// The one-time code.
    pub code: String,
    /// The device's public key, 64 hexadecimal digits.
    pub device: DeviceId,
    /// What the device calls itself; may be empty.
    #[serde(default)]
    pub name: String,
}

/// What it gets.
#[derive(Debug, Serialize, Deserialize)]
pub struct EnrolReply {
    /// The organisation's public key, 64 hexadecimal digits.
    pub organisation_key: DeviceId,
    /// The device's signed certificate, base64.
    pub certificate: String,
    /// The server's time, milliseconds since 1970.
    pub server_time: i64,
}

/// Enrols a device.
pub async fn enrol(
    State(office): State<Arc<Office>>,
    headers: HeaderMap,
    body: Body,
) -> Result<Response, Problem> {
    let bytes = body::whole(&headers, body, 4096, office.limits.pause).await?;
    let request: EnrolRequest =
        serde_json::from_slice(&bytes).map_err(|e| Problem::bad_request("unreadable", e.to_string()))?;
    let (now, key, register) = (office.now(), office.key.clone(), Arc::clone(&office.register));
    let EnrolRequest { code, device, name } = request;
    let outcome = office
        .on_ledger(move |ledger| {
            let mut register = register.lock().unwrap_or_else(PoisonError::into_inner);
            enrolment::redeem(&mut register, ledger.store_mut(), &key, &code, device, &name, now)
        })
        .await?;
    let certificate = outcome.inspect_err(|error| tracing::warn!(%error, "enrolment refused"))?;
    tracing::info!(device = device.short(), "enrolled");
    let reply = EnrolReply {
        organisation_key: office.key.public(),
        certificate: STANDARD.encode(certificate),
        server_time: now.0,
    };
    Ok(([(header::CACHE_CONTROL, "no-store")], Json(reply)).into_response())
}
