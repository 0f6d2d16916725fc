//! Nobody fills the office: what one device may bring in a day is bounded, and what is refused leaves a few lines.

use farsiding_core::ids::{Subject, VisitId};
use serde_json::json;

use super::{Forger, Siding, change, page, relay};
use crate::requests::signed_in;
use crate::stage::Device;

/// Bytes of the ledger's files.
fn ledger(siding: &Siding) -> u64 {
    let of = |name: &str| siding.path("office").join(name).metadata().map_or(0, |found| found.len());
    of("ledger.db") + of("ledger.db-wal")
}

fn visit(number: u16) -> Subject {
    let mut id = [9u8; 16];
    id[..2].copy_from_slice(&number.to_be_bytes());
    Subject::Visit(VisitId(id))
}

#[test]
fn a_device_opens_no_thousand_visits_in_a_day() {
    let siding = Siding::set();
    let cookie = signed_in(&siding.server);
    let phone = Device::of_operator(&siding.server, &siding.path("phone-2"), "birch");
    let mut forger = Forger::with(phone.key());
    forger.by = "birch".to_owned();
    let mut told = String::new();
    for round in 0..5u16 {
        let changes = (0..200)
            .map(|n| {
                let about = visit(round * 200 + n);
                let opened = json!({ "opened": {
                    "car": format!("ZZQX {}", 100_000 + u32::from(round) * 200 + u32::from(n)), "site": siding.site,
                    "receiver": "fixed_tank", "procedure": "11".repeat(32), "spot": "2",
                }});
                change(about, &[forger.says(about, opened)])
            })
            .collect();
        told = format!("{}", relay(&siding.server, &forger.key, changes).status);
    }
    let bystander = siding.bystander("phone-3");
    let visits = bystander.yes(&["list", "--all"])["visits"].as_array().unwrap().len();
    let shown = page(&siding.server, &cookie, "/office/").matches("ZZQX 1").count();
    println!(
        "1,000 visits in one go: last status {told}, {visits} on an honest phone, {shown} on the first page"
    );
    assert!(visits < 600, "{visits} visits came through to an honest phone");
}

#[test]
fn a_device_brings_no_hundred_megabytes_in_a_day() {
    let siding = Siding::set();
    let phone = Device::of_operator(&siding.server, &siding.path("phone-2"), "birch");
    let mut forger = Forger::with(phone.key());
    let (about, before) = (siding.about_visit(), ledger(&siding));
    for _ in 0..35 {
        let entries: Vec<_> = (0..100)
            .map(|_| {
                let mut noise = vec![0u8; 15_000];
                getrandom::fill(&mut noise).unwrap();
                let text: String = noise.iter().map(|byte| format!("{byte:02x}")).collect();
                forger.says(about, json!({ "remark": { "text": text } }))
            })
            .collect();
        let changes = entries.chunks(10).map(|some| change(about, some)).collect();
        relay(&siding.server, &forger.key, changes);
    }
    let grown = (ledger(&siding) - before) / 1024;
    println!("105 MB of remarks by one device: the ledger grew by {grown} kB");
    // An entry stands in the ledger and in its change: twice what a day may bring, and some.
    assert!(grown < 170 * 1024, "{grown} kB");
}

/// Zeros deflate a thousandfold: what is refused is kept as what it was, not whole.
#[test]
fn what_is_refused_does_not_grow_the_office() {
    let siding = Siding::set();
    let phone = Device::of_operator(&siding.server, &siding.path("phone-2"), "birch");
    let (key, before) = (phone.key(), ledger(&siding));
    let mut sent = 0;
    for round in 0..9u8 {
        let mut bytes = vec![0u8; 7 * 1024 * 1024];
        bytes[0] = round + 1;
        let request = super::round(&key, vec![(siding.about_visit(), bytes)]);
        sent += request.len();
        let _ = crate::requests::ask(&siding.server, "POST", "/v1/sync", &[], &request);
    }
    let grown = (ledger(&siding) - before) / 1024;
    println!("{} kB of refused changes sent, the ledger grew by {grown} kB", sent / 1024);
    assert!(grown < 1024, "{grown} kB");
}

/// An entry of a person whose code is a book, as no shell lets it be typed.
#[test]
fn a_persons_code_is_short() {
    let siding = Siding::set();
    let mut forger = Forger::with(siding.phone.key());
    forger.by = "x".repeat(20_000);
    let about = siding.about_visit();
    let read = forger.says(about, super::reading("arrival", 90.0));
    relay(&siding.server, &forger.key, vec![change(about, &[read])]);
    let bystander = siding.bystander("phone-3");
    let words = bystander.words(&["show", &siding.visit]);
    let longest = words.split_whitespace().map(str::len).max().unwrap_or(0);
    println!("a code of 20,000 characters: the longest word a phone shows has {longest}");
    assert!(longest < 300, "{longest}");
}
