//! Habits of the trade that a plan must show (common practice): each is arithmetic that a builder does in
//! the head, stated here apart from the engine.

use mastwright_engine::job::{AnchorLayout, BearingReference, Job, SlopeReading};
use mastwright_engine::plan::{Plan, compute};

use crate::yardstick::yardstick;

/// The yardstick's rig on a plane that falls at `slope_deg` towards `fall_deg`.
fn on_slope(slope_deg: f64, fall_deg: f64) -> Job {
    let mut job = yardstick();
    job.yard.bearings = BearingReference::True;
    job.yard.spot_heights.clear();
    let reading = |id: &str, bearing_deg: f64, slope_deg: f64| SlopeReading {
        id: id.to_owned(),
        bearing_deg,
        slope_deg,
        sigma_deg: None,
        struck: false,
    };
    job.yard.slopes =
        vec![reading("down", fall_deg, -slope_deg), reading("across", (fall_deg + 90.0) % 360.0, 0.0)];
    job
}

fn plan(job: &Job) -> Plan {
    compute(job).expect("a bare slope can be planned").plan
}

/// Common practice: anchors as far out as the attachment is high make 45° guys on level ground.
#[test]
fn anchors_as_far_out_as_the_attachment_is_high_make_45_degrees() {
    let mut job = on_slope(0.0, 0.0);
    let level = &mut job.rig.guy_levels[0];
    level.collar_radius_mm = 0.0;
    level.anchor_eye_height_m = 0.0;
    job.rig.base.seat_height_mm = -job.rig.base.timber_depth_mm;
    level.anchor_layout = AnchorLayout::EqualTape { tape_m: level.attach_height_m };
    for guy in plan(&job).guys {
        assert!((guy.angle_deg - 45.0).abs() < 1e-6, "{}: {}", guy.id, guy.angle_deg);
    }
}

/// Common practice: a 6° slope under a leg of 1.6 m reach needs a foot near 17 cm: 1.6·tan 6° = 0.168.
/// Half a timber behind the axis, where the frame touches, and half a foot's thickness move it a little.
#[test]
fn six_degrees_under_a_metre_sixty_needs_a_foot_of_seventeen_centimetres() {
    let mut job = on_slope(6.0, 225.0);
    job.rig.base.front_reach_m = 1.6;
    job.placement.front_bearing_deg = 225.0;
    let base = plan(&job).base;
    let foot_m = base.legs.iter().find(|leg| leg.id == "front").unwrap().gap_centre_m.value;
    let behind_m = (job.rig.base.timber_width_mm - job.rig.base.foot_thickness_mm) / 2.0 / 1000.0;
    let expected_m = (1.6 + behind_m) * 6.0_f64.to_radians().tan();
    assert!((foot_m - expected_m).abs() < 1e-10, "{foot_m}");
    assert!((foot_m - 0.168).abs() < 0.006, "{foot_m}");
}

/// A wall that runs at 45° to the fall line turns the guys with it, and each guy's angle follows from the
/// ground's height at its own anchor: tan(angle) = (attachment − ground) / radius.
#[test]
fn guys_set_from_a_wall_at_45_degrees_have_the_angles_that_geometry_says() {
    let (slope_deg, fall_deg) = (9.0_f64, 225.0_f64);
    let mut job = on_slope(slope_deg, fall_deg);
    job.placement.front_bearing_deg = fall_deg - 45.0;
    job.placement.guy_turn_deg = 0.0;
    let level = &mut job.rig.guy_levels[0];
    level.collar_radius_mm = 0.0;
    level.anchor_eye_height_m = 0.0;
    level.anchor_layout = AnchorLayout::EqualRadius { radius_m: 4.0 };
    let attach_m = level.attach_height_m;
    let plan = plan(&job);
    let foot_above_ground_m = plan.mast.foot_m - plan.mast.ground_m;
    let mut angles = Vec::new();
    for (index, guy) in plan.guys.iter().enumerate() {
        let from_fall_deg = -45.0 + 120.0 * index as f64;
        let drop_m = 4.0 * slope_deg.to_radians().tan() * from_fall_deg.to_radians().cos();
        let expected_deg = ((foot_above_ground_m + attach_m + drop_m) / 4.0).atan().to_degrees();
        assert!((guy.angle_deg - expected_deg).abs() < 1e-6, "{}: {} {expected_deg}", guy.id, guy.angle_deg);
        angles.push(guy.angle_deg);
    }
    assert!(angles[0] > angles[2] + 5.0, "the guy towards the fall is steeper: {angles:?}");
}
