//! The command line of `farsiding`: what it takes, and how outcomes become words and exit codes.
//!
//! The work is done in `office`, `device` and `calc_lines`; nothing is decided here.

use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use clap::{Args, Parser, Subcommand};
use farsiding_core::calc::lines;
use serde_json::json;
use tracing_subscriber::filter::{LevelFilter, Targets};
use tracing_subscriber::layer::SubscriberExt as _;
use tracing_subscriber::util::SubscriberInitExt as _;

use crate::account_lines::{self, AccountArguments};
use crate::audit_lines::{self, AuditArguments};
use crate::backup_lines::{self, BackupArguments, RestoreArguments};
use crate::calc_lines;
use crate::check_lines::{self, CheckArguments};
use crate::device;
use crate::enrolment_lines::{self, EnrolArguments, RenewArguments, RevokeArguments};
use crate::exporting;
use crate::keeping_lines::{self, PhotoArguments, RetentionArguments};
use crate::key_lines::{self, KeyArguments};
use crate::mail_lines;
use crate::office::OfficeError;
use crate::office::backup_archive::Recipients;
use crate::office::backup_schedule::{Plan, Span};
use crate::office::data_folder::DataFolder;
use crate::office::http::Limits;
use crate::office::http::crowd::CrowdLimits;
use crate::office::http::hosts::Hosts;
use crate::office::ledger::{Ledger as _, SqliteLedger};
use crate::office::log_desk;
use crate::office::quotas::{QuotaSetting, Quotas, aside};
use crate::office::register::Register;
use crate::office::serve::{ServeOptions, serve};
use crate::office::third_parties::lines::{self as witness_lines, WitnessArguments};
use crate::office::third_parties::{Duty, Stamping};

use crate::open_log::{self, command::LogArguments};
use crate::outside_call;
use crate::packet;
use crate::surroundings::ProcessClock;
use crate::timestamp;

/// The exit codes, for help.
pub(crate) const EXIT_CODES: &str = "\
Exit codes:
  0  done
  1  failed: a file, the disk or the network is not as it must be
  2  the command line was not understood
  3  refused: the record or its rules do not allow it, or what was named is not there or not clear
  4  everything is safe on this device, but the office could not be reached or has not receipted all of it
  5  this device is not enrolled, or has been revoked
  6  records were exchanged, but the office's log contradicts what it was before: history was rewritten";

/// Records of pressurised tank cars at rural sidings, kept offline first.
#[derive(Debug, Parser)]
#[command(name = "farsiding", version, after_help = EXIT_CODES)]
struct Arguments {
    #[command(subcommand)]
    command: Command,
}

#[derive(Debug, Subcommand)]
#[allow(clippy::large_enum_variant, reason = "read once, at the start")]
enum Command {
    /// Run the office server.
    Serve(ServeArguments),
    /// Issue a one-time code by which one device enrols.
    Enrol(EnrolArguments),
    /// Give a device a new certificate: other sites, rights or a later last day.
    Renew(RenewArguments),
    /// Revoke a device, at once; what it sent stays.
    Revoke(RevokeArguments),
    /// List the devices of an office.
    Devices(OfficeArguments),
    /// What devices sent that was refused and kept aside.
    Quarantine(QuarantineArguments),
    /// Read a data folder through: every entry, photograph and hash of the log; name what is damaged.
    Check(CheckArguments),
    /// Back an office up while it runs: records, photographs, keys.
    Backup(BackupArguments),
    /// Restore a backup into a new folder; devices bring back what came after it.
    Restore(RestoreArguments),
    /// People who sign in at the office's pages.
    Account(AccountArguments),
    /// Whether the audit of who looked at what still holds.
    Audit(AuditArguments),
    /// Remove a photograph's bytes; its digest stays.
    Photo(PhotoArguments),
    /// For how long photographs, the audit, sessions and refused bytes are kept.
    Retention(RetentionArguments),
    /// Print the newest signed checkpoint of the ledger's log, or add a witness's signature to one.
    Checkpoint(log_desk::CheckpointArguments),
    /// The organisation's keys: the root, the key that signs in its place, and changing them.
    Key(KeyArguments),
    /// Have the newest checkpoint time-stamped by an authority (RFC 3161).
    Timestamp(log_desk::TimestampArguments),
    /// Who outside is asked to sign the log's checkpoints.
    Witness(WitnessArguments),
    /// The log as files that any web server can hand out and any stranger can read through.
    Log(LogArguments),
    /// Declare that the data folder was put back from a backup, so that devices know it was no rewriting.
    Restored(log_desk::RestoredArguments),
    /// Check an evidence packet with nothing but the file and the organisation's public key.
    Verify(packet::command::VerifyArguments),
    /// A device without a screen.
    Device(device::arguments::DeviceArguments),
    /// Compute: one JSON object a line from standard input, one answer a line.
    Calc(CalcArguments),
    /// Write evidence and figures out of an office's data folder.
    Export(exporting::ExportArguments),
    /// The office's mail: set it up, try it, send what waits.
    Mail(mail_lines::MailArguments),
}

