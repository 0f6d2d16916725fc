//! What stands on a strip: the steps of a visit, with what is recorded already, or of a site's procedure, blank.
//!
//! The steps come from the folded view or from the expanded procedure, and the places from
//! `farsiding_core::procedure`. Where everything stands on the paper is decided in `layout`.

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::vocabulary::{Fitting, Receiver};
use farsiding_core::ids::Digest;
use farsiding_core::procedure::{Leaving, PaperPlace, Procedure, Record, Stage, StepAt, built_in};
use farsiding_core::view::{StepStatus, StepView, VisitView};
use farsiding_core::{Arg, Message, message};

/// How often a reading that is due again and again has its places: once for each of so many rounds.
const ROUNDS: usize = 4;

/// What was recorded of a step.
#[derive(Clone, Debug, PartialEq)]
pub struct Known {
    /// Whether it is ticked; otherwise it was left out, or was not right.
    pub ticked: bool,
    /// What became of it, by whom and when.
    pub says: Message,
    /// The note in the entry.
    pub note: String,
}

/// A step on paper.
#[derive(Clone, Debug, PartialEq)]
pub struct PaperStep {
    /// The stage of the job.
    pub stage: Stage,
    /// The title, with the fitting.
    pub title: Message,
    /// What to do.
    pub what_to_do: Message,
    /// The dangers.
    pub cautions: Vec<Message>,
    /// The places of one round, and how many rounds there are.
    pub places: Vec<PaperPlace>,
    /// The number of rounds.
    pub rounds: usize,
    /// The interval of the rounds, in minutes.
    pub every: Option<u32>,
    /// What was recorded already, if nothing more is expected.
    pub known: Option<Known>,
    /// Why an answer holds the job, and what to do now.
    pub held: Vec<Message>,
}

/// Everything on a strip, in messages.
#[derive(Clone, Debug, PartialEq)]
pub struct Strip {
    /// The car; empty on a blank strip.
    pub car: String,
    /// The site.
    pub site: String,
    /// The site's own rules, which come first.
    pub local_rules: String,
    /// The procedure's title and edition.
    pub procedure: Message,
    /// The digest of the procedure's text.
    pub digest: Digest,
    /// Whether the text of the stay's own procedure is known here.
    pub procedure_known: bool,
    /// The note above the steps.
    pub note: Message,
    /// Until when what was recorded is ticked; empty on a blank strip.
    pub as_of: String,
    /// The steps in order.
    pub steps: Vec<PaperStep>,
}

impl Strip {
    /// Returns the strip of a visit, as it is recorded now.
    pub fn of_visit(view: &VisitView, now: UtcMillis) -> Strip {
        let header = &view.header;
        let zone = header.zone.parse().unwrap_or(chrono_tz::Tz::UTC);
        let default = built_in().last().map(|procedure| procedure.digest);
        let own = header.procedure.filter(|_| header.procedure_known);
        Strip {
            car: header.car.clone(),
            site: header.site_name.clone(),
            local_rules: header.local_rules.clone(),
            procedure: header.procedure_title.clone(),
            digest: own.or(default).unwrap_or(Digest([0; 32])),
            procedure_known: header.procedure.is_none() || header.procedure_known,
            note: header.procedure_note.clone(),
            as_of: now.shown_in(zone),
            steps: view.steps.steps.iter().map(recorded).collect(),
        }
    }

    /// Returns a blank strip of a procedure at a site.
    pub fn blank(procedure: &Procedure, site: &str, local_rules: &str, receiver: Receiver) -> Strip {
        let steps = procedure.expand(Some(receiver), Leaving::Residue, &Fitting::USUAL);
        Strip {
            car: String::new(),
            site: site.to_owned(),
            local_rules: local_rules.to_owned(),
            procedure: message!(
                "step-procedure",
                title = procedure.title.clone(),
                edition = Arg::typed(&procedure.edition)
            ),
            digest: procedure.digest,
            procedure_known: true,
            note: procedure.note.clone(),
            as_of: String::new(),
            steps: steps.iter().map(blank).collect(),
        }
    }
}

/// Returns the places of a step: those of what it asks for and is still missing, and those of what it may record and
/// that is not kept for the end of the paper.
fn places(asked: &[Record], may: &[Record]) -> Vec<PaperPlace> {
    let may = may.iter().filter(|record| !record.is_aside());
    asked.iter().chain(may).flat_map(Record::paper_places).collect()
}

fn recorded(step: &StepView) -> PaperStep {
    let closed = step.status.is_closed();
    let known = closed.then(|| {
        let status = step.status.term();
        let by = step.said.as_ref().map(|said| Arg::typed(format!("{}, {}", said.name, said.shown)));
        Known {
            ticked: matches!(step.status, StepStatus::Done | StepStatus::Recorded),
            says: by.map_or_else(
                || status.clone(),
                |by| message!("phone-strip-by", status = status.clone(), by = by),
            ),
            note: step.note.clone(),
        }
    });
    let asked = if step.status == StepStatus::Partly { &step.missing } else { &step.records };
    PaperStep {
        stage: step.stage,
        title: step.title.clone(),
        what_to_do: step.what_to_do.clone(),
        cautions: step.cautions.clone(),
        places: if closed && step.due.is_none() { Vec::new() } else { places(asked, &step.may_record) },
        rounds: if step.repeat_minutes.is_some() { ROUNDS } else { 1 },
        every: step.repeat_minutes,
        known,
        held: step.reasons.iter().chain(&step.what_now).cloned().collect(),
    }
}

fn blank(at: &StepAt<'_>) -> PaperStep {
    PaperStep {
        stage: at.step.stage,
        title: at.title(),
        what_to_do: at.step.what_to_do.clone(),
        cautions: at.step.cautions.clone(),
        places: places(&at.records(), &at.may_record()),
        rounds: if at.step.repeat_minutes.is_some() { ROUNDS } else { 1 },
        every: at.step.repeat_minutes,
        known: None,
        held: Vec::new(),
    }
}
