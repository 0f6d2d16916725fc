//! Parses the objects of a PDF file, as far as needed to extract attachments from a packet.
//!
//! A packet is plain PDF: cross-reference tables, no object streams, no encryption, and attachments that are
//! stored or deflated. Cross-reference streams and object streams, which editing tools write, are parsed too,
//! so that the verifier can say what was edited. The cost of a hostile file is bounded by its length and by
//! the space allowed for decompression: nesting, objects and cross-reference sections are limited, and all
//! positions in the file are checked. A general PDF library decompresses and nests without limits. Called by
//! `read`.

use std::cell::{Cell, RefCell};
use std::collections::{BTreeMap, BTreeSet};
use std::io::Read as _;
use std::rc::Rc;

use farsiding_core::ids::Digest;

/// The largest nesting depth.
const DEEPEST: usize = 24;
/// The largest number of objects. A packet with 8 MB of entries has about 300 000, most of them parts of its
/// structure.
const MOST_OBJECTS: usize = 1_000_000;

/// The largest number of values reachable from what one page shows.
const MOST_OF_A_PAGE: usize = 200_000;

/// The largest number of values in one object. The largest objects of a packet list its pages, its
/// attachments or its structure.
const MOST_VALUES: usize = 400_000;

/// How many times its own length a file may be read, since an object is read every time it is referenced.
const MOST_READINGS: usize = 16;

/// The largest total size of all decompressed object and cross-reference streams, in bytes.
const PACKED_ROOM: usize = 64 * 1024 * 1024;

/// A PDF value.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// Null, a boolean or a real number, none of which is needed here.
    Other,
    /// An integer.
    Number(i64),
    /// A decoded name.
    Name(Vec<u8>),
    /// A decoded string.
    Text(Vec<u8>),
    /// An array.
    List(Vec<Value>),
    /// A dictionary.
    Dictionary(BTreeMap<Vec<u8>, Value>),
    /// A reference to another object.
    Reference(u32),
}

impl Value {
    /// Returns the value under a key of a dictionary.
    pub fn get(&self, key: &str) -> Option<&Value> {
        match self {
            Value::Dictionary(map) => map.get(key.as_bytes()),
            _ => None,
        }
    }
}

struct Scanner<'f> {
    file: &'f [u8],
    at: usize,
    /// The number of values that may still be parsed.
    values: usize,
}

impl<'f> Scanner<'f> {
    fn new(file: &'f [u8], at: usize) -> Scanner<'f> {
        Scanner { file, at, values: MOST_VALUES }
    }
}

fn is_blank(byte: u8) -> bool {
    matches!(byte, 0 | 9 | 10 | 12 | 13 | 32)
}

fn is_delimiter(byte: u8) -> bool {
    matches!(byte, b'(' | b')' | b'<' | b'>' | b'[' | b']' | b'{' | b'}' | b'/' | b'%')
}

fn digit(byte: u8) -> Option<u8> {
    char::from(byte).to_digit(16).and_then(|d| u8::try_from(d).ok())
}

impl Scanner<'_> {
    fn peek(&self) -> Option<u8> {
        self.file.get(self.at).copied()
    }

    fn next(&mut self) -> Option<u8> {
        let byte = self.peek()?;
        self.at += 1;
        Some(byte)
    }

    fn blanks(&mut self) {
        while let Some(byte) = self.peek() {
            if byte == b'%' {
                while self.peek().is_some_and(|b| b != b'\n' && b != b'\r') {
                    self.at += 1;
                }
            } else if is_blank(byte) {
                self.at += 1;
            } else {
                break;
            }
        }
    }

    fn word(&mut self) -> &[u8] {
        self.blanks();
        let start = self.at;
        while self.peek().is_some_and(|b| !is_blank(b) && !is_delimiter(b)) {
            self.at += 1;
        }
        self.file.get(start..self.at).unwrap_or_default()
    }

    fn takes(&mut self, word: &[u8]) -> bool {
        self.blanks();
        let there = self.file.get(self.at..).is_some_and(|rest| rest.starts_with(word));
        if there {
            self.at += word.len();
        }
        there
    }

    fn number(&mut self) -> Option<i64> {
        std::str::from_utf8(self.word()).ok()?.parse().ok()
    }

