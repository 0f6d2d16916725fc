//! The page with the state of the server for administrators: folder, disk space, keys, databases and the
//! audit chain.
//!
//! The checks and their meaning are in `health`; this file only shows them.

use std::sync::Arc;

use axum::extract::State;
use axum::response::Response;
use farsiding_core::{Arg, message};
use farsiding_words::Words;
use maud::{Markup, html};

use super::frame::{self, Administers, Allowed, CsrfForm, Place, csrf, in_utc};
use super::page_error::PageError;
use super::see_other;
use super::visit_acts::Nothing;
use crate::health;
use crate::state::Office;
use crate::state::findings::Finding;

/// `GET /office/state`: shows the state.
pub async fn show(
    State(office): State<Arc<Office>>,
    Allowed { user, .. }: Allowed<Administers>,
) -> Result<Response, PageError> {
    frame::note(&office, &user, "looked", "state of the server").await?;
    let state = health::present(&office).await;
    let w = user.words;
    let title = w.say("office-state-title");
    let full = w.say("office-state-full");
    let body = html! {
        div.row.apart { h1 { (title) } a.key.no-print href="/office/state" { (w.say("office-state-refresh")) } }
        @if state.is_well() {
            p.lead { (w.say("office-state-well")) }
        } @else {
            p.trouble role="alert" { (w.say("office-state-unwell")) }
        }
        (table(w, &w.say("office-state-now"), &state.quick))
        section {
            h2 { (full) }
            @match &state.read_through {
                Some((at, found)) => { p { (w.text(&message!("office-state-last", time = Arg::typed(in_utc(*at))))) } (table(w, &full, found)) }
                None => { p.none { (w.say("office-state-never")) } }
            }
            form.no-print method="post" action="/office/state/check" {
                (csrf(&user))
                button.key type="submit" { (w.say("office-state-check-now")) }
            }
        }
    };
    Ok(frame::page(&user, &title, Place::Accounts, body))
}

fn table(w: &Words, label: &str, found: &[Finding]) -> Markup {
    html! {
        div.wide tabindex="0" role="region" aria-label=(label) { table {
            thead { tr { th scope="col" { (w.say("office-state-what")) } th scope="col" { (w.say("office-state-is")) } th scope="col" { (w.say("office-state-found")) } } }
            tbody { @for finding in found { tr {
                th scope="row" { (w.text(&finding.title())) }
                td { @if finding.well { (w.say("office-state-good")) } @else { span.hot { (w.say("office-state-bad")) } } }
                td { (w.text(&finding.says)) }
            } } }
        } }
    }
}

/// `POST /office/state/check`: runs the full check.
pub async fn check(
    State(office): State<Arc<Office>>,
    CsrfForm { user, .. }: CsrfForm<Nothing, Administers>,
) -> Result<Response, PageError> {
    frame::note(&office, &user, "read the databases through", "").await?;
    health::read_through(&office).await;
    Ok(see_other("/office/state"))
}
