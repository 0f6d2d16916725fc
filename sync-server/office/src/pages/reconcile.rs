//! The page of reconciling: a month's cars with the quantities billed, found and taken in, repeated
//! differences, findings, and detention.

use std::sync::Arc;

use axum::extract::{Query, State};
use axum::http::{HeaderValue, header};
use axum::response::{IntoResponse as _, Response};
use farsiding_core::clock::UtcMillis;
use farsiding_core::ids::{SiteId, VisitId};
use maud::{Markup, html};
use serde::Deserialize;

use super::cusum_chart;
use super::frame::{self, CsrfForm, OfficeUser, Place, Records, csrf, plural};
use super::refused::Refused;
use super::scale;
use super::sign_in::see_other;
use crate::accounts::roles::Right;
use crate::month;
use crate::state::Office;
use farsiding_reconcile::comparison::Compared;
use farsiding_reconcile::papers::tables::{csv_of, tables_of, workbook_of};
use farsiding_reconcile::report::CarLine;
use farsiding_reconcile::{MonthReport, Selection, Tariff};

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

struct Made {
    report: MonthReport,
    sites: Vec<(SiteId, String)>,
}

async fn make(office: &Office, asked: &Asked) -> Result<Made, Refused> {
    let now = office.now();
    let this_month = now.rfc3339().get(..7).unwrap_or("").to_owned();
    let month = if asked.month.is_empty() { this_month } else { asked.month.clone() };
    let begins = UtcMillis::read(&format!("{month}-01T00:00:00Z"))
        .filter(|_| month.len() == 7)
        .ok_or_else(|| Refused::BadForm("Write the month as 2026-10.".to_owned()))?;
    let span = (UtcMillis(begins.0 - BEFORE_DAYS * DAY), UtcMillis(begins.0 + 45 * DAY));
    let site = match asked.site.as_str() {
        "" => None,
        text => Some(SiteId::read(text).map_err(|_| Refused::NotThere("There is no such site.".to_owned()))?),
    };
    let ((all, gaps), sites) =
        office.on_index(move |asking| Ok((month::of_index(asking, span)?, asking.sites()?))).await?;
    let ((settings, papers), devices) = office
        .on_database(|database| Ok((month::of_database(database.connection())?, database.devices()?)))
        .await?;
    let mut gaps = gaps;
    for gap in &mut gaps {
        if let Some(known) = devices.iter().find(|known| known.device == gap.device) {
            gap.sentence = gap.sentence.replace(&format!("device {}", gap.device.short()), &known.name);
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
) -> Result<Response, Refused> {
    frame::note(&office, &user, "looked", "reconcile").await?;
    let Made { report, sites } = make(&office, &asked).await?;
    let site = report.selection.site.map_or(String::new(), |site| site.to_string());
    let month = report.selection.month.clone();
    let query = format!("month={month}&site={site}");
    let body = html! {
        div.row.apart { h1 { "Reconcile " (month) } }
        form.row.no-print method="get" action="/office/reconcile" {
            label.label for="month" { "Month" }
            div { input.field id="month" name="month" value=(month) pattern="[0-9]{4}-[0-9]{2}" required; }
            label.label for="site" { "Site" }
            div {
                select.field id="site" name="site" {
                    option value="" { "all sites" }
                    @for (id, name) in &sites { option value=(id) selected[report.selection.site == Some(*id)] { (name) } }
                }
            }
            button.go type="submit" { "Reckon" }
            a.key href={ "/office/reconcile/export?format=xlsx&" (query) } { "Workbook" }
            a.key href={ "/office/reconcile/export?format=csv&" (query) } { "CSV" }
            a.key href={ "/office/reconcile/export?format=json&" (query) } { "JSON" }
        }
        (frame::behind(&office))
        @if report.cars.is_empty() {
            p.none { "No car was placed in this month, as far as records have come in." }
        } @else {
            (pointed_out(&report))
            (totals(&report))
            (repeats(&report))
            (cars(&report))
            (clocks(&report))
            (notes(&report))
        }
        (rests_on(&report))
        @if user.may(Right::Record) { (tariff_form(&user, &report, &asked)) }
    };
    Ok(frame::page(&user, "Reconcile", Place::Reconcile, body))
}

fn link(visit: Option<VisitId>, text: &str) -> Markup {
    html! { @match visit { Some(visit) => { a href={ "/office/visits/" (visit) } { (text) } } None => { (text) } } }
}

fn gallons(value: f64) -> String {
    format!("{value:.0}").replace('-', "−")
}

fn signed(value: f64) -> String {
    format!("{value:+.0}").replace('-', "−")
}

fn pointed_out(report: &MonthReport) -> Markup {
    html! {
        section aria-labelledby="out" {
            h2 #out { "Pointed out" }
            @if report.findings.is_empty() {
                p { "Nothing: what differs is within what the instruments and papers are taken to be worth, or cannot be compared." }
            } @else {
                ul.plain {
                    @for finding in &report.findings {
                        li.hot-edge {
                            b { (scale::capital(finding.kind.words())) } ": " (finding.about)
                            @if !finding.site.is_empty() && finding.site != finding.about { ", " (finding.site) }
                            br; (finding.sentence)
                            @if finding.visits.len() <= 4 {
                                @for visit in &finding.visits { " " a href={ "/office/visits/" (visit) } { "Record " (visit.short()) } }
                            }
                        }
                    }
                }
            }
        }
    }
}

fn within(is: bool) -> Markup {
    html! { @if is { "within measurement" } @else { b { "beyond measurement" } } }
}

fn totals(report: &MonthReport) -> Markup {
    html! {
        section {
            h2 { "Sums" }
            div.wide tabindex="0" role="region" aria-label="Sums" {
                table {
                    caption { "Net gallons at 60 °F. The ± is at 95 % (coverage factor 2); what one instrument or shipper repeats is added as it is, not averaged away. What is pointed out above is still in these sums." }
                    thead { tr { th scope="col" { "Of" } th scope="col" { "Compared" } th.num scope="col" { "Cars" } th.num scope="col" { "Billed, gal" } th.num scope="col" { "Other side, gal" } th.num scope="col" { "Difference, gal" } th.num scope="col" { "±, gal" } th scope="col" { "Says" } } }
                    tbody {
                        @for total in report.totals.iter().filter(|total| total.cars > 0) {
                            tr {
                                th scope="row" { (total.by) " " (total.name) }
                                td { (total.compared.words()) }
                                td.num { (total.cars) @if total.not_compared > 0 { " of " (total.cars + total.not_compared) } }
                                td.num { (gallons(total.billed)) }
                                td.num { (gallons(total.other)) }
                                td.num { (signed(total.difference)) }
                                td.num { (gallons(total.plus_minus)) }
                                td { (within(total.within)) }
                            }
                        }
                    }
                }
            }
        }
    }
}

fn repeats(report: &MonthReport) -> Markup {
    let figures: Vec<Markup> =
        report.biases.iter().filter_map(|bias| cusum_chart::figure(bias, &report.cars)).collect();
    html! {
        section {
            h2 { "What repeats from car to car" }
            div.wide tabindex="0" role="region" aria-label="Mean differences" {
                table {
                    caption { "Mean difference a car in gallons, its 95 % interval from the scatter (Student), and beside it what the instruments may repeat within their limits (standard)." }
                    thead { tr { th scope="col" { "Of" } th scope="col" { "Site" } th scope="col" { "Compared" } th.num scope="col" { "Cars" } th.num scope="col" { "Mean, gal" } th.num scope="col" { "Interval, gal" } th.num scope="col" { "Standard error, gal" } th.num scope="col" { "May repeat, gal" } } }
                    tbody {
                        @for bias in &report.biases {
                            tr {
                                th scope="row" { (bias.by) " " (bias.name) }
                                td { (bias.site) }
                                td { (bias.compared.words()) }
                                td.num { (bias.cars) }
                                td.num { (signed(bias.mean)) }
                                td.num { (signed(bias.low)) " to " (signed(bias.high)) }
                                td.num { (format!("{:.1}", bias.error)) }
                                td.num { (gallons(bias.shared)) }
                            }
                        }
                    }
                }
            }
            @if !figures.is_empty() {
                h3 { "Cumulative sums by gauge" }
                div.charts { @for figure in &figures { (figure) } }
            }
        }
    }
}

fn cars(report: &MonthReport) -> Markup {
    html! {
        section {
            h2 { "Cars " small { (report.cars.len()) } }
            div.wide tabindex="0" role="region" aria-label="Cars" {
                table {
                    caption { "Net gallons at 60 °F. One car in twenty is beyond its ± by chance alone; what is held against a car stands above." }
                    thead { tr { th scope="col" { "Car" } th scope="col" { "Day" } th scope="col" { "Site" } th scope="col" { "Shipper" } th scope="col" { "Gauge" } th.num scope="col" { "Billed, gal" } th.num scope="col" { "Found, gal" } th.num scope="col" { "Found − billed, gal" } th.num scope="col" { "Taken in, gal" } th.num scope="col" { "Left, gal" } th.num scope="col" { "Taken in + left − billed, gal" } } }
                    tbody { @for car in &report.cars { (car_row(car)) } }
                }
            }
        }
    }
}

fn car_row(car: &CarLine) -> Markup {
    let difference = |compared| {
        html! {
            @match car.comparison(compared) {
                Some(c) => {
                    @if c.within { (signed(c.difference)) } @else { b { (signed(c.difference)) } }
                    " ± " (gallons(c.plus_minus))
                    @if !c.within { br; small { "beyond" } }
                    @if compared == Compared::Found && car.explained != 0.0 { br; small { (signed(car.explained)) " explained above" } }
                }
                None => { "—" }
            }
        }
    };
    let value = |amount: &Option<farsiding_reconcile::facts::Amounted>| {
        html! { @match amount { Some(amount) => { (gallons(amount.value)) @if amount.unit != farsiding_core::units::Unit::Gallon { " " (amount.unit) } } None => { "—" } } }
    };
    html! {
        tr {
            th scope="row" { (link(car.visit, &car.car)) @if car.records > 1 { br; small { (car.records) " records joined" } } }
            td.time { (car.day) }
            td { (car.site) }
            td { (car.shipper) }
            td.time { (car.gauge) }
            td.num { (value(&car.billed)) }
            td.num { (value(&car.found)) }
            td.num { (difference(Compared::Found)) }
            td.num { (value(&car.received)) }
            td.num { (value(&car.left)) }
            td.num { (difference(Compared::Received)) }
        }
    }
}

fn clocks(report: &MonthReport) -> Markup {
    let over: Vec<&CarLine> =
        report.cars.iter().filter(|car| car.detention.as_ref().is_some_and(|clock| clock.days > 0)).collect();
    let none = report.cars.iter().filter(|car| car.detention.is_none()).count();
    html! {
        section {
            h2 { "Detention" }
            @if over.is_empty() {
                p { "No car stood past its free time by the tariff below" @if none > 0 { "; " (plural(none, "car has", "cars have")) " no clock" } ". The carrier's own tariff comes first." }
            } @else { div.wide tabindex="0" role="region" aria-label="Detention" {
                table {
                    caption { "Cars past free time by the tariff below; the carrier's own tariff comes first." @if none > 0 { " " (plural(none, "car has", "cars have")) " no clock." } }
                    thead { tr { th scope="col" { "Car" } th scope="col" { "Tariff" } th scope="col" { "From" } th scope="col" { "Free until" } th scope="col" { "Until" } th.num scope="col" { "Over, h" } th.num scope="col" { "Days begun" } th.num scope="col" { "Charge" } } }
                    tbody {
                        @for car in &over {
                            @if let Some(clock) = &car.detention {
                                @let zone: chrono_tz::Tz = car.zone.parse().unwrap_or(chrono_tz::Tz::UTC);
                                tr {
                                    th scope="row" { (link(car.visit, &car.car)) }
                                    td { (clock.tariff) }
                                    td { (clock.from.shown_in(zone)) }
                                    td { (clock.free_until.shown_in(zone)) }
                                    td { @if clock.runs() { b { "still running" } } @else { (clock.until.shown_in(zone)) } }
                                    td.num { (format!("{:.1}", clock.over_hours)) }
                                    td.num { (clock.days) }
                                    td.num { @if clock.charge.is_empty() { "no charge named" } @else { (clock.charge) " " (clock.currency) } }
                                }
                            }
                        }
                    }
                }
            } }
        }
    }
}

fn notes(report: &MonthReport) -> Markup {
    html! {
        @if !report.notes.is_empty() {
            section {
                h2 { "Worth knowing" }
                ul.plain.split { @for note in &report.notes { li { (note.sentence) " " @for visit in note.visits.iter().take(3) { a href={ "/office/visits/" (visit) } { (visit.short()) } " " } } } }
            }
        }
    }
}

fn rests_on(report: &MonthReport) -> Markup {
    let settings = &report.settings;
    html! {
        section {
            h2 { "What this rests on" }
            p.small {
                "A shipper's quantity is taken as good to ± " (settings.billed_percent) " % at 95 % (common practice, no source). Anybody is pointed out only where the chance of doing so in a month without cause stays at "
                (settings.false_alarm_percent) " % over all that is judged; groups of at least " (settings.fewest_cars)
                " cars are judged before single cars. Tabular CUSUM: K is twice what the instruments may repeat and " (settings.cusum_reference)
                " σ, H is " (settings.cusum_interval) " σ; both sums begin again at 0 after a signal. Stays of " (BEFORE_DAYS)
                " days before the month are looked at for seals used twice. A difference is a question, not a verdict."
            }
        }
    }
}

/// A tariff as typed.
#[derive(Debug, Deserialize)]
pub struct TypedTariff {
    for_site: String,
    name: String,
    from: String,
    until: String,
    #[serde(default)]
    starts_at: String,
    free_hours: u32,
    #[serde(default)]
    weekends_count: Option<String>,
    #[serde(default)]
    holidays: String,
    #[serde(default)]
    holidays_count: Option<String>,
    #[serde(default)]
    all_days_once_over: Option<String>,
    #[serde(default)]
    per_day: String,
    #[serde(default)]
    currency: String,
}

fn tariff_form(user: &OfficeUser, report: &MonthReport, asked: &Asked) -> Markup {
    let site =
        report.cars.iter().find(|_| report.selection.site.is_some()).map_or("", |car| car.site.as_str());
    let fallback = Tariff::default();
    let tariff = report.settings.tariff(site).unwrap_or(&fallback);
    let choice = |id: &str, label: &str, chosen: &str, options: &[&str]| {
        html! {
            label for=(id) { (label) }
            select.field id=(id) name=(id) {
                @for option in options { option value=(option) selected[*option == chosen] { (option.replace('_', " ").replace(',', ", else ")) } }
            }
        }
    };
    let (from, until) = (tariff.from.join(","), tariff.until.join(","));
    html! {
        details.no-print {
            summary { "The tariff" @if site.is_empty() { " of all sites without one of their own" } @else { " of " (site) } }
            form.stack method="post" action="/office/reconcile/tariff" {
                (csrf(user))
                input type="hidden" name="for_site" value=(site);
                input type="hidden" name="month" value=(asked.month);
                label for="name" { "Its name" } input.field id="name" name="name" value=(tariff.name) required;
                (choice("from", "The clock starts at", &from, &["constructive_placement,actual_placement", "actual_placement", "notice,actual_placement"]))
                label for="starts_at" { "and at the first such time of day after it (HH:MM; empty: at once)" } input.field id="starts_at" name="starts_at" value=(tariff.starts_at);
                (choice("until", "It stops at", &until, &["carrier_told,released,pulled", "released", "pulled"]))
                label for="free_hours" { "Free time, hours" } input.field id="free_hours" name="free_hours" type="number" min="0" max="8760" value=(tariff.free_hours) required;
                div.check { input id="weekends_count" name="weekends_count" type="checkbox" value="yes" checked[tariff.weekends_count]; label for="weekends_count" { "Saturdays and Sundays count" } }
                div.check { input id="holidays_count" name="holidays_count" type="checkbox" value="yes" checked[tariff.holidays_count]; label for="holidays_count" { "Holidays count" } }
                div.check { input id="all_days_once_over" name="all_days_once_over" type="checkbox" value="yes" checked[tariff.all_days_once_over]; label for="all_days_once_over" { "Once free time is over every day counts" } }
                label for="holidays" { "Holidays, YYYY-MM-DD, blanks between" } input.field id="holidays" name="holidays" value=(tariff.holidays.join(" "));
                label for="per_day" { "A begun day of 24 h costs" } input.field id="per_day" name="per_day" value=(tariff.per_day) inputmode="decimal";
                label for="currency" { "in" } input.field id="currency" name="currency" value=(tariff.currency) maxlength="40";
                button.go type="submit" { "Keep this tariff" }
            }
        }
    }
}

/// `POST /office/reconcile/tariff`: stores a tariff.
pub async fn keep_tariff(
    State(office): State<Arc<Office>>,
    CsrfForm { user, form, .. }: CsrfForm<TypedTariff, Records>,
) -> Result<Response, Refused> {
    let events = |text: &str| text.split(',').map(str::to_owned).filter(|event| !event.is_empty()).collect();
    let tariff = Tariff {
        name: form.name.trim().chars().take(80).collect(),
        from: events(&form.from),
        until: events(&form.until),
        starts_at: form.starts_at.trim().to_owned(),
        free_hours: form.free_hours,
        weekends_count: form.weekends_count.is_some(),
        holidays: form.holidays.split_whitespace().map(str::to_owned).collect(),
        holidays_count: form.holidays_count.is_some(),
        all_days_once_over: form.all_days_once_over.is_some(),
        per_day: form.per_day.trim().to_owned(),
        currency: form.currency.trim().chars().take(40).collect(),
    };
    if let Some(fault) = tariff.faults().into_iter().next() {
        return Err(Refused::BadForm(fault));
    }
    let site = form.for_site.trim().to_owned();
    office
        .on_database(move |database| {
            let mut settings = month::settings(database.connection())?;
            settings.tariffs.insert(site, tariff);
            month::keep_settings(database.connection(), &settings)
        })
        .await?;
    frame::note(&office, &user, "changed the tariff", &format!("site:{}", form.for_site)).await?;
    Ok(see_other("/office/reconcile"))
}

/// `GET /office/reconcile/export`: returns the month's tables as a file.
pub async fn export(
    State(office): State<Arc<Office>>,
    Query(asked): Query<Asked>,
    user: OfficeUser,
) -> Result<Response, Refused> {
    // A page can say that it is incomplete, but an exported file cannot, so the export waits for the index.
    for _ in 0..50 {
        if office.index.behind() == 0 {
            break;
        }
        tokio::time::sleep(std::time::Duration::from_millis(100)).await;
    }
    if office.index.behind() > 0 {
        let why = "The figures are still being brought up to date. Try again in a moment.";
        return Err(Refused::NotAllowed(why.to_owned()));
    }
    let Made { report, .. } = make(&office, &asked).await?;
    frame::note(&office, &user, "exported", &format!("reconcile:{}", report.selection.month)).await?;
    let table = if asked.table.is_empty() { "cars" } else { asked.table.as_str() };
    let (media, ending, bytes) = match asked.format.as_str() {
        "json" => ("application/json", "json", serde_json::to_vec_pretty(&report).map_err(Refused::failed)?),
        "xlsx" => (
            "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
            "xlsx",
            workbook_of(&tables_of(&report)).map_err(Refused::failed)?,
        ),
        _ => {
            let tables = tables_of(&report);
            let found = tables.iter().find(|known| known.name == table);
            let found = found.ok_or_else(|| Refused::NotThere("There is no such table.".to_owned()))?;
            ("text/csv; charset=utf-8", "csv", csv_of(found).map_err(Refused::failed)?)
        }
    };
    let name = format!("attachment; filename=\"reconcile-{}.{ending}\"", report.selection.month);
    let name = HeaderValue::from_str(&name).map_err(Refused::failed)?;
    let headers =
        [(header::CONTENT_TYPE, HeaderValue::from_static(media)), (header::CONTENT_DISPOSITION, name)];
    Ok((headers, bytes).into_response())
}
