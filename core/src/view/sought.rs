//! Search texts as people type them: a car number, a seal number or a spot.
//!
//! Phones, the command line and the office's index all interpret search texts through this module. Each
//! decides how similar a match must be: a list that narrows while somebody types matches parts of a text, and
//! a command line requires the exact car.

use crate::entry::Statement;
use crate::entry::car_number::CarNumber;

/// Returns the letters and digits of a text in upper case. Blanks, hyphens and case do not matter in a
/// search.
pub fn plain(text: &str) -> String {
    text.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_uppercase).collect()
}

/// Returns a car number for comparison: its normal form without the blank.
pub fn plain_car(text: &str) -> String {
    plain(&CarNumber(text.to_owned()).normal())
}

/// How a car number matches the search.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CarLikeness {
    /// It is the number sought.
    Same,
    /// It differs from the number sought by a single typing error.
    Near,
}

/// A search text.
#[derive(Clone, Debug)]
pub struct Sought {
    plain: String,
    word: String,
    number: CarNumber,
}

impl Sought {
    /// Creates a search for the typed text.
    pub fn new(typed: &str) -> Sought {
        Sought { plain: plain(typed), word: typed.trim().to_lowercase(), number: CarNumber(typed.to_owned()) }
    }

    /// Returns true if the search text is empty.
    pub fn is_empty(&self) -> bool {
        self.plain.is_empty()
    }

    /// Returns true if a number or a spot contains the search text.
    pub fn stands_in(&self, text: &str) -> bool {
        plain(text).contains(&self.plain)
    }

    /// Returns true if the search text occurs in the seal number, car number or spot that a statement
    /// contains.
    pub fn stands_in_entry(&self, says: &Statement) -> bool {
        match says {
            Statement::Seal(seal) => self.stands_in(&seal.number),
            Statement::Opened(opened) => self.stands_in(&opened.car.0) || self.stands_in(&opened.spot),
            Statement::Paper(paper) => self.stands_in(&paper.car),
            _ => false,
        }
    }

    /// Returns how a car number matches the search, or `None` if it does not.
    pub fn car(&self, car: &CarNumber) -> Option<CarLikeness> {
        if car.normal() == self.number.normal() {
            Some(CarLikeness::Same)
        } else {
            car.is_near(&self.number).then_some(CarLikeness::Near)
        }
    }

    /// Returns true if the search text is one of the words of a sentence, as a seal number is in an entry's
    /// sentence.
    pub fn is_word_of(&self, sentence: &str) -> bool {
        let lower = sentence.to_lowercase();
        lower.split(|c: char| !c.is_alphanumeric() && c != '-').any(|word| word == self.word)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn blanks_hyphens_and_case_make_no_difference() {
        for typed in ["zzqx 4417", "ZZQX-4417", "4417", "x44"] {
            assert!(Sought::new(typed).stands_in("ZZQX 4417"), "{typed}");
        }
        assert!(!Sought::new("4418").stands_in("ZZQX 4417"));
        assert!(Sought::new(" - ").is_empty());
    }

    #[test]
    fn a_number_is_the_car_or_easily_taken_for_it() {
        let car = CarNumber("ZZQX 4417".to_owned());
        assert_eq!(Sought::new("zzqx4417").car(&car), Some(CarLikeness::Same));
        assert_eq!(Sought::new("ZZQX 4471").car(&car), Some(CarLikeness::Near));
        assert_eq!(Sought::new("ZZQX 9000").car(&car), None);
    }

    #[test]
    fn a_seal_is_told_by_its_whole_number() {
        let told = "Seal K40-0109 put on through the housing pin.";
        assert!(Sought::new("k40-0109").is_word_of(told));
        assert!(!Sought::new("k40").is_word_of(told));
    }
}
