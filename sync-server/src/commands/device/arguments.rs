//! The arguments of the device commands.

use std::path::PathBuf;

use clap::{Args, Subcommand};

use farsiding_device::asked::{Attaching, Enrolling, Joining, Opening, Settling, Syncing};
use farsiding_device::forms;
use farsiding_words::Language;

use crate::commands::packet::read_language;

/// The arguments of `farsiding device`.
#[derive(Debug, Args)]
#[command(after_help = crate::outcome::EXIT_CODES)]
pub struct DeviceArguments {
    /// The device's folder; by default the one in $FARSIDING_DIR, or else ./farsiding-device.
    #[arg(long, global = true, value_name = "DIR")]
    dir: Option<PathBuf>,
    /// Print the answer as JSON.
    #[arg(long, global = true)]
    json: bool,
    /// The short code of the person who makes the entry.
    #[arg(long, global = true, value_name = "CODE")]
    pub(super) operator: Option<String>,
    #[command(subcommand)]
    pub(super) command: DeviceCommand,
}

impl DeviceArguments {
    /// Returns whether the answer is printed as JSON.
    pub fn wants_json(&self) -> bool {
        // The parser takes every word after `add VISIT KIND` as part of the statement, `--json` included.
        let in_words = match &self.command {
            DeviceCommand::Add { words, .. }
            | DeviceCommand::Person { words }
            | DeviceCommand::Rules { words }
            | DeviceCommand::Site(SiteCommand::New { words } | SiteCommand::Set { words, .. }) => {
                words.iter().any(|word| word == "--json")
            }
            _ => false,
        };
        self.json || in_words
    }

    /// Returns the path of the device's folder.
    pub(crate) fn folder(&self) -> PathBuf {
        let from_environment = || std::env::var_os("FARSIDING_DIR").map(PathBuf::from);
        self.dir.clone().or_else(from_environment).unwrap_or_else(|| PathBuf::from("farsiding-device"))
    }
}

