//! A whole visit as plain text, for a terminal or a printer: state first, then what is asked for.
//!
//! Every amount with its unit, disagreements side by side, each blocker with who asks for it. Nothing
//! is decided here; it prints a [`VisitView`].

use std::fmt::Write as _;

use super::slots::Fate;
use super::story::{self, fate_spoken};
use super::{Attested, Attribution, Blocker, NOTE, StepView, VisitView};
use crate::calc::empty_proof::Outcome;
use crate::entry::vocabulary::Receiver;
use crate::procedure::Stage;
use crate::text::on_one_line;
use crate::units::Severity;

/// The visit as text, lines ending in a newline.
pub fn show(view: &VisitView) -> String {
    let mut page = Page::default();
    head(view, &mut page);
    state(view, &mut page);
    disagreements(view, &mut page);
    next(view, &mut page);
    release(view, &mut page);
    findings(view, &mut page);
    fittings(view, &mut page);
    readings(view, &mut page);
    quantities(view, &mut page);
    things(view, &mut page);
    checks(view, &mut page);
    defects(view, &mut page);
    people(view, &mut page);
    history(view, &mut page);
    page.line(NOTE);
    page.0
}

#[derive(Default)]
struct Page(String);

/// A text somebody typed begins no line of its own here and turns none.
impl Page {
    fn section(&mut self, title: &str) {
        if !self.0.is_empty() {
            self.0.push('\n');
        }
        self.0.push_str(&title.to_uppercase());
        self.0.push('\n');
    }
    fn line(&mut self, text: impl AsRef<str>) {
        let _ = writeln!(self.0, "{}", on_one_line(text.as_ref()));
    }
    fn item(&mut self, text: impl AsRef<str>) {
        let _ = writeln!(self.0, "  {}", on_one_line(text.as_ref()));
    }
    fn under(&mut self, text: impl AsRef<str>) {
        let _ = writeln!(self.0, "      {}", on_one_line(text.as_ref()));
    }
}

/// Who said it and, where it was settled, who did that.
fn by_whom<T>(known: &Attested<T>) -> String {
    match &known.kept {
        Some(kept) => format!("{}; settled by {}", by(kept), by(&known.said)),
        None => by(&known.said),
    }
}

fn by(said: &Attribution) -> String {
    let sent = if said.receipted { "" } else { " · unsent" };
    format!("{}, on {}{sent}", said.signature(), said.device_name)
}

fn because(why: &str) -> String {
    if why.is_empty() { String::new() } else { format!(" ({why})") }
}

fn mark<T>(known: &Attested<T>) -> String {
    let mut marks = String::new();
    if known.disputed {
        marks += " — DISPUTED";
    }
    match known.also {
        0 => {}
        1 => marks += " (one more says so)",
        n => {
            let _ = write!(marks, " ({n} more say so)");
        }
    }
    marks
}

fn head(view: &VisitView, page: &mut Page) {
    let header = &view.header;
    let car = if header.car.is_empty() { "car not known" } else { &header.car };
    page.line(car);
    let mut place: Vec<String> = Vec::new();
    for part in [&header.site_name, &header.spot] {
        if !part.is_empty() {
            place.push(part.clone());
        }
    }
    match header.receiver {
        Some(Receiver::FixedTank) => place.push("into a fixed tank".to_owned()),
        Some(Receiver::Truck) => place.push("into trucks".to_owned()),
        None => {}
    }
    if !place.is_empty() {
        page.line(place.join(" · "));
    }
    if !header.product.is_empty() {
        page.line(format!("{} (from the paper)", header.product));
    }
    if !header.procedure_title.is_empty() {
        let digest = header.procedure.map_or(String::new(), |digest| format!(" ({})", digest.short()));
        let stand_in = if header.procedure_known { "" } else { ", shown in place of one not known here" };
        page.line(format!("By: {}{digest}{stand_in}", header.procedure_title));
    }
    page.line(format!(
        "Times in {}. Since {}. {} entries, {} not yet at the office.",
        header.zone, header.since_shown, view.entries, view.unreceipted
    ));
    if !header.local_rules.is_empty() {
        page.line(format!("First of all: {}", header.local_rules));
    }
    for visit in header.visits.iter().skip(1) {
        page.line(format!("Joined with visit {}.", visit.short()));
    }
}

