//! The camera: from places in the yard to places on the picture, and what of them lies in it.
//!
//! A pinhole camera: what lies `z` ahead, `x` to the right and `y` up is at (x/z, y/z) on a picture one metre away.
//! Source: OpenGL reference, gluPerspective (`opengl-perspective`).

use std::ops::RangeInclusive;

use serde::{Deserialize, Serialize};

use crate::numerics::real::{atan_deg, cos_deg, sin_deg, tan_deg};
use crate::quantity::bearing::{turn_deg, wrap_360};
use crate::quantity::{FieldError, FieldErrors};

/// A point in space: east, north, up in the yard; right, up, ahead before the camera.
pub(super) type P3 = [f64; 3];

/// What lies nearer than this before the eyes is not drawn.
pub(super) const NEAR_M: f64 = 0.05;

/// How wide a picture may be, from side to side.
pub const FIELD_DEG: RangeInclusive<f64> = 15.0..=100.0;
/// The cone of vision within which a drawn perspective looks natural: common practice of drawing.
pub const USUAL_FIELD_DEG: f64 = 60.0;
/// How far up or down one may look.
pub const PITCH_DEG: RangeInclusive<f64> = -60.0..=75.0;
/// Width of a picture over its height.
const ASPECT: RangeInclusive<f64> = 0.2..=5.0;

/// Which way the eyes look, and how much of what lies there is on the picture.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct Look {
    /// True bearing of the picture's middle.
    pub toward_deg: f64,
    /// Above the horizontal.
    pub pitch_deg: f64,
    /// From the left edge to the right one.
    pub field_deg: f64,
    /// Width over height.
    pub aspect: f64,
}

impl Look {
    /// The same with its bearing in [0, 360).
    ///
    /// # Errors
    /// Every number outside its range.
    pub fn checked(self) -> Result<Self, FieldErrors> {
        let mut errors = Vec::new();
        let mut within = |name: &str, value: f64, range: &RangeInclusive<f64>, unit: &str| {
            if !range.contains(&value) {
                let allowed = format!("{} to {}{unit}", range.start(), range.end());
                errors.push(FieldError::new(format!("/look/{name}"), format!("{value}"), allowed));
            }
        };
        within("toward_deg", self.toward_deg, &(-360.0..=360.0), "°");
        within("pitch_deg", self.pitch_deg, &PITCH_DEG, "°");
        within("field_deg", self.field_deg, &FIELD_DEG, "°");
        within("aspect", self.aspect, &ASPECT, "");
        let checked = Self { toward_deg: wrap_360(self.toward_deg), ..self };
        if errors.is_empty() { Ok(checked) } else { Err(errors.into()) }
    }

    /// From the lower edge to the upper one.
    pub fn field_up_deg(&self) -> f64 {
        2.0 * atan_deg(tan_deg(self.field_deg / 2.0) / self.aspect)
    }

    /// Level where what is looked at finds room so, and upright walls then stay upright; else the middle of it.
    pub(super) fn pitch_for(&self, from_deg: f64, to_deg: f64) -> f64 {
        let room_deg = 0.45 * self.field_up_deg();
        let fits = from_deg > -room_deg && to_deg < room_deg;
        let middle_deg = 0.5 * (from_deg + to_deg);
        if fits { 0.0 } else { middle_deg.clamp(*PITCH_DEG.start(), *PITCH_DEG.end()) }
    }
}

/// Eyes in a place that look some way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Camera {
    eye: P3,
    right: P3,
    up: P3,
    ahead: P3,
    look: Look,
    /// Half the picture's width and height, one metre away.
    half: [f64; 2],
}

impl Camera {
    pub fn new(eye: P3, look: Look) -> Self {
        let (sin, cos) = (sin_deg(look.toward_deg), cos_deg(look.toward_deg));
        let (rise, run) = (sin_deg(look.pitch_deg), cos_deg(look.pitch_deg));
        let half_width = tan_deg(look.field_deg / 2.0);
        Self {
            eye,
            right: [cos, -sin, 0.0],
            up: [-sin * rise, -cos * rise, run],
            ahead: [sin * run, cos * run, rise],
            look,
            half: [half_width, half_width / look.aspect],
        }
    }

    pub fn look(&self) -> &Look {
        &self.look
    }

    /// Right, up and ahead of the eyes, in metres.
    pub fn before(&self, at: P3) -> P3 {
        self.turned(sub(at, self.eye))
    }

    /// The same of a direction.
    pub fn turned(&self, way: P3) -> P3 {
        [dot(way, self.right), dot(way, self.up), dot(way, self.ahead)]
    }

