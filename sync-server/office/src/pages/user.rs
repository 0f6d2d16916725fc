//! Who asks for a page. Reads the session cookie, checks the right that the page needs, and checks that forms
//! were sent from the office's own pages (`form_check`).
//!
//! The argument types of a handler state what it needs. A [`OfficeUser`] is an account that may read, and
//! [`Allowed`] is an account with another right. A [`RecordViewer`] gives up its user only for a named visit,
//! and so also serves inspectors. A handler that changes something takes [`CsrfForm`] with the right it needs;
//! if no right is named, the highest is required. A person's own password and second factor use [`Own`] and
//! [`OwnCsrfForm`]. None of these values exists without its check, so no check can be forgotten.

use std::marker::PhantomData;
use std::sync::Arc;

use axum::extract::{FromRequest, FromRequestParts, Request};
use axum::http::Method;
use axum::http::request::Parts;
use farsiding_core::ids::VisitId;
use farsiding_words::Words;
use serde::de::DeserializeOwned;

use super::cookies::token_of;
use super::form_check::{Token, checked_form};
use super::page_error::PageError;
use super::reader::{self, Reader};
use crate::accounts::audit;
use crate::accounts::roles::{AccountRole, Right};
use crate::accounts::sessions::{self, Principal};
use crate::audit_chain::Looked;
use crate::database_error::DatabaseError;
use crate::language::organisation_words;
use crate::state::{Office, REFRESHING_HEADER};

/// A signed-in person.
#[derive(Debug, Clone)]
pub struct OfficeUser {
    /// The account's name, or the person for whom the link was made.
    pub name: String,
    /// The account's role; `None` for an inspector with a link to one visit.
    pub role: Option<AccountRole>,
    /// The words of the language in which the person reads the pages.
    pub words: &'static Words,
    /// The token that the person's forms carry.
    pub csrf: String,
    /// The token by which the page refreshes itself; empty if no page is requested.
    pub refresh: String,
    /// Whether this request is an automatic refresh by a page that this server rendered. Opening that page
    /// was written to the audit already.
    refreshes: bool,
}

/// A signed-in person, possibly an inspector. The visit decides whether the person may read it.
#[derive(Debug, Clone)]
pub struct RecordViewer {
    user: OfficeUser,
    only: Option<Vec<VisitId>>,
}

/// A right as a type, so that the signature of a handler names the right it needs.
pub trait Needs: Send {
    /// The right.
    const RIGHT: Right;
}

/// Requires the right to enter data.
#[derive(Debug)]
pub struct Records;
/// Requires the right to settle.
#[derive(Debug)]
pub struct Settles;
/// Requires the right to change and publish procedures.
#[derive(Debug)]
pub struct Publishes;
/// Requires the right to administer.
#[derive(Debug)]
pub struct Administers;

impl Needs for Records {
    const RIGHT: Right = Right::Record;
}
impl Needs for Settles {
    const RIGHT: Right = Right::Settle;
}
impl Needs for Publishes {
    const RIGHT: Right = Right::Publish;
}
impl Needs for Administers {
    const RIGHT: Right = Right::Administer;
}

/// A signed-in person with the right `R`.
#[derive(Debug)]
pub struct Allowed<R> {
    /// The person.
    pub user: OfficeUser,
    right: PhantomData<R>,
}

/// A form sent from one of our pages by a signed-in person with the right `R`.
#[derive(Debug)]
pub struct CsrfForm<T, R = Administers> {
    /// The person who sent the form.
    pub user: OfficeUser,
    /// The content of the form.
    pub form: T,
    right: PhantomData<R>,
}

/// A person with an account, on pages about that account. These pages are open even while a second factor
/// must be set up first.
#[derive(Debug)]
pub struct Own {
    /// The person.
    pub user: OfficeUser,
    /// The number of the account's row.
    pub account: i64,
    /// The session's token.
    pub token: String,
    /// Whether a second factor must be set up before anything else.
    pub factor_missing: bool,
}

/// A form about the sender's own account.
#[derive(Debug)]
pub struct OwnCsrfForm<T> {
    /// The person who sent the form.
    pub own: Own,
    /// The content of the form.
    pub form: T,
}

/// A form that any signed-in person may send, used only for signing out.
#[derive(Debug)]
pub struct SignOutForm {
    /// The session's token.
    pub token: String,
    /// The person who signs out.
    pub user: OfficeUser,
}

