//! The steps on paper: of a visit, with what is recorded already, and blank, of the procedure of a site.
//!
//! What stands on the paper is decided in `farsiding_packet::strip`.

use std::sync::Arc;

use axum::body::Body;
use axum::extract::{Path, Query, State};
use axum::http::{HeaderValue, StatusCode, header};
use axum::response::{IntoResponse as _, Response};
use farsiding_core::entry::vocabulary::Receiver;
use farsiding_core::ids::SiteId;
use farsiding_core::message;
use farsiding_core::procedure::built_in;
use farsiding_core::view::SiteView;
use farsiding_packet::PacketError;
use farsiding_packet::strip::{Strip, pdf};
use farsiding_words::Words;
use maud::{Markup, html};
use serde::Deserialize;

use super::frame::{self, OfficeUser, RecordViewer};
use super::page_error::PageError;
use super::procedures::{ADDRESS, known};
use super::visit::{open, read_visit};
use crate::state::Office;

/// What the site unloads into.
#[derive(Debug, Deserialize)]
pub struct Asked {
    #[serde(default)]
    into: String,
}

/// Returns the keys that fetch the blank strips of a site.
pub fn keys(w: &Words, site: &SiteView) -> Markup {
    html! { @if let Some(id) = site.id {
        @for receiver in Receiver::ALL {
            a.key href={ (ADDRESS) "/sites/" (id) "/strip?into=" (receiver.word()) } download=""
                aria-label={ (w.say("phone-strip-print")) ": " (site.name) ", " (w.text(&receiver.term())) } {
                (w.text(&receiver.term()))
            } " "
        }
    } }
}

/// `GET /office/visits/{visit}/strip`: returns the steps of a visit on paper, to anybody who may read the visit.
pub async fn of_visit(
    State(office): State<Arc<Office>>,
    reader: RecordViewer,
    Path(visit): Path<String>,
) -> Result<Response, PageError> {
    let (user, shown) = open(&office, reader, &visit).await?;
    let id = read_visit(&visit)?;
    frame::note(&office, &user, "printed the steps", &format!("visit:{id}")).await?;
    let now = office.now();
    let zone = shown.view.header.zone.clone();
    let strip = Strip::of_visit(&shown.view, now);
    let file = pdf(&strip, user.words.language(), &zone, now);
    let car: String = strip.car.chars().filter(char::is_ascii_alphanumeric).collect();
    answer(file, &format!("steps-{car}-{}.pdf", id.short()))
}

/// `GET /office/procedures/sites/{site}/strip`: returns a blank strip of the procedure that new stays at a site begin
/// under.
pub async fn of_site(
    State(office): State<Arc<Office>>,
    user: OfficeUser,
    Path(site): Path<String>,
    Query(asked): Query<Asked>,
) -> Result<Response, PageError> {
    let missing = || PageError::NotThere(message!("office-refused-no-page"));
    let id = SiteId::read(&site).map_err(|_| missing())?;
    let (editions, sites) = known(&office).await?;
    let site = sites.iter().find(|known| known.id == Some(id)).ok_or_else(missing)?;
    let procedure = editions.for_site(id).or(built_in().last()).ok_or_else(missing)?;
    let receiver = Receiver::read(&asked.into).unwrap_or(Receiver::FixedTank);
    frame::note(&office, &user, "printed the steps", &format!("site:{id}")).await?;
    let strip = Strip::blank(procedure, &site.name, &site.local_rules, receiver);
    let file = pdf(&strip, user.words.language(), &site.zone, office.now());
    answer(file, &format!("steps-{}.pdf", receiver.word()))
}

fn answer(file: Result<Vec<u8>, PacketError>, name: &str) -> Result<Response, PageError> {
    let file = file.map_err(PageError::failed)?;
    let mut response = (StatusCode::OK, Body::from(file)).into_response();
    let headers = response.headers_mut();
    headers.insert(header::CONTENT_TYPE, HeaderValue::from_static("application/pdf"));
    if let Ok(name) = HeaderValue::from_str(&format!("attachment; filename=\"{name}\"")) {
        headers.insert(header::CONTENT_DISPOSITION, name);
    }
    Ok(response)
}
