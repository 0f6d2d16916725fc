//! `farsiding audit`: reads the audit's chain through and says whether it holds.
//!
//! Called by `command`. It reads and writes nothing, so it may run beside a server and over a backup.

use clap::{Args, Subcommand};
use serde_json::json;

use crate::command::{Failure, OfficeArguments, say};
use crate::office::OfficeError;
use crate::office::accounts::audit_chain::{self, Head};
use crate::office::data_folder::DataFolder;
use crate::office::register::Register;

/// The words behind `farsiding audit`.
#[derive(Debug, Args)]
pub(crate) struct AuditArguments {
    #[command(subcommand)]
    what: What,
}

#[derive(Debug, Subcommand)]
enum What {
    /// Read every row: each must seal the one before it. Names the first that does not, and shows the newest.
    Check {
        #[command(flatten)]
        office: OfficeArguments,
        /// A newest row somebody kept (NUMBER:HASH, as the audit's page shows it); it must still be what it was.
        #[arg(long, value_name = "NUMBER:HASH")]
        head: Option<String>,
    },
}

impl AuditArguments {
    /// Whether answers are to be JSON.
    pub(crate) fn wants_json(&self) -> bool {
        let What::Check { office, .. } = &self.what;
        office.json
    }
}

/// Runs what was asked for.
pub(crate) fn run(arguments: &AuditArguments) -> Result<(), Failure> {
    let What::Check { office, head } = &arguments.what;
    let refused = |message: String| Failure { message, name: "refused", code: 3 };
    let unread = || refused("--head is not NUMBER:HASH as the audit's page shows it".to_owned());
    let known = head.as_deref().map(|text| Head::read(text).ok_or_else(unread)).transpose()?;
    let folder = DataFolder::open(&office.data)?;
    let register = Register::open_to_read(&folder.register_file()).map_err(OfficeError::from)?;
    let chain = audit_chain::check(register.connection(), known).map_err(OfficeError::from)?;
    if let Some(broken) = chain.broken {
        let message = format!(
            "the audit does not hold: row {}: {}. The {} rows before it hold.",
            broken.number, broken.why, chain.rows
        );
        return Err(Failure { message, name: "does_not_hold", code: 3 });
    }
    let told = json!({ "ok": true, "rows": chain.rows, "head": chain.head.to_string() }).to_string();
    let words = format!(
        "All {} rows of the audit hold. The newest: {}\nKeep it elsewhere: with --head it shows whether rows up to it were changed or cut off.",
        chain.rows, chain.head
    );
    Ok(say(if office.json { &told } else { &words })?)
}
