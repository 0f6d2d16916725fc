//! The texts of the pages: the first page, the doubts, the state at the end, the readings, the seals and
//! pictures, and how to check the packet; then, as annexes, every entry, every series, every computed value,
//! and the proofs.
//!
//! All texts come from the record that is folded from the attached entries. The layout is in `sheet`, and the
//! figures are in `figures`.

mod annex;
mod doubts;
pub mod front;
mod front_facts;
mod measured;
mod proof;
mod spoken;
mod state;
mod story;
mod whose;

use std::collections::{BTreeMap, BTreeSet};

use farsiding_core::authority::Named;
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::{AnyTime, Entry, OrganisationKeys, PublicKey, Statement};
use farsiding_core::evidence::Checkpoint;
use farsiding_core::evidence::packet::{Fact, Parts, Refolded, Standing};
use farsiding_core::ids::{Digest, EntryId};
use farsiding_core::view::{Attested, Attribution, Fate, HistoryLine, SiteView, VisitView};
use farsiding_core::{Arg, Message, message};
use farsiding_words::Words;
use spoken::Spoken;

use super::marks::Paper;
use super::sheet::Sheet;
use super::typeface::Typefaces;

/// A photograph in the form that the pages need.
#[derive(Debug, Clone)]
pub struct Shown {
    /// The number among the drawn pictures and the size in pixels, or `None` if the photograph is not drawn.
    pub drawn: Option<(usize, (u32, u32))>,
    /// The name of the attached file, or `None` if the office does not hold the photograph.
    pub file: Option<String>,
}

/// The attached entries, decoded, list after list. The number of an entry is its place here, counted from 1.
pub struct Numbered {
    lists: Vec<(&'static str, Vec<Entry>)>,
    numbers: BTreeMap<EntryId, u64>,
}

impl Numbered {
    /// Decodes and numbers the entries of a packet.
    pub fn of(parts: &Parts) -> Numbered {
        let mut numbers = BTreeMap::new();
        let mut next = 1u64;
        let mut lists = Vec::new();
        for (name, list) in parts.entries.lists() {
            let mut opened = Vec::with_capacity(list.len());
            for bytes in list {
                if let Ok(entry) = Entry::open(bytes) {
                    numbers.entry(entry.id).or_insert(next);
                    opened.push(entry);
                }
                next += 1;
            }
            lists.push((name, opened));
        }
        Numbered { lists, numbers }
    }

    fn list(&self, name: &str) -> impl Iterator<Item = &Entry> {
        self.lists.iter().filter(move |(list, _)| *list == name).flat_map(|(_, entries)| entries)
    }
}

/// Everything the pages are written from.
pub struct Told<'a> {
    /// The words of the language of the pages.
    pub words: &'static Words,
    /// The attachments.
    pub parts: &'a Parts,
    /// The record folded from the attachments.
    pub refolded: &'a Refolded,
    /// The photographs.
    pub photos: &'a BTreeMap<Digest, Shown>,
    /// The organisation's key.
    pub organisation_key: PublicKey,
    /// The known statements about the organisation's keys.
    pub keys: &'a OrganisationKeys,
    /// The document id.
    pub document: &'a str,
    /// The attached files, each with its length if known and what it is.
    pub files: &'a [(String, Option<usize>, Message)],
    /// The entries by number.
    pub numbered: &'a Numbered,
    /// Which entries of the stay stand.
    pub standing: Standing<'a>,
}

/// Returns which entries of a stay stand, according to the folded record.
pub fn standing<'a>(numbered: &'a Numbered, refolded: &Refolded) -> Standing<'a> {
    let kept = refolded.view.history.iter().filter(|line| line.fate == Fate::Kept);
    let aside: BTreeSet<EntryId> = kept.map(|line| line.said.entry).collect();
    Standing::of(numbered.list("visit"), aside)
}

