//! The catalogue printed for people (`farsiding calc --list`) and for programs (`--list --json`).
//!
//! What is said of a formula is a message; whoever asks gives its words.

use serde_json::{Value, json};

use super::catalogue::catalogue;
use super::schema::{Formula, Input, Kind, Need, column};
use crate::{Arg, Joint, Message, message};

/// Every formula with its inputs, ranges, method, source and what would make it wrong, as plain text. `says`
/// gives the text of a message in the reader's language.
pub fn listing(says: impl Fn(&Message) -> String) -> String {
    let line = |id| says(&Message::new(id)) + "\n";
    let mut text = line("calc-list-head") + &line("calc-list-plus-minus");
    let mut add = |indent: &str, message: Message| {
        text.push_str(&format!("{indent}{}\n", says(&message)));
    };
    for formula in catalogue() {
        let (name, unit) = (Arg::typed(formula.name), Arg::typed(formula.unit.symbol()));
        add("\n", message!("calc-list-formula", name = name, about = formula.about(), unit = unit));
        for input in formula.inputs {
            add(&format!("  {:<16} ", input.key), described(input));
        }
        add("  ", message!("calc-list-method", text = formula.method()));
        add("  ", message!("calc-list-source", text = formula.source()));
        add("  ", message!("calc-list-wrong", text = formula.wrong_when()));
    }
    text
}

fn described(input: &Input) -> Message {
    let number = |number: f64| Arg::Number(number.to_string());
    let what = match input.kind {
        Kind::Number { unit, low, high, spread, .. } => {
            let range = |id| {
                Message::new(id)
                    .with("unit", Arg::typed(unit.symbol()))
                    .with("low", number(low))
                    .with("high", number(high))
            };
            if spread > 0.0 {
                range("calc-list-number-presumed").with("spread", number(spread))
            } else {
                range("calc-list-number")
            }
        }
        Kind::Mix => message!("calc-list-mix"),
        Kind::Word { words } => message!("calc-list-words", words = Arg::typed(words.join(", "))),
        Kind::Flag => message!("calc-list-flag"),
        Kind::Rows { columns } => {
            let columns = columns.iter().copied().map(column);
            message!("calc-list-rows", columns = Arg::list(Joint::Comma, columns))
        }
    };
    let about = input.about();
    match input.need {
        Need::Required => message!("calc-list-input", about = about, what = what),
        Need::Optional => message!("calc-list-input-optional", about = about, what = what),
        Need::Default(value) => {
            message!("calc-list-input-default", about = about, what = what, value = number(value))
        }
    }
}

/// The same as JSON, one array of formulas. What is said of them are messages.
pub fn listing_json() -> Value {
    Value::Array(catalogue().iter().map(formula_json).collect())
}

fn formula_json(formula: &Formula) -> Value {
    let inputs: Vec<Value> = formula.inputs.iter().map(input_json).collect();
    json!({
        "name": formula.name,
        "about": formula.about(),
        "unit": formula.unit,
        "inputs": inputs,
        "method": formula.method(),
        "source": formula.source(),
        "wrong_when": formula.wrong_when(),
    })
}

fn input_json(input: &Input) -> Value {
    let mut value = match input.kind {
        Kind::Number { name, unit, low, high, spread } => json!({
            "kind": "number", "name": name, "unit": unit, "low": low, "high": high, "presumed_half_width": spread
        }),
        Kind::Mix => json!({ "kind": "mix" }),
        Kind::Word { words } => json!({ "kind": "word", "words": words }),
        Kind::Flag => json!({ "kind": "flag" }),
        Kind::Rows { columns } => {
            let columns: Vec<Message> = columns.iter().copied().map(column).collect();
            json!({ "kind": "rows", "columns": columns })
        }
    };
    value["key"] = json!(input.key);
    value["about"] = json!(input.about());
    value["required"] = json!(matches!(input.need, Need::Required));
    if let Need::Default(default) = input.need {
        value["default"] = json!(default);
    }
    value
}
