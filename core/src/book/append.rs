//! Making entries: what a shell passes in, what the book adds, and the commit that stores them.

use std::collections::{BTreeSet, HashMap};

use serde::{Deserialize, Serialize};

use super::weighing::Weighing;
use super::{Book, BookError, CHAIN, Roster, SEEN};
use crate::clock::{Stamp, UtcMillis};
use crate::document::{CheckedChange, Document};
use crate::entry::vocabulary::{Measured, Position, Receiver, StepOutcome};
use crate::entry::{
    Body, Entry, EntryError, LONGEST_NAME, Opened, PersonName, PersonSigner, RestsOn, SeenLog, Statement,
    car_number::CarNumber, cbor, is_name,
};
use crate::ids::{DeviceId, Digest, EntryId, LONGEST_CODE, OperatorId, SiteId, Subject, VisitId, VisitNonce};
use crate::log::Checkpoint;
use crate::store::{OWN_NAMES, Write, name_rows};
use crate::units::{Amount, Unit};
use crate::view::{self, NameStanding, Slots};
use crate::{Message, message};

/// An entry to be made. Shells pass drafts in their JSON form.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Draft {
    /// The statement.
    pub says: Statement,
    /// The slot, for statements about other entries (agreement, withdrawal); empty otherwise.
    #[serde(default)]
    pub slot: String,
    /// The entries that this one replaces.
    #[serde(default)]
    pub replaces: Vec<EntryId>,
    /// The reason; required with `replaces` and for passing over a blocker.
    #[serde(default)]
    pub why: String,
    /// The device's position, if it may be recorded.
    #[serde(default)]
    pub place: Option<Position>,
    /// When the thing was done, if that was before the entry is made.
    #[serde(default)]
    pub done: Option<UtcMillis>,
    /// The entry of another car on the same track that this one rests on: nobody walked twice.
    #[serde(default)]
    pub rests_on: Option<RestsOn>,
}

impl Draft {
    /// Creates a draft of a statement.
    pub fn of(says: Statement) -> Draft {
        Draft {
            says,
            slot: String::new(),
            replaces: Vec::new(),
            why: String::new(),
            place: None,
            done: None,
            rests_on: None,
        }
    }

    /// Creates a draft of a statement that replaces other entries, with the reason.
    pub fn instead_of(says: Statement, replaces: Vec<EntryId>, why: &str) -> Draft {
        Draft { replaces, why: why.to_owned(), ..Draft::of(says) }
    }

    /// Returns the draft with the time at which the thing was done.
    pub fn done_at(self, done: Option<UtcMillis>) -> Draft {
        Draft { done, ..self }
    }

    /// Returns the draft with the entry of another car on the same track that it rests on.
    pub fn resting_on(self, rests_on: Option<RestsOn>) -> Draft {
        Draft { rests_on, ..self }
    }

    /// Returns the draft with a reason.
    pub fn because(self, why: &str) -> Draft {
        Draft { why: why.to_owned(), ..self }
    }
}

/// The facts with which a visit is opened.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct OpenVisit {
    /// The car number as read from the stencil.
    pub car: String,
    /// The site where the car stands.
    pub site: SiteId,
    /// What receives the cargo.
    pub receiver: Receiver,
    /// The digest of the procedure to follow.
    pub procedure: Digest,
    /// The track or spot.
    #[serde(default)]
    pub spot: String,
}

impl Book {
    /// Opens a visit and returns its id.
    ///
    /// # Errors
    /// [`BookError`]; nothing was then recorded.
    pub fn open_visit(&mut self, visit: OpenVisit, by: &OperatorId) -> Result<VisitId, BookError> {
        let OpenVisit { car, site, receiver, procedure, spot } = visit;
        let nonce = VisitNonce::random(self.randomness.as_mut());
        let id = VisitId::at_site(site, nonce);
        let opened = Opened { car: CarNumber(car), site, receiver, procedure, spot, nonce: Some(nonce) };
        self.append(Subject::Visit(id), vec![Draft::of(Statement::Opened(opened))], by)?;
        Ok(id)
    }

