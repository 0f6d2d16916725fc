//! Devices: enrol one by a one-time code shown as a picture, revoke one after asking twice, see when each
//! was last heard, how far its clock was off and what it still had.

use std::sync::{Arc, PoisonError};

use axum::extract::{Path, State};
use axum::response::Response;
use farsiding_core::entry::Role;
use farsiding_core::ids::DeviceId;
use maud::{Markup, PreEscaped, html};
use qrcode::render::svg;
use qrcode::{EcLevel, QrCode};
use serde::Deserialize;

use super::frame::{self, Checked, Place, Visitor, ago, csrf, in_utc};
use super::refused::Refused;
use super::sign_in::see_other;
use super::today::unsent;
use super::visit_story::clock_words;
use crate::office::enrolment::{self, EnrolmentError};
use crate::office::http::Office;
use crate::office::index::chains::Gap;
use crate::office::register::{RegisteredDevice, role_word};
use crate::surroundings::SystemRandomness;

/// For how many minutes a code is good.
const GOOD_FOR: u32 = 60;

/// `GET /office/devices`.
pub async fn show(State(office): State<Arc<Office>>, visitor: Visitor) -> Result<Response, Refused> {
    frame::note(&office, &visitor, "looked", "devices").await?;
    let devices = office.on_register(|register| register.devices()).await?;
    let gaps = office.on_index(|asking| asking.gaps()).await?;
    let now = office.now();
    let body = html! {
        div.row.apart { h1 { "Devices" } div.row.no-print { a.key href="/office/people" { "People and keys" } a.key href="/office/devices" { "Look again" } } }
        section.no-print {
            h2 { "Enrol a device" }
            form.row method="post" action="/office/devices/enrol" {
                (csrf(&visitor))
                label.label for="name" { "What to call it" }
                div { input.field id="name" name="name" maxlength="64" required; }
                label.label for="role" { "It may" }
                div {
                    select.field id="role" name="role" {
                        option value="operator" { "record at sidings" }
                        option value="office" { "record and settle" }
                    }
                }
                button.go type="submit" { "Make a one-time code" }
            }
        }
        div #devices data-live="" {
            h2 { "Enrolled" }
            @if devices.is_empty() { p.none { "No device is enrolled yet." } } @else {
                div.wide tabindex="0" role="region" aria-label="Devices" {
                    table {
                        thead { tr { th scope="col" { "Device" } th scope="col" { "Last heard" } th scope="col" { "Its clock" } th scope="col" { "Unsent then" } th scope="col" { "Its chain" } th.no-print scope="col" { "Revoke" } } }
                        tbody { @for device in &devices { (row(device, &gaps, now)) } }
                    }
                }
            }
        }
    };
    Ok(frame::page(&visitor, "Devices", Place::Devices, body))
}

fn row(device: &RegisteredDevice, gaps: &[(DeviceId, Gap)], now: farsiding_core::clock::UtcMillis) -> Markup {
    let mine: Vec<String> = gaps
        .iter()
        .filter(|(whose, _)| *whose == device.device)
        .map(|(_, gap)| gap.sentence(&device.name))
        .collect();
    html! {
        tr {
            th scope="row" {
                (device.name) br;
                small { (role_word(device.role)) " · " (device.device.short()) @if !device.own_name.is_empty() && device.own_name != device.name { " · calls itself " (device.own_name) } }
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
                    None => { a.key.stop href={ "/office/devices/" (device.device) "/revoke" } aria-label={ "Revoke " (device.name) } { "Revoke" } }
                }
            }
        }
    }
}

/// What to call a new device, and what it may do.
#[derive(Debug, Deserialize)]
pub struct NewDevice {
    name: String,
    role: String,
}

