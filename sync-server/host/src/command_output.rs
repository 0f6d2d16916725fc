//! The output of a command: text for people and one JSON object for programs.

use std::borrow::Cow;
use std::io::{self, Write as _};

use serde_json::{Value, json};

/// The output of a command, in both forms.
#[derive(Debug, Clone)]
pub struct CommandOutput {
    /// The text for people.
    pub text: String,
    /// The JSON object for programs; null where the text is all there is.
    pub json: Value,
}

impl CommandOutput {
    /// Returns the output with both forms.
    pub fn new(text: impl Into<String>, json: Value) -> CommandOutput {
        CommandOutput { text: text.into(), json }
    }

    /// Returns the output of a command that has no form for programs, or whose text is such a form.
    pub fn text(text: impl Into<String>) -> CommandOutput {
        CommandOutput::new(text, Value::Null)
    }

    /// Returns the output of a command that wrote all it had to say while it ran.
    pub fn none() -> CommandOutput {
        CommandOutput::text("")
    }

    /// Prints one of the two forms. The JSON object gains `"ok": true` if it has no `ok` of its own.
    ///
    /// # Errors
    /// Returns the error of standard output.
    pub fn tell(mut self, as_json: bool) -> io::Result<()> {
        if !as_json || self.json.is_null() {
            return if self.text.is_empty() { Ok(()) } else { say(self.text.trim_end()) };
        }
        if let Some(fields) = self.json.as_object_mut() {
            fields.entry("ok").or_insert(json!(true));
        }
        say(&self.json.to_string())
    }
}

/// Writes a line to standard output. A closed pipe is not an error.
///
/// # Errors
/// Returns any other error of standard output.
pub fn say(text: &str) -> io::Result<()> {
    let mut out = io::stdout().lock();
    // Programs read JSON unchanged. Other text may hold names from devices, so control characters that would
    // move a terminal's cursor are removed.
    let is_json = serde_json::from_str::<serde::de::IgnoredAny>(text).is_ok();
    let own = if is_json { Cow::Borrowed(text) } else { farsiding_core::text::own(text) };
    match writeln!(out, "{own}").and_then(|()| out.flush()) {
        Err(e) if e.kind() == io::ErrorKind::BrokenPipe => Ok(()),
        outcome => outcome,
    }
}
