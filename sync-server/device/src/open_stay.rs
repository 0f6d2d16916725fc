//! What every command that makes entries needs: the folder, a snapshot of its records, the procedures, and
//! the stay that is meant.

use farsiding_core::book::{Draft, Snapshot};
use farsiding_core::clock::Clock as _;
use farsiding_core::ids::{DefectId, Digest, EntryId, Subject, VisitId};
use farsiding_core::procedure::Procedures;
use farsiding_core::view::{Disagreement, VisitView};
use serde_json::{Value, json};

use super::folder::DeviceFolder;
use super::forms::Surrounding;
use super::shapes::FormContext;
use super::{DeviceError, address};
use farsiding_host::CommandOutput;
use farsiding_host::ProcessClock;
use farsiding_words::english;

/// Returns the procedures that are built into this version.
///
/// # Errors
/// Returns [`DeviceError::Failed`] if a built-in procedure cannot be read.
pub fn procedures() -> Result<Procedures, DeviceError> {
    Procedures::built_in().map_err(|e| DeviceError::Failed(e.to_string()))
}

/// One open stay, with everything needed to record in it.
pub struct OpenStay<'f> {
    /// The device's folder.
    pub folder: &'f mut DeviceFolder,
    /// The snapshot of the folder's records.
    pub gathered: Snapshot,
    /// The built-in procedures.
    pub procedures: Procedures,
    /// The visit that the command names.
    pub visit: VisitId,
    /// The current view of the visit's stay.
    pub view: VisitView,
}

impl std::fmt::Debug for OpenStay<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Desk").field("visit", &self.visit).finish_non_exhaustive()
    }
}

impl<'f> OpenStay<'f> {
    /// Opens the stay of the visit that `text` refers to.
    ///
    /// # Errors
    /// Returns [`DeviceError::Refused`] when the text is ambiguous or matches nothing.
    pub fn with(folder: &'f mut DeviceFolder, text: &str) -> Result<OpenStay<'f>, DeviceError> {
        let gathered = folder.read().gather()?;
        let visit = address::visit(&gathered, text)?;
        OpenStay::of(folder, gathered, visit)
    }

    /// Opens the stay of a visit.
    ///
    /// # Errors
    /// Returns a [`DeviceError`] when the folder's records cannot be read.
    pub fn of(
        folder: &'f mut DeviceFolder,
        gathered: Snapshot,
        visit: VisitId,
    ) -> Result<OpenStay<'f>, DeviceError> {
        let procedures = procedures()?;
        let view = gathered
            .view(visit, &procedures)
            .ok_or_else(|| DeviceError::Refused(format!("there is no visit {visit} here")))?;
        Ok(OpenStay { folder, gathered, procedures, visit, view })
    }

    /// Returns the visits of the stay.
    pub fn stay(&self) -> Vec<VisitId> {
        self.gathered.stay_of(self.visit).map_or_else(|| vec![self.visit], <[VisitId]>::to_vec)
    }

    /// Records entries in the document of `visit` and returns what the record now says of them.
    ///
    /// # Errors
    /// Returns a [`DeviceError`]; in that case nothing was recorded.
    pub fn record(
        self,
        visit: VisitId,
        drafts: Vec<Draft>,
        remarks: &[String],
    ) -> Result<CommandOutput, DeviceError> {
        let OpenStay { folder, procedures, view: before, .. } = self;
        let by = folder.operator()?;
        let made = folder.book().append(Subject::Visit(visit), drafts, &by)?;
        let gathered = folder.read().gather()?;
        let view = gathered
            .view(visit, &procedures)
            .ok_or_else(|| DeviceError::Failed("the record just written is not there".to_owned()))?;
        Ok(said(&made, visit, &before, &view, remarks))
    }
}

/// Returns a sentence on what was recorded and on what has newly come up because of it.
fn said(
    made: &[EntryId],
    visit: VisitId,
    before: &VisitView,
    view: &VisitView,
    remarks: &[String],
) -> CommandOutput {
    let mut text = String::new();
    for id in made {
        let line = view.history.iter().find(|line| line.said.entry == *id);
        let sentence = line.map_or_else(|| "recorded".to_owned(), |line| english(&line.sentence));
        text.push_str(&format!("[{}] {sentence}\n", id.short()));
    }
    for remark in remarks {
        text.push_str(&format!("  note: {remark}\n"));
    }
    let new_disagreements: Vec<&Disagreement> = view
        .disagreements
        .iter()
        .filter(|now| !before.disagreements.iter().any(|then| then.slot == now.slot))
        .collect();
    for disagreement in &new_disagreements {
        text.push_str(&format!("  disagreement: {}\n", english(&disagreement.about)));
        for (id, claim) in disagreement.entries.iter().zip(&disagreement.claims) {
            text.push_str(&format!(
                "    [{}] {} ({})\n",
                id.short(),
                english(&claim.sentence),
                english(&claim.said.signature())
            ));
        }
        text.push_str("    settle it: farsiding device settle VISIT --keep ENTRY --why REASON\n");
    }
    let new_findings: Vec<String> = view
        .findings
        .iter()
        .filter(|now| !before.findings.contains(now))
        .map(|now| english(&now.message))
        .collect();
    for finding in &new_findings {
        text.push_str(&format!("  look: {finding}\n"));
    }
    let entries: Vec<String> = made.iter().map(ToString::to_string).collect();
    let json = json!({
        "visit": visit.to_string(), "entries": entries, "remarks": remarks,
        "new_disagreements": new_disagreements.iter().map(|d| d.slot.as_str()).collect::<Vec<_>>(), "new_findings": new_findings,
        "open_blockers": view.release.open, "unreceipted": view.unreceipted,
    });
    CommandOutput::new(text, json)
}

