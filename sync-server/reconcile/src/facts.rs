//! The facts of one stay that reconciling needs. They are folded once and are small enough to store beside
//! the stay's index row.
//!
//! [`Facts::of`] is pure: the same view and entries give the same facts. The facts are stored only in the
//! index, which is built again when it is missing or has another [`Facts::VERSION`]. Quantities and their
//! shared errors are computed in `amounts`. What follows from the facts of many stays is in `reconcile`,
//! `seals` and `defects`.

mod amounts;

use std::collections::BTreeMap;

use chrono::NaiveDate;
use farsiding_core::Message;
use farsiding_core::authority::Judged;
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::Statement;
use farsiding_core::entry::vocabulary::{
    BilledBy, ClockEvent, Fitting, Part, SealEvent, SealKind, SealPlace,
};
use farsiding_core::ids::{DefectId, DeviceId, Digest, EntryId, SiteId, Subject, VisitId};
use farsiding_core::procedure::Stage;
use farsiding_core::units::{Severity, Unit};
use farsiding_core::view::{ChainGap, Fate, SiteView, Slots, VisitView};
use serde::{Deserialize, Serialize};

pub use amounts::{Amounted, Fill, Missing, Share, Side};

/// The facts of one stay for the office's comparisons.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Facts {
    /// The visits of the stay in ascending order; the first one names the stay.
    pub visits: Vec<VisitId>,
    /// The car's number in its normal form; empty while nobody has opened the visit.
    pub car: String,
    /// The car's number from a second reading, in its normal form; empty when there was none.
    pub car_again: String,
    /// The site.
    pub site: Option<SiteId>,
    /// The site's name, or the first digits of its id while no name is known.
    pub site_name: String,
    /// The IANA time zone in which times and days are counted.
    pub zone: String,
    /// The first time that an entry claims.
    pub from: Option<UtcMillis>,
    /// The last time that an entry claims.
    pub latest: Option<UtcMillis>,
    /// The day under which the stay is counted, as `YYYY-MM-DD` at the site: the day of placement, or else of
    /// the first record.
    pub day: String,
    /// The stage of the job.
    pub stage: Stage,
    /// The time at which the car was released.
    pub released: Option<UtcMillis>,
    /// The shipping paper, as recorded at the car.
    pub paper: PaperFacts,
    /// The quantity billed on the paper.
    pub billed: Option<Amounted>,
    /// The quantity found by gauging on arrival, net at 60 °F.
    pub found: Option<Amounted>,
    /// The quantity received by storage or trucks.
    pub received: Option<Amounted>,
    /// The vapour above the liquid on arrival, as liquid equivalent at 60 °F. A scale weighs it, while an outage table
    /// and a meter do not see it.
    #[serde(default)]
    pub vapour: Option<Amounted>,
    /// The quantity left in the car as vapour, as liquid equivalent at 60 °F.
    pub left: Option<Amounted>,
    /// The missing quantities, each with the reason.
    pub missing: Vec<Missing>,
    /// The instrument with which the outage was read; empty when not recorded.
    pub gauge: String,
    /// How full the car came, compared with the limit that the core checks.
    pub fill: Option<Fill>,
    /// The times of the car's clock events.
    pub clock: BTreeMap<String, UtcMillis>,
    /// The clock events on which records differ.
    pub clock_disputed: Vec<String>,
    /// Every event of every seal that stands.
    pub seals: Vec<SealFact>,
    /// The defects that were known of the car when the stay was folded.
    pub defects: Vec<DefectFact>,
    /// The closing efforts of this stay.
    pub efforts: Vec<EffortFact>,
    /// The instruments and hoses used, each once with the first day of use.
    pub used: Vec<Used>,
    /// The gaps in the chains of the devices that took part.
    pub gaps: Vec<GapFact>,
    /// The unsettled disagreements, in words.
    pub disagreements: Vec<Message>,
    /// The number of blockers that nobody has passed over.
    pub open_blockers: usize,
    /// The findings that say that something is wrong, in words.
    pub alarms: Vec<Message>,
    /// The visits that were compared with this one and found to be another stay.
    pub not_joined: Vec<VisitId>,
    /// The shell capacity, in gal.
    pub shell_gal: Option<f64>,
}

