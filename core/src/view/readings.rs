//! Readings: the ones with one truth, and the series, each with what was corrected and why.

use std::collections::BTreeMap;

use serde::Serialize;

use super::fold_context::{Attested, Attribution, FoldContext};
use super::reading_uncertainty::{self, ReadingUncertainty};
use super::slots::{Fate, Item};
use super::story;
use crate::entry::vocabulary::{Measured, Place, Purpose};
use crate::entry::{Reading, Statement, under};
use crate::units::Amount;

/// One reading as entered.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Point {
    /// What the instrument said, as typed.
    pub amount: Amount,
    /// The instrument's name; empty when it was not said.
    pub instrument: String,
    /// Its ±.
    pub worth: ReadingUncertainty,
    /// Who read it.
    pub said: Attribution,
    /// What became of it.
    pub fate: Fate,
    /// Why it no longer stands, in the words of whoever corrected it.
    pub why_gone: String,
}

/// A reading with one truth.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct ReadingView {
    /// Its slot.
    pub slot: String,
    /// "Final pressure at the car".
    pub title: String,
    /// What it measures.
    pub measured: Measured,
    /// Where.
    pub place: Place,
    /// What for.
    pub purpose: Purpose,
    /// What stands.
    pub current: Option<Attested<Reading>>,
    /// Everything ever entered, in order, with what became of it.
    pub history: Vec<Point>,
}

/// A series of readings.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct SeriesView {
    /// Its slot.
    pub slot: String,
    /// "Transfer pressure at the car".
    pub title: String,
    /// What it measures.
    pub measured: Measured,
    /// Where.
    pub place: Place,
    /// What for.
    pub purpose: Purpose,
    /// The points that stand, by corrected time.
    pub points: Vec<Point>,
    /// The points that were corrected or withdrawn.
    pub struck: Vec<Point>,
}

/// Readings and series, in the order of the job.
pub(super) fn fold(ledger: &FoldContext<'_>) -> (Vec<ReadingView>, Vec<SeriesView>) {
    let mut readings: BTreeMap<(Purpose, Measured, Place), ReadingView> = BTreeMap::new();
    let mut series: BTreeMap<(Purpose, Measured, Place), SeriesView> = BTreeMap::new();
    let names = ledger.slots.names_under(under::READINGS).chain(ledger.slots.names_under(under::SERIES));
    for slot in names {
        let Some(sample) = ledger.slots.all(slot).find_map(|item| match &item.entry.body.says {
            Statement::Reading(reading) => Some(reading),
            _ => None,
        }) else {
            continue;
        };
        let key = (sample.purpose, sample.measured, sample.place);
        let mut read: Vec<_> = ledger
            .slots
            .all(slot)
            .filter_map(|item| match &item.entry.body.says {
                Statement::Reading(reading) => Some((item, reading)),
                _ => None,
            })
            .collect();
        let (measured, place, purpose) = (sample.measured, sample.place, sample.purpose);
        let (slot, title) = (slot.to_owned(), story::reading_title(sample));
        if purpose.has_one_truth() {
            let current = ledger.known(&slot, |says| match says {
                Statement::Reading(reading) => Some(reading.clone()),
                _ => None,
            });
            let history = points(ledger, &read);
            readings.insert(key, ReadingView { slot, title, measured, place, purpose, current, history });
        } else {
            read.sort_by_key(|(item, _)| (item.at, item.place));
            let (standing, struck): (Vec<_>, Vec<_>) =
                read.into_iter().partition(|(item, _)| matches!(item.fate, Fate::Live | Fate::MovedOn));
            let (points, struck) = (points(ledger, &standing), points(ledger, &struck));
            series.insert(key, SeriesView { slot, title, measured, place, purpose, points, struck });
        }
    }
    (readings.into_values().collect(), series.into_values().collect())
}

fn points<'a>(ledger: &FoldContext<'a>, read: &[(&Item<'a>, &Reading)]) -> Vec<Point> {
    read.iter()
        .map(|(item, reading)| Point {
            amount: reading.amount.clone(),
            instrument: reading.instrument.trim().to_owned(),
            worth: reading_uncertainty::of(reading, ledger),
            said: ledger.said(item),
            fate: item.fate,
            why_gone: ledger.why_gone(item),
        })
        .collect()
}
