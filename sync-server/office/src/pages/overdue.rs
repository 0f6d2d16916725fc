//! On the start page: who has a car, was asked whether all is well, and is overdue. Silence may be lack of signal alone,
//! and the page says so.

use farsiding_core::clock::UtcMillis;
use farsiding_core::view::{CheckIn, CheckInView};
use farsiding_core::{Arg, message};
use farsiding_words::Words;
use maud::{Markup, html};

use super::frame::stretch;
use super::scale;
use super::today::number_of;
use crate::index::IndexRow;

/// Returns the list of the overdue, whoever was silent longest first; nothing while nobody is.
pub(super) fn overdue(w: &Words, here: &[IndexRow], now: UtcMillis) -> Markup {
    let mut late: Vec<(&IndexRow, &CheckInView)> = here
        .iter()
        .filter_map(|line| Some((line, line.check_in.as_ref()?)))
        .filter(|(_, check_in)| check_in.at(now) == CheckIn::Overdue)
        .collect();
    late.sort_by_key(|(_, check_in)| check_in.due);
    if late.is_empty() {
        return html! {};
    }
    html! {
        section #overdue aria-labelledby="overdue-title" {
            h2 #overdue-title { (w.text(&message!("office-overdue-title", count = late.len()))) }
            p { (w.say("office-overdue-signal")) }
            ul.behind {
                @for (line, check_in) in late {
                    li.hot-edge {
                        (scale::caution()) " "
                        b { (check_in.name) }
                        " · "
                        @match line.visit() {
                            Some(visit) => { a.num href={ "/office/visits/" (visit) } { (number_of(w, line)) } }
                            None => { span.num { (number_of(w, line)) } }
                        }
                        @if !line.spot.is_empty() { " · " (line.spot) }
                        @if !line.site_name.is_empty() { " · " (line.site_name) }
                        br;
                        (w.text(&message!(
                            "office-overdue-since",
                            since = stretch(now.since(check_in.due)),
                            last = Arg::typed(&check_in.shown),
                            minutes = check_in.minutes,
                        )))
                    }
                }
            }
        }
    }
}
