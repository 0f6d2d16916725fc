//! The chain of a root's key statements, and the standing of each key that follows from it.

use super::statement::{KeyStatement, KeyWord, SignedUpTo, WhyWithdrawn};
use super::trust::{CLOCK_PLAY_MILLIS, KeyFault, Trusts, Use};
use crate::clock::UtcMillis;
use crate::entry::EntryError;
use crate::entry::key::{OrganisationKey, PublicKey, is_sound_key};
use crate::ids::{Digest, OrganisationId};

/// The most statements accepted, enough for a yearly key over centuries.
pub const MOST_KEY_STATEMENTS: usize = 512;

/// The reason why a statement does not extend the chain.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum KeyError {
    /// The signature or the form is invalid.
    #[error("statement {number} does not hold: {why}")]
    Envelope {
        /// The number that the statement should have according to its place in the list.
        number: u64,
        /// The error.
        why: EntryError,
    },
    /// The statement is about another organisation.
    #[error("statement {0} is about another organisation")]
    OtherOrganisation(u64),
    /// The statement was not signed by the root key that was valid at its place.
    #[error("statement {0} is not signed by the organisation's root key")]
    WrongSigner(u64),
    /// The number, or the digest of the previous statement, does not match.
    #[error("statement {0} does not follow from the one before it")]
    NoLink(u64),
    /// The statement's content is not permitted at its place.
    #[error("statement {0}: {1}")]
    NotAllowed(u64, &'static str),
    /// Another statement with this number is known, and the root signed both.
    #[error("the root signed two different statements with the number {0}")]
    Fork(u64),
    /// There are more statements than are accepted.
    #[error("there are more than {MOST_KEY_STATEMENTS} statements")]
    TooMany,
}

/// The withdrawal of a key.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Withdrawal {
    why: WhyWithdrawn,
    at: UtcMillis,
    checkpoint: Option<SignedUpTo>,
}

/// A key that speaks or spoke for the organisation.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KnownKey {
    /// The public key.
    pub key: PublicKey,
    /// Whether the key is or was a root.
    pub root: bool,
    /// The time from which the key signs; `None` for a root.
    pub from: Option<UtcMillis>,
    /// The time until which the key signs. For a root this is the time when its successor was named.
    pub until: Option<UtcMillis>,
    withdrawn: Option<Withdrawal>,
}

/// The standing of a key at a given time.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum KeyStanding {
    /// The key is the present root.
    Root,
    /// The key may sign.
    Working {
        /// The time until which the key may sign.
        until: Option<UtcMillis>,
    },
    /// The key may not sign yet.
    NotYet {
        /// The time from which the key may sign.
        from: UtcMillis,
    },
    /// The key may no longer sign; its earlier signatures remain valid.
    Ended {
        /// The time since when it may not sign.
        until: UtcMillis,
    },
    /// The key was withdrawn.
    Withdrawn {
        /// The reason.
        why: WhyWithdrawn,
        /// The time of the withdrawal.
        at: UtcMillis,
        /// The part of the log that the root vouches for.
        checkpoint: Option<SignedUpTo>,
    },
    /// The key does not belong to the organisation.
    Unknown,
}

impl KnownKey {
    /// Returns the key's standing at a given time.
    pub fn standing(&self, now: UtcMillis) -> KeyStanding {
        if let Some(Withdrawal { why, at, checkpoint }) = self.withdrawn.clone() {
            return KeyStanding::Withdrawn { why, at, checkpoint };
        }
        match (self.from, self.until) {
            (_, Some(until)) if until < now => KeyStanding::Ended { until },
            (Some(from), _) if from > now => KeyStanding::NotYet { from },
            (_, None) if self.root => KeyStanding::Root,
            (_, until) => KeyStanding::Working { until },
        }
    }

    fn within(&self, at: UtcMillis) -> Result<(), KeyFault> {
        let key = self.key;
        match (self.from, self.until) {
            (Some(from), _) if at.0.saturating_add(CLOCK_PLAY_MILLIS) < from.0 => {
                Err(KeyFault::Before { key, from, at })
            }
            (_, Some(until)) if at.0.saturating_sub(CLOCK_PLAY_MILLIS) > until.0 => {
                Err(KeyFault::Ended { key, until, at })
            }
            _ => Ok(()),
        }
    }

