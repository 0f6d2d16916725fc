//! Evaluating the rules of a procedure: what each of them finds missing, and what meets it.

use std::collections::BTreeSet;

use super::places::Places;
use super::{Blocker, Met};
use crate::entry::coded::{Checked, Coded};
use crate::entry::vocabulary::{Fitting, Gate};
use crate::entry::{Slot, Statement};
use crate::procedure::{Asked, BlockerKind, Event, GateRule, Must, Quality, Record, sentence};
use crate::units::Finding;
use crate::view::VisitParts;
use crate::view::fold_context::FoldContext;
use crate::view::leaving::leaving;
use crate::view::rounds::place_of;
use crate::view::slots::Item;
use crate::view::steps::StepsView;
use crate::view::story::{code_of, reading_title};
use crate::{Arg, Message};

/// What rules look at in addition to the entries.
pub(in crate::view) struct Facts<'v> {
    /// The parts of the record that were folded before.
    pub parts: &'v VisitParts<'v>,
    /// Everything that was pointed out, by the record and by formulas.
    pub findings: &'v [Finding],
    /// The steps of the procedure.
    pub steps: &'v StepsView,
}

/// One thing that a rule finds missing.
#[derive(Default)]
pub(super) struct Lack {
    /// What stands in the code after the kind; empty: what the rule says.
    pub of: String,
    /// The arguments of the sentence.
    pub args: Vec<(&'static str, Arg)>,
    /// The slot in which it is missing; empty: the first one that was looked at.
    pub slot: String,
    /// Further slots whose entries it stands on.
    pub evidence: Vec<String>,
    /// The fitting.
    pub fitting: Option<Fitting>,
    /// Whether nothing is recorded at all, for which the rule may have another sentence.
    pub nothing: bool,
    /// The sentence, if it is not the rule's.
    pub says: Option<Message>,
}

impl Lack {
    pub fn new() -> Lack {
        Lack::default()
    }

