//! The owner's outage table: importing it from text, checking it, and interpolating smoothly between its
//! rows.
//!
//! If a car has a table, it takes precedence over dimensions (see `tank`). The view calls this module for a
//! car whose document holds a table, and so do the screens that import one and `calc::lines`.

mod curve;
mod text;

use serde::{Deserialize, Serialize};

pub use self::text::{OutageTableError, TableForm, VolumeColumn};

use self::curve::{cubic_through, slopes};
use super::error::{CalcError, Limits, Range};
use super::sources;
use super::tank::Shell;
use super::uncertainty::{Measured, Method, propagate};
use crate::message;
use crate::units::{Computed, Finding, Severity, Unit};

/// Formula id.
pub const FORMULA: &str = "outage_table/1";
/// The distance of rows, in inches, above which even smooth interpolation is uncertain by more than a few
/// gallons.
const COARSE_STEP_IN: f64 = 2.0;

/// A checked outage table: outage in inches, rising; liquid in gallons, falling.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "Rows", into = "Rows")]
pub struct OutageTable {
    rows: Vec<(f64, f64)>,
    slopes: Vec<f64>,
}

/// The stored form: rows of outage (in) and liquid (gal).
#[derive(Clone, Serialize, Deserialize)]
struct Rows {
    rows: Vec<(f64, f64)>,
}

impl TryFrom<Rows> for OutageTable {
    type Error = OutageTableError;

    fn try_from(stored: Rows) -> Result<OutageTable, OutageTableError> {
        OutageTable::from_rows(&stored.rows).map(|(table, _)| table)
    }
}

impl From<OutageTable> for Rows {
    fn from(table: OutageTable) -> Rows {
        Rows { rows: table.rows }
    }
}

impl OutageTable {
    /// Reads a table from text: two columns parted by comma, semicolon, tab or blanks; heading lines before
    /// the first row and lines starting with # are passed over; "33,800" in quotes is thirty-three thousand.
    /// Rows may stand in either order. Findings: coarse steps, a fall too steep or too flat to be a shell's.
    ///
    /// # Errors
    /// [`OutageTableError`], naming the line.
    pub fn read(text: &str, form: TableForm) -> Result<(OutageTable, Vec<Finding>), OutageTableError> {
        OutageTable::checked(text::rows(text, form)?)
    }

    /// From rows of outage (in) and liquid (gal), in either order.
    ///
    /// # Errors
    /// As [`OutageTable::read`], with the row's place as line.
    pub fn from_rows(rows: &[(f64, f64)]) -> Result<(OutageTable, Vec<Finding>), OutageTableError> {
        OutageTable::checked(rows.iter().enumerate().map(|(at, (x, y))| (at + 1, *x, *y)).collect())
    }

    /// The table of a shell of known dimensions, every `step` inches: to compare an owner's table with.
    ///
    /// # Errors
    /// As [`OutageTable::from_rows`].
    pub fn of_shell(shell: &Shell, step: f64) -> Result<OutageTable, OutageTableError> {
        let diameter = Unit::Inch.from_si(shell.diameter());
        let count = if step > 0.0 { (diameter / step).floor().min(10_000.0) as u32 } else { 0 };
        let mut outages: Vec<f64> = (0..=count).map(|at| f64::from(at) * step).collect();
        if outages.last().is_some_and(|last| diameter - last > 1e-6) {
            outages.push(diameter);
        }
        let row = |outage: f64| {
            let liquid = shell.liquid(Unit::Inch.to_si(outage)).unwrap_or(0.0);
            (outage, Unit::Gallon.from_si(liquid))
        };
        let rows: Vec<(f64, f64)> = outages.into_iter().map(row).collect();
        OutageTable::from_rows(&rows).map(|(table, _)| table)
    }

