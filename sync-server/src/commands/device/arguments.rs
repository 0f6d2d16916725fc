//! The device commands as typed.

use std::path::PathBuf;

use clap::{Args, Subcommand};

use farsiding_device::asked::{Attaching, Enrolling, Joining, Opening, Settling, Syncing};
use farsiding_device::forms;

/// `farsiding device …`
#[derive(Debug, Args)]
#[command(after_help = crate::outcome::EXIT_CODES)]
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

    /// The device's folder.
    pub(crate) fn folder(&self) -> PathBuf {
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
    Enrol(EnrolArguments),
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
        /// Released ones as well.
        #[arg(long)]
        all: bool,
    },
    /// Show a visit in full.
    Show {
        /// The visit: car number, short id or full id.
        visit: String,
    },
    /// Every entry of a visit with the id it is addressed by.
    History {
        /// The visit.
        visit: String,
    },
    /// What comes next at a car, with cautions and the commands that record it.
    Next {
        /// The visit.
        visit: String,
    },
    /// Find visits by a car's number or a seal's.
    Find {
        /// The number.
        number: String,
    },
    /// Attach a photograph.
    Photo(PhotoArguments),
    /// Settle a disagreement: say which entry stands, and why.
    Settle(SettleArguments),
    /// Take a settlement back, with a reason: what it settled is open again.
    Reopen {
        /// The visit.
        visit: String,
        /// The settlement or an account it settled, by the beginning of its id.
        entry: String,
        /// Why.
        #[arg(long)]
        why: String,
    },
    /// Take an entry back that was a mistake.
    Withdraw {
        /// The visit.
        visit: String,
        /// The entry, by the beginning of its id.
        entry: String,
        /// Why.
        #[arg(long)]
        why: String,
    },
    /// Pass over a blocker: it was seen, and the car goes all the same.
    PassOver {
        /// The visit.
        visit: String,
        /// The blocker's code, as `release` and `show` name it.
        blocker: String,
        /// Why. It is signed and stays in the record.
        #[arg(long)]
        why: String,
    },
    /// Release the car.
    Release {
        /// The visit.
        visit: String,
        /// Cleaned and purged; otherwise it goes as residue.
        #[arg(long)]
        cleaned: bool,
    },
    /// Say that two visits are one stay.
    Join(JoinArguments),
    /// Sites: tanks, instruments, hoses, contacts, seals.
    #[command(subcommand)]
    Site(SiteCommand),
    /// Record a person of the organisation: CODE NAME [TRAINED_ON] [ACTIVE].
    Person {
        /// The words.
        #[arg(trailing_var_arg = true, allow_hyphen_values = true, required = true)]
        words: Vec<String>,
    },
    /// List the people of the organisation.
    People,
    /// List the keys people made on their phones, with their sixteen digits.
    Keys,
    /// Confirm a person's key after a word on the telephone.
    ConfirmKey {
        /// Whose: the short code.
        person: String,
        /// The sixteen digits, as the person read them out.
        #[arg(required = true)]
        digits: Vec<String>,
    },
    /// End a person's key: lost, forgotten, or the person left.
    EndKey {
        /// Whose: the short code.
        person: String,
        /// How its digits begin.
        #[arg(required = true)]
        digits: Vec<String>,
        /// Why.
        #[arg(long, required = true)]
        why: String,
    },
    /// Decide when people sign and what an operator's device may do: UNLOCKING [SIGNATURE_REQUIRED]
    /// [OPERATOR_RIGHTS]. What is not given stays as it was.
    #[command(after_help = forms::help_of(forms::RULES_FORMS))]
    Rules {
        /// The words.
        #[arg(trailing_var_arg = true, allow_hyphen_values = true, required = true)]
        words: Vec<String>,
    },
    /// Exchange records and photographs with the office.
    Sync(SyncArguments),
    /// Write visits into a file to be carried to another device.
    CarryOut {
        /// The file to write.
        file: PathBuf,
        /// Which visits; all when none is named.
        visits: Vec<String>,
    },
    /// Read a carry file.
    CarryIn {
        /// The file.
        file: PathBuf,
    },
    /// Say what the office has receipted.
    Receipts {
        /// Entry by entry, for this visit.
        visit: Option<String>,
    },
    /// What was refused and kept aside.
    Quarantine {
        /// Write it into this folder as well.
        #[arg(long, value_name = "DIR")]
        out: Option<PathBuf>,
    },
    /// What this device can prove of an entry without the office: its receipt and its place in the office's
    /// log, with the signed checkpoint.
    Proof {
        /// The entry, by the beginning of its id.
        #[arg(long, value_name = "ID")]
        entry: String,
    },
    /// What was typed and could not be recorded.
    Drafts {
        /// Throw them away.
        #[arg(long)]
        clear: bool,
    },
}

