//! The commands for an office's devices: issue an enrolment code, list devices, change a device's grant,
//! revoke a device.
//!
//! The rules of enrolment and grants are in `office::enrolment` and `office::grants`.

use clap::{Args, ValueEnum};
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::{OrganisationKey, PublicKey, Role};
use farsiding_core::ids::{SiteId, Subject};
use farsiding_core::view::SiteView;
use serde_json::json;

use crate::office_folder::{OfficeArguments, clock, open_database};
use crate::outcome::CommandError;
use farsiding_host::SystemRandomness;
use farsiding_host::{CommandOutput, clock_words};
use farsiding_office::OfficeError;
use farsiding_office::data_folder::DataFolder;
use farsiding_office::enrolment::{self, Invitation};
use farsiding_office::grants::{self, Grant, GrantError};
use farsiding_office::index::ledger_reader::{Held, LedgerReader};
use farsiding_office::ledger::{Ledger as _, OfficeLedger};
use farsiding_office::office_database::{OfficeDatabase, RegisteredDevice};

/// The grant of a device, as typed.
#[derive(Debug, Args)]
pub(crate) struct GrantArguments {
    /// The names of the sites the device may use, separated by commas. "all" means every site, including
    /// sites added later.
    #[arg(long, value_name = "NAMES")]
    sites: Option<String>,
    /// The device's rights, in place of those of its role: record, settle, lift_hold, override, release,
    /// withdraw_others, keep_site, issue_seals, keep_people, publish_procedures, admit, enrol, read. "all"
    /// means every right of the role.
    #[arg(long, value_name = "RIGHTS")]
    rights: Option<String>,
    /// The last day on which the device may sync, such as 2027-06-30. "never" means until the device is
    /// revoked.
    #[arg(long, value_name = "DATE", conflicts_with = "valid_days")]
    valid_until: Option<String>,
    /// For how many days from now the certificate is valid.
    #[arg(long, value_name = "DAYS")]
    valid_days: Option<u16>,
}

#[derive(Debug, Args)]
pub(crate) struct EnrolArguments {
    #[command(flatten)]
    pub(crate) office: OfficeArguments,
    /// The device's name. Every device needs a different name.
    #[arg(long)]
    name: String,
    /// The device's role.
    #[arg(long, value_enum, default_value_t = RoleWord::Operator)]
    role: RoleWord,
    #[command(flatten)]
    grant: GrantArguments,
    /// For how many minutes the code is valid.
    #[arg(long, value_name = "MINUTES", default_value_t = 60)]
    valid: u32,
    /// The address at which devices reach the server, if it differs from the one the server was last started
    /// with.
    #[arg(long, value_name = "URL")]
    url: Option<String>,
}

#[derive(Debug, Args)]
pub(crate) struct RenewArguments {
    #[command(flatten)]
    pub(crate) office: OfficeArguments,
    /// The device: its name, its id, or the beginning of its id.
    #[arg(long, value_name = "ID|NAME")]
    device: String,
    #[command(flatten)]
    grant: GrantArguments,
}

#[derive(Debug, Args)]
pub(crate) struct RevokeArguments {
    #[command(flatten)]
    pub(crate) office: OfficeArguments,
    /// The device: its name, its id, or the beginning of its id.
    #[arg(long, value_name = "ID|NAME")]
    device: String,
}

#[derive(Debug, Clone, Copy, ValueEnum)]
enum RoleWord {
    /// Records at the siding.
    Operator,
    /// Reads everything and settles disagreements.
    Office,
    /// Reads the sites that are granted.
    Inspector,
}

/// Returns the names and ids of the sites in the ledger. The list is empty when there is no ledger yet.
fn known_sites(
    folder: &DataFolder,
    key: &PublicKey,
    now: UtcMillis,
) -> Result<Vec<(SiteId, String)>, CommandError> {
    let file = folder.ledger_place();
    if !folder.ledger_file().exists() && !folder.has_database() {
        return Ok(Vec::new());
    }
    let ledger = OfficeLedger::open(&file).map_err(OfficeError::from)?;
    let subjects = ledger.store().subjects().map_err(OfficeError::from)?;
    let failed = |error: farsiding_office::index::IndexError| folder.refuse(&error.to_string());
    let reader = LedgerReader::open(&file).map_err(failed)?;
    let authority = reader.authority(key, now).map_err(failed)?;
    let mut sites = Vec::new();
    for subject in subjects {
        let Subject::Site(site) = subject else { continue };
        let held = reader.entries_of(subject).map_err(failed)?;
        let judged = authority.site(held.iter().map(Held::received));
        sites.push((site, SiteView::fold(Some(site), judged).name));
    }
    sites.sort_by(|a, b| a.1.cmp(&b.1));
    Ok(sites)
}

