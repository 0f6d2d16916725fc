//! Tests of the table of rights for every kind of statement, every party and every kind of document.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a failed unwrap is a failed test"
)]

use std::collections::BTreeMap;
use std::path::Path;

use super::*;
use crate::clock::Stamp;
use crate::entry::car_number::CarNumber;
use crate::entry::{Body, DeviceKey, EarlierGrant, Opened, OrganisationKey, PersonSigner, Statement};
use crate::ids::{CarId, OperatorId, OrganisationId, Subject, VisitId, VisitNonce};

const HERE: SiteId = SiteId([0xaa; 16]);
const ELSEWHERE: SiteId = SiteId([0xbb; 16]);
const NONCE: VisitNonce = VisitNonce([7; 16]);
const REVOKED: UtcMillis = UtcMillis(5_000_000);

fn organisation() -> OrganisationId {
    OrganisationId::of_key(&OrganisationKey::from_secret([99; 32]).public())
}

fn visit() -> VisitId {
    VisitId::at_site(HERE, NONCE)
}

fn key(number: u8) -> DeviceKey {
    DeviceKey::from_secret([number; 32])
}

const OPERATOR: u8 = 1;
const OFFICE: u8 = 2;
const INSPECTOR: u8 = 3;
const LOST: u8 = 4;
const STRANGER: u8 = 5;
const OF_ANOTHER_SITE: u8 = 6;
const FIRST: u8 = 7;
const EVERYBODY: [(u8, &str); 6] = [
    (OPERATOR, "operator"),
    (OFFICE, "office"),
    (INSPECTOR, "inspector"),
    (LOST, "revoked"),
    (STRANGER, "never enrolled"),
    (OF_ANOTHER_SITE, "other site"),
];

fn certificate(number: u8, role: Role, sites: Option<Vec<SiteId>>) -> Certificate {
    let issuer = Some(OrganisationKey::from_secret([99; 32]).public());
    let plain = Certificate::by_role(
        organisation(),
        key(number).public(),
        format!("device {number}"),
        role,
        UtcMillis(0),
    );
    Certificate { issuer, sites, renewed_at: Some(UtcMillis(0)), ..plain }
}

fn lost() -> Certificate {
    let last = Some(LastEntry { seq: 1, entry: EntryId([1; 32]) });
    Certificate { revoked_at: Some(REVOKED), last, ..certificate(LOST, Role::Office, None) }
}

fn authority() -> Authority {
    Authority::of(
        [
            certificate(OPERATOR, Role::Operator, Some(vec![HERE])),
            certificate(OFFICE, Role::Office, None),
            certificate(INSPECTOR, Role::Inspector, None),
            lost(),
            certificate(OF_ANOTHER_SITE, Role::Operator, Some(vec![ELSEWHERE])),
            certificate(FIRST, Role::Operator, Some(vec![HERE])),
        ],
        true,
    )
}

fn body(about: Subject, says: Statement, seq: u64) -> Body {
    Body {
        about,
        slot: says.slot(),
        says,
        follows: Vec::new(),
        replaces: Vec::new(),
        why: String::new(),
        by: OperatorId("ash".into()),
        seq,
        prev: None,
        when: Stamp { at: UtcMillis(6_000_000), offset_minutes: 0, ahead_millis: None },
        place: None,
        seen: None,
        hand: None,
        done: None,
        rests_on: None,
    }
}

fn signed(number: u8, body: Body) -> Entry {
    Entry::seal(body, &key(number)).unwrap()
}

fn opening_at(site: SiteId, nonce: Option<VisitNonce>) -> Statement {
    Statement::Opened(Opened {
        car: CarNumber("ZZQX 4417".into()),
        site,
        receiver: crate::entry::vocabulary::Receiver::FixedTank,
        procedure: crate::ids::Digest([0; 32]),
        spot: String::new(),
        nonce,
    })
}

/// The opening of a stay and a remark in it, both by a device of the site.
fn begun() -> Vec<Entry> {
    let stay = Subject::Visit(visit());
    vec![
        signed(FIRST, body(stay, opening_at(HERE, Some(NONCE)), 1)),
        signed(FIRST, body(stay, Statement::Remark { text: "wind from the north".into() }, 2)),
    ]
}

