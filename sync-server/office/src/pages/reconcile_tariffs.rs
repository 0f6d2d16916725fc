//! The tariffs of the two clocks and how shippers measure what they bill: the forms below the month, and what is done with
//! what was typed. A form that is refused is shown again as it was typed, with what is wrong with it.
//!
//! Called by `reconcile`. What a tariff must be is decided in `farsiding_reconcile`.

use std::collections::BTreeSet;
use std::sync::Arc;

use axum::extract::State;
use axum::response::Response;
use farsiding_core::entry::vocabulary::BilledBy;
use farsiding_core::ids::SiteId;
use farsiding_core::{Arg, Message, message};
use farsiding_words::Words;
use maud::{Markup, html};
use serde::Deserialize;

use super::frame::{self, CsrfForm, OfficeUser, Records, csrf};
use super::page_error::PageError;
use super::reconcile::{self, Asked};
use super::sign_in::see_other;
use crate::month;
use crate::state::Office;
use farsiding_reconcile::{DetentionTariff, MonthReport, Tariff};

/// A form that was refused, as it was typed, and what is wrong with it.
pub(super) enum Refused {
    /// The tariff of the carrier.
    Demurrage(TypedTariff, Message),
    /// The tariff of a supplier of cars.
    Detention(TypedDetention, Message),
}

/// Which month was looked at when a form was sent: it is shown again afterwards.
#[derive(Debug, Default, Deserialize)]
pub struct LookedAt {
    #[serde(default)]
    month: String,
    #[serde(default)]
    site: String,
}

impl LookedAt {
    fn of(report: &MonthReport) -> LookedAt {
        let site = report.selection.site.map_or(String::new(), |site| site.to_string());
        LookedAt { month: report.selection.month.clone(), site }
    }

    fn fields(&self) -> Markup {
        html! {
            input type="hidden" name="month" value=(self.month);
            input type="hidden" name="site" value=(self.site);
        }
    }

    fn asked(&self) -> Asked {
        Asked::of(&self.month, &self.site)
    }

    /// Returns the address of the month.
    fn address(&self) -> String {
        let month: String = self.month.chars().filter(|c| c.is_ascii_digit() || *c == '-').take(7).collect();
        let site = SiteId::read(&self.site).map_or(String::new(), |site| site.to_string());
        format!("/office/reconcile?month={month}&site={site}")
    }
}

/// Returns what is wrong with a form that was refused.
fn trouble(w: &Words, wrong: Option<&Message>) -> Markup {
    html! { @if let Some(wrong) = wrong { p.trouble role="alert" { (w.text(wrong)) } } }
}

/// Reads a number of hours or days.
fn whole(text: &str) -> Result<u32, Message> {
    let wrong = || message!("office-reconcile-whole-number", text = Arg::typed(text.trim()));
    text.trim().parse().map_err(|_| wrong())
}

/// Returns the shippers of the month.
fn shippers(report: &MonthReport) -> BTreeSet<&str> {
    report.cars.iter().map(|car| car.shipper.trim()).filter(|name| !name.is_empty()).collect()
}

/// The forms behind the clocks and the comparisons.
pub(super) fn forms(user: &OfficeUser, report: &MonthReport, refused: Option<&Refused>) -> Markup {
    html! {
        (tariff_form(user, report, refused))
        (detention_forms(user, report, refused))
        (measure_form(user, report))
    }
}

/// Whose words are chosen from, and which are chosen.
fn choice(w: &Words, (id, name): (&str, &str), label: &str, chosen: &str, options: &[&str]) -> Markup {
    html! {
        label for=(id) { (label) }
        select.field id=(id) name=(name) {
            @for option in options { option value=(option) selected[*option == chosen] { (w.text(&events(option))) } }
        }
    }
}

