//! Data written by released programs is read by the present one. The result of folding it is frozen for each
//! version of the fold, and every amount in it must still have its number.
//!
//! `tests/golden/fold/N.json` holds the digests of what fold N makes of every frozen packet (its `view.json`)
//! and of every single entry of `tests/golden/entries`. A change that makes another view of any of them is a
//! change of the fold: raise `view::FOLD_VERSION`, and freeze the results of the new version with
//!     FARSIDING_ADD_GOLDEN=1 cargo test -p farsiding-server --test packet frozen
//! Files of earlier versions stay unchanged, because they describe packets made at that time.

use std::collections::BTreeMap;
use std::io::Read as _;
use std::path::{Path, PathBuf};

use ciborium::Value;
use farsiding_core::authority::Authority;
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::{AnyTime, Entry, OrganisationKeys, PublicKey, cbor, open_envelope};
use farsiding_core::evidence::packet::{
    CERTIFICATES, ENTRIES, Entries, LOG, NAMES, NamesFile, Parts, RECEIPTS, SEAL, Seal, VIEW, keys_of, refold,
};
use farsiding_core::ids::Digest;
use farsiding_core::procedure::Procedures;
use farsiding_core::store::{Durability, SqliteStore, Store as _};
use farsiding_core::units::Amount;
use farsiding_core::view::{Context, FOLD_VERSION, Recorded, fold};
use farsiding_packet::take_apart;

fn golden() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../tests/golden")
}

fn files_in(folder: &Path) -> Vec<PathBuf> {
    let mut files: Vec<PathBuf> =
        std::fs::read_dir(folder).unwrap().map(|file| file.unwrap().path()).collect();
    files.sort();
    files
}

/// Returns the folders with the data that each released version wrote.
fn releases() -> Vec<PathBuf> {
    let is_one = |path: &PathBuf| path.join("packets").is_dir();
    files_in(&golden()).into_iter().filter(is_one).collect()
}

fn name_of(path: &Path) -> String {
    path.strip_prefix(golden()).unwrap().to_string_lossy().into_owned()
}

fn view_of_packet(file: &Path, key: &PublicKey) -> serde_json::Value {
    let apart = take_apart(&std::fs::read(file).unwrap()).unwrap();
    let record = |name: &str| apart.files.records[name].as_slice();
    let parts = Parts {
        entries: Entries::from_bytes(record(ENTRIES)).unwrap(),
        certificates: cbor::decode(record(CERTIFICATES)).unwrap(),
        receipts: cbor::decode(record(RECEIPTS)).unwrap(),
        log: cbor::decode(record(LOG)).unwrap(),
        names: match apart.files.records.get(NAMES) {
            Some(bytes) => NamesFile::from_bytes(bytes).unwrap().names,
            None => Vec::new(),
        },
    };
    serde_json::to_value(refold(&parts, key, &Procedures::built_in().unwrap()).view).unwrap()
}

fn frozen_entry(file: &Path) -> Entry {
    let text = std::fs::read_to_string(file).unwrap();
    let hex: String = text.lines().filter(|line| !line.starts_with('#')).collect();
    let digit = |at: usize| u8::from_str_radix(&hex[at..at + 2], 16).unwrap();
    Entry::open(&(0..hex.len()).step_by(2).map(digit).collect::<Vec<u8>>()).unwrap()
}

fn packets_of(release: &Path) -> Vec<PathBuf> {
    let is_one = |file: &PathBuf| file.extension().is_some_and(|kind| kind == "pdf");
    files_in(&release.join("packets")).into_iter().filter(is_one).collect()
}

/// Returns the digest of a view as JSON without blanks, with its keys in order.
fn digest(view: &serde_json::Value) -> String {
    Digest::of(view.to_string().as_bytes()).to_string()
}

/// Returns the results of folding everything that is frozen.
fn folded_today() -> BTreeMap<String, String> {
    let mut folded = BTreeMap::new();
    for release in releases() {
        let text = std::fs::read_to_string(release.join("packets/organisation.pub")).unwrap();
        let key = PublicKey::read(text.trim()).unwrap();
        for file in packets_of(&release) {
            folded.insert(name_of(&file), digest(&view_of_packet(&file, &key)));
        }
    }
    let procedures = Procedures::built_in().unwrap();
    for file in files_in(&golden().join("entries")) {
        let entry = frozen_entry(&file);
        let recorded = [Recorded { entry: &entry, receipted: false, received_at: None }];
        let authority = Authority::default();
        let at = UtcMillis(entry.body.when.at.0 + 60_000);
        let view = fold(&recorded, &Context { authority: &authority, ..Context::at(at, &procedures) });
        folded.insert(name_of(&file), digest(&serde_json::to_value(view).unwrap()));
    }
    folded
}

