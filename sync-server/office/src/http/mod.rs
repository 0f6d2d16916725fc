//! The office over HTTP: routes, what they share, and the limits every request is under.
//!
//! One file per group of routes. Every refusal is a [`problem::Problem`]: a short code for programs
//! and a sentence for people.

mod app_files;
mod body;
pub mod crowd;
mod door;
mod enrol_route;
mod hint_route;
pub mod hosts;
mod log_route;
mod passes;
pub(crate) mod photo_routes;
pub(crate) mod problem;
mod sync_route;

use std::collections::VecDeque;
use std::sync::{Arc, Mutex, PoisonError};
use std::time::Duration;

use axum::extract::{DefaultBodyLimit, Request, State};
use axum::http::{StatusCode, header};
use axum::middleware::{self, Next};
use axum::response::{IntoResponse as _, Response};
use axum::routing::{get, post};
use axum::{Json, Router};
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::OrganisationKey;
use tokio::sync::{Semaphore, broadcast, watch};

use super::accounts::attempts::{Attempts, Lines};
use super::backup_schedule::Plan;
use super::clock_watch::ClockWatch;
use super::data_folder::DataFolder;
use super::health::Health;
use super::index::{Asking, Index, IndexError};
use super::ledger::Ledger;
use super::pages::{self, Administers, Allowed, Refreshing, Refused};
use super::photo_store::PhotoStore;
use super::quotas::Quotas;
use super::register::{Register, RegisterError};
use super::third_parties::ThirdParties;
use crowd::{Crowd, CrowdLimits};
use door::{KnownDevices, OPENED_AT_ONCE};
use farsiding_host::ProcessClock;
use hosts::Hosts;
use passes::Passes;
pub(crate) use problem::Problem;

pub use problem::TUS_CHECKSUM_MISMATCH;
use sync_route::Waiting;

/// What a request may cost.
#[derive(Debug, Clone)]
pub struct Limits {
    /// Bytes of a sync request as sent.
    pub request_bytes: usize,
    /// Bytes of a sync request after inflation.
    pub inflated_bytes: usize,
    /// Bytes of one photograph.
    pub photo_bytes: u64,
    /// Requests answered at once; more are told to come back.
    pub at_once: usize,
    /// Open hint streams.
    pub hint_streams: usize,
    /// How long a sender may pause inside a body.
    pub pause: Duration,
    /// How long a sync or enrolment may take in all.
    pub in_all: Duration,
    /// Pages made at once; more wait.
    pub pages_at_once: usize,
    /// How long a page may take, its wait for others included.
    pub page: Duration,
    /// How long a packet may take.
    pub packet: Duration,
    /// How many from one address or session.
    pub crowd: CrowdLimits,
    /// What one device may bring in a day.
    pub quotas: Quotas,
}

impl Default for Limits {
    fn default() -> Self {
        Limits {
            request_bytes: 4 * 1024 * 1024,
            inflated_bytes: farsiding_core::sync::wire::LARGEST_BULK,
            photo_bytes: 64 * 1024 * 1024,
            at_once: 256,
            hint_streams: 256,
            pause: Duration::from_secs(30),
            in_all: Duration::from_secs(600),
            pages_at_once: 16,
            page: Duration::from_secs(20),
            packet: Duration::from_secs(180),
            crowd: CrowdLimits::default(),
            quotas: Quotas::default(),
        }
    }
}