    fn value(&mut self, depth: usize) -> Option<Value> {
        self.values = self.values.checked_sub(1).filter(|_| depth <= DEEPEST)?;
        self.blanks();
        match self.peek()? {
            b'/' => {
                self.at += 1;
                self.name().map(Value::Name)
            }
            b'(' => self.text().map(Value::Text),
            b'<' if self.file.get(self.at + 1) == Some(&b'<') => {
                self.at += 2;
                let mut map = BTreeMap::new();
                loop {
                    if self.takes(b">>") {
                        return Some(Value::Dictionary(map));
                    }
                    if self.next()? != b'/' {
                        return None;
                    }
                    let key = self.name()?;
                    let value = self.value(depth + 1)?;
                    map.insert(key, value);
                }
            }
            b'<' => {
                self.at += 1;
                let mut digits = Vec::new();
                loop {
                    match self.next()? {
                        b'>' => break,
                        byte if is_blank(byte) => {}
                        byte => digits.push(digit(byte)?),
                    }
                }
                if digits.len() % 2 == 1 {
                    digits.push(0);
                }
                Some(Value::Text(digits.chunks_exact(2).map(|pair| pair[0] * 16 + pair[1]).collect()))
            }
            b'[' => {
                self.at += 1;
                let mut list = Vec::new();
                loop {
                    if self.takes(b"]") {
                        return Some(Value::List(list));
                    }
                    list.push(self.value(depth + 1)?);
                }
            }
            b'0'..=b'9' | b'+' | b'-' | b'.' => self.number_or_reference(),
            _ => {
                let word = self.word();
                matches!(word, b"true" | b"false" | b"null").then_some(Value::Other)
            }
        }
    }

    fn number_or_reference(&mut self) -> Option<Value> {
        let word = self.word().to_vec();
        let text = std::str::from_utf8(&word).ok()?;
        let Ok(number) = text.parse::<i64>() else {
            return text.parse::<f64>().ok().map(|_| Value::Other);
        };
        let after = self.at;
        if let Ok(object) = u32::try_from(number)
            && self.number().is_some_and(|generation| (0..=65_535).contains(&generation))
            && self.word() == b"R"
        {
            return Some(Value::Reference(object));
        }
        self.at = after;
        Some(Value::Number(number))
    }

    fn name(&mut self) -> Option<Vec<u8>> {
        let mut name = Vec::new();
        while let Some(byte) = self.peek().filter(|b| !is_blank(*b) && !is_delimiter(*b)) {
            self.at += 1;
            if byte == b'#' {
                name.push(digit(self.next()?)? * 16 + digit(self.next()?)?);
            } else {
                name.push(byte);
            }
        }
        Some(name)
    }

    fn text(&mut self) -> Option<Vec<u8>> {
        self.at += 1;
        let (mut text, mut open) = (Vec::new(), 1usize);
        loop {
            match self.next()? {
                b'(' => {
                    open += 1;
                    text.push(b'(');
                }
                b')' => {
                    open -= 1;
                    if open == 0 {
                        return Some(text);
                    }
                    text.push(b')');
                }
                b'\\' => match self.next()? {
                    b'n' => text.push(b'\n'),
                    b'r' => text.push(b'\r'),
                    b't' => text.push(b'\t'),
                    b'b' => text.push(8),
                    b'f' => text.push(12),
                    b'\r' => {
                        if self.peek() == Some(b'\n') {
                            self.at += 1;
                        }
                    }
                    b'\n' => {}
                    first @ b'0'..=b'7' => {
                        let mut byte = u32::from(first - b'0');
                        for _ in 0..2 {
                            let Some(next @ b'0'..=b'7') = self.peek() else { break };
                            byte = byte * 8 + u32::from(next - b'0');
                            self.at += 1;
                        }
                        text.push((byte & 0xff) as u8);
                    }
                    other => text.push(other),
                },
                byte => text.push(byte),
            }
        }
    }
}

/// The place of an object.
#[derive(Clone, Copy)]
enum Place {
    /// A position in the file.
    At(usize),
    /// An object stream, by its object number.
    Within(u32),
}

/// The numbers and values of the objects in an object stream.
type Packed = Rc<BTreeMap<u32, Value>>;

/// A PDF file whose cross-reference table has been read.
pub struct Objects<'f> {
    file: &'f [u8],
    places: BTreeMap<u32, Place>,
    root: Value,
    packed: RefCell<BTreeMap<u32, Option<Packed>>>,
    /// The bytes that object and cross-reference streams may still decompress to.
    room: Cell<usize>,
    /// The bytes of objects that may still be read, so that a large object that is referenced often cannot
    /// cost more.
    reading: Cell<usize>,
}

