//! The real server as the demonstration runs it: a process of its own, on loopback, with a clock set by hand.

use std::fs;
use std::io::{BufRead as _, BufReader, Write as _};
use std::net::TcpListener;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use farsiding_core::clock::UtcMillis;
use farsiding_host::CLOCK_VARIABLE;

use crate::DemoError;

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

    /// Issues an enrolment text for a device.
    ///
    /// # Errors
    /// The program's.
    pub fn issue(&self, name: &str, role: &str) -> Result<String, DemoError> {
        let data = self.data();
        let arguments = ["enrol", "--data", &data, "--name", name, "--role", role, "--json"];
        let answer: serde_json::Value =
            serde_json::from_str(&run(&arguments, &clock_of(&self.folder))?).unwrap_or_default();
        let text = answer.get("enrolment").and_then(serde_json::Value::as_str);
        text.map(str::to_owned).ok_or_else(|| DemoError::Program {
            command: arguments.join(" "),
            why: "it gave no enrolment text".to_owned(),
        })
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

    /// Starts it again at the same address, with the system's clock, in place of this process: whatever ends
    /// this process ends the server.
    ///
    /// # Errors
    /// The program's.
    pub fn serve_on(&mut self) -> Result<(), DemoError> {
        self.stop()?;
        let port = self.url.rsplit(':').next().and_then(|port| port.parse().ok()).unwrap_or(0);
        let mut command = serving(&self.folder, port, None)?;
        command.stdout(Stdio::null());
        Err(become_it(&mut command))
    }
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

/// Where `demo/run --phone` builds the phone app.
const PHONE_APP: &str = "bindings/phone/dist";

/// Whether the phone app was built here.
pub fn has_phone_app() -> bool {
    Path::new(PHONE_APP).join("index.html").is_file()
}

fn serving(folder: &Path, port: u16, clock: Option<&str>) -> Result<Command, DemoError> {
    let log = fs::OpenOptions::new().create(true).append(true).open(folder.join("server.log"))?;
    let mut command = Command::new(program()?);
    command
        .args(["serve", "--data"])
        .arg(folder.join("office"))
        .args(["--listen", &format!("127.0.0.1:{port}")])
        .stdin(Stdio::null())
        .stderr(log);
    if has_phone_app() {
        command.args(["--app", PHONE_APP]);
    }
    match clock {
        Some(clock) => command.env(CLOCK_VARIABLE, clock),
        None => command.env_remove(CLOCK_VARIABLE),
    };
    Ok(command)
}

fn start(folder: &Path, port: u16, clock: Option<&str>) -> Result<(Child, String), DemoError> {
    let mut process = serving(folder, port, clock)?.stdout(Stdio::piped()).spawn()?;
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
