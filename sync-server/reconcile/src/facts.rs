//! Facts: what reconciling needs of one stay, folded once and small enough to keep beside its row.
//!
//! [`Facts::of`] is pure: the same view and entries give the same facts. They are derived (kept only in the
//! index, which is remade when missing or of another [`Facts::VERSION`]). How quantities and their shared
//! errors are read is in `amounts`; what is made of many stays is in `reconcile`, `seals`, `defects`.

mod amounts;

use std::collections::BTreeMap;

use chrono::NaiveDate;
use farsiding_core::authority::Judged;
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::Statement;
use farsiding_core::entry::vocabulary::{ClockEvent, Fitting, Part, SealEvent, SealKind, SealPlace};
use farsiding_core::ids::{DefectId, DeviceId, Digest, EntryId, SiteId, Subject, VisitId};
use farsiding_core::procedure::Stage;
use farsiding_core::units::{Severity, Unit};
use farsiding_core::view::{ChainGap, Fate, SiteView, Slots, VisitView};
use serde::{Deserialize, Serialize};

pub use amounts::{Amounted, Fill, Share};

/// What is known of one stay for the office's comparisons.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Facts {
    /// The visits of the stay, ascending; the first names it.
    pub visits: Vec<VisitId>,
    /// The car's number in its normal form; empty while nobody opened the visit.
    pub car: String,
    /// The number as read a second time, normal form; empty when it was not.
    pub car_again: String,
    /// Where.
    pub site: Option<SiteId>,
    /// The site's name; its id's first digits while no name is known.
    pub site_name: String,
    /// IANA zone times and days are counted in.
    pub zone: String,
    /// First claimed time.
    pub from: Option<UtcMillis>,
    /// Last claimed time.
    pub latest: Option<UtcMillis>,
    /// The day the stay is counted under, `YYYY-MM-DD` at the site: placement, else the first record.
    pub day: String,
    /// Where the job stands.
    pub stage: Stage,
    /// When it was released.
    pub released: Option<UtcMillis>,
    /// The shipping paper, as recorded at the car.
    pub paper: PaperFacts,
    /// Billed on the paper.
    pub billed: Option<Amounted>,
    /// Found by gauging on arrival, net at 60 °F.
    pub found: Option<Amounted>,
    /// Taken in by storage or trucks.
    pub received: Option<Amounted>,
    /// Left in the car as vapour, liquid equivalent at 60 °F.
    pub left: Option<Amounted>,
    /// Why a quantity is not there, one sentence each.
    pub missing: Vec<String>,
    /// The instrument the outage was read with; empty when it was not said.
    pub gauge: String,
    /// How full it came, against the limit the core checks.
    pub fill: Option<Fill>,
    /// The car's clock.
    pub clock: BTreeMap<String, UtcMillis>,
    /// Events of the clock on which records differ.
    pub clock_disputed: Vec<String>,
    /// Every event of every seal that stands.
    pub seals: Vec<SealFact>,
    /// Defects known of the car when this was folded.
    pub defects: Vec<DefectFact>,
    /// Closing efforts of this stay.
    pub efforts: Vec<EffortFact>,
    /// Instruments and hoses used, once each, with the first day.
    pub used: Vec<Used>,
    /// Gaps in the chains of the devices that took part.
    pub gaps: Vec<GapFact>,
    /// Slots on which records differ and nobody settled it, in words.
    pub disagreements: Vec<String>,
    /// Blockers nobody passed over.
    pub open_blockers: usize,
    /// Findings that say something is wrong, in words.
    pub alarms: Vec<String>,
    /// Visits compared with this one and found to be another stay.
    pub not_joined: Vec<VisitId>,
    /// Shell capacity, gal.
    pub shell_gal: Option<f64>,
}

/// What the paper says, as recorded.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct PaperFacts {
    /// Whether one was recorded at all.
    pub recorded: bool,
    /// Its number.
    pub number: String,
    /// The car's number printed there, as typed.
    pub car: String,
    /// Who shipped it; empty when it was not said.
    pub shipper: String,
    /// The product's identification number.
    pub un_number: String,
    /// Billed as typed.
    pub billed_text: String,
}

