//! What is known of a site, folded from its document: zone, instruments, hoses, tanks, people to call.
//!
//! The same slot rules as for a visit; where entries disagree the one claimed last is used and the
//! slot is named in `disputed`.

use std::collections::BTreeMap;

use serde::Serialize;

use super::slots::Slots;
use crate::authority::Judged;
use crate::calc::product::{EmergencyGuide, Product};
use crate::entry::site_facts::{Contact, Hose, Instrument, Operator, SealStock, SiteProfile, Tank};
use crate::entry::{Slot, Statement, under};
use crate::ids::{OperatorId, SiteId};
use crate::units::Amount;

/// A site as it is known.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct SiteView {
    /// Which.
    pub id: Option<SiteId>,
    /// Its name; empty while nobody said it.
    pub name: String,
    /// IANA time zone; empty while nobody said it.
    pub zone: String,
    /// Elevation above sea level.
    pub elevation: Option<Amount>,
    /// Minutes without a sign of attendance that are pointed out; nothing while nobody said it.
    pub attendance_gap_minutes: Option<u32>,
    /// Local code and owner's instructions that come first.
    pub local_rules: String,
    /// Receiving tanks.
    pub tanks: Vec<Tank>,
    /// Instruments.
    pub instruments: Vec<Instrument>,
    /// Hoses.
    pub hoses: Vec<Hose>,
    /// Whom to call.
    pub contacts: Vec<Contact>,
    /// Seals issued to the site.
    pub seal_stock: Vec<SealStock>,
    /// The emergency guide for what comes here, any liquefied petroleum gas; a car's own paper goes before it.
    pub emergency: Option<EmergencyGuide>,
    /// Slots on which entries disagree.
    pub disputed: Vec<String>,
}

impl SiteView {
    /// Folds a site's document. Pure and total; order and doubles do not matter.
    pub fn fold<'a>(id: Option<SiteId>, entries: impl IntoIterator<Item = Judged<'a>>) -> SiteView {
        let slots = Slots::fold(entries);
        let emergency = Some(Product::Un1075.emergency_guide());
        let mut site = SiteView { id, emergency, ..SiteView::default() };
        if let Some(Statement::Site(SiteProfile {
            name,
            zone,
            elevation,
            attendance_gap_minutes,
            local_rules,
        })) = slots.latest(&Slot::SITE).and_then(|item| item.claim)
        {
            site.name = name.clone();
            site.zone = zone.clone();
            site.elevation = Some(elevation.clone());
            site.attendance_gap_minutes = Some(*attendance_gap_minutes).filter(|minutes| *minutes > 0);
            site.local_rules = local_rules.clone();
        }
        for slot in slots.names() {
            match slots.latest(slot).and_then(|item| item.claim) {
                Some(Statement::Tank(tank)) => site.tanks.push(tank.clone()),
                Some(Statement::Instrument(instrument)) => site.instruments.push(instrument.clone()),
                Some(Statement::Hose(hose)) => site.hoses.push(hose.clone()),
                Some(Statement::Contact(contact)) => site.contacts.push(contact.clone()),
                Some(Statement::SealStock(stock)) => site.seal_stock.push(stock.clone()),
                _ => {}
            }
        }
        site.disputed = slots.disagreements().map(str::to_owned).collect();
        site
    }

    /// The instrument with this name, as people write names: case and outer blanks do not matter.
    pub fn instrument(&self, name: &str) -> Option<&Instrument> {
        self.instruments.iter().find(|i| same_name(&i.name, name))
    }

    /// Whether a seal number lies in the stock issued to the site. Numbers of one length compare as
    /// text, so that leading letters and zeros do not matter.
    pub fn holds_seal(&self, number: &str) -> bool {
        let number = number.trim();
        self.seal_stock.iter().any(|stock| {
            let (from, to) = (stock.from.trim(), stock.to.trim());
            number.len() == from.len() && number.len() == to.len() && (from..=to).contains(&number)
        })
    }

    /// The hose with this name.
    pub fn hose(&self, name: &str) -> Option<&Hose> {
        self.hoses.iter().find(|h| same_name(&h.name, name))
    }
}

/// The people of a roster document by their codes. Order and doubles do not matter.
pub fn people<'a>(entries: impl IntoIterator<Item = Judged<'a>>) -> BTreeMap<OperatorId, Operator> {
    let slots = Slots::fold(entries);
    slots
        .names_under(under::OPERATORS)
        .filter_map(|slot| match slots.latest(slot)?.claim? {
            Statement::Operator(operator) => Some((operator.operator.clone(), operator.clone())),
            _ => None,
        })
        .collect()
}

/// A name as people write it: case and outer blanks do not matter.
pub(super) fn one_name(name: &str) -> String {
    name.trim().to_lowercase()
}

/// Whether two names are one as people write them.
fn same_name(a: &str, b: &str) -> bool {
    one_name(a) == one_name(b)
}
