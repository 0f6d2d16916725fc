//! Whoever has a car says every so often that all is well; the start page shows who did not, and that silence may be lack of
//! signal alone.

use farsiding_core::clock::UtcMillis;
use farsiding_core::procedure::{BUILT_IN, EditedText};

use super::pages_stage::{Scene, Session};
use super::stage::{Device, farsiding};

const MINUTE: i64 = 60_000;

fn minutes_ago(minutes: i64) -> Option<String> {
    let now = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).unwrap();
    let now = i64::try_from(now.as_millis()).unwrap();
    Some(UtcMillis(now - minutes * MINUTE).rfc3339())
}

/// An office whose procedure asks every half hour, and a phone that has it.
fn asking() -> (Scene, Device) {
    let scene = Scene::set();
    let mut edited = EditedText::start(BUILT_IN[BUILT_IN.len() - 1]).unwrap();
    edited.name_edition("Siding 1");
    let file = scene.folder.path().join("own.toml");
    let text = edited.text();
    let at = text.find("\n[[").unwrap();
    let (head, rest) = text.split_at(at);
    std::fs::write(&file, format!("{head}\n[thresholds]\ncheck_in_minutes = 30\n{rest}")).unwrap();
    let data = scene.server.data.to_str().unwrap();
    let publish =
        ["procedure", "publish", file.to_str().unwrap(), "--note", "asks", "--data", data, "--json"];
    let output = farsiding(&publish).output().unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stdout));
    let phone = Device::of_operator(&scene.server, &scene.folder.path().join("operator"), "op-2");
    phone.yes(&["sync"]);
    (scene, phone)
}

#[test]
fn the_start_page_shows_who_is_overdue_since_when_until_they_say_that_all_is_well() {
    let (scene, mut phone) = asking();
    phone.clock = minutes_ago(95);
    phone.open("QXZZ 20");
    phone.yes(&["add", "QXZZ20", "attendance", "here"]);
    phone.clock = None;
    phone.yes(&["sync"]);
    let office = Session::office(&scene.server);
    let page = office.until("/office/", |page| page.contains("1 person is overdue"));
    assert!(page.contains("QXZZ 20") && page.contains("asked every 30 minutes"), "{page}");
    assert!(page.contains("Silence may be lack of signal alone"), "{page}");
    // The other car is under the built-in procedure, which asks nobody.
    let section = &page[page.find("id=\"overdue\"").unwrap()..];
    let section = &section[..section.find("</section>").unwrap()];
    assert!(!section.contains("ZZQX 4417"), "{section}");
    phone.yes(&["add", "QXZZ20", "checked_in"]);
    phone.yes(&["sync"]);
    office.until("/office/", |page| !page.contains("is overdue"));
}

/// Nobody is looked for who said that they left.
#[test]
fn whoever_left_is_not_overdue() {
    let (scene, mut phone) = asking();
    let office = Session::office(&scene.server);
    phone.clock = minutes_ago(95);
    let left = phone.open("QXZZ 21");
    phone.yes(&["add", "QXZZ21", "attendance", "here"]);

    phone.yes(&["add", "QXZZ21", "attendance", "away"]);
    assert_eq!(phone.view(&left)["check_in"], serde_json::Value::Null, "{}", phone.view(&left)["history"]);
    phone.clock = minutes_ago(95);
    phone.open("QXZZ 22");
    phone.yes(&["add", "QXZZ22", "attendance", "here"]);
    phone.clock = None;
    phone.yes(&["sync"]);
    let page = office.until("/office/", |page| page.contains("1 person is overdue"));
    let section = &page[page.find("id=\"overdue\"").unwrap()..];
    let section = &section[..section.find("</section>").unwrap()];
    assert!(section.contains("QXZZ 22") && !section.contains("QXZZ 21"), "{section}");
}
