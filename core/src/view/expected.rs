//! The cars that are expected at a site by the papers that the office sent there, and which paper is a stay's own.
//!
//! A paper waits for its car for some weeks. It stops waiting when a stay of the car takes it: one that was not yet over
//! when the paper was sent, and that began before the paper had waited too long. Nothing is taken from a paper by
//! itself: it is shown, and a person at the car compares it with the paper in hand.

use std::collections::BTreeMap;

use chrono::NaiveDate;
use serde::Serialize;

use super::fold_context::FoldContext;
use super::header::Header;
use super::slots::Slots;
use crate::calc::product::Product;
use crate::clock::UtcMillis;
use crate::entry::car_number::CarNumber;
use crate::entry::{Paper, Slot, Statement, under};
use crate::ids::{Digest, EntryId, OperatorId};
use crate::units::{Finding, Severity, agree};
use crate::{Arg, Joint, Message, message};

const DAY: i64 = 24 * 60 * 60 * 1000;
/// How long a paper waits for its car: common practice, no source.
const WAITS_DAYS: i64 = 30;
/// How far ahead a car can be expected.
const MOST_DAYS_AHEAD: i64 = 60;
/// The most papers that are shown as waiting at one site, the newest of them.
pub const MOST_WAITING: usize = 200;

/// A car that is expected, with what its paper says and where the office read it.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct ExpectedCar {
    /// The office's entry.
    pub entry: EntryId,
    /// The car number in its normal form.
    pub car: String,
    /// What the paper says, in the form in which a stay records that it was compared with the paper in hand.
    pub paper: Paper,
    /// The day on which the paper was made out; empty if the file does not say.
    pub dated: String,
    /// The day on which the car is expected; empty if the file does not say.
    pub expected: String,
    /// The SHA-256 of the imported file.
    pub file: Digest,
    /// The name of the imported file.
    pub file_name: String,
    /// The line in the file.
    pub line: u32,
    /// Who sent it.
    pub by: OperatorId,
    /// When it was sent.
    pub at: UtcMillis,
    /// Whether two papers that differ stand for this car, so that neither is taken for it.
    pub disputed: bool,
}

/// A stay of a car, as far as it decides which paper is its own.
#[derive(Clone, Debug, PartialEq)]
pub struct StayOfCar {
    /// The car number.
    pub car: CarNumber,
    /// When the stay began.
    pub since: UtcMillis,
    /// When the car was released; `None` as long as it stands there.
    pub until: Option<UtcMillis>,
}

/// What the office sent to a site and took back, by car.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PapersSent {
    /// Every paper, whatever became of it, because a stay names the one that it was compared with.
    all: BTreeMap<EntryId, ExpectedCar>,
    /// What was said of each car, in order: a paper, or that it was taken back.
    by_car: BTreeMap<String, Vec<(UtcMillis, Option<EntryId>)>>,
}

impl ExpectedCar {
    /// Returns the time until which the paper waits for its car.
    pub fn waits_until(&self) -> UtcMillis {
        let most = self.at.0.saturating_add(MOST_DAYS_AHEAD * DAY);
        let expected = self.expected.parse::<NaiveDate>().ok();
        let expected = expected.and_then(|day| day.and_hms_opt(0, 0, 0));
        let expected = expected.map_or(self.at.0, |day| day.and_utc().timestamp_millis());
        UtcMillis(expected.clamp(self.at.0, most).saturating_add(WAITS_DAYS * DAY))
    }

    /// Returns true if a stay takes the paper for its own.
    pub fn is_taken_by(&self, stay: &StayOfCar) -> bool {
        stay.car.normal() == self.car
            && stay.until.is_none_or(|until| until >= self.at)
            && stay.since <= self.waits_until()
    }

    fn number(&self) -> CarNumber {
        CarNumber(self.car.clone())
    }
}

