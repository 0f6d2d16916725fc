//! The actions on a visit's page: settle a disagreement, make a link for an inspector, and fetch the packet
//! or a photograph.

use std::sync::{Arc, PoisonError};

use axum::body::Body;
use axum::extract::{Path, State};
use axum::http::{HeaderValue, StatusCode, header};
use axum::response::{IntoResponse as _, Response};
use farsiding_core::book::{BookError, Draft};
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::EntryError;
use farsiding_core::evidence::ledger_log;
use farsiding_core::ids::{Digest, EntryId, Subject, VisitId};
use farsiding_core::{Arg, message};
use maud::html;
use serde::Deserialize;

use super::frame::{self, CsrfForm, Place, RecordViewer, Settles};
use super::page_error::PageError;
use super::sign_in::see_other;
use super::user::as_register;
use super::visit::{open, path_of, read_visit};
use crate::accounts::{AccountError, links};
use crate::index::finding::Shown;
use crate::language;
use crate::office_signer::{self, SignError};
use crate::state::Office;
use crate::state::hosts::of_the_pages;
use crate::stored_photographs::StoredPhotographs;
use farsiding_host::SystemRandomness;
use farsiding_packet::{PacketError, PacketSource, of_stay};

const DAY: i64 = 24 * 60 * 60 * 1000;

/// The form that settles a disagreement: the account that stands, and the reason.
#[derive(Debug, Deserialize)]
pub struct Settling {
    keeps: String,
    why: String,
    /// The differing entries that the person saw.
    #[serde(default)]
    seen: String,
}

/// `POST /office/visits/{visit}/settle`: settles a disagreement.
pub async fn settle(
    State(office): State<Arc<Office>>,
    Path(visit): Path<String>,
    CsrfForm { user, form, .. }: CsrfForm<Settling, Settles>,
) -> Result<Response, PageError> {
    let id = read_visit(&visit)?;
    let keeps = EntryId::read(form.keeps.trim())
        .map_err(|_| PageError::BadForm(message!("office-visit-choose-entry")))?;
    let why = form.why.trim().to_owned();
    if why.is_empty() || why.chars().count() > 1000 {
        return Err(PageError::BadForm(message!("office-visit-settle-reason")));
    }
    let mut seen: Vec<EntryId> =
        form.seen.split_whitespace().filter_map(|id| EntryId::read(id).ok()).collect();
    seen.sort_unstable();
    let (index, key, clock) = (Arc::clone(&office.index), office.key.clone(), office.clock.clone());
    let (folder, database) = (office.folder.clone(), Arc::clone(&office.database));
    let by = user.name.clone();
    let outcome = office
        .on_ledger(move |ledger| {
            // The ledger's lock is held, so that the settlement is about what the record holds at this
            // moment.
            let now = clock.time();
            let shown = index.ask(|asking| asking.show(id, now)).map_err(PageError::failed)?;
            let shown = shown.ok_or_else(|| PageError::NotThere(message!("office-visit-no-record")))?;
            let (home, draft) = draft_of(&shown, keeps, &seen, &why)?;
            let mut database = database.lock().unwrap_or_else(PoisonError::into_inner);
            let made = office_signer::sign(
                &folder,
                (&mut database, ledger.store_mut()),
                &key,
                &clock,
                (home, draft, &by),
            )
            .map_err(refused_by_desk)?;
            let position = ledger.store().newest_position().map_err(PageError::failed)?;
            office_signer::seen(&folder, &mut database, position, now).map_err(PageError::failed)?;
            Ok::<EntryId, PageError>(made)
        })
        .await?;
    let made = outcome?;
    tracing::info!(entry = made.short(), "settled at the office");
    let _ = office.hints.send(()); // an error only means that there are no listeners
    frame::note(&office, &user, "settled", &format!("visit:{id}")).await?;
    // The page that follows is folded from the ledger itself and does not wait for the index.
    Ok(see_other(&path_of(id)))
}

fn draft_of(
    shown: &Shown,
    keeps: EntryId,
    seen: &[EntryId],
    why: &str,
) -> Result<(VisitId, Draft), PageError> {
    let changed = || PageError::NotAllowed(message!("office-visit-changed"));
    let differ = shown.view.disagreements.iter().find(|d| d.entries.contains(&keeps)).ok_or_else(changed)?;
    let mut now = differ.entries.clone();
    now.sort_unstable();
    if now != seen {
        return Err(changed());
    }
    let draft =
        Draft::settling(&shown.view, keeps, why).map_err(|error| PageError::NotAllowed(error.message()))?;
    let home = shown.entries.iter().find(|entry| entry.id == keeps).map(|entry| entry.body.about);
    match home {
        Some(Subject::Visit(visit)) => Ok((visit, draft)),
        _ => Err(changed()),
    }
}

