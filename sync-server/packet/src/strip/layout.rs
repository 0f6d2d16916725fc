//! Puts the pieces of a strip into columns, two on a page, which can be cut apart: each carries the car, the site, the
//! edition with its digest, its number and what it is.

use farsiding_core::procedure::{ASIDE, Fill, PaperPlace, Stage};
use farsiding_core::{Arg, Message, message};
use farsiding_words::Words;

use super::content::{PaperStep, Strip};
use super::pieces::{BODY, BoxMark, Maker, Piece, WIDTH};
use crate::marks::{Landmark, Mark, Paper, Placed, Ruled};
use crate::sheet::Set;
use crate::structure::{Role, Structure};
use crate::typeface::{Face, Typefaces};

/// What stays white at the edges of the page, in points.
pub(super) const EDGE: f32 = 22.0;
const SMALL: f32 = 6.8;

/// The columns being filled.
struct Columns<'f> {
    make: Maker<'f>,
    structure: Structure,
    columns: Vec<Vec<Placed>>,
    landmarks: Vec<Landmark>,
    top: f32,
    bottom: f32,
    y: f32,
}

fn moved(mark: Mark, (dx, dy): (f32, f32)) -> Mark {
    match mark {
        Mark::Text { x, y, size, face, text } => Mark::Text { x: x + dx, y: y + dy, size, face, text },
        Mark::Lines { points, closed, fill, line } => Mark::Lines {
            points: points.into_iter().map(|(x, y)| (x + dx, y + dy)).collect(),
            closed,
            fill,
            line,
        },
        other => other,
    }
}

impl Columns<'_> {
    fn turn(&mut self) {
        if self.y > self.top {
            self.columns.push(Vec::new());
            self.y = self.top;
        }
    }

    /// Puts pieces into a column, all into the same one if they fit into any.
    fn put(&mut self, pieces: Vec<Piece>) {
        let height: f32 = pieces.iter().map(|piece| piece.height).sum();
        if self.y + height > self.bottom && self.top + height <= self.bottom {
            self.turn();
        }
        for piece in pieces {
            if self.y + piece.height > self.bottom {
                self.turn();
            }
            if let Some(Role::Heading(2, title)) = &piece.role {
                let (page, y) = ((self.columns.len() - 1) / 2, self.y);
                self.landmarks.push(Landmark { title: title.clone(), page, y });
            }
            let node = piece.role.map(|role| {
                let node = self.structure.open(role);
                self.structure.close();
                node
            });
            let y = self.y;
            if let Some(column) = self.columns.last_mut() {
                column.extend(piece.marks.into_iter().map(|mark| Placed {
                    // A frame or a rule says nothing that is read out.
                    node: node.filter(|_| matches!(mark, Mark::Text { .. })),
                    mark: moved(mark, (0.0, y)),
                }));
            }
            self.y += piece.height;
        }
    }

    fn step(&mut self, number: usize, step: &PaperStep, stage: Option<Stage>) {
        let words = self.make.words;
        let mut pieces = Vec::new();
        pieces.extend(stage.map(|stage| self.make.heading(&self.make.capital(&stage.term()), 2, 11.5)));
        let title = format!("{number}. {}", words.text(&step.title));
        let again = step.known.is_none() || !step.places.is_empty();
        let ticked = match &step.known {
            None => BoxMark::Open,
            Some(known) if known.ticked => BoxMark::Ticked,
            Some(_) => BoxMark::LeftOut,
        };
        pieces.push(self.make.title(&title, ticked));
        if let Some(known) = &step.known {
            let note = if known.note.is_empty() { String::new() } else { format!(" ({})", known.note) };
            let told = self.make.capital(&known.says) + &note;
            pieces.push(self.make.paragraph(&told, Face::Plain, 7.6, true));
        }
        if again {
            pieces.push(self.make.paragraph(&words.text(&step.what_to_do), Face::Plain, BODY, true));
            pieces.extend(step.cautions.iter().map(|caution| self.make.caution(&words.text(caution))));
            pieces.extend(
                step.held.iter().map(|held| self.make.paragraph(&words.text(held), Face::Strong, BODY, true)),
            );
            pieces.extend(self.make.places(&step.places));
            pieces.push(self.make.foot(true));
            pieces.extend(self.rounds(step));
        }
        self.put(pieces);
    }

    /// Returns the places of the rounds after the first: the time and the numbers.
    fn rounds(&self, step: &PaperStep) -> Vec<Piece> {
        let Some(minutes) = step.every else { return Vec::new() };
        let told = message!("phone-strip-every", minutes = Arg::typed(minutes.to_string()));
        let mut pieces = vec![self.make.paragraph(&self.make.words.text(&told), Face::Strong, BODY, true)];
        let time = PaperPlace { label: message!("phone-strip-done_at"), fill: Fill::Time };
        let numbers = step.places.iter().filter(|place| matches!(place.fill, Fill::Number(_))).take(1);
        let round: Vec<PaperPlace> = std::iter::once(time).chain(numbers.cloned()).collect();
        for _ in 1..step.rounds {
            pieces.extend(self.make.places(&round));
        }
        pieces
    }

    /// Puts what is recorded only when something happens, once, and lines to write on.
    fn aside(&mut self) {
        let mut heading = vec![self.make.heading(&self.make.words.say("phone-strip-aside"), 2, 11.5)];
        for record in ASIDE {
            let mut pieces = std::mem::take(&mut heading);
            pieces.push(self.make.title(&self.make.capital(&record.title()), BoxMark::Open));
            pieces.extend(self.make.places(&record.paper_places()));
            pieces.push(self.make.foot(false));
            self.put(pieces);
        }
        let mut pieces = vec![self.make.heading(&self.make.words.say("phone-strip-remarks"), 2, 11.5)];
        pieces.extend((0..6).map(|_| self.make.ruled()));
        self.put(pieces);
    }
}

