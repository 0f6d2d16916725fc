//! The page of all devices: enrol a device with a one-time code shown as a QR code, revoke a device after a
//! confirmation, and see when each device last synced, how far its clock was off and what it had not sent.
//! The grant of one device is on the page `device`, and the late entries of revoked devices on `late`.

use std::sync::{Arc, PoisonError};

use axum::extract::{Path, State};
use axum::response::Response;
use farsiding_core::entry::Role;
use farsiding_core::ids::{DeviceId, SiteId};
use farsiding_core::{Arg, message};
use maud::{Markup, PreEscaped, html};
use qrcode::render::svg;
use qrcode::{EcLevel, QrCode};
use serde::Deserialize;

use super::device::{self, GrantForm};
use super::frame::{self, Administers, Allowed, CsrfForm, OfficeUser, Place, ago, csrf, in_utc};
use super::page_error::PageError;
use super::sign_in::see_other;
use super::today::unsent_message;
use super::visit_story::clock_words;
use crate::accounts::roles::Right;
use crate::enrolment::{self, EnrolmentError, Invitation};
use crate::grants::{self, role_message};
use crate::index::chains::Gap;
use crate::late;
use crate::office_database::RegisteredDevice;
use crate::state::Office;
use farsiding_host::SystemRandomness;
use farsiding_words::Words;

/// The heads of the table of devices.
const HEADS: [&str; 6] = [
    "office-devices-device",
    "office-devices-grants",
    "office-devices-heard",
    "office-devices-clock",
    "office-devices-unsent",
    "office-devices-chain",
];
/// The number of minutes for which a code is valid.
const GOOD_FOR: u32 = 60;

/// `GET /office/devices`: shows all devices.
pub async fn show(State(office): State<Arc<Office>>, user: OfficeUser) -> Result<Response, PageError> {
    frame::note(&office, &user, "looked", "devices").await?;
    let devices = office.on_database(|database| database.devices()).await?;
    let (listed, now) = (devices.clone(), office.now());
    let asked = move |asking: &crate::index::Asking<'_>| {
        Ok((asking.gaps()?, asking.sites()?, late::count(asking, &listed, now)?))
    };
    let (gaps, sites, late) = office.on_index(asked).await?;
    let w = user.words;
    let title = w.say("office-devices-title");
    let body = html! {
        div.row.apart { h1 { (title) } div.row.no-print { a.key href="/office/people" { (w.say("office-devices-people")) } a.key href="/office/devices" { (w.say("office-devices-refresh")) } } }
        @if user.may(Right::Administer) { section.no-print {
            h2 { (w.say("office-devices-enroll")) }
            form.stack method="post" action="/office/devices/enrol" {
                (csrf(&user))
                label for="name" { (w.say("office-devices-name")) }
                input.field id="name" name="name" maxlength="64" required;
                label for="role" { (w.say("office-devices-role")) }
                select.field id="role" name="role" {
                    option value="operator" { (w.say("office-devices-role-operator")) }
                    option value="office" { (w.say("office-devices-role-office")) }
                    option value="inspector" { (w.say("office-devices-role-inspector")) }
                }
                details.more {
                    summary { (w.say("office-devices-grant")) }
                    (device::grant_fields(w, &grants::Grant::default(), &sites))
                }
                button.go type="submit" { (w.say("office-devices-make-code")) }
            }
        } }
        div #devices data-live="" {
            @if late > 0 {
                p.told { (w.text(&message!("office-devices-late-waiting", count = late))) " " a href="/office/late" { (w.say("office-devices-late")) } }
            }
            div.row.apart { h2 { (w.say("office-devices-enrolled")) } @if late == 0 { a href="/office/late" { (w.say("office-devices-late")) } } }
            p.small.no-print { a href="/office/refused" { (w.say("office-devices-refused")) } }
            @if devices.is_empty() { p.none { (w.say("office-devices-none")) } } @else {
                div.wide tabindex="0" role="region" aria-label=(title) {
                    table {
                        thead { tr { @for head in HEADS { th scope="col" { (w.say(head)) } } th.no-print scope="col" { (w.say("office-devices-change")) } } }
                        tbody { @for device in &devices { (row(&user, device, &gaps, &sites, now)) } }
                    }
                }
            }
        }
    };
    Ok(frame::page(&user, &title, Place::Devices, body))
}

