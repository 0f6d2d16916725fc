//! Making entries: what a shell hands in, what the book adds, and the one commit that keeps them.

use std::collections::{BTreeSet, HashMap};

use serde::{Deserialize, Serialize};

use super::weighing::Weighing;
use super::{Book, BookError, CHAIN, SEEN};
use crate::document::{CheckedChange, Document};
use crate::entry::vocabulary::{Position, Receiver, StepOutcome};
use crate::entry::{
    Body, Entry, EntryError, Opened, PersonSigner, SeenLog, Statement, car_number::CarNumber,
};
use crate::ids::{DeviceId, Digest, EntryId, LONGEST_CODE, OperatorId, SiteId, Subject, VisitId, VisitNonce};
use crate::log::Checkpoint;
use crate::store::Write;
use crate::view::{self, Slots};

/// An entry to be made. Its JSON form is what shells hand in.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Draft {
    /// What it says.
    pub says: Statement,
    /// The slot, for the statements that speak about another's (agreement, withdrawal); empty otherwise.
    #[serde(default)]
    pub slot: String,
    /// Entries it stands in place of.
    #[serde(default)]
    pub replaces: Vec<EntryId>,
    /// Why; required with `replaces` and for passing over a blocker.
    #[serde(default)]
    pub why: String,
    /// Where the device was, if it may say.
    #[serde(default)]
    pub place: Option<Position>,
}

impl Draft {
    /// A plain statement.
    pub fn of(says: Statement) -> Draft {
        Draft { says, slot: String::new(), replaces: Vec::new(), why: String::new(), place: None }
    }

    /// A statement that stands in place of others, and why.
    pub fn instead_of(says: Statement, replaces: Vec<EntryId>, why: &str) -> Draft {
        Draft { replaces, why: why.to_owned(), ..Draft::of(says) }
    }

    /// The same with a reason.
    pub fn because(self, why: &str) -> Draft {
        Draft { why: why.to_owned(), ..self }
    }
}

/// How a visit begins.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct OpenVisit {
    /// The car's number as read from the stencil.
    pub car: String,
    /// Where it stands.
    pub site: SiteId,
    /// What receives the cargo.
    pub receiver: Receiver,
    /// Which procedure.
    pub procedure: Digest,
    /// Track or spot.
    #[serde(default)]
    pub spot: String,
}

impl Book {
    /// Begins a visit.
    ///
    /// # Errors
    /// [`BookError`].
    pub fn open_visit(&mut self, visit: OpenVisit, by: &OperatorId) -> Result<VisitId, BookError> {
        let OpenVisit { car, site, receiver, procedure, spot } = visit;
        let nonce = VisitNonce::random(self.randomness.as_mut());
        let id = VisitId::at_site(site, nonce);
        let opened = Opened { car: CarNumber(car), site, receiver, procedure, spot, nonce: Some(nonce) };
        self.append(Subject::Visit(id), vec![Draft::of(Statement::Opened(opened))], by)?;
        Ok(id)
    }

    /// Makes entries in one document, in the given order, and returns their ids once they are on the
    /// disk: all of them or none. What binds carries the person's own signature while that person's key
    /// is unlocked here.
    ///
    /// # Errors
    /// [`BookError`]; nothing was then recorded and the caller still has what was typed.
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

