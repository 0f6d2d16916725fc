//! Amounts as typed, read by the core's units, for keypads and scripts.

use farsiding_core::units::{Amount, AmountFinding, Unit};

use crate::Trouble;

/// A typed amount, its reading, and what is odd about it.
#[derive(Debug, Clone, PartialEq, uniffi::Record)]
pub struct ReadAmount {
    /// Exactly what was typed.
    pub text: String,
    /// The unit's symbol that counts, from the text or else as chosen.
    pub unit: String,
    /// The number in that unit; absent when the text holds none.
    pub value: Option<f64>,
    /// Findings by name, in the order met.
    pub findings: Vec<String>,
}

/// Reads what was typed, in the chosen unit unless the text names another. The text is always kept.
///
/// # Errors
/// `WrongCall` when `unit` is no symbol the core knows.
#[uniffi::export]
pub fn read_amount(text: String, unit: String) -> Result<ReadAmount, Trouble> {
    let unit = Unit::read(&unit).map_err(|error| Trouble::WrongCall { why: error.to_string() })?;
    let (amount, findings) = Amount::read(&text, unit);
    Ok(ReadAmount {
        text: amount.text,
        unit: amount.unit.to_string(),
        value: amount.value,
        findings: findings.iter().map(|finding| finding_name(finding).to_owned()).collect(),
    })
}

fn finding_name(finding: &AmountFinding) -> &'static str {
    match finding {
        AmountFinding::NotANumber => "not_a_number",
        AmountFinding::CannotBe => "cannot_be",
        AmountFinding::UnitFromText => "unit_from_text",
        AmountFinding::DecimalComma => "decimal_comma",
        AmountFinding::TrailingText => "trailing_text",
    }
}

/// Answers one line of JSON for a formula by its name, as `farsiding calc` does. Never fails: what is
/// wrong with the line is said in the answer.
#[uniffi::export]
pub fn calculate(formula: String, line: String) -> String {
    farsiding_core::calc::lines::answer(&formula, &line)
}

/// Every formula with its inputs, ranges and source, as JSON.
#[uniffi::export]
pub fn formulas() -> String {
    farsiding_core::calc::lines::listing_json().to_string()
}
