//! The arguments of the device commands that take more than one or two words.

use std::path::PathBuf;

/// The arguments for enrolling with an office.
#[derive(Debug, Clone, Default)]
pub struct Enrolling {
    /// The office server's address.
    pub server: Option<String>,
    /// The one-time code.
    pub code: Option<String>,
    /// The enrolment text that holds both the address and the code.
    pub text: Option<String>,
    /// A certificate (PEM) by which to trust the server, if its own is not from a public authority.
    pub ca: Option<PathBuf>,
}

/// The arguments for beginning a visit.
#[derive(Debug, Clone, Default)]
pub struct Opening {
    /// The car's number as read from the stencil.
    pub car: String,
    /// The site where the car stands, by its name or id.
    pub site: String,
    /// What receives the cargo: `fixed_tank` or `truck`.
    pub receiver: String,
    /// The track or spot.
    pub spot: String,
}

/// The arguments for settling a disagreement.
#[derive(Debug, Clone, Default)]
pub struct Settling {
    /// The visit.
    pub visit: String,
    /// The entry that stands, by the beginning of its id.
    pub entry: String,
    /// The reason.
    pub why: String,
}

/// The arguments for recording that two visits are one stay.
#[derive(Debug, Clone, Default)]
pub struct Joining {
    /// The visit.
    pub visit: String,
    /// The other visit.
    pub other: String,
    /// Whether the visits were compared and are not the same stay.
    pub not: bool,
    /// The reason.
    pub why: String,
}

/// The arguments for attaching a photograph.
#[derive(Debug, Clone, Default)]
pub struct Attaching {
    /// The visit: car number, short id or full id.
    pub visit: String,
    /// The picture's file.
    pub file: PathBuf,
    /// What the picture shows.
    pub of: String,
    /// The slot the picture belongs to, such as `seal/housing_pin`.
    pub about: String,
}

/// The arguments for exchanging records and photographs with the office.
#[derive(Debug, Clone, Default)]
pub struct Syncing {
    /// The server's address, if it differs from the one the device enrolled with.
    pub server: Option<String>,
    /// How many times to try before giving up.
    pub attempts: u32,
    /// Whether to sync records only, without photographs.
    pub no_photos: bool,
    /// Whether to fetch photographs taken on other devices as well.
    pub fetch_photos: bool,
}
