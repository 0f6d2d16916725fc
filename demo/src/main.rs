//! `demo/run` ends here: plays the scenario, then leaves the server running, or stops with `--once`.

use std::path::PathBuf;
use std::process::ExitCode;

use clap::Parser;
use farsiding_demo::DemoError;
use farsiding_demo::office::Office;
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
    let scenario = Scenario::read(&arguments.scenario)?;
    let mut office = Office::start_anew(&arguments.data, arguments.port, scenario.begins())?;
    telling::opening(&scenario, office.url());
    let mut player = Player::new(&scenario, &mut office)?;
    player.play()?;
    drop(player);
    telling::closing(&arguments.data, office.url(), !arguments.once);
    if arguments.once { office.stop() } else { office.serve_on() }
}
