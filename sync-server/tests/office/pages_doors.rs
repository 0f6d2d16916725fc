//! Access to the office's pages: every route for strangers, inspectors and the office; forms of other sites;
//! planted, old and ended sessions; guessing; and expired links.

use super::pages_stage::{
    PASSWORD, Scene, Session, account, account_as, browser_of, cookie_of, form, guess_until_slowed, post,
    text, try_to_sign_in, with_password,
};
use super::stage::{Device, Server, farsiding};

/// Who may use a route.
#[derive(Clone, Copy, PartialEq)]
enum May {
    /// Everybody, signed in or not.
    Anybody,
    /// Every signed-in person, including an inspector with a link to the scene's visit.
    SignedIn,
    /// Every account.
    Own,
    Read,
    Record,
    Settle,
    Publish,
    Administer,
}
use May::{Administer, Anybody, Own, Publish, Read, Record, Settle, SignedIn};

/// The roles and the rights of each, repeated here so that the test notices when a role gains a right.
const ROLES: [(&str, &[May]); 4] = [
    ("reader", &[Anybody, SignedIn, Own, Read]),
    ("clerk", &[Anybody, SignedIn, Own, Read, Record]),
    ("supervisor", &[Anybody, SignedIn, Own, Read, Record, Settle, Publish]),
    ("administrator", &[Anybody, SignedIn, Own, Read, Record, Settle, Publish, Administer]),
];

/// A rule of the matrix: the method, the pattern of the route, who may use it, and the status they get. A
/// form is sent with only its token, so a permitted sender is told what is missing.
type Rule = (&'static str, &'static str, May, u16);

