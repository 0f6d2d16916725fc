//! Damage is reported by name: every damaged row appears in the check, on the pages, on a device and in the
//! export, and all of it can be read from a write-protected copy.

use std::path::Path;
use std::process::Output;

use rusqlite::Connection;
use serde_json::Value;

use super::pages_stage::{Session, account};
use super::stage::{Device, Server, farsiding, picture};

fn check(data: &Path, more: &[&str]) -> (i32, Value) {
    let output =
        farsiding(&["check", "--data", data.to_str().unwrap(), "--json"]).args(more).output().unwrap();
    let said = serde_json::from_slice(&output.stdout).unwrap_or_else(|_| panic!("{output:?}"));
    (output.status.code().unwrap(), said)
}

fn damage(said: &Value) -> Vec<(String, String)> {
    let of = |damage: &Value| {
        let part = damage["part"].as_str().unwrap().to_owned();
        (part, format!("{}: {}", damage["row"].as_str().unwrap(), damage["why"].as_str().unwrap()))
    };
    said["report"]["damage"].as_array().unwrap().iter().map(of).collect()
}

fn change(data: &Path, database: &str, sql: &str) {
    let connection = Connection::open(data.join(database)).unwrap();
    let changed = connection.execute(sql, []).unwrap();
    assert_eq!(changed, 1, "{sql}");
    connection.query_row("PRAGMA wal_checkpoint(TRUNCATE)", [], |_| Ok(())).unwrap();
}

/// Returns the id of the last entry that arrived.
fn last_entry(data: &Path, before_last: i64) -> String {
    let connection = Connection::open(data.join("ledger.db")).unwrap();
    let sql = "SELECT lower(hex(id)) FROM entry ORDER BY position DESC LIMIT 1 OFFSET ?1";
    connection.query_row(sql, [before_last], |row| row.get(0)).unwrap()
}

fn export(data: &Path, visit: &str, out: &Path) -> Output {
    let (data, out) = (data.to_str().unwrap(), out.to_str().unwrap());
    farsiding(&["export", "packet", "--data", data, "--visit", visit, "--out", out, "--json"])
        .output()
        .unwrap()
}

/// An office with a stay of several entries and a photograph; its server is stopped.
struct Scene {
    folder: tempfile::TempDir,
    phone: Device,
    visit: String,
    server: Server,
}

fn scene() -> Scene {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start(&folder.path().join("office"));
    let phone = Device::enrolled(&server, &folder.path().join("phone"), "op-1");
    let visit = phone.open("ZZQX 4711");
    let (file, _) = picture(folder.path(), "one.jpg", 40_000, 1);
    phone.yes(&["photo", &visit, file.to_str().unwrap()]);
    for remark in ["first", "second", "third"] {
        phone.yes(&["add", &visit, "remark", remark]);
    }
    phone.yes(&["sync"]);
    Scene { folder, phone, visit, server }
}