fn state(view: &VisitView, page: &mut Page) {
    page.section("Where it stands");
    for hold in view.holds.iter().filter(|hold| hold.open) {
        page.item(format!("HOLD: {} — {}", hold.because, by(&hold.said)));
    }
    match &view.release.released {
        Some(released) => {
            let how = if released.value { "as residue" } else { "not as residue" };
            page.item(format!("Released {how}{} — {}", mark(released), by(&released.said)));
        }
        None => page.item(format!("Stage: {}", view.stage.spoken())),
    }
    let progress: Vec<String> =
        view.steps.stages.iter().map(|s| format!("{} {}/{}", s.stage.spoken(), s.closed, s.of)).collect();
    page.item(progress.join(" · "));
    if view.tally.out.is_empty() {
        page.item("Tally: nothing is out.");
    } else {
        for item in &view.tally.out {
            let who = item.out.as_ref().map_or(String::new(), |said| format!(" — {}", by(said)));
            page.item(format!("OUT: {}{who}", item.item));
        }
    }
    for offer in &view.offers {
        page.item(format!("{} (visit {})", offer.sentence, offer.other.short()));
    }
}

fn disagreements(view: &VisitView, page: &mut Page) {
    if !view.disagreements.is_empty() {
        page.section("Disagreements");
        for disagreement in &view.disagreements {
            page.item(format!("{}:", disagreement.about));
            for claim in &disagreement.claims {
                page.under(format!("{} — {}", claim.sentence, by(&claim.said)));
            }
        }
    }
    if !view.ended_disagreements.is_empty() {
        page.section("Disagreements that ended");
        for ended in &view.ended_disagreements {
            page.item(format!("{}:", ended.about));
            for claim in &ended.claims {
                page.under(format!("{} — {}", claim.sentence, by(&claim.said)));
            }
            let how = if ended.settled { "settled" } else { "moved on" };
            page.under(format!("{how}: {} — {}", ended.ended_by.sentence, by(&ended.ended_by.said)));
            if !ended.ended_by.said.why.is_empty() {
                page.under(format!("because: {}", ended.ended_by.said.why));
            }
        }
    }
}

fn step_lines(step: &StepView, page: &mut Page) {
    page.item(format!("{} [{}] — {}", step.title, step.id, step.status.spoken()));
    page.under(&step.what_to_do);
    page.under(format!("Why: {} ({}: {})", step.why, step.asked_by.spoken(), step.source));
    for caution in &step.cautions {
        page.under(format!("CAUTION: {caution}"));
    }
}

fn next(view: &VisitView, page: &mut Page) {
    if !view.steps.next.is_empty() {
        page.section("Next");
        for step in view.steps.next.iter().filter_map(|id| view.steps.step(id)) {
            step_lines(step, page);
        }
    }
    if !view.steps.left_behind.is_empty() {
        page.section("Left behind in earlier stages");
        let titles: Vec<&str> = view
            .steps
            .left_behind
            .iter()
            .filter_map(|id| view.steps.step(id))
            .map(|step| step.title.as_str())
            .collect();
        page.item(titles.join(", "));
    }
}