fn row(
    user: &OfficeUser,
    device: &RegisteredDevice,
    gaps: &[(DeviceId, Gap)],
    sites: &[(SiteId, String)],
    now: farsiding_core::clock::UtcMillis,
) -> Markup {
    let w = user.words;
    let mine: Vec<String> = gaps
        .iter()
        .filter(|(whose, _)| *whose == device.device)
        .map(|(_, gap)| w.text(&gap.sentence(&device.name)))
        .collect();
    let until = device.grant.until_message();
    html! {
        tr {
            th scope="row" {
                a href={ "/office/devices/" (device.device) } { (device.name) } br;
                small { (w.text(&role_message(device.role))) " · " (device.device.short()) @if !device.own_name.is_empty() && device.own_name != device.name { " · " (w.text(&message!("office-devices-own-name", name = Arg::typed(&device.own_name)))) } }
            }
            td {
                (w.text(&device.grant.sites_message(sites))) br;
                small { (w.text(&device.grant.rights_message())) " · " @if device::is_over(device, now) { span.hot { (w.text(&message!("office-devices-ended", until = until))) } } @else { (w.text(&until)) } }
            }
            td { @match device.seen_at { Some(at) => { (w.text(&ago(now.since(at)))) br; small { (in_utc(at)) } } None => { (w.say("office-devices-never")) } } }
            td {
                @match device.ahead_millis {
                    None => { "—" }
                    Some(ahead) => { @match clock_words(ahead) { Some(off) => { span.hot { (w.text(&off)) } } None => { (w.say("office-devices-clock-right")) } } }
                }
            }
            td {
                @match (device.unsent_entries, device.unsent_photos) {
                    (None, None) => { "—" }
                    (entries, photos) => { (w.text(&unsent_message(entries.unwrap_or(0), photos.unwrap_or(0)))) }
                }
            }
            td { @if mine.is_empty() { (w.say("office-devices-no-gap")) } @else { @for sentence in &mine { span.hot { (sentence) } br; } } }
            td.no-print {
                @match device.revoked_at {
                    Some(at) => { span.hot { (w.say("office-devices-revoked")) } br; small { (in_utc(at)) } }
                    None if !user.may(Right::Administer) => { "—" }
                    None => { a.key href={ "/office/devices/" (device.device) } aria-label=(w.text(&message!("office-devices-change-of", name = Arg::typed(&device.name)))) { (w.say("office-devices-change")) } }
                }
            }
        }
    }
}

/// The form for a new device: its name, role and grant.
#[derive(Debug, Deserialize)]
pub struct NewDevice {
    name: String,
    role: String,
    #[serde(flatten)]
    grant: GrantForm,
}

/// `POST /office/devices/enrol`: shows a new code once.
pub async fn enrol(
    State(office): State<Arc<Office>>,
    CsrfForm { user, form, .. }: CsrfForm<NewDevice, Administers>,
) -> Result<Response, PageError> {
    let role = match form.role.as_str() {
        "operator" => Role::Operator,
        "office" => Role::Office,
        "inspector" => Role::Inspector,
        _ => return Err(PageError::BadForm(message!("office-devices-say-role"))),
    };
    let (now, database, name) = (office.now(), Arc::clone(&office.database), form.name.clone());
    let sites = office.on_index(|asking| asking.sites()).await?;
    let refused = |error: grants::GrantError| PageError::BadForm(error.message());
    grants::check_role(role, &form.grant.sites_typed()).map_err(refused)?;
    let grant = form.grant.read(&sites, now)?.for_role(role);
    let granted = grant.clone();
    let mut randomness = SystemRandomness::new().map_err(PageError::failed)?;
    let issued = tokio::task::spawn_blocking(move || {
        let database = database.lock().unwrap_or_else(PoisonError::into_inner);
        let invitation = Invitation { name: &name, role, grant, minutes: GOOD_FOR };
        let issued = enrolment::issue(&database, &invitation, now, &mut randomness)?;
        Ok::<_, EnrolmentError>((issued, database.server_url()?))
    });
    let (made, url) = issued.await.map_err(PageError::failed)?.map_err(refused_enrolment)?;
    let (code, until) = (made.code, made.expires_at);
    frame::note(&office, &user, "made a code for", form.name.trim()).await?;
    let url = url.unwrap_or_default();
    let text = enrolment::enrolment_text(&url, &code, &office.key);
    let w = user.words;
    let title = w.text(&message!("office-devices-enroll-of", name = Arg::typed(form.name.trim())));
    let one_until = message!("office-devices-one-until", time = Arg::typed(in_utc(until)));
    let body = html! {
        h1 { (title) }
        div.two {
            (picture(w, &text)?)
            div {
                p.lead { (w.say("office-devices-how")) }
                p.code { (code) }
                dl.facts {
                    dt { (w.say("office-devices-good-for")) } dd { (w.text(&one_until)) }
                    (device::granted(w, &granted, &sites, false))
                    dt { (w.say("office-devices-server")) } dd { (url) }
                    dt { (w.say("office-devices-server-key")) } dd { (office.key.public().fingerprint()) " …" }
                }
                @if made.replaces { p.told { (w.say("office-devices-replaces")) } }
                p.small { (w.say("office-devices-once")) }
                p { a.key href="/office/devices" { (w.say("office-devices-back")) } }
            }
        }
    };
    Ok(frame::page(&user, &title, Place::Devices, body))
}

