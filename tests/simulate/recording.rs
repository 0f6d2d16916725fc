//! What simulated people write down: statements of many kinds, corrections, withdrawals, settlements,
//! photographs, joined stays.

use farsiding_core::book::{BookError, Draft, OpenVisit};
use farsiding_core::entry::car_number::CarNumber;
use farsiding_core::entry::site_facts::Contact;
use farsiding_core::entry::vocabulary::{
    ClosureState, Fitting, Measured, Part, PhotoOf, PhotoRef, Place, Purpose, Receiver, SealEvent, SealKind,
    SealPlace, StepOutcome, ValvePosition,
};
use farsiding_core::entry::{Opened, Reading, Seal, Statement};
use farsiding_core::ids::{Digest, EntryId, HoldId, OperatorId, SiteId, Subject, VisitId};
use farsiding_core::procedure::Procedures;
use farsiding_core::store::Write;
use farsiding_core::units::{Amount, Unit};

use crate::parties::Phone;
use farsiding_testkit::Dice;

/// Stays that several phones begin on their own.
const MET_BY_ALL: [VisitId; 2] = [VisitId([1; 16]), VisitId([2; 16])];

/// Where stays are.
pub const SITES: [SiteId; 2] = [SiteId([4; 16]), SiteId([5; 16])];

/// Somebody says something of a site, or of everybody, as far as they may.
pub fn say_of(phone: &mut Phone, subject: Subject, dice: &mut Dice) -> Result<Vec<EntryId>, BookError> {
    let says = match subject {
        Subject::Site(_) if dice.once_in(2) => contact(TELEPHONE, dice),
        _ => Statement::Remark { text: format!("remark {}", dice.next()) },
    };
    phone.book.append(subject, vec![Draft::of(says)], &OperatorId(format!("op-{}", phone.number)))
}

/// How the telephone numbers begin that the office says are to be called.
pub const TELEPHONE: &str = "555-1";

/// Whom to call, by a number that begins as given.
pub fn contact(begins: &str, dice: &mut Dice) -> Statement {
    let telephone = format!("{begins}{:03}", dice.below(1000));
    Statement::Contact(Contact {
        role: "emergency".into(),
        name: "Depot".into(),
        telephone,
        note: String::new(),
    })
}

/// Lets somebody at a phone write something down; the entries for which the phone said "kept".
pub fn something(
    phone: &mut Phone,
    procedures: &Procedures,
    dice: &mut Dice,
) -> Result<Vec<EntryId>, BookError> {
    let by = OperatorId(format!("op-{}", phone.number));
    let visits = phone.book.store().subjects()?.into_iter().filter(|s| matches!(s, Subject::Visit(_)));
    let visits: Vec<Subject> = visits.collect();
    let opening = |dice: &mut Dice| OpenVisit {
        car: format!("ZZQX {}", 4400 + dice.below(3)),
        site: dice.one_of(&SITES),
        receiver: Receiver::FixedTank,
        procedure: procedures.default_procedure().unwrap().digest,
        spot: "1".to_owned(),
    };
    if visits.is_empty() || dice.once_in(12) {
        if dice.once_in(2) {
            // Two people begin the same stay each on their own: one document made apart.
            let OpenVisit { car, site, receiver, procedure, spot } = opening(dice);
            let opened = Opened { car: CarNumber(car), site, receiver, procedure, spot, nonce: None };
            let subject = Subject::Visit(dice.one_of(&MET_BY_ALL));
            return phone.book.append(subject, vec![Draft::of(Statement::Opened(opened))], &by);
        }
        let visit = phone.book.open_visit(opening(dice), &by)?;
        let rows = phone.book.entries(Subject::Visit(visit))?.0;
        return Ok(rows.into_iter().map(|(entry, _)| entry.id).collect());
    }
    let subject = dice.one_of(&visits);
    match dice.below(12) {
        0 => correction(phone, subject, &by, dice),
        1 => settlement(phone, subject, procedures, &by, dice),
        2 => photograph(phone, subject, &by, dice),
        3 if visits.len() > 1 => {
            let Subject::Visit(other) = dice.one_of(&visits) else { return Ok(Vec::new()) };
            if subject == Subject::Visit(other) {
                return Ok(Vec::new());
            }
            let draft = Draft::of(Statement::Joined { other }).because("one car, opened twice");
            phone.book.append(subject, vec![draft], &by)
        }
        _ => {
            let drafts = (0..=dice.below(3)).map(|_| Draft::of(statement(dice))).collect();
            phone.book.append(subject, drafts, &by)
        }
    }
}

