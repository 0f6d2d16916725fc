//! Who is asking for a page: the session's cookie read, the role held to, forms checked for having been
//! sent from a page of ours.
//!
//! A handler that takes a [`Visitor`] is for accounts that may read, one that takes [`Allowed`] for those with
//! another right; one that takes a [`Reader`] must still say which visit it is about before it gets the visitor
//! out. A handler that changes something takes [`Checked`] with the right it asks for; who leaves the right out asks
//! for the most. What is a person's own (password, second factor) takes [`Own`] and [`CheckedOwn`]. None of
//! these can be had without the check, so none can be forgotten.

use std::marker::PhantomData;
use std::sync::Arc;

use axum::body::{Body, Bytes};
use axum::extract::{DefaultBodyLimit, Form, FromRequest, FromRequestParts, Multipart, Request};
use axum::http::request::Parts;
use axum::http::{HeaderMap, HeaderValue, Method, header};
use farsiding_core::ids::VisitId;
use serde::Deserialize;
use serde::de::DeserializeOwned;

use super::refreshing;
use super::refused::Refused;
use crate::office::accounts::audit::{self, Looked};
use crate::office::accounts::browsers;
use crate::office::accounts::roles::{AccountRole, Right};
use crate::office::accounts::sessions::{self, Holder};
use crate::office::http::Office;
use crate::office::papers::import::ImportError;
use crate::office::register::RegisterError;

/// The largest form taken: a month's shipping papers, as a file or pasted in.
const LARGEST_FORM: usize = 4 * 1024 * 1024;

/// A signed-in person.
#[derive(Debug, Clone)]
pub struct Visitor {
    /// The account's name, or for whom the link was made.
    pub name: String,
    /// The account's role; nothing for an inspector with a link to one visit.
    pub role: Option<AccountRole>,
    /// The token their forms carry.
    pub csrf: String,
    /// What the page carries so that it can bring itself up to date; empty where no page is asked for.
    pub refresh: String,
    /// Whether a page this server rendered asked, to be up to date: it was noted when a person opened it.
    refreshes: bool,
}

/// Somebody signed in who may be anybody: the visit decides.
#[derive(Debug, Clone)]
pub struct Reader {
    visitor: Visitor,
    only: Option<VisitId>,
}

/// A right as a type, so that a handler's head says what it asks for.
pub trait Needs: Send {
    /// The right.
    const RIGHT: Right;
}

/// Asks for the right to put things in.
#[derive(Debug)]
pub struct Records;
/// Asks for the right to settle.
#[derive(Debug)]
pub struct Settles;
/// Asks for the right to administer.
#[derive(Debug)]
pub struct Administers;

impl Needs for Records {
    const RIGHT: Right = Right::Record;
}
impl Needs for Settles {
    const RIGHT: Right = Right::Settle;
}
impl Needs for Administers {
    const RIGHT: Right = Right::Administer;
}

/// A signed-in person who has the right `R`.
#[derive(Debug)]
pub struct Allowed<R> {
    /// Who.
    pub visitor: Visitor,
    right: PhantomData<R>,
}

/// A form sent from a page of ours by somebody signed in who has the right `R`.
#[derive(Debug)]
pub struct Checked<T, R = Administers> {
    /// Who sent it.
    pub visitor: Visitor,
    /// What it holds.
    pub form: T,
    right: PhantomData<R>,
}

/// A person with an account at what is their own: open also while a second factor must be set up first.
#[derive(Debug)]
pub struct Own {
    /// Who.
    pub visitor: Visitor,
    /// The account's row.
    pub account: i64,
    /// The session's token.
    pub token: String,
    /// Whether a second factor must be set up before anything else.
    pub factor_missing: bool,
}

/// A form about what is the sender's own.
#[derive(Debug)]
pub struct CheckedOwn<T> {
    /// Who sent it.
    pub own: Own,
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
    /// Whether it is somebody of the office, with an account.
    pub fn is_office(&self) -> bool {
        self.role.is_some()
    }