/// The content of the shipping paper, as recorded.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct PaperFacts {
    /// Whether a paper was recorded at all.
    pub recorded: bool,
    /// The paper's number.
    pub number: String,
    /// The car's number on the paper, as typed.
    pub car: String,
    /// The shipper; empty when not recorded.
    pub shipper: String,
    /// The product's identification number.
    pub un_number: String,
    /// The quantity billed, as typed.
    pub billed_text: String,
    /// The day on the paper, as `YYYY-MM-DD`; empty when it is not known here.
    #[serde(default)]
    pub day: String,
    /// How the quantity was measured, if the paper says it.
    #[serde(default)]
    pub billed_by: Option<BilledBy>,
}

/// One event of one seal.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SealFact {
    /// The event: found, applied or removed.
    pub event: SealEvent,
    /// The place of the seal.
    pub place: SealPlace,
    /// The seal's number as read; empty when illegible.
    pub number: String,
    /// The kind of seal.
    pub kind: Option<SealKind>,
    /// Whether the seal was intact.
    pub intact: bool,
    /// What was noted of the seal.
    pub note: String,
    /// The corrected time of the event.
    pub at: UtcMillis,
    /// The entry that records the event.
    pub entry: EntryId,
}

/// A defect and what became of it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct DefectFact {
    /// The defect's id.
    pub id: DefectId,
    /// The fitting that has the defect.
    pub fitting: Option<Fitting>,
    /// What is wrong.
    pub what: String,
    /// Whether the car may move only with an authority's approval.
    pub needs_authority: bool,
    /// The photographs of the defect.
    pub photos: Vec<Digest>,
    /// The time at which the defect was noted, by the device's clock.
    pub noted: UtcMillis,
    /// The same time, in the site's time zone.
    pub noted_shown: String,
    /// Who noted the defect.
    pub by: String,
    /// The visit during which the defect was noted.
    pub visit: Option<VisitId>,
    /// To whom the defect was reported from the car, with the times.
    pub forwarded: Vec<String>,
    /// The authority's answer, in words.
    pub authority: String,
    /// The time by which an oral approval must be confirmed in writing.
    pub written_due: Option<UtcMillis>,
    /// How the defect was repaired; empty while it is not.
    pub resolved: String,
}

impl DefectFact {
    /// Returns whether the defect still needs attention.
    pub fn is_open(&self) -> bool {
        self.resolved.is_empty()
    }

    /// Returns a measure of how far the handling of the defect has come. A later fold of the same defect
    /// knows more.
    pub fn progress(&self) -> (bool, bool, usize, usize) {
        let answered = !self.authority.is_empty();
        (!self.resolved.is_empty(), answered, self.forwarded.len(), self.photos.len())
    }
}

/// One closing effort.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct EffortFact {
    /// The fitting.
    pub fitting: Fitting,
    /// The part of the fitting: its valve or its closure.
    pub part: Part,
    /// The torque, in ft·lbf.
    pub foot_pounds: f64,
    /// The corrected time of the effort.
    pub at: UtcMillis,
}

/// An instrument or a hose that was used.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct Used {
    /// Whether it is a hose; otherwise it is an instrument.
    pub hose: bool,
    /// The name as typed, without blanks around it.
    pub name: String,
    /// The first day of use in this stay, as `YYYY-MM-DD` at the site.
    pub day: String,
}

/// A gap in a device's chain. The same gap appears in every stay that the device took part in.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct GapFact {
    /// The device.
    pub device: DeviceId,
    /// The first affected number.
    pub from: u64,
    /// The last affected number.
    pub to: u64,
    /// Whether entries are missing; otherwise entries contradict one another.
    pub missing: bool,
    /// The gap in words.
    pub sentence: Message,
}

impl Facts {
    /// The version of the facts. Stored facts with another version are computed again.
    pub const VERSION: u32 = 3;

