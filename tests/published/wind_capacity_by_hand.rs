//! The gust limit of a plain mast, worked by hand from published parts: pressure by ASCE 7-16 (Table 26.10-1: 0.85 in
//! open country up to 15 ft, 1.00 at 33 ft) and the law of the ideal gas, drag 1.2 of a round tube (EN 1991-1-4, fig.
//! 7.28), the cross-flow principle on the guys, and the plane statics of three guys.
//!
//! A tube of 60.3 mm, 4 m long, pinned at its foot, three thin wires from its top down at 45°, hardly tightened, the
//! wind from the first wire's side, so that this one holds alone:
//!
//! | step | sum | result |
//! |---|---|---|
//! | 1. Wind on the tube, the half at its top | ½·1.2·0.0603 m·4 m·q | 0.14472 q |
//! | 2. Wind on the first wire, half of it | ½·1.2·0.001·5.657·0.7071·0.5·q | 0.00120 q |
//! | 3. On each other wire (n² = 1 − 0.35355² = 0.875) | ½·1.2·0.001·5.657·0.9354·0.875·q | 0.00278 q |
//! | 4. Push at the top | 0.14472 + 0.00120 + 2·0.00278 | 0.15148 q |
//! | 5. Allowable pull of the first wire | 0.8·750 N/2 | 300 N |
//! | 6. It stretches, and the top moves | (300 − 5)·5.657/100 000; that over cos 45° | 16.7 mm; 23.6 mm |
//! | 7. The other wires' chords shorten by | 23.6 mm·cos 45°·cos 60° | 8.3 mm |
//! | 8. The wind bows them, 1.2·0.001·0.9354·q a metre, q 1225.6 Pa | 1.376 N/m | |
//! | 9. and so they pull with T = w·L/√(24·s/L), s the slack with their own stretch | 1.376·5.657/√(24·0.01018/5.657) | 37.4 N |
//! | 10. Along the wind, both | 2·37.4·cos 45°·cos 60° | 26.5 N |
//! | 11. The first wire's pull | (0.15148·1225.6 + 26.5)/cos 45° | 300.0 N: this q is the limit |
//! | 12. Density at 0 °C, sea level | 101 325/(287.053·273.15) | 1.29227 kg/m³ |
//! | 13. Kz here, at 10 m | 2.01·(15/900)^(2/9.5); 2.01·(32.808/900)^(2/9.5) | 0.84889; 1.00093 |
//! | 14. Gust | √(2·1225.6·1.00093/(1.29227·0.84889)) | 47.29 m/s |
//!
//! How far the top moves at the speed at which it is lowered, three quarters of that limit or less, is greatest where the
//! wind blows at the third wire's back: then two wires hold, each 60° off the wind. With H the pull of each in plan, the
//! third hangs slack and is bowed as above:
//!
//! | step | sum |
//! |---|---|
//! | a. Push at the top, the same by symmetry; the slack wire pulls along | F = 0.15148 q + T₃·cos 45° |
//! | b. 2·H·cos 60° = F, so each windward wire pulls | T = F/cos 45° |
//! | c. Its chord grows by its stretch and by the sag that is drawn out of it | e = (T − 5)·L/EA + w₀²L³/(24·5²) − w²L³/(24·T²) |
//! | d. The top moves | Δ = e/(cos 45°·cos 60°) |
//! | e. The third wire's chord shortens by Δ·cos 45°, it pulls with | T₃ = w₃·L/√(24·s/L) |
//!
//! with w₀ = 0.004·9.81, w = 1.2·0.001·0.875·q, w₃ = 1.2·0.001·0.5·q a metre, s the shortening and w₀'s slack.
//!
//! Without steps 6 to 10 it would be 50.55 m/s: slack wires bowed by the wind pull the mast along with it. What the sum
//! leaves out (the tube's weight on its lean of 1 in 200, the wires' weight) is some tenths of a per cent.

use mastwright_engine::anchor::soil::ClayFeel;
use mastwright_engine::job::*;
use mastwright_engine::plan::compute;
use mastwright_engine::quantity::{UnitSystem, Units};
use mastwright_engine::resistance::rope::{RopeEnd, RopeMaterial};
use mastwright_engine::wind_capacity::{PartKind, withstand};