fn release(view: &VisitView, page: &mut Page) {
    page.section("Before release");
    let open: Vec<&Blocker> = view.blockers.iter().filter(|blocker| blocker.passed_over.is_none()).collect();
    if open.is_empty() {
        page.item("Nothing that this record looks for is missing, or all of it was passed over.");
    } else if view.stage < Stage::Disconnect && view.release.released.is_none() {
        // The rest of the job, in a few lines; each one stands in full once the lines come off.
        let mut kinds: Vec<(String, Vec<String>)> = Vec::new();
        for blocker in &open {
            let (kind, what) = blocker.code.split_once('.').unwrap_or((&blocker.code, ""));
            let kind = story::spoken_code(kind);
            match kinds.iter_mut().find(|(known, _)| *known == kind) {
                Some((_, all)) => all.push(story::spoken_code(what)),
                None => kinds.push((kind, vec![story::spoken_code(what)])),
            }
        }
        for (kind, what) in kinds {
            let what = what.join(", ");
            page.item(if what.is_empty() {
                format!("still missing: {kind}")
            } else {
                format!("still missing: {kind} ({what})")
            });
        }
    } else {
        for blocker in open {
            page.item(format!("MISSING: {} [{}]", blocker.missing, blocker.code));
            page.under(format!("asked for by {}: {}", blocker.asked_by.spoken(), blocker.source));
        }
    }
    for word in &view.passed_over {
        let stands = word.fallen.map_or(String::new(), |why| format!(" — does not stand: {why}"));
        page.item(format!("PASSED OVER: {}{stands}", word.spoken));
        page.under(format!("because: {} — {}", word.why, by(&word.said)));
    }
}

fn findings(view: &VisitView, page: &mut Page) {
    if view.findings.is_empty() && view.advice.is_empty() {
        return;
    }
    page.section("Worth knowing");
    for finding in view.findings.iter().chain(&view.advice) {
        let weight = match finding.severity {
            Severity::Alarm => "ALARM: ",
            Severity::Check => "Check: ",
            Severity::Note => "",
        };
        page.item(format!("{weight}{}", finding.message));
    }
}

fn fittings(view: &VisitView, page: &mut Page) {
    page.section("Fittings");
    for fitting in &view.fittings {
        let mut parts: Vec<String> = Vec::new();
        if let Some(valve) = &fitting.valve {
            parts.push(format!("valve {}{}", valve.value.spoken(), mark(valve)));
        } else if fitting.fitting.has_valve() {
            parts.push("valve not recorded".to_owned());
        }
        parts.push(match &fitting.closure {
            Some(closure) => format!("closure {}{}", story::closure_state(closure.value), mark(closure)),
            None => "closure not recorded".to_owned(),
        });
        if let Some(listen) = &fitting.listen {
            let since = if fitting.listened_since_shut { " after it was shut" } else { "" };
            parts.push(format!("heard {}{since}{}", listen.value.spoken(), mark(listen)));
        }
        if let Some(line) = &fitting.line {
            let hose = if line.value.hose.is_empty() {
                String::new()
            } else {
                format!(" (hose {})", line.value.hose)
            };
            let on = if line.value.connected { "LINE ON" } else { "line off" };
            parts.push(format!("{on}{hose}{}", mark(line)));
        }
        if let Some(threads) = &fitting.threads {
            parts.push(format!("{} engaged{}", threads.value.shown(), mark(threads)));
        }
        page.item(format!("{}: {}", fitting.name, parts.join(", ")));
        for advice in &fitting.advice {
            page.under(&advice.message);
        }
    }
    if let Some(cover) = &view.cover {
        let state = cover.value;
        page.item(format!(
            "housing cover: {}, pin {}, {} of {} bolts in place{} — {}",
            if state.closed { "closed" } else { "open" },
            if state.pinned { "in" } else { "out" },
            state.bolts_in_place,
            state.bolts_required,
            mark(cover),
            by(&cover.said)
        ));
    }
    let set: Vec<String> = view
        .protections
        .iter()
        .filter_map(|p| p.set.as_ref().map(|set| (p.what, set)))
        .map(|(what, set)| {
            format!("{} {}{}", what.spoken(), if set.value { "set" } else { "away" }, mark(set))
        })
        .collect();
    if !set.is_empty() {
        page.item(format!("protections: {}", set.join(", ")));
    }
}

