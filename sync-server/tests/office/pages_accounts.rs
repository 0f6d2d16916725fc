//! A person's own account: the second factor, its recovery codes and the password; and the audit, whose rows
//! the server decides and chains.

use std::path::{Path, PathBuf};

use totp_rs::{Builder, Secret};

use super::pages_stage::{
    PASSWORD, Scene, Session, account, account_as, browser_of, cookie_of, form, guess_until_slowed, post,
    text, try_to_sign_in, value_of,
};
use super::stage::{Answer, Server, farsiding};

const START: i64 = 1_795_586_400; // 2026-11-25T06:00:00Z

/// A server whose clock is set by hand, in seconds after the start.
struct Timed {
    folder: tempfile::TempDir,
    server: Server,
}

fn put(folder: &Path, seconds: i64) {
    let clock = folder.join("clock");
    let (minutes, seconds) = (seconds / 60, seconds % 60);
    let time = format!("2026-11-25T{:02}:{:02}:{seconds:02}Z", 6 + minutes / 60, minutes % 60);
    std::fs::write(folder.join("next"), time).unwrap();
    std::fs::rename(folder.join("next"), clock).unwrap();
}

impl Timed {
    fn start() -> Timed {
        let folder = tempfile::tempdir().unwrap();
        put(folder.path(), 0);
        let clock: PathBuf = folder.path().join("clock");
        let server = Server::start_at(&folder.path().join("office"), &format!("@{}", clock.display()));
        account(&server, "Clerk");
        Timed { folder, server }
    }

    fn at(&self, seconds: i64) {
        put(self.folder.path(), seconds);
    }
}

/// Returns the code that the telephone shows.
fn code(letters: &str, seconds: i64) -> String {
    let totp = Builder::new().with_secret(Secret::try_from_base32(letters).unwrap()).build().unwrap();
    totp.generate(u64::try_from(START + seconds).unwrap()).to_string()
}

/// Sets up a second factor and returns the telephone's secret as letters, and the recovery codes.
fn set_up(session: &Session<'_>, seconds: i64) -> (String, Vec<String>) {
    let shown = session.send("/office/own/second-factor", &[("password", PASSWORD)]);
    assert_eq!(shown.status, 200, "{}", text(&shown));
    let page = text(&shown);
    assert!(page.contains("<svg class=\"qr\""), "{page}");
    let letters = between(&page, "<p class=\"letters\"><code>", "</code>").replace(' ', "");
    let wrong = session.send("/office/own/second-factor/confirm", &[("code", "000000")]);
    assert_eq!(wrong.status, 422);
    assert!(text(&wrong).contains("<svg class=\"qr\""), "it can be tried again");
    let done = session.send("/office/own/second-factor/confirm", &[("code", &code(&letters, seconds))]);
    let page = text(&done);
    assert_eq!(done.status, 200, "{page}");
    let codes = page.split("<li><code>").skip(1).map(|piece| piece.split('<').next().unwrap().to_owned());
    (letters, codes.collect())
}

fn between(page: &str, before: &str, after: &str) -> String {
    let from = page.find(before).unwrap_or_else(|| panic!("{before} is not in {page}")) + before.len();
    page[from..from + page[from..].find(after).unwrap()].to_owned()
}

/// Returns the token of the form that asks for the code after the right password.
fn half(server: &Server, name: &str, headers: &[(&str, &str)]) -> String {
    let answer = try_to_sign_in(server, name, PASSWORD, headers);
    assert_eq!((answer.status, cookie_of(&answer)), (200, None), "{}", text(&answer));
    assert_eq!(browser_of(&answer), None, "the browser is not known before the code");
    value_of(&text(&answer), "half").unwrap()
}

fn with_code(server: &Server, half: &str, code: &str) -> Answer {
    post(server, "/office/sign-in/code", &[], &form(&[("half", half), ("code", code)]))
}

