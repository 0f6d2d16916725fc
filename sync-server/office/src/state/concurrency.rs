//! Limits on simultaneous and frequent requests from one address or session, so that nobody can crowd out
//! everybody else. The counts are kept in memory only.
//!
//! This file only counts. What a request may contain is limited in `quotas`, and guessing passwords in
//! `accounts::attempts`.

use std::collections::HashMap;
use std::hash::Hash;
use std::io;
use std::net::{IpAddr, SocketAddr};
use std::num::NonZeroU32;
use std::pin::Pin;
use std::sync::{Arc, Mutex, PoisonError};
use std::task::{Context, Poll};
use std::time::Duration;

use axum::extract::{ConnectInfo, Request};
use axum::http::HeaderMap;
use axum_server::accept::Accept;
use farsiding_core::ids::Digest;
use governor::clock::DefaultClock;
use governor::state::keyed::DashMapStateStore;
use governor::{Quota, RateLimiter};
use tokio::io::{AsyncRead, AsyncWrite, ReadBuf};
use tokio::net::TcpStream;
use tokio::sync::{OwnedSemaphorePermit, Semaphore};

use crate::accounts::attempts::network;

/// The number of addresses that are remembered before idle ones are dropped.
const REMEMBERED: usize = 16_384;

/// The limits.
#[derive(Debug, Clone)]
pub struct ConcurrencyLimits {
    /// The largest number of connections in all.
    pub connections: usize,
    /// The largest number of connections from one address. It does not apply behind a proxy, because all
    /// connections then have the proxy's address.
    pub connections_of_one: usize,
    /// The largest number of requests from one address that are answered at the same time; more wait.
    pub at_once_of_one: usize,
    /// The largest number of requests from one address without a pause.
    pub burst: u32,
    /// The number of requests per second from one address after that.
    pub a_second: u32,
    /// The largest number of event streams of one address.
    pub streams_of_one: usize,
    /// The largest number of event streams of one device or session.
    pub streams_of_session: usize,
    /// Whether the address is the last one in `X-Forwarded-For`. This is safe only if a proxy in front writes
    /// that header.
    pub behind_proxy: bool,
}

impl Default for ConcurrencyLimits {
    fn default() -> Self {
        ConcurrencyLimits {
            connections: 4096,
            connections_of_one: 512,
            // Out of 256 in all, so one address always leaves some for others.
            at_once_of_one: 192,
            burst: 3000,
            a_second: 100,
            streams_of_one: 128,
            streams_of_session: 6,
            behind_proxy: false,
        }
    }
}

/// Counters of used places, by key.
#[derive(Debug)]
pub struct Places<K: Eq + Hash>(Arc<Mutex<HashMap<K, usize>>>);

impl<K: Eq + Hash> Default for Places<K> {
    fn default() -> Self {
        Places(Arc::default())
    }
}

impl<K: Eq + Hash> Clone for Places<K> {
    fn clone(&self) -> Self {
        Places(Arc::clone(&self.0))
    }
}

impl<K: Eq + Hash + Clone> Places<K> {
    /// Returns another place, if fewer than `most` are in use.
    pub fn take(&self, whose: K, most: usize) -> Option<Place<K>> {
        let mut taken = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let count = taken.get(&whose).copied().unwrap_or(0);
        if count >= most {
            return None;
        }
        taken.insert(whose.clone(), count + 1);
        Some(Place { whose, places: self.clone() })
    }
}

/// A place in a counter, which is given back when the value is dropped.
#[derive(Debug)]
pub struct Place<K: Eq + Hash> {
    whose: K,
    places: Places<K>,
}

impl<K: Eq + Hash> Drop for Place<K> {
    fn drop(&mut self) {
        let mut taken = self.places.0.lock().unwrap_or_else(PoisonError::into_inner);
        let left = taken.get_mut(&self.whose).map(|count| {
            *count = count.saturating_sub(1);
            *count
        });
        if left == Some(0) {
            taken.remove(&self.whose);
        }
    }
}

