//! The commands that describe sites and the organisation's people, one statement at a time or from a file.
//!
//! A file may be loaded repeatedly: only what differs from the record is recorded.

use std::collections::BTreeMap;
use std::path::Path;

use farsiding_core::book::{BookError, Draft, Roster};
use farsiding_core::entry::{Entry, Statement};
use farsiding_core::ids::{SiteId, Subject};
use farsiding_core::sync::SyncError;
use farsiding_core::view::Slots;
use serde_json::{Map, Value, json};

use super::folder::DeviceFolder;
use super::forms::{self, Form, Words};
use super::open_stay::FoldCache;
use super::recording::sort_words;
use super::{DeviceError, address};
use farsiding_host::CommandOutput;

/// Describes a new site.
///
/// # Errors
/// Returns a [`DeviceError`] when a rule refuses the request or the device's folder fails.
pub fn new(folder: &mut DeviceFolder, words: Vec<String>) -> Result<CommandOutput, DeviceError> {
    let id = SiteId::random(folder.book().randomness());
    let form = forms::form_of("site", forms::SITE_FORMS)?;
    let name = add(folder, Subject::Site(id), form, words)?;
    Ok(CommandOutput::new(
        format!("Site {} is described: {}", id.short(), name.text),
        json!({ "site": id.to_string() }),
    ))
}

/// Adds something to a site, or changes something of it. `kind` is one of [`forms::SITE_FORMS`].
///
/// # Errors
/// Returns a [`DeviceError`] when a rule refuses the request or the device's folder fails.
pub fn set(
    folder: &mut DeviceFolder,
    site: &str,
    kind: &str,
    words: Vec<String>,
) -> Result<CommandOutput, DeviceError> {
    let gathered = folder.read().gather()?;
    let id = address::site(&gathered, site)?;
    let form = forms::form_of(kind, forms::SITE_FORMS)?;
    add(folder, Subject::Site(id), form, words)
}

/// Records a person of the organisation, or changes what is recorded of the person.
///
/// # Errors
/// Returns a [`DeviceError`] when a rule refuses the request or the device's folder fails.
pub fn person(folder: &mut DeviceFolder, words: Vec<String>) -> Result<CommandOutput, DeviceError> {
    let roster = roster(folder)?;
    let form = forms::form_of("operator", forms::ROSTER_FORMS)?;
    add(folder, roster, form, words)
}

/// Sets when people sign and what an operator's device may do. A setting that is not given keeps its value.
///
/// # Errors
/// Returns a [`DeviceError`] when a rule refuses the request or the device's folder fails.
pub fn rules(folder: &mut DeviceFolder, words: Vec<String>) -> Result<CommandOutput, DeviceError> {
    let subject = roster(folder)?;
    let form = forms::form_of("rules", forms::RULES_FORMS)?;
    let key = folder.read().organisation_key()?.ok_or(BookError::Sync(SyncError::NotEnrolled))?;
    let known = Roster::read(folder.read().store(), &key)?.rules;
    let before = serde_json::to_value(known).map_err(|e| DeviceError::Failed(e.to_string()))?;
    add_to(folder, subject, form, words, before.as_object().cloned())
}

/// Returns the list of the organisation's people.
///
/// # Errors
/// Returns a [`DeviceError`] when a rule refuses the request or the device's folder fails.
pub fn people(folder: &mut DeviceFolder) -> Result<CommandOutput, DeviceError> {
    let gathered = folder.read().gather()?;
    let mut text = String::new();
    for person in gathered.people.values() {
        let trained = if person.trained_on.is_empty() { "training not known" } else { &person.trained_on };
        let gone = if person.active { "" } else { " · no longer with us" };
        text.push_str(&format!("{}  {}  {trained}{gone}\n", person.operator, person.name));
    }
    if gathered.people.is_empty() {
        text.push_str("Nobody is on the roster yet: farsiding device person CODE NAME");
    }
    let people: Vec<_> = gathered.people.values().collect();
    Ok(CommandOutput::new(text, json!({ "people": people })))
}

fn roster(folder: &DeviceFolder) -> Result<Subject, DeviceError> {
    let certificate = folder.certified()?.ok_or_else(|| {
        DeviceError::NotEnrolled(
            "the roster is the organisation's: enrol this device first (`farsiding device enrol`)".to_owned(),
        )
    })?;
    Ok(Subject::Roster(certificate.organisation))
}

fn entries(folder: &DeviceFolder, subject: Subject) -> Result<Vec<Entry>, DeviceError> {
    Ok(folder.read().entries(subject)?.0.into_iter().map(|(entry, _)| entry).collect())
}

