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
use farsiding_core::{Message, message};
use farsiding_words::Words;
use maud::{DOCTYPE, Markup, html};

pub use super::user::{
    Administers, Allowed, CsrfForm, OfficeUser, Publishes, RecordViewer, Records, Settles, note,
};
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
    /// Procedures: the organisation's own editions.
    Procedures,
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
    pub const SHOWN: [Place; 9] = [
        Place::Today,
        Place::Inquiry,
        Place::Reconcile,
        Place::Seals,
        Place::Defects,
        Place::Instruments,
        Place::Procedures,
        Place::Papers,
        Place::Devices,
    ];

    /// Returns the id of the title and the address of the page.
    const fn sign(self) -> (&'static str, &'static str) {
        match self {
            Place::Today | Place::Elsewhere => ("office-frame-today", "/office/"),
            Place::Inquiry => ("office-frame-inquiry", "/office/inquiry"),
            Place::Reconcile => ("office-frame-reconcile", "/office/reconcile"),
            Place::Seals => ("office-frame-seals", "/office/seals"),
            Place::Defects => ("office-frame-defects", "/office/defects"),
            Place::Instruments => ("office-frame-instruments", "/office/instruments"),
            Place::Procedures => ("office-frame-procedures", "/office/procedures"),
            Place::Papers => ("office-frame-papers", "/office/papers"),
            Place::Devices => ("office-frame-devices", "/office/devices"),
            Place::Accounts => ("office-frame-account", "/office/own"),
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
    let w = user.words;
    let places: &[Place] = if user.is_office() { &Place::SHOWN } else { &[] };
    let head = html! {
        @if !places.is_empty() {
            nav.places aria-label=(w.say("office-frame-places")) {
                @for place in places {
                    @let (title, address) = place.sign();
                    a href=(address) aria-current=[(*place == here).then_some("page")] { (w.say(title)) }
                }
            }
        }
        form.who method="post" action="/office/sign-out" {
            (csrf(user))
            @if user.is_office() {
                a.name href="/office/own" aria-current=[(here == Place::Accounts).then_some("page")] { (user.name) }
            } @else {
                span.name { (user.name) " · " (w.say("office-frame-one-record")) }
            }
            button.quiet type="submit" { (w.say("office-frame-sign-out")) }
        }
    };
    let response = document(w, title, Some((head, &user.refresh)), body);
    (status, response).into_response()
}

/// Returns a page without navigation, for somebody who is not signed in or to whom nothing can be shown.
pub fn bare(status: StatusCode, w: &Words, title: &str, body: Markup) -> Response {
    (status, document(w, title, None, html! { div.alone { (body) } })).into_response()
}

fn document(w: &Words, title: &str, head: Option<(Markup, &str)>, body: Markup) -> Response {
    let (head, refresh) = head.unzip();
    let page = html! {
        (DOCTYPE)
        html lang=(w.language()) dir=(w.language().direction()) {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { (w.text(&message!("office-frame-window", title = Message::typed(title)))) }
                link rel="icon" href="/office/mark.svg" type="image/svg+xml";
                link rel="stylesheet" href="/office/look.css";
                script src="/office/live.js" defer {}
            }
            body data-refresh=[refresh.filter(|token| !token.is_empty())] {
                a.skip href="#main" { (w.say("office-frame-skip")) }
                header.head {
                    a.mark href="/office/" aria-label=(w.text(&message!("office-frame-home", name = Message::typed("Farsiding")))) { (mark()) span { "Farsiding" } }
                    @if let Some(head) = head { (head) }
                }
                main #main tabindex="-1" { (body) }
                footer.foot { p { (w.say(farsiding_core::view::NOTE)) } }
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
pub fn stretch(millis: i64) -> Message {
    let minutes = millis / 60_000;
    let count = |number: i64| number.unsigned_abs();
    match minutes {
        i64::MIN..=0 => message!("office-time-now"),
        1..120 => message!("office-time-minutes", count = count(minutes)),
        120..2880 => message!("office-time-hours", count = count(minutes / 60)),
        _ => message!("office-time-days", count = count(minutes / 1440)),
    }
}

/// Returns how long ago something was.
pub fn ago(millis: i64) -> Message {
    match millis {
        i64::MIN..60_000 => message!("office-time-just-now"),
        _ => message!("office-time-ago", stretch = stretch(millis)),
    }
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
pub fn behind(w: &Words, office: &Office) -> Markup {
    let behind = office.index.behind();
    html! {
        @if behind > 0 {
            p.told role="status" {
                (w.text(&message!("office-frame-behind", count = behind)))
            }
        }
    }
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
        let english = |message: Message| Words::english().text(&message);
        assert_eq!(english(ago(59_999)), "just now");
        assert_eq!(english(ago(3 * 60_000)), "3 min ago");
        assert_eq!(in_utc(UtcMillis(0)), "1970-01-01 00:00 UTC");
    }

    #[test]
    fn a_stretch_of_time_reads_as_people_say_it() {
        let say = |words: &Words| -> Vec<String> {
            [0, 119, 120, 2879, 2880].iter().map(|m| words.text(&stretch(m * 60_000))).collect()
        };
        assert_eq!(say(Words::english()), ["now", "119 min", "2 h", "47 h", "2 days"]);
        let french = Words::of("fr-CA".parse().unwrap_or(farsiding_words::Language::ENGLISH));
        assert_eq!(say(french), ["maintenant", "119 min", "2 h", "47 h", "2 jours"]);
    }
}