impl OfficeUser {
    /// Returns whether the person has an account at the office.
    pub fn is_office(&self) -> bool {
        self.role.is_some()
    }

    /// Returns whether the person has a right. An inspector with a link has none, because the link gives
    /// access to one visit only.
    pub fn may(&self, right: Right) -> bool {
        self.role.is_some_and(|role| role.may(right))
    }

    /// Returns the word for the person's role in the audit.
    fn role_word(&self) -> &'static str {
        self.role.map_or("inspector", AccountRole::as_str)
    }

    fn with(self, right: Right) -> Result<OfficeUser, PageError> {
        match self.role {
            Some(role) if role.may(right) => Ok(self),
            Some(_) => Err(PageError::NoRight(right)),
            None => Err(PageError::NotYours),
        }
    }
}

impl RecordViewer {
    /// Returns the user if the person may read a record of these visits. An inspector may read a record
    /// only if the link opens all its visits and the visit that the link was made for is among them.
    ///
    /// # Errors
    /// Returns [`PageError::NotYours`] when the person may not read the record.
    pub fn of(self, visits: &[VisitId]) -> Result<OfficeUser, PageError> {
        match &self.only {
            None => Ok(self.user),
            Some(only) => {
                let first = only.first().is_some_and(|first| visits.contains(first));
                let all = visits.iter().all(|visit| only.contains(visit));
                if first && all { Ok(self.user) } else { Err(PageError::NotYours) }
            }
        }
    }

    /// Returns the visits an inspector may read, first the one that the link was made for. Returns `None` for
    /// the office, which may read all visits.
    pub fn only(&self) -> Option<&[VisitId]> {
        self.only.as_deref()
    }
}

/// The person who asks, before any right is checked.
struct Asker {
    user: OfficeUser,
    /// The visits that a link opens.
    only: Option<Vec<VisitId>>,
    /// The number of the account's row, and whether a second factor must be set up first.
    account: Option<(i64, bool)>,
    token: String,
}

async fn asker_of(parts: &Parts, office: &Office) -> Result<Asker, PageError> {
    let address = parts.uri.path_and_query().map_or_else(String::new, ToString::to_string);
    let is_get = parts.method == Method::GET;
    // Only a GET request can be an automatic refresh. Every change is made by a person and is written to the
    // audit.
    let sent = parts.headers.get(REFRESHING_HEADER).filter(|_| is_get).map(|value| value.to_str());
    let by_itself = sent.is_some();
    let sign_in = || match by_itself {
        true => PageError::Over,
        false => PageError::SignIn { to: if is_get { address.clone() } else { String::new() } },
    };
    let token = token_of(&parts.headers, office.secure).ok_or_else(sign_in)?;
    let (asked, now) = (token.clone(), office.now());
    let holder = office
        .on_database(move |database| {
            let holder = sessions::holder(database.connection(), &asked, now, !by_itself);
            let holder = holder.map_err(as_register)?;
            let words = match holder {
                Some(Principal::Account { language: Some(language), .. }) => Some(Words::of(language)),
                Some(Principal::Account { .. }) => Some(organisation_words(database)?),
                // Whoever has a link has no account in which a language could be kept.
                Some(Principal::Link { .. }) | None => None,
            };
            Ok(holder.map(|holder| (holder, words)))
        })
        .await?;
    let (holder, words) = holder.ok_or_else(sign_in)?;
    let words = match words {
        Some(words) => words,
        None => reader::words_of(&parts.headers, office).await,
    };
    Reader::reads(parts, words);
    let sent = sent.and_then(Result::ok);
    let refreshes = sent.filter(|sent| office.refreshing.is_good(sent, &token, &address, now));
    let user = |name, role| OfficeUser {
        name,
        role,
        words,
        csrf: sessions::form_token(&token),
        // A token that is still valid is reused unchanged, because it must expire an hour after a person
        // opened the page.
        refresh: match refreshes {
            Some(sent) => sent.to_owned(),
            None if is_get => office.refreshing.token(&token, &address, now),
            None => String::new(),
        },
        refreshes: refreshes.is_some(),
    };
    let (user, only, account) = match holder {
        Principal::Account { role: None, .. } => return Err(PageError::NotYours),
        Principal::Account { name, role, number, factor_missing, .. } => {
            (user(name, role), None, Some((number, factor_missing)))
        }
        Principal::Link { label, visits, .. } => (user(label, None), Some(visits), None),
    };
    Ok(Asker { user, only, account, token })
}

