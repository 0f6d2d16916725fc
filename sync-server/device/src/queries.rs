//! The commands that only read, and the commands that change the device's own settings.

use farsiding_core::entry::car_number::CarNumber;
use farsiding_core::evidence::Receipt;
use farsiding_core::ids::VisitId;
use farsiding_core::procedure::Record;
use farsiding_core::store::Write;
use farsiding_core::view::{CarLikeness, Fate, Sought, StepView, VisitView};
use serde_json::{Value, json};

use super::DeviceError;
use super::folder::DeviceFolder;
use super::forms;
use super::office_log;
use super::open_stay::{OpenStay, procedures};
use farsiding_host::CommandOutput;
use farsiding_words::{Words, english};

/// Returns a value as JSON; beside each message inside stands its English text.
fn as_json(value: &impl serde::Serialize) -> Result<Value, DeviceError> {
    let mut json = serde_json::to_value(value).map_err(|e| DeviceError::Failed(e.to_string()))?;
    Words::english().fill(&mut json);
    Ok(json)
}

/// Returns the numbers of entries and photographs on this device that the office is not known to hold.
///
/// # Errors
/// Returns a [`DeviceError`] when a rule refuses the request or the device's folder fails.
pub fn unsent(folder: &DeviceFolder) -> Result<(u64, u64), DeviceError> {
    let store = folder.read().store();
    let photos = store.photos()?.iter().filter(|photo| photo.here && !photo.held).count();
    Ok((store.count_without_receipt()?, photos as u64))
}

/// Returns a sentence on how much has not reached the office.
pub fn unsent_words((entries, photos): (u64, u64)) -> String {
    match (entries, photos) {
        (0, 0) => "Everything here is receipted by the office.".to_owned(),
        _ => format!(
            "Only here so far: {entries} entries and {photos} photographs without the office's receipt."
        ),
    }
}

/// Returns which device this is and who makes the entries.
///
/// # Errors
/// Returns a [`DeviceError`] when a rule refuses the request or the device's folder fails.
pub fn whoami(folder: &mut DeviceFolder) -> Result<CommandOutput, DeviceError> {
    let device = folder.read().device();
    let certificate = folder.certified()?;
    let operator = folder.operator()?;
    let unsent = unsent(folder)?;
    let stamp = folder.read().stamp()?;
    let server = folder.server()?;
    let (name, state) = match &certificate {
        Some(certificate) => {
            let revoked = if certificate.revoked_at.is_some() { ", REVOKED" } else { "" };
            (certificate.name.clone(), format!("enrolled as {}{revoked}", certificate.role.as_str()))
        }
        None => (folder.own_name()?, "not enrolled yet".to_owned()),
    };
    let clock = match stamp.ahead_millis {
        Some(ahead) => match farsiding_host::clock_words(ahead) {
            words if words.is_empty() => "agrees with the office's within two minutes".to_owned(),
            words => words.trim_start_matches(" · its clock is ").to_owned() + " of the office's",
        },
        None => "never compared with the office's".to_owned(),
    };
    let log = folder.read().log_standing()?;
    let log_words = log.as_ref().map_or_else(String::new, |s| office_log::standing_words(s) + "\n");
    let text = format!(
        "Device {}{}, {state}\nOperator: {}\nServer: {}\nClock: {} ({clock})\n{log_words}{}",
        device.short(),
        if name.is_empty() { String::new() } else { format!(" \"{name}\"") },
        if operator.0.is_empty() { "nobody yet (`farsiding device operator CODE`)" } else { &operator.0 },
        server.as_deref().unwrap_or("none yet"),
        stamp.local(),
        unsent_words(unsent),
    );
    let json = json!({
        "device": device.to_string(), "name": name, "enrolled": certificate.is_some(),
        "role": certificate.as_ref().map(|c| c.role.as_str()),
        "revoked": certificate.as_ref().is_some_and(|c| c.revoked_at.is_some()),
        "organisation": certificate.as_ref().map(|c| c.organisation.to_string()),
        "operator": operator.0, "server": server, "clock": stamp.at.rfc3339(),
        "clock_ahead_millis": stamp.ahead_millis,
        "unreceipted_entries": unsent.0, "unsent_photos": unsent.1,
        "log": log.as_ref().map(office_log::standing_json),
    });
    Ok(CommandOutput::new(text, json))
}

