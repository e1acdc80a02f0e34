//! Marks as SVG, in millimetres of paper: a page of a document, or a scene by itself.

use std::fmt::Write as _;

use super::marks::{self, Area, BASELINE_EM, PageMark, Path, Step, Words};
use super::scene::{Align, Bounds, Scene};
use super::scene_marks::{SheetFrame, mm_per_m};
use crate::quantity::visible::visible;

/// The fonts that paper is laid out for, then such as any system has one of; the last name is the generic one. Words say
/// how long they are, so that none of them runs into its neighbour.
const FONTS: &str = "Inter, Helvetica, Arial, 'Liberation Sans', 'DejaVu Sans', sans-serif";

/// How large a scene is drawn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SvgStyle {
    pub width_mm: f64,
    pub height_mm: f64,
    /// Letter height in millimetres. Source: ISO 3098-1 has 2.5 mm as its usual least height (from memory).
    pub text_mm: f64,
}

impl SvgStyle {
    /// Fits a scene into a page of this size.
    pub fn fitted(width_mm: f64, height_mm: f64, text_mm: f64) -> Self {
        Self { width_mm, height_mm, text_mm }
    }

    /// Letter height in metres at which a scene of these bounds should be laid out for this style.
    pub fn text_m(&self, bounds: &Bounds) -> f64 {
        self.text_mm / mm_per_m(bounds, [self.width_mm, self.height_mm])
    }
}

/// Writes a scene as a standalone SVG document.
pub fn svg(scene: &Scene, style: &SvgStyle) -> String {
    let area = Area::new(0.0, 0.0, style.width_mm, style.height_mm);
    let frame = SheetFrame::fitted(scene, area, style.text_m(&scene.bounds));
    let marks = [frame.marks(scene)];
    written([area.w, area.h], &scene.title, &scene.description, "p1", marks.iter())
}

/// Writes marks as a document of a size in millimetres on white paper. `id` keeps its parts apart from those of other
/// documents in the same page of a browser.
pub(crate) fn written<'a>(
    size_mm: [f64; 2],
    title: &str,
    description: &str,
    id: &str,
    marks: impl Iterator<Item = &'a PageMark>,
) -> String {
    let mut writer = Writer { out: String::with_capacity(64 * 1024), id, clips: 0 };
    let (w, h) = (number(size_mm[0]), number(size_mm[1]));
    let _ = write!(
        writer.out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{w}mm\" height=\"{h}mm\" viewBox=\"0 0 {w} {h}\" \
         font-family=\"{FONTS}\" stroke-linejoin=\"round\">\n<title>{}</title>\n<desc>{}</desc>\n\
         <rect width=\"{w}\" height=\"{h}\" fill=\"#ffffff\"/>\n",
        escape(title),
        escape(description)
    );
    for mark in marks {
        writer.mark(mark);
    }
    writer.out.push_str("</svg>\n");
    writer.out
}

struct Writer<'a> {
    out: String,
    id: &'a str,
    clips: usize,
}

