//! The page of all devices: enrol a device with a one-time code shown as a QR code, revoke a device after a
//! confirmation, and see when each device last synced, how far its clock was off and what it had not sent.
//! The grant of one device is on the page `device`, and the late entries of revoked devices on `late`.

use std::sync::{Arc, PoisonError};

use axum::extract::{Path, State};
use axum::response::Response;
use farsiding_core::entry::Role;
use farsiding_core::ids::{DeviceId, SiteId};
use maud::{Markup, PreEscaped, html};
use qrcode::render::svg;
use qrcode::{EcLevel, QrCode};
use serde::Deserialize;

use super::device::{self, GrantForm};
use super::frame::{self, Administers, Allowed, CsrfForm, OfficeUser, Place, ago, csrf, in_utc, plural};
use super::refused::Refused;
use super::sign_in::see_other;
use super::today::unsent;
use super::visit_story::clock_words;
use crate::accounts::roles::Right;
use crate::enrolment::{self, EnrolmentError, Invitation};
use crate::grants;
use crate::index::chains::Gap;
use crate::late;
use crate::office_database::RegisteredDevice;
use crate::state::Office;
use farsiding_host::SystemRandomness;

/// The number of minutes for which a code is valid.
const GOOD_FOR: u32 = 60;

/// `GET /office/devices`: shows all devices.
pub async fn show(State(office): State<Arc<Office>>, user: OfficeUser) -> Result<Response, Refused> {
    frame::note(&office, &user, "looked", "devices").await?;
    let devices = office.on_database(|database| database.devices()).await?;
    let (listed, now) = (devices.clone(), office.now());
    let asked = move |asking: &crate::index::Asking<'_>| {
        Ok((asking.gaps()?, asking.sites()?, late::count(asking, &listed, now)?))
    };
    let (gaps, sites, late) = office.on_index(asked).await?;
    let body = html! {
        div.row.apart { h1 { "Devices" } div.row.no-print { a.key href="/office/people" { "People and keys" } a.key href="/office/devices" { "Look again" } } }
        @if user.may(Right::Administer) { section.no-print {
            h2 { "Enrol a device" }
            form.stack method="post" action="/office/devices/enrol" {
                (csrf(&user))
                label for="name" { "What to call it" }
                input.field id="name" name="name" maxlength="64" required;
                label for="role" { "It may" }
                select.field id="role" name="role" {
                    option value="operator" { "record, settle and release at its sites" }
                    option value="office" { "do all that the office may" }
                    option value="inspector" { "read the sites it is given, and nothing else" }
                }
                details.more {
                    summary { "Sites, rights and last day: all sites, all its role may, until revoked" }
                    (device::grant_fields(&grants::Grant::default(), &sites))
                }
                button.go type="submit" { "Make a one-time code" }
            }
        } }
        div #devices data-live="" {
            @if late > 0 {
                p.told { (plural(late, "late entry of a revoked device waits", "late entries of revoked devices wait")) " to be looked at: " a href="/office/late" { "Late entries" } "." }
            }
            div.row.apart { h2 { "Enrolled" } @if late == 0 { a href="/office/late" { "Late entries" } } }
            p.small.no-print { a href="/office/refused" { "What was sent and not taken" } }
            @if devices.is_empty() { p.none { "No device is enrolled yet." } } @else {
                div.wide tabindex="0" role="region" aria-label="Devices" {
                    table {
                        thead { tr { th scope="col" { "Device" } th scope="col" { "Sites, rights, validity" } th scope="col" { "Last heard" } th scope="col" { "Its clock" } th scope="col" { "Unsent then" } th scope="col" { "Its chain" } th.no-print scope="col" { "Change" } } }
                        tbody { @for device in &devices { (row(&user, device, &gaps, &sites, now)) } }
                    }
                }
            }
        }
    };
    Ok(frame::page(&user, "Devices", Place::Devices, body))
}

