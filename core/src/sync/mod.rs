//! Sync without IO: this module turns bytes into bytes. HTTP lives in the shells.
//!
//! One idempotent round covers all documents. The request carries the changes that have no receipt yet and
//! the position up to which the device has read the server's ledger. The reply carries a signed receipt, the
//! changes after that position, and a set digest of the ledger. When the set digests disagree (because a
//! phone or a server was restored from a backup), the documents are reconciled one by one over the same kind
//! of round. [`Session`] is the asking side and [`Answerer`] the answering side; both work on any
//! [`crate::store::Store`]. After the records a [`LogWatch`] asks for the server's transparency log
//! ([`answer_log`]) and checks that the log has only been appended to.

mod allowance;
mod answer;
mod answerer;
mod carry;
mod certificates;
mod difference;
mod error;
mod kept_proof;
mod keys;
mod leaving;
mod ledger_time;
mod log_alarm;
mod log_watch;
mod log_wire;
mod names;
mod opened;
mod pass;
mod put_off;
mod received;
mod round_plan;
mod rounds;
#[cfg(test)]
mod rounds_tests;
mod session;
mod session_report;
pub mod wire;

#[cfg(test)]
mod key_tests;
#[cfg(test)]
mod leaving_tests;
#[cfg(test)]
mod log_tests;
#[cfg(test)]
mod names_tests;
#[cfg(test)]
mod opened_tests;
#[cfg(test)]
mod scope_tests;
#[cfg(test)]
mod tests;

pub use allowance::{Allowance, Over};
pub use answer::{Answer, AnswerError, CERTIFICATES_VERSION};
pub use answerer::Answerer;
pub use carry::{CarriedPhoto, CarryReport, LARGEST_CARRY, carry_in, carry_out};
pub use error::SyncError;
pub use kept_proof::{KeptProof, proof_of};
pub use leaving::{Left, left};
pub use ledger_time::{ClockNote, clock_notes, keep_clock_note, ledger_time, newest_signed, parting_time};
pub use log_alarm::{Alarm, LogContradiction};
pub use log_watch::{LogReport, LogStanding, LogWatch, log_standing};
pub use log_wire::{
    LogAnswer, LogReply, LogReplyHead, LogRequest, MOST_ENTRIES, MOST_SIZES, answer_log, open_log_reply,
    open_log_request, seal_log_reply,
};
pub use names::{NamesSettled, names_said, renew_names, settle_after, settle_names};
pub use opened::{Devices, LARGEST_HEAD, MOST_ASKS, OpenedRequest, Outline, Vouched};
pub use pass::{PASS_WINDOW_MILLIS, PassRequest};
pub use received::received_from_revoked;
pub use rounds::Rounds;
pub use session::CLOCK_AHEAD;
pub use session::Session;
pub use session_report::{Step, SyncReport};
