//! The page of a person's own account: its rights, its password and its second factor.
//!
//! The page is open to everybody with an account, even while a required second factor is not set up yet.
//! Every change asks for the password again, so that an unattended screen is not enough.

use std::sync::Arc;
use std::time::Instant;

use axum::extract::State;
use axum::http::StatusCode;
use axum::response::Response;
use maud::{Markup, html};
use serde::Deserialize;

use super::devices::picture;
use super::frame::{self, OfficeUser, Place, csrf, in_utc, plural};
use super::refused::Refused;
use super::sign_in::password_fits;
use super::user::{Own, OwnCsrfForm, as_register};
use crate::accounts::attempts::{Origin, Tried};
use crate::accounts::roles::Right;
use crate::accounts::second_factor::{self, Fresh, Standing};
use crate::accounts::{AccountError, passwords, people, sessions};
use crate::state::Office;
use farsiding_host::SystemRandomness;

/// `GET /office/own`: shows the person's account.
pub async fn show(State(office): State<Arc<Office>>, own: Own) -> Result<Response, Refused> {
    let (account, now) = (own.account, office.now());
    let (standing, required, open) = office
        .on_database(move |database| {
            let connection = database.connection();
            Ok((
                second_factor::standing(connection, account).map_err(as_register)?,
                database.second_factor_required()?,
                sessions::open_of(connection, account, now).map_err(as_register)?,
            ))
        })
        .await?;
    let user = &own.user;
    let body = html! {
        h1 { (user.name) }
        @if let Some(role) = user.role {
            p.lead { "This account is of a " b { (role.as_str()) } ": it may " (role.words()) "." }
        }
        @if own.factor_missing {
            p.told role="status" { "Your organisation asks everybody who signs in for a second factor. Set it up below; the other pages open then." }
        }
        @if user.may(Right::Administer) && !own.factor_missing {
            div.row.no-print {
                a.key href="/office/accounts" { "Accounts" }
                a.key href="/office/audit" { "Who looked at what" }
                a.key href="/office/state" { "State of the server" }
            }
        }
        div.two.even {
            section { h2 { "Second factor" } (factor(user, standing, required)) }
            section { h2 { "Password" } (password_form(user, open)) }
        }
    };
    Ok(frame::page(user, "Your account", Place::Accounts, body))
}

fn password_field(id: &str, label: &str, auto: &str) -> Markup {
    html! {
        label for=(id) { (label) }
        input.field id=(id) type="password" name="password" autocomplete=(auto) maxlength="256" required;
    }
}

fn factor(user: &OfficeUser, standing: Standing, required: bool) -> Markup {
    html! {
        @match standing.since {
            None => {
                p { "A telephone that makes codes: who learns your password still cannot sign in. Any authenticator app will do." }
                form.stack method="post" action="/office/own/second-factor" {
                    (csrf(user))
                    (password_field("set-up-password", "Your password", "current-password"))
                    button.go type="submit" { "Set it up" }
                }
            }
            Some(since) => {
                p { "Set up " (in_utc(since)) ". Signing in asks for a code of your telephone." }
                @if standing.codes_left < 3 {
                    p.trouble role="status" { "You have " (plural(standing.codes_left, "recovery code", "recovery codes")) " left. Make new ones, or a lost telephone shuts you out." }
                } @else {
                    p { "You have " (plural(standing.codes_left, "recovery code", "recovery codes")) " left." }
                }
                details {
                    summary { "New recovery codes" }
                    form.stack method="post" action="/office/own/second-factor/codes" {
                        (csrf(user))
                        p.small { "Those of before are worth nothing then." }
                        (password_field("codes-password", "Your password", "current-password"))
                        button.key type="submit" { "Make new codes" }
                    }
                }
                @if required {
                    p.small { "Your organisation asks for a second factor, so it cannot be turned off here. For another telephone, ask an administrator to reset it." }
                } @else {
                    details {
                        summary { "Turn it off, or change the telephone" }
                        form.stack method="post" action="/office/own/second-factor/off" {
                            (csrf(user))
                            (password_field("off-password", "Your password", "current-password"))
                            label for="off-code" { "A code of your telephone, or a recovery code" }
                            input.field id="off-code" name="code" autocomplete="one-time-code" maxlength="40" required;
                            button.key.stop type="submit" { "Turn it off" }
                        }
                    }
                }
            }
        }
    }
}

