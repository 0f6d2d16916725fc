//! The scenario as data: who is there, and what everybody does in which scene at what time.
//!
//! A scene's lines read `HH:MM words ; words`: the time at the siding, then what is done, one statement or
//! several that belong together. The words are those of `farsiding device add`, and a few of the
//! player's own (see `player`).

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use farsiding_core::clock::UtcMillis;
use serde::Deserialize;

use crate::DemoError;
use crate::own_procedure::OwnProcedure;

/// Everything that is played.
#[derive(Debug)]
pub struct Scenario {
    /// Who is there.
    pub cast: Cast,
    /// Files for `farsiding device site load`.
    pub site_files: Vec<PathBuf>,
    /// The organisation's own procedures, by the names of their files.
    pub procedures: BTreeMap<String, OwnProcedure>,
    /// The stories, in order.
    pub stories: Vec<Story>,
}

/// Devices and what is said before the first story.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cast {
    /// Attribution first.
    pub told: String,
    /// The devices.
    pub device: Vec<CastDevice>,
}

/// A device of the scenario.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CastDevice {
    /// Its name and its folder's.
    pub name: String,
    /// `operator` or `office`.
    pub role: String,
    /// Who carries it.
    pub operator: String,
    /// That person's name, for the story.
    pub person: String,
}

/// A car's stay.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Story {
    /// What it is about, in a few words.
    pub title: String,
    /// What to know before it begins.
    pub told: String,
    /// The car's number.
    pub car: String,
    /// The site's name.
    pub site: String,
    /// Offset of the site from UTC, `-06:00`.
    pub offset: String,
    /// The scenes.
    pub scene: Vec<Scene>,
}

/// Some lines by one person on one device.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Scene {
    /// A heading.
    pub title: String,
    /// What happens, in plain words.
    #[serde(default)]
    pub told: String,
    /// The day, `YYYY-MM-DD`.
    pub date: String,
    /// The device.
    pub on: String,
    /// Who speaks, when it is not the device's usual person.
    #[serde(default)]
    pub by: Option<String>,
    /// Minutes the device's clock is ahead of the true time from now on.
    #[serde(default)]
    pub clock_ahead_minutes: Option<i64>,
    /// The lines.
    pub does: String,
}

/// One line of a scene.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// When.
    pub at: UtcMillis,
    /// The time as written, `HH:MM`.
    pub clock: String,
    /// What is done, each in words.
    pub acts: Vec<Vec<String>>,
}

fn refuse(place: &Path, why: impl ToString) -> DemoError {
    DemoError::Scenario { place: place.display().to_string(), why: why.to_string() }
}

fn read<T: serde::de::DeserializeOwned>(file: &Path) -> Result<T, DemoError> {
    let text = fs::read_to_string(file).map_err(|e| refuse(file, e))?;
    toml::from_str(&text).map_err(|e| refuse(file, e))
}

impl Scenario {
    /// Reads a folder: `cast.toml`, `sites/*.toml`, `procedures/*.toml`, and every other `*.toml` as a story, in
    /// the order of their names.
    ///
    /// # Errors
    /// [`DemoError::Scenario`] naming the file.
    pub fn read(folder: &Path) -> Result<Scenario, DemoError> {
        let in_order = |folder: &Path| -> Result<Vec<PathBuf>, DemoError> {
            let mut files = Vec::new();
            for item in fs::read_dir(folder).map_err(|e| refuse(folder, e))? {
                files.push(item?.path());
            }
            files.retain(|file| file.extension().is_some_and(|e| e == "toml"));
            files.sort();
            Ok(files)
        };
        let cast = read(&folder.join("cast.toml"))?;
        let mut stories = Vec::new();
        for file in in_order(folder)?.iter().filter(|file| !file.ends_with("cast.toml")) {
            let story: Story = read(file)?;
            for scene in &story.scene {
                scene.lines(&story.offset).map_err(|error| refuse(file, error))?;
            }
            stories.push(story);
        }
        let mut procedures = BTreeMap::new();
        for file in in_order(&folder.join("procedures"))? {
            let name = file.file_stem().unwrap_or_default().to_string_lossy().into_owned();
            procedures.insert(name, read(&file)?);
        }
        let site_files = in_order(&folder.join("sites"))?;
        Ok(Scenario { cast, site_files, procedures, stories })
    }

