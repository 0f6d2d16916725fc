//! The reading of a formula's inputs from one line: whether each is present, a number, within its range, and
//! its uncertainty.
//!
//! Reading is tolerant where nothing can be misunderstood, and reports it in a finding: a number written as
//! text ("80"), keys that the formula does not use, and keys written twice with the same value. Everything
//! else is refused.

use std::cell::RefCell;

use super::json::Json;
use super::line_error::LineError;
use super::schema::{Formula, Input, Kind, Need, column};
use crate::calc::error::{Limits, Range};
use crate::calc::fluid::{Composition, Fluid, Grade, Mix};
use crate::calc::instrument::{Gauge, GaugeGrade, OVERDUE_FACTOR, presumed_gauge};
use crate::calc::{CalcError, Measured};
use crate::units::{Finding, Severity, Unit};
use crate::{Arg, Joint, Message, message};

/// Ending of a key that states the ± at 95 % of the key before it: "temp_f_pm".
const PLUS_MINUS: &str = "_pm";
/// Keys every formula leaves alone; `id` comes back with the answer.
const FREE_KEYS: [&str; 2] = ["id", "note"];

/// The fields of one line, read against a formula's list of inputs.
pub(super) struct Reading<'a> {
    formula: &'a Formula,
    fields: Vec<(String, Json)>,
    findings: RefCell<Vec<Finding>>,
}

impl<'a> Reading<'a> {
    pub(super) fn new(formula: &'a Formula, fields: Vec<(String, Json)>) -> Result<Reading<'a>, LineError> {
        let mut kept: Vec<(String, Json)> = Vec::with_capacity(fields.len());
        let mut findings = Vec::new();
        for (key, value) in fields {
            match kept.iter().find(|(other, _)| *other == key) {
                None => kept.push((key, value)),
                Some((_, other)) if *other == value => findings.push(Finding::new(
                    "key_twice",
                    Severity::Note,
                    message!("calc-line-key-twice", key = Arg::Typed(key)),
                )),
                Some(_) => {
                    let message = message!("calc-line-key-two-values", key = Arg::Typed(key));
                    return Err(LineError::new("inconsistent_input", message));
                }
            }
        }
        let reading = Reading { formula, fields: kept, findings: RefCell::new(findings) };
        let unused = reading.unused();
        if !unused.is_empty() {
            reading.find(Finding::new(
                "unknown_input",
                Severity::Check,
                message!(
                    "calc-line-not-used",
                    formula = Arg::typed(formula.name),
                    unused = Arg::Typed(unused)
                ),
            ));
        }
        Ok(reading)
    }

    /// The keys of the line that the formula does not use, joined by commas.
    pub(super) fn unused(&self) -> String {
        let unused: Vec<&str> =
            self.fields.iter().map(|(key, _)| &**key).filter(|key| !self.uses(key)).collect();
        unused.join(", ")
    }

    fn uses(&self, key: &str) -> bool {
        let number = key.strip_suffix(PLUS_MINUS).unwrap_or(key);
        FREE_KEYS.contains(&key)
            || self.formula.inputs.iter().any(|input| {
                input.key == key || (input.key == number && matches!(input.kind, Kind::Number { .. }))
            })
    }

    pub(super) fn find(&self, finding: Finding) {
        self.findings.borrow_mut().push(finding);
    }

    pub(super) fn findings(&self) -> Vec<Finding> {
        self.findings.borrow().clone()
    }

    fn input(&self, key: &str) -> Result<&'a Input, LineError> {
        let found = self.formula.inputs.iter().find(|input| input.key == key);
        found.ok_or_else(|| {
            let formula = Arg::typed(self.formula.name);
            LineError::new(
                "missing_input",
                message!("calc-line-no-input", key = Arg::typed(key), formula = formula),
            )
        })
    }

    fn field(&self, key: &str) -> Option<&Json> {
        self.fields
            .iter()
            .find(|(name, _)| name == key)
            .map(|(_, value)| value)
            .filter(|v| **v != Json::Nothing)
    }