    /// Whether they have a right. An inspector with a link has none: what they may read is the link's one visit.
    pub fn may(&self, right: Right) -> bool {
        self.role.is_some_and(|role| role.may(right))
    }

    /// What the audit calls them.
    fn role_word(&self) -> &'static str {
        self.role.map_or("inspector", AccountRole::as_str)
    }

    fn with(self, right: Right) -> Result<Visitor, Refused> {
        match self.role {
            Some(role) if role.may(right) => Ok(self),
            Some(_) => Err(Refused::NoRight(right)),
            None => Err(Refused::NotYours),
        }
    }
}

impl Reader {
    /// The visitor, when they may read a stay with these visits.
    ///
    /// # Errors
    /// [`Refused::NotYours`].
    pub fn of(self, visits: &[VisitId]) -> Result<Visitor, Refused> {
        match self.only {
            None => Ok(self.visitor),
            Some(only) if visits.contains(&only) => Ok(self.visitor),
            Some(_) => Err(Refused::NotYours),
        }
    }

    /// The one visit an inspector may read; nothing for the office, which may read all.
    pub fn only(&self) -> Option<VisitId> {
        self.only
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

/// The name of the cookie by which a browser is known, that somebody signed in from before.
pub fn browser_cookie_name(secure: bool) -> &'static str {
    if secure { "__Host-farsiding-browser" } else { "farsiding-browser" }
}

/// The cookie by which a browser is known from now on.
pub fn browser_cookie(token: &str, secure: bool) -> HeaderValue {
    let (name, only) = (browser_cookie_name(secure), if secure { "; Secure" } else { "" });
    let seconds = browsers::KEPT_MILLIS / 1000;
    let text = format!("{name}={token}; Path=/; HttpOnly; SameSite=Strict{only}; Max-Age={seconds}");
    HeaderValue::from_str(&text).unwrap_or_else(|_| HeaderValue::from_static(""))
}

/// The token by which the browser of a request may be known.
pub fn browser_of(headers: &HeaderMap, secure: bool) -> Option<String> {
    cookie_of(headers, browser_cookie_name(secure))
}

/// The session's token a request carries.
pub fn token_of(headers: &HeaderMap, secure: bool) -> Option<String> {
    cookie_of(headers, cookie_name(secure))
}

fn cookie_of(headers: &HeaderMap, name: &str) -> Option<String> {
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

/// Who asks, whatever they may do.
struct Asker {
    visitor: Visitor,
    /// The one visit a link opens.
    only: Option<VisitId>,
    /// The account's row, and whether it must set up a second factor first.
    account: Option<(i64, bool)>,
    token: String,
}

async fn asker_of(parts: &Parts, office: &Office) -> Result<Asker, Refused> {
    let address = parts.uri.path_and_query().map_or_else(String::new, ToString::to_string);
    let is_get = parts.method == Method::GET;
    // Only a page may ask by itself; whatever changes something was sent by a person, and is noted.
    let sent = parts.headers.get(refreshing::HEADER).filter(|_| is_get).map(|value| value.to_str());
    let by_itself = sent.is_some();
    let sign_in = || match by_itself {
        true => Refused::Over,
        false => Refused::SignIn { to: if is_get { address.clone() } else { String::new() } },
    };
    let token = token_of(&parts.headers, office.secure).ok_or_else(sign_in)?;
    let (asked, now) = (token.clone(), office.now());
    let holder = office
        .on_register(move |register| {
            sessions::holder(register.connection(), &asked, now, !by_itself).map_err(as_register)
        })
        .await?
        .ok_or_else(sign_in)?;
    let sent = sent.and_then(Result::ok);
    let refreshes = sent.filter(|sent| office.refreshing.is_good(sent, &token, &address, now));
    let visitor = |name, role| Visitor {
        name,
        role,
        csrf: sessions::form_token(&token),
        // One that is still good is handed on as it is: it ends an hour after a person looked.
        refresh: match refreshes {
            Some(sent) => sent.to_owned(),
            None if is_get => office.refreshing.token(&token, &address, now),
            None => String::new(),
        },
        refreshes: refreshes.is_some(),
    };
    let (visitor, only, account) = match holder {
        Holder::Account { role: None, .. } => return Err(Refused::NotYours),
        Holder::Account { name, role, number, factor_missing } => {
            (visitor(name, role), None, Some((number, factor_missing)))
        }
        Holder::Link { label, visit, .. } => (visitor(label, None), Some(visit), None),
    };
    Ok(Asker { visitor, only, account, token })
}

async fn reader_of(parts: &Parts, office: &Office) -> Result<(Reader, String), Refused> {
    let Asker { visitor, only, account, token } = asker_of(parts, office).await?;
    if account.is_some_and(|(_, factor_missing)| factor_missing) {
        let by_itself = parts.headers.contains_key(refreshing::HEADER);
        return Err(if by_itself { Refused::Over } else { Refused::FactorFirst });
    }
    if only.is_none() && !visitor.may(Right::Read) {
        return Err(Refused::NoRight(Right::Read));
    }
    Ok((Reader { visitor, only }, token))
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
        reader_of(parts, office).await?.0.visitor.with(Right::Read)
    }
}

impl<R: Needs> FromRequestParts<Arc<Office>> for Allowed<R> {
    type Rejection = Refused;

