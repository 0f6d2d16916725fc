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
use farsiding_core::entry::vocabulary::Protection;
use farsiding_core::ids::{Digest, VisitId};
use farsiding_core::procedure::BlockerKind;
use farsiding_core::units::Severity;
use farsiding_core::view::{Attribution, Blocker, Disagreement, Met, VisitView};
use farsiding_core::{Arg, Joint, Message, message};
use farsiding_words::Words;
use maud::{Markup, html};

use super::frame::{self, OfficeUser, Place, RecordViewer, csrf};
use super::page_error::PageError;
use super::{housing, quarantine, scale, visit_measures, visit_story, visit_things};
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
/// Returns [`PageError::NotThere`] when the text is not an id.
pub fn read_visit(text: &str) -> Result<VisitId, PageError> {
    VisitId::read(text).map_err(|_| not_there())
}

fn not_there() -> PageError {
    PageError::NotThere(message!("office-visit-not-here"))
}

/// Folds a visit for a reader, after checking that the reader may see it.
///
/// # Errors
/// Returns [`PageError`] when the reader may not see the visit or the visit does not exist.
pub async fn open(
    office: &Office,
    reader: RecordViewer,
    text: &str,
) -> Result<(OfficeUser, Shown), PageError> {
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
            Some(only) if !only.contains(&visit) => Err(PageError::NotYours),
            _ => Err(not_there()),
        },
    }
}

/// `GET /office/visits/{visit}`: shows the visit.
pub async fn show(
    State(office): State<Arc<Office>>,
    reader: RecordViewer,
    Path(visit): Path<String>,
) -> Result<Response, PageError> {
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
    let car = car_name(user.words, &page.shown.view);
    Ok(frame::page(&user, &car, Place::Elsewhere, body(&user, id, &page)))
}

fn car_name(w: &Words, view: &VisitView) -> String {
    if view.header.car.is_empty() { w.say("office-visit-car-unknown") } else { view.header.car.clone() }
}

fn body(user: &OfficeUser, id: VisitId, page: &Page) -> Markup {
    let view = &page.shown.view;
    let path = path_of(id);
    let w = user.words;
    html! {
        (head(w, view, &path))
        @if user.is_office() { (quarantine::offer(user, &path, page.phantom, &page.hidden)) }
        div #visit data-live="" {
            (state(w, view))
            @for (at, disagreement) in view.disagreements.iter().enumerate() {
                (settle(user, &path, disagreement, at, page))
            }
            (findings(w, view))
            h2 { (w.say("office-visit-car")) }
            div.two {
                (housing::plan(w, &view.plan))
                div { (fittings(w, view)) }
            }
            (missing(w, view))
            (visit_measures::readings(w, &page.shown))
            (visit_measures::computed(w, view))
            (visit_things::received(w, view))
            (visit_things::seals(w, view))
            (visit_things::photographs(user, view, page, &path))
            (visit_things::defects(w, view))
            (visit_story::ended(user, &path, view))
            (visit_story::devices(w, view))
            (visit_story::story(w, &page.shown))
        }
        @if user.is_office() { (visit_story::doors(user, page, &path)) }
    }
}

fn head(w: &Words, view: &VisitView, path: &str) -> Markup {
    let header = &view.header;
    let since = message!(
        "office-visit-since",
        since = Arg::typed(&header.since_shown),
        count = view.entries,
        zone = Arg::typed(zone_words(&header.zone))
    );
    html! {
        div.visit-head {
            div {
                h1 { (car_name(w, view)) }
                p.lead {
                    (header.site_name)
                    @if !header.spot.is_empty() { " · " (header.spot) }
                    @if let Some(receiver) = header.receiver {
                        " · " (w.text(&message!("office-visit-receiver", receiver = receiver.term())))
                    }
                    @if !header.product.is_empty() {
                        " · " (w.text(&message!("office-visit-product", product = Arg::typed(&header.product))))
                    }
                }
                p.small {
                    (w.text(&since))
                    @if header.visits.len() > 1 { " " (w.say("office-visit-joined")) }
                    @if !header.procedure_title.is_empty() {
                        " " (w.text(&message!("office-visit-procedure", procedure = header.procedure_title.clone())))
                    }
                }
            }
            div.row.no-print {
                a.key href=(path) { (w.say("office-visit-refresh")) }
                a.key href={ (path) "/strip" } download="" { (w.say("phone-strip-print")) }
                a.go href={ (path) "/packet" } download="" { (w.say("office-visit-packet")) }
            }
        }
    }
}

