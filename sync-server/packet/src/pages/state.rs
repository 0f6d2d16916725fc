//! The section on the state at the end: the fittings with their plan, cover and protections, photographs, and
//! seals.

use farsiding_core::entry::vocabulary::{PhotoOf, SealEvent};
use farsiding_core::view::{PhotoView, closure_state, seal_place, spoken_about};

use super::super::figures;
use super::super::sheet::{Cell, Sheet};
use super::Told;

pub(super) fn fittings(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    let view = told.view();
    // The heading must be on the same page as its drawing.
    sheet.keep_together(figures::PLAN_HEIGHT + 100.0);
    sheet.heading("6  Fittings, closures and cover at the end of the record");
    let caption = "The openings under the housing as last recorded, seen from above with the car lengthwise from \
                   left to right. The places are a usual arrangement (common practice, no source), not this car's \
                   drawing. Solid: closure tool-tight. Half: hand-tight. Empty: open. Question mark: not recorded. \
                   A bar through the stem: valve shut.";
    let in_words =
        "A plan of the fittings under the housing as last recorded; the table below says the same in words.";
    sheet.figure(figures::PLAN_HEIGHT, in_words, caption, |pen| figures::plan(pen, view));
    let rows = view
        .fittings
        .iter()
        .map(|fitting| {
            let by = |text: String, said: String| format!("{text}\n{said}");
            let valve = match &fitting.valve {
                Some(valve) => by(valve.value.spoken(), told.known_by(valve)),
                None if fitting.fitting.has_valve() => "NOT RECORDED".to_owned(),
                None => "has none".to_owned(),
            };
            let closure = fitting.closure.as_ref().map_or("NOT RECORDED".to_owned(), |closure| {
                by(closure_state(closure.value).to_owned(), told.known_by(closure))
            });
            let mut other = Vec::new();
            if let Some(listen) = &fitting.listen {
                let since = if fitting.listened_since_shut { " after it was shut" } else { "" };
                other.push(format!("heard {}{since}", listen.value.spoken()));
            }
            if let Some(threads) = &fitting.threads {
                other.push(format!("{} engaged", threads.value.shown()));
            }
            if let Some(line) = &fitting.line {
                let hose = if line.value.hose.is_empty() {
                    String::new()
                } else {
                    format!(", hose {}", line.value.hose)
                };
                other.push(format!("{}{hose}", if line.value.connected { "LINE ON" } else { "line off" }));
            }
            for effort in &fitting.efforts {
                other.push(format!("effort {} ({})", effort.amount.shown(), effort.said.shown));
            }
            vec![Cell::strong(fitting.name), valve.into(), closure.into(), other.join("\n").into()]
        })
        .collect();
    sheet.table(&[("Fitting", 16.0), ("Valve", 27.0), ("Plug, cap or cover", 30.0), ("Besides", 27.0)], rows);
    if let Some(cover) = &view.cover {
        let state = cover.value;
        sheet.paragraph(&format!(
            "Housing cover {}, pin {}, {} of {} bolts in place; {}.",
            if state.closed { "closed" } else { "OPEN" },
            if state.pinned { "in" } else { "OUT" },
            state.bolts_in_place,
            state.bolts_required,
            told.known_by(cover)
        ));
    } else {
        sheet.paragraph("The housing cover was not recorded.");
    }
    for protection in &view.protections {
        if let Some(set) = &protection.set {
            let how = if set.value { "set" } else { "taken away" };
            sheet.item(&format!("{}: {how}; {}", protection.what.spoken(), told.known_by(set)));
        }
    }
    if view.tally.out.is_empty() {
        sheet.item("Tally: nothing that was taken out is recorded as still out.");
    }
    for item in &view.tally.out {
        let who = item.out.as_ref().map_or(String::new(), |said| format!(", taken out by {}", told.by(said)));
        sheet.strong(&format!("STILL OUT: {}{who}", item.item));
    }
}

