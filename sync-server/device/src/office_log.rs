//! The office's log from this device's point of view: what a sync found out about the log, the warnings shown
//! beside records, and the proof of one entry.

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::Trusts as _;
use farsiding_core::evidence::{Checkpoint, Receipt, cosignatures};
use farsiding_core::ids::EntryId;
use farsiding_core::store::Store;
use farsiding_core::sync::{Alarm, LogReport, LogStanding, proof_of};
use serde_json::{Value, json};

use super::DeviceError;
use super::folder::DeviceFolder;
use farsiding_host::CommandOutput;

/// What a sync found out about the log.
#[derive(Debug, Default)]
pub struct LogFound {
    /// The result of the check; `None` when there was nothing to ask.
    pub report: Option<LogReport>,
    /// Why the log could not be fetched this time.
    pub unasked: Option<String>,
}

/// What a contradiction means for the person who reads it.
const MEANING: &str = "Records here are untouched and sync goes on. Both of the office's signed notes are kept \
                       on this device: together they show it to anybody. Tell someone other than the office; \
                       show them `farsiding device whoami --json`";

impl LogFound {
    /// Returns a warning with the contradictions found, or `None` when there were none.
    pub fn warning(&self) -> Option<String> {
        let report = self.report.as_ref()?;
        let mut sentences: Vec<&str> = report.contradictions.iter().map(|kind| kind.sentence()).collect();
        sentences.dedup();
        (!sentences.is_empty()).then(|| format!("{} {MEANING}", sentences.join(" ")))
    }

    /// Returns the other remarks, one per line.
    pub fn lines(&self) -> Vec<String> {
        let mut lines = Vec::new();
        if let Some(why) = &self.unasked {
            lines.push(format!("The office's log could not be checked this time ({why})."));
        }
        let Some(report) = &self.report else { return lines };
        for restored in &report.restored {
            lines.push(format!(
                "The office put back a backup of its ledger on {} and declares so, signed: what it had received \
                 after entry {} came to it again. Proofs of before are kept here.",
                restored.at.rfc3339(),
                restored.size
            ));
        }
        if let (Some(size), []) = (report.size, report.contradictions.as_slice()) {
            lines.push(format!(
                "The office's log ({size} entries) goes on from what this device was shown before; {} entries \
                 here were newly proven to stand in it.",
                report.proven
            ));
        }
        lines
    }

    /// Returns the findings as JSON for programs.
    pub fn json(&self) -> Value {
        let Some(report) = &self.report else { return json!({ "asked": false, "why": self.unasked }) };
        json!({
            "asked": true, "size": report.size, "proven": report.proven, "rounds": report.rounds,
            "contradictions": report.contradictions,
            "restored": report.restored.iter().map(|r| json!({ "at": r.at.rfc3339(), "size": r.size })).collect::<Vec<_>>(),
            "why": self.unasked,
        })
    }
}

/// Returns the message of every contradiction ever noticed, newest last.
///
/// # Errors
/// Returns a [`DeviceError`] when a rule refuses the request or the device's folder fails.
pub fn warnings(folder: &DeviceFolder) -> Result<Vec<String>, DeviceError> {
    let standing = folder.read().log_standing()?;
    let words = |alarm: &Alarm| format!("{} (noticed {})", alarm.kind.sentence(), alarm.at.rfc3339());
    Ok(standing.map(|s| s.alarms.iter().map(words).collect()).unwrap_or_default())
}

/// Returns the state of the log as a sentence.
pub fn standing_words(standing: &LogStanding) -> String {
    let checked = match (&standing.checkpoint, standing.checked_at) {
        (Some(kept), Some(at)) => {
            format!("{} entries, signed; checked {}", kept.size, at.rfc3339())
        }
        (Some(kept), None) => format!("{} entries, signed", kept.size),
        _ => "never shown to this device".to_owned(),
    };
    let alarms: String = standing
        .alarms
        .iter()
        .map(|a| format!("\n  WARNING: {} ({})", a.kind.sentence(), a.at.rfc3339()))
        .collect();
    format!("Office's log: {checked}{alarms}")
}

