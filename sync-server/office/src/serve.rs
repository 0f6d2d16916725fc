//! Runs the office server: opens the data folder, listens, and shuts down without cutting off running
//! requests.

use std::net::{SocketAddr, ToSocketAddrs as _};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::{Duration, Instant};

use axum_server::Handle;
use axum_server::tls_rustls::{RustlsAcceptor, RustlsConfig};
use farsiding_core::evidence::ledger_log;
use hyper_util::rt::TokioTimer;
use tokio::sync::watch;

use super::OfficeError;
use super::accounts::factor_key;
use super::audit_anchor;
use super::backup_schedule;
use super::checkpoints;
use super::clock_watch::{self, ClockWatch};
use super::data_folder::{DataFolder, Held, organisation_id};
use super::defects::rounds;
use super::health;
use super::hidden;
use super::http::photo_routes;
use super::http::router;
use super::index::Index;
use super::index::ledger_reader::LedgerReader;
use super::keys;
use super::late;
use super::ledger::{Ledger, LedgerPlace, OfficeLedger, epoch_of};
use super::ledger_move;
use super::office_database::OfficeDatabase;
use super::photo_store::PhotoStore;
use super::photo_uploads;
use super::retention::Retention;
use super::state::concurrency::CountedConnections;
use super::state::hosts::Hosts;
use super::state::{Limits, Office, OfficeParts, Refreshing};
use super::third_parties::duty::{self, Duty};
use crate::enrolment::narrowing;
use farsiding_host::private_file;
use farsiding_host::{ProcessClock, SystemRandomness};

/// How long running requests may take to finish after the server is told to stop.
const GRACE: Duration = Duration::from_secs(30);
/// The longest time for which the index delays new entries.
const LONGEST_PAUSE: Duration = Duration::from_secs(2);

/// The options of the server.
#[derive(Debug, Clone)]
pub struct ServeOptions {
    /// The office's data folder.
    pub data: PathBuf,
    /// The address of the database in which the ledger is kept. Without it the ledger stays where it is: in the
    /// database that the folder names, or in the folder.
    pub database: Option<String>,
    /// Address and port to listen on.
    pub listen: String,
    /// The files of the certificate chain and of the private key, as PEM.
    pub tls: Option<(PathBuf, PathBuf)>,
    /// The address at which devices reach this server, if it differs from `listen`.
    pub url: Option<String>,
    /// The folder with the built phone app, which is served under `/app/`.
    pub app: Option<PathBuf>,
    /// The limits for devices and addresses.
    pub limits: Limits,
    /// The reason given for a clock that is more than a day behind the ledger.
    pub clock_was_wrong: Option<String>,
    /// The plan for scheduled backups.
    pub backups: Option<crate::state::backup_plan::Plan>,
    /// When witnesses and a time stamp authority are asked.
    pub duty: Duty,
    /// The host names of the app and of the office pages, if they are separate.
    pub hosts: Option<Hosts>,
}

