//! Each entry as a plain sentence an operator and an inspector both understand.
//!
//! Amounts as typed, with their units; times in the site's zone. Used for the history, for
//! disagreements and for whatever prints a record.

use std::borrow::Cow;

use super::fold_context::{FoldContext, QUOTED};
use super::slots::{Fate, Item};
use crate::entry::spec::Sentence;
use crate::entry::vocabulary::{
    ClockEvent, ClosureState, EmptySign, Fitting, Measured, Part, PhotoOf, Place, Presence, Protection,
    Purpose, Receiver, SealEvent, SealPlace, StepOutcome, TestDate, ValvePosition,
};
use crate::entry::{Opened, Paper, Reading, Seal, SlotParts, Statement};
use crate::ids::EntryId;
use crate::text;

impl<'a> FoldContext<'a> {
    /// What the entry says, and whether it corrects, settles or withdraws another.
    pub fn sentence(&self, item: &Item<'a>) -> String {
        let body = &item.entry.body;
        let sentence = match &body.says {
            Statement::Withdrawn {} => format!("Withdrawn: {}", self.quoted(&body.replaces)),
            Statement::Agreement { keeps } => {
                format!("Settled: it stands that {}", self.quoted(std::slice::from_ref(keeps)))
            }
            says if !body.replaces.is_empty() => {
                format!("{} Corrects {}", self.says(says), self.quoted(&body.replaces))
            }
            says => self.says(says),
        };
        match text::own(&sentence) {
            Cow::Owned(its_own) => its_own,
            Cow::Borrowed(_) => sentence,
        }
    }

    fn quoted(&self, ids: &[EntryId]) -> String {
        let mut quotes: Vec<String> = ids
            .iter()
            .take(QUOTED)
            .map(|id| match self.slots.item(*id).and_then(|item| self.quote(item)) {
                Some(claim) => format!("\u{201c}{claim}\u{201d}"),
                None => format!("entry {} (not here)", id.short()),
            })
            .collect();
        if ids.len() > QUOTED {
            quotes.push(format!("{} more", ids.len() - QUOTED));
        }
        if quotes.is_empty() { "nothing".to_owned() } else { quotes.join(" and ") }
    }

    /// What a statement says, alone, with whatever marks were typed.
    pub fn says(&self, says: &Statement) -> String {
        match says.spec().sentence {
            Sentence::Filled(sentence) => self.filled(sentence, says),
            Sentence::Told => self.told(says).unwrap_or_default(),
        }
    }

