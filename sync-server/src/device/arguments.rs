//! The device commands as typed.

use std::path::PathBuf;

use clap::{Args, Subcommand};

use super::forms;

/// `farsiding device …`
#[derive(Debug, Args)]
pub struct DeviceArguments {
    /// The device's folder; else $FARSIDING_DIR, else ./farsiding-device.
    #[arg(long, global = true, value_name = "DIR")]
    dir: Option<PathBuf>,
    /// Answer in JSON.
    #[arg(long, global = true)]
    json: bool,
    /// Who makes the entry: the short code the organisation knows you by.
    #[arg(long, global = true, value_name = "CODE")]
    pub(super) operator: Option<String>,
    #[command(subcommand)]
    pub(super) command: DeviceCommand,
}

impl DeviceArguments {
    /// Whether the answer is to be JSON.
    pub fn wants_json(&self) -> bool {
        // Behind `add VISIT KIND` everything is words, `--json` included.
        let in_words = match &self.command {
            DeviceCommand::Add { words, .. } => words.iter().any(|word| word == "--json"),
            _ => false,
        };
        self.json || in_words
    }

    /// The device's folder.
    pub(super) fn folder(&self) -> PathBuf {
        let from_environment = || std::env::var_os("FARSIDING_DIR").map(PathBuf::from);
        self.dir.clone().or_else(from_environment).unwrap_or_else(|| PathBuf::from("farsiding-device"))
    }
}

/// What a device can be told.
#[derive(Debug, Subcommand)]
pub enum DeviceCommand {
    /// Make a device: a folder and a key of its own.
    Init {
        /// What it calls itself.
        #[arg(long)]
        name: Option<String>,
    },
    /// Enrol with the office by a one-time code.
    Enrol {
        /// The office server's address.
        #[arg(long, value_name = "URL", required_unless_present = "text")]
        server: Option<String>,
        /// The code.
        #[arg(long, required_unless_present = "text")]
        code: Option<String>,
        /// The all-in-one text instead of both.
        #[arg(value_name = "TEXT", conflicts_with_all = ["server", "code"])]
        text: Option<String>,
    },
    /// Say which device this is, who is speaking, and what is not at the office yet.
    Whoami,
    /// Remember who makes the entries.
    Operator {
        /// The short code.
        code: String,
    },
    /// Begin a visit.
    Open(OpenArguments),
    /// Record a statement.
    #[command(after_help = forms::help())]
    Add {
        /// The visit: car number, short id or full id.
        visit: String,
        /// What to record: a kind and its words (see below), a JSON statement, or `-` for one a line
        /// from standard input.
        #[arg(trailing_var_arg = true, allow_hyphen_values = true, required = true)]
        words: Vec<String>,
    },
    /// List visits.
    List {
        /// Released and joined ones as well.
        #[arg(long)]
        all: bool,
    },
    /// Show a visit in full.
    Show {
        /// The visit: car number, short id or full id.
        visit: String,
    },
    /// Attach a photograph.
    Photo(PhotoArguments),
    /// Exchange records and photographs with the office.
    Sync(SyncArguments),
}

/// `device open`
#[derive(Debug, Args)]
pub struct OpenArguments {
    /// The car's number as read from the stencil.
    #[arg(long)]
    pub car: String,
    /// Where it stands: a site's name or id.
    #[arg(long)]
    pub site: String,
    /// What receives the cargo: fixed_tank or truck.
    #[arg(long, default_value = "fixed_tank")]
    pub receiver: String,
    /// Track or spot.
    #[arg(long, default_value = "")]
    pub spot: String,
}

/// `device photo`
#[derive(Debug, Args)]
pub struct PhotoArguments {
    /// The visit: car number, short id or full id.
    pub visit: String,
    /// The picture's file.
    pub file: PathBuf,
    /// What it shows.
    #[arg(long, default_value = "other")]
    pub of: String,
    /// The slot it belongs to, such as seal/housing_pin.
    #[arg(long, default_value = "")]
    pub about: String,
}

/// `device sync`
#[derive(Debug, Args)]
pub struct SyncArguments {
    /// The server's address, when it is another than the one enrolled with.
    #[arg(long, value_name = "URL")]
    pub server: Option<String>,
    /// How often to try before giving up for now.
    #[arg(long, default_value_t = 5)]
    pub attempts: u32,
    /// Records only, photographs another time.
    #[arg(long)]
    pub no_photos: bool,
}