/// One statement of every kind, taken from the frozen examples, whose completeness a test of the wire form
/// ensures.
fn every_kind() -> BTreeMap<String, Body> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../tests/golden/entries");
    let mut kinds = BTreeMap::new();
    for item in std::fs::read_dir(folder).unwrap() {
        let text = std::fs::read_to_string(item.unwrap().path()).unwrap();
        let digits: String = text.lines().filter(|line| !line.starts_with('#')).collect();
        let bytes: Vec<u8> = (0..digits.len() / 2)
            .map(|at| u8::from_str_radix(&digits[2 * at..2 * at + 2], 16).unwrap())
            .collect();
        let entry = Entry::open(&bytes).unwrap();
        kinds.insert(entry.body.says.kind(), Body { hand: None, place: None, ..entry.body });
    }
    kinds
}

fn documents() -> [(Subject, &'static str); 4] {
    [
        (Subject::Visit(visit()), "visit"),
        (Subject::Car(CarId([3; 16])), "car"),
        (Subject::Site(HERE), "site"),
        (Subject::Roster(organisation()), "roster"),
    ]
}

/// Returns the parties whose entry counts, for one kind of statement in one kind of document.
fn who_counts(example: &Body, subject: Subject) -> Vec<&'static str> {
    let authority = authority();
    let mut counting = Vec::new();
    for (number, name) in EVERYBODY {
        let mut known = match subject {
            Subject::Visit(_) => begun(),
            _ => vec![signed(FIRST, body(subject, Statement::Remark { text: "before".into() }, 2))],
        };
        let others = known.last().unwrap().id;
        let says = match &example.says {
            Statement::Opened(_) => opening_at(HERE, Some(NONCE)),
            // A settlement must concern what it settles and keep one of these entries.
            Statement::Agreement { .. } => Statement::Agreement { keeps: others },
            says => says.clone(),
        };
        let replaces = if example.replaces.is_empty() { Vec::new() } else { vec![others] };
        let why = example.why.clone();
        let settles = matches!(says, Statement::Agreement { .. });
        let slot = if settles { "series/remark".to_owned() } else { example.slot.clone() };
        let entry = signed(number, Body { replaces, why, slot: slot.clone(), ..body(subject, says, 9) });
        known.push(entry.clone());
        let received = Some(UtcMillis(REVOKED.0 + 1));
        let judged = authority.document(subject, known.iter().map(|entry| (entry, received)));
        let verdict = judged.iter().find(|judged| judged.entry().id == entry.id).unwrap().verdict();
        if verdict.counts() {
            counting.push(name);
        }
    }
    counting
}

/// Returns the whole matrix in the form of `tests/golden/authority.txt`.
fn matrix() -> String {
    let mut text = String::from(
        "# Who counts, by kind of statement and of document: o = an operator's device of the site, f = the office's.\n\
         # An inspector's device, a revoked one, one nobody enrolled and one of another site count nowhere but where\n\
         # the line says so. Taking back is of another's entry.\n",
    );
    for (kind, example) in every_kind() {
        let mut line = format!("{kind:22}");
        for (subject, name) in documents() {
            let letters: Vec<&str> = who_counts(&example, subject)
                .into_iter()
                .map(|who| match who {
                    "operator" => "o",
                    "office" => "f",
                    other => other,
                })
                .collect();
            let letters = if letters.is_empty() { "-".to_owned() } else { letters.join("+") };
            line.push_str(&format!(" {name}:{letters:14}"));
        }
        text.push_str(line.trim_end());
        text.push('\n');
    }
    text
}

#[test]
fn every_kind_counts_from_those_who_may_say_it_and_from_nobody_else() {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("../tests/golden/authority.txt");
    let made = matrix();
    if std::env::var_os("FARSIDING_ADD_GOLDEN").is_some() {
        std::fs::write(&file, &made).unwrap();
    }
    assert_eq!(made, std::fs::read_to_string(&file).unwrap());
    for line in made.lines().filter(|line| !line.starts_with('#')) {
        for nobody in ["inspector", "revoked", "never enrolled"] {
            assert!(!line.contains(nobody), "{line}");
        }
    }
}

