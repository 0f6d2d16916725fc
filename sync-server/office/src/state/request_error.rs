//! Errors over HTTP: a status, a short code for programs and a sentence for people.

use axum::Json;
use axum::http::{HeaderName, HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Response};
use farsiding_core::Message;
use farsiding_core::store::StoreError;
use farsiding_core::sync::AnswerError;

use super::concurrency::COME_BACK;
use crate::database_error::DatabaseError;
use crate::enrolment::EnrolmentError;
use crate::photo_store::PhotoError;

/// The status that tus 1.0 defines for bytes that do not match their checksum.
pub const TUS_CHECKSUM_MISMATCH: u16 = 460;

/// Why a request was refused.
#[derive(Debug, Clone)]
pub struct RequestError {
    status: StatusCode,
    code: &'static str,
    message: String,
    header: Option<(HeaderName, &'static str)>,
    server_time: Option<i64>,
}

impl RequestError {
    /// Returns an error with this status, code and sentence.
    pub fn new(status: StatusCode, code: &'static str, message: impl Into<String>) -> RequestError {
        RequestError { status, code, message: message.into(), header: None, server_time: None }
    }

    /// Returns the HTTP status.
    pub const fn status(&self) -> StatusCode {
        self.status
    }

    /// Returns the sentence for people.
    pub fn message(&self) -> &str {
        &self.message
    }

    /// Returns what a person is told on a page.
    pub fn page_message(&self) -> Message {
        Message::new(match self.code {
            "busy" => "office-problem-busy",
            "too_often" => "office-problem-too-often",
            "full" => "office-problem-full",
            "ledger" => "office-problem-ledger",
            "not_found" => "office-problem-not-found",
            "not_here" => "office-problem-not-here",
            _ => "office-problem-failed",
        })
    }

    /// Returns the error with an additional header.
    pub fn with_header(self, name: HeaderName, value: &'static str) -> RequestError {
        RequestError { header: Some((name, value)), ..self }
    }

    /// Returns the error with the server's time in milliseconds, for a device whose clock is wrong.
    pub fn with_server_time(self, millis: i64) -> RequestError {
        RequestError { server_time: Some(millis), ..self }
    }

    /// Returns the error for an internal failure. The details are logged and not sent.
    pub fn failed(why: &str) -> RequestError {
        tracing::error!(why, "request failed");
        RequestError::new(StatusCode::INTERNAL_SERVER_ERROR, "failed", "the server failed; try again later")
    }

    /// Returns the error for a server that is too busy.
    pub fn busy() -> RequestError {
        RequestError::new(
            StatusCode::SERVICE_UNAVAILABLE,
            "busy",
            "the server is busy; try again in a moment",
        )
        .with_header(header::RETRY_AFTER, "5")
    }

    /// Returns the error for a client that came too often.
    pub fn too_often() -> RequestError {
        let message = "too many requests came from your address; try again in a moment";
        RequestError::new(StatusCode::TOO_MANY_REQUESTS, "too_often", message)
            .with_header(header::RETRY_AFTER, COME_BACK)
    }

    /// Returns the error for an unknown address.
    pub fn not_found() -> RequestError {
        RequestError::new(StatusCode::NOT_FOUND, "not_found", "there is nothing at this address")
    }

    /// Returns the error for a body of more than `most` bytes.
    pub fn too_large(most: u64) -> RequestError {
        RequestError::new(
            StatusCode::PAYLOAD_TOO_LARGE,
            "too_large",
            format!("at most {most} bytes are taken here"),
        )
    }

    /// Returns the error for an unexpected request.
    pub fn bad_request(code: &'static str, message: impl Into<String>) -> RequestError {
        RequestError::new(StatusCode::BAD_REQUEST, code, message)
    }

