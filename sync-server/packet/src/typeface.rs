//! The packet's typefaces: the glyph and the width of each character, and the replacement for characters that
//! no typeface here can show.
//!
//! The typefaces are Atkinson Hyperlegible, as on the phones, and DejaVu Sans for the characters it lacks. A
//! character that neither font has, that needs shaping or right-to-left setting, or that is invisible is
//! written as `\u{…}`. Nothing typed is lost, and nothing is hidden. Lines and pages are laid out in `sheet`.

use std::collections::BTreeMap;

use krilla::text::{Font, GlyphId, KrillaGlyph};
use skrifa::instance::{LocationRef, Size};
use skrifa::{FontRef, MetadataProvider as _};

use super::PacketError;

/// The blank at which no line is broken.
pub const NO_BREAK: char = '\u{a0}';

static REGULAR: &[u8] = include_bytes!("../assets/fonts/AtkinsonHyperlegible-Regular.ttf");
static BOLD: &[u8] = include_bytes!("../assets/fonts/AtkinsonHyperlegible-Bold.ttf");
static FALLBACK: &[u8] = include_bytes!("../assets/fonts/DejaVuSans.ttf");

/// The style of text.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Face {
    /// Ordinary text.
    Plain,
    /// Bold text for headings, names of fields, and what must not be overlooked.
    Strong,
}

/// A run of text in one font, ready to be drawn.
pub struct Stretch {
    /// The font.
    pub font: Font,
    /// The glyphs.
    pub glyphs: Vec<KrillaGlyph>,
    /// The text of the run.
    pub text: String,
    /// The width at size 1.
    pub width: f32,
}

struct Loaded {
    font: Font,
    glyphs: BTreeMap<char, (u32, f32)>,
}

impl Loaded {
    fn read(bytes: &'static [u8]) -> Result<Loaded, PacketError> {
        let broken = || PacketError::Layout("a built-in font cannot be read".to_owned());
        let font = Font::new(bytes.into(), 0).ok_or_else(broken)?;
        let face = FontRef::new(bytes).map_err(|_| broken())?;
        let metrics = face.glyph_metrics(Size::unscaled(), LocationRef::default());
        let units = font.units_per_em();
        let glyphs = face
            .charmap()
            .mappings()
            .filter_map(|(code, glyph)| {
                let width = metrics.advance_width(glyph)? / units;
                Some((char::from_u32(code)?, (glyph.to_u32(), width)))
            })
            .collect();
        Ok(Loaded { font, glyphs })
    }
}

/// The loaded typefaces.
pub struct Typefaces {
    plain: Loaded,
    strong: Loaded,
    fallback: Loaded,
}

/// Returns whether a character must be escaped even if the fonts have it: it is invisible, changes the order
/// of other characters, or belongs to a script that needs joined letters or right-to-left setting.
fn hides_or_needs_shaping(c: char) -> bool {
    c.is_control()
        || matches!(c,
            '\u{ad}' | '\u{34f}' | '\u{590}'..='\u{10ff}' | '\u{1780}'..='\u{18af}' | '\u{200b}'..='\u{200f}'
            | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{fb1d}'..='\u{fe0f}'
            | '\u{fe70}'..='\u{feff}' | '\u{fff0}'..='\u{ffff}')
        || (c as u32) > 0xffff
}

impl Typefaces {
    /// Loads the built-in fonts.
    ///
    /// # Errors
    /// Returns [`PacketError::Layout`] when a font cannot be parsed.
    pub fn load() -> Result<Typefaces, PacketError> {
        Ok(Typefaces {
            plain: Loaded::read(REGULAR)?,
            strong: Loaded::read(BOLD)?,
            fallback: Loaded::read(FALLBACK)?,
        })
    }

    fn face(&self, face: Face) -> &Loaded {
        match face {
            Face::Plain => &self.plain,
            Face::Strong => &self.strong,
        }
    }

    /// Returns the text with unshowable characters written as `\u{…}`, and with blanks of any kind as plain
    /// ones.
    pub fn showable(&self, text: &str) -> String {
        self.unbroken(text).replace(NO_BREAK, " ")
    }

    /// Does the same and keeps blanks at which no line may be broken, such as that within a number, until the
    /// text is broken into lines.
    pub fn unbroken(&self, text: &str) -> String {
        let mut shown = String::with_capacity(text.len());
        for c in text.chars() {
            if matches!(c, NO_BREAK | '\u{202f}') {
                shown.push(NO_BREAK);
            } else if matches!(c, ' ' | '\n' | '\t' | '\u{2009}') {
                shown.push(if c == '\n' { '\n' } else { ' ' });
            } else if hides_or_needs_shaping(c)
                || !(self.plain.glyphs.contains_key(&c) || self.fallback.glyphs.contains_key(&c))
            {
                shown.extend(c.escape_unicode());
            } else {
                shown.push(c);
            }
        }
        shown
    }

