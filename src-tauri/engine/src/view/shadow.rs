//! What a thing hides from the eyes: its shadow, if they were a lamp.
//!
//! The shadow of a convex thing is convex: it lies behind the sides that face the eyes and between the planes through the
//! eyes and the thing's outline against what is behind it. So what of a straight line lies in it is one piece, and what of a
//! flat area does is convex, both by cutting along planes: exact, and nothing is sampled.
//! Source: F. C. Crow, Shadow algorithms for computer graphics, SIGGRAPH 1977 (`crow1977`, from memory).

use super::camera::{P3, clipped, cross, dot, length, sub};

/// What lies nearer to a plane than this is on it, and hidden by nothing.
const ON_PLANE_M: f64 = 1e-6;

/// What is thinner is nothing: a hundred times what two shadows that meet leave between them.
pub(super) const SLIVER_M: f64 = 1e-4;

/// Half a space: `normal · p < offset` within.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Half {
    normal: P3,
    offset: f64,
}

impl Half {
    /// Below zero within.
    fn at(&self, p: P3) -> f64 {
        dot(self.normal, p) - self.offset + ON_PLANE_M
    }
}

/// What is hidden from the eyes by one convex thing.
#[derive(Debug, Clone, PartialEq)]
pub struct Shadow {
    halves: Vec<Half>,
    cone: Cone,
}

/// Directions from the eyes around what they see: an axis, and how far from it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Cone {
    axis: P3,
    cos: f64,
    sin: f64,
}

impl Cone {
    pub(super) fn around(eye: P3, points: &[P3]) -> Self {
        let ways: Vec<P3> = points.iter().map(|&p| unit(sub(p, eye))).collect();
        let sum = ways.iter().fold([0.0; 3], |sum: P3, way| std::array::from_fn(|i| sum[i] + way[i]));
        let axis = unit(sum);
        let cos = ways.iter().map(|way| dot(*way, axis)).fold(1.0, f64::min);
        // A hull of directions keeps within their widest only in a half space.
        let cos = if cos <= 0.0 { -1.0 } else { cos };
        Self { axis, cos, sin: (1.0 - cos * cos).max(0.0).sqrt() }
    }

    /// Whether no direction can be in both.
    pub(super) fn is_apart_from(&self, other: &Cone) -> bool {
        // cos(a + b), where a + b is less than half a turn.
        let wide = self.cos <= -1.0 || other.cos <= -1.0 || self.cos < -other.cos;
        !wide && dot(self.axis, other.axis) < self.cos * other.cos - self.sin * other.sin - 1e-9
    }
}

fn unit(way: P3) -> P3 {
    let long = length(way);
    if long > 0.0 { way.map(|part| part / long) } else { [0.0, 0.0, 1.0] }
}

/// An upright solid over a convex outline, anticlockwise.
pub(super) struct Upright<'a> {
    pub outline: &'a [[f64; 2]],
    /// Its lower end stands on the ground.
    pub foot_z: f64,
    pub top_z: f64,
}

impl Upright<'_> {
    /// Which sides face the eyes, from each corner to the next; and whether its top does.
    pub(super) fn faces(&self, eye: P3) -> (Vec<bool>, bool) {
        let n = self.outline.len();
        let side = |i: usize| {
            let (a, b) = (self.outline[i], self.outline[(i + 1) % n]);
            let outward = [b[1] - a[1], a[0] - b[0]];
            let long = (outward[0] * outward[0] + outward[1] * outward[1]).sqrt();
            outward[0] * (eye[0] - a[0]) + outward[1] * (eye[1] - a[1]) > ON_PLANE_M * long
        };
        ((0..n).map(side).collect(), eye[2] > self.top_z + ON_PLANE_M)
    }

    /// None where the eyes are within.
    pub(super) fn shadow(&self, eye: P3) -> Option<Shadow> {
        let n = self.outline.len();
        let (sides, top) = self.faces(eye);
        if n < 3 || !(top || sides.contains(&true)) {
            return None;
        }
        let corner = |i: usize, z: f64| {
            let [x, y] = self.outline[i % n];
            [x, y, z]
        };
        let middle = self.outline.iter().fold([0.0; 2], |m, p| [m[0] + p[0], m[1] + p[1]]);
        let inside =
            [middle[0] / n as f64, middle[1] / n as f64, 0.5 * (self.foot_z.min(self.top_z) + self.top_z)];
        let mut halves = Vec::with_capacity(2 * n + 2);
        if top {
            halves.push(Half { normal: [0.0, 0.0, 1.0], offset: self.top_z });
        }
        for i in 0..n {
            let (a, b) = (corner(i, self.top_z), corner(i + 1, self.top_z));
            if sides[i] {
                let normal = unit([b[1] - a[1], a[0] - b[0], 0.0]);
                halves.push(Half { normal, offset: dot(normal, a) });
            }
            if sides[i] != sides[(i + n - 1) % n] {
                halves.extend(through(eye, corner(i, eye[2] - 1.0), corner(i, eye[2] + 1.0), inside));
            }
            if sides[i] != top {
                halves.extend(through(eye, a, b, inside));
            }
        }
        let points: Vec<P3> =
            (0..n).flat_map(|i| [corner(i, self.foot_z.min(self.top_z)), corner(i, self.top_z)]).collect();
        Some(Shadow { halves, cone: Cone::around(eye, &points) })
    }
}