    /// Makes entries in one document, in the given order, and returns their ids once they are on the disk.
    /// Either all of them are stored or none. Binding entries carry the person's own signature while that
    /// person's key is unlocked here.
    ///
    /// # Errors
    /// [`BookError`]; nothing was then recorded, and the caller still has the input.
    pub fn append(
        &mut self,
        subject: Subject,
        mut drafts: Vec<Draft>,
        by: &OperatorId,
    ) -> Result<Vec<EntryId>, BookError> {
        let hand = self.hand_of(by);
        let holding = self.must_say_who_holds(subject, by);
        let binds = drafts.iter().any(|draft| draft.says.binds());
        if holding {
            drafts.insert(0, Draft::of(Statement::HeldBy { person: by.clone() }));
        }
        let mut made = self.append_with(subject, drafts, by, hand.as_ref())?;
        if holding {
            made.remove(0);
        }
        self.key_was_used(subject, by, binds);
        Ok(made)
    }

    /// Does the same as [`Book::append`] but signs binding entries with `person`, whichever key is unlocked
    /// here.
    ///
    /// # Errors
    /// [`BookError`]; nothing was then recorded.
    pub fn append_by_hand(
        &mut self,
        subject: Subject,
        drafts: Vec<Draft>,
        by: &OperatorId,
        person: &PersonSigner,
    ) -> Result<Vec<EntryId>, BookError> {
        self.append_with(subject, drafts, by, Some(person))
    }

    fn append_with(
        &mut self,
        subject: Subject,
        mut drafts: Vec<Draft>,
        by: &OperatorId,
        hand: Option<&PersonSigner>,
    ) -> Result<Vec<EntryId>, BookError> {
        let mut known = match self.known.remove(&subject) {
            Some(known) => known,
            None => self.entries_alone(subject)?,
        };
        let names = self.commit_to_names(&mut drafts)?;
        let made = self.sign(subject, drafts, (by, hand), &mut known)?;
        self.keep(subject, &known, &made, &names)?;
        self.known.insert(subject, known);
        Ok(made.into_iter().map(|entry| entry.id).collect())
    }

    /// Returns the entries that [`Book::append`] would make, without storing them. Shells use it to show the
    /// meaning of a reading while it is being typed.
    ///
    /// # Errors
    /// [`BookError`], as for [`Book::append`].
    pub fn sketch(
        &self,
        subject: Subject,
        drafts: Vec<Draft>,
        by: &OperatorId,
    ) -> Result<Vec<Entry>, BookError> {
        let mut known = self.entries_alone(subject)?;
        self.sign(subject, drafts, (by, None), &mut known)
    }

    fn entries_alone(&self, subject: Subject) -> Result<Vec<Entry>, BookError> {
        Ok(self.entries(subject)?.0.into_iter().map(|(entry, _)| entry).collect())
    }

    /// Returns the entries of the other visits of a stay. An entry that comes after one of them does not
    /// disagree with it.
    fn beside(
        &self,
        weighing: &Weighing,
        subject: Subject,
        known: &[Entry],
    ) -> Result<Vec<Entry>, BookError> {
        let Subject::Visit(visit) = subject else { return Ok(Vec::new()) };
        let joined_with = |visit: VisitId, entries: &[Entry]| {
            let opened = |other: VisitId| {
                let theirs = self.entries_alone(Subject::Visit(other)).ok()?;
                view::opened_of(&weighing.authority, weighing.received(&theirs))
            };
            view::joined_with(&weighing.authority, visit, weighing.received(entries), opened)
        };
        let mut stay = BTreeSet::from([visit]);
        let mut waiting = joined_with(visit, known);
        let mut beside = Vec::new();
        while let Some(other) = waiting.pop() {
            if stay.insert(other) {
                let theirs = self.entries_alone(Subject::Visit(other))?;
                waiting.extend(joined_with(other, &theirs));
                beside.extend(theirs.into_iter().filter(|e| e.body.about == Subject::Visit(other)));
            }
        }
        Ok(beside)
    }

