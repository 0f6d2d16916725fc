//! What third parties say about a packet: the full check of its time stamps, the search for witnesses, and
//! their part of the verdict.
//!
//! The core checks the signatures of witnesses (`evidence::packet::witnesses`), and `timestamp` those of time
//! stamp authorities. Called by `verify` after the packet itself was checked.

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::Trusts;
use farsiding_core::evidence::VerifierKey;
use farsiding_core::evidence::packet::{
    CheckReport, Code, Files, OutsideTime, Witnessed, outside_time, stamped, witnesses,
};
use x509_cert::Certificate;

use farsiding_timestamp::{self as timestamp, Stamp, StampError};

/// The third parties that the reader trusts.
#[derive(Debug, Clone, Default)]
pub struct Trusted {
    /// The witnesses.
    pub witnesses: Vec<VerifierKey>,
    /// The root certificates that must certify a time stamp's authority.
    pub tsa_roots: Vec<Certificate>,
}

/// A time stamp that leads to a root given by the reader.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NotAfter {
    /// The time by which the checkpoint, and so every entry it covers, existed: the stamped time plus the
    /// inaccuracy that the authority states.
    pub at: UtcMillis,
    /// The name of the authority.
    pub authority: String,
    /// The size of the checkpoint.
    pub size: u64,
}

/// What third parties say about a packet.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Outside {
    /// The time stamps that lead to a given root, earliest first.
    pub not_after: Vec<NotAfter>,
    /// The given witnesses that signed.
    pub witnessed: Vec<Witnessed>,
}

impl Outside {
    /// Returns, for programs, what depends on the organisation's word alone. `whole` says whether the log
    /// commits to all of the stay.
    pub fn word(&self, whole: bool, compared: bool) -> Vec<&'static str> {
        let one_log = !self.witnessed.is_empty() || compared;
        let all = [
            ("devices", true),
            ("besides", true),
            ("times", self.not_after.is_empty()),
            ("one_log", !one_log),
            ("whole", !whole || !one_log),
        ];
        all.into_iter().filter(|(_, rests)| *rests).map(|(word, _)| word).collect()
    }

    /// Returns whether the packet has what `--strict` requires: a time stamp that leads to a given root, and
    /// the signature of a given witness.
    pub fn is_strict(&self) -> bool {
        !self.not_after.is_empty() && !self.witnessed.is_empty()
    }

    /// Returns the last line of the verdict: what is confirmed by others, and what depends on the
    /// organisation's word alone.
    pub fn verdict(&self) -> String {
        let times = self.not_after.first().map(|stamp| {
            format!(
                "{} stamped the log of {} entries: they existed not after {}",
                stamp.authority,
                stamp.size,
                stamp.at.rfc3339()
            )
        });
        let best =
            self.witnessed.iter().max_by_key(|witnessed| (witnessed.size, std::cmp::Reverse(witnessed.at)));
        let one_log = best.map(|witnessed| {
            format!(
                "{} signed the log of {} entries at {} as one that only grew",
                witnessed.name,
                witnessed.size,
                witnessed.at.rfc3339()
            )
        });
        let others = match (times, one_log) {
            (Some(times), Some(one_log)) => {
                format!("Beyond the organisation's own word: {times}; {one_log}.")
            }
            (Some(times), None) => format!(
                "Beyond the organisation's own word: {times}. That there is one log only rests on its word alone."
            ),
            (None, Some(one_log)) => format!(
                "Beyond the organisation's own word: {one_log}. The times in the log rest on its word alone, but for the \
                 witness's clock."
            ),
            (None, None) => "Times and completeness rest on the organisation's word alone.".to_owned(),
        };
        // Certificates are in no log, so no time stamp and no witness confirms them.
        format!(
            "{others} Which devices are its own, and what they may, rests on the organisation's word alone."
        )
    }
}

