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
use farsiding_core::{Arg, message};
use farsiding_words::Words;
use maud::{Markup, html};
use serde::Deserialize;

use super::devices::{find, refused_enrolment};
use super::frame::{self, CsrfForm, OfficeUser, Place, csrf, in_utc};
use super::page_error::PageError;
use super::sign_in::see_other;
use crate::enrolment;
use crate::grants::{self, Grant, right_message, role_message};
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
    /// Returns [`PageError::BadForm`] when a choice has nothing ticked, or when the text of the last day is not
    /// a date.
    pub fn read(&self, known: &[(SiteId, String)], now: UtcMillis) -> Result<Grant, PageError> {
        // If "all" were chosen with boxes ticked, ignoring the boxes would silently grant more than was
        // meant.
        let ticked_for_nothing =
            |chosen: &str, prefix: &str| chosen != "some" && self.ticked_under(prefix).next().is_some();
        if ticked_for_nothing(&self.sites, "site-") || ticked_for_nothing(&self.rights, "right-") {
            return Err(PageError::BadForm(message!("office-devices-ticked-all")));
        }
        let refused = |error: grants::GrantError| PageError::BadForm(error.message());
        let sites = match self.sites.as_str() {
            "some" => {
                let typed = self.sites_typed();
                if typed.is_empty() {
                    return Err(PageError::BadForm(message!("office-devices-tick-sites")));
                }
                grants::read_sites(&typed, known).map_err(refused)?
            }
            _ => None,
        };
        let rights = match self.rights.as_str() {
            "some" => {
                let rights: Vec<Right> = self.ticked_under("right-").filter_map(Right::read).collect();
                if rights.is_empty() {
                    return Err(PageError::BadForm(message!("office-devices-tick-rights")));
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
pub fn grant_fields(w: &Words, grant: &Grant, sites: &[(SiteId, String)]) -> Markup {
    let has_site = |site: &SiteId| grant.sites.as_ref().is_some_and(|sites| sites.contains(site));
    let has_right = |right: Right| grant.rights.as_ref().is_some_and(|rights| rights.contains(&right));
    let day = grant.valid_until.map(|until| UtcMillis(until.0.saturating_sub(1)).rfc3339());
    let day = day.as_deref().and_then(|text| text.get(..10)).unwrap_or_default();
    html! {
        fieldset.choice {
            legend { (w.say("office-devices-sites")) }
            label.check { input type="radio" name="sites" value="all" checked[grant.sites.is_none()]; span { (w.say("office-devices-all-sites")) } }
            label.check { input type="radio" name="sites" value="some" checked[grant.sites.is_some()]; span { (w.say("office-devices-these")) } }
            div.boxes {
                @if sites.is_empty() { p.small { (w.say("office-devices-no-site")) } }
                @for (site, name) in sites {
                    label.check { input type="checkbox" name={ "site-" (site) } value="yes" checked[has_site(site)]; span { @if name.is_empty() { (w.text(&message!("office-devices-site", site = Arg::typed(site.short())))) } @else { (name) } } }
                }
            }
        }
        fieldset.choice {
            legend { (w.say("office-devices-rights")) }
            label.check { input type="radio" name="rights" value="role" checked[grant.rights.is_none()]; span { (w.say("office-devices-all-rights")) } }
            label.check { input type="radio" name="rights" value="some" checked[grant.rights.is_some()]; span { (w.say("office-devices-these-rights")) } }
            div.boxes {
                @for right in Right::ALL {
                    label.check { input type="checkbox" name={ "right-" (right.word()) } value="yes" checked[has_right(right)]; span { (w.text(&right_message(right))) } }
                }
            }
        }
        label for="until" { (w.say("office-devices-until")) }
        input.field id="until" name="until" type="date" value=(day);
    }
}

/// Returns what a device is granted, as facts: its sites, its rights and its last day.
pub fn granted(w: &Words, grant: &Grant, sites: &[(SiteId, String)], over: bool) -> Markup {
    let until = message!("office-devices-valid", until = grant.until_message());
    html! {
        dt { (w.say("office-devices-sites")) } dd {
            @match grant.sites {
                Some(_) => { (w.text(&grant.sites_message(sites))) }
                None => { (w.say("office-grant-all-sites-later")) }
            }
        }
        dt { (w.say("office-devices-rights")) } dd { (w.text(&grant.rights_message())) }
        dt { (w.say("office-devices-certificate")) } dd { (w.text(&until)) @if over { " " span.hot { (w.say("office-devices-over")) } } }
    }
}

/// `GET /office/devices/{device}`: shows the device.
pub async fn show(
    State(office): State<Arc<Office>>,
    user: OfficeUser,
    Path(device): Path<String>,
) -> Result<Response, PageError> {
    let device = find(&office, &device).await?;
    let sites = office.on_index(|asking| asking.sites()).await?;
    frame::note(&office, &user, "looked", &format!("device:{}", device.device)).await?;
    let now = office.now();
    let w = user.words;
    let name = || Arg::typed(&device.name);
    let issued = Arg::typed(in_utc(device.issued_at));
    let renewed = device.renewed_at.filter(|renewed| *renewed > device.issued_at);
    let body = html! {
        h1 { (device.name) }
        dl.facts {
            dt { (w.say("office-devices-role")) } dd { (w.text(&role_message(device.role))) }
            dt { (w.say("office-devices-key")) } dd { code { (device.device.short()) } " …" }
            (granted(w, &device.grant, &sites, is_over(&device, now)))
            dt { (w.say("office-devices-issued")) } dd {
                @match renewed {
                    Some(renewed) => { (w.text(&message!("office-devices-renewed", issued = issued, renewed = Arg::typed(in_utc(renewed))))) }
                    None => { (in_utc(device.issued_at)) }
                }
            }
            @if let Some(revoked) = device.revoked_at {
                dt { (w.say("office-devices-revoked-head")) } dd {
                    span.hot { (in_utc(revoked)) } ", "
                    @match device.last {
                        Some(last) => { (w.text(&message!("office-devices-revoked-after", number = Arg::typed(last.seq.to_string())))) }
                        None => { (w.say("office-devices-revoked-before")) }
                    }
                }
            }
        }
        @if device.revoked_at.is_some() {
            p.lead { (w.say("office-devices-stays-revoked")) " " a href="/office/late" { (w.say("office-devices-late")) } }
        } @else {
            section.no-print {
                h2 { (w.say("office-devices-renew")) }
                p.small { (w.say("office-devices-renew-note")) }
                form.stack method="post" action={ "/office/devices/" (device.device) } {
                    (csrf(&user))
                    (grant_fields(w, &device.grant, &sites))
                    button.go type="submit" { (w.say("office-devices-issue")) }
                }
            }
            section.no-print {
                h2 { (w.say("office-devices-lost")) }
                p { a.key.stop href={ "/office/devices/" (device.device) "/revoke" } { (w.text(&message!("office-devices-revoke-of", name = name()))) } }
            }
        }
        p.no-print { a.key href="/office/devices" { (w.say("office-devices-back")) } }
    };
    Ok(frame::page(&user, &device.name, Place::Devices, body))
}

/// `POST /office/devices/{device}`: changes the grant, or grants the same again.
pub async fn change(
    State(office): State<Arc<Office>>,
    Path(device): Path<String>,
    CsrfForm { user, form, .. }: CsrfForm<GrantForm>,
) -> Result<Response, PageError> {
    let device = find(&office, &device).await?;
    let now = office.now();
    let sites = office.on_index(|asking| asking.sites()).await?;
    let refused = |error: grants::GrantError| PageError::BadForm(error.message());
    if form.sites.is_empty() || form.rights.is_empty() {
        // A form that lost its choices on the way would otherwise grant everything.
        return Err(PageError::BadForm(message!("office-devices-say-grant")));
    }
    // "All sites" is a choice of its own; the sites of an inspector's device must be ticked one by one.
    grants::check_role(device.role, &form.sites_typed()).map_err(refused)?;
    let grant = form.read(&sites, now)?.for_role(device.role);
    let (key, database) = (office.key.clone(), Arc::clone(&office.database));
    let (id, file) = (device.device.to_string(), office.folder.ledger_place());
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
