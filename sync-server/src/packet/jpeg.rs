//! The little that must be known of a JPEG before it is drawn: its size, and whether a PDF/A can carry its
//! colours as they are.

/// Width, height and number of colour components; nothing for anything but an ordinary JPEG.
pub fn frame(bytes: &[u8]) -> Option<(u32, u32, u8)> {
    let mut rest = bytes.strip_prefix(&[0xff, 0xd8])?;
    loop {
        let (&[marker, kind], behind) = rest.split_first_chunk::<2>()?;
        if marker != 0xff {
            return None;
        }
        if kind == 0xff {
            rest = rest.get(1..)?; // fill bytes
            continue;
        }
        let length = usize::from(u16::from_be_bytes(*behind.first_chunk::<2>()?));
        // Start of frame: baseline, extended or progressive; others no viewer must know.
        if matches!(kind, 0xc0..=0xc2) {
            let &[_, _, precision, h1, h0, w1, w0, components] = behind.first_chunk::<8>()?;
            let (width, height) = (u16::from_be_bytes([w1, w0]), u16::from_be_bytes([h1, h0]));
            let drawable = precision == 8 && width > 0 && height > 0 && matches!(components, 1 | 3);
            return drawable.then_some((u32::from(width), u32::from(height), components));
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
    fn the_size_is_read_and_odd_bytes_are_no_jpeg() {
        assert_eq!(frame(GREY), Some((30, 20, 1)));
        for end in 0..18 {
            assert_eq!(frame(&GREY[..end]), None, "cut to {end}");
        }
        assert_eq!(frame(b"\x89PNG\r\n\x1a\n"), None);
        assert_eq!(frame(&[0xff; 4096]), None);
    }
}
