//! An office whose clock ran fast and is set back, or stands still for years: its evidence stays valid, and
//! the problem is reported.

use std::path::Path;

use serde_json::Value;

use super::stage::{Device, Server, farsiding};

const RIGHT: &str = "2026-11-28T12:02:00Z";
const FAST: &str = "2026-11-28T12:15:00Z";

/// Returns a server whose clock is read from a file.
fn server(folder: &Path) -> Server {
    set(folder, FAST);
    Server::start_at(&folder.join("office"), &format!("@{}", folder.join("server.clock").display()))
}

fn set(folder: &Path, to: &str) {
    let draft = folder.join("server.clock.draft");
    std::fs::write(&draft, to).unwrap();
    std::fs::rename(draft, folder.join("server.clock")).unwrap();
}

/// Returns a phone whose clock was always right.
fn phone(server: &Server, folder: &Path, name: &str) -> Device {
    let mut phone = Device::new(&folder.join(name), "ash");
    phone.clock = Some(RIGHT.to_owned());
    phone.yes(&["enrol", &server.code(name, &["--role", "office"]).1]);
    phone
}

/// Exports and checks the stay's packet. Returns whether it holds, and the output.
fn packet_holds(server: &Server, folder: &Path, visit: &str) -> (bool, String) {
    let (data, out) = (server.data.to_str().unwrap(), folder.join("packet.pdf"));
    let out = out.to_str().unwrap();
    let made = farsiding(&["export", "packet", "--data", data, "--visit", visit, "--out", out, "--json"])
        .env("FARSIDING_CLOCK", RIGHT)
        .output()
        .unwrap();
    assert!(made.status.success(), "{made:?}");
    let told: Value = serde_json::from_slice(&made.stdout).unwrap();
    let key = told["organisation_key"].as_str().unwrap();
    let checked = farsiding(&["verify", out, "--key", key]).output().unwrap();
    (checked.status.success(), String::from_utf8_lossy(&checked.stdout).into_owned())
}

#[test]
fn a_clock_that_was_fast_and_is_set_back_leaves_packets_that_hold() {
    let folder = tempfile::tempdir().unwrap();
    let folder = folder.path();
    let server = server(folder);
    let phone = phone(&server, folder, "phone");
    let visit = phone.open("ZZQX 4711");
    phone.yes(&["sync"]);
    assert!(server.is_well());

    set(folder, RIGHT);
    phone.yes(&["add", &visit, "remark", "the clock was set back"]);
    let said = phone.yes(&["sync"]);
    assert_eq!(said["unreceipted_entries"], 0, "{said}");
    // The phone's clock is compared with the clock of the machine, not with the log's time, which stands
    // still.
    let ahead = said["clock_ahead_millis"].as_i64().unwrap();
    assert!(ahead.abs() < 60_000, "{ahead}");
    let (holds, words) = packet_holds(&server, folder, &visit);
    assert!(holds, "{words}");
    // The office reports the problem itself.
    std::thread::sleep(std::time::Duration::from_millis(3100)); // results are reused for a few seconds
    assert!(!server.is_well());
    assert!(server.log().contains("behind its own log"), "{}", server.log());

    // A revocation made meanwhile does not affect earlier entries.
    let other = self::phone(&server, folder, "other");
    let revoked =
        farsiding(&["revoke", "--data", server.data.to_str().unwrap(), "--device", "phone", "--json"])
            .env("FARSIDING_CLOCK", RIGHT)
            .output()
            .unwrap();
    assert!(revoked.status.success(), "{revoked:?}");
    other.yes(&["sync"]);
    let view = other.view(&visit);
    let line = view["history"]
        .as_array()
        .unwrap()
        .iter()
        .find(|line| line["sentence"]["text"].as_str().unwrap().contains("the clock was set back"));
    assert_eq!(line.unwrap()["fate"], "live", "{view}");
    let (holds, words) = packet_holds(&server, folder, &visit);
    assert!(holds, "{words}");
}

#[test]
fn a_clock_more_than_a_day_behind_the_ledger_starts_nothing_until_somebody_says_that_it_was_wrong() {
    let folder = tempfile::tempdir().unwrap();
    let folder = folder.path();
    let mut server = server(folder);
    let phone = phone(&server, folder, "phone");
    let visit = phone.open("ZZQX 4711");
    phone.yes(&["sync"]);
    server.kill();

    set(folder, "2026-11-27T12:00:00Z");
    let data = server.data.to_str().unwrap();
    let start = |more: &[&str]| {
        farsiding(&["serve", "--data", data, "--listen", "127.0.0.1:0"])
            .args(more)
            .env("FARSIDING_CLOCK", format!("@{}", folder.join("server.clock").display()))
            .output()
            .unwrap()
    };
    let refused = start(&[]);
    let words = String::from_utf8_lossy(&refused.stderr);
    assert_eq!(refused.status.code(), Some(1), "{words}");
    assert!(words.contains("24 h later") && words.contains("--clock-was-wrong"), "{words}");

    let clock = format!("@{}", folder.join("server.clock").display());
    let why = ["--clock-was-wrong", "the battery was empty"];
    let mut server = Server::start_with_clock(&server.data, &why, &clock);
    phone.yes(&["add", &visit, "remark", "said after it"]);
    assert_eq!(phone.yes(&["sync", "--server", &server.url])["unreceipted_entries"], 0);
    assert!(packet_holds(&server, folder, &visit).0);
    server.kill();
    // A statement made once is not required again at later starts.
    let server = Server::start_at(&server.data, &clock);
    assert!(packet_holds(&server, folder, &visit).0);
}
