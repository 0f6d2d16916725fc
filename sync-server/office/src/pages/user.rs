//! Who is asking for a page: the session's cookie read, the role held to, forms checked for having been
//! sent from a page of ours (`form_check`).
//!
//! A handler that takes a [`OfficeUser`] is for accounts that may read, one that takes [`Allowed`] for those with
//! another right; one that takes a [`RecordViewer`] must still say which visit it is about before it gets the user
//! out. A handler that changes something takes [`CsrfForm`] with the right it asks for; who leaves the right out asks
//! for the most. What is a person's own (password, second factor) takes [`Own`] and [`OwnCsrfForm`]. None of
//! these can be had without the check, so none can be forgotten.

use std::marker::PhantomData;
use std::sync::Arc;

use axum::extract::{FromRequest, FromRequestParts, Request};
use axum::http::Method;
use axum::http::request::Parts;
use farsiding_core::ids::VisitId;
use serde::de::DeserializeOwned;

use super::cookies::token_of;
use super::form_check::{Token, checked_form};
use super::refused::Refused;
use crate::accounts::audit;
use crate::accounts::roles::{AccountRole, Right};
use crate::accounts::sessions::{self, Holder};
use crate::audit_chain::Looked;
use crate::database_error::DatabaseError;
use crate::state::{Office, REFRESHING_HEADER};

/// A signed-in person.
#[derive(Debug, Clone)]
pub struct OfficeUser {
    /// The account's name, or for whom the link was made.
    pub name: String,
    /// The account's role; nothing for an inspector with a link to one visit.
    pub role: Option<AccountRole>,
    /// The token their forms carry.
    pub csrf: String,
    /// What the page carries so that it can bring itself up to date; empty where no page is asked for.
    pub refresh: String,
    /// Whether a page this server rendered asked, to be up to date: it was noted when a person opened it.
    refreshes: bool,
}

/// Somebody signed in who may be anybody: the visit decides.
#[derive(Debug, Clone)]
pub struct RecordViewer {
    user: OfficeUser,
    only: Option<Vec<VisitId>>,
}

/// A right as a type, so that a handler's head says what it asks for.
pub trait Needs: Send {
    /// The right.
    const RIGHT: Right;
}

/// Asks for the right to put things in.
#[derive(Debug)]
pub struct Records;
/// Asks for the right to settle.
#[derive(Debug)]
pub struct Settles;
/// Asks for the right to administer.
#[derive(Debug)]
pub struct Administers;

impl Needs for Records {
    const RIGHT: Right = Right::Record;
}
impl Needs for Settles {
    const RIGHT: Right = Right::Settle;
}
impl Needs for Administers {
    const RIGHT: Right = Right::Administer;
}

/// A signed-in person who has the right `R`.
#[derive(Debug)]
pub struct Allowed<R> {
    /// Who.
    pub user: OfficeUser,
    right: PhantomData<R>,
}

/// A form sent from a page of ours by somebody signed in who has the right `R`.
#[derive(Debug)]
pub struct CsrfForm<T, R = Administers> {
    /// Who sent it.
    pub user: OfficeUser,
    /// What it holds.
    pub form: T,
    right: PhantomData<R>,
}

/// A person with an account at what is their own: open also while a second factor must be set up first.
#[derive(Debug)]
pub struct Own {
    /// Who.
    pub user: OfficeUser,
    /// The account's row.
    pub account: i64,
    /// The session's token.
    pub token: String,
    /// Whether a second factor must be set up before anything else.
    pub factor_missing: bool,
}

/// A form about what is the sender's own.
#[derive(Debug)]
pub struct OwnCsrfForm<T> {
    /// Who sent it.
    pub own: Own,
    /// What it holds.
    pub form: T,
}

/// A form anybody signed in may send: only to sign out.
#[derive(Debug)]
pub struct SignOutForm {
    /// The session's token.
    pub token: String,
    /// Who goes.
    pub user: OfficeUser,
}

impl OfficeUser {
    /// Whether it is somebody of the office, with an account.
    pub fn is_office(&self) -> bool {
        self.role.is_some()
    }

    /// Whether they have a right. An inspector with a link has none: what they may read is the link's one visit.
    pub fn may(&self, right: Right) -> bool {
        self.role.is_some_and(|role| role.may(right))
    }

    /// What the audit calls them.
    fn role_word(&self) -> &'static str {
        self.role.map_or("inspector", AccountRole::as_str)
    }

    fn with(self, right: Right) -> Result<OfficeUser, Refused> {
        match self.role {
            Some(role) if role.may(right) => Ok(self),
            Some(_) => Err(Refused::NoRight(right)),
            None => Err(Refused::NotYours),
        }
    }
}

impl RecordViewer {
    /// The user, when they may read a record of these visits: an inspector only one of nothing but visits
    /// that the link opened when it was made, the one it is for among them.
    ///
    /// # Errors
    /// [`Refused::NotYours`].
    pub fn of(self, visits: &[VisitId]) -> Result<OfficeUser, Refused> {
        match &self.only {
            None => Ok(self.user),
            Some(only) => {
                let first = only.first().is_some_and(|first| visits.contains(first));
                let all = visits.iter().all(|visit| only.contains(visit));
                if first && all { Ok(self.user) } else { Err(Refused::NotYours) }
            }
        }
    }

    /// The visits an inspector may read, the one the link is for first; nothing for the office, which may
    /// read all.
    pub fn only(&self) -> Option<&[VisitId]> {
        self.only.as_deref()
    }
}

/// Who asks, whatever they may do.
struct Asker {
    user: OfficeUser,
    /// The one visit a link opens.
    only: Option<Vec<VisitId>>,
    /// The account's row, and whether it must set up a second factor first.
    account: Option<(i64, bool)>,
    token: String,
}