#[test]
fn a_second_factor_is_asked_for_and_no_code_opens_twice() {
    let timed = Timed::start();
    let server = &timed.server;
    let session = Session::office(server);
    let wrong = session.send("/office/own/second-factor", &[("password", "some other words here")]);
    assert_eq!(wrong.status, 422, "an unattended screen is not enough");
    let elsewhere = Session::office(server);
    let (letters, codes) = set_up(&session, 0);
    assert_eq!(codes.len(), 8);
    assert_eq!(session.get("/office/").status, 200);
    assert_eq!(elsewhere.get("/office/").status, 303, "who got in with the password alone is out");

    timed.at(600);
    let first = half(server, "Clerk", &[]);
    assert_eq!(with_code(server, &first, &code(&letters, 0)).status, 401, "an old one");
    let answer = with_code(server, &first, &code(&letters, 600));
    assert_eq!(answer.status, 303, "{}", text(&answer));
    let inside = Session { server, cookie: cookie_of(&answer).unwrap() };
    assert_eq!(inside.get("/office/").status, 200);
    assert!(browser_of(&answer).is_some());
    // Somebody who looked over the shoulder has the password and this same code.
    let again = half(server, "Clerk", &[]);
    assert_eq!(with_code(server, &again, &code(&letters, 600)).status, 401, "the same code");
    assert_eq!(with_code(server, &first, &code(&letters, 630)).status, 401, "the same half sign-in");
    assert_eq!(with_code(server, &again, &code(&letters, 630)).status, 303);
    // A half-finished sign-in lasts five minutes and is not a session.
    let late = half(server, "Clerk", &[]);
    let cookie = format!("farsiding={late}");
    assert_eq!(server.ask("GET", "/office/", &[("cookie", cookie.as_str())], b"").status, 303);
    timed.at(600 + 301);
    assert_eq!(with_code(server, &late, &code(&letters, 901)).status, 401);

    // The telephone is lost: each recovery code works once.
    let lost = half(server, "Clerk", &[]);
    let answer = with_code(server, &lost, &codes[0].to_uppercase());
    assert_eq!((answer.status, answer.header("location").unwrap()), (303, "/office/own".to_owned()));
    let own = Session { server, cookie: cookie_of(&answer).unwrap() };
    assert!(own.page("/office/own").contains("7 recovery codes"));
    let lost = half(server, "Clerk", &[]);
    assert_eq!(with_code(server, &lost, &codes[0]).status, 401);
    let fresh = text(&own.send("/office/own/second-factor/codes", &[("password", PASSWORD)]));
    assert_eq!(fresh.matches("<li><code>").count(), 8);
    assert_eq!(with_code(server, &lost, &codes[1]).status, 401, "new codes end the old");

    // The second factor is turned off with password and code; after that the password alone is enough again.
    timed.at(1200);
    let off =
        |code: &str| own.send("/office/own/second-factor/off", &[("password", PASSWORD), ("code", code)]);
    assert_eq!(off("000000").status, 422);
    assert_eq!(off(&code(&letters, 1200)).status, 200);
    assert_eq!(try_to_sign_in(server, "Clerk", PASSWORD, &[]).status, 303);
}

#[test]
fn guessing_codes_is_slowed_from_everywhere_but_not_where_the_person_signed_in_before() {
    let timed = Timed::start();
    let server = &timed.server;
    let answer = try_to_sign_in(server, "Clerk", PASSWORD, &[]);
    let known = browser_of(&answer).unwrap();
    let session = Session { server, cookie: cookie_of(&answer).unwrap() };
    let (letters, _) = set_up(&session, 0);
    timed.at(600);
    let mut statuses = Vec::new();
    for from in 0..12 {
        let address = format!("198.51.100.{from}");
        let stolen = half(server, "Clerk", &[("x-forwarded-for", address.as_str())]);
        let guess = form(&[("half", &stolen), ("code", "000000")]);
        let headers = [("x-forwarded-for", address.as_str())];
        statuses.push(post(server, "/office/sign-in/code", &headers, &guess).status);
    }
    assert_eq!(statuses[..5], [401; 5]);
    assert!(statuses[5..].contains(&429), "{statuses:?}");
    let cookie = [("cookie", known.as_str())];
    let own = half(server, "Clerk", &cookie);
    let right = form(&[("half", &own), ("code", &code(&letters, 600))]);
    assert_eq!(post(server, "/office/sign-in/code", &cookie, &right).status, 303);
}

