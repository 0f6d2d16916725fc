//! What belongs to the track: taken over from another car on it, and whether it may be.
//!
//! A derail, a sign, the wind are looked after once for all cars on a track. Whoever looks after a second car says that
//! it is still so; the entry names the one of the other car that it rests on. It counts as long as that one does: it
//! must be of a step that the procedure gives to the track, at the same site, on the same track, of the same day, made
//! since the other car was last moved or left, and nobody may have called it wrong. Entries taken over rest on what was
//! seen, never on another that was taken over. What ended on the other car later, such as a sign taken down, is asked
//! again here, and stood until then.

use std::collections::{BTreeMap, BTreeSet};

use super::context::{Context, Recorded};
use super::findings::Found;
use super::fold_context::FoldContext;
use super::site::one_name;
use super::slots::{Fate, Item, Slots, differ, is_series};
use crate::authority::Judged;
use crate::clock::UtcMillis;
use crate::entry::vocabulary::{Measured, Place, Purpose, StepOutcome};
use crate::entry::{Entry, Opened, RestsOn, Slot, Statement, under};
use crate::ids::{Subject, VisitId};
use crate::procedure::{Procedure, Record, Step, StepOf};
use crate::{Arg, Message, message};

/// Returns the visits on whose entries these rest.
pub fn rested_on<'e>(entries: impl IntoIterator<Item = &'e Entry>) -> BTreeSet<VisitId> {
    entries.into_iter().filter_map(|entry| Some(entry.body.rests_on?.visit)).collect()
}

/// Returns true if what an entry says of its car can matter for another one on the track.
pub fn is_of_the_track(entry: &Entry) -> bool {
    const WHOLE: [Slot; 4] = [Slot::OPENED, Slot::CAR_LEFT, Slot::CAR_MOVED, Slot::WEATHER];
    const UNDER: [&str; 6] =
        [under::PROTECTIONS, under::STEPS, under::CHECKS, under::HOLDS, under::INCIDENTS, under::ADMITTED];
    let slot = entry.body.speaks_of();
    let air = Slot::reading(Purpose::Arrival, Measured::Temperature, Place::Air);
    matches!(entry.body.about, Subject::Visit(_))
        && (WHOLE.iter().any(|one| one.as_str() == slot)
            || air.as_str() == slot
            || UNDER.iter().any(|prefix| slot.starts_with(prefix)))
}

/// Returns the track of a spot as the site names it: what stands before the first comma. Case and blanks do not matter.
fn track_of(spot: &str) -> String {
    one_name(spot.split(',').next().unwrap_or_default())
}

/// Another car, as far as it matters for the track.
struct Other<'a> {
    visit: VisitId,
    slots: Slots<'a>,
    opened: Option<&'a Opened>,
}

/// Where a car stood before a place in its record, and where its record says so.
fn spot_at<'a>(slots: &Slots<'a>, opened: Option<&'a Opened>, before: usize) -> &'a str {
    let moved = slots.stood(&Slot::CAR_MOVED).filter(|item| item.claim_place < before);
    let moved = moved.filter_map(|item| match item.claim {
        Some(Statement::CarMoved(moved)) if !moved.to.trim().is_empty() => {
            Some((item.claim_place, moved.to.as_str()))
        }
        _ => None,
    });
    moved.max().map_or_else(|| opened.map_or("", |opened| opened.spot.as_str()), |(_, spot)| spot)
}

fn opened_in<'a>(slots: &Slots<'a>) -> Option<&'a Opened> {
    match slots.latest(&Slot::OPENED)?.claim {
        Some(Statement::Opened(opened)) => Some(opened),
        _ => None,
    }
}

/// What became of an entry that rests on another one.
enum Rest {
    /// The other one stands.
    Stands,
    /// The other one is not here.
    Unknown,
    /// It never held, or was called wrong.
    Fell,
    /// It held, until this time.
    Ended(UtcMillis),
}

/// What is said on a car, or could be: when, where in its record, and where the car stands.
struct Here<'h> {
    says: &'h Statement,
    at: UtcMillis,
    opened: Option<&'h Opened>,
    spot: &'h str,
}

/// The other cars on which a stay rests, or could.
#[derive(Default)]
pub(super) struct Track<'a> {
    others: BTreeMap<VisitId, Other<'a>>,
}

