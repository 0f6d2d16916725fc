//! The office's pages at work: the overview follows the phones, a search finds what is asked for in any
//! spelling, a disagreement is settled and the phones learn of it, and a packet is taken and verified.

use farsiding_core::Message;
use farsiding_core::book::Snapshot;
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::DeviceKey;
use farsiding_core::ids::{Digest, VisitId};
use farsiding_core::procedure::Procedures;
use farsiding_core::store::{Durability, SqliteStore, Store as _};
use farsiding_office::index::Index;

use super::pages_stage::{Scene, Session, quoted, text, value_of};
use super::stage::{Device, farsiding};

#[test]
fn the_overview_follows_the_phones_and_says_what_they_still_have() {
    let scene = Scene::set();
    let office = Session::office(&scene.server);
    let page = office.until("/office/", |page| page.contains("ZZQX 4417"));
    assert!(page.contains("Invented Spur") && page.contains("since the first entry"), "{page}");
    let stands = page.contains("Next: ");
    assert!(stands, "{page}");
    scene.phone.yes(&["add", "4417", "hold", "frost ring low on the shell"]);
    scene.phone.yes(&["sync"]);
    let page = office.until("/office/", |page| page.contains("On hold: frost ring low on the shell"));
    assert!(page.contains("1 car on hold."), "{page}");
    // A phone with an unsent photograph reports that, and the office shows the report.
    let (file, _) = super::stage::picture(scene.folder.path(), "late.jpg", 60_000, 3);
    scene.phone.yes(&["photo", "4417", file.to_str().unwrap(), "--of", "threads"]);
    scene.phone.yes(&["sync", "--no-photos"]);
    let page = office.until("/office/", |page| page.contains("Unsent: 1 photograph"));
    assert!(page.contains("1 photograph announced, file not received yet"), "{page}");
    let visit = office.page(&scene.visit_path());
    assert!(visit.contains("Not received yet. The phone still has it."));
}

#[test]
fn open_pages_are_told_that_there_is_something_new() {
    use std::io::{Read as _, Write as _};
    use std::time::{Duration, Instant};
    let scene = Scene::set();
    let office = Session::office(&scene.server);
    office.until("/office/", |page| page.contains("ZZQX 4417"));
    let mut stream = scene.server.connect();
    write!(stream, "GET /office/live HTTP/1.1\r\nhost: x\r\ncookie: {}\r\n\r\n", office.cookie).unwrap();
    let mut heard = String::new();
    let mut read_until = |what: &str, heard: &mut String| {
        let (mut piece, began) = ([0u8; 4096], Instant::now());
        while !heard.contains(what) {
            assert!(began.elapsed() < Duration::from_secs(60), "{what} never came: {heard}"); // keep-alives go on
            let n = stream.read(&mut piece).unwrap();
            assert!(n > 0, "the stream ended: {heard}");
            heard.push_str(&String::from_utf8_lossy(&piece[..n]));
        }
    };
    read_until("event: hello\ndata: -", &mut heard);
    scene.phone.yes(&["add", "4417", "remark", "something new"]);
    scene.phone.yes(&["sync"]);
    read_until("event: new\ndata: -", &mut heard);
    assert!(!heard.contains("something new"), "a hint says nothing of the record");
}

#[test]
fn an_inquiry_forgives_how_it_is_typed_and_offers_near_misses() {
    let scene = Scene::set();
    let office = Session::office(&scene.server);
    office.until("/office/", |page| page.contains("ZZQX 4417"));
    let ask = |question: &str| office.page(&format!("/office/inquiry?q={}", quoted(question)));
    for question in [
        "ZZQX 4417",
        "zzqx-4417",
        " z z q x 0 0 4 4 1 7",
        "4417",
        "zzqx",
        "P881402",
        "p 88-14 02",
        "p8814",
        "invented",
        "at invented spur",
    ] {
        let page = ask(question);
        assert!(page.contains(&scene.visit), "{question}: {page}");
        assert!(!page.contains("One character different"), "{question}");
    }
    for question in ["ZZQX 4471", "ZZQX 4418", "ZQZX 4417", "P881403", "P81402"] {
        let page = ask(question);
        assert!(
            page.contains("One character different") && page.contains(&scene.visit),
            "{question}: {page}"
        );
    }
    for question in ["ZZQX 9999", "K1234567", "2001-01-01", "elsewhere"] {
        assert!(!ask(question).contains(&scene.visit), "{question}");
    }
    let today = UtcMillis(
        i64::try_from(
            std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).unwrap().as_millis(),
        )
        .unwrap(),
    );
    let day = &today.shown_in("Etc/GMT+6".parse().unwrap())[..10];
    assert!(ask(day).contains(&scene.visit), "{day}");
    assert!(ask(&format!("4417 {day}")).contains(&scene.visit));
    assert!(!ask("4417 2001-01-01").contains(&scene.visit));
}

