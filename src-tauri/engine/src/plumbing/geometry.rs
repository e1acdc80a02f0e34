//! What a mast's plumbing hangs on, taken out of the plan once: so that a live reading need not plan anew.

use serde::{Deserialize, Serialize};

use super::{BlockMove, LegSwing, PlumbedFoot, Plumbing, RopeMove, verdict};
use crate::job::Job;
use crate::numerics::real::{atan2_deg, cos_deg, hypot, sin_deg, tan_deg};
use crate::plan::Plan;
use crate::quantity::bearing::unit;
use crate::survey::plumb::Lean;

/// The standing mast, its guys and its base, as far as plumbing goes.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct PlumbGeometry {
    pub raised_height_m: f64,
    pub front_bearing_deg: f64,
    pub guys: Vec<PlumbGuy>,
    pub legs: Vec<PlumbLeg>,
    /// Slope of the ground: dz/dx to the east, dz/dy to the north; none where nobody has measured it.
    pub gradient: Option<[f64; 2]>,
    /// What one turn of a turnbuckle takes in; none without one.
    pub turn_m: Option<f64>,
}

/// A guy, from its eye up to its collar.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct PlumbGuy {
    pub id: String,
    pub name: String,
    /// Of its collar above the mast's foot.
    pub height_m: f64,
    /// From eye to collar: east, north, up.
    pub chord: [f64; 3],
}

/// A leg of the base.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct PlumbLeg {
    pub id: String,
    pub bearing_deg: f64,
    pub reach_m: f64,
    /// Its foot as planned; none where it stands on the ground.
    pub foot: Option<PlumbFoot>,
}

/// Heights of a foot as planned, how thick it is along the leg and how wide across it. Its outer face is flush with the leg's tip.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct PlumbFoot {
    pub thick_m: f64,
    pub wide_m: f64,
    pub centre_m: f64,
    pub inner_m: f64,
    pub outer_m: f64,
    pub left_m: f64,
    pub right_m: f64,
}

impl PlumbGeometry {
    pub fn of(job: &Job, plan: &Plan) -> Self {
        let guy = |guy: &crate::plan::GuyResult| PlumbGuy {
            id: guy.id.clone(),
            name: guy.name.clone(),
            height_m: guy.attach[2] - plan.mast.foot_m,
            chord: [0, 1, 2].map(|axis| guy.attach[axis] - guy.eye[axis]),
        };
        let base = &job.rig.base;
        let [thick_m, wide_m] = [base.foot_thickness_mm, base.foot_width_mm].map(|mm| mm / 1000.0);
        let leg = |leg: &crate::base::LegResult| PlumbLeg {
            id: leg.id.clone(),
            bearing_deg: leg.bearing_deg,
            reach_m: leg.reach_m,
            foot: (leg.support == crate::base::Support::Foot).then_some(PlumbFoot {
                thick_m,
                wide_m,
                centre_m: leg.gap_centre_m.value,
                inner_m: leg.gap_inner_m,
                outer_m: leg.gap_outer_m,
                left_m: leg.gap_left_m,
                right_m: leg.gap_right_m,
            }),
        };
        let measured = plan.ground.model != crate::ground::GroundModelKind::AssumedLevel;
        Self {
            raised_height_m: plan.mast.raised_height_m,
            front_bearing_deg: job.placement.front_bearing_deg,
            guys: plan.guys.iter().map(guy).collect(),
            legs: plan.base.legs.iter().map(leg).collect(),
            gradient: measured.then_some([plan.ground.gradient_east, plan.ground.gradient_north]),
            turn_m: job.tensions.turn_mm.map(|turn_mm| turn_mm / 1000.0),
        }
    }

    /// The moves that take a lean out, and whether it needs any.
    ///
    /// A rope's end at height h over the foot moves by −h·tan(lean) towards the lean; the rope is taken in by what its
    /// chord gets shorter. A leg of reach r is raised by r·tan of the lean along it, a foot's faces each by
    /// their own reach; its left and right edge besides by half its width times the tangent of the lean across the leg, which the right edge
    /// rises by where the mast leans to the right.
    ///
    /// # Accuracy
    /// The tube is taken as straight. Only the chord's change is reckoned, not that of sag and stretch: set the
    /// tension afterwards.
    pub fn plumbing(&self, lean: &Lean) -> Plumbing {
        Plumbing {
            top_aside_m: self.raised_height_m * tan_deg(lean.lean_deg),
            ropes: self.guys.iter().map(|guy| self.rope(guy, lean)).collect(),
            blocks: self.legs.iter().map(|leg| block(leg, lean)).collect(),
            feet: self.legs.iter().filter_map(|leg| foot(leg, lean)).collect(),
            swing: self.swing(lean),
            verdict: verdict(lean),
        }
    }

