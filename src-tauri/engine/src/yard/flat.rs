//! Distances in plan: points, segments, outlines, and a segment clipped to a piece of a path.

pub use crate::numerics::outline::{contains, sides};
#[cfg(test)]
use crate::numerics::real::{cos, sin};

/// Point in plan: east, north.
pub type P2 = [f64; 2];

pub(super) fn sub<const N: usize>(a: [f64; N], b: [f64; N]) -> [f64; N] {
    std::array::from_fn(|i| a[i] - b[i])
}

pub(super) fn dot<const N: usize>(a: [f64; N], b: [f64; N]) -> f64 {
    let mut sum = 0.0;
    for i in 0..N {
        sum += a[i] * b[i];
    }
    sum
}

/// The point at part `t` of the way from `a` to `b`.
pub(super) fn along<const N: usize>(a: [f64; N], b: [f64; N], t: f64) -> [f64; N] {
    std::array::from_fn(|i| a[i] + t * (b[i] - a[i]))
}

pub(super) fn distance<const N: usize>(a: [f64; N], b: [f64; N]) -> f64 {
    let d = sub(a, b);
    dot(d, d).sqrt()
}

/// The foot of `p` on segment a–b, as a part of the way from `a` to `b`.
pub(super) fn foot<const N: usize>(p: [f64; N], a: [f64; N], b: [f64; N]) -> f64 {
    let d = sub(b, a);
    let length2 = dot(d, d);
    if length2 > 0.0 { (dot(sub(p, a), d) / length2).clamp(0.0, 1.0) } else { 0.0 }
}

/// Where a chain of points comes nearest to `p`: the indices of the two ends of that side and the part of the
/// way between them; none for an empty chain.
pub(crate) fn nearest_on(p: P2, chain: &[P2], closed: bool) -> Option<(usize, usize, f64)> {
    let count = chain.len();
    let sides = if closed { count } else { count.saturating_sub(1) };
    let of_side = |i: usize| {
        let j = (i + 1) % count;
        let share = foot(p, chain[i], chain[j]);
        (distance(p, along(chain[i], chain[j], share)), (i, j, share))
    };
    let nearest = (0..sides).map(of_side).min_by(|a, b| a.0.total_cmp(&b.0));
    nearest.map(|(_, side)| side).or((count > 0).then_some((0, 0, 0.0)))
}

/// Where two segments come nearest, as parts (s, t) of the way p1 → q1 and p2 → q2.
///
/// # References
/// Ericson, Real-Time Collision Detection (2005), 5.1.9. For nearly parallel segments its denominator is mostly
/// rounding, so there the four ends are tried as well.
pub fn closest<const N: usize>(p1: [f64; N], q1: [f64; N], p2: [f64; N], q2: [f64; N]) -> (f64, f64) {
    let (d1, d2, r) = (sub(q1, p1), sub(q2, p2), sub(p1, p2));
    let (a, e) = (dot(d1, d1), dot(d2, d2));
    if a <= 0.0 {
        return (0.0, foot(p1, p2, q2));
    }
    if e <= 0.0 {
        return (foot(p2, p1, q1), 0.0);
    }
    let (b, c, f) = (dot(d1, d2), dot(d1, r), dot(d2, r));
    let denominator = a * e - b * b; // |d1|²|d2|² sin² of the angle between them
    if denominator <= 1e-9 * a * e {
        return closest_by_ends(p1, q1, p2, q2);
    }
    let s = ((b * f - c * e) / denominator).clamp(0.0, 1.0);
    let t = (b * s + f) / e;
    if t < 0.0 {
        ((-c / a).clamp(0.0, 1.0), 0.0)
    } else if t > 1.0 {
        (((b - c) / a).clamp(0.0, 1.0), 1.0)
    } else {
        (s, t)
    }
}

