//! The page of a person's own account: its rights, its language, its password and its second factor.
//!
//! The page is open to everybody with an account, even while a required second factor is not set up yet.
//! Every change but that of the language asks for the password again, so that an unattended screen is not
//! enough.

use std::sync::Arc;
use std::time::Instant;

use axum::extract::State;
use axum::http::{StatusCode, header};
use axum::response::Response;
use farsiding_core::{Arg, Message, message};
use farsiding_words::Language;
use maud::{Markup, html};
use serde::Deserialize;

use super::cookies::language_cookie;
use super::devices::picture;
use super::frame::{self, OfficeUser, Place, csrf, in_utc};
use super::page_error::PageError;
use super::reader::{offered, own_name};
use super::sign_in::{password_fits, see_other};
use super::user::{Own, OwnCsrfForm, as_register};
use crate::accounts::attempts::{Origin, Tried};
use crate::accounts::roles::Right;
use crate::accounts::second_factor::{self, Fresh, Standing};
use crate::accounts::{AccountError, passwords, people, sessions};
use crate::language::of_organisation;
use crate::state::Office;
use farsiding_host::SystemRandomness;

/// `GET /office/own`: shows the person's account.
pub async fn show(State(office): State<Arc<Office>>, own: Own) -> Result<Response, PageError> {
    let (account, now) = (own.account, office.now());
    let (standing, required, open, language, organisation) = office
        .on_database(move |database| {
            let connection = database.connection();
            Ok((
                second_factor::standing(connection, account).map_err(as_register)?,
                database.second_factor_required()?,
                sessions::open_of(connection, account, now).map_err(as_register)?,
                people::by_number(connection, account).map_err(as_register)?.and_then(|(a, _)| a.language),
                of_organisation(database)?,
            ))
        })
        .await?;
    let user = &own.user;
    let w = user.words;
    let body = html! {
        h1 { (user.name) }
        @if let Some(role) = user.role {
            p.lead { (w.text(&message!("office-own-role", role = role.term(), allows = role.allows()))) }
        }
        @if own.factor_missing {
            p.told role="status" { (w.say("office-own-factor-missing")) }
        }
        @if user.may(Right::Administer) && !own.factor_missing {
            div.row.no-print {
                a.key href="/office/accounts" { (w.say("office-accounts-title")) }
                a.key href="/office/audit" { (w.say("office-accounts-audit")) }
                a.key href="/office/state" { (w.say("office-accounts-state")) }
            }
        }
        div.two.even {
            section { h2 { (w.say("office-own-factor")) } (factor(user, standing, required)) }
            section { h2 { (w.say("office-own-password")) } (password_form(user, open)) }
            section { h2 { (w.say("office-own-language")) } (language_form(user, language, organisation)) }
        }
    };
    Ok(frame::page(user, &w.say("office-own-title"), Place::Accounts, body))
}

fn language_form(user: &OfficeUser, chosen: Option<Language>, organisation: Language) -> Markup {
    let w = user.words;
    let theirs = Arg::typed(own_name(organisation));
    html! {
        form.stack method="post" action="/office/own/language" {
            (csrf(user))
            label for="language" { (w.say("office-own-language-label")) }
            select.field id="language" name="language" {
                option value="" selected[chosen.is_none()] { (w.text(&message!("office-own-language-organisation", language = theirs))) }
                @for language in Language::all() {
                    option value=(language) lang=(language) selected[chosen == Some(language)] { (own_name(language)) }
                }
            }
            button.go type="submit" { (w.say("office-own-language-keep")) }
        }
    }
}

fn password_field(id: &str, label: &str, auto: &str) -> Markup {
    html! {
        label for=(id) { (label) }
        input.field id=(id) type="password" name="password" autocomplete=(auto) maxlength="256" required;
    }
}

