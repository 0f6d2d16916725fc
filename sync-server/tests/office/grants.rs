//! The grants of devices: sites, rights and a last day, set on the command line and on the pages.

use farsiding_core::entry::{Certificate, PublicKey, Right};
use farsiding_core::store::{Durability, SqliteStore, Store as _};

use super::pages_stage::{Session, account, text};
use super::stage::{Device, Server, farsiding};

/// Returns the certificate of the device with this name from the ledger.
fn certificate(server: &Server, name: &str) -> Certificate {
    let secret = std::fs::read_to_string(server.data.join("organisation.key")).unwrap();
    let secret = farsiding_core::ids::Digest::read(&secret).unwrap();
    let key: PublicKey = farsiding_core::entry::OrganisationKey::from_secret(secret.0).public();
    let file = server.data.join("ledger.db");
    let store = SqliteStore::open(file.to_str().unwrap(), Durability::WriteAheadLog).unwrap();
    let all = store.certificates().unwrap();
    all.iter()
        .map(|(_, bytes)| Certificate::open(bytes, &key).unwrap())
        .find(|certificate| certificate.name == name)
        .unwrap()
}

fn renew(server: &Server, device: &str, more: &[&str]) -> (i32, serde_json::Value) {
    let data = server.data.to_str().unwrap();
    let output =
        farsiding(&["renew", "--data", data, "--device", device, "--json"]).args(more).output().unwrap();
    (output.status.code().unwrap(), serde_json::from_slice(&output.stdout).unwrap())
}

#[test]
fn a_device_is_granted_sites_rights_and_a_last_day_and_keeps_what_it_recorded_before() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start(&folder.path().join("office"));
    // Without options the grant is all sites, with the rights of the role, until revoked, in a certificate of
    // version two.
    let first = Device::enrolled(&server, &folder.path().join("first"), "op-1");
    let plain = certificate(&server, "first");
    assert!(plain.issuer.is_some() && plain.renewed_at.is_some(), "{plain:?}");
    assert_eq!((&plain.sites, &plain.rights, plain.valid_until), (&None, &None, None));
    first.open("ZZQX 4417");
    first.yes(&["sync"]);

    let (code, said) = server.enrol_no("Phone 2", &["--sites", "nowhere"]);
    assert_eq!(code, 3);
    assert!(said["message"].as_str().unwrap().contains("Invented Spur"), "{said}");
    assert_eq!(server.enrol_no("Phone 2", &["--rights", "fly"]).0, 3);
    assert_eq!(server.enrol_no("Phone 2", &["--valid-until", "2001-01-01"]).0, 3);
    let (_, said) = server.enrol_no("Eyes", &["--role", "inspector"]);
    assert!(said["message"].as_str().unwrap().contains("which sites"), "{said}");

    let phone = Device::new(&folder.path().join("second"), "op-2");
    let grant = ["--sites", "invented spur", "--rights", "record,read", "--valid-until", "2090-01-31"];
    phone.yes(&["enrol", &server.code("Phone 2", &grant).1]);
    let limited = certificate(&server, "Phone 2");
    let site = limited.sites.clone().unwrap();
    assert_eq!(site.len(), 1);
    assert_eq!(limited.rights, Some(vec![Right::Record, Right::Read]));
    assert_eq!(limited.valid_until.unwrap().rfc3339(), "2090-02-01T00:00:00Z");
    let listed = server.devices();
    let row = listed["devices"].as_array().unwrap().iter().find(|d| d["name"] == "Phone 2").unwrap().clone();
    assert_eq!(row["sites"][0], site[0].to_string());
    assert_eq!((&row["rights"][0], &row["certificate"]), (&"record".into(), &2.into()));

    // With fewer rights later, the device does not lose what it recorded, because the certificate names the
    // earlier rights.
    let (code, said) = renew(&server, "first", &["--rights", "read"]);
    assert_eq!(code, 0, "{said}");
    let renewed = certificate(&server, "first");
    assert!(renewed.supersedes(&plain), "{renewed:?}");
    assert_eq!(renewed.rights, Some(vec![Right::Read]));
    assert_eq!((renewed.earlier.len(), &renewed.earlier[0].rights), (1, &None));
    assert_eq!(renewed.earlier[0].last.seq, said["last_number"].as_u64().unwrap_or(2));
    // A later last day alone does not change that.
    assert_eq!(renew(&server, "first", &["--valid-days", "30"]).0, 0);
    assert_eq!(certificate(&server, "first").earlier.len(), 1);

    // After a revocation the certificate names the last entry the office had, and nothing renews it.
    assert!(server.revoke("first").status.success());
    let revoked = certificate(&server, "first");
    assert_eq!(revoked.last.unwrap().seq, 2, "a site and a visit were recorded");
    let again = certificate(&server, "first");
    assert!(server.revoke("first").status.success());
    assert_eq!(again, certificate(&server, "first"), "twice is once");
    let (code, said) = renew(&server, "first", &["--rights", "all"]);
    assert_eq!(code, 3, "{said}");
}

