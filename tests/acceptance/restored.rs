//! Time and copies that are wrong: a phone put back from a backup, a clock a year off.

use std::path::Path;

use crate::stage::{Device, Server, ids};

fn copy(from: &Path, to: &Path) {
    std::fs::create_dir_all(to).unwrap();
    for item in std::fs::read_dir(from).unwrap() {
        let item = item.unwrap();
        let target = to.join(item.file_name());
        if item.file_type().unwrap().is_dir() {
            copy(&item.path(), &target);
        } else {
            std::fs::copy(item.path(), target).unwrap();
        }
    }
}

#[test]
fn a_phone_put_back_from_a_backup_loses_nothing_and_the_doubled_chain_is_seen() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::in_folder(folder.path());
    let phone = Device::enrolled(&server, &folder.path().join("phone-1"), "ash");
    let visit = phone.open("ZZQX 4417");
    let mut all = ids(&phone.yes(&["add", &visit, "remark", "before the backup"]));
    phone.yes(&["sync"]);
    let backup = folder.path().join("backup");
    copy(&phone.dir, &backup);

    all.extend(ids(&phone.yes(&["add", &visit, "remark", "after the backup, at the office"])));
    phone.yes(&["sync"]);
    all.extend(ids(&phone.yes(&["add", &visit, "valve", "liquid_a", "shut"])));

    // The phone falls into the ballast. The backup goes into a new one and work goes on.
    let lost = all.pop().unwrap();
    std::fs::remove_dir_all(&phone.dir).unwrap();
    copy(&backup, &phone.dir);
    all.extend(ids(&phone.yes(&["add", &visit, "remark", "on the new phone, before any signal"])));
    let told = phone.yes(&["sync"]);
    assert_eq!(told["unreceipted_entries"], 0, "{told}");
    all.extend(ids(&phone.yes(&["add", &visit, "remark", "and after"])));
    phone.yes(&["sync"]);

    let office = Device::of_operator(&server, &folder.path().join("office-1"), "elm");
    office.yes(&["sync"]);
    for device in [&phone, &office] {
        let view = device.view("4417");
        let history = view["history"].to_string();
        for id in &all {
            assert!(history.contains(id.as_str()), "{id} is gone");
        }
        assert!(!history.contains(&lost), "what only the drowned phone held cannot be here");
        // Two entries of one device with one number: the record says so instead of hiding it.
        let gaps = view["chain_gaps"].to_string();
        assert!(gaps.contains("phone-1"), "nothing is said of the doubled chain: {gaps}");
    }
}

#[test]
fn a_clock_a_year_behind_is_kept_as_claimed_and_shown_corrected() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::in_folder(folder.path());
    let year = 365 * 24 * 60 * 60 * 1000i64;
    let now = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).unwrap().as_millis();
    let now = farsiding_core::clock::UtcMillis(i64::try_from(now).unwrap());
    let behind = farsiding_core::clock::UtcMillis(now.0 - year).rfc3339();
    let phone = Device::with_clock(&folder.path().join("phone-1"), "ash", Some(behind.clone()));
    phone.enrol(&server, "office");
    let visit = phone.open("ZZQX 4417");
    phone.yes(&["add", &visit, "valve", "liquid_a", "shut"]);
    let picture = folder.path().join("picture.jpg");
    std::fs::write(&picture, [0xff, 0xd8, 0xff, 1, 2, 3]).unwrap();
    phone.yes(&["photo", &visit, picture.to_str().unwrap(), "--of", "car_number"]);
    let told = phone.yes(&["sync"]);
    assert_eq!((told["unreceipted_entries"].as_i64(), told["unsent_photos"].as_i64()), (Some(0), Some(0)));
    let ahead = told["clock_ahead_millis"].as_i64().unwrap();
    assert!((ahead + year).abs() < 60_000, "{ahead}");

    // Another device, whose clock is right, sees both: what was claimed and what it comes to.
    let other = Device::of_operator(&server, &folder.path().join("phone-2"), "birch");
    other.yes(&["sync"]);
    let view = other.view("4417");
    let line = view["history"]
        .as_array()
        .unwrap()
        .iter()
        .find(|l| l["sentence"]["text"] == "Valve (liquid valve A): closed.")
        .unwrap();
    assert!(line["said"]["device_time"].as_str().unwrap().starts_with(&behind[..10]), "{line}");
    assert!(line["said"]["shown"].as_str().unwrap().starts_with(&now.rfc3339()[..4]), "{line}");
    let findings = view["findings"].to_string();
    assert!(findings.contains("clock_off") && findings.contains("365 d"), "{findings}");
}
