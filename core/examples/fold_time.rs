//! Measures how long a visit of 500 entries takes to be read and folded, with and without formulas.
//!
//! It is run in release mode and prints figures: `cargo run --release -p farsiding-core --example fold_time`.
#![allow(clippy::unwrap_used, reason = "a measurement may stop at a surprise")]

use std::time::Instant;

use farsiding_core::authority::{Authority, Judged};
use farsiding_core::clock::{Stamp, UtcMillis};
use farsiding_core::entry::car_number::CarNumber;
use farsiding_core::entry::vocabulary::*;
use farsiding_core::entry::{Body, DeviceKey, Entry, Opened, Paper, Reading, Statement};
use farsiding_core::ids::{OperatorId, SiteId, Subject, VisitId};
use farsiding_core::procedure::Procedures;
use farsiding_core::units::{Amount, Unit};
use farsiding_core::view::{Context, Formulas, Recorded, SiteView, Slots, fold};

const ENTRIES: usize = 500;
const RUNS: usize = 200;

fn reading(measured: Measured, place: Place, purpose: Purpose, value: f64, unit: Unit) -> Statement {
    let (amount, instrument) = (Amount::of(value, unit), "LG-1".to_owned());
    Statement::Reading(Reading { measured, place, purpose, amount, instrument })
}

/// Returns the statement of the nth entry: a whole job, then hours of readings and repeated work at fittings.
fn all(entries: &[Entry]) -> Vec<Judged<'_>> {
    Authority::nobody().stay(entries.iter().map(|entry| (entry, None)))
}

fn says(n: usize, procedures: &Procedures) -> Statement {
    let fitting = Fitting::LINES[n % 3];
    match n {
        0 => Statement::Opened(Opened {
            car: CarNumber("ZZQX 4417".into()),
            site: SiteId([9; 16]),
            receiver: Receiver::FixedTank,
            procedure: procedures.default_procedure().unwrap().digest,
            spot: String::new(),
            nonce: None,
        }),
        1 => Statement::Paper(Paper {
            un_number: "UN1978".into(),
            billed: Some(Amount::of(31_000.0, Unit::Gallon)),
            relative_density: Some(Amount::of(0.51, Unit::One)),
            ..Paper::default()
        }),
        2 => Statement::CarCapacity { capacity: Amount::of(33_687.1, Unit::Gallon), insulation: None },
        3 => Statement::CarDiameter { diameter: Amount::of(119.0, Unit::Inch) },
        4 => reading(Measured::Pressure, Place::Car, Purpose::Arrival, 125.0, Unit::PsiGauge),
        5 => reading(Measured::Temperature, Place::Car, Purpose::Arrival, 80.0, Unit::Fahrenheit),
        6 => reading(Measured::Outage, Place::Car, Purpose::Arrival, 12.0, Unit::Inch),
        7 => reading(Measured::Pressure, Place::Car, Purpose::Final, 38.0, Unit::PsiGauge),
        8 => reading(Measured::Temperature, Place::Car, Purpose::Final, 60.0, Unit::Fahrenheit),
        9 => reading(Measured::Pressure, Place::Car, Purpose::EmptyProof, 38.0, Unit::PsiGauge),
        10 => reading(Measured::Temperature, Place::CarLow, Purpose::EmptyProof, 55.0, Unit::Fahrenheit),
        11 => reading(Measured::Temperature, Place::Air, Purpose::Arrival, 60.0, Unit::Fahrenheit),
        12 => Statement::EmptySign { sign: EmptySign::RodAtBottom, seen: true },
        _ => match n % 6 {
            0 => Statement::Valve { fitting, position: ValvePosition::ALL[n / 6 % 2] },
            1 => Statement::Closure { fitting, state: ClosureState::ALL[n / 6 % 3] },
            2 => Statement::Listen { fitting, heard: Heard::Quiet },
            3 => Statement::Line { fitting, connected: (n / 6).is_multiple_of(2), hose: "H-1".into() },
            4 => reading(Measured::Pressure, Place::Car, Purpose::Transfer, 100.0, Unit::PsiGauge),
            _ => Statement::Remark { text: format!("remark {n}") },
        },
    }
}

fn main() {
    let procedures = Procedures::built_in().unwrap();
    let keys = [DeviceKey::from_secret([1; 32]), DeviceKey::from_secret([2; 32])];
    let mut entries: Vec<Entry> = Vec::new();
    let mut last = [(0u64, None), (0u64, None)];
    for n in 0..ENTRIES {
        let says = says(n, &procedures);
        let who = n % 2;
        last[who].0 += 1;
        let body = Body {
            about: Subject::Visit(VisitId([7; 16])),
            slot: says.slot(),
            follows: Slots::fold(all(&entries)).follows_for(&says.slot(), keys[who].public()),
            says,
            replaces: vec![],
            why: String::new(),
            by: OperatorId(format!("op-{who}")),
            seq: last[who].0,
            prev: last[who].1,
            when: Stamp {
                at: UtcMillis(1_795_528_800_000 + 60_000 * n as i64),
                offset_minutes: -360,
                ahead_millis: None,
            },
            place: None,
            seen: None,
            hand: None,
            done: None,
            rests_on: None,
        };
        let entry = Entry::seal(body, &keys[who]).unwrap();
        last[who].1 = Some(entry.id);
        entries.push(entry);
    }
    let site = SiteView {
        zone: "America/Chicago".into(),
        elevation: Some(Amount::of(900.0, Unit::Foot)),
        ..SiteView::default()
    };
    let now = UtcMillis(1_795_528_800_000 + 60_000 * ENTRIES as i64);
    let recorded: Vec<Recorded<'_>> = entries.iter().map(Recorded::unsent).collect();
    let time = |what: &str, run: &mut dyn FnMut()| {
        let mut micros: Vec<u128> = (0..RUNS)
            .map(|_| {
                let start = Instant::now();
                run();
                start.elapsed().as_micros()
            })
            .collect();
        micros.sort_unstable();
        println!("{what}: median {} µs, slowest {} µs of {RUNS} runs", micros[RUNS / 2], micros[RUNS - 1]);
    };
    time("500 entries read again", &mut || {
        for entry in &entries {
            std::hint::black_box(Entry::reopen(entry.id, entry.bytes().to_vec()).unwrap());
        }
    });
    for compute in [false, true] {
        let ctx = Context { site: Some(&site), compute, ..Context::at(now, &procedures) };
        let what = if compute {
            "fold of 500 entries with formulas"
        } else {
            "fold of 500 entries without formulas"
        };
        time(what, &mut || drop(std::hint::black_box(fold(&recorded, &ctx))));
    }
    let formulas = Formulas::default();
    let ctx = Context { site: Some(&site), formulas: Some(&formulas), ..Context::at(now, &procedures) };
    time("fold of 500 entries with remembered formulas", &mut || {
        drop(std::hint::black_box(fold(&recorded, &ctx)));
    });
    time("slots of 500 entries", &mut || drop(std::hint::black_box(Slots::fold(all(&entries)))));
    let ctx = Context { site: Some(&site), ..Context::at(now, &procedures) };
    let view = fold(&recorded, &ctx);
    time("page of 500 entries", &mut || drop(std::hint::black_box(serde_json::to_string(&view))));
    time("JSON of 500 entries", &mut || drop(std::hint::black_box(serde_json::to_vec(&view))));
}