fn shows(of: PhotoOf) -> &'static str {
    match of {
        PhotoOf::CarNumber => "the car number",
        PhotoOf::Seal => "a seal in place",
        PhotoOf::Threads => "threads engaged",
        PhotoOf::Defect => "a defect",
        PhotoOf::Instrument => "an instrument's face",
        PhotoOf::Housing => "the housing",
        PhotoOf::Paper => "the shipping paper",
        PhotoOf::Other => "something else",
    }
}

fn caption(told: &Told<'_>, number: usize, photo: &PhotoView) -> String {
    let file = told.photos.get(&photo.photo.sha256).and_then(|shown| shown.file.as_ref());
    let about =
        if photo.about.is_empty() { String::new() } else { format!(" ({})", spoken_about(&photo.about)) };
    let where_it_is = match file {
        Some(name) => format!("attached as {name}"),
        None => {
            "NOT AT THE OFFICE when this was made; its SHA-256 is ".to_owned()
                + &photo.photo.sha256.to_string()
        }
    };
    format!(
        "Photograph {number}, said to show {}{about}. {}; received {}. {} bytes, {}; {where_it_is}",
        shows(photo.of),
        told.by(&photo.said),
        told.received(photo.said.entry),
        photo.photo.length,
        photo.photo.media,
    )
}

pub(super) fn photographs(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    let view = told.view();
    sheet.heading("9  Photographs");
    if view.photos.is_empty() {
        sheet.paragraph("No photograph is named in the record.");
        return;
    }
    sheet.small(
        "As the office received them, byte for byte; the name of each attached file is the SHA-256 of its bytes, \
         which the entry signs. What a photograph shows, and when it was taken, is the word of whoever made the entry.",
    );
    let shown: Vec<_> = view
        .photos
        .iter()
        .enumerate()
        .map(|(at, photo)| {
            let drawn = told.photos.get(&photo.photo.sha256).and_then(|shown| shown.drawn);
            (drawn, caption(told, at + 1, photo))
        })
        .collect();
    for pair in shown.chunks(2) {
        sheet.pictures(pair);
    }
}

pub(super) fn seals(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    let view = told.view();
    sheet.heading("8  Seals");
    sheet.small(
        "A seal found whole under its recorded number speaks against anybody having opened what it closes; it never stands in \
         for a check of the closures (common practice, no source).",
    );
    if view.seals.is_empty() {
        sheet.paragraph("No seal was recorded.");
        return;
    }
    let spoken = |seal: &farsiding_core::entry::Seal| {
        let number = if seal.number.trim().is_empty() { "no readable number" } else { seal.number.trim() };
        let kind = seal.kind.map_or("kind not said".to_owned(), |kind| kind.spoken());
        let event = match seal.event {
            SealEvent::Found => "found",
            SealEvent::Applied => "put on",
            SealEvent::Removed => "taken off",
        };
        let whole = if seal.intact { "whole" } else { "NOT WHOLE" };
        let note = seal.note.spoken();
        let note = if note.trim().is_empty() { String::new() } else { format!("; {}", note.trim()) };
        format!("{number} ({kind}) {event}, {whole}{note}")
    };
    let rows = view
        .seals
        .iter()
        .map(|seal| {
            let told_of = |known: &Option<farsiding_core::view::Attested<farsiding_core::entry::Seal>>| {
                known.as_ref().map_or("not recorded".to_owned(), |known| {
                    format!("{}\n{}", spoken(&known.value), told.known_by(known))
                })
            };
            let mut besides: Vec<String> = seal.lacks.iter().map(|lack| format!("lacks {lack}")).collect();
            let numbers: Vec<String> = view
                .photos
                .iter()
                .enumerate()
                .filter(|(_, photo)| seal.photos.contains(&photo.photo.sha256))
                .map(|(at, _)| (at + 1).to_string())
                .collect();
            if !numbers.is_empty() {
                besides.push(format!("photograph {}", numbers.join(", ")));
            }
            vec![
                Cell::strong(seal_place(seal.place)),
                told_of(&seal.found).into(),
                told_of(&seal.now).into(),
                besides.join("\n").into(),
            ]
        })
        .collect();
    sheet
        .table(&[("Where", 17.0), ("Found on arrival", 32.0), ("At the end", 32.0), ("Besides", 19.0)], rows);
}
