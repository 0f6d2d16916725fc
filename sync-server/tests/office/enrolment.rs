//! Coming in by a code, and being shown out.

use super::stage::{Device, Server};

#[test]
fn a_device_enrols_once_by_a_code_and_may_ask_again_when_the_answer_was_lost() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start(&folder.path().join("office"));
    let phone = Device::new(&folder.path().join("phone"), "op-1");
    let (code, _) = server.code("Phone 1", &[]);
    let typed = code.to_lowercase().replace('-', " ");
    let said = phone.yes(&["enrol", "--server", &server.url, "--code", &typed]);
    assert_eq!(said["name"], "Phone 1");
    phone.yes(&["enrol", "--server", &server.url, "--code", &code]);
    assert_eq!(server.devices()["devices"].as_array().unwrap().len(), 1);

    let other = Device::new(&folder.path().join("other"), "op-2");
    let why = other.no(3, &["enrol", "--server", &server.url, "--code", &code]);
    assert!(why.contains("already enrolled another device"), "{why}");
    assert!(!std::fs::read(server.data.join("server.db")).unwrap().windows(14).any(|w| w == code.as_bytes()));
}

#[test]
fn wrong_and_expired_codes_are_told_apart() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start(&folder.path().join("office"));
    let phone = Device::new(&folder.path().join("phone"), "op-1");
    let why = phone.no(3, &["enrol", "--server", &server.url, "--code", "AAAA-BBBB-CCCC"]);
    assert!(why.contains("not one of ours"), "{why}");
    let (code, _) = server.code("Phone 1", &["--valid", "0"]);
    let why = phone.no(3, &["enrol", "--server", &server.url, "--code", &code]);
    assert!(why.contains("expired"), "{why}");
    let why = phone.no(5, &["sync"]);
    assert!(why.contains("not enrolled yet"), "{why}");
}

#[test]
fn an_enrolment_text_knows_the_right_server_from_another() {
    let folder = tempfile::tempdir().unwrap();
    let (ours, theirs) =
        (Server::start(&folder.path().join("ours")), Server::start(&folder.path().join("theirs")));
    let (_, text) = ours.code("Phone 1", &[]);
    let (_, other) = theirs.code("Phone 1", &[]);
    let key = text.split("&key=").nth(1).unwrap();
    let mixed = format!("{}&key={key}", other.split("&key=").next().unwrap());
    let phone = Device::new(&folder.path().join("phone"), "op-1");
    let why = phone.no(3, &["enrol", &mixed]);
    assert!(why.contains("its key is another"), "{why}");
    phone.yes(&["enrol", &text]);
    let why = phone.no(3, &["enrol", &other]);
    assert!(why.contains("another organisation"), "{why}");
}

#[test]
fn a_revoked_device_delivers_what_it_has_and_gets_nothing_more() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start(&folder.path().join("office"));
    let lost = Device::enrolled(&server, &folder.path().join("lost"), "op-1");
    let kept = Device::enrolled(&server, &folder.path().join("kept"), "op-2");
    lost.open("ZZQX 4417");
    lost.yes(&["sync"]);
    kept.yes(&["sync"]);
    lost.yes(&["add", "4417", "remark", "written before it was known to be lost"]);
    kept.yes(&["add", "4417", "remark", "not for the lost one"]);
    kept.yes(&["sync"]);
    assert!(lost.pass(&server, 1).is_ok());

    assert!(server.revoke("lost").status.success());
    let why = lost.no(5, &["sync"]);
    assert!(why.contains("revoked"), "{why}");
    assert_eq!(lost.pass(&server, 2).unwrap_err().code(), "revoked");
    assert!(!lost.words(&["show", "4417"]).contains("not for the lost one"));
    kept.yes(&["sync"]);
    assert!(kept.words(&["show", "4417"]).contains("written before it was known to be lost"));

    let (code, _) = server.code("again", &[]);
    let why = lost.no(5, &["enrol", "--server", &server.url, "--code", &code]);
    assert!(why.contains("stays so"), "{why}");
    assert!(server.revoke("lost").status.success(), "twice is once");
    assert_eq!(server.revoke("nobody").status.code(), Some(3));
}

#[test]
fn two_devices_of_one_name_are_listed_rather_than_guessed() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start(&folder.path().join("office"));
    for (dir, operator) in [("a", "op-1"), ("b", "op-2")] {
        let device = Device::new(&folder.path().join(dir), operator);
        device.yes(&["enrol", &server.code("Phone", &[]).1]);
    }
    let refused = server.revoke("phone");
    assert_eq!(refused.status.code(), Some(3));
    let devices = server.devices();
    let id = devices["devices"][0]["device"].as_str().unwrap();
    assert!(String::from_utf8(refused.stdout).unwrap().contains(&id[..8]));
    assert!(server.revoke(&id[..8]).status.success());
}

#[test]
fn the_organisations_key_is_private_and_never_replaced() {
    let folder = tempfile::tempdir().unwrap();
    let data = folder.path().join("office");
    drop(Server::start(&data));
    let file = data.join("organisation.key");
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        assert_eq!(std::fs::metadata(&file).unwrap().permissions().mode() & 0o777, 0o600);
    }
    std::fs::remove_file(&file).unwrap();
    let output =
        super::stage::farsiding(&["serve", "--data", data.to_str().unwrap(), "--listen", "127.0.0.1:0"])
            .output()
            .unwrap();
    assert_eq!(output.status.code(), Some(1));
    assert!(String::from_utf8(output.stderr).unwrap().contains("organisation.key is missing"));
}
