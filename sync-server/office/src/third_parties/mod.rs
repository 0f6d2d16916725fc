//! Those outside who are asked on a timer: witnesses for their signature under the log's checkpoints, an authority for
//! its time stamp on them.
//!
//! What they give is checked before it is kept. What they do not give, or refuse, is told in the state of the server
//! and keeps nobody from anything: no sync waits for them. Lives here: who is asked (`witnesses`, `stamping`), when
//! (`duty`), the command lines (`lines`). Does not live here: the protocols (`farsiding_core::evidence`, `timestamp`).

pub mod duty;
mod stamping;
pub mod witnesses;

use std::future::Future;
use std::sync::{Arc, Mutex, PoisonError};

use farsiding_core::clock::UtcMillis;
use farsiding_core::store::{Store, StoreError, Write};
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};

use super::ledger::{Ledger, SqliteLedger};
use crate::state::Office;

pub use duty::Duty;
pub use stamping::Stamping;
pub use stamping::{NewStamp, set as set_stamping, stamp_newest};

/// More than this between an outsider's clock and the server's is said, milliseconds.
const CLOCKS_DIFFER_MILLIS: i64 = 5 * 60 * 1000;

/// The ledger, taken for a moment: never while an outsider is waited for.
pub trait LedgerAccess: Sync {
    /// Runs `work` on it; what goes wrong is said in words.
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

/// The ledger of a command line, which nobody else of the process uses.
pub struct SoleLedger(Mutex<SqliteLedger>);

impl SoleLedger {
    /// Returns a ledger that this process alone holds.
    pub fn new(ledger: SqliteLedger) -> SoleLedger {
        SoleLedger(Mutex::new(ledger))
    }

    /// Returns the ledger again.
    pub fn into_inner(self) -> SqliteLedger {
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

/// Something an outsider did not do.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Trouble {
    /// Since when.
    pub since: UtcMillis,
    /// When it was last tried.
    pub last: UtcMillis,
    /// How often it was tried since.
    pub tries: u64,
    /// Why, in words.
    pub words: String,
    /// Whether it says that the log is not what it was.
    pub history: bool,
}

impl Trouble {
    /// Returns the same trouble once more, or the first of its kind.
    fn again(before: Option<Trouble>, words: String, history: bool, now: UtcMillis) -> Trouble {
        let (since, tries) = before.map_or((now, 0), |before| (before.since, before.tries));
        Trouble { since, last: now, tries: tries + 1, words, history }
    }

    fn told(&self) -> String {
        let tries = if self.tries == 1 { String::new() } else { format!(", tried {} times", self.tries) };
        format!("since {}{tries}: {}", self.since.rfc3339(), self.words)
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

/// Returns how far this server's clock is from an outsider's, where it is worth saying.
fn clock_words(theirs: UtcMillis, ours: UtcMillis) -> Option<String> {
    let ahead = ours.0.saturating_sub(theirs.0);
    (ahead.abs() > CLOCKS_DIFFER_MILLIS).then(|| {
        let (minutes, which) = (ahead.unsigned_abs() / 60_000, if ahead > 0 { "ahead of" } else { "behind" });
        format!("This server's clock was {minutes} min {which} the clock there: set it right.")
    })
}
