//! The page of people and their keys. Keys are made on phones, confirmed after a telephone call, and ended
//! when they are lost or the person leaves. The page also sets the organisation's rules on signatures and
//! rights.
//!
//! Every change made here is an entry of the roster, signed by the office signer.

use std::sync::{Arc, PoisonError};

use axum::extract::State;
use axum::response::Response;
use farsiding_core::book::{Draft, Roster};
use farsiding_core::entry::site_facts::{Operator, Rules, Unlocking};
use farsiding_core::entry::{Right, Statement};
use farsiding_core::ids::{DeviceId, OperatorId, OrganisationId, Subject};
use farsiding_core::view::PersonKeyView;
use maud::{Markup, html};
use serde::Deserialize;

use super::frame::{self, CsrfForm, OfficeUser, Place, csrf, in_utc};
use super::refused::Refused;
use super::sign_in::see_other;
use crate::enrolment::narrowing;
use crate::office_signer;
use crate::state::Office;

/// The rights that an operator's device may have, with their words on the page.
const OPERATOR_RIGHTS: [(Right, &str); 6] = [
    (Right::Record, "record stays"),
    (Right::Settle, "settle accounts that differ, join two records"),
    (Right::LiftHold, "lift a hold"),
    (Right::Override, "pass over what speaks against release"),
    (Right::Release, "release a car"),
    (Right::Read, "receive records"),
];

async fn roster(office: &Office) -> Result<Roster, Refused> {
    let key = office.key.public();
    office.on_ledger(move |ledger| Roster::read(ledger.store(), &key)).await?.map_err(Refused::failed)
}

/// `GET /office/people`: shows the people, their keys and the rules.
pub async fn show(State(office): State<Arc<Office>>, user: OfficeUser) -> Result<Response, Refused> {
    frame::note(&office, &user, "looked", "people").await?;
    let roster = roster(&office).await?;
    let devices = office.on_database(|database| database.devices()).await?;
    let phone = |key: &PersonKeyView| {
        let known = devices.iter().find(|device| device.device == key.device);
        known.map_or_else(|| format!("device {}", key.device.short()), |device| device.name.clone())
    };
    let waiting: Vec<&PersonKeyView> =
        roster.keys.iter().filter(|key| key.confirmed.is_none() && key.ended.is_none()).collect();
    let body = html! {
        div.row.apart { h1 { "People and keys" } a.key.no-print href="/office/devices" { "Devices" } }
        @if !waiting.is_empty() {
            section { h2 { "To be confirmed" }
                p { "Ask the person by telephone, at a number you know, to read the sixteen digits from the phone. Confirm only when they are the same." }
                @for key in &waiting { (to_confirm(&user, &roster, key, &phone(key))) }
            }
        }
        section { h2 { "People" }
            @if roster.people.is_empty() && roster.keys.is_empty() { p.none { "Nobody is on the roster yet." } }
            @else { (people_table(&user, &roster, &phone)) }
        }
        (rules_form(&user, &roster.rules))
    };
    Ok(frame::page(&user, "People and keys", Place::Devices, body))
}

fn name_of<'r>(roster: &'r Roster, person: &'r OperatorId) -> &'r str {
    roster.people.get(person).map_or(person.0.as_str(), |known| known.name.as_str())
}

/// Returns whether the same person later made another key on the same phone. In that case the PIN of this key
/// was probably forgotten.
fn made_anew(roster: &Roster, key: &PersonKeyView) -> bool {
    roster.keys.iter().any(|other| {
        other.person == key.person && other.device == key.device && other.made_seq > key.made_seq
    })
}

