//! The ledger in PostgreSQL: the contract of all stores, and what concerns a database that several servers share.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs, reason = "tests")]

use std::io::{Read as _, Write as _};
use std::net::{Shutdown, TcpListener, TcpStream};
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Arc, Mutex, OnceLock};
use std::time::Duration;

use farsiding_core::clock::UtcMillis;
use farsiding_core::document::CheckedChange;
use farsiding_core::entry::vocabulary::{PhotoOf, PhotoRef};
use farsiding_core::entry::{Body, DeviceKey, Entry, Statement};
use farsiding_core::ids::{DeviceId, Digest, OrganisationId, SiteId, Subject};
use farsiding_core::store::contract::{Engine, Opens, Place, VISIT, brought, entry, signed};
use farsiding_core::store::{
    ApplyError, Batch, Ledger, Moment, Outcome, Round, Scope, Store, StoreError, Write, group_commit,
};
use farsiding_postgres::{PostgresStore, address_of};
use farsiding_testkit::postgres::Postgres;

/// The address of the database that these tests share. They keep apart by organisation.
fn database() -> &'static str {
    static ADDRESS: OnceLock<String> = OnceLock::new();
    ADDRESS.get_or_init(|| Postgres::shared().database("ledgers"))
}

/// An organisation that no other test has.
fn organisation() -> OrganisationId {
    static COUNT: AtomicU64 = AtomicU64::new(1);
    let mut id = [0; 16];
    id[..8].copy_from_slice(&COUNT.fetch_add(1, Ordering::Relaxed).to_be_bytes());
    OrganisationId(id)
}

fn open(address: &str, organisation: OrganisationId) -> PostgresStore {
    PostgresStore::open(address_of(address).unwrap(), organisation).unwrap()
}

struct InPostgres;

impl Engine for InPostgres {
    fn place(&self) -> Box<dyn Place> {
        let organisation = organisation();
        Box::new(Opens(move || Box::new(open(database(), organisation)) as Box<dyn Ledger>))
    }

    fn histories(&self) -> u32 {
        12
    }
}

mod contract {
    farsiding_core::store_contract!(shared super::InPostgres);
}

fn batch<'a>(decided: Moment, number: u64, change: &'a CheckedChange) -> Batch<'a> {
    let received_at = UtcMillis(i64::try_from(number).unwrap());
    let changes = vec![(VISIT, change)];
    let round = Round { counter: "round/a", number, changes, received_at, beside: Vec::new() };
    Batch { decided, rounds: vec![round], beside: Vec::new() }
}

fn applied(store: &mut PostgresStore, number: u64) -> Result<Outcome, ApplyError> {
    let change = brought(number);
    let decided = store.moment().unwrap();
    store.apply(&batch(decided, number, &change), &mut signed)
}

/// Where a connection through [`BadLine`] breaks.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Breaks {
    Nowhere,
    BeforeTheCommitArrives,
    AfterTheCommitArrived,
}

/// A line to the server that breaks at the next commit. Connections made later are whole.
struct BadLine {
    address: String,
    breaks: Arc<Mutex<Breaks>>,
}

impl BadLine {
    fn to(port: u16, database: &str) -> BadLine {
        let listener = TcpListener::bind("127.0.0.1:0").unwrap();
        let address =
            format!("postgres://farsiding@127.0.0.1:{}/{database}", listener.local_addr().unwrap().port());
        let breaks = Arc::new(Mutex::new(Breaks::Nowhere));
        let told = Arc::clone(&breaks);
        std::thread::spawn(move || {
            for asker in listener.incoming().flatten() {
                let server = TcpStream::connect(("127.0.0.1", port)).unwrap();
                let (mut to, mut from) = (server.try_clone().unwrap(), server);
                let (mut asks, mut hears) = (asker.try_clone().unwrap(), asker);
                std::thread::spawn(move || {
                    let _ = std::io::copy(&mut from, &mut hears);
                });
                let told = Arc::clone(&told);
                std::thread::spawn(move || {
                    let mut bytes = [0; 1 << 16];
                    while let Ok(length @ 1..) = asks.read(&mut bytes) {
                        let commits = bytes[..length].windows(6).any(|word| word == b"COMMIT");
                        let mut told = told.lock().unwrap();
                        let breaks = if commits {
                            std::mem::replace(&mut *told, Breaks::Nowhere)
                        } else {
                            Breaks::Nowhere
                        };
                        drop(told);
                        if breaks == Breaks::AfterTheCommitArrived {
                            asks.shutdown(Shutdown::Write).unwrap(); // no answer reaches the asker
                        }
                        if breaks != Breaks::BeforeTheCommitArrives {
                            to.write_all(&bytes[..length]).unwrap();
                        }
                        if breaks != Breaks::Nowhere {
                            std::thread::sleep(Duration::from_millis(200));
                            let _ = asks.shutdown(Shutdown::Both);
                            break;
                        }
                    }
                    let _ = to.shutdown(Shutdown::Both);
                });
            }
        });
        BadLine { address, breaks }
    }
}

