//! What a device says is safe: never more than the office has, wherever the line is cut.

use std::collections::BTreeSet;

use farsiding_testkit::Dice;

use crate::line::{Cut, Line, Quality, Reach, Way};
use crate::stage::{Device, Server};

/// The entries of the visit a device holds.
fn held(device: &Device) -> BTreeSet<String> {
    let (code, said) = device.run(&["show", "4417"]);
    if code != 0 {
        return BTreeSet::new(); // it has not heard of the car
    }
    let history = said["visit"]["history"].as_array().unwrap().iter();
    history.map(|line| line["said"]["entry"].as_str().unwrap().to_owned()).collect()
}

/// The entries a device says the office has.
fn claimed(device: &Device, visit: &str) -> BTreeSet<String> {
    let told = device.yes(&["receipts", visit]);
    let receipts = told["receipts"].as_array().unwrap().iter();
    receipts
        .filter(|line| line["checked"] == true)
        .map(|line| line["entry"].as_str().unwrap().to_owned())
        .collect()
}

#[test]
fn nothing_is_called_safe_before_its_receipt_is_here() {
    let mut dice = Dice::thrown();
    let folder = tempfile::tempdir().unwrap();
    let server = Server::in_folder(folder.path());
    let phone = Device::enrolled(&server, &folder.path().join("phone-1"), "ash");
    let office = Device::of_operator(&server, &folder.path().join("phone-2"), "birch");
    let visit = phone.open("ZZQX 4417");
    phone.yes(&["sync"]);
    // Where it is cut is what is tried here, not the waiting: this line is a hundred times better always.
    let line = Line::to(&server.url, Quality { better: 100.0, loss: 20, cuts: 0 }, Dice::thrown());
    let (mut whole, mut cut_short, mut unknowing) = (0, 0, 0);
    for round in 0..24 {
        phone.yes(&["add", &visit, "remark", &format!("round {round}")]);
        // On the way up anywhere in the round; on the way down before the reply is whole.
        let (way, most) = if round % 2 == 0 { (Way::Up, 900) } else { (Way::Down, 280) };
        line.becomes(Reach::Carried);
        line.plan(&[(Cut::After(way, dice.below(most) as u64), Reach::Dead)]);
        let (code, told) = phone.run(&["sync", "--server", &line.url, "--attempts", "1", "--no-photos"]);
        office.yes(&["sync"]);
        let (there, says) = (held(&office), claimed(&phone, &visit));
        assert!(says.is_subset(&there), "claimed and not there: {:?}", says.difference(&there));
        let left = phone.view(&visit)["unreceipted"].as_u64().unwrap();
        match code {
            0 => {
                assert_eq!(left, 0, "it said that all is well: {told}");
                whole += 1;
            }
            4 => {
                let why = told["message"].as_str().unwrap();
                assert!(why.contains(&format!("{left} entries")), "{left} are left and it says: {why}");
                cut_short += 1;
                unknowing += u32::from(left > 0 && held(&phone).is_subset(&there));
            }
            _ => panic!("{told}"),
        }
    }
    println!(
        "link claims: {whole} syncs whole, {cut_short} cut short, {unknowing} of them after the office had everything"
    );
    assert!(cut_short > 4 && unknowing > 0, "the cuts came too late to try anything");
    assert_eq!(phone.yes(&["sync"])["unreceipted_entries"], 0);
    office.yes(&["sync"]);
    assert_eq!(claimed(&phone, &visit), held(&office));
}
