//! How what the office shows of its log can contradict what it showed before, and how contradictions are kept.
//!
//! Does not live here: noticing one (`log_watch`, and `keys` for two statements of one root).

use serde::{Deserialize, Serialize};

use crate::clock::UtcMillis;
use crate::entry::cbor;
use crate::ids::EntryId;
use crate::store::{Store, StoreError, Write};

pub(super) const ALARMS: &str = "log/alarms";
/// Contradictions kept; the first ones say most.
const MOST_ALARMS: usize = 32;

/// How what the office shows contradicts what it showed before.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Contradiction {
    /// Its log does not begin with what was its log before: entries were taken out, put in, moved or dated
    /// anew.
    Rewritten,
    /// Two signed checkpoints of one size have different roots: two versions of the log exist.
    TwoVersions,
    /// Its log is shorter than it was.
    Shorter,
    /// It shows another log and has not declared that its ledger came back from a backup.
    AnotherLog,
    /// It receipted an entry that is not in its log.
    EntryMissing,
    /// Its proof that entries are in its log does not hold.
    ProofFails,
    /// Its root key signed two different statements about its keys under one number.
    TwoRoots,
}

impl Contradiction {
    /// What happened, as a sentence.
    pub const fn sentence(self) -> &'static str {
        match self {
            Contradiction::Rewritten => {
                "The office's log was rewritten: it no longer begins with what this device was shown before."
            }
            Contradiction::TwoVersions => {
                "The office signed two different versions of its log: what this device was shown and what \
                 another was shown cannot both be true."
            }
            Contradiction::Shorter => {
                "The office's log is shorter than it was: entries it held are gone. If the office put back a \
                 backup, it must declare that (farsiding restored)."
            }
            Contradiction::TwoRoots => {
                "The organisation's root key signed two different statements about its keys: somebody else has \
                 it. This device goes on with the keys it knew before; ask the office."
            }
            Contradiction::AnotherLog => "The office shows another log than before and has not declared why.",
            Contradiction::EntryMissing => "The office receipted an entry that is not in its log.",
            Contradiction::ProofFails => {
                "The office's proof that entries are in its log does not hold; they are asked for again next time."
            }
        }
    }
}

/// A contradiction as kept, with both signed notes.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Alarm {
    /// What it is.
    pub kind: Contradiction,
    /// When it was noticed, by this device's clock.
    pub at: UtcMillis,
    /// The checkpoint known before.
    pub ours: String,
    /// What contradicts it.
    pub theirs: String,
    /// The entry, where it is about one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub entry: Option<EntryId>,
}

/// A list kept under a name; empty when there is none.
pub(super) fn read_list<T: serde::de::DeserializeOwned>(
    store: &dyn Store,
    key: &str,
) -> Result<Vec<T>, StoreError> {
    Ok(store.value(key)?.and_then(|bytes| cbor::decode(&bytes).ok()).unwrap_or_default())
}

/// Keeps a list under a name.
pub(super) fn write_list<T: Serialize>(
    store: &mut dyn Store,
    key: &str,
    list: &[T],
) -> Result<(), StoreError> {
    let value = cbor::encode(&list).map_err(|e| StoreError::Database(e.to_string()))?;
    store.commit(&[Write::Value { key, value: &value }])?;
    Ok(())
}

/// Keeps a contradiction, each once.
///
/// # Errors
/// [`StoreError`].
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
