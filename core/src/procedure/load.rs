//! Reading and checking a procedure's text. Every mistake is a typed error that names the step.
//!
//! The registry (`procedure::Procedures`) calls this module for the built-in texts and for an owner's own.

use std::borrow::Cow;
use std::collections::BTreeSet;

use ciborium::Value;
use serde::Deserialize;
use serde::de::DeserializeOwned;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::answer::{BadAnswer, Holds};
use super::gate_rule::{self, GateRule, RuleText};
use super::left_out::{self, LeftOut, LeftOutText};
use super::mistake::ProcedureError;
use super::own_words::OwnWords;
use super::source::{Binds, Law, Source};
use super::step::{ForEach, Leaving, OrderRule, Procedure, Record, Since, Stage, Step, StepOf};
use super::thresholds::{Threshold, Thresholds};
use super::together::{self, TogetherText};
use crate::entry::site_facts::LARGEST_PROCEDURE;
use crate::entry::value_reader::{PathPart, ReadError, from_typed};
use crate::entry::vocabulary::{Fitting, Receiver};
use crate::ids::Digest;
use crate::{Arg, Message, message};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Text {
    id: String,
    edition: String,
    /// The built-in edition that an organisation's own text starts from, by its digest.
    starts_from: Option<String>,
    #[serde(default)]
    title: OwnWords,
    #[serde(default)]
    note: String,
    /// Whether the sentences stand in the catalogues, under ids made of the procedure's and the steps' ids.
    #[serde(default)]
    in_catalogues: bool,
    /// The day on which the laws that it cites were read.
    law_read: Option<String>,
    #[serde(default)]
    not_right_holds: bool,
    #[serde(default)]
    order: Vec<OrderRule>,
    steps: Vec<StepText>,
    #[serde(default)]
    together: Vec<TogetherText>,
    gate: Option<Vec<RuleText>>,
    #[serde(default)]
    thresholds: Thresholds,
    #[serde(default)]
    left_out: Vec<LeftOutText>,
}

/// The rules of the gates alone.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct GatesText {
    gate: Vec<RuleText>,
}

#[derive(Deserialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum LawKnown {
    Read,
    Memory,
}

