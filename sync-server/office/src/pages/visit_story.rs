//! The lower half of a visit's page: ended disagreements, the devices and their chains, the story in order of
//! time, and, for the office, who looked and which links are open.

use std::collections::BTreeMap;

use farsiding_core::clock::UtcMillis;
use farsiding_core::ids::EntryId;
use farsiding_core::view::{Fate, HistoryLine, VisitView, fate_message};
use farsiding_core::{Arg, Message, message};
use farsiding_words::Words;
use maud::{Markup, html};

use super::audit_words;
use super::frame::{OfficeUser, csrf, stretch};
use super::visit::{Page, because, by};
use super::visit_reopen;
use crate::accounts::roles::Right;
use crate::index::finding::Shown;

/// The clock difference from which a device's clock is pointed out, in milliseconds (as on the list of
/// devices).
const CLOCK_OFF: u64 = 120_000;

/// Returns a time in the site's time zone.
pub fn in_zone(view: &VisitView, at: UtcMillis) -> String {
    at.shown_in(view.header.zone.parse().unwrap_or(chrono_tz::Tz::UTC))
}

/// Returns the disagreements that have ended, and how.
pub fn ended(user: &OfficeUser, path: &str, view: &VisitView) -> Markup {
    let w = user.words;
    html! {
        @if !view.ended_disagreements.is_empty() {
            h2 { (w.say("office-visit-ended")) }
            @for ended in &view.ended_disagreements {
                div.plate {
                    h3 { (w.text(&ended.about)) }
                    div.claims {
                        @for claim in &ended.claims {
                            div.claim {
                                b { (w.text(&claim.sentence)) }
                                @if ended.agreed == Some(claim.said.entry) { " " span.tag { (w.say("office-visit-agreed")) } }
                                (by(w, &claim.said))
                            }
                        }
                    }
                    p {
                        @if !ended.settled { b { (w.say("office-visit-later")) " " } } (w.text(&ended.ended_by.sentence)) " " (by(w, &ended.ended_by.said))
                        @if !ended.ended_by.said.why.is_empty() { br; (because(w, &ended.ended_by.said.why)) }
                    }
                    @if let Some(settlement) = ended.reopened_by_withdrawing { (visit_reopen::form(user, path, settlement)) }
                }
            }
        }
    }
}

/// Returns how far a device's clock was off, or `None` if it was hardly off.
pub fn clock_words(ahead: i64) -> Option<Message> {
    let size = stretch(i64::try_from(ahead.unsigned_abs()).unwrap_or(i64::MAX));
    match ahead {
        _ if ahead.unsigned_abs() < CLOCK_OFF => None,
        1.. => Some(message!("office-time-ahead", stretch = size)),
        _ => Some(message!("office-time-behind", stretch = size)),
    }
}

/// Returns the devices that took part, and the gaps in their chains.
pub fn devices(w: &Words, view: &VisitView) -> Markup {
    html! {
        h2 { (w.say("office-visit-devices")) }
        ul.plain.split {
            @for device in &view.header.devices {
                li.hot-edge[device.standing.warning().is_some()] {
                    b { (device.name) } ", " (w.text(&message!("office-visit-device-entries", count = device.entries)))
                    @if let Some(words) = device.ahead_millis.and_then(clock_words) { ", " (w.text(&message!("office-visit-device-clock", off = words))) }
                    @if let Some(warning) = device.standing.warning() { ", " span.hot { (w.text(&warning)) } }
                }
            }
        }
        @if view.chain_gaps.is_empty() {
            p.small { (w.say("office-visit-chains-whole")) }
        } @else {
            @for gap in &view.chain_gaps { p.trouble { (w.text(&gap.sentence)) } }
        }
    }
}

/// Returns the address of an entry within the page.
fn anchor(entry: EntryId) -> String {
    format!("e-{}", &entry.to_string()[..16])
}

/// Returns every entry as a sentence, in causal and then in claimed order, with the claimed time and the time
/// of arrival.
pub fn story(w: &Words, page: &Shown) -> Markup {
    let view = &page.view;
    let mut replaced_by: BTreeMap<EntryId, Vec<EntryId>> = BTreeMap::new();
    for entry in &page.entries {
        for gone in &entry.body.replaces {
            replaced_by.entry(*gone).or_default().push(entry.id);
        }
    }
    html! {
        h2 { (w.say("office-visit-log")) }
        div.wide tabindex="0" role="region" aria-label=(w.say("office-visit-log")) {
            table.story {
                caption { (w.say("office-visit-log-note")) }
                thead { tr { th scope="col" { (w.say("office-visit-claimed")) } th scope="col" { (w.say("office-visit-received")) } th scope="col" { (w.say("office-visit-recorded")) } th scope="col" { (w.say("office-visit-who")) } } }
                tbody { @for line in &view.history { (row(w, page, line, &replaced_by)) } }
            }
        }
    }
}

