//! The lower half of a visit's page: ended disagreements, the devices and their chains, the story in order of
//! time, and, for the office, who looked and which links are open.

use std::collections::BTreeMap;

use farsiding_core::clock::UtcMillis;
use farsiding_core::ids::EntryId;
use farsiding_core::view::{Fate, HistoryLine, VisitView, fate_spoken};
use maud::{Markup, html};

use super::frame::{OfficeUser, csrf, stretch};
use super::visit::{Page, by};
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
    html! {
        @if !view.ended_disagreements.is_empty() {
            h2 { "Accounts that differed, and how that ended" }
            @for ended in &view.ended_disagreements {
                div.plate {
                    h3 { (ended.about) }
                    div.claims {
                        @for claim in &ended.claims {
                            div.claim {
                                b { (claim.sentence) }
                                @if ended.agreed == Some(claim.said.entry) { " " span.tag { "agreed on" } }
                                (by(&claim.said))
                            }
                        }
                    }
                    p {
                        @if !ended.settled { b { "Later: " } } (ended.ended_by.sentence) " " (by(&ended.ended_by.said))
                        @if !ended.ended_by.said.why.is_empty() { br; "because: " (ended.ended_by.said.why) }
                    }
                    @if let Some(settlement) = ended.reopened_by_withdrawing { (visit_reopen::form(user, path, settlement)) }
                }
            }
        }
    }
}

/// Returns how far a device's clock was off, in words, or `None` if it was hardly off.
pub fn clock_words(ahead: i64) -> Option<String> {
    (ahead.unsigned_abs() >= CLOCK_OFF).then(|| {
        let size = stretch(i64::try_from(ahead.unsigned_abs()).unwrap_or(i64::MAX));
        format!("{size} {}", if ahead > 0 { "ahead" } else { "behind" })
    })
}

/// Returns the devices that took part, and the gaps in their chains.
pub fn devices(view: &VisitView) -> Markup {
    html! {
        h2 { "Devices and their chains" }
        ul.plain.split {
            @for device in &view.header.devices {
                li.hot-edge[device.standing.warning().is_some()] {
                    b { (device.name) } ", " (device.entries) @if device.entries == 1 { " entry" } @else { " entries" }
                    @if let Some(words) = device.ahead_millis.and_then(clock_words) { ", its clock " (words) }
                    @if let Some(warning) = device.standing.warning() { ", " span.hot { (warning) } }
                }
            }
        }
        @if view.chain_gaps.is_empty() {
            p.small { "Each device numbers its entries over all records; none before the newest here is missing." }
        } @else {
            @for gap in &view.chain_gaps { p.trouble { (gap.sentence) } }
        }
    }
}

/// Returns the address of an entry within the page.
fn anchor(entry: EntryId) -> String {
    format!("e-{}", &entry.to_string()[..16])
}

/// Returns every entry as a sentence, in causal and then in claimed order, with the claimed time and the time
/// of arrival.
pub fn story(page: &Shown) -> Markup {
    let view = &page.view;
    let mut replaced_by: BTreeMap<EntryId, Vec<EntryId>> = BTreeMap::new();
    for entry in &page.entries {
        for gone in &entry.body.replaces {
            replaced_by.entry(*gone).or_default().push(entry.id);
        }
    }
    html! {
        h2 { "The story" }
        div.wide tabindex="0" role="region" aria-label="The story" {
            table.story {
                caption { "Claimed: by the device's own clock; where that was off when compared, to the minute, what it comes to stands beneath. Received: by this server's." }
                thead { tr { th scope="col" { "Claimed" } th scope="col" { "Received" } th scope="col" { "What was recorded" } th scope="col" { "Who, on what" } } }
                tbody { @for line in &view.history { (row(page, line, &replaced_by)) } }
            }
        }
    }
}

fn row(page: &Shown, line: &HistoryLine, replaced_by: &BTreeMap<EntryId, Vec<EntryId>>) -> Markup {
    let said = &line.said;
    let gone = matches!(line.fate, Fate::Corrected | Fate::Withdrawn | Fate::Settled | Fate::Kept);
    html! {
        tr.gone[gone] id=(anchor(said.entry)) {
            td.when {
                @match said.ahead_millis.and_then(clock_words) {
                    Some(words) => { (said.device_time) small { "its clock " (words) ": about " (said.shown) } }
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
                span { (line.sentence) }
                @if line.fate == Fate::Kept {
                    br; span.hot { (line.why_gone) }
                } @else if let Some(word) = fate_spoken(line.fate) {
                    " "
                    @match replaced_by.get(&said.entry).and_then(|all| all.first()) {
                        Some(by) => { a.tag href={ "#" (anchor(*by)) } { (word) } }
                        None => { span.tag { (word) } }
                    }
                }
                @if !said.why.is_empty() { br; small { "because: " (said.why) } }
                @if !line.why_gone.is_empty() && line.fate == Fate::Agreed { br; small { "why it was agreed on: " (line.why_gone) } }
                @else if !line.why_gone.is_empty() && line.fate != Fate::Kept { br; small { "why it no longer stands: " (line.why_gone) } }
            }
            td {
                (said.name) br; small { (said.device_name) }
                @if line.binds { br; small { (said.named.spoken()) } }
                @if let Some(warning) = said.standing.warning() { br; span.hot { (warning) } }
            }
        }
    }
}

/// Returns the links for inspectors, and the audit rows of the visit.
pub fn doors(user: &OfficeUser, page: &Page, path: &str) -> Markup {
    let view = &page.shown.view;
    html! {
        section.no-print {
            h2 #doors { "Let an inspector read this record" }
            @if user.may(Right::Settle) { p { "A link opens this one record and its packet, to whoever has it, until it runs out." }
            form.row method="post" action={ (path) "/links" } {
                (csrf(user))
                label.label for="label" { "For whom" }
                div { input.field id="label" name="label" maxlength="64" required; }
                label.label for="days" { "For days" }
                div { input.field id="days" name="days" type="number" min="1" max="90" value="14" required; }
                button.key type="submit" { "Make a link" }
            } } @else { p { "A link is made by somebody who may settle. Those made so far stand here." } }
            @if !page.links.is_empty() {
                ul.plain {
                    @for link in &page.links {
                        li {
                            b { (link.label) } ", made by " (link.made_by) ", "
                            @match link.revoked_at {
                                Some(at) => { "revoked " (in_zone(view, at)) }
                                None if link.is_good(page.now) => {
                                    "good until " (in_zone(view, link.expires_at))
                                    @if user.may(Right::Settle) { form.row method="post" action={ (path) "/links/" (link.number) "/revoke" } {
                                        (csrf(user))
                                        button.key.stop type="submit" aria-label={ "Revoke the link for " (link.label) } { "Revoke" }
                                    } }
                                }
                                None => { "ran out " (in_zone(view, link.expires_at)) }
                            }
                        }
                    }
                }
            }
            h2 { "Who looked at this record" }
            @if page.looked.is_empty() { p { "Nobody before you." } } @else {
                ul.plain {
                    @for row in &page.looked { li { (in_zone(view, row.at)) " · " (row.who) " (" (row.role) ") · " (row.did) } }
                }
            }
        }
    }
}
