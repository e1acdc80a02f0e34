//! From a fix to a point, with its derivatives.

pub(super) mod algebra;
pub(super) mod polar;
pub(super) mod square;
mod tapes;

use super::{Positions, Readings};
use crate::job::{PointFix, Side};
use crate::numerics::real::hypot;
use crate::quantity::{FieldError, bearing, format};
use algebra::{Matrix2, NOTHING, dot, minus};
use tapes::Arm;

/// A point found from marks.
#[derive(Debug, Clone)]
pub(super) struct Followed {
    pub at: [f64; 2],
    /// Derivatives of the point by pairs of the joint state: its first index (0 the gradient, 2 + 2i point i).
    pub by_state: Vec<(usize, Matrix2)>,
    /// Covariance from this fix's own readings.
    pub own: Matrix2,
    /// Plan angle at the point between the directions to two marks, for tapes; of three the best one.
    pub crossing_deg: Option<f64>,
    /// What was measured beyond need.
    pub spare: Option<Spare>,
}

/// How far one tape of three is longer than the others have it.
#[derive(Debug, Clone)]
pub(super) struct Spare {
    pub too_long_m: f64,
    /// Number of the tape.
    pub arm: usize,
    /// Derivatives by pairs of the joint state.
    pub by_state: Vec<(usize, [f64; 2])>,
    pub own_variance: f64,
}

impl Followed {
    pub fn known(at: [f64; 2], sigma_m: f64) -> Self {
        let variance = sigma_m * sigma_m;
        let own = [[variance, 0.0], [0.0, variance]];
        Self { at, by_state: vec![], own, crossing_deg: None, spare: None }
    }

    /// A point of the joint state itself.
    pub fn of_state(start: Start) -> Self {
        Self { by_state: vec![(start.state, algebra::IDENTITY)], own: NOTHING, ..Self::known(start.at, 0.0) }
    }
}

/// A point that others are found from: its place and its first index in the joint state.
#[derive(Debug, Clone, Copy)]
pub(super) struct Start {
    pub at: [f64; 2],
    pub state: usize,
}

/// Why measurements fix no point.
pub(super) enum Miss {
    SameSpot,
    Short {
        apart_m: f64,
        by_m: f64,
    },
    /// One tape reaches past the other's whole circle.
    Over {
        apart_m: f64,
        by_m: f64,
    },
    InLine,
    /// Two places fit three tapes about equally well.
    Mirrored,
}

impl Miss {
    pub fn sentence(&self) -> String {
        match self {
            Miss::SameSpot => "two points that stand apart".to_owned(),
            Miss::Short { apart_m, by_m } => format!(
                "tapes that meet: the two marks are {apart_m:.3} m apart along the tape, so these fall short \
                 of each other by {by_m:.3} m"
            ),
            Miss::Over { apart_m, by_m } => format!(
                "tapes that meet: the two marks are {apart_m:.3} m apart along the tape, so the longer one \
                 overshoots the other's reach by {by_m:.3} m"
            ),
            Miss::InLine => {
                "tapes that cross: these run along one line, so they fix nothing across it; take \
                             a bearing and one tape instead"
                    .to_owned()
            }
            Miss::Mirrored => {
                "tapes from three marks that do not stand in one line: here two places fit, one on \
                               each side of the marks; tape it from two marks and say on which side it lies"
                    .to_owned()
            }
        }
    }
}

/// Follows a fix whose references were checked and whose marks are found.
pub(super) fn follow(positions: &Positions, fix: &PointFix, path: &str) -> Result<Followed, FieldError> {
    let readings = &positions.readings;
    let start = |id: &str| positions.start(id);
    let said = |tape_m: f64| format::length(tape_m, positions.units);
    let arm = |id: &str, tape_m: f64| Arm { from: start(id), tape_m };
    match fix {
        PointFix::Origin => Ok(Followed::known([0.0, 0.0], 0.0)),
        PointFix::Coordinates { east_m, north_m } => {
            Ok(Followed::known([*east_m, *north_m], readings.sketched_sigma_m()))
        }
        PointFix::BearingTape { from, bearing_deg, tape_m } => {
            Ok(polar::along_ground(readings, start(from), *bearing_deg, *tape_m))
        }
        PointFix::SlopeTape { from, bearing_deg, tape_m, vertical_deg } => {
            Ok(polar::through_air(readings, start(from), *bearing_deg, *tape_m, *vertical_deg))
        }
        PointFix::TwoTapes { side: None, from_a, from_b, .. } => {
            Err(super::references::no_side(path, from_a, from_b))
        }
        PointFix::TwoTapes { from_a, tape_a_m, from_b, tape_b_m, side: Some(side) } => {
            tapes::two(readings, arm(from_a, *tape_a_m), arm(from_b, *tape_b_m), *side).map_err(|miss| {
                FieldError::new(
                    path,
                    format!("tapes of {} and {}", said(*tape_a_m), said(*tape_b_m)),
                    miss.sentence(),
                )
            })
        }
        PointFix::ThreeTapes { from_a, tape_a_m, from_b, tape_b_m, from_c, tape_c_m } => {
            let arms = [arm(from_a, *tape_a_m), arm(from_b, *tape_b_m), arm(from_c, *tape_c_m)];
            tapes::three(readings, arms).map_err(|miss| {
                let given =
                    format!("tapes of {}, {} and {}", said(*tape_a_m), said(*tape_b_m), said(*tape_c_m));
                FieldError::new(path, given, miss.sentence())
            })
        }
        PointFix::Offset { from, toward, along_m, off_m, side } => {
            square::offset(readings, start(from), start(toward), *along_m, to_the_left(*side, *off_m))
                .map_err(|miss| {
                    FieldError::new(path, format!("a line from {from} to {toward}"), miss.sentence())
                })
        }
        // Those that can be found are points of the joint state, and were looked up before.
        PointFix::NextCorner { .. } => Err(super::references::lost_corner(path)),
    }
}

/// A length or an angle, positive to the left.
pub(super) fn to_the_left(side: Side, value: f64) -> f64 {
    match side {
        Side::Left => value,
        Side::Right => -value,
    }
}

/// A point whose place is chosen, as it comes to lie when tapes from two marks find it.
pub(super) fn tied(positions: &Positions, at: [f64; 2], mark_a: &str, mark_b: &str) -> Option<Followed> {
    let arm = |id: &str| {
        positions.mark(id)?;
        let from = positions.start(id);
        Some(Arm { from, tape_m: along_slope_m(&positions.readings, minus(at, from.at)) })
    };
    tapes::differentiate(&positions.readings, &[arm(mark_a)?, arm(mark_b)?], at).ok()
}

/// A point whose place is chosen, as it comes to lie when a bearing and a tape from the nearest mark find it.
pub(super) fn polar_to(positions: &Positions, at: [f64; 2]) -> Followed {
    let far = |start: &Start| {
        let [east, north] = minus(at, start.at);
        hypot(east, north)
    };
    let starts = positions.marks().map(|(id, _)| positions.start(id));
    let Some(from) = starts.min_by(|a, b| far(a).total_cmp(&far(b))) else {
        return Followed::known(at, 0.0);
    };
    let [east, north] = minus(at, from.at);
    let reading_deg = bearing::of_vector(east, north) - positions.readings.add_to_reading_deg;
    let tape_m = along_slope_m(&positions.readings, [east, north]);
    polar::along_ground(&positions.readings, from, reading_deg, tape_m)
}

fn along_slope_m(readings: &Readings, plan: [f64; 2]) -> f64 {
    hypot(hypot(plan[0], plan[1]), dot(readings.gradient, plan))
}
