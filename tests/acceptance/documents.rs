//! What the documents for readers say of the tree: every file, test and type they name exists, DEVELOPERS.md can be read at
//! once, and its two pictures are drawn from the manifests and from the sources.
//!
//! A stale picture fails here. `FARSIDING_DRAW_PICTURES=1 cargo test -p farsiding-tests --test acceptance documents` draws
//! both again.

use std::collections::{BTreeMap, BTreeSet};

use farsiding_testkit::tree::{product_sources, root};

/// The folders at the top.
const PARTS: [&str; 5] = ["core/", "bindings/", "sync-server/", "tests/", "demo/"];

const DEVELOPERS: &str = "DEVELOPERS.md";
const ATTACKS: &str = "tests/hostile/ATTACKS.md";

/// Every document that leads a reader into the sources.
const DOCUMENTS: &[&str] = &[
    "README.md",
    DEVELOPERS,
    "core/AUTHORITY.md",
    "core/CHANGES.md",
    "core/DECISIONS.md",
    "tests/INVARIANTS.md",
    ATTACKS,
];

/// The words of DEVELOPERS.md that somebody reads in ten minutes, without what is drawn.
const TEN_MINUTES: usize = 2_500;

fn text_of(document: &str) -> String {
    std::fs::read_to_string(root().join(document)).unwrap_or_else(|why| panic!("{document}: {why}"))
}

/// What stands in a text between single backticks, outside blocks of code.
fn in_backticks(text: &str) -> Vec<&str> {
    text.split('`').skip(1).step_by(2).collect()
}

/// The lines of a document outside its blocks of code and its pictures.
fn lines_of(text: &str) -> Vec<&str> {
    let mut in_block = false;
    let outside = |line: &&str| {
        let fence = line.starts_with("```");
        in_block ^= fence;
        !in_block && !fence
    };
    text.lines().filter(outside).collect()
}

fn is_from_the_top(quoted: &str) -> bool {
    PARTS.iter().any(|part| quoted.starts_with(part))
}

/// Whether something in backticks is meant as the path of a file or a folder.
fn is_path(quoted: &str) -> bool {
    let endings = [".rs", ".ts", ".svelte", ".py", ".mjs", ".md", ".css", ".toml", ".java", ".kt", ".sql"];
    !quoted.contains([' ', '=', '<', '(', '*', '#'])
        && !quoted.starts_with('-')
        && (endings.iter().any(|ending| quoted.ends_with(ending)) || is_from_the_top(quoted))
}

/// What DEVELOPERS.md names beside something else, and the map, are looked at by themselves.
#[test]
fn every_file_that_a_document_names_exists() {
    let mut named = 0;
    for document in DOCUMENTS {
        let text = text_of(document);
        for line in lines_of(&text) {
            for path in in_backticks(line).into_iter().filter(|quoted| is_path(quoted)) {
                if *document == DEVELOPERS && !is_from_the_top(path) {
                    continue;
                }
                named += 1;
                assert!(root().join(path).exists(), "{document} names {path}, which is not there: {line}");
            }
        }
    }
    assert!(named > 100, "only {named} files are named");
}

#[test]
fn every_link_of_a_document_leads_somewhere() {
    for document in DOCUMENTS {
        let text = text_of(document);
        let folder = root().join(document).parent().unwrap().to_owned();
        for link in text.split("](").skip(1).filter_map(|rest| rest.split(')').next()) {
            let (path, anchor) = link.split_once('#').unwrap_or((link, ""));
            assert!(
                link.starts_with("http") || path.is_empty() || folder.join(path).exists(),
                "{document} leads to {link}"
            );
            let headings: Vec<String> = match path {
                "" => text.lines().filter(|line| line.starts_with('#')).map(anchor_of).collect(),
                _ => Vec::new(),
            };
            assert!(!path.is_empty() || headings.iter().any(|h| h == anchor), "{document} leads to {link}");
        }
    }
}

/// The name under which a heading can be linked to.
fn anchor_of(heading: &str) -> String {
    let words = heading.trim_start_matches('#').trim().to_lowercase();
    words
        .chars()
        .filter(|c| c.is_alphanumeric() || matches!(c, ' ' | '-'))
        .collect::<String>()
        .replace(' ', "-")
}

