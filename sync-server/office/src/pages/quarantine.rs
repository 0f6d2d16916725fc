//! The page of the quarantine: data that the office refused, and records that no enrolled device opened and
//! that somebody hid from the lists. Nothing on this page changes the record or its log.

use std::sync::Arc;

use axum::extract::{Path, State};
use axum::response::Response;
use farsiding_core::ids::VisitId;
use farsiding_core::{Arg, message};
use maud::{Markup, html};
use serde::Deserialize;

use super::audit_words;
use super::frame::{self, CsrfForm, OfficeUser, Place, RecordViewer, csrf, in_utc};
use super::page_error::PageError;
use super::sign_in::see_other;
use super::visit::{self, path_of, read_visit};
use crate::hidden::{self, Hidden};
use crate::index::finding::Shown;
use crate::quotas::quarantine;
use crate::state::Office;
use farsiding_host::quarantine::QuarantinedItem;

/// The heads of the table of refused data.
const HEADS: [&str; 4] =
    ["office-quarantine-when", "office-quarantine-from", "office-quarantine-bytes", "office-quarantine-why"];
/// The number of rows that are shown.
const SHOWN: usize = 200;
/// The longest reason, in characters.
const LONGEST_REASON: usize = 400;

/// `GET /office/refused`: shows the refused data and the hidden records.
pub async fn show(State(office): State<Arc<Office>>, user: OfficeUser) -> Result<Response, PageError> {
    frame::note(&office, &user, "looked", "refused").await?;
    let before = office.on_ledger(|ledger| ledger.store().quarantined()).await?.map_err(PageError::failed)?;
    let (kept, hidden, devices) = office
        .on_database(|database| {
            let register_rows = quarantine::list(database.connection())?;
            Ok((register_rows, hidden::list(database.connection())?, database.devices()?))
        })
        .await?;
    let kept: Vec<QuarantinedItem> = before
        .into_iter()
        .map(Into::into)
        .chain(kept.into_iter().map(|(device, kept)| kept.kept_of(device)))
        .collect();
    let w = user.words;
    let title = w.say("office-quarantine-title");
    let name = |item: &QuarantinedItem| {
        let device = item.device.and_then(|device| devices.iter().find(|known| known.device == device));
        device.map_or_else(|| w.say("office-quarantine-unknown"), |known| known.name.clone())
    };
    let body = html! {
        h1 { (title) }
        p.lead { (w.say("office-quarantine-lead")) }
        section {
            h2 { (w.say("office-quarantine-refused")) }
            @if kept.is_empty() { p.none { (w.say("office-quarantine-none")) } } @else {
                div.wide tabindex="0" role="region" aria-label=(w.say("office-quarantine-refused")) { table {
                    thead { tr { @for head in HEADS { th scope="col" { (w.say(head)) } } th scope="col" { "SHA-256" } } }
                    tbody { @for item in kept.iter().rev().take(SHOWN) { tr {
                        td.time { (in_utc(item.at)) }
                        th scope="row" { (name(item)) }
                        td { (item.length) }
                        td lang="en" { (item.why) }
                        td { (item.sha256.short()) }
                    } } }
                } }
                p.small { (w.say("office-quarantine-kept")) " " code { "farsiding quarantine --out DIR" } }
                form.stack.no-print method="post" action="/office/refused/purge" {
                    (csrf(&user))
                    label.check for="sure" { input id="sure" type="checkbox" name="sure" value="yes" required; span { (w.say("office-quarantine-sure")) } }
                    button.key.stop type="submit" { (w.say("office-quarantine-purge")) }
                }
            }
        }
        section {
            h2 { (w.say("office-quarantine-hidden")) }
            @if hidden.is_empty() { p.none { (w.say("office-quarantine-no-hidden")) } } @else {
                ul.plain { @for one in hidden.iter().take(SHOWN) { li {
                    a href=(path_of(one.visit)) { (audit_words::record(w, one.visit)) } " — " (one.why)
                    br; small { (one.by) ", " (in_utc(one.at)) }
                } } }
            }
        }
    };
    Ok(frame::page(&user, &title, Place::Devices, body))
}

/// The form with the person's confirmation.
#[derive(Debug, Deserialize)]
pub struct Sure {
    #[serde(default)]
    sure: String,
}

/// `POST /office/refused/purge`: deletes the refused data.
pub async fn purge(
    State(office): State<Arc<Office>>,
    CsrfForm { user, form, .. }: CsrfForm<Sure>,
) -> Result<Response, PageError> {
    if form.sure != "yes" {
        return Err(PageError::BadForm(message!("office-quarantine-tick")));
    }
    let database = Arc::clone(&office.database);
    let outcome = office
        .on_ledger(move |ledger| {
            let database = database.lock().unwrap_or_else(std::sync::PoisonError::into_inner);
            quarantine::purge_all(ledger.store_mut(), &database)
        })
        .await?;
    outcome.map_err(PageError::failed)?;
    frame::note(&office, &user, "forgot what was refused", "refused").await?;
    Ok(see_other("/office/refused"))
}

