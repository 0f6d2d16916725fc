//! The release gate through the real program: each thing left out is named, by itself, with who asks for it;
//! `release` refuses while it is missing; once it is done it is asked for no more.

use std::path::Path;

use crate::job::{CLOSING, UNLOADING, closing_but};
use crate::stage::Device;

/// A device on which the job was done as `closing` says; the device and the visit.
fn done(folder: &Path, closing: &[&str]) -> (Device, String) {
    let phone = Device::new(&folder.join("phone"), "ash");
    let visit = phone.open("ZZQX 4417");
    let lines: Vec<&str> = UNLOADING.iter().chain(closing).copied().collect();
    phone.records(&visit, &lines);
    (phone, visit)
}

/// Plays the closing, expects exactly `code` to be missing and release to be refused naming it, then does
/// what is missing and expects it to be asked for no more.
fn asks_for(code: &str, closing: &[&str], remedy: &[&str]) {
    asks_for_all(&[code], closing, remedy);
}

/// The same where one thing left out leaves several items open.
fn asks_for_all(codes: &[&str], closing: &[&str], remedy: &[&str]) {
    let folder = tempfile::tempdir().unwrap();
    let (phone, visit) = done(folder.path(), closing);
    let missing = phone.missing(&visit);
    assert_eq!(missing, codes, "left out for {codes:?}");
    let refusal = phone.no(3, &["release", &visit]);
    let page = phone.words(&["show", &visit]);
    assert!(page.contains("asked for by "), "{page}");
    for code in codes {
        assert!(refusal.contains(code), "release does not name {code}: {refusal}");
        assert!(page.contains(&format!("[{code}]")), "{page}");
    }
    phone.records(&visit, remedy);
    let still = phone.missing(&visit);
    assert!(
        !still.iter().any(|found| codes.contains(&found.as_str())),
        "{codes:?} done, asked for: {still:?}"
    );
}

#[test]
fn a_job_with_nothing_left_out_is_released() {
    let folder = tempfile::tempdir().unwrap();
    let (phone, visit) = done(folder.path(), CLOSING);
    assert_eq!(phone.missing(&visit), Vec::<String>::new());
    let said = phone.words(&["release", &visit]);
    assert!(
        said.contains("Released as residue.") && said.contains("It does not declare the car safe"),
        "{said}"
    );
}

#[test]
fn a_closure_that_is_only_hand_tight() {
    // The sign stays up: were it down, that would be missing too.
    let mut hand_tight = closing_but("closure liquid_a tool_tight", &["closure liquid_a hand_tight"]);
    hand_tight.pop();
    asks_for("closure_not_tool_tight.liquid_a", &hand_tight, &["closure liquid_a tool_tight"]);
}

#[test]
fn a_valve_left_open_behind_a_tight_plug() {
    asks_for(
        "valve_not_shut.liquid_a",
        &closing_but("valve liquid_a shut", &[]),
        &["valve liquid_a shut", "listen liquid_a quiet"],
    );
}

#[test]
fn nobody_listened_after_a_valve_was_shut() {
    // The closures as a whole were not gone over either.
    asks_for_all(
        &["listen_missing.vapour", "last_round_missing"],
        &closing_but("listen vapour quiet", &[]),
        &["listen vapour quiet"],
    );
}

#[test]
fn a_hiss() {
    asks_for(
        "hiss_heard.liquid_a",
        &closing_but("listen liquid_a quiet", &["listen liquid_a hiss"]),
        &["valve liquid_a shut", "listen liquid_a quiet"],
    );
}

#[test]
fn a_hose_left_on() {
    // The sign stays up: were it down while a line is on, that would be an item too.
    let mut left_on = closing_but("line vapour off", &[]);
    left_on.pop();
    asks_for("line_connected.vapour", &left_on, &["line vapour off"]);
}

#[test]
fn nobody_decided_that_it_is_empty() {
    let decision = CLOSING[0];
    asks_for("empty_not_accepted", &closing_but(decision, &[]), &[decision]);
    asks_for("empty_not_accepted", &closing_but(decision, &["empty_decision no [frost ring]"]), &[decision]);
}

#[test]
fn liquid_seen_after_it_was_called_empty() {
    let contradicted =
        closing_but("line liquid_a off", &["line liquid_a off", "empty_sign liquid_at_closure seen"]);
    asks_for_all(
        &["alarm.empty_against_evidence", "empty_contradicted"],
        &contradicted,
        &["empty_sign liquid_at_closure no"],
    );
}

