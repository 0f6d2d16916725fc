//! Uploads of photographs: resumed at any byte, checked at the end, and accepted only with an upload token.

use std::io::Write as _;
use std::path::Path;

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::{Certificate, OrganisationKey, Role};
use farsiding_core::ids::{Digest, SiteId};
use farsiding_core::store::{Durability, SqliteStore, Store as _, Write};
use farsiding_core::sync::CERTIFICATES_VERSION;
use serde_json::Value;

use super::stage::{Answer, Device, Server, farsiding, picture};

struct Upload<'s> {
    server: &'s Server,
    bearer: String,
    path: String,
}

impl<'s> Upload<'s> {
    fn new(server: &'s Server, pass: &str, sha256: Digest) -> Upload<'s> {
        Upload { server, bearer: format!("Bearer {pass}"), path: format!("/v1/photos/{sha256}") }
    }

    fn announce(&self, sha256: Digest, length: u64) -> Answer {
        let metadata =
            format!("sha256 {},media {}", STANDARD.encode(sha256.to_string()), STANDARD.encode("image/jpeg"));
        let length = length.to_string();
        let headers = [
            ("authorization", self.bearer.as_str()),
            ("tus-resumable", "1.0.0"),
            ("upload-length", length.as_str()),
            ("upload-metadata", metadata.as_str()),
        ];
        self.server.ask("POST", "/v1/photos", &headers, b"")
    }

    fn offset(&self) -> Option<u64> {
        let headers = [("authorization", self.bearer.as_str()), ("tus-resumable", "1.0.0")];
        self.server.ask("HEAD", &self.path, &headers, b"").header("upload-offset")?.parse().ok()
    }

    fn send(&self, offset: u64, bytes: &[u8], more: &[(&str, &str)]) -> Answer {
        let offset = offset.to_string();
        let mut headers = vec![
            ("authorization", self.bearer.as_str()),
            ("tus-resumable", "1.0.0"),
            ("upload-offset", offset.as_str()),
            ("content-type", "application/offset+octet-stream"),
        ];
        headers.extend_from_slice(more);
        self.server.ask("PATCH", &self.path, &headers, bytes)
    }

    fn download(&self) -> Answer {
        self.server.ask("GET", &self.path, &[("authorization", self.bearer.as_str())], b"")
    }
}

/// Returns a photograph that a record at the office names and that was not sent.
fn spoken_of(device: &Device, folder: &Path, length: usize, seed: u64) -> (Digest, Vec<u8>) {
    let visit = device.open("ZZQX 4417");
    let (file, bytes) = picture(folder, &format!("{seed}.jpg"), length, seed);
    device.yes(&["photo", &visit, file.to_str().unwrap(), "--of", "seal"]);
    device.yes(&["sync", "--no-photos"]);
    (Digest::of(&bytes), bytes)
}

#[test]
fn an_upload_that_is_cut_off_goes_on_at_the_byte_where_it_stopped() {
    let folder = tempfile::tempdir().unwrap();
    let mut server = Server::start(&folder.path().join("office"));
    let a = Device::enrolled(&server, &folder.path().join("a"), "op-1");
    a.open("ZZQX 4417");
    let (file, bytes) = picture(folder.path(), "seal.jpg", 300_000, 11);
    let said =
        a.yes(&["photo", "4417", file.to_str().unwrap(), "--of", "seal", "--about", "seal/housing_pin"]);
    let sha256 = Digest::of(&bytes);
    assert_eq!(said["photo"], sha256.to_string());
    assert_eq!(a.yes(&["sync", "--no-photos"])["unsent_photos"], 1);

    let pass = a.pass(&server, 1).unwrap();
    let upload = Upload::new(&server, &pass, sha256);
    assert_eq!(upload.announce(sha256, 300_000).status, 201);
    // The request announces the whole photograph and breaks off after 123,457 bytes.
    let mut stream = server.connect();
    let head = format!(
        "PATCH {} HTTP/1.1\r\nhost: x\r\nauthorization: {}\r\ntus-resumable: 1.0.0\r\nupload-offset: 0\r\n\
         content-type: application/offset+octet-stream\r\ncontent-length: 300000\r\n\r\n",
        upload.path, upload.bearer
    );
    stream.write_all(head.as_bytes()).unwrap();
    stream.write_all(&bytes[..123_457]).unwrap();
    stream.flush().unwrap();
    std::thread::sleep(std::time::Duration::from_millis(300));
    stream.shutdown(std::net::Shutdown::Both).unwrap();
    let began = std::time::Instant::now();
    while upload.offset() != Some(123_457) {
        assert!(began.elapsed().as_secs() < 20, "the server has {:?}", upload.offset());
        std::thread::sleep(std::time::Duration::from_millis(50));
    }

    server.kill();
    server.restart();
    let said = a.yes(&["sync"]);
    assert_eq!(said["photo_bytes_sent"], 300_000 - 123_457);
    assert_eq!(said["unsent_photos"], 0, "the office's signed word came with the round after");
    let pass = a.pass(&server, 2).unwrap();
    let got = Upload::new(&server, &pass, sha256).download();
    assert_eq!((got.status, got.body.len()), (200, 300_000));
    assert_eq!(got.body, bytes);
    assert_eq!(got.header("content-type").as_deref(), Some("image/jpeg"));
    let digest = format!("sha-256=:{}:", STANDARD.encode(sha256.0)).to_lowercase();
    assert_eq!(got.header("repr-digest"), Some(digest));
    let name = sha256.to_string();
    assert!(server.data.join("photos").join(&name[..2]).join(&name).exists());
    assert_eq!(std::fs::read_dir(server.data.join("uploads")).unwrap().count(), 0);
}

#[test]
fn bytes_that_are_not_what_was_announced_are_not_kept() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start(&folder.path().join("office"));
    let a = Device::enrolled(&server, &folder.path().join("a"), "op-1");
    let (sha256, bytes) = spoken_of(&a, folder.path(), 5_000, 12);
    let pass = a.pass(&server, 1).unwrap();
    let upload = Upload::new(&server, &pass, sha256);
    assert_eq!(upload.send(0, &bytes, &[]).status, 404, "an upload is announced first");
    assert_eq!(upload.announce(sha256, 5_000).status, 201);