#[derive(Debug, Args)]
pub(crate) struct OfficeArguments {
    /// The office's data folder.
    #[arg(long, value_name = "DIR")]
    pub(crate) data: PathBuf,
    /// Answer in JSON.
    #[arg(long)]
    pub(crate) json: bool,
}

/// What may come from whom, for help. The numbers are held to the defaults by a test.
const SERVE_HELP: &str = "\
Limits of one address (IPv6: of its first 64 bits): 512 connections, 192 requests answered at once (more wait), 3000
requests without a pause and 100 a second after that, 128 event streams; of one device or session 6 event streams.
They leave room for dozens of phones behind one router. A proxy in front without --behind-proxy is one address.

Limits of one device (--quota NAME=NUMBER changes one), in a day of UTC by this server's clock:
  entries=20000  bytes=67108864  visits=500  photos=2000  photo-bytes=4294967296
  refused-bytes=1048576: of what is refused beyond it nothing is kept, not even its first 4096 bytes
and in all:
  tray-entries=200  tray-bytes=262144: what a revoked device may still bring
  uploads=200  upload-days=14: photographs half sent at once, and days until one that does not go on is forgotten
What is too much is said to the device in a signed reply; it keeps it, and brings it again the next day.

FARSIDING_LOG says what is logged: info (as without it), warn, or by part, such as info,farsiding_server=debug.";

