//! What is worth pointing out about a visit: never a refusal, never instead of a value.

use std::collections::BTreeMap;

use super::car::last_day;
use super::fold_context::FoldContext;
use super::header::Header;
use super::site::one_name;
use super::watch::{AttendanceView, HandoverView};
use super::{VisitParts, unused};
use crate::clock::UtcMillis;
use crate::entry::car_number::CarNumberFinding;
use crate::entry::vocabulary::{EmptySign, Place, Protection, SealEvent};
use crate::entry::{Reading, Slot, Statement, under};
use crate::units::{Finding, Severity};

/// A clock further off than this is pointed out, milliseconds (a choice of this tool, no source).
const CLOCK_OFF_MILLIS: i64 = 2 * 60 * 1000;
/// An entry further in the future than this is pointed out, milliseconds (a choice, no source).
const FUTURE_MILLIS: i64 = 10 * 60 * 1000;

struct Found<'f>(&'f mut Vec<Finding>);

impl Found<'_> {
    fn note(&mut self, code: &str, message: impl Into<String>) {
        self.0.push(Finding::new(code, Severity::Note, message));
    }
    fn check(&mut self, code: &str, message: impl Into<String>) {
        self.0.push(Finding::new(code, Severity::Check, message));
    }
    fn alarm(&mut self, code: &str, message: impl Into<String>) {
        self.0.push(Finding::new(code, Severity::Alarm, message));
    }
}

pub(super) fn fold(
    ledger: &FoldContext<'_>,
    parts: &VisitParts<'_>,
    header: &Header,
    handovers: &[HandoverView],
    attendance: &AttendanceView,
    findings: &mut Vec<Finding>,
) {
    unused::findings(ledger, findings);
    let mut found = Found(findings);
    number(header, &mut found);
    record(ledger, header, &mut found);
    clocks(ledger, header, &mut found);
    car(ledger, parts, &mut found);
    instruments(ledger, &mut found);
    seals_and_signs(ledger, parts, &mut found);
    training(ledger, header, &mut found);
    people(ledger, handovers, attendance, &mut found);
    for item in &parts.tally.unknown {
        let message =
            format!("{} came back, but nobody recorded it as taken out: is the name right?", item.item);
        found.check("item_back_unknown", message);
    }
    if !ledger
        .slots
        .stood(&Slot::protection(Protection::BlueSign))
        .any(|item| matches!(item.claim, Some(Statement::Protection { set: true, .. })))
        && attendance.connected
    {
        found.alarm("blue_sign_not_up", "A line is connected and nobody recorded the blue sign as up.");
    }
    for item in ledger.slots.items() {
        if let Statement::Check { what, right: false, note } = &item.entry.body.says
            && item.fate == super::slots::Fate::Live
        {
            found.check(
                "check_not_right",
                format!("Not right: {} {}", what.text().trim(), note.trim()).trim().to_owned(),
            );
        }
    }
}

/// That entries are here and cannot be read.
pub(super) fn unreadable(count: usize) -> String {
    format!(
        "{count} {} of this record cannot be read here: {} damaged where {} kept. What {} is not shown, and what seems \
         not to have been done may be in {}.",
        if count == 1 { "entry" } else { "entries" },
        if count == 1 { "its row is" } else { "their rows are" },
        if count == 1 { "it is" } else { "they are" },
        if count == 1 { "it says" } else { "they say" },
        if count == 1 { "it" } else { "them" },
    )
}

