//! Writes the figures of reconciling as tables, in CSV and as a workbook.
//!
//! A text that a spreadsheet would take for a formula is made harmless: CSV puts an apostrophe before it, and
//! a workbook stores it as text. Called by the pages and `farsiding export reconcile`.

use farsiding_core::clock::UtcMillis;
use farsiding_core::text;
use rust_xlsxwriter::{Format, Workbook, XlsxError};

use crate::comparison::{Compared, Comparison};
use crate::report::{CarLine, MonthReport};

/// A cell.
#[derive(Clone, Debug, PartialEq)]
pub enum Cell {
    /// A text.
    Text(String),
    /// A number, with the number of decimals that a spreadsheet shows.
    Number(f64, u8),
    /// An empty cell.
    Empty,
}

impl From<&str> for Cell {
    fn from(text: &str) -> Cell {
        if text.is_empty() { Cell::Empty } else { Cell::Text(text.to_owned()) }
    }
}

/// A table.
#[derive(Clone, Debug, PartialEq)]
pub struct Table {
    /// The table's name, with at most 31 letters (a spreadsheet's limit).
    pub name: &'static str,
    /// The column headings.
    pub head: Vec<&'static str>,
    /// The rows.
    pub rows: Vec<Vec<Cell>>,
}

/// Returns whether a spreadsheet would take the text for a formula or a command.
fn looks_like_a_formula(text: &str) -> bool {
    text.trim_start_matches(|c: char| c.is_whitespace() || c.is_control() || c == '\u{feff}')
        .starts_with(['=', '+', '-', '@', '\u{ff1d}', '\u{ff0b}', '\u{ff0d}', '\u{ff20}'])
        || text.starts_with(['\t', '\r', '\n'])
}

/// Returns a text in a form that is safe in a CSV file opened in a spreadsheet.
pub fn harmless(text: &str) -> String {
    // A text that begins a formula only after invisible characters are removed must be caught as well.
    let own = text::own(text);
    if looks_like_a_formula(text) || looks_like_a_formula(&own) {
        format!("'{own}")
    } else {
        own.into_owned()
    }
}

/// Returns a table as CSV in UTF-8 (RFC 4180).
///
/// # Errors
/// Returns the error of the CSV writer, which does not fail in memory.
pub fn csv_of(table: &Table) -> Result<Vec<u8>, csv::Error> {
    let mut writer = csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    writer.write_record(&table.head)?;
    for row in &table.rows {
        writer.write_record(row.iter().map(|cell| match cell {
            Cell::Text(text) => harmless(text),
            Cell::Number(value, _) => format!("{value}"),
            Cell::Empty => String::new(),
        }))?;
    }
    writer.into_inner().map_err(|error| error.into_error().into())
}

/// Returns a workbook with a sheet for each table.
///
/// # Errors
/// Returns an error when a table has more rows than a sheet can hold.
pub fn workbook_of(tables: &[Table]) -> Result<Vec<u8>, XlsxError> {
    let mut workbook = Workbook::new();
    let bold = Format::new().set_bold().set_text_wrap();
    for table in tables {
        let sheet = workbook.add_worksheet();
        sheet.set_name(table.name)?;
        sheet.set_freeze_panes(1, 0)?;
        for (column, head) in (0u16..).zip(&table.head) {
            sheet.write_string_with_format(0, column, *head, &bold)?;
            sheet.set_column_width(column, 16)?;
        }
        for (line, row) in (1u32..).zip(&table.rows) {
            for (column, cell) in (0u16..).zip(row) {
                match cell {
                    // A text that is longer than a cell may be is cut off. CSV and JSON contain the whole
                    // text.
                    Cell::Text(text) => {
                        let fitting: String = text::own(text).chars().take(32_000).collect();
                        sheet.write_string(line, column, fitting)?;
                    }
                    Cell::Number(value, decimals) => {
                        let places = usize::from(*decimals);
                        let shown = if places == 0 { "0".to_owned() } else { format!("0.{:0<places$}", "") };
                        sheet.write_number_with_format(
                            line,
                            column,
                            *value,
                            &Format::new().set_num_format(shown),
                        )?;
                    }
                    Cell::Empty => {}
                }
            }
        }
    }
    workbook.save_to_buffer()
}

fn time(at: Option<UtcMillis>) -> Cell {
    at.map_or(Cell::Empty, |at| Cell::Text(at.rfc3339()))
}

fn gallons(value: Option<f64>) -> Cell {
    value.map_or(Cell::Empty, |value| Cell::Number(value, 1))
}

