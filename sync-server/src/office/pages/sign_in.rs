//! Signing in and out, and the door an inspector's link leads to.

use std::net::SocketAddr;
use std::sync::Arc;

use axum::Form;
use axum::extract::{ConnectInfo, Path, Query, State};
use axum::http::{HeaderMap, HeaderValue, StatusCode, header};
use axum::response::{IntoResponse as _, Response};
use maud::{Markup, html};
use serde::Deserialize;

use super::frame;
use super::refused::Refused;
use super::visitor::{self, Parting, as_register, check_from_here, cookie, token_of};
use crate::office::accounts::audit::{self, Looked};
use crate::office::accounts::{links, passwords, people, sessions};
use crate::office::http::Office;
use crate::surroundings::SystemRandomness;

/// Where a person goes after signing in: only to a page of ours.
fn within(to: &str) -> &str {
    let plain = to.bytes().all(|b| (0x21..0x7f).contains(&b) && b != b'\\');
    let ours = to.starts_with("/office/") && !to.contains("//") && !to.starts_with("/office/sign-");
    if plain && ours { to } else { "/office/" }
}

/// The sign-in page's address, with where to go after.
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

/// Where to go after.
#[derive(Debug, Default, Deserialize)]
pub struct Next {
    #[serde(default)]
    to: String,
}

/// `GET /office/sign-in`.
pub async fn show(Query(next): Query<Next>) -> Response {
    frame::bare(StatusCode::OK, "Sign in", form(within(&next.to), "", None))
}

fn form(to: &str, name: &str, trouble: Option<&str>) -> Markup {
    html! {
        h1 { "Sign in" }
        @if let Some(trouble) = trouble {
            p.trouble role="alert" { (trouble) }
        }
        form.stack method="post" action="/office/sign-in" {
            input type="hidden" name="to" value=(to);
            label for="name" { "Name" }
            input.field id="name" name="name" value=(name) autocomplete="username" autocapitalize="none"
                maxlength="64" required autofocus[name.is_empty()];
            label for="password" { "Password" }
            input.field id="password" type="password" name="password" autocomplete="current-password"
                maxlength="256" required autofocus[!name.is_empty()];
            button.go type="submit" { "Sign in" }
        }
        p.small { "Accounts are made on the server: " code { "farsiding account add" } "." }
    }
}

/// What a person signs in with.
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

/// `POST /office/sign-in`.
pub async fn sign_in(
    State(office): State<Arc<Office>>,
    ConnectInfo(peer): ConnectInfo<SocketAddr>,
    headers: HeaderMap,
    Form(tried): Form<Credentials>,
) -> Result<Response, Refused> {
    check_from_here(&headers)?;
    let to = within(&tried.to).to_owned();
    let again =
        |status, words: &str| frame::bare(status, "Sign in", form(&to, tried.name.trim(), Some(words)));
    if let Err(wait) = office.attempts.one_more(&tried.name, office.crowd.address(peer, &headers)) {
        tracing::warn!("sign-in refused: too many tries");
        let seconds = wait.as_secs() + 1;
        let words = format!("Too many tries. Wait {seconds} s and try again.");
        let mut response = again(StatusCode::TOO_MANY_REQUESTS, &words);
        response.headers_mut().insert(header::RETRY_AFTER, HeaderValue::from(seconds));
        return Ok(response);
    }
    let name = tried.name.clone();
    let found = office
        .on_register(move |register| people::by_name(register.connection(), &name).map_err(as_register))
        .await?
        .filter(|(account, _)| account.disabled_at.is_none());
    let (kept, password) = (found.as_ref().map(|(_, hash)| hash.clone()), tried.password.clone());
    // Hashing takes 19 MiB and a tenth of a second: two at a time, the others wait.
    let place = office.hashing.acquire().await.map_err(Refused::failed)?;
    let fits = tokio::task::spawn_blocking(move || passwords::fits(&password, kept.as_deref()))
        .await
        .map_err(Refused::failed)?;
    drop(place);
    let account = found.filter(|_| fits).map(|(account, _)| account);
    let row = Looked {
        at: office.now(),
        who: account.as_ref().map_or_else(|| tried.name.clone(), |account| account.name.clone()),
        role: if account.is_some() { "office" } else { "nobody" }.to_owned(),
        did: if account.is_some() { "signed in" } else { "failed to sign in" }.to_owned(),
        subject: String::new(),
    };
    let Some(account) = account else {
        office.on_register(move |register| audit::note(register.connection(), &row)).await?;
        tracing::warn!("sign-in refused: wrong name or password");
        return Ok(again(StatusCode::UNAUTHORIZED, "The name or the password is wrong."));
    };
    let token = begin(&office, sessions::For::Account(account.number), &headers, row).await?;
    Ok(enter(&office, &token, &to))
}

