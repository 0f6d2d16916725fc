//! Drills with the organisation's keys, with a real server and real devices: the root key taken off the
//! server, the yearly renewal, a stolen key, a lost key, and another root key.

use std::path::{Path, PathBuf};

use serde_json::Value;

use super::stage::{Device, Server, farsiding};
use super::written_before;

/// Runs a command with JSON output and returns its exit code and its answer.
fn run(arguments: &[&str], clock: Option<&str>) -> (i32, Value) {
    let output = farsiding(arguments)
        .arg("--json")
        .envs(clock.map(|clock| ("FARSIDING_CLOCK", clock)))
        .output()
        .unwrap();
    let said = serde_json::from_slice(&output.stdout).unwrap_or_else(|_| panic!("{arguments:?}: {output:?}"));
    (output.status.code().unwrap(), said)
}

fn yes(arguments: &[&str]) -> Value {
    let (code, said) = run(arguments, None);
    assert_eq!(code, 0, "{arguments:?}: {said}");
    said
}

/// An office whose root key was taken off the server, and two phones that were enrolled before and after
/// that.
struct Scene {
    folder: tempfile::TempDir,
    server: Server,
    before: Device,
    after: Device,
}

impl Scene {
    fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    fn text(&self, name: &str) -> String {
        self.path(name).to_str().unwrap().to_owned()
    }

    fn data(&self) -> String {
        self.server.data.to_str().unwrap().to_owned()
    }

    /// Stops the server, changes the keys and starts the server again.
    fn key(&mut self, what: &str, more: &[&str]) -> Value {
        self.server.kill();
        let data = self.data();
        let said = yes(&[&["key", what, "--data", &data], more].concat());
        self.server.restart();
        said
    }

    fn shown(&self) -> Value {
        yes(&["key", "show", "--data", &self.data()])
    }

    fn set() -> Scene {
        let folder = tempfile::tempdir().unwrap();
        let data = folder.path().join("office");
        let server = Server::start(&data);
        let before = Device::enrolled(&server, &folder.path().join("before"), "op-1");
        before.open("ZZQX 4417");
        before.yes(&["sync"]);
        let after = Device { dir: folder.path().join("after"), clock: None };
        let mut scene = Scene { folder, server, before, after };
        let root = scene.text("root.key");
        scene.key("offline", &["--out", &root]);
        scene.after = Device::enrolled(&scene.server, &scene.path("after"), "op-2");
        scene
    }

    /// Lets both phones record and sync, and checks that each has what the other recorded.
    fn goes_on(&self, word: &str) {
        for device in [&self.before, &self.after] {
            device.yes(&["sync"]);
        }
        for (device, who) in [(&self.before, "before"), (&self.after, "after")] {
            device.yes(&["add", "4417", "remark", &format!("{word} by {who}")]);
            device.yes(&["sync"]);
        }
        let said = self.before.yes(&["sync"]);
        for device in [&self.before, &self.after] {
            let view = device.view("4417");
            for who in ["before", "after"] {
                let words = format!("{word} by {who}");
                let line = line_of(&view, &words).unwrap_or_else(|| panic!("no {words}: {view}"));
                assert_eq!(line["fate"], "live", "its certificate is believed: {line}");
            }
        }
        assert_eq!(said["log"]["contradictions"].as_array().map_or(0, Vec::len), 0, "{said}");
    }

    fn packet(&self, data: &str, name: &str) -> String {
        let out = self.text(name);
        yes(&["export", "packet", "--data", data, "--car", "ZZQX 4417", "--out", &out]);
        out
    }

    /// Writes the log as files into a folder of this name and returns it.
    fn published(&self, name: &str) -> PathBuf {
        yes(&["log", "tiles", "--data", &self.data(), "--out", &self.text(name)]);
        self.path(name)
    }

