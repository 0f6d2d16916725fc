//! The page of procedures: which edition each site uses, every edition that the organisation published and those built
//! in, and the drafts. From here an edition is started, read and taken back.
//!
//! Editing is in `procedure_draft` and beside it. What a text says is decided in `farsiding_core::procedure`, and which
//! edition applies in `farsiding_core::view`.

use std::sync::{Arc, PoisonError};

use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::response::Response;
use farsiding_core::book::Draft;
use farsiding_core::entry::Statement;
use farsiding_core::ids::{Digest, OrganisationId, SiteId, Subject};
use farsiding_core::procedure::{BUILT_IN, EditedText, Procedure, built_in};
use farsiding_core::view::{Edition, Editions, SiteView, edition_changes, left_out_words};
use farsiding_core::{Arg, Joint, Message, message};
use farsiding_words::Words;
use maud::{Markup, html};
use serde::Deserialize;

use super::frame::{self, CsrfForm, OfficeUser, Place, Publishes, csrf, in_utc};
use super::page_error::PageError;
use super::paper_strip;
use super::procedure_preview::preview;
use super::sign_in::see_other;
use crate::accounts::roles::Right;
use crate::month;
use crate::office_signer;
use crate::procedure_drafts::{self, ProcedureDraft};
use crate::state::Office;

/// The address of the page.
pub const ADDRESS: &str = "/office/procedures";

/// Reads the editions and the sites.
pub async fn known(office: &Arc<Office>) -> Result<(Editions, Vec<SiteView>), PageError> {
    let now = office.now();
    let read = office.on_index(move |asking| {
        let editions = asking.at_one_moment(now, |around, _| Ok(around.editions().clone()))?;
        Ok((editions, month::sites_of(asking)?))
    });
    Ok(read.await?)
}

/// Returns the text of an edition, built in or published.
pub fn text_of(editions: &Editions, digest: Digest) -> Option<&str> {
    let own = BUILT_IN.into_iter().find(|text| Digest::of(text.as_bytes()) == digest);
    own.or_else(|| editions.text(digest))
}

/// Returns an edition, built in or published.
pub fn procedure_of(editions: &Editions, digest: Digest) -> Option<&Procedure> {
    built_in().iter().find(|known| known.digest == digest).or_else(|| editions.get(digest))
}

/// Returns the name of an edition with its title.
pub fn name_of(procedure: &Procedure) -> Message {
    message!("step-procedure", title = procedure.title.clone(), edition = Arg::typed(&procedure.edition))
}

/// Returns the name of an edition that may not be known here.
pub fn name_by_digest(editions: &Editions, digest: Digest) -> Message {
    procedure_of(editions, digest).map_or_else(|| Message::typed(digest.short().to_string()), name_of)
}

fn address_of(digest: Digest) -> String {
    format!("{ADDRESS}/editions/{digest}")
}

/// Returns the address of a draft.
pub fn address_of_draft(number: i64) -> String {
    format!("{ADDRESS}/drafts/{number}")
}

/// Returns the names of the sites of an edition.
pub fn sites_of(edition: &Edition, sites: &[SiteView]) -> Message {
    if edition.published.sites.is_empty() {
        return message!("log-all-sites");
    }
    let name = |site: &SiteId| {
        let known = sites.iter().find(|known| known.id == Some(*site) && !known.name.is_empty());
        Message::typed(known.map_or_else(|| site.short().to_string(), |known| known.name.clone()))
    };
    let names: Vec<Message> = edition.published.sites.iter().map(name).collect();
    Message::new("office-procedures-sites").with("sites", Arg::list(Joint::Comma, names))
}