    fn checked(mut rows: Vec<(usize, f64, f64)>) -> Result<(OutageTable, Vec<Finding>), OutageTableError> {
        if rows.len() < 4 {
            return Err(OutageTableError::TooFewRows(rows.len()));
        }
        for (line, outage, volume) in &rows {
            let possible = (0.0..=240.0).contains(outage) && (0.0..=100_000.0).contains(volume);
            if !possible {
                let text = format!("{outage} in, {volume} gal");
                return Err(OutageTableError::Impossible { line: *line, text });
            }
        }
        rows.sort_by(|a, b| a.1.total_cmp(&b.1));
        for pair in rows.windows(2) {
            let [(_, before, more), (line, outage, volume)] = pair else { continue };
            if outage == before {
                return Err(OutageTableError::Repeated { line: *line, outage: *outage });
            }
            if volume >= more {
                return Err(OutageTableError::NotMonotone { line: *line, outage: *outage, volume: *volume });
            }
        }
        let points: Vec<(f64, f64)> = rows.iter().map(|(_, outage, volume)| (*outage, *volume)).collect();
        let mut findings = Vec::new();
        let widest = points.windows(2).map(|pair| pair[1].0 - pair[0].0).fold(0.0, f64::max);
        let slopes = slopes(&points);
        let table = OutageTable { rows: points, slopes };
        if widest > COARSE_STEP_IN {
            findings.push(Finding::new(
                "coarse_steps",
                Severity::Check,
                message!(
                    "calc-table-coarse",
                    apart = Unit::Inch.plain(widest),
                    bow = Unit::Gallon.figure(table.largest_bow(), 0),
                ),
            ));
        }
        findings.extend(table.odd_rows());
        Ok((table, findings))
    }

    /// Outage (in) and liquid (gal) of every row, outage rising.
    pub fn rows(&self) -> &[(f64, f64)] {
        &self.rows
    }

    /// Liquid in gallons at an outage in inches, along a monotone cubic through the rows.
    ///
    /// # Errors
    /// Outside the table's rows, or not a number: a table is never continued past its end.
    pub fn liquid(&self, outage_in: f64) -> Result<f64, CalcError> {
        let at = self.cell(outage_in)?;
        Ok(self.cubic(at, outage_in))
    }

    fn cubic(&self, at: usize, outage_in: f64) -> f64 {
        let ((x0, y0), (x1, y1)) = (self.rows[at], self.rows[at + 1]);
        let (width, s) = (x1 - x0, (outage_in - x0) / (x1 - x0));
        let (s2, s3) = (s * s, s * s * s);
        y0 * (2.0 * s3 - 3.0 * s2 + 1.0)
            + width * self.slopes[at] * (s3 - 2.0 * s2 + s)
            + y1 * (3.0 * s2 - 2.0 * s3)
            + width * self.slopes[at + 1] * (s3 - s2)
    }

    fn cell(&self, outage_in: f64) -> Result<usize, CalcError> {
        let (first, last) = (self.rows[0].0, self.rows[self.rows.len() - 1].0);
        Range::new(first, last, Unit::Inch, Limits::Reason("calc-limits-rows")).check("outage", outage_in)?;
        let after = self.rows.partition_point(|(outage, _)| *outage <= outage_in);
        Ok(after.clamp(1, self.rows.len() - 1) - 1)
    }

    /// Half-width of what reading between two rows may be off by: half the distance between the
    /// smooth curve and the straight line, and half a gallon for the table's own rounding.
    fn reading_limit(&self, outage_in: f64) -> Result<f64, CalcError> {
        let at = self.cell(outage_in)?;
        Ok(0.5 * self.bow(at, outage_in).abs() + 0.5)
    }

    /// Smooth curve less straight line at an outage, gal.
    fn bow(&self, at: usize, outage_in: f64) -> f64 {
        let ((x0, y0), (x1, y1)) = (self.rows[at], self.rows[at + 1]);
        let straight = y0 + (y1 - y0) * (outage_in - x0) / (x1 - x0);
        self.cubic(at, outage_in) - straight
    }

