//! The section on proofs: devices and certificates, chains, receipts, the log, and how to check the file.

use std::collections::{BTreeMap, BTreeSet};

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::{AnyTime, Certificate};
use farsiding_core::evidence::packet::{ENTRIES, FRONT, HOW_TO_CHECK, SEAL};
use farsiding_core::evidence::{Checkpoint, Receipt, cosignatures};
use farsiding_core::ids::{DeviceId, Digest};
use farsiding_core::{Arg, Joint, Message, message};

use super::super::sheet::{Cell, Sheet};
use super::{Spoken as _, Told};

/// Returns what the organisation says of a device, a line each.
fn standing(told: &Told<'_>, certificate: &Certificate) -> String {
    let mut lines = vec![message!("packet-certified", at = told.at(certificate.issued_at))];
    lines.extend(certificate.sites.as_ref().map(|sites| message!("packet-for-sites", count = sites.len())));
    lines.extend(certificate.valid_until.map(|until| message!("packet-until", at = told.at(until))));
    lines.extend(certificate.revoked_at.map(|at| message!("packet-revoked", at = told.at(at))));
    lines.iter().map(|line| told.text(line)).collect::<Vec<_>>().join("\n")
}

pub(super) fn devices(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    let view = told.view();
    sheet.heading(&told.say("packet-annex-devices"));
    let rows = view
        .header
        .devices
        .iter()
        .map(|device| {
            let certificate = told.refolded.certificates.get(&device.device);
            let (name, standing) = match certificate {
                None => (Cell::strong(device.name.clone()), Cell::strong(told.say("packet-not-certified"))),
                Some(certificate) => {
                    let standing = standing(told, certificate);
                    let revoked = certificate.revoked_at.is_some();
                    let standing = if revoked { Cell::strong(standing) } else { standing.into() };
                    (Cell::strong(certificate.name.clone()), standing)
                }
            };
            let clock = device.ahead_millis.map_or_else(
                || message!("packet-clock-never"),
                |ahead| {
                    let sign = if ahead >= 0 { "+" } else { "" };
                    let seconds =
                        format!("{sign}{}", told.words.number(&format!("{:.1}", ahead as f64 / 1000.0)));
                    message!("packet-clock-against", seconds = Arg::typed(seconds))
                },
            );
            let clock = format!("{}\n{}", device.entries, told.text(&clock));
            vec![name, device.device.to_string().into(), standing, clock.into()]
        })
        .collect();
    let columns = told.columns(&[
        ("packet-column-device", 18.0),
        ("packet-column-key", 34.0),
        ("packet-column-standing", 28.0),
        ("packet-column-clock", 20.0),
    ]);
    sheet.table(&columns, rows);
    let in_table: BTreeSet<DeviceId> = view.header.devices.iter().map(|device| device.device).collect();
    let outside = told.kept().filter(|line| !in_table.contains(&line.said.device));
    let outside: BTreeSet<DeviceId> = outside.map(|line| line.said.device).collect();
    if !outside.is_empty() {
        let keys = outside.iter().map(|key| Message::typed(key.to_string()));
        let keys = Arg::list(Joint::Comma, keys);
        sheet.paragraph(&told.text(&message!("packet-other-devices", keys = keys)));
    }
    if view.chain_gaps.is_empty() {
        sheet.paragraph(&told.say("packet-chains-whole"));
    }
    for gap in &view.chain_gaps {
        sheet.strong(&told.of(&gap.sentence));
    }
    let elsewhere: usize = told.parts.log.chains.iter().map(|chain| chain.elsewhere.len()).sum();
    if elsewhere > 0 {
        sheet.small(&told.text(&message!("packet-chain-elsewhere", count = elsewhere)));
    }
}