    fn allows(&self, made: Use<'_>) -> Result<(), KeyFault> {
        // A packet may be sealed long after the time it speaks for, and a checkpoint contains no time.
        match made {
            Use::Certificate { at } | Use::Word { at } | Use::Answer { at } => self.within(at)?,
            Use::Past { at } => KnownKey { from: None, ..self.clone() }.within(at)?,
            Use::Checkpoint { .. } => {}
        }
        let Some(withdrawal) = &self.withdrawn else { return Ok(()) };
        let fault = KeyFault::Withdrawn { key: self.key, why: withdrawal.why, at: withdrawal.at };
        let before = |at: UtcMillis| at.0 <= withdrawal.at.0.saturating_add(CLOCK_PLAY_MILLIS);
        let believed = match (made, withdrawal.why) {
            (Use::Answer { .. }, _) => false,
            (Use::Checkpoint { origin, size, root, heads }, WhyWithdrawn::Stolen) => withdrawal
                .checkpoint
                .as_ref()
                .is_some_and(|up_to| up_to.may_begin_with(origin, size, root, heads)),
            // A thief can use any date.
            (_, WhyWithdrawn::Stolen) => false,
            (Use::Checkpoint { .. }, _) => true,
            (Use::Certificate { at } | Use::Word { at } | Use::Past { at }, _) => before(at),
        };
        if believed { Ok(()) } else { Err(fault) }
    }
}

impl SignedUpTo {
    /// Returns true if a checkpoint may lie within the part of the log that is vouched for: it is of the same
    /// log, not larger, and equal if it has the same size. Whether a smaller one is a beginning of that part
    /// can be shown only by a consistency proof.
    pub fn may_begin_with(&self, origin: &str, size: u64, root: &Digest, heads: Option<&Digest>) -> bool {
        let same = || *root == self.root && heads.is_none_or(|heads| self.heads.as_ref() == Some(heads));
        self.origin == origin && (size < self.size || (size == self.size && same()))
    }
}

/// Two statements with the same number, both signed by the root valid at that place: somebody else has the
/// root key.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Forked {
    /// The number.
    pub number: u64,
    /// The signed statement known before.
    pub ours: Vec<u8>,
    /// The other signed statement.
    pub theirs: Vec<u8>,
}

/// The outcome of reading received statements.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Learned {
    /// The number of statements that extended the chain.
    pub new: usize,
    /// A fork that was found. The chain known before is kept.
    pub fork: Option<Forked>,
    /// The reason why the remaining statements were not read.
    pub refused: Option<KeyError>,
}

/// An organisation's keys: the pinned root, and the verified statements of it and its successors.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OrganisationKeys {
    first: PublicKey,
    statements: Vec<(KeyStatement, PublicKey, Vec<u8>)>,
    known: Vec<KnownKey>,
}

impl OrganisationKeys {
    /// Returns the keys of an organisation whose root has made no statements, as in version one.
    pub fn of_root(root: PublicKey) -> OrganisationKeys {
        let known = KnownKey { key: root, root: true, from: None, until: None, withdrawn: None };
        OrganisationKeys { first: root, statements: Vec::new(), known: vec![known] }
    }

    /// Reads a whole chain.
    ///
    /// # Errors
    /// [`KeyError`] for the first statement that does not extend the chain.
    pub fn read<B: AsRef<[u8]>>(
        root: PublicKey,
        statements: impl IntoIterator<Item = B>,
    ) -> Result<OrganisationKeys, KeyError> {
        let mut keys = OrganisationKeys::of_root(root);
        for bytes in statements {
            keys.join(bytes.as_ref())?;
        }
        Ok(keys)
    }

    /// Reads a stored chain up to the first statement that is invalid. The statements were checked before
    /// they were stored.
    pub fn read_kept<B: AsRef<[u8]>>(
        root: PublicKey,
        statements: impl IntoIterator<Item = B>,
    ) -> OrganisationKeys {
        let mut keys = OrganisationKeys::of_root(root);
        for bytes in statements {
            if keys.join(bytes.as_ref()).is_err() {
                break;
            }
        }
        keys
    }