#[test]
fn an_organisation_that_asks_for_a_second_factor_opens_nothing_before_and_an_administrator_resets_it() {
    let timed = Timed::start();
    let server = &timed.server;
    account_as(server, "Reader", "reader");
    let office = Session::office(server);
    let (letters, _) = set_up(&office, 0);
    let reader = Session::of(server, "Reader");
    assert_eq!(reader.get("/office/").status, 200);
    assert_eq!(office.send("/office/accounts/second-factor", &[("required", "yes")]).status, 303);
    // The rule applies at once, also to signed-in people: only their own page and signing out are open.
    let answer = reader.get("/office/");
    assert_eq!((answer.status, answer.header("location").unwrap()), (303, "/office/own".to_owned()));
    assert!(reader.page("/office/own").contains("requires a second factor from everyone"));
    assert_eq!(reader.get("/office/live").status, 303);
    assert_eq!(office.get("/office/").status, 200);
    timed.at(60);
    let (of_reader, _) = set_up(&reader, 60);
    assert_eq!(reader.get("/office/").status, 200);
    let off = reader
        .send("/office/own/second-factor/off", &[("password", PASSWORD), ("code", &code(&of_reader, 120))]);
    assert_eq!(off.status, 409, "it cannot be turned off while it is asked for");

    // The telephone is lost: an administrator removes the second factor, which ends the sessions and is
    // written to the audit.
    assert_eq!(reader.send("/office/accounts/1/second-factor", &[]).status, 403);
    let page = office.page("/office/accounts");
    let at = page.find("Reset for Reader").unwrap();
    let action = page[..at].rfind("action=\"").unwrap() + "action=\"".len();
    let action = page[action..action + page[action..].find('"').unwrap()].to_owned();
    assert_eq!(office.send(&action, &[]).status, 303);
    assert_eq!(reader.get("/office/own").status, 303);
    let again = Session::of(server, "Reader");
    assert_eq!(again.get("/office/").header("location").unwrap(), "/office/own");
    let audit = office.page("/office/audit?q=second%20factor");
    for row in ["reset a second factor", "account Reader", "required a second factor from everyone"] {
        assert!(audit.contains(row), "{row}: {audit}");
    }
    // The same works on the server's command line.
    let data = server.data.to_str().unwrap();
    let reset = ["account", "reset-second-factor", "--data", data, "--name", "clerk"];
    assert!(farsiding(&reset).output().unwrap().status.success());
    assert_eq!(office.get("/office/own").status, 303);
    let off = ["account", "require-second-factor", "--off", "--data", data];
    assert!(farsiding(&off).output().unwrap().status.success());
    assert_eq!(Session::office(server).get("/office/").status, 200);
    assert_eq!(code(&letters, 0).len(), 6);
}

#[test]
fn ones_own_password_takes_the_old_one_and_ends_the_other_sessions() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start(&folder.path().join("office"));
    account_as(&server, "Clerk", "reader");
    let answer = try_to_sign_in(&server, "Clerk", PASSWORD, &[]);
    let (here, browser) =
        (Session { server: &server, cookie: cookie_of(&answer).unwrap() }, browser_of(&answer));
    let elsewhere = Session::office(&server);
    let fresh = "other invented words";
    let send = |old: &str, fresh: &str, again: &str| {
        here.send("/office/own/password", &[("password", old), ("fresh", fresh), ("again", again)]).status
    };
    assert_eq!(send("some wrong words here", fresh, fresh), 422);
    assert_eq!(send(PASSWORD, fresh, "other invented word"), 422);
    assert_eq!(send(PASSWORD, "short", "short"), 422);
    assert_eq!(send(PASSWORD, PASSWORD, PASSWORD), 422);
    assert_eq!(elsewhere.get("/office/").status, 200, "nothing was changed yet");
    assert_eq!(send(PASSWORD, fresh, fresh), 200);
    assert_eq!(here.get("/office/").status, 200);
    assert_eq!(elsewhere.get("/office/").status, 303, "the other sessions are over");
    assert_eq!(try_to_sign_in(&server, "Clerk", PASSWORD, &[]).status, 401);
    assert_eq!(try_to_sign_in(&server, "Clerk", fresh, &[]).status, 303);
    // Whoever had the old password may also have had a browser, so known browsers are forgotten.
    let guessing = [("cookie", browser.as_deref().unwrap()), ("x-forwarded-for", "192.0.2.5")];
    guess_until_slowed(&server, "Clerk", &[guessing[1]]);
    assert_eq!(try_to_sign_in(&server, "Clerk", fresh, &guessing).status, 429);
    // Guessing the old password from an open session is slowed down too.
    let wrong: Vec<u16> = (0..12).map(|_| send("some wrong words here", PASSWORD, PASSWORD)).collect();
    assert!(wrong[..5] == [422; 5] && wrong.contains(&409), "{wrong:?}");
}

fn rows(scene: &Scene, did: &str) -> usize {
    scene.audit().iter().filter(|(_, noted, _)| noted == did).count()
}

