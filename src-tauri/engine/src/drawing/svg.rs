//! A scene as SVG, in millimetres of paper.

use std::fmt::Write as _;

use super::labels::role_em;
use super::paint::{self, Fill};
use super::scene::{Align, Bounds, Geometry, Role, Scene, Shape};
use super::signs;

/// Fonts that any system has one of; the last name is the generic one.
pub(crate) const FONTS: &str = "Helvetica, Arial, 'Liberation Sans', 'DejaVu Sans', sans-serif";

/// How large a scene is drawn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SvgStyle {
    pub width_mm: f64,
    pub height_mm: f64,
    /// 1 : this; none fits the scene's bounds to the page.
    pub scale_denominator: Option<f64>,
    /// Letter height in millimetres. Source: ISO 3098-1 has 2.5 mm as its usual least height (from memory).
    pub text_mm: f64,
}

impl SvgStyle {
    /// Fits a scene into a page of this size.
    pub fn fitted(width_mm: f64, height_mm: f64, text_mm: f64) -> Self {
        Self { width_mm, height_mm, scale_denominator: None, text_mm }
    }

    /// Letter height in metres at which a scene of these bounds should be laid out for this style.
    pub fn text_m(&self, bounds: &Bounds) -> f64 {
        self.text_mm / self.mm_per_m(bounds)
    }

    fn mm_per_m(&self, bounds: &Bounds) -> f64 {
        match self.scale_denominator {
            Some(denominator) => 1000.0 / denominator,
            None => {
                (self.width_mm / bounds.width().max(1e-6)).min(self.height_mm / bounds.height().max(1e-6))
            }
        }
    }
}

/// Writes a scene as a standalone SVG document.
pub fn svg(scene: &Scene, style: &SvgStyle) -> String {
    let frame = Frame::new(scene, style, [0.0, 0.0]);
    let mut out = String::with_capacity(32 * 1024);
    open(&mut out, [style.width_mm, style.height_mm], &scene.title, &scene.description);
    rect(&mut out, [0.0, 0.0, style.width_mm, style.height_mm], "fill=\"#ffffff\"");
    for shape in &scene.shapes {
        frame.shape(&mut out, shape);
    }
    out.push_str("</svg>\n");
    out
}

/// Opens a document of a size in millimetres, with its title, description, hatches.
pub(crate) fn open(out: &mut String, size_mm: [f64; 2], title: &str, description: &str) {
    let (w, h) = (number(size_mm[0]), number(size_mm[1]));
    let _ = write!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{w}mm\" height=\"{h}mm\" viewBox=\"0 0 {w} {h}\" \
         font-family=\"{FONTS}\" stroke-linejoin=\"round\">\n<title>{}</title>\n<desc>{}</desc>\n",
        escape(title),
        escape(description)
    );
    hatches(out);
}

fn hatches(out: &mut String) {
    out.push_str("<defs>\n");
    for role in [Role::BuildingArea, Role::KeepOffArea, Role::OverheadZone] {
        let paint = paint::of(role);
        if let Fill::Hatch { id, angle_deg, spacing_mm } = paint.fill {
            let s = number(spacing_mm);
            let _ = writeln!(
                out,
                "<pattern id=\"hatch-{id}\" width=\"{s}\" height=\"{s}\" patternUnits=\"userSpaceOnUse\" \
                 patternTransform=\"rotate({})\"><path d=\"M0,0 V{s}\" stroke=\"{}\" stroke-width=\"0.18\" \
                 stroke-opacity=\"0.55\"/></pattern>",
                number(angle_deg),
                paint.ink.paper()
            );
        }
    }
    out.push_str("</defs>\n");
}

/// Where the scene's metres land on the page.
pub(crate) struct Frame {
    mm_per_m: f64,
    /// Scene point at the frame's middle, and the frame's middle on the page.
    centre_m: [f64; 2],
    centre_mm: [f64; 2],
    text_mm: f64,
}

