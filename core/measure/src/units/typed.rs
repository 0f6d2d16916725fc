//! The reader of amounts as people type them, in every country where this program is used.
//!
//! An amount consists of a sign, digits, at most one decimal mark (point or comma), and a unit or nothing.
//! Thousands may be separated into groups of three by blanks (including no-break ones), apostrophes, commas
//! or points. Lengths may be in feet and inches, and inches or turns may end in a fraction: `12' 3 1/2"`,
//! `3-1/2 in`. If a point *and* a comma occur, the last one is the decimal mark. A single mark with exactly
//! three digits after it and one to three before it is ambiguous, as in `32,650` and `1.234`: the usual
//! decimal mark decides if the caller states it, and otherwise both readings are returned so that the person
//! can be asked. The size of a number never decides. The amount itself is [`super::Amount`].

use super::{Dimension, Unit};

/// The mark before decimals that is usual where somebody types.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DecimalMark {
    /// A point, as in 1.5.
    Point,
    /// A comma, as in 1,5.
    Comma,
}

impl DecimalMark {
    /// Parses `.` or `,`.
    pub fn read(mark: &str) -> Option<DecimalMark> {
        match mark {
            "." => Some(DecimalMark::Point),
            "," => Some(DecimalMark::Comma),
            _ => None,
        }
    }
}

/// The longest number read, in characters. Neither people nor programs write longer ones.
const LONGEST_NUMBER: usize = 48;

/// The possible readings of a text of digits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Digits {
    /// The text is not a number.
    None,
    /// The text has one reading. The flag tells whether it contained a decimal comma.
    One(f64, bool),
    /// The text has two readings: the mark is either a decimal mark or separates thousands.
    Two {
        /// The reading with decimals.
        decimal: f64,
        /// The reading with thousands.
        thousands: f64,
        /// The mark that was typed.
        mark: DecimalMark,
    },
}

impl Digits {
    /// Returns the reading that the usual decimal mark selects.
    pub(super) fn by(self, usual: DecimalMark) -> Option<f64> {
        match self {
            Digits::None => None,
            Digits::One(number, _) => Some(number),
            Digits::Two { decimal, thousands, mark } => Some(if mark == usual { decimal } else { thousands }),
        }
    }

    /// Returns every possible reading.
    pub(super) fn all(self) -> [Option<f64>; 2] {
        match self {
            Digits::None => [None, None],
            Digits::One(number, _) => [Some(number), None],
            Digits::Two { decimal, thousands, .. } => [Some(decimal), Some(thousands)],
        }
    }
}

/// The parts of a text: the number, and the unit after it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Taken {
    pub(super) digits: Digits,
    /// The unit in the text, if there is one.
    pub(super) unit: Option<Unit>,
    /// Whether the number is followed by something that is not a unit.
    pub(super) more: bool,
}

/// Splits a text into number and unit.
pub(super) fn take(text: &str) -> Taken {
    let text = text.trim_matches(is_blank);
    let (number, behind) = text.split_at(end_of_number(text));
    let behind = behind.trim_matches(is_blank);
    if let Some(inches) = feet_and_inches(number, behind) {
        return Taken { digits: Digits::One(inches, false), unit: Some(Unit::Inch), more: false };
    }
    if behind.is_empty() {
        return Taken { digits: digits(number), unit: None, more: false };
    }
    // The exponent of a number written by a program.
    if let Some(number) = text.parse::<f64>().ok().filter(|n| n.is_finite() && behind.starts_with(['e', 'E']))
    {
        return Taken { digits: Digits::One(number, false), unit: None, more: false };
    }
    let unit = Unit::read(behind).ok();
    Taken { digits: digits(number), unit, more: unit.is_none() }
}

/// Splits a text where an amount in `unit` is asked for. Fractions are accepted only in units where they are
/// usual.
pub(super) fn take_for(text: &str, unit: Unit) -> Taken {
    let taken = take(text);
    let number = text.trim_matches(is_blank);
    let fraction = number[..end_of_number(number)].contains('/');
    if fraction && !takes_fractions(taken.unit.unwrap_or(unit)) {
        return Taken { digits: Digits::None, ..taken };
    }
    taken
}

