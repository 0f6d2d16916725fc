//! The conditions that rules of gates may ask for, one evaluator for each. What is asked, at which gate, in which
//! words and by whom stands in the procedure's text; here stands only how it is found in the record.

use super::rules::{Evaluation, Lack, Outcome};
use crate::entry::vocabulary::{
    ClosureState, EmptySign, Fitting, Heard, Place, Protection, SealEvent, SealPlace, StepOutcome,
    ValvePosition,
};
use crate::entry::{Slot, Statement, under};
use crate::procedure::{Condition, Event, Record, Threshold};
use crate::units::Unit;
use crate::units::{Finding, Severity};
use crate::view::rounds::place_of;
use crate::view::seals::CoverState;
use crate::view::story::{item_message, slot_message};
use crate::view::tally::speaks_for_liquid;
use crate::{Arg, Joint, Message};

impl Evaluation<'_, '_> {
    pub(super) fn condition(&self, condition: &Condition, fitting: Option<Fitting>) -> Outcome {
        match condition {
            Condition::AllReadable => self.all_readable(),
            Condition::EmptyAccepted => self.empty_accepted(),
            Condition::NoLeakHeard => fitting.map_or_else(nothing, |fitting| self.no_leak_heard(fitting)),
            Condition::ListenedSinceShut => fitting.map_or_else(nothing, |fitting| self.listened(fitting)),
            Condition::ThreadsReported => fitting.map_or_else(nothing, |fitting| self.threads(fitting)),
            Condition::NoLiquidSinceDecision => self.liquid_signs(true),
            Condition::NoLiquidSign => self.liquid_signs(false),
            Condition::FinalPressureAtCar => self.final_pressure_at_car(),
            Condition::FinalPressureSpan { most, unit } => self.final_pressure_span(*most, *unit),
            Condition::ItemsReturned => self.items(),
            Condition::CoverClosed => self.cover(|cover| cover.closed, true),
            Condition::CoverAfterWork => self.cover_after_work(),
            Condition::CoverPinned => self.cover(|cover| cover.pinned, false),
            Condition::CoverBolted => self.cover_bolted(),
            Condition::SealsComplete => self.seals_complete(),
            Condition::SealedOrExplained => self.sealed_or_explained(),
            Condition::SignUpUntilClosed => self.sign_up_until_closed(),
            Condition::SignUpWhileConnected => self.sign_up_while_connected(),
            Condition::HoldsLifted => self.holds(),
            Condition::EntriesAgree => self.entries_agree(),
            Condition::ApprovalsGiven => self.approvals(),
            Condition::AlarmsAnswered => self.alarms(|_| true),
            Condition::NoAlarm(code) => self.alarms(|alarm| alarm.code == *code),
            Condition::NoFinding(codes) => self.findings(codes),
            Condition::ChecksRight => self.checks_right(),
            Condition::StepsRight => self.steps_right(false),
            Condition::ProtectionsInOrder => self.steps_right(true),
            Condition::PaperNamesCar => self.paper_names_car(),
            Condition::ProductOneOf(numbers) => self.product(numbers),
            Condition::FittingsFound => self.fittings_found(),
            Condition::LastRound => self.last_round(),
            Condition::IncidentsClosed => self.incidents_closed(),
            Condition::LeaksTight => self.leaks_tight(),
            Condition::ProtectedSinceMoved => self.protected_since_moved(),
            Condition::OutcomeExplained => self.outcome_explained(),
            Condition::ClearedBeforeUnloading => self.cleared_before_unloading(),
        }
    }

    /// A hold may be in what cannot be read.
    fn all_readable(&self) -> Outcome {
        let count = self.ledger.ctx.unreadable;
        Outcome::of([Slot::OPENED], (count > 0).then(|| Lack::new().with("count", count)))
    }

    fn empty_accepted(&self) -> Outcome {
        const SLOT: Slot = Slot::EMPTY_DECISION;
        let accepted = self
            .ledger
            .all_claim(&SLOT, |says| matches!(says, Statement::EmptyDecision { accepted: true, .. }));
        let nothing = self.ledger.slots.latest(&SLOT).is_none();
        Outcome::of([SLOT], (!accepted).then(|| Lack { nothing, ..Lack::new() }))
    }

