//! The page of a draft's gate items: which are asked, which are switched off, and why.

use std::sync::Arc;

use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::response::Response;
use farsiding_core::entry::vocabulary::Gate;
use farsiding_core::procedure::{GateRule, Law, Lost};
use farsiding_core::view::{code_message, lost_words};
use farsiding_core::{Arg, Joint, Message, message};
use maud::{Markup, html};

use super::frame::{self, Allowed, CsrfForm, OfficeUser, Place, Publishes, csrf};
use super::page_error::PageError;
use super::procedure_draft::{Fields, OpenDraft, Wrong, keep, open};
use super::procedure_preview::law_of;
use super::procedures::address_of_draft;
use super::sign_in::see_other;
use crate::state::Office;

/// `GET /office/procedures/drafts/{number}/gates`: shows the items of the gates.
pub async fn show(
    State(office): State<Arc<Office>>,
    Allowed { user, .. }: Allowed<Publishes>,
    Path(number): Path<i64>,
) -> Result<Response, PageError> {
    frame::note(&office, &user, "looked", &format!("procedure-draft:{number}")).await?;
    let open = open(&office, number).await?;
    Ok(gates_page(&user, &open, None))
}

fn gates_page(user: &OfficeUser, open: &OpenDraft, wrong: Option<(&Fields, &Wrong)>) -> Response {
    let w = user.words;
    let at = address_of_draft(open.draft.number);
    let title = w.say("office-procedures-gates");
    let body = html! {
        div.row.apart { h1 { (title) } a.key.no-print href=(at) { (w.say("office-procedures-back")) } }
        p.lead { (w.say("office-procedures-gates-lead")) }
        ul.plain { @for (number, (code, on)) in open.edited.all_rules().iter().enumerate() {
            li { (gate_item(user, open, (number, code, *on), wrong.filter(|(fields, _)| fields.get("code") == Some(code)))) }
        } }
    };
    let status = if wrong.is_some() { StatusCode::UNPROCESSABLE_ENTITY } else { StatusCode::OK };
    frame::page_with(status, user, &title, Place::Procedures, body)
}

/// Returns the words of a gate's item: the title of its step, or the item's own.
fn item_words(open: &OpenDraft, code: &str) -> Message {
    match code.split_once('.') {
        Some(("step_open", step)) => lost_words(&Lost::Step(step.to_owned()), &open.procedure),
        _ => code_message(code),
    }
}

fn gate_item(
    user: &OfficeUser,
    open: &OpenDraft,
    (number, code, on): (usize, &str, bool),
    wrong: Option<(&Fields, &Wrong)>,
) -> Markup {
    let w = user.words;
    let at = address_of_draft(open.draft.number);
    let root = open.edited.root().unwrap_or(&open.procedure);
    let rules: Vec<&GateRule> =
        open.procedure.gates.iter().chain(&root.gates).filter(|rule| rule.code() == code).collect();
    let mut laws: Vec<Law> = Vec::new();
    for law in rules.iter().flat_map(|rule| rule.laws()) {
        if !laws.contains(law) {
            laws.push(law.clone());
        }
    }
    let law = law_of(w, &laws);
    let gates: Vec<Message> = Gate::ALL
        .iter()
        .filter(|gate| rules.first().is_some_and(|rule| rule.gates.contains(gate)))
        .map(|gate| gate.term())
        .collect();
    let (words, field) = (item_words(open, code), format!("because-{number}"));
    let reason = open.edited.reason(&Lost::Rule(code.to_owned()));
    html! {
        b { (w.text(&words)) } " " small { "· " (w.text(&message!("office-procedures-blocks", gates = Arg::list(Joint::And, gates)))) @if !law.is_empty() { " · " (law) } }
        @if !on { " " span.hot { "· " (w.say("office-procedures-off")) } @if let Some(reason) = reason { br; small { (reason) } } }
        @if rules.iter().any(|rule| rule.is_essential()) { br; small { (w.say("office-procedures-essential")) } }
        @else if on {
            details.more.no-print open[wrong.is_some()] {
                summary { (w.text(&message!("office-procedures-switch-off-of", what = words))) }
                form.stack method="post" action={ (at) "/gates" } {
                    (csrf(user))
                    input type="hidden" name="code" value=(code);
                    input type="hidden" name="way" value="off";
                    label for=(field) { (w.say(if law.is_empty() { "office-procedures-why-may" } else { "office-procedures-why" })) }
                    @if let Some((_, (_, says))) = wrong { p.trouble id={ (field) "-wrong" } role="alert" { (w.text(says)) } }
                    input.field id=(field) name="because" maxlength="400" value=[wrong.and_then(|(fields, _)| fields.get("because"))] aria-invalid=[wrong.map(|_| "true")] aria-describedby=[wrong.map(|_| format!("{field}-wrong"))];
                    button.key.stop type="submit" { (w.say("office-procedures-switch-off")) }
                }
            }
        } @else {
            form.row.no-print method="post" action={ (at) "/gates" } {
                (csrf(user))
                input type="hidden" name="code" value=(code);
                input type="hidden" name="way" value="on";
                button.key type="submit" aria-label=(w.text(&message!("office-procedures-switch-on-of", what = words))) { (w.say("office-procedures-switch-on")) }
            }
        }
    }
}

/// `POST /office/procedures/drafts/{number}/gates`: switches an item of a gate off or on.
pub async fn change(
    State(office): State<Arc<Office>>,
    Path(number): Path<i64>,
    CsrfForm { user, form, .. }: CsrfForm<Fields, Publishes>,
) -> Result<Response, PageError> {
    let open = open(&office, number).await?;
    let mut edited = open.edited.clone();
    let value = |name: &str| form.get(name).map_or("", |text| text.trim());
    match value("way") {
        "on" => edited.restore_rules(value("code")),
        _ => edited.switch_rule_off(value("code"), value("because")),
    }
    match keep(&office, &user, number, &edited).await? {
        Ok(()) => Ok(see_other(&format!("{}/gates", address_of_draft(number)))),
        Err(mistake) => {
            let wrong = ("because".to_owned(), mistake.message());
            Ok(gates_page(&user, &open, Some((&form, &wrong))))
        }
    }
}