/// Returns every reading of a text in `unit`, or none if the text cannot be read or contains a unit of
/// another kind.
pub(super) fn readings_in(text: &str, unit: Unit) -> [Option<f64>; 2] {
    let taken = take_for(text, unit);
    let typed = taken.unit.unwrap_or(unit);
    if taken.more || typed.dimension() != unit.dimension() {
        return [None, None];
    }
    let converted = |number: f64| if typed == unit { number } else { unit.from_si(typed.to_si(number)) };
    taken.digits.all().map(|number| number.map(converted))
}

pub(super) fn is_blank(c: char) -> bool {
    matches!(c, ' ' | '\u{a0}' | '\u{202f}' | '\u{2007}' | '\u{2009}') || c.is_whitespace()
}

fn is_apostrophe(c: char) -> bool {
    matches!(c, '\'' | '\u{2019}')
}

/// Returns the position at which the number ends. An apostrophe belongs to the number only between thousands;
/// otherwise it stands for feet.
fn end_of_number(text: &str) -> usize {
    let groups = |at: usize, apostrophe: char| {
        let before = text[..at].ends_with(|c: char| c.is_ascii_digit());
        let mut after = text[at + apostrophe.len_utf8()..].chars();
        let three = after.by_ref().take(3).filter(char::is_ascii_digit).count() == 3;
        before && three && !after.next().is_some_and(|c| c.is_ascii_digit())
    };
    text.char_indices()
        .find(|(at, c)| {
            let of_number = c.is_ascii_digit()
                || matches!(c, '.' | ',' | '-' | '+' | '−' | '/')
                || is_blank(*c)
                || (is_apostrophe(*c) && groups(*at, *c));
            !of_number
        })
        .map_or(text.len(), |(at, _)| at)
}

/// Reads a text of digits, marks and blanks.
pub(super) fn digits(text: &str) -> Digits {
    let text = text.trim_matches(is_blank);
    if text.is_empty() || text.len() > LONGEST_NUMBER {
        return Digits::None;
    }
    let (sign, text) = match text.chars().next() {
        Some('-' | '−') => (-1.0, text.trim_start_matches(['-', '−'])),
        Some('+') => (1.0, &text[1..]),
        _ => (1.0, text),
    };
    let signed =
        |number: Option<f64>, comma: bool| number.map_or(Digits::None, |n| Digits::One(sign * n, comma));
    if text.contains('/') {
        return signed(with_fraction(text), false);
    }
    let text = text.trim_start_matches(is_blank);
    if text.contains(|c| is_blank(c) || is_apostrophe(c)) {
        let at = text.find(['.', ',']).unwrap_or(text.len());
        let (whole, decimals) = (&text[..at], text.get(at + 1..).unwrap_or(""));
        let apart = |c: char| is_blank(c) || is_apostrophe(c);
        let one_kind = !(text.contains(is_blank) && text.contains(is_apostrophe));
        let number = grouped(whole, apart).filter(|_| one_kind).and_then(|whole| plain(&whole, decimals));
        return signed(number, text[at..].starts_with(','));
    }
    let count = |mark: char| text.matches(mark).count();
    match (count('.'), count(',')) {
        (0, 0) => signed(plain(text, ""), false),
        (0, 1) | (1, 0) => one_mark(text, sign),
        (0, _) => signed(grouped(text, |c| c == ',').and_then(|whole| plain(&whole, "")), false),
        (_, 0) => signed(grouped(text, |c| c == '.').and_then(|whole| plain(&whole, "")), false),
        _ => {
            let at = text.rfind(['.', ',']).unwrap_or(0);
            let (whole, decimals) = (&text[..at], &text[at + 1..]);
            let (comma, between) = if text[at..].starts_with(',') { (true, '.') } else { (false, ',') };
            signed(grouped(whole, |c| c == between).and_then(|whole| plain(&whole, decimals)), comma)
        }
    }
}

