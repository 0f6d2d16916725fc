//! `farsiding calc`, fed with lines by scripts.

use std::io::{BufRead as _, BufReader, Write as _};
use std::process::Stdio;

use serde_json::Value;

use super::stage::farsiding;

#[test]
fn every_line_is_answered_before_the_next_is_sent() {
    let mut child = farsiding(&["calc", "--formula", "ctl"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let mut input = child.stdin.take().unwrap();
    let mut output = BufReader::new(child.stdout.take().unwrap());
    // The values are from a published results sheet for MPMS 11.2.4 Table 24E: 80 F at 0.51, and one out of
    // range.
    for (line, value, error) in [
        (r#"{"temp_f":80,"rd60":0.51}"#, Some(0.96709), None),
        ("this is no line", None, Some("unreadable")),
        (r#"{"temp_f":80,"rd60":0.9}"#, None, Some("out_of_range")),
        (r#"{"temp_f":100,"rd60":0.50}"#, Some(0.92704), None),
    ] {
        writeln!(input, "{line}").unwrap();
        input.flush().unwrap();
        let mut answer = String::new();
        output.read_line(&mut answer).unwrap();
        let answer: Value = serde_json::from_str(&answer).unwrap();
        assert_eq!(answer["ok"].as_bool(), Some(value.is_some()), "{line}: {answer}");
        assert_eq!(answer["value"].as_f64(), value, "{line}");
        if error == Some("out_of_range") {
            assert_eq!(answer["error"].as_str(), error);
        }
    }
    drop(input);
    assert!(child.wait().unwrap().success());
}

#[test]
fn an_unknown_formula_is_said_with_the_known_ones() {
    let output = farsiding(&["calc", "--formula", "guess"]).stdin(Stdio::null()).output().unwrap();
    assert_eq!(output.status.code(), Some(3));
    assert!(String::from_utf8(output.stderr).unwrap().contains("ctl"));
    let output = farsiding(&["calc", "--list"]).output().unwrap();
    assert!(output.status.success() && String::from_utf8(output.stdout).unwrap().contains("residue"));
}
