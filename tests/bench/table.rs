//! How the bench says what it measured: one line each, ours beside its rival, and which promises broke.

use std::time::Duration;

/// Something measured.
#[derive(Clone, Copy)]
pub enum Figure {
    /// How long something took.
    Time(Duration),
    /// How many bytes something has.
    Bytes(u64),
    /// How often something happened in a second.
    Rate(f64),
}

impl Figure {
    fn number(self) -> f64 {
        match self {
            Figure::Time(time) => time.as_secs_f64(),
            Figure::Bytes(bytes) => bytes as f64,
            Figure::Rate(rate) => rate,
        }
    }
}

impl std::fmt::Display for Figure {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Figure::Time(time) => f.pad(&format!("{time:.2?}")),
            Figure::Bytes(bytes) => f.pad(&format!("{bytes} B")),
            Figure::Rate(rate) => f.pad(&format!("{rate:.0}/s")),
        }
    }
}

/// What a figure, divided by its rival's, should come to.
#[derive(Clone, Copy)]
pub enum Aim {
    /// At most this. Missing it is said and explained, no more: times depend on the machine.
    AtMost(f64),
    /// At least this.
    AtLeast(f64),
    /// At most this, and the bench fails where it is not: bytes do not depend on the machine.
    Promised(f64),
    /// Nothing was promised; the rival is there to compare.
    Shown,
}

/// The lines printed so far.
#[derive(Default)]
pub struct Table {
    broken: Vec<String>,
}

impl Table {
    /// Prints one line: `bench <what> ours rival ratio aim verdict`.
    pub fn row(&mut self, what: &str, ours: Figure, rival: &str, theirs: Figure, aim: Aim) {
        let ratio = ours.number() / theirs.number();
        let (aim, verdict) = match aim {
            Aim::AtMost(most) => (format!("<= {most:.1}x"), if ratio <= most { "within" } else { "MISSED" }),
            Aim::AtLeast(least) => {
                (format!(">= {least:.1}x"), if ratio >= least { "within" } else { "MISSED" })
            }
            Aim::Promised(most) => {
                if ratio > most {
                    self.broken.push(format!("{what}: {ratio:.3}x, {most}x is promised"));
                }
                (format!("<= {most:.1}x"), if ratio <= most { "within" } else { "BROKEN" })
            }
            Aim::Shown => ("-".to_owned(), "shown"),
        };
        println!(
            "bench {what:<46} ours {ours:>11}  rival {theirs:>11} ({rival})  ratio {ratio:.2}x  aim {aim}  {verdict}"
        );
    }

    /// Prints a figure that has a limit of its own and no rival; the bench fails where it is passed.
    pub fn limit(&mut self, what: &str, ours: u64, most: u64) {
        let verdict = if ours <= most { "within" } else { "BROKEN" };
        if ours > most {
            self.broken.push(format!("{what}: {ours}, {most} is promised"));
        }
        println!("bench {what:<46} ours {ours:>11}  aim <= {most}  {verdict}");
    }

    /// Prints what belongs to the line above.
    pub fn note(&self, text: &str) {
        println!("    {text}");
    }

    /// Prints that something was not measured, and why.
    pub fn skipped(&self, what: &str, why: &str) {
        println!("bench {what:<46} skipped: {why}");
    }

    /// The promises that were broken.
    pub fn broken(&self) -> &[String] {
        &self.broken
    }
}

/// The middle one of some timings.
pub fn middle(mut times: Vec<Duration>) -> Duration {
    times.sort_unstable();
    times[times.len() / 2]
}

/// The median of `rounds` timings of two things done in turn, so that both meet the same machine.
pub fn in_turn(
    rounds: usize,
    mut ours: impl FnMut(usize),
    mut theirs: impl FnMut(usize),
) -> (Duration, Duration) {
    let (mut our_times, mut their_times) = (Vec::new(), Vec::new());
    for round in 0..rounds {
        our_times.push(timed(|| ours(round)));
        their_times.push(timed(|| theirs(round)));
    }
    (middle(our_times), middle(their_times))
}

/// How long `work` took.
pub fn timed(work: impl FnOnce()) -> Duration {
    let start = std::time::Instant::now();
    work();
    start.elapsed()
}