fn to_confirm(user: &OfficeUser, roster: &Roster, key: &PersonKeyView, phone: &str) -> Markup {
    let here = roster.people.get(&key.person).is_some_and(|person| person.active);
    html! {
        form.row method="post" action="/office/people/confirm" {
            (csrf(user))
            input type="hidden" name="key" value=(key.key);
            div { b { (name_of(roster, &key.person)) } " (" (key.person) "), on " (phone) br; small { "made " (in_utc(key.made_at)) } }
            p.code { (key.fingerprint) }
            @if here { button.go type="submit" { "The digits are the same" } }
            @else { span.hot { "Not on the roster, or no longer with us" } }
        }
    }
}

fn people_table(user: &OfficeUser, roster: &Roster, phone: &dyn Fn(&PersonKeyView) -> String) -> Markup {
    let strangers = roster.keys.iter().map(|key| &key.person).filter(|p| !roster.people.contains_key(*p));
    let mut codes: Vec<&OperatorId> = roster.people.keys().chain(strangers).collect();
    codes.sort_unstable();
    codes.dedup();
    html! {
        div.wide tabindex="0" role="region" aria-label="People" { table {
            thead { tr { th scope="col" { "Person" } th scope="col" { "Keys" } th.no-print scope="col" { "End a key" } th.no-print scope="col" { "Leaves" } } }
            tbody { @for code in codes {
                @let mine: Vec<&PersonKeyView> = roster.keys.iter().filter(|key| key.person == *code).collect();
                tr {
                    th scope="row" {
                        (name_of(roster, code)) br; small { (code) @match roster.people.get(code) {
                            None => { " · " span.hot { "not on the roster" } }
                            Some(person) if !person.active => { " · no longer with us" }
                            Some(_) => {}
                        } }
                    }
                    td { @if mine.is_empty() { "none: named by the phone alone" } @for key in &mine { (key_line(roster, key, &phone(key))) } }
                    td.no-print { @for key in mine.iter().filter(|key| key.ended.is_none()) { (end_form(user, key)) } }
                    td.no-print { @if roster.people.get(code).is_some_and(|person| person.active) { (left_form(user, code)) } }
                }
            } }
        } }
    }
}

fn key_line(roster: &Roster, key: &PersonKeyView, phone: &str) -> Markup {
    html! {
        div {
            b { (key.fingerprint) } " on " (phone) ", made " (in_utc(key.made_at)) br;
            small { @match (&key.ended, &key.confirmed) {
                (Some(end), _) => { span.hot { "ended" } " " (in_utc(end.at)) " by " (end.by) @if !end.why.is_empty() { ": " (end.why) } }
                (None, Some(act)) => { "confirmed " (in_utc(act.at)) " by " (act.by) @if made_anew(roster, key) { " · " span.hot { "made anew since on the same phone: end this one" } } }
                (None, None) => { span.hot { "not confirmed" } @if made_anew(roster, key) { " · made anew since" } }
            } }
        }
    }
}

fn end_form(user: &OfficeUser, key: &PersonKeyView) -> Markup {
    let id = format!("why-{}", key.key.short());
    html! {
        form.row method="post" action="/office/people/end" {
            (csrf(user))
            input type="hidden" name="key" value=(key.key);
            label.label for=(id) { "Why" }
            input.field id=(id) name="why" maxlength="200" required;
            button.key.stop type="submit" aria-label={ "End key " (key.fingerprint) } { "End it" }
        }
    }
}

fn left_form(user: &OfficeUser, person: &OperatorId) -> Markup {
    let id = format!("left-{person}");
    html! {
        form.row method="post" action="/office/people/left" {
            (csrf(user))
            input type="hidden" name="person" value=(person);
            label.check for=(id) { input id=(id) type="checkbox" name="sure" value="yes" required; span { "Left; end all keys" } }
            button.key.stop type="submit" { "Has left" }
        }
    }
}

