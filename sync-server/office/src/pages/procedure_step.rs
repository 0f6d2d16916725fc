//! The page of one step of a draft, and the page on which a step is added: on or off, words, interval, and what it
//! blocks. A law that would be left out asks for the reason beside its field.

use std::sync::Arc;

use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::response::Response;
use farsiding_core::entry::vocabulary::Gate;
use farsiding_core::procedure::{Added, EditedText, Lost, ProcedureError, Sentence, Stage, Step};
use farsiding_core::view::lost_words;
use farsiding_core::{Message, message};
use farsiding_words::Words;
use maud::{Markup, html};

use super::frame::{self, Allowed, CsrfForm, OfficeUser, Place, Publishes, csrf};
use super::page_error::PageError;
use super::procedure_draft::{
    Fields, OpenDraft, Wrong, is_wrong, keep, notice, open, put_texts, sentence_fields, texts_of,
};
use super::procedures::address_of_draft;
use super::sign_in::see_other;
use crate::state::Office;

/// The labels of the sentences, and whether a sentence is long.
const LABELS: [(Sentence, &str, bool); 3] = [
    (Sentence::Title, "office-procedures-step-title", false),
    (Sentence::WhatToDo, "office-procedures-step-do", true),
    (Sentence::Why, "office-procedures-step-why", true),
];

/// The names of the fields that say what a step blocks.
const fn field_of(gate: Gate) -> &'static str {
    match gate {
        Gate::Unload => "blocks-unload",
        Gate::Release => "blocks-release",
    }
}

fn step_of<'o>(open: &'o OpenDraft, id: &str) -> Option<&'o Step> {
    let root = open.edited.root().map(|root| root.steps.as_slice()).unwrap_or_default();
    open.procedure.steps.iter().chain(root).find(|step| step.id == id)
}

/// Returns the reason that stands in the text for what a step leaves out.
fn reason_of(open: &OpenDraft, step: &Step) -> String {
    if let Some(reason) = open.edited.reason(&Lost::Step(step.id.clone())) {
        return reason.to_owned();
    }
    let root = open.edited.root().map(|root| root.gates.as_slice()).unwrap_or_default();
    let of_step = root.iter().filter(|rule| match &rule.asked {
        farsiding_core::procedure::Asked::Record { any_of, .. } => {
            any_of.iter().any(|record| step.records.contains(record))
        }
        farsiding_core::procedure::Asked::Step(id) => *id == step.id,
        farsiding_core::procedure::Asked::Condition(_) => false,
    });
    let mut reasons = of_step.filter_map(|rule| open.edited.reason(&Lost::Rule(rule.code())));
    reasons.next().unwrap_or_default().to_owned()
}

fn fields_of(open: &OpenDraft, step: &Step) -> Fields {
    let mut fields = Fields::new();
    let mut put = |name: &str, value: String| fields.insert(name.to_owned(), value);
    if open.edited.has_step(&step.id) {
        put("on", "yes".to_owned());
    }
    put("because", reason_of(open, step));
    if let Some(minutes) = open.edited.interval(&step.id).flatten() {
        put("interval", minutes.to_string());
    }
    for gate in open.edited.blocks(&step.id) {
        put(field_of(gate), "yes".to_owned());
    }
    for sentence in Sentence::ALL {
        put_texts(&mut fields, sentence.word(), &open.edited.own_words(&step.id, sentence));
    }
    fields
}

/// `GET /office/procedures/drafts/{number}/steps/{step}`: shows a step.
pub async fn show(
    State(office): State<Arc<Office>>,
    Allowed { user, .. }: Allowed<Publishes>,
    Path((number, id)): Path<(i64, String)>,
) -> Result<Response, PageError> {
    frame::note(&office, &user, "looked", &format!("procedure-draft:{number}")).await?;
    let open = open(&office, number).await?;
    let step = step_of(&open, &id).ok_or_else(no_step)?;
    Ok(page(&user, &open, step, &fields_of(&open, step), None))
}