fn password_form(user: &OfficeUser, open: usize) -> Markup {
    html! {
        form.stack method="post" action="/office/own/password" {
            (csrf(user))
            (password_field("old", "The one you have", "current-password"))
            label for="fresh" { "The new one, " (passwords::SHORTEST) " characters at least" }
            input.field id="fresh" type="password" name="fresh" autocomplete="new-password" minlength=(passwords::SHORTEST) maxlength=(passwords::LONGEST) required;
            label for="again" { "The new one once more" }
            input.field id="again" type="password" name="again" autocomplete="new-password" minlength=(passwords::SHORTEST) maxlength=(passwords::LONGEST) required;
            button.go type="submit" { "Change the password" }
        }
        p.small {
            "A short sentence is easy to keep. Changing it signs you out everywhere but here"
            @match open.saturating_sub(1) { 0 => { "." } others => { ": " (plural(others, "other session is", "other sessions are")) " open now." } }
        }
    }
}

/// A form that asks only for the password.
#[derive(Deserialize)]
pub struct WithPassword {
    #[serde(default)]
    password: String,
}

/// The form with the old and the new password.
#[derive(Deserialize)]
pub struct NewPassword {
    #[serde(default)]
    password: String,
    #[serde(default)]
    fresh: String,
    #[serde(default)]
    again: String,
}

/// The form with a code of the telephone.
#[derive(Deserialize)]
pub struct WithCode {
    #[serde(default)]
    password: String,
    #[serde(default)]
    code: String,
}

/// Implements `Debug` without the fields, so that a form with a secret cannot be logged by accident.
macro_rules! never_shown {
    ($($form:ident),*) => {$(
        impl std::fmt::Debug for $form {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.debug_struct(stringify!($form)).finish_non_exhaustive()
            }
        }
    )*};
}
never_shown!(WithPassword, NewPassword, WithCode);

fn try_later(wait: std::time::Duration) -> Refused {
    Refused::NotAllowed(format!("Too many wrong tries. Wait {} s and try again.", wait.as_secs() + 1))
}

/// Checks the password of a signed-in person.
async fn held_to_password(office: &Office, own: &Own, password: &str) -> Result<(), Refused> {
    let origin = Origin::Session(sessions::counted_as(&own.token));
    office.attempts.begin(Tried::Password, &own.user.name, origin, Instant::now()).map_err(try_later)?;
    let account = own.account;
    let found = office
        .on_database(move |database| people::by_number(database.connection(), account).map_err(as_register));
    let kept = found.await?.map(|(_, hash)| hash);
    match password_fits(office, origin, password.to_owned(), kept).await? {
        Some(true) => {
            office.attempts.was_right(Tried::Password, &own.user.name, origin);
            Ok(())
        }
        Some(false) => {
            frame::note(office, &own.user, "gave a wrong password on their own page", "").await?;
            Err(Refused::BadForm("The password is not the one you have.".to_owned()))
        }
        None => {
            Err(Refused::NotAllowed("Many are signing in just now. Try again in a few seconds.".to_owned()))
        }
    }
}