/// `GET /office/procedures`: shows the editions, the sites and the drafts.
pub async fn show(State(office): State<Arc<Office>>, user: OfficeUser) -> Result<Response, PageError> {
    frame::note(&office, &user, "looked", "procedures").await?;
    let (editions, sites) = known(&office).await?;
    let drafts = office.on_database(|database| procedure_drafts::all(database.connection())).await?;
    let w = user.words;
    let may = user.may(Right::Publish);
    let default = built_in().last();
    let body = html! {
        h1 { (w.say("office-procedures-title")) }
        p.lead { (w.say("office-procedures-lead")) }
        (frame::behind(w, &office))
        section {
            h2 { (w.say("office-procedures-where")) }
            @if sites.is_empty() { p.none { (w.say("office-procedures-no-sites")) } } @else {
                div.wide tabindex="0" role="region" aria-label=(w.say("office-procedures-where")) { table {
                    thead { tr { th scope="col" { (w.say("office-procedures-site")) } th scope="col" { (w.say("office-procedures-new-stays")) } th.no-print scope="col" { (w.say("phone-strip-print")) } } }
                    tbody { @for site in &sites { @if let Some(id) = site.id {
                        @let here = editions.for_site(id).or(default);
                        tr { th scope="row" { @if site.name.is_empty() { (id.short()) } @else { (site.name) } } td { @if let Some(here) = here { a href=(address_of(here.digest)) { (w.text(&name_of(here))) } } } td.no-print { (paper_strip::keys(w, site)) } }
                    } } }
                } }
            }
        }
        @if may || !drafts.is_empty() { (drafts_list(w, &drafts, may)) }
        section {
            h2 { (w.say("office-procedures-editions")) }
            div.wide tabindex="0" role="region" aria-label=(w.say("office-procedures-editions")) { table.free {
                thead { tr { @for head in ["office-procedures-edition", "office-procedures-for", "office-procedures-published", "office-procedures-standing"] { th scope="col" { (w.say(head)) } } } }
                tbody {
                    @for edition in editions.iter().rev() { (edition_row(w, edition, &sites)) }
                    @for procedure in built_in().iter().rev() { tr {
                        th scope="row" { a href=(address_of(procedure.digest)) { (w.text(&name_of(procedure))) } }
                        td { (w.say("office-procedures-where-none")) } td { (w.say("office-procedures-built-in")) } td { @if Some(procedure.digest) == default.map(|default| default.digest) { (w.say("office-procedures-in-force")) } @else { (w.say("office-procedures-earlier")) } }
                    } }
                }
            } }
        }
        @if may { (start_form(&user, &editions)) }
    };
    Ok(frame::page(&user, &w.say("office-procedures-title"), Place::Procedures, body))
}

fn drafts_list(w: &Words, drafts: &[ProcedureDraft], may: bool) -> Markup {
    html! {
        section {
            h2 { (w.say("office-procedures-drafts")) }
            @if drafts.is_empty() { p.none { (w.say("office-procedures-no-drafts")) } }
            ul.plain.split { @for draft in drafts {
                @let name = EditedText::read(&draft.text).ok().and_then(|edited| edited.procedure().ok()).map_or_else(|| draft.number.to_string(), |procedure| w.text(&name_of(&procedure)));
                li {
                    @if may { a href=(address_of_draft(draft.number)) { b { (name) } } } @else { b { (name) } } br;
                    small { (w.text(&message!("office-procedures-changed-by", time = Arg::typed(in_utc(draft.changed_at)), by = Arg::typed(&draft.changed_by)))) }
                }
            } }
        }
    }
}

fn standing(edition: &Edition) -> Message {
    match (&edition.taken_back, &edition.procedure) {
        (Some(end), _) => message!(
            "office-procedures-taken-back",
            time = Arg::typed(in_utc(end.at)),
            by = Arg::typed(end.by.to_string()),
            because = Arg::typed(end.because.trim_end_matches('.')),
        ),
        (None, Err(why)) => message!("office-procedures-unusable", why = why.clone()),
        (None, Ok(_)) => message!("office-procedures-in-force"),
    }
}

fn edition_row(w: &Words, edition: &Edition, sites: &[SiteView]) -> Markup {
    let name = match &edition.procedure {
        Ok(procedure) => w.text(&name_of(procedure)),
        Err(_) => edition.digest.short().to_string(),
    };
    let published = message!(
        "office-procedures-published-by",
        time = Arg::typed(in_utc(edition.at)),
        by = Arg::typed(edition.by.to_string()),
    );
    let hot = edition.taken_back.is_some() || edition.procedure.is_err();
    html! { tr {
        th scope="row" { a href=(address_of(edition.digest)) { (name) } @if !edition.published.note.is_empty() { br; small { (edition.published.note) } } }
        td { (w.text(&sites_of(edition, sites))) }
        td { (w.text(&published)) }
        td { span.hot[hot] { (w.text(&standing(edition))) } }
    } }
}