fn detention_forms(user: &OfficeUser, report: &MonthReport, refused: Option<&Refused>) -> Markup {
    let kept = &report.settings.detention_tariffs;
    let refused = match refused {
        Some(Refused::Detention(typed, wrong)) => Some((typed, wrong)),
        _ => None,
    };
    let fallback = DetentionTariff::default();
    let others = [("", &fallback)].into_iter().filter(|_| !kept.contains_key(""));
    let all = kept.iter().map(|(name, tariff)| (name.as_str(), tariff)).chain(others);
    html! {
        @for (at, (name, tariff)) in all.enumerate() {
            @match refused.filter(|(typed, _)| typed.of == name) {
                Some((typed, wrong)) => { (detention_form(user, report, (at, typed), Some(wrong))) }
                None => { (detention_form(user, report, (at, &TypedDetention::of(name, tariff)), None)) }
            }
        }
        datalist id="suppliers" { @for name in shippers(report) { option value=(name); } }
    }
}

fn detention_form(
    user: &OfficeUser,
    report: &MonthReport,
    (at, typed): (usize, &TypedDetention),
    wrong: Option<&Message>,
) -> Markup {
    let w = user.words;
    let id = |field: &str| format!("{field}-{at}");
    let (begins, ends) = (id("begins"), id("ends"));
    html! {
        details.no-print open[wrong.is_some()] {
            summary {
                @if typed.of.is_empty() { (w.say("office-reconcile-supplier-others")) }
                @else { (w.text(&message!("office-reconcile-supplier-of", supplier = Arg::typed(&typed.of)))) }
            }
            form.stack method="post" action="/office/reconcile/detention" {
                (csrf(user))
                (LookedAt::of(report).fields())
                (trouble(w, wrong))
                input type="hidden" name="of" value=(typed.of);
                label for=(id("supplier")) { (w.say("office-reconcile-supplier-name")) } input.field id=(id("supplier")) name="supplier" value=(typed.supplier) list="suppliers";
                label for=(id("called")) { (w.say("office-reconcile-tariff-name")) } input.field id=(id("called")) name="name" value=(typed.name) required;
                (choice(w, (&begins, "begins"), &w.say("office-reconcile-starts"), &typed.begins, &["shipped", "shipped,notice", "notice", "actual_placement"]))
                (choice(w, (&ends, "ends"), &w.say("office-reconcile-stops"), &typed.ends, &["pulled,carrier_told", "pulled", "carrier_told", "released"]))
                label.check { input name="first_day_counts" type="checkbox" value="yes" checked[typed.first_day_counts.is_some()]; span { (w.say("office-reconcile-first-counts")) } }
                label.check { input name="last_day_counts" type="checkbox" value="yes" checked[typed.last_day_counts.is_some()]; span { (w.say("office-reconcile-last-counts")) } }
                label for=(id("free")) { (w.say("office-reconcile-free-days-each")) } input.field id=(id("free")) name="free_days" inputmode="numeric" value=(typed.free_days) required;
                label for=(id("credit")) { (w.say("office-reconcile-credit-days")) } input.field id=(id("credit")) name="credit_days" inputmode="numeric" value=(typed.credit_days) required;
                label for=(id("day")) { (w.say("office-reconcile-day-charge")) } input.field id=(id("day")) name="per_day" value=(typed.per_day) inputmode="decimal";
                label for=(id("money")) { (w.say("office-reconcile-currency")) } input.field id=(id("money")) name="currency" value=(typed.currency) maxlength="40";
                button.go type="submit" { (w.say("office-reconcile-keep-supplier")) }
            }
        }
    }
}

fn measure_form(user: &OfficeUser, report: &MonthReport) -> Markup {
    let w = user.words;
    html! {
        @if !shippers(report).is_empty() {
            details.no-print {
                summary { (w.say("office-reconcile-measure")) }
                p { (w.say("office-reconcile-measure-note")) }
                @for (at, name) in shippers(report).into_iter().enumerate() {
                    @let known = report.settings.billed_by.get(&name.to_lowercase());
                    form.stack method="post" action="/office/reconcile/measure" {
                        (csrf(user))
                        input type="hidden" name="shipper" value=(name);
                        label for={ "measure-" (at) } { (name) }
                        select.field id={ "measure-" (at) } name="by" {
                            option value="" { (w.say("office-reconcile-measure-none")) }
                            @for by in BilledBy::ALL { option value=(by.word()) selected[known == Some(by)] { (w.text(&by.term())) } }
                        }
                        button.key type="submit" { (w.say("office-reconcile-measure-keep")) }
                    }
                }
            }
        }
    }
}

