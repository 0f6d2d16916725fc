//! An office's ledger moves from its file into a PostgreSQL database and back: phones notice nothing of it, and whoever
//! is interrupted has one whole ledger.

use std::path::{Path, PathBuf};
use std::process::{Output, Stdio};

use farsiding_testkit::line::{At, Line};
use farsiding_testkit::postgres::Postgres;
use farsiding_testkit::program::farsiding;
use farsiding_testkit::stage::picture;

use crate::stage::{Device, Server, ids};

/// Runs a command on an office's folder.
fn office(data: &Path, command: &[&str]) -> Output {
    farsiding(command).args(["--data", data.to_str().unwrap()]).output().unwrap()
}

/// Runs a command that must succeed; returns what it said.
fn yes(data: &Path, command: &[&str]) -> String {
    let done = office(data, command);
    assert!(done.status.success(), "{command:?}: {done:?}");
    String::from_utf8(done.stdout).unwrap()
}

/// Runs a command that must be refused; returns its words.
fn no(data: &Path, command: &[&str]) -> String {
    let done = office(data, command);
    assert!(!done.status.success(), "{command:?}: {done:?}");
    String::from_utf8(done.stderr).unwrap()
}

/// Begins a move, lets it come to where its line stops, and kills it there.
fn killed(data: &Path, command: &[&str], line: &Line, word: &'static str, at: At) {
    line.at(word, at);
    let mut child = farsiding(command)
        .args(["--data", data.to_str().unwrap()])
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn()
        .unwrap();
    line.wait();
    child.kill().unwrap();
    child.wait().unwrap();
}

fn history(device: &Device, car: &str) -> Vec<String> {
    let view = device.view(car);
    let lines = view["history"].as_array().unwrap().iter();
    lines.map(|line| line["said"]["entry"].as_str().unwrap().to_owned()).collect()
}

/// The files of a folder whose names begin so.
fn files(data: &Path, begins: &str) -> Vec<String> {
    let names = std::fs::read_dir(data).unwrap().flatten();
    let mut names: Vec<String> = names.map(|entry| entry.file_name().into_string().unwrap()).collect();
    names.retain(|name| name.starts_with(begins));
    names
}

/// Stops a server; returns its folder.
fn stopped(server: &mut Server) -> PathBuf {
    server.terminate();
    assert!(server.wait().success());
    server.data.clone()
}

/// An office in a folder with something of everything, and its phones: one of all sites, one of a single site.
fn begun(folder: &Path) -> (Server, Device, Device, String) {
    let server = Server::in_folder(folder);
    let first = Device::enrolled(&server, &folder.join("phone-1"), "ash");
    let visit = first.open("ZZQX 4417");
    first.yes(&["add", &visit, "remark", "before the move"]);
    let (file, _) = picture(folder, "picture.jpg", 70_000, 1);
    first.yes(&["photo", &visit, file.to_str().unwrap(), "--of", "car_number"]);
    first.yes(&["sync"]);
    let second = Device::new(&folder.join("phone-2"), "birch");
    second.yes(&["enrol", &server.code("phone-2", &["--sites", "invented spur"]).1]);
    second.yes(&["sync"]);
    first.yes(&["add", &visit, "valve", "liquid_a", "shut"]);
    first.yes(&["sync"]);
    second.yes(&["sync"]);
    assert_eq!(history(&first, "4417"), history(&second, "4417"));
    (server, first, second, visit)
}

