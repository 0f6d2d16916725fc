//! The page that is written: its lines, and the small messages that every section says in the same way.
//!
//! A line is a message in the reader's language. What somebody typed can neither begin a line of its own nor turn
//! the direction of writing.

use std::fmt::Write as _;

use farsiding_core::text::on_one_line;
use farsiding_core::view::{Attested, Attribution};
use farsiding_core::{Arg, Message, message};
use farsiding_words::Words;

/// The text so far, and the words it is written in.
pub(crate) struct Page {
    words: &'static Words,
    text: String,
}

impl Page {
    pub(crate) fn new(words: &'static Words) -> Page {
        Page { words, text: String::new() }
    }

    pub(crate) fn into_text(self) -> String {
        self.text
    }

    /// Begins a section with the message of this id as its heading.
    pub(crate) fn section(&mut self, heading: &str) {
        if !self.text.is_empty() {
            self.text.push('\n');
        }
        self.text.push_str(&self.words.say(heading).to_uppercase());
        self.text.push('\n');
    }

    pub(crate) fn line(&mut self, says: &Message) {
        self.write("", &self.words.text(says));
    }

    pub(crate) fn item(&mut self, says: &Message) {
        self.write("  ", &self.words.text(says));
    }

    /// Writes several messages as one item, with dots between them.
    pub(crate) fn row(&mut self, indent: &str, parts: &[Message]) {
        let parts: Vec<String> = parts.iter().map(|part| self.words.text(part)).collect();
        self.write(indent, &parts.join(" · "));
    }

    pub(crate) fn under(&mut self, says: &Message) {
        self.write("      ", &self.words.text(says));
    }

    pub(crate) fn end(&mut self) {
        self.text.push('\n');
    }

    fn write(&mut self, indent: &str, text: &str) {
        let _ = writeln!(self.text, "{indent}{}", on_one_line(text));
    }
}

/// Who said it, when, on which device, and whether the office has it.
pub(crate) fn by(said: &Attribution) -> Message {
    let id = if said.receipted { "printed-by" } else { "printed-by-unsent" };
    Message::new(id).with("who", said.signature()).with("device", Arg::typed(&said.device_name))
}

/// Who said what stands and, after a settlement, who settled it.
pub(crate) fn by_whom<T>(known: &Attested<T>) -> Message {
    match &known.kept {
        Some(kept) => message!("printed-settled-by", kept = by(kept), by = by(&known.said)),
        None => by(&known.said),
    }
}

/// Something, and by whom.
pub(crate) fn said(what: Message, by: Message) -> Message {
    message!("printed-said", what = what, by = by)
}

/// Something with the reason that was given, if there is one.
pub(crate) fn because(what: Message, why: Message) -> Message {
    if why.is_empty() { what } else { message!("printed-because", what = what, why = why) }
}

/// Something that stands, with a mark where others say otherwise or the same.
pub(crate) fn marked<T>(known: &Attested<T>, what: Message) -> Message {
    let what = if known.disputed { message!("printed-disputed", what = what) } else { what };
    match known.also {
        0 => what,
        also => message!("printed-also", what = what, count = also),
    }
}

/// Several messages in one list.
pub(crate) fn list(joint: farsiding_core::Joint, items: impl IntoIterator<Item = Message>) -> Message {
    message!("printed-parts", parts = Arg::list(joint, items))
}