    /// Reads received statements in order. Known ones are skipped; reading stops at the first statement that
    /// does not extend the chain.
    pub fn learn<B: AsRef<[u8]>>(&mut self, brought: impl IntoIterator<Item = B>) -> Learned {
        let mut learned = Learned::default();
        for bytes in brought.into_iter().take(MOST_KEY_STATEMENTS) {
            let bytes = bytes.as_ref();
            if self.statements.iter().any(|(_, _, known)| known == bytes) {
                continue;
            }
            match self.join(bytes) {
                Ok(()) => learned.new += 1,
                Err(error) => {
                    if let KeyError::Fork(number) = error {
                        let place = usize::try_from(number.saturating_sub(1)).unwrap_or(usize::MAX);
                        let ours = self.statements.get(place).map(|(_, _, ours)| ours.clone());
                        let theirs = bytes.to_vec();
                        learned.fork = Some(Forked { number, ours: ours.unwrap_or_default(), theirs });
                    }
                    learned.refused = Some(error);
                    break;
                }
            }
        }
        learned
    }

    /// Returns the present root key.
    pub fn root_now(&self) -> PublicKey {
        self.root_before(self.statements.len())
    }

    /// Returns the root key that signs the statement at a place, counted from 0.
    fn root_before(&self, place: usize) -> PublicKey {
        let said = self.statements.iter().take(place).rev().find_map(|(statement, _, _)| {
            if let KeyWord::Successor { key } = statement.says { Some(key) } else { None }
        });
        said.unwrap_or(self.first)
    }

    /// Returns the organisation's id, which is derived from its first root and never changes.
    pub fn organisation(&self) -> OrganisationId {
        OrganisationId::of_key(&self.first)
    }

    /// Returns all keys in the order in which they were named; the first root comes first.
    pub fn known(&self) -> &[KnownKey] {
        &self.known
    }

    /// Returns the statements, oldest first.
    pub fn statements(&self) -> impl ExactSizeIterator<Item = &KeyStatement> {
        self.statements.iter().map(|(statement, _, _)| statement)
    }

    /// Returns the signed statements, oldest first.
    pub fn signed(&self) -> impl ExactSizeIterator<Item = &[u8]> {
        self.statements.iter().map(|(_, _, bytes)| bytes.as_slice())
    }

    /// Returns the number of statements.
    pub fn count(&self) -> u64 {
        self.statements.len() as u64
    }

    /// Returns the standing of a key at a given time.
    pub fn standing(&self, key: &PublicKey, now: UtcMillis) -> KeyStanding {
        self.find(key).map_or(KeyStanding::Unknown, |known| known.standing(now))
    }

    /// Returns true if the organisation has stated that somebody else may have the key.
    pub fn is_stolen(&self, key: &PublicKey) -> bool {
        let why = self.find(key).and_then(|known| known.withdrawn.as_ref()).map(|withdrawal| withdrawal.why);
        why == Some(WhyWithdrawn::Stolen)
    }

    /// Returns the unsigned statement that would extend the chain with this content.
    ///
    /// # Errors
    /// [`KeyError::NotAllowed`] if the content is not permitted next.
    pub fn next(&self, at: UtcMillis, says: KeyWord) -> Result<KeyStatement, KeyError> {
        let number = self.count() + 1;
        let mut tried = self.clone();
        tried.apply(number, at, &says)?;
        let prev = self.statements.last().map(|(_, _, bytes)| Digest::of(bytes));
        Ok(KeyStatement { organisation: self.organisation(), number, prev, at, says })
    }

    /// Applies this content as if it had been stated, to test it before signing.
    ///
    /// # Errors
    /// [`KeyError::NotAllowed`] if the content is not permitted next.
    pub fn try_next(&mut self, at: UtcMillis, says: &KeyWord) -> Result<(), KeyError> {
        self.apply(self.count() + 1, at, says)
    }

