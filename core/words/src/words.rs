//! The words of one language, and how a message becomes text.

use std::borrow::Cow;
use std::fmt;
use std::sync::OnceLock;

use farsiding_message::{Arg, Joint, Message, text};
use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};
use icu_decimal::DecimalFormatter;
use serde_json::Value;

use crate::{Language, files, numbers};

/// How deep a message is read into; packets of others may nest without end.
const DEEPEST: usize = 8;

/// The words of one language.
pub struct Words {
    language: Language,
    bundle: FluentBundle<FluentResource>,
    numbers: Option<DecimalFormatter>,
}

impl fmt::Debug for Words {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Words").field("language", &self.language).finish_non_exhaustive()
    }
}

impl Words {
    /// Returns the words of a language, read once.
    pub fn of(language: Language) -> &'static Words {
        static READ: OnceLock<Vec<(Language, Words)>> = OnceLock::new();
        let read = READ.get_or_init(|| {
            Language::all()
                .chain([Language::PSEUDO])
                .map(|language| (language, Words::read(language)))
                .collect()
        });
        let found = read.iter().find(|(name, _)| *name == language).or_else(|| read.first());
        match found {
            Some((_, words)) => words,
            // There is a catalogue, since this crate does not build without its folder.
            None => unreachable!("no language at all"),
        }
    }

    /// Returns the words of American English.
    pub fn english() -> &'static Words {
        Words::of(Language::ENGLISH)
    }

    fn read(language: Language) -> Words {
        let source = if language == Language::PSEUDO { Language::ENGLISH } else { language };
        let mut bundle = FluentBundle::new_concurrent(source.as_str().parse().into_iter().collect());
        bundle.set_use_isolating(false);
        if language == Language::PSEUDO {
            bundle.set_transform(Some(pseudo));
        }
        for (_, text) in files(source) {
            // A file with an error gives what could be read of it; a test refuses such a file.
            let resource = FluentResource::try_new((*text).to_owned()).unwrap_or_else(|(read, _)| read);
            bundle.add_resource_overriding(resource);
        }
        Words { language, bundle, numbers: numbers::formatter(source) }
    }

    /// Returns the language.
    pub fn language(&self) -> Language {
        self.language
    }

    /// Returns the text of a message. It is total: a message that the catalogues do not know, such as one of a
    /// later version, gives its id in angle brackets.
    pub fn text(&self, message: &Message) -> String {
        self.at_depth(message, DEEPEST)
    }

    /// Returns the text of a message that has no arguments.
    pub fn say(&self, id: &str) -> String {
        self.formatted(id, None)
    }

    /// Returns true if there is a message with this id.
    pub fn knows(&self, id: &str) -> bool {
        self.bundle.has_message(id.split('.').next().unwrap_or(id))
    }

    /// Writes a number, given as a decimal with a full stop and no separators, as the language does.
    pub fn number(&self, number: &str) -> String {
        numbers::written(self.numbers.as_ref(), number)
    }

    /// Adds `"text"` beside every message inside a JSON value.
    pub fn fill(&self, value: &mut Value) {
        match value {
            Value::Array(items) => items.iter_mut().for_each(|item| self.fill(item)),
            Value::Object(fields) => {
                if fields.get("message").is_some_and(Value::is_string) {
                    let message = serde_json::from_value::<Message>(Value::Object(fields.clone()));
                    if let Ok(message) = message {
                        fields.insert("text".to_owned(), Value::String(self.text(&message)));
                        return;
                    }
                }
                fields.values_mut().for_each(|field| self.fill(field));
            }
            _ => {}
        }
    }

    /// Returns a line of JSON with every message inside as its text, for scripts that read texts alone.
    pub fn line(&self, json: &str) -> String {
        if !json.contains("{\"message\":\"") {
            return json.to_owned();
        }
        match serde_json::from_str(json) {
            Ok(mut value) => {
                self.in_place(&mut value);
                value.to_string()
            }
            Err(_) => json.to_owned(),
        }
    }

    fn in_place(&self, value: &mut Value) {
        match value {
            Value::Array(items) => items.iter_mut().for_each(|item| self.in_place(item)),
            Value::Object(fields) => {
                // Other objects may have a field of this name; a message has an id and nothing but arguments.
                let is_message = fields.keys().all(|key| key == "message" || key == "args");
                match serde_json::from_value::<Message>(Value::Object(fields.clone())) {
                    Ok(message) if is_message => *value = Value::String(self.text(&message)),
                    _ => fields.values_mut().for_each(|field| self.in_place(field)),
                }
            }
            _ => {}
        }
    }

    fn at_depth(&self, message: &Message, left: usize) -> String {
        if let Some(typed) = message.as_typed() {
            return text::own(typed).into_owned();
        }
        let Some(left) = left.checked_sub(1) else { return "…".to_owned() };
        let language = if self.language == Language::PSEUDO { Language::ENGLISH } else { self.language };
        if let Some(own) = message.own_words(language.as_str()) {
            return self.written(own, left);
        }
        let mut args = FluentArgs::new();
        for (name, arg) in message.args() {
            let value = match arg {
                Arg::Count(count) => FluentValue::from(*count as f64),
                other => FluentValue::from(self.written(other, left)),
            };
            args.set(name.to_owned(), value);
        }
        self.formatted(message.id(), Some(&args))
    }

    fn formatted(&self, id: &str, args: Option<&FluentArgs<'_>>) -> String {
        let (name, attribute) = match id.split_once('.') {
            Some((name, attribute)) => (name, Some(attribute)),
            None => (id, None),
        };
        let pattern = self.bundle.get_message(name).and_then(|message| match attribute {
            Some(attribute) => message.get_attribute(attribute).map(|found| found.value()),
            None => message.value(),
        });
        match pattern {
            // An argument that is missing shows as its name; a test holds every language to the same arguments.
            Some(pattern) => self.bundle.format_pattern(pattern, args, &mut Vec::new()).into_owned(),
            None if !matches!(self.language, Language::ENGLISH | Language::PSEUDO) => {
                Words::english().formatted(id, args)
            }
            None => format!("⟨{}⟩", text::on_one_line(id)),
        }
    }

    fn written(&self, arg: &Arg, left: usize) -> String {
        match arg {
            Arg::Typed(typed) => text::own(typed).into_owned(),
            Arg::Count(count) => self.number(&count.to_string()),
            Arg::Number(number) => self.number(number),
            Arg::Amount { typed, value, unit, named, echoed } => {
                let typed = text::on_one_line(typed.trim());
                match value {
                    Some(value) if !numbers::has_full_stop(self.numbers.as_ref()) => {
                        self.with_unit(&self.number(value), unit)
                    }
                    Some(value) if *echoed => {
                        let typed = if *named { typed.into_owned() } else { self.with_unit(&typed, unit) };
                        let mut args = FluentArgs::new();
                        args.set("typed", typed);
                        args.set("value", self.number(value));
                        self.formatted("amount-read-as", Some(&args))
                    }
                    _ if *named => typed.into_owned(),
                    _ => self.with_unit(&typed, unit),
                }
            }
            Arg::Figure { value, plus_minus: None, unit } => self.with_unit(&self.number(value), unit),
            Arg::Figure { value, plus_minus: Some(pm), unit } => {
                self.with_unit(&format!("{} ± {}", self.number(value), self.number(pm)), unit)
            }
            Arg::Says(message) => self.at_depth(message, left),
            Arg::List { joint, items } => {
                let parts: Vec<String> = items.iter().map(|item| self.at_depth(item, left)).collect();
                self.joined(*joint, &parts)
            }
        }
    }

    fn with_unit(&self, number: &str, unit: &str) -> String {
        if unit == "one" {
            number.to_owned()
        } else {
            format!("{number} {}", self.say(&format!("unit-{unit}")))
        }
    }

    fn joined(&self, joint: Joint, parts: &[String]) -> String {
        if joint == Joint::Sentences {
            return parts.join(" ");
        }
        // Within a list a sentence ends with the list's own mark.
        let last = parts.len().saturating_sub(1);
        let within = |(at, part): (usize, &String)| match part.strip_suffix('.') {
            Some(open) if at < last && !open.ends_with('.') => open.to_owned(),
            _ => part.clone(),
        };
        let parts: Vec<String> = parts.iter().enumerate().map(within).collect();
        let last_two = |id: &str| match parts.as_slice() {
            [] => String::new(),
            [only] => only.clone(),
            [first @ .., last] => {
                let mut args = FluentArgs::new();
                args.set("first", first.join(", "));
                args.set("last", last.as_str());
                self.formatted(id, Some(&args))
            }
        };
        match joint {
            Joint::And => last_two("list-and"),
            Joint::Or => last_two("list-or"),
            Joint::Comma => parts.join(", "),
            Joint::Semicolon => parts.join("; "),
            Joint::Sentences => parts.join(" "),
        }
    }
}