/// The current counts by address and by session.
#[derive(Debug)]
pub struct Concurrency {
    limits: ConcurrencyLimits,
    often: RateLimiter<IpAddr, DashMapStateStore<IpAddr>, DefaultClock>,
    at_once: Mutex<HashMap<IpAddr, Arc<Semaphore>>>,
    streams: Places<IpAddr>,
    sessions: Places<Digest>,
}

/// The places that one event stream uses.
#[derive(Debug)]
pub struct StreamPlace {
    _address: Place<IpAddr>,
    _session: Place<Digest>,
}

impl Concurrency {
    /// Returns empty counts with these limits.
    pub fn new(limits: ConcurrencyLimits) -> Concurrency {
        let a_second = NonZeroU32::new(limits.a_second).unwrap_or(NonZeroU32::MIN);
        let burst = NonZeroU32::new(limits.burst).unwrap_or(NonZeroU32::MIN);
        Concurrency {
            often: RateLimiter::keyed(Quota::per_second(a_second).allow_burst(burst)),
            limits,
            at_once: Mutex::default(),
            streams: Places::default(),
            sessions: Places::default(),
        }
    }

    /// Returns the address under which a request is counted. Behind a proxy this is the last address in
    /// `X-Forwarded-For`, because the client can choose the ones before it.
    pub fn address(&self, peer: SocketAddr, headers: &HeaderMap) -> IpAddr {
        let told = || {
            let last = headers.get_all("x-forwarded-for").iter().next_back()?.to_str().ok()?;
            last.rsplit(',').next()?.trim().parse::<IpAddr>().ok()
        };
        let told = if self.limits.behind_proxy { told() } else { None };
        network(told.unwrap_or(peer.ip()))
    }

    /// Returns the address of a request, or `None` in a test without a connection.
    pub fn address_of(&self, request: &Request) -> Option<IpAddr> {
        let ConnectInfo(peer) = request.extensions().get::<ConnectInfo<SocketAddr>>()?;
        Some(self.address(*peer, request.headers()))
    }

    /// Counts a request and returns whether it is within the rate limit of its address.
    pub fn one_more(&self, address: IpAddr) -> bool {
        if self.often.len() > REMEMBERED {
            self.often.retain_recent();
        }
        self.often.check_key(&address).is_ok()
    }

    /// Waits until fewer requests of this address are being answered than the limit allows.
    pub async fn turn(&self, address: IpAddr) -> Option<OwnedSemaphorePermit> {
        let places = {
            let mut at_once = self.at_once.lock().unwrap_or_else(PoisonError::into_inner);
            if at_once.len() > REMEMBERED {
                at_once.retain(|_, places| Arc::strong_count(places) > 1);
            }
            let fresh = || Arc::new(Semaphore::new(self.limits.at_once_of_one));
            Arc::clone(at_once.entry(address).or_insert_with(fresh))
        };
        places.acquire_owned().await.ok()
    }

    /// Returns a place for an event stream of a device or session.
    pub fn stream(&self, address: IpAddr, session: &[u8]) -> Option<StreamPlace> {
        let of_session = self.sessions.take(Digest::of(session), self.limits.streams_of_session)?;
        let of_address = self.streams.take(address, self.limits.streams_of_one)?;
        Some(StreamPlace { _address: of_address, _session: of_session })
    }
}

/// A listener that accepts connections within the limits, in all and for each address.
#[derive(Debug, Clone)]
pub struct CountedConnections {
    limits: ConcurrencyLimits,
    all: Places<()>,
    of_one: Places<IpAddr>,
}

impl CountedConnections {
    /// Returns a listener without any connections yet.
    pub fn new(limits: ConcurrencyLimits) -> CountedConnections {
        CountedConnections { limits, all: Places::default(), of_one: Places::default() }
    }

    fn count(&self, stream: TcpStream) -> io::Result<Counted> {
        let full = || io::Error::other("too many connections");
        let all = self.all.take((), self.limits.connections).ok_or_else(full)?;
        let most = if self.limits.behind_proxy { usize::MAX } else { self.limits.connections_of_one };
        let address = network(stream.peer_addr()?.ip());
        let of_one = self.of_one.take(address, most).ok_or_else(full)?;
        Ok(Counted { stream, _all: all, _of_one: of_one })
    }
}

