//! Writes the figures of reconciling as tables, in CSV and as a workbook.
//!
//! A text that a spreadsheet would take for a formula is made harmless: CSV puts an apostrophe before it, and
//! a workbook stores it as text. Called by the pages and `farsiding export reconcile`.

use farsiding_core::clock::UtcMillis;
use farsiding_core::{Message, text};
use farsiding_words::Words;
use rust_xlsxwriter::{Format, Workbook, XlsxError};

use crate::comparison::{Compared, Comparison};
use crate::report::{CarLine, MonthReport};

/// A cell.
#[derive(Clone, Debug, PartialEq)]
pub enum Cell {
    /// A text.
    Text(String),
    /// A word of a family, as the core writes it. Programs read it in CSV; a workbook has the message
    /// `FAMILY-WORD` in the reader's language.
    Word(&'static str, String),
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
            Cell::Text(text) | Cell::Word(_, text) => harmless(text),
            Cell::Number(value, _) => format!("{value}"),
            Cell::Empty => String::new(),
        }))?;
    }
    writer.into_inner().map_err(|error| error.into_error().into())
}

/// Returns a workbook with a sheet for each table. The names of sheets and the headings are in the reader's language,
/// while a CSV file keeps headings that programs read.
///
/// # Errors
/// Returns an error when a table has more rows than a sheet can hold.
pub fn workbook_of(tables: &[Table], words: &Words) -> Result<Vec<u8>, XlsxError> {
    let mut workbook = Workbook::new();
    let bold = Format::new().set_bold().set_text_wrap();
    for table in tables {
        let sheet = workbook.add_worksheet();
        sheet.set_name(words.text(&Message::term("sheet_name", table.name)))?;
        sheet.set_freeze_panes(1, 0)?;
        for (column, head) in (0u16..).zip(&table.head) {
            let head = words.text(&Message::term("sheet_column", head));
            sheet.write_string_with_format(0, column, head, &bold)?;
            sheet.set_column_width(column, 16)?;
        }
        for (line, row) in (1u32..).zip(&table.rows) {
            for (column, cell) in (0u16..).zip(row) {
                match cell {
                    Cell::Text(text) => {
                        sheet.write_string(line, column, fitting(text))?;
                    }
                    Cell::Word(family, word) => {
                        sheet.write_string(line, column, in_words(family, word, words))?;
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

/// A text that is longer than a cell may be is cut off. CSV and JSON contain the whole text.
fn fitting(text: &str) -> String {
    text::own(text).chars().take(32_000).collect()
}

/// Returns the text of a word. A word that no catalogue has, such as a tariff's own event, stays as it is.
fn in_words(family: &'static str, word: &str, words: &Words) -> String {
    let says = Message::term(family, word);
    if words.knows(says.id()) { words.text(&says) } else { fitting(word) }
}

fn time(at: Option<UtcMillis>) -> Cell {
    at.map_or(Cell::Empty, |at| Cell::Text(at.rfc3339()))
}

fn gallons(value: Option<f64>) -> Cell {
    value.map_or(Cell::Empty, |value| Cell::Number(value, 1))
}

fn coded(word: &str) -> Cell {
    Cell::Word("sheet_cell", word.to_owned())
}

fn is_within(within: bool) -> Cell {
    coded(if within { "within" } else { "beyond" })
}

/// An event of the clock, or the release, which starts or stops one.
fn event(word: &str) -> Cell {
    Cell::Word("office-event", word.to_owned())
}

/// Returns all tables of a report.
pub fn tables_of(report: &MonthReport, words: &Words) -> Vec<Table> {
    vec![
        cars(report, words),
        totals(report, words),
        biases(report, words),
        sums(report, words),
        demurrage(report, words),
        accounts(report),
        detention(report, words),
        findings(report, words),
        notes(report, words),
    ]
}

fn cars(report: &MonthReport, words: &Words) -> Table {
    let head = vec![
        "car",
        "day",
        "site",
        "shipper",
        "paper",
        "visit",
        "gauge",
        "billed_gal",
        "billed_by",
        "method",
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
    let rows = report.cars.iter().map(|line| car(line, words)).collect();
    Table { name: "cars", head, rows }
}

fn car(car: &CarLine, words: &Words) -> Vec<Cell> {
    let (found, received) = (car.comparison(Compared::Found), car.comparison(Compared::Received));
    let within = |comparison: Option<&Comparison>| comparison.map_or(Cell::Empty, |c| is_within(c.within));
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
        car.billed_by.map_or(Cell::Empty, |by| Cell::Word("billed_by", by.word().to_owned())),
        Cell::from(found.or(received).map(|c| words.text(&c.method)).unwrap_or_default().as_str()),
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
        Cell::from(
            car.not_compared.iter().map(|why| words.text(why)).collect::<Vec<_>>().join("; ").as_str(),
        ),
    ]
}

fn totals(report: &MonthReport, words: &Words) -> Table {
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
            coded(&total.by),
            Cell::from(total.name.as_str()),
            Cell::from(words.text(&total.compared.term()).as_str()),
            Cell::Number(total.cars as f64, 0),
            Cell::Number(total.not_compared as f64, 0),
            gallons(Some(total.billed)),
            gallons(Some(total.other)),
            gallons(Some(total.difference)),
            gallons(Some(total.plus_minus)),
            gallons(Some(total.shared)),
            Cell::Number(total.percent, 3),
            is_within(total.within),
        ]
    });
    Table { name: "totals", head, rows: rows.collect() }
}

fn biases(report: &MonthReport, words: &Words) -> Table {
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
            coded(&bias.by),
            Cell::from(bias.name.as_str()),
            Cell::from(bias.site.as_str()),
            Cell::from(words.text(&bias.compared.term()).as_str()),
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

fn sums(report: &MonthReport, words: &Words) -> Table {
    let head = vec!["gauge", "site", "compared", "car", "difference_gal", "upper_gal", "lower_gal", "signal"];
    let mut rows = Vec::new();
    for bias in &report.biases {
        let Some(chart) = &bias.cusum else { continue };
        for (at, point) in chart.points.iter().enumerate() {
            rows.push(vec![
                Cell::from(bias.name.as_str()),
                Cell::from(bias.site.as_str()),
                Cell::from(words.text(&bias.compared.term()).as_str()),
                report.cars.get(point.car).map_or(Cell::Empty, |car| Cell::from(car.car.as_str())),
                gallons(Some(point.difference)),
                gallons(Some(point.upper)),
                gallons(Some(point.lower)),
                if chart.signals.contains(&at) { coded("signal") } else { Cell::Empty },
            ]);
        }
    }
    Table { name: "cusum", head, rows }
}

fn demurrage(report: &MonthReport, words: &Words) -> Table {
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
        "stopped_hours",
        "credits",
        "charge",
        "currency",
        "why_not",
    ];
    let rows = report.cars.iter().map(|car| {
        let mut row = vec![Cell::from(car.car.as_str()), Cell::from(car.site.as_str())];
        match &car.demurrage {
            None => row.extend(std::iter::repeat_n(Cell::Empty, 12)),
            Some(clock) => row.extend([
                Cell::from(clock.tariff.as_str()),
                event(&clock.from_event),
                time(Some(clock.from)),
                time(Some(clock.free_until)),
                if clock.runs() { coded("still running") } else { event(&clock.until_event) },
                time(Some(clock.until)),
                Cell::Number(clock.over_hours, 2),
                Cell::Number(f64::from(clock.days), 0),
                Cell::Number(clock.stopped_hours, 2),
                if clock.debits { Cell::Number(f64::from(clock.credits), 0) } else { Cell::Empty },
                Cell::from(clock.charge.as_str()),
                Cell::from(clock.currency.as_str()),
            ]),
        }
        row.push(Cell::from(
            car.no_demurrage.as_ref().map(|why| words.text(why)).unwrap_or_default().as_str(),
        ));
        row
    });
    Table { name: "demurrage", head, rows: rows.collect() }
}

fn accounts(report: &MonthReport) -> Table {
    let head = vec![
        "site",
        "tariff",
        "cars",
        "debits",
        "credits",
        "charged_days",
        "charge",
        "currency",
        "still_running",
    ];
    let rows = report.accounts.iter().map(|account| {
        vec![
            Cell::from(account.site.as_str()),
            Cell::from(account.tariff.as_str()),
            Cell::Number(account.cars as f64, 0),
            Cell::Number(f64::from(account.debits), 0),
            Cell::Number(f64::from(account.credits), 0),
            Cell::Number(f64::from(account.charged), 0),
            Cell::from(account.charge.as_str()),
            Cell::from(account.currency.as_str()),
            Cell::Number(account.running as f64, 0),
        ]
    });
    Table { name: "demurrage_accounts", head, rows: rows.collect() }
}

fn detention(report: &MonthReport, words: &Words) -> Table {
    let head = vec![
        "car",
        "site",
        "supplier",
        "tariff",
        "from_event",
        "from_day",
        "until_event",
        "until_day",
        "away_days",
        "free_days",
        "charged_days",
        "charge",
        "currency",
        "why_not",
    ];
    let rows = report.cars.iter().map(|car| {
        let mut row = vec![Cell::from(car.car.as_str()), Cell::from(car.site.as_str())];
        match &car.detention {
            None => row.extend(std::iter::repeat_n(Cell::Empty, 11)),
            Some(clock) => row.extend([
                Cell::from(clock.supplier.as_str()),
                Cell::from(clock.tariff.as_str()),
                event(&clock.from_event),
                Cell::from(clock.from.as_str()),
                if clock.runs() { coded("still running") } else { event(&clock.until_event) },
                Cell::from(clock.until.as_str()),
                Cell::Number(f64::from(clock.away), 0),
                Cell::Number(f64::from(clock.free), 0),
                Cell::Number(f64::from(clock.days), 0),
                Cell::from(clock.charge.as_str()),
                Cell::from(clock.currency.as_str()),
            ]),
        }
        row.push(Cell::from(
            car.no_detention.as_ref().map(|why| words.text(why)).unwrap_or_default().as_str(),
        ));
        row
    });
    Table { name: "detention", head, rows: rows.collect() }
}

fn findings(report: &MonthReport, words: &Words) -> Table {
    let rows = report.findings.iter().map(|finding| {
        let visits: Vec<String> = finding.visits.iter().map(ToString::to_string).collect();
        vec![
            Cell::from(words.text(&finding.kind.term()).as_str()),
            Cell::from(finding.about.as_str()),
            Cell::from(finding.site.as_str()),
            Cell::from(words.text(&finding.sentence).as_str()),
            Cell::from(visits.join(" ").as_str()),
        ]
    });
    Table {
        name: "findings",
        head: vec!["what", "about", "site", "sentence", "visits"],
        rows: rows.collect(),
    }
}

fn notes(report: &MonthReport, words: &Words) -> Table {
    let rows = report.notes.iter().map(|note| {
        vec![
            coded(&note.code),
            Cell::from(note.about.as_str()),
            Cell::from(words.text(&note.sentence).as_str()),
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
    fn a_workbook_says_in_words_what_csv_has_as_codes() {
        let spanish = Words::of("es-MX".parse().unwrap());
        let said = |cell: Cell| match cell {
            Cell::Word(family, word) => in_words(family, &word, spanish),
            other => format!("{other:?}"),
        };
        let cells = [is_within(false), coded("still running"), event("released"), coded("same_stay")];
        let expected = ["fuera de la medición", "sigue corriendo", "liberación", "misma estancia"];
        assert_eq!(cells.clone().map(said), expected);
        assert_eq!(said(event("an event (invented)")), "an event (invented)");
        let table = Table { name: "t", head: vec!["text"], rows: vec![vec![cells[0].clone()]] };
        assert!(String::from_utf8(csv_of(&table).unwrap()).unwrap().contains("beyond"));
    }

    #[test]
    fn in_a_workbook_a_formula_is_a_text_and_numbers_are_numbers() {
        let mut sheet = table(&["=HYPERLINK(\"http://invented.invalid\")"]);
        sheet.rows.push(vec![Cell::Number(-12.5, 1)]);
        let bytes = workbook_of(&[sheet], Words::english()).unwrap();
        assert!(bytes.starts_with(b"PK"));
    }
}
