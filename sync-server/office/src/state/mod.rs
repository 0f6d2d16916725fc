//! The state of the running office server, shared by all routes and pages.
//!
//! The state holds the ledger, the database, the key, the index and the clock, the limits on requests, and
//! the answer to a request that cannot be served ([`request_error::RequestError`]). Routes are in `http`, pages in
//! `pages`.

pub mod backup_plan;
pub mod concurrency;
pub(crate) mod findings;
pub mod hosts;
mod known_devices;
mod limits;
mod refreshing;
pub mod request_error;
pub(crate) mod rounds;
pub(crate) mod upload_tokens;

use std::collections::VecDeque;
use std::sync::{Arc, Mutex, PoisonError};

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::OrganisationKey;
use farsiding_host::ProcessClock;
use tokio::sync::{Semaphore, broadcast, watch};

use crate::accounts::attempts::{Attempts, Lines};
use crate::clock_watch::ClockWatch;
use crate::data_folder::DataFolder;
use crate::database_error::DatabaseError;
use crate::index::{Asking, Index, IndexError};
use crate::ledger::Ledger;
use crate::office_database::OfficeDatabase;
use crate::photo_store::PhotoStore;
use backup_plan::Plan;
use concurrency::Concurrency;
use findings::{Health, ThirdParties};
use hosts::Hosts;
use known_devices::{KnownDevices, OPENED_AT_ONCE};
pub(crate) use request_error::RequestError;
use rounds::WaitingRound;
use upload_tokens::UploadTokens;

pub use limits::Limits;
pub use refreshing::{HEADER as REFRESHING_HEADER, Refreshing};

/// The state of the running office server.
pub struct Office {
    pub(crate) ledger: Arc<tokio::sync::Mutex<Box<dyn Ledger>>>,
    /// The sync rounds that wait for the ledger.
    pub(crate) rounds: Mutex<VecDeque<WaitingRound>>,
    pub(crate) database: Arc<Mutex<OfficeDatabase>>,
    pub(crate) key: OrganisationKey,
    pub(crate) epoch: u64,
    pub(crate) photos: PhotoStore,
    pub(crate) limits: Limits,
    pub(crate) clock: ProcessClock,
    /// What has been observed about the clock.
    pub(crate) clock_watch: ClockWatch,
    /// The plan for scheduled backups.
    pub(crate) backups: Option<Plan>,
    /// The host names of app and pages, if they are separate.
    pub(crate) hosts: Option<Hosts>,
    pub(crate) hints: broadcast::Sender<()>,
    pub(crate) stopping: watch::Receiver<bool>,
    pub(crate) upload_tokens: UploadTokens,
    pub(crate) at_once: Semaphore,
    pub(crate) streams: Arc<Semaphore>,
    pub(crate) concurrency: Concurrency,
    /// The devices whose requests are accepted, available without the ledger.
    pub(crate) devices: KnownDevices,
    pub(crate) opening: Semaphore,
    /// Whether browsers reach the server by TLS.
    pub(crate) secure: bool,
    pub(crate) attempts: Attempts,
    pub(crate) hashing: Lines,
    pub(crate) refreshing: Refreshing,
    pub(crate) packing: Semaphore,
    /// The places for pages being rendered. A page that takes too long keeps its place until it has finished.
    pub(crate) paging: Arc<Semaphore>,
    pub(crate) index: Arc<Index>,
    pub(crate) folder: DataFolder,
    /// The last known results of checking folder, keys and databases.
    pub(crate) health: Health,
    /// The last answers of the witnesses and of the time stamp authority.
    pub(crate) third_parties: ThirdParties,
    /// Wakes the mail task when a letter is queued.
    pub(crate) mail_waits: tokio::sync::Notify,
    /// Tells open pages that there is something new to show.
    pub(crate) news: broadcast::Sender<()>,
}

impl std::fmt::Debug for Office {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Office").field("key", &self.key).finish_non_exhaustive()
    }
}

/// The parts of an [`Office`].
#[derive(Debug)]
pub struct OfficeParts {
    /// The organisation's key.
    pub key: OrganisationKey,
    /// The ledger's name.
    pub epoch: u64,
    /// The store of photographs.
    pub photos: PhotoStore,
    /// The limits on requests.
    pub limits: Limits,
    /// The clock.
    pub clock: ProcessClock,
    /// Becomes true when the server is to stop.
    pub stopping: watch::Receiver<bool>,
    /// The index of stays.
    pub index: Index,
    /// The data folder.
    pub folder: DataFolder,
    /// Tells automatic refreshes of a page from requests by a person.
    pub refreshing: Refreshing,
    /// Whether browsers reach the server by TLS, directly or through a proxy. Cookies are then restricted to
    /// TLS.
    pub secure: bool,
    /// The observations of the clock at the start.
    pub clock_watch: ClockWatch,
    /// The plan for scheduled backups.
    pub backups: Option<Plan>,
    /// The host names of app and pages, if they are separate.
    pub hosts: Option<Hosts>,
}

