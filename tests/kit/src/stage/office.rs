//! The office's server as a process on a data folder of its own, which ends with its story.

use std::io::{BufRead as _, BufReader, Write as _};
use std::net::TcpStream;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Output, Stdio};
use std::time::Duration;

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::{EnrolmentRequest, OrganisationKey, PublicKey};
use farsiding_core::ids::{DeviceId, Digest, OrganisationId};
use serde_json::Value;

use super::{Answer, said_by};
use crate::program::farsiding;

/// A server process on its own data folder.
pub struct Server {
    child: Child,
    pub data: PathBuf,
    pub url: String,
    port: u16,
    more: Vec<String>,
    clock: Option<String>,
    surroundings: Vec<(String, String)>,
}

impl Server {
    pub fn start(data: &Path) -> Server {
        Server::start_with(data, "127.0.0.1:0", &[])
    }

    /// A server on the folder `office` of a story's folder.
    pub fn in_folder(folder: &Path) -> Server {
        Server::start(&folder.join("office"))
    }

    pub fn start_with(data: &Path, listen: &str, more: &[&str]) -> Server {
        Server::begin(data, listen, more, None, &[])
    }

    /// A server with variables of its own.
    pub fn start_among(data: &Path, more: &[&str], surroundings: &[(&str, &str)]) -> Server {
        let owned: Vec<_> = surroundings.iter().map(|(k, v)| ((*k).to_owned(), (*v).to_owned())).collect();
        Server::begin(data, "127.0.0.1:0", more, None, &owned)
    }

    /// The number of its process.
    pub fn process(&self) -> u32 {
        self.child.id()
    }

    /// A server whose clock is set by hand.
    pub fn start_at(data: &Path, clock: &str) -> Server {
        Server::begin(data, "127.0.0.1:0", &[], Some(clock), &[])
    }

    /// A server with options, whose clock is set by hand.
    pub fn start_with_clock(data: &Path, more: &[&str], clock: &str) -> Server {
        Server::begin(data, "127.0.0.1:0", more, Some(clock), &[])
    }

    fn begin(
        data: &Path,
        listen: &str,
        more: &[&str],
        clock: Option<&str>,
        surroundings: &[(String, String)],
    ) -> Server {
        let mut child = farsiding(&["serve", "--data", data.to_str().unwrap(), "--listen", listen])
            .args(more)
            .envs(clock.map(|clock| ("FARSIDING_CLOCK", clock)))
            .envs(surroundings.iter().cloned())
            .stdout(Stdio::piped())
            .stderr(Stdio::from(
                std::fs::OpenOptions::new()
                    .create(true)
                    .append(true)
                    .open(data.with_extension("log"))
                    .unwrap(),
            ))
            .spawn()
            .unwrap();
        let mut line = String::new();
        BufReader::new(child.stdout.take().unwrap()).read_line(&mut line).unwrap();
        let url = line.trim().strip_prefix("listening on ").expect(&line).to_owned();
        let port = url.rsplit(':').next().unwrap().parse().unwrap();
        let more = more.iter().map(|word| (*word).to_owned()).collect();
        let clock = clock.map(str::to_owned);
        let surroundings = surroundings.to_vec();
        Server { child, data: data.to_owned(), url, port, more, clock, surroundings }
    }

    /// Ends the process as a power cut would.
    pub fn kill(&mut self) {
        self.child.kill().unwrap();
        self.child.wait().unwrap();
    }

    /// Asks it to stop, as a service manager would.
    pub fn terminate(&self) {
        let status = Command::new("kill").args(["-TERM", &self.child.id().to_string()]).status().unwrap();
        assert!(status.success());
    }

    pub fn wait(&mut self) -> std::process::ExitStatus {
        self.child.wait().unwrap()
    }

    /// Starts it again where it was.
    pub fn restart(&mut self) {
        let more: Vec<&str> = self.more.iter().map(String::as_str).collect();
        let listen = format!("127.0.0.1:{}", self.port);
        let fresh = Server::begin(&self.data, &listen, &more, self.clock.as_deref(), &self.surroundings);
        *self = fresh;
    }

    pub fn log(&self) -> String {
        std::fs::read_to_string(self.data.with_extension("log")).unwrap()
    }