fn closest_by_ends<const N: usize>(p1: [f64; N], q1: [f64; N], p2: [f64; N], q2: [f64; N]) -> (f64, f64) {
    let tries =
        [(0.0, foot(p1, p2, q2)), (1.0, foot(q1, p2, q2)), (foot(p2, p1, q1), 0.0), (foot(q2, p1, q1), 1.0)];
    let gap = |(s, t): (f64, f64)| distance(along(p1, q1, s), along(p2, q2, t));
    tries
        .into_iter()
        .fold((tries[0], f64::INFINITY), |best, pair| {
            let d = gap(pair);
            if d < best.1 { (pair, d) } else { best }
        })
        .0
}

/// The nearest approach of something in plan.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Nearest2 {
    pub distance_m: f64,
    pub from: P2,
    pub to: P2,
}

impl Nearest2 {
    pub(super) const FAR: Nearest2 = Nearest2 { distance_m: f64::INFINITY, from: [0.0; 2], to: [0.0; 2] };

    fn between(from: P2, to: P2) -> Self {
        Self { distance_m: distance(from, to), from, to }
    }

    pub(super) fn or_nearer(self, other: Nearest2) -> Self {
        if other.distance_m < self.distance_m { other } else { self }
    }

    /// The same to the edge of a thing `half_m` thick around the line that was measured to.
    fn thinner_by(self, half_m: f64) -> Self {
        if self.distance_m <= half_m {
            return Self { distance_m: 0.0, from: self.from, to: self.from };
        }
        let to = along(self.to, self.from, half_m / self.distance_m);
        Self { distance_m: self.distance_m - half_m, from: self.from, to }
    }
}

/// From a point to a line of one or more segments.
pub fn point_to_line(p: P2, line: &[P2]) -> Nearest2 {
    let single = line.first().map_or(Nearest2::FAR, |a| Nearest2::between(p, *a));
    line.windows(2).fold(single, |best, ends| {
        best.or_nearer(Nearest2::between(p, along(ends[0], ends[1], foot(p, ends[0], ends[1]))))
    })
}

/// From a point to the edge of an outline, from inside as well as from outside.
pub fn point_to_edge(p: P2, outline: &[P2]) -> Nearest2 {
    sides(outline)
        .fold(Nearest2::FAR, |best, (a, b)| best.or_nearer(Nearest2::between(p, along(a, b, foot(p, a, b)))))
}

/// From a segment to an outline's area; 0 where it enters it. The second value is the part of the way p → q.
pub fn segment_to_area(p: P2, q: P2, outline: &[P2]) -> (Nearest2, f64) {
    for (end, s) in [(p, 0.0), (q, 1.0)] {
        if contains(outline, end) {
            return (Nearest2 { distance_m: 0.0, from: end, to: end }, s);
        }
    }
    sides(outline).fold((Nearest2::FAR, 0.0), |best, (a, b)| {
        let (s, t) = closest(p, q, a, b);
        let near = Nearest2::between(along(p, q, s), along(a, b, t));
        if near.distance_m < best.0.distance_m { (near, s) } else { best }
    })
}

/// A piece of something's footprint.
#[derive(Debug, Clone, PartialEq)]
pub enum Patch {
    /// All within `half_m` of the segment a–b; a disc where both are one point.
    Strip { a: P2, b: P2, half_m: f64 },
    /// The inside of a simple outline, anticlockwise.
    Area(Vec<P2>),
}

impl Patch {
    /// From a point; 0 inside.
    pub fn near_point(&self, p: P2) -> Nearest2 {
        match self {
            Patch::Strip { a, b, half_m } => {
                Nearest2::between(p, along(*a, *b, foot(p, *a, *b))).thinner_by(*half_m)
            }
            Patch::Area(outline) if contains(outline, p) => Nearest2 { distance_m: 0.0, from: p, to: p },
            Patch::Area(outline) => point_to_edge(p, outline),
        }
    }

