//! A PostgreSQL server of a test's own, in a temporary folder, waiting for its disk as it does by default.
//!
//! A shell keeps the server: it starts it when told so on its input, and when that input ends with the test's
//! process, however it ends, it stops the server and removes the folder.

use std::io::Write as _;
use std::net::TcpListener;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::OnceLock;
use std::time::{Duration, Instant};

/// How to get a server, said by tests that find none.
const MISSING: &str = "these tests need a PostgreSQL server (15 or later): install Debian's package `postgresql`, \
                       which tests/installs does";

/// Starts the server for each line read, and stops every one that it started: a slow server is told to start twice, and
/// the second one ends at once while the first goes on. The arguments are its folder and its command.
const KEEPER: &str = "folder=$1; shift; started=
while read -r _; do \"$@\" >>\"$folder/log\" 2>&1 & started=\"$started $!\"; done
for pid in $started; do kill -QUIT \"$pid\" 2>/dev/null; done
wait; rm -rf \"$folder\"";

/// How long the keeper may take to stop the server.
const STOPS_WITHIN: Duration = Duration::from_secs(30);

/// A running server.
pub struct Postgres {
    keeper: Child,
    programs: PathBuf,
    folder: PathBuf,
    port: u16,
}

/// The folder of the newest server's programs.
fn programs() -> PathBuf {
    let version = |path: &Path| path.file_name()?.to_str()?.parse::<u32>().ok();
    let mut found: Vec<(u32, PathBuf)> = std::fs::read_dir("/usr/lib/postgresql")
        .into_iter()
        .flatten()
        .flatten()
        .filter_map(|entry| Some((version(&entry.path())?, entry.path().join("bin"))))
        .filter(|(version, programs)| *version >= 15 && programs.join("initdb").exists())
        .collect();
    found.sort();
    let on_path = std::env::var("PATH").unwrap_or_default();
    let mut on_path = std::env::split_paths(&on_path)
        .filter(|folder| folder.join("postgres").exists() && folder.join("initdb").exists());
    found.pop().map(|(_, programs)| programs).or_else(|| on_path.next()).expect(MISSING)
}

/// The words before a command that run it as another than root, as whom the server refuses to run.
fn as_another() -> Vec<String> {
    let who = Command::new("id").arg("-u").output().unwrap();
    if String::from_utf8_lossy(&who.stdout).trim() != "0" {
        return Vec::new();
    }
    let known = |user: &str| Command::new("id").arg(user).output().is_ok_and(|told| told.status.success());
    let user = if known("postgres") { "postgres" } else { "nobody" };
    ["setpriv", "--reuid", user, "--regid", if user == "nobody" { "nogroup" } else { user }, "--clear-groups"]
        .map(str::to_owned)
        .to_vec()
}

fn done(command: &mut Command) {
    let output = command.output().unwrap_or_else(|error| panic!("{command:?}: {error}"));
    assert!(output.status.success(), "{command:?}: {}", String::from_utf8_lossy(&output.stderr));
}

impl Postgres {
    /// Makes a server and starts it.
    pub fn start() -> Postgres {
        Postgres::made(None)
    }

    /// Makes a server that encrypts for whoever asks, with a certificate and its key as PEM.
    pub fn encrypting(certificate: &str, key: &str) -> Postgres {
        Postgres::made(Some((certificate, key)))
    }