/// The office as the routes see it.
pub struct Office {
    pub(super) ledger: Arc<tokio::sync::Mutex<Box<dyn Ledger>>>,
    /// Rounds that wait for it.
    pub(super) rounds: Mutex<VecDeque<Waiting>>,
    pub(super) register: Arc<Mutex<Register>>,
    pub(super) key: OrganisationKey,
    pub(super) epoch: u64,
    pub(super) photos: PhotoStore,
    pub(super) limits: Limits,
    pub(super) clock: ProcessClock,
    /// How the clock stands against the log, and against a clock that nobody sets.
    pub(super) clock_watch: ClockWatch,
    /// Backups it makes by itself.
    pub(super) backups: Option<Plan>,
    /// The host names of app and pages, where they are two.
    pub(super) hosts: Option<Hosts>,
    pub(super) hints: broadcast::Sender<()>,
    pub(super) stopping: watch::Receiver<bool>,
    pub(super) passes: Passes,
    pub(super) at_once: Semaphore,
    pub(super) streams: Arc<Semaphore>,
    pub(super) crowd: Crowd,
    /// Whose requests are read, before the ledger is asked.
    pub(super) devices: KnownDevices,
    pub(super) opening: Semaphore,
    /// Whether browsers reach it by TLS.
    pub(super) secure: bool,
    pub(super) attempts: Attempts,
    pub(super) hashing: Lines,
    pub(super) refreshing: Refreshing,
    pub(super) packing: Semaphore,
    /// Places for pages that are being made; a page that takes too long keeps its own until it ends.
    pub(super) paging: Arc<Semaphore>,
    pub(super) index: Arc<Index>,
    pub(super) folder: DataFolder,
    /// What was last seen of folder, keys and databases.
    pub(super) health: Health,
    /// What witnesses and the time stamp authority said last.
    pub(super) third_parties: ThirdParties,
    /// Says that a letter waits to be sent.
    pub(super) mail_waits: tokio::sync::Notify,
    /// Says to open pages that there is something new to show.
    pub(super) news: broadcast::Sender<()>,
}

impl std::fmt::Debug for Office {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Office").field("key", &self.key).finish_non_exhaustive()
    }
}

/// Everything an [`Office`] is made of.
#[derive(Debug)]
pub struct OfficeParts {
    /// The organisation's key.
    pub key: OrganisationKey,
    /// The ledger's name.
    pub epoch: u64,
    /// Photographs.
    pub photos: PhotoStore,
    /// Limits.
    pub limits: Limits,
    /// The clock.
    pub clock: ProcessClock,
    /// Turns true when the server is to stop.
    pub stopping: watch::Receiver<bool>,
    /// The index of stays.
    pub index: Index,
    /// The data folder.
    pub folder: DataFolder,
    /// Tells pages that bring themselves up to date from people.
    pub refreshing: Refreshing,
    /// Whether browsers reach it by TLS, here or at a proxy: cookies are then held to TLS.
    pub secure: bool,
    /// How the clock stood at the start.
    pub clock_watch: ClockWatch,
    /// Backups it makes by itself.
    pub backups: Option<Plan>,
    /// The host names of app and pages, where they are two.
    pub hosts: Option<Hosts>,
}

impl Office {
    /// An office ready to answer.
    pub fn new(ledger: Box<dyn Ledger>, register: Register, parts: OfficeParts) -> Office {
        let OfficeParts {
            key,
            epoch,
            photos,
            limits,
            clock,
            stopping,
            secure,
            index,
            folder,
            refreshing,
            clock_watch,
            backups,
            hosts,
        } = parts;
        Office {
            ledger: Arc::new(tokio::sync::Mutex::new(ledger)),
            rounds: Mutex::default(),
            register: Arc::new(Mutex::new(register)),
            key,
            epoch,
            photos,
            clock,
            clock_watch,
            backups,
            hosts,
            hints: broadcast::channel(16).0,
            stopping,
            passes: Passes::default(),
            at_once: Semaphore::new(limits.at_once),
            streams: Arc::new(Semaphore::new(limits.hint_streams)),
            crowd: Crowd::new(limits.crowd.clone()),
            devices: KnownDevices::of(folder.ledger_file()),
            opening: Semaphore::new(OPENED_AT_ONCE),
            secure,
            index: Arc::new(index),
            folder,
            attempts: Attempts::default(),
            hashing: Lines::default(),
            refreshing,
            packing: Semaphore::new(2),
            paging: Arc::new(Semaphore::new(limits.pages_at_once)),
            limits,
            health: Health::default(),
            third_parties: ThirdParties::default(),
            mail_waits: tokio::sync::Notify::new(),
            news: broadcast::channel(16).0,
        }
    }

