//! Time stamps on a schedule: which authority is asked, how often, and the state of the last stamp.

use std::sync::Arc;
use std::time::Duration;

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::OrganisationKey;
use farsiding_core::evidence::ledger_log;
use farsiding_core::ids::Randomness as _;
use farsiding_core::store::{Store, StoreError, Write};
use farsiding_core::{Arg, Message, message};
use serde::{Deserialize, Serialize};

use super::{LedgerAccess, RepeatedFailure, clock_says, read_value, write_value};
use crate::state::findings::Finding;
use farsiding_host::SystemRandomness;
use farsiding_host::outside_call::Outsider;
use farsiding_timestamp::{self as timestamp, Stamp, StampError};

const KEPT: &str = "log/stamping";
const STANDING: &str = "log/stamping/standing";
/// The longest wait before another attempt after a failure.
const TRIED_AGAIN: Duration = Duration::from_secs(60 * 60);

/// Which authority is asked, and how often.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Stamping {
    /// The authority's address.
    pub tsa: String,
    /// The root certificates (PEM) that must certify the authority. If empty, only the authority's own
    /// signature is checked.
    pub roots: String,
    /// The time between two stamps in seconds. A stamp is made only if new entries have arrived.
    pub every_seconds: u64,
}

/// A time stamp that was just received and stored.
#[derive(Debug)]
pub struct NewStamp {
    /// The name of the log.
    pub origin: String,
    /// The number of entries in the stamped log.
    pub size: u64,
    /// The content of the token.
    pub stamp: Stamp,
}

/// The state of the last time stamp.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Standing {
    origin: String,
    size: u64,
    /// The time of the stamp, by the authority's clock.
    stamped_at: Option<UtcMillis>,
    /// The time of the stamp, by this server's clock.
    kept_at: Option<UtcMillis>,
    authority: String,
    to_a_root: bool,
    trouble: Option<RepeatedFailure>,
}

pub(super) fn kept(store: &dyn Store) -> Result<Option<Stamping>, StoreError> {
    read_value(store, KEPT)
}

/// Sets the authority that the server asks, or that it asks none.
///
/// # Errors
/// Returns a [`StoreError`] when the ledger's store fails.
pub fn set(store: &mut dyn Store, stamping: Option<&Stamping>) -> Result<(), StoreError> {
    write_value(store, KEPT, &stamping)
}

pub(super) fn standing(store: &dyn Store) -> Result<Standing, StoreError> {
    Ok(read_value(store, STANDING)?.unwrap_or_default())
}

/// Returns whether a new stamp of the log with this `origin` and `size` is due.
fn is_due(known: &Standing, stamping: &Stamping, (origin, size): (&str, u64), now: UtcMillis) -> bool {
    let every = Duration::from_secs(stamping.every_seconds);
    let since = |at: UtcMillis| Duration::from_millis(now.0.abs_diff(at.0));
    if let Some(trouble) = &known.trouble {
        return since(trouble.last) >= every.min(TRIED_AGAIN);
    }
    let something_new = known.size != size || known.origin != origin;
    something_new && known.kept_at.is_none_or(|at| since(at) >= every)
}

/// Asks for a stamp if one is due, and records the outcome.
pub(super) async fn stamp_when_due(
    ledger: &impl LedgerAccess,
    key: &Arc<OrganisationKey>,
    stamping: &Stamping,
    now: UtcMillis,
) -> Result<(), String> {
    let (own, wanted) = (Arc::clone(key), stamping.clone());
    let due = ledger.with(move |store| {
        let newest = ledger_log::publish(store, &own, now)?;
        Ok::<_, StoreError>(is_due(&standing(store)?, &wanted, (&newest.origin, newest.size), now))
    });
    if !due.await?.map_err(|e| e.to_string())? {
        return Ok(());
    }
    let Err(why) = stamp_newest(ledger, key, stamping, now).await else { return Ok(()) };
    let noted = ledger.with(move |store| {
        let known = standing(store)?;
        let trouble = Some(RepeatedFailure::again(known.trouble, why.to_string(), false, now));
        write_value(store, STANDING, &Standing { trouble, ..known })
    });
    noted.await?.map_err(|e| e.to_string())
}

/// The largest accepted answer, in bytes.
const LARGEST_ANSWER: usize = 256 * 1024;

/// Sends a request to the authority at `url` and returns the bytes of the answer (RFC 3161, 3.4). Plain HTTP
/// is sufficient, because the answer is signed and bound to the request by a random number.
async fn ask(url: &str, request: Vec<u8>) -> Result<Vec<u8>, StampError> {
    let authority = Outsider::at(url).map_err(StampError::Refused)?;
    let answer = authority.post("", "application/timestamp-query", request, LARGEST_ANSWER).await;
    let answer = answer.map_err(StampError::Refused)?;
    if answer.status != 200 {
        return Err(StampError::Refused(format!("it answered {}", answer.status)));
    }
    Ok(answer.body)
}

