//! What stands beside the packet's own words: texts of the view as messages, whether they are sentences already or
//! what somebody typed.

use farsiding_core::Message;
use farsiding_core::entry::coded::{Code, Coded};
use farsiding_core::ids::OperatorId;

/// Anything that a view says to people.
pub trait Spoken {
    /// Returns it as a message.
    fn as_message(&self) -> Message;
}

impl Spoken for Message {
    fn as_message(&self) -> Message {
        self.clone()
    }
}

impl Spoken for str {
    fn as_message(&self) -> Message {
        Message::typed(self)
    }
}

impl Spoken for String {
    fn as_message(&self) -> Message {
        Message::typed(self.as_str())
    }
}

impl<T: Spoken + ?Sized> Spoken for &T {
    fn as_message(&self) -> Message {
        (**self).as_message()
    }
}

impl<C: Code> Spoken for Coded<C> {
    fn as_message(&self) -> Message {
        self.message()
    }
}

impl Spoken for OperatorId {
    fn as_message(&self) -> Message {
        Message::typed(self.0.as_str())
    }
}
