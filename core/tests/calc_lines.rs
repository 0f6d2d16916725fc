//! The script interface as a script meets it: one JSON object a line in, one a line out.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test may stop at a surprise")]

use farsiding_core::calc::lines::{answer, catalogue, listing, listing_json};
use serde_json::Value;

fn ask(formula: &str, line: &str) -> Value {
    let text = answer(formula, line);
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
    assert!((gallons - 32_476.7516).abs() < 0.1);
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
    assert!(stated["largest"].as_str().unwrap().starts_with("temperature"));
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
    let text = listing();
    let json = listing_json();
    assert_eq!(json.as_array().unwrap().len(), catalogue().len());
    for formula in catalogue() {
        for words in [formula.name, formula.about, formula.method, formula.source, formula.wrong_when] {
            assert!(!words.is_empty() && text.contains(words), "{words}");
        }
        for input in formula.inputs {
            assert!(text.contains(input.key), "{}", input.key);
        }
    }
}
