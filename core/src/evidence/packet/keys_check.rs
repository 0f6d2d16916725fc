//! The organisation's keys in a packet, and whether each was permitted to sign when it did.
//!
//! `check` calls this module first to obtain the keys, and then accepts each of their signatures regardless
//! of time. Only this module judges whether a signature was made in time and by a key that was the
//! organisation's then, so each fault is reported once.

use std::collections::{BTreeMap, BTreeSet};

use serde::{Deserialize, Serialize};
use serde_bytes::ByteBuf;

use super::check::{Files, OtherNote};
use super::parts::{Parts, read};
use super::report::{CheckReport, Code, shown};
use super::seal::Seal;
use super::{KEYS, SEAL};
use crate::clock::UtcMillis;
use crate::entry::{
    AnyTime, CLOCK_PLAY_MILLIS, Certificate, KeyFault, KeyStanding, OrganisationKeys, PublicKey, SignedUpTo,
    Trusts, Use, WhyWithdrawn,
};
use crate::log::{Checkpoint, Receipt};
use crate::tree::merkle;
use crate::{Arg, Joint, Message, message};

/// The content of `keys.cbor`: the root key's statements about keys, in a packet of an organisation whose
/// root has made any.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct KeyStatements {
    /// The exact signed bytes, oldest first.
    pub statements: Vec<ByteBuf>,
}

impl KeyStatements {
    /// Takes the statements from the known keys.
    pub fn of(keys: &OrganisationKeys) -> KeyStatements {
        KeyStatements { statements: keys.signed().map(ByteBuf::from).collect() }
    }
}

/// Returns the keys known from elsewhere, extended by those in the packet.
pub(super) fn known(
    files: &Files,
    elsewhere: &OrganisationKeys,
    report: &mut CheckReport,
) -> OrganisationKeys {
    let Some(bytes) = files.records.get(KEYS) else { return elsewhere.clone() };
    let brought = match read::<KeyStatements>(KEYS, bytes) {
        Ok(brought) => brought.statements,
        Err(why) => {
            report.broken(Code::UnreadableAttachment, Message::typed(why.to_string()));
            return elsewhere.clone();
        }
    };
    let mut own = OrganisationKeys::of_root(elsewhere.root());
    let twice = brought.iter().enumerate().any(|(at, bytes)| brought[..at].contains(bytes));
    if twice {
        report.broken(Code::ForgedKey, message!("verify-keys-twice"));
    }
    if let Some(why) = own.learn(&brought).refused {
        report.broken(Code::ForgedKey, message!("verify-keys-brought", why = shown(why)));
    }
    let mut all = elsewhere.clone();
    if let Some(why) = all.learn(own.signed()).refused {
        report.broken(Code::ForgedKey, message!("verify-keys-beside", why = shown(why)));
    }
    all
}

/// Returns the keys that follow from a packet and from earlier knowledge; invalid statements are left out.
pub fn keys_of(files: &Files, elsewhere: &OrganisationKeys) -> OrganisationKeys {
    known(files, elsewhere, &mut CheckReport::default())
}

/// A signature of the organisation, with its time as far as it is known.
struct Signed {
    /// The key that signed.
    by: PublicKey,
    /// The id of the message that names what is signed.
    what: &'static str,
    made: Made,
}

/// The id of the message that names a checkpoint.
const CHECKPOINT: &str = "verify-thing-checkpoint";

enum Made {
    Certificate(UtcMillis),
    Word(UtcMillis),
    Past(UtcMillis),
}

impl Made {
    fn at(&self) -> UtcMillis {
        match self {
            Made::Certificate(at) | Made::Word(at) | Made::Past(at) => *at,
        }
    }

    fn used(&self) -> Use<'static> {
        match *self {
            Made::Certificate(at) => Use::Certificate { at },
            Made::Word(at) => Use::Word { at },
            Made::Past(at) => Use::Past { at },
        }
    }
}

/// Returns every valid signature of the organisation in the packet; invalid ones are reported elsewhere.
fn signed(files: &Files, parts: &Parts, any: &AnyTime<'_>) -> Vec<Signed> {
    let mut all = Vec::new();
    if let Some((by, seal)) = files.records.get(SEAL).and_then(|bytes| Seal::open_signed(bytes, any).ok()) {
        all.push(Signed { by, what: "verify-thing-seal", made: Made::Past(seal.at) });
    }
    for bytes in &parts.certificates.certificates {
        if let Ok((by, certificate)) = Certificate::open_signed(bytes, any) {
            let made = Made::Certificate(certificate.said_at());
            all.push(Signed { by, what: "verify-thing-certificate", made });
        }
    }
    for bytes in &parts.receipts.receipts {
        let checked = Receipt::from_bytes(bytes).ok().and_then(|receipt| receipt.check_signed(any).ok());
        all.extend(checked.map(|(by, at)| Signed { by, what: "verify-thing-receipt", made: Made::Word(at) }));
    }
    for note in &parts.log.checkpoints {
        let Ok((by, checkpoint)) = Checkpoint::open_signed(note, any) else { continue };
        // The checkpoint was signed when its last leaf existed, or later.
        let covered = parts.log.leaves.iter().filter(|leaf| leaf.number < checkpoint.size);
        let last = covered.map(|leaf| leaf.received_at).max().unwrap_or(UtcMillis(i64::MIN));
        all.push(Signed { by, what: CHECKPOINT, made: Made::Past(last) });
    }
    all
}

