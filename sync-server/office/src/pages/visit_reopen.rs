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
use maud::{Markup, html};
use serde::Deserialize;

use super::frame::{self, CsrfForm, OfficeUser, Settles, csrf};
use super::refused::Refused;
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
    html! {
        @if user.may(Right::Settle) {
            details.no-print {
                summary { "Reopen" }
                form.stack method="post" action={ (path) "/reopen" } {
                    (csrf(user))
                    input type="hidden" name="settlement" value=(settlement);
                    label for=(id) { "Why it is open again" }
                    textarea.field id=(id) name="why" maxlength="1000" required {}
                    p.small { "The settlement stays in the record, with your reason; the accounts it settled differ again." }
                    button type="submit" { "Reopen" }
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
) -> Result<Response, Refused> {
    let id = read_visit(&visit)?;
    let settlement = EntryId::read(form.settlement.trim())
        .map_err(|_| Refused::BadForm("Choose which settlement is taken back.".to_owned()))?;
    let why = form.why.trim().to_owned();
    if why.is_empty() || why.chars().count() > 1000 {
        let words = "Say in up to 1000 characters why it is open again: the record keeps the reason.";
        return Err(Refused::BadForm(words.to_owned()));
    }
    let (index, key, clock) = (Arc::clone(&office.index), office.key.clone(), office.clock.clone());
    let (folder, database) = (office.folder.clone(), Arc::clone(&office.database));
    let by = user.name.clone();
    let made = office
        .on_ledger(move |ledger| {
            // The ledger's lock is held, so that the settlement is still in the record at this moment.
            let now = clock.time();
            let shown = index.ask(|asking| asking.show(id, now)).map_err(Refused::failed)?;
            let shown = shown.ok_or_else(|| Refused::NotThere("There is no such record.".to_owned()))?;
            let draft = Draft::reopening(&shown.view, settlement, &why)
                .map_err(|error| Refused::NotAllowed(error.to_string()))?;
            let settled = shown.entries.iter().find(|entry| draft.replaces.contains(&entry.id));
            let Some(Subject::Visit(home)) = settled.map(|entry| entry.body.about) else {
                return Err(Refused::NotThere("There is no such settlement.".to_owned()));
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
            let position = ledger.store().newest_position().map_err(Refused::failed)?;
            office_signer::seen(&folder, &mut database, position, now).map_err(Refused::failed)?;
            Ok::<EntryId, Refused>(made)
        })
        .await??;
    tracing::info!(entry = made.short(), "reopened at the office");
    let _ = office.hints.send(()); // an error only means that there are no listeners
    frame::note(&office, &user, "reopened", &format!("visit:{id}")).await?;
    Ok(see_other(&path_of(id)))
}
