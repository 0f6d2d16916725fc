//! What others' work the product stands on: where it comes from, under which licences, and who must be named.
//!
//! Known weaknesses are another question: `tests/run audit` asks the advisory services, which a test without
//! network cannot.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::process::Command;

use farsiding_testkit::tree::root;
use serde_json::Value;

/// Licences anything may be under, and why each is no burden.
const ALLOWED: &[(&str, &str)] = &[
    ("MIT", "keep the notice"),
    ("Apache-2.0", "keep the notice; grants patents"),
    ("BSD-2-Clause", "keep the notice"),
    ("BSD-3-Clause", "keep the notice; no endorsement"),
    ("ISC", "keep the notice"),
    ("Zlib", "say what was altered"),
    ("0BSD", "nothing is asked"),
    ("Unlicense", "public domain"),
    ("Unicode-3.0", "keep the notice; the character tables"),
    ("CDLA-Permissive-2.0", "the list of root certificates, data and no code"),
];

/// Crates that ask to be named wherever they are handed on, in `bindings/NOTICE.txt`. MPL-2.0 asks that its own
/// files stay open and that whoever gets them in compiled form is told where; Blue Oak that its text or a link
/// to it goes along.
const BY_NAME: &[(&str, &str)] = &[
    ("uniffi", "MPL-2.0"),
    ("uniffi_core", "MPL-2.0"),
    ("uniffi_internal_macros", "MPL-2.0"),
    ("uniffi_macros", "MPL-2.0"),
    ("uniffi_meta", "MPL-2.0"),
    ("uniffi_pipeline", "MPL-2.0"),
    ("uniffi-runtime-wasm", "MPL-2.0"),
    ("minicbor", "BlueOak-1.0.0"),
    ("minicbor-serde", "BlueOak-1.0.0"),
];

/// npm packages under terms of their own, with the place they are used in.
const NPM_BY_NAME: &[(&str, &str, &str)] = &[
    ("uniffi-bindgen-react-native", "MPL-2.0", "its runtime is in the browser's bundle: named in NOTICE.txt"),
    ("@fontsource-variable/atkinson-hyperlegible-next", "OFL-1.1", "the typeface: named in NOTICE.txt"),
    ("axe-core", "MPL-2.0", "checks pages in tests; never shipped"),
    ("lightningcss", "MPL-2.0", "shrinks style sheets while building; never shipped"),
    ("caniuse-lite", "CC-BY-4.0", "a table of browsers read while building; never shipped"),
];

/// Every package of the lock file, for whatever platform, and who needs whom.
fn metadata() -> Value {
    let ask = |arguments: &[&str]| {
        let mut cargo = Command::new(env!("CARGO"));
        cargo.current_dir(root()).args(["metadata", "--locked", "--format-version", "1"]).args(arguments);
        cargo.output().unwrap()
    };
    let mut told = ask(&["--offline"]);
    if !told.status.success() {
        told = ask(&[]); // crates for other platforms were never fetched here
    }
    assert!(told.status.success(), "{}", String::from_utf8_lossy(&told.stderr));
    serde_json::from_slice(&told.stdout).unwrap()
}

fn packages(metadata: &Value) -> impl Iterator<Item = (&str, &Value)> {
    let all = metadata["packages"].as_array().unwrap().iter();
    all.map(|package| (package["name"].as_str().unwrap(), package))
}

fn licence(package: &Value) -> &str {
    package["license"].as_str().unwrap_or("none named")
}

/// Whether one may choose, in an SPDX expression, only licences that are `allowed`. Some crates still write
/// the older `A/B` for `A OR B`.
fn may_choose(expression: &str, allowed: &dyn Fn(&str) -> bool) -> bool {
    let spaced = expression.replace('/', " OR ").replace('(', " ( ").replace(')', " ) ");
    let words: Vec<&str> = spaced.split_whitespace().collect();
    let mut at = 0;
    let sound = any_of(&words, &mut at, allowed);
    sound && at == words.len()
}

fn any_of(words: &[&str], at: &mut usize, allowed: &dyn Fn(&str) -> bool) -> bool {
    let mut any = all_of(words, at, allowed);
    while words.get(*at) == Some(&"OR") {
        *at += 1;
        any |= all_of(words, at, allowed);
    }
    any
}

