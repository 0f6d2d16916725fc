//! The HTTP client of the office server. The client waits for slow connections, and tells refusals by the
//! server from failures of the network.
//!
//! No answer is trusted here: sync checks signatures, and a photograph counts as delivered only when a signed
//! reply says so.

use std::path::Path;
use std::time::Duration;

use reqwest::{Client, Response, StatusCode};
use serde_json::Value;

use farsiding_host::line::SLOWEST_LINE;

use super::DeviceError;

/// The bytes of a photograph that are sent in one request.
pub const SLICE: usize = 32 * 1024;
/// The timeout for silence on the connection, in addition to the time a body takes on the slowest connection.
const PATIENCE: Duration = Duration::from_secs(60);
/// The largest answer to a sync round, in bytes: a bulk that did not compress, and its head.
const LARGEST_REPLY: u64 = farsiding_core::sync::wire::LARGEST_BULK as u64 + 64 * 1024;
/// The largest answer to any other request except for a photograph, in bytes.
const LARGEST_ANSWER: u64 = 256 * 1024;
const FIRST_WAIT: Duration = Duration::from_millis(500);
const LONGEST_WAIT: Duration = Duration::from_secs(30);

/// An answer without success, or no answer.
#[derive(Debug)]
pub struct OfficeCallError {
    /// The HTTP status, or 0 when nothing came back.
    pub status: u16,
    /// The server's short code, if the answer came from a farsiding server.
    pub code: String,
    /// The server's message, or what went wrong.
    pub message: String,
    /// The server's time in milliseconds, if the answer gave it.
    pub server_time: Option<i64>,
}

impl OfficeCallError {
    /// Returns whether trying again may help: nothing came back, or the server asked to try later.
    pub fn may_pass(&self) -> bool {
        self.status == 0
            || self.status == 408
            || self.status == 423
            || self.status == 429
            || self.status >= 500
    }
}

impl From<OfficeCallError> for DeviceError {
    fn from(refused: OfficeCallError) -> Self {
        match refused.code.as_str() {
            "unknown_device" | "revoked" => DeviceError::NotEnrolled(refused.message),
            "wrong_code" | "expired_code" | "used_code" | "already_enrolled" | "name_taken"
            | "other_office" | "no_key" => DeviceError::Refused(refused.message),
            _ => DeviceError::NotAtTheOffice(format!(
                "the office was not reached: {}. Everything recorded is still here; try again later",
                refused.message
            )),
        }
    }
}

/// The office server's address with an HTTP client for it.
#[derive(Debug, Clone)]
pub struct OfficeClient {
    client: Client,
    url: String,
}

impl OfficeClient {
    /// Returns a client for the server at `url`. `authority` is a certificate (PEM) to trust in addition to
    /// the public ones.
    ///
    /// # Errors
    /// Returns a [`DeviceError`] for an address that would send records unencrypted, or for an unreadable
    /// certificate.
    pub fn new(url: &str, authority: Option<&Path>) -> Result<OfficeClient, DeviceError> {
        let url = url.trim().trim_end_matches('/').to_owned();
        let parsed = reqwest::Url::parse(&url)
            .map_err(|e| DeviceError::Refused(format!("\"{url}\" is no address of a server: {e}")))?;
        let host = parsed.host_str().unwrap_or_default().trim_matches(['[', ']']).to_owned();
        let loopback = host == "localhost"
            || host.parse::<std::net::IpAddr>().is_ok_and(|address| address.is_loopback());
        if parsed.scheme() != "https" && !loopback {
            let why = "records travel only over https (plain http is for this machine alone)";
            return Err(DeviceError::Refused(format!("{url}: {why}")));
        }
        let mut builder = Client::builder()
            .connect_timeout(Duration::from_secs(15))
            .redirect(reqwest::redirect::Policy::none());
        if loopback {
            builder = builder.no_proxy(); // a proxy would reach its own loopback
        }
        if let Some(file) = authority {
            let refuse = |e: String| DeviceError::Refused(format!("{}: {e}", file.display()));
            let pem = std::fs::read(file).map_err(|e| refuse(e.to_string()))?;
            let certificates =
                reqwest::Certificate::from_pem_bundle(&pem).map_err(|e| refuse(e.to_string()))?;
            builder = builder.tls_certs_only(certificates);
        }
        let client = builder.build().map_err(|e| DeviceError::Failed(e.to_string()))?;
        Ok(OfficeClient { client, url })
    }

    /// Returns the server's address.
    pub fn url(&self) -> &str {
        &self.url
    }

    /// Sends one round of sync and returns the reply.
    ///
    /// # Errors
    /// Returns [`OfficeCallError`] when the office was not reached or its answer was not a success.
    pub async fn sync(&self, request: Vec<u8>) -> Result<Vec<u8>, OfficeCallError> {
        self.cbor("v1/sync", request).await
    }

