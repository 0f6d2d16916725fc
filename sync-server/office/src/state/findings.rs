//! The results of checking the server and of asking third parties.

use std::sync::{Mutex, PoisonError};
use std::time::Instant;

use farsiding_core::Message;
use farsiding_core::clock::UtcMillis;
use farsiding_words::english;

/// The result of one check.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Finding {
    /// The check's short name, for programs.
    pub name: &'static str,
    /// Whether the check passed.
    pub well: bool,
    /// Whether a failure also makes `/healthz` fail. An unreachable third party does not, because the server
    /// can work without it.
    pub loud: bool,
    /// What was found and, after a failure, what to do.
    pub says: Message,
}

impl Finding {
    /// Returns the check's title, for people.
    pub fn title(&self) -> Message {
        Message::term("office-part", self.name)
    }

    /// Returns what was found in American English, for logs and programs.
    pub fn words(&self) -> String {
        english(&self.says)
    }
}

/// The results of all checks.
#[derive(Debug, Clone, Default)]
pub struct ServerState {
    /// The results of the quick checks.
    pub quick: Vec<Finding>,
    /// The results of the last full check, with its time.
    pub read_through: Option<(UtcMillis, Vec<Finding>)>,
}

impl ServerState {
    /// Returns whether all checks passed.
    pub fn is_well(&self) -> bool {
        self.all().all(|finding| finding.well)
    }

    /// Returns whether the server can do its work and no witness contradicts its log.
    pub fn serves(&self) -> bool {
        self.all().all(|finding| finding.well || !finding.loud)
    }

    pub(crate) fn all(&self) -> impl Iterator<Item = &Finding> {
        self.quick.iter().chain(self.read_through.iter().flat_map(|(_, findings)| findings))
    }

    /// Returns the results as JSON, for an administrator's programs.
    pub fn to_json(&self) -> serde_json::Value {
        self.all()
            .map(|finding| {
                serde_json::json!({ "name": finding.name, "ok": finding.well, "message": finding.words(), "says": finding.says })
            })
            .collect()
    }
}

/// The last known results.
#[derive(Debug, Default)]
pub struct Health {
    pub(crate) last: tokio::sync::Mutex<Option<(Instant, ServerState)>>,
}

/// The results of asking the third parties last.
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