fn row(
    user: &OfficeUser,
    device: &RegisteredDevice,
    gaps: &[(DeviceId, Gap)],
    sites: &[(SiteId, String)],
    now: farsiding_core::clock::UtcMillis,
) -> Markup {
    let mine: Vec<String> = gaps
        .iter()
        .filter(|(whose, _)| *whose == device.device)
        .map(|(_, gap)| gap.sentence(&device.name))
        .collect();
    html! {
        tr {
            th scope="row" {
                a href={ "/office/devices/" (device.device) } { (device.name) } br;
                small { (device.role.as_str()) " · " (device.device.short()) @if !device.own_name.is_empty() && device.own_name != device.name { " · calls itself " (device.own_name) } }
            }
            td {
                (device.grant.sites_words(sites)) br;
                small { (device.grant.rights_words()) " · " @if device::is_over(device, now) { span.hot { "over " (device.grant.until_words()) } } @else { (device.grant.until_words()) } }
            }
            td { @match device.seen_at { Some(at) => { (ago(now.since(at))) br; small { (in_utc(at)) } } None => { "never" } } }
            td {
                @match device.ahead_millis {
                    None => { "—" }
                    Some(ahead) => { @match clock_words(ahead) { Some(words) => { span.hot { (words) } } None => { "right" } } }
                }
            }
            td {
                @match (device.unsent_entries, device.unsent_photos) {
                    (None, None) => { "—" }
                    (entries, photos) => { (unsent(entries.unwrap_or(0), photos.unwrap_or(0))) }
                }
            }
            td { @if mine.is_empty() { "no gap" } @else { @for sentence in &mine { span.hot { (sentence) } br; } } }
            td.no-print {
                @match device.revoked_at {
                    Some(at) => { span.hot { "revoked" } br; small { (in_utc(at)) } }
                    None if !user.may(Right::Administer) => { "—" }
                    None => { a.key href={ "/office/devices/" (device.device) } aria-label={ "Change or revoke " (device.name) } { "Change" } }
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
) -> Result<Response, Refused> {
    let role = match form.role.as_str() {
        "operator" => Role::Operator,
        "office" => Role::Office,
        "inspector" => Role::Inspector,
        _ => return Err(Refused::BadForm("Say what the device may do.".to_owned())),
    };
    let (now, database, name) = (office.now(), Arc::clone(&office.database), form.name.clone());
    let sites = office.on_index(|asking| asking.sites()).await?;
    let refused = |error: grants::GrantError| Refused::BadForm(error.to_string());
    grants::check_role(role, &form.grant.sites_typed()).map_err(refused)?;
    let grant = form.grant.read(&sites, now)?.for_role(role);
    let granted = grant.clone();
    let mut randomness = SystemRandomness::new().map_err(Refused::failed)?;
    let issued = tokio::task::spawn_blocking(move || {
        let database = database.lock().unwrap_or_else(PoisonError::into_inner);
        let invitation = Invitation { name: &name, role, grant, minutes: GOOD_FOR };
        let issued = enrolment::issue(&database, &invitation, now, &mut randomness)?;
        Ok::<_, EnrolmentError>((issued, database.server_url()?))
    });
    let (made, url) = issued.await.map_err(Refused::failed)?.map_err(refused_enrolment)?;
    let (code, until) = (made.code, made.expires_at);
    frame::note(&office, &user, "made a code for", form.name.trim()).await?;
    let url = url.unwrap_or_default();
    let text = enrolment::enrolment_text(&url, &code, &office.key);
    let body = html! {
        h1 { "Enrol " (form.name.trim()) }
        div.two {
            (picture(&text)?)
            div {
                p.lead { "Point the phone's camera at the picture, or type the code into the app." }
                p.code { (code) }
                dl.facts {
                    dt { "Good for" } dd { "one device, until " (in_utc(until)) }
                    dt { "Sites" } dd { (granted.sites_words(&sites)) @if granted.sites.is_none() { ", also those that come later" } }
                    dt { "Rights" } dd { (granted.rights_words()) }
                    dt { "Certificate" } dd { "good " (granted.until_words()) }
                    dt { "Server" } dd { (url) }
                    dt { "Server's key" } dd { (office.key.public().fingerprint()) " …" }
                }
                @if made.replaces { p.told { "The code made before for this name is good no longer." } }
                p.small { "It is shown this once. Whoever has it first enrols with it; make another if it went astray." }
                p { a.key href="/office/devices" { "To the devices" } }
            }
        }
    };
    Ok(frame::page(&user, "Enrol a device", Place::Devices, body))
}

/// Returns a text as a QR code.
///
/// # Errors
/// Returns [`Refused::Failed`] when the text is too long for a QR code.
pub fn picture(text: &str) -> Result<Markup, Refused> {
    let code = QrCode::with_error_correction_level(text, EcLevel::M).map_err(Refused::failed)?;
    let drawn = code.render::<svg::Color<'_>>().quiet_zone(true).min_dimensions(240, 240).build();
    // Only the drawing itself is used; the page sets the frame and the colours.
    let start = drawn.find("<svg").unwrap_or(0);
    let class =
        r#"<svg class="qr" role="img" aria-label="The code as a picture; it stands in letters beside it" "#;
    Ok(PreEscaped(drawn.get(start..).unwrap_or_default().replacen("<svg ", class, 1)))
}

/// Returns the page for a failed enrolment. A failure that the person can correct is shown on the page of the
/// form; any other failure is internal.
pub(super) fn refused_enrolment(error: EnrolmentError) -> Refused {
    match error {
        EnrolmentError::BadName
        | EnrolmentError::NameTaken { .. }
        | EnrolmentError::NameOfTheOffice(_)
        | EnrolmentError::Revoked => Refused::BadForm(error.to_string()),
        other => Refused::failed(other),
    }
}

/// Returns the device named in an address.
pub(super) async fn find(office: &Office, text: &str) -> Result<RegisteredDevice, Refused> {
    let missing = || Refused::NotThere("There is no such device.".to_owned());
    let id = DeviceId::read(text).map_err(|_| missing())?;
    office.on_database(move |database| database.device(id)).await?.ok_or_else(missing)
}

/// `GET /office/devices/{device}/revoke`: asks for confirmation.
pub async fn ask_revoke(
    State(office): State<Arc<Office>>,
    Allowed { user, .. }: Allowed<Administers>,
    Path(device): Path<String>,
) -> Result<Response, Refused> {
    let device = find(&office, &device).await?;
    let body = html! {
        h1 { "Revoke " (device.name) "?" }
        p.lead { "At once, and for good: a revoked device stays revoked. What it sent stays in the record; what it still has is kept when it next syncs and does not count unless the office lets it in; nothing more goes to it." }
        form.stack method="post" action={ "/office/devices/" (device.device) "/revoke" } {
            (csrf(&user))
            label.check for="sure" { input id="sure" type="checkbox" name="sure" value="yes" required; span { "It is lost, stolen, or no longer to be used" } }
            div.row {
                button.key.stop type="submit" { "Revoke " (device.name) }
                a.key href="/office/devices" { "Leave it" }
            }
        }
    };
    Ok(frame::page(&user, "Revoke a device", Place::Devices, body))
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
) -> Result<Response, Refused> {
    if form.sure != "yes" {
        return Err(Refused::BadForm("Tick that you are sure; nothing was revoked.".to_owned()));
    }
    let device = find(&office, &device).await?;
    let (now, key, database) = (office.now(), office.key.clone(), Arc::clone(&office.database));
    let (id, file) = (device.device.to_string(), office.folder.ledger_file());
    let outcome = office
        .on_ledger(move |ledger| {
            let database = database.lock().unwrap_or_else(PoisonError::into_inner);
            enrolment::revoke(&database, (ledger.store_mut(), &file), &key, &id, now)
        })
        .await?;
    outcome.map_err(Refused::failed)?;
    tracing::info!(device = device.device.short(), "revoked at the office");
    let _ = office.hints.send(()); // wakes the index, which then reads the certificates
    frame::note(&office, &user, "revoked", &format!("device:{}", device.device)).await?;
    Ok(see_other("/office/devices"))
}