    /// Audits a published log with the root's public key alone. Returns the wrong file and what is wrong in it.
    fn audits(&self, log: &Path, more: &[&str]) -> Result<(), (String, String)> {
        let key = self.shown()["organisation_key"].as_str().unwrap().to_owned();
        let (code, said) =
            run(&[&["log", "audit", log.to_str().unwrap(), "--key", &key], more].concat(), None);
        let text = |name: &str| said[name].as_str().unwrap_or_default().to_owned();
        if code == 0 { Ok(()) } else { Err((text("path"), text("what"))) }
    }

    /// Does the same as `audits` with the reader in `tests/verify`, which shares no code with this program.
    fn audits_elsewhere(&self, log: &Path) -> Result<(), String> {
        let key = self.shown()["organisation_key"].as_str().unwrap().to_owned();
        let top = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
        let own = top.join("target/verify-venv/bin/python");
        let python = if own.is_file() { own } else { PathBuf::from("python3") };
        let output = std::process::Command::new(python)
            .arg(top.join("tests/verify/audit_tiles.py"))
            .args([log.to_str().unwrap(), "--key", &key, "--json"])
            .output()
            .unwrap();
        let said: Value = serde_json::from_slice(&output.stdout).unwrap_or_else(|_| panic!("{output:?}"));
        if output.status.success() { Ok(()) } else { Err(said["path"].as_str().unwrap().to_owned()) }
    }

    /// Checks a packet. Returns whether it holds, and its lines with one code.
    fn verify(&self, packet: &str, more: &[&str], code: &str) -> (bool, Vec<String>) {
        let key = self.shown()["organisation_key"].as_str().unwrap().to_owned();
        let (_, said) = run(&[&["verify", packet, "--key", &key], more].concat(), None);
        let lines = said["lines"].as_array().unwrap().iter();
        let of_code = lines.filter(|line| line["code"] == code).map(|line| line.to_string()).collect();
        (said["ok"].as_bool().unwrap(), of_code)
    }
}

/// Returns the line of a record's history that contains these words.
fn line_of<'v>(view: &'v Value, words: &str) -> Option<&'v Value> {
    view["history"].as_array().unwrap().iter().find(|line| line["sentence"].to_string().contains(words))
}

fn copy_folder(from: &Path, to: &Path) {
    std::fs::create_dir_all(to).unwrap();
    for item in std::fs::read_dir(from).unwrap() {
        let item = item.unwrap();
        let target = to.join(item.file_name());
        if item.file_type().unwrap().is_dir() {
            copy_folder(&item.path(), &target);
        } else {
            std::fs::copy(item.path(), target).unwrap();
        }
    }
}

#[test]
fn the_root_is_taken_off_and_phones_go_on_by_their_next_sync() {
    let scene = Scene::set();
    scene.goes_on("root away");
    let root = std::fs::read_to_string(scene.path("root.key")).unwrap();
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        for name in ["root.key", "office/organisation.key", "office/organisation.keys"] {
            let mode = std::fs::metadata(scene.path(name)).unwrap().permissions().mode();
            assert_eq!(mode & 0o777, 0o600, "{name}");
        }
    }
    for item in std::fs::read_dir(&scene.server.data).unwrap() {
        let path = item.unwrap().path();
        if path.is_file() {
            let bytes = std::fs::read(&path).unwrap();
            let found = bytes.windows(64).any(|window| window == root.trim().as_bytes());
            assert!(!found, "{} still holds the root", path.display());
        }
    }
    // Taking the root off twice is refused, and so is changing keys while a server runs.
    let data = scene.data();
    let (code, said) = run(&["key", "renew", "--data", &data, "--root", &scene.text("root.key")], None);
    assert_eq!((code, said["ok"].as_bool()), (1, Some(false)), "{said}");
    assert!(said["message"].as_str().unwrap().contains("another farsiding server"), "{said}");
    let mut scene = scene;
    scene.server.kill();
    let (code, said) = run(&["key", "offline", "--data", &data, "--out", &scene.text("again.key")], None);
    assert!(code == 3 && said["message"].as_str().unwrap().contains("not on this server"), "{said}");
    assert!(!scene.path("again.key").exists());
}

