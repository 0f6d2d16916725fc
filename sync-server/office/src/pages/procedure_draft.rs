//! The page of a draft: its name, title and numbers, its steps in order, and the items of the gates.
//!
//! One step is edited in `procedure_step`, and a draft is published in `procedure_publish`. Each form that is refused
//! comes back as it was filled in, with what is wrong beside the field.

use std::collections::BTreeMap;
use std::sync::Arc;

use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::response::Response;
use farsiding_core::entry::vocabulary::Gate;
use farsiding_core::procedure::{EditedText, OwnTexts, Procedure, ProcedureError, Stage, Step, Threshold};
use farsiding_core::view::edition_changes;
use farsiding_core::{Arg, Joint, Message, message};
use farsiding_words::{Language, Words};
use maud::{Markup, html};

use super::frame::{self, Allowed, CsrfForm, OfficeUser, Place, Publishes, csrf};
use super::page_error::PageError;
use super::procedure_preview::{is_law, preview};
use super::procedures::{
    ADDRESS, address_of_draft, changes_list, known, left_out, name_by_digest, procedure_of,
};
use super::reader::own_name;
use super::sign_in::see_other;
use crate::procedure_drafts::{self, ProcedureDraft};
use crate::state::Office;

/// The fields of a form by their names.
pub type Fields = BTreeMap<String, String>;

/// A draft with its text taken apart.
#[derive(Debug)]
pub struct OpenDraft {
    /// The draft as it is kept.
    pub draft: ProcedureDraft,
    /// Its text.
    pub edited: EditedText,
    /// What it says.
    pub procedure: Procedure,
}

/// What is wrong with a form: the field, and what to do.
pub type Wrong = (String, Message);

fn missing() -> PageError {
    PageError::NotThere(message!("office-procedures-no-draft"))
}

/// Opens a draft.
pub async fn open(office: &Arc<Office>, number: i64) -> Result<OpenDraft, PageError> {
    let draft = office
        .on_database(move |database| procedure_drafts::one(database.connection(), number))
        .await?
        .ok_or_else(missing)?;
    let edited = EditedText::read(&draft.text).map_err(PageError::failed)?;
    let procedure = edited.procedure().map_err(PageError::failed)?;
    Ok(OpenDraft { draft, edited, procedure })
}

/// Keeps a changed text if it is whole, and returns the mistake if it is not.
pub async fn keep(
    office: &Arc<Office>,
    user: &OfficeUser,
    number: i64,
    edited: &EditedText,
) -> Result<Result<(), ProcedureError>, PageError> {
    if let Err(mistake) = edited.procedure() {
        return Ok(Err(mistake));
    }
    let (text, by, now) = (edited.text(), user.name.clone(), office.now());
    office
        .on_database(move |database| procedure_drafts::keep(database.connection(), (number, &text), &by, now))
        .await?;
    frame::note(office, user, "changed a procedure", &format!("procedure-draft:{number}")).await?;
    Ok(Ok(()))
}

/// Returns the own words of a sentence from the fields of a form.
pub fn texts_of(fields: &Fields, sentence: &str) -> OwnTexts {
    Language::all()
        .map(|language| {
            let name = format!("{sentence}.{language}");
            (language.as_str().to_owned(), fields.get(&name).cloned().unwrap_or_default())
        })
        .collect()
}

/// Puts own words into the fields of a form.
pub fn put_texts(fields: &mut Fields, sentence: &str, texts: &OwnTexts) {
    for (language, text) in texts {
        fields.insert(format!("{sentence}.{language}"), text.clone());
    }
}

/// Returns the notice of what is wrong with a field, and the attributes that tie the field to it.
pub fn notice(w: &Words, wrong: Option<&Wrong>, field: &str) -> Markup {
    html! {
        @if let Some((_, says)) = wrong.filter(|(name, _)| name == field) {
            p.trouble id={ (field) "-wrong" } role="alert" { (w.text(says)) }
        }
    }
}

/// Returns true if the notice is about this field.
pub fn is_wrong(wrong: Option<&Wrong>, field: &str) -> bool {
    wrong.is_some_and(|(name, _)| name == field)
}

