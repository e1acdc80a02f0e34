//! The timber base on the slope: the level frame, its feet and shims, its stakes.

pub mod contour;
pub mod foot;
pub mod frame;
mod level_turn;
mod results;
pub mod stakes;
pub mod turning;

use std::collections::BTreeMap;

use crate::ground::Ground;
use crate::job::{Base, Stakes};
use crate::quantity::estimate::Estimate;

use frame::Frame;
pub use results::{BaseResult, ContourState, ContourTurn, LegResult, StakePoint, Support};

/// What a base is computed from.
#[derive(Debug, Clone, Copy)]
pub struct BaseInput<'a> {
    pub base: &'a Base,
    pub stakes: &'a Stakes,
    pub ground: &'a Ground,
    /// The mast's axis, east and north in metres.
    pub mast_at: [f64; 2],
    pub front_bearing_deg: f64,
    /// One sigma of the bearing to which the base is turned when it is laid down.
    pub turning_sigma_deg: f64,
    /// True bearing in which the ground falls; none where it is not known.
    pub fall_bearing_deg: Option<f64>,
}

/// The base as it lies: level, let down until it first touches the ground.
pub fn base(input: &BaseInput) -> BaseResult {
    let frame = Frame::lay(input.base, input.ground, input.mast_at, input.front_bearing_deg);
    let mut legs = legs(&frame, input);
    turning::set_intervals(&mut legs, &frame, input);
    result(frame, legs, input)
}

/// The same for a picture, which shows no intervals: those of the gaps are without end, as nobody has asked how sure they
/// are.
pub fn base_without_intervals(input: &BaseInput) -> BaseResult {
    let frame = Frame::lay(input.base, input.ground, input.mast_at, input.front_bearing_deg);
    let mut legs = legs(&frame, input);
    legs.iter_mut().for_each(|leg| leg.gap_centre_m.half_width_95 = f64::INFINITY);
    result(frame, legs, input)
}

fn legs(frame: &Frame, input: &BaseInput) -> Vec<LegResult> {
    frame.legs.iter().map(|leg| foot::leg(leg, frame, input.base, input.ground)).collect()
}

fn result(frame: Frame, legs: Vec<LegResult>, input: &BaseInput) -> BaseResult {
    BaseResult {
        underside_m: frame.underside_m,
        stakes: stakes::stakes(&frame, input),
        contacts: frame.contacts,
        contour: contour::contour(input),
        legs,
    }
}

/// One sigma of a gap read with a rule between timber and ground: common practice.
const GAP_SIGMA_M: f64 = 0.002;

/// Puts measured gaps, by the leg's id, in the place of computed ones. What the ground does within a foot's length
/// stays as the survey has it.
pub fn with_measured_gaps(base: &mut BaseResult, timbers: &Base, gaps_m: &BTreeMap<String, f64>) {
    for leg in &mut base.legs {
        let Some(&gap_m) = gaps_m.get(&leg.id) else { continue };
        let more_m = gap_m - leg.gap_centre_m.value;
        leg.gap_centre_m = Estimate::from_sigma(gap_m, GAP_SIGMA_M);
        leg.support = foot::support(gap_m, timbers);
        for gap in [&mut leg.gap_inner_m, &mut leg.gap_outer_m, &mut leg.gap_left_m, &mut leg.gap_right_m] {
            *gap += more_m;
        }
    }
}

#[cfg(test)]
mod tests;