#[derive(Debug, Args)]
#[command(
    after_help = SERVE_HELP
)]
struct ServeArguments {
    /// The data folder; made at the first start.
    #[arg(long, value_name = "DIR")]
    data: PathBuf,
    /// Address and port to listen on.
    #[arg(long, value_name = "ADDR", default_value = "127.0.0.1:8460")]
    listen: String,
    /// Certificate chain, PEM; needed for any address but loopback.
    #[arg(long, value_name = "FILE", requires = "key")]
    cert: Option<PathBuf>,
    /// Private key of the certificate, PEM.
    #[arg(long, value_name = "FILE", requires = "cert")]
    key: Option<PathBuf>,
    /// The address devices reach this server at, when it differs from --listen.
    #[arg(long, value_name = "URL")]
    url: Option<String>,
    /// The phone app as built (bindings/phone/dist); served under /app/.
    #[arg(long, value_name = "DIR")]
    app: Option<PathBuf>,
    /// Log as JSON lines.
    #[arg(long)]
    json: bool,
    /// Take the address of a request from the last one in X-Forwarded-For: only when every connection comes through
    /// a proxy that writes that header itself. Without this all requests through a proxy count as one address's.
    #[arg(long)]
    behind_proxy: bool,
    /// Change what one device may bring (repeat it for each): entries, bytes, visits, photos and photo-bytes in a
    /// day; tray-entries and tray-bytes of a revoked device in all; uploads at once; upload-days; refused-bytes.
    #[arg(long = "quota", value_name = "NAME=NUMBER")]
    quotas: Vec<QuotaSetting>,
    /// Start although the clock is more than a day behind the ledger, because it was wrong then and is right now:
    /// what is said here is signed and kept beside the log, whose times stand still until the clock has caught up.
    #[arg(long, value_name = "WHY")]
    clock_was_wrong: Option<String>,
    /// The host name of the phone app and of what devices send: nothing else is answered under it.
    #[arg(long, value_name = "HOST", requires = "office_host")]
    app_host: Option<String>,
    /// The host name of the office's pages: nothing else is answered under it.
    #[arg(long, value_name = "HOST", requires = "app_host")]
    office_host: Option<String>,
    /// Make backups by itself: the folder they are kept in, which should be on another disk.
    #[arg(long, value_name = "DIR", requires = "recipients")]
    backup_to: Option<PathBuf>,
    /// How often: 24h, 90m, 7d.
    #[arg(long, value_name = "SPAN", default_value = "24h")]
    backup_every: Span,
    /// How many are kept; older ones are removed once a newer whole one is there.
    #[arg(long, value_name = "N", default_value_t = 14)]
    backup_keep: usize,
    /// Whose secret key opens them: a public key, age1… Repeat it for each.
    #[arg(long = "backup-recipient", value_name = "KEY", id = "recipients")]
    backup_recipients: Vec<String>,
    /// A time stamp authority (RFC 3161) to have the log stamped by; else the one of `farsiding timestamp --keep`.
    #[arg(long, value_name = "URL")]
    tsa: Option<String>,
    /// Certificates (PEM) the authority must be certified by.
    #[arg(long, value_name = "FILE", requires = "tsa")]
    tsa_root: Option<PathBuf>,
    /// How often the log is stamped, when something came in.
    #[arg(long, value_name = "TIME", default_value = "24h", requires = "tsa")]
    stamp_every: humantime::Duration,
    /// How often witnesses are asked at least; they are also asked once it is quiet after something came in.
    #[arg(long, value_name = "TIME", default_value = "10m")]
    witness_every: humantime::Duration,
    /// Largest photograph taken, megabytes.
    #[arg(long, value_name = "MB", default_value_t = 64)]
    largest_photo: u64,
}

#[derive(Debug, Args)]
struct QuarantineArguments {
    #[command(flatten)]
    office: OfficeArguments,
    /// Write it into this folder as well.
    #[arg(long, value_name = "DIR")]
    out: Option<PathBuf>,
    /// Forget all of it afterwards. What was taken into the record is not touched.
    #[arg(long)]
    purge: bool,
}

#[derive(Debug, Args)]
struct CalcArguments {
    /// Which formula.
    #[arg(long, value_name = "NAME", required_unless_present = "list")]
    formula: Option<String>,
    /// List the formulas with their inputs and sources.
    #[arg(long)]
    list: bool,
    /// The list in JSON; answers always are.
    #[arg(long)]
    json: bool,
}

/// What went wrong, in words, and the exit code that says so.
#[derive(Debug)]
pub struct Failure {
    /// The words.
    pub message: String,
    /// A short name for programs.
    pub name: &'static str,
    /// The exit code.
    pub code: u8,
}

impl From<OfficeError> for Failure {
    fn from(error: OfficeError) -> Self {
        let (name, code) = match &error {
            OfficeError::Enrolment(_) | OfficeError::Address(_) | OfficeError::Account(_) => ("refused", 3),
            _ => ("failed", 1),
        };
        Failure { message: error.to_string(), name, code }
    }
}

impl From<std::io::Error> for Failure {
    fn from(error: std::io::Error) -> Self {
        Failure { message: error.to_string(), name: "failed", code: 1 }
    }
}

