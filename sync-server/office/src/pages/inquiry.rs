//! The search page: one box for a car number, a seal, a date or a site. Each result leads directly to the
//! record and to its packet.

use std::sync::Arc;

use axum::extract::{Query, State};
use axum::response::Response;
use maud::{Markup, html};
use serde::Deserialize;

use super::frame::{self, OfficeUser, Place};
use super::refused::Refused;
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
) -> Result<Response, Refused> {
    let asked: String = question.q.trim().chars().take(LONGEST).collect();
    let found = if asked.is_empty() {
        None
    } else {
        frame::note(&office, &user, "looked for", &asked).await?;
        let question = asked.clone();
        Some(office.on_index(move |asking| asking.inquire(&question, SHOWN)).await?)
    };
    let body = html! {
        h1 { "Inquiry" }
        form.ask role="search" method="get" action="/office/inquiry" {
            label.sr for="q" { "Car number, seal, date or place" }
            input.field id="q" type="search" name="q" value=(asked) maxlength=(LONGEST) autocomplete="off"
                autocapitalize="characters" spellcheck="false" autofocus[asked.is_empty()]
                placeholder="number, seal, date or place";
            button.go type="submit" { "Find" }
        }
        p.small { "Spaces, dashes and case do not matter. A date as 2026-11-09, 11/9/2026 (month first) or 9 Nov 2026; together with a number or a place it narrows." }
        (frame::behind(&office))
        @if let Some(found) = &found { (answer(found, &asked)) }
    };
    Ok(frame::page(&user, "Inquiry", Place::Inquiry, body))
}

fn answer(found: &Found, asked: &str) -> Markup {
    html! {
        section aria-live="polite" {
            @if found.fits.is_empty() {
                h2 { "Nothing here fits “" (asked) "”" @if let Some(day) = found.day { " on " (day) } }
                p { "What phones have not sent yet is not known here." }
            } @else {
                h2 {
                    (found.fits.len()) @if found.more { " of more" }
                    @if found.fits.len() == 1 { " record" } @else { " records" }
                    @if let Some(day) = found.day { ", there on " (day) }
                }
                ul.found { @for hit in &found.fits { (row(hit)) } }
                @if found.more { p { "There are more: add a date or a place." } }
            }
            @if !found.near.is_empty() {
                h2 { "One slip of the hand away" }
                ul.found { @for hit in &found.near { (row(hit)) } }
            }
        }
    }
}

fn row(hit: &Hit) -> Markup {
    let line = &hit.line;
    html! {
        li {
            div {
                @match line.visit() {
                    Some(visit) => { a.num href={ "/office/visits/" (visit) } { (number_of(line)) } }
                    None => { span.num { (number_of(line)) } }
                }
                br; small { (line.site_name) @if !line.spot.is_empty() { " · " (line.spot) } }
            }
            div.of {
                b { (line.shown.0) } " to " (line.shown.1) " · "
                @if line.released { "released" } @else { (scale::stage_name(line.stage)) }
                @if line.disagreements > 0 { " · " span.hot { (scale::differ()) " accounts differ" } }
                br; small { (hit.why) }
            }
            @if let Some(visit) = line.visit() {
                div.row { a.key href={ "/office/visits/" (visit) } aria-label={ "Record of " (number_of(line)) ", " (line.shown.0) } { "Record" } a.go href={ "/office/visits/" (visit) "/packet" } download="" aria-label={ "Packet of " (number_of(line)) ", " (line.shown.0) } { "Packet" } }
            }
        }
    }
}