/// Returns the fields of one sentence in every language. `kept` is what is shown where nothing is written.
pub fn sentence_fields(
    w: &Words,
    fields: &Fields,
    wrong: Option<&Wrong>,
    (sentence, label, long): (&str, &str, bool),
    kept: Option<&Message>,
) -> Markup {
    html! {
        fieldset.choice {
            legend { (w.say(label)) }
            (notice(w, wrong, sentence))
            @for language in Language::all() {
                @let name = format!("{sentence}.{language}");
                @let value = fields.get(&name).map_or("", String::as_str);
                @let theirs = kept.map(|kept| Words::of(language).text(kept)).unwrap_or_default();
                label for=(name) lang=(language) { (own_name(language)) }
                @if long { textarea.field id=(name) name=(name) lang=(language) rows="3" maxlength="2000" placeholder=(theirs) aria-invalid=[is_wrong(wrong, sentence).then_some("true")] { (value) } }
                @else { input.field id=(name) name=(name) lang=(language) maxlength="200" value=(value) placeholder=(theirs) aria-invalid=[is_wrong(wrong, sentence).then_some("true")]; }
            }
        }
    }
}

fn settings_of(edited: &EditedText) -> Fields {
    let mut fields = Fields::new();
    fields.insert("edition".to_owned(), edited.edition().to_owned());
    put_texts(&mut fields, "title", &edited.title());
    for threshold in Threshold::ALL {
        let number = edited.threshold(threshold).map(|number| number.to_string());
        fields.insert(threshold.word().to_owned(), number.unwrap_or_default());
    }
    fields
}

/// `GET /office/procedures/drafts/{number}`: shows a draft.
pub async fn show(
    State(office): State<Arc<Office>>,
    Allowed { user, .. }: Allowed<Publishes>,
    Path(number): Path<i64>,
) -> Result<Response, PageError> {
    frame::note(&office, &user, "looked", &format!("procedure-draft:{number}")).await?;
    let open = open(&office, number).await?;
    let fields = settings_of(&open.edited);
    page(&office, &user, &open, &fields, None).await
}

async fn page(
    office: &Arc<Office>,
    user: &OfficeUser,
    open: &OpenDraft,
    fields: &Fields,
    wrong: Option<Wrong>,
) -> Result<Response, PageError> {
    let (editions, _) = known(office).await?;
    let w = user.words;
    let at = address_of_draft(open.draft.number);
    let title = w.text(&super::procedures::name_of(&open.procedure));
    let from = procedure_of(&editions, open.draft.made_from);
    let changes = from.map(|from| edition_changes(from, &open.procedure)).unwrap_or_default();
    let body = html! {
        div.row.apart {
            h1 { (title) }
            div.row.no-print {
                a.key href={ (at) "/preview" } { (w.say("office-procedures-preview")) }
                a.go href={ (at) "/publish" } { (w.say("office-procedures-publish")) }
            }
        }
        p.lead { (w.text(&message!("office-procedures-draft-lead", from = name_by_digest(&editions, open.draft.made_from)))) }
        (changes_list(w, &changes))
        (left_out(w, &open.procedure))
        section {
            h2 { (w.say("office-procedures-settings")) }
            (settings_form(user, &at, fields, wrong.as_ref(), open))
        }
        section {
            div.row.apart { h2 { (w.say("office-procedures-steps")) } div.row.no-print {
                a.key href={ (at) "/gates" } { (w.say("office-procedures-gates")) }
                a.key href={ (at) "/add" } { (w.say("office-procedures-add")) }
            } }
            (steps(user, &at, open))
        }
        section.no-print {
            h2 { (w.say("office-procedures-discard")) }
            form.row method="post" action={ (at) "/discard" } {
                (csrf(user))
                label.check for="sure" { input id="sure" type="checkbox" name="sure" value="yes" required; span { (w.say("office-procedures-discard-sure")) } }
                button.key.stop type="submit" { (w.say("office-procedures-discard-it")) }
            }
        }
    };
    let status = if wrong.is_some() { StatusCode::UNPROCESSABLE_ENTITY } else { StatusCode::OK };
    Ok(frame::page_with(status, user, &title, Place::Procedures, body))
}