/// Returns the state of the log as JSON for programs, with the signed notes that prove it.
pub fn standing_json(standing: &LogStanding) -> Value {
    json!({
        "checkpoint": standing.checkpoint.as_ref().map(|kept| kept.note.as_str()),
        "size": standing.checkpoint.as_ref().map(|kept| kept.size),
        "checked_at": standing.checked_at.map(UtcMillis::rfc3339),
        "alarms": standing.alarms,
        "restored": standing.restores.iter().map(|r| json!({
            "before": r.before, "size": r.size, "origin": r.origin, "at": r.at.rfc3339(),
        })).collect::<Vec<_>>(),
    })
}

/// Returns the entry whose id begins with `text`.
fn find_entry(store: &dyn Store, text: &str) -> Result<EntryId, DeviceError> {
    let wanted = text.trim().to_lowercase();
    let mut found = Vec::new();
    for subject in store.subjects()? {
        let rows = store.entries_of(subject)?.rows;
        found.extend(rows.into_iter().map(|row| row.id).filter(|id| id.to_string().starts_with(&wanted)));
    }
    found.sort_unstable();
    found.dedup();
    match (found.as_slice(), wanted.len() >= 4) {
        ([one], true) => Ok(*one),
        ([], _) => Err(DeviceError::Refused(format!("there is no entry {text} here"))),
        _ => Err(DeviceError::Refused(format!("{text} could be any of several entries; give more digits"))),
    }
}

/// Returns what this device can prove of an entry without the office: the entry's receipt and its place in
/// the office's log.
///
/// # Errors
/// Returns a [`DeviceError`] when a rule refuses the request or the device's folder fails.
pub fn proof(folder: &mut DeviceFolder, entry: &str) -> Result<CommandOutput, DeviceError> {
    let store = folder.read().store();
    let entry = find_entry(store, entry)?;
    let Some(keys) = folder.read().organisation_keys()? else {
        return Err(DeviceError::NotEnrolled(
            "this device is not enrolled: no office has signed anything".into(),
        ));
    };
    let key = keys.root();
    let receipts = store.receipts_of(entry)?;
    let receipted = receipts.iter().find_map(|bytes| Receipt::from_bytes(bytes).ok()?.check(&keys).ok());
    let mut text = format!("Entry {entry}\n");
    text.push_str(&match receipted {
        Some(at) => format!("Receipt: the office had it at {} (signature checked)\n", at.rfc3339()),
        None => "Receipt: none; it is only here\n".to_owned(),
    });
    let proof = proof_of(store, entry, &key)?;
    let Some((inclusion, kept)) = proof else {
        text.push_str("Log: no proof here yet; the next sync asks for it");
        let json = json!({ "entry": entry, "held_at": receipted.map(UtcMillis::rfc3339), "proof": null });
        return Ok(CommandOutput::new(text, json));
    };
    let size = Checkpoint::open(&kept.note, &keys).map(|checkpoint| checkpoint.size).unwrap_or_default();
    let witnesses = cosignatures(&kept.note).unwrap_or_default();
    text.push_str(&format!(
        "Log: number {} of {size}, received {}; the path of {} hashes leads to the root of this signed \
         checkpoint (checked):\n{}",
        inclusion.number,
        inclusion.received_at.rfc3339(),
        inclusion.path.len(),
        kept.note
    ));
    let json = json!({
        "entry": entry, "held_at": receipted.map(UtcMillis::rfc3339), "organisation_key": key,
        "proof": {
            "number": inclusion.number, "received_at": inclusion.received_at.rfc3339(),
            "received_at_millis": inclusion.received_at.0, "path": inclusion.path,
            "about": inclusion.about.map(|about| about.to_string()), "checkpoint": kept.note,
            "size": size, "witnesses": witnesses.iter().map(|w| w.witness.as_str()).collect::<Vec<_>>(),
        },
    });
    Ok(CommandOutput::new(text, json))
}
