//! The commands for people's keys and for the organisation's rules: listing, confirming and ending keys, and
//! setting what people sign and what an operator's device may do.

use farsiding_core::book::{Draft, Roster};
use farsiding_core::entry::{LastEntry, Statement};
use farsiding_core::ids::{DeviceId, OperatorId, OrganisationId, Subject};
use farsiding_core::view::PersonKeyView;
use serde_json::json;

use super::DeviceError;
use super::folder::DeviceFolder;
use farsiding_host::CommandOutput;

fn read(folder: &DeviceFolder) -> Result<(Subject, Roster), DeviceError> {
    let key = folder.read().organisation_key()?.ok_or_else(|| {
        DeviceError::NotEnrolled(
            "the roster is the organisation's: enrol this device first (`farsiding device enrol`)".to_owned(),
        )
    })?;
    let roster = Roster::read(folder.read().store(), &key)?;
    Ok((Subject::Roster(OrganisationId::of_key(&key)), roster))
}

/// Returns the list of all personal keys with the state of each.
///
/// # Errors
/// Returns a [`DeviceError`] when a rule refuses the request or the device's folder fails.
pub fn keys(folder: &DeviceFolder) -> Result<CommandOutput, DeviceError> {
    let (_, roster) = read(folder)?;
    let mut text = String::new();
    for key in &roster.keys {
        let stands = match (&key.ended, &key.confirmed) {
            (Some(end), _) if end.why.is_empty() => format!("ended by {}", end.by),
            (Some(end), _) => format!("ended by {}: {}", end.by, end.why),
            (None, Some(act)) => format!("confirmed by {}", act.by),
            (None, None) => "not confirmed".to_owned(),
        };
        let (made, phone) = (key.made_at.rfc3339(), key.device.short());
        text.push_str(&format!(
            "{}  {}  device {phone}, made {made}  {stands}\n",
            key.person, key.fingerprint
        ));
    }
    if roster.keys.is_empty() {
        text.push_str("Nobody made a key yet: that is done on a phone.");
    }
    Ok(CommandOutput::new(text, json!({ "keys": roster.keys })))
}

/// Returns the person's key whose sixteen digits, or whose id, begin with `text`.
fn find<'r>(roster: &'r Roster, person: &str, text: &str) -> Result<&'r PersonKeyView, DeviceError> {
    let plain: String = text.split_whitespace().collect::<String>().to_lowercase();
    let begins = |key: &&PersonKeyView| {
        let digits: String = key.fingerprint.split_whitespace().collect();
        digits.starts_with(&plain) || key.key.to_string().starts_with(&plain)
    };
    let of_person = roster.keys.iter().filter(|key| key.person.0 == person.trim());
    let found: Vec<&PersonKeyView> = of_person.filter(begins).collect();
    match found.as_slice() {
        [one] if plain.len() >= 4 => Ok(one),
        [] => Err(DeviceError::Refused(format!("{person} has no key that begins with \"{text}\""))),
        _ => Err(DeviceError::Refused(format!("\"{text}\" may be several keys: type more of its digits"))),
    }
}

/// Confirms a key. All sixteen digits must be typed, as the person read them out.
///
/// # Errors
/// Returns a [`DeviceError`] when a rule refuses the request or the device's folder fails.
pub fn confirm(folder: &mut DeviceFolder, person: &str, digits: &str) -> Result<CommandOutput, DeviceError> {
    let (subject, roster) = read(folder)?;
    let key = find(&roster, person, digits)?;
    let all: String = digits.split_whitespace().collect();
    if all.len() < 16 {
        return Err(DeviceError::Refused("type all sixteen digits, as the person read them out".to_owned()));
    }
    if key.ended.is_some() {
        return Err(DeviceError::Refused("this key was ended".to_owned()));
    }
    if !roster.people.get(&key.person).is_some_and(|person| person.active) {
        return Err(DeviceError::Refused(format!("{person} is not on the roster, or no longer with us")));
    }
    let says = Statement::PersonKeyConfirmed { person: key.person.clone(), key: key.key };
    record(folder, subject, vec![Draft::of(says)], "confirmed the key")
}

/// Returns the newest entry of `device` that this device holds.
fn newest_of(folder: &DeviceFolder, device: DeviceId) -> Result<Option<LastEntry>, DeviceError> {
    let mut newest: Option<LastEntry> = None;
    for subject in folder.read().store().subjects()? {
        for (entry, _) in folder.read().entries(subject)?.0 {
            if entry.device == device && newest.is_none_or(|known| entry.body.seq > known.seq) {
                newest = Some(LastEntry { seq: entry.body.seq, entry: entry.id });
            }
        }
    }
    Ok(newest)
}

/// Ends a key. The statement names the last known entry of the phone that holds the key.
///
/// # Errors
/// Returns a [`DeviceError`] when a rule refuses the request or the device's folder fails.
pub fn end(
    folder: &mut DeviceFolder,
    person: &str,
    digits: &str,
    why: &str,
) -> Result<CommandOutput, DeviceError> {
    if why.trim().is_empty() {
        return Err(DeviceError::Refused("say why: --why REASON".to_owned()));
    }
    let (subject, roster) = read(folder)?;
    let key = find(&roster, person, digits)?;
    if key.ended.is_some() {
        return Err(DeviceError::Refused("this key was ended already".to_owned()));
    }
    let last = newest_of(folder, key.device)?;
    let person = OperatorId(person.trim().to_owned());
    let says = Statement::PersonKeyEnded { person, key: key.key, last };
    record(folder, subject, vec![Draft::of(says).because(why)], "ended the key")
}

fn record(
    folder: &mut DeviceFolder,
    subject: Subject,
    drafts: Vec<Draft>,
    what: &str,
) -> Result<CommandOutput, DeviceError> {
    let by = folder.operator()?;
    let made = folder.book().append(subject, drafts, &by)?;
    let entries: Vec<String> = made.iter().map(ToString::to_string).collect();
    Ok(CommandOutput::new(what.to_owned(), json!({ "entries": entries })))
}