/// Every route.
const RULES: &[Rule] = &[
    ("GET", "/office", Anybody, 308),
    ("GET", "/office/", Read, 200),
    ("GET", "/office/sign-in", Anybody, 200),
    ("POST", "/office/sign-in/code", Anybody, 401),
    ("POST", "/office/language", Anybody, 422),
    ("GET", "/office/link/{secret}", Anybody, 404),
    ("POST", "/office/link/{secret}", Anybody, 404),
    ("GET", "/office/live", SignedIn, 200),
    ("GET", "/office/inquiry", Read, 200),
    ("GET", "/office/visits/{visit}", SignedIn, 200),
    ("GET", "/office/visits/{other}", Read, 200),
    ("GET", "/office/visits/{visit}/packet", SignedIn, 200),
    ("GET", "/office/visits/{other}/packet", Read, 200),
    ("GET", "/office/visits/{visit}/strip", SignedIn, 200),
    ("GET", "/office/visits/{other}/strip", Read, 200),
    ("GET", "/office/visits/{visit}/photos/{sha256}", SignedIn, 200),
    ("GET", "/office/visits/{other}/photos/{sha256}", Read, 404),
    ("POST", "/office/visits/{visit}/settle", Settle, 422),
    ("POST", "/office/visits/{visit}/reopen", Settle, 422),
    ("POST", "/office/visits/{visit}/links", Settle, 422),
    ("POST", "/office/visits/{visit}/links/{number}/revoke", Settle, 303),
    ("GET", "/office/own", Own, 200),
    ("POST", "/office/own/language", Own, 303),
    ("POST", "/office/own/password", Own, 422),
    ("POST", "/office/own/second-factor", Own, 422),
    ("POST", "/office/own/second-factor/confirm", Own, 422),
    ("POST", "/office/own/second-factor/codes", Own, 422),
    ("POST", "/office/own/second-factor/off", Own, 422),
    ("GET", "/office/accounts", Administer, 200),
    ("POST", "/office/accounts/second-factor", Administer, 422),
    ("POST", "/office/accounts/{number}/second-factor", Administer, 404),
    ("GET", "/office/audit", Administer, 200),
    ("GET", "/office/state", Administer, 200),
    ("POST", "/office/state/check", Administer, 303),
    ("GET", "/office/reconcile", Read, 200),
    ("GET", "/office/reconcile/export", Read, 200),
    ("POST", "/office/reconcile/tariff", Record, 422),
    ("POST", "/office/reconcile/detention", Record, 422),
    ("POST", "/office/reconcile/measure", Record, 422),
    ("GET", "/office/seals", Read, 200),
    ("POST", "/office/seals/issue", Record, 422),
    ("POST", "/office/seals/void", Record, 422),
    ("GET", "/office/defects", Read, 200),
    ("POST", "/office/defects/forward", Record, 422),
    ("POST", "/office/defects/again", Record, 422),
    ("GET", "/office/instruments", Read, 200),
    ("GET", "/office/procedures", Read, 200),
    ("POST", "/office/procedures/start", Publish, 422),
    ("GET", "/office/procedures/sites/{site}/strip", Read, 404),
    ("GET", "/office/procedures/editions/{digest}", Read, 404),
    ("POST", "/office/procedures/editions/{digest}/withdraw", Publish, 404),
    ("GET", "/office/procedures/drafts/{number}", Publish, 404),
    ("POST", "/office/procedures/drafts/{number}", Publish, 404),
    ("GET", "/office/procedures/drafts/{number}/preview", Publish, 404),
    ("GET", "/office/procedures/drafts/{number}/gates", Publish, 404),
    ("POST", "/office/procedures/drafts/{number}/gates", Publish, 404),
    ("POST", "/office/procedures/drafts/{number}/discard", Publish, 422),
    ("GET", "/office/procedures/drafts/{number}/add", Publish, 404),
    ("POST", "/office/procedures/drafts/{number}/add", Publish, 404),
    ("GET", "/office/procedures/drafts/{number}/steps/{step}", Publish, 404),
    ("POST", "/office/procedures/drafts/{number}/steps/{step}", Publish, 404),
    ("POST", "/office/procedures/drafts/{number}/steps/{step}/move", Publish, 404),
    ("POST", "/office/procedures/drafts/{number}/steps/{step}/remove", Publish, 404),
    ("GET", "/office/procedures/drafts/{number}/publish", Publish, 404),
    ("POST", "/office/procedures/drafts/{number}/publish", Publish, 404),
    ("GET", "/office/papers", Read, 200),
    ("POST", "/office/papers/preview", Record, 422),
    ("POST", "/office/papers/take", Record, 422),
    ("GET", "/office/papers/files/{sha256}", Read, 404),
    ("GET", "/office/papers/files/{sha256}/send", Record, 404),
    ("POST", "/office/papers/files/{sha256}/send", Record, 404),
    ("POST", "/office/papers/sent/{site}/{entry}/take-back", Record, 404),
    ("GET", "/office/refused", Read, 200),
    ("POST", "/office/refused/purge", Administer, 422),
    ("POST", "/office/visits/{visit}/hide", Administer, 422),
    ("POST", "/office/visits/{visit}/photos/{sha256}/remove", Administer, 422),
    ("POST", "/office/visits/{visit}/unhide", Administer, 303),
    ("GET", "/office/devices", Read, 200),
    ("POST", "/office/devices/enrol", Administer, 422),
    ("GET", "/office/people", Read, 200),
    ("POST", "/office/people/confirm", Administer, 422),
    ("POST", "/office/people/end", Administer, 422),
    ("POST", "/office/people/left", Administer, 422),
    ("POST", "/office/people/forget", Administer, 422),
    ("POST", "/office/people/rules", Administer, 422),
    ("GET", "/office/devices/{device}", Read, 200),
    ("POST", "/office/devices/{device}", Administer, 422),
    ("GET", "/office/late", Read, 200),
    ("POST", "/office/late/{entry}/admit", Settle, 422),
    ("POST", "/office/late/{entry}/withdraw", Settle, 422),
    ("GET", "/office/devices/{device}/revoke", Administer, 200),
    ("POST", "/office/devices/{device}/revoke", Administer, 422),
    ("GET", "/office/look.css", Anybody, 200),
    ("GET", "/office/live.js", Anybody, 200),
    ("GET", "/office/mark.svg", Anybody, 200),
    ("GET", "/office/face.woff2", Anybody, 200),
    ("GET", "/office/{*rest}", Anybody, 404),
];

/// Returns the status of a request. Of the event stream only the beginning is read.
fn status(server: &Server, method: &str, path: &str, cookie: Option<&str>, body: &str) -> (u16, String) {
    let cookie = cookie.map(|cookie| ("cookie", cookie));
    let headers: Vec<(&str, &str)> = cookie.into_iter().collect();
    if path.ends_with("/live") {
        use std::io::{Read as _, Write as _};
        let mut stream = server.connect();
        let cookie = headers.first().map_or_else(String::new, |(_, cookie)| format!("cookie: {cookie}\r\n"));
        write!(stream, "GET {path} HTTP/1.1\r\nhost: x\r\n{cookie}\r\n").unwrap();
        let mut piece = [0u8; 4096];
        let read = stream.read(&mut piece).unwrap();
        let head = String::from_utf8_lossy(&piece[..read]).to_lowercase();
        return (head.split(' ').nth(1).unwrap().parse().unwrap(), head);
    }
    let answer = match method {
        "POST" => post(server, path, &headers, body),
        _ => server.ask(method, path, &headers, b""),
    };
    (answer.status, answer.head)
}

