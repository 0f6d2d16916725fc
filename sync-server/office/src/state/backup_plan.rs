//! The plan for the server's scheduled backups.

use std::path::PathBuf;
use std::str::FromStr;
use std::time::Duration;

use crate::backup_archive::Recipients;

/// A duration such as `24h`, `90m`, `7d` or `30s`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Span(pub Duration);

impl FromStr for Span {
    type Err = String;

    fn from_str(text: &str) -> Result<Span, String> {
        let unread = || format!("\u{201c}{text}\u{201d} is no span of time; write 24h, 90m, 7d or 30s");
        let text_of = text.trim();
        let (number, unit) = text_of.split_at_checked(text_of.len().saturating_sub(1)).ok_or_else(unread)?;
        let number: u64 = number.parse().map_err(|_| unread())?;
        let unit = match unit {
            "s" => 1,
            "m" => 60,
            "h" => 3600,
            "d" => 86_400,
            _ => return Err(unread()),
        };
        match number.checked_mul(unit) {
            Some(seconds @ 1..=315_360_000) => Ok(Span(Duration::from_secs(seconds))),
            _ => Err(unread()),
        }
    }
}

/// The plan for scheduled backups.
#[derive(Debug, Clone)]
pub struct Plan {
    /// The folder the backups are written to.
    pub to: PathBuf,
    /// The time between two backups.
    pub every: Duration,
    /// The number of backups that are kept.
    pub keep: usize,
    /// Who can open the backups.
    pub recipients: Recipients,
}
