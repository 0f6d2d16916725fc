//! Sending imported papers to a site, and taking one back: the page on which the lines of a file and the site are chosen,
//! and what stands at the sites.
//!
//! Which lines can be sent is decided in `expected_papers`; which cars a phone shows, in `farsiding_core::view`.

use std::collections::BTreeMap;
use std::sync::{Arc, PoisonError};

use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::response::Response;
use farsiding_core::book::Draft;
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::PaperExpected;
use farsiding_core::entry::car_number::CarNumber;
use farsiding_core::ids::{Digest, EntryId, SiteId, Subject};
use farsiding_core::view::{ExpectedCar, SiteView, StayOfCar};
use farsiding_core::{Arg, Message, message};
use farsiding_reconcile::facts::Facts;
use farsiding_words::Words;
use maud::{Markup, html};

use super::frame::{self, Allowed, CsrfForm, OfficeUser, Place, Records, csrf, in_utc};
use super::page_error::PageError;
use super::sign_in::see_other;
use crate::accounts::roles::Right;
use crate::expected_papers::{self, MOST_AT_ONCE, Sendable};
use crate::held_papers;
use crate::month;
use crate::office_signer;
use crate::state::Office;

type Fields = BTreeMap<String, String>;

/// A file that was imported, with the papers that can be sent from it.
struct OpenFile {
    digest: Digest,
    name: String,
    papers: Vec<Sendable>,
}

async fn open(office: &Arc<Office>, digest: &str) -> Result<OpenFile, PageError> {
    let not_there = || PageError::NotThere(message!("office-papers-no-file"));
    let digest = Digest::read(digest).map_err(|_| not_there())?;
    let found =
        office.on_database(move |database| held_papers::file_of(database.connection(), digest)).await?;
    let (name, bytes, mapping) = found.ok_or_else(not_there)?;
    let papers = expected_papers::sendable((&name, &bytes), &mapping, office.now())?;
    Ok(OpenFile { digest, name, papers })
}

async fn sites(office: &Arc<Office>) -> Result<Vec<SiteView>, PageError> {
    Ok(office.on_index(month::sites_of).await?)
}

fn name_of(site: &SiteView) -> String {
    match (site.name.trim(), site.id) {
        ("", Some(id)) => id.short().to_string(),
        (name, _) => name.to_owned(),
    }
}

/// `GET /office/papers/files/{sha256}/send`: asks which papers of a file go to which site.
pub async fn ask(
    State(office): State<Arc<Office>>,
    Allowed { user, .. }: Allowed<Records>,
    Path(digest): Path<String>,
) -> Result<Response, PageError> {
    let file = open(&office, &digest).await?;
    frame::note(&office, &user, "looked", &format!("papers:{}", file.digest)).await?;
    Ok(page(&user, &file, &sites(&office).await?, &Fields::new(), None))
}

fn page(
    user: &OfficeUser,
    file: &OpenFile,
    sites: &[SiteView],
    fields: &Fields,
    wrong: Option<&Message>,
) -> Response {
    let w = user.words;
    let chosen = fields.get("site").map_or("", String::as_str);
    let checked = |sendable: &Sendable| match fields.is_empty() {
        true => sendable.recent,
        false => fields.contains_key(&format!("line-{}", sendable.paper.line)),
    };
    // Of a long file the last lines are shown.
    let before = file.papers.len().saturating_sub(MOST_AT_ONCE * 5);
    let shown: Vec<&Sendable> = file.papers.iter().skip(before).collect();
    let body = html! {
        div.row.apart { h1 { (w.say("office-papers-send-title")) } a.key.no-print href="/office/papers" { (w.say("office-papers-title")) } }
        p.lead { (w.text(&message!("office-papers-send-lead", file = Arg::typed(&file.name)))) }
        @if let Some(wrong) = wrong { p.trouble role="alert" { (w.text(wrong)) } }
        @if shown.is_empty() { p.none { (w.say("office-papers-send-nothing")) } } @else {
            form method="post" action={ "/office/papers/files/" (file.digest) "/send" } {
                (csrf(user))
                section { div.stack.pairs {
                    label for="site" { (w.say("office-papers-send-site")) }
                    select.field id="site" name="site" required {
                        option value="" { (w.say("office-papers-send-choose")) }
                        @for site in sites { @if let Some(id) = site.id { option value=(id) selected[chosen == id.to_string()] { (name_of(site)) } } }
                    }
                } }
                p { (w.say("office-papers-send-note")) }
                div.wide tabindex="0" role="region" aria-label=(w.say("office-papers-lines-label")) { table {
                    thead { tr { th scope="col" { (w.say("office-papers-car")) } th.num scope="col" { (w.say("office-papers-line")) } th scope="col" { (w.say("office-papers-paper-head")) } th scope="col" { (w.say("office-papers-day")) } th scope="col" { (w.say("office-papers-says")) } th scope="col" { (w.say("office-papers-expected")) } } }
                    tbody { @for sendable in &shown {
                        @let paper = &sendable.paper;
                        @let name = format!("line-{}", paper.line);
                        tr {
                            th scope="row" { label.check for=(name) { input id=(name) type="checkbox" name=(name) value="yes" checked[checked(sendable)]; span { (paper.car.normal()) } } }
                            td.num { (paper.line) } td { (paper.number) } td { (paper.dated) } td { (facts(w, paper)) } td { (paper.expected) }
                        }
                    } }
                } }
                section { button.go type="submit" { (w.say("office-papers-send-do")) } }
            }
        }
    };
    let status = if wrong.is_some() { StatusCode::UNPROCESSABLE_ENTITY } else { StatusCode::OK };
    frame::page_with(status, user, &w.say("office-papers-send-title"), Place::Papers, body)
}

