//! What stands on a page: lines of text, straight lines, circles, pictures, and the pen that drawings are made with.
//!
//! In points from the top left corner. Placed by `sheet` and `figures`, drawn by `ink`.

use super::typeface::{Face, Typefaces};

/// Width of the text, points, on every paper.
pub const MEASURE: f32 = 487.28;

/// What the pages are made for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Paper {
    /// ISO 216: 210 by 297 mm.
    A4,
    /// ANSI/ASME Y14.1: 8.5 by 11 inches.
    Letter,
}

impl Paper {
    /// Letter where the site's zone is one of America's, A4 elsewhere.
    pub fn of_zone(zone: &str) -> Paper {
        if zone.starts_with("America/") || zone.starts_with("US/") || zone.starts_with("Canada/") {
            Paper::Letter
        } else {
            Paper::A4
        }
    }
    /// Width, points.
    pub const fn width(self) -> f32 {
        match self {
            Paper::A4 => 595.28,
            Paper::Letter => 612.0,
        }
    }
    /// Height, points.
    pub const fn height(self) -> f32 {
        match self {
            Paper::A4 => 841.89,
            Paper::Letter => 792.0,
        }
    }
    /// Left edge of the text.
    pub const fn left(self) -> f32 {
        (self.width() - MEASURE) / 2.0
    }
}

/// How a line is drawn: its width in points, its grey (0 black, 255 white), its dashes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ruled {
    /// Width, points.
    pub width: f32,
    /// 0 is black.
    pub grey: u8,
    /// Lengths of dash and gap, points; 0 for a whole line.
    pub dash: f32,
}

impl Ruled {
    /// Returns a whole black line.
    pub const fn black(width: f32) -> Ruled {
        Ruled { width, grey: 0, dash: 0.0 }
    }
    /// Returns a whole grey line.
    pub const fn grey(width: f32, grey: u8) -> Ruled {
        Ruled { width, grey, dash: 0.0 }
    }
}

/// One thing to draw, in points from the top left corner.
#[derive(Clone, Debug, PartialEq)]
pub enum Mark {
    /// A line of showable text, its baseline at `y`.
    Text {
        /// Left end.
        x: f32,
        /// Baseline.
        y: f32,
        /// Size, points.
        size: f32,
        /// Typeface.
        face: Face,
        /// The text.
        text: String,
    },
    /// Straight lines through points.
    Lines {
        /// The points.
        points: Vec<(f32, f32)>,
        /// Whether the last is joined to the first.
        closed: bool,
        /// Grey to fill with.
        fill: Option<u8>,
        /// Line to draw with.
        line: Option<Ruled>,
    },
    /// A circle.
    Circle {
        /// Middle.
        at: (f32, f32),
        /// Radius.
        radius: f32,
        /// Grey to fill with.
        fill: Option<u8>,
        /// Line to draw with.
        line: Option<Ruled>,
    },
    /// A picture by its number in the packet.
    Picture {
        /// Which.
        picture: usize,
        /// Left, top, width, height.
        frame: (f32, f32, f32, f32),
    },
}

/// A place in the document's outline.
#[derive(Clone, Debug, PartialEq)]
pub struct Landmark {
    /// Its title.
    pub title: String,
    /// Its page, from 0.
    pub page: usize,
    /// Its height on the page.
    pub y: f32,
}

/// A mark, and the node of the document's structure it belongs to; nothing for what only adorns a page.
#[derive(Clone, Debug, PartialEq)]
pub struct Placed {
    /// The mark.
    pub mark: Mark,
    /// The node.
    pub node: Option<usize>,
}

/// Where a figure is drawn: coordinates from its own top left corner.
pub struct Pen<'s> {
    faces: &'s Typefaces,
    marks: Vec<Mark>,
    origin: (f32, f32),
}

impl<'s> Pen<'s> {
    /// Returns a pen whose origin stands at a point of the page.
    pub fn at_point(faces: &'s Typefaces, origin: (f32, f32)) -> Pen<'s> {
        Pen { faces, marks: Vec::new(), origin }
    }
    /// Returns what was drawn.
    pub fn into_marks(self) -> Vec<Mark> {
        self.marks
    }
}

#[cfg(test)]
impl<'s> Pen<'s> {
    /// Returns a pen without a page, for looking at what a drawing is made of.
    pub fn new(faces: &'s Typefaces) -> Pen<'s> {
        Pen::at_point(faces, (0.0, 0.0))
    }
}

impl Pen<'_> {
    fn at(&self, (x, y): (f32, f32)) -> (f32, f32) {
        (self.origin.0 + x, self.origin.1 + y)
    }
    /// A line through points.
    pub fn line(&mut self, points: &[(f32, f32)], line: Ruled) {
        let points = points.iter().map(|p| self.at(*p)).collect();
        self.marks.push(Mark::Lines { points, closed: false, fill: None, line: Some(line) });
    }
    /// A closed shape.
    pub fn shape(&mut self, points: &[(f32, f32)], fill: Option<u8>, line: Option<Ruled>) {
        let points = points.iter().map(|p| self.at(*p)).collect();
        self.marks.push(Mark::Lines { points, closed: true, fill, line });
    }
    /// A circle.
    pub fn circle(&mut self, at: (f32, f32), radius: f32, fill: Option<u8>, line: Option<Ruled>) {
        let at = self.at(at);
        self.marks.push(Mark::Circle { at, radius, fill, line });
    }
    /// Text beginning at a point, its baseline there.
    pub fn text(&mut self, at: (f32, f32), size: f32, face: Face, text: &str) {
        let (x, y) = self.at(at);
        let text = self.faces.showable(text);
        self.marks.push(Mark::Text { x, y, size, face, text });
    }
    /// Text with its middle at a point.
    pub fn centred(&mut self, at: (f32, f32), size: f32, face: Face, text: &str) {
        let width = self.faces.width(face, &self.faces.showable(text)) * size;
        self.text((at.0 - width / 2.0, at.1), size, face, text);
    }
    /// Text ending at a point.
    pub fn ending(&mut self, at: (f32, f32), size: f32, face: Face, text: &str) {
        let width = self.faces.width(face, &self.faces.showable(text)) * size;
        self.text((at.0 - width, at.1), size, face, text);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_paper_is_that_of_the_sites_zone_and_the_text_fits_either() {
        assert_eq!(Paper::of_zone("America/Chicago"), Paper::Letter);
        for zone in ["Europe/Oslo", "Etc/GMT+6", "", "Americana"] {
            assert_eq!(Paper::of_zone(zone), Paper::A4, "{zone}");
        }
        for paper in [Paper::A4, Paper::Letter] {
            assert!(paper.left() >= 54.0 && paper.left() + MEASURE <= paper.width() - 53.9);
        }
    }
}