fn settings_form(
    user: &OfficeUser,
    at: &str,
    fields: &Fields,
    wrong: Option<&Wrong>,
    open: &OpenDraft,
) -> Markup {
    let w = user.words;
    let value = |name: &str| fields.get(name).map_or("", String::as_str);
    html! {
        form.stack method="post" action=(at) {
            (csrf(user))
            label for="edition" { (w.say("office-procedures-edition-name")) }
            (notice(w, wrong, "edition"))
            input.field id="edition" name="edition" maxlength="60" required value=(value("edition")) aria-invalid=[is_wrong(wrong, "edition").then_some("true")];
            (sentence_fields(w, fields, wrong, ("title", "office-procedures-title-of-it", false), open.edited.root().map(|root| &root.title)))
            @for threshold in Threshold::ALL {
                @let (least, most) = threshold.bounds();
                @let word = threshold.word();
                label for=(word) { (w.text(&Message::term("procedure-threshold", word))) }
                (notice(w, wrong, word))
                input.field id=(word) name=(word) inputmode="numeric" maxlength="6" value=(value(word)) aria-invalid=[is_wrong(wrong, word).then_some("true")] aria-describedby={ (word) "-bounds" };
                small id={ (word) "-bounds" } { (w.text(&bounds(threshold, least, most))) }
            }
            button.go type="submit" { (w.say("office-procedures-keep")) }
        }
    }
}

fn bounds(threshold: Threshold, least: u32, most: u32) -> Message {
    let said = match threshold.usual() {
        Some(usual) => message!("office-procedures-bounds-usual", usual = Arg::Number(usual.to_string())),
        None if threshold == Threshold::Hold => message!("office-procedures-bounds-none"),
        None => message!("office-procedures-bounds-site"),
    };
    message!(
        "office-procedures-bounds",
        least = Arg::Number(least.to_string()),
        most = Arg::Number(most.to_string()),
        empty = said,
    )
}

fn steps(user: &OfficeUser, at: &str, open: &OpenDraft) -> Markup {
    let w = user.words;
    let Some(root) = open.edited.root() else { return html! {} };
    let step_of = |id: &str| -> Option<&Step> {
        let named = |step: &&Step| step.id == id;
        open.procedure.steps.iter().find(named).or_else(|| root.steps.iter().find(named))
    };
    let all: Vec<&Step> = open.edited.all_steps().iter().filter_map(|id| step_of(id)).collect();
    html! {
        @for stage in Stage::ALL {
            h3.named { (w.text(&stage.term())) }
            ol.plain.steps { @for step in all.iter().filter(|step| step.stage == stage) { li { (step_row(user, at, open, step)) } } }
        }
    }
}

fn step_row(user: &OfficeUser, at: &str, open: &OpenDraft, step: &Step) -> Markup {
    let w = user.words;
    let on = open.edited.has_step(&step.id);
    let title = w.text(&step.title);
    let blocks: Vec<Message> = open.edited.blocks(&step.id).into_iter().map(Gate::term).collect();
    let way = |way: &str, sign: &str, label: &str| {
        html! {
            form.bare method="post" action={ (at) "/steps/" (step.id) "/move" } {
                (csrf(user)) input type="hidden" name="way" value=(way);
                button.key type="submit" aria-label=(w.text(&message!("office-procedures-move", step = step.title.clone(), way = Message::named(label.to_owned())))) { (sign) }
            }
        }
    };
    html! {
        div.row.apart {
            div {
                a href={ (at) "/steps/" (step.id) } { b { (title) } }
                @if !on { " " span.hot { "· " (w.say("office-procedures-off")) } }
                @if open.edited.is_added(&step.id) { " " small { "· " (w.say("office-procedures-own")) } }
                @if is_law(step) { " " small { "· " (w.say("office-procedures-law")) } }
                @if let Some(minutes) = step.repeat_minutes.filter(|_| on) { " " small { "· " (w.text(&message!("office-procedures-every", minutes = minutes))) } }
                @if on && !blocks.is_empty() { " " small { "· " (w.text(&message!("office-procedures-blocks", gates = Arg::list(Joint::And, blocks)))) } }
            }
            @if on { div.row.no-print { (way("up", "↑", "office-procedures-up")) (way("down", "↓", "office-procedures-down")) } }
        }
    }
}

