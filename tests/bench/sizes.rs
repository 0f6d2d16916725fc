//! What has to be fetched and what is handed over: the browser's module, the packet.

use std::io::Write as _;
use std::path::Path;

use farsiding_core::book::Draft;
use farsiding_core::entry::Statement;
use farsiding_core::entry::vocabulary::{PhotoOf, PhotoRef};
use farsiding_core::ids::{Digest, Subject};
use farsiding_core::procedure::Procedures;
use farsiding_office::data_folder::DataFolder;
use farsiding_office::photo_store::PhotoStore;

use super::office::{Caller, Office, meet, this_program};
use super::table::{Aim, Figure, Table, timed};
use super::workload::{operator, visit};

/// The browser's module, compressed, beside Automerge's own module alone.
pub fn browser_module(table: &mut Table) {
    let what = "browser module, gzip";
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    let Ok(ours) = std::fs::read(root.join("bindings/web/dist/farsiding_bindings.wasm")) else {
        return table.skipped(what, "bindings/web/dist is not built (bindings/build-web)");
    };
    let rival = "tests/bench/rivals/node_modules/@automerge/automerge/dist/automerge.wasm";
    let Ok(theirs) = std::fs::read(root.join(rival)) else {
        return table.skipped(what, "the rivals are not installed");
    };
    let (whole, ours, theirs) = (ours.len(), gzipped(&ours), gzipped(&theirs));
    let (ours, theirs) = (Figure::Bytes(ours), Figure::Bytes(theirs));
    table.row(what, ours, "Automerge's module, without a store", theirs, Aim::Shown);
    table.note(&format!("{whole} B before compression"));
}

fn gzipped(bytes: &[u8]) -> u64 {
    let mut encoder = flate2::write::GzEncoder::new(Vec::new(), flate2::Compression::best());
    encoder.write_all(bytes).unwrap();
    encoder.finish().unwrap().len() as u64
}

/// The evidence packet of a visit of 120 entries and 12 photographs (pictures of the screens stand for them),
/// beside what it proves: the entries' and the photographs' own bytes.
pub fn packet(table: &mut Table, folder: &Path) {
    let pictures = pictures();
    let data = folder.join("office-packet");
    let office = Office::start(&data);
    let mut book = office.phone("phone");
    let entries = 120 - pictures.len() as u32;
    let visit = visit(&mut book, &Procedures::built_in().unwrap(), 5000, entries, 1);
    for picture in &pictures {
        let (sha256, length) = (Digest::of(picture), picture.len() as u64);
        let photo = PhotoRef { sha256, length, media: "image/png".into() };
        let says = Statement::Photo { photo, of: PhotoOf::Seal, about: String::new() };
        book.append(Subject::Visit(visit), vec![Draft::of(says)], &operator()).unwrap();
    }
    meet(&mut book, &mut Caller::to(office.process.port));
    drop(office);
    keep(&data, &pictures);
    let rows = book.store().entries_of(Subject::Visit(visit)).unwrap().rows;
    assert_eq!(rows.len(), 120);
    let alone: usize = rows.iter().map(|row| row.bytes.len()).chain(pictures.iter().map(Vec::len)).sum();
    let out = folder.join("packet.pdf");
    let visit = visit.to_string();
    let mut command = this_program(&["export", "packet", "--visit", &visit]);
    command.arg("--data").arg(&data).arg("--out").arg(&out);
    let took = timed(|| assert!(command.output().unwrap().status.success()));
    let whole = std::fs::metadata(&out).unwrap().len();
    let what = "packet of 120 entries and 12 photographs";
    let (ours, theirs) = (Figure::Bytes(whole), Figure::Bytes(alone as u64));
    table.row(what, ours, "entries and photographs alone", theirs, Aim::Shown);
    table.note(&format!("made in {took:.2?}, program start and all"));
}

fn pictures() -> Vec<Vec<u8>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../bindings/phone/pictures");
    let mut files: Vec<_> = std::fs::read_dir(folder).unwrap().map(|file| file.unwrap().path()).collect();
    files.sort();
    let pictures: Vec<Vec<u8>> = files.iter().take(12).map(|file| std::fs::read(file).unwrap()).collect();
    assert_eq!(pictures.len(), 12);
    pictures
}

/// Puts photographs where an office keeps those that came in.
fn keep(data: &Path, pictures: &[Vec<u8>]) {
    let folder = DataFolder::open(data).unwrap();
    let photos = PhotoStore::local(&folder.photo_folder(), &folder.upload_folder()).unwrap();
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().unwrap();
    runtime.block_on(async {
        for picture in pictures {
            let digest = Digest::of(picture);
            let mut beginning = photos.go_on(digest, farsiding_core::ids::DeviceId([1; 32])).await.unwrap();
            beginning.add(picture).await.unwrap();
            beginning.keep().await.unwrap();
            photos.complete(digest, farsiding_core::ids::DeviceId([1; 32])).await.unwrap();
        }
    });
}
