//! Lists the catalogues: every folder of `locales` is a language, and every `.ftl` file below it is read. So a language
//! is added by one folder of files.

#![allow(clippy::expect_used, reason = "a build that cannot read its catalogues stops")]

use std::fmt::Write as _;
use std::path::{Path, PathBuf};

fn main() {
    let top = PathBuf::from(std::env::var("CARGO_MANIFEST_DIR").expect("cargo names the crate's folder"));
    let locales = top.join("locales");
    println!("cargo::rerun-if-changed={}", locales.display());
    let mut list = String::from("&[\n");
    for language in sorted(&locales) {
        let name = file_name(&language);
        let _ = writeln!(list, "    (\"{name}\", &[");
        for file in sorted(&language).into_iter().filter(|file| file.extension().is_some_and(|e| e == "ftl"))
        {
            println!("cargo::rerun-if-changed={}", file.display());
            let _ = writeln!(list, "        (\"{}\", include_str!({file:?})),", file_name(&file));
        }
        list.push_str("    ]),\n");
    }
    list.push(']');
    let out = PathBuf::from(std::env::var("OUT_DIR").expect("cargo names a folder for what is made"));
    std::fs::write(out.join("catalogues.rs"), list).expect("the list of catalogues is written");
}

fn sorted(folder: &Path) -> Vec<PathBuf> {
    let mut files: Vec<PathBuf> = std::fs::read_dir(folder)
        .expect("the folder of catalogues is there")
        .map(|entry| entry.expect("a file of the catalogues").path())
        .collect();
    files.sort();
    files
}

fn file_name(path: &Path) -> String {
    path.file_name().expect("a file has a name").to_string_lossy().into_owned()
}