    /// Returns the error for a missing or expired upload token.
    pub fn no_pass() -> RequestError {
        RequestError::new(StatusCode::UNAUTHORIZED, "no_pass", "a pass is needed; ask for one at /v1/pass")
            .with_header(header::WWW_AUTHENTICATE, "Bearer")
    }
}

impl IntoResponse for RequestError {
    fn into_response(self) -> Response {
        let mut body = serde_json::json!({ "error": self.code, "message": self.message });
        if let (Some(time), Some(fields)) = (self.server_time, body.as_object_mut()) {
            fields.insert("server_time".to_owned(), time.into());
        }
        let mut response = (self.status, Json(body)).into_response();
        if let Some((name, value)) = self.header {
            response.headers_mut().insert(name, HeaderValue::from_static(value));
        }
        response
    }
}

impl From<StoreError> for RequestError {
    fn from(error: StoreError) -> Self {
        tracing::error!(%error, "ledger");
        match error {
            StoreError::Full => {
                RequestError::new(StatusCode::INSUFFICIENT_STORAGE, "full", "the server has no room left")
            }
            _ => RequestError::new(
                StatusCode::SERVICE_UNAVAILABLE,
                "ledger",
                "the server's ledger cannot be written just now; nothing was lost, try again later",
            )
            .with_header(header::RETRY_AFTER, "30"),
        }
    }
}

impl From<DatabaseError> for RequestError {
    fn from(error: DatabaseError) -> Self {
        RequestError::failed(&error.to_string())
    }
}

impl From<PhotoError> for RequestError {
    fn from(error: PhotoError) -> Self {
        match error {
            PhotoError::OtherBytes { .. } => RequestError::new(
                StatusCode::from_u16(TUS_CHECKSUM_MISMATCH).unwrap_or(StatusCode::BAD_REQUEST),
                "other_bytes",
                error.to_string(),
            ),
            PhotoError::NotHere => RequestError::new(
                StatusCode::NOT_FOUND,
                "not_here",
                "this photograph has not reached the server",
            ),
            PhotoError::Full => {
                RequestError::new(StatusCode::INSUFFICIENT_STORAGE, "full", "the server has no room left")
            }
            PhotoError::Storage(why) => RequestError::failed(&why),
        }
    }
}

impl From<EnrolmentError> for RequestError {
    fn from(error: EnrolmentError) -> Self {
        let message = error.to_string();
        let refused = |code| RequestError::new(StatusCode::FORBIDDEN, code, message.clone());
        match error {
            EnrolmentError::WrongCode => refused("wrong_code"),
            EnrolmentError::Expired => refused("expired_code"),
            EnrolmentError::AlreadyUsed => refused("used_code"),
            EnrolmentError::Replaced => refused("expired_code"),
            EnrolmentError::AlreadyEnrolled(_) => refused("already_enrolled"),
            EnrolmentError::NameTaken { .. } => refused("name_taken"),
            EnrolmentError::NoKey => RequestError::bad_request("no_key", message),
            EnrolmentError::Revoked => refused("revoked"),
            EnrolmentError::BadName => RequestError::bad_request("bad_name", message),
            EnrolmentError::Ledger(error) => error.into(),
            EnrolmentError::OfficeDatabase(error) => error.into(),
            _ => RequestError::failed(&message),
        }
    }
}

impl From<AnswerError> for RequestError {
    fn from(refusal: AnswerError) -> Self {
        match refusal {
            AnswerError::Unreadable(error) => RequestError::bad_request("unreadable", error.to_string()),
            AnswerError::TooMuch(_) => RequestError::bad_request("too_much", refusal.to_string()),
            AnswerError::UnknownDevice => RequestError::new(
                StatusCode::FORBIDDEN,
                "unknown_device",
                "this device is not enrolled with this organisation; ask the office for a code",
            ),
            AnswerError::Revoked => RequestError::new(
                StatusCode::FORBIDDEN,
                "revoked",
                "this device has been revoked; ask the office",
            ),
            AnswerError::Store(error) => error.into(),
        }
    }
}