    /// As [`Book::append`], signing what binds with `person`, whoever is unlocked here.
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
        drafts: Vec<Draft>,
        by: &OperatorId,
        hand: Option<&PersonSigner>,
    ) -> Result<Vec<EntryId>, BookError> {
        let mut known = match self.known.remove(&subject) {
            Some(known) => known,
            None => self.entries_alone(subject)?,
        };
        let made = self.sign(subject, drafts, (by, hand), &mut known)?;
        self.keep(subject, &known, &made)?;
        self.known.insert(subject, known);
        Ok(made.into_iter().map(|entry| entry.id).collect())
    }

    /// Entries as [`Book::append`] would make them, kept nowhere: for showing what a reading would mean
    /// while it is still being typed.
    ///
    /// # Errors
    /// [`BookError`], as `append` would give.
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

    /// The entries of the other visits of a stay. What comes after something recorded there is no
    /// disagreement with it.
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
            let Draft { says, replaces, why, place, .. } = draft;
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
        match refused.and_then(|judged| judged.verdict().refusal()) {
            Some(why) => Err(BookError::MayNot(why)),
            None => Ok(made),
        }
    }

    /// The newest checkpoint of the office's log that was checked here, unless an entry named it already.
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

    /// Puts new entries, their changes and the head of the chain on the disk together.
    fn keep(&mut self, subject: Subject, known: &[Entry], made: &[Entry]) -> Result<(), BookError> {
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
        let seen = made.iter().rev().find_map(|entry| entry.body.seen);
        if let Some(seen) = &seen {
            writes.push(Write::Value { key: SEEN, value: &seen.root.0 });
        }
        let outcome = self.store.commit(&writes);
        if outcome.is_err() {
            // The documents in memory are ahead of the disk; read them again when next needed.
            let touched: Vec<Subject> = homes.iter().map(|(home, _)| *home).collect();
            self.forget_documents(&touched);
        }
        for (home, _) in homes.iter().skip(1) {
            self.known.remove(home);
        }
        outcome?;
        Ok(())
    }

    /// The car's document of a visit, from what the visit now says its car is.
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

/// A person's code is one that can be read out and told from another. Entries from outside that name another are kept
/// and marked.
fn check_code(code: &OperatorId) -> Result<(), EntryError> {
    if code.is_in_bounds() {
        return Ok(());
    }
    let why =
        format!("a person's code has 1 to {LONGEST_CODE} printable characters and no blank at its ends");
    Err(EntryError::NotAllowed(why))
}

/// The rules for making a statement that do not depend on the record.
fn check_draft(draft: &Draft) -> Result<(), EntryError> {
    let refuse = |why: &str| Err(EntryError::NotAllowed(why.to_owned()));
    if !draft.replaces.is_empty() && draft.why.trim().is_empty() {
        return Err(EntryError::NoReason);
    }
    draft.says.amounts().try_for_each(|amount| amount.check_signed().map_err(EntryError::NotAllowed))?;
    match &draft.says {
        Statement::Operator(person) => check_code(&person.operator),
        Statement::HandoverGiven { to: code } | Statement::HandoverTaken { from: code } => check_code(code),
        Statement::Step { outcome: StepOutcome::Skipped, note, .. } if note.trim().is_empty() => {
            refuse("a step is skipped only with a reason")
        }
        Statement::PassedOver { .. } if draft.why.trim().is_empty() => {
            refuse("passing over a blocker takes a reason")
        }
        Statement::Agreement { .. } | Statement::Withdrawn {} if draft.slot.is_empty() => {
            refuse("an agreement or a withdrawal must say what it is about")
        }
        Statement::Agreement { .. } | Statement::Withdrawn {} if draft.replaces.is_empty() => {
            refuse("an agreement or a withdrawal must name the entries it settles")
        }
        Statement::ItemOut { item, .. } | Statement::ItemIn { item } if item.trim().is_empty() => {
            refuse("a thing taken out or put back needs a name")
        }
        Statement::Unrecognised { .. } => refuse("this kind of statement cannot be made by this version"),
        _ => Ok(()),
    }
}

/// Whether an entry goes into the car's document too. A withdrawal or an agreement goes where what it
/// speaks about went.
fn goes_with_the_car(entry: &Entry, known: &[Entry]) -> bool {
    let settles =
        |entry: &Entry| matches!(entry.body.says, Statement::Agreement { .. } | Statement::Withdrawn {});
    if !settles(entry) {
        return entry.body.says.follows_the_car();
    }
    let by_id: HashMap<EntryId, &Entry> = known.iter().map(|entry| (entry.id, entry)).collect();
    // Each is looked at once: agreements over agreements have more ways through them than can be walked.
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

/// What a new entry comes after: the live entries of its slot; for a correction, whatever the
/// corrected entries came after. Points of a series come after nothing.
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
    use crate::clock::{Stamp, UtcMillis};
    use crate::entry::DeviceKey;

    /// Sixty layers of two agreements, each over both below: a million of millions of ways.
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
