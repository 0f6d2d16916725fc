//! What a device is asked to do, where that takes more than a word or two.

use std::path::PathBuf;

/// To enrol with an office.
#[derive(Debug, Clone, Default)]
pub struct Enrolling {
    /// The office server's address.
    pub server: Option<String>,
    /// The one-time code.
    pub code: Option<String>,
    /// The all-in-one text instead of both.
    pub text: Option<String>,
    /// Certificate (PEM) the server is trusted by, when it is not a public one.
    pub ca: Option<PathBuf>,
}

/// To begin a visit.
#[derive(Debug, Clone, Default)]
pub struct Opening {
    /// The car's number as read from the stencil.
    pub car: String,
    /// Where it stands: a site's name or id.
    pub site: String,
    /// What receives the cargo: `fixed_tank` or `truck`.
    pub receiver: String,
    /// Track or spot.
    pub spot: String,
}

/// To settle a disagreement.
#[derive(Debug, Clone, Default)]
pub struct Settling {
    /// The visit.
    pub visit: String,
    /// The entry that stands, by the beginning of its id.
    pub entry: String,
    /// Why.
    pub why: String,
}

/// To say that two visits are one stay.
#[derive(Debug, Clone, Default)]
pub struct Joining {
    /// The visit.
    pub visit: String,
    /// The other visit.
    pub other: String,
    /// They were compared and are not the same stay.
    pub not: bool,
    /// Why.
    pub why: String,
}

/// To attach a photograph.
#[derive(Debug, Clone, Default)]
pub struct Attaching {
    /// The visit: car number, short id or full id.
    pub visit: String,
    /// The picture's file.
    pub file: PathBuf,
    /// What it shows.
    pub of: String,
    /// The slot it belongs to, such as `seal/housing_pin`.
    pub about: String,
}

/// To exchange records and photographs with the office.
#[derive(Debug, Clone, Default)]
pub struct Syncing {
    /// The server's address, when it is another than the one enrolled with.
    pub server: Option<String>,
    /// How often to try before giving up for now.
    pub attempts: u32,
    /// Records only, photographs another time.
    pub no_photos: bool,
    /// Fetch photographs taken elsewhere as well.
    pub fetch_photos: bool,
}
