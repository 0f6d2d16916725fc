//! Limits on how much a change or a reconciling message may expand to, checked before Automerge reads the
//! bytes.
//!
//! Automerge stores columns as runs, so a few bytes may stand for 10^12 operations, one long key may be
//! repeated thousands of times, and a deflated column may inflate to gigabytes. The Bloom filter in a sync
//! message also states how many probes each lookup makes. Automerge expands whatever is claimed. This module
//! sums up the claims without expanding anything and refuses bytes that claim more than they can plausibly
//! hold: a change written by Farsiding takes more than 300 bytes per operation. `change` and `reconcile` call
//! it. The layout (chunks, columns, sync messages) is that of Automerge 0.12; decoding the content is left to
//! Automerge.

use std::borrow::Cow;
use std::io::Read as _;

use super::{DocumentError, LARGEST_CHANGE};

/// The most bytes that the columns of a whole document inside a message may inflate to.
const LARGEST_DOCUMENT: usize = 16 * 1024 * 1024;
/// The number of bytes a chunk must have for each operation it claims.
const BYTES_PER_ROW: u64 = 64;
/// The number of operations a chunk may claim regardless of its size. The genesis, for example, has only 160
/// bytes.
const FEW: u64 = 64;
/// The number of probes and of bits per entry in a Bloom filter, as Automerge writes them.
const PROBES: u64 = 7;
const BITS_PER_ENTRY: u64 = 10;

const MAGIC: &[u8] = &[0x85, 0x6f, 0x4a, 0x83];
const HASH: usize = 32;
/// The bit in a column's specification that marks the column as deflated.
const DEFLATED: u64 = 8;

/// Checks that one chunk claims no more than its bytes can hold. A chunk in an unknown form is refused too.
///
/// # Errors
/// [`DocumentError::Unreadable`] or [`DocumentError::TooLarge`].
pub(super) fn check_chunk(bytes: &[u8]) -> Result<(), DocumentError> {
    let (mut reader, mut room) = (Reader(bytes), LARGEST_DOCUMENT);
    chunk(&mut reader, &mut room)?;
    if reader.0.is_empty() { Ok(()) } else { Err(unreadable()) }
}

/// Checks every chunk and every Bloom filter in a reconciling message.
///
/// # Errors
/// As for [`check_chunk`].
pub(super) fn check_message(bytes: &[u8]) -> Result<(), DocumentError> {
    let mut reader = Reader(bytes);
    let changes = message(&mut reader).ok_or_else(unreadable)?;
    let joined = changes.concat();
    let (mut chunks, mut room) = (Reader(&joined), LARGEST_DOCUMENT);
    while !chunks.0.is_empty() {
        chunk(&mut chunks, &mut room)?;
    }
    Ok(())
}

fn unreadable() -> DocumentError {
    DocumentError::Unreadable("it is not of the form, or claims more than its bytes can hold".to_owned())
}

/// Returns the chunks that carry the changes of a message, each whole or in pieces.
fn message<'a>(reader: &mut Reader<'a>) -> Option<Vec<&'a [u8]>> {
    reader.take(1)?;
    reader.hashes()?; // heads
    reader.hashes()?; // what is needed
    for _ in 0..reader.number()? {
        reader.hashes()?; // heads of the last meeting
        let filter = reader.bytes()?;
        let mut filter = Reader(filter);
        if !filter.0.is_empty() {
            let (entries, bits, probes) = (filter.number()?, filter.number()?, filter.number()?);
            if entries == 0 || bits == 0 || bits > BITS_PER_ENTRY || probes == 0 || probes > PROBES {
                return None;
            }
        }
    }
    let mut changes = Vec::new();
    for _ in 0..reader.number()? {
        changes.push(reader.bytes()?);
    }
    Some(changes)
}

/// Checks one chunk. `room` is the number of bytes that may still be inflated; it is reduced by what this
/// chunk takes.
fn chunk(reader: &mut Reader<'_>, room: &mut usize) -> Result<(), DocumentError> {
    let (kind, body) = opened(reader).ok_or_else(unreadable)?;
    let allowed = match kind {
        0 => document(Reader(body), room)?,
        1 => change(Reader(body)),
        2 => {
            let most = LARGEST_CHANGE.min(*room);
            let plain = inflate(body, most)?;
            *room -= plain.len();
            change(Reader(&plain))
        }
        _ => None, // nothing this tool writes
    };
    allowed.filter(|allowed| *allowed).map(|_| ()).ok_or_else(unreadable)
}

fn opened<'a>(reader: &mut Reader<'a>) -> Option<(u8, &'a [u8])> {
    if reader.take(4)? != MAGIC {
        return None;
    }
    reader.take(4)?; // the checksum is looked at elsewhere
    let kind = *reader.take(1)?.first()?;
    Some((kind, reader.bytes()?))
}

/// Returns whether a change claims no more than it can hold, or `None` if the bytes are not a change.
fn change(mut reader: Reader<'_>) -> Option<bool> {
    let length = reader.0.len() as u64;
    reader.hashes()?; // what it builds on
    reader.bytes()?; // who made it
    for _ in 0..3 {
        reader.number()?; // its number, its first operation, its time (one more byte pattern of the same length)
    }
    reader.bytes()?; // its message
    for _ in 0..reader.number()? {
        reader.bytes()?; // others
    }
    let columns = reader.columns()?;
    for (specification, size) in columns {
        let data = reader.take(size)?;
        if specification & DEFLATED != 0 || !holds(specification, data, length)? {
            return Some(false);
        }
    }
    Some(true)
}