impl<'a> Track<'a> {
    pub fn read(ctx: &'a Context<'a>, stay: &BTreeSet<VisitId>) -> Track<'a> {
        let mut by_visit: BTreeMap<VisitId, Vec<&Recorded<'a>>> = BTreeMap::new();
        for recorded in ctx.track {
            match recorded.entry.body.about {
                Subject::Visit(visit) if !stay.contains(&visit) => {
                    by_visit.entry(visit).or_default().push(recorded);
                }
                _ => {}
            }
        }
        let others = by_visit.into_iter().map(|(visit, entries)| {
            let slots = Slots::fold(ctx.authority.stay(entries.into_iter().map(Recorded::received)));
            let opened = opened_in(&slots);
            (visit, Other { visit, slots, opened })
        });
        Track { others: others.collect() }
    }

    /// Returns the car on which an entry rests, and the entry there.
    pub fn source(&self, rests_on: RestsOn) -> Option<(&Item<'a>, String)> {
        let other = self.others.get(&rests_on.visit)?;
        Some((other.slots.item(rests_on.entry)?, other.car()))
    }

    /// Judges the entries of a stay that rest on others: those whose ground fell away are kept without counting.
    pub fn judge(&self, ctx: &Context<'_>, judged: Vec<Judged<'a>>) -> Vec<Judged<'a>> {
        if judged.iter().all(|one| one.entry().body.rests_on.is_none()) {
            return judged;
        }
        let slots = Slots::fold(judged.iter().copied());
        let opened = opened_in(&slots);
        let procedure = opened
            .and_then(|opened| ctx.procedure(opened.procedure))
            .or_else(|| ctx.procedures.default_procedure());
        let ground = |one: Judged<'a>| {
            let (Some(rests_on), true) = (one.entry().body.rests_on, one.verdict().counts()) else {
                return one;
            };
            let rest = match slots.item(one.entry().id) {
                Some(item) => self.rest(ctx, procedure, rests_on, &here(&slots, opened, item)),
                None => Rest::Stands,
            };
            match rest {
                Rest::Stands | Rest::Ended(_) => one,
                Rest::Unknown => one.without_ground(false),
                Rest::Fell => one.without_ground(true),
            }
        };
        judged.into_iter().map(ground).collect()
    }

    /// Returns the live entries of a stay whose ground ended before `until`, each with the time.
    pub fn ended(
        &self,
        ctx: &Context<'_>,
        procedure: Option<&Procedure>,
        slots: &Slots<'a>,
        until: UtcMillis,
    ) -> Vec<(usize, UtcMillis)> {
        let opened = opened_in(slots);
        let live = slots.items().iter().filter(|item| item.fate == Fate::Live);
        live.filter_map(|item| {
            let rests_on = item.entry.body.rests_on?;
            match self.rest(ctx, procedure, rests_on, &here(slots, opened, item)) {
                Rest::Ended(at) if at <= until => Some((item.place, at)),
                _ => None,
            }
        })
        .collect()
    }

    fn rest(
        &self,
        ctx: &Context<'_>,
        procedure: Option<&Procedure>,
        rests_on: RestsOn,
        here: &Here<'_>,
    ) -> Rest {
        let Some(other) = self.others.get(&rests_on.visit) else { return Rest::Unknown };
        let Some(source) = other.slots.item(rests_on.entry) else {
            let refused = other.slots.kept().iter().any(|kept| kept.entry.id == rests_on.entry);
            return if refused { Rest::Fell } else { Rest::Unknown };
        };
        let Some(step) = procedure.and_then(|procedure| step_of(procedure, here.says)) else {
            return Rest::Fell;
        };
        other.rest(ctx, step, source, here)
    }

    /// Returns what can be taken over for a step that belongs to the track: for each record that it asks for the entry
    /// of one car, the one that was looked at last.
    fn offer(&self, ledger: &FoldContext<'a>, step: &Step) -> Option<TrackOffer> {
        let opened = opened_in(&ledger.slots);
        let spot = spot_at(&ledger.slots, opened, usize::MAX);
        let from = |other: &Other<'a>| -> Option<(UtcMillis, TrackOffer)> {
            let items = other.recorded(step)?;
            let stands = |item: &&Item<'a>| {
                item.claim.is_some_and(|says| {
                    let here = Here { says, at: ledger.ctx.now, opened, spot };
                    matches!(other.rest(ledger.ctx, step, item, &here), Rest::Stands)
                })
            };
            if other.is_stopped() || !items.iter().all(stands) {
                return None;
            }
            let at = items.iter().map(|item| item.done_at).min()?;
            let says: Vec<(Statement, RestsOn)> = items
                .iter()
                .filter_map(|item| {
                    let entry = RestsOn { visit: other.visit, entry: item.entry.id };
                    Some((item.claim?.clone(), entry))
                })
                .collect();
            let message = message!(
                "step-as_on_track",
                track = Arg::typed(spot.split(',').next().unwrap_or_default().trim()),
                time = Arg::typed(at.shown_beside(ledger.ctx.now, ledger.zone)),
                car = Arg::typed(other.car()),
            );
            Some((at, TrackOffer { step: step.id.clone(), says, message }))
        };
        self.others.values().filter_map(from).max_by_key(|(at, _)| *at).map(|(_, offer)| offer)
    }
}

