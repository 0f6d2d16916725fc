//! Farsiding for other languages: what Python, Kotlin, Swift and TypeScript may call, and nothing else.
//!
//! One file per idea: a book's calls stand in `book`, `office`, `carrying` and `people`. Product logic lives
//! in `farsiding-core`; here is only conversion: plain records in and out, coarse calls, and every error
//! turned once into a `FarsidingError` a person can act on. This is the only crate that names uniffi.
//! `bindings/generate` writes the other languages' side.

mod book;
#[cfg(test)]
mod book_log_tests;
mod carrying;
mod error;
mod measure;
mod office;
mod outside;
mod people;
#[cfg(test)]
mod people_tests;
mod storage;

pub use book::Book;
pub use carrying::Picture;
pub use error::FarsidingError;
pub use measure::{AmountReading, ReadAmount, calculate, formulas, read_amount};
pub use outside::new_key;
pub use people::{pin_may_be_chosen, pin_storage_key};
pub use storage::{core_version, prepare_storage};

// The player's allocator and panic hook are exported by being linked.
#[cfg(target_arch = "wasm32")]
use uniffi_runtime_wasm as _;

uniffi::setup_scaffolding!();
