//! Amounts as typed, read by the core's units, for keypads and scripts.

use farsiding_core::units::{Amount, AmountRefusal, DecimalMark, Unit};

use crate::Trouble;

/// A reading of what was typed.
#[derive(Debug, Clone, PartialEq, uniffi::Record)]
pub struct AmountReading {
    /// The amount as it goes into a statement, as JSON; its text is exactly what was typed.
    pub amount: String,
    /// The number, in `unit`.
    pub value: f64,
    /// The unit's symbol, from the text or else as chosen.
    pub unit: String,
    /// The number with its unit, for people: "32650 gal".
    pub shown: String,
}

/// What was typed, read: one amount, or two to choose from, or none and why.
#[derive(Debug, Clone, PartialEq, uniffi::Record)]
pub struct ReadAmount {
    /// Exactly what was typed.
    pub text: String,
    /// One where the text says one thing; two, with decimals and with thousands, where only whoever typed it knows;
    /// none where it is no amount.
    pub readings: Vec<AmountReading>,
    /// Why it is not one amount, by a stable name: `nothing`, `not_a_number`, `trailing_text`, `two_readings`, `cannot_be`,
    /// `other_kind`. Empty where it is one.
    pub refused: String,
    /// The same in an English sentence.
    pub why: String,
}

/// Reads what was typed where an amount in `unit` is asked for, unless the text names another unit of its kind.
/// `decimal_mark` (`.` or `,`) is the mark usual where it was typed; without it a text that says two things ("32,650",
/// "1.234") is answered with both.
///
/// # Errors
/// `WrongCall` when `unit` is no symbol the core knows, or the mark is neither point nor comma.
#[uniffi::export]
pub fn read_amount(text: String, unit: String, decimal_mark: Option<String>) -> Result<ReadAmount, Trouble> {
    let wrong = |why: String| Trouble::WrongCall { why };
    let unit = Unit::read(&unit).map_err(|error| wrong(error.to_string()))?;
    let mark = match &decimal_mark {
        None => None,
        Some(mark) => {
            let read = DecimalMark::read(mark);
            Some(read.ok_or_else(|| wrong(format!("\"{mark}\" is neither a decimal point nor a comma")))?)
        }
    };
    let (amounts, refusal) = match Amount::typed(&text, unit, mark) {
        Ok(amount) => (vec![amount], None),
        Err(AmountRefusal::Two { decimal, thousands }) => {
            let why = AmountRefusal::Two { decimal: decimal.clone(), thousands: thousands.clone() };
            (vec![*decimal, *thousands], Some(why))
        }
        Err(why) => (Vec::new(), Some(why)),
    };
    let readings = amounts.iter().filter_map(reading_of).collect();
    let refused = refusal.as_ref().map_or("", AmountRefusal::code).to_owned();
    Ok(ReadAmount { text, readings, refused, why: refusal.map_or_else(String::new, |why| why.to_string()) })
}

fn reading_of(amount: &Amount) -> Option<AmountReading> {
    let json = serde_json::to_string(amount).ok()?;
    let unit = amount.unit.to_string();
    Some(AmountReading { amount: json, value: amount.value?, unit, shown: amount.read_as() })
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
