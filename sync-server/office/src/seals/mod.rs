//! The seals issued to each site, and what became of every number.
//!
//! The functions are pure. Ranges are entries of the sites' documents, uses come from the facts of stays, and
//! void numbers are declared in the office database. A number is missing when a higher number of its range
//! was used and it is neither used nor void. Seals are taken in order (common practice, no source), so a
//! missing number is pointed out, but it accuses nobody.

use std::collections::{BTreeMap, BTreeSet};

use farsiding_core::entry::site_facts::SealStock;
use farsiding_core::entry::vocabulary::SealEvent;
use farsiding_core::ids::{SiteId, VisitId};
use rusqlite::{Connection, params};

use crate::database_error::DatabaseError;
use farsiding_core::clock::UtcMillis;
use farsiding_reconcile::facts::Facts;
use farsiding_reconcile::records::seal_key;

/// The largest range whose numbers are listed.
pub const LARGEST_RANGE: u64 = 20_000;
/// The largest number of seal numbers listed in all, beginning with the first ranges: forty boxes of the
/// largest size.
const MOST_NUMBERS: u64 = 40 * LARGEST_RANGE;
/// The longest listed number, in bytes. Makers' numbers have up to twelve characters (common practice, no
/// source).
const LONGEST_NUMBER: usize = 40;

/// A range of seals with its numbers.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Range {
    /// The site.
    pub site: SiteId,
    /// The site's name.
    pub site_name: String,
    /// The first number.
    pub from: String,
    /// The last number.
    pub to: String,
    /// The kind of seal.
    pub kind: String,
    /// The number of seals in the range, or `None` when they cannot be counted.
    pub count: Option<u64>,
    /// The used numbers, with the car and the visit.
    pub used: Vec<(String, String, VisitId)>,
    /// The void numbers, with the reason.
    pub void: Vec<(String, String)>,
    /// The missing numbers, which are lower than the highest used one.
    pub missing: Vec<String>,
}

/// A seal that was found broken or illegible.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Broken {
    /// The seal's number; empty when illegible.
    pub number: String,
    /// The car's number.
    pub car: String,
    /// The site's name.
    pub site_name: String,
    /// The visit.
    pub visit: Option<VisitId>,
    /// What was noted of the seal.
    pub note: String,
    /// The day on which the seal was found.
    pub day: String,
}

/// Splits a number into its leading letters, its digits at the end and their width.
fn split(number: &str) -> Option<(String, u64, usize)> {
    let key = seal_key(number);
    let digits = key.chars().rev().take_while(char::is_ascii_digit).count();
    let at = key.len().checked_sub(digits)?;
    let (letters, digits) = (key.get(..at)?, key.get(at..)?);
    Some((letters.to_owned(), digits.parse().ok()?, digits.len()))
}

/// Returns the size of a range. Returns `None` if it cannot be listed: its ends must have the same letters
/// and the same width, must rise, and must not be too far apart.
pub fn length(from: &str, to: &str) -> Option<u64> {
    // Every listed number is as long as these two.
    if from.len().max(to.len()) > LONGEST_NUMBER {
        return None;
    }
    let ((a, low, wide), (b, high, wide_too)) = (split(from)?, split(to)?);
    let count = high.checked_sub(low)?.checked_add(1)?;
    (a == b && wide == wide_too && count <= LARGEST_RANGE).then_some(count)
}

/// Returns the ranges with their numbers.
pub fn ranges(
    stock: &[(SiteId, String, SealStock)],
    all: &[Facts],
    void: &BTreeMap<String, String>,
) -> Vec<Range> {
    let mut uses: BTreeMap<String, (String, VisitId)> = BTreeMap::new();
    for facts in all {
        for seal in facts.seals.iter().filter(|seal| seal.event == SealEvent::Applied) {
            if let Some(visit) = facts.visit() {
                uses.entry(seal_key(&seal.number)).or_insert((facts.car.clone(), visit));
            }
        }
    }
    let mut left = MOST_NUMBERS;
    stock
        .iter()
        .map(|(site, site_name, stock)| {
            let count = length(&stock.from, &stock.to).filter(|count| *count <= left);
            left -= count.unwrap_or(0);
            let mut range = Range {
                site: *site,
                site_name: site_name.clone(),
                from: stock.from.clone(),
                to: stock.to.clone(),
                kind: stock.kind.to_string(),
                count,
                used: Vec::new(),
                void: Vec::new(),
                missing: Vec::new(),
            };
            let Some((letters, low, wide)) = split(&stock.from).filter(|_| count.is_some()) else {
                return range;
            };
            let mut unaccounted = Vec::new();
            for number in low..low + count.unwrap_or(0) {
                let key = format!("{letters}{number:0wide$}");
                match (uses.get(&key), void.get(&key)) {
                    (Some((car, visit)), _) => {
                        range.missing.append(&mut unaccounted);
                        range.used.push((key, car.clone(), *visit));
                    }
                    (None, Some(why)) => range.void.push((key, why.clone())),
                    (None, None) => unaccounted.push(key),
                }
            }
            range
        })
        .collect()
}

