//! Sends letters by SMTP with TLS, with the settings in `mail.toml` of the data folder.
//!
//! The connection uses STARTTLS or TLS from the start; unencrypted connections are allowed only to the same
//! machine. A private root certificate may be configured. Called by `queue`, which holds the letters.

use std::path::{Path, PathBuf};
use std::time::Duration;

use lettre::message::header::ContentType;
use lettre::message::{Attachment, Mailbox, MultiPart, SinglePart};
use lettre::transport::smtp::authentication::Credentials;
use lettre::transport::smtp::client::{Certificate, Tls, TlsParameters};
use lettre::{AsyncSmtpTransport, AsyncTransport as _, Message, Tokio1Executor};
use serde::Deserialize;

/// The largest total size of attachments, in bytes, which many mail servers still accept.
pub const LARGEST_ATTACHMENTS: usize = 10 * 1024 * 1024;

/// The encryption of the connection to the mail server.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Security {
    /// TLS from the first byte (usually port 465).
    Tls,
    /// TLS after STARTTLS, which the server must offer (usually port 587).
    Starttls,
    /// No TLS; allowed only for this machine.
    Plain,
}

/// The settings in `mail.toml`.
#[derive(Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MailSettings {
    /// The mail server's host name.
    pub host: String,
    /// The mail server's port.
    pub port: u16,
    /// The encryption of the connection.
    pub security: Security,
    /// The sender's mail address.
    pub from: String,
    /// The user name for signing in; empty for none.
    #[serde(default)]
    pub user: String,
    /// The password for signing in.
    #[serde(default)]
    pub password: String,
    /// A file with a root certificate (PEM) to trust in addition to the public ones.
    #[serde(default)]
    pub root: Option<PathBuf>,
    /// The timeout for the mail server, in seconds.
    #[serde(default = "usual_patience")]
    pub seconds: u64,
}

impl std::fmt::Debug for MailSettings {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("MailSettings")
            .field("host", &self.host)
            .field("port", &self.port)
            .finish_non_exhaustive()
    }
}

const fn usual_patience() -> u64 {
    30
}

/// Why a letter was not sent.
#[derive(Debug, thiserror::Error)]
pub enum MailError {
    /// Mail is not set up.
    #[error("mail is not set up: there is no mail.toml in the data folder")]
    NotSetUp,
    /// The settings cannot be used.
    #[error("mail.toml cannot be used: {0}")]
    Settings(String),
    /// The letter will never be sent: its address is wrong, or the server refused it for good.
    #[error("{0}")]
    Refused(String),
    /// The letter may be sent later: the network, a server that is down or busy, or a certificate failed.
    #[error("{0}")]
    Later(String),
}

/// A letter that is ready to be sent.
#[derive(Debug, Clone)]
pub struct Letter {
    /// The recipient's address.
    pub to: String,
    /// The subject.
    pub subject: String,
    /// The text.
    pub body: String,
    /// The attachments: name, media type and bytes.
    pub files: Vec<(String, String, Vec<u8>)>,
    /// The message id, by which a letter that was sent twice is recognised.
    pub id: String,
}

impl MailSettings {
    /// Reads `mail.toml`.
    ///
    /// # Errors
    /// Returns [`MailError::NotSetUp`] when there is no file, or [`MailError::Settings`].
    pub fn read(folder: &Path) -> Result<MailSettings, MailError> {
        let file = folder.join("mail.toml");
        let text = match std::fs::read_to_string(&file) {
            Ok(text) => text,
            Err(error) if error.kind() == std::io::ErrorKind::NotFound => return Err(MailError::NotSetUp),
            Err(error) => return Err(MailError::Settings(error.to_string())),
        };
        MailSettings::parse(&text)
    }

    /// Parses the text of a `mail.toml`.
    ///
    /// # Errors
    /// Returns [`MailError::Settings`] when the settings cannot be used.
    pub fn parse(text: &str) -> Result<MailSettings, MailError> {
        // The parser's message may quote the line with the password, so it is not passed on.
        let settings: MailSettings =
            toml::from_str(text).map_err(|error| MailError::Settings(error.message().to_owned()))?;
        let here = matches!(settings.host.as_str(), "127.0.0.1" | "::1" | "localhost");
        if settings.security == Security::Plain && !here {
            let why = "without TLS mail is sent to this machine only; say security = \"starttls\" or \"tls\"";
            return Err(MailError::Settings(why.to_owned()));
        }
        Ok(settings)
    }

    fn transport(&self) -> Result<AsyncSmtpTransport<Tokio1Executor>, MailError> {
        let tls = || -> Result<TlsParameters, MailError> {
            let mut builder = TlsParameters::builder(self.host.clone());
            if let Some(root) = &self.root {
                let pem = std::fs::read(root)
                    .map_err(|error| MailError::Settings(format!("{}: {error}", root.display())))?;
                let root =
                    Certificate::from_pem(&pem).map_err(|error| MailError::Settings(error.to_string()))?;
                builder = builder.add_root_certificate(root);
            }
            builder.build().map_err(|error| MailError::Settings(error.to_string()))
        };
        let tls = match self.security {
            Security::Tls => Tls::Wrapper(tls()?),
            Security::Starttls => Tls::Required(tls()?),
            Security::Plain => Tls::None,
        };
        let mut builder = AsyncSmtpTransport::<Tokio1Executor>::builder_dangerous(&self.host)
            .port(self.port)
            .tls(tls)
            .timeout(Some(Duration::from_secs(self.seconds.clamp(1, 600))));
        if !self.user.is_empty() {
            builder = builder.credentials(Credentials::new(self.user.clone(), self.password.clone()));
        }
        Ok(builder.build())
    }
}

/// Returns whether a text is exactly one mail address.
pub fn is_address(text: &str) -> bool {
    text.trim().parse::<lettre::Address>().is_ok()
}

/// Sends a letter and returns the server's reply.
///
/// # Errors
/// Returns a [`MailError`] that says whether another attempt may help.
pub async fn send(settings: &MailSettings, letter: Letter) -> Result<String, MailError> {
    let from: Mailbox =
        settings.from.parse().map_err(|_| MailError::Settings("\"from\" is no address".to_owned()))?;
    let to: Mailbox = letter
        .to
        .trim()
        .parse()
        .map_err(|_| MailError::Refused(format!("\u{201c}{}\u{201d} is no address", letter.to)))?;
    let mut parts = MultiPart::mixed().singlepart(SinglePart::plain(letter.body));
    for (name, media, bytes) in letter.files {
        let kind = ContentType::parse(&media).unwrap_or(ContentType::TEXT_PLAIN);
        parts = parts.singlepart(Attachment::new(name).body(bytes, kind));
    }
    let message = Message::builder()
        .from(from)
        .to(to)
        .subject(letter.subject)
        .message_id(Some(letter.id))
        .multipart(parts)
        .map_err(|error| MailError::Refused(error.to_string()))?;
    let said = settings.transport()?.send(message).await.map_err(|error| {
        if error.is_permanent() {
            MailError::Refused(error.to_string())
        } else {
            MailError::Later(told(&error))
        }
    })?;
    let lines: Vec<&str> = said.message().collect();
    Ok(format!("{} {}", said.code(), lines.join(" ")))
}

/// Returns an error together with its causes, because the useful word, such as "certificate", is often only
/// in the last one.
fn told(error: &dyn std::error::Error) -> String {
    let mut text = error.to_string();
    let mut behind = error.source();
    while let Some(cause) = behind {
        let more = cause.to_string();
        if !text.contains(&more) {
            text = format!("{text}: {more}");
        }
        behind = cause.source();
    }
    text
}
