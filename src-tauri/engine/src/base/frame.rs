//! The level frame of timbers, let down on the ground until its first point touches.

use crate::ground::Ground;
use crate::ground::highest::breaks_within;
use crate::job::{Base, BasePattern};
use crate::quantity::bearing::{unit, wrap_360};

/// Points this little above the ground count as touching: what a thumb can't tell (common practice).
const TOUCH_M: f64 = 0.001;

/// A frame lying level on the ground.
#[derive(Debug, Clone)]
pub struct Frame {
    pub legs: Vec<FrameLeg>,
    /// Level of the undersides.
    pub underside_m: f64,
    /// Where it touches: the highest ground under the timbers.
    pub contacts: Vec<[f64; 3]>,
}

/// One leg in plan.
#[derive(Debug, Clone)]
pub struct FrameLeg {
    pub id: &'static str,
    pub bearing_deg: f64,
    pub reach_m: f64,
    /// Unit vector outwards.
    pub out: [f64; 2],
    /// Unit vector to the right, looking outwards.
    pub right: [f64; 2],
    /// The mast's axis.
    pub axis: [f64; 2],
    /// Corners of the timber in plan, in order round it.
    pub outline: [[f64; 2]; 4],
}

impl FrameLeg {
    /// The plan point `out_m` from the axis along the leg and `right_m` to its right.
    pub fn point(&self, out_m: f64, right_m: f64) -> [f64; 2] {
        [
            self.axis[0] + self.out[0] * out_m + self.right[0] * right_m,
            self.axis[1] + self.out[1] * out_m + self.right[1] * right_m,
        ]
    }
}

impl FrameLeg {
    /// How far a plan point lies out along the leg, and to its right.
    pub fn inner(&self, at: [f64; 2]) -> [f64; 2] {
        let [dx, dy] = [at[0] - self.axis[0], at[1] - self.axis[1]];
        [dx * self.out[0] + dy * self.out[1], dx * self.right[0] + dy * self.right[1]]
    }
}

impl Frame {
    /// Lays the frame: turned to its bearing, level, let down until the first point touches.
    pub fn lay(base: &Base, ground: &Ground, mast_at: [f64; 2], front_bearing_deg: f64) -> Self {
        let legs = legs(base, mast_at, front_bearing_deg);
        let touching = highest_ground(&legs, ground);
        Self { legs, underside_m: touching.level_m, contacts: touching.points }
    }
}

fn legs(base: &Base, axis: [f64; 2], front_bearing_deg: f64) -> Vec<FrameLeg> {
    let half_width_m = base.timber_width_mm / 2000.0;
    // The legs are halved into one another at the mast, so each begins at the far face of the other timber.
    let leg = |id, turn_deg: f64, reach_m: f64| {
        let bearing_deg = wrap_360(front_bearing_deg + turn_deg);
        let out = unit(bearing_deg);
        let mut leg = FrameLeg {
            id,
            bearing_deg,
            reach_m,
            out,
            right: [out[1], -out[0]],
            axis,
            outline: [[0.0; 2]; 4],
        };
        leg.outline = [
            leg.point(-half_width_m, -half_width_m),
            leg.point(reach_m, -half_width_m),
            leg.point(reach_m, half_width_m),
            leg.point(-half_width_m, half_width_m),
        ];
        leg
    };
    let mut legs = vec![leg("front", 0.0, base.front_reach_m), leg("right", 90.0, base.side_reach_m)];
    if base.pattern == BasePattern::X {
        legs.push(leg("back", 180.0, base.back_reach_m.unwrap_or(base.front_reach_m)));
    }
    legs.push(leg("left", 270.0, base.side_reach_m));
    legs
}

/// The highest ground found so far, with every place that reaches it.
struct Highest {
    level_m: f64,
    points: Vec<[f64; 3]>,
}

impl Highest {
    fn take(&mut self, at: [f64; 2], height_m: f64) {
        if height_m > self.level_m {
            self.level_m = height_m;
            self.points.retain(|point| point[2] > height_m - TOUCH_M);
        }
        let repeats = |point: &[f64; 3]| (point[0] - at[0]).abs() + (point[1] - at[1]).abs() < TOUCH_M;
        if height_m > self.level_m - TOUCH_M && !self.points.iter().any(repeats) {
            self.points.push([at[0], at[1], height_m]);
        }
    }
}

/// The highest ground under the timbers, exactly.
fn highest_ground(legs: &[FrameLeg], ground: &Ground) -> Highest {
    let mut highest = Highest { level_m: f64::NEG_INFINITY, points: Vec::new() };
    for leg in legs {
        breaks_within(ground, &leg.outline, &mut |at, height_m| highest.take(at, height_m));
    }
    highest
}