/// Judges every use of a key that the root named.
pub(super) fn check(
    files: &Files,
    parts: &Parts,
    keys: &OrganisationKeys,
    against: Option<&OtherNote>,
    report: &mut CheckReport,
) {
    if keys.count() == 0 {
        return;
    }
    let any = AnyTime(keys);
    let all = signed(files, parts, &any);
    let mut sound: BTreeSet<PublicKey> = BTreeSet::new();
    let mut withdrawn: BTreeMap<PublicKey, (WhyWithdrawn, UtcMillis, Vec<&Signed>)> = BTreeMap::new();
    for one in &all {
        match keys.allows(&one.by, one.made.used()) {
            Err(fault @ (KeyFault::Before { .. } | KeyFault::Ended { .. })) => {
                report.broken(
                    Code::ExpiredKey,
                    message!("verify-expired-key", what = Message::new(one.what), why = shown(fault)),
                );
            }
            // Signatures made by a lost key while it was valid are also reported as being by a key that is no
            // longer valid.
            _ => match keys.standing(&one.by, one.made.at()) {
                KeyStanding::Withdrawn { why, at, .. } => {
                    withdrawn.entry(one.by).or_insert((why, at, Vec::new())).2.push(one);
                }
                _ => {
                    sound.insert(one.by);
                }
            },
        }
    }
    for (key, (why, at, uses)) in &withdrawn {
        let name = message!(
            "verify-withdrawn-name",
            key = shown(key),
            why = Message::term("verify-withdrawn-as", why.word()),
            at = shown(at.rfc3339())
        );
        let what: BTreeSet<&'static str> = uses.iter().map(|one| one.what).collect();
        if *why == WhyWithdrawn::Stolen {
            stolen((key, name, &what), parts, keys, against, report);
            continue;
        }
        let late = uses.iter().any(|one| one.made.at().0 > at.0.saturating_add(CLOCK_PLAY_MILLIS));
        if late {
            report.broken(
                Code::WithdrawnKey,
                message!("verify-withdrawn-after", what = things(&what), name = name),
            );
        } else {
            report.mark(
                Code::WithdrawnKey,
                message!("verify-withdrawn-before", what = things(&what), name = name),
            );
        }
    }
    if !report.found(Code::ForgedKey) && !report.found(Code::ExpiredKey) && !sound.is_empty() {
        let named = sound.iter().map(|key| Message::typed(key.short()));
        let what = message!("verify-keys", count = keys.count(), named = Arg::list(Joint::Comma, named));
        report.holds(Code::Keys, what);
    }
}

/// Whoever stole a key can forge an entire packet with any date, so the packet counts only as far as its log
/// is vouched for.
fn stolen(
    (key, name, what): (&PublicKey, Message, &BTreeSet<&'static str>),
    parts: &Parts,
    keys: &OrganisationKeys,
    against: Option<&OtherNote>,
    report: &mut CheckReport,
) {
    // The earlier checkpoints of a log follow from the last one, whoever signed them.
    let last =
        parts.log.checkpoints.last().and_then(|note| Checkpoint::open_signed(note, &AnyTime(keys)).ok());
    let Some((by, last)) = last else {
        report.broken(
            Code::WithdrawnKey,
            message!("verify-stolen-no-checkpoint", what = things(what), name = name),
        );
        return;
    };
    if by != *key && what.iter().all(|what| *what == CHECKPOINT) {
        return;
    }
    let vouched =
        keys.known().iter().find(|known| known.key == *key).map(|known| known.standing(UtcMillis(0)));
    let up_to = match vouched {
        Some(KeyStanding::Withdrawn { checkpoint: Some(up_to), .. }) => up_to,
        _ => {
            report.broken(
                Code::WithdrawnKey,
                message!("verify-stolen-no-vouch", what = things(what), name = name),
            );
            return;
        }
    };
    match within(&last, &up_to, keys, against) {
        Within::Yes => {
            let said = message!("verify-stolen-within", what = things(what), name = name, count = up_to.size);
            report.mark(Code::WithdrawnKey, said);
        }
        Within::No => {
            let said =
                message!("verify-stolen-outside", what = things(what), name = name, count = up_to.size);
            report.broken(Code::WithdrawnKey, said);
        }
        Within::NotShown => {
            let said = message!(
                "verify-stolen-not-shown",
                what = things(what),
                name = name,
                size = shown(last.size),
                vouched = shown(up_to.size)
            );
            report.broken(Code::WithdrawnKey, said);
        }
    }
}

/// Returns things that were signed as one message.
fn things(what: &BTreeSet<&'static str>) -> Arg {
    Arg::list(Joint::Comma, what.iter().map(|id| Message::new(id)))
}

enum Within {
    Yes,
    No,
    NotShown,
}

fn within(
    last: &Checkpoint,
    up_to: &SignedUpTo,
    keys: &OrganisationKeys,
    against: Option<&OtherNote>,
) -> Within {
    let heads = last.heads.as_ref().map(|heads| &heads.root);
    if !up_to.may_begin_with(&last.origin, last.size, &last.root, heads) {
        return Within::No;
    }
    if last.size == up_to.size {
        return Within::Yes;
    }
    // A checkpoint from elsewhere that is trusted by itself, and the consistency path to it.
    let Some(other) = against else { return Within::NotShown };
    let Ok((signer, theirs)) = Checkpoint::open_signed(&other.note, keys) else { return Within::NotShown };
    let stolen = keys.is_stolen(&signer);
    let is_vouched_for = theirs.size == up_to.size && theirs.root == up_to.root;
    if theirs.origin != last.origin || (stolen && !is_vouched_for) {
        return Within::NotShown;
    }
    let grown = last.size < theirs.size
        && merkle::consistency_holds(last.size, last.root, theirs.size, theirs.root, &other.consistency);
    let same = last.size == theirs.size && last.root == theirs.root;
    if grown || same { Within::Yes } else { Within::NotShown }
}