    async fn from_request_parts(parts: &mut Parts, office: &Arc<Office>) -> Result<Self, Refused> {
        let visitor = reader_of(parts, office).await?.0.visitor.with(R::RIGHT)?;
        Ok(Allowed { visitor, right: PhantomData })
    }
}

impl FromRequestParts<Arc<Office>> for Own {
    type Rejection = Refused;

    async fn from_request_parts(parts: &mut Parts, office: &Arc<Office>) -> Result<Self, Refused> {
        let Asker { visitor, account, token, .. } = asker_of(parts, office).await?;
        let (account, factor_missing) = account.ok_or(Refused::NotYours)?;
        Ok(Own { visitor, account, token, factor_missing })
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

impl<T: DeserializeOwned + Send, R: Needs> FromRequest<Arc<Office>> for Checked<T, R> {
    type Rejection = Refused;

    async fn from_request(request: Request, office: &Arc<Office>) -> Result<Self, Refused> {
        let (mut parts, body) = request.into_parts();
        let Allowed::<R> { visitor, right } = Allowed::from_request_parts(&mut parts, office).await?;
        let form = checked_form(Request::from_parts(parts, body), &visitor.csrf, office).await?;
        Ok(Checked { visitor, form, right })
    }
}

impl<T: DeserializeOwned + Send> FromRequest<Arc<Office>> for CheckedOwn<T> {
    type Rejection = Refused;

    async fn from_request(request: Request, office: &Arc<Office>) -> Result<Self, Refused> {
        let (mut parts, body) = request.into_parts();
        let own = Own::from_request_parts(&mut parts, office).await?;
        let form = checked_form(Request::from_parts(parts, body), &own.visitor.csrf, office).await?;
        Ok(CheckedOwn { own, form })
    }
}

impl FromRequest<Arc<Office>> for Parting {
    type Rejection = Refused;

    async fn from_request(request: Request, office: &Arc<Office>) -> Result<Self, Refused> {
        let (parts, body) = request.into_parts();
        let Asker { visitor, token, .. } = asker_of(&parts, office).await?;
        let _: Token = checked_form(Request::from_parts(parts, body), &visitor.csrf, office).await?;
        Ok(Parting { token, visitor })
    }
}

/// Notes in the audit what a visitor looked at or did. A page that brings itself up to date was noted when a person
/// opened it; whether it is one, the server decides (`refreshing`).
///
/// # Errors
/// [`Refused::Failed`]: what cannot be noted is not shown.
pub async fn note(office: &Office, visitor: &Visitor, did: &str, subject: &str) -> Result<(), Refused> {
    if visitor.refreshes {
        return Ok(());
    }
    let row = Looked {
        at: office.now(),
        who: visitor.name.clone(),
        role: visitor.role_word().to_owned(),
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