#[test]
fn no_final_pressure_or_one_read_elsewhere_or_on_nothing() {
    let read = "reading pressure car final [38.5 psi] LG-1";
    for instead in [
        &[][..],
        &["reading pressure compressor final [38 psi] LG-9"],
        &["reading pressure shut_off_panel final [38 psi] LG-9"],
        &["reading pressure car final [38.5 psi]"],
        &["reading pressure car final [about forty] LG-1"],
    ] {
        asks_for("final_pressure_missing", &closing_but(read, instead), &[read]);
    }
}

#[test]
fn one_thread_or_less_until_documented_photographed_and_reported() {
    let folder = tempfile::tempdir().unwrap();
    let (phone, visit) =
        done(folder.path(), &closing_but("threads liquid_a [5 turns]", &["threads liquid_a [1 turns]"]));
    let code = "threads_one_or_less.liquid_a";
    for (line, words) in [
        ("defect [worn plug] no liquid_a", "a defect entry, a photograph and a report"),
        ("photo threads fitting/liquid_a/threads", "a photograph and a report"),
        ("forwarded it [the owner] [by telephone]", "a report"),
    ] {
        assert_eq!(phone.missing(&visit), [code], "before: {line}");
        let view = phone.view(&visit);
        assert!(
            view["blockers"][0]["missing"]["text"].as_str().unwrap().contains(words),
            "{}",
            view["blockers"][0]
        );
        phone.records(&visit, &[line]);
    }
    assert_eq!(phone.missing(&visit), Vec::<String>::new());
}

#[test]
fn an_adapter_that_has_not_come_back() {
    asks_for(
        "item_out.adapter vapour",
        &closing_but("item_in [adapter vapour]", &[]),
        &["item_in [adapter vapour]"],
    );
}

#[test]
fn a_cover_open_not_pinned_or_short_of_a_bolt() {
    let closed = "cover closed in 4 4";
    asks_for("cover_not_closed", &closing_but(closed, &["cover open in 4 4"]), &[closed]);
    asks_for("cover_not_pinned", &closing_but(closed, &["cover closed out 4 4"]), &[closed]);
    asks_for("cover_bolts", &closing_but(closed, &["cover closed in 3 4"]), &[closed]);
}

#[test]
fn work_under_a_cover_already_closed() {
    let late = closing_but(
        "cover closed in 4 4",
        &["cover closed in 4 4", "closure gauging_device open", "closure gauging_device tool_tight"],
    );
    asks_for("cover_not_closed", &late, &["cover closed in 4 4"]);
}

#[test]
fn no_seal_or_one_that_proves_nothing() {
    let seal = "seal applied housing_pin number=K1 kind=cable photo=last";
    asks_for("seal_missing", &closing_but(seal, &[]), &[seal]);
    for lacking in [
        "seal applied housing_pin kind=cable photo=last",
        "seal applied housing_pin number=K1 photo=last",
        "seal applied housing_pin number=K1 kind=cable",
    ] {
        asks_for("seal_incomplete.housing_pin", &closing_but(seal, &[lacking]), &[seal]);
    }
}

#[test]
fn a_reason_stands_for_a_seal_or_its_picture() {
    let seal = "seal applied housing_pin number=K1 kind=cable photo=last";
    for reason in [
        "seal applied housing_pin number=K1 kind=cable [note=the camera is frozen]",
        "step seal skipped [no seals left, the office knows]",
    ] {
        let folder = tempfile::tempdir().unwrap();
        let (phone, visit) = done(folder.path(), &closing_but(seal, &[reason]));
        assert_eq!(phone.missing(&visit), Vec::<String>::new(), "{reason}");
    }
}

#[test]
fn the_blue_sign_down_before_the_last_closure() {
    let folder = tempfile::tempdir().unwrap();
    let early =
        closing_but("closure vapour tool_tight", &["protection blue_sign away", "closure vapour tool_tight"]);
    let early: Vec<&str> = early[..early.len() - 1].to_vec();
    let (phone, visit) = done(folder.path(), &early);
    assert_eq!(phone.missing(&visit), ["blue_sign_down_early"]);
    phone.records(&visit, &["protection blue_sign set", "protection blue_sign away"]);
    assert_eq!(phone.missing(&visit), Vec::<String>::new(), "up again, and down after the last closure");
}