    /// Sends one request about the office's log and returns the reply.
    ///
    /// # Errors
    /// Returns [`OfficeCallError`] when the office was not reached or its answer was not a success.
    pub async fn log(&self, request: Vec<u8>) -> Result<Vec<u8>, OfficeCallError> {
        self.cbor("v1/log", request).await
    }

    async fn cbor(&self, path: &str, request: Vec<u8>) -> Result<Vec<u8>, OfficeCallError> {
        let sent =
            self.client.post(format!("{}/{path}", self.url)).header("content-type", "application/cbor");
        let length = request.len();
        let answer = checked(patiently(sent.body(request), length).await).await?;
        whole(answer, LARGEST_REPLY).await
    }

    /// Returns who answers at the address: the organisation's key and the server's time.
    ///
    /// # Errors
    /// Returns [`OfficeCallError`] when the office was not reached or its answer was not a success.
    pub async fn who(&self) -> Result<Value, OfficeCallError> {
        let asked = self.client.get(format!("{}/v1/enrol", self.url));
        read_json(checked(patiently(asked, 0).await).await?).await
    }

    /// Enrols with a signed request and returns the organisation's key, the certificate (base64) and the
    /// server's time.
    ///
    /// # Errors
    /// Returns [`OfficeCallError`] when the office was not reached or its answer was not a success.
    pub async fn enrol(&self, request: Vec<u8>) -> Result<Value, OfficeCallError> {
        let sent =
            self.client.post(format!("{}/v1/enrol", self.url)).header("content-type", "application/cbor");
        let length = request.len();
        let answer = checked(patiently(sent.body(request), length).await).await?;
        read_json(answer).await
    }

    /// Returns an upload token for photographs.
    ///
    /// # Errors
    /// Returns [`OfficeCallError`], with the server's time when the time in the request was too far off.
    pub async fn pass(&self, request: Vec<u8>) -> Result<String, OfficeCallError> {
        let length = request.len();
        let sent = patiently(self.client.post(format!("{}/v1/pass", self.url)).body(request), length).await;
        let answer = read_json(checked(sent).await?).await?;
        answer
            .get("pass")
            .and_then(Value::as_str)
            .map(str::to_owned)
            .ok_or_else(|| other_server("no pass in it"))
    }

    /// Announces a photograph to the server.
    ///
    /// # Errors
    /// Returns [`OfficeCallError`] when the office was not reached or its answer was not a success.
    pub async fn announce(&self, pass: &str, photo: &PhotoToSend) -> Result<(), OfficeCallError> {
        use base64::Engine as _;
        let encode = |text: &str| base64::engine::general_purpose::STANDARD.encode(text);
        let metadata = format!("sha256 {},media {}", encode(&photo.sha256), encode(&photo.media));
        let sent = self
            .client
            .post(format!("{}/v1/photos", self.url))
            .bearer_auth(pass)
            .header("tus-resumable", "1.0.0")
            .header("upload-length", photo.length)
            .header("upload-metadata", metadata);
        checked(patiently(sent, 0).await).await.map(|_| ())
    }

    /// Returns how many bytes of a photograph the server has.
    ///
    /// # Errors
    /// Returns [`OfficeCallError`] when the office was not reached or its answer was not a success.
    pub async fn offset(&self, pass: &str, sha256: &str) -> Result<u64, OfficeCallError> {
        let sent = self
            .client
            .head(format!("{}/v1/photos/{sha256}", self.url))
            .bearer_auth(pass)
            .header("tus-resumable", "1.0.0");
        offset_in(&checked(patiently(sent, 0).await).await?)
    }

    /// Sends a piece of a photograph and returns how many bytes the server has afterwards.
    ///
    /// # Errors
    /// Returns [`OfficeCallError`] when the office was not reached or its answer was not a success.
    pub async fn piece(
        &self,
        pass: &str,
        sha256: &str,
        offset: u64,
        bytes: Vec<u8>,
    ) -> Result<u64, OfficeCallError> {
        use base64::Engine as _;
        let digest = farsiding_core::ids::Digest::of(&bytes);
        let digest = base64::engine::general_purpose::STANDARD.encode(digest.0);
        let sent = self
            .client
            .patch(format!("{}/v1/photos/{sha256}", self.url))
            .bearer_auth(pass)
            .header("tus-resumable", "1.0.0")
            .header("upload-offset", offset)
            .header("content-type", "application/offset+octet-stream")
            .header("content-digest", format!("sha-256=:{digest}:"));
        let length = bytes.len();
        offset_in(&checked(patiently(sent.body(bytes), length).await).await?)
    }

