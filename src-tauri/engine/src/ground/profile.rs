//! The ground along a line: its profile, the taut tape over it, and the point at a taut tape.

use super::Ground;
use super::surface::{Surface, cross, plan};
use crate::numerics::real::hypot;
use crate::numerics::roots::{RootRules, brent};
use crate::quantity::bearing::unit;

/// Breaks of a profile nearer together than this are one.
const SAME_BREAK_M: f64 = 1e-9;

/// The ground from one point to another as (distance out in plan, height), in metres.
///
/// On a plane two points; on a surface one more at each triangle edge. Where the line crosses the hull of the
/// surface the ground steps between plane and surface: two points at one distance. The step is shown as it is;
/// smoothing it would invent ground.
pub fn profile(ground: &Ground, from: [f64; 2], to: [f64; 2]) -> Vec<[f64; 2]> {
    let length = hypot(to[0] - from[0], to[1] - from[1]);
    let inside = ground.surface.as_ref().map(|surface| surface_breaks(surface, from, to, length));
    let (first, last) = ([0.0, ground.height(from)], [length, ground.height(to)]);
    let mut points = vec![first];
    if let Some(inside) = inside.filter(|inside| !inside.is_empty()) {
        let on_plane = |out: f64| ground.height_outside(point_at(from, to, out / length));
        let entry = inside.first().map_or(0.0, |p| p[0]);
        if entry > SAME_BREAK_M {
            points.push([entry, on_plane(entry)]);
        }
        let leave = inside.last().map_or(length, |p| p[0]);
        points.extend(inside.into_iter().filter(|p| p[0] > SAME_BREAK_M && p[0] < length - SAME_BREAK_M));
        if leave < length - SAME_BREAK_M {
            points.push([leave, on_plane(leave)]);
        }
    }
    points.push(last);
    points
}

/// Length of a tape pulled taut along the ground between two points: it rides over humps and bridges hollows,
/// so it is the upper convex hull of the profile. On a plane: plan distance over the cosine of the slope
/// along the line.
///
/// # References
/// A. M. Andrew, Another efficient algorithm for convex hulls in two dimensions (1979), upper chain.
pub fn taut_tape_m(ground: &Ground, from: [f64; 2], to: [f64; 2]) -> f64 {
    let mut tape = TautTape::default();
    for point in profile(ground, from, to) {
        tape.reach(point);
    }
    tape.length_m()
}

/// The point in plan where a taut tape of this length along a bearing ends; `from` itself for a tape that is
/// not above zero. Where several points fit (a tape let down a bank and up again) the nearest.
pub fn at_tape(ground: &Ground, from: [f64; 2], bearing_deg: f64, tape_m: f64) -> [f64; 2] {
    if !(tape_m > 0.0 && tape_m.is_finite()) {
        return from;
    }
    let [east, north] = unit(bearing_deg);
    let out_m = match &ground.surface {
        // Closed form on a plane: tape · cos(slope along the bearing).
        None => tape_m / hypot(1.0, ground.plane.gradient[0] * east + ground.plane.gradient[1] * north),
        Some(_) => {
            // The tape is never shorter than its plan, so it ends within `tape_m` out.
            let far = [from[0] + tape_m * east, from[1] + tape_m * north];
            out_along(&profile(ground, from, far), tape_m)
        }
    };
    [from[0] + out_m * east, from[1] + out_m * north]
}

/// How far out a taut tape over a profile reaches: the stretch in which it runs out, then a bracketed root.
fn out_along(profile: &[[f64; 2]], tape_m: f64) -> f64 {
    let mut tape = TautTape::default();
    let Some((&start, rest)) = profile.split_first() else { return 0.0 };
    tape.reach(start);
    let mut near = start;
    for &far in rest {
        let length_to = |out: f64| {
            let share = (out - near[0]) / (far[0] - near[0]);
            tape.length_to([out, near[1] + share * (far[1] - near[1])])
        };
        if tape.length_to(far) >= tape_m {
            let rules = RootRules { tolerance: 1e-10, ..RootRules::default() };
            // A step in the ground at one distance has no length to search.
            let root = brent(|out| length_to(out) - tape_m, near[0], far[0], rules);
            return if far[0] > near[0] { root.unwrap_or(far[0]) } else { far[0] };
        }
        tape.reach(far);
        near = far;
    }
    near[0]
}

