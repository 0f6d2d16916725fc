//! The story on the terminal: plain words, every figure with its unit and its ±.

use std::path::Path;

use farsiding_core::book::Snapshot;
use farsiding_core::ids::EntryId;
use farsiding_core::view::VisitView;
use farsiding_words::english;

use crate::scenario::{Scenario, Scene, Story};
use crate::{DemoError, figures};

const WIDTH: usize = 100;

/// Prints text wrapped, the first line behind `mark`, the others under it.
pub fn line(mark: &str, text: &str) {
    let margin = " ".repeat(mark.chars().count());
    let mut current = mark.to_owned();
    let mut bare = true;
    for word in text.split_whitespace() {
        if !bare && current.chars().count() + 1 + word.chars().count() > WIDTH {
            println!("{}", current.trim_end());
            current = margin.clone();
            bare = true;
        }
        if !bare {
            current.push(' ');
        }
        current.push_str(word);
        bare = false;
    }
    println!("{}", current.trim_end());
}

/// Before everything.
pub fn opening(scenario: &Scenario, url: &str) {
    println!("{}", "=".repeat(WIDTH));
    for paragraph in scenario.cast.told.split("\n\n") {
        line("", paragraph);
        println!();
    }
    line("", &format!("The office server runs at {url}, its clock set by hand."));
    for cast in &scenario.cast.device {
        line("  ", &format!("{}: {} ({})", cast.name, cast.person, cast.role));
    }
}

/// Before a story.
pub fn story(at: usize, of: usize, story: &Story) {
    println!("\n{}", "=".repeat(WIDTH));
    println!("CAR {at} OF {of}: {}, at {}: {}", story.car, story.site, story.title);
    println!("{}", "=".repeat(WIDTH));
    line("", &story.told);
}

/// Before a scene.
pub fn scene(scene: &Scene, person: &str) {
    println!("\n--- {} · {person}, on {} · {}", scene.date, scene.on, scene.title);
    if !scene.told.trim().is_empty() {
        line("    ", &scene.told);
    }
}

/// What a device shows, indented behind the time.
pub fn shown(clock: &str, text: &str) {
    let inner = text.len() - text.trim_start().len();
    line(&format!("  {clock}  » {}", " ".repeat(inner)), text);
}

/// What was recorded.
pub fn recorded(view: &VisitView, gathered: &Snapshot, made: &[(String, EntryId)]) {
    let site = view.header.site.and_then(|site| gathered.sites.get(&site));
    let mut last = "";
    for (clock, id) in made {
        let Some(entry) = view.history.iter().find(|line| line.said.entry == *id) else { continue };
        let worth = gathered
            .entries_of(&view.header.visits)
            .find(|(_, found)| found.id == *id)
            .and_then(|(_, found)| figures::plus_minus(&found.body.says, site));
        let worth = worth.map_or(String::new(), |worth| format!(" [{worth}]"));
        let why = match entry.said.why.as_str() {
            "" => String::new(),
            why => format!(" Because: {why}."),
        };
        let mark = if last == clock { "        ".to_owned() } else { format!("  {clock} ") };
        line(&format!("{mark} "), &format!("{}{worth}{}", english(&entry.sentence), why.replace("..", ".")));
        last = clock;
    }
}

