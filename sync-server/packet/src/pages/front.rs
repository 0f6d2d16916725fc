//! The first page: everything a reader needs to know first. Each fact gives the numbers of the entries it is
//! based on, and says whose word it is.
//!
//! The same facts are attached as `front.cbor`, so that a program can compare them with the entries. That
//! check is in `farsiding_core::evidence::packet`.

use std::collections::BTreeSet;

use farsiding_core::entry::vocabulary::{ClockEvent, Measured, Purpose, Receiver, SealEvent};
use farsiding_core::evidence::packet::{Fact, NOTICES, told_in_full};
use farsiding_core::ids::EntryId;
use farsiding_core::units::Severity;
use farsiding_core::view::{Attested, Fate};

use super::super::sheet::{Cell, Sheet};
use super::super::typeface::Typefaces;
use super::Told;
use super::whose;
use crate::zone::zone_words;

/// The number of things of a kind that are named; further ones are only counted.
const MOST_NAMED: usize = 8;

/// The longest sentence on whose word something is, in characters.
const SAID: usize = 320;

/// The facts being collected. Their texts are in the form that the typefaces can show, and are shortened if
/// too long.
struct Facts<'t> {
    told: &'t Told<'t>,
    faces: &'t Typefaces,
    most: usize,
    facts: Vec<Fact>,
}

impl Facts<'_> {
    /// Adds a fact. A shortened text no longer quotes anything reliably, so only facts whose numbers must be
    /// complete keep the numbers.
    fn add(&mut self, kind: &str, label: &str, text: &str, cites: &[EntryId]) {
        let must = matches!(kind, "release" | "hold" | "passed_over" | "aside");
        let mut numbers: Vec<u64> = cites.iter().filter_map(|entry| self.told.number(*entry)).collect();
        numbers.sort_unstable();
        let text = self.faces.showable(&text.replace('\n', " "));
        // A statement on whose word something is must not be cut off, because it would then say something
        // else.
        let most = if kind == "said" { self.most.max(SAID) } else { self.most };
        let whole = text.chars().count() <= most;
        let text = if whole { text } else { text.chars().take(most).collect::<String>() + "\u{2026}" };
        let mut shown = text.clone();
        if !numbers.is_empty() && (whole || must) {
            shown += &format!(" ({})", numbers_spoken(&numbers));
        }
        let cites = if whole || must { numbers } else { Vec::new() };
        self.facts.push(Fact { kind: kind.to_owned(), label: label.to_owned(), text: shown, cites });
    }
}

/// Returns the numbers of entries in words: "No. 3, 7 and 12 more".
fn numbers_spoken(numbers: &[u64]) -> String {
    let named: Vec<String> = numbers.iter().take(MOST_NAMED).map(ToString::to_string).collect();
    let more = numbers.len().saturating_sub(MOST_NAMED);
    let rest = if more > 0 { format!(" and {more} more") } else { String::new() };
    format!("No. {}{rest}", named.join(", "))
}

/// Returns as many whole parts as fit into `room` characters, but at least one, and the number of the
/// remaining ones.
fn some(parts: &[String], room: usize) -> String {
    const COUNTED: usize = 24;
    let mut named = String::new();
    let mut taken = 0;
    for part in parts.iter().take(MOST_NAMED).map(|part| part.trim_end_matches('.')) {
        let length = named.chars().count() + part.chars().count() + COUNTED;
        if taken > 0 && length > room {
            break;
        }
        if taken > 0 {
            named.push_str("; ");
        }
        named.push_str(part);
        taken += 1;
    }
    match parts.len() - taken {
        0 => named,
        more => format!("{named}; and {more} more"),
    }
}

/// Returns a count of entries in words: "1 entry", "2 entries".
fn counted(entries: usize) -> String {
    if entries == 1 { "1 entry".to_owned() } else { format!("{entries} entries") }
}

/// Returns the entry that made the claim, not the one that settled it.
fn made<T>(known: &Attested<T>) -> EntryId {
    known.kept.as_ref().unwrap_or(&known.said).entry
}

fn disputed<T>(known: &Attested<T>) -> &'static str {
    if known.disputed { ", DISPUTED" } else { "" }
}

