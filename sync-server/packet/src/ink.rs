//! Draws the placed marks with krilla as tagged PDF/A-3a, with metadata, outline, structure and attachments.
//!
//! Nothing here depends on a clock or on the program's own version, because verifiers draw the packet again.
//!
//! Called by `build` and `strip`. The layout is decided elsewhere.

use std::collections::BTreeSet;

use chrono::{Datelike as _, Timelike as _};
use farsiding_words::Language;
use krilla::Document;
use krilla::SerializeSettings;
use krilla::color::luma;
use krilla::configure::{Configuration, Validator};
use krilla::destination::XyzDestination;
use krilla::embed::{AssociationKind, EmbeddedFile, MimeType};
use krilla::error::KrillaError;
use krilla::geom::{PathBuilder, Point, Size, Transform};
use krilla::image::Image;
use krilla::metadata::{DateTime, Metadata};
use krilla::num::NormalizedF32;
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;
use krilla::paint::{Fill, Stroke, StrokeDash};
use krilla::surface::Surface;
use krilla::tagging::{ArtifactType, ContentTag, Identifier};

use farsiding_core::clock::UtcMillis;
use farsiding_core::ids::Digest;

use super::PacketError;
use super::marks::{Mark, Placed, Ruled};
use super::sheet::Set;
use super::typeface::{Face, Typefaces};

/// A file to attach.
pub struct Attachment {
    /// The file's name.
    pub name: String,
    /// The file's media type.
    pub media: &'static str,
    /// The description of the file for people.
    pub description: String,
    /// The file's bytes.
    pub bytes: Vec<u8>,
    /// Whether the file is the source of the pages; otherwise it is data behind them.
    pub source: bool,
    /// Whether the file may be compressed. Pictures are compressed already, and the seal must be in the file
    /// unchanged.
    pub deflate: bool,
}

/// A picture to draw.
pub struct Picture {
    /// The picture's digest.
    pub sha256: Digest,
    /// The picture's bytes. A JPEG is embedded unchanged, and a PNG is decoded by krilla.
    pub bytes: Vec<u8>,
    /// Whether the picture is a PNG.
    pub png: bool,
}

/// The texts on every page and in the file's metadata.
pub struct Running {
    /// The document's title.
    pub title: String,
    /// The subject of the document, in a sentence.
    pub subject: String,
    /// The organisation, as the author.
    pub author: String,
    /// The document id, which is printed on each page.
    pub document: String,
    /// The time that the packet speaks for. A packet has no date of its own making.
    pub at: UtcMillis,
    /// The language of the pages.
    pub language: Language,
    /// What made the file.
    pub producer: String,
}

/// The result of drawing. A picture that cannot be embedded is named, so that the caller can leave it out.
pub enum Drawn {
    /// The file.
    File(Vec<u8>),
    /// The pictures that a PDF cannot embed.
    Without(BTreeSet<Digest>),
}

fn paint(grey: u8) -> Fill {
    Fill { paint: luma::Color::new(grey).into(), opacity: NormalizedF32::ONE, rule: Default::default() }
}

fn stroke(line: Ruled) -> Stroke {
    Stroke {
        paint: luma::Color::new(line.grey).into(),
        width: line.width,
        dash: (line.dash > 0.0).then(|| StrokeDash { array: vec![line.dash, line.dash], offset: 0.0 }),
        ..Stroke::default()
    }
}

fn text(surface: &mut Surface<'_>, faces: &Typefaces, at: (f32, f32), size: f32, face: Face, text: &str) {
    surface.set_fill(Some(paint(0)));
    surface.set_stroke(None);
    let mut x = at.0;
    for stretch in faces.stretches(face, text) {
        surface.draw_glyphs(
            Point::from_xy(x, at.1),
            &stretch.glyphs,
            stretch.font,
            &stretch.text,
            size,
            false,
        );
        x += stretch.width * size;
    }
}

fn shape(surface: &mut Surface<'_>, path: PathBuilder, fill: Option<u8>, line: Option<Ruled>) {
    if let Some(path) = path.finish() {
        surface.set_fill(fill.map(paint));
        surface.set_stroke(line.map(stroke));
        surface.draw_path(&path);
    }
}

fn draw(surface: &mut Surface<'_>, faces: &Typefaces, images: &[Image], mark: &Mark) {
    match mark {
        Mark::Text { x, y, size, face, text: words } => text(surface, faces, (*x, *y), *size, *face, words),
        Mark::Lines { points, closed, fill, line } => {
            let mut path = PathBuilder::new();
            for (at, (x, y)) in points.iter().enumerate() {
                if at == 0 { path.move_to(*x, *y) } else { path.line_to(*x, *y) }
            }
            if *closed {
                path.close();
            }
            shape(surface, path, *fill, *line);
        }
        Mark::Circle { at: (x, y), radius, fill, line } => {
            // A circle consists of four cubic arcs; 0.5523 is the usual approximation for a quarter circle.
            let (r, k) = (*radius, *radius * 0.5523);
            let mut path = PathBuilder::new();
            path.move_to(x + r, *y);
            path.cubic_to(x + r, y + k, x + k, y + r, *x, y + r);
            path.cubic_to(x - k, y + r, x - r, y + k, x - r, *y);
            path.cubic_to(x - r, y - k, x - k, y - r, *x, y - r);
            path.cubic_to(x + k, y - r, x + r, y - k, x + r, *y);
            path.close();
            shape(surface, path, *fill, *line);
        }
        Mark::Picture { picture, frame: (x, y, w, h) } => {
            if let (Some(image), Some(size)) = (images.get(*picture), Size::from_wh(*w, *h)) {
                surface.push_transform(&Transform::from_translate(*x, *y));
                surface.draw_image(image.clone(), size);
                surface.pop();
            }
        }
    }
}