/// Returns what stands at the top of every column: the car and the site, and below them the edition and its digest.
fn head(make: &Maker<'_>, strip: &Strip) -> Vec<(String, Face, f32)> {
    let words = make.words;
    let digest = message!("phone-strip-digest", digest = Arg::typed(strip.digest.to_string()));
    let site = if strip.site.is_empty() {
        String::new()
    } else {
        format!("{}: {}", words.say("phone-strip-site"), strip.site)
    };
    let mut lines = Vec::new();
    for (text, face, size) in [
        (site, Face::Strong, 8.2),
        (words.text(&strip.procedure), Face::Plain, 7.4),
        (words.text(&digest), Face::Plain, 6.0),
    ] {
        if !text.is_empty() {
            lines.extend(make.lines(face, &text, size, WIDTH).into_iter().map(|line| (line, face, size)));
        }
    }
    lines
}

fn foot(make: &Maker<'_>) -> Vec<String> {
    ["phone-strip-first", "phone-strip-aid"]
        .iter()
        .flat_map(|id| make.lines(Face::Plain, &make.words.say(id), SMALL, WIDTH))
        .collect()
}

fn leading(size: f32) -> f32 {
    size * 1.22
}

/// Lays out a strip.
pub(super) fn lay_out(faces: &Typefaces, paper: Paper, words: &'static Words, strip: &Strip) -> Set {
    const CAR: f32 = 11.0;
    let make = Maker { faces, words };
    let (head, foot) = (head(&make, strip), foot(&make));
    let head_height = leading(CAR) + head.iter().map(|line| leading(line.2)).sum::<f32>() + 5.0;
    let foot_height = foot.len() as f32 * leading(SMALL) + leading(SMALL) + 6.0;
    let top = EDGE + head_height + 4.0;
    let mut columns = Columns {
        make,
        structure: Structure::default(),
        columns: vec![Vec::new()],
        landmarks: Vec::new(),
        top,
        bottom: paper.height() - EDGE - foot_height - 2.0,
        y: top,
    };
    columns.front(strip);
    let mut stage = None;
    for (at, step) in strip.steps.iter().enumerate() {
        let begins = (stage != Some(step.stage)).then_some(step.stage);
        stage = Some(step.stage);
        columns.step(at + 1, step, begins);
    }
    columns.aside();
    let Columns { make, structure, columns: filled, landmarks, .. } = columns;
    let (of, pages) = (filled.len(), filled.len().div_ceil(2));
    let gap = paper.width() / 2.0;
    let mut drawn: Vec<Vec<Placed>> = (0..pages).map(|_| Vec::new()).collect();
    let number = |n: usize| Arg::typed(n.to_string());
    for (at, column) in filled.into_iter().enumerate() {
        let Some(page) = drawn.get_mut(at / 2) else { continue };
        let left = if at % 2 == 0 { (gap - WIDTH) / 2.0 } else { gap + (gap - WIDTH) / 2.0 };
        let artifact = |mark| Placed { mark, node: None };
        let text = |x: f32, y: f32, size, face, text: &str| {
            let text = make.faces.showable(text);
            artifact(Mark::Text { x: left + x, y, size, face, text })
        };
        let rule = |from: f32, to: f32, y: f32, width| {
            let points = vec![(left + from, y), (left + to, y)];
            artifact(Mark::Lines { points, closed: false, fill: None, line: Some(Ruled::black(width)) })
        };
        let right =
            |told: &str, size: f32| WIDTH - make.faces.width(Face::Plain, &make.faces.showable(told)) * size;
        let mut y = EDGE + CAR;
        let car = format!("{}: {}", words.say("phone-strip-car"), strip.car);
        page.push(text(0.0, y, CAR, Face::Strong, &car));
        let told = words.text(&message!("phone-strip-strip", n = number(at + 1), of = number(of)));
        if strip.car.is_empty() {
            let from = make.faces.width(Face::Strong, &car) * CAR + 2.0;
            page.push(rule(from, right(&told, SMALL) - 6.0, y + 1.5, 0.8));
        }
        page.push(text(right(&told, SMALL), y, SMALL, Face::Plain, &told));
        y += leading(CAR) - CAR;
        for (line, face, size) in &head {
            page.push(text(0.0, y + size, *size, *face, line));
            y += leading(*size);
        }
        page.push(rule(0.0, WIDTH, y + 4.0, 1.0));
        page.extend(
            column.into_iter().map(|placed| Placed { mark: moved(placed.mark, (left, 0.0)), ..placed }),
        );
        let mut y = paper.height() - EDGE - foot_height + 4.0;
        page.push(rule(0.0, WIDTH, y - 3.0, 0.6));
        for line in &foot {
            page.push(text(0.0, y + SMALL, SMALL, Face::Plain, line));
            y += leading(SMALL);
        }
        let told =
            words.text(&message!("phone-strip-page", page = number(at / 2 + 1), pages = number(pages)));
        page.push(text(right(&told, SMALL), y + SMALL, SMALL, Face::Plain, &told));
        if at % 2 == 1 {
            let cut = Ruled { width: 0.5, grey: 90, dash: 4.0 };
            let points = vec![(gap, EDGE), (gap, paper.height() - EDGE)];
            page.push(artifact(Mark::Lines { points, closed: false, fill: None, line: Some(cut) }));
        }
    }
    Set { paper, pages: drawn, landmarks, structure }
}

impl Columns<'_> {
    /// Puts what stands before the steps.
    fn front(&mut self, strip: &Strip) {
        let words = self.make.words;
        let title = words.say("phone-strip-title");
        let mut pieces = vec![self.make.heading(&title, 1, 14.0)];
        let mut told = |message: Message, face| {
            pieces.push(self.make.paragraph(&words.text(&message), face, BODY, false));
        };
        if !strip.procedure_known {
            told(message!("phone-strip-unknown"), Face::Strong);
        }
        if !strip.as_of.is_empty() {
            told(message!("phone-strip-as_of", time = Arg::typed(&strip.as_of)), Face::Plain);
        }
        told(message!("phone-strip-stop"), Face::Strong);
        if !strip.note.is_empty() {
            told(strip.note.clone(), Face::Plain);
        }
        if !strip.local_rules.is_empty() {
            told(Message::typed(&strip.local_rules), Face::Strong);
        }
        self.put(pieces);
    }
}
