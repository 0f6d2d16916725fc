//! Checks that a form was sent from a page of the sender's present session.
//!
//! Called by `user`, which knows the session. The content of a form is not interpreted here.

use std::sync::Arc;

use axum::body::{Body, Bytes};
use axum::extract::{DefaultBodyLimit, Form, FromRequest, Multipart, Request};
use axum::http::{HeaderMap, HeaderValue, header};
use farsiding_core::message;
use serde::Deserialize;
use serde::de::DeserializeOwned;

use super::page_error::PageError;
use crate::state::Office;

/// The largest accepted form, in bytes. It has room for a month's shipping papers, as a file or pasted in.
const LARGEST_FORM: usize = 4 * 1024 * 1024;

/// Returns whether a form was sent from a page of this server, according to the browser. The form's own token
/// is checked separately.
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
/// Returns [`PageError::OtherSite`] for a form of another site.
pub fn check_from_here(headers: &HeaderMap) -> Result<(), PageError> {
    if from_here(headers) { Ok(()) } else { Err(PageError::OtherSite) }
}

/// The token field that every form carries.
#[derive(Deserialize)]
pub struct Token {
    #[serde(default)]
    csrf: String,
}

/// Compares two texts in a time that does not depend on where they differ.
fn same(a: &str, b: &str) -> bool {
    a.len() == b.len() && a.bytes().zip(b.bytes()).fold(0, |differ, (a, b)| differ | (a ^ b)) == 0
}

const PLAIN_FORM: &str = "application/x-www-form-urlencoded";

fn too_large() -> PageError {
    PageError::BadForm(message!("office-refused-too-large"))
}

/// Returns the refusal of a form that lacks a field or has one that cannot be read. What is wrong with it
/// goes to the log, because a form of our own page has every field.
fn incomplete(why: &str) -> PageError {
    tracing::warn!(why, "a form was refused");
    PageError::BadForm(message!("office-refused-form"))
}

/// Returns the fields of a form with files as pairs. A file's content is stored as text under the name of its
/// field, and its file name under that name followed by `_name`. A file that is not text is refused, so that
/// no part of it is lost silently.
async fn pairs_of(request: Request, office: &Arc<Office>) -> Result<Bytes, PageError> {
    let (parts, body) = request.into_parts();
    // The limit applies to the whole form, not to each part.
    let body = Body::new(http_body_util::Limited::new(body, LARGEST_FORM));
    let mut request = Request::from_parts(parts, body);
    DefaultBodyLimit::disable().apply(&mut request);
    let broken = |_| too_large();
    let mut form = Multipart::from_request(request, office)
        .await
        .map_err(|rejection| incomplete(&rejection.body_text()))?;
    let mut pairs: Vec<(String, String)> = Vec::new();
    while let Some(field) = form.next_field().await.map_err(broken)? {
        let name = field.name().unwrap_or_default().to_owned();
        let called = field.file_name().map(str::to_owned);
        let bytes = field.bytes().await.map_err(broken)?;
        let text = std::str::from_utf8(&bytes)
            .map_err(|_| PageError::BadForm(message!("office-refused-not-text")))?;
        if let Some(called) = called {
            pairs.push((format!("{name}_name"), called));
        }
        pairs.push((name, text.to_owned()));
    }
    Ok(Bytes::from(form_urlencoded::Serializer::new(String::new()).extend_pairs(pairs).finish()))
}

/// Returns the form of a request whose token belongs to the session.
///
/// # Errors
/// Returns [`PageError`] when the form came from elsewhere or cannot be parsed.
pub async fn checked_form<T: DeserializeOwned>(
    request: Request,
    csrf: &str,
    office: &Arc<Office>,
) -> Result<T, PageError> {
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
        _ => return Err(PageError::NoToken),
    }
    let form = Form::<T>::from_request(again(), office).await;
    form.map(|Form(form)| form).map_err(|rejection| incomplete(&rejection.body_text()))
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
    fn tokens_compare_whole() {
        assert!(same("abc", "abc"));
        assert!(!same("abc", "abd") && !same("abc", "ab") && !same("", "a"));
    }
}