fn here<'h>(slots: &Slots<'h>, opened: Option<&'h Opened>, item: &Item<'h>) -> Here<'h> {
    Here { says: &item.entry.body.says, at: item.at, opened, spot: spot_at(slots, opened, item.place) }
}

/// Returns the step of the track that a statement answers.
fn step_of<'p>(procedure: &'p Procedure, says: &Statement) -> Option<&'p Step> {
    let mine = |step: &&Step| match says {
        Statement::Step { step: id, .. } => *id == step.id,
        says => {
            let slot = says.slot();
            step.records.iter().any(|record| {
                record.is_met_by(says) && record.slots(None).iter().any(|one| one.as_str() == slot)
            })
        }
    };
    procedure.steps.iter().filter(|step| step.of == StepOf::Track).find(mine)
}

impl<'a> Other<'a> {
    fn car(&self) -> String {
        self.opened.map_or(String::new(), |opened| opened.car.normal())
    }

    /// Returns true if something stands that stops the job there.
    fn is_stopped(&self) -> bool {
        let held = |slot: &str| {
            matches!(self.slots.latest(slot).and_then(|item| item.claim), Some(Statement::Hold { .. }))
        };
        let incident = |slot: &str| match self.slots.latest(slot).and_then(|item| item.claim) {
            Some(Statement::Incident(said)) => {
                self.slots.latest(&Slot::incident_closed(&said.incident)).is_none()
            }
            _ => false,
        };
        self.slots.names_under(under::HOLDS).any(held)
            || self.slots.names_under(under::INCIDENTS).any(incident)
    }

