//! How often somebody may try to sign in: per account and per address.
//!
//! Ten tries at once for a name, then one a minute; thirty for an address, then one every ten seconds.
//! In memory only: a restart forgets, and costs an attacker more than it gives.

use std::net::{IpAddr, Ipv6Addr};
use std::num::NonZeroU32;
use std::time::Duration;

use farsiding_core::ids::Digest;
use governor::clock::{Clock as _, DefaultClock};
use governor::state::keyed::DashMapStateStore;
use governor::{Quota, RateLimiter};

type Limiter<Key> = RateLimiter<Key, DashMapStateStore<Key>, DefaultClock>;

/// Names and addresses remembered before those that are at rest are forgotten.
const REMEMBERED: usize = 4096;

/// The limits.
#[derive(Debug)]
pub struct Attempts {
    names: Limiter<Digest>,
    addresses: Limiter<IpAddr>,
}

fn quota(at_once: u32, then_every: Duration) -> Quota {
    let at_once = NonZeroU32::new(at_once).unwrap_or(NonZeroU32::MIN);
    Quota::with_period(then_every).unwrap_or_else(|| Quota::per_minute(at_once)).allow_burst(at_once)
}

impl Default for Attempts {
    fn default() -> Attempts {
        Attempts {
            names: RateLimiter::keyed(quota(10, Duration::from_secs(60))),
            addresses: RateLimiter::keyed(quota(30, Duration::from_secs(10))),
        }
    }
}

impl Attempts {
    /// Whether one more try is let through; otherwise how long to wait.
    ///
    /// # Errors
    /// The time until the next try.
    pub fn one_more(&self, name: &str, address: IpAddr) -> Result<(), Duration> {
        if self.names.len() > REMEMBERED {
            self.names.retain_recent();
        }
        if self.addresses.len() > REMEMBERED {
            self.addresses.retain_recent();
        }
        let name = Digest::of(name.trim().to_lowercase().as_bytes());
        let now = DefaultClock::default().now();
        self.addresses.check_key(&network(address)).map_err(|until| until.wait_time_from(now))?;
        self.names.check_key(&name).map_err(|until| until.wait_time_from(now))
    }
}

/// An address as it is counted: of IPv6 the first 64 bits, which is what one customer is given.
pub(in crate::office) fn network(address: IpAddr) -> IpAddr {
    match address.to_canonical() {
        IpAddr::V6(six) => IpAddr::V6(Ipv6Addr::from_bits(six.to_bits() & !u128::from(u64::MAX))),
        four => four,
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;

    fn address(last: u8) -> IpAddr {
        IpAddr::from([192, 0, 2, last])
    }

    #[test]
    fn a_name_is_guessed_at_ten_times_from_wherever() {
        let attempts = Attempts::default();
        let let_through = (0..40u8).filter(|n| attempts.one_more("Office", address(*n)).is_ok()).count();
        assert_eq!(let_through, 10);
        let wait = attempts.one_more(" OFFICE ", address(99)).unwrap_err();
        assert!(wait > Duration::from_secs(30) && wait <= Duration::from_secs(60), "{wait:?}");
        assert!(attempts.one_more("another", address(99)).is_ok());
    }

    #[test]
    fn an_address_tries_thirty_names_and_waits() {
        let attempts = Attempts::default();
        let let_through =
            (0..60).filter(|n| attempts.one_more(&format!("name {n}"), address(1)).is_ok()).count();
        assert_eq!(let_through, 30);
        let one: IpAddr = "2001:db8::1".parse().unwrap();
        let two: IpAddr = "2001:db8::ffff:1".parse().unwrap();
        assert_eq!(network(one), network(two), "one customer has a whole /64");
        assert_eq!(network("::ffff:192.0.2.1".parse().unwrap()), address(1));
    }
}
