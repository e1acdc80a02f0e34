//! The turns of the base at which the tips of its cross leg stand on one height, on the ground as it is.
//!
//! The tips move on a circle about the mast. Over one triangle of the ground (or over the plane) a tip's height is a
//! constant plus a cosine of the turn, so between the turns at which a tip crosses an edge the difference of both is
//! k + A·cos(θ + φ), whose roots have a closed form. No root is missed, and none is found between samples.

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use crate::ground::Ground;
use crate::numerics::real::{acos, atan2, cos, hypot, sin};

/// Turns nearer together than this, in radians, are one: a hair's breadth at the tip of any leg.
const SAME_TURN: f64 = 1e-9;

/// Heights nearer together than this are equal up to rounding.
const SAME_HEIGHT_M: f64 = 1e-9;

/// The cross leg that turns about the mast.
#[derive(Debug, Clone, Copy)]
pub(super) struct CrossLeg<'a> {
    pub ground: &'a Ground,
    pub mast_at: [f64; 2],
    /// From the mast's axis to each tip.
    pub side_reach_m: f64,
    /// The same of the front leg, whose tip tells downhill.
    pub front_reach_m: f64,
}

/// An arc of turns over which neither tip leaves its triangle: the difference of their heights is
/// `mean_m` + `swing_m`·cos(θ + `phase`).
#[derive(Debug, Clone, Copy)]
struct Arc {
    from: f64,
    to: f64,
    mean_m: f64,
    swing_m: f64,
    phase: f64,
}