    pub fn with(mut self, name: &'static str, arg: impl Into<Arg>) -> Lack {
        self.args.push((name, arg.into()));
        self
    }
}

/// What a rule found: what is missing, and the slots that it looked at.
pub(super) struct Outcome {
    pub lacks: Vec<Lack>,
    pub slots: Vec<String>,
}

impl Outcome {
    pub fn of(slots: impl IntoIterator<Item = Slot>, lacks: impl IntoIterator<Item = Lack>) -> Outcome {
        Outcome {
            lacks: lacks.into_iter().collect(),
            slots: slots.into_iter().map(|slot| slot.as_str().to_owned()).collect(),
        }
    }
}

/// Everything that an evaluator may ask.
pub(super) struct Evaluation<'e, 'a> {
    pub ledger: &'e FoldContext<'a>,
    pub facts: &'e Facts<'e>,
    pub places: Places<'e, 'a>,
}

/// What stands at one gate.
pub(in crate::view) struct AtGate {
    pub blockers: Vec<Blocker>,
    pub met: Vec<Met>,
}

/// Goes through the rules of a gate in order. Rules that repeat over fittings and stand beside each other are gone
/// through fitting by fitting. Of several rules with one code the first that finds something speaks.
pub(in crate::view) fn at_gate(
    gate: Gate,
    rules: &[GateRule],
    ledger: &FoldContext<'_>,
    facts: &Facts<'_>,
) -> AtGate {
    let evaluation = Evaluation { ledger, facts, places: Places::of(ledger) };
    let leaving = leaving(ledger);
    let mine: Vec<&GateRule> = rules
        .iter()
        .filter(|rule| rule.gates.contains(&gate))
        .filter(|rule| rule.only_for.is_none_or(|only| ledger.receiver == Some(only)))
        .filter(|rule| rule.leaves.is_none_or(|only| leaving == only))
        .collect();
    let mut found = Gathered::default();
    for block in mine.chunk_by(|a, b| a.each.is_some() && b.each.is_some()) {
        if block.first().is_some_and(|rule| rule.each.is_none()) {
            block.iter().for_each(|rule| found.take(ledger, rule, evaluation.rule(rule, None)));
            continue;
        }
        for fitting in facts.parts.counting {
            for rule in block.iter().filter(|rule| rule.each.is_some_and(|each| each.includes(*fitting))) {
                found.take(ledger, rule, evaluation.rule(rule, Some(*fitting)));
            }
        }
    }
    found.finish(ledger)
}

#[derive(Default)]
struct Gathered {
    blockers: Vec<Blocker>,
    codes: BTreeSet<String>,
    /// What was asked, in order: the words, whether it was found missing anywhere, and the slots looked at.
    asked: Vec<(BlockerKind, String, bool, Vec<String>)>,
}

impl Gathered {
    fn take(&mut self, ledger: &FoldContext<'_>, rule: &GateRule, outcome: Outcome) {
        let lacking = !outcome.lacks.is_empty();
        match self.asked.iter_mut().find(|(kind, of, ..)| *kind == rule.item && *of == rule.of) {
            Some((_, _, missing, slots)) => {
                *missing |= lacking;
                slots.extend(outcome.slots.iter().cloned());
            }
            None => self.asked.push((rule.item, rule.of.clone(), lacking, outcome.slots.clone())),
        }
        let first = outcome.slots.first().cloned().unwrap_or_default();
        for lack in outcome.lacks {
            let of = if lack.of.is_empty() { rule.of.clone() } else { lack.of };
            let slot = if lack.slot.is_empty() { first.clone() } else { lack.slot };
            let say = match &rule.say_none {
                Some(say) if lack.nothing => say,
                _ => &rule.say,
            };
            let said = lack.says.unwrap_or_else(|| sentence(say));
            let missing = lack.args.into_iter().fold(said, |said, (name, arg)| said.with(name, arg));
            let basis = rule.basis(ledger.receiver);
            let blocker = Blocker::new(ledger, (rule.item, &of), missing, basis, &slot)
                .standing_on(ledger, lack.evidence.iter().map(String::as_str));
            if self.codes.insert(blocker.code.clone()) {
                self.blockers.push(Blocker { fitting: lack.fitting, ..blocker });
            }
        }
    }

    /// Puts alarms on top and says of what is not missing who recorded it last.
    fn finish(mut self, ledger: &FoldContext<'_>) -> AtGate {
        self.blockers.sort_by_key(|blocker| blocker.kind != BlockerKind::Alarm);
        let met = self
            .asked
            .into_iter()
            .filter(|(_, _, missing, _)| !missing)
            .map(|(kind, of, _, slots)| {
                let last = slots
                    .iter()
                    .flat_map(|slot| ledger.slots.live(slot))
                    .max_by_key(|item| (item.claim_place, item.place));
                let words = Message::term("gate_met", kind.word());
                let what = match of.as_str() {
                    "" => words,
                    of => words.with("of", code_of(kind, of)),
                };
                Met { item: kind, what, by: last.map(|item| ledger.said(item)) }
            })
            .collect();
        AtGate { blockers: self.blockers, met }
    }
}

impl Evaluation<'_, '_> {
    fn rule(&self, rule: &GateRule, fitting: Option<Fitting>) -> Outcome {
        match &rule.asked {
            Asked::Record { any_of, must, since, with } => {
                self.record(rule, any_of, (*must, *since, with), fitting)
            }
            Asked::Condition(condition) => self.condition(condition, fitting),
            Asked::Step(step) => self.step(step),
        }
    }

    fn step(&self, id: &str) -> Outcome {
        let of_step = |known: &&crate::view::StepView| known.id.split('.').next() == Some(id);
        let open: Vec<_> = self
            .facts
            .steps
            .steps
            .iter()
            .filter(of_step)
            .filter(|step| !step.status.is_closed() && !step.optional)
            .map(|step| Lack {
                of: step.id.clone(),
                slot: Slot::step(&step.id).into(),
                fitting: step.fitting,
                ..Lack::new().with("step", step.title.clone())
            })
            .collect();
        let slots = self.facts.steps.steps.iter().filter(of_step).map(|step| Slot::step(&step.id));
        Outcome::of(slots, open)
    }

