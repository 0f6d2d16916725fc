//! When things happened at the car, for rules that ask what was made after something else: the events that rules
//! name, by their places in the order of the record.

use std::cell::OnceCell;

use crate::entry::vocabulary::{ClosureState, Fitting, Measured, Place, ValvePosition};
use crate::entry::{Slot, Statement, under};
use crate::procedure::{Event, Record};
use crate::view::fittings::FittingSlots;
use crate::view::fold_context::FoldContext;
use crate::view::leaving::moved_or_left;
use crate::view::rounds::{Round, place_of, rounds};

/// The places of a stay's events.
pub(super) struct Places<'l, 'a> {
    ledger: &'l FoldContext<'a>,
    rounds: Vec<Round<'a>>,
    disturbed: OnceCell<Option<usize>>,
}

impl<'l, 'a> Places<'l, 'a> {
    pub fn of(ledger: &'l FoldContext<'a>) -> Places<'l, 'a> {
        Places { ledger, rounds: rounds(ledger), disturbed: OnceCell::new() }
    }

    /// Returns the place of the last standing entry of a slot that meets a condition.
    pub fn last(&self, slot: &str, says: impl Fn(&Statement) -> bool) -> Option<usize> {
        let met = self.ledger.slots.stood(slot).filter(|item| item.claim.is_some_and(&says));
        met.map(|item| place_of(self.ledger, item)).max()
    }

    /// Returns the place of the last round in which this fitting was in order.
    pub fn round(&self, fitting: Fitting) -> Option<usize> {
        self.rounds.iter().filter(|round| round.fittings.contains(&fitting)).map(|round| round.place).max()
    }

    /// Returns the place of a round that says what a record of this fitting would say.
    pub fn round_for(&self, record: &Record, fitting: Option<Fitting>) -> Option<usize> {
        let said = match record {
            Record::Valve { position } => *position == ValvePosition::Shut,
            Record::Closure { state } => *state == ClosureState::ToolTight,
            Record::Listen {} => true,
            _ => false,
        };
        fitting.filter(|_| said).and_then(|fitting| self.round(fitting))
    }

    /// Returns the place of an event, if it came.
    pub fn event(&self, event: Event, fitting: Option<Fitting>) -> Option<usize> {
        match event {
            Event::Shut => self.last(&Slot::valve(fitting?), |says| {
                matches!(says, Statement::Valve { position: ValvePosition::Shut, .. })
            }),
            Event::LastLineOff => self.last_line(|connected| !connected),
            Event::EmptyDecision => self.last(&Slot::EMPTY_DECISION, |says| {
                matches!(says, Statement::EmptyDecision { accepted: true, .. })
            }),
            Event::MovedOrLeft => moved_or_left(self.ledger),
            Event::Disturbed => *self.disturbed.get_or_init(|| self.last_line(|_| true).max(self.gauged())),
        }
    }

    fn last_line(&self, which: impl Fn(bool) -> bool) -> Option<usize> {
        let of = |fitting: &Fitting| {
            self.last(
                &Slot::line(*fitting),
                |says| matches!(says, Statement::Line { connected, .. } if which(*connected)),
            )
        };
        Fitting::ALL.iter().filter_map(of).max()
    }

    /// The last reading that was taken at the car: gauging, sampling, a temperature in its well, a pressure at its
    /// own fitting.
    fn gauged(&self) -> Option<usize> {
        let at_the_car = |says: &Statement| match says {
            Statement::Reading(reading) => {
                matches!(reading.place, Place::Car | Place::CarLow)
                    && !matches!(reading.measured, Measured::Volume | Measured::Rate)
            }
            _ => false,
        };
        let slots = &self.ledger.slots;
        let names = slots.names_under(under::READINGS).chain(slots.names_under(under::SERIES));
        names.filter_map(|slot| self.last(slot, at_the_car)).max()
    }

    /// Returns the entry with which unloading began: the first line that was put on, or the first closure or valve
    /// of a line that was opened after it had been recorded closed.
    pub fn began(&self) -> Option<usize> {
        let mut began: Option<usize> = None;
        let mut first = |place: usize| began = Some(began.map_or(place, |known| known.min(place)));
        for fitting in Fitting::LINES {
            let slots = FittingSlots::of(fitting);
            let connected = |says: &Statement| matches!(says, Statement::Line { connected: true, .. });
            let lines = self.ledger.slots.stood(&slots.line);
            lines
                .filter(|item| item.claim.is_some_and(connected))
                .map(|item| place_of(self.ledger, item))
                .for_each(&mut first);
            let is_open = |says: &Statement| {
                matches!(
                    says,
                    Statement::Closure { state: ClosureState::Open, .. }
                        | Statement::Valve { position: ValvePosition::Open, .. }
                )
            };
            for slot in [&slots.closure, &slots.valve] {
                let mut was_closed = false;
                for item in self.ledger.slots.stood(slot) {
                    let Some(claim) = item.claim else { continue };
                    if is_open(claim) && was_closed {
                        first(place_of(self.ledger, item));
                        break;
                    }
                    was_closed |= !is_open(claim);
                }
            }
        }
        began
    }
}
