//! The commands that make entries: open, add, settle, withdraw, pass over, release and join.

use std::io::BufRead as _;

use farsiding_core::book::{Draft, OpenVisit};
use farsiding_core::entry::Statement;
use farsiding_core::entry::vocabulary::{Gate, Receiver};
use farsiding_core::ids::{EntryId, Subject, VisitId};
use farsiding_core::store::Write;
use farsiding_core::view::Blocker;
use serde_json::json;

use super::asked::{Joining, Opening, Settling};
use super::folder::DeviceFolder;
use super::forms::{self, Surrounding as _, Words};
use super::open_stay::{FoldCache, OpenStay, procedures};
use super::{DeviceError, address, shapes};
use farsiding_host::CommandOutput;
use farsiding_words::english;

/// Begins a visit.
///
/// # Errors
/// Returns a [`DeviceError`] when a rule refuses the request or the device's folder fails.
pub fn open(folder: &mut DeviceFolder, typed: Opening) -> Result<CommandOutput, DeviceError> {
    let gathered = folder.read().gather()?;
    let site = address::site(&gathered, &typed.site)?;
    let words: Vec<&'static str> = Receiver::ALL.iter().map(|word| word.word()).collect();
    let receiver = Receiver::read(shapes::word(&typed.receiver, &words)?);
    let receiver = receiver.ok_or_else(|| DeviceError::Refused("say what receives the cargo".to_owned()))?;
    let procedures = procedures()?;
    let procedure = folder
        .read()
        .gather()?
        .procedure_for(site, &procedures)
        .ok_or_else(|| DeviceError::Failed("this version has no procedure built in".to_owned()))?;
    let by = folder.operator()?;
    let visit = folder
        .book()
        .open_visit(OpenVisit { car: typed.car, site, receiver, procedure, spot: typed.spot }, &by)?;
    let gathered = folder.read().gather()?;
    let view = gathered
        .view(visit, &procedures)
        .ok_or_else(|| DeviceError::Failed("the visit just opened is not there".to_owned()))?;
    let mut text = format!("Visit {} of {} is open.\n", visit.short(), view.header.car);
    let offers: Vec<String> = view.offers.iter().map(|offer| english(&offer.sentence)).collect();
    for offer in &offers {
        text.push_str(&format!("  look: {offer}\n"));
    }
    let findings: Vec<String> = view.findings.iter().map(|finding| english(&finding.message)).collect();
    for finding in &findings {
        text.push_str(&format!("  look: {finding}\n"));
    }
    let json = json!({
        "visit": visit.to_string(), "car": view.header.car, "site": site.to_string(),
        "offers": offers, "findings": findings,
    });
    Ok(CommandOutput::new(text, json))
}

/// The options that may stand among the words of a statement.
#[derive(Debug, Default)]
pub struct Options {
    /// The entries that the statement replaces.
    pub replaces: Vec<String>,
    /// The reason.
    pub why: String,
    /// Who makes the statement.
    pub operator: Option<String>,
    /// When the thing was done, as typed, if that was earlier.
    pub done: Option<String>,
}

/// Sorts the words typed after the kind into options, named fields and plain words.
///
/// # Errors
/// Returns [`DeviceError::Refused`] for an option without a value.
pub fn sort_words(words: Vec<String>, fields: &[forms::Field]) -> Result<(Options, Words), DeviceError> {
    let (mut options, mut sorted) = (Options::default(), Words::default());
    let mut rest = words.into_iter();
    while let Some(word) = rest.next() {
        let Some(name) = word.strip_prefix("--").filter(|name| !name.is_empty()) else {
            match word.split_once('=') {
                Some((name, value)) if fields.iter().any(|f| f.name == name.replace('-', "_")) => {
                    sorted.named.insert(name.to_owned(), value.to_owned());
                }
                _ => sorted.plain.push(word),
            }
            continue;
        };
        if name == "json" {
            continue; // the caller reads this option when it prints the answer
        }
        let (name, value) = match name.split_once('=') {
            Some((name, value)) => (name.to_owned(), Some(value.to_owned())),
            None => (name.to_owned(), rest.next()),
        };
        let value = value
            .ok_or_else(|| DeviceError::Refused(format!("--{name} is given without what it stands for")))?;
        match name.as_str() {
            "replaces" => options.replaces.push(value),
            "why" => options.why = value,
            "operator" => options.operator = Some(value),
            "done" => options.done = Some(value),
            _ => {
                sorted.named.insert(name, value);
            }
        }
    }
    Ok((options, sorted))
}

