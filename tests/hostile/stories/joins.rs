//! "One stay, two records": a join of two cars or two sites is a question until the office answers, and opens no door.

use serde_json::json;

use super::{Forger, Siding, change, page, relay};
use crate::requests::{ask, signed_in};
use crate::stage::{Answer, Device};

/// A second site with a car and words about it that are nobody's business at the first.
fn elsewhere(siding: &Siding) -> String {
    siding.office.yes(&["site", "new", "Other Spur", "Etc/GMT+7", "300 ft", "40"]);
    siding.office.yes(&["sync"]);
    siding.phone.yes(&["sync"]);
    let said = siding.phone.yes(&["open", "--car", "ZZQX 9001", "--site", "Other Spur"]);
    let visit = said["visit"].as_str().unwrap().to_owned();
    siding.phone.yes(&["add", &visit, "remark", "words of the other site"]);
    siding.phone.yes(&["sync"]);
    visit
}

/// As signed by an enrolled phone, in both documents.
fn joined(siding: &Siding, other: &str) {
    let here = siding.about_visit();
    let there = farsiding_core::ids::Subject::read(&format!("visit:{other}")).unwrap();
    let joiner = Device::of_operator(&siding.server, &siding.path("phone-joining"), "birch");
    let mut forger = Forger::with(joiner.key());
    let entry = forger.speaks(here, json!({ "joined": { "other": other } }), &[], &[], "one car");
    let entries = [entry];
    relay(&siding.server, &forger.key, vec![change(here, &entries), change(there, &entries)]);
}

/// An inspector's link to the first stay, opened: the cookie.
fn inspector(siding: &Siding, clerk: &str) -> String {
    let shown = page(&siding.server, clerk, "/office/inquiry");
    let csrf = shown.split("name=\"csrf\" value=\"").nth(1).and_then(|rest| rest.split('"').next()).unwrap();
    let form = [("cookie", clerk), ("content-type", "application/x-www-form-urlencoded")];
    let path = format!("/office/visits/{}/links", siding.visit);
    let body = format!("csrf={csrf}&label=inspector&days=7");
    let made = ask(&siding.server, "POST", &path, &form, body.as_bytes());
    let made = String::from_utf8_lossy(&made.body).into_owned();
    let at = made.find("/office/link/").expect(&made);
    let link = made[at..].split(['<', '"', ' ', '\n']).next().unwrap();
    opened(siding, link)
}

fn opened(siding: &Siding, link: &str) -> String {
    use std::io::{Read as _, Write as _};
    let mut stream = crate::requests::connect(&siding.server);
    let head = format!(
        "POST {link} HTTP/1.1\r\nhost: x\r\nconnection: close\r\ncontent-type: application/x-www-form-urlencoded\r\n\
         content-length: 0\r\n\r\n"
    );
    stream.write_all(head.as_bytes()).unwrap();
    let mut answer = String::new();
    stream.read_to_string(&mut answer).unwrap();
    let mut set = answer.lines().filter_map(|line| line.strip_prefix("set-cookie: "));
    let cookie = set.find(|set| set.starts_with("farsiding=")).expect(&answer);
    cookie.split(';').next().unwrap().to_owned()
}

fn looks(siding: &Siding, cookie: &str, path: &str) -> Answer {
    ask(&siding.server, "GET", path, &[("cookie", cookie)], b"")
}

#[test]
fn an_inspectors_link_opens_what_it_opened_when_it_was_made() {
    let siding = Siding::set();
    let other = elsewhere(&siding);
    let clerk = signed_in(&siding.server);
    super::page_until(&siding.server, &clerk, "/office/", |shown| shown.contains("9001"));
    let guest = inspector(&siding, &clerk);
    let path = format!("/office/visits/{}", siding.visit);
    assert_eq!(looks(&siding, &guest, &path).status, 200);
    let theirs = format!("/office/visits/{other}");
    assert_ne!(looks(&siding, &guest, &theirs).status, 200, "not before");
    joined(&siding, &other);
    std::thread::sleep(std::time::Duration::from_secs(2)); // the index follows
    for path in [path, theirs] {
        let answer = looks(&siding, &guest, &path);
        let shown = String::from_utf8_lossy(&answer.body).into_owned();
        let told = shown.contains("words of the other site");
        println!("after the join, status {} and the other site's words shown: {told}", answer.status);
        assert!(!told, "an inspector reads what no link was made for");
    }
}

#[test]
fn two_cars_of_two_sites_are_not_one_stay_because_a_phone_says_so() {
    let siding = Siding::set();
    let other = elsewhere(&siding);
    joined(&siding, &other);
    let device = siding.bystander("phone-9");
    let view = device.view(&siding.visit);
    println!("the stay has the visits {}", view["header"]["visits"]);
    assert_eq!(view["header"]["visits"].as_array().map(Vec::len), Some(1));
    assert!(!view["history"].to_string().contains("words of the other site"));
    let listed = device.yes(&["list", "--all"])["visits"].as_array().unwrap().len();
    assert_eq!(listed, 2, "two cars stand, and two are listed");
}
