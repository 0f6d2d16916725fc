//! What was recorded in particular: fittings, readings and what was computed from them, seals, checks, defects,
//! people, and every entry in its order. Called by `show`.

use farsiding_core::calc::empty_proof::Outcome;
use farsiding_core::view::{Attested, Fate, FittingView, SealView, VisitView, fate_message};
use farsiding_core::{Arg, Joint, Message, message};

use crate::page::{Page, because, by, by_whom, list, marked, said};

fn typed(text: impl Into<String>) -> Message {
    Message::typed(text)
}

pub(crate) fn write(view: &VisitView, page: &mut Page) {
    fittings(view, page);
    readings(view, page);
    quantities(view, page);
    is_the_liquid_out(view, page);
    received(view, page);
    seals(view, page);
    photographs(view, page);
    checks(view, page);
    defects(view, page);
    carried(view, page);
    people(view, page);
    history(view, page);
}

/// What stands, with what it is called.
fn term<T>(known: &Attested<T>, id: &'static str, state: Message) -> Message {
    marked(known, Message::new(id).with("state", state))
}

fn fitting(fitting: &FittingView) -> Message {
    let mut parts: Vec<Message> = Vec::new();
    if let Some(valve) = &fitting.valve {
        parts.push(term(valve, "printed-valve", valve.value.term()));
    } else if fitting.fitting.has_valve() {
        parts.push(message!("printed-valve-not-recorded"));
    }
    parts.push(match &fitting.closure {
        Some(closure) => term(closure, "printed-closure", closure.value.term()),
        None => message!("printed-closure-not-recorded"),
    });
    if let Some(listen) = &fitting.listen {
        parts.push(match fitting.listened_since_shut {
            true => term(listen, "printed-heard-since-shut", listen.value.term()),
            false => marked(listen, listen.value.term()),
        });
    }
    if let Some(line) = &fitting.line {
        let hose = line.value.hose.as_str();
        let state = match (line.value.connected, hose) {
            (true, "") => message!("printed-line-on"),
            (true, hose) => message!("printed-line-on-hose", hose = Arg::typed(hose)),
            (false, "") => message!("printed-line-off"),
            (false, hose) => message!("printed-line-off-hose", hose = Arg::typed(hose)),
        };
        parts.push(marked(line, state));
    }
    if let Some(threads) = &fitting.threads {
        parts.push(marked(threads, message!("printed-engaged", threads = threads.value.arg())));
    }
    message!("printed-fitting", fitting = fitting.fitting.term(), parts = Arg::list(Joint::Comma, parts))
}

fn fittings(view: &VisitView, page: &mut Page) {
    page.section("printed-heading-fittings");
    for one in &view.fittings {
        page.item(&fitting(one));
        for advice in &one.advice {
            page.under(&advice.message);
        }
    }
    if let Some(cover) = &view.cover {
        let state = cover.value;
        let says = Message::new(match (state.closed, state.pinned) {
            (true, true) => "printed-cover-closed-pin-in",
            (true, false) => "printed-cover-closed-pin-out",
            (false, true) => "printed-cover-open-pin-in",
            (false, false) => "printed-cover-open-pin-out",
        });
        let says = says
            .with("here", Arg::Number(state.bolts_in_place.to_string()))
            .with("all", Arg::Number(state.bolts_required.to_string()));
        page.item(&said(marked(cover, says), by(&cover.said)));
    }
    let set: Vec<Message> = view
        .protections
        .iter()
        .filter_map(|p| p.set.as_ref().map(|set| (p.what, set)))
        .map(|(what, set)| {
            let id = if set.value { "printed-protection-set" } else { "printed-protection-away" };
            marked(set, Message::new(id).with("what", what.term()))
        })
        .collect();
    if !set.is_empty() {
        page.item(&message!("printed-protections", what = Arg::list(Joint::Comma, set)));
    }
}

/// A reading that stands no longer: what became of it, why, what it was, and who said it.
fn no_longer(fate: Fate, why: &Message, amount: Arg, by: Message) -> Message {
    let fate = fate_message(fate).unwrap_or_else(|| message!("printed-before"));
    let what = because(fate, why.clone());
    said(message!("printed-named", what = what, value = amount), by)
}

fn readings(view: &VisitView, page: &mut Page) {
    if view.readings.is_empty() && view.series.is_empty() {
        return;
    }
    page.section("printed-heading-readings");
    for reading in &view.readings {
        let title = reading.title.clone();
        if let Some(current) = &reading.current {
            let amount = current.value.amount.arg();
            let says = match current.value.instrument.trim() {
                "" => message!("printed-reading-no-instrument", title = title, amount = amount),
                name => {
                    message!("printed-reading", title = title, amount = amount, name = Arg::typed(name))
                }
            };
            page.item(&said(marked(current, says), by_whom(current)));
        } else {
            page.item(&message!("printed-nothing-stands", title = title));
        }
        for point in reading.history.iter().filter(|point| point.fate != Fate::Live) {
            page.under(&no_longer(point.fate, &point.why_gone, point.amount.arg(), by(&point.said)));
        }
    }
    for series in &view.series {
        let mut points: Vec<Message> = series
            .points
            .iter()
            .map(|p| message!("printed-point", at = p.said.time(), amount = p.amount.arg()))
            .collect();
        let title = series.title.clone();
        match points.is_empty() {
            true => page.item(&message!("printed-about", about = title)),
            false => {
                points[0] = message!("printed-named", what = title, value = points[0].clone());
                page.row("  ", &points);
            }
        }
        for point in &series.struck {
            page.under(&no_longer(point.fate, &point.why_gone, point.amount.arg(), by(&point.said)));
        }
    }
}

