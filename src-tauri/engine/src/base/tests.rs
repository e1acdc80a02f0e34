use super::*;
use crate::ground::Plane;
use crate::job::BasePattern;
use crate::numerics::real::{cos_deg, sin_deg, tan_deg};
use crate::plan::Support;

/// A plane falling at `slope_deg` towards `fall_deg`.
fn slope(slope_deg: f64, fall_deg: f64) -> Ground {
    let grade = tan_deg(slope_deg);
    let gradient = [-grade * sin_deg(fall_deg), -grade * cos_deg(fall_deg)];
    Ground { plane: Plane { height_0_m: 0.0, gradient, covariance: [[0.0; 3]; 3] }, surface: None }
}

fn timbers() -> Base {
    Base {
        pattern: BasePattern::T,
        front_reach_m: 1.27,
        side_reach_m: 0.9,
        back_reach_m: None,
        timber_width_mm: 89.0,
        timber_depth_mm: 89.0,
        seat_height_mm: 0.0,
        foot_thickness_mm: 38.0,
        foot_width_mm: 89.0,
        shim_up_to_mm: 38.0,
    }
}

const STAKES: Stakes = Stakes { per_leg: 2, inset_m: 0.1, diameter_mm: 12.0, length_m: 0.6 };

fn lay(base: &Base, ground: &Ground, front_bearing_deg: f64) -> BaseResult {
    super::base(&BaseInput {
        base,
        stakes: &STAKES,
        ground,
        mast_at: [3.0, -2.0],
        front_bearing_deg,
        turning_sigma_deg: 2.0,
        fall_bearing_deg: Some(225.0),
    })
}

fn leg<'a>(result: &'a BaseResult, id: &str) -> &'a LegResult {
    result.legs.iter().find(|leg| leg.id == id).expect("the pattern has this leg")
}

#[test]
fn front_leg_down_the_fall_line_needs_reach_times_tangent() {
    let result = lay(&timbers(), &slope(8.0, 225.0), 225.0);
    let front = leg(&result, "front");
    // It touches along the uphill face of the cross leg, half a timber behind the axis.
    let expected = (1.27 - 0.019 + 0.0445) * tan_deg(8.0);
    assert!((front.gap_centre_m.value - expected).abs() < 1e-9);
    assert_eq!(front.support, Support::Foot);
    assert!((front.bevel_along_deg + 8.0).abs() < 1e-9);
    assert!(front.bevel_across_deg.abs() < 1e-9);
    assert!((front.gap_outer_m - front.gap_inner_m - 0.038 * tan_deg(8.0)).abs() < 1e-9);
    assert_eq!(leg(&result, "left").support, Support::Shim);
}

#[test]
fn level_ground_needs_nothing() {
    let result = lay(&timbers(), &slope(0.0, 0.0), 10.0);
    assert!(result.legs.iter().all(|leg| leg.support == Support::OnGround));
    // Two corners at each of three tips, and the four corners of the joint.
    assert_eq!(result.contacts.len(), 3 * 2 + 4);
}

#[test]
fn contour_turn_points_the_front_leg_downhill() {
    let result = lay(&timbers(), &slope(7.0, 225.0), 200.0);
    assert!((result.contour.turn_deg.unwrap() - 25.0).abs() < 1e-9);
    let after = lay(&timbers(), &slope(7.0, 225.0), 225.0);
    let foot = leg(&after, "front").gap_centre_m.value;
    assert!((result.contour.foot_after_m.unwrap() - foot).abs() < 1e-12);
}

#[test]
fn laying_it_down_turned_widens_the_side_feet() {
    // Along the fall line the front foot does not care about a small turn; the side feet do.
    let result = lay(&timbers(), &slope(7.0, 225.0), 225.0);
    let sigma = leg(&result, "right").gap_centre_m.sigma();
    assert!(sigma > 0.5 * 0.9 * tan_deg(7.0) * 2.0_f64.to_radians(), "{sigma}");
    assert!(leg(&result, "front").gap_centre_m.sigma() < 0.2 * sigma);
}

#[test]
fn x_base_has_a_back_leg_and_stakes_on_both_sides() {
    let base = Base { pattern: BasePattern::X, back_reach_m: Some(0.8), ..timbers() };
    let result = lay(&base, &slope(5.0, 225.0), 225.0);
    assert_eq!(leg(&result, "back").support, Support::OnGround);
    assert_eq!(result.stakes.len(), 8);
    let ids: Vec<&str> = result.stakes.iter().map(|stake| stake.id.as_str()).collect();
    assert!(ids.contains(&"front-right") && ids.contains(&"back-left"));
}
