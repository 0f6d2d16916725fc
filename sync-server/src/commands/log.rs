//! The commands for the office's log: print the newest checkpoint, add witnesses' signatures, have a
//! checkpoint time-stamped, and declare that a backup was restored.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use clap::Args;
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::OrganisationKey;
use farsiding_core::evidence::{
    Checkpoint, NoteError, SignedNote, VerifierKey, cosignatures, ledger_log, merkle, with_cosignature,
};
use farsiding_core::store::{Store, StoredCheckpoint, Write};
use serde_json::{Value, json};

use crate::commands::witness::read_witness;
use crate::office_folder::OpenOffice;
use crate::outcome::CommandError;
use farsiding_host::CommandOutput;
use farsiding_office::OfficeError;
use farsiding_office::ledger::{self, Ledger as _};
use farsiding_office::office_database::OfficeDatabase;
use farsiding_office::third_parties::{NewStamp, SoleLedger, Stamping, set_stamping, stamp_newest};
use farsiding_packet::{know_witness, known_witnesses};

const FORGOTTEN: &str = "The server asks no time stamp authority any more, unless it is started with --tsa.";

/// The arguments of `farsiding checkpoint`.
#[derive(Debug, Args)]
pub struct CheckpointArguments {
    /// The office's data folder.
    #[arg(long, value_name = "DIR")]
    data: PathBuf,
    /// Print the checkpoint of a log with this many entries, instead of the newest checkpoint.
    #[arg(long)]
    size: Option<u64>,
    /// Also print, below the note, the proof that the log with this many entries is the beginning of this log
    /// (for `verify --against`).
    #[arg(long, value_name = "SIZE", conflicts_with_all = ["add_cosignature", "size"])]
    from: Option<u64>,
    /// Add a witness's signature. The file holds the cosigned note, or only the signature line.
    #[arg(long, value_name = "FILE", requires = "witness")]
    add_cosignature: Option<PathBuf>,
    /// The witness's key, as NAME+ID+KEY.
    #[arg(long, value_name = "KEY")]
    witness: Option<String>,
    /// Print the answer as JSON.
    #[arg(long)]
    json: bool,
}

/// The arguments of `farsiding timestamp`.
#[derive(Debug, Args)]
pub struct TimestampArguments {
    /// The office's data folder.
    #[arg(long, value_name = "DIR")]
    data: PathBuf,
    /// The address of the time stamp authority (RFC 3161 over HTTP).
    #[arg(long, value_name = "URL", required_unless_present = "forget")]
    tsa: Option<String>,
    /// A PEM file with the root certificates that must certify the authority. Without it only the authority's
    /// signature is checked.
    #[arg(long, value_name = "FILE")]
    root: Option<PathBuf>,
    /// If the authority answers with a valid stamp, have the server ask it from now on.
    #[arg(long)]
    keep: bool,
    /// With --keep, the shortest time between two stamps. The server asks only if new entries have arrived.
    #[arg(long, value_name = "TIME", default_value = "24h", requires = "keep")]
    every: humantime::Duration,
    /// Stop the server from asking any authority.
    #[arg(long, conflicts_with_all = ["tsa", "root", "keep"])]
    forget: bool,
    /// Print the answer as JSON.
    #[arg(long)]
    json: bool,
}

/// The arguments of `farsiding restored`.
#[derive(Debug, Args)]
pub struct RestoredArguments {
    /// The office's data folder that was restored from a backup.
    #[arg(long, value_name = "DIR")]
    data: PathBuf,
    /// The number of log entries in the backup. Needed if the server was started more than once since the
    /// restore.
    #[arg(long, value_name = "N")]
    held: Option<u64>,
    /// Print the answer as JSON.
    #[arg(long)]
    json: bool,
}

impl CheckpointArguments {
    /// Returns whether the answer is printed as JSON.
    pub const fn wants_json(&self) -> bool {
        self.json
    }
}

impl TimestampArguments {
    /// Returns whether the answer is printed as JSON.
    pub const fn wants_json(&self) -> bool {
        self.json
    }
}

impl RestoredArguments {
    /// Returns whether the answer is printed as JSON.
    pub const fn wants_json(&self) -> bool {
        self.json
    }
}

