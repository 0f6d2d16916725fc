//! Connections are never unencrypted, except on the same machine.

use super::stage::{Device, Server, farsiding};

#[test]
fn plain_http_is_refused_for_any_address_but_loopback() {
    let folder = tempfile::tempdir().unwrap();
    let data = folder.path().join("office");
    for address in ["0.0.0.0:0", "[::]:0"] {
        let output =
            farsiding(&["serve", "--data", data.to_str().unwrap(), "--listen", address]).output().unwrap();
        assert_eq!(output.status.code(), Some(3), "{address}: {output:?}");
        assert!(String::from_utf8(output.stderr).unwrap().contains("--cert"), "{address}");
    }
    assert!(!data.exists(), "nothing was made");
    let phone = Device::new(&folder.path().join("phone"), "op-1");
    let why = phone.no(3, &["enrol", "--server", "http://192.0.2.1:80", "--code", "AAAA-BBBB-CCCC"]);
    assert!(why.contains("only over https"), "{why}");
}

#[test]
fn with_a_certificate_everything_works_over_tls_and_only_for_those_who_trust_it() {
    let folder = tempfile::tempdir().unwrap();
    let made =
        rcgen::generate_simple_self_signed(vec!["127.0.0.1".to_owned(), "localhost".to_owned()]).unwrap();
    let (cert, key) = (folder.path().join("cert.pem"), folder.path().join("key.pem"));
    std::fs::write(&cert, made.cert.pem()).unwrap();
    std::fs::write(&key, made.signing_key.serialize_pem()).unwrap();
    let (cert, key) = (cert.to_str().unwrap(), key.to_str().unwrap());
    let server =
        Server::start_with(&folder.path().join("office"), "127.0.0.1:0", &["--cert", cert, "--key", key]);
    assert!(server.url.starts_with("https://"), "{}", server.url);
    let phone = Device::new(&folder.path().join("phone"), "op-1");
    let (_, text) = server.code("Phone 1", &["--role", "office"]);
    let why = phone.no(4, &["enrol", &text]);
    assert!(why.contains("certificate"), "{why}");
    phone.yes(&["enrol", &text, "--ca", cert]);
    phone.open("ZZQX 4417");
    let (photo, _) = super::stage::picture(folder.path(), "seal.jpg", 100_000, 3);
    phone.yes(&["photo", "4417", photo.to_str().unwrap(), "--of", "seal"]);
    let said = phone.yes(&["sync"]);
    assert_eq!((said["unreceipted_entries"].as_u64(), said["unsent_photos"].as_u64()), (Some(0), Some(0)));
    assert_eq!(server.ask("GET", "/healthz", &[], b"").status, 0, "plain words get no answer");
}
