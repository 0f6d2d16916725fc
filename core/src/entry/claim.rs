//! What an entry claims, reduced to a key that can be compared in one step.
//!
//! This module decides which parts of a statement can cause a disagreement: amounts count by value and not by
//! how they were typed, lists count as sets, and notes do not count. [`Claims`] finds in one pass whether any
//! two of many claims differ. Comparing all pairs, or lists element by element, would let 5 kB of entries
//! occupy a fold for most of a minute. Which entries stand is decided in `view::slots`.

use std::collections::BTreeSet;

use super::statement::Statement;
use super::visit_facts::Paper;
use super::vocabulary::Fitting;
use crate::ids::Digest;
use crate::units::{Amount, agree};

/// The claim of a statement. Two statements of one slot claim the same if their keys agree.
#[derive(Clone, Debug)]
pub struct ClaimKey {
    /// The kind and content in a canonical form without the number, or the digest of a long form.
    pub words: Vec<u8>,
    /// The number in SI units, if the claim is a number. Numbers agree within rounding.
    pub number: Option<f64>,
}

impl ClaimKey {
    /// Returns true if both keys stand for the same claim.
    pub fn agrees_with(&self, other: &ClaimKey) -> bool {
        self.words == other.words
            && match (self.number, other.number) {
                (Some(a), Some(b)) => agree(a, b),
                (None, None) => true,
                _ => false,
            }
    }

    fn of(kind: &str, parts: &[&[u8]]) -> ClaimKey {
        let mut words = kind.as_bytes().to_vec();
        for part in parts {
            // The length in front prevents one part from being read as the beginning of the next.
            words.extend_from_slice(&(part.len() as u64).to_be_bytes());
            words.extend_from_slice(part);
        }
        // A long form is hashed, so that a comparison costs no more than for a short one.
        if words.len() > 64 {
            words = Digest::of(&words).0.to_vec();
        }
        ClaimKey { words, number: None }
    }

    fn of_amount(kind: &str, amount: &Amount) -> ClaimKey {
        match amount.si() {
            Some(number) => {
                let dimension = amount.dimension().word().as_bytes();
                ClaimKey { number: Some(number), ..ClaimKey::of(kind, &[dimension]) }
            }
            // Amounts without a readable number are equal if they were typed alike.
            None => ClaimKey::of(kind, &[amount.unit.symbol().as_bytes(), amount.text.trim().as_bytes()]),
        }
    }
}

/// Returns the fittings of a list without duplicates, in their given order.
pub fn fitting_set(fittings: &[Fitting]) -> Vec<Fitting> {
    let mut there = BTreeSet::new();
    fittings.iter().copied().filter(|fitting| there.insert(*fitting)).collect()
}

impl Statement {
    /// Returns the claim's key, or `None` for an unknown kind of statement, which never equals another claim.
    pub fn claim_key(&self) -> Option<ClaimKey> {
        let flag = |kind: &str, value: bool| ClaimKey::of(kind, &[&[u8::from(value)]]);
        Some(match self {
            Statement::Unrecognised { .. } => return None,
            Statement::Reading(reading) => ClaimKey::of_amount("reading", &reading.amount),
            Statement::Threads { engaged, .. } => ClaimKey::of_amount("threads", engaged),
            Statement::CarCapacity { capacity, .. } => ClaimKey::of_amount("car_capacity", capacity),
            Statement::CarDiameter { diameter } => ClaimKey::of_amount("car_diameter", diameter),
            Statement::Step { outcome, .. } => ClaimKey::of("step", &[outcome.word().as_bytes()]),
            Statement::Check { right, .. } => flag("check", *right),
            Statement::EmptyDecision { accepted, .. } => flag("empty_decision", *accepted),
            Statement::Line { connected, .. } => flag("line", *connected),
            Statement::LeakChecked(checked) => flag("leak_checked", checked.tight),
            Statement::IncidentClosed { .. } => ClaimKey::of("incident_closed", &[]),
            Statement::Outcome(outcome) => {
                ClaimKey::of("outcome", &[outcome.load.word().as_bytes(), outcome.because.text().as_bytes()])
            }
            Statement::HoldLifted { .. } => ClaimKey::of("hold_lifted", &[]),
            Statement::ItemOut { .. } => ClaimKey::of("item_out", &[]),
            Statement::ItemIn { .. } => ClaimKey::of("item_in", &[]),
            Statement::FitToUnload {} => ClaimKey::of("fit_to_unload", &[]),
            Statement::LastRound { fittings, .. } => {
                let set: BTreeSet<&Fitting> = fittings.iter().collect();
                let words: Vec<&[u8]> = set.into_iter().map(|fitting| fitting.word().as_bytes()).collect();
                ClaimKey::of("last_round", &words)
            }
            Statement::PassedOver { .. } => ClaimKey::of("passed_over", &[]),
            Statement::Resolved { .. } => ClaimKey::of("resolved", &[]),
            Statement::NextTimeDone(_) => ClaimKey::of("next_time_done", &[]),
            Statement::CarNumberAgain { car } => ClaimKey::of("car_number_again", &[car.normal().as_bytes()]),
            Statement::CarFittings { fittings, .. } => {
                let set: BTreeSet<&Fitting> = fittings.iter().collect();
                let words: Vec<&[u8]> = set.into_iter().map(|fitting| fitting.word().as_bytes()).collect();
                ClaimKey::of("car_fittings", &words)
            }
            Statement::Opened(opened) => ClaimKey::of(
                "opened",
                &[opened.car.normal().as_bytes(), &opened.site.0, opened.receiver.word().as_bytes()],
            ),
            Statement::Seal(seal) => ClaimKey::of(
                "seal",
                &[
                    seal.event.word().as_bytes(),
                    &[u8::from(seal.intact)],
                    seal.number.trim().to_ascii_lowercase().as_bytes(),
                ],
            ),
            // Whether a paper was typed or compared with the office's makes no other claim.
            Statement::Paper(paper) => {
                let alone = Statement::Paper(Paper { compared: None, ..paper.clone() });
                ClaimKey::of("whole", &[&super::cbor::encode(&alone).ok()?])
            }
            // All content of these kinds is part of the claim. It was read from CBOR, so it can be written as
            // CBOR.
            says => match super::cbor::encode(says) {
                Ok(bytes) => ClaimKey::of("whole", &[&bytes]),
                Err(_) => return None,
            },
        })
    }