    /// Returns the facts of a stay from its view, its entries (for what a view does not list) and its site,
    /// if known.
    pub fn of<'a>(
        view: &VisitView,
        entries: impl IntoIterator<Item = Judged<'a>>,
        site: Option<&SiteView>,
    ) -> Facts {
        let slots = Slots::fold(entries);
        let header = &view.header;
        let zone: chrono_tz::Tz = header.zone.parse().unwrap_or(chrono_tz::Tz::UTC);
        let clock: BTreeMap<String, UtcMillis> =
            view.clock.iter().map(|event| (event.event.to_string(), event.at.value)).collect();
        let placed = [ClockEvent::ActualPlacement, ClockEvent::ConstructivePlacement];
        let placed = placed.iter().find_map(|event| clock.get(event.word()).copied());
        let counted = placed.or(header.since);
        let amounts = amounts::read(view, site);
        Facts {
            visits: header.visits.clone(),
            car: header.car.clone(),
            car_again: header.number_again.as_ref().map_or(String::new(), |known| known.value.normal()),
            site: header.site,
            site_name: match (header.site_name.as_str(), header.site) {
                ("", Some(site)) => format!("site {}", site.short()),
                ("", None) => "no site said".to_owned(),
                (name, _) => name.to_owned(),
            },
            zone: header.zone.clone(),
            from: header.since,
            latest: header.latest,
            day: counted.map_or(String::new(), |at| day_of(at, zone)),
            stage: view.stage,
            released: view.release.released.as_ref().map(|known| known.said.claimed),
            paper: paper(view),
            billed: amounts.billed,
            found: amounts.found,
            received: amounts.received,
            vapour: amounts.vapour,
            left: amounts.left,
            missing: amounts.missing,
            gauge: amounts.gauge,
            fill: amounts.fill,
            clock_disputed: view
                .clock
                .iter()
                .filter(|event| event.at.disputed)
                .map(|event| event.event.spoken())
                .collect(),
            clock,
            seals: seals(&slots),
            defects: defects(view),
            efforts: efforts(view),
            used: used(&slots, zone),
            gaps: gaps(view),
            disagreements: view.disagreements.iter().map(|differ| differ.about.clone()).collect(),
            open_blockers: view.release.open,
            alarms: view
                .findings
                .iter()
                .filter(|finding| finding.severity == Severity::Alarm)
                .map(|finding| finding.message.clone())
                .collect(),
            not_joined: view.brief.as_ref().map_or(Vec::new(), |brief| brief.not_joined.clone()),
            shell_gal: view.car.capacity.as_ref().and_then(|known| known.value.value_in(Unit::Gallon)),
        }
    }

    /// Returns the first of the stay's visits, which names the stay.
    pub fn visit(&self) -> Option<VisitId> {
        self.visits.first().copied()
    }

    /// Returns the month under which the stay is counted, as `YYYY-MM`; empty when no time is known.
    pub fn month(&self) -> &str {
        self.day.get(..7).unwrap_or("")
    }

    /// Returns the day under which the stay is counted.
    pub fn date(&self) -> Option<NaiveDate> {
        self.day.parse().ok()
    }

    /// Returns the site's time zone, or UTC.
    pub fn tz(&self) -> chrono_tz::Tz {
        self.zone.parse().unwrap_or(chrono_tz::Tz::UTC)
    }
}

/// Returns the day of an instant in a time zone, as `YYYY-MM-DD`; empty for an instant outside the calendar.
pub fn day_of(at: UtcMillis, zone: chrono_tz::Tz) -> String {
    at.to_datetime().map_or(String::new(), |at| at.with_timezone(&zone).date_naive().to_string())
}

fn paper(view: &VisitView) -> PaperFacts {
    let Some(known) = &view.header.paper else { return PaperFacts::default() };
    let paper = &known.value;
    PaperFacts {
        recorded: true,
        number: paper.number.trim().to_owned(),
        car: paper.car.trim().to_owned(),
        shipper: paper.shipper.trim().to_owned(),
        un_number: paper.un_number.trim().to_owned(),
        billed_text: paper.billed.as_ref().map_or(String::new(), |billed| billed.shown()),
        // The day stands on the office's own paper, from which `report` takes it.
        day: String::new(),
        billed_by: paper.billed_by,
    }
}

fn seals(slots: &Slots<'_>) -> Vec<SealFact> {
    let stands = |fate: Fate| matches!(fate, Fate::Live | Fate::MovedOn);
    let items = slots.items().iter().filter(|item| stands(item.fate));
    items
        .filter_map(|item| match &item.entry.body.says {
            Statement::Seal(seal) => Some(SealFact {
                event: seal.event,
                place: seal.place,
                number: seal.number.trim().to_owned(),
                kind: seal.kind,
                intact: seal.intact,
                note: seal.note.spoken().trim().to_owned(),
                at: item.at,
                entry: item.entry.id,
            }),
            _ => None,
        })
        .collect()
}