#[test]
fn a_hold_until_it_is_lifted() {
    let folder = tempfile::tempdir().unwrap();
    let (phone, visit) = done(folder.path(), CLOSING);
    phone.records(&visit, &["hold [frost where there was none]"]);
    let missing = phone.missing(&visit);
    assert_eq!(missing.len(), 1);
    assert!(missing[0].starts_with("hold_open."), "{missing:?}");
    phone.no(3, &["release", &visit]);
    phone.records(&visit, &["hold_lifted it [it was rime from the night]"]);
    phone.yes(&["release", &visit]);
}

#[test]
fn a_defect_that_needs_an_authority_until_one_has_spoken() {
    let folder = tempfile::tempdir().unwrap();
    let (phone, visit) = done(folder.path(), CLOSING);
    phone.records(&visit, &["defect [cracked housing lug] yes", "forwarded it [the owner] [by telephone]"]);
    let missing = phone.missing(&visit);
    assert!(missing.len() == 1 && missing[0].starts_with("authority_missing."), "{missing:?}");
    let view = phone.view(&visit);
    assert!(
        view["blockers"][0]["source"]["text"].as_str().unwrap().contains("174.50"),
        "{}",
        view["blockers"][0]
    );
    phone.records(&visit, &["authority it [approvals desk] SPOKEN-1 spoken_at=now"]);
    phone.yes(&["release", &visit]);
}

#[test]
fn fit_to_unload_is_refused_until_nothing_is_missing_or_it_is_overridden_in_one_act() {
    let folder = tempfile::tempdir().unwrap();
    let phone = Device::new(&folder.path().join("phone"), "ash");
    let visit = phone.open("ZZQX 4417");
    let before = UNLOADING.iter().position(|line| *line == "fit_to_unload").unwrap();
    let left_out = ["protection hand_brake set", "step escape_way"];
    let lines: Vec<&str> =
        UNLOADING[..before].iter().copied().filter(|line| !left_out.contains(line)).collect();
    phone.records(&visit, &lines);
    let refusal = phone.no(3, &["fit-to-unload", &visit]);
    let codes = ["protection_not_set.hand_brake", "step_open.escape_way"];
    assert!(codes.iter().all(|code| refusal.contains(code)), "{refusal}");
    let page = phone.words(&["show", &visit]);
    assert!(page.contains("FIT TO UNLOAD") && page.contains("[step_open.escape_way]"), "{page}");
    phone.records(&visit, &["protection hand_brake set"]);
    phone.no(3, &["override", &visit, "unload", codes[0], codes[1], "--reason", "reported"]);
    phone.yes(&["override", &visit, "unload", codes[1], "--reason", "reported"]);
    let said = phone.words(&["fit-to-unload", &visit]);
    assert!(said.contains("It does not declare the car safe"), "{said}");
    let view = phone.view(&visit);
    assert_eq!(view["unloading"]["open"], 0);
    assert_eq!(view["unloading"]["passed_over"], 1);
    assert!(view["unloading"]["fit"]["said"].is_object(), "{}", view["unloading"]);
}

#[test]
fn a_line_put_on_before_anybody_signed_is_an_alarm_to_be_answered() {
    let folder = tempfile::tempdir().unwrap();
    let phone = Device::new(&folder.path().join("phone"), "ash");
    let visit = phone.open("ZZQX 4417");
    let lines: Vec<&str> =
        UNLOADING.iter().chain(CLOSING).copied().filter(|line| *line != "fit_to_unload").collect();
    phone.records(&visit, &lines);
    assert_eq!(phone.missing(&visit), ["alarm.unloading_not_cleared"]);
    phone.no(3, &["release", &visit]);
    phone.yes(&[
        "override",
        &visit,
        "release",
        "alarm.unloading_not_cleared",
        "--reason",
        "done not recorded",
    ]);
    phone.yes(&["release", &visit]);
}

#[test]
fn a_blocker_is_passed_over_with_a_reason_that_stays() {
    let folder = tempfile::tempdir().unwrap();
    let (phone, visit) = done(folder.path(), &closing_but("listen vapour quiet", &[]));
    phone.no(3, &["release", &visit]);
    phone.no(3, &["pass-over", &visit, "listen_missing.vapour", "--why", "  "]);
    phone.yes(&[
        "pass-over",
        &visit,
        "listen_missing.vapour",
        "--why",
        "locomotive beside us, detector at zero",
    ]);
    phone.yes(&["override", &visit, "release", "last_round_missing", "--reason", "reported"]);
    phone.yes(&["release", &visit]);
    let page = phone.words(&["show", &visit]);
    assert!(page.contains("OVERRIDDEN: not listened (vapor valve)"), "{page}");
    assert!(page.contains("because: locomotive beside us, detector at zero"), "{page}");
}
