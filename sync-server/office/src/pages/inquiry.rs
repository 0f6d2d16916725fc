//! The search page: one box for a car number, a seal, a date or a site. Each result leads directly to the
//! record and to its packet.

use std::sync::Arc;

use axum::extract::{Query, State};
use axum::response::Response;
use farsiding_core::{Arg, message};
use farsiding_words::Words;
use maud::{Markup, html};
use serde::Deserialize;

use super::frame::{self, OfficeUser, Place};
use super::page_error::PageError;
use super::scale;
use super::today::number_of;
use crate::index::finding::{Found, Hit};
use crate::state::Office;

/// The number of results that are shown.
const SHOWN: usize = 50;
/// The longest search text, in characters.
const LONGEST: usize = 120;

/// The search text.
#[derive(Debug, Default, Deserialize)]
pub struct Question {
    #[serde(default)]
    q: String,
}

/// `GET /office/inquiry`: shows the search box and the results.
pub async fn show(
    State(office): State<Arc<Office>>,
    user: OfficeUser,
    Query(question): Query<Question>,
) -> Result<Response, PageError> {
    let asked: String = question.q.trim().chars().take(LONGEST).collect();
    let found = if asked.is_empty() {
        None
    } else {
        frame::note(&office, &user, "looked for", &asked).await?;
        let question = asked.clone();
        Some(office.on_index(move |asking| asking.inquire(&question, SHOWN)).await?)
    };
    let w = user.words;
    let body = html! {
        h1 { (w.say("office-inquiry-title")) }
        form.ask role="search" method="get" action="/office/inquiry" {
            label.sr for="q" { (w.say("office-inquiry-asked")) }
            input.field id="q" type="search" name="q" value=(asked) maxlength=(LONGEST) autocomplete="off"
                autocapitalize="characters" spellcheck="false" autofocus[asked.is_empty()]
                placeholder=(w.say("office-inquiry-asked"));
            button.go type="submit" { (w.say("office-inquiry-find")) }
        }
        p.small { (w.say("office-inquiry-how")) }
        (frame::behind(user.words, &office))
        @if let Some(found) = &found { (answer(w, found, &asked)) }
    };
    Ok(frame::page(&user, &w.say("office-inquiry-title"), Place::Inquiry, body))
}

fn answer(w: &Words, found: &Found, asked: &str) -> Markup {
    html! {
        section aria-live="polite" {
            @if found.fits.is_empty() {
                h2 {
                    @match &found.day {
                        Some(day) => { (w.text(&message!("office-inquiry-none-on", asked = Arg::typed(asked), day = Arg::typed(day.to_string())))) }
                        None => { (w.text(&message!("office-inquiry-none", asked = Arg::typed(asked)))) }
                    }
                }
                p { (w.say("office-inquiry-not-sent")) }
            } @else {
                h2 {
                    @match &found.day {
                        Some(day) => { (w.text(&message!("office-inquiry-records-on", count = found.fits.len(), day = Arg::typed(day.to_string())))) }
                        None => { (w.text(&message!("office-inquiry-records", count = found.fits.len()))) }
                    }
                }
                ul.found { @for hit in &found.fits { (row(w, hit)) } }
                @if found.more { p { (w.say("office-inquiry-more")) } }
            }
            @if !found.near.is_empty() {
                h2 { (w.say("office-inquiry-near")) }
                ul.found { @for hit in &found.near { (row(w, hit)) } }
            }
        }
    }
}

fn row(w: &Words, hit: &Hit) -> Markup {
    let line = &hit.line;
    html! {
        li {
            div {
                @match line.visit() {
                    Some(visit) => { a.num href={ "/office/visits/" (visit) } { (number_of(w, line)) } }
                    None => { span.num { (number_of(w, line)) } }
                }
                br; small { (line.site_name) @if !line.spot.is_empty() { " · " (line.spot) } }
            }
            div.of {
                b { (w.text(&message!("office-inquiry-span", from = Arg::typed(&line.shown.0), to = Arg::typed(&line.shown.1)))) } " · "
                @if line.released { (w.say("office-inquiry-released")) } @else { (scale::stage_name(w, line.stage)) }
                @if line.disagreements > 0 { " · " span.hot { (scale::differ()) " " (w.say("office-inquiry-differ")) } }
                br; small { (w.text(&hit.why)) }
            }
            @if let Some(visit) = line.visit() {
                div.row { a.key href={ "/office/visits/" (visit) } aria-label=(w.text(&message!("office-inquiry-record-of", car = Arg::typed(number_of(w, line)), day = Arg::typed(&line.shown.0)))) { (w.say("office-inquiry-record")) } a.go href={ "/office/visits/" (visit) "/packet" } download="" aria-label=(w.text(&message!("office-inquiry-packet-of", car = Arg::typed(number_of(w, line)), day = Arg::typed(&line.shown.0)))) { (w.say("office-inquiry-packet")) } }
            }
        }
    }
}
