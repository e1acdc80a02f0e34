//! The ground: a net over what was surveyed, and what of it may hide things behind it.

use super::{Line, YardToSee};
use crate::ground::Ground;
use crate::numerics::outline::sides;
use crate::quantity::UnitSystem;
use crate::round_figures::view::{NET, WIDE_NET, WIDEST_NET};
use crate::view::camera::P3;
use crate::view::draped::draped;
use crate::view::seen::LineKind;

/// A surface of more triangles is taken on a grid of so many squares each way, as seen.
const MOST_TRIANGLES: usize = 4000;
const COARSE: u32 = 40;
/// The plane round what was surveyed hides as far as this from its middle.
const FAR_M: f64 = 300.0;
/// A step between surface and plane that is lower hides nothing.
const LEAST_STEP_M: f64 = 1e-3;
/// Yards up to this wide have the close net, and up to that the wide one.
const CLOSE_UP_TO_M: f64 = 70.0;
const WIDE_UP_TO_M: f64 = 150.0;
const MOST_LINES: f64 = 60.0;

/// A flat convex part of the ground.
#[derive(Debug, Clone)]
pub struct GroundFacet {
    pub(in crate::view) corners: Vec<P3>,
    /// Outward from the ground.
    pub(in crate::view) up: P3,
}

pub(super) fn put(yard: &mut YardToSee, system: UnitSystem) {
    yard.rises = rises(&yard.ground);
    net(yard, system);
}

fn rises(ground: &Ground) -> Vec<GroundFacet> {
    let Some(surface) = &ground.surface else { return Vec::new() };
    let triangles: Vec<[P3; 3]> = if surface.triangles().len() > MOST_TRIANGLES {
        coarse(ground)
    } else {
        surface.triangles().iter().map(|&triangle| surface.corners(triangle)).collect()
    };
    let mut rises: Vec<GroundFacet> = triangles.iter().map(|corners| facing_up(corners.to_vec())).collect();
    let hull = surface.hull();
    let n = hull.len().max(1) as f64;
    let middle = hull.iter().fold([0.0; 2], |sum, p| [sum[0] + p[0] / n, sum[1] + p[1] / n]);
    let plane = |[x, y]: [f64; 2]| [x, y, ground.plane.height([x, y])];
    for (a, b) in sides(hull) {
        // The plane outside, as a strip from this edge away from the middle.
        let away = |p: [f64; 2]| {
            let way = [p[0] - middle[0], p[1] - middle[1]];
            let long = (way[0] * way[0] + way[1] * way[1]).sqrt().max(1e-9);
            [p[0] + way[0] / long * FAR_M, p[1] + way[1] / long * FAR_M]
        };
        rises.push(facing_up(vec![plane(a), plane(away(a)), plane(away(b)), plane(b)]));
        rises.extend(steps(ground, a, b));
    }
    rises
}

/// The upright step at the edge of the surface, in pieces that are higher on one side.
fn steps(ground: &Ground, a: [f64; 2], b: [f64; 2]) -> Vec<GroundFacet> {
    let inside: Vec<P3> = draped(ground, a, b);
    let out = |p: P3| ground.plane.height([p[0], p[1]]);
    let [x, y] = [b[1] - a[1], a[0] - b[0]];
    let mut steps = Vec::new();
    for ends in inside.windows(2) {
        let rises = ends.iter().map(|p| p[2] - out(*p)).collect::<Vec<_>>();
        if rises.iter().all(|rise| rise.abs() < LEAST_STEP_M) || rises[0] * rises[1] < 0.0 {
            continue;
        }
        let foot = |p: P3| [p[0], p[1], out(p)];
        // Towards the lower side: out of the surface where that is higher.
        let side = if rises[0] + rises[1] > 0.0 { 1.0 } else { -1.0 };
        let corners = vec![foot(ends[0]), foot(ends[1]), ends[1], ends[0]];
        steps.push(GroundFacet { corners, up: [side * x, side * y, 0.0] });
    }
    steps
}

fn facing_up(corners: Vec<P3>) -> GroundFacet {
    let [a, b, c] = [corners[0], corners[1], corners[2]];
    let u = crate::view::camera::cross(crate::view::camera::sub(b, a), crate::view::camera::sub(c, a));
    let up = if u[2] < 0.0 { u.map(|part| -part) } else { u };
    GroundFacet { corners, up }
}

/// The surface on a grid, where all corners of a square lie on it.
fn coarse(ground: &Ground) -> Vec<[P3; 3]> {
    let Some(surface) = &ground.surface else { return Vec::new() };
    let [low, high] = bounds(surface.hull());
    let step = [0, 1].map(|axis| (high[axis] - low[axis]) / f64::from(COARSE));
    let at = |i: u32, j: u32| {
        let p = [low[0] + f64::from(i) * step[0], low[1] + f64::from(j) * step[1]];
        surface.height(p).map(|z| [p[0], p[1], z])
    };
    let mut triangles = Vec::new();
    for (i, j) in (0..COARSE).flat_map(|i| (0..COARSE).map(move |j| (i, j))) {
        let square = (at(i, j), at(i + 1, j), at(i + 1, j + 1), at(i, j + 1));
        if let (Some(a), Some(b), Some(c), Some(d)) = square {
            triangles.extend([[a, b, c], [a, c, d]]);
        }
    }
    triangles
}

fn bounds(points: &[[f64; 2]]) -> [[f64; 2]; 2] {
    points.iter().fold([[f64::INFINITY; 2], [f64::NEG_INFINITY; 2]], |[low, high], p| {
        [[low[0].min(p[0]), low[1].min(p[1])], [high[0].max(p[0]), high[1].max(p[1])]]
    })
}

/// Lines to north and to east at a round step, over what was surveyed; where the ground is a plane by its slopes alone, over
/// all that has a place.
fn net(yard: &mut YardToSee, system: UnitSystem) {
    let known: Vec<[f64; 2]> = match &yard.ground.surface {
        Some(surface) => surface.hull().to_vec(),
        None => yard.things.iter().flat_map(|thing| thing.footprint.iter().copied()).collect(),
    };
    if known.is_empty() {
        return;
    }
    let [low, high] = bounds(&known);
    let span_m = (high[0] - low[0]).max(high[1] - low[1]);
    let wanted = if span_m <= CLOSE_UP_TO_M {
        NET
    } else if span_m <= WIDE_UP_TO_M {
        WIDE_NET
    } else {
        WIDEST_NET
    };
    let step_m = wanted.of(system);
    let step_m = step_m * (span_m / step_m / MOST_LINES).ceil().max(1.0);
    let is_known =
        |p: [f64; 2]| yard.ground.surface.as_ref().is_none_or(|surface| surface.height(p).is_some());
    let mut lines = Vec::new();
    for axis in [0, 1] {
        let other = 1 - axis;
        let numbers = (low[axis] / step_m).ceil() as i64..=(high[axis] / step_m).floor() as i64;
        for number in numbers {
            let end = |to: f64| {
                let mut p = [0.0; 2];
                (p[axis], p[other]) = (number as f64 * step_m, to);
                p
            };
            let points = draped(&yard.ground, end(low[other]), end(high[other]));
            for ends in points.windows(2) {
                let middle = [0, 1].map(|i| 0.5 * (ends[0][i] + ends[1][i]));
                if is_known(middle) {
                    lines.push(Line { thing: None, kind: LineKind::Net, points: ends.to_vec() });
                }
            }
        }
    }
    yard.lines.extend(lines);
}
