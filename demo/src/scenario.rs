//! The scenario as data: who is there, and what everybody does in which scene at what time.
//!
//! A scene's lines read `HH:MM words ; words`: the time at the siding, then what is done, one statement or
//! several that belong together. The words are those of `farsiding device add`, and a few of the
//! player's own (see `player`).

use std::fs;
use std::path::{Path, PathBuf};

use farsiding_core::clock::UtcMillis;
use serde::Deserialize;

use crate::DemoError;

/// Everything that is played.
#[derive(Debug)]
pub struct Scenario {
    /// Who is there.
    pub cast: Cast,
    /// Files for `farsiding device site load`.
    pub site_files: Vec<PathBuf>,
    /// The stories, in order.
    pub stories: Vec<Story>,
}

/// Devices and what is said before the first story.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cast {
    /// Said first.
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
    /// Reads a folder: `cast.toml`, `sites/*.toml`, and every other `*.toml` as a story, in the order of
    /// their names.
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
        let scenario = Scenario { cast, site_files: in_order(&folder.join("sites"))?, stories };
        Ok(scenario)
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