    fn largest_bow(&self) -> f64 {
        let middle = |at: usize| 0.5 * (self.rows[at].0 + self.rows[at + 1].0);
        (0..self.rows.len() - 1).map(|at| self.bow(at, middle(at)).abs()).fold(0.0, f64::max)
    }

    /// Reports rows whose removal would move the curve far away from them, because they are probably
    /// mistyped.
    fn odd_rows(&self) -> Vec<Finding> {
        let mut findings = Vec::new();
        let total = self.rows[0].1;
        for at in 2..self.rows.len().saturating_sub(2) {
            let near = &self.rows[at - 2..=at + 2];
            let without = [near[0], near[1], near[3], near[4]];
            let expected = cubic_through(&without, near[2].0);
            let off = near[2].1 - expected;
            if off.abs() > 0.002 * total {
                findings.push(Finding::new(
                    "odd_row",
                    Severity::Check,
                    message!(
                        "calc-table-odd-row",
                        outage = Unit::Inch.plain(near[2].0),
                        volume = Unit::Gallon.plain(near[2].1),
                        expected = Unit::Gallon.figure(expected, 0),
                    ),
                ));
            }
        }
        findings
    }
}

/// Liquid volume from an owner's table, gal at the liquid's own temperature.
///
/// Inputs: outage within the table's rows. Method: monotone cubic interpolation. Uncertainty: the outage's,
/// and what reading between rows may miss. What makes it wrong: another car's table, another datum, a
/// temperature far from the table's reference.
///
/// # Errors
/// Outside the table's rows, wrong unit, not a number.
pub fn liquid_volume(outage: &Measured, table: &OutageTable) -> Result<Computed, CalcError> {
    let outage = outage.to(Unit::Inch)?;
    let between = table.reading_limit(outage.value)? / 3.0_f64.sqrt();
    let method = Method::Absolute("reading between rows", between);
    let gallons = propagate(&[&outage], method, |x| table.liquid(x[0]))?;
    Ok(gallons.computed(Unit::Gallon, FORMULA, &sources::said("calc-source-owner-table"), Vec::new()))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may stop at a surprise")]
    use super::super::tank::Heads;
    use super::*;

    fn shell() -> Shell {
        Shell::from_total(Unit::Inch.to_si(119.0), Heads::TwoToOne, Unit::Gallon.to_si(33_800.0)).unwrap()
    }

    fn exact(outage: f64) -> f64 {
        Unit::Gallon.from_si(shell().liquid(Unit::Inch.to_si(outage)).unwrap())
    }

    /// Largest error of a reading, gal, and of a straight line.
    fn errors(step: f64) -> (f64, f64, f64) {
        let table = OutageTable::of_shell(&shell(), step).unwrap();
        let (mut smooth, mut straight, mut beyond) = (0.0_f64, 0.0_f64, 0.0_f64);
        for tenth in 0..=1190 {
            let outage = f64::from(tenth) / 10.0;
            let at = table.cell(outage).unwrap();
            let error = (table.liquid(outage).unwrap() - exact(outage)).abs();
            smooth = smooth.max(error);
            beyond = beyond.max(error / table.reading_limit(outage).unwrap());
            straight =
                straight.max((table.liquid(outage).unwrap() - table.bow(at, outage) - exact(outage)).abs());
        }
        (smooth, straight, beyond)
    }

    #[test]
    fn a_smooth_reading_beats_a_straight_line_by_far_and_knows_its_limits() {
        for (step, allowed) in [(1.0, 1.5), (2.0, 4.0), (5.0, 16.0)] {
            let (smooth, straight, beyond) = errors(step);
            println!(
                "{step} in: smooth {smooth:.2} gal, straight {straight:.2} gal, {beyond:.2} of the limit"
            );
            assert!(smooth < allowed && smooth < straight / 3.0, "{step} in: {smooth} against {straight}");
            assert!(beyond < 1.3, "{step} in: {beyond} times the limit claimed");
        }
    }

    #[test]
    fn a_coarse_table_is_pointed_out() {
        let rows: Vec<(f64, f64)> = (0..=23).map(|at| f64::from(at) * 5.0).map(|x| (x, exact(x))).collect();
        let (_, findings) = OutageTable::from_rows(&rows).unwrap();
        assert!(findings.iter().any(|finding| finding.code == "coarse_steps"));
    }

    #[test]
    fn text_with_heading_remarks_and_thousands_is_read() {
        let text = "# car's own table\noutage (in),gallons\n0,\"33,800\"\n1;33758\n2\t33681\n\n3 33582\n";
        let (table, _) = OutageTable::read(text, TableForm::INCHES_GALLONS).unwrap();
        assert_eq!(table.rows()[0], (0.0, 33_800.0));
        assert_eq!(table.liquid(2.0), Ok(33_681.0));
    }

    #[test]
    fn metric_outage_volumes_become_gallons_of_liquid() {
        let form = TableForm {
            outage: Unit::Millimetre,
            volume: Unit::Litre,
            column: VolumeColumn::Outage,
            total: Some(100_000.0),
        };
        let (table, _) = OutageTable::read("0,0\n100,500\n200,1500\n300,3000", form).unwrap();
        assert!((table.rows()[3].1 - 97_000.0 / 3.785_411_784).abs() < 1e-3);
        assert!((table.rows()[1].0 - 3.937_008).abs() < 1e-6);
    }

    #[test]
    fn a_mistyped_row_is_named_by_its_line() {
        let wrong_way = OutageTable::read("0,33800\n1,33758\n2,33861\n3,33582", TableForm::INCHES_GALLONS);
        assert!(matches!(wrong_way, Err(OutageTableError::NotMonotone { line: 3, .. })), "{wrong_way:?}");
        let word = OutageTable::read("0,33800\n1,33758\ntwo,33681", TableForm::INCHES_GALLONS);
        assert!(matches!(word, Err(OutageTableError::NotARow { line: 3, .. })));
        let twice = OutageTable::read("0,400\n1,300\n1,200\n2,100", TableForm::INCHES_GALLONS);
        assert!(matches!(twice, Err(OutageTableError::Repeated { .. })));
        let mut rows: Vec<(f64, f64)> =
            (0..=60).map(|at| f64::from(at) * 2.0).filter(|x| *x <= 119.0).map(|x| (x, exact(x))).collect();
        rows[20].1 += 300.0;
        let (_, findings) = OutageTable::from_rows(&rows).unwrap();
        assert!(findings.iter().any(|finding| finding.code == "odd_row"
            && farsiding_words::english(&finding.message).contains("40 in")));
    }

    #[test]
    fn a_table_is_never_continued_past_its_end() {
        let (table, _) =
            OutageTable::from_rows(&[(5.0, 400.0), (6.0, 300.0), (7.0, 210.0), (8.0, 150.0)]).unwrap();
        for outage in [4.9, 8.1, f64::NAN] {
            assert!(table.liquid(outage).is_err());
        }
        let outage = Measured::within("outage", 6.5, Unit::Inch, 0.125);
        let volume = liquid_volume(&outage, &table).unwrap();
        assert!(volume.value < 300.0 && volume.value > 210.0 && volume.plus_minus.is_some());
    }

    #[test]
    fn a_stored_table_is_checked_when_it_comes_back() {
        let table = OutageTable::of_shell(&shell(), 1.0).unwrap();
        let text = serde_json::to_string(&table).unwrap();
        assert_eq!(serde_json::from_str::<OutageTable>(&text).unwrap(), table);
        assert!(serde_json::from_str::<OutageTable>(r#"{"rows":[[0,1],[1,2],[2,3],[3,4]]}"#).is_err());
    }
}
