//! What has to be fetched and what is handed over: the browser's module, the packet.

use std::io::Write as _;
use std::path::Path;

use super::office::this_program;
use super::table::{Aim, Figure, Table};

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

/// The evidence packet of a visit of 120 entries and 12 photographs.
pub fn packet(table: &mut Table) {
    let known = this_program(&["export", "packet", "--help"]).output().unwrap();
    let why = if known.status.success() {
        "`farsiding export packet` is here, but this bench does not measure it yet"
    } else {
        "this `farsiding` has no `export`"
    };
    table.skipped("packet of 120 entries and 12 photographs", why);
}
