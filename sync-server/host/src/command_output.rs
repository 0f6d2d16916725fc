//! What a command has to say, and how it is said: to people as text, to programs as one JSON object.

use std::borrow::Cow;
use std::io::{self, Write as _};

use serde_json::{Value, json};

/// What a command has to say, for people and for programs.
#[derive(Debug, Clone)]
pub struct CommandOutput {
    /// For people.
    pub text: String,
    /// For programs; an object.
    pub json: Value,
}

impl CommandOutput {
    /// Both forms.
    pub fn new(text: impl Into<String>, json: Value) -> CommandOutput {
        CommandOutput { text: text.into(), json }
    }

    /// Says one of the two forms; the object gains `"ok": true` where it says nothing of it.
    ///
    /// # Errors
    /// The error of standard output.
    pub fn tell(mut self, as_json: bool) -> io::Result<()> {
        if !as_json {
            return if self.text.is_empty() { Ok(()) } else { say(self.text.trim_end()) };
        }
        if let Some(fields) = self.json.as_object_mut() {
            fields.entry("ok").or_insert(json!(true));
        }
        say(&self.json.to_string())
    }
}

/// Writes a line to standard output; a closed pipe is the reader's business.
///
/// # Errors
/// The error of standard output.
pub fn say(text: &str) -> io::Result<()> {
    let mut out = io::stdout().lock();
    // A program reads JSON as it is; on a terminal no name moves the cursor or turns a line.
    let is_json = serde_json::from_str::<serde::de::IgnoredAny>(text).is_ok();
    let own = if is_json { Cow::Borrowed(text) } else { farsiding_core::text::own(text) };
    match writeln!(out, "{own}").and_then(|()| out.flush()) {
        Err(e) if e.kind() == io::ErrorKind::BrokenPipe => Ok(()),
        outcome => outcome,
    }
}
