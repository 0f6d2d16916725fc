//! The readings with unit, uncertainty, instrument and method; their charts; and the computed values with
//! their formulas.

use farsiding_core::calc::empty_proof::Outcome;
use farsiding_core::entry::site_facts::Instrument;
use farsiding_core::view::{Fate, Point, SeriesView, fate_spoken};

use super::super::figures;
use super::super::sheet::{Cell, Sheet};
use super::Told;

/// The height of a chart, in points.
const CHART_HEIGHT: f32 = 134.0;

/// Returns what is known of how a reading was taken, and its uncertainty.
fn method(told: &Told<'_>, point: &Point) -> (String, String) {
    let name = point.instrument.trim();
    let known: Option<&Instrument> = told
        .refolded
        .site
        .as_ref()
        .and_then(|site| site.instruments.iter().find(|i| i.name.trim().eq_ignore_ascii_case(name)));
    let mut parts = vec![match (name, known) {
        ("", _) => "instrument not named".to_owned(),
        (name, None) => format!("{name} (not in the site's list)"),
        (name, Some(_)) => name.to_owned(),
    }];
    if !point.worth.by.is_empty() {
        parts.push(point.worth.by.clone());
    }
    if let Some(due) = known.map(|instrument| &instrument.calibration_due).filter(|due| !due.is_empty()) {
        parts.push(format!("calibration due {due}"));
    }
    let plus_minus = point
        .worth
        .plus_minus
        .map_or("not known".to_owned(), |pm| format!("\u{b1} {pm:.2} {}", point.amount.unit));
    (parts.join(", "), plus_minus)
}

/// Returns the instrument and the uncertainty of a long series, if they are the same throughout and no
/// reading was struck out.
fn one_method(told: &Told<'_>, series: &SeriesView) -> Option<(String, String)> {
    if series.points.len() < 4 || !series.struck.is_empty() {
        return None;
    }
    let mut methods = series.points.iter().map(|point| method(told, point));
    let first = methods.next()?;
    methods.all(|other| other == first).then_some(first)
}

fn gone(point: &Point) -> String {
    let fate = fate_spoken(point.fate).unwrap_or("before");
    if point.why_gone.is_empty() { fate.to_owned() } else { format!("{fate}: {}", point.why_gone) }
}

pub(super) fn write(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    let view = told.view();
    sheet.heading("7  Readings");
    let mut rows: Vec<Vec<Cell>> = Vec::new();
    for reading in &view.readings {
        let disputed = reading.current.as_ref().is_some_and(|current| current.disputed);
        let title = if disputed { format!("{}\nDISPUTED", reading.title) } else { reading.title.clone() };
        for point in &reading.history {
            let (mut how, plus_minus) = method(told, point);
            let value: Cell = if point.fate == Fate::Live {
                Cell::strong(point.amount.shown())
            } else if point.fate == Fate::Agreed {
                how = format!("{how}\n{}", gone(point));
                Cell::strong(point.amount.shown())
            } else {
                how = format!("{how}\n{}", gone(point));
                format!("({})", point.amount.shown()).into()
            };
            rows.push(vec![
                title.clone().into(),
                value,
                plus_minus.into(),
                how.into(),
                format!("{}, {}", point.said.signature(), told.no(point.said.entry)).into(),
            ]);
        }
    }
    if rows.is_empty() {
        sheet.paragraph("No single readings were recorded.");
    } else {
        sheet.table(
            &[
                ("What", 22.0),
                ("Reading", 13.0),
                ("\u{b1}", 12.0),
                ("Instrument and method", 32.0),
                ("Who, when", 21.0),
            ],
            rows,
        );
        sheet.small(
            "\u{b1} is half the width of the 95 % interval (JCGM 100) that the instrument leaves, by what is named beside it. \
             A value in brackets no longer stands. Series of readings are in annex C.",
        );
    }
    empty(sheet, told);
}

