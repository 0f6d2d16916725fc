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
use farsiding_core::view::{KeyAct, NameStanding, Person, PersonKeyView};
use farsiding_core::{Arg, Message, message};
use farsiding_words::Words;
use maud::{Markup, html};
use serde::Deserialize;

use super::frame::{self, CsrfForm, OfficeUser, Place, csrf, in_utc};
use super::page_error::PageError;
use super::sign_in::see_other;
use crate::enrolment::narrowing;
use crate::grants::right_message;
use crate::name_removal::{self, NameRemovalError};
use crate::office_signer;
use crate::state::Office;

/// The rights that an operator's device may have.
const OPERATOR_RIGHTS: [Right; 6] =
    [Right::Record, Right::Settle, Right::LiftHold, Right::Override, Right::Release, Right::Read];

async fn roster(office: &Office) -> Result<Roster, PageError> {
    let key = office.key.public();
    office.on_ledger(move |ledger| Roster::read(ledger.store(), &key)).await?.map_err(PageError::failed)
}

/// `GET /office/people`: shows the people, their keys and the rules.
pub async fn show(State(office): State<Arc<Office>>, user: OfficeUser) -> Result<Response, PageError> {
    frame::note(&office, &user, "looked", "people").await?;
    let roster = roster(&office).await?;
    let devices = office.on_database(|database| database.devices()).await?;
    let w = user.words;
    let title = w.say("office-people-title");
    let phone = |key: &PersonKeyView| {
        let known = devices.iter().find(|device| device.device == key.device);
        let unknown = || message!("office-today-device", device = Arg::typed(key.device.short()));
        known.map_or_else(|| w.text(&unknown()), |device| device.name.clone())
    };
    let waiting: Vec<&PersonKeyView> =
        roster.keys.iter().filter(|key| key.confirmed.is_none() && key.ended.is_none()).collect();
    let body = html! {
        div.row.apart { h1 { (title) } a.key.no-print href="/office/devices" { (w.say("office-devices-title")) } }
        @if !waiting.is_empty() {
            section { h2 { (w.say("office-people-waiting")) }
                p { (w.say("office-people-ask")) }
                @for key in &waiting { (to_confirm(&user, &roster, key, &phone(key))) }
            }
        }
        section { h2 { (w.say("office-people-people")) }
            @if roster.people.is_empty() && roster.keys.is_empty() { p.none { (w.say("office-people-nobody")) } }
            @else { (people_table(&user, &roster, &phone)) }
        }
        (rules_form(&user, &roster.rules))
    };
    Ok(frame::page(&user, &title, Place::Devices, body))
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
    let w = user.words;
    let (name, code) = (Arg::typed(name_of(roster, &key.person)), Arg::typed(&key.person.0));
    let who = message!("office-people-on", name = name, code = code, device = Arg::typed(phone));
    html! {
        form.row method="post" action="/office/people/confirm" {
            (csrf(user))
            input type="hidden" name="key" value=(key.key);
            div { b { (w.text(&who)) } br; small { (w.text(&message!("office-people-made", time = Arg::typed(in_utc(key.made_at))))) } }
            p.code { (key.fingerprint) }
            @if here { button.go type="submit" { (w.say("office-people-same")) } }
            @else { span.hot { (w.say("office-people-not-here")) } }
        }
    }
}

