//! The tally: things taken out that must come back, and what went into trucks.

use serde::Serialize;

use super::fold_context::{Attested, Attribution, FoldContext};
use crate::calc::empty_proof::{Outcome, Weighed};
use crate::entry::vocabulary::{EmptySign, Fitting};
use crate::entry::{Slot, Statement, under};
use crate::units::{Amount, Finding, Severity, Unit};

/// A thing that is out.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct ItemView {
    /// What it is called.
    pub item: String,
    /// The closure it stands in for.
    pub fitting: Option<Fitting>,
    /// Who took it out.
    pub out: Option<Attribution>,
    /// Who brought it back; nothing while it is out.
    pub back: Option<Attribution>,
}

/// The tally.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct TallyView {
    /// What is out, in the order in which it went out.
    pub out: Vec<ItemView>,
    /// What went out and came back.
    pub back: Vec<ItemView>,
    /// What came back without having gone out: a name mistyped, or an entry that is not here.
    pub unknown: Vec<ItemView>,
}

/// A truck loaded from this car.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct TruckView {
    /// Which.
    pub truck: String,
    /// How much went into it.
    pub amount: Amount,
    /// Who said so.
    pub said: Attribution,
}

/// Trucks and their sum.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct TrucksView {
    /// Each load, in order.
    pub loads: Vec<TruckView>,
    /// Their sum in gallons, when every load is a volume that can be read.
    pub total_gal: Option<f64>,
}

/// The evidence on whether the liquid is out, and what somebody decided.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct EmptyView {
    /// Each sign and whether it was seen.
    pub signs: Vec<EmptySignView>,
    /// The decision.
    pub decision: Option<Attested<EmptyDecisionView>>,
    /// The evidence, weighed piece by piece. A model's opinion, never a decision.
    pub weighed: Option<Weighed>,
    /// Why the evidence could not be weighed.
    pub not_weighed: Option<String>,
}

impl EmptyView {
    /// Takes the weighing in, and points out a decision that goes against it.
    pub(super) fn weigh(&mut self, weighed: Option<Result<Weighed, String>>, findings: &mut Vec<Finding>) {
        match weighed {
            Some(Ok(weighed)) => {
                let accepted = self.decision.as_ref().is_some_and(|decision| decision.value.accepted);
                if accepted && weighed.outcome == Outcome::LiquidIndicated {
                    findings.push(Finding::new(
                        "empty_against_evidence",
                        Severity::Alarm,
                        "The car was taken as empty of liquid, and what was recorded shows liquid.",
                    ));
                }
                self.weighed = Some(weighed);
            }
            Some(Err(why)) => self.not_weighed = Some(why),
            None => {}
        }
    }
}

/// One sign.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct EmptySignView {
    /// Which.
    pub sign: EmptySign,
    /// Whether it was seen.
    pub seen: Attested<bool>,
    /// Whether it speaks for liquid being left.
    pub speaks_for_liquid: bool,
}

/// A decision.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct EmptyDecisionView {
    /// Taken as empty of liquid.
    pub accepted: bool,
    /// On what grounds.
    pub grounds: String,
}

/// An item is out unless every live entry says that it is back.
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
    out.sort_by_key(|(place, _)| *place);
    tally.out = out.into_iter().map(|(_, item)| item).collect();
    tally
}

pub(super) fn trucks(ledger: &FoldContext<'_>) -> TrucksView {
    let loads: Vec<TruckView> = ledger
        .slots
        .stood(&Slot::TRUCK_LOADS)
        .filter_map(|item| match item.claim {
            Some(Statement::TruckLoad { truck, amount }) => Some(TruckView {
                truck: truck.trim().to_owned(),
                amount: amount.clone(),
                said: ledger.said(item),
            }),
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

/// Whether a sign, seen or looked for and not seen, speaks for liquid being left.
pub(super) fn speaks_for_liquid(sign: EmptySign, seen: bool) -> bool {
    match sign {
        EmptySign::LiquidAtClosure | EmptySign::FrostRing => seen,
        EmptySign::RodAtBottom | EmptySign::VapourAtLiquidValve => !seen,
    }
}
