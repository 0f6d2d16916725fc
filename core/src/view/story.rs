//! Each entry as a message: what it says, and whether it corrects, settles or withdraws another one.
//!
//! The message of a statement is `log-` and its kind, with the fields of the kind's row as arguments; amounts stay as
//! typed with their units, and times are in the site's zone. A field that is not filled in is a count of nothing, and a
//! yes or no is `yes` or `no`, by which a catalogue chooses its words. The history, the disagreements and all
//! printed records use these messages.

use ciborium::Value;

use super::done::stated_done;
use super::expected;
use super::fold_context::{FoldContext, QUOTED};
use super::slots::{Fate, Item};
use super::track;
use crate::clock::UtcMillis;
use crate::entry::coded::{Checked, Coded, Item as ItemCode};
use crate::entry::spec::{Field, Shape};
use crate::entry::value_reader::from_cbor;
use crate::entry::value_writer::to_value;
use crate::entry::vocabulary::{
    ClockEvent, CoverPart, EmptySign, Fitting, Measured, PhotoOf, Place, Protection, Purpose, SealPlace,
    TestDate,
};
use crate::entry::{Paper, Reading, Statement};
use crate::ids::{EntryId, OperatorId, to_hex};
use crate::procedure::BlockerKind;
use crate::units::Amount;
use crate::{Arg, Joint, Message, message};

impl<'a> FoldContext<'a> {
    /// Returns what the entry states, whether it corrects, settles or withdraws another one, and when the thing was
    /// done if the entry states that.
    pub fn sentence(&self, item: &Item<'a>) -> Message {
        let says = self.says_and_corrects(item);
        let says = match item.entry.body.rests_on {
            Some(rests_on) => track::sentence(self, says, rests_on),
            None => says,
        };
        match stated_done(item) {
            Some(done) => message!(
                "log-done",
                says = says,
                done = Arg::typed(done.shown_beside(item.at, self.zone)),
                entered = Arg::typed(item.at.shown_beside(done, self.zone)),
            ),
            None => says,
        }
    }

    fn says_and_corrects(&self, item: &Item<'a>) -> Message {
        let body = &item.entry.body;
        match &body.says {
            Statement::Withdrawn {} => message!("log-voided", entries = self.quoted(&body.replaces)),
            Statement::Agreement { keeps } => {
                message!("log-settled", entry = self.quoted(std::slice::from_ref(keeps)))
            }
            says if !body.replaces.is_empty() => {
                message!("log-corrects", says = self.says(says), entries = self.quoted(&body.replaces))
            }
            says => self.says(says),
        }
    }

    fn quoted(&self, ids: &[EntryId]) -> Message {
        let mut quotes: Vec<Message> = ids
            .iter()
            .take(QUOTED)
            .map(|id| match self.slots.item(*id).and_then(|item| self.quote(item)) {
                Some(claim) => message!("log-quote", claim = claim.clone()),
                None => message!("log-not-here", entry = Arg::typed(id.short().to_string())),
            })
            .collect();
        if ids.len() > QUOTED {
            quotes.push(message!("log-more", count = ids.len() - QUOTED));
        }
        if quotes.is_empty() {
            Message::new("log-nothing")
        } else {
            message!("log-quotes", quotes = Arg::list(Joint::And, quotes))
        }
    }