#[test]
fn every_kind_of_damage_is_named_and_nothing_is_named_where_all_is_whole() {
    let mut scene = scene();
    let data = scene.server.data.clone();
    let (code, said) = check(&data, &[]); // beside the running server
    assert_eq!((code, said["ok"].as_bool()), (0, Some(true)), "{said}");
    assert!(said["report"]["entries"].as_u64().unwrap() > 4 && said["report"]["photographs"] == 1, "{said}");
    scene.server.terminate();
    scene.server.wait();

    let entry = last_entry(&data, 1);
    let whole = std::fs::read(data.join("ledger.db")).unwrap();
    let accounts = std::fs::read(data.join("server.db")).unwrap();
    let last = "(SELECT max(number) FROM log)";
    let cases: [(&str, &str, String, &str); 12] = [
        ("entry", "ledger.db", format!("UPDATE entry SET bytes = x'00' || substr(bytes, 2) WHERE lower(hex(id)) = '{entry}'"), &entry),
        ("entry", "ledger.db", format!("DELETE FROM standing WHERE position = (SELECT position FROM entry WHERE lower(hex(id)) = '{entry}')"), "no document"),
        ("entry", "ledger.db", format!("DELETE FROM log WHERE number = {last}"), "no leaf"),
        ("entry", "ledger.db", "UPDATE value SET value = zeroblob(40) WHERE key = 'store/tally'".to_owned(), "the count"),
        ("change", "ledger.db", "UPDATE change SET bytes = bytes || x'00' WHERE position = (SELECT max(position) FROM change)".to_owned(), "not those that were written"),
        ("receipt", "ledger.db", "UPDATE receipt SET bytes = x'a0' || bytes WHERE number = (SELECT max(number) FROM receipt)".to_owned(), "number"),
        ("certificate", "ledger.db", "UPDATE certificate SET bytes = substr(bytes, 1, length(bytes) - 1) || x'00' WHERE device = (SELECT max(device) FROM certificate)".to_owned(), "of device"),
        ("log", "ledger.db", "UPDATE log_tree SET hash = zeroblob(32) WHERE level = 1 AND place = 0".to_owned(), "stored hash 1/0"),
        ("log", "ledger.db", format!("UPDATE log SET received_at = received_at - 600000 WHERE number = {last}"), "came in at"),
        ("log", "ledger.db", "UPDATE log SET received_at = received_at - 1 WHERE number = 0".to_owned(), "another root"),
        ("photograph", "ledger.db", "UPDATE photo SET length = length + 1".to_owned(), "should have"),
        ("audit", "server.db", "INSERT INTO audit(number, at, who, role, did, subject, hash) VALUES(9, 0, '', '', '', '', x'00')".to_owned(), "row"),
    ];
    for (part, database, sql, words) in &cases {
        change(&data, database, sql);
        let (code, said) = check(&data, &[]);
        assert_eq!(code, 3, "{sql}: {said}");
        let found = damage(&said);
        assert!(found.iter().any(|(kind, row)| kind == part && row.contains(words)), "{sql}: {found:?}");
        std::fs::write(data.join("ledger.db"), &whole).unwrap();
        std::fs::write(data.join("server.db"), &accounts).unwrap();
    }
    let photo = walk(&data.join("photos")).pop().unwrap();
    let mut bytes = std::fs::read(&photo).unwrap();
    bytes[500] ^= 1;
    std::fs::write(&photo, &bytes).unwrap();
    let found = damage(&check(&data, &[]).1);
    assert!(
        matches!(&found[..], [(kind, row)] if kind == "photograph" && row.contains("not those of its name"))
    );
    std::fs::remove_file(&photo).unwrap();
    assert!(damage(&check(&data, &[]).1)[0].1.contains("not there"));
}

fn walk(folder: &Path) -> Vec<std::path::PathBuf> {
    let mut files = Vec::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() { files.extend(walk(&path)) } else { files.push(path) }
    }
    files
}

/// Returns a folder and all folders in it.
fn folders(folder: &Path) -> Vec<std::path::PathBuf> {
    let mut all = vec![folder.to_owned()];
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            all.extend(folders(&path));
        }
    }
    all
}

#[test]
fn a_damaged_entry_is_said_everywhere_accuses_nobody_and_is_mended_from_its_document() {
    let mut scene = scene();
    let data = scene.server.data.clone();
    let entry = last_entry(&data, 1);
    let damage = format!(
        "UPDATE entry SET bytes = substr(bytes, 1, 200) || x'ff' || substr(bytes, 202) WHERE lower(hex(id)) = '{entry}'"
    );
    change(&data, "ledger.db", &damage);
    account(&scene.server, "Clerk");
    let office = Session::office(&scene.server);
    let page = office.page(&format!("/office/visits/{}", scene.visit));
    assert!(page.contains("One entry of this record is damaged and cannot be read here"), "{page}");
    assert!(!page.contains("has not arrived"), "the device is not accused: {page}");

    // The same holds if the index is built again and never saw the entry.
    scene.server.terminate();
    scene.server.wait();
    std::fs::remove_file(data.join("index.db")).unwrap();
    scene.server.restart();
    let office = Session::office(&scene.server);
    let page = office.page(&format!("/office/visits/{}", scene.visit));
    assert!(page.contains("One entry of this record is damaged and cannot be read here"), "{page}");
    assert!(!page.contains("has not arrived"), "{page}");

    let out = scene.folder.path().join("packet.pdf");
    let refused = export(&data, &scene.visit, &out);
    let words = String::from_utf8_lossy(&refused.stdout).into_owned();
    assert!(!refused.status.success() && words.contains(&entry) && words.contains("--mend"), "{words}");
    assert!(!out.exists());

    // The same holds on a device.
    change(&scene.phone.dir, "record.db", &damage);
    let view = scene.phone.view(&scene.visit);
    let findings = view["findings"].to_string();
    assert!(findings.contains("One entry of this record is damaged and cannot be read here"), "{findings}");
    assert!(view["chain_gaps"].as_array().unwrap().is_empty(), "{view}");
    let blockers = view["blockers"].to_string();
    assert!(blockers.contains("unreadable_entries"), "a hold may stand in it: {blockers}");
    let words = scene.phone.words(&["show", &scene.visit]);
    assert!(words.contains("cannot be read here"), "{words}");

    let (code, said) = check(&data, &["--mend"]);
    assert_eq!((code, said["mended"][0].as_str()), (0, Some(entry.as_str())), "{said}");
    let made = export(&data, &scene.visit, &out);
    assert!(made.status.success(), "{made:?}");
    let page = office.page(&format!("/office/visits/{}", scene.visit));
    assert!(!page.contains("cannot be read here"), "{page}");
}

