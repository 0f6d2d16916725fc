//! The frame of every office page: the header, the navigation, the footer, and the HTTP headers that isolate
//! the page.
//!
//! Pages supply their body; nothing about records is known here. Styles and scripts come only from our own
//! files, and the policy forbids all others, so no page has inline styles or scripts.

use std::fmt::Write as _;

use axum::http::{HeaderName, HeaderValue, StatusCode, header};
use axum::middleware::Next;
use axum::response::{IntoResponse as _, Response};
use farsiding_core::clock::UtcMillis;
use farsiding_core::text;
use maud::{DOCTYPE, Markup, html};

pub use super::user::{Administers, Allowed, CsrfForm, OfficeUser, RecordViewer, Records, Settles, note};
use crate::state::Office;

/// The content security policy: everything a page loads, and every form it sends, must stay on this server.
pub const POLICY: &str = "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self'; font-src 'self'; \
     connect-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'";

/// The pages of the navigation.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place {
    /// Today: every car at every site.
    Today,
    /// Inquiry: one box for a number, a seal, a date or a site.
    Inquiry,
    /// Reconcile: quantities billed against quantities found.
    Reconcile,
    /// Seals.
    Seals,
    /// Defects.
    Defects,
    /// Instruments and hoses.
    Instruments,
    /// Shipping papers, with uploads and exports.
    Papers,
    /// Devices.
    Devices,
    /// The person's own account, all accounts, the audit and the server's state, reached by the person's name
    /// in the header.
    Accounts,
    /// No page of the navigation: one visit, a question, or an answer.
    Elsewhere,
}

impl Place {
    /// The pages shown in the navigation, in order.
    pub const SHOWN: [Place; 8] = [
        Place::Today,
        Place::Inquiry,
        Place::Reconcile,
        Place::Seals,
        Place::Defects,
        Place::Instruments,
        Place::Papers,
        Place::Devices,
    ];

    /// Returns the title and the address of the page.
    const fn sign(self) -> (&'static str, &'static str) {
        match self {
            Place::Today | Place::Elsewhere => ("Today", "/office/"),
            Place::Inquiry => ("Inquiry", "/office/inquiry"),
            Place::Reconcile => ("Reconcile", "/office/reconcile"),
            Place::Seals => ("Seals", "/office/seals"),
            Place::Defects => ("Defects", "/office/defects"),
            Place::Instruments => ("Instruments", "/office/instruments"),
            Place::Papers => ("Papers", "/office/papers"),
            Place::Devices => ("Devices", "/office/devices"),
            Place::Accounts => ("Your account", "/office/own"),
        }
    }
}

/// Returns the hidden field that every form of a signed-in person carries.
pub fn csrf(user: &OfficeUser) -> Markup {
    html! { input type="hidden" name="csrf" value=(user.csrf); }
}

/// Returns a whole page for a signed-in person.
pub fn page(user: &OfficeUser, title: &str, here: Place, body: Markup) -> Response {
    page_with(StatusCode::OK, user, title, here, body)
}

/// Returns a whole page with the given status.
pub fn page_with(status: StatusCode, user: &OfficeUser, title: &str, here: Place, body: Markup) -> Response {
    let places: &[Place] = if user.is_office() { &Place::SHOWN } else { &[] };
    let head = html! {
        @if !places.is_empty() {
            nav.places aria-label="Places" {
                @for place in places {
                    @let (name, address) = place.sign();
                    a href=(address) aria-current=[(*place == here).then_some("page")] { (name) }
                }
            }
        }
        form.who method="post" action="/office/sign-out" {
            (csrf(user))
            @if user.is_office() {
                a.name href="/office/own" aria-current=[(here == Place::Accounts).then_some("page")] { (user.name) }
            } @else {
                span.name { (user.name) " · one record" }
            }
            button.quiet type="submit" { "Sign out" }
        }
    };
    let response = document(title, Some((head, &user.refresh)), body);
    (status, response).into_response()
}

/// Returns a page without navigation, for somebody who is not signed in or to whom nothing can be shown.
pub fn bare(status: StatusCode, title: &str, body: Markup) -> Response {
    (status, document(title, None, html! { div.alone { (body) } })).into_response()
}

fn document(title: &str, head: Option<(Markup, &str)>, body: Markup) -> Response {
    let (head, refresh) = head.unzip();
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { (title) " · Farsiding office" }
                link rel="icon" href="/office/mark.svg" type="image/svg+xml";
                link rel="stylesheet" href="/office/look.css";
                script src="/office/live.js" defer {}
            }
            body data-refresh=[refresh.filter(|token| !token.is_empty())] {
                a.skip href="#main" { "To the page" }
                header.head {
                    a.mark href="/office/" aria-label="Farsiding, the office: to Today" { (mark()) span { "Farsiding" } }
                    @if let Some(head) = head { (head) }
                }
                main #main tabindex="-1" { (body) }
                footer.foot { p { (farsiding_core::view::NOTE) } }
            }
        }
    };
    ([(header::CONTENT_TYPE, "text/html; charset=utf-8")], acting_on_itself(page.into_string()))
        .into_response()
}

