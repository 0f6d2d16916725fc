//! What is known of a car stands in two documents, and a change is valid in both: offered under each, nobody is split
//! from anybody, and everybody's sync ends.

use serde_json::json;

use super::{Forger, Siding, amount, change, relay};
use crate::stage::{Device, Server, farsiding};

fn meets(device: &Device) -> serde_json::Value {
    let (exit, said) = device.run(&["sync"]);
    println!("{} synced with {exit}: {said}", device.dir.file_name().unwrap().display());
    assert_eq!(exit, 0, "{said}");
    assert_eq!(said["unreceipted_entries"], 0, "{said}");
    said
}

/// The same change, under the car first and then under the stay; later the office is put back and everybody compares.
#[test]
fn one_change_offered_under_two_documents_ends_nobodys_syncs() {
    let mut siding = Siding::set();
    let other = Device::of_operator(&siding.server, &siding.path("phone-2"), "birch");
    let before = siding.bystander("phone-3");
    let mut forger = Forger::with(other.key());
    forger.by = "birch".to_owned();
    let visit = siding.about_visit();
    let car = siding.phone.view(&siding.visit)["header"]["car_id"].as_str().unwrap().to_owned();
    let car = farsiding_core::ids::Subject::read(&format!("car:{car}")).unwrap();
    let said = json!({ "car_capacity": { "capacity": amount(33_700.0, "gal") } });
    let (_, bytes) = change(visit, &[forger.says(visit, said)]);
    relay(&siding.server, &forger.key, vec![(car, bytes.clone())]);
    meets(&before);
    relay(&siding.server, &forger.key, vec![(visit, bytes)]);
    meets(&siding.phone);
    let (folder, data) = (siding.folder.path().to_owned(), siding.data());
    let elsewhere = siding.path("nobody-asks-here");
    std::fs::create_dir(&elsewhere).unwrap();
    let stopped = std::mem::replace(&mut siding.server, Server::in_folder(&elsewhere));
    drop(stopped);
    let declared = farsiding(&["restored", "--data", &data]).output().unwrap();
    assert!(declared.status.success(), "{declared:?}");
    siding.server = Server::in_folder(&folder);
    for device in [&siding.phone, &before] {
        let (exit, said) = device.run(&["sync", "--server", &siding.server.url, "--attempts", "1"]);
        println!("after the office was put back {} synced with {exit}: {said}", device.dir.display());
        assert_eq!(exit, 0, "{said}");
    }
}

/// The same change, by one device under the car, by the other under the stay.
#[test]
fn one_change_offered_under_two_documents_leaves_everybody_with_the_same() {
    let siding = Siding::set();
    let other = Device::of_operator(&siding.server, &siding.path("phone-2"), "birch");
    let before = siding.bystander("phone-3");
    let mut forger = Forger::with(other.key());
    forger.by = "birch".to_owned();
    let visit = siding.about_visit();
    let car = siding.phone.view(&siding.visit)["header"]["car_id"].as_str().unwrap().to_owned();
    let car = farsiding_core::ids::Subject::read(&format!("car:{car}")).unwrap();
    let (_, bytes) = change(
        visit,
        &[forger.says(visit, json!({ "car_capacity": { "capacity": amount(33_700.0, "gal") } }))],
    );
    relay(&siding.server, &forger.key, vec![(car, bytes.clone())]);
    meets(&before);
    relay(&siding.server, &forger.key, vec![(visit, bytes)]);
    let after = siding.bystander("phone-4");
    for _ in 0..2 {
        for device in [&siding.phone, &before, &after] {
            meets(device);
        }
    }
    siding.phone.yes(&["add", &siding.visit, "remark", "and on it goes"]);
    for device in [&siding.phone, &before, &after] {
        assert_eq!(meets(device)["reconciled"], false, "nothing is left to compare");
    }
    let views: Vec<_> = [&siding.phone, &before, &after]
        .iter()
        .map(|device| {
            let view = device.view(&siding.visit);
            (view["history"].clone(), view["car"].clone())
        })
        .collect();
    let told =
        views[0].0.as_array().unwrap().iter().any(|line| line["sentence"].to_string().contains("33700"));
    println!("what was said of the car at this stay stands in its history: {told}");
    assert!(told, "{}", views[0].0);
    assert!(views.windows(2).all(|pair| pair[0] == pair[1]), "they show otherwise");
}