    /// Signs of liquid count against an accepted decision; without one the decision itself is missing.
    fn liquid_signs(&self, since_the_decision: bool) -> Outcome {
        let decided = self.ledger.slots.live(&Slot::EMPTY_DECISION).map(|item| item.claim_place).max();
        let accepted = self.ledger.all_claim(&Slot::EMPTY_DECISION, |says| {
            matches!(says, Statement::EmptyDecision { accepted: true, .. })
        });
        let mut slots = vec![Slot::EMPTY_DECISION];
        let mut lacks = Vec::new();
        for sign in EmptySign::ALL {
            let slot = Slot::empty_sign(*sign);
            let speaks = self.ledger.slots.live(&slot).any(|item| {
                let speaks = matches!(
                    item.claim,
                    Some(Statement::EmptySign { sign, seen }) if speaks_for_liquid(*sign, *seen)
                );
                let counts = !since_the_decision || decided.is_some_and(|decided| item.claim_place > decided);
                speaks && counts
            });
            if accepted && speaks {
                let lack = Lack { evidence: vec![slot.to_string()], ..Lack::new() };
                lacks.push(lack.with("sign", slot_message(&slot)));
            }
            slots.push(slot);
        }
        if since_the_decision {
            lacks.truncate(1); // one item for all of them, under the one code
        } else {
            for (lack, slot) in lacks.iter_mut().zip(0..) {
                let sign = lack.evidence.first().and_then(|slot| slot.strip_prefix(under::EMPTY));
                if let (Some(sign), 1..) = (sign, slot) {
                    lack.of = sign.to_owned();
                }
            }
        }
        Outcome::of(slots, lacks)
    }

    fn final_pressure_at_car(&self) -> Outcome {
        let slot = Slot::FINAL_PRESSURE;
        if self.ledger.slots.latest(&slot).is_some() {
            return Outcome::of([slot], None);
        }
        let elsewhere: Vec<Message> = self
            .ledger
            .slots
            .names_under(under::FINAL_PRESSURES)
            .filter_map(|slot| slot.rsplit('/').next())
            .map(|place| Place::read(place).map_or_else(|| Message::typed(place), Place::term))
            .collect();
        let lack =
            (!elsewhere.is_empty()).then(|| Lack::new().with("places", Arg::list(Joint::And, elsewhere)));
        Outcome::of([slot], lack)
    }

    fn final_pressure_span(&self, most: f64, unit: Unit) -> Outcome {
        let slot = Slot::FINAL_PRESSURE;
        let (most, unit) = match self.ledger.threshold(Threshold::FinalPressureSpan) {
            Some(psi) => (f64::from(psi), Unit::PsiGauge),
            None => (most, unit),
        };
        let listed = self.ledger.ctx.site.is_some_and(|site| !site.instruments.is_empty());
        let mut lack = None;
        for item in self.ledger.slots.live(&slot) {
            let Some(Statement::Reading(reading)) = item.claim else { continue };
            let name = reading.instrument.trim();
            if name.is_empty() || !listed {
                continue;
            }
            let span =
                self.ledger.instrument(name).and_then(|known| Some((known, known.span.value_in(unit)?)));
            let of = |lack: Lack| lack.with("instrument", Arg::typed(name));
            match span {
                None => lack = Some(of(Lack { nothing: true, ..Lack::new() })),
                Some((known, span)) if span > most => {
                    lack = Some(of(Lack::new()).with("span", known.span.arg()));
                }
                Some(_) => {}
            }
        }
        Outcome::of([slot], lack)
    }

    fn items(&self) -> Outcome {
        let lacks = self.facts.parts.tally.out.iter().map(|item| {
            let lack = Lack {
                of: item.item.trim().to_lowercase(),
                slot: Slot::item(&item.item).into(),
                fitting: item.fitting,
                nothing: item.out.is_none(),
                ..Lack::new()
            };
            let lack = lack.with("item", item_message(&item.item));
            match &item.out {
                Some(said) => lack.with("who", said.signature()),
                None => lack,
            }
        });
        let back = self.facts.parts.tally.back.iter().map(|item| Slot::item(&item.item));
        Outcome::of(back, lacks.collect::<Vec<_>>())
    }

    fn cover_states(&self) -> Vec<Option<CoverState>> {
        self.ledger.claims(&Slot::COVER).into_iter().map(|claim| claim.and_then(CoverState::read)).collect()
    }

    /// What was never recorded is asked once, by the rule that the cover is closed.
    fn cover(&self, passes: fn(&CoverState) -> bool, asks_for_the_record: bool) -> Outcome {
        let states = self.cover_states();
        let lacks = match states.is_empty() {
            true => asks_for_the_record,
            false => !states.iter().all(|state| state.as_ref().is_some_and(passes)),
        };
        let nothing = states.is_empty();
        Outcome::of([Slot::COVER], lacks.then(|| Lack { nothing, ..Lack::new() }))
    }