/// Writes the page, shortened until it fits on one page, and returns its facts in their order.
pub(super) fn write<'f>(begin: impl Fn() -> Sheet<'f>, told: &Told<'_>) -> (Sheet<'f>, Vec<Fact>) {
    for most in [420, 260, 170, 110, 70] {
        let mut sheet = begin();
        let facts = page(&mut sheet, told, most);
        if sheet.pages() == 1 {
            return (sheet, facts);
        }
    }
    let mut sheet = begin();
    let facts = page(&mut sheet, told, 40);
    (sheet, facts)
}

fn page(sheet: &mut Sheet<'_>, told: &Told<'_>, most: usize) -> Vec<Fact> {
    let view = told.view();
    let faces = sheet.faces;
    let car = if view.header.car.is_empty() { "car not known" } else { &view.header.car };
    let kind = "Evidence packet: the record of a tank car's stay";
    let title = format!("Car {car}");
    let mut facts = Facts { told, faces, most, facts: Vec::new() };
    facts.add("frame", "", kind, &[]);
    facts.add("frame", "", &title, &[]);
    sheet.title(kind, &title);
    let [this, not, never] = NOTICES;
    facts.add_notice(this);
    sheet.small(this);
    let from = facts.facts.len();
    what_happened(&mut facts);
    table(sheet, facts.facts.get(from..).unwrap_or_default());
    const PROVED: &str = "What is proved, by whom, and what rests on the organisation's word alone";
    facts.add("frame", "", PROVED, &[]);
    sheet.subheading(PROVED);
    let from = facts.facts.len();
    whose::facts(told, |label, text| facts.add("said", label, text, &[]));
    table(sheet, facts.facts.get(from..).unwrap_or_default());
    for notice in [not, never] {
        facts.add_notice(notice);
        sheet.small(notice);
    }
    facts.facts
}

impl Facts<'_> {
    fn add_notice(&mut self, notice: &str) {
        let text = notice.to_owned();
        self.facts.push(Fact { kind: "notice".to_owned(), label: String::new(), text, cites: Vec::new() });
    }
}

fn table(sheet: &mut Sheet<'_>, facts: &[Fact]) {
    let rows =
        facts.iter().map(|fact| vec![Cell::strong(fact.label.clone()), fact.text.clone().into()]).collect();
    sheet.table(&[("", 19.0), ("", 81.0)], rows);
}

fn what_happened(facts: &mut Facts<'_>) {
    let told = facts.told;
    let (view, header) = (told.view(), &told.view().header);
    facts.add("organisation", "Organisation", &format!("public key {}", told.organisation_key), &[]);
    if let Some(opened) = &header.opened {
        let mut cites = vec![made(opened)];
        let again = header.number_again.as_ref().map_or(String::new(), |again| {
            cites.push(made(again));
            let read = again.value.normal();
            let same = if read == header.car { "the same" } else { "ANOTHER NUMBER" };
            format!("; read again as {} ({read}), {same}{}", again.value.0.trim(), disputed(again))
        });
        let typed = opened.value.car.0.trim();
        let as_typed = if typed == header.car { String::new() } else { format!(" (typed {typed})") };
        facts.add("car", "Car", &format!("{}{as_typed}{}{again}", header.car, disputed(opened)), &cites);
    }
    site(facts);
    let into = match header.receiver {
        Some(Receiver::FixedTank) => "a fixed tank",
        Some(Receiver::Truck) => "trucks",
        None => "what is not recorded",
    };
    match &header.paper {
        None => facts.add(
            "paper",
            "Product",
            &format!("no shipping paper is recorded; unloaded into {into}"),
            &[],
        ),
        Some(paper) => {
            let p = &paper.value;
            let mut parts = vec![header.product.clone()];
            parts.extend(Some(p.un_number.trim().to_owned()).filter(|un| !header.product.contains(un)));
            for (word, value) in [("paper", &p.number), ("from", &p.shipper)] {
                if !value.trim().is_empty() {
                    parts.push(format!("{word} {}", value.trim()));
                }
            }
            parts.extend(p.billed.as_ref().map(|billed| format!("billed {}", billed.shown())));
            parts.push(format!("unloaded into {into}"));
            parts.retain(|part| !part.is_empty());
            let text = format!("{}{}", parts.join(", "), disputed(paper));
            facts.add("paper", "Product", &text, &[made(paper)]);
        }
    }
    dates(facts);
    let people: Vec<String> = header
        .people
        .iter()
        .map(|person| {
            let code = match person.name == person.operator.0 {
                true => String::new(),
                false => format!(" ({})", person.operator),
            };
            format!("{}{code}, {}", person.name, counted(person.entries))
        })
        .collect();
    facts.add("person", "People", &some(&people, facts.most), &[]);
    seals(facts);
    pressure(facts);
    let gallons: Vec<String> = view
        .computed
        .iter()
        .filter(|quantity| matches!(quantity.name, "net_volume" | "against_paper" | "residue"))
        .filter(|quantity| quantity.value.is_some())
        .map(|quantity| format!("{}: {}", quantity.title, quantity.shown()))
        .chain(view.trucks.total_gal.map(|sum| format!("Loaded into trucks: {sum:.0} gal")))
        .collect();
    let text = if gallons.is_empty() {
        "nothing could be computed; see Values".to_owned()
    } else {
        some(&gallons, facts.most)
    };
    facts.add("gallons", "Gallons, computed", &text, &[]);
    alarms_and_overrides(facts);
    released(facts);
    aside(facts);
}

