//! Names people give: what one may be, and when two are one.

/// A device's name, trimmed; nothing when it is empty, too long or not one line, or holds what nobody can see.
pub fn clean_name(name: &str) -> Option<String> {
    let name = name.trim();
    let unseen = |c: char| c.is_control() || is_unseen(c);
    let fits = !plain_name(name).is_empty() && name.chars().count() <= 64 && !name.chars().any(unseen);
    fits.then(|| name.to_owned())
}

/// A name as it is compared: letters without their case, any run of blanks as one, nothing that cannot be
/// seen. Two names that people cannot tell apart are one.
pub fn plain_name(name: &str) -> String {
    let seen = name.chars().map(|c| if is_blank(c) { ' ' } else { c }).filter(|c| !is_unseen(*c));
    let text: String = seen.flat_map(char::to_lowercase).collect();
    text.split(' ').filter(|word| !word.is_empty()).collect::<Vec<_>>().join(" ")
}

/// Blanks of every kind, also those Unicode counts as letters or symbols: Hangul fillers, the empty Braille cell.
fn is_blank(c: char) -> bool {
    c.is_whitespace() || matches!(c, '\u{115f}' | '\u{1160}' | '\u{3164}' | '\u{ffa0}' | '\u{2800}')
}

/// Characters that draw nothing and take no room: soft hyphen, joiners, direction marks, variation selectors, tags.
pub fn is_unseen(c: char) -> bool {
    matches!(c,
        '\u{ad}' | '\u{34f}' | '\u{61c}' | '\u{180b}'..='\u{180f}' | '\u{200b}'..='\u{200f}'
        | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{fe00}'..='\u{fe0f}' | '\u{feff}'
        | '\u{fff9}'..='\u{fffb}' | '\u{e0000}'..='\u{e0fff}')
}
