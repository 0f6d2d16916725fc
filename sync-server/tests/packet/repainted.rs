//! Changes that the holder of the organisation's key could print around genuine records. The file is sealed
//! again with that key and every record is unchanged, but the changed pages are still reported.

use farsiding_core::evidence::packet::{Code, SEAL, Seal, seal};
use farsiding_core::ids::Digest;
use farsiding_packet::take_apart;

use super::damage::office;
use super::{check, good};

fn place(file: &[u8], needle: &[u8]) -> usize {
    file.windows(needle.len()).position(|window| window == needle).unwrap()
}

/// Returns the good file with objects replaced and added behind its end, sealed again.
fn updated(objects: &[(u32, Vec<u8>)]) -> Vec<u8> {
    let mut file = good().0.clone();
    let text = String::from_utf8_lossy(&file[file.len() - 400..]).into_owned();
    let after = |word: &str| text.rsplit(word).next().unwrap().split_whitespace().next().unwrap().to_owned();
    let (root, size, before) = (after("/Root "), after("/Size "), after("startxref\n"));
    let mut table = String::from("xref\n");
    for (number, object) in objects {
        table += &format!("{number} 1\n{:010} 00000 n \n", file.len() + 1);
        file.extend([format!("\n{number} 0 obj\n").as_bytes(), object, b"\nendobj\n"].concat());
    }
    let at = file.len();
    let size: u32 = size.parse().unwrap();
    let tail = format!(
        "{table}trailer <</Size {} /Root {root} 0 R /Prev {before}>>\nstartxref\n{at}\n%%EOF\n",
        size + 9
    );
    file.extend(tail.as_bytes());
    sealed_again(file)
}

fn sealed_again(mut file: Vec<u8>) -> Vec<u8> {
    let raw = take_apart(&good().0).unwrap().files.records[SEAL].clone();
    let sealed = Seal::open(&raw, &good().1).unwrap();
    let at = place(&file, &raw);
    file[at..at + raw.len()].fill(0);
    let again = seal(&Seal { file: Digest::of(&file), ..sealed }, &office()).unwrap();
    file[at..at + again.len()].copy_from_slice(&again);
    file
}

/// Returns the number and the text of the first object that contains these words.
fn object_with(words: &str) -> (u32, String) {
    let file = &good().0;
    let at = place(file, words.as_bytes());
    let begins = file[..at].windows(5).rposition(|w| w == b" obj\n").unwrap();
    let number = file[..begins].rsplit(|b| *b == b'\n').next().unwrap();
    let number = String::from_utf8_lossy(number).split(' ').next().unwrap().parse().unwrap();
    let ends = begins + 5 + place(&file[begins + 5..], b"endobj");
    (number, String::from_utf8_lossy(&file[begins + 5..ends]).into_owned())
}

fn first_page() -> (u32, String) {
    object_with("/Type /Page\n")
}

fn named(file: &[u8], words: &str) {
    let report = check(file);
    assert!(report.lines.iter().any(|line| line.code == Code::Seal), "the seal holds: {report:?}");
    let lines: Vec<String> =
        report.lines.iter().filter(|l| l.code == Code::AlteredPages).map(super::text).collect();
    assert!(lines.iter().any(|line| line.contains(words)), "{words:?} is not among {lines:?}");
}

#[test]
fn words_painted_over_the_first_page_are_named_with_the_page() {
    let (number, page) = first_page();
    let contents = page.split("/Contents ").nth(1).unwrap().split('\n').next().unwrap();
    let page = page.replace(&format!("/Contents {contents}"), &format!("/Contents [{contents} 90001 0 R]"));
    let paint = b"<</Length 66>>stream\nBT /f0 14 Tf 1 0 0 1 60 400 Tm (NOT released: liquid found) Tj ET      \nendstream";
    named(&updated(&[(number, page.into_bytes()), (90_001, paint.to_vec())]), "page 1 shows something else");
}

#[test]
fn a_note_laid_over_a_page_is_named() {
    let (number, page) = first_page();
    let note = "/Annots [<</Type /Annot /Subtype /FreeText /Rect [60 300 500 400] /Contents (NOT released)>>]\n  /Contents";
    named(&updated(&[(number, page.replace("/Contents", note).into_bytes())]), "page 1 shows something else");
}

#[test]
fn a_page_added_taken_out_or_put_in_anothers_place_is_named() {
    let (number, pages) = object_with("/Type /Pages");
    let kids = pages.split("/Kids [").nth(1).unwrap().split(']').next().unwrap().to_owned();
    let each: Vec<&str> = kids.split(" R").map(str::trim).filter(|kid| !kid.is_empty()).collect();
    let with = |chosen: &[&str]| {
        let list: Vec<String> = chosen.iter().map(|kid| format!("{kid} R")).collect();
        updated(&[(number, pages.replace(&kids, &list.join(" ")).into_bytes())])
    };
    let (last, count) = (each[each.len() - 1], each.len());
    named(&with(&each[..count - 1]), &format!("pages {count} to {count} are gone"));
    named(
        &with(&[each.as_slice(), &[last]].concat()),
        &format!("pages {} to {} were added", count + 1, count + 1),
    );
    let mut swapped = each.clone();
    swapped.swap(1, 2);
    named(&with(&swapped), "page 2 shows something else");
}

#[test]
fn something_beside_the_pages_is_named_too() {
    let (number, catalog) = object_with("/Type /Catalog");
    let script = "/Type /Catalog /OpenAction <</S /JavaScript /JS (app.alert\\(1\\))>>";
    let file = updated(&[(number, catalog.replace("/Type /Catalog", script).into_bytes())]);
    named(&file, "something stands around its pages");
    // The same is reported if an appended update changes nothing at all.
    named(&updated(&[]), "something stands around its pages");
}
