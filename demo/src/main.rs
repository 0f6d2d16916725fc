//! `demo/run` ends here: plays the scenario, then leaves the server running, or stops with `--once`.

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use clap::Parser;
use farsiding_demo::DemoError;
use farsiding_demo::month::{self, Fault, MONTH};
use farsiding_demo::office::{Office, welcome_clerk};
use farsiding_demo::player::Player;
use farsiding_demo::scenario::Scenario;
use farsiding_demo::telling;

/// Plays an invented scenario through the real server and tells it in plain words.
#[derive(Debug, Parser)]
struct Arguments {
    /// Play it through and stop.
    #[arg(long)]
    once: bool,
    /// Where the scenario stands.
    #[arg(long, value_name = "DIR", default_value = concat!(env!("CARGO_MANIFEST_DIR"), "/scenario"))]
    scenario: PathBuf,
    /// Where the server's and the devices' folders are made anew.
    #[arg(long, value_name = "DIR", default_value = concat!(env!("CARGO_MANIFEST_DIR"), "/.data"))]
    data: PathBuf,
    /// Play an invented month of 2 sites x 60 cars into an empty DIR instead, and stop: for reconciling.
    #[arg(long, value_name = "DIR")]
    month: Option<PathBuf>,
    /// The month's seed.
    #[arg(long, default_value_t = 1, requires = "month")]
    seed: u64,
    /// Faults planted in the month: all, none, or some of biased_gauge,duplicated_seal,lost_entry,swapped_number,overfilled.
    #[arg(long, default_value = "all", requires = "month")]
    faults: String,
    /// The server's port; a free one when it is taken or 0.
    #[arg(long, default_value_t = 8460)]
    port: u16,
}

fn main() -> ExitCode {
    match play(&Arguments::parse()) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("demo: {error}");
            ExitCode::FAILURE
        }
    }
}

fn play(arguments: &Arguments) -> Result<(), DemoError> {
    if let Some(folder) = &arguments.month {
        return play_month(folder, arguments);
    }
    let scenario = Scenario::read(&arguments.scenario)?;
    let mut office = Office::start_anew(&arguments.data, arguments.port, scenario.begins())?;
    telling::opening(&scenario, office.url());
    let mut player = Player::new(&scenario, &mut office)?;
    player.play()?;
    drop(player);
    if !arguments.once {
        welcome_clerk(&arguments.data)?;
    }
    telling::closing(&arguments.data, office.url(), !arguments.once);
    if arguments.once { office.stop() } else { office.serve_on() }
}

fn play_month(folder: &Path, arguments: &Arguments) -> Result<(), DemoError> {
    let faults = Fault::read(&arguments.faults).ok_or_else(|| DemoError::Scenario {
        place: "--faults".to_owned(),
        why: format!("\"{}\" names no fault", arguments.faults),
    })?;
    month::play(folder, arguments.seed, &faults)?;
    let office = folder.join("office");
    println!("An invented month stands in {}, what was planted in planted.json.", folder.display());
    println!("farsiding export reconcile --data {} --month {MONTH} --format json", office.display());
    println!("farsiding serve --data {}", office.display());
    Ok(())
}