fn start_form(user: &OfficeUser, editions: &Editions) -> Markup {
    let w = user.words;
    let own = editions.iter().rev().filter_map(|edition| edition.procedure.as_deref().ok());
    let ours = built_in().iter().rev().filter(|procedure| procedure.in_catalogues);
    html! {
        section.no-print {
            h2 { (w.say("office-procedures-start")) }
            form.stack method="post" action={ (ADDRESS) "/start" } {
                (csrf(user))
                label for="from" { (w.say("office-procedures-start-from")) }
                select.field id="from" name="from" { @for procedure in own.chain(ours) { option value=(procedure.digest) { (w.text(&name_of(procedure))) } } }
                button.go type="submit" { (w.say("office-procedures-start-it")) }
            }
        }
    }
}

/// The form that names an edition.
#[derive(Debug, Deserialize)]
pub struct From {
    from: String,
}

/// `POST /office/procedures/start`: starts a draft from an edition.
pub async fn start(
    State(office): State<Arc<Office>>,
    CsrfForm { user, form, .. }: CsrfForm<From, Publishes>,
) -> Result<Response, PageError> {
    let missing = || PageError::NotThere(message!("office-procedures-no-edition"));
    let digest = Digest::read(&form.from).map_err(|_| missing())?;
    let (editions, _) = known(&office).await?;
    let text = text_of(&editions, digest).ok_or_else(missing)?;
    let mut edited = EditedText::start(text).map_err(|error| PageError::NotAllowed(error.message()))?;
    let now = office.now();
    edited.name_edition(now.rfc3339().get(..10).unwrap_or("1"));
    let (text, by) = (edited.text(), user.name.clone());
    let number = office
        .on_database(move |database| {
            procedure_drafts::begin(database.connection(), (digest, &text), &by, now)
        })
        .await?;
    frame::note(&office, &user, "started a procedure", &format!("procedure:{digest}")).await?;
    Ok(see_other(&address_of_draft(number)))
}

/// `GET /office/procedures/editions/{digest}`: shows an edition.
pub async fn edition(
    State(office): State<Arc<Office>>,
    user: OfficeUser,
    Path(digest): Path<String>,
) -> Result<Response, PageError> {
    frame::note(&office, &user, "looked", &format!("procedure:{digest}")).await?;
    edition_page(&office, &user, &digest, None).await
}

async fn edition_page(
    office: &Arc<Office>,
    user: &OfficeUser,
    digest: &str,
    wrong: Option<(Message, &str)>,
) -> Result<Response, PageError> {
    let missing = || PageError::NotThere(message!("office-procedures-no-edition"));
    let digest = Digest::read(digest).map_err(|_| missing())?;
    let (editions, sites) = known(office).await?;
    let own = editions.edition(digest);
    let procedure = procedure_of(&editions, digest);
    if own.is_none() && procedure.is_none() {
        return Err(missing());
    }
    let w = user.words;
    let title = w.text(&name_by_digest(&editions, digest));
    let text = own.map(|own| own.published.text.as_str()).or_else(|| text_of(&editions, digest));
    let from = own.and_then(|own| own.published.from);
    let changes = from
        .and_then(|from| procedure_of(&editions, from))
        .zip(procedure)
        .map(|(from, own)| edition_changes(from, own));
    let body = html! {
        h1 { (title) }
        dl.facts {
            @if let Some(own) = own {
                dt { (w.say("office-procedures-standing")) } dd { span.hot[own.taken_back.is_some() || own.procedure.is_err()] { (w.text(&standing(own))) } }
                dt { (w.say("office-procedures-for")) } dd { (w.text(&sites_of(own, &sites))) }
                dt { (w.say("office-procedures-published")) } dd { (w.text(&message!("office-procedures-published-by", time = Arg::typed(in_utc(own.at)), by = Arg::typed(own.by.to_string())))) }
                @if let Some(from) = from { dt { (w.say("office-procedures-made-from")) } dd { a href=(address_of(from)) { (w.text(&name_by_digest(&editions, from))) } } }
                @if !own.published.note.is_empty() { dt { (w.say("office-procedures-note")) } dd { (own.published.note) } }
            } @else { dt { (w.say("office-procedures-published")) } dd { (w.say("office-procedures-built-in")) } }
            dt { "SHA-256" } dd { code { (digest) } }
        }
        @if let Some(procedure) = procedure { (left_out(w, procedure)) }
        @if let Some(changes) = changes { (changes_list(w, &changes)) }
        @if own.is_some_and(|own| own.taken_back.is_none()) && user.may(Right::Publish) { (take_back_form(user, digest, wrong.as_ref())) }
        @if let Some(procedure) = procedure { section { h2 { (w.say("office-procedures-steps")) } (preview(w, procedure)) } }
        @if let Some(text) = text { details.more.no-print { summary { (w.say("office-procedures-text")) } pre.wide tabindex="0" { (text) } } }
    };
    let status = if wrong.is_some() { StatusCode::UNPROCESSABLE_ENTITY } else { StatusCode::OK };
    Ok(frame::page_with(status, user, &title, Place::Procedures, body))
}

