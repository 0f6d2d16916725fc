//! What a transaction collects while it writes: rows by kind, each kind written by one statement.
//!
//! What the database holds of the entries, documents and changes concerned is read at the beginning, so that the
//! numbers of new rows can be given here. The head in `PostgresStore::open` is carried along.

use std::collections::{BTreeMap, BTreeSet, HashMap, HashSet};

use farsiding_core::entry::Entry;
use farsiding_core::ids::{CarId, Digest, EntryId, Subject};
use farsiding_core::store::parts::{Area, OpenedAt, area_by_kind, counted_as, photograph_of};
use farsiding_core::store::{SetDigest, StoreError};
use farsiding_core::tree::LogLeaf;
use farsiding_core::tree::merkle::node_hash;

use crate::head::Head;
use crate::line::Fault;
use crate::open::PostgresStore;
use crate::rows::bytes32;

/// Selects the sites of matching visits, without openings that name another site than the visit's id proves.
const OPENED_AREAS: &str = "SELECT DISTINCT site FROM farsiding.opened_at o WHERE organisation = $1 AND (
    bound OR EXISTS (SELECT 1 FROM farsiding.opened_at b
      WHERE b.organisation = o.organisation AND b.visit = o.visit AND b.bound AND b.site = o.site)
    OR NOT EXISTS (SELECT 1 FROM farsiding.opened_at b
      WHERE b.organisation = o.organisation AND b.visit = o.visit AND b.bound)) AND ";

/// What is asked of the database before anything is written.
#[derive(Debug, Default)]
pub(crate) struct Concerned {
    pub(crate) entries: HashSet<EntryId>,
    pub(crate) subjects: HashSet<Subject>,
    pub(crate) changes: HashSet<(Subject, Digest)>,
}

/// An entry that the database holds, or will.
#[derive(Debug, Clone, Copy)]
struct Known {
    position: i64,
    has_leaf: bool,
    sound: bool,
}

/// Rows of a kind, one list for each column.
#[derive(Default)]
struct Waiting {
    entries: (Vec<i64>, Vec<Vec<u8>>, Vec<Vec<u8>>),
    standings: (Vec<Vec<u8>>, Vec<i64>),
    photos_in: (Vec<Vec<u8>>, Vec<Vec<u8>>),
    changes: Changes,
    leaves: Leaves,
    nodes: (Vec<i32>, Vec<i64>, Vec<Vec<u8>>),
    values: BTreeMap<Vec<u8>, Vec<u8>>,
}

#[derive(Default)]
struct Leaves {
    numbers: Vec<i64>,
    entries: Vec<i64>,
    times: Vec<i64>,
    about: Vec<Option<Vec<u8>>>,
}

#[derive(Default)]
struct Changes {
    positions: Vec<i64>,
    subjects: Vec<Vec<u8>>,
    hashes: Vec<Vec<u8>>,
    bytes: Vec<Vec<u8>>,
    digests: Vec<Vec<u8>>,
    held: Vec<bool>,
    ids: Vec<Option<Vec<u8>>>,
}

/// A transaction's writing.
pub(crate) struct Writing<'a> {
    pub(crate) store: &'a PostgresStore,
    /// The entries that are new.
    pub(crate) new: Vec<EntryId>,
    known: HashMap<EntryId, Known>,
    standings: HashSet<(Subject, i64)>,
    changes: HashMap<(Subject, Digest), bool>,
    areas: HashMap<Subject, BTreeSet<Area>>,
    tallies: BTreeMap<Area, (SetDigest, SetDigest)>,
    waiting: Waiting,
}

/// Returns bytes as the driver takes them.
fn key(subject: Subject) -> Vec<u8> {
    subject.to_bytes().to_vec()
}

