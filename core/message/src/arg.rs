//! The arguments of a message. Each says what it is, so that a renderer can write it by the reader's conventions.

use serde::{Deserialize, Serialize};

use crate::Message;

/// How the parts of a list are joined.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "shell-types", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Joint {
    /// "a, b and c".
    And,
    /// "a, b or c".
    Or,
    /// "a, b, c".
    Comma,
    /// "a; b; c".
    Semicolon,
    /// "a b c", for sentences one after the other.
    Sentences,
}

/// One argument of a message.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "shell-types", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Arg {
    /// What a person typed, a name, a number of a car, a time as ISO 8601, an id: the same in every language.
    Typed(String),
    /// A number of things. It chooses the plural.
    Count(
        /// How many.
        #[cfg_attr(feature = "shell-types", ts(type = "number"))]
        u64,
    ),
    /// A number without a unit, as a decimal with a full stop and no separators ("-12.50").
    Number(String),
    /// An amount of an entry.
    Amount {
        /// The text as typed.
        typed: String,
        /// The number that it was read as, as a decimal with a full stop; absent if it is none.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        value: Option<String>,
        /// The unit's word, such as `psi_gauge`.
        unit: String,
        /// Whether the text names its unit itself.
        #[serde(default, skip_serializing_if = "std::ops::Not::not")]
        named: bool,
        /// Whether the number is shown beside the text, because the text has another, more usual reading.
        #[serde(default, skip_serializing_if = "std::ops::Not::not")]
        echoed: bool,
    },
    /// A computed value with its unit and uncertainty, both rounded, as decimals with a full stop.
    Figure {
        /// The value.
        value: String,
        /// The expanded uncertainty, if it is known.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        plus_minus: Option<String>,
        /// The unit's word, such as `gallon`.
        unit: String,
    },
    /// Another message as a part of this one: a word of the vocabulary, a quotation.
    Says(Box<Message>),
    /// Several messages.
    List {
        /// How they are joined.
        joint: Joint,
        /// The messages.
        items: Vec<Message>,
    },
}

impl Arg {
    /// An argument that is shown as it is in every language.
    pub fn typed(text: impl Into<String>) -> Arg {
        Arg::Typed(text.into())
    }

    /// Several messages, joined as `joint` says.
    pub fn list(joint: Joint, items: impl IntoIterator<Item = Message>) -> Arg {
        Arg::List { joint, items: items.into_iter().collect() }
    }

    /// A number without a unit, with a fixed number of decimals.
    pub fn number(value: f64, decimals: usize) -> Arg {
        Arg::Number(format!("{value:.decimals$}"))
    }
}

impl From<Message> for Arg {
    fn from(says: Message) -> Arg {
        Arg::Says(Box::new(says))
    }
}

impl From<u64> for Arg {
    fn from(count: u64) -> Arg {
        Arg::Count(count)
    }
}

impl From<usize> for Arg {
    fn from(count: usize) -> Arg {
        Arg::Count(count as u64)
    }
}

impl From<u32> for Arg {
    fn from(count: u32) -> Arg {
        Arg::Count(count.into())
    }
}