fn rules_form(user: &OfficeUser, rules: &Rules) -> Markup {
    let may = |right: &Right| rules.operator_rights.as_ref().is_none_or(|rights| rights.contains(right));
    html! {
        section { h2 { "Signatures and rights" }
            form.stack.no-print method="post" action="/office/people/rules" {
                (csrf(user))
                label for="unlocking" { "A PIN unlocks a person's key" }
                select.field id="unlocking" name="unlocking" {
                    option value="act" selected[rules.unlocking == Unlocking::Act] { "for one act" }
                    option value="shift" selected[rules.unlocking == Unlocking::Shift] { "for the shift" }
                }
                label.check for="signature" {
                    input id="signature" type="checkbox" name="signature_required" value="yes" checked[rules.signature_required];
                    span { "What binds a person counts only with the person's own signature" }
                }
                p { "An operator's device may, at its sites:" }
                @for (right, words) in &OPERATOR_RIGHTS {
                    label.check for=(right.word()) {
                        input id=(right.word()) type="checkbox" name=(right.word()) value="yes" checked[may(right)];
                        span { (words) }
                    }
                }
                button.go type="submit" { "Decide" }
            }
        }
    }
}

/// Signs entries into the roster with the office signer.
async fn sign(office: &Office, user: &OfficeUser, drafts: Vec<Draft>) -> Result<(), Refused> {
    let (folder, key, clock) = (office.folder.clone(), office.key.clone(), office.clock.clone());
    let (database, by) = (Arc::clone(&office.database), user.name.clone());
    let subject = Subject::Roster(OrganisationId::of_key(&key.public()));
    office
        .on_ledger(move |ledger| {
            let mut database = database.lock().unwrap_or_else(PoisonError::into_inner);
            let drafts = (subject, drafts, by.as_str());
            office_signer::sign_all(&folder, (&mut database, ledger.store_mut()), &key, &clock, drafts)
        })
        .await?
        .map_err(Refused::failed)?;
    let _ = office.hints.send(()); // an error only means that there are no listeners
    Ok(())
}

/// Puts the rules into the operators' certificates.
async fn put_into_force(office: &Office) -> Result<(), Refused> {
    let (folder, key, now) = (office.folder.clone(), office.key.clone(), office.now());
    let database = Arc::clone(&office.database);
    office
        .on_ledger(move |ledger| {
            let database = database.lock().unwrap_or_else(PoisonError::into_inner);
            let ledger_file = folder.ledger_file();
            narrowing::put_into_force(&database, (ledger.store_mut(), &ledger_file), &key, now)
        })
        .await?
        .map_err(Refused::failed)?;
    Ok(())
}

/// The form that names a key.
#[derive(Debug, Deserialize)]
pub struct NamedKey {
    key: String,
    #[serde(default)]
    why: String,
}

async fn find(office: &Office, text: &str) -> Result<(Roster, PersonKeyView), Refused> {
    let missing = || Refused::NotThere("There is no such key.".to_owned());
    let id = DeviceId::read(text).map_err(|_| missing())?;
    let roster = roster(office).await?;
    let key = roster.keys.iter().find(|key| key.key == id).cloned().ok_or_else(missing)?;
    if key.ended.is_some() {
        return Err(Refused::NotAllowed("This key was ended already.".to_owned()));
    }
    Ok((roster, key))
}

/// `POST /office/people/confirm`: confirms a key.
pub async fn confirm(
    State(office): State<Arc<Office>>,
    CsrfForm { user, form, .. }: CsrfForm<NamedKey>,
) -> Result<Response, Refused> {
    let (roster, key) = find(&office, &form.key).await?;
    if !roster.people.get(&key.person).is_some_and(|person| person.active) {
        let why = "A key is confirmed only for a person of the roster who is with the organisation now.";
        return Err(Refused::NotAllowed(why.to_owned()));
    }
    if key.confirmed.is_none() {
        let says = Statement::PersonKeyConfirmed { person: key.person.clone(), key: key.key };
        sign(&office, &user, vec![Draft::of(says)]).await?;
        frame::note(&office, &user, "confirmed a key", &format!("key:{}", key.key)).await?;
    }
    Ok(see_other("/office/people"))
}

