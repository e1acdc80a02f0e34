//! What laying the base down a little turned changes in its level and in the gaps under its feet.
//!
//! The changes for turns by 1.96 sigma to either side, and not a derivative: with the cross leg near the contour the
//! gap has a kink, as another end of it begins to touch, and grows whichever way the base is turned. Each side is
//! taken as straight from the planned place to there (GUM 2008, 5.1.2, note: where a function bends too much for
//! its first derivative).

use std::f64::consts::FRAC_1_SQRT_2;

use crate::numerics::real::{erfc, hypot};
use crate::plan::LegResult;
use crate::quantity::estimate::{COVERAGE_95, Estimate};

use super::frame::Frame;
use super::{BaseInput, foot};

/// Adds to each foot's interval what a base laid down a little turned would change.
pub(super) fn widen_by_turning(legs: &mut [LegResult], input: &BaseInput) {
    let gaps = |turn_deg: f64| -> Vec<f64> {
        let frame = turned(input, turn_deg);
        frame.legs.iter().map(|leg| foot::gap_at_centre(leg, &frame, input.base, input.ground)).collect()
    };
    let turn_deg = COVERAGE_95 * input.turning_sigma_deg;
    for ((leg, after), before) in legs.iter_mut().zip(gaps(turn_deg)).zip(gaps(-turn_deg)) {
        let gap = leg.gap_centre_m;
        let side = |turned_m: f64| hypot(gap.half_width_95, turned_m - gap.value);
        leg.gap_centre_m = Estimate { half_width_95: half_width_95_of(side(after), side(before)), ..gap };
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

/// Halvings of the bracket: 2⁻⁴⁰ of a few millimetres is far below rounding on any screen.
const HALVINGS: u32 = 40;

/// Half-width that holds 95 % of an error which is, for turns to one side, as large as a normal error with the
/// first half-width, for turns to the other as one with the second.
///
/// With a normal ground error e and a turn t that changes the gap by a·t to the right and b·t to the left, |e + a·t|
/// over t > 0 is distributed like |e + a·t| over all t, since turning both signs leaves it as it is. So half of all
/// errors are as large as those of a normal one with variance s² + a²·σ², half with s² + b²·σ², and the coverage
/// probability (GUM Supplement 1, JCGM 101:2008, 3.13) is the mean of the two.
fn half_width_95_of(one: f64, other: f64) -> f64 {
    // Share of a normal error outside ± z sigma: erfc(z / √2), NIST DLMF (7.20.1).
    let outside = |half_width: f64, of: f64| erfc(COVERAGE_95 * half_width / of * FRAC_1_SQRT_2);
    let (mut low, mut high) = (one.min(other), one.max(other));
    for _ in 0..HALVINGS {
        let middle = 0.5 * (low + high);
        if middle <= low || middle >= high {
            break;
        }
        if 0.5 * (outside(middle, one) + outside(middle, other)) > 0.05 {
            low = middle
        } else {
            high = middle
        }
    }
    0.5 * (low + high)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn equal_sides_keep_their_half_width() {
        assert_eq!(half_width_95_of(0.003, 0.003), 0.003);
        assert_eq!(half_width_95_of(0.0, 0.0), 0.0);
    }

    /// Without an error to one side, 90 % of the other side has to be held: 1.645 in place of 1.960
    /// (GUM 2008, Table G.1).
    #[test]
    fn a_one_sided_error_needs_the_factor_for_90_percent() {
        for half_width in [half_width_95_of(1.960, 0.0), half_width_95_of(0.0, 1.960)] {
            assert!((half_width - 1.645).abs() < 5e-4, "{half_width}");
        }
    }
}