impl PapersSent {
    /// Folds a site's entries. Their order and duplicates do not matter.
    pub(super) fn fold(slots: &Slots<'_>) -> PapersSent {
        let mut sent = PapersSent::default();
        for slot in slots.names_under(under::EXPECTED) {
            let disputed = slots.is_disputed(slot);
            for item in slots.all(slot) {
                if let Statement::PaperExpected(said) = &item.entry.body.says
                    && said.is_in_bounds()
                {
                    let car = ExpectedCar {
                        entry: item.entry.id,
                        car: said.car.normal(),
                        paper: Paper { compared: Some(item.entry.id), ..said.paper() },
                        dated: said.dated.trim().to_owned(),
                        expected: said.expected.trim().to_owned(),
                        file: said.file,
                        file_name: said.file_name.trim().to_owned(),
                        line: said.line,
                        by: item.entry.body.by.in_bounds(),
                        at: item.at,
                        disputed,
                    };
                    sent.all.insert(item.entry.id, car);
                }
            }
            let mut said: Vec<_> = slots.stood(slot).filter(|item| item.credible).collect();
            // What stands comes last, whatever its clock said.
            let last = slots.latest(slot).map(|item| item.place);
            said.sort_by_key(|item| (Some(item.place) == last, item.at, item.place));
            for item in said {
                let (car, paper) = match item.claim {
                    Some(Statement::PaperExpected(said)) => {
                        (said.car.normal(), slots.items().get(item.claim_place).map(|made| made.entry.id))
                    }
                    Some(Statement::PaperTakenBack(said)) => (said.car.normal(), None),
                    _ => continue,
                };
                let paper = paper.filter(|paper| sent.all.contains_key(paper));
                sent.by_car.entry(car).or_default().push((item.at, paper));
            }
        }
        sent
    }

    /// Returns true if the office never sent one.
    pub fn is_empty(&self) -> bool {
        self.all.is_empty()
    }

    /// Returns the paper with which a stay names to have been compared.
    pub fn paper(&self, entry: EntryId) -> Option<&ExpectedCar> {
        self.all.get(&entry)
    }

    /// Returns the papers that stand: the last one sent for each car, if it was not taken back.
    pub fn standing(&self) -> impl Iterator<Item = &ExpectedCar> {
        self.by_car.values().filter_map(|said| self.all.get(&said.last()?.1?))
    }

    /// Returns the papers that wait for their cars, the newest first.
    pub fn waiting(&self, stays: &[StayOfCar], now: UtcMillis) -> Vec<ExpectedCar> {
        let mut by_car: BTreeMap<String, Vec<&StayOfCar>> = BTreeMap::new();
        for stay in stays {
            by_car.entry(stay.car.normal()).or_default().push(stay);
        }
        let taken = |paper: &ExpectedCar| {
            by_car.get(&paper.car).into_iter().flatten().any(|stay| paper.is_taken_by(stay))
        };
        let waits = |paper: &&ExpectedCar| now <= paper.waits_until() && !taken(paper);
        let mut waiting: Vec<ExpectedCar> = self.standing().filter(waits).cloned().collect();
        waiting.sort_by(|a, b| b.at.cmp(&a.at).then_with(|| a.car.cmp(&b.car)));
        waiting.truncate(MOST_WAITING);
        waiting
    }

    /// Returns the stay's own paper: the last one sent for its car while it was there or before, unless another stay
    /// of the car came for it first.
    pub fn paper_of(&self, stay: &StayOfCar, others: &[StayOfCar]) -> Option<&ExpectedCar> {
        let said = self.by_car.get(&stay.car.normal())?;
        let there = |at: &UtcMillis| stay.until.is_none_or(|until| *at <= until);
        let paper = self.all.get(&said.iter().rev().find(|(at, _)| there(at))?.1?)?;
        let earlier = |other: &StayOfCar| paper.is_taken_by(other) && other.since < stay.since;
        (paper.is_taken_by(stay) && !others.iter().any(earlier)).then_some(paper)
    }

    /// Returns a paper that waits for a car whose number differs from the stay's by one slip, if no paper names the
    /// stay's own car.
    pub fn near(&self, stay: &StayOfCar, others: &[StayOfCar], now: UtcMillis) -> Option<&ExpectedCar> {
        if self.paper_of(stay, others).is_some() {
            return None;
        }
        let waits = |paper: &&ExpectedCar| {
            now <= paper.waits_until() && !others.iter().any(|other| paper.is_taken_by(other))
        };
        self.standing().filter(waits).find(|paper| stay.car.is_near(&paper.number()))
    }
}