fn one_mark(text: &str, sign: f64) -> Digits {
    let at = text.find(['.', ',']).unwrap_or(0);
    let (whole, behind) = (&text[..at], &text[at + 1..]);
    let comma = text[at..].starts_with(',');
    let Some(decimal) = plain(if whole.is_empty() { "0" } else { whole }, behind) else {
        return Digits::None;
    };
    if whole.is_empty() && behind.is_empty() {
        return Digits::None;
    }
    let two = behind.len() == 3 && (1..=3).contains(&whole.len()) && !whole.starts_with('0');
    match plain(&[whole, behind].concat(), "").filter(|_| two) {
        Some(thousands) => {
            let mark = if comma { DecimalMark::Comma } else { DecimalMark::Point };
            Digits::Two { decimal: sign * decimal, thousands: sign * thousands, mark }
        }
        None => Digits::One(sign * decimal, comma),
    }
}

/// Reads digits and decimals without separators.
fn plain(whole: &str, decimals: &str) -> Option<f64> {
    let all_digits = |text: &str| text.bytes().all(|b| b.is_ascii_digit());
    if whole.is_empty() || !all_digits(whole) || !all_digits(decimals) {
        return None;
    }
    format!("{whole}.{decimals}0").parse().ok()
}

/// Reads one to three digits followed by groups of three, and removes the separators.
fn grouped(text: &str, between: impl Fn(char) -> bool) -> Option<String> {
    let groups: Vec<&str> = text.split(between).collect();
    let (first, others) = groups.split_first()?;
    let well = (1..=3).contains(&first.len()) && others.iter().all(|group| group.len() == 3);
    well.then(|| groups.concat())
}

/// Reads a number with a fraction, such as `3 1/2`, `3-1/2` or `7/8`. The denominator must be a power of two
/// up to 64, as on rules and for threads.
fn with_fraction(text: &str) -> Option<f64> {
    let (whole, fraction) = match text.rsplit_once(|c: char| is_blank(c) || c == '-') {
        Some((whole, fraction)) => (whole.trim_end_matches(is_blank), fraction),
        None => ("0", text),
    };
    let (over, under) = fraction.split_once('/')?;
    let (over, under): (u32, u32) = (over.parse().ok()?, under.parse().ok()?);
    let of_a_rule = matches!(under, 2 | 4 | 8 | 16 | 32 | 64) && over < under;
    Some(plain(whole, "")? + f64::from(over) / f64::from(under)).filter(|_| of_a_rule)
}

/// Reads feet and inches (`12' 3 1/2"`, `12 ft 3 in`) as inches. Returns `None` unless both are present.
fn feet_and_inches(feet: &str, behind: &str) -> Option<f64> {
    let inches =
        ["feet", "ft", "'", "\u{2032}", "\u{2019}"].iter().find_map(|mark| behind.strip_prefix(mark))?;
    let inches = inches.trim_start_matches(|c: char| is_blank(c) || matches!(c, '.' | '-'));
    let (number, unit) = inches.split_at(end_of_number(inches));
    if Unit::read(unit) != Ok(Unit::Inch) {
        return None;
    }
    match (digits(feet), digits(number)) {
        (Digits::One(feet, _), Digits::One(inches, _)) if feet >= 0.0 && (0.0..12.0).contains(&inches) => {
            Some(feet * 12.0 + inches)
        }
        _ => None,
    }
}