    fn cover_bolted(&self) -> Outcome {
        let states = self.cover_states();
        let short = |cover: &CoverState| cover.bolts_in_place < cover.bolts_required;
        let all = states.iter().all(|state| state.as_ref().is_some_and(|cover| !short(cover)));
        let lack = (!all).then(|| match states.iter().flatten().find(|cover| short(cover)) {
            None => Lack { nothing: true, ..Lack::new() },
            Some(cover) => Lack::new()
                .with("count", u32::from(cover.bolts_in_place))
                .with("of", u32::from(cover.bolts_required)),
        });
        Outcome::of([Slot::COVER], lack)
    }

    fn cover_after_work(&self) -> Outcome {
        let Some(closed) = self.ledger.slots.live(&Slot::COVER).map(|item| item.claim_place).max() else {
            return Outcome::of([Slot::COVER], None);
        };
        let mut slots: Vec<Slot> = vec![Slot::LAST_ROUND];
        for fitting in self.facts.parts.counting {
            slots.extend([Slot::valve(*fitting), Slot::closure(*fitting), Slot::line(*fitting)]);
        }
        let last = slots
            .iter()
            .flat_map(|slot| self.ledger.slots.stood(slot))
            .max_by_key(|item| item.claim_place)
            .filter(|item| item.claim_place > closed);
        let lack = last.map(|item| Lack::new().with("work", self.ledger.sentence(item)));
        Outcome::of([Slot::COVER], lack)
    }

    fn seals_complete(&self) -> Outcome {
        let mut slots = Vec::new();
        let mut lacks = Vec::new();
        for seal in self.facts.parts.seals {
            let slot = Slot::seal(seal.place);
            if !seal.lacks.is_empty() {
                let lack =
                    Lack { of: seal.place.word().to_owned(), slot: slot.as_str().to_owned(), ..Lack::new() };
                let missing = Arg::list(Joint::And, seal.lacks.iter().cloned());
                lacks.push(lack.with("place", seal.place.term()).with("lacks", missing));
            }
            slots.push(slot);
        }
        Outcome::of(slots, lacks)
    }

    fn sealed_or_explained(&self) -> Outcome {
        let is_applied =
            |says: &Statement| matches!(says, Statement::Seal(seal) if seal.event == SealEvent::Applied);
        let mut slots = vec![Slot::seal(SealPlace::HousingPin)];
        slots.extend(self.facts.parts.seals.iter().map(|seal| Slot::seal(seal.place)));
        let applied = slots
            .iter()
            .flat_map(|slot| self.ledger.slots.live(slot))
            .any(|item| item.claim.is_some_and(is_applied));
        let skipped = self.ledger.all_claim(&Slot::step("seal"), |says| {
            matches!(says, Statement::Step { outcome: StepOutcome::Skipped, note, .. } if !note.trim().is_empty())
        });
        Outcome::of(slots, (!applied && !skipped).then(Lack::new))
    }

    /// The sign stays up until all closures are secured.
    fn sign_up_until_closed(&self) -> Outcome {
        let slot = Slot::protection(Protection::BlueSign);
        let is_down = |says: &Statement| matches!(says, Statement::Protection { set: false, .. });
        let down = self
            .ledger
            .slots
            .live(&slot)
            .filter(|item| item.claim.is_some_and(is_down))
            .map(|item| item.claim_place)
            .max();
        let counting = self.facts.parts.counting;
        let late = down.and_then(|down| counting.iter().find(|fitting| !self.closed_before(**fitting, down)));
        let lack = late.map(|fitting| Lack {
            evidence: counting.iter().map(|fitting| Slot::closure(*fitting).into()).collect(),
            ..Lack::new().with("fitting", fitting.term())
        });
        Outcome::of([slot], lack)
    }

    /// Whether the closure is tool-tight and was so before the entry at `place`, and its line was off.
    fn closed_before(&self, fitting: Fitting, place: usize) -> bool {
        let (closure, line) = (Slot::closure(fitting), Slot::line(fitting));
        let is_tight =
            |says: &Statement| matches!(says, Statement::Closure { state: ClosureState::ToolTight, .. });
        let tight = match self.places.round(fitting) {
            Some(round) => {
                let later = self.ledger.slots.live(&closure).filter(|item| item.claim_place > round);
                round < place && later.into_iter().all(|item| item.claim.is_some_and(is_tight))
            }
            None => self.ledger.all_claim(&closure, is_tight),
        };
        let none_later = |slot: &str| self.ledger.slots.stood(slot).all(|item| item.claim_place < place);
        tight && none_later(&closure) && none_later(&line)
    }

