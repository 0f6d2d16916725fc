//! A row of the index: what an overview shows of a stay, stored as JSON.

use farsiding_core::Message;
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::vocabulary::ClockEvent;
use farsiding_core::entry::{Entry, Statement};
use farsiding_core::ids::{DeviceId, SiteId, VisitId};
use farsiding_core::procedure::Stage;
use farsiding_core::view::{CheckInView, VisitRow, VisitView, plain};
use serde::{Deserialize, Serialize};

/// A stay among many.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct IndexRow {
    /// Its visits.
    pub visits: Vec<VisitId>,
    /// The car's number.
    pub car: String,
    /// The site of the stay.
    pub site: Option<SiteId>,
    /// The site's name.
    pub site_name: String,
    /// The track or spot.
    pub spot: String,
    /// The stage of the job.
    pub stage: Stage,
    /// Whether the car was released.
    pub released: bool,
    /// What keeps the car, in a few words; empty when nothing does.
    pub kept_by: Message,
    /// The number of blockers that nobody has passed over.
    pub open_blockers: usize,
    /// Whether the car is on hold.
    pub on_hold: bool,
    /// The number of unsettled disagreements.
    pub disagreements: usize,
    /// The number of findings that say that something is wrong.
    pub alarms: usize,
    /// The first time that an entry claims.
    pub since: UtcMillis,
    /// The last time that an entry claims.
    pub latest: UtcMillis,
    /// The recorded time at which the car was placed, if there is one.
    pub placed: Option<UtcMillis>,
    /// The time at which the car was released.
    pub released_at: Option<UtcMillis>,
    /// Whether the carrier is recorded to have pulled the car.
    pub pulled: bool,
    /// The first and the last time, in the site's time zone.
    pub shown: (String, String),
    /// The site's time zone.
    pub zone: String,
    /// The product named on the shipping paper.
    pub product: String,
    /// The shipper named on the shipping paper.
    pub shipper: String,
    /// The last word that all is well, while somebody has the car and the procedure asks for it.
    #[serde(default)]
    pub check_in: Option<CheckInView>,
    /// The devices on which the entries were made.
    pub devices: Vec<DeviceId>,
    /// The seal numbers: the form for comparison, and what was recorded of each.
    pub seals: Vec<(String, Message)>,
}

impl IndexRow {
    /// Returns the index row of a stay.
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
            check_in: view.check_in.clone(),
            devices: view.header.devices.iter().map(|device| device.device).collect(),
            seals: seals_of(view, entries),
        }
    }

    /// Returns the visit whose page shows the stay.
    pub fn visit(&self) -> Option<VisitId> {
        self.visits.first().copied()
    }
}

/// Returns every seal number in the record, even from corrected or withdrawn entries. A corrected number in
/// particular must be found by a search.
fn seals_of<'e>(view: &VisitView, entries: impl Iterator<Item = &'e Entry>) -> Vec<(String, Message)> {
    let mut seals: Vec<(String, Message)> = entries
        .filter_map(|entry| match &entry.body.says {
            Statement::Seal(seal) => Some((plain(&seal.number), entry.id)),
            _ => None,
        })
        .filter(|(number, _)| !number.is_empty())
        .map(|(number, id)| {
            let line = view.history.iter().find(|line| line.said.entry == id);
            (number, line.map_or_else(Message::default, |line| line.sentence.clone()))
        })
        .collect();
    seals.sort();
    seals.dedup();
    seals
}
