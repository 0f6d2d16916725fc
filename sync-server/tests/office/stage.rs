//! What the stories are played on: a server process, devices in folders, and a few bytes on a socket.

use std::io::{BufRead, BufReader, Read as _, Write as _};
use std::net::TcpStream;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Output, Stdio};
use std::time::Duration;

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::{DeviceKey, EnrolmentRequest};
use farsiding_core::ids::{DeviceId, Digest, OrganisationId, Randomness};
use farsiding_core::sync::PassRequest;
use serde_json::Value;

/// A command of the binary under test.
pub fn farsiding(arguments: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_farsiding"));
    command.args(arguments).env_remove("FARSIDING_CLOCK").env_remove("FARSIDING_DIR");
    command
}

/// Bytes that look random and are the same for the same seed.
pub struct Dice(pub u64);

impl Randomness for Dice {
    fn fill(&mut self, bytes: &mut [u8]) {
        for byte in bytes {
            self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            *byte = (self.0 >> 56) as u8;
        }
    }
}

/// A server process on its own data folder.
pub struct Server {
    child: Child,
    pub data: PathBuf,
    pub url: String,
    port: u16,
    more: Vec<String>,
    clock: Option<String>,
}

impl Server {
    pub fn start(data: &Path) -> Server {
        Server::start_with(data, "127.0.0.1:0", &[])
    }

    pub fn start_with(data: &Path, listen: &str, more: &[&str]) -> Server {
        Server::begin(data, listen, more, None)
    }

    /// A server whose clock is set by hand.
    pub fn start_at(data: &Path, clock: &str) -> Server {
        Server::begin(data, "127.0.0.1:0", &[], Some(clock))
    }

    /// A server with options, whose clock is set by hand.
    pub fn start_with_clock(data: &Path, more: &[&str], clock: &str) -> Server {
        Server::begin(data, "127.0.0.1:0", more, Some(clock))
    }

    fn begin(data: &Path, listen: &str, more: &[&str], clock: Option<&str>) -> Server {
        let mut child = farsiding(&["serve", "--data", data.to_str().unwrap(), "--listen", listen])
            .args(more)
            .envs(clock.map(|clock| ("FARSIDING_CLOCK", clock)))
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
        Server { child, data: data.to_owned(), url, port, more, clock }
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
        let fresh = Server::begin(&self.data, &listen, &more, self.clock.as_deref());
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
        let told: Value = serde_json::from_slice(&output.stdout).unwrap();
        (told["code"].as_str().unwrap().to_owned(), told["enrolment"].as_str().unwrap().to_owned())
    }

    /// Asks for a code that must be refused: exit code and what was said.
    pub fn enrol_no(&self, name: &str, more: &[&str]) -> (i32, Value) {
        let data = self.data.to_str().unwrap();
        let output =
            farsiding(&["enrol", "--data", data, "--name", name, "--json"]).args(more).output().unwrap();
        let said = serde_json::from_slice(&output.stdout).unwrap_or_else(|_| panic!("{output:?}"));
        (output.status.code().unwrap(), said)
    }

    pub fn revoke(&self, device: &str) -> Output {
        let data = self.data.to_str().unwrap();
        farsiding(&["revoke", "--data", data, "--device", device, "--json"]).output().unwrap()
    }

    /// The registered devices.
    pub fn devices(&self) -> Value {
        let output =
            farsiding(&["devices", "--data", self.data.to_str().unwrap(), "--json"]).output().unwrap();
        serde_json::from_slice(&output.stdout).unwrap()
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
        let named = headers.iter().any(|(name, _)| *name == "host");
        let host = if named { "" } else { "host: x\r\n" };
        let mut head = format!("{method} {path} HTTP/1.1\r\n{host}connection: close\r\n");
        for (name, value) in headers {
            head.push_str(&format!("{name}: {value}\r\n"));
        }
        if !headers.iter().any(|(name, _)| *name == "content-length") {
            head.push_str(&format!("content-length: {}\r\n", body.len()));
        }
        stream.write_all(format!("{head}\r\n").as_bytes()).unwrap();
        let _ = stream.write_all(body); // a server that refuses early may close before all is sent
        Answer::read(&mut stream)
    }

    /// A request that names a host.
    pub fn ask_host(&self, host: &str, method: &str, path: &str) -> Answer {
        self.ask(method, path, &[("host", host)], b"")
    }

