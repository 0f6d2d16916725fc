//! Findings about a visit. A finding never refuses anything and never replaces a value.

use std::collections::BTreeMap;

use super::car::last_day;
use super::edition_changes::left_out_words;
use super::fold_context::FoldContext;
use super::header::Header;
use super::site::one_name;
use super::story::{item_message, none};
use super::watch::{AttendanceView, HandoverView};
use super::{VisitParts, carried, done, expected, incidents, leaks, leaving, received, track, unused};
use crate::clock::UtcMillis;
use crate::entry::car_number::CarNumberFinding;
use crate::entry::vocabulary::{EmptySign, Measured, Place, Protection, Purpose, SealEvent};
use crate::entry::{Reading, Slot, Statement, under};
use crate::procedure::Threshold;
use crate::units::{Finding, Severity};
use crate::{Arg, Message, message};

/// The clock error in milliseconds above which there is a finding (chosen for this program, no source).
const CLOCK_OFF_MILLIS: i64 = 2 * 60 * 1000;
/// The time in milliseconds by which an entry must lie in the future for a finding (chosen for this program,
/// no source).
const FUTURE_MILLIS: i64 = 10 * 60 * 1000;

pub(super) struct Found<'f>(&'f mut Vec<Finding>);

impl Found<'_> {
    fn note(&mut self, code: &str, message: Message) {
        self.0.push(Finding::new(code, Severity::Note, message));
    }
    pub(super) fn check(&mut self, code: &str, message: Message) {
        self.0.push(Finding::new(code, Severity::Check, message));
    }
    pub(super) fn alarm(&mut self, code: &str, message: Message) {
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
    expected::findings(ledger, header, found.0);
    record(ledger, header, &mut found);
    clocks(ledger, header, &mut found);
    done::findings(ledger, found.0);
    car(ledger, parts, &mut found);
    instruments(ledger, &mut found);
    seals_and_signs(ledger, parts, &mut found);
    training(ledger, header, &mut found);
    people(ledger, handovers, attendance, &mut found);
    incidents::findings(ledger, parts.incidents, &mut found);
    leaks::findings(parts.leaks, &mut found);
    leaving::findings(ledger, parts.leaving, attendance, &mut found);
    carried::findings(ledger, &parts.car.carried, &mut found);
    track::findings(ledger, attendance.connected, &mut found);
    received::findings(ledger, &mut found);
    for item in &parts.tally.unknown {
        let message = message!("finding-item-back-unknown", item = item_message(&item.item));
        found.check("item_back_unknown", message);
    }
    if !ledger
        .slots
        .stood(&Slot::protection(Protection::BlueSign))
        .any(|item| matches!(item.claim, Some(Statement::Protection { set: true, .. })))
        && attendance.connected
    {
        found.alarm("blue_sign_not_up", Message::new("finding-blue-sign-not-up"));
    }
    for item in ledger.slots.items() {
        if let Statement::Check { what, right: false, note } = &item.entry.body.says
            && item.fate == super::slots::Fate::Live
        {
            found.check(
                "check_not_right",
                message!("finding-check-not-right", what = what.message(), note = noted(note)),
            );
        }
    }
}

/// Points out a pressure hold that was shorter than the procedure asks for. A hold is what was read since the last
/// recovery.
fn short_hold(ledger: &FoldContext<'_>, found: &mut Found<'_>) {
    let Some(least) = ledger.threshold(Threshold::Hold) else { return };
    let at_car = |purpose| Slot::reading(purpose, Measured::Pressure, Place::Car);
    let recovered = ledger.slots.live(&at_car(Purpose::Recovery)).map(|item| item.claim_at).max();
    let slot = at_car(Purpose::HoldTest);
    let held = ledger.slots.live(&slot).map(|item| item.claim_at);
    let held: Vec<_> = held.filter(|at| recovered.is_none_or(|recovered| *at >= recovered)).collect();
    let span = held.iter().min().zip(held.iter().max()).filter(|(from, until)| from < until);
    let Some((from, until)) = span else { return };
    let minutes = until.since(*from) / 60_000;
    if minutes < i64::from(least) {
        let minutes = u64::try_from(minutes).unwrap_or(0);
        found.check("hold_too_short", message!("finding-hold-too-short", minutes = minutes, least = least));
    }
}

/// Returns the message that entries are damaged.
pub(super) fn unreadable(count: usize) -> Message {
    message!("finding-unreadable", count = count)
}