/// A tape over the points reached so far: the points it touches, and its length up to each.
#[derive(Debug, Default)]
struct TautTape {
    touches: Vec<[f64; 2]>,
    lengths_m: Vec<f64>,
}

impl TautTape {
    /// Lays the tape on to a further point.
    fn reach(&mut self, point: [f64; 2]) {
        let length = self.length_to(point);
        let kept = self.kept(point);
        self.touches.truncate(kept);
        self.lengths_m.truncate(kept);
        self.touches.push(point);
        self.lengths_m.push(length);
    }

    /// Length of the tape if it went on to this point.
    fn length_to(&self, point: [f64; 2]) -> f64 {
        let last = self.kept(point).checked_sub(1);
        match last.and_then(|last| Some((self.touches.get(last)?, self.lengths_m.get(last)?))) {
            Some((touch, length)) => length + hypot(point[0] - touch[0], point[1] - touch[1]),
            None => 0.0,
        }
    }

    /// How many of the touched points stay touched: the tape lifts off one that lies in a hollow.
    fn kept(&self, point: [f64; 2]) -> usize {
        let hollow = |pair: &[[f64; 2]]| matches!(pair, [a, b] if cross(*a, *b, point) >= 0.0);
        let mut kept = self.touches.len();
        while kept >= 2 && hollow(&self.touches[kept - 2..kept]) {
            kept -= 1;
        }
        kept
    }

    fn length_m(&self) -> f64 {
        self.lengths_m.last().copied().unwrap_or(0.0)
    }
}

/// The part of the line that lies on the surface: (distance out, height) at every edge crossed.
fn surface_breaks(surface: &Surface, from: [f64; 2], to: [f64; 2], length: f64) -> Vec<[f64; 2]> {
    let mut breaks: Vec<[f64; 2]> = surface
        .near_line(from, to)
        .filter_map(|triangle| clipped(triangle, from, to).map(|ends| (triangle, ends)))
        .flat_map(|(triangle, ends)| {
            ends.map(|share| [share * length, height_on(triangle, point_at(from, to, share))])
        })
        .collect();
    breaks.sort_by(|a, b| a[0].total_cmp(&b[0]));
    breaks.dedup_by(|later, earlier| later[0] - earlier[0] < SAME_BREAK_M);
    breaks
}

fn point_at(from: [f64; 2], to: [f64; 2], share: f64) -> [f64; 2] {
    [from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])]
}

/// The shares of the line at which it enters and leaves the surface; none where it misses it.
pub(super) fn inside_span(surface: &Surface, from: [f64; 2], to: [f64; 2]) -> Option<[f64; 2]> {
    let spans = surface.near_line(from, to).filter_map(|triangle| clipped(triangle, from, to));
    spans.reduce(|a, b| [a[0].min(b[0]), a[1].max(b[1])])
}

fn clipped(triangle: [[f64; 3]; 3], from: [f64; 2], to: [f64; 2]) -> Option<[f64; 2]> {
    clipped_to(&triangle.map(plan), from, to)
}

/// The shares of the line at which it enters and leaves a convex outline that runs anticlockwise; none where
/// it misses or only touches it.
///
/// # References
/// M. Cyrus and J. Beck, Generalized two- and three-dimensional clipping (1978).
pub(super) fn clipped_to<const N: usize>(
    outline: &[[f64; 2]; N],
    from: [f64; 2],
    to: [f64; 2],
) -> Option<[f64; 2]> {
    let (mut enter, mut leave) = (0.0_f64, 1.0_f64);
    for (i, &p) in outline.iter().enumerate() {
        let q = outline[(i + 1) % N];
        // Distances to the left of the edge, times its length; a line along the edge counts as inside.
        let slack = 1e-12 * ((q[0] - p[0]) * (q[0] - p[0]) + (q[1] - p[1]) * (q[1] - p[1]));
        let [start, end] =
            [cross(p, q, from), cross(p, q, to)].map(|d| if d.abs() <= slack { 0.0 } else { d });
        match (start < 0.0, end < 0.0) {
            (true, true) => return None,
            (true, false) => enter = enter.max(start / (start - end)),
            (false, true) => leave = leave.min(start / (start - end)),
            (false, false) => {}
        }
    }
    (leave > enter).then_some([enter, leave])
}