    fn sign(
        &self,
        subject: Subject,
        drafts: Vec<Draft>,
        (by, hand): (&OperatorId, Option<&PersonSigner>),
        known: &mut Vec<Entry>,
    ) -> Result<Vec<Entry>, BookError> {
        if by.0.trim().is_empty() {
            return Err(BookError::NoOperator);
        }
        check_code(by)?;
        let when = self.stamp()?;
        let (mut seq, mut prev) = self.chain()?;
        let mut seen = self.newly_seen()?;
        let mut weighing = self.weighing(known)?;
        let beside = self.beside(&weighing, subject, known)?;
        weighing.take(self, &beside)?;
        let mut made = Vec::with_capacity(drafts.len());
        for draft in drafts {
            check_draft(&draft)?;
            let slot = if draft.slot.is_empty() { draft.says.slot() } else { draft.slot.clone() };
            let of_the_stay = known.iter().filter(|e| e.body.about == subject).chain(&beside);
            let follows = follows(&weighing, subject, of_the_stay, &slot, &draft, self.device());
            seq += 1;
            if let Some(done) = draft.done {
                let earlier = known.iter().filter(|entry| entry.body.about == subject).chain(&beside);
                check_done(done, when, earlier)?;
            }
            let Draft { says, replaces, why, place, done, rests_on, .. } = draft;
            let by = by.clone();
            let body = Body {
                about: subject,
                slot,
                says,
                follows,
                replaces,
                why,
                by,
                seq,
                prev,
                when,
                place,
                seen: seen.take(),
                hand: None,
                done,
                rests_on,
            };
            let entry = match hand.filter(|_| body.says.binds()) {
                Some(person) => Entry::seal_by_hand(body, person, &self.key)?,
                None => Entry::seal(body, &self.key)?,
            };
            prev = Some(entry.id);
            known.push(entry.clone());
            made.push(entry);
        }
        let of_the_stay = known.iter().filter(|e| e.body.about == subject).chain(&beside);
        let refused = weighing
            .judge(subject, of_the_stay)
            .into_iter()
            .filter(|judged| judged.verdict().refused_when_made())
            .find(|judged| made.iter().any(|entry| entry.id == judged.entry().id));
        match refused {
            Some(judged) => Err(BookError::MayNot(judged.verdict())),
            None => Ok(made),
        }
    }

    /// Returns the newest verified checkpoint of the office's log, unless an entry has named it already.
    fn newly_seen(&self) -> Result<Option<SeenLog>, BookError> {
        let (Some(kept), Some(key)) = (self.store.log().newest_checkpoint()?, self.organisation_key()?)
        else {
            return Ok(None);
        };
        let Ok(checkpoint) = Checkpoint::open(&kept.note, &key) else { return Ok(None) };
        let seen = SeenLog { size: checkpoint.size, root: checkpoint.root };
        let named = self.store.value(SEEN)?;
        Ok(Some(seen).filter(|seen| seen.size > 0 && named.as_deref() != Some(seen.root.0.as_slice())))
    }

    /// Puts commitments in the place of people's names, so that no entry made here holds a name, and returns the
    /// names with their salts. A name that is the one kept already keeps its commitment.
    fn commit_to_names(&mut self, drafts: &mut [Draft]) -> Result<Vec<PersonName>, BookError> {
        let mut names = Vec::new();
        let mut known = None;
        for draft in drafts {
            let Statement::Operator(person) = &mut draft.says else { continue };
            let name = std::mem::take(&mut person.name).trim().to_owned();
            if name.is_empty() {
                continue;
            }
            if !is_name(&name) {
                let why = format!("a name has at most {LONGEST_NAME} bytes");
                let says = message!("refusal-person-name", most = LONGEST_NAME);
                return Err(EntryError::NotAllowed(why, says).into());
            }
            if known.is_none()
                && let Some(key) = self.organisation_key()?
            {
                known = Some(Roster::read(self.store(), &key)?);
            }
            let kept = known.as_ref().and_then(|roster| roster.people.get(&person.operator));
            let same = kept.filter(|kept| kept.name_is == NameStanding::Kept && kept.name == name);
            person.named = match same {
                Some(kept) => kept.said.named,
                None => {
                    let row = PersonName::of(&name, self.randomness.as_mut());
                    let named = row.named;
                    names.push(row);
                    Some(named)
                }
            };
        }
        Ok(names)
    }