fn readings(view: &VisitView, page: &mut Page) {
    if view.readings.is_empty() && view.series.is_empty() {
        return;
    }
    page.section("Readings");
    for reading in &view.readings {
        if let Some(current) = &reading.current {
            let instrument = match current.value.instrument.trim() {
                "" => "instrument not named".to_owned(),
                name => format!("on {name}"),
            };
            page.item(format!(
                "{}: {}, {instrument}{} — {}",
                reading.title,
                current.value.amount.shown(),
                mark(current),
                by_whom(current)
            ));
        } else {
            page.item(format!("{}: nothing stands", reading.title));
        }
        for point in reading.history.iter().filter(|point| point.fate != Fate::Live) {
            let fate = fate_spoken(point.fate).unwrap_or("before");
            page.under(format!(
                "{fate}{}: {} — {}",
                because(&point.why_gone),
                point.amount.shown(),
                by(&point.said)
            ));
        }
    }
    for series in &view.series {
        let points: Vec<String> =
            series.points.iter().map(|p| format!("{} {}", p.said.shown, p.amount.shown())).collect();
        page.item(format!("{}: {}", series.title, points.join(" · ")));
        for point in &series.struck {
            let fate = fate_spoken(point.fate).unwrap_or("before");
            page.under(format!(
                "{fate}{}: {} — {}",
                because(&point.why_gone),
                point.amount.shown(),
                by(&point.said)
            ));
        }
    }
}

fn quantities(view: &VisitView, page: &mut Page) {
    if !view.computed.is_empty() {
        page.section("Computed from the record");
        for quantity in &view.computed {
            let product =
                if quantity.product.is_empty() { String::new() } else { format!(" ({})", quantity.product) };
            page.item(format!("{}: {}{product}", quantity.title, quantity.shown()));
            if let Some(value) = &quantity.value {
                page.under(format!("{} — {}", value.formula, value.source));
                if let Some(largest) = &value.largest {
                    page.under(format!("most of the ± comes from {largest}"));
                }
            }
            for finding in quantity.findings() {
                page.under(&finding.message);
            }
        }
    }
    if !view.empty.signs.is_empty() || view.empty.decision.is_some() {
        page.section("Is the liquid out?");
        for sign in &view.empty.signs {
            let liquid = if sign.speaks_for_liquid { " — speaks for liquid" } else { "" };
            let seen = if sign.seen.value { "yes" } else { "no" };
            page.item(format!("{}: {seen}{}{liquid}", sign.sign.spoken(), mark(&sign.seen)));
        }
        if let Some(weighed) = &view.empty.weighed {
            let outcome = match weighed.outcome {
                Outcome::LiquidIndicated => "what was recorded indicates LIQUID",
                Outcome::NoLiquidIndicated => "what was recorded indicates no liquid",
                Outcome::NotEnoughEvidence => "what was recorded is not enough to tell",
            };
            page.item(format!("weighed: {outcome}"));
            for piece in &weighed.pieces {
                page.under(&piece.reason);
            }
            for step in &weighed.next {
                page.under(format!("next: {step}"));
            }
            page.under(weighed.caution);
        }
        if let Some(why) = &view.empty.not_weighed {
            page.item(format!("not weighed: {why}"));
        }
        if let Some(decision) = &view.empty.decision {
            let taken = if decision.value.accepted { "taken as empty" } else { "NOT taken as empty" };
            page.item(format!(
                "{taken}: {}{} — {}",
                decision.value.grounds,
                mark(decision),
                by(&decision.said)
            ));
        }
    }
    if !view.trucks.loads.is_empty() {
        page.section("Trucks");
        for load in &view.trucks.loads {
            page.item(format!("{}: {} — {}", load.truck, load.amount.shown(), by(&load.said)));
        }
        if let Some(total) = view.trucks.total_gal {
            page.item(format!("together {total:.0} gal as entered"));
        }
    }
}

fn things(view: &VisitView, page: &mut Page) {
    if !view.seals.is_empty() {
        page.section("Seals");
        for seal in &view.seals {
            for (label, known) in [("found", &seal.found), ("now", &seal.now)] {
                if let Some(known) = known {
                    let number = if known.value.number.trim().is_empty() {
                        "no number"
                    } else {
                        known.value.number.trim()
                    };
                    let kind = known.value.kind.map_or("kind not said".to_owned(), |kind| kind.spoken());
                    page.item(format!(
                        "{} {label}: {number}, {kind}, {}, {}{} — {}",
                        story::seal_place(seal.place),
                        known.value.event.spoken(),
                        if known.value.intact { "whole" } else { "NOT whole" },
                        mark(known),
                        by(&known.said)
                    ));
                    if !known.value.note.text().trim().is_empty() {
                        page.under(known.value.note.spoken().trim());
                    }
                }
            }
        }
    }
    if !view.photos.is_empty() {
        page.section("Photographs");
        for photo in &view.photos {
            page.item(format!(
                "{} — {} bytes, {} — {}",
                photo.of.spoken(),
                photo.photo.length,
                photo.photo.sha256.short(),
                by(&photo.said)
            ));
        }
    }
}

