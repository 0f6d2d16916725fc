//! Lays out text, tables and figures on pages.
//!
//! Everything is placed as marks on pages; only after that is "page n of m" known, and the marks are drawn
//! (`ink`). Only black and greys are used, because a packet may be read as a photocopy. The texts are in
//! `pages`, the drawings in `figures`, and the marks in `marks`.

use std::collections::VecDeque;

use super::marks::{Landmark, MEASURE, Mark, Paper, Pen, Placed, Ruled};
use super::structure::{Role, Structure};
use super::typeface::{Face, Typefaces};

/// A picture by its number in the file, with its width and height in pixels.
type Drawn = (usize, (u32, u32));

const TOP: f32 = 64.0;
const BODY: f32 = 9.5;
const SMALL: f32 = 8.0;
/// The type size in tables, in points.
const TABLE: f32 = 8.6;
/// The distance of text from the edges of its cell, in points.
const INSET: f32 = 3.0;

/// One cell of a table.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Cell {
    text: String,
    strong: bool,
}

impl Cell {
    /// Returns a cell in bold type.
    pub fn strong(text: impl Into<String>) -> Cell {
        Cell { text: text.into(), strong: true }
    }
}

impl<T: Into<String>> From<T> for Cell {
    fn from(text: T) -> Cell {
        Cell { text: text.into(), strong: false }
    }
}

/// The pages being filled from the top.
pub struct Sheet<'f> {
    /// The typefaces.
    pub faces: &'f Typefaces,
    paper: Paper,
    pages: Vec<Vec<Placed>>,
    landmarks: Vec<Landmark>,
    structure: Structure,
    y: f32,
}

/// The filled pages.
pub struct Set {
    /// The paper size.
    pub paper: Paper,
    /// The marks of each page.
    pub pages: Vec<Vec<Placed>>,
    /// The places in the outline.
    pub landmarks: Vec<Landmark>,
    /// The structure of the document.
    pub structure: Structure,
}

impl Set {
    /// Returns the text of the pages in drawing order, line by line, with a form feed between pages.
    pub fn text(&self) -> String {
        let pages: Vec<String> = self.pages.iter().map(|page| text_of(page)).collect();
        pages.join("\u{c}")
    }
}

fn text_of(page: &[Placed]) -> String {
    let line = |placed: &Placed| match &placed.mark {
        Mark::Text { text, .. } => Some(format!("{}\n", text.trim_end())),
        _ => None,
    };
    page.iter().filter_map(line).collect()
}