    /// Whether the line gives that key.
    pub(super) fn has(&self, key: &str) -> bool {
        self.field(key).is_some()
    }

    fn plain(&self, key: &str, value: &Json) -> Result<f64, LineError> {
        match value {
            Json::Number(number) if number.is_finite() => Ok(*number),
            Json::Text(text) => match read_text(text) {
                Some(number) => {
                    self.find(Finding::new(
                        "number_as_text",
                        Severity::Note,
                        message!(
                            "calc-line-number-as-text",
                            key = Arg::typed(key),
                            text = Arg::typed(text),
                            number = Arg::Number(number.to_string())
                        ),
                    ));
                    Ok(number)
                }
                None => Err(not_a_number(key, &format!("\"{text}\""))),
            },
            Json::Number(number) => Err(not_a_number(key, &number.to_string())),
            Json::Flag(flag) => Err(not_a_number(key, &flag.to_string())),
            Json::List(_) => Err(not_a_number(key, "[]")),
            Json::Object(_) => Err(not_a_number(key, "{}")),
            Json::Nothing => Err(not_a_number(key, "null")),
        }
    }

    /// A number that must be there, or the input's default.
    pub(super) fn number(&self, key: &str) -> Result<Measured, LineError> {
        match self.optional(key)? {
            Some(measured) => Ok(measured),
            None => {
                let unit = match self.input(key)?.kind {
                    Kind::Number { unit, .. } => unit,
                    _ => Unit::One,
                };
                Err(missing(key, unit.term()))
            }
        }
    }

    /// A number that may be left out; its default, where the input has one.
    pub(super) fn optional(&self, key: &str) -> Result<Option<Measured>, LineError> {
        let input = self.input(key)?;
        let Kind::Number { unit, low, high, spread, name } = input.kind else {
            return Err(LineError::new(
                "missing_input",
                message!(
                    "calc-line-no-input",
                    key = Arg::typed(key),
                    formula = Arg::typed(self.formula.name)
                ),
            ));
        };
        let range = Range::new(low, high, unit, Limits::Unsaid);
        let stated = format!("{key}{PLUS_MINUS}");
        let Some(field) = self.field(key) else {
            let Need::Default(value) = input.need else { return Ok(None) };
            return Ok(Some(Measured::presumed(name, value, unit, spread)));
        };
        let value = range
            .check("value", self.plain(key, field)?)
            .map_err(|error| error.named(Message::typed(key)))?;
        match self.field(&stated) {
            None => Ok(Some(Measured::presumed(name, value, unit, spread))),
            Some(field) => {
                const WIDTH: Range =
                    Range::new(0.0, 1e6, Unit::One, Limits::Reason("calc-limits-plus-minus"));
                let width = WIDTH
                    .check("value", self.plain(&stated, field)?)
                    .map_err(|error| error.named(Message::typed(&stated)))?;
                Ok(Some(Measured::stated(name, value, unit, width)))
            }
        }
    }