    /// Issues a code; returns it and the all-in-one text.
    pub fn code(&self, name: &str, more: &[&str]) -> (String, String) {
        let data = self.data.to_str().unwrap();
        let output = farsiding(&["enrol", "--data", data, "--name", name, "--json"])
            .args(more)
            .envs(self.clock.as_ref().map(|clock| ("FARSIDING_CLOCK", clock)))
            .output()
            .unwrap();
        assert!(output.status.success(), "{output:?}");
        let told = said_by(&output);
        (told["code"].as_str().unwrap().to_owned(), told["enrolment"].as_str().unwrap().to_owned())
    }

    /// A text by which one device enrols in a role.
    pub fn enrolment(&self, name: &str, role: &str) -> String {
        self.code(name, &["--role", role]).1
    }

    /// Asks for a code that must be refused: exit code and what was said.
    pub fn enrol_no(&self, name: &str, more: &[&str]) -> (i32, Value) {
        let data = self.data.to_str().unwrap();
        let output =
            farsiding(&["enrol", "--data", data, "--name", name, "--json"]).args(more).output().unwrap();
        (output.status.code().unwrap(), said_by(&output))
    }

    pub fn revoke(&self, device: &str) -> Output {
        let data = self.data.to_str().unwrap();
        farsiding(&["revoke", "--data", data, "--device", device, "--json"]).output().unwrap()
    }

    /// The registered devices.
    pub fn devices(&self) -> Value {
        let output =
            farsiding(&["devices", "--data", self.data.to_str().unwrap(), "--json"]).output().unwrap();
        said_by(&output)
    }

    /// A raw connection.
    pub fn connect(&self) -> TcpStream {
        let stream = TcpStream::connect(("127.0.0.1", self.port)).unwrap();
        stream.set_read_timeout(Some(Duration::from_secs(60))).unwrap();
        stream
    }

    /// One plain HTTP request on a connection of its own: status, head and body of the answer.
    pub fn ask(&self, method: &str, path: &str, headers: &[(&str, &str)], body: &[u8]) -> Answer {
        let mut stream = self.connect();
        let _ = stream.write_all(&super::request(method, path, headers, body)); // it may be refused and closed early
        Answer::read(&mut stream)
    }

    /// A request that names a host.
    pub fn ask_host(&self, host: &str, method: &str, path: &str) -> Answer {
        self.ask(method, path, &[("host", host)], b"")
    }

    /// Kilobytes of memory the process has, where the system tells.
    pub fn memory_kb(&self) -> Option<u64> {
        self.status_of("VmRSS:")
    }

    /// The most kilobytes of memory the process ever had, where the system tells.
    pub fn peak_kb(&self) -> Option<u64> {
        self.status_of("VmHWM:")
    }

    fn status_of(&self, name: &str) -> Option<u64> {
        let status = std::fs::read_to_string(format!("/proc/{}/status", self.child.id())).ok()?;
        let line = status.lines().find_map(|line| line.strip_prefix(name))?;
        line.split_whitespace().next()?.parse().ok()
    }

    /// The public key of the organisation whose server this is.
    pub fn organisation(&self) -> PublicKey {
        let text = std::fs::read_to_string(self.data.join("organisation.key")).unwrap();
        OrganisationKey::from_secret(Digest::read(&text).unwrap().0).public()
    }

    /// A request to be enrolled, for this office and now, to be signed by a key.
    pub fn enrol_request(&self, code: &str, name: &str) -> EnrolmentRequest {
        let who: Value = serde_json::from_slice(&self.ask("GET", "/v1/enrol", &[], b"").body).unwrap();
        let organisation_key = DeviceId::read(who["organisation_key"].as_str().unwrap()).unwrap();
        EnrolmentRequest {
            code: code.to_owned(),
            organisation: OrganisationId::of_key(&organisation_key),
            at: UtcMillis(who["server_time"].as_i64().unwrap()),
            name: name.to_owned(),
        }
    }

    /// Whether the server says that it is well. If it does not, what it said and what its log says of the
    /// reason is printed: a story that only fails with "not well" tells nobody whether the disk was full.
    pub fn is_well(&self) -> bool {
        self.says_well(&self.ask("GET", "/healthz", &[], b""))
    }

    /// Whether this answer to a question for the server's health says that it is well; see [`Server::is_well`].
    pub fn says_well(&self, answer: &Answer) -> bool {
        if answer.status != 200 {
            eprintln!("the server is not well: {} {}", answer.status, String::from_utf8_lossy(&answer.body));
            for line in self.log().lines().filter(|line| line.contains("not well")) {
                eprintln!("{line}");
            }
        }
        answer.status == 200
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}