/// Returns the page without control characters that would act outside the text they were typed in, such as a
/// change of the text direction or a line break. Inside a tag such a character is written as a reference, so
/// that a form sends back exactly what was typed.
fn acting_on_itself(page: String) -> String {
    let stays = |c: char| !text::acts_outside(c) || matches!(c, '\n' | '\t');
    if page.chars().all(stays) {
        return page;
    }
    let mut clean = String::with_capacity(page.len());
    let mut within_a_tag = false;
    for c in page.chars() {
        match c {
            // Angle brackets in typed text are always written as references, so these two delimit real tags.
            '<' => within_a_tag = true,
            '>' => within_a_tag = false,
            _ => {}
        }
        if stays(c) {
            clean.push(c);
        } else if within_a_tag && c != '\0' {
            let _ = write!(clean, "&#{};", u32::from(c));
        }
    }
    clean
}

/// Returns the logo: a car on its track, and a pointer.
fn mark() -> Markup {
    html! {
        svg viewBox="0 0 44 28" aria-hidden="true" focusable="false" {
            rect class="m-tank" x="2" y="8" width="40" height="13" rx="6.5" {}
            path class="m-rail" d="M0 26H44M9 21v5M35 21v5" {}
            path class="m-hand" d="M22 0l4 7h-8z" {}
        }
    }
}

/// Adds the headers of every answer under `/office`.
pub async fn keep_to_itself(request: axum::extract::Request, next: Next) -> Response {
    let mut response = next.run(request).await;
    let headers = response.headers_mut();
    let mut set = |name: HeaderName, value: &'static str| {
        headers.insert(name, HeaderValue::from_static(value));
    };
    set(header::CONTENT_SECURITY_POLICY, POLICY);
    set(header::X_CONTENT_TYPE_OPTIONS, "nosniff");
    set(header::X_FRAME_OPTIONS, "DENY");
    // No other site learns an address. With "no-referrer", browsers would also hide the origin of our own
    // forms.
    set(header::REFERRER_POLICY, "same-origin");
    set(HeaderName::from_static("cross-origin-opener-policy"), "same-origin");
    set(HeaderName::from_static("cross-origin-resource-policy"), "same-origin");
    set(HeaderName::from_static("permissions-policy"), "camera=(), geolocation=(), microphone=()");
    // The static files set this header themselves. Pages with records must not be cached anywhere.
    headers.entry(header::CACHE_CONTROL).or_insert(HeaderValue::from_static("no-store"));
    response
}

/// Returns a duration in minutes, hours or days.
pub fn stretch(millis: i64) -> String {
    let minutes = millis / 60_000;
    match minutes {
        i64::MIN..=0 => "now".to_owned(),
        1..120 => format!("{minutes} min"),
        120..2880 => format!("{} h", minutes / 60),
        _ => format!("{} days", minutes / 1440),
    }
}

/// Returns how long ago something was, in words.
pub fn ago(millis: i64) -> String {
    if millis < 60_000 { "just now".to_owned() } else { format!("{} ago", stretch(millis)) }
}

/// Returns a time in UTC, for times of the office to which no site's zone applies.
pub fn in_utc(at: UtcMillis) -> String {
    let text = at.rfc3339();
    match (text.get(..10), text.get(11..16)) {
        (Some(day), Some(time)) => format!("{day} {time} UTC"),
        _ => text,
    }
}

/// Returns a notice that the page does not show the whole ledger yet, while that is so.
pub fn behind(office: &Office) -> Markup {
    let behind = usize::try_from(office.index.behind()).unwrap_or(usize::MAX);
    html! {
        @if behind > 0 {
            p.told role="status" {
                "What is shown here is being brought up to date: " (plural(behind, "entry", "entries")) " to go."
            }
        }
    }
}

/// Returns a count with its noun: "1 car", "2 cars".
pub fn plural(count: usize, one: &str, many: &str) -> String {
    if count == 1 { format!("1 {one}") } else { format!("{count} {many}") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_mark_of_direction_is_taken_out_of_text_and_sent_back_whole() {
        let typed = "adapter\u{202e}fdp.\u{1}";
        let page = html! { p { (typed) " is out" } input value=(typed); }.into_string();
        assert_eq!(
            acting_on_itself(page),
            "<p>adapterfdp. is out</p><input value=\"adapter&#8238;fdp.&#1;\">"
        );
    }

    #[test]
    fn times_read_as_people_write_them() {
        assert_eq!(ago(59_999), "just now");
        assert_eq!(ago(3 * 60_000), "3 min ago");
        assert_eq!(in_utc(UtcMillis(0)), "1970-01-01 00:00 UTC");
    }

    #[test]
    fn a_stretch_of_time_reads_as_people_say_it() {
        let said: Vec<String> = [0, 119, 120, 2879, 2880].iter().map(|m| stretch(m * 60_000)).collect();
        assert_eq!(said, ["now", "119 min", "2 h", "47 h", "2 days"]);
    }
}