fn quantities(view: &VisitView, page: &mut Page) {
    if view.computed.is_empty() {
        return;
    }
    page.section("printed-heading-computed");
    for quantity in &view.computed {
        let value = because(quantity.message(), quantity.product.clone());
        page.item(&message!("printed-named", what = quantity.title.clone(), value = value));
        if let Some(value) = &quantity.value {
            page.under(&said(typed(&value.formula), value.source.clone()));
            if let Some(largest) = &value.largest {
                page.under(&message!("printed-largest", input = largest.clone()));
            }
        }
        for finding in quantity.findings() {
            page.under(&finding.message);
        }
    }
}

fn is_the_liquid_out(view: &VisitView, page: &mut Page) {
    if view.empty.signs.is_empty() && view.empty.decision.is_none() {
        return;
    }
    page.section("printed-heading-empty");
    for sign in &view.empty.signs {
        let seen = if sign.seen.value { message!("printed-yes") } else { message!("printed-no") };
        let says = message!("printed-named", what = sign.sign.term(), value = marked(&sign.seen, seen));
        page.item(&match sign.speaks_for_liquid {
            true => message!("printed-speaks-for-liquid", says = says),
            false => says,
        });
    }
    if let Some(weighed) = &view.empty.weighed {
        page.item(&Message::new(match weighed.outcome {
            Outcome::LiquidIndicated => "printed-weighed-liquid",
            Outcome::NoLiquidIndicated => "printed-weighed-no-liquid",
            Outcome::NotEnoughEvidence => "printed-weighed-not-enough",
        }));
        for piece in &weighed.pieces {
            page.under(&piece.reason);
        }
        for step in &weighed.next {
            page.under(&message!("printed-next", step = step.clone()));
        }
        page.under(&weighed.caution);
    }
    if let Some(why) = &view.empty.not_weighed {
        page.item(&message!("printed-not-weighed", why = why.clone()));
    }
    if let Some(decision) = &view.empty.decision {
        let grounds = Arg::typed(&decision.value.grounds);
        let taken = match decision.value.accepted {
            true => message!("printed-taken-as-empty", grounds = grounds),
            false => message!("printed-not-taken-as-empty", grounds = grounds),
        };
        page.item(&said(marked(decision, taken), by(&decision.said)));
    }
}

fn received(view: &VisitView, page: &mut Page) {
    let mut lines = view.received().peekable();
    if lines.peek().is_none() {
        return;
    }
    page.section("printed-heading-received");
    for line in lines {
        page.item(&said(line.sentence.clone(), by(&line.said)));
    }
    if let Some(total) = view.trucks.total_gal {
        let total = farsiding_core::units::Unit::Gallon.figure(total, 0);
        page.item(&message!("printed-trucks-together", total = total));
    }
}

fn seal(seal: &SealView, page: &mut Page) {
    for (label, known) in [("printed-seal-found", &seal.found), ("printed-seal-now", &seal.now)] {
        let Some(known) = known else { continue };
        let number = match known.value.number.trim() {
            "" => message!("printed-no-number"),
            number => typed(number),
        };
        let kind = known.value.kind.map_or_else(|| message!("printed-kind-not-said"), |kind| kind.term());
        let whole = match known.value.intact {
            true => message!("printed-seal-whole"),
            false => message!("printed-seal-not-whole"),
        };
        let parts = list(Joint::Comma, [number, kind, known.value.event.term(), whole]);
        let says = Message::new(label).with("place", seal.place.term()).with("says", parts);
        page.item(&said(marked(known, says), by(&known.said)));
        if !known.value.note.text().trim().is_empty() {
            page.under(&known.value.note.message());
        }
    }
}

fn seals(view: &VisitView, page: &mut Page) {
    if !view.seals.is_empty() {
        page.section("printed-heading-seals");
        view.seals.iter().for_each(|one| seal(one, page));
    }
}

fn photographs(view: &VisitView, page: &mut Page) {
    if view.photos.is_empty() {
        return;
    }
    page.section("printed-heading-photographs");
    for photo in &view.photos {
        let says = message!(
            "printed-photograph",
            of = photo.of.term(),
            bytes = Arg::Number(photo.photo.length.to_string()),
            digest = Arg::typed(photo.photo.sha256.short()),
        );
        page.item(&said(says, by(&photo.said)));
    }
}