    fn rope(&self, guy: &PlumbGuy, lean: &Lean) -> RopeMove {
        let [east, north] = unit(lean.towards_deg);
        let back_m = -guy.height_m * tan_deg(lean.lean_deg);
        let [x, y, z] = guy.chord;
        let chord_m = hypot(hypot(x, y), z);
        let moved_m = hypot(hypot(x + back_m * east, y + back_m * north), z);
        let take_in_m = chord_m - moved_m;
        RopeMove {
            guy_id: guy.id.clone(),
            name: guy.name.clone(),
            take_in_m,
            sigma_m: guy.height_m * tan_deg(lean.sigma_deg) * hypot(x, y) / chord_m.max(f64::MIN_POSITIVE),
            turns: self.turn_m.map(|turn_m| take_in_m / turn_m),
        }
    }

    /// How far the cross leg's end is swung along the slope, the frame turning about the mast, so that the ground under the
    /// leg rises by as much more as the mast leans to its side. With g the slope along the leg and G the steepest there is:
    /// G·cos(β + θ − up) = g + tan(lean).
    fn swing(&self, lean: &Lean) -> Option<LegSwing> {
        /// Farther than a tenth of a turn the other legs stand elsewhere altogether.
        const MOST_SWING_DEG: f64 = 36.0;
        let [east, north] = self.gradient?;
        let right = self.legs.iter().find(|leg| leg.id == "right")?;
        let grade = hypot(east, north);
        let up_deg = atan2_deg(east, north);
        let from_deg = right.bearing_deg - up_deg;
        // The tip that the mast leans to is to come up.
        let wanted = grade * cos_deg(from_deg) + tan_deg(lean.along_deg(right.bearing_deg));
        if grade < 1e-6 || wanted.abs() > grade {
            return None;
        }
        let angle_deg = crate::numerics::real::acos(wanted / grade).to_degrees();
        // Of the two bearings at which the ground rises so, the nearer.
        let turns = [angle_deg - from_deg, -angle_deg - from_deg].map(half_turn);
        let turn_deg = if turns[0].abs() <= turns[1].abs() { turns[0] } else { turns[1] };
        let rate = (grade * sin_deg(from_deg + turn_deg)).abs();
        let sigma_deg = lean.sigma_deg / rate.max(1e-6);
        if turn_deg.abs() > MOST_SWING_DEG {
            return None;
        }
        let along_m = |angle_deg: f64| right.reach_m * angle_deg.to_radians();
        Some(LegSwing { turn_deg, tip_m: along_m(turn_deg), sigma_m: along_m(sigma_deg) })
    }
}

fn half_turn(angle_deg: f64) -> f64 {
    let turned = crate::quantity::bearing::wrap_360(angle_deg);
    if turned > 180.0 { turned - 360.0 } else { turned }
}

fn block(leg: &PlumbLeg, lean: &Lean) -> BlockMove {
    BlockMove {
        leg_id: leg.id.clone(),
        raise_m: leg.reach_m * tan_deg(lean.along_deg(leg.bearing_deg)),
        sigma_m: leg.reach_m * tan_deg(lean.sigma_deg),
    }
}

/// The foot that stands where the block stood: each face is raised by its own reach, and the edges by how far they lie aside.
fn foot(leg: &PlumbLeg, lean: &Lean) -> Option<PlumbedFoot> {
    let foot = leg.foot.as_ref()?;
    let rise = tan_deg(lean.along_deg(leg.bearing_deg));
    let [outer_m, inner_m] = [leg.reach_m, leg.reach_m - foot.thick_m];
    let centre_m = 0.5 * (outer_m + inner_m);
    // Right of who looks out along the leg, as `base::foot` has it.
    let edge_m = 0.5 * foot.wide_m * tan_deg(lean.along_deg(leg.bearing_deg + 90.0));
    Some(PlumbedFoot {
        leg_id: leg.id.clone(),
        centre_m: foot.centre_m + centre_m * rise,
        inner_m: foot.inner_m + inner_m * rise,
        outer_m: foot.outer_m + outer_m * rise,
        left_m: foot.left_m + centre_m * rise - edge_m,
        right_m: foot.right_m + centre_m * rise + edge_m,
        sigma_m: centre_m * tan_deg(lean.sigma_deg),
    })
}