/// A test is named behind the file it stands in.
#[test]
fn every_test_that_the_invariants_name_stands_in_its_file() {
    let mut found = 0;
    for line in text_of("tests/INVARIANTS.md").lines().filter(|line| line.starts_with('|')) {
        found += tests_named_in(line);
        let file = in_backticks(line).into_iter().find(|quoted| is_path(quoted));
        let rule = line.starts_with("| |") || line.starts_with("| ---") || line.split('|').nth(2).is_none();
        assert!(rule || file.is_some() || line.contains("`authority::Judged`"), "no test holds this: {line}");
    }
    assert!(found > 8, "only {found} tests are named");
}

/// How many tests a row names, each of which stands in the file named before it.
fn tests_named_in(line: &str) -> usize {
    let (mut file, mut found) = (None, 0);
    for quoted in in_backticks(line) {
        if is_path(quoted) {
            file = Some(quoted);
        } else if quoted.matches('_').count() > 1 && !quoted.contains("::") {
            let file = file.unwrap_or_else(|| panic!("{quoted} stands behind no file: {line}"));
            let declared = format!("fn {quoted}(");
            assert!(text_of(file).contains(&declared), "{file} holds no test {quoted}");
            found += 1;
        }
    }
    found
}

/// An attack without a test would be a promise.
#[test]
fn every_attack_has_a_test_and_every_story_of_harm_is_told() {
    let (text, mut told) = (text_of(ATTACKS), BTreeSet::new());
    for line in text.lines().filter(|line| line.starts_with("| ")) {
        if line.ends_with("| test |") || line.starts_with("| ---") {
            continue;
        }
        assert!(tests_named_in(line) > 0, "no test holds this: {line}");
        told.extend(in_backticks(line));
    }
    assert!(told.len() > 80, "only {} files and tests are named", told.len());
    // Whoever writes a story against the office says here what it is about.
    for entry in std::fs::read_dir(root().join("tests/hostile/stories")).unwrap() {
        let name = entry.unwrap().file_name().into_string().unwrap();
        let path = format!("tests/hostile/stories/{name}");
        assert!(name == "mod.rs" || told.contains(path.as_str()), "{ATTACKS} does not tell of {path}");
    }
}

/// The rows of the map: under which folder they stand, and what is in backticks.
fn rows_of_the_map(text: &str) -> Vec<(String, String)> {
    let (_, map) = text.split_once("\n## Where to find a thing\n").unwrap();
    let map = map.split("\n## ").next().unwrap();
    let mut folder = None;
    let mut rows = Vec::new();
    for line in map.lines() {
        if line.starts_with("### ") {
            let named = in_backticks(line);
            folder = Some(named.first().unwrap_or_else(|| panic!("no folder: {line}")).to_string());
        } else if line.starts_with("| ") && !line.contains("| --- |") && !line.contains("| open |") {
            rows.push((folder.clone().unwrap(), line.to_owned()));
        }
    }
    rows
}

/// A path stands below the folder of its heading, or from the top of the sources. A name that is no path stands in one of
/// the files of its row.
#[test]
fn every_path_of_the_map_exists_and_every_crate_is_on_it() {
    let text = text_of(DEVELOPERS);
    let mut seen = BTreeSet::new();
    for (folder, row) in rows_of_the_map(&text) {
        assert!(root().join(&folder).is_dir(), "{folder} heads a part of the map");
        let (_, files) = row.trim_end_matches('|').rsplit_once('|').unwrap();
        let (mut texts, mut names) = (String::new(), Vec::new());
        for quoted in in_backticks(files) {
            let places = [format!("{folder}{quoted}"), quoted.to_owned()];
            match places.into_iter().find(|place| root().join(place).exists()) {
                Some(place) => {
                    texts.push_str(&std::fs::read_to_string(root().join(&place)).unwrap_or_default());
                    seen.insert(place);
                }
                None => names.push(quoted),
            }
        }
        assert!(!texts.is_empty() || names.is_empty(), "leads to no file: {row}");
        for name in names {
            assert!(!is_path(name) && !name.ends_with('/'), "{name} is not below {folder}: {row}");
            assert!(texts.contains(name), "{name} stands in no file of its row: {row}");
        }
    }
    for member in members() {
        let there = seen.iter().any(|path| path.starts_with(&format!("{member}/")));
        assert!(there, "the map leads to nothing of {member}");
    }
}

