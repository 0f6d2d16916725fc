//! Readings no gauge ever showed: every page and every packet is drawn of them at once, and small.

use std::io::{Read as _, Write as _};
use std::time::{Duration, Instant};

use farsiding_core::entry::{Body, Entry, Statement};
use serde_json::{Value, json};

use super::{Forger, Siding, change, relay};
use crate::requests::{connect, is_well, signed_in};
use crate::stage::now;

/// What one page may take in a build without optimisation, beside other tests.
const PATIENCE: Duration = Duration::from_secs(12);
const LAST: &str = "and that was all of it";
const LARGEST_PAGE: usize = 2 * 1024 * 1024;

/// The answer's bytes, or what is there when patience ends.
fn asked_for(siding: &Siding, cookie: &str, path: &str) -> Result<Vec<u8>, Duration> {
    let mut stream = connect(&siding.server);
    stream.set_read_timeout(Some(Duration::from_millis(200))).unwrap();
    let head = format!("GET {path} HTTP/1.1\r\nhost: x\r\nconnection: close\r\ncookie: {cookie}\r\n\r\n");
    stream.write_all(head.as_bytes()).unwrap();
    let (began, mut answer, mut piece) = (Instant::now(), Vec::new(), [0u8; 65_536]);
    while began.elapsed() < PATIENCE {
        match stream.read(&mut piece) {
            Ok(0) => return Ok(answer),
            Ok(read) => answer.extend_from_slice(&piece[..read]),
            Err(_) => {}
        }
    }
    Err(began.elapsed())
}

/// An honest phone's key puts statements into the record; then the page and the packet are asked for.
fn drawn(statements: &[(Option<i64>, Statement)]) {
    let siding = Siding::set();
    let cookie = signed_in(&siding.server);
    let visit = siding.about_visit();
    let mut forger = Forger::with(siding.phone.key());
    let mut entries: Vec<Entry> = statements
        .iter()
        .enumerate()
        .map(|(n, (at, says))| {
            // Half an hour apart, as on an ordinary day.
            let ordinary = now().0 - 1000 * 60 * 30 * i64::try_from(statements.len() - n).unwrap();
            forger.at = Some(at.unwrap_or(ordinary));
            let like = forger.says(visit, json!({ "remark": { "text": "" } }));
            // Through the body itself: JSON has no number that is none.
            let body = Body { slot: says.slot(), says: says.clone(), ..like.body };
            Entry::seal(body, &forger.key).unwrap()
        })
        .collect();
    forger.at = None;
    entries.push(forger.says(visit, json!({ "remark": { "text": LAST } })));
    relay(&siding.server, &forger.key, vec![change(visit, &entries)]);
    let (base, before) = (format!("/office/visits/{}", siding.visit), siding.server.peak_kb());
    // The index follows a moment after a sync.
    let began = Instant::now();
    while began.elapsed() < Duration::from_secs(10)
        && asked_for(&siding, &cookie, &base).is_ok_and(|page| !String::from_utf8_lossy(&page).contains(LAST))
    {
        std::thread::sleep(Duration::from_millis(100));
    }
    for path in
        [base.clone(), format!("{base}/packet"), "/office/".to_owned(), "/office/reconcile".to_owned()]
    {
        let began = Instant::now();
        let answer = asked_for(&siding, &cookie, &path);
        let memory = siding.server.peak_kb();
        match &answer {
            Ok(bytes) => println!("{path}: {} bytes in {} ms", bytes.len(), began.elapsed().as_millis()),
            Err(after) => {
                println!("{path}: nothing for {after:?}, memory {before:?} kB before and {memory:?} kB then")
            }
        }
        let answer = answer.unwrap_or_else(|after| panic!("{path}: no end for {after:?}"));
        assert!(answer.len() < LARGEST_PAGE, "{path} has {} bytes", answer.len());
        let text = String::from_utf8_lossy(&answer);
        assert!(text.starts_with("HTTP/1.1 200"), "{path}: {}", &text[..text.len().min(300)]);
        if !path.ends_with("packet") {
            let plain = text.split("<svg").skip(1).filter_map(|rest| rest.split("</svg>").next());
            for drawing in plain {
                assert!(
                    !drawing.contains("NaN") && !drawing.contains(">inf") && drawing.len() < 60_000,
                    "{drawing}"
                );
            }
        }
    }
    assert!(is_well(&siding.server));
    // A device folds and shows the same.
    let began = Instant::now();
    siding.phone.yes(&["sync"]);
    let words = siding.phone.words(&["show", &siding.visit]);
    println!("a device shows it in {} ms, {} bytes", began.elapsed().as_millis(), words.len());
    assert!(began.elapsed() < PATIENCE && words.len() < 200_000);
}

fn read(purpose: &str, value: f64) -> Statement {
    let mut says: Value = super::reading(purpose, 1.0);
    says["reading"]["amount"]["text"] = json!(format!("{value:e} psi"));
    let mut says: Statement = serde_json::from_value(says).unwrap();
    if let Statement::Reading(reading) = &mut says {
        reading.amount.value = Some(value);
    }
    says
}

#[test]
fn ordinary_readings_are_drawn() {
    drawn(&[(None, read("transfer", 92.0)), (None, read("transfer", 88.0))]);
}

#[test]
fn two_readings_of_a_hundred_quadrillion_psi_do_not_stop_the_office() {
    drawn(&[(None, read("transfer", 1e17)), (None, read("transfer", 1e17 + 16.0))]);
}

#[test]
fn readings_that_are_no_numbers_are_drawn_nowhere() {
    drawn(&[
        (None, read("transfer", f64::NAN)),
        (None, read("transfer", f64::INFINITY)),
        (None, read("transfer", f64::NEG_INFINITY)),
        (None, read("final", f64::NAN)),
        (None, read("transfer", 5e-324)),
        (None, read("transfer", f64::MAX)),
        (None, read("transfer", -f64::MAX)),
    ]);
}

#[test]
fn a_reading_dated_1970_and_one_of_the_year_200000_are_drawn_small() {
    drawn(&[
        (Some(0), read("transfer", 92.0)),
        (Some(6_248_000_000_000_000), read("transfer", 91.0)),
        (Some(i64::MIN / 2), read("hold_test", 90.0)),
        (Some(i64::MAX / 2), read("hold_test", 90.1)),
        (None, read("transfer", 88.0)),
    ]);
}

#[test]
fn sixty_five_thousand_bolts_and_a_span_of_nothing_are_drawn_small() {
    let cover: Statement = serde_json::from_value(json!({ "cover": {
        "closed": true, "pinned": true, "bolts_in_place": 65_535, "bolts_required": 65_535 } }))
    .unwrap();
    drawn(&[
        (None, cover),
        (None, read("transfer", 1e-20)),
        (None, read("transfer", 2e-20)),
        (None, read("recovery", 38.000_000_001)),
        (None, read("recovery", 38.000_000_002)),
    ]);
}
