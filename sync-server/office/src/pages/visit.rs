//! The page of a visit: first its state, then disagreements to settle, what is missing, the drawing,
//! readings, photographs, and the whole story in order of time with the claimed and the received times.
//!
//! This file holds the order of the page and its upper half. Readings and quantities are in `visit_measures`,
//! the story, the devices and the audit rows in `visit_story`, and the actions in `visit_acts`.

use std::collections::BTreeSet;
use std::sync::Arc;

use axum::extract::{Path, State};
use axum::response::Response;
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::vocabulary::{ClosureState, Receiver};
use farsiding_core::ids::{Digest, VisitId};
use farsiding_core::units::Severity;
use farsiding_core::view::{Attribution, Blocker, Disagreement, VisitView, spoken_about};
use maud::{Markup, html};

use super::frame::{self, OfficeUser, Place, RecordViewer, csrf, plural};
use super::refused::Refused;
use super::{housing, photo_acts, quarantine, scale, visit_measures, visit_story};
use crate::accounts::audit;
use crate::accounts::links::{self, Link};
use crate::accounts::roles::Right;
use crate::audit_chain::Looked;
use crate::hidden::{self, Hidden};
use crate::index::finding::Shown;
use crate::pages::user::as_register;
use crate::photo_removal::{self, Removed};
use crate::state::Office;
use farsiding_packet::zone::zone_words;

/// The number of audit rows shown with a visit.
const LOOKED_SHOWN: usize = 20;

/// Everything the page shows.
pub struct Page {
    /// The folded record.
    pub shown: Shown,
    /// The photographs whose files are here.
    pub photos_here: BTreeSet<Digest>,
    /// The photographs that were removed.
    pub photos_removed: Vec<Removed>,
    /// The links for inspectors.
    pub links: Vec<Link>,
    /// The audit rows of the visit.
    pub looked: Vec<Looked>,
    /// Whether no enrolled device opened the record.
    pub phantom: bool,
    /// The visits of the record that are hidden from the lists, with the reasons.
    pub hidden: Vec<Hidden>,
    /// The current time.
    pub now: UtcMillis,
}

/// Returns the address of a visit's page.
pub fn path_of(visit: VisitId) -> String {
    format!("/office/visits/{visit}")
}

/// Parses a visit's id from an address.
///
/// # Errors
/// Returns [`Refused::NotThere`] when the text is not an id.
pub fn read_visit(text: &str) -> Result<VisitId, Refused> {
    VisitId::read(text).map_err(|_| not_there())
}

fn not_there() -> Refused {
    Refused::NotThere(
        "There is no record of such a visit here. What phones have not sent yet is not known here."
            .to_owned(),
    )
}

/// Folds a visit for a reader, after checking that the reader may see it.
///
/// # Errors
/// Returns [`Refused`] when the reader may not see the visit or the visit does not exist.
pub async fn open(office: &Office, reader: RecordViewer, text: &str) -> Result<(OfficeUser, Shown), Refused> {
    let visit = read_visit(text)?;
    let now = office.now();
    let only = reader.only().map(<[VisitId]>::to_vec);
    let shown = office.on_index(move |asking| match only {
        None => asking.show(visit, now),
        Some(only) => asking.show_within(visit, &only, now),
    });
    match shown.await? {
        Some(shown) => Ok((reader.of(&shown.view.header.visits)?, shown)),
        // An inspector must not learn which visits exist.
        None => match reader.only() {
            Some(only) if !only.contains(&visit) => Err(Refused::NotYours),
            _ => Err(not_there()),
        },
    }
}

/// `GET /office/visits/{visit}`: shows the visit.
pub async fn show(
    State(office): State<Arc<Office>>,
    reader: RecordViewer,
    Path(visit): Path<String>,
) -> Result<Response, Refused> {
    let (user, shown) = open(&office, reader, &visit).await?;
    let id = read_visit(&visit)?;
    frame::note(&office, &user, "looked", &format!("visit:{id}")).await?;
    let digests: Vec<Digest> = shown.view.photos.iter().map(|photo| photo.photo.sha256).collect();
    let (photos_here, photos_removed) = office
        .on_index(move |asking| {
            let removed = photo_removal::read(asking.ledger.value(photo_removal::REMOVED)?.as_deref());
            let mut here = BTreeSet::new();
            for digest in digests {
                if asking.ledger.photo(digest)?.is_some_and(|(_, here)| here) {
                    here.insert(digest);
                }
            }
            here.retain(|digest| !removed.iter().any(|one| one.sha256 == *digest));
            Ok((here, removed))
        })
        .await?;
    let (mut known_links, mut looked, mut hidden) = (Vec::new(), Vec::new(), Vec::new());
    let phantom = user.is_office() && quarantine::is_phantom(&office, &shown).await?;
    if user.is_office() {
        let visits = shown.view.header.visits.clone();
        (known_links, looked, hidden) = office
            .on_database(move |database| {
                let mut looked = Vec::new();
                for visit in &visits {
                    looked.extend(audit::of(database.connection(), &format!("visit:{visit}"), LOOKED_SHOWN)?);
                }
                let links = links::of_visits(database.connection(), &visits).map_err(as_register)?;
                let hidden = hidden::list(database.connection())?;
                let hidden = hidden.into_iter().filter(|one| visits.contains(&one.visit)).collect();
                Ok((links, looked, hidden))
            })
            .await?;
    }
    let now = office.now();
    let page = Page { shown, photos_here, photos_removed, links: known_links, looked, phantom, hidden, now };
    let car = car_name(&page.shown.view);
    Ok(frame::page(&user, &car, Place::Elsewhere, body(&user, id, &page)))
}