#[test]
fn no_header_keeps_anybody_out_of_the_audit() {
    let scene = Scene::set();
    let office = Session::office(&scene.server);
    let looked = rows(&scene, "looked");
    let page = office.page(&scene.visit_path());
    assert_eq!(rows(&scene, "looked"), looked + 1);
    let at = page.find("data-refresh=\"").unwrap() + "data-refresh=\"".len();
    let token = page[at..at + page[at..].find('"').unwrap()].to_owned();
    let ask = |path: &str, session: &Session<'_>, live: &str| {
        let headers = [("cookie", session.cookie.as_str()), ("farsiding-live", live)];
        let answer = scene.server.ask("GET", path, &headers, b"");
        assert_eq!(answer.status, 200, "{path}");
        text(&answer)
    };
    // The page refreshes itself many times without adding a row, and the hour of its token does not begin
    // again.
    for _ in 0..5 {
        assert!(ask(&scene.visit_path(), &office, &token).contains(&token));
    }
    assert_eq!(rows(&scene, "looked"), looked + 1);
    // An invented token, the token of another page and that of another person all count as a person looking.
    let another = Session::office(&scene.server);
    ask(&scene.visit_path(), &office, "1");
    ask(&scene.visit_path(), &office, "");
    ask("/office/devices", &office, &token);
    ask(&format!("{}?x=1", scene.visit_path()), &office, &token);
    ask(&scene.visit_path(), &another, &token);
    assert_eq!(rows(&scene, "looked"), looked + 6);
    // Every change is written to the audit, with or without the header, and so are packets and photographs.
    let csrf = office.token();
    let headers = [("cookie", office.cookie.as_str()), ("farsiding-live", token.as_str())];
    let link = form(&[("csrf", &csrf), ("label", "An inspector"), ("days", "2")]);
    let made = post(&scene.server, &format!("{}/links", scene.visit_path()), &headers, &link);
    assert_eq!(made.status, 200, "{}", text(&made));
    assert_eq!(rows(&scene, "made a link"), 1);
    for (path, did) in [
        ("packet".to_owned(), "took the packet"),
        (format!("photos/{}", scene.photo), "looked at a photograph"),
    ] {
        let path = format!("{}/{path}", scene.visit_path());
        for live in ["1", token.as_str()] {
            let headers = [("cookie", office.cookie.as_str()), ("farsiding-live", live)];
            assert_eq!(scene.server.ask("GET", &path, &headers, b"").status, 200);
        }
        assert_eq!(rows(&scene, did), 2, "{did}");
    }
    let photo = scene.audit().into_iter().find(|(_, did, _)| did == "looked at a photograph").unwrap();
    assert_eq!(photo.2, format!("photo:{} visit:{}", scene.photo, scene.visit));
    assert!(office.page("/office/audit").contains("photograph "));
}

#[test]
fn a_page_left_open_is_noted_once_an_hour_and_ends_with_its_session() {
    let timed = Timed::start();
    let server = &timed.server;
    let office = Session::office(server);
    let noted = || {
        let data = rusqlite::Connection::open(server.data.join("server.db")).unwrap();
        data.query_row("SELECT count(*) FROM audit WHERE did = 'looked'", [], |row| row.get::<_, i64>(0))
            .unwrap()
    };
    let token_of = |page: &str| between(page, "data-refresh=\"", "\"");
    let mut token = token_of(&office.page("/office/"));
    for minute in 1..=119 {
        timed.at(minute * 60);
        let headers = [("cookie", office.cookie.as_str()), ("farsiding-live", token.as_str())];
        let answer = server.ask("GET", "/office/", &headers, b"");
        assert_eq!(answer.status, 200, "{minute}");
        token = token_of(&text(&answer));
    }
    assert_eq!(noted(), 2, "when it was opened, and an hour later");
    timed.at(121 * 60);
    let headers = [("cookie", office.cookie.as_str()), ("farsiding-live", token.as_str())];
    assert_eq!(server.ask("GET", "/office/", &headers, b"").status, 401, "nobody was there for two hours");
}

#[test]
fn the_audit_is_a_chain_that_anybody_with_the_server_checks() {
    let scene = Scene::set();
    let office = Session::office(&scene.server);
    office.page("/office/devices");
    let page = office.page("/office/audit");
    let head = between(&page, "Newest: <code>", "</code>");
    let data = scene.server.data.to_str().unwrap().to_owned();
    let check = |more: &[&str]| {
        let output = farsiding(&["audit", "check", "--data", &data, "--json"]).args(more).output().unwrap();
        let told: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
        (output.status.code().unwrap(), told)
    };
    office.page("/office/devices");
    let (code, told) = check(&["--head", &head]);
    assert_eq!((code, told["ok"].as_bool()), (0, Some(true)), "{told}");
    assert_ne!(told["head"].as_str().unwrap(), head, "rows came since");
    assert_eq!(check(&["--head", "nonsense"]).0, 3);
    // Somebody with access to the file changes the name in a row.
    let meddle = |sql: &str| {
        let database = rusqlite::Connection::open(scene.data("server.db")).unwrap();
        let free = "DROP TRIGGER IF EXISTS audit_stays; DROP TRIGGER IF EXISTS audit_is_kept;";
        database.execute_batch(&format!("{free} {sql}")).unwrap();
    };
    meddle("UPDATE audit SET who = 'Nobody' WHERE number = 2");
    let (code, told) = check(&[]);
    assert_eq!(code, 3);
    assert!(told["message"].as_str().unwrap().contains("row 2: it does not fit"), "{told}");
    // The office reports it too, after the full check.
    assert_eq!(office.send("/office/state/check", &[]).status, 303);
    let page = office.page("/office/state");
    assert!(page.contains("audit row 2: it does not fit"), "{page}");
}
