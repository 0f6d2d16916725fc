//! The `farsiding` program. The library half of this crate parses the command line and runs the command.

use std::process::ExitCode;

fn main() -> ExitCode {
    farsiding_server::command::run()
}