    fn glyph(&self, face: Face, c: char) -> (bool, u32, f32) {
        let c = if c == NO_BREAK { ' ' } else { c };
        if let Some((glyph, width)) = self.face(face).glyphs.get(&c) {
            return (false, *glyph, *width);
        }
        self.fallback.glyphs.get(&c).map_or((true, 0, 0.6), |(glyph, width)| (true, *glyph, *width))
    }

    /// Returns the width of showable text at size 1.
    pub fn width(&self, face: Face, text: &str) -> f32 {
        text.chars().map(|c| self.glyph(face, c).2).sum()
    }

    /// Returns showable text as runs of one font each.
    pub fn stretches(&self, face: Face, text: &str) -> Vec<Stretch> {
        let mut stretches: Vec<(bool, Stretch)> = Vec::new();
        for c in text.chars() {
            let (fallback, glyph, width) = self.glyph(face, c);
            if stretches.last().is_none_or(|(last, _)| *last != fallback) {
                let font = if fallback { &self.fallback } else { self.face(face) }.font.clone();
                stretches
                    .push((fallback, Stretch { font, glyphs: Vec::new(), text: String::new(), width: 0.0 }));
            }
            if let Some((_, stretch)) = stretches.last_mut() {
                let start = stretch.text.len();
                stretch.text.push(c);
                stretch.width += width;
                stretch.glyphs.push(KrillaGlyph::new(
                    GlyphId::new(glyph),
                    width,
                    0.0,
                    0.0,
                    0.0,
                    start..stretch.text.len(),
                    None,
                ));
            }
        }
        stretches.into_iter().map(|(_, stretch)| stretch).collect()
    }

    /// Breaks showable text into lines no wider than `width` at size 1. A word that is wider is broken
    /// inside.
    pub fn lines(&self, face: Face, text: &str, width: f32) -> Vec<String> {
        let mut lines = Vec::new();
        for paragraph in text.split('\n') {
            let (mut line, mut wide) = (String::new(), 0.0);
            for word in paragraph.split(' ') {
                let word_width = self.width(face, word);
                let blank = if line.is_empty() { 0.0 } else { self.glyph(face, ' ').2 };
                if !line.is_empty() && wide + blank + word_width > width {
                    lines.push(std::mem::take(&mut line));
                    wide = 0.0;
                } else if !line.is_empty() {
                    line.push(' ');
                    wide += blank;
                }
                if word_width <= width {
                    line.push_str(word);
                    wide += word_width;
                    continue;
                }
                for c in word.chars() {
                    let next = self.glyph(face, c).2;
                    if wide + next > width && !line.is_empty() {
                        lines.push(std::mem::take(&mut line));
                        wide = 0.0;
                    }
                    line.push(c);
                    wide += next;
                }
            }
            lines.push(line);
        }
        // On the page a blank is a blank.
        lines.iter().map(|line| line.replace(NO_BREAK, " ")).collect()
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;

    #[test]
    fn what_no_font_can_show_is_written_out_and_what_hides_is_made_visible() {
        let faces = Typefaces::load().unwrap();
        assert_eq!(faces.showable("12 °F ± ½, Łódź, Жук, →"), "12 °F ± ½, Łódź, Жук, →");
        let spanish_and_french =
            "¿Señal? ¡Ñandú! áéíóúü ÁÉÍÓÚ àâçèêëîïôùûÿæœ ÀÂÇÈÊËÎÏÔÙÛŸÆŒ « » “ ” ’ – — ± ° º";
        assert_eq!(faces.showable(spanish_and_french), spanish_and_french);
        assert_eq!(faces.showable("12\u{a0}500,5"), "12 500,5", "a no-break blank is a blank on the page");
        assert_eq!(faces.showable("a\u{202e}b\u{200b}c\u{7}"), "a\\u{202e}b\\u{200b}c\\u{7}");
        assert_eq!(faces.showable("雪 😀 \u{5d0}"), "\\u{96ea} \\u{1f600} \\u{5d0}");
    }

    #[test]
    fn no_line_is_broken_within_a_number() {
        let faces = Typefaces::load().unwrap();
        let text = faces.unbroken("factur\u{e9} 30\u{a0}120 gal");
        let width = faces.width(Face::Plain, "factur\u{e9} 30 12");
        assert_eq!(faces.lines(Face::Plain, &text, width), ["factur\u{e9}", "30 120 gal"]);
    }

    #[test]
    fn no_line_is_too_wide_and_no_character_is_lost() {
        let faces = Typefaces::load().unwrap();
        let text = "Shut, listened, nothing heard; aVeryLongWordThatDoesNotFitAnywhere \u{416} and on";
        let lines = faces.lines(Face::Plain, text, 8.0);
        assert!(lines.iter().all(|line| faces.width(Face::Plain, line) <= 8.0), "{lines:?}");
        let letters = |text: &str| text.chars().filter(|c| *c != ' ').collect::<String>();
        assert_eq!(letters(&lines.concat()), letters(text));
    }
}
