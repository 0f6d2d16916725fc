//! The page of reconciling: a month's cars with the quantities billed, found and taken in, repeated
//! differences, findings. Its clocks are in `reconcile_clocks`, their tariffs in `reconcile_tariffs`.

use std::sync::Arc;

use axum::extract::{Query, State};
use axum::http::{HeaderValue, StatusCode, header};
use axum::response::{IntoResponse as _, Response};
use farsiding_core::clock::UtcMillis;
use farsiding_core::ids::{SiteId, VisitId};
use farsiding_core::{Arg, Message, message};
use farsiding_words::Words;
use maud::{Markup, html};
use serde::Deserialize;

use super::cusum_chart;
use super::frame::{self, OfficeUser, Place};
use super::page_error::PageError;
use super::reconcile_clocks;
use super::reconcile_tariffs::{self, Refused};
use super::scale;
use crate::accounts::roles::Right;
use crate::month;
use crate::state::Office;
use farsiding_reconcile::comparison::Compared;
use farsiding_reconcile::papers::tables::{csv_of, tables_of, workbook_of};
use farsiding_reconcile::report::CarLine;
use farsiding_reconcile::{MonthReport, Selection};

const DAY: i64 = 86_400_000;
/// The number of days before the month whose stays are also read, to find a seal that was used twice.
const BEFORE_DAYS: i64 = 200;

/// The query of the page.
#[derive(Debug, Default, Deserialize)]
pub struct Asked {
    #[serde(default)]
    month: String,
    #[serde(default)]
    site: String,
    #[serde(default)]
    format: String,
    #[serde(default)]
    table: String,
}

impl Asked {
    /// Asks for a month, and for the site of this id alone if it is not empty.
    pub(super) fn of(month: &str, site: &str) -> Asked {
        Asked { month: month.to_owned(), site: site.to_owned(), ..Asked::default() }
    }
}

struct Made {
    report: MonthReport,
    sites: Vec<(SiteId, String)>,
}

async fn make(office: &Office, asked: &Asked) -> Result<Made, PageError> {
    let now = office.now();
    let this_month = now.rfc3339().get(..7).unwrap_or("").to_owned();
    let month = if asked.month.is_empty() { this_month } else { asked.month.clone() };
    let begins = UtcMillis::read(&format!("{month}-01T00:00:00Z"))
        .filter(|_| month.len() == 7)
        .ok_or_else(|| PageError::BadForm(message!("office-reconcile-month-form")))?;
    let span = (UtcMillis(begins.0 - BEFORE_DAYS * DAY), UtcMillis(begins.0 + 45 * DAY));
    let site = match asked.site.as_str() {
        "" => None,
        text => {
            Some(SiteId::read(text).map_err(|_| PageError::NotThere(message!("office-reconcile-no-site")))?)
        }
    };
    let ((all, mut gaps), sites) =
        office.on_index(move |asking| Ok((month::of_index(asking, span)?, asking.sites()?))).await?;
    let ((settings, papers), devices) = office
        .on_database(|database| Ok((month::of_database(database.connection())?, database.devices()?)))
        .await?;
    for gap in &mut gaps {
        if let Some(known) = devices.iter().find(|known| known.device == gap.device) {
            gap.sentence = gap.sentence.clone().with("device", Arg::typed(&known.name));
        }
    }
    let selection = Selection { month, site };
    Ok(Made { report: MonthReport::of(&all, &papers, &gaps, selection, &settings, now), sites })
}

/// `GET /office/reconcile`: shows a month.
pub async fn show(
    State(office): State<Arc<Office>>,
    Query(asked): Query<Asked>,
    user: OfficeUser,
) -> Result<Response, PageError> {
    frame::note(&office, &user, "looked", "reconcile").await?;
    page(&office, &user, &asked, None).await
}

