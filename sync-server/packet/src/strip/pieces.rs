//! The pieces of a strip: a title with its box, a paragraph, a caution, places to write in, each of a known height.
//!
//! A piece is drawn from its own upper left corner. `layout` puts pieces into columns.

use farsiding_core::Message;
use farsiding_core::procedure::{Fill, PaperPlace};
use farsiding_words::Words;

use crate::marks::{Mark, Ruled};
use crate::structure::Role;
use crate::typeface::{Face, Typefaces};

/// The width of a column, in points: half a page less what a printer leaves white and a hand cuts away.
pub(super) const WIDTH: f32 = 258.0;
/// The height of a place to write in: a pencil in a glove.
const TALL: f32 = 24.0;
const BOX: f32 = 16.0;
const INDENT: f32 = 23.0;
const LABEL: f32 = 7.2;
pub(super) const BODY: f32 = 8.8;
const BETWEEN: f32 = 8.0;

/// A part of the strip that stays in one column.
pub(super) struct Piece {
    /// The height, with the gap below it.
    pub height: f32,
    /// What its text is; nothing if it is part of every column.
    pub role: Option<Role>,
    /// The marks, from the piece's upper left corner.
    pub marks: Vec<Mark>,
}

/// How a step's box is filled in.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum BoxMark {
    Open,
    Ticked,
    LeftOut,
}

/// Makes pieces in one language.
pub(super) struct Maker<'f> {
    pub faces: &'f Typefaces,
    pub words: &'static Words,
}

fn line(points: Vec<(f32, f32)>, width: f32) -> Mark {
    Mark::Lines { points, closed: false, fill: None, line: Some(Ruled::black(width)) }
}

fn frame(x: f32, y: f32, wide: f32, high: f32, width: f32) -> Mark {
    let points = vec![(x, y), (x + wide, y), (x + wide, y + high), (x, y + high)];
    Mark::Lines { points, closed: true, fill: None, line: Some(Ruled::black(width)) }
}

fn raised(mark: Mark, by: f32) -> Mark {
    match mark {
        Mark::Text { x, y, size, face, text } => Mark::Text { x, y: y - by, size, face, text },
        other => other,
    }
}