impl<'a> Writing<'a> {
    /// Reads what the database holds of what is concerned.
    pub(crate) fn begin(store: &'a PostgresStore, concerned: &Concerned) -> Result<Writing<'a>, Fault> {
        let mut writing = Writing {
            store,
            new: Vec::new(),
            known: HashMap::new(),
            standings: HashSet::new(),
            changes: HashMap::new(),
            areas: HashMap::new(),
            tallies: BTreeMap::new(),
            waiting: Waiting::default(),
        };
        writing.look_up(concerned)?;
        Ok(writing)
    }

    /// Reads what the database holds of what is concerned, in place of what was known.
    pub(crate) fn look_up(&mut self, concerned: &Concerned) -> Result<(), Fault> {
        let (store, organisation) = (self.store, &self.store.organisation);
        self.known.clear();
        self.standings.clear();
        self.changes.clear();
        self.areas.clear();
        if !concerned.entries.is_empty() {
            let ids: Vec<&[u8]> = concerned.entries.iter().map(|id| id.0.as_slice()).collect();
            let sql = "SELECT id, position, sha256(bytes) = id, EXISTS (SELECT 1 FROM farsiding.log l
                         WHERE l.organisation = e.organisation AND l.entry = e.position)
                       FROM farsiding.entry e WHERE organisation = $1 AND id = ANY($2)";
            let mut positions = Vec::new();
            for row in store.rows(sql, &[organisation, &ids])? {
                let known = Known { position: row.get(1), sound: row.get(2), has_leaf: row.get(3) };
                positions.push(known.position);
                self.known.insert(EntryId(bytes32(&row, 0)?), known);
            }
            if !positions.is_empty() {
                let sql = "SELECT subject, position FROM farsiding.standing
                           WHERE organisation = $1 AND position = ANY($2)";
                for row in store.rows(sql, &[organisation, &positions])? {
                    self.standings
                        .extend(Subject::from_bytes(row.get(0)).map(|subject| (subject, row.get(1))));
                }
            }
        }
        if !concerned.changes.is_empty() {
            let subjects: Vec<Vec<u8>> = concerned.changes.iter().map(|(subject, _)| key(*subject)).collect();
            let hashes: Vec<&[u8]> = concerned.changes.iter().map(|(_, hash)| hash.0.as_slice()).collect();
            let sql = "SELECT c.subject, c.hash, c.held FROM farsiding.change c
                       JOIN unnest($2::bytea[], $3::bytea[]) AS w(subject, hash) USING (subject, hash)
                       WHERE c.organisation = $1";
            for row in store.rows(sql, &[organisation, &subjects, &hashes])? {
                if let Some(subject) = Subject::from_bytes(row.get(0)) {
                    self.changes.insert((subject, Digest(bytes32(&row, 1)?)), row.get(2));
                }
            }
        }
        if !concerned.subjects.is_empty() {
            let subjects: Vec<Vec<u8>> = concerned.subjects.iter().map(|subject| key(*subject)).collect();
            self.areas.extend(concerned.subjects.iter().map(|subject| (*subject, BTreeSet::new())));
            let sql =
                "SELECT subject, area FROM farsiding.belonging WHERE organisation = $1 AND subject = ANY($2)";
            for row in store.rows(sql, &[organisation, &subjects])? {
                if let (Some(subject), Some(area)) =
                    (Subject::from_bytes(row.get(0)), Area::from_bytes(row.get(1)))
                {
                    self.areas.entry(subject).or_default().insert(area);
                }
            }
        }
        Ok(())
    }

    /// Changes the head.
    pub(crate) fn on_head<T>(&self, change: impl FnOnce(&mut Head) -> T) -> Result<T, Fault> {
        let lost = || Fault::Store(StoreError::Database("no transaction is open".to_owned()));
        self.store.open.borrow_mut().as_mut().map(change).ok_or_else(lost)
    }

    /// Adds an entry to a document. Returns true if it is new.
    pub(crate) fn entry(&mut self, subject: Subject, entry: &Entry) -> Result<bool, Fault> {
        let known = self.known.get(&entry.id).copied();
        let position = match known {
            Some(Known { position, sound: true, .. }) => position,
            Some(known) => {
                // An entry's id is the digest of its bytes, so a row with other bytes is damaged and is replaced.
                let sql = "UPDATE farsiding.entry SET bytes = $3 WHERE organisation = $1 AND id = $2";
                let store = self.store;
                store.run(sql, &[&store.organisation, &entry.id.0.as_slice(), &entry.bytes()])?;
                self.known.insert(entry.id, Known { sound: true, ..known });
                known.position
            }
            None => {
                let position = self.on_head(|head| {
                    head.entries += 1;
                    head.tally.add(entry.id);
                    head.entries
                })?;
                let (positions, ids, bytes) = &mut self.waiting.entries;
                positions.push(position);
                ids.push(entry.id.0.to_vec());
                bytes.push(entry.bytes().to_vec());
                self.known.insert(entry.id, Known { position, has_leaf: false, sound: true });
                self.new.push(entry.id);
                position
            }
        };
        if self.standings.insert((subject, position)) {
            let (subjects, positions) = &mut self.waiting.standings;
            subjects.push(key(subject));
            positions.push(position);
            self.note_standing(subject, entry)?;
        }
        Ok(known.is_none())
    }