fn all_of(words: &[&str], at: &mut usize, allowed: &dyn Fn(&str) -> bool) -> bool {
    let mut all = one(words, at, allowed);
    while words.get(*at) == Some(&"AND") {
        *at += 1;
        all &= one(words, at, allowed);
    }
    all
}

fn one(words: &[&str], at: &mut usize, allowed: &dyn Fn(&str) -> bool) -> bool {
    let Some(word) = words.get(*at) else { return false };
    *at += 1;
    if *word == "(" {
        let inside = any_of(words, at, allowed);
        *at += 1; // the closing one
        return inside;
    }
    if words.get(*at) == Some(&"WITH") {
        *at += 2; // an exception only ever gives more
    }
    allowed(word)
}

fn is_allowed(licence: &str) -> bool {
    ALLOWED.iter().any(|(name, _)| *name == licence)
}

#[test]
fn licence_expressions_are_read_as_they_are_meant() {
    let allowed = |licence: &str| matches!(licence, "MIT" | "ISC");
    for (expression, may) in [
        ("MIT", true),
        ("GPL-3.0-only", false),
        ("GPL-3.0-only OR MIT", true),
        ("MIT/GPL-2.0", true),
        ("MIT AND GPL-3.0-only", false),
        ("(GPL-3.0-only OR ISC) AND MIT", true),
        ("GPL-3.0-only OR ISC AND LGPL-2.1-only", false),
        ("ISC WITH LLVM-exception", true),
        ("none named", false),
        ("", false),
    ] {
        assert_eq!(may_choose(expression, &allowed), may, "{expression}");
    }
}

#[test]
fn every_crate_comes_from_the_public_registry() {
    let metadata = metadata();
    let elsewhere: Vec<&str> = packages(&metadata)
        .filter(|(name, package)| match package["source"].as_str() {
            Some(source) => source != "registry+https://github.com/rust-lang/crates.io-index",
            None => !name.starts_with("farsiding-"),
        })
        .map(|(name, _)| name)
        .collect();
    assert!(elsewhere.is_empty(), "{elsewhere:?}");
}

#[test]
fn every_crate_is_under_a_licence_that_was_looked_at() {
    let metadata = metadata();
    let odd: Vec<(&str, &str)> = packages(&metadata)
        .map(|(name, package)| (name, licence(package)))
        .filter(|&(name, licence)| !BY_NAME.contains(&(name, licence)) && !may_choose(licence, &is_allowed))
        .collect();
    assert!(odd.is_empty(), "look at these and add to the lists with a reason: {odd:?}");
    let gone: Vec<&(&str, &str)> =
        BY_NAME.iter().filter(|(named, _)| !packages(&metadata).any(|(name, _)| name == *named)).collect();
    assert!(gone.is_empty(), "no longer used, take them off the list: {gone:?}");
}

/// The crates a package is built from, tests aside, on any platform.
fn built_from(metadata: &Value, package: &str) -> BTreeSet<String> {
    let nodes: BTreeMap<&str, &Value> = metadata["resolve"]["nodes"]
        .as_array()
        .unwrap()
        .iter()
        .map(|node| (node["id"].as_str().unwrap(), node))
        .collect();
    let (_, first) = packages(metadata).find(|(name, _)| *name == package).unwrap();
    let mut found = BTreeSet::new();
    let mut waiting = vec![first["id"].as_str().unwrap()];
    while let Some(id) = waiting.pop() {
        if found.insert(id.to_owned()) {
            let needs = nodes[id]["deps"].as_array().unwrap().iter();
            waiting.extend(
                needs
                    .filter(|need| {
                        need["dep_kinds"].as_array().unwrap().iter().any(|kind| kind["kind"] != "dev")
                    })
                    .map(|need| need["pkg"].as_str().unwrap()),
            );
        }
    }
    found
}

