//! Near misses: the numbers that differ from a number by one slip, which is one wrong, missing or extra
//! character, or two neighbours swapped. The near_misses are those of the core's `CarNumber::is_near`. They are
//! generated instead of compared, so that near misses among a hundred thousand numbers are found by about a
//! thousand look-ups.

const LETTERS: &str = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789";
/// The longest number, in characters, for which near misses are generated.
const LONGEST: usize = 20;

/// Returns all numbers that differ by one slip. The list is empty for texts that are too short or too long to
/// be a number.
pub fn slips_of(plain: &str) -> Vec<String> {
    let chars: Vec<char> = plain.chars().collect();
    if !(3..=LONGEST).contains(&chars.len()) {
        return Vec::new();
    }
    let mut near_misses = Vec::new();
    for at in 0..chars.len() {
        let mut shorter = chars.clone();
        shorter.remove(at);
        near_misses.push(shorter);
        if at + 1 < chars.len() {
            let mut swapped = chars.clone();
            swapped.swap(at, at + 1);
            near_misses.push(swapped);
        }
        for letter in LETTERS.chars() {
            let mut wrong = chars.clone();
            wrong[at] = letter;
            near_misses.push(wrong);
        }
    }
    for at in 0..=chars.len() {
        for letter in LETTERS.chars() {
            let mut extra = chars.clone();
            extra.insert(at, letter);
            near_misses.push(extra);
        }
    }
    let mut near_misses: Vec<String> = near_misses.into_iter().map(String::from_iter).collect();
    near_misses.sort_unstable();
    near_misses.dedup();
    near_misses.retain(|slip| slip != plain);
    near_misses
}

#[cfg(test)]
mod tests {
    use super::*;
    use farsiding_core::entry::car_number::CarNumber;

    #[test]
    fn the_slips_made_are_the_slips_the_core_calls_near() {
        let number = CarNumber("ZZQX 4417".to_owned());
        let near_misses = slips_of("ZZQX4417");
        for slip in &near_misses {
            // A leading zero is no slip, because numbers are compared without leading zeros.
            let other = CarNumber(slip.clone());
            assert!(
                number.is_near(&other) || other.normal() == number.normal() || slip.contains("X0"),
                "{slip}"
            );
        }
        for near in ["ZZQX4471", "ZZQX4418", "ZZQX441", "ZZQX44170", "ZQZX4417"] {
            assert!(near_misses.contains(&near.to_owned()), "{near}");
        }
        assert!(slips_of("A1").is_empty() && slips_of(&"A".repeat(21)).is_empty());
    }
}
