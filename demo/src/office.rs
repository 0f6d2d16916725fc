//! The real server as the demonstration runs it: a process of its own, on loopback, with a clock set by hand.

use std::fs;
use std::io::{BufRead as _, BufReader, Write as _};
use std::net::TcpListener;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use farsiding_core::clock::UtcMillis;
use farsiding_host::CLOCK_VARIABLE;

use crate::network::Network;
use crate::{DemoError, phone};

/// The file by which a data folder is known as the demonstration's: no other is ever removed.
const MARK: &str = "THIS-IS-A-DEMONSTRATION";

/// The `farsiding` program beside this one.
///
/// # Errors
/// When it is not there.
pub fn program() -> Result<PathBuf, DemoError> {
    let mut folder = std::env::current_exe()?;
    folder.pop();
    if folder.ends_with("deps") {
        folder.pop(); // a test's program stands one folder deeper
    }
    let program = folder.join("farsiding").with_extension(std::env::consts::EXE_EXTENSION);
    if program.exists() {
        return Ok(program);
    }
    let why = format!("{} is not there; `cargo build -p farsiding-server` makes it", program.display());
    Err(DemoError::Program { command: String::new(), why })
}

/// Runs `farsiding` and returns what it said on standard output.
///
/// # Errors
/// When it ends with another code than 0.
pub fn run(arguments: &[&str], clock: &str) -> Result<String, DemoError> {
    let output = Command::new(program()?).args(arguments).env(CLOCK_VARIABLE, clock).output()?;
    if output.status.success() {
        return Ok(String::from_utf8_lossy(&output.stdout).into_owned());
    }
    let said = [output.stderr, output.stdout].map(|bytes| String::from_utf8_lossy(&bytes).trim().to_owned());
    Err(DemoError::Program { command: arguments.join(" "), why: said.join(" ") })
}

/// Who signs in at the office's pages of the demonstration, and with what: as invented as everything else.
pub const CLERK: (&str, &str) = ("Clerk (invented)", "lanterns on the far spur");

/// Makes the account of [`CLERK`] in the office under `data`.
///
/// # Errors
/// When the program ends with another code than 0.
pub fn welcome_clerk(data: &Path) -> Result<(), DemoError> {
    let mut command = Command::new(program()?);
    command.args(["account", "add", "--name", CLERK.0, "--data"]).arg(data.join("office"));
    let mut process = command.stdin(Stdio::piped()).stdout(Stdio::null()).stderr(Stdio::null()).spawn()?;
    if let Some(mut input) = process.stdin.take() {
        writeln!(input, "{}", CLERK.1)?;
    }
    let ended = process.wait()?;
    if ended.success() {
        return Ok(());
    }
    Err(DemoError::Program { command: "account add".to_owned(), why: ended.to_string() })
}

/// The office server.
#[derive(Debug)]
pub struct Office {
    folder: PathBuf,
    url: String,
    process: Child,
}

impl Office {
    /// Removes what an earlier demonstration left in `data` and starts a server there. Its clock stands at
    /// `begins` until it is set on.
    ///
    /// # Errors
    /// When `data` holds anything else, or the server does not start.
    pub fn start_anew(data: &Path, port: u16, begins: UtcMillis) -> Result<Office, DemoError> {
        if data.exists() {
            let mut inside = fs::read_dir(data)?;
            if !data.join(MARK).exists() && inside.next().is_some() {
                let why = "it is not empty and not a demonstration's; nothing there was touched".to_owned();
                return Err(DemoError::Scenario { place: data.display().to_string(), why });
            }
            fs::remove_dir_all(data)?;
        }
        fs::create_dir_all(data)?;
        fs::write(data.join(MARK), "Everything below is invented and may be removed.\n")?;
        set_clock_file(data, begins)?;
        let port = if port_is_free(port) { port } else { free_port()? };
        let (process, url) = start(data, port, Some(&clock_of(data)))?;
        Ok(Office { folder: data.to_owned(), url, process })
    }

    /// Where it is reached.
    pub fn url(&self) -> &str {
        &self.url
    }

    /// The folder of everything.
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// Its data folder, as `farsiding enrol --data` takes it.
    pub fn data(&self) -> String {
        self.folder.join("office").display().to_string()
    }

    /// Sets its clock.
    ///
    /// # Errors
    /// The disk's.
    pub fn set_clock(&self, at: UtcMillis) -> Result<(), DemoError> {
        set_clock_file(&self.folder, at)
    }

    /// Runs `farsiding …` on its data folder at its own time, and returns what it said.
    ///
    /// # Errors
    /// The program's.
    pub fn run(&self, arguments: &[&str]) -> Result<String, DemoError> {
        let data = self.data();
        run(&[arguments, &["--data", &data]].concat(), &clock_of(&self.folder))
    }

    /// Issues an enrolment text for a device.
    ///
    /// # Errors
    /// The program's.
    pub fn issue(&self, name: &str, role: &str) -> Result<String, DemoError> {
        let data = self.data();
        let arguments = ["enrol", "--data", &data, "--name", name, "--role", role];
        enrolment_text(Command::new(program()?).env(CLOCK_VARIABLE, clock_of(&self.folder)), &arguments)
    }

