//! Writes the table of a procedure as a text: the keys of each part in their usual order, one part after the other, so
//! that a person can read it and two editions can be compared line by line.
//!
//! `edit` calls this module.

use std::fmt::Write as _;

use toml::{Table, Value};

/// The keys of the text itself, in order.
const HEAD: [&str; 6] = ["id", "edition", "starts_from", "title", "law_read", "not_right_holds"];
/// The parts that are lists of tables, in order.
const LISTS: [&str; 4] = ["order", "left_out", "steps", "gate"];
/// The keys of the parts that come first, in order; the others follow in the order of their names.
const FIRST: [&str; 16] = [
    "rule",
    "id",
    "stage",
    "gate",
    "item",
    "of",
    "title",
    "what_to_do",
    "why",
    "what_now",
    "for_each",
    "only_for",
    "since",
    "records",
    "record",
    "say",
];

/// Returns the text of a table.
pub(super) fn written(table: &Table) -> String {
    let mut text = String::from(
        "# An edition of the organisation's own procedure, made on the pages of the office.\n\n",
    );
    let head = HEAD.iter().filter_map(|key| table.get_key_value(*key));
    let rest = table.iter().filter(|(key, _)| {
        !HEAD.contains(&key.as_str()) && !LISTS.contains(&key.as_str()) && *key != "thresholds"
    });
    for (key, value) in head.chain(rest) {
        line(&mut text, key, value);
    }
    if let Some(set) = table.get("thresholds").and_then(Value::as_table) {
        text.push_str("\n[thresholds]\n");
        set.iter().for_each(|(key, value)| line(&mut text, key, value));
    }
    for list in LISTS {
        for part in
            table.get(list).and_then(Value::as_array).into_iter().flatten().filter_map(Value::as_table)
        {
            let _ = write!(text, "\n[[{list}]]\n");
            let first = FIRST.iter().filter_map(|key| part.get_key_value(*key));
            let rest = part.iter().filter(|(key, _)| !FIRST.contains(&key.as_str()));
            first.chain(rest).for_each(|(key, value)| line(&mut text, key, value));
        }
    }
    text
}

fn line(text: &mut String, key: &str, value: &Value) {
    key_of(text, key);
    text.push_str(" = ");
    value_of(text, value);
    text.push('\n');
}

fn key_of(text: &mut String, key: &str) {
    let bare = !key.is_empty() && key.bytes().all(|b| b.is_ascii_alphanumeric() || matches!(b, b'-' | b'_'));
    if bare { text.push_str(key) } else { quoted(text, key) }
}

fn value_of(text: &mut String, value: &Value) {
    match value {
        Value::String(own) => quoted(text, own),
        Value::Integer(number) => {
            let _ = write!(text, "{number}");
        }
        // A number with a fraction keeps its point, so that it stays one.
        Value::Float(number) => {
            let _ = match number.fract() == 0.0 {
                true => write!(text, "{number:.1}"),
                false => write!(text, "{number}"),
            };
        }
        Value::Boolean(yes) => {
            let _ = write!(text, "{yes}");
        }
        Value::Datetime(at) => {
            let _ = write!(text, "{at}");
        }
        Value::Array(list) => {
            text.push('[');
            for (at, value) in list.iter().enumerate() {
                text.push_str(if at == 0 { "" } else { ", " });
                value_of(text, value);
            }
            text.push(']');
        }
        Value::Table(table) => {
            text.push_str("{ ");
            for (at, (key, value)) in table.iter().enumerate() {
                text.push_str(if at == 0 { "" } else { ", " });
                key_of(text, key);
                text.push_str(" = ");
                value_of(text, value);
            }
            text.push_str(" }");
        }
    }
}

fn quoted(text: &mut String, own: &str) {
    text.push('"');
    for c in own.chars() {
        match c {
            '"' => text.push_str("\\\""),
            '\\' => text.push_str("\\\\"),
            '\n' => text.push_str("\\n"),
            '\t' => text.push_str("\\t"),
            c if c.is_control() => {
                let _ = write!(text, "\\u{:04X}", u32::from(c));
            }
            c => text.push(c),
        }
    }
    text.push('"');
}