fn date(at: UtcMillis) -> DateTime {
    let Some(t) = at.to_datetime() else { return DateTime::new(1970) };
    let byte = |n: u32| u8::try_from(n).unwrap_or(1);
    DateTime::new(u16::try_from(t.year()).unwrap_or(1970))
        .month(byte(t.month()))
        .day(byte(t.day()))
        .hour(byte(t.hour()))
        .minute(byte(t.minute()))
        .second(byte(t.second()))
        .utc_offset_hour(0)
        .utc_offset_minute(0)
}

/// Parses pictures with krilla.
///
/// # Errors
/// Returns the digests of the pictures that krilla cannot parse.
pub fn read_pictures(pictures: &[Picture]) -> Result<Vec<Image>, BTreeSet<Digest>> {
    let mut images = Vec::new();
    let mut refused = BTreeSet::new();
    for picture in pictures {
        let bytes = picture.bytes.clone().into();
        let image = if picture.png { Image::from_png(bytes, false) } else { Image::from_jpeg(bytes, false) };
        match image {
            Ok(image) => images.push(image),
            Err(_) => {
                refused.insert(picture.sha256);
            }
        }
    }
    if refused.is_empty() { Ok(images) } else { Err(refused) }
}

/// Draws marks, each run of marks of one node under the node's tag. Marks without a node are artifacts.
fn draw_tagged(
    surface: &mut Surface<'_>,
    faces: &Typefaces,
    images: &[Image],
    marks: &[Placed],
    drawn: &mut [Vec<Identifier>],
) {
    for stretch in marks.chunk_by(|a, b| a.node == b.node) {
        let node = stretch.first().and_then(|placed| placed.node);
        let tag = if node.is_some() { ContentTag::Other } else { ContentTag::Artifact(ArtifactType::Other) };
        let identifier = surface.start_tagged(tag);
        for placed in stretch {
            draw(surface, faces, images, &placed.mark);
        }
        surface.end_tagged();
        if let Some(parts) = node.and_then(|node| drawn.get_mut(node)) {
            parts.push(identifier);
        }
    }
}

/// Draws the pages and attaches the files.
///
/// # Errors
/// Returns [`PacketError::Layout`] when krilla refuses anything but a picture.
pub fn draw_all(
    faces: &Typefaces,
    running: &Running,
    set: &Set,
    (pictures, images): (&[Picture], &[Image]),
    attachments: Vec<Attachment>,
) -> Result<Drawn, PacketError> {
    let refuse = |what: &str| PacketError::Layout(what.to_owned());
    let settings = SerializeSettings {
        configuration: Configuration::new_with_validator(Validator::A3_A),
        enable_tagging: true,
        ..SerializeSettings::default()
    };
    let mut document = Document::new_with(settings);
    let page_size = PageSettings::from_wh(set.paper.width(), set.paper.height());
    let page_size = page_size.ok_or_else(|| refuse("no page size"))?;
    let mut drawn: Vec<Vec<Identifier>> = vec![Vec::new(); set.structure.len()];
    for marks in &set.pages {
        let mut page = document.start_page_with(page_size.clone());
        let mut surface = page.surface();
        draw_tagged(&mut surface, faces, images, marks, &mut drawn);
        surface.finish();
        page.finish();
    }
    document.set_tag_tree(set.structure.tree(&mut drawn));
    let mut outline = Outline::new();
    for landmark in &set.landmarks {
        let to = XyzDestination::new(landmark.page, Point::from_xy(set.paper.left(), landmark.y - 12.0));
        outline.push_child(OutlineNode::new(landmark.title.clone(), to));
    }
    document.set_outline(outline);
    for file in attachments {
        let embedded = EmbeddedFile {
            path: file.name,
            mime_type: MimeType::new(file.media),
            description: Some(file.description),
            association_kind: if file.source { AssociationKind::Source } else { AssociationKind::Supplement },
            data: file.bytes.into(),
            modification_date: Some(date(running.at)),
            compress: Some(file.deflate),
            location: None,
        };
        document.embed_file(embedded).ok_or_else(|| refuse("two attachments of one name"))?;
    }
    document.set_metadata(
        Metadata::new()
            .title(running.title.clone())
            .description(running.subject.clone())
            .authors(vec![running.author.clone()])
            .creator("farsiding".to_owned())
            .producer(running.producer.clone())
            .language(running.language.as_str().to_owned())
            .creation_date(date(running.at))
            .document_id(running.document.clone()),
    );
    match document.finish() {
        Ok(file) => Ok(Drawn::File(file)),
        Err(KrillaError::Image(image, ..) | KrillaError::SixteenBitImage(image, _)) => {
            let which = images.iter().position(|known| *known == image).and_then(|at| pictures.get(at));
            which.map_or_else(
                || Err(refuse("a picture cannot be embedded")),
                |picture| Ok(Drawn::Without(BTreeSet::from([picture.sha256]))),
            )
        }
        Err(error) => Err(PacketError::Layout(format!("{error:?}"))),
    }
}