fn factor(user: &OfficeUser, standing: Standing, required: bool) -> Markup {
    let w = user.words;
    let left = w.text(&message!("office-own-codes-left", count = standing.codes_left));
    let your_password = w.say("office-own-your-password");
    html! {
        @match standing.since {
            None => {
                p { (w.say("office-own-factor-lead")) }
                form.stack method="post" action="/office/own/second-factor" {
                    (csrf(user))
                    (password_field("set-up-password", &your_password, "current-password"))
                    button.go type="submit" { (w.say("office-own-factor-set-up")) }
                }
            }
            Some(since) => {
                p { (w.text(&message!("office-own-factor-since", time = Arg::typed(in_utc(since))))) }
                @if standing.codes_left < 3 {
                    p.trouble role="status" { (left) " " (w.say("office-own-codes-few")) }
                } @else {
                    p { (left) }
                }
                details {
                    summary { (w.say("office-own-codes-new")) }
                    form.stack method="post" action="/office/own/second-factor/codes" {
                        (csrf(user))
                        p.small { (w.say("office-own-codes-note")) }
                        (password_field("codes-password", &your_password, "current-password"))
                        button.key type="submit" { (w.say("office-own-codes-make")) }
                    }
                }
                @if required {
                    p.small { (w.say("office-own-factor-required")) }
                } @else {
                    details {
                        summary { (w.say("office-own-factor-off-or")) }
                        form.stack method="post" action="/office/own/second-factor/off" {
                            (csrf(user))
                            (password_field("off-password", &your_password, "current-password"))
                            label for="off-code" { (w.say("office-own-factor-off-code")) }
                            input.field id="off-code" name="code" autocomplete="one-time-code" maxlength="40" required;
                            button.key.stop type="submit" { (w.say("office-own-factor-turn-off")) }
                        }
                    }
                }
            }
        }
    }
}

