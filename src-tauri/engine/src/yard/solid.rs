//! Distances in space from a straight piece of the work to the solids of the yard, with both nearest points.

use super::flat::{P2, along, closest, contains, distance, dot, foot, segment_to_area, sides, sub};

/// Point in space: east, north, up.
pub type P3 = [f64; 3];

/// The nearest approach of two things: 0 where they touch or one lies in the other.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Nearest {
    pub distance_m: f64,
    pub from: P3,
    pub to: P3,
}

impl Nearest {
    pub(super) const FAR: Nearest = Nearest { distance_m: f64::INFINITY, from: [0.0; 3], to: [0.0; 3] };

    pub(super) fn between(from: P3, to: P3) -> Self {
        Self { distance_m: distance(from, to), from, to }
    }

    pub(super) fn or_nearer(self, other: Nearest) -> Self {
        if other.distance_m < self.distance_m { other } else { self }
    }
}

pub(crate) fn plan(p: P3) -> P2 {
    [p[0], p[1]]
}

/// An upright-sided solid.
#[derive(Debug, Clone, PartialEq)]
pub enum Solid {
    /// All within `radius_m` in plan of the segment a–b, from `z0` up to `z1`: a trunk, crown or post (a = b), a
    /// piece of wall. `z0` is −∞ where it stands on the ground.
    Upright { a: P2, b: P2, radius_m: f64, z0: f64, z1: f64 },
    /// All inside an outline up to `top_z`: a building.
    Prism { outline: Vec<P2>, top_z: f64 },
    /// A wire's piece a–b whose height is known to ± `half_m` only: the upright strip it may lie in.
    Curtain { a: P3, b: P3, half_m: f64 },
}

/// From one segment to another.
pub fn segment_to_segment(p1: P3, q1: P3, p2: P3, q2: P3) -> Nearest {
    let (s, t) = closest(p1, q1, p2, q2);
    Nearest::between(along(p1, q1, s), along(p2, q2, t))
}

impl Solid {
    /// From the segment p–q; a point where both are equal.
    ///
    /// # Accuracy
    /// Closed forms, except beside the rim of an upright's top or bottom: there the distance is a convex function
    /// along the segment and its derivative is halved down to the last bit.
    pub fn near_segment(&self, p: P3, q: P3) -> Nearest {
        match self {
            Solid::Upright { a, b, radius_m, z0, z1 } => {
                Upright { a: *a, b: *b, radius_m: *radius_m, z0: *z0, z1: *z1 }.near_segment(p, q)
            }
            Solid::Prism { outline, top_z } => segment_to_prism(p, q, outline, *top_z),
            Solid::Curtain { a, b, half_m } => segment_to_curtain(p, q, *a, *b, *half_m),
        }
    }

    /// The same reaching higher by a length, and as much lower where it hangs over the ground.
    pub fn raised_by(self, rise_m: f64) -> Self {
        match self {
            Solid::Upright { a, b, radius_m, z0, z1 } => {
                Solid::Upright { a, b, radius_m, z0: z0 - rise_m, z1: z1 + rise_m }
            }
            Solid::Prism { outline, top_z } => Solid::Prism { outline, top_z: top_z + rise_m },
            Solid::Curtain { a, b, half_m } => Solid::Curtain { a, b, half_m: half_m + rise_m },
        }
    }

    /// From a point.
    pub fn near_point(&self, p: P3) -> Nearest {
        self.near_segment(p, p)
    }

    /// The box around it.
    pub fn bounds(&self) -> BoundingBox {
        match self {
            Solid::Upright { a, b, radius_m: r, z0, z1 } => BoundingBox {
                lo: [a[0].min(b[0]) - r, a[1].min(b[1]) - r, *z0],
                hi: [a[0].max(b[0]) + r, a[1].max(b[1]) + r, *z1],
            },
            Solid::Prism { outline, top_z } => {
                let flat = BoundingBox::of(outline.iter().map(|p| [p[0], p[1], *top_z]));
                BoundingBox { lo: [flat.lo[0], flat.lo[1], f64::NEG_INFINITY], hi: flat.hi }
            }
            Solid::Curtain { a, b, half_m } => {
                BoundingBox::of([-half_m, *half_m].iter().flat_map(|dz| [raised(*a, *dz), raised(*b, *dz)]))
            }
        }
    }
}

struct Upright {
    a: P2,
    b: P2,
    radius_m: f64,
    z0: f64,
    z1: f64,
}

