//! Pictures for the scenario, made in code: a plain field of one colour with a few bars, as PNG.
//!
//! They stand in for photographs so that real bytes travel by their digest; they show nothing.

use std::io::Write as _;

use flate2::write::ZlibEncoder;
use flate2::{Compression, Crc};

const WIDTH: u32 = 96;
const HEIGHT: u32 = 64;

/// A small PNG (ISO/IEC 15948: signature, IHDR, tEXt, IDAT, IEND) that differs for every `label`.
///
/// # Errors
/// The encoder's; writing into memory does not fail.
pub fn png(label: &str) -> std::io::Result<Vec<u8>> {
    let shade = label.bytes().fold(17u8, |shade, byte| shade.wrapping_mul(31).wrapping_add(byte));
    let mut rows = Vec::new();
    for y in 0..HEIGHT {
        rows.push(0); // no filter
        for x in 0..WIDTH {
            let bar = label.as_bytes().get((x / 4) as usize).copied().unwrap_or(0);
            let dark = y > HEIGHT / 2 && (u32::from(bar) >> (x % 4)) & 1 == 1;
            let grey = if dark { 40 } else { 200 };
            rows.extend_from_slice(&[grey, shade, grey]);
        }
    }
    let mut packed = ZlibEncoder::new(Vec::new(), Compression::default());
    packed.write_all(&rows)?;
    let mut header = Vec::new();
    header.extend_from_slice(&WIDTH.to_be_bytes());
    header.extend_from_slice(&HEIGHT.to_be_bytes());
    header.extend_from_slice(&[8, 2, 0, 0, 0]); // 8 bits, red green blue
    let mut png = vec![0x89, b'P', b'N', b'G', 0x0d, 0x0a, 0x1a, 0x0a];
    chunk(&mut png, b"IHDR", &header);
    let ascii: String = label.chars().map(|c| if c.is_ascii() { c } else { '?' }).collect();
    chunk(&mut png, b"tEXt", format!("Comment\0INVENTED, made by a program: {ascii}").as_bytes());
    chunk(&mut png, b"IDAT", &packed.finish()?);
    chunk(&mut png, b"IEND", &[]);
    Ok(png)
}

fn chunk(png: &mut Vec<u8>, kind: &[u8; 4], body: &[u8]) {
    let length = u32::try_from(body.len()).unwrap_or(0);
    png.extend_from_slice(&length.to_be_bytes());
    png.extend_from_slice(kind);
    png.extend_from_slice(body);
    let mut crc = Crc::new();
    crc.update(kind);
    crc.update(body);
    png.extend_from_slice(&crc.sum().to_be_bytes());
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use std::io::Read as _;

    /// Chunk by chunk, as a reader would: kind, body, and a checksum that fits.
    fn chunks(png: &[u8]) -> Vec<(String, Vec<u8>)> {
        let mut rest = png.strip_prefix(b"\x89PNG\r\n\x1a\n").unwrap();
        let mut found = Vec::new();
        while !rest.is_empty() {
            let length = u32::from_be_bytes(rest[..4].try_into().unwrap()) as usize;
            let mut crc = Crc::new();
            crc.update(&rest[4..8 + length]);
            assert_eq!(rest[8 + length..12 + length], crc.sum().to_be_bytes());
            found.push((String::from_utf8(rest[4..8].to_vec()).unwrap(), rest[8..8 + length].to_vec()));
            rest = &rest[12 + length..];
        }
        found
    }

    #[test]
    fn a_picture_is_a_whole_png_and_differs_from_the_next() {
        let png = super::png("ZZQX 48213 seal 1").unwrap();
        let chunks = chunks(&png);
        let kinds: Vec<&str> = chunks.iter().map(|(kind, _)| kind.as_str()).collect();
        assert_eq!(kinds, ["IHDR", "tEXt", "IDAT", "IEND"]);
        let mut rows = Vec::new();
        flate2::read::ZlibDecoder::new(chunks[2].1.as_slice()).read_to_end(&mut rows).unwrap();
        assert_eq!(rows.len() as u32, HEIGHT * (1 + 3 * WIDTH));
        assert_ne!(png, super::png("ZZQX 48213 seal 2").unwrap());
    }
}
