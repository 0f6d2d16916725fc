//! A login page that takes over a line at the worst moment. (One that was there from the start is in the
//! acceptance stories.)

use farsiding_testkit::Dice;

use crate::job::UNLOADING;
use crate::line::{Cut, Line, Quality, Reach, Way};
use crate::stage::{Device, Server};
use crate::{bad, picture};

#[test]
fn a_login_page_that_comes_up_at_any_moment_marks_nothing_and_loses_nothing() {
    let mut dice = Dice::thrown();
    let folder = tempfile::tempdir().unwrap();
    let server = Server::in_folder(folder.path());
    let phone = Device::enrolled(&server, &folder.path().join("phone-1"), "ash");
    let visit = phone.open("ZZQX 4417");
    phone.records(&visit, &UNLOADING[..6]);
    let file = picture(folder.path(), "seal.jpg", 8_000, &mut dice);
    phone.yes(&["photo", &visit, file.to_str().unwrap()]);
    let waiting = phone.view(&visit)["unreceipted"].clone();
    assert_eq!(waiting, 8);
    // Nothing is lost on it but by the page, so that it is known what had arrived by then.
    let line = Line::to(&server.url, Quality { loss: 0, ..bad(0) }, dice);
    let sync = ["sync", "--server", &line.url, "--attempts", "2"];

    // Before the first answer: nothing was receipted.
    line.plan(&[(Cut::After(Way::Up, 600), Reach::LoginPage)]);
    let why = phone.no(4, &sync);
    assert!(why.contains("login page") && why.contains("still here"), "{why}");
    assert_eq!(phone.view(&visit)["unreceipted"], waiting);

    // In the middle of the photograph: the records are receipted, the photograph is not.
    line.becomes(Reach::Carried);
    line.plan(&[(Cut::InAPhotograph(5_000), Reach::LoginPage)]);
    let why = phone.no(4, &sync);
    assert!(why.contains("login page") && why.contains("still here"), "{why}");
    assert!(why.contains("0 entries and 1 photographs without the office's receipt"), "{why}");
    let told = phone.yes(&["receipts", &visit]);
    assert_eq!((&told["unreceipted_entries"], &told["unsent_photos"]), (&0.into(), &1.into()), "{told}");

    // Whatever is asked of the page changes nothing.
    for _ in 0..3 {
        phone.no(4, &sync);
        assert_eq!(phone.yes(&["receipts"])["unsent_photos"], 1);
    }

    // Somebody signs in; what was begun is gone on with.
    line.becomes(Reach::Carried);
    let before = line.carried(Way::Up);
    let told = phone.yes(&sync);
    assert_eq!((&told["unreceipted_entries"], &told["unsent_photos"]), (&0.into(), &0.into()), "{told}");
    println!("link login page: {} bytes up to end what it broke off", line.carried(Way::Up) - before);
    let sent = told["photo_bytes_sent"].as_u64().unwrap();
    assert!(sent < 8_000, "it went on where it stopped: {sent} bytes");
    let other = Device::of_operator(&server, &folder.path().join("phone-2"), "birch");
    assert_eq!(other.yes(&["sync", "--fetch-photos"])["photos_fetched"], 1);
    assert_eq!(other.view("4417")["entries"], 8);
}
