//! The chain of a root's statements, and what follows from it for a key.

use super::statement::{KeyStatement, KeyWord, SignedUpTo, WhyWithdrawn};
use super::trust::{CLOCK_PLAY_MILLIS, KeyFault, Trusts, Use};
use crate::clock::UtcMillis;
use crate::entry::EntryError;
use crate::entry::key::{OrganisationKey, PublicKey, is_sound_key};
use crate::ids::{Digest, OrganisationId};

/// Statements read at most: a yearly key for centuries.
pub const MOST_KEY_STATEMENTS: usize = 512;

/// Why a statement does not join the chain.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum KeyError {
    /// Its signature or form is not right.
    #[error("statement {number} does not hold: {why}")]
    Envelope {
        /// The number it should have, as it stands in the list.
        number: u64,
        /// What is wrong.
        why: EntryError,
    },
    /// It is about another organisation.
    #[error("statement {0} is about another organisation")]
    OtherOrganisation(u64),
    /// Signed by another key than the root of that place.
    #[error("statement {0} is not signed by the organisation's root key")]
    WrongSigner(u64),
    /// A number or the digest of the one before does not fit.
    #[error("statement {0} does not follow from the one before it")]
    NoLink(u64),
    /// It cannot be said at this place.
    #[error("statement {0}: {1}")]
    NotAllowed(u64, &'static str),
    /// Another statement of this number is known, and the root signed both.
    #[error("the root signed two different statements with the number {0}")]
    Fork(u64),
    /// More than are read.
    #[error("there are more than {MOST_KEY_STATEMENTS} statements")]
    TooMany,
}

/// A key's withdrawal.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Withdrawal {
    why: WhyWithdrawn,
    at: UtcMillis,
    checkpoint: Option<SignedUpTo>,
}

/// A key that speaks for the organisation, or did.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KnownKey {
    /// The public key.
    pub key: PublicKey,
    /// Whether it is or was a root.
    pub root: bool,
    /// From when on it signs; a root has no beginning.
    pub from: Option<UtcMillis>,
    /// Until when; a root ends when its successor is named.
    pub until: Option<UtcMillis>,
    withdrawn: Option<Withdrawal>,
}

/// How a key stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum KeyStanding {
    /// The root of now.
    Root,
    /// It may sign.
    Working {
        /// Until when.
        until: Option<UtcMillis>,
    },
    /// Its time has not come.
    NotYet {
        /// From when on it signs.
        from: UtcMillis,
    },
    /// Its time is over. What it signed holds.
    Ended {
        /// Since when.
        until: UtcMillis,
    },
    /// It was withdrawn.
    Withdrawn {
        /// Why.
        why: WhyWithdrawn,
        /// When.
        at: UtcMillis,
        /// How far the log is vouched for.
        checkpoint: Option<SignedUpTo>,
    },
    /// None of the organisation's.
    Unknown,
}

impl KnownKey {
    /// How it stands at a time.
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
        // A packet may be sealed long after the time it speaks for; a checkpoint says no time at all.
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
            // A thief dates what he likes.
            (_, WhyWithdrawn::Stolen) => false,
            (Use::Checkpoint { .. }, _) => true,
            (Use::Certificate { at } | Use::Word { at } | Use::Past { at }, _) => before(at),
        };
        if believed { Ok(()) } else { Err(fault) }
    }
}

impl SignedUpTo {
    /// Whether a checkpoint can be of what is vouched for: of that log, no longer, and the same where it is
    /// as long. Whether a shorter one is its beginning, only a consistency proof tells.
    pub fn may_begin_with(&self, origin: &str, size: u64, root: &Digest, heads: Option<&Digest>) -> bool {
        let same = || *root == self.root && heads.is_none_or(|heads| self.heads.as_ref() == Some(heads));
        self.origin == origin && (size < self.size || (size == self.size && same()))
    }
}

/// Two statements of one number, both signed by the root of that place: somebody else has the root.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Forked {
    /// The number.
    pub number: u64,
    /// The statement known before, as signed.
    pub ours: Vec<u8>,
    /// The other one.
    pub theirs: Vec<u8>,
}

