//! The shape of the source tree: what may name what, how files open, how long they grow.

use std::path::{Path, PathBuf};

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap().to_owned()
}

/// Every Rust file of the workspace that people write, with its text.
fn sources(under: &str) -> Vec<(String, String)> {
    let mut found = Vec::new();
    let mut waiting = vec![root().join(under)];
    while let Some(folder) = waiting.pop() {
        for item in std::fs::read_dir(&folder).unwrap() {
            let path = item.unwrap().path();
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            if path.is_dir() {
                if !matches!(name.as_str(), "target" | "node_modules" | "generated") && !name.starts_with('.')
                {
                    waiting.push(path);
                }
            } else if name.ends_with(".rs") {
                let text = std::fs::read_to_string(&path).unwrap();
                let shown = path.strip_prefix(root()).unwrap().to_string_lossy().into_owned();
                found.push((shown, text));
            }
        }
    }
    found.sort();
    found
}

fn everything() -> Vec<(String, String)> {
    ["core", "bindings", "sync-server", "tests", "demo"].iter().flat_map(|part| sources(part)).collect()
}

/// Lines of code, without comments.
fn code(text: &str) -> impl Iterator<Item = &str> {
    text.lines().filter(|line| !line.trim_start().starts_with("//"))
}

#[test]
fn every_file_says_first_what_lives_in_it() {
    let bare: Vec<String> =
        everything().into_iter().filter(|(_, text)| !text.starts_with("//!")).map(|(path, _)| path).collect();
    assert!(bare.is_empty(), "these do not open with //!: {bare:?}");
}

#[test]
fn no_file_grows_past_eight_hundred_lines() {
    let long: Vec<(String, usize)> = everything()
        .into_iter()
        .map(|(path, text)| (path, text.lines().count()))
        .filter(|(_, lines)| *lines > 800)
        .collect();
    assert!(long.is_empty(), "split by idea: {long:?}");
}

#[test]
fn each_library_is_named_in_its_one_place() {
    for (library, allowed) in [
        ("automerge", &["core/src/document/"][..]),
        ("rusqlite", &["core/src/store/sqlite", "core/src/store/contract"][..]),
        ("argon2", &["core/src/book/pin.rs"][..]),
        ("chacha20poly1305", &["core/src/book/pin.rs"][..]),
        ("uniffi", &[][..]),
        ("axum", &[][..]),
        ("tokio", &[][..]),
        ("reqwest", &[][..]),
    ] {
        for (path, text) in sources("core/src") {
            let names = code(&text).any(|line| {
                line.contains(&format!("{library}::")) || line.contains(&format!("use {library}"))
            });
            let home = allowed.iter().any(|a| path.starts_with(a));
            assert!(!names || home, "{path} names {library}");
        }
    }
}

#[test]
fn the_core_reads_no_clock_and_rolls_no_dice() {
    for (path, text) in sources("core/src") {
        for forbidden in
            ["SystemTime::now", "Instant::now", "Utc::now", "Local::now", "getrandom::", "thread_rng"]
        {
            assert!(!code(&text).any(|line| line.contains(forbidden)), "{path} calls {forbidden}");
        }
    }
}

#[test]
fn names_say_what_a_thing_is() {
    for (path, _) in everything() {
        for vague in ["utils", "helpers", "common", "misc"] {
            assert!(!path.split(['/', '.']).any(|part| part == vague), "{path}");
        }
    }
}

#[test]
fn the_top_level_is_the_one_agreed() {
    let expected = [
        "Cargo.lock",
        "Cargo.toml",
        "DEVELOPERS.md",
        "README.md",
        "bindings",
        "core",
        "demo",
        "sync-server",
        "tests",
    ];
    let mut found: Vec<String> = std::fs::read_dir(root())
        .unwrap()
        .map(|item| item.unwrap().file_name().to_string_lossy().into_owned())
        .filter(|name| !name.starts_with('.') && name != "target")
        .collect();
    found.sort();
    assert_eq!(found, expected);
}

#[test]
fn every_ignored_test_would_be_noticed() {
    for (path, text) in everything() {
        let ignored = code(&text).any(|line| line.trim_start().starts_with("#[ignore"));
        assert!(!ignored, "{path} ignores a test");
    }
}

/// Lines of code of a file that run outside its tests.
fn code_that_runs(text: &str) -> impl Iterator<Item = &str> {
    code(text.split("#[cfg(test)]").next().unwrap_or_default())
}

/// What is remembered or compared is told apart by a canonical encoding. How a type prints for its author is none: it
/// changes with a field's name, it may leave out what tells two values apart, and it may say two things alike.
#[test]
fn nothing_is_remembered_by_how_it_prints_for_its_author() {
    let tests = |path: &str| path.contains("tests") || path.contains("contract");
    for (path, text) in ["core/src", "bindings/src", "sync-server/src"].iter().flat_map(|part| sources(part))
    {
        for line in code_that_runs(&text).filter(|line| line.contains("?}") && !tests(&path)) {
            // Beside a text in quotes, or in the words of an error, it is for people.
            let for_people = [
                "sync-server/src/packet/ink.rs", // why a layout failed
                "bindings/src/book.rs",          // a caller's text in quotes
            ];
            assert!(for_people.contains(&path.as_str()), "{path} prints for its author: {}", line.trim());
        }
    }
}

/// Every text file of a folder of the phone's source.
fn phone(under: &str) -> Vec<(String, String)> {
    let mut found = Vec::new();
    let mut waiting = vec![root().join(under)];
    while let Some(folder) = waiting.pop() {
        for item in std::fs::read_dir(&folder).unwrap() {
            let path = item.unwrap().path();
            if path.is_dir() {
                waiting.push(path);
            } else if path.extension().is_some_and(|kind| kind == "ts" || kind == "svelte") {
                let shown = path.strip_prefix(root()).unwrap().to_string_lossy().into_owned();
                found.push((shown, std::fs::read_to_string(&path).unwrap()));
            }
        }
    }
    found.sort();
    found
}

/// What a person types as an amount is read by the core alone: "32,650" was 32.65 on a phone once, beside the text.
#[test]
fn no_shell_reads_an_amount_by_itself() {
    // Counts of photographs' bytes, tries and times that a machine wrote; flags put in order; a car's number.
    let no_amounts = [
        ("bindings/phone/src/field/photos.ts", "Number(offset)"),
        ("bindings/phone/src/field/photos.ts", "Number(reached)"),
        ("bindings/phone/src/core/worker.ts", "Number(detail.until"),
        ("bindings/phone/src/state/person-keys.svelte.ts", "Number(said.detail?."),
        ("bindings/phone/src/figure.ts", "Number(wish.includes("),
        ("bindings/phone/src/screens/Help.svelte", "Number(b.role"),
        ("bindings/phone/src/screens/NewCar.svelte", "Number(d.number)"),
    ];
    for (path, text) in phone("bindings/phone/src") {
        for line in text.lines().filter(|line| !line.trim_start().starts_with("//")) {
            for reader in
                ["parseFloat", "parseInt", "Number(", "Number.parse", "valueAsNumber", " +typed", "(+typed"]
            {
                let known = no_amounts.iter().any(|(file, what)| path == *file && line.contains(what));
                assert!(!line.contains(reader) || known, "{path} reads a number by itself: {}", line.trim());
            }
        }
    }
    for (path, text) in sources("sync-server/src/device") {
        let reads = code_that_runs(&text).any(|line| line.contains("parse::<f64>"));
        assert!(!reads, "{path} reads an amount by itself");
    }
}