/// Runs what the command line asks for.
pub fn run() -> ExitCode {
    // Both the server and the client take the process's default; it can only be set once.
    let _ = rustls::crypto::ring::default_provider().install_default();
    let arguments = Arguments::parse();
    let (outcome, as_json) = match arguments.command {
        Command::Serve(arguments) => (run_serve(arguments), false),
        Command::Enrol(arguments) => (enrolment_lines::enrol(&arguments), arguments.office.json),
        Command::Renew(arguments) => (enrolment_lines::renew(&arguments), arguments.office.json),
        Command::Revoke(arguments) => (enrolment_lines::revoke(&arguments), arguments.office.json),
        Command::Devices(arguments) => (enrolment_lines::devices(&arguments), arguments.json),
        Command::Quarantine(arguments) => (run_quarantine(&arguments), arguments.office.json),
        // What is damaged is in the answer already.
        Command::Check(arguments) => match check_lines::run(&arguments) {
            Err(failure) if failure.name == "damaged" && arguments.office.json => {
                return ExitCode::from(failure.code);
            }
            outcome => (outcome, arguments.office.json),
        },
        Command::Backup(arguments) => (backup_lines::run_backup(&arguments), arguments.office.json),
        Command::Restore(arguments) => (backup_lines::run_restore(&arguments), arguments.json),
        Command::Account(arguments) => (account_lines::run(&arguments), arguments.wants_json()),
        Command::Audit(arguments) => (audit_lines::run(&arguments), arguments.wants_json()),
        Command::Photo(arguments) => (keeping_lines::run_photo(&arguments), arguments.wants_json()),
        Command::Retention(arguments) => (keeping_lines::run_retention(&arguments), arguments.office.json),
        Command::Checkpoint(arguments) => (log_desk::checkpoint(&arguments), arguments.wants_json()),
        Command::Key(arguments) => (key_lines::run(&arguments), arguments.wants_json()),
        Command::Timestamp(arguments) => (log_desk::timestamp(&arguments), arguments.wants_json()),
        Command::Witness(arguments) => (witness_lines::run(&arguments), arguments.wants_json()),
        Command::Log(arguments) => match open_log::command::run(&arguments) {
            Err(failure) if failure.name == "does_not_hold" && arguments.wants_json() => {
                return ExitCode::from(failure.code);
            }
            outcome => (outcome, arguments.wants_json()),
        },
        Command::Restored(arguments) => (log_desk::restored(&arguments), arguments.wants_json()),
        // What does not hold is in the answer already.
        Command::Verify(arguments) => match packet::command::run_verify(&arguments) {
            Err(failure) if failure.name == "does_not_hold" && arguments.json => {
                return ExitCode::from(failure.code);
            }
            outcome => (outcome, arguments.json),
        },
        Command::Calc(arguments) => (run_calc(&arguments), false),
        Command::Mail(arguments) => (mail_lines::run(&arguments), false),
        Command::Export(arguments) => (exporting::run(&arguments), arguments.wants_json()),
        Command::Device(arguments) => {
            let as_json = arguments.wants_json();
            (device::run(arguments), as_json)
        }
    };
    match outcome {
        Ok(()) => ExitCode::SUCCESS,
        Err(failure) => {
            if as_json {
                let told = json!({ "ok": false, "error": failure.name, "message": failure.message });
                let _ = say(&told.to_string());
            } else {
                let _ =
                    writeln!(std::io::stderr(), "farsiding: {}", farsiding_core::text::own(&failure.message));
            }
            ExitCode::from(failure.code)
        }
    }
}

/// Writes a line to standard output; a closed pipe is the reader's business.
pub fn say(text: &str) -> std::io::Result<()> {
    let mut out = std::io::stdout().lock();
    // A program reads JSON as it is; on a terminal no name moves the cursor or turns a line.
    let is_json = serde_json::from_str::<serde::de::IgnoredAny>(text).is_ok();
    let own = if is_json { std::borrow::Cow::Borrowed(text) } else { farsiding_core::text::own(text) };
    match writeln!(out, "{own}").and_then(|()| out.flush()) {
        Err(e) if e.kind() == std::io::ErrorKind::BrokenPipe => Ok(()),
        outcome => outcome,
    }
}

