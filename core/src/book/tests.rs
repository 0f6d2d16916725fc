//! The book as a shell uses it.
