//! Sync without IO: bytes in, bytes out. HTTP lives in the shells.
//!
//! One idempotent round serves all documents: what is new here and not yet receipted, and how far the
//! server's ledger was read; back come a signed receipt, what is new there, and a tally of
//! everything. When tallies disagree (a restored phone, a restored server) the documents are
//! reconciled one by one over the same rounds. [`Session`] is the asking side, [`Answerer`] the
//! answering one; both work on any [`crate::store::Store`]. After the records a [`LogWatch`] asks for the
//! server's log ([`answer_log`]) and checks that it only ever grew.

mod allowance;
mod answer;
mod carry;
mod certificates;
mod difference;
mod error;
mod kept_proof;
mod keys;
mod ledger_time;
mod log_alarm;
mod log_watch;
mod log_wire;
mod opened;
mod pass;
mod put_off;
mod session;
mod session_report;
pub mod wire;

#[cfg(test)]
mod key_tests;
#[cfg(test)]
mod log_tests;
#[cfg(test)]
mod opened_tests;
#[cfg(test)]
mod scope_tests;
#[cfg(test)]
mod tests;

pub use allowance::{Allowance, Over};
pub use answer::{Answer, Answerer, CERTIFICATES_VERSION, Refusal};
pub use carry::{CarriedPhoto, CarryReport, LARGEST_CARRY, carry_in, carry_out};
pub use error::SyncError;
pub use kept_proof::{KeptProof, proof_of};
pub use ledger_time::{ClockNote, clock_notes, keep_clock_note, ledger_time, newest_signed, parting_time};
pub use log_alarm::{Alarm, Contradiction};
pub use log_watch::{LogReport, LogStanding, LogWatch, log_standing};
pub use log_wire::{
    LogAnswer, LogReply, LogReplyHead, LogRequest, MOST_ENTRIES, MOST_SIZES, answer_log, open_log_reply,
    open_log_request, seal_log_reply,
};
pub use opened::{Devices, LARGEST_HEAD, MOST_ASKS, OpenedRequest, Outline, Vouched};
pub use pass::{PASS_WINDOW_MILLIS, PassRequest};
pub use session::CLOCK_AHEAD;
pub use session::Session;
pub use session_report::{Step, SyncReport};
