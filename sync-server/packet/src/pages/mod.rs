//! What the pages say: the first page, what was doubted, the state at the end, the readings, the seals and pictures,
//! how to check it; then as annex every entry, every series, every computed value, and what proves them.
//!
//! Everything comes from the record as folded from the attached entries. Does not live here: how pages
//! are set (`sheet`) and figures drawn (`figures`).

mod annex;
mod doubts;
mod front;
mod measured;
mod proof;
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
use farsiding_core::view::{Attested, Attribution, Fate, HistoryLine, VisitView};

use super::marks::Paper;
use super::sheet::Sheet;
use super::typeface::Typefaces;

/// A photograph as the pages know it.
#[derive(Debug, Clone)]
pub struct Shown {
    /// Its number among the drawn pictures and its size; nothing when it is not drawn.
    pub drawn: Option<(usize, (u32, u32))>,
    /// The attached file; nothing when the office does not hold it.
    pub file: Option<String>,
}

/// The attached entries, opened, list after list: an entry's number is its place here, from 1.
pub struct Numbered {
    lists: Vec<(&'static str, Vec<Entry>)>,
    numbers: BTreeMap<EntryId, u64>,
}

impl Numbered {
    /// Opens and numbers the entries of a packet.
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
    /// The attachments.
    pub parts: &'a Parts,
    /// The record they fold to.
    pub refolded: &'a Refolded,
    /// The photographs.
    pub photos: &'a BTreeMap<Digest, Shown>,
    /// The organisation's key.
    pub organisation_key: PublicKey,
    /// What is known of its keys.
    pub keys: &'a OrganisationKeys,
    /// The document's id.
    pub document: &'a str,
    /// The files attached, with their lengths as far as they are known, and what they are.
    pub files: &'a [(String, Option<usize>, &'static str)],
    /// The entries by number.
    pub numbered: &'a Numbered,
    /// Which entries of the stay stand.
    pub standing: Standing<'a>,
}

/// Which entries of a stay stand, by the record made of them.
pub fn standing<'a>(numbered: &'a Numbered, refolded: &Refolded) -> Standing<'a> {
    let kept = refolded.view.history.iter().filter(|line| line.fate == Fate::Kept);
    let aside: BTreeSet<EntryId> = kept.map(|line| line.said.entry).collect();
    Standing::of(numbered.list("visit"), aside)
}

impl Told<'_> {
    fn view(&self) -> &VisitView {
        &self.refolded.view
    }

    fn zone(&self) -> chrono_tz::Tz {
        self.view().header.zone.parse().unwrap_or(chrono_tz::Tz::UTC)
    }

    fn shown(&self, at: UtcMillis) -> String {
        at.shown_in(self.zone())
    }

    fn received(&self, entry: EntryId) -> String {
        self.refolded.received.get(&entry).map_or("not in the log".to_owned(), |at| self.shown(*at))
    }

    fn checkpoint(&self) -> Option<Checkpoint> {
        let note = self.parts.log.checkpoints.last()?;
        Checkpoint::open(note, &AnyTime(self.keys)).ok()
    }

    /// A time in the site's zone and in UTC.
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

    /// An entry's number, as cited throughout.
    fn number(&self, entry: EntryId) -> Option<u64> {
        self.numbered.numbers.get(&entry).copied()
    }

    /// "No. 14".
    fn no(&self, entry: EntryId) -> String {
        self.number(entry).map_or("of another record".to_owned(), |number| format!("No. {number}"))
    }

    /// The stay's own entries, in the order in which the office received them.
    fn visit_entries(&self) -> impl Iterator<Item = &Entry> {
        self.numbered.list("visit")
    }

    /// The entry that gave the site this name, the last of several.
    fn site_entry(&self, name: &str) -> Option<EntryId> {
        let named = |entry: &&Entry| matches!(&entry.body.says, Statement::Site(site) if site.name == name);
        self.numbered.list("site").filter(named).last().map(|entry| entry.id)
    }

    /// Who said something, when and on what, in which entry; where it binds the person, or the person signed, how
    /// it is known that it was they.
    fn by(&self, said: &Attribution) -> String {
        let known = self.person_known(said).map_or(String::new(), |how| format!(", {how}"));
        format!("{}, on {}{known}, {}", said.signature(), said.device_name, self.no(said.entry))
    }

    fn person_known(&self, said: &Attribution) -> Option<&'static str> {
        let told = said.named != Named::ByPhone || self.refolded.binding.contains(&said.entry);
        told.then(|| said.named.spoken())
    }

    /// The entries that are kept and touch no state, in the order of the story.
    fn kept(&self) -> impl Iterator<Item = &HistoryLine> {
        self.view().history.iter().filter(|line| line.fate == Fate::Kept)
    }

    /// The same with the time in UTC as well and without the number, which the caller gives.
    fn known_by_short<T>(&self, known: &Attested<T>) -> String {
        let said = &known.said;
        let at = UtcMillis(said.claimed.0.saturating_sub(said.ahead_millis.unwrap_or(0)));
        format!("{}, {} ({})", said.name, self.both(at), said.named.spoken())
    }

    fn known_by<T>(&self, known: &Attested<T>) -> String {
        let disputed = if known.disputed { " \u{2013} DISPUTED, see the disagreements" } else { "" };
        format!("{}{disputed}", self.by(&known.said))
    }
}

/// Writes all pages; says what stands on the first, in its order.
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
