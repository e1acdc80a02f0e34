//! A document's pages as PDF: marks become paths and words, tags, bookmarks and metadata are added.

use chrono::{DateTime, Datelike, FixedOffset, Timelike};
use krilla::color::rgb;
use krilla::configure::{Accessibility, ConfigurationBuilder};
use krilla::destination::XyzDestination;
use krilla::geom::{Path as PdfPath, PathBuilder, Point, Size, Transform};
use krilla::metadata::{DateTime as PdfDate, Metadata};
use krilla::num::NormalizedF32;
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;
use krilla::paint::{Fill, FillRule, LineJoin, Stroke, StrokeDash};
use krilla::surface::Surface;
use krilla::tagging::{TagGroup, TagTree};
use krilla::{Document as Pdf, SerializeSettings};
use mastwright_engine::drawing::marks::{self, BASELINE_EM, PageMark, Step, Words};
use mastwright_engine::drawing::pages::{About, Page, PaperDocument};

use crate::letters::Letters;
use crate::tags::tagged;

/// Points of a PDF in a millimetre. Source: ISO 32000-1:2008, 8.3.2.3: a point is 1/72 inch.
const PT_PER_MM: f64 = 72.0 / 25.4;

/// Of all words that are not a user's own.
const LANGUAGE: &str = "en";

/// Why a document can't be written: nothing that a job can bring about.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Failure(pub String);

fn failure(what: impl Into<String>) -> Failure {
    Failure(what.into())
}

/// Writes a document. The same document gives the same bytes, whenever and wherever. It is PDF/UA-1, and says so, but where
/// the fonts lack a letter: an empty box is nothing to read out. What PDF/UA refuses besides is no reason to be without
/// the sheets: they are then written without that claim.
///
/// # Errors
/// Where a page has no size.
/// # References
/// ISO 14289-1:2014, by krilla's checks of it.
pub fn pdf(document: &PaperDocument) -> Result<Vec<u8>, Failure> {
    let has_all_letters = document.unknown_letters().is_empty();
    let accessible = has_all_letters.then(|| written(document, true).ok()).flatten();
    accessible.map_or_else(|| written(document, false), Ok)
}

fn written(document: &PaperDocument, accessible: bool) -> Result<Vec<u8>, Failure> {
    let letters = Letters::both().ok_or_else(|| failure("the fonts can't be read"))?;
    let mut pdf = Pdf::new_with(settings(accessible)?);
    pdf.set_metadata(metadata(&document.about));
    let mut outline = Outline::new();
    let mut tags = TagTree::new().with_lang(Some(LANGUAGE.into()));
    for (number, page) in document.pages.iter().enumerate() {
        tags.push(draw(&mut pdf, page, &letters)?);
        let top = XyzDestination::new(number, Point::from_xy(0.0, 0.0));
        outline.push_child(OutlineNode::new(page.name.clone(), top));
    }
    pdf.set_outline(outline);
    pdf.set_tag_tree(tags);
    pdf.finish().map_err(|error| failure(format!("{error:?}")))
}

fn settings(accessible: bool) -> Result<SerializeSettings, Failure> {
    let mut builder = ConfigurationBuilder::new();
    if accessible {
        builder = builder.with_accessibility_validator(Accessibility::UA1);
    }
    let configuration = builder.finish().map_err(|error| failure(format!("{error:?}")))?;
    Ok(SerializeSettings { configuration, ..SerializeSettings::default() })
}

fn metadata(about: &About) -> Metadata {
    let mut metadata = Metadata::new()
        .title(about.title.clone())
        .creator("Mastwright".into())
        .language(LANGUAGE.into())
        .authors(about.author.iter().cloned().collect());
    if let Some(at) = about.made_at {
        metadata = metadata.creation_date(date(at));
    }
    metadata
}

fn date(at: DateTime<FixedOffset>) -> PdfDate {
    let small = |value: u32| u8::try_from(value).unwrap_or_default();
    let east = at.offset().local_minus_utc() / 60;
    PdfDate::new(u16::try_from(at.year()).unwrap_or_default())
        .month(small(at.month()))
        .day(small(at.day()))
        .hour(small(at.hour()))
        .minute(small(at.minute()))
        .second(small(at.second()))
        .utc_offset_hour(i8::try_from(east / 60).unwrap_or_default())
        .utc_offset_minute(small(east.unsigned_abs() % 60))
}

/// Draws a page and gives what it says to somebody who hears it.
fn draw(pdf: &mut Pdf, page: &Page, letters: &[Letters; 2]) -> Result<TagGroup, Failure> {
    let [w, h] = page.size_mm.map(|mm| (mm * PT_PER_MM) as f32);
    let size = Size::from_wh(w, h).ok_or_else(|| failure("a page without a size"))?;
    let mut own = pdf.start_page_with(PageSettings::new(size));
    let mut surface = own.surface();
    let tags = tagged(&mut surface, page, letters);
    surface.finish();
    own.finish();
    Ok(tags)
}

