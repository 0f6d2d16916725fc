//! The page of instruments and hoses: when each is due, the overdue ones first, and which stays used one past
//! its date.

use std::sync::Arc;

use axum::extract::State;
use axum::response::Response;
use farsiding_core::clock::UtcMillis;
use farsiding_core::view::SiteView;
use farsiding_core::{Arg, Message, message};
use maud::html;

use super::frame::{self, OfficeUser, Place};
use super::page_error::PageError;
use super::seals::LOOK_BACK;
use crate::month;
use crate::state::Office;
use farsiding_reconcile::facts::{Facts, day_of};

/// An instrument or a hose with its date.
struct Thing {
    name: String,
    what: Message,
    site: String,
    due: String,
    overdue: bool,
    /// The stays that used it after the date: car, day and visit.
    used_late: Vec<(String, String, Option<farsiding_core::ids::VisitId>)>,
}

/// `GET /office/instruments`: shows the instruments and hoses.
pub async fn show(State(office): State<Arc<Office>>, user: OfficeUser) -> Result<Response, PageError> {
    frame::note(&office, &user, "looked", "instruments").await?;
    let now = office.now();
    let span = (UtcMillis(now.0 - LOOK_BACK), UtcMillis(now.0 + 86_400_000));
    let ((all, _), sites) =
        office.on_index(move |asking| Ok((month::of_index(asking, span)?, month::sites_of(asking)?))).await?;
    let things = things(&sites, &all, now);
    let unknown = unknown(&sites, &all);
    let late = things.iter().filter(|thing| thing.overdue).count();
    let w = user.words;
    let body = html! {
        h1 { (w.say("office-instruments-title")) }
        p.lead { (w.text(&message!("office-instruments-described", count = things.len()))) " " @if late == 0 { (w.say("office-instruments-none-late")) } @else { b.hot { (w.text(&message!("office-instruments-late", count = late))) } } " " (w.say("office-instruments-twice")) }
        (frame::behind(user.words, &office))
        div.wide tabindex="0" role="region" aria-label=(w.say("office-instruments-title")) {
            table {
                thead { tr { th scope="col" { (w.say("office-instruments-name")) } th scope="col" { (w.say("office-instruments-what")) } th scope="col" { (w.say("office-instruments-site")) } th scope="col" { (w.say("office-instruments-due")) } th scope="col" { (w.say("office-instruments-used")) } } }
                tbody {
                    @for thing in &things {
                        tr {
                            th.time scope="row" { (thing.name) }
                            td { (w.text(&thing.what)) }
                            td { (thing.site) }
                            td { @if thing.due.is_empty() { (w.say("office-instruments-no-date")) } @else if thing.overdue { b.hot { (w.text(&message!("office-instruments-overdue", day = Arg::typed(&thing.due)))) } } @else { (thing.due) } }
                            td {
                                @if thing.used_late.is_empty() { "—" }
                                @for (car, day, visit) in thing.used_late.iter().take(6) {
                                    @match visit { Some(visit) => { a href={ "/office/visits/" (visit) } { (car) } } None => { (car) } } " " small { (day) } " "
                                }
                                @if thing.used_late.len() > 6 { (w.text(&message!("office-instruments-more", count = thing.used_late.len() - 6))) }
                            }
                        }
                    }
                }
            }
        }
        @if !unknown.is_empty() {
            section { h2 { (w.say("office-instruments-unknown")) } ul.plain.split { @for (name, site, cars) in unknown.iter().take(60) { li { b { (name) } ", " (site) ": " (w.text(&message!("office-instruments-stays", count = *cars))) } } } }
        }
    };
    Ok(frame::page(&user, &w.say("office-instruments-title"), Place::Instruments, body))
}

fn same(a: &str, b: &str) -> bool {
    a.trim().to_lowercase() == b.trim().to_lowercase()
}

/// Returns all instruments and hoses: the overdue ones first, then by date, and those without a date last.
fn things(sites: &[SiteView], all: &[Facts], now: UtcMillis) -> Vec<Thing> {
    let mut things = Vec::new();
    for site in sites {
        let zone = site.zone.parse().unwrap_or(chrono_tz::Tz::UTC);
        let today = day_of(now, zone);
        let mut add = |hose: bool, name: &str, what: Message, due: &str| {
            let due = due.trim().to_owned();
            let dated = due.parse::<chrono::NaiveDate>().is_ok();
            let used_late = all
                .iter()
                .filter(|facts| dated && facts.site == site.id)
                .filter_map(|facts| {
                    let used = facts.used.iter().find(|used| used.hose == hose && same(&used.name, name))?;
                    (used.day > due).then(|| (facts.car.clone(), used.day.clone(), facts.visit()))
                })
                .collect();
            let overdue = dated && today > due;
            things.push(Thing {
                name: name.to_owned(),
                what,
                site: site.name.clone(),
                due,
                overdue,
                used_late,
            });
        };
        for instrument in &site.instruments {
            let (measures, span) = (instrument.measures.message(), instrument.span.arg());
            let what = if instrument.grade.is_empty() {
                message!("office-instruments-gauge", measures = measures, span = span)
            } else {
                let grade = Arg::typed(&instrument.grade);
                message!("office-instruments-graded", measures = measures, span = span, grade = grade)
            };
            add(false, &instrument.name, what, &instrument.calibration_due);
        }
        for hose in &site.hoses {
            let what = message!("office-instruments-hose", service = Arg::typed(&hose.service));
            add(true, &hose.name, what, &hose.test_due);
        }
    }
    things.sort_by(|a, b| {
        (!a.overdue, a.due.is_empty(), &a.due, &a.name).cmp(&(!b.overdue, b.due.is_empty(), &b.due, &b.name))
    });
    things
}

/// Returns the names in records that no site describes, with the number of stays.
fn unknown(sites: &[SiteView], all: &[Facts]) -> Vec<(String, String, usize)> {
    let mut counts: std::collections::BTreeMap<(String, String), usize> = std::collections::BTreeMap::new();
    for facts in all {
        let site = sites.iter().find(|site| site.id == facts.site);
        for used in &facts.used {
            let described = site.is_some_and(|site| {
                if used.hose {
                    site.hose(&used.name).is_some()
                } else {
                    site.instrument(&used.name).is_some()
                }
            });
            if !described {
                *counts.entry((used.name.clone(), facts.site_name.clone())).or_default() += 1;
            }
        }
    }
    counts.into_iter().map(|((name, site), count)| (name, site, count)).collect()
}
