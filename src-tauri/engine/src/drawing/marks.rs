//! What a page is made of: lines, areas and words at their places, in millimetres of paper, y down. Every writer shows
//! these and nothing else, so that all show the same.

use crate::numerics::real::{cos_deg, sin_deg};

use super::letters;
use super::scene::Align;

/// A colour as its writers spell it: `#rrggbb`.
pub type Hex = &'static str;

/// One thing on the paper.
#[derive(Debug, Clone, PartialEq)]
pub enum PageMark {
    Path(Path),
    Words(Words),
    /// What of some marks lies within an outline.
    Within {
        outline: Vec<[f64; 2]>,
        marks: Vec<PageMark>,
    },
    /// Marks that are one thing to somebody who hears the page read.
    Part {
        is: PartOfPage,
        marks: Vec<PageMark>,
    },
}

/// What a part of a page is to somebody who hears it. What lies in no part is decoration.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PartOfPage {
    /// The page's own heading.
    Title,
    Heading,
    Paragraph,
    /// A picture, in words.
    Figure(String),
    /// Its parts are rows.
    Table,
    /// Its parts are cells.
    Row,
    HeadCell,
    Cell,
}

/// A line, or the outline of an area.
#[derive(Debug, Clone, PartialEq)]
pub struct Path {
    pub steps: Vec<Step>,
    pub stroke: Option<Stroke>,
    pub fill: Option<Fill>,
}

/// One step of a pen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Step {
    Move([f64; 2]),
    Line([f64; 2]),
    /// A Bézier curve: two points that it leans towards, and its end.
    Curve([f64; 2], [f64; 2], [f64; 2]),
    Close,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Stroke {
    pub colour: Hex,
    pub width_mm: f64,
    /// 0 to 1.
    pub opacity: f64,
    /// Strokes and gaps; empty for a continuous line.
    pub dashes_mm: Vec<f64>,
    /// How far into the dashes it begins.
    pub dash_offset_mm: f64,
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fill {
    pub colour: Hex,
    /// 0 to 1.
    pub opacity: f64,
}

/// One line of words.
#[derive(Debug, Clone, PartialEq)]
pub struct Words {
    /// Halfway up the letters, at the end that `align` says.
    pub at_mm: [f64; 2],
    pub size_mm: f64,
    pub align: Align,
    /// Clockwise.
    pub turn_deg: f64,
    pub bold: bool,
    pub colour: Hex,
    /// Whether a paper-coloured rim keeps lines from striking the words through.
    pub rim: bool,
    pub words: String,
}

/// How far under the middle of the letters the line stands that they stand on, in letter heights.
pub const BASELINE_EM: f64 = 0.35;
/// How far letters reach from their middle, in letter heights: up to the accents, down to the tails of g and y.
const REACH_EM: f64 = 0.62;

impl Words {
    /// How wide every writer shows them.
    pub fn width_mm(&self) -> f64 {
        self.size_mm * letters::width_em(&self.words, self.bold)
    }

    /// From the point to the left end, along the words.
    pub fn start_mm(&self) -> f64 {
        match self.align {
            Align::Start => 0.0,
            Align::Middle => -0.5 * self.width_mm(),
            Align::End => -self.width_mm(),
        }
    }

    fn corners(&self) -> [[f64; 2]; 4] {
        let [left, reach] = [self.start_mm(), REACH_EM * self.size_mm];
        let right = left + self.width_mm();
        let (sin, cos) = (sin_deg(self.turn_deg), cos_deg(self.turn_deg));
        [[left, -reach], [right, -reach], [right, reach], [left, reach]]
            .map(|[x, y]| [self.at_mm[0] + x * cos - y * sin, self.at_mm[1] + x * sin + y * cos])
    }
}

/// A box on the page.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Area {
    pub x: f64,
    pub y: f64,
    pub w: f64,
    pub h: f64,
}

impl Area {
    pub const fn new(x: f64, y: f64, w: f64, h: f64) -> Self {
        Self { x, y, w, h }
    }

    pub fn right(self) -> f64 {
        self.x + self.w
    }

    pub fn bottom(self) -> f64 {
        self.y + self.h
    }

    pub fn corners(self) -> [[f64; 2]; 4] {
        let [right, bottom] = [self.right(), self.bottom()];
        [[self.x, self.y], [right, self.y], [right, bottom], [self.x, bottom]]
    }

