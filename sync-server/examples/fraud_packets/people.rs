//! Frauds against an honest office by operators, their devices, strangers and thieves of a device's key.

use farsiding_core::book::Draft;
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::vocabulary::{PhotoOf, Purpose};
use farsiding_core::entry::{Role, SeenLog, Statement};
use farsiding_core::ids::{Digest, SiteId, Subject, VisitId};

use super::stay::carry;
use super::world::{BEGIN, DAY, HOLD, MINUTE, SECOND, World, YARD, device, open, person, pressure, remark};
use super::{Fraud, Made};

pub const ALL: &[Fraud] = &[
    ("honest", |picture| World::whole(picture).packet().into()),
    ("claimed_before_enrolment", claimed_before_enrolment),
    ("clock_put_back", |picture| clock_off(picture, -180 * MINUTE)),
    ("clock_put_forward", |picture| clock_off(picture, 2 * DAY)),
    ("copied_phone", copied_phone),
    ("in_anothers_name", in_anothers_name),
    ("one_photograph_on_three_cars", one_photograph_on_three_cars),
    ("lying_photograph_length", lying_photograph_length),
    ("held_back_a_month", held_back_a_month),
    ("after_revocation", after_revocation),
    ("made_up_checkpoint_seen", |picture| checkpoint_seen(picture, false)),
    ("checkpoint_of_the_future_seen", |picture| checkpoint_seen(picture, true)),
    ("expired_certificate", expired_certificate),
    ("strangers_entries", strangers_entries),
    ("joined_with_an_absent_visit", joined_with_an_absent_visit),
    ("hold_lifted_by_a_stranger", hold_lifted_by_a_stranger),
    ("hold_lifted_by_another_site", |picture| hold_lifted_by(picture, Role::Operator)),
    ("hold_lifted_by_an_inspector", |picture| hold_lifted_by(picture, Role::Inspector)),
    ("anothers_reading_withdrawn", anothers_reading_withdrawn),
    ("thief_of_a_phones_key_goes_first", thief_of_a_phones_key_goes_first),
    ("thief_of_a_phones_key_alone", thief_of_a_phones_key_alone),
];

fn claimed_before_enrolment(picture: &[u8]) -> Made {
    let mut world = World::begun(picture);
    world.worked();
    let visit = world.visit;
    world.yard.with_clock_off(-3 * DAY, |yard| yard.says(visit, vec![remark("looked at it days ago")]));
    world.held_back();
    world.packet().into()
}

fn clock_off(picture: &[u8], millis: i64) -> Made {
    let mut world = World::begun(picture);
    world.worked();
    let visit = world.visit;
    world.second.with_clock_off(millis, |second| {
        second.says(visit, vec![pressure(Purpose::Recovery, "60")]);
    });
    world.held_back();
    world.packet().into()
}

/// Two devices have one key: the copy tells another story under a number that the original has already used.
fn copied_phone(picture: &[u8]) -> Made {
    let mut world = World::whole(picture);
    let first = world.entry(|says| matches!(says, Statement::Reading(r) if r.purpose == Purpose::Final));
    let copy = world.forged_with(pressure(Purpose::Final, "4"), "LARK", &device(SECOND), None, |body| {
        (body.seq, body.prev) = (first.body.seq, first.body.prev);
        body.when = first.body.when;
    });
    carry(&mut world.office, &mut world.yard, world.visit, &[copy]);
    world.packet().into()
}

/// One person releases the car under the code of another person, who has not signed.
fn in_anothers_name(picture: &[u8]) -> Made {
    let mut world = World::whole(picture);
    let released = vec![Draft::of(Statement::Released { as_residue: true })];
    world.yard.book.append(Subject::Visit(world.visit), released, &person("LARK")).unwrap();
    world.both_sync();
    world.packet().into()
}

fn one_photograph_on_three_cars(picture: &[u8]) -> Made {
    let mut world = World::begun(picture);
    for car in ["ZZQX 121", "ZZQX 122"] {
        let other = open(&mut world.second, car);
        let says = world.photo(0, PhotoOf::CarNumber, "");
        world.second.says(other, vec![says]);
    }
    world.both_sync();
    world.worked();
    world.held_back();
    world.packet().into()
}

fn lying_photograph_length(picture: &[u8]) -> Made {
    let mut world = World::whole(picture);
    let Statement::Photo { mut photo, of, about } = world.photo(0, PhotoOf::Other, "") else {
        return world.packet().into();
    };
    photo.length += 1;
    world.second.says(world.visit, vec![Statement::Photo { photo, of, about }]);
    world.both_sync();
    world.packet().into()
}

fn held_back_a_month(picture: &[u8]) -> Made {
    let mut world = World::whole(picture);
    world.second.says(world.visit, vec![remark("the hold was known of all along")]);
    world.office.wait(31 * DAY);
    world.both_sync();
    world.packet().into()
}

fn after_revocation(picture: &[u8]) -> Made {
    let mut world = World::whole(picture);
    let revoked = world.office.now();
    world.office.certify(&device(SECOND), "Second phone", |certificate| {
        certificate.revoked_at = Some(revoked);
    });
    let before = world.entry(|says| matches!(says, Statement::Hold { .. }));
    let lifted = Statement::HoldLifted { hold: HOLD, because: "all is well".into() };
    let late = world.forged(lifted, "LARK", &device(SECOND), Some(&before));
    carry(&mut world.office, &mut world.yard, world.visit, &[late]);
    world.packet().into()
}

