//! The guarantees of packets: the same record gives the same bytes, every changed byte is noticed, and no
//! file crashes the reader. Forged packets and the second verifier are in `tests/verify`.
#![allow(clippy::panic, clippy::unwrap_used, reason = "a failed unwrap is a failed test")]

mod bounds;
mod damage;
mod front;
mod frozen;
mod joins;
mod keys;
mod languages;
mod large;
mod lines;
mod names;
mod papers;
mod procedure;
mod repainted;
mod stay;
mod strip;
mod taken_over;
mod taken_over_packet;

use std::collections::BTreeSet;
use std::sync::OnceLock;

use farsiding_core::evidence::packet::{CheckLine, CheckReport, Code, Files, Outcome, check as check_files};
use farsiding_core::ids::DeviceId;
use farsiding_core::procedure::Procedures;
use farsiding_core::view::FOLD_VERSION;
use farsiding_packet::{LAYOUT_VERSION, PacketSource, check_file, of_stay, stay_of, take_apart};
use farsiding_testkit::Dice;
use farsiding_words::{Language, Words};

/// The frame header of a grey JPEG, which is enough to read its size.
const PICTURE: &[u8] =
    &[0xff, 0xd8, 0xff, 0xc0, 0, 11, 8, 0, 20, 0, 30, 1, 1, 0x11, 0, 0xff, 0xda, 0, 3, 1, 0xff, 0xd9];

fn packet(synthetic: &stay::Synthetic) -> Vec<u8> {
    packet_in(synthetic, Language::ENGLISH)
}

fn packet_in(synthetic: &stay::Synthetic, language: Language) -> Vec<u8> {
    let store = &synthetic.office.store;
    let source = PacketSource { store, key: &synthetic.office.key, photographs: &synthetic.held, language };
    of_stay(&source, &stay_of(store, &synthetic.office.key.public(), synthetic.visit).unwrap()).unwrap()
}

/// Returns one packet for all tests that only read it, and the organisation's public key.
fn good() -> &'static (Vec<u8>, DeviceId) {
    static GOOD: OnceLock<(Vec<u8>, DeviceId)> = OnceLock::new();
    GOOD.get_or_init(|| {
        let synthetic = stay::record(PICTURE);
        (packet(&synthetic), synthetic.office.key.public())
    })
}

/// Returns a line of the report in American English.
fn text(line: &CheckLine) -> String {
    Words::english().text(&line.message)
}

fn marked(report: &CheckReport) -> BTreeSet<Code> {
    report.lines.iter().filter(|line| line.outcome == Outcome::Marked).map(|line| line.code).collect()
}

fn check(file: &[u8]) -> CheckReport {
    check_file(file, &good().1, None).unwrap()
}

#[test]
fn the_same_record_gives_the_same_bytes_whatever_else_came_in_since() {
    let mut synthetic = stay::record(PICTURE);
    assert_eq!(synthetic.entries(), 120);
    let first = packet(&synthetic);
    assert!(packet(&synthetic) == first, "made again at once");
    synthetic.something_elsewhere();
    assert!(packet(&synthetic) == first, "made again after another car's entries came in");
}

#[test]
fn a_packet_holds_and_a_revoked_phones_late_word_is_marked() {
    let report = check(&good().0);
    assert!(report.all_holds(), "{report:?}");
    let marked = marked(&report);
    let expected = [Code::RevokedDevice, Code::UncertifiedDevice, Code::ExpiredDevice, Code::OtherLength];
    assert_eq!(marked, BTreeSet::from(expected), "{report:?}");
    let late = report.lines.iter().find(|line| line.code == Code::RevokedDevice).unwrap();
    assert!(text(late).starts_with("1 of 2 entries"), "the one let in is not marked: {}", text(late));
    assert!(report.lines.iter().any(|l| l.code == Code::View), "the record was folded again and compared");
    assert!(report.lines.iter().any(|l| l.code == Code::Pages), "the pages were drawn again and compared");
}

/// A sealed packet verifies for ever, even if the program has come to interpret its entries differently.
#[test]
fn packets_of_every_released_version_hold() {
    for (version, count) in [("v1", 4), ("v2", 4), ("v3", 5), ("v3_every_kind", 1)] {
        let folder = format!("{}/../tests/golden/{version}/packets", env!("CARGO_MANIFEST_DIR"));
        let key = std::fs::read_to_string(format!("{folder}/organisation.pub")).unwrap();
        let key = DeviceId::read(key.trim()).unwrap();
        let mut seen = 0;
        for name in std::fs::read_dir(folder).unwrap() {
            let path = name.unwrap().path();
            if path.extension().is_none_or(|ending| ending != "pdf") {
                continue;
            }
            let report = check_file(&std::fs::read(&path).unwrap(), &key, None).unwrap();
            assert!(report.all_holds(), "{}: {report:?}", path.display());
            let (marked, held) = (marked(&report), held(&report));
            let same_fold = version.starts_with("v3") && FOLD_VERSION == 3;
            assert_eq!(
                held.contains(&Code::View),
                same_fold,
                "{}: whether its view was compared",
                path.display()
            );
            assert_eq!(marked.contains(&Code::OtherFold), !same_fold);
            let same_pages = same_fold && LAYOUT_VERSION == 2;
            assert_eq!(held.contains(&Code::Pages), same_pages, "{}: whether its pages were", path.display());
            assert_eq!(marked.contains(&Code::PagesNotDrawn), !same_pages);
            let revoked = path.ends_with("revoked_device.pdf") || path.ends_with("every_kind.pdf");
            assert_eq!(marked.contains(&Code::RevokedDevice), revoked);
            assert_eq!(marked.contains(&Code::NoHead), !version.starts_with("v3"));
            assert_eq!(held.contains(&Code::Whole), version.starts_with("v3"));
            seen += 1;
        }
        assert_eq!(seen, count, "{version}");
    }
}