async fn reader_of(parts: &Parts, office: &Office) -> Result<(RecordViewer, String), PageError> {
    let Asker { user, only, account, token } = asker_of(parts, office).await?;
    if account.is_some_and(|(_, factor_missing)| factor_missing) {
        let by_itself = parts.headers.contains_key(REFRESHING_HEADER);
        return Err(if by_itself { PageError::Over } else { PageError::FactorFirst });
    }
    if only.is_none() && !user.may(Right::Read) {
        return Err(PageError::NoRight(Right::Read));
    }
    Ok((RecordViewer { user, only }, token))
}

pub(super) fn as_register(error: crate::accounts::AccountError) -> DatabaseError {
    match error {
        crate::accounts::AccountError::OfficeDatabase(error) => error,
        other => DatabaseError::Database(other.to_string()),
    }
}

impl FromRequestParts<Arc<Office>> for RecordViewer {
    type Rejection = PageError;

    async fn from_request_parts(parts: &mut Parts, office: &Arc<Office>) -> Result<Self, PageError> {
        Ok(reader_of(parts, office).await?.0)
    }
}

impl FromRequestParts<Arc<Office>> for OfficeUser {
    type Rejection = PageError;

    async fn from_request_parts(parts: &mut Parts, office: &Arc<Office>) -> Result<Self, PageError> {
        reader_of(parts, office).await?.0.user.with(Right::Read)
    }
}

impl<R: Needs> FromRequestParts<Arc<Office>> for Allowed<R> {
    type Rejection = PageError;

    async fn from_request_parts(parts: &mut Parts, office: &Arc<Office>) -> Result<Self, PageError> {
        let user = reader_of(parts, office).await?.0.user.with(R::RIGHT)?;
        Ok(Allowed { user, right: PhantomData })
    }
}

impl FromRequestParts<Arc<Office>> for Own {
    type Rejection = PageError;

    async fn from_request_parts(parts: &mut Parts, office: &Arc<Office>) -> Result<Self, PageError> {
        let Asker { user, account, token, .. } = asker_of(parts, office).await?;
        let (account, factor_missing) = account.ok_or(PageError::NotYours)?;
        Ok(Own { user, account, token, factor_missing })
    }
}

impl<T: DeserializeOwned + Send, R: Needs> FromRequest<Arc<Office>> for CsrfForm<T, R> {
    type Rejection = PageError;

    async fn from_request(request: Request, office: &Arc<Office>) -> Result<Self, PageError> {
        let (mut parts, body) = request.into_parts();
        let Allowed::<R> { user, right } = Allowed::from_request_parts(&mut parts, office).await?;
        let form = checked_form(Request::from_parts(parts, body), &user.csrf, office).await?;
        Ok(CsrfForm { user, form, right })
    }
}

impl<T: DeserializeOwned + Send> FromRequest<Arc<Office>> for OwnCsrfForm<T> {
    type Rejection = PageError;

    async fn from_request(request: Request, office: &Arc<Office>) -> Result<Self, PageError> {
        let (mut parts, body) = request.into_parts();
        let own = Own::from_request_parts(&mut parts, office).await?;
        let form = checked_form(Request::from_parts(parts, body), &own.user.csrf, office).await?;
        Ok(OwnCsrfForm { own, form })
    }
}

impl FromRequest<Arc<Office>> for SignOutForm {
    type Rejection = PageError;

    async fn from_request(request: Request, office: &Arc<Office>) -> Result<Self, PageError> {
        let (parts, body) = request.into_parts();
        let Asker { user, token, .. } = asker_of(&parts, office).await?;
        let _: Token = checked_form(Request::from_parts(parts, body), &user.csrf, office).await?;
        Ok(SignOutForm { token, user })
    }
}

/// Writes to the audit what a user looked at or did. An automatic refresh is not written, because a person
/// opened the page before; the server decides which requests are refreshes (`refreshing`).
///
/// # Errors
/// Returns [`PageError::Failed`]. The page is then not shown, because every access must be recorded.
pub async fn note(office: &Office, user: &OfficeUser, did: &str, subject: &str) -> Result<(), PageError> {
    if user.refreshes {
        return Ok(());
    }
    let row = Looked {
        at: office.now(),
        who: user.name.clone(),
        role: user.role_word().to_owned(),
        did: did.to_owned(),
        subject: subject.to_owned(),
    };
    office.on_database(move |database| audit::note(database.connection(), &row)).await?;
    Ok(())
}