#[test]
fn every_act_has_its_row() {
    for body in every_kind().values() {
        let act = Act::of(&body.says);
        assert!(TABLE.iter().any(|row| row.act == act), "{act:?}");
    }
    let mut acts: Vec<Act> = TABLE.iter().map(|row| row.act).collect();
    acts.sort_unstable();
    acts.dedup();
    assert_eq!(acts.len(), TABLE.len(), "an act stands once");
}

fn verdict_of(authority: &Authority, known: &[Entry], received: Option<UtcMillis>, id: EntryId) -> Verdict {
    let judged = authority.stay(known.iter().map(|entry| (entry, received)));
    judged.iter().find(|judged| judged.entry().id == id).unwrap().verdict()
}

#[test]
fn one_takes_back_ones_own_and_an_operator_nothing_else() {
    let stay = Subject::Visit(visit());
    let mut known = begun();
    let own = signed(OPERATOR, body(stay, Statement::Remark { text: "mine".into() }, 1));
    let withdrawal = |of: &Entry, seq| {
        let replaces = vec![of.id];
        signed(OPERATOR, Body { replaces, why: "wrong".into(), ..body(stay, Statement::Withdrawn {}, seq) })
    };
    let (of_own, of_others) = (withdrawal(&own, 2), withdrawal(&known[1], 3));
    let of_nothing_here = withdrawal(&signed(9, body(stay, Statement::Withdrawn {}, 1)), 4);
    known.extend([own, of_own.clone(), of_others.clone(), of_nothing_here.clone()]);
    let verdict = |entry: &Entry| verdict_of(&authority(), &known, None, entry.id);
    assert_eq!(verdict(&of_own), Verdict::Counts);
    assert_eq!(verdict(&of_others), Verdict::Kept(Kept::NotOwn));
    assert_eq!(verdict(&of_nothing_here), Verdict::NotChecked(NotYet::ReplacedUnknown));
}

#[test]
fn a_device_of_another_site_cannot_open_its_way_into_a_stay() {
    let stay = Subject::Visit(visit());
    let mut known = begun();
    // The device claims the stay for its own site: with the nonce that it read, and without one as in version
    // one.
    let with_nonce = signed(OF_ANOTHER_SITE, body(stay, opening_at(ELSEWHERE, Some(NONCE)), 1));
    let without = signed(OF_ANOTHER_SITE, body(stay, opening_at(ELSEWHERE, None), 2));
    let remark = signed(OF_ANOTHER_SITE, body(stay, Statement::Remark { text: "let me in".into() }, 3));
    known.extend([with_nonce.clone(), without.clone(), remark.clone()]);
    for entry in [&with_nonce, &without, &remark] {
        assert_eq!(verdict_of(&authority(), &known, None, entry.id), Verdict::Kept(Kept::OtherSite));
    }
    // A device that may speak in the stay moves it to its true site, whose devices may then speak in it.
    let moved = signed(OFFICE, body(stay, opening_at(ELSEWHERE, None), 4));
    known.push(moved);
    assert_eq!(verdict_of(&authority(), &known, None, remark.id), Verdict::Counts);
}

#[test]
fn a_stay_of_version_one_is_where_those_say_who_recorded_everywhere() {
    let old = Subject::Visit(VisitId([0x77; 16]));
    let mut certificates: Vec<Certificate> = authority().devices().values().cloned().collect();
    certificates.push(Certificate::by_role(
        organisation(),
        key(11).public(),
        "old",
        Role::Operator,
        UtcMillis(0),
    ));
    let authority = Authority::of(certificates, true);
    let known = vec![
        signed(11, body(old, opening_at(HERE, None), 1)),
        signed(OPERATOR, body(old, Statement::Remark { text: "there".into() }, 1)),
        signed(OF_ANOTHER_SITE, body(old, opening_at(ELSEWHERE, None), 1)),
    ];
    assert_eq!(verdict_of(&authority, &known, None, known[0].id), Verdict::Counts);
    assert_eq!(verdict_of(&authority, &known, None, known[1].id), Verdict::Counts);
    assert_eq!(verdict_of(&authority, &known, None, known[2].id), Verdict::Kept(Kept::OtherSite));
}

