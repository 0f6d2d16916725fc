//! The pages shown instead of a page that was refused: what happened, and what to do next.

use std::sync::Arc;

use axum::extract::{Request, State};
use axum::http::{HeaderValue, StatusCode, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};
use farsiding_core::{Message, message};
use maud::html;

use super::frame;
use super::reader::{Reader, words_of};
use crate::accounts::roles::Right;
use crate::state::{Office, RequestError};

/// Why a page was refused.
#[derive(Debug)]
pub enum PageError {
    /// Nobody is signed in, or the session has ended.
    SignIn {
        /// The address to go to after signing in; empty for Today.
        to: String,
    },
    /// A page refreshed itself, but its session has ended.
    Over,
    /// The signed-in person may not see this page.
    NotYours,
    /// The account lacks the right that is needed.
    NoRight(Right),
    /// The organisation requires a second factor, and the account has none yet.
    FactorFirst,
    /// The form lacks the session's token.
    NoToken,
    /// The form was sent from another site.
    OtherSite,
    /// The form cannot be parsed, or holds a value that is not accepted.
    BadForm(Message),
    /// The requested thing does not exist.
    NotThere(Message),
    /// The record does not allow the change.
    NotAllowed(Message),
    /// An internal failure, whose details are logged.
    Failed(RequestError),
}

impl From<RequestError> for PageError {
    fn from(problem: RequestError) -> PageError {
        PageError::Failed(problem)
    }
}

impl PageError {
    /// Returns the page for an internal failure. The details are logged and not shown.
    pub fn failed(why: impl std::fmt::Display) -> PageError {
        PageError::Failed(RequestError::failed(&why.to_string()))
    }
}

/// A refusal as it is drawn: the ids of its title and of the way on, and what is said.
#[derive(Debug, Clone)]
struct Drawn {
    title: &'static str,
    says: Message,
    way: (&'static str, &'static str),
}

impl IntoResponse for PageError {
    /// Returns the status with a page that [`draw`] draws, because only there the reader's language is known.
    fn into_response(self) -> Response {
        // A person who may not see Today is not sent there.
        let way = match self {
            PageError::NotYours => ("/office/sign-in", "office-refused-to-sign-in"),
            _ => ("/office/", "office-refused-to-today"),
        };
        let unchanged = "office-refused-unchanged";
        let (status, title, says) = match self {
            PageError::SignIn { to } => {
                let to = super::sign_in::path_with(&to);
                let mut response = StatusCode::SEE_OTHER.into_response();
                if let Ok(to) = HeaderValue::from_str(&to) {
                    response.headers_mut().insert(header::LOCATION, to);
                }
                return response;
            }
            PageError::FactorFirst => return super::see_other("/office/own"),
            PageError::NoRight(right) => (
                StatusCode::FORBIDDEN,
                "office-refused-account",
                message!("office-refused-no-right", right = right.term()),
            ),
            PageError::Over => {
                (StatusCode::UNAUTHORIZED, "office-refused-again", message!("office-refused-over"))
            }
            PageError::NotYours => {
                (StatusCode::FORBIDDEN, "office-refused-you", message!("office-refused-not-yours"))
            }
            PageError::NoToken => (StatusCode::FORBIDDEN, unchanged, message!("office-refused-no-token")),
            PageError::OtherSite => (StatusCode::FORBIDDEN, unchanged, message!("office-refused-other-site")),
            PageError::BadForm(says) => (StatusCode::UNPROCESSABLE_ENTITY, unchanged, says),
            PageError::NotThere(says) => (StatusCode::NOT_FOUND, "office-refused-not-here", says),
            PageError::NotAllowed(says) => (StatusCode::CONFLICT, unchanged, says),
            PageError::Failed(problem) => (problem.status(), "office-refused-failed", problem.page_message()),
        };
        let mut response = status.into_response();
        response.extensions_mut().insert(Drawn { title, says, way });
        response
    }
}

/// Draws the page of a refusal in the reader's language.
pub async fn draw(State(office): State<Arc<Office>>, mut request: Request, next: Next) -> Response {
    let (reader, headers) = (Reader::default(), request.headers().clone());
    request.extensions_mut().insert(reader.clone());
    let mut response = next.run(request).await;
    let Some(Drawn { title, says, way: (address, way) }) = response.extensions_mut().remove() else {
        return response;
    };
    let w = match reader.words() {
        Some(words) => words,
        None => words_of(&headers, &office).await,
    };
    let body = html! {
        h1 { (w.say(title)) }
        p.lead { (w.text(&says)) }
        p { a.key href=(address) { (w.say(way)) } }
    };
    frame::bare(response.status(), w, &w.say(title), body)
}