#[test]
fn phones_go_on_where_they_were_after_a_move_and_after_the_way_back() {
    let folder = tempfile::tempdir().unwrap();
    let address = Postgres::shared().database("moves");
    let (mut server, first, second, visit) = begun(folder.path());
    let said = no(&server.data, &["move", "--to", &address]);
    assert!(said.contains("another farsiding server (process"), "while it runs: {said}");
    let data = stopped(&mut server);
    let epoch = |place: &str| -> String {
        let hex = |bytes: Vec<u8>| bytes.iter().map(|byte| format!("{byte:02x}")).collect();
        match place {
            "file" => {
                let ledger = rusqlite::Connection::open(data.join("ledger.db")).unwrap();
                let sql = "SELECT value FROM value WHERE key = 'server/epoch'";
                hex(ledger.query_row(sql, [], |row| row.get(0)).unwrap())
            }
            _ => {
                let sql = "SELECT encode(value, 'hex') FROM farsiding.value WHERE key = 'server/epoch'";
                Postgres::shared().sql("moves", sql)
            }
        }
    };
    let before = epoch("file");
    let index = std::fs::metadata(data.join("index.db")).unwrap().len();
    let text = yes(&data, &["move", "--to", &address]);
    assert!(text.contains("Start the server again"), "{text}");
    assert_eq!((files(&data, "ledger.db"), files(&data, "ledger.moved-").len()), (Vec::new(), 1));
    assert_eq!(epoch("database"), before);
    assert_eq!(std::fs::metadata(data.join("index.db")).unwrap().len(), index, "nothing is indexed anew");
    let mut all = history(&first, "4417");
    for way in ["to the database", "and back"] {
        server.restart();
        let told = first.yes(&["sync"]);
        assert_eq!(
            (&told["received"], &told["receipted"]),
            (&0.into(), &0.into()),
            "{way}: nothing is read anew: {told}"
        );
        let told = second.yes(&["sync"]);
        assert_eq!(told["received"], 0, "{way}, for a phone of one site: {told}");
        all.extend(ids(&first.yes(&["add", &visit, "remark", way])));
        assert_eq!(first.yes(&["sync"])["unreceipted_entries"], 0);
        assert_eq!(second.yes(&["sync"])["received"], 1, "{way}: what is new, and nothing else");
        for device in [&first, &second] {
            let mut there = history(device, "4417");
            there.sort();
            let mut wanted = all.clone();
            wanted.sort();
            assert_eq!(there, wanted, "{way}: none twice, none missing");
        }
        let fresh = Device::of_operator(&server, &folder.path().join(format!("new-{}", way.len())), "elm");
        fresh.yes(&["sync"]);
        assert_eq!(history(&fresh, "4417").len(), all.len(), "{way}: a new phone is given all of it");
        let packet = folder.path().join(format!("{}.pdf", way.len()));
        yes(&data, &["export", "packet", "--visit", &visit, "--out", packet.to_str().unwrap()]);
        let checked = yes(&data, &["check"]);
        assert!(
            checked.contains("All of it is whole") && checked.contains("1 photographs"),
            "{way}: {checked}"
        );
        let data = stopped(&mut server);
        if way == "to the database" {
            let older = folder.path().join("older");
            std::fs::create_dir(&older).unwrap();
            for file in ["organisation.key", "ledger.database", "server.db"] {
                std::fs::copy(data.join(file), older.join(file)).unwrap();
            }
            yes(&data, &["move", "--to-file"]);
            assert!(data.join("ledger.db").exists());
            assert!(!data.join("ledger.database").exists() && !data.join("ledger.database.left").exists());
            assert_eq!(epoch("file"), before);
            for command in [&["serve", "--listen", "127.0.0.1:0"][..], &["check"], &["move", "--to-file"]] {
                let said = no(&older, command);
                assert!(said.contains("no longer served from this database"), "{command:?}: {said}");
            }
        }
    }
    // What was left there is replaced only by whoever says so.
    let said = no(&data, &["move", "--to", &address]);
    assert!(said.contains("--replace-left"), "{said}");
    yes(&data, &["move", "--to", &address, "--replace-left"]);
    yes(&data, &["check"]);
    // Without the file that names the database, nobody begins an empty ledger.
    std::fs::rename(data.join("ledger.database"), folder.path().join("kept")).unwrap();
    let said = no(&data, &["serve", "--listen", "127.0.0.1:0"]);
    assert!(said.contains("which names that, is missing"), "{said}");
}

