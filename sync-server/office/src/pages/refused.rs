//! Why a page was not given, as a page: what happened, and what to do next.

use axum::http::{HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Response};
use maud::html;

use super::frame;
use crate::accounts::roles::Right;
use crate::state::Problem;

/// Why a page was not given.
#[derive(Debug)]
pub enum Refused {
    /// Nobody is signed in, or the session is over.
    SignIn {
        /// Where to go after; empty for Today.
        to: String,
    },
    /// A page that refreshes itself asked, and its session is over.
    Over,
    /// Signed in, but not for this.
    NotYours,
    /// The account has not the right it takes.
    NoRight(Right),
    /// The organisation asks for a second factor, and the account has none yet.
    FactorFirst,
    /// A form without the session's token.
    NoToken,
    /// A form another site sent.
    OtherSite,
    /// A form that cannot be read or holds something that is not taken.
    BadForm(String),
    /// There is no such thing.
    NotThere(String),
    /// The record does not allow it.
    NotAllowed(String),
    /// Something failed here; the particulars are logged.
    Failed(Problem),
}

impl From<Problem> for Refused {
    fn from(problem: Problem) -> Refused {
        Refused::Failed(problem)
    }
}

impl Refused {
    /// Something failed here; the particulars are logged, not told.
    pub fn failed(why: impl std::fmt::Display) -> Refused {
        Refused::Failed(Problem::failed(&why.to_string()))
    }
}

impl IntoResponse for Refused {
    fn into_response(self) -> Response {
        // Who may not see Today is not sent there.
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
