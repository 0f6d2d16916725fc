//! The demonstration: an invented scenario played through real devices, a real book and the real server.
//!
//! The scenario is data (`demo/scenario/*.toml`); each line is what a person would type behind
//! `farsiding device add`. Lives here: reading the scenario, playing it, telling it. Does not live here: any
//! rule of records; what is told is what the core's view says.

pub mod device;
pub mod figures;
pub mod month;
pub mod network;
pub mod office;
pub mod own_procedure;
pub mod phone;
pub mod picture;
pub mod player;
pub mod scenario;
pub mod shows;
pub mod telling;

/// Why the demonstration cannot go on.
#[derive(Debug, thiserror::Error)]
pub enum DemoError {
    /// A scenario file is not as it must be.
    #[error("{place}: {why}")]
    Scenario {
        /// File, scene or line.
        place: String,
        /// What is wrong.
        why: String,
    },
    /// The story did not go as it is told.
    #[error("{place}: the story says \"{said}\", but {instead}")]
    NotAsTold {
        /// Scene and time.
        place: String,
        /// What the scenario said would be shown.
        said: String,
        /// What was shown.
        instead: String,
    },
    /// The `farsiding` program failed.
    #[error("`farsiding {command}` failed: {why}")]
    Program {
        /// What was run.
        command: String,
        /// What it said.
        why: String,
    },
    /// A device's book refused.
    #[error(transparent)]
    Book(#[from] farsiding_core::book::BookError),
    /// A device's store refused.
    #[error(transparent)]
    Store(#[from] farsiding_core::store::StoreError),
    /// A file or the disk.
    #[error(transparent)]
    Disk(#[from] std::io::Error),
}
