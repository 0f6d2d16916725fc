//! The devices whose requests are read: known before the ledger is asked.

use std::path::PathBuf;
use std::sync::Arc;

use farsiding_core::sync::{CERTIFICATES_VERSION, Devices};

use super::problem::Problem;
use crate::index::ledger_reader::LedgerReader;

/// Requests whose bulk is inflated and checked at once: each may take some tens of megabytes.
pub const OPENED_AT_ONCE: usize = 2;

/// The devices a server knows, as the ledger had them when it was last looked at; looked at again when the
/// version of its list differs. Reading it waits for no lock but its own.
pub struct KnownDevices {
    ledger: PathBuf,
    known: tokio::sync::Mutex<Option<(LedgerReader, Arc<Devices>)>>,
}

impl std::fmt::Debug for KnownDevices {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("KnownDevices").finish_non_exhaustive()
    }
}

impl KnownDevices {
    /// Of this ledger.
    pub fn of(ledger: PathBuf) -> KnownDevices {
        KnownDevices { ledger, known: tokio::sync::Mutex::default() }
    }

    /// Returns the devices as they are now.
    ///
    /// # Errors
    /// [`Problem`] when the ledger cannot be read.
    pub async fn now(&self) -> Result<Arc<Devices>, Problem> {
        let mut known = self.known.lock().await;
        // One row by its key, out of a page that is in memory: no work for another thread.
        let failed = |error: crate::index::IndexError| Problem::failed(&error.to_string());
        let (reader, before) = match known.take() {
            Some((reader, devices)) => (reader, Some(devices)),
            None => (LedgerReader::open(&self.ledger).map_err(failed)?, None),
        };
        let version = reader.value(CERTIFICATES_VERSION).map_err(failed)?;
        let version = version.and_then(|v| v.try_into().ok()).map_or(0, u64::from_be_bytes);
        let devices = match before.filter(|devices| devices.version == version) {
            Some(devices) => devices,
            None => Arc::new(Devices::new(version, reader.certificates().map_err(failed)?)),
        };
        *known = Some((reader, Arc::clone(&devices)));
        Ok(devices)
    }
}