    /// Appends an entry's leaf with the hashes of the subtrees it completes, unless it has one already or is not in
    /// the store.
    pub(crate) fn leaf(&mut self, leaf: LogLeaf) -> Result<(), Fault> {
        let Some(known) = self.known.get_mut(&leaf.entry).filter(|known| !known.has_leaf) else {
            return Ok(());
        };
        known.has_leaf = true;
        let position = known.position;
        let (number, leaf, nodes) = self.on_head(|head| {
            let received_at = leaf.received_at.0.max(head.leaf_at);
            let leaf = LogLeaf { received_at: farsiding_core::clock::UtcMillis(received_at), ..leaf };
            let number = head.leaves;
            let (mut hash, mut level, mut nodes) = (leaf.hash(), 0i32, Vec::new());
            while (number >> level) & 1 == 1 {
                let left = head.peaks.pop().ok_or_else(|| {
                    Fault::Store(StoreError::Database("the log lacks a hash at its edge".to_owned()))
                })?;
                hash = node_hash(left, hash);
                level += 1;
                nodes.push((level, number >> level, hash));
            }
            head.peaks.push(hash);
            head.leaves = number + 1;
            head.leaf_at = received_at;
            Ok::<_, Fault>((number, leaf, nodes))
        })??;
        let Leaves { numbers, entries, times, about } = &mut self.waiting.leaves;
        numbers.push(number);
        entries.push(position);
        times.push(leaf.received_at.0);
        about.push(leaf.about.map(key));
        for (level, place, hash) in nodes {
            let (levels, places, hashes) = &mut self.waiting.nodes;
            levels.push(level);
            places.push(place);
            hashes.push(hash.0.to_vec());
        }
        Ok(())
    }

    /// Writes a change. One that is there already is held if it was held or is held now.
    pub(crate) fn change(
        &mut self,
        (subject, hash): (Subject, Digest),
        bytes: &[u8],
        ids: Option<Vec<u8>>,
        held: bool,
    ) -> Result<(), Fault> {
        match self.changes.insert((subject, hash), held) {
            None => {
                let position = self.on_head(|head| {
                    head.changes += 1;
                    head.changes
                })?;
                let rows = &mut self.waiting.changes;
                rows.positions.push(position);
                rows.subjects.push(key(subject));
                rows.hashes.push(hash.0.to_vec());
                rows.bytes.push(bytes.to_vec());
                rows.digests.push(Digest::of(bytes).0.to_vec());
                rows.held.push(held);
                rows.ids.push(ids);
            }
            Some(true) => {
                self.changes.insert((subject, hash), true);
            }
            Some(false) if held => {
                self.flush()?;
                let sql = "UPDATE farsiding.change SET held = true
                           WHERE organisation = $1 AND subject = $2 AND hash = $3";
                let store = self.store;
                store.run(sql, &[&store.organisation, &key(subject), &hash.0.as_slice()])?;
            }
            Some(false) => {}
        }
        Ok(())
    }

    /// Tells what was done to the marks of changes by a statement of its own.
    pub(crate) fn mark(&mut self, held: bool, which: impl Fn(Subject, Digest) -> bool) {
        for ((subject, hash), known) in &mut self.changes {
            if which(*subject, *hash) {
                *known = held;
            }
        }
    }

    /// Sets a named value.
    pub(crate) fn value(&mut self, key: &str, value: &[u8]) {
        self.waiting.values.insert(key.as_bytes().to_vec(), value.to_vec());
    }

    /// The set digest of an area: read once and written once.
    fn tally(&mut self, area: Area) -> Result<&mut SetDigest, Fault> {
        use std::collections::btree_map::Entry as Place;
        let (_, now) = match self.tallies.entry(area) {
            Place::Occupied(place) => place.into_mut(),
            Place::Vacant(place) => {
                let before = self.store.tally_of(area)?;
                place.insert((before, before))
            }
        };
        Ok(now)
    }

    /// Updates areas and set digests for an entry that was added to a document.
    fn note_standing(&mut self, subject: Subject, entry: &Entry) -> Result<(), Fault> {
        let before = self.areas_of(subject)?;
        let counted = counted_as(subject, entry.id);
        for area in before.iter().copied().chain([Area::Everything]) {
            self.tally(area)?.add(counted);
        }
        if before.is_empty() && area_by_kind(subject).is_some() {
            self.belong(subject)?;
        }
        if let Some(photo) = photograph_of(&entry.body.says) {
            let (photos, subjects) = &mut self.waiting.photos_in;
            photos.push(photo.0.to_vec());
            subjects.push(key(subject));
        }
        let Some(OpenedAt { visit, car, site, bound }) = OpenedAt::of(subject, entry) else { return Ok(()) };
        let (store, organisation) = (self.store, &self.store.organisation);
        let sql = "INSERT INTO farsiding.opened_at(organisation, visit, car, site, bound) VALUES ($1, $2, $3, $4, $5)
                   ON CONFLICT DO NOTHING";
        let of_visit = visit.0.as_slice();
        let new =
            store.run(sql, &[organisation, &of_visit, &car.0.as_slice(), &site.0.as_slice(), &bound])?;
        if new == 1 {
            self.belong(subject)?;
            for car in self.cars_of(of_visit)? {
                self.belong(Subject::Car(car))?;
            }
        }
        Ok(())
    }