/// Returns the page of a month, with a form that was refused as it was typed.
pub(super) async fn page(
    office: &Office,
    user: &OfficeUser,
    asked: &Asked,
    refused: Option<&Refused>,
) -> Result<Response, PageError> {
    let Made { report, sites } = make(office, asked).await?;
    let site = report.selection.site.map_or(String::new(), |site| site.to_string());
    let month = report.selection.month.clone();
    let query = format!("month={month}&site={site}");
    let w = user.words;
    let body = html! {
        div.row.apart { h1 { (w.text(&message!("office-reconcile-title-month", month = Arg::typed(&month)))) } }
        form.row.no-print method="get" action="/office/reconcile" {
            label.label for="month" { (w.say("office-reconcile-month")) }
            div { input.field id="month" name="month" value=(month) pattern="[0-9]{4}-[0-9]{2}" required; }
            label.label for="site" { (w.say("office-reconcile-site")) }
            div {
                select.field id="site" name="site" {
                    option value="" { (w.say("office-reconcile-all-sites")) }
                    @for (id, name) in &sites { option value=(id) selected[report.selection.site == Some(*id)] { (name) } }
                }
            }
            button.go type="submit" { (w.say("office-reconcile-calculate")) }
            a.key href={ "/office/reconcile/export?format=xlsx&" (query) } { (w.say("office-reconcile-workbook")) }
            a.key href={ "/office/reconcile/export?format=csv&" (query) } { "CSV" }
            a.key href={ "/office/reconcile/export?format=json&" (query) } { "JSON" }
        }
        (frame::behind(user.words, office))
        @if report.cars.is_empty() {
            p.none { (w.say("office-reconcile-no-car")) }
        } @else {
            (pointed_out(w, &report))
            (totals(w, &report))
            (repeats(w, &report))
            (cars(w, &report))
            (reconcile_clocks::clocks(w, &report))
            (notes(w, &report))
        }
        (rests_on(w, &report))
        @if user.may(Right::Record) { (reconcile_tariffs::forms(user, &report, refused)) }
    };
    let status = if refused.is_some() { StatusCode::UNPROCESSABLE_ENTITY } else { StatusCode::OK };
    Ok(frame::page_with(status, user, &w.say("office-reconcile-title"), Place::Reconcile, body))
}

pub(super) fn link(visit: Option<VisitId>, text: &str) -> Markup {
    html! { @match visit { Some(visit) => { a href={ "/office/visits/" (visit) } { (text) } } None => { (text) } } }
}

fn gallons(w: &Words, value: f64) -> String {
    w.number(&format!("{value:.0}")).replace('-', "−")
}

fn signed(w: &Words, value: f64) -> String {
    let number = w.number(&format!("{:.0}", value.abs()));
    if value.is_sign_negative() { format!("−{number}") } else { format!("+{number}") }
}

fn pointed_out(w: &Words, report: &MonthReport) -> Markup {
    html! {
        section aria-labelledby="out" {
            h2 #out { (w.say("office-reconcile-pointed")) }
            @if report.findings.is_empty() {
                p { (w.say("office-reconcile-nothing")) }
            } @else {
                ul.plain {
                    @for finding in &report.findings {
                        li.hot-edge {
                            b { (scale::capital(&w.text(&finding.kind.term()))) } ": " (finding.about)
                            @if !finding.site.is_empty() && finding.site != finding.about { ", " (finding.site) }
                            br; (w.text(&finding.sentence))
                            @if finding.visits.len() <= 4 {
                                @for visit in &finding.visits { " " a href={ "/office/visits/" (visit) } { (w.text(&message!("office-reconcile-record", visit = Arg::typed(visit.short())))) } }
                            }
                        }
                    }
                }
            }
        }
    }
}

/// Returns a group of cars: a gauge, a site, a shipper or the month.
fn group(by: &str, name: &str) -> Message {
    let name = Arg::typed(name);
    match by {
        "gauge" => message!("office-reconcile-by-gauge", name = name),
        "site" => message!("office-reconcile-by-site", name = name),
        "shipper" => message!("office-reconcile-by-shipper", name = name),
        _ => message!("office-reconcile-by-month", name = name),
    }
}

fn within(w: &Words, is: bool) -> Markup {
    html! { @if is { (w.say("office-reconcile-within")) } @else { b { (w.say("office-reconcile-beyond")) } } }
}

