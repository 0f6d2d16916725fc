//! Makes the packets for the frauds in `tests/verify/frauds.py`. The product itself records, relays and logs
//! the stays, in which somebody cheats; the packet is then gathered and sealed like any other.
//!
//! `fraud_packets FOLDER PICTURE.jpg` writes `NAME.pdf` for each fraud, and `NAME.note` where somebody keeps
//! a checkpoint. The product does not use this program.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a tool of the tests: it stops where something is wrong"
)]

use std::path::Path;

#[path = "../../tests/packet/stay.rs"]
mod stay;

mod office;
mod people;
mod world;

/// A packet, with a checkpoint that somebody else keeps.
struct Made {
    file: Vec<u8>,
    note: Option<String>,
}

impl From<Vec<u8>> for Made {
    fn from(file: Vec<u8>) -> Self {
        Made { file, note: None }
    }
}

/// The name of the fraud in `frauds.py`, and the function that makes it from a picture.
type Fraud = (&'static str, fn(&[u8]) -> Made);

fn main() {
    let arguments: Vec<String> = std::env::args().collect();
    let folder = Path::new(arguments.get(1).expect("a folder"));
    let picture = std::fs::read(arguments.get(2).expect("a JPEG")).unwrap();
    std::fs::create_dir_all(folder).unwrap();
    let frauds: Vec<&Fraud> = people::ALL.iter().chain(office::ALL).collect();
    for (name, make) in &frauds {
        let made = make(&picture);
        std::fs::write(folder.join(format!("{name}.pdf")), made.file).unwrap();
        if let Some(note) = made.note {
            std::fs::write(folder.join(format!("{name}.note")), note).unwrap();
        }
    }
    println!("{} packets from real ledgers", frauds.len());
}
