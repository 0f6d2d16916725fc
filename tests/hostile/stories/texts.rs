//! Words that act outside their own place: marks of direction in a name turn no line of a page or a terminal round.

use serde_json::json;

use super::{Forger, Siding, change, page_until, relay};
use crate::requests::signed_in;

/// The marks that turn text round (Unicode Standard Annex 9, section 2), and the line and paragraph separators.
const MARKS: &[char] = &[
    '\u{202a}', '\u{202b}', '\u{202c}', '\u{202d}', '\u{202e}', '\u{2066}', '\u{2067}', '\u{2068}',
    '\u{2069}', '\u{200e}', '\u{200f}', '\u{061c}', '\u{2028}', '\u{2029}',
];

/// A page without what stands isolated in it.
fn around_isolated(page: &str) -> String {
    let mut rest = page;
    let mut out = String::new();
    while let Some(at) = rest.find("<bdi") {
        out.push_str(&rest[..at]);
        rest = rest[at..].split_once("</bdi>").map_or("", |(_, behind)| behind);
    }
    out.push_str(rest);
    out
}

#[test]
fn marks_of_direction_act_within_their_own_text_alone() {
    let siding = Siding::set();
    let cookie = signed_in(&siding.server);
    let visit = siding.about_visit();
    let mut forger = Forger::with(siding.phone.key());
    forger.by = "a\u{202e}hsa".to_owned();
    let entries = [
        forger.says(visit, json!({ "remark": { "text": "ready \u{202e}ton\u{2066} \u{2029}released" } })),
        forger.says(visit, json!({ "check": { "what": "hose \u{202e}gnorw", "right": true } })),
    ];
    relay(&siding.server, &forger.key, vec![change(visit, &entries)]);
    let shown = page_until(&siding.server, &cookie, &format!("/office/visits/{}", siding.visit), |page| {
        page.contains("ready")
    });
    let loose: Vec<char> = around_isolated(&shown).chars().filter(|c| MARKS.contains(c)).collect();
    let device = siding.bystander("phone-9");
    let words = device.words(&["show", &siding.visit]);
    let typed: Vec<char> =
        words.chars().filter(|c| MARKS.contains(c) && *c != '\u{2068}' && *c != '\u{2069}').collect();
    println!("on the office's page {loose:?}, on a device's terminal {typed:?}");
    assert!(loose.is_empty() && typed.is_empty());
}

#[test]
fn control_characters_of_a_record_reach_no_terminal() {
    let siding = Siding::set();
    let visit = siding.about_visit();
    let mut forger = Forger::with(siding.phone.key());
    forger.by = "ash\u{1b}[2J".to_owned();
    let remark =
        forger.says(visit, json!({ "remark": { "text": "\u{1b}]0;owned\u{7}\u{1b}[31mred\u{8}\u{7f}" } }));
    relay(&siding.server, &forger.key, vec![change(visit, &[remark])]);
    let words = siding.bystander("phone-9").words(&["show", &siding.visit]);
    let found: Vec<char> = words.chars().filter(|c| c.is_control() && *c != '\n').collect();
    println!("control characters on a terminal: {found:?}");
    assert!(found.is_empty(), "{found:?}");
}
