//! An organisation's own procedure: written on the office's pages, published, received by phones that were offline,
//! followed, taken back, and contained in the packet.

use farsiding_core::book::{Book, BookParts, Draft};
use farsiding_core::clock::{HandSetClock, UtcMillis};
use farsiding_core::entry::site_facts::PublishedProcedure;
use farsiding_core::entry::{DeviceKey, Statement};
use farsiding_core::ids::{Digest, OperatorId, OrganisationId, Subject};
use farsiding_core::procedure::{BUILT_IN, EditedText};
use farsiding_core::store::{Durability, SqliteStore};
use farsiding_packet::take_apart;
use farsiding_testkit::Dice;
use serde_json::Value;

use super::pages_stage::{Scene, Session, account_as, text};
use super::stage::{Answer, Device, farsiding};

const PAGE: &str = "/office/procedures";

fn newest() -> String {
    Digest::of(BUILT_IN[BUILT_IN.len() - 1].as_bytes()).to_string()
}

/// Starts a draft from an edition and returns its address.
fn start(office: &Session<'_>, from: &str) -> String {
    let answer = office.send(&format!("{PAGE}/start"), &[("from", from)]);
    assert_eq!(answer.status, 303, "{}", text(&answer));
    answer.header("location").unwrap()
}

fn done(answer: &Answer) {
    assert_eq!(answer.status, 303, "{}", text(answer));
}

/// Sends a form that must come back with a notice at a field, and with everything as it was filled in.
fn comes_back(answer: &Answer, field: &str, typed: &[&str]) {
    let page = text(answer);
    assert_eq!(answer.status, 422, "{page}");
    assert!(page.contains(&format!("id=\"{field}-wrong\"")), "no notice at {field}: {page}");
    for typed in typed {
        assert!(page.contains(typed), "{typed} is gone: {page}");
    }
}

/// Publishes a draft for all sites and returns the digest of the edition.
fn publish(office: &Session<'_>, draft: &str, note: &str) -> String {
    done(&office.send(&format!("{draft}/publish"), &[("where", "all"), ("note", note)]));
    let page = office.until(PAGE, |page| page.contains(note));
    let at = page.find(note).unwrap();
    let link = &page[page[..at].rfind("/editions/").unwrap() + "/editions/".len()..];
    link[..64].to_owned()
}

/// The procedure of a stay: its digest, and whether its text is here.
fn procedure_of(device: &Device, visit: &str) -> (String, bool) {
    let header = device.view(visit)["header"].clone();
    (header["procedure"].as_str().unwrap().to_owned(), header["procedure_known"].as_bool().unwrap())
}

fn codes(view: &Value, of: &[&str]) -> Vec<String> {
    let items = of.iter().fold(view, |value, key| &value[*key]);
    items.as_array().unwrap().iter().map(|item| item["code"].as_str().unwrap().to_owned()).collect()
}

