//! `farsiding quarantine`: lists what devices sent and the office refused.

use std::path::PathBuf;

use clap::Args;
use farsiding_host::CommandOutput;
use farsiding_host::quarantine::tell;
use farsiding_office::data_folder::DataFolder;
use farsiding_office::ledger::{Ledger as _, OfficeLedger};
use farsiding_office::quotas::quarantine;

use crate::office_folder::{OfficeArguments, open_database};
use crate::outcome::CommandError;

#[derive(Debug, Args)]
pub(crate) struct QuarantineArguments {
    #[command(flatten)]
    pub(crate) office: OfficeArguments,
    /// A folder to write the refused data into.
    #[arg(long, value_name = "DIR")]
    out: Option<PathBuf>,
    /// Delete the refused data afterwards. The record itself does not change.
    #[arg(long)]
    purge: bool,
}

/// Runs `farsiding quarantine`.
pub(crate) fn run(arguments: &QuarantineArguments) -> Result<CommandOutput, CommandError> {
    let folder = DataFolder::open(&arguments.office.data)?;
    let mut ledger = OfficeLedger::open(&folder.ledger_place())?;
    let database = open_database(&folder)?;
    let kept = quarantine::all(ledger.store(), &database)?;
    let (mut text, mut json) = tell(&kept, arguments.out.as_deref())?;
    if arguments.purge {
        quarantine::purge_all(ledger.store_mut(), &database)?;
        text.push_str("All of it is forgotten now.\n");
    }
    if let Some(fields) = json.as_object_mut() {
        fields.insert("purged".to_owned(), arguments.purge.into());
    }
    Ok(CommandOutput::new(text, json))
}