/// Returns what a paper says besides its number, car and day.
fn facts(w: &Words, paper: &PaperExpected) -> String {
    let typed = |text: &str| Some(text.trim().to_owned()).filter(|text| !text.is_empty());
    let odorised =
        paper.odorised.map(|yes| w.say(if yes { "log-paper-odorized" } else { "log-paper-not-odorized" }));
    let density = paper.relative_density.as_ref();
    let winter =
        paper.winter_fill.map(|yes| w.say(if yes { "log-paper-winter" } else { "log-paper-not-winter" }));
    let parts = [
        typed(&paper.un_number),
        typed(&paper.product),
        paper.billed.as_ref().map(farsiding_core::units::Amount::shown),
        density.map(|density| w.text(&message!("log-paper-density", amount = density.arg()))),
        odorised,
        paper.grade.map(|grade| w.text(&message!("log-paper-grade", grade = grade.term()))),
        paper.billed_by.map(|by| w.text(&message!("log-paper-billed-by", by = by.term()))),
        winter,
        typed(&paper.shipper),
    ];
    parts.into_iter().flatten().collect::<Vec<_>>().join(" · ")
}

/// `POST /office/papers/files/{sha256}/send`: signs the chosen papers into the site's record.
pub async fn send(
    State(office): State<Arc<Office>>,
    Path(digest): Path<String>,
    CsrfForm { user, form, .. }: CsrfForm<Fields, Records>,
) -> Result<Response, PageError> {
    let file = open(&office, &digest).await?;
    let known = sites(&office).await?;
    let wrong = |id| Ok(page(&user, &file, &known, &form, Some(&Message::new(id))));
    let site = form.get("site").and_then(|text| SiteId::read(text.trim()).ok());
    let Some(site) = known.iter().find(|view| site.is_some() && view.id == site) else {
        return wrong("office-papers-send-choose-site");
    };
    let is_chosen = |paper: &PaperExpected| form.contains_key(&format!("line-{}", paper.line));
    let papers = file.papers.iter().map(|sendable| &sendable.paper).filter(|paper| is_chosen(paper));
    let chosen: Vec<&PaperExpected> = papers.collect();
    if chosen.is_empty() {
        return wrong("office-papers-send-choose-lines");
    }
    if chosen.len() > MOST_AT_ONCE {
        let most = message!("office-papers-send-too-many", most = MOST_AT_ONCE);
        return Ok(page(&user, &file, &known, &form, Some(&most)));
    }
    // What stands there already in the same words is not signed a second time.
    let new = chosen.into_iter().filter(|paper| !expected_papers::stands_there(site, paper)).cloned();
    let drafts = expected_papers::drafts(new);
    if drafts.is_empty() {
        return wrong("office-papers-send-stand-there");
    }
    let Some(id) = site.id else { return wrong("office-papers-send-choose-site") };
    sign(&office, &user, id, drafts).await?;
    frame::note(&office, &user, "sent papers to a site", &format!("papers:{}", file.digest)).await?;
    Ok(see_other("/office/papers#sent"))
}

/// `POST /office/papers/sent/{site}/{entry}/take-back`: takes the paper of an expected car back.
pub async fn take_back(
    State(office): State<Arc<Office>>,
    Path((site, entry)): Path<(String, String)>,
    CsrfForm { user, form, .. }: CsrfForm<Fields, Records>,
) -> Result<Response, PageError> {
    let not_there = || PageError::NotThere(message!("office-papers-not-sent"));
    let (site, entry) = SiteId::read(&site).ok().zip(EntryId::read(&entry).ok()).ok_or_else(not_there)?;
    let known = sites(&office).await?;
    let view = known.iter().find(|view| view.id == Some(site)).ok_or_else(not_there)?;
    let paper = view.papers.standing().find(|paper| paper.entry == entry).ok_or_else(not_there)?;
    let because = form.get("because").map_or("", |because| because.trim());
    if because.is_empty() || because.chars().count() > 400 {
        return Err(PageError::BadForm(message!("office-papers-take-back-why")));
    }
    sign(&office, &user, site, vec![expected_papers::taking_back(&paper.car, because)]).await?;
    frame::note(&office, &user, "took a sent paper back", &format!("papers:{}", paper.file)).await?;
    Ok(see_other("/office/papers#sent"))
}