#[test]
fn nothing_that_is_handed_on_is_built_from_the_tests_kit() {
    let metadata = metadata();
    let is_kit = |id: &String| {
        packages(&metadata).any(|(name, package)| name == "farsiding-testkit" && package["id"] == id.as_str())
    };
    assert!(built_from(&metadata, "farsiding-power").iter().any(is_kit), "the kit has another name");
    let own = packages(&metadata).filter(|(_, package)| package["source"].is_null());
    let tests = root().join("tests");
    for (name, _) in
        own.filter(|(_, package)| !Path::new(package["manifest_path"].as_str().unwrap()).starts_with(&tests))
    {
        assert!(!built_from(&metadata, name).iter().any(is_kit), "{name} is built from the tests' kit");
    }
}

#[test]
fn nothing_in_the_browsers_module_is_under_a_gpl() {
    let metadata = metadata();
    let module = built_from(&metadata, "farsiding-bindings");
    assert!(module.len() > 50, "only {} crates were found", module.len());
    let free_of_gpl = |licence: &str| !licence.contains("GPL");
    for (name, package) in packages(&metadata) {
        if module.contains(package["id"].as_str().unwrap()) {
            assert!(may_choose(licence(package), &free_of_gpl), "{name}: {}", licence(package));
        }
    }
    for (name, licence) in npm_packages("bindings/web").into_iter().chain(npm_packages("bindings/phone")) {
        assert!(may_choose(&licence, &free_of_gpl), "{name}: {licence}");
    }
}

/// Name and licence of every package in a folder's lock file; all must come from the registry.
fn npm_packages(folder: &str) -> Vec<(String, String)> {
    let text = std::fs::read_to_string(root().join(folder).join("package-lock.json")).unwrap();
    let lock: Value = serde_json::from_str(&text).unwrap();
    let mut found = Vec::new();
    for (path, package) in lock["packages"].as_object().unwrap() {
        let Some((_, name)) = path.rsplit_once("node_modules/") else {
            assert!(path.is_empty() || package["link"] == true, "{folder}: {path}");
            continue;
        };
        let from = package["resolved"].as_str().unwrap_or("https://registry.npmjs.org/");
        assert!(from.starts_with("https://registry.npmjs.org/"), "{name} comes from {from}");
        assert!(package["integrity"].is_string() || package["inBundle"] == true, "{name} has no digest");
        found.push((name.to_owned(), package["license"].as_str().unwrap_or("none named").to_owned()));
    }
    assert!(found.len() > 20, "{folder}: only {} packages", found.len());
    found
}

#[test]
fn every_npm_package_is_under_a_licence_that_was_looked_at() {
    let also_here = ["BlueOak-1.0.0", "CC0-1.0"]; // as free as MIT, used by build tools
    let allowed = |licence: &str| is_allowed(licence) || also_here.contains(&licence);
    for folder in ["bindings/web", "bindings/phone"] {
        for (name, licence) in npm_packages(folder) {
            let by_name = NPM_BY_NAME.iter().any(|(named, under, _)| {
                let same = name == *named || name.starts_with(&format!("{named}-"));
                same && licence == *under
            });
            assert!(by_name || may_choose(&licence, &allowed), "{folder}: {name} is under {licence}");
        }
    }
}

#[test]
fn whoever_is_handed_the_bindings_is_told_whose_work_is_in_them() {
    let notice = std::fs::read_to_string(root().join("bindings/NOTICE.txt")).unwrap();
    let words: BTreeSet<&str> = notice.split(|c: char| c.is_whitespace() || c == ',').collect();
    let shipped = NPM_BY_NAME.iter().filter(|(_, _, why)| why.ends_with("NOTICE.txt"));
    for name in BY_NAME.iter().map(|(name, _)| name).chain(shipped.map(|(name, _, _)| name)) {
        assert!(words.contains(name), "bindings/NOTICE.txt does not name {name}");
    }
    let served = std::fs::read_to_string(root().join("bindings/phone/public/NOTICE.txt")).unwrap();
    assert_eq!(served, notice, "the phone app serves another notice than bindings/NOTICE.txt");
    let bundle = std::fs::read_to_string(root().join("bindings/web/bundle.mjs")).unwrap();
    assert!(bundle.contains("NOTICE.txt"), "the browser's bundle points to no notice");
}