#[test]
fn the_office_sees_and_changes_what_a_device_is_granted_on_a_page() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start(&folder.path().join("office"));
    account(&server, "Clerk");
    let phone = Device::enrolled(&server, &folder.path().join("phone"), "op-1");
    phone.open("ZZQX 4417");
    phone.yes(&["sync"]);
    let office = Session::office(&server);
    let page = office.until("/office/devices", |page| page.contains("Invented Spur"));
    assert!(page.contains("all sites") && page.contains("all rights of its role"), "{page}");
    let device = server.devices()["devices"][0]["device"].as_str().unwrap().to_owned();
    let path = format!("/office/devices/{device}");
    let page = office.page(&path);
    let at = page.find("name=\"site-").unwrap() + 6;
    let site = &page[at..at + 5 + 32];

    // At least one box must be ticked, and the day must be a date.
    assert_eq!(office.send(&path, &[("sites", "some")]).status, 422);
    assert_eq!(office.send(&path, &[("rights", "some")]).status, 422);
    assert_eq!(office.send(&path, &[("until", "2001-01-01")]).status, 422);
    // Ticked boxes are not ignored silently while "all" is chosen.
    assert_eq!(office.send(&path, &[("sites", "all"), (site, "yes")]).status, 422);
    assert_eq!(office.send(&path, &[("rights", "role"), ("right-read", "yes")]).status, 422);
    assert!(certificate(&server, "phone").sites.is_none());

    let answer = office.send(
        &path,
        &[
            ("sites", "some"),
            (site, "yes"),
            ("rights", "some"),
            ("right-record", "yes"),
            ("right-read", "yes"),
            ("until", "2090-01-31"),
        ],
    );
    assert_eq!(answer.status, 303, "{}", text(&answer));
    let changed = certificate(&server, "phone");
    assert_eq!(format!("site-{}", changed.sites.unwrap()[0]), site);
    assert_eq!(changed.rights, Some(vec![Right::Record, Right::Read]));
    let page = office.page(&path);
    assert!(page.contains("Invented Spur") && page.contains("2090-01-31"), "{page}");
    // A new device is added by the form. Its name must be free, and the page with the code shows the grant.
    let answer = office.send("/office/devices/enrol", &[("name", "PHONE"), ("role", "operator")]);
    assert_eq!(answer.status, 422);
    assert!(text(&answer).contains("Another device is named"), "{}", text(&answer));
    let new = [("name", "Phone 2"), ("role", "operator"), ("sites", "some"), (site, "yes")];
    let made = office.send("/office/devices/enrol", &new);
    assert_eq!(made.status, 200, "{}", text(&made));
    assert!(text(&made).contains("Invented Spur"), "{}", text(&made));
    let again = text(&office.send("/office/devices/enrol", &new));
    assert!(again.contains("no longer valid"), "{again}");
    let answer = office.send("/office/devices/enrol", &[("name", "Eyes"), ("role", "inspector")]);
    assert_eq!(answer.status, 422, "an inspector's device is given its sites one by one");
}
