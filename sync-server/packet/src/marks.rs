//! The marks on a page (lines of text, straight lines, circles and pictures) and the pen for making drawings.
//!
//! Positions are in points from the top left corner. The marks are placed by `sheet` and `figures`, and drawn
//! by `ink`.

use super::typeface::{Face, Typefaces};

/// The width of the text on every paper, in points.
pub const MEASURE: f32 = 487.28;

/// The paper size.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Paper {
    /// ISO 216 A4: 210 by 297 mm.
    A4,
    /// ANSI/ASME Y14.1 letter: 8.5 by 11 inches.
    Letter,
}

impl Paper {
    /// Returns the letter size if the site's time zone is one of America's, and A4 elsewhere.
    pub fn of_zone(zone: &str) -> Paper {
        if zone.starts_with("America/") || zone.starts_with("US/") || zone.starts_with("Canada/") {
            Paper::Letter
        } else {
            Paper::A4
        }
    }
    /// Returns the width, in points.
    pub const fn width(self) -> f32 {
        match self {
            Paper::A4 => 595.28,
            Paper::Letter => 612.0,
        }
    }
    /// Returns the height, in points.
    pub const fn height(self) -> f32 {
        match self {
            Paper::A4 => 841.89,
            Paper::Letter => 792.0,
        }
    }
    /// Returns the left edge of the text, in points.
    pub const fn left(self) -> f32 {
        (self.width() - MEASURE) / 2.0
    }
}

/// The style of a line: width, grey and dashes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ruled {
    /// The width, in points.
    pub width: f32,
    /// The grey, from 0 (black) to 255 (white).
    pub grey: u8,
    /// The length of dashes and gaps in points, or 0 for a solid line.
    pub dash: f32,
}

impl Ruled {
    /// Returns a solid black line.
    pub const fn black(width: f32) -> Ruled {
        Ruled { width, grey: 0, dash: 0.0 }
    }
    /// Returns a solid grey line.
    pub const fn grey(width: f32, grey: u8) -> Ruled {
        Ruled { width, grey, dash: 0.0 }
    }
}

/// A mark, in points from the top left corner.
#[derive(Clone, Debug, PartialEq)]
pub enum Mark {
    /// A line of showable text, whose baseline is at `y`.
    Text {
        /// The left end.
        x: f32,
        /// The baseline.
        y: f32,
        /// The size, in points.
        size: f32,
        /// The typeface.
        face: Face,
        /// The text.
        text: String,
    },
    /// Straight lines through several points.
    Lines {
        /// The points.
        points: Vec<(f32, f32)>,
        /// Whether the last point is connected to the first.
        closed: bool,
        /// The grey of the filling, if any.
        fill: Option<u8>,
        /// The style of the line, if any.
        line: Option<Ruled>,
    },
    /// A circle.
    Circle {
        /// The centre.
        at: (f32, f32),
        /// The radius.
        radius: f32,
        /// The grey of the filling, if any.
        fill: Option<u8>,
        /// The style of the line, if any.
        line: Option<Ruled>,
    },
    /// A picture, by its number in the packet.
    Picture {
        /// The number of the picture.
        picture: usize,
        /// The left edge, the top edge, the width and the height.
        frame: (f32, f32, f32, f32),
    },
}

/// A place in the document's outline.
#[derive(Clone, Debug, PartialEq)]
pub struct Landmark {
    /// The title.
    pub title: String,
    /// The page, counted from 0.
    pub page: usize,
    /// The vertical position on the page.
    pub y: f32,
}

/// A mark with its node of the document's structure.
#[derive(Clone, Debug, PartialEq)]
pub struct Placed {
    /// The mark.
    pub mark: Mark,
    /// The node; `None` for decoration.
    pub node: Option<usize>,
}

/// A pen for drawing a figure, with coordinates from the figure's own top left corner.
pub struct Pen<'s> {
    faces: &'s Typefaces,
    marks: Vec<Mark>,
    origin: (f32, f32),
}

impl<'s> Pen<'s> {
    /// Returns a pen whose origin is at a point of the page.
    pub fn at_point(faces: &'s Typefaces, origin: (f32, f32)) -> Pen<'s> {
        Pen { faces, marks: Vec::new(), origin }
    }
    /// Returns the marks that were drawn.
    pub fn into_marks(self) -> Vec<Mark> {
        self.marks
    }
}

#[cfg(test)]
impl<'s> Pen<'s> {
    /// Returns a pen without a page, for inspecting the marks of a drawing.
    pub fn new(faces: &'s Typefaces) -> Pen<'s> {
        Pen::at_point(faces, (0.0, 0.0))
    }
}

impl Pen<'_> {
    fn at(&self, (x, y): (f32, f32)) -> (f32, f32) {
        (self.origin.0 + x, self.origin.1 + y)
    }
    /// Draws a line through points.
    pub fn line(&mut self, points: &[(f32, f32)], line: Ruled) {
        let points = points.iter().map(|p| self.at(*p)).collect();
        self.marks.push(Mark::Lines { points, closed: false, fill: None, line: Some(line) });
    }
    /// Draws a closed shape.
    pub fn shape(&mut self, points: &[(f32, f32)], fill: Option<u8>, line: Option<Ruled>) {
        let points = points.iter().map(|p| self.at(*p)).collect();
        self.marks.push(Mark::Lines { points, closed: true, fill, line });
    }
    /// Draws a circle.
    pub fn circle(&mut self, at: (f32, f32), radius: f32, fill: Option<u8>, line: Option<Ruled>) {
        let at = self.at(at);
        self.marks.push(Mark::Circle { at, radius, fill, line });
    }
    /// Draws text that begins at a point on the baseline.
    pub fn text(&mut self, at: (f32, f32), size: f32, face: Face, text: &str) {
        let (x, y) = self.at(at);
        let text = self.faces.showable(text);
        self.marks.push(Mark::Text { x, y, size, face, text });
    }
    /// Draws text that is centred on a point of the baseline.
    pub fn centred(&mut self, at: (f32, f32), size: f32, face: Face, text: &str) {
        let width = self.faces.width(face, &self.faces.showable(text)) * size;
        self.text((at.0 - width / 2.0, at.1), size, face, text);
    }
    /// Draws text that ends at a point on the baseline.
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
