//! Statements as they are typed behind `farsiding device add`, so that stories read as they are typed.

use std::io::{Read as _, Write as _};
use std::process::Stdio;

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::Statement;
use farsiding_device::DeviceError;
use farsiding_device::forms::{self, Surrounding, Words};
use farsiding_device::shapes::FormContext;

use crate::stage::{Device, ids};

impl Device {
    /// Records lines as typed behind `add`, all in one go; returns the entries' ids.
    pub fn records(&self, visit: &str, lines: &[&str]) -> Vec<String> {
        let mut child = self
            .command(&["add", visit, "-", "--json"])
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let mut input = child.stdin.take().unwrap();
        for line in lines {
            writeln!(input, "{}", serde_json::to_string(&statement(line)).unwrap()).unwrap();
        }
        drop(input);
        let mut out = String::new();
        child.stdout.take().unwrap().read_to_string(&mut out).unwrap();
        assert!(child.wait().unwrap().success(), "{lines:?}: {out}");
        ids(&serde_json::from_str(&out).unwrap())
    }
}

struct Nothing;

impl Surrounding for Nothing {
    fn here(&self) -> FormContext {
        FormContext { now: UtcMillis(1_795_528_800_000), offset_minutes: -360 }
    }
    fn defect(&self, _: &str) -> Result<String, DeviceError> {
        Ok("d1".repeat(16))
    }
    fn hold(&self, _: &str) -> Result<String, DeviceError> {
        Ok("4d".repeat(16))
    }
    fn incident(&self, _: &str) -> Result<String, DeviceError> {
        Ok("1c".repeat(16))
    }
    fn leak(&self, _: &str) -> Result<String, DeviceError> {
        Ok("1e".repeat(16))
    }
    fn note(&self, _: &str) -> Result<String, DeviceError> {
        Ok("1f".repeat(16))
    }
    fn photo(&self, _: &str) -> Result<String, DeviceError> {
        Ok("f0".repeat(32))
    }
    fn new_id(&mut self) -> String {
        "d1".repeat(16)
    }
}

/// A statement as typed behind `add`. Words in brackets stay together; photographs, defects and holds are
/// always the same one.
pub fn statement(line: &str) -> Statement {
    if line == "fit_to_unload" {
        return Statement::FitToUnload {};
    }
    if let Some(rest) = line.strip_prefix("photo ") {
        let about = rest.split_once(' ').map_or("", |(_, about)| about);
        let of = rest.split(' ').next().unwrap();
        return serde_json::from_value(serde_json::json!({ "photo": {
            "photo": { "sha256": "f0".repeat(32), "length": 3, "media": "image/jpeg" }, "of": of, "about": about,
        }}))
        .unwrap();
    }
    let mut words: Vec<String> = Vec::new();
    let mut rest = line;
    while !rest.is_empty() {
        let (word, behind) = match rest.strip_prefix('[') {
            Some(inside) => inside.split_once(']').unwrap(),
            None => rest.split_once(' ').unwrap_or((rest, "")),
        };
        words.push(word.to_owned());
        rest = behind.trim_start();
    }
    let form = forms::form_of(&words.remove(0), forms::VISIT_FORMS).unwrap();
    let mut typed = Words::default();
    for word in words {
        match word.split_once('=') {
            Some((name, value)) if form.fields.iter().any(|field| field.name == name) => {
                typed.named.insert(name.to_owned(), value.to_owned());
            }
            _ => typed.plain.push(word),
        }
    }
    if form.kind == "hold" {
        typed.named.insert("hold".to_owned(), "it".to_owned());
    }
    forms::fill(form, typed, None, &mut Nothing).unwrap_or_else(|error| panic!("{line}: {error}")).says
}