    /// Returns the message of a statement by itself.
    pub fn says(&self, says: &Statement) -> Message {
        match says {
            Statement::Reading(reading) => reading_says(reading),
            Statement::Paper(paper) => self.paper_compared(paper),
            Statement::PaperExpected(said) => message!(
                "log-paper_expected",
                car = Arg::typed(said.car.normal()),
                paper = paper_says(&said.paper()),
                file = Arg::typed(said.file_name.trim()),
                line = u64::from(said.line),
                expected = if said.expected.is_empty() { none() } else { Arg::typed(said.expected.trim()) },
            ),
            Statement::Opened(opened) => self.filled(says).with("car", Arg::typed(opened.car.normal())),
            Statement::Step { step, .. } => self.filled(says).with("step", self.step_title(step)),
            Statement::ItemOut { item, .. } | Statement::ItemIn { item } => {
                self.filled(says).with("item", item_message(item))
            }
            Statement::Photo { photo, about, .. } => self
                .filled(says)
                .with("about", if about.is_empty() { none() } else { about_message(about).into() })
                .with("bytes", photo.length)
                .with("digest", Arg::typed(photo.sha256.short().to_string())),
            Statement::Protection { what, set } => {
                let state = match set {
                    true => Message::term("protection_set", what.word()),
                    false => Message::term("protection_away", what.word()),
                };
                message!("log-protection", what = what.term(), state = state)
            }
            Statement::PassedOver { blocker, .. } => {
                message!("log-passed_over", item = code_message(blocker))
            }
            Statement::Overridden { gate, items, reason, .. } => message!(
                "log-overridden",
                gate = gate.term(),
                items = Arg::list(Joint::Comma, items.iter().take(OVERRIDDEN).map(|code| code_message(code))),
                count = items.len(),
                reason = reason.message(),
            ),
            Statement::Remark { text } => message!("log-remark", text = Arg::typed(text.trim())),
            Statement::Unrecognised { kind } => message!("log-unrecognised", kind = Arg::typed(kind)),
            _ => self.filled(says),
        }
    }

    /// Returns what a paper says and, if it was compared with one that the office sent, who wrote that.
    fn paper_compared(&self, paper: &Paper) -> Message {
        let says = paper_says(paper);
        let Some(compared) = paper.compared else { return says };
        match self.ctx.site.and_then(|site| site.papers.paper(compared)) {
            Some(sent) => message!("log-paper-compared", says = says, source = expected::source(self, sent)),
            None => message!(
                "log-paper-compared-elsewhere",
                says = says,
                entry = Arg::typed(compared.short().to_string()),
            ),
        }
    }

    /// Returns the message of a kind with its fields as arguments.
    fn filled(&self, says: &Statement) -> Message {
        let spec = says.spec();
        let fields = fields_of(says);
        let mut message = Message::term("log", spec.word);
        for field in spec.fields {
            let value =
                fields.iter().find(|(key, _)| key.as_text() == Some(field.name)).map(|(_, value)| value);
            message = message.with(
                field.name,
                match value {
                    Some(value) => self.argument(field, value),
                    None if field.must => lacking(),
                    None => none(),
                },
            );
        }
        message
    }

    fn argument(&self, field: &Field, value: &Value) -> Arg {
        let typed = value.as_text().unwrap_or_default().trim();
        match field.shape {
            Shape::YesNo => Arg::typed(if value.as_bool() == Some(true) { "yes" } else { "no" }),
            Shape::Amount(_) | Shape::AmountOf(_) => {
                from_cbor(value).map_or_else(|_| none(), |amount: Amount| amount.arg())
            }
            Shape::Count => {
                whole_of(value).and_then(|count| u64::try_from(count).ok()).map_or_else(none, Arg::Count)
            }
            Shape::Time => whole_of(value).map_or_else(none, |at| Arg::typed(self.shown(UtcMillis(at)))),
            Shape::Table | Shape::Entries | Shape::Items | Shape::Commitments => {
                Arg::Count(value.as_array().map_or(0, Vec::len) as u64)
            }
            Shape::Words(vocabulary) => {
                let words = value.as_array().into_iter().flatten().filter_map(Value::as_text);
                Arg::list(Joint::Comma, words.map(|word| (vocabulary.message)(word)))
            }
            Shape::Word(vocabulary) => (vocabulary.message)(typed).into(),
            Shape::Sites => match value.as_array().map_or(0, Vec::len) as u64 {
                0 => Message::new("log-all-sites").into(),
                count => message!("log-sites", count = count).into(),
            },
            Shape::PhotoFile | Shape::LastEntry | Shape::ProcedureText => none(),
            // An id is shown by its first eight digits, enough for people to tell two apart.
            Shape::Defect
            | Shape::Hold
            | Shape::Incident
            | Shape::Leak
            | Shape::Note
            | Shape::Photo
            | Shape::Visit
            | Shape::Site
            | Shape::Entry
            | Shape::Key
            | Shape::Procedure
            | Shape::File
            | Shape::Commitment
            | Shape::Nonce => Arg::typed(match value.as_bytes() {
                Some(bytes) => to_hex(bytes.get(..4).unwrap_or(bytes)),
                None => typed.get(..8).unwrap_or(typed).to_owned(),
            }),
            _ if typed.is_empty() => {
                if field.must {
                    lacking()
                } else {
                    none()
                }
            }
            Shape::Coded(vocabulary) => (vocabulary.message)(typed).into(),
            Shape::Prose => Arg::typed(typed.trim_end_matches('.')),
            Shape::Person => Arg::typed(self.name(&OperatorId(typed.to_owned()))),
            Shape::Text | Shape::CarNumber | Shape::Date => Arg::typed(typed),
        }
    }

