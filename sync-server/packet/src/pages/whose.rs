//! Whose word everything is: what signatures, the log, receipts and time stamps prove, and what they do not
//! prove.
//!
//! Every sentence here is derived from the attachments and is true only of them. Used by the first page
//! (`front`).

use std::collections::BTreeSet;

use farsiding_core::authority::Named;
use farsiding_core::entry::AnyTime;
use farsiding_core::evidence::Receipt;
use farsiding_core::view::Fate;
use farsiding_core::{Arg, Joint, Message, message};

use super::Told;

/// Returns each label and sentence.
pub(super) fn facts(told: &Told<'_>) -> [(Message, Message); 7] {
    [
        (message!("packet-label-device"), devices(told)),
        (message!("packet-label-person"), people(told)),
        (message!("packet-label-log"), log(told)),
        (message!("packet-label-receipts"), receipts(told)),
        (message!("packet-label-times"), times(told)),
        (message!("packet-label-witness"), witness(told)),
        (message!("packet-label-whole"), completeness(told)),
    ]
}

fn devices(told: &Told<'_>) -> Message {
    let header = &told.view().header;
    let certified =
        header.devices.iter().filter(|device| told.refolded.certificates.contains_key(&device.device));
    message!("packet-said-devices", entries = told.parts.entries.visit.len(), devices = certified.count())
}

fn people(told: &Told<'_>) -> Message {
    let counting = told.view().history.iter().filter(|line| line.fate != Fate::Kept);
    let named: Vec<Named> = counting.map(|line| line.said.named).collect();
    let count = |how: Named| named.iter().filter(|named| **named == how).count();
    let parts = [
        (count(Named::OwnHand), "packet-named-own-hand"),
        (count(Named::Held), "packet-named-held"),
        (count(Named::ByPhone), "packet-named-by-phone"),
        (count(Named::HandNotConfirmed), "packet-named-not-confirmed"),
        (count(Named::HandNotTheirs), "packet-named-not-theirs"),
    ];
    let parts: Vec<Message> = parts
        .into_iter()
        .filter(|(count, _)| *count > 0)
        .map(|(count, how)| Message::new(how).with("count", count))
        .collect();
    if parts.is_empty() {
        return message!("packet-said-nobody");
    }
    message!("packet-said-people", people = Arg::list(Joint::Comma, parts))
}

fn log(told: &Told<'_>) -> Message {
    match told.checkpoint() {
        None => message!("packet-said-no-checkpoint"),
        Some(checkpoint) => message!("packet-said-log", count = checkpoint.size),
    }
}

fn receipts(told: &Told<'_>) -> Message {
    let mut covered = BTreeSet::new();
    let mut count = 0_usize;
    for bytes in &told.parts.receipts.receipts {
        let receipt = Receipt::from_bytes(bytes).ok().filter(|r| r.check(&AnyTime(told.keys)).is_ok());
        let Some(receipt) = receipt else { continue };
        count += 1;
        covered.extend(receipt.entries);
    }
    let here = told.visit_entries().filter(|entry| covered.contains(&entry.id)).count();
    match count {
        0 => message!("packet-said-no-receipts"),
        count => message!("packet-said-receipts", count = count, entries = here),
    }
}

fn times(told: &Told<'_>) -> Message {
    match told.parts.log.tokens.is_empty() {
        true => message!("packet-said-times-alone"),
        false => message!("packet-said-times-stamped"),
    }
}

fn witness(told: &Told<'_>) -> Message {
    let signed = told.parts.log.checkpoints.last().map_or(0, |note| {
        note.split("\n\n")
            .nth(1)
            .map_or(0, |lines| lines.lines().filter(|l| l.starts_with('\u{2014}')).count())
    });
    match signed {
        0 | 1 => message!("packet-said-no-witness"),
        _ => message!("packet-said-witness"),
    }
}

fn completeness(told: &Told<'_>) -> Message {
    let is_whole = told.view().chain_gaps.is_empty();
    let mut sentences = Vec::new();
    if !is_whole {
        sentences.push(message!("packet-said-gaps"));
    }
    let log = &told.parts.log;
    let checkpoint =
        told.checkpoint().filter(|checkpoint| checkpoint.heads.is_some() && !log.heads.is_empty());
    sentences.push(match checkpoint {
        Some(checkpoint) => message!(
            "packet-said-whole",
            entries = log.heads.iter().map(|head| head.count).sum::<u64>(),
            count = checkpoint.size
        ),
        None if is_whole => message!("packet-said-chains-whole"),
        None => message!("packet-said-not-whole"),
    });
    message!("packet-parts", parts = Arg::list(Joint::Sentences, sentences))
}