#[test]
fn what_a_certificate_gave_before_holds_for_what_was_recorded_until_then() {
    let stay = Subject::Visit(visit());
    let moved = Certificate {
        sites: Some(vec![ELSEWHERE]),
        renewed_at: Some(UtcMillis(9)),
        earlier: vec![EarlierGrant {
            role: Role::Operator,
            sites: Some(vec![HERE]),
            rights: None,
            last: LastEntry { seq: 5, entry: EntryId([5; 32]) },
        }],
        ..certificate(OPERATOR, Role::Operator, None)
    };
    let mut certificates: Vec<Certificate> = authority().devices().values().cloned().collect();
    certificates.push(moved);
    let authority = Authority::of(certificates, true);
    let mut known = begun();
    let before = signed(OPERATOR, body(stay, Statement::Remark { text: "before".into() }, 5));
    let after = signed(OPERATOR, body(stay, Statement::Remark { text: "after".into() }, 6));
    known.extend([before.clone(), after.clone()]);
    assert_eq!(verdict_of(&authority, &known, None, before.id), Verdict::Counts);
    assert_eq!(verdict_of(&authority, &known, None, after.id), Verdict::Kept(Kept::OtherSite));
}

#[test]
fn late_word_of_a_lost_device_counts_once_the_office_admits_it_and_no_longer_when_it_takes_that_back() {
    let stay = Subject::Visit(visit());
    let received = Some(UtcMillis(REVOKED.0 + 1));
    let late = signed(LOST, body(stay, Statement::Remark { text: "late".into() }, 8));
    let mut known = begun();
    known.push(late.clone());
    let verdict = |known: &[Entry]| verdict_of(&authority(), known, received, late.id);
    assert_eq!(verdict(&known), Verdict::Kept(Kept::AfterRevocation));
    // Neither an operator's device nor the lost device itself can admit the entry.
    for (number, seq) in [(OPERATOR, 1), (LOST, 9)] {
        known.push(signed(number, body(stay, Statement::Admitted { entry: late.id }, seq)));
        assert_eq!(verdict(&known), Verdict::Kept(Kept::AfterRevocation));
    }
    let admitted = signed(OFFICE, body(stay, Statement::Admitted { entry: late.id }, 1));
    known.push(admitted.clone());
    assert_eq!(verdict(&known), Verdict::Counts);
    let back = Body {
        replaces: vec![admitted.id],
        why: "not theirs after all".into(),
        ..body(stay, Statement::Withdrawn {}, 2)
    };
    known.push(signed(OFFICE, back));
    assert_eq!(verdict(&known), Verdict::Kept(Kept::AfterRevocation));
    // Nobody can admit an entry of an unknown device.
    let stranger = signed(STRANGER, body(stay, Statement::Remark { text: "psst".into() }, 1));
    known.push(stranger.clone());
    known.push(signed(OFFICE, body(stay, Statement::Admitted { entry: stranger.id }, 3)));
    assert_eq!(verdict_of(&authority(), &known, received, stranger.id), Verdict::Kept(Kept::NoDevice));
}

#[test]
fn without_a_clock_the_chain_shows_what_was_there_before_a_revocation() {
    let stay = Subject::Visit(visit());
    let first = signed(LOST, body(stay, Statement::Remark { text: "one".into() }, 1));
    let second = Body { prev: Some(first.id), ..body(stay, Statement::Remark { text: "two".into() }, 2) };
    let second = signed(LOST, second);
    let after = Body { prev: Some(second.id), ..body(stay, Statement::Remark { text: "three".into() }, 3) };
    let after = signed(LOST, after);
    // This entry was made later under an early sequence number, as a thief would make it.
    let forged = signed(LOST, body(stay, Statement::Remark { text: "never said".into() }, 1));
    let revoked = Certificate { last: Some(LastEntry { seq: 2, entry: second.id }), ..lost() };
    let mut certificates: Vec<Certificate> = authority().devices().values().cloned().collect();
    certificates.retain(|certificate| certificate.device != key(LOST).public());
    certificates.push(revoked);
    let known = [first.clone(), second.clone(), after.clone(), forged.clone()];
    let authority = Authority::of(certificates, false).vouching(&known);
    let everything: Vec<Entry> = begun().into_iter().chain(known).collect();
    let verdict = |id| verdict_of(&authority, &everything, None, id);
    assert_eq!(verdict(first.id), Verdict::Counts);
    assert_eq!(verdict(second.id), Verdict::Counts);
    assert_eq!(verdict(after.id), Verdict::Kept(Kept::AfterRevocation));
    assert_eq!(verdict(forged.id), Verdict::NotChecked(NotYet::BeforeRevocationUnknown));
}

