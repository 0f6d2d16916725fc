//! An office whose ledger is in PostgreSQL: phones notice nothing of it, whoever dies.

use farsiding_testkit::postgres::Postgres;
use farsiding_testkit::program::farsiding;

use crate::stage::{Device, Server, ids};

/// Runs a command on the office's folder.
fn office(server: &Server, command: &[&str], more: &[&str]) -> std::process::Output {
    farsiding(command).args(["--data", server.data.to_str().unwrap()]).args(more).output().unwrap()
}

fn history(device: &Device) -> Vec<String> {
    let view = device.view("4417");
    let lines = view["history"].as_array().unwrap().iter();
    lines.map(|line| line["said"]["entry"].as_str().unwrap().to_owned()).collect()
}

#[test]
fn phones_lose_nothing_when_the_server_or_the_database_under_it_is_killed() {
    let folder = tempfile::tempdir().unwrap();
    let mut database = Postgres::start();
    let address = database.database("office");
    let data = folder.path().join("office");
    let mut server = Server::start_with(&data, "127.0.0.1:0", &["--database", &address]);
    assert!(!data.join("ledger.db").exists(), "the ledger is in the database alone");
    let first = Device::enrolled(&server, &folder.path().join("phone-1"), "ash");
    let second = Device::of_operator(&server, &folder.path().join("phone-2"), "birch");
    let visit = first.open("ZZQX 4417");
    let mut acknowledged = ids(&first.yes(&["add", &visit, "remark", "before anything happened"]));
    assert_eq!(first.yes(&["sync"])["unreceipted_entries"], 0);
    second.yes(&["sync"]);
    assert_eq!(history(&second), history(&first));

    // The server dies.
    acknowledged.extend(ids(&first.yes(&["add", &visit, "valve", "liquid_a", "shut"])));
    assert_eq!(first.yes(&["sync"])["unreceipted_entries"], 0);
    server.kill();
    server.restart();
    second.yes(&["sync"]);
    assert_eq!(history(&second), history(&first));

    // The database dies: phones keep what they have, and are told to come again.
    acknowledged.extend(ids(&first.yes(&["add", &visit, "remark", "while the database was away"])));
    database.kill();
    let (code, said) = first.run(&["sync"]);
    assert_ne!(code, 0, "{said}");
    assert!(said["message"].as_str().unwrap().contains("nothing was lost, try again later"), "{said}");
    database.begin();
    assert_eq!(first.yes(&["sync"])["unreceipted_entries"], 0);
    second.yes(&["sync"]);
    assert_eq!(history(&second), history(&first));
    let there = history(&second);
    assert!(acknowledged.iter().all(|id| there.contains(id)), "{acknowledged:?} in {there:?}");
    let third = Device::of_operator(&server, &folder.path().join("phone-3"), "elm");
    third.yes(&["sync"]);
    assert_eq!(history(&third), there, "a new phone is given all of it");

    // Commands find the database by the folder.
    let packet = folder.path().join("packet.pdf");
    let exported =
        office(&server, &["export", "packet"], &["--visit", &visit, "--out", packet.to_str().unwrap()]);
    assert!(exported.status.success(), "{exported:?}");
    assert!(packet.exists());
    server.terminate();
    server.wait();
    let told = std::fs::read_to_string(data.join("ledger.database")).unwrap();
    assert!(told.starts_with(&address), "{told}");
}

#[test]
fn a_server_whose_ledger_another_takes_over_stops() {
    let folder = tempfile::tempdir().unwrap();
    let address = Postgres::shared().database("taken");
    let data = folder.path().join("office");
    let mut first = Server::start_with(&data, "127.0.0.1:0", &["--database", &address]);
    let phone = Device::enrolled(&first, &folder.path().join("phone-1"), "ash");
    let visit = phone.open("ZZQX 4417");
    phone.yes(&["sync"]);
    // The same office on another machine: a copy of the folder, without the lock.
    let copy = folder.path().join("elsewhere");
    std::fs::create_dir(&copy).unwrap();
    for file in ["organisation.key", "ledger.database", "server.db"] {
        std::fs::copy(data.join(file), copy.join(file)).unwrap();
    }
    let _second = Server::start(&copy);
    phone.yes(&["add", &visit, "remark", "which of them takes it?"]);
    let (code, said) = phone.run(&["sync"]);
    assert_ne!(code, 0, "the first writes no more: {said}");
    assert!(first.wait().success());
    assert!(first.log().contains("another server has taken over the ledger"));
}
