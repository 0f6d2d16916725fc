//! One line of the index: what an overview shows of a stay, kept as JSON.

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::vocabulary::ClockEvent;
use farsiding_core::entry::{Entry, Statement};
use farsiding_core::ids::{DeviceId, SiteId, VisitId};
use farsiding_core::procedure::Stage;
use farsiding_core::view::{VisitRow, VisitView, plain};
use serde::{Deserialize, Serialize};

/// A stay among many.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct IndexRow {
    /// Its visits.
    pub visits: Vec<VisitId>,
    /// The car's number.
    pub car: String,
    /// Where.
    pub site: Option<SiteId>,
    /// The site's name.
    pub site_name: String,
    /// Track or spot.
    pub spot: String,
    /// Where the job stands.
    pub stage: Stage,
    /// Whether it was released.
    pub released: bool,
    /// What keeps it, in a few words; empty when nothing does.
    pub kept_by: String,
    /// Blockers nobody passed over.
    pub open_blockers: usize,
    /// Whether a hold stands.
    pub on_hold: bool,
    /// Disagreements nobody settled.
    pub disagreements: usize,
    /// Findings that say that something is wrong.
    pub alarms: usize,
    /// Its first claimed time.
    pub since: UtcMillis,
    /// Its last claimed time.
    pub latest: UtcMillis,
    /// When it was placed, as recorded; nothing while nobody said so.
    pub placed: Option<UtcMillis>,
    /// When it was released.
    pub released_at: Option<UtcMillis>,
    /// Whether the carrier pulled it, as recorded.
    pub pulled: bool,
    /// First time, and last, in the site's zone.
    pub shown: (String, String),
    /// The time zone of the site.
    pub zone: String,
    /// The product from the paper.
    pub product: String,
    /// The shipper from the paper.
    pub shipper: String,
    /// Devices its entries were made on.
    pub devices: Vec<DeviceId>,
    /// Seal numbers: as compared, and what was said of each.
    pub seals: Vec<(String, String)>,
}

impl IndexRow {
    /// The line of a stay.
    pub fn of<'e>(view: &VisitView, entries: impl Iterator<Item = &'e Entry>) -> IndexRow {
        let row = VisitRow::of(view);
        let zone: chrono_tz::Tz = view.header.zone.parse().unwrap_or(chrono_tz::Tz::UTC);
        let since = row.since.unwrap_or(UtcMillis(0));
        let latest = view.header.latest.unwrap_or(since);
        let at = |event: ClockEvent| {
            view.clock.iter().find(|clock| clock.event == event).map(|clock| clock.at.value)
        };
        IndexRow {
            visits: row.visits,
            car: row.car,
            site: row.site,
            site_name: row.site_name,
            spot: view.header.spot.clone(),
            stage: row.stage,
            released: row.released,
            kept_by: row.kept_by,
            open_blockers: row.open_blockers,
            on_hold: row.on_hold,
            disagreements: row.disagreements,
            alarms: row.alarms,
            since,
            latest,
            placed: at(ClockEvent::ActualPlacement),
            released_at: view.release.released.as_ref().map(|known| {
                UtcMillis(known.said.claimed.0.saturating_sub(known.said.ahead_millis.unwrap_or(0)))
            }),
            pulled: at(ClockEvent::Pulled).is_some(),
            shown: (since.shown_in(zone), latest.shown_in(zone)),
            zone: view.header.zone.clone(),
            product: view.header.product.clone(),
            shipper: view.header.paper.as_ref().map_or(String::new(), |p| p.value.shipper.trim().to_owned()),
            devices: view.header.devices.iter().map(|device| device.device).collect(),
            seals: seals_of(view, entries),
        }
    }

    /// The visit it is opened by.
    pub fn visit(&self) -> Option<VisitId> {
        self.visits.first().copied()
    }
}

/// Every seal number ever written down, whatever became of its entry: a corrected one above all must be
/// found again.
fn seals_of<'e>(view: &VisitView, entries: impl Iterator<Item = &'e Entry>) -> Vec<(String, String)> {
    let mut seals: Vec<(String, String)> = entries
        .filter_map(|entry| match &entry.body.says {
            Statement::Seal(seal) => Some((plain(&seal.number), entry.id)),
            _ => None,
        })
        .filter(|(number, _)| !number.is_empty())
        .map(|(number, id)| {
            let line = view.history.iter().find(|line| line.said.entry == id);
            (number, line.map_or_else(String::new, |line| line.sentence.clone()))
        })
        .collect();
    seals.sort();
    seals.dedup();
    seals
}
