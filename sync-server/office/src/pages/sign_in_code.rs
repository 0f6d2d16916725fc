//! The second step of signing in: the code of the second factor, after the right password.

use std::sync::Arc;
use std::time::Instant;

use axum::Form;
use axum::extract::State;
use axum::http::{HeaderMap, StatusCode};
use axum::response::Response;
use maud::{Markup, html};
use serde::Deserialize;

use super::cookies::browser_of;
use super::form_check::check_from_here;
use super::frame;
use super::refused::Refused;
use super::sign_in::{enter_as, form, note_failed, wait_page, within};
use super::user::as_register;
use crate::accounts::attempts::{Origin, Tried};
use crate::accounts::second_factor::{self, Taken};
use crate::accounts::{browsers, people};
use crate::state::Office;

/// Returns the form for the code. `half` is the token of the half-finished sign-in.
pub fn code_form(half: &str, to: &str, trouble: Option<&str>) -> Markup {
    html! {
        h1 { "Your code" }
        @if let Some(trouble) = trouble {
            p.trouble role="alert" { (trouble) }
        }
        p { "The six digits your telephone shows now for Farsiding. If the telephone is lost, one of your recovery codes." }
        form.stack method="post" action="/office/sign-in/code" {
            input type="hidden" name="half" value=(half);
            input type="hidden" name="to" value=(to);
            label for="code" { "Code" }
            input.field id="code" name="code" autocomplete="one-time-code" autocapitalize="none" spellcheck="false"
                maxlength="40" required autofocus;
            button.go type="submit" { "Sign in" }
        }
        p.small { "Neither at hand? An administrator can reset it: " a href="/office/sign-in" { "begin anew" } " after that." }
    }
}

/// The form with a code and with the token of the half-finished sign-in.
#[derive(Deserialize)]
pub struct Coded {
    #[serde(default)]
    half: String,
    #[serde(default)]
    code: String,
    #[serde(default)]
    to: String,
}

impl std::fmt::Debug for Coded {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Coded").finish_non_exhaustive()
    }
}

/// `POST /office/sign-in/code`: checks the code.
pub async fn code(
    State(office): State<Arc<Office>>,
    headers: HeaderMap,
    Form(tried): Form<Coded>,
) -> Result<Response, Refused> {
    check_from_here(&headers)?;
    let (to, now) = (within(&tried.to).to_owned(), office.now());
    let (half, browser) = (tried.half.clone(), browser_of(&headers, office.secure));
    let asked = browser.clone();
    let waiting = office
        .on_database(move |database| {
            let connection = database.connection();
            let waiting = second_factor::waits_for_code(connection, &half, now).map_err(as_register)?;
            let Some((number, name)) = waiting else { return Ok(None) };
            let known = match &asked {
                Some(browser) => browsers::knows(connection, browser, &name, now).map_err(as_register)?,
                None => false,
            };
            Ok(people::by_number(connection, number)
                .map_err(as_register)?
                .map(|(account, _)| (account, known)))
        })
        .await?;
    let Some((account, known)) = waiting else {
        let words = "That took longer than five minutes. Begin anew.";
        return Ok(frame::bare(StatusCode::UNAUTHORIZED, "Sign in", form(&to, "", Some(words))));
    };
    // A code is short, so attempts by somebody who knows the password are slowed down regardless of their
    // address. They do not slow down a browser from which the person has signed in before.
    let origin = match browser.filter(|_| known) {
        Some(browser) => Origin::KnownBrowser(browsers::counted_as(&browser)),
        None => Origin::Anywhere,
    };
    let again = |words: &str| code_form(&tried.half, &to, Some(words));
    if let Err(wait) = office.attempts.begin(Tried::Code, &account.name, origin, Instant::now()) {
        return Ok(wait_page(wait, again));
    }
    let (number, typed, half) = (account.number, tried.code.clone(), tried.half.clone());
    let taken = office
        .on_database(move |database| {
            let connection = database.connection();
            let taken = second_factor::take(connection, number, &typed, now).map_err(as_register)?;
            if taken.is_some() {
                second_factor::end_waiting(connection, &half).map_err(as_register)?;
            }
            Ok(taken)
        })
        .await?;
    let Some(taken) = taken else {
        note_failed(&office, &account.name, "failed at the code, after the right password").await?;
        tracing::warn!("sign-in refused: wrong code");
        let words = "This code is wrong, or was used already. Take the next one your telephone shows.";
        return Ok(frame::bare(StatusCode::UNAUTHORIZED, "Sign in", again(words)));
    };
    office.attempts.was_right(Tried::Code, &account.name, origin);
    match taken {
        Taken::Code => enter_as(&office, &account, &headers, "signed in", &to).await,
        Taken::Recovery(_) => {
            enter_as(&office, &account, &headers, "signed in with a recovery code", "/office/own").await
        }
    }
}
