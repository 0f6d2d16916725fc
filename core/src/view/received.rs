//! What is pointed out of the tanks, hoses and compressor of a transfer, and of an inspection; and which lines of the
//! history tell of what received the cargo.
//!
//! The sums of trucks are in `tally`; what the formulas make of a tank's level and of a planned recovery is in
//! `computed`.

use super::findings::Found;
use super::fold_context::FoldContext;
use super::site::one_name;
use super::slots::{Fate, Item};
use super::visit::{HistoryLine, VisitView};
use crate::entry::vocabulary::{Fitting, Measured, Place, Purpose, TankMoment};
use crate::entry::{Slot, Statement, TankGauged};
use crate::units::{Amount, Unit};
use crate::{Arg, message};

/// The pressure in psi above which a hose that was drawn down is pointed out. 5 psi to 15 psi are usual (common
/// practice, no source).
const HOSE_PSI: f64 = 15.0;

impl VisitView {
    /// Returns the lines of the history that tell what received the cargo and what went with it, as far as they stand:
    /// tanks before and after, trucks, the pressure left in hoses, the plan of the recovery, inspections.
    pub fn received(&self) -> impl Iterator<Item = &HistoryLine> {
        let tells = |slot: &str| {
            let named = [Slot::TANKS_GAUGED, Slot::TRUCK_LOADS, Slot::RECOVERY_PLANNED, Slot::INSPECTIONS];
            named.iter().any(|named| **named == *slot) || slot.starts_with("series/hose_pressure/")
        };
        let stands = |line: &&HistoryLine| matches!(line.fate, Fate::Live | Fate::MovedOn);
        self.history.iter().filter(move |line| tells(&line.slot)).filter(stands)
    }
}

/// Returns the last reading of a receiving tank before the transfer.
pub(super) fn before<'a>(ledger: &FoldContext<'a>) -> Option<&'a TankGauged> {
    let gauged = tanks(ledger).into_iter().filter(|(_, gauged)| gauged.moment == TankMoment::Before);
    gauged.max_by_key(|(item, _)| (item.credible, item.at, item.place)).map(|(_, gauged)| gauged)
}

fn tanks<'l, 'a>(ledger: &'l FoldContext<'a>) -> Vec<(&'l Item<'a>, &'a TankGauged)> {
    let slot = Slot::TANKS_GAUGED;
    let stood = ledger.slots.live(&slot).filter_map(|item| match item.claim {
        Some(Statement::TankGauged(gauged)) => Some((item, gauged)),
        _ => None,
    });
    stood.collect()
}

/// Returns the amount that was read last in a series.
fn last<'a>(ledger: &FoldContext<'a>, slot: &str) -> Option<&'a Amount> {
    ledger.slots.latest(slot)?.claim?.amounts().next()
}

/// Points out tanks that the site does not have, hoses still under pressure, a compressor that seems to run backward,
/// and what an inspector found.
pub(super) fn findings(ledger: &FoldContext<'_>, found: &mut Found<'_>) {
    if let Some(site) = ledger.ctx.site.filter(|site| !site.tanks.is_empty()) {
        let is_known = |name: &str| site.tanks.iter().any(|tank| one_name(&tank.name) == one_name(name));
        for (_, gauged) in tanks(ledger).into_iter().filter(|(_, gauged)| !is_known(&gauged.tank)) {
            let name = Arg::typed(gauged.tank.trim());
            found.check("tank_unknown", message!("finding-tank-unknown", name = name));
        }
    }
    for fitting in Fitting::LINES {
        let is_on = |item: &Item<'_>| matches!(item.claim, Some(Statement::Line { connected: true, .. }));
        let on = ledger.slots.latest(&Slot::line(fitting)).is_some_and(is_on);
        if let Some(left) = last(ledger, &Slot::hose_pressure(fitting))
            && on
            && left.value_in(Unit::PsiGauge).is_some_and(|psi| psi > HOSE_PSI)
        {
            let most = Unit::PsiGauge.figure(HOSE_PSI, 0);
            let (fitting, amount) = (fitting.term(), left.arg());
            let message = message!("finding-hose-pressure", fitting = fitting, amount = amount, most = most);
            found.check("hose_pressure", message);
        }
    }
    for purpose in [Purpose::Transfer, Purpose::Recovery] {
        let at = |place| last(ledger, &Slot::reading(purpose, Measured::Pressure, place));
        if let (Some(low), Some(high)) = (at(Place::CompressorSuction), at(Place::CompressorDischarge))
            && let (Some(suction), Some(discharge)) =
                (low.value_in(Unit::PsiGauge), high.value_in(Unit::PsiGauge))
            && suction > discharge
        {
            let (suction, discharge) = (low.arg(), high.arg());
            let message = message!("finding-suction-above", suction = suction, discharge = discharge);
            found.check("suction_above_discharge", message);
        }
    }
    for item in ledger.slots.live(&Slot::INSPECTIONS) {
        if let Some(Statement::Inspection(said)) = item.claim
            && said.found == Some(true)
        {
            let (by, finding) = (Arg::typed(said.by.trim()), Arg::typed(said.finding.trim()));
            found.check("inspection_finding", message!("finding-inspection", by = by, finding = finding));
        }
    }
}