/// Remembers who makes the entries of later commands.
///
/// # Errors
/// Returns a [`DeviceError`] when a rule refuses the request or the device's folder fails.
pub fn remember_operator(folder: &mut DeviceFolder, code: &str) -> Result<CommandOutput, DeviceError> {
    if code.trim().is_empty() || code.chars().count() > 64 || code.chars().any(char::is_control) {
        return Err(DeviceError::Refused("an operator's code has 1 to 64 characters on one line".to_owned()));
    }
    folder.remember_operator(code)?;
    Ok(CommandOutput::new(
        format!("Entries are made by {} from now on.", code.trim()),
        json!({ "operator": code.trim() }),
    ))
}

/// Lists stays.
///
/// # Errors
/// Returns a [`DeviceError`] when a rule refuses the request or the device's folder fails.
pub fn list(folder: &mut DeviceFolder, all: bool) -> Result<CommandOutput, DeviceError> {
    let gathered = folder.read().gather()?;
    let mut rows = gathered.rows(&procedures()?);
    rows.retain(|row| all || !row.released);
    rows.sort_by_key(|row| row.since);
    let mut text = String::new();
    for row in &rows {
        let id = row.visits.first().map(VisitId::short).unwrap_or_default();
        let unsent = match row.unreceipted {
            0 => String::new(),
            n => format!(" · {n} not at the office"),
        };
        let state = if row.released { "released".to_owned() } else { english(&row.stage.term()) };
        text.push_str(&format!(
            "{id}  {:<12} {:<16} {:<14} since {}{}{unsent}\n",
            row.car,
            row.site_name,
            state,
            row.since_shown,
            if row.kept_by.is_empty() { String::new() } else { format!(" · {}", english(&row.kept_by)) },
        ));
    }
    if rows.is_empty() {
        text.push_str("No visit here. Begin one: farsiding device open --car NUMBER --site SITE\n");
    }
    let unsent = unsent(folder)?;
    text.push_str(&unsent_words(unsent));
    let json = json!({
        "visits": as_json(&rows)?, "unreceipted_entries": unsent.0, "unsent_photos": unsent.1,
        "damaged": gathered.damaged,
    });
    Ok(CommandOutput::new(text, json))
}

/// Shows one stay in full, in the language of `words`.
///
/// # Errors
/// Returns a [`DeviceError`] when a rule refuses the request or the device's folder fails.
pub fn show(
    folder: &mut DeviceFolder,
    visit: &str,
    words: &'static Words,
) -> Result<CommandOutput, DeviceError> {
    let open_stay = OpenStay::with(folder, visit)?;
    let warnings = office_log::warnings(open_stay.folder)?;
    let loud: String = warnings.iter().map(|warning| format!("WARNING: {warning}\n")).collect();
    let json = json!({ "visit": as_json(&open_stay.view)?, "log_warnings": warnings });
    Ok(CommandOutput::new(format!("{loud}{}", farsiding_printed::show(&open_stay.view, words)), json))
}

/// Returns every entry of a stay, with the id that other commands use for the entry.
///
/// # Errors
/// Returns a [`DeviceError`] when a rule refuses the request or the device's folder fails.
pub fn history(folder: &mut DeviceFolder, visit: &str) -> Result<CommandOutput, DeviceError> {
    let open_stay = OpenStay::with(folder, visit)?;
    let mut text = String::new();
    for line in &open_stay.view.history {
        let mark = if line.said.receipted { "at the office" } else { "only here" };
        text.push_str(&format!(
            "{}  {}  {} · {mark}{}{}\n",
            line.said.entry.short(),
            english(&line.sentence),
            english(&line.said.signature()),
            match line.fate {
                Fate::Live => String::new(),
                Fate::Kept => format!(" · {}", english(&line.why_gone)),
                fate => format!(" · {}", as_json(&fate)?.as_str().unwrap_or_default().replace('_', " ")),
            },
            if line.said.why.is_empty() { String::new() } else { format!(" · why: {}", line.said.why) },
        ));
    }
    Ok(CommandOutput::new(text, json!({ "history": as_json(&open_stay.view.history)? })))
}