    /// Kilobytes of memory the process has, where the system tells.
    pub fn memory_kb(&self) -> Option<u64> {
        let status = std::fs::read_to_string(format!("/proc/{}/status", self.child.id())).ok()?;
        let line = status.lines().find_map(|line| line.strip_prefix("VmRSS:"))?;
        line.split_whitespace().next()?.parse().ok()
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

    pub fn is_well(&self) -> bool {
        self.ask("GET", "/healthz", &[], b"").status == 200
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// An HTTP answer.
#[derive(Debug)]
pub struct Answer {
    pub status: u16,
    /// The head in lower case, for looking names up; and as it came.
    pub head: String,
    pub raw_head: String,
    pub body: Vec<u8>,
}

impl Answer {
    pub fn read(stream: &mut TcpStream) -> Answer {
        let mut bytes = Vec::new();
        let mut piece = [0u8; 4096];
        loop {
            match stream.read(&mut piece) {
                Ok(0) | Err(_) => break,
                Ok(n) => bytes.extend_from_slice(&piece[..n]),
            }
        }
        let end = bytes.windows(4).position(|w| w == b"\r\n\r\n").map_or(bytes.len(), |at| at + 4);
        let raw_head = String::from_utf8_lossy(&bytes[..end]).into_owned();
        let head = raw_head.to_lowercase();
        let status = head.split(' ').nth(1).and_then(|text| text.parse().ok()).unwrap_or(0);
        Answer { status, head, raw_head, body: bytes[end..].to_vec() }
    }

    pub fn header(&self, name: &str) -> Option<String> {
        self.head
            .lines()
            .find_map(|line| line.strip_prefix(&format!("{name}: ")).map(|v| v.trim().to_owned()))
    }

    pub fn code(&self) -> String {
        let body: Value = serde_json::from_slice(&self.body).unwrap_or_default();
        body["error"].as_str().unwrap_or_default().to_owned()
    }
}

/// A device in a folder.
pub struct Device {
    pub dir: PathBuf,
    pub clock: Option<String>,
}

impl Device {
    /// A new device that has not met the office.
    pub fn new(dir: &Path, operator: &str) -> Device {
        let device = Device { dir: dir.to_owned(), clock: None };
        device.yes(&["init", "--operator", operator]);
        device
    }

    /// A new device, enrolled with the office's rights: it also says what the site is.
    pub fn enrolled(server: &Server, dir: &Path, operator: &str) -> Device {
        let device = Device::new(dir, operator);
        let name = dir.file_name().unwrap().to_str().unwrap();
        device.yes(&["enrol", &server.code(name, &["--role", "office"]).1]);
        device
    }

    fn command(&self, arguments: &[&str]) -> Command {
        let mut command = farsiding(&["device", "--dir", self.dir.to_str().unwrap(), "--json"]);
        command.args(arguments);
        if let Some(clock) = &self.clock {
            command.env("FARSIDING_CLOCK", clock);
        }
        command
    }

    /// Runs a command; its exit code and what it said as JSON.
    pub fn run(&self, arguments: &[&str]) -> (i32, Value) {
        let output = self.command(arguments).output().unwrap();
        let said = serde_json::from_slice(&output.stdout)
            .unwrap_or_else(|_| panic!("{arguments:?} did not answer in JSON: {output:?}"));
        (output.status.code().unwrap(), said)
    }

    /// Runs a command that must succeed.
    pub fn yes(&self, arguments: &[&str]) -> Value {
        let (code, said) = self.run(arguments);
        assert_eq!(code, 0, "{arguments:?}: {said}");
        said
    }

    /// Runs a command that must be refused with this exit code; returns its words.
    pub fn no(&self, code: i32, arguments: &[&str]) -> String {
        let (found, said) = self.run(arguments);
        assert_eq!(found, code, "{arguments:?}: {said}");
        said["message"].as_str().unwrap().to_owned()
    }

    /// Runs a command that must succeed and returns what a person would read.
    pub fn words(&self, arguments: &[&str]) -> String {
        let output =
            farsiding(&["device", "--dir", self.dir.to_str().unwrap()]).args(arguments).output().unwrap();
        assert!(output.status.success(), "{arguments:?}: {output:?}");
        String::from_utf8(output.stdout).unwrap()
    }

    /// Describes a site and opens a visit of a car there; returns the visit's id.
    pub fn open(&self, car: &str) -> String {
        if self.yes(&["site", "list"])["sites"].as_array().unwrap().is_empty() {
            self.yes(&["site", "new", "Invented Spur", "Etc/GMT+6", "1200 ft", "30"]);
        }
        let said = self.yes(&["open", "--car", car, "--site", "invented spur", "--spot", "2"]);
        said["visit"].as_str().unwrap().to_owned()
    }

    pub fn view(&self, visit: &str) -> Value {
        self.yes(&["show", visit])["visit"].clone()
    }

    pub fn key(&self) -> DeviceKey {
        let text = std::fs::read_to_string(self.dir.join("device.key")).unwrap();
        DeviceKey::from_secret(Digest::read(&text).unwrap().0)
    }

    /// A pass for photographs and hints, got as a phone would.
    pub fn pass(&self, server: &Server, seed: u64) -> Result<String, Answer> {
        let health = server.data.join("organisation.key");
        let secret = Digest::read(&std::fs::read_to_string(health).unwrap()).unwrap();
        let organisation: DeviceId = DeviceKey::from_secret(secret.0).public();
        let millis = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).unwrap().as_millis();
        let at = farsiding_core::clock::UtcMillis(i64::try_from(millis).unwrap());
        let request = PassRequest::new(organisation, at, &mut Dice(seed)).seal(&self.key()).unwrap();
        let answer = server.ask("POST", "/v1/pass", &[], &request);
        if answer.status != 200 {
            return Err(answer);
        }
        let told: Value = serde_json::from_slice(&answer.body).unwrap();
        Ok(told["pass"].as_str().unwrap().to_owned())
    }
}

/// A picture that begins as a JPEG does.
pub fn picture(folder: &Path, name: &str, length: usize, seed: u64) -> (PathBuf, Vec<u8>) {
    let mut bytes = vec![0u8; length];
    Dice(seed).fill(&mut bytes);
    bytes[..3].copy_from_slice(&[0xff, 0xd8, 0xff]);
    let file = folder.join(name);
    std::fs::write(&file, &bytes).unwrap();
    (file, bytes)
}
