//! Sites: a phone says nothing that counts at a site it was not given, keeps nothing of a site it lost, and is given
//! nothing more of it.

use serde_json::Value;

use super::who_may_say_of_a_stay::{stands_as_the_phone_said_it, undone};
use super::{Siding, code};
use crate::stage::{Device, farsiding};

const OTHER: &str = "Other Spur";

fn with_another_site() -> Siding {
    let siding = Siding::set();
    siding.office.yes(&["site", "new", OTHER, "Etc/GMT+7", "300 ft", "40"]);
    siding.office.yes(&["sync"]);
    siding
}

fn give(siding: &Siding, device: &str, sites: &str) {
    let renew = ["renew", "--data", &siding.data(), "--device", device, "--sites", sites];
    let output = farsiding(&renew).output().unwrap();
    assert!(output.status.success(), "{output:?}");
}

/// Everything that lies in a device's folder, as text as far as it is text.
fn all_bytes(device: &Device) -> String {
    let files = std::fs::read_dir(&device.dir).unwrap().map(|file| file.unwrap().path());
    let files = files.filter(|file| file.extension().is_some_and(|ending| ending == "db"));
    files.map(|file| String::from_utf8_lossy(&std::fs::read(file).unwrap()).into_owned()).collect()
}

fn listed(device: &Device) -> String {
    device.yes(&["list", "--all"])["visits"].to_string()
}

/// A phone that may do everything, at another site.
#[test]
fn a_phone_of_another_site_undoes_nothing_at_a_car() {
    let siding = with_another_site();
    let device = Device::new(&siding.path("phone-other"), "birch");
    let code = code(&siding.data(), "phone-other", &["--sites", OTHER]).unwrap();
    device.yes(&["enrol", "--server", &siding.server.url, "--code", &code]);
    device.yes(&["sync"]);
    undone(&siding, device.key(), &device.key());
    stands_as_the_phone_said_it(&siding);
}

#[test]
fn a_phone_that_lost_a_site_keeps_nothing_of_it_and_is_given_nothing_more() {
    let siding = with_another_site();
    let phone = siding.bystander("phone-moved");
    assert!(listed(&phone).contains("4417"));
    give(&siding, "phone-moved", OTHER);
    let said = phone.yes(&["sync"]);
    println!("what left: {}", said["left"]);
    assert!(said["left"].as_array().unwrap().iter().any(|left| *left == format!("visit:{}", siding.visit)));
    let sites: Vec<Value> = phone.yes(&["site", "list"])["sites"].as_array().unwrap().clone();
    assert_eq!(sites.len(), 1, "{sites:?}");
    siding.phone.yes(&["add", &siding.visit, "remark", "said after the phone was moved"]);
    siding.phone.yes(&["sync"]);
    let said = phone.yes(&["sync"]);
    assert_eq!((said["received"].clone(), said["left"].clone()), (0.into(), serde_json::json!([])), "{said}");
    assert!(!listed(&phone).contains("4417"));
    assert!(!all_bytes(&phone).contains("said after the phone was moved"));
    // The office has all of it, and what others recorded goes on.
    stands_as_the_phone_said_it(&siding);
    // Given the site again, it has everything again, also what was said meanwhile.
    give(&siding, "phone-moved", "all");
    phone.yes(&["sync"]);
    let history = phone.view(&siding.visit)["history"].to_string();
    assert!(history.contains("said after the phone was moved"), "{history}");
}

/// What was recorded without signal is not lost with the site.
#[test]
fn what_a_phone_had_not_sent_when_it_lost_the_site_reaches_the_office_before_it_leaves() {
    let siding = with_another_site();
    let phone = siding.bystander("phone-moved");
    phone.yes(&["add", &siding.visit, "remark", "said without signal"]);
    give(&siding, "phone-moved", OTHER);
    let said = phone.yes(&["sync"]);
    assert_eq!(said["receipted"], 1, "{said}");
    assert!(!listed(&phone).contains("4417"));
    siding.phone.yes(&["sync"]);
    let history = siding.phone.view(&siding.visit)["history"].to_string();
    assert!(history.contains("said without signal"), "{history}");
}
