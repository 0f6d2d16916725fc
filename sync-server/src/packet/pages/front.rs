//! The first page: what the document shows and does not show, which car, where, when, who.

use farsiding_core::entry::vocabulary::{ClockEvent, Receiver};
use farsiding_core::view::Fate;

use super::super::sheet::Sheet;
use super::Told;
use crate::office::facts::zone_words;

const SHOWS: [&str; 4] = [
    "It shows what people recorded while a pressurised tank car stood at a siding: each entry signed by the \
     device it was made on, in the words and numbers entered.",
    "It proves that every entry existed when the office's log received it (the column \u{201c}received\u{201d}), \
     and that neither the entries nor this file were changed since. Anybody can check that, see the last \
     section.",
    "It does not prove that a scene was as claimed, that a photograph shows the car it is said to show, or that \
     a claimed time is true: those are the words of whoever made the entry.",
    "Farsiding records and computes. It never declares a car safe, empty or fit to move. Local codes, the \
     owner's instructions and licensed practice come first.",
];

pub(super) fn write(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    let view = told.view();
    let header = &view.header;
    let car = if header.car.is_empty() { "car not known" } else { &header.car };
    sheet.title("Evidence packet: the record of a tank car's stay", &format!("Car {car}"));
    sheet.framed("What this document shows, and what it does not", &SHOWS);
    sheet.gap(2.0);
    let mut facts: Vec<(&str, String)> = Vec::new();
    let site = if header.site_name.is_empty() { "not known".to_owned() } else { header.site_name.clone() };
    let spot = if header.spot.is_empty() { String::new() } else { format!(", {}", header.spot) };
    facts.push(("Site", format!("{site}{spot}; times are shown in {}", zone_words(&header.zone))));
    if let Some(again) = &header.number_again {
        let read = again.value.normal();
        let same = if read == header.car { "the same" } else { "ANOTHER number" };
        facts.push(("Number read again", format!("{read}, {same}; {}", told.known_by(again))));
    }
    let into = match header.receiver {
        Some(Receiver::FixedTank) => "a fixed tank",
        Some(Receiver::Truck) => "trucks",
        None => "not recorded",
    };
    facts.push(("Unloaded into", into.to_owned()));
    if let Some(paper) = &header.paper {
        let p = &paper.value;
        let mut parts = vec![header.product.clone()];
        if !p.number.trim().is_empty() {
            parts.push(format!("paper {}", p.number.trim()));
        }
        if !p.shipper.trim().is_empty() {
            parts.push(format!("from {}", p.shipper.trim()));
        }
        if let Some(billed) = &p.billed {
            parts.push(format!("billed {}", billed.shown()));
        }
        parts.retain(|part| !part.is_empty());
        facts.push(("Shipping paper", format!("{}; {}", parts.join(", "), told.known_by(paper))));
    }
    for clock in &view.clock {
        let name = match clock.event {
            ClockEvent::Notice => "Notice given",
            ClockEvent::ConstructivePlacement => "Could have been placed",
            ClockEvent::ActualPlacement => "Placed",
            ClockEvent::CarrierTold => "Carrier told",
            ClockEvent::Pulled => "Pulled",
        };
        facts.push((name, format!("{} (as recorded by {})", clock.shown, told.by(&clock.at.said))));
    }
    facts.push(("First entry", header.since_shown.clone()));
    facts.push((
        "Released",
        view.release.released.as_ref().map_or_else(
            || format!("not released; stage: {}", view.stage.spoken()),
            |released| {
                let how = if released.value { "as residue" } else { "not as residue" };
                format!("{how}, by {}", told.known_by(released))
            },
        ),
    ));
    facts.push(("Last entry received", told.shown(told.refolded.at)));
    let people: Vec<String> = header
        .people
        .iter()
        .map(|person| {
            let code = if person.name == person.operator.0 {
                String::new()
            } else {
                format!(" ({})", person.operator)
            };
            format!("{}{code}: {} entries", person.name, person.entries)
        })
        .collect();
    facts.push(("People", people.join("; ")));
    let devices: Vec<String> = header
        .devices
        .iter()
        .map(|device| {
            let warning =
                device.standing.warning().map_or(String::new(), |w| format!(", {}", w.to_uppercase()));
            format!("{} ({}){warning}: {} entries", device.name, device.device.short(), device.entries)
        })
        .collect();
    facts.push(("Devices", devices.join("; ")));
    let procedure = if header.procedure_known { "" } else { " (the text the visit named is not known here)" };
    facts.push(("Procedure", format!("{}{procedure}", header.procedure_title)));
    let visits: Vec<String> = header.visits.iter().map(ToString::to_string).collect();
    let joined = if visits.len() > 1 { " (joined: records of one stay)" } else { "" };
    facts.push(("Visit", format!("{}{joined}", visits.join(", "))));
    sheet.facts(&facts);
    glance(sheet, told);
    if !header.local_rules.is_empty() {
        sheet.subheading("What comes first at this site");
        sheet.paragraph(&header.local_rules);
    }
    if !header.procedure_note.is_empty() {
        sheet.small(&header.procedure_note);
    }
}

/// What a reader should not have to search for.
fn glance(sheet: &mut Sheet<'_>, told: &Told<'_>) {
    let view = told.view();
    sheet.subheading("At a glance");
    let corrected =
        view.history.iter().filter(|line| line.fate != Fate::Kept && !line.why_gone.is_empty()).count();
    let mut lines = vec![format!(
        "{} entries of the stay, {} photographs named in them.",
        view.entries,
        view.photos.len()
    )];
    let mut count = |n: usize, one: &str, many: &str| {
        if n == 1 {
            lines.push(one.to_owned());
        } else if n > 1 {
            lines.push(format!("{n} {many}"));
        }
    };
    count(
        view.disagreements.len(),
        "1 DISAGREEMENT between entries is not settled.",
        "DISAGREEMENTS between entries are not settled.",
    );
    count(
        view.ended_disagreements.len(),
        "1 disagreement between entries ended.",
        "disagreements between entries ended.",
    );
    count(
        corrected,
        "1 entry was corrected, withdrawn or settled.",
        "entries were corrected, withdrawn or settled.",
    );
    count(
        view.blockers.iter().filter(|b| b.passed_over.is_none()).count(),
        "1 thing the record looks for before release is MISSING.",
        "things the record looks for before release are MISSING.",
    );
    count(
        view.passed_over.len(),
        "1 thing missing was PASSED OVER with a reason.",
        "things missing were PASSED OVER with a reason.",
    );
    count(view.defects.len(), "1 defect is known of the car.", "defects are known of the car.");
    count(view.holds.len(), "1 hold was called.", "holds were called.");
    count(
        view.chain_gaps.len(),
        "1 gap in a device's chain of entries.",
        "gaps in devices' chains of entries.",
    );
    count(
        told.kept().count(),
        "1 entry is KEPT AND DOES NOT COUNT, see section 9.",
        "entries are KEPT AND DO NOT COUNT, see section 9.",
    );
    let revoked =
        view.history.iter().filter(|line| line.said.standing.warning() == Some("device revoked")).count();
    count(
        revoked,
        "1 entry came in after its device was REVOKED.",
        "entries came in after their device was REVOKED.",
    );
    let uncertified = view
        .history
        .iter()
        .filter(|line| line.said.standing.warning() == Some("device not certified"))
        .count();
    count(uncertified, "1 entry of a device NOT CERTIFIED.", "entries of devices NOT CERTIFIED.");
    for line in &lines {
        sheet.item(line);
    }
}
