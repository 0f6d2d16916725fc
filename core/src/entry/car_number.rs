//! Car numbers: reporting mark and number as typed, their normal form, and numbers that look alike.
//!
//! A reporting mark (two to four letters) and number (one to six digits) carry no check digit, so a
//! mistyped number is only ever found by comparison; the twelve-digit wagon numbers of UIC leaflet
//! 438 carry one.

use serde::{Deserialize, Serialize};

use crate::ids::{CarId, Digest};

/// Texts of more bytes than this are no numbers somebody mistyped; blanks and dashes between twelve digits included.
const LONGEST_COMPARED: usize = 64;

/// A car number exactly as it was typed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(transparent)]
pub struct CarNumber(pub String);

/// What is odd about a car number.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum CarNumberFinding {
    /// Neither a reporting mark with a number nor a twelve-digit number.
    UnusualForm,
    /// A twelve-digit number whose check digit does not fit.
    WrongCheckDigit,
}

impl CarNumber {
    /// Upper case, one space between mark and number, no leading zeros; otherwise the letters and
    /// digits as typed.
    pub fn normal(&self) -> String {
        let kept: String =
            self.0.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_uppercase).collect();
        let letters = kept.find(|c: char| !c.is_alphabetic()).unwrap_or(kept.len());
        let (mark, number) = kept.split_at(letters);
        let all_digits = !number.is_empty() && number.chars().all(|c| c.is_ascii_digit());
        if mark.is_empty() || !all_digits {
            return kept;
        }
        let trimmed = number.trim_start_matches('0');
        format!("{mark} {}", if trimmed.is_empty() { "0" } else { trimmed })
    }

    /// What is odd about it, if anything.
    pub fn findings(&self) -> Vec<CarNumberFinding> {
        let normal = self.normal();
        if let Some((mark, number)) = normal.split_once(' ') {
            let usual = (2..=4).contains(&mark.len())
                && mark.chars().all(|c| c.is_ascii_uppercase())
                && (1..=6).contains(&number.len());
            return if usual { Vec::new() } else { vec![CarNumberFinding::UnusualForm] };
        }
        if normal.len() == 12 && normal.chars().all(|c| c.is_ascii_digit()) {
            let expected = uic_check_digit(&normal[..11]);
            let given = normal[11..].parse().ok();
            return if expected == given { Vec::new() } else { vec![CarNumberFinding::WrongCheckDigit] };
        }
        vec![CarNumberFinding::UnusualForm]
    }

    /// The car's id: the first sixteen bytes of the SHA-256 of its normal form.
    pub fn id(&self) -> CarId {
        let digest = Digest::of(format!("farsiding car {}", self.normal()).as_bytes());
        let mut id = [0u8; 16];
        id.copy_from_slice(&digest.0[..16]);
        CarId(id)
    }

    /// Whether the two differ by one mistake of a tired hand: one character wrong, missing or extra,
    /// or two neighbours swapped. What is far longer than any number is near none: a text of 30 kB would be read through
    /// once for every other car.
    pub fn is_near(&self, other: &CarNumber) -> bool {
        if self.0.len() > LONGEST_COMPARED || other.0.len() > LONGEST_COMPARED {
            return false;
        }
        let a: Vec<char> = self.normal().chars().filter(|c| *c != ' ').collect();
        let b: Vec<char> = other.normal().chars().filter(|c| *c != ' ').collect();
        a != b && one_slip_apart(&a, &b)
    }
}

/// The check digit of a UIC wagon number's first eleven digits: digits weighted 2,1,2,… from the
/// left, the digits of the products summed, and what is missing to the next ten (UIC leaflet 438-2).
pub fn uic_check_digit(eleven: &str) -> Option<u32> {
    let digits: Vec<u32> = eleven.chars().map(|c| c.to_digit(10)).collect::<Option<_>>()?;
    if digits.len() != 11 {
        return None;
    }
    let sum: u32 = digits
        .iter()
        .enumerate()
        .map(|(at, digit)| {
            let product = digit * if at % 2 == 0 { 2 } else { 1 };
            product / 10 + product % 10
        })
        .sum();
    Some((10 - sum % 10) % 10)
}

fn one_slip_apart(a: &[char], b: &[char]) -> bool {
    let same_start = a.iter().zip(b).take_while(|(x, y)| x == y).count();
    let (a, b) = (&a[same_start..], &b[same_start..]);
    match (a, b) {
        ([x1, x2, rest_a @ ..], [y1, y2, rest_b @ ..]) if x1 == y2 && x2 == y1 && rest_a == rest_b => true,
        _ => {
            let wrong = a.len() == b.len() && a.get(1..) == b.get(1..);
            let extra = a.len() == b.len() + 1 && a.get(1..) == Some(b);
            let missing = b.len() == a.len() + 1 && b.get(1..) == Some(a);
            wrong || extra || missing
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn car(text: &str) -> CarNumber {
        CarNumber(text.to_owned())
    }

    #[test]
    fn one_car_typed_three_ways_is_one_car() {
        for text in ["zzqx 004417", "ZZQX4417", " ZZQX-4417 "] {
            assert_eq!(car(text).normal(), "ZZQX 4417");
            assert_eq!(car(text).id(), car("ZZQX 4417").id());
            assert!(car(text).findings().is_empty());
        }
    }

    #[test]
    fn one_slip_of_a_tired_hand_is_near_and_two_are_not() {
        for near in ["ZZQX 4471", "ZZQX 4418", "ZZQX 441", "ZZQX 44170", "ZQZX 4417"] {
            assert!(car(near).is_near(&car("ZZQX 4417")), "{near}");
        }
        for far in ["ZZQX 4417", "ZZQX 4481", "ZZQX 7441"] {
            assert!(!car(far).is_near(&car("ZZQX 4417")), "{far}");
        }
    }

    /// Published examples of the check digit: 21-81-2471217 has 3, 51-80-0843001 has 0.
    #[test]
    fn wagon_numbers_are_checked_by_their_check_digit() {
        assert_eq!(uic_check_digit("21812471217"), Some(3));
        assert_eq!(uic_check_digit("51800843001"), Some(0));
        assert!(car("21 81 2471 217-3").findings().is_empty());
        assert_eq!(car("21 81 2471 217-4").findings(), vec![CarNumberFinding::WrongCheckDigit]);
    }

    #[test]
    fn an_odd_number_is_kept_and_pointed_out() {
        assert_eq!(car("the green one").findings(), vec![CarNumberFinding::UnusualForm]);
        assert_eq!(car("").findings(), vec![CarNumberFinding::UnusualForm]);
    }
}
