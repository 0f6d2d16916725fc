//! Reads a CSV file of shipping papers: its headings, the meaning of each column, and each line as a paper or
//! with its faults.
//!
//! The functions are pure. Nothing is lost, because the original file is stored, including the lines that
//! cannot be read. Sizes are limited before anything is parsed. Called by the papers page.

use std::collections::BTreeMap;

use farsiding_core::entry::car_number::CarNumber;
use farsiding_core::ids::Digest;
use farsiding_core::units::{Amount, Dimension, Unit};
use serde::{Deserialize, Serialize};

use crate::HeldPaper;

/// The largest file, in bytes.
pub const LARGEST_FILE: usize = 2 * 1024 * 1024;
/// The largest number of lines.
pub const MOST_LINES: usize = 20_000;
/// The largest number of columns.
pub const MOST_COLUMNS: usize = 200;
/// The largest number of separators in one line, including those inside quoted cells. A wider line is refused
/// before the parser creates cells from it.
const MOST_MARKS: usize = 50 * MOST_COLUMNS;
/// The longest cell, in characters.
pub const LONGEST_CELL: usize = 1_000;

/// Why a file cannot be read at all.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ImportError {
    /// The file is too large, too long or too wide.
    #[error("{0}")]
    TooMuch(String),
    /// The file is not text.
    #[error("the file is not UTF-8 text; save it as \u{201c}CSV UTF-8\u{201d}")]
    NotText,
    /// The file has no headings.
    #[error("the file has no first line with the heads of its columns")]
    NoHeads,
}

/// The meaning of a column.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Field {
    /// The paper's number.
    Number,
    /// The car's number, with mark and digits together.
    Car,
    /// The reporting mark alone, if mark and digits are in separate columns.
    Mark,
    /// The shipper.
    Shipper,
    /// The day, as `YYYY-MM-DD` or `MM/DD/YYYY`.
    Day,
    /// The quantity billed.
    Billed,
    /// The relative density.
    Density,
}

impl Field {
    /// All meanings, with their names for people and the words that identify a heading.
    pub const ALL: [(Field, &'static str, &'static [&'static str]); 7] = [
        (Field::Number, "Paper number", &["paper", "bill", "document", "waybill", "bol"]),
        (Field::Car, "Car number", &["car", "mark and number", "equipment", "wagon"]),
        (Field::Mark, "Reporting mark alone", &["mark only", "initial"]),
        (Field::Shipper, "Shipper", &["shipper", "consignor", "origin", "terminal"]),
        (Field::Day, "Day", &["date", "day", "shipped"]),
        (Field::Billed, "Billed quantity", &["billed", "quantity", "gallons", "net", "volume", "weight"]),
        (Field::Density, "Relative density", &["sg", "density", "gravity"]),
    ];
}

/// The meaning of the columns, and the unit of numbers without one.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Mapping {
    /// The columns by meaning, counted from 0.
    pub columns: BTreeMap<Field, usize>,
    /// The unit for quantities that name none: `gal` or `lb`.
    #[serde(default)]
    pub unit: String,
}

/// A parsed file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sheet {
    /// The column headings.
    pub heads: Vec<String>,
    /// The lines below the headings, each with its number in the file.
    pub rows: Vec<(u64, Vec<String>)>,
}

/// A line that was read.
#[derive(Debug, Clone, PartialEq)]
pub struct PaperLine {
    /// The number of the line in the file; the headings are line 1.
    pub line: u64,
    /// The paper, as far as it could be read.
    pub paper: HeldPaper,
    /// The relative density as printed.
    pub density: String,
    /// Why the line is not accepted; empty when it is.
    pub faults: Vec<String>,
}

