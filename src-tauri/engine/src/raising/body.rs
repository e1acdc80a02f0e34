//! What turns with the mast, as straight pieces with a thickness.

use super::motion::TiltMotion;
use super::results::SweptPart;
use crate::numerics::certified::{WITHIN_M, least};
use crate::numerics::real::cos_deg;
use crate::numerics::vector::Vector;
use crate::yard::solid::{BoundingBox, Nearest, Solid};

/// A straight piece that turns: all within a radius of the way between two points of the standing mast.
#[derive(Debug, Clone, PartialEq)]
pub struct StiffPiece {
    pub part: SweptPart,
    pub ends: [Vector; 2],
    pub radius_m: f64,
}

/// A rope from an eye that stays to a collar that turns.
#[derive(Debug, Clone, PartialEq)]
pub struct TurningRope {
    pub part: SweptPart,
    pub eye: Vector,
    /// Of the standing mast.
    pub collar: Vector,
}

/// Strands that hang straight down from their upper ends, which turn with the mast.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HangingStrands {
    /// The middle of their upper ends, of the standing mast.
    pub top: Vector,
    pub length_m: f64,
    /// How far the upper ends are from their middle, with half a cord.
    pub radius_m: f64,
}

/// Where something comes nearest to a thing on its way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NearestOnWay {
    /// Nowhere on the way is it nearer than this: less than the true distance by no more than [`WITHIN_M`].
    pub distance_m: f64,
    pub elevation_deg: f64,
    pub from: Vector,
    pub to: Vector,
}

/// Something straight that moves while the mast turns.
pub trait Moving {
    /// Its ends at an angle of the mast to the level.
    fn ends_at(&self, turn: &TiltMotion, elevation_deg: f64) -> [Vector; 2];
    /// Half its thickness.
    fn radius_m(&self) -> f64;
    /// How far any point of it moves for each radian, at the most.
    fn speed_m(&self, turn: &TiltMotion) -> f64;
    /// A box around all of its way.
    fn bounds(&self, turn: &TiltMotion) -> BoundingBox;
    fn part(&self) -> &SweptPart;
}

impl Moving for StiffPiece {
    fn ends_at(&self, turn: &TiltMotion, elevation_deg: f64) -> [Vector; 2] {
        self.ends.map(|end| turn.at(end, elevation_deg))
    }

    fn radius_m(&self) -> f64 {
        self.radius_m
    }

    fn speed_m(&self, turn: &TiltMotion) -> f64 {
        self.ends.iter().map(|end| turn.arm(*end).radius_m).fold(0.0, f64::max)
    }

    fn bounds(&self, turn: &TiltMotion) -> BoundingBox {
        around(turn, &self.ends, self.radius_m)
    }

    fn part(&self) -> &SweptPart {
        &self.part
    }
}

impl Moving for TurningRope {
    fn ends_at(&self, turn: &TiltMotion, elevation_deg: f64) -> [Vector; 2] {
        [self.eye, turn.at(self.collar, elevation_deg)]
    }

    fn radius_m(&self) -> f64 {
        0.0
    }

    fn speed_m(&self, turn: &TiltMotion) -> f64 {
        turn.arm(self.collar).radius_m
    }

    fn bounds(&self, turn: &TiltMotion) -> BoundingBox {
        let swept = around(turn, &[self.collar], 0.0);
        let eye = self.eye;
        BoundingBox {
            lo: std::array::from_fn(|axis| swept.lo[axis].min(eye[axis])),
            hi: std::array::from_fn(|axis| swept.hi[axis].max(eye[axis])),
        }
    }

    fn part(&self) -> &SweptPart {
        &self.part
    }
}

impl Moving for HangingStrands {
    fn ends_at(&self, turn: &TiltMotion, elevation_deg: f64) -> [Vector; 2] {
        let top = turn.at(self.top, elevation_deg);
        [top, [top[0], top[1], top[2] - self.length_m]]
    }

    fn radius_m(&self) -> f64 {
        self.radius_m
    }

    fn speed_m(&self, turn: &TiltMotion) -> f64 {
        turn.arm(self.top).radius_m
    }

    fn bounds(&self, turn: &TiltMotion) -> BoundingBox {
        let swept = around(turn, &[self.top], self.radius_m);
        let [x, y, z] = swept.lo;
        BoundingBox { lo: [x, y, z - self.length_m], hi: swept.hi }
    }

    fn part(&self) -> &SweptPart {
        &SweptPart::Strands
    }
}

/// The whole turns of some points, whatever their angle.
fn around(turn: &TiltMotion, points: &[Vector], radius_m: f64) -> BoundingBox {
    let mut bounds = BoundingBox { lo: [f64::INFINITY; 3], hi: [f64::NEG_INFINITY; 3] };
    for point in points {
        let arm = turn.arm(*point);
        for axis in 0..3 {
            let middle = turn.hinge[axis] + arm.right_m * turn.right[axis];
            let share = if axis == 2 { 1.0 } else { turn.toward[axis].abs() };
            let reach_m = arm.radius_m * share + radius_m;
            bounds.lo[axis] = bounds.lo[axis].min(middle - reach_m);
            bounds.hi[axis] = bounds.hi[axis].max(middle + reach_m);
        }
    }
    bounds
}