/// Shows what an edition leaves out of the built-in one, and why.
pub fn left_out(w: &Words, procedure: &Procedure) -> Markup {
    let said = left_out_words(procedure);
    html! {
        @if procedure.starts_from.is_some() {
            section {
                h2 { (w.say("office-procedures-left-out")) }
                @if said.is_empty() { p.none { (w.say("office-procedures-nothing-left-out")) } }
                ul.plain { @for said in &said { li.hot-edge { (w.text(said)) } } }
            }
        }
    }
}

/// Shows what an edition changes against the one that it was made from.
pub fn changes_list(w: &Words, changes: &[Message]) -> Markup {
    html! {
        section {
            h2 { (w.say("office-procedures-changes")) }
            @if changes.is_empty() { p.none { (w.say("office-procedures-no-changes")) } }
            ul.plain.split { @for change in changes { li { (w.text(change)) } } }
        }
    }
}

fn take_back_form(user: &OfficeUser, digest: Digest, wrong: Option<&(Message, &str)>) -> Markup {
    let w = user.words;
    html! {
        section.no-print {
            h2 { (w.say("office-procedures-take-back")) }
            p { (w.say("office-procedures-take-back-note")) }
            form.stack method="post" action={ (address_of(digest)) "/withdraw" } {
                (csrf(user))
                label for="because" { (w.say("office-procedures-why")) }
                @if let Some((wrong, _)) = wrong { p.trouble id="because-wrong" role="alert" { (w.text(wrong)) } }
                input.field id="because" name="because" maxlength="400" value=[wrong.map(|(_, typed)| *typed)] aria-invalid=[wrong.map(|_| "true")] aria-describedby=[wrong.map(|_| "because-wrong")];
                button.key.stop type="submit" { (w.say("office-procedures-take-back-it")) }
            }
        }
    }
}

/// The form with the reason why an edition is taken back.
#[derive(Debug, Deserialize)]
pub struct Because {
    #[serde(default)]
    because: String,
}

/// `POST /office/procedures/editions/{digest}/withdraw`: takes an edition back.
pub async fn withdraw(
    State(office): State<Arc<Office>>,
    Path(digest): Path<String>,
    CsrfForm { user, form, .. }: CsrfForm<Because, Publishes>,
) -> Result<Response, PageError> {
    let missing = || PageError::NotThere(message!("office-procedures-no-edition"));
    let procedure = Digest::read(&digest).map_err(|_| missing())?;
    let because = form.because.trim();
    if because.is_empty() {
        let wrong = (message!("office-procedures-say-why"), form.because.as_str());
        return edition_page(&office, &user, &digest, Some(wrong)).await;
    }
    let (editions, _) = known(&office).await?;
    let own = editions.edition(procedure).ok_or_else(missing)?;
    if own.taken_back.is_some() {
        return Err(PageError::NotAllowed(message!("office-procedures-taken-back-before")));
    }
    sign(&office, &user, Statement::ProcedureWithdrawn { procedure, because: because.to_owned() }).await?;
    frame::note(&office, &user, "took back a procedure", &format!("procedure:{procedure}")).await?;
    Ok(see_other(ADDRESS))
}

/// Signs a statement about a procedure into the roster with the office signer.
pub async fn sign(office: &Arc<Office>, user: &OfficeUser, says: Statement) -> Result<(), PageError> {
    let (folder, key, clock) = (office.folder.clone(), office.key.clone(), office.clock.clone());
    let (database, by) = (Arc::clone(&office.database), user.name.clone());
    let subject = Subject::Roster(OrganisationId::of_key(&key.public()));
    office
        .on_ledger(move |ledger| {
            let mut database = database.lock().unwrap_or_else(PoisonError::into_inner);
            let draft = (subject, Draft::of(says), by.as_str());
            office_signer::sign_into(&folder, (&mut database, ledger.store_mut()), &key, &clock, draft)
        })
        .await?
        .map_err(PageError::failed)?;
    let _ = office.hints.send(()); // an error only means that there are no listeners
    Ok(())
}