pub(super) fn refused_by_desk(error: SignError) -> PageError {
    match error {
        SignError::Book(BookError::Entry(EntryError::NotAllowed(_, says))) => PageError::NotAllowed(says),
        SignError::Revoked => PageError::NotAllowed(message!("office-refused-desk-revoked")),
        other => PageError::failed(other),
    }
}

/// The form for a new link: for whom it is, and how long it is valid.
#[derive(Debug, Deserialize)]
pub struct NewLink {
    label: String,
    days: u16,
}

/// `POST /office/visits/{visit}/links`: makes a link and shows it once.
pub async fn make_link(
    State(office): State<Arc<Office>>,
    Path(visit): Path<String>,
    CsrfForm { user, form, .. }: CsrfForm<NewLink, Settles>,
) -> Result<Response, PageError> {
    let w = user.words;
    let id = read_visit(&visit)?;
    if !(1..=90).contains(&form.days) {
        return Err(PageError::BadForm(message!("office-visit-link-1-90")));
    }
    let now = office.now();
    let shown = office.on_index(move |asking| asking.show(id, now)).await?;
    let shown = shown.ok_or_else(|| PageError::NotThere(message!("office-visit-no-record")))?;
    // The link opens what the clerk saw, even if other visits are joined with it later.
    let visits = shown.view.header.visits;
    let until = UtcMillis(now.0 + i64::from(form.days) * DAY);
    let (by, label) = (user.name.clone(), form.label.clone());
    let mut randomness = SystemRandomness::new().map_err(PageError::failed)?;
    let made = office
        .on_database(move |database| {
            let times = (now, until);
            let made =
                links::issue(database.connection(), (id, &visits), &label, &by, times, &mut randomness);
            match made {
                Err(AccountError::BadName) => Ok(None),
                other => other.map(Some).map_err(as_register),
            }
        })
        .await?;
    let secret = made.ok_or_else(|| PageError::BadForm(message!("office-visit-link-label")))?;
    frame::note(&office, &user, "made a link", &format!("visit:{id}")).await?;
    let server = office.on_database(|database| database.server_url()).await?.unwrap_or_default();
    let link = format!("{}/office/link/{secret}", of_the_pages(office.hosts.as_ref(), &server));
    let body = html! {
        h1 { (w.text(&message!("office-visit-link-title-for", label = Arg::typed(form.label.trim())))) }
        p.lead { (w.text(&message!("office-visit-link-once", time = Arg::typed(frame::in_utc(until))))) }
        p.plate { code { (link) } }
        p { a.key href=(path_of(id)) { (w.say("office-visit-back")) } }
    };
    Ok(frame::page(&user, &w.say("office-visit-link-title"), Place::Elsewhere, body))
}

/// `POST /office/visits/{visit}/links/{number}/revoke`: revokes a link.
pub async fn revoke_link(
    State(office): State<Arc<Office>>,
    Path((visit, number)): Path<(String, i64)>,
    CsrfForm { user, .. }: CsrfForm<Nothing, Settles>,
) -> Result<Response, PageError> {
    let id = read_visit(&visit)?;
    let now = office.now();
    office
        .on_database(move |database| {
            links::revoke(database.connection_mut(), number, now).map_err(as_register)
        })
        .await?;
    frame::note(&office, &user, "revoked a link", &format!("visit:{id}")).await?;
    Ok(see_other(&format!("{}#doors", path_of(id))))
}

