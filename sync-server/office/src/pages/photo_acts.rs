//! The form on a stay's page that removes a photograph's file. It needs an administrator and a reason, and is
//! written to the audit.
//!
//! The removal itself is in `photo_removal`.

use std::sync::Arc;

use axum::extract::{Path, State};
use axum::response::Response;
use farsiding_core::ids::Digest;
use farsiding_core::{Arg, message};
use farsiding_words::Words;
use maud::{Markup, html};
use serde::Deserialize;

use super::frame::{self, Administers, CsrfForm, OfficeUser, RecordViewer, csrf};
use super::page_error::PageError;
use super::sign_in::see_other;
use super::visit::{self, path_of, read_visit};
use crate::accounts::roles::Right;
use crate::photo_removal::{self, RemovalError, Removed};
use crate::state::Office;

/// The form with the reason for the removal.
#[derive(Debug, Deserialize)]
pub struct Reason {
    why: String,
}

/// Returns what is shown in place of a removed photograph.
pub fn gone(w: &Words, removed: &Removed) -> Markup {
    html! {
        div.not-here {
            (w.text(&message!(
                "office-photos-removed",
                by = Arg::typed(&removed.by),
                time = Arg::typed(farsiding_core::clock::UtcMillis(removed.at).rfc3339()),
                why = Arg::typed(farsiding_core::text::own(&removed.why))
            )))
        }
    }
}

/// Returns the form below a photograph, for people who may remove it.
pub fn form(user: &OfficeUser, path: &str, digest: Digest) -> Markup {
    let w = user.words;
    html! {
        @if user.may(Right::Administer) {
            details.no-print {
                summary { (w.say("office-photos-remove")) }
                form.stack method="post" action={ (path) "/photos/" (digest) "/remove" } {
                    (csrf(user))
                    p.small {
                        (w.say("office-photos-remove-note"))
                    }
                    label { (w.say("office-photos-why")) input.field name="why" required maxlength="400"; }
                    button.key type="submit" { (w.say("office-photos-remove-it")) }
                }
            }
        }
    }
}

/// `POST /office/visits/{visit}/photos/{sha256}/remove`: removes the photograph.
pub async fn remove(
    State(office): State<Arc<Office>>,
    Path((visit, sha256)): Path<(String, String)>,
    reader: RecordViewer,
    CsrfForm { user, form, .. }: CsrfForm<Reason, Administers>,
) -> Result<Response, PageError> {
    let missing = || PageError::NotThere(message!("office-photos-not-in-record"));
    let digest = Digest::read(&sha256).map_err(|_| missing())?;
    let (_, shown) = visit::open(&office, reader, &visit).await?;
    if !shown.view.photos.iter().any(|photo| photo.photo.sha256 == digest) {
        return Err(missing());
    }
    let here = read_visit(&visit)?;
    let (by, now, folder) = (user.name.clone(), office.now(), office.folder.photo_folder());
    let done = office
        .on_ledger(move |ledger| {
            photo_removal::remove(ledger.store_mut(), &folder, digest, (&by, &form.why), now)
        })
        .await?;
    match done {
        Ok(_) => {}
        Err(RemovalError::NoReason) => {
            return Err(PageError::BadForm(message!("office-photos-say-why")));
        }
        Err(RemovalError::Before(_)) => {
            return Err(PageError::NotAllowed(message!("office-photos-removed-before")));
        }
        Err(RemovalError::Unknown(_)) => {
            return Err(PageError::NotAllowed(message!("office-photos-not-in-record")));
        }
        Err(error) => return Err(PageError::failed(error)),
    }
    let subject = format!("photo:{digest} visit:{here}");
    frame::note(&office, &user, "removed a photograph", &subject).await?;
    let _ = office.news.send(()); // an error only means that there are no listeners
    Ok(see_other(&path_of(here)))
}
