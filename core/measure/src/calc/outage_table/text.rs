//! An outage table as text: its form, its lines, and the possible errors in them.
//!
//! `calc::outage_table` calls this module and checks the rows against each other.

use serde::{Deserialize, Serialize};

use crate::calc::rounding::half_away;
use crate::units::{Dimension, Unit};

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
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum OutageTableError {
    /// A line that is neither a row, a heading before the first row, nor a remark.
    #[error("line {line}: \"{text}\" is not an outage and a volume")]
    NotARow {
        /// Line of the text, from 1.
        line: usize,
        /// What stood there.
        text: String,
    },
    /// The volume does not fall (liquid) or grow (outage) from this row to the next.
    #[error(
        "line {line}: at {outage} in the volume {volume} does not follow from the row before; one of them is mistyped"
    )]
    NotMonotone {
        /// Line of the text, from 1.
        line: usize,
        /// Outage, in.
        outage: f64,
        /// Volume as written.
        volume: f64,
    },
    /// The same outage stands twice.
    #[error("line {line}: outage {outage} in stands twice")]
    Repeated {
        /// Line of the text, from 1.
        line: usize,
        /// Outage, in.
        outage: f64,
    },
    /// Too little to read between.
    #[error("a table needs four rows or more; this one has {0}")]
    TooFewRows(usize),
    /// A negative, enormous or impossible number.
    #[error("line {line}: {text} cannot be an outage or a volume of a car")]
    Impossible {
        /// Line of the text, from 1.
        line: usize,
        /// The number.
        text: String,
    },
    /// A unit that is no length or no volume.
    #[error("an outage table is in a length and a volume, not in {0} and {1}")]
    WrongUnits(Unit, Unit),
    /// A table of outage volumes needs the total to give liquid.
    #[error("a table of outage volumes needs the shell's total volume")]
    NeedsTotal,
}

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