fn site(facts: &mut Facts<'_>) {
    let (told, header) = (facts.told, &facts.told.view().header);
    let name = if header.site_name.is_empty() { "not known" } else { &header.site_name };
    let spot = if header.spot.is_empty() { String::new() } else { format!(", {}", header.spot) };
    let cites: Vec<EntryId> = told.site_entry(&header.site_name).into_iter().collect();
    let text = format!("{name}{spot}; times are shown in {} and in UTC", zone_words(&header.zone));
    facts.add("site", "Site", &text, &cites);
}

fn dates(facts: &mut Facts<'_>) {
    let (told, view) = (facts.told, facts.told.view());
    let mut parts = Vec::new();
    let mut cites = Vec::new();
    for clock in &view.clock {
        let name = match clock.event {
            ClockEvent::ActualPlacement => "placed",
            ClockEvent::Pulled => "pulled",
            _ => continue,
        };
        parts.push(format!("{name} {}{}", told.both(clock.at.value), disputed(&clock.at)));
        cites.push(made(&clock.at));
    }
    if let Some(since) = view.header.since {
        parts.push(format!("first entry claimed {}", told.both(since)));
    }
    if let Some(latest) = view.header.latest {
        parts.push(format!("last claimed {}", told.both(latest)));
    }
    parts.push(format!("last entry received {}", told.both(told.refolded.at)));
    facts.add("date", "Dates", &parts.join("; "), &cites);
}

fn seals(facts: &mut Facts<'_>) {
    let view = facts.told.view();
    let mut cites = Vec::new();
    let mut parts = Vec::new();
    for seal in view.seals.iter().take(MOST_NAMED) {
        let mut here = Vec::new();
        for known in [&seal.found, &seal.now].into_iter().flatten() {
            let event = match known.value.event {
                SealEvent::Found => "found",
                SealEvent::Applied => "put on",
                SealEvent::Removed => "taken off",
            };
            let number = match known.value.number.trim() {
                "" => "no readable number",
                number => number,
            };
            let whole = if known.value.intact { "" } else { ", NOT WHOLE" };
            here.push(format!("{event} {number}{whole}{}", disputed(known)));
            cites.push(made(known));
        }
        parts.push(format!("{}: {}", farsiding_core::view::seal_place(seal.place), here.join(", ")));
    }
    let more = view.seals.len().saturating_sub(MOST_NAMED);
    if more > 0 {
        parts.push(format!("and {more} more places"));
    }
    let text = if parts.is_empty() { "none recorded".to_owned() } else { parts.join("; ") };
    facts.add("seal", "Seals", &text, &cites);
}

fn pressure(facts: &mut Facts<'_>) {
    let view = facts.told.view();
    let last =
        view.readings.iter().filter(|r| r.purpose == Purpose::Final && r.measured == Measured::Pressure);
    let mut parts = Vec::new();
    let mut cites = Vec::new();
    for reading in last {
        let Some(current) = &reading.current else { continue };
        let entry = made(current);
        let worth = reading.history.iter().find(|point| point.said.entry == entry).map(|point| &point.worth);
        let unit = current.value.amount.unit;
        let known = worth.and_then(|worth| Some((worth.plus_minus?, &worth.by)));
        let worth = known
            .map_or(", \u{b1} not known".to_owned(), |(pm, by)| format!(" \u{b1} {pm:.2} {unit} ({by})"));
        let settled = if current.kept.is_some() { ", as settled" } else { "" };
        parts.push(format!("{}{worth}{settled}{}", current.value.amount.shown(), disputed(current)));
        cites.push(entry);
    }
    let text = if parts.is_empty() { "not recorded".to_owned() } else { parts.join("; ") };
    facts.add("pressure", "Final pressure", &text, &cites);
}

