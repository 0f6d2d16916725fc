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
use farsiding_core::ids::{DeviceId, Digest, Subject, VisitId};
use farsiding_core::store::{self, ApplyError, StoreError};
use farsiding_core::sync::{Answer, OpenedRequest, Rounds, newest_signed, settle_after};
use tokio::sync::{OwnedMutexGuard, oneshot};

use super::door;
use crate::enrolment::narrowing;
use crate::hidden;
use crate::ledger::Ledger;
use crate::office_database::Seen;
use crate::photo_uploads;
use crate::quotas::Account;
use crate::state::Office;
use crate::state::request_error::RequestError;
use crate::state::rounds::WaitingRound;

/// The number of rounds that share one wait for the disk. It is small, so that no round waits long for the
/// others.
const ROUNDS_TOGETHER: usize = 16;

/// Answers one sync round.
pub async fn sync(
    State(office): State<Arc<Office>>,
    headers: HeaderMap,
    body: Body,
) -> Result<Response, RequestError> {
    let limits = &office.limits;
    let read = door::open(&office, &headers, body);
    let request = tokio::time::timeout(limits.in_all, read).await.map_err(|_| {
        RequestError::new(StatusCode::REQUEST_TIMEOUT, "too_slow", "the request took too long; send it again")
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
    let headers = [(header::CONTENT_TYPE, "application/cbor"), (header::CACHE_CONTROL, "no-store")];
    Ok((headers, answer.reply).into_response())
}

/// Waits until this round has been answered. Usually the first round that finds the ledger in use answers all
/// rounds waiting by then, so that they share one wait for the disk.
async fn answered(office: &Arc<Office>, request: OpenedRequest) -> Result<Answer, RequestError> {
    let (tell, mut told) = oneshot::channel();
    let waiting = WaitingRound { request, came_at: office.now(), tell };
    office.rounds.lock().unwrap_or_else(PoisonError::into_inner).push_back(waiting);
    loop {
        tokio::select! {
            biased;
            answer = &mut told => return answer.map_err(|_| RequestError::failed("the ledger's thread stopped"))?,
            ledger = Arc::clone(&office.ledger).lock_owned() => {
                let office = Arc::clone(office);
                // The task runs to its end even if nobody waits for the answers any more.
                let answering = tokio::task::spawn_blocking(move || answer_some(&office, ledger));
                answering.await.map_err(|_| RequestError::failed("the ledger's thread stopped"))?;
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
    let answered = answer_together(office, &mut **ledger, &rounds);
    // A round that the ledger cannot write keeps no other round from being written.
    let groups = match answered {
        Err(ApplyError::NotWritten(StoreError::Database(_))) if rounds.len() > 1 => rounds
            .into_iter()
            .map(|round| vec![round])
            .map(|alone| (answer_together(office, &mut **ledger, &alone), alone))
            .collect(),
        answered => vec![(answered, rounds)],
    };
    if groups.iter().any(|(answered, _)| answered.as_ref().is_ok_and(|answered| answered.told.rules)) {
        put_into_force(office, &mut **ledger);
    }
    drop(ledger);
    for (answered, rounds) in groups {
        match answered {
            Ok(answered) => hand_out(office, rounds, answered),
            Err(error) => {
                let problem = RequestError::from(error.into_store_error());
                for round in rounds {
                    let _ = round.tell.send(Err(problem.clone())); // a client that disconnected asks again
                }
            }
        }
    }
}

/// Rounds that are on the disk.
struct Answered<'q> {
    answers: Vec<Result<Answer, RequestError>>,
    accounts: HashMap<DeviceId, Account<'q>>,
    told: Told,
    /// How far the ledger is written.
    position: u64,
}

/// Decides about rounds one by one, and has the ledger write them with one wait for the disk.
fn answer_together<'q>(
    office: &'q Office,
    ledger: &mut dyn Ledger,
    waiting: &[WaitingRound],
) -> Result<Answered<'q>, ApplyError> {
    let (mut accounts, mut told) = (HashMap::new(), Told::default());
    let mut answers: Vec<Option<Result<Answer, RequestError>>> = waiting.iter().map(|_| None).collect();
    let writing = ledger.rounds_mut();
    let begun = Rounds::begin(writing, &office.key, office.epoch);
    let mut rounds = begun.map_err(ApplyError::NotWritten)?;
    let mut taking = Vec::new();
    for (at, (round, answer)) in waiting.iter().zip(&mut answers).enumerate() {
        match decide(office, writing, &mut rounds, round, &mut accounts) {
            Ok(()) => taking.push(at),
            Err(problem) => *answer = Some(Err(problem)),
        }
    }
    let replies = rounds.answer(writing, &mut |answer, entry| told.note(answer, entry))?;
    let requests = taking.iter().filter_map(|at| waiting.get(*at)).map(|round| &round.request);
    let settled = settle_after(writing, &office.key.public(), requests.zip(&replies), office.now());
    if let Err(error) = settled {
        tracing::error!(%error, "the names of people could not be settled; the devices send them again");
    }
    for (at, reply) in taking.into_iter().zip(replies) {
        if let Some(answer) = answers.get_mut(at) {
            *answer = Some(reply.map_err(RequestError::from));
        }
    }
    let read = ledger.store();
    let newest = newest_signed(read).and_then(|newest| Ok((newest, read.newest_position()?)));
    // What was answered is on the disk, so that a failure here may not take the answers back.
    let (signed, position) = newest.unwrap_or_else(|error| {
        tracing::error!(%error, "the ledger could not be read after a sync");
        (None, 0)
    });
    office.clock_watch.look(office.now(), signed);
    let unanswered = || Err(RequestError::failed("a round was left without an answer"));
    let answers = answers.into_iter().map(|answer| answer.unwrap_or_else(unanswered)).collect();
    Ok(Answered { answers, accounts, told, position })
}

/// Sends the answers and notes what was seen of the devices.
fn hand_out(office: &Office, rounds: Vec<WaitingRound>, answered: Answered<'_>) {
    let Answered { answers, accounts, told, position } = answered;
    let seen: Vec<Seen> = rounds
        .iter()
        .zip(&answers)
        .filter_map(|(round, answer)| {
            let Answer { device, device_ahead_millis: ahead_millis, unsent, .. } = answer.as_ref().ok()?;
            Some(Seen { device: *device, at: round.came_at, ahead_millis: *ahead_millis, unsent: *unsent })
        })
        .collect();
    let brought = answers.iter().flatten().any(|answer| !answer.new.is_empty());
    // Whoever reads the database after an answer was sent finds the round recorded there.
    let mut database = office.database.lock().unwrap_or_else(PoisonError::into_inner);
    for (round, answer) in rounds.into_iter().zip(answers) {
        let _ = round.tell.send(answer); // a client that disconnected asks again
    }
    if brought {
        let _ = office.hints.send(()); // an error only means that there are no listeners
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
    let stores = (ledger.store_mut(), office.folder.ledger_place());
    let done = narrowing::put_into_force(&database, (stores.0, &stores.1), &office.key, office.now());
    if let Err(error) = done {
        tracing::error!(%error, "what operators may could not be put into their certificates; the next start does it");
    }
}

/// Decides what is kept of one round.
fn decide<'q, 'r>(
    office: &'q Office,
    ledger: &dyn store::Ledger,
    rounds: &mut Rounds<'r>,
    round: &'r WaitingRound,
    accounts: &mut HashMap<DeviceId, Account<'q>>,
) -> Result<(), RequestError> {
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
    let decided = catch_unwind(AssertUnwindSafe(|| rounds.add(ledger, request, now, Some(account))));
    let decided = decided.map_err(|_| {
        tracing::error!(device = device.short(), "answering a sync request panicked");
        RequestError::bad_request("unreadable", "this request could not be processed")
    });
    decided??;
    Ok(())
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

impl Told {
    /// Notes the photograph that a new entry names, so that the office expects it, and a visit that it opens.
    fn note(&mut self, answer: &Answer, entry: &entry::Entry) {
        match (&entry.body.says, entry.body.about) {
            (Statement::Photo { photo, .. }, _) => self.named.push((photo.sha256, photo.length)),
            // If another device sends such an entry, the visit stays hidden until somebody shows it again.
            (Statement::Opened(_), Subject::Visit(visit))
                if entry.device == answer.device && !answer.revoked =>
            {
                self.opened.push(visit);
            }
            (Statement::Rules(_), Subject::Roster(_)) => self.rules = true,
            _ => {}
        }
    }
}