    /// One of the words the input allows.
    pub(super) fn word(&self, key: &str) -> Result<Option<&'static str>, LineError> {
        let Kind::Word { words } = self.input(key)?.kind else {
            return Err(LineError::new(
                "missing_input",
                message!(
                    "calc-line-no-input",
                    key = Arg::typed(key),
                    formula = Arg::typed(self.formula.name)
                ),
            ));
        };
        match self.field(key) {
            None => Ok(None),
            Some(Json::Text(text)) => {
                match words.iter().find(|word| word.eq_ignore_ascii_case(text.trim())) {
                    Some(word) => Ok(Some(word)),
                    None => Err(LineError::new(
                        "unknown_word",
                        message!(
                            "calc-line-unknown-word",
                            key = Arg::typed(key),
                            text = Arg::typed(text),
                            words = Arg::Typed(words.join(", "))
                        ),
                    )),
                }
            }
            Some(_) => {
                let words = Arg::Typed(words.join(", "));
                Err(LineError::new(
                    "unknown_word",
                    message!("calc-line-one-of", key = Arg::typed(key), words = words),
                ))
            }
        }
    }

    /// Yes or no; absent when not said.
    pub(super) fn flag(&self, key: &str) -> Result<Option<bool>, LineError> {
        match self.field(key) {
            None => Ok(None),
            Some(Json::Flag(flag)) => Ok(Some(*flag)),
            Some(_) => {
                Err(LineError::new("not_a_flag", message!("calc-line-no-flag", key = Arg::typed(key))))
            }
        }
    }

    /// Rows of numbers, each row of the input's width, such as [[0, 33800], [5, 33330]].
    pub(super) fn rows(&self, key: &str) -> Result<Option<Vec<Vec<f64>>>, LineError> {
        let Kind::Rows { columns, .. } = self.input(key)?.kind else {
            return Err(LineError::new(
                "missing_input",
                message!(
                    "calc-line-no-input",
                    key = Arg::typed(key),
                    formula = Arg::typed(self.formula.name)
                ),
            ));
        };
        let shape = || {
            let columns = Arg::list(Joint::Comma, columns.iter().copied().map(column));
            LineError::new(
                "bad_rows",
                message!("calc-line-no-rows", key = Arg::typed(key), columns = columns),
            )
        };
        let Some(field) = self.field(key) else { return Ok(None) };
        let Json::List(rows) = field else { return Err(shape()) };
        let mut read = Vec::with_capacity(rows.len());
        for row in rows {
            let Json::List(cells) = row else { return Err(shape()) };
            if cells.len() != columns.len() {
                return Err(shape());
            }
            read.push(
                cells.iter().map(|cell| self.plain(key, cell)).collect::<Result<Vec<f64>, LineError>>()?,
            );
        }
        Ok(Some(read))
    }

    /// The composition: mole fractions by fluid, or the name of one fluid.
    pub(super) fn mix(&self, key: &str) -> Result<Option<Mix>, LineError> {
        let known = || Fluid::ALL.map(Fluid::key).join(", ");
        let unknown = |name: &str| {
            let words = Arg::Typed(known());
            LineError::new(
                "unknown_component",
                message!("calc-line-no-fluid", name = Arg::typed(name), words = words),
            )
        };
        match self.field(key) {
            None => Ok(None),
            Some(Json::Text(name)) => {
                Fluid::from_key(name.trim()).map(|fluid| Some(Mix::pure(fluid))).ok_or_else(|| unknown(name))
            }
            Some(Json::Object(parts)) => {
                let mut read = Vec::with_capacity(parts.len());
                for (name, fraction) in parts {
                    let fluid = Fluid::from_key(name).ok_or_else(|| unknown(name))?;
                    read.push((fluid, self.plain(name, fraction)?));
                }
                let sum: f64 = read.iter().map(|(_, fraction)| fraction).sum();
                let mix = Mix::new(&read)?;
                if (sum - 1.0).abs() > 1e-9 {
                    self.find(Finding::new(
                        "mix_scaled",
                        Severity::Note,
                        message!("calc-mix-scaled", sum = Arg::Number(sum.to_string())),
                    ));
                }
                Ok(Some(mix))
            }
            Some(_) => Err(LineError::new(
                "bad_mix",
                message!("calc-line-no-mix", key = Arg::typed(key), words = Arg::Typed(known())),
            )),
        }
    }

    /// The composition, or pure propane with a finding that says so.
    pub(super) fn mix_or_propane(&self, key: &str) -> Result<Mix, LineError> {
        match self.mix(key)? {
            Some(mix) => Ok(mix),
            None => {
                self.find(Finding::new(
                    "presumed_composition",
                    Severity::Note,
                    Message::new("calc-mix-presumed"),
                ));
                Ok(Mix::pure(Fluid::Propane))
            }
        }
    }
}

