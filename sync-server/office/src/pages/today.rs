//! The start page: every car at every site, its stage, what keeps it, and what phones have not sent yet.

use std::collections::BTreeMap;
use std::sync::Arc;

use axum::extract::State;
use axum::response::Response;
use farsiding_core::clock::UtcMillis;
use farsiding_core::ids::{DeviceId, SiteId};
use farsiding_core::{Arg, Joint, Message, message};
use farsiding_words::Words;
use maud::{Markup, html};

use super::frame::{self, OfficeUser, Place, ago, stretch};
use super::overdue::overdue;
use super::page_error::PageError;
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
pub async fn show(State(office): State<Arc<Office>>, user: OfficeUser) -> Result<Response, PageError> {
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
    let w = user.words;
    let body = html! {
        div.row.apart {
            h1 { (w.say("office-today-title")) }
            a.key.no-print href="/office/" { (w.say("office-today-refresh")) }
        }
        div #today data-live="" {
            (frame::behind(user.words, &office))
            (summary(w, &found))
            (overdue(w, &found.here, now))
            (behind_list(w, &found, &devices, now))
            (by_site(w, &found, now))
            (leaving(w, &found, now))
        }
    };
    Ok(frame::page(&user, &w.say("office-today-title"), Place::Today, body))
}

fn summary(w: &Words, found: &Now) -> Markup {
    let held = found.here.iter().filter(|line| line.on_hold).count();
    let differ = found.here.iter().filter(|line| line.disagreements > 0).count();
    let sites: std::collections::BTreeSet<_> = found.here.iter().map(|line| line.site).collect();
    let count = message!(
        "office-today-count",
        cars = message!("office-today-cars", count = found.here.len()),
        sites = message!("office-today-sites", count = sites.len())
    );
    html! {
        p.lead {
            (w.text(&count))
            @if held > 0 { " " b.hot { (w.text(&message!("office-today-held", count = held))) } }
            @if differ > 0 { " " b.hot { (w.text(&message!("office-today-differ", count = differ))) } }
        }
    }
}

/// Returns the list of what the phones have not sent, by their own last report and by the gaps in their
/// chains.
fn behind_list(w: &Words, found: &Now, devices: &[RegisteredDevice], now: UtcMillis) -> Markup {
    let here: std::collections::BTreeSet<DeviceId> =
        found.here.iter().flat_map(|line| line.devices.iter().copied()).collect();
    let mut gaps: BTreeMap<DeviceId, Vec<String>> = BTreeMap::new();
    for (device, gap) in &found.gaps {
        let name = devices
            .iter()
            .find(|known| known.device == *device)
            .map_or_else(|| w.text(&gap_device(*device)), |known| known.name.clone());
        gaps.entry(*device).or_default().push(w.text(&gap.sentence(&name)));
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
        return html! { p { (w.say("office-today-all-in")) } };
    }
    html! {
        section aria-labelledby="behind" {
            h2 #behind { (w.say("office-today-behind")) }
            ul.behind {
                @for device in waiting {
                    li {
                        b { (scale::phone()) " " (device.name) } br;
                        @match (device.unsent_entries.unwrap_or(0), device.unsent_photos.unwrap_or(0)) {
                            (0, 0) => { (w.say("office-today-sent-all")) }
                            (entries, photos) => { (w.text(&message!("office-today-unsent", what = unsent_message(entries, photos)))) }
                        }
                        " · "
                        @match device.seen_at {
                            Some(seen) => { (w.text(&message!("office-today-heard", ago = ago(now.since(seen))))) }
                            None => { (w.text(&message!("office-today-heard", ago = message!("office-today-never")))) }
                        }
                    }
                }
                @for sentence in gaps.values().flatten() {
                    li.hot-edge { (scale::caution()) " " (sentence) }
                }
                @if found.photos > 0 {
                    li { (w.text(&message!("office-today-photos", count = u64::try_from(found.photos).unwrap_or(0)))) }
                }
            }
        }
    }
}

/// Returns the name of a device that is not registered here.
fn gap_device(device: DeviceId) -> Message {
    message!("office-today-device", device = Arg::typed(device.short()))
}