fn height_on(triangle: [[f64; 3]; 3], at: [f64; 2]) -> f64 {
    let [east, north] = super::surface::gradient_of(triangle);
    let [a, ..] = triangle;
    a[2] + east * (at[0] - a[0]) + north * (at[1] - a[1])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ground::Plane;
    use crate::numerics::real::{cos_deg, tan_deg};

    fn plane(east: f64, north: f64) -> Plane {
        Plane { height_0_m: 0.0, gradient: [east, north], covariance: [[0.0; 3]; 3] }
    }

    /// A ridge along y at x = 5, two metres high, level at x = 0 and x = 10.
    fn ridge(top_m: f64) -> Ground {
        let points: Vec<_> = [0.0, 5.0, 10.0]
            .iter()
            .flat_map(|&x| [-9.0, 0.0, 9.0].map(|y| [x, y, if x == 5.0 { top_m } else { 0.0 }]))
            .collect();
        Ground { plane: plane(0.0, 0.0), surface: Some(Surface::new(&points).unwrap()) }
    }

    #[test]
    fn a_plane_has_two_points_and_a_slope_tape() {
        let ground = Ground { plane: plane(0.0, tan_deg(8.0)), surface: None };
        assert_eq!(profile(&ground, [1.0, 0.0], [1.0, 4.0]).len(), 2);
        let tape = taut_tape_m(&ground, [0.0, 0.0], [0.0, 10.0]);
        assert!((tape - 10.0 / cos_deg(8.0)).abs() < 1e-12);
        let [_, north] = at_tape(&ground, [0.0, 2.0], 180.0, 5.0);
        assert!((north - (2.0 - 5.0 * cos_deg(8.0))).abs() < 1e-12);
    }

    #[test]
    fn the_tape_rides_over_a_hump_and_bridges_a_hollow() {
        let over = taut_tape_m(&ridge(2.0), [0.0, 1.0], [10.0, 1.0]);
        assert!((over - 2.0 * hypot(5.0, 2.0)).abs() < 1e-9, "{over}");
        let across = taut_tape_m(&ridge(-2.0), [0.0, 1.0], [10.0, 1.0]);
        assert!((across - 10.0).abs() < 1e-9);
    }

    #[test]
    fn breaks_are_at_the_edges() {
        let points = profile(&ridge(2.0), [1.0, 0.5], [9.0, 0.5]);
        assert!(points.iter().any(|p| (p[0] - 4.0).abs() < 1e-9 && (p[1] - 2.0).abs() < 1e-9));
        assert!((points[0][1] - 0.4).abs() < 1e-9);
        assert!(points.windows(2).all(|w| w[1][0] >= w[0][0]));
    }

    /// A way that begins or ends on an edge has one point there, not two.
    #[test]
    fn an_end_on_an_edge_is_one_point() {
        for ways in [[[1.0, 0.5], [5.0, 0.5]], [[5.0, 0.5], [9.0, 0.5]]] {
            let points = profile(&ridge(2.0), ways[0], ways[1]);
            assert!(points.windows(2).all(|w| w[1][0] - w[0][0] > 1e-6), "{points:?}");
            assert!((points[0][0], points[points.len() - 1][0]) == (0.0, 4.0));
        }
    }

    #[test]
    fn the_hull_is_a_step() {
        let mut ground = ridge(2.0);
        ground.plane = plane(0.0, 0.0);
        ground.plane.height_0_m = -1.0;
        let points = profile(&ground, [-5.0, 1.0], [15.0, 1.0]);
        let at = |d: f64| points.iter().filter(|p| (p[0] - d).abs() < 1e-9).map(|p| p[1]).collect::<Vec<_>>();
        assert_eq!((at(5.0), at(15.0)), (vec![-1.0, 0.0], vec![0.0, -1.0]));
        assert_eq!((points[0], points[points.len() - 1]), ([0.0, -1.0], [20.0, -1.0]));
    }

    #[test]
    fn the_point_at_a_tape_is_at_that_tape() {
        for top in [2.0, -2.0] {
            let ground = ridge(top);
            for (bearing, tape) in [(90.0, 3.0), (90.0, 9.0), (70.0, 12.0), (270.0, 4.0), (20.0, 0.5)] {
                let to = at_tape(&ground, [0.5, 0.3], bearing, tape);
                let back = taut_tape_m(&ground, [0.5, 0.3], to);
                assert!((back - tape).abs() < 1e-8, "{top} {bearing} {tape}: {back}");
            }
        }
        assert_eq!(at_tape(&ridge(2.0), [0.5, 0.3], 10.0, -1.0), [0.5, 0.3]);
    }
}
