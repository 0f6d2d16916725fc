//! `demo/run` ends here: plays the scenario, then leaves the server running, or stops with `--once`.

use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::time::SystemTime;

use clap::Parser;
use farsiding_core::clock::UtcMillis;
use farsiding_demo::DemoError;
use farsiding_demo::month::{self, Fault, MONTH};
use farsiding_demo::network::Network;
use farsiding_demo::office::{Office, welcome_clerk};
use farsiding_demo::phone::{self, PhoneBuild};
use farsiding_demo::player::Player;
use farsiding_demo::scenario::Scenario;
use farsiding_demo::telling;

/// Whose name stands on the phone of whoever looks at the demonstration.
const VISITOR: &str = "ash";

/// Plays an invented scenario through the real server and tells it in plain words.
#[derive(Debug, Parser)]
struct Arguments {
    /// Play it through and stop.
    #[arg(long)]
    once: bool,
    /// Do not build the phone app; one that was built before is handed out.
    #[arg(long)]
    no_phone: bool,
    /// In the end be reached from the local network as well, with a certificate made for this run.
    #[arg(long, conflicts_with = "once")]
    network: bool,
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
    let building = match arguments.once || arguments.no_phone {
        true => None,
        false => Some(PhoneBuild::begin("target/demo-phone.log".into())?),
    };
    let mut office = Office::start_anew(&arguments.data, arguments.port, scenario.begins())?;
    let network = arguments.network.then(|| Network::here(&arguments.data)).transpose()?;
    telling::opening(&scenario, office.url());
    let mut player = Player::new(&scenario, &mut office)?;
    player.play()?;
    let (site_name, site) = player.first_site()?;
    if !arguments.once {
        player.leaves_a_car(now())?;
    }
    drop(player);
    office.stop()?;
    if arguments.once {
        telling::closing(&arguments.data);
        return Ok(());
    }
    welcome_clerk(&arguments.data)?;
    let built = building.map_or(Ok(Ok(())), PhoneBuild::wait)?;
    telling::closing(&arguments.data);
    let url = network.as_ref().map_or(office.url().to_owned(), |network| network.url(office.port()));
    telling::office_goes_on(&url);
    match built {
        Ok(()) if phone::is_built() => {
            let link = office.phone_link(phone::NAME, &site_name, &url)?;
            let address = phone::opening_link(&link, VISITOR, &site.to_string());
            telling::phone(&address, network.is_some())?;
        }
        Ok(()) => telling::no_phone("--no-phone was given and none was built before"),
        Err(why) => telling::no_phone(&why),
    }
    if network.is_none() {
        telling::more_by_hand(&arguments.data);
    }
    office.serve_on(network.as_ref())
}

/// The system's time.
fn now() -> UtcMillis {
    let since = SystemTime::now().duration_since(SystemTime::UNIX_EPOCH).unwrap_or_default();
    UtcMillis(i64::try_from(since.as_millis()).unwrap_or(i64::MAX))
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
