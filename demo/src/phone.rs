//! The phone app of the demonstration: built while the story plays, and opened by a link that enrols it at once.

use std::fs::{self, File};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use qrcode::QrCode;
use qrcode::render::unicode::Dense1x2;

use crate::DemoError;

/// Where the phone app is built.
pub const APP: &str = "bindings/phone/dist";

/// The name under which the office enrols the phone of whoever looks at the demonstration.
pub const NAME: &str = "visitor's phone (invented)";

/// Returns true if the phone app was built here.
pub fn is_built() -> bool {
    Path::new(APP).join("index.html").is_file()
}

/// A build of the phone app under way.
#[derive(Debug)]
pub struct PhoneBuild {
    process: Child,
    log: PathBuf,
    began: Instant,
}

impl PhoneBuild {
    /// Begins the build. What it says goes to the file `log`.
    ///
    /// # Errors
    /// The disk's.
    pub fn begin(log: PathBuf) -> Result<PhoneBuild, DemoError> {
        if let Some(folder) = log.parent() {
            fs::create_dir_all(folder)?;
        }
        let out = File::create(&log)?;
        let mut command = Command::new("demo/build-phone");
        let process = command.stdin(Stdio::null()).stderr(out.try_clone()?).stdout(out).spawn()?;
        Ok(PhoneBuild { process, log, began: Instant::now() })
    }

    /// Waits for the build and prints its progress: a line for each part and one every 20 seconds. Returns what
    /// went wrong, if anything did.
    ///
    /// # Errors
    /// The disk's.
    pub fn wait(mut self) -> Result<Result<(), String>, DemoError> {
        let (mut last, mut said_at) = (String::new(), Instant::now());
        loop {
            let ended = self.process.try_wait()?;
            let part = current_part(&fs::read_to_string(&self.log)?);
            if let Some(status) = ended {
                return Ok(match (status.success(), part.strip_prefix("missing: ")) {
                    (true, _) => Ok(()),
                    (false, Some(missing)) => Err(format!("it needs {missing}")),
                    (false, None) => Err(format!("its build failed; see {}", self.log.display())),
                });
            }
            if part != last || said_at.elapsed() > Duration::from_secs(20) {
                println!("Building the phone app: {part} ({} s so far) ...", self.began.elapsed().as_secs());
                (last, said_at) = (part, Instant::now());
            }
            std::thread::sleep(Duration::from_millis(200));
        }
    }
}

/// Returns the last part that a build's log names.
fn current_part(log: &str) -> String {
    log.lines().rev().find_map(|line| line.strip_prefix("== ")).unwrap_or("beginning").to_owned()
}

/// Returns the address that opens the phone app, enrolled at once for `operator` at the site with the id `site`.
/// `link` is an enrolment link of the office.
pub fn opening_link(link: &str, operator: &str, site: &str) -> String {
    format!("{link}&operator={operator}&site={site}")
}

/// Returns `address` as a QR code of text, for a terminal with dark letters on a light ground or the reverse.
///
/// # Errors
/// [`DemoError::Scenario`] if the address is too long for a QR code.
pub fn qr_code(address: &str) -> Result<String, DemoError> {
    let code = QrCode::new(address).map_err(|error| DemoError::Scenario {
        place: "the phone's address".to_owned(),
        why: error.to_string(),
    })?;
    Ok(code.render::<Dense1x2>().dark_color(Dense1x2::Dark).light_color(Dense1x2::Light).build())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_last_part_named_is_the_current_one() {
        assert_eq!(current_part("== the core\nnoise\n== the app\nmore noise"), "the app");
        assert_eq!(current_part("noise"), "beginning");
    }

    #[test]
    fn a_qr_code_is_drawn_with_its_quiet_zone() {
        let drawn = qr_code("http://127.0.0.1:8460/app/#enrol=x").unwrap_or_default();
        let lines: Vec<_> = drawn.lines().collect();
        let width = lines.first().map_or(0, |line| line.chars().count());
        assert!(width >= 29 && lines.iter().all(|line| line.chars().count() == width), "{drawn}");
        assert_eq!(
            lines.first().map(|line| line.chars().all(|c| c == lines[0].chars().next().unwrap_or(' '))),
            Some(true)
        );
    }
}
