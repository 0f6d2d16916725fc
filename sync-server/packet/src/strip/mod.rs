//! The steps on paper: a PDF in narrow columns with boxes, for places where no phone may go.
//!
//! A strip is not evidence: it holds no entries and nothing verifies it. What is written on it is entered afterwards,
//! each thing with the time it was done. The content is in `content`, the pieces in `pieces`, and the columns in
//! `layout`; the phone prints the same content from `farsiding_core::procedure`.

mod content;
mod layout;
mod pieces;

use farsiding_core::clock::UtcMillis;
use farsiding_core::ids::Digest;
use farsiding_words::{Language, Words};

use crate::PacketError;
use crate::ink::{Drawn, Running, draw_all};
use crate::marks::Paper;
use crate::typeface::Typefaces;

pub use content::Strip;

/// Draws a strip as a PDF. The paper is that of the site's time zone; `at` becomes the date of the file.
///
/// # Errors
/// Returns [`PacketError::Layout`] when the pages cannot be drawn.
pub fn pdf(strip: &Strip, language: Language, zone: &str, at: UtcMillis) -> Result<Vec<u8>, PacketError> {
    let faces = Typefaces::load()?;
    let words = Words::of(language);
    let set = layout::lay_out(&faces, Paper::of_zone(zone), words, strip);
    let title = words.say("phone-strip-title");
    let running = Running {
        title: if strip.car.is_empty() { title } else { format!("{title} \u{b7} {}", strip.car) },
        subject: words.say("phone-strip-aid"),
        author: strip.site.clone(),
        document: format!("strip {}", Digest::of(set.text().as_bytes())),
        at,
        language,
        producer: "farsiding steps on paper".to_owned(),
    };
    match draw_all(&faces, &running, &set, (&[], &[]), Vec::new())? {
        Drawn::File(file) => Ok(file),
        Drawn::Without(_) => Err(PacketError::Layout("a strip has no pictures".to_owned())),
    }
}
