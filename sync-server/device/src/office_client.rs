//! The office over HTTP as a device sees it: requests with patience, and refusals told from failures.
//!
//! Nothing here believes an answer: sync checks signatures, photographs count only once a signed reply
//! says they are held.

use std::path::Path;
use std::time::Duration;

use reqwest::{Client, Response, StatusCode};
use serde_json::Value;

use farsiding_host::line::SLOWEST_LINE;

use super::DeviceError;

/// Bytes of a photograph sent in one request.
pub const SLICE: usize = 32 * 1024;
/// How long nothing may be heard, beyond the time a body takes over the slowest line.
const PATIENCE: Duration = Duration::from_secs(60);
/// The longest answer to a sync round, in bytes: a bulk that did not compress, and its head.
const LARGEST_REPLY: u64 = farsiding_core::sync::wire::LARGEST_BULK as u64 + 64 * 1024;
/// The longest of all other answers but a photograph.
const LARGEST_ANSWER: u64 = 256 * 1024;
const FIRST_WAIT: Duration = Duration::from_millis(500);
const LONGEST_WAIT: Duration = Duration::from_secs(30);

/// An answer that is no success.
#[derive(Debug)]
pub struct Refused {
    /// HTTP status; 0 when nothing came back.
    pub status: u16,
    /// The server's short code, when it was one of ours.
    pub code: String,
    /// The server's words or what went wrong.
    pub message: String,
    /// The server's time in milliseconds, where it gave it.
    pub server_time: Option<i64>,
}

impl Refused {
    /// Whether trying again may help: nothing came back, or the server said to come back.
    pub fn may_pass(&self) -> bool {
        self.status == 0
            || self.status == 408
            || self.status == 423
            || self.status == 429
            || self.status >= 500
    }
}