#[test]
fn a_connection_lost_in_the_commit_leaves_the_batch_unknown_and_once_after_it_is_applied_again() {
    database();
    for breaks in [Breaks::BeforeTheCommitArrives, Breaks::AfterTheCommitArrived] {
        let organisation = organisation();
        let line = BadLine::to(Postgres::shared().port(), "ledgers");
        let mut store = open(&line.address, organisation);
        applied(&mut store, 1).unwrap();
        let (change, decided) = (brought(2), store.moment().unwrap());
        let batch = batch(decided, 2, &change);
        *line.breaks.lock().unwrap() = breaks;
        let failed = store.apply(&batch, &mut signed).unwrap_err();
        assert!(matches!(failed, ApplyError::Unknown(StoreError::Database(_))), "{breaks:?}: {failed}");
        let Outcome::Applied(again) = store.apply(&batch, &mut signed).unwrap() else {
            panic!("{breaks:?}: nobody else wrote")
        };
        let old = (breaks == Breaks::AfterTheCommitArrived).then_some(2);
        assert_eq!(again[0].old_number, old, "{breaks:?}: what was written is found as old");
        assert_eq!(store.tally().unwrap().count, 2, "{breaks:?}");
        assert_eq!(store.log().size().unwrap(), 2);
        assert_eq!(store.changes_after(0, usize::MAX).unwrap().len(), 2);
        assert_eq!(store.count_without_receipt().unwrap(), 0);
        applied(&mut store, 3).unwrap();
        assert_eq!(open(database(), organisation).tally().unwrap().count, 3);
    }
}

#[test]
fn a_server_writes_only_while_its_fence_holds() {
    let organisation = organisation();
    let (mut first, mut second) = (open(database(), organisation), open(database(), organisation));
    first.take_fence().unwrap();
    applied(&mut first, 1).unwrap();
    assert!(first.holds_fence().unwrap());
    second.take_fence().unwrap();
    assert!(!first.holds_fence().unwrap());
    let refused = applied(&mut first, 2).unwrap_err();
    assert!(matches!(refused, ApplyError::NotWritten(StoreError::Busy)), "{refused}");
    let refused = first.commit(&[Write::Value { key: "a", value: b"b" }]).unwrap_err();
    assert!(matches!(refused, StoreError::Busy), "{refused}");
    applied(&mut second, 2).unwrap();
    assert_eq!(first.tally().unwrap().count, 2, "it reads on");
    // A command beside the server writes in between, and the server decides again.
    let (change, decided) = (brought(3), second.moment().unwrap());
    open(database(), organisation).commit(&[Write::Value { key: "by", value: b"a command" }]).unwrap();
    let third = batch(decided, 3, &change);
    assert_eq!(second.apply(&third, &mut signed).unwrap(), Outcome::Overtaken);
    applied(&mut second, 3).unwrap();
}

