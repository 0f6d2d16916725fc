//! Scopes: reading what belongs to which sites. Areas and sums are written in `writing`.

use std::collections::BTreeSet;

use farsiding_core::ids::{Digest, EntryId, SiteId, Subject};
use farsiding_core::store::parts::Area;
use farsiding_core::store::{Fed, Scope, ScopeRows, SetDigest, Store as _, StoreError};

use crate::open::PostgresStore;
use crate::rows::{CHANGE, at_most, change_at, subject_at};

/// How many rows of the feed are read at once while a page is collected.
const AT_ONCE: i64 = 256;

/// Returns a scope's areas as database keys.
fn keys_of(areas: &[Area]) -> Vec<&[u8]> {
    areas.iter().map(Area::as_bytes).collect()
}

impl PostgresStore {
    /// Returns the set digest of an area as it is stored.
    pub(crate) fn tally_of(&self, area: Area) -> Result<SetDigest, StoreError> {
        let sql = "SELECT tally FROM farsiding.area_tally WHERE organisation = $1 AND area = $2";
        let bytes = self.one(sql, &[&self.organisation, &area.as_bytes()])?;
        Ok(bytes.as_deref().and_then(SetDigest::from_bytes).unwrap_or_default())
    }

    /// Returns the areas that a document belongs to.
    pub(crate) fn areas_of(&self, subject: Subject) -> Result<BTreeSet<Area>, StoreError> {
        let sql = "SELECT area FROM farsiding.belonging WHERE organisation = $1 AND subject = $2";
        let rows = self.rows(sql, &[&self.organisation, &subject.to_bytes().as_slice()])?;
        let unknown = || StoreError::Database("an area of unknown kind".to_owned());
        rows.iter().map(|row| Area::from_bytes(row.get(0)).ok_or_else(unknown)).collect()
    }
}

impl ScopeRows for PostgresStore {
    fn tally_in(&self, scope: &Scope) -> Result<SetDigest, StoreError> {
        if *scope == Scope::Everything {
            return self.tally();
        }
        let areas = scope.areas();
        let sql = "SELECT tally FROM farsiding.area_tally WHERE organisation = $1 AND area = ANY($2)";
        let mut all = SetDigest::default();
        for row in self.rows(sql, &[&self.organisation, &keys_of(&areas)])? {
            all.merge(&SetDigest::from_bytes(row.get(0)).unwrap_or_default());
        }
        Ok(all)
    }

    fn tally_of_standings(&self) -> Result<SetDigest, StoreError> {
        self.tally_of(Area::Everything)
    }

    fn subjects_in(&self, scope: &Scope) -> Result<Vec<Subject>, StoreError> {
        if *scope == Scope::Everything {
            return self.subjects();
        }
        let areas = scope.areas();
        let sql =
            "SELECT DISTINCT subject FROM farsiding.belonging b WHERE organisation = $1 AND area = ANY($2)
                   AND EXISTS (SELECT 1 FROM farsiding.standing s
                     WHERE s.organisation = b.organisation AND s.subject = b.subject) ORDER BY subject";
        let rows = self.rows(sql, &[&self.organisation, &keys_of(&areas)])?;
        rows.iter().map(|row| subject_at(row, 0)).collect()
    }

    fn is_in(&self, subject: Subject, scope: &Scope) -> Result<bool, StoreError> {
        Ok(*scope == Scope::Everything || self.weight_in(subject, scope)? > 0)
    }

    fn sites_of(&self, subject: Subject) -> Result<BTreeSet<SiteId>, StoreError> {
        Ok(self.areas_of(subject)?.into_iter().filter_map(Area::site).collect())
    }

    fn weight_in(&self, subject: Subject, scope: &Scope) -> Result<usize, StoreError> {
        let of = self.areas_of(subject)?;
        Ok(scope.areas().iter().filter(|area| of.contains(area)).count())
    }

    fn standings_of(&self, id: EntryId) -> Result<Vec<Subject>, StoreError> {
        let sql = "SELECT subject FROM farsiding.entry JOIN farsiding.standing USING (organisation, position)
                   WHERE organisation = $1 AND id = $2 ORDER BY subject";
        let rows = self.rows(sql, &[&self.organisation, &id.0.as_slice()])?;
        rows.iter().map(|row| subject_at(row, 0)).collect()
    }

    fn fed_after(&self, scope: &Scope, position: u64, bytes: usize) -> Result<Vec<Fed>, StoreError> {
        if *scope == Scope::Everything {
            let changes = self.changes_after(position, bytes)?;
            return Ok(changes.into_iter().map(|change| Fed { position: change.position, change }).collect());
        }
        // A change that stands in the feed of several areas is delivered where it stands first.
        let sql = format!(
            "SELECT {CHANGE}, f.position FROM farsiding.feed f
             JOIN farsiding.change c ON c.organisation = f.organisation AND c.position = f.change
             WHERE f.organisation = $1 AND f.area = ANY($2) AND f.position > $3 AND NOT EXISTS (
               SELECT 1 FROM farsiding.feed e WHERE e.organisation = f.organisation AND e.change = f.change
               AND e.position < f.position AND e.area = ANY($2))
             ORDER BY f.position LIMIT $4"
        );
        let areas = scope.areas();
        let (mut fed, mut total, mut after) = (Vec::new(), 0, position.cast_signed());
        loop {
            let rows = self.rows(&sql, &[&self.organisation, &keys_of(&areas), &after, &AT_ONCE])?;
            for row in &rows {
                after = row.get(6);
                let (change, sound) = change_at(row)?;
                if !sound {
                    continue; // its entries still stand in the entry table
                }
                total += change.bytes.len();
                if total > bytes && !fed.is_empty() {
                    return Ok(fed);
                }
                fed.push(Fed { position: after.cast_unsigned(), change });
            }
            if at_most(rows.len()) < AT_ONCE {
                return Ok(fed);
            }
        }
    }

    fn newest_in(&self, scope: &Scope) -> Result<u64, StoreError> {
        if *scope == Scope::Everything {
            return self.newest_position();
        }
        let areas = scope.areas();
        let sql = "SELECT coalesce(max(position), 0) FROM farsiding.feed WHERE organisation = $1 AND area = ANY($2)";
        let rows = self.rows(sql, &[&self.organisation, &keys_of(&areas)])?;
        Ok(rows.first().map_or(0, |row| row.get::<_, i64>(0).cast_unsigned()))
    }

    fn naming_photo(&self, sha256: Digest) -> Result<Vec<Subject>, StoreError> {
        let sql =
            "SELECT subject FROM farsiding.photo_in WHERE organisation = $1 AND sha256 = $2 ORDER BY subject";
        let rows = self.rows(sql, &[&self.organisation, &sha256.0.as_slice()])?;
        rows.iter().map(|row| subject_at(row, 0)).collect()
    }
}
