//! The page of defects, the overdue ones first, with forwarding by mail, and of fittings that are wearing
//! out.

use std::sync::Arc;

use axum::extract::State;
use axum::response::Response;
use farsiding_core::clock::UtcMillis;
use farsiding_core::ids::DefectId;
use farsiding_core::{Arg, Message, message};
use maud::{Markup, html};
use serde::Deserialize;

use super::frame::{self, CsrfForm, OfficeUser, Place, Records, csrf, in_utc};
use super::page_error::PageError;
use super::seals::LOOK_BACK;
use super::sign_in::see_other;
use crate::accounts::roles::Right;
use crate::defects::mail::{MailError, MailSettings, is_address};
use crate::defects::queue::{self, Asked, Kept};
use crate::defects::{self, KnownDefect};
use crate::language;
use crate::month;
use crate::state::Office;

async fn known_now(office: &Office) -> Result<(Vec<KnownDefect>, Vec<defects::Worn>, Vec<Kept>), PageError> {
    let now = office.now();
    let span = (UtcMillis(now.0 - 3 * LOOK_BACK), UtcMillis(now.0 + 86_400_000));
    let (all, _) = office.on_index(move |asking| month::of_index(asking, span)).await?;
    let mail = office.on_database(|database| queue::newest(database.connection(), 500)).await?;
    let sent = |id: DefectId| mail.iter().any(|kept| kept.defect == Some(id) && kept.state == "sent");
    let known = defects::known(&all, &sent, now);
    let worn = defects::worn(&all);
    Ok((known, worn, mail))
}

/// `GET /office/defects`: shows the defects.
pub async fn show(State(office): State<Arc<Office>>, user: OfficeUser) -> Result<Response, PageError> {
    frame::note(&office, &user, "looked", "defects").await?;
    let (known, worn, mail) = known_now(&office).await?;
    let set_up = MailSettings::read(office.folder.path());
    let (overdue, open) = (
        known.iter().filter(|k| !k.overdue.is_empty()).count(),
        known.iter().filter(|k| k.defect.is_open()).count(),
    );
    let w = user.words;
    let body = html! {
        h1 { (w.say("office-defects-title")) }
        p.lead { (w.text(&message!("office-defects-open", count = open))) @if overdue > 0 { " · " b.hot { (w.text(&message!("office-defects-overdue-count", count = overdue))) } } }
        @match &set_up {
            Err(MailError::NotSetUp) => { p.small { (w.say("office-defects-no-mail")) } }
            Err(error) => { p.trouble { (error) } }
            Ok(_) => {}
        }
        (frame::behind(user.words, &office))
        @if known.is_empty() { p.none { (w.say("office-defects-none")) } }
        ul.plain { @for defect in &known { (one(&user, defect, &mail)) } }
        section {
            h2 { (w.say("office-defects-wear")) }
            @if worn.is_empty() { p.none { (w.say("office-defects-no-wear")) } } @else {
                div.wide tabindex="0" role="region" aria-label=(w.say("office-defects-wear")) { table {
                    caption { (w.say("office-defects-wear-note")) }
                    thead { tr { th scope="col" { (w.say("office-defects-car")) } th scope="col" { (w.say("office-defects-fitting")) } th.num scope="col" { (w.say("office-defects-efforts")) } th scope="col" { (w.say("office-defects-says")) } } }
                    tbody { @for fitting in &worn { tr {
                        th scope="row" { @match fitting.visit { Some(visit) => { a href={ "/office/visits/" (visit) } { (fitting.car) } } None => { (fitting.car) } } }
                        td { (w.text(&fitting.fitting.term())) }
                        td.num { (fitting.efforts.iter().rev().take(8).rev().map(|(_, effort)| format!("{effort:.0}")).collect::<Vec<_>>().join(" · ")) }
                        td { @for finding in &fitting.wear.findings { (w.text(&finding.message)) " " } }
                    } } }
                } }
            }
        }
        (letters(&user, &mail))
    };
    Ok(frame::page(&user, &w.say("office-defects-title"), Place::Defects, body))
}

fn one(user: &OfficeUser, known: &KnownDefect, mail: &[Kept]) -> Markup {
    let w = user.words;
    let defect = &known.defect;
    let letters: Vec<&Kept> = mail.iter().filter(|kept| kept.defect == Some(defect.id)).collect();
    html! {
        li.hot-edge[!known.overdue.is_empty()] {
            b { (known.car) @if let Some(fitting) = defect.fitting { ", " (w.text(&fitting.term())) } ": " (defect.what) }
            @if !known.overdue.is_empty() { br; span.hot { (w.text(&message!("office-defects-overdue", why = known.overdue.clone()))) } }
            br; small { (w.text(&message!("office-defects-noted", by = Arg::typed(&defect.by), time = Arg::typed(&defect.noted_shown)))) @if !known.site_name.is_empty() { ", " (known.site_name) } @if !defect.photos.is_empty() { ", " (w.text(&message!("office-defects-photographs", count = defect.photos.len()))) } }
            @if let Some(visit) = known.visit { " " a href={ "/office/visits/" (visit) } { (w.say("office-defects-record")) } }
            @for sent in &defect.forwarded { br; (w.text(&message!("office-defects-reported", sent = Arg::typed(sent)))) }
            @for letter in &letters { br; (w.text(&message!("office-defects-mail", to = Arg::typed(&letter.to), state = state(letter)))) }
            @if !defect.authority.is_empty() { br; (w.text(&message!("office-defects-approval", answer = Arg::typed(&defect.authority)))) } @else if defect.needs_authority && defect.is_open() { br; b { (w.say("office-defects-needs-approval")) } }
            @if !defect.resolved.is_empty() { br; (w.text(&message!("office-defects-repaired", how = Arg::typed(&defect.resolved)))) }
            @if defect.is_open() && user.may(Right::Record) {
                details.no-print {
                    summary { (w.say("office-defects-forward")) }
                    form.stack method="post" action="/office/defects/forward" {
                        (csrf(user))
                        input type="hidden" name="defect" value=(defect.id);
                        @let field = format!("to-{}", defect.id);
                        label for=(field) { (w.say("office-defects-address")) } input.field id=(field) name="to" type="email" required maxlength="200";
                        @let field = format!("words-{}", defect.id);
                        label for=(field) { (w.say("office-defects-words")) } textarea.field id=(field) name="words" maxlength="4000" {}
                        button.go type="submit" { (w.say("office-defects-send")) }
                    }
                }
            }
        }
    }
}