fn totals(w: &Words, report: &MonthReport) -> Markup {
    html! {
        section {
            h2 { (w.say("office-reconcile-sums")) }
            div.wide tabindex="0" role="region" aria-label=(w.say("office-reconcile-sums")) {
                table {
                    caption { (w.say("office-reconcile-sums-note")) }
                    thead { tr { th scope="col" { (w.say("office-reconcile-of")) } th scope="col" { (w.say("office-reconcile-compared")) } th.num scope="col" { (w.say("office-reconcile-cars")) } th.num scope="col" { (w.say("office-reconcile-billed")) } th.num scope="col" { (w.say("office-reconcile-other")) } th.num scope="col" { (w.say("office-reconcile-difference")) } th.num scope="col" { (w.say("office-reconcile-pm")) } th scope="col" { (w.say("office-reconcile-says")) } } }
                    tbody {
                        @for total in report.totals.iter().filter(|total| total.cars > 0) {
                            tr {
                                th scope="row" { (w.text(&group(&total.by, &total.name))) }
                                td { (w.text(&cusum_chart::against(total.compared))) }
                                td.num { @if total.not_compared > 0 { (w.text(&message!("office-reconcile-count-of", count = total.cars, all = total.cars + total.not_compared))) } @else { (total.cars) } }
                                td.num { (gallons(w, total.billed)) }
                                td.num { (gallons(w, total.other)) }
                                td.num { (signed(w, total.difference)) }
                                td.num { (gallons(w, total.plus_minus)) }
                                td { (within(w, total.within)) }
                            }
                        }
                    }
                }
            }
        }
    }
}

fn repeats(w: &Words, report: &MonthReport) -> Markup {
    let figures: Vec<Markup> =
        report.biases.iter().filter_map(|bias| cusum_chart::figure(w, bias, &report.cars)).collect();
    html! {
        section {
            h2 { (w.say("office-reconcile-repeats")) }
            div.wide tabindex="0" role="region" aria-label=(w.say("office-reconcile-means")) {
                table {
                    caption { (w.say("office-reconcile-means-note")) }
                    thead { tr { th scope="col" { (w.say("office-reconcile-of")) } th scope="col" { (w.say("office-reconcile-site")) } th scope="col" { (w.say("office-reconcile-compared")) } th.num scope="col" { (w.say("office-reconcile-cars")) } th.num scope="col" { (w.say("office-reconcile-mean")) } th.num scope="col" { (w.say("office-reconcile-interval")) } th.num scope="col" { (w.say("office-reconcile-error")) } th.num scope="col" { (w.say("office-reconcile-may-repeat")) } } }
                    tbody {
                        @for bias in &report.biases {
                            tr {
                                th scope="row" { (w.text(&group(&bias.by, &bias.name))) }
                                td { (bias.site) }
                                td { (w.text(&cusum_chart::against(bias.compared))) }
                                td.num { (bias.cars) }
                                td.num { (signed(w, bias.mean)) }
                                td.num { (w.text(&message!("office-reconcile-low-high", low = Arg::typed(signed(w, bias.low)), high = Arg::typed(signed(w, bias.high))))) }
                                td.num { (w.number(&format!("{:.1}", bias.error))) }
                                td.num { (gallons(w, bias.shared)) }
                            }
                        }
                    }
                }
            }
            @if !figures.is_empty() {
                h3 { (w.say("office-reconcile-cumulative")) }
                div.charts { @for figure in &figures { (figure) } }
            }
        }
    }
}

fn cars(w: &Words, report: &MonthReport) -> Markup {
    html! {
        section {
            h2 { (w.say("office-reconcile-cars")) " " small { (report.cars.len()) } }
            div.wide.many tabindex="0" role="region" aria-label=(w.say("office-reconcile-cars")) {
                table {
                    caption { (w.say("office-reconcile-cars-note")) }
                    thead { tr { th scope="col" { (w.say("office-reconcile-car")) } th scope="col" { (w.say("office-reconcile-day")) } th scope="col" { (w.say("office-reconcile-site")) } th scope="col" { (w.say("office-reconcile-shipper")) } th scope="col" { (w.say("office-reconcile-gauge")) } th.num scope="col" { (w.say("office-reconcile-billed")) } th.num scope="col" { (w.say("office-reconcile-gauged")) } th.num scope="col" { (w.say("office-reconcile-gauged-less")) } th.num scope="col" { (w.say("office-reconcile-received")) } th.num scope="col" { (w.say("office-reconcile-residue")) } th.num scope="col" { (w.say("office-reconcile-received-less")) } } }
                    tbody { @for car in &report.cars { (car_row(w, car)) } }
                }
            }
        }
    }
}

