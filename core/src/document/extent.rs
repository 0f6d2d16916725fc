//! How much a change or a reconciling message claims to hold, asked before the library is let at it.
//!
//! Automerge stores columns of runs: a few bytes may stand for a million million operations, one long key for
//! thousands of keys, a deflated column for gigabytes; and a message's summary of what its sender has (a Bloom
//! filter) names how many places of it are looked at. The library expands whatever is claimed. Here the claims
//! are added up without expanding anything, and what claims more than its bytes can honestly hold is refused:
//! what this tool writes has over three hundred bytes for every operation. Called by `change` and `reconcile`;
//! the layout is the library's (chunks, columns, sync messages of its version 0.12), and what the bytes mean
//! stays its business.

use std::borrow::Cow;
use std::io::Read as _;

use super::{DocumentError, LARGEST_CHANGE};

/// The most that the columns of a whole document within a message may inflate to, in bytes.
const LARGEST_DOCUMENT: usize = 16 * 1024 * 1024;
/// Bytes for which one operation may be claimed.
const BYTES_PER_ROW: u64 = 64;
/// What a small chunk may claim whatever its size: the genesis has 160 bytes.
const FEW: u64 = 64;
/// Places of a filter that are looked at, and its bits for each entry, as the library writes them.
const PROBES: u64 = 7;
const BITS_PER_ENTRY: u64 = 10;

const MAGIC: &[u8] = &[0x85, 0x6f, 0x4a, 0x83];
const HASH: usize = 32;
/// Marks a deflated column in its specification.
const DEFLATED: u64 = 8;

/// Whether one chunk claims no more than it can hold. What is in no form known here is refused too.
///
/// # Errors
/// [`DocumentError::Unreadable`] or [`DocumentError::TooLarge`].
pub(super) fn check_chunk(bytes: &[u8]) -> Result<(), DocumentError> {
    let (mut reader, mut room) = (Reader(bytes), LARGEST_DOCUMENT);
    chunk(&mut reader, &mut room)?;
    if reader.0.is_empty() { Ok(()) } else { Err(unreadable()) }
}

/// The same of every chunk in a reconciling message, and of its filters.
///
/// # Errors
/// As [`check_chunk`].
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

/// The changes in a message: chunks, whole or in pieces.
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

/// One chunk; `room` is what is left of the bytes that may be inflated.
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

/// Whether a change claims no more than it can hold; nothing when it is none.
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

/// The same of a whole document.
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

/// Whether a column of a chunk of so many bytes claims no more than honest ones do.
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

/// What a column's runs add up to: rows; of a group, its members; of texts, their bytes.
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

/// What is left to read.
struct Reader<'a>(&'a [u8]);

impl<'a> Reader<'a> {
    fn take(&mut self, length: usize) -> Option<&'a [u8]> {
        let (taken, rest) = self.0.split_at_checked(length)?;
        self.0 = rest;
        Some(taken)
    }

    /// The bytes of a LEB128 number, seven bits each, the lowest first; and whether the last one is negative
    /// when read as signed.
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

    /// Bytes behind their length.
    fn bytes(&mut self) -> Option<&'a [u8]> {
        let length = usize::try_from(self.number()?).ok()?;
        self.take(length)
    }

    fn hashes(&mut self) -> Option<()> {
        let count = usize::try_from(self.number()?).ok()?;
        self.take(count.checked_mul(HASH)?).map(|_| ())
    }

    /// What columns there are: specification and size of each.
    fn columns(&mut self) -> Option<Vec<(u64, usize)>> {
        let mut columns = Vec::new();
        for _ in 0..self.number()? {
            columns.push((self.number()?, usize::try_from(self.number()?).ok()?));
        }
        Some(columns)
    }
}