#[test]
fn a_certificate_that_comes_later_turns_not_checked_into_a_verdict() {
    let known = begun();
    let nothing = Authority::of([], false);
    let missing = Verdict::NotChecked(NotYet::NoCertificate);
    assert_eq!(verdict_of(&nothing, &known, None, known[1].id), missing);
    assert!(!missing.counts());
    assert_eq!(verdict_of(&authority(), &known, None, known[1].id), Verdict::Counts);
    assert_eq!(verdict_of(Authority::nobody(), &known, None, known[1].id), Verdict::Unchecked);
}

#[test]
fn a_person_signs_with_a_key_the_office_confirmed_and_only_in_their_own_name() {
    let (stay, roster) = (Subject::Visit(visit()), Subject::Roster(organisation()));
    let person = PersonSigner::from_secret([40; 32]);
    let ash = OperatorId("ash".into());
    let confirm = |number, seq| {
        let says = Statement::PersonKeyConfirmed { person: ash.clone(), key: person.public() };
        signed(number, body(roster, says, seq))
    };
    let by_hand = |who: &str, seq| {
        let body =
            Body { by: OperatorId(who.into()), ..body(stay, Statement::Released { as_residue: true }, seq) };
        Entry::seal_by_hand(body, &person, &key(OPERATOR)).unwrap()
    };
    let named = |on_roster: &[Entry], entry: &Entry| {
        let authority = authority();
        let judged = authority.roster(on_roster.iter().map(|entry| (entry, None)));
        let authority = authority.clone().with_roster(judged);
        let known: Vec<Entry> = begun().into_iter().chain([entry.clone()]).collect();
        let judged = authority.stay(known.iter().map(|entry| (entry, None)));
        *authority.named(&judged).last().unwrap()
    };
    let mine = by_hand("ash", 7);
    assert_eq!(named(&[], &mine), Named::HandNotConfirmed);
    assert_eq!(named(&[confirm(OPERATOR, 1)], &mine), Named::HandNotConfirmed, "an operator confirms nobody");
    assert_eq!(named(&[confirm(OFFICE, 1)], &mine), Named::OwnHand);
    assert_eq!(named(&[confirm(OFFICE, 1)], &by_hand("birch", 8)), Named::HandNotTheirs);
    let ended = |last| {
        let says = Statement::PersonKeyEnded { person: ash.clone(), key: person.public(), last };
        signed(OFFICE, body(roster, says, 2))
    };
    let until = |seq| Some(LastEntry { seq, entry: EntryId([0; 32]) });
    assert_eq!(
        named(&[confirm(OFFICE, 1), ended(until(7))], &mine),
        Named::OwnHand,
        "signed before it ended"
    );
    assert_eq!(named(&[confirm(OFFICE, 1), ended(until(6))], &mine), Named::HandNotTheirs);
    assert_eq!(named(&[confirm(OFFICE, 1), ended(None)], &mine), Named::HandNotTheirs);
}

#[test]
fn who_signed_to_hold_the_phone_is_named_so_until_somebody_else_does() {
    let (stay, roster) = (Subject::Visit(visit()), Subject::Roster(organisation()));
    let (ash, birch) = (PersonSigner::from_secret([40; 32]), PersonSigner::from_secret([41; 32]));
    let on_roster: Vec<Entry> = [("ash", &ash), ("birch", &birch)]
        .into_iter()
        .zip(1..)
        .map(|((who, signer), seq)| {
            let says = Statement::PersonKeyConfirmed { person: OperatorId(who.into()), key: signer.public() };
            signed(OFFICE, body(roster, says, seq))
        })
        .collect();
    let held = |who: &str, signer: &PersonSigner, seq| {
        let person = OperatorId(who.into());
        let body = Body { by: person.clone(), ..body(stay, Statement::HeldBy { person }, seq) };
        Entry::seal_by_hand(body, signer, &key(OPERATOR)).unwrap()
    };
    let remark = |who: &str, seq| {
        let body = Body {
            by: OperatorId(who.into()),
            ..body(stay, Statement::Remark { text: format!("{who} {seq}") }, seq)
        };
        signed(OPERATOR, body)
    };
    let known = vec![
        remark("ash", 1),
        held("ash", &ash, 2),
        remark("ash", 3),
        remark("birch", 4),
        held("birch", &birch, 5),
        remark("ash", 6),
        remark("birch", 7),
    ];
    let authority = authority();
    let judged = authority.roster(on_roster.iter().map(|entry| (entry, None)));
    let authority = authority.clone().with_roster(judged);
    let begun = begun();
    let judged = authority.stay(begun[..1].iter().chain(&known).map(|entry| (entry, None)));
    use Named::{ByPhone, Held, OwnHand};
    assert_eq!(authority.named(&judged)[1..], [ByPhone, OwnHand, Held, ByPhone, OwnHand, ByPhone, Held]);
}

