//! The key: a sample of each kind of thing that a picture shows, and of no other.

use crate::drawing::geometry::bounds_of;
use crate::drawing::key;
use crate::drawing::marks::{Area, PageMark, PartOfPage, ellipse_steps, line as ruled, part, steps_through};
use crate::drawing::scene::{Bounds, Geometry, Role, Scene};
use crate::drawing::scene_marks::{area as filled, rim, sign, stroke};

use super::text::{SMALL_MM, line, shortened};

/// Heights of a row where there is room, and where there is not.
const ROW_MM: f64 = 3.7;
const LEAST_ROW_MM: f64 = 3.0;
const SAMPLE_MM: f64 = 9.0;
/// Above this width it has two columns.
const TWO_COLUMNS_MM: f64 = 80.0;

/// Samples with their names.
#[derive(Debug, Clone, PartialEq)]
pub struct Key {
    entries: Vec<(Role, Kind, &'static str)>,
}

/// How a role shows itself.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Kind {
    Line,
    Area,
    Round,
    Sign,
}

impl Key {
    /// Every named role of the scene once, the work first.
    pub(crate) fn of(scene: &Scene) -> Self {
        let mut entries: Vec<(Role, Kind, &'static str)> = Vec::new();
        // The last painted lie on top and matter most.
        for shape in scene.shapes.iter().rev() {
            let Some(words) = key::name(shape.role) else { continue };
            let kind = match shape.geometry {
                Geometry::Line { .. } => Kind::Line,
                Geometry::Area { .. } => Kind::Area,
                Geometry::Circle { .. } | Geometry::Ellipse { .. } => Kind::Round,
                Geometry::Sign { .. } => Kind::Sign,
                Geometry::Words { .. } => continue,
            };
            if shows(&shape.geometry, &scene.bounds) && !entries.iter().any(|entry| entry.0 == shape.role) {
                entries.push((shape.role, kind, words));
            }
        }
        Self { entries }
    }

    fn columns(&self, width_mm: f64) -> usize {
        if width_mm > TWO_COLUMNS_MM { 2 } else { 1 }
    }

    pub(crate) fn height_mm(&self, width_mm: f64) -> f64 {
        ROW_MM * self.entries.len().div_ceil(self.columns(width_mm)) as f64
    }

    /// What finds room in rows as low as they may be, and the rest.
    pub(crate) fn split(mut self, width_mm: f64, room_mm: f64, force: bool) -> (Option<Self>, Option<Self>) {
        // In a low place two columns of short names are better than a second page.
        let rows = (room_mm / LEAST_ROW_MM).floor().max(if force { 1.0 } else { 0.0 }) as usize;
        let most = rows * self.columns(width_mm).max(if width_mm > 0.7 * TWO_COLUMNS_MM { 2 } else { 1 });
        if most == 0 {
            return (None, Some(self));
        }
        let rest = self.entries.split_off(most.min(self.entries.len()));
        (Some(self), (!rest.is_empty()).then_some(Self { entries: rest }))
    }

    pub(crate) fn draw(&self, area: Area) -> Vec<PageMark> {
        let most = ((area.h / LEAST_ROW_MM).floor() as usize).max(1);
        let columns = self.entries.len().div_ceil(most).max(self.columns(area.w));
        let rows = self.entries.len().div_ceil(columns).max(1);
        let step = ROW_MM.min(area.h / rows as f64);
        let width = area.w / columns as f64;
        let mut marks = Vec::new();
        for (i, (role, kind, words)) in self.entries.iter().enumerate() {
            let x = area.x + width * (i / rows) as f64;
            let y = area.y + step * ((i % rows) as f64 + 0.5);
            marks.extend(sample(*role, *kind, [x, y]));
            let text = shortened(words, SMALL_MM, false, width - SAMPLE_MM - 2.0);
            let text = line([x + SAMPLE_MM + 1.2, y], SMALL_MM, false, &text);
            marks.push(part(PartOfPage::Paragraph, vec![text]));
        }
        marks
    }
}

/// Whether any of a shape lies in the picture, by the box around it.
fn shows(geometry: &Geometry, bounds: &Bounds) -> bool {
    let own = match geometry {
        Geometry::Line { points } | Geometry::Area { points } => bounds_of(points),
        Geometry::Circle { centre, radius_m } => Some(Bounds::around(*centre, *radius_m)),
        Geometry::Ellipse { centre, semi_major_m, .. } => Some(Bounds::around(*centre, *semi_major_m)),
        Geometry::Sign { at, .. } | Geometry::Words { at, .. } => Some(Bounds { min: *at, max: *at }),
    };
    own.is_some_and(|own| own.intersection(*bounds).is_some())
}

fn sample(role: Role, kind: Kind, at: [f64; 2]) -> Vec<PageMark> {
    let [left, y] = at;
    let middle = [left + SAMPLE_MM / 2.0, y];
    match kind {
        Kind::Line => {
            // Started within its first stroke, so that a short sample shows the gap and the dots too.
            let mut pen = stroke(role);
            pen.dash_offset_mm = 0.65 * pen.dashes_mm.first().unwrap_or(&0.0);
            vec![ruled(&[[left, y], [left + SAMPLE_MM, y]], pen)]
        }
        Kind::Area => {
            let own = Area::new(left, y - 1.2, SAMPLE_MM, 2.4);
            filled(role, steps_through(&own.corners(), true), &own.corners(), own)
        }
        Kind::Round => {
            let half = [SAMPLE_MM / 2.0 - 0.5, 1.3];
            let own = Area::new(middle[0] - half[0], y - half[1], 2.0 * half[0], 2.0 * half[1]);
            filled(role, ellipse_steps(middle, half, 0.0), &rim(middle, half, 0.0), own)
        }
        Kind::Sign => sign(role, middle, 0.0, SMALL_MM),
    }
}