fn number(header: &Header, found: &mut Found<'_>) {
    for finding in &header.number_findings {
        match finding {
            CarNumberFinding::UnusualForm => found.check(
                "car_number_unusual",
                message!("finding-car-number-unusual", car = Arg::typed(&header.car)),
            ),
            CarNumberFinding::WrongCheckDigit => found.check(
                "car_number_check_digit",
                message!("finding-car-number-check-digit", car = Arg::typed(&header.car)),
            ),
        }
    }
    if let Some(again) = &header.number_again
        && !header.car.is_empty()
        && again.value.normal() != header.car
    {
        let message = message!(
            "finding-car-number-differs",
            first = Arg::typed(&header.car),
            again = Arg::typed(again.value.normal()),
        );
        found.alarm("car_number_differs", message);
    }
    if let Some(paper) = &header.paper {
        let on_paper = crate::entry::car_number::CarNumber(paper.value.car.clone()).normal();
        if !on_paper.is_empty() && !header.car.is_empty() && on_paper != header.car {
            let message = message!(
                "finding-paper-for-another-car",
                paper = Arg::typed(on_paper),
                car = Arg::typed(&header.car),
            );
            found.alarm("paper_for_another_car", message);
        }
        if paper.value.odorised == Some(false) {
            found.alarm("not_odorised", Message::new("finding-not-odorized"));
        }
    }
}

fn record(ledger: &FoldContext<'_>, header: &Header, found: &mut Found<'_>) {
    if ledger.ctx.unreadable > 0 {
        found.alarm("unreadable_entries", unreadable(ledger.ctx.unreadable));
    }
    if header.procedure.is_some() && !header.procedure_known {
        // What the organisation's procedure blocks is not known here, so nothing is signed without a reason.
        found.alarm("procedure_unknown", Message::new("finding-procedure-unknown"));
    }
    if let Some(procedure) = ledger.procedure().filter(|_| header.procedure_known) {
        for message in left_out_words(procedure) {
            found.note("procedure_leaves_out", message);
        }
    }
    short_hold(ledger, found);
    for item in ledger.slots.items() {
        if item.misfiled {
            let message = message!("finding-entry-misfiled", entry = ledger.sentence(item));
            found.check("entry_misfiled", message);
        }
        if let Statement::Agreement { .. } = item.entry.body.says
            && item.claim.is_none()
        {
            found.check("agreement_on_missing", Message::new("finding-agreement-on-missing"));
        }
        if let Statement::Step { step, outcome: crate::entry::vocabulary::StepOutcome::Skipped, note } =
            &item.entry.body.says
            && note.trim().is_empty()
            && item.entry.body.why.trim().is_empty()
        {
            let message = message!("finding-skipped-without-reason", step = ledger.step_title(step));
            found.check("skipped_without_reason", message);
        }
    }
}

fn clocks(ledger: &FoldContext<'_>, header: &Header, found: &mut Found<'_>) {
    for device in &header.devices {
        if let Some(ahead) = device.ahead_millis.filter(|ahead| ahead.saturating_abs() > CLOCK_OFF_MILLIS) {
            let way = if ahead > 0 { "fast" } else { "slow" };
            let message = message!(
                "finding-clock-off",
                device = Arg::typed(&device.name),
                by = duration(ahead.saturating_abs()),
                way = Arg::typed(way),
            );
            found.note("clock_off", message);
        }
        if let Some(warning) = device.standing.warning() {
            found.check(
                "device_standing",
                message!("finding-device-standing", device = Arg::typed(&device.name), warning = warning),
            );
        }
    }
    let limit = UtcMillis(ledger.ctx.now.0.saturating_add(FUTURE_MILLIS));
    let future = ledger.slots.items().iter().filter(|item| item.at > limit).count();
    if future > 0 {
        found.check("from_the_future", message!("finding-from-the-future", count = future));
    }
    // Within the chain of one device, times should not decrease.
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
        let message = message!("finding-clock-set-back", device = Arg::typed(ledger.device_name(device)));
        found.note("clock_set_back", message);
    }
}

/// Returns a span of time in its two largest units.
pub fn duration(millis: i64) -> Message {
    let minutes = u64::try_from(millis / 60_000).unwrap_or(0);
    match (minutes / 1440, minutes / 60 % 24, minutes % 60) {
        (0, 0, minutes) => message!("span-minutes", minutes = minutes),
        (0, hours, minutes) => message!("span-hours", hours = hours, minutes = minutes),
        (days, hours, _) => message!("span-days", days = days, hours = hours),
    }
}

/// The note of an entry as an argument.
fn noted(note: &str) -> Arg {
    if note.trim().is_empty() { none() } else { Arg::typed(note.trim()) }
}