    /// Returns the title of a step by its id, from the visit's procedure.
    pub fn step_title(&self, step: &str) -> Message {
        let (id, fitting) = step.split_once('.').map_or((step, None), |(id, f)| (id, Some(f)));
        let title =
            self.procedure().and_then(|p| p.steps.iter().find(|s| s.id == id)).map(|s| s.title.clone());
        match (title, fitting.and_then(Fitting::read)) {
            (Some(title), Some(fitting)) => {
                message!("step-at", title = title, fitting = fitting.term())
            }
            (Some(title), None) => title,
            (None, _) => Message::typed(step),
        }
    }
}

/// The argument of a field that is not filled in: a count of nothing. A catalogue chooses by `[0]`, which no text that
/// somebody typed can equal.
pub(super) fn none() -> Arg {
    Arg::Count(0)
}

/// What stands for a field that must be filled in and is not.
fn lacking() -> Arg {
    Arg::typed("\u{2014}")
}

fn whole_of(value: &Value) -> Option<i64> {
    value.as_integer().and_then(|whole| whole.try_into().ok())
}

/// Returns the fields of a statement by their wire names, without empty ones. They are read from the form in
/// which the statement is signed, which the program can write in any case.
fn fields_of(says: &Statement) -> Vec<(Value, Value)> {
    let Ok(Value::Map(kinds)) = to_value(says) else { return Vec::new() };
    match kinds.into_iter().next() {
        Some((_, Value::Map(fields))) => fields,
        _ => Vec::new(),
    }
}

/// Returns the word for the fate of an entry, or `None` if it stands.
pub fn fate_message(fate: Fate) -> Option<Message> {
    let word = match fate {
        Fate::Live | Fate::Withdrawal => return None,
        Fate::MovedOn => "moved_on",
        Fate::Corrected => "corrected",
        Fate::Withdrawn => "withdrawn",
        Fate::Settled => "settled",
        Fate::Agreed => "agreed",
        Fate::Kept => "kept",
    };
    Some(Message::term("fate", word))
}

/// The most items of one act that are named in a sentence; their number is always stated.
const OVERRIDDEN: usize = 12;

/// Returns the words of a blocker's code, such as `closure_not_tool_tight.liquid_a`.
pub fn code_message(code: &str) -> Message {
    let (kind, of) = code.split_once('.').unwrap_or((code, ""));
    let Some(kind) = BlockerKind::read(kind) else { return Message::typed(code) };
    if of.is_empty() {
        kind.term()
    } else {
        message!("gate-code", kind = kind.term(), of = code_of(kind, of))
    }
}