/// `POST /office/own/password`: checks the old password, sets the new one and ends the other sessions.
pub async fn change_password(
    State(office): State<Arc<Office>>,
    OwnCsrfForm { own, form }: OwnCsrfForm<NewPassword>,
) -> Result<Response, Refused> {
    if form.fresh != form.again {
        let words = "The new password and its repetition are not the same.";
        return Err(Refused::BadForm(words.to_owned()));
    }
    if form.fresh == form.password {
        return Err(Refused::BadForm("The new password is the one you have.".to_owned()));
    }
    held_to_password(&office, &own, &form.password).await?;
    let mut randomness = SystemRandomness::new().map_err(Refused::failed)?;
    let hashed = tokio::task::spawn_blocking(move || passwords::hash(&form.fresh, &mut randomness));
    let hashed = hashed.await.map_err(Refused::failed)?.map_err(|error| match error {
        AccountError::BadPassword => Refused::BadForm(format!("Nothing was changed: {error}.")),
        other => Refused::failed(other),
    })?;
    let (account, token) = (own.account, own.token.clone());
    office
        .on_database(move |database| {
            people::put_password(database.connection_mut(), account, &hashed, Some(&token))
                .map_err(as_register)
        })
        .await?;
    frame::note(&office, &own.user, "changed their password", "").await?;
    done(&own.user, "Your password is changed", "Everywhere else you were signed in, you are signed out.")
}

fn done(user: &OfficeUser, title: &str, words: &str) -> Result<Response, Refused> {
    let body = html! {
        h1 { (title) }
        p.lead { (words) }
        p { a.key href="/office/own" { "To your account" } }
    };
    Ok(frame::page(user, title, Place::Accounts, body))
}

/// `POST /office/own/second-factor`: shows a new secret.
pub async fn begin_factor(
    State(office): State<Arc<Office>>,
    OwnCsrfForm { own, form }: OwnCsrfForm<WithPassword>,
) -> Result<Response, Refused> {
    held_to_password(&office, &own, &form.password).await?;
    let (account, name, now) = (own.account, own.user.name.clone(), office.now());
    let mut randomness = SystemRandomness::new().map_err(Refused::failed)?;
    let fresh = office
        .on_database(move |database| {
            match second_factor::begin(database.connection(), (account, &name), now, &mut randomness) {
                Err(AccountError::Factor(why)) => Ok(Err(why)),
                other => other.map(Ok).map_err(as_register),
            }
        })
        .await?;
    let fresh = fresh.map_err(Refused::NotAllowed)?;
    set_up_page(StatusCode::OK, &own.user, &fresh, None)
}

fn set_up_page(
    status: StatusCode,
    user: &OfficeUser,
    fresh: &Fresh,
    trouble: Option<&str>,
) -> Result<Response, Refused> {
    let pieces: Vec<&str> = (0..fresh.letters.len())
        .step_by(4)
        .filter_map(|at| fresh.letters.get(at..(at + 4).min(fresh.letters.len())))
        .collect();
    let body = html! {
        h1 { "Set the second factor up" }
        @if let Some(trouble) = trouble { p.trouble role="alert" { (trouble) } }
        div.two {
            (picture(&fresh.address)?)
            div {
                p.lead { "Point your telephone's authenticator app at the picture, or type these letters into it." }
                p.letters { code { (pieces.join(" ")) } }
                form.stack method="post" action="/office/own/second-factor/confirm" {
                    (csrf(user))
                    label for="code" { "The six digits it shows now" }
                    input.field id="code" name="code" inputmode="numeric" autocomplete="one-time-code" maxlength="8" required autofocus;
                    button.go type="submit" { "It works" }
                }
                p.small { "Nothing is asked for before a code has come back from your telephone." }
            }
        }
    };
    Ok(frame::page_with(status, user, "Set the second factor up", Place::Accounts, body))
}