/// Returns a text as a QR code.
///
/// # Errors
/// Returns [`PageError::Failed`] when the text is too long for a QR code.
pub fn picture(w: &Words, text: &str) -> Result<Markup, PageError> {
    let code = QrCode::with_error_correction_level(text, EcLevel::M).map_err(PageError::failed)?;
    let drawn = code.render::<svg::Color<'_>>().quiet_zone(true).min_dimensions(240, 240).build();
    // Only the drawing itself is used; the page sets the frame and the colours.
    let start = drawn.find("<svg").unwrap_or(0);
    let label = html! { (w.say("office-devices-picture")) }.into_string();
    let tag = format!(r#"<svg class="qr" role="img" aria-label="{label}" "#);
    Ok(PreEscaped(drawn.get(start..).unwrap_or_default().replacen("<svg ", &tag, 1)))
}

/// Returns the page for a failed enrolment. A failure that the person can correct is shown on the page of the
/// form; any other failure is internal.
pub(super) fn refused_enrolment(error: EnrolmentError) -> PageError {
    PageError::BadForm(match error {
        EnrolmentError::BadName => message!("office-devices-bad-name"),
        EnrolmentError::NameTaken { name, id, free } => message!(
            "office-devices-name-taken",
            name = Arg::typed(name),
            device = Arg::typed(id),
            free = Arg::typed(free),
        ),
        EnrolmentError::NameOfTheOffice(name) => {
            message!("office-devices-office-name", name = Arg::typed(name))
        }
        EnrolmentError::Revoked => message!("office-devices-is-revoked"),
        other => return PageError::failed(other),
    })
}

/// Returns the device named in an address.
pub(super) async fn find(office: &Office, text: &str) -> Result<RegisteredDevice, PageError> {
    let missing = || PageError::NotThere(message!("office-devices-no-such"));
    let id = DeviceId::read(text).map_err(|_| missing())?;
    office.on_database(move |database| database.device(id)).await?.ok_or_else(missing)
}

/// `GET /office/devices/{device}/revoke`: asks for confirmation.
pub async fn ask_revoke(
    State(office): State<Arc<Office>>,
    Allowed { user, .. }: Allowed<Administers>,
    Path(device): Path<String>,
) -> Result<Response, PageError> {
    let device = find(&office, &device).await?;
    let w = user.words;
    let name = || Arg::typed(&device.name);
    let body = html! {
        h1 { (w.text(&message!("office-devices-revoke-question", name = name()))) }
        p.lead { (w.say("office-devices-revoke-lead")) }
        form.stack method="post" action={ "/office/devices/" (device.device) "/revoke" } {
            (csrf(&user))
            label.check for="sure" { input id="sure" type="checkbox" name="sure" value="yes" required; span { (w.say("office-devices-revoke-sure")) } }
            div.row {
                button.key.stop type="submit" { (w.text(&message!("office-devices-revoke-of", name = name()))) }
                a.key href="/office/devices" { (w.say("office-devices-leave")) }
            }
        }
    };
    Ok(frame::page(&user, &w.say("office-devices-revoke-title"), Place::Devices, body))
}

/// The form with the person's confirmation.
#[derive(Debug, Deserialize)]
pub struct Sure {
    #[serde(default)]
    sure: String,
}

/// `POST /office/devices/{device}/revoke`: revokes the device.
pub async fn revoke(
    State(office): State<Arc<Office>>,
    Path(device): Path<String>,
    CsrfForm { user, form, .. }: CsrfForm<Sure, Administers>,
) -> Result<Response, PageError> {
    if form.sure != "yes" {
        return Err(PageError::BadForm(message!("office-devices-sure")));
    }
    let device = find(&office, &device).await?;
    let (now, key, database) = (office.now(), office.key.clone(), Arc::clone(&office.database));
    let (id, file) = (device.device.to_string(), office.folder.ledger_place());
    let outcome = office
        .on_ledger(move |ledger| {
            let database = database.lock().unwrap_or_else(PoisonError::into_inner);
            enrolment::revoke(&database, (ledger.store_mut(), &file), &key, &id, now)
        })
        .await?;
    outcome.map_err(PageError::failed)?;
    tracing::info!(device = device.device.short(), "revoked at the office");
    let _ = office.hints.send(()); // wakes the index, which then reads the certificates
    frame::note(&office, &user, "revoked", &format!("device:{}", device.device)).await?;
    Ok(see_other("/office/devices"))
}