impl CrossLeg<'_> {
    /// Bearings of the front leg, in radians, at which both tips of the cross leg stand on one height. Where they do so
    /// all along an arc, its ends, its middle and wherever the front leg comes to other ground.
    pub fn level_turns(&self) -> Vec<f64> {
        self.arcs().iter().flat_map(|arc| self.roots(arc)).collect()
    }

    /// Turns at which the tips' heights can differ most.
    pub fn steepest_turns(&self) -> Vec<f64> {
        let stationary = |arc: &Arc| {
            let ends = [arc.from, 0.5 * (arc.from + arc.to), arc.to];
            ends.into_iter().chain(arc.holding([-arc.phase, PI - arc.phase]))
        };
        self.arcs().iter().flat_map(stationary).collect()
    }

    /// How much higher the right tip stands than the left.
    pub fn difference_m(&self, turn: f64) -> f64 {
        let [right, left] = self.tips(turn);
        self.ground.height(right) - self.ground.height(left)
    }

    /// The tips of the cross leg: right, then left.
    pub fn tips(&self, turn: f64) -> [[f64; 2]; 2] {
        [FRAC_PI_2, -FRAC_PI_2].map(|by| self.out(turn + by, self.side_reach_m))
    }

    /// The ground under the tip of the front leg.
    pub fn front_ground_m(&self, turn: f64) -> f64 {
        self.ground.height(self.out(turn, self.front_reach_m))
    }

    fn out(&self, bearing: f64, reach_m: f64) -> [f64; 2] {
        [self.mast_at[0] + reach_m * sin(bearing), self.mast_at[1] + reach_m * cos(bearing)]
    }

    fn arcs(&self) -> Vec<Arc> {
        let crossings = self.crossings(self.side_reach_m);
        let both = crossings.iter().flat_map(|bearing| [bearing - FRAC_PI_2, bearing + FRAC_PI_2]);
        let mut turns: Vec<f64> = both.map(|turn| turn.rem_euclid(TAU)).collect();
        turns.sort_by(f64::total_cmp);
        turns.dedup_by(|later, earlier| *later - *earlier < SAME_TURN);
        let Some(&first) = turns.first() else { return vec![self.arc(0.0, TAU)] };
        turns.push(first + TAU);
        let wide = turns.windows(2).filter(|ends| ends[1] - ends[0] > SAME_TURN);
        wide.map(|ends| self.arc(ends[0], ends[1])).collect()
    }

    /// The heights of both tips from the ground at the arc's middle, on which they stay all along it.
    fn arc(&self, from: f64, to: f64) -> Arc {
        let [right, left] = self.tips(0.5 * (from + to));
        let [at_right, at_left] = [right, left].map(|tip| {
            let gradient = self.ground.gradient(tip);
            let out = [tip[0] - self.mast_at[0], tip[1] - self.mast_at[1]];
            (gradient, self.ground.height(tip) - gradient[0] * out[0] - gradient[1] * out[1])
        });
        // The tips lie ± reach·(cos θ, −sin θ) from the mast, so the difference is mean + a·cos θ − b·sin θ.
        let a = self.side_reach_m * (at_right.0[0] + at_left.0[0]);
        let b = self.side_reach_m * (at_right.0[1] + at_left.0[1]);
        Arc { from, to, mean_m: at_right.1 - at_left.1, swing_m: hypot(a, b), phase: atan2(b, a) }
    }

    fn roots(&self, arc: &Arc) -> Vec<f64> {
        if arc.swing_m < SAME_HEIGHT_M {
            return if arc.mean_m.abs() < SAME_HEIGHT_M { self.on_level_arc(arc) } else { Vec::new() };
        }
        let share = -arc.mean_m / arc.swing_m;
        if share.abs() > 1.0 {
            return Vec::new();
        }
        let aside = acos(share);
        arc.holding([aside - arc.phase, -aside - arc.phase]).collect()
    }

    fn on_level_arc(&self, arc: &Arc) -> Vec<f64> {
        let ends = [arc.from, 0.5 * (arc.from + arc.to), arc.to];
        let under_front = self.crossings(self.front_reach_m);
        let mut turns: Vec<f64> = under_front.iter().flat_map(|&bearing| arc.holding([bearing])).collect();
        turns.extend(ends);
        turns.sort_by(f64::total_cmp);
        // Between two of them the front leg points straight down what lies under its tip, if it does so at all.
        let downhill = turns.windows(2).flat_map(|pair| {
            let [east, north] = self.ground.gradient(self.out(0.5 * (pair[0] + pair[1]), self.front_reach_m));
            arc.holding([atan2(-east, -north)])
        });
        let downhill: Vec<f64> = downhill.collect();
        turns.into_iter().chain(downhill).collect()
    }

    /// Bearings at which a circle about the mast crosses the edges of the ground's triangles.
    fn crossings(&self, radius_m: f64) -> Vec<f64> {
        let Some(surface) = &self.ground.surface else { return Vec::new() };
        let mut found = Vec::new();
        for &triangle in surface.triangles() {
            let corners =
                surface.corners(triangle).map(|[x, y, _]| [x - self.mast_at[0], y - self.mast_at[1]]);
            for (a, b) in [(corners[0], corners[1]), (corners[1], corners[2]), (corners[2], corners[0])] {
                found.extend(circle_crossings(a, b, radius_m));
            }
        }
        found
    }
}

impl Arc {
    /// Those of some turns that lie on the arc, brought to its range.
    fn holding<const N: usize>(&self, turns: [f64; N]) -> impl Iterator<Item = f64> + use<N> {
        let (from, to) = (self.from, self.to);
        let onto = move |turn: f64| {
            let past = (turn - from).rem_euclid(TAU);
            // A root at the very start may come out a hair before it, which is almost a whole turn past it.
            if past > TAU - SAME_TURN { from } else { from + past }
        };
        turns.into_iter().map(onto).filter(move |turn| *turn <= to + SAME_TURN)
    }
}

