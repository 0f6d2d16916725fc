//! The office's pages under `/office/`, rendered on the server and usable without a script.
//!
//! Each page has its own file. What a record means is decided in `farsiding_core::view`, who may look in
//! `accounts` (through `user`), and how stays are found in `index`.

mod accounts;
mod apart;
mod audit_words;
mod chart;
mod cookies;
mod cusum_chart;
mod defects;
mod device;
mod devices;
mod files;
mod form_check;
pub mod frame;
mod housing;
mod inquiry;
mod instruments;
mod late;
mod live;
mod overdue;
mod own;
mod page_error;
mod paper_strip;
mod papers;
mod papers_sent;
mod people;
mod photo_acts;
mod procedure_draft;
mod procedure_gates;
mod procedure_preview;
mod procedure_publish;
mod procedure_step;
mod procedures;
mod quarantine;
mod reader;
mod reconcile;
mod reconcile_clocks;
mod reconcile_tariffs;
mod scale;
mod seals;
mod share_link;
mod sign_in;
mod sign_in_code;
mod state;
mod today;
mod user;
mod visit;
mod visit_acts;
mod visit_measures;
mod visit_reopen;
mod visit_story;
mod visit_things;

use std::sync::Arc;

use axum::Router;
use axum::middleware;
use axum::response::Redirect;
use axum::routing::{get, post};
use farsiding_core::message;

pub use frame::{Administers, Allowed};
pub use page_error::PageError;
pub use sign_in::see_other;

use crate::state::Office;