    /// Walks through the record in its order: whenever a line was on, the sign was up.
    fn sign_up_while_connected(&self) -> Outcome {
        let sign = Slot::protection(Protection::BlueSign);
        let lines = Fitting::LINES.map(Slot::line);
        /// The place, whether the sign is up from there on, and which line is on or off from there on.
        type Event = (usize, Option<bool>, Option<(usize, bool)>);
        let mut events: Vec<Event> = Vec::new();
        for item in self.ledger.slots.stood(&sign) {
            if let Some(Statement::Protection { set, .. }) = item.claim {
                events.push((place_of(self.ledger, item), Some(*set), None));
            }
        }
        for (number, line) in lines.iter().enumerate() {
            for item in self.ledger.slots.stood(line) {
                if let Some(Statement::Line { connected, .. }) = item.claim {
                    let place = place_of(self.ledger, item);
                    events.push((place, None, Some((number, *connected))));
                }
            }
        }
        events.sort_by_key(|(place, ..)| *place);
        let (mut up, mut on, mut without) = (false, [false; Fitting::LINES.len()], None);
        for (place, set, line) in events {
            up = set.unwrap_or(up);
            if let Some((number, connected)) = line {
                on[number] = connected;
            }
            if !up && on.iter().any(|on| *on) && without.is_none() {
                without = Some(place);
            }
        }
        let entry = without.and_then(|place| self.ledger.slots.items().get(place));
        let lack = entry.map(|item| Lack {
            evidence: lines.iter().map(|line| line.as_str().to_owned()).collect(),
            ..Lack::new().with("entry", self.ledger.sentence_briefly(item))
        });
        Outcome::of([sign], lack)
    }

    fn holds(&self) -> Outcome {
        let holds = self.facts.parts.holds;
        let lacks = holds.iter().filter(|hold| hold.open).map(|hold| {
            let slot = Slot::hold(&hold.id).into();
            let lack = Lack { of: hold.id.short(), slot, ..Lack::new() };
            lack.with("because", Arg::typed(hold.because.trim_end_matches('.')))
        });
        Outcome::of(holds.iter().map(|hold| Slot::hold(&hold.id)), lacks.collect::<Vec<_>>())
    }

    fn entries_agree(&self) -> Outcome {
        let lacks = self.ledger.slots.disagreements().map(|slot| {
            let lack = Lack { of: slot.to_owned(), slot: slot.to_owned(), ..Lack::new() };
            lack.with("about", slot_message(slot))
        });
        Outcome::of([], lacks.collect::<Vec<_>>())
    }

    fn approvals(&self) -> Outcome {
        let mut lacks = Vec::new();
        for defect in self.facts.parts.defects.iter().filter(|defect| defect.lacks_authority()) {
            if defect.visit.is_some_and(|visit| !self.ledger.visits.contains(&visit)) {
                continue; // an earlier visit's: a finding, not an item of this one
            }
            let lack = Lack {
                of: defect.id.short(),
                slot: Slot::defect(&defect.id).into(),
                evidence: vec![Slot::authority(&defect.id).into()],
                fitting: defect.fitting,
                ..Lack::new()
            };
            lacks.push(lack.with("defect", Arg::typed(&defect.what)));
        }
        Outcome::of([], lacks)
    }

    /// Each alarm once, whatever it was raised for; two of one kind stand in one item.
    fn alarms(&self, which: impl Fn(&Finding) -> bool) -> Outcome {
        let mut codes: Vec<&str> = Vec::new();
        let alarms = || {
            let all = self.facts.findings.iter().filter(|finding| finding.severity == Severity::Alarm);
            all.filter(|alarm| which(alarm))
        };
        alarms().for_each(|alarm| {
            if !codes.contains(&alarm.code.as_str()) {
                codes.push(&alarm.code);
            }
        });
        let lacks = codes.into_iter().map(|code| {
            let mut says: Vec<Message> = Vec::new();
            for alarm in alarms().filter(|alarm| alarm.code == code) {
                if !says.contains(&alarm.message) {
                    says.push(alarm.message.clone());
                }
            }
            let evidence = slots_of_alarm(code).into_iter().map(String::from).collect();
            let lack = Lack { of: code.to_owned(), evidence, ..Lack::new() };
            lack.with("alarm", Arg::list(Joint::Sentences, says))
        });
        Outcome::of([], lacks.collect::<Vec<_>>())
    }

