//! Seals, photographs, defects and lifted holds on a visit's page.

use farsiding_core::entry::Seal;
use farsiding_core::view::{VisitView, about_message};
use farsiding_core::{Arg, Message, message};
use farsiding_words::Words;
use maud::{Markup, html};

use super::frame::OfficeUser;
use super::photo_acts;
use super::visit::{Page, by};

/// Returns the seals as found and as they are now.
pub fn seals(w: &Words, view: &VisitView) -> Markup {
    html! {
        @if !view.seals.is_empty() {
            h2 { (w.say("office-visit-seals")) }
            ul.plain.split {
                @for seal in &view.seals {
                    li {
                        b { (w.text(&seal.place.term())) }
                        @if let Some(found) = &seal.found {
                            br; (w.text(&sealed(&found.value))) @if !found.value.intact { " " span.hot { (w.say("office-visit-not-intact")) } }
                            @if found.disputed { " " span.hot { (w.say("office-visit-entries-differ")) } } " " (by(w, &found.said))
                        }
                        @if let Some(now) = &seal.now {
                            br; (w.text(&sealed(&now.value)))
                            @if !now.value.intact { " " span.hot { (w.say("office-visit-not-intact")) } }
                            @if now.disputed { " " span.hot { (w.say("office-visit-entries-differ")) } } " " (by(w, &now.said))
                        }
                        @for lack in &seal.lacks { br; span.hot { (w.text(&message!("office-visit-lacks", what = lack.clone()))) } }
                    }
                }
            }
        }
    }
}

fn sealed(seal: &Seal) -> Message {
    let number = match seal.number.trim() {
        "" => message!("office-visit-no-number"),
        number => Message::typed(number),
    };
    message!("office-visit-seal", event = seal.event.term(), number = number)
}

/// Returns what received the cargo, and what went with it.
pub fn received(w: &Words, view: &VisitView) -> Markup {
    let lines: Vec<_> = view.received().collect();
    html! {
        @if !lines.is_empty() {
            h2 { (w.say("office-visit-cargo")) }
            ul.plain { @for line in lines { li { (w.text(&line.sentence)) " " (by(w, &line.said)) } } }
        }
    }
}

/// Returns the photographs that the record speaks of.
pub fn photographs(user: &OfficeUser, view: &VisitView, page: &Page, path: &str) -> Markup {
    let w = user.words;
    html! {
        @if !view.photos.is_empty() {
            h2 { (w.say("office-visit-photographs")) }
            ul.photos {
                @for photo in &view.photos {
                    @let digest = photo.photo.sha256;
                    @let of = w.text(&photo.of.term());
                    li {
                        @if page.photos_here.contains(&digest) {
                            a href={ (path) "/photos/" (digest) } {
                                img src={ (path) "/photos/" (digest) } alt=(w.text(&message!("office-visit-photo-alt", of = photo.of.term(), name = Arg::typed(&photo.said.name), time = Arg::typed(&photo.said.shown)))) loading="lazy";
                            }
                        } @else if let Some(removed) = page.photos_removed.iter().find(|one| one.sha256 == digest) {
                            (photo_acts::gone(w, removed))
                        } @else {
                            div.not-here { (w.say("office-visit-photo-to-come")) }
                        }
                        p { b { (of) } @if !photo.about.is_empty() { " · " (w.text(&about_message(&photo.about))) } br; (by(w, &photo.said)) }
                        @if page.photos_here.contains(&digest) { (photo_acts::form(user, path, digest)) }
                    }
                }
            }
        }
    }
}

/// Returns the defects, and the holds that were lifted.
pub fn defects(w: &Words, view: &VisitView) -> Markup {
    html! {
        @if !view.defects.is_empty() {
            h2 { (w.say("office-visit-defects")) }
            ul.plain {
                @for defect in &view.defects {
                    li.hot-edge[defect.is_open()] {
                        b { (defect.what) } @if let Some(fitting) = defect.fitting { " (" (w.text(&fitting.term())) ")" }
                        " " (by(w, &defect.said))
                        @if defect.needs_authority { br; (w.say("office-visit-defect-authority")) }
                        @for report in &defect.forwarded { br; (w.text(&message!("office-visit-reported", to = Arg::typed(&report.to), how = report.how.message()))) " " (by(w, &report.said)) }
                        @if let Some(answer) = &defect.authority {
                            br; (w.text(&message!("office-visit-answered", by = Arg::typed(&answer.value.by), reference = Arg::typed(&answer.value.reference))))
                            @if let Some(due) = &answer.value.written_due_shown {
                                ", " (w.text(&message!("office-visit-written-due", due = Arg::typed(due)))) @if answer.value.overdue { " " span.hot { (w.say("office-visit-overdue")) } }
                            }
                        }
                        @match &defect.resolved {
                            Some(resolved) => { br; (w.text(&message!("office-visit-repaired", how = Arg::typed(&resolved.value)))) " " (by(w, &resolved.said)) }
                            None => { br; span.hot { (w.say("office-visit-defect-open")) } }
                        }
                    }
                }
            }
        }
        @if view.holds.iter().any(|hold| !hold.open) {
            h3 { (w.say("office-visit-holds-over")) }
            ul.plain {
                @for hold in view.holds.iter().filter(|hold| !hold.open) {
                    li { (hold.because) " " (by(w, &hold.said))
                        @if let Some(lifted) = &hold.lifted { br; (w.text(&message!("office-visit-lifted", because = Arg::typed(&lifted.value)))) " " (by(w, &lifted.said)) }
                    }
                }
            }
        }
    }
}