/// `GET /office/visits/{visit}/packet`: returns the evidence packet to anybody who may read the visit.
pub async fn packet(
    State(office): State<Arc<Office>>,
    reader: RecordViewer,
    Path(visit): Path<String>,
) -> Result<Response, PageError> {
    let (user, shown) = open(&office, reader, &visit).await?;
    let id = read_visit(&visit)?;
    frame::note(&office, &user, "took the packet", &format!("visit:{id}")).await?;
    let visits = shown.view.header.visits.clone();
    let file = match make_packet(&office, visits.clone()).await? {
        // The log is behind the entries, after an older version of the program or after a power failure.
        Err(PacketError::NotInLog(_) | PacketError::NoCheckpoint) => {
            let (key, now) = (office.key.clone(), office.now());
            let caught_up = office.on_ledger(move |ledger| {
                let store = ledger.store_mut();
                ledger_log::bring_in(store, &key, now)?;
                ledger_log::publish(store, &key, now)
            });
            caught_up.await?.map_err(PageError::failed)?;
            make_packet(&office, visits).await?
        }
        other => other,
    };
    let file = file.map_err(PageError::failed)?;
    let car: String = shown.view.header.car.chars().filter(char::is_ascii_alphanumeric).collect();
    let name = format!("attachment; filename=\"packet-{car}-{}.pdf\"", id.short());
    let mut response = (StatusCode::OK, Body::from(file)).into_response();
    let headers = response.headers_mut();
    headers.insert(header::CONTENT_TYPE, HeaderValue::from_static("application/pdf"));
    if let Ok(name) = HeaderValue::from_str(&name) {
        headers.insert(header::CONTENT_DISPOSITION, name);
    }
    Ok(response)
}

/// Builds the packet on a blocking thread with a ledger connection of its own, so that no sync waits for it.
async fn make_packet(
    office: &Arc<Office>,
    visits: Vec<VisitId>,
) -> Result<Result<Vec<u8>, PacketError>, PageError> {
    let _place = office.packing.acquire().await.map_err(PageError::failed)?;
    let language = office.on_database(|database| language::of_organisation(database)).await?;
    let (here, runtime) = (Arc::clone(office), tokio::runtime::Handle::current());
    let made = tokio::task::spawn_blocking(move || {
        let store = office_signer::own_connection(&here.folder.ledger_place())?;
        let photographs = StoredPhotographs { store: &here.photos, runtime: &runtime };
        let source = PacketSource { store: &*store, key: &here.key, photographs: &photographs, language };
        of_stay(&source, &visits)
    });
    made.await.map_err(PageError::failed)
}

/// A form with only its token.
#[derive(Debug, Deserialize)]
pub struct Nothing {}

/// Returns the image type under which a browser may show a photograph. Any other content is offered as a
/// download, because what a device calls a photograph must not become a page of this site.
fn shown_as(media: &str) -> Option<&'static str> {
    ["image/jpeg", "image/png", "image/webp", "image/gif", "image/avif", "image/heic", "image/heif"]
        .into_iter()
        .find(|known| media.eq_ignore_ascii_case(known))
}

/// `GET /office/visits/{visit}/photos/{sha256}`: returns a photograph of the visit to anybody who may read
/// the visit.
pub async fn photo(
    State(office): State<Arc<Office>>,
    reader: RecordViewer,
    Path((visit, sha256)): Path<(String, String)>,
) -> Result<Response, PageError> {
    let missing = || PageError::NotThere(message!("office-visit-no-photo"));
    let digest = Digest::read(&sha256).map_err(|_| missing())?;
    let (user, shown) = open(&office, reader, &visit).await?;
    let spoken_of =
        shown.view.photos.iter().find(|photo| photo.photo.sha256 == digest).ok_or_else(missing)?;
    let media = shown_as(&spoken_of.photo.media);
    let (length, bytes) = office.photos.read(digest).await.map_err(|_| missing())?;
    let subject = format!("photo:{digest} visit:{}", read_visit(&visit)?);
    frame::note(&office, &user, "looked at a photograph", &subject).await?;
    let mut response = (StatusCode::OK, Body::from_stream(bytes)).into_response();
    let headers = response.headers_mut();
    headers.insert(header::CONTENT_LENGTH, HeaderValue::from(length));
    headers
        .insert(header::CONTENT_TYPE, HeaderValue::from_static(media.unwrap_or("application/octet-stream")));
    if media.is_none() {
        headers.insert(header::CONTENT_DISPOSITION, HeaderValue::from_static("attachment"));
    }
    // The name is a digest, so the content never changes; but shared caches must not store it.
    headers.insert(header::CACHE_CONTROL, HeaderValue::from_static("private, max-age=86400, immutable"));
    Ok(response)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_no_picture_is_never_shown_as_a_page() {
        assert_eq!(shown_as("image/JPEG"), Some("image/jpeg"));
        for other in ["text/html", "image/svg+xml", "application/xhtml+xml", ""] {
            assert_eq!(shown_as(other), None);
        }
    }
}
