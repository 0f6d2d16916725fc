//! Recording with commands: how visits are addressed, corrections, unusual input, and what happens to input
//! that cannot be recorded.

use super::stage::{Device, farsiding};

fn device() -> (tempfile::TempDir, Device) {
    let folder = tempfile::tempdir().unwrap();
    let device = Device::new(&folder.path().join("phone"), "op-1");
    (folder, device)
}

#[test]
fn a_visit_is_found_by_number_digits_or_id_and_never_guessed() {
    let (_folder, device) = device();
    let first = device.open("ZZQX 4417");
    let second = device.open("QZZX 4417");
    for address in ["zzqx4417", "ZZQX-4417", &first[..8], &first] {
        assert_eq!(device.view(address)["header"]["car"], "ZZQX 4417", "{address}");
    }
    let why = device.no(3, &["show", "4417"]);
    assert!(why.contains(&first[..8]) && why.contains(&second[..8]), "{why}");
    let why = device.no(3, &["show", "ZZQX 4471"]);
    assert!(why.contains("a similar number is here"), "{why}");
    assert_eq!(device.yes(&["find", "ZZQX 4471"])["found"].as_array().unwrap().len(), 1);
}

#[test]
fn a_correction_replaces_what_was_wrong_and_says_why() {
    let (_folder, device) = device();
    let visit = device.open("ZZQX 4417");
    let wrong =
        device.yes(&["add", "4417", "reading", "pressure", "car", "final", "21 psi", "--instrument", "G-3"]);
    let wrong = wrong["entries"][0].as_str().unwrap()[..8].to_owned();
    let why = device.no(3, &["add", "4417", "reading", "amount=12 psi", "--replaces", &wrong]);
    assert!(why.contains("--why"), "{why}");
    device.yes(&["add", "4417", "reading", "amount=12 psi", "--replaces", &wrong, "--why", "digits swapped"]);
    let view = device.view(&visit);
    let readings = view["readings"].to_string();
    assert!(readings.contains("12 psi") && readings.contains("G-3"), "{readings}");
    assert_eq!(view["history"].as_array().unwrap().len(), 3, "nothing is gone");
    assert_eq!(view["disagreements"].as_array().unwrap().len(), 0);
}

#[test]
fn odd_input_is_kept_as_typed_and_what_is_not_understood_is_kept_as_a_draft() {
    let (_folder, device) = device();
    let visit = device.open("ZZQX 4417");
    let said = device.yes(&["add", "4417", "reading", "pressure", "car", "arrival", "11O psi"]);
    assert_eq!(said["remarks"].as_array().unwrap().len(), 1, "{said}");
    assert!(device.view(&visit)["readings"].to_string().contains("11O psi"));
    let why = device.no(3, &["add", "4417", "reading", "presure", "car", "arrival", "118 psi"]);
    assert!(why.contains("pressure") && why.contains("kept"), "{why}");
    let drafts = device.yes(&["drafts"]);
    assert_eq!(drafts["drafts"][0]["text"], "reading presure car arrival 118 psi");
    device.no(3, &["add", "4417", "no-such-kind", "x"]);
    assert_eq!(device.yes(&["drafts"])["drafts"].as_array().unwrap().len(), 2);
    device.yes(&["drafts", "--clear"]);
    assert!(device.yes(&["drafts"])["drafts"].as_array().unwrap().is_empty());
}

#[test]
fn statements_come_as_json_too_one_or_many() {
    let (_folder, device) = device();
    device.open("ZZQX 4417");
    device.yes(&["add", "4417", "--json", r#"{"remark":{"text":"from a script"}}"#]);
    let mut child = farsiding(&["device", "--dir", device.dir.to_str().unwrap(), "add", "4417", "-"])
        .stdin(std::process::Stdio::piped())
        .spawn()
        .unwrap();
    use std::io::Write as _;
    let lines =
        "{\"remark\":{\"text\":\"one\"}}\n\n{\"valve\":{\"fitting\":\"vapour\",\"position\":\"shut\"}}\n";
    child.stdin.take().unwrap().write_all(lines.as_bytes()).unwrap();
    assert!(child.wait().unwrap().success());
    let shown = device.words(&["show", "4417"]);
    assert!(shown.contains("from a script") && shown.contains("one"), "{shown}");
}

#[test]
fn commands_at_the_same_time_make_one_chain() {
    let (_folder, device) = device();
    let visit = device.open("ZZQX 4417");
    std::thread::scope(|scope| {
        for n in 0..6 {
            let device = &device;
            scope.spawn(move || device.yes(&["add", "4417", "remark", &format!("remark {n}")]));
        }
    });
    let view = device.view(&visit);
    assert_eq!(view["history"].as_array().unwrap().len(), 7);
    assert_eq!(view["chain_gaps"].as_array().unwrap().len(), 0, "{}", view["chain_gaps"]);
}

#[test]
fn nobody_records_without_saying_who_they_are() {
    let folder = tempfile::tempdir().unwrap();
    let device = Device { dir: folder.path().join("phone"), clock: None };
    device.yes(&["init"]);
    let why = device.no(3, &["site", "new", "Invented Spur", "Etc/GMT+6", "1200 ft"]);
    assert!(why.contains("--operator"), "{why}");
    device.yes(&["operator", "op-1"]);
    device.open("ZZQX 4417");
    device.yes(&["add", "4417", "remark", "by another", "--operator", "op-2"]);
    let people = device.view("4417")["history"].to_string();
    assert!(people.contains("op-1") && people.contains("op-2"));
    assert_eq!(device.yes(&["whoami"])["operator"], "op-1");
    device.no(3, &["init"]);
}

#[test]
fn a_site_is_described_by_a_file_that_may_be_loaded_again() {
    let (folder, device) = device();
    let file = folder.path().join("site.toml");
    std::fs::write(
        &file,
        r#"
[site]
name = "Invented Spur"
zone = "Etc/GMT+6"
elevation = "1200 ft"
attendance_gap_minutes = 30
[[tank]]
name = "T-1"
water_capacity = "30000 gal"
underground = false
[[instrument]]
name = "G-3"
measures = "pressure"
span = "60 psi"
grade = "2A"
[[hose]]
name = "H-1"
service = "LPG"
[[contact]]
role = "emergency"
name = "Invented Brigade"
telephone = "000"
[[seal_stock]]
from = "INV-000100"
to = "INV-000199"
kind = "plastic"
"#,
    )
    .unwrap();
    assert_eq!(device.yes(&["site", "load", file.to_str().unwrap()])["recorded"], 6);
    assert_eq!(device.yes(&["site", "load", file.to_str().unwrap()])["recorded"], 0);
    device.yes(&["site", "set", "invented spur", "instrument", "G-3", "pressure", "100 psi"]);
    let site = device.yes(&["site", "show", "Invented Spur"])["site"].clone();
    assert_eq!(site["instruments"][0]["span"]["text"], "100 psi");
    assert_eq!(site["tanks"].as_array().unwrap().len(), 1);
    std::fs::write(&file, "[site]\nname = \"X\"\n").unwrap();
    let why = device.no(3, &["site", "load", file.to_str().unwrap()]);
    assert!(why.contains("zone is missing"), "{why}");
}