    fn findings(&self, codes: &[String]) -> Outcome {
        let found = self.facts.findings.iter().filter(|finding| codes.contains(&finding.code));
        let lacks = found.map(|finding| {
            let evidence = slots_of_alarm(&finding.code).into_iter().map(String::from);
            let lack = Lack { of: finding.code.clone(), evidence: evidence.collect(), ..Lack::new() };
            lack.with("finding", finding.message.clone())
        });
        Outcome::of([], lacks.collect::<Vec<_>>())
    }

    fn checks_right(&self) -> Outcome {
        let mut slots = Vec::new();
        let mut lacks = Vec::new();
        for slot in self.ledger.slots.names_under(under::CHECKS) {
            let wrong = self.ledger.slots.live(slot).find_map(|item| match item.claim {
                Some(Statement::Check { what, right: false, note }) => Some((what, note)),
                _ => None,
            });
            if let Some((what, note)) = wrong {
                let of = slot.strip_prefix(under::CHECKS).unwrap_or(slot).to_owned();
                let lack = Lack { of, slot: slot.to_owned(), ..Lack::new() };
                lacks.push(lack.with("check", what.message()).with("note", noted(note)));
            }
            slots.push(slot.to_owned());
        }
        Outcome { lacks, slots }
    }

    /// Steps that were recorded not right, or those among them that are about a protection.
    fn steps_right(&self, protections: bool) -> Outcome {
        let mut lacks = Vec::new();
        for slot in self.ledger.slots.names_under(under::STEPS) {
            let wrong = self.ledger.slots.live(slot).find_map(|item| match item.claim {
                Some(Statement::Step { step, outcome: StepOutcome::NotRight, note }) => Some((step, note)),
                _ => None,
            });
            let Some((step, note)) = wrong else { continue };
            let protection = self.facts.steps.step(step).and_then(|step| {
                step.records.iter().find_map(|record| match record {
                    Record::Protection { what, .. } => Some(*what),
                    _ => None,
                })
            });
            if protection.is_some() != protections {
                continue;
            }
            let of = protection.map_or_else(|| step.clone(), |what| what.word().to_owned());
            let lack = Lack { of, slot: slot.to_owned(), ..Lack::new() };
            let lack = match protection {
                Some(what) => lack.with("protection", what.term()),
                None => lack.with("step", self.ledger.step_title(step)),
            };
            lacks.push(lack.with("note", noted(note)));
        }
        Outcome::of([], lacks)
    }

    fn paper_names_car(&self) -> Outcome {
        let named = self
            .ledger
            .claims(&Slot::PAPER)
            .iter()
            .all(|claim| matches!(claim, Some(Statement::Paper(paper)) if !paper.car.trim().is_empty()));
        Outcome::of([Slot::PAPER, Slot::OPENED], (!named).then(Lack::new))
    }

    fn product(&self, numbers: &[String]) -> Outcome {
        use crate::calc::product::Product;
        let taken: Vec<Product> = numbers.iter().filter_map(|number| Product::read(number)).collect();
        let mut lack = None;
        let papers = self.ledger.claims(&Slot::PAPER);
        for claim in &papers {
            let Some(Statement::Paper(paper)) = claim else { continue };
            let number = paper.un_number.trim();
            if Product::read(number).is_none_or(|product| !taken.contains(&product)) {
                let nothing = number.is_empty();
                lack = Some(Lack { nothing, ..Lack::new() }.with("number", Arg::typed(number)));
            }
        }
        if papers.is_empty() {
            lack = Some(Lack { nothing: true, ..Lack::new() });
        }
        Outcome::of([Slot::PAPER], lack)
    }

    fn fittings_found(&self) -> Outcome {
        let counting = self.facts.parts.counting;
        let never = |fitting: &&Fitting| {
            self.ledger.slots.stood(&Slot::closure(**fitting)).next().is_none()
                && self.places.round(**fitting).is_none()
        };
        let missing: Vec<Message> = counting.iter().filter(never).map(|fitting| fitting.term()).collect();
        let lack =
            (!missing.is_empty()).then(|| Lack::new().with("fittings", Arg::list(Joint::Comma, missing)));
        Outcome::of(counting.iter().map(|fitting| Slot::closure(*fitting)), lack)
    }