    /// Smaller by so much on every side.
    pub fn within(self, rim_mm: f64) -> Self {
        Self::new(self.x + rim_mm, self.y + rim_mm, self.w - 2.0 * rim_mm, self.h - 2.0 * rim_mm)
    }

    /// The smallest one around points.
    pub fn around(points: &[[f64; 2]]) -> Option<Self> {
        let first = points.first()?;
        let (mut min, mut max) = (*first, *first);
        for point in points {
            for axis in [0, 1] {
                min[axis] = min[axis].min(point[axis]);
                max[axis] = max[axis].max(point[axis]);
            }
        }
        Some(Self::new(min[0], min[1], max[0] - min[0], max[1] - min[1]))
    }

    pub fn shared(self, other: Self) -> Option<Self> {
        let (x, y) = (self.x.max(other.x), self.y.max(other.y));
        let (right, bottom) = (self.right().min(other.right()), self.bottom().min(other.bottom()));
        (x < right && y < bottom).then(|| Self::new(x, y, right - x, bottom - y))
    }

    pub fn joined(self, other: Self) -> Self {
        let (x, y) = (self.x.min(other.x), self.y.min(other.y));
        let (right, bottom) = (self.right().max(other.right()), self.bottom().max(other.bottom()));
        Self::new(x, y, right - x, bottom - y)
    }

    /// Whether another lies in it, but for a hair.
    pub fn holds(self, other: Self) -> bool {
        const HAIR: f64 = 1e-6;
        other.x >= self.x - HAIR
            && other.y >= self.y - HAIR
            && other.right() <= self.right() + HAIR
            && other.bottom() <= self.bottom() + HAIR
    }
}

/// The line that runs through points.
pub fn steps_through(points: &[[f64; 2]], closed: bool) -> Vec<Step> {
    let moves =
        points.iter().enumerate().map(|(i, &at)| if i == 0 { Step::Move(at) } else { Step::Line(at) });
    moves.chain(closed.then_some(Step::Close)).collect()
}

/// Share of the radius that the handles of a quarter circle's curve have: 4/3·(√2 − 1), which keeps it within 0.03 % of
/// the circle. Source: Riškus, "Approximation of a cubic Bézier curve by circular arcs and vice versa", Information
/// Technology and Control 35 (2006), no. 4 (from memory).
const QUARTER: f64 = 0.552_284_749_830_793_6;

/// An ellipse of two half axes round a point, turned clockwise.
pub(crate) fn ellipse_steps(centre: [f64; 2], half: [f64; 2], turn_deg: f64) -> Vec<Step> {
    let (sin, cos) = (sin_deg(turn_deg), cos_deg(turn_deg));
    let at = |x: f64, y: f64| {
        let [x, y] = [x * half[0], y * half[1]];
        [centre[0] + x * cos - y * sin, centre[1] + x * sin + y * cos]
    };
    let k = QUARTER;
    vec![
        Step::Move(at(1.0, 0.0)),
        Step::Curve(at(1.0, k), at(k, 1.0), at(0.0, 1.0)),
        Step::Curve(at(-k, 1.0), at(-1.0, k), at(-1.0, 0.0)),
        Step::Curve(at(-1.0, -k), at(-k, -1.0), at(0.0, -1.0)),
        Step::Curve(at(k, -1.0), at(1.0, -k), at(1.0, 0.0)),
        Step::Close,
    ]
}

impl Step {
    fn points(&self) -> Vec<[f64; 2]> {
        match *self {
            Self::Move(at) | Self::Line(at) => vec![at],
            Self::Curve(a, b, to) => vec![a, b, to],
            Self::Close => Vec::new(),
        }
    }

    pub(crate) fn moved(self, by: impl Fn([f64; 2]) -> [f64; 2]) -> Self {
        match self {
            Self::Move(at) => Self::Move(by(at)),
            Self::Line(at) => Self::Line(by(at)),
            Self::Curve(a, b, to) => Self::Curve(by(a), by(b), by(to)),
            Self::Close => Self::Close,
        }
    }
}

impl PageMark {
    /// The box that it keeps within; none where nothing is shown. The width of its lines is left out.
    pub fn extent(&self) -> Option<Area> {
        match self {
            Self::Path(path) => Area::around(&path.steps.iter().flat_map(Step::points).collect::<Vec<_>>()),
            Self::Words(words) => Area::around(&words.corners()),
            Self::Within { outline, marks } => {
                let inner = marks.iter().filter_map(Self::extent).reduce(Area::joined)?;
                Area::around(outline)?.shared(inner)
            }
            Self::Part { marks, .. } => marks.iter().filter_map(Self::extent).reduce(Area::joined),
        }
    }