#[test]
fn every_route_is_closed_to_whom_it_is_not_for() {
    let scene = Scene::set();
    let other = scene.phone.open("QXZZ 1");
    scene.phone.yes(&["sync"]);
    let office = Session::office(&scene.server);
    let inspector = Session::inspector(&scene.server, &scene.link(&office));
    let device = scene.device_id();
    let mut asking: Vec<(&str, Option<Session<'_>>, &[May])> =
        vec![("nobody", None, &[Anybody]), ("inspector", Some(inspector), &[Anybody, SignedIn])];
    for (role, may) in ROLES {
        let name = format!("{role} one");
        account_as(&scene.server, &name, role);
        asking.push((role, Some(Session::of(&scene.server, &name)), may));
    }
    for (method, pattern, needs, well) in RULES {
        let path = pattern
            .replace("{visit}", &scene.visit)
            .replace("{other}", &other)
            .replace("{sha256}", &scene.photo)
            .replace("{device}", &device)
            .replace("{digest}", &"5a".repeat(32))
            .replace("{step}", "chocks")
            .replace("{number}", "9999")
            .replace("{secret}", "AAAA")
            .replace("{*rest}", "nothing/here");
        for (who, session, may) in &asking {
            let expected = match session {
                _ if may.contains(needs) => *well,
                None => 303,
                Some(_) => 403,
            };
            let cookie = session.as_ref().map(|session| session.cookie.as_str());
            let token = session.as_ref().filter(|_| *method == "POST").map(Session::token);
            let body = form(&[("csrf", token.as_deref().unwrap_or_default())]);
            let (found, head) = status(&scene.server, method, &path, cookie, &body);
            assert_eq!(found, expected, "{method} {pattern} for {who}");
            assert!(
                head.contains("content-security-policy: default-src 'none'"),
                "{method} {pattern}: {head}"
            );
            assert!(head.contains("x-content-type-options: nosniff"), "{method} {pattern}");
            assert!(!head.contains("unsafe-inline"), "{method} {pattern}");
            // Without its token no form is accepted, whoever sends it.
            if *method == "POST" && *needs != Anybody {
                let (found, _) = status(&scene.server, method, &path, cookie, "");
                assert_eq!(found, if session.is_some() { 403 } else { 303 }, "{method} {pattern} for {who}");
            }
        }
    }
    // The phone is still enrolled and the link still valid, so none of these requests changed anything.
    assert!(scene.server.devices()["devices"][0]["revoked_at"].is_null());
    let (_, inspector, _) = &asking[1];
    assert_eq!(inspector.as_ref().unwrap().get(&scene.visit_path()).status, 200);
}

/// A page shows no form that the server would refuse.
#[test]
fn a_page_shows_only_forms_that_its_reader_may_send() {
    let scene = Scene::set();
    for (role, may) in ROLES {
        let name = format!("{role} one");
        account_as(&scene.server, &name, role);
        let session = Session::of(&scene.server, &name);
        for page in [
            "/office/own",
            "/office/devices",
            "/office/papers",
            "/office/seals",
            "/office/procedures",
            "/office/reconcile",
            "/office/defects",
            &scene.visit_path(),
        ] {
            let shown = session.page(page);
            for piece in shown.split("action=\"").skip(1) {
                let action = piece.split('"').next().unwrap();
                let action = action.replace(&scene.visit, "{visit}").replace(&scene.device_id(), "{device}");
                let rule = RULES.iter().find(|(method, pattern, ..)| *method == "POST" && *pattern == action);
                let rule = rule.map_or(May::SignedIn, |(_, _, needs, _)| *needs);
                assert!(may.contains(&rule), "{page} shows {action} to a {role}");
            }
        }
    }
}

/// A new route must be added to the matrix above, or this test fails.
#[test]
fn no_route_is_left_out_of_the_matrix() {
    let mut routed: Vec<String> = Vec::new();
    for (_, source) in farsiding_testkit::tree::product_sources("sync-server") {
        let plain: String = source.split_whitespace().collect::<Vec<_>>().join(" ");
        for piece in plain.split(".route(").skip(1) {
            let Some(pattern) = piece.split('"').nth(1).filter(|pattern| pattern.starts_with("/office"))
            else {
                continue;
            };
            let handlers = piece.split(".route(").next().unwrap();
            for (method, word) in [("GET", "get("), ("POST", "post(")] {
                let served =
                    handlers.contains(&format!(" {word}")) || handlers.contains(&format!(").{word}"));
                let known = RULES.iter().any(|(m, p, ..)| *m == method && *p == pattern)
                    // Signing in and out have tests of their own.
                    || (method == "POST" && ["/office/sign-in", "/office/sign-out"].contains(&pattern));
                assert!(!served || known, "{method} {pattern} is not in the matrix");
                routed.extend(served.then(|| format!("{method} {pattern}")));
            }
        }
    }
    for (method, pattern, ..) in RULES {
        let rule = format!("{method} {}", pattern.replace("{other}", "{visit}"));
        assert!(routed.contains(&rule), "no source was found that serves {rule}");
    }
}

#[test]
fn a_form_without_its_token_or_of_another_site_changes_nothing() {
    let scene = Scene::set();
    let office = Session::office(&scene.server);
    let another = Session::office(&scene.server);
    let (token, other_token) = (office.token(), another.token());
    assert_ne!(token, other_token);
    let device = scene.device_id();
    let revoke = format!("/office/devices/{device}/revoke");
    let cookie = ("cookie", office.cookie.as_str());
    let with = |token: &str| form(&[("csrf", token), ("sure", "yes")]);
    for (headers, body) in [
        (vec![cookie], form(&[("sure", "yes")])),
        (vec![cookie], with("")),
        (vec![cookie], with(&other_token)),
        (vec![cookie, ("origin", "https://else.invalid")], with(&token)),
        (vec![cookie, ("sec-fetch-site", "cross-site")], with(&token)),
    ] {
        let answer = post(&scene.server, &revoke, &headers, &body);
        assert_eq!(answer.status, 403, "{headers:?} {body}");
        assert!(scene.server.devices()["devices"][0]["revoked_at"].is_null(), "{headers:?}");
    }
    // With the token and from this site the form is accepted, but only with the confirmation.
    assert_eq!(post(&scene.server, &revoke, &[cookie], &form(&[("csrf", &token)])).status, 422);
    assert_eq!(post(&scene.server, &revoke, &[cookie], &with(&token)).status, 303);
    assert!(!scene.server.devices()["devices"][0]["revoked_at"].is_null());
    // Another site cannot sign a person in as somebody else either.
    let planted = try_to_sign_in(&scene.server, "Clerk", PASSWORD, &[("sec-fetch-site", "cross-site")]);
    assert_eq!((planted.status, cookie_of(&planted)), (403, None));
}

#[test]
fn a_session_planted_before_signing_in_is_worth_nothing_after() {
    let scene = Scene::set();
    let planted = Session::office(&scene.server);
    let answer = try_to_sign_in(&scene.server, "clerk", PASSWORD, &[("cookie", planted.cookie.as_str())]);
    let fresh = cookie_of(&answer).unwrap();
    assert_ne!(fresh, planted.cookie);
    assert_eq!(planted.get("/office/").status, 303, "the session sent along is over");
    assert_eq!(Session { server: &scene.server, cookie: fresh }.get("/office/").status, 200);
    let made_up =
        try_to_sign_in(&scene.server, "clerk", PASSWORD, &[("cookie", "farsiding=chosen-by-somebody")]);
    assert_ne!(cookie_of(&made_up).unwrap(), "farsiding=chosen-by-somebody");
    assert!(answer.raw_head.contains("HttpOnly; SameSite=Strict"), "{}", answer.raw_head);
    // The stored hash does not open a session.
    let token = planted.cookie.split('=').nth(1).unwrap();
    let kept = [
        std::fs::read(scene.data("server.db")).unwrap(),
        std::fs::read(scene.data("server.db-wal")).unwrap_or_default(),
    ];
    assert!(!kept.iter().any(|bytes| bytes.windows(token.len()).any(|w| w == token.as_bytes())));
    assert!(!kept.iter().any(|bytes| bytes.windows(PASSWORD.len()).any(|w| w == PASSWORD.as_bytes())));
}

#[test]
fn a_session_ends_when_idle_when_long_enough_and_when_its_account_does() {
    let folder = tempfile::tempdir().unwrap();
    let clock = folder.path().join("clock");
    let put = |time: &str| {
        std::fs::write(folder.path().join("next"), format!("2026-11-25T{time}:00Z")).unwrap();
        std::fs::rename(folder.path().join("next"), &clock).unwrap();
    };
    put("06:00");
    let server = Server::start_at(&folder.path().join("office"), &format!("@{}", clock.display()));
    account(&server, "Clerk");
    let office = Session::office(&server);
    put("07:59");
    assert_eq!(office.get("/office/").status, 200);
    // An automatic refresh does not count as activity of a person.
    put("09:30");
    let live = [("cookie", office.cookie.as_str()), ("farsiding-live", "1")];
    assert_eq!(server.ask("GET", "/office/", &live, b"").status, 200);
    put("09:59");
    assert_eq!(
        server.ask("GET", "/office/", &live, b"").status,
        401,
        "two hours after the last sign of a person"
    );

    put("10:00");
    let busy = Session::office(&server);
    for hour in 11..=21 {
        put(&format!("{hour}:30"));
        assert_eq!(busy.get("/office/").status, 200, "{hour}:30");
    }
    put("22:00");
    assert_eq!(busy.get("/office/").status, 303, "twelve hours after it began");

    let (left, disabled) = (Session::office(&server), Session::office(&server));
    assert_eq!(left.send("/office/sign-out", &[]).status, 303);
    assert_eq!(left.get("/office/").status, 303);
    let data = server.data.to_str().unwrap();
    let done =
        with_password(&["account", "password", "--data", data, "--name", "clerk"], "other invented words");
    assert!(done.status.success(), "{done:?}");
    assert_eq!(disabled.get("/office/").status, 303, "a new password ends the sessions of the old one");
    assert_eq!(try_to_sign_in(&server, "Clerk", PASSWORD, &[]).status, 401);
    let again = try_to_sign_in(&server, "Clerk", "other invented words", &[]);
    let again = Session { server: &server, cookie: cookie_of(&again).unwrap() };
    assert_eq!(again.get("/office/").status, 200);
    assert!(
        farsiding(&["account", "disable", "--data", data, "--name", "CLERK"])
            .output()
            .unwrap()
            .status
            .success()
    );
    assert_eq!(again.get("/office/").status, 303);
    assert_eq!(try_to_sign_in(&server, "Clerk", "other invented words", &[]).status, 401);
}

#[test]
fn strangers_who_guess_slow_themselves_and_lock_nobody_out() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start_with(&folder.path().join("office"), "127.0.0.1:0", &["--behind-proxy"]);
    account(&server, "Clerk");
    account(&server, "Second");
    let known = browser_of(&try_to_sign_in(&server, "Clerk", PASSWORD, &[])).unwrap();
    let stranger = [("x-forwarded-for", "192.0.2.66")];
    let free = (0..5).map(|_| try_to_sign_in(&server, "clerk", "a wrong guess entirely", &stranger).status);
    assert_eq!(free.collect::<Vec<_>>(), [401; 5]);
    guess_until_slowed(&server, "clerk", &stranger);
    let answer = try_to_sign_in(&server, "Clerk", PASSWORD, &stranger);
    assert_eq!((answer.status, cookie_of(&answer)), (429, None), "{}", text(&answer));
    assert!(answer.header("retry-after").unwrap().parse::<u64>().unwrap() >= 1);
    // The person signs in from elsewhere at once, and also from the stranger's own address in a known
    // browser.
    assert_eq!(try_to_sign_in(&server, "Clerk", PASSWORD, &[("x-forwarded-for", "192.0.2.77")]).status, 303);
    let at_the_desk = [stranger[0], ("cookie", known.as_str())];
    let answer = try_to_sign_in(&server, "CLERK ", PASSWORD, &at_the_desk);
    assert_eq!(answer.status, 303, "{}", text(&answer));
    // Another account can also sign in from the stranger's address.
    assert_eq!(try_to_sign_in(&server, "Second", PASSWORD, &stranger).status, 303);
    // A browser is known only for the account that signed in from it, and the cookie alone opens nothing.
    let used = browser_of(&answer).unwrap();
    assert_ne!(used, known, "each signing in gives it a fresh token");
    assert_eq!(server.ask("GET", "/office/", &[("cookie", used.as_str())], b"").status, 303);
    let with = [("x-forwarded-for", "192.0.2.88"), ("cookie", used.as_str())];
    guess_until_slowed(&server, "Second", &with);
    assert_eq!(try_to_sign_in(&server, "Second", PASSWORD, &[with[0]]).status, 429, "counted by the address");
    // Guessing from a known browser is slowed down like any other.
    guess_until_slowed(&server, "Clerk", &[("cookie", used.as_str())]);
}

