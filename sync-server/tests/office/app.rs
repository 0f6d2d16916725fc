//! The phone app as served by the office: the built files, compressed once by the build, with the policy that
//! isolates the page, and the redirect from the bare address.

use std::fs;

use crate::stage::{Answer, Server};

const PAGE: &[u8] = b"<!doctype html><title>app</title>";
const MODULE: &[u8] = b"\0asm and so on";
/// This content is not really compressed. The server must send the file of the build byte for byte.
const TWIN: &[u8] = b"what the build made of it";

fn served(within: &std::path::Path) -> Server {
    let app = within.join("app");
    fs::create_dir_all(app.join("core")).unwrap();
    for (name, bytes) in [
        ("index.html", PAGE),
        ("index.html.br", TWIN),
        ("core/module.wasm", MODULE),
        ("core/module.wasm.br", TWIN),
        ("icon.png", b"png"),
    ] {
        fs::write(app.join(name), bytes).unwrap();
    }
    Server::start_with(&within.join("data"), "127.0.0.1:0", &["--app", app.to_str().unwrap()])
}

fn fetch(server: &Server, path: &str, accepts: &str) -> Answer {
    server.ask("GET", path, &[("accept-encoding", accepts)], b"")
}

#[test]
fn a_browser_that_reads_brotli_gets_what_the_build_compressed() {
    let folder = tempfile::tempdir().unwrap();
    let server = served(folder.path());
    for (path, media) in [("/app/", "text/html"), ("/app/core/module.wasm", "application/wasm")] {
        let answer = fetch(&server, path, "gzip, deflate, br, zstd");
        assert_eq!((answer.status, answer.body.as_slice()), (200, TWIN), "{path}");
        assert_eq!(answer.header("content-encoding").as_deref(), Some("br"), "{path}");
        assert_eq!(answer.header("content-type").as_deref(), Some(media), "{path}");
        assert_eq!(answer.header("vary").as_deref(), Some("accept-encoding"), "{path}");
    }
}

#[test]
fn a_browser_that_does_not_and_a_file_without_a_twin_get_the_file_itself() {
    let folder = tempfile::tempdir().unwrap();
    let server = served(folder.path());
    for (path, accepts, bytes) in [
        ("/app/core/module.wasm", "gzip", MODULE),
        ("/app/core/module.wasm", "br;q=0", MODULE),
        ("/app/", "identity", PAGE),
        ("/app/icon.png", "br", b"png"),
    ] {
        let answer = fetch(&server, path, accepts);
        assert_eq!((answer.status, answer.body.as_slice()), (200, bytes), "{path} {accepts}");
        assert_eq!(answer.header("content-encoding"), None, "{path} {accepts}");
    }
}

#[test]
fn whatever_is_sent_of_the_app_keeps_the_page_to_itself() {
    let folder = tempfile::tempdir().unwrap();
    let server = served(folder.path());
    for (path, accepts) in [("/app/", "br"), ("/app/", "gzip"), ("/app/core/module.wasm", "br")] {
        let answer = fetch(&server, path, accepts);
        let policy = answer.header("content-security-policy").unwrap();
        for rule in [
            "default-src 'self'",
            "script-src 'self' 'wasm-unsafe-eval';",
            "connect-src 'self'",
            "object-src 'none'",
            "frame-ancestors 'none'",
        ] {
            assert!(policy.contains(rule), "{path} {accepts}: {policy}");
        }
        assert_eq!(answer.header("x-content-type-options").as_deref(), Some("nosniff"));
        assert_eq!(answer.header("referrer-policy").as_deref(), Some("no-referrer"));
        assert_eq!(answer.header("cache-control").as_deref(), Some("no-cache"));
    }
}

#[test]
fn the_address_alone_leads_to_the_app_and_leaves_what_is_behind_the_hash_to_the_browser() {
    let folder = tempfile::tempdir().unwrap();
    let server = served(folder.path());
    let answer = fetch(&server, "/", "br");
    // A redirect without a fragment keeps the fragment of the link (RFC 9110, 10.2.2).
    assert_eq!((answer.status, answer.header("location").as_deref()), (307, Some("/app/")));
}

#[test]
fn under_two_names_each_answers_its_own_alone() {
    let folder = tempfile::tempdir().unwrap();
    let app = folder.path().join("app");
    std::fs::create_dir(&app).unwrap();
    std::fs::write(app.join("index.html"), "the app").unwrap();
    let names =
        ["--app-host", "app.invalid", "--office-host", "office.invalid", "--app", app.to_str().unwrap()];
    let server = Server::start_with(&folder.path().join("office"), "127.0.0.1:0", &names);
    let status = |host: &str, method: &str, path: &str| server.ask_host(host, method, path).status;
    for (host, method, path, expected) in [
        ("app.invalid", "GET", "/app/", 200),
        ("APP.invalid:8460", "GET", "/app/", 200),
        ("app.invalid", "GET", "/v1/enrol", 200),
        ("app.invalid", "GET", "/office/sign-in", 404),
        ("app.invalid", "POST", "/office/sign-in", 404),
        ("office.invalid", "GET", "/office/sign-in", 200),
        ("office.invalid", "GET", "/", 307),
        ("office.invalid", "GET", "/app/", 404),
        ("office.invalid", "GET", "/v1/enrol", 404),
        ("office.invalid", "POST", "/v1/sync", 404),
        ("else.invalid", "GET", "/office/sign-in", 421),
        ("else.invalid", "GET", "/v1/enrol", 421),
        ("else.invalid", "GET", "/healthz", 200),
    ] {
        assert_eq!(status(host, method, path), expected, "{method} {path} under {host}");
    }
}
