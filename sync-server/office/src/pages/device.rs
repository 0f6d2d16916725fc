//! The page of one device: its sites, rights and last day, with the form to change or renew them.
//!
//! The fields of the form are also used for new devices on the page of all devices. The meaning of a grant is
//! in `office::grants`.

use std::sync::{Arc, PoisonError};

use axum::extract::{Path, State};
use axum::response::Response;
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::Right;
use farsiding_core::ids::SiteId;
use maud::{Markup, html};
use serde::Deserialize;

use super::devices::{find, refused_enrolment};
use super::frame::{self, CsrfForm, OfficeUser, Place, csrf, in_utc};
use super::refused::Refused;
use super::sign_in::see_other;
use crate::enrolment;
use crate::grants::{self, Grant, right_words};
use crate::office_database::RegisteredDevice;
use crate::state::Office;

/// Returns whether a device's certificate has expired.
pub fn is_over(device: &RegisteredDevice, now: UtcMillis) -> bool {
    device.grant.valid_until.is_some_and(|until| until <= now)
}

/// A grant as sent by the form: `sites` is "all" or "some", and each ticked box is a field of its own.
#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub struct GrantForm {
    sites: String,
    rights: String,
    until: String,
    #[serde(flatten)]
    ticked: std::collections::BTreeMap<String, String>,
}

impl GrantForm {
    fn ticked_under<'s>(&'s self, prefix: &'s str) -> impl Iterator<Item = &'s str> {
        self.ticked.keys().filter_map(move |name| name.strip_prefix(prefix))
    }

    /// Returns the chosen sites as text. An inspector's device must name at least one.
    pub fn sites_typed(&self) -> String {
        match self.sites.as_str() {
            "some" => self.ticked_under("site-").collect::<Vec<_>>().join(","),
            _ => String::new(),
        }
    }

    /// Returns the grant.
    ///
    /// # Errors
    /// Returns [`Refused::BadForm`] when a choice has nothing ticked, or when the text of the last day is not
    /// a date.
    pub fn read(&self, known: &[(SiteId, String)], now: UtcMillis) -> Result<Grant, Refused> {
        // If "all" were chosen with boxes ticked, ignoring the boxes would silently grant more than was
        // meant.
        let ticked_for_nothing =
            |chosen: &str, prefix: &str| chosen != "some" && self.ticked_under(prefix).next().is_some();
        if ticked_for_nothing(&self.sites, "site-") || ticked_for_nothing(&self.rights, "right-") {
            let words = "Sites or rights are ticked, but \u{201c}all\u{201d} is chosen above them. Choose \
                         \u{201c}these\u{201d}, or tick none.";
            return Err(Refused::BadForm(words.to_owned()));
        }
        let refused = |error: grants::GrantError| Refused::BadForm(error.to_string());
        let sites = match self.sites.as_str() {
            "some" => {
                let typed = self.sites_typed();
                if typed.is_empty() {
                    return Err(Refused::BadForm("Tick the sites it is for, or choose all.".to_owned()));
                }
                grants::read_sites(&typed, known).map_err(refused)?
            }
            _ => None,
        };
        let rights = match self.rights.as_str() {
            "some" => {
                let rights: Vec<Right> = self.ticked_under("right-").filter_map(Right::read).collect();
                if rights.is_empty() {
                    let words = "Tick what it may do, or choose all that its role may.";
                    return Err(Refused::BadForm(words.to_owned()));
                }
                Some(rights)
            }
            _ => None,
        };
        let until = grants::read_until(&self.until, now).map_err(refused)?;
        Ok(Grant::new(sites, rights, until))
    }
}

/// Returns the form fields of a grant, filled in.
pub fn grant_fields(grant: &Grant, sites: &[(SiteId, String)]) -> Markup {
    let has_site = |site: &SiteId| grant.sites.as_ref().is_some_and(|sites| sites.contains(site));
    let has_right = |right: Right| grant.rights.as_ref().is_some_and(|rights| rights.contains(&right));
    let day = grant.valid_until.map(|until| UtcMillis(until.0.saturating_sub(1)).rfc3339());
    let day = day.as_deref().and_then(|text| text.get(..10)).unwrap_or_default();
    html! {
        fieldset.choice {
            legend { "Sites" }
            label.check { input type="radio" name="sites" value="all" checked[grant.sites.is_none()]; span { "All, also those that come later" } }
            label.check { input type="radio" name="sites" value="some" checked[grant.sites.is_some()]; span { "These:" } }
            div.boxes {
                @if sites.is_empty() { p.small { "No site is known here yet." } }
                @for (site, name) in sites {
                    label.check { input type="checkbox" name={ "site-" (site) } value="yes" checked[has_site(site)]; span { @if name.is_empty() { "site " (site.short()) } @else { (name) } } }
                }
            }
        }
        fieldset.choice {
            legend { "Rights" }
            label.check { input type="radio" name="rights" value="role" checked[grant.rights.is_none()]; span { "All that its role may" } }
            label.check { input type="radio" name="rights" value="some" checked[grant.rights.is_some()]; span { "These, in place of its role's:" } }
            div.boxes {
                @for right in Right::ALL {
                    label.check { input type="checkbox" name={ "right-" (right.word()) } value="yes" checked[has_right(right)]; span { (right_words(right)) } }
                }
            }
        }
        label for="until" { "Last day, UTC; empty: until revoked" }
        input.field id="until" name="until" type="date" value=(day);
    }
}