/// What came of reading statements that were brought.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Learned {
    /// How many joined the chain.
    pub new: usize,
    /// A fork met with. The chain known before stays.
    pub fork: Option<Forked>,
    /// Why the others were not read.
    pub refused: Option<KeyError>,
}

/// An organisation's keys: the pinned root and what it and its successors said, checked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OrganisationKeys {
    first: PublicKey,
    statements: Vec<(KeyStatement, PublicKey, Vec<u8>)>,
    known: Vec<KnownKey>,
}

impl OrganisationKeys {
    /// The keys of an organisation that never said anything of others, as in version one.
    pub fn of_root(root: PublicKey) -> OrganisationKeys {
        let known = KnownKey { key: root, root: true, from: None, until: None, withdrawn: None };
        OrganisationKeys { first: root, statements: Vec::new(), known: vec![known] }
    }

    /// Reads a whole chain.
    ///
    /// # Errors
    /// [`KeyError`] for the first statement that does not join.
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

    /// Reads a chain as far as it holds: for what was checked before it was kept.
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

    /// Takes statements that were brought, in their order. What is known already is passed over; what does not join
    /// is not read, nor anything after it.
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

    /// The key that is the root now.
    pub fn root_now(&self) -> PublicKey {
        self.root_before(self.statements.len())
    }

    /// The root that signs the statement at a place, from 0.
    fn root_before(&self, place: usize) -> PublicKey {
        let said = self.statements.iter().take(place).rev().find_map(|(statement, _, _)| {
            if let KeyWord::Successor { key } = statement.says { Some(key) } else { None }
        });
        said.unwrap_or(self.first)
    }

    /// The organisation's id, which stays that of its first root.
    pub fn organisation(&self) -> OrganisationId {
        OrganisationId::of_key(&self.first)
    }

    /// Every key, in the order it was named, the first root first.
    pub fn known(&self) -> &[KnownKey] {
        &self.known
    }

    /// The statements, oldest first.
    pub fn statements(&self) -> impl ExactSizeIterator<Item = &KeyStatement> {
        self.statements.iter().map(|(statement, _, _)| statement)
    }

    /// The statements as signed, oldest first.
    pub fn signed(&self) -> impl ExactSizeIterator<Item = &[u8]> {
        self.statements.iter().map(|(_, _, bytes)| bytes.as_slice())
    }

    /// How many statements there are.
    pub fn count(&self) -> u64 {
        self.statements.len() as u64
    }

    /// How a key stands at a time.
    pub fn standing(&self, key: &PublicKey, now: UtcMillis) -> KeyStanding {
        self.find(key).map_or(KeyStanding::Unknown, |known| known.standing(now))
    }

    /// Whether somebody else may have the key, by the organisation's own word.
    pub fn is_stolen(&self, key: &PublicKey) -> bool {
        let why = self.find(key).and_then(|known| known.withdrawn.as_ref()).map(|withdrawal| withdrawal.why);
        why == Some(WhyWithdrawn::Stolen)
    }

    /// The statement that would say this next; not signed, and only as far as it can be said.
    ///
    /// # Errors
    /// [`KeyError::NotAllowed`].
    pub fn next(&self, at: UtcMillis, says: KeyWord) -> Result<KeyStatement, KeyError> {
        let number = self.count() + 1;
        let mut tried = self.clone();
        tried.apply(number, at, &says)?;
        let prev = self.statements.last().map(|(_, _, bytes)| Digest::of(bytes));
        Ok(KeyStatement { organisation: self.organisation(), number, prev, at, says })
    }

    /// Goes on as if this were said next, for finding out before it is signed.
    ///
    /// # Errors
    /// [`KeyError::NotAllowed`].
    pub fn try_next(&mut self, at: UtcMillis, says: &KeyWord) -> Result<(), KeyError> {
        self.apply(self.count() + 1, at, says)
    }

    /// Says something next: signs it with the root and adds it here. Returns it as signed.
    ///
    /// # Errors
    /// [`KeyError`]; [`KeyError::WrongSigner`] when that is not the root of now.
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

    /// What a statement changes about the keys.
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