#[test]
fn two_writers_of_one_organisation_take_turns_and_the_loser_is_told() {
    let organisation = organisation();
    let overtaken = AtomicU64::new(0);
    let overtaken = &overtaken;
    std::thread::scope(|threads| {
        for writer in 0..2u64 {
            threads.spawn(move || {
                let mut store = open(database(), organisation);
                for n in 1..=40 {
                    let (change, counter) = (brought(writer * 1000 + n), format!("round/{writer}"));
                    loop {
                        let mut batch = batch(store.moment().unwrap(), n, &change);
                        batch.rounds[0].counter = &counter;
                        match store.apply(&batch, &mut signed).unwrap() {
                            Outcome::Applied(_) => break,
                            Outcome::Overtaken => overtaken.fetch_add(1, Ordering::Relaxed),
                        };
                    }
                }
            });
        }
    });
    assert!(overtaken.load(Ordering::Relaxed) > 0, "the two never met");
    let store = open(database(), organisation);
    let positions: Vec<u64> =
        store.changes_after(0, usize::MAX).unwrap().iter().map(|change| change.position).collect();
    assert_eq!(positions, (1..=80).collect::<Vec<_>>(), "without gap or repeat");
    let leaves: Vec<_> = (0..80).map(|n| store.log().leaf(n).unwrap().unwrap().entry).collect();
    assert_eq!(leaves.iter().collect::<std::collections::HashSet<_>>().len(), 80);
}

#[test]
fn a_reader_meets_every_position_once_while_sixteen_organisations_commit() {
    let organisations: Vec<OrganisationId> = (0..16).map(|_| organisation()).collect();
    let done = AtomicU64::new(0);
    let done = &done;
    std::thread::scope(|threads| {
        for organisation in &organisations {
            threads.spawn(move || {
                let mut store = open(database(), *organisation);
                for n in 1..=6 {
                    assert!(matches!(applied(&mut store, n).unwrap(), Outcome::Applied(_)));
                }
                done.fetch_add(1, Ordering::Release);
            });
        }
        let stores: Vec<PostgresStore> = organisations.iter().map(|o| open(database(), *o)).collect();
        let mut met: Vec<Vec<u64>> = vec![Vec::new(); 16];
        loop {
            let last = done.load(Ordering::Acquire) == 16;
            for (store, met) in stores.iter().zip(&mut met) {
                let after = met.last().copied().unwrap_or(0);
                met.extend(store.changes_after(after, 500).unwrap().iter().map(|change| change.position));
            }
            if last && met.iter().all(|met| met.len() >= 6) {
                break;
            }
        }
        assert!(met.iter().all(|met| *met == [1, 2, 3, 4, 5, 6]), "{met:?}");
    });
}

