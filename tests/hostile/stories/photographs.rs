//! Photographs: whoever announces one first and wrongly keeps nobody from sending his own.

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use farsiding_core::ids::Digest;

use super::Siding;
use crate::requests::ask;
use crate::stage::{Answer, Device};

const PICTURE: &[u8] = &[0xff, 0xd8, 0xff, 1, 2, 3, 4, 5, 6];

fn announced(siding: &Siding, bearer: &str, sha256: Digest, length: u64) -> Answer {
    let metadata =
        format!("sha256 {},media {}", STANDARD.encode(sha256.to_string()), STANDARD.encode("image/jpeg"));
    let (bearer, length) = (format!("Bearer {bearer}"), length.to_string());
    let headers = [
        ("authorization", bearer.as_str()),
        ("tus-resumable", "1.0.0"),
        ("upload-length", length.as_str()),
        ("upload-metadata", metadata.as_str()),
    ];
    ask(&siding.server, "POST", "/v1/photos", &headers, b"")
}

fn sent(siding: &Siding, bearer: &str, sha256: Digest, bytes: &[u8]) -> Answer {
    let bearer = format!("Bearer {bearer}");
    let headers = [
        ("authorization", bearer.as_str()),
        ("tus-resumable", "1.0.0"),
        ("upload-offset", "0"),
        ("content-type", "application/offset+octet-stream"),
    ];
    ask(&siding.server, "PATCH", &format!("/v1/photos/{sha256}"), &headers, bytes)
}

/// The owner's photograph is at the office in the end.
fn arrives(siding: &Siding) {
    let (exit, said) = siding.phone.run(&["sync", "--attempts", "2"]);
    println!("the owner's sync ended with {exit}: {said}");
    assert_eq!(exit, 0, "{said}");
    assert_eq!(said["unsent_photos"], 0, "{said}");
}

fn with_a_photograph() -> (Siding, String) {
    let siding = Siding::set();
    let file = siding.path("seal.jpg");
    std::fs::write(&file, PICTURE).unwrap();
    siding.phone.yes(&["photo", &siding.visit, file.to_str().unwrap()]);
    siding.phone.yes(&["sync", "--no-photos"]);
    let other = Device::of_operator(&siding.server, &siding.path("phone-2"), "birch");
    let bearer = other.pass(&siding.server, 1).unwrap();
    (siding, bearer)
}

#[test]
fn a_wrong_length_announced_first_does_not_block_the_owner() {
    for length in [5, 5_000_000] {
        let (siding, bearer) = with_a_photograph();
        let told = announced(&siding, &bearer, Digest::of(PICTURE), length).status;
        println!("announced as {length} bytes by another: status {told}");
        arrives(&siding);
    }
}

#[test]
fn wrong_bytes_sent_first_do_not_block_the_owner() {
    let (siding, bearer) = with_a_photograph();
    let sha256 = Digest::of(PICTURE);
    let told = announced(&siding, &bearer, sha256, 9).status;
    let piece = sent(&siding, &bearer, sha256, &[7; 8]).status;
    println!("eight wrong bytes by another: {told}, {piece}");
    arrives(&siding);
}

/// A name no entry speaks of, and a good many: the office keeps no room for them.
#[test]
fn what_no_entry_speaks_of_is_not_taken_in() {
    let (siding, bearer) = with_a_photograph();
    let mut kept = 0;
    for number in 0..20u8 {
        let bytes = vec![number; 100_000];
        let sha256 = Digest::of(&bytes);
        announced(&siding, &bearer, sha256, bytes.len() as u64);
        kept += u8::from(sent(&siding, &bearer, sha256, &bytes).status == 204);
    }
    println!("{kept} of 20 photographs that no entry speaks of were taken in");
    assert_eq!(kept, 0);
}
