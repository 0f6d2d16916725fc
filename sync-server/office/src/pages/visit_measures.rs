//! The readings of a visit with the uncertainties of the instruments, their charts, and the computed
//! quantities.

use std::collections::BTreeMap;

use farsiding_core::calc::instrument::GaugeGrade;
use farsiding_core::clock::UtcMillis;
use farsiding_core::units::{Amount, Dimension};
use farsiding_core::view::{Fate, Point, SiteView, VisitView, fate_spoken};
use maud::{Markup, html};

use super::chart::{self, Mark};
use super::visit::by;
use crate::index::finding::Shown;

/// Returns the uncertainty of a gauge of the site at a reading, in the reading's unit: the limits of its
/// grade (ASME B40.100, as used by the calculations). Returns `None` for other instruments and for unnamed
/// ones.
fn allowed(amount: &Amount, instrument: &str, site: Option<&SiteView>) -> Option<f64> {
    let known = site?.instrument(instrument)?;
    let grade = GaugeGrade::ALL.into_iter().find(|grade| grade.mark() == known.grade.trim())?;
    let (dial, span) = (known.span.unit, known.span.value?);
    if amount.unit.dimension() != Dimension::GaugePressure || amount.unit != dial {
        return None;
    }
    Some(grade.half_width(amount.value?, span))
}

fn shown(amount: &Amount, instrument: &str, site: Option<&SiteView>) -> String {
    let (shown, unit) = (amount.shown(), amount.unit.to_string());
    match (allowed(amount, instrument, site), shown.strip_suffix(unit.as_str())) {
        (Some(pm), Some(number)) => format!("{} ± {pm:.1} {unit}", number.trim()),
        (Some(pm), None) => format!("{shown}, ± {pm:.1}"),
        (None, _) => shown,
    }
}

fn instrument(name: &str) -> &str {
    if name.trim().is_empty() { "instrument not named" } else { name.trim() }
}

/// Returns the readings as a table, and each series as a chart.
pub fn readings(page: &Shown) -> Markup {
    let (view, site) = (&page.view, page.site.as_ref());
    if view.readings.is_empty() && view.series.is_empty() {
        return html! {};
    }
    html! {
        h2 { "Readings" }
        (charts(page))
        div.wide tabindex="0" role="region" aria-label="Readings" {
            table {
                caption { "As read, with what the gauge allows by its grade where the site has recorded it" }
                thead { tr { th scope="col" { "Reading" } th.num scope="col" { "Value" } th scope="col" { "Instrument" } th scope="col" { "Who and when" } } }
                tbody {
                    @for reading in &view.readings {
                        @if let Some(current) = &reading.current {
                            tr {
                                th scope="row" { (reading.title) }
                                td.num {
                                    (shown(&current.value.amount, &current.value.instrument, site))
                                    @if current.disputed { br; span.hot { "accounts differ" } }
                                }
                                td { (instrument(&current.value.instrument)) }
                                td { (by(&current.said)) }
                            }
                        }
                        @let stands = reading.current.as_ref().map(|current| current.said.entry);
                        @for point in reading.history.iter().filter(|point| Some(point.said.entry) != stands) {
                            (was(&reading.title, point, site))
                        }
                    }
                    @for series in &view.series {
                        @for point in series.points.iter() {
                            tr {
                                th scope="row" { (series.title) }
                                td.num { (shown(&point.amount, &point.instrument, site)) }
                                td { (instrument(&point.instrument)) }
                                td { (by(&point.said)) }
                            }
                        }
                        @for point in &series.struck { (was(&series.title, point, site)) }
                    }
                }
            }
        }
    }
}

fn was(title: &str, point: &Point, site: Option<&SiteView>) -> Markup {
    html! {
        tr {
            th scope="row" { (title) " " @if let Some(gone) = fate_spoken(point.fate) { span.tag { (gone) } } }
            td.num {
                @if point.fate == Fate::Live {
                    (shown(&point.amount, &point.instrument, site)) br; span.hot { "accounts differ" }
                } @else if point.fate == Fate::Agreed {
                    (shown(&point.amount, &point.instrument, site))
                } @else {
                    s { (shown(&point.amount, &point.instrument, site)) }
                }
            }
            td { (instrument(&point.instrument)) }
            td { (by(&point.said)) @if !point.why_gone.is_empty() { br; small { "because: " (point.why_gone) } } }
        }
    }
}

/// Returns the charts. Series of the same quantity at the same place share a chart, because a transfer
/// continues into its recovery.
fn charts(page: &Shown) -> Markup {
    let zone: chrono_tz::Tz = page.view.header.zone.parse().unwrap_or(chrono_tz::Tz::UTC);
    let mut together: BTreeMap<(String, String), Vec<&farsiding_core::view::SeriesView>> = BTreeMap::new();
    for series in &page.view.series {
        let key = (series.measured.spoken(), series.place.spoken());
        together.entry(key).or_default().push(series);
    }
    let drawn: Vec<(String, Markup)> = together
        .into_iter()
        .filter_map(|((measured, place), all)| {
            let unit = all.iter().flat_map(|series| &series.points).next()?.amount.unit;
            let mut marks: Vec<Mark> = all
                .iter()
                .flat_map(|series| series.points.iter().chain(&series.struck))
                .filter_map(|point| {
                    let value = point.amount.value_in(unit)?;
                    let ahead = point.said.ahead_millis.unwrap_or(0);
                    let at = UtcMillis(point.said.claimed.0.saturating_sub(ahead));
                    let plus_minus = allowed(&point.amount, &point.instrument, page.site.as_ref())
                        .filter(|_| point.amount.unit == unit);
                    let stands = matches!(point.fate, Fate::Live | Fate::MovedOn);
                    Some(Mark { at, value, plus_minus, stands })
                })
                .collect();
            marks.sort_by_key(|mark| mark.at);
            let mut title = format!("{measured}, {place}");
            if let Some(first) = title.get(..1).map(str::to_uppercase) {
                title.replace_range(..1, &first);
            }
            Some((title, chart::draw(&marks, unit, zone)?))
        })
        .collect();
    html! {
        @if !drawn.is_empty() {
            div.charts {
                @for (title, drawing) in &drawn { figure { figcaption { (title) } (drawing) } }
            }
        }
    }
}

/// Returns the computed quantities: value and uncertainty, formula and source, and reasons for doubt.
pub fn computed(view: &VisitView) -> Markup {
    html! {
        @if !view.computed.is_empty() {
            h2 { "Computed from the record" }
            div.wide tabindex="0" role="region" aria-label="Computed quantities" {
                table {
                    caption { "± is half the width of the 95 % interval. Nothing here is stored: it is made again from the entries each time." }
                    thead { tr { th scope="col" { "Quantity" } th.num scope="col" { "Value" } th scope="col" { "Method and source" } } }
                    tbody {
                        @for quantity in &view.computed {
                            tr {
                                th scope="row" { (quantity.title) @if !quantity.product.is_empty() { br; small { "for " (quantity.product) } } }
                                @match &quantity.value {
                                    Some(value) => {
                                        td.num { (quantity.shown()) }
                                        td {
                                            (value.formula) " — " (value.source)
                                            @if let Some(largest) = &value.largest { br; small { "most of the ± comes from " (largest) } }
                                            @for finding in quantity.findings() { br; small { (finding.message) } }
                                        }
                                    }
                                    None => {
                                        td.num { "—" }
                                        td { (quantity.shown()) }
                                    }
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}
