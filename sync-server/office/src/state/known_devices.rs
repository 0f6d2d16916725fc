//! The list of devices whose requests are accepted, which is available without reading the ledger.

use std::sync::Arc;

use farsiding_core::sync::{CERTIFICATES_VERSION, Devices};

use super::request_error::RequestError;
use crate::index::IndexError;
use crate::index::ledger_reader::LedgerReader;
use crate::ledger::LedgerPlace;

/// The number of requests whose bulk is decompressed and checked at the same time. Each may need tens of
/// megabytes of memory.
pub const OPENED_AT_ONCE: usize = 2;

/// What was read last.
type Known = Option<(LedgerReader, Arc<Devices>)>;

/// The devices in the ledger, as of the last read. The list is read again when its version has changed.
/// Reading the list waits for no other lock.
pub struct KnownDevices {
    ledger: LedgerPlace,
    known: Arc<tokio::sync::Mutex<Known>>,
}

impl std::fmt::Debug for KnownDevices {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("KnownDevices").finish_non_exhaustive()
    }
}

impl KnownDevices {
    /// Returns the list of the devices in `ledger`.
    pub fn of(ledger: LedgerPlace) -> KnownDevices {
        KnownDevices { ledger, known: Arc::default() }
    }

    /// Returns the current devices.
    ///
    /// # Errors
    /// Returns a [`RequestError`] when the ledger cannot be read.
    pub async fn now(&self) -> Result<Arc<Devices>, RequestError> {
        let mut known = Arc::clone(&self.known).lock_owned().await;
        let read = match &self.ledger {
            // This reads one row by its key from a page that is in memory, which is too little work for another
            // thread.
            LedgerPlace::File(_) => read(&self.ledger, &mut known),
            // A database answers when it can, and may be away.
            LedgerPlace::Database { .. } => {
                let ledger = self.ledger.clone();
                tokio::task::spawn_blocking(move || read(&ledger, &mut known))
                    .await
                    .map_err(|_| RequestError::failed("the thread that reads the devices stopped"))?
            }
        };
        read.map_err(|error| match error {
            // A database that cannot be reached just now: devices wait and come again.
            IndexError::Ledger(error) => RequestError::from(error),
            error => RequestError::failed(&error.to_string()),
        })
    }
}

/// Reads the version of the list, and the list itself if it is another than the one known.
fn read(ledger: &LedgerPlace, known: &mut Known) -> Result<Arc<Devices>, IndexError> {
    let (reader, before) = match known.take() {
        Some((reader, devices)) => (reader, Some(devices)),
        None => (LedgerReader::open(ledger)?, None),
    };
    let version = reader.value(CERTIFICATES_VERSION)?;
    let version = version.and_then(|v| v.try_into().ok()).map_or(0, u64::from_be_bytes);
    let earlier = before.as_ref().map(Arc::clone);
    let devices = match before.filter(|devices| devices.version == version) {
        Some(devices) => devices,
        None => {
            let certificates = reader.certificates()?;
            Arc::new(match earlier {
                Some(earlier) => earlier.renewed(version, certificates),
                None => Devices::new(version, certificates),
            })
        }
    };
    *known = Some((reader, Arc::clone(&devices)));
    Ok(devices)
}