/// Opens everything the server needs. The order makes sure that a failure leaves nothing half created.
///
/// # Errors
/// Returns an [`OfficeError`] when a part cannot be opened.
fn open_office(
    options: &ServeOptions,
    clock: ProcessClock,
    stopping: watch::Receiver<bool>,
) -> Result<(Office, Held), OfficeError> {
    let mut randomness = SystemRandomness::new().map_err(|e| OfficeError::Surroundings(e.to_string()))?;
    let folder = DataFolder::open_or_make(&options.data)?;
    let held = folder.hold()?;
    if let Err(error) = folder.narrow() {
        tracing::warn!(%error, "a file in the data folder stays readable to others");
    }
    let key = folder.organisation_key(&mut randomness)?;
    keys::may_sign(&key, clock.time()).map_err(|why| folder.refuse(&why))?;
    if let Some(until) = keys::ends_soon(&key, clock.time()) {
        tracing::warn!(
            until = until.rfc3339(),
            "the key that signs ends soon; name the next one with the root"
        );
    }
    let folder = match &options.database {
        Some(address) => folder.keep_ledger_in(address, organisation_id(&key))?,
        None => folder,
    };
    if let Err(error) = ledger_move::finish(&folder, clock.time()) {
        tracing::warn!(%error, "a place that the ledger was moved away from is not marked as left yet");
    }
    let mut ledger = OfficeLedger::open_for_server(&folder.ledger_place())?;
    clock_watch::check_at_start(ledger.store_mut(), &key, clock.time(), options.clock_was_wrong.as_deref())?;
    let mut database = OfficeDatabase::open(&folder.database_file())?;
    let sealed = factor_key::seal_what_is_plain(database.connection(), &mut randomness)?;
    if sealed > 0 {
        tracing::info!(sealed, "secrets of second factors lie under a key of their own now");
    }
    audit_anchor::anchor(ledger.store_mut(), &key, database.connection(), clock.time())?;
    let reached = database.ledger_position()?;
    let epoch = epoch_of(ledger.store_mut(), reached, &mut randomness)?;
    if ledger.store().newest_position()? < reached {
        tracing::warn!(
            reached,
            "the ledger ends before where it was last written: it was restored from a backup"
        );
        let restored = ledger_log::begin_anew(ledger.store_mut(), &key, epoch, u64::MAX, clock.time())?;
        tracing::warn!(
            before = restored.before,
            size = restored.size,
            origin = restored.origin,
            "the ledger's log goes on under another name, and devices are told that a backup was put back"
        );
        database.forget_ledger_position()?;
    }
    let brought_in = ledger_log::bring_in(ledger.store_mut(), &key, clock.time())?;
    if brought_in > 0 {
        tracing::info!(entries = brought_in, "entries of before were brought into the ledger's log");
    }
    ledger_log::note_start(ledger.store_mut())?;
    let now = farsiding_core::sync::ledger_time(ledger.store(), clock.time())?;
    keys::changing::put_in_order(ledger.store_mut(), &database, &key, (clock.time(), now))?;
    let stores = (ledger.store_mut(), folder.ledger_place());
    narrowing::put_into_force(&database, (stores.0, &stores.1), &key, clock.time())?;
    let office = (&mut database, ledger.store_mut());
    let admitted = late::admit_what_was_before(&folder, office, &key, &clock)
        .map_err(|error| folder.refuse(&error.to_string()))?;
    if admitted > 0 {
        tracing::info!(
            entries = admitted,
            "what operators said of sites and people before rights were kept counts"
        );
    }
    let photos = PhotoStore::local(&folder.photo_folder(), &folder.upload_folder())
        .map_err(|e| folder.refuse(&e.to_string()))?;
    let under_way = photo_uploads::all(database.connection())?;
    photos.adopt(&under_way).map_err(|e| folder.refuse(&e.to_string()))?;
    let index_failed = |e: super::index::IndexError| folder.refuse(&e.to_string());
    photo_uploads::name_from(
        &LedgerReader::open(&folder.ledger_place()).map_err(index_failed)?,
        &mut database,
    )?;
    let said = key.keys().count();
    let said = if said == 0 { String::new() } else { format!(", {said} statements about its keys") };
    let name = format!("{epoch:016x} of {}{said}", key.public());
    let index = Index::open(&folder.index_file(), &folder.ledger_place(), &name, key.public());
    let index = index.map_err(index_failed)?;
    index.leave_out(hidden::list(database.connection())?.into_iter().map(|hidden| hidden.visit));
    let secure = options.tls.is_some() || options.url.as_ref().is_some_and(|url| url.starts_with("https://"));
    let clock_watch = ClockWatch::default();
    clock_watch.begin(ledger.store(), &key, clock.time())?;
    let parts = OfficeParts {
        clock_watch,
        key,
        epoch,
        photos,
        limits: options.limits.clone(),
        clock,
        stopping,
        secure,
        refreshing: Refreshing::new(&mut randomness),
        index,
        folder,
        backups: options.backups.clone(),
        hosts: options.hosts.clone(),
    };
    Ok((Office::new(Box::new(ledger), database, parts), held))
}

fn read_address(listen: &str, with_tls: bool) -> Result<SocketAddr, OfficeError> {
    let refuse = |why: &str| Err(OfficeError::Address(format!("cannot listen on \"{listen}\": {why}")));
    let address = match listen.to_socket_addrs().map(|mut all| all.next()) {
        Ok(Some(address)) => address,
        Ok(None) => return refuse("it leads nowhere"),
        Err(error) => return refuse(&error.to_string()),
    };
    if !with_tls && !address.ip().is_loopback() {
        return refuse(
            "without a certificate only loopback is served (127.0.0.1 or [::1]); \
             give --cert and --key, or put a TLS proxy on this machine in front",
        );
    }
    Ok(address)
}