    /// Commits new entries, their changes, the names they commit to and the head of the device's chain together.
    fn keep(
        &mut self,
        subject: Subject,
        known: &[Entry],
        made: &[Entry],
        names: &[PersonName],
    ) -> Result<(), BookError> {
        let Some(last) = made.last() else { return Ok(()) };
        let mut homes = vec![(subject, made.to_vec())];
        let of_the_car: Vec<Entry> = made.iter().filter(|e| goes_with_the_car(e, known)).cloned().collect();
        if !of_the_car.is_empty()
            && let Some(car) = self.car_of(known)?
        {
            homes.push((car, of_the_car));
        }
        for entry in made {
            if let Some(other) = entry.body.joins().map(Subject::Visit).filter(|other| *other != subject) {
                homes.push((other, vec![entry.clone()]));
            }
        }
        let mut changes: Vec<(Subject, Digest, Vec<u8>)> = Vec::new();
        for (home, entries) in &homes {
            let mut wanted = entries.clone();
            if self.document(*home)?.lacks_entries() {
                wanted.extend(self.entries(*home)?.0.into_iter().map(|(entry, _)| entry));
            }
            if let Some(bytes) = self.document(*home)?.add(&wanted)? {
                let hash = CheckedChange::hash_of(&bytes)?;
                changes.push((*home, hash, bytes));
            }
        }
        let mut writes: Vec<Write<'_>> = homes
            .iter()
            .flat_map(|(home, entries)| entries.iter().map(|entry| Write::Entry { subject: *home, entry }))
            .collect();
        writes.extend(changes.iter().map(|(subject, hash, bytes)| Write::Change {
            subject: *subject,
            hash: *hash,
            bytes,
            held: false,
        }));
        let mut chain = last.body.seq.to_be_bytes().to_vec();
        chain.extend_from_slice(&last.id.0);
        writes.push(Write::Value { key: CHAIN, value: &chain });
        let own = match names {
            [] => None,
            names => {
                let mut own = name_rows(self.store(), OWN_NAMES)?;
                own.extend_from_slice(names);
                own.sort_unstable();
                Some(cbor::encode(&own).map_err(EntryError::from)?)
            }
        };
        if let Some(own) = &own {
            writes.push(Write::Value { key: OWN_NAMES, value: own });
        }
        let seen = made.iter().rev().find_map(|entry| entry.body.seen);
        if let Some(seen) = &seen {
            writes.push(Write::Value { key: SEEN, value: &seen.root.0 });
        }
        let outcome = self.store.commit(&writes);
        if outcome.is_err() {
            // The documents in memory are ahead of the disk, so they are discarded and loaded again when
            // needed.
            let touched: Vec<Subject> = homes.iter().map(|(home, _)| *home).collect();
            self.forget_documents(&touched);
        }
        for (home, _) in homes.iter().skip(1) {
            self.known.remove(home);
        }
        outcome?;
        Ok(())
    }

    /// Returns the car document of a visit according to the visit's present statement of its car.
    fn car_of(&self, known: &[Entry]) -> Result<Option<Subject>, BookError> {
        let weighing = self.weighing(known)?;
        let opened = view::opened_of(&weighing.authority, weighing.received(known));
        Ok(opened.map(|opened| Subject::Car(opened.car.id())))
    }

    fn document(&mut self, subject: Subject) -> Result<&mut Document, BookError> {
        use std::collections::hash_map::Entry as Place;
        match self.documents.entry(subject) {
            Place::Occupied(place) => Ok(place.into_mut()),
            Place::Vacant(place) => {
                let changes = self.store.changes_of(subject)?.rows;
                let document = Document::load(self.actor, changes.iter().map(|c| c.bytes.as_slice()))?;
                Ok(place.insert(document))
            }
        }
    }
}

