//! `farsiding people`: list the people of the organisation, and remove a person's name at the office.
//!
//! The removal itself is in `office::name_removal`; the page of people does the same.

use clap::{Args, Subcommand};
use farsiding_core::book::Roster;
use farsiding_core::ids::OperatorId;
use farsiding_core::view::NameStanding;
use serde_json::json;

use crate::office_folder::{BY, OfficeArguments, OpenOffice, clock, open_database};
use crate::outcome::CommandError;
use farsiding_host::CommandOutput;
use farsiding_office::OfficeError;
use farsiding_office::accounts::audit;
use farsiding_office::audit_chain::Looked;
use farsiding_office::ledger::Ledger as _;
use farsiding_office::name_removal;

/// The arguments of `farsiding people`.
#[derive(Debug, Args)]
pub(crate) struct PeopleArguments {
    #[command(subcommand)]
    what: PeopleWhat,
}

#[derive(Debug, Subcommand)]
enum PeopleWhat {
    /// List the people on the roster, and whether the office keeps a name of each.
    List {
        #[command(flatten)]
        office: OfficeArguments,
    },
    /// Delete a person's name at the office for good. Devices delete it when they next meet the office, and
    /// packets made afterwards show the person's code. Packets made before, earlier backups, and devices that do
    /// not come back keep it.
    Forget {
        #[command(flatten)]
        office: OfficeArguments,
        /// The person's code.
        code: String,
        /// Why the name is removed. The reason stays in the audit; do not repeat the name in it.
        #[arg(long)]
        why: String,
    },
}

impl PeopleArguments {
    fn office(&self) -> &OfficeArguments {
        match &self.what {
            PeopleWhat::List { office } | PeopleWhat::Forget { office, .. } => office,
        }
    }

    /// Returns whether the answer is printed as JSON.
    pub(crate) fn wants_json(&self) -> bool {
        self.office().json
    }
}

/// Runs `farsiding people`.
pub(crate) fn run(arguments: &PeopleArguments) -> Result<CommandOutput, CommandError> {
    let mut open = OpenOffice::open(&arguments.office().data)?;
    match &arguments.what {
        PeopleWhat::List { .. } => {
            let roster =
                Roster::read(open.ledger.store(), &open.key.public()).map_err(CommandError::failed)?;
            let mut text = String::new();
            for person in roster.people.values() {
                let name = match person.name_is {
                    NameStanding::Kept => person.name.as_str(),
                    NameStanding::Open => &format!("{} (in the open, by an earlier version)", person.name),
                    NameStanding::NotHere => "no name is kept",
                    NameStanding::Removed => "name removed at the office",
                };
                let gone = if person.active { "" } else { " · has left" };
                text.push_str(&format!("{}  {name}{gone}\n", person.operator));
            }
            let people: Vec<_> = roster.people.values().collect();
            Ok(CommandOutput::new(text, json!({ "people": people })))
        }
        PeopleWhat::Forget { code, why, .. } => {
            let why = name_removal::reason(why).map_err(CommandError::refused)?;
            let person = OperatorId(code.trim().to_owned());
            let mut database = open_database(&open.folder)?;
            let office = (&mut database, open.ledger.store_mut());
            name_removal::remove(&open.folder, office, &open.key, &clock()?, (&person, BY))
                .map_err(CommandError::refused)?;
            let row = Looked {
                at: open.now,
                who: BY.to_owned(),
                role: String::new(),
                did: name_removal::DID.to_owned(),
                subject: name_removal::audited(&person, &why),
            };
            audit::note(database.connection(), &row).map_err(OfficeError::from)?;
            let text = format!(
                "Removed. Devices delete the name of {person} when they next meet the office. Packets made \
                 before, earlier backups, and devices that do not come back keep it."
            );
            Ok(CommandOutput::new(text, json!({ "removed": person.0 })))
        }
    }
}
