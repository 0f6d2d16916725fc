//! `farsiding serve`: its arguments, the set-up of logging, and the start of the server.

use std::path::{Path, PathBuf};

use clap::Args;
use farsiding_host::{CommandOutput, outside_call, say};
use farsiding_office::OfficeError;
use farsiding_office::backup_archive::Recipients;
use farsiding_office::quotas::{QuotaSetting, Quotas};
use farsiding_office::serve::{ServeOptions, serve};
use farsiding_office::state::Limits;
use farsiding_office::state::backup_plan::{Plan, Span};
use farsiding_office::state::concurrency::ConcurrencyLimits;
use farsiding_office::state::hosts::Hosts;
use farsiding_office::third_parties::{Duty, Stamping};
use tracing_subscriber::filter::{LevelFilter, Targets};
use tracing_subscriber::layer::SubscriberExt as _;
use tracing_subscriber::util::SubscriberInitExt as _;

use crate::database_address;
use crate::office_folder::clock;
use crate::outcome::CommandError;

/// The limits for devices and addresses, as text for the command help. A test compares the numbers with the
/// defaults in the code.
const SERVE_HELP: &str = "\
Limits for one address (for IPv6: for its first 64 bits): 512 connections, 192 requests answered at once (more wait),
3000 requests without a pause and 100 a second after that, 128 event streams. One device or session may have
6 event streams. These limits leave room for dozens of phones behind one router. Without --behind-proxy, a proxy in
front of the server counts as one address.

Limits for one device in a day of UTC by this server's clock (--quota NAME=NUMBER changes a limit):
  entries=20000  bytes=67108864  visits=500  photos=2000  photo-bytes=4294967296
  refused-bytes=1048576: refused data beyond this limit is not kept, not even its first 4096 bytes
Limits for one device in all:
  tray-entries=200  tray-bytes=262144: what a revoked device may still send
  uploads=200  upload-days=14: unfinished photographs at the same time, and days until an unfinished one is deleted
A signed reply tells the device what was over a limit. The device keeps that and sends it again the next day.

With --database: several organisations may share a database. The server that was started last for an organisation
writes, and one that ran before it stops. An address with a password is given as @FILE, the name of a file that only you
can read, or in the variable FARSIDING_DATABASE, because everybody on the machine can read a command line. A database on
another machine is reached encrypted with ?sslmode=require or verify-full in the address: its certificate must be for the
host's name and vouched for by an authority that this machine trusts, or by one in the file &sslrootcert=FILE; without
that the connection is not encrypted. farsiding check and farsiding backup read the database through as well; a backup
holds its rows as ledger.db. A ledger in a file is moved by farsiding move, and back.

The variable FARSIDING_LOG sets what is logged: info (the default), warn, or levels for parts of the program, such as
info,farsiding_office=debug.";

