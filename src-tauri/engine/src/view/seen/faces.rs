//! The sides of solids that face the eyes, and their edges.

use super::{FaceKind, Shadow};
use crate::numerics::outline::contains;
use crate::numerics::real::{cos_deg, hypot, sin_deg};
use crate::view::camera::{P3, cross, dot, length, sub};
use crate::view::shadow::Upright;
use crate::view::world::{Body, BodyShape, Side, Topper};

/// Corners on the outline of a crown.
const EGG_CORNERS: u32 = 32;
/// Walls on this side are lit: light falls from the south-west, as in the afternoon.
const LIT_FROM: [f64; 2] = [-0.8, -0.6];

/// What of a body faces the eyes.
pub(super) struct Facing {
    pub faces: Vec<(FaceKind, Vec<P3>)>,
    pub edges: Vec<Vec<P3>>,
    pub shadow: Option<Shadow>,
}

impl Facing {
    pub(super) fn of(body: &Body, eye: P3) -> Self {
        match &body.shape {
            BodyShape::Block { outline, foot_z, top_z, sides } => {
                let upright = Upright { outline, foot_z: *foot_z, top_z: *top_z };
                block(body.kind, &upright, sides, eye)
            }
            BodyShape::Stem { at, radius_m, foot_z, top_z } => {
                let corners = stem(*at, *radius_m, [*foot_z, *top_z], eye);
                let [a, b, c, d] = corners;
                Self::area(body.kind, corners.to_vec(), vec![vec![a, d, c, b]], eye)
            }
            BodyShape::Egg { middle, radius_m, half_height_m } => {
                let corners = egg(*middle, *radius_m, *half_height_m, eye);
                let edge = corners.iter().chain(corners.first()).copied().collect();
                Self::area(body.kind, corners, vec![edge], eye)
            }
        }
    }

    /// What is seen as one flat area.
    fn area(kind: FaceKind, corners: Vec<P3>, edges: Vec<Vec<P3>>, eye: P3) -> Self {
        Self { shadow: Shadow::of_area(eye, &corners), faces: vec![(kind, corners)], edges }
    }
}

/// Whether the eyes are within.
pub(super) fn holds(shape: &BodyShape, eye: P3) -> bool {
    match shape {
        BodyShape::Block { outline, top_z, .. } => eye[2] <= *top_z && contains(outline, [eye[0], eye[1]]),
        BodyShape::Stem { at, radius_m, top_z, .. } => {
            eye[2] <= *top_z && hypot(eye[0] - at[0], eye[1] - at[1]) <= radius_m * 1.001
        }
        BodyShape::Egg { middle, radius_m, half_height_m } => {
            let way = scaled(sub(eye, *middle), *radius_m, *half_height_m);
            dot(way, way) <= 1.001
        }
    }
}

fn block(kind: FaceKind, upright: &Upright, sides: &[Side], eye: P3) -> Facing {
    let (facing, top) = upright.faces(eye);
    let n = sides.len();
    let corner = |i: usize, z: f64| {
        let [x, y] = upright.outline[i % n];
        [x, y, z]
    };
    let (mut faces, mut edges) = (Vec::new(), Vec::new());
    let top_z = upright.top_z;
    for (i, side) in sides.iter().enumerate() {
        let is_own = !side.foot.is_empty();
        if facing[i] && is_own {
            let shade = shaded(kind, upright.outline[i], upright.outline[(i + 1) % n]);
            for ends in side.foot.windows(2).filter(|ends| ends[0] != ends[1]) {
                let [p, q] = [ends[0], ends[1]];
                faces.push((shade, vec![p, q, [q[0], q[1], top_z], [p[0], p[1], top_z]]));
            }
        }
        if (facing[i] || top) && side.is_drawn {
            edges.push(vec![corner(i, top_z), corner(i + 1, top_z)]);
        }
        if facing[i] && side.is_drawn {
            edges.push(side.foot.clone());
        }
        let before = (i + n - 1) % n;
        let faces_here = |i: usize| facing[i] && !sides[i].foot.is_empty();
        if side.has_edge && (faces_here(i) || faces_here(before)) {
            let foot_z = side.foot.first().or(sides[before].foot.last()).map_or(upright.foot_z, |p| p[2]);
            edges.push(vec![corner(i, foot_z), corner(i, top_z)]);
        }
    }
    // What is round has no edges but the two that it ends at.
    if sides.iter().all(|side| !side.has_edge && side.is_drawn) {
        for i in (0..n).filter(|&i| facing[i] != facing[(i + n - 1) % n]) {
            let foot_z = sides[i].foot.first().map_or(upright.foot_z, |p| p[2]);
            edges.push(vec![corner(i, foot_z), corner(i, top_z)]);
        }
    }
    if top {
        let roof = if kind == FaceKind::Wall { FaceKind::Roof } else { kind };
        faces.push((roof, (0..n).map(|i| corner(i, top_z)).collect()));
    }
    Facing { faces, edges, shadow: upright.shadow(eye) }
}

