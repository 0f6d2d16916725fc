//! The page on which a draft is published: what it changes, what it leaves out, for which sites, and what the person
//! says about it. Publishing signs an entry of the roster, which every phone receives.

use std::sync::Arc;

use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::response::Response;
use farsiding_core::entry::Statement;
use farsiding_core::entry::site_facts::PublishedProcedure;
use farsiding_core::ids::{Digest, SiteId};
use farsiding_core::message;
use farsiding_core::view::{Editions, SiteView, edition_changes, fit_to_publish};
use maud::html;

use super::frame::{self, Allowed, CsrfForm, OfficeUser, Place, Publishes, csrf};
use super::page_error::PageError;
use super::procedure_draft::{Fields, OpenDraft, Wrong, is_wrong, notice, open};
use super::procedures::{
    ADDRESS, address_of_draft, changes_list, known, left_out, name_by_digest, procedure_of, sign,
};
use super::sign_in::see_other;
use crate::procedure_drafts;
use crate::state::Office;

/// `GET /office/procedures/drafts/{number}/publish`: shows what would be published.
pub async fn ask(
    State(office): State<Arc<Office>>,
    Allowed { user, .. }: Allowed<Publishes>,
    Path(number): Path<i64>,
) -> Result<Response, PageError> {
    frame::note(&office, &user, "looked", &format!("procedure-draft:{number}")).await?;
    let open = open(&office, number).await?;
    let known = known(&office).await?;
    Ok(page(&user, &open, &known, &Fields::new(), None))
}

fn page(
    user: &OfficeUser,
    open: &OpenDraft,
    (editions, sites): &(Editions, Vec<SiteView>),
    fields: &Fields,
    wrong: Option<&Wrong>,
) -> Response {
    let w = user.words;
    let at = address_of_draft(open.draft.number);
    let title = w.text(&super::procedures::name_of(&open.procedure));
    let from = procedure_of(editions, open.draft.made_from);
    let changes = from.map(|from| edition_changes(from, &open.procedure)).unwrap_or_default();
    let all = fields.get("where").map(String::as_str) != Some("some");
    let body = html! {
        div.row.apart { h1 { (title) } a.key.no-print href=(at) { (w.say("office-procedures-back")) } }
        p.lead { (w.text(&message!("office-procedures-draft-lead", from = name_by_digest(editions, open.draft.made_from)))) }
        (changes_list(w, &changes))
        (left_out(w, &open.procedure))
        section {
            h2 { (w.say("office-procedures-publish")) }
            p { (w.say("office-procedures-publish-note")) }
            form.stack method="post" action={ (at) "/publish" } {
                (csrf(user))
                (notice(w, wrong, ""))
                fieldset.choice {
                    legend { (w.say("office-procedures-for")) }
                    (notice(w, wrong, "sites"))
                    label.check for="where-all" { input id="where-all" type="radio" name="where" value="all" checked[all]; span { (w.say("log-all-sites")) } }
                    label.check for="where-some" { input id="where-some" type="radio" name="where" value="some" checked[!all]; span { (w.say("office-procedures-these-sites")) } }
                    div.boxes { @for site in sites { @if let Some(id) = site.id {
                        @let name = format!("site-{id}");
                        label.check for=(name) { input id=(name) type="checkbox" name=(name) value="yes" checked[fields.contains_key(&name)]; span { @if site.name.is_empty() { (id.short()) } @else { (site.name) } } }
                    } } }
                }
                label for="note" { (w.say("office-procedures-what-changed")) }
                (notice(w, wrong, "note"))
                textarea.field id="note" name="note" rows="3" maxlength="1000" aria-invalid=[is_wrong(wrong, "note").then_some("true")] { (fields.get("note").map_or("", String::as_str)) }
                button.go type="submit" { (w.say("office-procedures-publish-it")) }
            }
        }
    };
    let status = if wrong.is_some() { StatusCode::UNPROCESSABLE_ENTITY } else { StatusCode::OK };
    frame::page_with(status, user, &title, Place::Procedures, body)
}

/// Reads the form. Returns what is wrong with a field.
fn read(
    open: &OpenDraft,
    (editions, sites): &(Editions, Vec<SiteView>),
    form: &Fields,
) -> Result<PublishedProcedure, Wrong> {
    let wrong = |field: &str, says| (field.to_owned(), says);
    let text = open.edited.text();
    let digest = Digest::of(text.as_bytes());
    let from = procedure_of(editions, open.draft.made_from);
    fit_to_publish(&text, from).map_err(|says| wrong("", says))?;
    let named_so = |other: &&farsiding_core::view::Edition| {
        let same = other.procedure.as_ref().is_ok_and(|other| {
            other.edition == open.procedure.edition && other.title == open.procedure.title
        });
        same && other.digest != digest
    };
    if editions.iter().any(|other| named_so(&other)) {
        return Err(wrong("", message!("office-procedures-name-taken")));
    }
    let chosen: Vec<SiteId> = match form.get("where").map(String::as_str) {
        Some("all") => Vec::new(),
        _ => {
            let ids = sites.iter().filter_map(|site| site.id);
            let chosen: Vec<SiteId> = ids.filter(|id| form.contains_key(&format!("site-{id}"))).collect();
            if chosen.is_empty() {
                return Err(wrong("sites", message!("office-procedures-choose-sites")));
            }
            chosen
        }
    };
    let note = form.get("note").map_or("", |note| note.trim());
    if note.is_empty() || note.chars().count() > 1000 {
        return Err(wrong("note", message!("office-procedures-say-what-changed")));
    }
    Ok(PublishedProcedure {
        procedure: digest,
        text,
        sites: chosen,
        from: Some(open.draft.made_from),
        note: note.to_owned(),
    })
}

/// `POST /office/procedures/drafts/{number}/publish`: publishes a draft.
pub async fn publish(
    State(office): State<Arc<Office>>,
    Path(number): Path<i64>,
    CsrfForm { user, form, .. }: CsrfForm<Fields, Publishes>,
) -> Result<Response, PageError> {
    let open = open(&office, number).await?;
    let known = known(&office).await?;
    let published = match read(&open, &known, &form) {
        Ok(published) => published,
        Err(wrong) => return Ok(page(&user, &open, &known, &form, Some(&wrong))),
    };
    let digest = published.procedure;
    sign(&office, &user, Statement::ProcedurePublished(published)).await?;
    office.on_database(move |database| procedure_drafts::discard(database.connection(), number)).await?;
    frame::note(&office, &user, "published a procedure", &format!("procedure:{digest}")).await?;
    Ok(see_other(ADDRESS))
}