fn password_form(user: &OfficeUser, open: usize) -> Markup {
    let w = user.words;
    html! {
        form.stack method="post" action="/office/own/password" {
            (csrf(user))
            (password_field("old", &w.say("office-own-password-old"), "current-password"))
            label for="fresh" { (w.text(&message!("office-own-password-new", count = passwords::SHORTEST))) }
            input.field id="fresh" type="password" name="fresh" autocomplete="new-password" minlength=(passwords::SHORTEST) maxlength=(passwords::LONGEST) required;
            label for="again" { (w.say("office-own-password-again")) }
            input.field id="again" type="password" name="again" autocomplete="new-password" minlength=(passwords::SHORTEST) maxlength=(passwords::LONGEST) required;
            button.go type="submit" { (w.say("office-own-password-change")) }
        }
        p.small {
            (w.say("office-own-password-note"))
            @if open > 1 { " " (w.text(&message!("office-own-password-others", count = open - 1))) }
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

fn try_later(wait: std::time::Duration) -> PageError {
    PageError::NotAllowed(message!("office-sign-in-wait", count = wait.as_secs() + 1))
}

/// Checks the password of a signed-in person.
async fn held_to_password(office: &Office, own: &Own, password: &str) -> Result<(), PageError> {
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
            Err(PageError::BadForm(message!("office-own-password-wrong")))
        }
        None => Err(PageError::NotAllowed(message!("office-sign-in-many"))),
    }
}

/// `POST /office/own/password`: checks the old password, sets the new one and ends the other sessions.
pub async fn change_password(
    State(office): State<Arc<Office>>,
    OwnCsrfForm { own, form }: OwnCsrfForm<NewPassword>,
) -> Result<Response, PageError> {
    if form.fresh != form.again {
        return Err(PageError::BadForm(message!("office-own-password-differ")));
    }
    if form.fresh == form.password {
        return Err(PageError::BadForm(message!("office-own-password-same")));
    }
    held_to_password(&office, &own, &form.password).await?;
    let mut randomness = SystemRandomness::new().map_err(PageError::failed)?;
    let hashed = tokio::task::spawn_blocking(move || passwords::hash(&form.fresh, &mut randomness));
    let hashed = hashed.await.map_err(PageError::failed)?.map_err(|error| match error {
        AccountError::BadPassword => PageError::BadForm(message!(
            "office-own-password-length",
            shortest = passwords::SHORTEST,
            longest = passwords::LONGEST,
        )),
        other => PageError::failed(other),
    })?;
    let (account, token) = (own.account, own.token.clone());
    office
        .on_database(move |database| {
            people::put_password(database.connection_mut(), account, &hashed, Some(&token))
                .map_err(as_register)
        })
        .await?;
    frame::note(&office, &own.user, "changed their password", "").await?;
    done(&own.user, "office-own-password-changed", "office-own-password-signed-out")
}

/// Returns the page that says that something is done: the ids of its title and of what it says.
fn done(user: &OfficeUser, title: &str, says: &str) -> Result<Response, PageError> {
    let w = user.words;
    let title = w.say(title);
    let body = html! {
        h1 { (title) }
        p.lead { (w.say(says)) }
        p { a.key href="/office/own" { (w.say("office-own-back")) } }
    };
    Ok(frame::page(user, &title, Place::Accounts, body))
}

/// The form with the language in which the person reads the pages; empty means the organisation's.
#[derive(Debug, Deserialize)]
pub struct ChosenLanguage {
    #[serde(default)]
    language: String,
}

/// `POST /office/own/language`: sets the language in which the person reads the pages.
pub async fn change_language(
    State(office): State<Arc<Office>>,
    OwnCsrfForm { own, form }: OwnCsrfForm<ChosenLanguage>,
) -> Result<Response, PageError> {
    let language = match form.language.as_str() {
        "" => None,
        tag => Some(offered(tag)?),
    };
    frame::note(&office, &own.user, "chose a language", "").await?;
    let name = own.user.name.clone();
    let organisation = office
        .on_database(move |database| {
            people::change_language(database.connection(), &name, language).map_err(as_register)?;
            of_organisation(database)
        })
        .await?;
    let mut response = see_other("/office/own");
    let cookie = language_cookie(language.unwrap_or(organisation), office.secure);
    response.headers_mut().append(header::SET_COOKIE, cookie);
    Ok(response)
}

/// `POST /office/own/second-factor`: shows a new secret.
pub async fn begin_factor(
    State(office): State<Arc<Office>>,
    OwnCsrfForm { own, form }: OwnCsrfForm<WithPassword>,
) -> Result<Response, PageError> {
    held_to_password(&office, &own, &form.password).await?;
    let (account, name, now) = (own.account, own.user.name.clone(), office.now());
    let mut randomness = SystemRandomness::new().map_err(PageError::failed)?;
    let fresh = office
        .on_database(move |database| {
            match second_factor::begin(database.connection(), (account, &name), now, &mut randomness) {
                Err(AccountError::FactorExists) => Ok(Err(message!("office-own-factor-exists"))),
                Err(AccountError::Factor(why)) => {
                    Ok(Err(message!("office-own-factor-failed", why = Arg::typed(why))))
                }
                other => other.map(Ok).map_err(as_register),
            }
        })
        .await?;
    let fresh = fresh.map_err(PageError::NotAllowed)?;
    set_up_page(StatusCode::OK, &own.user, &fresh, None)
}

fn set_up_page(
    status: StatusCode,
    user: &OfficeUser,
    fresh: &Fresh,
    trouble: Option<&Message>,
) -> Result<Response, PageError> {
    let pieces: Vec<&str> = (0..fresh.letters.len())
        .step_by(4)
        .filter_map(|at| fresh.letters.get(at..(at + 4).min(fresh.letters.len())))
        .collect();
    let w = user.words;
    let title = w.say("office-own-factor-title");
    let body = html! {
        h1 { (title) }
        @if let Some(trouble) = trouble { p.trouble role="alert" { (w.text(trouble)) } }
        div.two {
            (picture(w, &fresh.address)?)
            div {
                p.lead { (w.say("office-own-factor-how")) }
                p.letters { code { (pieces.join(" ")) } }
                form.stack method="post" action="/office/own/second-factor/confirm" {
                    (csrf(user))
                    label for="code" { (w.say("office-own-factor-code")) }
                    input.field id="code" name="code" inputmode="numeric" autocomplete="one-time-code" maxlength="8" required autofocus;
                    button.go type="submit" { (w.say("office-own-factor-works")) }
                }
                p.small { (w.say("office-own-factor-until")) }
            }
        }
    };
    Ok(frame::page_with(status, user, &title, Place::Accounts, body))
}

/// `POST /office/own/second-factor/confirm`: checks the first code and shows the recovery codes once.
pub async fn confirm_factor(
    State(office): State<Arc<Office>>,
    OwnCsrfForm { own, form }: OwnCsrfForm<WithCode>,
) -> Result<Response, PageError> {
    let origin = Origin::Session(sessions::counted_as(&own.token));
    let name = own.user.name.clone();
    office.attempts.begin(Tried::Code, &name, origin, Instant::now()).map_err(try_later)?;
    let token = own.token.clone();
    let (account, called, now) = (own.account, name.clone(), office.now());
    let mut randomness = SystemRandomness::new().map_err(PageError::failed)?;
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
            codes_page(&own.user, "office-own-factor-done", &codes)
        }
        (None, Some(fresh)) => {
            let says = message!("office-own-factor-not-now");
            set_up_page(StatusCode::UNPROCESSABLE_ENTITY, &own.user, &fresh, Some(&says))
        }
        (None, None) => Err(PageError::BadForm(message!("office-own-factor-none-begun"))),
    }
}

