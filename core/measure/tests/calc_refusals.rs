//! Tests that no formula returns a number it should not, with 100 000 random lines, half of them nonsense.
//!
//! Every answer is one line of JSON. A successful one contains only finite numbers, within what is physically
//! possible for its unit; a refused one has a known code. The seed is printed and can be set with
//! FARSIDING_SEED.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test may stop at a surprise")]

use farsiding_measure::calc::lines::{Formula, Kind, Need, answer, catalogue};
use proptest::prelude::*;
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};
use serde_json::{Map, Value, json};

const CASES: u32 = 100_000;

/// Codes a line may be refused with.
const CODES: [&str; 14] = [
    "missing_input",
    "not_a_number",
    "out_of_range",
    "above_saturation",
    "inconsistent_input",
    "not_applicable",
    "not_converged",
    "unknown_component",
    "unknown_word",
    "not_a_flag",
    "bad_rows",
    "bad_table",
    "bad_mix",
    "bad_json",
];

/// A value for an input: usually in range, often at its edge, sometimes nonsense.
fn value_of(kind: Kind) -> BoxedStrategy<Value> {
    match kind {
        Kind::Number { low, high, .. } => {
            let (low, high) = (low.max(-1e6), high.min(1e6));
            prop_oneof![
                12 => (low..=high).prop_map(|x| json!(x)),
                2 => Just(json!(low)),
                2 => Just(json!(high)),
                1 => (0.0..=1.0_f64).prop_map(move |part| json!(low + (high - low) * part * 1e-3)),
                1 => any::<f64>().prop_map(|x| json!(x)),
                1 => Just(json!(high * 1.0001 + 1e-9)),
                1 => prop_oneof![Just(json!("NaN")), Just(json!("inf")), Just(json!(null)), Just(json!([])), Just(json!("12.5"))],
            ]
            .boxed()
        }
        Kind::Mix => prop_oneof![
            6 => mix(),
            3 => Just(json!("propane")),
            1 => Just(json!("propylene")),
            1 => prop_oneof![Just(json!({})), Just(json!({"propane": 2.0})), Just(json!({"water": 1.0})), Just(json!(3))],
        ]
        .boxed(),
        Kind::Word { words } => {
            prop_oneof![9 => proptest::sample::select(words).prop_map(|w| json!(w)), 1 => Just(json!("?"))].boxed()
        }
        Kind::Flag => prop_oneof![9 => any::<bool>().prop_map(|b| json!(b)), 1 => Just(json!("yes"))].boxed(),
        Kind::Rows { .. } => rows(),
    }
}

fn mix() -> BoxedStrategy<Value> {
    proptest::collection::vec(prop_oneof![Just(0.0), 0.0..1.0_f64], 5)
        .prop_map(|parts| {
            let sum: f64 = parts.iter().sum();
            let keys = ["propane", "n_butane", "isobutane", "propylene", "ethane"];
            let scaled = keys.iter().zip(parts).map(|(key, part)| ((*key).to_owned(), json!(part / sum)));
            Value::Object(scaled.collect::<Map<String, Value>>())
        })
        .boxed()
}

fn rows() -> BoxedStrategy<Value> {
    let falling = (2..12_usize, 1.0..3_000.0_f64).prop_map(|(count, step)| {
        let row = |at: usize| json!([at, 33_800.0 - step * at as f64]);
        Value::Array((0..count).map(row).collect())
    });
    let cell = || prop_oneof![4 => -10.0..200.0_f64, 1 => any::<f64>()];
    let any = proptest::collection::vec((cell(), cell()), 0..8)
        .prop_map(|rows| Value::Array(rows.into_iter().map(|(a, b)| json!([a, b])).collect()));
    prop_oneof![3 => falling, 2 => any, 1 => Just(json!([[1, 2, 3]]))].boxed()
}

fn line(formula: &'static Formula) -> BoxedStrategy<Value> {
    let fields: Vec<BoxedStrategy<Option<(String, Value)>>> = formula
        .inputs
        .iter()
        .flat_map(|input| {
            let given = match input.need {
                Need::Required => 0.98,
                _ => 0.4,
            };
            let own = proptest::option::weighted(
                given,
                value_of(input.kind).prop_map(|v| (input.key.to_owned(), v)),
            );
            let spread = matches!(input.kind, Kind::Number { .. }).then(|| {
                let key = format!("{}_pm", input.key);
                let width = prop_oneof![6 => 0.0..5.0_f64, 1 => any::<f64>()];
                proptest::option::weighted(0.15, width.prop_map(move |v| (key.clone(), json!(v)))).boxed()
            });
            std::iter::once(own.boxed()).chain(spread)
        })
        .collect();
    fields.prop_map(|fields| Value::Object(fields.into_iter().flatten().collect())).boxed()
}

