//! The phone's TypeScript types of the core's views, generated from the Rust records.
//!
//! `bindings/phone/src/core/views.generated.ts` contains what this test generates for every record that is
//! passed to a shell as JSON, and for all types that these records consist of. `FARSIDING_WRITE_TYPES=1 cargo
//! test -p farsiding-core shell_types` writes the file; without that variable the test fails if the committed
//! file is outdated.
#![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]

use std::collections::BTreeMap;
use std::path::Path;

use ts_rs::{Config, TS, TypeVisitor};

use super::{Draft, OpenVisit, PeopleHere};
use crate::view::{GuidedVisit, Person, PreviewedVisit, SiteView, VisitRow};

const FILE: &str = "../bindings/phone/src/core/views.generated.ts";
const HEAD: &str = "// @generated from the Rust views by core/src/book/shell_types_tests.rs. Do not edit.\n";

/// Every declared type that is reached, by its name.
struct Reached {
    config: Config,
    declared: BTreeMap<String, String>,
}

impl TypeVisitor for Reached {
    fn visit<T: TS + 'static + ?Sized>(&mut self) {
        // Only named types have an output path; all others are written inline.
        if T::output_path().is_none() {
            return;
        }
        let declared = format!("{}export {}\n", T::docs().unwrap_or_default(), T::decl(&self.config));
        match self.declared.insert(T::ident(&self.config), declared.clone()) {
            Some(known) => assert_eq!(known, declared, "two records have one name: rename one of them"),
            None => {
                T::visit_dependencies(self);
                T::visit_generics(self);
            }
        }
    }
}

/// Formats the declarations one after the other, with each field on its own line.
fn laid_out(declared: &BTreeMap<String, String>) -> String {
    let mut text = String::from(HEAD);
    for declaration in declared.values() {
        text.push('\n');
        let (mut depth, mut doc) = (0_usize, Vec::new());
        for line in declaration.lines().map(str::trim) {
            let pad = "  ".repeat(depth);
            match (line, doc.is_empty()) {
                ("/**", true) => doc.push(pad.clone()),
                ("*/", false) => text.push_str(&documentation(&std::mem::take(&mut doc))),
                (line, false) => doc.push(line.trim_start_matches('*').trim().to_owned()),
                ("", true) => {}
                (line, true) => {
                    text.push_str(&format!("{pad}{}\n", never_null(line)));
                    depth = (depth + line.matches('{').count()).saturating_sub(line.matches('}').count());
                }
            }
        }
    }
    text
}

/// Returns the documentation comment with these lines; the first one is the indentation.
fn documentation(lines: &[String]) -> String {
    match lines {
        [pad, line] => format!("{pad}/** {line} */\n"),
        [pad, lines @ ..] => {
            let lines: Vec<String> =
                lines.iter().map(|line| format!("{pad} * {line}").trim_end().to_owned()).collect();
            format!("{pad}/**\n{}\n{pad} */\n", lines.join("\n"))
        }
        [] => String::new(),
    }
}

/// A field that may be omitted is omitted if it has no value, and is never written as null.
fn never_null(line: &str) -> String {
    let mut parts = line.split("?: ");
    let mut text = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        let end = part.find([',', '}']).unwrap_or(part.len());
        let (kind, rest) = part.split_at(end);
        text.push_str("?: ");
        text.push_str(kind.strip_suffix(" | null").unwrap_or(kind));
        text.push_str(rest);
    }
    text
}

#[test]
fn the_phones_types_are_those_of_the_views() {
    let config = Config::new().with_large_int("number");
    let mut reached = Reached { config, declared: BTreeMap::new() };
    reached.visit::<GuidedVisit>();
    reached.visit::<PreviewedVisit>();
    reached.visit::<VisitRow>();
    reached.visit::<SiteView>();
    reached.visit::<Person>();
    reached.visit::<PeopleHere>();
    reached.visit::<Draft>();
    reached.visit::<OpenVisit>();
    reached.visit::<crate::Message>();
    reached.visit::<crate::Arg>();
    reached.visit::<crate::Joint>();
    let fresh = laid_out(&reached.declared);
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join(FILE);
    if std::env::var_os("FARSIDING_WRITE_TYPES").is_some() {
        std::fs::write(&file, &fresh).unwrap();
    }
    let committed = std::fs::read_to_string(&file).unwrap_or_default();
    assert!(
        committed == fresh,
        "{} is stale: run FARSIDING_WRITE_TYPES=1 cargo test -p farsiding-core shell_types",
        file.display()
    );
}
