//! The page of late entries: each entry that a revoked device delivered as a sentence, with the forms to
//! admit the entry or to withdraw the admission.

use std::sync::{Arc, PoisonError};

use axum::extract::{Path, State};
use axum::response::Response;
use farsiding_core::book::Draft;
use farsiding_core::entry::Statement;
use farsiding_core::ids::{EntryId, Subject};
use farsiding_core::{Arg, Message, message};
use maud::{Markup, html};
use serde::Deserialize;

use super::frame::{self, CsrfForm, OfficeUser, Place, Settles, csrf, in_utc};
use super::page_error::PageError;
use super::sign_in::see_other;
use super::visit::path_of;
use super::visit_acts::refused_by_desk;
use crate::late::{self, LateDevice, LateEntry, MOST_OF_A_DEVICE, is_before_the_last};
use crate::office_signer;
use crate::state::Office;

/// `GET /office/late`: shows the late entries.
pub async fn show(State(office): State<Arc<Office>>, user: OfficeUser) -> Result<Response, PageError> {
    frame::note(&office, &user, "looked", "late entries").await?;
    let devices = office.on_database(|database| database.devices()).await?;
    let now = office.now();
    let found = office.on_index(move |asking| late::of_office(asking, &devices, now)).await?;
    let w = user.words;
    let title = w.say("office-late-title");
    let body = html! {
        h1 { (title) }
        p.lead { (w.say("office-late-lead")) }
        @if found.is_empty() { p.none { (w.say("office-late-none")) } }
        @for device in &found { (of_device(&user, device)) }
    };
    Ok(frame::page(&user, &title, Place::Devices, body))
}

fn of_device(user: &OfficeUser, late: &LateDevice) -> Markup {
    let device = &late.device;
    let w = user.words;
    html! {
        section {
            h2 { (device.name) @if let Some(at) = device.revoked_at { small { " · " (w.text(&message!("office-late-revoked", time = Arg::typed(in_utc(at))))) } } }
            p.small {
                (w.text(&message!("office-late-count", count = late.entries.len())))
                @if late.more { " · " (w.text(&message!("office-late-more", count = MOST_OF_A_DEVICE))) }
                @if let Some(last) = device.last { " · " (w.text(&message!("office-late-last", number = Arg::typed(last.seq.to_string())))) }
            }
            ul.plain.late { @for entry in &late.entries { (of_entry(user, late, entry)) } }
        }
    }
}

fn of_entry(user: &OfficeUser, late: &LateDevice, entry: &LateEntry) -> Markup {
    let id = entry.held.entry.id;
    let body = &entry.held.entry.body;
    let w = user.words;
    let about = w.text(&entry.about);
    html! {
        li.plate id={ "entry-" (id) } {
            p { b { (w.text(&entry.sentence)) } @if !body.why.is_empty() { " " (w.text(&message!("office-late-why", why = Arg::typed(&body.why)))) } }
            dl.facts {
                dt { (w.say("office-late-by")) } dd { (w.text(&entry.claimed)) small { ", " (w.say("office-late-claimed")) } }
                dt { (w.say("office-late-came")) } dd { @match entry.held.received_at { Some(at) => { (in_utc(at)) } None => { (w.say("office-late-unknown")) } } }
                dt { (w.say("office-late-about")) } dd { @match body.about { Subject::Visit(visit) => { a href=(path_of(visit)) { (about) } } _ => { (about) } } }
                dt { (w.say("office-late-number")) } dd {
                    (body.seq)
                    @if is_before_the_last(&late.device, &entry.held.entry) { ", " (w.say("office-late-before-last")) }
                }
            }
            @match &entry.admitted {
                Some(admission) => {
                    p { (w.text(&message!("office-late-admitted", by = Arg::typed(&admission.by.0), time = Arg::typed(in_utc(admission.at)), why = Arg::typed(&admission.why)))) }
                    form.row.no-print method="post" action={ "/office/late/" (id) "/withdraw" } {
                        (csrf(user))
                        label.label for={ "back-" (id) } { (w.say("office-late-why-back")) }
                        div { input.field id={ "back-" (id) } name="why" required maxlength="1000"; }
                        button.key type="submit" { (w.say("office-late-take-back")) }
                    }
                }
                None => {
                    form.row.no-print method="post" action={ "/office/late/" (id) "/admit" } {
                        (csrf(user))
                        label.label for={ "why-" (id) } { (w.say("office-late-why-admit")) }
                        div { input.field id={ "why-" (id) } name="why" required maxlength="1000"; }
                        button.key type="submit" { (w.say("office-late-admit")) }
                    }
                }
            }
        }
    }
}