impl Frame {
    /// A frame of the style's size whose upper left corner stands at `corner_mm`.
    pub(crate) fn new(scene: &Scene, style: &SvgStyle, corner_mm: [f64; 2]) -> Self {
        let b = &scene.bounds;
        Self {
            mm_per_m: style.mm_per_m(b),
            centre_m: [(b.min[0] + b.max[0]) / 2.0, (b.min[1] + b.max[1]) / 2.0],
            centre_mm: [corner_mm[0] + style.width_mm / 2.0, corner_mm[1] + style.height_mm / 2.0],
            text_mm: style.text_mm,
        }
    }

    fn point(&self, at: [f64; 2]) -> [f64; 2] {
        [
            self.centre_mm[0] + (at[0] - self.centre_m[0]) * self.mm_per_m,
            self.centre_mm[1] - (at[1] - self.centre_m[1]) * self.mm_per_m,
        ]
    }

    /// Writes one shape.
    pub(crate) fn shape(&self, out: &mut String, shape: &Shape) {
        let role = shape.role;
        match &shape.geometry {
            Geometry::Line { points } => self.path(out, role, points, false),
            Geometry::Area { points } => self.path(out, role, points, true),
            Geometry::Circle { centre, radius_m } => {
                let [x, y] = self.point(*centre).map(number);
                let r = number(radius_m * self.mm_per_m);
                let _ = writeln!(out, "<circle cx=\"{x}\" cy=\"{y}\" r=\"{r}\" {}/>", stroke(role, true));
            }
            Geometry::Ellipse { centre, semi_major_m, semi_minor_m, bearing_deg } => {
                let [x, y] = self.point(*centre).map(number);
                let (rx, ry) = (number(semi_minor_m * self.mm_per_m), number(semi_major_m * self.mm_per_m));
                let turn = number(*bearing_deg);
                let _ = writeln!(
                    out,
                    "<ellipse rx=\"{rx}\" ry=\"{ry}\" transform=\"translate({x} {y}) rotate({turn})\" {}/>",
                    stroke(role, true)
                );
            }
            Geometry::Sign { at, turn_deg } => sign(out, role, self.point(*at), *turn_deg, self.text_mm),
            Geometry::Words { at, text: words, align, turn_deg } => {
                let size = self.text_mm * role_em(role);
                text(
                    out,
                    &Text {
                        at_mm: self.point(*at),
                        size_mm: size,
                        align: *align,
                        turn_deg: *turn_deg,
                        role,
                        bold: role == Role::Label,
                        rim: true,
                    },
                    words,
                );
            }
        }
    }

    fn path(&self, out: &mut String, role: Role, points: &[[f64; 2]], closed: bool) {
        out.push_str("<path d=\"");
        for (i, &point) in points.iter().enumerate() {
            let [x, y] = self.point(point).map(number);
            let _ = write!(out, "{}{x},{y}", if i == 0 { "M" } else { " L" });
        }
        let _ = writeln!(out, "{}\" {}/>", if closed { " Z" } else { "" }, stroke(role, closed));
    }
}

/// Stroke and fill attributes of a role.
pub(crate) fn stroke(role: Role, closed: bool) -> String {
    let paint = paint::of(role);
    let (ink, width_mm) = (paint.ink.paper(), paint.pen.mm());
    let fill = match paint.fill {
        Fill::Plain(colour) if closed => colour.paper().to_owned(),
        Fill::Tint(share) if closed => format!("{ink}\" fill-opacity=\"{}", number(share)),
        Fill::Hatch { id, .. } if closed => format!("url(#hatch-{id})"),
        _ => "none".to_owned(),
    };
    let dashes: Vec<String> = paint.line.pattern().iter().map(|part| number(part * width_mm)).collect();
    let dashes =
        if dashes.is_empty() { String::new() } else { format!(" stroke-dasharray=\"{}\"", dashes.join(" ")) };
    format!("fill=\"{fill}\" stroke=\"{ink}\" stroke-width=\"{}\"{dashes}", number(width_mm))
}

