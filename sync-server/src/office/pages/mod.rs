//! The office's own pages under `/office/`: server-rendered, quick, working without a script.
//!
//! One file per page. Lives here: what a person of the office sees and presses. Does not live here: what
//! a record means (`farsiding_core::view`), who may look (`accounts`, asked through `visitor`), how
//! stays are found among many (`index`).

mod accounts;
mod apart;
mod chart;
mod cusum_chart;
mod defects;
mod devices;
mod files;
pub mod frame;
mod housing;
mod inquiry;
mod instruments;
mod live;
mod papers;
mod people;
mod reconcile;
mod refused;
mod scale;
mod seals;
mod sign_in;
mod today;
mod visit;
mod visit_acts;
mod visit_measures;
mod visit_story;
mod visitor;

use std::sync::Arc;

use axum::Router;
use axum::middleware;
use axum::response::Redirect;
use axum::routing::{get, post};

pub use refused::Refused;
pub use sign_in::see_other;

use super::http::Office;

/// All pages.
pub fn routes(office: &Arc<Office>) -> Router<Arc<Office>> {
    let apart = middleware::from_fn_with_state(Arc::clone(office), apart::made_apart);
    let packets = middleware::from_fn_with_state(Arc::clone(office), apart::made_apart_and_long);
    Router::new()
        .route("/office", get(|| async { Redirect::permanent("/office/") }))
        .route("/office/", get(today::show))
        .route("/office/sign-in", get(sign_in::show).post(sign_in::sign_in))
        .route("/office/sign-out", post(sign_in::sign_out))
        .route("/office/link/{secret}", get(sign_in::door).post(sign_in::open))
        .route("/office/live", get(live::events))
        .route("/office/inquiry", get(inquiry::show))
        .route("/office/visits/{visit}", get(visit::show))
        .route("/office/visits/{visit}/settle", post(visit_acts::settle))
        .route("/office/visits/{visit}/photos/{sha256}", get(visit_acts::photo))
        .route("/office/visits/{visit}/links", post(visit_acts::make_link))
        .route("/office/visits/{visit}/links/{number}/revoke", post(visit_acts::revoke_link))
        .route("/office/devices", get(devices::show))
        .route("/office/devices/enrol", post(devices::enrol))
        .route("/office/devices/{device}/revoke", get(devices::ask_revoke).post(devices::revoke))
        .route("/office/people", get(people::show))
        .route("/office/people/confirm", post(people::confirm))
        .route("/office/people/end", post(people::end))
        .route("/office/people/left", post(people::left))
        .route("/office/people/rules", post(people::rules))
        .route("/office/accounts", get(accounts::show))
        .route("/office/audit", get(accounts::audit))
        .route("/office/reconcile", get(reconcile::show))
        .route("/office/reconcile/export", get(reconcile::export))
        .route("/office/reconcile/tariff", post(reconcile::keep_tariff))
        .route("/office/seals", get(seals::show))
        .route("/office/seals/issue", post(seals::issue))
        .route("/office/seals/void", post(seals::void))
        .route("/office/defects", get(defects::show))
        .route("/office/defects/forward", post(defects::forward))
        .route("/office/defects/again", post(defects::again))
        .route("/office/instruments", get(instruments::show))
        .route("/office/papers", get(papers::show))
        .route("/office/papers/preview", post(papers::preview))
        .route("/office/papers/take", post(papers::take))
        .route("/office/papers/files/{sha256}", get(papers::file))
        .layer(apart)
        // A packet takes longer than a page.
        .merge(Router::new().route("/office/visits/{visit}/packet", get(visit_acts::packet)).layer(packets))
        .merge(files::routes())
        .route("/office/{*rest}", get(|| async { Refused::NotThere("There is no such page.".to_owned()) }))
        .layer(middleware::from_fn(frame::keep_to_itself))
}