impl Writer<'_> {
    fn mark(&mut self, mark: &PageMark) {
        match mark {
            PageMark::Path(path) => self.path(path),
            PageMark::Words(words) => self.words(words),
            PageMark::Part { marks, .. } => marks.iter().for_each(|mark| self.mark(mark)),
            PageMark::Within { outline, marks } => {
                self.clips += 1;
                let id = format!("{}-{}", self.id, self.clips);
                let d = path_data(&marks::steps_through(outline, true));
                let _ = writeln!(
                    self.out,
                    "<clipPath id=\"{id}\"><path d=\"{d}\"/></clipPath>\n<g clip-path=\"url(#{id})\">"
                );
                for mark in marks {
                    self.mark(mark);
                }
                self.out.push_str("</g>\n");
            }
        }
    }

    fn path(&mut self, path: &Path) {
        let _ = write!(self.out, "<path d=\"{}\" ", path_data(&path.steps));
        match path.fill {
            Some(fill) => {
                let _ = write!(self.out, "fill=\"{}\"{}", fill.colour, opacity("fill", fill.opacity));
            }
            None => self.out.push_str("fill=\"none\""),
        }
        if let Some(stroke) = &path.stroke {
            let _ = write!(
                self.out,
                " stroke=\"{}\" stroke-width=\"{}\"{}",
                stroke.colour,
                number(stroke.width_mm),
                opacity("stroke", stroke.opacity)
            );
            let dashes: Vec<String> = stroke.dashes_mm.iter().map(|part| number(*part)).collect();
            if !dashes.is_empty() {
                let _ = write!(self.out, " stroke-dasharray=\"{}\"", dashes.join(" "));
            }
            if stroke.dash_offset_mm != 0.0 {
                let _ = write!(self.out, " stroke-dashoffset=\"{}\"", number(stroke.dash_offset_mm));
            }
        }
        self.out.push_str("/>\n");
    }

    /// Words halfway up at their point, as long as they were laid out.
    fn words(&mut self, words: &Words) {
        if words.words.is_empty() {
            return;
        }
        let [x, y] = words.at_mm.map(number);
        let anchor = match words.align {
            Align::Start => "",
            Align::Middle => " text-anchor=\"middle\"",
            Align::End => " text-anchor=\"end\"",
        };
        let turn = if words.turn_deg == 0.0 {
            String::new()
        } else {
            format!(" rotate({})", number(words.turn_deg))
        };
        let weight = if words.bold { " font-weight=\"bold\"" } else { "" };
        let rim = if words.rim {
            let width = number(0.3 * words.size_mm);
            format!(" stroke=\"#ffffff\" stroke-width=\"{width}\" paint-order=\"stroke\"")
        } else {
            String::new()
        };
        let _ = writeln!(
            self.out,
            "<text transform=\"translate({x} {y}){turn}\" y=\"{}\" font-size=\"{}\" textLength=\"{}\" \
             lengthAdjust=\"spacingAndGlyphs\"{anchor}{weight} fill=\"{}\"{rim}>{}</text>",
            number(BASELINE_EM * words.size_mm),
            number(words.size_mm),
            number(words.width_mm()),
            words.colour,
            escape(&words.words)
        );
    }
}

fn opacity(of: &str, share: f64) -> String {
    if share < 1.0 { format!(" {of}-opacity=\"{}\"", number(share)) } else { String::new() }
}

fn path_data(steps: &[Step]) -> String {
    let mut data = String::with_capacity(16 * steps.len());
    for step in steps {
        if !data.is_empty() {
            data.push(' ');
        }
        let _ = match step {
            Step::Move(at) => write!(data, "M{}", pair(*at)),
            Step::Line(at) => write!(data, "L{}", pair(*at)),
            Step::Curve(a, b, to) => write!(data, "C{} {} {}", pair(*a), pair(*b), pair(*to)),
            Step::Close => write!(data, "Z"),
        };
    }
    data
}

fn pair(at: [f64; 2]) -> String {
    let [x, y] = at.map(number);
    format!("{x},{y}")
}

/// A number with at most three decimals and no trailing zeros: a micrometre of paper is enough.
pub(crate) fn number(value: f64) -> String {
    if !value.is_finite() {
        return "0".to_string();
    }
    let text = format!("{value:.3}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_string() } else { text.to_string() }
}

/// Text made safe for XML; characters that XML 1.0 does not allow become a replacement character, and so do marks that
/// turn the writing round: in a name they would turn the figures behind it.
/// Source: W3C XML 1.0 (Fifth Edition), production [2] Char; Unicode Standard Annex 9.
pub(crate) fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in visible(text).chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            '\u{FFFE}' | '\u{FFFF}' => out.push('\u{FFFD}'),
            c => out.push(c),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_can_not_break_the_document() {
        assert_eq!(escape("a<b & \"c\"\u{1}"), "a&lt;b &amp; &quot;c&quot;\u{FFFD}");
        assert_eq!(escape("a\u{202e}b\u{ffff}\nc\u{9b}"), "a\u{FFFD}b\u{FFFD} c\u{FFFD}");
    }

    #[test]
    fn numbers_are_short() {
        assert_eq!(number(1.0), "1");
        assert_eq!(number(-0.0001), "0");
        assert_eq!(number(f64::NAN), "0");
    }
}
