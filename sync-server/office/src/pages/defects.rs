//! The page of defects, the overdue ones first, with forwarding by mail, and of fittings that are wearing
//! out.

use std::sync::Arc;

use axum::extract::State;
use axum::response::Response;
use farsiding_core::clock::UtcMillis;
use farsiding_core::ids::DefectId;
use maud::{Markup, html};
use serde::Deserialize;

use super::frame::{self, CsrfForm, OfficeUser, Place, Records, csrf, in_utc, plural};
use super::refused::Refused;
use super::seals::LOOK_BACK;
use super::sign_in::see_other;
use crate::accounts::roles::Right;
use crate::defects::mail::{MailError, MailSettings, is_address};
use crate::defects::queue::{self, Asked, Kept};
use crate::defects::{self, KnownDefect};
use crate::month;
use crate::state::Office;

async fn known_now(office: &Office) -> Result<(Vec<KnownDefect>, Vec<defects::Worn>, Vec<Kept>), Refused> {
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
pub async fn show(State(office): State<Arc<Office>>, user: OfficeUser) -> Result<Response, Refused> {
    frame::note(&office, &user, "looked", "defects").await?;
    let (known, worn, mail) = known_now(&office).await?;
    let set_up = MailSettings::read(office.folder.path());
    let (overdue, open) = (
        known.iter().filter(|k| !k.overdue.is_empty()).count(),
        known.iter().filter(|k| k.defect.is_open()).count(),
    );
    let body = html! {
        h1 { "Defects" }
        p.lead { (open) " open" @if overdue > 0 { ", " b.hot { (overdue) " overdue" } } "." }
        @match &set_up {
            Err(MailError::NotSetUp) => { p.small { "Mail is not set up: put a mail.toml into the data folder (host, port, security, from). Letters can be asked for and wait until then." } }
            Err(error) => { p.trouble { (error) } }
            Ok(_) => {}
        }
        (frame::behind(&office))
        @if known.is_empty() { p.none { "No defect was recorded." } }
        ul.plain { @for defect in &known { (one(&user, defect, &mail)) } }
        section {
            h2 { "Fittings that wear" }
            @if worn.is_empty() { p.none { "No closing effort lies above the usual band or rises." } } @else {
                div.wide tabindex="0" role="region" aria-label="Fittings that wear" { table {
                    caption { "Usual band 20 to 40 ft·lbf (common practice, no source); a rise is the Theil–Sen slope beyond its ±." }
                    thead { tr { th scope="col" { "Car" } th scope="col" { "Fitting" } th.num scope="col" { "Efforts, ft·lbf" } th scope="col" { "What they say" } } }
                    tbody { @for fitting in &worn { tr {
                        th scope="row" { @match fitting.visit { Some(visit) => { a href={ "/office/visits/" (visit) } { (fitting.car) } } None => { (fitting.car) } } }
                        td { (fitting.fitting.name()) }
                        td.num { (fitting.efforts.iter().rev().take(8).rev().map(|(_, effort)| format!("{effort:.0}")).collect::<Vec<_>>().join(" · ")) }
                        td { @for finding in &fitting.wear.findings { (finding.message) " " } }
                    } } }
                } }
            }
        }
        (letters(&user, &mail))
    };
    Ok(frame::page(&user, "Defects", Place::Defects, body))
}

fn one(user: &OfficeUser, known: &KnownDefect, mail: &[Kept]) -> Markup {
    let defect = &known.defect;
    let letters: Vec<&Kept> = mail.iter().filter(|kept| kept.defect == Some(defect.id)).collect();
    html! {
        li.hot-edge[!known.overdue.is_empty()] {
            b { (known.car) @if let Some(fitting) = defect.fitting { ", " (fitting.name()) } ": " (defect.what) }
            @if !known.overdue.is_empty() { br; span.hot { "Overdue: " (known.overdue) "." } }
            br; small { "Noted by " (defect.by) ", " (defect.noted_shown) @if !known.site_name.is_empty() { ", " (known.site_name) } @if !defect.photos.is_empty() { ", " (plural(defect.photos.len(), "photograph", "photographs")) } "." }
            @if let Some(visit) = known.visit { " " a href={ "/office/visits/" (visit) } { "The record" } }
            @for sent in &defect.forwarded { br; "Forwarded at the car: " (sent) }
            @for letter in &letters { br; "Mail to " (letter.to) ": " (state(letter)) }
            @if !defect.authority.is_empty() { br; "Authority: " (defect.authority) } @else if defect.needs_authority && defect.is_open() { br; b { "Needs an authority's answer before the car moves." } }
            @if !defect.resolved.is_empty() { br; "Put right: " (defect.resolved) }
            @if defect.is_open() && user.may(Right::Record) {
                details.no-print {
                    summary { "Forward it by mail" }
                    form.stack method="post" action="/office/defects/forward" {
                        (csrf(user))
                        input type="hidden" name="defect" value=(defect.id);
                        @let field = format!("to-{}", defect.id);
                        label for=(field) { "To this address" } input.field id=(field) name="to" type="email" required maxlength="200";
                        @let field = format!("words-{}", defect.id);
                        label for=(field) { "Words to go before the record's extract" } textarea.field id=(field) name="words" maxlength="4000" {}
                        button.go type="submit" { "Send" }
                    }
                }
            }
        }
    }
}

fn state(letter: &Kept) -> String {
    match letter.state.as_str() {
        "sent" => format!("sent {} ({})", in_utc(letter.done_at.unwrap_or(letter.asked_at)), letter.said),
        "failed" => format!("FAILED: {}", letter.said),
        _ if letter.tries == 0 => "waiting to be sent".to_owned(),
        _ => {
            format!("tried {}, again at {}: {}", times(letter.tries), in_utc(letter.next_at), letter.said)
        }
    }
}

fn times(tries: u32) -> String {
    match tries {
        1 => "once".to_owned(),
        2 => "twice".to_owned(),
        more => format!("{more} times"),
    }
}

fn letters(user: &OfficeUser, mail: &[Kept]) -> Markup {
    html! {
        @if !mail.is_empty() {
            section {
                h2 { "Letters" }
                div.wide tabindex="0" role="region" aria-label="Letters" { table {
                    thead { tr { th scope="col" { "To" } th scope="col" { "About" } th scope="col" { "Asked" } th scope="col" { "State" } th.no-print scope="col" { "Do" } } }
                    tbody { @for letter in mail.iter().take(50) { tr {
                        th scope="row" { (letter.to) } td { (letter.subject) @if !letter.photos.is_empty() { br; small { "with " (plural(letter.photos.len(), "photograph", "photographs")) } } } td { (letter.asked_by) ", " (in_utc(letter.asked_at)) } td { (state(letter)) }
                        td.no-print { @if letter.state != "sent" && user.may(Right::Record) { form method="post" action="/office/defects/again" { (csrf(user)) input type="hidden" name="number" value=(letter.number); button.key type="submit" { "Try again now" } } } }
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
) -> Result<Response, Refused> {
    let id =
        DefectId::read(&form.defect).map_err(|_| Refused::NotThere("There is no such defect.".to_owned()))?;
    if !is_address(&form.to) {
        return Err(Refused::BadForm(format!("\u{201c}{}\u{201d} is no address.", form.to.trim())));
    }
    let (known, _, _) = known_now(&office).await?;
    let known = known.into_iter().find(|known| known.defect.id == id);
    let known = known.ok_or_else(|| Refused::NotThere("There is no such defect.".to_owned()))?;
    let subject = defects::subject_of(&known);
    let body = defects::letter_of(&known, &form.words);
    let (now, by, to) = (office.now(), user.name.clone(), form.to.clone());
    let extract = match known.visit {
        Some(visit) => office.on_index(move |asking| asking.show(visit, now)).await?,
        None => None,
    };
    let extract = extract.map_or(String::new(), |shown| defects::extract_of(&known, &shown.view));
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
) -> Result<Response, Refused> {
    let (now, number) = (office.now(), form.number);
    let there = office.on_database(move |database| queue::again(database.connection(), number, now)).await?;
    if !there {
        return Err(Refused::NotAllowed("That letter was sent, or is not there.".to_owned()));
    }
    office.mail_waits.notify_one();
    frame::note(&office, &user, "tried again", &format!("mail:{number}")).await?;
    Ok(see_other("/office/defects"))
}