/// A type that the glossary names is declared somewhere in what is handed on.
#[test]
fn every_type_of_the_glossary_is_declared() {
    let text = text_of(DEVELOPERS);
    let (_, glossary) = text.split_once("\n## Glossary\n").unwrap();
    let sources: String = product_sources("").into_iter().map(|(_, text)| text).collect();
    let mut declared = BTreeSet::new();
    for kind in ["struct ", "enum ", "trait ", "type "] {
        for rest in sources.split(kind).skip(1) {
            declared.insert(rest.split(|c: char| !c.is_alphanumeric()).next().unwrap_or_default());
        }
    }
    // Kinds of statements, words of the vocabulary and ids are declared in lists.
    let lists =
        ["core/src/entry/statement.rs", "core/src/entry/vocabulary.rs", "core/src/ids.rs"].map(text_of);
    let listed = |name: &str| {
        let ways = [" {", "(", ", ", " as \""].map(|end| format!("\n    {name}{end}"));
        lists.iter().any(|list| ways.iter().any(|way| list.contains(way.as_str())))
    };
    let mut named = 0;
    for name in in_backticks(glossary).into_iter().filter(|name| name.starts_with(char::is_uppercase)) {
        named += 1;
        assert!(declared.contains(name) || listed(name), "no type is called {name}");
    }
    assert!(named > 40, "only {named} types are named");
}

#[test]
fn developers_md_is_read_in_ten_minutes() {
    let text = text_of(DEVELOPERS);
    let is_word = |word: &&str| word.contains(char::is_alphanumeric);
    let words: usize =
        lines_of(&text).iter().map(|line| line.split_whitespace().filter(is_word).count()).sum();
    assert!(words <= TEN_MINUTES, "{words} words: what is long belongs into a file of its own");
}

/// The folders of the workspace's crates.
fn members() -> Vec<String> {
    let manifest: toml::Table = text_of("Cargo.toml").parse().unwrap();
    let members = manifest["workspace"]["members"].as_array().unwrap();
    members.iter().map(|member| member.as_str().unwrap().to_owned()).collect()
}

/// Libraries by which a reader finds the crate that does a thing.
const TELLING: &[&str] = &[
    "automerge",
    "axum",
    "clap",
    "krilla",
    "maud",
    "reqwest",
    "rusqlite",
    "rust_xlsxwriter",
    "tokio-postgres",
    "uniffi",
    "uom",
    "x509-tsp",
];

/// What a crate's manifest lets its code name.
struct Manifest {
    /// The crate's name.
    name: String,
    /// Crates and libraries its code names, or its tests where it is made of tests.
    names: Vec<String>,
}

fn manifest_of(folder: &str) -> Manifest {
    let table: toml::Table = text_of(&format!("{folder}/Cargo.toml")).parse().unwrap();
    let name = table["package"]["name"].as_str().unwrap().to_owned();
    let names = table.get("dependencies").unwrap_or_else(|| &table["dev-dependencies"]);
    let names = names.as_table().unwrap().keys().cloned().collect();
    Manifest { name, names }
}

/// Who names whom among the crates, without what follows from other arrows.
fn arrows(crates: &BTreeMap<String, Manifest>) -> Vec<(String, String)> {
    let folder_of =
        |name: &str| crates.iter().find(|(_, m)| m.name == name).map(|(folder, _)| folder.clone());
    let direct: BTreeMap<String, Vec<String>> = crates
        .iter()
        .map(|(folder, manifest)| {
            (folder.clone(), manifest.names.iter().filter_map(|name| folder_of(name)).collect())
        })
        .collect();
    fn reaches(direct: &BTreeMap<String, Vec<String>>, from: &str, to: &str) -> bool {
        direct[from].iter().any(|next| next == to || reaches(direct, next, to))
    }
    let mut found = Vec::new();
    for (from, to) in &direct {
        let needed =
            to.iter().filter(|one| !to.iter().any(|other| other != *one && reaches(&direct, other, one)));
        found.extend(needed.map(|one| (from.clone(), one.clone())));
    }
    found
}