impl<'f> Objects<'f> {
    /// Reads the cross-reference sections, newest first. Returns `None` when the file cannot be parsed.
    pub fn read(file: &'f [u8]) -> Option<Objects<'f>> {
        let tail = file.len().saturating_sub(2048);
        let start = file.get(tail..)?.windows(9).rposition(|w| w == b"startxref")? + tail + 9;
        let mut at = usize::try_from(Scanner::new(file, start).number()?).ok()?;
        let mut objects = Objects {
            file,
            places: BTreeMap::new(),
            root: Value::Other,
            packed: RefCell::new(BTreeMap::new()),
            room: Cell::new(PACKED_ROOM),
            reading: Cell::new(file.len().saturating_mul(MOST_READINGS).saturating_add(PACKED_ROOM)),
        };
        let (mut freed, mut seen) = (BTreeSet::new(), BTreeSet::new());
        loop {
            if !seen.insert(at) || seen.len() > 64 {
                return None;
            }
            let mut scanner = Scanner::new(file, at);
            let trailer = if scanner.takes(b"xref") {
                objects.table(scanner, &mut freed)?
            } else {
                objects.table_in_a_stream(at, &mut freed)?
            };
            if trailer.get("Encrypt").is_some() {
                return None;
            }
            if objects.root == Value::Other {
                objects.root = trailer.get("Root").cloned()?;
            }
            match trailer.get("Prev") {
                Some(Value::Number(prev)) => at = usize::try_from(*prev).ok()?,
                _ => return Some(objects),
            }
        }
    }

    fn place(&mut self, number: u32, place: Option<Place>, freed: &mut BTreeSet<u32>) -> Option<()> {
        match place {
            None => {
                freed.insert(number);
            }
            Some(place) if !freed.contains(&number) => {
                self.places.entry(number).or_insert(place);
            }
            Some(_) => {}
        }
        (self.places.len() + freed.len() <= MOST_OBJECTS).then_some(())
    }

    fn table(&mut self, mut scanner: Scanner<'_>, freed: &mut BTreeSet<u32>) -> Option<Value> {
        loop {
            if scanner.takes(b"trailer") {
                return scanner.value(0);
            }
            let (first, count) = (scanner.number()?, scanner.number()?);
            for number in first..first.checked_add(count)? {
                let (offset, _) = (scanner.number()?, scanner.number()?);
                let used = scanner.word() == b"n";
                let (number, offset) = (u32::try_from(number).ok()?, usize::try_from(offset).ok()?);
                self.place(number, used.then_some(Place::At(offset)), freed)?;
            }
        }
    }

    /// Reads a cross-reference stream (ISO 32000-1, 7.5.8), which tools that edit a packet may write.
    fn table_in_a_stream(&mut self, at: usize, freed: &mut BTreeSet<u32>) -> Option<Value> {
        let (dictionary, bytes) = self.unpacked(at)?;
        if dictionary.get("Type") != Some(&Value::Name(b"XRef".to_vec())) {
            return None;
        }
        let numbers = |value: &Value| match value {
            Value::List(list) => list
                .iter()
                .map(|item| match item {
                    Value::Number(n) => usize::try_from(*n).ok(),
                    _ => None,
                })
                .collect::<Option<Vec<usize>>>(),
            _ => None,
        };
        let widths: [usize; 3] = numbers(dictionary.get("W")?)?.try_into().ok()?;
        if widths.iter().any(|width| *width > 8) {
            return None;
        }
        let index = match (dictionary.get("Index"), dictionary.get("Size")) {
            (Some(index), _) => numbers(index)?,
            (None, Some(Value::Number(size))) => vec![0, usize::try_from(*size).ok()?],
            _ => return None,
        };
        let length: usize = widths.iter().sum();
        let mut rows = bytes.chunks_exact(length.max(1));
        for run in index.chunks_exact(2) {
            for number in run[0]..run[0].checked_add(run[1])? {
                let mut rest = rows.next()?;
                let mut fields = [0u64; 3];
                for (field, width) in fields.iter_mut().zip(widths) {
                    let (own, behind) = rest.split_at_checked(width)?;
                    *field = own.iter().fold(0, |sum, byte| (sum << 8) | u64::from(*byte));
                    rest = behind;
                }
                let kind = if widths[0] == 0 { 1 } else { fields[0] };
                let place = match kind {
                    1 => Some(Place::At(usize::try_from(fields[1]).ok()?)),
                    2 => Some(Place::Within(u32::try_from(fields[1]).ok()?)),
                    _ => None,
                };
                self.place(u32::try_from(number).ok()?, place, freed)?;
            }
        }
        Some(dictionary)
    }

    /// Returns the document catalog.
    pub fn root(&self) -> Option<Value> {
        self.resolve(&self.root)
    }

    /// Returns a value itself or, for a reference, the object it refers to.
    pub fn resolve(&self, value: &Value) -> Option<Value> {
        let Value::Reference(number) = value else { return Some(value.clone()) };
        let found = match *self.places.get(number)? {
            Place::At(at) => self.object(at, Some(*number))?.0,
            Place::Within(stream) => self.unpack(stream)?.get(number)?.clone(),
        };
        (!matches!(found, Value::Reference(_))).then_some(found)
    }

    /// Returns the object at a position, and the position after its value.
    fn object(&self, at: usize, number: Option<u32>) -> Option<(Value, usize)> {
        let mut scanner = Scanner::new(self.file, at);
        let found = scanner.number()?;
        if number.is_some_and(|number| found != i64::from(number)) {
            return None;
        }
        scanner.number()?;
        // No blank is required after the keyword.
        if !scanner.takes(b"obj") {
            return None;
        }
        let value = scanner.value(0)?;
        self.has_read(scanner.at.saturating_sub(at))?;
        Some((value, scanner.at))
    }

    /// Counts bytes as read. Returns `None` once too many were read.
    fn has_read(&self, bytes: usize) -> Option<()> {
        self.reading.set(self.reading.get().checked_sub(bytes)?);
        Some(())
    }

    /// Returns the objects of an object stream (ISO 32000-1, 7.5.7), which is parsed only once.
    fn unpack(&self, stream: u32) -> Option<Packed> {
        if let Some(known) = self.packed.borrow().get(&stream) {
            return known.clone();
        }
        // While the stream is being parsed it is marked as unreadable, so that a stream that refers to itself
        // ends in an error.
        self.packed.borrow_mut().insert(stream, None);
        let packed = self.unpack_afresh(stream).map(Rc::new);
        self.packed.borrow_mut().insert(stream, packed.clone());
        packed
    }

    fn unpack_afresh(&self, stream: u32) -> Option<BTreeMap<u32, Value>> {
        let Place::At(at) = *self.places.get(&stream)? else { return None };
        let (dictionary, bytes) = self.unpacked(at)?;
        let count = |key: &str| match dictionary.get(key) {
            Some(Value::Number(n)) => usize::try_from(*n).ok(),
            _ => None,
        };
        let (n, first) = (count("N")?, count("First")?);
        let mut head = Scanner::new(bytes.get(..first)?, 0);
        let mut objects = BTreeMap::new();
        for _ in 0..n.min(MOST_OBJECTS) {
            let (number, offset) = (head.number()?, head.number()?);
            let at = first.checked_add(usize::try_from(offset).ok()?)?;
            let mut scanner = Scanner::new(&bytes, at);
            let value = scanner.value(0)?;
            self.has_read(scanner.at.saturating_sub(at))?;
            objects.insert(u32::try_from(number).ok()?, value);
        }
        Some(objects)
    }

    /// Returns a decompressed object or cross-reference stream with its predictor removed. The size counts
    /// against the common limit.
    fn unpacked(&self, at: usize) -> Option<(Value, Vec<u8>)> {
        let (dictionary, at) = self.object(at, None)?;
        let bytes = self.inflated(&dictionary, at, self.room.get())?;
        self.room.set(self.room.get().checked_sub(bytes.len())?);
        let parameter = |key: &str| match dictionary.get("DecodeParms").and_then(|p| p.get(key)) {
            Some(Value::Number(n)) => usize::try_from(*n).ok(),
            _ => None,
        };
        let bytes = match parameter("Predictor") {
            None | Some(1) => bytes,
            Some(10..=15) => without_predictor(&bytes, parameter("Columns").unwrap_or(1))?,
            Some(_) => return None,
        };
        Some((dictionary, bytes))
    }

    /// Returns an attachment's bytes, decompressed if necessary. Returns `None` when there are more than
    /// `most` bytes, or when the attachment is stored in a way that packets never use.
    pub fn stream(&self, value: &Value, most: usize) -> Option<Vec<u8>> {
        let Value::Reference(number) = value else { return None };
        let Place::At(at) = *self.places.get(number)? else { return None };
        let (dictionary, at) = self.object(at, Some(*number))?;
        if dictionary.get("DecodeParms").is_some_and(|parameters| *parameters != Value::Other) {
            return None;
        }
        self.inflated(&dictionary, at, most)
    }

    /// Returns a digest of a value and of everything it refers to, with streams decompressed. The keys in
    /// `without` of the outermost dictionary are left out. Two values with the same digest show the same,
    /// regardless of object numbers. Returns `None` when there is more than a page can have.
    pub fn digest(&self, value: &Value, without: &[&str]) -> Option<Digest> {
        use sha2::Digest as _;
        let mut hash = sha2::Sha256::new();
        let mut seen: BTreeMap<u32, usize> = BTreeMap::new();
        let mut room = MOST_OF_A_PAGE;
        // The stack holds what is still to be digested, last first. A name marks where a list or a dictionary
        // continues.
        let mut waiting: Vec<Value> = vec![match value {
            Value::Dictionary(map) => {
                let mut map = map.clone();
                without.iter().for_each(|key| drop(map.remove(key.as_bytes())));
                Value::Dictionary(map)
            }
            other => other.clone(),
        }];
        while let Some(value) = waiting.pop() {
            room = room.checked_sub(1)?;
            let told = |hash: &mut sha2::Sha256, kind: u8, bytes: &[u8]| {
                hash.update([kind]);
                hash.update((bytes.len() as u64).to_be_bytes());
                hash.update(bytes);
            };
            match value {
                Value::Other => told(&mut hash, b'o', &[]),
                Value::Number(number) => told(&mut hash, b'n', &number.to_be_bytes()),
                Value::Name(name) => told(&mut hash, b'/', &name),
                Value::Text(text) => told(&mut hash, b'(', &text),
                Value::List(list) => {
                    told(&mut hash, b'[', &(list.len() as u64).to_be_bytes());
                    waiting.extend(list.into_iter().rev());
                }
                Value::Dictionary(map) => {
                    told(&mut hash, b'<', &(map.len() as u64).to_be_bytes());
                    for (key, inner) in map.into_iter().rev() {
                        waiting.push(inner);
                        waiting.push(Value::Name(key));
                    }
                }
                Value::Reference(number) => {
                    let known = seen.len();
                    if let Some(first) = seen.get(&number) {
                        told(&mut hash, b'r', &(*first as u64).to_be_bytes());
                        continue;
                    }
                    seen.insert(number, known);
                    let found = self.resolve(&Value::Reference(number));
                    if let Some(stream) = self.stream_of_any(number) {
                        told(&mut hash, b's', &sha2::Sha256::digest(&stream));
                    }
                    match found {
                        Some(Value::Dictionary(mut map)) => {
                            // The length only says how a stream is stored, not what it contains.
                            map.remove(b"Length".as_slice());
                            waiting.push(Value::Dictionary(map));
                        }
                        Some(other) => waiting.push(other),
                        None => told(&mut hash, b'?', &[]),
                    }
                }
            }
        }
        Some(Digest(hash.finalize().into()))
    }

    /// Returns the stored bytes of a stream, decompressed if they are deflated. Returns `None` for an object
    /// that is not a stream.
    fn stream_of_any(&self, number: u32) -> Option<Vec<u8>> {
        const MOST: usize = 64 * 1024 * 1024;
        let Place::At(at) = *self.places.get(&number)? else { return None };
        let (dictionary, at) = self.object(at, Some(number))?;
        if let Some(bytes) = self.inflated(&dictionary, at, MOST) {
            return Some(bytes);
        }
        Some(self.raw(&dictionary, at)?.to_vec())
    }

    /// Returns the stored bytes of a stream.
    fn raw(&self, dictionary: &Value, at: usize) -> Option<&'f [u8]> {
        let mut scanner = Scanner::new(self.file, at);
        if !scanner.takes(b"stream") {
            return None;
        }
        match scanner.next()? {
            b'\n' => {}
            b'\r' if scanner.next()? == b'\n' => {}
            _ => return None,
        }
        let Value::Number(length) = self.resolve(dictionary.get("Length")?)? else { return None };
        self.file.get(scanner.at..scanner.at.checked_add(usize::try_from(length).ok()?)?)
    }

