//! `farsiding device …`: recording and syncing from the command line.

mod arguments;

use farsiding_device::folder::{self, DeviceFolder};
use farsiding_device::{
    DeviceError, carrying, office_log, people_book, photos, queries, recording, site_book, syncing,
};
use farsiding_host::CommandOutput;
use farsiding_words::{Language, Words};
use serde_json::json;

pub(crate) use arguments::DeviceArguments;
use arguments::{DeviceCommand, SiteCommand};

use crate::outcome::CommandError;

/// Runs a device command.
///
/// # Errors
/// Returns a [`CommandError`] with a message for a person.
pub(crate) fn run(arguments: DeviceArguments) -> Result<CommandOutput, CommandError> {
    let as_json = arguments.wants_json();
    Ok(dispatch(arguments, as_json)?)
}

fn dispatch(arguments: DeviceArguments, as_json: bool) -> Result<CommandOutput, DeviceError> {
    let path = arguments.folder();
    let by = arguments.operator;
    if let DeviceCommand::Init { name } = &arguments.command {
        return folder::init(&path, name.as_deref(), by.as_deref());
    }
    let mut folder = DeviceFolder::open(&path)?;
    folder.speak_as(by);
    match arguments.command {
        DeviceCommand::Init { .. } => Ok(CommandOutput::new("", json!({}))),
        DeviceCommand::Enrol(typed) => syncing::enrol(&mut folder, typed.into()),
        DeviceCommand::Whoami => queries::whoami(&mut folder),
        DeviceCommand::Operator { code } => queries::remember_operator(&mut folder, &code),
        DeviceCommand::Open(typed) => recording::open(&mut folder, typed.into()),
        DeviceCommand::Add { visit, words } => recording::add(&mut folder, &visit, words),
        DeviceCommand::List { all } => queries::list(&mut folder, all),
        DeviceCommand::Show { visit, lang } => {
            queries::show(&mut folder, &visit, Words::of(lang.unwrap_or(Language::ENGLISH)))
        }
        DeviceCommand::History { visit } => queries::history(&mut folder, &visit),
        DeviceCommand::Next { visit } => queries::next(&mut folder, &visit),
        DeviceCommand::Find { number } => queries::find(&mut folder, &number),
        DeviceCommand::Photo(typed) => photos::attach(&mut folder, &typed.into()),
        DeviceCommand::Settle(typed) => recording::settle(&mut folder, &typed.into()),
        DeviceCommand::Reopen { visit, entry, why } => recording::reopen(&mut folder, &visit, &entry, &why),
        DeviceCommand::Withdraw { visit, entry, why } => {
            recording::withdraw(&mut folder, &visit, &entry, &why)
        }
        DeviceCommand::PassOver { visit, blocker, why } => {
            recording::pass_over(&mut folder, &visit, &blocker, &why)
        }
        DeviceCommand::Override { visit, gate, items, reason } => {
            recording::override_items(&mut folder, &visit, &gate, &items, &reason)
        }
        DeviceCommand::FitToUnload { visit } => recording::fit_to_unload(&mut folder, &visit),
        DeviceCommand::Release { visit, cleaned } => recording::release(&mut folder, &visit, cleaned),
        DeviceCommand::Join(typed) => recording::join(&mut folder, &typed.into()),
        DeviceCommand::Site(command) => site(&mut folder, command),
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
        DeviceCommand::Sync(typed) => syncing::sync(&mut folder, &typed.into(), as_json),
        DeviceCommand::CarryOut { file, visits } => carrying::carry_out(&mut folder, &file, &visits),
        DeviceCommand::CarryIn { file } => carrying::carry_in(&mut folder, &file),
        DeviceCommand::Receipts { visit } => queries::receipts(&mut folder, visit.as_deref()),
        DeviceCommand::Quarantine { out } => {
            let kept: Vec<_> = folder.read().store().quarantined()?.into_iter().map(Into::into).collect();
            let (text, json) = farsiding_host::quarantine::tell(&kept, out.as_deref())?;
            Ok(CommandOutput::new(text, json))
        }
        DeviceCommand::Proof { entry } => office_log::proof(&mut folder, &entry),
        DeviceCommand::Drafts { clear } => queries::drafts(&mut folder, clear),
    }
}

fn site(folder: &mut DeviceFolder, command: SiteCommand) -> Result<CommandOutput, DeviceError> {
    match command {
        SiteCommand::New { words } => site_book::new(folder, words),
        SiteCommand::Set { site, kind, words } => site_book::set(folder, &site, &kind, words),
        SiteCommand::Load { file } => site_book::load(folder, &file),
        SiteCommand::List => site_book::list(folder),
        SiteCommand::Show { site } => site_book::show(folder, &site),
    }
}
