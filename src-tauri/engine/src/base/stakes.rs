//! Where the stakes that hold the base are driven: beside each leg, a little in from its tip.

use crate::base::StakePoint;

use super::BaseInput;
use super::frame::{Frame, FrameLeg};

/// The stakes of every leg, right side first.
pub fn stakes(frame: &Frame, input: &BaseInput) -> Vec<StakePoint> {
    frame.legs.iter().flat_map(|leg| leg_stakes(leg, input)).collect()
}

fn leg_stakes(leg: &FrameLeg, input: &BaseInput) -> Vec<StakePoint> {
    // The stake's side touches the timber's.
    let beside_m = (input.base.timber_width_mm + input.stakes.diameter_mm) / 2000.0;
    let sides = [("right", beside_m), ("left", -beside_m)];
    let count = usize::from(input.stakes.per_leg.min(2));
    let stake = |(side, right_m): &(&str, f64)| {
        let [east_m, north_m] = leg.point(leg.reach_m - input.stakes.inset_m, *right_m);
        let ground_m = input.ground.height([east_m, north_m]);
        StakePoint { id: format!("{}-{side}", leg.id), east_m, north_m, ground_m }
    };
    sides.iter().take(count).map(stake).collect()
}