impl<S> Accept<TcpStream, S> for CountedConnections {
    type Stream = Counted;
    type Service = S;
    type Future = std::future::Ready<io::Result<(Counted, S)>>;

    fn accept(&self, stream: TcpStream, service: S) -> Self::Future {
        std::future::ready(self.count(stream).map(|counted| (counted, service)))
    }
}

/// A connection that is counted while it is open.
#[derive(Debug)]
pub struct Counted {
    stream: TcpStream,
    _all: Place<()>,
    _of_one: Place<IpAddr>,
}

impl AsyncRead for Counted {
    fn poll_read(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
        into: &mut ReadBuf<'_>,
    ) -> Poll<io::Result<()>> {
        Pin::new(&mut self.stream).poll_read(context, into)
    }
}

impl AsyncWrite for Counted {
    fn poll_write(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
        bytes: &[u8],
    ) -> Poll<io::Result<usize>> {
        Pin::new(&mut self.stream).poll_write(context, bytes)
    }

    fn poll_flush(mut self: Pin<&mut Self>, context: &mut Context<'_>) -> Poll<io::Result<()>> {
        Pin::new(&mut self.stream).poll_flush(context)
    }

    fn poll_shutdown(mut self: Pin<&mut Self>, context: &mut Context<'_>) -> Poll<io::Result<()>> {
        Pin::new(&mut self.stream).poll_shutdown(context)
    }

    fn poll_write_vectored(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
        pieces: &[io::IoSlice<'_>],
    ) -> Poll<io::Result<usize>> {
        Pin::new(&mut self.stream).poll_write_vectored(context, pieces)
    }

    fn is_write_vectored(&self) -> bool {
        self.stream.is_write_vectored()
    }
}

/// The value of `Retry-After` for a client that came too often, in seconds.
pub const COME_BACK: &str = "5";

/// How long a request may wait for its turn, in addition to the time for which a client may pause in a body.
pub const PATIENCE: Duration = Duration::from_secs(10);

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;

    fn peer() -> SocketAddr {
        "192.0.2.1:4711".parse().unwrap()
    }

    fn headers() -> HeaderMap {
        let mut headers = HeaderMap::new();
        headers.append("x-forwarded-for", "198.51.100.7, 203.0.113.9".parse().unwrap());
        headers
    }

    #[test]
    fn an_address_in_a_header_counts_only_when_a_proxy_is_said_to_write_it() {
        let open = Concurrency::new(ConcurrencyLimits::default());
        assert_eq!(open.address(peer(), &headers()), peer().ip(), "anybody may write that header");
        let behind =
            Concurrency::new(ConcurrencyLimits { behind_proxy: true, ..ConcurrencyLimits::default() });
        assert_eq!(behind.address(peer(), &headers()), "203.0.113.9".parse::<IpAddr>().unwrap());
        assert_eq!(behind.address(peer(), &HeaderMap::new()), peer().ip());
    }

    #[test]
    fn one_address_takes_its_own_places_and_no_others() {
        let concurrency =
            Concurrency::new(ConcurrencyLimits { burst: 3, a_second: 1, ..ConcurrencyLimits::default() });
        let (one, other) = (peer().ip(), "192.0.2.2".parse().unwrap());
        assert_eq!((0..10).filter(|_| concurrency.one_more(one)).count(), 3);
        assert!(concurrency.one_more(other));
    }

    #[test]
    fn streams_are_counted_by_session_and_by_address_and_given_back() {
        let limits =
            ConcurrencyLimits { streams_of_one: 3, streams_of_session: 2, ..ConcurrencyLimits::default() };
        let (concurrency, here) = (Concurrency::new(limits), peer().ip());
        let mut open: Vec<StreamPlace> = (0..5).filter_map(|_| concurrency.stream(here, b"a")).collect();
        assert_eq!(open.len(), 2);
        open.extend((0..5).filter_map(|_| concurrency.stream(here, b"b")));
        assert_eq!(open.len(), 3);
        assert!(concurrency.stream("192.0.2.2".parse().unwrap(), b"b").is_some());
        drop(open);
        assert!(concurrency.stream(here, b"a").is_some());
    }
}
