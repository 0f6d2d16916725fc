//! What is known about a car from its own document: capacity, outage table, test dates, past efforts, threads
//! and defects. The document follows the car to its next visit at any site.
//!
//! The fold of a visit calls this module and adds what the visit itself states; it is also used alone, for a
//! car.

use chrono::{Datelike, NaiveDate};
use serde::Serialize;

use super::carried::{self, CarriedView};
use super::context::{Context, Recorded};
use super::defects::{self, DefectView};
use super::fold_context::{Attested, Attribution, FoldContext};
use crate::clock::UtcMillis;
use crate::entry::vocabulary::{CarEnd, Fitting, GaugingKind, Insulation, Part, TestDate};
use crate::entry::{Slot, Statement, fitting_set};
use crate::ids::{Subject, VisitId};
use crate::units::bounds::table_can_be;
use crate::units::{Amount, Finding, Severity};

/// The owner's outage table.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct OutageTableView {
    /// The owner's name for the table.
    pub name: String,
    /// The rows: outage in inches and volume in gallons.
    pub rows: Vec<(f64, f64)>,
    /// Whether the volumes are of liquid; otherwise they are of the empty space.
    pub liquid: bool,
}

/// A test date marked on the car.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct TestDateView {
    /// The test.
    pub test: TestDate,
    /// The due date as read.
    pub due: String,
    /// Whether the due date has passed; `None` if it cannot be read.
    pub overdue: Option<bool>,
    /// The entry's attribution.
    pub said: Attribution,
}

/// An effort or a thread count at a fitting, over the life of the car.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct WearPoint {
    /// The fitting.
    pub fitting: Fitting,
    /// The part of the fitting.
    pub part: Part,
    /// The torque or the number of threads.
    pub amount: Amount,
    /// The visit during which it was recorded.
    pub visit: Option<VisitId>,
    /// The corrected time.
    pub at: UtcMillis,
    /// The entry's attribution.
    pub said: Attribution,
}

/// What is known about a car.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct CarView {
    /// The shell capacity.
    pub capacity: Option<Attested<Amount>>,
    /// The insulation of the tank.
    pub insulation: Option<Attested<Insulation>>,
    /// The inside diameter.
    pub diameter: Option<Attested<Amount>>,
    /// The owner's outage table.
    pub outage_table: Option<Attested<OutageTableView>>,
    /// The valves and openings under the housing.
    pub fittings: Option<Attested<Vec<Fitting>>>,
    /// The kind of the gauging device.
    pub gauging: Option<Attested<GaugingKind>>,
    /// The end of the car on which the vapor valve is.
    pub vapour_end: Option<Attested<CarEnd>>,
    /// Test dates.
    pub test_dates: Vec<TestDateView>,
    /// The closing efforts over all visits, in order of time.
    pub efforts: Vec<WearPoint>,
    /// The thread counts over all visits, in order of time.
    pub threads: Vec<WearPoint>,
    /// The defects over all visits, in order of time.
    pub defects: Vec<DefectView>,
    /// The notes for the next visit, and the conditions that are not in order.
    pub carried: Vec<CarriedView>,
}