/// The record as a form sees it: the local time, and the ids that a form may refer to.
#[derive(Debug)]
pub struct FoldCache {
    here: FormContext,
    defects: Vec<String>,
    holds: Vec<String>,
    incidents: Vec<String>,
    leaks: Vec<String>,
    notes: Vec<String>,
    photos: Vec<String>,
    new_id: String,
}

impl FoldCache {
    /// Returns the context of a stay, or the context outside any stay.
    ///
    /// # Errors
    /// Returns a [`DeviceError`] when the folder's records cannot be read.
    pub fn of(folder: &mut DeviceFolder, view: Option<&VisitView>) -> Result<FoldCache, DeviceError> {
        let clock = ProcessClock::from_environment().map_err(|e| DeviceError::Failed(e.to_string()))?;
        let (now, offset_minutes) = clock.now();
        let text = |ids: Vec<Value>| ids.iter().filter_map(|id| id.as_str().map(str::to_owned)).collect();
        let (mut defects, mut holds) = (Vec::new(), Vec::new());
        let (mut incidents, mut leaks, mut notes) = (Vec::new(), Vec::new(), Vec::new());
        if let Some(view) = view {
            defects.extend(view.defects.iter().map(|defect| json!(defect.id)));
            holds.extend(view.holds.iter().map(|hold| json!(hold.id)));
            incidents.extend(view.incidents.iter().map(|incident| json!(incident.id)));
            leaks.extend(view.leaks.iter().map(|leak| json!(leak.id)));
            notes.extend(view.car.carried.iter().filter_map(|one| one.note).map(|note| json!(note)));
        }
        let photos = folder.read().store().photos()?;
        let mut photos: Vec<String> = photos.iter().map(|photo| photo.sha256.to_string()).collect();
        if let Some(view) = view {
            // The stay's own photographs come last, so that `last` means the one that was just taken.
            photos.extend(view.photos.iter().map(|photo| photo.photo.sha256.to_string()));
        }
        let new_id = DefectId::random(folder.book().randomness()).to_string();
        Ok(FoldCache {
            here: FormContext { now, offset_minutes },
            defects: text(defects),
            holds: text(holds),
            incidents: text(incidents),
            leaks: text(leaks),
            notes: text(notes),
            photos,
            new_id,
        })
    }
}

fn begun<'a>(ids: &'a [String], text: &str, what: &str) -> Result<&'a String, DeviceError> {
    let wanted = text.trim().to_lowercase();
    let mut found: Vec<&String> =
        ids.iter().filter(|id| wanted.len() >= 4 && id.starts_with(&wanted)).collect();
    found.sort_unstable();
    found.dedup();
    match (found.as_slice(), ids) {
        ([one], _) => Ok(one),
        ([], []) => Err(DeviceError::Refused(format!("there is no {what} here"))),
        _ => {
            let short: Vec<&str> = ids.iter().map(|id| &id[..8.min(id.len())]).collect();
            Err(DeviceError::Refused(format!("\"{text}\" is not one {what} of: {}", short.join(", "))))
        }
    }
}

impl Surrounding for FoldCache {
    fn here(&self) -> FormContext {
        self.here
    }

    fn defect(&self, text: &str) -> Result<String, DeviceError> {
        if let ([one], "it") = (self.defects.as_slice(), text.trim()) {
            return Ok(one.clone());
        }
        begun(&self.defects, text, "defect").cloned()
    }

    fn hold(&self, text: &str) -> Result<String, DeviceError> {
        if let ([one], "it") = (self.holds.as_slice(), text.trim()) {
            return Ok(one.clone());
        }
        begun(&self.holds, text, "hold").cloned()
    }

    fn incident(&self, text: &str) -> Result<String, DeviceError> {
        if let ([one], "it") = (self.incidents.as_slice(), text.trim()) {
            return Ok(one.clone());
        }
        begun(&self.incidents, text, "incident").cloned()
    }

    fn leak(&self, text: &str) -> Result<String, DeviceError> {
        if let ([one], "it") = (self.leaks.as_slice(), text.trim()) {
            return Ok(one.clone());
        }
        begun(&self.leaks, text, "leak").cloned()
    }

    fn note(&self, text: &str) -> Result<String, DeviceError> {
        if let ([one], "it") = (self.notes.as_slice(), text.trim()) {
            return Ok(one.clone());
        }
        begun(&self.notes, text, "note").cloned()
    }

    fn photo(&self, text: &str) -> Result<String, DeviceError> {
        if let (Some(last), "last") = (self.photos.last(), text.trim()) {
            return Ok(last.clone());
        }
        if let Ok(digest) = Digest::read(text) {
            return Ok(digest.to_string()); // the photograph may be on another device
        }
        begun(&self.photos, text, "photograph").cloned()
    }

    fn new_id(&mut self) -> String {
        self.new_id.clone()
    }
}