/// Returns the seals that were found broken, illegible or not intact, newest first.
pub fn broken(all: &[Facts]) -> Vec<Broken> {
    let mut found: Vec<Broken> =
        all.iter()
            .flat_map(|facts| {
                let odd = facts.seals.iter().filter(|seal| {
                    seal.event == SealEvent::Found && (!seal.intact || seal.number.is_empty())
                });
                odd.map(|seal| Broken {
                    number: seal.number.clone(),
                    car: facts.car.clone(),
                    site_name: facts.site_name.clone(),
                    visit: facts.visit(),
                    note: seal.note.clone(),
                    day: facts.day.clone(),
                })
            })
            .collect();
    found.sort_by(|a, b| b.day.cmp(&a.day));
    found
}

/// Returns the applied numbers that are in no range of their site.
pub fn strays<'f>(ranges: &[Range], all: &'f [Facts]) -> Vec<(&'f Facts, String)> {
    let issued: BTreeSet<&str> =
        ranges.iter().flat_map(|range| range.used.iter().map(|(number, _, _)| number.as_str())).collect();
    let applied = all.iter().flat_map(|facts| {
        let put_on = facts.seals.iter().filter(|seal| seal.event == SealEvent::Applied);
        put_on.map(move |seal| (facts, seal_key(&seal.number)))
    });
    applied.filter(|(_, key)| !key.is_empty() && !issued.contains(key.as_str())).collect()
}

/// Returns the numbers that the office declared void.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn void(database: &Connection) -> Result<BTreeMap<String, String>, DatabaseError> {
    let mut statement = database.prepare("SELECT plain, why FROM seal_void")?;
    let rows = statement.query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// Declares a number void.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn declare_void(
    database: &Connection,
    number: &str,
    why: &str,
    by: &str,
    now: UtcMillis,
) -> Result<(), DatabaseError> {
    database.execute(
        "INSERT OR REPLACE INTO seal_void(plain, why, by, at) VALUES(?1, ?2, ?3, ?4)",
        params![seal_key(number), why.trim(), by, now.0],
    )?;
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use farsiding_core::entry::vocabulary::{SealKind, SealPlace};
    use farsiding_core::ids::EntryId;
    use farsiding_reconcile::facts::{SealFact, sample};

    fn applied(car: &str, number: &str) -> Facts {
        let mut facts = sample(car);
        facts.seals.push(SealFact {
            event: SealEvent::Applied,
            place: SealPlace::HousingPin,
            number: number.to_owned(),
            kind: Some(SealKind::Cable),
            intact: true,
            note: String::new(),
            at: UtcMillis(0),
            entry: EntryId([0; 32]),
        });
        facts
    }

    #[test]
    fn what_is_issued_in_millions_is_not_laid_out_in_millions() {
        let long = |last: &str| format!("{}{last}", "K".repeat(16_000));
        assert_eq!(length(&long("00001"), &long("19999")), None);
        let (from, to) = (format!("K{:0>200}", 1), format!("K{:0>200}", 9));
        assert_eq!(length(&from, &to), None);
        let stock: Vec<(SiteId, String, SealStock)> = (0..300)
            .map(|_| SealStock { from: "K00001".into(), to: "K19999".into(), kind: "cable".into() })
            .map(|stock| (SiteId([1; 16]), "Site".to_owned(), stock))
            .collect();
        let laid_out = ranges(&stock, &[], &BTreeMap::new());
        assert_eq!(laid_out.len(), 300);
        assert_eq!(laid_out.iter().filter(|range| range.count.is_some()).count(), 40);
    }

    #[test]
    fn every_number_of_a_range_is_used_void_missing_or_still_there() {
        let stock = SealStock { from: "K0098".into(), to: "K0105".into(), kind: "cable".into() };
        let stock = [(SiteId([1; 16]), "Somewhere".to_owned(), stock)];
        let all = [applied("ZZQX 1", "k-0098"), applied("ZZQX 2", "K0102"), applied("ZZQX 3", "X9999")];
        let void = BTreeMap::from([("K0100".to_owned(), "cut in two".to_owned())]);
        let ranges = ranges(&stock, &all, &void);
        assert_eq!(ranges[0].count, Some(8));
        assert_eq!(ranges[0].used.len(), 2);
        assert_eq!(ranges[0].void.len(), 1);
        assert_eq!(ranges[0].missing, ["K0099", "K0101"], "those above the highest used are still there");
        assert_eq!(strays(&ranges, &all).len(), 1);
    }

    #[test]
    fn a_range_that_is_none_is_not_laid_out() {
        for (from, to) in [("K5", "K1"), ("K1", "L9"), ("K001", "K99"), ("", ""), ("K1", "K99999999")] {
            assert_eq!(length(from, to), None, "{from} {to}");
        }
        assert_eq!(length("18446744073709551615", "18446744073709551615"), Some(1));
        assert_eq!(length("99999999999999999999999", "99999999999999999999999"), None);
    }
}