    /// Returns the cars with which a visit was opened.
    pub(crate) fn cars_of(&self, visit: &[u8]) -> Result<BTreeSet<CarId>, Fault> {
        let sql = "SELECT DISTINCT car FROM farsiding.opened_at WHERE organisation = $1 AND visit = $2";
        let rows = self.store.rows(sql, &[&self.store.organisation, &visit])?;
        Ok(rows.iter().filter_map(|row| Some(CarId(row.get::<_, &[u8]>(0).try_into().ok()?))).collect())
    }

    /// Returns the areas of a document.
    pub(crate) fn areas_of(&mut self, subject: Subject) -> Result<BTreeSet<Area>, Fault> {
        if let Some(known) = self.areas.get(&subject) {
            return Ok(known.clone());
        }
        let found = self.store.areas_of(subject)?;
        self.areas.insert(subject, found.clone());
        Ok(found)
    }

    /// Forgets the areas of a document that was removed.
    pub(crate) fn forget_areas(&mut self, subject: Subject) {
        self.areas.insert(subject, BTreeSet::new());
    }

    /// Removes entries of a document from the set digests it counts in.
    pub(crate) fn uncount(&mut self, subject: Subject, ids: &[EntryId]) -> Result<(), Fault> {
        for area in self.areas_of(subject)?.into_iter().chain([Area::Everything]) {
            let tally = self.tally(area)?;
            ids.iter().for_each(|id| tally.remove(counted_as(subject, *id)));
        }
        Ok(())
    }

    /// Returns the areas that a document belongs to according to the stored entries.
    fn wanted(&self, subject: Subject) -> Result<BTreeSet<Area>, Fault> {
        let (fits, id) = match subject {
            Subject::Visit(visit) => ("o.visit = $2", visit.0),
            Subject::Car(car) => ("o.car = $2", car.0),
            Subject::Site(_) | Subject::Roster(_) => return Ok(area_by_kind(subject).into_iter().collect()),
        };
        let rows = self
            .store
            .rows(&format!("{OPENED_AREAS} {fits}"), &[&self.store.organisation, &id.as_slice()])?;
        Ok(rows.iter().filter_map(|row| Area::from_bytes(row.get(0))).collect())
    }