#[test]
fn a_disagreement_is_settled_at_the_office_and_the_phones_learn_of_it() {
    let scene = Scene::set();
    let second = Device::enrolled(&scene.server, &scene.folder.path().join("second"), "op-2");
    second.yes(&["sync"]);
    scene.phone.yes(&["add", "4417", "reading", "pressure", "car", "final", "12 psi", "G-3"]);
    let kept = second.yes(&["add", "4417", "reading", "pressure", "car", "final", "14 psi", "G-4"]);
    let kept = kept["entries"][0].as_str().unwrap().to_owned();
    scene.phone.yes(&["sync"]);
    second.yes(&["sync"]);
    let office = Session::office(&scene.server);
    let page = office.page(&scene.visit_path());
    assert!(page.contains("Two entries differ: final pressure (car)"), "{page}");
    assert!(page.contains("12 psi") && page.contains("14 psi") && page.contains("received "), "{page}");
    let seen = value_of(&page, "seen").unwrap();
    let settle = format!("{}/settle", scene.visit_path());

    // The page they send from lacked one of the two accounts, so it does not match the record.
    let why = "read together once more";
    let stale = office.send(&settle, &[("keeps", kept.as_str()), ("why", why), ("seen", &seen[..64])]);
    assert_eq!(stale.status, 409, "{}", text(&stale));
    assert!(text(&stale).contains("The record has changed since you looked"));
    let no_reason = office.send(&settle, &[("keeps", kept.as_str()), ("why", "  "), ("seen", seen.as_str())]);
    assert_eq!(no_reason.status, 422);
    let done = office.send(&settle, &[("keeps", kept.as_str()), ("why", why), ("seen", seen.as_str())]);
    assert_eq!(done.status, 303, "{}", text(&done));
    let again = office.send(&settle, &[("keeps", kept.as_str()), ("why", why), ("seen", seen.as_str())]);
    assert_eq!(again.status, 409, "it is settled already");

    let page = office.page(&scene.visit_path());
    assert!(!page.contains("Two entries differ") && page.contains("how that was resolved"), "{page}");
    assert!(page.contains("Resolved, keeping ") && page.contains(why) && page.contains("Office desk"));
    for device in [&scene.phone, &second] {
        device.yes(&["sync"]);
        let view = device.view(&scene.visit);
        assert_eq!(view["disagreements"].as_array().unwrap().len(), 0);
        let ended = &view["ended_disagreements"][0]["ended_by"]["said"];
        assert_eq!(ended["name"], "Clerk");
        assert_eq!(ended["device_name"], "Office desk");
        assert_eq!(ended["standing"], "certified");
        assert_eq!(ended["why"], why);
    }
    // The office signer is a device like any other, and its chain is intact.
    let devices = office.page("/office/devices");
    assert!(devices.contains("Office desk") && !devices.contains("have not been received"), "{devices}");
    // The settlement is in the packet, and the packet holds.
    let packet = office.get(&format!("{}/packet", scene.visit_path()));
    let file = scene.folder.path().join("packet.pdf");
    std::fs::write(&file, &packet.body).unwrap();
    let secret = std::fs::read_to_string(scene.data("organisation.key")).unwrap();
    let public = DeviceKey::from_secret(Digest::read(&secret).unwrap().0).public().to_string();
    let verified = farsiding(&["verify", file.to_str().unwrap(), "--key", &public]).output().unwrap();
    assert!(verified.status.success(), "{verified:?}");
    // The overview no longer says that accounts differ.
    office.until("/office/", |page| page.contains("ZZQX 4417") && !page.contains("entries that differ"));

    // The kept account is shown as agreed on, and the settlement can be taken back with a reason.
    let page = office.page(&scene.visit_path());
    assert!(page.contains("kept</") && page.contains("Reopen"), "{page}");
    let settlement = value_of(&page, "settlement").unwrap();
    let reopen = format!("{}/reopen", scene.visit_path());
    let silent = office.send(&reopen, &[("settlement", settlement.as_str()), ("why", " ")]);
    assert_eq!(silent.status, 422);
    let why = "it was the other gauge";
    let done = office.send(&reopen, &[("settlement", settlement.as_str()), ("why", why)]);
    assert_eq!(done.status, 303, "{}", text(&done));
    let again = office.send(&reopen, &[("settlement", settlement.as_str()), ("why", why)]);
    assert_eq!(again.status, 409, "it is open already");
    let page = office.page(&scene.visit_path());
    assert!(page.contains("Two entries differ: final pressure (car)") && page.contains(why), "{page}");
    for device in [&scene.phone, &second] {
        device.yes(&["sync"]);
        let view = device.view(&scene.visit);
        assert_eq!(
            view["disagreements"][0]["claims"].as_array().unwrap().len(),
            2,
            "both accounts stand again"
        );
        assert_eq!(view["disagreements"][0]["reopened"][0]["said"]["why"], why);
    }
    let packet = office.get(&format!("{}/packet", scene.visit_path()));
    assert_eq!(packet.status, 200, "a packet that did not hold would not be handed out");
}