async fn asker_of(parts: &Parts, office: &Office) -> Result<Asker, Refused> {
    let address = parts.uri.path_and_query().map_or_else(String::new, ToString::to_string);
    let is_get = parts.method == Method::GET;
    // Only a page may ask by itself; whatever changes something was sent by a person, and is noted.
    let sent = parts.headers.get(REFRESHING_HEADER).filter(|_| is_get).map(|value| value.to_str());
    let by_itself = sent.is_some();
    let sign_in = || match by_itself {
        true => Refused::Over,
        false => Refused::SignIn { to: if is_get { address.clone() } else { String::new() } },
    };
    let token = token_of(&parts.headers, office.secure).ok_or_else(sign_in)?;
    let (asked, now) = (token.clone(), office.now());
    let holder = office
        .on_database(move |database| {
            sessions::holder(database.connection(), &asked, now, !by_itself).map_err(as_register)
        })
        .await?
        .ok_or_else(sign_in)?;
    let sent = sent.and_then(Result::ok);
    let refreshes = sent.filter(|sent| office.refreshing.is_good(sent, &token, &address, now));
    let user = |name, role| OfficeUser {
        name,
        role,
        csrf: sessions::form_token(&token),
        // One that is still good is handed on as it is: it ends an hour after a person looked.
        refresh: match refreshes {
            Some(sent) => sent.to_owned(),
            None if is_get => office.refreshing.token(&token, &address, now),
            None => String::new(),
        },
        refreshes: refreshes.is_some(),
    };
    let (user, only, account) = match holder {
        Holder::Account { role: None, .. } => return Err(Refused::NotYours),
        Holder::Account { name, role, number, factor_missing } => {
            (user(name, role), None, Some((number, factor_missing)))
        }
        Holder::Link { label, visits, .. } => (user(label, None), Some(visits), None),
    };
    Ok(Asker { user, only, account, token })
}

async fn reader_of(parts: &Parts, office: &Office) -> Result<(RecordViewer, String), Refused> {
    let Asker { user, only, account, token } = asker_of(parts, office).await?;
    if account.is_some_and(|(_, factor_missing)| factor_missing) {
        let by_itself = parts.headers.contains_key(REFRESHING_HEADER);
        return Err(if by_itself { Refused::Over } else { Refused::FactorFirst });
    }
    if only.is_none() && !user.may(Right::Read) {
        return Err(Refused::NoRight(Right::Read));
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
    type Rejection = Refused;

    async fn from_request_parts(parts: &mut Parts, office: &Arc<Office>) -> Result<Self, Refused> {
        Ok(reader_of(parts, office).await?.0)
    }
}

impl FromRequestParts<Arc<Office>> for OfficeUser {
    type Rejection = Refused;

    async fn from_request_parts(parts: &mut Parts, office: &Arc<Office>) -> Result<Self, Refused> {
        reader_of(parts, office).await?.0.user.with(Right::Read)
    }
}

impl<R: Needs> FromRequestParts<Arc<Office>> for Allowed<R> {
    type Rejection = Refused;

    async fn from_request_parts(parts: &mut Parts, office: &Arc<Office>) -> Result<Self, Refused> {
        let user = reader_of(parts, office).await?.0.user.with(R::RIGHT)?;
        Ok(Allowed { user, right: PhantomData })
    }
}

impl FromRequestParts<Arc<Office>> for Own {
    type Rejection = Refused;

    async fn from_request_parts(parts: &mut Parts, office: &Arc<Office>) -> Result<Self, Refused> {
        let Asker { user, account, token, .. } = asker_of(parts, office).await?;
        let (account, factor_missing) = account.ok_or(Refused::NotYours)?;
        Ok(Own { user, account, token, factor_missing })
    }
}

impl<T: DeserializeOwned + Send, R: Needs> FromRequest<Arc<Office>> for CsrfForm<T, R> {
    type Rejection = Refused;

    async fn from_request(request: Request, office: &Arc<Office>) -> Result<Self, Refused> {
        let (mut parts, body) = request.into_parts();
        let Allowed::<R> { user, right } = Allowed::from_request_parts(&mut parts, office).await?;
        let form = checked_form(Request::from_parts(parts, body), &user.csrf, office).await?;
        Ok(CsrfForm { user, form, right })
    }
}

impl<T: DeserializeOwned + Send> FromRequest<Arc<Office>> for OwnCsrfForm<T> {
    type Rejection = Refused;

    async fn from_request(request: Request, office: &Arc<Office>) -> Result<Self, Refused> {
        let (mut parts, body) = request.into_parts();
        let own = Own::from_request_parts(&mut parts, office).await?;
        let form = checked_form(Request::from_parts(parts, body), &own.user.csrf, office).await?;
        Ok(OwnCsrfForm { own, form })
    }
}

impl FromRequest<Arc<Office>> for SignOutForm {
    type Rejection = Refused;

    async fn from_request(request: Request, office: &Arc<Office>) -> Result<Self, Refused> {
        let (parts, body) = request.into_parts();
        let Asker { user, token, .. } = asker_of(&parts, office).await?;
        let _: Token = checked_form(Request::from_parts(parts, body), &user.csrf, office).await?;
        Ok(SignOutForm { token, user })
    }
}

/// Notes in the audit what a user looked at or did. A page that brings itself up to date was noted when a person
/// opened it; whether it is one, the server decides (`refreshing`).
///
/// # Errors
/// [`Refused::Failed`]: what cannot be noted is not shown.
pub async fn note(office: &Office, user: &OfficeUser, did: &str, subject: &str) -> Result<(), Refused> {
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
