//! What stands under the tip of each leg: nothing, shims, or a foot with its lower end sawn to the ground.

use crate::base::{LegResult, Support};
use crate::ground::Ground;
use crate::job::Base;
use crate::numerics::real::atan_deg;
use crate::quantity::estimate::Estimate;

use super::frame::{Frame, FrameLeg};

/// A gap below this is not worth a shim: the thickness of a pencil line on a rough timber (common practice).
const NO_SHIM_BELOW_M: f64 = 0.003;

/// Gap between the underside and the ground at the middle of the foot.
pub fn gap_at_centre(leg: &FrameLeg, frame: &Frame, base: &Base, ground: &Ground) -> f64 {
    frame.underside_m - ground.height(centre(leg, base))
}

/// The leg with everything needed to cut what stands under its tip.
pub fn leg(leg: &FrameLeg, frame: &Frame, base: &Base, ground: &Ground) -> LegResult {
    let gap = |at: [f64; 2]| frame.underside_m - ground.height(at);
    let middle = centre(leg, base);
    let [middle_out_m, half_width_m] = [centre_out_m(leg, base), base.foot_width_mm / 2000.0];
    let gradient = ground.gradient(middle);
    let along = |direction: [f64; 2]| gradient[0] * direction[0] + gradient[1] * direction[1];
    LegResult {
        id: leg.id.to_owned(),
        bearing_deg: leg.bearing_deg,
        reach_m: leg.reach_m,
        outline: leg.outline.to_vec(),
        tip: leg.point(leg.reach_m, 0.0),
        support: support(gap(middle), base),
        // Its interval is set when all places that may touch are known: see `turning`.
        gap_centre_m: Estimate::from_sigma(gap(middle), 0.0),
        gap_inner_m: gap(leg.point(leg.reach_m - base.foot_thickness_mm / 1000.0, 0.0)),
        gap_outer_m: gap(leg.point(leg.reach_m, 0.0)),
        gap_left_m: gap(leg.point(middle_out_m, -half_width_m)),
        gap_right_m: gap(leg.point(middle_out_m, half_width_m)),
        // Apparent slope of the ground along each saw cut: tan α = g · u, Ragan 2009, apparent dip.
        bevel_along_deg: atan_deg(along(leg.out)),
        bevel_across_deg: atan_deg(along(leg.right)),
    }
}

fn centre(leg: &FrameLeg, base: &Base) -> [f64; 2] {
    leg.point(centre_out_m(leg, base), 0.0)
}

/// The foot's outer face is flush with the tip.
pub(super) fn centre_out_m(leg: &FrameLeg, base: &Base) -> f64 {
    leg.reach_m - base.foot_thickness_mm / 2000.0
}

/// What a gap asks for.
pub fn support(gap_m: f64, base: &Base) -> Support {
    if gap_m < NO_SHIM_BELOW_M {
        Support::OnGround
    } else if gap_m <= base.shim_up_to_mm / 1000.0 {
        Support::Shim
    } else {
        Support::Foot
    }
}
