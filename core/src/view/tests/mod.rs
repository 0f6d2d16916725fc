//! The stories about the view: phones that record, meet, and are folded.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a failed unwrap is a failed test"
)]

mod carried;
mod done;
mod editions;
mod expected;
mod gate;
mod gate_before_rules;
mod gates;
mod guide;
mod hostile;
mod job;
mod known;
mod leaving;
mod meeting;
mod own_editions;
mod plan;
mod quantities;
mod received;
mod reopening;
mod resumed;
mod slots;
mod together;
mod track;
mod troubles;
mod unused;
mod watch;

use super::*;
use crate::English as _;
use crate::authority::{Authority, Judged};
use crate::clock::{Stamp, UtcMillis};
use crate::entry::coded::{Checked, Coded};
use crate::entry::vocabulary::*;
use crate::entry::{Body, DeviceKey, Entry, Opened, Paper, Reading, RestsOn, Seal, Statement, TruckLoad};
use crate::ids::{Digest, EntryId, OperatorId, SiteId, Subject, VisitId};
use crate::procedure::Procedures;
use crate::units::{Amount, Unit};

/// Everything that a view says, in English, one line each.
fn show(view: &VisitView) -> String {
    fn lines(value: &serde_json::Value, all: &mut String) {
        match value {
            serde_json::Value::String(text) => {
                all.push_str(text);
                all.push('\n');
            }
            serde_json::Value::Array(items) => items.iter().for_each(|item| lines(item, all)),
            serde_json::Value::Object(fields) => match (fields.get("message"), fields.get("text")) {
                (Some(_), Some(text)) => lines(text, all),
                _ => fields.values().for_each(|field| lines(field, all)),
            },
            _ => {}
        }
    }
    let mut value = serde_json::to_value(view).unwrap();
    farsiding_words::Words::english().fill(&mut value);
    let mut all = String::new();
    lines(&value, &mut all);
    all
}

/// 2026-11-24T14:00:00Z, when the stories begin.
const MORNING: i64 = 1_795_528_800_000;
const MINUTE: i64 = 60_000;
const VISIT: VisitId = VisitId([7; 16]);
const SITE: SiteId = SiteId([9; 16]);

/// A phone without reception. It knows what it recorded and what others passed to it.
#[derive(Clone)]
struct Phone {
    key: DeviceKey,
    person: &'static str,
    visit: VisitId,
    knows: Vec<Entry>,
    seq: u64,
    prev: Option<EntryId>,
    /// The phone's clock.
    now: i64,
    ahead: Option<i64>,
    /// When the thing that is recorded next was done, if that is stated.
    done: Option<UtcMillis>,
    /// What the next entry rests on, if on anything.
    rests_on: Option<RestsOn>,
}

impl Phone {
    fn of(person: &'static str, secret: u8) -> Phone {
        Phone {
            key: DeviceKey::from_secret([secret; 32]),
            person,
            visit: VISIT,
            knows: Vec::new(),
            seq: 0,
            prev: None,
            now: MORNING + i64::from(secret) * 1000,
            ahead: None,
            done: None,
            rests_on: None,
        }
    }

    fn seal(
        &mut self,
        slot: String,
        says: Statement,
        follows: Vec<EntryId>,
        replaces: Vec<EntryId>,
        why: &str,
    ) -> EntryId {
        self.seq += 1;
        self.now += MINUTE;
        let body = Body {
            about: Subject::Visit(self.visit),
            slot,
            says,
            follows,
            replaces,
            why: why.to_owned(),
            by: OperatorId(self.person.to_owned()),
            seq: self.seq,
            prev: self.prev,
            when: Stamp { at: UtcMillis(self.now), offset_minutes: -360, ahead_millis: self.ahead },
            place: None,
            seen: None,
            hand: None,
            done: self.done.take(),
            rests_on: self.rests_on.take(),
        };
        let entry = Entry::seal(body, &self.key).unwrap();
        let id = entry.id;
        self.prev = Some(id);
        self.knows.push(entry);
        id
    }

    /// Records a statement that follows everything live in its slot.
    fn says(&mut self, says: Statement) -> EntryId {
        let follows = Slots::fold(all(&self.knows)).follows_for(&says.slot(), self.key.public());
        self.seal(says.slot(), says, follows, vec![], "")
    }

    fn says_because(&mut self, says: Statement, why: &str) -> EntryId {
        let follows = Slots::fold(all(&self.knows)).follows_for(&says.slot(), self.key.public());
        self.seal(says.slot(), says, follows, vec![], why)
    }

    fn corrects(&mut self, wrong: EntryId, says: Statement, why: &str) -> EntryId {
        self.seal(says.slot(), says, vec![], vec![wrong], why)
    }

