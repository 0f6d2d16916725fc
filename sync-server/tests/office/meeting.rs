//! Devices that exchange records through the server or without it.

use super::stage::{Device, Server, farsiding};

#[test]
fn two_devices_at_one_car_disagree_meet_and_settle() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start(&folder.path().join("office"));
    let a = Device::enrolled(&server, &folder.path().join("a"), "op-1");
    let b = Device::enrolled(&server, &folder.path().join("b"), "op-2");
    let visit = a.open("ZZQX 4417");
    a.yes(&["sync"]);
    b.yes(&["sync"]);

    a.yes(&["add", "4417", "reading", "pressure", "car", "final", "12 psi", "--instrument", "G-3"]);
    let other = b.yes(&["add", "zzqx4417", "reading", "pressure", "car", "final", "14 psi", "G-3"]);
    let other = other["entries"][0].as_str().unwrap().to_owned();
    a.yes(&["sync"]);
    assert_eq!(b.yes(&["sync"])["received"], 1);
    assert_eq!(b.view(&visit)["disagreements"].as_array().unwrap().len(), 1);

    let why = b.no(3, &["settle", "4417", "--keep", &other[..8], "--why", ""]);
    assert!(why.contains("why"), "{why}");
    b.yes(&["settle", "4417", "--keep", &other[..8], "--why", "read again together: 14"]);
    b.yes(&["sync"]);
    a.yes(&["sync"]);
    let (seen_by_a, seen_by_b) = (a.view(&visit), b.view(&visit));
    assert_eq!(seen_by_a["disagreements"].as_array().unwrap().len(), 0);
    assert_eq!(seen_by_a["history"], seen_by_b["history"]);
    assert_eq!(seen_by_a["readings"], seen_by_b["readings"]);
    assert!(a.words(&["show", &visit]).contains("14 psi"));
    assert_eq!(a.yes(&["receipts", &visit])["unreceipted_entries"], 0);
}

/// Rounds that arrive together are answered together, each with a receipt of its own, which holds even if the
/// server is killed immediately.
#[test]
fn devices_that_meet_at_the_same_time_each_get_their_own_receipt() {
    let folder = tempfile::tempdir().unwrap();
    let mut server = Server::start(&folder.path().join("office"));
    let enrolled = |name: &str| Device::enrolled(&server, &folder.path().join(name), "op-1");
    let devices: Vec<(Device, String)> = (0..6)
        .map(|n| {
            let device = enrolled(&format!("device {n}"));
            let visit = device.open(&format!("ZZQX 44{n}7"));
            (device, visit)
        })
        .collect();
    let late = enrolled("late");
    std::thread::scope(|threads| {
        for (device, visit) in &devices {
            threads.spawn(move || {
                for remark in ["first", "second", "third"] {
                    device.yes(&["add", visit, "remark", remark]);
                    device.yes(&["sync"]);
                    assert_eq!(device.yes(&["receipts", visit])["unreceipted_entries"], 0);
                }
            });
        }
    });
    server.kill();
    server.restart();
    late.yes(&["sync"]);
    for (_, visit) in &devices {
        let view = late.view(visit);
        assert_eq!(view["history"].as_array().unwrap().len(), 4, "{view}");
    }
}

#[test]
fn records_survive_a_server_that_is_cut_off_in_the_middle() {
    let folder = tempfile::tempdir().unwrap();
    let mut server = Server::start(&folder.path().join("office"));
    let a = Device::enrolled(&server, &folder.path().join("a"), "op-1");
    let b = Device::enrolled(&server, &folder.path().join("b"), "op-2");
    a.open("ZZQX 4417");
    a.yes(&["sync"]);
    a.yes(&["add", "4417", "remark", "first"]);
    server.kill();
    a.yes(&["add", "4417", "remark", "while there was no server"]);
    let why = a.no(4, &["sync", "--attempts", "2"]);
    assert!(why.contains("Only here so far: 2 entries"), "{why}");
    server.restart();
    assert_eq!(a.yes(&["sync"])["receipted"], 2);
    b.yes(&["sync"]);
    assert!(b.words(&["show", "4417"]).contains("while there was no server"));
}

#[test]
fn a_server_put_back_from_an_old_copy_gets_everything_again() {
    let folder = tempfile::tempdir().unwrap();
    let data = folder.path().join("office");
    let mut server = Server::start(&data);
    let a = Device::enrolled(&server, &folder.path().join("a"), "op-1");
    let b = Device::enrolled(&server, &folder.path().join("b"), "op-2");
    a.open("ZZQX 4417");
    a.yes(&["sync"]);
    server.terminate();
    server.wait();
    let copy = std::fs::read(data.join("ledger.db")).unwrap();
    server.restart();
    a.yes(&["add", "4417", "remark", "after the copy was made"]);
    a.yes(&["sync"]);
    b.yes(&["sync"]);
    server.terminate();
    server.wait();
    std::fs::write(data.join("ledger.db"), copy).unwrap();
    server.restart();
    b.yes(&["add", "4417", "remark", "after it was put back"]);
    b.yes(&["sync"]);
    a.yes(&["sync"]);
    for device in [&a, &b] {
        let shown = device.words(&["show", "4417"]);
        assert!(
            shown.contains("after the copy was made") && shown.contains("after it was put back"),
            "{shown}"
        );
        assert_eq!(device.yes(&["receipts"])["unreceipted_entries"], 0);
    }
}

