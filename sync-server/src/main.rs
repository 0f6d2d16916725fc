//! `farsiding`: the one binary. Reads the command line, runs the command, turns its outcome into words
//! and an exit code.

use std::process::ExitCode;

fn main() -> ExitCode {
    farsiding_server::command::run()
}
