//! Queries of the index: the cars at the sites now, the results of a search, and the stay a visit belongs to.

use std::collections::BTreeSet;

use chrono::NaiveDate;
use farsiding_core::authority::Authority;
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::{Entry, LastEntry};
use farsiding_core::ids::{DeviceId, SiteId, VisitId};
use farsiding_core::units::{Finding, Severity};
use farsiding_core::view::{ChainGap, ChainGapView, SiteView, VisitView, plain, plain_car};
use farsiding_core::{Arg, Joint, Message, message};
use rusqlite::{OptionalExtension as _, Params, params};

use super::chains::{self, Gap};
use super::fold::Surroundings;
use super::ledger_reader::LedgerReader;
use super::near_misses::slips_of;
use super::row::IndexRow;
use super::{Asking, IndexError};

const DAY: i64 = 24 * 60 * 60 * 1000;
/// How long a released car that is not recorded as pulled stays in the overview, in milliseconds.
const LEAVING_FOR: i64 = 3 * DAY;
/// The longest stay that is found by a day in the middle of it, in milliseconds.
const LONGEST_STAY: i64 = 120 * DAY;

/// The result of a search.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Found {
    /// The stays that match, the most likely and newest first.
    pub fits: Vec<Hit>,
    /// Whether there are more matches than are listed.
    pub more: bool,
    /// Stays whose number differs by one slip from the one searched for.
    pub near: Vec<Hit>,
    /// The day that was recognised in the search text.
    pub day: Option<NaiveDate>,
}

/// Returns what was recorded of a seal, as the index keeps it.
fn said_of(kept: &str) -> Message {
    serde_json::from_str(kept).unwrap_or_default()
}

/// A stay that matches, and why.
#[derive(Debug, Clone, PartialEq)]
pub struct Hit {
    /// The stay's index row.
    pub line: IndexRow,
    /// What matches, in words.
    pub why: Message,
}

/// A stay folded for its page.
#[derive(Debug)]
pub struct Shown {
    /// The view of the whole record.
    pub view: VisitView,
    /// The site of the stay.
    pub site: Option<SiteView>,
    /// The entries of the stay.
    pub entries: Vec<Entry>,
    /// The known times of arrival of the entries.
    pub received: std::collections::BTreeMap<farsiding_core::ids::EntryId, UtcMillis>,
}