/// Returns the routes of all pages.
pub fn routes(office: &Arc<Office>) -> Router<Arc<Office>> {
    let apart = middleware::from_fn_with_state(Arc::clone(office), apart::made_apart);
    let packets = middleware::from_fn_with_state(Arc::clone(office), apart::made_apart_and_long);
    Router::new()
        .route("/office", get(|| async { Redirect::permanent("/office/") }))
        .route("/office/", get(today::show))
        .route("/office/sign-in", get(sign_in::show).post(sign_in::sign_in))
        .route("/office/sign-in/code", post(sign_in_code::code))
        .route("/office/language", post(reader::choose))
        .route("/office/sign-out", post(sign_in::sign_out))
        .route("/office/link/{secret}", get(share_link::door).post(share_link::open))
        .route("/office/live", get(live::events))
        .route("/office/inquiry", get(inquiry::show))
        .route("/office/visits/{visit}", get(visit::show))
        .route("/office/visits/{visit}/strip", get(paper_strip::of_visit))
        .route("/office/visits/{visit}/settle", post(visit_acts::settle))
        .route("/office/visits/{visit}/reopen", post(visit_reopen::reopen))
        .route("/office/visits/{visit}/photos/{sha256}", get(visit_acts::photo))
        .route("/office/visits/{visit}/photos/{sha256}/remove", post(photo_acts::remove))
        .route("/office/visits/{visit}/links", post(visit_acts::make_link))
        .route("/office/visits/{visit}/links/{number}/revoke", post(visit_acts::revoke_link))
        .route("/office/refused", get(quarantine::show))
        .route("/office/refused/purge", post(quarantine::purge))
        .route("/office/visits/{visit}/hide", post(quarantine::hide))
        .route("/office/visits/{visit}/unhide", post(quarantine::unhide))
        .route("/office/devices", get(devices::show))
        .route("/office/devices/enrol", post(devices::enrol))
        .route("/office/devices/{device}", get(device::show).post(device::change))
        .route("/office/devices/{device}/revoke", get(devices::ask_revoke).post(devices::revoke))
        .route("/office/own", get(own::show))
        .route("/office/own/language", post(own::change_language))
        .route("/office/own/password", post(own::change_password))
        .route("/office/own/second-factor", post(own::begin_factor))
        .route("/office/own/second-factor/confirm", post(own::confirm_factor))
        .route("/office/own/second-factor/codes", post(own::renew_codes))
        .route("/office/own/second-factor/off", post(own::turn_off))
        .route("/office/late", get(late::show))
        .route("/office/late/{entry}/admit", post(late::admit))
        .route("/office/late/{entry}/withdraw", post(late::withdraw))
        .route("/office/people", get(people::show))
        .route("/office/people/confirm", post(people::confirm))
        .route("/office/people/end", post(people::end))
        .route("/office/people/left", post(people::left))
        .route("/office/people/forget", post(people::forget))
        .route("/office/people/rules", post(people::rules))
        .route("/office/accounts", get(accounts::show))
        .route("/office/accounts/second-factor", post(accounts::require_factor))
        .route("/office/accounts/{number}/second-factor", post(accounts::reset_factor))
        .route("/office/state", get(state::show))
        .route("/office/state/check", post(state::check))
        .route("/office/audit", get(accounts::audit))
        .route("/office/reconcile", get(reconcile::show))
        .route("/office/reconcile/export", get(reconcile::export))
        .route("/office/reconcile/tariff", post(reconcile_tariffs::keep_tariff))
        .route("/office/reconcile/detention", post(reconcile_tariffs::keep_detention))
        .route("/office/reconcile/measure", post(reconcile_tariffs::keep_measure))
        .route("/office/seals", get(seals::show))
        .route("/office/seals/issue", post(seals::issue))
        .route("/office/seals/void", post(seals::void))
        .route("/office/defects", get(defects::show))
        .route("/office/defects/forward", post(defects::forward))
        .route("/office/defects/again", post(defects::again))
        .route("/office/instruments", get(instruments::show))
        .route("/office/procedures", get(procedures::show))
        .route("/office/procedures/start", post(procedures::start))
        .route("/office/procedures/sites/{site}/strip", get(paper_strip::of_site))
        .route("/office/procedures/editions/{digest}", get(procedures::edition))
        .route("/office/procedures/editions/{digest}/withdraw", post(procedures::withdraw))
        .route(
            "/office/procedures/drafts/{number}",
            get(procedure_draft::show).post(procedure_draft::settings),
        )
        .route("/office/procedures/drafts/{number}/preview", get(procedure_draft::show_preview))
        .route(
            "/office/procedures/drafts/{number}/gates",
            get(procedure_gates::show).post(procedure_gates::change),
        )
        .route("/office/procedures/drafts/{number}/discard", post(procedure_draft::discard))
        .route(
            "/office/procedures/drafts/{number}/add",
            get(procedure_step::ask_add).post(procedure_step::add),
        )
        .route(
            "/office/procedures/drafts/{number}/steps/{step}",
            get(procedure_step::show).post(procedure_step::change),
        )
        .route("/office/procedures/drafts/{number}/steps/{step}/move", post(procedure_draft::move_step))
        .route("/office/procedures/drafts/{number}/steps/{step}/remove", post(procedure_step::remove))
        .route(
            "/office/procedures/drafts/{number}/publish",
            get(procedure_publish::ask).post(procedure_publish::publish),
        )
        .route("/office/papers", get(papers::show))
        .route("/office/papers/preview", post(papers::preview))
        .route("/office/papers/take", post(papers::take))
        .route("/office/papers/files/{sha256}", get(papers::file))
        .route("/office/papers/files/{sha256}/send", get(papers_sent::ask).post(papers_sent::send))
        .route("/office/papers/sent/{site}/{entry}/take-back", post(papers_sent::take_back))
        .layer(apart)
        // A packet takes longer than a page.
        .merge(Router::new().route("/office/visits/{visit}/packet", get(visit_acts::packet)).layer(packets))
        .merge(files::routes())
        .route("/office/{*rest}", get(|| async { PageError::NotThere(message!("office-refused-no-page")) }))
        .layer(middleware::from_fn_with_state(Arc::clone(office), page_error::draw))
        .layer(middleware::from_fn(frame::keep_to_itself))
}