fn car_row(w: &Words, car: &CarLine) -> Markup {
    let difference = |compared| {
        html! {
            @match car.comparison(compared) {
                Some(c) => {
                    @if c.within { (signed(w, c.difference)) } @else { b { (signed(w, c.difference)) } }
                    " ± " (gallons(w, c.plus_minus))
                    br; small { (w.text(&c.method)) }
                    @if !c.within { br; small { (w.say("office-reconcile-is-beyond")) } }
                    @if compared == Compared::Found && car.explained != 0.0 { br; small { (w.text(&message!("office-reconcile-explained", gallons = Arg::typed(signed(w, car.explained))))) } }
                }
                None => { "—" }
            }
        }
    };
    let value = |amount: &Option<farsiding_reconcile::facts::Amounted>| {
        html! { @match amount { Some(amount) => { (gallons(w, amount.value)) @if amount.unit != farsiding_core::units::Unit::Gallon { " " (amount.unit) } } None => { "—" } } }
    };
    html! {
        tr {
            th scope="row" { (link(car.visit, &car.car)) @if car.records > 1 { br; small { (w.text(&message!("office-reconcile-joined", count = car.records))) } } }
            td.time { (car.day) }
            td { (car.site) }
            td { (car.shipper) }
            td.time { (car.gauge) }
            td.num { (value(&car.billed)) br; small { @match car.billed_by { Some(by) => { (w.text(&by.term())) } None => { b { (w.say("office-reconcile-basis-unknown")) } } } } }
            td.num { (value(&car.found)) }
            td.num { (difference(Compared::Found)) }
            td.num { (value(&car.received)) }
            td.num { (value(&car.left)) }
            td.num { (difference(Compared::Received)) }
        }
    }
}

fn notes(w: &Words, report: &MonthReport) -> Markup {
    html! {
        @if !report.notes.is_empty() {
            section {
                h2 { (w.say("office-reconcile-notices")) }
                ul.plain.split { @for note in &report.notes { li { (w.text(&note.sentence)) " " @for visit in note.visits.iter().take(3) { a href={ "/office/visits/" (visit) } { (visit.short()) } " " } } } }
            }
        }
    }
}

fn rests_on(w: &Words, report: &MonthReport) -> Markup {
    let settings = &report.settings;
    html! {
        section {
            h2 { (w.say("office-reconcile-basis")) }
            p.small {
                (w.text(&message!(
                    "office-reconcile-basis-note",
                    billed = Arg::Number(settings.billed_percent.to_string()),
                    alarm = Arg::Number(settings.false_alarm_percent.to_string()),
                    fewest = Arg::Number(settings.fewest_cars.to_string()),
                    reference = Arg::Number(settings.cusum_reference.to_string()),
                    interval = Arg::Number(settings.cusum_interval.to_string()),
                    days = Arg::Number(BEFORE_DAYS.to_string())
                )))
            }
        }
    }
}

/// `GET /office/reconcile/export`: returns the month's tables as a file.
pub async fn export(
    State(office): State<Arc<Office>>,
    Query(asked): Query<Asked>,
    user: OfficeUser,
) -> Result<Response, PageError> {
    // A page can say that it is incomplete, but an exported file cannot, so the export waits for the index.
    for _ in 0..50 {
        if office.index.behind() == 0 {
            break;
        }
        tokio::time::sleep(std::time::Duration::from_millis(100)).await;
    }
    if office.index.behind() > 0 {
        return Err(PageError::NotAllowed(message!("office-reconcile-wait")));
    }
    let Made { report, .. } = make(&office, &asked).await?;
    frame::note(&office, &user, "exported", &format!("reconcile:{}", report.selection.month)).await?;
    let table = if asked.table.is_empty() { "cars" } else { asked.table.as_str() };
    let (media, ending, bytes) = match asked.format.as_str() {
        "json" => {
            ("application/json", "json", serde_json::to_vec_pretty(&report).map_err(PageError::failed)?)
        }
        "xlsx" => (
            "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
            "xlsx",
            workbook_of(&tables_of(&report, user.words), user.words).map_err(PageError::failed)?,
        ),
        _ => {
            let tables = tables_of(&report, user.words);
            let found = tables.iter().find(|known| known.name == table);
            let found = found.ok_or_else(|| PageError::NotThere(message!("office-reconcile-no-table")))?;
            ("text/csv; charset=utf-8", "csv", csv_of(found).map_err(PageError::failed)?)
        }
    };
    let name = format!("attachment; filename=\"reconcile-{}.{ending}\"", report.selection.month);
    let name = HeaderValue::from_str(&name).map_err(PageError::failed)?;
    let headers =
        [(header::CONTENT_TYPE, HeaderValue::from_static(media)), (header::CONTENT_DISPOSITION, name)];
    Ok((headers, bytes).into_response())
}