/// Returns what two papers say differently, with both. What only one of them says is no difference.
fn differences(recorded: &Paper, sent: &Paper) -> Vec<Message> {
    let words = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase();
    let car = |paper: &Paper| CarNumber(paper.car.clone()).normal();
    let product = |paper: &Paper| Product::read(&paper.un_number);
    let same_product = product(recorded).is_some() && product(recorded) == product(sent);
    let un = |paper: &Paper| if same_product { String::new() } else { paper.un_number.clone() };
    let texts = [
        ("car", car(recorded), car(sent)),
        ("number", recorded.number.clone(), sent.number.clone()),
        ("un_number", un(recorded), un(sent)),
    ];
    let differ = |a: &str, b: &str| !a.trim().is_empty() && !b.trim().is_empty() && words(a) != words(b);
    let mut found: Vec<Message> = texts
        .into_iter()
        .filter(|(_, here, there)| differ(here, there))
        .map(|(fact, here, there)| of_fact(fact, Arg::typed(here.trim()), Arg::typed(there.trim())))
        .collect();
    let amounts = [
        ("billed", &recorded.billed, &sent.billed),
        ("relative_density", &recorded.relative_density, &sent.relative_density),
    ];
    for (fact, here, there) in amounts {
        let Some((here, there)) = here.as_ref().zip(there.as_ref()) else { continue };
        let same = match (here.value, there.value_in(here.unit)) {
            (Some(one), Some(other)) => agree(one, other),
            _ => words(&here.text) == words(&there.text),
        };
        if !same {
            found.push(of_fact(fact, here.arg(), there.arg()));
        }
    }
    let answer = |yes: bool| Message::term("paper_odorized", if yes { "yes" } else { "no" });
    let words: [(&str, Option<Message>, Option<Message>); 4] = [
        ("odorised", recorded.odorised.map(answer), sent.odorised.map(answer)),
        ("grade", recorded.grade.map(|grade| grade.term()), sent.grade.map(|grade| grade.term())),
        ("billed_by", recorded.billed_by.map(|by| by.term()), sent.billed_by.map(|by| by.term())),
        ("winter_fill", recorded.winter_fill.map(answer), sent.winter_fill.map(answer)),
    ];
    for (fact, here, there) in words {
        if let Some((here, there)) = here.zip(there).filter(|(here, there)| here != there) {
            found.push(of_fact(fact, here.into(), there.into()));
        }
    }
    found
}

fn of_fact(fact: &'static str, here: Arg, there: Arg) -> Message {
    message!("paper-differs", fact = Message::term("paper_fact", fact), here = here, there = there)
}

/// Returns where the office read a paper, and who sent it when.
pub(super) fn source(ledger: &FoldContext<'_>, paper: &ExpectedCar) -> Message {
    message!(
        "paper-source",
        file = Arg::typed(if paper.file_name.is_empty() { "\u{2014}" } else { paper.file_name.as_str() }),
        line = u64::from(paper.line),
        by = Arg::typed(ledger.name(&paper.by)),
        at = Arg::typed(ledger.shown(paper.at)),
    )
}

/// Points out where a stay's paper differs from the one that the office sent, and a paper that waits for a car with
/// almost the same number.
pub(super) fn findings(ledger: &FoldContext<'_>, header: &Header, found: &mut Vec<Finding>) {
    let Some(papers) = ledger.ctx.site.map(|site| &site.papers).filter(|papers| !papers.is_empty()) else {
        return;
    };
    let Some((opened, since)) = header.opened.as_ref().zip(header.since) else { return };
    let until = ledger.slots.latest(&Slot::RELEASED).map(|item| item.at);
    let stay = StayOfCar { car: opened.value.car.clone(), since, until };
    let others = ledger.ctx.others.iter().filter(|other| other.site == header.site);
    let others: Vec<StayOfCar> = others
        .map(|other| StayOfCar { car: other.car.clone(), since: other.from, until: other.until })
        .collect();
    let recorded = header.paper.as_ref().map(|known| &known.value);
    let sent = match recorded.and_then(|paper| paper.compared) {
        Some(named) => papers.paper(named),
        None => papers.paper_of(&stay, &others),
    };
    if let Some((recorded, sent)) = recorded.zip(sent) {
        let differences = differences(recorded, &sent.paper);
        if !differences.is_empty() {
            let message = message!(
                "finding-paper-not-as-sent",
                differences = Arg::list(Joint::Semicolon, differences),
                source = source(ledger, sent),
            );
            found.push(Finding::new("paper_not_as_sent", Severity::Check, message));
        }
    }
    // In a list the other stays are not known, and one of them may be the other car's own.
    let read_again = header.number_again.as_ref().is_some_and(|again| again.value.normal() == header.car);
    let on_paper = recorded.is_some_and(|paper| CarNumber(paper.car.clone()).normal() == header.car);
    if ledger.ctx.compute
        && until.is_none()
        && !read_again
        && !on_paper
        && let Some(near) = papers.near(&stay, &others, ledger.ctx.now)
    {
        let message = message!(
            "finding-expected-number-near",
            expected = Arg::typed(&near.car),
            car = Arg::typed(&header.car),
            source = source(ledger, near),
        );
        found.push(Finding::new("expected_number_near", Severity::Check, message));
    }
}
