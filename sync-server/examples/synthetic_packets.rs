//! Makes the packet of a synthetic stay for the tests in `tests/verify`. Those tests know the stay's secrets,
//! and so can forge what only a thief or the office itself could forge.
//!
//! `synthetic_packets FOLDER PICTURE.jpg` writes the packet into the folder and prints its measurements. The
//! product does not use this program.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a tool of the tests: it stops where something is wrong"
)]

use std::path::Path;
use std::time::Instant;

use farsiding_packet::{PacketSource, of_stay, stay_of};

#[path = "../tests/packet/stay.rs"]
mod stay;

fn main() {
    let arguments: Vec<String> = std::env::args().collect();
    let folder = Path::new(arguments.get(1).expect("a folder"));
    let picture = std::fs::read(arguments.get(2).expect("a JPEG")).unwrap();
    std::fs::create_dir_all(folder).unwrap();
    let synthetic = stay::record(&picture);
    let key = &synthetic.office.key;
    let source = PacketSource { store: &synthetic.office.store, key, photographs: &synthetic.held };
    let visits = stay_of(&synthetic.office.store, &synthetic.office.key.public(), synthetic.visit).unwrap();
    let start = Instant::now();
    let file = of_stay(&source, &visits).unwrap();
    let took = start.elapsed();
    std::fs::write(folder.join("synthetic.pdf"), &file).unwrap();
    std::fs::write(folder.join("organisation.key"), key.public().to_string()).unwrap();
    println!(
        "{} entries, {} photographs of {} bytes together: packet of {} bytes in {} ms",
        synthetic.entries(),
        synthetic.photos.len(),
        synthetic.photos.iter().map(Vec::len).sum::<usize>(),
        file.len(),
        took.as_millis()
    );
}