impl<'f> Sheet<'f> {
    /// Returns a document with an empty first page.
    pub fn new(faces: &'f Typefaces, paper: Paper) -> Sheet<'f> {
        Sheet {
            faces,
            paper,
            pages: vec![Vec::new()],
            landmarks: Vec::new(),
            structure: Structure::default(),
            y: TOP,
        }
    }

    /// Returns the number of pages so far.
    pub fn pages(&self) -> usize {
        self.pages.len()
    }

    /// Returns the filled pages, each with its header and footer. `place` says which page of how many one is.
    pub fn finish(mut self, title: &str, document: &str, place: impl Fn(usize, usize) -> String) -> Set {
        const SMALLER: f32 = 7.5;
        let (left, foot) = (self.paper.left(), self.paper.height() - 36.0);
        let (title, count) = (self.faces.showable(title), self.pages.len());
        for (number, page) in self.pages.iter_mut().enumerate() {
            let place = self.faces.showable(&place(number + 1, count));
            let right = left + MEASURE - self.faces.width(Face::Plain, &place) * SMALLER;
            let text = |x, y, text: &str| Placed {
                mark: Mark::Text { x, y, size: SMALLER, face: Face::Plain, text: text.to_owned() },
                node: None,
            };
            let line = Mark::Lines {
                points: vec![(left, 44.0), (left + MEASURE, 44.0)],
                closed: false,
                fill: None,
                line: Some(Ruled::grey(0.4, 120)),
            };
            page.insert(0, text(left, 38.0, &title));
            page.insert(1, Placed { mark: line, node: None });
            page.push(text(left, foot, document));
            page.push(text(right, foot, &place));
        }
        Set { paper: self.paper, pages: self.pages, landmarks: self.landmarks, structure: self.structure }
    }

    fn bottom(&self) -> f32 {
        self.paper.height() - 60.0
    }

    /// Adds a mark to the open node.
    fn mark(&mut self, mark: Mark) {
        let node = self.structure.current();
        if let Some(page) = self.pages.last_mut() {
            page.push(Placed { mark, node });
        }
    }

    /// Adds a mark that is only decoration.
    fn adorn(&mut self, mark: Mark) {
        if let Some(page) = self.pages.last_mut() {
            page.push(Placed { mark, node: None });
        }
    }

    /// Begins a new page, unless the current page is empty.
    pub fn turn(&mut self) {
        if self.y > TOP {
            self.pages.push(Vec::new());
            self.y = TOP;
        }
    }

    /// Begins a new page unless the given height is left on the current page.
    pub fn keep_together(&mut self, height: f32) {
        if self.y + height > self.bottom() && self.y > TOP {
            self.turn();
        }
    }

    /// Adds empty space.
    pub fn gap(&mut self, height: f32) {
        if self.y > TOP {
            self.y += height;
        }
    }

    fn rule(&mut self, y: f32, line: Ruled) {
        let left = self.paper.left();
        self.adorn(Mark::Lines {
            points: vec![(left, y), (left + MEASURE, y)],
            closed: false,
            fill: None,
            line: Some(line),
        });
    }

    /// Writes the document's title.
    pub fn title(&mut self, kind: &str, title: &str) {
        self.block(Role::Paragraph, kind, Face::Plain, 10.0, 0.0);
        self.gap(2.0);
        self.block(Role::Heading(1, title.to_owned()), title, Face::Strong, 21.0, 0.0);
        self.gap(4.0);
    }

    /// Writes a section heading, which the caller numbers, and adds it to the outline.
    pub fn heading(&mut self, title: &str) {
        self.gap(14.0);
        self.keep_together(70.0);
        let (page, y) = (self.pages.len() - 1, self.y);
        self.landmarks.push(Landmark { title: title.to_owned(), page, y });
        self.block(Role::Heading(2, title.to_owned()), title, Face::Strong, 13.0, 0.0);
        self.rule(self.y - 1.0, Ruled::black(0.8));
        self.y += 6.0;
    }

    /// Writes a heading within a section.
    pub fn subheading(&mut self, title: &str) {
        self.gap(6.0);
        self.keep_together(44.0);
        self.block(Role::Heading(3, title.to_owned()), title, Face::Strong, 10.5, 0.0);
        self.gap(2.0);
    }

    /// Writes a paragraph.
    pub fn paragraph(&mut self, text: &str) {
        self.block(Role::Paragraph, text, Face::Plain, BODY, 0.0);
        self.gap(3.0);
    }

    /// Writes a paragraph in bold type.
    pub fn strong(&mut self, text: &str) {
        self.block(Role::Paragraph, text, Face::Strong, BODY, 0.0);
        self.gap(3.0);
    }

    /// Writes a paragraph in small type.
    pub fn small(&mut self, text: &str) {
        self.block(Role::Paragraph, text, Face::Plain, SMALL, 0.0);
        self.gap(3.0);
    }

    /// Writes one item of a list.
    pub fn item(&mut self, text: &str) {
        self.keep_together(BODY * 1.35);
        let (x, y) = (self.paper.left() + 2.0, self.y + BODY);
        self.structure.open(Role::List);
        let dash = "\u{2013}".to_owned();
        self.adorn(Mark::Text { x, y, size: BODY, face: Face::Plain, text: dash });
        self.block(Role::Item, text, Face::Plain, BODY, 12.0);
        self.structure.close();
        self.gap(1.5);
    }

    fn block(&mut self, role: Role, text: &str, face: Face, size: f32, indent: f32) {
        let shown = self.faces.unbroken(text);
        let leading = size * 1.32;
        self.structure.open(role);
        let lines = self.faces.lines(face, &shown, (MEASURE - indent) / size);
        for line in with_blanks(lines) {
            self.keep_together(leading);
            let x = self.paper.left() + indent;
            self.mark(Mark::Text { x, y: self.y + size, size, face, text: line });
            self.y += leading;
        }
        self.structure.close();
    }

    /// Writes names with their values beside them.
    pub fn facts(&mut self, rows: &[(String, String)]) {
        let rows = rows.iter().map(|(name, value)| vec![Cell::strong(name), value.into()]).collect();
        self.table(&[(String::new(), 20.0), (String::new(), 80.0)], rows);
    }

    fn wrapped(&self, row: &[Cell], widths: &[f32]) -> Vec<(Face, VecDeque<String>)> {
        let cell = |(cell, width): (&Cell, &f32)| {
            let face = if cell.strong { Face::Strong } else { Face::Plain };
            let shown = self.faces.unbroken(&cell.text);
            let lines = self.faces.lines(face, &shown, (width - 2.0 * INSET) / TABLE);
            (face, with_blanks(lines).collect())
        };
        row.iter().zip(widths).map(cell).collect()
    }

    /// Writes a table. Column widths are fractions of the text width. The headings are repeated on every page
    /// of the table, and a row that is taller than a page continues on the next.
    pub fn table(&mut self, columns: &[(String, f32)], rows: Vec<Vec<Cell>>) {
        const LEADING: f32 = TABLE * 1.28;
        let total: f32 = columns.iter().map(|column| column.1).sum();
        let widths: Vec<f32> = columns.iter().map(|column| column.1 / total * MEASURE).collect();
        let headed = columns.iter().any(|column| !column.0.is_empty());
        let tall = |cells: &[(Face, VecDeque<String>)]| cells.iter().map(|c| c.1.len()).max().unwrap_or(0);
        // The headings never stand alone at the end of a page: at least the first row, or the part of it that
        // is kept together, follows them.
        let first = rows.first().map_or(1, |row| tall(&self.wrapped(row, &widths)).clamp(1, 7));
        self.keep_together(first as f32 * LEADING + if headed { 22.0 } else { 8.0 });
        self.rule(self.y, Ruled::black(0.8));
        self.structure.open(Role::Table);
        if headed {
            self.table_head(columns, &widths, true);
        }
        for row in rows {
            let mut cells = self.wrapped(&row, &widths);
            let whole = tall(&cells) as f32 * LEADING + 5.0;
            // A short row is kept on one page. A long row is split, rather than leaving half a page empty.
            let broken = tall(&cells) > 6 && self.y + 3.0 * LEADING <= self.bottom();
            if self.y + whole > self.bottom() && !broken {
                self.turn();
                if headed {
                    self.table_head(columns, &widths, false);
                }
            }
            self.structure.open(Role::Row);
            let nodes: Vec<usize> = (0..cells.len())
                .map(|at| {
                    let heads = !headed && at == 0;
                    let node = self.structure.open(if heads { Role::RowHead } else { Role::Cell });
                    self.structure.close();
                    node
                })
                .collect();
            self.structure.close();
            self.y += 2.0;
            while tall(&cells) > 0 {
                if self.y + LEADING > self.bottom() {
                    self.turn();
                    if headed {
                        self.table_head(columns, &widths, false);
                    }
                    self.y += 2.0;
                }
                // Each cell gets as many lines as fit on this page, so that its text reads continuously.
                let room = (((self.bottom() - self.y) / LEADING) as usize).max(1);
                let now = tall(&cells).min(room);
                let mut x = self.paper.left();
                for (((face, lines), width), node) in cells.iter_mut().zip(&widths).zip(&nodes) {
                    let taken: Vec<String> = lines.drain(..now.min(lines.len())).collect();
                    for (row, text) in taken.into_iter().enumerate().filter(|(_, text)| !text.is_empty()) {
                        let y = self.y + row as f32 * LEADING + TABLE;
                        let mark = Mark::Text { x: x + INSET, y, size: TABLE, face: *face, text };
                        if let Some(page) = self.pages.last_mut() {
                            page.push(Placed { mark, node: Some(*node) });
                        }
                    }
                    x += width;
                }
                self.y += now as f32 * LEADING;
            }
            self.y += 2.0;
            self.rule(self.y, Ruled::grey(0.4, 150));
            self.y += 1.0;
        }
        self.structure.close();
        self.y += 5.0;
    }

    /// Writes the headings of a table. Only the first occurrence is part of the structure.
    fn table_head(&mut self, columns: &[(String, f32)], widths: &[f32], first: bool) {
        const SIZE: f32 = 8.2;
        let (mut x, top) = (self.paper.left(), self.y);
        let height = SIZE * 1.6 + 1.0;
        let corners = vec![(x, top), (x + MEASURE, top), (x + MEASURE, top + height), (x, top + height)];
        self.adorn(Mark::Lines { points: corners, closed: true, fill: Some(228), line: None });
        if first {
            self.structure.open(Role::Row);
        }
        for ((title, _), width) in columns.iter().zip(widths) {
            let (y, text) = (top + SIZE + 2.0, self.faces.showable(title));
            let mark = Mark::Text { x: x + INSET, y, size: SIZE, face: Face::Strong, text };
            if first {
                self.structure.open(Role::ColumnHead);
                self.mark(mark);
                self.structure.close();
            } else {
                self.adorn(mark);
            }
            x += width;
        }
        if first {
            self.structure.close();
        }
        self.y = top + height;
        self.rule(self.y, Ruled::black(0.6));
        self.y += 1.0;
    }

    /// Writes a drawing of the given height and of the width of the text, with a caption below. `told`
    /// describes the drawing in words.
    pub fn figure(&mut self, height: f32, told: &str, caption: &str, draw: impl FnOnce(&mut Pen<'_>)) {
        self.keep_together(height + 26.0);
        let mut pen = Pen::at_point(self.faces, (self.paper.left(), self.y));
        draw(&mut pen);
        self.structure.open(Role::Figure(told.to_owned()));
        for mark in pen.into_marks() {
            self.mark(mark);
        }
        self.structure.close();
        self.y += height + 3.0;
        if !caption.is_empty() {
            self.small(caption);
        }
        self.gap(4.0);
    }

    /// Writes at most two pictures side by side, each with its caption. `not_shown` stands in the place of
    /// one that cannot be drawn.
    pub fn pictures(&mut self, pair: &[(Option<Drawn>, String)], not_shown: &str) {
        const TALL: f32 = 210.0;
        const BETWEEN: f32 = 14.0;
        let width = (MEASURE - BETWEEN) / 2.0;
        let captions: Vec<Vec<String>> = pair
            .iter()
            .map(|(_, text)| self.faces.lines(Face::Plain, &self.faces.unbroken(text), width / SMALL))
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
        for (at, ((picture, told), (wide, high))) in pair.iter().zip(&sizes).enumerate() {
            let x = self.paper.left() + at as f32 * (width + BETWEEN);
            let top = self.y + tall - high;
            if let Some((picture, _)) = picture {
                self.structure.open(Role::Figure(told.clone()));
                self.mark(Mark::Picture { picture: *picture, frame: (x, top, *wide, *high) });
                self.structure.close();
            }
            let corners = vec![(x, top), (x + wide, top), (x + wide, top + high), (x, top + high)];
            let line = Some(Ruled::grey(0.6, 90));
            self.adorn(Mark::Lines { points: corners, closed: true, fill: None, line });
            self.structure.open(Role::Paragraph);
            if picture.is_none() {
                let text = self.faces.showable(not_shown) + " ";
                self.mark(Mark::Text { x: x + 8.0, y: top + 24.0, size: SMALL, face: Face::Plain, text });
            }
            let mut y = self.y + tall + 4.0 + SMALL;
            for text in with_blanks(captions.get(at).cloned().unwrap_or_default()) {
                self.mark(Mark::Text { x, y, size: SMALL, face: Face::Plain, text });
                y += SMALL * 1.28;
            }
            self.structure.close();
        }
        self.y += height + 6.0;
    }
}

/// Returns the lines of one text. Every line but the last keeps the blank at which it was broken, so that
/// extracted text has its words separated.
fn with_blanks(lines: Vec<String>) -> impl Iterator<Item = String> {
    let last = lines.len().saturating_sub(1);
    lines.into_iter().enumerate().map(move |(at, mut line)| {
        if at < last && !line.is_empty() {
            line.push(' ');
        }
        line
    })
}
