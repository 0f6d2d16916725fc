//! A time somebody claims never decides by itself: what says it comes from next year wins nothing today.

use serde_json::{Value, json};

use super::{Forger, Siding, amount, change, relay};
use crate::stage::{Device, now};

const YEAR: i64 = 365 * 24 * 60 * 60 * 1000;

/// A device of the office, rights and all, whose clock is a year fast and which had not seen what the office said.
#[test]
fn a_device_of_the_office_a_year_ahead_wins_no_slot_of_a_site() {
    let siding = Siding::set();
    let second = Device::enrolled_as(&siding.server, &siding.path("office-2"), "elm", "office");
    let mut fast = Forger::with(second.key());
    fast.by = "elm".to_owned();
    fast.at = Some(now().0 + YEAR);
    let site = siding.about_site();
    let says = [
        fast.says(site, json!({ "contact": { "role": "emergency", "name": "Depot", "telephone": "555-0999" } })),
        fast.says(site, json!({ "tank": { "name": "T-1", "water_capacity": amount(300_000.0, "gal"), "underground": false } })),
    ];
    relay(&siding.server, &fast.key, vec![change(site, &says)]);
    let shown = siding.site_on(&siding.phone);
    let (number, tank) = (&shown["contacts"][0]["telephone"], &shown["tanks"][0]["water_capacity"]["text"]);
    println!("claimed a year ahead: the phone shows {number} and {tank}");
    assert_eq!((number, tank), (&json!("555-0100"), &json!("30 000 gal")));
}

/// One word about one thing by two honest phones that had not met: the one dated next year is not what is used.
#[test]
fn a_phone_a_year_ahead_does_not_speak_last_about_a_car() {
    let siding = Siding::set();
    let fast_phone = Device::of_operator(&siding.server, &siding.path("phone-2"), "birch");
    let mut fast = Forger::with(fast_phone.key());
    fast.by = "birch".to_owned();
    fast.at = Some(now().0 + YEAR);
    let visit = siding.about_visit();
    let away = fast.says(visit, json!({ "car_capacity": { "capacity": amount(99_000.0, "gal") } }));
    relay(&siding.server, &fast.key, vec![change(visit, &[away])]);
    siding.phone.yes(&["add", &siding.visit, "car_capacity", "33 700 gal"]);
    siding.phone.yes(&["sync"]);
    let view = siding.phone.view(&siding.visit);
    let used = capacity(&view);
    println!("claimed a year ahead: the phone takes {used}");
    assert_eq!(used, "33 700 gal");
}

fn capacity(view: &Value) -> String {
    let capacity = &view["car"]["capacity"];
    let amount = if capacity["value"].is_object() { &capacity["value"] } else { capacity };
    amount["text"].as_str().unwrap_or_else(|| panic!("no capacity: {}", view["car"])).to_owned()
}

/// Nothing in a view is dated later than now because somebody claims so.
#[test]
fn a_stay_is_not_begun_next_year() {
    let siding = Siding::set();
    let fast_phone = Device::of_operator(&siding.server, &siding.path("phone-2"), "birch");
    let mut fast = Forger::with(fast_phone.key());
    fast.at = Some(now().0 + YEAR);
    let visit = siding.about_visit();
    let remark = fast.says(visit, json!({ "remark": { "text": "from next year" } }));
    relay(&siding.server, &fast.key, vec![change(visit, &[remark])]);
    siding.phone.yes(&["sync"]);
    let latest = siding.phone.view(&siding.visit)["header"]["latest"].as_i64().unwrap();
    println!("the stay's latest word is {} days ahead", (latest - now().0) / (YEAR / 365));
    assert!(latest <= now().0 + 10 * 60 * 1000, "the stay's latest word is {latest}");
}