/// Returns the next steps at a car, with the commands that record them.
///
/// # Errors
/// Returns a [`DeviceError`] when a rule refuses the request or the device's folder fails.
pub fn next(folder: &mut DeviceFolder, visit: &str) -> Result<CommandOutput, DeviceError> {
    let open_stay = OpenStay::with(folder, visit)?;
    let view = &open_stay.view;
    let steps = |ids: &[String]| ids.iter().filter_map(|id| view.steps.step(id)).cloned().collect::<Vec<_>>();
    let (next, behind) = (steps(&view.steps.next), steps(&view.steps.left_behind));
    let mut text = format!("{}: {}\n", view.header.car, english(&view.stage.term()));
    if !view.steps.again.is_empty() {
        text.push_str("Asked again, since the car was left or moved, before anything else:\n");
    }
    for step in &next {
        text.push_str(&step_words(view, step));
    }
    if next.is_empty() {
        text.push_str("Nothing further in the procedure.\n");
    }
    if !behind.is_empty() {
        text.push_str("\nLeft open earlier:\n");
        for step in &behind {
            text.push_str(&format!("  {} ({})\n", english(&step.title), step.id));
        }
    }
    Ok(CommandOutput::new(
        text,
        json!({
            "stage": view.stage.word(),
            "next": as_json(&next)?,
            "again": view.steps.again,
            "left_behind": as_json(&behind)?,
        }),
    ))
}

fn step_words(view: &VisitView, step: &StepView) -> String {
    let mut text = format!("\n{} ({})\n  {}\n", english(&step.title), step.id, english(&step.what_to_do));
    for caution in &step.cautions {
        text.push_str(&format!("  CAUTION: {}\n", english(caution)));
    }
    text.push_str(&format!("  Asked by: {}\n", english(&step.source)));
    let car = view.header.car.replace(' ', "");
    for record in &step.missing {
        text.push_str(&format!("  $ farsiding device {}\n", typed(&car, record, step)));
    }
    if step.records.is_empty() {
        text.push_str(&format!("  $ farsiding device add {car} step {} done\n", step.id));
    }
    text
}

/// Returns the command that records a step. Unknown values are shown in capitals.
fn typed(car: &str, record: &Record, step: &StepView) -> String {
    let record = record.named_for(step.fitting);
    let value = serde_json::to_value(&record).unwrap_or_default();
    let known = |name: &str| match value.get(name) {
        Some(Value::Bool(yes)) => Some(if *yes { "yes" } else { "no" }.to_owned()),
        Some(Value::String(text)) if text.contains(' ') => Some(format!("\"{text}\"")),
        Some(Value::String(text)) => Some(text.clone()),
        _ => None,
    };
    let kind = value.get("statement").and_then(Value::as_str).unwrap_or_default();
    match (kind, forms::VISIT_FORMS.iter().find(|form| form.kind == kind)) {
        ("photo", _) => format!("photo {car} FILE --of {}", known("of").unwrap_or_default()),
        ("released", _) => format!("release {car}"),
        (_, Some(form)) => {
            let mut text = format!("add {car} {kind}");
            for field in form.fields.iter().filter(|field| field.must) {
                let fitting = step.fitting.filter(|_| field.name == "fitting").map(|f| f.word().to_owned());
                let word = fitting.or_else(|| known(field.name)).unwrap_or_else(|| field.name.to_uppercase());
                text.push_str(&format!(" {word}"));
            }
            text
        }
        (kind, None) => format!("({kind})"),
    }
}