    /// Returns the entries that answer a step here: one for each record, or the step's own.
    fn recorded(&self, step: &Step) -> Option<Vec<&Item<'a>>> {
        if step.records.is_empty() {
            let item = self.slots.settled(&Slot::step(&step.id))?;
            let done = matches!(item.claim, Some(Statement::Step { outcome: StepOutcome::Done, .. }));
            return done.then(|| vec![item]);
        }
        let answer = |record: &Record| {
            let holds = step.holds.iter().find(|holds| holds.record == *record);
            let slots = record.slots(None);
            slots.iter().find_map(|slot| {
                self.slots.settled(slot).filter(|item| {
                    item.claim.is_some_and(|says| {
                        record.is_met_by(says) && holds.is_none_or(|holds| !holds.held_by(says))
                    })
                })
            })
        };
        step.records.iter().map(answer).collect()
    }

    fn rest(&self, ctx: &Context<'_>, step: &Step, source: &Item<'a>, here: &Here<'_>) -> Rest {
        let (Some(theirs), Some(ours)) = (self.opened, here.opened) else { return Rest::Fell };
        let slot = source.entry.body.speaks_of();
        let stands = matches!(source.fate, Fate::Live | Fate::MovedOn | Fate::Agreed)
            && !(source.fate == Fate::Live && self.slots.is_disputed(&slot))
            && source.entry.body.rests_on.is_none()
            && !differ(source.claim, Some(here.says));
        let track = track_of(here.spot);
        let there = track_of(spot_at(&self.slots, self.opened, source.place));
        let zone = ctx.zone();
        let day = |at: UtcMillis| at.to_datetime().map(|at| at.with_timezone(&zone).date_naive());
        if !stands
            || theirs.site != ours.site
            || track.is_empty()
            || track != there
            || day(source.done_at) != day(here.at)
        {
            return Rest::Fell;
        }
        match self.ends(step, source, &slot) {
            None => Rest::Stands,
            Some((at, _)) if at <= here.at => Rest::Fell,
            // A car left at night ends nothing on another whose people stayed; a moved one does.
            Some((at, true)) => Rest::Ended(at),
            Some((_, false)) => self.moved(source, here.at).map_or(Rest::Stands, Rest::Ended),
        }
    }

    /// Returns when what an entry says ended here first, and whether that ended it for other cars as well.
    fn ends(&self, step: &Step, source: &Item<'a>, slot: &str) -> Option<(UtcMillis, bool)> {
        let later = |item: &&Item<'a>| item.place > source.place;
        let otherwise = self
            .slots
            .stood(slot)
            .filter(later)
            .filter(|item| !is_series(slot) && differ(item.claim, source.claim))
            .map(|item| (item.at, true));
        let not_right = self
            .slots
            .stood(&Slot::step(&step.id))
            .filter(|item| item.fate == Fate::Live || item.place > source.place)
            .filter(|item| {
                let outcome = match item.claim {
                    Some(Statement::Step { outcome, .. }) => Some(*outcome),
                    _ => None,
                };
                outcome == Some(StepOutcome::NotRight)
            })
            .map(|item| (item.at, true));
        let left = self.slots.stood(&Slot::CAR_LEFT).filter(later).map(|item| (item.at, false));
        let moved = self.slots.stood(&Slot::CAR_MOVED).filter(later).map(|item| (item.at, true));
        otherwise.chain(not_right).chain(left).chain(moved).min()
    }

    /// Returns when the other car was moved, or what it says ended, after it was left.
    fn moved(&self, source: &Item<'a>, after: UtcMillis) -> Option<UtcMillis> {
        let slot = source.entry.body.speaks_of();
        let moved = self.slots.stood(&Slot::CAR_MOVED);
        let otherwise = self.slots.stood(&slot).filter(|item| {
            item.place > source.place && !is_series(&slot) && differ(item.claim, source.claim)
        });
        moved.chain(otherwise).map(|item| item.at).filter(|at| *at > after).min()
    }
}

/// What can be taken over for a step from another car on the track.
#[derive(Clone, Debug, PartialEq)]
pub struct TrackOffer {
    /// The id of the step.
    pub step: String,
    /// The statements, each with the entry that it rests on.
    pub says: Vec<(Statement, RestsOn)>,
    /// "As on track 3 at 07:10, with QZQX 204117: still so."
    pub message: Message,
}

/// Returns what can be taken over from other cars on the track now.
pub(super) fn offers(ledger: &FoldContext<'_>) -> Vec<TrackOffer> {
    if ledger.ctx.track.is_empty() {
        return Vec::new();
    }
    let steps = ledger.procedure().map_or(&[][..], |procedure| procedure.steps.as_slice());
    let of_the_track = steps.iter().filter(|step| step.of == StepOf::Track);
    of_the_track.filter_map(|step| ledger.track.offer(ledger, step)).collect()
}

/// Returns what an entry says with the entry that it rests on.
pub(super) fn sentence(ledger: &FoldContext<'_>, says: Message, rests_on: RestsOn) -> Message {
    match ledger.track.source(rests_on) {
        Some((source, car)) => message!(
            "log-rests_on",
            says = says,
            time = Arg::typed(ledger.shown(source.done_at)),
            car = Arg::typed(car),
            entry = Arg::typed(source.entry.id.short().to_string()),
        ),
        None => message!(
            "log-rests_on_unknown",
            says = says,
            entry = Arg::typed(rests_on.entry.short().to_string()),
        ),
    }
}

/// Points out what was taken over and ended on the other car since. With a line on it is an alarm.
pub(super) fn findings(ledger: &FoldContext<'_>, connected: bool, found: &mut Found<'_>) {
    for (place, at) in &ledger.ended {
        let Some(item) = ledger.slots.items().get(*place) else { continue };
        let Some((_, car)) = item.entry.body.rests_on.and_then(|rests_on| ledger.track.source(rests_on))
        else {
            continue;
        };
        let Some(says) = item.claim else { continue };
        let message = message!(
            "finding-track-ended",
            says = ledger.says(says),
            car = Arg::typed(car),
            time = Arg::typed(ledger.shown(*at)),
        );
        match connected {
            true => found.alarm("track_ended", message),
            false => found.check("track_ended", message),
        }
    }
}