fn plain_mast() -> Job {
    let mut job = blank(Units { system: UnitSystem::Metric, inch_fraction: 16 });
    job.yard.bearings = BearingReference::True;
    // The first wire to the north.
    (job.placement.front_bearing_deg, job.placement.guy_turn_deg) = (0.0, 0.0);
    job.rig.base.timber_depth_mm = 89.0;
    // The base is not what this is about: a board carries the mast.
    job.rig.base.joint_pad_mm = Some(1000.0);
    job.rig.tubes.truncate(1);
    job.rig.tubes[0].length_m = 4.0;
    job.rig.tubes[0].section = Section::Measured { outside_mm: 60.3, wall_mm: 3.6 };
    job.rig.base.timber_depth_mm = 89.0;
    let level = &mut job.rig.guy_levels[0];
    (level.attach_height_m, level.collar_radius_mm) = (4.0, 0.0);
    level.anchor_layout = AnchorLayout::EqualRadius { radius_m: 4.0 };
    // The base timber lifts the foot by 89 mm: so are the eyes, for 45°.
    level.anchor_eye_height_m = 0.089;
    level.tension_n = 5.0;
    level.rope = Rope {
        name: "wire".into(),
        diameter_mm: 1.0,
        mass_g_per_m: 4.0,
        stretch_percent: 0.1,
        stretch_at_n: 100.0,
        strength: RopeStrength {
            minimum_n: Some(750.0),
            material: RopeMaterial::Steel,
            end: RopeEnd::Clips,
            design_factor: None,
        },
    };
    level.proof_pull_n = Some(100_000.0);
    (level.collar.held, level.collar.shoulder_mm) = (CollarHeld::Shoulder, Some(10.0));
    // Everything else is known and far stronger.
    job.yard.soil = SoilFeel::Clay { feel: ClayFeel::Hard };
    job.rig.base.pad_mm = Some(600.0);
    job
}

#[test]
fn three_wires_and_a_tube() {
    let job = plain_mast();
    let layout = compute(&job).unwrap().layout;
    assert!((layout.guys[0].angle_deg - 45.0).abs() < 1e-6);
    let limit = withstand(&job, &layout, &mut |_, _, _| true);
    let north = &limit.raised.directions[0];
    assert!((north.gust_m_per_s / 47.29 - 1.0).abs() < 0.005, "{north:?}");
    let weakest = north.weakest.as_ref().unwrap();
    assert_eq!((weakest.kind, weakest.guy.as_deref()), (PartKind::Rope, Some("upper-1")));
}

#[test]
fn the_top_moves_as_far_as_two_wires_let_it() {
    let job = plain_mast();
    let layout = compute(&job).unwrap().layout;
    let limit = withstand(&job, &layout, &mut |_, _, _| true);
    let gust = limit.lower_at_m_per_s.unwrap();
    let q = 0.5 * 1.29227 * gust * gust * 0.84889 / 1.00093;
    let (length, stiffness, cos45): (f64, f64, f64) = (5.657, 100_000.0, 0.5_f64.sqrt());
    let (w0, w, w3) = (0.004 * 9.80665, 1.2e-3 * 0.875 * q, 1.2e-3 * 0.5 * q);
    let slack = |w: f64, t: f64| w * w * length.powi(3) / (24.0 * t * t);
    let mut moved = 0.0;
    for _ in 0..50 {
        let shorter = moved * cos45 + slack(w0, 5.0);
        let t3 = w3 * length / (24.0 * shorter / length).sqrt();
        let pull = (0.15148 * q + t3 * cos45) / cos45;
        let grown = (pull - 5.0) * length / stiffness + slack(w0, 5.0) - slack(w, pull);
        moved = grown / (cos45 * 0.5);
    }
    assert!(moved > 0.015 && moved < 0.05, "{moved}");
    // One tube: run down it is as it was.
    for told in [limit.top_moves_at_lower_m, limit.top_moves_at_lay_down_m] {
        assert!((told.unwrap() / moved - 1.0).abs() < 0.02, "{told:?} {moved}");
    }
}