/// Checks that a person's code can be read out and told apart from others. Entries from other devices that
/// violate this are kept and marked.
fn check_code(code: &OperatorId) -> Result<(), EntryError> {
    if code.is_in_bounds() {
        return Ok(());
    }
    let why =
        format!("a person's code has 1 to {LONGEST_CODE} printable characters and no blank at its ends");
    Err(EntryError::NotAllowed(why, message!("refusal-person-code", most = LONGEST_CODE)))
}

/// Checks the time at which a thing was done against the entry's own time and the beginning of the visit.
fn check_done<'e>(
    done: UtcMillis,
    when: Stamp,
    of_the_stay: impl Iterator<Item = &'e Entry>,
) -> Result<(), EntryError> {
    let refuse = |why: &str, id| Err(EntryError::NotAllowed(why.to_owned(), Message::new(id)));
    if done > when.at {
        return refuse("a thing cannot be done later than its entry is made", "refusal-done-later");
    }
    let began = view::began_by_claim(of_the_stay.map(|entry| &entry.body));
    match began {
        Some(began) if when.corrected_for(done) < began => {
            refuse("a thing cannot be done before the visit began", "refusal-done-before-visit")
        }
        _ => Ok(()),
    }
}

/// Returns the levels that a statement holds: shares of a water capacity.
fn levels(says: &Statement) -> impl Iterator<Item = &Amount> {
    let level = match says {
        Statement::TankGauged(tank) => tank.level.as_ref(),
        Statement::TruckLoad(load) => load.level.as_ref(),
        Statement::Reading(reading) if reading.measured == Measured::Level => Some(&reading.amount),
        _ => None,
    };
    level.into_iter()
}

/// Returns true if a share of a water capacity is possible. What has no number is kept as typed.
fn can_be_level(level: &Amount) -> bool {
    level.value_in(Unit::Percent).is_none_or(|percent| (0.0..=100.0).contains(&percent))
}

/// Checks the rules for making a statement that do not depend on the record.
fn check_draft(draft: &Draft) -> Result<(), EntryError> {
    let refuse = |why: &str, id| Err(EntryError::NotAllowed(why.to_owned(), Message::new(id)));
    if !draft.replaces.is_empty() && draft.why.trim().is_empty() {
        return Err(EntryError::NoReason);
    }
    draft.says.amounts().try_for_each(|amount| {
        let why = |says: &Message| format!("{} ({})", says.id(), amount.shown());
        amount.check_signed().map_err(|says| EntryError::NotAllowed(why(&says), says))
    })?;
    match &draft.says {
        Statement::Operator(person) => check_code(&person.operator),
        Statement::HandoverGiven { to: code } | Statement::HandoverTaken { from: code } => check_code(code),
        Statement::Step { outcome: StepOutcome::Skipped, note, .. } if note.trim().is_empty() => {
            refuse("a step is skipped only with a reason", "refusal-skip-without-reason")
        }
        Statement::Overridden { reason, .. } if reason.text().trim().is_empty() => Err(EntryError::NoReason),
        Statement::PassedOver { .. } if draft.why.trim().is_empty() => {
            refuse("an override takes a reason", "refusal-override-without-reason")
        }
        Statement::Agreement { .. } | Statement::Withdrawn {} if draft.slot.is_empty() => {
            refuse("an agreement or a withdrawal must say what it is about", "refusal-about-nothing")
        }
        Statement::Agreement { .. } | Statement::Withdrawn {} if draft.replaces.is_empty() => {
            refuse("an agreement or a withdrawal must name the entries it settles", "refusal-about-nothing")
        }
        Statement::NextTime(note) if note.what.trim().is_empty() => {
            refuse("a note for next time says something", "refusal-note-empty")
        }
        Statement::PaperExpected(paper) if !paper.is_in_bounds() => {
            refuse("a paper names a car, and no field is longer than a phone shows", "refusal-paper-expected")
        }
        Statement::PaperTakenBack(taken) if taken.because.trim().is_empty() => Err(EntryError::NoReason),
        says if levels(says).any(|level| !can_be_level(level)) => {
            refuse("a level lies between 0 and 100 %", "refusal-level")
        }
        Statement::IncidentClosed { how, .. } if how.trim().is_empty() => Err(EntryError::NoReason),
        Statement::ItemOut { item, .. } | Statement::ItemIn { item } if item.trim().is_empty() => {
            refuse("a thing taken out or put back needs a name", "refusal-item-without-name")
        }
        Statement::Unrecognised { .. } => {
            refuse("this kind of statement cannot be made by this version", "refusal-statement-unknown")
        }
        _ => Ok(()),
    }
}