    /// Where on the picture what lies before the camera is: −1 to 1 from the left edge to the right one, and up in the
    /// same measure. Only of what lies ahead.
    pub fn on_picture(&self, before: P3) -> [f64; 2] {
        [before[0] / before[2] / self.half[0], before[1] / before[2] / self.half[0]]
    }

    /// Half the picture's height in that measure.
    pub fn half_height(&self) -> f64 {
        1.0 / self.look.aspect
    }

    /// How high on the picture everything at the height of the eyes lies: level directions at any bearing.
    pub fn horizon(&self) -> f64 {
        -tan_deg(self.look.pitch_deg) / self.half[0]
    }

    /// Where a bearing crosses a row of the picture; none where it is not ahead.
    ///
    /// The direction (sin Δ·cos e, cos Δ·cos e, sin e) lies on the row at angle θ over the middle where
    /// tan e = cos Δ·tan(p + θ); its place is then tan Δ·cos(p + θ)/cos θ.
    pub fn bearing_at(&self, bearing_deg: f64, row: f64) -> Option<f64> {
        let delta_deg = turn_deg(self.look.toward_deg, bearing_deg);
        let over_deg = atan_deg(row * self.half[0]);
        let up_deg = self.look.pitch_deg + over_deg;
        if delta_deg.abs() >= 89.0 || up_deg.abs() >= 89.0 {
            return None;
        }
        Some(tan_deg(delta_deg) * cos_deg(up_deg) / cos_deg(over_deg) / self.half[0])
    }

    /// What of a line lies in the picture, on it.
    pub fn line(&self, a: P3, b: P3) -> Option<[[f64; 2]; 2]> {
        let (mut from, mut to) = (self.before(a), self.before(b));
        for edge in self.edges() {
            let (at_from, at_to) = (edge(from), edge(to));
            if at_from < 0.0 && at_to < 0.0 {
                return None;
            }
            if at_from < 0.0 {
                from = between(from, to, at_from / (at_from - at_to));
            } else if at_to < 0.0 {
                to = between(from, to, at_from / (at_from - at_to));
            }
        }
        Some([self.on_picture(from), self.on_picture(to)])
    }

    /// What of a convex flat area lies in the picture, on it; empty where nothing does.
    pub fn area(&self, corners: &[P3]) -> Vec<[f64; 2]> {
        let mut area: Vec<P3> = corners.iter().map(|&at| self.before(at)).collect();
        for edge in self.edges() {
            area = clipped(&area, &edge);
            if area.len() < 3 {
                return Vec::new();
            }
        }
        area.iter().map(|&at| self.on_picture(at)).collect()
    }

    /// The near plane and the four sides of the picture: not below zero within.
    fn edges(&self) -> [impl Fn(P3) -> f64; 5] {
        let [w, h] = self.half;
        let edge = |x: f64, y: f64, z: f64, off: f64| move |at: P3| x * at[0] + y * at[1] + z * at[2] + off;
        [
            edge(0.0, 0.0, 1.0, -NEAR_M),
            edge(1.0, 0.0, w, 0.0),
            edge(-1.0, 0.0, w, 0.0),
            edge(0.0, 1.0, h, 0.0),
            edge(0.0, -1.0, h, 0.0),
        ]
    }
}

/// What of a convex area lies where `inside` is not below zero.
/// Source: I. E. Sutherland, G. W. Hodgman, Reentrant polygon clipping, CACM 17(1), 1974 (`sutherland-hodgman1974`, from memory).
pub(super) fn clipped(area: &[P3], inside: &impl Fn(P3) -> f64) -> Vec<P3> {
    let mut kept = Vec::with_capacity(area.len() + 1);
    for (i, &to) in area.iter().enumerate() {
        let from = area[(i + area.len() - 1) % area.len()];
        let (at_from, at_to) = (inside(from), inside(to));
        if (at_from < 0.0) != (at_to < 0.0) {
            kept.push(between(from, to, at_from / (at_from - at_to)));
        }
        if at_to >= 0.0 {
            kept.push(to);
        }
    }
    kept
}

pub(super) fn sub(a: P3, b: P3) -> P3 {
    [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
}

pub(super) fn dot(a: P3, b: P3) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

pub(super) fn cross(a: P3, b: P3) -> P3 {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

pub(super) fn length(a: P3) -> f64 {
    dot(a, a).sqrt()
}

pub(super) fn between(a: P3, b: P3, share: f64) -> P3 {
    std::array::from_fn(|i| a[i] + share * (b[i] - a[i]))
}