    pub(crate) fn now(&self) -> UtcMillis {
        self.clock.time()
    }

    /// Runs `work` on the ledger on a blocking thread; one at a time, in the order they came. It runs
    /// to its end even when nobody waits for the answer any more.
    pub(crate) async fn on_ledger<T: Send + 'static>(
        &self,
        work: impl FnOnce(&mut dyn Ledger) -> T + Send + 'static,
    ) -> Result<T, Problem> {
        let mut ledger = Arc::clone(&self.ledger).lock_owned().await;
        tokio::task::spawn_blocking(move || work(ledger.as_mut()))
            .await
            .map_err(|_| Problem::failed("the ledger's thread stopped"))
    }

    /// Runs a question to the index and the ledger on a blocking thread; it waits for no sync.
    pub(crate) async fn on_index<T: Send + 'static>(
        &self,
        question: impl FnOnce(&Asking<'_>) -> Result<T, IndexError> + Send + 'static,
    ) -> Result<T, Problem> {
        let index = Arc::clone(&self.index);
        let outcome = tokio::task::spawn_blocking(move || index.ask(question)).await;
        outcome
            .map_err(|_| Problem::failed("the index's thread stopped"))?
            .map_err(|error| Problem::failed(&error.to_string()))
    }

    /// Runs `work` on the register on a blocking thread.
    pub(crate) async fn on_register<T: Send + 'static>(
        &self,
        work: impl FnOnce(&mut Register) -> Result<T, RegisterError> + Send + 'static,
    ) -> Result<T, Problem> {
        let register = Arc::clone(&self.register);
        let outcome = tokio::task::spawn_blocking(move || {
            work(&mut register.lock().unwrap_or_else(PoisonError::into_inner))
        });
        Ok(outcome.await.map_err(|_| Problem::failed("the register's thread stopped"))??)
    }
}

/// All routes; with the phone app's when its built folder is given.
pub fn router(office: Arc<Office>, app: Option<&std::path::Path>, hosts: Option<&Hosts>) -> Router {
    let app = app.map_or_else(Router::new, app_files::routes);
    let routes = Router::new()
        .merge(app)
        .merge(pages::routes(&office))
        .route("/v1/sync", post(sync_route::sync))
        .route("/v1/log", post(log_route::log))
        .route("/v1/enrol", get(enrol_route::who).post(enrol_route::enrol))
        .route("/v1/pass", post(photo_routes::give_pass))
        .route("/v1/photos", post(photo_routes::create).options(photo_routes::options))
        .route(
            "/v1/photos/{sha256}",
            get(photo_routes::download)
                .head(photo_routes::offset)
                .patch(photo_routes::append)
                .options(photo_routes::options),
        )
        .route("/v1/hints", get(hint_route::hints))
        .route("/healthz", get(health))
        .fallback(|| async { Problem::not_found() })
        .layer(middleware::from_fn_with_state(Arc::clone(&office), take_a_place))
        .layer(middleware::from_fn(log_request))
        // Bodies are read piece by piece under the limits above, never by an extractor.
        .layer(DefaultBodyLimit::max(64 * 1024))
        .with_state(office);
    match hosts {
        Some(hosts) => routes.layer(middleware::from_fn_with_state(hosts.clone(), hosts::keep_apart)),
        None => routes,
    }
}

/// Answers `{"ok":true}` while everything is as it must be; an administrator, by their session, is told what is not.
async fn health(State(office): State<Arc<Office>>, who: Result<Allowed<Administers>, Refused>) -> Response {
    let well = async {
        office
            .on_ledger(|ledger| ledger.store().newest_position().map(|_| ()))
            .await?
            .map_err(Problem::from)?;
        office.on_register(|register| register.ledger_position().map(|_| ())).await
    };
    let answers = matches!(tokio::time::timeout(Duration::from_secs(5), well).await, Ok(Ok(())));
    let state = super::health::present(&office).await;
    let ok = answers && state.serves();
    let mut told = serde_json::json!({ "ok": ok });
    if let (Ok(_), Some(told)) = (who, told.as_object_mut()) {
        told.insert("answers".to_owned(), answers.into());
        told.insert("findings".to_owned(), state.to_json());
    }
    let status = if ok { StatusCode::OK } else { StatusCode::SERVICE_UNAVAILABLE };
    (status, [(header::CACHE_CONTROL, "no-store")], Json(told)).into_response()
}