#[test]
fn two_cars_or_two_sites_are_joined_by_the_office_alone() {
    let authority = authority();
    let opened = |site| match opening_at(site, None) {
        Statement::Opened(opened) => opened,
        _ => unreachable!(),
    };
    let (a, b) = (opened(HERE), opened(ELSEWHERE));
    let other_car = Opened { car: CarNumber("ZZQX 9999".into()), ..opened(HERE) };
    let (operator, office) = (key(OPERATOR).public(), key(OFFICE).public());
    assert!(joins(&authority, operator, Some(&a), Some(&a)));
    for other in [Some(&b), Some(&other_car), None] {
        assert!(!joins(&authority, operator, Some(&a), other));
        assert!(joins(&authority, office, Some(&a), other));
    }
}

#[test]
fn a_time_that_cannot_be_true_is_not_believed() {
    let authority = authority().at(UtcMillis(6_000_000));
    let stay = Subject::Visit(visit());
    let mut known = begun();
    let mut ahead = body(stay, Statement::Remark { text: "next year".into() }, 3);
    ahead.when.at = UtcMillis(6_000_000 + 366 * 86_400_000);
    known.push(signed(OPERATOR, ahead));
    let judged = authority.stay(known.iter().map(|entry| (entry, None)));
    assert!(judged[1].credible() && !judged[2].credible());
    // The office received the entry an hour before its claimed time.
    let judged = authority.stay(known.iter().map(|entry| (entry, Some(UtcMillis(6_000_000 - 3_600_000)))));
    assert!(!judged[1].credible());
}

#[test]
fn a_few_entries_of_a_stay_are_judged_as_they_are_among_all() {
    let stay = Subject::Visit(visit());
    let mut known = begun();
    let reading = signed(FIRST, body(stay, Statement::Remark { text: "38 psi".into() }, 3));
    let release = signed(OPERATOR, body(stay, Statement::Released { as_residue: true }, 1));
    // One entry withdraws another device's entry from another slot, and one is late and was admitted.
    let replaces = vec![reading.id];
    let across =
        Body { replaces, why: "x".into(), ..body(stay, Statement::Released { as_residue: false }, 2) };
    let across = signed(OF_ANOTHER_SITE, across);
    let late = signed(LOST, body(stay, Statement::Released { as_residue: true }, 9));
    let admitted = signed(OFFICE, body(stay, Statement::Admitted { entry: late.id }, 1));
    known.extend([reading, release, across, late, admitted]);
    let received = Some(UtcMillis(REVOKED.0 + 1));
    let wanted = |entry: &Entry| matches!(entry.body.says, Statement::Released { .. });
    let verdicts = |judged: Vec<Judged<'_>>| -> Vec<(EntryId, Verdict)> {
        let released = judged.iter().filter(|judged| wanted(judged.entry()));
        released.map(|judged| (judged.entry().id, judged.verdict())).collect()
    };
    let authority = authority();
    let all = verdicts(authority.stay(known.iter().map(|entry| (entry, received))));
    let few = verdicts(authority.stay_where(known.iter().map(|entry| (entry, received)), wanted));
    assert_eq!(all.len(), 3);
    assert_eq!(all, few);
}

