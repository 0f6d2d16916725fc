//! The header of a visit: car, site, receiver, procedure, people and devices.

use std::collections::BTreeMap;

use serde::Serialize;

use super::context::Standing;
use super::fold_context::{Attested, FoldContext};
use super::people::NameStanding;
use super::watch::HandoverView;
use crate::calc::product::{EmergencyGuide, Product};
use crate::clock::UtcMillis;
use crate::entry::car_number::{CarNumber, CarNumberFinding};
use crate::entry::vocabulary::Receiver;
use crate::entry::{Opened, Paper, Slot, Statement};
use crate::ids::{CarId, DeviceId, Digest, OperatorId, SiteId, VisitId};
use crate::{Arg, Message, message};

/// A person in this visit.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct PersonView {
    /// The person's code.
    pub operator: OperatorId,
    /// The person's name, or the code if the name is unknown.
    pub name: String,
    /// Whether the person's name was removed at the office.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub name_removed: bool,
    /// The number of entries.
    pub entries: usize,
}

/// A device in this visit.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct DeviceView {
    /// The device's key.
    pub device: DeviceId,
    /// The name it was enrolled under, or the first digits of its key.
    pub name: String,
    /// The device's standing with its organisation: the worst one over its entries here.
    pub standing: Standing,
    /// The number of entries.
    pub entries: usize,
    /// The last known difference of its clock to the server's, in milliseconds; positive if it is ahead.
    pub ahead_millis: Option<i64>,
}

/// The header of a visit.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Header {
    /// The visits of this stay; more than one if visits were joined.
    pub visits: Vec<VisitId>,
    /// The car number in its normal form; empty as long as nobody opened the visit.
    pub car: String,
    /// The car's id.
    pub car_id: Option<CarId>,
    /// The statement with which the visit was opened.
    pub opened: Option<Attested<Opened>>,
    /// The findings about the car number.
    pub number_findings: Vec<CarNumberFinding>,
    /// The car number as read a second time.
    pub number_again: Option<Attested<CarNumber>>,
    /// The site's id.
    pub site: Option<SiteId>,
    /// The site's name; empty as long as it is not known here.
    pub site_name: String,
    /// The time zone in which times are shown.
    pub zone: String,
    /// The local code and owner's instructions that take precedence, from the site's document.
    pub local_rules: String,
    /// The track or spot, where it was last moved to during its stay if somebody said.
    pub spot: String,
    /// What receives the cargo.
    pub receiver: Option<Receiver>,
    /// The content of the shipping paper.
    pub paper: Option<Attested<Paper>>,
    /// The product according to the paper; empty without a paper.
    pub product: String,
    /// The emergency guide for the paper's UN number; `None` without a paper or for an unknown number.
    pub emergency: Option<EmergencyGuide>,
    /// The digest of the procedure followed.
    pub procedure: Option<Digest>,
    /// The procedure's title and edition.
    pub procedure_title: Message,
    /// The note above the procedure's steps.
    pub procedure_note: Message,
    /// Whether the exact text is known here; otherwise the default procedure is shown instead.
    pub procedure_known: bool,
    /// Everybody who made an entry.
    pub people: Vec<PersonView>,
    /// Every device that made an entry.
    pub devices: Vec<DeviceView>,
    /// The person who is responsible for the car now.
    pub responsible: Option<OperatorId>,
    /// The earliest claimed time.
    pub since: Option<UtcMillis>,
    /// The same time in the site's zone.
    pub since_shown: String,
    /// The latest claimed time.
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
        spot: spot(ledger, opened.as_ref()),
        receiver: ledger.receiver,
        product,
        emergency: paper
            .as_ref()
            .and_then(|known| Product::read(&known.value.un_number))
            .map(Product::emergency_guide),
        procedure: opened.as_ref().map(|known| known.value.procedure),
        procedure_title: procedure.map_or_else(Message::default, |p| {
            message!("step-procedure", title = p.title.clone(), edition = Arg::typed(&p.edition))
        }),
        procedure_note: procedure.map_or_else(Message::default, |p| p.note.clone()),
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

/// Returns where the car stands: where it was last moved to, as far as somebody said, or where it was opened.
fn spot(ledger: &FoldContext<'_>, opened: Option<&Attested<Opened>>) -> String {
    let slot = Slot::CAR_MOVED;
    let moved = ledger.slots.stood(&slot).filter_map(|item| match item.claim {
        Some(Statement::CarMoved(moved)) => Some((item.claim_place, moved.to.trim())),
        _ => None,
    });
    match moved.filter(|(_, to)| !to.is_empty()).max() {
        Some((_, to)) => to.to_owned(),
        None => opened.map_or(String::new(), |known| known.value.spot.trim().to_owned()),
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
            name_removed: ledger
                .ctx
                .people
                .get(operator)
                .is_some_and(|known| known.name_is == NameStanding::Removed),
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
