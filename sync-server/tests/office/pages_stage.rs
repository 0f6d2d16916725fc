//! The stage for the stories of the office's pages: an office with an account, and a car with a photograph.

use std::path::Path;
use std::time::Duration;

pub use farsiding_testkit::stage::session::*;

use super::stage::{Device, Server, picture};

/// Makes wrong guesses until the wait is so long that the next steps fall into it.
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

    /// Returns a link to the visit, made on the visit's page.
    pub fn link(&self, office: &Session<'_>) -> String {
        let made = office
            .send(&format!("{}/links", self.visit_path()), &[("label", "An inspector"), ("days", "14")]);
        assert_eq!(made.status, 200, "{}", text(&made));
        let page = text(&made);
        let at = page.find("/office/link/").unwrap();
        page[at..at + page[at..].find('<').unwrap()].to_owned()
    }

    /// Returns the rows of the audit: who, what, and about what.
    pub fn audit(&self) -> Vec<(String, String, String)> {
        let register = rusqlite::Connection::open(self.data("server.db")).unwrap();
        let mut statement = register.prepare("SELECT who, did, subject FROM audit ORDER BY number").unwrap();
        let rows = statement.query_map([], |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?))).unwrap();
        rows.map(Result::unwrap).collect()
    }

    /// Returns the path of a file in the data folder.
    pub fn data(&self, name: &str) -> std::path::PathBuf {
        Path::new(&self.server.data).join(name)
    }
}