/// Returns who made a statement, when and on which device. The page uses the same form everywhere.
pub fn by(w: &Words, said: &Attribution) -> Markup {
    html! {
        small {
            (w.text(&message!(
                "office-visit-by",
                name = Arg::typed(&said.name),
                time = Arg::typed(&said.shown),
                device = Arg::typed(&said.device_name)
            )))
            @if let Some(warning) = said.standing.warning() { " · " span.hot { (w.text(&warning)) } }
        }
    }
}

fn state(w: &Words, view: &VisitView) -> Markup {
    html! {
        div.plate {
            (scale::stages(view.stage, view.release.released.is_some()))
            p.stage {
                @match &view.release.released {
                    Some(released) => {
                        @if released.value { (w.say("office-visit-released-residue")) } @else { (w.say("office-visit-released-not-residue")) }
                        " " (by(w, &released.said))
                    }
                    None => { (scale::stage_name(w, view.stage)) }
                }
            }
            @if !view.tally.out.is_empty() {
                p.hot { (scale::caution()) " "
                    (w.text(&message!("office-visit-out", items = Arg::list(Joint::Comma, view.tally.out.iter().map(|item| Message::typed(&item.item))))))
                }
            }
        }
        @for one in view.car.carried.iter().filter(|one| one.is_left_for(&view.header.visits)) {
            p.told { (scale::caution()) " " (w.text(&message!("office-visit-next-time", what = one.says.clone()))) " " (by(w, &one.said)) }
        }
        @for hold in view.holds.iter().filter(|hold| hold.open) {
            p.trouble { (scale::hold()) " " (w.text(&message!("office-visit-hold", because = Arg::typed(&hold.because)))) " " (by(w, &hold.said)) }
        }
        @for (stops, said) in stopping(view) {
            p.trouble { (scale::hold()) " " (w.text(&message!("office-visit-hold", because = stops))) " " (by(w, said)) }
        }
        @for offer in &view.offers {
            p.told { (scale::differ()) " " (w.text(&offer.sentence)) " " a href=(path_of(offer.other)) { (w.say("office-visit-see-other")) } }
        }
    }
}

/// Returns the incidents and leaks that stop the job, with who recorded them.
fn stopping(view: &VisitView) -> Vec<(Message, &Attribution)> {
    let incidents = view.incidents.iter().filter(|incident| incident.open);
    let leaks = view.leaks.iter().filter(|leak| leak.open);
    let incidents = incidents.map(|incident| (incident.briefly(), &incident.said));
    incidents.chain(leaks.map(|leak| (leak.briefly(), &leak.said))).collect()
}