/// Returns true if an entry also goes into the car's document. A withdrawal or an agreement goes where the
/// entries it concerns went.
fn goes_with_the_car(entry: &Entry, known: &[Entry]) -> bool {
    let settles =
        |entry: &Entry| matches!(entry.body.says, Statement::Agreement { .. } | Statement::Withdrawn {});
    if !settles(entry) {
        return entry.body.says.follows_the_car();
    }
    let by_id: HashMap<EntryId, &Entry> = known.iter().map(|entry| (entry.id, entry)).collect();
    // Each entry is visited once, because agreements over agreements have exponentially many paths.
    let (mut looked_at, mut waiting) = (BTreeSet::from([entry.id]), entry.body.replaces.clone());
    while let Some(id) = waiting.pop() {
        let Some(replaced) = by_id.get(&id).filter(|_| looked_at.insert(id)) else { continue };
        if settles(replaced) {
            waiting.extend(&replaced.body.replaces);
        } else if replaced.body.says.follows_the_car() {
            return true;
        }
    }
    false
}

/// Returns the entries that a new entry follows: the live entries of its slot; for a correction, those that
/// the corrected entries followed. Points of a series follow nothing.
fn follows<'e>(
    weighing: &Weighing,
    subject: Subject,
    of_the_stay: impl Iterator<Item = &'e Entry>,
    slot: &str,
    draft: &Draft,
    device: DeviceId,
) -> Vec<EntryId> {
    if draft.says.is_series() || matches!(draft.says, Statement::Withdrawn {}) {
        return Vec::new();
    }
    let mut follows: Vec<EntryId> = if draft.replaces.is_empty() {
        Slots::fold(weighing.judge(subject, of_the_stay)).follows_for(slot, device)
    } else {
        of_the_stay
            .filter(|e| draft.replaces.contains(&e.id))
            .flat_map(|e| e.body.follows.iter().copied())
            .collect()
    };
    follows.sort_unstable();
    follows.dedup();
    follows
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use crate::entry::DeviceKey;

    /// Sixty layers of two agreements, each over both of the layer below, have about 10^18 paths.
    #[test]
    fn agreements_over_agreements_are_walked_once() {
        let key = DeviceKey::from_secret([1; 32]);
        let mut known: Vec<Entry> = Vec::new();
        let mut seq = 0;
        let mut put = |says: Statement, replaces: Vec<EntryId>, known: &mut Vec<Entry>| {
            seq += 1;
            let body = Body {
                about: Subject::Visit(VisitId([1; 16])),
                slot: "series/remark".into(),
                says,
                follows: vec![],
                replaces,
                why: "w".into(),
                by: OperatorId("op-a".into()),
                seq,
                prev: None,
                when: Stamp { at: UtcMillis(0), offset_minutes: 0, ahead_millis: None },
                place: None,
                seen: None,
                hand: None,
                done: None,
                rests_on: None,
            };
            known.push(Entry::seal(body, &key).unwrap());
            known[known.len() - 1].id
        };
        let mut layer = vec![put(Statement::Remark { text: "x".into() }, vec![], &mut known)];
        for _ in 0..60 {
            layer = (0..2)
                .map(|_| put(Statement::Agreement { keeps: layer[0] }, layer.clone(), &mut known))
                .collect();
        }
        assert!(!goes_with_the_car(&known[known.len() - 1], &known));
    }
}
