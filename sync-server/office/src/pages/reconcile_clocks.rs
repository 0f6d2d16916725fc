//! The two clocks on the page of reconciling: demurrage, which the carrier charges, and detention, which the car's supplier
//! charges.
//!
//! Called by `reconcile`. What the clocks count is decided in `farsiding_reconcile`; their tariffs are typed in
//! `reconcile_tariffs`.

use std::collections::BTreeSet;

use farsiding_core::{Arg, message};
use farsiding_words::Words;
use maud::{Markup, html};

use super::reconcile::link;
use farsiding_reconcile::MonthReport;
use farsiding_reconcile::report::CarLine;

fn money(w: &Words, charge: &str, currency: &str) -> Arg {
    match charge {
        "" => Arg::typed(w.say("office-reconcile-no-charge")),
        charge => Arg::typed(format!("{charge} {currency}")),
    }
}

/// Returns both clocks.
pub(super) fn clocks(w: &Words, report: &MonthReport) -> Markup {
    html! { (demurrage(w, report)) (detention(w, report)) }
}

fn demurrage(w: &Words, report: &MonthReport) -> Markup {
    let over: Vec<&CarLine> =
        report.cars.iter().filter(|car| car.demurrage.as_ref().is_some_and(|clock| clock.days > 0)).collect();
    let none = report.cars.iter().filter(|car| car.demurrage.is_none()).count();
    html! {
        section {
            h2 { (w.say("office-reconcile-demurrage")) }
            @if over.is_empty() {
                p { (w.say("office-reconcile-none-over")) @if none > 0 { " " (w.text(&message!("office-reconcile-no-clock", count = none))) } }
            } @else { div.wide tabindex="0" role="region" aria-label=(w.say("office-reconcile-demurrage")) {
                table {
                    caption { (w.say("office-reconcile-over-note")) @if none > 0 { " " (w.text(&message!("office-reconcile-no-clock", count = none))) } }
                    thead { tr { th scope="col" { (w.say("office-reconcile-car")) } th scope="col" { (w.say("office-reconcile-tariff")) } th scope="col" { (w.say("office-reconcile-from")) } th scope="col" { (w.say("office-reconcile-free-until")) } th scope="col" { (w.say("office-reconcile-until")) } th.num scope="col" { (w.say("office-reconcile-over")) } th.num scope="col" { (w.say("office-reconcile-days")) } th.num scope="col" { (w.say("office-reconcile-charge")) } } }
                    tbody {
                        @for car in &over {
                            @if let Some(clock) = &car.demurrage {
                                @let zone: chrono_tz::Tz = car.zone.parse().unwrap_or(chrono_tz::Tz::UTC);
                                tr {
                                    th scope="row" { (link(car.visit, &car.car)) }
                                    td { (clock.tariff) }
                                    td { (clock.from.shown_in(zone)) }
                                    td { (clock.free_until.shown_in(zone)) }
                                    td { @if clock.runs() { b { (w.say("office-reconcile-running")) } } @else { (clock.until.shown_in(zone)) } }
                                    td.num { (w.number(&format!("{:.1}", clock.over_hours))) }
                                    td.num { (clock.days) }
                                    td.num { @if clock.debits { (w.text(&message!("office-reconcile-debits", days = u64::from(clock.days), credits = u64::from(clock.credits)))) } @else if clock.charge.is_empty() { (w.say("office-reconcile-no-charge")) } @else { (clock.charge) " " (clock.currency) } }
                                }
                            }
                        }
                    }
                }
            } }
            @for account in &report.accounts {
                p { b { (w.text(&message!(
                    "office-reconcile-account",
                    site = Arg::typed(&account.site),
                    debits = u64::from(account.debits),
                    credits = u64::from(account.credits),
                    charged = u64::from(account.charged),
                    charge = money(w, &account.charge, &account.currency)
                ))) } @if account.running > 0 { " " (w.say("office-reconcile-running")) } }
            }
        }
    }
}

fn detention(w: &Words, report: &MonthReport) -> Markup {
    let over: Vec<&CarLine> =
        report.cars.iter().filter(|car| car.detention.as_ref().is_some_and(|clock| clock.days > 0)).collect();
    let why: BTreeSet<String> =
        report.cars.iter().filter_map(|car| Some(w.text(car.no_detention.as_ref()?))).collect();
    let none = report.cars.iter().filter(|car| car.detention.is_none()).count();
    html! {
        section {
            h2 { (w.say("office-reconcile-detention")) }
            @if over.is_empty() {
                p { (w.say("office-reconcile-detention-none")) }
            } @else { div.wide tabindex="0" role="region" aria-label=(w.say("office-reconcile-detention")) {
                table {
                    caption { (w.say("office-reconcile-detention-note")) }
                    thead { tr { th scope="col" { (w.say("office-reconcile-car")) } th scope="col" { (w.say("office-reconcile-supplier")) } th scope="col" { (w.say("office-reconcile-tariff")) } th scope="col" { (w.say("office-reconcile-first-day")) } th scope="col" { (w.say("office-reconcile-last-day")) } th.num scope="col" { (w.say("office-reconcile-away")) } th.num scope="col" { (w.say("office-reconcile-free-days")) } th.num scope="col" { (w.say("office-reconcile-charged")) } th.num scope="col" { (w.say("office-reconcile-charge")) } } }
                    tbody {
                        @for car in &over {
                            @if let Some(clock) = &car.detention {
                                tr {
                                    th scope="row" { (link(car.visit, &car.car)) }
                                    td { (clock.supplier) }
                                    td { (clock.tariff) }
                                    td.time { (clock.from) }
                                    td.time { @if clock.runs() { b { (w.say("office-reconcile-running")) } } @else { (clock.until) } }
                                    td.num { (clock.away) }
                                    td.num { (clock.free) }
                                    td.num { (clock.days) }
                                    td.num { @if clock.charge.is_empty() { (w.say("office-reconcile-no-charge")) } @else { (clock.charge) " " (clock.currency) } }
                                }
                            }
                        }
                    }
                }
            } }
            @if none > 0 {
                p.small { (w.text(&message!("office-reconcile-no-clock", count = none))) }
                ul.plain { @for why in &why { li { (why) } } }
            }
        }
    }
}
