//! The turn that lays the cross leg on the contour, with the front leg pointing downhill.

use crate::plan::ContourTurn;
use crate::quantity::bearing::turn_deg;

use super::BaseInput;
use super::foot::gap_at_centre;
use super::frame::Frame;

/// The turn from the present front bearing to the fall line, and the front foot that results.
pub fn contour(input: &BaseInput) -> ContourTurn {
    let Some(fall_deg) = input.fall_bearing_deg else {
        return ContourTurn { front_bearing_deg: None, turn_deg: None, foot_after_m: None };
    };
    let frame = Frame::lay(input.base, input.ground, input.mast_at, fall_deg);
    let front = frame.legs.first().map(|leg| gap_at_centre(leg, &frame, input.base, input.ground));
    ContourTurn {
        front_bearing_deg: Some(fall_deg),
        turn_deg: Some(turn_deg(input.front_bearing_deg, fall_deg)),
        foot_after_m: front,
    }
}
