//! One HTTP call to a third party: a time stamp authority, a witness, or a web server with the files of a
//! log.
//!
//! The caller never trusts an answer because of where it came from: every answer is signed or compared with
//! known data. Plain HTTP is therefore good enough. Redirects are not followed, and an answer that grows too
//! long is cut off.

use std::time::Duration;

/// The timeout for opening a connection.
const CONNECTING: Duration = Duration::from_secs(15);
/// The timeout for a whole call.
const IN_ALL: Duration = Duration::from_secs(60);

/// The answer to a call.
#[derive(Debug, Clone)]
pub struct Answered {
    /// The HTTP status.
    pub status: u16,
    /// The content type; empty when none is given.
    pub media: String,
    /// The content encoding; empty when none is given.
    pub encoding: String,
    /// The body.
    pub body: Vec<u8>,
}

fn parsed(url: &str) -> Result<reqwest::Url, String> {
    let parsed = reqwest::Url::parse(url).map_err(|e| format!("\"{url}\" is no address: {e}"))?;
    if matches!(parsed.scheme(), "http" | "https") && parsed.has_host() {
        Ok(parsed)
    } else {
        Err(format!("\"{url}\" is no address that begins with http:// or https://"))
    }
}

/// Checks that an address can be called: its scheme is `http` or `https`, and it has a host.
///
/// # Errors
/// Returns what is wrong with the address, as a message.
pub fn check_address(url: &str) -> Result<(), String> {
    parsed(url).map(|_| ())
}

/// A third party at one address.
#[derive(Debug)]
pub struct Outsider {
    address: String,
    client: reqwest::Client,
}

impl Outsider {
    /// Returns a client for the third party at `address`. All paths are below that address.
    ///
    /// # Errors
    /// Returns a message when the address is wrong or no client can be made.
    pub fn at(address: &str) -> Result<Outsider, String> {
        let address = address.trim_end_matches('/').to_owned();
        let url = parsed(&address)?;
        let mut builder = reqwest::Client::builder()
            .connect_timeout(CONNECTING)
            .timeout(IN_ALL)
            .redirect(reqwest::redirect::Policy::none());
        if url.host_str().is_some_and(|host| host == "localhost" || host == "127.0.0.1" || host == "[::1]") {
            builder = builder.no_proxy(); // a proxy would reach its own loopback
        }
        Ok(Outsider { address, client: builder.build().map_err(|e| e.to_string())? })
    }

    fn url(&self, path: &str) -> String {
        if path.is_empty() { self.address.clone() } else { format!("{}/{path}", self.address) }
    }

    /// Fetches `path` and returns the answer, of at most `most` bytes and without compression.
    ///
    /// # Errors
    /// Returns a message when nobody was reached, or when the answer was too long or was cut off.
    pub async fn get(&self, path: &str, most: usize) -> Result<Answered, String> {
        let request = self.client.get(self.url(path)).header(reqwest::header::ACCEPT_ENCODING, "identity");
        call(request, most).await
    }

    /// Posts `body` with the content type `media` to `path` and returns the answer, of at most `most` bytes.
    ///
    /// # Errors
    /// Returns the same errors as [`Outsider::get`].
    pub async fn post(
        &self,
        path: &str,
        media: &str,
        body: Vec<u8>,
        most: usize,
    ) -> Result<Answered, String> {
        let request =
            self.client.post(self.url(path)).header(reqwest::header::CONTENT_TYPE, media).body(body);
        call(request, most).await
    }
}

async fn call(request: reqwest::RequestBuilder, most: usize) -> Result<Answered, String> {
    let mut answer = request.send().await.map_err(|e| format!("it was not reached: {}", innermost(&e)))?;
    let status = answer.status().as_u16();
    let header = |name| answer.headers().get(name).and_then(|value| value.to_str().ok());
    let media = header(reqwest::header::CONTENT_TYPE).unwrap_or_default().to_owned();
    let encoding = header(reqwest::header::CONTENT_ENCODING).unwrap_or_default().to_owned();
    let mut body = Vec::new();
    while let Some(piece) = answer.chunk().await.map_err(|e| innermost(&e))? {
        body.extend_from_slice(&piece);
        if body.len() > most {
            return Err("its answer is too long".to_owned());
        }
    }
    Ok(Answered { status, media, encoding, body })
}

/// Returns the text of the innermost cause of an error: "connection refused" rather than "error sending
/// request".
fn innermost(error: &reqwest::Error) -> String {
    let mut at: &dyn std::error::Error = error;
    while let Some(below) = at.source() {
        at = below;
    }
    at.to_string()
}
