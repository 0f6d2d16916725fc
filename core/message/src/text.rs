//! Characters in typed text that affect the text around it: control characters, and marks that change the
//! direction of writing.
//!
//! Entries keep what was typed. Code that shows typed text beside other words filters it here first, so that
//! a name cannot reverse the sentence around it, start a line of its own or hide what follows. The views,
//! `ids`, and all code that prints (pages, packets, tables, `show`) call this module.

use std::borrow::Cow;

/// Returns true if a character affects more than its own text when it is printed: control characters
/// (category Cc), directional marks and separators of lines and paragraphs (Unicode Standard Annex #9,
/// sections 2.1 to 2.6), and the annotation and tag characters, which hide text (Unicode 16, chapter 23).
pub fn acts_outside(c: char) -> bool {
    c.is_control()
        || matches!(c,
            '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{206f}'
            | '\u{fff9}'..='\u{fffb}' | '\u{e0000}'..='\u{e007f}')
}

/// Returns true if a character is visible when it is printed: it neither affects other text nor lacks a
/// width. A blank counts as visible; other white space does not, because it cannot be told from a blank.
pub fn is_printable(c: char) -> bool {
    let without_width = matches!(c,
        '\u{ad}' | '\u{34f}' | '\u{180e}' | '\u{200b}'..='\u{200d}' | '\u{2060}'..='\u{2064}' | '\u{feff}');
    !acts_outside(c) && !without_width && (c == ' ' || !c.is_whitespace())
}

/// Returns the text without characters that affect other text. Line ends and tabs remain; the caller decides
/// about them.
pub fn own(text: &str) -> Cow<'_, str> {
    let stays = |c: char| !acts_outside(c) || matches!(c, '\n' | '\t');
    if text.chars().all(stays) {
        Cow::Borrowed(text)
    } else {
        Cow::Owned(text.chars().filter(|c| stays(*c)).collect())
    }
}

/// Does the same as [`own`] and puts the result on one line, for output in which lines have a meaning.
pub fn on_one_line(text: &str) -> Cow<'_, str> {
    if !text.chars().any(acts_outside) {
        return Cow::Borrowed(text);
    }
    let blank = |c: char| if matches!(c, '\n' | '\r' | '\t' | '\u{2028}' | '\u{2029}') { ' ' } else { c };
    Cow::Owned(text.chars().map(blank).filter(|c| !acts_outside(*c)).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn what_people_write_is_left_alone() {
        for text in ["Ana María", "车 4417", "دانا", "½ turn, 3\u{b0}F", "two\nlines", ""] {
            assert!(matches!(own(text), Cow::Borrowed(same) if same == text), "{text}");
        }
    }

    #[test]
    fn marks_that_turn_or_hide_are_taken_out() {
        assert_eq!(own("A\u{202e}.fdp\u{202c}"), "A.fdp");
        assert_eq!(own("x\u{1b}[2J\u{7}y\u{0}"), "x[2Jy");
        assert_eq!(on_one_line("held\nReleased.\u{2028}\tx\r"), "held Released.  x ");
        assert!(!is_printable('\u{200b}') && !is_printable('\n') && is_printable(' ') && is_printable('ñ'));
    }

    proptest! {
        #[test]
        fn nothing_that_acts_outside_is_left(text in any::<String>()) {
            prop_assert!(!own(&text).chars().any(|c| acts_outside(c) && !matches!(c, '\n' | '\t')));
            prop_assert!(!on_one_line(&text).chars().any(acts_outside));
        }
    }
}