/// Lets in as many requests as may run at once, in the order they came, and tells those to come back that wait
/// longer than a sender who stalls may hold a place. Turned away at once, everybody would be kept out by as many
/// strangers who begin a body and do not end it.
async fn take_a_place(State(office): State<Arc<Office>>, request: Request, next: Next) -> Response {
    let patience = office.limits.pause + crowd::PATIENCE;
    let mut _turn = None;
    if let Some(address) = office.crowd.address_of(&request) {
        if !office.crowd.one_more(address) {
            return Problem::too_often().into_response();
        }
        match tokio::time::timeout(patience, office.crowd.turn(address)).await {
            Ok(turn) => _turn = turn,
            Err(_) => return Problem::busy().into_response(),
        }
    }
    match tokio::time::timeout(patience, office.at_once.acquire()).await {
        Ok(Ok(_place)) => next.run(request).await,
        _ => Problem::busy().into_response(),
    }
}

/// One log line a request. The path logged is the route's pattern, so nothing a stranger typed gets in.
async fn log_request(path: Option<axum::extract::MatchedPath>, request: Request, next: Next) -> Response {
    let method = request.method().clone();
    let began = std::time::Instant::now();
    let response = next.run(request).await;
    let route = path.as_ref().map_or("(none)", |p| p.as_str());
    let millis = u64::try_from(began.elapsed().as_millis()).unwrap_or(u64::MAX);
    let status = response.status().as_u16();
    if status >= 500 {
        tracing::error!(method = method.as_str(), route, status, millis, "request");
    } else {
        tracing::info!(method = method.as_str(), route, status, millis, "request");
    }
    response
}

#[cfg(test)]
pub(crate) mod tests {
    #![allow(clippy::unwrap_used, clippy::panic, reason = "a failed unwrap is a failed test")]
    use super::*;
    use crate::ledger::SqliteLedger;

    /// An office of its own in a folder.
    pub(crate) fn office(folder: &std::path::Path) -> Office {
        let key = OrganisationKey::from_secret([7; 32]);
        let ledger = SqliteLedger::open(&folder.join("ledger.db")).unwrap();
        let register = Register::open(&folder.join("server.db")).unwrap();
        let parts = OfficeParts {
            index: Index::open(&folder.join("index.db"), &folder.join("ledger.db"), "1", key.public())
                .unwrap(),
            folder: DataFolder::open_or_make(folder).unwrap(),
            key,
            epoch: 1,
            photos: PhotoStore::local(&folder.join("photos"), &folder.join("uploads")).unwrap(),
            limits: Limits::default(),
            clock: ProcessClock::System,
            stopping: watch::channel(false).1,
            secure: false,
            clock_watch: ClockWatch::default(),
            backups: None,
            hosts: None,
            refreshing: Refreshing::new(&mut farsiding_host::SystemRandomness::new().unwrap()),
        };
        Office::new(Box::new(ledger), register, parts)
    }

    #[tokio::test]
    async fn work_that_panics_is_an_answer_and_the_next_finds_everything_in_order() {
        let folder = tempfile::tempdir().unwrap();
        let office = office(folder.path());
        let answer = office.on_ledger(|_| -> u64 { panic!("as a hostile message might") }).await;
        assert_eq!(answer.unwrap_err().into_response().status(), 500);
        let answer = office.on_register(|_| -> Result<u64, RegisterError> { panic!("as above") }).await;
        assert_eq!(answer.unwrap_err().into_response().status(), 500);
        assert_eq!(office.on_ledger(|ledger| ledger.store().newest_position()).await.unwrap().unwrap(), 0);
        assert_eq!(office.on_register(|register| register.ledger_position()).await.unwrap(), 0);
    }
}
