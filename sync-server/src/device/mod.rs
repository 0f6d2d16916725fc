//! A device without a screen: the same book a phone keeps, worked from a command line.
//!
//! Lives here: the device's folder, its commands, how statements are typed, the HTTP client. Does not
//! live here: any rule about records (`farsiding_core::book`, `view`, `sync`).

pub mod address;
pub mod arguments;
mod carrying;
mod desk;
pub mod folder;
pub mod forms;
pub(crate) mod office_client;
mod office_log;
mod people_book;
pub(crate) mod photos;
mod reading_room;
mod recording;
pub mod shapes;
mod site_book;
mod syncing;

use farsiding_core::book::BookError;
use farsiding_core::store::StoreError;
use farsiding_core::sync::SyncError;
use serde_json::{Value, json};

use crate::command::{Failure, say};
use arguments::{DeviceArguments, DeviceCommand};
use folder::DeviceFolder;

/// Why a device command did not do what was asked. What was typed is in the shell's history; what was
/// recorded before stays recorded.
#[derive(Debug, thiserror::Error)]
pub enum DeviceError {
    /// The device's folder cannot be used.
    #[error("{0}")]
    Folder(String),
    /// What was asked is refused by a rule, or is not clear.
    #[error("{0}")]
    Refused(String),
    /// The office was not reached, or not everything is receipted.
    #[error("{0}")]
    NotAtTheOffice(String),
    /// Not enrolled, or revoked.
    #[error("{0}")]
    NotEnrolled(String),
    /// Everything was exchanged, and the office's log contradicts what it was before.
    #[error("{0}")]
    LogContradicts(String),
    /// A file or the disk.
    #[error("{0}")]
    Failed(String),
}

impl From<BookError> for DeviceError {
    fn from(error: BookError) -> Self {
        match error {
            BookError::Store(error) => error.into(),
            BookError::Sync(SyncError::NotEnrolled) => DeviceError::NotEnrolled(
                "this device is not enrolled yet: ask the office for a code, then \
                 `farsiding device enrol --server URL --code CODE`"
                    .to_owned(),
            ),
            BookError::Sync(
                error @ (SyncError::NotTheServer(_) | SyncError::OtherRequest | SyncError::StillDiffers(_)),
            ) => DeviceError::NotAtTheOffice(format!("{error}. Everything recorded is still here")),
            BookError::NoOperator => DeviceError::Refused(
                "say who you are: --operator CODE, or once for all with `farsiding device operator CODE`"
                    .to_owned(),
            ),
            BookError::Entry(_) | BookError::MayNot(_) | BookError::NotHere(_) => {
                DeviceError::Refused(error.to_string())
            }
            other => DeviceError::Failed(other.to_string()),
        }
    }
}

impl From<StoreError> for DeviceError {
    fn from(error: StoreError) -> Self {
        DeviceError::Failed(error.to_string())
    }
}

impl From<std::io::Error> for DeviceError {
    fn from(error: std::io::Error) -> Self {
        DeviceError::Failed(error.to_string())
    }
}

impl From<DeviceError> for Failure {
    fn from(error: DeviceError) -> Self {
        let (name, code) = match &error {
            DeviceError::Folder(_) | DeviceError::Failed(_) => ("failed", 1),
            DeviceError::Refused(_) => ("refused", 3),
            DeviceError::NotAtTheOffice(_) => ("not_at_the_office", 4),
            DeviceError::NotEnrolled(_) => ("not_enrolled", 5),
            DeviceError::LogContradicts(_) => ("log_contradicts", 6),
        };
        Failure { message: error.to_string(), name, code }
    }
}

/// What a command has to say, for people and for programs.
#[derive(Debug)]
pub struct Said {
    /// For people.
    pub text: String,
    /// For programs; an object.
    pub json: Value,
}

impl Said {
    /// Both forms.
    pub fn new(text: impl Into<String>, json: Value) -> Said {
        Said { text: text.into(), json }
    }