/// Returns all tables of a report.
pub fn tables_of(report: &MonthReport) -> Vec<Table> {
    vec![
        cars(report),
        totals(report),
        biases(report),
        sums(report),
        clocks(report),
        findings(report),
        notes(report),
    ]
}

fn cars(report: &MonthReport) -> Table {
    let head = vec![
        "car",
        "day",
        "site",
        "shipper",
        "paper",
        "visit",
        "gauge",
        "billed_gal",
        "found_gal",
        "found_standard_gal",
        "received_gal",
        "left_gal",
        "found_less_billed_gal",
        "found_plus_minus_gal",
        "found_percent",
        "found_within",
        "explained_gal",
        "received_and_left_less_billed_gal",
        "received_plus_minus_gal",
        "received_within",
        "released",
        "not_compared",
    ];
    let rows = report.cars.iter().map(car).collect();
    Table { name: "cars", head, rows }
}

fn car(car: &CarLine) -> Vec<Cell> {
    let (found, received) = (car.comparison(Compared::Found), car.comparison(Compared::Received));
    let within = |comparison: Option<&Comparison>| {
        comparison.map_or(Cell::Empty, |c| Cell::from(if c.within { "within" } else { "beyond" }))
    };
    let billed = found.or(received).map(|comparison| comparison.billed);
    vec![
        Cell::from(car.car.as_str()),
        Cell::from(car.day.as_str()),
        Cell::from(car.site.as_str()),
        Cell::from(car.shipper.as_str()),
        Cell::from(car.paper.as_str()),
        car.visit.map_or(Cell::Empty, |visit| Cell::Text(visit.to_string())),
        Cell::from(car.gauge.as_str()),
        gallons(billed),
        gallons(car.found.as_ref().map(|found| found.value)),
        gallons(car.found.as_ref().map(|found| found.standard())),
        gallons(car.received.as_ref().map(|received| received.value)),
        gallons(car.left.as_ref().map(|left| left.value)),
        gallons(found.map(|c| c.difference)),
        gallons(found.map(|c| c.plus_minus)),
        found.map_or(Cell::Empty, |c| Cell::Number(c.percent, 3)),
        within(found),
        gallons(Some(car.explained).filter(|part| *part != 0.0)),
        gallons(received.map(|c| c.difference)),
        gallons(received.map(|c| c.plus_minus)),
        within(received),
        time(car.released),
        Cell::from(car.not_compared.join("; ").as_str()),
    ]
}

fn totals(report: &MonthReport) -> Table {
    let head = vec![
        "by",
        "name",
        "compared",
        "cars",
        "not_compared",
        "billed_gal",
        "other_gal",
        "difference_gal",
        "plus_minus_gal",
        "of_it_shared_standard_gal",
        "percent",
        "within",
    ];
    let rows = report.totals.iter().map(|total| {
        vec![
            Cell::from(total.by.as_str()),
            Cell::from(total.name.as_str()),
            Cell::from(total.compared.words()),
            Cell::Number(total.cars as f64, 0),
            Cell::Number(total.not_compared as f64, 0),
            gallons(Some(total.billed)),
            gallons(Some(total.other)),
            gallons(Some(total.difference)),
            gallons(Some(total.plus_minus)),
            gallons(Some(total.shared)),
            Cell::Number(total.percent, 3),
            Cell::from(if total.within { "within" } else { "beyond" }),
        ]
    });
    Table { name: "totals", head, rows: rows.collect() }
}

fn biases(report: &MonthReport) -> Table {
    let head = vec![
        "by",
        "name",
        "site",
        "compared",
        "cars",
        "mean_gal",
        "deviation_gal",
        "standard_error_gal",
        "low_95_gal",
        "high_95_gal",
        "may_repeat_standard_gal",
        "cusum_sigma_gal",
        "cusum_reference_gal",
        "cusum_interval_gal",
        "cusum_signals",
    ];
    let rows = report.biases.iter().map(|bias| {
        let chart = bias.cusum.as_ref();
        vec![
            Cell::from(bias.by.as_str()),
            Cell::from(bias.name.as_str()),
            Cell::from(bias.site.as_str()),
            Cell::from(bias.compared.words()),
            Cell::Number(bias.cars as f64, 0),
            gallons(Some(bias.mean)),
            gallons(Some(bias.deviation)),
            gallons(Some(bias.error)),
            gallons(Some(bias.low)),
            gallons(Some(bias.high)),
            gallons(Some(bias.shared)),
            gallons(chart.map(|chart| chart.sigma)),
            gallons(chart.map(|chart| chart.reference)),
            gallons(chart.map(|chart| chart.interval)),
            chart.map_or(Cell::Empty, |chart| Cell::Number(chart.signals.len() as f64, 0)),
        ]
    });
    Table { name: "bias", head, rows: rows.collect() }
}

