//! Opens an office's data folder for a command: the arguments that name the folder, the clock, the database
//! and the ledger.

use std::path::{Path, PathBuf};

use clap::Args;
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::OrganisationKey;
use farsiding_host::{ProcessClock, SystemRandomness};
use farsiding_office::OfficeError;
use farsiding_office::data_folder::DataFolder;
use farsiding_office::ledger::SqliteLedger;
use farsiding_office::office_database::OfficeDatabase;

/// The arguments that name the office's data folder and choose the form of the answer.
#[derive(Debug, Args)]
pub(crate) struct OfficeArguments {
    /// The office's data folder.
    #[arg(long, value_name = "DIR")]
    pub(crate) data: PathBuf,
    /// Print the answer as JSON.
    #[arg(long)]
    pub(crate) json: bool,
}

/// Returns the clock of this process.
pub(crate) fn clock() -> Result<ProcessClock, OfficeError> {
    ProcessClock::from_environment().map_err(|e| OfficeError::Surroundings(e.to_string()))
}

/// Returns the operating system's random number generator.
pub(crate) fn randomness() -> Result<SystemRandomness, OfficeError> {
    SystemRandomness::new().map_err(|e| OfficeError::Surroundings(e.to_string()))
}

/// Opens the office database of a data folder.
pub(crate) fn open_database(folder: &DataFolder) -> Result<OfficeDatabase, OfficeError> {
    Ok(OfficeDatabase::open(&folder.database_file())?)
}

/// An office opened by a command, outside the server.
pub(crate) struct OpenOffice {
    pub(crate) folder: DataFolder,
    pub(crate) ledger: SqliteLedger,
    pub(crate) key: OrganisationKey,
    pub(crate) now: UtcMillis,
    pub(crate) randomness: SystemRandomness,
}

impl OpenOffice {
    /// Opens the office in a data folder. The server of that office may be running at the same time.
    pub(crate) fn open(data: &Path) -> Result<OpenOffice, OfficeError> {
        let mut randomness = randomness()?;
        let folder = DataFolder::open(data)?;
        let key = folder.organisation_key(&mut randomness)?;
        let ledger = SqliteLedger::open(&folder.ledger_file())?;
        Ok(OpenOffice { folder, ledger, key, now: clock()?.time(), randomness })
    }
}
