//! Procedures: the steps of the job as data. Each version is identified by the digest of its text.
//!
//! This module holds the form of a step, the reading and checking of a text, the registry of versions, and
//! the repetition of steps over fittings. Whether a step was done is decided in `view`. A visit names its
//! procedure by digest, so it can be read years later with the exact text it followed; the built-in texts in
//! `core/procedures` are therefore never edited, and new versions are added instead.

mod answer;
mod edit;
mod edit_gates;
#[cfg(test)]
mod edit_tests;
mod edit_text;
mod expand;
mod gate_rule;
mod left_out;
mod load;
mod mistake;
mod on_paper;
mod own_words;
mod source;
mod step;
#[cfg(test)]
mod tests;
mod thresholds;
mod together;

use std::borrow::Cow;
use std::collections::BTreeMap;
use std::sync::OnceLock;

pub use answer::{BadAnswer, Holds};
pub use edit::{Added, EditedText, OwnTexts, Sentence};
pub use expand::StepAt;
pub use gate_rule::{
    Asked, AskedFor, BlockerKind, Condition, Each, Event, GateRule, Must, Quality, SayIf, sentence,
};
pub use left_out::{LeftOut, Lost, check as check_left_out, lost};
pub use mistake::ProcedureError;
pub use on_paper::{ASIDE, Fill, PaperField, PaperPlace, paper_fields};
pub use source::{AskedBy, Basis, Binds, Law, Source, SourceStanding};
pub use step::{ForEach, Leaving, OrderRule, Procedure, Record, Since, Stage, Step, StepOf};
pub use thresholds::{Threshold, ThresholdUnit, Thresholds};
pub use together::Together;

pub use crate::entry::site_facts::LARGEST_PROCEDURE;

use crate::ids::Digest;

/// Every text ever shipped, oldest first. The last one is the default for new visits.
pub const BUILT_IN: [&str; 2] = [
    include_str!("../../procedures/pressure_car_lpg_1.toml"),
    concat!(
        include_str!("../../procedures/pressure_car_lpg_2.toml"),
        include_str!("../../procedures/pressure_car_lpg_2.gates.toml"),
    ),
];

/// Returns the built-in procedures, oldest first, read once.
pub fn built_in() -> &'static [Procedure] {
    static READ: OnceLock<Vec<Procedure>> = OnceLock::new();
    READ.get_or_init(|| BUILT_IN.iter().filter_map(|text| Procedure::read(text).ok()).collect())
}

/// Returns the built-in procedure with this digest in hexadecimal digits.
fn built_in_of(digest: &str) -> Option<&'static Procedure> {
    built_in().iter().find(|procedure| procedure.digest.to_string() == digest)
}

/// The known procedures by digest.
///
/// ```
/// use farsiding_core::procedure::Procedures;
///
/// let procedures = Procedures::built_in()?;
/// let Some(default) = procedures.default_procedure() else { panic!("a procedure is built in") };
/// assert!(procedures.get(default.digest).is_some());
/// assert!(!default.steps.is_empty());
/// # Ok::<(), farsiding_core::procedure::ProcedureError>(())
/// ```
#[derive(Clone, Debug, Default)]
pub struct Procedures {
    known: BTreeMap<Digest, Procedure>,
    texts: BTreeMap<Digest, Cow<'static, str>>,
    newest: Option<Digest>,
}

impl Procedures {
    /// Returns the built-in procedures.
    ///
    /// # Errors
    /// [`ProcedureError`] if a shipped text is invalid; a test reads them all.
    pub fn built_in() -> Result<Procedures, ProcedureError> {
        let mut procedures = Procedures::default();
        for text in BUILT_IN {
            procedures.add_text(Cow::Borrowed(text))?;
        }
        Ok(procedures)
    }

    /// Adds a text, such as an owner's own procedure, and makes it the default. Returns its digest.
    ///
    /// # Errors
    /// [`ProcedureError`]; the registry is then unchanged.
    pub fn add(&mut self, text: &str) -> Result<Digest, ProcedureError> {
        self.add_text(Cow::Owned(text.to_owned()))
    }

    fn add_text(&mut self, text: Cow<'static, str>) -> Result<Digest, ProcedureError> {
        let procedure = Procedure::read(&text)?;
        let digest = procedure.digest;
        self.texts.insert(digest, text);
        self.known.insert(digest, procedure);
        self.newest = Some(digest);
        Ok(digest)
    }

    /// Returns the procedure with this digest.
    pub fn get(&self, digest: Digest) -> Option<&Procedure> {
        self.known.get(&digest)
    }

    /// Returns the text with this digest.
    pub fn text(&self, digest: Digest) -> Option<&str> {
        self.texts.get(&digest).map(|text| &**text)
    }

    /// Returns the procedure for new visits: the one added last.
    pub fn default_procedure(&self) -> Option<&Procedure> {
        self.newest.and_then(|digest| self.get(digest))
    }

    /// Returns all procedures, ordered by digest.
    pub fn iter(&self) -> impl Iterator<Item = &Procedure> {
        self.known.values()
    }
}
