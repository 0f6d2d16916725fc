//! The readings of a visit with the uncertainties of the instruments, their charts, and the computed
//! quantities.

use std::collections::BTreeMap;

use farsiding_core::calc::instrument::GaugeGrade;
use farsiding_core::units::{Amount, Dimension};
use farsiding_core::view::{Fate, Point, SiteView, VisitView, fate_message};
use farsiding_core::{Arg, Message, message};
use farsiding_words::Words;
use maud::{Markup, html};

use super::chart::{self, Mark};
use super::scale;
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

fn shown(w: &Words, amount: &Amount, instrument: &str, site: Option<&SiteView>) -> String {
    let typed = w.text(&message!("office-visit-amount", amount = amount.arg()));
    match allowed(amount, instrument, site) {
        Some(half) => {
            let unit = Message::term("unit", amount.unit.word());
            let number = typed.strip_suffix(w.text(&unit).as_str()).map_or(typed.as_str(), str::trim_end);
            w.text(&message!(
                "office-visit-amount-within",
                amount = Arg::typed(number),
                half_width = Arg::number(half, 1),
                unit = unit
            ))
        }
        None => typed,
    }
}

fn instrument(w: &Words, name: &str) -> String {
    if name.trim().is_empty() { w.say("office-visit-no-instrument") } else { name.trim().to_owned() }
}

/// Returns the readings as a table, and each series as a chart.
pub fn readings(w: &Words, page: &Shown) -> Markup {
    let (view, site) = (&page.view, page.site.as_ref());
    if view.readings.is_empty() && view.series.is_empty() {
        return html! {};
    }
    html! {
        h2 { (w.say("office-visit-readings")) }
        (charts(w, page))
        div.wide tabindex="0" role="region" aria-label=(w.say("office-visit-readings")) {
            table {
                caption { (w.say("office-visit-readings-note")) }
                thead { tr { th scope="col" { (w.say("office-visit-reading")) } th.num scope="col" { (w.say("office-visit-value")) } th scope="col" { (w.say("office-visit-instrument")) } th scope="col" { (w.say("office-visit-who-when")) } } }
                tbody {
                    @for reading in &view.readings {
                        @if let Some(current) = &reading.current {
                            tr {
                                th scope="row" { (w.text(&reading.title)) }
                                td.num {
                                    (shown(w, &current.value.amount, &current.value.instrument, site))
                                    @if current.disputed { br; span.hot { (w.say("office-visit-disputed")) } }
                                }
                                td { (instrument(w, &current.value.instrument)) }
                                td { (by(w, &current.said)) }
                            }
                        }
                        @let stands = reading.current.as_ref().map(|current| current.said.entry);
                        @for point in reading.history.iter().filter(|point| Some(point.said.entry) != stands) {
                            (was(w, &reading.title, point, site))
                        }
                    }
                    @for series in &view.series {
                        @for point in series.points.iter() {
                            tr {
                                th scope="row" { (w.text(&series.title)) }
                                td.num { (shown(w, &point.amount, &point.instrument, site)) }
                                td { (instrument(w, &point.instrument)) }
                                td { (by(w, &point.said)) }
                            }
                        }
                        @for point in &series.struck { (was(w, &series.title, point, site)) }
                    }
                }
            }
        }
    }
}

fn was(w: &Words, title: &Message, point: &Point, site: Option<&SiteView>) -> Markup {
    html! {
        tr {
            th scope="row" { (w.text(title)) " " @if let Some(gone) = fate_message(point.fate) { span.tag { (w.text(&gone)) } } }
            td.num {
                @if point.fate == Fate::Live {
                    (shown(w, &point.amount, &point.instrument, site)) br; span.hot { (w.say("office-visit-disputed")) }
                } @else if point.fate == Fate::Agreed {
                    (shown(w, &point.amount, &point.instrument, site))
                } @else {
                    s { (shown(w, &point.amount, &point.instrument, site)) }
                }
            }
            td { (instrument(w, &point.instrument)) }
            td { (by(w, &point.said)) @if !point.why_gone.is_empty() { br; small { (w.text(&message!("office-visit-because", why = point.why_gone.clone()))) } } }
        }
    }
}

/// Returns the charts. Series of the same quantity at the same place share a chart, because a transfer
/// continues into its recovery.
fn charts(w: &Words, page: &Shown) -> Markup {
    let zone: chrono_tz::Tz = page.view.header.zone.parse().unwrap_or(chrono_tz::Tz::UTC);
    let mut together: BTreeMap<(String, String), Vec<&farsiding_core::view::SeriesView>> = BTreeMap::new();
    for series in &page.view.series {
        let key = (w.text(&series.measured.term()), w.text(&series.place.term()));
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
                    let at = point.said.done_at();
                    let plus_minus = allowed(&point.amount, &point.instrument, page.site.as_ref())
                        .filter(|_| point.amount.unit == unit);
                    let stands = matches!(point.fate, Fate::Live | Fate::MovedOn);
                    Some(Mark { at, value, plus_minus, stands })
                })
                .collect();
            marks.sort_by_key(|mark| mark.at);
            let title = scale::capital(&format!("{measured}, {place}"));
            Some((title, chart::draw(w, &marks, unit, zone)?))
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
pub fn computed(w: &Words, view: &VisitView) -> Markup {
    html! {
        @if !view.computed.is_empty() {
            h2 { (w.say("office-visit-computed")) }
            div.wide tabindex="0" role="region" aria-label=(w.say("office-visit-computed-label")) {
                table {
                    caption { (w.say("office-visit-computed-note")) }
                    thead { tr { th scope="col" { (w.say("office-visit-quantity")) } th.num scope="col" { (w.say("office-visit-value")) } th scope="col" { (w.say("office-visit-method")) } } }
                    tbody {
                        @for quantity in &view.computed {
                            tr {
                                th scope="row" { (w.text(&quantity.title)) @if !quantity.product.is_empty() { br; small { (w.text(&message!("office-visit-for-product", product = quantity.product.clone()))) } } }
                                @match &quantity.value {
                                    Some(value) => {
                                        td.num { (w.text(&quantity.message())) }
                                        td {
                                            code { (value.formula) } " — " (w.text(&value.source))
                                            @if let Some(largest) = &value.largest { br; small { (w.text(&message!("office-visit-largest", largest = largest.clone()))) } }
                                            @for finding in quantity.findings() { br; small { (w.text(&finding.message)) } }
                                        }
                                    }
                                    None => {
                                        td.num { "—" }
                                        td { (w.text(&quantity.message())) }
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