    /// The sentence of a kind that takes more than filling in. Nothing for a kind whose row carries its sentence; a test
    /// holds that every other kind is told here.
    pub(super) fn told(&self, says: &Statement) -> Option<String> {
        Some(match says {
            Statement::Opened(opened) => self.opened(opened),
            Statement::Paper(paper) => paper_says(paper),
            Statement::Clock { event, at } => format!("{}: {}.", clock_event(*event), self.shown(*at)),
            Statement::Reading(reading) => reading_says(reading),
            Statement::Step { step, outcome, note } => self.step_says(step, *outcome, note),
            Statement::Valve { fitting, position } => match position {
                ValvePosition::Open => format!("{} open.", capital(fitting.name())),
                ValvePosition::Shut => format!("{} shut.", capital(fitting.name())),
            },
            Statement::Closure { fitting, state } => {
                format!("Closure of the {} {}.", fitting.name(), closure_state(*state))
            }
            Statement::Line { fitting, connected, hose } => {
                let hose = if hose.trim().is_empty() {
                    String::new()
                } else {
                    format!(" with hose {}", hose.trim())
                };
                let how = if *connected { "connected to" } else { "taken off" };
                format!("Line{hose} {how} the {}.", fitting.name())
            }
            Statement::Effort { fitting, part, amount } => {
                format!(
                    "Effort to close the {} of the {}: {}.",
                    part_name(*part),
                    fitting.name(),
                    amount.shown()
                )
            }
            Statement::ItemOut { item, fitting } => match fitting {
                Some(fitting) => {
                    format!("Out: {}, at the {}. It must come back.", item.trim(), fitting.name())
                }
                None => format!("Out: {}. It must come back.", item.trim()),
            },
            Statement::ItemIn { item } => format!("Back: {}.", item.trim()),
            Statement::Seal(seal) => seal_says(seal),
            Statement::Photo { photo, of, about } => {
                let about =
                    if about.is_empty() { String::new() } else { format!(" ({})", spoken_about(about)) };
                format!(
                    "Photograph of {}{about}, {} bytes, {}.",
                    photo_of(*of),
                    photo.length,
                    photo.sha256.short()
                )
            }
            Statement::Defect(defect) => {
                let place = defect.fitting.map_or(String::new(), |f| format!(" at the {}", f.name()));
                let needs =
                    if defect.needs_authority { " It moves only with an authority's approval." } else { "" };
                format!("Defect{place}: {}.{needs}", stop(&defect.what))
            }
            Statement::Authority { by, reference, spoken_at, written_at, .. } => {
                let mut text = format!("{by} answered, reference {}", or_dash(reference));
                if let Some(at) = spoken_at {
                    text += &format!(", spoken {}", self.shown(*at));
                }
                if let Some(at) = written_at {
                    text += &format!(", in writing {}", self.shown(*at));
                }
                text + "."
            }
            Statement::Attendance { presence } => match presence {
                Presence::Here => "With the car.".to_owned(),
                Presence::Away => "Left the car.".to_owned(),
            },
            Statement::Cover { closed, pinned, bolts_in_place, bolts_required } => format!(
                "Housing cover {}, pin {}, {bolts_in_place} of {bolts_required} bolts in place.",
                if *closed { "closed" } else { "open" },
                if *pinned { "in" } else { "out" },
            ),
            Statement::Protection { what, set } => protection_says(*what, *set),
            Statement::Weather { precipitation, wind } => {
                let wind = wind.spoken();
                let wind =
                    if wind.trim().is_empty() { String::new() } else { format!(", wind {}", wind.trim()) };
                format!("Weather: {}{wind}.", precipitation.spoken())
            }
            Statement::EmptySign { sign, seen } => {
                format!("{}: {}.", empty_sign(*sign), if *seen { "yes" } else { "no" })
            }
            Statement::EmptyDecision { accepted, grounds } => {
                let grounds =
                    if grounds.trim().is_empty() { "no grounds given".to_owned() } else { stop(grounds) };
                if *accepted {
                    format!("Taken as empty of liquid: {grounds}.")
                } else {
                    format!("Not taken as empty of liquid: {grounds}.")
                }
            }
            Statement::Check { what, right, note } => {
                format!(
                    "Check, {}: {}{}.",
                    what.text().trim(),
                    if *right { "right" } else { "NOT right" },
                    noted(note)
                )
            }
            Statement::Remark { text } => format!("Remark: {}", text.trim()),
            Statement::Agreement { .. } => "Settled.".to_owned(),
            Statement::Withdrawn {} => "Withdrawn.".to_owned(),
            Statement::PassedOver { blocker, .. } => format!("Passed over: {}.", spoken_code(blocker)),
            Statement::Released { as_residue } => {
                format!("Released{}.", if *as_residue { " as residue" } else { ", not as residue" })
            }
            Statement::CarFittings { fittings } => {
                let names: Vec<&str> = fittings.iter().map(|f| f.name()).collect();
                format!(
                    "Under the housing: {}.",
                    if names.is_empty() { "nothing".to_owned() } else { names.join(", ") }
                )
            }
            Statement::OutageTable { name, rows, liquid } => format!(
                "Outage table {} with {} rows, in gal of {}.",
                or_dash(name),
                rows.len(),
                if *liquid { "liquid" } else { "empty space" }
            ),
            Statement::CarTestDate { test, due } => format!("{} due {}.", test_date(*test), or_dash(due)),
            Statement::Instrument(i) => {
                format!("Instrument {} for {}, span {}.", i.name, i.measures, i.span.shown())
            }
            Statement::Unrecognised { kind } => {
                format!("An entry of a kind this version does not know ({kind}); it is kept whole.")
            }
            _ => return None,
        })
    }

    fn opened(&self, opened: &Opened) -> String {
        let spot =
            if opened.spot.trim().is_empty() { String::new() } else { format!(" at {}", opened.spot.trim()) };
        let into = match opened.receiver {
            Receiver::FixedTank => "a fixed tank",
            Receiver::Truck => "trucks",
        };
        format!("Visit of {} opened{spot}, to be unloaded into {into}.", opened.car.normal())
    }

    fn step_says(&self, step: &str, outcome: StepOutcome, note: &str) -> String {
        let title = self.step_title(step);
        match outcome {
            StepOutcome::Done => format!("Step {title}: done{}.", noted(note)),
            StepOutcome::NotRight => format!("Step {title}: NOT right{}.", noted(note)),
            StepOutcome::Skipped => format!("Step {title}: skipped{}.", noted(note)),
        }
    }

    /// The title of a step by its id, as the visit's procedure has it.
    pub fn step_title(&self, step: &str) -> String {
        let (id, fitting) = step.split_once('.').map_or((step, None), |(id, f)| (id, Some(f)));
        let title =
            self.procedure().and_then(|p| p.steps.iter().find(|s| s.id == id)).map(|s| s.title.as_str());
        let fitting = fitting.and_then(crate::entry::vocabulary::Fitting::read).map(|f| f.name());
        match (title, fitting) {
            (Some(title), Some(fitting)) => format!("\u{201c}{title}\u{201d} at the {fitting}"),
            (Some(title), None) => format!("\u{201c}{title}\u{201d}"),
            (None, _) => format!("\u{201c}{step}\u{201d}"),
        }
    }
}