fn shaded(kind: FaceKind, a: [f64; 2], b: [f64; 2]) -> FaceKind {
    let outward = [b[1] - a[1], a[0] - b[0]];
    let lit = outward[0] * LIT_FROM[0] + outward[1] * LIT_FROM[1] > 0.0;
    if kind == FaceKind::Wall && !lit { FaceKind::WallShaded } else { kind }
}

/// The upright strip between the two lines at which a cylinder is touched: foot, foot, top, top.
///
/// Tangents from a point at distance d touch a circle of radius r on the line at r²/d from its middle.
pub(in crate::view) fn stem(at: [f64; 2], radius_m: f64, [foot_z, top_z]: [f64; 2], eye: P3) -> [P3; 4] {
    let way = [eye[0] - at[0], eye[1] - at[1]];
    let far_m = hypot(way[0], way[1]).max(radius_m * 1.001);
    let toward = way.map(|part| part / far_m);
    let ahead_m = radius_m * radius_m / far_m;
    let half_m = radius_m * (1.0 - ahead_m / far_m).max(0.0).sqrt();
    let end = |side: f64| {
        [
            at[0] + ahead_m * toward[0] - side * half_m * toward[1],
            at[1] + ahead_m * toward[1] + side * half_m * toward[0],
        ]
    };
    let ([ax, ay], [bx, by]) = (end(-1.0), end(1.0));
    [[ax, ay, foot_z], [bx, by, foot_z], [bx, by, top_z], [ax, ay, top_z]]
}

fn scaled(way: P3, radius_m: f64, half_height_m: f64) -> P3 {
    [way[0] / radius_m, way[1] / radius_m, way[2] / half_height_m]
}

/// The outline of an egg as it is seen: where lines of sight touch it, all in one plane. Shrunk to a ball of radius 1 the eyes
/// are at q, and the lines touch it in the plane q·x = 1, on a circle of radius √(1 − 1/q²) round q/q².
pub(in crate::view) fn egg(middle: P3, radius_m: f64, half_height_m: f64, eye: P3) -> Vec<P3> {
    let q = scaled(sub(eye, middle), radius_m, half_height_m);
    let square = dot(q, q).max(1.001);
    let centre = q.map(|part| part / square);
    let round = (1.0 - 1.0 / square).sqrt();
    // Two ways across the line of sight.
    let helper = if q[2].abs() < 0.9 * length(q) { [0.0, 0.0, 1.0] } else { [1.0, 0.0, 0.0] };
    let unit = |way: P3| {
        let long = length(way);
        way.map(|part| part / long)
    };
    let right = unit(cross(q, helper));
    let up = unit(cross(right, q));
    let at = |deg: f64| {
        let (sin, cos) = (round * sin_deg(deg), round * cos_deg(deg));
        let on: P3 = std::array::from_fn(|i| centre[i] + cos * right[i] + sin * up[i]);
        [middle[0] + radius_m * on[0], middle[1] + radius_m * on[1], middle[2] + half_height_m * on[2]]
    };
    (0..EGG_CORNERS).map(|i| at(360.0 * f64::from(i) / f64::from(EGG_CORNERS))).collect()
}

/// A topper as wide and as high as it is, turned to the eyes.
pub(super) fn diamond(topper: &Topper, eye: P3) -> Vec<P3> {
    let [x, y, z] = topper.middle;
    let way = [eye[0] - x, eye[1] - y];
    let far_m = hypot(way[0], way[1]).max(1e-9);
    let aside = [-way[1] / far_m * topper.half_width_m, way[0] / far_m * topper.half_width_m];
    let (up, w) = (topper.half_height_m, aside);
    vec![[x, y, z - up], [x + w[0], y + w[1], z], [x, y, z + up], [x - w[0], y - w[1], z], [x, y, z - up]]
}
