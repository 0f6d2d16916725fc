//! The section on proofs: devices and certificates, chains, receipts, the log, and how to check the file.

use std::collections::{BTreeMap, BTreeSet};

use farsiding_core::entry::AnyTime;
use farsiding_core::evidence::packet::{ENTRIES, FRONT, HOW_TO_CHECK, SEAL};
use farsiding_core::evidence::{Checkpoint, Receipt, cosignatures};
use farsiding_core::ids::{DeviceId, Digest};

use super::super::sheet::{Cell, Sheet};
use super::Told;

pub(super) fn devices(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    let view = told.view();
    sheet.heading("Annex E  Devices, their certificates and chains");
    let rows = view
        .header
        .devices
        .iter()
        .map(|device| {
            let certificate = told.refolded.certificates.get(&device.device);
            let (name, standing) = match certificate {
                None => (Cell::strong(device.name.clone()), Cell::strong("NOT CERTIFIED by the organisation")),
                Some(certificate) => {
                    let mut issued = format!("certified {}", told.shown(certificate.issued_at));
                    if let Some(sites) = &certificate.sites {
                        let many = if sites.len() == 1 { "site" } else { "sites" };
                        issued += &format!("\nfor {} {many}", sites.len());
                    }
                    if let Some(until) = certificate.valid_until {
                        issued += &format!("\nuntil {}", told.shown(until));
                    }
                    let standing = match certificate.revoked_at {
                        Some(at) => Cell::strong(format!(
                            "{issued}\nREVOKED {}: what came in after that is kept, its claimed time proves nothing",
                            told.shown(at)
                        )),
                        None => issued.into(),
                    };
                    (Cell::strong(certificate.name.clone()), standing)
                }
            };
            let clock = device.ahead_millis.map_or("never compared".to_owned(), |ahead| {
                format!("{:+.1} s against the office's", ahead as f64 / 1000.0)
            });
            vec![name, device.device.to_string().into(), standing, format!("{}\n{clock}", device.entries).into()]
        })
        .collect();
    sheet.table(
        &[("Device", 18.0), ("Public key (Ed25519)", 34.0), ("Standing", 28.0), ("Entries, clock", 20.0)],
        rows,
    );
    let in_table: BTreeSet<DeviceId> = view.header.devices.iter().map(|device| device.device).collect();
    let outside = told.kept().filter(|line| !in_table.contains(&line.said.device));
    let outside: BTreeSet<DeviceId> = outside.map(|line| line.said.device).collect();
    if !outside.is_empty() {
        let keys: Vec<String> = outside.iter().map(ToString::to_string).collect();
        sheet.paragraph(&format!(
            "Besides these, entries are attached of which none counts (section 3), signed with {}.",
            keys.join(", ")
        ));
    }
    if view.chain_gaps.is_empty() {
        sheet.paragraph(
            "Every device numbers its entries and names in each the one before it. Between the first and the last \
             entry of this stay no number is missing on any device; entries of other records in between are listed \
             by their digests.",
        );
    }
    for gap in &view.chain_gaps {
        sheet.strong(&gap.sentence);
    }
    let elsewhere: usize = told.parts.log.chains.iter().map(|chain| chain.elsewhere.len()).sum();
    if elsewhere > 0 {
        sheet.small(&format!(
            "{elsewhere} entries of other records stand between those here; only their digests are attached."
        ));
    }
}