    fn made(encrypts: Option<(&str, &str)>) -> Postgres {
        static COUNT: std::sync::atomic::AtomicU32 = std::sync::atomic::AtomicU32::new(0);
        let programs = programs();
        let count = COUNT.fetch_add(1, std::sync::atomic::Ordering::Relaxed);
        let folder = std::env::temp_dir().join(format!("farsiding-postgres-{}-{count}", std::process::id()));
        std::fs::create_dir(&folder).unwrap();
        let mut another = as_another();
        if !another.is_empty() {
            done(Command::new("chown").arg(&another[2]).arg(&folder));
        }
        let data = folder.join("data");
        another.push(programs.join("initdb").display().to_string());
        let mut make = Command::new(&another[0]);
        make.args(&another[1..]).args([
            "-N",
            "-A",
            "trust",
            "-U",
            "farsiding",
            "-E",
            "UTF8",
            "--locale=C",
            "-D",
        ]);
        done(make.arg(&data).current_dir("/"));
        another.pop();
        let port = TcpListener::bind("127.0.0.1:0").unwrap().local_addr().unwrap().port();
        let mut keep = Command::new("sh");
        keep.args(["-c", KEEPER, "keeper"]).arg(&folder).args(&another).arg(programs.join("postgres"));
        keep.arg("-D").arg(&data).args(["-p", &port.to_string(), "-c", "listen_addresses=127.0.0.1"]);
        keep.arg("-c").arg(format!("unix_socket_directories={}", folder.display()));
        keep.args(["-c", "max_connections=200"]).current_dir("/");
        if let Some((certificate, key)) = encrypts {
            for (setting, name, text) in
                [("ssl_cert_file", "server.pem", certificate), ("ssl_key_file", "server.key", key)]
            {
                let file = folder.join(name);
                std::fs::write(&file, text).unwrap();
                done(Command::new("chmod").arg("600").arg(&file));
                if !another.is_empty() {
                    done(Command::new("chown").arg(&another[2]).arg(&file));
                }
                keep.arg("-c").arg(format!("{setting}={}", file.display()));
            }
            keep.args(["-c", "ssl=on"]);
        }
        let keeper = keep.stdin(Stdio::piped()).stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap();
        let mut server = Postgres { keeper, programs, folder, port };
        server.begin();
        server
    }

    /// One server for all tests of a program.
    pub fn shared() -> &'static Postgres {
        static SHARED: OnceLock<Postgres> = OnceLock::new();
        SHARED.get_or_init(Postgres::start)
    }

    /// Starts the server and waits until it answers.
    pub fn begin(&mut self) {
        let began = Instant::now();
        let mut told = Instant::now();
        self.keeper.stdin.as_mut().unwrap().write_all(b"start\n").unwrap();
        while !self.answers() {
            assert!(began.elapsed() < Duration::from_secs(60), "the server does not start: {}", self.log());
            if told.elapsed() > Duration::from_secs(5) {
                // What was killed may have had the folder locked for a moment longer.
                self.keeper.stdin.as_mut().unwrap().write_all(b"start\n").unwrap();
                told = Instant::now();
            }
            std::thread::sleep(Duration::from_millis(50));
        }
    }

    fn answers(&self) -> bool {
        let mut ask = Command::new(self.programs.join("pg_isready"));
        let asked = ask.args(["-q", "-h", "127.0.0.1", "-p", &self.port.to_string()]).status();
        asked.is_ok_and(|status| status.success())
    }

    /// Ends the server and everything it was doing as a power cut would.
    pub fn kill(&mut self) {
        let text = std::fs::read_to_string(self.folder.join("data/postmaster.pid")).unwrap();
        done(Command::new("kill").args(["-KILL", text.lines().next().unwrap()]));
        let began = Instant::now();
        while self.answers() && began.elapsed() < Duration::from_secs(10) {
            std::thread::sleep(Duration::from_millis(20));
        }
    }

    /// Makes an empty database and returns its address.
    pub fn database(&self, name: &str) -> String {
        self.sql("postgres", &format!("CREATE DATABASE {name}"));
        self.address(name)
    }

    /// Returns the address of a database.
    pub fn address(&self, name: &str) -> String {
        format!("postgres://farsiding@127.0.0.1:{}/{name}", self.port)
    }

    /// Returns the port it listens on.
    pub fn port(&self) -> u16 {
        self.port
    }

    /// Runs SQL with the server's own program and returns what it prints.
    pub fn sql(&self, database: &str, sql: &str) -> String {
        let mut run = Command::new(self.programs.join("psql"));
        run.args(["-h", "127.0.0.1", "-p", &self.port.to_string(), "-U", "farsiding", "-XAtq", "-v"]);
        let output = run.args(["ON_ERROR_STOP=1", "-c", sql, database]).output().unwrap();
        assert!(output.status.success(), "{sql}: {}", String::from_utf8_lossy(&output.stderr));
        String::from_utf8_lossy(&output.stdout).trim().to_owned()
    }

    /// Returns what the server wrote of itself.
    pub fn log(&self) -> String {
        std::fs::read_to_string(self.folder.join("log")).unwrap_or_default()
    }
}

impl Drop for Postgres {
    fn drop(&mut self) {
        drop(self.keeper.stdin.take());
        let began = Instant::now();
        while matches!(self.keeper.try_wait(), Ok(None)) {
            if began.elapsed() > STOPS_WITHIN {
                let _ = self.keeper.kill();
                let _ = self.keeper.wait();
                return;
            }
            std::thread::sleep(Duration::from_millis(20));
        }
    }
}