    /// From another outline's area; 0 where the two overlap.
    pub fn near_area(&self, area: &[P2]) -> Nearest2 {
        match self {
            Patch::Strip { a, b, half_m } => {
                let near = segment_to_area(*a, *b, area).0;
                Nearest2 { from: near.to, to: near.from, ..near }.thinner_by(*half_m)
            }
            Patch::Area(outline) => {
                let inside = outline.iter().find(|corner| contains(area, **corner));
                if let Some(corner) = inside {
                    return Nearest2 { distance_m: 0.0, from: *corner, to: *corner };
                }
                sides(area)
                    .fold(Nearest2::FAR, |best, (p, q)| best.or_nearer(segment_to_area(p, q, outline).0))
            }
        }
    }

    /// The part (t0, t1) of the way p → q that lies over this patch; a convex area or a disc only.
    pub fn clip(&self, p: P2, q: P2) -> Option<(f64, f64)> {
        match self {
            Patch::Strip { a, half_m, .. } => clip_to_disc(p, q, *a, *half_m),
            Patch::Area(outline) => clip_to_convex(p, q, outline),
        }
    }
}

/// Cyrus–Beck: each side of a convex anticlockwise outline cuts the way once.
/// Source: Cyrus and Beck, Computers & Graphics 3 (1978) 23–28.
fn clip_to_convex(p: P2, q: P2, outline: &[P2]) -> Option<(f64, f64)> {
    let way = sub(q, p);
    let (mut t0, mut t1) = (0.0_f64, 1.0_f64);
    for (a, b) in sides(outline) {
        let inward = [a[1] - b[1], b[0] - a[0]];
        let (depth, rate) = (dot(sub(p, a), inward), dot(way, inward));
        if rate > 0.0 {
            t0 = t0.max(-depth / rate);
        } else if rate < 0.0 {
            t1 = t1.min(-depth / rate);
        } else if depth < 0.0 {
            return None;
        }
    }
    (t0 <= t1).then_some((t0, t1))
}

fn clip_to_disc(p: P2, q: P2, centre: P2, radius_m: f64) -> Option<(f64, f64)> {
    let (way, r) = (sub(q, p), sub(p, centre));
    // |r + t·way|² = radius²
    let (a, half_b, c) = (dot(way, way), dot(r, way), dot(r, r) - radius_m * radius_m);
    if a <= 0.0 {
        return (c <= 0.0).then_some((0.0, 1.0));
    }
    let root = half_b * half_b - a * c;
    if root < 0.0 {
        return None;
    }
    let (t0, t1) = (((-half_b - root.sqrt()) / a).max(0.0), ((-half_b + root.sqrt()) / a).min(1.0));
    (t0 <= t1).then_some((t0, t1))
}

/// The footprint of a way: a rectangle along each segment (flat ends) and a disc at each bend.
pub fn way_patches(line: &[P2], width_m: f64) -> Vec<Patch> {
    let half_m = width_m / 2.0;
    let rectangles = line.windows(2).filter_map(|ends| rectangle(ends[0], ends[1], half_m)).map(Patch::Area);
    let bends = line.get(1..line.len().saturating_sub(1)).unwrap_or_default();
    let discs = bends.iter().map(|at| Patch::Strip { a: *at, b: *at, half_m });
    rectangles.chain(discs).collect()
}

/// All within `half_m` to either side of the segment a–b, anticlockwise; none where it has no length.
pub(super) fn rectangle(a: P2, b: P2, half_m: f64) -> Option<Vec<P2>> {
    let length = distance(a, b);
    (length > 0.0).then(|| {
        let left = [-(b[1] - a[1]) * half_m / length, (b[0] - a[0]) * half_m / length];
        vec![sub(a, left), sub(b, left), [b[0] + left[0], b[1] + left[1]], [a[0] + left[0], a[1] + left[1]]]
    })
}