/// `POST /office/procedures/drafts/{number}`: keeps the name, the title and the numbers of a draft.
pub async fn settings(
    State(office): State<Arc<Office>>,
    Path(number): Path<i64>,
    CsrfForm { user, form, .. }: CsrfForm<Fields, Publishes>,
) -> Result<Response, PageError> {
    let mut open = open(&office, number).await?;
    let (edited, wrong) = with_settings(open.edited.clone(), &form);
    let wrong = match wrong {
        Some(wrong) => Some(wrong),
        None => keep(&office, &user, number, &edited).await?.err().map(|mistake| match &mistake {
            ProcedureError::OutOfBounds(threshold) => (threshold.word().to_owned(), mistake.message()),
            _ => ("edition".to_owned(), mistake.message()),
        }),
    };
    match wrong {
        None => Ok(see_other(&address_of_draft(number))),
        Some(wrong) => {
            open.draft.number = number;
            page(&office, &user, &open, &form, Some(wrong)).await
        }
    }
}

fn with_settings(mut edited: EditedText, form: &Fields) -> (EditedText, Option<Wrong>) {
    let value = |name: &str| form.get(name).map_or("", |text| text.trim());
    if value("edition").is_empty() || value("edition").chars().count() > 60 {
        return (edited, Some(("edition".to_owned(), message!("office-procedures-name-it"))));
    }
    edited.name_edition(value("edition"));
    edited.entitle(&texts_of(form, "title"));
    for threshold in Threshold::ALL {
        let typed = value(threshold.word());
        let number = match typed {
            "" => None,
            typed => match typed.parse::<u32>() {
                Ok(number) => Some(number),
                Err(_) => {
                    let says = ProcedureError::OutOfBounds(threshold).message();
                    return (edited, Some((threshold.word().to_owned(), says)));
                }
            },
        };
        edited.set_threshold(threshold, number);
    }
    (edited, None)
}

/// `POST /office/procedures/drafts/{number}/steps/{step}/move`: moves a step up or down within its stage.
pub async fn move_step(
    State(office): State<Arc<Office>>,
    Path((number, step)): Path<(i64, String)>,
    CsrfForm { user, form, .. }: CsrfForm<Fields, Publishes>,
) -> Result<Response, PageError> {
    let mut open = open(&office, number).await?;
    let up = form.get("way").map(String::as_str) == Some("up");
    if open.edited.move_step(&step, up)
        && let Err(mistake) = keep(&office, &user, number, &open.edited).await?
    {
        return Err(PageError::NotAllowed(mistake.message()));
    }
    Ok(see_other(&address_of_draft(number)))
}

/// `POST /office/procedures/drafts/{number}/discard`: throws a draft away.
pub async fn discard(
    State(office): State<Arc<Office>>,
    Path(number): Path<i64>,
    CsrfForm { user, form, .. }: CsrfForm<Fields, Publishes>,
) -> Result<Response, PageError> {
    if form.get("sure").map(String::as_str) != Some("yes") {
        return Err(PageError::BadForm(message!("office-procedures-discard-sure")));
    }
    office.on_database(move |database| procedure_drafts::discard(database.connection(), number)).await?;
    frame::note(&office, &user, "discarded a procedure", &format!("procedure-draft:{number}")).await?;
    Ok(see_other(ADDRESS))
}

/// `GET /office/procedures/drafts/{number}/preview`: shows the steps as the phone will.
pub async fn show_preview(
    State(office): State<Arc<Office>>,
    Allowed { user, .. }: Allowed<Publishes>,
    Path(number): Path<i64>,
    axum::extract::Query(asked): axum::extract::Query<Fields>,
) -> Result<Response, PageError> {
    frame::note(&office, &user, "looked", &format!("procedure-draft:{number}")).await?;
    let open = open(&office, number).await?;
    let w = user.words;
    let asked = asked.get("language").and_then(|tag| tag.parse::<Language>().ok());
    let language = asked.unwrap_or(w.language());
    let at = address_of_draft(number);
    let title = w.text(&super::procedures::name_of(&open.procedure));
    let body = html! {
        div.row.apart { h1 { (title) } a.key.no-print href=(at) { (w.say("office-procedures-back")) } }
        p.lead { (w.say("office-procedures-preview-lead")) }
        p.row.no-print { @for other in Language::all() { a href={ (at) "/preview?language=" (other) } lang=(other) aria-current=[(other == language).then_some("true")] { (own_name(other)) } } }
        h2 { (w.say("office-procedures-steps")) }
        div lang=(language) { (preview(Words::of(language), &open.procedure)) }
    };
    Ok(frame::page(&user, &title, Place::Procedures, body))
}