/// Records one statement typed as words.
fn add(
    folder: &mut DeviceFolder,
    subject: Subject,
    form: &Form,
    words: Vec<String>,
) -> Result<CommandOutput, DeviceError> {
    add_to(folder, subject, form, words, None)
}

/// Records one statement typed as words. A field that is not typed keeps its value from `before`.
fn add_to(
    folder: &mut DeviceFolder,
    subject: Subject,
    form: &Form,
    words: Vec<String>,
    before: Option<Map<String, Value>>,
) -> Result<CommandOutput, DeviceError> {
    let (options, typed) = sort_words(words, form.fields)?;
    if options.operator.is_some() {
        folder.speak_as(options.operator.clone());
    }
    let known = entries(folder, subject)?;
    let mut replaces = Vec::new();
    for text in &options.replaces {
        let visit = farsiding_core::ids::VisitId([0; 16]); // a placeholder: only the entry is used
        replaces.push(address::entry(known.iter().map(|entry| (visit, entry)), text)?.1.id);
    }
    let mut around = FoldCache::of(folder, None)?;
    let filled = forms::fill(form, typed, before, &mut around)?;
    let by = folder.operator()?;
    let draft = Draft { replaces, why: options.why, ..Draft::of(filled.says) };
    let made = folder.book().append(subject, vec![draft], &by)?;
    let mut text = format!("recorded {}", form.kind);
    for remark in &filled.remarks {
        text.push_str(&format!("\n  note: {remark}"));
    }
    let entries: Vec<String> = made.iter().map(ToString::to_string).collect();
    Ok(CommandOutput::new(text, json!({ "entries": entries, "remarks": filled.remarks })))
}

/// Records the statements of a file that differ from what is known.
pub fn load(folder: &mut DeviceFolder, file: &Path) -> Result<CommandOutput, DeviceError> {
    let refuse = |why: String| DeviceError::Refused(format!("{}: {why}", file.display()));
    let text = std::fs::read_to_string(file).map_err(|e| refuse(e.to_string()))?;
    let value: Value = if text.trim_start().starts_with('{') {
        serde_json::from_str(&text).map_err(|e| refuse(e.to_string()))?
    } else {
        toml::from_str(&text).map_err(|e| refuse(e.to_string()))?
    };
    let sections = value.as_object().ok_or_else(|| refuse("it holds no sections".to_owned()))?;
    let (mut of_site, mut of_roster, mut remarks) = (Vec::new(), Vec::new(), Vec::new());
    let mut around = FoldCache::of(folder, None)?;
    for (kind, section) in sections {
        let (form, home) = match forms::form_of(kind, forms::SITE_FORMS) {
            Ok(form) => (form, &mut of_site),
            Err(unknown) => match forms::form_of(kind, forms::ROSTER_FORMS) {
                Ok(form) => (form, &mut of_roster),
                Err(_) => return Err(refuse(unknown.to_string())),
            },
        };
        let items = section.as_array().cloned().unwrap_or_else(|| vec![section.clone()]);
        for item in items {
            let words = words_of(&item).ok_or_else(|| refuse(format!("[{kind}] is no table")))?;
            let filled = forms::fill(form, words, None, &mut around).map_err(|e| refuse(e.to_string()))?;
            home.push(filled.says);
            remarks.extend(filled.remarks);
        }
    }
    let mut json = json!({ "remarks": remarks });
    let mut text = String::new();
    if !of_site.is_empty() {
        let site = site_in(folder, &of_site, sections.get("site").and_then(|site| site.get("id")))?;
        let recorded = record_changes(folder, Subject::Site(site), of_site)?;
        text.push_str(&format!(
            "Site {}: {recorded} statements recorded, the rest was known.\n",
            site.short()
        ));
        json["site"] = site.to_string().into();
        json["recorded"] = recorded.into();
    }
    if !of_roster.is_empty() {
        let roster = roster(folder)?;
        let recorded = record_changes(folder, roster, of_roster)?;
        text.push_str(&format!("Roster: {recorded} statements recorded, the rest was known.\n"));
        json["recorded_people"] = recorded.into();
    }
    for remark in &remarks {
        text.push_str(&format!("  note: {remark}\n"));
    }
    Ok(CommandOutput::new(text, json))
}

/// Returns the values of a table as words. `id` is left out because it is not a field of any form.
fn words_of(table: &Value) -> Option<Words> {
    let mut named = BTreeMap::new();
    for (name, value) in table.as_object()?.iter().filter(|(name, _)| *name != "id") {
        let text = match value {
            Value::String(text) => text.clone(),
            Value::Bool(yes) => if *yes { "yes" } else { "no" }.to_owned(),
            other => other.to_string(),
        };
        named.insert(name.clone(), text);
    }
    Some(Words { named, plain: Vec::new() })
}

