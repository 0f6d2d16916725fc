//! Text from operators and strangers is shown as text on every page, and a log line stays one line.

use super::pages_stage::{Scene, Session, text, try_to_sign_in};
use super::stage::Device;

/// Text that would be a script, a picture that runs one, or the end of an attribute if it were not escaped.
const HOSTILE: &str = r#"<script>alert(1)</script>"'><img src=x onerror=alert(2)>&amp;"#;

/// Checks that a page contains no tags except our own.
fn shows_no_tag_of(page: &str, place: &str) {
    let lower = page.to_lowercase();
    for tag in ["<script>alert", "<img src=x", "onerror=alert(2)>", "<b>x</b>", "javascript:"] {
        assert!(!lower.contains(tag), "{place} lets {tag} through");
    }
}

/// Returns statements with every text that an operator can type.
fn statements(defect: &str, hold: &str) -> Vec<String> {
    let text = serde_json::to_string(HOSTILE).unwrap();
    [
        r#"{"paper":{"number":T,"car":T,"shipper":T,"un_number":T,"product":T,"billed":{"text":T,"unit":"gal"},"relative_density":{"text":T,"unit":"1"}}}"#,
        r#"{"reading":{"measured":"pressure","place":"car","purpose":"final","amount":{"text":T,"unit":"psi"},"instrument":T}}"#,
        r#"{"reading":{"measured":"pressure","place":"car","purpose":"transfer","amount":{"text":T,"unit":"psi"},"instrument":T}}"#,
        r#"{"reading":{"measured":"pressure","place":"car","purpose":"transfer","amount":{"text":"90","unit":"psi","value":90.0},"instrument":T}}"#,
        r#"{"step":{"step":T,"outcome":"done","note":T}}"#,
        r#"{"line":{"fitting":"vapour","connected":true,"hose":T}}"#,
        r#"{"effort":{"fitting":"vapour","part":"valve","amount":{"text":T,"unit":"ft·lbf"}}}"#,
        r#"{"threads":{"fitting":"vapour","engaged":{"text":T,"unit":"turns"}}}"#,
        r#"{"item_out":{"item":T}}"#,
        r#"{"seal":{"event":"found","place":"housing_pin","number":T,"intact":false,"note":T}}"#,
        r#"{"photo":{"photo":{"sha256":"aa00000000000000000000000000000000000000000000000000000000000000","length":1,"media":T},"of":"seal","about":T}}"#,
        r#"{"defect":{"defect":"DEFECT","what":T,"needs_authority":true}}"#,
        r#"{"forwarded":{"defect":"DEFECT","to":T,"how":T}}"#,
        r#"{"authority":{"defect":"DEFECT","by":T,"reference":T}}"#,
        r#"{"resolved":{"defect":"DEFECT","how":T}}"#,
        r#"{"hold":{"hold":"HOLD","because":T}}"#,
        r#"{"handover_given":{"to":T}}"#,
        r#"{"weather":{"precipitation":"dry","wind":T}}"#,
        r#"{"empty_decision":{"accepted":true,"grounds":T}}"#,
        r#"{"truck_load":{"truck":T,"amount":{"text":T,"unit":"gal"}}}"#,
        r#"{"check":{"what":T,"right":false,"note":T}}"#,
        r#"{"remark":{"text":T}}"#,
        r#"{"car_number_again":{"car":T}}"#,
        r#"{"outage_table":{"name":T,"rows":[[1.0,2.0]],"liquid":true}}"#,
        r#"{"car_test_date":{"test":"relief_device","due":T}}"#,
    ]
    .iter()
    .map(|form| form.replace("DEFECT", defect).replace("HOLD", hold).replace(":T", &format!(":{text}")))
    .collect()
}

