//! One HTTP call to somebody outside: a time stamp authority, a witness, a web server with a log's files.
//!
//! Nothing that comes back is believed for having come; it is signed, or compared with what is. So plain HTTP does as
//! well, no redirect is followed, and an answer ends where it grows too long.

use std::time::Duration;

/// How long a connection may take to be made.
const CONNECTING: Duration = Duration::from_secs(15);
/// How long a call may take in all.
const IN_ALL: Duration = Duration::from_secs(60);

/// What came back.
#[derive(Debug, Clone)]
pub struct Answered {
    /// The HTTP status.
    pub status: u16,
    /// The content type; empty when none is given.
    pub media: String,
    /// How the body is packed; empty when it is not said.
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

/// Whether an address can be called: `http` or `https`, with a host.
///
/// # Errors
/// What is wrong with it, in words.
pub fn check_address(url: &str) -> Result<(), String> {
    parsed(url).map(|_| ())
}

/// Somebody outside, under one address.
#[derive(Debug)]
pub struct Outsider {
    address: String,
    client: reqwest::Client,
}

impl Outsider {
    /// The one at `address`, below which everything is asked for.
    ///
    /// # Errors
    /// What is wrong with the address, or that no client can be made; in words.
    pub fn at(address: &str) -> Result<Outsider, String> {
        let address = address.trim_end_matches('/').to_owned();
        let url = parsed(&address)?;
        let mut builder = reqwest::Client::builder()
            .connect_timeout(CONNECTING)
            .timeout(IN_ALL)
            .redirect(reqwest::redirect::Policy::none());
        if url.host_str().is_some_and(|host| host == "localhost" || host == "127.0.0.1" || host == "[::1]") {
            builder = builder.no_proxy(); // a proxy has another loopback
        }
        Ok(Outsider { address, client: builder.build().map_err(|e| e.to_string())? })
    }

    fn url(&self, path: &str) -> String {
        if path.is_empty() { self.address.clone() } else { format!("{}/{path}", self.address) }
    }

    /// Reads what stands at `path`, at most `most` bytes of it, not packed.
    ///
    /// # Errors
    /// That nobody was reached, or that the answer is too long or broke off; in words.
    pub async fn get(&self, path: &str, most: usize) -> Result<Answered, String> {
        let request = self.client.get(self.url(path)).header(reqwest::header::ACCEPT_ENCODING, "identity");
        call(request, most).await
    }

    /// Sends `body` of the content type `media` to `path` and reads at most `most` bytes of the answer.
    ///
    /// # Errors
    /// As [`Outsider::get`].
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

/// What lies at the bottom of an error: "connection refused" rather than "error sending request".
fn innermost(error: &reqwest::Error) -> String {
    let mut at: &dyn std::error::Error = error;
    while let Some(below) = at.source() {
        at = below;
    }
    at.to_string()
}
