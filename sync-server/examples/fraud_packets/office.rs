//! Frauds by an office that holds all its own keys and can therefore forge the ledger, its log, certificates
//! and packets.

use farsiding_core::book::Draft;
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::vocabulary::{PhotoOf, Purpose};
use farsiding_core::entry::{PersonSigner, Role, Statement};
use farsiding_core::evidence::{LogLeaf, ledger_log, merkle};
use farsiding_core::ids::{Digest, SiteId, Subject, VisitId};
use farsiding_core::store::{Store, Write};

use super::stay::{Held, carry};
use super::world::{
    BEGIN, DAY, HOLD, MINUTE, SECOND, World, device, of_device, open, packet, person, pressure, remark,
    roster,
};
use super::{Fraud, Made};

pub const ALL: &[Fraud] = &[
    ("made_up_organisation", |picture| {
        let mut world = World::begun_by(picture, true, 66);
        world.worked();
        world.held_back();
        world.packet().into()
    }),
    ("revocation_taken_back", revocation_taken_back),
    ("never_shown_the_log", |picture| never_shown(picture).packet().into()),
    ("another_car", another_car),
    ("invented_stay", |picture| invented_stay(picture, false)),
    ("invented_stay_with_times_to_fit", |picture| invented_stay(picture, true)),
    ("witness_left_out", |picture| witness_left_out(picture).into()),
    ("witness_left_out_against_a_phone", |picture| Made {
        note: Some(kept_by_second(picture)),
        file: witness_left_out(picture),
    }),
    ("witness_left_out_never_shown_the_log", |picture| left_out(&never_shown(picture)).into()),
    ("fork_against_a_phone", fork_against_a_phone),
    ("inner_entry_left_out_of_the_log", inner_entry_left_out_of_the_log),
    ("packet_of_before_the_hold", |picture| before_the_hold(picture).into()),
    ("packet_of_before_the_hold_against_a_phone", |picture| Made {
        note: Some(kept_by_second(picture)),
        file: before_the_hold(picture),
    }),
    ("packet_of_before_the_hold_with_the_proof", before_the_hold_with_the_proof),
    ("log_in_another_order", log_in_another_order),
    ("log_times_put_back", |picture| log_times(picture, -2 * DAY)),
    ("log_times_put_forward", |picture| log_times(picture, 10 * DAY)),
    ("log_times_put_forward_an_hour", |picture| log_times(picture, 60 * MINUTE)),
    ("late_certificate", |picture| late_certificate(picture, false)),
    ("late_certificate_backdated", |picture| late_certificate(picture, true)),
    ("device_renamed", device_renamed),
    ("role_and_sites_changed", role_and_sites_changed),
    ("no_receipts", no_receipts),
    ("ended_key_left_out", |picture| ended_key(picture, true)),
    ("ended_key", |picture| ended_key(picture, false)),
    ("photographs_left_out", photographs_left_out),
    ("other_cars_photographs_not_told", other_cars_photographs_not_told),
    ("second_record_of_the_car_left_out", second_record_of_the_car_left_out),
    ("two_records_of_the_car", |picture| two_records(picture).packet().into()),
    ("log_begun_anew", log_begun_anew),
];

/// Returns a stay whose phones were never shown the log, so that no entry names a checkpoint.
fn never_shown(picture: &[u8]) -> World {
    let mut world = World::begun_by(picture, false, 42);
    world.worked();
    world.held_back();
    world
}

/// Returns the stay of another car at the same office.
fn another_car(picture: &[u8]) -> Made {
    let mut world = never_shown(picture);
    let other = open(&mut world.second, "ZZQX 130");
    world.second.says(other, vec![remark("this one was empty"), pressure(Purpose::Final, "0")]);
    world.both_sync();
    packet(&world.office.store, &world.office.key, &world.held, other).into()
}

/// Returns an invented stay. The certificates are as new as the lie, or backdated to fit it.
fn invented_stay(picture: &[u8], to_fit: bool) -> Made {
    let world = World::whole(picture);
    let again = world.ledger_again(&world.leaves(), |certificate| {
        let later = if to_fit { -30 * DAY } else { 2 * DAY };
        certificate.issued_at = UtcMillis(BEGIN + later);
    });
    world.packet_of(&again).into()
}

fn left_out(world: &World) -> Vec<u8> {
    let witness = of_device(world, device(SECOND).public());
    let leaves: Vec<LogLeaf> =
        world.leaves().into_iter().filter(|leaf| !witness.contains(&leaf.entry)).collect();
    world.packet_of(&world.ledger_again(&leaves, |_| {}))
}

fn witness_left_out(picture: &[u8]) -> Vec<u8> {
    left_out(&World::whole(picture))
}

fn kept_by_second(picture: &[u8]) -> String {
    let mut world = World::whole(picture);
    world.watch();
    world.kept_by(&world.second)
}

