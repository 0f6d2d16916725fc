//! The sweep: what is in the corpus, then as many hostile ones of each kind as the time allows.

use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use crate::kinds::{Bench, KINDS};
use crate::watch::{Took, watched};
use farsiding_testkit::Dice;

/// How many hostile letters the office is sent before an honest device is tried.
const BETWEEN: u64 = 40;

fn corpus(kind: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("hostile/corpus").join(kind)
}

fn seconds() -> f64 {
    std::env::var("FARSIDING_HOSTILE_SECONDS").map_or(10.0, |text| text.parse().unwrap())
}

/// The corpus's files of a kind, in order of their names.
fn kept(kind: &str) -> Vec<(String, Vec<u8>)> {
    let Ok(items) = std::fs::read_dir(corpus(kind)) else { return Vec::new() };
    let mut files: Vec<PathBuf> = items.map(|item| item.unwrap().path()).collect();
    files.sort();
    let name = |file: &PathBuf| file.file_name().unwrap().to_string_lossy().into_owned();
    files.iter().map(|file| (name(file), std::fs::read(file).unwrap())).collect()
}

/// Writes the sound examples that are small enough to keep, and the bombs.
fn write_corpus(bench: &Bench) {
    for kind in KINDS {
        let folder = corpus(kind);
        std::fs::create_dir_all(&folder).unwrap();
        for (at, bytes) in bench.sound(kind).iter().filter(|bytes| bytes.len() < 16_384).take(3).enumerate() {
            std::fs::write(folder.join(format!("sound-{at}.bin")), bytes).unwrap();
        }
    }
    for (kind, name, bytes) in crate::bombs::small() {
        std::fs::write(corpus(kind).join(format!("{name}.bin")), bytes).unwrap();
    }
}

#[test]
fn nothing_from_outside_brings_anything_down_or_slips_in() {
    let mut dice = Dice::thrown();
    let mut bench = Bench::new();
    if std::env::var_os("FARSIDING_WRITE_CORPUS").is_some() {
        write_corpus(&bench);
    }
    for item in std::fs::read_dir(corpus("")).unwrap() {
        let name = item.unwrap().file_name().into_string().unwrap();
        assert!(KINDS.contains(&name.as_str()), "the corpus has {name}, which nothing reads");
    }
    let share = Duration::from_secs_f64(seconds() / KINDS.len() as f64);
    for kind in KINDS {
        let kept = kept(kind);
        assert!(*kind == "packet" || !kept.is_empty(), "the corpus has nothing of {kind}");
        let began = Instant::now();
        let (mut most, mut cases) = (Took::default(), 0u64);
        for bytes in kept.iter().map(|(_, bytes)| bytes).chain(&bench.sound(kind).to_vec()) {
            most = most.or_more(watched(kind, bytes, |bytes| bench.read(kind, bytes, &mut dice)));
            cases += 1;
        }
        while began.elapsed() < share || cases < BETWEEN {
            let bytes = bench.draw(kind, &mut dice);
            most = most.or_more(watched(kind, &bytes, |bytes| bench.read(kind, bytes, &mut dice)));
            cases += 1;
            if cases.is_multiple_of(BETWEEN) && matches!(*kind, "request" | "log") {
                bench.office_is_well();
            }
        }
        bench.office_is_well();
        println!(
            "hostile {kind}: {cases} cases ({} kept), at most {} ms and {} kB for one",
            kept.len(),
            most.time.as_millis(),
            most.memory >> 10
        );
    }
}