#[test]
fn whatever_an_operator_typed_is_shown_as_text_on_every_page() {
    let scene = Scene::set();
    let other = Device::new(&scene.folder.path().join("x"), HOSTILE);
    let name = r#"<b>x</b>" onfocus=alert(3) x=""#;
    other.yes(&["enrol", &scene.server.code(name, &["--role", "office"]).1]);
    other.yes(&["site", "new", HOSTILE, "Etc/GMT+6", "1200 ft", "30"]);
    let said = other.yes(&["open", "--car", HOSTILE, "--site", HOSTILE, "--spot", HOSTILE]);
    let visit = said["visit"].as_str().unwrap().to_owned();
    // The other operator disagrees, without having seen what the first is about to record.
    other.yes(&["sync"]);
    scene.phone.yes(&["sync"]);
    let intact = r#"{"seal":{"event":"found","place":"housing_pin","number":"B","intact":true}}"#;
    scene.phone.yes(&["add", &visit, "--json", intact]);
    let (defect, hold) = ("0123456789abcdef0123456789abcdef", "fedcba9876543210fedcba9876543210");
    let mut recorded = 0;
    for statement in statements(defect, hold) {
        other.yes(&["add", &visit, "--json", &statement]);
        recorded += 1;
    }
    // This adds a correction, whose reason is typed as well.
    let said = other.yes(&["add", &visit, "remark", "to be corrected"]);
    let wrong = said["entries"][0].as_str().unwrap()[..8].to_owned();
    other.yes(&["add", &visit, "remark", "text=corrected", "--replaces", &wrong, "--why", HOSTILE]);
    other.yes(&["sync"]);
    scene.phone.yes(&["sync"]);

    let office = Session::office(&scene.server);
    let path = format!("/office/visits/{visit}");
    let today = office.until("/office/", |page| page.contains(&visit));
    shows_no_tag_of(&today, "Today");
    let page = office.page(&path);
    shows_no_tag_of(&page, "the visit");
    let escaped = "&lt;script&gt;alert(1)&lt;/script&gt;";
    assert!(page.matches(escaped).count() > recorded, "every text stands there, as text");
    assert!(page.contains("Two entries differ") && page.contains("reason: &lt;script"), "{page}");
    shows_no_tag_of(&office.page("/office/devices"), "Devices");
    assert!(office.page("/office/devices").contains("&lt;b&gt;x&lt;/b&gt;"));
    let asked = super::pages_stage::quoted(HOSTILE);
    for question in [&asked, "P88", &super::pages_stage::quoted("<script>alert(1)</script>")] {
        shows_no_tag_of(&office.page(&format!("/office/inquiry?q={question}")), "Inquiry");
    }
    for page in [
        text(&try_to_sign_in(&scene.server, HOSTILE, "some wrong words here", &[])),
        text(&scene.server.ask("GET", &format!("/office/sign-in?to={asked}"), &[], b"")),
        text(&office.get(&format!("/office/{asked}"))),
        text(&office.get(&format!("/office/visits/{asked}"))),
        text(&office.send("/office/devices/enrol", &[("name", HOSTILE), ("role", "operator")])),
        text(&office.send(&format!("{path}/links"), &[("label", HOSTILE), ("days", "3")])),
        text(&office.send(&format!("{path}/settle"), &[("keeps", HOSTILE), ("why", HOSTILE)])),
        office.page(&path),
    ] {
        shows_no_tag_of(&page, "an answer");
    }
}

#[test]
fn nothing_a_stranger_types_makes_a_line_of_the_log_or_of_the_audit() {
    let scene = Scene::set();
    let forged = "x\n2026-11-25T06:00:00Z  INFO farsiding_server: signed in as the office";
    assert_eq!(try_to_sign_in(&scene.server, forged, "some wrong words here", &[]).status, 401);
    let office = Session::office(&scene.server);
    office.page(&format!("/office/inquiry?q={}", super::pages_stage::quoted(forged)));
    office.get(&format!("/office/visits/{}", super::pages_stage::quoted(forged)));
    let log = scene.server.log();
    assert!(!log.contains("signed in as the office"), "{log}");
    let rows = scene.audit();
    assert!(rows.iter().any(|(who, did, _)| did == "failed to sign in" && who.starts_with("x 2026-11-25")));
    assert!(
        rows.iter()
            .any(|(who, did, subject)| who == "Clerk" && did == "looked for" && subject.contains("INFO"))
    );
    for (who, did, subject) in rows {
        assert!(![who, did, subject].iter().any(|text| text.contains('\n')));
    }
}

#[test]
fn what_somebody_is_called_is_shown_as_text_wherever_accounts_are() {
    let scene = Scene::set();
    let name = "<script>alert(3)</script>\"'&";
    super::pages_stage::account(&scene.server, name);
    let session = Session::of(&scene.server, name);
    let set_up = session.send("/office/own/second-factor", &[("password", super::pages_stage::PASSWORD)]);
    let confirm = session.send("/office/own/second-factor/confirm", &[("code", HOSTILE)]);
    assert_eq!((set_up.status, confirm.status), (200, 422));
    for page in [
        text(&set_up),
        text(&confirm),
        session.page("/office/own"),
        session.page("/office/accounts"),
        session.page("/office/audit"),
        session.page(&format!("/office/audit?q={}", super::pages_stage::quoted(HOSTILE))),
        session.page("/office/state"),
        text(&super::pages_stage::post(
            &scene.server,
            "/office/sign-in/code",
            &[],
            &super::pages_stage::form(&[("half", HOSTILE), ("code", HOSTILE), ("to", HOSTILE)]),
        )),
    ] {
        shows_no_tag_of(&page, "an account's page");
        assert!(!page.contains("<script>alert"), "{page}");
    }
    assert!(session.page("/office/accounts").contains("&lt;script&gt;alert(3)&lt;/script&gt;"));
}
