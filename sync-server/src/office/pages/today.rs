//! Today: every car at every site, where it stands, what keeps it, what has not come in from phones.

use std::sync::Arc;

use axum::extract::State;
use axum::response::Response;
use maud::html;

use super::frame::{self, Place, Visitor};
use super::refused::Refused;
use crate::office::http::Office;

/// `GET /office/`.
pub async fn show(State(office): State<Arc<Office>>, visitor: Visitor) -> Result<Response, Refused> {
    frame::note(&office, &visitor, "looked", "today").await?;
    Ok(frame::page(&visitor, "Today", Place::Today, html! { h1 { "Today" } }))
}
