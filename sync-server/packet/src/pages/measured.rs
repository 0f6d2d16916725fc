//! The readings with unit, uncertainty, instrument and method; their charts; and the computed values with
//! their formulas.

use farsiding_core::calc::empty_proof::Outcome;
use farsiding_core::entry::site_facts::Instrument;
use farsiding_core::view::{Fate, Point, SeriesView, fate_message};
use farsiding_core::{Arg, Joint, message};

use super::super::figures;
use super::super::sheet::{Cell, Sheet};
use super::{Spoken as _, Told, plus_minus};

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
        ("", _) => message!("packet-no-instrument"),
        (name, None) => message!("packet-unknown-instrument", name = Arg::typed(name)),
        (name, Some(_)) => name.as_message(),
    }];
    if !told.of(&point.worth.by).is_empty() {
        parts.push(point.worth.by.as_message());
    }
    if let Some(due) = known.map(|instrument| &instrument.calibration_due).filter(|due| !due.is_empty()) {
        parts.push(message!("packet-calibration-due", due = Arg::typed(due.as_str())));
    }
    let worth = point.worth.plus_minus.map_or_else(
        || told.say("packet-not-known"),
        |pm| told.text(&plus_minus(pm, point.amount.unit.word())),
    );
    let how = message!("packet-parts", parts = Arg::list(Joint::Comma, parts));
    (told.text(&how), worth)
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

fn gone(told: &Told<'_>, point: &Point) -> String {
    let fate = fate_message(point.fate).map_or_else(|| message!("packet-before"), |fate| fate.as_message());
    let why = told.of(&point.why_gone);
    told.text(&if why.is_empty() {
        fate
    } else {
        message!("packet-fate-because", fate = fate, why = Arg::typed(why))
    })
}

fn amount(told: &Told<'_>, point: &Point) -> String {
    told.text(&message!("packet-parts", parts = point.amount.arg()))
}

pub(super) fn write(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    let view = told.view();
    sheet.heading(&told.say("packet-heading-readings"));
    let mut rows: Vec<Vec<Cell>> = Vec::new();
    for reading in &view.readings {
        let disputed = reading.current.as_ref().is_some_and(|current| current.disputed);
        let mut title = told.of(&reading.title);
        if disputed {
            title += "\n";
            title += &told.say("packet-disputed");
        }
        for point in &reading.history {
            let (mut how, plus_minus) = method(told, point);
            let value = amount(told, point);
            if point.fate != Fate::Live {
                how = format!("{how}\n{}", gone(told, point));
            }
            let value = match point.fate {
                Fate::Live | Fate::Agreed => Cell::strong(value),
                _ => format!("({value})").into(),
            };
            rows.push(vec![
                title.clone().into(),
                value,
                plus_minus.into(),
                how.into(),
                format!("{}, {}", told.text(&point.said.signature()), told.text(&told.no(point.said.entry)))
                    .into(),
            ]);
        }
    }
    if rows.is_empty() {
        sheet.paragraph(&told.say("packet-no-readings"));
    } else {
        let columns = told.columns(&[
            ("packet-column-what", 22.0),
            ("packet-column-reading", 13.0),
            ("packet-column-plus-minus", 12.0),
            ("packet-column-method", 32.0),
            ("packet-column-who-when", 21.0),
        ]);
        sheet.table(&columns, rows);
        sheet.small(&told.say("packet-readings-what"));
    }
    empty(sheet, told);
    received(sheet, told);
}

/// Writes what received the cargo, and what went with it.
fn received(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    let mut lines = told.view().received().peekable();
    if lines.peek().is_none() {
        return;
    }
    sheet.subheading(&told.say("packet-heading-received"));
    for line in lines {
        let (text, by) = (line.sentence.as_message(), told.by(&line.said));
        sheet.item(&told.text(&message!("packet-told-by", text = text, by = by)));
    }
}

/// Writes annex C: every series, as a chart and in figures.
pub(super) fn series(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    let view = told.view();
    let with_points =
        || view.series.iter().filter(|series| !series.points.is_empty() || !series.struck.is_empty());
    if with_points().next().is_none() {
        return;
    }
    sheet.heading(&told.say("packet-annex-series"));
    for series in with_points() {
        one_series(sheet, told, series);
    }
}

