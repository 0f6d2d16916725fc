//! Which module may lean on which: no circle between the top-level modules of any crate, and in the core and its formulas
//! the order that their first pages and DEVELOPERS.md give; which libraries the two stand on.
//!
//! Only what is compiled outside tests is looked at: a test may use everything. Lines that a macro writes are not seen.

use std::collections::{BTreeMap, BTreeSet};

use farsiding_testkit::tree::{root, texts};

/// Crates whose top-level modules still lean on each other in a circle. A crate that no longer does has to come off.
const STILL_TIED: &[&str] = &[];

/// The source folder of every crate of the workspace.
fn crates() -> Vec<String> {
    let manifest: toml::Table = std::fs::read_to_string(root().join("Cargo.toml")).unwrap().parse().unwrap();
    let members = manifest["workspace"]["members"].as_array().unwrap();
    members
        .iter()
        .map(|member| format!("{}/src", member.as_str().unwrap()))
        .filter(|folder| root().join(folder).is_dir())
        .collect()
}

/// The path of a file's module inside its crate; empty for the crate's own root.
fn module_of(crate_folder: &str, path: &str) -> Vec<String> {
    let inside = path.strip_prefix(crate_folder).unwrap().trim_start_matches('/').trim_end_matches(".rs");
    let mut parts: Vec<String> = inside.split('/').map(str::to_owned).collect();
    if parts.last().is_some_and(|last| matches!(last.as_str(), "mod" | "lib" | "main")) {
        parts.pop();
    }
    parts
}

/// The text without its comments and without what is compiled for tests alone, and the names of modules that are
/// declared for tests alone.
pub fn outside_tests(text: &str) -> (String, Vec<String>) {
    let (mut kept, mut test_modules) = (String::new(), Vec::new());
    let mut lines = text.lines();
    while let Some(line) = lines.next() {
        if line.trim_start().starts_with("//") {
            continue;
        }
        if line.trim() != "#[cfg(test)]" {
            kept.push_str(line);
            kept.push('\n');
            continue;
        }
        // The item behind the attribute ends with the first line, at its own indentation, that closes it.
        let indentation = &line[..line.len() - line.trim_start().len()];
        for item in lines.by_ref() {
            let here = item.strip_prefix(indentation).is_some_and(|rest| !rest.starts_with([' ', ')', ']']));
            let declared = item.trim().trim_start_matches("pub ").strip_prefix("mod ");
            if let Some(name) = declared.and_then(|rest| rest.strip_suffix(';')) {
                test_modules.push(name.to_owned());
            }
            if here && !item.trim_start().starts_with('#') && item.ends_with([';', '}', ',']) {
                break;
            }
        }
    }
    (kept, test_modules)
}

/// The first names behind `crate::` or behind enough `super::`, those in braces as well.
fn named_from_the_root(text: &str, depth: usize) -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    let up = "super::".repeat(depth);
    for (prefix, whole) in [("crate::", "crate::"), ("super::", up.as_str())] {
        if whole.is_empty() {
            continue;
        }
        for (at, _) in text.match_indices(whole) {
            let before = text[..at].chars().next_back();
            if before.is_some_and(|c| c.is_alphanumeric() || matches!(c, '_' | ':' | '$')) {
                continue;
            }
            let behind = &text[at + whole.len()..];
            if behind.starts_with(prefix) {
                continue;
            }
            match behind.strip_prefix('{') {
                None => found.extend(first_name(behind)),
                Some(list) => found.extend(names_of_list(list)),
            }
        }
    }
    found
}

fn first_name(text: &str) -> Option<String> {
    let name: String = text.trim_start().chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect();
    (!name.is_empty()).then_some(name)
}