#[derive(Debug, Args)]
#[command(
    after_help = SERVE_HELP
)]
pub(crate) struct ServeArguments {
    /// The office's data folder. It is created at the first start.
    #[arg(long, value_name = "DIR")]
    data: PathBuf,
    /// Keep the ledger in this PostgreSQL database (15 or later) in place of a file in the folder, such as
    /// postgres://user@host/name; with a password @FILE. Needed at the first start alone: the folder then names the
    /// database in ledger.database, and every command uses it. Accounts, devices, mail, photographs and the index stay
    /// in the folder. See below.
    #[arg(long, value_name = "URL|@FILE")]
    database: Option<String>,
    /// The address and port to listen on.
    #[arg(long, value_name = "ADDR", default_value = "127.0.0.1:8460")]
    listen: String,
    /// The certificate chain, as PEM. Needed for every address except loopback.
    #[arg(long, value_name = "FILE", requires = "key")]
    cert: Option<PathBuf>,
    /// The certificate's private key, as PEM.
    #[arg(long, value_name = "FILE", requires = "cert")]
    key: Option<PathBuf>,
    /// The address at which devices reach this server, if it differs from --listen.
    #[arg(long, value_name = "URL")]
    url: Option<String>,
    /// The folder with the built phone app (bindings/phone/dist), which is served under /app/.
    #[arg(long, value_name = "DIR")]
    app: Option<PathBuf>,
    /// Write the program's log as JSON lines.
    #[arg(long)]
    json: bool,
    /// Read the sender's address from the last X-Forwarded-For header. Use this only if every connection
    /// comes through a proxy that writes that header itself. Without this option all requests through a proxy
    /// count as coming from one address.
    #[arg(long)]
    behind_proxy: bool,
    /// Change a limit for one device. Repeat the option for each limit. Per day: entries, bytes, visits,
    /// photos, photo-bytes, refused-bytes. In all, for a revoked device: tray-entries, tray-bytes. Also
    /// uploads (at the same time) and upload-days.
    #[arg(long = "quota", value_name = "NAME=NUMBER")]
    quotas: Vec<QuotaSetting>,
    /// Start although the clock is more than a day behind the ledger, because the clock was wrong earlier and
    /// is right now. The reason given here is signed and kept beside the log. The times in the log stand
    /// still until the clock has caught up.
    #[arg(long, value_name = "WHY")]
    clock_was_wrong: Option<String>,
    /// The host name of the phone app and of sync. The server answers nothing else under this name.
    #[arg(long, value_name = "HOST", requires = "office_host")]
    app_host: Option<String>,
    /// The host name of the office's pages. The server answers nothing else under this name.
    #[arg(long, value_name = "HOST", requires = "app_host")]
    office_host: Option<String>,
    /// Make backups regularly into this folder, which should be on another disk.
    #[arg(long, value_name = "DIR", requires = "recipients")]
    backup_to: Option<PathBuf>,
    /// The time between two backups, such as 24h, 90m or 7d.
    #[arg(long, value_name = "SPAN", default_value = "24h")]
    backup_every: Span,
    /// How many backups are kept. An older backup is removed only after a newer complete one exists.
    #[arg(long, value_name = "N", default_value_t = 14)]
    backup_keep: usize,
    /// The public key (age1…) of somebody who can open the backups. Repeat the option for each.
    #[arg(long = "backup-recipient", value_name = "KEY", id = "recipients")]
    backup_recipients: Vec<String>,
    /// The address of a time stamp authority (RFC 3161) for the log, in place of the one set by `farsiding
    /// timestamp --keep`.
    #[arg(long, value_name = "URL")]
    tsa: Option<String>,
    /// A PEM file with the root certificates that must certify the authority.
    #[arg(long, value_name = "FILE", requires = "tsa")]
    tsa_root: Option<PathBuf>,
    /// The shortest time between two time stamps. The server asks only if new entries have arrived.
    #[arg(long, value_name = "TIME", default_value = "24h", requires = "tsa")]
    stamp_every: humantime::Duration,
    /// The longest time between two requests to the witnesses. They are also asked shortly after new entries
    /// have arrived.
    #[arg(long, value_name = "TIME", default_value = "10m")]
    witness_every: humantime::Duration,
    /// The largest photograph that is accepted, in megabytes.
    #[arg(long, value_name = "MB", default_value_t = 64)]
    largest_photo: u64,
}

fn start_logging(as_json: bool) {
    // The variable holds log levels for parts of the program, such as `warn` or
    // `info,farsiding_office=debug`.
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
    // The text of a panic may quote a hostile message, so only the place of the panic is logged.
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
) -> Result<Duty, CommandError> {
    let stamping = tsa.as_ref().map(|tsa| {
        outside_call::check_address(tsa).map_err(CommandError::refused)?;
        let roots = root.map(std::fs::read_to_string).transpose()?.unwrap_or_default();
        if root.is_some() {
            farsiding_timestamp::read_roots(roots.as_bytes())?;
        }
        Ok::<_, CommandError>(Stamping { tsa: tsa.clone(), roots, every_seconds: stamp_every.as_secs() })
    });
    if witness_every.as_secs() == 0 {
        return Err(CommandError::refused("--witness-every must be a second or more"));
    }
    Ok(Duty { witness_every: *witness_every, stamping: stamping.transpose()? })
}

/// Runs `farsiding serve`.
pub(crate) fn run(arguments: ServeArguments) -> Result<CommandOutput, CommandError> {
    start_logging(arguments.json);
    let limits = Limits {
        photo_bytes: arguments.largest_photo.saturating_mul(1024 * 1024),
        concurrency: ConcurrencyLimits {
            behind_proxy: arguments.behind_proxy,
            ..ConcurrencyLimits::default()
        },
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
        database: database_address::read_or_surroundings(arguments.database.as_deref())?,
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
    runtime.block_on(serve(options, clock()?, listening))?;
    Ok(CommandOutput::none())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_help_tells_the_limits_that_hold() {
        let (quotas, crowd) = (Quotas::default(), ConcurrencyLimits::default());
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
            format!("{} requests without a pause", crowd.burst),
            format!("{} a second", crowd.a_second),
            format!("{} event streams. One", crowd.streams_of_one),
            format!("{} event streams.", crowd.streams_of_session),
        ] {
            assert!(SERVE_HELP.contains(&words), "{words}");
        }
    }
}