/// `GET /office/devices/{device}`: shows the device.
pub async fn show(
    State(office): State<Arc<Office>>,
    user: OfficeUser,
    Path(device): Path<String>,
) -> Result<Response, Refused> {
    let device = find(&office, &device).await?;
    let sites = office.on_index(|asking| asking.sites()).await?;
    frame::note(&office, &user, "looked", &format!("device:{}", device.device)).await?;
    let now = office.now();
    let body = html! {
        h1 { (device.name) }
        dl.facts {
            dt { "Role" } dd { (device.role.as_str()) }
            dt { "Key" } dd { code { (device.device.short()) } " …" }
            dt { "Sites" } dd { (device.grant.sites_words(&sites)) @if device.grant.sites.is_none() { ", also those that come later" } }
            dt { "Rights" } dd { (device.grant.rights_words()) }
            dt { "Certificate" } dd { "good " (device.grant.until_words()) @if is_over(&device, now) { " " span.hot { "It has run out." } } }
            dt { "Issued" } dd {
                (in_utc(device.issued_at))
                @if let Some(renewed) = device.renewed_at.filter(|renewed| *renewed > device.issued_at) { ", renewed " (in_utc(renewed)) }
            }
            @if let Some(revoked) = device.revoked_at {
                dt { "Revoked" } dd {
                    span.hot { (in_utc(revoked)) }
                    @match device.last {
                        Some(last) => { ", after its entry number " (last.seq) }
                        None => { ", before any entry of it was numbered here" }
                    }
                }
            }
        }
        @if device.revoked_at.is_some() {
            p.lead { "A revoked device stays revoked. What it still delivered: " a href="/office/late" { "Late entries" } "." }
        } @else {
            section.no-print {
                h2 { "Change or renew" }
                p.small { "The device gets its new certificate with its next sync. What it recorded before goes on counting as it did." }
                form.stack method="post" action={ "/office/devices/" (device.device) } {
                    (csrf(&user))
                    (grant_fields(&device.grant, &sites))
                    button.go type="submit" { "Issue a new certificate" }
                }
            }
            section.no-print {
                h2 { "Lost, stolen or no longer used" }
                p { a.key.stop href={ "/office/devices/" (device.device) "/revoke" } { "Revoke " (device.name) } }
            }
        }
        p.no-print { a.key href="/office/devices" { "To the devices" } }
    };
    Ok(frame::page(&user, &device.name, Place::Devices, body))
}

/// `POST /office/devices/{device}`: changes the grant, or grants the same again.
pub async fn change(
    State(office): State<Arc<Office>>,
    Path(device): Path<String>,
    CsrfForm { user, form, .. }: CsrfForm<GrantForm>,
) -> Result<Response, Refused> {
    let device = find(&office, &device).await?;
    let now = office.now();
    let sites = office.on_index(|asking| asking.sites()).await?;
    let refused = |error: grants::GrantError| Refused::BadForm(error.to_string());
    if form.sites.is_empty() || form.rights.is_empty() {
        // A form that lost its choices on the way would otherwise grant everything.
        return Err(Refused::BadForm("Say for which sites and with which rights.".to_owned()));
    }
    // "All sites" is a choice of its own; the sites of an inspector's device must be ticked one by one.
    grants::check_role(device.role, &form.sites_typed()).map_err(refused)?;
    let grant = form.read(&sites, now)?.for_role(device.role);
    let (key, database) = (office.key.clone(), Arc::clone(&office.database));
    let (id, file) = (device.device.to_string(), office.folder.ledger_file());
    let outcome = office
        .on_ledger(move |ledger| {
            let database = database.lock().unwrap_or_else(PoisonError::into_inner);
            enrolment::change(&database, (ledger.store_mut(), &file), &key, (&id, &grant), now)
        })
        .await?;
    let changed = outcome.map_err(refused_enrolment)?;
    tracing::info!(device = changed.device.short(), "renewed at the office");
    let _ = office.hints.send(()); // wakes the index, which then reads the certificates
    frame::note(&office, &user, "renewed", &format!("device:{}", changed.device)).await?;
    Ok(see_other(&format!("/office/devices/{}", changed.device)))
}
