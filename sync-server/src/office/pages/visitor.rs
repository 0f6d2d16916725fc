//! Who is asking for a page: the session's cookie read, the role held to, forms checked for having been
//! sent from a page of ours.
//!
//! A handler that takes a [`Visitor`] is the office's alone; one that takes a [`Reader`] must still say
//! which visit it is about before it gets the visitor out. A handler that changes something takes
//! [`Checked`]. None of the three can be had without the check, so none can be forgotten.

use std::sync::Arc;

use axum::body::{Body, Bytes};
use axum::extract::{DefaultBodyLimit, Form, FromRequest, FromRequestParts, Multipart, Request};
use axum::http::request::Parts;
use axum::http::{HeaderMap, HeaderValue, header};
use farsiding_core::entry::Role;
use farsiding_core::ids::VisitId;
use serde::Deserialize;
use serde::de::DeserializeOwned;

use super::refused::Refused;
use crate::office::accounts::audit::{self, Looked};
use crate::office::accounts::sessions::{self, Holder};
use crate::office::http::Office;
use crate::office::papers::import::ImportError;
use crate::office::register::{RegisterError, role_word};

/// The header a page that refreshes itself sends: it is no sign of a person.
pub const LIVE: &str = "farsiding-live";
/// The largest form taken: a month's shipping papers, as a file or pasted in.
const LARGEST_FORM: usize = 4 * 1024 * 1024;

/// A signed-in person.
#[derive(Debug, Clone)]
pub struct Visitor {
    /// The account's name, or for whom the link was made.
    pub name: String,
    /// What they may do: the office, or an inspector with one visit.
    pub role: Role,
    /// The token their forms carry.
    pub csrf: String,
    /// Whether a page asked by itself, to be up to date.
    pub live: bool,
}

/// Somebody signed in who may be anybody: the visit decides.
#[derive(Debug, Clone)]
pub struct Reader {
    visitor: Visitor,
    only: Option<Vec<VisitId>>,
}

/// A form of the office's, sent from a page of ours by who is signed in.
#[derive(Debug)]
pub struct Checked<T> {
    /// Who sent it.
    pub visitor: Visitor,
    /// What it holds.
    pub form: T,
}

/// A form anybody signed in may send: only to sign out.
#[derive(Debug)]
pub struct Parting {
    /// The session's token.
    pub token: String,
    /// Who goes.
    pub visitor: Visitor,
}

impl Visitor {
    /// Whether it is somebody of the office.
    pub fn is_office(&self) -> bool {
        self.role == Role::Office
    }
}

impl Reader {
    /// The visitor, when they may read a record of these visits: an inspector only one of nothing but visits
    /// that the link opened when it was made, the one it is for among them.
    ///
    /// # Errors
    /// [`Refused::NotYours`].
    pub fn of(self, visits: &[VisitId]) -> Result<Visitor, Refused> {
        match &self.only {
            None => Ok(self.visitor),
            Some(only) => {
                let first = only.first().is_some_and(|first| visits.contains(first));
                let all = visits.iter().all(|visit| only.contains(visit));
                if first && all { Ok(self.visitor) } else { Err(Refused::NotYours) }
            }
        }
    }

    /// The visits an inspector may read, the one the link is for first; nothing for the office, which may
    /// read all.
    pub fn only(&self) -> Option<&[VisitId]> {
        self.only.as_deref()
    }
}

/// The name of the session's cookie. With TLS its prefix makes browsers hold it to this host and to TLS.
pub fn cookie_name(secure: bool) -> &'static str {
    if secure { "__Host-farsiding" } else { "farsiding" }
}

/// The cookie that begins a session, or ends it when the token is empty.
pub fn cookie(token: &str, secure: bool) -> HeaderValue {
    let end = if token.is_empty() { "; Max-Age=0" } else { "" };
    let only = if secure { "; Secure" } else { "" };
    let text = format!("{}={token}; Path=/; HttpOnly; SameSite=Strict{only}{end}", cookie_name(secure));
    HeaderValue::from_str(&text).unwrap_or_else(|_| HeaderValue::from_static(""))
}

/// The session's token a request carries.
pub fn token_of(headers: &HeaderMap, secure: bool) -> Option<String> {
    let name = cookie_name(secure);
    headers
        .get_all(header::COOKIE)
        .iter()
        .filter_map(|value| value.to_str().ok())
        .flat_map(|text| text.split(';'))
        .filter_map(|pair| pair.trim().split_once('='))
        .find(|(known, token)| *known == name && (1..=64).contains(&token.len()))
        .map(|(_, token)| token.to_owned())
}

