//! The cost of hostile files. Large files of every shape that costs a careless parser time or memory are
//! handled quickly, and in little more memory than their own length.

use std::time::{Duration, Instant};

use farsiding_core::ids::DeviceId;
use farsiding_packet::check_file;

use super::good;

const MEGABYTE: usize = 1 << 20;

/// Returns the highest memory use of this process so far, in bytes.
fn peak() -> usize {
    let status = std::fs::read_to_string("/proc/self/status").unwrap();
    let line = status.lines().find(|line| line.starts_with("VmHWM:")).unwrap();
    line.split_whitespace().nth(1).unwrap().parse::<usize>().unwrap() * 1024
}

/// Checks a file in a separate process, so that its memory use can be measured. The time in a debug build
/// says nothing about a release build, whose limit is 5 s.
fn costs(name: &str, make: impl Fn() -> Vec<u8>) {
    const ALONE: &str = "FARSIDING_BOUND";
    if std::env::var(ALONE).as_deref() == Ok(name) {
        let file = make();
        let (length, before, begun) = (file.len(), peak(), Instant::now());
        let report = check_file(&file, &DeviceId([7; 32]), None).unwrap();
        let (took, more) = (begun.elapsed(), peak() - before);
        assert!(!report.all_holds(), "{name}");
        println!("COST {name}: {} MB, {took:?}, {} MB besides", length / MEGABYTE, more / MEGABYTE);
        assert!(took < Duration::from_secs(60), "{name}: {took:?}");
        assert!(more < 140 * MEGABYTE, "{name}: {} MB besides the file", more / MEGABYTE);
        return;
    }
    let test = format!("bounds::{name}");
    let program = std::env::current_exe().unwrap();
    let ran = std::process::Command::new(program)
        .args([test.as_str(), "--exact", "--nocapture", "--test-threads=1"])
        .env(ALONE, name)
        .output()
        .unwrap();
    let told = String::from_utf8_lossy(&ran.stdout).into_owned();
    assert!(ran.status.success(), "{told}{}", String::from_utf8_lossy(&ran.stderr));
    assert!(told.contains("COST"), "it was not measured: {told}");
    println!("{}", told.lines().find(|line| line.contains("COST")).unwrap_or_default());
}

/// Returns a file with these objects, the first of which is the catalog.
fn file_of(objects: &[Vec<u8>]) -> Vec<u8> {
    let (mut file, mut table) = (b"%PDF-1.7\n".to_vec(), format!("xref\n1 {}\n", objects.len()));
    for (number, object) in objects.iter().enumerate() {
        table += &format!("{:010} 00000 n \n", file.len());
        file.extend([format!("{} 0 obj\n", number + 1).as_bytes(), object, b"\nendobj\n"].concat());
    }
    let start = file.len();
    let size = objects.len() + 1;
    file.extend(
        format!("{table}trailer <</Size {size} /Root 1 0 R>>\nstartxref\n{start}\n%%EOF\n").as_bytes(),
    );
    file
}

fn stream(bytes: &[u8], filter: &str) -> Vec<u8> {
    [format!("<<{filter} /Length {}>>stream\n", bytes.len()).as_bytes(), bytes, b"\nendstream"].concat()
}

/// Returns a file with these attachments, each made of one stream.
fn with_attachments(names: &[&str], streams: Vec<Vec<u8>>) -> Vec<u8> {
    let mut list = String::new();
    let mut objects = vec![Vec::new()];
    for (at, (name, bytes)) in names.iter().zip(streams).enumerate() {
        list += &format!("({name}) {} 0 R ", 2 + 2 * at);
        objects.push(format!("<</F ({name}) /EF <</F {} 0 R>> >>", 3 + 2 * at).into_bytes());
        objects.push(bytes);
    }
    objects[0] = format!("<</Names <</EmbeddedFiles <</Names [{list}]>> >> >>").into_bytes();
    file_of(&objects)
}

fn deflated(plain: &[u8], times: usize) -> Vec<u8> {
    use std::io::Write as _;
    let mut out = flate2::write::ZlibEncoder::new(Vec::new(), flate2::Compression::best());
    for _ in 0..times {
        out.write_all(plain).unwrap();
    }
    out.finish().unwrap()
}

