//! Commits: what each kind of write does, in the order in which the writes are given.

use std::collections::HashSet;

use farsiding_core::ids::{Digest, EntryId, Subject};
use farsiding_core::store::Write;
use farsiding_core::store::parts::ids_kept;
use farsiding_core::tree::LogLeaf;

use crate::line::Fault;
use crate::open::PostgresStore;
use crate::rows::bytes32;
use crate::writing::{Concerned, Writing};

/// Performs the writes of a commit inside its transaction and returns the ids of the entries that were new.
pub(crate) fn all(store: &PostgresStore, writes: &[Write<'_>]) -> Result<Vec<EntryId>, Fault> {
    let mut concerned = Concerned::default();
    writes.iter().for_each(|write| concerned.add(write));
    let mut writing = Writing::begin(store, &concerned)?;
    for (at, write) in writes.iter().enumerate() {
        writing.write(write)?;
        if matches!(write, Write::TakeOff(_)) {
            let mut left = Concerned::default();
            writes.iter().skip(at + 1).for_each(|write| left.add(write));
            writing.look_up(&left)?;
        }
    }
    writing.end()
}

impl Concerned {
    /// Adds what a write needs to know.
    pub(crate) fn add(&mut self, write: &Write<'_>) {
        match write {
            Write::Entry { subject, entry } => {
                self.entries.insert(entry.id);
                self.subjects.insert(*subject);
            }
            Write::Leaf { entry, .. } => {
                self.entries.insert(*entry);
            }
            Write::Change { subject, hash, .. } => {
                self.changes.insert((*subject, *hash));
            }
            Write::Checked { subject, change, .. } => {
                self.changes.insert((*subject, change.hash()));
            }
            _ => {}
        }
    }
}

/// Returns the number of signature lines of a signed note: the lines after its last empty line.
pub(crate) fn signatures_of(note: &str) -> i32 {
    let lines = note.rsplit_once("\n\n").map_or(0, |(_, lines)| lines.lines().count());
    i32::try_from(lines).unwrap_or(i32::MAX)
}

impl Writing<'_> {
    /// Performs one write. Rows of the frequent kinds are only collected.
    pub(crate) fn write(&mut self, write: &Write<'_>) -> Result<(), Fault> {
        let (store, organisation) = (self.store, &self.store.organisation);
        match write {
            Write::Entry { subject, entry } => {
                self.entry(*subject, entry)?;
            }
            Write::Change { subject, hash, bytes, held } => {
                self.change((*subject, *hash), bytes, None, *held)?;
            }
            Write::Checked { subject, change, held } => {
                let of = (*subject, change.hash());
                self.change(of, change.bytes(), Some(ids_kept(change)), *held)?;
            }
            Write::Leaf { entry, received_at, about } => {
                self.leaf(LogLeaf { entry: *entry, received_at: *received_at, about: *about })?;
            }
            Write::Value { key, value } => self.value(key, value),
            Write::ChangesHeld(changes) => {
                self.flush()?;
                let subjects: Vec<Vec<u8>> = changes.iter().map(|(s, _)| s.to_bytes().to_vec()).collect();
                let hashes: Vec<&[u8]> = changes.iter().map(|(_, hash)| hash.0.as_slice()).collect();
                let sql = "UPDATE farsiding.change c SET held = true
                           FROM unnest($2::bytea[], $3::bytea[]) AS w(subject, hash)
                           WHERE c.organisation = $1 AND c.subject = w.subject AND c.hash = w.hash AND NOT c.held";
                store.run(sql, &[organisation, &subjects, &hashes])?;
                let held: HashSet<&(Subject, Digest)> = changes.iter().collect();
                self.mark(true, |subject, hash| held.contains(&(subject, hash)));
            }
            Write::ChangesLacking(subjects) => {
                self.flush()?;
                let of: Vec<Vec<u8>> = subjects.iter().map(|subject| subject.to_bytes().to_vec()).collect();
                let sql = "UPDATE farsiding.change SET held = false
                           WHERE organisation = $1 AND subject = ANY($2) AND held";
                store.run(sql, &[organisation, &of])?;
                self.mark(false, |subject, _| subjects.contains(&subject));
            }
            Write::TakeOff(subjects) => self.take_off(subjects)?,
            Write::Feed => self.feed()?,
            Write::Receipt { bytes, entries } => self.receipts(&[(bytes, entries)])?,
            Write::Certificate { device, bytes } => {
                let sql = "INSERT INTO farsiding.certificate(organisation, device, bytes) VALUES ($1, $2, $3)
                           ON CONFLICT (organisation, device) DO UPDATE SET bytes = excluded.bytes";
                store.run(sql, &[organisation, &device.0.as_slice(), bytes])?;
            }
            Write::PurgeQuarantine => {
                store.run("DELETE FROM farsiding.quarantine WHERE organisation = $1", &[organisation])?;
            }
            Write::Quarantine { subject, bytes, why, at } => {
                let sql = "INSERT INTO farsiding.quarantine(organisation, digest, subject, bytes, why, at)
                           VALUES ($1, $2, $3, $4, $5, $6) ON CONFLICT DO NOTHING";
                let (digest, subject) =
                    (Digest::of(bytes), subject.map(|subject| subject.to_bytes().to_vec()));
                store.run(
                    sql,
                    &[organisation, &digest.0.as_slice(), &subject, bytes, &why.as_bytes(), &at.0],
                )?;
            }
            Write::Photo { sha256, length, media, here, held } => {
                // The length comes from the bytes themselves once they are here.
                let sql = "INSERT INTO farsiding.photo AS p (organisation, sha256, length, media, here, held)
                           VALUES ($1, $2, $3, $4, $5, $6) ON CONFLICT (organisation, sha256) DO UPDATE SET
                             length = CASE WHEN excluded.here AND NOT p.here THEN excluded.length ELSE p.length END,
                             here = p.here OR excluded.here, held = p.held OR excluded.held";
                let (sha256, length) = (sha256.0.as_slice(), length.cast_signed());
                store.run(sql, &[organisation, &sha256, &length, &media.as_bytes(), here, held])?;
            }
            Write::PhotosLacking(photos) => {
                let of: Vec<&[u8]> = photos.iter().map(|photo| photo.0.as_slice()).collect();
                let sql =
                    "UPDATE farsiding.photo SET held = false WHERE organisation = $1 AND sha256 = ANY($2)";
                store.run(sql, &[organisation, &of])?;
            }
            Write::Draft { key, text: "" } => {
                let sql = "DELETE FROM farsiding.draft WHERE organisation = $1 AND key = $2";
                store.run(sql, &[organisation, &key.as_bytes()])?;
            }
            Write::Draft { key, text } => {
                let sql = "INSERT INTO farsiding.draft(organisation, key, text) VALUES ($1, $2, $3)
                           ON CONFLICT (organisation, key) DO UPDATE SET text = excluded.text";
                store.run(sql, &[organisation, &key.as_bytes(), &text.as_bytes()])?;
            }
            Write::Checkpoint { origin, size, note, at, since } => {
                let sql = "UPDATE farsiding.checkpoint SET note = $4, signatures = $5
                           WHERE organisation = $1 AND origin = $2 AND size = $3";
                let (origin, size) = (origin.as_bytes(), size.cast_signed());
                let (note, signatures) = (note.as_bytes(), signatures_of(note));
                if store.run(sql, &[organisation, &origin, &size, &note, &signatures])? == 0 {
                    let number = self.on_head(|head| {
                        head.checkpoints += 1;
                        head.checkpoints
                    })?;
                    let sql = "INSERT INTO farsiding.checkpoint(organisation, number, origin, size, note, signatures,
                                 at, since) VALUES ($1, $2, $3, $4, $5, $6, $7, $8)";
                    let given = [organisation as &(dyn tokio_postgres::types::ToSql + Sync), &number];
                    let rest: [&(dyn tokio_postgres::types::ToSql + Sync); 6] =
                        [&origin, &size, &note, &signatures, &at.0, since];
                    store.run(sql, &[given.as_slice(), rest.as_slice()].concat())?;
                }
            }
            Write::TimeStamp { origin, size, note, token, at } => {
                let sql = "INSERT INTO farsiding.stamp(organisation, checkpoint, note, token, at)
                           SELECT $1, number, $4, $5, $6 FROM farsiding.checkpoint
                           WHERE organisation = $1 AND origin = $2 AND size = $3 ON CONFLICT DO NOTHING";
                let (origin, size) = (origin.as_bytes(), size.cast_signed());
                store.run(sql, &[organisation, &origin, &size, &note.as_bytes(), token, &at.0])?;
            }
            Write::Proof { bytes, entries } => {
                self.flush()?;
                let digest = Digest::of(bytes);
                let sql = "SELECT number FROM farsiding.proof WHERE organisation = $1 AND digest = $2";
                let known = store.rows(sql, &[organisation, &digest.0.as_slice()])?;
                let number: i64 = match known.first() {
                    Some(row) => row.get(0),
                    None => {
                        let number = self.on_head(|head| {
                            head.proofs += 1;
                            head.proofs
                        })?;
                        let sql = "INSERT INTO farsiding.proof(organisation, number, digest, bytes)
                                   VALUES ($1, $2, $3, $4)";
                        store.run(sql, &[organisation, &number, &digest.0.as_slice(), bytes])?;
                        number
                    }
                };
                let ids: Vec<&[u8]> = entries.iter().map(|id| id.0.as_slice()).collect();
                let sql = "INSERT INTO farsiding.proven(organisation, position, proof)
                           SELECT $1, position, $3 FROM farsiding.entry WHERE organisation = $1 AND id = ANY($2)
                           ON CONFLICT DO NOTHING";
                store.run(sql, &[organisation, &ids, &number])?;
            }
        }
        Ok(())
    }

    /// Writes receipts for the entries that have none: one statement for all receipts and one for all entries.
    pub(crate) fn receipts(&mut self, receipts: &[(&[u8], &[EntryId])]) -> Result<(), Fault> {
        self.flush()?;
        if receipts.is_empty() {
            return Ok(());
        }
        let (store, organisation) = (self.store, &self.store.organisation);
        let mut numbers: std::collections::HashMap<Digest, i64> = std::collections::HashMap::new();
        let digests: Vec<Digest> = receipts.iter().map(|(bytes, _)| Digest::of(bytes)).collect();
        let asked: Vec<&[u8]> = digests.iter().map(|digest| digest.0.as_slice()).collect();
        let sql = "SELECT digest, number FROM farsiding.receipt WHERE organisation = $1 AND digest = ANY($2)";
        for row in store.rows(sql, &[organisation, &asked])? {
            numbers.insert(Digest(bytes32(&row, 0)?), row.get(1));
        }
        let (mut new, mut of, mut bytes) = (Vec::new(), Vec::new(), Vec::new());
        let (mut ids, mut by) = (Vec::new(), Vec::new());
        for (digest, (receipt, entries)) in digests.iter().zip(receipts) {
            let number = match numbers.get(digest) {
                Some(number) => *number,
                None => {
                    let number = self.on_head(|head| {
                        head.receipts += 1;
                        head.receipts
                    })?;
                    numbers.insert(*digest, number);
                    new.push(number);
                    of.push(digest.0.as_slice());
                    bytes.push(*receipt);
                    number
                }
            };
            ids.extend(entries.iter().map(|id| id.0.as_slice()));
            by.extend(entries.iter().map(|_| number));
        }
        if !new.is_empty() {
            let sql = "INSERT INTO farsiding.receipt(organisation, number, digest, bytes)
                       SELECT $1, * FROM unnest($2::bigint[], $3::bytea[], $4::bytea[])";
            store.run(sql, &[organisation, &new, &of, &bytes])?;
        }
        let sql = "INSERT INTO farsiding.covered(organisation, position, receipt)
                   SELECT DISTINCT ON (e.position) $1::bytea, e.position, w.receipt
                   FROM unnest($2::bytea[], $3::bigint[]) WITH ORDINALITY AS w(id, receipt, place)
                   JOIN farsiding.entry e ON e.organisation = $1 AND e.id = w.id
                   ORDER BY e.position, w.place ON CONFLICT DO NOTHING";
        store.run(sql, &[organisation, &ids, &by])?;
        Ok(())
    }

    /// Brings the feed up to date: first the earlier changes of documents that came to belong to an area, then the
    /// changes committed since.
    fn feed(&mut self) -> Result<(), Fault> {
        self.flush()?;
        let (store, organisation) = (self.store, &self.store.organisation);
        let (feed, fed, newest) = self.on_head(|head| (head.feed, head.fed, head.changes))?;
        let sql = "INSERT INTO farsiding.feed(organisation, position, area, change)
                   SELECT $1, $2 + row_number() OVER (ORDER BY b.subject, b.area, c.position), b.area, c.position
                   FROM farsiding.belonging b JOIN farsiding.change c USING (organisation, subject)
                   WHERE organisation = $1 AND NOT b.fed AND c.position <= $3";
        let late = store.run(sql, &[organisation, &feed, &fed])?.cast_signed();
        let sql = "UPDATE farsiding.belonging SET fed = true WHERE organisation = $1 AND NOT fed";
        store.run(sql, &[organisation])?;
        let mut more = 0;
        if newest > fed {
            let sql = "INSERT INTO farsiding.feed(organisation, position, area, change)
                       SELECT $1, $2 + row_number() OVER (ORDER BY c.position, b.area), b.area, c.position
                       FROM farsiding.change c JOIN farsiding.belonging b USING (organisation, subject)
                       WHERE organisation = $1 AND c.position > $3";
            more = store.run(sql, &[organisation, &(feed + late), &fed])?.cast_signed();
        }
        self.on_head(|head| {
            head.feed = feed + late + more;
            head.fed = newest;
        })
    }

    /// Removes documents. An entry, its receipt and its proof go with the last document that holds it. Only a store
    /// without a log is asked for this.
    fn take_off(&mut self, subjects: &[Subject]) -> Result<(), Fault> {
        self.flush()?;
        for subject in subjects {
            self.take_one_off(*subject)?;
        }
        let (store, organisation) = (self.store, &self.store.organisation);
        for (table, of, column) in [("receipt", "covered", "receipt"), ("proof", "proven", "proof")] {
            let orphans = format!(
                "DELETE FROM farsiding.{of} o WHERE organisation = $1 AND NOT EXISTS (SELECT 1 FROM farsiding.entry e
                   WHERE e.organisation = o.organisation AND e.position = o.position)"
            );
            store.run(&orphans, &[organisation])?;
            let unused = format!(
                "DELETE FROM farsiding.{table} t WHERE organisation = $1 AND NOT EXISTS (SELECT 1 FROM farsiding.{of} o
                   WHERE o.organisation = t.organisation AND o.{column} = t.number)"
            );
            store.run(&unused, &[organisation])?;
        }
        Ok(())
    }

    fn take_one_off(&mut self, subject: Subject) -> Result<(), Fault> {
        let (store, organisation, of) = (self.store, &self.store.organisation, subject.to_bytes().to_vec());
        let sql = "SELECT id FROM farsiding.standing JOIN farsiding.entry USING (organisation, position)
                   WHERE organisation = $1 AND subject = $2";
        let ids = store.ids(sql, &[organisation, &of])?;
        self.uncount(subject, &ids)?;
        let sql = "DELETE FROM farsiding.photo p WHERE organisation = $1
                   AND sha256 IN (SELECT sha256 FROM farsiding.photo_in WHERE organisation = $1 AND subject = $2)
                   AND NOT EXISTS (SELECT 1 FROM farsiding.photo_in i WHERE i.organisation = p.organisation
                     AND i.sha256 = p.sha256 AND i.subject <> $2)";
        store.run(sql, &[organisation, &of])?;
        for sql in [
            "DELETE FROM farsiding.feed WHERE organisation = $1 AND change IN (
               SELECT position FROM farsiding.change WHERE organisation = $1 AND subject = $2)",
            "DELETE FROM farsiding.change WHERE organisation = $1 AND subject = $2",
            "DELETE FROM farsiding.standing WHERE organisation = $1 AND subject = $2",
            "DELETE FROM farsiding.photo_in WHERE organisation = $1 AND subject = $2",
        ] {
            store.run(sql, &[organisation, &of])?;
        }
        let keys: Vec<&[u8]> = ids.iter().map(|id| id.0.as_slice()).collect();
        let sql = "DELETE FROM farsiding.entry e WHERE organisation = $1 AND id = ANY($2) AND NOT EXISTS (
                     SELECT 1 FROM farsiding.standing s WHERE s.organisation = e.organisation AND s.position = e.position)
                   RETURNING id";
        for id in store.ids(sql, &[organisation, &keys])? {
            self.on_head(|head| head.tally.remove(id))?;
        }
        if !matches!(subject, Subject::Car(_)) {
            // A car belongs where its visits are, with or without a document of its own.
            let sql = "DELETE FROM farsiding.belonging WHERE organisation = $1 AND subject = $2";
            store.run(sql, &[organisation, &of])?;
            self.forget_areas(subject);
        }
        if let Subject::Visit(visit) = subject {
            let cars = self.cars_of(&visit.0)?;
            let sql = "DELETE FROM farsiding.opened_at WHERE organisation = $1 AND visit = $2";
            store.run(sql, &[organisation, &visit.0.as_slice()])?;
            for car in cars {
                self.belong(Subject::Car(car))?;
            }
        }
        Ok(())
    }
}
