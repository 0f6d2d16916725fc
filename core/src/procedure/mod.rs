//! Procedures: the steps of the job as data, each version known by the digest of its text.
//!
//! Lives here: the shape of a step, reading and checking a text, the registry of versions, the
//! repetition over fittings. Does not live here: what a car's record says about a step (see `view`).
//! A visit names its procedure by digest, so it can be read years later with the very text it
//! followed; built-in texts in `core/procedures` are therefore only ever added, never edited.

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

/// The procedures known here, by digest.
#[derive(Clone, Debug, Default)]
pub struct Procedures {
    known: BTreeMap<Digest, Procedure>,
    newest: Option<Digest>,
}

impl Procedures {
    /// The built-in procedures.
    ///
    /// # Errors
    /// [`ProcedureError`] should a shipped text not read; a test reads them all.
    pub fn built_in() -> Result<Procedures, ProcedureError> {
        let mut procedures = Procedures::default();
        for text in BUILT_IN {
            procedures.add(text)?;
        }
        Ok(procedures)
    }

    /// Adds a text, such as an owner's own procedure, and makes it the default.
    ///
    /// # Errors
    /// [`ProcedureError`]; the registry is then as before.
    pub fn add(&mut self, text: &str) -> Result<Digest, ProcedureError> {
        let procedure = Procedure::read(text)?;
        let digest = procedure.digest;
        self.known.insert(digest, procedure);
        self.newest = Some(digest);
        Ok(digest)
    }

    /// The procedure with this digest.
    pub fn get(&self, digest: Digest) -> Option<&Procedure> {
        self.known.get(&digest)
    }

    /// The one a new visit follows: the last one added.
    pub fn default_procedure(&self) -> Option<&Procedure> {
        self.newest.and_then(|digest| self.get(digest))
    }

    /// All of them, by digest.
    pub fn iter(&self) -> impl Iterator<Item = &Procedure> {
        self.known.values()
    }
}
