//! Tells automatic refreshes of a page from requests by a person. The server puts a token into each page that
//! a person requests, valid for that session and address for a while, and refreshes send the token back.
//!
//! The audit depends on this: refreshes are not written to it. A header alone would prove nothing, because
//! the client chooses its headers; a request without a valid token is always written to the audit. When the
//! token of an open page has expired, the next refresh is written as well, so an open page adds a row now and
//! then instead of one every minute.

use farsiding_core::clock::UtcMillis;
use farsiding_core::ids::{Digest, Randomness};

/// The header in which a page sends its token.
pub const HEADER: &str = "farsiding-live";
/// How long a page may refresh itself before a request is written to the audit again, in milliseconds.
const GOOD_FOR_MILLIS: i64 = 60 * 60_000;

/// The secret with which this process makes its tokens.
#[derive(Clone)]
pub struct Refreshing([u8; 32]);

impl std::fmt::Debug for Refreshing {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Refreshing").finish_non_exhaustive()
    }
}

impl Refreshing {
    /// Returns a new random secret.
    pub fn new(randomness: &mut dyn Randomness) -> Refreshing {
        let mut secret = [0; 32];
        randomness.fill(&mut secret);
        Refreshing(secret)
    }

    fn mark(&self, session: &str, address: &str, at: UtcMillis) -> Digest {
        // The inner digest has a fixed length, so nothing can be appended to the text.
        let inner = Digest::of(format!("farsiding page {session} {} {address}", at.0).as_bytes());
        Digest::of(&[self.0, inner.0].concat())
    }

    /// Returns the token for a page that is rendered for a session now.
    pub fn token(&self, session: &str, address: &str, now: UtcMillis) -> String {
        format!("{}.{}", now.0, self.mark(session, address, now))
    }

    /// Returns whether this server put the token into a page of this session at this address, and recently
    /// enough.
    pub fn is_good(&self, token: &str, session: &str, address: &str, now: UtcMillis) -> bool {
        let Some((at, mark)) = token.split_once('.') else { return false };
        let (Ok(at), Ok(mark)) = (at.parse().map(UtcMillis), Digest::read(mark)) else { return false };
        let age = now.0.checked_sub(at.0);
        let young = age.is_some_and(|age| (0..GOOD_FOR_MILLIS).contains(&age));
        // Digests are compared, so that the duration of the comparison reveals nothing useful.
        young && Digest::of(&mark.0) == Digest::of(&self.mark(session, address, at).0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    struct Same;
    impl Randomness for Same {
        fn fill(&mut self, bytes: &mut [u8]) {
            bytes.fill(7);
        }
    }

    #[test]
    fn a_token_is_good_for_its_page_its_session_and_its_hour() {
        let (page, now) = (Refreshing::new(&mut Same), UtcMillis(1_000_000_000));
        let token = page.token("session", "/office/?x=1", now);
        let later = |millis| UtcMillis(now.0 + millis);
        assert!(page.is_good(&token, "session", "/office/?x=1", later(1000)));
        assert!(!page.is_good(&token, "another", "/office/?x=1", later(1000)));
        assert!(!page.is_good(&token, "session", "/office/?x=2", later(1000)));
        assert!(!page.is_good(&token, "session", "/office/?x=1", later(GOOD_FOR_MILLIS)));
        assert!(!page.is_good(&token, "session", "/office/?x=1", later(-1)));
        assert!(!Refreshing([8; 32]).is_good(&token, "session", "/office/?x=1", later(1000)));
        let (_, mark) = token.split_once('.').unwrap_or_default();
        for forged in ["", "1", "1.", ".", &format!("{}.{mark}", now.0 + 500), "9223372036854775807.aa"] {
            assert!(!page.is_good(forged, "session", "/office/?x=1", later(1000)), "{forged}");
        }
    }
}
