//! The page that an inspector's link leads to.

use std::sync::Arc;

use axum::extract::{Path, State};
use axum::http::{HeaderMap, StatusCode};
use axum::response::Response;
use maud::html;

use super::form_check::check_from_here;
use super::frame;
use super::refused::Refused;
use super::sign_in::{begin, enter};
use super::user::as_register;
use crate::accounts::{links, sessions};
use crate::audit_chain::Looked;
use crate::state::Office;

const LINK_IS_OVER: &str = "This link opens nothing: it has run out, was revoked, or is not whole. \
                            Ask the office that gave it to you for a new one.";

/// `GET /office/link/{secret}`: says what the link opens. The session begins only with the button, so that
/// programs that fetch links in letters in advance open nothing.
pub async fn door(
    State(office): State<Arc<Office>>,
    Path(secret): Path<String>,
) -> Result<Response, Refused> {
    let link = find_link(&office, secret.clone()).await?;
    let Some(link) = link.filter(|link| link.is_good(office.now())) else {
        return Err(Refused::NotThere(LINK_IS_OVER.to_owned()));
    };
    let body = html! {
        h1 { "A record is open to you" }
        p.lead { "For " b { (link.label) } ", by " (link.made_by) ", until " b { (frame::in_utc(link.expires_at)) } "." }
        p { "It opens one record and its packet. The office sees that you looked, and when." }
        form.stack method="post" action={ "/office/link/" (secret) } {
            button.go type="submit" { "Open the record" }
        }
    };
    Ok(frame::bare(StatusCode::OK, "A record is open to you", body))
}

/// `POST /office/link/{secret}`: begins the inspector's session.
pub async fn open(
    State(office): State<Arc<Office>>,
    Path(secret): Path<String>,
    headers: HeaderMap,
) -> Result<Response, Refused> {
    check_from_here(&headers)?;
    let link = find_link(&office, secret).await?;
    let Some(link) = link.filter(|link| link.is_good(office.now())) else {
        return Err(Refused::NotThere(LINK_IS_OVER.to_owned()));
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

async fn find_link(office: &Office, secret: String) -> Result<Option<links::Link>, Refused> {
    let found = office
        .on_database(move |database| links::by_secret(database.connection(), &secret).map_err(as_register));
    Ok(found.await?)
}
