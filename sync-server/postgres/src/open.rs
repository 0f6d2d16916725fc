//! Opening a store, its transactions, and the fence of an organisation.

use std::cell::{Cell, RefCell};
use std::collections::HashSet;

use farsiding_core::ids::{EntryId, OrganisationId};
use farsiding_core::store::{StoreError, UNSOUND};
use farsiding_core::tree::heads::Heads;
use tokio_postgres::Row;

use crate::address::Address;
use crate::head::{self, Head};
use crate::line::{Fault, Given, Line};
use crate::schema;

/// How often a transaction is repeated that the database asks to repeat.
pub(crate) const REPEATS: usize = 8;

/// The ledger of one organisation in a PostgreSQL database.
#[derive(Debug)]
pub struct PostgresStore {
    line: RefCell<Line>,
    pub(crate) organisation: Vec<u8>,
    /// Names this store in the head it writes: 16 random bytes.
    writer: Vec<u8>,
    /// The fence this store holds. Without one it writes between the batches of whoever holds it.
    fence: Option<i64>,
    /// How many of the transactions that the head counts are this store's own.
    own: Cell<i64>,
    /// The moment that a commit would have made whose connection broke.
    unsure: Cell<Option<i64>>,
    /// The head within a transaction.
    pub(crate) open: RefCell<Option<Head>>,
    /// Whether a transaction that only reads is open.
    reading: Cell<bool>,
    /// Whether a group of commits is open.
    pub(crate) holds: bool,
    /// The heads of the documents in the log, computed as far as they were asked for.
    pub(crate) heads: RefCell<Heads>,
    /// Entries with an invalid signature of a person, which came with a ledger that was carried here.
    pub(crate) unsound: HashSet<EntryId>,
    /// Whether this store carries a ledger, and so may open one that is served elsewhere.
    carries: bool,
}

/// How a transaction ended.
pub(crate) enum Ended {
    /// It is on the disk.
    Written,
    /// Nothing of it was written.
    NotWritten(Fault),
    /// Its connection broke while it was committed.
    Unknown(Fault),
}

impl PostgresStore {
    /// Opens the ledger of an organisation and brings the database's tables up to the newest version.
    ///
    /// # Errors
    /// - [`StoreError::TooNew`] for tables of a later version.
    /// - [`StoreError::NoPlace`] if the database cannot be used: it does not exist, its server lets nobody in by
    ///   this address, is older than PostgreSQL 15, does not wait for its disk or does not encrypt as the address
    ///   asks; or if the ledger was carried elsewhere.
    /// - [`StoreError::Database`] if it cannot be reached, and for any other failure.
    pub fn open(address: Address, organisation: OrganisationId) -> Result<PostgresStore, StoreError> {
        PostgresStore::opened(address, organisation, false)
    }

    /// Opens the place of a ledger that is carried into it or out of it, also one that is served elsewhere.
    ///
    /// # Errors
    /// As for [`PostgresStore::open`].
    pub fn open_to_carry(
        address: Address,
        organisation: OrganisationId,
    ) -> Result<PostgresStore, StoreError> {
        PostgresStore::opened(address, organisation, true)
    }

    fn opened(
        address: Address,
        organisation: OrganisationId,
        carries: bool,
    ) -> Result<PostgresStore, StoreError> {
        let mut line = Line::new(address);
        line.connect()?;
        let sql = "SELECT current_setting('server_version_num')::int, current_setting('fsync') = 'on',
                   uuid_send(gen_random_uuid())";
        let told = line.rows(sql, &[])?;
        let Some(told) = told.first() else {
            return Err(StoreError::Database("the database does not say its version".to_owned()));
        };
        if told.get::<_, i32>(0) < 150_000 {
            return Err(StoreError::NoPlace("the database is older than PostgreSQL 15".to_owned()));
        }
        if !told.get::<_, bool>(1) {
            let why = "the database does not wait for its disk (fsync = off), so that a record could be lost";
            return Err(StoreError::NoPlace(why.to_owned()));
        }
        let writer = told.get(2);
        schema::migrate(&mut line)?;
        let organisation = organisation.0.to_vec();
        line.run(head::MAKE, &[&organisation])?;
        let head = line.rows(head::READ, &[&organisation])?.first().map(Head::read).unwrap_or_default();
        if !carries {
            head.is_served()?;
        }
        let sql = "SELECT value FROM farsiding.value WHERE organisation = $1 AND key = $2";
        let unsound = line.rows(sql, &[&organisation, &UNSOUND.as_bytes()])?;
        let unsound = unsound.first().map_or(&[][..], |row| row.get(0)).chunks_exact(32);
        let unsound = unsound.filter_map(|id| Some(EntryId(id.try_into().ok()?))).collect();
        Ok(PostgresStore {
            line: RefCell::new(line),
            organisation,
            writer,
            fence: None,
            own: Cell::new(0),
            unsure: Cell::new(None),
            open: RefCell::default(),
            reading: Cell::new(false),
            holds: false,
            heads: RefCell::default(),
            unsound,
            carries,
        })
    }

