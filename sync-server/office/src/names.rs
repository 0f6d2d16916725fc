//! Names given by people: which names are allowed, and when two names count as the same.

/// Returns a device's name, trimmed. Returns `None` if the name is empty, too long, not a single line, or has
/// invisible characters.
pub fn clean_name(name: &str) -> Option<String> {
    let name = name.trim();
    let unseen = |c: char| c.is_control() || is_unseen(c);
    let fits = !plain_name(name).is_empty() && name.chars().count() <= 64 && !name.chars().any(unseen);
    fits.then(|| name.to_owned())
}

/// Returns the form in which names are compared: lower case, each run of blanks as one blank, and without
/// invisible characters. Names that people cannot tell apart have the same form.
pub fn plain_name(name: &str) -> String {
    let seen = name.chars().map(|c| if is_blank(c) { ' ' } else { c }).filter(|c| !is_unseen(*c));
    let text: String = seen.flat_map(char::to_lowercase).collect();
    text.split(' ').filter(|word| !word.is_empty()).collect::<Vec<_>>().join(" ")
}

/// Returns whether a character is blank, including blanks that Unicode counts as letters or symbols, such as
/// the Hangul fillers and the empty Braille cell.
fn is_blank(c: char) -> bool {
    c.is_whitespace() || matches!(c, '\u{115f}' | '\u{1160}' | '\u{3164}' | '\u{ffa0}' | '\u{2800}')
}

/// Returns whether a character is drawn with no ink and no width: soft hyphens, joiners, direction marks,
/// variation selectors and tags.
pub fn is_unseen(c: char) -> bool {
    matches!(c,
        '\u{ad}' | '\u{34f}' | '\u{61c}' | '\u{180b}'..='\u{180f}' | '\u{200b}'..='\u{200f}'
        | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{fe00}'..='\u{fe0f}' | '\u{feff}'
        | '\u{fff9}'..='\u{fffb}' | '\u{e0000}'..='\u{e0fff}')
}
