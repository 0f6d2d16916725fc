//! Accounts of the office and browsers signed in to its pages, as far as stories need them.

use std::io::Write as _;
use std::process::{Output, Stdio};
use std::time::{Duration, Instant};

use super::{Answer, Server, farsiding};

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

pub fn with_password(arguments: &[&str], password: &str) -> Output {
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