#[test]
fn a_log_that_a_working_key_signs_is_audited_with_the_root_alone() {
    let scene = Scene::set();
    scene.goes_on("root away");
    let log = scene.published("log");
    assert_eq!(scene.audits(&log, &[]), Ok(()));
    assert_eq!(scene.audits_elsewhere(&log), Ok(()));
    // Without the root's statements nobody knows the key that signed; nor with others.
    let file = log.join("keys.json");
    let good = std::fs::read_to_string(&file).unwrap();
    std::fs::remove_file(&file).unwrap();
    assert_eq!(scene.audits(&log, &[]).unwrap_err().0, "checkpoint");
    assert_eq!(scene.audits_elsewhere(&log), Err("checkpoint".to_owned()));
    let told: Value = serde_json::from_str(&good).unwrap();
    let statement = told["statements"][0].as_str().unwrap();
    let middle = statement.len() / 2;
    let other = if &statement[middle..=middle] == "A" { "B" } else { "A" };
    let altered = format!("{}{other}{}", &statement[..middle], &statement[middle + 1..]);
    let root = told["organisation_key"].as_str().unwrap();
    for bad in [
        good.replace(statement, &altered),
        good.replace(root, &"11".repeat(32)),
        "no statements".to_owned(),
        String::new(),
    ] {
        std::fs::write(&file, &bad).unwrap();
        let (path, what) = scene.audits(&log, &[]).unwrap_err();
        assert_eq!(path, "keys.json", "{what}");
        assert_eq!(scene.audits_elsewhere(&log), Err("keys.json".to_owned()), "{bad}");
    }
    std::fs::write(&file, &good).unwrap();
    // Writing again changes nothing, and mends what is lost.
    std::fs::remove_file(&file).unwrap();
    scene.published("log");
    assert_eq!(std::fs::read_to_string(&file).unwrap(), good);
    assert_eq!(scene.audits(&log, &[]), Ok(()));
}

