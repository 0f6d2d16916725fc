//! Parses the words of a command into the values of a statement: amounts with units, times, yes and no, and
//! the words of the vocabulary.
//!
//! The core's table of statement kinds (`entry::spec`) says what a field holds, and the core decides what it
//! means. An amount is never refused: the typed text is kept, and anything unusual is remarked on.

use chrono::{FixedOffset, NaiveDateTime, NaiveTime, TimeZone as _};
use farsiding_core::clock::UtcMillis;
pub use farsiding_core::entry::spec::Shape;
use farsiding_core::entry::spec::Vocabulary;
use farsiding_core::units::{Amount, AmountFinding, Unit};
use serde_json::{Value, json};

use super::DeviceError;

/// The local time at which a command is given, for times typed without a date or offset.
#[derive(Debug, Clone, Copy)]
pub struct FormContext {
    /// The current time.
    pub now: UtcMillis,
    /// The offset from UTC in minutes.
    pub offset_minutes: i16,
}

/// Returns whether the field holds free text.
pub fn is_text(shape: Shape) -> bool {
    matches!(shape, Shape::Text | Shape::Prose | Shape::Person | Shape::CarNumber | Shape::Date)
}

/// Returns a short description of what a field takes, for help.
pub fn described(shape: Shape) -> String {
    match shape {
        Shape::Text | Shape::Prose | Shape::Person | Shape::CarNumber | Shape::Date => "text".to_owned(),
        Shape::Coded(codes) => format!("{} | text", codes_described(&codes)),
        Shape::Word(vocabulary) => vocabulary.words().join("|"),
        Shape::Words(vocabulary) => format!("{},…", vocabulary.words().join("|")),
        Shape::Amount(unit) => format!("amount, {unit} unless typed"),
        Shape::AmountOf(_) => "amount with unit".to_owned(),
        Shape::YesNo => "yes|no".to_owned(),
        Shape::Count => "number".to_owned(),
        Shape::Time => "now | HH:MM | YYYY-MM-DD HH:MM | RFC 3339".to_owned(),
        Shape::Defect => "defect id".to_owned(),
        Shape::Hold => "hold id".to_owned(),
        Shape::Incident => "incident id".to_owned(),
        Shape::Leak => "leak id".to_owned(),
        Shape::Note => "note id".to_owned(),
        Shape::Photo => "photo id | last".to_owned(),
        Shape::Table => "CSV file: outage in inches, gallons".to_owned(),
        Shape::PhotoFile
        | Shape::Visit
        | Shape::Site
        | Shape::Entry
        | Shape::Entries
        | Shape::Items
        | Shape::LastEntry
        | Shape::Key
        | Shape::Procedure
        | Shape::File
        | Shape::Commitment
        | Shape::Commitments
        | Shape::Sites
        | Shape::ProcedureText
        | Shape::Nonce => "filled in by the program".to_owned(),
    }
}

/// Returns the codes that a field accepts. If the codes form several groups, each group is described by one
/// example in quotes.
fn codes_described(codes: &Vocabulary) -> String {
    let groups = (codes.groups)();
    match groups.as_slice() {
        [one] => one.join(" | "),
        several => {
            let several: Vec<String> = several.iter().map(|group| group.join("|")).collect();
            format!("\"{}\"", several.join(" "))
        }
    }
}