    /// Takes the fence of the organisation: from now on this store writes, and any other that held the fence is
    /// refused as busy. Called by a server before it writes, once. A ledger that was carried here is served from then
    /// on.
    ///
    /// # Errors
    /// [`StoreError`] when the database fails.
    pub fn take_fence(&mut self) -> Result<(), StoreError> {
        let sql = "UPDATE farsiding.head SET fence = fence + 1, arrived = 0 WHERE organisation = $1 RETURNING fence";
        let rows = self.rows(sql, &[&self.organisation])?;
        self.fence = rows.first().map(|row| row.get(0));
        Ok(())
    }

    /// Returns false once another server took the fence that this store had taken.
    ///
    /// # Errors
    /// [`StoreError`] when the database fails.
    pub fn holds_fence(&self) -> Result<bool, StoreError> {
        let fence = self.head()?.fence;
        Ok(self.fence.is_none_or(|mine| mine == fence))
    }

    /// Runs a statement and returns its rows. Outside a transaction a broken connection is made anew and the
    /// statement tried once more.
    pub(crate) fn rows(&self, sql: &str, given: Given<'_>) -> Result<Vec<Row>, Fault> {
        self.tried(|line| line.rows(sql, given))
    }

    /// Runs a statement inside a transaction and returns the number of rows it wrote.
    pub(crate) fn run(&self, sql: &str, given: Given<'_>) -> Result<u64, Fault> {
        self.line.borrow_mut().run(sql, given)
    }

    fn tried<T>(&self, work: impl Fn(&mut Line) -> Result<T, Fault>) -> Result<T, Fault> {
        let mut line = self.line.borrow_mut();
        if self.open.borrow().is_some() || self.reading.get() {
            return work(&mut line);
        }
        let mut outcome = self.connected(&mut line).and_then(|()| work(&mut line));
        for _ in 0..REPEATS {
            match outcome {
                Err(Fault::Again) => outcome = work(&mut line),
                Err(Fault::Lost(_)) => {
                    line.hang_up();
                    return self.connected(&mut line).and_then(|()| work(&mut line));
                }
                done => return done,
            }
        }
        outcome
    }

    /// Connects if need be. After a commit whose fate was unknown the head tells whether it was carried out: it is
    /// locked, so that a commit still under way is waited for.
    fn connected(&self, line: &mut Line) -> Result<(), Fault> {
        if line.connect()? {
            self.heads.take();
        }
        let Some(moment) = self.unsure.get() else { return Ok(()) };
        let rows = line.rows(&format!("{} FOR UPDATE", head::READ), &[&self.organisation])?;
        let found = rows.first().map(Head::read).unwrap_or_default();
        if found.moment == moment && found.writer == self.writer {
            self.own.set(self.own.get() + 1);
        }
        self.unsure.set(None);
        Ok(())
    }

    /// Returns the head: within a transaction as it will be, otherwise as it is.
    pub(crate) fn head(&self) -> Result<Head, StoreError> {
        if let Some(head) = &*self.open.borrow() {
            return Ok(head.clone());
        }
        let rows = self.rows(head::READ, &[&self.organisation])?;
        Ok(rows.first().map(Head::read).unwrap_or_default())
    }

    /// Returns what others wrote, as a number that rises with each of their transactions.
    pub(crate) fn moment_of(&self, head: &Head) -> u64 {
        (head.moment - self.own.get()).cast_unsigned()
    }