#[test]
fn drill_the_key_was_stolen() {
    let mut scene = Scene::set();
    scene.goes_on("honest");
    let honest = scene.packet(&scene.data(), "honest.pdf");
    let stolen_key = scene.shown()["signer"].as_str().unwrap().to_owned();
    // The thief takes everything on the server.
    scene.server.kill();
    let thief = scene.path("thief");
    copy_folder(&scene.server.data, &thief);
    scene.server.restart();
    scene.goes_on("after the theft");
    // The theft is noticed: the root withdraws the key, and another key signs.
    let root = scene.text("root.key");
    let said = scene.key("withdraw", &["--root", &root, "--why", "stolen"]);
    assert!(said["certificates"].as_u64().unwrap() >= 1, "{said}");
    let statements = scene.text("statements.json");
    yes(&["key", "show", "--data", &scene.data(), "--out", &statements]);
    scene.goes_on("after the withdrawal");
    let log = scene.published("log of the office");
    assert_eq!(scene.audits(&log, &["--keys", &statements]), Ok(()));

    // The thief answers in the office's place with the stolen key, and enrols his own phone.
    scene.server.kill();
    let office = std::mem::replace(&mut scene.server.data, thief.clone());
    scene.server.restart();
    let own = Device::enrolled(&scene.server, &scene.path("own"), "op-9");
    own.yes(&["sync"]);
    own.yes(&["add", "4417", "remark", "made up by the thief"]);
    own.yes(&["sync"]);
    // The log that he publishes holds for whoever has only what he publishes beside it, and for nobody else.
    scene.server.kill();
    let (data, log) = (thief.to_str().unwrap(), scene.text("log of the thief"));
    yes(&["log", "tiles", "--data", data, "--out", &log]);
    scene.server.restart();
    assert_eq!(scene.audits(Path::new(&log), &[]), Ok(()));
    assert_eq!(scene.audits(Path::new(&log), &["--keys", &statements]).unwrap_err().0, "checkpoint");
    for device in [&scene.before, &scene.after] {
        device.yes(&["add", "4417", "remark", "kept from the thief"]);
        let words = device.no(4, &["sync"]);
        assert!(words.contains("withdrawn as stolen") && words.contains(&stolen_key), "{words}");
        assert_ne!(
            device.yes(&["whoami"])["unreceipted_entries"].as_u64(),
            Some(0),
            "kept, not at the office"
        );
    }
    // What his phone recorded is carried to an honest phone, which keeps it without counting it.
    let carried = scene.text("carried");
    own.yes(&["carry-out", &carried, "4417"]);
    scene.before.yes(&["carry-in", &carried]);
    let view = scene.before.view("4417");
    let line = line_of(&view, "made up by the thief").unwrap();
    let (fate, standing) = (&line["fate"], &line["said"]["standing"]);
    assert_eq!((fate, standing), (&"kept".into(), &"not_certified".into()), "{line}");
    // The thief makes a packet of it, once his log has a checkpoint: the server signs one within a second.
    std::thread::sleep(std::time::Duration::from_secs(2));
    scene.server.kill();
    let forged = scene.packet(thief.to_str().unwrap(), "forged.pdf");
    scene.server.data = office;
    scene.server.restart();
    assert!(scene.verify(&forged, &[], "withdrawn_key").0, "until anybody is told of the withdrawal");
    let given = ["--keys", statements.as_str()];
    let (holds, lines) = scene.verify(&forged, &given, "withdrawn_key");
    assert!(!holds && lines[0].contains(&stolen_key), "{lines:?}");
    // An honest packet from before the theft looks the same, until the office shows that its log continued.
    let (holds, lines) = scene.verify(&honest, &given, "withdrawn_key");
    assert!(!holds && lines[0].contains("checkpoint --from"), "{lines:?}");
    let size = lines[0].split("--from ").nth(1).unwrap().split(')').next().unwrap().to_owned();
    let output = farsiding(&["checkpoint", "--data", &scene.data(), "--from", &size]).output().unwrap();
    std::fs::write(scene.path("proof"), output.stdout).unwrap();
    let proof = scene.text("proof");
    let against = [given.as_slice(), &["--against", &proof]].concat();
    let (holds, lines) = scene.verify(&honest, &against, "withdrawn_key");
    assert!(holds && lines[0].contains("marked"), "{lines:?}");
    assert!(!scene.verify(&forged, &against, "withdrawn_key").0);
    // The office makes the packet again under its present key.
    scene.goes_on("in the end");
    let again = scene.packet(&scene.data(), "again.pdf");
    let (holds, lines) = scene.verify(&again, &given, "withdrawn_key");
    assert!(holds && lines.is_empty(), "{lines:?}");
}

#[test]
fn drill_the_key_was_lost() {
    let mut scene = Scene::set();
    scene.goes_on("before");
    let packet = scene.packet(&scene.data(), "before.pdf");
    scene.server.kill();
    std::fs::remove_file(scene.server.data.join("organisation.key")).unwrap();
    let data = scene.data();
    let output = farsiding(&["serve", "--data", &data, "--listen", "127.0.0.1:0"]).output().unwrap();
    assert_eq!(output.status.code(), Some(1));
    assert!(String::from_utf8(output.stderr).unwrap().contains("key withdraw --why lost"));
    // The root key is on another machine: request, sign, take.
    let (request, answer, root) = (scene.text("request"), scene.text("answer"), scene.text("root.key"));
    yes(&["key", "request", "--data", &data, "--withdraw", "lost", "--out", &request]);
    let said = yes(&["key", "sign", "--root", &root, &request, "--out", &answer]);
    assert_eq!(said["said"].as_array().unwrap().len(), 2, "{said}");
    yes(&["key", "take", "--data", &data, &answer]);
    assert_eq!(yes(&["key", "take", "--data", &data, &answer])["statements"], 0, "twice is no harm");
    scene.server.restart();
    scene.goes_on("after");
    // What the lost key signed holds, also for readers who know of the loss.
    let (holds, lines) = scene.verify(&packet, &["--keys", &answer], "withdrawn_key");
    assert!(holds && lines[0].contains("marked"), "{lines:?}");
    assert!(scene.verify(&packet, &[], "keys").0);
}