fn state(letter: &Kept) -> Message {
    let said = Arg::typed(&letter.said);
    match letter.state.as_str() {
        "sent" => {
            let time = in_utc(letter.done_at.unwrap_or(letter.asked_at));
            message!("office-defects-sent", time = Arg::typed(time), said = said)
        }
        "failed" => message!("office-defects-failed", said = said),
        _ if letter.tries == 0 => message!("office-defects-waiting"),
        _ => {
            let time = Arg::typed(in_utc(letter.next_at));
            message!("office-defects-tried", count = letter.tries, time = time, said = said)
        }
    }
}

fn letters(user: &OfficeUser, mail: &[Kept]) -> Markup {
    let w = user.words;
    html! {
        @if !mail.is_empty() {
            section {
                h2 { (w.say("office-defects-letters")) }
                div.wide tabindex="0" role="region" aria-label=(w.say("office-defects-letters")) { table {
                    thead { tr { th scope="col" { (w.say("office-defects-letter-to")) } th scope="col" { (w.say("office-defects-about")) } th scope="col" { (w.say("office-defects-asked")) } th scope="col" { (w.say("office-defects-state")) } th.no-print scope="col" { (w.say("office-defects-do")) } } }
                    tbody { @for letter in mail.iter().take(50) { tr {
                        th scope="row" { (letter.to) } td { (letter.subject) @if !letter.photos.is_empty() { br; small { (w.text(&message!("office-defects-photographs", count = letter.photos.len()))) } } } td { (letter.asked_by) ", " (in_utc(letter.asked_at)) } td { (w.text(&state(letter))) }
                        td.no-print { @if letter.state != "sent" && user.may(Right::Record) { form method="post" action="/office/defects/again" { (csrf(user)) input type="hidden" name="number" value=(letter.number); button.key type="submit" { (w.say("office-defects-again")) } } } }
                    } } }
                } }
            }
        }
    }
}

/// The form that forwards a defect.
#[derive(Debug, Deserialize)]
pub struct Forwarding {
    defect: String,
    to: String,
    #[serde(default)]
    words: String,
}

/// `POST /office/defects/forward`: stores the letter, which is sent with the next mail round.
pub async fn forward(
    State(office): State<Arc<Office>>,
    CsrfForm { user, form, .. }: CsrfForm<Forwarding, Records>,
) -> Result<Response, PageError> {
    let id =
        DefectId::read(&form.defect).map_err(|_| PageError::NotThere(message!("office-defects-no-such")))?;
    if !is_address(&form.to) {
        let text = Arg::typed(form.to.trim());
        return Err(PageError::BadForm(message!("office-defects-not-an-address", text = text)));
    }
    let (known, _, _) = known_now(&office).await?;
    let known = known.into_iter().find(|known| known.defect.id == id);
    let known = known.ok_or_else(|| PageError::NotThere(message!("office-defects-no-such")))?;
    let of_the_letter = office.on_database(|database| language::organisation_words(database)).await?;
    let subject = defects::subject_of(of_the_letter, &known);
    let body = defects::letter_of(of_the_letter, &known, &form.words);
    let (now, by, to) = (office.now(), user.name.clone(), form.to.clone());
    let extract = match known.visit {
        Some(visit) => office.on_index(move |asking| asking.show(visit, now)).await?,
        None => None,
    };
    let extract =
        extract.map_or(String::new(), |shown| defects::extract_of(of_the_letter, &known, &shown.view));
    office
        .on_database(move |database| {
            let asked = Asked {
                defect: Some(id),
                visit: known.visit,
                to: &to,
                subject: &subject,
                body: &body,
                extract: &extract,
                photos: &known.defect.photos,
                by: &by,
            };
            queue::ask(database.connection(), &asked, now)
        })
        .await?;
    office.mail_waits.notify_one();
    frame::note(&office, &user, "forwarded", &format!("defect:{id}")).await?;
    Ok(see_other("/office/defects"))
}

/// The form that names a letter.
#[derive(Debug, Deserialize)]
pub struct Which {
    number: i64,
}

/// `POST /office/defects/again`: has a failed letter tried again.
pub async fn again(
    State(office): State<Arc<Office>>,
    CsrfForm { user, form, .. }: CsrfForm<Which, Records>,
) -> Result<Response, PageError> {
    let (now, number) = (office.now(), form.number);
    let there = office.on_database(move |database| queue::again(database.connection(), number, now)).await?;
    if !there {
        return Err(PageError::NotAllowed(message!("office-defects-no-letter")));
    }
    office.mail_waits.notify_one();
    frame::note(&office, &user, "tried again", &format!("mail:{number}")).await?;
    Ok(see_other("/office/defects"))
}