async fn read_tls(cert: &Path, key: &Path) -> Result<RustlsConfig, OfficeError> {
    RustlsConfig::from_pem_file(cert, key).await.map_err(|e| OfficeError::Tls(e.to_string()))
}

/// Runs the server until it is told to stop. `listening` is called once with the address of the server.
///
/// # Errors
/// Returns an [`OfficeError`] when the server cannot start or stops by itself.
pub async fn serve(
    options: ServeOptions,
    clock: ProcessClock,
    listening: impl FnOnce(&str) + Send,
) -> Result<(), OfficeError> {
    let address = read_address(&options.listen, options.tls.is_some())?;
    let tls = match &options.tls {
        Some((cert, key)) => Some(read_tls(cert, key).await?),
        None => None,
    };
    let (stop, stopping) = watch::channel(false);
    let mut told_to_stop = stopping.clone();
    let stopped = stop.clone();
    private_file::keep_new_files_private();
    let (office, _held) = open_office(&options, clock, stopping)?;
    let listener = std::net::TcpListener::bind(address)
        .and_then(|listener| listener.set_nonblocking(true).map(|()| listener))
        .map_err(|e| OfficeError::Address(format!("cannot listen on {address}: {e}")))?;
    let bound = listener.local_addr().map_err(|e| OfficeError::Address(e.to_string()))?;
    let scheme = if tls.is_some() { "https" } else { "http" };
    let url = options.url.clone().unwrap_or_else(|| format!("{scheme}://{bound}"));
    office.database.lock().unwrap_or_else(std::sync::PoisonError::into_inner).set_server_url(&url)?;
    let ledger = Arc::clone(&office.ledger);
    let databases = match office.folder.ledger_place() {
        LedgerPlace::File(file) => vec![file, office.folder.database_file()],
        LedgerPlace::Database { .. } => vec![office.folder.database_file()],
    };
    let office = Arc::new(office);
    let watching = tokio::spawn(health::watch(Arc::clone(&office)));
    let following = tokio::spawn(follow_the_ledger(Arc::clone(&office)));
    let publishing = tokio::spawn(checkpoints::publish_at_intervals(Arc::clone(&office)));
    let mailing = tokio::spawn(send_mail(Arc::clone(&office)));
    let letting_go = tokio::spawn(keep_no_longer(Arc::clone(&office)));
    let backing_up =
        options.backups.clone().map(|plan| tokio::spawn(backup_schedule::run(Arc::clone(&office), plan)));
    let holding = tokio::spawn(hold_the_ledger(Arc::clone(&office), stop.clone()));
    let forgetting = tokio::spawn(forget_uploads(Arc::clone(&office)));
    let asking = tokio::spawn(duty::watch(Arc::clone(&office), options.duty));
    let routes = router(office, options.app.as_deref(), options.hosts.as_ref());
    let routes = routes.into_make_service_with_connect_info::<SocketAddr>();
    let handle = Handle::new();
    let signals = tokio::spawn(stop_at(signal_to_stop(), handle.clone(), stop));
    let ending = handle.clone();
    let _ending = tokio::spawn(async move {
        let _ = told_to_stop.wait_for(|stop| *stop).await;
        ending.graceful_shutdown(Some(GRACE));
    });
    listening(&url);
    tracing::info!(%bound, tls = tls.is_some(), "listening");
    let failed = |e: std::io::Error| OfficeError::Stopped(e.to_string());
    let counted = CountedConnections::new(options.limits.concurrency.clone());
    let outcome = match tls {
        Some(config) => {
            let mut server = axum_server::from_tcp(listener)
                .map_err(failed)?
                .acceptor(
                    RustlsAcceptor::new(config).handshake_timeout(Duration::from_secs(10)).acceptor(counted),
                )
                .handle(handle);
            limit_connections(server.http_builder());
            server.serve(routes).await
        }
        None => {
            let mut server =
                axum_server::from_tcp(listener).map_err(failed)?.acceptor(counted).handle(handle);
            limit_connections(server.http_builder());
            server.serve(routes).await
        }
    };
    signals.abort();
    let _ = stopped.send(true); // needed if the server ended by itself
    watching.abort();
    holding.abort();
    let _ = publishing.await; // a checkpoint under way is written
    let _ = mailing.await; // an interrupted letter is sent again under the same id
    let _ = forgetting.await;
    let _ = letting_go.await;
    if let Some(backing_up) = backing_up {
        let _ = backing_up.await; // a running backup finishes, or stops during its check
    }
    let _ = asking.await; // an unanswered request is repeated after the next start
    let _ = following.await; // the task ends after its current batch
    // A sync round may still be writing although its client has disconnected. Taking the lock waits for that
    // round.
    drop(ledger.lock().await);
    for file in &databases {
        settle(file);
    }
    tracing::info!("stopped");
    outcome.map_err(failed)
}