/// Returns the words of what stands in a code after its kind.
pub(super) fn code_of(kind: BlockerKind, of: &str) -> Message {
    let typed = || Message::typed(of.replace('_', " "));
    match kind {
        BlockerKind::Disagreement => slot_message(of),
        BlockerKind::ItemOut => item_message(of),
        BlockerKind::SealIncomplete => SealPlace::read(of).map_or_else(typed, SealPlace::term),
        BlockerKind::ProtectionNotSet | BlockerKind::ProtectionOutOfOrder => {
            Protection::read(of).map_or_else(typed, Protection::term)
        }
        BlockerKind::CheckMissing | BlockerKind::CheckNotRight => Coded::<Checked>::read(of).message(),
        BlockerKind::PhotoMissing => PhotoOf::read(of).map_or_else(typed, PhotoOf::term),
        BlockerKind::EmptyContradicted => EmptySign::read(of).map_or_else(typed, EmptySign::term),
        BlockerKind::Alarm
        | BlockerKind::Doubt
        | BlockerKind::NotRecordedAsFound
        | BlockerKind::ReadingMissing
        | BlockerKind::StepOpen => Message::term("gate_of", of.split('.').next().unwrap_or(of)),
        _ => Fitting::read(of).map_or_else(|| Message::typed(of), Fitting::term),
    }
}

/// Returns the words of a slot, such as "thermowell: closure".
pub fn slot_message(slot: &str) -> Message {
    let parts: Vec<&str> = slot.split('/').collect();
    let known = match parts[..] {
        ["fitting", fitting, part, ..] => Fitting::read(fitting).map(|fitting| {
            message!("slot-at", fitting = fitting.term(), part = Message::term("slot_part", part))
        }),
        ["reading", purpose, measured, place] => reading_of(purpose, measured, place),
        ["series", part @ ("feel" | "plug" | "hose_pressure"), fitting] => {
            Fitting::read(fitting).map(|fitting| {
                message!("slot-at", fitting = fitting.term(), part = Message::term("slot_part", part))
            })
        }
        ["series", "cover_part", part] => CoverPart::read(part).map(CoverPart::term),
        ["seal", place] => SealPlace::read(place).map(|place| message!("slot-seal", place = place.term())),
        ["seal", place, _] => {
            SealPlace::read(place).map(|place| message!("slot-seal-found", place = place.term()))
        }
        ["protection", what] => Protection::read(what).map(Protection::term),
        ["check", what] => Some(Coded::<Checked>::read(what).message()),
        ["clock", event] => ClockEvent::read(event).map(ClockEvent::term),
        ["empty", sign] if sign != "decision" => EmptySign::read(sign).map(EmptySign::term),
        ["item", item] => Some(item_message(item)),
        ["passed_over", blocker] => Some(code_message(blocker)),
        ["car", "test", test] => TestDate::read(test).map(TestDate::term),
        ["step", step] => Some(message!("slot-step", step = Arg::typed(step))),
        // Ids mean nothing to people and are left out.
        ["defect" | "hold" | "joined" | "incident" | "leak" | "next_time" | "expected", ..] => {
            Some(Message::term("slot", parts[0]))
        }
        ["tank" | "instrument" | "hose" | "contact" | "seal_stock" | "operator", name] => {
            Some(message!("slot-named", kind = Message::term("slot", parts[0]), name = Arg::typed(name)))
        }
        _ => None,
    };
    known.unwrap_or_else(|| match NAMED_SLOTS.iter().find(|(path, _)| *path == slot) {
        Some((_, id)) => Message::new(id),
        None => Message::typed(slot.replace('_', " ").replace(['.', '/'], " · ")),
    })
}

fn reading_of(purpose: &str, measured: &str, place: &str) -> Option<Message> {
    Some(reading_title(Purpose::read(purpose)?, Measured::read(measured)?, Place::read(place)?))
}