    /// Makes the wanted areas the areas of the document.
    pub(crate) fn belong(&mut self, subject: Subject) -> Result<(), Fault> {
        self.flush()?;
        let (before, wanted) = (self.areas_of(subject)?, self.wanted(subject)?);
        if before == wanted {
            return Ok(());
        }
        let (store, organisation, of) = (self.store, &self.store.organisation, key(subject));
        let sql = "SELECT id FROM farsiding.standing JOIN farsiding.entry USING (organisation, position)
                   WHERE organisation = $1 AND subject = $2";
        let counted: Vec<EntryId> =
            store.ids(sql, &[organisation, &of])?.into_iter().map(|id| counted_as(subject, id)).collect();
        for area in wanted.difference(&before) {
            let sql =
                "INSERT INTO farsiding.belonging(organisation, subject, area, fed) VALUES ($1, $2, $3, false)
                       ON CONFLICT DO NOTHING";
            store.run(sql, &[organisation, &of, &area.as_bytes()])?;
            let tally = self.tally(*area)?;
            counted.iter().for_each(|id| tally.add(*id));
        }
        for area in before.difference(&wanted) {
            let sql =
                "DELETE FROM farsiding.belonging WHERE organisation = $1 AND subject = $2 AND area = $3";
            store.run(sql, &[organisation, &of, &area.as_bytes()])?;
            let sql = "DELETE FROM farsiding.feed WHERE organisation = $1 AND area = $3 AND change IN (
                         SELECT position FROM farsiding.change WHERE organisation = $1 AND subject = $2)";
            store.run(sql, &[organisation, &of, &area.as_bytes()])?;
            let tally = self.tally(*area)?;
            counted.iter().for_each(|id| tally.remove(*id));
        }
        self.areas.insert(subject, wanted);
        Ok(())
    }

    /// Runs one statement for all rows of a kind, and makes sure that it wrote as many as there are.
    fn put(&self, rows: usize, sql: &str, given: crate::line::Given<'_>) -> Result<(), Fault> {
        if rows == 0 {
            return Ok(());
        }
        let written = self.store.run(sql, given)?;
        if usize::try_from(written) != Ok(rows) {
            let why = format!("{written} of {rows} rows were written: {}", sql.get(..40).unwrap_or_default());
            return Err(Fault::Store(StoreError::Database(why)));
        }
        Ok(())
    }

    /// Writes the rows collected so far.
    pub(crate) fn flush(&mut self) -> Result<(), Fault> {
        let organisation = &self.store.organisation;
        let Waiting { entries, standings, photos_in, changes, leaves, nodes, values } =
            std::mem::take(&mut self.waiting);
        let sql = "INSERT INTO farsiding.entry(organisation, position, id, bytes)
                   SELECT $1, * FROM unnest($2::bigint[], $3::bytea[], $4::bytea[]) ON CONFLICT DO NOTHING";
        self.put(entries.0.len(), sql, &[organisation, &entries.0, &entries.1, &entries.2])?;
        let sql = "INSERT INTO farsiding.standing(organisation, subject, position)
                   SELECT $1, * FROM unnest($2::bytea[], $3::bigint[]) ON CONFLICT DO NOTHING";
        self.put(standings.0.len(), sql, &[organisation, &standings.0, &standings.1])?;
        if !photos_in.0.is_empty() {
            let sql = "INSERT INTO farsiding.photo_in(organisation, sha256, subject)
                       SELECT $1, * FROM unnest($2::bytea[], $3::bytea[]) ON CONFLICT DO NOTHING";
            self.store.run(sql, &[organisation, &photos_in.0, &photos_in.1])?;
        }
        let sql =
            "INSERT INTO farsiding.change(organisation, position, subject, hash, bytes, digest, held, ids)
                   SELECT $1, * FROM unnest($2::bigint[], $3::bytea[], $4::bytea[], $5::bytea[], $6::bytea[],
                     $7::boolean[], $8::bytea[]) ON CONFLICT DO NOTHING";
        let Changes { positions, subjects, hashes, bytes, digests, held, ids } = &changes;
        self.put(
            positions.len(),
            sql,
            &[organisation, positions, subjects, hashes, bytes, digests, held, ids],
        )?;
        let sql = "INSERT INTO farsiding.log(organisation, number, entry, received_at, about)
                   SELECT $1, * FROM unnest($2::bigint[], $3::bigint[], $4::bigint[], $5::bytea[])
                   ON CONFLICT DO NOTHING";
        let Leaves { numbers, entries, times, about } = &leaves;
        self.put(numbers.len(), sql, &[organisation, numbers, entries, times, about])?;
        let sql = "INSERT INTO farsiding.log_tree(organisation, level, place, hash)
                   SELECT $1, * FROM unnest($2::integer[], $3::bigint[], $4::bytea[]) ON CONFLICT DO NOTHING";
        self.put(nodes.0.len(), sql, &[organisation, &nodes.0, &nodes.1, &nodes.2])?;
        let (keys, values): (Vec<Vec<u8>>, Vec<Vec<u8>>) = values.into_iter().unzip();
        let sql = "INSERT INTO farsiding.value(organisation, key, value)
                   SELECT $1, * FROM unnest($2::bytea[], $3::bytea[])
                   ON CONFLICT (organisation, key) DO UPDATE SET value = excluded.value";
        self.put(keys.len(), sql, &[organisation, &keys, &values])
    }

    /// Writes everything that is left.
    pub(crate) fn end(mut self) -> Result<Vec<EntryId>, Fault> {
        self.flush()?;
        let changed = self.tallies.iter().filter(|(_, (before, now))| before != now);
        let (areas, tallies): (Vec<Vec<u8>>, Vec<Vec<u8>>) =
            changed.map(|(area, (_, now))| (area.as_bytes().to_vec(), now.to_bytes().to_vec())).unzip();
        let sql = "INSERT INTO farsiding.area_tally(organisation, area, tally)
                   SELECT $1, * FROM unnest($2::bytea[], $3::bytea[])
                   ON CONFLICT (organisation, area) DO UPDATE SET tally = excluded.tally";
        self.put(areas.len(), sql, &[&self.store.organisation, &areas, &tallies])?;
        Ok(self.new)
    }
}