fn codes_page(user: &OfficeUser, title: &str, codes: &[String]) -> Result<Response, PageError> {
    let w = user.words;
    let title = w.say(title);
    let body = html! {
        h1 { (title) }
        p.lead { (w.say("office-own-codes-lead")) }
        ol.plain.split.letters { @for code in codes { li { code { (code) } } } }
        p.no-print { a.key href="/office/own" { (w.say("office-own-codes-have")) } }
    };
    Ok(frame::page(user, &title, Place::Accounts, body))
}

/// `POST /office/own/second-factor/codes`: issues new recovery codes.
pub async fn renew_codes(
    State(office): State<Arc<Office>>,
    OwnCsrfForm { own, form }: OwnCsrfForm<WithPassword>,
) -> Result<Response, PageError> {
    held_to_password(&office, &own, &form.password).await?;
    let account = own.account;
    let mut randomness = SystemRandomness::new().map_err(PageError::failed)?;
    let codes = office
        .on_database(move |database| {
            let connection = database.connection_mut();
            if second_factor::standing(connection, account).map_err(as_register)?.since.is_none() {
                return Ok(None);
            }
            second_factor::renew_codes(connection, account, &mut randomness).map(Some).map_err(as_register)
        })
        .await?;
    let codes = codes.ok_or_else(|| PageError::BadForm(message!("office-own-factor-none")))?;
    frame::note(&office, &own.user, "made new recovery codes", "").await?;
    codes_page(&own.user, "office-own-codes-new", &codes)
}

/// `POST /office/own/second-factor/off`: removes the second factor.
pub async fn turn_off(
    State(office): State<Arc<Office>>,
    OwnCsrfForm { own, form }: OwnCsrfForm<WithCode>,
) -> Result<Response, PageError> {
    if office.on_database(|database| database.second_factor_required()).await? {
        return Err(PageError::NotAllowed(message!("office-own-factor-kept")));
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
        return Err(PageError::BadForm(message!("office-own-code-wrong")));
    }
    office.attempts.was_right(Tried::Code, &name, origin);
    frame::note(&office, &own.user, "turned their second factor off", "").await?;
    done(&own.user, "office-own-factor-is-off", "office-own-factor-password-alone")
}
