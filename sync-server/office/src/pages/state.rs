//! The page with the state of the server for administrators: folder, disk space, keys, databases and the
//! audit chain.
//!
//! The checks and their meaning are in `health`; this file only shows them.

use std::sync::Arc;

use axum::extract::State;
use axum::response::Response;
use maud::{Markup, html};

use super::frame::{self, Administers, Allowed, CsrfForm, Place, csrf, in_utc};
use super::refused::Refused;
use super::see_other;
use super::visit_acts::Nothing;
use crate::health;
use crate::state::Office;
use crate::state::findings::Finding;

/// `GET /office/state`: shows the state.
pub async fn show(
    State(office): State<Arc<Office>>,
    Allowed { user, .. }: Allowed<Administers>,
) -> Result<Response, Refused> {
    frame::note(&office, &user, "looked", "state of the server").await?;
    let state = health::present(&office).await;
    let body = html! {
        div.row.apart { h1 { "State of the server" } a.key.no-print href="/office/state" { "Look again" } }
        @if state.is_well() {
            p.lead { "All is as it must be." }
        } @else {
            p.trouble role="alert" { "Something is not as it must be. What to do stands beside it." }
        }
        (table("Now", &state.quick))
        section {
            h2 { "Read through" }
            @match &state.read_through {
                Some((at, found)) => { p { "Last read " (in_utc(*at)) ", and once a day: every entry, photograph and hash of the log." } (table("Read through", found)) }
                None => { p.none { "Not read yet; the server does so by itself ten minutes after its start, then once a day." } }
            }
            form.no-print method="post" action="/office/state/check" {
                (csrf(&user))
                button.key type="submit" { "Read it through now" }
            }
        }
    };
    Ok(frame::page(&user, "State of the server", Place::Accounts, body))
}

fn table(label: &str, found: &[Finding]) -> Markup {
    html! {
        div.wide tabindex="0" role="region" aria-label=(label) { table {
            thead { tr { th scope="col" { "What" } th scope="col" { "Is" } th scope="col" { "Found" } } }
            tbody { @for finding in found { tr {
                th scope="row" { (finding.title) }
                td { @if finding.well { "well" } @else { span.hot { "not well" } } }
                td { (finding.words) }
            } } }
        } }
    }
}

/// `POST /office/state/check`: runs the full check.
pub async fn check(
    State(office): State<Arc<Office>>,
    CsrfForm { user, .. }: CsrfForm<Nothing, Administers>,
) -> Result<Response, Refused> {
    frame::note(&office, &user, "read the databases through", "").await?;
    health::read_through(&office).await;
    Ok(see_other("/office/state"))
}
