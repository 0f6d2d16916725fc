//! Who may say what of a stay: a hold stays, an honest reading stays, and no car goes, on the word of a key that may
//! not speak.

use farsiding_core::entry::DeviceKey;
use serde_json::{Value, json};

use super::{Forger, Siding, change, reading, relay};
use crate::requests::signed_in;
use crate::stage::Device;

const DAYS: i64 = 24 * 60 * 60 * 1000;

/// Lifts the hold, withdraws the reading, puts another in its place, and lets the car go three days back.
pub(super) fn undone(siding: &Siding, signs: DeviceKey, carries: &DeviceKey) {
    let (visit, view) = (siding.about_visit(), siding.phone.view(&siding.visit));
    let hold = view["holds"][0]["id"].as_str().unwrap();
    let honest = siding.entry("38 psi");
    let mut forger = Forger::with(signs);
    let mut entries = vec![
        forger.speaks(
            visit,
            json!({ "hold_lifted": { "hold": hold, "because": "it was nothing" } }),
            &[siding.entry("smell of gas")],
            &[],
            "",
        ),
        forger.in_slot(
            "reading/final/pressure/car",
            visit,
            json!({ "withdrawn": {} }),
            (&[], &[honest]),
            "misread",
        ),
        forger.says(visit, reading("final", 3.0)),
    ];
    forger.at = Some(crate::stage::now().0 - 3 * DAYS);
    entries.push(forger.says(visit, json!({ "released": { "as_residue": true } })));
    relay(&siding.server, carries, vec![change(visit, &entries)]);
}

fn final_pressure(view: &Value) -> String {
    let readings = view["readings"].as_array().unwrap().iter();
    let current =
        readings.filter(|r| r["slot"] == "reading/final/pressure/car").map(|r| &r["current"]["value"]);
    current.map(|value| value["amount"]["text"].to_string()).collect()
}

pub(super) fn stands_as_the_phone_said_it(siding: &Siding) {
    siding.phone.yes(&["sync"]);
    for device in [&siding.phone, &siding.bystander("phone-9")] {
        let view = device.view(&siding.visit);
        let seen =
            (view["holds"][0]["open"].clone(), final_pressure(&view), view["release"]["released"].clone());
        println!("seen on {}: {seen:?}", device.dir.display());
        assert_eq!(seen.0, true, "the hold stands");
        assert_eq!(seen.1, "\"38 psi\"", "the reading stands");
        assert!(seen.2.is_null(), "the car was not released");
        assert_eq!(
            view["disagreements"].as_array().map(Vec::len),
            Some(0),
            "and nothing is made a dispute of"
        );
        let listed = device.yes(&["list", "--all"])["visits"].to_string();
        assert!(!listed.contains("\"released\":true"), "{listed}");
    }
}

#[test]
fn left_alone_it_all_stands() {
    stands_as_the_phone_said_it(&Siding::set());
}

#[test]
fn a_revoked_phone_that_relays_a_strangers_words_undoes_nothing_at_a_car() {
    let siding = Siding::set();
    let carrier = siding.revoked("phone-lost");
    undone(&siding, Forger::stranger().key, &carrier);
    stands_as_the_phone_said_it(&siding);
}

#[test]
fn an_enrolled_phone_that_relays_a_strangers_words_undoes_nothing_at_a_car() {
    let siding = Siding::set();
    let carrier = Device::of_operator(&siding.server, &siding.path("phone-2"), "birch");
    undone(&siding, Forger::stranger().key, &carrier.key());
    stands_as_the_phone_said_it(&siding);
}

#[test]
fn a_revoked_phone_undoes_nothing_at_a_car_itself() {
    let siding = Siding::set();
    let carrier = siding.revoked("phone-lost");
    undone(&siding, carrier.clone(), &carrier);
    stands_as_the_phone_said_it(&siding);
}

/// The office's pages fold by the same rules as the phones.
#[test]
fn the_offices_pages_show_no_release_by_a_stranger() {
    let siding = Siding::set();
    let cookie = signed_in(&siding.server);
    let carrier = siding.revoked("phone-lost");
    undone(&siding, Forger::stranger().key, &carrier);
    let page =
        super::page_until(&siding.server, &cookie, &format!("/office/visits/{}", siding.visit), |page| {
            page.contains("Hold") || page.contains("hold")
        });
    let list = super::page(&siding.server, &cookie, "/office/");
    assert!(list.contains("4417"), "the car stands, and the first page shows it among those that do");
    let lines: Vec<&str> = page.split("<tr").filter(|line| line.contains("ifted")).collect();
    assert!(
        lines.iter().all(|line| line.contains("not counted")),
        "the hold is not shown as lifted: {lines:?}"
    );
}

/// An honest operator at the car takes back a colleague's reading: he may contradict it, not take it away.
#[test]
fn an_operator_withdraws_only_his_own_entries() {
    let siding = Siding::set();
    let other = Device::of_operator(&siding.server, &siding.path("phone-2"), "birch");
    other.yes(&["sync"]);
    let honest = siding.entry("38 psi");
    let mut forger = Forger::with(other.key());
    forger.by = "birch".to_owned();
    let visit = siding.about_visit();
    let taken_back = forger.in_slot(
        "reading/final/pressure/car",
        visit,
        json!({ "withdrawn": {} }),
        (&[], &[honest]),
        "not mine, and gone",
    );
    relay(&siding.server, &other.key(), vec![change(visit, &[taken_back])]);
    siding.phone.yes(&["sync"]);
    assert_eq!(final_pressure(&siding.phone.view(&siding.visit)), "\"38 psi\"");
}

/// What does not count is kept all the same, and said to be so: nothing vanishes.
#[test]
fn what_a_strangers_key_said_is_never_shown_as_what_stands() {
    let siding = Siding::set();
    let carrier = siding.revoked("phone-lost");
    undone(&siding, Forger::stranger().key, &carrier);
    let device = siding.bystander("phone-9");
    let words = device.words(&["show", &siding.visit]);
    let stands = words.split("FIT TO UNLOAD").next().unwrap();
    assert!(!stands.contains("Released"), "{stands}");
    assert!(words.contains("final pressure (car): 38 psi"), "{words}");
}

/// An operator's phone says that somebody of the office lifted the hold and let the car go over everything missing.
/// It is that phone's word, and nobody reads it as the other person's.
#[test]
fn what_a_phone_says_in_somebodys_name_is_shown_as_the_phones_word() {
    let siding = Siding::set();
    let other = Device::of_operator(&siding.server, &siding.path("phone-2"), "birch");
    let (visit, view) = (siding.about_visit(), siding.phone.view(&siding.visit));
    let hold = view["holds"][0]["id"].as_str().unwrap();
    let mut forger = Forger::with(other.key());
    forger.by = "elm".to_owned();
    let lifted = json!({ "hold_lifted": { "hold": hold, "because": "says the office" } });
    let entries = [
        forger.speaks(visit, lifted, &[siding.entry("smell of gas")], &[], ""),
        forger.says(visit, json!({ "released": { "as_residue": true } })),
    ];
    relay(&siding.server, &forger.key, vec![change(visit, &entries)]);
    let words = siding.bystander("phone-9").words(&["show", &siding.visit]);
    let told: Vec<&str> = words.lines().filter(|line| line.contains("says the office")).collect();
    println!("shown: {told:?}");
    let marked = |line: &&str| line.contains("named by the phone") || line.contains("not counted");
    assert!(!told.is_empty() && told.iter().all(marked), "{told:?}");
}
