//! What the facts of the first page say: the car, the site, the product, the people, what was left open, and
//! whether the car was released.

use std::collections::BTreeSet;

use farsiding_core::entry::Paper;
use farsiding_core::entry::vocabulary::{ClockEvent, Measured, Purpose, Receiver};
use farsiding_core::evidence::packet::{quotes, told_in_full};
use farsiding_core::ids::EntryId;
use farsiding_core::units::{Amount, Severity};
use farsiding_core::view::{Attested, Fate};
use farsiding_core::{Arg, Joint, Message, message};

use super::front::{Facts, MOST_NAMED, ORGANISATION_NAME, some};
use super::{Spoken as _, Told, plus_minus};
use crate::zone::zone_words;

/// Returns the entry that made the claim, not the one that settled it.
fn made<T>(known: &Attested<T>) -> EntryId {
    known.kept.as_ref().unwrap_or(&known.said).entry
}

/// Returns a text, with a remark where two entries disagree about it.
fn disputed<T>(known: &Attested<T>, text: Message) -> Message {
    if known.disputed { message!("packet-is-disputed", text = text) } else { text }
}

fn list(joint: Joint, parts: Vec<Message>) -> Message {
    message!("packet-parts", parts = Arg::list(joint, parts))
}

/// Returns an amount of an entry. Where a language writes it otherwise than it was typed, what was typed
/// stands beside it, so that the page quotes the entry in every language.
fn typed_amount(told: &Told<'_>, amount: &Amount) -> Message {
    let shown = message!("packet-parts", parts = amount.arg());
    if quotes(&told.text(&shown), &amount.text) {
        shown
    } else {
        message!("packet-amount-typed", amount = amount.arg(), typed = Arg::typed(amount.text.trim()))
    }
}

/// Adds what happened, in the order of the page.
pub(super) fn what_happened(facts: &mut Facts<'_>) {
    let told = facts.told;
    let key = message!("packet-public-key", key = Arg::typed(told.organisation_key.to_string()));
    let named = told.site_profile().filter(|(site, _)| !site.organisation.is_empty());
    let (text, cites) = match named {
        None => (key, Vec::new()),
        Some((site, entry)) => {
            let name = match site.organisation.char_indices().nth(ORGANISATION_NAME) {
                None => site.organisation.as_message(),
                Some((end, _)) => Message::typed(format!("{}\u{2026}", &site.organisation[..end])),
            };
            (message!("packet-organisation-named", name = name, key = key), vec![entry])
        }
    };
    facts.add("organisation", message!("packet-label-organisation"), text, &cites);
    car(facts);
    site(facts);
    product(facts);
    procedure(facts);
    dates(facts);
    let people: Vec<Message> = told
        .view()
        .header
        .people
        .iter()
        .map(|person| {
            let (name, code) = (person.name.as_message(), Arg::typed(person.operator.0.as_str()));
            match person.name == person.operator.0 {
                true if person.name_removed => {
                    let removed = message!("packet-name-removed", code = code);
                    message!("packet-person", name = removed, count = person.entries)
                }
                true => message!("packet-person", name = name, count = person.entries),
                false => message!("packet-person-code", name = name, code = code, count = person.entries),
            }
        })
        .collect();
    let people = some(told, &people, facts.most);
    facts.add("person", message!("packet-label-people"), people, &[]);
    seals(facts);
    pressure(facts);
    gallons(facts);
    alarms(facts);
    overrides(facts);
    released(facts);
    aside(facts);
}

fn car(facts: &mut Facts<'_>) {
    let header = &facts.told.view().header;
    let Some(opened) = &header.opened else { return };
    let mut cites = vec![made(opened)];
    let typed = opened.value.car.0.trim();
    let car = header.car.as_message();
    let car = match typed == header.car {
        true => car,
        false => message!("packet-car-typed", car = car, typed = Arg::typed(typed)),
    };
    let mut parts = vec![disputed(opened, car)];
    if let Some(again) = &header.number_again {
        cites.push(made(again));
        let read = again.value.normal();
        let typed = Arg::typed(again.value.0.trim());
        let same = read == header.car;
        let read = Arg::typed(read);
        parts.push(disputed(
            again,
            match same {
                true => message!("packet-car-again-same", typed = typed, read = read),
                false => message!("packet-car-again-other", typed = typed, read = read),
            },
        ));
    }
    facts.add("car", message!("packet-label-car"), list(Joint::Semicolon, parts), &cites);
}