impl Asking<'_> {
    /// Returns the authority of the organisation, which decides who may say what.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn authority(&self) -> Result<Authority, IndexError> {
        self.ledger.authority(&self.whole.key, UtcMillis(i64::MAX))
    }

    fn lines(&self, sql: &str, with: impl Params) -> Result<Vec<IndexRow>, IndexError> {
        let mut statement = self.index.prepare_cached(sql)?;
        let rows = statement.query_map(with, |row| row.get::<_, String>(0))?;
        let mut lines = Vec::new();
        for row in rows {
            let line: IndexRow = serde_json::from_str(&row?)?;
            if !self.leaves_out(&line.visits) {
                lines.push(line);
            }
        }
        Ok(lines)
    }

    /// Returns the cars at the sites, which are the cars that are not released, sorted by site and time.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn here(&self) -> Result<Vec<IndexRow>, IndexError> {
        self.lines("SELECT line FROM stay WHERE released = 0 ORDER BY site, since", [])
    }

    /// Returns the recently released cars that are not recorded as pulled.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn leaving(&self, now: UtcMillis) -> Result<Vec<IndexRow>, IndexError> {
        let sql = "SELECT line FROM stay WHERE released = 1 AND pulled = 0 AND released_at > ?1
                   ORDER BY released_at DESC LIMIT 200";
        self.lines(sql, [now.0 - LEAVING_FOR])
    }

    /// Returns the known sites, sorted by name.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn sites(&self) -> Result<Vec<(SiteId, String)>, IndexError> {
        let mut statement = self.index.prepare_cached("SELECT site, name FROM site ORDER BY name")?;
        let rows = statement.query_map([], |row| Ok((SiteId(row.get(0)?), row.get(1)?)))?;
        Ok(rows.collect::<Result<_, _>>()?)
    }

    /// Returns the faults in the chains of all devices.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn gaps(&self) -> Result<Vec<(DeviceId, Gap)>, IndexError> {
        chains::all_gaps(self.index, self.ledger)
    }

    /// Returns the newest entry of a device that is in the ledger.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn newest_of(&self, device: DeviceId) -> Result<Option<LastEntry>, IndexError> {
        chains::newest_of(self.index, device)
    }

    /// Returns the visits of the stay that a visit belongs to, or `None` if the index does not know the visit
    /// yet.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn stay_of(&self, visit: VisitId) -> Result<Option<Vec<VisitId>>, IndexError> {
        let sql = "SELECT b.visit FROM visit AS a JOIN visit AS b ON b.stay = a.stay
                   WHERE a.visit = ?1 AND a.stay <> 0 ORDER BY b.visit";
        let mut statement = self.index.prepare_cached(sql)?;
        let rows = statement.query_map([visit.0], |row| Ok(VisitId(row.get(0)?)))?;
        let visits = rows.collect::<Result<Vec<_>, _>>()?;
        Ok(Some(visits).filter(|visits| !visits.is_empty()))
    }

    /// Runs `read` on one consistent state of the ledger, with a cache for folding.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn at_one_moment<T>(
        &self,
        now: UtcMillis,
        read: impl FnOnce(&mut Surroundings<'_>, &LedgerReader) -> Result<T, IndexError>,
    ) -> Result<T, IndexError> {
        self.ledger.at_one_moment(|ledger| {
            let parts = (&self.whole.procedures, &self.whole.formulas);
            read(&mut Surroundings::read(ledger, &self.whole.key, parts, now)?, ledger)
        })
    }

    /// Folds a stay like [`Asking::show`], but with these visits only, even if the stay was joined with
    /// others since. Returns `None` when the visit is not among them.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn show_within(
        &self,
        visit: VisitId,
        within: &[VisitId],
        now: UtcMillis,
    ) -> Result<Option<Shown>, IndexError> {
        if !within.contains(&visit) {
            return Ok(None);
        }
        let stay = self.stay_of(visit)?.unwrap_or_else(|| vec![visit]);
        let visits: Vec<VisitId> = stay.into_iter().filter(|visit| within.contains(visit)).collect();
        self.show_visits(&visits, true, now)
    }

    /// Folds the stay that a visit belongs to from the current state of the ledger, with the gaps in its
    /// devices' chains and the records it may be confused with. Returns `None` when there is no entry of the
    /// visit.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn show(&self, visit: VisitId, now: UtcMillis) -> Result<Option<Shown>, IndexError> {
        let visits = self.stay_of(visit)?.unwrap_or_else(|| vec![visit]);
        self.show_visits(&visits, false, now)
    }

    fn show_visits(
        &self,
        visits: &[VisitId],
        alone: bool,
        now: UtcMillis,
    ) -> Result<Option<Shown>, IndexError> {
        self.at_one_moment(now, |around, _| {
            let mut stay = around.gather(visits)?;
            if alone {
                stay.keep_only(visits);
            }
            if stay.entries().next().is_none() && stay.unreadable == 0 {
                return Ok(None);
            }
            let mut others = Vec::new();
            for other in self.alike(visits)? {
                let other = around.gather(&other)?;
                others.extend(around.fold(&other, &[])?.brief);
            }
            let mut view = around.fold(&stay, &others)?;
            self.add_gaps(&mut view, around.reader)?;
            let received = stay.received();
            let site = match &stay.opened {
                Some(opened) => Some(around.site(opened.site)?.clone()),
                None => None,
            };
            Ok(Some(Shown { view, site, entries: stay.entries().cloned().collect(), received }))
        })
    }

    /// Returns the stays at the same site in the same days whose car number is equal or differs by one slip.
    fn alike(&self, visits: &[VisitId]) -> Result<Vec<Vec<VisitId>>, IndexError> {
        let Some(first) = visits.first() else { return Ok(Vec::new()) };
        let this = self.lines("SELECT line FROM stay WHERE first = ?1", [first.0])?;
        let Some(this) = this.first() else { return Ok(Vec::new()) };
        let Some(site) = this.site else { return Ok(Vec::new()) };
        let number = plain_car(&this.car);
        let wanted: BTreeSet<String> = slips_of(&number).into_iter().chain([number]).collect();
        let around = self.lines(
            "SELECT line FROM stay WHERE site = ?1 AND since BETWEEN ?2 AND ?3",
            params![site.0, this.since.0.saturating_sub(LONGEST_STAY), this.latest.0.saturating_add(DAY)],
        )?;
        let alike = around.into_iter().filter(|line| {
            line.visits != visits
                && wanted.contains(&plain_car(&line.car))
                && (!line.released || line.latest.0 >= this.since.0.saturating_sub(DAY))
        });
        Ok(alike.map(|line| line.visits).collect())
    }

    /// Adds the gaps in the chains of the devices that took part, judged from the whole ledger, to the view.
    fn add_gaps(&self, view: &mut VisitView, reader: &LedgerReader) -> Result<(), IndexError> {
        let mut said = Vec::new();
        for device in &view.header.devices {
            for gap in chains::gaps_beside(self.index, device.device, reader)? {
                let sentence = gap.sentence(&device.name);
                if let Gap::Missing { from, to } = gap {
                    let gap = ChainGap::Missing { device: device.device, from, to };
                    view.chain_gaps.push(ChainGapView { gap, sentence: sentence.clone() });
                    said.push(sentence);
                }
            }
        }
        if !said.is_empty() {
            view.findings.push(Finding::new(
                "chain_gaps",
                Severity::Check,
                message!("finding-chain-gaps", gaps = Arg::list(Joint::Sentences, said)),
            ));
        }
        Ok(())
    }

    /// Searches for a car number, a seal, a date, a site, or several of them in one text.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn inquire(&self, question: &str, most: usize) -> Result<Found, IndexError> {
        let (day, rest) = take_day(question);
        let mut found = Found { day, ..Found::default() };
        let wanted = plain(&rest);
        let mut hits: Vec<Hit> = Vec::new();
        if wanted.is_empty() {
            if let Some(day) = day {
                hits = self.on(day, None)?;
            }
        } else {
            self.by_number(&wanted, &rest, &mut hits)?;
            self.by_seal(&wanted, &mut hits)?;
            self.by_place(&rest, day, &mut hits)?;
            if hits.is_empty() {
                found.near = self.near(&wanted)?;
            }
        }
        if let Some(day) = day {
            hits.retain(|hit| was_there(&hit.line, day));
        }
        let mut seen = BTreeSet::new();
        hits.retain(|hit| hit.line.visits.first().is_none_or(|visit| seen.insert(*visit)));
        found.more = hits.len() > most;
        hits.truncate(most);
        found.fits = hits;
        Ok(found)
    }

    fn by_number(&self, wanted: &str, typed: &str, hits: &mut Vec<Hit>) -> Result<(), IndexError> {
        let number = plain_car(typed);
        for (sql, text) in [
            ("SELECT line FROM stay WHERE car_plain = ?1 ORDER BY since DESC LIMIT 200", number.as_str()),
            ("SELECT line FROM stay WHERE car_digits = ?1 ORDER BY since DESC LIMIT 200", wanted),
        ] {
            let lines = self.lines(sql, [text])?;
            hits.extend(
                lines.into_iter().map(|line| Hit { line, why: message!("office-inquiry-why-number") }),
            );
        }
        if hits.is_empty() && wanted.len() >= 3 {
            let until = format!("{wanted}\u{10ffff}");
            for column in ["car_plain", "car_digits"] {
                let sql = format!(
                    "SELECT line FROM stay WHERE {column} >= ?1 AND {column} < ?2 ORDER BY {column} LIMIT 100"
                );
                let lines = self.lines(&sql, [wanted, until.as_str()])?;
                let why = || message!("office-inquiry-why-begins");
                hits.extend(lines.into_iter().map(|line| Hit { line, why: why() }));
            }
        }
        Ok(())
    }

    fn by_seal(&self, wanted: &str, hits: &mut Vec<Hit>) -> Result<(), IndexError> {
        let until = format!("{wanted}\u{10ffff}");
        let exact = "SELECT stay, said FROM seal WHERE plain = ?1 LIMIT 100";
        let begins = "SELECT stay, said FROM seal WHERE plain >= ?1 AND plain < ?2 LIMIT 50";
        let read = |row: &rusqlite::Row<'_>| Ok((row.get::<_, i64>(0)?, row.get::<_, String>(1)?));
        let mut seals: Vec<(i64, String)> = {
            let mut statement = self.index.prepare_cached(exact)?;
            let rows = statement.query_map([wanted], read)?;
            rows.collect::<Result<_, _>>()?
        };
        if seals.is_empty() && wanted.len() >= 4 {
            let mut statement = self.index.prepare_cached(begins)?;
            let rows = statement.query_map([wanted, until.as_str()], read)?;
            seals = rows.collect::<Result<_, _>>()?;
        }
        let mut by_stay: Vec<(IndexRow, Message)> = Vec::new();
        for (stay, said) in seals {
            let line = self.lines("SELECT line FROM stay WHERE number = ?1", [stay])?;
            by_stay.extend(line.into_iter().map(|line| (line, said_of(&said))));
        }
        by_stay.sort_by_key(|(line, _)| std::cmp::Reverse(line.since));
        hits.extend(by_stay.into_iter().map(|(line, why)| Hit { line, why }));
        Ok(())
    }

    fn by_place(&self, rest: &str, day: Option<NaiveDate>, hits: &mut Vec<Hit>) -> Result<(), IndexError> {
        let words: Vec<String> = rest
            .split_whitespace()
            .map(str::to_lowercase)
            .filter(|word| !matches!(word.as_str(), "at" | "on" | "in" | "the"))
            .collect();
        for (site, name) in self.sites()? {
            let lower = name.to_lowercase();
            if words.is_empty() || !words.iter().all(|word| lower.contains(word.as_str())) {
                continue;
            }
            match day {
                Some(day) => hits.extend(self.on(day, Some(site))?),
                None => {
                    let sql = "SELECT line FROM stay WHERE site = ?1 ORDER BY since DESC LIMIT 100";
                    let lines = self.lines(sql, [site.0])?;
                    hits.extend(lines.into_iter().map(|line| Hit {
                        line,
                        why: message!("office-inquiry-why-at", site = Arg::typed(&name)),
                    }));
                }
            }
        }
        Ok(())
    }

    /// Returns the stays that cover a day.
    fn on(&self, day: NaiveDate, site: Option<SiteId>) -> Result<Vec<Hit>, IndexError> {
        let midnight = day.and_time(chrono::NaiveTime::MIN).and_utc().timestamp_millis();
        // Around the world a day begins up to fourteen hours earlier or later.
        let (from, until) = (midnight - DAY, midnight + 2 * DAY);
        let lines = match site {
            Some(site) => self.lines(
                "SELECT line FROM stay WHERE site = ?1 AND since BETWEEN ?2 AND ?3 AND latest >= ?4
                 ORDER BY since DESC LIMIT 400",
                params![site.0, from - LONGEST_STAY, until, from],
            )?,
            None => self.lines(
                "SELECT line FROM stay WHERE since BETWEEN ?1 AND ?2 AND latest >= ?3
                 ORDER BY since DESC LIMIT 400",
                params![from - LONGEST_STAY, until, from],
            )?,
        };
        let there = lines.into_iter().filter(|line| was_there(line, day));
        Ok(there
            .map(|line| Hit {
                why: message!("office-inquiry-why-day", day = Arg::typed(day.to_string())),
                line,
            })
            .collect())
    }

    fn near(&self, wanted: &str) -> Result<Vec<Hit>, IndexError> {
        let mut near = Vec::new();
        let mut car = self.index.prepare_cached(
            "SELECT line FROM stay WHERE car_plain = ?1 OR car_digits = ?1 ORDER BY since DESC LIMIT 3",
        )?;
        let mut seal = self.index.prepare_cached(
            "SELECT stay.line, seal.said FROM seal JOIN stay ON stay.number = seal.stay WHERE plain = ?1 LIMIT 3",
        )?;
        for slip in slips_of(wanted) {
            for row in car.query_map([&slip], |row| row.get::<_, String>(0))? {
                let line: IndexRow = serde_json::from_str(&row?)?;
                let why = message!("office-inquiry-why-near", said = Arg::typed(&line.car));
                near.push(Hit { line, why });
            }
            let rows =
                seal.query_map([&slip], |row| Ok((row.get::<_, String>(0)?, row.get::<_, String>(1)?)))?;
            for row in rows {
                let (line, said) = row?;
                near.push(Hit {
                    line: serde_json::from_str(&line)?,
                    why: message!("office-inquiry-why-near", said = said_of(&said)),
                });
            }
            if near.len() > 20 {
                break;
            }
        }
        let mut seen = BTreeSet::new();
        near.retain(|hit| !self.leaves_out(&hit.line.visits));
        near.retain(|hit| hit.line.visits.first().is_none_or(|visit| seen.insert(*visit)));
        Ok(near)
    }

    /// Returns the index row of the stay that a visit belongs to.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn line_of(&self, visit: VisitId) -> Result<Option<IndexRow>, IndexError> {
        let sql = "SELECT line FROM visit JOIN stay ON stay.number = visit.stay WHERE visit = ?1";
        let line: Option<String> =
            self.index.prepare_cached(sql)?.query_row([visit.0], |row| row.get(0)).optional()?;
        Ok(line.map(|line| serde_json::from_str(&line)).transpose()?)
    }
}

