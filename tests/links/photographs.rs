//! Photographs come behind records, and go on at the byte where they stopped.

use std::time::Instant;

use farsiding_testkit::Dice;

use crate::job::UNLOADING;
use crate::line::{Cut, Line, Quality, Reach, Way};
use crate::stage::{Device, Server};
use crate::{bad, better, on_what, picture};

/// Bytes of a photograph that a device sends in one request at first.
const SLICE: u64 = 32 * 1024;
/// What a request's head has at most.
const HEAD: u64 = 700;

fn offset(head: &str) -> u64 {
    let field = head.lines().find_map(|line| line.strip_prefix("upload-offset: ")).expect(head);
    field.trim().parse().unwrap()
}

#[test]
fn records_are_receipted_before_a_photograph_moves() {
    let mut dice = Dice::thrown();
    let folder = tempfile::tempdir().unwrap();
    let server = Server::in_folder(folder.path());
    let phone = Device::enrolled(&server, &folder.path().join("phone-1"), "ash");
    let visit = phone.open("ZZQX 4417");
    let first = picture(folder.path(), "seal.jpg", 12_000, &mut dice);
    phone.yes(&["photo", &visit, first.to_str().unwrap(), "--of", "seal"]);
    phone.records(&visit, &UNLOADING[..12]);
    let second = picture(folder.path(), "cover.jpg", 12_000, &mut dice);
    phone.yes(&["photo", &visit, second.to_str().unwrap()]);

    // Dead from the moment the first photograph has begun.
    let line = Line::to(&server.url, bad(0), dice);
    line.plan(&[(Cut::InAPhotograph(1_000), Reach::Dead)]);
    let began = Instant::now();
    let why = phone.no(4, &["sync", "--server", &line.url, "--attempts", "2"]);
    println!(
        "link order: records receipted, then cut, {:.0} s{}",
        began.elapsed().as_secs_f64() * better(),
        on_what()
    );
    assert!(why.contains("0 entries and 2 photographs without the office's receipt"), "{why}");
    assert_eq!(phone.view(&visit)["unreceipted"], 0);
    let other = Device::of_operator(&server, &folder.path().join("phone-2"), "birch");
    other.yes(&["sync"]);
    assert_eq!(other.view("4417")["entries"], 15, "the office has them, photographs or not");
    let requests = line.requests();
    let of = |word: &str| requests.iter().position(|head| head.starts_with(word));
    let (sync, photo) = (of("post /v1/sync").unwrap(), of("patch /v1/photos/").unwrap());
    assert!(sync < photo, "{requests:#?}");
}

#[test]
fn a_photograph_goes_on_at_the_byte_where_it_stopped() {
    let mut dice = Dice::thrown();
    let folder = tempfile::tempdir().unwrap();
    let server = Server::in_folder(folder.path());
    let phone = Device::enrolled(&server, &folder.path().join("phone-1"), "ash");
    let visit = phone.open("ZZQX 4417");
    phone.yes(&["sync"]);
    let length = 24_000;
    let file = picture(folder.path(), "seal.jpg", length, &mut dice);
    phone.yes(&["photo", &visit, file.to_str().unwrap()]);
    phone.yes(&["sync", "--no-photos"]);

    let line = Line::to(&server.url, bad(0), dice);
    line.plan(&[
        (Cut::InAPhotograph(6_000), Reach::Carried),
        (Cut::InAPhotograph(6_000), Reach::Carried),
        (Cut::InAPhotograph(5_000), Reach::Carried),
    ]);
    let began = Instant::now();
    let told = phone.yes(&["sync", "--server", &line.url, "--attempts", "6"]);
    let took = began.elapsed().as_secs_f64() * better();
    assert_eq!((&told["unsent_photos"], &told["photos_sent"]), (&0.into(), &1.into()), "{told}");
    let (lost, cuts) = line.lost_and_cut();
    assert_eq!(cuts, 3);

    let requests = line.requests();
    let offsets: Vec<u64> =
        requests.iter().filter(|head| head.starts_with("patch ")).map(|head| offset(head)).collect();
    assert!(offsets.len() > 3 && offsets[0] == 0, "{offsets:?}");
    assert!(
        offsets.windows(2).all(|pair| pair[0] <= pair[1]) && offsets[3] > 0,
        "it went on where it stood: {offsets:?}"
    );
    let up = line.carried(Way::Up);
    let most = length as u64 + requests.len() as u64 * HEAD + cuts * SLICE;
    println!(
        "link photograph: {length} bytes, 3 cuts, pieces began at {offsets:?}: {up} bytes up in {} requests, \
         {lost} pieces lost, {took:.0} s{}",
        requests.len(),
        on_what()
    );
    assert!(up <= most, "{up} bytes went up, {most} at most");
    // The same bytes are at the office: another device that fetches them gets its digest right.
    let other = Device::of_operator(&server, &folder.path().join("phone-2"), "birch");
    assert_eq!(other.yes(&["sync", "--fetch-photos"])["photos_fetched"], 1);
}

#[test]
fn a_photograph_gets_through_a_line_that_is_cut_by_chance() {
    let mut dice = Dice::thrown();
    let folder = tempfile::tempdir().unwrap();
    let server = Server::in_folder(folder.path());
    let phone = Device::enrolled(&server, &folder.path().join("phone-1"), "ash");
    let visit = phone.open("ZZQX 4417");
    let file = picture(folder.path(), "seal.jpg", 60_000, &mut dice);
    phone.yes(&["photo", &visit, file.to_str().unwrap()]);
    // The chance is what is tried here, not the waiting: this line is twenty times better always.
    let line = Line::to(&server.url, Quality { better: 20.0, loss: 20, cuts: 20 }, dice);
    let mut runs = 0;
    loop {
        runs += 1;
        let (code, told) = phone.run(&["sync", "--server", &line.url, "--attempts", "4"]);
        assert!(matches!(code, 0 | 4), "{told}");
        let held = phone.yes(&["receipts"])["unsent_photos"] == 0;
        assert_eq!(held, code == 0, "held and said so are one: {told}");
        if held {
            break;
        }
        assert!(runs < 40, "it never gets there: {told}");
    }
    let offsets: Vec<u64> =
        line.requests().iter().filter(|head| head.starts_with("patch ")).map(|head| offset(head)).collect();
    assert!(offsets.windows(2).all(|pair| pair[0] <= pair[1]), "never back: {offsets:?}");
    println!(
        "link chance: 60000 bytes, {} cuts, {runs} runs of sync, {} bytes up (on a line 20 times better)",
        line.lost_and_cut().1,
        line.carried(Way::Up)
    );
}