/// The form with the reason for admitting an entry or withdrawing the admission.
#[derive(Debug, Deserialize)]
pub struct Reason {
    #[serde(default)]
    why: String,
}

impl Reason {
    fn read(&self) -> Result<String, PageError> {
        let why = self.why.trim();
        if why.is_empty() || why.chars().count() > 1000 {
            return Err(PageError::BadForm(message!("office-late-reason")));
        }
        Ok(why.to_owned())
    }
}

/// `POST /office/late/{entry}/admit`: admits the entry.
pub async fn admit(
    State(office): State<Arc<Office>>,
    Path(entry): Path<String>,
    CsrfForm { user, form, .. }: CsrfForm<Reason, Settles>,
) -> Result<Response, PageError> {
    let why = form.read()?;
    decide(&office, &user, &entry, "let in", move |entry, admitted| match admitted {
        None => Ok(late::admitting(entry, &why)),
        Some(_) => Err(message!("office-late-already")),
    })
    .await
}

/// `POST /office/late/{entry}/withdraw`: withdraws the admission.
pub async fn withdraw(
    State(office): State<Arc<Office>>,
    Path(entry): Path<String>,
    CsrfForm { user, form, .. }: CsrfForm<Reason, Settles>,
) -> Result<Response, PageError> {
    let why = form.read()?;
    decide(&office, &user, &entry, "took back letting in", move |entry, admitted| match admitted {
        Some(word) => {
            let slot = Statement::Admitted { entry }.slot();
            let draft = Draft::instead_of(Statement::Withdrawn {}, vec![word], &why);
            Ok(Draft { slot, ..draft })
        }
        None => Err(message!("office-late-not-now")),
    })
    .await
}

/// Signs the office's decision about a late entry into the entry's own document.
async fn decide(
    office: &Arc<Office>,
    user: &OfficeUser,
    entry: &str,
    did: &str,
    draft: impl FnOnce(EntryId, Option<EntryId>) -> Result<Draft, Message> + Send + 'static,
) -> Result<Response, PageError> {
    let not_there = || PageError::NotThere(message!("office-late-no-such"));
    let id = EntryId::read(entry).map_err(|_| not_there())?;
    let (key, clock, index) = (office.key.clone(), office.clock.clone(), Arc::clone(&office.index));
    let (folder, database) = (office.folder.clone(), Arc::clone(&office.database));
    let by = user.name.clone();
    let outcome = office
        .on_ledger(move |ledger| {
            let mut database = database.lock().unwrap_or_else(PoisonError::into_inner);
            let devices = database.devices().map_err(PageError::failed)?;
            // The ledger's lock is held, so that nobody decides about the same entry meanwhile.
            let found = index.ask(|asking| {
                let Some(held) = asking.ledger.entry(id)? else { return Ok(None) };
                let authority = asking.ledger.authority(&key.public(), clock.time())?;
                let admitted = late::admissions(asking.ledger, &authority, held.entry.body.about)?;
                Ok(Some((held, admitted.get(&id).map(|admission| admission.entry))))
            });
            let (held, admitted) = found.map_err(PageError::failed)?.ok_or_else(not_there)?;
            let late = devices.iter().any(|device| late::is_late(device, &held.entry, held.received_at));
            if !late {
                return Err(not_there());
            }
            let draft = draft(id, admitted).map_err(PageError::NotAllowed)?;
            let what = (held.entry.body.about, draft, by.as_str());
            let store = ledger.store_mut();
            let made = office_signer::sign_into(&folder, (&mut database, store), &key, &clock, what)
                .map_err(refused_by_desk)?;
            let position = ledger.store().newest_position().map_err(PageError::failed)?;
            office_signer::seen(&folder, &mut database, position, clock.time()).map_err(PageError::failed)?;
            Ok::<_, PageError>((made, held.entry.body.about))
        })
        .await?;
    let (made, about) = outcome?;
    tracing::info!(entry = made.short(), "decided about a late entry");
    let _ = office.hints.send(()); // an error only means that there are no listeners
    let subject = match about {
        Subject::Visit(visit) => format!("visit:{visit}"),
        _ => format!("entry:{id}"),
    };
    frame::note(office, user, &format!("{did} late entry {}", id.short()), &subject).await?;
    Ok(see_other("/office/late"))
}