fn site(facts: &mut Facts<'_>) {
    let (told, header) = (facts.told, &facts.told.view().header);
    let mut place = vec![match header.site_name.is_empty() {
        true => message!("packet-site-not-known"),
        false => header.site_name.as_message(),
    }];
    place.extend(Some(header.spot.as_message()).filter(|_| !header.spot.is_empty()));
    let known = told.site_profile();
    let address = known.map(|(site, _)| site.address.as_message());
    place.extend(address.filter(|_| known.is_some_and(|(site, _)| !site.address.is_empty())));
    let cites: Vec<EntryId> = known.into_iter().map(|(_, entry)| entry).collect();
    let text = message!(
        "packet-site",
        place = Arg::list(Joint::Comma, place),
        zone = Arg::typed(zone_words(&header.zone))
    );
    facts.add("site", message!("packet-label-site"), text, &cites);
}

fn product(facts: &mut Facts<'_>) {
    let (told, header) = (facts.told, &facts.told.view().header);
    let label = message!("packet-label-product");
    let into = match header.receiver {
        Some(Receiver::FixedTank) => message!("packet-into-tank"),
        Some(Receiver::Truck) => message!("packet-into-trucks"),
        None => message!("packet-into-unknown"),
    };
    let Some(paper) = &header.paper else {
        return facts.add(
            "paper",
            label,
            list(Joint::Semicolon, vec![message!("packet-no-paper"), into]),
            &[],
        );
    };
    let p: &Paper = &paper.value;
    let product = told.of(&header.product);
    let mut parts = Vec::new();
    parts.extend(Some(header.product.as_message()).filter(|_| !product.is_empty()));
    let un = p.un_number.trim();
    parts.extend(Some(un.as_message()).filter(|_| !un.is_empty() && !product.contains(un)));
    let (number, shipper) = (p.number.trim(), p.shipper.trim());
    parts.extend((!number.is_empty()).then(|| message!("packet-paper-number", number = Arg::typed(number))));
    parts.extend((!shipper.is_empty()).then(|| message!("packet-paper-from", shipper = Arg::typed(shipper))));
    parts.extend(
        p.billed.as_ref().map(|billed| message!("packet-paper-billed", amount = typed_amount(told, billed))),
    );
    parts.push(into);
    // Who wrote the figures stands beside who compared them.
    let sent = p.compared.and_then(|entry| told.refolded.site.as_ref()?.papers.paper(entry));
    if let Some(sent) = sent {
        parts.push(message!(
            "packet-paper-compared",
            file = Arg::typed(&sent.file_name),
            line = u64::from(sent.line),
        ));
    }
    let text = disputed(paper, list(Joint::Comma, parts));
    facts.add("paper", label, text, &[made(paper)]);
}

fn procedure(facts: &mut Facts<'_>) {
    let header = &facts.told.view().header;
    let (Some(digest), Some(opened)) = (header.procedure, &header.opened) else { return };
    let digest = Arg::typed(digest.to_string());
    let text = match header.procedure_known {
        true => {
            message!("packet-procedure-named", title = header.procedure_title.clone(), digest = digest)
        }
        false => message!("packet-procedure-not-held", digest = digest),
    };
    let cites = [made(opened)];
    facts.add("procedure", message!("packet-label-procedure"), text, &cites);
}

fn dates(facts: &mut Facts<'_>) {
    let (told, view) = (facts.told, facts.told.view());
    let both = |at| Arg::typed(told.both(at));
    let mut parts = Vec::new();
    let mut cites = Vec::new();
    for clock in &view.clock {
        let at = both(clock.at.value);
        let text = match clock.event {
            ClockEvent::ActualPlacement => message!("packet-placed", at = at),
            ClockEvent::Pulled => message!("packet-pulled", at = at),
            _ => continue,
        };
        parts.push(disputed(&clock.at, text));
        cites.push(made(&clock.at));
    }
    parts.extend(view.header.since.map(|since| message!("packet-first-entry", at = both(since))));
    parts.extend(view.header.latest.map(|latest| message!("packet-last-entry", at = both(latest))));
    parts.push(message!("packet-last-received", at = both(told.refolded.at)));
    facts.add("date", message!("packet-label-dates"), list(Joint::Semicolon, parts), &cites);
}