    /// Stops it as a service manager would, and waits.
    ///
    /// # Errors
    /// When it does not end by itself with 0.
    pub fn stop(&mut self) -> Result<(), DemoError> {
        let id = self.process.id().to_string();
        Command::new("kill").args(["-TERM", &id]).status()?;
        let began = Instant::now();
        while began.elapsed() < Duration::from_secs(20) {
            if let Some(status) = self.process.try_wait()? {
                if status.success() {
                    return Ok(());
                }
                return Err(DemoError::Program { command: "serve".to_owned(), why: status.to_string() });
            }
            std::thread::sleep(Duration::from_millis(20));
        }
        let why = "it did not stop within 20 s of being asked".to_owned();
        Err(DemoError::Program { command: "serve".to_owned(), why })
    }

    /// Issues a link by which a phone enrols at `url`, by the system's clock, good for a day.
    ///
    /// # Errors
    /// The program's.
    pub fn phone_link(&self, name: &str, site: &str, url: &str) -> Result<String, DemoError> {
        let data = self.data();
        let wanted = ["enrol", "--data", &data, "--name", name, "--sites", site, "--valid", "1440"];
        enrolment_text(
            Command::new(program()?).env_remove(CLOCK_VARIABLE),
            &[&wanted[..], &["--url", url]].concat(),
        )
    }

    /// Starts it with the system's clock, in place of this process: whatever ends this process ends the
    /// server. Without an address on the network it is reached where it was before.
    ///
    /// # Errors
    /// The program's.
    pub fn serve_on(self, network: Option<&Network>) -> Result<(), DemoError> {
        let port = self.port();
        let mut command = serving(&self.folder, port, None, network)?;
        command.stdout(Stdio::null());
        Err(become_it(&mut command))
    }

    /// Its port.
    pub fn port(&self) -> u16 {
        self.url.rsplit(':').next().and_then(|port| port.parse().ok()).unwrap_or(0)
    }
}

/// Runs `farsiding enrol` and returns its enrolment text.
fn enrolment_text(command: &mut Command, arguments: &[&str]) -> Result<String, DemoError> {
    let output = command.args(arguments).arg("--json").output()?;
    let answer: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap_or_default();
    let text = answer.get("enrolment").and_then(serde_json::Value::as_str);
    text.map(str::to_owned).ok_or_else(|| DemoError::Program {
        command: arguments.join(" "),
        why: format!("it gave no enrolment text. {}", String::from_utf8_lossy(&output.stderr).trim()),
    })
}

impl Drop for Office {
    fn drop(&mut self) {
        let _ = self.process.kill(); // it may have ended already
        let _ = self.process.wait();
    }
}

fn clock_of(folder: &Path) -> String {
    format!("@{}", folder.join("office-clock").display())
}

fn set_clock_file(folder: &Path, at: UtcMillis) -> Result<(), DemoError> {
    let (file, draft) = (folder.join("office-clock"), folder.join("office-clock.new"));
    fs::write(&draft, at.rfc3339())?;
    fs::rename(draft, file)?; // the server never sees half a time
    Ok(())
}

fn port_is_free(port: u16) -> bool {
    port != 0 && TcpListener::bind(("127.0.0.1", port)).is_ok()
}

fn free_port() -> Result<u16, DemoError> {
    Ok(TcpListener::bind(("127.0.0.1", 0))?.local_addr()?.port())
}

#[cfg(unix)]
fn become_it(command: &mut Command) -> DemoError {
    use std::os::unix::process::CommandExt as _;
    command.exec().into() // returns only when it failed
}

#[cfg(not(unix))]
fn become_it(command: &mut Command) -> DemoError {
    match command.status() {
        Ok(status) => DemoError::Program { command: "serve".to_owned(), why: status.to_string() },
        Err(error) => error.into(),
    }
}

/// The command that serves the office under `folder`, on loopback unless it is on a network.
fn serving(
    folder: &Path,
    port: u16,
    clock: Option<&str>,
    network: Option<&Network>,
) -> Result<Command, DemoError> {
    let log = fs::OpenOptions::new().create(true).append(true).open(folder.join("server.log"))?;
    let mut command = Command::new(program()?);
    command.args(["serve", "--data"]).arg(folder.join("office")).stdin(Stdio::null()).stderr(log);
    match network {
        Some(network) => network.serves(&mut command, port),
        None => {
            command.args(["--listen", &format!("127.0.0.1:{port}")]);
        }
    }
    if phone::is_built() {
        command.args(["--app", phone::APP]);
    }
    match clock {
        Some(clock) => command.env(CLOCK_VARIABLE, clock),
        None => command.env_remove(CLOCK_VARIABLE),
    };
    Ok(command)
}

fn start(folder: &Path, port: u16, clock: Option<&str>) -> Result<(Child, String), DemoError> {
    let mut process = serving(folder, port, clock, None)?.stdout(Stdio::piped()).spawn()?;
    let mut first = String::new();
    if let Some(out) = process.stdout.take() {
        BufReader::new(out).read_line(&mut first)?;
    }
    match first.trim().strip_prefix("listening on ") {
        Some(url) => Ok((process, url.to_owned())),
        None => {
            let _ = process.kill();
            let _ = process.wait();
            let why = format!("it did not start; see {}", folder.join("server.log").display());
            Err(DemoError::Program { command: "serve".to_owned(), why })
        }
    }
}
