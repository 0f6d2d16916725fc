//! Shipping papers uploaded as a file: previewed first, stored byte for byte, with the mapping remembered. A
//! form with a file follows the same rules as any other.

use std::time::{Duration, Instant};

use farsiding_core::ids::Digest;

use super::pages_stage::{Scene, Session, post, text, value_of};
use super::stage::{Answer, farsiding};

const LF: &str = "Doc,Equipment,From,When,Qty\nINV-1,ZZQX 4417,North (invented),2026-10-02,29200\n\
                  INV-2,the green one,North (invented),2026-10-03,29300\n";

/// Returns a form with a file as a browser sends it.
fn multipart(pairs: &[(&str, &str)], file: Option<(&str, &[u8])>) -> Vec<u8> {
    let mut body = Vec::new();
    for (name, value) in pairs {
        let part = format!("--edge\r\ncontent-disposition: form-data; name=\"{name}\"\r\n\r\n{value}\r\n");
        body.extend_from_slice(part.as_bytes());
    }
    if let Some((called, bytes)) = file {
        let head = format!(
            "--edge\r\ncontent-disposition: form-data; name=\"file\"; filename=\"{called}\"\r\ncontent-type: text/csv\r\n\r\n"
        );
        body.extend_from_slice(head.as_bytes());
        body.extend_from_slice(bytes);
        body.extend_from_slice(b"\r\n");
    }
    body.extend_from_slice(b"--edge--\r\n");
    body
}

fn send(office: &Session<'_>, headers: &[(&str, &str)], body: &[u8]) -> Answer {
    let mut all =
        vec![("content-type", "multipart/form-data; boundary=edge"), ("cookie", office.cookie.as_str())];
    all.extend_from_slice(headers);
    office.server.ask("POST", "/office/papers/preview", &all, body)
}

fn choose(office: &Session<'_>, called: &str, bytes: &[u8]) -> Answer {
    send(office, &[], &multipart(&[("csrf", &office.token())], Some((called, bytes))))
}

#[test]
fn a_chosen_file_is_looked_over_kept_to_the_byte_and_its_mapping_remembered() {
    let scene = Scene::set();
    let office = Session::office(&scene.server);
    let page = text(&choose(&office, "october (invented).csv", LF.as_bytes()));
    assert!(page.contains("<h1>october (invented).csv</h1>"), "{page}");
    assert!(page.contains("These headings are new."), "{page}");
    let kept = value_of(&page, "kept").unwrap();
    let said =
        [("number", "0"), ("car", "1"), ("shipper", "2"), ("day", "3"), ("billed", "4"), ("unit", "gal")];
    let mut form = vec![("name", "october (invented).csv"), ("kept", kept.as_str())];
    form.extend_from_slice(&said);
    let looked = text(&office.send("/office/papers/preview", &form));
    assert!(looked.contains("1 of 2 lines can be imported"), "{looked}");
    assert!(looked.contains("is no car number") && looked.contains("29200 gal"), "{looked}");
    let taken = office.send("/office/papers/take", &form);
    assert_eq!(taken.status, 303, "{}", text(&taken));
    let page = office.page("/office/papers");
    let digest = Digest::of(LF.as_bytes());
    let path = format!("/office/papers/files/{digest}");
    assert!(page.contains("october (invented).csv") && page.contains(&path), "{page}");
    assert_eq!(office.get(&path).body, LF.as_bytes(), "its line ends are its own");
    // The next file with the same headings is read in the same way without questions.
    let next = LF.replace("INV", "NEXT");
    let page = text(&choose(&office, "november.csv", next.as_bytes()));
    assert!(
        page.contains("Columns as in the last file with these headings") && page.contains("NEXT-1"),
        "{page}"
    );
    assert!(page.contains("1 of 2 lines"), "{page}");
}

