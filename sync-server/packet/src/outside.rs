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
use farsiding_core::{Arg, Joint, Message, message};
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
    pub fn verdict(&self) -> Message {
        let times = self.not_after.first().map(|stamp| {
            let (authority, at) = (typed(&stamp.authority), typed(stamp.at.rfc3339()));
            message!("verify-verdict-stamped", authority = authority, size = typed(stamp.size), at = at)
        });
        let best =
            self.witnessed.iter().max_by_key(|witnessed| (witnessed.size, std::cmp::Reverse(witnessed.at)));
        let one_log = best.map(|witnessed| {
            let (name, at) = (typed(&witnessed.name), typed(witnessed.at.rfc3339()));
            message!("verify-verdict-witnessed", name = name, size = typed(witnessed.size), at = at)
        });
        let others = match (times, one_log) {
            (Some(times), Some(one_log)) => {
                message!("verify-verdict-both", stamped = times, witnessed = one_log)
            }
            (Some(times), None) => message!("verify-verdict-stamp-alone", stamped = times),
            (None, Some(one_log)) => message!("verify-verdict-witness-alone", witnessed = one_log),
            (None, None) => message!("verify-verdict-alone"),
        };
        // Certificates are in no log, so no time stamp and no witness confirms them.
        let all = Arg::list(Joint::Sentences, [others, message!("verify-verdict-devices")]);
        message!("verify-parts", parts = all)
    }
}

/// Returns a name, a number or a time as it is in every language.
fn typed(what: impl ToString) -> Arg {
    Arg::typed(what.to_string())
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
        report.broken(Code::UncheckedTimeStamp, message!("verify-strict-stamp"));
    }
    if strict && found.witnessed.is_empty() {
        report.broken(Code::NoWitness, message!("verify-strict-witness"));
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
            let what = message!("verify-stamp-unchecked", size = typed(size), why = typed(why));
            return report.mark(Code::UncheckedTimeStamp, what);
        }
        Err(why) => {
            let what = message!("verify-stamp-forged", size = typed(size), why = typed(why));
            return report.broken(Code::ForgedTimeStamp, what);
        }
    };
    let at = UtcMillis(stamp.at.0.saturating_add(stamp.accuracy_millis));
    let authority = &stamp.authority;
    if !stamp.to_a_root {
        let what = message!(
            "verify-stamp-no-root",
            size = typed(size),
            at = typed(at.rfc3339()),
            authority = typed(authority)
        );
        return report.mark(Code::UncheckedTimeStamp, what);
    }
    let what =
        message!("verify-stamp", size = typed(size), at = typed(at.rfc3339()), authority = typed(authority));
    match outside_time(files, size, at) {
        OutsideTime::Agrees => report.holds(Code::TimeStamp, what),
        OutsideTime::Before(millis) => {
            let minutes = millis / 60_000;
            let what = message!("verify-clocks-differ", what = what, minutes = typed(minutes));
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

    fn said(outside: &Outside) -> String {
        farsiding_words::Words::english().text(&outside.verdict())
    }

    #[test]
    fn the_last_line_says_what_lies_outside_the_organisations_word() {
        let none = Outside::default();
        assert!(said(&none).starts_with("Times and completeness rest on the organization's word alone."));
        assert_eq!(none.word(true, false), ["devices", "besides", "times", "one_log", "whole"]);
        assert!(!none.is_strict());
        let stamps = Outside { not_after: vec![stamp(1_795_528_800_000)], ..Outside::default() };
        let text = said(&stamps);
        assert!(text.contains("CN=Invented stamped the log of 9 entries"), "{text}");
        assert!(text.contains("one log only rests on its word alone"), "{text}");
        assert!(!stamps.is_strict());
        let signed = vec![witness("witness.example/w1", 4), witness("witness.example/w2", 9)];
        let witnessed = Outside { witnessed: signed, ..Outside::default() };
        let text = said(&witnessed);
        assert!(text.contains("witness.example/w2 signed the log of 9 entries"), "{text}");
        assert!(text.contains("The times in the log rest on its word alone"), "{text}");
        assert!(!witnessed.is_strict());
        let both = Outside { not_after: stamps.not_after, ..witnessed };
        assert!(both.is_strict());
        // Whatever others say about the log, only the organisation says which devices belong to it.
        assert_eq!(said(&both).matches("alone").count(), 1, "{}", said(&both));
        assert_eq!(both.word(true, false), ["devices", "besides"]);
        assert_eq!(both.word(false, false), ["devices", "besides", "whole"]);
    }
}
