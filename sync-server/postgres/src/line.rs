//! One connection to the database: opened again when it was lost, statements prepared once, and what an error
//! means.
//!
//! The store is called from threads that may wait, some of which belong to an asynchronous runtime. The driver
//! therefore runs on a runtime of its own, one thread for all connections of the process, and callers wait for
//! its answers by parking their thread. The synchronous wrapper of the driver was not taken: it starts a runtime in
//! the calling thread, which panics inside another one, also when a connection is dropped there.

use std::collections::HashMap;
use std::future::Future;
use std::pin::pin;
use std::sync::{Arc, OnceLock};
use std::task::{Context, Poll, Wake, Waker};
use std::thread::Thread;
use std::time::Duration;

use farsiding_core::store::StoreError;
use tokio::runtime::Runtime;
use tokio_postgres::error::SqlState;
use tokio_postgres::types::ToSql;
use tokio_postgres::{Client, NoTls, Row, Statement};
use tokio_postgres_rustls::MakeRustlsConnect;

use crate::address::Address;

/// What a statement is given.
pub(crate) type Given<'a> = &'a [&'a (dyn ToSql + Sync)];

/// How long a connection may take to be made.
const PATIENCE: Duration = Duration::from_secs(10);

/// What every connection is set to. A setting weaker than waiting for the disk is raised, and stronger ones stay. A
/// transaction whose server stalls ends by itself, so that the organisation's row does not stay locked.
const SETTINGS: &str = "
    SET default_transaction_isolation = 'read committed';
    SET lock_timeout = '10s';
    SET idle_in_transaction_session_timeout = '60s';
    SET client_min_messages = 'warning';
    SET bytea_output = 'hex';
    SELECT set_config('synchronous_commit', 'on', false) WHERE current_setting('synchronous_commit') = 'off';";

/// Why a statement has no result.
#[derive(Debug)]
pub(crate) enum Fault {
    /// The connection broke; whether the statement was carried out is unknown.
    Lost(String),
    /// The database asks for the transaction to be repeated (SQLSTATE 40001 or 40P01).
    Again,
    /// Nothing was done.
    Store(StoreError),
}

impl From<Fault> for StoreError {
    fn from(fault: Fault) -> StoreError {
        match fault {
            Fault::Lost(why) => {
                StoreError::Database(format!("the connection to the database was lost: {why}"))
            }
            Fault::Again => StoreError::Busy,
            Fault::Store(error) => error,
        }
    }
}

impl From<StoreError> for Fault {
    fn from(error: StoreError) -> Fault {
        Fault::Store(error)
    }
}

impl From<tokio_postgres::Error> for Fault {
    fn from(error: tokio_postgres::Error) -> Fault {
        let Some(told) = error.as_db_error() else {
            let why =
                std::error::Error::source(&error).map_or_else(|| error.to_string(), ToString::to_string);
            let not_a_line =
                error.to_string().contains("deserializing") || error.to_string().contains("serializing");
            return if not_a_line { Fault::Store(StoreError::Database(why)) } else { Fault::Lost(why) };
        };
        let code = told.code();
        let text = format!("{} ({})", told.message(), code.code());
        match code.code().get(..2) {
            _ if [SqlState::T_R_SERIALIZATION_FAILURE, SqlState::T_R_DEADLOCK_DETECTED].contains(code) => {
                Fault::Again
            }
            _ if *code == SqlState::DISK_FULL => Fault::Store(StoreError::Full),
            _ if *code == SqlState::LOCK_NOT_AVAILABLE => Fault::Store(StoreError::Busy),
            // Shut down, crashed, or not started yet; also a transaction that stood idle for too long.
            Some("57") | Some("08") => Fault::Lost(text),
            _ if code.code() == "25P03" => Fault::Lost(text),
            // Who may not connect, and a database that is not there.
            Some("28" | "3D" | "42") if told.severity() == "FATAL" => Fault::Store(StoreError::NoPlace(text)),
            _ => Fault::Store(StoreError::Database(text)),
        }
    }
}

/// Tells a server that does not encrypt, or whose certificate is not vouched for, from one that cannot be reached.
fn encrypting(error: tokio_postgres::Error) -> Fault {
    let source = std::error::Error::source(&error).map(ToString::to_string);
    match source {
        Some(why) if error.to_string().contains("TLS") => {
            let why =
                format!("the connection to the database cannot be encrypted as its address asks: {why}");
            Fault::Store(StoreError::NoPlace(why))
        }
        _ => error.into(),
    }
}

struct Parked(Thread);

impl Wake for Parked {
    fn wake(self: Arc<Self>) {
        self.0.unpark();
    }
}

/// Waits for a result by parking the thread.
fn wait<F: Future>(future: F) -> F::Output {
    let waker = Waker::from(Arc::new(Parked(std::thread::current())));
    let mut future = pin!(future);
    loop {
        match future.as_mut().poll(&mut Context::from_waker(&waker)) {
            Poll::Ready(done) => return done,
            Poll::Pending => std::thread::park(),
        }
    }
}

/// The runtime on which all connections of the process are driven.
fn runtime() -> Result<&'static Runtime, StoreError> {
    static RUNTIME: OnceLock<Runtime> = OnceLock::new();
    if let Some(runtime) = RUNTIME.get() {
        return Ok(runtime);
    }
    let made = tokio::runtime::Builder::new_multi_thread()
        .worker_threads(1)
        .thread_name("postgres")
        .enable_all()
        .build()
        .map_err(|e| StoreError::Database(e.to_string()))?;
    Ok(RUNTIME.get_or_init(|| made))
}