#[test]
fn a_form_with_a_file_is_held_to_the_rules_of_every_form() {
    let scene = Scene::set();
    let office = Session::office(&scene.server);
    let token = office.token();
    let with = |pairs: &[(&str, &str)], bytes: &[u8]| multipart(pairs, Some(("x.csv", bytes)));
    assert_eq!(send(&office, &[], &with(&[], LF.as_bytes())).status, 403, "no token");
    assert_eq!(send(&office, &[], &with(&[("csrf", "AAAA")], LF.as_bytes())).status, 403, "a wrong token");
    let whole = with(&[("csrf", &token)], LF.as_bytes());
    assert_eq!(send(&office, &[("sec-fetch-site", "cross-site")], &whole).status, 403, "another site");
    assert_eq!(send(&office, &[], &whole).status, 200);
    let refused = |body: &[u8], why: &str| {
        let answer = send(&office, &[], body);
        assert_eq!(answer.status, 422, "{}", text(&answer));
        assert!(text(&answer).contains(why), "{why}: {}", text(&answer));
    };
    refused(&with(&[("csrf", &token)], b"car\nZZQX\xff4417\n"), "not UTF-8");
    refused(&with(&[("csrf", &token)], b" \r\n"), "Choose a file");
    refused(&multipart(&[("csrf", &token)], None), "Choose a file");
    refused(&with(&[("csrf", &token)], &vec![b'a'; 2 * 1024 * 1024 + 1]), "larger than 2 MB");
    refused(&whole[..whole.len() - 30], "did not arrive complete");
    refused(&with(&[("csrf", &token)], &vec![b'a'; 5 * 1024 * 1024]), "too large");
    // A file's name is text like any other and never a path on the server.
    let odd = multipart(&[("csrf", &token)], Some(("../<b>x</b>.csv", LF.as_bytes())));
    let page = text(&send(&office, &[], &odd));
    assert!(page.contains("&lt;b&gt;x&lt;/b&gt;") && !page.contains("<b>x</b>"), "{page}");
    let kept = office.send("/office/papers/take", &[("kept", "not base64!"), ("unit", "gal")]);
    assert_eq!(kept.status, 422);
    let none = post(&scene.server, "/office/papers/preview", &[("cookie", office.cookie.as_str())], "");
    assert_eq!(none.status, 403);
    assert!(office.page("/office/papers").contains("None yet"), "nothing was kept by any of it");
}

#[test]
fn who_may_sign_in_and_who_looked_stand_on_pages_of_their_own() {
    let scene = Scene::set();
    let office = Session::office(&scene.server);
    scene.link(&office);
    let page = office.page("/office/accounts");
    assert!(
        page.contains("Clerk") && page.contains("may sign in") && page.contains("An inspector"),
        "{page}"
    );
    office.page(&scene.visit_path());
    let audit = office.page("/office/audit");
    assert!(audit.contains("signed in") && audit.contains(&scene.visit[..8]), "{audit}");
    let only = office.page("/office/audit?q=MADE+a+link");
    assert!(only.contains("made a link") && !only.contains("signed in</td>"), "{only}");
    assert!(office.page("/office/audit?q=nothing+of+the+kind").contains("Nothing found"));
    for _ in 0..101 {
        office.page("/office/accounts");
    }
    let page = office.page("/office/audit");
    let before = value_of(&page, "before").expect("there is more than one page of it");
    assert!(office.page(&format!("/office/audit?before={before}")).contains("signed in"));
}

/// What the device's own list of sites says.
fn site_of(scene: &Scene) -> String {
    scene.phone.yes(&["site", "list"])["sites"][0]["site"].as_str().unwrap().to_owned()
}

const SENT: &str = "Paper,Car,Shipper,Date,Quantity,SG,UN number,Proper shipping name,Odorized,Expected\n\
                    INV-1,ZZQX 5001,North (invented),,29200,0.507,UN1075,Liquefied petroleum gas,yes,\n\
                    INV-2,ZZQX 5002,North (invented),,29300 gal,,UN1075,<b>gas</b>,,\n\
                    INV-0,ZZQX 5001,North (invented),2001-02-03,11111,,,,,\n\
                    INV-3,the green one,North (invented),,29300,,,,,\n";

/// Imports the file of papers that are sent and returns the address from which they are.
fn imported(office: &Session<'_>) -> String {
    let kept = value_of(&text(&choose(office, "sent (invented).csv", SENT.as_bytes())), "kept").unwrap();
    let columns = [
        ("number", "0"),
        ("car", "1"),
        ("shipper", "2"),
        ("day", "3"),
        ("billed", "4"),
        ("density", "5"),
        ("un_number", "6"),
        ("product", "7"),
        ("odorised", "8"),
        ("expected", "9"),
        ("unit", "gal"),
        ("name", "sent (invented).csv"),
        ("kept", kept.as_str()),
    ];
    let taken = office.send("/office/papers/take", &columns);
    assert_eq!(taken.status, 303, "{}", text(&taken));
    let address = taken.header("location").unwrap().to_owned();
    assert_eq!(address, format!("/office/papers/files/{}/send", Digest::of(SENT.as_bytes())));
    address
}

