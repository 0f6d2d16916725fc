//! `farsiding mail …`: sets up mail, asks for a test letter, sends what is due and lists letters.
//!
//! Called by `command`. How letters are sent is decided in `office::defects`.

use std::io::Read as _;
use std::path::PathBuf;
use std::sync::Mutex;

use clap::{Args, Subcommand};
use serde_json::json;

use crate::outcome::CommandError;
use farsiding_host::CommandOutput;
use farsiding_host::ProcessClock;
use farsiding_host::private_file;
use farsiding_office::OfficeError;
use farsiding_office::data_folder::DataFolder;
use farsiding_office::defects::mail::{MailSettings, is_address};
use farsiding_office::defects::queue::{self, Asked};
use farsiding_office::defects::rounds;
use farsiding_office::office_database::OfficeDatabase;
use farsiding_office::photo_store::PhotoStore;

/// The arguments of `farsiding mail`.
#[derive(Debug, Args)]
pub struct MailArguments {
    #[command(subcommand)]
    what: Mail,
}

#[derive(Debug, Subcommand)]
enum Mail {
    /// Read the mail settings from standard input, as TOML: host, port, security, from, user, password, root.
    Set(DataArguments),
    /// Queue a test letter. It is sent like any other letter.
    Try(TryArguments),
    /// Send the letters that are due now, once.
    Send(DataArguments),
    /// List the newest letters as JSON, one per line.
    List(DataArguments),
}

#[derive(Debug, Args)]
struct DataArguments {
    /// The office's data folder.
    #[arg(long, value_name = "DIR")]
    data: PathBuf,
}

#[derive(Debug, Args)]
struct TryArguments {
    #[command(flatten)]
    data: DataArguments,
    /// The recipient's mail address.
    #[arg(long, value_name = "ADDRESS")]
    to: String,
}

fn open(data: &DataArguments) -> Result<(DataFolder, OfficeDatabase), CommandError> {
    let folder = DataFolder::open(&data.data)?;
    let database = OfficeDatabase::open(&folder.database_file()).map_err(OfficeError::from)?;
    Ok((folder, database))
}

/// Runs `farsiding mail …`.
///
/// # Errors
/// Returns a [`CommandError`] when the settings are not usable or a file or the database fails.
pub fn run(arguments: &MailArguments) -> Result<CommandOutput, CommandError> {
    let now = ProcessClock::from_environment().map_err(CommandError::failed)?.time();
    match &arguments.what {
        Mail::Set(data) => {
            let folder = DataFolder::open(&data.data)?;
            let mut text = String::new();
            std::io::stdin().lock().take(64 * 1024).read_to_string(&mut text)?;
            MailSettings::parse(&text).map_err(|error| CommandError::refused(error.to_string()))?;
            let file = folder.path().join("mail.toml");
            match std::fs::remove_file(&file) {
                Err(error) if error.kind() != std::io::ErrorKind::NotFound => return Err(error.into()),
                _ => {}
            }
            private_file::write_new(&file, text.as_bytes())?;
            Ok(CommandOutput::text(
                "Mail is set up; a letter to yourself proves it: farsiding mail try --to YOU",
            ))
        }
        Mail::Try(trial) => {
            if !is_address(&trial.to) {
                return Err(CommandError::refused(format!("\u{201c}{}\u{201d} is no address", trial.to)));
            }
            let (_, database) = open(&trial.data)?;
            let asked = Asked {
                defect: None,
                visit: None,
                to: &trial.to,
                subject: "A trial letter",
                body: "This letter shows that the office's mail is set up.\n",
                extract: "",
                photos: &[],
                by: "command line",
            };
            let number = queue::ask(database.connection(), &asked, now).map_err(OfficeError::from)?;
            Ok(CommandOutput::text(format!("letter {number} waits")))
        }
        Mail::Send(data) => {
            let (folder, database) = open(data)?;
            let photos = PhotoStore::local(&folder.photo_folder(), &folder.upload_folder())
                .map_err(CommandError::failed)?;
            let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build()?;
            let database = Mutex::new(database);
            let done = runtime
                .block_on(rounds::round(folder.path(), &database, &photos, now))
                .map_err(OfficeError::from)?;
            let json = json!({ "sent": done.sent, "put_off": done.put_off, "failed": done.failed });
            Ok(CommandOutput::text(json.to_string()))
        }
        Mail::List(data) => {
            let (_, database) = open(data)?;
            let mut lines = String::new();
            for letter in queue::newest(database.connection(), 100).map_err(OfficeError::from)? {
                let told = json!({
                    "number": letter.number, "to": letter.to, "state": letter.state, "tries": letter.tries,
                    "said": letter.said, "next_at": letter.next_at.rfc3339(),
                });
                lines.push_str(&format!("{told}\n"));
            }
            Ok(CommandOutput::text(lines))
        }
    }
}