pub(super) fn receipts(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    sheet.heading("Annex F  Receipts and log");
    let mut rows: Vec<(farsiding_core::clock::UtcMillis, Vec<Cell>)> = Vec::new();
    let here: std::collections::BTreeSet<_> = told.refolded.received.keys().copied().collect();
    for bytes in &told.parts.receipts.receipts {
        let Ok(receipt) = Receipt::from_bytes(bytes) else { continue };
        let Ok(at) = receipt.check(&AnyTime(told.keys)) else { continue };
        let covered = receipt.entries.iter().filter(|id| here.contains(id)).count();
        let digest = farsiding_core::ids::Digest::of(&receipt.head);
        let covers = format!("{covered} of this packet, {} in all", receipt.entries.len());
        rows.push((at, vec![told.shown(at).into(), covers.into(), digest.short().into()]));
    }
    rows.sort_by_key(|row| row.0);
    if rows.is_empty() {
        sheet.paragraph("The office keeps no receipt that covers these entries; the log below says when it received each.");
    } else {
        sheet.paragraph("The office signed these receipts when devices brought their entries:");
        sheet.table(
            &[("Signed at", 26.0), ("Entries covered", 44.0), ("Its SHA-256 begins", 30.0)],
            rows.into_iter().map(|row| row.1).collect(),
        );
    }
    log(sheet, told);
}

fn log(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    sheet.paragraph(
        "The office enters what it receives in one append-only log (a Merkle tree, RFC 9162). A checkpoint is its \
         signed word on how long the log is and what stands in it; whoever holds another checkpoint of it can check \
         whether both can be of one log.",
    );
    let mut rows: Vec<(&str, String)> = Vec::new();
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
        let stamped = told.parts.log.tokens.iter().any(|token| token.size == size);
        let stamps = if stamped { ", time-stamped by a third party (RFC 3161), token attached" } else { "" };
        let others: Vec<String> = others.into_iter().collect();
        let signed =
            if others.is_empty() { String::new() } else { format!(", signed also by {}", others.join(", ")) };
        rows.push(("Checkpoint", format!("{size} entries, root {root}{stamps}{signed}")));
    }
    if let Some(checkpoint) = told.checkpoint() {
        rows.push(("Log", checkpoint.origin));
    }
    if let (Some(first), Some(last)) = (told.parts.log.leaves.first(), told.parts.log.leaves.last()) {
        rows.push((
            "Places",
            format!(
                "{} to {}, received {} to {}",
                first.number,
                last.number,
                told.shown(first.received_at),
                told.shown(last.received_at)
            ),
        ));
    }
    rows.push(("Organisation", format!("public key {}", told.organisation_key)));
    sheet.facts(&rows);
}

pub(super) fn check(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    sheet.heading("10  How to check this file");
    sheet.paragraph(
        "The pages are for reading; the proof is attached inside this PDF. With the file and the organisation's \
         public key (from a source other than this file) anybody can check it, without asking the organisation:",
    );
    sheet.strong(&format!("farsiding verify FILE --key {}", told.organisation_key));
    sheet.paragraph(&format!(
        "or with a program of one's own: {HOW_TO_CHECK} describes every byte. The checks: each entry in {ENTRIES} bears \
         the signature of its device; each device whose entries count holds a certificate of the \
         organisation; the log holds each \
         entry at its place and time; nothing is missing between a device's first and last entry; each photograph is byte for \
         byte the one signed for; {SEAL} is the organisation's signature over this whole file; and the pages, drawn again from \
         what is attached, are these, so that not even whoever holds the organisation's key can print something else \
         unseen. A program that does not draw them again holds the first page against the entries by {FRONT} and says so.",
    ));
    sheet.paragraph(
        "It cannot be checked from the file alone whether the organisation withheld other records, or ran its clock \
         wrong. A checkpoint kept by somebody else, or a third party's time stamp, narrows that down.",
    );
    sheet.small(
        "A character the typefaces of this document cannot show is written as \\u{\u{2026}} with its Unicode number; the \
         attached entries hold it as it was typed.",
    );
}

/// Writes annex G: the attached files.
pub(super) fn files(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    sheet.heading("Annex G  Attached files");
    let rows = told
        .files
        .iter()
        .map(|(name, length, what)| {
            let length = length.map_or("\u{2013}".to_owned(), |length| length.to_string());
            vec![name.clone().into(), length.into(), (*what).into()]
        })
        .collect();
    sheet.table(&[("Attached file", 52.0), ("Bytes", 10.0), ("What it is", 38.0)], rows);
    sheet.small(&format!("Document {}", told.document));
}