/// Wide boxes that stand near each other, so that a picture fits on a screen.
const FLOWCHART: &str = "%%{init: {\"flowchart\": {\"wrappingWidth\": 560, \"rankSpacing\": 28, \"padding\": 8}}}%%\nflowchart TD\n";

fn picture_of_the_crates() -> String {
    let crates: BTreeMap<String, Manifest> =
        members().into_iter().map(|folder| (folder.clone(), manifest_of(&folder))).collect();
    let id = |folder: &str| folder.replace(['/', '-'], "_");
    let mut drawn = String::from(FLOWCHART);
    for (folder, manifest) in &crates {
        let told: Vec<&str> = match folder.starts_with("tests") {
            true => Vec::new(),
            false => TELLING.iter().copied().filter(|one| manifest.names.iter().any(|n| n == one)).collect(),
        };
        let told = if told.is_empty() { String::new() } else { format!("<br/><i>{}</i>", told.join(", ")) };
        drawn.push_str(&format!("  {}[\"<b>{folder}</b>{told}\"]\n", id(folder)));
    }
    for (from, to) in arrows(&crates) {
        drawn.push_str(&format!("  {} --> {}\n", id(&from), id(&to)));
    }
    let unknown = TELLING.iter().find(|one| !crates.values().any(|m| m.names.iter().any(|n| n == **one)));
    assert!(unknown.is_none(), "no crate names {unknown:?}");
    drawn
}

/// A station of an entry's way.
struct Station {
    /// Where it is: on the phone, in the core …
    place: &'static str,
    /// The file.
    file: &'static str,
    /// What is declared there: a function, a method or a type.
    name: &'static str,
    /// What happens.
    happens: &'static str,
    /// Text of that file by which it goes on to the next station.
    goes_on: &'static str,
}

const PHONE: &str = "the phone";
const OFFICE: &str = "the office";

/// The way of one entry. Each station is seen to be declared in its file and to hand on as it says.
const WAY: &[Station] = &[
    Station {
        place: PHONE,
        file: "bindings/phone/src/state/recording.svelte.ts",
        name: "record",
        happens: "a key is tapped: the screen hands in a draft",
        goes_on: "calls.append(",
    },
    Station {
        place: PHONE,
        file: "bindings/src/book.rs",
        name: "append",
        happens: "the worker calls the book in the core",
        goes_on: ".append(read_subject(&subject)?",
    },
    Station {
        place: PHONE,
        file: "core/src/book/append.rs",
        name: "append",
        happens: "the draft becomes a body: who, when, what it follows",
        goes_on: "Entry::seal(",
    },
    Station {
        place: PHONE,
        file: "core/src/entry/envelope.rs",
        name: "seal",
        happens: "the device signs: now it is an entry",
        goes_on: "pub struct Entry",
    },
    Station {
        place: PHONE,
        file: "core/src/document/mod.rs",
        name: "add",
        happens: "the entry becomes a change of its document",
        goes_on: "&mut self, entries: &[Entry]",
    },
    Station {
        place: PHONE,
        file: "core/src/store/sqlite_write.rs",
        name: "write_all",
        happens: "entry and change are on the disk: recorded",
        goes_on: "Write::Entry",
    },
    Station {
        place: PHONE,
        file: "core/src/sync/session.rs",
        name: "request",
        happens: "signal: what has no receipt goes into a request",
        goes_on: "entries_without_receipt",
    },
    Station {
        place: OFFICE,
        file: "sync-server/office/src/http/sync_route.rs",
        name: "sync",
        happens: "the route takes the request in",
        goes_on: "door::open(",
    },
    Station {
        place: OFFICE,
        file: "sync-server/office/src/http/door.rs",
        name: "open",
        happens: "whose request it is, before anybody waits for the ledger",
        goes_on: "OpenedRequest",
    },
    Station {
        place: OFFICE,
        file: "core/src/sync/rounds.rs",
        name: "reply",
        happens: "entries and leaves of the log are kept; the reply is made from them",
        goes_on: "ReplyHead {",
    },
    Station {
        place: OFFICE,
        file: "core/src/log/reply_head.rs",
        name: "ReplyHead",
        happens: "the organisation signs the head of the reply: the receipt",
        goes_on: "fn seal(",
    },
    Station {
        place: PHONE,
        file: "core/src/sync/session.rs",
        name: "receive",
        happens: "the receipt is checked and kept: at the office",
        goes_on: "self.take_receipts(",
    },
    Station {
        place: OFFICE,
        file: "sync-server/office/src/index/indexer.rs",
        name: "follow",
        happens: "the index folds the stay again; the pages show it",
        goes_on: "fold",
    },
    Station {
        place: OFFICE,
        file: "sync-server/packet/src/gather.rs",
        name: "parts",
        happens: "an export gathers entries, receipts and proofs",
        goes_on: "Parts",
    },
    Station {
        place: OFFICE,
        file: "sync-server/packet/src/build.rs",
        name: "build",
        happens: "pages are drawn from them and sealed: the packet",
        goes_on: "draw(",
    },
    Station {
        place: "anybody",
        file: "sync-server/packet/src/lib.rs",
        name: "check_file",
        happens: "the packet is checked with the organisation's public key",
        goes_on: "check_with(",
    },
];