    /// Signs a statement with the root key, adds it to the chain, and returns it signed.
    ///
    /// # Errors
    /// [`KeyError`]; in particular [`KeyError::WrongSigner`] if `root` is not the present root.
    pub fn say(&mut self, at: UtcMillis, says: KeyWord, root: &OrganisationKey) -> Result<Vec<u8>, KeyError> {
        let statement = self.next(at, says)?;
        let number = statement.number;
        let bytes = statement.seal(root).map_err(|why| KeyError::Envelope { number, why })?;
        self.join(&bytes)?;
        Ok(bytes)
    }

    fn find(&self, key: &PublicKey) -> Option<&KnownKey> {
        self.known.iter().find(|known| known.key == *key)
    }

    fn join(&mut self, bytes: &[u8]) -> Result<(), KeyError> {
        let expected = self.count() + 1;
        if self.statements.len() >= MOST_KEY_STATEMENTS {
            return Err(KeyError::TooMany);
        }
        let (signer, statement) =
            KeyStatement::open(bytes).map_err(|why| KeyError::Envelope { number: expected, why })?;
        let number = statement.number;
        if statement.organisation != self.organisation() {
            return Err(KeyError::OtherOrganisation(number));
        }
        if number == 0 || number > expected {
            return Err(KeyError::NoLink(number));
        }
        let place = usize::try_from(number - 1).unwrap_or(usize::MAX);
        if signer != self.root_before(place) {
            return Err(KeyError::WrongSigner(number));
        }
        if number < expected {
            return Err(KeyError::Fork(number));
        }
        if statement.prev != self.statements.last().map(|(_, _, bytes)| Digest::of(bytes)) {
            return Err(KeyError::NoLink(number));
        }
        self.apply(number, statement.at, &statement.says)?;
        self.statements.push((statement, signer, bytes.to_vec()));
        Ok(())
    }

    /// Applies a statement to the known keys.
    fn apply(&mut self, number: u64, at: UtcMillis, says: &KeyWord) -> Result<(), KeyError> {
        let refuse = |why| Err(KeyError::NotAllowed(number, why));
        let root = self.root_now();
        match says {
            KeyWord::Key { key, .. } | KeyWord::Successor { key } if !is_sound_key(key) => {
                refuse("what it names is no key")
            }
            KeyWord::Key { key, .. } | KeyWord::Successor { key } if self.find(key).is_some() => {
                refuse("the key it names was named before")
            }
            KeyWord::Key { from, until: Some(until), .. } if until <= from => {
                refuse("the key would end before it begins")
            }
            KeyWord::Key { key, from, until } => {
                let (from, until) = (Some(*from), *until);
                self.known.push(KnownKey { key: *key, root: false, from, until, withdrawn: None });
                Ok(())
            }
            KeyWord::Successor { key } => {
                for known in self.known.iter_mut().filter(|known| known.key == root) {
                    known.until = Some(at);
                }
                let (from, until, withdrawn) = (None, None, None);
                self.known.push(KnownKey { key: *key, root: true, from, until, withdrawn });
                Ok(())
            }
            KeyWord::KeyWithdrawn { key, .. } if *key == root => {
                refuse("the root itself is left by naming its successor")
            }
            KeyWord::KeyWithdrawn { key, why, checkpoint } => {
                let Some(known) = self.known.iter_mut().find(|known| known.key == *key) else {
                    return refuse("the key it withdraws was never named");
                };
                if known.withdrawn.as_ref().is_some_and(|known| known.why == WhyWithdrawn::Stolen) {
                    return refuse("the key was withdrawn as stolen, and that stays");
                }
                known.withdrawn = Some(Withdrawal { why: *why, at, checkpoint: checkpoint.clone() });
                Ok(())
            }
        }
    }
}

impl Trusts for OrganisationKeys {
    fn root(&self) -> PublicKey {
        self.first
    }

    fn signers(&self) -> Vec<PublicKey> {
        self.known.iter().map(|known| known.key).collect()
    }

    fn allows(&self, key: &PublicKey, made: Use<'_>) -> Result<(), KeyFault> {
        self.find(key).ok_or(KeyFault::Unknown(*key))?.allows(made)
    }
}
