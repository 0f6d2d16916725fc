//! The start page: every car at every site, its stage, what keeps it, and what phones have not sent yet.

use std::collections::BTreeMap;
use std::sync::Arc;

use axum::extract::State;
use axum::response::Response;
use farsiding_core::clock::UtcMillis;
use farsiding_core::ids::{DeviceId, SiteId};
use maud::{Markup, html};

use super::frame::{self, OfficeUser, Place, ago, plural, stretch};
use super::refused::Refused;
use super::scale;
use crate::index::IndexRow;
use crate::index::chains::Gap;
use crate::office_database::RegisteredDevice;
use crate::state::Office;

/// How long a phone may be silent while its cars are at the site before that is pointed out, in milliseconds
/// (a default of this tool, no source).
const SILENT_FOR: i64 = 24 * 60 * 60 * 1000;

struct Now {
    here: Vec<IndexRow>,
    leaving: Vec<IndexRow>,
    sites: Vec<(SiteId, String)>,
    gaps: Vec<(DeviceId, Gap)>,
    photos: i64,
}

/// `GET /office/`: shows the start page.
pub async fn show(State(office): State<Arc<Office>>, user: OfficeUser) -> Result<Response, Refused> {
    frame::note(&office, &user, "looked", "today").await?;
    let now = office.now();
    let found = office
        .on_index(move |asking| {
            Ok(Now {
                here: asking.here()?,
                leaving: asking.leaving(now)?,
                sites: asking.sites()?,
                gaps: asking.gaps()?,
                photos: asking.ledger.photos_to_come()?,
            })
        })
        .await?;
    let devices = office.on_database(|database| database.devices()).await?;
    let body = html! {
        div.row.apart {
            h1 { "Today" }
            a.key.no-print href="/office/" { "Look again" }
        }
        div #today data-live="" {
            (frame::behind(&office))
            (summary(&found))
            (behind_list(&found, &devices, now))
            (by_site(&found, now))
            (leaving(&found, now))
        }
    };
    Ok(frame::page(&user, "Today", Place::Today, body))
}

fn summary(found: &Now) -> Markup {
    let held = found.here.iter().filter(|line| line.on_hold).count();
    let differ = found.here.iter().filter(|line| line.disagreements > 0).count();
    let sites: std::collections::BTreeSet<_> = found.here.iter().map(|line| line.site).collect();
    html! {
        p.lead {
            (plural(found.here.len(), "car", "cars")) " at " (plural(sites.len(), "site", "sites")) "."
            @if held > 0 { " " b.hot { (held) " on hold." } }
            @if differ > 0 { " " b.hot { (differ) " with accounts that differ." } }
        }
    }
}

/// Returns the list of what the phones have not sent, by their own last report and by the gaps in their
/// chains.
fn behind_list(found: &Now, devices: &[RegisteredDevice], now: UtcMillis) -> Markup {
    let here: std::collections::BTreeSet<DeviceId> =
        found.here.iter().flat_map(|line| line.devices.iter().copied()).collect();
    let mut gaps: BTreeMap<DeviceId, Vec<String>> = BTreeMap::new();
    for (device, gap) in &found.gaps {
        let name = devices
            .iter()
            .find(|known| known.device == *device)
            .map_or_else(|| format!("device {}", device.short()), |known| known.name.clone());
        gaps.entry(*device).or_default().push(gap.sentence(&name));
    }
    let waiting: Vec<&RegisteredDevice> = devices
        .iter()
        .filter(|device| device.revoked_at.is_none())
        .filter(|device| {
            let unsent = device.unsent_entries.unwrap_or(0) + device.unsent_photos.unwrap_or(0) > 0;
            let silent = device.seen_at.is_some_and(|seen| now.since(seen) > SILENT_FOR);
            unsent || (silent && here.contains(&device.device))
        })
        .collect();
    if waiting.is_empty() && gaps.is_empty() && found.photos == 0 {
        return html! { p { "Everything the phones said they had has come in. What they recorded since they last spoke to the office is not known here." } };
    }
    html! {
        section aria-labelledby="behind" {
            h2 #behind { "Not come in yet" }
            ul.behind {
                @for device in waiting {
                    li {
                        b { (scale::phone()) " " (device.name) } br;
                        @match (device.unsent_entries.unwrap_or(0), device.unsent_photos.unwrap_or(0)) {
                            (0, 0) => { "said it had sent everything" }
                            (entries, photos) => { "had " (unsent(entries, photos)) " unsent" }
                        }
                        ", last heard "
                        @match device.seen_at {
                            Some(seen) => { (ago(now.since(seen))) }
                            None => { "never" }
                        }
                    }
                }
                @for sentence in gaps.values().flatten() {
                    li.hot-edge { (scale::caution()) " " (sentence) }
                }
                @if found.photos > 0 {
                    li { (plural(usize::try_from(found.photos).unwrap_or(0), "photograph", "photographs")) " spoken of, bytes not here yet" }
                }
            }
        }
    }
}