impl CarView {
    /// Folds a car's document by itself.
    pub fn fold(entries: &[Recorded<'_>], ctx: &Context<'_>) -> CarView {
        CarView::of(&FoldContext::of_car(entries, ctx))
    }

    /// Gives the present visit's statements about the car precedence over earlier ones and points out
    /// differences. Within the car's document, entries of two visits do not follow each other.
    pub(super) fn with_this_visits_word(
        mut self,
        visit: &FoldContext<'_>,
        findings: &mut Vec<Finding>,
    ) -> CarView {
        let own = CarView::of(visit);
        let differs = match (&own.capacity, &self.capacity) {
            (Some(own), Some(all)) => all.disputed && !own.disputed,
            _ => false,
        };
        if differs {
            let message = crate::Message::new("finding-capacity-differs");
            findings.push(Finding::new("capacity_differs", Severity::Check, message));
        }
        self.capacity = own.capacity.or(self.capacity);
        self.insulation = own.insulation.or(self.insulation);
        self.diameter = own.diameter.or(self.diameter);
        self.outage_table = own.outage_table.or(self.outage_table);
        self.fittings = own.fittings.or(self.fittings);
        self.gauging = own.gauging.or(self.gauging);
        self.vapour_end = own.vapour_end.or(self.vapour_end);
        self
    }

    pub(super) fn of(ledger: &FoldContext<'_>) -> CarView {
        let amount = |slot: &str| {
            ledger.known(slot, |says| match says {
                Statement::CarCapacity { capacity, .. } => Some(capacity.clone()),
                Statement::CarDiameter { diameter } => Some(diameter.clone()),
                _ => None,
            })
        };
        CarView {
            capacity: amount(&Slot::CAR_CAPACITY),
            insulation: ledger.known(&Slot::CAR_CAPACITY, |says| match says {
                Statement::CarCapacity { insulation, .. } => *insulation,
                _ => None,
            }),
            diameter: amount(&Slot::CAR_DIAMETER),
            outage_table: ledger.known(&Slot::OUTAGE_TABLE, |says| match says {
                Statement::OutageTable { name, rows, liquid } => table_can_be(rows)
                    .then(|| OutageTableView { name: name.clone(), rows: rows.clone(), liquid: *liquid }),
                _ => None,
            }),
            fittings: ledger.known(&Slot::CAR_FITTINGS, |says| match says {
                Statement::CarFittings { fittings, .. } => Some(fitting_set(fittings)),
                _ => None,
            }),
            gauging: ledger.known(&Slot::CAR_FITTINGS, |says| match says {
                Statement::CarFittings { gauging, .. } => *gauging,
                _ => None,
            }),
            vapour_end: ledger.known(&Slot::CAR_FITTINGS, |says| match says {
                Statement::CarFittings { vapour_end, .. } => *vapour_end,
                _ => None,
            }),
            test_dates: test_dates(ledger),
            efforts: wear_points(ledger, |says| match says {
                Statement::Effort { fitting, part, amount } => Some((*fitting, *part, amount.clone())),
                _ => None,
            }),
            threads: wear_points(ledger, |says| match says {
                Statement::Threads { fitting, engaged } => Some((*fitting, Part::Closure, engaged.clone())),
                _ => None,
            }),
            defects: defects::fold(ledger),
            carried: carried::fold(ledger),
        }
    }
}

fn test_dates(ledger: &FoldContext<'_>) -> Vec<TestDateView> {
    TestDate::ALL
        .iter()
        .filter_map(|test| {
            let known = ledger.known(&Slot::car_test(*test), |says| match says {
                Statement::CarTestDate { due, .. } => Some(due.trim().to_owned()),
                _ => None,
            })?;
            let overdue = last_day(&known.value)
                .zip(ledger.ctx.now.to_datetime())
                .map(|(due, now)| now.with_timezone(&ledger.zone).date_naive() > due);
            Some(TestDateView { test: *test, due: known.value, overdue, said: known.said })
        })
        .collect()
}

/// Returns the last day covered by a date of the form `YYYY`, `YYYY-MM` or `YYYY-MM-DD`.
pub(super) fn last_day(text: &str) -> Option<NaiveDate> {
    let mut parts = text.trim().split('-');
    let year: i32 = parts.next().filter(|y| y.len() == 4)?.parse().ok()?;
    let month: Option<u32> = parts.next().map(str::parse).transpose().ok()?;
    let day: Option<u32> = parts.next().map(str::parse).transpose().ok()?;
    if parts.next().is_some() {
        return None;
    }
    match (month, day) {
        (None, _) => NaiveDate::from_ymd_opt(year, 12, 31),
        (Some(month), Some(day)) => NaiveDate::from_ymd_opt(year, month, day),
        (Some(month), None) => {
            let first = NaiveDate::from_ymd_opt(year, month, 1)?;
            let next = first.checked_add_months(chrono::Months::new(1))?;
            next.pred_opt().filter(|last| last.month() == month)
        }
    }
}

fn wear_points(
    ledger: &FoldContext<'_>,
    read: impl Fn(&Statement) -> Option<(Fitting, Part, Amount)>,
) -> Vec<WearPoint> {
    use super::slots::Fate;
    let mut points: Vec<(usize, WearPoint)> = ledger
        .slots
        .items()
        .iter()
        .filter(|item| matches!(item.fate, Fate::Live | Fate::MovedOn))
        .filter_map(|item| {
            let (fitting, part, amount) = read(&item.entry.body.says)?;
            let visit = match item.entry.body.about {
                Subject::Visit(visit) => Some(visit),
                _ => None,
            };
            let said = ledger.said(item);
            Some((item.place, WearPoint { fitting, part, amount, visit, at: item.at, said }))
        })
        .collect();
    points.sort_by_key(|(place, point)| (point.at, *place));
    points.into_iter().map(|(_, point)| point).collect()
}
