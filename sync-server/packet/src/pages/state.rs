//! The section on the state at the end: the fittings with their plan, cover and protections, photographs, and
//! seals.

use farsiding_core::entry::Seal;
use farsiding_core::view::{Attested, FittingView, PhotoView, about_message};
use farsiding_core::{Arg, Joint, Message, message};

use super::super::figures::{self, cover_words};
use super::super::sheet::{Cell, Sheet};
use super::{Spoken as _, Told};

/// Returns what is known of a fitting besides its valve and closure, a line each.
fn besides(fitting: &FittingView, told: &Told<'_>) -> String {
    let mut other: Vec<Message> = Vec::new();
    if let Some(listen) = &fitting.listen {
        let heard = listen.value.term();
        other.push(match fitting.listened_since_shut {
            true => message!("packet-heard-since-shut", heard = heard),
            false => message!("packet-heard", heard = heard),
        });
    }
    other.extend(
        fitting.threads.as_ref().map(|threads| message!("packet-engaged", threads = threads.value.arg())),
    );
    if let Some(line) = &fitting.line {
        let hose = line.value.hose.as_message();
        other.push(match (line.value.connected, told.of(&line.value.hose).is_empty()) {
            (true, true) => message!("packet-line-on"),
            (true, false) => message!("packet-line-on-hose", hose = hose),
            (false, true) => message!("packet-line-off"),
            (false, false) => message!("packet-line-off-hose", hose = hose),
        });
    }
    for effort in &fitting.efforts {
        let at = effort.said.shown.as_message();
        other.push(message!("packet-effort", amount = effort.amount.arg(), at = at));
    }
    other.iter().map(|part| told.text(part)).collect::<Vec<_>>().join("\n")
}

pub(super) fn fittings(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    let view = told.view();
    // The heading must be on the same page as its drawing.
    sheet.keep_together(figures::PLAN_HEIGHT + 100.0);
    sheet.heading(&told.say("packet-heading-fittings"));
    let (in_words, caption) = (told.say("packet-plan-in-words"), told.say("packet-plan-caption"));
    sheet.figure(figures::PLAN_HEIGHT, &in_words, &caption, |pen| figures::plan(pen, view, told.words));
    let rows = view
        .fittings
        .iter()
        .map(|fitting| {
            let by = |text: String, said: Message| format!("{text}\n{}", told.text(&said));
            let valve = match &fitting.valve {
                Some(valve) => by(told.text(&valve.value.term()), told.known_by(valve)),
                None if fitting.fitting.has_valve() => told.say("packet-not-recorded-strong"),
                None => told.say("packet-has-none"),
            };
            let closure = fitting.closure.as_ref().map_or_else(
                || told.say("packet-not-recorded-strong"),
                |closure| by(told.of(&closure.value.term()), told.known_by(closure)),
            );
            let name = told.text(&fitting.fitting.term());
            vec![Cell::strong(name), valve.into(), closure.into(), besides(fitting, told).into()]
        })
        .collect();
    let columns = told.columns(&[
        ("packet-column-fitting", 16.0),
        ("packet-column-valve", 27.0),
        ("packet-column-closure", 30.0),
        ("packet-column-besides", 27.0),
    ]);
    sheet.table(&columns, rows);
    if let Some(cover) = &view.cover {
        let said = message!("packet-cover", state = cover_words(cover.value), by = told.known_by(cover));
        sheet.paragraph(&told.text(&said));
    } else {
        sheet.paragraph(&told.say("packet-no-cover"));
    }
    for protection in &view.protections {
        if let Some(set) = &protection.set {
            let (what, by) = (protection.what.term(), told.known_by(set));
            sheet.item(&told.text(&match set.value {
                true => message!("packet-protection-set", what = what, by = by),
                false => message!("packet-protection-away", what = what, by = by),
            }));
        }
    }
    if view.tally.out.is_empty() {
        sheet.item(&told.say("packet-tally-none"));
    }
    for item in &view.tally.out {
        let what = item.item.as_message();
        sheet.strong(&told.text(&match &item.out {
            None => message!("packet-still-out", item = what),
            Some(said) => message!("packet-still-out-by", item = what, by = told.by(said)),
        }));
    }
}