fn no_step() -> PageError {
    PageError::NotThere(message!("office-procedures-no-step"))
}

fn page(
    user: &OfficeUser,
    open: &OpenDraft,
    step: &Step,
    fields: &Fields,
    wrong: Option<&Wrong>,
) -> Response {
    let w = user.words;
    let at = address_of_draft(open.draft.number);
    let title = w.text(&step.title);
    let added = open.edited.is_added(&step.id);
    let root = open.edited.root().and_then(|root| root.steps.iter().find(|own| own.id == step.id));
    let kept = |sentence: Sentence| {
        root.map(|root| match sentence {
            Sentence::Title => &root.title,
            Sentence::WhatToDo => &root.what_to_do,
            Sentence::Why => &root.why,
        })
    };
    let basis = step.basis(None);
    let repeats = step.repeat_minutes.is_some();
    let body = html! {
        div.row.apart { h1 { (title) } a.key.no-print href=(at) { (w.say("office-procedures-back")) } }
        dl.facts {
            dt { (w.say("office-procedures-stage")) } dd { (w.text(&step.stage.term())) }
            dt { (w.say("office-procedures-asks")) } dd { (w.text(&message!("office-procedures-asked-by", by = basis.asked_by.term(), source = basis.source.message()))) }
        }
        @for caution in &step.cautions { p.hot { (w.text(caution)) } }
        form.stack method="post" action={ (at) "/steps/" (step.id) } {
            (csrf(user))
            (notice(w, wrong, ""))
            @if !added {
                label.check for="on" { input id="on" type="checkbox" name="on" value="yes" checked[fields.contains_key("on")]; span { (w.say("office-procedures-on")) } }
            } @else { input type="hidden" name="on" value="yes"; }
            (blocks_fields(w, fields, wrong))
            @if !added { (because_field(w, fields, wrong)) }
            @if repeats {
                label for="interval" { (w.say("office-procedures-interval")) }
                (notice(w, wrong, "interval"))
                input.field id="interval" name="interval" inputmode="numeric" maxlength="5" value=(fields.get("interval").map_or("", String::as_str)) aria-invalid=[is_wrong(wrong, "interval").then_some("true")];
            }
            @for (sentence, label, long) in LABELS {
                (sentence_fields(w, fields, wrong, (sentence.word(), label, long), kept(sentence)))
            }
            button.go type="submit" { (w.say("office-procedures-keep")) }
        }
        @if added {
            form.row.no-print method="post" action={ (at) "/steps/" (step.id) "/remove" } {
                (csrf(user))
                button.key.stop type="submit" { (w.say("office-procedures-remove")) }
            }
        }
    };
    let status = if wrong.is_some() { StatusCode::UNPROCESSABLE_ENTITY } else { StatusCode::OK };
    frame::page_with(status, user, &title, Place::Procedures, body)
}

fn blocks_fields(w: &Words, fields: &Fields, wrong: Option<&Wrong>) -> Markup {
    html! {
        fieldset.choice {
            legend { (w.say("office-procedures-blocks-what")) }
            (notice(w, wrong, "blocks"))
            @for gate in Gate::ALL.iter().copied() {
                @let name = field_of(gate);
                label.check for=(name) { input id=(name) type="checkbox" name=(name) value="yes" checked[fields.contains_key(name)]; span { (w.text(&gate.term())) } }
            }
        }
    }
}

fn because_field(w: &Words, fields: &Fields, wrong: Option<&Wrong>) -> Markup {
    html! {
        label for="because" { (w.say("office-procedures-why-law")) }
        (notice(w, wrong, "because"))
        input.field id="because" name="because" maxlength="400" value=(fields.get("because").map_or("", String::as_str)) aria-invalid=[is_wrong(wrong, "because").then_some("true")];
    }
}