/// A detention tariff as typed.
#[derive(Debug, Default, Deserialize)]
pub struct TypedDetention {
    /// The supplier whose form it was; empty for that of all others.
    #[serde(default)]
    of: String,
    #[serde(default)]
    supplier: String,
    name: String,
    begins: String,
    ends: String,
    #[serde(default)]
    first_day_counts: Option<String>,
    #[serde(default)]
    last_day_counts: Option<String>,
    free_days: String,
    #[serde(default)]
    credit_days: String,
    #[serde(default)]
    per_day: String,
    #[serde(default)]
    currency: String,
    #[serde(flatten)]
    looked_at: LookedAt,
}

/// A box that is checked, as a form says it.
fn checked(yes: bool) -> Option<String> {
    yes.then(|| "yes".to_owned())
}

impl TypedDetention {
    fn of(supplier: &str, tariff: &DetentionTariff) -> TypedDetention {
        TypedDetention {
            of: supplier.to_owned(),
            supplier: supplier.to_owned(),
            name: tariff.name.clone(),
            begins: tariff.from.join(","),
            ends: tariff.until.join(","),
            first_day_counts: checked(tariff.first_day_counts),
            last_day_counts: checked(tariff.last_day_counts),
            free_days: tariff.free_days.to_string(),
            credit_days: tariff.credit_days.to_string(),
            per_day: tariff.per_day.clone(),
            currency: tariff.currency.clone(),
            looked_at: LookedAt::default(),
        }
    }

    /// Returns the tariff.
    fn read(&self) -> Result<DetentionTariff, Message> {
        let tariff = DetentionTariff {
            name: self.name.trim().chars().take(80).collect(),
            from: listed(&self.begins),
            until: listed(&self.ends),
            first_day_counts: self.first_day_counts.is_some(),
            last_day_counts: self.last_day_counts.is_some(),
            free_days: whole(&self.free_days)?,
            credit_days: whole(&self.credit_days)?,
            per_day: self.per_day.trim().to_owned(),
            currency: self.currency.trim().chars().take(40).collect(),
        };
        tariff.faults().into_iter().next().map_or(Ok(tariff), Err)
    }
}

/// `POST /office/reconcile/detention`: stores the tariff of a supplier of cars.
pub async fn keep_detention(
    State(office): State<Arc<Office>>,
    CsrfForm { user, form, .. }: CsrfForm<TypedDetention, Records>,
) -> Result<Response, PageError> {
    let (asked, address) = (form.looked_at.asked(), form.looked_at.address());
    let tariff = match form.read() {
        Ok(tariff) => tariff,
        Err(wrong) => {
            return reconcile::page(&office, &user, &asked, Some(&Refused::Detention(form, wrong))).await;
        }
    };
    let supplier: String = form.supplier.trim().to_lowercase().chars().take(120).collect();
    office
        .on_database(move |database| {
            let mut settings = month::settings(database.connection())?;
            settings.detention_tariffs.insert(supplier, tariff);
            month::keep_settings(database.connection(), &settings)
        })
        .await?;
    frame::note(&office, &user, "changed the tariff", "detention").await?;
    Ok(see_other(&address))
}

/// How a shipper measures what it bills.
#[derive(Debug, Deserialize)]
pub struct Measure {
    shipper: String,
    #[serde(default)]
    by: String,
}

/// `POST /office/reconcile/measure`: stores how a shipper measures what it bills.
pub async fn keep_measure(
    State(office): State<Arc<Office>>,
    CsrfForm { user, form, .. }: CsrfForm<Measure, Records>,
) -> Result<Response, PageError> {
    let shipper: String = form.shipper.trim().to_lowercase().chars().take(120).collect();
    let by = BilledBy::read(&form.by);
    office
        .on_database(move |database| {
            let mut settings = month::settings(database.connection())?;
            match by {
                Some(by) => settings.billed_by.insert(shipper, by),
                None => settings.billed_by.remove(&shipper),
            };
            month::keep_settings(database.connection(), &settings)
        })
        .await?;
    frame::note(&office, &user, "changed the tariff", "billed by").await?;
    Ok(see_other("/office/reconcile"))
}