#[test]
fn nothing_is_moved_that_is_damaged_or_onto_something_or_by_two_at_once() {
    let folder = tempfile::tempdir().unwrap();
    let address = Postgres::shared().database("refuses");
    let (mut server, _, _, _) = begun(folder.path());
    let data = stopped(&mut server);
    let whole = std::fs::read(data.join("ledger.db")).unwrap();
    let stays = |why: &str| {
        assert!(!data.join("ledger.database").exists(), "{why}");
        let sql = "SELECT coalesce(sum(entries), 0) FROM farsiding.head";
        assert_eq!(Postgres::shared().sql("refuses", sql), "0", "{why}");
    };
    for (sql, word) in [
        ("UPDATE entry SET bytes = bytes || x'00' WHERE position = 2", "(row 2) is damaged"),
        ("UPDATE change SET bytes = bytes || x'00' WHERE position = 1", "change (row 1) is damaged"),
        ("UPDATE log SET number = number + 100 WHERE number > 2", "leaf 3 of the log is damaged"),
    ] {
        let ledger = rusqlite::Connection::open(data.join("ledger.db")).unwrap();
        ledger.execute_batch(sql).unwrap();
        drop(ledger);
        let said = no(&data, &["move", "--to", &address]);
        assert!(said.contains(word), "{sql}: {said}");
        stays(sql);
        std::fs::write(data.join("ledger.db"), &whole).unwrap();
    }
    let ledger = rusqlite::Connection::open(data.join("ledger.db")).unwrap();
    ledger.execute_batch("PRAGMA user_version = 99").unwrap();
    drop(ledger);
    let said = no(&data, &["move", "--to", &address]);
    assert!(said.contains("later version (schema 99"), "{said}");
    stays("a later schema");
    std::fs::write(data.join("ledger.db"), &whole).unwrap();
    // A later database.
    Postgres::shared().sql("refuses", "UPDATE farsiding.schema_version SET version = 99");
    let said = no(&data, &["move", "--to", &address]);
    assert!(said.contains("later version (schema 99"), "{said}");
    Postgres::shared().sql("refuses", "UPDATE farsiding.schema_version SET version = 2");
    // Two at once: the first waits in the middle.
    let line = Line::to(Postgres::shared().port());
    line.at("INSERT INTO farsiding.change", At::StopsBefore);
    let slow = format!("postgres://farsiding@127.0.0.1:{}/refuses", line.port());
    let mut first = farsiding(&["move", "--data", data.to_str().unwrap(), "--to", &slow]).spawn().unwrap();
    line.wait();
    let said = no(&data, &["move", "--to", &address]);
    assert!(said.contains("or its ledger is being moved"), "{said}");
    let said = no(&data, &["serve", "--listen", "127.0.0.1:0"]);
    assert!(said.contains("or its ledger is being moved"), "{said}");
    first.kill().unwrap();
    first.wait().unwrap();
    // Another office's folder with the same key has brought its ledger there.
    let twin = folder.path().join("twin");
    std::fs::create_dir(&twin).unwrap();
    for file in ["organisation.key", "ledger.db", "server.db"] {
        std::fs::copy(data.join(file), twin.join(file)).unwrap();
    }
    yes(&twin, &["move", "--to", &address]);
    let said = no(&data, &["move", "--to", &address]);
    assert!(said.contains("holds a ledger of this organisation already"), "{said}");
    assert!(!data.join("ledger.database").exists());
    // A file that is there already is not written over.
    std::fs::write(twin.join("ledger.db"), b"somebody's").unwrap();
    let said = no(&twin, &["move", "--to-file"]);
    assert!(said.contains("there is a ledger.db in it already"), "{said}");
    assert_eq!(std::fs::read(twin.join("ledger.db")).unwrap(), b"somebody's");
    std::fs::remove_file(twin.join("ledger.db")).unwrap();
    // A row that was altered in the database.
    Postgres::shared()
        .sql("refuses", "UPDATE farsiding.entry SET bytes = bytes || '\\x00' WHERE position = 2");
    let said = no(&twin, &["move", "--to-file"]);
    assert!(said.contains("(row 2) is damaged"), "{said}");
    assert!(twin.join("ledger.database").exists() && !twin.join("ledger.db").exists());
}