/// Returns the standing entries of a kind, in their own order.
fn standing(told: &Told<'_>, kind: &str) -> Vec<EntryId> {
    told.visit_entries()
        .filter(|entry| told_in_full(&entry.body.says) == Some(kind) && told.standing.stands(entry.id))
        .map(|entry| entry.id)
        .collect()
}

fn alarms_and_overrides(facts: &mut Facts<'_>) {
    let view = facts.told.view();
    let alarms: Vec<String> = view
        .findings
        .iter()
        .chain(&view.advice)
        .filter(|finding| finding.severity == Severity::Alarm)
        .map(|finding| finding.message.clone())
        .collect();
    let text = match alarms.len() {
        0 => "None pointed out by the program.".to_owned(),
        n => format!("{n}: {}", some(&alarms, facts.most)),
    };
    facts.add("alarm", "ALARMS", &text, &[]);
    let holds: Vec<String> = view
        .holds
        .iter()
        .map(|hold| {
            let end = hold
                .lifted
                .as_ref()
                .map_or("NOT LIFTED".to_owned(), |lifted| format!("lifted: {}", lifted.value));
            format!("{} ({end})", hold.because)
        })
        .collect();
    let cites = standing(facts.told, "hold");
    let text = match cites.len() {
        0 => "None.".to_owned(),
        n => format!("{n} called: {}", some(&holds, facts.most)),
    };
    facts.add("hold", "Holds", &text, &cites);
    let passed: Vec<String> =
        view.passed_over.iter().map(|word| format!("{}: {}", word.spoken, word.why)).collect();
    let cites = standing(facts.told, "passed_over");
    let text = match cites.len() {
        0 => "None.".to_owned(),
        n => format!("{n} passed over with a reason: {}", some(&passed, facts.most)),
    };
    facts.add("passed_over", "OVERRIDES", &text, &cites);
    let missing: Vec<String> =
        view.blockers.iter().filter(|b| b.passed_over.is_none()).map(|b| b.missing.clone()).collect();
    let text = match missing.len() {
        0 => "Nothing that this record looks for, but for what was passed over.".to_owned(),
        n => format!("{n}: {}", some(&missing, facts.most)),
    };
    facts.add("missing", "Missing", &text, &[]);
    let corrected = view
        .history
        .iter()
        .filter(|line| matches!(line.fate, Fate::Corrected | Fate::Withdrawn | Fate::Settled))
        .count();
    let open = match view.disagreements.len() {
        0 => "None is open".to_owned(),
        n => format!("{n} NOT SETTLED"),
    };
    let text = format!(
        "{open}; settled or moved on: {}. Entries corrected, withdrawn or settled otherwise: {corrected}.",
        view.ended_disagreements.len()
    );
    facts.add("differ", "Disagreements", &text, &[]);
}

fn released(facts: &mut Facts<'_>) {
    let (told, view) = (facts.told, facts.told.view());
    let cites = standing(told, "release");
    let text = match (&view.release.released, cites.is_empty()) {
        (_, true) => format!("Not released; stage: {}", view.stage.spoken()),
        (None, false) => "Released, as entries say; see the entries".to_owned(),
        (Some(released), false) => {
            let how = if released.value { "as residue" } else { "not as residue" };
            format!("Released {how} by {}{}", told.known_by_short(released), disputed(released))
        }
    };
    facts.add("release", "Release", &text, &cites);
}

fn aside(facts: &mut Facts<'_>) {
    let entries: BTreeSet<EntryId> = facts.told.kept().map(|line| line.said.entry).collect();
    if entries.is_empty() {
        return;
    }
    let text = match entries.len() {
        1 => "1 entry is kept and does not count, with its reason under Corrections".to_owned(),
        n => format!("{n} entries are kept and do not count, with their reasons under Corrections"),
    };
    facts.add("aside", "Not counted", &text, &entries.into_iter().collect::<Vec<_>>());
}