#[test]
fn the_yearly_change_is_announced_in_time_and_made_with_the_root() {
    let folder = tempfile::tempdir().unwrap();
    let data = folder.path().join("office");
    let data_text = data.to_str().unwrap();
    let at = |clock: &str| Server::start_at(&data, clock);
    let mut server = at("2027-01-10T08:00:00Z");
    let mut phone = Device::new(&folder.path().join("phone"), "op-1");
    phone.clock = Some("2027-01-10T08:00:00Z".to_owned());
    phone.yes(&["enrol", &server.code("phone", &["--role", "office"]).1]);
    phone.open("ZZQX 4417");
    phone.yes(&["sync"]);
    server.kill();
    let root = folder.path().join("root.key");
    let root = root.to_str().unwrap();
    let offline = ["key", "offline", "--data", data_text, "--out", root, "--until", "2028-01-31"];
    assert_eq!(run(&offline, Some("2027-01-10T09:00:00Z")).0, 0);
    // For eleven months all is well. In the last thirty days the page and /healthz report the coming end.
    server = at("2027-12-15T08:00:00Z");
    assert!(server.is_well());
    server.kill();
    server = at("2028-01-20T08:00:00Z");
    assert!(!server.is_well());
    assert!(server.log().contains("the key that signs ends soon"));
    phone.clock = Some("2028-01-20T08:00:00Z".to_owned());
    server.kill();
    // After the end, the server does not start with the key.
    let late = "2028-03-01T08:00:00Z";
    let output = farsiding(&["serve", "--data", data_text, "--listen", "127.0.0.1:0"])
        .env("FARSIDING_CLOCK", late)
        .output()
        .unwrap();
    assert_eq!(output.status.code(), Some(1));
    assert!(String::from_utf8(output.stderr).unwrap().contains("ended at 2028-02-01"));
    let (code, said) =
        run(&["key", "renew", "--data", data_text, "--root", root, "--until", "2029-03-31"], Some(late));
    assert_eq!(
        (code, said["certificates"].as_u64()),
        (0, Some(0)),
        "what is believed is not signed anew: {said}"
    );
    server = at(late);
    assert!(server.is_well());
    drop(server);
}

#[test]
fn another_root_takes_over_and_phones_that_pinned_the_first_go_on() {
    let mut scene = Scene::set();
    let organisation = scene.shown()["organisation_key"].clone();
    let (root, heir) = (scene.text("root.key"), scene.text("heir.key"));
    scene.key("successor", &["--root", &root, "--new", &heir]);
    scene.server.kill();
    let data = scene.data();
    let (code, said) = run(&["key", "renew", "--data", &data, "--root", &root], None);
    assert!(code == 3 && said["message"].as_str().unwrap().contains("root of now"), "{said}");
    scene.server.restart();
    scene.key("renew", &["--root", &heir]);
    assert_eq!(scene.shown()["organisation_key"], organisation);
    assert_eq!(scene.shown()["statements"].as_array().unwrap().len(), 3);
    scene.goes_on("under the heir");
    let new = Device::enrolled(&scene.server, &scene.path("new"), "op-3");
    new.yes(&["sync"]);
    assert!(new.view("4417").to_string().contains("under the heir"));
    let packet = scene.packet(&data, "heir.pdf");
    assert!(scene.verify(&packet, &[], "keys").0);
}