/// Returns another log of the same length, in which the hold has other words.
fn fork_against_a_phone(picture: &[u8]) -> Made {
    let mut world = World::whole(picture);
    world.watch();
    let note = world.kept_by(&world.second);
    let hold = world.entry(|says| matches!(says, Statement::Hold { .. }));
    let mut leaves = world.leaves();
    let at = leaves.iter().position(|leaf| leaf.entry == hold.id).unwrap();
    leaves.swap(at, at + 1);
    let file = world.packet_of(&world.ledger_again(&leaves, |_| {}));
    Made { file, note: Some(note) }
}

fn inner_entry_left_out_of_the_log(picture: &[u8]) -> Made {
    let world = World::whole(picture);
    let reading = world.entry(|says| matches!(says, Statement::Reading(r) if r.purpose == Purpose::Arrival));
    let leaves: Vec<LogLeaf> = world.leaves().into_iter().filter(|leaf| leaf.entry != reading.id).collect();
    world.packet_of(&world.ledger_again(&leaves, |_| {})).into()
}

/// Returns a genuine packet, as it would have been on the day before the hold.
fn before_the_hold(picture: &[u8]) -> Vec<u8> {
    let mut world = World::begun(picture);
    world.worked();
    world.packet()
}

/// Returns the same packet, with the proof that the office must hand out when asked: the consistency of its
/// log with the checkpoint that a phone keeps.
fn before_the_hold_with_the_proof(picture: &[u8]) -> Made {
    use base64::Engine as _;
    let file = before_the_hold(picture);
    let mut world = World::begun(picture);
    world.worked();
    let size = world.office.store.log().size().unwrap();
    world.held_back();
    world.watch();
    let log = world.office.store.log();
    let path = merkle::stored_consistency(log, size, log.size().unwrap()).unwrap().unwrap();
    let lines = path.iter().map(|hash| base64::engine::general_purpose::STANDARD.encode(hash.0) + "\n");
    Made { file, note: Some(world.kept_by(&world.second) + &lines.collect::<String>()) }
}

fn log_in_another_order(picture: &[u8]) -> Made {
    let world = World::whole(picture);
    let mut leaves = world.leaves();
    let times: Vec<UtcMillis> = leaves.iter().map(|leaf| leaf.received_at).collect();
    leaves.reverse();
    for (leaf, at) in leaves.iter_mut().zip(times) {
        leaf.received_at = at;
    }
    unreceipted(&world, &leaves)
}

fn log_times(picture: &[u8], millis: i64) -> Made {
    let world = World::whole(picture);
    let mut leaves = world.leaves();
    for leaf in &mut leaves {
        leaf.received_at = UtcMillis(leaf.received_at.0 + millis);
    }
    unreceipted(&world, &leaves)
}

/// Returns the packet of another log without receipts, because the given receipts would reveal the true
/// times.
fn unreceipted(world: &World, leaves: &[LogLeaf]) -> Made {
    let mut bare = world.ledger_unpublished(leaves, |_| {}, false);
    ledger_log::publish(&mut bare, &world.office.key, world.office.now()).unwrap();
    world.packet_of(&bare).into()
}

/// Returns a stay with entries that a phone wrote before it was enrolled, and a certificate issued when the
/// entries were wanted.
fn late_certificate(picture: &[u8], backdated: bool) -> Made {
    let mut world = World::whole(picture);
    let found = world.forged(pressure(Purpose::Final, "0"), "WREN", &device(7), None);
    let lifted = Statement::HoldLifted { hold: HOLD, because: "all is well".into() };
    let lifted = world.forged(lifted, "WREN", &device(7), Some(&found));
    carry(&mut world.office, &mut world.yard, world.visit, &[found, lifted]);
    let issuer = world.office.key.public();
    let issued = if backdated { BEGIN - 20 * DAY } else { world.office.now().0 + DAY };
    world.office.certify(&device(7), "Third phone", |certificate| {
        certificate.issuer = Some(issuer);
        certificate.issued_at = UtcMillis(issued);
    });
    world.packet().into()
}

fn device_renamed(picture: &[u8]) -> Made {
    let world = World::whole(picture);
    let again = world.ledger_again(&world.leaves(), |certificate| {
        if certificate.device == device(SECOND).public() {
            certificate.name = "Phone of the shipper".into();
        }
    });
    world.packet_of(&again).into()
}

/// Returns a stay in which an inspector's phone of another site is turned into one that may lift a hold here.
fn role_and_sites_changed(picture: &[u8]) -> Made {
    let mut world = World::whole(picture);
    let issuer = world.office.key.public();
    world.office.certify(&device(6), "Far phone", |certificate| {
        certificate.issuer = Some(issuer);
        certificate.role = Role::Inspector;
        certificate.sites = Some(vec![SiteId([8; 16])]);
    });
    let lifted = Statement::HoldLifted { hold: HOLD, because: "all is well".into() };
    let entry = world.forged(lifted, "WREN", &device(6), None);
    carry(&mut world.office, &mut world.yard, world.visit, &[entry]);
    let again = world.ledger_again(&world.leaves(), |certificate| {
        if certificate.device == device(6).public() {
            certificate.role = Role::Office;
            certificate.sites = None;
        }
    });
    world.packet_of(&again).into()
}