/// `POST /office/devices/enrol`: shows the code once.
pub async fn enrol(
    State(office): State<Arc<Office>>,
    Checked { visitor, form }: Checked<NewDevice>,
) -> Result<Response, Refused> {
    let role = match form.role.as_str() {
        "operator" => Role::Operator,
        "office" => Role::Office,
        _ => return Err(Refused::BadForm("Say what the device may do.".to_owned())),
    };
    let (now, register, name) = (office.now(), Arc::clone(&office.register), form.name.clone());
    let mut randomness = SystemRandomness::new().map_err(Refused::failed)?;
    let issued = tokio::task::spawn_blocking(move || {
        let register = register.lock().unwrap_or_else(PoisonError::into_inner);
        let issued = enrolment::issue(&register, &name, role, GOOD_FOR, now, &mut randomness)?;
        Ok::<_, EnrolmentError>((issued, register.server_url()?))
    });
    let ((code, until), url) = issued.await.map_err(Refused::failed)?.map_err(|error| match error {
        EnrolmentError::BadName => Refused::BadForm(error.to_string()),
        other => Refused::failed(other),
    })?;
    frame::note(&office, &visitor, "made a code for", form.name.trim()).await?;
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
                    dt { "Server" } dd { (url) }
                    dt { "Server's key" } dd { (enrolment::fingerprint(&office.key.public())) " …" }
                }
                p.small { "It is shown this once. Whoever has it first enrols with it; make another if it went astray." }
                p { a.key href="/office/devices" { "To the devices" } }
            }
        }
    };
    Ok(frame::page(&visitor, "Enrol a device", Place::Devices, body))
}

/// A text as a picture for a phone's camera.
fn picture(text: &str) -> Result<Markup, Refused> {
    let code = QrCode::with_error_correction_level(text, EcLevel::M).map_err(Refused::failed)?;
    let drawn = code.render::<svg::Color<'_>>().quiet_zone(true).min_dimensions(240, 240).build();
    // Only the drawing itself: its own head and colours are the page's business.
    let start = drawn.find("<svg").unwrap_or(0);
    let class =
        r#"<svg class="qr" role="img" aria-label="The code as a picture; it stands in letters beside it" "#;
    Ok(PreEscaped(drawn.get(start..).unwrap_or_default().replacen("<svg ", class, 1)))
}

async fn find(office: &Office, text: &str) -> Result<RegisteredDevice, Refused> {
    let missing = || Refused::NotThere("There is no such device.".to_owned());
    let id = DeviceId::read(text).map_err(|_| missing())?;
    office.on_register(move |register| register.device(id)).await?.ok_or_else(missing)
}

/// `GET /office/devices/{device}/revoke`: asks.
pub async fn ask_revoke(
    State(office): State<Arc<Office>>,
    visitor: Visitor,
    Path(device): Path<String>,
) -> Result<Response, Refused> {
    let device = find(&office, &device).await?;
    let body = html! {
        h1 { "Revoke " (device.name) "?" }
        p.lead { "At once, and for good: a revoked device stays revoked. What it sent stays in the record; what it still has is taken in when it next syncs, marked as from a revoked device; nothing more goes to it." }
        form.stack method="post" action={ "/office/devices/" (device.device) "/revoke" } {
            (csrf(&visitor))
            label.check for="sure" { input id="sure" type="checkbox" name="sure" value="yes" required; span { "It is lost, stolen, or no longer to be used" } }
            div.row {
                button.key.stop type="submit" { "Revoke " (device.name) }
                a.key href="/office/devices" { "Leave it" }
            }
        }
    };
    Ok(frame::page(&visitor, "Revoke a device", Place::Devices, body))
}

/// Whether the person is sure.
#[derive(Debug, Deserialize)]
pub struct Sure {
    #[serde(default)]
    sure: String,
}

/// `POST /office/devices/{device}/revoke`.
pub async fn revoke(
    State(office): State<Arc<Office>>,
    Path(device): Path<String>,
    Checked { visitor, form }: Checked<Sure>,
) -> Result<Response, Refused> {
    if form.sure != "yes" {
        return Err(Refused::BadForm("Tick that you are sure; nothing was revoked.".to_owned()));
    }
    let device = find(&office, &device).await?;
    let (now, key, register) = (office.now(), office.key.clone(), Arc::clone(&office.register));
    let id = device.device.to_string();
    let outcome = office
        .on_ledger(move |ledger| {
            let register = register.lock().unwrap_or_else(PoisonError::into_inner);
            enrolment::revoke(&register, ledger.store_mut(), &key, &id, now)
        })
        .await?;
    outcome.map_err(Refused::failed)?;
    tracing::info!(device = device.device.short(), "revoked at the office");
    let _ = office.hints.send(()); // the index looks at certificates when it follows
    frame::note(&office, &visitor, "revoked", &format!("device:{}", device.device)).await?;
    Ok(see_other("/office/devices"))
}