/// Returns two or more differing accounts side by side, with the form that settles them.
fn settle(user: &OfficeUser, path: &str, differ: &Disagreement, at: usize, page: &Page) -> Markup {
    let w = user.words;
    let seen: Vec<String> = differ.entries.iter().map(ToString::to_string).collect();
    let received = |said: &Attribution| {
        page.shown.received.get(&said.entry).map(|at| visit_story::in_zone(&page.shown.view, *at))
    };
    html! {
        section.plate.hot-edge.settle aria-labelledby={ "differ-" (at) } {
            h2 id={ "differ-" (at) } { (scale::differ()) " " (w.text(&message!("office-visit-differ", about = differ.about.clone()))) }
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
                                    b { (w.text(&claim.sentence)) }
                                    (by(w, &claim.said))
                                    @if let Some(at) = received(&claim.said) { br; small { (w.text(&message!("office-visit-received-at", time = Arg::typed(at)))) } }
                                    @if !claim.said.why.is_empty() { br; small { (because(w, &claim.said.why)) } }
                                }
                            }
                        }
                    }
                }
                @for back in &differ.reopened {
                    p.small { (w.say("office-visit-reopened")) " · " (by(w, &back.said)) @if !back.said.why.is_empty() { " " (because(w, &back.said.why)) } }
                }
                @if user.may(Right::Settle) {
                    div.stack.no-print {
                        label for={ "why-" (at) } { (w.say("office-visit-why-stands")) }
                        textarea.field id={ "why-" (at) } name="why" maxlength="1000" required {}
                        p.small { (w.say("office-visit-settle-note")) }
                        button.go type="submit" { (w.say("office-visit-settle")) }
                    }
                }
            }
        }
    }
}

fn findings(w: &Words, view: &VisitView) -> Markup {
    html! {
        @if !view.findings.is_empty() || !view.advice.is_empty() {
            h2 { (w.say("office-visit-notices")) }
            ul.plain.split {
                @for finding in view.findings.iter().chain(&view.advice) {
                    li.hot-edge[finding.severity == Severity::Alarm] {
                        @match finding.severity {
                            Severity::Alarm => { span.hot { (scale::caution()) " " (w.say("office-visit-alarm")) " " } }
                            Severity::Check => { b { (w.say("office-visit-check")) " " } }
                            Severity::Note => {}
                        }
                        (w.text(&finding.message))
                    }
                }
            }
        }
    }
}

fn fittings(w: &Words, view: &VisitView) -> Markup {
    html! {
        div.wide tabindex="0" role="region" aria-label=(w.say("office-visit-fittings")) {
            table {
                thead { tr { th scope="col" { (w.say("office-visit-fitting")) } th scope="col" { (w.say("office-visit-valve")) } th scope="col" { (w.say("office-visit-closure")) } th scope="col" { (w.say("office-visit-heard")) } th scope="col" { (w.say("office-visit-line")) } } }
                tbody {
                    @for fitting in &view.fittings {
                        tr {
                            th scope="row" { (w.text(&fitting.fitting.term())) }
                            td {
                                @match &fitting.valve {
                                    Some(valve) => { (w.text(&valve.value.term())) @if valve.disputed { " " span.hot { (w.say("office-visit-entries-differ")) } } }
                                    None if fitting.fitting.has_valve() => { (w.say("office-visit-not-recorded")) }
                                    None => { "—" }
                                }
                            }
                            td {
                                @match &fitting.closure {
                                    Some(closure) => {
                                        (w.text(&closure.value.term()))
                                        @if closure.disputed { " " span.hot { (w.say("office-visit-entries-differ")) } }
                                        @if let Some(threads) = &fitting.threads { br; small { (w.text(&message!("office-visit-engaged", threads = threads.value.arg()))) } }
                                    }
                                    None => { (w.say("office-visit-not-recorded")) }
                                }
                            }
                            td {
                                @match &fitting.listen {
                                    Some(heard) => { (w.text(&heard.value.term())) @if fitting.listened_since_shut { br; small { (w.say("office-visit-after-shut")) } } }
                                    None => { "—" }
                                }
                            }
                            td {
                                @match &fitting.line {
                                    Some(line) if line.value.connected => { b { (w.say("office-visit-line-on")) } " " (line.value.hose) }
                                    Some(_) => { (w.say("office-visit-line-off")) }
                                    None => { "—" }
                                }
                            }
                        }
                        @for advice in &fitting.advice { tr { td colspan="5" { (w.text(&advice.message)) } } }
                    }
                }
            }
        }
        dl.facts {
            @if let Some(cover) = &view.cover {
                dt { (w.say("office-visit-cover")) }
                dd {
                    (w.text(&message!(
                        "office-visit-cover-state",
                        closed = yes_or_no(cover.value.closed),
                        pinned = yes_or_no(cover.value.pinned),
                        there = Arg::Number(cover.value.bolts_in_place.to_string()),
                        wanted = Arg::Number(cover.value.bolts_required.to_string())
                    ))) " " (by(w, &cover.said))
                }
            }
            @for protection in &view.protections {
                @if let Some(set) = &protection.set {
                    dt { (scale::capital(&w.text(&protection.what.term()))) }
                    dd { (w.text(&protection_state(protection.what, set.value))) " " (by(w, &set.said)) }
                }
            }
            @if let Some(weather) = &view.weather { dt { (w.say("office-visit-weather")) } dd { (w.text(&weather.value)) " " (by(w, &weather.said)) } }
        }
    }
}

