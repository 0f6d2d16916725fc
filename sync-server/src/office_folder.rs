//! Opens an office's data folder for a command: the arguments that name the folder, the clock, the database
//! and the ledger.

use std::path::{Path, PathBuf};

use clap::Args;
use farsiding_core::book::Draft;
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::OrganisationKey;
use farsiding_core::ids::Subject;
use farsiding_host::{ProcessClock, SystemRandomness};
use farsiding_office::accounts::audit;
use farsiding_office::audit_chain::Looked;
use farsiding_office::data_folder::DataFolder;
use farsiding_office::ledger::{Ledger as _, OfficeLedger};
use farsiding_office::office_database::OfficeDatabase;
use farsiding_office::{OfficeError, office_signer};

use crate::outcome::CommandError;

/// Who acts, in entries and in the audit: the program does not know who types at the server.
pub(crate) const BY: &str = "command line";

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
    pub(crate) ledger: OfficeLedger,
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
        let ledger = OfficeLedger::open(&folder.ledger_place())?;
        Ok(OpenOffice { folder, ledger, key, now: clock()?.time(), randomness })
    }

    /// Signs drafts into a document with the office's own key, either all of them or none, and writes into the
    /// audit what was done.
    pub(crate) fn sign(
        &mut self,
        subject: Subject,
        drafts: Vec<Draft>,
        (did, what): (&str, &str),
    ) -> Result<(), CommandError> {
        let mut database = open_database(&self.folder)?;
        let office = (&mut database, self.ledger.store_mut());
        office_signer::sign_all(&self.folder, office, &self.key, &clock()?, (subject, drafts, BY))
            .map_err(CommandError::refused)?;
        let row = Looked {
            at: self.now,
            who: BY.to_owned(),
            role: String::new(),
            did: did.to_owned(),
            subject: what.to_owned(),
        };
        Ok(audit::note(database.connection(), &row).map_err(OfficeError::from)?)
    }
}
