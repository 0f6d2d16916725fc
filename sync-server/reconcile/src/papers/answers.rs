//! What a cell of a file of papers answers where only some words are right: yes or no, a grade, how a quantity was
//! measured, a season. `import` calls this module.

use farsiding_core::Message;
use farsiding_core::entry::vocabulary::{BilledBy, ProductGrade};
use farsiding_words::{Language, Words};

/// Returns a text as two spellings of one word are compared: letters and digits alone, in lower case.
fn flat(text: &str) -> String {
    text.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_lowercase).collect()
}

/// Returns true if a cell says a word of a vocabulary: by its code, or as any language shows it.
fn says(text: &str, word: &str, shown: &Message) -> bool {
    let said = flat(text);
    said == flat(word) || Language::all().any(|language| said == flat(&Words::of(language).text(shown)))
}

/// Reads the grade of a product. Words of the trade without the product's name are those of one grade alone.
pub(super) fn grade_of(text: &str) -> Option<ProductGrade> {
    let known = ProductGrade::ALL.iter().copied().find(|grade| says(text, grade.word(), &grade.term()));
    known.or_else(|| (flat(text) == "hd5").then_some(ProductGrade::Hd5Propane))
}

/// Reads how a quantity was measured. By volume is refused: it may be by the outage table or by a meter.
pub(super) fn billed_by_of(text: &str) -> Option<BilledBy> {
    let known = BilledBy::ALL.iter().copied().find(|by| says(text, by.word(), &by.term()));
    known.or_else(|| match flat(text).as_str() {
        "weight" | "mass" | "scaled" => Some(BilledBy::Scale),
        "outage" | "gauged" | "gaugetable" => Some(BilledBy::Table),
        "metered" => Some(BilledBy::Meter),
        _ => None,
    })
}

/// Reads whether a car was filled to winter limits: yes, no, or the season.
pub(super) fn winter_of(text: &str) -> Option<bool> {
    match text.trim().to_lowercase().as_str() {
        "winter" | "invierno" | "hiver" | "yes" | "y" | "true" | "1" | "sí" | "si" | "oui" => Some(true),
        "summer" | "verano" | "été" | "no" | "n" | "false" | "0" | "non" => Some(false),
        _ => None,
    }
}

/// Reads the answer of a column that says yes or no.
pub(super) fn yes_or_no(text: &str) -> Option<bool> {
    match text.trim().to_lowercase().as_str() {
        "yes" | "y" | "true" | "1" | "odorized" | "sí" | "si" | "oui" | "odorizado" | "odorisé" => {
            Some(true)
        }
        "no" | "n" | "false" | "0" | "not odorized" | "non-odorized" | "non" | "no odorizado"
        | "non odorisé" => Some(false),
        _ => None,
    }
}