/// Writes annex C: every series, as a chart and in figures.
pub(super) fn series(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    let view = told.view();
    let with_points =
        || view.series.iter().filter(|series| !series.points.is_empty() || !series.struck.is_empty());
    if with_points().next().is_none() {
        return;
    }
    sheet.heading("Annex C  Series of readings");
    for series in with_points() {
        let numbers: Vec<(i64, f64, Option<f64>)> = series
            .points
            .iter()
            .filter_map(|p| {
                let at = p.said.claimed.0.saturating_sub(p.said.ahead_millis.unwrap_or(0));
                Some((at, p.amount.value?, p.worth.plus_minus))
            })
            .collect();
        let unit = series.points.first().map(|p| p.amount.unit);
        let one_unit = series.points.iter().all(|p| Some(p.amount.unit) == unit);
        let charted = unit.filter(|_| one_unit && numbers.len() >= 3);
        if charted.is_some() {
            sheet.keep_together(CHART_HEIGHT + 70.0); // keeps the heading with its chart
        }
        sheet.subheading(&format!("{}, a series", series.title));
        if let Some(unit) = charted {
            let caption = format!(
                "{}, {unit}, over the claimed time. Points are readings, bars their \u{b1}; the line only joins them.",
                series.title
            );
            let zone = told.zone();
            let in_words = format!("A chart of {}; the table below has the same figures.", series.title);
            sheet.figure(CHART_HEIGHT, &in_words, &caption, |pen| {
                figures::chart(pen, &numbers, &unit.to_string(), zone);
            });
        }
        if let Some((how, plus_minus)) = one_method(told, series) {
            sheet.paragraph(&format!("All of them on {how}; {plus_minus}."));
            let cells: Vec<[Cell; 3]> = series
                .points
                .iter()
                .map(|point| {
                    let amount = Cell::strong(point.amount.shown());
                    let who = format!("{}, {}", point.said.name, told.no(point.said.entry));
                    [point.said.shown.clone().into(), amount, who.into()]
                })
                .collect();
            let rows = cells.chunks(2).map(|pair| pair.iter().flatten().cloned().collect()).collect();
            let columns = [("Claimed", 21.0), ("Reading", 13.0), ("Who", 16.0)];
            sheet.table(&[columns, columns].concat(), rows);
            continue;
        }
        let mut rows: Vec<Vec<Cell>> = Vec::new();
        for (point, stands) in
            series.points.iter().map(|p| (p, true)).chain(series.struck.iter().map(|p| (p, false)))
        {
            let (how, plus_minus) = method(told, point);
            let value = if stands {
                point.amount.shown()
            } else {
                format!("({})\n{}", point.amount.shown(), gone(point))
            };
            rows.push(vec![
                point.said.shown.clone().into(),
                value.into(),
                plus_minus.into(),
                how.into(),
                format!("{}, {}", point.said.name, told.no(point.said.entry)).into(),
            ]);
        }
        sheet.table(
            &[
                ("Claimed", 19.0),
                ("Reading", 21.0),
                ("\u{b1}", 13.0),
                ("Instrument and method", 30.0),
                ("Who", 17.0),
            ],
            rows,
        );
    }
}

fn empty(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    let empty = &told.view().empty;
    if empty.signs.is_empty() && empty.decision.is_none() {
        return;
    }
    sheet.subheading("Was the liquid out? What was recorded");
    for sign in &empty.signs {
        let seen = if sign.seen.value { "yes" } else { "no" };
        let speaks = if sign.speaks_for_liquid { " \u{2013} speaks for liquid" } else { "" };
        sheet.item(&format!("{}: {seen}{speaks} ({})", sign.sign.spoken(), told.known_by(&sign.seen)));
    }
    if let Some(weighed) = &empty.weighed {
        let outcome = match weighed.outcome {
            Outcome::LiquidIndicated => "what was recorded indicates LIQUID",
            Outcome::NoLiquidIndicated => "what was recorded indicates no liquid",
            Outcome::NotEnoughEvidence => "what was recorded is not enough to tell",
        };
        sheet
            .paragraph(&format!("Weighed by a model, which decides nothing: {outcome}. {}", weighed.caution));
        for piece in &weighed.pieces {
            sheet.item(&piece.reason);
        }
    }
    if let Some(decision) = &empty.decision {
        let taken =
            if decision.value.accepted { "Taken as empty of liquid" } else { "NOT taken as empty of liquid" };
        let grounds =
            if decision.value.grounds.is_empty() { "no grounds given" } else { &decision.value.grounds };
        sheet.strong(&format!("{taken}: {grounds} ({})", told.known_by(decision)));
    }
}

/// Writes annex D: every computed value.
pub(super) fn computed(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    let view = told.view();
    sheet.heading("Annex D  Values computed from the record");
    sheet.small(
        "Nobody typed these: each was made from the readings above by the formula named. \u{b1} is half the width of \
         the 95 % interval (JCGM 100). Where something was missing, that is said instead of a number.",
    );
    if view.computed.is_empty() {
        sheet.paragraph("Nothing was computed.");
        return;
    }
    let rows = view
        .computed
        .iter()
        .map(|quantity| {
            let product = if quantity.product.is_empty() {
                String::new()
            } else {
                format!("\nfor {}", quantity.product)
            };
            let formula = quantity.value.as_ref().map_or(String::new(), |value| {
                let largest = value
                    .largest
                    .as_ref()
                    .map_or(String::new(), |l| format!("\nmost of the \u{b1} comes from {l}"));
                format!("{}{largest}", value.formula)
            });
            let source = quantity.value.as_ref().map_or(String::new(), |value| value.source.clone());
            let doubts: Vec<String> = quantity.findings().iter().map(|f| f.message.clone()).collect();
            let mut shown = quantity.shown();
            if !doubts.is_empty() {
                shown += &format!("\n{}", doubts.join("\n"));
            }
            vec![format!("{}{product}", quantity.title).into(), shown.into(), formula.into(), source.into()]
        })
        .collect();
    sheet.table(&[("Value", 20.0), ("Result", 32.0), ("Formula and version", 20.0), ("Source", 28.0)], rows);
}
