//! The name of a time zone for people, on the packet's pages and on the office's.

/// Returns a time zone's name for people. `Etc/GMT+6` is six hours *behind* UTC (its sign follows POSIX;
/// tzdata, file `etcetera`), so it is written as `UTC−6`. A zone named after a place keeps its name.
pub fn zone_words(zone: &str) -> String {
    match zone.strip_prefix("Etc/GMT").and_then(|rest| rest.split_at_checked(1)) {
        Some(("+", hours)) => format!("UTC\u{2212}{hours}"),
        Some(("-", hours)) => format!("UTC+{hours}"),
        _ => zone.to_owned(),
    }
}