/// `device site …`
#[derive(Debug, Subcommand)]
pub enum SiteCommand {
    /// Describe a new site: NAME ZONE ELEVATION …
    #[command(after_help = forms::help_of(forms::SITE_FORMS))]
    New {
        /// The words of a site statement.
        #[arg(trailing_var_arg = true, allow_hyphen_values = true, required = true)]
        words: Vec<String>,
    },
    /// Add or change something of a site.
    #[command(after_help = forms::help_of(forms::SITE_FORMS))]
    Set {
        /// The site: its name or id.
        site: String,
        /// What: site, tank, instrument, hose, contact or seal_stock.
        kind: String,
        /// The words of the statement.
        #[arg(trailing_var_arg = true, allow_hyphen_values = true)]
        words: Vec<String>,
    },
    /// Take a site, and the people in it, from a TOML or JSON file.
    Load {
        /// The file: [site], [[tank]], [[instrument]], [[hose]], [[contact]], [[seal_stock]], [[operator]].
        file: PathBuf,
    },
    /// List the sites known here.
    List,
    /// Show a site.
    Show {
        /// The site: its name or id.
        site: String,
    },
}

/// `device enrol`
#[derive(Debug, Args)]
pub struct EnrolArguments {
    /// The office server's address.
    #[arg(long, value_name = "URL", required_unless_present = "text")]
    pub server: Option<String>,
    /// The code.
    #[arg(long, required_unless_present = "text")]
    pub code: Option<String>,
    /// The all-in-one text instead of both.
    #[arg(value_name = "TEXT", conflicts_with_all = ["server", "code"])]
    pub text: Option<String>,
    /// Certificate (PEM) the server is trusted by, when it is not a public one.
    #[arg(long, value_name = "FILE")]
    pub ca: Option<PathBuf>,
}

impl From<EnrolArguments> for Enrolling {
    fn from(typed: EnrolArguments) -> Enrolling {
        let EnrolArguments { server, code, text, ca } = typed;
        Enrolling { server, code, text, ca }
    }
}

/// `device settle`
#[derive(Debug, Args)]
pub struct SettleArguments {
    /// The visit.
    pub visit: String,
    /// The entry that stands, by the beginning of its id.
    #[arg(long = "keep", value_name = "ENTRY")]
    pub entry: String,
    /// Why.
    #[arg(long)]
    pub why: String,
}

impl From<SettleArguments> for Settling {
    fn from(typed: SettleArguments) -> Settling {
        let SettleArguments { visit, entry, why } = typed;
        Settling { visit, entry, why }
    }
}

/// `device join`
#[derive(Debug, Args)]
pub struct JoinArguments {
    /// The visit.
    pub visit: String,
    /// The other visit.
    pub other: String,
    /// They were compared and are not the same stay.
    #[arg(long)]
    pub not: bool,
    /// Why.
    #[arg(long, default_value = "")]
    pub why: String,
}

impl From<JoinArguments> for Joining {
    fn from(typed: JoinArguments) -> Joining {
        let JoinArguments { visit, other, not, why } = typed;
        Joining { visit, other, not, why }
    }
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

impl From<OpenArguments> for Opening {
    fn from(typed: OpenArguments) -> Opening {
        let OpenArguments { car, site, receiver, spot } = typed;
        Opening { car, site, receiver, spot }
    }
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

impl From<PhotoArguments> for Attaching {
    fn from(typed: PhotoArguments) -> Attaching {
        let PhotoArguments { visit, file, of, about } = typed;
        Attaching { visit, file, of, about }
    }
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
    /// Fetch photographs taken elsewhere as well.
    #[arg(long)]
    pub fetch_photos: bool,
}

impl From<SyncArguments> for Syncing {
    fn from(typed: SyncArguments) -> Syncing {
        let SyncArguments { server, attempts, no_photos, fetch_photos } = typed;
        Syncing { server, attempts, no_photos, fetch_photos }
    }
}