/// Returns whether a whole document claims no more than it can hold, or `None` if the bytes are not a
/// document.
fn document(mut reader: Reader<'_>, room: &mut usize) -> Result<Option<bool>, DocumentError> {
    let mut columns = Vec::new();
    let mut length = reader.0.len() as u64;
    let mut all = || {
        for _ in 0..reader.number()? {
            reader.bytes()?; // who made changes
        }
        reader.hashes()?;
        let (of_changes, of_operations) = (reader.columns()?, reader.columns()?);
        for (specification, size) in of_changes.into_iter().chain(of_operations) {
            columns.push((specification, reader.take(size)?));
        }
        Some(())
    };
    if all().is_none() {
        return Ok(None);
    }
    let mut plain = Vec::new();
    for (specification, data) in columns {
        let data = if specification & DEFLATED == 0 {
            Cow::Borrowed(data)
        } else {
            let inflated = inflate(data, *room)?;
            *room -= inflated.len();
            length += inflated.len() as u64;
            Cow::Owned(inflated)
        };
        plain.push((specification, data));
    }
    let mut all = plain.iter().map(|(specification, data)| holds(*specification, data, length));
    Ok(all.try_fold(true, |sound, column| Some(sound && column?)))
}

fn inflate(bytes: &[u8], most: usize) -> Result<Vec<u8>, DocumentError> {
    let mut plain = Vec::new();
    flate2::read::DeflateDecoder::new(bytes)
        .take(most as u64 + 1)
        .read_to_end(&mut plain)
        .map_err(|e| DocumentError::Unreadable(e.to_string()))?;
    if plain.len() > most { Err(DocumentError::TooLarge(plain.len())) } else { Ok(plain) }
}

/// Returns whether a column claims no more than is plausible in a chunk of `length` bytes.
fn holds(specification: u64, data: &[u8], length: u64) -> Option<bool> {
    const RAW: u64 = 7;
    const TEXT: u64 = 5;
    let rows = length / BYTES_PER_ROW + FEW;
    Some(match specification & 7 {
        RAW => true,
        TEXT => claimed(data, 5)? <= length + FEW,
        kind => claimed(data, kind)? <= rows,
    })
}

/// Sums up what a column's runs claim: rows in general, members for a group column, bytes for a text column.
fn claimed(data: &[u8], kind: u64) -> Option<u64> {
    let (mut reader, mut sum) = (Reader(data), 0u64);
    while !reader.0.is_empty() {
        if kind == 4 {
            sum = sum.saturating_add(reader.number()?); // yes and no by turns: only lengths
            continue;
        }
        let run = reader.signed()?;
        let mut one = || match kind {
            0 => Some(reader.number()?.max(1)),
            5 => Some(reader.bytes()?.len() as u64 + 1),
            _ => reader.number().map(|_| 1), // signed ones are as long
        };
        if run > 0 {
            sum = sum.saturating_add(one()?.saturating_mul(run.unsigned_abs()));
        } else if run < 0 {
            for _ in 0..run.unsigned_abs() {
                sum = sum.saturating_add(one()?);
            }
        } else {
            sum = sum.saturating_add(reader.number()?);
        }
    }
    Some(sum)
}

/// The bytes not yet read.
struct Reader<'a>(&'a [u8]);

impl<'a> Reader<'a> {
    fn take(&mut self, length: usize) -> Option<&'a [u8]> {
        let (taken, rest) = self.0.split_at_checked(length)?;
        self.0 = rest;
        Some(taken)
    }

    /// Reads a LEB128 number (groups of seven bits, the lowest first). Returns the value, the number of bits
    /// read, and whether the number is negative when read as signed.
    fn leb(&mut self) -> Option<(u64, u32, bool)> {
        let (mut value, mut shift) = (0u64, 0u32);
        loop {
            let byte = *self.take(1)?.first()?;
            if shift > 63 {
                return None;
            }
            value |= u64::from(byte & 0x7f).checked_shl(shift)?;
            shift += 7;
            if byte & 0x80 == 0 {
                return Some((value, shift, byte & 0x40 != 0));
            }
        }
    }

    fn number(&mut self) -> Option<u64> {
        self.leb().map(|(value, ..)| value)
    }

    fn signed(&mut self) -> Option<i64> {
        let (value, shift, negative) = self.leb()?;
        let value = if negative && shift < 64 { value | (u64::MAX << shift) } else { value };
        Some(value.cast_signed())
    }

    /// Reads a length and then that many bytes.
    fn bytes(&mut self) -> Option<&'a [u8]> {
        let length = usize::try_from(self.number()?).ok()?;
        self.take(length)
    }

    fn hashes(&mut self) -> Option<()> {
        let count = usize::try_from(self.number()?).ok()?;
        self.take(count.checked_mul(HASH)?).map(|_| ())
    }

    /// Reads the column headers: the specification and size of each column.
    fn columns(&mut self) -> Option<Vec<(u64, usize)>> {
        let mut columns = Vec::new();
        for _ in 0..self.number()? {
            columns.push((self.number()?, usize::try_from(self.number()?).ok()?));
        }
        Some(columns)
    }
}
