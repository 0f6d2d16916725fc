//! The drill: the server is lost, restored from last night, and the phones bring back what it missed.

use std::path::{Path, PathBuf};

use serde_json::Value;

use super::stage::{Device, Server, farsiding, picture};

fn back_up(data: &Path, into: &Path) -> PathBuf {
    let (data, into) = (data.to_str().unwrap(), into.to_str().unwrap());
    let output = farsiding(&["backup", "--data", data, "--into", into, "--json"]).output().unwrap();
    assert!(output.status.success(), "{output:?}");
    let told: Value = serde_json::from_slice(&output.stdout).unwrap();
    PathBuf::from(told["backup"].as_str().unwrap())
}

fn restore(from: &Path, data: &Path) -> (bool, String) {
    let (from, data) = (from.to_str().unwrap(), data.to_str().unwrap());
    let output = farsiding(&["restore", "--from", from, "--data", data]).output().unwrap();
    (output.status.success(), String::from_utf8_lossy(&output.stderr).into_owned())
}

fn photograph(phone: &Device, visit: &str, folder: &Path, name: &str, seed: u64) {
    let (file, _) = picture(folder, name, 40_000, seed);
    phone.yes(&["photo", visit, file.to_str().unwrap()]);
}

#[test]
fn a_lost_server_is_restored_from_last_night_and_the_phones_bring_back_what_it_missed() {
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| folder.path().join(name);
    let mut server = Server::start(&at("office"));
    let phone = Device::enrolled(&server, &at("phone"), "op-1");
    let visit = phone.open("ZZQX 4711");
    photograph(&phone, &visit, folder.path(), "night.jpg", 1);
    phone.yes(&["sync"]);
    let backup = back_up(&server.data, &at("backups"));

    // A device that has everything and will read on from the restored server.
    let second = Device::enrolled(&server, &at("second"), "op-2");
    phone.yes(&["add", &visit, "remark", "after the backup was made"]);
    photograph(&phone, &visit, folder.path(), "morning.jpg", 2);
    phone.yes(&["sync"]);
    second.yes(&["sync"]);
    let whole = phone.view(&visit)["entries"].clone();

    server.kill();
    std::fs::remove_dir_all(&server.data).unwrap();
    let (done, words) = restore(&backup, &server.data);
    assert!(done, "{words}");
    server.restart();
    assert!(server.log().contains("restored from a backup"), "{}", server.log());

    // The first phone knows nothing of the loss; an ordinary round mends it.
    phone.yes(&["sync"]);
    let fresh = Device::enrolled(&server, &at("fresh"), "op-3");
    fresh.yes(&["sync", "--fetch-photos"]);
    assert_eq!(fresh.view(&visit)["entries"], whole, "everything is at the office again");
    let photos = std::fs::read_dir(at("fresh").join("photos")).unwrap().count();
    assert_eq!(photos, 2, "the photograph taken after the backup too");
}

#[test]
fn photographs_are_linked_to_the_backup_before_and_a_damaged_backup_is_refused_by_name() {
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| folder.path().join(name);
    let server = Server::start(&at("office"));
    let phone = Device::enrolled(&server, &at("phone"), "op-1");
    let visit = phone.open("ZZQX 4711");
    photograph(&phone, &visit, folder.path(), "one.jpg", 3);
    phone.yes(&["sync"]);
    back_up(&server.data, &at("backups"));
    std::thread::sleep(std::time::Duration::from_millis(1100)); // backups are named by the second
    let (data, into) = (server.data.to_str().unwrap().to_owned(), at("backups"));
    let output =
        farsiding(&["backup", "--data", &data, "--into", into.to_str().unwrap(), "--json"]).output().unwrap();
    let told: Value = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!(told["linked"], 1, "{told}");
    let backup = PathBuf::from(told["backup"].as_str().unwrap());

    let check = |backup: &Path| {
        farsiding(&["restore", "--from", backup.to_str().unwrap(), "--check"]).output().unwrap()
    };
    assert!(check(&backup).status.success());
    let (refused, words) = restore(&backup, &server.data);
    assert!(!refused && words.contains("not empty"), "{words}");

    // One byte of the ledger changes.
    let ledger = backup.join("ledger.db");
    let mut bytes = std::fs::read(&ledger).unwrap();
    let middle = bytes.len() / 2;
    bytes[middle] ^= 1;
    std::fs::write(&ledger, &bytes).unwrap();
    let (done, words) = restore(&backup, &at("restored"));
    assert!(!done && words.contains("ledger.db") && words.contains("damaged"), "{words}");
    assert!(!at("restored").exists(), "nothing half restored is left");
    assert!(!check(&backup).status.success());

    // A backup that was cut off has no list.
    std::fs::remove_file(backup.join("backup.json")).unwrap();
    let (done, words) = restore(&backup, &at("restored"));
    assert!(!done && words.contains("cut off"), "{words}");

    // A list that names a file outside is not followed.
    let list = r#"{"format":1,"made_at":"","files":{"../evil":{"length":0,"sha256":
        "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"}}}"#;
    std::fs::write(backup.join("backup.json"), list).unwrap();
    let (done, words) = restore(&backup, &at("restored"));
    assert!(!done && words.contains("not a name within it"), "{words}");
}