/// Signs into a site's record with the office signer.
async fn sign(
    office: &Arc<Office>,
    user: &OfficeUser,
    site: SiteId,
    drafts: Vec<Draft>,
) -> Result<(), PageError> {
    let (folder, key, clock) = (office.folder.clone(), office.key.clone(), office.clock.clone());
    let (database, by) = (Arc::clone(&office.database), user.name.clone());
    office
        .on_ledger(move |ledger| {
            let mut database = database.lock().unwrap_or_else(PoisonError::into_inner);
            let said = (Subject::Site(site), drafts, by.as_str());
            office_signer::sign_all(&folder, (&mut database, ledger.store_mut()), &key, &clock, said)
        })
        .await?
        .map_err(PageError::failed)?;
    let _ = office.hints.send(()); // an error only means that there are no listeners
    Ok(())
}

/// Returns what became of a paper that stands at a site.
fn became(w: &Words, paper: &ExpectedCar, stays: &[(StayOfCar, &Facts)], now: UtcMillis) -> Markup {
    let came = stays.iter().filter(|(stay, _)| paper.is_taken_by(stay)).min_by_key(|(stay, _)| stay.since);
    html! {
        @match came.map(|(_, facts)| *facts) {
            Some(facts) => { @if let Some(visit) = facts.visit() { a href={ "/office/visits/" (visit) } { (w.text(&message!("office-papers-came", day = Arg::typed(&facts.day)))) } } }
            None if now > paper.waits_until() => { (w.say("office-papers-waited")) }
            None => { (w.say("office-papers-waits")) }
        }
        @if paper.disputed { br; b { (w.say("office-papers-two")) } }
    }
}

/// Returns the section with the papers that stand at the sites, the newest first.
pub fn section(user: &OfficeUser, sites: &[SiteView], all: &[Facts], now: UtcMillis) -> Markup {
    let w = user.words;
    let mut rows: Vec<(&SiteView, &ExpectedCar)> =
        sites.iter().flat_map(|site| site.papers.standing().map(move |paper| (site, paper))).collect();
    rows.sort_by(|(_, a), (_, b)| b.at.cmp(&a.at).then_with(|| a.line.cmp(&b.line)));
    let stays_at = |site: &SiteView| -> Vec<(StayOfCar, &Facts)> {
        let there = all.iter().filter(|facts| facts.site.is_some() && facts.site == site.id);
        there
            .filter_map(|facts| {
                let stay = StayOfCar {
                    car: CarNumber(facts.car.clone()),
                    since: facts.from?,
                    until: facts.released,
                };
                Some((stay, facts))
            })
            .collect()
    };
    let stays: BTreeMap<Option<SiteId>, Vec<(StayOfCar, &Facts)>> =
        sites.iter().map(|site| (site.id, stays_at(site))).collect();
    let may = user.may(Right::Record);
    html! {
        section id="sent" {
            h2 { (w.say("office-papers-sent")) }
            @if rows.is_empty() { p.none { (w.say("office-papers-none-sent")) } } @else { div.wide tabindex="0" role="region" aria-label=(w.say("office-papers-sent")) { table {
                thead { tr { th scope="col" { (w.say("office-papers-car")) } th scope="col" { (w.say("office-papers-site")) } th scope="col" { (w.say("office-papers-paper-head")) } th scope="col" { (w.say("office-papers-sent-at")) } th scope="col" { (w.say("office-papers-became")) } @if may { th.no-print scope="col" { (w.say("office-papers-take-back")) } } } }
                tbody { @for (site, paper) in rows.iter().take(200) { tr {
                    th scope="row" { (paper.car) }
                    td { (name_of(site)) }
                    td { (paper.paper.number) br; a href={ "/office/papers/files/" (paper.file) } { (paper.file_name) } ", " (w.say("office-papers-line")) " " (paper.line) }
                    td { (w.text(&message!("office-papers-taken-by", time = Arg::typed(in_utc(paper.at)), by = Arg::typed(&paper.by.0)))) }
                    td { (became(w, paper, stays.get(&site.id).map_or(&[][..], Vec::as_slice), now)) }
                    @if may { td.no-print { @if let Some(id) = site.id {
                        @let because = format!("because-{}", paper.entry.short());
                        details { summary { (w.say("office-papers-take-back")) }
                            form.stack method="post" action={ "/office/papers/sent/" (id) "/" (paper.entry) "/take-back" } {
                                (csrf(user))
                                label for=(because) { (w.say("office-papers-take-back-because")) }
                                input.field id=(because) name="because" maxlength="400" required;
                                button.key.stop type="submit" { (w.say("office-papers-take-back-do")) }
                            }
                        }
                    } } }
                } } }
            } } }
        }
    }
}
