//! The sync rounds that wait for the ledger.

use farsiding_core::clock::UtcMillis;
use farsiding_core::sync::{Answer, OpenedRequest};
use tokio::sync::oneshot;

use super::request_error::RequestError;

/// A sync round that waits for the ledger.
#[derive(Debug)]
pub(crate) struct WaitingRound {
    pub(crate) request: OpenedRequest,
    pub(crate) came_at: UtcMillis,
    pub(crate) tell: oneshot::Sender<Result<Answer, RequestError>>,
}
