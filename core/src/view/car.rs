//! What is known of a car, from its own document: capacity, outage table, test dates, past efforts,
//! threads and defects. It follows the car to its next visit, at any site.
//!
//! Called by the fold of a visit (which adds what the visit itself says) and alone, for a car.

use chrono::{Datelike, NaiveDate};
use serde::Serialize;

use super::context::{Context, Recorded};
use super::defects::{self, DefectView};
use super::fold_context::{Attested, Attribution, FoldContext};
use crate::clock::UtcMillis;
use crate::entry::vocabulary::{Fitting, Part, TestDate};
use crate::entry::{Slot, Statement, fitting_set};
use crate::ids::{Subject, VisitId};
use crate::units::bounds::table_can_be;
use crate::units::{Amount, Finding, Severity};

/// The owner's outage table.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct OutageTableView {
    /// Owner's name for it.
    pub name: String,
    /// Rows of outage in inches and volume in gallons.
    pub rows: Vec<(f64, f64)>,
    /// Whether the volumes are of liquid; otherwise of the empty space.
    pub liquid: bool,
}

/// A test date marked on the car.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct TestDateView {
    /// Which test.
    pub test: TestDate,
    /// When it is due, as read.
    pub due: String,
    /// Whether that is past; nothing when the date cannot be read.
    pub overdue: Option<bool>,
    /// Who read it.
    pub said: Attribution,
}

/// An effort or a thread count at a fitting.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct WearPoint {
    /// At which fitting.
    pub fitting: Fitting,
    /// Of which part.
    pub part: Part,
    /// How much.
    pub amount: Amount,
    /// During which visit.
    pub visit: Option<VisitId>,
    /// Corrected time.
    pub at: UtcMillis,
    /// Who measured it.
    pub said: Attribution,
}

/// What is known of a car.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct CarView {
    /// Shell capacity.
    pub capacity: Option<Attested<Amount>>,
    /// Inside diameter.
    pub diameter: Option<Attested<Amount>>,
    /// The owner's outage table.
    pub outage_table: Option<Attested<OutageTableView>>,
    /// The valves and openings under its housing.
    pub fittings: Option<Attested<Vec<Fitting>>>,
    /// Test dates.
    pub test_dates: Vec<TestDateView>,
    /// Closing efforts over all visits, by time.
    pub efforts: Vec<WearPoint>,
    /// Thread counts over all visits, by time.
    pub threads: Vec<WearPoint>,
    /// Defects over all visits, by time.
    pub defects: Vec<DefectView>,
}

impl CarView {
    /// Folds a car's document alone.
    pub fn fold(entries: &[Recorded<'_>], ctx: &Context<'_>) -> CarView {
        CarView::of(&FoldContext::of_car(entries, ctx))
    }

    /// What this visit says of the car comes before what earlier ones said; where they differ, that is
    /// pointed out. Within the car's document two visits know nothing of each other.
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
            let message =
                "The shell capacity differs from what an earlier visit recorded: read the stencil again.";
            findings.push(Finding::new("capacity_differs", Severity::Check, message));
        }
        self.capacity = own.capacity.or(self.capacity);
        self.diameter = own.diameter.or(self.diameter);
        self.outage_table = own.outage_table.or(self.outage_table);
        self.fittings = own.fittings.or(self.fittings);
        self
    }

    pub(super) fn of(ledger: &FoldContext<'_>) -> CarView {
        let amount = |slot: &str| {
            ledger.known(slot, |says| match says {
                Statement::CarCapacity { capacity } => Some(capacity.clone()),
                Statement::CarDiameter { diameter } => Some(diameter.clone()),
                _ => None,
            })
        };
        CarView {
            capacity: amount(&Slot::CAR_CAPACITY),
            diameter: amount(&Slot::CAR_DIAMETER),
            outage_table: ledger.known(&Slot::OUTAGE_TABLE, |says| match says {
                Statement::OutageTable { name, rows, liquid } => table_can_be(rows)
                    .then(|| OutageTableView { name: name.clone(), rows: rows.clone(), liquid: *liquid }),
                _ => None,
            }),
            fittings: ledger.known(&Slot::CAR_FITTINGS, |says| match says {
                Statement::CarFittings { fittings } => Some(fitting_set(fittings)),
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

/// The last day covered by `YYYY`, `YYYY-MM` or `YYYY-MM-DD`.
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
