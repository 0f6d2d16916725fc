//! What a request may cost.

use std::time::Duration;

use super::concurrency::ConcurrencyLimits;
use crate::quotas::Quotas;

/// What a request may cost.
#[derive(Debug, Clone)]
pub struct Limits {
    /// Bytes of a sync request as sent.
    pub request_bytes: usize,
    /// Bytes of a sync request after inflation.
    pub inflated_bytes: usize,
    /// Bytes of one photograph.
    pub photo_bytes: u64,
    /// Requests answered at once; more are told to come back.
    pub at_once: usize,
    /// Open hint streams.
    pub hint_streams: usize,
    /// How long a sender may pause inside a body.
    pub pause: Duration,
    /// How long a sync or enrolment may take in all.
    pub in_all: Duration,
    /// Pages made at once; more wait.
    pub pages_at_once: usize,
    /// How long a page may take, its wait for others included.
    pub page: Duration,
    /// How long a packet may take.
    pub packet: Duration,
    /// How many from one address or session.
    pub concurrency: ConcurrencyLimits,
    /// What one device may bring in a day.
    pub quotas: Quotas,
}

impl Default for Limits {
    fn default() -> Self {
        Limits {
            request_bytes: 4 * 1024 * 1024,
            inflated_bytes: farsiding_core::sync::wire::LARGEST_BULK,
            photo_bytes: 64 * 1024 * 1024,
            at_once: 256,
            hint_streams: 256,
            pause: Duration::from_secs(30),
            in_all: Duration::from_secs(600),
            pages_at_once: 16,
            page: Duration::from_secs(20),
            packet: Duration::from_secs(180),
            concurrency: ConcurrencyLimits::default(),
            quotas: Quotas::default(),
        }
    }
}