#[test]
fn organisations_in_one_database_never_see_each_other() {
    let (ours, theirs) = (organisation(), organisation());
    let (mut one, mut other) = (open(database(), ours), open(database(), theirs));
    let photo = Digest([9; 32]);
    let (device, change) = (DeviceId([5; 32]), brought(1));
    let mut whole = batch(one.moment().unwrap(), 1, &change);
    let says = Statement::Photo {
        photo: PhotoRef { sha256: photo, length: 9, media: "image/jpeg".into() },
        of: PhotoOf::Seal,
        about: String::new(),
    };
    let pictured = Entry::seal(
        Body { slot: says.slot(), says, ..entry(5).body.clone() },
        &DeviceKey::from_secret([1; 32]),
    );
    let pictured = pictured.unwrap();
    let site = Subject::Site(SiteId([3; 16]));
    let proven = [entry(1).id];
    whole.beside = vec![
        Write::Entry { subject: site, entry: &pictured },
        Write::Change { subject: site, hash: Digest([4; 32]), bytes: b"not held", held: false },
        Write::Certificate { device, bytes: b"certificate" },
        Write::Quarantine { subject: None, bytes: b"bad", why: "a\0b", at: UtcMillis(1) },
        Write::Photo { sha256: photo, length: 9, media: "image/jpeg", here: true, held: true },
        Write::Draft { key: "draft", text: "text" },
        Write::Checkpoint {
            origin: "log",
            size: 1,
            note: "n\n\n\u{2014} a A\n\u{2014} b B\n",
            at: UtcMillis(1),
            since: b"",
        },
        Write::TimeStamp { origin: "log", size: 1, note: "n", token: b"t", at: UtcMillis(1) },
        Write::Proof { bytes: b"proof", entries: &proven },
        Write::Feed,
    ];
    one.apply(&whole, &mut signed).unwrap();
    let told = |store: &PostgresStore| -> Vec<(&'static str, bool)> {
        let (scope, log, scopes) = (Scope::Sites([SiteId([3; 16])].into()), store.log(), store.scopes());
        let id = entry(1).id;
        vec![
            ("entry", store.entry(id).unwrap().is_some()),
            ("entries_of", !store.entries_of(VISIT).unwrap().rows.is_empty()),
            ("holds_any_of", store.holds_any_of(VISIT).unwrap()),
            ("subjects", !store.subjects().unwrap().is_empty()),
            ("changes_of", !store.changes_of(VISIT).unwrap().rows.is_empty()),
            ("has_change", store.has_change(VISIT, change.hash()).unwrap()),
            ("changes_not_held", !store.changes_not_held(9).unwrap().is_empty()),
            ("changes_after", !store.changes_after(0, 9).unwrap().is_empty()),
            ("newest_position", store.newest_position().unwrap() > 0),
            ("entries_without_receipt", !store.entries_without_receipt(9).unwrap().is_empty()),
            ("count_without_receipt", store.count_without_receipt().unwrap() > 0),
            ("receipts_of", !store.receipts_of(id).unwrap().is_empty()),
            ("certificates", !store.certificates().unwrap().is_empty()),
            ("certificate", store.certificate(device).unwrap().is_some()),
            ("quarantined", !store.quarantined().unwrap().is_empty()),
            ("photos", !store.photos().unwrap().is_empty()),
            ("photo", store.photo(photo).unwrap().is_some()),
            ("drafts", !store.drafts().unwrap().is_empty()),
            ("value", store.value("round/a").unwrap().is_some()),
            ("tally", store.tally().unwrap().count > 0),
            ("size", log.size().unwrap() > 0),
            ("leaf", log.leaf(0).unwrap().is_some()),
            ("log subjects", !log.subjects(0, 9).unwrap().is_empty()),
            ("place", log.place(id).unwrap().is_some()),
            ("without_leaf", !log.without_leaf(9).unwrap().is_empty()),
            ("newest_checkpoint", log.newest_checkpoint().unwrap().is_some()),
            ("checkpoint", log.checkpoint("log", 1).unwrap().is_some()),
            ("first_checkpoint_of", log.first_checkpoint_of(0, true).unwrap().is_some()),
            ("first_cosigned_of", log.first_cosigned_of("log", 0).unwrap().is_some()),
            ("proof_of", log.proof_of(id).unwrap().is_some()),
            ("tally_in", scopes.tally_in(&scope).unwrap().count > 0),
            ("tally_of_standings", scopes.tally_of_standings().unwrap().count > 0),
            ("subjects_in", !scopes.subjects_in(&scope).unwrap().is_empty()),
            ("is_in", scopes.is_in(site, &scope).unwrap()),
            ("sites_of", !scopes.sites_of(site).unwrap().is_empty()),
            ("weight_in", scopes.weight_in(site, &scope).unwrap() > 0),
            ("standings_of", !scopes.standings_of(id).unwrap().is_empty()),
            ("fed_after", !scopes.fed_after(&scope, 0, 9).unwrap().is_empty()),
            ("newest_in", scopes.newest_in(&scope).unwrap() > 0),
            ("naming_photo", !scopes.naming_photo(photo).unwrap().is_empty()),
        ]
    };
    let all = told(&one);
    assert!(all.iter().all(|(_, seen)| *seen), "each read has something to see: {all:?}");
    let crossed = told(&other);
    assert!(crossed.iter().all(|(_, seen)| !seen), "{crossed:?}");
    // What the other writes, deletes and marks is its own as well.
    let gone = [VISIT, site];
    let marks = [
        Write::PurgeQuarantine,
        Write::TakeOff(&gone),
        Write::ChangesLacking(&gone),
        Write::Draft { key: "draft", text: "" },
    ];
    other.commit(&marks).unwrap();
    assert_eq!(told(&one), all);
    assert_eq!(one.quarantined().unwrap()[0].why, "a\0b", "and a text may hold any character");
}

#[test]
fn tables_of_a_later_version_are_left_alone() {
    let address = Postgres::shared().database("later");
    drop(open(&address, organisation()));
    Postgres::shared().sql("later", "UPDATE farsiding.schema_version SET version = 99");
    let refused = PostgresStore::open(address_of(&address).unwrap(), organisation());
    assert!(matches!(refused, Err(StoreError::TooNew { found: 99, known: 2 })), "{refused:?}");
}