    let altered = format!("sha-256=:{}:", STANDARD.encode(Digest::of(b"other").0));
    let answer = upload.send(0, &bytes[..1_000], &[("content-digest", &altered)]);
    assert_eq!((answer.status, answer.code().as_str()), (460, "piece_differs"));
    assert_eq!(upload.offset(), Some(0), "an altered piece is taken back");
    let sound = format!("sha-256=:{}:", STANDARD.encode(Digest::of(&bytes[..1_000]).0));
    assert_eq!(upload.send(0, &bytes[..1_000], &[("content-digest", &sound)]).status, 204);
    assert_eq!(upload.send(0, &bytes[..10], &[]).status, 409, "from another place than where it stands");
    assert_eq!(upload.send(1_000, &[0; 4_001], &[]).code(), "too_many_bytes");
    let answer = upload.send(1_000, &[7; 4_000], &[]);
    assert_eq!((answer.status, answer.code().as_str()), (460, "other_bytes"));
    assert_eq!(upload.download().status, 404);

    assert_eq!(upload.announce(sha256, 5_000).status, 201);
    assert_eq!(upload.send(0, &bytes, &[]).status, 204);
    assert_eq!(upload.download().body, bytes);
    assert_eq!(upload.send(5_000, b"x", &[]).status, 409);
    assert_eq!(upload.offset(), Some(5_000), "asking after a complete one says so");
}