fn statement(dice: &mut Dice) -> Statement {
    let fitting = dice.one_of(&[Fitting::LiquidA, Fitting::LiquidB, Fitting::Vapour]);
    match dice.below(10) {
        0 | 1 => Statement::Reading(Reading {
            measured: Measured::Pressure,
            place: Place::Car,
            purpose: dice.one_of(&[Purpose::Arrival, Purpose::Transfer, Purpose::Final]),
            amount: Amount::of(dice.below(200) as f64, Unit::PsiGauge),
            instrument: "G-3".to_owned(),
        }),
        2 => Statement::Valve { fitting, position: dice.one_of(&[ValvePosition::Open, ValvePosition::Shut]) },
        3 => closure(fitting, dice),
        4 => Statement::Effort {
            fitting,
            part: dice.one_of(&[Part::Valve, Part::Closure]),
            amount: Amount::of(20.0 + dice.below(60) as f64, Unit::FootPound),
        },
        5 => Statement::Step {
            step: format!("shut_valve.{}", fitting.word()),
            outcome: dice.one_of(&[StepOutcome::Done, StepOutcome::NotRight]),
            note: String::new(),
        },
        6 => Statement::Seal(Seal {
            event: dice.one_of(&[SealEvent::Found, SealEvent::Applied, SealEvent::Removed]),
            place: SealPlace::HousingPin,
            number: format!("S{}", dice.below(20)),
            kind: Some(SealKind::Cable),
            intact: true,
            photo: None,
            note: "".into(),
            because: String::new(),
        }),
        7 => {
            Statement::Hold { hold: HoldId([dice.below(3) as u8; 16]), because: "a smell of gas".to_owned() }
        }
        8 => Statement::CarCapacity {
            capacity: Amount::of(30_000.0 + dice.below(4) as f64, Unit::Gallon),
            insulation: None,
        },
        _ => Statement::Remark { text: format!("remark {} {}", dice.next(), "…".repeat(dice.below(400))) },
    }
}

fn closure(fitting: Fitting, dice: &mut Dice) -> Statement {
    let state = dice.one_of(&[ClosureState::Open, ClosureState::HandTight, ClosureState::ToolTight]);
    Statement::Closure { fitting, state }
}

/// Says that an entry was wrong, or takes it back.
fn correction(
    phone: &mut Phone,
    subject: Subject,
    by: &OperatorId,
    dice: &mut Dice,
) -> Result<Vec<EntryId>, BookError> {
    let entries = phone.book.entries(subject)?.0;
    let own: Vec<_> = entries.into_iter().map(|(e, _)| e).filter(|e| e.body.about == subject).collect();
    if own.is_empty() {
        return Ok(Vec::new());
    }
    let wrong = &own[dice.below(own.len())];
    let draft = match &wrong.body.says {
        Statement::Opened(_) => return Ok(Vec::new()),
        Statement::Closure { fitting, .. } if !dice.once_in(4) => {
            Draft::instead_of(closure(*fitting, dice), vec![wrong.id], "looked again")
        }
        _ => Draft {
            slot: wrong.body.slot.clone(),
            ..Draft::instead_of(Statement::Withdrawn {}, vec![wrong.id], "wrong car")
        },
    };
    phone.book.append(subject, vec![draft], by)
}

fn settlement(
    phone: &mut Phone,
    subject: Subject,
    procedures: &Procedures,
    by: &OperatorId,
    dice: &mut Dice,
) -> Result<Vec<EntryId>, BookError> {
    let Subject::Visit(visit) = subject else { return Ok(Vec::new()) };
    let Some(view) = phone.book.gather()?.view(visit, procedures) else { return Ok(Vec::new()) };
    let Some(first) = view.disagreements.first() else { return Ok(Vec::new()) };
    let keeps = first.entries[dice.below(first.entries.len())];
    let draft = Draft::settling(&view, keeps, "both were asked")?;
    phone.book.append(subject, vec![draft], by)
}

/// A photograph as a shell attaches it: the bytes are kept (here: noted as here) before the entry is made.
fn photograph(
    phone: &mut Phone,
    subject: Subject,
    by: &OperatorId,
    dice: &mut Dice,
) -> Result<Vec<EntryId>, BookError> {
    let bytes = dice.next().to_le_bytes();
    let (sha256, length) = (Digest::of(&bytes), bytes.len() as u64);
    let photo = Write::Photo { sha256, length, media: "image/jpeg", here: true, held: false };
    phone.book.store_mut().commit(&[photo])?;
    let photo = PhotoRef { sha256, length, media: "image/jpeg".to_owned() };
    let says = Statement::Photo { photo, of: PhotoOf::Seal, about: String::new() };
    phone.book.append(subject, vec![Draft::of(says)], by)
}
