//! The data folder: private to its owner whatever the umask is, used by one server at a time, with faults
//! reported.
#![cfg(unix)]

use std::os::unix::fs::PermissionsExt as _;
use std::path::Path;
use std::process::Command;
use std::time::{Duration, Instant};

use super::pages_stage::{Scene, Session, account_as};
use super::stage::{Answer, Device, Server, farsiding, picture};

fn open_to_others(folder: &Path) -> Vec<String> {
    let (mut waiting, mut open) = (vec![folder.to_owned()], Vec::new());
    while let Some(path) = waiting.pop() {
        for entry in std::fs::read_dir(&path).unwrap() {
            let entry = entry.unwrap();
            let Ok(found) = std::fs::symlink_metadata(entry.path()) else { continue };
            if found.permissions().mode() & 0o077 != 0 {
                open.push(format!("{} {:o}", entry.path().display(), found.permissions().mode() & 0o777));
            }
            if found.is_dir() {
                waiting.push(entry.path());
            }
        }
    }
    open
}

/// Returns the program with a permissive umask, in a folder that is open to everybody.
fn with_wide_umask(arguments: &[&str]) -> Command {
    let mut shell = Command::new("sh");
    shell
        .args(["-c", "umask 000; exec \"$0\" \"$@\"", super::stage::program().to_str().unwrap()])
        .args(arguments);
    shell.env_remove("FARSIDING_CLOCK").env_remove("FARSIDING_DIR");
    shell
}

#[test]
fn every_file_of_an_office_and_of_a_device_is_its_owners_alone() {
    let scene = Scene::set(); // made with the usual umask: a phone, a photograph, a seal
    let folder = scene.folder.path();
    for path in [&scene.server.data, &scene.phone.dir] {
        assert_eq!(open_to_others(path), Vec::<String>::new());
    }
    // These commands run with a permissive umask beside the server.
    let data = scene.server.data.to_str().unwrap();
    std::fs::set_permissions(&scene.server.data, std::fs::Permissions::from_mode(0o777)).unwrap();
    let dir = folder.join("wide");
    std::fs::create_dir(&dir).unwrap();
    std::fs::set_permissions(&dir, std::fs::Permissions::from_mode(0o777)).unwrap();
    let (file, _) = picture(folder, "wide.jpg", 9000, 3);
    let (dir, file, into) = (dir.to_str().unwrap(), file.to_str().unwrap(), folder.join("backups"));
    let enrol = scene.server.code("wide", &["--role", "office"]).1;
    for arguments in [
        vec!["device", "--dir", dir, "init", "--operator", "op-3"],
        vec!["device", "--dir", dir, "enrol", &enrol],
        vec!["device", "--dir", dir, "site", "new", "Invented Spur", "Etc/GMT+6", "1200 ft", "30"],
        vec!["device", "--dir", dir, "open", "--car", "WDXX 7", "--site", "invented spur", "--spot", "1"],
        vec!["device", "--dir", dir, "photo", "7", file, "--of", "seal"],
        vec!["device", "--dir", dir, "sync"],
        vec!["backup", "--data", data, "--not-encrypted", "--into", into.to_str().unwrap()],
    ] {
        let output = with_wide_umask(&arguments).output().unwrap();
        assert!(output.status.success(), "{arguments:?}: {output:?}");
        for path in [&scene.server.data, Path::new(dir)] {
            assert_eq!(open_to_others(path), Vec::<String>::new(), "after {arguments:?}");
        }
    }
    assert_eq!(open_to_others(&into), Vec::<String>::new());
}