fn listed(text: &str) -> Vec<String> {
    text.split(',').map(str::to_owned).filter(|event| !event.is_empty()).collect()
}

/// A tariff as typed.
#[derive(Debug, Default, Deserialize)]
pub struct TypedTariff {
    for_site: String,
    name: String,
    from: String,
    until: String,
    #[serde(default)]
    starts_at: String,
    free_hours: String,
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
    #[serde(default)]
    credits_and_debits: Option<String>,
    #[serde(default)]
    credits_a_car: String,
    #[serde(default)]
    ordered_in_stops: Option<String>,
    #[serde(flatten)]
    looked_at: LookedAt,
}

impl TypedTariff {
    fn of(site: &str, tariff: &Tariff) -> TypedTariff {
        TypedTariff {
            for_site: site.to_owned(),
            name: tariff.name.clone(),
            from: tariff.from.join(","),
            until: tariff.until.join(","),
            starts_at: tariff.starts_at.clone(),
            free_hours: tariff.free_hours.to_string(),
            weekends_count: checked(tariff.weekends_count),
            holidays: tariff.holidays.join(" "),
            holidays_count: checked(tariff.holidays_count),
            all_days_once_over: checked(tariff.all_days_once_over),
            per_day: tariff.per_day.clone(),
            currency: tariff.currency.clone(),
            credits_and_debits: checked(tariff.credits_and_debits),
            credits_a_car: tariff.credits_a_car.to_string(),
            ordered_in_stops: checked(tariff.ordered_in_stops),
            looked_at: LookedAt::default(),
        }
    }

    /// Returns the tariff.
    fn read(&self) -> Result<Tariff, Message> {
        let credits_a_car = match self.credits_a_car.trim() {
            "" => 0,
            text => whole(text)?,
        };
        let tariff = Tariff {
            name: self.name.trim().chars().take(80).collect(),
            from: listed(&self.from),
            until: listed(&self.until),
            starts_at: self.starts_at.trim().to_owned(),
            free_hours: whole(&self.free_hours)?,
            weekends_count: self.weekends_count.is_some(),
            holidays: self.holidays.split_whitespace().map(str::to_owned).collect(),
            holidays_count: self.holidays_count.is_some(),
            all_days_once_over: self.all_days_once_over.is_some(),
            per_day: self.per_day.trim().to_owned(),
            currency: self.currency.trim().chars().take(40).collect(),
            credits_and_debits: self.credits_and_debits.is_some(),
            credits_a_car: credits_a_car.min(366),
            ordered_in_stops: self.ordered_in_stops.is_some(),
        };
        tariff.faults().into_iter().next().map_or(Ok(tariff), Err)
    }
}

