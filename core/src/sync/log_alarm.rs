//! Contradictions in what the office shows of its log, and how a device stores them.
//!
//! They are detected in `log_watch`, and contradictory statements of one root key in `keys`.

use serde::{Deserialize, Serialize};

use crate::Message;
use crate::clock::UtcMillis;
use crate::entry::cbor;
use crate::ids::EntryId;
use crate::store::{Store, StoreError, Write};

pub(super) const ALARMS: &str = "log/alarms";
/// The most contradictions stored. The earliest ones are kept because they are the most informative.
const MOST_ALARMS: usize = 32;

/// The way in which the office's log contradicts what the office showed before.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LogContradiction {
    /// The log does not begin with the log shown before: entries were removed, inserted, reordered or given
    /// another time.
    Rewritten,
    /// Two signed checkpoints of the same size have different roots, so two versions of the log exist.
    TwoVersions,
    /// The log is shorter than it was.
    Shorter,
    /// The office shows another log without having declared that its ledger was restored from a backup.
    AnotherLog,
    /// The office issued a receipt for an entry that is not in its log.
    EntryMissing,
    /// The office's proof that entries are in its log does not verify.
    ProofFails,
    /// The office's root key signed two different key statements with the same number.
    TwoRoots,
}

impl LogContradiction {
    /// Returns what a person is told.
    pub fn message(self) -> Message {
        Message::new(match self {
            LogContradiction::Rewritten => "refusal-log-rewritten",
            LogContradiction::TwoVersions => "refusal-log-two-versions",
            LogContradiction::Shorter => "refusal-log-shorter",
            LogContradiction::AnotherLog => "refusal-log-another",
            LogContradiction::EntryMissing => "refusal-log-entry-missing",
            LogContradiction::ProofFails => "refusal-log-proof-fails",
            LogContradiction::TwoRoots => "refusal-log-two-roots",
        })
    }

    /// Returns a sentence that describes the contradiction, for logs.
    pub const fn sentence(self) -> &'static str {
        match self {
            LogContradiction::Rewritten => {
                "The office's log was rewritten: it no longer begins with what this device was shown before."
            }
            LogContradiction::TwoVersions => {
                "The office signed two different versions of its log: what this device was shown and what \
                 another was shown cannot both be true."
            }
            LogContradiction::Shorter => {
                "The office's log is shorter than it was: entries it held are gone. If the office put back a \
                 backup, it must declare that (farsiding restored)."
            }
            LogContradiction::TwoRoots => {
                "The organisation's root key signed two different statements about its keys: somebody else has \
                 it. This device goes on with the keys it knew before; ask the office."
            }
            LogContradiction::AnotherLog => {
                "The office shows another log than before and has not declared why."
            }
            LogContradiction::EntryMissing => "The office receipted an entry that is not in its log.",
            LogContradiction::ProofFails => {
                "The office's proof that entries are in its log does not hold; they are asked for again next time."
            }
        }
    }
}

/// A stored contradiction with both signed notes.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Alarm {
    /// The kind of contradiction.
    pub kind: LogContradiction,
    /// The time of detection by this device's clock.
    pub at: UtcMillis,
    /// The note of the checkpoint known before.
    pub ours: String,
    /// The note that contradicts it.
    pub theirs: String,
    /// The entry concerned, if the contradiction is about one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub entry: Option<EntryId>,
}

/// Reads the list stored under a name; returns an empty list if there is none.
pub(super) fn read_list<T: serde::de::DeserializeOwned>(
    store: &dyn Store,
    key: &str,
) -> Result<Vec<T>, StoreError> {
    Ok(store.value(key)?.and_then(|bytes| cbor::decode(&bytes).ok()).unwrap_or_default())
}

/// Stores a list under a name.
pub(super) fn write_list<T: Serialize>(
    store: &mut dyn Store,
    key: &str,
    list: &[T],
) -> Result<(), StoreError> {
    let value = cbor::encode(&list).map_err(|e| StoreError::Database(e.to_string()))?;
    store.commit(&[Write::Value { key, value: &value }])?;
    Ok(())
}

/// Stores a contradiction unless the same one is stored already.
///
/// # Errors
/// [`StoreError`] when the database fails.
pub(super) fn keep_alarm(store: &mut dyn Store, alarm: Alarm) -> Result<(), StoreError> {
    let mut alarms: Vec<Alarm> = read_list(store, ALARMS)?;
    let same = |known: &Alarm| {
        (known.kind, &known.ours, &known.theirs, known.entry)
            == (alarm.kind, &alarm.ours, &alarm.theirs, alarm.entry)
    };
    if alarms.len() < MOST_ALARMS && !alarms.iter().any(same) {
        alarms.push(alarm);
        write_list(store, ALARMS, &alarms)?;
    }
    Ok(())
}