/// One event of one seal.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SealFact {
    /// Found, applied or removed.
    pub event: SealEvent,
    /// Where.
    pub place: SealPlace,
    /// Its number as read; empty when illegible.
    pub number: String,
    /// Its kind.
    pub kind: Option<SealKind>,
    /// Whether it was whole.
    pub intact: bool,
    /// What was noted of it.
    pub note: String,
    /// When, corrected.
    pub at: UtcMillis,
    /// The entry.
    pub entry: EntryId,
}

/// A defect and what became of it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct DefectFact {
    /// Which.
    pub id: DefectId,
    /// At which fitting.
    pub fitting: Option<Fitting>,
    /// What is wrong.
    pub what: String,
    /// Whether the car moves only with an authority's approval.
    pub needs_authority: bool,
    /// Photographs.
    pub photos: Vec<Digest>,
    /// When it was noted, by the device's clock.
    pub noted: UtcMillis,
    /// The same in the site's zone.
    pub noted_shown: String,
    /// Who noted it.
    pub by: String,
    /// During which visit.
    pub visit: Option<VisitId>,
    /// To whom it was reported, with the time, at the car.
    pub forwarded: Vec<String>,
    /// The authority's answer in words.
    pub authority: String,
    /// By when an approval spoken must be there in writing.
    pub written_due: Option<UtcMillis>,
    /// How it was put right; empty while it was not.
    pub resolved: String,
}

impl DefectFact {
    /// Returns whether it still asks for something.
    pub fn is_open(&self) -> bool {
        self.resolved.is_empty()
    }

    /// Returns how far it has come: a later fold of the same defect knows more.
    pub fn progress(&self) -> (bool, bool, usize, usize) {
        let answered = !self.authority.is_empty();
        (!self.resolved.is_empty(), answered, self.forwarded.len(), self.photos.len())
    }
}

/// One closing effort.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct EffortFact {
    /// At which fitting.
    pub fitting: Fitting,
    /// Valve or closure.
    pub part: Part,
    /// Torque, ft·lbf.
    pub foot_pounds: f64,
    /// When, corrected.
    pub at: UtcMillis,
}

/// An instrument or a hose that was used.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct Used {
    /// Whether it is a hose; otherwise an instrument.
    pub hose: bool,
    /// Its name as typed, blanks taken off.
    pub name: String,
    /// The first day it was used here, `YYYY-MM-DD` at the site.
    pub day: String,
}

/// A gap in a device's chain. The same gap shows in every stay the device took part in.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct GapFact {
    /// Whose chain.
    pub device: DeviceId,
    /// First number it is about.
    pub from: u64,
    /// Last number.
    pub to: u64,
    /// Entries are missing; otherwise they contradict one another.
    pub missing: bool,
    /// In a sentence.
    pub sentence: String,
}

impl Facts {
    /// Of which shape facts are: another number means that kept ones are made again.
    pub const VERSION: u32 = 1;

    /// Returns the facts of a stay: its view, its entries (for what a view does not list), its site if known.
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

    /// Returns the first of the stay's visits, by which it is named.
    pub fn visit(&self) -> Option<VisitId> {
        self.visits.first().copied()
    }

    /// Returns the month it is counted under, `YYYY-MM`; empty when no time is known.
    pub fn month(&self) -> &str {
        self.day.get(..7).unwrap_or("")
    }

    /// Returns the day it is counted under.
    pub fn date(&self) -> Option<NaiveDate> {
        self.day.parse().ok()
    }

    /// Returns the zone of the site, or UTC.
    pub fn tz(&self) -> chrono_tz::Tz {
        self.zone.parse().unwrap_or(chrono_tz::Tz::UTC)
    }
}

/// Returns the day of an instant in a zone, `YYYY-MM-DD`; empty for an instant no calendar has.
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

/// Whatever a reading or a line names, also one corrected later: it was in somebody's hands.
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

/// Returns a stay of which nothing is known but its car, for tests of what is made of facts. A stay of an
/// invented car with nothing but its number, for tests.
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
