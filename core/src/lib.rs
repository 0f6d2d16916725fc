//! Farsiding core: the whole product logic, with no network, no async runtime and no FFI.
//!
//! Texts, units and formulas are `farsiding-measure`'s, whose modules stand here under their names. The core's own stand
//! in one order, and each leans only on those before it:
//! ids -> clock -> entry -> authority -> document -> tree -> store -> log -> sync -> procedure -> view -> evidence -> book.

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