fn people_table(user: &OfficeUser, roster: &Roster, phone: &dyn Fn(&PersonKeyView) -> String) -> Markup {
    let strangers = roster.keys.iter().map(|key| &key.person).filter(|p| !roster.people.contains_key(*p));
    let mut codes: Vec<&OperatorId> = roster.people.keys().chain(strangers).collect();
    codes.sort_unstable();
    codes.dedup();
    let w = user.words;
    html! {
        div.wide tabindex="0" role="region" aria-label=(w.say("office-people-people")) { table {
            thead { tr { th scope="col" { (w.say("office-people-person")) } th scope="col" { (w.say("office-people-keys")) } th.no-print scope="col" { (w.say("office-people-end")) } th.no-print scope="col" { (w.say("office-people-leaves")) } th.no-print scope="col" { (w.say("office-people-name")) } } }
            tbody { @for code in codes {
                @let mine: Vec<&PersonKeyView> = roster.keys.iter().filter(|key| key.person == *code).collect();
                tr {
                    th scope="row" {
                        (name_of(roster, code)) br; small { (code) @match roster.people.get(code) {
                            None => { " · " span.hot { (w.say("office-people-stranger")) } }
                            Some(person) if !person.active => { " · " (w.say("office-people-gone")) }
                            Some(_) => {}
                        } }
                    }
                    td { @if mine.is_empty() { (w.say("office-people-no-key")) } @for key in &mine { (key_line(w, roster, key, &phone(key))) } }
                    td.no-print { @for key in mine.iter().filter(|key| key.ended.is_none()) { (end_form(user, key)) } }
                    td.no-print { @if roster.people.get(code).is_some_and(|person| person.active) { (left_form(user, code)) } }
                    td.no-print { @if let Some(known) = roster.people.get(code) { (name_cell(user, known)) } }
                }
            } }
        } }
    }
}

fn key_line(w: &Words, roster: &Roster, key: &PersonKeyView, phone: &str) -> Markup {
    let made = Arg::typed(in_utc(key.made_at));
    let remade = made_anew(roster, key);
    html! {
        div {
            b { (key.fingerprint) } " " (w.text(&message!("office-people-key", device = Arg::typed(phone), time = made))) br;
            small { @match (&key.ended, &key.confirmed) {
                (Some(end), _) => { span.hot { (w.text(&ended(end))) } }
                (None, Some(act)) => { (w.text(&message!("office-people-confirmed", time = Arg::typed(in_utc(act.at)), by = Arg::typed(act.by.to_string())))) @if remade { " · " span.hot { (w.say("office-people-remade-end")) } } }
                (None, None) => { span.hot { (w.say("office-people-unconfirmed")) } @if remade { " · " (w.say("office-people-remade")) } }
            } }
        }
    }
}

fn ended(end: &KeyAct) -> Message {
    let (time, by) = (Arg::typed(in_utc(end.at)), Arg::typed(end.by.to_string()));
    match end.why.as_str() {
        "" => message!("office-people-ended", time = time, by = by),
        why => message!("office-people-ended-why", time = time, by = by, why = Arg::typed(why)),
    }
}

fn end_form(user: &OfficeUser, key: &PersonKeyView) -> Markup {
    let w = user.words;
    let id = format!("why-{}", key.key.short());
    html! {
        form.row method="post" action="/office/people/end" {
            (csrf(user))
            input type="hidden" name="key" value=(key.key);
            label.label for=(id) { (w.say("office-people-why")) }
            input.field id=(id) name="why" maxlength="200" required;
            button.key.stop type="submit" aria-label=(w.text(&message!("office-people-end-of", key = Arg::typed(&key.fingerprint)))) { (w.say("office-people-end-it")) }
        }
    }
}

/// Returns the form that removes a person's name, what stands in its place, or nothing for a name that stands in the
/// entries themselves.
fn name_cell(user: &OfficeUser, known: &Person) -> Markup {
    let w = user.words;
    let id = format!("forget-{}", known.operator);
    html! {
        @match known.name_is {
            NameStanding::Removed => { (w.say("office-people-name-removed")) }
            NameStanding::Open => { small { (w.say("office-people-name-open")) } }
            NameStanding::Kept | NameStanding::NotHere => {
                form.row method="post" action="/office/people/forget" {
                    (csrf(user))
                    input type="hidden" name="person" value=(known.operator);
                    label.label for=(id) { (w.say("office-people-why")) }
                    input.field id=(id) name="why" maxlength="200" required;
                    button.key.stop type="submit" aria-label=(w.text(&message!("office-people-forget-of", code = Arg::typed(&known.operator.0)))) { (w.say("office-people-forget")) }
                }
            }
        }
    }
}