fn caption(told: &Told<'_>, number: usize, photo: &PhotoView) -> Message {
    let file = told.photos.get(&photo.photo.sha256).and_then(|shown| shown.file.as_ref());
    let what = if photo.about.is_empty() {
        photo.of.term()
    } else {
        message!("packet-shows-about", what = photo.of.term(), about = about_message(&photo.about))
    };
    let place = match file {
        Some(name) => message!("packet-attached-as", name = Arg::typed(name.as_str())),
        None => message!("packet-not-at-office", digest = Arg::typed(photo.photo.sha256.to_string())),
    };
    message!(
        "packet-photograph",
        number = Arg::Number(number.to_string()),
        what = what,
        by = told.by(&photo.said),
        received = told.received(photo.said.entry),
        bytes = Arg::Number(photo.photo.length.to_string()),
        media = photo.photo.media.as_message(),
        place = place,
    )
}

pub(super) fn photographs(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    let view = told.view();
    sheet.heading(&told.say("packet-heading-photographs"));
    if view.photos.is_empty() {
        sheet.paragraph(&told.say("packet-no-photographs"));
        return;
    }
    sheet.small(&told.say("packet-photographs-what"));
    let shown: Vec<_> = view
        .photos
        .iter()
        .enumerate()
        .map(|(at, photo)| {
            let drawn = told.photos.get(&photo.photo.sha256).and_then(|shown| shown.drawn);
            (drawn, told.text(&caption(told, at + 1, photo)))
        })
        .collect();
    let not_shown = told.say("packet-picture-not-shown");
    for pair in shown.chunks(2) {
        sheet.pictures(pair, &not_shown);
    }
}

/// Returns what was said of a seal.
fn spoken(seal: &Seal, told: &Told<'_>) -> Message {
    let number = match seal.number.trim() {
        "" => message!("packet-no-number"),
        number => number.as_message(),
    };
    let kind = seal.kind.map_or_else(|| message!("packet-kind-not-said"), |kind| kind.term());
    let mut parts = vec![message!("packet-seal", number = number, kind = kind, event = seal.event.term())];
    parts.push(match seal.intact {
        true => message!("packet-seal-whole"),
        false => message!("packet-seal-not-whole"),
    });
    let note = seal.note.message();
    parts.extend(Some(note).filter(|note| !told.text(note).trim().is_empty()));
    message!("packet-parts", parts = Arg::list(Joint::Comma, parts))
}

pub(super) fn seals(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    let view = told.view();
    sheet.heading(&told.say("packet-heading-seals"));
    sheet.small(&told.say("packet-seals-what"));
    if view.seals.is_empty() {
        sheet.paragraph(&told.say("packet-no-seals"));
        return;
    }
    let told_of = |known: &Option<Attested<Seal>>| match known {
        None => told.say("packet-not-recorded"),
        Some(known) => {
            format!("{}\n{}", told.text(&spoken(&known.value, told)), told.text(&told.known_by(known)))
        }
    };
    let rows = view
        .seals
        .iter()
        .map(|seal| {
            let mut besides: Vec<Message> = seal
                .lacks
                .iter()
                .map(|lack| message!("packet-seal-lacks", what = lack.as_message()))
                .collect();
            let numbers: Vec<Message> = view
                .photos
                .iter()
                .enumerate()
                .filter(|(_, photo)| seal.photos.contains(&photo.photo.sha256))
                .map(|(at, _)| Message::typed((at + 1).to_string()))
                .collect();
            if !numbers.is_empty() {
                let numbers = Arg::list(Joint::Comma, numbers);
                besides.push(message!("packet-see-photograph", numbers = numbers));
            }
            let besides: Vec<String> = besides.iter().map(|part| told.text(part)).collect();
            vec![
                Cell::strong(told.text(&seal.place.term())),
                told_of(&seal.found).into(),
                told_of(&seal.now).into(),
                besides.join("\n").into(),
            ]
        })
        .collect();
    let columns = told.columns(&[
        ("packet-column-where", 17.0),
        ("packet-column-found", 32.0),
        ("packet-column-at-end", 32.0),
        ("packet-column-besides", 19.0),
    ]);
    sheet.table(&columns, rows);
}