fn sums(report: &MonthReport) -> Table {
    let head = vec!["gauge", "site", "compared", "car", "difference_gal", "upper_gal", "lower_gal", "signal"];
    let mut rows = Vec::new();
    for bias in &report.biases {
        let Some(chart) = &bias.cusum else { continue };
        for (at, point) in chart.points.iter().enumerate() {
            rows.push(vec![
                Cell::from(bias.name.as_str()),
                Cell::from(bias.site.as_str()),
                Cell::from(bias.compared.words()),
                report.cars.get(point.car).map_or(Cell::Empty, |car| Cell::from(car.car.as_str())),
                gallons(Some(point.difference)),
                gallons(Some(point.upper)),
                gallons(Some(point.lower)),
                if chart.signals.contains(&at) { Cell::from("signal") } else { Cell::Empty },
            ]);
        }
    }
    Table { name: "cusum", head, rows }
}

fn clocks(report: &MonthReport) -> Table {
    let head = vec![
        "car",
        "site",
        "tariff",
        "from_event",
        "from",
        "free_until",
        "until_event",
        "until",
        "over_hours",
        "days",
        "charge",
        "currency",
        "why_not",
    ];
    let rows = report.cars.iter().map(|car| {
        let mut row = vec![Cell::from(car.car.as_str()), Cell::from(car.site.as_str())];
        match &car.detention {
            None => row.extend(std::iter::repeat_n(Cell::Empty, 10)),
            Some(clock) => row.extend([
                Cell::from(clock.tariff.as_str()),
                Cell::from(clock.from_event.as_str()),
                time(Some(clock.from)),
                time(Some(clock.free_until)),
                Cell::from(if clock.runs() { "still running" } else { clock.until_event.as_str() }),
                time(Some(clock.until)),
                Cell::Number(clock.over_hours, 2),
                Cell::Number(f64::from(clock.days), 0),
                Cell::from(clock.charge.as_str()),
                Cell::from(clock.currency.as_str()),
            ]),
        }
        row.push(Cell::from(car.no_detention.as_str()));
        row
    });
    Table { name: "detention", head, rows: rows.collect() }
}

fn findings(report: &MonthReport) -> Table {
    let rows = report.findings.iter().map(|finding| {
        let visits: Vec<String> = finding.visits.iter().map(ToString::to_string).collect();
        vec![
            Cell::from(finding.kind.words()),
            Cell::from(finding.about.as_str()),
            Cell::from(finding.site.as_str()),
            Cell::from(finding.sentence.as_str()),
            Cell::from(visits.join(" ").as_str()),
        ]
    });
    Table {
        name: "findings",
        head: vec!["what", "about", "site", "sentence", "visits"],
        rows: rows.collect(),
    }
}

fn notes(report: &MonthReport) -> Table {
    let rows = report.notes.iter().map(|note| {
        vec![
            Cell::from(note.code.as_str()),
            Cell::from(note.about.as_str()),
            Cell::from(note.sentence.as_str()),
        ]
    });
    Table { name: "notes", head: vec!["what", "car", "sentence"], rows: rows.collect() }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;

    fn table(texts: &[&str]) -> Table {
        Table {
            name: "t",
            head: vec!["text"],
            rows: texts.iter().map(|text| vec![Cell::from(*text)]).collect(),
        }
    }

    #[test]
    fn a_text_that_a_spreadsheet_would_run_is_written_as_a_text() {
        let hostile = ["=1+1", "+2", "-3", "@SUM(A1)", "\t=1", "  =cmd|' /C calc'!A0", "\u{feff}=1", "＝1"];
        let written = String::from_utf8(csv_of(&table(&hostile)).unwrap()).unwrap();
        let mut reader = csv::ReaderBuilder::new().from_reader(written.as_bytes());
        let back: Vec<String> = reader.records().map(|row| row.unwrap()[0].to_owned()).collect();
        for (text, written) in hostile.iter().zip(&back) {
            assert_eq!(written, &format!("'{text}"));
        }
        assert_eq!(harmless("ZZQX 1, \"quoted\""), "ZZQX 1, \"quoted\"");
    }

    #[test]
    fn in_a_workbook_a_formula_is_a_text_and_numbers_are_numbers() {
        let mut sheet = table(&["=HYPERLINK(\"http://invented.invalid\")"]);
        sheet.rows.push(vec![Cell::Number(-12.5, 1)]);
        let bytes = workbook_of(&[sheet]).unwrap();
        assert!(bytes.starts_with(b"PK"));
    }
}