#[test]
fn a_procedure_written_on_the_pages_reaches_the_phones_and_rules_new_stays() {
    let scene = Scene::set();
    let (server, phone) = (&scene.server, &scene.phone);
    let second = Device::of_operator(server, &scene.folder.path().join("second"), "op-2");
    second.yes(&["sync"]);
    let office = Session::office(server);
    assert!(office.page(PAGE).contains("Procedures"));
    let draft = start(&office, &newest());

    // A step of one's own, which blocks unloading.
    let mut sent = vec![
        ("stage", "gauge"),
        ("kind", "check"),
        ("blocks-unload", "yes"),
        ("title.en-US", "Yard gate locked"),
        ("title.es-MX", "Portón con candado"),
        ("what_to_do.en-US", "Lock the yard gate & hang the sign."),
    ];
    let answer = office.send(&format!("{draft}/add"), &sent);
    comes_back(
        &answer,
        "why",
        &["Yard gate locked", "Portón con candado", "Lock the yard gate &amp; hang the sign."],
    );
    sent.push(("why.en-US", "Nobody walks in while the car is open."));
    done(&office.send(&format!("{draft}/add"), &sent));

    // What law asks for goes only with a reason; the form stays as it was.
    let chocks = format!("{draft}/steps/chocks");
    comes_back(&office.send(&chocks, &[("title.en-US", "Wedges")]), "because", &["value=\"Wedges\""]);
    done(&office.send(&chocks, &[("because", "wheel stops are built into the track")]));
    let weather = format!("{draft}/steps/weather");
    done(
        &office.send(
            &weather,
            &[("on", "yes"), ("title.es-MX", "El viento y el cielo"), ("blocks-unload", "yes")],
        ),
    );

    // Numbers have bounds.
    let wrong = [("edition", "Siding 1"), ("reading_interval_minutes", "2"), ("hold_minutes", "15")];
    comes_back(
        &office.send(&draft, &wrong),
        "reading_interval_minutes",
        &["Siding 1", "value=\"2\"", "value=\"15\""],
    );
    let right = [("edition", "Siding 1"), ("reading_interval_minutes", "30"), ("hold_minutes", "15")];
    done(&office.send(&draft, &right));

    let preview = office.page(&format!("{draft}/preview"));
    let place = |what: &str| preview.find(what).unwrap_or_else(|| panic!("{what} is not in the preview"));
    assert!(place("Yard gate locked") < place("Fit to unload"), "it stands before the signature");
    assert!(!preview.contains("Wheels blocked at both ends"), "what is off is not shown");
    assert!(office.page(&format!("{draft}/preview?language=es-MX")).contains("Portón con candado"));
    let page = office.page(&format!("{draft}/publish"));
    for said in ["Yard gate locked", "wheel stops are built into the track", "173.31(g)(3)", ": 30"] {
        assert!(page.contains(said), "{said}: {page}");
    }
    comes_back(&office.send(&format!("{draft}/publish"), &[("where", "all")]), "note", &[]);
    comes_back(
        &office.send(&format!("{draft}/publish"), &[("where", "some"), ("note", "kept")]),
        "sites",
        &["kept"],
    );
    // Nothing of a draft reaches a phone.
    phone.yes(&["sync"]);
    let before = phone.open("QXZZ 10");
    assert_eq!(procedure_of(phone, &before), (newest(), true));

    let first = publish(&office, &draft, "the gate of the yard");
    assert_eq!(office.get(&draft).status, 404, "a published draft is gone");
    let page = office.page(PAGE);
    assert!(page.contains("by Clerk") && page.contains("Siding 1"), "{page}");

    // Offline, the phones begin as before; after a sync new stays begin under it, and the others keep what they had.
    let offline = second.open("QXZZ 11");
    assert_eq!(procedure_of(&second, &offline), (newest(), true));
    for device in [phone, &second] {
        device.yes(&["sync"]);
    }
    assert_eq!(procedure_of(&second, &offline), (newest(), true));
    assert_eq!(procedure_of(phone, &before), (newest(), true));
    let visit = second.open("ZZQX 500");
    assert_eq!(procedure_of(&second, &visit), (first.clone(), true));
    second.yes(&["sync"]);
    phone.yes(&["sync"]);
    assert_eq!(procedure_of(phone, &visit), (first.clone(), true));

    // It blocks what it says it blocks, and nothing that it left out.
    let view = phone.view(&visit);
    let open = codes(&view, &["unloading", "blockers"]);
    assert!(open.contains(&"step_open.own_1".to_owned()), "{open:?}");
    assert!(!open.iter().any(|code| code.ends_with(".chocks")), "{open:?}");
    let why = second.no(3, &["fit-to-unload", "500"]);
    assert!(why.contains("step_open.own_1"), "{why}");
    second.yes(&["add", "500", "check", "Yard gate locked", "right"]);
    let open = codes(&second.view(&visit), &["unloading", "blockers"]);
    assert!(!open.contains(&"step_open.own_1".to_owned()), "{open:?}");
    let said = view["findings"].to_string();
    assert!(said.contains("wheel stops are built into the track"), "{said}");
    let readings =
        view["steps"]["steps"].as_array().unwrap().iter().find(|step| step["id"] == "transfer_readings");
    assert_eq!(readings.unwrap()["repeat_minutes"], 30);

    // A newer edition changes nothing of the stay under way, and when it is taken back the one before applies again.
    let next = start(&office, &first);
    done(&office.send(&next, &[("edition", "Siding 2"), ("reading_interval_minutes", "20")]));
    let newer = publish(&office, &next, "every twenty minutes");
    for device in [phone, &second] {
        device.yes(&["sync"]);
    }
    assert_eq!(procedure_of(phone, &visit), (first.clone(), true));
    assert_eq!(procedure_of(phone, &phone.open("QXZZ 12")), (newer.clone(), true));
    let edition = format!("{PAGE}/editions/{newer}");
    comes_back(&office.send(&format!("{edition}/withdraw"), &[("because", " ")]), "because", &[]);
    done(&office.send(&format!("{edition}/withdraw"), &[("because", "thirty is enough")]));
    assert_eq!(office.send(&format!("{edition}/withdraw"), &[("because", "again")]).status, 409);
    assert!(office.page(&edition).contains("thirty is enough"));
    phone.yes(&["sync"]);
    assert_eq!(procedure_of(phone, &phone.open("QXZZ 13")).0, first);
    second.yes(&["sync"]);

    // The packet contains the text, and both verifiers read it; the second one is run by `tests/office`.
    office.until(&format!("/office/visits/{visit}"), |page| page.contains("Siding 1"));
    let file = scene.folder.path().join("own.pdf");
    let made = farsiding(&[
        "export",
        "packet",
        "--data",
        server.data.to_str().unwrap(),
        "--visit",
        &visit,
        "--out",
        file.to_str().unwrap(),
        "--json",
    ]);
    let made = { made }.output().unwrap();
    assert!(made.status.success(), "{made:?}");
    let key = server.organisation().to_string();
    let checked = farsiding(&["verify", file.to_str().unwrap(), "--key", &key]).output().unwrap();
    let said = String::from_utf8_lossy(&checked.stdout).into_owned();
    assert!(checked.status.success(), "{said} {checked:?}");
    assert!(said.contains(&first), "the report names the procedure: {said}");
    let bytes = std::fs::read(&file).unwrap();
    let files = take_apart(&bytes).unwrap().files;
    assert_eq!(files.photos["procedure.toml"].sha256.to_string(), first);
    let pages = String::from_utf8_lossy(&files.records["pages.txt"]).replace(char::is_whitespace, "");
    assert!(pages.contains("wheelstopsarebuiltintothetrack"), "the packet says what is left out");
    assert!(pages.contains("Yardgatelocked"));
}

