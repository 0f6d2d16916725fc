//! How bytes are altered: flipped, cut, spliced, nested, and given lengths that nothing has.

use farsiding_core::ids::Digest;

use farsiding_testkit::Dice;

/// An altered copy. `others` are what pieces are taken from.
pub fn mutated(bytes: &[u8], others: &[Vec<u8>], dice: &mut Dice) -> Vec<u8> {
    let mut bytes = bytes.to_vec();
    for _ in 0..=dice.below(3) {
        once(&mut bytes, others, dice);
    }
    bytes
}

fn once(bytes: &mut Vec<u8>, others: &[Vec<u8>], dice: &mut Dice) {
    let at = dice.below(bytes.len() + 1);
    let some = (dice.below(64) + 1).min(bytes.len() - at);
    match dice.below(12) {
        0..=2 => {
            if let Some(byte) = bytes.get_mut(at) {
                *byte ^= 1 << dice.below(8);
            }
        }
        3 => {
            if let Some(byte) = bytes.get_mut(at) {
                *byte = dice.one_of(&[0, 1, 0x7f, 0x80, 0xff, 0x9f, 0xbf, 0x5f, 0xf6, b'"', b'\n', b',']);
            }
        }
        4 => bytes.truncate(at),
        5 => drop(bytes.drain(at..at + some)),
        6 => {
            let mut noise = vec![0; dice.below(40) + 1];
            dice.fill(&mut noise);
            drop(bytes.splice(at..at, noise));
        }
        7 => {
            let again = bytes[at..at + some].to_vec();
            drop(bytes.splice(at..at, again.repeat(1 + dice.below(4))));
        }
        8 => {
            let other = &others[dice.below(others.len())];
            let from = dice.below(other.len() + 1);
            let to = from + dice.below(other.len() - from + 1);
            drop(bytes.splice(at..at + some, other[from..to].iter().copied()));
        }
        9 => {
            // A length that nothing has, as CBOR and as LEB128 write it.
            let kind = dice.one_of(&[0x5b, 0x7b, 0x9b, 0xbb, 0xdb]);
            let most = dice.one_of(&[u64::MAX, 1 << 62, 1 << 40, 1 << 31, 1 << 24]);
            let mut length = vec![kind];
            length.extend(most.to_be_bytes());
            if dice.once_in(2) {
                length = vec![0xff; 8];
                length.push(0x7f);
            }
            drop(bytes.splice(at..at + some.min(9), length));
        }
        10 => {
            let opening = dice.one_of(&[0x81, 0xa1, 0xc1, 0x9f, b'[', b'(', b'<', b'"']);
            let deep = 1 << dice.below(15);
            drop(bytes.splice(at..at, std::iter::repeat_n(opening, deep)));
        }
        _ => {
            if let Some(place) = bytes[at..].iter().position(u8::is_ascii_digit) {
                let number = dice.one_of(&["-1", "0", "99999999999999999999", "1e308", "NaN", "0.0000001"]);
                drop(bytes.splice(at + place..=at + place, number.bytes()));
            }
        }
    }
}

/// The change's checksum, made right again: what is altered is then not refused for that alone. Bytes too short
/// for one stay as they are.
pub fn with_checksum(mut change: Vec<u8>) -> Vec<u8> {
    // Four magic bytes, four of the checksum: the beginning of the hash of all that follows.
    if let Some(rest) = change.get(8..) {
        let digest = Digest::of(rest);
        change[4..8].copy_from_slice(&digest.0[..4]);
    }
    change
}