/// Records a typed statement. If the statement cannot be recorded, it is kept as a draft.
///
/// # Errors
/// Returns a [`DeviceError`] when a rule refuses the request or the device's folder fails.
pub fn add(folder: &mut DeviceFolder, visit: &str, words: Vec<String>) -> Result<CommandOutput, DeviceError> {
    let kept = words.join(" ");
    match try_add(folder, visit, words) {
        Err(DeviceError::Refused(why)) => {
            let key = format!("add {visit} {}", folder.read().now().0);
            folder.book().store_mut().commit(&[Write::Draft { key: &key, text: &kept }])?;
            Err(DeviceError::Refused(format!("{why}\nWhat was typed is kept: `farsiding device drafts`")))
        }
        outcome => outcome,
    }
}

fn try_add(folder: &mut DeviceFolder, visit: &str, words: Vec<String>) -> Result<CommandOutput, DeviceError> {
    let mut words = words.into_iter();
    let first = words.next().unwrap_or_default();
    let rest: Vec<String> = words.collect();
    if first == "-" {
        return add_lines(folder, visit, rest);
    }
    if first.trim_start().starts_with('{') {
        let (options, _) = sort_words(rest, &[])?;
        return add_json(folder, visit, &first, options);
    }
    let form = forms::form_of(&first, forms::VISIT_FORMS)?;
    let (options, typed) = sort_words(rest, form.fields)?;
    if options.operator.is_some() {
        folder.speak_as(options.operator.clone());
    }
    let open_stay = OpenStay::with(folder, visit)?;
    let (home, replaces, before) = replaced(&open_stay, &options)?;
    let before =
        before.and_then(|says| serde_json::to_value(says).ok()?.get(form.kind)?.as_object().cloned());
    let current = if form.kind == "opened" && before.is_none() {
        let why = "to correct how the visit was opened, say --replaces ENTRY and --why";
        return Err(DeviceError::Refused(why.to_owned()));
    } else {
        before
    };
    let mut around = FoldCache::of(open_stay.folder, Some(&open_stay.view))?;
    let filled = forms::fill(form, typed, current, &mut around)?;
    let done = options.done.as_deref().map(|text| shapes::time(text, around.here())).transpose()?;
    let draft = Draft { replaces, why: options.why, done, ..Draft::of(filled.says) };
    open_stay.record(home, vec![draft], &filled.remarks)
}

/// Returns the entries that a correction replaces, the visit they belong to, and the statement of the first
/// one.
fn replaced(
    open_stay: &OpenStay<'_>,
    options: &Options,
) -> Result<(VisitId, Vec<EntryId>, Option<Statement>), DeviceError> {
    let stay = open_stay.stay();
    let (mut home, mut ids, mut before) = (open_stay.visit, Vec::new(), None);
    for text in &options.replaces {
        let (visit, entry) = address::entry(open_stay.gathered.entries_of(&stay), text)?;
        if before.is_none() {
            (home, before) = (visit, Some(entry.body.says.clone()));
        }
        ids.push(entry.id);
    }
    if !ids.is_empty() && options.why.trim().is_empty() {
        return Err(DeviceError::Refused("a correction says why: add --why \"…\"".to_owned()));
    }
    Ok((home, ids, before))
}

fn read_statement(text: &str) -> Result<Statement, DeviceError> {
    serde_json::from_str(text).map_err(|e| DeviceError::Refused(format!("this JSON is no statement: {e}")))
}

fn add_json(
    folder: &mut DeviceFolder,
    visit: &str,
    text: &str,
    options: Options,
) -> Result<CommandOutput, DeviceError> {
    let says = read_statement(text)?;
    if options.operator.is_some() {
        folder.speak_as(options.operator.clone());
    }
    let open_stay = OpenStay::with(folder, visit)?;
    let (home, replaces, _) = replaced(&open_stay, &options)?;
    let here = FoldCache::of(open_stay.folder, Some(&open_stay.view))?.here();
    let done = options.done.as_deref().map(|text| shapes::time(text, here)).transpose()?;
    let draft = Draft { replaces, why: options.why, done, ..Draft::of(says) };
    open_stay.record(home, vec![draft], &[])
}