    fn withdraws(&mut self, wrong: EntryId, why: &str) -> EntryId {
        let slot = self.knows.iter().find(|e| e.id == wrong).unwrap().body.slot.clone();
        self.seal(slot, Statement::Withdrawn {}, vec![], vec![wrong], why)
    }

    fn settles(&mut self, slot: &str, keeps: EntryId, why: &str) -> EntryId {
        let replaces = Slots::fold(all(&self.knows)).live(slot).map(|item| item.entry.id).collect();
        self.seal(slot.to_owned(), Statement::Agreement { keeps }, vec![], replaces, why)
    }

    fn meets(&mut self, other: &mut Phone) {
        for entry in &other.knows {
            if !self.knows.iter().any(|e| e.id == entry.id) {
                self.knows.push(entry.clone());
            }
        }
        other.knows = self.knows.clone();
    }

    fn view(&self) -> VisitView {
        view_of(&self.knows, UtcMillis(self.now + MINUTE))
    }
}

fn view_of(entries: &[Entry], now: UtcMillis) -> VisitView {
    let procedures = Procedures::built_in().unwrap();
    let recorded: Vec<Recorded<'_>> = entries.iter().map(Recorded::unsent).collect();
    fold(&recorded, &Context::at(now, &procedures))
}

fn opened(receiver: Receiver) -> Statement {
    opened_as("ZZQX 4417", receiver)
}

/// Judges entries as on a phone that knows no organisation.
fn all<'a>(entries: impl IntoIterator<Item = &'a Entry>) -> Vec<Judged<'a>> {
    Authority::nobody().stay(entries.into_iter().map(|entry| (entry, None)))
}

/// A stay that began under the first edition, whose release gate had its rules in the program.
fn opened_before_rules(receiver: Receiver) -> Statement {
    let first = Digest::of(crate::procedure::BUILT_IN[0].as_bytes());
    match opened(receiver) {
        Statement::Opened(opened) => Statement::Opened(Opened { procedure: first, ..opened }),
        other => other,
    }
}

fn opened_as(car: &str, receiver: Receiver) -> Statement {
    let procedures = Procedures::built_in().unwrap();
    Statement::Opened(Opened {
        car: crate::entry::car_number::CarNumber(car.into()),
        site: SITE,
        receiver,
        procedure: procedures.default_procedure().unwrap().digest,
        spot: "track 2".into(),
        nonce: None,
    })
}

fn valve(fitting: Fitting, position: ValvePosition) -> Statement {
    Statement::Valve { fitting, position }
}

fn closure(fitting: Fitting, state: ClosureState) -> Statement {
    Statement::Closure { fitting, state }
}

fn quiet(fitting: Fitting) -> Statement {
    Statement::Listen { fitting, heard: Heard::Quiet }
}

fn line(fitting: Fitting, connected: bool) -> Statement {
    Statement::Line { fitting, connected, hose: "H-2".into() }
}

fn psi(purpose: Purpose, place: Place, text: &str, instrument: &str) -> Statement {
    let (amount, _) = Amount::read(text, Unit::PsiGauge);
    Statement::Reading(Reading {
        measured: Measured::Pressure,
        place,
        purpose,
        amount,
        instrument: instrument.into(),
    })
}

fn turns(fitting: Fitting, turns: &str) -> Statement {
    Statement::Threads { fitting, engaged: Amount::read(turns, Unit::Turns).0 }
}

fn cover(closed: bool) -> Statement {
    Statement::Cover { closed, pinned: closed, bolts_in_place: 8, bolts_required: 8 }
}

fn protection(what: Protection, set: bool) -> Statement {
    Statement::Protection { what, set }
}

fn seal_applied() -> Statement {
    Statement::Seal(Seal {
        event: SealEvent::Applied,
        place: SealPlace::HousingPin,
        number: "0042".into(),
        kind: Some(SealKind::Cable),
        intact: true,
        photo: Some(Digest::of(b"seal")),
        note: "".into(),
        because: String::new(),
    })
}

fn photo(of: PhotoOf, about: &str) -> Statement {
    Statement::Photo {
        photo: PhotoRef { sha256: Digest::of(about.as_bytes()), length: 3, media: "image/jpeg".into() },
        of,
        about: about.into(),
    }
}

fn empty_accepted() -> Statement {
    Statement::EmptyDecision { accepted: true, grounds: "rod at its bottom, pressure stands".into() }
}

fn checked(what: Checked) -> Statement {
    Statement::Check { what: Coded::Code(what), right: true, note: String::new() }
}

fn step_done(step: &str) -> Statement {
    Statement::Step { step: step.into(), outcome: StepOutcome::Done, note: String::new() }
}