fn row(w: &Words, page: &Shown, line: &HistoryLine, replaced_by: &BTreeMap<EntryId, Vec<EntryId>>) -> Markup {
    let said = &line.said;
    let gone = matches!(line.fate, Fate::Corrected | Fate::Withdrawn | Fate::Settled | Fate::Kept);
    html! {
        tr.gone[gone] id=(anchor(said.entry)) {
            td.when {
                @match said.ahead_millis.and_then(clock_words) {
                    Some(words) => { (said.device_time) small { (w.text(&message!("office-visit-clock-about", off = words, time = Arg::typed(&said.shown)))) } }
                    None => { (said.shown) }
                }
            }
            td.when {
                @match page.received.get(&said.entry) {
                    Some(at) => { (in_zone(&page.view, *at)) }
                    None => { "—" }
                }
            }
            td.what {
                span { (w.text(&line.sentence)) }
                @if line.fate == Fate::Kept {
                    br; span.hot { (w.text(&line.why_gone)) }
                } @else if let Some(word) = fate_message(line.fate) {
                    " "
                    @match replaced_by.get(&said.entry).and_then(|all| all.first()) {
                        Some(by) => { a.tag href={ "#" (anchor(*by)) } { (w.text(&word)) } }
                        None => { span.tag { (w.text(&word)) } }
                    }
                }
                @if !said.why.is_empty() { br; small { (because(w, &said.why)) } }
                @if !line.why_gone.is_empty() && line.fate == Fate::Agreed { br; small { (w.text(&message!("office-visit-why-kept", why = line.why_gone.clone()))) } }
                @else if !line.why_gone.is_empty() && line.fate != Fate::Kept { br; small { (w.text(&message!("office-visit-why-gone", why = line.why_gone.clone()))) } }
            }
            td {
                (said.name) br; small { (said.device_name) }
                @if line.binds { br; small { (w.text(&said.named.term())) } }
                @if let Some(warning) = said.standing.warning() { br; span.hot { (w.text(&warning)) } }
            }
        }
    }
}

/// Returns the links for inspectors, and the audit rows of the visit.
pub fn doors(user: &OfficeUser, page: &Page, path: &str) -> Markup {
    let view = &page.shown.view;
    let w = user.words;
    html! {
        section.no-print {
            h2 #doors { (w.say("office-visit-inspector")) }
            @if user.may(Right::Settle) { p { (w.say("office-visit-link-note")) }
            form.row method="post" action={ (path) "/links" } {
                (csrf(user))
                label.label for="label" { (w.say("office-visit-link-for")) }
                div { input.field id="label" name="label" maxlength="64" required; }
                label.label for="days" { (w.say("office-visit-link-days")) }
                div { input.field id="days" name="days" type="number" min="1" max="90" value="14" required; }
                button.key type="submit" { (w.say("office-visit-link-make")) }
            } } @else { p { (w.say("office-visit-link-right")) } }
            @if !page.links.is_empty() {
                ul.plain {
                    @for link in &page.links {
                        li {
                            (w.text(&message!("office-visit-link-made", label = Arg::typed(&link.label), by = Arg::typed(&link.made_by)))) ", "
                            @match link.revoked_at {
                                Some(at) => { (w.text(&message!("office-visit-link-revoked", time = Arg::typed(in_zone(view, at))))) }
                                None if link.is_good(page.now) => {
                                    (w.text(&message!("office-visit-link-good", time = Arg::typed(in_zone(view, link.expires_at)))))
                                    @if user.may(Right::Settle) { form.row method="post" action={ (path) "/links/" (link.number) "/revoke" } {
                                        (csrf(user))
                                        button.key.stop type="submit" aria-label=(w.text(&message!("office-visit-link-revoke-of", label = Arg::typed(&link.label)))) { (w.say("office-visit-link-revoke")) }
                                    } }
                                }
                                None => { (w.text(&message!("office-visit-link-expired", time = Arg::typed(in_zone(view, link.expires_at))))) }
                            }
                        }
                    }
                }
            }
            h2 { (w.say("office-visit-looked")) }
            @if page.looked.is_empty() { p { (w.say("office-visit-nobody")) } } @else {
                ul.plain {
                    @for row in &page.looked { li { (in_zone(view, row.at)) " · " (audit_words::who(w, row)) " (" (audit_words::role(w, &row.role)) ") · " (audit_words::did(w, &row.did)) } }
                }
            }
        }
    }
}
