//! Scopes in the SQLite store. Areas and set digests are updated with each entry, and the feed when it is
//! requested.
//!
//! A device never requests the feed, so the feed table stays empty there. The rules are described in `scope`;
//! `memory_scope` implements them in memory.

use std::collections::{BTreeMap, BTreeSet};

use rusqlite::{Connection, OptionalExtension as _, Params, Row, params};

use super::scope::{Area, Fed, OpenedAt, Scope, ScopeRows, area_by_kind, counted_as, photograph_of};
use super::sqlite::{CHANGE_COLUMNS, SqliteStore, change_at, get_value, put_value, subject_at};
use super::{SetDigest, Store as _, StoreError};
use crate::entry::Entry;
use crate::ids::{CarId, Digest, EntryId, SiteId, Subject};

type Outcome<T> = Result<T, rusqlite::Error>;

/// The name of the value that holds the position of the last change in the feed.
pub(super) const FED: &str = "store/fed";

/// The number of rows read per area and query while a page of the feed is collected.
const ROWS_AT_ONCE: i64 = 512;

/// Selects the sites of matching visits, without openings that name another site than the visit's id proves.
const OPENED_AREAS: &str = "SELECT DISTINCT site FROM opened_at AS o WHERE (
    bound OR EXISTS (SELECT 1 FROM opened_at AS b WHERE b.visit = o.visit AND b.bound AND b.site = o.site)
    OR NOT EXISTS (SELECT 1 FROM opened_at AS b WHERE b.visit = o.visit AND b.bound)) AND ";

/// The set digests of areas during a commit: each is read once and written once.
#[derive(Default)]
pub(super) struct AreaTallies(BTreeMap<Area, (SetDigest, SetDigest)>);

impl AreaTallies {
    pub(super) fn of(&mut self, connection: &Connection, area: Area) -> Outcome<&mut SetDigest> {
        use std::collections::btree_map::Entry as Place;
        let (_, now) = match self.0.entry(area) {
            Place::Occupied(place) => place.into_mut(),
            Place::Vacant(place) => {
                let before = tally_of(connection, area)?;
                place.insert((before, before))
            }
        };
        Ok(now)
    }

    /// Writes the set digests that changed.
    pub(super) fn keep(self, transaction: &Connection) -> Outcome<()> {
        for (area, (before, now)) in self.0 {
            if before != now {
                transaction
                    .prepare_cached("INSERT OR REPLACE INTO area_tally(area, tally) VALUES(?1, ?2)")?
                    .execute(params![area.as_bytes(), now.to_bytes()])?;
            }
        }
        Ok(())
    }
}

fn tally_of(connection: &Connection, area: Area) -> Outcome<SetDigest> {
    let bytes: Option<Vec<u8>> = connection
        .prepare_cached("SELECT tally FROM area_tally WHERE area = ?1")?
        .query_row([area.as_bytes()], |row| row.get(0))
        .optional()?;
    Ok(bytes.as_deref().and_then(SetDigest::from_bytes).unwrap_or_default())
}