#[test]
fn whoever_is_killed_or_cut_off_has_one_whole_ledger_and_says_it_again() {
    let folder = tempfile::tempdir().unwrap();
    Postgres::shared().database("interrupted");
    let line = Line::to(Postgres::shared().port());
    let address = format!("postgres://farsiding@127.0.0.1:{}/interrupted", line.port());
    let (mut server, first, second, visit) = begun(folder.path());
    let data = stopped(&mut server);
    let there =
        || Postgres::shared().sql("interrupted", "SELECT coalesce(sum(entries), 0) FROM farsiding.head");
    let to = ["move", "--to", address.as_str()];
    let in_file = |why: &str| {
        assert!(data.join("ledger.db").exists() && !data.join("ledger.database").exists(), "{why}");
        yes(&data, &["check"]);
    };
    killed(&data, &to, &line, "INSERT INTO farsiding.change", At::StopsBefore);
    in_file("killed in the middle");
    assert_eq!(there(), "0");
    line.at("INSERT INTO farsiding.log(", At::Breaks);
    let said = no(&data, &to);
    assert!(said.contains("connection to the database was lost"), "{said}");
    in_file("cut off in the middle");
    assert_eq!(there(), "0");
    killed(&data, &to, &line, "COMMIT", At::StopsBefore);
    in_file("killed before it was durable");
    assert_eq!(there(), "0");
    killed(&data, &to, &line, "COMMIT", At::StopsAfter);
    in_file("killed before the folder named it");
    assert_ne!(there(), "0");
    // The office goes on with the file, and moves later: what had arrived is replaced.
    server.restart();
    first.yes(&["add", &visit, "remark", "in between"]);
    first.yes(&["sync"]);
    second.yes(&["sync"]);
    stopped(&mut server);
    killed(&data, &to, &line, "SET arrived = 0", At::StopsBefore);
    assert!(!data.join("ledger.db").exists() && data.join("ledger.database").exists());
    yes(&data, &["check"]);
    // Killed between the naming and the setting aside, as the files would then be.
    let aside = data.join(files(&data, "ledger.moved-").first().unwrap());
    std::fs::rename(aside, data.join("ledger.db")).unwrap();
    yes(&data, &["check"]);
    assert!(yes(&data, &to).contains("an earlier move"));
    assert_eq!((files(&data, "ledger.db").len(), files(&data, "ledger.moved-").len()), (0, 1));
    server.restart();
    first.yes(&["add", &visit, "remark", "in the database"]);
    first.yes(&["sync"]);
    assert_eq!(second.yes(&["sync"])["received"], 1);
    stopped(&mut server);

    let back = ["move", "--to-file"];
    let in_database = |why: &str| {
        assert!(!data.join("ledger.db").exists() && data.join("ledger.database").exists(), "{why}");
        yes(&data, &["check"]);
    };
    killed(&data, &back, &line, "FROM farsiding.log_tree", At::StopsBefore);
    in_database("killed in the middle");
    assert!(data.join("ledger.arriving.db").exists(), "what it had written is left and is nobody's ledger");
    line.at("FROM farsiding.opened_at", At::Breaks);
    let said = no(&data, &back);
    assert!(said.contains("connection to the database was lost"), "{said}");
    in_database("cut off in the middle");
    killed(&data, &back, &line, "COMMIT", At::StopsBefore);
    assert!(
        data.join("ledger.db").exists() && !data.join("ledger.database").exists(),
        "the folder names the file"
    );
    // Killed between the two renamings, as the files would then be.
    std::fs::rename(data.join("ledger.db"), data.join("ledger.arriving.db")).unwrap();
    yes(&data, &["check"]);
    assert!(data.join("ledger.db").exists());
    let gone = || Postgres::shared().sql("interrupted", "SELECT bool_and(gone <> '') FROM farsiding.head");
    assert_eq!(gone(), "f");
    assert!(yes(&data, &back).contains("an earlier move"));
    assert_eq!(gone(), "t");
    server.restart();
    assert_eq!(first.yes(&["sync"])["received"], 0);
    assert_eq!(second.yes(&["sync"])["received"], 0);
    assert_eq!(history(&first, "4417"), history(&second, "4417"));
    drop(server);
}

