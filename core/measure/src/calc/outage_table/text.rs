//! An outage table as text: its form, its lines, and the possible errors in them.
//!
//! `calc::outage_table` calls this module and checks the rows against each other.

use std::fmt;

use serde::{Deserialize, Serialize};

use crate::calc::rounding::half_away;
use crate::units::{Dimension, Unit};
use crate::{Arg, Message, message};

/// What the volume column of a table means.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum VolumeColumn {
    /// Liquid in the shell at that outage: falls as the outage grows.
    Liquid,
    /// Space above the liquid at that outage: grows with the outage.
    Outage,
}

/// The reason why a table could not be imported.
#[derive(Clone, Debug, PartialEq)]
pub enum OutageTableError {
    /// A line that is neither a row, a heading before the first row, nor a remark.
    NotARow {
        /// Line of the text, from 1.
        line: usize,
        /// What stood there.
        text: String,
    },
    /// The volume does not fall (liquid) or grow (outage) from this row to the next.
    NotMonotone {
        /// Line of the text, from 1.
        line: usize,
        /// Outage, in.
        outage: f64,
        /// Volume as written.
        volume: f64,
    },
    /// The same outage stands twice.
    Repeated {
        /// Line of the text, from 1.
        line: usize,
        /// Outage, in.
        outage: f64,
    },
    /// Too little to read between.
    TooFewRows(usize),
    /// A negative, enormous or impossible number.
    Impossible {
        /// Line of the text, from 1.
        line: usize,
        /// The numbers.
        text: String,
    },
    /// A unit that is no length or no volume.
    WrongUnits(Unit, Unit),
    /// A table of outage volumes needs the total to give liquid.
    NeedsTotal,
}

impl OutageTableError {
    /// Returns the reason for people.
    pub fn message(&self) -> Message {
        match self {
            OutageTableError::NotARow { line, text } => {
                message!("calc-table-not-a-row", line = *line, text = Arg::typed(text))
            }
            OutageTableError::NotMonotone { line, outage, volume } => message!(
                "calc-table-not-monotone",
                line = *line,
                outage = Unit::Inch.plain(*outage),
                volume = Unit::Gallon.plain(*volume),
            ),
            OutageTableError::Repeated { line, outage } => {
                message!("calc-table-repeated", line = *line, outage = Unit::Inch.plain(*outage))
            }
            OutageTableError::TooFewRows(count) => message!("calc-table-too-few", count = *count),
            OutageTableError::Impossible { line, text } => {
                message!("calc-table-impossible", line = *line, text = Arg::typed(text))
            }
            OutageTableError::WrongUnits(outage, volume) => {
                message!("calc-table-units", outage = outage.term(), volume = volume.term())
            }
            OutageTableError::NeedsTotal => Message::new("calc-table-needs-total"),
        }
    }
}

/// Writes the id of the message, for logs. People read [`OutageTableError::message`].
impl fmt::Display for OutageTableError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.message().id())
    }
}

impl std::error::Error for OutageTableError {}

/// How a table's text is to be read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TableForm {
    /// Unit of the first column, a length.
    pub outage: Unit,
    /// Unit of the second column, a volume.
    pub volume: Unit,
    /// What the second column means.
    pub column: VolumeColumn,
    /// The shell's total in `volume`; needed for [`VolumeColumn::Outage`].
    pub total: Option<f64>,
}

impl TableForm {
    /// Inches of outage and gallons of liquid, the commonest.
    pub const INCHES_GALLONS: TableForm =
        TableForm { outage: Unit::Inch, volume: Unit::Gallon, column: VolumeColumn::Liquid, total: None };
}

/// The rows of a text as (line, outage in, liquid gal), in the text's order.
pub(super) fn rows(text: &str, form: TableForm) -> Result<Vec<(usize, f64, f64)>, OutageTableError> {
    if form.outage.dimension() != Dimension::Length || form.volume.dimension() != Dimension::Volume {
        return Err(OutageTableError::WrongUnits(form.outage, form.volume));
    }
    let mut rows: Vec<(usize, f64, f64)> = Vec::new();
    for (at, line) in text.lines().enumerate() {
        let number = at + 1;
        let line = line.trim().trim_start_matches('\u{feff}');
        if line.is_empty() || line.starts_with('#') {
            continue;
        }
        let (outage, volume) = match two_numbers(line) {
            Some(row) => row,
            None if rows.is_empty() => continue,
            None => return Err(OutageTableError::NotARow { line: number, text: line.to_owned() }),
        };
        let liquid = match (form.column, form.total) {
            (VolumeColumn::Liquid, _) => volume,
            (VolumeColumn::Outage, Some(total)) => total - volume,
            (VolumeColumn::Outage, None) => return Err(OutageTableError::NeedsTotal),
        };
        let inches = Unit::Inch.from_si(form.outage.to_si(outage));
        let gallons = Unit::Gallon.from_si(form.volume.to_si(liquid));
        rows.push((number, tidy(inches), tidy(gallons)));
    }
    Ok(rows)
}

/// Unit conversion leaves noise in the last digits; a table has none.
fn tidy(value: f64) -> f64 {
    half_away(value, 6)
}

fn two_numbers(line: &str) -> Option<(f64, f64)> {
    let mut cells: Vec<String> = vec![String::new()];
    let mut quoted = false;
    let parted = line.contains([',', ';', '\t']);
    for c in line.chars() {
        match c {
            '"' => quoted = !quoted,
            ',' if quoted => {}
            ',' | ';' | '\t' if !quoted => cells.push(String::new()),
            ' ' if !quoted && !parted => cells.push(String::new()),
            other => {
                if let Some(cell) = cells.last_mut() {
                    cell.push(other);
                }
            }
        }
    }
    let cells: Vec<&str> = cells.iter().map(|cell| cell.trim()).filter(|cell| !cell.is_empty()).collect();
    let [outage, volume] = cells[..] else { return None };
    let number = |text: &str| text.parse::<f64>().ok().filter(|number| number.is_finite());
    Some((number(outage)?, number(volume)?))
}