fn now() -> UtcMillis {
    let since = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).unwrap();
    UtcMillis(i64::try_from(since.as_millis()).unwrap())
}

/// Builds the index of a ledger in a file of its own.
fn indexed(scene: &Scene, file: &str, name: &str) -> Index {
    let secret = std::fs::read_to_string(scene.data("organisation.key")).unwrap();
    let key = DeviceKey::from_secret(Digest::read(&secret).unwrap().0).public();
    let index =
        Index::open(&scene.folder.path().join(file), &scene.data("ledger.db").into(), name, key).unwrap();
    assert!(index.behind() > 0, "it does not claim to be up to date before it has looked");
    index.follow(now(), &|| true).unwrap();
    assert_eq!(index.behind(), 0);
    index
}

#[test]
fn the_index_says_what_a_whole_reading_of_the_ledger_says() {
    let scene = Scene::set();
    let second = Device::enrolled(&scene.server, &scene.folder.path().join("second"), "op-2");
    second.yes(&["sync"]);
    let index = indexed(&scene, "followed.db", "1");
    let agree = |index: &Index| {
        let store =
            SqliteStore::open(scene.data("ledger.db").to_str().unwrap(), Durability::WriteAheadLog).unwrap();
        let secret = std::fs::read_to_string(scene.data("organisation.key")).unwrap();
        let key = DeviceKey::from_secret(Digest::read(&secret).unwrap().0).public();
        let gathered = Snapshot::read(&store, Some(&key), now()).unwrap();
        let mut rows: Vec<(Vec<VisitId>, String, Message, bool)> = gathered
            .rows(&Procedures::built_in().unwrap())
            .into_iter()
            .map(|row| (row.visits, row.car, row.kept_by, row.released))
            .collect();
        let lines = index.ask(|asking| asking.here()).unwrap();
        let mut found: Vec<(Vec<VisitId>, String, Message, bool)> =
            lines.into_iter().map(|line| (line.visits, line.car, line.kept_by, line.released)).collect();
        rows.sort();
        found.sort();
        assert_eq!(found, rows);
        assert!(store.tally().unwrap().count > 0);
        found
    };
    agree(&index);
    // Records are joined and separated, a number is duplicated, a car comes twice, and a hold is set. After
    // each sync the index still agrees.
    let twin = second.open("ZZQX 4417");
    second.yes(&["sync"]);
    index.follow(now(), &|| true).unwrap();
    assert_eq!(agree(&index).len(), 2);
    let said = second.yes(&["join", &twin, &scene.visit]);
    let join = said["entries"][0].as_str().unwrap()[..8].to_owned();
    second.yes(&["sync"]);
    index.follow(now(), &|| true).unwrap();
    assert_eq!(agree(&index).len(), 1, "joined: one stay");
    second.yes(&["withdraw", &twin, &join, "--why", "not the same after all"]);
    scene.phone.yes(&["sync"]);
    scene.phone.yes(&["add", &scene.visit, "hold", "frost"]);
    scene.phone.yes(&["sync"]);
    second.yes(&["sync"]);
    index.follow(now(), &|| true).unwrap();
    assert_eq!(agree(&index).len(), 2, "parted: two again");
    // An index that is built from nothing agrees with the one that was updated.
    let anew = indexed(&scene, "anew.db", "1");
    assert_eq!(agree(&anew), agree(&index));
}

#[test]
fn an_index_that_is_missing_or_of_another_time_is_made_again() {
    let mut scene = Scene::set();
    let pages = |scene: &Scene| {
        let office = Session::office(&scene.server);
        office.until("/office/", |page| page.contains("ZZQX 4417"));
        office.until("/office/inquiry?q=P881402", |page| page.contains(&scene.visit));
    };
    pages(&scene);
    let file = scene.data("index.db");
    let spoil = |sql: &str| {
        rusqlite::Connection::open(&file).unwrap().execute_batch(sql).unwrap();
    };
    for harm in 0..4 {
        scene.server.terminate();
        scene.server.wait();
        match harm {
            0 => ["index.db", "index.db-wal", "index.db-shm"]
                .iter()
                .for_each(|name| drop(std::fs::remove_file(scene.data(name)))),
            1 => std::fs::write(&file, b"no database at all, but a text of some length to read").unwrap(),
            2 => spoil(
                "UPDATE meta SET value = 'of a version before' WHERE key = 'version'; DELETE FROM stay; DELETE FROM seal;",
            ),
            _ => spoil(
                "UPDATE meta SET value = 'another ledger' WHERE key = 'ledger'; UPDATE stay SET car = 'QQQX 1', line = replace(line, '4417', '9999');",
            ),
        }
        scene.server.restart();
        pages(&scene);
        assert!(scene.server.log().contains("it is made anew"), "harm {harm}");
    }
}
