//! Small letters that are long to read: a few kilobytes keep no phone and no page thinking for long.

use std::time::{Duration, Instant};

use farsiding_core::entry::Entry;
use serde_json::{Value, json};

use super::{Forger, Siding, change, page, relay, round};
use crate::requests::signed_in;

/// How long a device takes to show the stay now, on this machine.
fn shown_in(siding: &Siding) -> Duration {
    let began = Instant::now();
    siding.phone.words(&["show", &siding.visit]);
    began.elapsed()
}

/// What it may take with the letters in it.
fn patience(usual: Duration) -> Duration {
    8 * usual + Duration::from_secs(2)
}

fn told(says: Vec<Value>) {
    let siding = Siding::set();
    let cookie = signed_in(&siding.server);
    let most = patience(shown_in(&siding));
    let visit = siding.about_visit();
    let mut forger = Forger::with(siding.phone.key());
    let entries: Vec<Entry> = says.into_iter().map(|says| forger.says(visit, says)).collect();
    let many = entries.len();
    let changes = vec![change(visit, &entries)];
    let sent = round(&forger.key, changes.clone()).len();
    relay(&siding.server, &forger.key, changes);
    siding.phone.yes(&["sync"]);
    let shown = shown_in(&siding);
    let began = Instant::now();
    let path = format!("/office/visits/{}", siding.visit);
    assert!(shown < most, "{many} entries sent in {sent} bytes: the device took {shown:?}");
    page(&siding.server, &cookie, &path);
    println!(
        "{many} entries sent in {sent} bytes: a device shows the stay in {} ms, the office in {} ms",
        shown.as_millis(),
        began.elapsed().as_millis()
    );
    assert!(began.elapsed() < most, "the office took {:?}", began.elapsed());
}

#[test]
fn lists_of_fittings_thousands_long_are_read_at_once() {
    let list: Vec<&str> =
        std::iter::repeat_n("gauging_device", 1000).chain(["vapour"]).chain(["liquid_a"; 900]).collect();
    told((0..25).map(|_| json!({ "car_fittings": { "fittings": list } })).collect());
}

#[test]
fn outage_tables_of_thousands_of_rows_are_read_at_once() {
    let rows: Vec<(f64, f64)> = (0..1500).map(|row| (f64::from(row) / 16.0, 0.0)).collect();
    told((0..60).map(|n| json!({ "outage_table": { "name": format!("T{}", n / 30), "rows": rows, "liquid": true } })).collect());
}

#[test]
fn thousands_of_words_about_one_thing_are_read_at_once() {
    told((0..3000).map(|_| json!({ "valve": { "fitting": "liquid_a", "position": "shut" } })).collect());
}

/// Each keeps the one before: whoever looks for what stands walks the whole chain, for each of them.
#[test]
fn agreements_that_keep_agreements_are_read_at_once() {
    let siding = Siding::set();
    let most = patience(shown_in(&siding));
    let visit = siding.about_visit();
    let mut forger = Forger::with(siding.phone.key());
    let mut entries = vec![forger.says(visit, super::reading("final", 37.0))];
    for _ in 0..2500 {
        let keeps = entries.last().unwrap().id;
        let agreed = json!({ "agreement": { "keeps": keeps } });
        entries.push(forger.in_slot("reading/final/pressure/car", visit, agreed, (&[], &[]), "so it is"));
    }
    for part in entries.chunks(500) {
        relay(&siding.server, &forger.key, vec![change(visit, part)]);
    }
    siding.phone.yes(&["sync"]);
    let shown = shown_in(&siding);
    println!("2,500 agreements in a chain: a device shows the stay in {} ms", shown.as_millis());
    assert!(shown < most, "{shown:?}");
}
