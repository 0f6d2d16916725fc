//! The page of seals: what was issued to each site, what became of every number, and which seals were found
//! broken or used twice.

use std::sync::{Arc, PoisonError};

use axum::extract::State;
use axum::response::Response;
use farsiding_core::book::Draft;
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::Coded;
use farsiding_core::entry::Statement;
use farsiding_core::entry::site_facts::SealStock;
use farsiding_core::entry::vocabulary::SealKind;
use farsiding_core::ids::{SiteId, Subject};
use maud::{Markup, html};
use serde::Deserialize;

use super::frame::{self, CsrfForm, OfficeUser, Place, Records, csrf};
use super::refused::Refused;
use super::sign_in::see_other;
use crate::accounts::roles::Right;
use crate::month;
use crate::office_signer;
use crate::seals::{self, Range};
use crate::state::Office;
use farsiding_reconcile::records;

/// How far back stays are read, in milliseconds.
pub const LOOK_BACK: i64 = 400 * 86_400_000;

/// `GET /office/seals`: shows the seals.
pub async fn show(State(office): State<Arc<Office>>, user: OfficeUser) -> Result<Response, Refused> {
    frame::note(&office, &user, "looked", "seals").await?;
    let now = office.now();
    let span = (UtcMillis(now.0 - LOOK_BACK), UtcMillis(now.0 + 86_400_000));
    let ((all, _), sites) =
        office.on_index(move |asking| Ok((month::of_index(asking, span)?, month::sites_of(asking)?))).await?;
    let void = office.on_database(|database| seals::void(database.connection())).await?;
    let stock: Vec<_> = sites
        .iter()
        .filter_map(|site| Some((site.id?, site)))
        .flat_map(|(id, site)| {
            site.seal_stock.iter().map(move |stock| (id, site.name.clone(), stock.clone()))
        })
        .collect();
    let ranges = seals::ranges(&stock, &all, &void);
    let mut twice = Vec::new();
    records::seals(&all.iter().collect::<Vec<_>>(), |_| true, &mut twice);
    let (broken, strays) = (seals::broken(&all), seals::strays(&ranges, &all));
    let body = html! {
        h1 { "Seals" }
        (frame::behind(&office))
        p.lead { "What the sites were issued and what became of it, over the last 400 days. A seal shows that nobody was there since; it never stands in for a look at the closures." }
        @if !twice.is_empty() {
            section { h2 { "One number on two cars" } ul.plain { @for finding in &twice { li.hot-edge { (finding.sentence) @for visit in finding.visits.iter().take(4) { " " a href={ "/office/visits/" (visit) } { (visit.short()) } } } } } }
        }
        section { h2 { "Issued" } (issued(&ranges)) }
        section {
            h2 { "Found broken, illegible or not whole" }
            @if broken.is_empty() { p.none { "None was recorded." } } @else {
                div.wide tabindex="0" role="region" aria-label="Found broken" { table {
                    thead { tr { th scope="col" { "Car" } th scope="col" { "Day" } th scope="col" { "Site" } th scope="col" { "Number" } th scope="col" { "What was seen" } } }
                    tbody { @for seal in broken.iter().take(100) { tr {
                        th scope="row" { @match seal.visit { Some(visit) => { a href={ "/office/visits/" (visit) } { (seal.car) } } None => { (seal.car) } } }
                        td { (seal.day) } td { (seal.site_name) } td { @if seal.number.is_empty() { "illegible" } @else { (seal.number) } } td { (seal.note) }
                    } } }
                } }
            }
        }
        @if !strays.is_empty() {
            section { h2 { "Put on, but of no range issued here" } ul.plain.split { @for (facts, number) in strays.iter().take(100) { li { b { (number) } " on " (facts.car) ", " (facts.site_name) ", " (facts.day) } } } }
        }
        @if user.may(Right::Record) { (forms(&user, &sites.iter().filter_map(|site| Some((site.id?, site.name.as_str()))).collect::<Vec<_>>())) }
    };
    Ok(frame::page(&user, "Seals", Place::Seals, body))
}

fn issued(ranges: &[Range]) -> Markup {
    html! {
        @if ranges.is_empty() { p.none { "No range was issued to a site yet." } } @else {
            div.wide tabindex="0" role="region" aria-label="Issued ranges" { table {
                caption { "Missing: neither used nor void though a higher number of the range was used." }
                thead { tr { th scope="col" { "Range" } th scope="col" { "Site" } th scope="col" { "Kind" } th.num scope="col" { "Numbers" } th.num scope="col" { "Used" } th.num scope="col" { "Void" } th scope="col" { "Missing" } th.num scope="col" { "Left" } } }
                tbody { @for range in ranges { tr {
                    th scope="row" { (range.from) " to " (range.to) }
                    td { (range.site_name) } td { (range.kind) }
                    @match range.count {
                        None => { td colspan="5" { "These two numbers are no range: same letters, same length, rising, at most " (seals::LARGEST_RANGE) "." } }
                        Some(count) => {
                            td.num { (count) } td.num { (range.used.len()) } td.num { (range.void.len()) }
                            td { @if range.missing.is_empty() { "none" } @else { b { (range.missing.len()) } ": " (range.missing.iter().take(12).cloned().collect::<Vec<_>>().join(", ")) @if range.missing.len() > 12 { " …" } } }
                            td.num { (count.saturating_sub((range.used.len() + range.void.len() + range.missing.len()) as u64)) }
                        }
                    }
                } } }
            } }
        }
    }
}

