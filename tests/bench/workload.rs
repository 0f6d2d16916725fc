//! The entries everybody is measured with: visits opened, readings taken. All of it invented.

use farsiding_core::book::{Book, Draft, OpenVisit};
use farsiding_core::entry::vocabulary::{Measured, Place, Purpose, Receiver};
use farsiding_core::entry::{Reading, Statement};
use farsiding_core::ids::{OperatorId, SiteId, Subject, VisitId};
use farsiding_core::procedure::Procedures;
use farsiding_core::units::{Amount, Unit};

/// Who writes.
pub fn operator() -> OperatorId {
    OperatorId("op-1".into())
}

/// A pressure reading of the transfer.
pub fn reading(n: u32) -> Statement {
    Statement::Reading(Reading {
        measured: Measured::Pressure,
        place: Place::Car,
        purpose: Purpose::Transfer,
        amount: Amount::of(80.0 + f64::from(n % 40), Unit::PsiGauge),
        instrument: "G-3".into(),
    })
}

/// Opens a visit of car number `n`.
pub fn open(book: &mut Book, procedures: &Procedures, n: u32) -> VisitId {
    let opening = OpenVisit {
        car: format!("ZZQX {n}"),
        site: SiteId([4; 16]),
        receiver: Receiver::FixedTank,
        procedure: procedures.default_procedure().unwrap().digest,
        spot: "2".into(),
    };
    book.open_visit(opening, &operator()).unwrap()
}

/// A visit of car number `n` with so many entries, recorded `together` at a time.
pub fn visit(book: &mut Book, procedures: &Procedures, n: u32, entries: u32, together: u32) -> VisitId {
    let visit = open(book, procedures, n);
    let mut written = 1;
    while written < entries {
        let next = together.min(entries - written);
        let drafts = (written..written + next).map(|at| Draft::of(reading(at))).collect();
        book.append(Subject::Visit(visit), drafts, &operator()).unwrap();
        written += next;
    }
    visit
}

/// One more reading.
pub fn one_more(book: &mut Book, visit: VisitId) {
    book.append(Subject::Visit(visit), vec![Draft::of(reading(7))], &operator()).unwrap();
}
