//! Tests of the script interface from a script's point of view: one JSON object per line of input and output.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test may stop at a surprise")]

use farsiding_measure::calc::lines::{answer, catalogue, listing, listing_json};
use farsiding_words::{Language, Words};
use serde_json::Value;

fn ask(formula: &str, line: &str) -> Value {
    let said = answer(formula, line);
    for language in Language::all() {
        let text = Words::of(language).line(&said);
        assert!(!text.contains('⟨'), "{language} has no word: {text}");
    }
    let text = Words::english().line(&said);
    assert!(!text.contains('\n'), "an answer is one line: {text}");
    serde_json::from_str(&text).unwrap_or_else(|error| panic!("{error}: {text}"))
}

fn value(formula: &str, line: &str) -> f64 {
    let answer = ask(formula, line);
    assert_eq!(answer["ok"], true, "{line}: {answer}");
    answer["value"].as_f64().unwrap()
}

fn refusal(formula: &str, line: &str) -> String {
    let answer = ask(formula, line);
    assert_eq!(answer["ok"], false, "{line}: {answer}");
    assert!(answer["message"].as_str().is_some_and(|message| message.len() > 10), "{answer}");
    answer["error"].as_str().unwrap().to_owned()
}

fn codes(answer: &Value) -> Vec<&str> {
    answer["findings"].as_array().unwrap().iter().map(|finding| finding["code"].as_str().unwrap()).collect()
}