fn car_name(view: &VisitView) -> String {
    if view.header.car.is_empty() { "Car not known".to_owned() } else { view.header.car.clone() }
}

fn body(user: &OfficeUser, id: VisitId, page: &Page) -> Markup {
    let view = &page.shown.view;
    let path = path_of(id);
    html! {
        (head(view, &path))
        @if user.is_office() { (quarantine::offer(user, &path, page.phantom, &page.hidden)) }
        div #visit data-live="" {
            (state(view))
            @for (at, disagreement) in view.disagreements.iter().enumerate() {
                (settle(user, &path, disagreement, at, page))
            }
            (findings(view))
            h2 { "The car" }
            div.two {
                (housing::plan(view))
                div { (fittings(view)) }
            }
            (missing(view))
            (visit_measures::readings(&page.shown))
            (visit_measures::computed(view))
            (seals(view))
            (photographs(user, view, page, &path))
            (defects(view))
            (visit_story::ended(user, &path, view))
            (visit_story::devices(view))
            (visit_story::story(&page.shown))
        }
        @if user.is_office() { (visit_story::doors(user, page, &path)) }
    }
}

fn head(view: &VisitView, path: &str) -> Markup {
    let header = &view.header;
    html! {
        div.visit-head {
            div {
                h1 { (car_name(view)) }
                p.lead {
                    (header.site_name)
                    @if !header.spot.is_empty() { " · " (header.spot) }
                    @match header.receiver {
                        Some(Receiver::FixedTank) => { " · into a fixed tank" }
                        Some(Receiver::Truck) => { " · into trucks" }
                        None => {}
                    }
                    @if !header.product.is_empty() { " · " (header.product) " (from the paper)" }
                }
                p.small {
                    "Since " (header.since_shown) ". " (plural(view.entries, "entry", "entries")) ". Times in " (zone_words(&header.zone)) "."
                    @if header.visits.len() > 1 { " Several records of one stay, joined." }
                    @if !header.procedure_title.is_empty() { " By: " (header.procedure_title) "." }
                }
            }
            div.row.no-print {
                a.key href=(path) { "Look again" }
                a.go href={ (path) "/packet" } download="" { "Packet" }
            }
        }
    }
}

/// Returns who made a statement, when and on which device. The page uses the same form everywhere.
pub fn by(said: &Attribution) -> Markup {
    html! {
        small {
            (said.name) ", " (said.shown) ", on " (said.device_name)
            @if let Some(warning) = said.standing.warning() { " · " span.hot { (warning) } }
        }
    }
}

fn state(view: &VisitView) -> Markup {
    html! {
        div.plate {
            (scale::stages(view.stage, view.release.released.is_some()))
            p.stage {
                @match &view.release.released {
                    Some(released) => {
                        "Released " @if released.value { "as residue" } @else { "not as residue" }
                        " " (by(&released.said))
                    }
                    None => { (scale::stage_name(view.stage)) }
                }
            }
            @if !view.tally.out.is_empty() {
                p.hot { (scale::caution()) " Out, and not back: "
                    @for (at, item) in view.tally.out.iter().enumerate() { @if at > 0 { ", " } (item.item) }
                }
            }
        }
        @for hold in view.holds.iter().filter(|hold| hold.open) {
            p.trouble { (scale::hold()) " HOLD: " (hold.because) " " (by(&hold.said)) }
        }
        @for offer in &view.offers {
            p.told { (scale::differ()) " " (offer.sentence) " " a href=(path_of(offer.other)) { "See it" } }
        }
    }
}

