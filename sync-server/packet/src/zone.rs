//! How a time zone is named to people, on the packet's pages and on the office's.

/// Returns a zone's name for people. `Etc/GMT+6` is six hours *behind* UTC (its sign is POSIX's; tzdata, file
/// `etcetera`), so it is said as `UTC−6`; a zone named by a place is its own name.
pub fn zone_words(zone: &str) -> String {
    match zone.strip_prefix("Etc/GMT").and_then(|rest| rest.split_at_checked(1)) {
        Some(("+", hours)) => format!("UTC\u{2212}{hours}"),
        Some(("-", hours)) => format!("UTC+{hours}"),
        _ => zone.to_owned(),
    }
}
