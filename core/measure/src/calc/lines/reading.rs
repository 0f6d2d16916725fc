//! The reading of a formula's inputs from one line: whether each is present, a number, within its range, and
//! its uncertainty.
//!
//! Reading is tolerant where nothing can be misunderstood, and reports it in a finding: a number written as
//! text ("80"), keys that the formula does not use, and keys written twice with the same value. Everything
//! else is refused.

use std::cell::RefCell;

use super::json::Json;
use super::refusal::Refusal;
use super::schema::{Formula, Input, Kind, Need};
use crate::calc::error::Range;
use crate::calc::fluid::{Composition, Fluid, Grade, Mix};
use crate::calc::instrument::{Gauge, GaugeGrade, OVERDUE_FACTOR, presumed_gauge};
use crate::calc::{CalcError, Measured};
use crate::units::{Finding, Severity, Unit};

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
    pub(super) fn new(formula: &'a Formula, fields: Vec<(String, Json)>) -> Result<Reading<'a>, Refusal> {
        let mut kept: Vec<(String, Json)> = Vec::with_capacity(fields.len());
        let mut findings = Vec::new();
        for (key, value) in fields {
            match kept.iter().find(|(other, _)| *other == key) {
                None => kept.push((key, value)),
                Some((_, other)) if *other == value => findings.push(Finding::new(
                    "key_twice",
                    Severity::Note,
                    format!("{key} stands twice in the line, with the same value."),
                )),
                Some(_) => {
                    let message = format!("{key} stands twice in the line, with two values");
                    return Err(Refusal::new("inconsistent_input", message));
                }
            }
        }
        let reading = Reading { formula, fields: kept, findings: RefCell::new(findings) };
        let unused = reading.unused();
        if !unused.is_empty() {
            reading.find(Finding::new(
                "unknown_input",
                Severity::Check,
                format!("Not used by {}: {unused}. Check the spelling.", formula.name),
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

    fn input(&self, key: &str) -> Result<&'a Input, Refusal> {
        let found = self.formula.inputs.iter().find(|input| input.key == key);
        found.ok_or_else(|| {
            Refusal::new("missing_input", format!("{key} is no input of {}", self.formula.name))
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

    fn plain(&self, key: &str, value: &Json) -> Result<f64, Refusal> {
        match value {
            Json::Number(number) if number.is_finite() => Ok(*number),
            Json::Text(text) => match read_text(text) {
                Some(number) => {
                    self.find(Finding::new(
                        "number_as_text",
                        Severity::Note,
                        format!("{key} was written as the text \"{text}\" and read as {number}."),
                    ));
                    Ok(number)
                }
                None => Err(not_a_number(key, &format!("\"{text}\""))),
            },
            Json::Number(number) => Err(not_a_number(key, &number.to_string())),
            Json::Flag(flag) => Err(not_a_number(key, &flag.to_string())),
            Json::List(_) => Err(not_a_number(key, "a list")),
            Json::Object(_) => Err(not_a_number(key, "an object")),
            Json::Nothing => Err(not_a_number(key, "null")),
        }
    }

    /// A number that must be there, or the input's default.
    pub(super) fn number(&self, key: &str) -> Result<Measured, Refusal> {
        match self.optional(key)? {
            Some(measured) => Ok(measured),
            None => {
                let unit = match self.input(key)?.kind {
                    Kind::Number { unit, .. } => unit.symbol(),
                    _ => "1",
                };
                let error = CalcError::MissingInput { input: key.to_owned(), unit: unit.to_owned() };
                Err(error.into())
            }
        }
    }

    /// A number that may be left out; its default, where the input has one.
    pub(super) fn optional(&self, key: &str) -> Result<Option<Measured>, Refusal> {
        let input = self.input(key)?;
        let Kind::Number { unit, low, high, spread, name } = input.kind else {
            return Err(Refusal::new("missing_input", format!("{key} is not a number input")));
        };
        let range = Range::new(low, high, unit, "");
        let stated = format!("{key}{PLUS_MINUS}");
        let Some(field) = self.field(key) else {
            let Need::Default(value) = input.need else { return Ok(None) };
            return Ok(Some(Measured::presumed(name, value, unit, spread)));
        };
        let value = range.check(key, self.plain(key, field)?)?;
        match self.field(&stated) {
            None => Ok(Some(Measured::presumed(name, value, unit, spread))),
            Some(field) => {
                const WIDTH: Range = Range::new(0.0, 1e6, Unit::One, "± at 95 %, not negative");
                let width = WIDTH.check(&stated, self.plain(&stated, field)?)?;
                Ok(Some(Measured::stated(name, value, unit, width)))
            }
        }
    }

    /// One of the words the input allows.
    pub(super) fn word(&self, key: &str) -> Result<Option<&'static str>, Refusal> {
        let Kind::Word { words } = self.input(key)?.kind else {
            return Err(Refusal::new("missing_input", format!("{key} is not a word input")));
        };
        match self.field(key) {
            None => Ok(None),
            Some(Json::Text(text)) => {
                match words.iter().find(|word| word.eq_ignore_ascii_case(text.trim())) {
                    Some(word) => Ok(Some(word)),
                    None => Err(Refusal::new(
                        "unknown_word",
                        format!("{key} is \"{text}\"; it must be one of: {}", words.join(", ")),
                    )),
                }
            }
            Some(_) => {
                Err(Refusal::new("unknown_word", format!("{key} must be one of: {}", words.join(", "))))
            }
        }
    }

    /// Yes or no; absent when not said.
    pub(super) fn flag(&self, key: &str) -> Result<Option<bool>, Refusal> {
        match self.field(key) {
            None => Ok(None),
            Some(Json::Flag(flag)) => Ok(Some(*flag)),
            Some(_) => Err(Refusal::new("not_a_flag", format!("{key} must be true or false"))),
        }
    }

    /// Rows of numbers, each row of the input's width, such as [[0, 33800], [5, 33330]].
    pub(super) fn rows(&self, key: &str) -> Result<Option<Vec<Vec<f64>>>, Refusal> {
        let Kind::Rows { columns, .. } = self.input(key)?.kind else {
            return Err(Refusal::new("missing_input", format!("{key} is not a list input")));
        };
        let shape =
            || Refusal::new("bad_rows", format!("{key} must be a list of rows [{}]", columns.join(", ")));
        let Some(field) = self.field(key) else { return Ok(None) };
        let Json::List(rows) = field else { return Err(shape()) };
        let mut read = Vec::with_capacity(rows.len());
        for row in rows {
            let Json::List(cells) = row else { return Err(shape()) };
            if cells.len() != columns.len() {
                return Err(shape());
            }
            read.push(cells.iter().map(|cell| self.plain(key, cell)).collect::<Result<Vec<f64>, Refusal>>()?);
        }
        Ok(Some(read))
    }

    /// The composition: mole fractions by fluid, or the name of one fluid.
    pub(super) fn mix(&self, key: &str) -> Result<Option<Mix>, Refusal> {
        let known = || Fluid::ALL.map(Fluid::key).join(", ");
        let unknown = |name: &str| {
            Refusal::new("unknown_component", format!("{name} is not a fluid known here; known: {}", known()))
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
                        format!("The mole fractions summed to {sum} and were scaled to 1."),
                    ));
                }
                Ok(Some(mix))
            }
            Some(_) => Err(Refusal::new(
                "bad_mix",
                format!(
                    "{key} must be mole fractions such as {{\"propane\": 0.97, \"ethane\": 0.03}}, or one of: {}",
                    known()
                ),
            )),
        }
    }

    /// The composition, or pure propane with a finding that says so.
    pub(super) fn mix_or_propane(&self, key: &str) -> Result<Mix, Refusal> {
        match self.mix(key)? {
            Some(mix) => Ok(mix),
            None => {
                self.find(Finding::new(
                    "presumed_composition",
                    Severity::Note,
                    "No composition was given: pure propane was presumed.",
                ));
                Ok(Mix::pure(Fluid::Propane))
            }
        }
    }
}

impl Reading<'_> {
    /// What is known of the composition: a mix, or a grade in its place.
    pub(super) fn composition(&self) -> Result<Composition, Refusal> {
        match (self.mix("mix")?, self.word("grade")?.and_then(Grade::from_key)) {
            (Some(_), Some(_)) => {
                Err(Refusal::new("inconsistent_input", "give either mix or grade, not both"))
            }
            (Some(mix), None) => Ok(Composition::Known(mix)),
            (None, Some(grade)) => Ok(Composition::Presumed(grade)),
            (None, None) => Err(CalcError::MissingInput {
                input: "mix".to_owned(),
                unit: "mole fractions (or a grade in its place)".to_owned(),
            }
            .into()),
        }
    }

    /// The composition that decides whether Table 24E holds: the mix, or propylene when the product says so.
    pub(super) fn table_mix(&self) -> Result<Option<Mix>, Refusal> {
        let mix = self.mix("mix")?;
        let propylene = matches!(self.word("product")?, Some("propylene" | "UN1077"));
        Ok(mix.or_else(|| propylene.then(|| Mix::pure(Fluid::Propylene))))
    }

    /// A gauge pressure with what its gauge makes of it: ± as stated, by grade and span, or presumed.
    pub(super) fn gauge(&self, key: &str) -> Result<Measured, Refusal> {
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
    pub(super) fn pressure(&self) -> Result<(Measured, Measured), Refusal> {
        let sea_level = || Measured::exact("elevation", 0.0, Unit::Foot);
        match (self.optional("psia")?, self.has("psig")) {
            (Some(_), true) => Err(Refusal::new("inconsistent_input", "give either psia or psig, not both")),
            (Some(psia), false) => Ok((psia, sea_level())),
            (None, true) => Ok((self.gauge("psig")?, self.number("elev_ft")?)),
            (None, false) => Err(CalcError::MissingInput {
                input: "psia".to_owned(),
                unit: "psia (or psig with elev_ft)".to_owned(),
            }
            .into()),
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

fn not_a_number(key: &str, found: &str) -> Refusal {
    CalcError::NotANumber { input: key.to_owned(), found: found.to_owned() }.into()
}
