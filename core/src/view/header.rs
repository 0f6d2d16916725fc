//! The head of a visit: which car, where, into what, by which procedure, who and with what.

use std::collections::BTreeMap;

use serde::Serialize;

use super::context::Standing;
use super::fold_context::{Attested, FoldContext};
use super::watch::HandoverView;
use crate::calc::product::{EmergencyGuide, Product};
use crate::clock::UtcMillis;
use crate::entry::car_number::{CarNumber, CarNumberFinding};
use crate::entry::vocabulary::Receiver;
use crate::entry::{Opened, Paper, Slot, Statement};
use crate::ids::{CarId, DeviceId, Digest, OperatorId, SiteId, VisitId};

/// A person in this visit.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct PersonView {
    /// The code.
    pub operator: OperatorId,
    /// The name, or the code.
    pub name: String,
    /// How many entries.
    pub entries: usize,
}

/// A device in this visit.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct DeviceView {
    /// Its key.
    pub device: DeviceId,
    /// The name it was enrolled under, or the first digits of its key.
    pub name: String,
    /// How the organisation stands behind it; the worst over its entries here.
    pub standing: Standing,
    /// How many entries.
    pub entries: usize,
    /// What its clock was last known to be ahead, milliseconds.
    pub ahead_millis: Option<i64>,
}

/// The head of a visit.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Header {
    /// The visits of this stay, more than one when they were joined.
    pub visits: Vec<VisitId>,
    /// The car's number in its normal form; empty while nobody opened the visit.
    pub car: String,
    /// Its id.
    pub car_id: Option<CarId>,
    /// How it was opened.
    pub opened: Option<Attested<Opened>>,
    /// What is odd about the number.
    pub number_findings: Vec<CarNumberFinding>,
    /// The number as read a second time.
    pub number_again: Option<Attested<CarNumber>>,
    /// The site's id.
    pub site: Option<SiteId>,
    /// The site's name; empty while it is not known here.
    pub site_name: String,
    /// The zone times are shown in.
    pub zone: String,
    /// Local code and owner's instructions that come first, as the site has them.
    pub local_rules: String,
    /// Track or spot.
    pub spot: String,
    /// What receives the cargo.
    pub receiver: Option<Receiver>,
    /// What the shipping paper says.
    pub paper: Option<Attested<Paper>>,
    /// The product from the paper; empty while there is none.
    pub product: String,
    /// The emergency guide of the paper's UN number; nothing without a paper or for a number unknown here.
    pub emergency: Option<EmergencyGuide>,
    /// The procedure followed.
    pub procedure: Option<Digest>,
    /// Its title and edition.
    pub procedure_title: String,
    /// What stands above it.
    pub procedure_note: String,
    /// Whether that very text is known here; otherwise the default is shown in its stead.
    pub procedure_known: bool,
    /// Everybody who made an entry.
    pub people: Vec<PersonView>,
    /// Every device an entry was made on.
    pub devices: Vec<DeviceView>,
    /// Who is responsible for the car now.
    pub responsible: Option<OperatorId>,
    /// First claimed time.
    pub since: Option<UtcMillis>,
    /// The same in the site's zone.
    pub since_shown: String,
    /// Last claimed time.
    pub latest: Option<UtcMillis>,
}

pub(super) fn fold(ledger: &FoldContext<'_>, handovers: &[HandoverView]) -> Header {
    let opened = ledger.known(&Slot::OPENED, |says| match says {
        Statement::Opened(opened) => Some(opened.clone()),
        _ => None,
    });
    let paper = ledger.known(&Slot::PAPER, |says| match says {
        Statement::Paper(paper) => Some(paper.clone()),
        _ => None,
    });
    let number = opened.as_ref().map(|known| &known.value.car);
    let procedure = ledger.procedure();
    let items = ledger.slots.items();
    let believed = || items.iter().filter(|item| item.credible).map(|item| item.at);
    let (since, latest) = (believed().min(), believed().max());
    let product = paper.as_ref().map_or(String::new(), |known| {
        let paper = &known.value;
        [paper.un_number.trim(), paper.product.trim()]
            .into_iter()
            .filter(|part| !part.is_empty())
            .collect::<Vec<_>>()
            .join(" ")
    });
    Header {
        visits: ledger.visits.clone(),
        car: number.map_or(String::new(), CarNumber::normal),
        car_id: number.map(CarNumber::id),
        number_findings: number.map_or(Vec::new(), CarNumber::findings),
        number_again: ledger.known(&Slot::CAR_NUMBER_AGAIN, |says| match says {
            Statement::CarNumberAgain { car } => Some(car.clone()),
            _ => None,
        }),
        site: opened.as_ref().map(|known| known.value.site),
        site_name: ledger.ctx.site.map_or(String::new(), |site| site.name.clone()),
        zone: ledger.zone.name().to_owned(),
        local_rules: ledger.ctx.site.map_or(String::new(), |site| site.local_rules.clone()),
        spot: opened.as_ref().map_or(String::new(), |known| known.value.spot.trim().to_owned()),
        receiver: ledger.receiver,
        product,
        emergency: paper
            .as_ref()
            .and_then(|known| Product::read(&known.value.un_number))
            .map(Product::emergency_guide),
        procedure: opened.as_ref().map(|known| known.value.procedure),
        procedure_title: procedure.map_or(String::new(), |p| format!("{}, edition {}", p.title, p.edition)),
        procedure_note: procedure.map_or(String::new(), |p| p.note.clone()),
        procedure_known: ledger.procedure_is_the_visits_own(),
        people: people(ledger),
        devices: devices(ledger),
        responsible: super::watch::responsible(ledger, handovers),
        since,
        since_shown: since.map_or(String::new(), |at| ledger.shown(at)),
        latest,
        opened,
        paper,
    }
}

fn people(ledger: &FoldContext<'_>) -> Vec<PersonView> {
    let mut counts: BTreeMap<&OperatorId, usize> = BTreeMap::new();
    for item in ledger.slots.items() {
        *counts.entry(&item.entry.body.by).or_default() += 1;
    }
    counts
        .into_iter()
        .map(|(operator, entries)| PersonView {
            operator: operator.clone(),
            name: ledger.name(operator),
            entries,
        })
        .collect()
}

fn devices(ledger: &FoldContext<'_>) -> Vec<DeviceView> {
    let mut devices: BTreeMap<DeviceId, DeviceView> = BTreeMap::new();
    for item in ledger.slots.items() {
        let entry = item.entry;
        let standing = ledger.ctx.standing(entry, ledger.receipt(item).1);
        let device = devices.entry(entry.device).or_insert_with(|| DeviceView {
            device: entry.device,
            name: ledger.device_name(entry.device),
            standing,
            entries: 0,
            ahead_millis: None,
        });
        device.entries += 1;
        device.ahead_millis = item.ahead_millis.or(device.ahead_millis);
        if standing == Standing::NotHeldBeforeRevocation {
            device.standing = standing;
        }
    }
    devices.into_values().collect()
}
