//! Procedures: the steps of the job as data. Each version is identified by the digest of its text.
//!
//! This module holds the form of a step, the reading and checking of a text, the registry of versions, and
//! the repetition of steps over fittings. Whether a step was done is decided in `view`. A visit names its
//! procedure by digest, so it can be read years later with the exact text it followed; the built-in texts in
//! `core/procedures` are therefore never edited, and new versions are added instead.

mod expand;
mod load;
mod source;
mod step;
#[cfg(test)]
mod tests;

use std::collections::BTreeMap;

pub use expand::StepAt;
pub use load::{LARGEST_PROCEDURE, ProcedureError};
pub use source::{AskedBy, Basis, Source, SourceStanding};
pub use step::{ForEach, OrderRule, Procedure, Record, Since, Stage, Step};

use crate::ids::Digest;

/// Every text ever shipped, oldest first. The last one is the default for new visits.
pub const BUILT_IN: [&str; 1] = [include_str!("../../procedures/pressure_car_lpg_1.toml")];

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
            procedures.add(text)?;
        }
        Ok(procedures)
    }

    /// Adds a text, such as an owner's own procedure, and makes it the default. Returns its digest.
    ///
    /// # Errors
    /// [`ProcedureError`]; the registry is then unchanged.
    pub fn add(&mut self, text: &str) -> Result<Digest, ProcedureError> {
        let procedure = Procedure::read(text)?;
        let digest = procedure.digest;
        self.known.insert(digest, procedure);
        self.newest = Some(digest);
        Ok(digest)
    }

    /// Returns the procedure with this digest.
    pub fn get(&self, digest: Digest) -> Option<&Procedure> {
        self.known.get(&digest)
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