/// Moves the content of a database's write-ahead log into the database file, so that a copy of that file
/// alone is complete.
fn settle(file: &Path) {
    let settled = rusqlite::Connection::open(file).and_then(|connection| {
        connection.busy_timeout(Duration::from_secs(5))?;
        connection.query_row("PRAGMA wal_checkpoint(TRUNCATE)", [], |_| Ok(()))
    });
    if let Err(error) = settled {
        tracing::warn!(%error, file = %file.display(), "a log file stays beside the database, which needs it");
    }
}

/// Keeps the index up to date with the ledger: at the start, after every sync that brought entries, and at
/// intervals, because other processes (`farsiding revoke`) also write. Updating takes at most a fifth of the
/// time, because when many devices sync at once it would be wasteful to fold a stay after every sync.
async fn follow_the_ledger(office: Arc<Office>) {
    let (mut hints, mut stopping) = (office.hints.subscribe(), office.stopping.clone());
    loop {
        let (index, now, stop) = (Arc::clone(&office.index), office.now(), stopping.clone());
        let began = Instant::now();
        let following = tokio::task::spawn_blocking(move || index.follow(now, &|| !*stop.borrow()));
        match following.await {
            Ok(Ok(true)) => {
                let _ = office.news.send(()); // an error only means that there are no listeners
            }
            Ok(Ok(false)) => {}
            Ok(Err(error)) => tracing::error!(%error, "the index could not follow the ledger"),
            Err(_) => tracing::error!("the index's thread stopped"),
        }
        let pause = (began.elapsed() * 4).min(LONGEST_PAUSE);
        tokio::select! {
            () = tokio::time::sleep(pause) => {}
            _ = stopping.wait_for(|stop| *stop) => return,
        }
        tokio::select! {
            _ = hints.recv() => {}
            () = tokio::time::sleep(Duration::from_secs(30)) => {}
            _ = stopping.wait_for(|stop| *stop) => return,
        }
    }
}

/// Sets the limits of a connection. Request heads must arrive quickly, however slow the bodies are.
fn limit_connections(builder: &mut hyper_util::server::conn::auto::Builder<hyper_util::rt::TokioExecutor>) {
    builder
        .http1()
        .timer(TokioTimer::new())
        .header_read_timeout(Duration::from_secs(15))
        .max_buf_size(64 * 1024);
    builder
        .http2()
        .timer(TokioTimer::new())
        .keep_alive_interval(Duration::from_secs(30))
        .keep_alive_timeout(Duration::from_secs(20))
        .max_concurrent_streams(64)
        // This is how much a client may send ahead of the reader. The default would be a megabyte per stream.
        .initial_stream_window_size(128 * 1024)
        .initial_connection_window_size(256 * 1024)
        .max_header_list_size(16 * 1024);
}

async fn stop_at(signal: impl Future<Output = ()>, handle: Handle<SocketAddr>, stop: watch::Sender<bool>) {
    signal.await;
    tracing::info!("stopping: requests under way are finished first");
    let _ = stop.send(true); // an error only means that there are no streams
    handle.graceful_shutdown(Some(GRACE));
}