/// The first name of every part of a list of imports, up to the brace that closes the list.
fn names_of_list(list: &str) -> Vec<String> {
    let (mut deep, mut starts, mut found) = (0, 0, Vec::new());
    for (at, c) in list.char_indices() {
        match c {
            '{' => deep += 1,
            '}' if deep > 0 => deep -= 1,
            ',' | '}' if deep == 0 => {
                found.extend(first_name(&list[starts..at]));
                starts = at + 1;
                if c == '}' {
                    break;
                }
            }
            _ => {}
        }
    }
    found
}

/// For every top-level module of a crate those it names, each with a file that does.
type Leanings = BTreeMap<String, BTreeMap<String, String>>;

fn leanings(crate_folder: &str) -> Leanings {
    let files: Vec<(Vec<String>, String, String)> = texts(crate_folder, &[".rs"])
        .into_iter()
        .map(|(path, text)| (module_of(crate_folder, &path), path, text))
        .collect();
    let mut for_tests: Vec<Vec<String>> = Vec::new();
    let mut all = Leanings::new();
    let mut texts = Vec::new();
    for (module, path, text) in files {
        let (kept, test_modules) = outside_tests(&text);
        for_tests.extend(test_modules.into_iter().map(|name| [module.clone(), vec![name]].concat()));
        if let Some(top) = module.first() {
            all.entry(top.clone()).or_default();
        }
        texts.push((module, path, kept));
    }
    let tops: BTreeSet<String> = all.keys().cloned().collect();
    for (module, path, text) in texts {
        if for_tests.iter().any(|tests| module.starts_with(tests)) {
            continue;
        }
        let Some(top) = module.first() else { continue };
        for named in named_from_the_root(&text, module.len()) {
            if named != *top && tops.contains(&named) {
                all.entry(top.clone()).or_default().entry(named).or_insert_with(|| path.clone());
            }
        }
    }
    all
}

/// Modules of which each can be left out in turn because it leans on nothing that is still there, are in no circle;
/// what remains is, or leans on what is.
fn tied(mut leanings: Leanings) -> Leanings {
    loop {
        let there: BTreeSet<String> = leanings.keys().cloned().collect();
        let before = leanings.len();
        leanings.retain(|_, named| {
            named.retain(|name, _| there.contains(name));
            !named.is_empty()
        });
        if leanings.len() == before {
            return leanings;
        }
    }
}

#[test]
fn no_two_modules_of_a_crate_lean_on_each_other_in_a_circle() {
    for folder in crates() {
        let tied = tied(leanings(&folder));
        if STILL_TIED.contains(&folder.as_str()) {
            assert!(!tied.is_empty(), "{folder} holds no circle any longer: take it off the list");
        } else {
            assert!(tied.is_empty(), "in {folder} these lean on each other in a circle: {tied:#?}");
        }
    }
}

/// The chain `a -> b -> c` that stands in a text behind some words, up to the full stop.
fn order_in(text: &str, behind: &str) -> Vec<String> {
    let plain = text.replace("//!", " ").split_whitespace().collect::<Vec<_>>().join(" ");
    let (_, rest) = plain.split_once(behind).unwrap();
    let (chain, _) = rest.split_once('.').unwrap();
    chain
        .split("->")
        .map(|name| name.trim_matches(|c: char| !c.is_alphanumeric() && c != '_').to_owned())
        .collect()
}

#[test]
fn core_and_formulas_keep_the_order_that_their_first_pages_give() {
    let told = std::fs::read_to_string(root().join("DEVELOPERS.md")).unwrap();
    for (folder, named) in
        [("core/src", "The core's modules:"), ("core/measure/src", "The formulas' modules:")]
    {
        let first_page = std::fs::read_to_string(root().join(folder).join("lib.rs")).unwrap();
        let order = order_in(&first_page, "each depends only on those before it:");
        assert_eq!(order_in(&told, named), order, "DEVELOPERS.md says the same");
        keeps(folder, &order);
    }
}

