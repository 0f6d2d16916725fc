//! The office's folder: its files are its own, and one server has it.

use std::process::Stdio;
use std::time::{Duration, Instant};

use super::Siding;
use crate::stage::{Device, Server, farsiding};

/// Whoever made the folder beforehand, and however open: what is in it is for its owner alone.
#[cfg(unix)]
#[test]
fn every_file_of_a_folder_made_by_somebody_else_is_private() {
    use std::os::unix::fs::PermissionsExt as _;
    let folder = tempfile::tempdir().unwrap();
    let data = folder.path().join("office");
    std::fs::create_dir(&data).unwrap();
    std::fs::set_permissions(&data, std::fs::Permissions::from_mode(0o755)).unwrap();
    let server = Server::in_folder(folder.path());
    drop(Device::enrolled_as(&server, &folder.path().join("office-1"), "elm", "office"));
    let mut open = Vec::new();
    for item in std::fs::read_dir(&data).unwrap().flatten() {
        let mode = item.metadata().unwrap().permissions().mode() & 0o777;
        let wanted = if item.metadata().unwrap().is_dir() { 0o700 } else { 0o600 };
        if mode & !wanted != 0 {
            open.push(format!("{} {mode:o}", item.file_name().display()));
        }
    }
    open.sort();
    println!("others may read {open:?}");
    assert!(open.is_empty(), "{open:?}");
}

#[test]
fn a_second_server_on_one_folder_is_refused() {
    let siding = Siding::set();
    let mut second = farsiding(&["serve", "--listen", "127.0.0.1:0", "--data", &siding.data()])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let began = Instant::now();
    let ended = loop {
        match second.try_wait().unwrap() {
            Some(status) => break Some(status),
            None if began.elapsed() > Duration::from_secs(5) => break None,
            None => std::thread::sleep(Duration::from_millis(50)),
        }
    };
    println!("the second server: {}", ended.map_or("serves".to_owned(), |status| status.to_string()));
    let _ = second.kill();
    let said = second.wait_with_output().unwrap();
    assert!(ended.is_some_and(|status| !status.success()), "two servers on one folder");
    assert!(!said.stderr.is_empty(), "and says why");
    siding.phone.yes(&["sync"]);
}