#[test]
fn what_is_wrong_with_a_file_of_keys_is_said_and_changes_nothing() {
    let mut scene = Scene::set();
    scene.server.kill();
    let (data, before) = (scene.data(), scene.shown());
    let other = scene.text("other.key");
    yes(&["key", "new-root", "--out", &other]);
    for (arguments, words) in [
        (vec!["renew", "--root", other.as_str()], "holds another key"),
        (vec!["renew", "--root", "/nowhere/root.key"], "/nowhere/root.key"),
        (
            vec!["withdraw", "--root", other.as_str(), "--why", "lost", "--key", "zz"],
            "no key of this organisation",
        ),
        (
            vec!["withdraw", "--root", other.as_str(), "--why", "lost", "--checkpoint", other.as_str()],
            "checkpoint",
        ),
        (vec!["renew", "--root", other.as_str(), "--until", "2001-01-01"], "2001-01-01"),
        (vec!["renew", "--root", other.as_str(), "--until", "soon"], "soon"),
        (vec!["take", other.as_str()], "no statements about keys"),
    ] {
        let mut all = vec!["key", arguments[0], "--data", data.as_str()];
        all.extend(&arguments[1..]);
        let (code, said) = run(&all, None);
        let message = said["message"].as_str().unwrap();
        assert!((code == 3 || code == 1) && message.contains(words), "{arguments:?}: {code} {message}");
        assert_eq!(scene.shown()["statements"], before["statements"]);
        assert_eq!(scene.shown()["signer"], before["signer"]);
    }
    // If any part of an answer is altered, none of its statements is accepted.
    let (request, answer, root) = (scene.text("request"), scene.text("answer"), scene.text("root.key"));
    yes(&["key", "request", "--data", &data, "--out", &request]);
    yes(&["key", "sign", "--root", &root, &request, "--out", &answer]);
    let text = std::fs::read_to_string(&answer).unwrap();
    let lines: Vec<&str> = text.lines().collect();
    let last = lines.iter().rposition(|line| line.trim().starts_with('"') && line.len() > 100).unwrap();
    let mut altered: Vec<String> = lines.iter().map(|line| (*line).to_owned()).collect();
    altered[last] = altered[last].replacen("AAA", "AAB", 1);
    std::fs::write(&answer, altered.join("\n")).unwrap();
    let (code, said) = run(&["key", "take", "--data", &data, &answer], None);
    assert_eq!(code, 3, "{said}");
    assert_eq!(scene.shown()["statements"], before["statements"]);
    scene.server.restart();
    scene.goes_on("all the same");
}

/// Certificates signed by the root itself stay byte for byte the same, whatever happens to keys named later.
#[test]
fn an_office_of_before_changes_its_keys_and_its_devices_stay_whose_they_were() {
    for then in [written_before::V1, written_before::V2] {
        changes_its_keys(then);
    }
}

fn changes_its_keys(then: written_before::Then) {
    let folder = tempfile::tempdir().unwrap();
    let mut server = written_before::office(then, folder.path());
    let phone = written_before::newcomer(&server, folder.path());
    let data = server.data.to_str().unwrap().to_owned();
    let ledger = server.data.join("ledger.db");
    let certificates = || -> Vec<(Vec<u8>, Vec<u8>)> {
        let raw = rusqlite::Connection::open(&ledger).unwrap();
        let mut rows = raw.prepare("SELECT device, bytes FROM certificate ORDER BY device").unwrap();
        rows.query_map([], |row| Ok((row.get(0)?, row.get(1)?))).unwrap().map(Result::unwrap).collect()
    };
    let before = certificates();
    assert!(before.len() > 3);
    let root = folder.path().join("root.key");
    let root = root.to_str().unwrap().to_owned();
    let changes = [vec!["offline", "--out", &root], vec!["withdraw", "--root", &root, "--why", "stolen"]];
    server.kill();
    for change in changes {
        let mut all = vec!["key", change[0], "--data", &data];
        all.extend(&change[1..]);
        let (code, said) = run(&all, Some(written_before::NOW));
        assert_eq!((code, &said["certificates"]), (0, &Value::from(0)), "{said}");
        server.restart();
        assert!(certificates() == before, "{change:?}");
        phone.yes(&["add", "7718", "remark", change[0]]);
        phone.yes(&["sync"]);
        assert_eq!(line_of(&phone.view("7718"), change[0]).unwrap()["fate"], "live");
        server.kill();
    }
}