#[test]
fn nobody_takes_anothers_word_back_by_another_name() {
    let stay = Subject::Visit(visit());
    let mut known = begun();
    let theirs = known[1].clone(); // a remark of another device
    let instead = |says: Statement, slot: &str, seq| {
        let (replaces, why) = (vec![theirs.id], "so".to_owned());
        signed(OPERATOR, Body { replaces, why, slot: slot.into(), ..body(stay, says, seq) })
    };
    // A settlement that keeps none of the entries it settles, one of another slot, and a correction of
    // something else.
    let nothing = instead(Statement::Agreement { keeps: EntryId([9; 32]) }, "series/remark", 1);
    let elsewhere = instead(Statement::Agreement { keeps: theirs.id }, "released", 2);
    let released = instead(Statement::Released { as_residue: true }, "released", 3);
    let corrected = instead(Statement::Remark { text: "from the south".into() }, "series/remark", 4);
    let settled = instead(Statement::Agreement { keeps: theirs.id }, "series/remark", 5);
    let hidden = [&nothing, &elsewhere, &released];
    known.extend([nothing.clone(), elsewhere.clone(), released.clone(), corrected.clone(), settled.clone()]);
    for entry in hidden {
        assert_eq!(verdict_of(&authority(), &known, None, entry.id), Verdict::Kept(Kept::NotOwn));
    }
    assert_eq!(verdict_of(&authority(), &known, None, corrected.id), Verdict::Counts);
    assert_eq!(verdict_of(&authority(), &known, None, settled.id), Verdict::Counts);
}

/// Which cars a site expects is the office's word: neither the right to keep a site in the certificate of a phone, nor
/// the admission of what it sent late, nor taking another's paper back, makes it one's own.
#[test]
fn nobody_but_the_office_tells_a_site_which_cars_to_expect() {
    use crate::entry::{PaperExpected, PaperTakenBack};
    let about = Subject::Site(HERE);
    let car = CarNumber("ZZQX 4417".into());
    let paper = Statement::PaperExpected(PaperExpected {
        car: car.clone(),
        number: "INV-1".into(),
        shipper: String::new(),
        un_number: String::new(),
        product: String::new(),
        billed: None,
        relative_density: None,
        odorised: None,
        grade: None,
        billed_by: None,
        winter_fill: None,
        dated: String::new(),
        expected: String::new(),
        file: crate::ids::Digest([0; 32]),
        file_name: String::new(),
        line: 2,
    });
    let mut keeper = certificate(OPERATOR, Role::Operator, Some(vec![HERE]));
    keeper.rights = Some(Right::ALL.to_vec());
    let elsewhere = certificate(9, Role::Office, Some(vec![ELSEWHERE]));
    let mut certificates: Vec<Certificate> = authority().devices().values().cloned().collect();
    certificates.extend([keeper, elsewhere]);
    let authority = Authority::of(certificates, true);
    let sent = signed(OFFICE, body(about, paper.clone(), 1));
    let back = Statement::PaperTakenBack(PaperTakenBack { car, because: "mine".into() });
    let withdrawn = |slot: &str| Body {
        replaces: vec![sent.id],
        why: "mine".into(),
        slot: slot.into(),
        ..body(about, Statement::Withdrawn {}, 3)
    };
    let tries = [
        signed(OPERATOR, body(about, paper.clone(), 1)),
        signed(OPERATOR, body(about, back, 2)),
        signed(OPERATOR, withdrawn(&sent.body.slot)),
        signed(OPERATOR, withdrawn("tank/north")),
        signed(9, body(about, paper, 1)),
    ];
    let admits = |entry: &Entry| signed(OFFICE, body(about, Statement::Admitted { entry: entry.id }, 7));
    let mut known = vec![sent.clone()];
    known.extend(tries.iter().cloned());
    known.extend(tries.iter().take(4).map(admits));
    let judged = authority.document(about, known.iter().map(|entry| (entry, None)));
    let verdict =
        |entry: &Entry| judged.iter().find(|judged| judged.entry().id == entry.id).unwrap().verdict();
    assert_eq!(verdict(&sent), Verdict::Counts);
    for by_a_phone in &tries[..4] {
        assert_eq!(verdict(by_a_phone), Verdict::Kept(Kept::NoRight(Right::KeepSite)), "{by_a_phone:?}");
    }
    assert_eq!(verdict(&tries[4]), Verdict::Kept(Kept::OtherSite));
}
