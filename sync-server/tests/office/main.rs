//! The server and the command line as people use them: real processes, real files, loopback.
//!
//! One binary, so that it is linked once; each file is a group of stories. `stage` holds what they
//! share: a server, devices, raw connections.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a failed unwrap is a failed test"
)]

mod enrolment;
mod hostility;
mod job;
mod lines;
mod log;
mod meeting;
mod photographs;
mod recording;
mod stage;
mod stopping;
mod timestamps;
mod tls;
