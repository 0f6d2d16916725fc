//! Farsiding message: what is said to people, before any language.
//!
//! A [`Message`] is the id of a sentence and the things it speaks about, each with its type. Sentences in a language
//! are in the catalogues of `farsiding-words`, and phones, office pages, packets and the command line render
//! the same message in the language of whoever reads it. [`text`] says which characters of typed text may be shown.

mod arg;
mod message;
pub mod text;

pub use arg::{Arg, Joint};
pub use message::Message;