/// Where an entry leaves one place for another, the arrow says how.
const CROSSING: &[(usize, &str)] = &[(6, "POST /v1/sync"), (10, "reply"), (14, "PDF/A-3")];

fn picture_of_the_way() -> String {
    for Station { file, name, goes_on, .. } in WAY {
        let text = text_of(file);
        let declared = ["fn ", "struct ", "enum ", "async "].iter().any(|kind| {
            [format!("{kind}{name}("), format!("{kind}{name} "), format!("{kind}{name}<")]
                .iter()
                .any(|declaration| text.contains(declaration.as_str()))
        });
        assert!(declared, "{file} declares no {name}");
        assert!(text.contains(goes_on), "{file} no longer goes on by {goes_on}");
    }
    let mut drawn = String::from(FLOWCHART);
    for (number, Station { place, file, name, happens, .. }) in WAY.iter().enumerate() {
        drawn.push_str(&format!("  s{number}[\"<b>{place}</b>: {happens}<br/><i>{file}</i> {name}\"]\n"));
    }
    for number in 1..WAY.len() {
        let said = CROSSING.iter().find(|(from, _)| from + 1 == number).map_or("", |(_, how)| how);
        let arrow = if said.is_empty() { "-->".to_owned() } else { format!("-->|{said}|") };
        // The index and the packet follow the ledger, not the phone.
        let from = if number == 12 || number == 13 { 9 } else { number - 1 };
        drawn.push_str(&format!("  s{from} {arrow} s{number}\n"));
    }
    drawn
}

#[test]
fn the_pictures_show_what_is_there() {
    let text = text_of(DEVELOPERS);
    let mut drawn_again = text.clone();
    for (name, picture) in [("crates", picture_of_the_crates()), ("way", picture_of_the_way())] {
        let opening = format!("<!-- {name}: drawn by tests/acceptance/documents.rs -->\n```mermaid\n");
        let (before, rest) = drawn_again
            .split_once(&opening)
            .unwrap_or_else(|| panic!("DEVELOPERS.md has no place for the picture \"{name}\""));
        let (_, after) = rest.split_once("```\n").unwrap();
        drawn_again = format!("{before}{opening}{picture}```\n{after}");
    }
    if std::env::var_os("FARSIDING_DRAW_PICTURES").is_some() {
        std::fs::write(root().join(DEVELOPERS), drawn_again).unwrap();
        return;
    }
    assert!(
        text == drawn_again,
        "a picture in DEVELOPERS.md is stale: FARSIDING_DRAW_PICTURES=1 draws it again"
    );
}