/// Returns whether a stay covers a day in its site's time zone.
fn was_there(line: &IndexRow, day: NaiveDate) -> bool {
    let zone: chrono_tz::Tz = line.zone.parse().unwrap_or(chrono_tz::Tz::UTC);
    let on = |at: UtcMillis| at.to_datetime().map(|at| at.with_timezone(&zone).date_naive());
    match (on(line.placed.map_or(line.since, |placed| placed.min(line.since))), on(line.latest)) {
        (Some(from), Some(until)) => (from..=until).contains(&day),
        _ => false,
    }
}

const MONTHS: [&str; 12] =
    ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];

/// Finds a day in a search text, in the usual forms: `2026-11-11`, `11/12/2026` (month first), `11 Nov 2026`,
/// `Nov 11, 2026`. Returns the day and the rest of the text.
fn take_day(question: &str) -> (Option<NaiveDate>, String) {
    let words: Vec<&str> = question.split_whitespace().collect();
    for (at, word) in words.iter().enumerate() {
        let bare = word.trim_matches([',', '.', ';']);
        if let Some(day) = one_word_day(bare) {
            return (Some(day), without(&words, at, 1));
        }
        if let Some(three) = words.get(at..at + 3)
            && let Some(day) = three_word_day(three)
        {
            return (Some(day), without(&words, at, 3));
        }
    }
    (None, question.trim().to_owned())
}

