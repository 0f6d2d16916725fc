//! The second step of signing in: the code of the second factor, after the right password.

use std::sync::Arc;
use std::time::Instant;

use axum::Form;
use axum::extract::State;
use axum::http::{HeaderMap, StatusCode};
use axum::response::Response;
use farsiding_core::{Message, message};
use farsiding_words::Words;
use maud::{Markup, html};
use serde::Deserialize;

use super::cookies::browser_of;
use super::form_check::check_from_here;
use super::page_error::PageError;
use super::reader::PageWords;
use super::sign_in::{enter_as, form, note_failed, page, wait_page, within};
use super::user::as_register;
use crate::accounts::attempts::{Origin, Tried};
use crate::accounts::second_factor::{self, Taken};
use crate::accounts::{browsers, people};
use crate::state::Office;

/// Returns the form for the code. `half` is the token of the half-finished sign-in.
pub fn code_form(w: &Words, half: &str, to: &str, trouble: Option<&Message>) -> Markup {
    html! {
        h1 { (w.say("office-sign-in-code-title")) }
        @if let Some(trouble) = trouble {
            p.trouble role="alert" { (w.text(trouble)) }
        }
        p { (w.say("office-sign-in-code-lead")) }
        form.stack method="post" action="/office/sign-in/code" {
            input type="hidden" name="half" value=(half);
            input type="hidden" name="to" value=(to);
            label for="code" { (w.say("office-sign-in-code")) }
            input.field id="code" name="code" autocomplete="one-time-code" autocapitalize="none" spellcheck="false"
                maxlength="40" required autofocus;
            button.go type="submit" { (w.say("office-sign-in-title")) }
        }
        p.small { (w.say("office-sign-in-code-neither")) " " a href="/office/sign-in" { (w.say("office-sign-in-code-again")) } "." }
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
    PageWords(w): PageWords,
    Form(tried): Form<Coded>,
) -> Result<Response, PageError> {
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
        let says = message!("office-sign-in-code-late");
        return Ok(page(StatusCode::UNAUTHORIZED, w, form(w, &to, "", Some(&says))));
    };
    // A code is short, so attempts by somebody who knows the password are slowed down regardless of their
    // address. They do not slow down a browser from which the person has signed in before.
    let origin = match browser.filter(|_| known) {
        Some(browser) => Origin::KnownBrowser(browsers::counted_as(&browser)),
        None => Origin::Anywhere,
    };
    let again = |says: &Message| code_form(w, &tried.half, &to, Some(says));
    if let Err(wait) = office.attempts.begin(Tried::Code, &account.name, origin, Instant::now()) {
        return Ok(wait_page(w, wait, again));
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
        let says = message!("office-sign-in-code-wrong");
        return Ok(page(StatusCode::UNAUTHORIZED, w, again(&says)));
    };
    office.attempts.was_right(Tried::Code, &account.name, origin);
    match taken {
        Taken::Code => enter_as(&office, &account, &headers, "signed in", &to).await,
        Taken::Recovery(_) => {
            enter_as(&office, &account, &headers, "signed in with a recovery code", "/office/own").await
        }
    }
}