fn held(report: &CheckReport) -> BTreeSet<Code> {
    report.lines.iter().filter(|line| line.outcome == Outcome::Holds).map(|line| line.code).collect()
}

#[test]
fn another_organisations_key_ends_the_checking_at_once() {
    let report = check_file(&good().0, &DeviceId([7; 32]), None).unwrap();
    assert_eq!(report.lines.iter().map(|l| l.code).collect::<Vec<_>>(), [Code::WrongKey]);
}

#[test]
fn a_file_cut_off_anywhere_says_so() {
    let file = &good().0;
    for at in (8..file.len() - 1).step_by(file.len() / 40).chain([file.len() - 2]) {
        let report = check(&file[..at]);
        assert!(report.found(Code::TruncatedFile), "cut to {at}: {report:?}");
    }
}

#[test]
fn no_changed_byte_goes_unnoticed_or_crashes_the_reader() {
    let file = &good().0;
    let seed = 20_261_124;
    println!("seed {seed}");
    let mut dice = Dice::of(seed);
    for _ in 0..150 {
        let at = dice.below(file.len());
        let mut changed = file.clone();
        changed[at] ^= 1 << dice.below(8);
        let report = check(&changed);
        assert!(!report.all_holds(), "byte {at} of {} changed unnoticed", file.len());
    }
}

/// The cross-reference table and the objects at the end decide what is read at all.
#[test]
fn no_change_near_the_end_crashes_the_reader() {
    let file = &good().0;
    for at in (file.len() - 3000..file.len()).step_by(7) {
        for byte in [0u8, b' ', b'9', b'<', 0xff] {
            let mut changed = file.clone();
            changed[at] = byte;
            let _ = take_apart(&changed);
        }
    }
}

/// A small file that decompresses without end must cost no more than the limit.
#[test]
fn an_attachment_that_inflates_without_end_is_refused() {
    use std::io::Write as _;
    let mut bomb = flate2::write::ZlibEncoder::new(Vec::new(), flate2::Compression::best());
    for _ in 0..80 {
        bomb.write_all(&vec![0u8; 1 << 20]).unwrap();
    }
    let bomb = bomb.finish().unwrap();
    let stream = format!("<</Filter /FlateDecode /Length {}>>stream\n", bomb.len());
    let objects: [Vec<u8>; 3] = [
        b"<</Names <</EmbeddedFiles <</Names [(a) 2 0 R]>> >> >>".to_vec(),
        b"<</F (entries.cbor) /EF <</F 3 0 R>> >>".to_vec(),
        [stream.as_bytes(), &bomb, b"\nendstream"].concat(),
    ];
    let (mut file, mut table) = (b"%PDF-1.7\n".to_vec(), String::from("xref\n1 3\n"));
    for (number, object) in objects.iter().enumerate() {
        table += &format!("{:010} 00000 n \n", file.len());
        file.extend([format!("{} 0 obj\n", number + 1).as_bytes(), object, b"\nendobj\n"].concat());
    }
    let start = file.len();
    file.extend(format!("{table}trailer <</Size 4 /Root 1 0 R>>\nstartxref\n{start}\n%%EOF\n").as_bytes());
    let refused = take_apart(&file).unwrap_err();
    assert!(refused.to_string().contains("an attachment cannot be taken out"), "{refused}");
}

#[test]
fn hostile_records_give_lines_and_no_crash() {
    let good_files = take_apart(&good().0).unwrap().files;
    let procedures = Procedures::built_in().unwrap();
    for name in ["entries.cbor", "certificates.cbor", "receipts.cbor", "log.cbor", "names.cbor", "seal.cbor"]
    {
        let whole = &good_files.records[name];
        for at in (0..whole.len()).step_by(whole.len() / 20 + 1) {
            let mut flipped = whole.clone();
            flipped[at] ^= 0x55;
            for bytes in [whole[..at].to_vec(), flipped] {
                let mut files: Files = good_files.clone();
                files.records.insert(name.to_owned(), bytes);
                let report = check_files(&files, &good().1, None, &procedures);
                assert!(!report.all_holds(), "{name} at {at}");
            }
        }
    }
}
