//! Limits attempts to sign in. Attempts are counted for an account together with their origin, never for the
//! account alone, so that nobody can lock another person out by guessing.
//!
//! The origin is an address, or a browser from which the account has signed in before. A known browser is
//! counted separately and never waits because of strangers. A few wrong attempts are free, and after that
//! each one doubles the wait. The counts are kept in memory only: a restart resets them, which helps an
//! attacker less than it costs. The processor time spent on guesses from many addresses is limited by
//! [`Lines`].

use std::collections::HashMap;
use std::net::{IpAddr, Ipv6Addr};
use std::sync::{Mutex, PoisonError};
use std::time::{Duration, Instant};

use farsiding_core::ids::Digest;
use tokio::sync::{Semaphore, SemaphorePermit};

/// The number of wrong attempts without a wait.
pub const FREE: u32 = 5;
/// The longest wait.
const LONGEST_WAIT: Duration = Duration::from_secs(15 * 60);
/// The time after the last attempt at which the attempts are forgotten.
const FORGOTTEN_AFTER: Duration = Duration::from_secs(12 * 60 * 60);
/// The number of pairs of account and origin that are remembered before the oldest are dropped.
const REMEMBERED: usize = 65_536;

/// The origin of an attempt.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Origin {
    /// An address, as counted.
    Address(IpAddr),
    /// A known browser, by the hash of the token it received when the account signed in from it.
    KnownBrowser(Digest),
    /// A person who is signed in already, by the session.
    Session(Digest),
    /// Any place. Used for codes, which are short, after the password was right.
    Anywhere,
}

impl Origin {
    /// Returns the origin for an address. IPv6 addresses are counted by their first 64 bits, which is what
    /// one customer is assigned.
    pub fn address(address: IpAddr) -> Origin {
        Origin::Address(network(address))
    }
}

/// The kind of secret that is tried.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Tried {
    /// A password.
    Password,
    /// A code of the second factor.
    Code,
}

#[derive(Debug, Clone, Copy)]
struct Wrong {
    tries: u32,
    last: Instant,
}

impl Wrong {
    fn wait(self, now: Instant) -> Duration {
        let Some(over) = self.tries.checked_sub(FREE) else { return Duration::ZERO };
        let wait = Duration::from_secs(1u64 << over.min(10)).min(LONGEST_WAIT);
        wait.saturating_sub(now.saturating_duration_since(self.last))
    }
}

/// The counts of wrong attempts, by account and origin.
#[derive(Debug, Default)]
pub struct Attempts {
    wrong: Mutex<HashMap<(Tried, Digest, Origin), Wrong>>,
}

/// Returns the key under which an account's name is counted. Names are normalised as for signing in.
fn key(name: &str) -> Digest {
    Digest::of(name.trim().to_lowercase().as_bytes())
}

impl Attempts {
    /// Begins an attempt. It counts as wrong until [`Attempts::was_right`] is called, so that simultaneous
    /// attempts are counted as well.
    ///
    /// # Errors
    /// Returns how long to wait before the next attempt.
    pub fn begin(&self, tried: Tried, name: &str, from: Origin, now: Instant) -> Result<(), Duration> {
        let mut wrong = self.wrong.lock().unwrap_or_else(PoisonError::into_inner);
        if wrong.len() >= REMEMBERED {
            forget(&mut wrong, now);
        }
        let known = wrong.entry((tried, key(name), from)).or_insert(Wrong { tries: 0, last: now });
        if now.saturating_duration_since(known.last) > FORGOTTEN_AFTER {
            known.tries = 0;
        }
        let wait = known.wait(now);
        if !wait.is_zero() {
            return Err(wait);
        }
        *known = Wrong { tries: known.tries.saturating_add(1), last: now };
        Ok(())
    }

    /// Records that an attempt was right. Earlier wrong attempts from the same origin are forgotten.
    pub fn was_right(&self, tried: Tried, name: &str, from: Origin) {
        let mut wrong = self.wrong.lock().unwrap_or_else(PoisonError::into_inner);
        wrong.remove(&(tried, key(name), from));
    }
}

/// Returns an address as it is counted: IPv6 addresses by their first 64 bits, which is what one customer is
/// assigned.
pub(crate) fn network(address: IpAddr) -> IpAddr {
    match address.to_canonical() {
        IpAddr::V6(six) => IpAddr::V6(Ipv6Addr::from_bits(six.to_bits() & !u128::from(u64::MAX))),
        four => four,
    }
}

/// Removes old counts and, if that is not enough, the older half of the rest.
fn forget(wrong: &mut HashMap<(Tried, Digest, Origin), Wrong>, now: Instant) {
    wrong.retain(|_, known| now.saturating_duration_since(known.last) <= FORGOTTEN_AFTER);
    if wrong.len() >= REMEMBERED {
        let mut times: Vec<Instant> = wrong.values().map(|known| known.last).collect();
        let middle = times.len() / 2;
        let (_, middle, _) = times.select_nth_unstable(middle);
        let middle = *middle;
        wrong.retain(|_, known| known.last > middle);
    }
}

/// The queues in which passwords wait to be hashed, which takes 19 MiB and a tenth of a second each. Known
/// browsers have a queue of their own, so that strangers who try many passwords do not hold them up. One
/// address has only a few places, so that one stranger cannot fill the queue of the others.
#[derive(Debug)]
pub struct Lines {
    strangers: Semaphore,
    known: Semaphore,
    waiting: Mutex<HashMap<Origin, usize>>,
}

