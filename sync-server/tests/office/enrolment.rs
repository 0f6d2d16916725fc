//! Enrolling with a code, and being revoked.

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::{DeviceKey, EnrolmentRequest};
use farsiding_core::ids::OrganisationId;

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
fn two_devices_of_one_name_are_refused_and_those_of_before_listed_rather_than_guessed() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start(&folder.path().join("office"));
    for (dir, name) in [("a", "Phone"), ("b", "Other")] {
        let device = Device::new(&folder.path().join(dir), "op-1");
        device.yes(&["enrol", &server.code(name, &[]).1]);
    }
    for name in ["Phone", " phone", "PHONE\u{a0}"] {
        let (code, said) = server.enrol_no(name, &[]);
        assert_eq!(code, 3, "{said}");
        let why = said["message"].as_str().unwrap();
        assert!(why.contains("another device is called \"Phone\"") && why.contains(" (2)"), "{why}");
    }
    // Version one accepted any name.
    let database = rusqlite::Connection::open(server.data.join("server.db")).unwrap();
    database.execute("UPDATE device SET name = 'phone' WHERE name = 'Other'", []).unwrap();
    let refused = server.revoke("Phone");
    assert_eq!(refused.status.code(), Some(3));
    let devices = server.devices();
    let id = devices["devices"][0]["device"].as_str().unwrap();
    assert!(String::from_utf8(refused.stdout).unwrap().contains(&id[..8]));
    assert!(server.revoke(&id[..8]).status.success());
}

#[test]
fn of_two_codes_for_one_name_the_later_is_the_good_one() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start(&folder.path().join("office"));
    let (astray, _) = server.code("Phone 1", &[]);
    let (code, _) = server.code("phone 1", &[]);
    let phone = Device::new(&folder.path().join("phone"), "op-1");
    let why = phone.no(3, &["enrol", "--server", &server.url, "--code", &astray]);
    assert!(why.contains("another code was made for this name"), "{why}");
    phone.yes(&["enrol", "--server", &server.url, "--code", &code]);
}

#[test]
fn a_code_changes_nothing_about_a_device_that_is_known() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start(&folder.path().join("office"));
    let desk = Device::new(&folder.path().join("desk"), "op-1");
    desk.yes(&["enrol", &server.code("Desk", &["--role", "office"]).1]);
    let before = server.devices();
    let (code, _) = server.code("Somebody else", &[]);
    let why = desk.no(3, &["enrol", "--server", &server.url, "--code", &code]);
    assert!(why.contains("enrolled already, as \"Desk\""), "{why}");
    assert_eq!(server.devices(), before);
    // This worked in version one: whoever had a code and knew a device's public key could rename and demote
    // the device.
    let body = serde_json::json!({ "code": code, "device": desk.key().public(), "name": "x" }).to_string();
    assert_eq!(server.ask("POST", "/v1/enrol", &[], body.as_bytes()).status, 403);
    assert_eq!(server.devices(), before);
    // The code is still valid for the intended device.
    let phone = Device::new(&folder.path().join("phone"), "op-2");
    assert_eq!(phone.yes(&["enrol", "--server", &server.url, "--code", &code])["name"], "Somebody else");
}

#[test]
fn an_app_that_does_not_sign_is_told_to_update_and_enrols_nobody() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start(&folder.path().join("office"));
    let (code, _) = server.code("Phone 1", &[]);
    let stranger = DeviceKey::from_secret([7; 32]).public().to_string();
    // A small-order point and the identity were also accepted as keys.
    let (identity, off_curve) = (format!("01{}", "00".repeat(31)), "ff".repeat(32));
    for device in [stranger, identity, off_curve] {
        let body = serde_json::json!({ "code": code, "device": device, "name": "" }).to_string();
        let answer = server.ask("POST", "/v1/enrol", &[], body.as_bytes());
        assert_eq!((answer.status, answer.code().as_str()), (403, "too_old"), "{answer:?}");
        assert!(String::from_utf8_lossy(&answer.body).contains("Update it"), "{answer:?}");
    }
    assert_eq!(server.devices()["devices"].as_array().unwrap().len(), 0);
    let phone = Device::new(&folder.path().join("phone"), "op-1");
    phone.yes(&["enrol", "--server", &server.url, "--code", &code]);
}

#[test]
fn a_request_is_good_for_this_office_at_this_time_alone() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start(&folder.path().join("office"));
    let (code, _) = server.code("Phone 1", &[]);
    let key = DeviceKey::from_secret([7; 32]);
    let right = server.enrol_request(&code, "");
    let hour = 3_600_000;
    let others = [
        (EnrolmentRequest { organisation: OrganisationId([9; 16]), ..right.clone() }, "other_office"),
        (EnrolmentRequest { at: UtcMillis(right.at.0 - hour), ..right.clone() }, "stale_request"),
        (EnrolmentRequest { at: UtcMillis(right.at.0 + hour), ..right.clone() }, "stale_request"),
    ];
    for (request, code) in others {
        let answer = server.ask("POST", "/v1/enrol", &[], &request.seal(&key).unwrap());
        assert_eq!((answer.status, answer.code().as_str()), (403, code));
    }
    // The same request is signed for another purpose, or altered on the way.
    let sealed = right.seal(&key).unwrap();
    for at in 0..sealed.len() {
        let mut altered = sealed.clone();
        altered[at] ^= 1;
        let answer = server.ask("POST", "/v1/enrol", &[], &altered);
        assert_eq!(answer.status, 400, "byte {at}: {answer:?}");
    }
    assert_eq!(server.devices()["devices"].as_array().unwrap().len(), 0);
    let answers = [(); 2].map(|()| server.ask("POST", "/v1/enrol", &[], &sealed));
    assert!(answers.iter().all(|answer| answer.status == 200), "{answers:?}");
    // A request that was intercepted and sent again yields only public data: the same certificate.
    let told = |answer: &super::stage::Answer| -> serde_json::Value {
        serde_json::from_slice::<serde_json::Value>(&answer.body).unwrap()["certificate"].clone()
    };
    assert_eq!(told(&answers[0]), told(&answers[1]));
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