/// Returns the statement that a key has ended. The statement names the last known entry of the phone that
/// holds the key.
async fn ending(office: &Office, key: &PersonKeyView, why: &str) -> Result<Draft, Refused> {
    let device = key.device;
    let last = office.on_index(move |asking| asking.newest_of(device)).await?;
    let says = Statement::PersonKeyEnded { person: key.person.clone(), key: key.key, last };
    Ok(Draft::of(says).because(why.trim()))
}

/// `POST /office/people/end`: ends a key.
pub async fn end(
    State(office): State<Arc<Office>>,
    CsrfForm { user, form, .. }: CsrfForm<NamedKey>,
) -> Result<Response, Refused> {
    let (_, key) = find(&office, &form.key).await?;
    if form.why.trim().is_empty() {
        return Err(Refused::BadForm("Say why; the key was not ended.".to_owned()));
    }
    let draft = ending(&office, &key, &form.why).await?;
    sign(&office, &user, vec![draft]).await?;
    frame::note(&office, &user, "ended a key", &format!("key:{}", key.key)).await?;
    Ok(see_other("/office/people"))
}

/// The form that names a person who has left.
#[derive(Debug, Deserialize)]
pub struct Left {
    person: String,
    #[serde(default)]
    sure: String,
}

/// `POST /office/people/left`: marks a person as having left, and ends all the person's keys, at once.
pub async fn left(
    State(office): State<Arc<Office>>,
    CsrfForm { user, form, .. }: CsrfForm<Left>,
) -> Result<Response, Refused> {
    if form.sure != "yes" {
        return Err(Refused::BadForm("Tick that you are sure; nothing was changed.".to_owned()));
    }
    let person = OperatorId(form.person);
    let roster = roster(&office).await?;
    let known = roster.people.get(&person).cloned();
    let known = known.ok_or_else(|| Refused::NotThere("There is no such person.".to_owned()))?;
    let mut drafts = vec![Draft::of(Statement::Operator(Operator { active: false, ..known }))];
    for key in roster.keys.iter().filter(|key| key.person == person && key.ended.is_none()) {
        drafts.push(ending(&office, key, "left").await?);
    }
    sign(&office, &user, drafts).await?;
    frame::note(&office, &user, "noted that somebody left", &format!("person:{person}")).await?;
    Ok(see_other("/office/people"))
}

/// The form with the organisation's rules. A box that is not ticked is not sent.
#[derive(Debug, Deserialize)]
pub struct Decided {
    unlocking: String,
    #[serde(default)]
    signature_required: String,
    #[serde(flatten)]
    ticked: std::collections::BTreeMap<String, String>,
}

/// `POST /office/people/rules`: sets the rules.
pub async fn rules(
    State(office): State<Arc<Office>>,
    CsrfForm { user, form, .. }: CsrfForm<Decided>,
) -> Result<Response, Refused> {
    let unlocking = match form.unlocking.as_str() {
        "act" => Unlocking::Act,
        "shift" => Unlocking::Shift,
        _ => return Err(Refused::BadForm("Say for how long a PIN unlocks.".to_owned())),
    };
    let ticked = |right: &Right| form.ticked.get(right.word()).is_some_and(|value| value == "yes");
    let rights: Vec<Right> = OPERATOR_RIGHTS.iter().map(|(right, _)| *right).filter(ticked).collect();
    let decided = Rules {
        // With all rights ticked the rules are the built-in ones, which narrow nothing.
        operator_rights: (rights.len() < OPERATOR_RIGHTS.len()).then_some(rights),
        unlocking,
        signature_required: form.signature_required == "yes",
    };
    if roster(&office).await?.rules != decided {
        sign(&office, &user, vec![Draft::of(Statement::Rules(decided))]).await?;
        put_into_force(&office).await?;
        frame::note(&office, &user, "decided about signatures", "people").await?;
    }
    Ok(see_other("/office/people"))
}