#[test]
fn photographs_are_let_in_and_out_by_pass_only() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start_with(&folder.path().join("office"), "127.0.0.1:0", &["--largest-photo", "1"]);
    let a = Device::enrolled(&server, &folder.path().join("a"), "op-1");
    let (_, bytes) = picture(folder.path(), "seal.jpg", 5_000, 12);
    let sha256 = Digest::of(&bytes);
    let stranger = Upload::new(&server, "made-up", sha256);
    assert_eq!(stranger.announce(sha256, 5_000).status, 401);
    assert_eq!(stranger.offset(), None);
    assert_eq!(stranger.send(0, &bytes, &[]).status, 401);
    assert_eq!(stranger.download().status, 401);
    assert_eq!(server.ask("GET", "/v1/hints", &[], b"").status, 401);

    let unknown = Device::new(&folder.path().join("unknown"), "op-9");
    assert_eq!(unknown.pass(&server, 1).unwrap_err().code(), "unknown_device");
    let pass = a.pass(&server, 5).unwrap();
    assert_eq!(Upload::new(&server, &pass, sha256).announce(sha256, 1024 * 1024 + 1).status, 413);
    let headers = [("authorization", format!("Bearer {pass}"))];
    let headers: Vec<(&str, &str)> = headers.iter().map(|(n, v)| (*n, v.as_str())).collect();
    assert_eq!(server.ask("PATCH", &format!("/v1/photos/{sha256}"), &headers, b"").status, 412);
    assert_eq!(server.ask("GET", "/v1/photos/..%2f..%2forganisation.key", &headers, b"").status, 404);
    let options = server.ask("OPTIONS", "/v1/photos", &[], b"");
    assert_eq!(options.header("tus-version").as_deref(), Some("1.0.0"));
    assert_eq!(options.header("tus-max-size").as_deref(), Some("1048576"));
}

#[test]
fn another_device_fetches_photographs_when_asked_to() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start(&folder.path().join("office"));
    let a = Device::enrolled(&server, &folder.path().join("a"), "op-1");
    let b = Device::enrolled(&server, &folder.path().join("b"), "op-2");
    let visit = a.open("ZZQX 4417");
    let (file, bytes) = picture(folder.path(), "seal.jpg", 200_000, 13);
    a.yes(&["photo", "4417", file.to_str().unwrap(), "--of", "seal", "--about", "seal/housing_pin"]);
    a.yes(&["add", "4417", "seal", "applied", "housing_pin", "INV-000123", "plastic", "photo=last"]);
    a.yes(&["sync"]);
    assert_eq!(b.yes(&["sync"])["photos_fetched"], 0);
    let said = b.yes(&["sync", "--fetch-photos"]);
    assert_eq!(said["photos_fetched"], 1);
    assert_eq!(said["unsent_photos"], 0, "what the office has just given is not only here: {said}");
    let name = Digest::of(&bytes).to_string();
    assert_eq!(std::fs::read(b.dir.join("photos").join(&name[..2]).join(&name)).unwrap(), bytes);
    let seal: Value = b.view(&visit)["seals"][0].clone();
    assert_eq!(seal["now"]["value"]["photo"], name);
}

/// Grants a device some sites only, while the server runs.
fn give_sites(server: &Server, device: &Device, sites: Vec<SiteId>) {
    let text = std::fs::read_to_string(server.data.join("organisation.key")).unwrap();
    let key = OrganisationKey::from_secret(Digest::read(&text).unwrap().0);
    let ledger = server.data.join("ledger.db");
    let mut store = SqliteStore::open(ledger.to_str().unwrap(), Durability::WriteAheadLog).unwrap();
    let id = device.key().public();
    let known = Certificate::open(&store.certificate(id).unwrap().unwrap(), &key.public()).unwrap();
    let certificate = Certificate {
        issuer: Some(key.public()),
        renewed_at: Some(UtcMillis(known.issued_at.0 + 1)),
        role: Role::Operator,
        sites: Some(sites),
        ..known
    };
    let bytes = certificate.seal(&key).unwrap();
    let version = store.value(CERTIFICATES_VERSION).unwrap().unwrap();
    let version = u64::from_be_bytes(version.try_into().unwrap()) + 1;
    store
        .commit(&[
            Write::Certificate { device: id, bytes: &bytes },
            Write::Value { key: CERTIFICATES_VERSION, value: &version.to_be_bytes() },
        ])
        .unwrap();
}

