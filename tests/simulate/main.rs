//! Simulation: the real core, phones and an office in one process, with everything going wrong, from one seed.
//!
//! `./tests/run simulate [--seeds N | --minutes M] [--from SEED]`; a failure names the one seed that plays it
//! again, and `--trace` prints what happened. Under a plain `cargo test` a few seeds are played.
//! Lives here: the command line, progress, and telling failures. What happens is in `world`, what must
//! hold in `checks`, whose word may count in `counting`.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    missing_docs,
    reason = "a failed unwrap is a failed simulation, told with its seed"
)]

mod checks;
mod counting;
mod dishonest;
mod disk;
mod parties;
mod recording;
mod sites;
mod world;

use std::collections::BTreeMap;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::process::ExitCode;
use std::sync::Mutex;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::time::{Duration, Instant};

use world::World;

/// Seeds played by a plain `cargo test`.
const A_FEW: u64 = 24;

struct Asked {
    /// How many, or as many as the time allows.
    seeds: Option<u64>,
    time: Duration,
    from: u64,
    trace: bool,
}

fn asked() -> Result<Option<Asked>, String> {
    let mut asked = Asked { seeds: Some(A_FEW), time: Duration::MAX, from: 1, trace: false };
    let mut arguments = std::env::args().skip(1);
    while let Some(argument) = arguments.next() {
        let mut number = || {
            let text = arguments.next().ok_or(format!("{argument} takes a number"))?;
            text.parse().map_err(|_| format!("{argument}: \"{text}\" is no number"))
        };
        match argument.as_str() {
            "--seeds" => asked.seeds = Some(number()?),
            "--minutes" => (asked.seeds, asked.time) = (None, Duration::from_secs(60 * number()?)),
            "--from" => asked.from = number()?,
            "--trace" => asked.trace = true,
            "--list" => return Ok(None),
            // What cargo hands to every test program: a name to look for, or how to print.
            other if other.starts_with('-') => {}
            name if "simulate".contains(name) => {}
            _ => return Ok(None),
        }
    }
    Ok(Some(asked))
}

/// Plays one seed; what happened, counted by kind.
fn play(seed: u64, trace: bool) -> BTreeMap<&'static str, usize> {
    let mut world = World::new(seed, trace);
    for _ in 0..1 + world.dice.below(3) {
        for _ in 0..20 + world.dice.below(120) {
            world.happen();
        }
        world.make_quiet();
        world.check();
    }
    world.seen.insert("entries acknowledged", world.acknowledged.len());
    world.seen
}

std::thread_local! {
    static LAST_PANIC: std::cell::RefCell<String> = const { std::cell::RefCell::new(String::new()) };
}

fn main() -> ExitCode {
    let asked = match asked() {
        Ok(Some(asked)) => asked,
        Ok(None) => return ExitCode::SUCCESS,
        Err(why) => {
            eprintln!("{why}");
            return ExitCode::from(2);
        }
    };
    // Panics of a library that the core catches are no news; those that end a seed are told with it.
    std::panic::set_hook(Box::new(|panic| {
        LAST_PANIC.with(|last| *last.borrow_mut() = panic.to_string());
    }));
    let (next, failed) = (AtomicU64::new(asked.from), AtomicBool::new(false));
    let seen: Mutex<BTreeMap<&str, usize>> = Mutex::default();
    let told = Mutex::new(Instant::now());
    let began = Instant::now();
    let end = asked.seeds.map_or(u64::MAX, |seeds| asked.from.saturating_add(seeds));
    let of = asked.seeds.map_or_else(String::new, |seeds| format!(" of {seeds}"));
    let played = AtomicU64::new(0);
    let threads = if asked.trace { 1 } else { std::thread::available_parallelism().map_or(1, usize::from) };
    std::thread::scope(|scope| {
        for _ in 0..threads.min(usize::try_from(end - asked.from).unwrap_or(usize::MAX)) {
            scope.spawn(|| {
                loop {
                    // The time is looked at before a seed is taken, so that those taken are all played.
                    if began.elapsed() >= asked.time || failed.load(Ordering::Relaxed) {
                        return;
                    }
                    let seed = next.fetch_add(1, Ordering::Relaxed);
                    if seed >= end {
                        return;
                    }
                    match catch_unwind(AssertUnwindSafe(|| play(seed, asked.trace))) {
                        Ok(counts) => {
                            let done = played.fetch_add(1, Ordering::Relaxed) + 1;
                            let mut seen = seen.lock().unwrap();
                            for (kind, count) in counts {
                                *seen.entry(kind).or_default() += count;
                            }
                            let mut told = told.lock().unwrap();
                            if told.elapsed() > Duration::from_secs(10) {
                                *told = Instant::now();
                                println!("{done}{of} seeds, {} s", began.elapsed().as_secs());
                            }
                        }
                        Err(_) => {
                            failed.store(true, Ordering::Relaxed);
                            let why = LAST_PANIC.with(|last| last.borrow().clone());
                            println!("seed {seed} FAILED: {why}");
                            println!(
                                "seed {seed} plays it again: ./tests/run simulate --seeds 1 --from {seed}"
                            );
                        }
                    }
                }
            });
        }
    });
    if failed.load(Ordering::Relaxed) {
        return ExitCode::FAILURE;
    }
    for (kind, count) in seen.lock().unwrap().iter() {
        println!("  {count:>9} {kind}");
    }
    let seconds = began.elapsed().as_secs_f64();
    let played = played.into_inner();
    println!(
        "seeds {} to {} held: {played} in {seconds:.0} s",
        asked.from,
        asked.from + played.saturating_sub(1)
    );
    ExitCode::SUCCESS
}
