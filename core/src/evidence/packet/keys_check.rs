//! Under which of the organisation's keys a packet stands, and whether they could sign it then.
//!
//! `check` calls it first, to know the keys, and takes every signature of theirs whatever its time; whether it was
//! made in time, and by a key that was the organisation's then, is judged here alone, so that one fault has one name.

use std::collections::{BTreeMap, BTreeSet};

use serde::{Deserialize, Serialize};
use serde_bytes::ByteBuf;

use super::check::{Files, OtherNote};
use super::parts::{Parts, read};
use super::report::{CheckReport, Code};
use super::seal::Seal;
use super::{KEYS, SEAL};
use crate::clock::UtcMillis;
use crate::entry::{
    AnyTime, CLOCK_PLAY_MILLIS, Certificate, KeyFault, KeyStanding, OrganisationKeys, PublicKey, SignedUpTo,
    Trusts, Use, WhyWithdrawn,
};
use crate::log::{Checkpoint, Receipt};
use crate::tree::merkle;

/// `keys.cbor`: what the organisation's root said of its keys, in a packet of an organisation whose root said
/// anything.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct KeyStatements {
    /// The exact signed bytes, oldest first.
    pub statements: Vec<ByteBuf>,
}

impl KeyStatements {
    /// What is known of the keys.
    pub fn of(keys: &OrganisationKeys) -> KeyStatements {
        KeyStatements { statements: keys.signed().map(ByteBuf::from).collect() }
    }
}

/// The keys: those known from elsewhere, and those the packet brings.
pub(super) fn known(
    files: &Files,
    elsewhere: &OrganisationKeys,
    report: &mut CheckReport,
) -> OrganisationKeys {
    let Some(bytes) = files.records.get(KEYS) else { return elsewhere.clone() };
    let brought = match read::<KeyStatements>(KEYS, bytes) {
        Ok(brought) => brought.statements,
        Err(why) => {
            report.broken(Code::UnreadableAttachment, why.to_string());
            return elsewhere.clone();
        }
    };
    let mut own = OrganisationKeys::of_root(elsewhere.root());
    let twice = brought.iter().enumerate().any(|(at, bytes)| brought[..at].contains(bytes));
    if twice {
        report.broken(
            Code::ForgedKey,
            "what the packet brings of the organisation's keys says one thing twice",
        );
    }
    if let Some(why) = own.learn(&brought).refused {
        report.broken(Code::ForgedKey, format!("what the packet brings of the organisation's keys: {why}"));
    }
    let mut all = elsewhere.clone();
    if let Some(why) = all.learn(own.signed()).refused {
        report.broken(Code::ForgedKey, format!("beside what was given of the organisation's keys: {why}"));
    }
    all
}

/// The keys as a packet and what was known before tell them; what does not hold is left out.
pub fn keys_of(files: &Files, elsewhere: &OrganisationKeys) -> OrganisationKeys {
    known(files, elsewhere, &mut CheckReport::default())
}

/// Something a key signed, and when, as far as anything says it.
struct Signed {
    by: PublicKey,
    what: &'static str,
    made: Made,
}

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

