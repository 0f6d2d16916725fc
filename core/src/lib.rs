//! Farsiding core: the whole product logic, without network, async runtime or FFI.
//!
//! Texts, units and formulas come from `farsiding-measure`, whose modules are re-exported here under their
//! names. The core's own modules form one order, and each depends only on those before it: ids -> clock ->
//! entry -> authority -> document -> tree -> store -> log -> sync -> procedure -> view -> evidence -> book.

pub mod authority;
pub mod book;
pub mod clock;
pub mod document;
pub mod entry;
pub mod evidence;
pub mod ids;
pub mod log;
pub mod procedure;
pub mod store;
pub mod sync;
pub mod tree;
pub mod view;

pub use farsiding_measure::{calc, text, units};
pub use farsiding_message::{Arg, Joint, Message, message};

/// Messages in English, for tests that look at the words.
#[cfg(test)]
pub(crate) trait English {
    /// Returns the message in English.
    fn en(&self) -> String;
}

#[cfg(test)]
impl English for Message {
    fn en(&self) -> String {
        farsiding_words::english(self)
    }
}
