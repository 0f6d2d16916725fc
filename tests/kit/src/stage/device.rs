//! A device without a screen: the program's `device` commands on a folder.

use std::path::{Path, PathBuf};
use std::process::Command;

use farsiding_core::entry::DeviceKey;
use farsiding_core::ids::Digest;
use farsiding_core::sync::PassRequest;
use serde_json::Value;

use super::{Answer, Server, now, said_by};
use crate::Dice;
use crate::program::farsiding;

/// A device in a folder.
pub struct Device {
    pub dir: PathBuf,
    /// What its clock says, as `FARSIDING_CLOCK` has it; the true time where there is nothing.
    pub clock: Option<String>,
}

impl Device {
    /// A new device that has not met the office.
    pub fn new(dir: &Path, operator: &str) -> Device {
        Device::with_clock(dir, operator, None)
    }

    /// A new device whose clock is set by hand.
    pub fn with_clock(dir: &Path, operator: &str, clock: Option<String>) -> Device {
        let device = Device { dir: dir.to_owned(), clock };
        device.yes(&["init", "--operator", operator]);
        device
    }

    /// A new device, enrolled with the office's rights: it also says what the site is.
    pub fn enrolled(server: &Server, dir: &Path, operator: &str) -> Device {
        Device::enrolled_as(server, dir, operator, "office")
    }

    /// A new device, enrolled with an operator's rights.
    pub fn of_operator(server: &Server, dir: &Path, operator: &str) -> Device {
        Device::enrolled_as(server, dir, operator, "operator")
    }

    /// A new device, enrolled in a role.
    pub fn enrolled_as(server: &Server, dir: &Path, operator: &str, role: &str) -> Device {
        let device = Device::new(dir, operator);
        device.enrol(server, role);
        device
    }

    /// Enrols it in a role, under the name of its folder.
    pub fn enrol(&self, server: &Server, role: &str) {
        let name = self.dir.file_name().unwrap().to_str().unwrap();
        self.yes(&["enrol", &server.enrolment(name, role)]);
    }

    /// A command of this device.
    pub fn command(&self, arguments: &[&str]) -> Command {
        let mut command = farsiding(&["device", "--dir", self.dir.to_str().unwrap()]);
        command.args(arguments).envs(self.clock.as_ref().map(|clock| ("FARSIDING_CLOCK", clock)));
        command
    }

    /// Runs a command; its exit code and what it said as JSON. The option stands first, as some commands take all words
    /// behind their name for text.
    pub fn run(&self, arguments: &[&str]) -> (i32, Value) {
        let output = self.command(&[&["--json"], arguments].concat()).output().unwrap();
        (output.status.code().unwrap(), said_by(&output))
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
        let output = self.command(arguments).output().unwrap();
        assert!(output.status.success(), "{arguments:?}: {output:?}");
        String::from_utf8(output.stdout).unwrap()
    }

    /// Describes a site and opens a visit of a car there; returns the visit's id.
    pub fn open(&self, car: &str) -> String {
        if self.yes(&["site", "list"])["sites"].as_array().unwrap().is_empty() {
            self.yes(&["site", "new", "Invented Spur", "Etc/GMT+6", "1240 ft", "40"]);
        }
        let said = self.yes(&["open", "--car", car, "--site", "invented spur", "--spot", "2"]);
        said["visit"].as_str().unwrap().to_owned()
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

    pub fn key(&self) -> DeviceKey {
        let text = std::fs::read_to_string(self.dir.join("device.key")).unwrap();
        DeviceKey::from_secret(Digest::read(&text).unwrap().0)
    }

    /// A request for a pass, signed now.
    pub fn pass_request(&self, server: &Server, seed: u64) -> Vec<u8> {
        PassRequest::new(server.organisation(), now(), &mut Dice::of(seed)).seal(&self.key()).unwrap()
    }

    /// A pass for photographs and hints, got as a phone would.
    pub fn pass(&self, server: &Server, seed: u64) -> Result<String, Answer> {
        let answer = server.ask("POST", "/v1/pass", &[], &self.pass_request(server, seed));
        if answer.status != 200 {
            return Err(answer);
        }
        let told: Value = serde_json::from_slice(&answer.body).unwrap();
        Ok(told["pass"].as_str().unwrap().to_owned())
    }
}

/// The entries an answer names.
pub fn ids(said: &Value) -> Vec<String> {
    said["entries"].as_array().unwrap().iter().map(|id| id.as_str().unwrap().to_owned()).collect()
}

/// A picture that begins as a JPEG does and cannot be compressed: its file and its bytes.
pub fn picture(folder: &Path, name: &str, length: usize, seed: u64) -> (PathBuf, Vec<u8>) {
    let mut bytes = Dice::of(seed).bytes(length);
    bytes[..3].copy_from_slice(&[0xff, 0xd8, 0xff]);
    let file = folder.join(name);
    std::fs::write(&file, &bytes).unwrap();
    (file, bytes)
}