#[test]
fn whether_a_name_exists_is_not_told() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start(&folder.path().join("office"));
    account(&server, "Second");
    let (unknown, wrong) = (
        try_to_sign_in(&server, "Nobody", "some wrong words here", &[]),
        try_to_sign_in(&server, "Second", "some wrong words here", &[]),
    );
    assert_eq!((unknown.status, wrong.status), (401, 401));
    assert_eq!(text(&unknown).replace("Nobody", "Second"), text(&wrong));
}

#[test]
fn an_inspectors_link_opens_one_record_until_it_runs_out_or_is_revoked() {
    let folder = tempfile::tempdir().unwrap();
    let clock = folder.path().join("clock");
    std::fs::write(&clock, "2026-11-25T06:00:00Z").unwrap();
    let server = Server::start_at(&folder.path().join("office"), &format!("@{}", clock.display()));
    let scene = Scene::on(folder, server);
    let office = Session::office(&scene.server);
    let (first, second) = (scene.link(&office), scene.link(&office));
    let inspector = Session::inspector(&scene.server, &first);
    let page = inspector.page(&scene.visit_path());
    assert!(
        page.contains("ZZQX 4417") && !page.contains("/settle") && !page.contains("Make a link"),
        "{page}"
    );
    assert!(!page.contains("Inquiry"), "an inspector has no other place to go");
    let packet = inspector.get(&format!("{}/packet", scene.visit_path()));
    assert!(packet.body.starts_with(b"%PDF-"), "{}", packet.head);
    let told = office.page(&scene.visit_path());
    assert!(told.contains("An inspector (inspector) · took the packet"), "{told}");

    // A revocation takes effect at once, also for somebody who is signed in, and the address opens nothing
    // any more.
    let number = office.page(&scene.visit_path());
    let at = number.rfind("/links/").unwrap() + "/links/".len();
    let number = &number[at..at + number[at..].find('/').unwrap()];
    let revoke = format!("{}/links/{number}/revoke", scene.visit_path());
    assert_eq!(office.send(&revoke, &[]).status, 303);
    assert_eq!(inspector.get(&scene.visit_path()).status, 303);
    assert_eq!(scene.server.ask("GET", &first, &[], b"").status, 404);
    assert_eq!(post(&scene.server, &first, &[], "").status, 404);

    // After a fortnight the link has expired, also for somebody who is signed in.
    let inside = Session::inspector(&scene.server, &second);
    assert_eq!(inside.get(&scene.visit_path()).status, 200);
    std::fs::write(&clock, "2026-12-09T06:00:00Z").unwrap();
    assert_eq!(inside.get(&scene.visit_path()).status, 303);
    assert_eq!(scene.server.ask("GET", &second, &[], b"").status, 404);
}