/// Returns the wait for a signal that stops the server. Signals count from this call on: one that comes before the server
/// has said that it listens ends it in order as well.
#[cfg(unix)]
fn signal_to_stop() -> impl Future<Output = ()> {
    use tokio::signal::unix::{SignalKind, signal};
    let both = (signal(SignalKind::terminate()), signal(SignalKind::interrupt()));
    async move {
        match both {
            (Ok(mut terminate), Ok(mut interrupt)) => {
                tokio::select! { _ = terminate.recv() => {}, _ = interrupt.recv() => {} }
            }
            _ => {
                let _ = tokio::signal::ctrl_c().await;
            }
        }
    }
}

#[cfg(not(unix))]
async fn signal_to_stop() {
    let _ = tokio::signal::ctrl_c().await;
}

/// Stops the server once another one has taken its ledger over: what it would answer from then on is refused by the
/// ledger.
async fn hold_the_ledger(office: Arc<Office>, stop: watch::Sender<bool>) {
    if !office.folder.has_database() {
        return;
    }
    loop {
        tokio::time::sleep(Duration::from_secs(5)).await;
        if let Ok(Ok(false)) = office.on_ledger(|ledger| ledger.is_held()).await {
            tracing::error!("another server has taken over the ledger; this one stops");
            let _ = stop.send(true); // an error only means that there are no listeners
            return;
        }
    }
}

/// Looks for stopped uploads at the start and then every hour.
async fn forget_uploads(office: Arc<Office>) {
    let mut stopping = office.stopping.clone();
    loop {
        match photo_routes::forget_old_uploads(&office).await {
            Ok(0) => {}
            Ok(forgotten) => tracing::info!(forgotten, "uploads that did not go on were forgotten"),
            Err(problem) => tracing::error!(why = problem.message(), "old uploads could not be forgotten"),
        }
        tokio::select! {
            () = tokio::time::sleep(Duration::from_secs(60 * 60)) => {}
            _ = stopping.wait_for(|stop| *stop) => return,
        }
    }
}

/// Applies retention every night. The first time is a quarter of an hour after the start, which leaves time
/// to change a setting.
async fn keep_no_longer(office: Arc<Office>) {
    let mut stopping = office.stopping.clone();
    let mut wait = Duration::from_secs(15 * 60);
    loop {
        tokio::select! {
            () = tokio::time::sleep(wait) => {}
            _ = stopping.wait_for(|stop| *stop) => return,
        }
        wait = Duration::from_secs(24 * 60 * 60);
        let mut ledger = Arc::clone(&office.ledger).lock_owned().await;
        let here = Arc::clone(&office);
        let done = tokio::task::spawn_blocking(move || {
            let mut database = here.database.lock().unwrap_or_else(std::sync::PoisonError::into_inner);
            let kept = Retention::read(&database)?;
            let went = kept.carry_out(ledger.store_mut(), &here.folder, &mut database, here.now())?;
            audit_anchor::anchor(ledger.store_mut(), &here.key, database.connection(), here.now())?;
            Ok::<_, OfficeError>(went)
        });
        match done.await {
            Ok(Ok(went)) if went.is_empty() => {}
            Ok(Ok(went)) => tracing::info!(what = went.words(), "what is kept no longer went"),
            Ok(Err(error)) => tracing::error!(%error, "what is kept no longer could not go"),
            Err(_) => tracing::error!("the thread that lets go what is kept no longer stopped"),
        }
    }
}

/// Sends due letters: whenever a letter is queued, and every minute for letters that are tried again.
async fn send_mail(office: Arc<Office>) {
    let mut stopping = office.stopping.clone();
    loop {
        let round = rounds::round(office.folder.path(), &office.database, &office.photos, office.now());
        let round = tokio::select! {
            round = round => round,
            _ = stopping.wait_for(|stop| *stop) => return,
        };
        match round {
            Ok(done) if done != rounds::Round::default() => {
                tracing::info!(sent = done.sent, put_off = done.put_off, failed = done.failed, "mail");
                let _ = office.news.send(()); // an error only means that there are no listeners
            }
            Ok(_) => {}
            Err(error) => tracing::error!(%error, "the mail's table could not be read"),
        }
        tokio::select! {
            () = office.mail_waits.notified() => {}
            () = tokio::time::sleep(Duration::from_secs(60)) => {}
            _ = stopping.wait_for(|stop| *stop) => return,
        }
    }
}
