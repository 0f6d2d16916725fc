//! The page of accounts and open links, and the page of the audit: who looked at what, and when.
//!
//! Accounts are created, given roles and disabled on the server's command line. A link is revoked on the page
//! of its record.

use std::sync::Arc;

use axum::extract::{Path, Query, State};
use axum::response::Response;
use farsiding_core::ids::{Digest, VisitId};
use maud::{Markup, html};
use serde::Deserialize;

use super::frame::{self, Administers, Allowed, CsrfForm, OfficeUser, Place, csrf, in_utc, plural};
use super::refused::Refused;
use super::see_other;
use super::user::as_register;
use super::visit_acts::Nothing;
use crate::accounts::audit;
use crate::accounts::people::Account;
use crate::accounts::roles::AccountRole;
use crate::accounts::second_factor::{self, Standing};
use crate::accounts::{links, people};
use crate::audit_chain;
use crate::audit_chain::Looked;
use crate::state::Office;

/// The number of audit rows on one page.
const SHOWN: usize = 100;
/// The longest text that can be searched for in the audit, in characters.
const LONGEST: usize = 120;

/// `GET /office/accounts`: shows the accounts and the open links.
pub async fn show(
    State(office): State<Arc<Office>>,
    Allowed { user, .. }: Allowed<Administers>,
) -> Result<Response, Refused> {
    frame::note(&office, &user, "looked", "accounts").await?;
    let now = office.now();
    let (accounts, links, required) = office
        .on_database(move |database| {
            let connection = database.connection();
            let mut accounts = Vec::new();
            for account in people::list(connection).map_err(as_register)? {
                let standing = second_factor::standing(connection, account.number).map_err(as_register)?;
                accounts.push((account, standing));
            }
            let links = links::good(connection, now).map_err(as_register)?;
            Ok((accounts, links, database.second_factor_required()?))
        })
        .await?;
    let body = html! {
        div.row.apart { h1 { "Accounts" } a.key.no-print href="/office/audit" { "Who looked at what" } }
        p.lead { "Accounts are made, given a role or a new password, and disabled on the server: " code { "farsiding account" } "." }
        div.wide tabindex="0" role="region" aria-label="Accounts" { table {
            thead { tr { th scope="col" { "Name" } th scope="col" { "Role" } th scope="col" { "Since" } th scope="col" { "State" } th scope="col" { "Second factor" } } }
            tbody { @for (account, standing) in &accounts { tr {
                th scope="row" { (account.name) @if account.name == user.name { small { " · you" } } }
                td { @match account.role { Some(role) => { (role.as_str()) } None => { span.hot { "of a later version: may nothing" } } } }
                td { (in_utc(account.made_at)) }
                td { @match account.disabled_at { Some(at) => { span.hot { "disabled" } " " (in_utc(at)) } None => { "may sign in" } } }
                td { (factor(&user, account, *standing, required)) }
            } } }
        } }
        section {
            h2 { "What each role may do" }
            dl.facts { @for role in AccountRole::ALL { dt { (role.as_str()) } dd { (role.words()) } } }
        }
        section.no-print {
            h2 { "A second factor for everybody" }
            form.stack method="post" action="/office/accounts/second-factor" {
                (csrf(&user))
                @if required {
                    p { "Everybody who signs in needs one. Who has none yet sets it up before anything else opens." }
                    input type="hidden" name="required" value="no";
                    button.key type="submit" { "Leave it to each person" }
                } @else {
                    p { "Each person decides for their own account. If everybody needs one, who has none sets it up before anything else opens; you too." }
                    input type="hidden" name="required" value="yes";
                    button.key type="submit" { "Ask everybody for one" }
                }
            }
        }
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
    Ok(frame::page(&user, "Accounts", Place::Accounts, body))
}

fn factor(user: &OfficeUser, account: &Account, standing: Standing, required: bool) -> Markup {
    html! {
        @match standing.since {
            None if required && account.disabled_at.is_none() => { span.hot { "not set up yet" } }
            None => { "none" }
            Some(since) => {
                "since " (in_utc(since)) ", " (plural(standing.codes_left, "recovery code", "recovery codes"))
                details.no-print {
                    summary { "Reset" }
                    form.stack method="post" action={ "/office/accounts/" (account.number) "/second-factor" } {
                        (csrf(user))
                        p.small { "For a lost telephone. " (account.name) " is signed out, and the password alone opens the account until another is set up." }
                        button.key.stop type="submit" { "Reset it for " (account.name) }
                    }
                }
            }
        }
    }
}

/// The form that sets whether everybody needs a second factor.
#[derive(Debug, Deserialize)]
pub struct Requiring {
    required: String,
}

/// `POST /office/accounts/second-factor`: sets whether everybody needs a second factor.
pub async fn require_factor(
    State(office): State<Arc<Office>>,
    CsrfForm { user, form, .. }: CsrfForm<Requiring, Administers>,
) -> Result<Response, Refused> {
    let required = match form.required.as_str() {
        "yes" => true,
        "no" => false,
        _ => return Err(Refused::BadForm("Say whether everybody needs a second factor.".to_owned())),
    };
    let did = if required { "asked everybody for a second factor" } else { "left the second factor to each" };
    // The audit row is written first, so that nothing is done that could not be recorded.
    frame::note(&office, &user, did, "").await?;
    office.on_database(move |database| database.require_second_factor(required)).await?;
    Ok(see_other("/office/accounts"))
}

/// `POST /office/accounts/{number}/second-factor`: removes the second factor of somebody whose telephone is
/// lost.
pub async fn reset_factor(
    State(office): State<Arc<Office>>,
    Path(number): Path<i64>,
    CsrfForm { user, .. }: CsrfForm<Nothing, Administers>,
) -> Result<Response, Refused> {
    let found = office
        .on_database(move |database| people::by_number(database.connection(), number).map_err(as_register))
        .await?;
    let (account, _) = found.ok_or_else(|| Refused::NotThere("There is no such account.".to_owned()))?;
    frame::note(&office, &user, "reset a second factor", &format!("account:{}", account.name)).await?;
    office
        .on_database(move |database| {
            people::reset_second_factor(database.connection_mut(), &account.name).map_err(as_register)
        })
        .await?;
    Ok(see_other("/office/accounts"))
}

/// The search in the audit: the text, and the row below which to continue.
#[derive(Debug, Default, Deserialize)]
pub struct Asked {
    #[serde(default)]
    q: String,
    #[serde(default)]
    before: Option<i64>,
}

/// `GET /office/audit`: shows the audit.
pub async fn audit(
    State(office): State<Arc<Office>>,
    Allowed { user, .. }: Allowed<Administers>,
    Query(asked): Query<Asked>,
) -> Result<Response, Refused> {
    frame::note(&office, &user, "looked", "audit").await?;
    let holds: String = asked.q.trim().chars().take(LONGEST).collect();
    let (wanted, before) = (holds.clone(), asked.before.unwrap_or(i64::MAX));
    let (rows, head) = office
        .on_database(move |database| {
            let rows = audit::newest(database.connection(), &wanted, before, SHOWN)?;
            Ok((rows, audit_chain::head(database.connection())?))
        })
        .await?;
    let last = rows.last().filter(|_| rows.len() == SHOWN).map(|(number, _)| *number);
    let body = html! {
        h1 { "Who looked at what" }
        p { "Each row seals the one before it. The newest now: " code { (head) } }
        p.small { "Write it down elsewhere, and " code { "farsiding audit check --head" } " says later whether a row up to it was changed or taken out." }
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
    Ok(frame::page(&user, "Who looked at what", Place::Accounts, body))
}

/// Returns the subject of a row. A visit is a link to its record.
fn subject(row: &Looked) -> Markup {
    let visit = row.subject.strip_prefix("visit:").and_then(|id| VisitId::read(id).ok());
    let photo = row.subject.strip_prefix("photo:").and_then(|rest| rest.split_once(" visit:"));
    let photo =
        photo.and_then(|(photo, visit)| Some((Digest::read(photo).ok()?, VisitId::read(visit).ok()?)));
    html! {
        @match (visit, row.subject.as_str()) {
            _ if photo.is_some() => {
                @if let Some((photo, visit)) = photo { a href={ "/office/visits/" (visit) } { "photograph " (photo.short()) " of record " (visit.short()) } }
            }
            (Some(visit), _) => { a href={ "/office/visits/" (visit) } { "record " (visit.short()) } }
            (None, "") => { "—" }
            (None, text) => { (shortened(text)) }
        }
    }
}

/// Returns a subject in words: its kind and the beginning of its id.
fn shortened(text: &str) -> String {
    match text.split_once(':') {
        Some((of, id)) if id.len() >= 32 && id.bytes().all(|b| b.is_ascii_hexdigit()) => {
            format!("{of} {}", id.get(..8).unwrap_or(id))
        }
        Some((of @ ("papers" | "mail" | "site" | "reconcile" | "seal" | "account"), what)) => {
            format!("{of} {what}")
        }
        _ => text.to_owned(),
    }
}