pub(crate) fn put(surface: &mut Surface<'_>, mark: &PageMark, letters: &[Letters; 2]) {
    match mark {
        PageMark::Path(path) => {
            let Some(steps) = path_of(&path.steps) else { return };
            surface.set_fill(path.fill.map(|fill| filled(fill.colour, fill.opacity)));
            surface.set_stroke(path.stroke.as_ref().map(stroked));
            surface.draw_path(&steps);
        }
        PageMark::Words(words) => set(surface, words, letters),
        PageMark::Part { marks, .. } => marks.iter().for_each(|mark| put(surface, mark, letters)),
        PageMark::Within { outline, marks } => {
            let steps: Vec<Step> = marks::steps_through(outline, true);
            let Some(outline) = path_of(&steps) else { return };
            surface.push_clip_path(&outline, &FillRule::NonZero);
            for mark in marks {
                put(surface, mark, letters);
            }
            surface.pop();
        }
    }
}

/// Words on their line. Their rim goes under them as outlines, so that they stand in the text once.
fn set(surface: &mut Surface<'_>, words: &Words, letters: &[Letters; 2]) {
    let [regular, bold] = letters;
    let letters = if words.bold { bold } else { regular };
    let glyphs = letters.glyphs(words);
    if glyphs.is_empty() {
        return;
    }
    let [x, y] = words.at_mm.map(|mm| (mm * PT_PER_MM) as f32);
    let place = Transform::from_translate(x, y);
    surface.push_transform(&place);
    surface.push_transform(&Transform::from_rotate(words.turn_deg as f32));
    let start = [words.start_mm(), BASELINE_EM * words.size_mm].map(|mm| (mm * PT_PER_MM) as f32);
    let start = Point::from_xy(start[0], start[1]);
    let size = (words.size_mm * PT_PER_MM) as f32;
    if words.rim {
        surface.set_fill(None);
        surface.set_stroke(Some(Stroke {
            paint: rgb::Color::white().into(),
            width: 0.3 * size,
            line_join: LineJoin::Round,
            ..Stroke::default()
        }));
        surface.draw_glyphs(start, &glyphs, letters.font.clone(), &words.words, size, true);
    }
    surface.set_stroke(None);
    surface.set_fill(Some(filled(words.colour, 1.0)));
    surface.draw_glyphs(start, &glyphs, letters.font.clone(), &words.words, size, false);
    surface.pop();
    surface.pop();
}

fn path_of(steps: &[Step]) -> Option<PdfPath> {
    let mut path = PathBuilder::new();
    let pt = |at: [f64; 2]| at.map(|mm| (mm * PT_PER_MM) as f32);
    for step in steps {
        match *step {
            Step::Move(at) => {
                let [x, y] = pt(at);
                path.move_to(x, y);
            }
            Step::Line(at) => {
                let [x, y] = pt(at);
                path.line_to(x, y);
            }
            Step::Curve(a, b, to) => {
                let ([ax, ay], [bx, by], [x, y]) = (pt(a), pt(b), pt(to));
                path.cubic_to(ax, ay, bx, by, x, y);
            }
            Step::Close => path.close(),
        }
    }
    path.finish()
}

fn filled(colour: &str, opacity: f64) -> Fill {
    Fill { paint: colour_of(colour).into(), opacity: share(opacity), rule: FillRule::NonZero }
}

fn stroked(stroke: &marks::Stroke) -> Stroke {
    let pt = |mm: f64| (mm * PT_PER_MM) as f32;
    let array: Vec<f32> = stroke.dashes_mm.iter().map(|&mm| pt(mm)).collect();
    Stroke {
        paint: colour_of(stroke.colour).into(),
        width: pt(stroke.width_mm),
        line_join: LineJoin::Round,
        opacity: share(stroke.opacity),
        dash: (!array.is_empty()).then(|| StrokeDash { array, offset: pt(stroke.dash_offset_mm) }),
        ..Stroke::default()
    }
}

fn share(of_one: f64) -> NormalizedF32 {
    NormalizedF32::new(of_one as f32).unwrap_or(NormalizedF32::ONE)
}

/// `#rrggbb`.
fn colour_of(hex: &str) -> rgb::Color {
    let part =
        |at: usize| hex.get(at..at + 2).and_then(|two| u8::from_str_radix(two, 16).ok()).unwrap_or_default();
    rgb::Color::new(part(1), part(3), part(5))
}
