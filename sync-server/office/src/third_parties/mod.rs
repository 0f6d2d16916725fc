//! Third parties that are asked on a schedule: witnesses for their signatures under the log's checkpoints,
//! and an authority for time stamps on them.
//!
//! Every answer is checked before it is stored. A missing or refused answer is reported in the state of the
//! server and blocks nothing; no sync waits for a third party. The files of this folder say who is asked
//! (`witnesses`, `stamping`) and when (`duty`). The protocols are in `farsiding_core::evidence` and
//! `timestamp`.

pub mod duty;
mod stamping;
pub mod witnesses;

use std::future::Future;
use std::sync::{Arc, Mutex, PoisonError};

use farsiding_core::clock::UtcMillis;
use farsiding_core::store::{Store, StoreError, Write};
use farsiding_core::{Arg, Message, message};
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};

use super::ledger::{Ledger, OfficeLedger};
use crate::state::Office;

pub use duty::Duty;
pub use stamping::Stamping;
pub use stamping::{NewStamp, set as set_stamping, stamp_newest};

/// The difference between a third party's clock and the server's beyond which it is reported, in
/// milliseconds.
const CLOCKS_DIFFER_MILLIS: i64 = 5 * 60 * 1000;

/// Access to the ledger for short moments. The ledger is never held while waiting for a third party.
pub trait LedgerAccess: Sync {
    /// Runs `work` with the ledger. Errors are returned as messages.
    fn with<T: Send + 'static>(
        &self,
        work: impl FnOnce(&mut dyn Store) -> T + Send + 'static,
    ) -> impl Future<Output = Result<T, String>> + Send;
}

impl LedgerAccess for Arc<Office> {
    async fn with<T: Send + 'static>(
        &self,
        work: impl FnOnce(&mut dyn Store) -> T + Send + 'static,
    ) -> Result<T, String> {
        let done = self.on_ledger(|ledger| work(ledger.store_mut())).await;
        done.map_err(|problem| problem.message().to_owned())
    }
}

/// The ledger of a command, which nothing else in the process uses.
pub struct SoleLedger(Mutex<OfficeLedger>);

impl SoleLedger {
    /// Returns access to a ledger that this process alone holds.
    pub fn new(ledger: OfficeLedger) -> SoleLedger {
        SoleLedger(Mutex::new(ledger))
    }

    /// Returns the ledger.
    pub fn into_inner(self) -> OfficeLedger {
        self.0.into_inner().unwrap_or_else(PoisonError::into_inner)
    }
}

impl LedgerAccess for SoleLedger {
    async fn with<T: Send + 'static>(
        &self,
        work: impl FnOnce(&mut dyn Store) -> T + Send + 'static,
    ) -> Result<T, String> {
        Ok(work(self.0.lock().unwrap_or_else(PoisonError::into_inner).store_mut()))
    }
}

/// A repeated failure of a third party.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct RepeatedFailure {
    /// The time of the first failure.
    pub since: UtcMillis,
    /// The time of the last attempt.
    pub last: UtcMillis,
    /// The number of attempts since the first failure.
    pub tries: u64,
    /// The cause, in words.
    pub words: String,
    /// Whether the failure says that the log's history was rewritten.
    pub history: bool,
}

impl RepeatedFailure {
    /// Returns the same failure with one more attempt, or a new failure if it is a different one.
    fn again(
        before: Option<RepeatedFailure>,
        words: String,
        history: bool,
        now: UtcMillis,
    ) -> RepeatedFailure {
        let (since, tries) = before.map_or((now, 0), |before| (before.since, before.tries));
        RepeatedFailure { since, last: now, tries: tries + 1, words, history }
    }

    fn told(&self) -> Message {
        let (since, why) = (Arg::typed(self.since.rfc3339()), Arg::typed(&self.words));
        message!("office-found-tries", count = self.tries, since = since, why = why)
    }
}

fn read_value<T: DeserializeOwned>(store: &dyn Store, key: &str) -> Result<Option<T>, StoreError> {
    Ok(store.value(key)?.and_then(|bytes| serde_json::from_slice(&bytes).ok()))
}

fn write_value<T: Serialize>(store: &mut dyn Store, key: &str, value: &T) -> Result<(), StoreError> {
    let value = serde_json::to_vec(value).map_err(|e| StoreError::Database(e.to_string()))?;
    store.commit(&[Write::Value { key, value: &value }])?;
    Ok(())
}

/// Returns what to say about the difference between the server's clock and a third party's, if it is large
/// enough to mention.
fn clock_says(theirs: UtcMillis, ours: UtcMillis) -> Option<Message> {
    let ahead = ours.0.saturating_sub(theirs.0);
    (ahead.abs() > CLOCKS_DIFFER_MILLIS).then(|| {
        let minutes = ahead.unsigned_abs() / 60_000;
        match ahead {
            1.. => message!("office-found-clock-ahead-of", count = minutes),
            _ => message!("office-found-clock-behind-of", count = minutes),
        }
    })
}
