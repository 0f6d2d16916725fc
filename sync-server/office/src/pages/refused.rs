//! The pages shown instead of a page that was refused: what happened, and what to do next.

use axum::http::{HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Response};
use maud::html;

use super::frame;
use crate::accounts::roles::Right;
use crate::state::Problem;

/// Why a page was refused.
#[derive(Debug)]
pub enum Refused {
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
    BadForm(String),
    /// The requested thing does not exist.
    NotThere(String),
    /// The record does not allow the change.
    NotAllowed(String),
    /// An internal failure, whose details are logged.
    Failed(Problem),
}

impl From<Problem> for Refused {
    fn from(problem: Problem) -> Refused {
        Refused::Failed(problem)
    }
}

impl Refused {
    /// Returns the page for an internal failure. The details are logged and not shown.
    pub fn failed(why: impl std::fmt::Display) -> Refused {
        Refused::Failed(Problem::failed(&why.to_string()))
    }
}

impl IntoResponse for Refused {
    fn into_response(self) -> Response {
        // A person who may not see Today is not sent there.
        let (way, to) = match self {
            Refused::NotYours => ("/office/sign-in", "Sign in"),
            _ => ("/office/", "To Today"),
        };
        let (status, title, words) = match self {
            Refused::SignIn { to } => {
                let to = super::sign_in::path_with(&to);
                let mut response = StatusCode::SEE_OTHER.into_response();
                if let Ok(to) = HeaderValue::from_str(&to) {
                    response.headers_mut().insert(header::LOCATION, to);
                }
                return response;
            }
            Refused::FactorFirst => return super::see_other("/office/own"),
            Refused::NoRight(right) => (
                StatusCode::FORBIDDEN,
                "Not open to your account",
                format!(
                    "This takes an account that may {}. Ask an administrator of yours if you need it.",
                    right.words()
                ),
            ),
            Refused::Over => {
                (StatusCode::UNAUTHORIZED, "Sign in again", "This session is over.".to_owned())
            }
            Refused::NotYours => (
                StatusCode::FORBIDDEN,
                "Not open to you",
                "You are signed in, but not for this page. A link opens one record and its packet, and nothing else."
                    .to_owned(),
            ),
            Refused::NoToken => (
                StatusCode::FORBIDDEN,
                "Nothing was changed",
                "This form did not come from a page of your present session. Go back, load the page again, and send it from there."
                    .to_owned(),
            ),
            Refused::OtherSite => (
                StatusCode::FORBIDDEN,
                "Nothing was changed",
                "This form was sent by another site. Sign out if you did not mean to send it.".to_owned(),
            ),
            Refused::BadForm(why) => (StatusCode::UNPROCESSABLE_ENTITY, "Nothing was changed", why),
            Refused::NotThere(what) => (StatusCode::NOT_FOUND, "Not here", what),
            Refused::NotAllowed(why) => (StatusCode::CONFLICT, "Nothing was changed", why),
            Refused::Failed(problem) => {
                let status = problem.status();
                (status, "The server could not do that", problem.message().to_owned())
            }
        };
        let body = html! {
            h1 { (title) }
            p.lead { (words) }
            p { a.key href=(way) { (to) } }
        };
        frame::bare(status, title, body)
    }
}