impl From<Refused> for DeviceError {
    fn from(refused: Refused) -> Self {
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

/// The office server's address and a client for it.
#[derive(Debug, Clone)]
pub struct OfficeClient {
    client: Client,
    url: String,
}

impl OfficeClient {
    /// A client. `authority` is a certificate (PEM) to trust besides the public ones.
    ///
    /// # Errors
    /// [`DeviceError`] for an address that would send records in the clear, or an unreadable certificate.
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
            builder = builder.no_proxy(); // a proxy has another loopback
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

    /// The address.
    pub fn url(&self) -> &str {
        &self.url
    }

    /// One round of sync.
    ///
    /// # Errors
    /// [`Refused`].
    pub async fn sync(&self, request: Vec<u8>) -> Result<Vec<u8>, Refused> {
        self.cbor("v1/sync", request).await
    }

    /// One question about the office's log.
    ///
    /// # Errors
    /// [`Refused`].
    pub async fn log(&self, request: Vec<u8>) -> Result<Vec<u8>, Refused> {
        self.cbor("v1/log", request).await
    }

    async fn cbor(&self, path: &str, request: Vec<u8>) -> Result<Vec<u8>, Refused> {
        let sent =
            self.client.post(format!("{}/{path}", self.url)).header("content-type", "application/cbor");
        let length = request.len();
        let answer = checked(patiently(sent.body(request), length).await).await?;
        whole(answer, LARGEST_REPLY).await
    }

    /// Who answers there: organisation key and server time.
    ///
    /// # Errors
    /// [`Refused`].
    pub async fn who(&self) -> Result<Value, Refused> {
        let asked = self.client.get(format!("{}/v1/enrol", self.url));
        read_json(checked(patiently(asked, 0).await).await?).await
    }

    /// Enrols by a signed request: organisation key, certificate (base64), server time.
    ///
    /// # Errors
    /// [`Refused`].
    pub async fn enrol(&self, request: Vec<u8>) -> Result<Value, Refused> {
        let sent =
            self.client.post(format!("{}/v1/enrol", self.url)).header("content-type", "application/cbor");
        let length = request.len();
        let answer = checked(patiently(sent.body(request), length).await).await?;
        read_json(answer).await
    }

    /// A pass for photographs.
    ///
    /// # Errors
    /// [`Refused`], with the server's time when the request's was too far off.
    pub async fn pass(&self, request: Vec<u8>) -> Result<String, Refused> {
        let length = request.len();
        let sent = patiently(self.client.post(format!("{}/v1/pass", self.url)).body(request), length).await;
        let answer = read_json(checked(sent).await?).await?;
        answer
            .get("pass")
            .and_then(Value::as_str)
            .map(str::to_owned)
            .ok_or_else(|| other_server("no pass in it"))
    }

    /// Announces a photograph.
    ///
    /// # Errors
    /// [`Refused`].
    pub async fn announce(&self, pass: &str, photo: &PhotoToSend) -> Result<(), Refused> {
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

    /// How many bytes of a photograph the server has.
    ///
    /// # Errors
    /// [`Refused`].
    pub async fn offset(&self, pass: &str, sha256: &str) -> Result<u64, Refused> {
        let sent = self
            .client
            .head(format!("{}/v1/photos/{sha256}", self.url))
            .bearer_auth(pass)
            .header("tus-resumable", "1.0.0");
        offset_in(&checked(patiently(sent, 0).await).await?)
    }

    /// Sends a piece of a photograph; returns how many bytes the server has then.
    ///
    /// # Errors
    /// [`Refused`].
    pub async fn piece(&self, pass: &str, sha256: &str, offset: u64, bytes: Vec<u8>) -> Result<u64, Refused> {
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

    /// Fetches a photograph of so many bytes.
    ///
    /// # Errors
    /// [`Refused`].
    pub async fn photo(&self, pass: &str, sha256: &str, length: u64) -> Result<Vec<u8>, Refused> {
        let sent = self.client.get(format!("{}/v1/photos/{sha256}", self.url)).bearer_auth(pass);
        whole(checked(patiently(sent, 0).await).await?, length).await
    }
}

/// A photograph to be sent.
#[derive(Debug, Clone)]
pub struct PhotoToSend {
    /// Its SHA-256 in hexadecimal digits.
    pub sha256: String,
    /// Its length.
    pub length: u64,
    /// Its media type.
    pub media: String,
}

fn lost(error: reqwest::Error) -> Refused {
    // The outermost words of a client error seldom name the cause; the innermost do.
    let mut cause: &dyn std::error::Error = &error;
    while let Some(inner) = cause.source() {
        cause = inner;
    }
    Refused { status: 0, code: String::new(), message: cause.to_string(), server_time: None }
}

fn other_server(why: &str) -> Refused {
    let message = format!("the answer is not from an office server ({why}): a login page in between?");
    Refused { status: 200, code: "other_server".to_owned(), message, server_time: None }
}

fn silence() -> Refused {
    let message = "nothing was heard for too long".to_owned();
    Refused { status: 0, code: String::new(), message, server_time: None }
}

/// Sends a request and waits for the head of its answer. The client's own time-outs count from the first
/// byte sent, and would never let a body of more than a minute through.
async fn patiently(request: reqwest::RequestBuilder, length: usize) -> Result<Response, Refused> {
    let body = Duration::from_secs(length as u64 / SLOWEST_LINE);
    tokio::time::timeout(PATIENCE + body, request.send()).await.map_err(|_| silence())?.map_err(lost)
}

/// The whole body of an answer of at most so many bytes, as long as it keeps coming. A login page may be
/// endless, or never end.
async fn whole(mut answer: Response, most: u64) -> Result<Vec<u8>, Refused> {
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

async fn checked(sent: Result<Response, Refused>) -> Result<Response, Refused> {
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
    Err(Refused {
        status: status.as_u16(),
        code: text("error").unwrap_or_default(),
        message: text("message").unwrap_or_else(|| format!("it answered {status}")),
        server_time: body.get("server_time").and_then(Value::as_i64),
    })
}

async fn read_json(answer: Response) -> Result<Value, Refused> {
    let bytes = whole(answer, LARGEST_ANSWER).await?;
    serde_json::from_slice(&bytes).map_err(|_| other_server("it is no JSON"))
}

fn offset_in(answer: &Response) -> Result<u64, Refused> {
    let offset = answer.headers().get("upload-offset").and_then(|value| value.to_str().ok()?.parse().ok());
    offset.ok_or_else(|| other_server("it says no offset"))
}

/// Waits before the next attempt: any time up to a bound that doubles, so that devices that lost the
/// server together do not come back together.
pub async fn wait_before_retry(attempt: u32) {
    let bound = FIRST_WAIT.saturating_mul(1u32 << attempt.min(10)).min(LONGEST_WAIT);
    let mut random = [0u8; 4];
    // Without random numbers the bound itself is waited for.
    let share = match getrandom::fill(&mut random) {
        Ok(()) => f64::from(u32::from_be_bytes(random)) / f64::from(u32::MAX),
        Err(_) => 1.0,
    };
    tokio::time::sleep(bound.mul_f64(share)).await;
}
