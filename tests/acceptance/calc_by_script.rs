//! The formulas as a script sees them: every golden row through `farsiding calc`, one JSON object a line.

use std::io::Write as _;
use std::process::Stdio;

use serde_json::{Value, json};

use crate::stage::farsiding;

/// Rows of a golden file without its citation and heading.
fn golden(file: &str) -> Vec<Vec<String>> {
    let path = format!("{}/golden/calc/{file}", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(&path).expect(&path);
    assert!(text.starts_with('#'), "{path} must open with its citation");
    let rows = text.lines().filter(|line| !line.starts_with('#') && !line.is_empty()).skip(1);
    rows.map(|line| line.split(',').map(str::to_owned).collect()).collect()
}

fn number(text: &str) -> f64 {
    text.parse().expect(text)
}

/// Sends all questions, then reads all answers.
fn answers(formula: &str, questions: &[Value]) -> Vec<Value> {
    let mut child = farsiding(&["calc", "--formula", formula])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let mut input = child.stdin.take().unwrap();
    let lines: Vec<String> = questions.iter().map(Value::to_string).collect();
    let writer = std::thread::spawn(move || input.write_all((lines.join("\n") + "\n").as_bytes()).unwrap());
    let output = child.wait_with_output().unwrap();
    writer.join().unwrap();
    assert!(output.status.success());
    let text = String::from_utf8(output.stdout).unwrap();
    let answers: Vec<Value> = text.lines().map(|line| serde_json::from_str(line).expect(line)).collect();
    assert_eq!(answers.len(), questions.len(), "one answer a line");
    answers
}

#[test]
fn every_point_of_tables_24e_and_23e_by_script() {
    for (table, formula, density) in [("24E", "ctl", "rd60"), ("23E", "rd60", "rd_obs")] {
        let rows: Vec<Vec<String>> = golden("ctl.csv").into_iter().filter(|row| row[0] == table).collect();
        let questions: Vec<Value> =
            rows.iter().map(|row| json!({ "temp_f": number(&row[1]), density: number(&row[2]) })).collect();
        let (mut met, mut refused) = (0, 0);
        for (row, answer) in rows.iter().zip(answers(formula, &questions)) {
            if row[3].is_empty() {
                assert_eq!(
                    (&answer["ok"], &answer["error"]),
                    (&json!(false), &json!("out_of_range")),
                    "{row:?}: {answer}"
                );
                refused += 1;
            } else {
                assert_eq!(answer["value"].as_f64(), Some(number(&row[3])), "{row:?}: {answer}");
                assert!(
                    answer["unit"] == "1" && answer["source"].as_str().unwrap().contains(table),
                    "{answer}"
                );
                met += 1;
            }
        }
        println!("{table}: {met} met to the last digit, {refused} refused");
        assert!(met > 50 && refused > 5, "the golden file shrank");
    }
}

#[test]
fn every_outage_by_script() {
    let rows = golden("geometry.csv");
    let questions: Vec<Value> = rows
        .iter()
        .map(|row| json!({ "outage_in": number(&row[0]), "diameter_in": 119, "total_gal": 33800 }))
        .collect();
    for (row, answer) in rows.iter().zip(answers("outage_volume", &questions)) {
        let (found, wanted) = (answer["value"].as_f64().unwrap(), number(&row[2]));
        assert!((found - wanted).abs() < 1e-4, "{row:?}: {answer}");
        assert_eq!(answer["unit"], "gal");
    }
}

#[test]
fn every_residue_by_script_within_five_in_ten_thousand() {
    let rows = golden("residue.csv");
    let questions: Vec<Value> = rows
        .iter()
        .map(|row| {
            let (elevation, fahrenheit, psig) = (number(&row[0]), number(&row[2]), number(&row[3]));
            json!({ "temp_f": fahrenheit, "psig": psig, "elev_ft": elevation, "shell_gal": 33800 })
        })
        .collect();
    let (mut largest, mut refused) = (0.0f64, 0);
    for (row, answer) in rows.iter().zip(answers("residue", &questions)) {
        if row[6].is_empty() {
            assert_eq!(
                (&answer["ok"], &answer["error"]),
                (&json!(false), &json!("above_saturation")),
                "{row:?}: {answer}"
            );
            refused += 1;
        } else {
            let error = (answer["value"].as_f64().expect("a value") / number(&row[6]) - 1.0).abs();
            largest = largest.max(error);
            assert!(error < 5e-4, "{row:?}: {answer}");
        }
    }
    println!("residue: {} rows, {refused} refused, largest relative difference {largest:.1e}", rows.len());
    assert!(refused > 0);
}

#[test]
fn a_bad_line_is_answered_and_the_next_one_too() {
    let mut child = farsiding(&["calc", "--formula", "ctl"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let lines = "{\"temp_f\":80,\"rd60\":0.51}\nnot json\n{\"temp_f\":80}\n{\"temp_f\":\"hot\",\"rd60\":0.51}\n\
                 {\"temp_f\":1e999,\"rd60\":0.51}\n[]\n{\"temp_f\":80,\"rd60\":0.51}\n";
    child.stdin.take().unwrap().write_all(lines.as_bytes()).unwrap();
    let text = String::from_utf8(child.wait_with_output().unwrap().stdout).unwrap();
    let told: Vec<Value> = text.lines().map(|line| serde_json::from_str(line).expect(line)).collect();
    let ok: Vec<bool> = told.iter().map(|answer| answer["ok"].as_bool().unwrap()).collect();
    assert_eq!(ok, [true, false, false, false, false, false, true], "{text}");
    assert_eq!(told[0]["value"], told[6]["value"]);
}
