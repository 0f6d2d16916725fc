//! Signing in with a password, and signing out. The step with the second factor is in `sign_in_code`.

use std::net::SocketAddr;
use std::sync::Arc;
use std::time::{Duration, Instant};

use axum::Form;
use axum::extract::{ConnectInfo, Query, State};
use axum::http::{HeaderMap, HeaderValue, StatusCode, header};
use axum::response::{IntoResponse as _, Response};
use maud::{Markup, html};
use serde::Deserialize;

use super::cookies::language_cookie;
use super::cookies::{browser_cookie, browser_of, cookie, token_of};
use super::form_check::check_from_here;
use super::frame;
use super::page_error::PageError;
use super::reader::{self, PageWords};
use super::sign_in_code::code_form;
use super::user::{self, SignOutForm, as_register};
use crate::accounts::attempts::{Origin, Tried};
use crate::accounts::audit;
use crate::accounts::people::Account;
use crate::accounts::roles::AccountRole;
use crate::accounts::{browsers, passwords, people, second_factor, sessions};
use crate::audit_chain::Looked;
use crate::state::Office;
use farsiding_core::{Message, message};
use farsiding_host::SystemRandomness;
use farsiding_words::Words;

/// Returns the address to go to after signing in. Only addresses of the office's pages are accepted.
pub(super) fn within(to: &str) -> &str {
    let plain = to.bytes().all(|b| (0x21..0x7f).contains(&b) && b != b'\\');
    let ours = to.starts_with("/office/") && !to.contains("//") && !to.starts_with("/office/sign-");
    if plain && ours { to } else { "/office/" }
}

/// Returns the address of the sign-in page, with the address to go to afterwards.
pub fn path_with(to: &str) -> String {
    match within(to) {
        "/office/" => "/office/sign-in".to_owned(),
        to => {
            let quoted: String = to
                .bytes()
                .map(|b| match b {
                    b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' | b'/' | b'-' | b'.' | b'_' => {
                        char::from(b).to_string()
                    }
                    other => format!("%{other:02X}"),
                })
                .collect();
            format!("/office/sign-in?to={quoted}")
        }
    }
}

/// The address to go to after signing in.
#[derive(Debug, Default, Deserialize)]
pub struct Next {
    #[serde(default)]
    to: String,
}

/// `GET /office/sign-in`: shows the sign-in form.
pub async fn show(PageWords(w): PageWords, Query(next): Query<Next>) -> Response {
    page(StatusCode::OK, w, form(w, within(&next.to), "", None))
}

/// Returns a page of signing in.
pub(super) fn page(status: StatusCode, w: &Words, body: Markup) -> Response {
    frame::bare(status, w, &w.say("office-sign-in-title"), body)
}

pub(super) fn form(w: &Words, to: &str, name: &str, trouble: Option<&Message>) -> Markup {
    html! {
        h1 { (w.say("office-sign-in-title")) }
        @if let Some(trouble) = trouble {
            p.trouble role="alert" { (w.text(trouble)) }
        }
        form.stack method="post" action="/office/sign-in" {
            input type="hidden" name="to" value=(to);
            label for="name" { (w.say("office-sign-in-name")) }
            input.field id="name" name="name" value=(name) autocomplete="username" autocapitalize="none"
                maxlength="64" required autofocus[name.is_empty()];
            label for="password" { (w.say("office-sign-in-password")) }
            input.field id="password" type="password" name="password" autocomplete="current-password"
                maxlength="256" required autofocus[!name.is_empty()];
            button.go type="submit" { (w.say("office-sign-in-title")) }
        }
        p.small { (w.say("office-sign-in-made")) " " code { "farsiding account add" } }
        (reader::choice(w, to))
    }
}

/// The name and the password of a person who signs in.
#[derive(Deserialize)]
pub struct Credentials {
    #[serde(default)]
    name: String,
    #[serde(default)]
    password: String,
    #[serde(default)]
    to: String,
}

impl std::fmt::Debug for Credentials {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Credentials").finish_non_exhaustive()
    }
}