#[test]
fn papers_go_to_a_site_only_when_somebody_sends_them_and_one_is_taken_back() {
    let scene = Scene::set();
    let office = Session::office(&scene.server);
    let site = site_of(&scene);
    let address = imported(&office);
    assert!(office.page("/office/papers").contains("Nothing was sent to a site."), "an import sends nothing");
    let page = office.page(&address);
    assert!(page.contains("29200 gal") && page.contains("relative density 0.507"), "{page}");
    assert!(page.contains("&lt;b&gt;gas&lt;/b&gt;") && !page.contains("<b>gas</b>"), "{page}");
    assert!(!page.contains("the green one"), "what cannot be read is not sent");
    assert!(!page.contains("INV-0"), "of two papers of a car the older one is not");
    // Without a site or without a paper nothing is sent, and what was chosen stays.
    let none = office.send(&address, &[("site", site.as_str())]);
    assert_eq!(none.status, 422);
    assert!(text(&none).contains("Choose at least one paper."));
    let nowhere = office.send(&address, &[("line-3", "yes")]);
    assert_eq!(nowhere.status, 422);
    let shown = text(&nowhere);
    let checked =
        |line: &str| shown.split(&format!("id=\"{line}\"")).nth(1).unwrap()[..60].contains("checked");
    assert!(checked("line-3") && !checked("line-2"), "{shown}");
    let elsewhere = [("line-3", "yes"), ("site", "5a5a5a5a5a5a5a5a5a5a5a5a5a5a5a5a")];
    assert_eq!(office.send(&address, &elsewhere).status, 422, "a site that is none");
    let both = [("site", site.as_str()), ("line-2", "yes"), ("line-3", "yes")];
    let sent = office.send(&address, &both);
    assert_eq!(sent.status, 303, "{}", text(&sent));
    let page = office.page("/office/papers");
    assert!(page.contains("ZZQX 5001") && page.contains("ZZQX 5002"), "{page}");
    assert!(page.contains("sent (invented).csv") && page.contains(">expected<"), "{page}");
    let again = office.send(&address, &both);
    assert_eq!(again.status, 422);
    assert!(text(&again).contains("These papers stand at the site already."));
    // The phone learns of them, and the office that the car came.
    scene.phone.yes(&["sync"]);
    let visit = scene.phone.open("ZZQX 5001");
    scene.phone.yes(&["sync"]);
    office.until("/office/papers", |page| page.contains(&format!("/office/visits/{visit}")));
    let back = {
        let page = office.page("/office/papers");
        let row = page.split("ZZQX 5002").nth(1).unwrap();
        let action = row.split("action=\"").nth(1).unwrap();
        action.split('"').next().unwrap().to_owned()
    };
    let silent = office.send(&back, &[("because", " ")]);
    assert_eq!(silent.status, 422, "not without a reason");
    let taken = office.send(&back, &[("because", "billed to another site")]);
    assert_eq!(taken.status, 303, "{}", text(&taken));
    assert!(!office.page("/office/papers").contains(&back), "it stands there no more");
    assert_eq!(office.send(&back, &[("because", "twice")]).status, 404);
    let did: Vec<String> = scene.audit().into_iter().map(|(_, did, _)| did).collect();
    assert!(did.contains(&"sent papers to a site".to_owned()), "{did:?}");
    assert!(did.contains(&"took a sent paper back".to_owned()), "{did:?}");
}

/// A phone that listens for hints, as one in a hand does while it has signal.
struct Listener {
    stream: std::net::TcpStream,
    heard: String,
}

impl Listener {
    fn of(scene: &Scene) -> Listener {
        use std::io::Write as _;
        let pass = scene.phone.pass(&scene.server, 1).unwrap();
        let mut stream = scene.server.connect();
        write!(stream, "GET /v1/hints HTTP/1.1\r\nhost: x\r\nauthorization: Bearer {pass}\r\n\r\n").unwrap();
        let mut listener = Listener { stream, heard: String::new() };
        listener.hears("event: hello", 1);
        listener
    }

    /// Listens until something was heard as often as this, half a minute at most: the stream itself never ends.
    fn hears(&mut self, what: &str, times: usize) {
        use std::io::Read as _;
        let (mut piece, began) = ([0u8; 1024], Instant::now());
        self.stream.set_read_timeout(Some(Duration::from_secs(1))).unwrap();
        while self.heard.matches(what).count() < times {
            assert!(began.elapsed() < Duration::from_secs(30), "\"{what}\" was not heard: {}", self.heard);
            let Ok(n) = self.stream.read(&mut piece) else { continue };
            assert!(n > 0, "the stream ended: {}", self.heard);
            self.heard.push_str(&String::from_utf8_lossy(&piece[..n]));
        }
    }
}