/// Returns a command that runs as the user nobody, who has no access to root's files.
#[cfg(target_os = "linux")]
fn as_nobody(command: &std::process::Command) -> std::process::Command {
    let mut lowered = std::process::Command::new("setpriv");
    lowered.args(["--reuid", "65534", "--regid", "65534", "--clear-groups"]);
    lowered.arg(command.get_program()).args(command.get_args()).env_remove("FARSIDING_CLOCK");
    lowered
}

#[cfg(target_os = "linux")]
#[test]
fn a_write_protected_copy_is_read_and_nothing_is_made_beside_it() {
    use std::os::unix::fs::PermissionsExt as _;
    let mut scene = scene();
    scene.server.terminate();
    scene.server.wait();
    let copy = scene.folder.path().join("copy");
    let status = std::process::Command::new("cp").args(["-r"]).arg(&scene.server.data).arg(&copy).status();
    assert!(status.unwrap().success());
    for left in ["ledger.db-wal", "ledger.db-shm", "server.db-wal", "server.db-shm"] {
        let length = std::fs::metadata(copy.join(left)).map_or(0, |found| found.len());
        assert!(length == 0 || left.ends_with("-shm"), "a server that stopped leaves nothing in {left}");
        let _ = std::fs::remove_file(copy.join(left));
    }
    // The files are made readable and not writable for nobody, also where the tests run as root.
    let open = |path: &Path, mode: u32| {
        std::fs::set_permissions(path, std::fs::Permissions::from_mode(mode)).unwrap()
    };
    let folders = folders(&copy);
    for file in walk(&copy) {
        open(&file, 0o444);
    }
    for folder in &folders {
        open(folder, 0o555);
    }
    open(scene.folder.path(), 0o755);
    let out = scene.folder.path().join("out");
    std::fs::create_dir(&out).unwrap();
    open(&out, 0o777);
    let before = walk(&copy);
    let program = super::stage::program();
    let reachable = program
        .ancestors()
        .skip(1)
        .all(|folder| folder.metadata().is_ok_and(|found| found.permissions().mode() & 0o005 == 0o005));
    let run = |arguments: &[&str]| {
        let command = farsiding(arguments);
        // This is skipped if the build is in a folder that others cannot enter, or if the tests do not run as
        // root.
        let root = std::fs::metadata("/proc/self")
            .is_ok_and(|found| std::os::unix::fs::MetadataExt::uid(&found) == 0);
        if root && reachable {
            as_nobody(&command).output().unwrap()
        } else {
            farsiding(arguments).output().unwrap()
        }
    };
    let data = copy.to_str().unwrap();
    let checked = run(&["check", "--data", data, "--json"]);
    let said: Value = serde_json::from_slice(&checked.stdout).unwrap_or_else(|_| panic!("{checked:?}"));
    assert!(said["ok"] == true && said["report"]["photographs"] == 1, "{said}");
    let packet = out.join("packet.pdf");
    let made = run(&[
        "export",
        "packet",
        "--data",
        data,
        "--visit",
        &scene.visit,
        "--out",
        packet.to_str().unwrap(),
        "--json",
    ]);
    assert!(made.status.success(), "{made:?}");
    let told: Value = serde_json::from_slice(&made.stdout).unwrap();
    let key = told["organisation_key"].as_str().unwrap();
    let verified = run(&["verify", packet.to_str().unwrap(), "--key", key]);
    assert!(verified.status.success(), "{verified:?}");
    let audit = run(&["audit", "check", "--data", data, "--json"]);
    assert!(audit.status.success(), "{audit:?}");
    assert_eq!(walk(&copy), before, "nothing was made");
    for folder in &folders {
        open(folder, 0o755); // so that it can be removed
    }
}