fn without(words: &[&str], at: usize, count: usize) -> String {
    let left = words.iter().take(at).chain(words.iter().skip(at + count));
    left.copied().collect::<Vec<_>>().join(" ")
}

fn one_word_day(word: &str) -> Option<NaiveDate> {
    if let Ok(day) = NaiveDate::parse_from_str(word, "%Y-%m-%d") {
        return (word.len() >= 8).then_some(day);
    }
    let (month, rest) = word.split_once('/')?;
    let (day, year) = rest.split_once('/')?;
    let year: i32 = year.parse().ok()?;
    let year = if (0..100).contains(&year) { 2000 + year } else { year };
    NaiveDate::from_ymd_opt(year, month.parse().ok()?, day.parse().ok()?)
}

fn three_word_day(words: &[&str]) -> Option<NaiveDate> {
    let bare: Vec<String> = words.iter().map(|word| word.trim_matches([',', '.']).to_lowercase()).collect();
    let month = |word: &str| {
        let three = word.get(..3).filter(|_| word.chars().all(char::is_alphabetic))?;
        MONTHS.iter().position(|month| *month == three).and_then(|at| u32::try_from(at + 1).ok())
    };
    let [a, b, year] = bare.as_slice() else { return None };
    let year: i32 = year.parse().ok().filter(|year| (1900..2200).contains(year))?;
    let (month, day) = match (month(a), month(b)) {
        (Some(month), None) => (month, b.parse().ok()?),
        (None, Some(month)) => (month, a.parse().ok()?),
        _ => return None,
    };
    NaiveDate::from_ymd_opt(year, month, day)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_day_is_read_as_people_write_days() {
        let day = NaiveDate::from_ymd_opt(2026, 11, 9);
        for (question, rest) in [
            ("2026-11-09", ""),
            ("11/9/2026", ""),
            ("11/09/26 lantern", "lantern"),
            ("ZZQX 7106 9 Nov 2026", "ZZQX 7106"),
            ("Nov 9, 2026 at Lantern Spur", "at Lantern Spur"),
            ("november 9 2026", ""),
        ] {
            assert_eq!(take_day(question), (day, rest.to_owned()), "{question}");
        }
        for none in ["ZZQX 7106", "P88-14-02", "13/13/2026", "K400109", "may 7106", "2026"] {
            assert_eq!(take_day(none), (None, none.to_owned()));
        }
    }
}
