//! Who may sign in, which links stand open, and the audit: who looked at what, and when.
//!
//! Accounts are made and disabled on the server's command line; a link is revoked on its record's page.

use std::sync::Arc;

use axum::extract::{Query, State};
use axum::response::Response;
use farsiding_core::ids::VisitId;
use maud::{Markup, html};
use serde::Deserialize;

use super::frame::{self, Place, Visitor, in_utc};
use super::refused::Refused;
use super::visitor::as_register;
use crate::office::accounts::audit::{self, Looked};
use crate::office::accounts::{links, people};
use crate::office::http::Office;
use crate::office::register::role_word;

/// Rows of the audit on one page.
const SHOWN: usize = 100;
/// The longest text looked for in the audit.
const LONGEST: usize = 120;

/// `GET /office/accounts`.
pub async fn show(State(office): State<Arc<Office>>, visitor: Visitor) -> Result<Response, Refused> {
    frame::note(&office, &visitor, "looked", "accounts").await?;
    let now = office.now();
    let (accounts, links) = office
        .on_register(move |register| {
            let accounts = people::list(register.connection()).map_err(as_register)?;
            Ok((accounts, links::good(register.connection(), now).map_err(as_register)?))
        })
        .await?;
    let body = html! {
        div.row.apart { h1 { "Accounts" } a.key.no-print href="/office/audit" { "Who looked at what" } }
        p.lead { "Accounts are made, given a new password and disabled on the server: " code { "farsiding account" } "." }
        div.wide tabindex="0" role="region" aria-label="Accounts" { table {
            thead { tr { th scope="col" { "Name" } th scope="col" { "May" } th scope="col" { "Since" } th scope="col" { "State" } } }
            tbody { @for account in &accounts { tr {
                th scope="row" { (account.name) @if account.name == visitor.name { small { " · you" } } }
                td { (role_word(account.role)) }
                td { (in_utc(account.made_at)) }
                td { @match account.disabled_at { Some(at) => { span.hot { "disabled" } " " (in_utc(at)) } None => { "may sign in" } } }
            } } }
        } }
        section {
            h2 { "Links that stand open" }
            @if links.is_empty() { p.none { "None: nobody outside can read a record." } } @else {
                div.wide tabindex="0" role="region" aria-label="Links" { table {
                    thead { tr { th scope="col" { "For whom" } th scope="col" { "Opens" } th scope="col" { "Made" } th scope="col" { "Good until" } } }
                    tbody { @for link in &links { tr {
                        th scope="row" { (link.label) }
                        td { a href={ "/office/visits/" (link.visit) "#doors" } { "record " (link.visit.short()) } }
                        td { (in_utc(link.made_at)) ", " (link.made_by) }
                        td { (in_utc(link.expires_at)) }
                    } } }
                } }
            }
        }
    };
    Ok(frame::page(&visitor, "Accounts", Place::Accounts, body))
}

/// What is looked for in the audit, and below which row.
#[derive(Debug, Default, Deserialize)]
pub struct Asked {
    #[serde(default)]
    q: String,
    #[serde(default)]
    before: Option<i64>,
}

/// `GET /office/audit`.
pub async fn audit(
    State(office): State<Arc<Office>>,
    visitor: Visitor,
    Query(asked): Query<Asked>,
) -> Result<Response, Refused> {
    frame::note(&office, &visitor, "looked", "audit").await?;
    let holds: String = asked.q.trim().chars().take(LONGEST).collect();
    let (wanted, before) = (holds.clone(), asked.before.unwrap_or(i64::MAX));
    let rows = office
        .on_register(move |register| audit::newest(register.connection(), &wanted, before, SHOWN))
        .await?;
    let last = rows.last().filter(|_| rows.len() == SHOWN).map(|(number, _)| *number);
    let body = html! {
        h1 { "Who looked at what" }
        form.row.no-print role="search" method="get" action="/office/audit" {
            label.label for="q" { "Name, deed or record" }
            div { input.field id="q" type="search" name="q" value=(holds) maxlength=(LONGEST) autocomplete="off"; }
            button.go type="submit" { "Find" }
        }
        @if rows.is_empty() { p.none { "Nothing of the kind was noted." } } @else {
            div.wide tabindex="0" role="region" aria-label="The audit" { table {
                caption { "Newest first. A row is only ever added." }
                thead { tr { th scope="col" { "When" } th scope="col" { "Who" } th scope="col" { "As" } th scope="col" { "Did" } th scope="col" { "To what" } } }
                tbody { @for (_, row) in &rows { tr {
                    td.time { (in_utc(row.at)) }
                    th scope="row" { (row.who) }
                    td { (row.role) }
                    td { (row.did) }
                    td { (subject(row)) }
                } } }
            } }
        }
        @if let Some(last) = last {
            form.row.no-print method="get" action="/office/audit" {
                input type="hidden" name="q" value=(holds);
                input type="hidden" name="before" value=(last);
                button.key type="submit" { "Older" }
            }
        }
    };
    Ok(frame::page(&visitor, "Who looked at what", Place::Accounts, body))
}

/// What a row is about; a visit leads to its record.
fn subject(row: &Looked) -> Markup {
    let visit = row.subject.strip_prefix("visit:").and_then(|id| VisitId::read(id).ok());
    html! {
        @match (visit, row.subject.as_str()) {
            (Some(visit), _) => { a href={ "/office/visits/" (visit) } { "record " (visit.short()) } }
            (None, "") => { "—" }
            (None, text) => { (shortened(text)) }
        }
    }
}

/// A subject as words: what it is of, and of a long id its beginning.
fn shortened(text: &str) -> String {
    match text.split_once(':') {
        Some((of, id)) if id.len() >= 32 && id.bytes().all(|b| b.is_ascii_hexdigit()) => {
            format!("{of} {}", id.get(..8).unwrap_or(id))
        }
        Some((of @ ("papers" | "mail" | "site" | "reconcile" | "seal"), what)) => format!("{of} {what}"),
        _ => text.to_owned(),
    }
}