fn checkpoint_seen(picture: &[u8], of_the_future: bool) -> Made {
    let mut world = World::whole(picture);
    let before = world.entry(|says| matches!(says, Statement::Hold { .. }));
    let size = if of_the_future { 1_000_000 } else { before.body.seq };
    let seen = SeenLog { size, root: Digest::of(b"a log that never was") };
    let entry =
        world.forged_with(remark("after a late look"), "LARK", &device(SECOND), Some(&before), |body| {
            body.seen = Some(seen);
        });
    carry(&mut world.office, &mut world.yard, world.visit, &[entry]);
    world.packet().into()
}

fn expired_certificate(picture: &[u8]) -> Made {
    let mut world = World::whole(picture);
    let issuer = world.office.key.public();
    world.office.certify(&device(5), "Spare phone", |certificate| {
        certificate.issuer = Some(issuer);
        certificate.valid_until = Some(UtcMillis(BEGIN));
    });
    let entry = world.forged(pressure(Purpose::Final, "0"), "WREN", &device(5), None);
    carry(&mut world.office, &mut world.yard, world.visit, &[entry]);
    world.packet().into()
}

fn strangers_entries(picture: &[u8]) -> Made {
    let mut world = World::whole(picture);
    let reading = world.forged(pressure(Purpose::Final, "0"), "NOBODY", &device(77), None);
    let released = Statement::Released { as_residue: true };
    let released = world.forged(released, "NOBODY", &device(77), Some(&reading));
    carry(&mut world.office, &mut world.yard, world.visit, &[reading, released]);
    world.packet().into()
}

fn joined_with_an_absent_visit(picture: &[u8]) -> Made {
    let mut world = World::whole(picture);
    let before = world.entry(|says| matches!(says, Statement::Hold { .. }));
    let joined = Statement::Joined { other: VisitId([0xee; 16]) };
    let entry = world.forged(joined, "LARK", &device(SECOND), Some(&before));
    carry(&mut world.office, &mut world.yard, world.visit, &[entry]);
    world.packet().into()
}

fn hold_lifted_by_a_stranger(picture: &[u8]) -> Made {
    let mut world = World::whole(picture);
    let hold = world.entry(|says| matches!(says, Statement::Hold { .. }));
    let lifted = Statement::HoldLifted { hold: HOLD, because: "all is well".into() };
    let entry = world.forged_with(lifted, "WREN", &device(77), None, |body| body.follows = vec![hold.id]);
    carry(&mut world.office, &mut world.yard, world.visit, &[entry]);
    world.packet().into()
}

/// A hold is lifted by a device of the organisation that belongs to another site or lacks the right.
fn hold_lifted_by(picture: &[u8], role: Role) -> Made {
    let mut world = World::whole(picture);
    let issuer = world.office.key.public();
    world.office.certify(&device(6), "Far phone", |certificate| {
        certificate.issuer = Some(issuer);
        certificate.role = role;
        certificate.sites = (role == Role::Operator).then(|| vec![SiteId([8; 16])]);
    });
    let hold = world.entry(|says| matches!(says, Statement::Hold { .. }));
    let lifted = Statement::HoldLifted { hold: HOLD, because: "all is well".into() };
    let entry = world.forged_with(lifted, "WREN", &device(6), None, |body| body.follows = vec![hold.id]);
    carry(&mut world.office, &mut world.yard, world.visit, &[entry]);
    world.packet().into()
}

fn anothers_reading_withdrawn(picture: &[u8]) -> Made {
    let mut world = World::whole(picture);
    let reading = world.entry(|says| matches!(says, Statement::Reading(r) if r.purpose == Purpose::Arrival));
    let before = world.entry(|says| matches!(says, Statement::Hold { .. }));
    let entry = world.forged_with(Statement::Withdrawn {}, "LARK", &device(SECOND), Some(&before), |body| {
        body.slot = reading.body.slot.clone();
        body.replaces = vec![reading.id];
        body.why = "it does not suit".into();
    });
    carry(&mut world.office, &mut world.yard, world.visit, &[entry]);
    world.packet().into()
}

/// The thief's entry arrives first. The phone does not know about it and continues with the same numbers.
fn thief_of_a_phones_key_goes_first(picture: &[u8]) -> Made {
    let mut world = World::whole(picture);
    world.second.says(world.visit, vec![remark("still waiting")]);
    let before = world.entry(|says| matches!(says, Statement::Hold { .. }));
    let lifted = Statement::HoldLifted { hold: HOLD, because: "all is well".into() };
    let stolen = world.forged(lifted, "LARK", &device(SECOND), Some(&before));
    carry(&mut world.office, &mut world.yard, world.visit, &[stolen]);
    world.both_sync();
    world.packet().into()
}

/// The phone never continues, so only the owner of the key can tell.
fn thief_of_a_phones_key_alone(picture: &[u8]) -> Made {
    let mut world = World::whole(picture);
    let last = world.entry(|says| matches!(says, Statement::Remark { .. }));
    let lifted = Statement::HoldLifted { hold: HOLD, because: "all is well".into() };
    let stolen = world.forged(lifted, "WREN", &device(YARD), Some(&last));
    carry(&mut world.office, &mut world.second, world.visit, &[stolen]);
    world.packet().into()
}