fn seal_found() -> Statement {
    Statement::Seal(Seal {
        event: SealEvent::Found,
        place: SealPlace::HousingPin,
        number: "0041".into(),
        kind: Some(SealKind::Cable),
        intact: true,
        photo: Some(Digest::of(b"found")),
        note: "".into(),
        because: String::new(),
    })
}

fn paper_of(car: &str, un_number: &str) -> Statement {
    Statement::Paper(Paper { car: car.into(), un_number: un_number.into(), ..Paper::default() })
}

fn percent(text: &str) -> Statement {
    Statement::Reading(Reading {
        measured: Measured::Level,
        place: Place::StorageTank,
        purpose: Purpose::Arrival,
        amount: Amount::read(text, Unit::Percent).0,
        instrument: String::new(),
    })
}

/// Every closure gone over, all of them in order.
fn last_round() -> Statement {
    Statement::LastRound {
        fittings: Fitting::USUAL.to_vec(),
        except: Vec::new(),
        note: String::new(),
        photo: Some(Digest::of(b"housing")),
    }
}

/// Everything that is asked before unloading, up to the signature.
fn received(receiver: Receiver) -> Phone {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(receiver));
    phone.says(photo(PhotoOf::CarNumber, ""));
    phone.says(paper_of("ZZQX 4417", "UN1978"));
    phone.says(seal_found());
    phone.says(Statement::Weather { precipitation: Precipitation::Dry, wind: "nw light".into() });
    phone.says(step_done("escape_way"));
    phone.says(match receiver {
        Receiver::FixedTank => percent("40"),
        Receiver::Truck => checked(Checked::RoomInTruck),
    });
    for what in Protection::ALL {
        phone.says(protection(*what, true));
    }
    for fitting in Fitting::USUAL {
        if fitting.has_valve() {
            phone.says(valve(fitting, ValvePosition::Shut));
            phone.says(quiet(fitting));
        }
        phone.says(closure(fitting, ClosureState::ToolTight));
    }
    phone.says(psi(Purpose::Arrival, Place::Car, "118", "PG-1"));
    phone
}

/// Unloading with one liquid line and the vapour line, up to the closing of their fittings.
fn unloaded(mut phone: Phone) -> Phone {
    for fitting in [Fitting::LiquidA, Fitting::Vapour] {
        let item = format!("adapter {}", fitting.spoken());
        phone.says(closure(fitting, ClosureState::Open));
        phone.says(Statement::ItemOut { item, fitting: Some(fitting) });
        phone.says(line(fitting, true));
        phone.says(valve(fitting, ValvePosition::Open));
    }
    phone.says(psi(Purpose::Transfer, Place::Car, "121", "PG-1"));
    phone.says(psi(Purpose::Recovery, Place::Car, "40", "PG-1"));
    phone.says(Statement::EmptySign { sign: EmptySign::RodAtBottom, seen: true });
    phone.says(empty_accepted());
    for fitting in [Fitting::LiquidA, Fitting::Vapour] {
        let item = format!("adapter {}", fitting.spoken());
        phone.says(valve(fitting, ValvePosition::Shut));
        phone.says(quiet(fitting));
        phone.says(line(fitting, false));
        phone.says(closure(fitting, ClosureState::ToolTight));
        phone.says(turns(fitting, "5"));
        phone.says(Statement::ItemIn { item });
    }
    phone
}

/// Records the whole job with one liquid line and the vapour line, without omissions.
fn whole_job(receiver: Receiver) -> Phone {
    let mut phone = received(receiver);
    phone.says(Statement::FitToUnload {});
    let mut phone = unloaded(phone);
    phone.says(psi(Purpose::Final, Place::Car, "38", "LG-1"));
    for fitting in [Fitting::GaugingDevice, Fitting::ThermometerWell, Fitting::SampleLine] {
        phone.says(closure(fitting, ClosureState::ToolTight));
    }
    phone.says(last_round());
    phone.says(cover(true));
    phone.says(seal_applied());
    for what in [Checked::OutsideBeforeOffered, Checked::ResiduePaper, Checked::Placards] {
        phone.says(checked(what));
    }
    phone.says(protection(Protection::Chocks, false));
    phone.says(protection(Protection::BlueSign, false));
    phone
}

fn codes(view: &VisitView) -> Vec<&str> {
    view.blockers.iter().map(|b| b.code.as_str()).collect()
}

fn open_codes(view: &VisitView) -> Vec<&str> {
    view.blockers.iter().filter(|b| b.passed_over.is_none()).map(|b| b.code.as_str()).collect()
}

fn finding<'v>(view: &'v VisitView, code: &str) -> Option<&'v crate::units::Finding> {
    view.findings.iter().find(|f| f.code == code)
}