/// Returns the reason that a person stated.
pub fn because(w: &Words, why: &str) -> String {
    w.text(&message!("office-visit-because", why = Arg::typed(why)))
}

fn yes_or_no(is: bool) -> Arg {
    Arg::typed(if is { "yes" } else { "no" })
}

fn protection_state(what: Protection, set: bool) -> Message {
    if set {
        Message::term("protection_set", what.word())
    } else {
        Message::term("protection_away", what.word())
    }
}

/// Returns what is open at a gate, alarms first, and what is there with the entry that met it.
fn at_gate(
    w: &Words,
    title: &str,
    signed: Option<&Attribution>,
    blockers: &[Blocker],
    met: &[Met],
) -> Markup {
    let open: Vec<&Blocker> = blockers.iter().filter(|blocker| blocker.passed_over.is_none()).collect();
    html! {
        h2 { (title) }
        @match signed {
            Some(said) => p { (w.text(&message!("gate-signed", who = said.signature()))) },
            None => p { (w.say("gate-not-signed")) },
        }
        @if open.is_empty() {
            p { (w.say("gate-nothing-open")) }
        } @else {
            details open[open.len() <= 8] {
                summary { (w.text(&message!("office-visit-items", count = open.len()))) }
                ul.plain.split {
                    @for blocker in &open {
                        li.hot-edge[blocker.kind == BlockerKind::Alarm] { (w.text(&blocker.missing)) br; small { (w.text(&message!("office-visit-asked-by", who = blocker.asked_by.term(), source = blocker.source.clone()))) } }
                    }
                }
            }
        }
        @if !met.is_empty() {
            details {
                summary { (w.text(&message!("gate-there", count = met.len()))) }
                ul.plain.split {
                    @for met in met {
                        li {
                            @match &met.by {
                                Some(by) => (w.text(&message!("gate-met-by", what = met.what.clone(), who = by.signature()))),
                                None => (w.text(&met.what)),
                            }
                        }
                    }
                }
            }
        }
    }
}

/// Returns both gates, and what somebody overrode.
fn missing(w: &Words, view: &VisitView) -> Markup {
    let title = if view.release.released.is_some() {
        w.say("office-visit-open-at-release")
    } else {
        w.say("office-visit-open-items")
    };
    let fit = view.unloading.fit.as_ref().map(|fit| &fit.said);
    let released = view.release.released.as_ref().map(|released| &released.said);
    html! {
        @if view.unloading.asked {
            (at_gate(w, &w.say("gate-unload"), fit, &view.unloading.blockers, &view.unloading.met))
        }
        (at_gate(w, &title, released, &view.blockers, &view.release.met))
        @if !view.passed_over.is_empty() {
            h2 { (w.say("office-visit-overridden")) }
            ul.plain {
                @for word in &view.passed_over {
                    li.hot-edge[!word.stands] {
                        b { (w.text(&word.spoken)) } ": " (w.text(&word.why)) " " (by(w, &word.said))
                        @if let Some(fallen) = &word.fallen { " " span.hot { (w.text(&message!("office-visit-fallen", why = fallen.clone()))) } }
                    }
                }
            }
        }
    }
}
