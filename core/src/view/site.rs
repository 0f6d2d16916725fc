//! What is known about a site, folded from its document: time zone, instruments, hoses, tanks, contacts.
//!
//! The rules for slots are those of a visit. If entries disagree, the one claimed last is used and the slot
//! is listed in `disputed`.

use serde::Serialize;

use super::expected::{ExpectedCar, PapersSent};
use super::slots::Slots;
use crate::authority::Judged;
use crate::calc::product::{EmergencyGuide, Product};
use crate::entry::site_facts::{Contact, Hose, Instrument, SealStock, SiteProfile, Tank};
use crate::entry::{Slot, Statement};
use crate::ids::SiteId;
use crate::units::Amount;

/// A site as it is known.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct SiteView {
    /// The site's id.
    pub id: Option<SiteId>,
    /// The name; empty if nobody recorded it.
    pub name: String,
    /// The IANA time zone; empty if nobody recorded it.
    pub zone: String,
    /// The elevation above sea level.
    pub elevation: Option<Amount>,
    /// The minutes without a sign of attendance after which a gap is reported; `None` if nobody recorded it.
    pub attendance_gap_minutes: Option<u32>,
    /// Local code and owner's instructions that take precedence.
    pub local_rules: String,
    /// The name of the organisation that keeps the site's record; empty if nobody recorded it.
    pub organisation: String,
    /// Where the site lies; empty if nobody recorded it.
    pub address: String,
    /// The receiving tanks.
    pub tanks: Vec<Tank>,
    /// Instruments.
    pub instruments: Vec<Instrument>,
    /// Hoses.
    pub hoses: Vec<Hose>,
    /// The people and offices to call.
    pub contacts: Vec<Contact>,
    /// The seals issued to the site.
    pub seal_stock: Vec<SealStock>,
    /// The emergency guide for any liquefied petroleum gas. The guide of a car's own paper takes precedence.
    pub emergency: Option<EmergencyGuide>,
    /// The slots in which entries disagree.
    pub disputed: Vec<String>,
    /// The cars that are expected, as far as whoever hands the view out says: see
    /// [`Snapshot::site_now`](crate::book::Snapshot::site_now). The fold of the site's entries alone leaves it empty.
    pub expected: Vec<ExpectedCar>,
    /// The papers that the office sent to the site.
    #[serde(skip)]
    #[cfg_attr(test, ts(skip))]
    pub papers: PapersSent,
}

impl SiteView {
    /// Folds a site's document. The fold is pure and total; the order of entries and duplicates do not
    /// matter.
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
            organisation,
            address,
        })) = slots.latest(&Slot::SITE).and_then(|item| item.claim)
        {
            site.name = name.clone();
            site.zone = zone.clone();
            site.elevation = Some(elevation.clone());
            site.attendance_gap_minutes = Some(*attendance_gap_minutes).filter(|minutes| *minutes > 0);
            site.local_rules = local_rules.clone();
            site.organisation = organisation.clone();
            site.address = address.clone();
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
        site.papers = PapersSent::fold(&slots);
        site.disputed = slots.disagreements().map(str::to_owned).collect();
        site
    }

    /// Returns the instrument with this name; case and outer blanks do not matter.
    pub fn instrument(&self, name: &str) -> Option<&Instrument> {
        self.instruments.iter().find(|i| same_name(&i.name, name))
    }

    /// Returns true if a seal number lies in a range issued to the site. A number must be as long as the ends
    /// of the range and is compared as text, which orders numbers with leading letters or zeros correctly.
    pub fn holds_seal(&self, number: &str) -> bool {
        let number = number.trim();
        self.seal_stock.iter().any(|stock| {
            let (from, to) = (stock.from.trim(), stock.to.trim());
            number.len() == from.len() && number.len() == to.len() && (from..=to).contains(&number)
        })
    }

    /// Returns the hose with this name; case and outer blanks do not matter.
    pub fn hose(&self, name: &str) -> Option<&Hose> {
        self.hoses.iter().find(|h| same_name(&h.name, name))
    }
}

/// Returns a name without outer blanks and in one case, for comparison.
pub(super) fn one_name(name: &str) -> String {
    name.trim().to_lowercase()
}

/// Returns true if two names are the same apart from case and outer blanks.
fn same_name(a: &str, b: &str) -> bool {
    one_name(a) == one_name(b)
}