#[test]
fn a_phone_that_listens_is_told_when_a_paper_is_sent_and_when_it_is_taken_back() {
    let scene = Scene::set();
    let office = Session::office(&scene.server);
    let site = site_of(&scene);
    let address = imported(&office);
    let mut phone = Listener::of(&scene);
    let sent = office.send(&address, &[("site", site.as_str()), ("line-2", "yes")]);
    assert_eq!(sent.status, 303, "{}", text(&sent));
    phone.hears("event: new", 1);
    assert!(
        !phone.heard.contains("5001") && !phone.heard.contains("INV-1"),
        "a hint says nothing of the paper"
    );
    let page = office.page("/office/papers");
    let back = page.split("action=\"").find(|part| part.contains("/take-back")).unwrap();
    let taken = office.send(back.split('"').next().unwrap(), &[("because", "a slip")]);
    assert_eq!(taken.status, 303, "{}", text(&taken));
    phone.hears("event: new", 2);
}

#[test]
fn papers_are_sent_listed_and_taken_back_by_command() {
    let scene = Scene::set();
    let (site, data) = (site_of(&scene), scene.server.data.to_str().unwrap());
    let file = scene.folder.path().join("by command.csv");
    std::fs::write(&file, SENT).unwrap();
    let run = |arguments: &[&str]| -> (i32, serde_json::Value) {
        let output =
            farsiding(&[&["papers"], arguments, &["--data", data, "--json"]].concat()).output().unwrap();
        (output.status.code().unwrap(), super::stage::said_by(&output))
    };
    let send = ["send", file.to_str().unwrap(), "--site", &site];
    assert_eq!(
        run(&["send", file.to_str().unwrap(), "--site", &"5a".repeat(16)]).0,
        3,
        "a site that is none"
    );
    let (code, said) = run(&[&send[..], &["--car", "zzqx-5002"]].concat());
    assert_eq!((code, said["sent"].as_array().unwrap().len()), (0, 1), "{said}");
    let (_, said) = run(&send);
    assert_eq!(
        (said["sent"][0].as_str(), said["stood_there"].as_u64()),
        (Some("ZZQX 5001"), Some(1)),
        "{said}"
    );
    let (_, said) = run(&["list", "--site", &site]);
    let papers = said["papers"].as_array().unwrap();
    assert_eq!(papers.len(), 2, "{said}");
    assert!(
        papers.iter().all(|paper| paper["waits"] == true && paper["file_name"] == "by command.csv"),
        "{said}"
    );
    assert_eq!(run(&["take-back", "ZZQX 5001", "--site", &site, "--why", " "]).0, 3);
    assert_eq!(run(&["take-back", "ZZQX 5003", "--site", &site, "--why", "x"]).0, 3, "it was never sent");
    assert_eq!(run(&["take-back", "ZZQX 5001", "--site", &site, "--why", "a slip"]).0, 0);
    let (_, said) = run(&["list"]);
    assert_eq!(said["papers"].as_array().unwrap().len(), 1, "{said}");
    std::fs::write(&file, [0xff, 0xfe]).unwrap();
    assert_eq!(run(&send).0, 3, "no text");
    let page = Session::office(&scene.server).page("/office/papers");
    assert!(page.contains("command line") && page.contains("ZZQX 5002"), "{page}");
}

#[test]
fn a_wrong_grade_way_of_measuring_or_season_is_left_out_with_its_line_and_column() {
    let scene = Scene::set();
    let (site, data) = (site_of(&scene), scene.server.data.to_str().unwrap());
    let file = scene.folder.path().join("winter (invented).csv");
    let heads = "Paper,Car,Billed by,Quantity,Product grade,Season";
    let right = "INV-1,ZZQX 5001,scale,124000 lb,HD-5,winter";
    let wrong = "INV-2,ZZQX 5002,volume,29200,the good one,spring";
    std::fs::write(&file, format!("{heads}\n{right}\n{wrong}\n")).unwrap();
    let send = ["papers", "send", file.to_str().unwrap(), "--site", &site, "--data", data, "--json"];
    let said = super::stage::said_by(&farsiding(&send).output().unwrap());
    assert_eq!(said["sent"], serde_json::json!(["ZZQX 5001"]), "{said}");
    let left_out = said["left_out"][0].as_str().unwrap();
    for part in [
        "line 3: ",
        "column 3, Billed by: \u{201c}volume\u{201d}",
        "column 5, Product grade: \u{201c}the good one\u{201d}",
        "column 6, Season: \u{201c}spring\u{201d}",
    ] {
        assert!(left_out.contains(part), "{part}: {left_out}");
    }
    let digest = Digest::of(&std::fs::read(&file).unwrap());
    let page = Session::office(&scene.server).page(&format!("/office/papers/files/{digest}/send"));
    for part in ["HD-5 propane", "billed by scale", "filled to winter limits"] {
        assert!(page.contains(part), "{part}: {page}");
    }
    assert!(!page.contains("ZZQX 5002"), "{page}");
}