/// Records statements from standard input, one JSON object per line. Either all of them are recorded or none.
fn add_lines(
    folder: &mut DeviceFolder,
    visit: &str,
    rest: Vec<String>,
) -> Result<CommandOutput, DeviceError> {
    let (options, _) = sort_words(rest, &[])?;
    if options.operator.is_some() {
        folder.speak_as(options.operator);
    }
    let (mut drafts, done) = (Vec::new(), options.done);
    for (at, line) in std::io::stdin().lock().lines().enumerate() {
        let line = line?;
        if line.trim().is_empty() {
            continue;
        }
        let says =
            read_statement(&line).map_err(|e| DeviceError::Refused(format!("line {}: {e}", at + 1)))?;
        drafts.push(Draft::of(says));
    }
    let open_stay = OpenStay::with(folder, visit)?;
    let here = FoldCache::of(open_stay.folder, Some(&open_stay.view))?.here();
    let done = done.map(|text| shapes::time(&text, here)).transpose()?;
    drafts.iter_mut().for_each(|draft: &mut Draft| draft.done = done);
    let home = open_stay.visit;
    open_stay.record(home, drafts, &[])
}

/// Settles a disagreement in favour of one entry.
///
/// # Errors
/// Returns a [`DeviceError`] when a rule refuses the request or the device's folder fails.
pub fn settle(folder: &mut DeviceFolder, typed: &Settling) -> Result<CommandOutput, DeviceError> {
    let open_stay = OpenStay::with(folder, &typed.visit)?;
    let stay = open_stay.stay();
    let (home, kept) = address::entry(open_stay.gathered.entries_of(&stay), &typed.entry)?;
    let kept = kept.id;
    if !open_stay.view.disagreements.iter().any(|disagreement| disagreement.entries.contains(&kept)) {
        let open: Vec<String> = open_stay
            .view
            .disagreements
            .iter()
            .flat_map(|d| {
                d.entries
                    .iter()
                    .zip(&d.claims)
                    .map(|(id, c)| format!("{}: {}", id.short(), english(&c.sentence)))
            })
            .collect();
        let open = if open.is_empty() { "there is none".to_owned() } else { open.join("; ") };
        return Err(DeviceError::Refused(format!("that entry is in no open disagreement; {open}")));
    }
    let draft = Draft::settling(&open_stay.view, kept, &typed.why)?;
    open_stay.record(home, vec![draft], &[])
}

/// Takes back a settlement.
///
/// # Errors
/// Returns a [`DeviceError`] when a rule refuses the request or the device's folder fails.
pub fn reopen(
    folder: &mut DeviceFolder,
    visit: &str,
    text: &str,
    why: &str,
) -> Result<CommandOutput, DeviceError> {
    let open_stay = OpenStay::with(folder, visit)?;
    let stay = open_stay.stay();
    let (home, entry) = address::entry(open_stay.gathered.entries_of(&stay), text)?;
    let draft = Draft::reopening(&open_stay.view, entry.id, why)?;
    open_stay.record(home, vec![draft], &[])
}

/// Withdraws an entry.
///
/// # Errors
/// Returns a [`DeviceError`] when a rule refuses the request or the device's folder fails.
pub fn withdraw(
    folder: &mut DeviceFolder,
    visit: &str,
    text: &str,
    why: &str,
) -> Result<CommandOutput, DeviceError> {
    let open_stay = OpenStay::with(folder, visit)?;
    let stay = open_stay.stay();
    let (home, entry) = address::entry(open_stay.gathered.entries_of(&stay), text)?;
    let draft = Draft::withdrawing(&open_stay.view, entry.id, why)?;
    open_stay.record(home, vec![draft], &[])
}

/// Passes over a blocker, and records the findings that the blocker was based on.
///
/// # Errors
/// Returns a [`DeviceError`] when a rule refuses the request or the device's folder fails.
pub fn pass_over(
    folder: &mut DeviceFolder,
    visit: &str,
    code: &str,
    why: &str,
) -> Result<CommandOutput, DeviceError> {
    let open_stay = OpenStay::with(folder, visit)?;
    let items = || open_stay.view.blockers.iter().chain(&open_stay.view.unloading.blockers);
    if !items().any(|blocker| blocker.code == code.trim()) {
        let open: Vec<&str> = items().map(|blocker| blocker.code.as_str()).collect();
        return Err(DeviceError::Refused(format!(
            "\"{code}\" blocks nothing here now; what does: {}",
            if open.is_empty() { "nothing".to_owned() } else { open.join(", ") }
        )));
    }
    let home = open_stay.visit;
    let draft = Draft::passing_over(&open_stay.view, code, why)?;
    open_stay.record(home, vec![draft], &[])
}

