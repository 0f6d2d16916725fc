//! Farsiding core: the whole product logic, with no network, no async runtime and no FFI.
//!
//! The modules stand in one order, and each leans only on those before it:
//! text -> units -> calc -> ids -> clock -> entry -> authority -> document -> tree -> store -> log -> sync -> procedure ->
//! view -> evidence -> book.

// `unit!` expands to further uom macros that must be in textual scope.
#[macro_use]
extern crate uom;

pub mod authority;
pub mod book;
pub mod calc;
pub mod clock;
pub mod document;
pub mod entry;
pub mod evidence;
pub mod ids;
pub mod log;
pub mod procedure;
pub mod store;
pub mod sync;
pub mod text;
pub mod tree;
pub mod units;
pub mod view;
