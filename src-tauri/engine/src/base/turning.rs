//! How sure a foot's height is: what the ground's own uncertainty and a base laid down a little turned do to it, both
//! together.
//!
//! The frame comes down until its first point touches, so a foot's height is the greatest of the heights of all places
//! under the timbers, less the ground under the foot. With the cross leg near the contour its two ends are as high as
//! each other, and which of them touches hangs on the turn and on the ground's slope across alike: the greatest of two
//! uncertain numbers, which no derivative and no sum of squares tells of.

use std::f64::consts::FRAC_1_SQRT_2;

use crate::base::LegResult;
use crate::ground::highest::breaks_within;
use crate::numerics::highest_of_normals::Normals;
use crate::numerics::least_squares::DMatrix;
use crate::numerics::real::hypot;
use crate::quantity::estimate::COVERAGE_95;

use super::frame::Frame;
use super::{BaseInput, foot};

/// A place that lies lower than the one that touches by more than so many of its own sigmas never touches first.
const FAR_SIGMAS: f64 = 3.5;

/// Of places that may touch first, the highest: the others lie between them.
const MOST_PLACES: usize = 12;

/// Nearer together in a timber than this two places are one.
const SAME_PLACE_M: f64 = 1e-6;

/// Sets each foot's interval by all that may be otherwise when the base is laid down.
pub(super) fn set_intervals(legs: &mut [LegResult], planned: &Frame, input: &BaseInput) {
    let frames = Frames::of(planned, input);
    let places = frames.places();
    let between: DMatrix<f64> = DMatrix::from_fn(places.len(), places.len(), |i, j| {
        input.ground.difference_variance(places[i].at, places[j].at)
    });
    for (index, leg) in legs.iter_mut().enumerate() {
        let middle = frames.middle(index);
        leg.gap_centre_m.half_width_95 = half_width_95(&places, &between, &middle, input);
    }
}

/// The half-width of the interval of the greatest height of all places over the ground under a foot.
///
/// With v the variance of a difference of two heights, the covariance of two differences from the same middle is
/// ½·(v(i, m) + v(j, m) − v(i, j)) (GUM 2008, 5.2.2); the turn t, common to all, adds the product of their rates, and
/// of what bends by q·t² three times the product of the q: its mean square about the planned height, as the mean of t⁴
/// is 3 (GUM 2008, 5.1.2, note).
fn half_width_95(
    places: &[TimberPoint],
    between: &DMatrix<f64>,
    middle: &TimberPoint,
    input: &BaseInput,
) -> f64 {
    let from_middle: Vec<f64> =
        places.iter().map(|place| input.ground.difference_variance(place.at, middle.at)).collect();
    let rates: Vec<f64> = places.iter().map(|place| place.per_sigma_m - middle.per_sigma_m).collect();
    let bends: Vec<f64> = places.iter().map(|place| place.bend_m - middle.bend_m).collect();
    let covariance = DMatrix::from_fn(places.len(), places.len(), |i, j| {
        let by_ground = 0.5 * (from_middle[i] + from_middle[j] - between[(i, j)]);
        by_ground + rates[i] * rates[j] + 3.0 * bends[i] * bends[j]
    });
    if places.len() == 1 {
        return COVERAGE_95 * covariance[(0, 0)].max(0.0).sqrt();
    }
    Normals::new(places.iter().map(|place| -place.below_m).collect(), &covariance).half_width_95()
}

/// A place in a timber.
#[derive(Debug, Clone, Copy)]
struct TimberPoint {
    /// Where it lies as planned.
    at: [f64; 2],
    /// The ground there, below the highest of all as planned.
    below_m: f64,
    /// How much higher the ground under it gets when the base is turned by one sigma.
    per_sigma_m: f64,
    /// What it gains by a turn of one sigma to either side beyond that.
    bend_m: f64,
}

/// A place in a timber, by how far it lies out and to the right, with the ground there in each of the frames in which it
/// was found: on a step of the ground its height can't be looked up again.
#[derive(Debug, Clone, Copy)]
struct GroundSample {
    inner: [f64; 2],
    heights_m: [Option<f64>; 3],
}

fn near(a: [f64; 2], b: [f64; 2]) -> bool {
    hypot(a[0] - b[0], a[1] - b[1]) < SAME_PLACE_M
}

/// The frame as planned, and turned by 1.96 sigma to either side.
struct Frames<'a> {
    planned: &'a Frame,
    turned: [Frame; 2],
    input: &'a BaseInput<'a>,
}