/// The number of sign-ins from one origin that may wait at the same time.
const WAITING_OF_ONE: usize = 4;
/// The number of sign-ins of strangers that may wait at the same time.
const WAITING_OF_ALL: usize = 64;

/// A place in a queue, which is given back when the value is dropped.
#[derive(Debug)]
pub struct Place<'l> {
    lines: &'l Lines,
    from: Origin,
    _permit: Option<SemaphorePermit<'l>>,
}

impl Drop for Place<'_> {
    fn drop(&mut self) {
        let mut waiting = self.lines.waiting.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(count) = waiting.get_mut(&self.from) {
            *count -= 1;
            if *count == 0 {
                waiting.remove(&self.from);
            }
        }
    }
}

impl Default for Lines {
    fn default() -> Lines {
        Lines { strangers: Semaphore::new(2), known: Semaphore::new(1), waiting: Mutex::default() }
    }
}

impl Lines {
    /// Waits for a turn. Returns `None` when too many are waiting already.
    pub async fn turn(&self, from: Origin) -> Option<Place<'_>> {
        let known = matches!(from, Origin::KnownBrowser(_) | Origin::Session(_));
        {
            let mut waiting = self.waiting.lock().unwrap_or_else(PoisonError::into_inner);
            let strangers = waiting.iter().filter(|(from, _)| matches!(from, Origin::Address(_)));
            if !known && strangers.map(|(_, count)| count).sum::<usize>() >= WAITING_OF_ALL {
                return None;
            }
            let of_one = waiting.entry(from).or_insert(0);
            if *of_one >= WAITING_OF_ONE {
                return None;
            }
            *of_one += 1;
        }
        let mut place = Place { lines: self, from, _permit: None };
        let line = if known { &self.known } else { &self.strangers };
        place._permit = Some(line.acquire().await.ok()?);
        Some(place)
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;

    fn address(last: u8) -> Origin {
        Origin::address(IpAddr::from([192, 0, 2, last]))
    }

    #[test]
    fn waits_grow_for_one_account_from_one_place_and_for_nobody_else() {
        let (attempts, mut now) = (Attempts::default(), Instant::now());
        let mut waits = Vec::new();
        for _ in 0..30 {
            while let Err(wait) = attempts.begin(Tried::Password, "Office", address(1), now) {
                waits.push(wait.as_secs());
                now += wait;
            }
        }
        assert_eq!(waits[..11], [1, 2, 4, 8, 16, 32, 64, 128, 256, 512, 900]);
        assert!(waits[11..].iter().all(|wait| *wait == 900), "{waits:?}");
        assert!(attempts.begin(Tried::Password, " OFFICE", address(1), now).is_err());
        assert!(attempts.begin(Tried::Password, "Office", address(2), now).is_ok(), "another address");
        assert!(attempts.begin(Tried::Password, "Second", address(1), now).is_ok(), "another account");
        let known = Origin::KnownBrowser(Digest([7; 32]));
        assert!(attempts.begin(Tried::Password, "Office", known, now).is_ok(), "a browser that is known");
    }

    #[test]
    fn a_right_password_clears_what_was_wrong_before_and_a_night_does() {
        let (attempts, now) = (Attempts::default(), Instant::now());
        let use_up = |now| while attempts.begin(Tried::Password, "Office", address(1), now).is_ok() {};
        use_up(now);
        attempts.was_right(Tried::Password, "office", address(1));
        assert!(attempts.begin(Tried::Password, "Office", address(1), now).is_ok());
        use_up(now);
        let later = now + FORGOTTEN_AFTER + Duration::from_secs(1);
        let tries = (0..10).filter(|_| attempts.begin(Tried::Password, "Office", address(1), later).is_ok());
        assert_eq!(tries.count(), FREE as usize);
    }

    #[test]
    fn a_flood_of_names_forgets_what_is_old_and_never_grows() {
        let (attempts, now) = (Attempts::default(), Instant::now());
        for n in 0..(REMEMBERED + 10) as u64 {
            let at = now + Duration::from_millis(n);
            let _ = attempts.begin(Tried::Password, &n.to_string(), address(1), at);
        }
        assert!(attempts.wrong.lock().unwrap().len() <= REMEMBERED);
        let one: IpAddr = "2001:db8::1".parse().unwrap();
        let two: IpAddr = "2001:db8::ffff:1".parse().unwrap();
        assert_eq!(Origin::address(one), Origin::address(two), "one customer has a whole /64");
        assert_eq!(Origin::address("::ffff:192.0.2.1".parse().unwrap()), address(1));
    }

    #[tokio::test]
    async fn one_address_fills_its_own_places_and_not_the_line() {
        let lines = Lines::default();
        let mut held = Vec::new();
        for _ in 0..2 {
            held.push(lines.turn(address(1)).await.unwrap());
        }
        // Further sign-ins from that address wait, a fifth is refused, and a known browser has a queue of its
        // own.
        let mut waiting: Vec<_> = (0..2).map(|_| Box::pin(lines.turn(address(1)))).collect();
        for one in &mut waiting {
            assert!(futures_util::FutureExt::now_or_never(one).is_none());
        }
        assert!(lines.turn(address(1)).await.is_none());
        assert!(lines.turn(Origin::KnownBrowser(Digest([1; 32]))).await.is_some());
        drop((waiting, held));
        assert!(lines.turn(address(2)).await.is_some());
    }
}
