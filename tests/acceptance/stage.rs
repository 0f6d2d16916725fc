//! What the stories are played on: the real `farsiding` program, a server on a free port, devices in folders.

use std::io::{BufRead as _, BufReader, Read as _, Write as _};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Output, Stdio};
use std::sync::OnceLock;
use std::time::SystemTime;

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::Statement;
use farsiding_device::DeviceError;
use farsiding_device::forms::{self, Surrounding, Words};
use farsiding_device::shapes::Here;
use serde_json::Value;

/// The program under test, built when it is missing or older than its sources.
pub fn program() -> &'static Path {
    static PROGRAM: OnceLock<PathBuf> = OnceLock::new();
    PROGRAM.get_or_init(|| {
        let mut folder = std::env::current_exe().unwrap();
        folder.pop(); // deps
        folder.pop();
        let program = folder.join("farsiding").with_extension(std::env::consts::EXE_EXTENSION);
        let root = Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap();
        let built = program.metadata().and_then(|m| m.modified()).unwrap_or(SystemTime::UNIX_EPOCH);
        let sources = ["core/src", "core/procedures", "sync-server/src"];
        if sources.iter().any(|source| newest(&root.join(source)) > built) {
            let mut build = Command::new(env!("CARGO"));
            build.current_dir(root).args([
                "build",
                "--quiet",
                "-p",
                "farsiding-server",
                "--bin",
                "farsiding",
            ]);
            if folder.ends_with("release") {
                build.arg("--release");
            }
            let outcome = build.env("CARGO_TARGET_DIR", folder.parent().unwrap()).status().unwrap();
            assert!(outcome.success(), "the program under test does not build");
        }
        program
    })
}

fn newest(folder: &Path) -> SystemTime {
    let items = std::fs::read_dir(folder).unwrap().map(|item| item.unwrap().path());
    items
        .map(|path| if path.is_dir() { newest(&path) } else { path.metadata().unwrap().modified().unwrap() })
        .max()
        .unwrap_or(SystemTime::UNIX_EPOCH)
}

/// A command of the program, with nothing of the surroundings.
pub fn farsiding(arguments: &[&str]) -> Command {
    let mut command = Command::new(program());
    command.args(arguments).env_remove("FARSIDING_CLOCK").env_remove("FARSIDING_DIR");
    command
}

/// Random numbers of a seed that is printed; `FARSIDING_SEED` plays one again.
pub struct Dice(u64);

impl Dice {
    pub fn thrown() -> Dice {
        let mut bytes = [0u8; 8];
        getrandom::fill(&mut bytes).unwrap();
        let seed = std::env::var("FARSIDING_SEED").ok().and_then(|text| text.parse().ok());
        let seed = seed.unwrap_or(u64::from_le_bytes(bytes));
        println!("seed {seed} (FARSIDING_SEED={seed} plays it again)");
        Dice(seed)
    }

    /// A number below `limit`.
    pub fn below(&mut self, limit: u64) -> u64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % limit.max(1)
    }
}

/// A server process on its own data folder; ended with the story.
pub struct Server {
    child: Child,
    data: PathBuf,
    pub url: String,
}

impl Server {
    pub fn start(folder: &Path) -> Server {
        let data = folder.join("office");
        let log = std::fs::File::create(folder.join("server.log")).unwrap();
        let mut child = farsiding(&["serve", "--listen", "127.0.0.1:0", "--data"])
            .arg(&data)
            .stdout(Stdio::piped())
            .stderr(log)
            .spawn()
            .unwrap();
        let mut line = String::new();
        BufReader::new(child.stdout.take().unwrap()).read_line(&mut line).unwrap();
        let url = line.trim().strip_prefix("listening on ").expect(&line).to_owned();
        Server { child, data, url }
    }

