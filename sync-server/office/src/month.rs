//! Reads the input of reconciling: facts folded from the ledger, and settings and papers from the office
//! database.
//!
//! The pages take facts from the index, which is kept up to date. The command line and tests read the whole
//! ledger once. Reconciling itself uses no database.

use std::collections::BTreeMap;

use farsiding_core::book::{BookError, Snapshot};
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::{Certificate, Entry, PublicKey};
use farsiding_core::ids::{CarId, DeviceId, Subject, VisitId};
use farsiding_core::procedure::Procedures;
use farsiding_core::store::{Store, organisation_keys};
use farsiding_core::view::{self, ChainGap, Chains, Context, Recorded, SiteView};
use rusqlite::{Connection, OptionalExtension as _};

use crate::database_error::DatabaseError;
use crate::held_papers;
use crate::index::chains::Gap;
use crate::index::ledger_reader::Held;
use crate::index::{Asking, IndexError};
use farsiding_reconcile::facts::{Facts, GapFact};
use farsiding_reconcile::{HeldPaper, Settings};

/// The name of the setting that holds the settings of reconciling.
const SETTINGS: &str = "reconcile";

/// Returns the facts of every stay in a ledger, in no particular order.
///
/// # Errors
/// Returns an error when the ledger's store fails.
pub fn of_ledger(
    store: &dyn Store,
    key: &PublicKey,
    procedures: &Procedures,
    now: UtcMillis,
) -> Result<Vec<Facts>, BookError> {
    let gathered = Snapshot::read(store, Some(key), now)?;
    let mut chains = Chains::default();
    let mut cars: BTreeMap<CarId, Vec<Entry>> = BTreeMap::new();
    for subject in store.subjects()? {
        for row in store.entries_of(subject)?.rows {
            let entry = Entry::reopen(row.id, row.bytes)?;
            chains.add(&entry);
            if let Subject::Car(car) = subject {
                cars.entry(car).or_default().push(entry);
            }
        }
    }
    let keys = organisation_keys(store, key)?;
    let names: BTreeMap<DeviceId, String> = store
        .certificates()?
        .into_iter()
        .filter_map(|(device, bytes)| Some((device, Certificate::open(&bytes, &keys).ok()?.name)))
        .collect();
    let gaps: Vec<GapFact> = chains.gaps().into_iter().map(|gap| named(&gap, &names)).collect();
    let mut all = Vec::new();
    for stay in gathered.stays() {
        let entries: Vec<&Entry> = gathered.entries_of(stay).map(|(_, entry)| entry).collect();
        let here = |entry| Recorded { entry, receipted: true, received_at: gathered.received(entry) };
        let recorded: Vec<Recorded<'_>> = entries.iter().copied().map(here).collect();
        let opened = gathered.opened(stay);
        let site = opened.as_ref().and_then(|opened| gathered.sites.get(&opened.site));
        let car = opened.as_ref().and_then(|opened| cars.get(&opened.car.id()));
        let car: Vec<Recorded<'_>> = car.into_iter().flatten().map(here).collect();
        let authority = gathered.authority();
        let on = view::rested_on(entries.iter().copied());
        let on: Vec<VisitId> = on.into_iter().filter(|visit| !stay.contains(visit)).collect();
        let of_the_track = gathered.entries_of(&on).map(|(_, entry)| entry);
        let track: Vec<Recorded<'_>> =
            of_the_track.filter(|entry| view::is_of_the_track(entry)).map(here).collect();
        let context = Context {
            track: &track,
            site,
            authority,
            car: &car,
            people: &gathered.people,
            editions: Some(&gathered.editions),
            ..Context::at(now, procedures)
        };
        let judged = authority.stay(recorded.iter().map(Recorded::received));
        let mut facts = Facts::of(&view::fold(&recorded, &context), judged, site);
        let took_part = |gap: &&GapFact| entries.iter().any(|entry| entry.device == gap.device);
        facts.gaps = gaps.iter().filter(took_part).cloned().collect();
        all.push(facts);
    }
    Ok(all)
}

fn named(gap: &ChainGap, names: &BTreeMap<DeviceId, String>) -> GapFact {
    let device = gap.device();
    let name = names.get(&device).cloned().unwrap_or_else(|| device.short().to_string());
    let (from, to, missing) = match gap {
        ChainGap::Missing { from, to, .. } => (*from, *to, true),
        ChainGap::Doubled { seq, .. } | ChainGap::Broken { seq, .. } => (*seq, *seq, false),
    };
    GapFact { device, from, to, missing, sentence: gap.sentence(&name) }
}

/// Returns the index's facts of the stays that began in a span, and the known gaps, each gap once.
///
/// # Errors
/// Returns an [`IndexError`] when the index or the ledger cannot be read.
pub fn of_index(
    asking: &Asking<'_>,
    (from, until): (UtcMillis, UtcMillis),
) -> Result<(Vec<Facts>, Vec<GapFact>), IndexError> {
    let mut statement = asking
        .index
        .prepare_cached("SELECT facts FROM stay WHERE facts IS NOT NULL AND since BETWEEN ?1 AND ?2")?;
    let mut all = Vec::new();
    for text in statement.query_map([from.0, until.0], |row| row.get::<_, String>(0))? {
        let facts: Facts = serde_json::from_str(&text?)?;
        if !asking.leaves_out(&facts.visits) {
            all.push(facts);
        }
    }
    let gaps = asking.gaps()?.into_iter().map(|(device, gap)| {
        let sentence = gap.sentence(&device.short().to_string());
        let (from, to, missing) = match gap {
            Gap::Missing { from, to } => (from, to, true),
            Gap::Doubled { from } => (from, from, false),
            Gap::Broken { at } => (at, at, false),
        };
        GapFact { device, from, to, missing, sentence }
    });
    Ok((all, gaps.collect()))
}

/// Returns the current view of every site.
///
/// # Errors
/// Returns an [`IndexError`] when the index or the ledger cannot be read.
pub fn sites_of(asking: &Asking<'_>) -> Result<Vec<SiteView>, IndexError> {
    let mut sites = Vec::new();
    let authority = asking.authority()?;
    for (site, _) in asking.sites()? {
        let held = asking.ledger.entries_of(Subject::Site(site))?;
        sites.push(SiteView::fold(Some(site), authority.site(held.iter().map(Held::received))));
    }
    Ok(sites)
}

/// Returns the settings and the stored papers.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn of_database(database: &Connection) -> Result<(Settings, Vec<HeldPaper>), DatabaseError> {
    Ok((settings(database)?, held_papers::papers(database)?))
}

/// Returns the settings, or the defaults if none were stored or the stored ones cannot be read.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn settings(database: &Connection) -> Result<Settings, DatabaseError> {
    let kept: Option<String> = database
        .query_row("SELECT value FROM setting WHERE key = ?1", [SETTINGS], |row| row.get(0))
        .optional()?;
    Ok(kept.and_then(|text| serde_json::from_str(&text).ok()).unwrap_or_default())
}

/// Stores the settings.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn keep_settings(database: &Connection, settings: &Settings) -> Result<(), DatabaseError> {
    let text = serde_json::to_string(settings).map_err(|error| DatabaseError::Database(error.to_string()))?;
    database.execute("INSERT OR REPLACE INTO setting(key, value) VALUES(?1, ?2)", [SETTINGS, &text])?;
    Ok(())
}
