//! What tells a page that brings itself up to date from a person who looks: a token that the server put into the
//! page when a person asked for it, good for that session and that address, for a while.
//!
//! The audit is decided by it. A header alone says nothing, since whoever asks chooses it: without a token of this
//! server's, every answer is noted. A page left open is noted again when its token has run out, so it adds a row
//! now and then instead of one a minute.

use farsiding_core::clock::UtcMillis;
use farsiding_core::ids::{Digest, Randomness};

/// The header a page sends its token in.
pub const HEADER: &str = "farsiding-live";
/// How long a page may bring itself up to date before it is noted again.
const GOOD_FOR_MILLIS: i64 = 60 * 60_000;

/// What tokens are made with: this process's own, told to nobody.
#[derive(Clone)]
pub struct Refreshing([u8; 32]);

impl std::fmt::Debug for Refreshing {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Refreshing").finish_non_exhaustive()
    }
}

impl Refreshing {
    /// Returns a secret of its own.
    pub fn new(randomness: &mut dyn Randomness) -> Refreshing {
        let mut secret = [0; 32];
        randomness.fill(&mut secret);
        Refreshing(secret)
    }

    fn mark(&self, session: &str, address: &str, at: UtcMillis) -> Digest {
        // The inner digest has one length, so nothing can be added behind it.
        let inner = Digest::of(format!("farsiding page {session} {} {address}", at.0).as_bytes());
        Digest::of(&[self.0, inner.0].concat())
    }

    /// Returns the token of a page rendered for a session now.
    pub fn token(&self, session: &str, address: &str, now: UtcMillis) -> String {
        format!("{}.{}", now.0, self.mark(session, address, now))
    }

    /// Returns whether a token is one this server put into this session's page at this address, a while ago
    /// at most.
    pub fn is_good(&self, token: &str, session: &str, address: &str, now: UtcMillis) -> bool {
        let Some((at, mark)) = token.split_once('.') else { return false };
        let (Ok(at), Ok(mark)) = (at.parse().map(UtcMillis), Digest::read(mark)) else { return false };
        let age = now.0.checked_sub(at.0);
        let young = age.is_some_and(|age| (0..GOOD_FOR_MILLIS).contains(&age));
        // Of digests, so that the time it takes tells nothing of use.
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
