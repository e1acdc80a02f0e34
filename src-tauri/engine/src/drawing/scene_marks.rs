//! A scene on paper: its shapes in metres become marks in millimetres, painted as their roles say.

use crate::numerics::real::{cos_deg, sin_deg};

use super::labels::role_em;
use super::marks::{
    self, Area, PageMark, Path, Step, Stroke, Words, ellipse_steps, line, plain, steps_through,
};
use super::paint::{self, SkinFill};
use super::scene::{Align, Bounds, Geometry, Role, Scene, SceneShape};
use super::sign_paths;
use super::signs;

/// A hatch's strokes: their width and how much they cover.
const HATCH_MM: f64 = 0.18;
const HATCH_OPACITY: f64 = 0.55;

/// Where a scene's metres land on the page.
pub(crate) struct SheetFrame {
    mm_per_m: f64,
    /// Scene point at the frame's middle.
    centre_m: [f64; 2],
    area: Area,
    text_mm: f64,
}

impl SheetFrame {
    /// The scene's middle in the middle of an area, at 1 : `scale_denominator`.
    pub(crate) fn at_scale(scene: &Scene, area: Area, scale_denominator: f64, text_mm: f64) -> Self {
        let b = &scene.bounds;
        let centre_m = [(b.min[0] + b.max[0]) / 2.0, (b.min[1] + b.max[1]) / 2.0];
        Self { mm_per_m: 1000.0 / scale_denominator, centre_m, area, text_mm }
    }

    /// The scene as large as the area takes, its letters as high as they were laid out.
    pub(crate) fn fitted(scene: &Scene, area: Area, text_m: f64) -> Self {
        let denominator = 1000.0 / mm_per_m(&scene.bounds, [area.w, area.h]);
        Self::at_scale(scene, area, denominator, text_m * 1000.0 / denominator)
    }

    fn point(&self, at: [f64; 2]) -> [f64; 2] {
        [
            self.area.x + self.area.w / 2.0 + (at[0] - self.centre_m[0]) * self.mm_per_m,
            self.area.y + self.area.h / 2.0 - (at[1] - self.centre_m[1]) * self.mm_per_m,
        ]
    }

    /// All shapes of a scene, cut off at the frame.
    pub(crate) fn marks(&self, scene: &Scene) -> PageMark {
        let marks = scene.shapes.iter().flat_map(|shape| self.shape(shape)).collect();
        PageMark::Within { outline: self.area.corners().to_vec(), marks }
    }

    fn shape(&self, shape: &SceneShape) -> Vec<PageMark> {
        let role = shape.role;
        match &shape.geometry {
            Geometry::Line { points } => {
                let points: Vec<[f64; 2]> = points.iter().map(|&at| self.point(at)).collect();
                vec![line(&points, stroke(role))]
            }
            Geometry::Area { points } => {
                let points: Vec<[f64; 2]> = points.iter().map(|&at| self.point(at)).collect();
                area(role, steps_through(&points, true), &points, self.area)
            }
            Geometry::Circle { centre, radius_m } => {
                let radius = radius_m * self.mm_per_m;
                self.round(role, *centre, [radius, radius], 0.0)
            }
            Geometry::Ellipse { centre, semi_major_m, semi_minor_m, bearing_deg } => {
                let half = [semi_minor_m * self.mm_per_m, semi_major_m * self.mm_per_m];
                self.round(role, *centre, half, *bearing_deg)
            }
            Geometry::Sign { at, turn_deg } => sign(role, self.point(*at), *turn_deg, self.text_mm),
            Geometry::Words { at, text, align, turn_deg } => vec![PageMark::Words(Words {
                at_mm: self.point(*at),
                size_mm: self.text_mm * role_em(role),
                align: *align,
                turn_deg: *turn_deg,
                bold: role == Role::Label,
                colour: paint::of(role).ink.paper(),
                // By night the paper is dark.
                rim: role != Role::NightLabel,
                words: text.clone(),
            })],
        }
    }

    fn round(&self, role: Role, centre: [f64; 2], half: [f64; 2], turn_deg: f64) -> Vec<PageMark> {
        let centre = self.point(centre);
        let steps = ellipse_steps(centre, half, turn_deg);
        area(role, steps, &rim(centre, half, turn_deg), self.area)
    }
}

/// Corners close round an ellipse: what its hatch is cut off at.
pub(crate) fn rim(centre: [f64; 2], half: [f64; 2], turn_deg: f64) -> Vec<[f64; 2]> {
    let (sin, cos) = (sin_deg(turn_deg), cos_deg(turn_deg));
    let at = |deg: f64| {
        let [x, y] = [half[0] * cos_deg(deg), half[1] * sin_deg(deg)];
        [centre[0] + x * cos - y * sin, centre[1] + x * sin + y * cos]
    };
    (0..64).map(|i| at(f64::from(i) * 360.0 / 64.0)).collect()
}

/// How large a scene is drawn to fit a size.
pub(crate) fn mm_per_m(bounds: &Bounds, size_mm: [f64; 2]) -> f64 {
    (size_mm[0] / bounds.width().max(1e-6)).min(size_mm[1] / bounds.height().max(1e-6))
}

