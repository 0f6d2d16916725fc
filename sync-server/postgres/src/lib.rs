//! A ledger in PostgreSQL 15 or later: many organisations in one database, each written by one server at a time.
//!
//! [`PostgresStore`] keeps the rows of one organisation and implements the core's `Store` and `Ledger` like the
//! stores there, whose test suite it passes. How rows are written:
//!
//! - Everything is keyed by organisation. One row of each organisation, its head, is read and locked by every
//!   transaction first and written last, by a comparison with what was read (READ COMMITTED is enough for that). So
//!   positions, the log and the sums become visible in their order. There are no sequences and no advisory locks.
//! - Rows are written by kind, one statement for all rows of a batch (`unnest`), and writing again changes nothing.
//! - A server takes the fence of an organisation ([`PostgresStore::take_fence`]) before it writes. Another that
//!   takes it after that ends the first one's writing. Commands that run beside a server do not take it: they
//!   write between the server's batches, and the server decides again.
//! - A transaction that the database asks to repeat (SQLSTATE 40001, 40P01) is repeated. Whether a commit arrived
//!   whose connection broke is unknown, and said so; the same batch may be applied again.
//!
//! - A whole ledger is carried in and out row by row (`carrying`), with the numbers its rows have.
//!
//! The connection is encrypted where the address asks for it (`address`).

mod address;
mod carrying;
mod head;
mod ledger;
mod line;
mod log;
mod open;
mod reading;
mod rows;
mod schema;
mod scope;
mod store;
mod write;
mod writing;

pub use address::{Address, address_of};
pub use carrying::Standing;
pub use open::PostgresStore;
pub use reading::RawEntry;
