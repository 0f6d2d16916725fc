//! Sending imported papers to a site: which lines of a file can be sent, and what is signed.
//!
//! Nothing goes to a site by itself. The page and the command call this module; which cars a site expects is decided in
//! `farsiding_core::view`.

use std::collections::BTreeMap;

use farsiding_core::book::Draft;
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::car_number::CarNumber;
use farsiding_core::entry::{PaperExpected, PaperTakenBack, Statement};
use farsiding_core::ids::Digest;
use farsiding_core::units::{Amount, Unit};
use farsiding_core::view::{ExpectedCar, SiteView};
use farsiding_reconcile::papers::import::{ImportError, Mapping, PaperLine, take_apart};

/// The most papers that are sent in one act.
pub const MOST_AT_ONCE: usize = 200;
/// How old a paper is at most so that it is proposed: common practice, no source.
const RECENT_DAYS: i64 = 45;
const DAY: i64 = 86_400_000;

/// A line of a file that can be sent.
#[derive(Debug, Clone, PartialEq)]
pub struct Sendable {
    /// What would be signed.
    pub paper: PaperExpected,
    /// Whether the paper is recent, or has no day.
    pub recent: bool,
}

/// Returns the papers of a file that can be sent, one for each car: the one of the latest day, or else the last line. A
/// line that cannot be read is left out, as it is when the file is imported.
///
/// # Errors
/// Returns an [`ImportError`] when the file cannot be read at all.
pub fn sendable(
    (name, bytes): (&str, &[u8]),
    mapping: &Mapping,
    now: UtcMillis,
) -> Result<Vec<Sendable>, ImportError> {
    let file = Digest::of(bytes);
    let since = UtcMillis(now.0.saturating_sub(RECENT_DAYS * DAY)).rfc3339();
    let since = since.get(..10).unwrap_or_default();
    let mut by_car: BTreeMap<String, PaperExpected> = BTreeMap::new();
    for line in take_apart(bytes)?.read(mapping) {
        let Some(paper) = paper_of(&line, file, name).filter(PaperExpected::is_in_bounds) else { continue };
        let car = paper.car.normal();
        // A paper without a day may be of today.
        let day = |paper: &PaperExpected| (paper.dated.is_empty(), paper.dated.clone());
        if by_car.get(&car).is_none_or(|known| day(known) <= day(&paper)) {
            by_car.insert(car, paper);
        }
    }
    let mut found: Vec<Sendable> = by_car
        .into_values()
        .map(|paper| Sendable { recent: paper.dated.is_empty() || paper.dated.as_str() >= since, paper })
        .collect();
    found.sort_by_key(|sendable| sendable.paper.line);
    Ok(found)
}

fn paper_of(line: &PaperLine, file: Digest, name: &str) -> Option<PaperExpected> {
    if !line.faults.is_empty() {
        return None;
    }
    let amount = |text: &str, unit| (!text.trim().is_empty()).then(|| Amount::read(text, unit).0);
    Some(PaperExpected {
        car: CarNumber(line.paper.car.trim().to_owned()),
        number: line.paper.number.clone(),
        shipper: line.paper.shipper.clone(),
        un_number: line.un_number.clone(),
        product: line.product.clone(),
        billed: amount(&line.paper.billed, Unit::Gallon),
        relative_density: amount(&line.density, Unit::One),
        odorised: line.odorised,
        grade: line.grade,
        billed_by: line.billed_by,
        winter_fill: line.winter_fill,
        dated: line.paper.day.clone(),
        expected: line.expected.clone(),
        file,
        file_name: name.to_owned(),
        line: u32::try_from(line.line).ok()?,
    })
}

/// Returns true if the paper stands at the site already as it would be sent.
pub fn stands_there(site: &SiteView, paper: &PaperExpected) -> bool {
    let same = |sent: &&ExpectedCar| {
        let facts = farsiding_core::entry::Paper { compared: None, ..sent.paper.clone() };
        facts == paper.paper() && sent.dated == paper.dated && sent.expected == paper.expected
    };
    site.papers.standing().any(|sent| same(&sent))
}

/// Returns what is signed so that the site expects the cars of these papers.
pub fn drafts(papers: impl IntoIterator<Item = PaperExpected>) -> Vec<Draft> {
    papers.into_iter().map(|paper| Draft::of(Statement::PaperExpected(paper))).collect()
}

/// Returns what is signed so that the site does not expect a car any more.
pub fn taking_back(car: &str, because: &str) -> Draft {
    let because = because.trim().to_owned();
    Draft::of(Statement::PaperTakenBack(PaperTakenBack { car: CarNumber(car.to_owned()), because }))
}