fn read_text(file: &Path) -> Result<String, CommandError> {
    std::fs::read_to_string(file)
        .map_err(|e| CommandError::refused(format!("{} cannot be read: {e}", file.display())))
}

/// Prints a checkpoint's note, after adding a witness's signature if one is given.
///
/// # Errors
/// Returns a [`CommandError`] when there is no such checkpoint or the signature does not hold.
pub fn checkpoint(arguments: &CheckpointArguments) -> Result<CommandOutput, CommandError> {
    let mut opened = OpenOffice::open(&arguments.data)?;
    let (key, now) = (opened.key.clone(), opened.now);
    let store = opened.ledger.store_mut();
    let newest = ledger_log::publish(store, &key, now).map_err(CommandError::failed)?;
    let mut shown = match arguments.size {
        None => newest,
        Some(size) => {
            store.log().checkpoint(&newest.origin, size).map_err(CommandError::failed)?.ok_or_else(|| {
                CommandError::refused(format!("no checkpoint of {size} entries was published"))
            })?
        }
    };
    if let (Some(file), Some(witness)) = (&arguments.add_cosignature, &arguments.witness) {
        shown = add_cosignature(store, shown, &key, &read_text(file)?, witness)?;
    }
    let known = known_witnesses(store).map_err(CommandError::failed)?;
    let signed: Vec<(String, UtcMillis)> = cosignatures(&shown.note)
        .unwrap_or_default()
        .iter()
        .filter(|line| known.iter().any(|witness| line.check(&shown.note, witness).is_ok()))
        .map(|line| (line.witness.clone(), line.at))
        .collect();
    let proof = match arguments.from {
        None => Vec::new(),
        Some(from) => merkle::stored_consistency(store.log(), from, shown.size)
            .map_err(CommandError::failed)?
            .ok_or_else(|| {
                CommandError::refused(format!("the log has {} entries, fewer than {from}", shown.size))
            })?,
    };
    let proof: Vec<String> = proof.iter().map(|digest| STANDARD.encode(digest.0)).collect();
    let text = format!("{}\n{}", shown.note.trim_end_matches('\n'), proof.join("\n"));
    let mut json = checkpoint_json(&shown, &log_key(&key, &shown.origin), &signed);
    if let (Some(_), Some(fields)) = (arguments.from, json.as_object_mut()) {
        fields.insert("consistency".to_owned(), proof.into());
    }
    Ok(CommandOutput::new(text, json))
}

/// Returns the key by which witnesses know the log, as NAME+ID+KEY.
pub(super) fn log_key(key: &OrganisationKey, origin: &str) -> String {
    VerifierKey::plain(origin, key.signer()).to_string()
}

fn checkpoint_json(shown: &StoredCheckpoint, log_key: &str, signed: &[(String, UtcMillis)]) -> Value {
    let witnesses: Vec<Value> =
        signed.iter().map(|(name, at)| json!({ "name": name, "at": at.rfc3339() })).collect();
    json!({
        "origin": shown.origin, "size": shown.size, "note": shown.note, "log_key": log_key,
        "published_at": shown.at.rfc3339(), "witnesses": witnesses,
        "time_stamped": shown.stamp.as_ref().map(|stamp| stamp.at.rfc3339()),
    })
}

/// Adds a witness's signature line to a checkpoint. If the file holds a whole note, the line goes to the
/// checkpoint with that text, otherwise to the checkpoint that is printed.
fn add_cosignature(
    store: &mut dyn Store,
    shown: StoredCheckpoint,
    key: &OrganisationKey,
    text: &str,
    witness: &str,
) -> Result<StoredCheckpoint, CommandError> {
    let witness = read_witness(witness)?;
    let (target, given) = match Checkpoint::open(text, key) {
        Ok(theirs) => {
            let ours = store.log().checkpoint(&theirs.origin, theirs.size).map_err(CommandError::failed)?;
            let same = |ours: &StoredCheckpoint| Checkpoint::open(&ours.note, key) == Ok(theirs);
            let ours = ours
                .filter(same)
                .ok_or_else(|| CommandError::refused("this checkpoint is not one of this ledger's"))?;
            (ours, text.to_owned())
        }
        Err(_) => {
            let signed =
                SignedNote::read(&shown.note).map_err(|e| CommandError::refused(e.to_string()))?.text;
            let line = text.trim_end_matches('\n');
            (shown.clone(), format!("{signed}\n{line}\n"))
        }
    };
    let added = SignedNote::read(&given)
        .map_err(|e| CommandError::refused(format!("this is neither a note nor a signature line: {e}")))?;
    let note = with_cosignature(&target.note, &added.signatures, &witness).map_err(|e| match e {
        NoteError::NotSigned(name) => CommandError::refused(format!("there is no signature by {name} in it")),
        other => CommandError::refused(other.to_string()),
    })?;
    know_witness(store, &witness).map_err(CommandError::failed)?;
    let StoredCheckpoint { origin, size, at, .. } = &target;
    store
        .commit(&[Write::Checkpoint { origin, size: *size, note: &note, at: *at, since: &[] }])
        .map_err(CommandError::failed)?;
    Ok(StoredCheckpoint { note, ..target })
}

