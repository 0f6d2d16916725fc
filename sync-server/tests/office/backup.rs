//! The emergency drill: the server is lost and restored from last night's backup, and the phones send again
//! what the backup lacks.

use std::path::{Path, PathBuf};

use serde_json::Value;

use age::secrecy::ExposeSecret as _;
use age::x25519::Identity;

use super::pages_stage::{Session, account};
use super::stage::{Device, Server, farsiding, picture};

fn back_up(data: &Path, into: &Path) -> PathBuf {
    let (data, into) = (data.to_str().unwrap(), into.to_str().unwrap());
    let output =
        farsiding(&["backup", "--data", data, "--not-encrypted", "--into", into, "--json"]).output().unwrap();
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

    // A device that has everything and will continue reading from the restored server.
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

    // The first phone knows nothing of the loss; an ordinary sync repairs it.
    phone.yes(&["sync"]);
    let fresh = Device::enrolled(&server, &at("fresh"), "op-3");
    fresh.yes(&["sync", "--fetch-photos"]);
    assert_eq!(fresh.view(&visit)["entries"], whole, "everything is at the office again");
    let photos = std::fs::read_dir(at("fresh").join("photos")).unwrap().count();
    assert_eq!(photos, 2, "the photograph taken after the backup too");
}

/// Returns the name and the path of the only photograph in a backup.
fn only_photo(backup: &Path) -> (String, PathBuf) {
    let folder = std::fs::read_dir(backup.join("photos")).unwrap().next().unwrap().unwrap().path();
    let file = std::fs::read_dir(folder).unwrap().next().unwrap().unwrap().path();
    (file.file_name().unwrap().to_string_lossy().into_owned(), file)
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
    let pause = || std::thread::sleep(std::time::Duration::from_millis(1100)); // backups are named by the second
    let first = back_up(&server.data, &at("backups"));
    pause();
    let (data, into) = (server.data.to_str().unwrap().to_owned(), at("backups"));
    let output = farsiding(&[
        "backup",
        "--data",
        &data,
        "--not-encrypted",
        "--into",
        into.to_str().unwrap(),
        "--json",
    ])
    .output()
    .unwrap();
    let told: Value = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!(told["linked"], 1, "{told}");
    let backup = PathBuf::from(told["backup"].as_str().unwrap());

    let check = |backup: &Path| {
        farsiding(&["restore", "--from", backup.to_str().unwrap(), "--check"]).output().unwrap()
    };
    assert!(check(&backup).status.success());

    // The copy that both backups share is damaged; the next backup copies the intact photograph from the
    // office again.
    let (name, kept) = only_photo(&first);
    let mut rotten = std::fs::read(&kept).unwrap();
    rotten[100] ^= 1;
    std::fs::write(&kept, &rotten).unwrap();
    assert!(!check(&backup).status.success());
    pause();
    let backup = back_up(&server.data, &at("backups"));
    assert_eq!(only_photo(&backup).0, name);
    assert!(check(&backup).status.success(), "{:?}", check(&backup));

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

    // An interrupted backup has no list.
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

/// Writes a secret key into a file, and returns the file and the public key.
fn identity(folder: &Path, name: &str) -> (PathBuf, String) {
    let (key, file) = (Identity::generate(), folder.join(name));
    std::fs::write(&file, format!("# invented\n{}\n", key.to_string().expose_secret())).unwrap();
    (file, key.to_public().to_string())
}

fn run(arguments: &[&str]) -> (Option<i32>, String) {
    let output = farsiding(arguments).output().unwrap();
    let said =
        String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr);
    (output.status.code(), said)
}

/// Returns whether a file contains some bytes.
fn holds(file: &Path, wanted: &[u8]) -> bool {
    std::fs::read(file).unwrap().windows(wanted.len()).any(|window| window == wanted)
}

