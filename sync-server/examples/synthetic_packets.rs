//! Makes the packet of a synthetic stay for the tests in `tests/verify`. Those tests know the stay's secrets,
//! and so can forge what only a thief or the office itself could forge.
//!
//! `synthetic_packets FOLDER PICTURE.jpg` writes the packet into the folder, beside it the same in every other
//! language and the packet of another stay that took things over (`taken-over.pdf`), and prints its measurements. The
//! product does not use this program.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a tool of the tests: it stops where something is wrong"
)]

use std::path::Path;
use std::time::Instant;

use farsiding_packet::{PacketSource, of_stay, stay_of};
use farsiding_words::Language;

#[path = "../tests/packet/stay.rs"]
mod stay;
#[path = "../tests/packet/taken_over.rs"]
mod taken_over;

fn main() {
    let arguments: Vec<String> = std::env::args().collect();
    let folder = Path::new(arguments.get(1).expect("a folder"));
    let picture = std::fs::read(arguments.get(2).expect("a JPEG")).unwrap();
    std::fs::create_dir_all(folder).unwrap();
    let synthetic = stay::record(&picture);
    let key = &synthetic.office.key;
    let source = PacketSource {
        store: &synthetic.office.store,
        key,
        photographs: &synthetic.held,
        language: Language::ENGLISH,
    };
    let visits = stay_of(&synthetic.office.store, &synthetic.office.key.public(), synthetic.visit).unwrap();
    let start = Instant::now();
    let file = of_stay(&source, &visits).unwrap();
    let took = start.elapsed();
    std::fs::write(folder.join("synthetic.pdf"), &file).unwrap();
    for language in Language::all().filter(|language| *language != Language::ENGLISH) {
        let file = of_stay(&PacketSource { language, ..source }, &visits).unwrap();
        std::fs::write(folder.join(format!("synthetic.{language}.pdf")), &file).unwrap();
    }
    std::fs::write(folder.join("organisation.key"), key.public().to_string()).unwrap();
    let other = taken_over::record(&picture);
    let source = PacketSource { store: &other.office.store, photographs: &other.held, ..source };
    let visits = stay_of(&other.office.store, &key.public(), other.visit).unwrap();
    std::fs::write(folder.join("taken-over.pdf"), of_stay(&source, &visits).unwrap()).unwrap();
    println!(
        "{} entries, {} photographs of {} bytes together: packet of {} bytes in {} ms",
        synthetic.entries(),
        synthetic.photos.len(),
        synthetic.photos.iter().map(Vec::len).sum::<usize>(),
        file.len(),
        took.as_millis()
    );
}