    /// Fetches a photograph of `length` bytes.
    ///
    /// # Errors
    /// Returns [`OfficeCallError`] when the office was not reached or its answer was not a success.
    pub async fn photo(&self, pass: &str, sha256: &str, length: u64) -> Result<Vec<u8>, OfficeCallError> {
        let sent = self.client.get(format!("{}/v1/photos/{sha256}", self.url)).bearer_auth(pass);
        whole(checked(patiently(sent, 0).await).await?, length).await
    }
}

/// A photograph to send.
#[derive(Debug, Clone)]
pub struct PhotoToSend {
    /// The SHA-256 digest of the photograph, in hexadecimal digits.
    pub sha256: String,
    /// The length of the photograph, in bytes.
    pub length: u64,
    /// The media type of the photograph.
    pub media: String,
}

fn lost(error: reqwest::Error) -> OfficeCallError {
    // The outermost message of a client error seldom names the cause; the innermost one does.
    let mut cause: &dyn std::error::Error = &error;
    while let Some(inner) = cause.source() {
        cause = inner;
    }
    OfficeCallError { status: 0, code: String::new(), message: cause.to_string(), server_time: None }
}

fn other_server(why: &str) -> OfficeCallError {
    let message = format!("the answer is not from an office server ({why}): a login page in between?");
    OfficeCallError { status: 200, code: "other_server".to_owned(), message, server_time: None }
}

fn silence() -> OfficeCallError {
    let message = "nothing was heard for too long".to_owned();
    OfficeCallError { status: 0, code: String::new(), message, server_time: None }
}

/// Sends a request and waits for the head of its answer. The client's own timeouts count from the first byte
/// sent, and would abort every body that takes more than a minute.
async fn patiently(request: reqwest::RequestBuilder, length: usize) -> Result<Response, OfficeCallError> {
    let body = Duration::from_secs(length as u64 / SLOWEST_LINE);
    tokio::time::timeout(PATIENCE + body, request.send()).await.map_err(|_| silence())?.map_err(lost)
}

/// Returns the whole body of an answer of at most `most` bytes, as long as bytes keep arriving. The limit is
/// needed because the login page of a public network may be endless.
async fn whole(mut answer: Response, most: u64) -> Result<Vec<u8>, OfficeCallError> {
    let began = tokio::time::Instant::now();
    let mut bytes = Vec::new();
    loop {
        let until = began + PATIENCE + Duration::from_secs(bytes.len() as u64 / SLOWEST_LINE);
        let piece = tokio::time::timeout_at(until, answer.chunk()).await.map_err(|_| silence())?;
        let Some(piece) = piece.map_err(lost)? else { return Ok(bytes) };
        if (bytes.len() + piece.len()) as u64 > most {
            return Err(other_server("it is longer than any of theirs"));
        }
        bytes.extend_from_slice(&piece);
    }
}

async fn checked(sent: Result<Response, OfficeCallError>) -> Result<Response, OfficeCallError> {
    let answer = sent?;
    let status = answer.status();
    if status.is_success() {
        return Ok(answer);
    }
    if status == StatusCode::NOT_MODIFIED || status.is_redirection() {
        return Err(other_server("it sends elsewhere"));
    }
    let body: Value = whole(answer, LARGEST_ANSWER)
        .await
        .ok()
        .and_then(|b| serde_json::from_slice(&b).ok())
        .unwrap_or_default();
    let text = |name: &str| body.get(name).and_then(Value::as_str).map(str::to_owned);
    Err(OfficeCallError {
        status: status.as_u16(),
        code: text("error").unwrap_or_default(),
        message: text("message").unwrap_or_else(|| format!("it answered {status}")),
        server_time: body.get("server_time").and_then(Value::as_i64),
    })
}

async fn read_json(answer: Response) -> Result<Value, OfficeCallError> {
    let bytes = whole(answer, LARGEST_ANSWER).await?;
    serde_json::from_slice(&bytes).map_err(|_| other_server("it is no JSON"))
}

fn offset_in(answer: &Response) -> Result<u64, OfficeCallError> {
    let offset = answer.headers().get("upload-offset").and_then(|value| value.to_str().ok()?.parse().ok());
    offset.ok_or_else(|| other_server("it says no offset"))
}

/// Waits before the next attempt. The wait is random, up to a bound that doubles with each attempt, so that
/// devices that lost the server at the same moment do not all return at the same moment.
pub async fn wait_before_retry(attempt: u32) {
    let bound = FIRST_WAIT.saturating_mul(1u32 << attempt.min(10)).min(LONGEST_WAIT);
    let mut random = [0u8; 4];
    // Without random numbers the wait is the bound itself.
    let share = match getrandom::fill(&mut random) {
        Ok(()) => f64::from(u32::from_be_bytes(random)) / f64::from(u32::MAX),
        Err(_) => 1.0,
    };
    tokio::time::sleep(bound.mul_f64(share)).await;
}