fn number(header: &Header, found: &mut Found<'_>) {
    for finding in &header.number_findings {
        match finding {
            CarNumberFinding::UnusualForm => found.check(
                "car_number_unusual",
                format!(
                    "\u{201c}{}\u{201d} is not the usual form of a car number; it is kept as typed.",
                    header.car
                ),
            ),
            CarNumberFinding::WrongCheckDigit => found.check(
                "car_number_check_digit",
                format!("The check digit of {} does not fit: read the number again.", header.car),
            ),
        }
    }
    if let Some(again) = &header.number_again
        && !header.car.is_empty()
        && again.value.normal() != header.car
    {
        let message = format!(
            "The number was read as {} and then as {}: which car is this?",
            header.car,
            again.value.normal()
        );
        found.alarm("car_number_differs", message);
    }
    if let Some(paper) = &header.paper {
        let on_paper = crate::entry::car_number::CarNumber(paper.value.car.clone()).normal();
        if !on_paper.is_empty() && !header.car.is_empty() && on_paper != header.car {
            let message = format!("The paper is for {on_paper}, the car is {}.", header.car);
            found.alarm("paper_for_another_car", message);
        }
        if paper.value.odorised == Some(false) {
            found.alarm("not_odorised", "The paper says that the product is not odorised.");
        }
    }
}

fn record(ledger: &FoldContext<'_>, header: &Header, found: &mut Found<'_>) {
    if ledger.ctx.unreadable > 0 {
        found.alarm("unreadable_entries", unreadable(ledger.ctx.unreadable));
    }
    if header.procedure.is_some() && !header.procedure_known {
        found.check(
            "procedure_unknown",
            "The procedure this visit followed is not known here; the default is shown in its stead.",
        );
    }
    for item in ledger.slots.items() {
        if item.misfiled {
            let message =
                format!("An entry was filed elsewhere than what it says: {}", ledger.sentence(item));
            found.check("entry_misfiled", message);
        }
        if let Statement::Agreement { .. } = item.entry.body.says
            && item.claim.is_none()
        {
            found.check(
                "agreement_on_missing",
                "A disagreement was settled in favour of an entry that is not here.",
            );
        }
        if let Statement::Step { step, outcome: crate::entry::vocabulary::StepOutcome::Skipped, note } =
            &item.entry.body.says
            && note.trim().is_empty()
            && item.entry.body.why.trim().is_empty()
        {
            let message =
                format!("Step {} was skipped without a reason; it stays open.", ledger.step_title(step));
            found.check("skipped_without_reason", message);
        }
    }
}

fn clocks(ledger: &FoldContext<'_>, header: &Header, found: &mut Found<'_>) {
    for device in &header.devices {
        if let Some(ahead) = device.ahead_millis.filter(|ahead| ahead.saturating_abs() > CLOCK_OFF_MILLIS) {
            let way = if ahead > 0 { "ahead" } else { "behind" };
            let message = format!(
                "The clock of {} is {} {way} of the server's; times are shown corrected, and as claimed beside it.",
                device.name,
                duration(ahead.saturating_abs())
            );
            found.note("clock_off", message);
        }
        if let Some(warning) = device.standing.warning() {
            found.check("device_standing", format!("{}: {warning}.", device.name));
        }
    }
    let limit = UtcMillis(ledger.ctx.now.0.saturating_add(FUTURE_MILLIS));
    let future = ledger.slots.items().iter().filter(|item| item.at > limit).count();
    if future > 0 {
        found.check(
            "from_the_future",
            match future {
                1 => "1 entry claims a time later than now: a clock is wrong.".to_owned(),
                _ => format!("{future} entries claim a time later than now: a clock is wrong."),
            },
        );
    }
    // Within one device's chain time does not run backwards.
    let mut last: std::collections::BTreeMap<crate::ids::DeviceId, UtcMillis> =
        std::collections::BTreeMap::new();
    let mut back: std::collections::BTreeSet<crate::ids::DeviceId> = std::collections::BTreeSet::new();
    let mut by_sequence: Vec<_> = ledger.slots.items().iter().collect();
    by_sequence.sort_by_key(|item| (item.entry.device, item.entry.body.seq, item.entry.id));
    for item in by_sequence {
        let claimed = item.entry.body.when.at;
        let before = last.insert(item.entry.device, claimed);
        if before.is_some_and(|before| before.since(claimed) > CLOCK_OFF_MILLIS) {
            back.insert(item.entry.device);
        }
    }
    for device in back {
        let message = format!("The clock of {} was set back during the visit.", ledger.device_name(device));
        found.note("clock_set_back", message);
    }
}