    fn cleared_before_unloading(&self) -> Outcome {
        let slot = Slot::FIT_TO_UNLOAD;
        let cleared = self.ledger.slots.stood(&slot).map(|item| item.claim_place).min();
        let began = self.places.began();
        let early = began.filter(|began| cleared.is_none_or(|cleared| cleared > *began));
        let entry = early.and_then(|place| self.ledger.slots.items().get(place));
        let lack = entry.map(|item| Lack::new().with("entry", self.ledger.sentence_briefly(item)));
        Outcome::of([slot], lack)
    }

    /// Every closure tool-tight, and every valve shut and listened to, since the last thing that could have
    /// disturbed them: in one last round, or each by itself. What is not in order at all is the item of another
    /// rule, and is not named here as well.
    fn last_round(&self) -> Outcome {
        let counting = self.facts.parts.counting;
        let after = self.places.event(Event::Disturbed, None);
        let is_late = |place: usize| after.is_none_or(|after| place > after);
        let is_missing = |fitting: &Fitting| {
            let fitting = *fitting;
            let in_round = self.places.round(fitting);
            if in_round.is_some_and(is_late) {
                return false;
            }
            let stale = |slot: Slot, says: fn(&Statement) -> bool| {
                (in_round.is_some() || self.ledger.all_claim(&slot, says))
                    && !self.places.last(&slot, says).is_some_and(is_late)
            };
            stale(Slot::closure(fitting), |says| {
                matches!(says, Statement::Closure { state: ClosureState::ToolTight, .. })
            }) || fitting.has_valve()
                && (stale(Slot::valve(fitting), |says| {
                    matches!(says, Statement::Valve { position: ValvePosition::Shut, .. })
                }) || stale(Slot::listen(fitting), |says| {
                    matches!(says, Statement::Listen { heard: Heard::Quiet, .. })
                }))
        };
        let missing: Vec<Fitting> = counting.iter().copied().filter(|fitting| is_missing(fitting)).collect();
        let lack = (!missing.is_empty()).then(|| Lack {
            evidence: missing.iter().map(|fitting| Slot::closure(*fitting).into()).collect(),
            ..Lack::new()
                .with("fittings", Arg::list(Joint::Comma, missing.iter().map(|fitting| fitting.term())))
        });
        Outcome::of([Slot::LAST_ROUND], lack)
    }
}

/// The outcome of a condition that was asked of no fitting; a text that does so is refused when it is read.
fn nothing() -> Outcome {
    Outcome::of([], None)
}

fn noted(note: &str) -> Arg {
    match note.trim() {
        "" => crate::view::story::none(),
        note => Arg::typed(note.trim_end_matches('.')),
    }
}

/// The slots whose entries raise an alarm, as far as it has any: should they say something else later, an answer
/// no longer holds.
fn slots_of_alarm(code: &str) -> Vec<Slot> {
    use crate::entry::vocabulary::{Measured, Purpose};
    let arrival = |measured| Slot::reading(Purpose::Arrival, measured, Place::Car);
    match code {
        "car_number_differs" => vec![Slot::OPENED, Slot::CAR_NUMBER_AGAIN],
        "paper_for_another_car" => vec![Slot::OPENED, Slot::PAPER],
        "not_odorised" => vec![Slot::PAPER],
        "blue_sign_not_up" => vec![Slot::protection(Protection::BlueSign)],
        "frost_ring" => vec![Slot::empty_sign(EmptySign::FrostRing)],
        "empty_against_evidence" => {
            let signs = EmptySign::ALL.iter().map(|sign| Slot::empty_sign(*sign));
            std::iter::once(Slot::EMPTY_DECISION).chain(signs).collect()
        }
        "overfilled" => {
            vec![
                arrival(Measured::Outage),
                arrival(Measured::Temperature),
                arrival(Measured::RelativeDensity),
            ]
        }
        "pressure_above_saturation" | "pressure_below_saturation" => {
            vec![arrival(Measured::Pressure), arrival(Measured::Temperature)]
        }
        "does_not_fit" | "liquid_full_when_warm" => vec![
            Slot::reading(Purpose::Arrival, Measured::Level, Place::StorageTank),
            arrival(Measured::Outage),
        ],
        "unloading_not_cleared" | "unloaded_over_open_items" => vec![Slot::FIT_TO_UNLOAD],
        _ => Vec::new(),
    }
}