impl Upright {
    fn near_segment(&self, p: P3, q: P3) -> Nearest {
        // Where the segment is nearest in plan and level with the solid, nothing can be nearer.
        let (s, _) = closest(plan(p), plan(q), self.a, self.b);
        let at = along(p, q, s);
        if self.z0 <= at[2] && at[2] <= self.z1 {
            return self.near_point(at);
        }
        self.near_point(along(p, q, self.least(p, q)))
    }

    fn near_point(&self, p: P3) -> Nearest {
        let core = along(self.a, self.b, foot(plan(p), self.a, self.b));
        let off = distance(plan(p), core);
        let side = if off > self.radius_m { along(core, plan(p), self.radius_m / off) } else { plan(p) };
        Nearest::between(p, [side[0], side[1], p[2].max(self.z0).min(self.z1)])
    }

    /// Half the derivative of the squared distance along `way` at `p`: never falls, as the solid is convex.
    fn slope(&self, p: P3, way: P3) -> f64 {
        let core = along(self.a, self.b, foot(plan(p), self.a, self.b));
        let out = sub(plan(p), core);
        let off = dot(out, out).sqrt();
        let sideways =
            if off > self.radius_m { (off - self.radius_m) / off * dot(out, plan(way)) } else { 0.0 };
        let above = if p[2] > self.z1 { p[2] - self.z1 } else { (p[2] - self.z0).min(0.0) };
        sideways + above * way[2]
    }

    fn least(&self, p: P3, q: P3) -> f64 {
        let way = sub(q, p);
        if self.slope(p, way) >= 0.0 {
            return 0.0;
        }
        if self.slope(q, way) <= 0.0 {
            return 1.0;
        }
        let (mut lo, mut hi) = (0.0, 1.0);
        loop {
            let middle = 0.5 * (lo + hi);
            if middle <= lo || middle >= hi || hi - lo < 1e-15 {
                return middle;
            }
            let slope = self.slope(along(p, q, middle), way);
            if slope == 0.0 {
                return middle;
            }
            if slope < 0.0 { lo = middle } else { hi = middle }
        }
    }
}

/// Below the top only the plan distance counts; above it the nearest point is on the top plate: under an end of
/// the segment, or on the plate's edge.
fn segment_to_prism(p: P3, q: P3, outline: &[P2], top_z: f64) -> Nearest {
    let (low, high) = if p[2] <= q[2] { (p, q) } else { (q, p) };
    let cut = if low[2] > top_z {
        0.0
    } else if high[2] <= top_z {
        1.0
    } else {
        (top_z - low[2]) / (high[2] - low[2])
    };
    let middle = along(low, high, cut);
    let mut best = Nearest::FAR;
    if low[2] <= top_z {
        let (near, s) = segment_to_area(plan(low), plan(middle), outline);
        let from = along(low, middle, s);
        best = Nearest { distance_m: near.distance_m, from, to: [near.to[0], near.to[1], from[2]] };
    }
    if high[2] > top_z {
        for end in [middle, high] {
            if contains(outline, plan(end)) {
                best = best.or_nearer(Nearest::between(end, [end[0], end[1], top_z.min(end[2])]));
            }
        }
        for (a, b) in sides(outline) {
            best = best.or_nearer(segment_to_segment(middle, high, [a[0], a[1], top_z], [b[0], b[1], top_z]));
        }
    }
    best
}

fn raised(p: P3, by_m: f64) -> P3 {
    [p[0], p[1], p[2] + by_m]
}

/// The nearest point of an upright strip is on its upper or lower edge, or level with the other point: then it is
/// nearest in plan, from somewhere along the segment or from an end of it.
fn segment_to_curtain(p: P3, q: P3, a: P3, b: P3, half_m: f64) -> Nearest {
    let level = |s: f64, t: f64| {
        let (from, wire) = (along(p, q, s), along(a, b, t));
        let z = from[2].max(wire[2] - half_m).min(wire[2] + half_m);
        Nearest::between(from, [wire[0], wire[1], z])
    };
    let (s, t) = closest(plan(p), plan(q), plan(a), plan(b));
    [-half_m, half_m]
        .iter()
        .map(|dz| segment_to_segment(p, q, raised(a, *dz), raised(b, *dz)))
        .chain(
            [(s, t), (0.0, foot(plan(p), plan(a), plan(b))), (1.0, foot(plan(q), plan(a), plan(b)))]
                .map(|(s, t)| level(s, t)),
        )
        .fold(Nearest::FAR, Nearest::or_nearer)
}

/// A box along the axes, for skipping what is far away.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BoundingBox {
    pub lo: P3,
    pub hi: P3,
}

