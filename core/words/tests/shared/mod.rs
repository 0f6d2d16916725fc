//! Catalogues as these tests look at them, and the sources that say what stands in them.

#![allow(
    dead_code,
    clippy::unwrap_used,
    clippy::panic,
    reason = "each test program uses a part; a failed test says so"
)]

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use farsiding_words::{Language, files};
use fluent_syntax::ast::{Entry, Expression, InlineExpression, Pattern, PatternElement};

/// One message, or one attribute of a message (`id.attribute`).
pub struct Message {
    /// The file that it stands in.
    pub file: &'static str,
    /// Its id.
    pub id: String,
    /// The names of its arguments.
    pub args: BTreeSet<String>,
    /// Its words, of all variants.
    pub text: String,
}

/// Every message of a language.
pub fn messages(language: Language) -> Vec<Message> {
    let mut all = Vec::new();
    for (file, text) in files(language) {
        let resource = fluent_syntax::parser::parse(*text).unwrap_or_else(|(read, _)| read);
        for entry in resource.body {
            let Entry::Message(message) = entry else { continue };
            if let Some(value) = &message.value {
                all.push(read(file, message.id.name.to_owned(), value));
            }
            for attribute in &message.attributes {
                let id = format!("{}.{}", message.id.name, attribute.id.name);
                all.push(read(file, id, &attribute.value));
            }
        }
    }
    all
}

fn read(file: &'static str, id: String, pattern: &Pattern<&str>) -> Message {
    let mut message = Message { file, id, args: BTreeSet::new(), text: String::new() };
    walk(pattern, &mut message);
    message
}

fn walk(pattern: &Pattern<&str>, message: &mut Message) {
    for element in &pattern.elements {
        match element {
            PatternElement::TextElement { value } => message.text.push_str(value),
            PatternElement::Placeable { expression } => expression_of(expression, message),
        }
    }
}

fn expression_of(expression: &Expression<&str>, message: &mut Message) {
    match expression {
        Expression::Inline(inline) => inline_of(inline, message),
        Expression::Select { selector, variants } => {
            inline_of(selector, message);
            for variant in variants {
                message.text.push(' ');
                walk(&variant.value, message);
            }
        }
    }
}

fn inline_of(inline: &InlineExpression<&str>, message: &mut Message) {
    match inline {
        InlineExpression::VariableReference { id } => {
            message.args.insert(id.name.to_owned());
        }
        InlineExpression::StringLiteral { value } => message.text.push_str(value),
        InlineExpression::Placeable { expression } => expression_of(expression, message),
        InlineExpression::FunctionReference { .. }
        | InlineExpression::TermReference { .. }
        | InlineExpression::MessageReference { .. } => {
            // Both renderers give plain arguments alone: what is more would differ between them.
            panic!("{}: {} refers to a function, a term or another message", message.file, message.id);
        }
        InlineExpression::NumberLiteral { .. } => {}
    }
}

/// Every source that can say a message: Rust, TypeScript, Svelte and Python of the whole tree.
pub fn sources() -> Vec<(String, String)> {
    let top = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..").canonicalize().unwrap();
    let mut found = Vec::new();
    let mut folders: Vec<PathBuf> =
        ["core", "bindings", "sync-server", "demo", "tests"].iter().map(|folder| top.join(folder)).collect();
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(&folder).unwrap() {
            let path = entry.unwrap().path();
            let name = path.file_name().unwrap().to_str().unwrap_or_default().to_owned();
            if path.is_dir() {
                if !matches!(
                    name.as_str(),
                    "node_modules" | "target" | "dist" | "golden" | "locales" | "licences"
                ) && !name.starts_with('.')
                {
                    folders.push(path);
                }
            } else if path
                .extension()
                .is_some_and(|e| matches!(e.to_str(), Some("rs" | "ts" | "mjs" | "svelte" | "py" | "toml")))
                && !name.contains(".generated.")
            {
                let text = std::fs::read_to_string(&path).unwrap_or_default();
                found.push((path.display().to_string(), text));
            }
        }
    }
    found
}