fn left_form(user: &OfficeUser, person: &OperatorId) -> Markup {
    let w = user.words;
    let id = format!("left-{person}");
    html! {
        form.row method="post" action="/office/people/left" {
            (csrf(user))
            input type="hidden" name="person" value=(person);
            label.check for=(id) { input id=(id) type="checkbox" name="sure" value="yes" required; span { (w.say("office-people-left-sure")) } }
            button.key.stop type="submit" { (w.say("office-people-left")) }
        }
    }
}

fn rules_form(user: &OfficeUser, rules: &Rules) -> Markup {
    let w = user.words;
    let may = |right: &Right| rules.operator_rights.as_ref().is_none_or(|rights| rights.contains(right));
    html! {
        section { h2 { (w.say("office-people-rules")) }
            form.stack.no-print method="post" action="/office/people/rules" {
                (csrf(user))
                label for="unlocking" { (w.say("office-people-unlocks")) }
                select.field id="unlocking" name="unlocking" {
                    option value="act" selected[rules.unlocking == Unlocking::Act] { (w.say("office-people-for-act")) }
                    option value="shift" selected[rules.unlocking == Unlocking::Shift] { (w.say("office-people-for-shift")) }
                }
                label.check for="signature" {
                    input id="signature" type="checkbox" name="signature_required" value="yes" checked[rules.signature_required];
                    span { (w.say("office-people-signature")) }
                }
                p { (w.say("office-people-rights")) }
                @for right in &OPERATOR_RIGHTS {
                    label.check for=(right.word()) {
                        input id=(right.word()) type="checkbox" name=(right.word()) value="yes" checked[may(right)];
                        span { (w.text(&right_message(*right))) }
                    }
                }
                button.go type="submit" { (w.say("office-people-decide")) }
            }
        }
    }
}

/// Signs entries into the roster with the office signer.
async fn sign(office: &Office, user: &OfficeUser, drafts: Vec<Draft>) -> Result<(), PageError> {
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
        .map_err(PageError::failed)?;
    let _ = office.hints.send(()); // an error only means that there are no listeners
    Ok(())
}

/// Puts the rules into the operators' certificates.
async fn put_into_force(office: &Office) -> Result<(), PageError> {
    let (folder, key, now) = (office.folder.clone(), office.key.clone(), office.now());
    let database = Arc::clone(&office.database);
    office
        .on_ledger(move |ledger| {
            let database = database.lock().unwrap_or_else(PoisonError::into_inner);
            let ledger_file = folder.ledger_place();
            narrowing::put_into_force(&database, (ledger.store_mut(), &ledger_file), &key, now)
        })
        .await?
        .map_err(PageError::failed)?;
    Ok(())
}

/// The form that names a key.
#[derive(Debug, Deserialize)]
pub struct NamedKey {
    key: String,
    #[serde(default)]
    why: String,
}

async fn find(office: &Office, text: &str) -> Result<(Roster, PersonKeyView), PageError> {
    let missing = || PageError::NotThere(message!("office-people-no-such-key"));
    let id = DeviceId::read(text).map_err(|_| missing())?;
    let roster = roster(office).await?;
    let key = roster.keys.iter().find(|key| key.key == id).cloned().ok_or_else(missing)?;
    if key.ended.is_some() {
        return Err(PageError::NotAllowed(message!("office-people-ended-before")));
    }
    Ok((roster, key))
}