/// Everything the organisation signed here that holds; what does not was told before.
fn signed(files: &Files, parts: &Parts, any: &AnyTime<'_>) -> Vec<Signed> {
    let mut all = Vec::new();
    if let Some((by, seal)) = files.records.get(SEAL).and_then(|bytes| Seal::open_signed(bytes, any).ok()) {
        all.push(Signed { by, what: "the seal", made: Made::Past(seal.at) });
    }
    for bytes in &parts.certificates.certificates {
        if let Ok((by, certificate)) = Certificate::open_signed(bytes, any) {
            let made = Made::Certificate(certificate.said_at());
            all.push(Signed { by, what: "a certificate", made });
        }
    }
    for bytes in &parts.receipts.receipts {
        let checked = Receipt::from_bytes(bytes).ok().and_then(|receipt| receipt.check_signed(any).ok());
        all.extend(checked.map(|(by, at)| Signed { by, what: "a receipt", made: Made::Word(at) }));
    }
    for note in &parts.log.checkpoints {
        let Ok((by, checkpoint)) = Checkpoint::open_signed(note, any) else { continue };
        // It was signed when its last leaf was there, or later.
        let covered = parts.log.leaves.iter().filter(|leaf| leaf.number < checkpoint.size);
        let last = covered.map(|leaf| leaf.received_at).max().unwrap_or(UtcMillis(i64::MIN));
        all.push(Signed { by, what: "a checkpoint", made: Made::Past(last) });
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
                report.broken(Code::ExpiredKey, format!("{}: {fault}", one.what));
            }
            // Also what a lost key signed while it was good is said to be under a key that is none any more.
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
        let name = format!("the key {key}, withdrawn as {} at {}", why.word(), at.rfc3339());
        let what: BTreeSet<&str> = uses.iter().map(|one| one.what).collect();
        let what = what.into_iter().collect::<Vec<_>>().join(", ");
        if *why == WhyWithdrawn::Stolen {
            stolen((key, &name, &what), parts, keys, against, report);
            continue;
        }
        let late = uses.iter().any(|one| one.made.at().0 > at.0.saturating_add(CLOCK_PLAY_MILLIS));
        if late {
            report.broken(Code::WithdrawnKey, format!("{what} under {name}: signed after that"));
        } else {
            report.mark(Code::WithdrawnKey, format!("{what} under {name}: signed before that, it holds"));
        }
    }
    if !report.found(Code::ForgedKey) && !report.found(Code::ExpiredKey) && !sound.is_empty() {
        let named: Vec<String> = sound.iter().map(|key| key.short()).collect();
        let what = format!(
            "the organisation's root said {} things of its keys; what stands here is signed by {} in their time",
            keys.count(),
            named.join(", ")
        );
        report.holds(Code::Keys, what);
    }
}

/// Whoever stole the key can make a whole packet of any day: it counts as far as its log is vouched for.
fn stolen(
    (key, name, what): (&PublicKey, &str, &str),
    parts: &Parts,
    keys: &OrganisationKeys,
    against: Option<&OtherNote>,
    report: &mut CheckReport,
) {
    // The earlier checkpoints of a log stand by the last one, whoever signed them.
    let last =
        parts.log.checkpoints.last().and_then(|note| Checkpoint::open_signed(note, &AnyTime(keys)).ok());
    let Some((by, last)) = last else {
        report.broken(
            Code::WithdrawnKey,
            format!("{what} under {name}, and there is no checkpoint that holds"),
        );
        return;
    };
    if by != *key && what == "a checkpoint" {
        return;
    }
    let vouched =
        keys.known().iter().find(|known| known.key == *key).map(|known| known.standing(UtcMillis(0)));
    let up_to = match vouched {
        Some(KeyStanding::Withdrawn { checkpoint: Some(up_to), .. }) => up_to,
        _ => {
            let why = "; the root vouches for nothing it signed";
            report.broken(Code::WithdrawnKey, format!("{what} under {name}{why}"));
            return;
        }
    };
    match within(&last, &up_to, keys, against) {
        Within::Yes => {
            let why = "; its log is within what the root vouches for";
            report.mark(Code::WithdrawnKey, format!("{what} under {name}{why} ({} entries)", up_to.size));
        }
        Within::No => {
            let why = "; its log is not the one the root vouches for";
            report.broken(Code::WithdrawnKey, format!("{what} under {name}{why} ({} entries)", up_to.size));
        }
        Within::NotShown => {
            let why = format!(
                "{what} under {name}. Whoever had the key could make it: nothing here shows that its log of {} entries is \
                 the beginning of the {} the root vouches for. The office can print the proof (farsiding checkpoint \
                 --from {}), to be given with --against",
                last.size, up_to.size, last.size
            );
            report.broken(Code::WithdrawnKey, why);
        }
    }
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
    // A checkpoint from elsewhere that is believed by itself, and the path to it.
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
