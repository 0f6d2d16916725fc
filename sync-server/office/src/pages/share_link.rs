//! The page that an inspector's link leads to.

use std::sync::Arc;

use axum::extract::{Path, State};
use axum::http::{HeaderMap, StatusCode};
use axum::response::Response;
use farsiding_core::{Arg, message};
use maud::html;

use super::form_check::check_from_here;
use super::frame;
use super::page_error::PageError;
use super::reader::{self, PageWords};
use super::sign_in::{begin, enter};
use super::user::as_register;
use crate::accounts::{links, sessions};
use crate::audit_chain::Looked;
use crate::state::Office;

fn link_is_over() -> PageError {
    PageError::NotThere(message!("office-sign-in-link-over"))
}

/// `GET /office/link/{secret}`: says what the link opens. The session begins only with the button, so that
/// programs that fetch links in letters in advance open nothing.
pub async fn door(
    State(office): State<Arc<Office>>,
    PageWords(w): PageWords,
    Path(secret): Path<String>,
) -> Result<Response, PageError> {
    let link = find_link(&office, secret.clone()).await?;
    let Some(link) = link.filter(|link| link.is_good(office.now())) else {
        return Err(link_is_over());
    };
    let until = Arg::typed(frame::in_utc(link.expires_at));
    let (label, by) = (Arg::typed(link.label), Arg::typed(link.made_by));
    let lead = message!("office-sign-in-link-for", label = label, by = by, until = until);
    let title = w.say("office-sign-in-link-title");
    let here = format!("/office/link/{secret}");
    let body = html! {
        h1 { (title) }
        p.lead { (w.text(&lead)) }
        p { (w.say("office-sign-in-link-note")) }
        form.stack method="post" action=(here) {
            button.go type="submit" { (w.say("office-sign-in-link-open")) }
        }
        (reader::choice(w, &here))
    };
    Ok(frame::bare(StatusCode::OK, w, &title, body))
}

/// `POST /office/link/{secret}`: begins the inspector's session.
pub async fn open(
    State(office): State<Arc<Office>>,
    Path(secret): Path<String>,
    headers: HeaderMap,
) -> Result<Response, PageError> {
    check_from_here(&headers)?;
    let link = find_link(&office, secret).await?;
    let Some(link) = link.filter(|link| link.is_good(office.now())) else {
        return Err(link_is_over());
    };
    let row = Looked {
        at: office.now(),
        who: link.label.clone(),
        role: "inspector".to_owned(),
        did: "opened a link".to_owned(),
        subject: format!("visit:{}", link.visit),
    };
    let token = begin(&office, sessions::For::Link(link.number), &headers, row).await?;
    Ok(enter(&office, &token, &format!("/office/visits/{}", link.visit)))
}

async fn find_link(office: &Office, secret: String) -> Result<Option<links::Link>, PageError> {
    let found = office
        .on_database(move |database| links::by_secret(database.connection(), &secret).map_err(as_register));
    Ok(found.await?)
}