/// `POST /office/people/confirm`: confirms a key.
pub async fn confirm(
    State(office): State<Arc<Office>>,
    CsrfForm { user, form, .. }: CsrfForm<NamedKey>,
) -> Result<Response, PageError> {
    let (roster, key) = find(&office, &form.key).await?;
    if !roster.people.get(&key.person).is_some_and(|person| person.active) {
        return Err(PageError::NotAllowed(message!("office-people-only-here")));
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
async fn ending(office: &Office, key: &PersonKeyView, why: &str) -> Result<Draft, PageError> {
    let device = key.device;
    let last = office.on_index(move |asking| asking.newest_of(device)).await?;
    let says = Statement::PersonKeyEnded { person: key.person.clone(), key: key.key, last };
    Ok(Draft::of(says).because(why.trim()))
}

/// `POST /office/people/end`: ends a key.
pub async fn end(
    State(office): State<Arc<Office>>,
    CsrfForm { user, form, .. }: CsrfForm<NamedKey>,
) -> Result<Response, PageError> {
    let (_, key) = find(&office, &form.key).await?;
    if form.why.trim().is_empty() {
        return Err(PageError::BadForm(message!("office-people-say-why")));
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
) -> Result<Response, PageError> {
    if form.sure != "yes" {
        return Err(PageError::BadForm(message!("office-people-sure")));
    }
    let person = OperatorId(form.person);
    let roster = roster(&office).await?;
    let known = roster.people.get(&person).map(|known| known.said.clone());
    let known = known.ok_or_else(|| PageError::NotThere(message!("office-people-no-such")))?;
    let mut drafts = vec![Draft::of(Statement::Operator(Operator { active: false, ..known }))];
    for key in roster.keys.iter().filter(|key| key.person == person && key.ended.is_none()) {
        drafts.push(ending(&office, key, "left").await?);
    }
    sign(&office, &user, drafts).await?;
    frame::note(&office, &user, "noted that somebody left", &format!("person:{person}")).await?;
    Ok(see_other("/office/people"))
}

/// The form that names a person whose name is removed.
#[derive(Debug, Deserialize)]
pub struct Forgotten {
    person: String,
    #[serde(default)]
    why: String,
}

/// `POST /office/people/forget`: deletes a person's name at the office, and tells devices to delete it.
pub async fn forget(
    State(office): State<Arc<Office>>,
    CsrfForm { user, form, .. }: CsrfForm<Forgotten>,
) -> Result<Response, PageError> {
    let why = name_removal::reason(&form.why)
        .map_err(|_| PageError::BadForm(message!("office-people-forget-why")))?;
    let person = OperatorId(form.person);
    let (folder, key, clock) = (office.folder.clone(), office.key.clone(), office.clock.clone());
    let (database, by, whom) = (Arc::clone(&office.database), user.name.clone(), person.clone());
    let done = office
        .on_ledger(move |ledger| {
            let mut database = database.lock().unwrap_or_else(PoisonError::into_inner);
            let stores = (&mut *database, ledger.store_mut());
            name_removal::remove(&folder, stores, &key, &clock, (&whom, &by))
        })
        .await?;
    done.map_err(|error| match error {
        NameRemovalError::Unknown(_) => PageError::NotThere(message!("office-people-no-such")),
        NameRemovalError::Open(_) => PageError::NotAllowed(message!("office-people-name-open")),
        NameRemovalError::Before(_) => PageError::NotAllowed(message!("office-people-forgotten-before")),
        error => PageError::failed(error),
    })?;
    let _ = office.hints.send(()); // an error only means that there are no listeners
    frame::note(&office, &user, name_removal::DID, &name_removal::audited(&person, &why)).await?;
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
) -> Result<Response, PageError> {
    let unlocking = match form.unlocking.as_str() {
        "act" => Unlocking::Act,
        "shift" => Unlocking::Shift,
        _ => return Err(PageError::BadForm(message!("office-people-how-long"))),
    };
    let ticked = |right: &Right| form.ticked.get(right.word()).is_some_and(|value| value == "yes");
    let rights: Vec<Right> = OPERATOR_RIGHTS.into_iter().filter(ticked).collect();
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
