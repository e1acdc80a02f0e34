//! The turn that lays the cross leg on the contour, with the front leg pointing downhill.

use crate::base::{ContourState, ContourTurn};
use crate::numerics::chi_square::CHI_SQUARE_95_2;
use crate::quantity::bearing::{turn_deg, unit, wrap_360};

use super::BaseInput;
use super::foot::gap_at_centre;
use super::frame::Frame;
use super::level_turn::CrossLeg;

/// A difference below this is level: what a thumb can't tell (common practice).
const LEVEL_M: f64 = 0.001;

/// The turn from the present front bearing to the one that levels the tips of the cross leg, and the front foot that
/// results.
///
/// On the plane that is the fall line. On a surface the tips are levelled on the surface itself, not on the plane that
/// fits it best: on a bank the two have little to do with each other. Of all turns that level them the front leg points
/// downhill where the frame rests on its cross leg and the front tip stands on the lowest ground; where the front leg
/// holds up the frame at all of them, the turn at which the frame lies lowest is taken.
pub fn contour(input: &BaseInput) -> ContourTurn {
    let front_deg = match input.ground.surface {
        None => input.fall_bearing_deg.ok_or(ContourState::Level),
        Some(_) => on_surface(input),
    };
    match front_deg {
        Ok(front_deg) => turned_to(input, front_deg),
        Err(state) => ContourTurn { state, ..ContourTurn::default() },
    }
}

fn turned_to(input: &BaseInput, front_deg: f64) -> ContourTurn {
    let frame = Frame::lay(input.base, input.ground, input.mast_at, front_deg);
    let front = frame.legs.first().map(|leg| gap_at_centre(leg, &frame, input.base, input.ground));
    ContourTurn {
        state: ContourState::Turn,
        front_bearing_deg: Some(front_deg),
        turn_deg: Some(turn_deg(input.front_bearing_deg, front_deg)),
        foot_after_m: front,
    }
}

fn on_surface(input: &BaseInput) -> Result<f64, ContourState> {
    let cross_leg = CrossLeg {
        ground: input.ground,
        mast_at: input.mast_at,
        side_reach_m: input.base.side_reach_m,
        front_reach_m: input.base.front_reach_m,
    };
    if is_level(&cross_leg) {
        return Err(ContourState::Level);
    }
    let turns = cross_leg.level_turns();
    let laid = turns
        .iter()
        .map(|turn| Laid::at(wrap_360(turn.to_degrees()), cross_leg.front_ground_m(*turn), input));
    let best = laid.min_by(|a, b| a.order.0.cmp(&b.order.0).then(a.order.1.total_cmp(&b.order.1)));
    best.map(|laid| laid.front_deg).ok_or(ContourState::NotFound)
}

/// A turn that levels the cross leg, with what it is chosen by: the least is best.
struct Laid {
    front_deg: f64,
    order: (bool, f64),
}

impl Laid {
    fn at(front_deg: f64, front_ground_m: f64, input: &BaseInput) -> Self {
        let frame = Frame::lay(input.base, input.ground, input.mast_at, front_deg);
        let [east, north] = unit(front_deg);
        let out_m = |at: &[f64; 3]| (at[0] - input.mast_at[0]) * east + (at[1] - input.mast_at[1]) * north;
        let cross_leg_ends_m = input.base.timber_width_mm / 2000.0 + LEVEL_M;
        let on_cross_leg = frame.contacts.iter().any(|contact| out_m(contact).abs() <= cross_leg_ends_m);
        let order = if on_cross_leg { (false, front_ground_m) } else { (true, frame.underside_m) };
        Self { front_deg, order }
    }
}

/// Whether level tips can't be told from tilted ones however the base is turned: as for the plane's fall line, the 95 %
/// region of the difference (two degrees of freedom) holds nought at every turn.
fn is_level(cross_leg: &CrossLeg) -> bool {
    cross_leg.steepest_turns().into_iter().all(|turn| {
        let [right, left] = cross_leg.tips(turn);
        let doubt_m = CHI_SQUARE_95_2.sqrt() * cross_leg.ground.difference_sigma(right, left);
        cross_leg.difference_m(turn).abs() <= doubt_m.max(LEVEL_M)
    })
}
