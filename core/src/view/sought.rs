//! What somebody looks for: a car's number, a seal's, a spot, as people type them.
//!
//! The one reading of such a text, for phones, the command line and the office's index. How far a likeness has to go is
//! theirs: a list that grows shorter as one types asks what contains the text, a command line asks for the very car.

use crate::entry::Statement;
use crate::entry::car_number::CarNumber;

/// Letters and digits alone, in capitals: blanks, hyphens and case make no difference to who looks for a number.
pub fn plain(text: &str) -> String {
    text.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_uppercase).collect()
}

/// A car's number as it is compared: its normal form without the blank.
pub fn plain_car(text: &str) -> String {
    plain(&CarNumber(text.to_owned()).normal())
}

/// How a car's number is what was looked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CarLikeness {
    /// It is that car.
    Same,
    /// It is a number that is easily taken for the other.
    Near,
}

/// What somebody looks for.
#[derive(Clone, Debug)]
pub struct Sought {
    plain: String,
    word: String,
    number: CarNumber,
}

impl Sought {
    /// What was typed.
    pub fn new(typed: &str) -> Sought {
        Sought { plain: plain(typed), word: typed.trim().to_lowercase(), number: CarNumber(typed.to_owned()) }
    }

    /// Whether nothing is looked for.
    pub fn is_empty(&self) -> bool {
        self.plain.is_empty()
    }

    /// Whether it stands in a number or a spot.
    pub fn stands_in(&self, text: &str) -> bool {
        plain(text).contains(&self.plain)
    }

    /// Whether it stands in what an entry says of a seal's number, of a car's, or of its spot.
    pub fn stands_in_entry(&self, says: &Statement) -> bool {
        match says {
            Statement::Seal(seal) => self.stands_in(&seal.number),
            Statement::Opened(opened) => self.stands_in(&opened.car.0) || self.stands_in(&opened.spot),
            Statement::Paper(paper) => self.stands_in(&paper.car),
            _ => false,
        }
    }

    /// Whether it is this car's number, or one easily taken for it.
    pub fn car(&self, car: &CarNumber) -> Option<CarLikeness> {
        if car.normal() == self.number.normal() {
            Some(CarLikeness::Same)
        } else {
            car.is_near(&self.number).then_some(CarLikeness::Near)
        }
    }

    /// Whether it is one of a sentence's words, as a seal's number is when an entry is told.
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