/// Makes text longer, accented and bracketed; numbers and marks stay.
fn pseudo(text: &str) -> Cow<'_, str> {
    if !text.chars().any(char::is_alphabetic) {
        return Cow::Borrowed(text);
    }
    let accented = |c: char| match c {
        'a' => 'à',
        'e' => 'é',
        'i' => 'î',
        'o' => 'ö',
        'u' => 'ü',
        'A' => 'Å',
        'E' => 'Ë',
        'I' => 'Ï',
        'O' => 'Ø',
        'U' => 'Û',
        'c' => 'ç',
        'n' => 'ñ',
        other => other,
    };
    let mut longer = String::from("[");
    for c in text.chars() {
        longer.push(accented(c));
        // About a third more: every second vowel is doubled.
        if matches!(c, 'e' | 'o' | 'a') {
            longer.push(accented(c));
        }
    }
    longer.push(']');
    Cow::Owned(longer)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::expect_used, reason = "a failed expectation is a failed test")]
    use super::*;
    use farsiding_message::message;

    fn in_all(message: &Message) -> Vec<String> {
        ["en-US", "es-MX", "fr-CA"]
            .iter()
            .map(|tag| Words::of(tag.parse().expect("a language")).text(message))
            .collect()
    }

    #[test]
    fn numbers_follow_the_language() {
        assert_eq!(Words::english().number("-12500.50"), "-12,500.50");
        assert_eq!(Words::of("es-MX".parse().expect("a language")).number("12500.5"), "12,500.5");
        assert_eq!(Words::of("fr-CA".parse().expect("a language")).number("12500.5"), "12\u{a0}500,5");
    }

    #[test]
    fn a_typed_amount_is_never_read_as_another_number() {
        let amount = |typed: &str, value: &str| {
            Message::new("typed").with(
                "text",
                Arg::Amount {
                    typed: typed.into(),
                    value: Some(value.into()),
                    unit: "gallon".into(),
                    named: false,
                    echoed: false,
                },
            )
        };
        assert_eq!(
            in_all(&amount("12,500", "12500")),
            ["12,500 gal", "12,500 gal (EUA)", "12\u{a0}500 gal US"]
        );
    }

    #[test]
    fn what_is_not_known_or_nested_without_end_stays_harmless() {
        assert_eq!(in_all(&Message::new("of-a-later\u{202e}version"))[0], "⟨of-a-laterversion⟩");
        let mut deep = Message::typed("end");
        for _ in 0..100 {
            deep = message!("typed", text = deep);
        }
        assert_eq!(Words::english().text(&deep), "…");
    }

    #[test]
    fn json_is_filled_on_request() {
        let mut value =
            serde_json::json!({ "gate": [{ "message": "typed", "args": { "text": { "typed": "as is" } } }] });
        Words::english().fill(&mut value);
        assert_eq!(value["gate"][0]["text"], "as is");
    }
}