#[test]
fn many_that_open_a_new_database_at_once_make_one_set_of_tables() {
    let address = Postgres::shared().database("fresh");
    std::thread::scope(|threads| {
        for _ in 0..8 {
            threads.spawn(|| drop(open(&address, organisation())));
        }
    });
    assert_eq!(Postgres::shared().sql("fresh", "SELECT count(*) FROM farsiding.head"), "8");
}

#[test]
fn a_damaged_row_is_named_and_whole_again_once_its_entry_comes_again() {
    let address = Postgres::shared().database("damaged");
    let mut store = open(&address, organisation());
    applied(&mut store, 1).unwrap();
    applied(&mut store, 2).unwrap();
    let harm = "UPDATE farsiding.entry SET bytes = '\\x00' WHERE position = 1; UPDATE farsiding.change SET bytes = '\\x00'";
    Postgres::shared().sql("damaged", harm);
    let rows = store.entries_of(VISIT).unwrap();
    assert_eq!((rows.rows.len(), rows.damaged), (1, vec![entry(1).id.to_string()]));
    assert_eq!(store.entry(entry(1).id).unwrap(), None);
    assert_eq!(store.changes_of(VISIT).unwrap().damaged.len(), 2);
    assert!(store.changes_after(0, 99).unwrap().is_empty());
    store.commit(&[Write::Entry { subject: VISIT, entry: &entry(1) }]).unwrap();
    assert_eq!(store.entries_of(VISIT).unwrap().rows.len(), 2);
    assert_eq!(store.tally().unwrap().count, 2, "it is counted once");
}

#[test]
fn commits_held_together_are_kept_together_or_not_at_all() {
    let organisation = organisation();
    let mut store = open(database(), organisation);
    let others = || open(database(), organisation).tally().unwrap().count;
    let put = |store: &mut dyn Store, n| store.commit(&[Write::Entry { subject: VISIT, entry: &entry(n) }]);
    group_commit(&mut store, |store| {
        put(store, 1).unwrap();
        put(store, 2).unwrap();
        assert_eq!(store.tally().unwrap().count, 2, "seen at once by who wrote it");
        assert_eq!(others(), 0, "and by nobody else yet");
    })
    .unwrap();
    assert_eq!(others(), 2);
    let attempt = std::panic::catch_unwind(std::panic::AssertUnwindSafe(|| {
        group_commit(&mut store, |store| {
            put(store, 3).unwrap();
            panic!("while it was held back");
        })
    }));
    assert!(attempt.is_err());
    assert_eq!(store.tally().unwrap().count, 2);
    put(&mut store, 3).unwrap();
    assert_eq!(others(), 3);
}

#[test]
fn what_was_acknowledged_survives_the_death_of_the_database_and_the_store_goes_on() {
    let mut server = Postgres::start();
    let address = server.database("mortal");
    let mut store = open(&address, organisation());
    for n in 1..=20 {
        assert!(matches!(applied(&mut store, n).unwrap(), Outcome::Applied(_)));
    }
    server.kill();
    assert!(store.tally().is_err(), "it says that it cannot be read");
    let change = brought(21);
    let failed = store.apply(&batch(Moment(0), 21, &change), &mut signed).unwrap_err();
    assert!(matches!(failed, ApplyError::NotWritten(StoreError::Database(_))), "{failed}");
    server.begin();
    assert_eq!(store.tally().unwrap().count, 20);
    applied(&mut store, 21).unwrap();
    assert_eq!(store.log().size().unwrap(), 21);
}

#[test]
fn a_place_that_keeps_nothing_is_told_from_a_database_that_fails() {
    let no_place = |text: &str| {
        let opened = address_of(text).and_then(|address| PostgresStore::open(address, organisation()));
        matches!(opened, Err(StoreError::NoPlace(_)))
    };
    assert!(no_place("mysql://somewhere"));
    assert!(no_place(&Postgres::shared().address("nothing")), "a database that is not there");
    let opened =
        PostgresStore::open(address_of("postgres://farsiding@127.0.0.1:1/x").unwrap(), organisation());
    assert!(matches!(opened, Err(StoreError::Database(_))), "nobody answers: {opened:?}");
}