#[test]
fn the_table_factor_comes_with_unit_source_and_uncertainty() {
    let answer = ask("ctl", r#"{"temp_f":80,"rd60":0.51}"#);
    assert_eq!(answer["value"], 0.96709);
    assert_eq!(answer["unit"], "1");
    assert_eq!(answer["formula"], "ctl/1");
    assert!(answer["source"].as_str().unwrap().contains("Table 24E"));
    assert!(answer["uncertainty"]["plus_minus"].as_f64().unwrap() > 0.0);
    assert!(answer["uncertainty"]["largest"].as_str().is_some());
}

/// 24E values of a public results sheet.
#[test]
fn published_24e_points_are_met() {
    for (temperature, density, ctl) in [
        (0, 0.45, 1.12010),
        (80, 0.50, 0.96507),
        (40, 0.51, 1.03082),
        (30, 0.58, 1.03187),
        (85, 0.60, 0.97480),
    ] {
        assert_eq!(value("ctl", &format!(r#"{{"temp_f":{temperature},"rd60":{density}}}"#)), ctl);
    }
}

#[test]
fn each_of_the_first_formulas_answers() {
    assert_eq!(value("rd60", r#"{"temp_f":40,"rd_obs":0.52}"#), 0.5039);
    let gallons = value("outage_volume", r#"{"outage_in":10,"diameter_in":119,"total_gal":33800}"#);
    assert!((gallons - 32_476.751_6).abs() < 0.1);
    let left = value("residue", r#"{"temp_f":40,"psig":30,"elev_ft":0,"shell_gal":33800}"#);
    assert!((left / 419.922_43 - 1.0).abs() < 5e-4);
    let net = value("net_volume", r#"{"gross_gal":30000,"temp_f":80,"rd60":0.51}"#);
    assert!((net - 30_000.0 * 0.96709).abs() < 1e-6);
    let weight = ask("weight", r#"{"net_gal":1000,"rd60":0.5}"#);
    assert!((weight["value"].as_f64().unwrap() - 4_168.59).abs() < 0.01);
    assert!((weight["also"]["lb_air"]["value"].as_f64().unwrap() - 4_164.14).abs() < 0.01);
}

#[test]
fn outside_its_table_a_formula_says_so() {
    for line in [
        r#"{"temp_f":199.5,"rd60":0.5}"#,
        r#"{"temp_f":-50.9,"rd60":0.5}"#,
        r#"{"temp_f":60,"rd60":0.3499}"#,
        r#"{"temp_f":60,"rd60":0.6881}"#,
        r#"{"temp_f":150,"rd60":0.35}"#,
        r#"{"temp_f":1e300,"rd60":0.5}"#,
        r#"{"temp_f":60,"rd60":-1}"#,
    ] {
        assert_eq!(refusal("ctl", line), "out_of_range", "{line}");
    }
    assert_eq!(
        refusal("outage_volume", r#"{"outage_in":120,"diameter_in":119,"total_gal":33800}"#),
        "out_of_range"
    );
    assert_eq!(
        refusal("outage_volume", r#"{"outage_in":-1,"diameter_in":119,"total_gal":33800}"#),
        "out_of_range"
    );
    assert_eq!(
        refusal("outage_volume", r#"{"outage_in":10,"diameter_in":119,"total_gal":500}"#),
        "inconsistent_input"
    );
}

#[test]
fn a_pressure_above_saturation_means_liquid_and_is_no_residue() {
    let line = r#"{"temp_f":0,"psig":30,"elev_ft":0,"shell_gal":33800}"#;
    assert_eq!(refusal("residue", line), "above_saturation");
}

#[test]
fn a_bad_line_gets_an_answer_of_its_own() {
    for (line, code) in [
        ("", "bad_json"),
        ("not json", "bad_json"),
        (r#"{"temp_f":80,"rd60":0.51"#, "bad_json"),
        ("[80, 0.51]", "not_an_object"),
        ("80", "not_an_object"),
        (r#"{"temp_f":NaN,"rd60":0.51}"#, "not_a_number"),
        (r#"{"temp_f":-Infinity,"rd60":0.51}"#, "not_a_number"),
        (r#"{"temp_f":1e999,"rd60":0.51}"#, "not_a_number"),
        (r#"{"temp_f":"NaN","rd60":0.51}"#, "not_a_number"),
        (r#"{"temp_f":"80 F","rd60":0.51}"#, "not_a_number"),
        (r#"{"temp_f":"0,51","rd60":0.51}"#, "not_a_number"),
        (r#"{"temp_f":true,"rd60":0.51}"#, "not_a_number"),
        (r#"{"temp_f":[80],"rd60":0.51}"#, "not_a_number"),
        (r#"{"rd60":0.51}"#, "missing_input"),
        (r#"{"temp_f":null,"rd60":0.51}"#, "missing_input"),
        (r#"{}"#, "missing_input"),
        (r#"{"temp_f":80,"temp_f":81,"rd60":0.51}"#, "inconsistent_input"),
        (r#"{"temp_f":80,"rd60":0.51,"rd60_pm":-0.001}"#, "out_of_range"),
    ] {
        assert_eq!(refusal("ctl", line), code, "{line}");
    }
    assert_eq!(refusal("ctl ", r#"{"temp_f":80,"rd60":0.51}"#), "unknown_formula");
    assert_eq!(refusal("ctl", &format!("{}1{}", "[".repeat(2_000), "]".repeat(2_000))), "bad_json");
    assert_eq!(refusal("ctl", &"x".repeat(1 << 20)), "line_too_long");
}

#[test]
fn what_can_be_understood_is_used_and_pointed_out() {
    let answer = ask("ctl", r#"{"temp_f":"80","rd60":" 0.51 ","tmp_c":3,"id":"line 7"}"#);
    assert_eq!(answer["value"], 0.96709);
    assert_eq!(answer["id"], "line 7");
    let codes = codes(&answer);
    assert!(codes.contains(&"number_as_text") && codes.contains(&"unknown_input"), "{codes:?}");
    assert!(answer.to_string().contains("tmp_c"));
    let twice = ask("ctl", "\u{feff}{\"temp_f\":80,\"temp_f\":80,\"rd60\":0.51}\r\n");
    assert!(self::codes(&twice).contains(&"key_twice"));
    assert_eq!(ask("ctl", r#"{"id":7,"temp_f":999}"#)["id"], 7.0);
}

#[test]
fn a_stated_uncertainty_replaces_the_presumed_one() {
    let presumed = ask("ctl", r#"{"temp_f":80,"rd60":0.51}"#);
    assert!(codes(&presumed).contains(&"presumed_uncertainty"));
    let stated = ask("ctl", r#"{"temp_f":80,"temp_f_pm":10,"rd60":0.51,"rd60_pm":0}"#);
    assert!(!codes(&stated).contains(&"presumed_uncertainty"));
    assert!(stated["plus_minus"].as_f64() > presumed["plus_minus"].as_f64());
    assert!(stated["largest"].to_string().contains("temperature"));
}

#[test]
fn table_24e_refuses_propylene_and_net_volume_goes_another_way() {
    let line = r#"{"temp_f":80,"rd60":0.52,"mix":{"propylene":1}}"#;
    assert_eq!(refusal("ctl", line), "not_applicable");
    assert_eq!(refusal("ctl", r#"{"temp_f":80,"rd60":0.52,"mix":{"propene":1}}"#), "unknown_component");
    let net = ask("net_volume", r#"{"gross_gal":1000,"temp_f":100,"mix":"propylene"}"#);
    assert!(codes(&net).contains(&"density_ratio_used"));
    assert!(net["source"].as_str().unwrap().contains("density ratio"));
}

#[test]
fn the_list_names_every_formula_input_range_and_source() {
    let text = listing(farsiding_words::english);
    let json = listing_json();
    assert_eq!(json.as_array().unwrap().len(), catalogue().len());
    assert!(!text.contains('⟨') && !text.contains("{$"), "a message is in no catalogue: {text}");
    for formula in catalogue() {
        for said in [formula.about(), formula.method(), formula.source(), formula.wrong_when()] {
            assert!(text.contains(&farsiding_words::english(&said)), "{said:?}");
        }
        assert!(text.contains(formula.name));
        for input in formula.inputs {
            assert!(text.contains(input.key), "{}", input.key);
        }
    }
}

/// One line every formula answers well; the property test varies these.
const GOOD: [(&str, &str); 25] = [
    ("ctl", r#"{"temp_f":80,"rd60":0.51}"#),
    ("rd60", r#"{"temp_f":80,"rd_obs":0.51}"#),
    ("ctl_metric", r#"{"temp_c":25,"density":510,"base_c":"15"}"#),
    ("base_density", r#"{"temp_c":25,"density_obs":500,"base_c":"20"}"#),
    ("density_ratio", r#"{"temp_f":80,"mix":{"propylene":1}}"#),
    ("outage_volume", r#"{"outage_in":10,"diameter_in":119,"total_gal":33800,"heads":"2:1"}"#),
    ("outage_table", r#"{"outage_in":2.5,"table":[[0,33800],[1,33758],[2,33681],[3,33581],[4,33463]]}"#),
    ("net_volume", r#"{"gross_gal":30000,"temp_f":80,"rd60":0.51}"#),
    ("weight", r#"{"net_gal":30000,"rd60":0.51,"in":"air"}"#),
    (
        "quantity",
        r#"{"liquid_gal":29000,"shell_gal":33800,"temp_f":80,"rd60":0.507,"psig":120,"elev_ft":500}"#,
    ),
    ("over_short", r#"{"billed":30000,"found":29600,"found_pm":150}"#),
    ("psat", r#"{"temp_f":60,"mix":{"propane":1}}"#),
    ("tsat", r#"{"psia":107.7146,"mix":{"propane":1}}"#),
    ("vapour_density", r#"{"temp_f":60,"psia":60,"mix":{"propane":0.97,"ethane":0.03}}"#),
    ("superheat", r#"{"temp_f":60,"psig":40,"elev_ft":0,"mix":{"propane":1}}"#),
    ("residue", r#"{"temp_f":40,"psig":40,"elev_ft":0,"shell_gal":33800}"#),
    ("arrival_pressure", r#"{"temp_f":60,"psig":94,"elev_ft":0,"grade":"hd5_propane"}"#),
    ("overfill", r#"{"net_gal":31000,"shell_gal":33800,"rd60":0.508}"#),
    (
        "receiver_room",
        r#"{"capacity_gal":60000,"held_gal":10000,"temp_f":60,"coming_gal":30000,"rd60":0.508,"setting":"above_ground_large"}"#,
    ),
    ("transfer_rate", r#"{"readings":[[0,30000],[10,28500],[20,27000],[30,25500]]}"#),
    ("pump_down", r#"{"shell_gal":33700,"temp_f":80,"start_psig":125,"end_psig":40,"cfm":36,"elev_ft":0}"#),
    ("leak_hold", r#"{"start_psig":60,"start_f":60,"end_psig":57,"end_f":40,"minutes":30,"elev_ft":0}"#),
    (
        "empty_proof",
        r#"{"rod":"at_bottom","valve":"vapour","psig":40,"low_f":45,"ambient_f":60,"elev_ft":0}"#,
    ),
    ("wear", r#"{"efforts":[[0,28],[60,31],[120,34],[180,38],[240,43]]}"#),
    ("freeze", r#"{"air_f":31,"precipitation":"freezing_rain"}"#),
];

#[test]
fn every_formula_of_the_list_has_a_line_it_answers() {
    let named: Vec<&str> = GOOD.iter().map(|(formula, _)| *formula).collect();
    let listed: Vec<&str> = catalogue().iter().map(|formula| formula.name).collect();
    assert_eq!(named, listed);
    for (formula, line) in GOOD {
        let answer = ask(formula, line);
        assert_eq!(answer["ok"], true, "{formula}: {answer}");
        let shape = ["value", "band", "outcome"].iter().filter(|key| !answer[**key].is_null()).count();
        assert_eq!(shape, 1, "{formula}: {answer}");
        assert!(answer["source"].as_str().is_some_and(|source| source.len() > 5), "{formula}");
        if !answer["value"].is_null() {
            assert!(answer["uncertainty"]["plus_minus"].is_number(), "{formula}: {answer}");
            let listed = catalogue().iter().find(|listed| listed.name == formula).unwrap();
            assert_eq!(answer["unit"], listed.unit.symbol(), "{formula}");
        }
    }
}

#[test]
fn every_required_input_is_missed_by_name() {
    for (formula, line) in GOOD {
        let fields: serde_json::Map<String, Value> = serde_json::from_str(line).unwrap();
        for key in fields.keys() {
            let mut without = fields.clone();
            without.remove(key);
            let answer = ask(formula, &Value::Object(without).to_string());
            if answer["ok"] == false {
                let message = answer["message"].as_str().unwrap();
                assert_eq!(answer["error"], "missing_input", "{formula} without {key}: {answer}");
                let named = key.trim_end_matches("_ft");
                assert!(
                    message.contains(key) || message.contains(named) || message.contains("psia"),
                    "{formula} without {key}: {message}"
                );
            }
        }
    }
}

#[test]
fn saturation_leads_there_and_back() {
    assert!((value("psat", r#"{"temp_f":60,"mix":{"propane":1}}"#) - 107.714_6).abs() < 1e-3);
    assert!((value("tsat", r#"{"psia":107.7146,"mix":{"propane":1}}"#) - 60.0).abs() < 1e-3);
    let superheat = value("superheat", r#"{"temp_f":60,"psia":107.7146,"mix":"propane"}"#);
    assert!(superheat.abs() < 1e-3);
    assert_eq!(refusal("vapour_density", r#"{"temp_f":60,"psia":108,"mix":"propane"}"#), "above_saturation");
    assert_eq!(refusal("psat", r#"{"temp_f":200,"mix":"ethane"}"#), "out_of_range");
    assert_eq!(refusal("psat", r#"{"temp_f":60,"mix":{"propane":0.5}}"#), "inconsistent_input");
    assert_eq!(
        refusal("psat", r#"{"temp_f":60,"mix":{"propane":1},"grade":"hd5_propane"}"#),
        "inconsistent_input"
    );
    assert_eq!(refusal("psat", r#"{"temp_f":60,"mix":{}}"#), "inconsistent_input");
    assert_eq!(refusal("psat", r#"{"temp_f":60,"mix":{"propane":1.2,"ethane":-0.2}}"#), "out_of_range");
    assert_eq!(refusal("psat", r#"{"temp_f":60}"#), "missing_input");
}

#[test]
fn a_presumed_composition_is_a_band_and_never_one_number() {
    for (formula, line) in [
        ("psat", r#"{"temp_f":60,"grade":"hd5_propane"}"#),
        ("vapour_density", r#"{"temp_f":60,"psia":60,"grade":"commercial_propane"}"#),
        ("residue", r#"{"temp_f":60,"psig":40,"elev_ft":0,"shell_gal":33800,"grade":"hd5_propane"}"#),
    ] {
        let answer = ask(formula, line);
        assert!(answer["value"].is_null(), "{answer}");
        let [low, high] = ["low", "high"].map(|end| answer["band"][end].as_f64().unwrap());
        assert!(low < high, "{answer}");
        assert_ne!(answer["band"]["low_for"], answer["band"]["high_for"]);
    }
}

#[test]
fn a_better_gauge_makes_a_better_residue_and_an_overdue_one_a_worse() {
    let with = |gauge: &str| {
        let line = format!(r#"{{"temp_f":40,"temp_f_pm":2,"psig":40,"elev_ft":0,"shell_gal":33800{gauge}}}"#);
        ask("residue", &line)
    };
    let spread = |gauge: &str| with(gauge)["plus_minus"].as_f64().unwrap();
    let good = spread(r#","gauge_grade":"2A","gauge_span":60"#);
    let usual = spread(r#","gauge_grade":"B","gauge_span":60"#);
    let late = r#","gauge_grade":"B","gauge_span":60,"gauge_overdue":true"#;
    assert!(good < usual && usual < spread(late));
    assert!(codes(&with(late)).contains(&"calibration_overdue"));
    let off = r#"{"temp_f":80,"psig":70,"elev_ft":0,"shell_gal":33800,"gauge_grade":"B","gauge_span":60}"#;
    assert_eq!(refusal("residue", off), "out_of_range");
    let bare = r#"{"temp_f":80,"psig":40,"elev_ft":0,"shell_gal":33800,"gauge_grade":"B"}"#;
    assert_eq!(refusal("residue", bare), "missing_input");
}

#[test]
fn a_propylene_car_is_known_by_its_product_too() {
    assert_eq!(refusal("ctl", r#"{"temp_f":80,"rd60":0.52,"product":"propylene"}"#), "not_applicable");
    assert_eq!(refusal("rd60", r#"{"temp_f":80,"rd_obs":0.52,"product":"UN1077"}"#), "not_applicable");
    assert_eq!(value("ctl", r#"{"temp_f":80,"rd60":0.51,"product":"UN1978"}"#), 0.96709);
    let net = ask("net_volume", r#"{"gross_gal":1000,"temp_f":100,"rd60":0.52,"product":"propylene"}"#);
    assert!(codes(&net).contains(&"density_ratio_used"));
}

#[test]
fn a_misspelt_key_is_named_beside_the_missing_one() {
    let answer = ask("ctl", r#"{"temp":80,"rd60":0.51}"#);
    assert_eq!(answer["error"], "missing_input");
    let message = answer["message"].as_str().unwrap();
    assert!(message.contains("temp_f") && message.contains("Not used: temp"), "{message}");
}

#[test]
fn the_words_a_grade_may_have_are_the_grades_there_are() {
    use farsiding_measure::calc::fluid::Grade;
    let words = catalogue()
        .iter()
        .flat_map(|formula| formula.inputs)
        .find_map(|input| match input.kind {
            farsiding_measure::calc::lines::Kind::Word { words } if input.key == "grade" => Some(words),
            _ => None,
        })
        .unwrap();
    assert_eq!(words.to_vec(), Grade::ALL.map(Grade::key));
}
