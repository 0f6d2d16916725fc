//! The page of accounts and open links, and the page of the audit: who looked at what, and when.
//!
//! Accounts are created, given roles and disabled on the server's command line. A link is revoked on the page
//! of its record.

use std::sync::Arc;

use axum::extract::{Path, Query, State};
use axum::response::Response;
use farsiding_core::{Arg, message};
use maud::{Markup, html};
use serde::Deserialize;

use super::audit_words;
use super::frame::{self, Administers, Allowed, CsrfForm, OfficeUser, Place, csrf, in_utc};
use super::page_error::PageError;
use super::reader::own_name;
use super::see_other;
use super::user::as_register;
use super::visit_acts::Nothing;
use crate::accounts::audit;
use crate::accounts::people::Account;
use crate::accounts::roles::AccountRole;
use crate::accounts::second_factor::{self, Standing};
use crate::accounts::{links, people};
use crate::audit_chain;
use crate::state::Office;

/// The number of audit rows on one page.
const SHOWN: usize = 100;
/// The longest text that can be searched for in the audit, in characters.
const LONGEST: usize = 120;

/// The heads of the audit's table.
const AUDIT_HEADS: [&str; 5] =
    ["office-audit-when", "office-audit-who", "office-audit-as", "office-audit-did", "office-audit-subject"];

/// `GET /office/accounts`: shows the accounts and the open links.
pub async fn show(
    State(office): State<Arc<Office>>,
    Allowed { user, .. }: Allowed<Administers>,
) -> Result<Response, PageError> {
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
    let w = user.words;
    let title = w.say("office-accounts-title");
    let heads = [
        "office-accounts-name",
        "office-accounts-role",
        "office-accounts-since",
        "office-accounts-standing",
        "office-accounts-language",
        "office-accounts-factor",
    ];
    let link_heads =
        ["office-accounts-for", "office-accounts-opens", "office-accounts-made", "office-accounts-until"];
    let body = html! {
        div.row.apart { h1 { (title) } a.key.no-print href="/office/audit" { (w.say("office-accounts-audit")) } }
        p.lead { (w.say("office-accounts-lead")) " " code { "farsiding account" } }
        div.wide tabindex="0" role="region" aria-label=(title) { table {
            thead { tr { @for head in heads { th scope="col" { (w.say(head)) } } } }
            tbody { @for (account, standing) in &accounts { tr {
                th scope="row" { (account.name) @if account.name == user.name { small { " · " (w.say("office-accounts-you")) } } }
                td { @match account.role { Some(role) => { (w.text(&role.term())) } None => { span.hot { (w.say("office-accounts-later-role")) } } } }
                td { (in_utc(account.made_at)) }
                td { @match account.disabled_at { Some(at) => { span.hot { (w.text(&message!("office-accounts-disabled", time = Arg::typed(in_utc(at))))) } } None => { (w.say("office-accounts-may")) } } }
                td { @match account.language { Some(language) => { span lang=(language) { (own_name(language)) } } None => { (w.say("office-accounts-language-organisation")) } } }
                td { (factor(&user, account, *standing, required)) }
            } } }
        } }
        section {
            h2 { (w.say("office-accounts-roles")) }
            dl.facts { @for role in AccountRole::ALL { dt { (w.text(&role.term())) } dd { (w.text(&role.allows())) } } }
        }
        section.no-print {
            h2 { (w.say("office-accounts-everybody")) }
            form.stack method="post" action="/office/accounts/second-factor" {
                (csrf(&user))
                @if required {
                    p { (w.say("office-accounts-required")) }
                    input type="hidden" name="required" value="no";
                    button.key type="submit" { (w.say("office-accounts-leave")) }
                } @else {
                    p { (w.say("office-accounts-optional")) }
                    input type="hidden" name="required" value="yes";
                    button.key type="submit" { (w.say("office-accounts-require")) }
                }
            }
        }
        section {
            h2 { (w.say("office-accounts-links")) }
            @if links.is_empty() { p.none { (w.say("office-accounts-no-links")) } } @else {
                div.wide tabindex="0" role="region" aria-label=(w.say("office-accounts-links-label")) { table {
                    thead { tr { @for head in link_heads { th scope="col" { (w.say(head)) } } } }
                    tbody { @for link in &links { tr {
                        th scope="row" { (link.label) }
                        td { a href={ "/office/visits/" (link.visit) "#doors" } { (audit_words::record(w, link.visit)) } }
                        td { (in_utc(link.made_at)) ", " (link.made_by) }
                        td { (in_utc(link.expires_at)) }
                    } } }
                } }
            }
        }
    };
    Ok(frame::page(&user, &title, Place::Accounts, body))
}

