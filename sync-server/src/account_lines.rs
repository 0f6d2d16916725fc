//! `farsiding account`: makes, lists and disables the accounts of people who sign in at the office's pages.
//!
//! Called by `command`. A password comes from standard input, never from the command line, where others
//! on the machine could read it.

use std::io::{BufRead as _, Read as _};

use clap::{Args, Subcommand, ValueEnum};
use serde_json::json;

use crate::command::{Failure, OfficeArguments, clock, open_register, say};
use crate::office::OfficeError;
use crate::office::accounts::{AccountError, passwords, people};
use crate::office::data_folder::DataFolder;
use crate::office::register::role_word;
use crate::surroundings::SystemRandomness;

/// The words behind `farsiding account`.
#[derive(Debug, Args)]
pub(crate) struct AccountArguments {
    #[command(subcommand)]
    what: What,
}

#[derive(Debug, Subcommand)]
enum What {
    /// Make an account; its password is the first line of standard input.
    Add {
        #[command(flatten)]
        office: OfficeArguments,
        /// What to call it; entries it makes carry this name.
        #[arg(long)]
        name: String,
        /// What it may do. Inspectors need none: the office gives them a link to one visit.
        #[arg(long, value_enum, default_value_t = AccountRole::Office)]
        role: AccountRole,
    },
    /// Give an account a new password, from standard input; ends its sessions.
    Password {
        #[command(flatten)]
        office: OfficeArguments,
        /// Which account.
        #[arg(long)]
        name: String,
    },
    /// List the accounts.
    List(OfficeArguments),
    /// Disable an account, at once.
    Disable {
        #[command(flatten)]
        office: OfficeArguments,
        /// Which account.
        #[arg(long)]
        name: String,
    },
}

#[derive(Debug, Clone, Copy, ValueEnum)]
enum AccountRole {
    /// Reads everything, settles, issues and revokes.
    Office,
}

impl AccountArguments {
    fn office(&self) -> &OfficeArguments {
        match &self.what {
            What::Add { office, .. } | What::Password { office, .. } | What::Disable { office, .. } => office,
            What::List(office) => office,
        }
    }

    /// Whether answers are to be JSON.
    pub(crate) fn wants_json(&self) -> bool {
        self.office().json
    }
}

fn password() -> Result<String, Failure> {
    let mut line = String::new();
    // A longer line is no password; reading on would only fill memory.
    let most = (passwords::LONGEST * 4 + 2) as u64;
    std::io::BufReader::new(std::io::stdin().lock().take(most)).read_line(&mut line)?;
    Ok(line.trim_end_matches(['\r', '\n']).to_owned())
}

/// Runs what was asked for.
pub(crate) fn run(arguments: &AccountArguments) -> Result<(), Failure> {
    let office = arguments.office();
    let mut randomness = SystemRandomness::new().map_err(|e| OfficeError::Surroundings(e.to_string()))?;
    let folder = match arguments.what {
        What::Add { .. } => {
            let folder = DataFolder::open_or_make(&office.data)?;
            folder.organisation_key(&mut randomness)?;
            folder
        }
        _ => DataFolder::open(&office.data)?,
    };
    let mut register = open_register(&folder)?;
    let refused = |error: AccountError| Failure::from(OfficeError::from(error));
    match &arguments.what {
        What::Add { name, role: AccountRole::Office, .. } => {
            let now = clock()?.time();
            let made = people::add(register.connection(), name, &password()?, now, &mut randomness);
            done(office, &made.map_err(refused)?, "may sign in")
        }
        What::Password { name, .. } => {
            let changed =
                people::change_password(register.connection_mut(), name, &password()?, &mut randomness);
            done(office, &changed.map_err(refused)?, "has a new password; its sessions are over")
        }
        What::Disable { name, .. } => {
            let now = clock()?.time();
            let disabled = people::disable(register.connection_mut(), name, now);
            done(office, &disabled.map_err(refused)?, "may no longer sign in; its sessions are over")
        }
        What::List(_) => list(office, &people::list(register.connection()).map_err(refused)?),
    }
}

fn done(office: &OfficeArguments, account: &people::Account, what: &str) -> Result<(), Failure> {
    let told = json!({ "ok": true, "account": account_json(account) }).to_string();
    Ok(say(&if office.json { told } else { format!("{} {what}.", account.name) })?)
}

fn account_json(account: &people::Account) -> serde_json::Value {
    json!({
        "name": account.name, "role": role_word(account.role), "made_at": account.made_at.rfc3339(),
        "disabled_at": account.disabled_at.map(|at| at.rfc3339()),
    })
}

fn list(office: &OfficeArguments, accounts: &[people::Account]) -> Result<(), Failure> {
    if office.json {
        let told: Vec<_> = accounts.iter().map(account_json).collect();
        return Ok(say(&json!({ "ok": true, "accounts": told }).to_string())?);
    }
    if accounts.is_empty() {
        say("Nobody may sign in yet; `farsiding account add` makes an account.")?;
    }
    for account in accounts {
        let state =
            account.disabled_at.map_or_else(String::new, |at| format!(" · disabled {}", at.rfc3339()));
        say(&format!(
            "{} ({}) · made {}{state}",
            account.name,
            role_word(account.role),
            account.made_at.rfc3339()
        ))?;
    }
    Ok(())
}