/// Whether a form was sent from a page of this server, as far as the browser says; the form's own token
/// is checked besides.
fn from_here(headers: &HeaderMap) -> bool {
    let text = |name: &str| headers.get(name).and_then(|value| value.to_str().ok());
    match text("sec-fetch-site") {
        Some("same-origin" | "none") | None => {}
        Some(_) => return false,
    }
    match (text("origin"), text("host")) {
        (Some(origin), Some(host)) => origin.split_once("://").is_some_and(|(_, from)| from == host),
        _ => true,
    }
}

/// Refuses a form that another site sent.
///
/// # Errors
/// [`Refused::OtherSite`].
pub fn check_from_here(headers: &HeaderMap) -> Result<(), Refused> {
    if from_here(headers) { Ok(()) } else { Err(Refused::OtherSite) }
}

async fn reader_of(parts: &Parts, office: &Office) -> Result<(Reader, String), Refused> {
    let live = parts.headers.contains_key(LIVE);
    let to = parts.uri.path_and_query().map_or_else(String::new, ToString::to_string);
    let sign_in = || match live {
        true => Refused::Over,
        false => Refused::SignIn { to: if parts.method == "GET" { to.clone() } else { String::new() } },
    };
    let token = token_of(&parts.headers, office.secure).ok_or_else(sign_in)?;
    let (asked, now) = (token.clone(), office.now());
    let holder = office
        .on_register(move |register| {
            sessions::holder(register.connection(), &asked, now, !live).map_err(as_register)
        })
        .await?
        .ok_or_else(sign_in)?;
    let csrf = sessions::form_token(&token);
    let (name, role, only) = match holder {
        Holder::Account { name, role: Role::Office, .. } => (name, Role::Office, None),
        Holder::Account { .. } => return Err(Refused::NotYours),
        Holder::Link { label, visits, .. } => (label, Role::Inspector, Some(visits)),
    };
    Ok((Reader { visitor: Visitor { name, role, csrf, live }, only }, token))
}

pub(super) fn as_register(error: crate::office::accounts::AccountError) -> RegisterError {
    match error {
        crate::office::accounts::AccountError::Register(error) => error,
        other => RegisterError::Database(other.to_string()),
    }
}

impl FromRequestParts<Arc<Office>> for Reader {
    type Rejection = Refused;

    async fn from_request_parts(parts: &mut Parts, office: &Arc<Office>) -> Result<Self, Refused> {
        Ok(reader_of(parts, office).await?.0)
    }
}

impl FromRequestParts<Arc<Office>> for Visitor {
    type Rejection = Refused;

    async fn from_request_parts(parts: &mut Parts, office: &Arc<Office>) -> Result<Self, Refused> {
        let reader = reader_of(parts, office).await?.0;
        if reader.visitor.is_office() { Ok(reader.visitor) } else { Err(Refused::NotYours) }
    }
}

#[derive(Deserialize)]
struct Token {
    #[serde(default)]
    csrf: String,
}

/// Compares without telling by its time where two texts differ.
fn same(a: &str, b: &str) -> bool {
    a.len() == b.len() && a.bytes().zip(b.bytes()).fold(0, |differ, (a, b)| differ | (a ^ b)) == 0
}

const PLAIN_FORM: &str = "application/x-www-form-urlencoded";

fn too_large() -> Refused {
    Refused::BadForm("It is larger than what is taken here.".to_owned())
}

/// A form that came with files, as pairs: a file stands under its field's name as text, and what it is
/// called under that name with `_name`. A file that is no text is refused, so that nothing of it is lost.
async fn pairs_of(request: Request, office: &Arc<Office>) -> Result<Bytes, Refused> {
    let (parts, body) = request.into_parts();
    // The whole of it is held to the limit, not each part alone.
    let body = Body::new(http_body_util::Limited::new(body, LARGEST_FORM));
    let mut request = Request::from_parts(parts, body);
    DefaultBodyLimit::disable().apply(&mut request);
    let broken = |_| Refused::BadForm("The form did not arrive whole, or is too large.".to_owned());
    let mut form = Multipart::from_request(request, office)
        .await
        .map_err(|rejection| Refused::BadForm(rejection.body_text()))?;
    let mut pairs: Vec<(String, String)> = Vec::new();
    while let Some(field) = form.next_field().await.map_err(broken)? {
        let name = field.name().unwrap_or_default().to_owned();
        let called = field.file_name().map(str::to_owned);
        let bytes = field.bytes().await.map_err(broken)?;
        let text = std::str::from_utf8(&bytes).map_err(|_| {
            Refused::BadForm(format!(
                "The file cannot be read: {}. Nothing was taken in.",
                ImportError::NotText
            ))
        })?;
        if let Some(called) = called {
            pairs.push((format!("{name}_name"), called));
        }
        pairs.push((name, text.to_owned()));
    }
    Ok(Bytes::from(form_urlencoded::Serializer::new(String::new()).extend_pairs(pairs).finish()))
}