    /// Returns true if two statements of one slot claim the same: amounts are compared by value and not by
    /// how they were typed, and neither notes nor the instrument used cause a disagreement.
    pub fn same_claim(&self, other: &Statement) -> bool {
        match (self.claim_key(), other.claim_key()) {
            (Some(a), Some(b)) => a.agrees_with(&b),
            _ => false,
        }
    }
}

/// A collection of claims that tells whether any two of them differ.
///
/// Agreement within rounding is not transitive: a may agree with b and b with c while a and c differ. The
/// collection therefore compares the least and the greatest number, which differ if any two do, in whatever
/// order they arrive.
#[derive(Debug, Default)]
pub struct Claims {
    taken: usize,
    first: Option<ClaimKey>,
    least: f64,
    greatest: f64,
    differ: bool,
}

impl Claims {
    /// Adds a claim; `None` stands for a claim that cannot be read here.
    pub fn take(&mut self, claim: Option<&Statement>) {
        if self.differ {
            self.taken += 1;
        } else {
            self.take_key(claim.and_then(Statement::claim_key).as_ref());
        }
    }

    /// Adds a claim by its key, for callers that compare the same claims in several groups.
    pub fn take_key(&mut self, key: Option<&ClaimKey>) {
        self.taken += 1;
        match (&self.first, key) {
            (_, None) => self.differ = true,
            (None, Some(key)) => {
                (self.least, self.greatest) = (key.number.unwrap_or(0.0), key.number.unwrap_or(0.0));
                self.first = Some(key.clone());
            }
            (Some(first), Some(key)) => {
                self.differ |= first.words != key.words || first.number.is_some() != key.number.is_some();
                if let Some(number) = key.number {
                    (self.least, self.greatest) = (self.least.min(number), self.greatest.max(number));
                    self.differ |= !agree(self.least, self.greatest);
                }
            }
        }
    }

    /// Returns true if any two of the claims differ.
    pub fn differ(&self) -> bool {
        self.taken > 1 && self.differ
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use crate::units::Unit;
    use proptest::prelude::*;

    fn capacity(value: f64) -> Statement {
        Statement::CarCapacity { capacity: Amount::of(value, Unit::Gallon), insulation: None }
    }

    fn any_two_differ(claims: &[Statement]) -> bool {
        let mut taken = Claims::default();
        claims.iter().for_each(|claim| taken.take(Some(claim)));
        taken.differ()
    }

    #[test]
    fn agreeing_within_rounding_is_not_handed_on() {
        let step = 1.0 + 0.6e-9;
        let (a, b, c) = (capacity(1000.0), capacity(1000.0 * step), capacity(1000.0 * step * step));
        assert!(a.same_claim(&b) && b.same_claim(&c) && !a.same_claim(&c));
        for order in [[&a, &b, &c], [&b, &a, &c], [&c, &b, &a], [&b, &c, &a]] {
            assert!(any_two_differ(&order.map(Clone::clone)), "the order does not matter");
        }
        assert!(!any_two_differ(&[a.clone(), b.clone()]) && !any_two_differ(&[b, c]));
    }

    #[test]
    fn a_list_of_fittings_is_a_set() {
        let (a, b) = (Fitting::LiquidA, Fitting::Vapour);
        let list = |fittings: &[Fitting]| Statement::CarFittings {
            fittings: fittings.to_vec(),
            gauging: None,
            vapour_end: None,
        };
        assert!(list(&[a, b]).same_claim(&list(&[b, a, a, b])));
        assert!(!list(&[a]).same_claim(&list(&[a, b])));
        assert_eq!(fitting_set(&[b, a, b]), [b, a]);
    }

    #[test]
    fn a_table_with_a_row_that_is_no_number_says_the_same_as_itself() {
        let table = Statement::OutageTable { name: String::new(), rows: vec![(0.0, f64::NAN)], liquid: true };
        assert!(table.same_claim(&table.clone()));
    }

    #[test]
    fn a_claim_that_cannot_be_read_differs_from_any_other_but_stands_alone() {
        let mut claims = Claims::default();
        claims.take(None);
        assert!(!claims.differ());
        claims.take(Some(&capacity(1.0)));
        assert!(claims.differ());
    }

    proptest! {
        #[test]
        fn one_pass_says_what_comparing_every_pair_says(
            numbers in prop::collection::vec(prop_oneof![
                prop::sample::select(vec![0.0, 1.0, 33_700.0, -5.0]),
                Just(33_700.0 * (1.0 + 5e-10)),
                0.0..40_000.0_f64,
            ], 0..6),
        ) {
            let claims: Vec<Statement> = numbers.into_iter().map(capacity).collect();
            let pairwise = claims.iter().enumerate()
                .any(|(n, a)| claims[n + 1..].iter().any(|b| !a.same_claim(b)));
            prop_assert_eq!(any_two_differ(&claims), pairwise);
        }
    }
}