impl Reading<'_> {
    /// What is known of the composition: a mix, or a grade in its place.
    pub(super) fn composition(&self) -> Result<Composition, LineError> {
        match (self.mix("mix")?, self.word("grade")?.and_then(Grade::from_key)) {
            (Some(_), Some(_)) => Err(LineError::new("inconsistent_input", either("mix", "grade"))),
            (Some(mix), None) => Ok(Composition::Known(mix)),
            (None, Some(grade)) => Ok(Composition::Presumed(grade)),
            (None, None) => Err(missing("mix", Message::new("calc-line-wants-mix"))),
        }
    }

    /// The composition that decides whether Table 24E holds: the mix, or propylene when the product says so.
    pub(super) fn table_mix(&self) -> Result<Option<Mix>, LineError> {
        let mix = self.mix("mix")?;
        let propylene = matches!(self.word("product")?, Some("propylene" | "UN1077"));
        Ok(mix.or_else(|| propylene.then(|| Mix::pure(Fluid::Propylene))))
    }

    /// A gauge pressure with what its gauge makes of it: ± as stated, by grade and span, or presumed.
    pub(super) fn gauge(&self, key: &str) -> Result<Measured, LineError> {
        let reading = self.number(key)?;
        if self.has(&format!("{key}{PLUS_MINUS}")) {
            return Ok(reading);
        }
        let overdue = self.flag("gauge_overdue")?.unwrap_or(false);
        let Some(mark) = self.word("gauge_grade")? else {
            let gauge = presumed_gauge(reading.value);
            let factor = if overdue { OVERDUE_FACTOR } else { 1.0 };
            let half_width = factor * gauge.grade.half_width(reading.value, gauge.span);
            return Ok(Measured::presumed(&reading.name, reading.value, reading.unit, half_width));
        };
        let grade = GaugeGrade::ALL.into_iter().find(|grade| grade.mark() == mark).unwrap_or(GaugeGrade::D);
        let span = self.number("gauge_span")?.value;
        let gauge = Gauge { grade, span, unit: Unit::PsiGauge, overdue };
        let (measured, findings) = gauge.measured(&reading.name, reading.value, reading.unit)?;
        findings.into_iter().for_each(|finding| self.find(finding));
        Ok(measured)
    }

    /// An absolute pressure, or a gauge one with the elevation: the two keys of one reading.
    pub(super) fn pressure(&self) -> Result<(Measured, Measured), LineError> {
        let sea_level = || Measured::exact("elevation", 0.0, Unit::Foot);
        match (self.optional("psia")?, self.has("psig")) {
            (Some(_), true) => Err(LineError::new("inconsistent_input", either("psia", "psig"))),
            (Some(psia), false) => Ok((psia, sea_level())),
            (None, true) => Ok((self.gauge("psig")?, self.number("elev_ft")?)),
            (None, false) => Err(missing("psia", Message::new("calc-line-wants-pressure"))),
        }
    }
}

/// A number written as text: digits, sign, point, exponent; no unit, no comma, no words.
fn read_text(text: &str) -> Option<f64> {
    let text = text.trim();
    let plain = !text.is_empty()
        && text.chars().all(|c| c.is_ascii_digit() || matches!(c, '+' | '-' | '.' | 'e' | 'E'));
    plain.then(|| text.parse::<f64>().ok().filter(|number| number.is_finite()))?
}

fn not_a_number(key: &str, found: &str) -> LineError {
    CalcError::not_a_number("value", found).named(Message::typed(key)).into()
}

/// The refusal of a line without an input; `wanted` is the unit or the form of the input.
pub(super) fn missing(key: &str, wanted: Message) -> LineError {
    CalcError::MissingInput { input: Box::new(Message::typed(key)), wanted }.into()
}

/// Says that a line gives two inputs of which one is to be given.
pub(super) fn either(one: &str, other: &str) -> Message {
    message!("calc-line-either", one = Arg::typed(one), other = Arg::typed(other))
}