fn seals(facts: &mut Facts<'_>) {
    let view = facts.told.view();
    let mut cites = Vec::new();
    let mut parts = Vec::new();
    for seal in view.seals.iter().take(MOST_NAMED) {
        let mut here = Vec::new();
        for known in [&seal.found, &seal.now].into_iter().flatten() {
            let number = match known.value.number.trim() {
                "" => message!("packet-no-number"),
                number => number.as_message(),
            };
            let event = known.value.event.term();
            let text = match known.value.intact {
                true => message!("packet-seal-event", event = event, number = number),
                false => message!("packet-seal-event-broken", event = event, number = number),
            };
            here.push(disputed(known, text));
            cites.push(made(known));
        }
        let events = Arg::list(Joint::Comma, here);
        parts.push(message!("packet-seal-at", place = seal.place.term(), events = events));
    }
    let more = view.seals.len().saturating_sub(MOST_NAMED);
    if more > 0 {
        parts.push(message!("packet-more-places", count = more));
    }
    let text =
        if parts.is_empty() { message!("packet-none-recorded") } else { list(Joint::Semicolon, parts) };
    facts.add("seal", message!("packet-label-seals"), text, &cites);
}

fn pressure(facts: &mut Facts<'_>) {
    let (told, view) = (facts.told, facts.told.view());
    let last =
        view.readings.iter().filter(|r| r.purpose == Purpose::Final && r.measured == Measured::Pressure);
    let mut parts = Vec::new();
    let mut cites = Vec::new();
    for reading in last {
        let Some(current) = &reading.current else { continue };
        let entry = made(current);
        let worth = reading.history.iter().find(|point| point.said.entry == entry).map(|point| &point.worth);
        let unit = current.value.amount.unit.word();
        let amount = typed_amount(told, &current.value.amount);
        let known = worth.and_then(|worth| Some((worth.plus_minus?, &worth.by)));
        let text = match known {
            None => message!("packet-pressure-not-known", amount = amount),
            Some((pm, by)) => message!(
                "packet-pressure",
                amount = amount,
                worth = plus_minus(pm, unit),
                by = by.as_message()
            ),
        };
        let text = if current.kept.is_some() { message!("packet-as-settled", text = text) } else { text };
        parts.push(disputed(current, text));
        cites.push(entry);
    }
    let text = if parts.is_empty() { message!("packet-not-recorded") } else { list(Joint::Semicolon, parts) };
    facts.add("pressure", message!("packet-label-pressure"), text, &cites);
}

fn gallons(facts: &mut Facts<'_>) {
    let (told, view) = (facts.told, facts.told.view());
    let gallons: Vec<Message> = view
        .computed
        .iter()
        .filter(|quantity| matches!(quantity.name, "net_volume" | "against_paper" | "residue"))
        .filter(|quantity| quantity.value.is_some())
        .map(|quantity| {
            let (what, value) = (quantity.title.as_message(), quantity.message());
            message!("packet-named", what = what, value = value)
        })
        .chain(view.trucks.total_gal.map(|sum| {
            let value =
                Arg::Figure { value: format!("{sum:.0}"), plus_minus: None, unit: "gallon".to_owned() };
            message!("packet-trucks-loaded", value = value)
        }))
        .collect();
    let text = match gallons.is_empty() {
        true => message!("packet-no-gallons"),
        false => some(told, &gallons, facts.most),
    };
    facts.add("gallons", message!("packet-label-gallons"), text, &[]);
}

/// Returns the standing entries of a kind, in their own order.
fn standing(told: &Told<'_>, kind: &str) -> Vec<EntryId> {
    told.visit_entries()
        .filter(|entry| told_in_full(&entry.body.says) == Some(kind) && told.standing.stands(entry.id))
        .map(|entry| entry.id)
        .collect()
}