/// Writes a sign of fixed size.
pub(crate) fn sign(out: &mut String, role: Role, at_mm: [f64; 2], turn_deg: f64, text_mm: f64) {
    let (line, solid_fill) = paint::of_sign(role);
    let [x, y] = at_mm.map(number);
    let turn = if turn_deg == 0.0 { String::new() } else { format!(" rotate({})", number(turn_deg)) };
    let scale = number(text_mm);
    let _ = write!(
        out,
        "<g transform=\"translate({x} {y}){turn} scale({scale})\" stroke=\"{}\" stroke-width=\"{}\">",
        line.paper(),
        number(paint::sign_stroke_em(role) * 2.5 / text_mm)
    );
    for &(d, solid) in signs::path(role) {
        let fill = if solid { solid_fill.paper() } else { "none" };
        let _ = write!(out, "<path d=\"{d}\" fill=\"{fill}\"/>");
    }
    out.push_str("</g>\n");
}

/// How a text is set.
pub(crate) struct Text {
    pub(crate) at_mm: [f64; 2],
    pub(crate) size_mm: f64,
    pub(crate) align: Align,
    pub(crate) turn_deg: f64,
    pub(crate) role: Role,
    pub(crate) bold: bool,
    /// Whether a paper-coloured rim keeps lines from striking the words through.
    pub(crate) rim: bool,
}

/// Writes words halfway up at their point.
pub(crate) fn text(out: &mut String, style: &Text, words: &str) {
    let [x, y] = style.at_mm.map(number);
    let anchor = match style.align {
        Align::Start => "",
        Align::Middle => " text-anchor=\"middle\"",
        Align::End => " text-anchor=\"end\"",
    };
    let turn =
        if style.turn_deg == 0.0 { String::new() } else { format!(" rotate({})", number(style.turn_deg)) };
    let weight = if style.bold { " font-weight=\"bold\"" } else { "" };
    let colour = paint::of(style.role).ink.paper();
    let rim = if style.rim {
        let width = number(0.3 * style.size_mm);
        format!(" stroke=\"#ffffff\" stroke-width=\"{width}\" paint-order=\"stroke\"")
    } else {
        String::new()
    };
    let _ = writeln!(
        out,
        "<text transform=\"translate({x} {y}){turn}\" y=\"{}\" font-size=\"{}\"{anchor}{weight} fill=\"{colour}\"{rim}>{}</text>",
        number(0.35 * style.size_mm),
        number(style.size_mm),
        escape(words)
    );
}

pub(crate) fn rect(out: &mut String, x_y_w_h: [f64; 4], attributes: &str) {
    let [x, y, w, h] = x_y_w_h.map(number);
    let _ = writeln!(out, "<rect x=\"{x}\" y=\"{y}\" width=\"{w}\" height=\"{h}\" {attributes}/>");
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

/// Text made safe for XML; characters that XML 1.0 does not allow become a replacement character.
/// Source: W3C XML 1.0 (Fifth Edition), production [2] Char.
pub(crate) fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            '\t' | '\n' | '\r' => out.push(' '),
            c if (c as u32) < 0x20 || c == '\u{FFFE}' || c == '\u{FFFF}' => out.push('\u{FFFD}'),
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
    }

    #[test]
    fn a_scale_of_1_to_100_puts_a_metre_on_ten_millimetres() {
        let scene = Scene {
            title: "t".into(),
            bounds: Bounds { min: [0.0, 0.0], max: [1.0, 1.0] },
            still: 0,
            shapes: vec![Shape {
                role: Role::Guy,
                subject: None,
                geometry: Geometry::Line { points: vec![[0.0, 0.0], [1.0, 0.0]] },
            }],
            description: String::new(),
        };
        let style =
            SvgStyle { width_mm: 30.0, height_mm: 30.0, scale_denominator: Some(100.0), text_mm: 2.5 };
        // ISO 5455, 1:100. y runs down: the scene's lower edge lies below the middle.
        assert!(svg(&scene, &style).contains("d=\"M10,20 L20,20\""));
    }

    #[test]
    fn numbers_are_short() {
        assert_eq!(number(1.0), "1");
        assert_eq!(number(-0.0001), "0");
        assert_eq!(number(f64::NAN), "0");
    }
}