/// Returns the site that a file describes: found by its id, found by its name, or new.
fn site_in(folder: &mut DeviceFolder, says: &[Statement], id: Option<&Value>) -> Result<SiteId, DeviceError> {
    if let Some(id) = id.and_then(Value::as_str) {
        return SiteId::read(id).map_err(|e| DeviceError::Refused(e.to_string()));
    }
    let name = says.iter().find_map(|says| match says {
        Statement::Site(profile) => Some(profile.name.as_str()),
        _ => None,
    });
    let name =
        name.ok_or_else(|| DeviceError::Refused("the file needs a [site] with its name".to_owned()))?;
    let gathered = folder.read().gather()?;
    if gathered.sites.values().any(|site| site.name.trim().eq_ignore_ascii_case(name.trim())) {
        return address::site(&gathered, name);
    }
    Ok(SiteId::random(folder.book().randomness()))
}

fn record_changes(
    folder: &mut DeviceFolder,
    subject: Subject,
    says: Vec<Statement>,
) -> Result<usize, DeviceError> {
    let known = entries(folder, subject)?;
    let slots =
        Slots::fold(folder.read().gather()?.authority().document(subject, known.iter().map(|e| (e, None))));
    let is_known = |says: &Statement| {
        slots.latest(&says.slot()).and_then(|item| item.claim).is_some_and(|claim| claim == says)
    };
    let drafts: Vec<Draft> = says.into_iter().filter(|says| !is_known(says)).map(Draft::of).collect();
    let count = drafts.len();
    if count > 0 {
        let by = folder.operator()?;
        folder.book().append(subject, drafts, &by)?;
    }
    Ok(count)
}

/// Returns the list of the sites this device knows.
///
/// # Errors
/// Returns a [`DeviceError`] when a rule refuses the request or the device's folder fails.
pub fn list(folder: &mut DeviceFolder) -> Result<CommandOutput, DeviceError> {
    let gathered = folder.read().gather()?;
    let mut text = String::new();
    let mut sites = Vec::new();
    for (id, site) in &gathered.sites {
        text.push_str(&format!("{}  {}  {}\n", id.short(), site.name, site.zone));
        sites.push(json!({ "site": id.to_string(), "name": site.name, "zone": site.zone }));
    }
    if sites.is_empty() {
        text.push_str("No site is known here yet.");
    }
    Ok(CommandOutput::new(text, json!({ "sites": sites })))
}

/// Returns a site with everything that belongs to it. The site is given by its name or id.
///
/// # Errors
/// Returns a [`DeviceError`] when a rule refuses the request or the device's folder fails.
pub fn show(folder: &mut DeviceFolder, text: &str) -> Result<CommandOutput, DeviceError> {
    let gathered = folder.read().gather()?;
    let id = address::site(&gathered, text)?;
    let site = gathered.sites.get(&id).cloned().unwrap_or_default();
    let mut text = format!("{} ({})\n", site.name, id.short());
    let elevation = site.elevation.as_ref().map_or("not known".to_owned(), |e| e.shown());
    text.push_str(&format!("  zone {}, elevation {elevation}\n", site.zone));
    if !site.organisation.is_empty() {
        text.push_str(&format!("  organisation: {}\n", site.organisation));
    }
    if !site.address.is_empty() {
        text.push_str(&format!("  address: {}\n", site.address));
    }
    if !site.local_rules.is_empty() {
        text.push_str(&format!("  local rules: {}\n", site.local_rules));
    }
    for tank in &site.tanks {
        let buried = if tank.underground { ", underground" } else { "" };
        text.push_str(&format!("  tank {}: {}{buried}\n", tank.name, tank.water_capacity.shown()));
    }
    for i in &site.instruments {
        text.push_str(&format!(
            "  instrument {}: {}, span {}, grade {}, calibration due {}\n",
            i.name,
            i.measures,
            i.span.shown(),
            or_unknown(&i.grade),
            or_unknown(&i.calibration_due)
        ));
    }
    for hose in &site.hoses {
        text.push_str(&format!(
            "  hose {}: {}, test due {}\n",
            hose.name,
            hose.service,
            or_unknown(&hose.test_due)
        ));
    }
    for contact in &site.contacts {
        text.push_str(&format!(
            "  {}: {}, {} {}\n",
            contact.role, contact.name, contact.telephone, contact.note
        ));
    }
    for stock in &site.seal_stock {
        text.push_str(&format!("  seals {} to {}, {}\n", stock.from, stock.to, stock.kind));
    }
    for slot in &site.disputed {
        text.push_str(&format!("  disagreement: {slot}\n"));
    }
    Ok(CommandOutput::new(text, json!({ "site": site })))
}

fn or_unknown(text: &str) -> &str {
    if text.is_empty() { "not known" } else { text }
}
