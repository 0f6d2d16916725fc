//! The server and the command line as people use them: real processes, real files, and connections over
//! loopback.
//!
//! All files are linked into one test program; each file is a group of stories. The server, the devices and
//! the raw connections that the stories use come from the test kit.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a failed unwrap is a failed test"
)]

mod app;
mod backup;
mod check;
mod clock;
mod enrolment;
mod folder;
mod grants;
mod hostility;
mod job;
mod keys;
mod late;
mod lines;
mod log;
mod meeting;
mod open_log;
mod outside_word;
mod outsider;
mod pages_accounts;
mod pages_doors;
mod pages_languages;
mod pages_overdue;
mod pages_papers;
mod pages_people;
mod pages_procedures;
mod pages_stage;
mod pages_text;
mod pages_work;
mod photographs;
mod quotas;
mod recording;
mod stopping;
mod strangers;
mod strip;
mod timestamps;
mod tls;
mod witnesses;
mod written_before;

use farsiding_testkit::stage;