fn alarms(facts: &mut Facts<'_>) {
    let (told, view) = (facts.told, facts.told.view());
    let alarms: Vec<Message> = view
        .findings
        .iter()
        .chain(&view.advice)
        .filter(|finding| finding.severity == Severity::Alarm)
        .map(|finding| finding.message.as_message())
        .collect();
    let text = match alarms.len() {
        0 => message!("packet-no-alarms"),
        n => message!("packet-counted", count = n, named = some(told, &alarms, facts.most)),
    };
    facts.add("alarm", message!("packet-label-alarms"), text, &[]);
}

fn overrides(facts: &mut Facts<'_>) {
    let (told, view) = (facts.told, facts.told.view());
    let holds: Vec<Message> = view
        .holds
        .iter()
        .map(|hold| {
            let because = hold.because.as_message();
            match &hold.lifted {
                None => message!("packet-hold-short-open", because = because),
                Some(lifted) => {
                    let lifted = lifted.value.as_message();
                    message!("packet-hold-short-lifted", because = because, lifted = lifted)
                }
            }
        })
        .collect();
    let cites = standing(told, "hold");
    let text = match cites.len() {
        0 => message!("packet-none"),
        n => message!("packet-holds-called", count = n, named = some(told, &holds, facts.most)),
    };
    facts.add("hold", message!("packet-label-holds"), text, &cites);
    let passed: Vec<Message> = view
        .passed_over
        .iter()
        .map(|word| message!("packet-named", what = word.spoken.as_message(), value = word.why.clone()))
        .collect();
    let cites = standing(told, "passed_over");
    let text = match cites.len() {
        0 => message!("packet-none"),
        n => message!("packet-passed-over", count = n, named = some(told, &passed, facts.most)),
    };
    facts.add("passed_over", message!("packet-label-overrides"), text, &cites);
    if view.unloading.asked {
        let signed = match &view.unloading.fit {
            Some(fit) => message!("gate-signed", who = fit.said.signature()),
            None => message!("gate-not-signed"),
        };
        let open = view.unloading.blockers.iter().filter(|b| b.passed_over.is_none());
        let open: Vec<Message> = open.map(|b| b.missing.as_message()).collect();
        let text = match open.len() {
            0 => signed,
            n => {
                let items = message!("packet-counted", count = n, named = some(told, &open, facts.most));
                message!("gate-signed-and-open", signed = signed, items = items)
            }
        };
        facts.add("unloading", message!("gate-unload"), text, &[]);
    }
    let missing: Vec<Message> =
        view.blockers.iter().filter(|b| b.passed_over.is_none()).map(|b| b.missing.as_message()).collect();
    let text = match missing.len() {
        0 => message!("packet-missing-nothing"),
        n => message!("packet-counted", count = n, named = some(told, &missing, facts.most)),
    };
    facts.add("missing", message!("packet-label-missing"), text, &[]);
    let corrected = view
        .history
        .iter()
        .filter(|line| matches!(line.fate, Fate::Corrected | Fate::Withdrawn | Fate::Settled))
        .count();
    let open = match view.disagreements.len() {
        0 => message!("packet-none-open"),
        n => message!("packet-open-disagreements", count = n),
    };
    let text =
        message!("packet-differ", open = open, ended = view.ended_disagreements.len(), corrected = corrected);
    facts.add("differ", message!("packet-label-differ"), text, &[]);
}

fn released(facts: &mut Facts<'_>) {
    let (told, view) = (facts.told, facts.told.view());
    let cites = standing(told, "release");
    let text = match (&view.release.released, cites.is_empty()) {
        (_, true) => message!("packet-not-released", stage = view.stage.term()),
        (None, false) => message!("packet-released-see"),
        (Some(released), false) => {
            let by = told.known_by_short(released);
            let text = match released.value {
                true => message!("packet-released-residue", by = by),
                false => message!("packet-released-not-residue", by = by),
            };
            disputed(released, text)
        }
    };
    facts.add("release", message!("packet-label-release"), text, &cites);
}

fn aside(facts: &mut Facts<'_>) {
    let entries: BTreeSet<EntryId> = facts.told.kept().map(|line| line.said.entry).collect();
    if entries.is_empty() {
        return;
    }
    let text = message!("packet-aside", count = entries.len());
    let cites: Vec<EntryId> = entries.into_iter().collect();
    facts.add("aside", message!("packet-label-aside"), text, &cites);
}