/// Returns what a device has not sent.
pub fn unsent_message(entries: u64, photos: u64) -> Message {
    let entries = (entries > 0).then(|| message!("office-today-entries", count = entries));
    let photos = (photos > 0).then(|| message!("office-today-photographs", count = photos));
    let all: Vec<Message> = entries.into_iter().chain(photos).collect();
    if all.is_empty() {
        return message!("office-today-nothing-unsent");
    }
    message!("office-today-items", items = Arg::list(Joint::And, all))
}

fn by_site(w: &Words, found: &Now, now: UtcMillis) -> Markup {
    let mut sites: BTreeMap<String, Vec<&IndexRow>> = BTreeMap::new();
    for (_, name) in &found.sites {
        sites.entry(name.clone()).or_default();
    }
    for line in &found.here {
        let name = if line.site_name.is_empty() {
            w.say("office-today-site-unknown")
        } else {
            line.site_name.clone()
        };
        sites.entry(name).or_default().push(line);
    }
    html! {
        @if sites.is_empty() {
            p.none { (w.say("office-today-no-site")) }
        }
        @for (name, cars) in &sites {
            section.site {
                h2 { (name) " " small { (w.text(&message!("office-today-cars", count = cars.len()))) } }
                @if cars.is_empty() {
                    p.none { (w.say("office-today-no-car")) }
                } @else {
                    ul.track { @for line in cars { (car(w, line, now)) } }
                }
            }
        }
    }
}

/// Returns one car on its track.
fn car(w: &Words, line: &IndexRow, now: UtcMillis) -> Markup {
    let (what, hot) = keeps(w, line);
    html! {
        li.car.held[line.on_hold] {
            div {
                @match line.visit() {
                    Some(visit) => { a.num href={ "/office/visits/" (visit) } { (number_of(w, line)) } }
                    None => { span.num { (number_of(w, line)) } }
                }
                @if !line.spot.is_empty() { small { (line.spot) } }
            }
            div.stage {
                (scale::stages(line.stage, line.released))
                (scale::stage_name(w, line.stage)) @if !line.product.is_empty() { small { " · " (line.product) } }
            }
            div.keeps.hot[hot] { (what) }
            div.since {
                b { (w.text(&stretch(now.since(line.placed.unwrap_or(line.since))))) }
                small { @if line.placed.is_some() { (w.say("office-today-since-placement")) } @else { (w.say("office-today-since-entry")) } }
            }
        }
    }
}

/// Returns the car's number, or a note that there is none.
pub fn number_of(w: &Words, line: &IndexRow) -> String {
    if line.car.is_empty() { w.say("office-today-number-unknown") } else { line.car.clone() }
}

/// Returns what keeps a car, with its icon, and whether it needs attention.
pub fn keeps(w: &Words, line: &IndexRow) -> (Markup, bool) {
    let said = w.text(&line.kept_by);
    if line.on_hold {
        (html! { (scale::hold()) " " (said) }, true)
    } else if line.disagreements > 0 {
        (html! { (scale::differ()) " " (said) }, true)
    } else if line.alarms > 0 {
        (
            html! { (scale::caution()) " " @if said.is_empty() { (w.say("office-today-alarm")) } @else { (said) } },
            true,
        )
    } else if said.is_empty() {
        (html! { (w.say("office-today-nothing")) }, false)
    } else {
        (html! { (scale::forward()) " " (said) }, false)
    }
}

fn leaving(w: &Words, found: &Now, now: UtcMillis) -> Markup {
    html! {
        @if !found.leaving.is_empty() {
            section {
                h2 { (w.say("office-today-leaving")) }
                div.wide tabindex="0" role="region" aria-label=(w.say("office-today-released-cars")) {
                    table {
                        thead { tr { th scope="col" { (w.say("office-today-car")) } th scope="col" { (w.say("office-today-site")) } th scope="col" { (w.say("office-today-released")) } th scope="col" { (w.say("office-today-notices")) } } }
                        tbody {
                            @for line in &found.leaving {
                                tr {
                                    th scope="row" {
                                        @match line.visit() {
                                            Some(visit) => { a href={ "/office/visits/" (visit) } { (number_of(w, line)) } }
                                            None => { (number_of(w, line)) }
                                        }
                                    }
                                    td { (line.site_name) }
                                    td { @if let Some(at) = line.released_at { (w.text(&ago(now.since(at)))) } }
                                    td {
                                        @if line.alarms > 0 || line.disagreements > 0 || !line.kept_by.is_empty() {
                                            @let (what, hot) = keeps(w, line);
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