#[test]
fn a_photograph_is_given_to_devices_of_its_site_and_to_no_others() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start(&folder.path().join("office"));
    // The office describes the site, and a stay there gets a photograph.
    let a = Device::new(&folder.path().join("a"), "op-1");
    let (code, _) = server.code("a", &["--role", "office"]);
    a.yes(&["enrol", "--server", &server.url, "--code", &code]);
    let visit = a.open("ZZQX 4417");
    let (file, bytes) = picture(folder.path(), "seal.jpg", 9_000, 13);
    a.yes(&["photo", "4417", file.to_str().unwrap(), "--of", "seal", "--about", "seal/housing_pin"]);
    assert_eq!(a.yes(&["sync"])["unsent_photos"], 0);
    let sha256 = Digest::of(&bytes);
    let site = a.yes(&["site", "list"])["sites"][0]["site"].as_str().unwrap().to_owned();
    let site = SiteId::read(&site).unwrap();
    let there = Device::enrolled(&server, &folder.path().join("there"), "op-2");
    let elsewhere = Device::enrolled(&server, &folder.path().join("elsewhere"), "op-3");
    give_sites(&server, &there, vec![site]);
    give_sites(&server, &elsewhere, vec![SiteId([9; 16])]);
    let fetch = |device: &Device, seed| {
        let pass = device.pass(&server, seed).unwrap();
        Upload::new(&server, &pass, sha256).download()
    };
    assert_eq!(fetch(&there, 1).body, bytes);
    let refused = fetch(&elsewhere, 2);
    assert_eq!((refused.status, refused.code().as_str()), (404, "not_here"));
    // The same applies to the records that are synced.
    assert!(there.yes(&["sync"])["received"].as_u64().unwrap() > 0);
    there.yes(&["show", &visit]);
    elsewhere.yes(&["sync"]);
    assert_ne!(elsewhere.run(&["show", &visit]).0, 0, "there is no such stay here");
}

#[test]
fn a_photograph_no_record_speaks_of_is_not_taken() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start(&folder.path().join("office"));
    let a = Device::enrolled(&server, &folder.path().join("a"), "op-1");
    let pass = a.pass(&server, 1).unwrap();
    let unknown = Digest::of(b"anything");
    let upload = Upload::new(&server, &pass, unknown);
    let answer = upload.announce(unknown, 8);
    assert_eq!((answer.status, answer.code().as_str()), (409, "no_entry"));
    assert_eq!(upload.send(0, b"anything", &[]).status, 404);
    // After the record has arrived, the upload is accepted, but only with the length that the record states.
    let (sha256, bytes) = spoken_of(&a, folder.path(), 5_000, 12);
    let upload = Upload::new(&server, &pass, sha256);
    assert_eq!(upload.announce(sha256, 60_000_000).code(), "other_length");
    assert_eq!(upload.announce(sha256, 5_000).status, 201);
    assert_eq!(upload.send(0, &bytes, &[]).status, 204);
}

#[test]
fn a_wrong_first_announcer_is_in_nobodys_way() {
    let folder = tempfile::tempdir().unwrap();
    let mut server = Server::start(&folder.path().join("office"));
    let owner = Device::enrolled(&server, &folder.path().join("owner"), "op-1");
    let liar = Device::enrolled(&server, &folder.path().join("liar"), "op-2");
    owner.open("ZZQX 4417");
    let (file, bytes) = picture(folder.path(), "seal.jpg", 5_000, 12);
    let sha256 = Digest::of(&bytes);
    owner.yes(&["photo", "4417", file.to_str().unwrap(), "--of", "seal"]);
    // Before the owner has a network, another device names the same photograph with another length and begins
    // its upload.
    let lie = format!(
        r#"{{"photo":{{"photo":{{"sha256":"{sha256}","length":9,"media":"image/jpeg"}},"of":"other"}}}}"#
    );
    let visit = liar.open("LYZX 1");
    liar.yes(&["add", &visit, "--json", &lie]);
    liar.yes(&["sync"]);
    let false_one = Upload::new(&server, &liar.pass(&server, 1).unwrap(), sha256);
    assert_eq!(false_one.announce(sha256, 9).status, 201);
    assert_eq!(false_one.send(0, b"12345", &[]).status, 204);

    owner.yes(&["sync", "--no-photos"]);
    let true_one = Upload::new(&server, &owner.pass(&server, 2).unwrap(), sha256);
    assert_eq!(true_one.announce(sha256, 5_000).status, 201);
    assert_eq!(true_one.offset(), Some(0), "what another sent is not in it");
    assert_eq!(true_one.send(0, &bytes[..3_000], &[]).status, 204);
    assert_eq!(false_one.send(5, b"6789", &[]).code(), "other_bytes");
    server.kill();
    server.restart();
    let true_one = Upload::new(&server, &owner.pass(&server, 3).unwrap(), sha256);
    assert_eq!(true_one.offset(), Some(3_000));
    assert_eq!(true_one.send(3_000, &bytes[3_000..], &[]).status, 204);
    assert_eq!(true_one.download().body, bytes);
    assert_eq!(
        true_one.offset(),
        Some(5_000),
        "its length is that of its bytes, not of the first word about it"
    );
    assert_eq!(owner.yes(&["sync"])["unsent_photos"], 0);
    assert_eq!(std::fs::read_dir(server.data.join("uploads")).unwrap().count(), 0);
}

