//! The tree of sources, for tests that read it. A folder that a test names and that is gone, or in which nothing of what
//! was asked for lies, ends the test: whoever moves a folder finds every rule that was about it.

use std::path::{Path, PathBuf};

/// The top of the sources.
pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).ancestors().nth(2).unwrap().to_owned()
}

/// Folders in which nothing lies that people write.
const NOT_WRITTEN: &[&str] = &["target", "node_modules", "generated", "dist", "build", "__pycache__"];

/// Every file that people write below a folder and whose name has one of these endings: its path from the top, with
/// slashes, and its text.
pub fn texts(under: &str, endings: &[&str]) -> Vec<(String, String)> {
    let text = |path: &String| std::fs::read_to_string(root().join(path)).unwrap();
    paths(under, endings).into_iter().map(|path| (path.clone(), text(&path))).collect()
}

/// The paths of [`texts`].
pub fn paths(under: &str, endings: &[&str]) -> Vec<String> {
    let (mut found, mut waiting) = (Vec::new(), vec![root().join(under)]);
    while let Some(folder) = waiting.pop() {
        let items = std::fs::read_dir(&folder);
        let items = items.unwrap_or_else(|why| panic!("{}, which a rule is about: {why}", folder.display()));
        for item in items {
            let path = item.unwrap().path();
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            if path.is_dir() {
                if !NOT_WRITTEN.contains(&name.as_str()) && !name.starts_with('.') {
                    waiting.push(path);
                }
            } else if endings.iter().any(|ending| name.ends_with(ending)) {
                found.push(path.strip_prefix(root()).unwrap().to_string_lossy().replace('\\', "/"));
            }
        }
    }
    assert!(!found.is_empty(), "a rule is about {endings:?} below \"{under}\", and there are none");
    found.sort();
    found
}

/// The folders of the packages that are handed on: all but those of the tests.
pub fn product_packages() -> Vec<String> {
    let manifests = texts("", &["Cargo.toml"]).into_iter();
    let packages = manifests.filter(|(path, text)| text.contains("[package]") && !path.starts_with("tests/"));
    let folders: Vec<String> =
        packages.map(|(path, _)| path.trim_end_matches("/Cargo.toml").to_owned()).collect();
    assert!(folders.len() > 3, "only {folders:?} are handed on");
    folders
}

/// Every Rust file of what is handed on, tests beside the sources included, of the packages in or below a folder; of all
/// packages where the folder is "".
pub fn product_sources(folder: &str) -> Vec<(String, String)> {
    let inside = |package: &String| {
        folder.is_empty() || package == folder || package.starts_with(&format!("{folder}/"))
    };
    let packages: Vec<String> = product_packages().into_iter().filter(inside).collect();
    assert!(!packages.is_empty(), "a rule is about the packages below \"{folder}\", and there are none");
    packages.iter().flat_map(|package| texts(&format!("{package}/src"), &[".rs"])).collect()
}