fn duration(millis: i64) -> String {
    let minutes = millis / 60_000;
    match (minutes / 1440, minutes / 60 % 24, minutes % 60) {
        (0, 0, minutes) => format!("{minutes} min"),
        (0, hours, minutes) => format!("{hours} h {minutes} min"),
        (days, hours, _) => format!("{days} d {hours} h"),
    }
}

fn car(ledger: &FoldContext<'_>, parts: &VisitParts<'_>, found: &mut Found<'_>) {
    for date in &parts.car.test_dates {
        match date.overdue {
            Some(true) => {
                let message = format!(
                    "{} was due {}: past (49 CFR 173.31(d)(1)(x), read).",
                    super::story::test_date(date.test),
                    date.due
                );
                found.check("test_overdue", message);
            }
            Some(false) => {}
            None => {
                let message = format!(
                    "{} due \u{201c}{}\u{201d} cannot be read as a date.",
                    super::story::test_date(date.test),
                    date.due
                );
                found.note("test_date_unreadable", message);
            }
        }
    }
    for defect in parts.defects {
        let here = defect.visit.is_none_or(|visit| ledger.visits.contains(&visit));
        if !here && defect.is_open() {
            let message = format!(
                "Noted at an earlier visit and not put right as far as is known here: {} ({}).",
                defect.what,
                defect.said.signature()
            );
            let severity = if defect.needs_authority { Severity::Alarm } else { Severity::Check };
            found.0.push(Finding::new("known_defect", severity, message));
        }
        if let Some(authority) = &defect.authority {
            if authority.value.overdue {
                let message = format!(
                    "The approval for \u{201c}{}\u{201d} was spoken and is not confirmed in writing; that was due {} (two weeks, 49 CFR 174.50, read).",
                    defect.what,
                    authority.value.written_due_shown.as_deref().unwrap_or("?")
                );
                found.check("written_approval_overdue", message);
            }
            if authority.value.reference.is_empty() {
                found.note(
                    "approval_without_reference",
                    format!("The approval for \u{201c}{}\u{201d} has no reference.", defect.what),
                );
            }
        }
        if here && defect.is_open() && defect.forwarded.is_empty() {
            found.check(
                "defect_not_forwarded",
                format!("Nobody reported \u{201c}{}\u{201d} up yet.", defect.what),
            );
        }
    }
}

/// Instruments that are not the site's, past their calibration, or read where a hose is read.
fn instruments(ledger: &FoldContext<'_>, found: &mut Found<'_>) {
    let Some(site) = ledger.ctx.site else { return };
    let today = ledger.ctx.now.to_datetime().map(|now| now.with_timezone(&ledger.zone).date_naive());
    let mut named: std::collections::BTreeSet<&str> = std::collections::BTreeSet::new();
    for slot in ledger.slots.names_under(under::READINGS).chain(ledger.slots.names_under(under::SERIES)) {
        for item in ledger.slots.live(slot) {
            if let Some(Statement::Reading(Reading { instrument, place, .. })) = item.claim
                && !instrument.trim().is_empty()
                && *place != Place::Truck
            {
                named.insert(instrument.trim());
            }
        }
    }
    for name in named {
        match ledger.instrument(name) {
            None if !site.instruments.is_empty() => {
                found.note("instrument_unknown", format!("{name} is not among the site's instruments."));
            }
            Some(instrument) => {
                let due = last_day(&instrument.calibration_due);
                if due.zip(today).is_some_and(|(due, today)| today > due) {
                    let message = format!(
                        "The calibration of {} was due {}.",
                        instrument.name, instrument.calibration_due
                    );
                    found.check("calibration_overdue", message);
                }
            }
            None => {}
        }
    }
    let hoses: std::collections::BTreeSet<&str> = ledger
        .slots
        .items()
        .iter()
        .filter_map(|item| match &item.entry.body.says {
            Statement::Line { hose, connected: true, .. } if !hose.trim().is_empty() => Some(hose.trim()),
            _ => None,
        })
        .collect();
    let mut site_hoses = BTreeMap::new();
    for hose in &site.hoses {
        site_hoses.entry(one_name(&hose.name)).or_insert(hose);
    }
    for name in hoses {
        match site_hoses.get(&one_name(name)) {
            None if !site.hoses.is_empty() => {
                found.check("hose_unknown", format!("Hose {name} is not among the site's hoses."));
            }
            Some(hose) => {
                let due = last_day(&hose.test_due);
                if due.zip(today).is_some_and(|(due, today)| today > due) {
                    found.check(
                        "hose_test_overdue",
                        format!("The test of hose {} was due {}.", hose.name, hose.test_due),
                    );
                }
            }
            None => {}
        }
    }
}

