//! The objects of a PDF file, as far as taking attachments out of a packet needs them.
//!
//! A packet is written in plain PDF: cross-reference tables, no object streams, no encryption, attachments
//! stored or deflated. Only that is read, so that a hostile file can cost no more than its own length and
//! what it is allowed to inflate to: nesting, objects and cross-reference sections are bounded, and every
//! place in the file is looked up through checked slices. Called by `read`.

use std::collections::{BTreeMap, BTreeSet};
use std::io::Read as _;

/// Nesting beyond this is refused.
const DEEPEST: usize = 24;
/// More objects than any packet has.
const MOST_OBJECTS: usize = 200_000;

/// A value.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// Null, booleans and reals: nothing here needs them.
    Other,
    /// A whole number.
    Number(i64),
    /// A name, decoded.
    Name(Vec<u8>),
    /// A string, decoded.
    Text(Vec<u8>),
    /// A list.
    List(Vec<Value>),
    /// A dictionary.
    Dictionary(BTreeMap<Vec<u8>, Value>),
    /// Another object.
    Reference(u32),
}

impl Value {
    /// What stands under a key of a dictionary.
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
        if depth > DEEPEST {
            return None;
        }
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

/// A file with its cross-reference read.
pub struct Objects<'f> {
    file: &'f [u8],
    places: BTreeMap<u32, usize>,
    root: Value,
}

impl<'f> Objects<'f> {
    /// Reads the cross-reference tables, newest first. Nothing when the file is not plain PDF.
    pub fn read(file: &'f [u8]) -> Option<Objects<'f>> {
        let tail = file.len().saturating_sub(2048);
        let start = file.get(tail..)?.windows(9).rposition(|w| w == b"startxref")? + tail + 9;
        let mut at = usize::try_from(Scanner { file, at: start }.number()?).ok()?;
        let (mut places, mut freed) = (BTreeMap::new(), BTreeSet::new());
        let (mut root, mut seen) = (None, BTreeSet::new());
        loop {
            if !seen.insert(at) || seen.len() > 64 {
                return None;
            }
            let mut scanner = Scanner { file, at };
            if scanner.word() != b"xref" {
                return None;
            }
            let trailer = loop {
                if scanner.takes(b"trailer") {
                    break scanner.value(0)?;
                }
                let (first, count) = (scanner.number()?, scanner.number()?);
                for number in first..first.checked_add(count)? {
                    let (offset, _) = (scanner.number()?, scanner.number()?);
                    let used = scanner.word() == b"n";
                    let (number, offset) = (u32::try_from(number).ok()?, usize::try_from(offset).ok()?);
                    if !used {
                        freed.insert(number);
                    } else if !freed.contains(&number) {
                        places.entry(number).or_insert(offset);
                    }
                    if places.len() + freed.len() > MOST_OBJECTS {
                        return None;
                    }
                }
            };
            if trailer.get("Encrypt").is_some() {
                return None;
            }
            if root.is_none() {
                root = trailer.get("Root").cloned();
            }
            match trailer.get("Prev") {
                Some(Value::Number(prev)) => at = usize::try_from(*prev).ok()?,
                _ => break,
            }
        }
        Some(Objects { file, places, root: root? })
    }

    /// The catalog.
    pub fn root(&self) -> Option<Value> {
        self.resolve(&self.root)
    }

    /// The value itself, or the object it names.
    pub fn resolve(&self, value: &Value) -> Option<Value> {
        match value {
            Value::Reference(number) => match self.object(*number)?.0 {
                Value::Reference(_) => None,
                value => Some(value),
            },
            value => Some(value.clone()),
        }
    }

    /// An object and where the bytes after its value begin.
    fn object(&self, number: u32) -> Option<(Value, usize)> {
        let mut scanner = Scanner { file: self.file, at: *self.places.get(&number)? };
        if scanner.number()? != i64::from(number) {
            return None;
        }
        scanner.number()?;
        if scanner.word() != b"obj" {
            return None;
        }
        let value = scanner.value(0)?;
        Some((value, scanner.at))
    }

    /// A stream's bytes, inflated if need be to at most `most`; nothing when there are more, or when it is
    /// stored in a way no packet is.
    pub fn stream(&self, value: &Value, most: usize) -> Option<Vec<u8>> {
        let Value::Reference(number) = value else { return None };
        let (dictionary, at) = self.object(*number)?;
        let mut scanner = Scanner { file: self.file, at };
        if !scanner.takes(b"stream") {
            return None;
        }
        match scanner.next()? {
            b'\n' => {}
            b'\r' if scanner.next()? == b'\n' => {}
            _ => return None,
        }
        let Value::Number(length) = self.resolve(dictionary.get("Length")?)? else { return None };
        let raw = self.file.get(scanner.at..scanner.at.checked_add(usize::try_from(length).ok()?)?)?;
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
        if dictionary.get("DecodeParms").is_some_and(|parameters| *parameters != Value::Other) {
            return None;
        }
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