#[test]
fn a_server_with_a_wide_umask_keeps_its_files_to_itself_and_takes_old_ones_back() {
    let folder = tempfile::tempdir().unwrap();
    let data = folder.path().join("office");
    drop(Scene::on(tempfile::tempdir().unwrap(), Server::start(&data)));
    // The files are set to the permissions of an earlier version.
    let (mut waiting, mut widened) = (vec![data.clone()], 0);
    while let Some(path) = waiting.pop() {
        let is_folder = path.is_dir();
        let mode = if is_folder { 0o777 } else { 0o666 };
        std::fs::set_permissions(&path, std::fs::Permissions::from_mode(mode)).unwrap();
        widened += 1;
        if is_folder {
            waiting.extend(std::fs::read_dir(&path).unwrap().map(|entry| entry.unwrap().path()));
        }
    }
    assert!(widened > 6, "keys, databases, a photograph");
    let mut child = with_wide_umask(&["serve", "--data", data.to_str().unwrap(), "--listen", "127.0.0.1:0"])
        .stdout(std::process::Stdio::piped())
        .stderr(std::process::Stdio::null())
        .spawn()
        .unwrap();
    let mut line = String::new();
    std::io::BufRead::read_line(&mut std::io::BufReader::new(child.stdout.take().unwrap()), &mut line)
        .unwrap();
    let open = open_to_others(&data);
    let wal = std::fs::metadata(data.join("server.db-wal")).map(|found| found.permissions().mode() & 0o777);
    child.kill().unwrap();
    child.wait().unwrap();
    assert_eq!(open, Vec::<String>::new());
    assert_eq!(wal.unwrap(), 0o600);
}

#[test]
fn one_server_runs_on_a_folder_and_commands_run_beside_it() {
    let scene = Scene::set();
    let data = scene.server.data.to_str().unwrap().to_owned();
    let second = farsiding(&["serve", "--data", &data, "--listen", "127.0.0.1:0"]).output().unwrap();
    assert_eq!(second.status.code(), Some(1));
    let words = String::from_utf8_lossy(&second.stderr).into_owned();
    assert!(words.contains("another farsiding server (process"), "{words}");
    assert!(words.contains("stop that one first"), "{words}");
    assert!(scene.server.is_well());
    let into = scene.folder.path().join("out");
    std::fs::create_dir(&into).unwrap();
    let into = into.to_str().unwrap();
    for arguments in [
        vec!["enrol", "--data", &data, "--name", "another"],
        vec!["devices", "--data", &data],
        vec!["quarantine", "--data", &data],
        vec!["account", "list", "--data", &data],
        vec!["audit", "check", "--data", &data],
        vec!["checkpoint", "--data", &data],
        vec!["backup", "--data", &data, "--not-encrypted", "--into", into],
        vec!["revoke", "--data", &data, "--device", "phone"],
    ] {
        let output = farsiding(&arguments).output().unwrap();
        assert!(output.status.success(), "{arguments:?}: {output:?}");
    }
    // A killed server leaves no lock behind.
    let Scene { mut server, folder: _folder, .. } = scene;
    server.kill();
    server.restart();
    assert!(server.is_well());
}

fn health(server: &Server, cookie: Option<&str>) -> (u16, serde_json::Value) {
    let headers: Vec<(&str, &str)> = cookie.map(|cookie| ("cookie", cookie)).into_iter().collect();
    let answer: Answer = server.ask("GET", "/healthz", &headers, b"");
    (answer.status, serde_json::from_slice(&answer.body).unwrap())
}

/// Waits until the health check reports the given state, because results are reused for a few seconds.
fn until_health(server: &Server, well: bool) {
    let began = Instant::now();
    while server.is_well() != well {
        assert!(began.elapsed() < Duration::from_secs(30), "health never became {well}");
        std::thread::sleep(Duration::from_millis(200));
    }
}

/// A change made to a folder.
type Act<'f> = Box<dyn Fn() + 'f>;