/// Bearings at which a circle about the origin crosses the segment a–b: |a + t·(b − a)|² = r².
fn circle_crossings(a: [f64; 2], b: [f64; 2], radius_m: f64) -> impl Iterator<Item = f64> {
    let way = [b[0] - a[0], b[1] - a[1]];
    let square = way[0] * way[0] + way[1] * way[1];
    let half = a[0] * way[0] + a[1] * way[1];
    let left = half * half - square * (a[0] * a[0] + a[1] * a[1] - radius_m * radius_m);
    let root = if left >= 0.0 { left.sqrt() } else { f64::NAN };
    let shares = [(-half - root) / square, (-half + root) / square];
    let on = shares.into_iter().filter(|share| (0.0..=1.0).contains(share));
    on.map(move |share| atan2(a[0] + share * way[0], a[1] + share * way[1]))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A line one metre north of the origin meets a circle of two metres at 60° to either side of north (cos 60° = ½);
    /// one that ends before it, or passes by, does not.
    #[test]
    fn a_circle_crosses_a_line_where_the_right_triangle_says() {
        let degrees = |a, b| circle_crossings(a, b, 2.0).map(f64::to_degrees).collect::<Vec<f64>>();
        let both = degrees([-3.0, 1.0], [4.0, 1.0]);
        assert_eq!(both.len(), 2);
        assert!((both[0] + 60.0).abs() < 1e-9 && (both[1] - 60.0).abs() < 1e-9, "{both:?}");
        let one = degrees([0.5, 1.0], [4.0, 1.0]);
        assert!(one.len() == 1 && (one[0] - 60.0).abs() < 1e-9, "{one:?}");
        assert!(degrees([-1.0, 1.0], [1.0, 1.0]).is_empty());
        assert!(degrees([-3.0, 2.5], [4.0, 2.5]).is_empty());
    }

    fn level_ground(surface: Option<&[[f64; 3]]>) -> Ground {
        let plane = crate::ground::Plane { height_0_m: 0.0, gradient: [0.0; 2], covariance: [[0.0; 3]; 3] };
        Ground { plane, surface: surface.map(|points| crate::ground::Surface::new(points).unwrap()) }
    }

    fn turns_deg(ground: &Ground) -> Vec<f64> {
        let leg = CrossLeg { ground, mast_at: [0.0; 2], side_reach_m: 1.0, front_reach_m: 3.0 };
        leg.level_turns().into_iter().map(f64::to_degrees).collect()
    }

    /// On level ground the tips stand level at every turn: the ends of the whole turn, and its middle.
    #[test]
    fn on_level_ground_every_turn_is_level_and_few_are_told() {
        let turns_deg = turns_deg(&level_ground(None));
        assert!(!turns_deg.is_empty());
        for turn_deg in turns_deg {
            assert!([0.0, 180.0, 360.0].iter().any(|of| (turn_deg - of).abs() < 1e-9), "{turn_deg}");
        }
    }

    /// Level but for what falls to the east 2 m off: 1 in 4. The tips, 1 m out, stand level at every turn; the front leg, 3 m
    /// long, comes over the slope from 41.8° (sin = 2/3) to 138.2°, and points straight down it at 90°, at no turn up.
    #[test]
    fn where_the_tips_are_level_all_round_the_front_leg_can_point_downhill() {
        let points = [
            [-6.0, -6.0, 0.0],
            [-6.0, 6.0, 0.0],
            [2.0, -6.0, 0.0],
            [2.0, 6.0, 0.0],
            [6.0, -6.0, -1.0],
            [6.0, 6.0, -1.0],
        ];
        let turns_deg = turns_deg(&level_ground(Some(&points)));
        let told = |wanted_deg: f64| turns_deg.iter().any(|turn_deg| (turn_deg - wanted_deg).abs() < 1e-6);
        assert!(told(90.0) && told(41.810_315) && told(138.189_685), "{turns_deg:?}");
        assert!(!told(270.0), "{turns_deg:?}");
        assert!(turns_deg.iter().all(|turn_deg| (-1e-6..=360.0 + 1e-6).contains(turn_deg)), "{turns_deg:?}");
    }

    /// On ground that rises 1 in 10 to the east and 2 in 10 to the north: with the front leg to the north the right tip, 1 m
    /// east, stands 0.2 m higher than the left one; with the front to the east the right one, 1 m south, 0.4 m lower.
    #[test]
    fn how_much_higher_the_right_tip_stands_by_hand() {
        let mut ground = level_ground(None);
        (ground.plane.gradient, ground.plane.height_0_m) = ([0.1, 0.2], 3.0);
        let leg = CrossLeg { ground: &ground, mast_at: [5.0, -2.0], side_reach_m: 1.0, front_reach_m: 3.0 };
        assert!((leg.difference_m(0.0) - 0.2).abs() < 1e-12);
        assert!((leg.difference_m(FRAC_PI_2) + 0.4).abs() < 1e-12);
    }
}