#[test]
fn whoever_changes_the_fold_raises_its_version() {
    let file = golden().join(format!("fold/{FOLD_VERSION}.json"));
    let today = folded_today();
    let may_add = std::env::var_os("FARSIDING_ADD_GOLDEN").is_some();
    let mut frozen: BTreeMap<String, String> = match std::fs::read(&file) {
        Ok(bytes) => serde_json::from_slice(&bytes).unwrap(),
        Err(_) if may_add => BTreeMap::new(),
        Err(_) => panic!("nothing is frozen for fold {FOLD_VERSION}: see the head of this file"),
    };
    let other: Vec<&String> = frozen
        .iter()
        .filter(|(name, digest)| today.get(*name) != Some(digest))
        .map(|(name, _)| name)
        .collect();
    assert!(
        other.is_empty(),
        "the fold makes another view of {other:?}: raise view::FOLD_VERSION (it is {FOLD_VERSION}) and freeze, see the head"
    );
    let new: Vec<&String> = today.keys().filter(|name| !frozen.contains_key(*name)).collect();
    if may_add && !new.is_empty() {
        frozen.extend(today.clone());
        std::fs::create_dir_all(golden().join("fold")).unwrap();
        std::fs::write(&file, serde_json::to_string_pretty(&frozen).unwrap() + "\n").unwrap();
    } else {
        assert!(new.is_empty(), "not frozen yet: {new:?}; see the head of this file");
    }
}

/// A packet contains the view made by its own fold version, which must stay equal to the frozen one for ever.
#[test]
fn what_is_frozen_for_a_fold_is_what_packets_of_it_hold() {
    let mut compared = 0;
    for release in releases() {
        let key = PublicKey::read(
            std::fs::read_to_string(release.join("packets/organisation.pub")).unwrap().trim(),
        )
        .unwrap();
        for file in packets_of(&release) {
            let files = take_apart(&std::fs::read(&file).unwrap()).unwrap().files;
            let keys = keys_of(&files, &OrganisationKeys::of_root(key));
            let records = files.records;
            let fold = Seal::open(&records[SEAL], &AnyTime(&keys)).unwrap().fold();
            let Ok(frozen) = std::fs::read(golden().join(format!("fold/{fold}.json"))) else { continue };
            let frozen: BTreeMap<String, String> = serde_json::from_slice(&frozen).unwrap();
            let held: serde_json::Value = serde_json::from_slice(&records[VIEW]).unwrap();
            assert_eq!(frozen.get(&name_of(&file)), Some(&digest(&held)), "{}", name_of(&file));
            compared += 1;
        }
    }
    assert!(compared >= 4, "{compared} packets compared");
}

/// Collects every amount in a CBOR value, unchanged.
fn amounts_in(value: &Value, found: &mut Vec<Value>) {
    match value {
        Value::Map(pairs) => {
            let has = |name: &str| pairs.iter().any(|(key, _)| key.as_text() == Some(name));
            if has("text") && has("unit") {
                found.push(value.clone());
            }
            pairs.iter().for_each(|(_, inner)| amounts_in(inner, found));
        }
        Value::Array(items) => items.iter().for_each(|item| amounts_in(item, found)),
        _ => {}
    }
}

#[test]
fn every_amount_written_before_stands_for_its_number() {
    let folder = tempfile::tempdir().unwrap();
    let mut entries: BTreeMap<String, Vec<u8>> = BTreeMap::new();
    for file in files_in(&golden().join("entries")) {
        entries.insert(name_of(&file), frozen_entry(&file).bytes().to_vec());
    }
    for release in releases() {
        for name in ["office/ledger.db", "device/record.db", "phone/field"] {
            // Of some releases only packets are kept.
            let Ok(bytes) = std::fs::read(release.join(format!("{name}.gz"))) else { continue };
            let thawed = folder.path().join(name_of(&release)).with_extension(name.replace('/', "-"));
            let mut plain = Vec::new();
            flate2::read::GzDecoder::new(bytes.as_slice()).read_to_end(&mut plain).unwrap();
            std::fs::write(&thawed, plain).unwrap();
            let store = SqliteStore::open(thawed.to_str().unwrap(), Durability::WriteAheadLog).unwrap();
            for subject in store.subjects().unwrap() {
                for row in store.entries_of(subject).unwrap().rows {
                    let name = format!("{} {name} {}", name_of(&release), row.id);
                    entries.insert(name, store.entry(row.id).unwrap().unwrap().bytes);
                }
            }
        }
    }
    let (mut with_number, mut without) = (0, 0);
    for (name, bytes) in &entries {
        let (_, payload) = open_envelope(bytes, "farsiding entry 1").unwrap();
        let mut found = Vec::new();
        amounts_in(&cbor::decode_value(&payload).unwrap(), &mut found);
        for amount in found {
            let pairs = amount.as_map().unwrap();
            let number = pairs.iter().find(|(key, _)| key.as_text() == Some("value"));
            let number = number.and_then(|(_, number)| number.as_float());
            let read: Amount = amount.deserialized().unwrap();
            assert_eq!(read.value, number, "{name}: {read:?}");
            read.check_signed().unwrap_or_else(|why| panic!("{name}: today it would not be signed: {why:?}"));
            *if number.is_some() { &mut with_number } else { &mut without } += 1;
        }
    }
    assert!(with_number > 500, "{with_number} amounts with a number, {without} without");
}
