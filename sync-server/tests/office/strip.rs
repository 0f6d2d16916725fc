//! The steps on paper from the office: of a visit from its page, blank from the page of procedures, and by command.

use std::process::Command;

use super::pages_stage::{Scene, Session};
use super::stage::{Device, farsiding};

/// What pdftotext (poppler-utils) reads in a file.
fn read(file: &std::path::Path) -> String {
    let run = Command::new("pdftotext").arg("-raw").arg(file).arg("-").output();
    let run = run.expect("pdftotext is needed: on Debian, apt-get install poppler-utils");
    assert!(run.status.success(), "{}", String::from_utf8_lossy(&run.stderr));
    let text = String::from_utf8(run.stdout).unwrap();
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Follows the first link of a page that ends so, and returns the text of the PDF behind it.
fn behind(scene: &Scene, office: &Session<'_>, page: &str, end: &str) -> String {
    let shown = office.page(page);
    let at = shown.find(&format!("{end}\"")).unwrap_or_else(|| panic!("no link to \u{2026}{end}: {shown}"));
    let from = shown[..at].rfind("href=\"").unwrap() + "href=\"".len();
    let address = &shown[from..at + end.len()];
    let answer = office.get(address);
    assert_eq!(answer.status, 200);
    assert_eq!(answer.header("content-type").as_deref(), Some("application/pdf"));
    assert!(answer.header("content-disposition").unwrap().starts_with("attachment; filename=\"steps-"));
    let file = scene.folder.path().join("fetched.pdf");
    std::fs::write(&file, &answer.body).unwrap();
    read(&file)
}

#[test]
fn a_visits_steps_and_a_sites_procedure_come_on_paper_from_pages_and_command() {
    let scene = Scene::set();
    let phone: &Device = &scene.phone;
    phone.yes(&["add", "4417", "protection", "hand_brake", "yes"]);
    phone.yes(&["sync"]);
    let office = Session::office(&scene.server);
    office.until(&scene.visit_path(), |page| page.to_lowercase().contains("hand brake"));

    let paper = behind(&scene, &office, &scene.visit_path(), "/strip");
    let brake = paper.find("Hand brake").unwrap();
    assert!(paper.contains("ZZQX 4417") && paper.contains("Ticked as recorded"), "{paper}");
    assert!(paper[brake..brake + 40].contains("Recorded"), "{}", &paper[brake..brake + 40]);
    assert!(paper.contains("Release") && paper.contains("psig"));

    // The same by command, for a stay and blank for a site; and in another language.
    let data = scene.server.data.to_str().unwrap();
    let out = scene.folder.path().join("made.pdf");
    let export = |more: &[&str]| {
        let fixed = ["export", "strip", "--data", data, "--out", out.to_str().unwrap()];
        farsiding(&[&fixed[..], more].concat()).output().unwrap()
    };
    let made = export(&["--car", "ZZQX 4417", "--json"]);
    assert!(made.status.success(), "{}", String::from_utf8_lossy(&made.stderr));
    assert!(read(&out).contains("ZZQX 4417"));
    let site = phone.view(&scene.visit)["header"]["site_name"].as_str().unwrap().to_owned();
    assert!(export(&["--site", &site, "--into", "truck", "--lang", "es-MX"]).status.success());
    let spanish = read(&out);
    assert!(spanish.contains("Pasos en papel") && spanish.contains("autotanque"), "{spanish}");
    assert!(!spanish.contains("ZZQX"), "a blank strip is of no car");
    for (wrong, why) in [
        (&["--site", "Nowhere (invented)"][..], "no site"),
        (&["--car", "ZZQX 9"][..], "no stay"),
        (&["--site", "x", "--into", "barge"][..], "barge"),
    ] {
        let refused = export(wrong);
        assert!(!refused.status.success());
        assert!(String::from_utf8_lossy(&refused.stderr).contains(why), "{wrong:?}");
    }

    // A blank strip of the site from the page of procedures, for tanks and for trucks.
    let tanks = behind(&scene, &office, "/office/procedures", "into=fixed_tank");
    let trucks = behind(&scene, &office, "/office/procedures", "into=truck");
    assert!(tanks.contains("Room in the tank") && !trucks.contains("Room in the tank"), "{trucks}");
    assert!(tanks.contains("percent") || tanks.contains('%'), "{tanks}");
}