#[test]
fn what_is_wrong_with_the_folder_is_told_to_the_administrator_and_to_nobody_else() {
    let scene = Scene::set();
    let server = &scene.server;
    account_as(server, "Reader", "reader");
    let (office, reader) = (Session::office(server), Session::of(server, "Reader"));
    let probe = scene.data("writable.probe");
    let (key, safe) = (scene.data("organisation.key"), scene.folder.path().join("safe.key"));
    std::fs::copy(&key, &safe).unwrap();
    let put = |text: &str| std::fs::write(&key, text).unwrap();
    let back = || assert!(std::fs::copy(&safe, &key).unwrap() > 0);
    let cases: [(&str, &str, Act<'_>, Act<'_>); 4] = [
        // The name leads to a device that accepts no byte, like a full disk.
        (
            "folder",
            if cfg!(target_os = "linux") { "disk is full" } else { "cannot be written to" },
            Box::new(|| std::os::unix::fs::symlink("/dev/full", &probe).unwrap()),
            Box::new(|| std::fs::remove_file(&probe).unwrap()),
        ),
        // Even root cannot write here, because a folder has the file's name.
        (
            "folder",
            "cannot be written to",
            Box::new(|| std::fs::create_dir(&probe).unwrap()),
            Box::new(|| std::fs::remove_dir(&probe).unwrap()),
        ),
        (
            "organisation_key",
            "it holds 10 characters where a key has 64",
            Box::new(|| put("0123456789\n")),
            Box::new(&back),
        ),
        (
            "organisation_key",
            "not the key that this server started with",
            Box::new(|| put(&"ab".repeat(32))),
            Box::new(&back),
        ),
    ];
    for (name, words, spoil, mend) in &cases {
        until_health(server, true);
        spoil();
        until_health(server, false);
        // Strangers, and accounts without the right to administer, learn only this.
        for cookie in [None, Some(reader.cookie.as_str()), Some("farsiding=made-up")] {
            assert_eq!(health(server, cookie), (503, serde_json::json!({ "ok": false })), "{words}");
        }
        let (status, told) = health(server, Some(&office.cookie));
        assert_eq!(status, 503);
        let found = told["findings"].as_array().unwrap().iter().find(|found| found["name"] == *name).unwrap();
        assert_eq!(found["ok"], false);
        assert!(found["message"].as_str().unwrap().contains(words), "{found}");
        let page = office.page("/office/state");
        assert!(page.contains(words) && page.contains("not OK"), "{page}");
        mend();
    }
    until_health(server, true);
    assert_eq!(health(server, None), (200, serde_json::json!({ "ok": true })));

    // A database that is damaged in the middle is noticed by the full check.
    let index = rusqlite::Connection::open(scene.data("index.db")).unwrap();
    index.query_row("PRAGMA wal_checkpoint(TRUNCATE)", [], |_| Ok(())).unwrap(); // so that the file itself is read
    drop(index);
    let mut damaged = std::fs::read(scene.data("index.db")).unwrap();
    let at = damaged.len() / 2 / 4096 * 4096;
    damaged[at..].fill(0xa5);
    std::fs::write(scene.data("index.db"), &damaged).unwrap();
    assert_eq!(office.send("/office/state/check", &[]).status, 303);
    let page = office.page("/office/state");
    assert!(page.contains("Index of stays (index.db)") && page.contains("delete index.db"), "{page}");
    assert_eq!(health(server, None).1, serde_json::json!({ "ok": false }));
}

#[test]
fn a_key_of_the_wrong_length_stops_the_start_with_a_sentence() {
    let folder = tempfile::tempdir().unwrap();
    let data = folder.path().join("office");
    drop(Server::start(&data));
    std::fs::write(data.join("organisation.key"), "abcdef\n").unwrap();
    let output =
        farsiding(&["serve", "--data", data.to_str().unwrap(), "--listen", "127.0.0.1:0"]).output().unwrap();
    let words = String::from_utf8_lossy(&output.stderr).into_owned();
    assert_eq!(output.status.code(), Some(1), "{words}");
    assert!(
        words.contains("it holds 6 characters where a key has 64; put it back from its safe copy"),
        "{words}"
    );
    let device = Device::new(&folder.path().join("phone"), "op-1");
    std::fs::write(device.dir.join("device.key"), "abcdef\n").unwrap();
    assert!(device.no(1, &["list"]).contains("it holds 6 characters"));
}
