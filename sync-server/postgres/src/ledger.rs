//! A batch of rounds: one transaction, one statement a kind of row.

use std::collections::HashMap;

use farsiding_core::store::parts::announced_by;
use farsiding_core::store::{
    ApplyError, Batch, Confirm, Ledger, Moment, Outcome, Sequenced, Store, StoreError,
};
use farsiding_core::tree::LogLeaf;

use crate::line::Fault;
use crate::open::{Ended, PostgresStore, REPEATS};
use crate::rows::text_at;
use crate::writing::{Concerned, Writing};

/// Ends the transaction of a batch that is not durable, also when signing panics.
struct Begun<'a>(&'a PostgresStore);

impl Drop for Begun<'_> {
    fn drop(&mut self) {
        self.0.discard();
    }
}

impl Ledger for PostgresStore {
    fn moment(&self) -> Result<Moment, StoreError> {
        let head = self.head()?;
        Ok(Moment(self.moment_of(&head)))
    }

    fn apply(&mut self, batch: &Batch<'_>, confirm: &mut dyn Confirm) -> Result<Outcome, ApplyError> {
        let not_written = |fault: Fault| ApplyError::NotWritten(fault.into());
        for _ in 0..REPEATS {
            if let Err(fault) = self.start() {
                match fault {
                    Fault::Again => continue,
                    fault => return Err(not_written(fault)),
                }
            }
            let begun = Begun(self);
            let head = self.head().map_err(ApplyError::NotWritten)?;
            if self.moment_of(&head) != batch.decided.0 {
                return Ok(Outcome::Overtaken);
            }
            let rounds = match self.write_rounds(batch) {
                Ok(rounds) => rounds,
                Err(Fault::Again) => continue,
                Err(fault) => return Err(not_written(fault)),
            };
            // From here on the batch is not repeated, because it is signed for once.
            let receipts = confirm.confirm(self as &dyn Store, &rounds);
            let kept = receipts.iter().map(|receipt| (receipt.bytes.as_slice(), receipt.entries.as_slice()));
            let kept: Vec<_> = kept.collect();
            let mut writing = Writing::begin(self, &Concerned::default()).map_err(not_written)?;
            writing.receipts(&kept).map_err(not_written)?;
            drop(writing);
            let ended = self.finish();
            drop(begun);
            return match ended {
                Ended::Written => Ok(Outcome::Applied(rounds)),
                Ended::NotWritten(fault) => Err(not_written(fault)),
                Ended::Unknown(fault) => Err(ApplyError::Unknown(fault.into())),
            };
        }
        Err(ApplyError::NotWritten(StoreError::Busy))
    }
}

impl PostgresStore {
    /// Returns the numbers of the newest rounds of the devices in a batch.
    fn newest_numbers(&self, batch: &Batch<'_>) -> Result<HashMap<String, u64>, Fault> {
        let counters: Vec<&[u8]> = batch.rounds.iter().map(|round| round.counter.as_bytes()).collect();
        let sql = "SELECT key, value FROM farsiding.value WHERE organisation = $1 AND key = ANY($2)";
        let rows = self.rows(sql, &[&self.organisation, &counters])?;
        let read = |bytes: &[u8]| bytes.try_into().map_or(0, u64::from_be_bytes);
        Ok(rows.iter().map(|row| (text_at(row, 0), read(row.get(1)))).collect())
    }

    /// Writes the rounds of a batch. Returns what became of them.
    fn write_rounds(&self, batch: &Batch<'_>) -> Result<Vec<Sequenced>, Fault> {
        let mut concerned = Concerned::default();
        for round in &batch.rounds {
            for (subject, change) in &round.changes {
                concerned.entries.extend(change.entries().iter().map(|entry| entry.id));
                concerned.subjects.insert(*subject);
                concerned.changes.insert((*subject, change.hash()));
            }
            round.beside.iter().for_each(|write| concerned.add(write));
        }
        batch.beside.iter().for_each(|write| concerned.add(write));
        let mut newest = self.newest_numbers(batch)?;
        let mut writing = Writing::begin(self, &concerned)?;
        let mut rounds = Vec::with_capacity(batch.rounds.len());
        for round in &batch.rounds {
            let last = newest.get(round.counter).copied().unwrap_or(0);
            if round.number <= last {
                rounds.push(Sequenced { old_number: Some(last), new: Vec::new() });
                continue;
            }
            newest.insert(round.counter.to_owned(), round.number);
            // Numbers are stored big-endian, so that their bytes compare as they do.
            writing.value(round.counter, &round.number.to_be_bytes());
            let mut sequenced = Sequenced::default();
            for (subject, change) in &round.changes {
                for entry in change.entries() {
                    let new = writing.entry(*subject, entry)?;
                    let (received_at, about) = (round.received_at, Some(entry.body.about));
                    writing.leaf(LogLeaf { entry: entry.id, received_at, about })?;
                    if new {
                        sequenced.new.push((*subject, entry.id));
                        announced_by(&entry.body.says).iter().try_for_each(|photo| writing.write(photo))?;
                    }
                }
                let ids = farsiding_core::store::parts::ids_kept(change);
                writing.change((*subject, change.hash()), change.bytes(), Some(ids), true)?;
            }
            round.beside.iter().try_for_each(|write| writing.write(write))?;
            rounds.push(sequenced);
        }
        if rounds.iter().any(|round| round.old_number.is_none()) {
            batch.beside.iter().try_for_each(|write| writing.write(write))?;
        }
        writing.end()?;
        Ok(rounds)
    }
}