    fn tell(mut self, as_json: bool) -> std::io::Result<()> {
        if !as_json {
            return if self.text.is_empty() { Ok(()) } else { say(self.text.trim_end()) };
        }
        if let Some(fields) = self.json.as_object_mut() {
            fields.entry("ok").or_insert(json!(true));
        }
        say(&self.json.to_string())
    }
}

/// Runs a device command.
///
/// # Errors
/// [`Failure`] with words for a person.
pub fn run(arguments: DeviceArguments) -> Result<(), Failure> {
    let as_json = arguments.wants_json();
    let said = dispatch(arguments, as_json)?;
    Ok(said.tell(as_json)?)
}

fn dispatch(arguments: DeviceArguments, as_json: bool) -> Result<Said, DeviceError> {
    let path = arguments.folder();
    let by = arguments.operator;
    if let DeviceCommand::Init { name } = &arguments.command {
        return folder::init(&path, name.as_deref(), by.as_deref());
    }
    let mut folder = DeviceFolder::open(&path)?;
    folder.speak_as(by);
    match arguments.command {
        DeviceCommand::Init { .. } => Ok(Said::new("", json!({}))),
        DeviceCommand::Enrol(typed) => syncing::enrol(&mut folder, typed),
        DeviceCommand::Whoami => reading_room::whoami(&mut folder),
        DeviceCommand::Operator { code } => reading_room::remember_operator(&mut folder, &code),
        DeviceCommand::Open(typed) => recording::open(&mut folder, typed),
        DeviceCommand::Add { visit, words } => recording::add(&mut folder, &visit, words),
        DeviceCommand::List { all } => reading_room::list(&mut folder, all),
        DeviceCommand::Show { visit } => reading_room::show(&mut folder, &visit),
        DeviceCommand::History { visit } => reading_room::history(&mut folder, &visit),
        DeviceCommand::Next { visit } => reading_room::next(&mut folder, &visit),
        DeviceCommand::Find { number } => reading_room::find(&mut folder, &number),
        DeviceCommand::Photo(typed) => photos::attach(&mut folder, &typed),
        DeviceCommand::Settle(typed) => recording::settle(&mut folder, &typed),
        DeviceCommand::Reopen { visit, entry, why } => recording::reopen(&mut folder, &visit, &entry, &why),
        DeviceCommand::Withdraw { visit, entry, why } => {
            recording::withdraw(&mut folder, &visit, &entry, &why)
        }
        DeviceCommand::PassOver { visit, blocker, why } => {
            recording::pass_over(&mut folder, &visit, &blocker, &why)
        }
        DeviceCommand::Release { visit, cleaned } => recording::release(&mut folder, &visit, cleaned),
        DeviceCommand::Join(typed) => recording::join(&mut folder, &typed),
        DeviceCommand::Site(command) => site_book::run(&mut folder, command),
        DeviceCommand::Person { words } => site_book::person(&mut folder, words),
        DeviceCommand::People => site_book::people(&mut folder),
        DeviceCommand::Keys => people_book::keys(&folder),
        DeviceCommand::ConfirmKey { person, digits } => {
            people_book::confirm(&mut folder, &person, &digits.join(" "))
        }
        DeviceCommand::EndKey { person, digits, why } => {
            people_book::end(&mut folder, &person, &digits.join(" "), &why)
        }
        DeviceCommand::Rules { words } => site_book::rules(&mut folder, words),
        DeviceCommand::Sync(typed) => syncing::sync(&mut folder, &typed, as_json),
        DeviceCommand::CarryOut { file, visits } => carrying::carry_out(&mut folder, &file, &visits),
        DeviceCommand::CarryIn { file } => carrying::carry_in(&mut folder, &file),
        DeviceCommand::Receipts { visit } => reading_room::receipts(&mut folder, visit.as_deref()),
        DeviceCommand::Quarantine { out } => {
            let kept: Vec<_> = folder.read().store().quarantined()?.into_iter().map(Into::into).collect();
            let (text, json) = crate::kept_aside::tell(&kept, out.as_deref())?;
            Ok(Said::new(text, json))
        }
        DeviceCommand::Proof { entry } => office_log::proof(&mut folder, &entry),
        DeviceCommand::Drafts { clear } => reading_room::drafts(&mut folder, clear),
    }
}