pub(super) fn receipts(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    sheet.heading(&told.say("packet-annex-receipts"));
    let mut rows: Vec<(UtcMillis, Vec<Cell>)> = Vec::new();
    let here: BTreeSet<_> = told.refolded.received.keys().copied().collect();
    for bytes in &told.parts.receipts.receipts {
        let Ok(receipt) = Receipt::from_bytes(bytes) else { continue };
        let Ok(at) = receipt.check(&AnyTime(told.keys)) else { continue };
        let covered = receipt.entries.iter().filter(|id| here.contains(id)).count();
        let covers = message!(
            "packet-receipt-covers",
            here = Arg::Number(covered.to_string()),
            all = Arg::Number(receipt.entries.len().to_string())
        );
        let digest = Digest::of(&receipt.head);
        rows.push((at, vec![told.shown(at).into(), told.text(&covers).into(), digest.short().into()]));
    }
    rows.sort_by_key(|row| row.0);
    if rows.is_empty() {
        sheet.paragraph(&told.say("packet-no-receipts"));
    } else {
        sheet.paragraph(&told.say("packet-receipts-what"));
        let columns = told.columns(&[
            ("packet-column-signed-at", 26.0),
            ("packet-column-covered", 44.0),
            ("packet-column-digest", 30.0),
        ]);
        sheet.table(&columns, rows.into_iter().map(|row| row.1).collect());
    }
    log(sheet, told);
}

fn log(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    sheet.paragraph(&told.say("packet-log-what"));
    let mut rows: Vec<(String, String)> = Vec::new();
    // A checkpoint may be here twice: as it was time-stamped, and as witnesses signed it later.
    let mut checkpoints: BTreeMap<(u64, Digest), BTreeSet<String>> = BTreeMap::new();
    for note in &told.parts.log.checkpoints {
        if let Ok(checkpoint) = Checkpoint::open(note, &AnyTime(told.keys)) {
            let lines = cosignatures(note).unwrap_or_default().into_iter();
            let others = lines.map(|line| format!("{} {}", line.witness, told.shown(line.at)));
            checkpoints.entry((checkpoint.size, checkpoint.root)).or_default().extend(others);
        }
    }
    for ((size, root), others) in checkpoints {
        let mut parts =
            vec![message!("packet-checkpoint", count = size, root = Arg::typed(root.to_string()))];
        if told.parts.log.tokens.iter().any(|token| token.size == size) {
            parts.push(message!("packet-checkpoint-stamped"));
        }
        if !others.is_empty() {
            let others = Arg::list(Joint::Comma, others.into_iter().map(Message::typed));
            parts.push(message!("packet-checkpoint-witnessed", others = others));
        }
        let parts = message!("packet-parts", parts = Arg::list(Joint::Comma, parts));
        rows.push((told.say("packet-row-checkpoint"), told.text(&parts)));
    }
    if let Some(checkpoint) = told.checkpoint() {
        rows.push((told.say("packet-row-log"), checkpoint.origin));
    }
    if let (Some(first), Some(last)) = (told.parts.log.leaves.first(), told.parts.log.leaves.last()) {
        let places = message!(
            "packet-places",
            first = Arg::Number(first.number.to_string()),
            last = Arg::Number(last.number.to_string()),
            from = told.at(first.received_at),
            until = told.at(last.received_at)
        );
        rows.push((told.say("packet-row-places"), told.text(&places)));
    }
    let key = message!("packet-public-key", key = Arg::typed(told.organisation_key.to_string()));
    rows.push((told.say("packet-label-organisation"), told.text(&key)));
    sheet.facts(&rows);
}

pub(super) fn check(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    sheet.heading(&told.say("packet-heading-check"));
    sheet.paragraph(&told.say("packet-check-proof"));
    sheet.strong(&format!("farsiding verify FILE --key {}", told.organisation_key));
    let how = message!(
        "packet-check-how",
        description = HOW_TO_CHECK.as_message(),
        entries = ENTRIES.as_message(),
        seal = SEAL.as_message(),
        front = FRONT.as_message()
    );
    sheet.paragraph(&told.text(&how));
    sheet.paragraph(&told.say("packet-check-not"));
    sheet.small(&told.text(&message!("packet-check-characters", form = Arg::typed("\\u{\u{2026}}"))));
}

/// Writes annex G: the attached files.
pub(super) fn files(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    sheet.heading(&told.say("packet-annex-files"));
    let rows = told
        .files
        .iter()
        .map(|(name, length, what)| {
            let length = length.map_or("\u{2013}".to_owned(), |length| length.to_string());
            vec![name.clone().into(), length.into(), told.text(what).into()]
        })
        .collect();
    let columns = told.columns(&[
        ("packet-column-file", 52.0),
        ("packet-column-bytes", 10.0),
        ("packet-column-file-what", 38.0),
    ]);
    sheet.table(&columns, rows);
    sheet.small(&told.text(&message!("packet-document", document = told.document.as_message())));
}