fn keeps(folder: &str, order: &[String]) {
    let leanings = leanings(folder);
    let modules: BTreeSet<&String> = leanings.keys().collect();
    assert_eq!(modules, order.iter().collect(), "every module has its place in the order");
    let place = |name: &str| order.iter().position(|other| other == name).unwrap();
    for (module, named) in &leanings {
        for (other, path) in named {
            assert!(place(other) < place(module), "{path}: {module} comes before {other} and names it");
        }
    }
}

fn manifest(folder: &str) -> toml::Table {
    std::fs::read_to_string(root().join(folder).join("Cargo.toml")).unwrap().parse().unwrap()
}

/// The crates that a crate's manifest lets it name outside its tests.
fn dependencies(folder: &str) -> Vec<String> {
    let manifest = manifest(folder);
    for other in ["build-dependencies", "target"] {
        assert!(!manifest.contains_key(other), "{folder} names crates under {other} as well");
    }
    manifest["dependencies"].as_table().unwrap().keys().cloned().collect()
}

#[test]
fn core_and_formulas_stand_on_no_library_of_the_shells() {
    for above in ["uniffi", "axum", "tokio", "reqwest", "clap", "krilla", "getrandom"] {
        assert!(!dependencies("core").iter().any(|name| name == above), "the core names {above}");
    }
    let of_farsiding: Vec<String> =
        dependencies("core").into_iter().filter(|name| name.starts_with("farsiding")).collect();
    assert_eq!(of_farsiding, ["farsiding-measure", "farsiding-message"]);
    assert_eq!(dependencies("core/message"), ["serde", "ts-rs"]);
    assert_eq!(
        dependencies("core/measure"),
        ["farsiding-message", "serde", "serde_json", "thiserror", "ts-rs", "uom"]
    );
}

#[test]
fn types_in_typescript_are_for_the_tests_of_the_core_alone() {
    let measure = manifest("core/measure");
    assert_eq!(measure["dependencies"]["ts-rs"]["optional"].as_bool(), Some(true));
    let features = measure["features"].as_table().unwrap();
    assert_eq!(features.keys().collect::<Vec<_>>(), ["shell-types"], "nothing else switches it on");
    let core = manifest("core");
    let named = |section: &str| core[section]["farsiding-measure"].get("features").is_some();
    assert!(named("dev-dependencies") && !named("dependencies"));
    let shared = &manifest("")["workspace"]["dependencies"]["farsiding-measure"];
    assert!(shared.get("features").is_none(), "{shared:?}");
}

#[test]
fn a_circle_is_seen_however_it_is_written() {
    let lists =
        "use crate::{a::B, c::{D, e}, f};\nuse crate::g::H;\npub use crate::i;\n fn x() -> crate::j::K {}";
    let names = ["a", "c", "f", "g", "i", "j"].map(str::to_owned);
    assert_eq!(named_from_the_root(lists, 1), BTreeSet::from(names));
    let ups = "use super::super::a::B; use super::c; use super::super::super::d;";
    assert_eq!(named_from_the_root(ups, 2), BTreeSet::from(["a".to_owned()]));
    let tests = "use a;\n#[cfg(test)]\nmod tests;\n// crate::b\nuse c;\n#[cfg(test)]\nmod inside {\n    use d;\n}\nuse e;\n";
    let (kept, modules) = outside_tests(tests);
    assert_eq!((kept.as_str(), modules), ("use a;\nuse c;\nuse e;\n", vec!["tests".to_owned()]));
    let leaning = |pairs: &[(&str, &str)]| {
        let mut all = Leanings::new();
        for (one, other) in pairs {
            all.entry((*other).to_owned()).or_default();
            all.entry((*one).to_owned()).or_default().insert((*other).to_owned(), String::new());
        }
        all
    };
    assert!(tied(leaning(&[("a", "b"), ("b", "c"), ("a", "c")])).is_empty());
    assert_eq!(tied(leaning(&[("a", "b"), ("b", "c"), ("c", "b"), ("d", "e")])).len(), 3);
}
