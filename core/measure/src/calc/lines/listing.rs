//! The catalogue printed for people (`farsiding calc --list`) and for programs (`--list --json`).

use serde_json::{Value, json};

use super::catalogue::catalogue;
use super::schema::{Formula, Input, Kind, Need};

/// Every formula with its inputs, ranges, method, source and what would make it wrong, as plain text.
pub fn listing() -> String {
    let mut text = String::from(
        "Formulas for: farsiding calc --formula NAME   (one JSON object a line in, one a line out)\n\
         Any number KEY may come with KEY_pm, its ± at 95 % in the same unit; without it the presumed limits\n\
         are used and a finding says so. `id` comes back with the answer. What an instrument or a composition\n\
         makes of the uncertainty is printed with every answer. Local codes and licensed practice come first.\n",
    );
    for formula in catalogue() {
        text.push_str(&format!("\n{}: {} -> {}\n", formula.name, formula.about, formula.unit));
        for input in formula.inputs {
            text.push_str(&format!("  {:<16} {}\n", input.key, described(input)));
        }
        text.push_str(&format!("  method: {}\n", formula.method));
        text.push_str(&format!("  source: {}\n", formula.source));
        text.push_str(&format!("  wrong when: {}\n", formula.wrong_when));
    }
    text
}

fn described(input: &Input) -> String {
    let what = match input.kind {
        Kind::Number { unit, low, high, spread, .. } => {
            let presumed = if spread > 0.0 { format!(", presumed ±{spread}") } else { String::new() };
            format!("{unit}, {low} to {high}{presumed}")
        }
        Kind::Mix => {
            "mole fractions of propane, n_butane, isobutane, propylene, ethane; or one name".to_owned()
        }
        Kind::Word { words } => format!("one of {}", words.join(", ")),
        Kind::Flag => "true or false".to_owned(),
        Kind::Rows { columns } => format!("list of [{}]", columns.join(", ")),
    };
    let need = match input.need {
        Need::Required => String::new(),
        Need::Optional => "; optional".to_owned(),
        Need::Default(value) => format!("; {value} when left out"),
    };
    format!("{}: {what}{need}", input.about)
}

/// The same as JSON, one array of formulas.
pub fn listing_json() -> Value {
    Value::Array(catalogue().iter().map(formula_json).collect())
}

fn formula_json(formula: &Formula) -> Value {
    let inputs: Vec<Value> = formula.inputs.iter().map(input_json).collect();
    json!({
        "name": formula.name,
        "about": formula.about,
        "unit": formula.unit,
        "inputs": inputs,
        "method": formula.method,
        "source": formula.source,
        "wrong_when": formula.wrong_when,
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
        Kind::Rows { columns } => json!({ "kind": "rows", "columns": columns }),
    };
    value["key"] = json!(input.key);
    value["about"] = json!(input.about);
    value["required"] = json!(matches!(input.need, Need::Required));
    if let Need::Default(default) = input.need {
        value["default"] = json!(default);
    }
    value
}
