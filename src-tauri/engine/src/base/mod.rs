//! The timber base on the slope: the level frame, its feet and shims, its stakes.

pub mod contour;
pub mod foot;
pub mod frame;
pub mod stakes;

use std::collections::BTreeMap;

use crate::ground::Ground;
use crate::job::{Base, Stakes};
use crate::numerics::real::hypot;
use crate::plan::{BaseResult, LegResult};
use crate::quantity::estimate::{COVERAGE_95, Estimate};

use frame::Frame;

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
    let mut legs: Vec<LegResult> =
        frame.legs.iter().map(|leg| foot::leg(leg, &frame, input.base, input.ground)).collect();
    widen_by_turning(&mut legs, input);
    BaseResult {
        underside_m: frame.underside_m,
        stakes: stakes::stakes(&frame, input),
        contacts: frame.contacts,
        contour: contour::contour(input),
        legs,
    }
}

/// Adds to each foot's interval what a base laid down a little turned would change.
///
/// The larger change of the two turns by 1.96 sigma, and not a derivative: with the cross leg near the contour the
/// gap has a kink, as another end of it begins to touch, and grows whichever way the base is turned. Between the
/// two turns it changes by no more than at them, so the interval holds at least what it claims (GUM 2008, 5.1.2,
/// note: where a function bends too much for its derivatives).
fn widen_by_turning(legs: &mut [LegResult], input: &BaseInput) {
    let gaps = |turn_deg: f64| -> Vec<f64> {
        let frame = Frame::lay(input.base, input.ground, input.mast_at, input.front_bearing_deg + turn_deg);
        frame.legs.iter().map(|leg| foot::gap_at_centre(leg, &frame, input.base, input.ground)).collect()
    };
    let turn_deg = COVERAGE_95 * input.turning_sigma_deg;
    for ((leg, after), before) in legs.iter_mut().zip(gaps(turn_deg)).zip(gaps(-turn_deg)) {
        let gap = leg.gap_centre_m;
        let from_turning = (after - gap.value).abs().max((before - gap.value).abs());
        leg.gap_centre_m = Estimate { half_width_95: hypot(gap.half_width_95, from_turning), ..gap };
    }
}

/// One sigma of the base's level from laying it down a little turned: what turns by 1.96 sigma change at most, over
/// 1.96 (see [`widen_by_turning`]).
pub fn level_sigma_by_turning_m(input: &BaseInput) -> f64 {
    let level_m = |turn_deg: f64| {
        Frame::lay(input.base, input.ground, input.mast_at, input.front_bearing_deg + turn_deg).underside_m
    };
    let (planned_m, turn_deg) = (level_m(0.0), COVERAGE_95 * input.turning_sigma_deg);
    let change_m = (level_m(turn_deg) - planned_m).abs().max((level_m(-turn_deg) - planned_m).abs());
    change_m / COVERAGE_95
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
