//! A car's whole stay recorded with commands only, from opening to release.

use super::stage::{Device, picture};

#[test]
fn a_whole_stay_is_played_by_hand_and_released() {
    let folder = tempfile::tempdir().unwrap();
    let mut device = Device::new(&folder.path().join("phone"), "op-1");
    let visit = device.open("ZZQX 4417");
    let mut minute = 0;
    let mut add = |words: &str| {
        minute += 3;
        device.clock = Some(format!("2026-01-31T{:02}:{:02}:00-06:00", 8 + minute / 60, minute % 60));
        let mut all = vec!["add", "4417"];
        all.extend(words.split('|'));
        device.yes(&all)
    };
    for words in [
        "paper|INV-1|ZZQX 4417|Invented Shipper|UN1075|PETROLEUM GASES, LIQUEFIED|30000 gal|0.508|yes",
        "clock|actual_placement|now",
        "protection|hand_brake|yes",
        "protection|chocks|yes",
        "protection|blue_sign|yes",
        "protection|track_secured|yes",
        "protection|emergency_shut_off|yes",
        "step|escape_way",
        "car_number_again|ZZQX 4417",
        "seal|found|housing_pin|INV-000099|plastic|note=no_seal_found",
        "weather|dry|NW, light",
        "car_capacity|33700 gal",
        "reading|pressure|car|arrival|118 psi|G-1",
        "reading|temperature|car|arrival|64 F|T-1",
        "reading|outage|car|arrival|14.5 in|R-1",
        "reading|level|storage_tank|arrival|8 %",
    ] {
        add(words);
    }
    for fitting in ["liquid_a", "liquid_b", "vapour", "gauging_device", "thermometer_well", "sample_line"] {
        add(&format!("closure|{fitting}|tool_tight"));
    }
    let view = device.view(&visit);
    let open: Vec<&str> = view["unloading"]["blockers"]
        .as_array()
        .unwrap()
        .iter()
        .map(|b| b["code"].as_str().unwrap())
        .collect();
    assert!(open.iter().all(|code| code.starts_with("doubt.")), "nothing was left out: {open:?}");
    if !open.is_empty() {
        device.yes(&[&["override", "4417", "unload"], &open[..], &["--reason", "other means"]].concat());
    }
    device.yes(&["fit-to-unload", "4417"]);
    let mut add = |words: &str| {
        minute += 3;
        device.clock = Some(format!("2026-01-31T{:02}:{:02}:00-06:00", 8 + minute / 60, minute % 60));
        let mut all = vec!["add", "4417"];
        all.extend(words.split('|'));
        device.yes(&all)
    };
    for line in ["liquid_a", "liquid_b", "vapour"] {
        add(&format!("item_out|adapter {line}|{line}"));
        add(&format!("line|{line}|on|H-1"));
        add(&format!("valve|{line}|open"));
    }
    add("reading|pressure|car|transfer|110 psi|G-1");
    add("reading|pressure|car|recovery|35 psi|G-1");
    add("empty_sign|rod_at_bottom|yes");
    add("empty_sign|vapour_at_liquid_valve|yes");
    add("empty_decision|yes|rod at bottom, only vapour at the liquid valve");
    for line in ["liquid_a", "liquid_b", "vapour"] {
        add(&format!("valve|{line}|shut"));
        add(&format!("listen|{line}|quiet"));
        add(&format!("line|{line}|off"));
        add(&format!("closure|{line}|tool-tight"));
        add(&format!("threads|{line}|4"));
        add(&format!("item_in|adapter {line}"));
    }
    for opening in ["gauging_device", "thermometer_well", "sample_line"] {
        if opening == "sample_line" {
            add("valve|sample_line|shut");
            add("listen|sample_line|quiet");
        }
        add(&format!("closure|{opening}|tool_tight"));
    }
    add("reading|pressure|car|final|12 psi|G-3");
    add("last_round|liquid_a,liquid_b,vapour,gauging_device,thermometer_well,sample_line");
    add("cover|yes|yes|20|20");
    for check in ["outside of the car, before it is offered", "residue paper made out", "placards in place"] {
        add(&format!("check|{check}|right"));
    }
    let (file, _) = picture(folder.path(), "seal.jpg", 9_000, 5);
    let why = device.no(3, &["release", "4417"]);
    assert!(why.contains("seal_missing"), "{why}");
    device.clock = Some("2026-01-31T14:00:00-06:00".to_owned());
    device.yes(&["photo", "4417", file.to_str().unwrap(), "--of", "seal", "--about", "seal/housing_pin"]);
    device.yes(&["add", "4417", "seal", "applied", "housing_pin", "INV-000123", "plastic", "photo=last"]);
    let (file, _) = picture(folder.path(), "number.jpg", 9_000, 6);
    device.yes(&["photo", "4417", file.to_str().unwrap(), "--of", "car_number"]);
    device.yes(&["add", "4417", "protection", "blue_sign", "no"]);
    let (code, said) = device.run(&["release", "4417"]);
    assert_eq!(code, 0, "{said}");
    let view = device.view(&visit);
    assert!(view["release"]["released"].is_object());
    assert_eq!(view["release"]["open"], 0);
    assert!(device.yes(&["list"])["visits"].as_array().unwrap().is_empty());
    assert_eq!(device.yes(&["list", "--all"])["visits"].as_array().unwrap().len(), 1);
    assert_eq!(device.yes(&["find", "INV-000123"])["found"].as_array().unwrap().len(), 1);
}

#[test]
fn a_blocker_is_passed_over_only_with_a_reason_and_stays_visible() {
    let folder = tempfile::tempdir().unwrap();
    let device = Device::new(&folder.path().join("phone"), "op-1");
    let visit = device.open("ZZQX 4417");
    let why = device.no(3, &["release", "4417"]);
    assert!(why.contains("seal_missing"), "{why}");
    let why = device.no(3, &["pass-over", "4417", "no_such_thing", "--why", "x"]);
    assert!(why.contains("seal_missing"), "{why}");
    device.no(3, &["pass-over", "4417", "seal_missing", "--why", " "]);
    let codes: Vec<String> = device.view(&visit)["blockers"]
        .as_array()
        .unwrap()
        .iter()
        .map(|blocker| blocker["code"].as_str().unwrap().to_owned())
        .collect();
    for code in &codes {
        device.yes(&[
            "pass-over",
            "4417",
            code,
            "--why",
            "the carrier pulls it now; told the office by telephone",
        ]);
    }
    device.yes(&["release", "4417"]);
    let shown = device.words(&["show", "4417"]);
    assert!(shown.contains("told the office by telephone"), "{shown}");
    assert_eq!(device.view(&visit)["passed_over"].as_array().unwrap().len(), codes.len());
}

#[test]
fn what_comes_next_is_said_with_the_command_that_records_it() {
    let folder = tempfile::tempdir().unwrap();
    let device = Device::new(&folder.path().join("phone"), "op-1");
    device.open("ZZQX 4417");
    let words = device.words(&["next", "4417"]);
    let commands: Vec<&str> =
        words.lines().filter_map(|line| line.trim().strip_prefix("$ farsiding device ")).collect();
    assert!(
        commands.iter().any(|command| command.starts_with("photo ZZQX4417 FILE --of car_number")),
        "{words}"
    );
}