fn one_series(sheet: &mut Sheet<'_>, told: &Told<'_>, series: &SeriesView) {
    let numbers: Vec<(i64, f64, Option<f64>)> = series
        .points
        .iter()
        .filter_map(|p| Some((p.said.done_at().0, p.amount.value?, p.worth.plus_minus)))
        .collect();
    let unit = series.points.first().map(|p| p.amount.unit);
    let one_unit = series.points.iter().all(|p| Some(p.amount.unit) == unit);
    let charted = unit.filter(|_| one_unit && numbers.len() >= 3);
    if charted.is_some() {
        sheet.keep_together(CHART_HEIGHT + 70.0); // keeps the heading with its chart
    }
    let title = series.title.as_message();
    sheet.subheading(&told.text(&message!("packet-a-series", title = title.clone())));
    if let Some(unit) = charted {
        let unit = told.unit(unit.word());
        let caption =
            message!("packet-chart-caption", title = title.clone(), unit = Arg::typed(unit.as_str()));
        let in_words = told.text(&message!("packet-chart-in-words", title = title));
        sheet.figure(CHART_HEIGHT, &in_words, &told.text(&caption), |pen| {
            figures::chart(pen, &numbers, &unit, told.zone(), told.words);
        });
    }
    if let Some((how, plus_minus)) = one_method(told, series) {
        let all = message!("packet-all-on", how = Arg::typed(how), worth = Arg::typed(plus_minus));
        sheet.paragraph(&told.text(&all));
        let cells: Vec<[Cell; 3]> = series
            .points
            .iter()
            .map(|point| {
                let who = format!("{}, {}", point.said.name, told.text(&told.no(point.said.entry)));
                [told.text(&point.said.time()).into(), Cell::strong(amount(told, point)), who.into()]
            })
            .collect();
        let rows = cells.chunks(2).map(|pair| pair.iter().flatten().cloned().collect()).collect();
        let half =
            [("packet-column-when", 21.0), ("packet-column-reading", 13.0), ("packet-column-who", 16.0)];
        sheet.table(&told.columns(&[half, half].concat()), rows);
        return;
    }
    let mut rows: Vec<Vec<Cell>> = Vec::new();
    for (point, stands) in
        series.points.iter().map(|p| (p, true)).chain(series.struck.iter().map(|p| (p, false)))
    {
        let (how, plus_minus) = method(told, point);
        let value = if stands {
            amount(told, point)
        } else {
            format!("({})\n{}", amount(told, point), gone(told, point))
        };
        rows.push(vec![
            told.text(&point.said.time()).into(),
            value.into(),
            plus_minus.into(),
            how.into(),
            format!("{}, {}", point.said.name, told.text(&told.no(point.said.entry))).into(),
        ]);
    }
    let columns = told.columns(&[
        ("packet-column-when", 19.0),
        ("packet-column-reading", 21.0),
        ("packet-column-plus-minus", 13.0),
        ("packet-column-method", 30.0),
        ("packet-column-who", 17.0),
    ]);
    sheet.table(&columns, rows);
}

fn empty(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    let empty = &told.view().empty;
    if empty.signs.is_empty() && empty.decision.is_none() {
        return;
    }
    sheet.subheading(&told.say("packet-heading-empty"));
    for sign in &empty.signs {
        let (what, by) = (sign.sign.term(), told.known_by(&sign.seen));
        sheet.item(&told.text(&match (sign.seen.value, sign.speaks_for_liquid) {
            (true, false) => message!("packet-sign-yes", sign = what, by = by),
            (true, true) => message!("packet-sign-yes-liquid", sign = what, by = by),
            (false, false) => message!("packet-sign-no", sign = what, by = by),
            (false, true) => message!("packet-sign-no-liquid", sign = what, by = by),
        }));
    }
    if let Some(weighed) = &empty.weighed {
        let caution = weighed.caution.as_message();
        sheet.paragraph(&told.text(&match weighed.outcome {
            Outcome::LiquidIndicated => message!("packet-weighed-liquid", caution = caution),
            Outcome::NoLiquidIndicated => message!("packet-weighed-no-liquid", caution = caution),
            Outcome::NotEnoughEvidence => message!("packet-weighed-not-enough", caution = caution),
        }));
        for piece in &weighed.pieces {
            sheet.item(&told.of(&piece.reason));
        }
    }
    if let Some(decision) = &empty.decision {
        let grounds = if told.of(&decision.value.grounds).is_empty() {
            message!("packet-no-grounds")
        } else {
            decision.value.grounds.as_message()
        };
        let by = told.known_by(decision);
        sheet.strong(&told.text(&match decision.value.accepted {
            true => message!("packet-taken-as-empty", grounds = grounds, by = by),
            false => message!("packet-not-taken-as-empty", grounds = grounds, by = by),
        }));
    }
}

/// Writes annex D: every computed value.
pub(super) fn computed(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    let view = told.view();
    sheet.heading(&told.say("packet-annex-values"));
    sheet.small(&told.say("packet-annex-values-what"));
    if view.computed.is_empty() {
        sheet.paragraph(&told.say("packet-nothing-computed"));
        return;
    }
    let rows = view
        .computed
        .iter()
        .map(|quantity| {
            let mut title = told.of(&quantity.title);
            if !told.of(&quantity.product).is_empty() {
                title += "\n";
                title += &told.text(&message!("packet-for-product", product = quantity.product.as_message()));
            }
            let formula = quantity.value.as_ref().map_or(String::new(), |value| {
                let mut formula = value.formula.to_string();
                if let Some(largest) = &value.largest {
                    formula += "\n";
                    formula += &told.text(&message!("packet-largest", input = largest.as_message()));
                }
                formula
            });
            let source = quantity.value.as_ref().map_or(String::new(), |value| told.of(&value.source));
            let mut shown = told.of(&quantity.message());
            for finding in quantity.findings() {
                shown += "\n";
                shown += &told.of(&finding.message);
            }
            vec![title.into(), shown.into(), formula.into(), source.into()]
        })
        .collect();
    let columns = told.columns(&[
        ("packet-column-value", 20.0),
        ("packet-column-result", 32.0),
        ("packet-column-formula", 20.0),
        ("packet-column-source", 28.0),
    ]);
    sheet.table(&columns, rows);
}