/// The product's own licences: both texts whole, in one place, handed on with everything that is built, and named
/// wherever a reader begins.
#[test]
fn the_texts_of_both_licences_are_there_handed_on_and_named() {
    let read =
        |path: &str| std::fs::read_to_string(root().join(path)).unwrap_or_else(|e| panic!("{path}: {e}"));
    let apache = read("core/licences/LICENSE-APACHE");
    let mit = read("core/licences/LICENSE-MIT");
    for part in [
        "Version 2.0, January 2004",
        "1. Definitions.",
        "9. Accepting Warranty",
        "END OF TERMS AND CONDITIONS",
    ] {
        assert!(apache.contains(part), "the text of Apache-2.0 lacks \"{part}\"");
    }
    for part in ["Permission is hereby granted, free of charge", "THE SOFTWARE IS PROVIDED \"AS IS\""] {
        assert!(mit.contains(part), "the text of MIT lacks \"{part}\"");
    }
    assert!(apache.contains("the Farsiding contributors") && mit.contains("the Farsiding contributors"));
    // Handed on as they are: links or copies beside what is built.
    for (folder, ending) in [("bindings/python", ""), ("bindings/phone/public", ".txt")] {
        assert_eq!(read(&format!("{folder}/LICENSE-APACHE{ending}")), apache, "{folder}");
        assert_eq!(read(&format!("{folder}/LICENSE-MIT{ending}")), mit, "{folder}");
    }
    for named in [
        "README.md",
        "bindings/NOTICE.txt",
        "bindings/kotlin/README.md",
        "bindings/python/README.md",
        "bindings/python/pyproject.toml",
        "bindings/swift/README.md",
        "bindings/web/README.md",
        "bindings/web/bundle.mjs",
    ] {
        let text = read(named);
        assert!(
            text.contains("LICENSE-APACHE") && text.contains("LICENSE-MIT"),
            "{named} names no licence text"
        );
    }
    assert!(read("bindings/kotlin/pom.xml").contains("core/licences"), "the jar holds no licence text");
    for (name, package) in packages(&metadata()).filter(|(_, package)| package["source"].is_null()) {
        assert_eq!(licence(package), "Apache-2.0 OR MIT", "{name}");
    }
}

/// Writes `target/NOTICES.txt`: every crate in what is shipped, with its licence's text as it came.
#[test]
fn every_licence_text_is_gathered_for_whoever_ships() {
    let metadata = metadata();
    let mut shipped = built_from(&metadata, "farsiding-bindings");
    shipped.extend(built_from(&metadata, "farsiding-server"));
    let (mut notices, mut without) = (String::new(), Vec::new());
    for (name, package) in packages(&metadata) {
        let foreign = package["source"].is_string() && shipped.contains(package["id"].as_str().unwrap());
        if !foreign {
            continue;
        }
        let (version, from) = (package["version"].as_str().unwrap(), &package["repository"]);
        let from = from.as_str().unwrap_or("https://crates.io");
        writeln!(notices, "=== {name} {version}, {}, {from}\n", licence(package)).unwrap();
        let texts = licence_texts(Path::new(package["manifest_path"].as_str().unwrap()).parent().unwrap());
        if texts.is_empty() {
            without.push(format!("{name} ({})", licence(package)));
            let people = package["authors"].as_array().unwrap().iter().filter_map(Value::as_str);
            writeln!(notices, "by {}\n", people.collect::<Vec<_>>().join(", ")).unwrap();
        }
        notices.extend(texts);
    }
    let file = root().join("target/NOTICES.txt");
    std::fs::write(&file, &notices).unwrap();
    println!("{}: {} bytes; crates that came without a text: {without:?}", file.display(), notices.len());
    assert!(notices.contains("=== automerge ") && notices.contains("Permission is hereby granted"));
    assert!(without.len() * 5 < shipped.len(), "too many came without a text: {without:?}");
}

fn licence_texts(folder: &Path) -> Vec<String> {
    let mut files: Vec<PathBuf> =
        std::fs::read_dir(folder).unwrap().map(|item| item.unwrap().path()).filter(|p| p.is_file()).collect();
    files.sort();
    files
        .into_iter()
        .filter(|path| {
            let name = path.file_name().unwrap().to_string_lossy().to_lowercase();
            ["licen", "copying", "notice", "unlicen"].iter().any(|start| name.starts_with(start))
        })
        .filter_map(|path| std::fs::read_to_string(path).ok())
        .map(|text| text + "\n")
        .collect()
}
