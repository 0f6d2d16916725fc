//! Reads from a picture what must be known before it is drawn: its format, its size, and whether a PDF/A can
//! carry its colours.

/// The largest side of a picture that is drawn, in pixels. A file may claim more than memory can hold.
const LARGEST_SIDE: u32 = 20_000;

/// Returns whether the picture is a PNG (otherwise a JPEG), and its width and height in pixels. Returns
/// `None` for a file that is only attached.
pub fn of(bytes: &[u8]) -> Option<(bool, (u32, u32))> {
    let found = png(bytes).map(|size| (true, size)).or_else(|| jpeg(bytes).map(|size| (false, size)))?;
    let (width, height) = found.1;
    // A PNG is decoded, and 40 million pixels need 160 MB.
    let drawable = (1..=LARGEST_SIDE).contains(&width)
        && (1..=LARGEST_SIDE).contains(&height)
        && (!found.0 || u64::from(width) * u64::from(height) <= 40_000_000);
    drawable.then_some(found)
}

/// Reads the size of a PNG (ISO/IEC 15948): the signature, then the header chunk.
fn png(bytes: &[u8]) -> Option<(u32, u32)> {
    let header = bytes.strip_prefix(b"\x89PNG\r\n\x1a\n\0\0\0\x0dIHDR")?;
    let (width, rest) = header.split_first_chunk::<4>()?;
    let height = rest.first_chunk::<4>()?;
    Some((u32::from_be_bytes(*width), u32::from_be_bytes(*height)))
}

/// Reads the size of a JPEG (ITU-T T.81): the frame header of a baseline, extended or progressive picture
/// with one or three components.
fn jpeg(bytes: &[u8]) -> Option<(u32, u32)> {
    let mut rest = bytes.strip_prefix(&[0xff, 0xd8])?;
    loop {
        let (&[marker, kind], behind) = rest.split_first_chunk::<2>()?;
        if marker != 0xff {
            return None;
        }
        if kind == 0xff {
            rest = rest.get(1..)?; // skips fill bytes
            continue;
        }
        let length = usize::from(u16::from_be_bytes(*behind.first_chunk::<2>()?));
        if matches!(kind, 0xc0..=0xc2) {
            let &[_, _, precision, h1, h0, w1, w0, components] = behind.first_chunk::<8>()?;
            let (width, height) = (u16::from_be_bytes([w1, w0]), u16::from_be_bytes([h1, h0]));
            return (precision == 8 && matches!(components, 1 | 3))
                .then_some((u32::from(width), u32::from(height)));
        }
        if matches!(kind, 0xd8..=0xda) || length < 2 {
            return None;
        }
        rest = behind.get(length..)?;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const GREY: &[u8] =
        &[0xff, 0xd8, 0xff, 0xe0, 0, 4, 1, 2, 0xff, 0xc0, 0, 11, 8, 0, 20, 0, 30, 1, 1, 0x11, 0, 0xff, 0xd9];

    #[test]
    fn the_size_is_read_and_odd_bytes_are_no_picture() {
        assert_eq!(of(GREY), Some((false, (30, 20))));
        for end in 0..18 {
            assert_eq!(of(&GREY[..end]), None, "cut to {end}");
        }
        let png = b"\x89PNG\r\n\x1a\n\0\0\0\x0dIHDR\0\0\0\x07\0\0\0\x05\x08\x02";
        assert_eq!(of(png), Some((true, (7, 5))));
        assert_eq!(of(&[0xff; 4096]), None);
        assert_eq!(of(b"\x89PNG\r\n\x1a\n\0\0\0\x0dIHDR\xff\xff\xff\xff\xff\xff\xff\xff"), None);
    }
}