/// Overrides several items of one gate in one act, for a reason of the list or in words.
///
/// # Errors
/// Returns a [`DeviceError`] when a rule refuses the request or the device's folder fails.
pub fn override_items(
    folder: &mut DeviceFolder,
    visit: &str,
    gate: &str,
    codes: &[String],
    reason: &str,
) -> Result<CommandOutput, DeviceError> {
    let open_stay = OpenStay::with(folder, visit)?;
    let Some(gate) = Gate::read(gate.trim()) else {
        let words: Vec<&str> = Gate::ALL.iter().map(|gate| gate.word()).collect();
        return Err(DeviceError::Refused(format!("\"{gate}\" is no gate; there is: {}", words.join(", "))));
    };
    let home = open_stay.visit;
    let draft = Draft::overriding(&open_stay.view, gate, codes, reason)?;
    open_stay.record(home, vec![draft], &[])
}

/// Lists what is missing for a refusal.
fn open_items(blockers: &[Blocker]) -> Vec<String> {
    let open = blockers.iter().filter(|blocker| blocker.passed_over.is_none());
    open.map(|blocker| {
        format!("  {}: {} ({})", blocker.code, english(&blocker.missing), english(&blocker.source))
    })
    .collect()
}

/// Signs the stay as fit to unload if nothing is missing or every item was overridden.
///
/// # Errors
/// Returns [`DeviceError::Refused`] with what is missing.
pub fn fit_to_unload(folder: &mut DeviceFolder, visit: &str) -> Result<CommandOutput, DeviceError> {
    let open_stay = OpenStay::with(folder, visit)?;
    let open = open_items(&open_stay.view.unloading.blockers);
    if !open.is_empty() {
        return Err(DeviceError::Refused(format!(
            "{} is not recorded as fit to unload; missing:\n{}\nRecord what is missing, or override it with a \
             reason: `farsiding device override VISIT unload CODE... --reason REASON`",
            open_stay.view.header.car,
            open.join("\n")
        )));
    }
    let home = open_stay.visit;
    let draft = Draft::clearing(&open_stay.view)?;
    let note = english(&open_stay.view.release.note);
    let mut said = open_stay.record(home, vec![draft], &[])?;
    said.text.push_str(&note);
    Ok(said)
}

/// Releases the car if nothing is missing or every blocker was passed over.
///
/// # Errors
/// Returns [`DeviceError::Refused`] with what is missing.
pub fn release(folder: &mut DeviceFolder, visit: &str, cleaned: bool) -> Result<CommandOutput, DeviceError> {
    let open_stay = OpenStay::with(folder, visit)?;
    let open = open_items(&open_stay.view.blockers);
    if !open.is_empty() {
        return Err(DeviceError::Refused(format!(
            "{} is not recorded as ready for release; missing:\n{}\nRecord what is missing, or pass it over with \
             a reason: `farsiding device pass-over VISIT CODE --why REASON`",
            open_stay.view.header.car,
            open.join("\n")
        )));
    }
    let home = open_stay.visit;
    let draft = Draft::releasing(&open_stay.view, !cleaned)?;
    let note = english(&open_stay.view.release.note);
    let mut said = open_stay.record(home, vec![draft], &[])?;
    said.text.push_str(&note);
    Ok(said)
}

/// Records that two visits are the same stay, or that they are not.
///
/// # Errors
/// Returns a [`DeviceError`] when a rule refuses the request or the device's folder fails.
pub fn join(folder: &mut DeviceFolder, typed: &Joining) -> Result<CommandOutput, DeviceError> {
    let gathered = folder.read().gather()?;
    let (visit, other) = (address::visit(&gathered, &typed.visit)?, address::visit(&gathered, &typed.other)?);
    if gathered.stay_of(visit).is_some_and(|stay| stay.contains(&other)) {
        return Err(DeviceError::Refused(
            "the two are one stay already; give ids if you mean others".to_owned(),
        ));
    }
    let says = if typed.not { Statement::NotJoined { other } } else { Statement::Joined { other } };
    let by = folder.operator()?;
    let made = folder.book().append(Subject::Visit(visit), vec![Draft::of(says).because(&typed.why)], &by)?;
    let words = if typed.not { "are recorded as not the same stay" } else { "are one stay from now on" };
    let entries: Vec<String> = made.iter().map(ToString::to_string).collect();
    Ok(CommandOutput::new(
        format!("{} and {} {words}.", visit.short(), other.short()),
        json!({ "visit": visit.to_string(), "other": other.to_string(), "entries": entries }),
    ))
}