impl Told<'_> {
    fn view(&self) -> &VisitView {
        &self.refolded.view
    }

    /// Returns the text of a message without arguments.
    fn say(&self, id: &str) -> String {
        self.words.say(id)
    }

    /// Returns the text of a message.
    fn text(&self, message: &Message) -> String {
        self.words.text(message)
    }

    /// Returns a text of the view.
    fn of(&self, said: &(impl Spoken + ?Sized)) -> String {
        self.text(&said.as_message())
    }

    /// Returns a text of the view, with who said it on a line of its own.
    fn of_whom(&self, what: &(impl Spoken + ?Sized), said: &Attribution) -> String {
        format!("{}\n{}", self.of(what), self.text(&self.by(said)))
    }

    /// Returns the name of a unit.
    fn unit(&self, word: &str) -> String {
        self.say(&format!("unit-{word}"))
    }

    /// Returns the headings of columns, each an id or nothing.
    fn columns(&self, columns: &[(&str, f32)]) -> Vec<(String, f32)> {
        let text = |id: &str| if id.is_empty() { String::new() } else { self.say(id) };
        columns.iter().map(|(id, width)| (text(id), *width)).collect()
    }

    fn zone(&self) -> chrono_tz::Tz {
        self.view().header.zone.parse().unwrap_or(chrono_tz::Tz::UTC)
    }

    fn shown(&self, at: UtcMillis) -> String {
        at.shown_in(self.zone())
    }

    /// Returns a time at the site as an argument.
    fn at(&self, at: UtcMillis) -> Arg {
        Arg::typed(self.shown(at))
    }

    fn received(&self, entry: EntryId) -> Message {
        let at = self.refolded.received.get(&entry);
        at.map_or_else(|| message!("packet-not-in-log"), |at| Message::typed(self.shown(*at)))
    }

    fn checkpoint(&self) -> Option<Checkpoint> {
        let note = self.parts.log.checkpoints.last()?;
        Checkpoint::open(note, &AnyTime(self.keys)).ok()
    }

    /// Returns a time in the site's time zone and in UTC.
    fn both(&self, at: UtcMillis) -> String {
        let (local, utc) = (self.shown(at), at.shown_in(chrono_tz::Tz::UTC));
        if local == utc {
            return utc;
        }
        match (local.split_once(' '), utc.split_once(' ')) {
            (Some((day, _)), Some((same, time))) if day == same => format!("{local} = {time}"),
            _ => format!("{local} = {utc}"),
        }
    }

    /// Returns an entry's number, as cited in the packet.
    fn number(&self, entry: EntryId) -> Option<u64> {
        self.numbered.numbers.get(&entry).copied()
    }

    /// Returns the citation of an entry, such as "No. 14".
    fn no(&self, entry: EntryId) -> Message {
        match self.number(entry) {
            None => message!("packet-other-record"),
            Some(number) => message!("packet-number", number = Arg::typed(number.to_string())),
        }
    }

    /// Returns the stay's own entries, in the order in which the office received them.
    fn visit_entries(&self) -> impl Iterator<Item = &Entry> {
        self.numbered.list("visit")
    }

    /// Returns what is known about the site, with the last entry that says so.
    fn site_profile(&self) -> Option<(&SiteView, EntryId)> {
        let known = self.refolded.site.as_ref()?;
        let says = |entry: &&Entry| match &entry.body.says {
            Statement::Site(site) => {
                (&site.name, &site.organisation, &site.address)
                    == (&known.name, &known.organisation, &known.address)
            }
            _ => false,
        };
        let entry = self.numbered.list("site").filter(says).last()?;
        Some((known, entry.id))
    }

    /// Returns who said something, when, on which device and in which entry. If the statement binds the
    /// person, or the person signed it, the text also says how the person is known.
    fn by(&self, said: &Attribution) -> Message {
        let (who, device) = (said.signature().as_message(), Arg::typed(said.device_name.as_str()));
        let entry = self.no(said.entry);
        match self.person_known(said) {
            None => message!("packet-by", who = who, device = device, entry = entry),
            Some(known) => {
                message!("packet-by-known", who = who, device = device, known = known, entry = entry)
            }
        }
    }

    fn person_known(&self, said: &Attribution) -> Option<Message> {
        let told = said.named != Named::ByPhone || self.refolded.binding.contains(&said.entry);
        told.then(|| said.named.term())
    }

    /// Returns the entries that are kept but do not affect the state, in the order of the story.
    fn kept(&self) -> impl Iterator<Item = &HistoryLine> {
        self.view().history.iter().filter(|line| line.fate == Fate::Kept)
    }

    /// Returns who said something, with the time in UTC as well and without the entry's number, which the
    /// caller adds.
    fn known_by_short<T>(&self, known: &Attested<T>) -> Message {
        let said = &known.said;
        let at = UtcMillis(said.claimed.0.saturating_sub(said.ahead_millis.unwrap_or(0)));
        message!(
            "packet-by-short",
            who = said.name.as_message(),
            at = Arg::typed(self.both(at)),
            known = said.named.term()
        )
    }

    fn known_by<T>(&self, known: &Attested<T>) -> Message {
        let by = self.by(&known.said);
        if known.disputed { message!("packet-by-disputed", by = by) } else { by }
    }
}

/// Returns an uncertainty with its unit.
fn plus_minus(value: f64, unit: &str) -> Message {
    let worth = Arg::Figure { value: format!("{value:.2}"), plus_minus: None, unit: unit.to_owned() };
    message!("packet-plus-minus", value = worth)
}

/// Writes all pages, and returns the facts of the first page in their order.
pub fn write<'f>(faces: &'f Typefaces, paper: Paper, told: &Told<'_>) -> (Sheet<'f>, Vec<Fact>) {
    let (mut page, facts) = front::write(|| Sheet::new(faces, paper), told);
    page.turn();
    let sheet = &mut page;
    doubts::defects(sheet, told);
    doubts::disagreements(sheet, told);
    doubts::corrections(sheet, told);
    doubts::not_counted(sheet, told);
    doubts::passed_over(sheet, told);
    doubts::worth_knowing(sheet, told);
    state::fittings(sheet, told);
    measured::write(sheet, told);
    state::seals(sheet, told);
    state::photographs(sheet, told);
    proof::check(sheet, told);
    page.turn();
    let sheet = &mut page;
    story::write(sheet, told);
    annex::others(sheet, told);
    measured::series(sheet, told);
    measured::computed(sheet, told);
    proof::devices(sheet, told);
    proof::receipts(sheet, told);
    proof::files(sheet, told);
    (page, facts)
}