impl BoundingBox {
    pub(super) fn of(points: impl Iterator<Item = P3>) -> Self {
        let nothing = BoundingBox { lo: [f64::INFINITY; 3], hi: [f64::NEG_INFINITY; 3] };
        points.fold(nothing, |b, p| BoundingBox {
            lo: std::array::from_fn(|i| b.lo[i].min(p[i])),
            hi: std::array::from_fn(|i| b.hi[i].max(p[i])),
        })
    }

    /// No two points of the boxes are nearer than this.
    pub(crate) fn gap(&self, other: &BoundingBox) -> f64 {
        let g: P3 =
            std::array::from_fn(|i| (other.lo[i] - self.hi[i]).max(self.lo[i] - other.hi[i]).max(0.0));
        dot(g, g).sqrt()
    }
}

/// From a chain of points to the nearest of several solids; only what is nearer than `cut_m` counts.
pub(super) fn chain_to_solids(chain: &[P3], solids: &[(Solid, BoundingBox)], cut_m: f64) -> Nearest {
    let mut best = Nearest { distance_m: cut_m, ..Nearest::FAR };
    let mut found = Nearest::FAR;
    // The most promising pair first, so that its distance rules out nearly all the others.
    let all = BoundingBox::of(chain.iter().copied());
    let close: Vec<usize> = (0..solids.len()).filter(|&j| all.gap(&solids[j].1) < cut_m).collect();
    if close.is_empty() {
        return found;
    }
    let mut order: Vec<(f64, usize, usize)> = Vec::with_capacity(close.len() * chain.len());
    for (i, ends) in chain.windows(2).enumerate() {
        let bounds = BoundingBox::of(ends.iter().copied());
        for &j in &close {
            let gap = bounds.gap(&solids[j].1);
            if gap < cut_m {
                order.push((gap, i, j));
            }
        }
    }
    if let Some(first) = (0..order.len()).min_by(|a, b| order[*a].0.total_cmp(&order[*b].0)) {
        order.swap(0, first);
    }
    for (gap, i, j) in order {
        if gap < best.distance_m {
            let near = solids[j].0.near_segment(chain[i], chain[i + 1]);
            if near.distance_m < best.distance_m {
                (best, found) = (near, near);
            }
        }
    }
    found
}

