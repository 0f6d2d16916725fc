//! What the stories of the office's pages are played on: accounts, sessions, forms, a car with a photograph.

use std::io::Write as _;
use std::path::Path;
use std::process::Stdio;
use std::time::{Duration, Instant};

use super::stage::{Answer, Device, Server, farsiding, picture};

pub const PASSWORD: &str = "invented words for a test";

/// A signed-in browser, as far as one is needed here.
pub struct Session<'s> {
    pub server: &'s Server,
    pub cookie: String,
}

/// Makes an account that may do everything.
pub fn account(server: &Server, name: &str) {
    account_as(server, name, "administrator");
}

/// Makes an account with a role.
pub fn account_as(server: &Server, name: &str, role: &str) {
    let data = server.data.to_str().unwrap();
    let add = ["account", "add", "--data", data, "--name", name, "--role", role];
    let done = with_password(&add, PASSWORD);
    assert!(done.status.success(), "{done:?}");
}

pub fn with_password(arguments: &[&str], password: &str) -> std::process::Output {
    let mut child = farsiding(arguments)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    writeln!(child.stdin.take().unwrap(), "{password}").unwrap();
    child.wait_with_output().unwrap()
}

/// A text as a form carries it.
pub fn quoted(text: &str) -> String {
    text.bytes()
        .map(|b| if b.is_ascii_alphanumeric() { char::from(b).to_string() } else { format!("%{b:02X}") })
        .collect()
}

pub fn form(pairs: &[(&str, &str)]) -> String {
    let pairs: Vec<String> =
        pairs.iter().map(|(name, value)| format!("{}={}", quoted(name), quoted(value))).collect();
    pairs.join("&")
}

pub fn post(server: &Server, path: &str, headers: &[(&str, &str)], body: &str) -> Answer {
    let mut all = vec![("content-type", "application/x-www-form-urlencoded")];
    all.extend_from_slice(headers);
    server.ask("POST", path, &all, body.as_bytes())
}

pub fn try_to_sign_in(server: &Server, name: &str, password: &str, headers: &[(&str, &str)]) -> Answer {
    post(server, "/office/sign-in", headers, &form(&[("name", name), ("password", password)]))
}

/// Guesses until the wait is long enough for what comes next to be within it.
pub fn guess_until_slowed(server: &Server, name: &str, headers: &[(&str, &str)]) {
    for _ in 0..30 {
        let answer = try_to_sign_in(server, name, "a wrong guess entirely", headers);
        match answer.header("retry-after").map(|wait| wait.parse::<u64>().unwrap()) {
            Some(wait) if wait >= 8 => return,
            Some(wait) => std::thread::sleep(Duration::from_secs(wait)),
            None => assert_eq!(answer.status, 401),
        }
    }
    panic!("thirty guesses, and no wait");
}

/// The session's cookie an answer sets.
pub fn cookie_of(answer: &Answer) -> Option<String> {
    cookie_named(answer, "farsiding=")
}

/// The cookie by which an answer makes the browser known.
pub fn browser_of(answer: &Answer) -> Option<String> {
    cookie_named(answer, "farsiding-browser=")
}

fn cookie_named(answer: &Answer, name: &str) -> Option<String> {
    let set = |line: &str| {
        line.split_once(": ")
            .filter(|(head, _)| head.eq_ignore_ascii_case("set-cookie"))
            .map(|(_, set)| set.to_owned())
    };
    let set = answer.raw_head.lines().filter_map(set).find(|set| set.starts_with(name))?;
    Some(set.split(';').next()?.to_owned())
}

pub fn text(answer: &Answer) -> String {
    String::from_utf8_lossy(&answer.body).into_owned()
}