/// Reads a number by the rules of versions one and two: blanks are ignored anywhere, and so is everything
/// after the number. These rules apply only to entries made then whose text cannot be read by today's rules.
pub(super) fn as_read_before(text: &str) -> Option<f64> {
    let text = text.trim();
    let of_number = |c: char| c.is_ascii_digit() || matches!(c, '.' | ',' | '-' | '+' | ' ' | '−' | '\u{a0}');
    let end = text.find(|c| !of_number(c)).unwrap_or(text.len());
    let mut digits: String =
        text[..end].replace('−', "-").chars().filter(|c| !matches!(c, ' ' | '\u{a0}')).collect();
    if digits.len() > LONGEST_NUMBER {
        return None;
    }
    let commas = digits.matches(',').count();
    let groups = |digits: &str| {
        digits.split(',').skip(1).all(|group| group.split('.').next().is_some_and(|g| g.len() == 3))
    };
    if commas > 0 && groups(&digits) {
        digits = digits.replace(',', "");
    } else if commas == 1 && !digits.contains('.') {
        digits = digits.replace(',', ".");
    }
    digits.parse::<f64>().ok().filter(|value| value.is_finite())
}

/// Returns true if fractions are usual in this unit. Elsewhere a slash is a typing error.
fn takes_fractions(unit: Unit) -> bool {
    matches!(unit.dimension(), Dimension::Length | Dimension::Turns | Dimension::Count | Dimension::Ratio)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_read_as_written_in_every_country_and_never_guessed() {
        let one = |number| Digits::One(number, false);
        let comma = |number| Digits::One(number, true);
        let two = |decimal, thousands, mark| Digits::Two { decimal, thousands, mark };
        for (text, expected) in [
            ("118", one(118.0)),
            ("38.5", one(38.5)),
            ("1,5", comma(1.5)),
            (",5", comma(0.5)),
            (".5", one(0.5)),
            ("5.", one(5.0)),
            ("−12", one(-12.0)),
            ("- 12,5", comma(-12.5)),
            ("32,650", two(32.65, 32_650.0, DecimalMark::Comma)),
            ("1.234", two(1.234, 1_234.0, DecimalMark::Point)),
            ("-32.650", two(-32.65, -32_650.0, DecimalMark::Point)),
            ("0.506", one(0.506)),
            ("0,506", comma(0.506)),
            ("1234.567", one(1_234.567)),
            ("32 650", one(32_650.0)),
            ("32\u{a0}650,5", comma(32_650.5)),
            ("1\u{202f}234\u{202f}567.25", one(1_234_567.25)),
            ("32'650", one(32_650.0)),
            ("32\u{2019}650.5", one(32_650.5)),
            ("1,234.5", one(1_234.5)),
            ("1.234,5", comma(1_234.5)),
            ("1,234,567", one(1_234_567.0)),
            ("1.234.567", one(1_234_567.0)),
            ("3 1/2", one(3.5)),
            ("3-1/2", one(3.5)),
            ("7/8", one(0.875)),
        ] {
            assert_eq!(digits(text), expected, "{text}");
        }
        for text in [
            "",
            ".",
            ",",
            "-",
            "3 2650",
            "1 5",
            "1,23,4",
            "1.2.3",
            "1,23.4",
            "1.234,5,6",
            "12 34'567",
            "1 234 56",
            "3 1/3",
            "3/2",
            "1/0",
            "1/2/4",
            "--5-",
            "5-",
            "1 234.5.6",
            "٣٢",
        ] {
            assert_eq!(digits(text), Digits::None, "{text}");
        }
        assert_eq!(digits(&"9".repeat(LONGEST_NUMBER + 1)), Digits::None);
    }

    #[test]
    fn feet_are_told_from_thousands() {
        for (text, unit, number) in [
            ("12' 3 1/2\"", Some(Unit::Inch), 147.5),
            ("12'-3 1/2\"", Some(Unit::Inch), 147.5),
            ("12 ft 3 in", Some(Unit::Inch), 147.0),
            ("12'", Some(Unit::Foot), 12.0),
            ("12'345", None, 12_345.0),
            ("3 1/2 in", Some(Unit::Inch), 3.5),
            ("1.5e3", None, 1_500.0),
        ] {
            let taken = take(text);
            assert_eq!(
                (taken.unit, taken.digits.all()[0], taken.more),
                (unit, Some(number), false),
                "{text}"
            );
        }
        assert!(take("12' 13\"").more && take("3O").more && take("118 psi at noon").more);
    }
}
