//! The `farsiding` program under test: where it is, and that it is of today's sources. Every test asks here.

use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::OnceLock;
use std::time::SystemTime;

use crate::tree::root;

/// The program under test, beside the test that asks. Where it is missing or older than what it was made of,
/// `tests/programs` makes it, with the features that all other programs of the tests have.
pub fn program() -> &'static Path {
    static PROGRAM: OnceLock<PathBuf> = OnceLock::new();
    PROGRAM.get_or_init(|| {
        let mut folder = std::env::current_exe().unwrap();
        folder.pop(); // deps
        folder.pop();
        let program = folder.join("farsiding").with_extension(std::env::consts::EXE_EXTENSION);
        if !is_of_today(&program) {
            let mut build = Command::new(root().join("tests/programs"));
            if folder.ends_with("release") {
                build.arg("--release");
            }
            let outcome = build.env("CARGO_TARGET_DIR", folder.parent().unwrap()).status().unwrap();
            assert!(outcome.success(), "the program under test does not build");
            assert!(program.exists(), "tests/programs did not make {}", program.display());
        }
        program
    })
}

/// A command of the program, with nothing of the surroundings.
pub fn farsiding(arguments: &[&str]) -> Command {
    let mut command = Command::new(program());
    command
        .args(arguments)
        .env_remove("FARSIDING_CLOCK")
        .env_remove("FARSIDING_DIR")
        .env_remove("FARSIDING_DATABASE");
    command
}

/// Whether nothing that Cargo made a program of, as Cargo wrote it down beside the program, is newer than the program.
fn is_of_today(program: &Path) -> bool {
    let written = |file: &Path| file.metadata().and_then(|found| found.modified());
    let Ok(built) = written(program) else { return false };
    let Ok(list) = std::fs::read_to_string(program.with_extension("d")) else { return false };
    let sources = sources_in(&list);
    let newest = sources.iter().map(|source| written(source).unwrap_or_else(|_| SystemTime::now())).max();
    newest.is_some_and(|newest| newest <= built)
}

/// The files behind the colon of a line as `make` reads it; a blank inside a name stands behind a backslash.
fn sources_in(list: &str) -> Vec<PathBuf> {
    let Some((_, sources)) = list.split_once(": ") else { return Vec::new() };
    let names = sources.trim_end().replace("\\ ", "\0");
    names.split(' ').filter(|name| !name.is_empty()).map(|name| name.replace('\0', " ").into()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_program_older_than_one_of_its_sources_is_not_of_today() {
        let folder = std::env::temp_dir().join(format!("farsiding-testkit-{}", std::process::id()));
        std::fs::create_dir_all(&folder).unwrap();
        let (program, source) = (folder.join("made"), folder.join("a source.rs"));
        std::fs::write(&source, "").unwrap();
        let list = |name: &Path| {
            let shown = name.to_str().unwrap().replace(' ', "\\ ");
            std::fs::write(program.with_extension("d"), format!("{}: {shown}\n", program.display())).unwrap();
        };
        list(&source);
        assert!(!is_of_today(&program), "there is none");
        std::fs::write(&program, "").unwrap();
        assert!(is_of_today(&program));
        let later = SystemTime::now() + std::time::Duration::from_secs(5);
        std::fs::File::options().write(true).open(&source).unwrap().set_modified(later).unwrap();
        assert!(!is_of_today(&program), "a source was changed");
        list(&folder.join("gone.rs"));
        assert!(!is_of_today(&program), "a source is gone");
        std::fs::remove_file(program.with_extension("d")).unwrap();
        assert!(!is_of_today(&program), "nobody knows what it was made of");
        std::fs::remove_dir_all(&folder).unwrap();
    }
}