#[test]
fn a_ledger_in_a_database_is_checked_row_by_row_and_backed_up_as_a_file() {
    let folder = tempfile::tempdir().unwrap();
    let address = Postgres::shared().database("checked");
    let (mut server, first, second, visit) = begun(folder.path());
    let data = stopped(&mut server);
    yes(&data, &["move", "--to", &address]);
    server.restart(); // both work beside it
    let sql = |text: &str| Postgres::shared().sql("checked", text);
    let file = folder.path().join("backup.tar");
    let backup = ["backup", "--not-encrypted", "--to", file.to_str().unwrap()];
    let tables = ["entry", "change", "log_tree", "receipt"];
    for table in tables {
        sql(&format!("CREATE TABLE kept_{table} AS SELECT * FROM farsiding.{table}"));
    }
    let flipped =
        |column: &str, at: u8| format!("{column} = set_byte({column}, {at}, get_byte({column}, {at}) # 1)");
    for (harm, words) in [
        (format!("UPDATE farsiding.entry SET {} WHERE position = 2", flipped("bytes", 90)), "(row 2, of "),
        (
            "DELETE FROM farsiding.entry WHERE position = 3".to_owned(),
            "row 3: a document names it, and it is not here",
        ),
        ("UPDATE farsiding.change SET bytes = bytes || '\\x00' WHERE position = 1".to_owned(), "row 1, of "),
        (
            format!("UPDATE farsiding.log_tree SET {} WHERE level = 1 AND place = 0", flipped("hash", 0)),
            "stored hash 1/0",
        ),
        (format!("UPDATE farsiding.receipt SET {} WHERE number = 1", flipped("bytes", 60)), "number 1"),
    ] {
        sql(&harm);
        let done = office(&data, &["check"]);
        let said = format!("{done:?}");
        assert!(!done.status.success() && said.contains("DAMAGED") && said.contains(words), "{harm}: {said}");
        let said = no(&data, &backup);
        assert!(said.contains("no backup was made") && !file.exists(), "{harm}: {said}");
        if harm.contains("position = 2") {
            let said = yes(&data, &["check", "--mend"]);
            assert!(said.contains("mended") && said.contains("All of it is whole"), "{said}");
        }
        for table in tables {
            sql(&format!(
                "DELETE FROM farsiding.{table}; INSERT INTO farsiding.{table} SELECT * FROM kept_{table}"
            ));
        }
    }
    assert!(yes(&data, &["check"]).contains("All of it is whole"));
    assert!(files(&data, ".snapshot").is_empty(), "no copy stays");
    yes(&data, &backup);
    let into = folder.path().join("backups");
    yes(&data, &["backup", "--not-encrypted", "--into", into.to_str().unwrap()]);
    first.yes(&["add", &visit, "remark", "after the backup"]);
    first.yes(&["sync"]);
    let all = history(&first, "4417");
    let listen = server.url.strip_prefix("http://").unwrap().to_owned();
    drop(server);
    // The machine and its database burn. The backup becomes a folder with a file, and that moves into another database.
    for (number, from) in [file, into.read_dir().unwrap().next().unwrap().unwrap().path()].iter().enumerate()
    {
        let restored = folder.path().join(format!("restored-{number}"));
        yes(&restored, &["restore", "--from", from.to_str().unwrap()]);
        assert!(
            restored.join("ledger.db").exists() && files(&restored, "ledger.").len() == 1,
            "{restored:?}"
        );
        assert!(yes(&restored, &["check"]).contains("All of it is whole"));
    }
    let restored = folder.path().join("restored-0");
    yes(&restored, &["move", "--to", &Postgres::shared().database("afterwards")]);
    let server = Server::start_with(&restored, &listen, &[]);
    // The office takes a new name, and the phones bring back what the backup lacks.
    for device in [&first, &second, &first] {
        assert_eq!(device.yes(&["sync"])["unreceipted_entries"], 0);
    }
    assert_eq!(history(&first, "4417"), all);
    let fresh = Device::of_operator(&server, &folder.path().join("phone-3"), "elm");
    fresh.yes(&["sync"]);
    assert_eq!(history(&fresh, "4417").len(), all.len());
    assert!(yes(&restored, &["check"]).contains("All of it is whole"));
}