impl GrantArguments {
    /// Returns the grant `before`, changed by the arguments that were typed.
    fn over(&self, before: &Grant, known: &[(SiteId, String)], now: UtcMillis) -> Result<Grant, GrantError> {
        let sites = match &self.sites {
            Some(text) => grants::read_sites(text, known)?,
            None => before.sites.clone(),
        };
        let rights = match &self.rights {
            Some(text) => grants::read_rights(text)?,
            None => before.rights.clone(),
        };
        let until = match (&self.valid_until, self.valid_days) {
            (Some(text), _) if text.trim().eq_ignore_ascii_case("never") => None,
            (Some(text), _) => grants::read_until(text, now)?,
            (None, Some(days)) => Some(grants::days_from(now, days)),
            (None, None) => before.valid_until,
        };
        Ok(Grant::new(sites, rights, until))
    }
}

fn opened(
    arguments: &OfficeArguments,
) -> Result<(DataFolder, OrganisationKey, OfficeDatabase), CommandError> {
    let mut randomness = SystemRandomness::new().map_err(|e| OfficeError::Surroundings(e.to_string()))?;
    let folder = DataFolder::open(&arguments.data)?;
    let key = folder.organisation_key(&mut randomness)?;
    let database = open_database(&folder)?;
    Ok((folder, key, database))
}

/// Runs `farsiding enrol`.
pub(crate) fn enrol(arguments: &EnrolArguments) -> Result<CommandOutput, CommandError> {
    let mut randomness = SystemRandomness::new().map_err(|e| OfficeError::Surroundings(e.to_string()))?;
    let folder = DataFolder::open_or_make(&arguments.office.data)?;
    let key = folder.organisation_key(&mut randomness)?;
    let database = open_database(&folder)?;
    let role = match arguments.role {
        RoleWord::Operator => Role::Operator,
        RoleWord::Office => Role::Office,
        RoleWord::Inspector => Role::Inspector,
    };
    let now = clock()?.time();
    let known = known_sites(&folder, &key.public(), now)?;
    grants::check_role(role, arguments.grant.sites.as_deref().unwrap_or_default())
        .map_err(|error| CommandError::refused(&error))?;
    let grant = arguments
        .grant
        .over(&Grant::default(), &known, now)
        .map_err(|error| CommandError::refused(&error))?;
    let grant = grant.for_role(role);
    let invitation = Invitation { name: &arguments.name, role, grant, minutes: arguments.valid };
    let made = enrolment::issue(&database, &invitation, now, &mut randomness).map_err(OfficeError::from)?;
    let url = match &arguments.url {
        Some(url) => Some(url.clone()),
        None => database.server_url().map_err(OfficeError::from)?,
    };
    let url = url.unwrap_or_else(|| "https://ADDRESS-OF-THE-SERVER".to_owned());
    let text = enrolment::enrolment_text(&url, &made.code, &key);
    let fingerprint = key.public().fingerprint();
    let grant = &invitation.grant;
    let mut json = json!({
        "code": made.code, "expires_at": made.expires_at.rfc3339(), "server": url,
        "enrolment": text, "organisation_key": key.public().to_string(), "fingerprint": fingerprint,
        "replaces": made.replaces,
    });
    tell_grant(&mut json, grant);
    let hint = match &grant.sites {
        None if role == Role::Operator => ", also those that come later (--sites NAME,… narrows it)",
        _ => "",
    };
    let replaced = match made.replaces {
        true => "\nThe code made before for this name is good no longer.",
        false => "",
    };
    let words = format!(
        "One-time code:  {}\n\
         Good for:       one device, until {}\n\
         Sites:          {}{hint}\n\
         Rights:         {}\n\
         Certificate:    good {}\n\
         Server:         {url}\n\
         Server's key:   {fingerprint} …\n\
         All in one:     {text}{replaced}",
        made.code,
        made.expires_at.rfc3339(),
        grant.sites_words(&known),
        grant.rights_words(),
        grant.until_words(),
    );
    Ok(CommandOutput::new(words, json))
}