impl Maker<'_> {
    /// Returns a message as it begins a line.
    pub fn capital(&self, message: &Message) -> String {
        let text = self.words.text(message);
        let mut letters = text.chars();
        letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
    }

    /// Returns text in lines of at most the given width.
    pub fn lines(&self, face: Face, text: &str, size: f32, wide: f32) -> Vec<String> {
        self.faces.lines(face, &self.faces.unbroken(text), wide / size)
    }

    fn wide(&self, face: Face, text: &str, size: f32) -> f32 {
        self.faces.width(face, text) * size
    }

    fn text(&self, (x, y): (f32, f32), text: &str, (face, size): (Face, f32), wide: f32) -> (Vec<Mark>, f32) {
        let leading = size * 1.24;
        let lines = self.lines(face, text, size, wide);
        let (count, last) = (lines.len(), lines.len().saturating_sub(1));
        let marks = lines.into_iter().enumerate().map(|(at, mut text)| {
            // A blank at the end of a line keeps extracted words apart.
            if at < last {
                text.push(' ');
            }
            Mark::Text { x, y: y + at as f32 * leading + size, size, face, text }
        });
        (marks.collect(), count as f32 * leading)
    }

    /// Returns a paragraph over the whole width, or beside the boxes.
    pub fn paragraph(&self, text: &str, face: Face, size: f32, indented: bool) -> Piece {
        let x = if indented { INDENT } else { 0.0 };
        let (marks, height) = self.text((x, 0.0), text, (face, size), WIDTH - x);
        Piece { height: height + 2.0, role: Some(Role::Paragraph), marks }
    }

    /// Returns a heading with a rule below.
    pub fn heading(&self, text: &str, level: u16, size: f32) -> Piece {
        let (mut marks, height) = self.text((0.0, 4.0), text, (Face::Strong, size), WIDTH);
        marks.push(line(vec![(0.0, height + 6.0), (WIDTH, height + 6.0)], 1.2));
        Piece { height: height + 11.0, role: Some(Role::Heading(level, text.to_owned())), marks }
    }

    /// Returns the title of a step beside its box.
    pub fn title(&self, text: &str, ticked: BoxMark) -> Piece {
        let face = if ticked == BoxMark::Open { Face::Strong } else { Face::Plain };
        let (mut marks, height) = self.text((INDENT, 2.0), text, (face, 10.0), WIDTH - INDENT);
        marks.push(frame(0.6, 2.0, BOX, BOX, 1.2));
        match ticked {
            BoxMark::Open => {}
            BoxMark::Ticked => marks.push(line(vec![(3.0, 10.0), (7.0, 15.0), (14.5, 4.5)], 1.8)),
            BoxMark::LeftOut => marks.push(line(vec![(4.0, 10.0), (13.0, 10.0)], 1.8)),
        }
        Piece { height: height.max(BOX) + 4.0, role: Some(Role::Heading(3, text.to_owned())), marks }
    }

    /// Returns a caution: bold, beside a thick line.
    pub fn caution(&self, text: &str) -> Piece {
        let told = format!("{}: {text}", self.words.say("phone-caution"));
        let (mut marks, height) =
            self.text((INDENT + 8.0, 1.0), &told, (Face::Strong, BODY), WIDTH - INDENT - 8.0);
        marks.push(line(vec![(INDENT + 2.0, 1.0), (INDENT + 2.0, height + 1.0)], 3.2));
        Piece { height: height + 4.0, role: Some(Role::Paragraph), marks }
    }

    /// Returns the rows of places.
    pub fn places(&self, places: &[PaperPlace]) -> Vec<Piece> {
        let half = (WIDTH - INDENT - BETWEEN) / 2.0;
        let mut rows: Vec<Piece> = Vec::new();
        let mut waiting: Option<&PaperPlace> = None;
        for place in places {
            if matches!(place.fill, Fill::Choice(_) | Fill::Tick) {
                rows.extend(waiting.take().map(|alone| self.row(&[alone])));
                rows.push(self.choice(place));
                continue;
            }
            let label = self.capital(&place.label);
            if self.wide(Face::Plain, &label, LABEL) > half {
                rows.extend(waiting.take().map(|alone| self.row(&[alone])));
                rows.push(self.row(&[place]));
            } else {
                match waiting.take() {
                    Some(first) => rows.push(self.row(&[first, place])),
                    None => waiting = Some(place),
                }
            }
        }
        rows.extend(waiting.map(|alone| self.row(&[alone])));
        rows
    }

    /// Returns one or two places beside each other, each with its label above it and its unit inside.
    fn row(&self, cells: &[&PaperPlace]) -> Piece {
        let many = cells.len() as f32;
        let wide = (WIDTH - INDENT - BETWEEN * (many - 1.0)) / many;
        let mut marks = Vec::new();
        let labels: Vec<(Vec<Mark>, f32)> = cells
            .iter()
            .enumerate()
            .map(|(at, place)| {
                let x = INDENT + at as f32 * (wide + BETWEEN);
                self.text((x, 1.0), &self.capital(&place.label), (Face::Plain, LABEL), wide)
            })
            .collect();
        let top = labels.iter().map(|label| label.1).fold(0.0, f32::max) + 2.0;
        for (at, (place, (label, _))) in cells.iter().zip(labels).enumerate() {
            let x = INDENT + at as f32 * (wide + BETWEEN);
            marks.extend(label);
            marks.push(frame(x, top, wide, TALL, 0.8));
            match &place.fill {
                Fill::Number(unit) => {
                    let unit = self.faces.showable(&self.words.say(&format!("unit-{}", unit.word())));
                    let x = x + wide - 4.0 - self.wide(Face::Strong, &unit, 9.0);
                    let y = top + TALL - 8.0;
                    marks.push(Mark::Text { x, y, size: 9.0, face: Face::Strong, text: unit });
                }
                Fill::Time => {
                    let (x, y) = (x + wide * 0.62, top + TALL - 8.0);
                    marks.push(Mark::Text { x, y, size: 11.0, face: Face::Strong, text: ":".to_owned() });
                }
                _ => {}
            }
        }
        Piece { height: top + TALL + 3.0, role: Some(Role::Paragraph), marks }
    }

    /// Returns words with boxes, after their label.
    fn choice(&self, place: &PaperPlace) -> Piece {
        const SQUARE: f32 = 11.0;
        const ROW: f32 = 17.0;
        const SIZE: f32 = 8.6;
        let mut marks = Vec::new();
        let (mut x, mut y) = (INDENT, 0.0);
        let (label, none) = (self.capital(&place.label), Vec::new());
        let choices = if let Fill::Choice(choices) = &place.fill { choices } else { &none };
        if !choices.is_empty() {
            let (told, height) = self.text((INDENT, 2.0), &label, (Face::Plain, LABEL), WIDTH - INDENT);
            marks.extend(told);
            let wide = self.wide(Face::Plain, &label, LABEL);
            let first =
                choices.first().map_or(0.0, |first| self.wide(Face::Plain, &self.words.text(first), SIZE));
            if INDENT + wide + 10.0 + SQUARE + first <= WIDTH {
                x = INDENT + wide + 9.0;
            } else {
                y = height + 2.0;
            }
        }
        let words: Vec<String> = match &place.fill {
            Fill::Choice(choices) => choices.iter().map(|choice| self.words.text(choice)).collect(),
            _ => vec![label],
        };
        for word in words {
            let word = self.faces.showable(&word);
            let wide = SQUARE + 3.5 + self.wide(Face::Plain, &word, SIZE);
            if x > INDENT && x + wide > WIDTH {
                (x, y) = (INDENT, y + ROW);
            }
            marks.push(frame(x, y + 1.0, SQUARE, SQUARE, 0.9));
            let room = WIDTH - x - SQUARE - 3.5;
            let (told, height) = self.text((x + SQUARE + 3.5, y + 1.0), &word, (Face::Plain, SIZE), room);
            marks.extend(told);
            // A word that needs more than one line has the lines to itself.
            y += (height - SIZE * 1.24).max(0.0);
            x += wide + 9.0;
        }
        Piece { height: y + ROW, role: Some(Role::Paragraph), marks }
    }

    /// Returns the row below a step: when it was done, by whom, and a box for what was not as described.
    pub fn foot(&self, not_so: bool) -> Piece {
        const TIME: f32 = 86.0;
        const NAME: f32 = 62.0;
        let mut marks = Vec::new();
        let mut x = INDENT;
        for (label, wide) in [("phone-strip-done_at", TIME), ("phone-strip-initials", NAME)] {
            let told = self.text((x, 1.0), &self.words.say(label), (Face::Plain, LABEL), wide);
            marks.extend(told.0);
            marks.push(frame(x, 11.0, wide, TALL, 0.8));
            if label == "phone-strip-done_at" {
                let text = ":".to_owned();
                marks.push(Mark::Text { x: x + wide * 0.62, y: 27.0, size: 11.0, face: Face::Strong, text });
            }
            x += wide + BETWEEN;
        }
        if not_so {
            let told = self.words.say("phone-strip-not_so");
            marks.push(frame(x, 16.0, 13.0, 13.0, 0.9));
            let (told, height) = self.text((x + 17.0, 22.5), &told, (Face::Plain, LABEL), WIDTH - x - 17.0);
            marks.extend(told.into_iter().map(|mark| raised(mark, height / 2.0)));
        }
        Piece { height: 11.0 + TALL + 8.0, role: Some(Role::Paragraph), marks }
    }

    /// Returns an empty ruled line.
    pub fn ruled(&self) -> Piece {
        Piece {
            height: TALL,
            role: None,
            marks: vec![line(vec![(0.0, TALL - 2.0), (WIDTH, TALL - 2.0)], 0.6)],
        }
    }
}