fn checks(view: &VisitView, page: &mut Page) {
    if view.checks.is_empty() && view.weather.is_none() {
        return;
    }
    page.section("printed-heading-checks");
    for check in &view.checks {
        let right = if check.right.value { "printed-right" } else { "printed-not-right" };
        let says = Message::new(right).with("what", check.what.clone());
        let says = marked(&check.right, because(says, typed(&check.note)));
        page.item(&said(says, by(&check.right.said)));
    }
    if let Some(weather) = &view.weather {
        page.item(&said(weather.value.clone(), by(&weather.said)));
    }
}

fn defects(view: &VisitView, page: &mut Page) {
    if view.defects.is_empty() {
        return;
    }
    page.section("printed-heading-defects");
    for defect in &view.defects {
        let mut what = typed(&defect.what);
        if let Some(fitting) = defect.fitting {
            what = because(what, fitting.term());
        }
        if defect.visit.is_some_and(|visit| !view.header.visits.contains(&visit)) {
            what = message!("printed-earlier-visit", what = what);
        }
        page.item(&said(what, by(&defect.said)));
        for forwarded in &defect.forwarded {
            let to = Arg::typed(&forwarded.to);
            let says = message!("printed-forwarded", to = to, how = forwarded.how.message());
            page.under(&said(says, by(&forwarded.said)));
        }
        if let Some(authority) = &defect.authority {
            let said = &authority.value;
            let says = message!(
                "printed-answered",
                by = Arg::typed(&said.by),
                reference = Arg::typed(&said.reference)
            );
            page.under(&match &said.written_due_shown {
                None => says,
                Some(due) => {
                    let id = if said.overdue { "printed-due-past" } else { "printed-due" };
                    Message::new(id).with("says", says).with("due", Arg::typed(due))
                }
            });
        } else if defect.needs_authority && defect.is_open() {
            page.under(&message!("printed-needs-authority"));
        }
        if let Some(resolved) = &defect.resolved {
            let says = message!("printed-repaired", how = Arg::typed(&resolved.value));
            page.under(&said(says, by(&resolved.said)));
        }
    }
}

fn carried(view: &VisitView, page: &mut Page) {
    let mut open = view.car.carried.iter().filter(|one| one.is_open()).peekable();
    if open.peek().is_none() {
        return;
    }
    page.section("printed-heading-carried");
    for one in open {
        let says = match one.is_left_for(&view.header.visits) {
            true => message!("printed-earlier-visit", what = one.says.clone()),
            false => one.says.clone(),
        };
        page.item(&said(says, by(&one.said)));
    }
}

fn people(view: &VisitView, page: &mut Page) {
    page.section("printed-heading-people");
    for gap in &view.chain_gaps {
        page.item(&message!("printed-gap", says = gap.sentence.clone()));
    }
    for person in &view.header.people {
        let name = match person.name_removed {
            true => message!("printed-name-removed", name = Arg::typed(&person.name)),
            false => typed(&person.name),
        };
        let says = message!("printed-entries", name = name, count = person.entries);
        page.item(&match view.header.responsible.as_ref() == Some(&person.operator) {
            true => message!("printed-responsible", says = says),
            false => says,
        });
    }
    for device in &view.header.devices {
        let name = match device.standing.warning() {
            Some(warning) => because(typed(&device.name), warning),
            None => typed(&device.name),
        };
        page.item(&message!("printed-entries", name = name, count = device.entries));
    }
    for handover in &view.handovers {
        let id = if handover.one_sided { "printed-handover-one-sided" } else { "printed-handover" };
        let says = Message::new(id)
            .with("from", Arg::typed(handover.from.to_string()))
            .with("to", Arg::typed(handover.to.to_string()));
        page.item(&says);
    }
    for event in &view.clock {
        let says = message!("printed-named", what = event.event.term(), value = Arg::typed(&event.shown));
        page.item(&marked(&event.at, says));
    }
}

fn history(view: &VisitView, page: &mut Page) {
    page.section("printed-heading-history");
    for line in &view.history {
        let says = match line.fate {
            Fate::Kept => {
                message!("printed-fate", says = line.sentence.clone(), fate = line.why_gone.clone())
            }
            fate => {
                let says = match fate_message(fate) {
                    Some(fate) => message!("printed-fate", says = line.sentence.clone(), fate = fate),
                    None => line.sentence.clone(),
                };
                because(says, line.why_gone.clone())
            }
        };
        let (at, name) = (Arg::typed(&line.said.shown), Arg::typed(&line.said.name));
        page.item(&match line.binds {
            true => {
                let named = line.said.named.term();
                message!("printed-entry-binding", at = at, name = name, named = named, says = says)
            }
            false => message!("printed-entry", at = at, name = name, says = says),
        });
        if !line.said.why.is_empty() {
            page.under(&message!("printed-why", why = Arg::typed(&line.said.why)));
        }
    }
    page.end();
}