/// Parses a file into headings and lines.
///
/// # Errors
/// Returns an [`ImportError`] when the file is too large, is not text or has no headings.
pub fn take_apart(bytes: &[u8]) -> Result<Sheet, ImportError> {
    if bytes.len() > LARGEST_FILE {
        return Err(ImportError::TooMuch(format!("the file is larger than {} MB", LARGEST_FILE >> 20)));
    }
    let text = std::str::from_utf8(bytes).map_err(|_| ImportError::NotText)?;
    if text.contains('\0') {
        return Err(ImportError::NotText);
    }
    let text = text.trim_start_matches('\u{feff}');
    let first = text.lines().next().unwrap_or_default();
    let delimiter = [b',', b';', b'\t']
        .into_iter()
        .max_by_key(|mark| (first.bytes().filter(|byte| byte == mark).count(), *mark == b','));
    let delimiter = delimiter.unwrap_or(b',');
    if text.lines().any(|line| line.bytes().filter(|byte| *byte == delimiter).count() > MOST_MARKS) {
        return Err(ImportError::TooMuch(format!("the file has more than {MOST_COLUMNS} columns")));
    }
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .delimiter(delimiter)
        .from_reader(text.as_bytes());
    let mut rows: Vec<(u64, Vec<String>)> = Vec::new();
    let (mut line, mut counted) = (1_u64, 0_usize);
    for record in reader.records() {
        let record = record.map_err(|_| ImportError::NotText)?;
        if record.len() > MOST_COLUMNS || rows.len() > MOST_LINES {
            let what = format!("the file has more than {MOST_COLUMNS} columns or {MOST_LINES} lines");
            return Err(ImportError::TooMuch(what));
        }
        // The parser's own line count is one too low for lines that end in CR LF, so the beginning of each
        // record is counted here.
        let begins = record.position().map_or(0, |place| usize::try_from(place.byte()).unwrap_or(0));
        let ends_before = |byte: &u8| matches!(byte, b'\r' | b'\n');
        let begins =
            begins + text.as_bytes().iter().skip(begins).take_while(|byte| ends_before(byte)).count();
        line += text
            .as_bytes()
            .get(counted..begins)
            .map_or(0, |passed| passed.iter().filter(|b| **b == b'\n').count() as u64);
        counted = begins.max(counted);
        let cells: Vec<String> =
            record.iter().map(|cell| cell.trim().chars().take(LONGEST_CELL + 1).collect()).collect();
        if cells.iter().any(|cell: &String| !cell.is_empty()) {
            rows.push((line, cells));
        }
    }
    if rows.is_empty() {
        return Err(ImportError::NoHeads);
    }
    let (_, heads) = rows.remove(0);
    Ok(Sheet { heads, rows })
}

impl Sheet {
    /// Returns the text by which files of the same kind are recognised: the headings, without case and
    /// blanks.
    pub fn signature(&self) -> String {
        let plain: Vec<String> = self
            .heads
            .iter()
            .map(|head| head.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase())
            .collect();
        Digest::of(plain.join("\u{1f}").as_bytes()).to_string()
    }

    /// Returns a first guess at the meaning of the columns.
    pub fn guess(&self) -> Mapping {
        let mut columns = BTreeMap::new();
        for (field, _, words) in Field::ALL {
            let found = words.iter().find_map(|word| {
                self.heads.iter().enumerate().position(|(at, head)| {
                    let taken = columns.values().any(|column| *column == at);
                    !taken && format!(" {} ", head.to_lowercase()).contains(word)
                })
            });
            if let Some(at) = found {
                columns.insert(field, at);
            }
        }
        Mapping { columns, unit: "gal".to_owned() }
    }

    /// Returns every line, read with a mapping.
    pub fn read(&self, mapping: &Mapping) -> Vec<PaperLine> {
        self.rows.iter().map(|(line, cells)| read_line(*line, cells, mapping)).collect()
    }
}

fn read_line(line: u64, cells: &[String], mapping: &Mapping) -> PaperLine {
    let cell =
        |field: Field| mapping.columns.get(&field).and_then(|at| cells.get(*at)).cloned().unwrap_or_default();
    let mut faults = Vec::new();
    if cells.iter().any(|cell| cell.chars().count() > LONGEST_CELL) {
        faults.push(format!("a cell is longer than {LONGEST_CELL} letters"));
    }
    if cells.iter().any(|cell| cell.chars().any(|c| c.is_control() && c != '\n' && c != '\r' && c != '\t')) {
        faults.push("a cell holds control characters".to_owned());
    }
    let car = CarNumber(format!("{}{}", cell(Field::Mark), cell(Field::Car)));
    if car.0.trim().is_empty() {
        faults.push("no car number".to_owned());
    } else if !car.findings().is_empty() {
        faults.push(format!("\u{201c}{}\u{201d} is no car number", car.0));
    }
    let billed = cell(Field::Billed);
    let unit = if mapping.unit == "lb" { Unit::Pound } else { Unit::Gallon };
    let (amount, _) = Amount::read(&billed, unit);
    let dimension = matches!(amount.unit.dimension(), Dimension::Volume | Dimension::Mass);
    match amount.value {
        _ if billed.is_empty() => {}
        Some(value) if value > 0.0 && value < 1e7 && dimension => {}
        _ => faults.push(format!("\u{201c}{billed}\u{201d} is no quantity")),
    }
    let day = cell(Field::Day);
    let read_day = day_of(&day);
    if !day.is_empty() && read_day.is_none() {
        faults.push(format!("\u{201c}{day}\u{201d} is no day (YYYY-MM-DD or MM/DD/YYYY)"));
    }
    let shown = if billed.is_empty() { billed } else { amount.shown() };
    let paper = HeldPaper {
        number: cell(Field::Number),
        car: car.0,
        shipper: cell(Field::Shipper),
        billed: shown,
        day: read_day.unwrap_or_default(),
    };
    PaperLine { line, paper, density: cell(Field::Density), faults }
}

