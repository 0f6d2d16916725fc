//! `kill -9` at random moments: what was acknowledged is there, and goes to the office.

use std::io::Read as _;
use std::process::Stdio;
use std::time::{Duration, Instant};

use farsiding_testkit::Dice;

use crate::stage::{Device, Server, ids};

#[test]
fn whatever_was_acknowledged_survives_kill_9_and_reaches_the_office() {
    let mut dice = Dice::thrown();
    let folder = tempfile::tempdir().unwrap();
    let server = Server::in_folder(folder.path());
    let phone = Device::enrolled(&server, &folder.path().join("phone-1"), "ash");
    let visit = phone.open("ZZQX 4417");
    let began = Instant::now();
    phone.yes(&["add", &visit, "remark", "how long does this take"]);
    let usual = usize::try_from(began.elapsed().as_millis()).unwrap().max(4);

    let mut acknowledged: Vec<String> = Vec::new();
    let (mut cut_short, rounds) = (0, 40);
    for round in 0..rounds {
        let text = format!("round {round}");
        let syncs = round % 4 == 3;
        let arguments: &[&str] =
            if syncs { &["sync", "--json"] } else { &["add", &visit, "remark", &text, "--json"] };
        let mut child =
            phone.command(arguments).stdout(Stdio::piped()).stderr(Stdio::null()).spawn().unwrap();
        std::thread::sleep(Duration::from_millis(dice.below(usual * 5 / 4) as u64));
        child.kill().unwrap(); // SIGKILL
        let mut said = String::new();
        child.stdout.take().unwrap().read_to_string(&mut said).unwrap();
        child.wait().unwrap();
        match serde_json::from_str::<serde_json::Value>(&said) {
            Ok(answer) if !syncs => acknowledged.extend(ids(&answer)),
            Ok(_) => {}
            Err(_) => cut_short += 1,
        }
    }
    println!("{} of {rounds} acknowledged, {cut_short} cut short", acknowledged.len());
    assert!(cut_short > 0, "nothing was ever cut short: the moments are not random enough");

    let view = phone.view(&visit);
    let here: Vec<&str> =
        view["history"].as_array().unwrap().iter().map(|l| l["said"]["entry"].as_str().unwrap()).collect();
    for id in &acknowledged {
        assert!(here.contains(&id.as_str()), "{id} was acknowledged and is gone");
    }
    assert_eq!(view["chain_gaps"].as_array().unwrap().len(), 0, "{}", view["chain_gaps"]);

    let told = phone.yes(&["sync"]);
    assert_eq!(told["unreceipted_entries"], 0, "{told}");
    assert_eq!(phone.view(&visit)["unreceipted"], 0);
    let other = Device::of_operator(&server, &folder.path().join("phone-2"), "birch");
    other.yes(&["sync"]);
    let there = other.view("4417");
    let there: Vec<&str> =
        there["history"].as_array().unwrap().iter().map(|l| l["said"]["entry"].as_str().unwrap()).collect();
    assert!(acknowledged.iter().all(|id| there.contains(&id.as_str())));
}