/// What became of an entry, in a word for people; nothing while it stands.
pub fn fate_spoken(fate: Fate) -> Option<&'static str> {
    match fate {
        Fate::Live | Fate::Withdrawal => None,
        Fate::MovedOn => Some("later changed"),
        Fate::Corrected => Some("corrected"),
        Fate::Withdrawn => Some("withdrawn"),
        Fate::Settled => Some("settled otherwise"),
        Fate::Agreed => Some("agreed on"),
        Fate::Kept => Some("kept, not counted"),
    }
}

/// "fitting liquid a · valve" for a slot, "closure not tool tight · liquid a" for a code.
pub fn spoken_code(code: &str) -> String {
    code.replace('_', " ").replace(['.', '/'], " · ")
}

/// A slot for people: "Thermometer well, closure", "Arrival outage at the car".
pub fn spoken_slot(slot: &str) -> String {
    match SlotParts::of(slot) {
        SlotParts::Fitting { fitting, part } => {
            let part = match part {
                "valve" => "open or shut",
                "listen" => "what was heard",
                "line" => "the line on it",
                "threads" => "threads engaged",
                other => other,
            };
            let name = Fitting::read(fitting).map_or_else(|| spoken_code(fitting), |f| f.name().to_owned());
            capital(&format!("{name}, {part}"))
        }
        SlotParts::Reading { purpose, measured, place } => {
            let read = (Purpose::read(purpose), Measured::read(measured), Place::read(place));
            match read {
                (Some(purpose), Some(measured), Some(place)) => title(purpose, measured, place),
                _ => spoken_code(slot),
            }
        }
        SlotParts::Seal { place } => match SealPlace::read(place) {
            Some(place) => format!("Seal {}", seal_place(place)),
            None => capital(&spoken_code(slot)),
        },
        SlotParts::One { what } => capital(&spoken_code(what)),
        _ => {
            // An id says nothing to anybody.
            let has_id = slot.split('/').any(|part| part.len() >= 32);
            let named = if has_id { slot.split('/').next().unwrap_or(slot) } else { slot };
            capital(&spoken_code(named))
        }
    }
}

/// What a photograph is about, within a sentence: "seal through the housing pin", "a defect", else as typed.
pub fn spoken_about(about: &str) -> String {
    match about.split_once('/') {
        Some(("defect", _)) => "a defect".to_owned(),
        Some(_) => uncapital(&spoken_slot(about)),
        None => Fitting::read(about).map_or_else(|| about.to_owned(), |fitting| fitting.name().to_owned()),
    }
}

fn uncapital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}

fn reading_says(reading: &Reading) -> String {
    let (on, instrument) = match reading.instrument.trim() {
        "" => (", instrument not named", ""),
        name => (", on ", name),
    };
    [&reading_title(reading), ": ", &reading.amount.shown(), on, instrument, "."].concat()
}

/// "Final pressure at the car".
pub fn reading_title(reading: &Reading) -> String {
    title(reading.purpose, reading.measured, reading.place)
}

fn title(purpose: Purpose, measured: Measured, place: Place) -> String {
    let purpose = match purpose {
        Purpose::Arrival => "Arrival",
        Purpose::LeakTest => "Leak test",
        Purpose::Transfer => "Transfer",
        Purpose::Recovery => "Recovery",
        Purpose::HoldTest => "Standing still,",
        Purpose::EmptyProof => "Empty proof,",
        Purpose::Final => "Final",
    };
    [purpose, &measured.spoken(), place_name(place)].join(" ")
}

fn place_name(place: Place) -> &'static str {
    match place {
        Place::Car => "at the car",
        Place::CarLow => "low in the car",
        Place::LiquidLine => "in the liquid line",
        Place::VapourLine => "in the vapour line",
        Place::Compressor => "at the compressor",
        Place::ShutOffPanel => "at the shut-off panel",
        Place::StorageTank => "at the storage tank",
        Place::Truck => "at the truck",
        Place::Air => "of the air",
    }
}

