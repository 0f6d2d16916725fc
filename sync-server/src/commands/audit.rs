//! `farsiding audit`: reads the whole audit chain and reports whether it is intact.
//!
//! Called by `command`. The command only reads, so it may run while the server runs, or on a backup.

use clap::{Args, Subcommand};
use serde_json::json;

use crate::office_folder::OfficeArguments;
use crate::outcome::{CommandError, ErrorKind};
use farsiding_host::CommandOutput;
use farsiding_host::SystemRandomness;
use farsiding_office::OfficeError;
use farsiding_office::audit_anchor::{self, Anchor};
use farsiding_office::audit_chain::{self, Head};
use farsiding_office::data_folder::DataFolder;
use farsiding_office::ledger::{Ledger as _, OfficeLedger};
use farsiding_office::office_database::OfficeDatabase;

/// The arguments of `farsiding audit`.
#[derive(Debug, Args)]
pub(crate) struct AuditArguments {
    #[command(subcommand)]
    what: What,
}

#[derive(Debug, Subcommand)]
enum What {
    /// Check that every row of the audit trail seals the row before it. Prints the newest row, or the first
    /// row that fails.
    Check {
        #[command(flatten)]
        office: OfficeArguments,
        /// A newest row that somebody kept earlier, as NUMBER:HASH from the audit page. The check fails if
        /// that row has changed.
        #[arg(long, value_name = "NUMBER:HASH")]
        head: Option<String>,
    },
}

impl AuditArguments {
    /// Returns whether the answer is printed as JSON.
    pub(crate) fn wants_json(&self) -> bool {
        let What::Check { office, .. } = &self.what;
        office.json
    }
}

/// Returns the newest audit row that the organisation signed in the log folder.
fn anchored(folder: &DataFolder, database: &OfficeDatabase) -> Result<Option<Anchor>, CommandError> {
    let mut randomness = SystemRandomness::new().map_err(|e| OfficeError::Surroundings(e.to_string()))?;
    let key = folder.organisation_key(&mut randomness)?;
    let ledger = OfficeLedger::open_to_read(&folder.ledger_place()).map_err(OfficeError::from)?;
    Ok(audit_anchor::newest(ledger.store(), key.keys(), database.connection())?)
}

/// Runs `farsiding audit`.
pub(crate) fn run(arguments: &AuditArguments) -> Result<CommandOutput, CommandError> {
    let What::Check { office, head } = &arguments.what;
    let unread =
        || CommandError::refused("--head is not NUMBER:HASH as the audit's page shows it".to_owned());
    let known = head.as_deref().map(|text| Head::read(text).ok_or_else(unread)).transpose()?;
    let folder = DataFolder::open(&office.data)?;
    let database = OfficeDatabase::open_to_read(&folder.database_file()).map_err(OfficeError::from)?;
    // Without a row given on the command line, the chain is compared with the row that the organisation
    // signed.
    let anchor = anchored(&folder, &database)?;
    let known = known.or_else(|| anchor.map(|anchor| anchor.head()));
    let chain = audit_chain::check(database.connection(), known).map_err(OfficeError::from)?;
    if let Some(broken) = chain.broken {
        let message = format!(
            "the audit does not hold: row {}: {}. The {} rows before it hold.",
            broken.number, broken.why, chain.rows
        );
        return Err(CommandError::new(ErrorKind::DoesNotHold, message));
    }
    let signed = anchor.map(|anchor| json!({ "head": anchor.head().to_string(), "at": anchor.at.rfc3339() }));
    let text = format!(
        "All {} rows of the audit hold. The newest: {}\n{}\nKeep it elsewhere: with --head it shows whether rows up to it were changed or cut off.",
        chain.rows,
        chain.head,
        anchor.map_or("No newest row was signed beside the log yet.".to_owned(), |anchor| format!(
            "The one signed beside the log on {}, {}, is among them.",
            anchor.at.rfc3339(),
            anchor.head()
        ))
    );
    let json = json!({ "rows": chain.rows, "head": chain.head.to_string(), "anchor": signed });
    Ok(CommandOutput::new(text, json))
}