/// A solid with the box around it.
pub(crate) fn boxed(solid: Solid) -> (Solid, BoundingBox) {
    let bounds = solid.bounds();
    (solid, bounds)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sampled(solid: &Solid, p: P3, q: P3) -> f64 {
        // Independent of the code above: the defining distance at many points of the segment.
        let point = |p: P3| match solid {
            Solid::Upright { a, b, radius_m, z0, z1 } => {
                let off = distance(plan(p), along(*a, *b, foot(plan(p), *a, *b)));
                let (h, v) = ((off - radius_m).max(0.0), (z0 - p[2]).max(p[2] - z1).max(0.0));
                (h * h + v * v).sqrt()
            }
            Solid::Prism { outline, top_z } => {
                let h = if contains(outline, plan(p)) {
                    0.0
                } else {
                    sides(outline)
                        .map(|(a, b)| distance(plan(p), along(a, b, foot(plan(p), a, b))))
                        .fold(f64::INFINITY, f64::min)
                };
                let v = (p[2] - top_z).max(0.0);
                (h * h + v * v).sqrt()
            }
            Solid::Curtain { a, b, half_m } => (0..=200)
                .map(|i| along(*a, *b, f64::from(i) / 200.0))
                .map(|w| {
                    let (h, v) = (distance(plan(p), plan(w)), ((p[2] - w[2]).abs() - half_m).max(0.0));
                    (h * h + v * v).sqrt()
                })
                .fold(f64::INFINITY, f64::min),
        };
        (0..=500).map(|i| point(along(p, q, f64::from(i) / 500.0))).fold(f64::INFINITY, f64::min)
    }

    /// A spread of numbers in [0, 1) without a random generator: fractional parts of multiples of √2 and such.
    fn spread(i: usize, k: usize) -> f64 {
        let roots = [2.0_f64, 3.0, 5.0, 7.0, 11.0, 13.0];
        (roots[k].sqrt() * (i as f64 + 1.0)).fract()
    }

    #[test]
    fn agrees_with_sampling() {
        let l = vec![[0.0, 0.0], [4.0, 0.0], [4.0, 1.5], [1.5, 1.5], [1.5, 4.0], [0.0, 4.0]];
        let solids = [
            Solid::Upright { a: [1.0, 1.0], b: [1.0, 1.0], radius_m: 1.2, z0: 2.0, z1: 5.0 },
            Solid::Upright { a: [0.0, 0.0], b: [4.0, 3.0], radius_m: 0.2, z0: f64::NEG_INFINITY, z1: 2.0 },
            Solid::Prism { outline: l, top_z: 3.0 },
            Solid::Curtain { a: [-2.0, 0.0, 5.0], b: [6.0, 4.0, 4.0], half_m: 0.8 },
        ];
        for i in 0..60 {
            let p = [12.0 * spread(i, 0) - 4.0, 12.0 * spread(i, 1) - 4.0, 8.0 * spread(i, 2)];
            let q = [12.0 * spread(i, 3) - 4.0, 12.0 * spread(i, 4) - 4.0, 8.0 * spread(i, 5)];
            for solid in &solids {
                let near = solid.near_segment(p, q);
                let by_samples = sampled(solid, p, q);
                assert!(near.distance_m <= by_samples + 1e-9, "{solid:?} {p:?} {q:?}");
                assert!(
                    near.distance_m >= by_samples - 2.5e-2,
                    "{near:?} {by_samples} {solid:?} {p:?} {q:?}"
                );
                assert!((distance(near.from, near.to) - near.distance_m).abs() < 1e-9);
            }
        }
    }

    #[test]
    fn two_skew_lines_keep_the_distance_of_their_planes() {
        let near = segment_to_segment([-1.0, 0.0, 0.0], [1.0, 0.0, 0.0], [0.3, -1.0, 2.5], [0.3, 1.0, 2.5]);
        assert!((near.distance_m - 2.5).abs() < 1e-15 && (near.from[0] - 0.3).abs() < 1e-15);
    }

    #[test]
    fn parallel_and_pointlike_segments_are_measured_too() {
        let parallel = segment_to_segment([0.0, 0.0, 0.0], [1.0, 0.0, 0.0], [2.0, 1.0, 0.0], [5.0, 1.0, 0.0]);
        assert!((parallel.distance_m - 2.0_f64.sqrt()).abs() < 1e-15);
        let overlapping =
            segment_to_segment([0.0, 0.0, 0.0], [9.0, 0.0, 0.0], [2.0, 3.0, 0.0], [5.0, 3.0, 0.0]);
        assert_eq!(overlapping.distance_m, 3.0);
        let points = segment_to_segment([0.0; 3], [0.0; 3], [3.0, 4.0, 0.0], [3.0, 4.0, 0.0]);
        assert_eq!(points.distance_m, 5.0);
    }

    #[test]
    fn a_rope_over_a_rim_is_nearest_on_the_slant() {
        // 45° rope through (3, 0, 0)–(0, 0, 3) past a post of radius 1 up to z = 1: the rim (1, 0, 1) is
        // |1 + 1 − 3| / √2 from the line x + z = 3.
        let post = Solid::Upright { a: [0.0; 2], b: [0.0; 2], radius_m: 1.0, z0: f64::NEG_INFINITY, z1: 1.0 };
        let near = post.near_segment([3.0, 0.0, 0.0], [0.0, 0.0, 3.0]);
        assert!((near.distance_m - 0.5_f64.sqrt()).abs() < 1e-12, "{near:?}");
        assert!(distance(near.to, [1.0, 0.0, 1.0]) < 1e-7);
    }

    #[test]
    fn inside_is_nought() {
        let shed = Solid::Prism { outline: vec![[0.0, 0.0], [2.0, 0.0], [2.0, 2.0], [0.0, 2.0]], top_z: 2.0 };
        assert_eq!(shed.near_point([1.0, 1.0, 1.0]).distance_m, 0.0);
        assert_eq!(shed.near_point([1.0, 1.0, 5.0]).distance_m, 3.0);
    }

    /// Boxes that are 3 m and 4 m apart along two axes have no points nearer than 5 m; what overlaps, or touches, has no gap.
    #[test]
    fn the_gap_of_two_boxes_by_hand() {
        let of = |lo: P3, hi: P3| BoundingBox { lo, hi };
        let one = of([0.0; 3], [1.0, 2.0, 3.0]);
        for (other, gap_m) in [
            (of([4.0, 6.0, 1.0], [5.0, 7.0, 2.0]), 5.0),
            (of([-5.0, 0.0, -6.0], [-4.0, 1.0, -3.0]), 5.0),
            (of([0.5, 1.0, 5.0], [2.0, 3.0, 6.0]), 2.0),
            (of([0.5, 1.0, 1.0], [2.0, 3.0, 6.0]), 0.0),
            (of([1.0, 0.0, 0.0], [2.0, 1.0, 1.0]), 0.0),
        ] {
            assert!((one.gap(&other) - gap_m).abs() < 1e-12 && (other.gap(&one) - gap_m).abs() < 1e-12);
        }
    }
}