/// An authority, and what it certifies.
struct Authority(rcgen::CertifiedIssuer<'static, rcgen::KeyPair>);

impl Authority {
    fn new(name: &str) -> Authority {
        let mut params = rcgen::CertificateParams::new(Vec::new()).unwrap();
        params.distinguished_name.push(rcgen::DnType::CommonName, name);
        params.is_ca = rcgen::IsCa::Ca(rcgen::BasicConstraints::Unconstrained);
        let key = rcgen::KeyPair::generate().unwrap();
        Authority(rcgen::CertifiedIssuer::self_signed(params, key).unwrap())
    }

    /// A server that encrypts, under these names.
    fn server(&self, names: &[&str]) -> Postgres {
        let names: Vec<String> = names.iter().map(|name| (*name).to_owned()).collect();
        let key = rcgen::KeyPair::generate().unwrap();
        let certificate = rcgen::CertificateParams::new(names).unwrap().signed_by(&key, &self.0).unwrap();
        Postgres::encrypting(&certificate.pem(), &key.serialize_pem())
    }

    /// The file with its own certificate.
    fn file(&self, folder: &std::path::Path, name: &str) -> String {
        let file = folder.join(name);
        std::fs::write(&file, self.0.pem()).unwrap();
        file.to_str().unwrap().to_owned()
    }
}

#[test]
fn what_is_asked_for_encrypted_goes_encrypted_to_a_server_that_is_vouched_for_or_not_at_all() {
    let folder = tempfile::tempdir().unwrap();
    let (ours, others) = (Authority::new("an invented authority"), Authority::new("another one"));
    let (our_file, their_file) =
        (ours.file(folder.path(), "ours.pem"), others.file(folder.path(), "others.pem"));
    let server = ours.server(&["127.0.0.1"]);
    let plain = server.database("office");
    let with = |address: &str, mode: &str, roots: &str| {
        let text = format!("{address}?sslmode={mode}&sslrootcert={roots}");
        PostgresStore::open(address_of(&text).unwrap(), organisation())
    };
    let encrypted = || {
        let sql = "SELECT count(*) FROM pg_stat_ssl JOIN pg_stat_activity USING (pid)
                   WHERE application_name = 'farsiding' AND ssl";
        server.sql("office", sql)
    };
    for mode in ["require", "verify-full"] {
        let mut store = with(&plain, mode, &our_file).unwrap();
        assert!(matches!(applied(&mut store, 1).unwrap(), Outcome::Applied(_)));
        assert_eq!(encrypted(), "1", "{mode}");
        drop(store);
        std::thread::sleep(Duration::from_millis(300));
    }
    let store = open(&plain, organisation());
    assert_eq!(encrypted(), "0", "who does not ask for it has it not");
    drop(store);
    let refused = |opened: Result<PostgresStore, StoreError>| match opened {
        Err(StoreError::NoPlace(why)) => why,
        other => panic!("{other:?}"),
    };
    let another = refused(with(&plain, "require", &their_file));
    assert!(another.contains("UnknownIssuer"), "{another}");
    let by_the_system = format!("{plain}?sslmode=verify-full");
    match address_of(&by_the_system).and_then(|address| PostgresStore::open(address, organisation())) {
        Err(StoreError::NoPlace(_)) => {}
        other => panic!("an authority that nobody knows is trusted: {other:?}"),
    }
    let elsewhere = ours.server(&["elsewhere.invalid"]);
    let of_another_name = refused(with(&elsewhere.database("office"), "require", &our_file));
    assert!(of_another_name.contains("not valid for name"), "{of_another_name}");
    let unencrypted = refused(with(&Postgres::shared().database("plainly"), "require", &our_file));
    assert!(unencrypted.contains("does not support TLS"), "{unencrypted}");
}

/// A transaction beside the store that makes the store's next one the victim of a deadlock: it holds a row that the
/// store will want, and then wants the head, which the store holds.
fn deadlocking(
    database: &'static str,
    organisation: OrganisationId,
    key: &str,
) -> std::thread::JoinHandle<()> {
    let hex = |bytes: &[u8]| bytes.iter().map(|byte| format!("{byte:02x}")).collect::<String>();
    let (organisation, key) = (hex(&organisation.0), hex(key.as_bytes()));
    let sql = format!(
        "SET deadlock_timeout = '60s'; BEGIN;
         INSERT INTO farsiding.value VALUES (decode('{organisation}', 'hex'), decode('{key}', 'hex'), '');
         SELECT pg_sleep(1);
         SELECT moment FROM farsiding.head WHERE organisation = decode('{organisation}', 'hex') FOR UPDATE;
         ROLLBACK;"
    );
    let beside = std::thread::spawn(move || {
        Postgres::shared().sql(database, &sql);
    });
    let sql =
        "SELECT count(*) FROM pg_stat_activity WHERE datname = current_database() AND wait_event = 'PgSleep'";
    while Postgres::shared().sql(database, sql) == "0" {
        std::thread::sleep(Duration::from_millis(20));
    }
    beside
}

#[test]
fn a_transaction_that_the_database_asks_to_repeat_is_repeated() {
    let address = Postgres::shared().database("repeated");
    // The store looks for a deadlock after three seconds, long after the other transaction wants the head.
    Postgres::shared().sql("repeated", "ALTER DATABASE repeated SET deadlock_timeout = '3s'");
    let organisation = organisation();
    let mut store = open(&address, organisation);
    let deadlocks = || {
        let sql = "SELECT pg_stat_force_next_flush(); SELECT pg_stat_clear_snapshot();
                   SELECT deadlocks FROM pg_stat_database WHERE datname = 'repeated'";
        Postgres::shared().sql("repeated", sql).lines().last().unwrap().parse::<u64>().unwrap()
    };
    // A deadlock (40P01), while a batch is written and while a commit is.
    let beside = deadlocking("repeated", organisation, "round/a");
    let mut signings = 0;
    let mut sign = |store: &dyn Store, rounds: &[farsiding_core::store::Sequenced]| {
        signings += 1;
        signed(store, rounds)
    };
    let change = brought(1);
    let decided = store.moment().unwrap();
    let done = store.apply(&batch(decided, 1, &change), &mut sign).unwrap();
    assert!(matches!(done, Outcome::Applied(_)), "{done:?}");
    beside.join().unwrap();
    let beside = deadlocking("repeated", organisation, "name");
    store.commit(&[Write::Value { key: "name", value: b"kept" }]).unwrap();
    beside.join().unwrap();
    let met = (0..50).any(|_| {
        std::thread::sleep(Duration::from_millis(100));
        deadlocks() >= 2
    });
    assert!(met, "nothing was met: {}", deadlocks());
    assert_eq!(signings, 1, "a batch is signed for once");
    // A failure of serialization (40001), three times in a row.
    let fails = "CREATE SEQUENCE farsiding.tried;
        CREATE FUNCTION farsiding.fails() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN
          IF nextval('farsiding.tried') <= 3 THEN RAISE EXCEPTION 'again' USING ERRCODE = '40001'; END IF;
          RETURN NEW; END $$;
        CREATE TRIGGER fails BEFORE INSERT ON farsiding.entry FOR EACH ROW EXECUTE FUNCTION farsiding.fails();";
    Postgres::shared().sql("repeated", fails);
    assert!(matches!(applied(&mut store, 2).unwrap(), Outcome::Applied(_)));
    assert_eq!(Postgres::shared().sql("repeated", "SELECT last_value FROM farsiding.tried"), "4");
    // One that never ends is given up, and nothing of it is there.
    Postgres::shared().sql(
        "repeated",
        "SELECT setval('farsiding.tried', 1); CREATE OR REPLACE FUNCTION farsiding.fails()
        RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN PERFORM nextval('farsiding.tried');
          RAISE EXCEPTION 'again' USING ERRCODE = '40001'; END $$;",
    );
    let refused = applied(&mut store, 3).unwrap_err();
    assert!(matches!(refused, ApplyError::NotWritten(StoreError::Busy)), "{refused}");
    assert_eq!(Postgres::shared().sql("repeated", "SELECT last_value FROM farsiding.tried"), "9");
    assert_eq!((store.tally().unwrap().count, store.log().size().unwrap()), (2, 2));
    assert_eq!(store.value("name").unwrap().as_deref(), Some(&b"kept"[..]));
}
