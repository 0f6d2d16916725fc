//! The shape of the source tree: what may name what, how files open, how long they grow.

use crate::order::outside_tests;
use farsiding_testkit::tree::{paths, product_sources, root, texts};

/// Every Rust file that people write, with its text.
fn everything() -> Vec<(String, String)> {
    ["core", "bindings", "sync-server", "tests", "demo"]
        .iter()
        .flat_map(|part| texts(part, &[".rs"]))
        .collect()
}

/// Every other file of code that people write.
fn scripts() -> Vec<(String, String)> {
    ["bindings", "tests"].iter().flat_map(|part| texts(part, SCRIPTS)).collect()
}

const SCRIPTS: &[&str] = &[".ts", ".svelte", ".mjs", ".js", ".py", ".kt", ".java", ".swift"];

/// Written by `bindings/generate`, beside what people write.
fn is_generated(text: &str) -> bool {
    text.lines().take(3).any(|line| line.contains("@generated"))
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

/// A component says it by its name, and an empty file of Python makes a folder a package.
#[test]
fn every_script_says_first_what_lives_in_it() {
    let bare: Vec<String> = scripts()
        .into_iter()
        .filter(|(path, text)| !path.ends_with(".svelte") && !text.is_empty())
        .filter(|(_, text)| {
            let first = text.lines().find(|line| !line.starts_with("#!")).unwrap_or_default();
            !["//", "/*", "#", "\"\"\""].iter().any(|opening| first.starts_with(opening))
        })
        .map(|(path, _)| path)
        .collect();
    assert!(bare.is_empty(), "these do not open with a comment: {bare:?}");
}

#[test]
fn no_file_grows_past_eight_hundred_lines() {
    // Every text of the phone, in every language: a table.
    let tables = ["bindings/phone/src/strings.ts"];
    let scripts =
        scripts().into_iter().filter(|(path, text)| !is_generated(text) && !tables.contains(&path.as_str()));
    assert!(tables.iter().all(|table| root().join(table).exists()), "{tables:?}");
    let long: Vec<(String, usize)> = everything()
        .into_iter()
        .chain(scripts)
        .map(|(path, text)| (path, text.lines().count()))
        .filter(|(_, lines)| *lines > 800)
        .collect();
    assert!(long.is_empty(), "split by idea: {long:?}");
}

#[test]
fn each_library_is_named_in_its_one_place() {
    for (library, allowed) in [
        ("automerge", &["core/src/document/"][..]),
        ("rusqlite", &["core/src/store/sqlite", "core/src/sync/rounds_tests.rs"][..]),
        ("argon2", &["core/src/book/pin.rs"][..]),
        ("chacha20poly1305", &["core/src/book/pin.rs"][..]),
    ] {
        let mut used: Vec<&str> = Vec::new();
        for (path, text) in product_sources("core") {
            let names = code(&text).any(|line| {
                line.contains(&format!("{library}::")) || line.contains(&format!("use {library}"))
            });
            let home = allowed.iter().find(|a| path.starts_with(**a));
            assert!(!names || home.is_some(), "{path} names {library}");
            used.extend(home.filter(|_| names));
        }
        let unused = allowed.iter().find(|home| !used.contains(home));
        assert!(
            unused.is_none(),
            "{library} is not named in {unused:?}, which may name it: where did it go?"
        );
    }
}

#[test]
fn the_core_reads_no_clock_and_rolls_no_dice() {
    for (path, text) in product_sources("core") {
        for forbidden in
            ["SystemTime::now", "Instant::now", "Utc::now", "Local::now", "getrandom::", "thread_rng"]
        {
            assert!(!code(&text).any(|line| line.contains(forbidden)), "{path} calls {forbidden}");
        }
    }
}

#[test]
fn names_say_what_a_thing_is() {
    // Whatever kind of file it is, pictures and tables too.
    let parts = ["core", "bindings", "sync-server", "tests", "demo"];
    for path in parts.iter().flat_map(|part| paths(part, &[""])) {
        let parts: Vec<&str> = path.split(['/', '.']).collect();
        for vague in ["util", "utils", "helper", "helpers", "common", "misc"] {
            assert!(!parts.iter().any(|part| part.eq_ignore_ascii_case(vague)), "{path}");
        }
    }
    let twice = |path: &str| {
        let mut parts = path.rsplit('/');
        let file = parts.next().unwrap_or_default().split('.').next();
        file == parts.next()
    };
    let written = everything().into_iter().chain(scripts()).filter(|(_, text)| !is_generated(text));
    let twice: Vec<String> = written.map(|(path, _)| path).filter(|path| twice(path)).collect();
    assert!(twice.is_empty(), "a file with its folder's name says nothing: {twice:?}");
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
    let left_out = [
        "test.skip(",
        "it.skip(",
        "describe.skip(",
        "test.only(",
        "it.only(",
        "describe.only(",
        "skip: true",
    ];
    let of_others = ["@unittest.skip", "pytest.mark.skip", "@Disabled", "@Ignore"];
    for (path, text) in scripts() {
        let ignored = left_out.iter().chain(&of_others).find(|way| text.contains(**way));
        assert!(ignored.is_none(), "{path} leaves a test out: {ignored:?}");
    }
}

/// Lines of code of a file that run outside its tests.
fn code_that_runs(text: &str) -> Vec<String> {
    outside_tests(text).0.lines().map(str::to_owned).collect()
}

/// What is remembered or compared is told apart by a canonical encoding. How a type prints for its author is none: it
/// changes with a field's name, it may leave out what tells two values apart, and it may say two things alike.
#[test]
fn nothing_is_remembered_by_how_it_prints_for_its_author() {
    let tests = |path: &str| path.contains("tests") || path.contains("contract");
    // Beside a text in quotes, or in the words of an error, it is for people.
    let for_people = [
        "packet/src/ink.rs",    // why a layout failed
        "bindings/src/book.rs", // a caller's text in quotes
    ];
    let mut used: Vec<&str> = Vec::new();
    for (path, text) in product_sources("").into_iter().filter(|(path, _)| !path.starts_with("demo/")) {
        for line in code_that_runs(&text).iter().filter(|line| line.contains("?}") && !tests(&path)) {
            let known = for_people.iter().find(|known| path.ends_with(*known));
            assert!(known.is_some(), "{path} prints for its author: {}", line.trim());
            used.extend(known);
        }
    }
    assert!(for_people.iter().all(|known| used.contains(known)), "of {for_people:?} only {used:?} do");
}

/// What a person types as an amount is read by the core alone: "32,650" was 32.65 on a phone once, beside the text.
#[test]
fn no_shell_reads_an_amount_by_itself() {
    // Counts of photographs' bytes, tries and times that a machine wrote; flags put in order.
    let no_amounts = [
        ("bindings/phone/src/field/photos.ts", "Number(offset)"),
        ("bindings/phone/src/field/photos.ts", "Number(reached)"),
        ("bindings/phone/src/core/worker.ts", "Number(detail.until"),
        ("bindings/phone/src/state/person-keys.svelte.ts", "Number(said.detail?."),
        ("bindings/phone/src/figure.ts", "Number(wish.includes("),
        ("bindings/phone/src/screens/Help.svelte", "Number(b.role"),
        // A count that the core hands over, for the plural.
        ("bindings/phone/src/words/render.ts", "new FluentNumber(value"),
        // How many digits of a figure are shown.
        ("bindings/phone/src/units.ts", "Number(value.toPrecision(digits))"),
    ];
    let mut used: Vec<&str> = Vec::new();
    for (path, text) in texts("bindings/phone/src", &[".ts", ".svelte"]) {
        for line in text.lines().filter(|line| !line.trim_start().starts_with(['/', '*'])) {
            for reader in
                ["parseFloat", "parseInt", "Number(", "Number.parse", "valueAsNumber", " +typed", "(+typed"]
            {
                let known = no_amounts.iter().find(|(file, what)| path == *file && line.contains(what));
                assert!(
                    !line.contains(reader) || known.is_some(),
                    "{path} reads a number by itself: {}",
                    line.trim()
                );
                used.extend(known.filter(|_| line.contains(reader)).map(|(_, what)| what));
            }
        }
    }
    let gone = no_amounts.iter().find(|(_, what)| !used.contains(what));
    assert!(gone.is_none(), "no longer there, take it off the list: {gone:?}");
    let device: Vec<(String, String)> = product_sources("sync-server")
        .into_iter()
        .filter(|(path, _)| {
            path.strip_prefix("sync-server/")
                .is_some_and(|path| path.starts_with("src/device/") || path.starts_with("device/src/"))
        })
        .collect();
    assert!(device.len() > 5, "the device without a screen lies elsewhere");
    for (path, text) in device {
        let reads = code_that_runs(&text).iter().any(|line| line.contains("parse::<f64>"));
        assert!(!reads, "{path} reads an amount by itself");
    }
}
