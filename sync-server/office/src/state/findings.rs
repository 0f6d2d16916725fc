//! What was found when the server was looked at, and when outsiders were last asked.

use std::sync::{Mutex, PoisonError};
use std::time::Instant;

use farsiding_core::clock::UtcMillis;

/// One thing looked at.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Finding {
    /// Which, as a short name for programs.
    pub name: &'static str,
    /// Which, for people.
    pub title: &'static str,
    /// Whether it is as it must be.
    pub well: bool,
    /// Whether `/healthz` says so too: an outsider that does not answer keeps this server from nothing.
    pub loud: bool,
    /// What was found, and what to do where it is not well.
    pub words: String,
}

/// Everything looked at.
#[derive(Debug, Clone, Default)]
pub struct ServerState {
    /// What is quick to look at.
    pub quick: Vec<Finding>,
    /// What takes reading through, and when it was last done.
    pub read_through: Option<(UtcMillis, Vec<Finding>)>,
}

impl ServerState {
    /// Returns whether all of it is as it must be.
    pub fn is_well(&self) -> bool {
        self.all().all(|finding| finding.well)
    }

    /// Returns whether the server can do its work, and nobody has said that its log is not what it was.
    pub fn serves(&self) -> bool {
        self.all().all(|finding| finding.well || !finding.loud)
    }

    pub(crate) fn all(&self) -> impl Iterator<Item = &Finding> {
        self.quick.iter().chain(self.read_through.iter().flat_map(|(_, findings)| findings))
    }

    /// As JSON, for an administrator's programs.
    pub fn to_json(&self) -> serde_json::Value {
        self.all()
            .map(|finding| {
                serde_json::json!({ "name": finding.name, "ok": finding.well, "message": finding.words })
            })
            .collect()
    }
}

/// What was last seen.
#[derive(Debug, Default)]
pub struct Health {
    pub(crate) last: tokio::sync::Mutex<Option<(Instant, ServerState)>>,
}

/// What was found when the outsiders were last asked.
#[derive(Debug, Default)]
pub(crate) struct ThirdParties(Mutex<Vec<Finding>>);

impl ThirdParties {
    pub(crate) fn findings(&self) -> Vec<Finding> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner).clone()
    }

    pub(crate) fn found(&self, findings: Vec<Finding>) {
        *self.0.lock().unwrap_or_else(PoisonError::into_inner) = findings;
    }
}