/// A law as one citation, or several with whom each binds.
#[derive(Deserialize)]
#[serde(untagged)]
pub(super) enum LawText {
    One(String),
    Several(Vec<LawLine>),
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct LawLine {
    cites: String,
    binds: Binds,
    /// The citation of what takes sites out of it.
    except: Option<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct StepText {
    id: String,
    stage: Stage,
    #[serde(default)]
    title: OwnWords,
    #[serde(default)]
    what_to_do: OwnWords,
    #[serde(default)]
    why: OwnWords,
    /// What to do while an answer holds the job.
    #[serde(default)]
    what_now: OwnWords,
    law: Option<LawText>,
    law_known: Option<LawKnown>,
    law_binds: Option<Receiver>,
    #[serde(default)]
    cautions: Vec<String>,
    #[serde(default)]
    records: Vec<Value>,
    #[serde(default)]
    may_record: Vec<Record>,
    #[serde(default)]
    now: Vec<Record>,
    for_each: Option<ForEach>,
    fitting: Option<Fitting>,
    only_for: Option<Receiver>,
    leaves: Option<Leaving>,
    since: Option<Since>,
    #[serde(default)]
    of: StepOf,
    #[serde(default)]
    leaks_hold: bool,
    #[serde(default)]
    as_found: bool,
    #[serde(default)]
    after: Vec<String>,
    repeat_minutes: Option<u32>,
    /// Whether the step repeats at the interval of the thresholds.
    #[serde(default)]
    repeats: bool,
    #[serde(default)]
    optional: bool,
}

type Pair<'t, 'v> = (&'t Spanned<Cow<'v, str>>, &'t Spanned<DeValue<'v>>);

/// Returns what stands under a name, and the byte at which the name stands.
fn place_of<'t, 'v>((name, value): Pair<'t, 'v>) -> (&'t DeValue<'v>, usize) {
    (value.get_ref(), name.span().start)
}

/// Returns the byte of a text at which it ceases to have the form of a procedure.
pub(super) fn form_ends_at(text: &str) -> Option<usize> {
    let value: Value = match toml::from_str(text) {
        Ok(value) => value,
        Err(error) => return error.span().map(|span| span.start),
    };
    let error = from_typed::<Text>(&value).err()?;
    let table = DeTable::parse(text).ok()?;
    let (mut value, mut at): (Option<&DeValue<'_>>, _) = (None, None);
    for part in error.path() {
        let (inside, stands) = match (part, value) {
            (PathPart::Name(name), None) => place_of(table.get_ref().get_key_value(name.as_str())?),
            (PathPart::Name(name), Some(DeValue::Table(table))) => {
                place_of(table.get_key_value(name.as_str())?)
            }
            (PathPart::Place(place), Some(DeValue::Array(items))) => {
                let item = items.get(*place)?;
                (item.get_ref(), item.span().start)
            }
            _ => break,
        };
        (value, at) = (Some(inside), Some(stands));
    }
    at
}

/// Reads TOML by the reader of all texts.
fn from_toml<T: DeserializeOwned>(text: &str) -> Result<T, ProcedureError> {
    let value: Value =
        toml::from_str(text).map_err(|e| ProcedureError::Unreadable(ReadError::syntax(e.message())))?;
    from_typed(&value).map_err(ProcedureError::Unreadable)
}

impl Procedure {
    /// Reads and checks a procedure's text. What an organisation's own text leaves out of the built-in edition that it
    /// starts from is checked as well.
    ///
    /// # Errors
    /// [`ProcedureError`] for the first mistake found.
    pub fn read(text: &str) -> Result<Procedure, ProcedureError> {
        if text.len() > LARGEST_PROCEDURE {
            return Err(ProcedureError::TooLarge(text.len()));
        }
        let digest = Digest::of(text.as_bytes());
        let text: Text = from_toml(text)?;
        let root = match &text.starts_from {
            Some(digest) => Some(super::built_in_of(digest).ok_or(ProcedureError::UnknownStart)?),
            None => None,
        };
        if root.is_some() && !text.note.trim().is_empty() {
            return Err(ProcedureError::NoteOfItsOwn);
        }
        if root.is_some() && text.in_catalogues {
            return Err(ProcedureError::SentenceInCatalogues(String::new()));
        }
        let (no_step, in_catalogues) = (String::new(), text.in_catalogues);
        if text.title.names_no_language() {
            return Err(ProcedureError::NoLanguage { step: no_step, field: "title" });
        }
        let titled = in_catalogues || root.is_some() || !text.title.is_empty();
        let title = if titled { "-" } else { "" };
        for (field, value) in [("id", text.id.as_str()), ("edition", &text.edition), ("title", title)] {
            if value.trim().is_empty() {
                return Err(ProcedureError::EmptyField { step: no_step, field });
            }
        }
        let sentences = Sentences {
            catalogue: in_catalogues.then(|| format!("procedure-{}-{}", text.id, text.edition)),
            root,
            law_read: text.law_read,
            interval: text.thresholds.reading_interval_minutes.or(Threshold::ReadingInterval.usual()),
        };
        if let Some(threshold) = text.thresholds.out_of_bounds() {
            return Err(ProcedureError::OutOfBounds(threshold));
        }
        let steps =
            text.steps.into_iter().map(|text| step(text, &sentences)).collect::<Result<Vec<_>, _>>()?;
        check_order(&steps)?;
        for rule in &text.order {
            check_rule(rule, &steps)?;
        }
        let together = match root {
            // An edition that starts from another keeps its groups, as far as it keeps their steps.
            Some(root) => together::inherited(&root.together, &steps),
            None => together::groups(text.together, &steps, sentences.catalogue.as_deref())?,
        };
        let (title, note) = match (&sentences.catalogue, root) {
            (Some(of), _) => (Message::named(of.clone()), Message::named(format!("{of}.note"))),
            (None, Some(root)) => {
                (text.title.or(Some(root.title.clone())).unwrap_or_default(), root.note.clone())
            }
            (None, None) => (text.title.or(None).unwrap_or_default(), Message::typed(text.note)),
        };
        let gates = match text.gate {
            Some(gates) => rules(gates, &steps, &sentences)?,
            None => rules_of_the_first_edition()?,
        };
        let procedure = Procedure {
            digest,
            id: text.id,
            edition: text.edition,
            starts_from: root.map(|root| root.digest),
            in_catalogues,
            title,
            note,
            not_right_holds: text.not_right_holds,
            steps,
            order: text.order,
            together,
            gates,
            thresholds: text.thresholds,
            left_out: text.left_out.into_iter().map(LeftOut::read).collect::<Result<_, _>>()?,
        };
        if let Some(root) = root {
            left_out::check_whole(root, &procedure)?;
        }
        Ok(procedure)
    }
}

/// Where the sentences of a procedure stand, and when its laws were read.
pub(super) struct Sentences {
    /// The id in the catalogues from which those of the steps are made.
    catalogue: Option<String>,
    /// The edition that an organisation's own text starts from, whose sentences are kept where it has none.
    root: Option<&'static Procedure>,
    law_read: Option<String>,
    /// The interval, in minutes, of the steps that repeat without one of their own.
    interval: Option<u32>,
}

impl Sentences {
    /// Returns a caution: a sentence of the catalogues, by its name, or the owner's own.
    fn caution(&self, name: String) -> Message {
        let of_root = self.root.filter(|root| root.in_catalogues).map(|root| root.title.id());
        if let Some(of) = self.catalogue.as_deref().or(of_root) {
            let named = Message::named(format!("{of}-caution-{name}"));
            let known = |root: &Procedure| root.steps.iter().any(|step| step.cautions.contains(&named));
            if self.root.is_none_or(known) {
                return named;
            }
        }
        Message::typed(name)
    }
}

fn rules(
    texts: Vec<RuleText>,
    steps: &[Step],
    sentences: &Sentences,
) -> Result<Vec<GateRule>, ProcedureError> {
    texts.into_iter().map(|text| gate_rule::rule(text, steps, sentences)).collect()
}

/// The rules of the release gate as they were before procedures contained them. A text without rules of its own
/// keeps them: the first edition, and an owner's text made from it.
fn rules_of_the_first_edition() -> Result<Vec<GateRule>, ProcedureError> {
    let text: GatesText = from_toml(include_str!("../../procedures/gates_before_rules.toml"))?;
    rules(text.gate, &[], &Sentences { catalogue: None, root: None, law_read: None, interval: None })
}

fn step(text: StepText, sentences: &Sentences) -> Result<Step, ProcedureError> {
    let id = text.id;
    if id.is_empty() || !id.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'_') {
        return Err(ProcedureError::BadId(id));
    }
    let (mut records, mut holds) = (Vec::new(), Vec::new());
    for fields in text.records {
        let (record, answers) =
            record(fields).map_err(|why| ProcedureError::BadRecord { step: id.clone(), why })?;
        if !answers.is_empty() {
            holds.push(Holds { record: record.clone(), answers });
        }
        records.push(record);
    }
    if !holds.iter().all(Holds::fits) {
        return Err(ProcedureError::BadHolds(id));
    }
    let kept = sentences.root.and_then(|root| root.steps.iter().find(|step| step.id == id));
    let typed = [("title", &text.title), ("what_to_do", &text.what_to_do), ("why", &text.why)];
    if let Some((field, _)) = typed.iter().find(|(_, value)| value.names_no_language()) {
        return Err(ProcedureError::NoLanguage { step: id, field });
    }
    if sentences.catalogue.is_some()
        && typed.iter().any(|(_, value)| !value.is_empty() || !text.what_now.is_empty())
    {
        return Err(ProcedureError::SentenceInCatalogues(id));
    }
    if sentences.catalogue.is_none()
        && kept.is_none()
        && let Some((field, _)) = typed.iter().find(|(_, value)| value.is_empty())
    {
        return Err(ProcedureError::EmptyField { step: id, field });
    }
    let repeat_minutes = match (text.repeat_minutes, text.repeats) {
        (None, true) => sentences.interval,
        (minutes, false) if minutes.is_none_or(|minutes| (1..=1440).contains(&minutes)) => minutes,
        _ => return Err(ProcedureError::BadInterval(id)),
    };
    if text.for_each.is_some() && text.fitting.is_some() {
        return Err(ProcedureError::TwoFittings(id));
    }
    let about_fitting = text.for_each.is_some() || text.fitting.is_some();
    let all = || records.iter().chain(&text.may_record).chain(&text.now);
    if !about_fitting && all().any(Record::needs_fitting) {
        return Err(ProcedureError::NoFitting(id));
    }
    if !about_fitting
        && matches!(text.since, Some(Since::Connected | Since::Opened | Since::Shut | Since::LineOff))
    {
        return Err(ProcedureError::SinceWithoutFitting(id));
    }
    if all().any(|record| !unit_fits(record)) {
        return Err(ProcedureError::WrongUnit(id));
    }
    let laws = laws(text.law, text.law_known, text.law_binds, sentences)
        .ok_or_else(|| ProcedureError::LawUnclear(id.clone()))?;
    let holding = !holds.is_empty() || !text.now.is_empty();
    let part = |part: &str| sentences.catalogue.as_ref().map(|of| Message::named(format!("{of}-{id}{part}")));
    let of_root = |sentence: fn(&Step) -> &Message| kept.map(|step| sentence(step).clone());
    let title = text.title.or(part("").or_else(|| of_root(|step| &step.title)));
    let what_to_do = text.what_to_do.or(part(".do").or_else(|| of_root(|step| &step.what_to_do)));
    let why = text.why.or(part(".why").or_else(|| of_root(|step| &step.why)));
    let now = part(".now").filter(|_| holding).or_else(|| kept.and_then(|step| step.what_now.clone()));
    let what_now = text.what_now.or(now);
    let cautions = text.cautions.into_iter().map(|name| sentences.caution(name)).collect();
    Ok(Step {
        id,
        stage: text.stage,
        title: title.unwrap_or_default(),
        what_to_do: what_to_do.unwrap_or_default(),
        why: why.unwrap_or_default(),
        laws,
        cautions,
        records,
        may_record: text.may_record,
        holds,
        what_now,
        now: text.now,
        for_each: text.for_each,
        fitting: text.fitting,
        only_for: text.only_for,
        leaves: text.leaves,
        since: text.since,
        of: text.of,
        leaks_hold: text.leaks_hold,
        as_found: text.as_found,
        after: text.after,
        repeat_minutes,
        optional: text.optional,
    })
}

/// Reads a record and the answers that hold the job.
fn record(mut fields: Value) -> Result<(Record, Vec<BadAnswer>), ReadError> {
    let mut answers = Vec::new();
    if let Value::Map(pairs) = &mut fields
        && let Some(at) = pairs.iter().position(|(name, _)| name.as_text() == Some("holds"))
    {
        answers = from_typed(&pairs.remove(at).1)?;
    }
    Ok((from_typed(&fields)?, answers))
}

pub(super) fn laws(
    text: Option<LawText>,
    known: Option<LawKnown>,
    binds: Option<Receiver>,
    sentences: &Sentences,
) -> Option<Vec<Law>> {
    let binds_receiver = binds.map(|receiver| match receiver {
        Receiver::Truck => Binds::Transloading,
        Receiver::FixedTank => Binds::FixedTank,
    });
    let one = |source| vec![Law { source, binds: binds_receiver, names_whom: false }];
    match (text, known) {
        (Some(LawText::One(cites)), Some(LawKnown::Read)) => Some(one(Source::read(cites))),
        (Some(LawText::One(cites)), Some(LawKnown::Memory)) => Some(one(Source::from_memory(cites))),
        (Some(LawText::Several(lines)), None) if binds.is_none() && !lines.is_empty() => {
            let day = sentences.law_read.as_ref()?;
            let cites = |line: &LawLine| match &line.except {
                Some(except) => {
                    message!("basis-except", cites = Arg::typed(&line.cites), except = Arg::typed(except))
                }
                None => Message::typed(line.cites.as_str()),
            };
            let law = |line: LawLine| Law {
                source: Source::read(cites(&line)).on(day),
                binds: Some(line.binds),
                names_whom: true,
            };
            Some(lines.into_iter().map(law).collect())
        }
        (None, None) if binds.is_none() => Some(Vec::new()),
        _ => None,
    }
}

fn unit_fits(record: &Record) -> bool {
    use crate::entry::vocabulary::Measured;
    use crate::units::Dimension;
    let Record::Reading { measured, unit, .. } = record else { return true };
    let dimension = unit.dimension();
    match measured {
        Measured::Pressure => matches!(dimension, Dimension::GaugePressure | Dimension::AbsolutePressure),
        Measured::Temperature => dimension == Dimension::Temperature,
        Measured::Outage => dimension == Dimension::Length,
        Measured::Level | Measured::RelativeDensity => dimension == Dimension::Ratio,
        Measured::Volume => dimension == Dimension::Volume,
        Measured::Rate => dimension == Dimension::VolumeRate,
    }
}

fn check_order(steps: &[Step]) -> Result<(), ProcedureError> {
    if steps.is_empty() {
        return Err(ProcedureError::Empty);
    }
    let mut seen = BTreeSet::new();
    let mut stage = Stage::Receive;
    for step in steps {
        if step.stage < stage {
            return Err(ProcedureError::StageOutOfOrder(step.id.clone()));
        }
        stage = step.stage;
        if let Some(after) = step.after.iter().find(|after| !seen.contains(after.as_str())) {
            return Err(ProcedureError::UnknownAfter { step: step.id.clone(), after: after.clone() });
        }
        if !seen.insert(step.id.as_str()) {
            return Err(ProcedureError::DuplicateId(step.id.clone()));
        }
    }
    Ok(())
}

fn check_rule(rule: &OrderRule, steps: &[Step]) -> Result<(), ProcedureError> {
    let named: Vec<&String> = match rule {
        OrderRule::OneAtATime { from, to } => vec![from, to],
        OrderRule::VapourLast { step, .. } => vec![step],
    };
    for name in named {
        let repeats = steps.iter().any(|step| step.id == *name && step.for_each == Some(ForEach::Lines));
        if !repeats {
            return Err(ProcedureError::BadOrderRule(name.clone()));
        }
    }
    Ok(())
}