#[test]
fn a_photograph_that_says_it_is_a_page_is_handed_over_as_a_file() {
    let scene = Scene::set();
    let (file, _) = super::stage::picture(scene.folder.path(), "p.jpg", 9000, 11);
    let said = scene.phone.yes(&["photo", "4417", file.to_str().unwrap(), "--of", "other"]);
    let digest = said["photo"].as_str().unwrap().to_owned();
    // A hostile device might state this about the same bytes.
    let lie = format!(
        r#"{{"photo":{{"photo":{{"sha256":"{digest}","length":9000,"media":"text/html"}},"of":"other"}}}}"#
    );
    let liar = Device::enrolled(&scene.server, &scene.folder.path().join("liar"), "op-2");
    let visit = liar.open("LYZX 1");
    liar.yes(&["add", &visit, "--json", &lie]);
    liar.yes(&["sync"]);
    scene.phone.yes(&["sync"]);
    let office = Session::office(&scene.server);
    let told = office.get(&format!("/office/visits/{visit}/photos/{digest}"));
    assert_eq!(told.status, 200, "{}", told.head);
    assert!(told.head.contains("content-type: application/octet-stream"), "{}", told.head);
    assert!(told.head.contains("content-disposition: attachment"), "{}", told.head);
    let honest = office.get(&format!("{}/photos/{}", scene.visit_path(), scene.photo));
    assert!(honest.head.contains("content-type: image/jpeg"), "{}", honest.head);
}
