//! Farsiding core: the whole product logic, with no network, no async runtime and no FFI.
//!
//! Data flows one way through these modules, in this order:
//! units -> entry -> authority -> document -> store -> sync -> calc -> procedure -> view -> evidence.

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
pub mod procedure;
pub mod store;
pub mod sync;
pub mod text;
pub mod units;
pub mod view;