fn car(ledger: &FoldContext<'_>, parts: &VisitParts<'_>, found: &mut Found<'_>) {
    for date in &parts.car.test_dates {
        match date.overdue {
            Some(true) => {
                let message =
                    message!("finding-test-overdue", test = date.test.term(), due = Arg::typed(&date.due));
                found.check("test_overdue", message);
            }
            Some(false) => {}
            None => {
                let message = message!(
                    "finding-test-date-unreadable",
                    test = date.test.term(),
                    due = Arg::typed(&date.due)
                );
                found.note("test_date_unreadable", message);
            }
        }
    }
    for defect in parts.defects {
        let here = defect.visit.is_none_or(|visit| ledger.visits.contains(&visit));
        if !here && defect.is_open() {
            let message = message!(
                "finding-known-defect",
                defect = Arg::typed(&defect.what),
                who = defect.said.signature(),
            );
            let severity = if defect.needs_authority { Severity::Alarm } else { Severity::Check };
            found.0.push(Finding::new("known_defect", severity, message));
        }
        if let Some(authority) = &defect.authority {
            if authority.value.overdue {
                let message = message!(
                    "finding-written-approval-overdue",
                    defect = Arg::typed(&defect.what),
                    due = Arg::typed(authority.value.written_due_shown.as_deref().unwrap_or("?")),
                );
                found.check("written_approval_overdue", message);
            }
            if authority.value.reference.is_empty() {
                found.note(
                    "approval_without_reference",
                    message!("finding-approval-without-reference", defect = Arg::typed(&defect.what)),
                );
            }
        }
        if here && defect.is_open() && defect.forwarded.is_empty() {
            found.check(
                "defect_not_forwarded",
                message!("finding-defect-not-reported", defect = Arg::typed(&defect.what)),
            );
        }
    }
}

/// Reports instruments and hoses that are not the site's, or whose calibration or test is overdue.
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
                found.note(
                    "instrument_unknown",
                    message!("finding-instrument-unknown", name = Arg::typed(name)),
                );
            }
            Some(instrument) => {
                let due = last_day(&instrument.calibration_due);
                if due.zip(today).is_some_and(|(due, today)| today > due) {
                    let message = message!(
                        "finding-calibration-overdue",
                        name = Arg::typed(&instrument.name),
                        due = Arg::typed(&instrument.calibration_due),
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
                found.check("hose_unknown", message!("finding-hose-unknown", name = Arg::typed(name)));
            }
            Some(hose) => {
                let due = last_day(&hose.test_due);
                if due.zip(today).is_some_and(|(due, today)| today > due) {
                    found.check(
                        "hose_test_overdue",
                        message!(
                            "finding-hose-test-overdue",
                            name = Arg::typed(&hose.name),
                            due = Arg::typed(&hose.test_due),
                        ),
                    );
                }
            }
            None => {}
        }
    }
}

/// Reports applied seals that were not issued to the site, and signs that call for a stop.
fn seals_and_signs(ledger: &FoldContext<'_>, parts: &VisitParts<'_>, found: &mut Found<'_>) {
    if let Some(site) = ledger.ctx.site.filter(|site| !site.seal_stock.is_empty()) {
        for seal in parts.seals.iter().filter_map(|seal| seal.now.as_ref()) {
            let number = seal.value.number.trim();
            if seal.value.event == SealEvent::Applied && !number.is_empty() && !site.holds_seal(number) {
                let message = message!("finding-seal-not-from-stock", number = Arg::typed(number));
                found.note("seal_not_from_stock", message);
            }
        }
    }
    let frost = ledger
        .slots
        .live(&Slot::empty_sign(EmptySign::FrostRing))
        .any(|item| matches!(item.claim, Some(Statement::EmptySign { seen: true, .. })));
    if frost {
        let message = Message::new("finding-frost-ring");
        found.alarm("frost_ring", message);
    }
}

/// Training must be renewed every three years (49 CFR 172.704, from memory).
fn training(ledger: &FoldContext<'_>, header: &Header, found: &mut Found<'_>) {
    let Some(today) = ledger.ctx.now.to_datetime().map(|now| now.date_naive()) else { return };
    for person in &header.people {
        let trained = ledger.ctx.people.get(&person.operator).and_then(|known| last_day(&known.trained_on));
        let due = trained.and_then(|day| day.checked_add_months(chrono::Months::new(36)));
        if due.is_some_and(|due| today > due) {
            let message = message!("finding-training-overdue", person = Arg::typed(&person.name));
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
        let message = message!(
            "finding-handover-one-sided",
            from = Arg::typed(ledger.name(&handover.from)),
            to = Arg::typed(ledger.name(&handover.to)),
            by =
                Arg::typed(ledger.name(if handover.given.is_some() { &handover.from } else { &handover.to })),
        );
        found.check("handover_one_sided", message);
    }
    for gap in &attendance.gaps {
        let message = message!(
            "finding-attendance-gap",
            minutes = Arg::Count(u64::try_from(gap.minutes).unwrap_or(0)),
            shown = gap.shown.clone(),
            valves = Arg::typed(if gap.valves_shut { "closed" } else { "open" }),
            left = Arg::typed(if gap.said_away { "yes" } else { "no" }),
        );
        // Inside a declared period a gap is in the entries and not in the attendance.
        let severity = match gap.valves_shut {
            _ if gap.declared => Severity::Note,
            true => Severity::Check,
            false => Severity::Alarm,
        };
        found.0.push(Finding::new("attendance_gap", severity, message));
    }
}