#[test]
fn an_encrypted_backup_opens_to_its_recipients_alone_and_brings_a_lost_office_back() {
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| folder.path().join(name);
    let (ours, public) = identity(folder.path(), "ours.key");
    let (theirs, _) = identity(folder.path(), "theirs.key");
    let mut server = Server::start(&at("office"));
    let phone = Device::enrolled(&server, &at("phone"), "op-1");
    let visit = phone.open("ZZQX 4711");
    photograph(&phone, &visit, folder.path(), "night.jpg", 1);
    phone.yes(&["sync"]);
    let (data, file) = (server.data.to_str().unwrap().to_owned(), at("office.age"));
    let file_name = file.to_str().unwrap().to_owned();

    // Leaving out an option must never produce an unencrypted backup.
    let (code, words) = run(&["backup", "--data", &data, "--to", &file_name]);
    assert!(code == Some(3) && words.contains("--not-encrypted"), "{words}");
    let (code, words) = run(&["backup", "--data", &data, "--to", &file_name, "--recipient", "age1nobody"]);
    assert!(code == Some(1) && words.contains("no public key for backups"), "{words}");
    assert!(!file.exists());
    let (code, words) = run(&["backup", "--data", &data, "--to", &file_name, "--recipient", &public]);
    assert!(code == Some(0) && words.contains("It is encrypted"), "{words}");
    let key = std::fs::read(at("office").join("organisation.key")).unwrap();
    assert!(!holds(&file, key.trim_ascii()), "the organisation's key lies readable in it");
    assert!(!holds(&file, b"SQLite format 3"), "a database lies readable in it");
    // A backup that is explicitly unencrypted is readable, which shows that the search above would find its
    // text.
    let plain = at("office.tar");
    let (code, words) = run(&["backup", "--data", &data, "--to", plain.to_str().unwrap(), "--not-encrypted"]);
    assert!(code == Some(0) && words.contains("NOT encrypted"), "{words}");
    assert!(holds(&plain, key.trim_ascii()) && holds(&plain, b"SQLite format 3"));
    for (backup, identity) in [(&file, Some(&ours)), (&plain, None)] {
        let mut arguments = vec!["restore", backup.to_str().unwrap(), "--check"];
        arguments.extend(identity.iter().flat_map(|file| ["--identity", file.to_str().unwrap()]));
        assert_eq!(run(&arguments).0, Some(0), "{:?}", run(&arguments));
    }

    phone.yes(&["add", &visit, "remark", "after the backup was made"]);
    photograph(&phone, &visit, folder.path(), "morning.jpg", 2);
    phone.yes(&["sync"]);
    let whole = phone.view(&visit)["entries"].clone();
    server.kill();
    std::fs::remove_dir_all(&server.data).unwrap();

    let restore = |identity: Option<&PathBuf>| {
        let mut arguments = vec!["restore", file.to_str().unwrap(), "--data", data.as_str()];
        arguments.extend(identity.iter().flat_map(|file| ["--identity", file.to_str().unwrap()]));
        run(&arguments)
    };
    let (code, words) = restore(None);
    assert!(code == Some(1) && words.contains("--identity"), "{words}");
    let (code, words) = restore(Some(&theirs));
    assert!(code == Some(1) && words.contains("does not open"), "{words}");
    // If the backup is truncated or one bit is changed, nothing is restored and nothing is left behind.
    let sound = std::fs::read(&file).unwrap();
    let mut bent = sound.clone();
    let middle = bent.len() / 2;
    bent[middle] ^= 1;
    for spoiled in [&sound[..sound.len() - 100], &bent] {
        std::fs::write(&file, spoiled).unwrap();
        let (code, words) = restore(Some(&ours));
        assert!(code == Some(1) && words.contains("damaged"), "{words}");
        assert!(!server.data.exists() && !at(".office.unfinished").exists());
    }
    std::fs::write(&file, &sound).unwrap();
    let (code, words) = restore(Some(&ours));
    assert_eq!(code, Some(0), "{words}");
    server.restart();
    assert!(server.log().contains("restored from a backup"), "{}", server.log());
    phone.yes(&["sync"]);
    let fresh = Device::enrolled(&server, &at("fresh"), "op-3");
    fresh.yes(&["sync", "--fetch-photos"]);
    assert_eq!(fresh.view(&visit)["entries"], whole, "everything is at the office again");
    assert_eq!(std::fs::read_dir(at("fresh").join("photos")).unwrap().count(), 2);
}

#[test]
fn a_server_backs_itself_up_keeps_a_few_and_says_when_it_cannot() {
    backs_itself_up(&[]);
}

#[test]
fn a_server_whose_ledger_is_in_a_database_backs_it_up_as_a_file() {
    let address = farsiding_testkit::postgres::Postgres::shared().database("planned");
    backs_itself_up(&["--database", &address]);
}

fn backs_itself_up(more: &[&str]) {
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| folder.path().join(name);
    let (ours, public) = identity(folder.path(), "ours.key");
    let backups = at("backups");
    let planned = ["--backup-to", backups.to_str().unwrap(), "--backup-every", "1s", "--backup-keep", "2"];
    let planned = [&planned[..], &["--backup-recipient", &public], more].concat();
    let server = Server::start_with(&at("office"), "127.0.0.1:0", &planned);
    let made = || -> Vec<PathBuf> {
        let listed = std::fs::read_dir(&backups).into_iter().flatten().map(|entry| entry.unwrap().path());
        let mut made: Vec<PathBuf> =
            listed.filter(|path| path.extension().is_some_and(|e| e == "age")).collect();
        made.sort();
        made
    };
    let until = |what: &str, seen: &dyn Fn() -> bool| {
        let began = std::time::Instant::now();
        while !seen() {
            assert!(began.elapsed().as_secs() < 60, "{what}: {}", server.log());
            std::thread::sleep(std::time::Duration::from_millis(200));
        }
    };
    until("a first", &|| !made().is_empty());
    let first = made().remove(0);
    until("the first is removed", &|| !first.exists());
    assert!(made().len() <= 3, "{:?}", made());
    let newest = made().pop().unwrap();
    let check = ["restore", newest.to_str().unwrap(), "--check", "--identity", ours.to_str().unwrap()];
    assert_eq!(run(&check).0, Some(0), "{:?}", run(&check));
    let back = at("back");
    let restore = ["restore", newest.to_str().unwrap(), "--data", back.to_str().unwrap(), "--identity"];
    let restored = run(&[&restore[..], &[ours.to_str().unwrap()]].concat());
    assert!(restored.0 == Some(0) && back.join("ledger.db").exists(), "{restored:?}");
    assert!(!back.join("ledger.database").exists());
    account(&server, "Clerk");
    let office = Session::office(&server);
    until("it is said", &|| office.page("/office/state").contains("Last good backup: "));
    // The folder for backups is replaced by a file.
    std::fs::remove_dir_all(&backups).unwrap();
    std::fs::write(&backups, b"in the way").unwrap();
    until("it is not well", &|| office.page("/office/state").contains("The last attempt failed"));
    assert!(!server.is_well());
}
