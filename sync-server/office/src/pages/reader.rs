//! The language in which a request is answered.
//!
//! A signed-in person has the language of the account. Everybody else has the language that was chosen in
//! this browser, else the one that the browser asks for, else the organisation's. The catalogues are in
//! `farsiding-words`, and which languages there are is read from there.

use std::convert::Infallible;
use std::sync::{Arc, OnceLock};

use axum::Form;
use axum::extract::{FromRequestParts, State};
use axum::http::request::Parts;
use axum::http::{HeaderMap, header};
use axum::response::Response;
use farsiding_core::message;
use farsiding_words::{Language, Words};
use maud::{Markup, html};
use serde::Deserialize;

use super::cookies::{language_cookie, language_of};
use super::form_check::check_from_here;
use super::page_error::PageError;
use super::sign_in::{path_with, see_other, within};
use crate::language::organisation_words;
use crate::state::Office;

/// The words of the person who asks, once it is known who that is. Each request carries one, so that a
/// refusal is drawn in the same language as the page would have been.
#[derive(Debug, Clone, Default)]
pub struct Reader(Arc<OnceLock<&'static Words>>);

impl Reader {
    /// Notes in what language the request is answered.
    pub fn reads(parts: &Parts, words: &'static Words) {
        if let Some(Reader(known)) = parts.extensions.get() {
            let _ = known.set(words); // a person is identified once
        }
    }

    /// Returns the words, if it is known who asks.
    pub fn words(&self) -> Option<&'static Words> {
        self.0.get().copied()
    }
}

/// Returns the words for somebody who is not signed in.
pub async fn words_of(headers: &HeaderMap, office: &Office) -> &'static Words {
    let chosen = language_of(headers, office.secure).and_then(|tag| tag.parse::<Language>().ok());
    let wished = || headers.get(header::ACCEPT_LANGUAGE)?.to_str().ok().and_then(Language::wished);
    match chosen.or_else(wished) {
        Some(language) => Words::of(language),
        // A page in English is better than none when the database fails.
        None => office
            .on_database(|database| organisation_words(database))
            .await
            .unwrap_or_else(|_| Words::english()),
    }
}

/// The words for a page that needs nobody to be signed in.
#[derive(Debug, Clone, Copy)]
pub struct PageWords(pub &'static Words);

impl FromRequestParts<Arc<Office>> for PageWords {
    type Rejection = Infallible;

    async fn from_request_parts(parts: &mut Parts, office: &Arc<Office>) -> Result<Self, Infallible> {
        let words = words_of(&parts.headers, office).await;
        Reader::reads(parts, words);
        Ok(PageWords(words))
    }
}

/// Returns the name of a language in its own words.
pub fn own_name(language: Language) -> String {
    Words::of(language).say("office-language-name")
}

/// Returns the buttons by which somebody who is not signed in chooses a language. `to` is the address of the
/// page that they stand on.
pub fn choice(w: &Words, to: &str) -> Markup {
    html! {
        form.languages.no-print method="post" action="/office/language" aria-label=(w.say("office-language-choice")) {
            input type="hidden" name="to" value=(to);
            @for language in Language::all() {
                button.quiet type="submit" name="language" value=(language) lang=(language)
                    aria-pressed=((language == w.language()).to_string()) { (own_name(language)) }
            }
        }
    }
}

/// The form with the chosen language, and the address of the page on which it was chosen.
#[derive(Debug, Deserialize)]
pub struct Chosen {
    #[serde(default)]
    language: String,
    #[serde(default)]
    to: String,
}

/// Returns the language that a form names, if it is one of those that are offered.
///
/// # Errors
/// Returns [`PageError::BadForm`] for anything else.
pub fn offered(tag: &str) -> Result<Language, PageError> {
    let found = Language::all().find(|language| language.as_str() == tag);
    found.ok_or_else(|| PageError::BadForm(message!("office-language-unknown")))
}

/// `POST /office/language`: keeps the language that somebody chose before signing in.
pub async fn choose(
    State(office): State<Arc<Office>>,
    headers: HeaderMap,
    Form(chosen): Form<Chosen>,
) -> Result<Response, PageError> {
    check_from_here(&headers)?;
    let language = offered(&chosen.language)?;
    let to = match within(&chosen.to) {
        link if link.starts_with("/office/link/") => link.to_owned(),
        to => path_with(to),
    };
    let mut response = see_other(&to);
    response.headers_mut().append(header::SET_COOKIE, language_cookie(language, office.secure));
    Ok(response)
}