/// Every number of an answer is finite; those with a unit are possible for it.
fn check(formula: &str, line: &str, answer: &Value) -> Result<(), String> {
    let numbers = |value: &Value, unit: &str| -> Result<(), String> {
        let Some(number) = value.as_f64() else { return Ok(()) };
        let possible = match unit {
            "gal" | "L" | "lb" | "kg" => (-1e9..=1e9).contains(&number),
            "psia" => (0.0..=2_000.0).contains(&number),
            "lb/ft³" => (0.0..=30.0).contains(&number),
            "kg/m³" => (0.0..=1_000.0).contains(&number),
            "°F" => (-460.0..=1_000.0).contains(&number),
            "1" => (0.0..=3.0).contains(&number),
            _ => true,
        };
        if number.is_finite() && possible { Ok(()) } else { Err(format!("{number} {unit}")) }
    };
    if answer["ok"] == true {
        let unit = answer["unit"].as_str().unwrap_or("");
        numbers(&answer["value"], unit)?;
        numbers(&answer["band"]["low"], unit)?;
        numbers(&answer["band"]["high"], unit)?;
        if let Some(also) = answer["also"].as_object() {
            for further in also.values() {
                numbers(&further["value"], further["unit"].as_str().unwrap_or(""))?;
            }
        }
        let spread = answer["uncertainty"]["plus_minus"].as_f64();
        if spread.is_some_and(|spread| !spread.is_finite() || spread < 0.0) {
            return Err(format!("± {spread:?}"));
        }
        for share in answer.to_string().split(" % of the variance").map(|before| before.rsplit(' ').next()) {
            if share.and_then(|share| share.parse::<f64>().ok()).is_some_and(|share| share > 100.0) {
                return Err("a contributor of more than all".to_owned());
            }
        }
        let given = ["value", "band", "outcome"].iter().filter(|key| !answer[**key].is_null()).count();
        // A null where a number should stand is how JSON hides NaN and infinity.
        if given != 1 || answer.to_string().contains(":null") {
            return Err("no answer, two answers, or a hidden NaN".to_owned());
        }
        // Physics that must hold whatever the inputs.
        let sent: Value = serde_json::from_str(line).map_err(|error| error.to_string())?;
        let value = answer["value"].as_f64();
        let sent_number = |key: &str| sent[key].as_f64();
        match (formula, value) {
            ("outage_volume", Some(liquid))
                if sent_number("total_gal").is_some_and(|total| liquid > total * (1.0 + 1e-9)) =>
            {
                return Err("more liquid than shell".to_owned());
            }
            ("residue" | "pump_down", Some(value)) if value < 0.0 => return Err("negative".to_owned()),
            ("vapour_density", Some(value)) if value <= 0.0 => return Err("no density".to_owned()),
            ("ctl", Some(ctl))
                if sent_number("temp_f")
                    .is_some_and(|t| (t > 60.05 && ctl > 1.0) || (t < 59.95 && ctl < 1.0)) =>
            {
                return Err("expands the wrong way".to_owned());
            }
            _ => {}
        }
        Ok(())
    } else {
        let code = answer["error"].as_str().unwrap_or("");
        if CODES.contains(&code) { Ok(()) } else { Err(format!("unknown code {code}")) }
    }
}

#[test]
fn no_line_of_100_000_gets_a_number_it_should_not() {
    let seed: u64 = std::env::var("FARSIDING_SEED")
        .ok()
        .and_then(|text| text.parse().ok())
        .unwrap_or_else(|| std::time::UNIX_EPOCH.elapsed().map_or(1, |since| since.as_nanos() as u64));
    println!("FARSIDING_SEED={seed}");
    let mut bytes = [0_u8; 32];
    bytes[..8].copy_from_slice(&seed.to_le_bytes());
    let config = Config { cases: CASES, failure_persistence: None, ..Config::default() };
    let mut runner = TestRunner::new_with_rng(config, TestRng::from_seed(RngAlgorithm::ChaCha, &bytes));
    let formulas: Vec<BoxedStrategy<(&'static str, Value)>> = catalogue()
        .iter()
        .map(|formula| line(formula).prop_map(move |line| (formula.name, line)).boxed())
        .collect();
    let count = std::cell::RefCell::new(std::collections::BTreeMap::<String, u32>::new());
    let outcome = runner.run(&proptest::strategy::Union::new(formulas), |(formula, line)| {
        let line = line.to_string();
        let text = answer(formula, &line);
        let parsed: Value =
            serde_json::from_str(&text).map_err(|error| TestCaseError::fail(error.to_string()))?;
        let key = if parsed["ok"] == true { "ok".to_owned() } else { parsed["error"].to_string() };
        *count.borrow_mut().entry(key).or_default() += 1;
        check(formula, &line, &parsed)
            .map_err(|reason| TestCaseError::fail(format!("{formula} {line} -> {text}: {reason}")))
    });
    println!("{:?}", count.borrow());
    if let Err(error) = outcome {
        panic!("FARSIDING_SEED={seed}: {error}");
    }
    // The test means something only if many lines are answered and many refused.
    let good = count.borrow().get("ok").copied().unwrap_or(0);
    assert!(good > CASES / 10 && good < CASES * 9 / 10, "{good} of {CASES} answered");
    let unsolved = count.borrow().get("\"not_converged\"").copied().unwrap_or(0);
    assert!(unsolved < CASES / 100, "{unsolved} of {CASES} did not converge");
}
