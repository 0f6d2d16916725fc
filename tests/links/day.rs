//! A day's work over the worst line: it ends, and in about the time that the line itself needs.

use std::time::Instant;

use farsiding_testkit::Dice;

use crate::job::UNLOADING;
use crate::line::{Line, ROUND_TRIP, SPEED, Way};
use crate::stage::{Device, Server};
use crate::{bad, better, on_what};

/// Cars of a day, and entries of each.
const CARS: usize = 10;
const ENTRIES: usize = 12;

fn a_day(phone: &Device) {
    for car in 0..CARS {
        let visit = phone.open(&format!("ZZQX {}", 4400 + car));
        phone.records(&visit, &UNLOADING[1..ENTRIES]);
    }
}

#[test]
fn a_day_of_ten_cars_gets_to_the_office_over_the_worst_line() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::in_folder(folder.path());
    let phone = Device::enrolled(&server, &folder.path().join("phone-1"), "ash");
    a_day(&phone);
    let waiting = phone.yes(&["whoami"])["unreceipted_entries"].as_u64().unwrap();
    assert!(waiting >= (CARS * ENTRIES) as u64, "{waiting} entries wait");

    let line = Line::to(&server.url, bad(0), Dice::thrown());
    let began = Instant::now();
    let told = phone.yes(&["sync", "--server", &line.url]);
    let took = began.elapsed().as_secs_f64() * better();
    assert_eq!(told["unreceipted_entries"], 0, "{told}");
    let (up, down) = (line.carried(Way::Up), line.carried(Way::Down));
    // Without losses, and all that goes up going at full speed: sent, answered, and the connection made.
    let least = (up + down) as f64 / SPEED + 2.0 * ROUND_TRIP.as_secs_f64();
    let (lost, _) = line.lost_and_cut();
    println!(
        "link day: {waiting} entries, {up} bytes up and {down} down, {lost} pieces lost: {took:.0} s; \
         the line alone needs {least:.0} s for them{}",
        on_what()
    );
    assert!(took < 6.0 * least + 30.0, "{took:.0} s where the line needs {least:.0} s");

    let began = Instant::now();
    phone.yes(&["sync", "--server", &line.url]);
    let idle = began.elapsed().as_secs_f64() * better();
    println!(
        "link day: syncing with nothing new {} bytes up and {} down, {idle:.0} s{}",
        line.carried(Way::Up) - up,
        line.carried(Way::Down) - down,
        on_what()
    );
}

#[test]
fn the_same_day_gets_there_over_a_line_that_keeps_being_cut() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::in_folder(folder.path());
    let phone = Device::enrolled(&server, &folder.path().join("phone-1"), "ash");
    a_day(&phone);
    // About every 13 kB, some 10 s of sending, all connections break.
    let line = Line::to(&server.url, bad(20), Dice::thrown());
    let (began, mut runs) = (Instant::now(), 0);
    loop {
        runs += 1;
        let (code, told) = phone.run(&["sync", "--server", &line.url, "--attempts", "8"]);
        assert!(matches!(code, 0 | 4), "{told}");
        if code == 0 {
            assert_eq!(told["unreceipted_entries"], 0, "{told}");
            break;
        }
        assert!(runs < 20, "it never gets there: {told}");
    }
    let (lost, cuts) = line.lost_and_cut();
    println!(
        "link cut day: {} bytes up and {} down, {lost} pieces lost, {cuts} cuts, {runs} runs of sync: {:.0} s{}",
        line.carried(Way::Up),
        line.carried(Way::Down),
        began.elapsed().as_secs_f64() * better(),
        on_what()
    );
    let other = Device::of_operator(&server, &folder.path().join("phone-2"), "birch");
    other.yes(&["sync"]);
    for car in 0..CARS {
        assert_eq!(other.view(&format!("{}", 4400 + car))["entries"], ENTRIES, "car {car}");
    }
}
