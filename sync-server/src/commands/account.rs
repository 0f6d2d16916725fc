//! `farsiding account`: creates, lists and disables the accounts of people who sign in to the office's pages,
//! changes their roles and languages, and resets second factors. Every change of somebody's access is written
//! to the audit.
//!
//! Called by `command`. A password is read from standard input and never from the command line, because other
//! users of the machine can read command lines.

use std::io::{BufRead as _, Read as _};

use clap::{Args, Subcommand, ValueEnum};
use farsiding_core::clock::UtcMillis;
use serde_json::json;

use crate::office_folder::{OfficeArguments, clock, open_database};
use crate::outcome::CommandError;
use farsiding_host::CommandOutput;
use farsiding_host::SystemRandomness;
use farsiding_office::OfficeError;
use farsiding_office::accounts::audit;
use farsiding_office::accounts::roles::AccountRole;
use farsiding_office::accounts::{passwords, people};
use farsiding_office::audit_chain::Looked;
use farsiding_office::data_folder::DataFolder;
use farsiding_office::office_database::OfficeDatabase;
use farsiding_words::Language;

/// The arguments of `farsiding account`.
#[derive(Debug, Args)]
pub(crate) struct AccountArguments {
    #[command(subcommand)]
    what: What,
}

#[derive(Debug, Subcommand)]
enum What {
    /// Create an account. The password is the first line of standard input.
    Add {
        #[command(flatten)]
        office: OfficeArguments,
        /// The account's name. Entries made by the account carry this name.
        #[arg(long)]
        name: String,
        /// What the account may do. Inspectors need no account: the office gives them a link to one visit.
        #[arg(long, value_enum, default_value_t = RoleWord::Administrator)]
        role: RoleWord,
        /// The language in which the person reads the pages, such as es-MX. Without it, the organisation's.
        #[arg(long)]
        language: Option<Language>,
    },
    /// Set the language in which a person reads the pages.
    Language {
        #[command(flatten)]
        office: OfficeArguments,
        /// The account's name.
        #[arg(long)]
        name: String,
        /// The language, such as fr-CA. Without it, the organisation's.
        #[arg(long)]
        language: Option<Language>,
    },
    /// Give an account another role. The change takes effect at once.
    Role {
        #[command(flatten)]
        office: OfficeArguments,
        /// The account's name.
        #[arg(long)]
        name: String,
        /// What the account may do from now on.
        #[arg(long, value_enum)]
        role: RoleWord,
    },
    /// Set a new password, read from standard input, and end the account's sessions. People can change their
    /// own password on their page.
    Password {
        #[command(flatten)]
        office: OfficeArguments,
        /// The account's name.
        #[arg(long)]
        name: String,
    },
    /// Remove the second factor of an account, for example when the telephone is lost, and end the account's
    /// sessions.
    ResetSecondFactor {
        #[command(flatten)]
        office: OfficeArguments,
        /// The account's name.
        #[arg(long)]
        name: String,
    },
    /// Require a second factor from everybody who signs in, or leave the choice to each person.
    RequireSecondFactor {
        #[command(flatten)]
        office: OfficeArguments,
        /// Leave the choice to each person.
        #[arg(long)]
        off: bool,
    },
    /// List the accounts.
    List(OfficeArguments),
    /// Disable an account at once.
    Disable {
        #[command(flatten)]
        office: OfficeArguments,
        /// The account's name.
        #[arg(long)]
        name: String,
    },
}

#[derive(Debug, Clone, Copy, ValueEnum)]
enum RoleWord {
    /// May read every record, take packets and look at lists, but change nothing.
    Reader,
    /// May also enter papers, tariffs, seals and letters.
    Clerk,
    /// May also settle accounts that differ, and let inspectors read a record.
    Supervisor,
    /// May also manage devices, accounts, the audit and the state of the server.
    #[value(alias = "office")]
    Administrator,
}

impl From<RoleWord> for AccountRole {
    fn from(word: RoleWord) -> AccountRole {
        match word {
            RoleWord::Reader => AccountRole::Reader,
            RoleWord::Clerk => AccountRole::Clerk,
            RoleWord::Supervisor => AccountRole::Supervisor,
            RoleWord::Administrator => AccountRole::Administrator,
        }
    }
}

impl AccountArguments {
    fn office(&self) -> &OfficeArguments {
        match &self.what {
            What::Add { office, .. }
            | What::Role { office, .. }
            | What::Language { office, .. }
            | What::Password { office, .. }
            | What::ResetSecondFactor { office, .. }
            | What::RequireSecondFactor { office, .. }
            | What::Disable { office, .. }
            | What::List(office) => office,
        }
    }

    /// Returns whether the answer is printed as JSON.
    pub(crate) fn wants_json(&self) -> bool {
        self.office().json
    }
}