/// The slots of which there is one, with the ids of their words.
const NAMED_SLOTS: [(&str, &str); 27] = [
    ("fit_to_unload", "slot-fit_to_unload"),
    ("last_round", "slot-last_round"),
    ("series/overridden", "slot-overridden"),
    ("outcome", "slot-outcome"),
    ("series/car_left", "slot-car_left"),
    ("series/car_moved", "slot-car_moved"),
    ("opened", "slot-opened"),
    ("paper", "slot-paper"),
    ("cover", "slot-cover"),
    ("released", "slot-released"),
    ("empty/decision", "slot-empty_decision"),
    ("car_number/again", "slot-car_number_again"),
    ("car/fittings", "slot-car_fittings"),
    ("car/capacity", "slot-car_capacity"),
    ("car/diameter", "slot-car_diameter"),
    ("car/outage_table", "slot-outage_table"),
    ("site", "slot-site"),
    ("rules", "slot-rules"),
    ("series/photo", "slot-photos"),
    ("series/handover", "slot-handovers"),
    ("series/attendance", "slot-attendance"),
    ("series/weather", "slot-weather"),
    ("series/truck_load", "slot-truck_loads"),
    ("series/tank_gauged", "slot-tanks_gauged"),
    ("series/recovery_planned", "slot-recovery_planned"),
    ("series/inspection", "slot-inspections"),
    ("series/remark", "slot-remarks"),
];

/// Returns the subject of a photograph: a slot, a fitting, or the text as typed.
pub fn about_message(about: &str) -> Message {
    match about.split_once('/') {
        Some(("defect", _)) => Message::new("slot-defect"),
        // The photograph says itself that it is of a seal.
        Some(("seal", place)) => {
            let place = place.split('/').next().and_then(SealPlace::read);
            place.map_or_else(|| slot_message(about), SealPlace::term)
        }
        Some(_) => slot_message(about),
        None => Fitting::read(about).map_or_else(|| Message::typed(about), Fitting::term),
    }
}

/// Returns the name of something that was taken out: a code with its fitting, or as typed.
pub fn item_message(item: &str) -> Message {
    let item = item.trim();
    let (first, rest) = item.split_once(' ').unwrap_or((item, ""));
    let fitting = Fitting::read(&rest.replace(' ', "_"));
    match (ItemCode::read(first), fitting) {
        (Some(code), Some(fitting)) => message!("item-at", item = code.term(), fitting = fitting.term()),
        (Some(code), None) if rest.is_empty() => code.term(),
        _ => Message::typed(item),
    }
}

fn reading_says(reading: &Reading) -> Message {
    let instrument = match reading.instrument.trim() {
        "" => none(),
        name => Arg::typed(name),
    };
    message!(
        "log-reading",
        title = reading_title(reading.purpose, reading.measured, reading.place),
        amount = reading.amount.arg(),
        instrument = instrument,
    )
}

/// Returns the title of a reading, such as "Final pressure, at the car".
pub fn reading_title(purpose: Purpose, measured: Measured, place: Place) -> Message {
    message!("reading-title", purpose = purpose.term(), measured = measured.term(), place = place.term())
}

fn paper_says(paper: &Paper) -> Message {
    let mut parts: Vec<Message> = Vec::new();
    let mut part = |id: &'static str, text: &str| {
        if !text.trim().is_empty() {
            parts.push(Message::new(id).with("text", Arg::typed(text.trim())));
        }
    };
    part("log-paper-number", &paper.number);
    part("log-paper-car", &paper.car);
    part("log-paper-shipper", &paper.shipper);
    part("typed", &paper.un_number);
    part("typed", &paper.product);
    if let Some(billed) = &paper.billed {
        parts.push(message!("log-paper-billed", amount = billed.arg()));
    }
    if let Some(rd) = &paper.relative_density {
        parts.push(message!("log-paper-density", amount = rd.arg()));
    }
    match paper.odorised {
        Some(true) => parts.push(Message::new("log-paper-odorized")),
        Some(false) => parts.push(Message::new("log-paper-not-odorized")),
        None => {}
    }
    if let Some(grade) = paper.grade {
        parts.push(message!("log-paper-grade", grade = grade.term()));
    }
    if let Some(by) = paper.billed_by {
        parts.push(message!("log-paper-billed-by", by = by.term()));
    }
    match paper.winter_fill {
        Some(true) => parts.push(Message::new("log-paper-winter")),
        Some(false) => parts.push(Message::new("log-paper-not-winter")),
        None => {}
    }
    if parts.is_empty() {
        Message::new("log-paper-nothing")
    } else {
        message!("log-paper", parts = Arg::list(Joint::Comma, parts))
    }
}