    fn record(
        &self,
        rule: &GateRule,
        any_of: &[Record],
        (must, since, with): (Must, Option<Event>, &[Quality]),
        fitting: Option<Fitting>,
    ) -> Outcome {
        let slots: Vec<Slot> = any_of.iter().flat_map(|record| record.slots(fitting)).collect();
        let ledger = self.ledger;
        let after = since.and_then(|event| self.places.event(event, fitting));
        let is_late = |place: usize| after.is_none_or(|after| place > after);
        let round = any_of.iter().filter_map(|record| self.places.round_for(record, fitting)).max();
        let meets = |item: &Item<'_>| {
            item.claim.is_some_and(|claim| {
                any_of.iter().any(|record| record.is_met_by(claim)) && self.is_good(claim, with)
            })
        };
        let made = |item: &Item<'_>| meets(item) && is_late(place_of(ledger, item));
        // What a later round says of a fitting takes the place of what stood before it.
        let live: Vec<&Item<'_>> = slots
            .iter()
            .flat_map(|slot| ledger.slots.live(slot))
            .filter(|item| round.is_none_or(|round| place_of(ledger, item) > round))
            .collect();
        let by_round = round.is_some_and(is_late);
        let holds = match must {
            Must::Stand => {
                (by_round || live.iter().any(|item| made(item))) && live.iter().all(|item| meets(item))
            }
            Must::NotDiffer => live.iter().all(|item| made(item)),
            Must::NotStand => !live.iter().any(|item| meets(item)),
            Must::HaveStood => slots.iter().flat_map(|slot| ledger.slots.stood(slot)).any(made),
        };
        let lack = (!holds).then(|| {
            let latest = live
                .iter()
                .max_by_key(|item| (item.credible, item.at, item.place))
                .and_then(|item| item.claim);
            let case = latest
                .and_then(|claim| rule.say_if.iter().find(|case| case.record.is_met_by(claim)))
                .map(|case| sentence(&case.say));
            let lack = Lack { fitting, nothing: live.is_empty(), says: case, ..Lack::new() };
            let lack = match fitting {
                Some(fitting) => {
                    Lack { of: fitting.word().to_owned(), ..lack }.with("fitting", fitting.term())
                }
                None => lack,
            };
            named(lack, any_of.first())
        });
        Outcome::of(slots, lack)
    }

    /// Whether a reading is what a rule asks of it. Other records have no such quality.
    fn is_good(&self, claim: &Statement, with: &[Quality]) -> bool {
        let Statement::Reading(reading) = claim else { return true };
        with.iter().all(|quality| match quality {
            Quality::Number => reading.amount.value.is_some(),
            Quality::Instrument => !reading.instrument.trim().is_empty(),
            Quality::WithinScale => {
                let Some(instrument) = self.ledger.instrument(&reading.instrument) else { return true };
                let unit = instrument.span.unit;
                match (reading.amount.value_in(unit), instrument.span.value_in(unit)) {
                    (Some(value), Some(span)) => (0.0..=span).contains(&value),
                    _ => true,
                }
            }
        })
    }
}

/// Names in the sentence what a record is about.
fn named(lack: Lack, record: Option<&Record>) -> Lack {
    match record {
        Some(Record::Check { what }) => lack.with("check", Coded::<Checked>::read(what).message()),
        Some(Record::Protection { what, .. }) => lack.with("protection", what.term()),
        Some(Record::Photo { of }) => lack.with("photo", of.term()),
        Some(Record::Reading { measured, place, purpose, .. }) => {
            lack.with("reading", reading_title(*purpose, *measured, *place))
        }
        _ => lack,
    }
}