/// Returns the field that a mistake is about, and what is said beside it.
fn wrong_of(open: &OpenDraft, mistake: &ProcedureError) -> Wrong {
    use ProcedureError as E;
    let words = |what: &Lost| lost_words(what, open.edited.root().unwrap_or(&open.procedure));
    match mistake {
        E::StepUnexplained(step) => (
            "because".to_owned(),
            message!("office-procedures-law-needs-reason", what = words(&Lost::Step(step.clone()))),
        ),
        E::RuleUnexplained(rule) => (
            "because".to_owned(),
            message!("office-procedures-law-needs-reason", what = words(&Lost::Rule(rule.clone()))),
        ),
        E::BadInterval(_) => ("interval".to_owned(), message!("office-procedures-interval-bounds")),
        E::BlocksTooLate { gate, .. } => {
            ("blocks".to_owned(), message!("office-procedures-blocks-too-late", gate = gate.term()))
        }
        E::EmptyField { field, .. } => ((*field).to_owned(), message!("office-procedures-write-it")),
        other => (String::new(), other.message()),
    }
}

/// Applies a form to a step. Returns what is wrong with a field that cannot be read.
fn applied(open: &OpenDraft, step: &Step, form: &Fields) -> Result<EditedText, Wrong> {
    let mut edited = open.edited.clone();
    let value = |name: &str| form.get(name).map_or("", |text| text.trim());
    let because = value("because");
    if form.get("on").is_none() {
        // A step that is off already takes the reason as it is now.
        edited.switch_on(&step.id);
        edited.switch_off(&step.id, because);
        return Ok(edited);
    }
    edited.switch_on(&step.id);
    for sentence in Sentence::ALL {
        edited.reword(&step.id, sentence, &texts_of(form, sentence.word()));
    }
    if edited.interval(&step.id).is_some() {
        let minutes = match value("interval") {
            "" => None,
            typed => Some(
                typed
                    .parse::<u32>()
                    .map_err(|_| ("interval".to_owned(), message!("office-procedures-interval-bounds")))?,
            ),
        };
        edited.set_interval(&step.id, minutes);
    }
    for gate in Gate::ALL.iter().copied() {
        edited.set_blocks(&step.id, gate, form.contains_key(field_of(gate)), because);
    }
    Ok(edited)
}

/// `POST /office/procedures/drafts/{number}/steps/{step}`: keeps a step as the form says.
pub async fn change(
    State(office): State<Arc<Office>>,
    Path((number, id)): Path<(i64, String)>,
    CsrfForm { user, form, .. }: CsrfForm<Fields, Publishes>,
) -> Result<Response, PageError> {
    let open = open(&office, number).await?;
    let step = step_of(&open, &id).ok_or_else(no_step)?;
    let wrong = match applied(&open, step, &form) {
        Err(wrong) => Some(wrong),
        Ok(edited) => {
            keep(&office, &user, number, &edited).await?.err().map(|mistake| wrong_of(&open, &mistake))
        }
    };
    Ok(match wrong {
        None => see_other(&address_of_draft(number)),
        Some(wrong) => page(&user, &open, step, &form, Some(&wrong)),
    })
}

/// `POST /office/procedures/drafts/{number}/steps/{step}/remove`: removes a step that was added.
pub async fn remove(
    State(office): State<Arc<Office>>,
    Path((number, id)): Path<(i64, String)>,
    CsrfForm { user, .. }: CsrfForm<Fields, Publishes>,
) -> Result<Response, PageError> {
    let mut open = open(&office, number).await?;
    open.edited.remove_added(&id);
    match keep(&office, &user, number, &open.edited).await? {
        Ok(()) => Ok(see_other(&address_of_draft(number))),
        Err(mistake) => Err(PageError::NotAllowed(mistake.message())),
    }
}

/// `GET /office/procedures/drafts/{number}/add`: shows the form for a new step.
pub async fn ask_add(
    State(office): State<Arc<Office>>,
    Allowed { user, .. }: Allowed<Publishes>,
    Path(number): Path<i64>,
) -> Result<Response, PageError> {
    let open = open(&office, number).await?;
    Ok(add_page(&user, &open, &Fields::new(), None))
}