    /// The time of the first line, an hour early: everything is enrolled before it.
    pub fn begins(&self) -> UtcMillis {
        let first = self.stories.first().and_then(|story| {
            let lines = story.scene.first()?.lines(&story.offset).ok()?;
            lines.first().map(|line| line.at)
        });
        UtcMillis(first.map_or(0, |at| at.0 - 3_600_000))
    }
}

impl Scene {
    /// The lines, with their times.
    ///
    /// # Errors
    /// [`DemoError::Scenario`] naming the line.
    pub fn lines(&self, offset: &str) -> Result<Vec<Line>, DemoError> {
        let mut lines: Vec<Line> = Vec::new();
        for text in self.does.lines().map(str::trim).filter(|l| !l.is_empty() && !l.starts_with('#')) {
            let refuse = |why: &str| DemoError::Scenario {
                place: format!("\"{}\", line \"{text}\"", self.title),
                why: why.to_owned(),
            };
            let (clock, rest) =
                text.split_once(' ').ok_or_else(|| refuse("a line is a time and what is done"))?;
            let at = UtcMillis::read(&format!("{}T{clock}:00{offset}", self.date))
                .ok_or_else(|| refuse("it does not begin with HH:MM"))?;
            if lines.last().is_some_and(|before| before.at > at) {
                return Err(refuse("it comes before the line above it"));
            }
            let words = shlex::split(rest).ok_or_else(|| refuse("a quotation mark is missing"))?;
            let acts: Vec<Vec<String>> = words.split(|word| word == ";").map(<[String]>::to_vec).collect();
            if acts.iter().any(Vec::is_empty) {
                return Err(refuse("nothing is done"));
            }
            lines.push(Line { at, clock: clock.to_owned(), acts });
        }
        Ok(lines)
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;

    fn scene(does: &str) -> Scene {
        let text = format!("title = \"t\"\ndate = \"2026-11-09\"\non = \"phone-1\"\ndoes = '''\n{does}\n'''");
        toml::from_str(&text).unwrap()
    }

    #[test]
    fn the_scenario_is_whole_and_says_that_it_is_invented() {
        let scenario = Scenario::read(Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/scenario"))).unwrap();
        assert_eq!(
            (scenario.stories.len(), scenario.cast.device.len(), scenario.site_files.len()),
            (5, 4, 3)
        );
        assert!(scenario.procedures.values().all(|own| own.edition.contains("invented")));
        assert!(scenario.cast.told.contains("INVENTED"));
        assert!(scenario.stories.iter().all(|story| story.site.contains("invented")));
        let days: Vec<&str> =
            scenario.stories.iter().flat_map(|s| s.scene.first()).map(|s| s.date.as_str()).collect();
        assert!(days.is_sorted(), "{days:?}");
    }

    #[test]
    fn a_line_is_a_time_and_what_is_done_in_words() {
        let lines =
            scene("06:42 valve vapour shut ; listen vapour quiet\n# aside\n06:43 remark \"two words\"")
                .lines("-06:00")
                .unwrap();
        assert_eq!(lines[0].at.rfc3339(), "2026-11-09T12:42:00Z");
        assert_eq!(lines[0].acts, [vec!["valve", "vapour", "shut"], vec!["listen", "vapour", "quiet"]]);
        assert_eq!(lines[1].acts, [vec!["remark", "two words"]]);
    }

    #[test]
    fn a_line_that_goes_back_in_time_or_is_cut_short_is_refused() {
        for wrong in ["06:42 sync\n06:41 sync", "06:42", "6.42 sync", "06:42 remark \"open", "06:42 sync ; "]
        {
            assert!(scene(wrong).lines("-06:00").is_err(), "{wrong}");
        }
    }
}