impl<'s> Session<'s> {
    pub fn office(server: &'s Server) -> Session<'s> {
        Session::of(server, "Clerk")
    }

    /// Signs an account in that has no second factor.
    pub fn of(server: &'s Server, name: &str) -> Session<'s> {
        let answer = try_to_sign_in(server, name, PASSWORD, &[]);
        assert_eq!(answer.status, 303, "{}", text(&answer));
        Session { server, cookie: cookie_of(&answer).unwrap() }
    }

    /// Opens an inspector's link as a browser would: the page, then its button.
    pub fn inspector(server: &'s Server, link: &str) -> Session<'s> {
        let door = server.ask("GET", link, &[], b"");
        assert_eq!(door.status, 200, "{}", text(&door));
        let answer = post(server, link, &[], "");
        assert_eq!(answer.status, 303, "{}", text(&answer));
        Session { server, cookie: cookie_of(&answer).unwrap() }
    }

    pub fn get(&self, path: &str) -> Answer {
        self.server.ask("GET", path, &[("cookie", self.cookie.as_str())], b"")
    }

    pub fn page(&self, path: &str) -> String {
        let answer = self.get(path);
        assert_eq!(answer.status, 200, "{path}: {}", text(&answer));
        text(&answer)
    }

    /// The token the forms of this session carry.
    pub fn token(&self) -> String {
        let page = text(&self.get("/office/inquiry"));
        let page = if page.contains("name=\"csrf\"") { page } else { text(&self.get("/office/own")) };
        value_of(&page, "csrf").unwrap_or_default()
    }

    pub fn send(&self, path: &str, pairs: &[(&str, &str)]) -> Answer {
        let token = self.token();
        let mut all = vec![("csrf", token.as_str())];
        all.extend_from_slice(pairs);
        post(self.server, path, &[("cookie", self.cookie.as_str())], &form(&all))
    }

    /// Asks until the page says something, as the index follows a moment after a sync.
    pub fn until(&self, path: &str, says: impl Fn(&str) -> bool) -> String {
        let began = Instant::now();
        loop {
            let page = self.page(path);
            if says(&page) {
                return page;
            }
            assert!(began.elapsed() < Duration::from_secs(30), "{path} never said it: {page}");
            std::thread::sleep(Duration::from_millis(50));
        }
    }
}

/// The value of a form's field by its name.
pub fn value_of(page: &str, name: &str) -> Option<String> {
    let at = page.find(&format!("name=\"{name}\" value=\""))?;
    let rest = &page[at..];
    let from = rest.find("value=\"")? + "value=\"".len();
    Some(rest[from..from + rest[from..].find('"')?].to_owned())
}

/// An office with one enrolled phone and one car with a photograph and a seal, all synced.
pub struct Scene {
    pub folder: tempfile::TempDir,
    pub server: Server,
    pub phone: Device,
    pub visit: String,
    pub photo: String,
}

impl Scene {
    pub fn set() -> Scene {
        let folder = tempfile::tempdir().unwrap();
        let server = Server::start(&folder.path().join("office"));
        Scene::on(folder, server)
    }

    pub fn on(folder: tempfile::TempDir, server: Server) -> Scene {
        account(&server, "Clerk");
        let phone = Device::enrolled(&server, &folder.path().join("phone"), "op-1");
        let visit = phone.open("ZZQX 4417");
        let (file, _) = picture(folder.path(), "seal.jpg", 40_000, 7);
        let said = phone.yes(&["photo", "4417", file.to_str().unwrap(), "--of", "seal"]);
        let photo = said["photo"].as_str().unwrap().to_owned();
        phone.yes(&["add", "4417", "seal", "found", "housing_pin", "number=P881402", "kind=plastic"]);
        phone.yes(&["sync"]);
        Scene { folder, server, phone, visit, photo }
    }

    pub fn visit_path(&self) -> String {
        format!("/office/visits/{}", self.visit)
    }

    pub fn device_id(&self) -> String {
        self.server.devices()["devices"][0]["device"].as_str().unwrap().to_owned()
    }

    /// A link to the visit, made as the office makes one.
    pub fn link(&self, office: &Session<'_>) -> String {
        let made = office
            .send(&format!("{}/links", self.visit_path()), &[("label", "An inspector"), ("days", "14")]);
        assert_eq!(made.status, 200, "{}", text(&made));
        let page = text(&made);
        let at = page.find("/office/link/").unwrap();
        page[at..at + page[at..].find('<').unwrap()].to_owned()
    }

    /// The audit: who, did what, to what.
    pub fn audit(&self) -> Vec<(String, String, String)> {
        let register = rusqlite::Connection::open(self.data("server.db")).unwrap();
        let mut statement = register.prepare("SELECT who, did, subject FROM audit ORDER BY number").unwrap();
        let rows = statement.query_map([], |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?))).unwrap();
        rows.map(Result::unwrap).collect()
    }

    /// A data folder's file.
    pub fn data(&self, name: &str) -> std::path::PathBuf {
        Path::new(&self.server.data).join(name)
    }
}