/// After a story.
pub fn summary(view: &VisitView) {
    println!("\n--- What the record of {} says now", view.header.car);
    let released = match &view.release.released {
        Some(known) => format!("released as residue: {}", english(&known.said.signature())),
        None => "not released".to_owned(),
    };
    let devices = match view.header.devices.len() {
        1 => "one device".to_owned(),
        several => format!("{several} devices"),
    };
    line("  * ", &format!("{} entries on {devices}, {released}.", view.entries));
    for quantity in &view.computed {
        let product = if quantity.product.is_empty() {
            String::new()
        } else {
            format!(" ({})", english(&quantity.product))
        };
        line("  * ", &format!("{}: {}{product}.", english(&quantity.title), english(&quantity.message())));
    }
    for ended in view.ended_disagreements.iter().filter(|ended| ended.settled) {
        let by = &ended.ended_by;
        line(
            "  * ",
            &format!(
                "{} Because: {} ({}).",
                english(&by.sentence),
                by.said.why,
                english(&by.said.signature())
            ),
        );
    }
    for word in &view.passed_over {
        line(
            "  * ",
            &format!(
                "Overridden, {}: {} ({}).",
                english(&word.spoken),
                english(&word.why),
                english(&word.said.signature())
            ),
        );
    }
    for handover in &view.handovers {
        let signed = if handover.one_sided { "ONE SIDE ONLY" } else { "both" };
        line("  * ", &format!("Handover from {} to {}, signed by {signed}.", handover.from, handover.to));
    }
    for finding in &view.findings {
        line("  * ", &english(&finding.message));
    }
    line("  * ", &english(&view.release.note));
}

/// A path as it would be typed from here.
fn typed(path: &Path) -> String {
    let here = std::env::current_dir().ok();
    let short = here.and_then(|here| path.strip_prefix(here).ok().map(Path::to_owned));
    short.unwrap_or_else(|| path.to_owned()).display().to_string()
}

/// How the `farsiding` program is started from here.
fn program() -> String {
    crate::office::program().map_or("farsiding".to_owned(), |program| typed(&program))
}

/// After everything: how to read what the devices under `data` keep.
pub fn closing(data: &Path) {
    let (data, farsiding) = (typed(data), program());
    println!("\n{}", "=".repeat(WIDTH));
    println!("That was all of it; everything in it is invented. What the devices keep can be read:\n");
    for command in [
        format!("{farsiding} device list --all --dir {data}/phone-1"),
        format!("{farsiding} device show --dir {data}/phone-1 \"ZZQX 48213\""),
        format!("{farsiding} device history --dir {data}/office-1 \"ZZQX 30551\""),
        format!("{farsiding} device receipts --dir {data}/phone-3"),
        format!("{farsiding} devices --data {data}/office"),
        format!(
            "{farsiding} export packet --data {data}/office --car \"ZZQX 48213\" --out {data}/packet.pdf"
        ),
    ] {
        println!("  {command}");
    }
}

/// Where the office is reached from now on, and as whom.
pub fn office_goes_on(url: &str) {
    let (name, password) = crate::office::CLERK;
    println!("\nThe server goes on with the system's clock; Ctrl-C stops it.\n");
    println!("  the office's pages   {url}/office/");
    println!("                       as \"{name}\", password \"{password}\"");
}

/// Where the phone app opens, enrolled; with a QR code where a phone on the network can follow it.
///
/// # Errors
/// When the address is too long for a QR code.
pub fn phone(address: &str, on_network: bool) -> Result<(), DemoError> {
    println!("  a phone at a siding  {address}");
    if !on_network {
        println!(
            "                       (one browser, within a day; ./demo/run --network lets a real phone open it)"
        );
        return Ok(());
    }
    println!("\n{}", crate::phone::qr_code(address)?);
    line(
        "  ",
        "The phone warns that nobody vouches for the certificate: it was made for this run. One phone, within a day. The app works while it is open; an office with a real certificate lets it be installed.",
    );
    Ok(())
}

/// That there is no phone app, and why.
pub fn no_phone(why: &str) {
    println!("  a phone at a siding  not here: {why}");
}

/// How to make a new record from the command line.
pub fn more_by_hand(data: &Path) {
    let (data, farsiding) = (typed(data), program());
    println!("\nA new record from the command line:\n");
    println!(
        "  {farsiding} device open --dir {data}/phone-2 --car \"ZZQX 100\" --site \"Lantern Spur (invented)\""
    );
    println!("  {farsiding} device next --dir {data}/phone-2 \"ZZQX 100\"");
    println!("  {farsiding} device sync --dir {data}/phone-2");
}