fn tariff_form(user: &OfficeUser, report: &MonthReport, refused: Option<&Refused>) -> Markup {
    let site =
        report.cars.iter().find(|_| report.selection.site.is_some()).map_or("", |car| car.site.as_str());
    let w = user.words;
    let fallback = Tariff::default();
    let kept = TypedTariff::of(site, report.settings.tariff(site).unwrap_or(&fallback));
    let (typed, wrong) = match refused {
        Some(Refused::Demurrage(typed, wrong)) => (typed, Some(wrong)),
        _ => (&kept, None),
    };
    let choice =
        |id: &str, label: &str, chosen: &str, options: &[&str]| choice(w, (id, id), label, chosen, options);
    html! {
        details.no-print open[wrong.is_some()] {
            summary {
                @if typed.for_site.is_empty() { (w.say("office-reconcile-tariff-all")) }
                @else { (w.text(&message!("office-reconcile-tariff-of", site = Arg::typed(&typed.for_site)))) }
            }
            form.stack method="post" action="/office/reconcile/tariff" {
                (csrf(user))
                (LookedAt::of(report).fields())
                (trouble(w, wrong))
                input type="hidden" name="for_site" value=(typed.for_site);
                label for="name" { (w.say("office-reconcile-tariff-name")) } input.field id="name" name="name" value=(typed.name) required;
                (choice("from", &w.say("office-reconcile-starts"), &typed.from, &["constructive_placement,actual_placement", "actual_placement", "notice,actual_placement"]))
                label for="starts_at" { (w.say("office-reconcile-starts-at")) } input.field id="starts_at" name="starts_at" value=(typed.starts_at);
                (choice("until", &w.say("office-reconcile-stops"), &typed.until, &["carrier_told,released,pulled", "released", "pulled"]))
                label for="free_hours" { (w.say("office-reconcile-free")) } input.field id="free_hours" name="free_hours" inputmode="numeric" value=(typed.free_hours) required;
                label.check for="weekends_count" { input id="weekends_count" name="weekends_count" type="checkbox" value="yes" checked[typed.weekends_count.is_some()]; span { (w.say("office-reconcile-weekends")) } }
                label.check for="holidays_count" { input id="holidays_count" name="holidays_count" type="checkbox" value="yes" checked[typed.holidays_count.is_some()]; span { (w.say("office-reconcile-holidays-count")) } }
                label.check for="all_days_once_over" { input id="all_days_once_over" name="all_days_once_over" type="checkbox" value="yes" checked[typed.all_days_once_over.is_some()]; span { (w.say("office-reconcile-every-day")) } }
                label for="holidays" { (w.say("office-reconcile-holidays")) } input.field id="holidays" name="holidays" value=(typed.holidays);
                label for="per_day" { (w.say("office-reconcile-per-day")) } input.field id="per_day" name="per_day" value=(typed.per_day) inputmode="decimal";
                label for="currency" { (w.say("office-reconcile-currency")) } input.field id="currency" name="currency" value=(typed.currency) maxlength="40";
                label.check for="credits_and_debits" { input id="credits_and_debits" name="credits_and_debits" type="checkbox" value="yes" checked[typed.credits_and_debits.is_some()]; span { (w.say("office-reconcile-account-mode")) } }
                label for="credits_a_car" { (w.say("office-reconcile-credits-a-car")) } input.field id="credits_a_car" name="credits_a_car" inputmode="numeric" value=(typed.credits_a_car) required;
                label.check for="ordered_in_stops" { input id="ordered_in_stops" name="ordered_in_stops" type="checkbox" value="yes" checked[typed.ordered_in_stops.is_some()]; span { (w.say("office-reconcile-ordered-stops")) } }
                button.go type="submit" { (w.say("office-reconcile-keep")) }
            }
        }
    }
}

/// Returns the events that start or stop a clock, each of which counts if the ones before it are not recorded.
fn events(words: &str) -> Message {
    let mut events = words.rsplit(',').map(|word| Message::term("office-event", word));
    let last = events.next().unwrap_or_default();
    events.fold(last, |last, first| message!("office-event-else", first = first, last = last))
}

/// `POST /office/reconcile/tariff`: stores a tariff.
pub async fn keep_tariff(
    State(office): State<Arc<Office>>,
    CsrfForm { user, form, .. }: CsrfForm<TypedTariff, Records>,
) -> Result<Response, PageError> {
    let (asked, address) = (form.looked_at.asked(), form.looked_at.address());
    let tariff = match form.read() {
        Ok(tariff) => tariff,
        Err(wrong) => {
            return reconcile::page(&office, &user, &asked, Some(&Refused::Demurrage(form, wrong))).await;
        }
    };
    let site = form.for_site.trim().to_owned();
    let about = format!("site:{site}");
    office
        .on_database(move |database| {
            let mut settings = month::settings(database.connection())?;
            settings.tariffs.insert(site, tariff);
            month::keep_settings(database.connection(), &settings)
        })
        .await?;
    frame::note(&office, &user, "changed the tariff", &about).await?;
    Ok(see_other(&address))
}