fn checks(view: &VisitView, page: &mut Page) {
    if view.checks.is_empty() && view.weather.is_none() {
        return;
    }
    page.section("Checks and weather");
    for check in &view.checks {
        let right = if check.right.value { "right" } else { "NOT right" };
        page.item(format!(
            "{}: {right}{}{} — {}",
            check.what,
            because(&check.note),
            mark(&check.right),
            by(&check.right.said)
        ));
    }
    if let Some(weather) = &view.weather {
        page.item(format!("{} — {}", weather.value, by(&weather.said)));
    }
}

fn defects(view: &VisitView, page: &mut Page) {
    if view.defects.is_empty() {
        return;
    }
    page.section("Defects");
    for defect in &view.defects {
        let place = defect.fitting.map_or(String::new(), |fitting| format!(" at the {}", fitting.name()));
        let earlier = match defect.visit {
            Some(visit) if !view.header.visits.contains(&visit) => " (earlier visit)",
            _ => "",
        };
        page.item(format!("{}{place}{earlier} — {}", defect.what, by(&defect.said)));
        for forwarded in &defect.forwarded {
            page.under(format!("reported to {} ({}) — {}", forwarded.to, forwarded.how, by(&forwarded.said)));
        }
        if let Some(authority) = &defect.authority {
            let due = authority.value.written_due_shown.as_ref().map_or(String::new(), |due| {
                let late = if authority.value.overdue { ", PAST" } else { "" };
                format!(", in writing due {due}{late}")
            });
            page.under(format!(
                "answered by {}, reference {}{due}",
                authority.value.by, authority.value.reference
            ));
        } else if defect.needs_authority && defect.is_open() {
            page.under("moves only with an authority's approval: none recorded");
        }
        if let Some(resolved) = &defect.resolved {
            page.under(format!("put right: {} — {}", resolved.value, by(&resolved.said)));
        }
    }
}

fn people(view: &VisitView, page: &mut Page) {
    page.section("People, devices, times");
    for gap in &view.chain_gaps {
        page.item(format!("GAP: {}", gap.sentence));
    }
    for person in &view.header.people {
        let responsible =
            if view.header.responsible.as_ref() == Some(&person.operator) { ", responsible now" } else { "" };
        page.item(format!("{}: {} entries{responsible}", person.name, person.entries));
    }
    for device in &view.header.devices {
        let warning = device.standing.warning().map_or(String::new(), |warning| format!(" ({warning})"));
        page.item(format!("{}{warning}: {} entries", device.name, device.entries));
    }
    for handover in &view.handovers {
        let signed = if handover.one_sided { "signed by one side only" } else { "signed by both" };
        page.item(format!("handover {} to {}: {signed}", handover.from, handover.to));
    }
    for event in &view.clock {
        page.item(format!("{}: {}{}", event.event.spoken(), event.shown, mark(&event.at)));
    }
}

fn history(view: &VisitView, page: &mut Page) {
    page.section("Everything, in order");
    for line in &view.history {
        let (fate, gone) = match line.fate {
            Fate::Kept => (format!(" [{}]", line.why_gone), String::new()),
            fate => (
                fate_spoken(fate).map_or(String::new(), |fate| format!(" [{fate}]")),
                because(&line.why_gone),
            ),
        };
        let named = if line.binds { format!(", {}", line.said.named.spoken()) } else { String::new() };
        page.item(format!("{} {}{named}: {}{fate}{gone}", line.said.shown, line.said.name, line.sentence));
        if !line.said.why.is_empty() {
            page.under(format!("because: {}", line.said.why));
        }
    }
    page.0.push('\n');
}