/// Returns what a device has not sent, in words.
pub fn unsent(entries: u64, photos: u64) -> String {
    let count = |count: u64| usize::try_from(count).unwrap_or(usize::MAX);
    let (entries, photos) =
        (plural(count(entries), "entry", "entries"), plural(count(photos), "photograph", "photographs"));
    match (entries.starts_with("0 "), photos.starts_with("0 ")) {
        (true, true) => "nothing".to_owned(),
        (false, true) => entries,
        (true, false) => photos,
        (false, false) => format!("{entries} and {photos}"),
    }
}

fn by_site(found: &Now, now: UtcMillis) -> Markup {
    let mut sites: BTreeMap<String, Vec<&IndexRow>> = BTreeMap::new();
    for (_, name) in &found.sites {
        sites.entry(name.clone()).or_default();
    }
    for line in &found.here {
        let name = if line.site_name.is_empty() { "Site not known yet" } else { line.site_name.as_str() };
        sites.entry(name.to_owned()).or_default().push(line);
    }
    html! {
        @if sites.is_empty() {
            p.none { "No site is known here yet: the first phone that syncs brings its own." }
        }
        @for (name, cars) in &sites {
            section.site {
                h2 { (name) " " small { (plural(cars.len(), "car", "cars")) } }
                @if cars.is_empty() {
                    p.none { "No car stands here." }
                } @else {
                    ul.track { @for line in cars { (car(line, now)) } }
                }
            }
        }
    }
}

/// Returns one car on its track.
fn car(line: &IndexRow, now: UtcMillis) -> Markup {
    let (what, hot) = keeps(line);
    html! {
        li.car.held[line.on_hold] {
            div {
                @match line.visit() {
                    Some(visit) => { a.num href={ "/office/visits/" (visit) } { (number_of(line)) } }
                    None => { span.num { (number_of(line)) } }
                }
                @if !line.spot.is_empty() { small { (line.spot) } }
            }
            div.stage {
                (scale::stages(line.stage, line.released))
                (scale::stage_name(line.stage)) @if !line.product.is_empty() { small { " · " (line.product) } }
            }
            div.keeps.hot[hot] { (what) }
            div.since {
                b { (stretch(now.since(line.placed.unwrap_or(line.since)))) }
                small { @if line.placed.is_some() { "since placement" } @else { "since the first entry" } }
            }
        }
    }
}

/// Returns the car's number, or a note that there is none.
pub fn number_of(line: &IndexRow) -> &str {
    if line.car.is_empty() { "number not known" } else { &line.car }
}

/// Returns what keeps a car, with its icon, and whether it needs attention.
pub fn keeps(line: &IndexRow) -> (Markup, bool) {
    let said = &line.kept_by;
    if line.on_hold {
        (html! { (scale::hold()) " " (said) }, true)
    } else if line.disagreements > 0 {
        (html! { (scale::differ()) " " (said) }, true)
    } else if line.alarms > 0 {
        (
            html! { (scale::caution()) " " @if said.is_empty() { "something is wrong: see the record" } @else { (said) } },
            true,
        )
    } else if said.is_empty() {
        (html! { "nothing that this record looks for is missing" }, false)
    } else {
        (html! { (scale::forward()) " " (said) }, false)
    }
}

fn leaving(found: &Now, now: UtcMillis) -> Markup {
    html! {
        @if !found.leaving.is_empty() {
            section {
                h2 { "Released, not known to be pulled" }
                div.wide tabindex="0" role="region" aria-label="Released cars" {
                    table {
                        thead { tr { th scope="col" { "Car" } th scope="col" { "Site" } th scope="col" { "Released" } th scope="col" { "Worth knowing" } } }
                        tbody {
                            @for line in &found.leaving {
                                tr {
                                    th scope="row" {
                                        @match line.visit() {
                                            Some(visit) => { a href={ "/office/visits/" (visit) } { (number_of(line)) } }
                                            None => { (number_of(line)) }
                                        }
                                    }
                                    td { (line.site_name) }
                                    td { @if let Some(at) = line.released_at { (ago(now.since(at))) } }
                                    td {
                                        @if line.alarms > 0 || line.disagreements > 0 || !line.kept_by.is_empty() {
                                            @let (what, hot) = keeps(line);
                                            span.hot[hot] { (what) }
                                        } @else { "—" }
                                    }
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}