/// Returns the page that says that there were too many attempts, and how long to wait.
pub(super) fn wait_page(w: &Words, wait: Duration, form: impl FnOnce(&Message) -> Markup) -> Response {
    tracing::warn!("sign-in refused: too many tries");
    let seconds = wait.as_secs() + 1;
    let says = message!("office-sign-in-wait", count = seconds);
    let mut response = page(StatusCode::TOO_MANY_REQUESTS, w, form(&says));
    response.headers_mut().insert(header::RETRY_AFTER, HeaderValue::from(seconds));
    response
}

/// Returns whether a password is right. The check waits for its turn, because hashing takes 19 MiB and a
/// tenth of a second. Returns `None` when too many checks are waiting already.
pub async fn password_fits(
    office: &Office,
    origin: Origin,
    password: String,
    kept: Option<String>,
) -> Result<Option<bool>, PageError> {
    let Some(_place) = office.hashing.turn(origin).await else { return Ok(None) };
    let fits = tokio::task::spawn_blocking(move || passwords::fits(&password, kept.as_deref()));
    Ok(Some(fits.await.map_err(PageError::failed)?))
}

/// The account that somebody tries to sign in to.
struct Found {
    account: Option<(Account, String)>,
    /// Whether the account has signed in from this browser before.
    known_browser: bool,
    factor: bool,
}

async fn find(office: &Office, name: String, browser: Option<String>) -> Result<Found, PageError> {
    let now = office.now();
    let found = office.on_database(move |database| {
        let connection = database.connection();
        let account = people::by_name(connection, &name).map_err(as_register)?;
        let account = account.filter(|(account, _)| account.disabled_at.is_none());
        let known = match &browser {
            Some(browser) => browsers::knows(connection, browser, &name, now).map_err(as_register)?,
            None => false,
        };
        let factor = match &account {
            Some((account, _)) => {
                second_factor::standing(connection, account.number).map_err(as_register)?.since.is_some()
            }
            None => false,
        };
        Ok(Found { account, known_browser: known, factor })
    });
    Ok(found.await?)
}

/// `POST /office/sign-in`: checks the password.
pub async fn sign_in(
    State(office): State<Arc<Office>>,
    ConnectInfo(peer): ConnectInfo<SocketAddr>,
    headers: HeaderMap,
    PageWords(w): PageWords,
    Form(tried): Form<Credentials>,
) -> Result<Response, PageError> {
    check_from_here(&headers)?;
    let to = within(&tried.to).to_owned();
    let again = |says: &Message| form(w, &to, tried.name.trim(), Some(says));
    let browser = browser_of(&headers, office.secure);
    let found = find(&office, tried.name.clone(), browser.clone()).await?;
    let origin = match browser.filter(|_| found.known_browser) {
        Some(browser) => Origin::KnownBrowser(browsers::counted_as(&browser)),
        None => Origin::address(office.concurrency.address(peer, &headers)),
    };
    if let Err(wait) = office.attempts.begin(Tried::Password, &tried.name, origin, Instant::now()) {
        return Ok(wait_page(w, wait, again));
    }
    let kept = found.account.as_ref().map(|(_, hash)| hash.clone());
    let Some(fits) = password_fits(&office, origin, tried.password.clone(), kept).await? else {
        let says = message!("office-sign-in-many");
        return Ok(page(StatusCode::SERVICE_UNAVAILABLE, w, again(&says)));
    };
    let Some((account, _)) = found.account.filter(|_| fits) else {
        note_failed(&office, &tried.name, "failed to sign in").await?;
        tracing::warn!("sign-in refused: wrong name or password");
        return Ok(page(StatusCode::UNAUTHORIZED, w, again(&message!("office-sign-in-wrong"))));
    };
    office.attempts.was_right(Tried::Password, &tried.name, origin);
    if found.factor {
        let (number, now) = (account.number, office.now());
        let mut randomness = SystemRandomness::new().map_err(PageError::failed)?;
        let half = office.on_database(move |database| {
            second_factor::wait_for_code(database.connection(), number, now, &mut randomness)
                .map_err(as_register)
        });
        return Ok(page(StatusCode::OK, w, code_form(w, &half.await?, &to, None)));
    }
    enter_as(&office, &account, &headers, "signed in", &to).await
}