#[test]
fn two_devices_may_send_the_same_photograph_at_once() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start(&folder.path().join("office"));
    let a = Device::enrolled(&server, &folder.path().join("a"), "op-1");
    let b = Device::enrolled(&server, &folder.path().join("b"), "op-2");
    let (sha256, bytes) = spoken_of(&a, folder.path(), 5_000, 12);
    let by_a = Upload::new(&server, &a.pass(&server, 1).unwrap(), sha256);
    let by_b = Upload::new(&server, &b.pass(&server, 2).unwrap(), sha256);
    assert_eq!((by_a.announce(sha256, 5_000).status, by_b.announce(sha256, 5_000).status), (201, 201));
    assert_eq!(by_a.send(0, &bytes[..1_000], &[]).status, 204);
    assert_eq!(by_b.send(0, &bytes, &[]).status, 204);
    assert_eq!(by_a.offset(), Some(5_000), "it is here");
    assert_eq!(by_a.send(1_000, &bytes[1_000..], &[]).code(), "complete");
    assert_eq!(std::fs::read_dir(server.data.join("uploads")).unwrap().count(), 0);
}

#[test]
fn uploads_of_one_device_are_few_and_those_that_do_not_go_on_are_forgotten() {
    let folder = tempfile::tempdir().unwrap();
    let clock = folder.path().join("clock");
    let put = |days: i64| {
        let millis = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).unwrap().as_millis();
        let at = farsiding_core::clock::UtcMillis(i64::try_from(millis).unwrap() + days * 86_400_000);
        std::fs::write(&clock, at.rfc3339()).unwrap();
    };
    put(0);
    let more = ["--quota", "uploads=2", "--quota", "photos=3"];
    let mut server =
        Server::start_with_clock(&folder.path().join("office"), &more, &format!("@{}", clock.display()));
    let a = Device::enrolled(&server, &folder.path().join("a"), "op-1");
    let photos: Vec<(Digest, Vec<u8>)> =
        (20..24).map(|seed| spoken_of(&a, folder.path(), 5_000, seed)).collect();
    let pass = a.pass(&server, 1).unwrap();
    let uploads: Vec<Upload<'_>> =
        photos.iter().map(|(sha256, _)| Upload::new(&server, &pass, *sha256)).collect();
    let announced = |at: usize| {
        let answer = uploads[at].announce(photos[at].0, 5_000);
        (answer.status, answer.code())
    };
    assert_eq!((announced(0).0, announced(1).0), (201, 201));
    assert_eq!(announced(0).0, 201, "the same again is no second one");
    assert_eq!(announced(2), (429, "over_quota".to_owned()), "two are half sent");
    assert_eq!(uploads[0].send(0, &photos[0].1, &[]).status, 204);
    assert_eq!(uploads[1].send(0, &photos[1].1[..100], &[]).status, 204);
    assert_eq!(announced(2).0, 201);
    assert_eq!(uploads[2].send(0, &photos[2].1, &[]).status, 204);
    assert_eq!(announced(3), (429, "over_quota".to_owned()), "three a day");
    // The device reports this, keeps the photograph, and fails in nothing else.
    let said = a.yes(&["sync"]);
    assert_eq!(said["photos_put_off"].as_array().unwrap().len(), 1, "{said}");
    assert_eq!(said["unsent_photos"], 1);

    let beginnings = || std::fs::read_dir(server.data.join("uploads")).unwrap().count();
    assert_eq!(beginnings(), 0, "the device went on with the half sent one");
    put(1);
    assert_eq!(a.yes(&["sync", "--no-photos"])["unsent_photos"], 1);
    let (sha256, bytes) = &photos[3];
    put(0);
    let pass = a.pass(&server, 2).unwrap();
    put(1);
    let upload = Upload::new(&server, &pass, *sha256);
    assert_eq!(upload.announce(*sha256, 5_000).status, 201, "another day");
    assert_eq!(upload.send(0, &bytes[..700], &[]).status, 204);
    assert_eq!(beginnings(), 1);
    put(16);
    server.kill();
    server.restart();
    let began = std::time::Instant::now();
    while std::fs::read_dir(server.data.join("uploads")).unwrap().count() > 0 {
        assert!(began.elapsed().as_secs() < 20, "a fortnight without a byte more");
        std::thread::sleep(std::time::Duration::from_millis(50));
    }
    assert_eq!(a.yes(&["sync"])["unsent_photos"], 0, "sent anew, whole");
}

