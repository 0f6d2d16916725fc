//! Reads a CSV file of shipping papers: its headings, the meaning of each column, and each line as a paper or
//! with its faults.
//!
//! The functions are pure. Nothing is lost, because the original file is stored, including the lines that
//! cannot be read. Sizes are limited before anything is parsed. Called by the papers page.

use std::collections::BTreeMap;

use chrono::Datelike as _;
use farsiding_core::entry::car_number::CarNumber;
use farsiding_core::entry::vocabulary::{BilledBy, ProductGrade};
use farsiding_core::ids::Digest;
use farsiding_core::units::{Amount, Dimension, Unit};
use farsiding_core::{Arg, Message, message};
use serde::{Deserialize, Serialize};

use super::answers::{billed_by_of, grade_of, winter_of, yes_or_no};
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
/// As much of a heading as a fault names, in characters.
const LONGEST_HEAD: usize = 40;

/// The relative densities at 60 °F that a liquefied petroleum gas can have; another figure is a slip of a decimal point
/// or a density in another unit. Common practice, no source.
const DENSITIES: std::ops::RangeInclusive<f64> = 0.4..=0.7;
/// The years of a paper; year 26 is a slip.
const YEARS: std::ops::RangeInclusive<i32> = 2000..=2100;

/// Why a file cannot be read at all. Its `Display` is a stable name, for logs.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ImportError {
    /// The file is too large, too long or too wide.
    #[error("too_much")]
    TooMuch(Message),
    /// The file is not text.
    #[error("not_text")]
    NotText,
    /// The file has no headings.
    #[error("no_heads")]
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
    /// The identification number, such as UN1075.
    UnNumber,
    /// The proper shipping name.
    Product,
    /// Whether the product is odorized.
    Odorised,
    /// The grade of the product.
    Grade,
    /// How the shipper measured the quantity billed.
    BilledBy,
    /// Whether the car was filled to winter limits, as yes or no or by the season.
    WinterFill,
    /// The day on which the car is expected, in the forms of a day.
    Expected,
}

impl Field {
    /// All meanings, with the words that identify a heading. "Billed by" is looked for before what is billed.
    pub const ALL: [(Field, &'static [&'static str]); 14] = [
        (Field::BilledBy, &["billed by", "measured by", "weighed or"]),
        (Field::Grade, &["grade"]),
        (Field::WinterFill, &["winter", "season"]),
        (Field::Number, &["paper", "bill", "document", "waybill", "bol"]),
        (Field::Car, &["car", "mark and number", "equipment", "wagon"]),
        (Field::Mark, &["mark only", "initial"]),
        (Field::Shipper, &["shipper", "consignor", "origin", "terminal"]),
        (Field::Day, &["date", "day", "shipped"]),
        (Field::Billed, &["billed", "quantity", "gallons", "net", "volume", "weight"]),
        (Field::Density, &["sg", "density", "gravity"]),
        (Field::UnNumber, &["un number", "un no", "un/na", " un ", "identification"]),
        (Field::Product, &["shipping name", "product", "commodity", "description"]),
        (Field::Odorised, &["odor"]),
        (Field::Expected, &["expected", " eta ", "arrival"]),
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
    /// The identification number as printed.
    pub un_number: String,
    /// The proper shipping name as printed.
    pub product: String,
    /// Whether the product is odorized; `None` if the line does not say.
    pub odorised: Option<bool>,
    /// The grade of the product; `None` if the line does not say.
    pub grade: Option<ProductGrade>,
    /// How the shipper measured the quantity billed; `None` if the line does not say.
    pub billed_by: Option<BilledBy>,
    /// Whether the car was filled to winter limits; `None` if the line does not say.
    pub winter_fill: Option<bool>,
    /// The day on which the car is expected, as `YYYY-MM-DD`; empty when the line does not say.
    pub expected: String,
    /// Why the line is not accepted; empty when it is.
    pub faults: Vec<Message>,
}