impl Office {
    /// Returns the state of an office that is ready to answer requests.
    pub fn new(ledger: Box<dyn Ledger>, database: OfficeDatabase, parts: OfficeParts) -> Office {
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
            database: Arc::new(Mutex::new(database)),
            key,
            epoch,
            photos,
            clock,
            clock_watch,
            backups,
            hosts,
            hints: broadcast::channel(16).0,
            stopping,
            upload_tokens: UploadTokens::default(),
            at_once: Semaphore::new(limits.at_once),
            streams: Arc::new(Semaphore::new(limits.hint_streams)),
            concurrency: Concurrency::new(limits.concurrency.clone()),
            devices: KnownDevices::of(folder.ledger_place()),
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

    /// Runs `work` with the ledger on a blocking thread, one call at a time and in order. The work runs to
    /// its end even if nobody waits for the answer any more.
    pub(crate) async fn on_ledger<T: Send + 'static>(
        &self,
        work: impl FnOnce(&mut dyn Ledger) -> T + Send + 'static,
    ) -> Result<T, RequestError> {
        let mut ledger = Arc::clone(&self.ledger).lock_owned().await;
        tokio::task::spawn_blocking(move || work(ledger.as_mut()))
            .await
            .map_err(|_| RequestError::failed("the ledger's thread stopped"))
    }

    /// Runs a query of the index and the ledger on a blocking thread. The query does not wait for a sync.
    pub(crate) async fn on_index<T: Send + 'static>(
        &self,
        question: impl FnOnce(&Asking<'_>) -> Result<T, IndexError> + Send + 'static,
    ) -> Result<T, RequestError> {
        let index = Arc::clone(&self.index);
        let outcome = tokio::task::spawn_blocking(move || index.ask(question)).await;
        outcome
            .map_err(|_| RequestError::failed("the index's thread stopped"))?
            .map_err(|error| RequestError::failed(&error.to_string()))
    }

    /// Runs `work` with the office database on a blocking thread.
    pub(crate) async fn on_database<T: Send + 'static>(
        &self,
        work: impl FnOnce(&mut OfficeDatabase) -> Result<T, DatabaseError> + Send + 'static,
    ) -> Result<T, RequestError> {
        let database = Arc::clone(&self.database);
        let outcome = tokio::task::spawn_blocking(move || {
            work(&mut database.lock().unwrap_or_else(PoisonError::into_inner))
        });
        Ok(outcome.await.map_err(|_| RequestError::failed("the register's thread stopped"))??)
    }
}

#[cfg(test)]
pub(crate) mod tests {
    #![allow(clippy::unwrap_used, clippy::panic, reason = "a failed unwrap is a failed test")]
    use super::*;
    use crate::ledger::OfficeLedger;
    use axum::response::IntoResponse as _;

    /// Returns an office in a folder of its own.
    pub(crate) fn office(folder: &std::path::Path) -> Office {
        let key = OrganisationKey::from_secret([7; 32]);
        let ledger = OfficeLedger::open(&folder.join("ledger.db").into()).unwrap();
        let database = OfficeDatabase::open(&folder.join("server.db")).unwrap();
        let parts = OfficeParts {
            index: Index::open(&folder.join("index.db"), &folder.join("ledger.db").into(), "1", key.public())
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
        Office::new(Box::new(ledger), database, parts)
    }

    #[tokio::test]
    async fn work_that_panics_is_an_answer_and_the_next_finds_everything_in_order() {
        let folder = tempfile::tempdir().unwrap();
        let office = office(folder.path());
        let answer = office.on_ledger(|_| -> u64 { panic!("as a hostile message might") }).await;
        assert_eq!(answer.unwrap_err().into_response().status(), 500);
        let answer = office.on_database(|_| -> Result<u64, DatabaseError> { panic!("as above") }).await;
        assert_eq!(answer.unwrap_err().into_response().status(), 500);
        assert_eq!(office.on_ledger(|ledger| ledger.store().newest_position()).await.unwrap().unwrap(), 0);
        assert_eq!(office.on_database(|database| database.ledger_position()).await.unwrap(), 0);
    }
}
