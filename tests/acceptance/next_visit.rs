//! What is left for the next visit of a car, and what received the cargo: recorded on one phone, shown on another.

use serde_json::Value;

use crate::stage::{Device, Server};

/// What earlier visits left for this one, as the record says it in English.
fn left(device: &Device, visit: &str) -> Vec<String> {
    let page = device.words(&["show", visit]);
    page.lines().filter_map(|line| line.split("From the last visit: ").nth(1)).map(str::to_owned).collect()
}

fn says(device: &Device, visit: &str, sentence: &str) {
    let page = device.words(&["show", visit]);
    assert!(page.contains(sentence), "\"{sentence}\" is not on the page:\n{page}");
}

#[test]
fn what_one_person_leaves_meets_the_next_one_at_the_next_visit_of_that_car() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::in_folder(folder.path());
    let first = Device::enrolled(&server, &folder.path().join("phone-1"), "ash");
    let second = Device::of_operator(&server, &folder.path().join("phone-2"), "birch");
    let add = |device: &Device, visit: &str, words: &[&str]| {
        device.yes(&[&["add", visit], words].concat());
    };
    let visit = first.open("ZZQX 4417");
    add(&first, &visit, &["next_time", "the stem drips when it is cold", "liquid_b"]);
    add(&first, &visit, &["valve_feel", "hard", "vapour"]);
    add(&first, &visit, &["plug_condition", "rounded", "liquid_a", "corners gone"]);
    add(&first, &visit, &["cover_condition", "hinge", "worn"]);
    assert_eq!(left(&first, &visit), Vec::<String>::new(), "it is for the next visit");

    // What received the cargo; and what no tank can show is refused and stands nowhere.
    add(&first, &visit, &["tank_gauged", "before", "T-1", "41 %", "96 psi", "58 F", "120500 gal"]);
    first.no(3, &["add", &visit, "tank_gauged", "after", "T-1", "-5 %"]);
    first.no(3, &["add", &visit, "tank_gauged", "after", "T-1", "104 %"]);
    add(&first, &visit, &["hose_pressure", "liquid_a", "12 psi"]);
    add(&first, &visit, &["recovery_planned", "30 psi", "30 ft³/min"]);
    add(&first, &visit, &["truck_load", "T-7", "9200 gal", "5501", "Birch", "84 %", "54 F", "L-20"]);
    add(&first, &visit, &["inspection", "Invented agency", "placards", "yes", "one is torn", "yes"]);
    for sentence in [
        "Tank T-1, before, level 41 %, pressure 96 psi, temperature 58 F, meter 120500 gal.",
        "Hose at liquid valve A after drawing down: 12 psi.",
        "Recovery planned down to 30 psi, compressor 30 ft³/min.",
        "Truck T-7 loaded with 9200 gal, ticket 5501, driver Birch, level 84 %, temperature 54 F, seal L-20.",
        "Inspected by Invented agency: placards. Something to put right. one is torn. A copy was left.",
        "Inspection by Invented agency found: one is torn",
    ] {
        says(&first, &visit, sentence);
    }
    let page = first.words(&["show", &visit]);
    assert!(!page.contains("-5 %") && !page.contains("104 %"), "{page}");
    first.yes(&["sync"]);

    // Another phone at the next visit of the car, and at a visit of another one.
    second.yes(&["sync"]);
    let other = second.open("ZZQX 4418");
    assert_eq!(left(&second, &other), Vec::<String>::new(), "another car");
    let next = second.open("ZZQX 4417");
    let told = left(&second, &next);
    assert_eq!(told.len(), 4, "{told:?}");
    for part in
        ["the stem drips when it is cold", "turned: hard", "square rounded (corners gone)", "hinge: worn"]
    {
        assert!(told.iter().any(|line| line.contains(part)), "{part}: {told:?}");
    }
    let carried: Vec<Value> = second.view(&next)["car"]["carried"].as_array().unwrap().clone();
    let note = carried.iter().find_map(|one| one["note"].as_str()).unwrap().to_owned();
    add(&second, &next, &["next_time_done", &note, "stem packing replaced"]);
    add(&second, &next, &["valve_feel", "normal", "vapour"]);
    add(&second, &next, &["plug_condition", "sound", "liquid_a"]);
    add(&second, &next, &["cover_condition", "hinge", "sound"]);
    assert_eq!(left(&second, &next), Vec::<String>::new());
    second.yes(&["sync"]);
    first.yes(&["sync"]);
    let third = first.open("ZZQX 4417");
    assert_eq!(left(&first, &third), Vec::<String>::new(), "what was seen to does not come again");
}