/// The device's book, opened as by a phone.
fn book_of(device: &Device) -> Book {
    let secret = std::fs::read_to_string(device.dir.join("device.key")).unwrap();
    let file = device.dir.join("record.db");
    Book::open(BookParts {
        store: Box::new(SqliteStore::open(file.to_str().unwrap(), Durability::WriteAheadLog).unwrap()),
        key: DeviceKey::from_secret(Digest::read(&secret).unwrap().0),
        clock: Box::new(HandSetClock::at(UtcMillis(1_795_528_800_000), -360)),
        randomness: Box::new(Dice::of(3)),
    })
}

#[test]
fn a_phones_key_publishes_nothing_and_a_clerk_sees_no_form() {
    let scene = Scene::set();
    let mut edited = EditedText::start(BUILT_IN[BUILT_IN.len() - 1]).unwrap();
    edited.name_edition("mine");
    let text = edited.text();
    let says = Statement::ProcedurePublished(PublishedProcedure {
        procedure: Digest::of(text.as_bytes()),
        text,
        sites: Vec::new(),
        from: None,
        note: String::new(),
    });
    let roster = Subject::Roster(OrganisationId::of_key(&scene.server.organisation()));
    let phone = Device::of_operator(&scene.server, &scene.folder.path().join("operator"), "op-1");
    phone.yes(&["sync"]);
    let refused = book_of(&phone).append(roster, vec![Draft::of(says)], &OperatorId("op-1".into()));
    let why = refused.unwrap_err().to_string();
    assert!(why.contains("only a device of the office publishes procedures"), "{why}");
    account_as(&scene.server, "A clerk", "clerk");
    let clerk = Session::of(&scene.server, "A clerk");
    assert!(!clerk.page(PAGE).contains("/office/procedures/start"));
    assert_eq!(clerk.send(&format!("{PAGE}/start"), &[("from", &newest())]).status, 403);
}

#[test]
fn an_edition_in_a_file_is_published_listed_and_taken_back_by_command_and_a_bad_one_is_refused_with_its_line()
{
    let scene = Scene::set();
    let data = scene.server.data.to_str().unwrap();
    let file = scene.folder.path().join("own.toml");
    let run = |arguments: &[&str], text: &str| -> (i32, Value) {
        std::fs::write(&file, text).unwrap();
        let all = [&["procedure"], arguments, &["--data", data, "--json"]].concat();
        let output = farsiding(&all).output().unwrap();
        (output.status.code().unwrap(), super::stage::said_by(&output))
    };
    let mut edited = EditedText::start(BUILT_IN[BUILT_IN.len() - 1]).unwrap();
    edited.name_edition("Siding 1");
    let text = edited.text();
    let path = file.to_str().unwrap();
    let publish = ["publish", path, "--note", "the first of our own"];
    let bad = text.replacen("id = \"weather\"", "id = \"whether\"\ntytle = \"x\"", 1);
    let line = bad.lines().position(|line| line.starts_with("tytle")).unwrap() + 1;
    let (code, said) = run(&publish, &bad);
    assert_eq!(code, 3, "{said}");
    assert!(said["message"].as_str().unwrap().starts_with(&format!("Line {line}:")), "{said}");
    let lawless = text.replacen("id = \"hand_brake\"", "id = \"brake_by_hand\"", 1);
    assert_eq!(run(&publish, &lawless).0, 3, "what law asks for does not vanish");
    let (code, said) = run(&publish, &text);
    assert_eq!(code, 0, "{said}");
    let digest = said["procedure"].as_str().unwrap().to_owned();
    scene.phone.yes(&["sync"]);
    let visit = scene.phone.open("QXZZ 20");
    assert_eq!(procedure_of(&scene.phone, &visit), (digest.clone(), true));
    let (_, said) = run(&["list"], &text);
    assert_eq!(said["editions"][0]["edition"], "Siding 1");
    assert_eq!(run(&["withdraw", &digest, "--why", " "], &text).0, 3);
    assert_eq!(run(&["withdraw", &digest, "--why", "a slip"], &text).0, 0);
    let (_, said) = run(&["list"], &text);
    assert_eq!(said["editions"][0]["taken_back"], "a slip");
    scene.phone.yes(&["sync"]);
    assert_eq!(procedure_of(&scene.phone, &scene.phone.open("QXZZ 21")).0, newest());
    let office = Session::office(&scene.server);
    office.until(PAGE, |page| page.contains("the first of our own") && page.contains("a slip"));
}
