//! Guys on sloping ground: lists.contesting.com, TowerTalk, August 2008 (msg00226) and June 2003 (msg00192).

use mastwright_engine::ground::{Ground, Plane};
use mastwright_engine::guys::{GuyInput, guys};
use mastwright_engine::job::{AnchorKind, AnchorLayout, GuyLevel, Instruments, Rope, RopeStrength};
use mastwright_engine::plan::GuyResult;
use mastwright_engine::survey::NorthFrom;
use mastwright_engine::survey::north::NorthCorrection;

const FOOT_M: f64 = 0.3048;

fn level(anchors: AnchorLayout) -> GuyLevel {
    GuyLevel {
        id: "top".into(),
        name: "Top".into(),
        attach_height_m: 100.0 * FOOT_M,
        collar_radius_mm: 0.0,
        count: 3,
        anchor_layout: anchors,
        anchor_eye_height_m: 0.0,
        rope: Rope {
            name: "wire".into(),
            diameter_mm: 4.8,
            mass_g_per_m: 110.0,
            stretch_percent: 0.1,
            stretch_at_n: 1000.0,
            strength: RopeStrength::default(),
        },
        tension_n: 1800.0,
        upper_end_m: 0.0,
        lower_end_m: 0.0,
        collar: Default::default(),
        when_lowered: Default::default(),
        anchor: AnchorKind::default(),
        proof_pull_n: None,
        to_thing: None,
    }
}

fn laid_out(gradient_north: f64, anchors: AnchorLayout, free: Vec<[f64; 2]>) -> Vec<GuyResult> {
    let plane = Plane { height_0_m: 0.0, gradient: [0.0, gradient_north], covariance: [[0.0; 3]; 3] };
    let north = NorthCorrection { add_to_reading_deg: 0.0, sigma_deg: 0.0, from: NorthFrom::True };
    let input = GuyInput {
        ground: &Ground { plane, surface: None },
        levels: &[level(anchors)],
        free_anchors: &[free],
        mast: [0.0, 0.0],
        foot_m: 0.0,
        contacts: &[],
        foot_sigma_m: 0.0,
        front_bearing_deg: 0.0,
        guy_turn_deg: 0.0,
        instruments: &Instruments::default(),
        north: &north,
        found: &Default::default(),
        fixings: &[],
    };
    guys(&input).0
}

/// Guy point 100 ft above the base; anchors 68 in higher at 88 ft, 19 in at 97 ft, 48 in at 113 ft.
/// DIFFERENCE: the message prints 47, 45 and 43°; the third does not follow from its own figures, which give
/// 40.35°. 0.005°.
#[test]
fn anchors_above_the_base() {
    for (radius_ft, rise_in, angle_deg) in [(88.0, 68.0, 46.99), (97.0, 19.0, 45.42), (113.0, 48.0, 40.35)] {
        let rise_per_run = rise_in / 12.0 / radius_ft;
        let found =
            laid_out(rise_per_run, AnchorLayout::Free { anchors: vec![] }, vec![[0.0, radius_ft * FOOT_M]]);
        assert!((found[0].angle_deg - angle_deg).abs() < 0.005, "{}", found[0].angle_deg);
        assert!((found[0].height_difference_m - rise_in * 0.0254).abs() < 1e-9);
    }
}

/// Three anchors at a radius of 50 ft stand 86.6 ft apart.
#[test]
fn three_anchors_on_a_circle() {
    let found = laid_out(0.0, AnchorLayout::EqualRadius { radius_m: 50.0 * FOOT_M }, vec![]);
    for (a, b) in found.iter().zip(found.iter().cycle().skip(1)) {
        let apart_ft = (a.east_m - b.east_m).hypot(a.north_m - b.north_m) / FOOT_M;
        assert!((apart_ft - 86.6).abs() < 0.05);
    }
}