fn password() -> Result<String, CommandError> {
    let mut line = String::new();
    // A longer line cannot be a password, so reading stops here instead of filling memory.
    let most = (passwords::LONGEST * 4 + 2) as u64;
    std::io::BufReader::new(std::io::stdin().lock().take(most)).read_line(&mut line)?;
    Ok(line.trim_end_matches(['\r', '\n']).to_owned())
}

/// Runs `farsiding account`.
pub(crate) fn run(arguments: &AccountArguments) -> Result<CommandOutput, CommandError> {
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
    let mut database = open_database(&folder)?;
    let now = clock()?.time();
    let (account, did, words) = match &arguments.what {
        What::Add { name, role, language, .. } => {
            let whose = (name.as_str(), (*role).into());
            let made = people::add(database.connection(), whose, &password()?, now, &mut randomness);
            let made = made.and_then(|made| match language {
                Some(language) => people::change_language(database.connection(), &made.name, Some(*language)),
                None => Ok(made),
            });
            (made.map_err(CommandError::refused)?, "made an account", "may sign in")
        }
        What::Language { name, language, .. } => {
            let changed = people::change_language(database.connection(), name, *language);
            (
                changed.map_err(CommandError::refused)?,
                "changed a language",
                "reads the pages in another language",
            )
        }
        What::Role { name, role, .. } => {
            let changed = people::change_role(database.connection(), name, (*role).into());
            (changed.map_err(CommandError::refused)?, "changed a role", "has another role from now on")
        }
        What::Password { name, .. } => {
            let changed =
                people::change_password(database.connection_mut(), name, &password()?, &mut randomness);
            (
                changed.map_err(CommandError::refused)?,
                "gave a new password",
                "has a new password; its sessions are over",
            )
        }
        What::ResetSecondFactor { name, .. } => {
            let reset = people::reset_second_factor(database.connection_mut(), name);
            let words = "signs in with the password alone until another second factor is set up; its sessions are over";
            (reset.map_err(CommandError::refused)?, "reset a second factor", words)
        }
        What::Disable { name, .. } => {
            let disabled = people::disable(database.connection_mut(), name, now);
            (
                disabled.map_err(CommandError::refused)?,
                "disabled an account",
                "may no longer sign in; its sessions are over",
            )
        }
        What::RequireSecondFactor { off, .. } => return require(&database, !off, now),
        What::List(_) => {
            return Ok(list(&people::list(database.connection()).map_err(CommandError::refused)?));
        }
    };
    let role = account.role.map_or("", AccountRole::as_str);
    note(&database, did, &format!("account:{} ({role})", account.name), now)?;
    let json = json!({ "account": account_json(&account) });
    Ok(CommandOutput::new(format!("{} {words}.", account.name), json))
}

/// Writes a change of somebody's access to the audit. The audit row names no person, because the program does
/// not know who typed at the server's command line.
fn note(database: &OfficeDatabase, did: &str, subject: &str, at: UtcMillis) -> Result<(), CommandError> {
    let row = Looked {
        at,
        who: "the server's command line".to_owned(),
        role: "administrator".to_owned(),
        did: did.to_owned(),
        subject: subject.to_owned(),
    };
    Ok(audit::note(database.connection(), &row).map_err(OfficeError::from)?)
}

fn require(database: &OfficeDatabase, required: bool, at: UtcMillis) -> Result<CommandOutput, CommandError> {
    let (did, words) = match required {
        true => (
            "asked everybody for a second factor",
            "Everybody who signs in needs a second factor; who has none sets it up before anything else opens.",
        ),
        false => (
            "left the second factor to each",
            "Each person decides whether their account has a second factor.",
        ),
    };
    note(database, did, "", at)?;
    database.require_second_factor(required).map_err(OfficeError::from)?;
    Ok(CommandOutput::new(words, json!({ "second_factor_required": required })))
}

fn account_json(account: &people::Account) -> serde_json::Value {
    json!({
        "name": account.name, "role": account.role.map(AccountRole::as_str),
        "language": account.language.map(Language::as_str), "made_at": account.made_at.rfc3339(),
        "disabled_at": account.disabled_at.map(|at| at.rfc3339()),
    })
}

fn list(accounts: &[people::Account]) -> CommandOutput {
    let mut text = String::new();
    if accounts.is_empty() {
        text.push_str("Nobody may sign in yet; `farsiding account add` makes an account.");
    }
    for account in accounts {
        let state =
            account.disabled_at.map_or_else(String::new, |at| format!(" · disabled {}", at.rfc3339()));
        text.push_str(&format!(
            "{} ({}) · made {}{state}\n",
            account.name,
            account.role.map_or("a role of a later version, which may nothing", AccountRole::as_str),
            account.made_at.rfc3339()
        ));
    }
    let accounts: Vec<_> = accounts.iter().map(account_json).collect();
    CommandOutput::new(text, json!({ "accounts": accounts }))
}