/// Parses a word of the vocabulary. Hyphens, underscores and spaces count as equal.
///
/// # Errors
/// Returns [`DeviceError::Refused`] with the accepted words.
pub fn word(text: &str, choices: &[&'static str]) -> Result<&'static str, DeviceError> {
    let folded = text.trim().to_lowercase().replace(['-', ' '], "_");
    let begun: Vec<&'static str> =
        choices.iter().copied().filter(|choice| choice.starts_with(&folded)).collect();
    match (choices.iter().find(|choice| **choice == folded), begun.as_slice()) {
        (Some(exact), _) => Ok(exact),
        (None, [one]) if folded.len() >= 3 => Ok(one),
        _ => Err(DeviceError::Refused(format!("\"{text}\" is none of: {}", choices.join(", ")))),
    }
}

/// Parses yes or no in the usual spellings.
///
/// # Errors
/// Returns [`DeviceError::Refused`] for any other text.
pub fn yes_no(text: &str) -> Result<bool, DeviceError> {
    match text.trim().to_lowercase().as_str() {
        "yes" | "y" | "true" | "on" | "set" | "connected" | "seen" | "right" | "closed" | "in" => Ok(true),
        "no" | "n" | "false" | "off" | "away" | "disconnected" | "not seen" | "wrong" | "open" | "out" => {
            Ok(false)
        }
        _ => Err(DeviceError::Refused(format!("\"{text}\" is neither yes nor no"))),
    }
}

/// Parses an amount, and adds a remark on anything unusual. The typed text is always kept.
pub fn amount(text: &str, unit: Unit, remarks: &mut Vec<String>) -> Amount {
    let (amount, findings) = Amount::read(text, unit);
    for finding in findings {
        let said = match finding {
            AmountFinding::NotANumber => "is no number; it is kept as typed".to_owned(),
            AmountFinding::CannotBe => {
                format!("is more or less than can be in {}; it is kept as typed and not used", amount.unit)
            }
            AmountFinding::TrailingText => {
                "has text behind the number that is not understood; it is kept as typed and not used"
                    .to_owned()
            }
            AmountFinding::PointRule => match amount.value {
                Some(value) => {
                    format!("is read as {value} {}: decimals stand behind a point here", amount.unit)
                }
                None => continue,
            },
            AmountFinding::DecimalComma => match amount.value {
                Some(value) => format!("has a decimal comma; it is read as {value} {}", amount.unit),
                None => continue,
            },
            // On a command line the unit is expected to be typed with the number.
            AmountFinding::UnitFromText => continue,
        };
        remarks.push(format!("\"{text}\" {said}."));
    }
    if amount.value.is_some() && amount.unit.dimension() != unit.dimension() {
        remarks.push(format!(
            "\"{text}\" is not the kind of amount expected here (such as {unit}); it is kept as typed."
        ));
    }
    amount
}

/// Returns the usual unit of a measured quantity.
pub fn usual_unit(measured: &str) -> Unit {
    match measured {
        "pressure" => Unit::PsiGauge,
        "temperature" => Unit::Fahrenheit,
        "outage" => Unit::Inch,
        "level" => Unit::Percent,
        "volume" => Unit::Gallon,
        "rate" => Unit::GallonPerMinute,
        "torque" => Unit::FootPound,
        _ => Unit::One,
    }
}

/// Parses a time.
///
/// # Errors
/// Returns [`DeviceError::Refused`] when the text is not a time.
pub fn time(text: &str, here: FormContext) -> Result<UtcMillis, DeviceError> {
    let text = text.trim();
    if text.eq_ignore_ascii_case("now") {
        return Ok(here.now);
    }
    if let Some(instant) = UtcMillis::read(text) {
        return Ok(instant);
    }
    let offset = FixedOffset::east_opt(i32::from(here.offset_minutes) * 60);
    let local = offset.and_then(|offset| {
        let today = here.now.to_datetime()?.with_timezone(&offset).date_naive();
        let moment = NaiveDateTime::parse_from_str(text, "%Y-%m-%d %H:%M")
            .or_else(|_| NaiveDateTime::parse_from_str(text, "%Y-%m-%dT%H:%M"))
            .or_else(|_| NaiveTime::parse_from_str(text, "%H:%M").map(|time| today.and_time(time)))
            .ok()?;
        offset.from_local_datetime(&moment).single()
    });
    local.map(|moment| UtcMillis(moment.timestamp_millis())).ok_or_else(|| {
        DeviceError::Refused(format!(
            "\"{text}\" is no time; write now, 14:05, 2026-01-31 14:05 or 2026-01-31T14:05:00-06:00"
        ))
    })
}

/// Parses an outage table: two numbers per line, separated by a comma, a semicolon, a tab or blanks. A first
/// line without numbers is taken as the heading.
///
/// # Errors
/// Returns [`DeviceError::Refused`] with the number of the wrong line.
pub fn table(text: &str) -> Result<Value, DeviceError> {
    let mut rows: Vec<(f64, f64)> = Vec::new();
    for (at, line) in text.lines().enumerate().filter(|(_, line)| !line.trim().is_empty()) {
        let cells: Vec<&str> =
            line.split([',', ';', '\t', ' ']).map(str::trim).filter(|cell| !cell.is_empty()).collect();
        let pair = match cells.as_slice() {
            [outage, volume] => outage.parse().ok().zip(volume.parse().ok()),
            _ => None,
        };
        match pair {
            Some(row) => rows.push(row),
            None if at == 0 => {}
            None => {
                return Err(DeviceError::Refused(format!(
                    "line {} of the table is not two numbers: \"{line}\"",
                    at + 1
                )));
            }
        }
    }
    if rows.len() < 2 {
        return Err(DeviceError::Refused("an outage table needs at least two rows".to_owned()));
    }
    Ok(json!(rows))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;

    #[test]
    fn times_are_read_where_the_device_stands() {
        let here =
            FormContext { now: UtcMillis::read("2026-01-31T20:00:00Z").unwrap(), offset_minutes: -360 };
        for text in ["14:05", "2026-01-31 14:05", "2026-01-31T14:05:00-06:00", "2026-01-31T20:05:00Z"] {
            assert_eq!(time(text, here).unwrap().rfc3339(), "2026-01-31T20:05:00Z", "{text}");
        }
        assert_eq!(time("now", here).unwrap(), here.now);
        assert!(time("noonish", here).is_err());
    }

    #[test]
    fn an_odd_amount_is_kept_and_remarked_on() {
        let mut remarks = Vec::new();
        assert_eq!(amount("12 psi", Unit::PsiGauge, &mut remarks).value, Some(12.0));
        assert!(remarks.is_empty());
        assert_eq!(amount("1O psi", Unit::PsiGauge, &mut remarks).text, "1O psi");
        assert_eq!(amount("12 gal", Unit::PsiGauge, &mut remarks).value, Some(12.0));
        assert_eq!(remarks.len(), 2, "{remarks:?}");
    }

    #[test]
    fn a_table_is_two_columns_under_an_optional_heading() {
        assert_eq!(
            table("in,gal\n6, 33071.5\n12;31958.5\n").unwrap(),
            json!([[6.0, 33071.5], [12.0, 31958.5]])
        );
        assert!(table("6,1\n7,x\n").is_err());
        assert!(table("6,1\n").is_err());
    }

    #[test]
    fn a_word_may_be_hyphenated_or_begun() {
        let choices = ["tool_tight", "hand_tight", "open"];
        assert_eq!(word("Tool-tight", &choices).unwrap(), "tool_tight");
        assert_eq!(word("hand", &choices).unwrap(), "hand_tight");
        assert!(word("t", &choices).is_err());
    }
}