#[test]
fn the_beginning_of_an_end_sixty_million_times() {
    costs("the_beginning_of_an_end_sixty_million_times", || {
        let mut file = b"%PDF-1.7\n".to_vec();
        file.extend(b"startxref".repeat(60 * MEGABYTE / 9));
        file
    });
}

#[test]
fn an_end_followed_by_nothing_but_blanks() {
    costs("an_end_followed_by_nothing_but_blanks", || {
        let mut file = b"%PDF-1.7\n".to_vec();
        for _ in 0..60 {
            file.extend(b"startxref");
            file.extend(vec![b' '; MEGABYTE - 9]);
        }
        file
    });
}

#[test]
fn attachments_that_inflate_to_sixty_times_their_length() {
    costs("attachments_that_inflate_to_sixty_times_their_length", || {
        let bomb = stream(&deflated(&vec![0u8; MEGABYTE], 60), "/Filter /FlateDecode");
        let names: Vec<String> = (0..40).map(|n| format!("{n:064x}.bin")).collect();
        with_attachments(&names.iter().map(String::as_str).collect::<Vec<_>>(), vec![bomb; 40])
    });
}

#[test]
fn records_that_inflate_to_what_no_record_has() {
    costs("records_that_inflate_to_what_no_record_has", || {
        let bomb = stream(&deflated(&vec![0u8; MEGABYTE], 31), "/Filter /FlateDecode");
        let names = [
            "entries.cbor",
            "certificates.cbor",
            "receipts.cbor",
            "log.cbor",
            "view.json",
            "pages.txt",
            "front.cbor",
            "seal.cbor",
        ];
        with_attachments(&names, vec![bomb; 8])
    });
}

#[test]
fn millions_of_objects() {
    costs("millions_of_objects", || {
        let mut file = b"%PDF-1.7\n".to_vec();
        let at = file.len();
        file.extend(b"xref\n0 3000000\n");
        file.extend(b"0000000009 00000 n \n".repeat(3_000_000));
        file.extend(format!("trailer <</Size 3000000 /Root 1 0 R>>\nstartxref\n{at}\n%%EOF\n").as_bytes());
        file
    });
}

#[test]
fn nesting_without_end() {
    costs("nesting_without_end", || file_of(&[b"<</A ".repeat(12 * MEGABYTE)]));
}

#[test]
fn one_list_of_thirty_million_numbers() {
    costs("one_list_of_thirty_million_numbers", || {
        file_of(&[[b"<</Names [".as_slice(), &b"1 ".repeat(30 * MEGABYTE), b"]>>"].concat()])
    });
}

#[test]
fn a_leaf_for_every_byte_and_a_list_that_claims_more_than_there_is() {
    costs("a_leaf_for_every_byte_and_a_list_that_claims_more_than_there_is", || {
        // The content is {"leaves": [0, 0, …]} and arrays that claim 2^60 items.
        let zeros = vec![0u8; 8 * MEGABYTE - 64];
        let list = |name: &[u8], length: u64, body: &[u8]| {
            [&[0xa1, 0x60 | name.len() as u8], name, &[0x9b], &length.to_be_bytes(), body].concat()
        };
        let names = ["entries.cbor", "log.cbor", "certificates.cbor", "receipts.cbor"];
        let records = vec![
            stream(&list(b"visit", zeros.len() as u64, &zeros), ""),
            stream(&list(b"leaves", zeros.len() as u64, &zeros), ""),
            stream(&list(b"certificates", 1 << 60, &[0x40]), ""),
            stream(&list(b"receipts", 8 * MEGABYTE as u64 - 64, &[0x40].repeat(8 * MEGABYTE - 64)), ""),
        ];
        with_attachments(&names, records)
    });
}

#[test]
fn the_seal_ten_thousand_times() {
    costs("the_seal_ten_thousand_times", || {
        let seal = vec![b'#'; 4000];
        let mut streams = vec![stream(&seal, "")];
        let names: Vec<String> = (0..9_000).map(|n| format!("{n:064x}.bin")).collect();
        streams.extend(vec![stream(&seal, ""); 9_000]);
        let all: Vec<&str> = ["seal.cbor"].into_iter().chain(names.iter().map(String::as_str)).collect();
        with_attachments(&all, streams)
    });
}

/// A parser that refuses everything would also pass the tests above, so an intact file must be accepted.
#[test]
fn a_sound_file_is_not_refused() {
    assert!(check_file(&good().0, &good().1, None).unwrap().all_holds());
}