/// Returns two or more differing accounts side by side, with the form that settles them.
fn settle(user: &OfficeUser, path: &str, differ: &Disagreement, at: usize, page: &Page) -> Markup {
    let seen: Vec<String> = differ.entries.iter().map(ToString::to_string).collect();
    let received = |said: &Attribution| {
        page.shown.received.get(&said.entry).map(|at| visit_story::in_zone(&page.shown.view, *at))
    };
    html! {
        section.plate.hot-edge.settle aria-labelledby={ "differ-" (at) } {
            h2 id={ "differ-" (at) } { (scale::differ()) " Accounts differ: " (differ.about) }
            form method="post" action={ (path) "/settle" } {
                (csrf(user))
                input type="hidden" name="seen" value=(seen.join(" "));
                div.claims {
                    @for claim in &differ.claims {
                        div.claim {
                            label {
                                @if user.may(Right::Settle) {
                                    input type="radio" name="keeps" value=(claim.said.entry) required;
                                }
                                span {
                                    b { (claim.sentence) }
                                    (by(&claim.said))
                                    @if let Some(at) = received(&claim.said) { br; small { "received " (at) } }
                                    @if !claim.said.why.is_empty() { br; small { "because: " (claim.said.why) } }
                                }
                            }
                        }
                    }
                }
                @for back in &differ.reopened {
                    p.small { "It had been settled; taken back by " (by(&back.said)) @if !back.said.why.is_empty() { " because: " (back.said.why) } }
                }
                @if user.may(Right::Settle) {
                    div.stack.no-print {
                        label for={ "why-" (at) } { "Why this one stands" }
                        textarea.field id={ "why-" (at) } name="why" maxlength="1000" required {}
                        p.small { "Both accounts stay in the record. What you choose is signed with the office's own key under your name, and goes to the phones." }
                        button.go type="submit" { "Settle" }
                    }
                }
            }
        }
    }
}

fn findings(view: &VisitView) -> Markup {
    html! {
        @if !view.findings.is_empty() || !view.advice.is_empty() {
            h2 { "Worth knowing" }
            ul.plain.split {
                @for finding in view.findings.iter().chain(&view.advice) {
                    li.hot-edge[finding.severity == Severity::Alarm] {
                        @match finding.severity {
                            Severity::Alarm => { span.hot { (scale::caution()) " Alarm: " } }
                            Severity::Check => { b { "Check: " } }
                            Severity::Note => {}
                        }
                        (finding.message)
                    }
                }
            }
        }
    }
}

fn fittings(view: &VisitView) -> Markup {
    html! {
        div.wide tabindex="0" role="region" aria-label="Fittings" {
            table {
                thead { tr { th scope="col" { "Fitting" } th scope="col" { "Valve" } th scope="col" { "Closure" } th scope="col" { "Heard" } th scope="col" { "Line" } } }
                tbody {
                    @for fitting in &view.fittings {
                        tr {
                            th scope="row" { (fitting.name) }
                            td {
                                @match &fitting.valve {
                                    Some(valve) => { (valve.value.spoken()) @if valve.disputed { " " span.hot { "(accounts differ)" } } }
                                    None if fitting.fitting.has_valve() => { "not recorded" }
                                    None => { "—" }
                                }
                            }
                            td {
                                @match &fitting.closure {
                                    Some(closure) => {
                                        (closure_words(closure.value))
                                        @if closure.disputed { " " span.hot { "(accounts differ)" } }
                                        @if let Some(threads) = &fitting.threads { br; small { (threads.value.shown()) " engaged" } }
                                    }
                                    None => { "not recorded" }
                                }
                            }
                            td {
                                @match &fitting.listen {
                                    Some(heard) => { (heard.value.spoken()) @if fitting.listened_since_shut { br; small { "after it was shut" } } }
                                    None => { "—" }
                                }
                            }
                            td {
                                @match &fitting.line {
                                    Some(line) if line.value.connected => { b { "on" } " " (line.value.hose) }
                                    Some(_) => { "off" }
                                    None => { "—" }
                                }
                            }
                        }
                        @for advice in &fitting.advice { tr { td colspan="5" { (advice.message) } } }
                    }
                }
            }
        }
        dl.facts {
            @if let Some(cover) = &view.cover {
                dt { "Housing cover" }
                dd {
                    @if cover.value.closed { "closed" } @else { "open" } ", pin "
                    @if cover.value.pinned { "in" } @else { "out" } ", "
                    (cover.value.bolts_in_place) " of " (cover.value.bolts_required) " bolts in place " (by(&cover.said))
                }
            }
            @for protection in &view.protections {
                @if let Some(set) = &protection.set {
                    dt { (protection.what.spoken()) }
                    dd { @if set.value { "set" } @else { "away" } " " (by(&set.said)) }
                }
            }
            @if let Some(weather) = &view.weather { dt { "Weather" } dd { (weather.value.trim_start_matches("Weather: ")) " " (by(&weather.said)) } }
        }
    }
}

fn closure_words(state: ClosureState) -> &'static str {
    match state {
        ClosureState::Open => "open",
        ClosureState::HandTight => "hand-tight only",
        ClosureState::ToolTight => "tool-tight",
    }
}

