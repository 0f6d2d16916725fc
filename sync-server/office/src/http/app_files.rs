//! The phone app under `/app/`: the files of a built folder, as they are or as the build compressed them
//! beside (`.br`), with headers that keep the page to itself. No product logic and no account is needed to fetch it; records come by sync only.

use std::path::Path;
use std::sync::Arc;

use axum::Router;
use axum::http::{HeaderName, HeaderValue, header};
use axum::response::Redirect;
use axum::routing::get;
use tower_http::services::ServeDir;
use tower_http::set_header::SetResponseHeaderLayer;

use crate::state::Office;

/// What the page may load: itself, its worker and its module; pictures it made; nobody else's anything.
const POLICY: &str = "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self' 'unsafe-inline'; \
     img-src 'self' blob: data:; connect-src 'self'; worker-src 'self'; manifest-src 'self'; \
     object-src 'none'; base-uri 'none'; frame-ancestors 'none'; form-action 'none'";

/// Returns the routes of the app built in `folder`.
pub(super) fn routes(folder: &Path) -> Router<Arc<Office>> {
    let header = |name: HeaderName, value: &'static str| {
        SetResponseHeaderLayer::overriding(name, HeaderValue::from_static(value))
    };
    Router::new()
        // A browser takes `#enrol=…` of the office's link along to where it is sent.
        .route("/", get(|| async { Redirect::temporary("/app/") }))
        .nest_service("/app", ServeDir::new(folder).precompressed_br())
        .layer(header(header::CONTENT_SECURITY_POLICY, POLICY))
        .layer(header(header::X_CONTENT_TYPE_OPTIONS, "nosniff"))
        .layer(header(header::REFERRER_POLICY, "no-referrer"))
        // The service worker keeps what it needs; the browser asks whether a file changed.
        .layer(header(header::CACHE_CONTROL, "no-cache"))
}