fn paper_says(paper: &Paper) -> String {
    let mut parts: Vec<String> = Vec::new();
    let mut part = |label: &str, text: &str| {
        if !text.trim().is_empty() {
            parts.push(format!("{label}{}", text.trim()));
        }
    };
    part("number ", &paper.number);
    part("car ", &paper.car);
    part("from ", &paper.shipper);
    part("", &paper.un_number);
    part("", &paper.product);
    if let Some(billed) = &paper.billed {
        parts.push(format!("billed {}", billed.shown()));
    }
    if let Some(rd) = &paper.relative_density {
        parts.push(format!("relative density {} at 60 °F", rd.shown()));
    }
    match paper.odorised {
        Some(true) => parts.push("odorised".to_owned()),
        Some(false) => parts.push("NOT odorised".to_owned()),
        None => {}
    }
    if parts.is_empty() {
        "Paper: nothing entered.".to_owned()
    } else {
        format!("Paper: {}.", parts.join(", "))
    }
}

fn seal_says(seal: &Seal) -> String {
    let number = match seal.number.trim() {
        "" => "without a readable number".to_owned(),
        number => number.to_owned(),
    };
    let kind = seal.kind.map_or("kind not said".to_owned(), |kind| kind.spoken());
    let event = match seal.event {
        SealEvent::Found => "found",
        SealEvent::Applied => "put on",
        SealEvent::Removed => "taken off",
    };
    let whole = if seal.intact { "whole" } else { "NOT whole" };
    let photo = if seal.photo.is_some() { ", photographed" } else { "" };
    format!(
        "Seal {number} ({kind}) {event} {}, {whole}{photo}{}.",
        seal_place(seal.place),
        noted(&seal.note.spoken())
    )
}

/// "through the housing pin".
pub fn seal_place(place: SealPlace) -> &'static str {
    match place {
        SealPlace::HousingPin => "through the housing pin",
        SealPlace::HousingLug => "through a housing lug",
        SealPlace::GaugingDevice => "on the gauging device cover",
        SealPlace::Elsewhere => "elsewhere",
    }
}

fn protection_says(what: Protection, set: bool) -> String {
    let (name, on, off) = match what {
        Protection::BlueSign => ("Blue sign", "up", "taken down"),
        Protection::HandBrake => ("Hand brake", "set", "released"),
        Protection::Chocks => ("Chocks", "in place", "taken away"),
        Protection::TrackSecured => ("Track", "secured", "opened again"),
        Protection::EmergencyShutOff => ("Emergency shut-off", "tried, works", "out of order"),
        Protection::GasDetector => ("Gas detector", "on and tested", "off"),
    };
    format!("{name} {}.", if set { on } else { off })
}

fn clock_event(event: ClockEvent) -> &'static str {
    match event {
        ClockEvent::Notice => "Notice that the car is coming",
        ClockEvent::ConstructivePlacement => "Could have been placed",
        ClockEvent::ActualPlacement => "Placed",
        ClockEvent::CarrierTold => "Carrier told that it is released",
        ClockEvent::Pulled => "Pulled",
    }
}

fn empty_sign(sign: EmptySign) -> &'static str {
    match sign {
        EmptySign::RodAtBottom => "Gauge rod at its bottom",
        EmptySign::VapourAtLiquidValve => "Only vapour at the liquid valve",
        EmptySign::LiquidAtClosure => "Liquid seen at a liquid closure",
        EmptySign::FrostRing => "Frost ring on the shell",
    }
}

/// "Tank qualification".
pub fn test_date(test: TestDate) -> &'static str {
    match test {
        TestDate::TankQualification => "Tank qualification",
        TestDate::ReliefDevice => "Relief device test",
        TestDate::ServiceEquipment => "Service equipment",
    }
}

fn photo_of(of: PhotoOf) -> &'static str {
    match of {
        PhotoOf::CarNumber => "the car number",
        PhotoOf::Seal => "a seal in place",
        PhotoOf::Threads => "threads engaged",
        PhotoOf::Defect => "a defect",
        PhotoOf::Instrument => "an instrument's face",
        PhotoOf::Housing => "the housing",
        PhotoOf::Paper => "the shipping paper",
        PhotoOf::Other => "something else",
    }
}

/// "tool-tight".
pub fn closure_state(state: ClosureState) -> &'static str {
    match state {
        ClosureState::Open => "open",
        ClosureState::HandTight => "hand-tight only",
        ClosureState::ToolTight => "tool-tight",
    }
}

/// "spindle" or "closure".
pub fn part_name(part: Part) -> &'static str {
    match part {
        Part::Valve => "spindle",
        Part::Closure => "closure",
    }
}

fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or(String::new(), |first| first.to_uppercase().collect::<String>() + chars.as_str())
}

/// A sentence within another: without its full stop.
pub(super) fn stop(text: &str) -> String {
    text.trim().trim_end_matches('.').to_owned()
}

fn noted(note: &str) -> String {
    if note.trim().is_empty() { String::new() } else { format!(" ({})", stop(note)) }
}

fn or_dash(text: &str) -> &str {
    if text.trim().is_empty() { "—" } else { text.trim() }
}