/// The rectangle in plan within which something straight stays between two angles of the mast.
pub fn swept_outline(
    moving: &dyn Moving,
    turn: &TiltMotion,
    [lying_deg, standing_deg]: [f64; 2],
) -> Vec<[f64; 2]> {
    const STEPS: u32 = 45;
    let step_deg = (standing_deg - lying_deg) / f64::from(STEPS);
    let seen = (0..=STEPS).flat_map(|step| {
        let ends = moving.ends_at(turn, lying_deg + step_deg * f64::from(step));
        ends.map(|end| turn.seen(end))
    });
    let nothing = [[f64::INFINITY; 2], [f64::NEG_INFINITY; 2]];
    let [low, high] = seen.fold(nothing, |[low, high], [out, right, _]| {
        [[low[0].min(out), low[1].min(right)], [high[0].max(out), high[1].max(right)]]
    });
    // Between two steps an end goes out no farther than its circle bulges over the chord: r·(1 − cos half a step).
    let bulge_m = moving.speed_m(turn) * (1.0 - cos_deg(step_deg / 2.0));
    let beside_m = moving.radius_m() + bulge_m;
    let [left, right] = [low[1] - beside_m, high[1] + beside_m];
    let [near, far] = [low[0] - beside_m, high[0] + beside_m];
    vec![turn.plan(near, right), turn.plan(far, right), turn.plan(far, left), turn.plan(near, left)]
}

/// The nearest that something comes to solids between two angles of the mast, as far as that is below `cut_m`.
///
/// # Accuracy
/// The distance to each solid at each angle is that of [`Solid::near_segment`]; between the angles it can't change faster than
/// the farthest point moves, so that nothing in between is nearer than the answer says.
pub fn nearest_on_way(
    moving: &dyn Moving,
    turn: &TiltMotion,
    [lying_deg, standing_deg]: [f64; 2],
    solids: &[(Solid, BoundingBox)],
    cut_m: f64,
) -> Option<NearestOnWay> {
    let (bounds, radius_m) = (moving.bounds(turn), moving.radius_m());
    let speed_m = moving.speed_m(turn);
    let mut found: Option<NearestOnWay> = None;
    for (solid, around) in solids {
        let cut_m = found.map_or(cut_m, |nearest| nearest.distance_m + WITHIN_M);
        if bounds.gap(around) >= cut_m {
            continue;
        }
        let near = |deg: f64| -> Nearest {
            let [a, b] = moving.ends_at(turn, deg);
            solid.near_segment(a, b)
        };
        let off = |rad: f64| near(rad.to_degrees()).distance_m - radius_m;
        let way = [lying_deg.to_radians(), standing_deg.to_radians()];
        let Some(least) = least(off, way, speed_m, cut_m) else { continue };
        let at = near(least.at.to_degrees());
        let distance_m = (least.value - WITHIN_M).max(0.0);
        let (elevation_deg, from, to) = (least.at.to_degrees(), at.from, at.to);
        found = Some(NearestOnWay { distance_m, elevation_deg, from, to });
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mast() -> StiffPiece {
        StiffPiece { part: SweptPart::Mast, ends: [[0.0; 3], [0.0, 0.0, 8.0]], radius_m: 0.05 }
    }

    fn to(moving: &dyn Moving, solid: Solid) -> Option<NearestOnWay> {
        let turn = TiltMotion::about([0.0; 3], 90.0);
        let bounds = solid.bounds();
        nearest_on_way(moving, &turn, [0.0, 90.0], &[(solid, bounds)], f64::INFINITY)
    }

    fn post(at: [f64; 2], top_m: f64) -> Solid {
        Solid::Upright { a: at, b: at, radius_m: 0.1, z0: f64::NEG_INFINITY, z1: top_m }
    }

    /// The mast sweeps a quarter disc of 8 m to the east. A post beside it keeps its distance but for both thicknesses; one
    /// beyond its end is 1 m off; one behind it is as far off as it stands; one under it is hit.
    #[test]
    fn a_quarter_disc_by_hand() {
        for (at, top_m, distance_m) in [
            ([4.0, 2.0], 3.0, 1.85),
            ([9.15, 0.0], 3.0, 1.0),
            ([-3.0, 0.0], 3.0, 2.85),
            ([4.0, 0.02], 3.0, 0.0),
            // Over its rim: a post 8 m off and 5 m high leaves the circle's way where that passes 45°.
            ([6.0, 0.3], 9.0, 0.15),
        ] {
            let found = to(&mast(), post(at, top_m)).unwrap();
            let off = (found.distance_m - distance_m).abs();
            assert!(off <= WITHIN_M + 1e-9, "{at:?} {found:?}");
        }
        // A wire across, over the circle: 8 m reach to (5.65, 5.65) and the wire 1 m further on.
        let reach = 9.0 * std::f64::consts::FRAC_1_SQRT_2;
        let wire = Solid::Curtain { a: [reach, -3.0, reach], b: [reach, 3.0, reach], half_m: 0.0 };
        let found = to(&mast(), wire).unwrap();
        assert!(
            (found.distance_m - 0.95).abs() < 1e-3 && (found.elevation_deg - 45.0).abs() < 1.0,
            "{found:?}"
        );
    }

    #[test]
    fn a_rope_sweeps_from_its_eye_to_its_collar() {
        let eye = [5.0, 0.0, 0.0];
        let rope = TurningRope { part: SweptPart::Rope { guy: "a".into() }, eye, collar: [0.0, 0.0, 8.0] };
        // Between the eye and the collar's circle: a low post beyond the eye is hit only while the mast lies out there.
        let found = to(&rope, post([7.0, 0.0], 0.5)).unwrap();
        assert!(found.distance_m <= 0.0 && found.elevation_deg < 20.0, "{found:?}");
        let beside = to(&rope, post([6.0, 1.1], 0.5)).unwrap();
        assert!((beside.distance_m - 1.0).abs() <= WITHIN_M + 1e-9, "{beside:?}");
    }
}
