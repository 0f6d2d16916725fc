//! The devices that signed the entries of a packet: their certificates, and the entries that do not count
//! because of their device.
//!
//! `check` calls this module with the rules of the version that sealed the packet. The rights of devices are
//! applied in the fold (`authority`); this module covers what every verifier can determine from certificates
//! and the log.

use std::collections::BTreeMap;

use super::check::Opened;
use super::parts::Parts;
use super::report::{CheckReport, Code, shown};
use crate::authority::{Authority, Judged, Kept, Verdict};
use crate::clock::UtcMillis;
use crate::entry::{Certificate, Entry, Trusts};
use crate::ids::{DeviceId, EntryId};
use crate::{Message, message};

/// Returns the valid certificates by device. An invalid one counts as damage under any version of the rules.
fn certified(parts: &Parts, key: &dyn Trusts, report: &mut CheckReport) -> BTreeMap<DeviceId, Certificate> {
    let mut certified = BTreeMap::new();
    for bytes in &parts.certificates.certificates {
        match Certificate::open(bytes, key) {
            Ok(certificate) => {
                certified.insert(certificate.device, certificate);
            }
            Err(why) => {
                report.broken(Code::ForgedDevice, message!("verify-forged-certificate", why = shown(why)))
            }
        }
    }
    certified
}

fn received(parts: &Parts) -> BTreeMap<EntryId, UtcMillis> {
    parts.log.leaves.iter().map(|leaf| (leaf.entry, leaf.received_at)).collect()
}

fn came_late(certificate: &Certificate, late: usize, count: usize) -> Message {
    let at = certificate.revoked_at.map_or(String::new(), UtcMillis::rfc3339);
    message!(
        "verify-revoked-device",
        late = late,
        count = shown(count),
        name = shown(&certificate.name),
        device = shown(certificate.device.short()),
        at = shown(at)
    )
}

/// Applies the rules of version one: an entry whose signer has no certificate counts as damage.
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
                let what = message!("verify-forged-device", count = *count, device = shown(device));
                report.broken(Code::ForgedDevice, what);
            }
            Some(certificate) if *late > 0 => {
                report.mark(Code::RevokedDevice, came_late(certificate, *late, *count));
            }
            Some(_) => {}
        }
    }
    if all {
        report.holds(Code::Devices, message!("verify-devices", count = counts.len()));
    }
}

#[derive(Default)]
struct Counts {
    all: usize,
    late: usize,
    expired: usize,
}

/// Applies the rules since version two: entries of a device without a certificate are kept but do not count,
/// and late entries may have been admitted. A foreign entry does not make the packet false.
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
            let what = message!("verify-uncertified-device", count = count.all, device = shown(device));
            report.mark(Code::UncertifiedDevice, what);
            continue;
        };
        holding += 1;
        if count.late > 0 {
            report.mark(Code::RevokedDevice, came_late(certificate, count.late, count.all));
        }
        if count.expired > 0 {
            let until = certificate.valid_until.map_or(String::new(), UtcMillis::rfc3339);
            let what = message!(
                "verify-expired-device",
                late = count.expired,
                count = shown(count.all),
                name = shown(&certificate.name),
                device = shown(device.short()),
                until = shown(until)
            );
            report.mark(Code::ExpiredDevice, what);
        }
    }
    if !report.found(Code::ForgedDevice) {
        report.holds(Code::Devices, message!("verify-devices", count = holding));
    }
}