/// A connection, or what is needed to make one.
#[derive(Debug)]
pub(crate) struct Line {
    address: Address,
    client: Option<Client>,
    statements: HashMap<String, Statement>,
}

impl Line {
    /// Returns a line that connects when it is used first.
    pub(crate) fn new(address: Address) -> Line {
        Line { address, client: None, statements: HashMap::new() }
    }

    /// Forgets the connection. The database ends what was under way on it.
    pub(crate) fn hang_up(&mut self) {
        self.client = None;
        self.statements.clear();
    }

    /// Returns true if there is a connection that is not known to be broken.
    pub(crate) fn is_up(&self) -> bool {
        self.client.as_ref().is_some_and(|client| !client.is_closed())
    }

    /// Connects if there is no connection. Returns true if a new one was made.
    ///
    /// # Errors
    /// [`Fault::Lost`] when the database cannot be reached just now.
    pub(crate) fn connect(&mut self) -> Result<bool, Fault> {
        if self.is_up() {
            return Ok(false);
        }
        self.hang_up();
        let (runtime, Address { config, tls }) = (runtime()?, self.address.clone());
        let connecting = runtime.spawn(async move {
            let connecting = async {
                // The connection's end is noticed by the client.
                match tls {
                    None => {
                        let (client, connection) = config.connect(NoTls).await?;
                        tokio::spawn(connection);
                        Ok(client)
                    }
                    Some(tls) => {
                        let tls = MakeRustlsConnect::new(tls.as_ref().clone());
                        let (client, connection) = config.connect(tls).await.map_err(encrypting)?;
                        tokio::spawn(connection);
                        Ok::<Client, Fault>(client)
                    }
                }
            };
            let made = tokio::time::timeout(PATIENCE, connecting).await;
            let client = made.map_err(|_| Fault::Lost("it did not answer in time".to_owned()))??;
            client.batch_execute(SETTINGS).await?;
            Ok::<Client, Fault>(client)
        });
        let client = wait(connecting).map_err(|e| Fault::Lost(e.to_string()))??;
        self.client = Some(client);
        Ok(true)
    }

    fn client(&self) -> Result<&Client, Fault> {
        self.client.as_ref().ok_or_else(|| Fault::Lost("there is none".to_owned()))
    }

    fn prepared(&mut self, sql: &str) -> Result<Statement, Fault> {
        if let Some(known) = self.statements.get(sql) {
            return Ok(known.clone());
        }
        let statement = wait(self.client()?.prepare(sql))?;
        self.statements.insert(sql.to_owned(), statement.clone());
        Ok(statement)
    }

    /// Runs one statement on the present connection and returns its rows.
    pub(crate) fn rows(&mut self, sql: &str, given: Given<'_>) -> Result<Vec<Row>, Fault> {
        let statement = self.prepared(sql)?;
        Ok(wait(self.client()?.query(&statement, given))?)
    }

    /// Runs one statement on the present connection and returns the number of rows it wrote.
    pub(crate) fn run(&mut self, sql: &str, given: Given<'_>) -> Result<u64, Fault> {
        let statement = self.prepared(sql)?;
        Ok(wait(self.client()?.execute(&statement, given))?)
    }

    /// Runs statements that take nothing and return nothing, such as BEGIN.
    pub(crate) fn batch(&mut self, sql: &str) -> Result<(), Fault> {
        Ok(wait(self.client()?.batch_execute(sql))?)
    }
}
