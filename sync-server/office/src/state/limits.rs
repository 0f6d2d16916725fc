//! The limits on the cost of a request.

use std::time::Duration;

use super::concurrency::ConcurrencyLimits;
use crate::quotas::Quotas;

/// The limits on the cost of a request.
#[derive(Debug, Clone)]
pub struct Limits {
    /// The largest sync request as sent, in bytes.
    pub request_bytes: usize,
    /// The largest sync request after decompression, in bytes.
    pub inflated_bytes: usize,
    /// The largest photograph, in bytes.
    pub photo_bytes: u64,
    /// The number of requests answered at the same time; more are told to try later.
    pub at_once: usize,
    /// The number of open hint streams.
    pub hint_streams: usize,
    /// How long a client may pause inside a body.
    pub pause: Duration,
    /// How long a sync or an enrolment may take in all.
    pub in_all: Duration,
    /// The number of pages rendered at the same time; more wait.
    pub pages_at_once: usize,
    /// How long a page may take, including its wait.
    pub page: Duration,
    /// How long a packet may take.
    pub packet: Duration,
    /// The limits for one address or session.
    pub concurrency: ConcurrencyLimits,
    /// The daily limits for one device.
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