/// Finds stays by a car number or a seal number.
///
/// # Errors
/// Returns a [`DeviceError`] when a rule refuses the request or the device's folder fails.
pub fn find(folder: &mut DeviceFolder, wanted: &str) -> Result<CommandOutput, DeviceError> {
    let gathered = folder.read().gather()?;
    let procedures = procedures()?;
    let sought = Sought::new(wanted);
    let (mut text, mut found) = (String::new(), Vec::new());
    for stay in gathered.stays() {
        let Some(view) = stay.first().and_then(|visit| gathered.view(*visit, &procedures)) else { continue };
        let mut why: Vec<String> = match sought.car(&CarNumber(view.header.car.clone())) {
            Some(CarLikeness::Same) => vec!["this car".to_owned()],
            Some(CarLikeness::Near) => vec!["a similar car number".to_owned()],
            None => Vec::new(),
        };
        let of_seals = view.history.iter().filter(|line| line.slot.starts_with("seal/"));
        why.extend(
            of_seals.map(|line| english(&line.sentence)).filter(|sentence| sought.is_word_of(sentence)),
        );
        if why.is_empty() {
            continue;
        }
        let id = stay.first().map(VisitId::short).unwrap_or_default();
        text.push_str(&format!(
            "{id}  {}  {}  since {}  · {}\n",
            view.header.car,
            view.header.site_name,
            view.header.since_shown,
            why.join("; ")
        ));
        found.push(json!({ "visit": stay, "car": view.header.car, "why": why }));
    }
    if found.is_empty() {
        text = format!("Nothing here is \"{wanted}\": neither a car nor a seal.");
    }
    Ok(CommandOutput::new(text, json!({ "found": found })))
}

/// Returns how many entries the office's receipts cover, and since when.
///
/// # Errors
/// Returns a [`DeviceError`] when a rule refuses the request or the device's folder fails.
pub fn receipts(folder: &mut DeviceFolder, visit: Option<&str>) -> Result<CommandOutput, DeviceError> {
    let key = folder.read().organisation_keys()?;
    let (mut text, mut listed) = (String::new(), Vec::new());
    if let (Some(visit), Some(key)) = (visit, key) {
        let open_stay = OpenStay::with(folder, visit)?;
        for line in &open_stay.view.history {
            let receipts = open_stay.folder.read().store().receipts_of(line.said.entry)?;
            let held: Vec<String> = receipts
                .iter()
                .filter_map(|bytes| Receipt::from_bytes(bytes).ok()?.check(&key).ok())
                .map(|at| at.rfc3339())
                .collect();
            let words =
                held.first().map_or("only here".to_owned(), |at| format!("the office had it at {at}"));
            text.push_str(&format!("{}  {words}  {}\n", line.said.entry.short(), english(&line.sentence)));
            listed.push(
                json!({ "entry": line.said.entry, "held_at": held.first(), "checked": !held.is_empty() }),
            );
        }
    }
    let unsent = unsent(folder)?;
    text.push_str(&unsent_words(unsent));
    let count = folder.read().store().tally()?.count;
    let json = json!({
        "entries": count, "unreceipted_entries": unsent.0, "unsent_photos": unsent.1, "receipts": listed,
    });
    Ok(CommandOutput::new(text, json))
}

/// Returns the drafts: what was typed and could not be recorded.
///
/// # Errors
/// Returns a [`DeviceError`] when a rule refuses the request or the device's folder fails.
pub fn drafts(folder: &mut DeviceFolder, clear: bool) -> Result<CommandOutput, DeviceError> {
    let drafts = folder.read().store().drafts()?;
    if clear {
        for (key, _) in &drafts {
            folder.book().store_mut().commit(&[Write::Draft { key, text: "" }])?;
        }
        return Ok(CommandOutput::new(
            format!("{} drafts are gone.", drafts.len()),
            json!({ "cleared": drafts.len() }),
        ));
    }
    let lines: Vec<String> = drafts.iter().map(|(key, text)| format!("{key}: {text}")).collect();
    let text = if lines.is_empty() { "No drafts.".to_owned() } else { lines.join("\n") };
    let listed: Vec<Value> = drafts.iter().map(|(key, text)| json!({ "key": key, "text": text })).collect();
    Ok(CommandOutput::new(text, json!({ "drafts": listed })))
}
