//! What the pages say, in the order a reader asks: what this is and is not, which car, the story, the
//! state at the end, the measurements, the pictures, what was doubted, and what proves it.
//!
//! Everything comes from the record as folded from the attached entries. Does not live here: how pages
//! are set (`sheet`) and figures drawn (`figures`).

mod doubts;
mod front;
mod measured;
mod proof;
mod state;
mod story;

use std::collections::BTreeMap;

use farsiding_core::authority::Named;
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::{AnyTime, OrganisationKeys, PublicKey};
use farsiding_core::evidence::Checkpoint;
use farsiding_core::evidence::packet::{Parts, Refolded};
use farsiding_core::ids::{Digest, EntryId};
use farsiding_core::view::{Fate, HistoryLine, Known, Said, VisitView};

use super::sheet::Sheet;

/// A photograph as the pages know it.
#[derive(Debug, Clone)]
pub struct Shown {
    /// Its number among the drawn pictures and its size; nothing when it is not drawn.
    pub drawn: Option<(usize, (u32, u32))>,
    /// The attached file; nothing when the office does not hold it.
    pub file: Option<String>,
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
    /// The files attached, with their lengths.
    pub files: &'a [(String, usize, String)],
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

    /// Who said something, when and on what; where it binds the person, or the person signed, how it is known
    /// that it was they.
    fn by(&self, said: &Said) -> String {
        let known = self.person_known(said).map_or(String::new(), |how| format!(", {how}"));
        format!("{}, on {}{known}", said.signature(), said.device_name)
    }

    fn person_known(&self, said: &Said) -> Option<&'static str> {
        let told = said.named != Named::ByPhone || self.refolded.binding.contains(&said.entry);
        told.then(|| said.named.spoken())
    }

    /// The entries that are kept and touch no state, in the order of the story.
    fn kept(&self) -> impl Iterator<Item = &HistoryLine> {
        self.view().history.iter().filter(|line| line.fate == Fate::Kept)
    }

    fn known_by<T>(&self, known: &Known<T>) -> String {
        let disputed = if known.disputed { " \u{2013} DISPUTED, see the disagreements" } else { "" };
        format!("{}{disputed}", self.by(&known.said))
    }
}

/// Writes all pages.
pub fn write(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    front::write(sheet, told);
    story::write(sheet, told);
    state::fittings(sheet, told);
    measured::write(sheet, told);
    state::photographs(sheet, told);
    state::seals(sheet, told);
    doubts::defects(sheet, told);
    doubts::disagreements(sheet, told);
    doubts::corrections(sheet, told);
    doubts::not_counted(sheet, told);
    doubts::passed_over(sheet, told);
    doubts::worth_knowing(sheet, told);
    proof::write(sheet, told);
}
