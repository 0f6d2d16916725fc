//! The first page: everything a reader needs to know first. Each fact gives the numbers of the entries it is
//! based on, and says whose word it is.
//!
//! The same facts are attached as `front.cbor`, so that a program can compare them with the entries. That
//! check is in `farsiding_core::evidence::packet`. What each fact says is in `front_facts`.

use farsiding_core::evidence::packet::{Fact, Said};
use farsiding_core::ids::EntryId;
use farsiding_core::{Arg, Joint, Message, message};

use super::super::sheet::{Cell, Sheet};
use super::super::typeface::Typefaces;
use super::{Spoken as _, Told, front_facts, whose};

/// The number of things of a kind that are named; further ones are only counted.
pub(super) const MOST_NAMED: usize = 8;

/// The longest sentence on whose word something is, in characters. Translations are longer than English.
const SAID: usize = 480;

/// The longest text that names the organisation and its key, in characters: the key is on the page whole, whatever else
/// has to be shortened.
const ORGANISATION: usize = 360;

/// The longest name of an organisation that is shown, in characters.
pub(super) const ORGANISATION_NAME: usize = 120;

/// The ids of the notices, in the order of the page.
pub const NOTICES: [&str; 3] = ["packet-notice-what", "packet-notice-not", "packet-notice-never"];

/// The facts being collected. Their texts are in the form that the typefaces can show, and are shortened if
/// too long.
pub(super) struct Facts<'t> {
    /// What the page is written from.
    pub(super) told: &'t Told<'t>,
    faces: &'t Typefaces,
    /// The longest text of a fact, in characters.
    pub(super) most: usize,
    facts: Vec<Fact>,
}

impl Facts<'_> {
    /// Adds a fact. A shortened text no longer quotes anything reliably, so only facts whose numbers must be
    /// complete keep the numbers.
    pub(super) fn add(&mut self, kind: &str, label: Message, text: Message, cites: &[EntryId]) {
        let must = matches!(kind, "release" | "hold" | "passed_over" | "aside");
        let mut numbers: Vec<u64> = cites.iter().filter_map(|entry| self.told.number(*entry)).collect();
        numbers.sort_unstable();
        let shown = self.faces.unbroken(&self.told.text(&text).replace('\n', " "));
        // A statement on whose word something is must not be cut off, because it would then say something
        // else.
        let most = match kind {
            "said" => self.most.max(SAID),
            "organisation" => self.most.max(ORGANISATION),
            _ => self.most,
        };
        let whole = shown.chars().count() <= most;
        let cut = || shown.chars().take(most).collect::<String>() + "\u{2026}";
        let (text, said) = if whole { (text, None) } else { (Message::typed(cut()), Some(text)) };
        let keeps = !numbers.is_empty() && (whole || must);
        let with_numbers = |text: Message| match keeps {
            true => message!("packet-cited", text = text, numbers = numbers_spoken(&numbers)),
            false => text,
        };
        let text = with_numbers(text);
        let said = Said { label: label.clone(), text: said.map_or_else(|| text.clone(), with_numbers) };
        self.facts.push(Fact {
            kind: kind.to_owned(),
            label: self.faces.unbroken(&self.told.text(&label)),
            text: self.faces.unbroken(&self.told.text(&text).replace('\n', " ")),
            cites: if keeps { numbers } else { Vec::new() },
            said: said.to_json(),
        });
    }

    /// Adds a text of the page that is not in the table.
    fn add_line(&mut self, kind: &str, text: Message) -> String {
        let shown = self.faces.unbroken(&self.told.text(&text));
        let label = Message::typed("");
        self.facts.push(Fact {
            kind: kind.to_owned(),
            label: String::new(),
            text: shown.clone(),
            cites: Vec::new(),
            said: Said { label, text }.to_json(),
        });
        shown
    }
}

/// Returns the numbers of entries in words: "No. 3, 7 and 12 more".
fn numbers_spoken(numbers: &[u64]) -> Message {
    let named = numbers.iter().take(MOST_NAMED).map(|number| Message::typed(number.to_string()));
    let named = Arg::list(Joint::Comma, named);
    match numbers.len().saturating_sub(MOST_NAMED) {
        0 => message!("packet-numbers", numbers = named),
        more => message!("packet-numbers-more", numbers = named, more = more),
    }
}

/// Returns as many whole parts as fit into `room` characters, but at least one, and the number of the
/// remaining ones.
pub(super) fn some(told: &Told<'_>, parts: &[Message], room: usize) -> Message {
    const COUNTED: usize = 32;
    let (mut taken, mut length) = (0, 0);
    let mut are_sentences = true;
    for part in parts.iter().take(MOST_NAMED) {
        let text = told.text(part);
        let more = text.chars().count() + 2;
        if taken > 0 && length + more + COUNTED > room {
            break;
        }
        are_sentences &= text.ends_with('.');
        length += more;
        taken += 1;
    }
    let joint = if are_sentences { Joint::Sentences } else { Joint::Semicolon };
    let named = message!("packet-parts", parts = Arg::list(joint, parts.iter().take(taken).cloned()));
    match parts.len() - taken {
        0 => named,
        more => message!("packet-and-more", named = named, more = more),
    }
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
    let faces = sheet.faces;
    let mut facts = Facts { told, faces, most, facts: Vec::new() };
    let kind = facts.add_line("frame", message!("packet-kind"));
    let car = &told.view().header.car;
    let title = facts.add_line(
        "frame",
        if car.is_empty() {
            message!("packet-car-not-known")
        } else {
            message!("packet-car", car = car.as_message())
        },
    );
    sheet.title(&kind, &title);
    let [this, not, never] = NOTICES;
    let this = facts.add_line("notice", Message::new(this));
    sheet.small(&this);
    let from = facts.facts.len();
    front_facts::what_happened(&mut facts);
    table(sheet, facts.facts.get(from..).unwrap_or_default());
    let proved = facts.add_line("frame", message!("packet-proved"));
    sheet.subheading(&proved);
    let from = facts.facts.len();
    for (label, text) in whose::facts(told) {
        facts.add("said", label, text, &[]);
    }
    table(sheet, facts.facts.get(from..).unwrap_or_default());
    for notice in [not, never] {
        let notice = facts.add_line("notice", Message::new(notice));
        sheet.small(&notice);
    }
    // What is attached says a blank where the page shows one.
    for fact in &mut facts.facts {
        fact.label = faces.showable(&fact.label);
        fact.text = faces.showable(&fact.text);
    }
    facts.facts
}

fn table(sheet: &mut Sheet<'_>, facts: &[Fact]) {
    let rows =
        facts.iter().map(|fact| vec![Cell::strong(fact.label.clone()), fact.text.clone().into()]).collect();
    sheet.table(&[(String::new(), 19.0), (String::new(), 81.0)], rows);
}
