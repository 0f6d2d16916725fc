//! Coming in by a code: it makes one new device of whoever holds the key, and does nothing to those that are there.

use super::{Siding, code, enrol, registered};
use crate::stage::Device;

fn id_of(device: &Device) -> String {
    device.yes(&["whoami"])["device"].as_str().unwrap().to_owned()
}

#[test]
fn a_code_neither_renames_nor_demotes_a_device_that_is_there() {
    let siding = Siding::set();
    let office = id_of(&siding.office);
    let before = registered(&siding.data(), &office);
    let fresh = code(&siding.data(), "lavatory phone", &["--role", "operator"]).unwrap();
    let answer = enrol(&siding.server, &fresh, &office, "x");
    let after = registered(&siding.data(), &office);
    println!(
        "status {}: {} ({}) became {} ({})",
        answer.status, before["name"], before["role"], after["name"], after["role"]
    );
    assert_eq!((&after["name"], &after["role"]), (&before["name"], &before["role"]));
    siding.office.yes(&["sync"]);
    assert_eq!(siding.office.yes(&["whoami"])["role"], "office");
}

/// Nor when its own shell is handed the code: a lost slip of paper makes no operator's phone of the office's device.
#[test]
fn a_device_that_is_there_is_not_made_another_by_a_code_of_somebody_elses() {
    let siding = Siding::set();
    let before = registered(&siding.data(), &id_of(&siding.office));
    let fresh = code(&siding.data(), "lavatory phone", &["--role", "operator"]).unwrap();
    let (exit, said) = siding.office.run(&["enrol", "--server", &siding.server.url, "--code", &fresh]);
    let after = registered(&siding.data(), &id_of(&siding.office));
    println!("exit {exit}, {said}: now {} ({})", after["name"], after["role"]);
    assert_eq!((&after["name"], &after["role"]), (&before["name"], &before["role"]));
    // And the other way round: an operator's phone is not raised by a code made for an office's device.
    let before = registered(&siding.data(), &id_of(&siding.phone));
    let fresh = code(&siding.data(), "another desk", &["--role", "office"]).unwrap();
    siding.phone.run(&["enrol", "--server", &siding.server.url, "--code", &fresh]);
    let after = registered(&siding.data(), &id_of(&siding.phone));
    assert_eq!((&after["name"], &after["role"]), (&before["name"], &before["role"]));
    siding.office.yes(&["sync"]);
    siding.phone.yes(&["sync"]);
}

/// Nor does its holder raise himself by a code that was made for somebody else.
#[test]
fn a_key_is_enrolled_only_by_whoever_holds_it() {
    let siding = Siding::set();
    let stranger = super::Forger::stranger().key.public().to_string();
    let fresh = code(&siding.data(), "new phone", &[]).unwrap();
    let answer = enrol(&siding.server, &fresh, &stranger, "not mine");
    println!("a bare public key without its signature: status {}", answer.status);
    assert!((400..500).contains(&answer.status), "{answer:?}");
    assert!(registered(&siding.data(), &stranger).is_null());
}

#[test]
fn points_that_are_no_keys_are_refused() {
    let siding = Siding::set();
    // Not on the curve, the neutral element, and points of small order (RFC 8032, section 5.1).
    let points = [
        "00".repeat(32),
        format!("01{}", "00".repeat(31)),
        format!("02{}", "00".repeat(31)),
        "ff".repeat(32),
        "c7176a703d4dd84fba3c0b760d10670f2a2053fa2c39ccc64ec7fd7792ac037a".to_owned(),
        format!("ec{}7f", "ff".repeat(30)),
    ];
    for point in points {
        let fresh = code(&siding.data(), "odd", &[]).unwrap();
        let answer = enrol(&siding.server, &fresh, &point, "odd");
        println!("{point}: status {}", answer.status);
        assert!((400..500).contains(&answer.status), "{point} was enrolled");
        assert!(registered(&siding.data(), &point).is_null());
    }
}

/// Messages name their device by eight bytes. Somebody with a code takes a point that begins as an honest phone's.
#[test]
fn two_devices_with_one_hint_both_keep_working() {
    let siding = Siding::set();
    let phone = id_of(&siding.phone);
    let mut taken = 0;
    for number in 0..12u8 {
        let twin = format!("{}{}{number:02x}", &phone[..16], "00".repeat(23));
        let Ok(fresh) = code(&siding.data(), &format!("twin {number}"), &[]) else { continue };
        taken += u8::from(enrol(&siding.server, &fresh, &twin, "twin").status == 200);
    }
    siding.phone.yes(&["add", &siding.visit, "remark", "still with you"]);
    let (exit, said) = siding.phone.run(&["sync", "--attempts", "1"]);
    println!("{taken} points with the phone's hint taken; the phone's sync ended with {exit}: {said}");
    assert_eq!(exit, 0, "{said}");
    assert_eq!(said["unreceipted_entries"], 0);
}

#[test]
fn two_devices_of_one_name_are_refused_or_told_apart() {
    let siding = Siding::set();
    let second = Device::new(&siding.path("another"), "birch");
    if let Ok(fresh) = code(&siding.data(), "phone-1", &[]) {
        let (exit, said) = second.run(&["enrol", "--server", &siding.server.url, "--code", &fresh]);
        println!("a second \"phone-1\": exit {exit}, {said}");
    }
    let (a, b) =
        (registered(&siding.data(), &id_of(&siding.phone)), registered(&siding.data(), &id_of(&second)));
    println!("the register has {} and {}", a["name"], b["name"]);
    assert_ne!(a["name"], b["name"]);
}

#[test]
fn the_name_in_a_request_is_one_plain_line() {
    let siding = Siding::set();
    for name in ["a\u{202e}b", "a\nb", "\u{2066}x", "x\u{200f}"] {
        let told = code(&siding.data(), name, &[]);
        println!("a code for {name:?}: {:?}", told.as_ref().map(|_| "given"));
        assert!(told.is_err(), "a device may be called {name:?}");
    }
}
