//! The static files of the pages: the style sheet, the only script, the typeface and the logo. They are the
//! same for everybody.

use std::sync::Arc;

use axum::Router;
use axum::http::header;
use axum::response::IntoResponse;
use axum::routing::get;

use crate::state::Office;

const LOOK: &str = include_str!("look.css");
const LIVE: &str = include_str!("live.js");
const MARK: &str = include_str!("mark.svg");
/// The typeface Atkinson Hyperlegible Next, SIL Open Font License 1.1 (`OFL.txt` beside it).
const FACE: &[u8] = include_bytes!("atkinson-hyperlegible-next-latin-wght-normal.woff2");

fn file(media: &'static str, kept: &'static str, bytes: &'static [u8]) -> impl IntoResponse {
    ([(header::CONTENT_TYPE, media), (header::CACHE_CONTROL, kept)], bytes)
}

/// Returns the routes of the static files.
pub fn routes() -> Router<Arc<Office>> {
    const ASKED_AGAIN: &str = "no-cache";
    Router::new()
        .route(
            "/office/look.css",
            get(|| async { file("text/css; charset=utf-8", ASKED_AGAIN, LOOK.as_bytes()) }),
        )
        .route(
            "/office/live.js",
            get(|| async { file("text/javascript; charset=utf-8", ASKED_AGAIN, LIVE.as_bytes()) }),
        )
        .route("/office/mark.svg", get(|| async { file("image/svg+xml", ASKED_AGAIN, MARK.as_bytes()) }))
        .route(
            "/office/face.woff2",
            get(|| async { file("font/woff2", "public, max-age=31536000, immutable", FACE) }),
        )
}