pub(super) async fn note_failed(office: &Office, name: &str, did: &str) -> Result<(), PageError> {
    let row = Looked {
        at: office.now(),
        who: name.to_owned(),
        role: "nobody".to_owned(),
        did: did.to_owned(),
        subject: String::new(),
    };
    Ok(office.on_database(move |database| audit::note(database.connection(), &row)).await?)
}

/// Begins an account's session and makes the browser a known one.
pub(super) async fn enter_as(
    office: &Office,
    account: &Account,
    headers: &HeaderMap,
    did: &str,
    to: &str,
) -> Result<Response, PageError> {
    let row = Looked {
        at: office.now(),
        who: account.name.clone(),
        role: account.role.map_or("nobody", AccountRole::as_str).to_owned(),
        did: did.to_owned(),
        subject: String::new(),
    };
    let token = begin(office, sessions::For::Account(account.number), headers, row).await?;
    let (number, now, before) = (account.number, office.now(), browser_of(headers, office.secure));
    let mut randomness = SystemRandomness::new().map_err(PageError::failed)?;
    let browser = office.on_database(move |database| {
        browsers::remember(database.connection(), number, before.as_deref(), now, &mut randomness)
            .map_err(as_register)
    });
    let browser = browser_cookie(&browser.await?, office.secure);
    let mut response = enter(office, &token, to);
    response.headers_mut().append(header::SET_COOKIE, browser);
    if let Some(language) = account.language {
        // The sign-in page then speaks the language of whoever used this browser last.
        response.headers_mut().append(header::SET_COOKIE, language_cookie(language, office.secure));
    }
    Ok(response)
}

/// Begins a session and writes it to the audit.
pub(super) async fn begin(
    office: &Office,
    whose: sessions::For,
    headers: &HeaderMap,
    row: Looked,
) -> Result<String, PageError> {
    let (before, now) = (token_of(headers, office.secure), office.now());
    let mut randomness = SystemRandomness::new().map_err(PageError::failed)?;
    let begun = office.on_database(move |database| {
        audit::note(database.connection(), &row)?;
        sessions::begin(database.connection(), whose, before.as_deref(), now, &mut randomness)
            .map_err(as_register)
    });
    Ok(begun.await?)
}

pub(super) fn enter(office: &Office, token: &str, to: &str) -> Response {
    let mut response = see_other(to);
    response.headers_mut().insert(header::SET_COOKIE, cookie(token, office.secure));
    response
}

/// Redirects the browser to a page of the office after a form.
pub fn see_other(to: &str) -> Response {
    let mut response = StatusCode::SEE_OTHER.into_response();
    let to = HeaderValue::from_str(to).unwrap_or(HeaderValue::from_static("/office/"));
    response.headers_mut().insert(header::LOCATION, to);
    response
}

/// `POST /office/sign-out`: ends the session.
pub async fn sign_out(
    State(office): State<Arc<Office>>,
    parting: SignOutForm,
) -> Result<Response, PageError> {
    let SignOutForm { token, user } = parting;
    user::note(&office, &user, "signed out", "").await?;
    office
        .on_database(move |database| sessions::end(database.connection(), &token).map_err(as_register))
        .await?;
    Ok(enter(&office, "", "/office/sign-in"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn signing_in_leads_to_a_page_of_ours_and_nowhere_else() {
        assert_eq!(within("/office/visits/ab?x=1"), "/office/visits/ab?x=1");
        for elsewhere in [
            "",
            "https://else.invalid",
            "//else.invalid/office/",
            "/office//else.invalid",
            "/office/\\else.invalid",
            "/office/\r\nset-cookie: a=b",
            "/app/",
            "/office/sign-out",
        ] {
            assert_eq!(within(elsewhere), "/office/", "{elsewhere:?}");
        }
        assert_eq!(path_with("/office/inquiry?q=ZZ 1"), "/office/sign-in");
        assert_eq!(
            path_with("/office/inquiry?q=ZZ&p=1"),
            "/office/sign-in?to=/office/inquiry%3Fq%3DZZ%26p%3D1"
        );
    }
}
