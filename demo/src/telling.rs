//! The story on the terminal: plain words, every figure with its unit and its ±.

use std::path::Path;

use farsiding_core::book::Snapshot;
use farsiding_core::ids::EntryId;
use farsiding_core::view::VisitView;

use crate::figures;
use crate::scenario::{Scenario, Scene, Story};

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
        line(&format!("{mark} "), &format!("{}{worth}{}", entry.sentence, why.replace("..", ".")));
        last = clock;
    }
}

/// After a story.
pub fn summary(view: &VisitView) {
    println!("\n--- What the record of {} says now", view.header.car);
    let released = match &view.release.released {
        Some(known) => format!("released as residue: {}", known.said.signature()),
        None => "not released".to_owned(),
    };
    let devices = match view.header.devices.len() {
        1 => "one device".to_owned(),
        several => format!("{several} devices"),
    };
    line("  * ", &format!("{} entries on {devices}, {released}.", view.entries));
    for quantity in &view.computed {
        let product =
            if quantity.product.is_empty() { String::new() } else { format!(" ({})", quantity.product) };
        line("  * ", &format!("{}: {}{product}.", quantity.title, quantity.shown()));
    }
    for ended in view.ended_disagreements.iter().filter(|ended| ended.settled) {
        let by = &ended.ended_by;
        line("  * ", &format!("{} Because: {} ({}).", by.sentence, by.said.why, by.said.signature()));
    }
    for word in &view.passed_over {
        line("  * ", &format!("Passed over, {}: {} ({}).", word.spoken, word.why, word.said.signature()));
    }
    for handover in &view.handovers {
        let signed = if handover.one_sided { "ONE SIDE ONLY" } else { "both" };
        line("  * ", &format!("Handover from {} to {}, signed by {signed}.", handover.from, handover.to));
    }
    for finding in &view.findings {
        line("  * ", &finding.message);
    }
    line("  * ", view.release.note);
}

/// After everything.
pub fn closing(data: &Path, url: &str, server_stays: bool) {
    // As it would be typed from here.
    let typed = |path: &Path| {
        let here = std::env::current_dir().ok();
        let short = here.and_then(|here| path.strip_prefix(here).ok().map(Path::to_owned));
        short.unwrap_or_else(|| path.to_owned()).display().to_string()
    };
    let data = typed(data);
    let farsiding = crate::office::program().map_or("farsiding".to_owned(), |program| typed(&program));
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
    if server_stays {
        let (name, password) = crate::office::CLERK;
        println!("\nThe server goes on at {url} with the system's clock; Ctrl-C stops it.\n");
        println!("  the office's pages   {url}/office/   as \"{name}\", password \"{password}\"");
        if crate::office::has_phone_app() {
            println!(
                "  the phone app        {url}/app/      enrol: {farsiding} enrol --data {data}/office --name \"phone 4\""
            );
        } else {
            println!("  the phone app        not built here; ./demo/run --phone builds it first");
        }
        println!("\nA new record:\n");
        let site = "--site \"Lantern Spur (invented)\"";
        println!("  {farsiding} device open --dir {data}/phone-2 --car \"ZZQX 100\" {site}");
        println!("  {farsiding} device next --dir {data}/phone-2 \"ZZQX 100\"");
        println!("  {farsiding} device sync --dir {data}/phone-2");
    }
}
