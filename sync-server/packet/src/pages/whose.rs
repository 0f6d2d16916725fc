//! Whose word everything is: what signatures, the log, receipts and time stamps prove, and what they do not
//! prove.
//!
//! Every sentence here is derived from the attachments and is true only of them. Used by the first page
//! (`front`).

use std::collections::BTreeMap;

use farsiding_core::authority::Named;
use farsiding_core::entry::AnyTime;
use farsiding_core::evidence::Receipt;

use super::Told;

/// Calls `say` with each label and sentence.
pub(super) fn facts(told: &Told<'_>, mut say: impl FnMut(&str, &str)) {
    let view = told.view();
    let devices =
        view.header.devices.iter().filter(|device| told.refolded.certificates.contains_key(&device.device));
    say(
        "Device's signature",
        &format!(
            "Each of the stay's {} entries is signed by the device it was made on; {} of the devices hold this \
             organisation's certificate. Who held a device is another question.",
            told.parts.entries.visit.len(),
            devices.count()
        ),
    );
    let mut named: BTreeMap<&str, usize> = BTreeMap::new();
    for line in view.history.iter().filter(|line| line.fate != farsiding_core::view::Fate::Kept) {
        let word = match line.said.named {
            Named::OwnHand => "signed with the person's own confirmed key",
            Named::Held => "made on a phone the person had signed to hold",
            Named::ByPhone => "in which the phone alone names the person",
            Named::HandNotConfirmed => "signed with a key nobody confirmed",
            Named::HandNotTheirs => "signed with a key that is not theirs",
        };
        *named.entry(word).or_default() += 1;
    }
    let people: Vec<String> = named.into_iter().map(|(word, count)| format!("{count} {word}")).collect();
    let people = if people.is_empty() { "none".to_owned() } else { people.join(", ") };
    say("Person", &format!("Entries that count: {people}."));
    let log = told.checkpoint().map_or("No checkpoint of the log holds.".to_owned(), |checkpoint| {
        format!(
            "The organisation signed that its log had {} entries, each of these at its place: it cannot change or \
             move them without contradicting that signature.",
            checkpoint.size
        )
    });
    say("Log", &log);
    say("Receipts", &receipts(told));
    say("Times", &times(told));
    say("Witness", witness(told));
    say("Completeness", &completeness(told));
}

fn receipts(told: &Told<'_>) -> String {
    let mut covered = std::collections::BTreeSet::new();
    let mut count = 0;
    for bytes in &told.parts.receipts.receipts {
        let receipt = Receipt::from_bytes(bytes).ok().filter(|r| r.check(&AnyTime(told.keys)).is_ok());
        let Some(receipt) = receipt else { continue };
        count += 1;
        covered.extend(receipt.entries);
    }
    let here = told.visit_entries().filter(|entry| covered.contains(&entry.id)).count();
    match count {
        0 => "None is attached.".to_owned(),
        n => format!(
            "{n} signed by the organisation when devices synced; they cover {here} of the stay's entries."
        ),
    }
}

fn times(told: &Told<'_>) -> String {
    let rests = "A time \u{201c}claimed\u{201d} is a device's clock. A time \u{201c}received\u{201d} is the \
                 organisation's clock";
    match told.parts.log.tokens.is_empty() {
        true => format!("{rests}, and rests on its word alone: no time stamp of a third party is attached."),
        false => format!(
            "{rests}. A third party's time stamp (RFC 3161) on the log is attached: whoever trusts and checks it knows \
             that the entries existed by then; earlier times rest on the organisation's word."
        ),
    }
}

fn witness(told: &Told<'_>) -> &'static str {
    let signed = told.parts.log.checkpoints.last().map_or(0, |note| {
        note.split("\n\n")
            .nth(1)
            .map_or(0, |lines| lines.lines().filter(|l| l.starts_with('\u{2014}')).count())
    });
    match signed {
        0 | 1 => "No witness signed the log's checkpoint that is attached.",
        _ => "Others signed the log's checkpoint too; their keys are to be had from them.",
    }
}

fn completeness(told: &Told<'_>) -> String {
    let gaps = if told.view().chain_gaps.is_empty() {
        ""
    } else {
        "Numbers are MISSING in a device's chain, see Devices. "
    };
    let log = &told.parts.log;
    match told.checkpoint().filter(|checkpoint| checkpoint.heads.is_some() && !log.heads.is_empty()) {
        Some(checkpoint) => format!(
            "{gaps}All {} entries that the log of {} entries held of this stay are attached: its checkpoint commits to \
             their number. What never came to the log, and that there is one log only, rests on the organisation's word.",
            log.heads.iter().map(|head| head.count).sum::<u64>(),
            checkpoint.size
        ),
        None if gaps.is_empty() => "Between a device's first and last entry here none is missing. Whether other \
                                    devices' entries, or later ones, were left out rests on the organisation's word."
            .to_owned(),
        None => format!("{gaps}Whether more was left out rests on the organisation's word."),
    }
}
