//! The view's stories: phones that record, meet and are folded.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a failed unwrap is a failed test"
)]

mod gate;
mod guide;
mod hostile;
mod job;
mod known;
mod meeting;
mod quantities;
mod reopening;
mod slots;
mod unused;
mod watch;

use super::*;
use crate::authority::{Authority, Judged};
use crate::clock::{Stamp, UtcMillis};
use crate::entry::vocabulary::*;
use crate::entry::{Body, DeviceKey, Entry, Opened, Reading, Seal, Statement};
use crate::ids::{Digest, EntryId, OperatorId, SiteId, Subject, VisitId};
use crate::procedure::Procedures;
use crate::units::{Amount, Unit};

/// 2026-11-24T14:00:00Z, when the stories begin.
const MORNING: i64 = 1_795_528_800_000;
const MINUTE: i64 = 60_000;
const VISIT: VisitId = VisitId([7; 16]);
const SITE: SiteId = SiteId([9; 16]);

/// A phone with no signal: it knows what it recorded and what it was handed.
#[derive(Clone)]
struct Phone {
    key: DeviceKey,
    person: &'static str,
    visit: VisitId,
    knows: Vec<Entry>,
    seq: u64,
    prev: Option<EntryId>,
    /// Its clock.
    now: i64,
    ahead: Option<i64>,
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
        };
        let entry = Entry::seal(body, &self.key).unwrap();
        let id = entry.id;
        self.prev = Some(id);
        self.knows.push(entry);
        id
    }

    /// Records a statement after everything live in its slot.
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

/// Entries as they count where no organisation is known.
fn all<'a>(entries: impl IntoIterator<Item = &'a Entry>) -> Vec<Judged<'a>> {
    Authority::nobody().stay(entries.into_iter().map(|entry| (entry, None)))
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

/// The whole job with one liquid and the vapour line, nothing left out.
fn whole_job(receiver: Receiver) -> Phone {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(receiver));
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
    phone.says(psi(Purpose::Final, Place::Car, "38", "LG-1"));
    for fitting in [Fitting::GaugingDevice, Fitting::ThermometerWell, Fitting::SampleLine] {
        phone.says(closure(fitting, ClosureState::ToolTight));
    }
    phone.says(cover(true));
    phone.says(seal_applied());
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
