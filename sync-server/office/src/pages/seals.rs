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
use farsiding_core::{Arg, message};
use farsiding_words::Words;
use maud::{Markup, html};
use serde::Deserialize;

use super::frame::{self, CsrfForm, OfficeUser, Place, Records, csrf};
use super::page_error::PageError;
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
pub async fn show(State(office): State<Arc<Office>>, user: OfficeUser) -> Result<Response, PageError> {
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
    let w = user.words;
    let body = html! {
        h1 { (w.say("office-seals-title")) }
        (frame::behind(user.words, &office))
        p.lead { (w.say("office-seals-lead")) }
        @if !twice.is_empty() {
            section { h2 { (w.say("office-seals-twice")) } ul.plain { @for finding in &twice { li.hot-edge { (w.text(&finding.sentence)) @for visit in finding.visits.iter().take(4) { " " a href={ "/office/visits/" (visit) } { (visit.short()) } } } } } }
        }
        section { h2 { (w.say("office-seals-issued")) } (issued(w, &ranges)) }
        section {
            h2 { (w.say("office-seals-broken")) }
            @if broken.is_empty() { p.none { (w.say("office-seals-none")) } } @else {
                div.wide tabindex="0" role="region" aria-label=(w.say("office-seals-broken-label")) { table {
                    thead { tr { th scope="col" { (w.say("office-seals-car")) } th scope="col" { (w.say("office-seals-day")) } th scope="col" { (w.say("office-seals-site")) } th scope="col" { (w.say("office-seals-number")) } th scope="col" { (w.say("office-seals-seen")) } } }
                    tbody { @for seal in broken.iter().take(100) { tr {
                        th scope="row" { @match seal.visit { Some(visit) => { a href={ "/office/visits/" (visit) } { (seal.car) } } None => { (seal.car) } } }
                        td { (seal.day) } td { (seal.site_name) } td { @if seal.number.is_empty() { (w.say("office-seals-illegible")) } @else { (seal.number) } } td { (seal.note) }
                    } } }
                } }
            }
        }
        @if !strays.is_empty() {
            section { h2 { (w.say("office-seals-strays")) } ul.plain.split { @for (facts, number) in strays.iter().take(100) { li { (w.text(&message!("office-seals-stray", number = Arg::typed(number.clone()), car = Arg::typed(&facts.car), site = Arg::typed(&facts.site_name), day = Arg::typed(&facts.day)))) } } } }
        }
        @if user.may(Right::Record) { (forms(&user, &sites.iter().filter_map(|site| Some((site.id?, site.name.as_str()))).collect::<Vec<_>>())) }
    };
    Ok(frame::page(&user, &w.say("office-seals-title"), Place::Seals, body))
}

fn issued(w: &Words, ranges: &[Range]) -> Markup {
    html! {
        @if ranges.is_empty() { p.none { (w.say("office-seals-no-range")) } } @else {
            div.wide tabindex="0" role="region" aria-label=(w.say("office-seals-ranges")) { table {
                caption { (w.say("office-seals-missing-note")) }
                thead { tr { th scope="col" { (w.say("office-seals-range")) } th scope="col" { (w.say("office-seals-site")) } th scope="col" { (w.say("office-seals-kind")) } th.num scope="col" { (w.say("office-seals-numbers")) } th.num scope="col" { (w.say("office-seals-used")) } th.num scope="col" { (w.say("office-seals-void")) } th scope="col" { (w.say("office-seals-missing")) } th.num scope="col" { (w.say("office-seals-left")) } } }
                tbody { @for range in ranges { tr {
                    th scope="row" { (w.text(&message!("office-seals-span", from = Arg::typed(&range.from), to = Arg::typed(&range.to)))) }
                    td { (range.site_name) } td { (range.kind) }
                    @match range.count {
                        None => { td colspan="5" { (w.text(&message!("office-seals-not-a-range", most = Arg::Number(seals::LARGEST_RANGE.to_string())))) } }
                        Some(count) => {
                            td.num { (count) } td.num { (range.used.len()) } td.num { (range.void.len()) }
                            td { @if range.missing.is_empty() { (w.say("office-seals-none-missing")) } @else { b { (range.missing.len()) } ": " (range.missing.iter().take(12).cloned().collect::<Vec<_>>().join(", ")) @if range.missing.len() > 12 { " …" } } }
                            td.num { (count.saturating_sub((range.used.len() + range.void.len() + range.missing.len()) as u64)) }
                        }
                    }
                } } }
            } }
        }
    }
}

fn forms(user: &OfficeUser, sites: &[(SiteId, &str)]) -> Markup {
    let w = user.words;
    html! {
        div.two.no-print {
            section {
                h2 { (w.say("office-seals-issue-range")) }
                form.stack method="post" action="/office/seals/issue" {
                    (csrf(user))
                    label for="site" { (w.say("office-seals-to")) } select.field id="site" name="site" { @for (id, name) in sites { option value=(id) { (name) } } }
                    label for="from" { (w.say("office-seals-first")) } input.field id="from" name="from" required maxlength="40";
                    label for="to" { (w.say("office-seals-last")) } input.field id="to" name="to" required maxlength="40";
                    label for="kind" { (w.say("office-seals-kind")) } select.field id="kind" name="kind" { @for kind in SealKind::ALL { option value=(kind) { (w.text(&kind.term())) } } }
                    button.go type="submit" { (w.say("office-seals-issue")) }
                }
            }
            section {
                h2 { (w.say("office-seals-void-number")) }
                form.stack method="post" action="/office/seals/void" {
                    (csrf(user))
                    label for="number" { (w.say("office-seals-number")) } input.field id="number" name="number" required maxlength="40";
                    label for="why" { (w.say("office-seals-why")) } input.field id="why" name="why" required maxlength="200";
                    button.go type="submit" { (w.say("office-seals-void-it")) }
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
) -> Result<Response, PageError> {
    let site =
        SiteId::read(&form.site).map_err(|_| PageError::BadForm(message!("office-seals-which-site")))?;
    let (from, to) = (form.from.trim().to_owned(), form.to.trim().to_owned());
    if seals::length(&from, &to).is_none() {
        return Err(PageError::BadForm(message!(
            "office-seals-not-a-range-named",
            from = Arg::typed(from),
            to = Arg::typed(to),
            most = Arg::Number(seals::LARGEST_RANGE.to_string())
        )));
    }
    let known = office.on_index(month::sites_of).await?;
    let known = known.iter().find(|known| known.id == Some(site));
    let known = known.ok_or_else(|| PageError::NotThere(message!("office-seals-no-site")))?;
    if known.holds_seal(&from) || known.holds_seal(&to) {
        return Err(PageError::NotAllowed(message!("office-seals-issued-before")));
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
        .map_err(PageError::failed)?;
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
) -> Result<Response, PageError> {
    if records::seal_key(&form.number).is_empty() || form.why.trim().is_empty() {
        return Err(PageError::BadForm(message!("office-seals-which-number")));
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
