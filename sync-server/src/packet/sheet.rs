//! Flowing text, tables and figures over A4 pages.
//!
//! Everything is placed here as marks on pages; only then is "page n of m" known and the marks are drawn
//! (`ink`). Black and greys only: a packet is read as a photocopy. Does not live here: what is said
//! (`pages`), the drawings themselves (`figures`).

use super::typeface::{Face, Typefaces};

/// A picture by its number in the file, and its width and height in pixels.
type Placed = (usize, (u32, u32));

/// Page width, points (A4).
pub const WIDTH: f32 = 595.28;
/// Page height, points (A4).
pub const HEIGHT: f32 = 841.89;
/// Left edge of the text.
pub const LEFT: f32 = 54.0;
/// Width of the text.
pub const MEASURE: f32 = WIDTH - 2.0 * LEFT;
const TOP: f32 = 64.0;
const BOTTOM: f32 = HEIGHT - 60.0;
const BODY: f32 = 9.5;
const SMALL: f32 = 8.0;

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
    /// A whole black line.
    pub const fn black(width: f32) -> Ruled {
        Ruled { width, grey: 0, dash: 0.0 }
    }
    /// A whole grey line.
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

/// One cell of a table.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Cell {
    text: String,
    strong: bool,
}

impl Cell {
    /// A cell that must not be overlooked.
    pub fn strong(text: impl Into<String>) -> Cell {
        Cell { text: text.into(), strong: true }
    }
}

impl<T: Into<String>> From<T> for Cell {
    fn from(text: T) -> Cell {
        Cell { text: text.into(), strong: false }
    }
}

/// Where a figure is drawn: coordinates from its own top left corner.
pub struct Pen<'s> {
    faces: &'s Typefaces,
    marks: Vec<Mark>,
    origin: (f32, f32),
}