fn day_of(text: &str) -> Option<String> {
    ["%Y-%m-%d", "%m/%d/%Y"]
        .iter()
        .find_map(|form| chrono::NaiveDate::parse_from_str(text.trim(), form).ok())
        .map(|day| day.to_string())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;

    const GOOD: &str = "Paper,Reporting mark and number,Consignor (invented),Date,Quantity,SG\r\n\
        INV-1,ZZQX 40101,North (invented),2026-10-02,29200 gal,0.5071\r\n\
        INV-2,zzqx40102,\"Pit, (invented)\",10/03/2026,\"125,000 lb\",\r\n";

    #[test]
    fn a_file_is_read_by_its_heads() {
        let sheet = take_apart(GOOD.as_bytes()).unwrap();
        let lines = sheet.read(&sheet.guess());
        assert!(lines.iter().all(|line| line.faults.is_empty()), "{lines:?}");
        assert_eq!((lines[0].line, lines[1].line), (2, 3), "CR LF is one end of a line");
        assert_eq!(lines[1].paper.car, "zzqx40102");
        assert_eq!(lines[1].paper.day, "2026-10-03");
        assert!(lines[1].paper.billed.contains("lb"));
        assert_eq!(lines[1].paper.shipper, "Pit, (invented)");
        let again = take_apart(GOOD.replace("Paper", "  PAPER ").as_bytes()).unwrap();
        assert_eq!(again.signature(), sheet.signature(), "case and blanks do not make another kind");
    }

    #[test]
    fn a_line_that_cannot_be_read_says_why_and_holds_nobody_up() {
        let text = format!("{GOOD}INV-3,the green one,N,2026-13-40,a lot,\nINV-4,,N,2026-10-02,-5,\n");
        let sheet = take_apart(text.as_bytes()).unwrap();
        let lines = sheet.read(&sheet.guess());
        assert_eq!(lines.len(), 4);
        assert_eq!(lines[2].faults.len(), 3, "{:?}", lines[2].faults);
        assert_eq!(lines[3].faults.len(), 2);
        assert_eq!(lines[3].line, 5);
    }

    #[test]
    fn hostile_files_are_refused_or_read_and_never_crash() {
        assert_eq!(take_apart(&[0xff, 0xfe, 0x41]), Err(ImportError::NotText));
        assert_eq!(take_apart(b"a,b\n\0,1\n"), Err(ImportError::NotText));
        assert_eq!(take_apart(b""), Err(ImportError::NoHeads));
        assert_eq!(take_apart(b"\n\n,,\n"), Err(ImportError::NoHeads));
        assert!(matches!(take_apart(&vec![b'a'; LARGEST_FILE + 1]), Err(ImportError::TooMuch(_))));
        assert!(matches!(
            take_apart(",".repeat(500).replace(",", "x,").as_bytes()),
            Err(ImportError::TooMuch(_))
        ));
        assert!(matches!(take_apart("x\n".repeat(30_000).as_bytes()), Err(ImportError::TooMuch(_))));
        for odd in [
            "car\n\"ZZQX 1",
            "car\n\"\"\"\"\"",
            "car;day\nZZQX 1;=1+1;;;",
            "car\n=cmd()|'/C'!A0",
            "car\r\r\rZZQX 1",
        ] {
            let sheet = take_apart(odd.as_bytes()).unwrap();
            let _ = sheet.read(&sheet.guess());
            let beyond = Mapping { columns: BTreeMap::from([(Field::Car, 999)]), unit: "?".to_owned() };
            assert!(sheet.read(&beyond).iter().all(|line| !line.faults.is_empty()));
        }
        let long = format!("car\n{}\n", "9".repeat(100_000));
        assert!(!take_apart(long.as_bytes()).unwrap().read(&Mapping::default())[0].faults.is_empty());
    }
}