fn add_page(user: &OfficeUser, open: &OpenDraft, fields: &Fields, wrong: Option<&Wrong>) -> Response {
    let w = user.words;
    let at = address_of_draft(open.draft.number);
    let title = w.say("office-procedures-add");
    let value = |name: &str| fields.get(name).map_or("", String::as_str);
    let kinds =
        [("check", "office-procedures-kind-check"), ("acknowledgement", "office-procedures-kind-done")];
    let body = html! {
        div.row.apart { h1 { (title) } a.key.no-print href=(at) { (w.say("office-procedures-back")) } }
        p.lead { (w.say("office-procedures-add-lead")) }
        form.stack method="post" action={ (at) "/add" } {
            (csrf(user))
            (notice(w, wrong, ""))
            label for="stage" { (w.say("office-procedures-stage")) }
            select.field id="stage" name="stage" { @for stage in Stage::ALL { option value=(stage.word()) selected[value("stage") == stage.word()] { (w.text(&stage.term())) } } }
            fieldset.choice {
                legend { (w.say("office-procedures-kind")) }
                @for (kind, label) in kinds {
                    @let id = format!("kind-{kind}");
                    label.check for=(id) { input id=(id) type="radio" name="kind" value=(kind) checked[value("kind") == kind || (value("kind").is_empty() && kind == "check")]; span { (w.say(label)) } }
                }
            }
            (blocks_fields(w, fields, wrong))
            @for (sentence, label, long) in LABELS { (sentence_fields(w, fields, wrong, (sentence.word(), label, long), None)) }
            button.go type="submit" { (w.say("office-procedures-add-it")) }
        }
    };
    let status = if wrong.is_some() { StatusCode::UNPROCESSABLE_ENTITY } else { StatusCode::OK };
    frame::page_with(status, user, &title, Place::Procedures, body)
}

/// `POST /office/procedures/drafts/{number}/add`: adds a step.
pub async fn add(
    State(office): State<Arc<Office>>,
    Path(number): Path<i64>,
    CsrfForm { user, form, .. }: CsrfForm<Fields, Publishes>,
) -> Result<Response, PageError> {
    let open = open(&office, number).await?;
    let value = |name: &str| form.get(name).map_or("", |text| text.trim());
    let stage = Stage::ALL.into_iter().find(|stage| stage.word() == value("stage"));
    let stage = stage.ok_or_else(|| PageError::BadForm(message!("office-refused-form")))?;
    let kind = if value("kind") == "acknowledgement" { Added::Acknowledgement } else { Added::Check };
    let sentences = Sentence::ALL.map(|sentence| (sentence, texts_of(&form, sentence.word())));
    let mut edited = open.edited.clone();
    let id = edited.add_step(stage, kind, &sentences);
    for gate in Gate::ALL.iter().copied() {
        edited.set_blocks(&id, gate, form.contains_key(field_of(gate)), "");
    }
    let twice = same_check(&open, &sentences, kind);
    let wrong = match twice {
        Some(says) => Some((Sentence::Title.word().to_owned(), says)),
        None => keep(&office, &user, number, &edited).await?.err().map(|mistake| wrong_of(&open, &mistake)),
    };
    Ok(match wrong {
        None => see_other(&address_of_draft(number)),
        Some(wrong) => add_page(&user, &open, &form, Some(&wrong)),
    })
}

/// Returns what is said if a check of this name is there already: the two would be one in the record.
fn same_check(
    open: &OpenDraft,
    sentences: &[(Sentence, farsiding_core::procedure::OwnTexts)],
    kind: Added,
) -> Option<Message> {
    let (_, texts) = sentences.iter().find(|(sentence, _)| *sentence == Sentence::Title)?;
    let name = texts.values().find(|text| !text.trim().is_empty())?.trim();
    let is_named = |record: &farsiding_core::procedure::Record| matches!(record, farsiding_core::procedure::Record::Check { what } if what == name);
    let there = open.procedure.steps.iter().any(|step| step.records.iter().any(is_named));
    (kind == Added::Check && there).then(|| message!("office-procedures-check-twice"))
}
