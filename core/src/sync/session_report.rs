//! What a session of sync says to whoever runs it: whether to go on, and what it brought about.

use crate::ids::Subject;

/// Whether to go on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Step {
    /// Ask for another request and send it.
    Again,
    /// Both sides have the same, or this device is revoked.
    Done,
}

/// What a session brought about.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct SyncReport {
    /// Requests answered.
    pub rounds: u32,
    /// Entries this device now holds a new receipt for.
    pub receipted: u64,
    /// Entries that are new here.
    pub received: u64,
    /// Documents that changed here.
    pub touched: Vec<Subject>,
    /// Changes the server refused, with its reasons: they stay here, without a receipt.
    pub refused: Vec<String>,
    /// Why the server does not take some changes for now: they stay unsent and are brought again later.
    pub put_off: Option<String>,
    /// Things from the server that were refused here and kept aside.
    pub set_aside: u64,
    /// Device clock minus server clock, milliseconds.
    pub ahead_millis: i64,
    /// The records had to be reconciled document by document.
    pub reconciled: bool,
    /// Documents that still differ from the office's after as many rounds as should ever be needed. All others
    /// have their receipts; these are compared again next time.
    pub differing: Vec<Subject>,
    /// This device has been revoked: what it sent was kept, nothing more comes to it.
    pub revoked: bool,
}