pub(crate) fn clock() -> Result<ProcessClock, OfficeError> {
    ProcessClock::from_environment().map_err(|e| OfficeError::Surroundings(e.to_string()))
}

fn start_logging(as_json: bool) {
    // Levels by part, such as `warn` or `info,farsiding_server=debug`.
    let wanted = std::env::var("FARSIDING_LOG").unwrap_or_default();
    let wanted = if wanted.is_empty() { "info" } else { &wanted };
    let (levels, refused) = match wanted.parse::<Targets>() {
        Ok(levels) => (levels, None),
        Err(reason) => (Targets::new().with_default(LevelFilter::INFO), Some(reason)),
    };
    let lines = tracing_subscriber::fmt::layer().with_writer(std::io::stderr).with_ansi(false);
    let log = tracing_subscriber::registry().with(levels);
    if as_json {
        log.with(lines.json()).init()
    } else {
        log.with(lines).init()
    }
    if let Some(reason) = refused {
        tracing::warn!(%reason, "FARSIDING_LOG is not understood, info is logged");
    }
    // A panic's text may quote a hostile message: its place is logged, its words are not.
    std::panic::set_hook(Box::new(|panic| {
        let place = panic.location().map(ToString::to_string).unwrap_or_default();
        tracing::error!(place, "panic");
    }));
}

fn duty_of(
    tsa: &Option<String>,
    root: Option<&Path>,
    stamp_every: humantime::Duration,
    witness_every: humantime::Duration,
) -> Result<Duty, Failure> {
    let refused = |message: String| Failure { message, name: "refused", code: 3 };
    let stamping = tsa.as_ref().map(|tsa| {
        outside_call::read_address(tsa).map_err(refused)?;
        let roots = root.map(std::fs::read_to_string).transpose()?.unwrap_or_default();
        if root.is_some() {
            timestamp::read_roots(roots.as_bytes())?;
        }
        Ok::<_, Failure>(Stamping { tsa: tsa.clone(), roots, every_seconds: stamp_every.as_secs() })
    });
    if witness_every.as_secs() == 0 {
        return Err(refused("--witness-every must be a second or more".to_owned()));
    }
    Ok(Duty { witness_every: *witness_every, stamping: stamping.transpose()? })
}

fn run_serve(arguments: ServeArguments) -> Result<(), Failure> {
    start_logging(arguments.json);
    let limits = Limits {
        photo_bytes: arguments.largest_photo.saturating_mul(1024 * 1024),
        crowd: CrowdLimits { behind_proxy: arguments.behind_proxy, ..CrowdLimits::default() },
        quotas: arguments.quotas.iter().fold(Quotas::default(), Quotas::with),
        ..Limits::default()
    };
    let hosts = match arguments.app_host.as_deref().zip(arguments.office_host.as_deref()) {
        Some((app, office)) => Some(Hosts::new(app, office).map_err(OfficeError::Address)?),
        None => None,
    };
    let recipients = Recipients::read(arguments.backup_recipients.iter().map(String::as_str));
    let recipients = recipients.map_err(OfficeError::from)?;
    let backups = arguments.backup_to.map(|to| Plan {
        to,
        every: arguments.backup_every.0,
        keep: arguments.backup_keep,
        recipients,
    });
    let options = ServeOptions {
        data: arguments.data,
        listen: arguments.listen,
        tls: arguments.cert.zip(arguments.key),
        url: arguments.url,
        app: arguments.app,
        limits,
        clock_was_wrong: arguments.clock_was_wrong,
        backups,
        duty: duty_of(
            &arguments.tsa,
            arguments.tsa_root.as_deref(),
            arguments.stamp_every,
            arguments.witness_every,
        )?,
        hosts,
    };
    let runtime = tokio::runtime::Builder::new_multi_thread().enable_all().build()?;
    let listening = |url: &str| {
        let _ = say(&format!("listening on {url}"));
    };
    Ok(runtime.block_on(serve(options, clock()?, listening))?)
}