fn forms(user: &OfficeUser, sites: &[(SiteId, &str)]) -> Markup {
    html! {
        div.two.no-print {
            section {
                h2 { "Issue a range" }
                form.stack method="post" action="/office/seals/issue" {
                    (csrf(user))
                    label for="site" { "To" } select.field id="site" name="site" { @for (id, name) in sites { option value=(id) { (name) } } }
                    label for="from" { "First number" } input.field id="from" name="from" required maxlength="40";
                    label for="to" { "Last number" } input.field id="to" name="to" required maxlength="40";
                    label for="kind" { "Kind" } select.field id="kind" name="kind" { @for kind in SealKind::ALL { option value=(kind) { (kind.spoken()) } } }
                    button.go type="submit" { "Issue" }
                }
            }
            section {
                h2 { "Declare a number void" }
                form.stack method="post" action="/office/seals/void" {
                    (csrf(user))
                    label for="number" { "Number" } input.field id="number" name="number" required maxlength="40";
                    label for="why" { "Why" } input.field id="why" name="why" required maxlength="200";
                    button.go type="submit" { "Declare void" }
                }
            }
        }
    }
}

/// A range of seals as typed.
#[derive(Debug, Deserialize)]
pub struct TypedRange {
    site: String,
    from: String,
    to: String,
    kind: String,
}

/// `POST /office/seals/issue`: issues a range, as an entry of the site's document that the office signer
/// signs.
pub async fn issue(
    State(office): State<Arc<Office>>,
    CsrfForm { user, form, .. }: CsrfForm<TypedRange, Records>,
) -> Result<Response, Refused> {
    let site = SiteId::read(&form.site).map_err(|_| Refused::BadForm("Say which site.".to_owned()))?;
    let (from, to) = (form.from.trim().to_owned(), form.to.trim().to_owned());
    if seals::length(&from, &to).is_none() {
        let why = format!(
            "{from} to {to} is no range: same letters, same length, rising, at most {} numbers.",
            seals::LARGEST_RANGE
        );
        return Err(Refused::BadForm(why));
    }
    let known = office.on_index(month::sites_of).await?;
    let known = known.iter().find(|known| known.id == Some(site));
    let known = known.ok_or_else(|| Refused::NotThere("There is no such site.".to_owned()))?;
    if known.holds_seal(&from) || known.holds_seal(&to) {
        return Err(Refused::NotAllowed("Some of these numbers were issued to the site already.".to_owned()));
    }
    let draft = Draft::of(Statement::SealStock(SealStock { from, to, kind: Coded::typed(form.kind.trim()) }));
    let (folder, key, clock) = (office.folder.clone(), office.key.clone(), office.clock.clone());
    let (database, by) = (Arc::clone(&office.database), user.name.clone());
    let made = office
        .on_ledger(move |ledger| {
            let mut database = database.lock().unwrap_or_else(PoisonError::into_inner);
            let draft = (Subject::Site(site), draft, by.as_str());
            office_signer::sign_into(&folder, (&mut database, ledger.store_mut()), &key, &clock, draft)
        })
        .await?
        .map_err(Refused::failed)?;
    tracing::info!(entry = made.short(), "seals issued");
    let _ = office.hints.send(()); // an error only means that there are no listeners
    frame::note(&office, &user, "issued seals", &format!("site:{site}")).await?;
    Ok(see_other("/office/seals"))
}

/// A void number as typed.
#[derive(Debug, Deserialize)]
pub struct TypedVoid {
    number: String,
    why: String,
}

/// `POST /office/seals/void`: declares a number void.
pub async fn void(
    State(office): State<Arc<Office>>,
    CsrfForm { user, form, .. }: CsrfForm<TypedVoid, Records>,
) -> Result<Response, Refused> {
    if records::seal_key(&form.number).is_empty() || form.why.trim().is_empty() {
        return Err(Refused::BadForm("Say which number, and why.".to_owned()));
    }
    let (now, by, number) = (office.now(), user.name.clone(), form.number.clone());
    office
        .on_database(move |database| {
            seals::declare_void(database.connection(), &form.number, &form.why, &by, now)
        })
        .await?;
    frame::note(&office, &user, "declared void", &format!("seal:{number}")).await?;
    Ok(see_other("/office/seals"))
}
