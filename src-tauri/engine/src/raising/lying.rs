//! How the mast lies before it goes up: on the ground, on a timber of its base, or with its upper end on something.

use super::motion::TiltMotion;
use crate::ground::Ground;
use crate::ground::highest::breaks_along;
use crate::numerics::real::{asin, atan2, cos, hypot, sin};

/// The mast as it lies down on things.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LyingMast {
    /// Its axis over the hinge while it lies level: how far the hinge is from the axis, on the lying side.
    pub axis_m: f64,
    /// Half its thickness, with what is tied along it.
    pub radius_m: f64,
    /// From the hinge to its upper end, along it.
    pub length_m: f64,
    /// Height over the ground of what its upper end is laid on.
    pub rest_height_m: f64,
}

/// A thing that the mast can come to lie on: so far out from the hinge, and so high over it.
pub type Bump = [f64; 2];

/// The least angle to the level at which the mast keeps clear of the ground along its way and of the bumps, and its upper end
/// is as high as what it is laid on.
///
/// Its underside touches a point at ρ from the hinge and at the angle β over the level where ρ·sin(β − angle) is how far the
/// underside lies over the hinge, square to the axis. The ground is flat in pieces, so that its breaks are all the points
/// that can be touched first.
///
/// # References
/// Plane and solid geometry.
pub fn lying_deg(turn: &TiltMotion, mast: &LyingMast, ground: &Ground, bumps: &[Bump]) -> f64 {
    let mut angle_rad = -MOST_DOWN_RAD;
    let from = turn.plan(0.0, 0.0);
    let to = turn.plan(mast.length_m, 0.0);
    let mut touch =
        |bump: Bump| angle_rad = touching_rad(mast, bump).map_or(angle_rad, |at| at.max(angle_rad));
    bumps.iter().for_each(|bump| touch(*bump));
    breaks_along(ground, from, to, &mut |at, height_m| {
        touch([turn.seen([at[0], at[1], 0.0])[0], height_m - turn.hinge[2]]);
    });
    angle_rad.max(end_down_rad(turn, mast, ground)).to_degrees()
}

/// Nobody lays a mast down a slope steeper than this.
const MOST_DOWN_RAD: f64 = std::f64::consts::FRAC_PI_4;

/// None for a point that lies within the mast's thickness of the hinge, or beyond its end.
fn touching_rad(mast: &LyingMast, [out, up]: Bump) -> Option<f64> {
    let (far, under_m) = (hypot(out, up), mast.axis_m - mast.radius_m);
    if far <= under_m.abs().max(mast.radius_m) || out <= 0.0 {
        return None;
    }
    let angle = atan2(up, out) - asin(under_m / far);
    let along = far * cos(atan2(up, out) - angle);
    (along <= mast.length_m + 1e-9).then_some(angle)
}

/// Level of the underside of the upper end over the ground beneath it, less what it is laid on.
fn end_over_m(turn: &TiltMotion, mast: &LyingMast, ground: &Ground, angle: f64) -> f64 {
    let under_m = mast.axis_m - mast.radius_m;
    let out = mast.length_m * cos(angle) - under_m * sin(angle);
    let up = mast.length_m * sin(angle) + under_m * cos(angle);
    turn.hinge[2] + up - ground.height(turn.plan(out, 0.0)) - mast.rest_height_m
}

/// The steepest of the angles at which the upper end comes down on what it is laid on: looked for from above.
fn end_down_rad(turn: &TiltMotion, mast: &LyingMast, ground: &Ground) -> f64 {
    const STEP_RAD: f64 = 0.01;
    let over = |angle: f64| end_over_m(turn, mast, ground, angle);
    let mut high = std::f64::consts::FRAC_PI_2;
    while high - STEP_RAD > -MOST_DOWN_RAD && over(high - STEP_RAD) > 0.0 {
        high -= STEP_RAD;
    }
    let mut low = high - STEP_RAD;
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if over(middle) > 0.0 { high = middle } else { low = middle }
    }
    high
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ground::Plane;
    use crate::numerics::real::{asin, atan_deg, tan_deg};

    fn plane(gradient: [f64; 2]) -> Ground {
        Ground { plane: Plane { height_0_m: 0.0, gradient, covariance: [[0.0; 3]; 3] }, surface: None }
    }

    const MAST: LyingMast = LyingMast { axis_m: 0.0, radius_m: 0.03, length_m: 8.0, rest_height_m: 0.0 };

    /// A pin 0.3 m up on level ground: its end comes down by 0.27 m in 8 m.
    #[test]
    fn on_level_ground_it_leans_down_to_its_end() {
        let turn = TiltMotion::about([0.0, 0.0, 0.3], 0.0);
        let found = lying_deg(&turn, &MAST, &plane([0.0; 2]), &[]);
        // sin a · 8 − 0.03 · cos a = −0.3.
        let a = found.to_radians();
        assert!(
            (8.0 * sin(a) - 0.03 * cos(a) + 0.3).abs() < 1e-9 && (-2.0..-1.9).contains(&found),
            "{found}"
        );
    }

    /// With the edge on the ground of a slope of 10° that rises to the north, its axis 0.05 m over the hinge: it lies along
    /// the slope but for the 0.02 m that its skin is over the hinge.
    #[test]
    fn uphill_it_lies_along_the_slope() {
        let turn = TiltMotion::about([0.0; 3], 0.0);
        let mast = LyingMast { axis_m: 0.05, ..MAST };
        let found = lying_deg(&turn, &mast, &plane([0.0, tan_deg(10.0)]), &[]);
        let by_hand = 10.0 - asin(0.02 / hypot(8.0, 0.02)).to_degrees();
        assert!((found - by_hand).abs() < 1e-3, "{found} {by_hand}");
    }

    #[test]
    fn a_rest_lifts_its_end() {
        let turn = TiltMotion::about([0.0, 0.0, 0.3], 0.0);
        let found = lying_deg(&turn, &LyingMast { rest_height_m: 1.0, ..MAST }, &plane([0.0; 2]), &[]);
        let a = found.to_radians();
        assert!((0.3 + 8.0 * sin(a) - 0.03 * cos(a) - 1.0).abs() < 1e-9, "{found}");
    }

    /// A timber whose upper edge is 0.1 m under the pin and reaches 1 m out lifts the whole mast.
    #[test]
    fn a_timber_under_it_lifts_it() {
        let turn = TiltMotion::about([0.0, 0.0, 0.5], 0.0);
        let low = lying_deg(&turn, &MAST, &plane([0.0; 2]), &[]);
        let found = lying_deg(&turn, &MAST, &plane([0.0; 2]), &[[1.0, -0.02]]);
        let by_hand = atan_deg(-0.02) + asin(0.03 / hypot(1.0, 0.02)).to_degrees();
        assert!(found > low && (found - by_hand).abs() < 1e-9, "{found} {by_hand}");
    }
}