pub(crate) fn open_register(folder: &DataFolder) -> Result<Register, OfficeError> {
    Ok(Register::open(&folder.register_file())?)
}

fn run_quarantine(arguments: &QuarantineArguments) -> Result<(), Failure> {
    let folder = DataFolder::open(&arguments.office.data)?;
    let mut ledger = SqliteLedger::open(&folder.ledger_file()).map_err(OfficeError::from)?;
    let register = open_register(&folder)?;
    let kept = aside::all(ledger.store(), &register)?;
    let (mut text, mut told) = crate::kept_aside::tell(&kept, arguments.out.as_deref())?;
    if arguments.purge {
        aside::purge_all(ledger.store_mut(), &register)?;
        text.push_str("All of it is forgotten now.\n");
    }
    if !arguments.office.json {
        return Ok(say(text.trim_end())?);
    }
    if let Some(fields) = told.as_object_mut() {
        fields.insert("ok".to_owned(), json!(true));
        fields.insert("purged".to_owned(), json!(arguments.purge));
    }
    Ok(say(&told.to_string())?)
}

/// How far a clock is off, in words; nothing when it is within two minutes.
pub fn clock_words(ahead_millis: i64) -> String {
    let seconds = ahead_millis.unsigned_abs() / 1000;
    if seconds < 120 {
        return String::new();
    }
    let size = match seconds {
        0..7200 => format!("{} min", seconds / 60),
        7200..172_800 => format!("{} h", seconds / 3600),
        _ => format!("{} days", seconds / 86_400),
    };
    format!(" · its clock is {size} {}", if ahead_millis > 0 { "ahead" } else { "behind" })
}

fn run_calc(arguments: &CalcArguments) -> Result<(), Failure> {
    if arguments.list {
        let list = if arguments.json { lines::listing_json().to_string() } else { lines::listing() };
        return Ok(say(list.trim_end())?);
    }
    let name = arguments.formula.as_deref().unwrap_or_default();
    let known: Vec<&str> = lines::catalogue().iter().map(|formula| formula.name).collect();
    let unknown = !known.contains(&name);
    let message = format!("\"{name}\" is not a formula; known: {}", known.join(", "));
    if unknown {
        // Said at once to a person; a script still gets its answer to every line.
        writeln!(std::io::stderr(), "farsiding: {message}")?;
    }
    match calc_lines::run(name, &mut std::io::stdin().lock(), &mut std::io::stdout().lock()) {
        Err(e) if e.kind() == std::io::ErrorKind::BrokenPipe => {}
        outcome => outcome?,
    }
    if unknown { Err(Failure { message, name: "unknown_formula", code: 3 }) } else { Ok(()) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_help_tells_the_limits_that_hold() {
        let (quotas, crowd) = (Quotas::default(), CrowdLimits::default());
        for (name, most) in [
            ("entries", quotas.entries),
            ("bytes", quotas.bytes),
            ("visits", quotas.visits),
            ("photos", quotas.photos),
            ("photo-bytes", quotas.photo_bytes),
            ("refused-bytes", quotas.refused_bytes),
            ("tray-entries", quotas.tray_entries),
            ("tray-bytes", quotas.tray_bytes),
            ("uploads", quotas.uploads),
            ("upload-days", quotas.upload_days),
        ] {
            assert!(SERVE_HELP.contains(&format!("{name}={most}")), "{name}={most}");
        }
        for words in [
            format!("{} connections", crowd.connections_of_one),
            format!("{} requests answered at once", crowd.at_once_of_one),
            format!("{}\nrequests without a pause", crowd.burst),
            format!("{} a second", crowd.a_second),
            format!("{} event streams; of", crowd.streams_of_one),
            format!("{} event streams.", crowd.streams_of_session),
        ] {
            assert!(SERVE_HELP.contains(&words), "{words}");
        }
    }
}
