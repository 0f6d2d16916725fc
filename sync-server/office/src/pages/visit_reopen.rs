//! The action on a visit's page that takes back a settlement. The accounts that it settled then stand against
//! each other again.
//!
//! The statement is signed by the office signer like the settlement itself, and the reason stays in the
//! record. Settling is in `visit_acts`.

use std::sync::{Arc, PoisonError};

use axum::extract::{Path, State};
use axum::response::Response;
use farsiding_core::book::Draft;
use farsiding_core::ids::{EntryId, Subject};
use farsiding_core::message;
use maud::{Markup, html};
use serde::Deserialize;

use super::frame::{self, CsrfForm, OfficeUser, Settles, csrf};
use super::page_error::PageError;
use super::sign_in::see_other;
use super::visit::{path_of, read_visit};
use super::visit_acts::refused_by_desk;
use crate::accounts::roles::Right;
use crate::office_signer;
use crate::state::Office;

/// The form that names a settlement, with the reason for taking it back.
#[derive(Debug, Deserialize)]
pub struct Reopening {
    settlement: String,
    why: String,
}

/// Returns the form, for people who may settle.
pub fn form(user: &OfficeUser, path: &str, settlement: EntryId) -> Markup {
    let id = format!("reopen-{}", settlement.short());
    let w = user.words;
    html! {
        @if user.may(Right::Settle) {
            details.no-print {
                summary { (w.say("office-visit-reopen")) }
                form.stack method="post" action={ (path) "/reopen" } {
                    (csrf(user))
                    input type="hidden" name="settlement" value=(settlement);
                    label for=(id) { (w.say("office-visit-reopen-why")) }
                    textarea.field id=(id) name="why" maxlength="1000" required {}
                    p.small { (w.say("office-visit-reopen-note")) }
                    button.key type="submit" { (w.say("office-visit-reopen")) }
                }
            }
        }
    }
}

/// `POST /office/visits/{visit}/reopen`: takes the settlement back.
pub async fn reopen(
    State(office): State<Arc<Office>>,
    Path(visit): Path<String>,
    CsrfForm { user, form, .. }: CsrfForm<Reopening, Settles>,
) -> Result<Response, PageError> {
    let id = read_visit(&visit)?;
    let settlement = EntryId::read(form.settlement.trim())
        .map_err(|_| PageError::BadForm(message!("office-visit-choose-settlement")))?;
    let why = form.why.trim().to_owned();
    if why.is_empty() || why.chars().count() > 1000 {
        return Err(PageError::BadForm(message!("office-visit-reopen-reason")));
    }
    let (index, key, clock) = (Arc::clone(&office.index), office.key.clone(), office.clock.clone());
    let (folder, database) = (office.folder.clone(), Arc::clone(&office.database));
    let by = user.name.clone();
    let made = office
        .on_ledger(move |ledger| {
            // The ledger's lock is held, so that the settlement is still in the record at this moment.
            let now = clock.time();
            let shown = index.ask(|asking| asking.show(id, now)).map_err(PageError::failed)?;
            let shown = shown.ok_or_else(|| PageError::NotThere(message!("office-visit-no-record")))?;
            let draft = Draft::reopening(&shown.view, settlement, &why)
                .map_err(|error| PageError::NotAllowed(error.message()))?;
            let settled = shown.entries.iter().find(|entry| draft.replaces.contains(&entry.id));
            let Some(Subject::Visit(home)) = settled.map(|entry| entry.body.about) else {
                return Err(PageError::NotThere(message!("office-visit-no-settlement")));
            };
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
        .await??;
    tracing::info!(entry = made.short(), "reopened at the office");
    let _ = office.hints.send(()); // an error only means that there are no listeners
    frame::note(&office, &user, "reopened", &format!("visit:{id}")).await?;
    Ok(see_other(&path_of(id)))
}
