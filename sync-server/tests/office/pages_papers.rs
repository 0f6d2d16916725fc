//! Shipping papers uploaded as a file: previewed first, stored byte for byte, with the mapping remembered. A
//! form with a file follows the same rules as any other.

use farsiding_core::ids::Digest;

use super::pages_stage::{Scene, Session, post, text, value_of};
use super::stage::Answer;

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
    assert!(page.contains("Heads not seen before"), "{page}");
    let kept = value_of(&page, "kept").unwrap();
    let said =
        [("number", "0"), ("car", "1"), ("shipper", "2"), ("day", "3"), ("billed", "4"), ("unit", "gal")];
    let mut form = vec![("name", "october (invented).csv"), ("kept", kept.as_str())];
    form.extend_from_slice(&said);
    let looked = text(&office.send("/office/papers/preview", &form));
    assert!(looked.contains("1 of 2 lines can be taken in"), "{looked}");
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
    assert!(page.contains("Read as the last file with these heads was") && page.contains("NEXT-1"), "{page}");
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
    refused(&whole[..whole.len() - 30], "did not arrive whole");
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
    assert!(office.page("/office/audit?q=nothing+of+the+kind").contains("Nothing of the kind was noted"));
    for _ in 0..101 {
        office.page("/office/accounts");
    }
    let page = office.page("/office/audit");
    let before = value_of(&page, "before").expect("there is more than one page of it");
    assert!(office.page(&format!("/office/audit?before={before}")).contains("signed in"));
}