/// Parses a file into headings and lines.
///
/// # Errors
/// Returns an [`ImportError`] when the file is too large, is not text or has no headings.
pub fn take_apart(bytes: &[u8]) -> Result<Sheet, ImportError> {
    if bytes.len() > LARGEST_FILE {
        return Err(ImportError::TooMuch(message!("reconcile-papers-too-large", most = LARGEST_FILE >> 20)));
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
        return Err(ImportError::TooMuch(message!("reconcile-papers-too-wide", most = MOST_COLUMNS)));
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
            let most = message!("reconcile-papers-too-many", columns = MOST_COLUMNS, lines = MOST_LINES);
            return Err(ImportError::TooMuch(most));
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
        for (field, words) in Field::ALL {
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
        self.rows.iter().map(|(line, cells)| self.read_line(*line, cells, mapping)).collect()
    }

    /// Returns what is wrong with a cell, with the column in which it stands.
    fn in_column(&self, at: usize, fault: Message) -> Message {
        let head: String =
            self.heads.get(at).map_or(String::new(), |head| head.chars().take(LONGEST_HEAD).collect());
        message!("reconcile-papers-in-column", column = at + 1, head = Arg::typed(head), fault = fault)
    }

    fn read_line(&self, line: u64, cells: &[String], mapping: &Mapping) -> PaperLine {
        let cell = |field: Field| {
            mapping.columns.get(&field).and_then(|at| cells.get(*at)).cloned().unwrap_or_default()
        };
        let mut faults = Vec::new();
        for (at, text) in cells.iter().enumerate() {
            if text.chars().count() > LONGEST_CELL {
                faults.push(self.in_column(at, message!("reconcile-papers-long-cell", most = LONGEST_CELL)));
            }
            if text.chars().any(|c| c.is_control() && c != '\n' && c != '\r' && c != '\t') {
                faults.push(self.in_column(at, message!("reconcile-papers-control-characters")));
            }
        }
        let mut refuse = |field: Field, fault: Message| match mapping.columns.get(&field) {
            Some(at) => faults.push(self.in_column(*at, fault)),
            None => faults.push(fault),
        };
        let car = CarNumber(format!("{}{}", cell(Field::Mark), cell(Field::Car)));
        if car.0.trim().is_empty() {
            refuse(Field::Car, message!("reconcile-papers-no-car"));
        } else if !car.findings().is_empty() {
            refuse(Field::Car, message!("reconcile-papers-odd-car", text = Arg::typed(&car.0)));
        }
        let billed = cell(Field::Billed);
        let unit = if mapping.unit == "lb" { Unit::Pound } else { Unit::Gallon };
        let (amount, _) = Amount::read(&billed, unit);
        let dimension = matches!(amount.unit.dimension(), Dimension::Volume | Dimension::Mass);
        match amount.value {
            _ if billed.is_empty() => {}
            Some(value) if value > 0.0 && value < 1e7 && dimension => {}
            _ => refuse(Field::Billed, message!("reconcile-papers-no-quantity", text = Arg::typed(&billed))),
        }
        let density = cell(Field::Density);
        let plausible = |value: f64| DENSITIES.contains(&value);
        if !density.is_empty() && !Amount::read(&density, Unit::One).0.value.is_some_and(plausible) {
            refuse(Field::Density, message!("reconcile-papers-odd-density", text = Arg::typed(&density)));
        }
        let day = read_cell(&cell(Field::Day), day_of, |text| {
            refuse(Field::Day, message!("reconcile-papers-no-day", text = text));
        });
        let expected = read_cell(&cell(Field::Expected), day_of, |text| {
            refuse(Field::Expected, message!("reconcile-papers-no-day", text = text));
        });
        let odorised = read_cell(&cell(Field::Odorised), yes_or_no, |text| {
            refuse(Field::Odorised, message!("reconcile-papers-odd-odorized", text = text));
        });
        let grade = read_cell(&cell(Field::Grade), grade_of, |text| {
            refuse(Field::Grade, message!("reconcile-papers-odd-grade", text = text));
        });
        let billed_by = read_cell(&cell(Field::BilledBy), billed_by_of, |text| {
            refuse(Field::BilledBy, message!("reconcile-papers-odd-billed-by", text = text));
        });
        let winter_fill = read_cell(&cell(Field::WinterFill), winter_of, |text| {
            refuse(Field::WinterFill, message!("reconcile-papers-odd-winter", text = text));
        });
        let shown = if billed.is_empty() { billed } else { amount.shown() };
        let paper = HeldPaper {
            number: cell(Field::Number),
            car: car.0,
            shipper: cell(Field::Shipper),
            billed: shown,
            day: day.unwrap_or_default(),
        };
        PaperLine {
            line,
            paper,
            density,
            un_number: cell(Field::UnNumber),
            product: cell(Field::Product),
            odorised,
            grade,
            billed_by,
            winter_fill,
            expected: expected.unwrap_or_default(),
            faults,
        }
    }
}

/// Reads a cell that may be empty; what it cannot be read as is refused.
fn read_cell<T>(text: &str, read: impl Fn(&str) -> Option<T>, refuse: impl FnOnce(Arg)) -> Option<T> {
    let found = read(text);
    if found.is_none() && !text.is_empty() {
        refuse(Arg::typed(text));
    }
    found
}

fn day_of(text: &str) -> Option<String> {
    ["%Y-%m-%d", "%m/%d/%Y"]
        .iter()
        .find_map(|form| chrono::NaiveDate::parse_from_str(text.trim(), form).ok())
        .filter(|day| YEARS.contains(&day.year()))
        .map(|day| day.to_string())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use farsiding_words::Words;

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
    fn what_the_phone_is_sent_is_read_from_columns_of_its_own_and_must_be_plausible() {
        let heads = "Paper,Car,Date,Quantity,SG,UN number,Proper shipping name,Odorized,Expected\n";
        let read = |line: &str| {
            let sheet = take_apart(format!("{heads}{line}\n").as_bytes()).unwrap();
            sheet.read(&sheet.guess()).remove(0)
        };
        let good =
            read("INV-1,ZZQX 40101,2026-10-02,29200,0.5071,UN1075,Liquefied petroleum gas,Yes,10/09/2026");
        assert!(good.faults.is_empty(), "{:?}", good.faults);
        assert_eq!(good.un_number, "UN1075");
        assert_eq!(good.product, "Liquefied petroleum gas");
        assert_eq!((good.odorised, good.expected.as_str()), (Some(true), "2026-10-09"));
        let silent = read("INV-1,ZZQX 40101,2026-10-02,29200,,,,,");
        assert_eq!((silent.odorised, silent.faults.len()), (None, 0));
        for (wrong, faults) in [
            ("INV-1,ZZQX 40101,0026-10-02,29200,0.5071,UN1075,LPG,Yes,", 1),
            ("INV-1,ZZQX 40101,2026-10-02,29200,9.9,UN1075,LPG,Yes,", 1),
            ("INV-1,ZZQX 40101,2026-10-02,29200,0.5071,UN1075,LPG,perhaps,soon", 2),
        ] {
            assert_eq!(read(wrong).faults.len(), faults, "{wrong}");
        }
    }

    #[test]
    fn grade_basis_and_season_are_read_as_people_write_them_and_what_is_wrong_is_said_with_its_column() {
        let heads = "Paper,Car,Billed by,Quantity,Product grade,Season\n";
        let read = |line: &str| {
            let sheet = take_apart(format!("{heads}{line}\n").as_bytes()).unwrap();
            assert_eq!(sheet.guess().columns.len(), 6, "every heading is known: {:?}", sheet.guess());
            sheet.read(&sheet.guess()).remove(0)
        };
        let said = |line: &str| {
            let read = read(line);
            assert!(read.faults.is_empty(), "{line}: {:?}", read.faults);
            (read.billed_by, read.grade, read.winter_fill)
        };
        let (scale, hd5) = (Some(BilledBy::Scale), Some(ProductGrade::Hd5Propane));
        assert_eq!(said("INV-1,ZZQX 40101,Scale,125000 lb,HD-5,Winter"), (scale, hd5, Some(true)));
        assert_eq!(said("INV-1,ZZQX 40101,Weight,125000 lb,hd5_propane,Yes"), (scale, hd5, Some(true)));
        assert_eq!(said("INV-1,ZZQX 40101,báscula,125000 lb,propano HD-5,verano"), (scale, hd5, Some(false)));
        let outage = said("INV-1,ZZQX 40101,outage table,29200,Commercial Propane,no");
        assert_eq!(outage, (Some(BilledBy::Table), Some(ProductGrade::CommercialPropane), Some(false)));
        assert_eq!(said("INV-1,ZZQX 40101,,29200,,"), (None, None, None));
        let wrong = read("INV-1,ZZQX 40101,volume,29200,the good one,spring");
        assert_eq!((wrong.billed_by, wrong.grade, wrong.winter_fill), (None, None, None));
        let words = Words::english();
        let faults: Vec<String> = wrong.faults.iter().map(|fault| words.text(fault)).collect();
        assert_eq!(faults.len(), 3, "{faults:?}");
        for part in [
            "column 5, Product grade: \u{201c}the good one\u{201d}",
            "column 3, Billed by: \u{201c}volume\u{201d}",
            "column 6, Season: \u{201c}spring\u{201d}",
        ] {
            assert!(faults.iter().any(|fault| fault.starts_with(part)), "{part}: {faults:?}");
        }
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
