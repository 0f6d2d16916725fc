//! Who may say what of a site and its people: only the office, whoever carries the words.

use farsiding_core::entry::DeviceKey;
use serde_json::{Value, json};

use super::{Forger, SITE, Siding, amount, change, relay};
use crate::stage::Device;

fn emergency_number(site: &Value) -> String {
    let contacts = site["contacts"].as_array().unwrap().iter();
    contacts
        .filter(|contact| contact["role"] == "emergency")
        .map(|contact| contact["telephone"].as_str().unwrap())
        .collect::<Vec<_>>()
        .join(" ")
}

fn tank_of(site: &Value) -> String {
    site["tanks"].as_array().unwrap().iter().map(|tank| tank["water_capacity"]["text"].to_string()).collect()
}

fn is_with_us(device: &Device, code: &str) -> bool {
    let people = device.yes(&["people"])["people"].clone();
    let one = people.as_array().unwrap().iter().find(|person| person["operator"] == code);
    one.is_some_and(|person| person["active"] == true)
}

/// Somebody writes the site and the people anew, signed with his key and carried by another's.
fn written_anew(siding: &Siding, signs: DeviceKey, carries: &DeviceKey) {
    let mut forger = Forger::with(signs);
    let (site, people) = (siding.about_site(), siding.about_people());
    let contact = json!({ "contact": { "role": "emergency", "name": "Depot", "telephone": "555-0666" } });
    let tank = json!({ "tank": { "name": "T-1", "water_capacity": amount(300_000.0, "gal"), "underground": false } });
    let gone = json!({ "operator": { "operator": "ash", "name": "Ash", "active": false } });
    let of_site = [forger.says(site, contact), forger.says(site, tank)];
    let of_people = [forger.says(people, gone)];
    relay(&siding.server, carries, vec![change(site, &of_site), change(people, &of_people)]);
}

/// On phones that were there before and on one that comes after, everything is as the office said it.
fn stands_as_the_office_said_it(siding: &Siding) {
    for device in [&siding.phone, &siding.bystander("phone-9")] {
        let site = siding.site_on(device);
        let seen = (emergency_number(&site), tank_of(&site), is_with_us(device, "ash"));
        println!("seen on {}: {seen:?}", device.dir.display());
        assert_eq!(seen.0, "555-0100", "the emergency number");
        assert_eq!(seen.1, "\"30 000 gal\"", "the tank");
        assert!(seen.2, "Ash is still with us");
        assert_eq!(site["disputed"].as_array().map(Vec::len), Some(0), "and nothing is made a dispute of");
    }
}

#[test]
fn left_alone_it_all_stands() {
    stands_as_the_office_said_it(&Siding::set());
}

#[test]
fn a_revoked_phone_that_relays_a_strangers_words_changes_no_site_and_nobodys_standing() {
    let siding = Siding::set();
    let carrier = siding.revoked("phone-lost");
    written_anew(&siding, Forger::stranger().key, &carrier);
    stands_as_the_office_said_it(&siding);
}

#[test]
fn an_enrolled_phone_that_relays_a_strangers_words_changes_no_site_and_nobodys_standing() {
    let siding = Siding::set();
    let carrier = Device::of_operator(&siding.server, &siding.path("phone-2"), "birch");
    written_anew(&siding, Forger::stranger().key, &carrier.key());
    stands_as_the_office_said_it(&siding);
}

#[test]
fn a_revoked_phone_changes_no_site_and_nobodys_standing_itself() {
    let siding = Siding::set();
    let carrier = siding.revoked("phone-lost");
    written_anew(&siding, carrier.clone(), &carrier);
    stands_as_the_office_said_it(&siding);
}

#[test]
fn an_operators_phone_does_not_speak_for_the_office() {
    let siding = Siding::set();
    let operator = Device::of_operator(&siding.server, &siding.path("phone-2"), "birch");
    written_anew(&siding, operator.key(), &operator.key());
    stands_as_the_office_said_it(&siding);
}

/// What an operator's own shell says when asked for it: refused in words, or it counts nowhere.
#[test]
fn an_operators_shell_does_not_pretend_to_have_changed_the_site() {
    let siding = Siding::set();
    let operator = Device::of_operator(&siding.server, &siding.path("phone-2"), "birch");
    operator.yes(&["sync"]);
    let words = ["site", "set", SITE, "contact", "emergency", "Depot", "555-0666"];
    let (exit, said) = operator.run(&words);
    operator.yes(&["sync"]);
    println!("the operator's shell ended with {exit}: {said}");
    assert_ne!(exit, 0, "what does not count is not recorded as if it did");
    stands_as_the_office_said_it(&siding);
}

/// Words handed over in a carry file are no better than those that came through the office.
#[test]
fn a_carry_file_brings_nobodys_word_about_a_site() {
    let siding = Siding::set();
    let mut forger = Forger::stranger();
    let site = siding.about_site();
    let contact = json!({ "contact": { "role": "emergency", "name": "Depot", "telephone": "555-0666" } });
    let (subject, bytes) = change(site, &[forger.says(site, contact)]);
    let file = siding.path("gift.carry");
    std::fs::write(&file, super::carried(subject, &bytes)).unwrap();
    siding.phone.run(&["carry-in", file.to_str().unwrap()]);
    stands_as_the_office_said_it(&siding);
}