/// Runs `farsiding renew`.
pub(crate) fn renew(arguments: &RenewArguments) -> Result<CommandOutput, CommandError> {
    let (folder, key, database) = opened(&arguments.office)?;
    let now = clock()?.time();
    let known = known_sites(&folder, &key.public(), now)?;
    let file = folder.ledger_place();
    let mut ledger = OfficeLedger::open(&file).map_err(OfficeError::from)?;
    let device = enrolment::find(&database, &arguments.device).map_err(OfficeError::from)?;
    let grant =
        arguments.grant.over(&device.grant, &known, now).map_err(|error| CommandError::refused(&error))?;
    let id = device.device.to_string();
    let office = (ledger.store_mut(), &file);
    let renewed =
        enrolment::change(&database, office, &key, (&id, &grant), now).map_err(OfficeError::from)?;
    let text = format!(
        "{} ({}) has a new certificate: {}; {}; {}. The device gets it with its next sync.",
        renewed.name,
        renewed.device.short(),
        renewed.grant.sites_words(&known),
        renewed.grant.rights_words(),
        renewed.grant.until_words(),
    );
    Ok(CommandOutput::new(text, device_json(&renewed)))
}

/// Runs `farsiding revoke`.
pub(crate) fn revoke(arguments: &RevokeArguments) -> Result<CommandOutput, CommandError> {
    let (folder, key, database) = opened(&arguments.office)?;
    let file = folder.ledger_place();
    let mut ledger = OfficeLedger::open(&file).map_err(OfficeError::from)?;
    let now = clock()?.time();
    let office = (ledger.store_mut(), &file);
    let revoked =
        enrolment::revoke(&database, office, &key, &arguments.device, now).map_err(OfficeError::from)?;
    let at = revoked.revoked_at.unwrap_or(now).rfc3339();
    let json = json!({
        "device": revoked.device.to_string(), "name": revoked.name, "revoked_at": at,
        "last_number": revoked.last.map(|last| last.seq),
    });
    let text = format!(
        "{} ({}) is revoked since {at}. What it sent stays in the record; what it still has is kept when it \
         next syncs and does not count unless the office lets it in (page Late entries), and nothing more goes to it.",
        revoked.name,
        revoked.device.short()
    );
    Ok(CommandOutput::new(text, json))
}

/// Runs `farsiding devices`.
pub(crate) fn devices(arguments: &OfficeArguments) -> Result<CommandOutput, CommandError> {
    let (folder, key, database) = opened(arguments)?;
    let devices = database.devices().map_err(OfficeError::from)?;
    let mut text = String::new();
    if devices.is_empty() {
        text.push_str("No device is enrolled yet.");
    }
    let known = known_sites(&folder, &key.public(), clock()?.time())?;
    for device in &devices {
        let seen = device.seen_at.map_or_else(|| "never".to_owned(), |at| at.rfc3339());
        let unsent = match (device.unsent_entries.unwrap_or(0), device.unsent_photos.unwrap_or(0)) {
            (0, 0) => String::new(),
            (entries, photos) => format!(" · unsent there then: {entries} entries, {photos} photographs"),
        };
        let clock = device.ahead_millis.map_or_else(String::new, clock_words);
        let state = device.revoked_at.map_or_else(String::new, |at| format!(" · REVOKED {}", at.rfc3339()));
        text.push_str(&format!(
            "{}  {} ({}) · {}; {}; {} · last seen {seen}{clock}{unsent}{state}\n",
            device.device.short(),
            device.name,
            device.role.as_str(),
            device.grant.sites_words(&known),
            device.grant.rights_words(),
            device.grant.until_words(),
        ));
    }
    let devices: Vec<_> = devices.iter().map(device_json).collect();
    Ok(CommandOutput::new(text, json!({ "devices": devices })))
}

fn tell_grant(told: &mut serde_json::Value, grant: &Grant) {
    let Some(fields) = told.as_object_mut() else { return };
    let sites: Option<Vec<String>> =
        grant.sites.as_ref().map(|sites| sites.iter().map(ToString::to_string).collect());
    fields.insert("sites".to_owned(), json!(sites));
    fields.insert("rights".to_owned(), json!(grant.rights));
    fields.insert("valid_until".to_owned(), json!(grant.valid_until.map(UtcMillis::rfc3339)));
}

fn device_json(device: &RegisteredDevice) -> serde_json::Value {
    let mut told = json!({
        "device": device.device.to_string(), "name": device.name, "own_name": device.own_name,
        "role": device.role.as_str(), "issued_at": device.issued_at.rfc3339(),
        "revoked_at": device.revoked_at.map(|at| at.rfc3339()),
        "renewed_at": device.renewed_at.map(|at| at.rfc3339()),
        "certificate": if device.issuer.is_some() { 2 } else { 1 },
        "last_number": device.last.map(|last| last.seq),
        "seen_at": device.seen_at.map(|at| at.rfc3339()), "ahead_millis": device.ahead_millis,
        "unsent_entries": device.unsent_entries, "unsent_photos": device.unsent_photos,
    });
    tell_grant(&mut told, &device.grant);
    told
}