/// `POST /office/own/second-factor/confirm`: checks the first code and shows the recovery codes once.
pub async fn confirm_factor(
    State(office): State<Arc<Office>>,
    OwnCsrfForm { own, form }: OwnCsrfForm<WithCode>,
) -> Result<Response, Refused> {
    let origin = Origin::Session(sessions::counted_as(&own.token));
    let name = own.user.name.clone();
    office.attempts.begin(Tried::Code, &name, origin, Instant::now()).map_err(try_later)?;
    let token = own.token.clone();
    let (account, called, now) = (own.account, name.clone(), office.now());
    let mut randomness = SystemRandomness::new().map_err(Refused::failed)?;
    let (codes, fresh) = office
        .on_database(move |database| {
            let connection = database.connection_mut();
            let codes = second_factor::confirm(connection, account, &form.code, now, &mut randomness)
                .map_err(as_register)?;
            if codes.is_some() {
                // Sessions that were begun with the password alone end.
                sessions::end_others(connection, account, Some(&token)).map_err(as_register)?;
            }
            Ok((codes, second_factor::unconfirmed(connection, account, &called).map_err(as_register)?))
        })
        .await?;
    match (codes, fresh) {
        (Some(codes), _) => {
            office.attempts.was_right(Tried::Code, &name, origin);
            frame::note(&office, &own.user, "set up a second factor", "").await?;
            codes_page(&own.user, "The second factor is set up", &codes)
        }
        (None, Some(fresh)) => {
            let words = "That is not the code of this moment. Is the telephone's clock right? Type the next one it shows.";
            set_up_page(StatusCode::UNPROCESSABLE_ENTITY, &own.user, &fresh, Some(words))
        }
        (None, None) => {
            Err(Refused::BadForm("Nothing waits to be set up. Begin on your own page.".to_owned()))
        }
    }
}

fn codes_page(user: &OfficeUser, title: &str, codes: &[String]) -> Result<Response, Refused> {
    let body = html! {
        h1 { (title) }
        p.lead { "These recovery codes let you in when the telephone is lost, each once. They are shown this once and kept nowhere here as they are: write them down, and not beside the telephone." }
        ol.plain.split.letters { @for code in codes { li { code { (code) } } } }
        p.no-print { a.key href="/office/own" { "I have them" } }
    };
    Ok(frame::page(user, title, Place::Accounts, body))
}

/// `POST /office/own/second-factor/codes`: issues new recovery codes.
pub async fn renew_codes(
    State(office): State<Arc<Office>>,
    OwnCsrfForm { own, form }: OwnCsrfForm<WithPassword>,
) -> Result<Response, Refused> {
    held_to_password(&office, &own, &form.password).await?;
    let account = own.account;
    let mut randomness = SystemRandomness::new().map_err(Refused::failed)?;
    let codes = office
        .on_database(move |database| {
            let connection = database.connection_mut();
            if second_factor::standing(connection, account).map_err(as_register)?.since.is_none() {
                return Ok(None);
            }
            second_factor::renew_codes(connection, account, &mut randomness).map(Some).map_err(as_register)
        })
        .await?;
    let codes = codes.ok_or_else(|| Refused::BadForm("There is no second factor yet.".to_owned()))?;
    frame::note(&office, &own.user, "made new recovery codes", "").await?;
    codes_page(&own.user, "New recovery codes", &codes)
}

/// `POST /office/own/second-factor/off`: removes the second factor.
pub async fn turn_off(
    State(office): State<Arc<Office>>,
    OwnCsrfForm { own, form }: OwnCsrfForm<WithCode>,
) -> Result<Response, Refused> {
    if office.on_database(|database| database.second_factor_required()).await? {
        let words = "Your organisation asks for a second factor. An administrator can reset it.";
        return Err(Refused::NotAllowed(words.to_owned()));
    }
    held_to_password(&office, &own, &form.password).await?;
    let origin = Origin::Session(sessions::counted_as(&own.token));
    let name = own.user.name.clone();
    office.attempts.begin(Tried::Code, &name, origin, Instant::now()).map_err(try_later)?;
    let (account, now) = (own.account, office.now());
    let off = office
        .on_database(move |database| {
            let connection = database.connection_mut();
            let taken = second_factor::take(connection, account, &form.code, now).map_err(as_register)?;
            if taken.is_some() {
                second_factor::remove(connection, account).map_err(as_register)?;
            }
            Ok(taken.is_some())
        })
        .await?;
    if !off {
        frame::note(&office, &own.user, "gave a wrong code on their own page", "").await?;
        return Err(Refused::BadForm("This code is wrong, or was used already.".to_owned()));
    }
    office.attempts.was_right(Tried::Code, &name, origin);
    frame::note(&office, &own.user, "turned their second factor off", "").await?;
    done(&own.user, "The second factor is off", "Your password alone opens this account now.")
}
