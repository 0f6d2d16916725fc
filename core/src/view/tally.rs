//! The count of objects that were taken out and must be put back, and of what went into trucks.

use serde::Serialize;

use super::fold_context::{Attested, Attribution, FoldContext};
use super::order::by_place;
use crate::Message;
use crate::calc::empty_proof::{Outcome, Weighed};
use crate::entry::vocabulary::{EmptySign, Fitting};
use crate::entry::{Slot, Statement, under};
use crate::units::{Amount, Finding, Severity, Unit};

/// An object that was taken out.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct ItemView {
    /// The object's name.
    pub item: String,
    /// The fitting whose closure it replaces.
    pub fitting: Option<Fitting>,
    /// The attribution of the entry that took it out.
    pub out: Option<Attribution>,
    /// The attribution of the entry that put it back; `None` while it is out.
    pub back: Option<Attribution>,
}

/// All objects that were taken out.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct TallyView {
    /// The objects that are out, in the order in which they were taken out.
    pub out: Vec<ItemView>,
    /// The objects that were taken out and put back.
    pub back: Vec<ItemView>,
    /// The objects that were put back without having been taken out, because of a mistyped name or an entry
    /// that is not here.
    pub unknown: Vec<ItemView>,
}

/// A truck loaded from this car.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct TruckView {
    /// The truck.
    pub truck: String,
    /// The amount loaded.
    pub amount: Amount,
    /// The entry's attribution.
    pub said: Attribution,
}

/// The trucks and the sum of their loads.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct TrucksView {
    /// The loads in order.
    pub loads: Vec<TruckView>,
    /// The sum in gallons, if every load is a readable volume.
    pub total_gal: Option<f64>,
}

/// The evidence of whether the liquid is out, and a person's decision.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct EmptyView {
    /// The signs, and whether each was seen.
    pub signs: Vec<EmptySignView>,
    /// The decision.
    pub decision: Option<Attested<EmptyDecisionView>>,
    /// The evidence, weighed piece by piece. It is the result of a model and never a decision.
    pub weighed: Option<Weighed>,
    /// The reason why the evidence could not be weighed.
    pub not_weighed: Option<Message>,
}

impl EmptyView {
    /// Stores the result of weighing, and adds a finding if the decision contradicts it.
    pub(super) fn weigh(&mut self, weighed: Option<Result<Weighed, Message>>, findings: &mut Vec<Finding>) {
        match weighed {
            Some(Ok(weighed)) => {
                let accepted = self.decision.as_ref().is_some_and(|decision| decision.value.accepted);
                if accepted && weighed.outcome == Outcome::LiquidIndicated {
                    findings.push(Finding::new(
                        "empty_against_evidence",
                        Severity::Alarm,
                        Message::new("finding-empty-against-evidence"),
                    ));
                }
                self.weighed = Some(weighed);
            }
            Some(Err(why)) => self.not_weighed = Some(why),
            None => {}
        }
    }
}

/// A sign for or against remaining liquid.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct EmptySignView {
    /// The sign.
    pub sign: EmptySign,
    /// Whether it was seen.
    pub seen: Attested<bool>,
    /// Whether it indicates remaining liquid.
    pub speaks_for_liquid: bool,
}

/// A decision whether the car is empty.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct EmptyDecisionView {
    /// Whether the car was taken as empty of liquid.
    pub accepted: bool,
    /// The grounds for the decision.
    pub grounds: String,
}

/// Folds the objects. An object is out unless every live entry states that it is back.
pub(super) fn fold(ledger: &FoldContext<'_>) -> TallyView {
    let mut tally = TallyView::default();
    let mut out: Vec<(usize, ItemView)> = Vec::new();
    for slot in ledger.slots.names_under(under::ITEMS) {
        let went = ledger
            .slots
            .stood(slot)
            .filter_map(|item| match item.claim {
                Some(Statement::ItemOut { item: name, fitting }) => Some((item, name, *fitting)),
                _ => None,
            })
            .next_back();
        let returned = ledger
            .slots
            .live(slot)
            .filter_map(|item| match item.claim {
                Some(Statement::ItemIn { item: name }) => Some((item, name)),
                _ => None,
            })
            .next_back();
        let is_back = ledger.all_claim(slot, |says| matches!(says, Statement::ItemIn { .. }));
        match (went, returned) {
            (Some((item, name, fitting)), returned) => {
                let view = ItemView {
                    item: name.trim().to_owned(),
                    fitting,
                    out: Some(ledger.said(item)),
                    back: returned.filter(|_| is_back).map(|(item, _)| ledger.said(item)),
                };
                if is_back { tally.back.push(view) } else { out.push((item.place, view)) }
            }
            (None, Some((item, name))) => tally.unknown.push(ItemView {
                item: name.trim().to_owned(),
                fitting: None,
                out: None,
                back: Some(ledger.said(item)),
            }),
            (None, None) => {}
        }
    }
    tally.out = by_place(out);
    tally
}

pub(super) fn trucks(ledger: &FoldContext<'_>) -> TrucksView {
    let loads: Vec<TruckView> = ledger
        .slots
        .stood(&Slot::TRUCK_LOADS)
        .filter_map(|item| match item.claim {
            Some(Statement::TruckLoad(load)) => {
                let (truck, amount) = (load.truck.trim().to_owned(), load.amount.clone());
                Some(TruckView { truck, amount, said: ledger.said(item) })
            }
            _ => None,
        })
        .collect();
    let gallons: Option<f64> = loads.iter().map(|load| load.amount.value_in(Unit::Gallon)).sum();
    TrucksView { total_gal: gallons.filter(|_| !loads.is_empty()), loads }
}

pub(super) fn empty(ledger: &FoldContext<'_>) -> EmptyView {
    let signs = EmptySign::ALL
        .iter()
        .filter_map(|sign| {
            let seen = ledger.known(&Slot::empty_sign(*sign), |says| match says {
                Statement::EmptySign { seen, .. } => Some(*seen),
                _ => None,
            })?;
            let speaks_for_liquid = speaks_for_liquid(*sign, seen.value);
            Some(EmptySignView { sign: *sign, seen, speaks_for_liquid })
        })
        .collect();
    let decision = ledger.known(&Slot::EMPTY_DECISION, |says| match says {
        Statement::EmptyDecision { accepted, grounds } => {
            Some(EmptyDecisionView { accepted: *accepted, grounds: grounds.trim().to_owned() })
        }
        _ => None,
    });
    EmptyView { signs, decision, weighed: None, not_weighed: None }
}

/// Returns true if a sign, seen or looked for and not seen, indicates remaining liquid.
pub(super) fn speaks_for_liquid(sign: EmptySign, seen: bool) -> bool {
    match sign {
        EmptySign::LiquidAtClosure | EmptySign::FrostRing => seen,
        EmptySign::RodAtBottom | EmptySign::VapourAtLiquidValve => !seen,
    }
}