#[test]
fn a_password_is_read_by_nobody_off_the_command_line() {
    let folder = tempfile::tempdir().unwrap();
    let data = folder.path().join("office");
    let plain = Postgres::shared().database("secret");
    let address = plain.replace("farsiding@", "farsiding:not-for-others@");
    let said = no(&data, &["serve", "--listen", "127.0.0.1:0", "--database", &address]);
    assert!(said.contains("stands on the command line") && !said.contains("not-for-others"), "{said}");
    let file = folder.path().join("address");
    std::fs::write(&file, format!("{address}\n")).unwrap();
    let named = format!("@{}", file.display());
    let shown = |server: &Server| {
        let line = std::fs::read(format!("/proc/{}/cmdline", server.process())).unwrap();
        String::from_utf8_lossy(&line).replace('\0', " ")
    };
    let mut server = Server::start_with(&data, "127.0.0.1:0", &["--database", &named]);
    assert!(
        shown(&server).contains(&named) && !shown(&server).contains("not-for-others"),
        "{}",
        shown(&server)
    );
    let data = stopped(&mut server);
    assert!(std::fs::read_to_string(data.join("ledger.database")).unwrap().starts_with(&address));
    let other = folder.path().join("other");
    let mut server = Server::start_among(&other, &[], &[("FARSIDING_DATABASE", &address)]);
    assert!(!shown(&server).contains("not-for-others"), "{}", shown(&server));
    let other = stopped(&mut server);
    assert!(std::fs::read_to_string(other.join("ledger.database")).unwrap().starts_with(&address));
    // A ledger in a file moves by such a file as well.
    let third = folder.path().join("third");
    std::fs::create_dir(&third).unwrap();
    let (mut server, _, _, _) = begun(&third);
    let third = stopped(&mut server);
    let said = no(&third, &["move", "--to", &address]);
    assert!(said.contains("stands on the command line") && !said.contains("not-for-others"), "{said}");
    yes(&third, &["move", "--to", &named]);
    for folder in [&data, &other, &third] {
        let log = std::fs::read_to_string(folder.with_extension("log")).unwrap();
        assert!(!log.contains("not-for-others"), "{log}");
    }
}

#[test]
fn a_database_that_hangs_keeps_nobody_who_does_not_need_it() {
    let folder = tempfile::tempdir().unwrap();
    Postgres::shared().database("hangs");
    let line = Line::to(Postgres::shared().port());
    let address = format!("postgres://farsiding@127.0.0.1:{}/hangs", line.port());
    // One thread for everything that does not wait.
    let one = [("TOKIO_WORKER_THREADS", "1")];
    let server = Server::start_among(&folder.path().join("office"), &["--database", &address], &one);
    let phone = Device::enrolled(&server, &folder.path().join("phone-1"), "ash");
    phone.open("ZZQX 4417");
    phone.yes(&["sync"]);
    line.at("certificates/version", At::StopsBefore);
    let syncing = std::thread::spawn(move || phone.run(&["sync"]));
    line.wait();
    let (told, tells) = std::sync::mpsc::channel();
    let asked = std::thread::spawn(move || {
        let answer = server.ask("GET", "/office/sign-in", &[], b"");
        told.send(answer.status).unwrap();
        server
    });
    let status = tells.recv_timeout(std::time::Duration::from_secs(10));
    assert_eq!(status.ok(), Some(200), "the page waits for the database");
    drop((asked, syncing));
}
