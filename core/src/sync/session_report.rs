//! The result types of a sync session: whether to continue, and what the session has done.

use crate::ids::{Digest, Subject};

/// Whether to continue.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Step {
    /// The caller should ask for another request and send it.
    Again,
    /// Both sides hold the same records, or this device was revoked.
    Done,
}

/// What a session has done.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct SyncReport {
    /// The number of requests answered.
    pub rounds: u32,
    /// The number of entries that gained a receipt.
    pub receipted: u64,
    /// The number of entries that are new on this device.
    pub received: u64,
    /// The documents that changed on this device.
    pub touched: Vec<Subject>,
    /// The server's reasons for changes that it refused. The changes stay on this device without a receipt.
    pub refused: Vec<String>,
    /// The reason why the server does not accept some changes for now. They stay unsent and are sent again
    /// later.
    pub put_off: Option<String>,
    /// The number of parts of replies that were refused here and put into quarantine.
    pub set_aside: u64,
    /// The number of people's names that the server sent and that do not fit the entries. They are not kept, and
    /// the people are shown by their codes.
    pub names_unfit: u64,
    /// Device clock minus server clock, in milliseconds.
    pub ahead_millis: i64,
    /// Whether the records had to be reconciled document by document.
    pub reconciled: bool,
    /// The documents that still differ from the office's after the maximum number of rounds. All other
    /// documents have their receipts; these are compared again at the next sync.
    pub differing: Vec<Subject>,
    /// The documents that left this device, because its certificate no longer names their sites and the server
    /// holds all of them.
    pub left: Vec<Subject>,
    /// The photographs that left with them. Their bytes are the shell's to delete.
    pub left_photos: Vec<Digest>,
    /// Whether this device was revoked. The server kept what the device sent but delivers nothing more to it.
    pub revoked: bool,
}
