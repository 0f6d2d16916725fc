//! Amounts as typed, read by the core's units, for keypads and scripts.

use std::fmt::Display;

use farsiding_core::Message;
use farsiding_core::entry::value_writer::to_json;
use farsiding_core::units::{Amount, AmountRefusal, DecimalMark, Unit};

use crate::FarsidingError;

/// One reading of a text that somebody typed as an amount.
#[derive(Debug, Clone, PartialEq, uniffi::Record)]
pub struct AmountReading {
    /// The amount as it goes into a statement, as JSON: `{text, unit, value}`. Its text is exactly what was
    /// typed.
    pub amount: String,
    /// The number, in `unit`. It is finite and within what that unit can measure at all.
    pub value: f64,
    /// The unit's symbol: the one in the text, or else the one that was asked for.
    pub unit: String,
    /// The number with its unit, for people: `32650 gal`.
    pub shown: String,
}

/// What a typed text can mean: one amount, or two to choose from, or none and why.
#[derive(Debug, Clone, PartialEq, uniffi::Record)]
pub struct ReadAmount {
    /// Exactly what was typed.
    pub text: String,
    /// The readings, at most two. There is one where the text says one thing; two, first with decimals and
    /// then with thousands, where only whoever typed the text knows; none where the text is no amount.
    pub readings: Vec<AmountReading>,
    /// Why the text is not one amount, by a stable name: `nothing`, `not_a_number`, `trailing_text`,
    /// `two_readings`, `cannot_be` (no instrument shows such a number), `other_kind` (the unit measures
    /// something else). Empty where the text is one amount.
    pub refused: String,
    /// The same in an English sentence, and in the browser, which has words of its own, the stable name
    /// again; empty where the text is one amount.
    pub why: String,
}

/// Reads a text that somebody typed where an amount in `unit` is asked for. A text that is no amount is no
/// error: the answer says so, and the text is kept.
///
/// `unit` is a unit's symbol, such as `psi` (gauge), `psia`, `°F`, `gal`, `lb`, `in` or `%`. Where the text
/// names another unit of the same kind, that unit is taken: `8 bar` for `psi`. `decimal_mark` is `.` or `,`,
/// the mark that is usual where the text was typed. Without it a text that says two things (`32,650`,
/// `1.234`) is answered with both.
///
/// # Errors
/// - `WrongCall`: `unit` is no symbol that the core knows (`why` lists all), or `decimal_mark` is another
///   mark.
#[uniffi::export]
pub fn read_amount(
    text: String,
    unit: String,
    decimal_mark: Option<String>,
) -> Result<ReadAmount, FarsidingError> {
    let wrong = |why: String| FarsidingError::wrong_call(why);
    let unit = Unit::read(&unit).map_err(|error| wrong(sentence(&error.message(), &error)))?;
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
    Ok(ReadAmount {
        text,
        readings,
        refused,
        why: refusal.as_ref().map_or_else(String::new, |why| sentence(&why.message(), why)),
    })
}

#[cfg(not(target_arch = "wasm32"))]
fn sentence(why: &Message, _: &impl Display) -> String {
    farsiding_words::english(why)
}

/// The module of the browser has no catalogues.
#[cfg(target_arch = "wasm32")]
fn sentence(_: &Message, code: &impl Display) -> String {
    code.to_string()
}

fn reading_of(amount: &Amount) -> Option<AmountReading> {
    let json = to_json(amount).ok()?;
    let unit = amount.unit.to_string();
    Some(AmountReading { amount: json, value: amount.value?, unit, shown: amount.read_as() })
}

/// Computes one formula. `formula` is its name, `line` one JSON object with its inputs, as `farsiding calc`
/// takes it: `calculate("ctl", "{\"temp_f\": 80, \"rd60\": 0.51}")`. `formulas` lists names, inputs, units
/// and ranges. Every number's key may be followed by the same key with `_pm`: its ± at 95 %, in the same
/// unit.
///
/// Returns one JSON object: `{ok: true, value, unit, plus_minus, formula, source, findings, …}` with
/// `plus_minus` at 95 % in the unit of `value`, or `{ok: false, error, message}`. Never fails: what is wrong
/// with the line is said there.
#[uniffi::export]
pub fn calculate(formula: String, line: String) -> String {
    let answer = farsiding_core::calc::lines::answer(&formula, &line);
    #[cfg(not(target_arch = "wasm32"))]
    let answer = farsiding_words::Words::english().line(&answer);
    answer
}

/// Every formula, as a JSON list of `{name, about, unit, inputs, method, source, wrong_when}`. An input of
/// the kind `number` is `{key, about, kind, name, unit, low, high, presumed_half_width, required, default?}`:
/// `low` and `high` are its range in `unit`. Never fails.
#[uniffi::export]
pub fn formulas() -> String {
    let list = farsiding_core::calc::lines::listing_json().to_string();
    #[cfg(not(target_arch = "wasm32"))]
    let list = farsiding_words::Words::english().line(&list);
    list
}
