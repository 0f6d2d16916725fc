//! `POST /v1/sync`: takes the bytes of a sync round and returns the signed reply. The core decides the reply.

use std::collections::HashMap;
use std::collections::hash_map::Entry;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::{Arc, PoisonError};

use axum::body::Body;
use axum::extract::State;
use axum::http::{HeaderMap, StatusCode, header};
use axum::response::{IntoResponse as _, Response};
use farsiding_core::entry::{self, Statement};
use farsiding_core::evidence::ledger_log;
use farsiding_core::ids::{DeviceId, Digest, Subject, VisitId};
use farsiding_core::store::{Store, StoreError, Write, group_commit};
use farsiding_core::sync::{Answer, Answerer, OpenedRequest, ledger_time, newest_signed};
use tokio::sync::{OwnedMutexGuard, oneshot};

use super::door;
use crate::enrolment::narrowing;
use crate::hidden;
use crate::ledger::Ledger;
use crate::office_database::Seen;
use crate::photo_uploads;
use crate::quotas::Account;
use crate::state::Office;
use crate::state::problem::Problem;
use crate::state::rounds::WaitingRound;

/// The number of rounds that share one wait for the disk. It is small, so that no round waits long for the
/// others.
const ROUNDS_TOGETHER: usize = 16;

/// Answers one sync round.
pub async fn sync(
    State(office): State<Arc<Office>>,
    headers: HeaderMap,
    body: Body,
) -> Result<Response, Problem> {
    let limits = &office.limits;
    let read = door::open(&office, &headers, body);
    let request = tokio::time::timeout(limits.in_all, read).await.map_err(|_| {
        Problem::new(StatusCode::REQUEST_TIMEOUT, "too_slow", "the request took too long; send it again")
    })??;
    let answer = answered(&office, request).await?;
    tracing::info!(
        device = answer.device.short(),
        new = answer.new.len(),
        refused = answer.refused,
        ahead_millis = answer.device_ahead_millis,
        reply_bytes = answer.reply.len(),
        "sync"
    );
    if answer.unsent != (0, 0) {
        let _ = office.news.send(()); // an error only means that there are no listeners
    }
    if !answer.new.is_empty() {
        let _ = office.hints.send(()); // an error only means that there are no listeners
    }
    let headers = [(header::CONTENT_TYPE, "application/cbor"), (header::CACHE_CONTROL, "no-store")];
    Ok((headers, answer.reply).into_response())
}

/// Waits until this round has been answered. Usually the first round that finds the ledger in use answers all
/// rounds waiting by then, so that they share one wait for the disk.
async fn answered(office: &Arc<Office>, request: OpenedRequest) -> Result<Answer, Problem> {
    let (tell, mut told) = oneshot::channel();
    let waiting = WaitingRound { request, came_at: office.now(), tell };
    office.rounds.lock().unwrap_or_else(PoisonError::into_inner).push_back(waiting);
    loop {
        tokio::select! {
            biased;
            answer = &mut told => return answer.map_err(|_| Problem::failed("the ledger's thread stopped"))?,
            ledger = Arc::clone(&office.ledger).lock_owned() => {
                let office = Arc::clone(office);
                // The task runs to its end even if nobody waits for the answers any more.
                let answering = tokio::task::spawn_blocking(move || answer_some(&office, ledger));
                answering.await.map_err(|_| Problem::failed("the ledger's thread stopped"))?;
            }
        }
    }
}