/// Has the newest checkpoint time-stamped and stores the token.
///
/// # Errors
/// Returns a [`CommandError`] when no valid token comes back; an invalid token is not stored.
pub fn timestamp(arguments: &TimestampArguments) -> Result<CommandOutput, CommandError> {
    let mut opened = OpenOffice::open(&arguments.data)?;
    let Some(tsa) = &arguments.tsa else {
        set_stamping(opened.ledger.store_mut(), None).map_err(CommandError::failed)?;
        return Ok(CommandOutput::new(FORGOTTEN, json!({})));
    };
    let roots = arguments.root.as_deref().map(read_text).transpose()?.unwrap_or_default();
    let stamping = Stamping { tsa: tsa.clone(), roots, every_seconds: arguments.every.as_secs() };
    let (key, now) = (Arc::new(opened.key), opened.now);
    let alone = SoleLedger::new(opened.ledger);
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build()?;
    let NewStamp { origin, size, stamp } = runtime.block_on(stamp_newest(&alone, &key, &stamping, now))?;
    if arguments.keep {
        let mut ledger = alone.into_inner();
        set_stamping(ledger.store_mut(), Some(&stamping)).map_err(CommandError::failed)?;
    }
    let path = if stamp.to_a_root {
        "certified by a root given here"
    } else {
        "its signature holds; who certifies it was not checked (no --root was given)"
    };
    let text = format!(
        "The checkpoint of {size} entries existed at {}, by the word of {} ({path}).{}",
        stamp.at.rfc3339(),
        stamp.authority,
        if arguments.keep {
            format!(" The server asks it from now on, every {}.", arguments.every)
        } else {
            String::new()
        }
    );
    let json = json!({
        "size": size, "origin": origin, "at": stamp.at.rfc3339(), "serial": stamp.serial,
        "policy": stamp.policy, "authority": stamp.authority, "path_checked": stamp.to_a_root,
    });
    Ok(CommandOutput::new(text, json))
}

/// Writes a signed declaration that the ledger was restored from a backup. The log continues under a new
/// name.
///
/// # Errors
/// Returns a [`CommandError`] when the declaration is refused or cannot be written.
pub fn restored(arguments: &RestoredArguments) -> Result<CommandOutput, CommandError> {
    let mut opened = OpenOffice::open(&arguments.data)?;
    let (key, now) = (opened.key.clone(), opened.now);
    let name =
        ledger::rename(opened.ledger.store_mut(), &mut opened.randomness).map_err(CommandError::failed)?;
    let store = opened.ledger.store_mut();
    let held = match arguments.held {
        Some(held) => held,
        None => ledger_log::size_at_start(store).map_err(CommandError::failed)?,
    };
    let declared = ledger_log::begin_anew(store, &key, name, held, now).map_err(CommandError::failed)?;
    ledger_log::publish(store, &key, now).map_err(CommandError::failed)?;
    OfficeDatabase::open(&opened.folder.database_file())
        .and_then(|database| database.forget_ledger_position())
        .map_err(OfficeError::from)?;
    let json = json!({
        "before": declared.before, "size": declared.size, "origin": declared.origin,
        "at": declared.at.rfc3339(),
    });
    let text = format!(
        "Declared: the ledger came back from a backup that held the first {} entries of its log; what came after \
         is sent again by the devices that have it. Start the server anew if it is running.",
        declared.size
    );
    Ok(CommandOutput::new(text, json))
}
