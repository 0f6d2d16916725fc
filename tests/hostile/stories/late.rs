//! What a revoked phone still brings: a bounded tray at the office, and nothing that counts on anybody's phone.

use serde_json::json;

use super::{Forger, Siding, change, relay};
use crate::stage::Device;

/// Bytes of the ledger's files.
fn ledger(siding: &Siding) -> u64 {
    let of = |name: &str| siding.path("office").join(name).metadata().map_or(0, |found| found.len());
    of("ledger.db") + of("ledger.db-wal")
}

#[test]
fn a_revoked_phone_fills_no_ledger() {
    let siding = Siding::set();
    let key = siding.revoked("phone-lost");
    let (mut forger, about, before) = (Forger::with(key), siding.about_visit(), ledger(&siding));
    let mut ids = Vec::new();
    for _ in 0..6 {
        let entries: Vec<_> = (0..100)
            .map(|_| {
                let mut noise = vec![0u8; 12_000];
                getrandom::fill(&mut noise).unwrap();
                let text: String = noise.iter().map(|byte| format!("{byte:02x}")).collect();
                forger.says(about, json!({ "remark": { "text": text } }))
            })
            .collect();
        ids.extend(entries.iter().map(|entry| entry.id.to_string()));
        let changes = entries.chunks(10).map(|some| change(about, some)).collect();
        relay(&siding.server, &forger.key, changes);
    }
    let grown = (ledger(&siding) - before) / 1024;
    siding.phone.yes(&["sync"]);
    let record = siding.phone.dir.join("record.db");
    let phone = record.metadata().unwrap().len() / 1024;
    println!(
        "14 MB by a revoked phone: the ledger grew by {grown} kB, an honest phone's record has {phone} kB"
    );
    assert!(grown < 2 * 1024 && phone < 2 * 1024, "{grown} kB, {phone} kB");
}

/// The lost phone's finder goes on recording, and hands a carry file to a phone that knows of the revocation.
#[test]
fn a_carry_file_of_a_revoked_phone_releases_no_car() {
    let siding = Siding::set();
    let lost = Device::of_operator(&siding.server, &siding.path("phone-lost"), "birch");
    lost.yes(&["sync"]);
    siding.revoke("phone-lost");
    siding.phone.yes(&["sync"]);
    let hold = lost.view(&siding.visit)["holds"][0]["id"].as_str().unwrap().to_owned();
    lost.yes(&["add", &siding.visit, "hold_lifted", &hold, "it was nothing"]);
    lost.yes(&["add", &siding.visit, &json!({ "released": { "as_residue": true } }).to_string()]);
    let file = siding.path("found.carry");
    lost.yes(&["carry-out", file.to_str().unwrap(), &siding.visit]);
    let (exit, said) = siding.phone.run(&["carry-in", file.to_str().unwrap()]);
    let view = siding.phone.view(&siding.visit);
    println!(
        "taken in with {exit}: {said}; hold open: {}, released: {}",
        view["holds"][0]["open"],
        !view["release"]["released"].is_null()
    );
    assert_eq!(view["holds"][0]["open"], true);
    assert!(view["release"]["released"].is_null());
}

/// What was said before the revocation and was at the office by then stands.
#[test]
fn what_a_phone_said_before_it_was_revoked_stands() {
    let siding = Siding::set();
    let lost = Device::of_operator(&siding.server, &siding.path("phone-lost"), "birch");
    lost.yes(&["sync"]);
    lost.yes(&["add", &siding.visit, "valve", "liquid_a", "shut"]);
    lost.yes(&["sync"]);
    siding.revoke("phone-lost");
    siding.phone.yes(&["sync"]);
    let fittings = siding.phone.view(&siding.visit)["fittings"].to_string();
    assert!(fittings.contains("shut"), "{fittings}");
}

/// A device that may only look at what it is given is given nothing of another site.
#[test]
fn an_inspectors_device_is_handed_no_records_it_was_not_given() {
    let siding = Siding::set();
    siding.office.yes(&["site", "new", "Other Spur", "Etc/GMT+7", "300 ft", "40"]);
    siding.office.yes(&["sync"]);
    let device = Device::new(&siding.path("inspector"), "dogwood");
    match super::code(&siding.data(), "inspector", &["--role", "inspector", "--sites", "Other Spur"]) {
        Ok(code) => {
            device.yes(&["enrol", "--server", &siding.server.url, "--code", &code]);
            device.yes(&["sync"]);
            let words = device.yes(&["list", "--all"])["visits"].to_string();
            println!("an inspector's device for another site lists {words}");
            assert!(!words.contains("4417"), "{words}");
        }
        // No such device can be made: then by the certificate alone, as an office of another version might.
        Err(why) => {
            println!("no code: {why}");
            certified(&siding, &device.key());
            let reply = relay(&siding.server, &device.key(), Vec::new());
            println!("its first round brought {} bytes with status {}", reply.body.len(), reply.status);
            assert!(reply.status >= 400 || reply.body.len() < 900, "it was handed records");
        }
    }
}

/// The organisation's certificate for an inspector's device, put where certificates stand.
fn certified(siding: &Siding, key: &farsiding_core::entry::DeviceKey) {
    use farsiding_core::entry::{Certificate, OrganisationKey};
    use farsiding_core::ids::{Digest, OrganisationId};
    use farsiding_core::store::{Durability, SqliteStore, Store as _, Write};
    let text = std::fs::read_to_string(siding.path("office/organisation.key")).unwrap();
    let office = OrganisationKey::from_secret(Digest::read(&text).unwrap().0);
    let certificate: Certificate = serde_json::from_value(json!({
        "organisation": OrganisationId::of_key(&office.public()), "device": key.public(), "name": "inspector",
        "role": "inspector", "issued_at": 0,
    }))
    .unwrap();
    let bytes = certificate.seal(&office).unwrap();
    let file = siding.path("office/ledger.db");
    let mut store = SqliteStore::open(file.to_str().unwrap(), Durability::WriteAheadLog).unwrap();
    store.commit(&[Write::Certificate { device: key.public(), bytes: &bytes }]).unwrap();
}

/// It shows in the office's own list, so that somebody may admit what is honest of it.
#[test]
fn what_came_late_is_shown_at_the_office_as_late() {
    let siding = Siding::set();
    let lost = Device::of_operator(&siding.server, &siding.path("phone-lost"), "birch");
    lost.yes(&["sync"]);
    siding.revoke("phone-lost");
    let mut forger = Forger::with(lost.key());
    let about = siding.about_visit();
    let late = forger.says(about, json!({ "remark": { "text": "a late and honest word" } }));
    relay(&siding.server, &forger.key, vec![change(about, &[late])]);
    let cookie = crate::requests::signed_in(&siding.server);
    let devices = super::page(&siding.server, &cookie, "/office/devices");
    let told = devices.contains("late") || devices.contains("after it was revoked");
    println!("the page of devices speaks of what came late: {told}");
    assert!(told);
}