/// A line widened to a closed anticlockwise outline with flat ends and mitred bends, for drawing.
///
/// A mitre longer than three half-widths is cut to that: a hairpin would shoot out of the map.
pub fn widened(line: &[P2], width_m: f64) -> Vec<P2> {
    let mut points: Vec<P2> = line.to_vec();
    points.dedup_by(|a, b| distance(*a, *b) < 1e-9);
    let left = |i: usize, side: f64| -> Option<P2> {
        let unit = |a: P2, b: P2| {
            let d = sub(b, a);
            let length = dot(d, d).sqrt();
            [d[0] / length, d[1] / length]
        };
        let here = *points.get(i)?;
        let before = i.checked_sub(1).and_then(|j| points.get(j)).map(|p| unit(*p, here));
        let after = points.get(i + 1).map(|p| unit(here, *p));
        let (u, v) = (before.or(after)?, after.or(before)?);
        // The mitre runs along the sum of both normals; its length is half / cos(half the turn).
        let normal = [-(u[1] + v[1]), u[0] + v[0]];
        let length2 = dot(normal, normal).max(4.0 / 9.0);
        let scale = side * width_m / length2; // 2·half / |n|²
        Some([here[0] + normal[0] * scale, here[1] + normal[1] * scale])
    };
    let right_side = (0..points.len()).filter_map(|i| left(i, -1.0));
    right_side.chain((0..points.len()).rev().filter_map(|i| left(i, 1.0))).collect()
}

/// Points on a circle, anticlockwise.
#[cfg(test)]
pub(super) fn circle(centre: P2, radius_m: f64, count: u32) -> Vec<P2> {
    (0..count)
        .map(|i| {
            let angle = f64::from(i) / f64::from(count) * std::f64::consts::TAU;
            [centre[0] + radius_m * cos(angle), centre[1] + radius_m * sin(angle)]
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    const SQUARE: [P2; 4] = [[0.0, 0.0], [2.0, 0.0], [2.0, 2.0], [0.0, 2.0]];

    #[test]
    fn a_segment_that_crosses_an_area_touches_it() {
        assert!(segment_to_area([-1.0, 1.0], [3.0, 1.0], &SQUARE).0.distance_m < 1e-15);
        assert_eq!(segment_to_area([3.0, -1.0], [3.0, 5.0], &SQUARE).0.distance_m, 1.0);
    }

    #[test]
    fn a_way_is_clipped_where_its_edges_are() {
        let patches = way_patches(&[[0.0, 0.0], [10.0, 0.0]], 2.0);
        let (t0, t1) = patches[0].clip([5.0, -4.0], [5.0, 4.0]).unwrap();
        assert!((t0 - 3.0 / 8.0).abs() < 1e-15 && (t1 - 5.0 / 8.0).abs() < 1e-15);
        assert_eq!(patches[0].clip([11.0, -4.0], [11.0, 4.0]), None, "flat end");
    }

    #[test]
    fn a_widened_line_has_the_area_of_its_length_times_its_width() {
        let outline = widened(&[[0.0, 0.0], [10.0, 0.0], [10.0, 8.0]], 2.0);
        let twice: f64 = sides(&outline).map(|(a, b)| a[0] * b[1] - a[1] * b[0]).sum();
        assert!((twice / 2.0 - 36.0).abs() < 1e-12, "{twice}"); // mitred right angle: 18 m centre line × 2 m
    }

    #[test]
    fn a_disc_is_its_many_cornered_outline() {
        let disc = Patch::Strip { a: [1.0, 2.0], b: [1.0, 2.0], half_m: 0.7 };
        let outline = Patch::Area(circle([1.0, 2.0], 0.7, 720));
        for p in [[3.0, 3.0], [-2.0, 2.5], [1.1, 2.1]] {
            let (a, b) = (disc.near_point(p).distance_m, outline.near_point(p).distance_m);
            assert!((a - b).abs() < 1e-5, "{a} {b}");
        }
    }
}