    /// Begins a transaction and locks the organisation's head.
    pub(crate) fn start(&self) -> Result<(), Fault> {
        let mut line = self.line.borrow_mut();
        self.connected(&mut line)?;
        let begun = match line.batch("BEGIN") {
            Err(Fault::Lost(_)) => {
                line.hang_up();
                self.connected(&mut line)?;
                line.batch("BEGIN")
            }
            begun => begun,
        };
        begun?;
        let locked = line.rows(&format!("{} FOR UPDATE", head::READ), &[&self.organisation]);
        let head = locked.and_then(|rows| {
            let row = rows.first().ok_or_else(|| {
                Fault::Store(StoreError::Database("the organisation is not in the database".to_owned()))
            })?;
            let head = Head::read(row);
            if !self.carries {
                head.is_served()?;
            }
            match self.fence {
                Some(mine) if mine != head.fence => Err(Fault::Store(StoreError::Busy)),
                _ => Ok(head),
            }
        });
        match head {
            Ok(head) => {
                *self.open.borrow_mut() = Some(head);
                Ok(())
            }
            Err(fault) => {
                roll_back(&mut line);
                Err(fault)
            }
        }
    }

    /// Begins a transaction that only reads, all of it from one state.
    pub(crate) fn start_reading(&self) -> Result<(), Fault> {
        self.tried(|line| line.batch("BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY"))?;
        self.reading.set(true);
        Ok(())
    }

    /// Ends a transaction that only reads.
    pub(crate) fn stop_reading(&self) -> Result<(), Fault> {
        self.reading.set(false);
        let ended = self.line.borrow_mut().batch("COMMIT");
        if ended.is_err() {
            self.line.borrow_mut().hang_up();
        }
        ended
    }

    /// Ends the transaction and discards it.
    pub(crate) fn discard(&self) {
        if self.open.take().is_some() {
            self.heads.take();
            roll_back(&mut self.line.borrow_mut());
        }
    }

    /// Writes the head and commits.
    pub(crate) fn finish(&self) -> Ended {
        let Some(head) = self.open.borrow().clone() else {
            let why = "what was held back is lost".to_owned();
            return Ended::NotWritten(Fault::Store(StoreError::Database(why)));
        };
        let written = self.run(
            head::WRITE,
            &[
                &self.organisation,
                &head.moment,
                &head.fence,
                &self.writer,
                &head.entries,
                &head.changes,
                &head.receipts,
                &head.proofs,
                &head.checkpoints,
                &head.feed,
                &head.fed,
                &head.tally.to_bytes().as_slice(),
                &head.leaves,
                &head.leaf_at,
                &head.peaks_kept(),
                &head.arrived,
                &head.gone,
            ],
        );
        match written {
            Ok(1) => {}
            Ok(_) => {
                self.discard();
                return Ended::NotWritten(Fault::Store(StoreError::Busy));
            }
            Err(fault) => {
                self.discard();
                return Ended::NotWritten(fault);
            }
        }
        let committed = self.line.borrow_mut().batch("COMMIT");
        match committed {
            Ok(()) => {
                self.open.take();
                self.own.set(self.own.get() + 1);
                Ended::Written
            }
            Err(fault @ Fault::Lost(_)) => {
                self.unsure.set(Some(head.moment + 1));
                self.discard();
                Ended::Unknown(fault)
            }
            Err(fault) => {
                self.discard();
                Ended::NotWritten(fault)
            }
        }
    }

    /// Runs work so that what it wrote is undone when it fails, inside the transaction that is open.
    pub(crate) fn all_or_nothing<T>(&self, work: impl FnOnce() -> Result<T, Fault>) -> Result<T, Fault> {
        let before = self.open.borrow().clone();
        self.line.borrow_mut().batch("SAVEPOINT part")?;
        let done = work();
        let end = if done.is_ok() { "RELEASE part" } else { "ROLLBACK TO part; RELEASE part" };
        let ended = self.line.borrow_mut().batch(end);
        if done.is_err() {
            *self.open.borrow_mut() = before;
        }
        if ended.is_err() {
            self.discard();
        }
        done.and_then(|done| ended.map(|()| done))
    }
}

/// Ends a transaction. If that fails, the connection is given up, which ends it as well.
fn roll_back(line: &mut Line) {
    if line.batch("ROLLBACK").is_err() {
        line.hang_up();
    }
}