#[test]
fn a_photograph_that_was_removed_is_gone_stays_named_and_is_brought_by_nobody() {
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| folder.path().join(name);
    let mut server = Server::start(&at("office"));
    let phone = Device::enrolled(&server, &at("phone"), "op-1");
    let visit = phone.open("ZZQX 4711");
    let (file, bytes) = picture(folder.path(), "face.jpg", 9000, 5);
    phone.yes(&["photo", &visit, file.to_str().unwrap()]);
    phone.yes(&["sync"]);
    let digest = Digest::of(&bytes).to_string();
    let kept = server.data.join("photos").join(&digest[..2]).join(&digest);
    assert!(kept.exists());
    let data = server.data.to_str().unwrap().to_owned();
    let data = data.as_str();
    let remove = |why: &str| {
        let output = farsiding(&["photo", "remove", "--data", data, &digest, "--why", why]).output().unwrap();
        (output.status.code(), String::from_utf8_lossy(&output.stderr).into_owned())
    };
    assert_eq!(remove("  ").0, Some(3), "not without a reason");
    let (code, words) = remove("the person shown asked for it");
    assert_eq!(code, Some(0), "{words}");
    assert!(!kept.exists());
    assert_eq!(remove("again").0, Some(3));

    // The phone still has the photograph but does not send it again, not even when everything is compared
    // again.
    let restored = farsiding(&["restored", "--data", data]).output().unwrap();
    assert!(restored.status.success(), "{restored:?}");
    server.kill();
    server.restart();
    let said = phone.yes(&["sync"]);
    assert_eq!((&said["photos_sent"], &said["unsent_photos"]), (&0.into(), &0.into()), "{said}");
    assert!(!kept.exists());
    // The record names it, the packet marks it as absent and holds, and the check finds no damage.
    let view = phone.view(&visit);
    assert!(view["photos"].to_string().contains(&digest), "{view}");
    let packet = at("packet.pdf");
    let made = farsiding(&["export", "packet", "--data", data, "--visit", &visit, "--json", "--out"])
        .arg(&packet)
        .output()
        .unwrap();
    let told: serde_json::Value = serde_json::from_slice(&made.stdout).unwrap();
    let key = told["organisation_key"].as_str().unwrap();
    let checked = farsiding(&["verify", packet.to_str().unwrap(), "--key", key]).output().unwrap();
    let words = String::from_utf8_lossy(&checked.stdout).into_owned();
    assert!(checked.status.success() && words.contains("absent_photo"), "{words}");
    assert!(farsiding(&["check", "--data", data]).output().unwrap().status.success());
}