fn defects(view: &VisitView) -> Vec<DefectFact> {
    let answered = |by: &str, reference: &str| match reference {
        "" => by.to_owned(),
        reference => format!("{by}, {reference}"),
    };
    view.defects
        .iter()
        .map(|defect| DefectFact {
            id: defect.id,
            fitting: defect.fitting,
            what: defect.what.clone(),
            needs_authority: defect.needs_authority,
            photos: defect.photos.clone(),
            noted: defect.said.claimed,
            noted_shown: defect.said.shown.clone(),
            by: defect.said.name.clone(),
            visit: defect.visit,
            forwarded: defect
                .forwarded
                .iter()
                .map(|sent| format!("{} ({}), {}", sent.to, sent.how, sent.said.shown))
                .collect(),
            authority: defect
                .authority
                .as_ref()
                .map_or(String::new(), |known| answered(&known.value.by, &known.value.reference)),
            written_due: defect.authority.as_ref().and_then(|known| known.value.written_due),
            resolved: defect.resolved.as_ref().map_or(String::new(), |known| match known.value.as_str() {
                "" => "put right".to_owned(),
                how => how.to_owned(),
            }),
        })
        .collect()
}

fn efforts(view: &VisitView) -> Vec<EffortFact> {
    let here = |visit: Option<VisitId>| visit.is_some_and(|visit| view.header.visits.contains(&visit));
    view.car
        .efforts
        .iter()
        .filter(|point| here(point.visit))
        .filter_map(|point| {
            let foot_pounds = point.amount.value_in(Unit::FootPound)?;
            Some(EffortFact { fitting: point.fitting, part: point.part, foot_pounds, at: point.at })
        })
        .collect()
}

/// Returns the instruments and hoses that any reading or connection names. Corrected readings count as well,
/// because the instrument was in use.
fn used(slots: &Slots<'_>, zone: chrono_tz::Tz) -> Vec<Used> {
    let mut first: BTreeMap<(bool, String), String> = BTreeMap::new();
    for item in slots.items() {
        let (hose, name) = match &item.entry.body.says {
            Statement::Reading(reading) => (false, reading.instrument.trim()),
            Statement::Line { hose, connected: true, .. } => (true, hose.trim()),
            _ => continue,
        };
        if name.is_empty() || !matches!(item.entry.body.about, Subject::Visit(_)) {
            continue;
        }
        let day = day_of(item.at, zone);
        let known = first.entry((hose, name.to_owned())).or_insert_with(|| day.clone());
        if day < *known {
            *known = day;
        }
    }
    first.into_iter().map(|((hose, name), day)| Used { hose, name, day }).collect()
}

fn gaps(view: &VisitView) -> Vec<GapFact> {
    let mut gaps: Vec<GapFact> = view
        .chain_gaps
        .iter()
        .map(|gap| {
            let (from, to, missing) = match &gap.gap {
                ChainGap::Missing { from, to, .. } => (*from, *to, true),
                ChainGap::Doubled { seq, .. } | ChainGap::Broken { seq, .. } => (*seq, *seq, false),
            };
            GapFact { device: gap.gap.device(), from, to, missing, sentence: gap.sentence.clone() }
        })
        .collect();
    gaps.sort();
    gaps
}

/// Returns a stay of an invented car of which nothing but the number is known, for tests.
#[cfg(any(test, feature = "testing"))]
pub fn sample(car: &str) -> Facts {
    let mut visit = [0u8; 16];
    visit.copy_from_slice(&Digest::of(car.as_bytes()).0[..16]);
    let visit = VisitId(visit);
    Facts {
        visits: vec![visit],
        car: car.to_owned(),
        car_again: String::new(),
        site: Some(SiteId([1; 16])),
        site_name: "Somewhere (invented)".to_owned(),
        zone: "UTC".to_owned(),
        from: Some(UtcMillis(1_793_000_000_000)),
        latest: Some(UtcMillis(1_793_040_000_000)),
        day: "2026-10-26".to_owned(),
        stage: Stage::Release,
        released: Some(UtcMillis(1_793_040_000_000)),
        paper: PaperFacts::default(),
        billed: None,
        found: None,
        received: None,
        vapour: None,
        left: None,
        missing: Vec::new(),
        gauge: String::new(),
        fill: None,
        clock: BTreeMap::new(),
        clock_disputed: Vec::new(),
        seals: Vec::new(),
        defects: Vec::new(),
        efforts: Vec::new(),
        used: Vec::new(),
        gaps: Vec::new(),
        disagreements: Vec::new(),
        open_blockers: 0,
        alarms: Vec::new(),
        not_joined: Vec::new(),
        shell_gal: None,
    }
}