#[cfg(test)]
impl<'s> Pen<'s> {
    /// A pen without a page, for looking at what a drawing is made of.
    pub fn new(faces: &'s Typefaces) -> Pen<'s> {
        Pen { faces, marks: Vec::new(), origin: (0.0, 0.0) }
    }
    /// What was drawn.
    pub fn into_marks(self) -> Vec<Mark> {
        self.marks
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

/// Pages being filled from the top.
pub struct Sheet<'f> {
    /// The typefaces.
    pub faces: &'f Typefaces,
    pages: Vec<Vec<Mark>>,
    landmarks: Vec<Landmark>,
    y: f32,
}

impl<'f> Sheet<'f> {
    /// An empty first page.
    pub fn new(faces: &'f Typefaces) -> Sheet<'f> {
        Sheet { faces, pages: vec![Vec::new()], landmarks: Vec::new(), y: TOP }
    }

    /// The filled pages and their outline.
    pub fn finish(self) -> (Vec<Vec<Mark>>, Vec<Landmark>) {
        (self.pages, self.landmarks)
    }

    fn mark(&mut self, mark: Mark) {
        if let Some(page) = self.pages.last_mut() {
            page.push(mark);
        }
    }

    fn turn(&mut self) {
        self.pages.push(Vec::new());
        self.y = TOP;
    }

    /// Begins a new page unless this much height is left.
    pub fn keep_together(&mut self, height: f32) {
        if self.y + height > BOTTOM && self.y > TOP {
            self.turn();
        }
    }

    /// Empty height.
    pub fn gap(&mut self, height: f32) {
        if self.y > TOP {
            self.y += height;
        }
    }

    fn rule(&mut self, from: f32, to: f32, y: f32, line: Ruled) {
        self.mark(Mark::Lines {
            points: vec![(from, y), (to, y)],
            closed: false,
            fill: None,
            line: Some(line),
        });
    }

    /// The document's title.
    pub fn title(&mut self, kind: &str, title: &str) {
        self.block(kind, Face::Plain, 10.0, 0.0);
        self.gap(2.0);
        self.block(title, Face::Strong, 21.0, 0.0);
        self.gap(4.0);
    }

    /// A section, numbered by its caller, with a place in the outline.
    pub fn heading(&mut self, title: &str) {
        self.gap(14.0);
        self.keep_together(70.0);
        let (page, y) = (self.pages.len() - 1, self.y);
        self.landmarks.push(Landmark { title: title.to_owned(), page, y });
        self.block(title, Face::Strong, 13.0, 0.0);
        self.rule(LEFT, LEFT + MEASURE, self.y - 1.0, Ruled::black(0.8));
        self.y += 6.0;
    }

    /// A heading within a section.
    pub fn subheading(&mut self, title: &str) {
        self.gap(6.0);
        self.keep_together(44.0);
        self.block(title, Face::Strong, 10.5, 0.0);
        self.gap(2.0);
    }

    /// A paragraph.
    pub fn paragraph(&mut self, text: &str) {
        self.block(text, Face::Plain, BODY, 0.0);
        self.gap(3.0);
    }

    /// A paragraph that must not be overlooked.
    pub fn strong(&mut self, text: &str) {
        self.block(text, Face::Strong, BODY, 0.0);
        self.gap(3.0);
    }

    /// A paragraph in small type.
    pub fn small(&mut self, text: &str) {
        self.block(text, Face::Plain, SMALL, 0.0);
        self.gap(3.0);
    }

    /// One item of a list.
    pub fn item(&mut self, text: &str) {
        self.keep_together(BODY * 1.35);
        let y = self.y + BODY;
        self.mark(Mark::Text {
            x: LEFT + 2.0,
            y,
            size: BODY,
            face: Face::Plain,
            text: "\u{2013}".to_owned(),
        });
        self.block(text, Face::Plain, BODY, 12.0);
        self.gap(1.5);
    }

    fn block(&mut self, text: &str, face: Face, size: f32, indent: f32) {
        let shown = self.faces.showable(text);
        let leading = size * 1.32;
        for line in self.faces.lines(face, &shown, (MEASURE - indent) / size) {
            self.keep_together(leading);
            self.mark(Mark::Text { x: LEFT + indent, y: self.y + size, size, face, text: line });
            self.y += leading;
        }
    }

    /// Paragraphs in a frame, kept on one page.
    pub fn framed(&mut self, title: &str, paragraphs: &[&str]) {
        const INSET: f32 = 9.0;
        let leading = BODY * 1.32;
        let width = (MEASURE - 2.0 * INSET) / BODY;
        let lines: Vec<Vec<String>> = paragraphs
            .iter()
            .map(|text| self.faces.lines(Face::Plain, &self.faces.showable(text), width))
            .collect();
        let count: usize = lines.iter().map(Vec::len).sum();
        let height = 2.0 * INSET + 15.0 + count as f32 * leading + paragraphs.len() as f32 * 3.0;
        self.keep_together(height + 4.0);
        let (top, left) = (self.y, LEFT);
        let corners =
            vec![(left, top), (left + MEASURE, top), (left + MEASURE, top + height), (left, top + height)];
        self.mark(Mark::Lines { points: corners, closed: true, fill: None, line: Some(Ruled::black(1.4)) });
        let x = LEFT + INSET;
        let mut y = top + INSET + BODY;
        let title = self.faces.showable(title);
        self.mark(Mark::Text { x, y, size: 10.5, face: Face::Strong, text: title });
        y += 15.0;
        for paragraph in lines {
            for line in paragraph {
                self.mark(Mark::Text { x, y, size: BODY, face: Face::Plain, text: line });
                y += leading;
            }
            y += 3.0;
        }
        self.y = top + height + 8.0;
    }

    /// Names and what stands beside them.
    pub fn facts(&mut self, rows: &[(&str, String)]) {
        let rows = rows.iter().map(|(name, value)| vec![Cell::strong(*name), value.into()]).collect();
        self.table(&[("", 22.0), ("", 78.0)], rows);
    }

    /// A table. Column widths are shares; the head is repeated on every page it runs on to, and a row
    /// longer than a page goes on.
    pub fn table(&mut self, columns: &[(&str, f32)], rows: Vec<Vec<Cell>>) {
        const SIZE: f32 = 8.6;
        const LEADING: f32 = SIZE * 1.28;
        const INSET: f32 = 3.0;
        let total: f32 = columns.iter().map(|column| column.1).sum();
        let widths: Vec<f32> = columns.iter().map(|column| column.1 / total * MEASURE).collect();
        let headed = columns.iter().any(|column| !column.0.is_empty());
        // The head never stands alone: the first row, as far as it is kept whole, goes with it.
        let first = rows.first().map_or(1, |row| {
            let lines = row.iter().zip(&widths).map(|(cell, width)| {
                let face = if cell.strong { Face::Strong } else { Face::Plain };
                self.faces.lines(face, &self.faces.showable(&cell.text), (width - 2.0 * INSET) / SIZE).len()
            });
            lines.max().unwrap_or(1).min(7)
        });
        self.keep_together(first as f32 * LEADING + if headed { 22.0 } else { 8.0 });
        self.rule(LEFT, LEFT + MEASURE, self.y, Ruled::black(0.8));
        if headed {
            self.table_head(columns, &widths);
        }
        for row in rows {
            let mut cells: Vec<(Face, std::collections::VecDeque<String>)> = row
                .iter()
                .zip(&widths)
                .map(|(cell, width)| {
                    let face = if cell.strong { Face::Strong } else { Face::Plain };
                    let shown = self.faces.showable(&cell.text);
                    (face, self.faces.lines(face, &shown, (width - 2.0 * INSET) / SIZE).into())
                })
                .collect();
            let tall = cells.iter().map(|cell| cell.1.len()).max().unwrap_or(0);
            let whole = tall as f32 * LEADING + 5.0;
            // A short row is kept whole; a long one is broken rather than leaving a page half empty.
            if self.y + whole > BOTTOM && (tall <= 6 || self.y + 3.0 * LEADING > BOTTOM) {
                self.turn();
                if headed {
                    self.table_head(columns, &widths);
                }
            }
            self.y += 2.0;
            while cells.iter().any(|cell| !cell.1.is_empty()) {
                if self.y + LEADING > BOTTOM {
                    self.turn();
                    if headed {
                        self.table_head(columns, &widths);
                    }
                    self.y += 2.0;
                }
                let mut x = LEFT;
                for ((face, lines), width) in cells.iter_mut().zip(&widths) {
                    if let Some(text) = lines.pop_front()
                        && !text.is_empty()
                    {
                        let (y, face) = (self.y + SIZE, *face);
                        self.mark(Mark::Text { x: x + INSET, y, size: SIZE, face, text });
                    }
                    x += width;
                }
                self.y += LEADING;
            }
            self.y += 2.0;
            self.rule(LEFT, LEFT + MEASURE, self.y, Ruled::grey(0.4, 150));
            self.y += 1.0;
        }
        self.y += 5.0;
    }

    fn table_head(&mut self, columns: &[(&str, f32)], widths: &[f32]) {
        const SIZE: f32 = 8.2;
        let (mut x, top) = (LEFT, self.y);
        let corners = vec![
            (LEFT, top),
            (LEFT + MEASURE, top),
            (LEFT + MEASURE, top + SIZE * 1.6 + 1.0),
            (LEFT, top + SIZE * 1.6 + 1.0),
        ];
        self.mark(Mark::Lines { points: corners, closed: true, fill: Some(228), line: None });
        for ((title, _), width) in columns.iter().zip(widths) {
            let (y, text) = (top + SIZE + 2.0, (*title).to_owned());
            self.mark(Mark::Text { x: x + 3.0, y, size: SIZE, face: Face::Strong, text });
            x += width;
        }
        self.y = top + SIZE * 1.6 + 1.0;
        self.rule(LEFT, LEFT + MEASURE, self.y, Ruled::black(0.6));
        self.y += 1.0;
    }

    /// A drawing of a given height, as wide as the text, with a caption beneath.
    pub fn figure(&mut self, height: f32, caption: &str, draw: impl FnOnce(&mut Pen<'_>)) {
        self.keep_together(height + 26.0);
        let mut pen = Pen { faces: self.faces, marks: Vec::new(), origin: (LEFT, self.y) };
        draw(&mut pen);
        let marks = pen.marks;
        for mark in marks {
            self.mark(mark);
        }
        self.y += height + 3.0;
        if !caption.is_empty() {
            self.small(caption);
        }
        self.gap(4.0);
    }

    /// Two pictures at most side by side, each with its caption; `size` of a picture is in its own pixels.
    pub fn pictures(&mut self, pair: &[(Option<Placed>, String)]) {
        const TALL: f32 = 210.0;
        const BETWEEN: f32 = 14.0;
        let width = (MEASURE - BETWEEN) / 2.0;
        let captions: Vec<Vec<String>> = pair
            .iter()
            .map(|(_, text)| self.faces.lines(Face::Plain, &self.faces.showable(text), width / SMALL))
            .collect();
        let sizes: Vec<(f32, f32)> = pair
            .iter()
            .map(|(picture, _)| match picture {
                Some((_, (w, h))) => {
                    let (w, h) = (*w as f32, *h as f32);
                    let scale = (width / w).min(TALL / h);
                    (w * scale, h * scale)
                }
                None => (width, 40.0),
            })
            .collect();
        let tall = sizes.iter().map(|size| size.1).fold(0.0, f32::max);
        let lines = captions.iter().map(Vec::len).max().unwrap_or(0);
        let height = tall + 6.0 + lines as f32 * SMALL * 1.28 + 8.0;
        self.keep_together(height);
        for (at, ((picture, _), (wide, high))) in pair.iter().zip(&sizes).enumerate() {
            let x = LEFT + at as f32 * (width + BETWEEN);
            let top = self.y + tall - high;
            if let Some((picture, _)) = picture {
                self.mark(Mark::Picture { picture: *picture, frame: (x, top, *wide, *high) });
            }
            let corners = vec![(x, top), (x + wide, top), (x + wide, top + high), (x, top + high)];
            self.mark(Mark::Lines {
                points: corners,
                closed: true,
                fill: None,
                line: Some(Ruled::grey(0.6, 90)),
            });
            if picture.is_none() {
                let text = "not shown here, see the caption".to_owned();
                self.mark(Mark::Text { x: x + 8.0, y: top + 24.0, size: SMALL, face: Face::Plain, text });
            }
            let mut y = self.y + tall + 4.0 + SMALL;
            for text in captions.get(at).into_iter().flatten() {
                self.mark(Mark::Text { x, y, size: SMALL, face: Face::Plain, text: text.clone() });
                y += SMALL * 1.28;
            }
        }
        self.y += height + 6.0;
    }
}
