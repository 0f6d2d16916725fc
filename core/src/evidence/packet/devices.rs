//! Who signed the entries of a packet: certificates, and which entries do not count for their device's sake.
//!
//! `check` calls it, by the rules of the version that sealed the packet. What a device may say is the fold's
//! (`authority`); here is only what every checker can tell from certificates and the log.

use std::collections::BTreeMap;

use super::check::Opened;
use super::parts::Parts;
use super::report::{CheckReport, Code};
use crate::authority::{Authority, Judged, Kept, Verdict};
use crate::clock::UtcMillis;
use crate::entry::{Certificate, Entry, Trusts};
use crate::ids::{DeviceId, EntryId};

/// The certificates that hold, by device; one that does not is damage, whatever the version.
fn certified(parts: &Parts, key: &dyn Trusts, report: &mut CheckReport) -> BTreeMap<DeviceId, Certificate> {
    let mut certified = BTreeMap::new();
    for bytes in &parts.certificates.certificates {
        match Certificate::open(bytes, key) {
            Ok(certificate) => {
                certified.insert(certificate.device, certificate);
            }
            Err(why) => report.broken(Code::ForgedDevice, format!("a certificate does not hold: {why}")),
        }
    }
    certified
}

fn received(parts: &Parts) -> BTreeMap<EntryId, UtcMillis> {
    parts.log.leaves.iter().map(|leaf| (leaf.entry, leaf.received_at)).collect()
}

fn came_late(certificate: &Certificate, late: usize, count: usize) -> String {
    let at = certificate.revoked_at.map_or(String::new(), UtcMillis::rfc3339);
    format!(
        "{late} of {count} entries of \"{}\" ({}) came in after it was revoked ({at}): they are kept, what they say of their time proves nothing",
        certificate.name,
        certificate.device.short()
    )
}

/// As version one did: a signer without a certificate is damage.
pub(super) fn of_version_one(parts: &Parts, opened: &Opened, key: &dyn Trusts, report: &mut CheckReport) {
    let certified = certified(parts, key, report);
    let received = received(parts);
    let mut counts: BTreeMap<DeviceId, (usize, usize)> = BTreeMap::new();
    for entry in opened.all() {
        let revoked = certified.get(&entry.device).and_then(|certificate| certificate.revoked_at);
        let late = revoked.is_some_and(|at| received.get(&entry.id).is_none_or(|received| *received >= at));
        let count = counts.entry(entry.device).or_default();
        count.0 += 1;
        count.1 += usize::from(late);
    }
    let mut all = true;
    for (device, (count, late)) in &counts {
        match certified.get(device) {
            None => {
                all = false;
                let what = format!(
                    "{count} entries are signed by device {device}, which the organisation did not certify"
                );
                report.broken(Code::ForgedDevice, what);
            }
            Some(certificate) if *late > 0 => {
                report.mark(Code::RevokedDevice, came_late(certificate, *late, *count));
            }
            Some(_) => {}
        }
    }
    if all {
        report.holds(Code::Devices, format!("{} devices hold the organisation's certificate", counts.len()));
    }
}

#[derive(Default)]
struct Counts {
    all: usize,
    late: usize,
    expired: usize,
}

/// Since version two: what a device without a certificate signed is kept and does not count, and late word
/// may have been admitted. Somebody else's entry does not make a packet a false one.
pub(super) fn judged(parts: &Parts, opened: &Opened, key: &dyn Trusts, report: &mut CheckReport) {
    let certified = certified(parts, key, report);
    let received = received(parts);
    let authority = Authority::of(certified.values().cloned(), true);
    let mut counts: BTreeMap<DeviceId, Counts> = BTreeMap::new();
    for name in ["visit", "car", "site", "roster"] {
        let with_time = |entry| -> (&Entry, Option<UtcMillis>) {
            let entry: &Entry = entry;
            (entry, received.get(&entry.id).copied())
        };
        let list = opened.list(name).map(with_time);
        let judged: Vec<Judged<'_>> = match name {
            "visit" => authority.stay(list),
            "car" => authority.car(list),
            "site" => authority.site(list),
            _ => authority.roster(list),
        };
        for judged in judged {
            let count = counts.entry(judged.entry().device).or_default();
            count.all += 1;
            count.late += usize::from(judged.verdict() == Verdict::Kept(Kept::AfterRevocation));
            count.expired += usize::from(judged.verdict() == Verdict::Kept(Kept::Expired));
        }
    }
    let mut holding = 0usize;
    for (device, count) in &counts {
        let Some(certificate) = certified.get(device) else {
            let what = format!(
                "{} entries are signed by device {device}, of which there is no certificate here: they are kept and do not count",
                count.all
            );
            report.mark(Code::UncertifiedDevice, what);
            continue;
        };
        holding += 1;
        if count.late > 0 {
            report.mark(Code::RevokedDevice, came_late(certificate, count.late, count.all));
        }
        if count.expired > 0 {
            let until = certificate.valid_until.map_or(String::new(), UtcMillis::rfc3339);
            let what = format!(
                "{} of {} entries of \"{}\" ({}) claim a time after its certificate had run out ({until}): they are kept and do not count",
                count.expired,
                count.all,
                certificate.name,
                device.short()
            );
            report.mark(Code::ExpiredDevice, what);
        }
    }
    if !report.found(Code::ForgedDevice) {
        report.holds(Code::Devices, format!("{holding} devices hold the organisation's certificate"));
    }
}