impl<'a> Frames<'a> {
    fn of(planned: &'a Frame, input: &'a BaseInput) -> Self {
        let by_deg = COVERAGE_95 * input.turning_sigma_deg;
        Self { planned, turned: [turned(input, by_deg), turned(input, -by_deg)], input }
    }

    /// The middle of a leg's foot.
    fn middle(&self, leg: usize) -> TimberPoint {
        let out_m = foot::centre_out_m(&self.planned.legs[leg], self.input.base);
        self.place(leg, &GroundSample { inner: [out_m, 0.0], heights_m: [None; 3] })
    }

    /// A place of a leg by how far it lies out and to the right: it turns with the leg.
    fn place(&self, leg: usize, seen: &GroundSample) -> TimberPoint {
        let [out_m, right_m] = seen.inner;
        let at = self.planned.legs[leg].point(out_m, right_m);
        let [planned_m, clockwise_m, back_m] = std::array::from_fn(|frame| {
            let there = || self.frame(frame).legs[leg].point(out_m, right_m);
            seen.heights_m[frame].unwrap_or_else(|| self.input.ground.height(there()))
        });
        TimberPoint {
            at,
            below_m: self.planned.underside_m - planned_m,
            per_sigma_m: (clockwise_m - back_m) / (2.0 * COVERAGE_95),
            bend_m: (0.5 * (clockwise_m + back_m) - planned_m) / (COVERAGE_95 * COVERAGE_95),
        }
    }

    fn frame(&self, number: usize) -> &Frame {
        if number == 0 { self.planned } else { &self.turned[number - 1] }
    }

    /// Places in a timber that may touch first, in the planned frame and in both turned ones.
    fn seen(&self, leg: usize) -> Vec<GroundSample> {
        let mut found: Vec<GroundSample> = Vec::new();
        for number in 0..3 {
            let timber = &self.frame(number).legs[leg];
            breaks_within(self.input.ground, &timber.outline, &mut |at, height_m| {
                let inner = timber.inner(at);
                let known = found.iter_mut().find(|known| near(known.inner, inner));
                match known {
                    // Where the ground has a step, its upper edge touches.
                    Some(known) => {
                        let highest_m =
                            known.heights_m[number].map_or(height_m, |known_m| known_m.max(height_m));
                        known.heights_m[number] = Some(highest_m);
                    }
                    None => {
                        let mut heights_m = [None; 3];
                        heights_m[number] = Some(height_m);
                        found.push(GroundSample { inner, heights_m });
                    }
                }
            });
        }
        found
    }

    /// All places that may touch first, the one that does so as planned before the others.
    ///
    /// Over flat pieces these are corners of the timbers, where their sides cross from one piece to the next, and
    /// vertices under them: those of the planned frame and of both turned ones.
    fn places(&self) -> Vec<TimberPoint> {
        let mut all: Vec<TimberPoint> = Vec::new();
        for leg in 0..self.planned.legs.len() {
            // At the joint the timbers lie over one another: the same place once.
            for place in self.seen(leg).iter().map(|seen| self.place(leg, seen)) {
                if !all.iter().any(|known| near(known.at, place.at)) {
                    all.push(place);
                }
            }
        }
        all.sort_by(|a, b| a.below_m.total_cmp(&b.below_m));
        let Some(&first) = all.first() else { return all };
        all.retain(|place| {
            let variance = self.input.ground.difference_variance(place.at, first.at);
            let sigma_m = hypot(variance.max(0.0).sqrt(), place.per_sigma_m - first.per_sigma_m);
            place.below_m - first.below_m <= FAR_SIGMAS * sigma_m
        });
        all.truncate(MOST_PLACES);
        // The first is the highest: what rounding leaves of its own depth is none.
        all.iter_mut().for_each(|place| place.below_m = (place.below_m - first.below_m).max(0.0));
        all
    }
}

/// One sigma of the base's level from laying it down a little turned: the quadratic mean of what turns by 1.96 sigma
/// to either side change, over 1.96. As each side is taken as straight, this is the root of the mean square change
/// over all turns, which is what adds to other variances (GUM 2008, 5.1.2).
pub fn level_sigma_by_turning_m(input: &BaseInput) -> f64 {
    let level_m = |turn_deg: f64| turned(input, turn_deg).underside_m;
    let (planned_m, turn_deg) = (level_m(0.0), COVERAGE_95 * input.turning_sigma_deg);
    let change_m = hypot(level_m(turn_deg) - planned_m, level_m(-turn_deg) - planned_m);
    change_m * FRAC_1_SQRT_2 / COVERAGE_95
}

fn turned(input: &BaseInput, turn_deg: f64) -> Frame {
    Frame::lay(input.base, input.ground, input.mast_at, input.front_bearing_deg + turn_deg)
}