/// The stroke of a role's lines.
pub(crate) fn stroke(role: Role) -> Stroke {
    let paint = paint::of(role);
    let width_mm = paint.pen.mm();
    let dashes_mm = paint.line.pattern().iter().map(|part| part * width_mm).collect();
    Stroke { dashes_mm, ..plain(paint.ink.paper(), width_mm) }
}

/// An area of a role, by its steps and by the corners around it, no more of its hatch than `room` shows.
pub(crate) fn area(role: Role, steps: Vec<Step>, corners: &[[f64; 2]], room: Area) -> Vec<PageMark> {
    let paint = paint::of(role);
    let ink = paint.ink.paper();
    let fill = match paint.fill {
        SkinFill::Plain(colour) => Some(marks::Fill { colour: colour.paper(), opacity: 1.0 }),
        SkinFill::Tint(opacity) => Some(marks::Fill { colour: ink, opacity }),
        SkinFill::None | SkinFill::Hatch { .. } => None,
    };
    let outline = PageMark::Path(Path { steps, stroke: Some(stroke(role)), fill });
    let SkinFill::Hatch { angle_deg, spacing_mm, .. } = paint.fill else { return vec![outline] };
    let Some(seen) = Area::around(corners).and_then(|own| own.shared(room)) else { return vec![outline] };
    let pen = Stroke { opacity: HATCH_OPACITY, ..plain(ink, HATCH_MM) };
    let steps = hatch(seen, angle_deg, spacing_mm);
    let lines = PageMark::Path(Path { steps, stroke: Some(pen), fill: None });
    vec![PageMark::Within { outline: corners.to_vec(), marks: vec![lines] }, outline]
}

/// Lines across an area, upright ones turned clockwise by an angle, as far apart as said; on a grid of the whole page,
/// so that two areas beside each other are hatched as one.
fn hatch(area: Area, angle_deg: f64, spacing_mm: f64) -> Vec<Step> {
    let across = [cos_deg(angle_deg), sin_deg(angle_deg)];
    let along = [-across[1], across[0]];
    let span = |unit: [f64; 2]| {
        let places = area.corners().map(|at| at[0] * unit[0] + at[1] * unit[1]);
        [
            places.into_iter().fold(f64::INFINITY, f64::min),
            places.into_iter().fold(f64::NEG_INFINITY, f64::max),
        ]
    };
    let ([from, to], [start, end]) = (span(across), span(along));
    let at = |k: f64, t: f64| [0, 1].map(|i| k * across[i] + t * along[i]);
    // The area lies within a page: some hundred lines at most.
    let first = (from / spacing_mm).ceil() as i64;
    let last = (to / spacing_mm).floor() as i64;
    let lines = (first..=last).map(|number| number as f64 * spacing_mm);
    lines.flat_map(|k| [Step::Move(at(k, start)), Step::Line(at(k, end))]).collect()
}

/// A sign of fixed size, in letters as high as said.
pub(crate) fn sign(role: Role, at_mm: [f64; 2], turn_deg: f64, text_mm: f64) -> Vec<PageMark> {
    let (line, solid_fill) = paint::of_sign(role);
    let (sin, cos) = (sin_deg(turn_deg), cos_deg(turn_deg));
    let place = |[x, y]: [f64; 2]| {
        let [x, y] = [x * text_mm, y * text_mm];
        [at_mm[0] + x * cos - y * sin, at_mm[1] + x * sin + y * cos]
    };
    let part = |&(data, solid): &(&str, bool)| {
        let steps = sign_paths::steps(data).into_iter().map(|step| step.moved(place)).collect();
        let stroke = Some(plain(line.paper(), paint::sign_stroke_em(role) * 2.5));
        let fill = solid.then(|| marks::Fill { colour: solid_fill.paper(), opacity: 1.0 });
        PageMark::Path(Path { steps, stroke, fill })
    };
    signs::path(role).iter().map(part).collect()
}

/// Words of the ink that labels have.
pub(crate) fn words(at_mm: [f64; 2], size_mm: f64, bold: bool, align: Align, words: &str) -> PageMark {
    PageMark::Words(Words {
        at_mm,
        size_mm,
        align,
        turn_deg: 0.0,
        bold,
        colour: paint::INK.paper(),
        rim: false,
        words: words.to_owned(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hatch_lies_on_the_grid_of_the_page() {
        // Upright lines every 2 mm over 10.5…15.5: at 12 and 14.
        let steps = hatch(Area::new(10.5, 3.0, 5.0, 4.0), 0.0, 2.0);
        let xs: Vec<f64> = steps
            .iter()
            .filter_map(|step| if let Step::Move(at) = step { Some(at[0]) } else { None })
            .collect();
        assert_eq!(xs, [12.0, 14.0]);
    }

    #[test]
    fn a_scale_of_1_to_100_puts_a_metre_on_ten_millimetres() {
        let bounds = Bounds { min: [0.0, 0.0], max: [1.0, 1.0] };
        let scene = Scene {
            title: String::new(),
            bounds,
            static_count: 0,
            shapes: Vec::new(),
            description: String::new(),
        };
        let frame = SheetFrame::at_scale(&scene, Area::new(0.0, 0.0, 30.0, 30.0), 100.0, 2.5);
        // ISO 5455, 1:100. y runs down: the scene's lower edge lies below the middle.
        assert_eq!([frame.point([0.0, 0.0]), frame.point([1.0, 0.0])], [[10.0, 20.0], [20.0, 20.0]]);
    }
}