pub(super) fn listed<T>(
    connection: &Connection,
    sql: &str,
    about: impl Params,
    read: impl FnMut(&Row<'_>) -> Outcome<T>,
) -> Outcome<Vec<T>> {
    connection.prepare_cached(sql)?.query_map(about, read)?.collect()
}

fn area_at(row: &Row<'_>) -> Outcome<Area> {
    let bytes: Vec<u8> = row.get(0)?;
    Area::from_bytes(&bytes).ok_or_else(|| {
        let why = "an area of unknown kind".into();
        rusqlite::Error::FromSqlConversionFailure(0, rusqlite::types::Type::Blob, why)
    })
}

pub(super) fn areas_of(connection: &Connection, subject: Subject) -> Outcome<BTreeSet<Area>> {
    let sql = "SELECT area FROM belonging WHERE subject = ?1";
    Ok(listed(connection, sql, [subject.to_bytes()], area_at)?.into_iter().collect())
}

/// Updates areas and set digests for an entry that was added to a document.
pub(super) fn note_standing(
    transaction: &Connection,
    subject: Subject,
    entry: &Entry,
    tallies: &mut AreaTallies,
) -> Outcome<()> {
    let before = areas_of(transaction, subject)?;
    let counted = counted_as(subject, entry.id);
    for area in before.iter().chain([&Area::Everything]) {
        tallies.of(transaction, *area)?.add(counted);
    }
    if before.is_empty() && area_by_kind(subject).is_some() {
        belong(transaction, subject, tallies)?;
    }
    if let Some(opened) = note_entry(transaction, subject, entry)? {
        belong(transaction, subject, tallies)?;
        let sql = "SELECT DISTINCT car FROM opened_at WHERE visit = ?1";
        for car in listed(transaction, sql, [opened.visit.0], |row| Ok(CarId(row.get(0)?)))? {
            belong(transaction, Subject::Car(car), tallies)?;
        }
    }
    Ok(())
}

/// Stores the opening or the photograph that an entry states. Returns the opening if it is new.
fn note_entry(transaction: &Connection, subject: Subject, entry: &Entry) -> Outcome<Option<OpenedAt>> {
    if let Some(photo) = photograph_of(&entry.body.says) {
        transaction
            .prepare_cached("INSERT OR IGNORE INTO photo_in(sha256, subject) VALUES(?1, ?2)")?
            .execute(params![photo.0, subject.to_bytes()])?;
    }
    let Some(opened) = OpenedAt::of(subject, entry) else { return Ok(None) };
    let OpenedAt { visit, car, site, bound } = opened;
    let new = transaction
        .prepare_cached("INSERT OR IGNORE INTO opened_at(visit, car, site, bound) VALUES(?1, ?2, ?3, ?4)")?
        .execute(params![visit.0, car.0, site.0, bound])?;
    Ok((new == 1).then_some(opened))
}

/// Returns the areas that a document belongs to according to the stored entries.
fn wanted(connection: &Connection, subject: Subject) -> Outcome<BTreeSet<Area>> {
    let (fits, id) = match subject {
        Subject::Visit(visit) => ("o.visit = ?1", visit.0),
        Subject::Car(car) => ("o.car = ?1", car.0),
        Subject::Site(_) | Subject::Roster(_) => return Ok(area_by_kind(subject).into_iter().collect()),
    };
    let sql = format!("{OPENED_AREAS} {fits}");
    Ok(listed(connection, &sql, [id], area_at)?.into_iter().collect())
}

/// Makes the wanted areas the areas of the document.
pub(super) fn belong(transaction: &Connection, subject: Subject, tallies: &mut AreaTallies) -> Outcome<()> {
    let (before, wanted) = (areas_of(transaction, subject)?, wanted(transaction, subject)?);
    if before == wanted {
        return Ok(());
    }
    let sql = "SELECT id FROM standing JOIN entry USING(position) WHERE subject = ?1";
    let counted =
        listed(transaction, sql, [subject.to_bytes()], |row| Ok(counted_as(subject, EntryId(row.get(0)?))))?;
    for area in wanted.difference(&before) {
        transaction
            .prepare_cached("INSERT INTO belonging(subject, area, fed) VALUES(?1, ?2, 0)")?
            .execute(params![subject.to_bytes(), area.as_bytes()])?;
        let tally = tallies.of(transaction, *area)?;
        counted.iter().for_each(|id| tally.add(*id));
    }
    for area in before.difference(&wanted) {
        let about = params![subject.to_bytes(), area.as_bytes()];
        transaction
            .prepare_cached("DELETE FROM belonging WHERE subject = ?1 AND area = ?2")?
            .execute(about)?;
        transaction
            .prepare_cached(
                "DELETE FROM feed WHERE area = ?2 AND change IN (SELECT position FROM change WHERE subject = ?1)",
            )?
            .execute(about)?;
        let tally = tallies.of(transaction, *area)?;
        counted.iter().for_each(|id| tally.remove(*id));
    }
    Ok(())
}

/// Brings the feed up to date: first the earlier changes of documents that came to belong to an area, then
/// the changes committed since.
pub(super) fn feed(transaction: &Connection) -> Outcome<()> {
    let fed = get_value(transaction, FED)?.and_then(|v| v.try_into().ok()).map_or(0, i64::from_be_bytes);
    let newest: i64 = transaction
        .prepare_cached("SELECT coalesce(max(position), 0) FROM change")?
        .query_row([], |row| row.get(0))?;
    let late: bool = transaction
        .prepare_cached("SELECT EXISTS (SELECT 1 FROM belonging WHERE fed = 0)")?
        .query_row([], |row| row.get(0))?;
    if late {
        transaction
            .prepare_cached(
                "INSERT INTO feed(area, change) SELECT area, change.position FROM belonging JOIN change USING(subject)
                 WHERE fed = 0 AND change.position <= ?1 ORDER BY subject, area, change.position",
            )?
            .execute([fed])?;
        transaction.prepare_cached("UPDATE belonging SET fed = 1 WHERE fed = 0")?.execute([])?;
    }
    if newest > fed {
        transaction
            .prepare_cached(
                "INSERT INTO feed(area, change) SELECT area, change.position FROM change JOIN belonging USING(subject)
                 WHERE change.position > ?1 ORDER BY change.position, area",
            )?
            .execute([fed])?;
        put_value(transaction, FED, &newest.to_be_bytes())?;
    }
    Ok(())
}

/// Derives areas and set digests from the stored entries. Damaged entries contribute nothing.
pub(super) fn fill(transaction: &Connection) -> Outcome<()> {
    let mut subjects = BTreeSet::new();
    let mut statement =
        transaction.prepare("SELECT subject, id, bytes FROM standing JOIN entry USING(position)")?;
    let mut rows = statement.query([])?;
    while let Some(row) = rows.next()? {
        let (subject, id) = (subject_at(row, 0)?, EntryId(row.get(1)?));
        subjects.insert(subject);
        if let Ok(entry) = Entry::reopen(id, row.get(2)?)
            && let Some(opened) = note_entry(transaction, subject, &entry)?
        {
            subjects.insert(Subject::Car(opened.car));
        }
    }
    let mut tallies = AreaTallies::default();
    for subject in subjects {
        belong(transaction, subject, &mut tallies)?;
    }
    tallies.keep(transaction)
}

/// Derives the set digest over all documents from the stored entries, for a file of an earlier schema.
pub(super) fn count_standings(transaction: &Connection) -> Outcome<()> {
    let mut tallies = AreaTallies::default();
    let all = tallies.of(transaction, Area::Everything)?;
    *all = SetDigest::default();
    let mut statement = transaction.prepare("SELECT subject, id FROM standing JOIN entry USING(position)")?;
    let mut rows = statement.query([])?;
    while let Some(row) = rows.next()? {
        all.add(counted_as(subject_at(row, 0)?, EntryId(row.get(1)?)));
    }
    tallies.keep(transaction)
}

impl ScopeRows for SqliteStore {
    fn tally_in(&self, scope: &Scope) -> Result<SetDigest, StoreError> {
        if *scope == Scope::Everything {
            return self.tally();
        }
        let mut all = SetDigest::default();
        for area in scope.areas() {
            all.merge(&tally_of(&self.connection, area)?);
        }
        Ok(all)
    }

    fn tally_of_standings(&self) -> Result<SetDigest, StoreError> {
        Ok(tally_of(&self.connection, Area::Everything)?)
    }

    fn subjects_in(&self, scope: &Scope) -> Result<Vec<Subject>, StoreError> {
        if *scope == Scope::Everything {
            return self.subjects();
        }
        let mut subjects = BTreeSet::new();
        let sql = "SELECT subject FROM belonging WHERE area = ?1
                   AND EXISTS (SELECT 1 FROM standing WHERE standing.subject = belonging.subject)";
        for area in scope.areas() {
            subjects
                .extend(listed(&self.connection, sql, [area.as_bytes()], |row| row.get::<_, Vec<u8>>(0))?);
        }
        Ok(subjects.iter().filter_map(|bytes| Subject::from_bytes(bytes)).collect())
    }

    fn is_in(&self, subject: Subject, scope: &Scope) -> Result<bool, StoreError> {
        Ok(*scope == Scope::Everything || self.weight_in(subject, scope)? > 0)
    }

    fn sites_of(&self, subject: Subject) -> Result<BTreeSet<SiteId>, StoreError> {
        Ok(areas_of(&self.connection, subject)?.into_iter().filter_map(Area::site).collect())
    }

    fn weight_in(&self, subject: Subject, scope: &Scope) -> Result<usize, StoreError> {
        let of = areas_of(&self.connection, subject)?;
        Ok(scope.areas().iter().filter(|area| of.contains(area)).count())
    }

    fn standings_of(&self, id: EntryId) -> Result<Vec<Subject>, StoreError> {
        let sql = "SELECT subject FROM standing JOIN entry USING(position) WHERE id = ?1 ORDER BY subject";
        Ok(listed(&self.connection, sql, [id.0], |row| subject_at(row, 0))?)
    }

    fn fed_after(&self, scope: &Scope, position: u64, bytes: usize) -> Result<Vec<Fed>, StoreError> {
        if *scope == Scope::Everything {
            let changes = self.changes_after(position, bytes)?;
            return Ok(changes.into_iter().map(|change| Fed { position: change.position, change }).collect());
        }
        let areas = scope.areas();
        let (mut total, mut fed) = (0, Vec::new());
        let mut after = position.cast_signed();
        loop {
            let mut rows: Vec<(i64, i64)> = Vec::new();
            let sql = "SELECT position, change FROM feed WHERE area = ?1 AND position > ?2
                       ORDER BY position LIMIT ?3";
            for area in &areas {
                let about = params![area.as_bytes(), after, ROWS_AT_ONCE];
                rows.extend(listed(&self.connection, sql, about, |row| Ok((row.get(0)?, row.get(1)?)))?);
            }
            // The first rows over all areas are among the first rows of each single area.
            rows.sort_unstable();
            rows.truncate(usize::try_from(ROWS_AT_ONCE).unwrap_or(1));
            let Some((last, _)) = rows.last().copied() else { return Ok(fed) };
            for (at, change) in rows {
                let met = listed(
                    &self.connection,
                    "SELECT area FROM feed WHERE change = ?1 AND position < ?2",
                    [change, at],
                    area_at,
                )?;
                if met.iter().any(|area| areas.contains(area)) {
                    continue;
                }
                let sql = format!("SELECT {CHANGE_COLUMNS} FROM change WHERE position = ?1");
                let (change, sound) = self.connection.prepare_cached(&sql)?.query_row([change], change_at)?;
                if !sound {
                    continue; // its entries still stand in the entry table
                }
                total += change.bytes.len();
                if total > bytes && !fed.is_empty() {
                    return Ok(fed);
                }
                fed.push(Fed { position: at.cast_unsigned(), change });
            }
            after = last;
        }
    }

    fn newest_in(&self, scope: &Scope) -> Result<u64, StoreError> {
        if *scope == Scope::Everything {
            return self.newest_position();
        }
        let mut newest = 0;
        for area in scope.areas() {
            let of_it: Option<i64> = self
                .connection
                .prepare_cached("SELECT max(position) FROM feed WHERE area = ?1")?
                .query_row([area.as_bytes()], |row| row.get(0))?;
            newest = newest.max(of_it.unwrap_or(0));
        }
        Ok(newest.cast_unsigned())
    }

    fn naming_photo(&self, sha256: Digest) -> Result<Vec<Subject>, StoreError> {
        let sql = "SELECT subject FROM photo_in WHERE sha256 = ?1 ORDER BY subject";
        Ok(listed(&self.connection, sql, [sha256.0], |row| subject_at(row, 0))?)
    }
}