/// Answers the waiting rounds, or the first few of very many.
fn answer_some(office: &Office, mut ledger: OwnedMutexGuard<Box<dyn Ledger>>) {
    let rounds: Vec<WaitingRound> = {
        let mut waiting = office.rounds.lock().unwrap_or_else(PoisonError::into_inner);
        let some = waiting.len().min(ROUNDS_TOGETHER);
        waiting.drain(..some).collect()
    };
    if rounds.is_empty() {
        return;
    }
    let (mut accounts, mut told) = (HashMap::new(), Told::default());
    let answers = group_commit(ledger.store_mut(), |store| {
        let mut one = |round| answer(office, store, round, &mut accounts, &mut told);
        let answers: Vec<_> = rounds.iter().map(&mut one).collect();
        if answers.iter().flatten().any(|answer| !answer.new.is_empty()) {
            // The leaves are in the log already. A checkpoint that cannot be published now is published with
            // the next round.
            let published =
                ledger_time(store, office.now()).and_then(|now| ledger_log::publish(store, &office.key, now));
            if let Err(error) = published {
                tracing::error!(%error, "no checkpoint could be published");
            }
        }
        office.clock_watch.look(office.now(), newest_signed(store)?);
        Ok::<_, StoreError>((answers, store.newest_position()?))
    });
    if told.rules {
        put_into_force(office, &mut **ledger);
    }
    drop(ledger);
    let (answers, position) = match answers.and_then(|answers| answers) {
        Ok(answered) => answered,
        Err(error) => {
            let problem = Problem::from(error);
            for round in rounds {
                let _ = round.tell.send(Err(problem.clone())); // a client that disconnected asks again
            }
            return;
        }
    };
    let seen: Vec<Seen> = rounds
        .iter()
        .zip(&answers)
        .filter_map(|(round, answer)| {
            let Answer { device, device_ahead_millis: ahead_millis, unsent, .. } = answer.as_ref().ok()?;
            Some(Seen { device: *device, at: round.came_at, ahead_millis: *ahead_millis, unsent: *unsent })
        })
        .collect();
    // Whoever reads the database after an answer was sent finds the round recorded there.
    let mut database = office.database.lock().unwrap_or_else(PoisonError::into_inner);
    for (round, answer) in rounds.into_iter().zip(answers) {
        let _ = round.tell.send(answer); // a client that disconnected asks again
    }
    // These figures are informational. If they cannot be written, that is logged, but the receipt is still
    // sent.
    let Told { named, opened, rules: _ } = told;
    let opened: Vec<VisitId> = opened.into_iter().filter(|visit| office.index.leaves_out(*visit)).collect();
    let kept = database.seen(&seen, position, |database| {
        hidden::show_again(database, &opened)?;
        photo_uploads::name(database, &named)?;
        accounts.values().try_for_each(|account| account.close(database))
    });
    if !opened.is_empty()
        && let Ok(hidden) = hidden::list(database.connection())
    {
        office.index.leave_out(hidden.into_iter().map(|hidden| hidden.visit));
    }
    if let Err(error) = kept {
        tracing::warn!(%error, "the register could not note a sync");
    }
}

/// Puts rules that a device brought into the operators' certificates, as rules decided on a page are.
fn put_into_force(office: &Office, ledger: &mut dyn Ledger) {
    let database = office.database.lock().unwrap_or_else(PoisonError::into_inner);
    let stores = (ledger.store_mut(), office.folder.ledger_file());
    let done = narrowing::put_into_force(&database, (stores.0, &stores.1), &office.key, office.now());
    if let Err(error) = done {
        tracing::error!(%error, "what operators may could not be put into their certificates; the next start does it");
    }
}

fn answer<'q>(
    office: &'q Office,
    store: &mut dyn Store,
    round: &WaitingRound,
    accounts: &mut HashMap<DeviceId, Account<'q>>,
    told: &mut Told,
) -> Result<Answer, Problem> {
    let (request, now) = (&round.request, round.came_at);
    let device = request.device();
    let account = match accounts.entry(device) {
        Entry::Occupied(known) => known.into_mut(),
        Entry::Vacant(place) => {
            let database = office.database.lock().unwrap_or_else(PoisonError::into_inner);
            let (quotas, revoked) = (&office.limits.quotas, request.is_revoked());
            place.insert(Account::open(quotas, database.connection(), device, revoked, now)?)
        }
    };
    account.next_round();
    let outcome = catch_unwind(AssertUnwindSafe(|| {
        let mut answerer = Answerer::new(&mut *store, &office.key, office.epoch);
        answerer.allowance = Some(&mut *account);
        answerer.answer_opened(request, now)
    }));
    let answer = match outcome {
        Ok(outcome) => outcome?,
        Err(_) => {
            tracing::error!(device = request.device().short(), "answering a sync request panicked");
            return Err(Problem::bad_request("unreadable", "this request could not be processed"));
        }
    };
    read_new(store, &answer, told)?;
    Ok(answer)
}

/// What new entries mean for the office, apart from the record itself.
#[derive(Debug, Default)]
struct Told {
    /// The photographs the entries name, with the stated lengths.
    named: Vec<(Digest, u64)>,
    /// The visits that an enrolled device opened.
    opened: Vec<VisitId>,
    /// Whether the rules for roles were changed.
    rules: bool,
}

/// Collects the photographs that new entries name, so that the office expects them, and the visits that were
/// opened.
fn read_new(store: &mut dyn Store, answer: &Answer, told: &mut Told) -> Result<(), StoreError> {
    for (_, id) in &answer.new {
        let Some(row) = store.entry(*id)? else { continue };
        let Ok(entry::Entry { body, device, .. }) = entry::Entry::reopen(row.id, row.bytes) else { continue };
        match (body.says, body.about) {
            (Statement::Photo { photo, .. }, _) => {
                let (sha256, length, media) = (photo.sha256, photo.length, photo.media.as_str());
                store.commit(&[Write::Photo { sha256, length, media, here: false, held: false }])?;
                told.named.push((sha256, length));
            }
            // If another device sends such an entry, the visit stays hidden until somebody shows it again.
            (Statement::Opened(_), Subject::Visit(visit)) if device == answer.device && !answer.revoked => {
                told.opened.push(visit);
            }
            (Statement::Rules(_), Subject::Roster(_)) => told.rules = true,
            _ => {}
        }
    }
    Ok(())
}