/// Returns a stay in which late entries are admitted by a certificate without the revocation.
fn revocation_taken_back(picture: &[u8]) -> Made {
    let mut world = World::whole(picture);
    let revoked = world.office.now();
    world.office.certify(&device(SECOND), "Second phone", |certificate| {
        certificate.revoked_at = Some(revoked);
    });
    let before = world.entry(|says| matches!(says, Statement::Hold { .. }));
    let lifted = Statement::HoldLifted { hold: HOLD, because: "all is well".into() };
    let late = world.forged(lifted, "LARK", &device(SECOND), Some(&before));
    carry(&mut world.office, &mut world.yard, world.visit, &[late]);
    let again = world.ledger_again(&world.leaves(), |certificate| certificate.revoked_at = None);
    world.packet_of(&again).into()
}

/// Returns the packet of the unchanged ledger without receipts, whether none were given or none are shown.
fn no_receipts(picture: &[u8]) -> Made {
    let world = World::whole(picture);
    unreceipted(&world, &world.leaves())
}

/// Returns a stay in which a person's key signed after its end, which the reader of the packet is not to
/// notice.
fn ended_key(picture: &[u8], left_out: bool) -> Made {
    let mut world = World::begun(picture);
    let lark = PersonSigner::from_secret([11; 32]);
    let (people, operator) = (roster(&world.office), world.yard.operator.clone());
    let confirmed = Statement::PersonKeyConfirmed { person: person("LARK"), key: lark.public() };
    world.yard.book.append(people, vec![Draft::of(confirmed)], &operator).unwrap();
    let ended = Statement::PersonKeyEnded { person: person("LARK"), key: lark.public(), last: None };
    let ended = world.yard.book.append(people, vec![Draft::of(ended)], &operator).unwrap();
    world.both_sync();
    world.worked();
    world.held_back();
    let released = vec![Draft::of(Statement::Released { as_residue: true })];
    let visit = Subject::Visit(world.visit);
    world.second.book.append_by_hand(visit, released, &person("LARK"), &lark).unwrap();
    world.both_sync();
    if !left_out {
        return world.packet().into();
    }
    let leaves: Vec<LogLeaf> =
        world.leaves().into_iter().filter(|leaf| !ended.contains(&leaf.entry)).collect();
    world.packet_of(&world.ledger_again(&leaves, |_| {})).into()
}

fn photographs_left_out(picture: &[u8]) -> Made {
    let world = World::whole(picture);
    let none = Held(std::collections::BTreeMap::new());
    packet(&world.office.store, &world.office.key, &none, world.visit).into()
}

fn other_cars_photographs_not_told(picture: &[u8]) -> Made {
    let mut world = World::begun(picture);
    let other = open(&mut world.second, "ZZQX 121");
    let says = world.photo(0, PhotoOf::CarNumber, "");
    world.second.says(other, vec![says]);
    world.both_sync();
    world.worked();
    world.held_back();
    let about = Some(Subject::Visit(other));
    let leaves: Vec<LogLeaf> = world.leaves().into_iter().filter(|leaf| leaf.about != about).collect();
    world.packet_of(&world.ledger_again(&leaves, |_| {})).into()
}

/// Returns a stay that was recorded twice, with the two records joined.
fn two_records(picture: &[u8]) -> World {
    let mut world = World::begun(picture);
    let other = open(&mut world.second, "ZZQX 120");
    world.second.says(other, vec![remark("the valve leaked when the car came")]);
    world.both_sync();
    world.yard.says(world.visit, vec![Statement::Joined { other }]);
    world.worked();
    world.held_back();
    world
}

fn second_record_of_the_car_left_out(picture: &[u8]) -> Made {
    let world = two_records(picture);
    let joined = world.entry(|says| matches!(says, Statement::Joined { .. }));
    let Statement::Joined { other } = joined.body.says else { return world.packet().into() };
    let about = Some(Subject::Visit(other));
    let leaves: Vec<LogLeaf> = world.leaves().into_iter().filter(|leaf| leaf.about != about).collect();
    world.packet_of(&world.ledger_again(&leaves, |_| {})).into()
}

/// Returns the packet of a ledger that allegedly came back from a backup and continues under another name, so
/// that a phone's checkpoint belongs to the earlier log.
fn log_begun_anew(picture: &[u8]) -> Made {
    let mut world = World::whole(picture);
    world.watch();
    let note = world.kept_by(&world.second);
    let visit: VisitId = world.visit;
    let leaves = world.leaves();
    let mut again = world.ledger_unpublished(&leaves[..leaves.len() - 1], |_| {}, true);
    let origin = format!("{}/{}", note.lines().next().unwrap(), &Digest::of(b"anew").to_string()[..16]);
    again.commit(&[Write::Value { key: "log/origin", value: origin.as_bytes() }]).unwrap();
    ledger_log::publish(&mut again, &world.office.key, world.office.now()).unwrap();
    Made { file: packet(&again, &world.office.key, &world.held, visit), note: Some(note) }
}
