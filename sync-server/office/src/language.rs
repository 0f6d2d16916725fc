//! The organisation's language, in which its packets are made.
//!
//! It is a setting of the office database. Each person reads the pages in a language of their own, which is
//! chosen in `pages`.

use farsiding_words::{Language, Words};

use crate::OfficeError;
use crate::data_folder::DataFolder;
use crate::database_error::DatabaseError;
use crate::office_database::OfficeDatabase;

/// The name of the setting.
const SETTING: &str = "language";

/// Returns the organisation's language: American English, unless another was set.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn of_organisation(database: &OfficeDatabase) -> Result<Language, DatabaseError> {
    let kept = database.setting(SETTING)?;
    let known = |tag: String| Language::all().find(|language| language.as_str() == tag);
    Ok(kept.and_then(known).unwrap_or(Language::ENGLISH))
}

/// Returns the words in which the organisation's letters are written.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn organisation_words(database: &OfficeDatabase) -> Result<&'static Words, DatabaseError> {
    Ok(Words::of(of_organisation(database)?))
}

/// Sets the organisation's language.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn keep(database: &OfficeDatabase, language: Language) -> Result<(), DatabaseError> {
    database.put_setting(SETTING, language.as_str())
}

/// Returns the language of the organisation whose data folder this is, also if the folder can only be read.
///
/// # Errors
/// Returns an [`OfficeError`] when the database cannot be read.
pub fn of_folder(folder: &DataFolder) -> Result<Language, OfficeError> {
    let database = OfficeDatabase::open_to_read(&folder.database_file())?;
    Ok(of_organisation(&database)?)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;

    #[test]
    fn an_organisation_speaks_american_english_until_it_says_otherwise() {
        let folder = tempfile::tempdir().unwrap();
        let database = OfficeDatabase::open(&folder.path().join("server.db")).unwrap();
        assert_eq!(of_organisation(&database).unwrap(), Language::ENGLISH);
        keep(&database, "fr-CA".parse().unwrap()).unwrap();
        assert_eq!(of_organisation(&database).unwrap().as_str(), "fr-CA");
        // A language of a later version is none that packets can be made in.
        database.put_setting(SETTING, "xx-XX").unwrap();
        assert_eq!(of_organisation(&database).unwrap(), Language::ENGLISH);
    }
}