/// Begins a session and notes it.
async fn begin(
    office: &Office,
    whose: sessions::For,
    headers: &HeaderMap,
    row: Looked,
) -> Result<String, Refused> {
    let (before, now) = (token_of(headers, office.secure), office.now());
    let mut randomness = SystemRandomness::new().map_err(Refused::failed)?;
    let begun = office.on_register(move |register| {
        audit::note(register.connection(), &row)?;
        sessions::begin(register.connection(), whose, before.as_deref(), now, &mut randomness)
            .map_err(as_register)
    });
    Ok(begun.await?)
}

fn enter(office: &Office, token: &str, to: &str) -> Response {
    let mut response = see_other(to);
    response.headers_mut().insert(header::SET_COOKIE, cookie(token, office.secure));
    response
}

/// Sends the browser on to a page of ours after a form.
pub fn see_other(to: &str) -> Response {
    let mut response = StatusCode::SEE_OTHER.into_response();
    let to = HeaderValue::from_str(to).unwrap_or(HeaderValue::from_static("/office/"));
    response.headers_mut().insert(header::LOCATION, to);
    response
}

/// `POST /office/sign-out`.
pub async fn sign_out(State(office): State<Arc<Office>>, parting: Parting) -> Result<Response, Refused> {
    let Parting { token, visitor } = parting;
    visitor::note(&office, &visitor, "signed out", "").await?;
    office
        .on_register(move |register| sessions::end(register.connection(), &token).map_err(as_register))
        .await?;
    Ok(enter(&office, "", "/office/sign-in"))
}

const LINK_IS_OVER: &str = "This link opens nothing: it has run out, was revoked, or is not whole. \
                            Ask the office that gave it to you for a new one.";

/// `GET /office/link/{secret}`: says what the link is before anything is opened. A session begins only
/// with the button: what looks ahead at links in a letter opens nothing.
pub async fn door(
    State(office): State<Arc<Office>>,
    Path(secret): Path<String>,
) -> Result<Response, Refused> {
    let link = find_link(&office, secret.clone()).await?;
    let Some(link) = link.filter(|link| link.is_good(office.now())) else {
        return Err(Refused::NotThere(LINK_IS_OVER.to_owned()));
    };
    let body = html! {
        h1 { "A record is open to you" }
        p.lead { "For " b { (link.label) } ", by " (link.made_by) ", until " b { (frame::in_utc(link.expires_at)) } "." }
        p { "It opens one record and its packet. The office sees that you looked, and when." }
        form.stack method="post" action={ "/office/link/" (secret) } {
            button.go type="submit" { "Open the record" }
        }
    };
    Ok(frame::bare(StatusCode::OK, "A record is open to you", body))
}

/// `POST /office/link/{secret}`: begins the inspector's session.
pub async fn open(
    State(office): State<Arc<Office>>,
    ConnectInfo(peer): ConnectInfo<SocketAddr>,
    Path(secret): Path<String>,
    headers: HeaderMap,
) -> Result<Response, Refused> {
    check_from_here(&headers)?;
    if office.attempts.one_more(&secret, office.crowd.address(peer, &headers)).is_err() {
        return Err(Refused::NotAllowed("Too many tries. Wait a minute and try again.".to_owned()));
    }
    let link = find_link(&office, secret).await?;
    let Some(link) = link.filter(|link| link.is_good(office.now())) else {
        return Err(Refused::NotThere(LINK_IS_OVER.to_owned()));
    };
    let row = Looked {
        at: office.now(),
        who: link.label.clone(),
        role: "inspector".to_owned(),
        did: "opened a link".to_owned(),
        subject: format!("visit:{}", link.visit),
    };
    let token = begin(&office, sessions::For::Link(link.number), &headers, row).await?;
    Ok(enter(&office, &token, &format!("/office/visits/{}", link.visit)))
}

async fn find_link(office: &Office, secret: String) -> Result<Option<links::Link>, Refused> {
    let found = office
        .on_register(move |register| links::by_secret(register.connection(), &secret).map_err(as_register));
    Ok(found.await?)
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
