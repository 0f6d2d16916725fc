//! The answering side for a single request. All state between calls is in the store.
//!
//! The office server answers many rounds together (`rounds`); both go the same way.

use super::allowance::Allowance;
use super::answer::{Answer, AnswerError};
use super::names::settle_after;
use super::opened::{Devices, OpenedRequest};
use super::rounds::Rounds;
use super::wire::LARGEST_BULK;
use crate::clock::UtcMillis;
use crate::entry::OrganisationKey;
use crate::store::Ledger;

/// The server's side of a sync round.
pub struct Answerer<'a> {
    /// The server's store.
    pub store: &'a mut dyn Ledger,
    /// The organisation's key.
    pub key: &'a OrganisationKey,
    /// The random name of the ledger, see [`super::wire::Cursor::epoch`].
    pub epoch: u64,
    /// The largest accepted size of a bulk after inflation, in bytes.
    pub largest_bulk: usize,
    /// The limits for the device that asks. Without an allowance there is no limit, and refused changes go
    /// into the store's quarantine.
    pub allowance: Option<&'a mut dyn Allowance>,
}

impl<'a> Answerer<'a> {
    /// Creates an answerer with the default limits.
    pub fn new(store: &'a mut dyn Ledger, key: &'a OrganisationKey, epoch: u64) -> Answerer<'a> {
        Answerer { store, key, epoch, largest_bulk: LARGEST_BULK, allowance: None }
    }

    /// Answers one request. Answering the same request again changes nothing.
    ///
    /// # Errors
    /// [`AnswerError`]. Valid changes of a request are kept even if other changes in it are refused.
    pub fn answer(&mut self, request: &[u8], now: UtcMillis) -> Result<Answer, AnswerError> {
        let devices = Devices::read(self.store)?;
        let opened = OpenedRequest::read(request, &devices, self.key, self.largest_bulk)?;
        self.answer_opened(&opened, now)
    }

    /// Answers a request that was opened before the store was locked. `clock` is the time of the machine's
    /// clock. The receipt and the leaves share one time, which is never earlier than a time signed before.
    ///
    /// # Errors
    /// As for [`Answerer::answer`].
    pub fn answer_opened(&mut self, opened: &OpenedRequest, clock: UtcMillis) -> Result<Answer, AnswerError> {
        let mut rounds = Rounds::begin(&*self.store, self.key, self.epoch)?;
        let allowance = self.allowance.as_mut().map(|allowance| &mut **allowance as &mut dyn Allowance);
        rounds.add(&*self.store, opened, clock, allowance)?;
        let answered = rounds.answer(self.store, &mut |_, _| {}).map_err(|error| error.into_store_error())?;
        let root = self.key.public();
        settle_after(self.store, &root, answered.iter().map(|answer| (opened, answer)), clock)?;
        answered.into_iter().next().unwrap_or(Err(AnswerError::UnknownDevice))
    }
}