fn factor(user: &OfficeUser, account: &Account, standing: Standing, required: bool) -> Markup {
    let w = user.words;
    let name = || Arg::typed(&account.name);
    html! {
        @match standing.since {
            None if required && account.disabled_at.is_none() => { span.hot { (w.say("office-accounts-not-set-up")) } }
            None => { (w.say("office-accounts-none")) }
            Some(since) => {
                (w.text(&message!("office-accounts-factor-since", time = Arg::typed(in_utc(since)), count = standing.codes_left)))
                details.no-print {
                    summary { (w.say("office-accounts-reset")) }
                    form.stack method="post" action={ "/office/accounts/" (account.number) "/second-factor" } {
                        (csrf(user))
                        p.small { (w.text(&message!("office-accounts-reset-note", name = name()))) }
                        button.key.stop type="submit" { (w.text(&message!("office-accounts-reset-of", name = name()))) }
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
) -> Result<Response, PageError> {
    let required = match form.required.as_str() {
        "yes" => true,
        "no" => false,
        _ => return Err(PageError::BadForm(message!("office-accounts-say"))),
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
) -> Result<Response, PageError> {
    let found = office
        .on_database(move |database| people::by_number(database.connection(), number).map_err(as_register))
        .await?;
    let (account, _) = found.ok_or_else(|| PageError::NotThere(message!("office-accounts-no-such")))?;
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
) -> Result<Response, PageError> {
    frame::note(&office, &user, "looked", "audit").await?;
    let w = user.words;
    let holds: String = asked.q.trim().chars().take(LONGEST).collect();
    let (wanted, before) = (holds.clone(), asked.before.unwrap_or(i64::MAX));
    let (rows, head) = office
        .on_database(move |database| {
            // The rows are stored in English, so acts are also found by the words that the reader sees.
            let mut acts = audit::acts(database.connection())?;
            let needle = wanted.to_lowercase();
            acts.retain(|act| {
                !needle.is_empty() && audit_words::did(w, act).to_lowercase().contains(&needle)
            });
            let rows = audit::newest(database.connection(), (&wanted, &acts), before, SHOWN)?;
            Ok((rows, audit_chain::head(database.connection())?))
        })
        .await?;
    let last = rows.last().filter(|_| rows.len() == SHOWN).map(|(number, _)| *number);
    let title = w.say("office-accounts-audit");
    let body = html! {
        h1 { (title) }
        p { (w.say("office-audit-head")) " " code { (head) } }
        p.small { (w.say("office-audit-keep")) " " code { "farsiding audit check --head" } }
        form.row.no-print role="search" method="get" action="/office/audit" {
            label.label for="q" { (w.say("office-audit-asked")) }
            div { input.field id="q" type="search" name="q" value=(holds) maxlength=(LONGEST) autocomplete="off"; }
            button.go type="submit" { (w.say("office-audit-find")) }
        }
        @if rows.is_empty() { p.none { (w.say("office-audit-none")) } } @else {
            div.wide tabindex="0" role="region" aria-label=(w.say("office-audit-label")) { table {
                caption { (w.say("office-audit-order")) }
                thead { tr { @for head in AUDIT_HEADS { th scope="col" { (w.say(head)) } } } }
                tbody { @for (_, row) in &rows { tr {
                    td.time { (in_utc(row.at)) }
                    th scope="row" { (audit_words::who(w, row)) }
                    td { (audit_words::role(w, &row.role)) }
                    td { (audit_words::did(w, &row.did)) }
                    td { (audit_words::subject(w, row)) }
                } } }
            } }
        }
        @if let Some(last) = last {
            form.row.no-print method="get" action="/office/audit" {
                input type="hidden" name="q" value=(holds);
                input type="hidden" name="before" value=(last);
                button.key type="submit" { (w.say("office-audit-older")) }
            }
        }
    };
    Ok(frame::page(&user, &title, Place::Accounts, body))
}