/// The commands of `farsiding device`.
#[derive(Debug, Subcommand)]
pub enum DeviceCommand {
    /// Create a device: a folder with a key of its own.
    Init {
        /// The device's name for itself.
        #[arg(long)]
        name: Option<String>,
    },
    /// Enrol at the office with a one-time code.
    Enrol(EnrolArguments),
    /// Show which device this is, who makes the entries, and what has not reached the office yet.
    Whoami,
    /// Remember who makes the entries.
    Operator {
        /// The person's short code.
        code: String,
    },
    /// Begin a visit.
    Open(OpenArguments),
    /// Record a statement.
    #[command(after_help = forms::help())]
    Add {
        /// The visit: car number, short id or full id.
        visit: String,
        /// What to record: a kind and its words (see below), a JSON statement, or `-` to read one statement
        /// per line from standard input.
        #[arg(trailing_var_arg = true, allow_hyphen_values = true, required = true)]
        words: Vec<String>,
    },
    /// List the open visits.
    List {
        /// Also list released visits.
        #[arg(long)]
        all: bool,
    },
    /// Show a visit in full.
    Show {
        /// The visit: car number, short id or full id.
        visit: String,
        /// The language of the text: en-US, es-MX or fr-CA; English when left out.
        #[arg(long, value_name = "TAG", value_parser = read_language)]
        lang: Option<Language>,
    },
    /// List every entry of a visit with the id that other commands use for it.
    History {
        /// The visit.
        visit: String,
    },
    /// Show the next steps at a car, with cautions and with the commands that record them.
    Next {
        /// The visit.
        visit: String,
    },
    /// Find visits by a car number or a seal number.
    Find {
        /// The number of the car or of the seal.
        number: String,
    },
    /// Attach a photograph to a visit.
    Photo(PhotoArguments),
    /// Settle a disagreement: say which entry stands, and why.
    Settle(SettleArguments),
    /// Take back a settlement. What it settled is open again.
    Reopen {
        /// The visit.
        visit: String,
        /// The settlement, or an account it settled, by the beginning of its id.
        entry: String,
        /// The reason.
        #[arg(long)]
        why: String,
    },
    /// Withdraw an entry that was a mistake.
    Withdraw {
        /// The visit.
        visit: String,
        /// The entry, by the beginning of its id.
        entry: String,
        /// The reason.
        #[arg(long)]
        why: String,
    },
    /// Pass over a blocker: the problem was seen, and the car goes all the same.
    PassOver {
        /// The visit.
        visit: String,
        /// The blocker's code, as `release` and `show` name it.
        blocker: String,
        /// The reason. It is signed and stays in the record.
        #[arg(long)]
        why: String,
    },
    /// Override several items of a gate in one act.
    Override {
        /// The visit.
        visit: String,
        /// The gate: unload or release.
        gate: String,
        /// The codes of the items, as `show` names them.
        #[arg(required = true)]
        items: Vec<String>,
        /// The reason: `done_not_recorded`, `not_here`, `other_means`, `owner_says_so`, `reported`, or words. It is
        /// signed and stays in the record.
        #[arg(long)]
        reason: String,
    },
    /// Sign the stay as fit to unload, before the first closure comes out.
    FitToUnload {
        /// The visit.
        visit: String,
    },
    /// Release the car.
    Release {
        /// The visit.
        visit: String,
        /// The car was cleaned and purged. Without this option it goes as residue.
        #[arg(long)]
        cleaned: bool,
    },
    /// Record that two visits are the same stay.
    Join(JoinArguments),
    /// Describe sites: tanks, instruments, hoses, contacts and seals.
    #[command(subcommand)]
    Site(SiteCommand),
    /// Record a person of the organisation: CODE NAME [TRAINED_ON] [ACTIVE].
    Person {
        /// The words of the statement.
        #[arg(trailing_var_arg = true, allow_hyphen_values = true, required = true)]
        words: Vec<String>,
    },
    /// List the people of the organisation.
    People,
    /// List the keys people made on their phones, with their sixteen digits.
    Keys,
    /// Confirm a person's key after comparing its digits by telephone.
    ConfirmKey {
        /// The person's short code.
        person: String,
        /// The sixteen digits, as the person read them out.
        #[arg(required = true)]
        digits: Vec<String>,
    },
    /// End a person's key because it is lost, forgotten, or the person has left.
    EndKey {
        /// The person's short code.
        person: String,
        /// The first digits of the key.
        #[arg(required = true)]
        digits: Vec<String>,
        /// The reason.
        #[arg(long, required = true)]
        why: String,
    },
    /// Set when people sign and what an operator's device may do: UNLOCKING [SIGNATURE_REQUIRED]
    /// [OPERATOR_RIGHTS]. A setting that is left out does not change.
    #[command(after_help = forms::help_of(forms::RULES_FORMS))]
    Rules {
        /// The words of the statement.
        #[arg(trailing_var_arg = true, allow_hyphen_values = true, required = true)]
        words: Vec<String>,
    },
    /// Exchange records and photographs with the office.
    Sync(SyncArguments),
    /// Write visits into a file to be carried to another device.
    CarryOut {
        /// The file to write.
        file: PathBuf,
        /// The visits to write; by default all.
        visits: Vec<String>,
    },
    /// Read a carry file from another device.
    CarryIn {
        /// The file.
        file: PathBuf,
    },
    /// Show what the office has confirmed with a receipt.
    Receipts {
        /// A visit to show entry by entry.
        visit: Option<String>,
    },
    /// List what this device refused to accept.
    Quarantine {
        /// A folder to write the refused data into.
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
    /// Show what this device can prove of an entry without the office: the entry's receipt, its place in the
    /// office's log, and the signed checkpoint.
    Proof {
        /// The entry, by the beginning of its id.
        #[arg(long, value_name = "ID")]
        entry: String,
    },
    /// List what was typed and could not be recorded.
    Drafts {
        /// Delete the drafts.
        #[arg(long)]
        clear: bool,
    },
}

/// The commands of `farsiding device site`.
#[derive(Debug, Subcommand)]
pub enum SiteCommand {
    /// Describe a new site: NAME ZONE ELEVATION …
    #[command(after_help = forms::help_of(forms::SITE_FORMS))]
    New {
        /// The words of a site statement.
        #[arg(trailing_var_arg = true, allow_hyphen_values = true, required = true)]
        words: Vec<String>,
    },
    /// Add something to a site, or change something of it.
    #[command(after_help = forms::help_of(forms::SITE_FORMS))]
    Set {
        /// The site: its name or id.
        site: String,
        /// What to describe: site, tank, instrument, hose, contact or seal_stock.
        kind: String,
        /// The words of the statement.
        #[arg(trailing_var_arg = true, allow_hyphen_values = true)]
        words: Vec<String>,
    },
    /// Read a site, and the people in the file, from a TOML or JSON file.
    Load {
        /// The file: [site], [[tank]], [[instrument]], [[hose]], [[contact]], [[seal_stock]], [[operator]].
        file: PathBuf,
    },
    /// List the sites this device knows.
    List,
    /// Show a site.
    Show {
        /// The site: its name or id.
        site: String,
    },
}

/// The arguments of `farsiding device enrol`.
#[derive(Debug, Args)]
pub struct EnrolArguments {
    /// The office server's address.
    #[arg(long, value_name = "URL", required_unless_present = "text")]
    pub server: Option<String>,
    /// The one-time code.
    #[arg(long, required_unless_present = "text")]
    pub code: Option<String>,
    /// The enrolment text that holds both the address and the code.
    #[arg(value_name = "TEXT", conflicts_with_all = ["server", "code"])]
    pub text: Option<String>,
    /// A certificate (PEM) by which to trust the server, if its own is not from a public authority.
    #[arg(long, value_name = "FILE")]
    pub ca: Option<PathBuf>,
}

impl From<EnrolArguments> for Enrolling {
    fn from(typed: EnrolArguments) -> Enrolling {
        let EnrolArguments { server, code, text, ca } = typed;
        Enrolling { server, code, text, ca }
    }
}

/// The arguments of `farsiding device settle`.
#[derive(Debug, Args)]
pub struct SettleArguments {
    /// The visit.
    pub visit: String,
    /// The entry that stands, by the beginning of its id.
    #[arg(long = "keep", value_name = "ENTRY")]
    pub entry: String,
    /// The reason.
    #[arg(long)]
    pub why: String,
}

impl From<SettleArguments> for Settling {
    fn from(typed: SettleArguments) -> Settling {
        let SettleArguments { visit, entry, why } = typed;
        Settling { visit, entry, why }
    }
}

/// The arguments of `farsiding device join`.
#[derive(Debug, Args)]
pub struct JoinArguments {
    /// The visit.
    pub visit: String,
    /// The other visit.
    pub other: String,
    /// Record that the two visits were compared and are not the same stay.
    #[arg(long)]
    pub not: bool,
    /// The reason.
    #[arg(long, default_value = "")]
    pub why: String,
}

impl From<JoinArguments> for Joining {
    fn from(typed: JoinArguments) -> Joining {
        let JoinArguments { visit, other, not, why } = typed;
        Joining { visit, other, not, why }
    }
}

/// The arguments of `farsiding device open`.
#[derive(Debug, Args)]
pub struct OpenArguments {
    /// The car's number as read from the stencil.
    #[arg(long)]
    pub car: String,
    /// The site where the car stands, by its name or id.
    #[arg(long)]
    pub site: String,
    /// What receives the cargo: fixed_tank or truck.
    #[arg(long, default_value = "fixed_tank")]
    pub receiver: String,
    /// The track or spot.
    #[arg(long, default_value = "")]
    pub spot: String,
}

impl From<OpenArguments> for Opening {
    fn from(typed: OpenArguments) -> Opening {
        let OpenArguments { car, site, receiver, spot } = typed;
        Opening { car, site, receiver, spot }
    }
}

/// The arguments of `farsiding device photo`.
#[derive(Debug, Args)]
pub struct PhotoArguments {
    /// The visit: car number, short id or full id.
    pub visit: String,
    /// The picture's file.
    pub file: PathBuf,
    /// What the picture shows.
    #[arg(long, default_value = "other")]
    pub of: String,
    /// The part of the record that the picture belongs to, such as seal/housing_pin.
    #[arg(long, default_value = "")]
    pub about: String,
}

impl From<PhotoArguments> for Attaching {
    fn from(typed: PhotoArguments) -> Attaching {
        let PhotoArguments { visit, file, of, about } = typed;
        Attaching { visit, file, of, about }
    }
}

/// The arguments of `farsiding device sync`.
#[derive(Debug, Args)]
pub struct SyncArguments {
    /// The server's address, if it differs from the one the device enrolled with.
    #[arg(long, value_name = "URL")]
    pub server: Option<String>,
    /// How many times to try before giving up.
    #[arg(long, default_value_t = 5)]
    pub attempts: u32,
    /// Sync records only, without photographs.
    #[arg(long)]
    pub no_photos: bool,
    /// Also fetch photographs taken on other devices.
    #[arg(long)]
    pub fetch_photos: bool,
}

impl From<SyncArguments> for Syncing {
    fn from(typed: SyncArguments) -> Syncing {
        let SyncArguments { server, attempts, no_photos, fetch_photos } = typed;
        Syncing { server, attempts, no_photos, fetch_photos }
    }
}