/// Has the newest checkpoint stamped, and stores the token if it is valid.
///
/// # Errors
/// Returns a [`StampError`]; an invalid token is not stored.
pub async fn stamp_newest(
    ledger: &(impl LedgerAccess + ?Sized),
    key: &Arc<OrganisationKey>,
    stamping: &Stamping,
    now: UtcMillis,
) -> Result<NewStamp, StampError> {
    let here = |why: String| StampError::NotKept(why);
    let roots = match stamping.roots.as_str() {
        "" => Vec::new(),
        roots => timestamp::read_roots(roots.as_bytes())?,
    };
    let mut nonce = [0u8; 8];
    SystemRandomness::new().map_err(|e| here(e.to_string()))?.fill(&mut nonce);
    let own = Arc::clone(key);
    let newest = ledger.with(move |store| ledger_log::publish(store, &own, now)).await.map_err(here)?;
    let newest = newest.map_err(|e| here(e.to_string()))?;
    let request = timestamp::request(newest.note.as_bytes(), nonce)?;
    let answer = ask(&stamping.tsa, request).await?;
    let token = timestamp::token_of(&answer, nonce)?;
    let stamp = timestamp::check(&token, newest.note.as_bytes(), &roots)?;
    let (given, of) = (stamp.clone(), newest.clone());
    let kept = ledger.with(move |store| {
        let standing = Standing {
            origin: of.origin.clone(),
            size: of.size,
            stamped_at: Some(given.at),
            kept_at: Some(now),
            authority: given.authority,
            to_a_root: given.to_a_root,
            trouble: None,
        };
        let value = serde_json::to_vec(&standing).map_err(|e| StoreError::Database(e.to_string()))?;
        store.commit(&[
            Write::TimeStamp { origin: &of.origin, size: of.size, note: &of.note, token: &token, at: now },
            Write::Value { key: STANDING, value: &value },
        ])
    });
    kept.await.map_err(here)?.map_err(|e| here(e.to_string()))?;
    Ok(NewStamp { origin: newest.origin, size: newest.size, stamp })
}

/// Returns the state of the time stamps, for the state of the server.
pub(super) fn finding(stamping: &Stamping, known: &Standing) -> Finding {
    let last = match known.stamped_at {
        Some(at) => {
            let says = match known.to_a_root {
                true => Message::new("office-found-stamped"),
                false => Message::new("office-found-stamped-no-root"),
            };
            let authority = Arg::typed(&known.authority);
            says.with("count", known.size).with("at", Arg::typed(at.rfc3339())).with("authority", authority)
        }
        None => message!("office-found-stamped-nothing"),
    };
    let clocks = known.stamped_at.zip(known.kept_at).and_then(|(theirs, ours)| clock_says(theirs, ours));
    let (well, says) = match (&known.trouble, clocks) {
        (Some(trouble), _) => {
            let authority = Arg::typed(stamping.tsa.to_string());
            let says =
                message!("office-found-no-stamp", authority = authority, told = trouble.told(), last = last);
            (false, says)
        }
        (None, Some(clock)) => (false, message!("office-found-two", first = last, second = clock)),
        (None, None) => (true, last),
    };
    Finding { name: "time_stamp", well, loud: false, says }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_stamp_is_due_when_something_came_in_and_the_time_has_passed() {
        let stamping = Stamping { tsa: String::new(), roots: String::new(), every_seconds: 86_400 };
        let day = 86_400_000;
        let now = UtcMillis(100 * day);
        let due = |known: &Standing, size: u64, now: i64| {
            is_due(known, &stamping, ("farsiding/a", size), UtcMillis(now))
        };
        let never = Standing::default();
        assert!(due(&never, 0, now.0), "also of an empty log, once");
        let known = Standing {
            origin: "farsiding/a".to_owned(),
            size: 7,
            stamped_at: Some(now),
            kept_at: Some(now),
            ..Standing::default()
        };
        assert!(!due(&known, 8, now.0 + day - 1));
        assert!(due(&known, 8, now.0 + day));
        assert!(!due(&known, 7, now.0 + 9 * day), "nothing came in");
        assert!(is_due(&known, &stamping, ("farsiding/a/1", 7), UtcMillis(now.0 + day)), "another log");
        assert!(due(&known, 8, now.0 - day), "a clock set back does not end it");
        let trouble = Some(RepeatedFailure::again(None, "not reached".to_owned(), false, now));
        let failed = Standing { trouble, ..known };
        assert!(!due(&failed, 8, now.0 + 3_599_999));
        assert!(due(&failed, 8, now.0 + 3_600_000), "not only after another day");
    }
}