/// Returns the blockers of the release, and those that somebody passed over.
fn missing(view: &VisitView) -> Markup {
    let open: Vec<&Blocker> = view.blockers.iter().filter(|blocker| blocker.passed_over.is_none()).collect();
    let title = if view.release.released.is_some() {
        "Missing when it was released"
    } else {
        "Missing before release"
    };
    html! {
        @if !open.is_empty() {
            h2 { (title) }
            details open[open.len() <= 8] {
                summary { (open.len()) @if open.len() == 1 { " thing" } @else { " things" } }
                ul.plain.split {
                    @for blocker in &open {
                        li { (blocker.missing) br; small { (blocker.asked_by.spoken()) " asks: " (blocker.source) } }
                    }
                }
            }
        }
        @if !view.passed_over.is_empty() {
            h2 { "Passed over, with a reason" }
            ul.plain {
                @for word in &view.passed_over {
                    li.hot-edge[!word.stands] {
                        b { (word.spoken) } ": " (word.why) " " (by(&word.said))
                        @if let Some(fallen) = word.fallen { " " span.hot { "does not stand: " (fallen) } }
                    }
                }
            }
        }
    }
}

fn seals(view: &VisitView) -> Markup {
    html! {
        @if !view.seals.is_empty() {
            h2 { "Seals" }
            ul.plain.split {
                @for seal in &view.seals {
                    li {
                        b { (seal.place.spoken()) }
                        @if let Some(found) = &seal.found {
                            br; "found " b { (number(&found.value.number)) } @if !found.value.intact { span.hot { " NOT whole" } }
                            @if found.disputed { span.hot { " (accounts differ)" } } " " (by(&found.said))
                        }
                        @if let Some(now) = &seal.now {
                            br; (now.value.event.spoken()) " " b { (number(&now.value.number)) }
                            @if !now.value.intact { span.hot { " NOT whole" } }
                            @if now.disputed { span.hot { " (accounts differ)" } } " " (by(&now.said))
                        }
                        @for lack in &seal.lacks { br; span.hot { "lacks " (lack) } }
                    }
                }
            }
        }
    }
}

fn number(text: &str) -> &str {
    if text.trim().is_empty() { "without a readable number" } else { text.trim() }
}

fn photographs(user: &OfficeUser, view: &VisitView, page: &Page, path: &str) -> Markup {
    html! {
        @if !view.photos.is_empty() {
            h2 { "Photographs" }
            ul.photos {
                @for photo in &view.photos {
                    @let digest = photo.photo.sha256;
                    @let of = photo.of.spoken();
                    li {
                        @if page.photos_here.contains(&digest) {
                            a href={ (path) "/photos/" (digest) } {
                                img src={ (path) "/photos/" (digest) } alt={ "Photograph: " (of) ", by " (photo.said.name) ", " (photo.said.shown) } loading="lazy";
                            }
                        } @else if let Some(removed) = page.photos_removed.iter().find(|one| one.sha256 == digest) {
                            (photo_acts::gone(removed))
                        } @else {
                            div.not-here { "Not here yet: the phone still has it" }
                        }
                        p { b { (of) } @if !photo.about.is_empty() { " · " (spoken_about(&photo.about)) } br; (by(&photo.said)) }
                        @if page.photos_here.contains(&digest) { (photo_acts::form(user, path, digest)) }
                    }
                }
            }
        }
    }
}

fn defects(view: &VisitView) -> Markup {
    html! {
        @if !view.defects.is_empty() {
            h2 { "Defects" }
            ul.plain {
                @for defect in &view.defects {
                    li.hot-edge[defect.is_open()] {
                        b { (defect.what) } @if let Some(fitting) = defect.fitting { " at the " (fitting.name()) }
                        " " (by(&defect.said))
                        @if defect.needs_authority { br; "It moves only with an authority's approval." }
                        @for report in &defect.forwarded { br; "Reported to " (report.to) " (" (report.how) ") " (by(&report.said)) }
                        @if let Some(answer) = &defect.authority {
                            br; (answer.value.by) " answered, reference " (answer.value.reference)
                            @if let Some(due) = &answer.value.written_due_shown {
                                ", in writing by " (due) @if answer.value.overdue { " " span.hot { "overdue" } }
                            }
                        }
                        @match &defect.resolved {
                            Some(resolved) => { br; "Put right: " (resolved.value) " " (by(&resolved.said)) }
                            None => { br; span.hot { "open" } }
                        }
                    }
                }
            }
        }
        @if view.holds.iter().any(|hold| !hold.open) {
            h3 { "Holds that are over" }
            ul.plain {
                @for hold in view.holds.iter().filter(|hold| !hold.open) {
                    li { (hold.because) " " (by(&hold.said))
                        @if let Some(lifted) = &hold.lifted { br; "lifted: " (lifted.value) " " (by(&lifted.said)) }
                    }
                }
            }
        }
    }
}
