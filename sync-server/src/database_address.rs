//! The address of a database as a command is given it. A password in it never stands on the command line, which every
//! user of the machine can read.

use farsiding_office::OfficeError;
use farsiding_office::ledger::has_password;

use crate::outcome::CommandError;

/// The variable that holds the address where no option does.
const VARIABLE: &str = "FARSIDING_DATABASE";

/// Returns the address that an option names: itself, or the first line of the file behind an `@`.
pub(crate) fn read(given: &str) -> Result<String, CommandError> {
    match given.strip_prefix('@') {
        Some(file) => in_file(file),
        None if has_password(given).map_err(OfficeError::from)? => Err(CommandError::refused(format!(
            "everybody on this machine could read the password, because it stands on the command line: put the address \
             into a file that only you can read and name it as @FILE, or into the variable {VARIABLE}"
        ))),
        None => Ok(given.to_owned()),
    }
}

/// Returns the address that the option names, or else the variable.
pub(crate) fn read_or_surroundings(given: Option<&str>) -> Result<Option<String>, CommandError> {
    if let Some(given) = given {
        return read(given).map(Some);
    }
    let Ok(address) = std::env::var(VARIABLE) else { return Ok(None) };
    match (address.trim(), address.trim().strip_prefix('@')) {
        ("", _) => Ok(None),
        (_, Some(file)) => in_file(file).map(Some),
        (address, None) => Ok(Some(address.to_owned())),
    }
}

fn in_file(file: &str) -> Result<String, CommandError> {
    let unread = |why: &dyn std::fmt::Display| CommandError::refused(format!("{file}: {why}"));
    let text = std::fs::read_to_string(file).map_err(|e| unread(&e))?;
    let first = text.lines().map(str::trim).find(|line| !line.is_empty());
    first.map(str::to_owned).ok_or_else(|| unread(&"there is no address in it"))
}