/// The form of a request whose token fits the session's.
async fn checked_form<T: DeserializeOwned>(
    request: Request,
    csrf: &str,
    office: &Arc<Office>,
) -> Result<T, Refused> {
    check_from_here(request.headers())?;
    let content = request.headers().get(header::CONTENT_TYPE).cloned();
    let with_files = content
        .as_ref()
        .and_then(|value| value.to_str().ok())
        .is_some_and(|kind| kind.trim_start().to_ascii_lowercase().starts_with("multipart/form-data"));
    let (content, bytes) = if with_files {
        (Some(HeaderValue::from_static(PLAIN_FORM)), pairs_of(request, office).await?)
    } else {
        let body = axum::body::to_bytes(request.into_body(), LARGEST_FORM).await;
        (content, body.map_err(|_| too_large())?)
    };
    let again = || {
        let mut request = Request::post("/").body(Body::from(bytes.clone())).unwrap_or_default();
        DefaultBodyLimit::disable().apply(&mut request);
        if let Some(content) = &content {
            request.headers_mut().insert(header::CONTENT_TYPE, content.clone());
        }
        request
    };
    let token = Form::<Token>::from_request(again(), office).await;
    match token {
        Ok(Form(Token { csrf: sent })) if same(&sent, csrf) => {}
        _ => return Err(Refused::NoToken),
    }
    let form = Form::<T>::from_request(again(), office).await;
    form.map(|Form(form)| form).map_err(|rejection| Refused::BadForm(rejection.body_text()))
}

impl<T: DeserializeOwned + Send> FromRequest<Arc<Office>> for Checked<T> {
    type Rejection = Refused;

    async fn from_request(request: Request, office: &Arc<Office>) -> Result<Self, Refused> {
        let (mut parts, body) = request.into_parts();
        let visitor = Visitor::from_request_parts(&mut parts, office).await?;
        let form = checked_form(Request::from_parts(parts, body), &visitor.csrf, office).await?;
        Ok(Checked { visitor, form })
    }
}

impl FromRequest<Arc<Office>> for Parting {
    type Rejection = Refused;

    async fn from_request(request: Request, office: &Arc<Office>) -> Result<Self, Refused> {
        let (parts, body) = request.into_parts();
        let (reader, token) = reader_of(&parts, office).await?;
        let _: Token = checked_form(Request::from_parts(parts, body), &reader.visitor.csrf, office).await?;
        Ok(Parting { token, visitor: reader.visitor })
    }
}

/// Notes in the audit what a visitor looked at or did. A page that refreshes itself is noted once, when
/// it was opened.
///
/// # Errors
/// [`Refused::Failed`]: what cannot be noted is not shown.
pub async fn note(office: &Office, visitor: &Visitor, did: &str, subject: &str) -> Result<(), Refused> {
    if visitor.live {
        return Ok(());
    }
    let row = Looked {
        at: office.now(),
        who: visitor.name.clone(),
        role: role_word(visitor.role).to_owned(),
        did: did.to_owned(),
        subject: subject.to_owned(),
    };
    office.on_register(move |register| audit::note(register.connection(), &row)).await?;
    Ok(())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;

    fn headers(pairs: &[(&'static str, &'static str)]) -> HeaderMap {
        let mut map = HeaderMap::new();
        for (name, value) in pairs {
            map.append(*name, HeaderValue::from_static(value));
        }
        map
    }

    #[test]
    fn a_form_of_another_site_is_seen_for_what_it_is() {
        assert!(from_here(&headers(&[("host", "office.invalid"), ("origin", "https://office.invalid")])));
        assert!(from_here(&headers(&[("host", "office.invalid")])));
        assert!(!from_here(&headers(&[("host", "office.invalid"), ("origin", "https://else.invalid")])));
        assert!(!from_here(&headers(&[("host", "office.invalid"), ("origin", "null")])));
        assert!(!from_here(&headers(&[("sec-fetch-site", "cross-site")])));
        assert!(!from_here(&headers(&[("sec-fetch-site", "same-site")])));
    }

    #[test]
    fn only_the_sessions_own_cookie_is_read() {
        let sent =
            headers(&[("cookie", "a=b; farsiding=abc; farsiding=def"), ("cookie", "__Host-farsiding=xyz")]);
        assert_eq!(token_of(&sent, false).as_deref(), Some("abc"));
        assert_eq!(token_of(&sent, true).as_deref(), Some("xyz"));
        assert_eq!(token_of(&headers(&[("cookie", "farsiding=")]), false), None);
        let set = cookie("abc", true);
        assert_eq!(set.to_str().unwrap(), "__Host-farsiding=abc; Path=/; HttpOnly; SameSite=Strict; Secure");
        assert!(cookie("", false).to_str().unwrap().ends_with("Max-Age=0"));
    }

    #[test]
    fn tokens_compare_whole() {
        assert!(same("abc", "abc"));
        assert!(!same("abc", "abd") && !same("abc", "ab") && !same("", "a"));
    }
}