/// The plane through the eyes and an edge, with a point within; none where the eyes lie on the edge.
fn through(eye: P3, a: P3, b: P3, inside: P3) -> Option<Half> {
    let normal = cross(sub(a, eye), sub(b, eye));
    let long = length(normal);
    if long < 1e-12 {
        return None;
    }
    let normal = normal.map(|part| part / long);
    let offset = dot(normal, eye);
    let outward = dot(normal, inside) > offset;
    Some(if outward {
        Half { normal: normal.map(|part| -part), offset: -offset }
    } else {
        Half { normal, offset }
    })
}

impl Shadow {
    /// Of a flat convex area; none where the eyes see its edge alone.
    pub(super) fn of_area(eye: P3, corners: &[P3]) -> Option<Self> {
        let n = corners.len();
        let first = *corners.first()?;
        // Newell's normal: that of the area, however its corners lie.
        let normal = (0..n).fold([0.0; 3], |sum: P3, i| {
            let turn = cross(sub(corners[i], first), sub(corners[(i + 1) % n], first));
            std::array::from_fn(|axis| sum[axis] + turn[axis])
        });
        let long = length(normal);
        if n < 3 || long < 1e-12 {
            return None;
        }
        let mut normal = normal.map(|part| part / long);
        let mut off = dot(normal, sub(eye, first));
        if off.abs() < ON_PLANE_M {
            return None;
        }
        if off < 0.0 {
            (normal, off) = (normal.map(|part| -part), -off);
        }
        let sum = corners.iter().fold([0.0; 3], |sum: P3, p| std::array::from_fn(|i| sum[i] + p[i]));
        let inside = sum.map(|part| part / n as f64);
        let mut halves = vec![Half { normal, offset: dot(normal, eye) - off }];
        halves.extend((0..n).filter_map(|i| through(eye, corners[i], corners[(i + 1) % n], inside)));
        Some(Self { halves, cone: Cone::around(eye, corners) })
    }

    pub(super) fn cone(&self) -> &Cone {
        &self.cone
    }

    /// Whether a point is hidden.
    pub fn hides(&self, p: P3) -> bool {
        self.halves.iter().all(|half| half.at(p) < 0.0)
    }

    /// From where to where a line from `a` to `b` is hidden, as shares of it.
    pub fn along(&self, a: P3, b: P3) -> Option<[f64; 2]> {
        let (mut from, mut to) = (0.0_f64, 1.0_f64);
        for half in &self.halves {
            let (at_a, at_b) = (half.at(a), half.at(b));
            if at_a >= 0.0 && at_b >= 0.0 {
                return None;
            }
            if at_a >= 0.0 {
                from = from.max(at_a / (at_a - at_b));
            } else if at_b >= 0.0 {
                to = to.min(at_a / (at_a - at_b));
            }
        }
        (from < to).then_some([from, to])
    }

    /// What of a convex flat area is not hidden, in convex pieces.
    pub(super) fn taken_from(&self, area: Vec<P3>) -> Vec<Vec<P3>> {
        let covered = self.halves.iter().fold(area.clone(), |left, half| {
            if left.len() < 3 { left } else { clipped(&left, &|p| -half.at(p)) }
        });
        if is_sliver(&covered) {
            return vec![area];
        }
        let (mut left, mut shown) = (area, Vec::new());
        for half in &self.halves {
            let outside = clipped(&left, &|p| half.at(p));
            if !is_sliver(&outside) {
                shown.push(outside);
            }
            left = clipped(&left, &|p| -half.at(p));
            if left.len() < 3 {
                break;
            }
        }
        shown
    }
}

/// Whether nothing of an area is left but a sliver, as between the shadows of two things that meet.
fn is_sliver(corners: &[P3]) -> bool {
    let around_m: f64 =
        (0..corners.len()).map(|i| length(sub(corners[(i + 1) % corners.len()], corners[i]))).sum();
    corners.len() < 3 || area_m2(corners) < 0.5 * around_m * SLIVER_M
}

/// Of a flat convex area in space.
pub(super) fn area_m2(corners: &[P3]) -> f64 {
    let Some(&first) = corners.first() else { return 0.0 };
    let sum = corners.windows(2).fold([0.0; 3], |sum: P3, pair| {
        let turn = cross(sub(pair[0], first), sub(pair[1], first));
        std::array::from_fn(|i| sum[i] + turn[i])
    });
    0.5 * length(sum)
}
