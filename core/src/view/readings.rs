//! Readings: those with a single true value, and the series, each with its corrections and their reasons.

use std::collections::BTreeMap;

use serde::Serialize;

use super::fold_context::{Attested, Attribution, FoldContext};
use super::reading_uncertainty::{self, ReadingUncertainty};
use super::slots::{Fate, Item};
use super::story;
use crate::Message;
use crate::entry::vocabulary::{Measured, Place, Purpose};
use crate::entry::{Reading, Statement, under};
use crate::units::Amount;

/// One reading as entered.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Point {
    /// The value that the instrument showed, as typed.
    pub amount: Amount,
    /// The name of the instrument; empty if it was not stated.
    pub instrument: String,
    /// The reading's uncertainty.
    pub worth: ReadingUncertainty,
    /// The entry's attribution.
    pub said: Attribution,
    /// The fate of the entry.
    pub fate: Fate,
    /// The reason for the correction, in the words of the person who made it.
    pub why_gone: Message,
}

/// A reading with a single true value.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct ReadingView {
    /// Its slot.
    pub slot: String,
    /// The title, such as "Final pressure at the car".
    pub title: Message,
    /// The measured quantity.
    pub measured: Measured,
    /// The place.
    pub place: Place,
    /// The purpose.
    pub purpose: Purpose,
    /// The standing value.
    pub current: Option<Attested<Reading>>,
    /// All entries ever made in the slot, in order, each with its fate.
    pub history: Vec<Point>,
}

/// A series of readings.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct SeriesView {
    /// Its slot.
    pub slot: String,
    /// The title, such as "Transfer pressure at the car".
    pub title: Message,
    /// The measured quantity.
    pub measured: Measured,
    /// The place.
    pub place: Place,
    /// The purpose.
    pub purpose: Purpose,
    /// The standing points, by the corrected time at which they were read.
    pub points: Vec<Point>,
    /// The points that were corrected or withdrawn.
    pub struck: Vec<Point>,
}

/// Returns readings and series in the order of the job.
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
        let (slot, title) = (slot.to_owned(), story::reading_title(purpose, measured, place));
        if purpose.has_one_truth() {
            let current = ledger.known(&slot, |says| match says {
                Statement::Reading(reading) => Some(reading.clone()),
                _ => None,
            });
            let history = points(ledger, &read);
            readings.insert(key, ReadingView { slot, title, measured, place, purpose, current, history });
        } else {
            read.sort_by_key(|(item, _)| (item.done_at, item.place));
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
            why_gone: Message::typed(ledger.why_gone(item)),
        })
        .collect()
}