    /// A text by which one device enrols.
    pub fn enrolment(&self, name: &str, role: &str) -> String {
        let data = self.data.to_str().unwrap();
        let told =
            json(&farsiding(&["enrol", "--data", data, "--name", name, "--role", role, "--json"]).output());
        told["enrolment"].as_str().unwrap().to_owned()
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

fn json(output: &std::io::Result<Output>) -> Value {
    let output = output.as_ref().unwrap();
    serde_json::from_slice(&output.stdout).unwrap_or_else(|_| panic!("this is no JSON: {output:?}"))
}

/// A device in a folder.
pub struct Device {
    pub dir: PathBuf,
    pub clock: Option<String>,
}

impl Device {
    /// A new device that has not met the office.
    pub fn new(dir: &Path, operator: &str) -> Device {
        Device::with_clock(dir, operator, None)
    }

    /// A new device whose clock stands as `FARSIDING_CLOCK` says.
    pub fn with_clock(dir: &Path, operator: &str, clock: Option<String>) -> Device {
        let device = Device { dir: dir.to_owned(), clock };
        device.yes(&["init", "--operator", operator]);
        device
    }

    /// A new device, enrolled.
    pub fn enrolled(server: &Server, dir: &Path, operator: &str) -> Device {
        let device = Device::new(dir, operator);
        device.enrol(server);
        device
    }

    pub fn enrol(&self, server: &Server) {
        let name = self.dir.file_name().unwrap().to_str().unwrap();
        // The first one also keeps the site, which takes the office's rights.
        let role = if name == "phone-1" { "office" } else { "operator" };
        self.yes(&["enrol", &server.enrolment(name, role)]);
    }

    pub fn command(&self, arguments: &[&str]) -> Command {
        let mut command = farsiding(&["device", "--dir", self.dir.to_str().unwrap()]);
        command.args(arguments);
        if let Some(clock) = &self.clock {
            command.env("FARSIDING_CLOCK", clock);
        }
        command
    }

    /// Exit code and what it said as JSON.
    pub fn run(&self, arguments: &[&str]) -> (i32, Value) {
        let output = self.command(arguments).arg("--json").output();
        let said = json(&output);
        (output.unwrap().status.code().unwrap(), said)
    }

    /// Runs a command that must succeed.
    pub fn yes(&self, arguments: &[&str]) -> Value {
        let (code, said) = self.run(arguments);
        assert_eq!(code, 0, "{arguments:?}: {said}");
        said
    }

    /// Runs a command that must end with this code; returns its words.
    pub fn no(&self, code: i32, arguments: &[&str]) -> String {
        let (found, said) = self.run(arguments);
        assert_eq!(found, code, "{arguments:?}: {said}");
        said["message"].as_str().unwrap().to_owned()
    }

    /// What a person reads.
    pub fn words(&self, arguments: &[&str]) -> String {
        let output = self.command(arguments).output().unwrap();
        assert!(output.status.success(), "{arguments:?}: {output:?}");
        String::from_utf8(output.stdout).unwrap()
    }

    /// Describes a site and opens a visit of a car there; returns the visit's id.
    pub fn open(&self, car: &str) -> String {
        if self.yes(&["site", "list"])["sites"].as_array().unwrap().is_empty() {
            self.yes(&["site", "new", "Invented Spur", "Etc/GMT+6", "1240 ft", "40"]);
        }
        let said = self.yes(&["open", "--car", car, "--site", "Invented Spur", "--spot", "2"]);
        said["visit"].as_str().unwrap().to_owned()
    }

    /// Records lines as typed behind `add`, all in one go; returns the entries' ids.
    pub fn records(&self, visit: &str, lines: &[&str]) -> Vec<String> {
        let mut child = self
            .command(&["add", visit, "-", "--json"])
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let mut input = child.stdin.take().unwrap();
        for line in lines {
            writeln!(input, "{}", serde_json::to_string(&statement(line)).unwrap()).unwrap();
        }
        drop(input);
        let mut out = String::new();
        child.stdout.take().unwrap().read_to_string(&mut out).unwrap();
        assert!(child.wait().unwrap().success(), "{lines:?}: {out}");
        ids(&serde_json::from_str(&out).unwrap())
    }

    /// The record as `show --json` has it.
    pub fn view(&self, visit: &str) -> Value {
        self.yes(&["show", visit])["visit"].clone()
    }

    /// Codes of what is missing before release and was not passed over.
    pub fn missing(&self, visit: &str) -> Vec<String> {
        let view = self.view(visit);
        let blockers = view["blockers"].as_array().unwrap().iter();
        let open = blockers.filter(|blocker| blocker["passed_over"].is_null());
        open.map(|blocker| blocker["code"].as_str().unwrap().to_owned()).collect()
    }
}

/// The entries an answer names.
pub fn ids(said: &Value) -> Vec<String> {
    said["entries"].as_array().unwrap().iter().map(|id| id.as_str().unwrap().to_owned()).collect()
}

struct Nothing;

impl Surrounding for Nothing {
    fn here(&self) -> Here {
        Here { now: UtcMillis(1_795_528_800_000), offset_minutes: -360 }
    }
    fn defect(&self, _: &str) -> Result<String, DeviceError> {
        Ok("d1".repeat(16))
    }
    fn hold(&self, _: &str) -> Result<String, DeviceError> {
        Ok("4d".repeat(16))
    }
    fn photo(&self, _: &str) -> Result<String, DeviceError> {
        Ok("f0".repeat(32))
    }
    fn new_id(&mut self) -> String {
        "d1".repeat(16)
    }
}

/// A statement as typed behind `add`. Words in brackets stay together; photographs, defects and holds are
/// always the same one.
pub fn statement(line: &str) -> Statement {
    if let Some(rest) = line.strip_prefix("photo ") {
        let about = rest.split_once(' ').map_or("", |(_, about)| about);
        let of = rest.split(' ').next().unwrap();
        return serde_json::from_value(serde_json::json!({ "photo": {
            "photo": { "sha256": "f0".repeat(32), "length": 3, "media": "image/jpeg" }, "of": of, "about": about,
        }}))
        .unwrap();
    }
    let mut words: Vec<String> = Vec::new();
    let mut rest = line;
    while !rest.is_empty() {
        let (word, behind) = match rest.strip_prefix('[') {
            Some(inside) => inside.split_once(']').unwrap(),
            None => rest.split_once(' ').unwrap_or((rest, "")),
        };
        words.push(word.to_owned());
        rest = behind.trim_start();
    }
    let form = forms::form_of(&words.remove(0), forms::VISIT_FORMS).unwrap();
    let mut typed = Words::default();
    for word in words {
        match word.split_once('=') {
            Some((name, value)) if form.fields.iter().any(|field| field.name == name) => {
                typed.named.insert(name.to_owned(), value.to_owned());
            }
            _ => typed.plain.push(word),
        }
    }
    if form.kind == "hold" {
        typed.named.insert("hold".to_owned(), "it".to_owned());
    }
    forms::fill(form, typed, None, &mut Nothing).unwrap_or_else(|error| panic!("{line}: {error}")).says
}
