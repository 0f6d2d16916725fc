//! The office over HTTP: the routes, the parts they share, and the limits on every request.
//!
//! Each group of routes has its own file. Every error is a `RequestError` (`state`) with a short code for programs
//! and a sentence for people.

mod app_files;
mod body;
mod door;
mod enrol_route;
mod hint_route;
mod hosts;
mod log_route;
pub(crate) mod photo_routes;
mod sync_route;

use std::sync::Arc;
use std::time::Duration;

use axum::extract::{DefaultBodyLimit, Request, State};
use axum::http::{StatusCode, header};
use axum::middleware::{self, Next};
use axum::response::{IntoResponse as _, Response};
use axum::routing::{get, post};
use axum::{Json, Router};

use crate::pages::{self, Administers, Allowed, PageError};
use crate::state::hosts::Hosts;
use crate::state::{Office, RequestError, concurrency};

/// Returns all routes, including those of the phone app if its built folder is given.
pub fn router(office: Arc<Office>, app: Option<&std::path::Path>, hosts: Option<&Hosts>) -> Router {
    let app = app.map_or_else(Router::new, app_files::routes);
    let routes = Router::new()
        .merge(app)
        .merge(pages::routes(&office))
        .route("/v1/sync", post(sync_route::sync))
        .route("/v1/log", post(log_route::log))
        .route("/v1/enrol", get(enrol_route::who).post(enrol_route::enrol))
        .route("/v1/pass", post(photo_routes::give_pass))
        .route("/v1/photos", post(photo_routes::create).options(photo_routes::options))
        .route(
            "/v1/photos/{sha256}",
            get(photo_routes::download)
                .head(photo_routes::offset)
                .patch(photo_routes::append)
                .options(photo_routes::options),
        )
        .route("/v1/hints", get(hint_route::hints))
        .route("/healthz", get(health))
        .fallback(|| async { RequestError::not_found() })
        .layer(middleware::from_fn_with_state(Arc::clone(&office), limit_concurrency))
        .layer(middleware::from_fn(log_request))
        // Bodies are read piece by piece under the limits above, not by an extractor.
        .layer(DefaultBodyLimit::max(64 * 1024))
        .with_state(office);
    match hosts {
        Some(hosts) => routes.layer(middleware::from_fn_with_state(hosts.clone(), hosts::keep_apart)),
        None => routes,
    }
}

/// Answers `{"ok":true}` while all checks pass. A signed-in administrator is also told what is wrong.
async fn health(State(office): State<Arc<Office>>, who: Result<Allowed<Administers>, PageError>) -> Response {
    let well = async {
        office
            .on_ledger(|ledger| ledger.store().newest_position().map(|_| ()))
            .await?
            .map_err(RequestError::from)?;
        office.on_database(|database| database.ledger_position().map(|_| ())).await
    };
    let answers = matches!(tokio::time::timeout(Duration::from_secs(5), well).await, Ok(Ok(())));
    let state = crate::health::present(&office).await;
    let ok = answers && state.serves();
    let mut told = serde_json::json!({ "ok": ok });
    if let (Ok(_), Some(told)) = (who, told.as_object_mut()) {
        told.insert("answers".to_owned(), answers.into());
        told.insert("findings".to_owned(), state.to_json());
    }
    let status = if ok { StatusCode::OK } else { StatusCode::SERVICE_UNAVAILABLE };
    (status, [(header::CACHE_CONTROL, "no-store")], Json(told)).into_response()
}

/// Lets in as many requests as may run at the same time, in order of arrival. A request that waits longer
/// than a stalled client can occupy a place is told to try later. If requests were turned away at once
/// instead, a few strangers who begin bodies and never end them could keep everybody out.
async fn limit_concurrency(State(office): State<Arc<Office>>, request: Request, next: Next) -> Response {
    let patience = office.limits.pause + concurrency::PATIENCE;
    let mut _turn = None;
    if let Some(address) = office.concurrency.address_of(&request) {
        if !office.concurrency.one_more(address) {
            return RequestError::too_often().into_response();
        }
        match tokio::time::timeout(patience, office.concurrency.turn(address)).await {
            Ok(turn) => _turn = turn,
            Err(_) => return RequestError::busy().into_response(),
        }
    }
    match tokio::time::timeout(patience, office.at_once.acquire()).await {
        Ok(Ok(_place)) => next.run(request).await,
        _ => RequestError::busy().into_response(),
    }
}

/// Writes one log line for each request. The logged path is the route's pattern, so that nothing a stranger
/// typed gets into the log.
async fn log_request(path: Option<axum::extract::MatchedPath>, request: Request, next: Next) -> Response {
    let method = request.method().clone();
    let began = std::time::Instant::now();
    let response = next.run(request).await;
    let route = path.as_ref().map_or("(none)", |p| p.as_str());
    let millis = u64::try_from(began.elapsed().as_millis()).unwrap_or(u64::MAX);
    let status = response.status().as_u16();
    if status >= 500 {
        tracing::error!(method = method.as_str(), route, status, millis, "request");
    } else {
        tracing::info!(method = method.as_str(), route, status, millis, "request");
    }
    response
}