    fn inflated(&self, dictionary: &Value, at: usize, most: usize) -> Option<Vec<u8>> {
        let raw = self.raw(dictionary, at)?;
        let filter = match dictionary.get("Filter").map(|filter| self.resolve(filter)) {
            None => None,
            Some(Some(Value::Name(name))) => Some(name),
            Some(Some(Value::List(list))) => match list.as_slice() {
                [] => None,
                [Value::Name(name)] => Some(name.clone()),
                _ => return None,
            },
            Some(_) => return None,
        };
        match filter.as_deref() {
            None => (raw.len() <= most).then(|| raw.to_vec()),
            Some(b"FlateDecode") => {
                let mut bytes = Vec::new();
                let reader = flate2::read::ZlibDecoder::new(raw);
                reader.take(most as u64 + 1).read_to_end(&mut bytes).ok()?;
                (bytes.len() <= most).then_some(bytes)
            }
            Some(_) => None,
        }
    }
}

/// Removes a PNG predictor from rows of bytes (ISO 32000-1, 7.4.4.4; ISO/IEC 15948, 9).
fn without_predictor(bytes: &[u8], columns: usize) -> Option<Vec<u8>> {
    if columns == 0 || columns > 64 * 1024 {
        return None;
    }
    let mut rows = Vec::with_capacity(bytes.len());
    let mut above = vec![0u8; columns];
    for row in bytes.chunks_exact(columns + 1) {
        let (kind, row) = row.split_first()?;
        let mut plain = vec![0u8; columns];
        let (mut left, mut above_left) = (0u8, 0u8);
        for ((out, byte), up) in plain.iter_mut().zip(row).zip(&above) {
            let predicted = match kind {
                0 => 0,
                1 => left,
                2 => *up,
                3 => u8::try_from((u16::from(left) + u16::from(*up)) / 2).unwrap_or(0),
                4 => {
                    let (a, b, c) = (i16::from(left), i16::from(*up), i16::from(above_left));
                    let p = a + b - c;
                    let (pa, pb, pc) = ((p - a).abs(), (p - b).abs(), (p - c).abs());
                    if pa <= pb && pa <= pc {
                        left
                    } else if pb <= pc {
                        *up
                    } else {
                        above_left
                    }
                }
                _ => return None,
            };
            *out = byte.wrapping_add(predicted);
            (left, above_left) = (*out, *up);
        }
        rows.extend_from_slice(&plain);
        above = plain;
    }
    Some(rows)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn deep_nesting_and_circles_are_refused_not_followed() {
        assert_eq!(Scanner::new(&[b'['; 100_000], 0).value(0), None);
        let nested = b"<</A ".repeat(50_000);
        assert_eq!(Scanner::new(&nested, 0).value(0), None);
        let circle = b"%PDF-1.7\nxref\n0 0\ntrailer <</Root 1 0 R /Prev 9>>\nstartxref\n9\n%%EOF\n";
        assert!(Objects::read(circle).is_none());
    }

    #[test]
    fn values_read_as_the_standard_writes_them() {
        let text = br"<</N#61me (a\(b\)\101\
c) /H <48 656C6c 6f> /L [1 -2 3 0 R true] >>";
        let value = Scanner::new(text, 0).value(0);
        let get = |key: &str| value.as_ref().and_then(|v| v.get(key)).cloned();
        assert_eq!(get("Name"), Some(Value::Text(b"a(b)Ac".to_vec())));
        assert_eq!(get("H"), Some(Value::Text(b"Hello".to_vec())));
        let list = vec![Value::Number(1), Value::Number(-2), Value::Reference(3), Value::Other];
        assert_eq!(get("L"), Some(Value::List(list)));
    }

    /// The rows use the filters of ISO/IEC 15948 and were computed by hand.
    #[test]
    fn predictors_come_off() {
        let rows = [0, 10, 20, 1, 5, 5, 2, 1, 1, 3, 2, 2, 4, 1, 1];
        assert_eq!(without_predictor(&rows, 2), Some(vec![10, 20, 5, 10, 6, 11, 5, 10, 6, 11]));
        assert_eq!(without_predictor(&[9, 0], 1), None);
    }
}
