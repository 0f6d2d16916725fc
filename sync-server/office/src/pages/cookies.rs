//! The three cookies of the office's pages: the session cookie, the cookie of a known browser from which
//! somebody has signed in before, and the cookie of the language that was chosen in this browser.
//!
//! The meaning of the tokens is in `accounts::sessions` and `accounts::browsers`.

use axum::http::{HeaderMap, HeaderValue, header};

use farsiding_words::Language;

use crate::accounts::browsers;

/// Returns the name of the session cookie. With TLS, the name has a prefix that makes browsers restrict the
/// cookie to this host and to TLS.
pub fn cookie_name(secure: bool) -> &'static str {
    if secure { "__Host-farsiding" } else { "farsiding" }
}

/// Returns the cookie that begins a session. With an empty token, the cookie ends the session.
pub fn cookie(token: &str, secure: bool) -> HeaderValue {
    let end = if token.is_empty() { "; Max-Age=0" } else { "" };
    let only = if secure { "; Secure" } else { "" };
    let text = format!("{}={token}; Path=/; HttpOnly; SameSite=Strict{only}{end}", cookie_name(secure));
    HeaderValue::from_str(&text).unwrap_or_else(|_| HeaderValue::from_static(""))
}

/// Returns the name of the cookie of a known browser.
pub fn browser_cookie_name(secure: bool) -> &'static str {
    if secure { "__Host-farsiding-browser" } else { "farsiding-browser" }
}

/// Returns the cookie that makes the browser a known one.
pub fn browser_cookie(token: &str, secure: bool) -> HeaderValue {
    let (name, only) = (browser_cookie_name(secure), if secure { "; Secure" } else { "" });
    let seconds = browsers::KEPT_MILLIS / 1000;
    let text = format!("{name}={token}; Path=/; HttpOnly; SameSite=Strict{only}; Max-Age={seconds}");
    HeaderValue::from_str(&text).unwrap_or_else(|_| HeaderValue::from_static(""))
}

/// Returns the token of a known browser from a request.
pub fn browser_of(headers: &HeaderMap, secure: bool) -> Option<String> {
    cookie_of(headers, browser_cookie_name(secure))
}

/// How long a browser keeps the chosen language, in seconds.
const LANGUAGE_KEPT: i64 = 365 * 24 * 60 * 60;

fn language_cookie_name(secure: bool) -> &'static str {
    if secure { "__Host-farsiding-language" } else { "farsiding-language" }
}

/// Returns the cookie that keeps the language of the pages that need nobody to be signed in.
pub fn language_cookie(language: Language, secure: bool) -> HeaderValue {
    let (name, only) = (language_cookie_name(secure), if secure { "; Secure" } else { "" });
    let text = format!("{name}={language}; Path=/; HttpOnly; SameSite=Lax{only}; Max-Age={LANGUAGE_KEPT}");
    HeaderValue::from_str(&text).unwrap_or_else(|_| HeaderValue::from_static(""))
}

/// Returns the tag of the language that was chosen in this browser.
pub fn language_of(headers: &HeaderMap, secure: bool) -> Option<String> {
    cookie_of(headers, language_cookie_name(secure))
}

/// Returns the session token from a request.
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
}
