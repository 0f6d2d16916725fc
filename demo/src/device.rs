//! A device of the scenario: a real device folder, its book opened with a clock set by hand.
//!
//! Entries go through the book in this process; everything with the network goes through the `farsiding`
//! program, so that afterwards `farsiding device show --dir …` finds what it would find on any device.

use std::path::{Path, PathBuf};

use farsiding_core::book::{Book, BookParts};
use farsiding_core::clock::{HandSetClock, UtcMillis};
use farsiding_core::entry::DeviceKey;
use farsiding_core::ids::{OperatorId, VisitId};
use farsiding_core::store::{Durability, SqliteStore};
use farsiding_host::SystemRandomness;
use farsiding_host::private_file;

use crate::DemoError;
use crate::office;

/// A device.
#[derive(Debug)]
pub struct Device {
    /// Its name.
    pub name: String,
    /// Who carries it.
    pub operator: OperatorId,
    /// The visits opened on it, by car number as typed.
    pub opened: Vec<(String, VisitId)>,
    folder: PathBuf,
    clock: HandSetClock,
    offset_minutes: i16,
    ahead_minutes: i64,
    book: Option<Book>,
}

impl Device {
    /// Makes the device's folder and enrols it.
    ///
    /// # Errors
    /// The program's.
    pub fn make(
        folder: &Path,
        name: &str,
        operator: &str,
        enrolment: &str,
        at: UtcMillis,
    ) -> Result<Device, DemoError> {
        let mut device = Device {
            name: name.to_owned(),
            operator: OperatorId(operator.to_owned()),
            opened: Vec::new(),
            folder: folder.to_owned(),
            clock: HandSetClock::at(at, 0),
            offset_minutes: 0,
            ahead_minutes: 0,
            book: None,
        };
        device.run(&["init", "--name", name, "--operator", operator])?;
        device.run(&["enrol", enrolment])?;
        Ok(device)
    }

    /// Puts the true time; the device's clock shows it with its own error.
    pub fn set_clock(&mut self, at: UtcMillis, offset: &str) {
        let minutes = offset_minutes(offset);
        if minutes != self.offset_minutes {
            self.offset_minutes = minutes;
            self.book = None; // a clock's offset is fixed; the book is opened again with the new one
        }
        self.clock = match &self.book {
            Some(_) => self.clock.clone(),
            None => HandSetClock::at(at, minutes),
        };
        self.clock.set(UtcMillis(at.0 + self.ahead_minutes * 60_000));
    }

    /// Puts the clock wrong by this much from now on.
    pub fn put_clock_ahead(&mut self, minutes: i64) {
        self.ahead_minutes = minutes;
    }

    /// The device's folder.
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// The book.
    ///
    /// # Errors
    /// The disk's.
    pub fn book(&mut self) -> Result<&mut Book, DemoError> {
        let book = match self.book.take() {
            Some(book) => book,
            None => self.open_book()?,
        };
        Ok(self.book.insert(book))
    }

    fn open_book(&self) -> Result<Book, DemoError> {
        let file = self.folder.join("record.db");
        let store = SqliteStore::open(&file.to_string_lossy(), Durability::WriteAheadLog)?;
        let secret = private_file::read_secret(&self.folder.join("device.key"))?;
        let randomness = SystemRandomness::new().map_err(std::io::Error::other)?;
        Ok(Book::open(BookParts {
            store: Box::new(store),
            key: DeviceKey::from_secret(secret),
            clock: Box::new(self.clock.clone()),
            randomness: Box::new(randomness),
        }))
    }

    /// Runs `farsiding device --dir THIS …` at the device's own time.
    ///
    /// # Errors
    /// The program's.
    pub fn run(&mut self, arguments: &[&str]) -> Result<String, DemoError> {
        self.book = None; // one process at a time makes entries
        let folder = self.folder.to_string_lossy().into_owned();
        let mut all = vec!["device", "--dir", &folder, "--operator", &self.operator.0];
        all.extend_from_slice(arguments);
        // Its clock stands still while the command runs, as the server's does.
        let clock = self.folder.with_extension("clock");
        std::fs::write(&clock, self.shown_time())?;
        office::run(&all, &format!("@{}", clock.display()))
    }

    /// The time as the device shows it.
    fn shown_time(&self) -> String {
        use farsiding_core::clock::Clock as _;
        let (at, minutes) = self.clock.now();
        let local = UtcMillis(at.0 + i64::from(minutes) * 60_000).rfc3339();
        let sign = if minutes < 0 { '-' } else { '+' };
        let minutes = minutes.unsigned_abs();
        format!("{}{sign}{:02}:{:02}", local.trim_end_matches('Z'), minutes / 60, minutes % 60)
    }
}

/// `-06:30` as minutes.
pub fn offset_minutes(offset: &str) -> i16 {
    let digits = offset.trim_start_matches(['-', '+']);
    let (hours, minutes) = digits.split_once(':').unwrap_or((digits, "0"));
    let minutes = hours.parse::<i16>().unwrap_or(0) * 60 + minutes.parse::<i16>().unwrap_or(0);
    if offset.starts_with('-') { -minutes } else { minutes }
}
