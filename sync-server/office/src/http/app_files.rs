//! Serves the phone app under `/app/`: the files of its built folder, plain or in the compressed form that
//! the build wrote beside them (`.br`), with headers that isolate the page. The app holds no data and needs
//! no account; records come only by sync.

use std::path::Path;
use std::sync::Arc;

use axum::Router;
use axum::http::{HeaderName, HeaderValue, header};
use axum::response::Redirect;
use axum::routing::get;
use tower_http::services::ServeDir;
use tower_http::set_header::SetResponseHeaderLayer;

use crate::state::Office;

/// What the page may load: its own files, its worker and module, and pictures it made itself, but nothing
/// from elsewhere.
const POLICY: &str = "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self' 'unsafe-inline'; \
     img-src 'self' blob: data:; connect-src 'self'; worker-src 'self'; manifest-src 'self'; \
     object-src 'none'; base-uri 'none'; frame-ancestors 'none'; form-action 'none'";

/// Returns the routes of the app in the built folder `folder`.
pub(super) fn routes(folder: &Path) -> Router<Arc<Office>> {
    let header = |name: HeaderName, value: &'static str| {
        SetResponseHeaderLayer::overriding(name, HeaderValue::from_static(value))
    };
    Router::new()
        // When the browser follows the redirect, it keeps the `#enrol=…` part of the office's link.
        .route("/", get(|| async { Redirect::temporary("/app/") }))
        .nest_service("/app", ServeDir::new(folder).precompressed_br())
        .layer(header(header::CONTENT_SECURITY_POLICY, POLICY))
        .layer(header(header::X_CONTENT_TYPE_OPTIONS, "nosniff"))
        .layer(header(header::REFERRER_POLICY, "no-referrer"))
        // The service worker keeps the files it needs; the browser asks each time whether a file has changed.
        .layer(header(header::CACHE_CONTROL, "no-cache"))
}