#[test]
fn a_carry_file_takes_a_visit_and_its_photograph_to_a_device_that_meets_the_office() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start(&folder.path().join("office"));
    let far = Device::enrolled(&server, &folder.path().join("far"), "op-1");
    let near = Device::enrolled(&server, &folder.path().join("near"), "op-2");
    far.open("ZZQX 4417");
    let (photo, _) = super::stage::picture(folder.path(), "seal.jpg", 50_000, 7);
    far.yes(&["photo", "4417", photo.to_str().unwrap(), "--of", "seal"]);
    let file = folder.path().join("visit.carry");
    let said = far.yes(&["carry-out", file.to_str().unwrap(), "4417"]);
    assert_eq!(said["photos"], 1);
    let why = far.no(3, &["carry-out", file.to_str().unwrap(), "4417"]);
    assert!(why.contains("there already"), "{why}");

    assert_eq!(near.yes(&["carry-in", file.to_str().unwrap()])["photos"], 1);
    assert_eq!(near.yes(&["carry-in", file.to_str().unwrap()])["received"], 0);
    let said = near.yes(&["sync"]);
    assert_eq!((said["unreceipted_entries"].as_u64(), said["unsent_photos"].as_u64()), (Some(0), Some(0)));
    let said = far.yes(&["sync"]);
    assert_eq!(said["photo_bytes_sent"], 0, "the office has the photograph already");
    let why = near.no(3, &["carry-in", photo.to_str().unwrap()]);
    assert!(why.contains("was not taken in"), "{why}");
}

#[test]
fn a_carry_file_named_without_a_folder_is_written_where_one_stands() {
    let folder = tempfile::tempdir().unwrap();
    let phone = Device::new(&folder.path().join("phone"), "op-1");
    phone.open("ZZQX 4417");
    let out = |name: &str| {
        let mut command = farsiding(&["device", "--dir", "phone", "--json", "carry-out", name]);
        command.current_dir(folder.path()).output().unwrap()
    };
    let done = out("bare.carry");
    assert!(done.status.success(), "{done:?}");
    assert!(folder.path().join("bare.carry").is_file());
    assert_eq!(out("bare.carry").status.code(), Some(3), "and is not replaced");
}

#[test]
fn two_records_of_one_stay_are_offered_to_be_joined_and_then_are_one() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start(&folder.path().join("office"));
    let a = Device::enrolled(&server, &folder.path().join("a"), "op-1");
    let b = Device::enrolled(&server, &folder.path().join("b"), "op-2");
    a.yes(&["site", "new", "Invented Spur", "Etc/GMT+6", "1200 ft", "30"]);
    a.yes(&["sync"]);
    b.yes(&["sync"]);
    let (first, second) = (a.open("ZZQX 4417"), b.open("ZZQX 4417"));
    a.yes(&["add", &first, "remark", "from a"]);
    b.yes(&["add", &second, "remark", "from b"]);
    a.yes(&["sync"]);
    b.yes(&["sync"]);
    let why = b.no(3, &["show", "4417"]);
    assert!(why.contains(&first[..8]) && why.contains(&second[..8]), "{why}");
    assert_eq!(b.view(&second)["offers"].as_array().unwrap().len(), 1);
    b.yes(&["join", &second, &first]);
    b.yes(&["sync"]);
    a.yes(&["sync"]);
    let shown = a.words(&["show", "4417"]);
    assert!(shown.contains("from a") && shown.contains("from b"), "{shown}");
}

#[test]
fn the_office_knows_whose_clock_is_wrong_and_what_is_still_out_there() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start(&folder.path().join("office"));
    let mut a = Device::enrolled(&server, &folder.path().join("a"), "op-1");
    a.clock = Some("2031-01-31T08:00:00-06:00".to_owned());
    a.open("ZZQX 4417");
    let said = a.yes(&["sync"]);
    assert_eq!(said["unreceipted_entries"], 0);
    assert!(said["clock_ahead_millis"].as_i64().unwrap() > 365 * 86_400_000, "{said}");
    let (photo, _) = super::stage::picture(folder.path(), "seal.jpg", 5_000, 7);
    a.yes(&["photo", "4417", photo.to_str().unwrap(), "--of", "seal"]);
    a.yes(&["sync", "--no-photos"]);
    let device = server.devices()["devices"][0].clone();
    assert_eq!((device["unsent_entries"].as_u64(), device["unsent_photos"].as_u64()), (Some(0), Some(1)));
    assert!(device["ahead_millis"].as_i64().unwrap() > 365 * 86_400_000);
    // The token request is signed with the office's time, learned in the sync, and not with the wrong clock's
    // time.
    assert_eq!(a.yes(&["sync"])["unsent_photos"], 0);
}