/// Returns the form on a record's page that hides a record no enrolled device opened, or shows it again.
pub fn offer(user: &OfficeUser, path: &str, phantom: bool, hidden: &[Hidden]) -> Markup {
    let w = user.words;
    html! {
        @if let Some(one) = hidden.first() {
            section #hidden {
                h2 { (w.say("office-quarantine-hidden")) }
                p { (w.text(&message!("office-quarantine-did", by = Arg::typed(&one.by), time = Arg::typed(in_utc(one.at)), why = Arg::typed(&one.why)))) }
                form.no-print method="post" action={ (path) "/unhide" } { (csrf(user)) button.key type="submit" { (w.say("office-quarantine-show")) } }
            }
        } @else if phantom {
            section #hidden {
                h2 { (w.say("office-quarantine-phantom")) }
                p { (w.say("office-quarantine-phantom-note")) }
                form.stack.no-print method="post" action={ (path) "/hide" } {
                    (csrf(user))
                    label for="why" { (w.say("office-quarantine-why")) } input.field id="why" name="why" required maxlength=(LONGEST_REASON);
                    button.key type="submit" { (w.say("office-quarantine-hide")) }
                }
            }
        }
    }
}

/// Returns whether no enrolled device opened the record.
///
/// # Errors
/// Returns [`PageError`] when the ledger cannot be read.
pub async fn is_phantom(office: &Office, shown: &Shown) -> Result<bool, PageError> {
    let authority = office.on_index(|asking| asking.authority()).await?;
    Ok(hidden::is_phantom(&shown.entries, &shown.received, &authority))
}

/// The form with the reason for hiding a record.
#[derive(Debug, Deserialize)]
pub struct Reason {
    why: String,
}

/// `POST /office/visits/{visit}/hide`: hides the record.
pub async fn hide(
    State(office): State<Arc<Office>>,
    Path(visit): Path<String>,
    reader: RecordViewer,
    CsrfForm { user, form, .. }: CsrfForm<Reason>,
) -> Result<Response, PageError> {
    let why: String = form.why.trim().chars().filter(|c| !c.is_control()).take(LONGEST_REASON).collect();
    if why.is_empty() {
        return Err(PageError::BadForm(message!("office-quarantine-say-why")));
    }
    let (_, shown) = visit::open(&office, reader, &visit).await?;
    if !is_phantom(&office, &shown).await? {
        return Err(PageError::NotAllowed(message!("office-quarantine-enrolled")));
    }
    let (by, at) = (user.name.clone(), office.now());
    let visits = shown.view.header.visits.iter();
    let rows = visits.map(|visit| Hidden { visit: *visit, why: why.clone(), by: by.clone(), at });
    let rows: Vec<Hidden> = rows.collect();
    let here = read_visit(&visit)?;
    changed(&office, move |database| hidden::hide(database, &rows)).await?;
    frame::note(&office, &user, "kept out of the lists", &format!("visit:{here}")).await?;
    Ok(see_other(&path_of(here)))
}

/// `POST /office/visits/{visit}/unhide`: shows the record again.
pub async fn unhide(
    State(office): State<Arc<Office>>,
    Path(visit): Path<String>,
    reader: RecordViewer,
    CsrfForm { user, .. }: CsrfForm<super::visit_acts::Nothing>,
) -> Result<Response, PageError> {
    let (_, shown) = visit::open(&office, reader, &visit).await?;
    let visits: Vec<VisitId> = shown.view.header.visits.clone();
    let here = read_visit(&visit)?;
    changed(&office, move |database| hidden::show_again(database, &visits)).await?;
    frame::note(&office, &user, "showed in the lists again", &format!("visit:{here}")).await?;
    Ok(see_other(&path_of(here)))
}

/// Changes which records are hidden, and updates the index accordingly.
async fn changed(
    office: &Office,
    change: impl FnOnce(&rusqlite::Connection) -> Result<(), crate::database_error::DatabaseError>
    + Send
    + 'static,
) -> Result<(), PageError> {
    let hidden = office
        .on_database(move |database| {
            database.in_one_step(change)?;
            hidden::list(database.connection())
        })
        .await?;
    office.index.leave_out(hidden.into_iter().map(|one| one.visit));
    let _ = office.news.send(()); // an error only means that there are no listeners
    Ok(())
}
