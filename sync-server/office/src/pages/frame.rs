//! The frame every page of the office stands in: head, places, foot, headers that keep it to itself.
//!
//! Pages hand in their body; nothing of records is known here. Styles and scripts come from files of
//! our own only, so the policy allows no other: no inline style or script anywhere.

use std::fmt::Write as _;

use axum::http::{HeaderName, HeaderValue, StatusCode, header};
use axum::middleware::Next;
use axum::response::{IntoResponse as _, Response};
use farsiding_core::clock::UtcMillis;
use farsiding_core::text;
use maud::{DOCTYPE, Markup, html};

pub use super::user::{Administers, Allowed, CsrfForm, OfficeUser, RecordViewer, Records, Settles, note};
use crate::state::Office;

/// What a page may load, and where a form may go: here.
pub const POLICY: &str = "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self'; font-src 'self'; \
     connect-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'";

/// The pages a person of the office goes to from anywhere.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place {
    /// Every car at every site.
    Today,
    /// One box: number, seal, date, place.
    Inquiry,
    /// Billed against found.
    Reconcile,
    /// Seals.
    Seals,
    /// Defects.
    Defects,
    /// Instruments and hoses.
    Instruments,
    /// Shipping papers in, tables out.
    Papers,
    /// Devices.
    Devices,
    /// One's own account, who may sign in, who looked, the server's state: by one's own name in the head.
    Accounts,
    /// None of them: one visit, a question, an answer.
    Elsewhere,
}

impl Place {
    /// Those shown in the head, in order.
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

    /// Name and address.
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

/// The hidden field every form of a signed-in person carries.
pub fn csrf(user: &OfficeUser) -> Markup {
    html! { input type="hidden" name="csrf" value=(user.csrf); }
}

/// A whole page for a signed-in person.
pub fn page(user: &OfficeUser, title: &str, here: Place, body: Markup) -> Response {
    page_with(StatusCode::OK, user, title, here, body)
}

/// A whole page with a status of its own.
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

/// A page for somebody who is not signed in, or for whom nothing can be shown.
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

/// The page with every mark taken out that would act outside the text it was typed in (a direction turned, a line
/// begun). Within a tag the mark is written as a reference: what a form sends back is what was typed.
fn acting_on_itself(page: String) -> String {
    let stays = |c: char| !text::acts_outside(c) || matches!(c, '\n' | '\t');
    if page.chars().all(stays) {
        return page;
    }
    let mut clean = String::with_capacity(page.len());
    let mut within_a_tag = false;
    for c in page.chars() {
        match c {
            // Both are written as references wherever somebody typed them.
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

/// A car on its track, and the pointer: drawn here, nobody's.
fn mark() -> Markup {
    html! {
        svg viewBox="0 0 44 28" aria-hidden="true" focusable="false" {
            rect class="m-tank" x="2" y="8" width="40" height="13" rx="6.5" {}
            path class="m-rail" d="M0 26H44M9 21v5M35 21v5" {}
            path class="m-hand" d="M22 0l4 7h-8z" {}
        }
    }
}

/// The headers of every answer under `/office`.
pub async fn keep_to_itself(request: axum::extract::Request, next: Next) -> Response {
    let mut response = next.run(request).await;
    let headers = response.headers_mut();
    let mut set = |name: HeaderName, value: &'static str| {
        headers.insert(name, HeaderValue::from_static(value));
    };
    set(header::CONTENT_SECURITY_POLICY, POLICY);
    set(header::X_CONTENT_TYPE_OPTIONS, "nosniff");
    set(header::X_FRAME_OPTIONS, "DENY");
    // Nobody else learns an address; with "no-referrer" browsers would hide the origin of our own forms too.
    set(header::REFERRER_POLICY, "same-origin");
    set(HeaderName::from_static("cross-origin-opener-policy"), "same-origin");
    set(HeaderName::from_static("cross-origin-resource-policy"), "same-origin");
    set(HeaderName::from_static("permissions-policy"), "camera=(), geolocation=(), microphone=()");
    // Files of the look say otherwise themselves; records are kept by nobody on the way.
    headers.entry(header::CACHE_CONTROL).or_insert(HeaderValue::from_static("no-store"));
    response
}

/// Minutes, hours or days, as a person says a stretch of time.
pub fn stretch(millis: i64) -> String {
    let minutes = millis / 60_000;
    match minutes {
        i64::MIN..=0 => "now".to_owned(),
        1..120 => format!("{minutes} min"),
        120..2880 => format!("{} h", minutes / 60),
        _ => format!("{} days", minutes / 1440),
    }
}

/// How long ago, as a person says it.
pub fn ago(millis: i64) -> String {
    if millis < 60_000 { "just now".to_owned() } else { format!("{} ago", stretch(millis)) }
}

/// A time of the office's own, where no site's zone applies.
pub fn in_utc(at: UtcMillis) -> String {
    let text = at.rfc3339();
    match (text.get(..10), text.get(11..16)) {
        (Some(day), Some(time)) => format!("{day} {time} UTC"),
        _ => text,
    }
}

/// That what a page shows is not the whole ledger yet, while it is so.
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

/// "1 car", "2 cars".
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