/// Checks every time stamp of a packet in full and looks for the given witnesses. The results are added to
/// the report. With `strict`, a missing confirmation counts as broken instead of marked.
pub fn outside(
    files: &Files,
    key: &dyn Trusts,
    trusted: &Trusted,
    strict: bool,
    report: &mut CheckReport,
) -> Outside {
    let mut found = Outside::default();
    for stamp in stamped(files, key) {
        let checked = timestamp::check(&stamp.token, stamp.note.as_bytes(), &trusted.tsa_roots);
        told(files, stamp.size, checked, report, &mut found);
    }
    found.not_after.sort_by_key(|stamp| stamp.at);
    found.witnessed = witnesses(files, key, &trusted.witnesses, report);
    if strict && found.not_after.is_empty() {
        report.broken(Code::UncheckedTimeStamp, "no time stamp here holds to a root given with --tsa-root");
    }
    if strict && found.witnessed.is_empty() {
        report.broken(Code::NoWitness, "no witness given with --witness has signed a checkpoint here");
    }
    found
}

fn told(
    files: &Files,
    size: u64,
    checked: Result<Stamp, StampError>,
    report: &mut CheckReport,
    found: &mut Outside,
) {
    let stamp = match checked {
        Ok(stamp) => stamp,
        // An algorithm that this version does not know is no sign of forgery.
        Err(why @ StampError::Unsupported(_)) => {
            let what = format!("the time stamp on the checkpoint of size {size} was not checked: {why}");
            return report.mark(Code::UncheckedTimeStamp, what);
        }
        Err(why) => {
            let what = format!("the time stamp on the checkpoint of size {size} does not hold: {why}");
            return report.broken(Code::ForgedTimeStamp, what);
        }
    };
    let at = UtcMillis(stamp.at.0.saturating_add(stamp.accuracy_millis));
    let authority = &stamp.authority;
    if !stamp.to_a_root {
        let what = format!(
            "the checkpoint of size {size} existed not after {}, on the unverified word of {authority}: no root was given \
             (--tsa-root)",
            at.rfc3339()
        );
        return report.mark(Code::UncheckedTimeStamp, what);
    }
    let what = format!(
        "the checkpoint of size {size}, and every entry it covers, existed not after {}: stamped by {authority}",
        at.rfc3339()
    );
    match outside_time(files, size, at) {
        OutsideTime::Agrees => report.holds(Code::TimeStamp, what),
        OutsideTime::Before(millis) => {
            let minutes = millis / 60_000;
            let what = format!(
                "{what}; the log received an entry it covers {minutes} min later: one of the two clocks was wrong"
            );
            report.mark(Code::TimeStamp, what);
        }
    }
    found.not_after.push(NotAfter { at, authority: stamp.authority, size });
}

#[cfg(test)]
mod tests {
    use super::*;

    fn stamp(at: i64) -> NotAfter {
        NotAfter { at: UtcMillis(at), authority: "CN=Invented".to_owned(), size: 9 }
    }

    fn witness(name: &str, size: u64) -> Witnessed {
        let (name, at) = (name.to_owned(), UtcMillis(1_795_528_800_000));
        Witnessed { name, at, size, covers_all: true }
    }

    #[test]
    fn the_last_line_says_what_lies_outside_the_organisations_word() {
        let none = Outside::default();
        assert!(none.verdict().starts_with("Times and completeness rest on the organisation's word alone."));
        assert_eq!(none.word(true, false), ["devices", "besides", "times", "one_log", "whole"]);
        assert!(!none.is_strict());
        let stamps = Outside { not_after: vec![stamp(1_795_528_800_000)], ..Outside::default() };
        let said = stamps.verdict();
        assert!(said.contains("CN=Invented stamped the log of 9 entries"), "{said}");
        assert!(said.contains("one log only rests on its word alone"), "{said}");
        assert!(!stamps.is_strict());
        let signed = vec![witness("witness.example/w1", 4), witness("witness.example/w2", 9)];
        let witnessed = Outside { witnessed: signed, ..Outside::default() };
        let said = witnessed.verdict();
        assert!(said.contains("witness.example/w2 signed the log of 9 entries"), "{said}");
        assert!(said.contains("The times in the log rest on its word alone"), "{said}");
        assert!(!witnessed.is_strict());
        let both = Outside { not_after: stamps.not_after, ..witnessed };
        assert!(both.is_strict());
        // Whatever others say about the log, only the organisation says which devices belong to it.
        assert_eq!(both.verdict().matches("alone").count(), 1, "{}", both.verdict());
        assert_eq!(both.word(true, false), ["devices", "besides"]);
        assert_eq!(both.word(false, false), ["devices", "besides", "whole"]);
    }
}