/// Seals put on that were not issued to the site, and signs that ask to stop.
fn seals_and_signs(ledger: &FoldContext<'_>, parts: &VisitParts<'_>, found: &mut Found<'_>) {
    if let Some(site) = ledger.ctx.site.filter(|site| !site.seal_stock.is_empty()) {
        for seal in parts.seals.iter().filter_map(|seal| seal.now.as_ref()) {
            let number = seal.value.number.trim();
            if seal.value.event == SealEvent::Applied && !number.is_empty() && !site.holds_seal(number) {
                let message = format!("Seal {number} is not among those issued to this site.");
                found.note("seal_not_from_stock", message);
            }
        }
    }
    let frost = ledger
        .slots
        .live(&Slot::empty_sign(EmptySign::FrostRing))
        .any(|item| matches!(item.claim, Some(Statement::EmptySign { seen: true, .. })));
    if frost {
        let message = "A frost ring stands on the shell: liquid boils inside, or the shell cools where it should not. Stop and find out.";
        found.alarm("frost_ring", message);
    }
}

/// Training is renewed every three years (49 CFR 172.704, from memory).
fn training(ledger: &FoldContext<'_>, header: &Header, found: &mut Found<'_>) {
    let Some(today) = ledger.ctx.now.to_datetime().map(|now| now.date_naive()) else { return };
    for person in &header.people {
        let trained = ledger.ctx.people.get(&person.operator).and_then(|known| last_day(&known.trained_on));
        let due = trained.and_then(|day| day.checked_add_months(chrono::Months::new(36)));
        if due.is_some_and(|due| today > due) {
            let message = format!(
                "The last training of {} on record is more than three years old (49 CFR 172.704, from memory).",
                person.name
            );
            found.check("training_overdue", message);
        }
    }
}

fn people(
    ledger: &FoldContext<'_>,
    handovers: &[HandoverView],
    attendance: &AttendanceView,
    found: &mut Found<'_>,
) {
    for handover in handovers.iter().filter(|handover| handover.one_sided) {
        let message = format!(
            "The handover from {} to {} is signed by {} only.",
            ledger.name(&handover.from),
            ledger.name(&handover.to),
            if handover.given.is_some() { ledger.name(&handover.from) } else { ledger.name(&handover.to) }
        );
        found.check("handover_one_sided", message);
    }
    for gap in &attendance.gaps {
        let valves = if gap.valves_shut { "valves recorded shut" } else { "a valve recorded open" };
        let message = format!(
            "{} min without a sign of attendance while a line was connected, {valves}: {}{}.",
            gap.minutes,
            gap.shown,
            if gap.said_away { ", and somebody wrote that they left" } else { "" }
        );
        let severity = if gap.valves_shut { Severity::Check } else { Severity::Alarm };
        found.0.push(Finding::new("attendance_gap", severity, message));
    }
}