    /// The words in it, in painting order.
    pub fn words(&self) -> Vec<&Words> {
        match self {
            Self::Path(_) => Vec::new(),
            Self::Words(words) => vec![words],
            Self::Within { marks, .. } | Self::Part { marks, .. } => {
                marks.iter().flat_map(Self::words).collect()
            }
        }
    }

    /// The same elsewhere.
    #[must_use]
    pub(crate) fn moved(self, by_mm: [f64; 2]) -> Self {
        let by = |at: [f64; 2]| [at[0] + by_mm[0], at[1] + by_mm[1]];
        match self {
            Self::Path(path) => Self::Path(Path {
                steps: path.steps.into_iter().map(|step| step.moved(by)).collect(),
                ..path
            }),
            Self::Words(words) => Self::Words(Words { at_mm: by(words.at_mm), ..words }),
            Self::Within { outline, marks } => Self::Within {
                outline: outline.into_iter().map(by).collect(),
                marks: marks.into_iter().map(|mark| mark.moved(by_mm)).collect(),
            },
            Self::Part { is, marks } => {
                Self::Part { is, marks: marks.into_iter().map(|mark| mark.moved(by_mm)).collect() }
            }
        }
    }
}

/// Marks as one part of a page.
pub(crate) fn part(is: PartOfPage, marks: Vec<PageMark>) -> PageMark {
    PageMark::Part { is, marks }
}

/// A continuous line's stroke.
pub(crate) fn plain(colour: Hex, width_mm: f64) -> Stroke {
    Stroke { colour, width_mm, opacity: 1.0, dashes_mm: Vec::new(), dash_offset_mm: 0.0 }
}

/// A line through points.
pub(crate) fn line(points: &[[f64; 2]], stroke: Stroke) -> PageMark {
    PageMark::Path(Path { steps: steps_through(points, false), stroke: Some(stroke), fill: None })
}

/// A box, framed or filled.
pub(crate) fn boxed(area: Area, stroke: Option<Stroke>, fill: Option<Hex>) -> PageMark {
    let fill = fill.map(|colour| Fill { colour, opacity: 1.0 });
    PageMark::Path(Path { steps: steps_through(&area.corners(), true), stroke, fill })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::numerics::real::hypot;

    #[test]
    fn an_ellipse_of_equal_axes_is_a_circle_to_three_parts_in_ten_thousand() {
        let mut from = [0.0; 2];
        for step in ellipse_steps([10.0, 20.0], [5.0, 5.0], 33.0) {
            if let Step::Curve(a, b, to) = step {
                // Bernstein polynomials of a cubic curve.
                for t in [0.0, 0.2, 0.5, 0.7, 1.0] {
                    let s = 1.0 - t;
                    let at = [0, 1].map(|i| {
                        s * s * s * from[i]
                            + 3.0 * s * s * t * a[i]
                            + 3.0 * s * t * t * b[i]
                            + t * t * t * to[i]
                    });
                    let radius = hypot(at[0] - 10.0, at[1] - 20.0);
                    assert!((radius - 5.0).abs() < 0.0015, "{radius}");
                }
            }
            from = step.points().last().copied().unwrap_or(from);
        }
    }

    #[test]
    fn words_reach_from_their_point_as_they_are_aligned() {
        let words = |align, turn_deg| Words {
            at_mm: [50.0, 50.0],
            size_mm: 10.0,
            align,
            turn_deg,
            bold: false,
            colour: "#000000",
            rim: false,
            words: "aa".into(),
        };
        let width = 20.0 * 1150.0 / 2048.0;
        let extent = |align, turn| PageMark::Words(words(align, turn)).extent().unwrap();
        assert!((extent(Align::Start, 0.0).x - 50.0).abs() < 1e-9);
        assert!((extent(Align::End, 0.0).right() - 50.0).abs() < 1e-9);
        assert!((extent(Align::Middle, 0.0).w - width).abs() < 0.02);
        // A quarter turn clockwise: they run down.
        let down = extent(Align::Start, 90.0);
        assert!((down.y - 50.0).abs() < 1e-9 && (down.h - width).abs() < 0.02);
    }
}
