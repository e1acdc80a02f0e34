//! What must hold for every guy, whatever the numbers.

use mastwright_engine::ground::{Ground, Plane};
use mastwright_engine::guys::{GuyInput, guys};
use mastwright_engine::job::{AnchorKind, AnchorLayout, GuyLevel, Instruments, Rope, RopeStrength};
use mastwright_engine::plan::GuyResult;
use mastwright_engine::stakeout::ties::{landing, ties};
use mastwright_engine::structure::catenary::Span;
use mastwright_engine::survey::NorthFrom;
use mastwright_engine::survey::PlacedMark;
use mastwright_engine::survey::north::NorthCorrection;
use proptest::prelude::*;

fn level(height_m: f64, count: u8, anchors: AnchorLayout) -> GuyLevel {
    GuyLevel {
        id: "upper".into(),
        name: "Upper".into(),
        attach_height_m: height_m,
        collar_radius_mm: 0.0,
        count,
        anchor_layout: anchors,
        anchor_eye_height_m: 0.0,
        rope: Rope {
            name: "rope".into(),
            diameter_mm: 6.0,
            mass_g_per_m: 25.0,
            stretch_percent: 3.0,
            stretch_at_n: 1000.0,
            strength: RopeStrength::default(),
        },
        tension_n: 150.0,
        upper_end_m: 0.3,
        lower_end_m: 1.0,
        collar: Default::default(),
        when_lowered: Default::default(),
        anchor: AnchorKind::default(),
        proof_pull_n: None,
        to_thing: None,
    }
}

fn rule(which: u8, size: f64) -> AnchorLayout {
    match which {
        0 => AnchorLayout::EqualRadius { radius_m: size },
        1 => AnchorLayout::EqualTape { tape_m: size },
        _ => AnchorLayout::EqualAngle { angle_deg: 20.0 + 5.0 * size },
    }
}

fn laid_out(gradient: [f64; 2], mast: [f64; 2], front_bearing_deg: f64, level: &GuyLevel) -> Vec<GuyResult> {
    let covariance = [[1e-4, 0.0, 0.0], [0.0, 2e-5, 0.0], [0.0, 0.0, 2e-5]];
    let ground = Ground { plane: Plane { height_0_m: 0.0, gradient, covariance }, surface: None };
    let north = NorthCorrection { add_to_reading_deg: 2.5, sigma_deg: 0.4, from: NorthFrom::True };
    let input = GuyInput {
        ground: &ground,
        levels: std::slice::from_ref(level),
        free_anchors: &[],
        mast,
        foot_m: ground.height(mast) + 0.15,
        contacts: &[],
        foot_sigma_m: 0.0,
        front_bearing_deg,
        guy_turn_deg: 30.0,
        instruments: &Instruments::default(),
        north: &north,
        found: &Default::default(),
        fixings: &[],
    };
    guys(&input).0
}

/// A vector turned clockwise.
fn turned([east, north]: [f64; 2], by_deg: f64) -> [f64; 2] {
    let (s, c) = by_deg.to_radians().sin_cos();
    [east * c + north * s, north * c - east * s]
}

proptest! {
    /// Common practice: anchors as far out as the attachment is high give 45° on level ground.
    #[test]
    fn as_far_out_as_high_is_45_degrees_on_level_ground(height_m in 1.0..20.0) {
        let mut level = level(height_m, 3, AnchorLayout::EqualRadius { radius_m: height_m + 0.15 });
        level.tension_n = 400.0;
        for guy in laid_out([0.0, 0.0], [3.0, -2.0], 77.0, &level) {
            prop_assert!((guy.angle_deg - 45.0).abs() < 1e-9);
            prop_assert!((guy.chord_m - (height_m + 0.15) * 2.0_f64.sqrt()).abs() < 1e-9);
        }
    }

    /// Turning yard, mast and front leg together turns every anchor and changes no length.
    #[test]
    fn turning_everything_turns_everything(
        by_deg in -180.0..180.0, gradient in prop::array::uniform2(-0.2..0.2), mast in prop::array::uniform2(-9.0..9.0),
        front_deg in 0.0..360.0, count in 3u8..=4, which in 0u8..3, size in 3.0..7.0,
    ) {
        let level = level(5.0, count, rule(which, size));
        let before = laid_out(gradient, mast, front_deg, &level);
        let after = laid_out(turned(gradient, by_deg), turned(mast, by_deg), front_deg + by_deg, &level);
        prop_assert_eq!(before.len(), usize::from(count));
        for (a, b) in before.iter().zip(&after) {
            let [east, north] = turned([a.east_m, a.north_m], by_deg);
            prop_assert!((east - b.east_m).abs() < 1e-9 && (north - b.north_m).abs() < 1e-9);
            for (x, y) in [
                (a.ground_m, b.ground_m), (a.tape_m, b.tape_m), (a.chord_m, b.chord_m), (a.angle_deg, b.angle_deg),
                (a.unstressed_m.value, b.unstressed_m.value), (a.cut_m.half_width_95, b.cut_m.half_width_95),
                (a.sag_m, b.sag_m), (a.turn_from_front_deg, b.turn_from_front_deg),
                (a.landing_95.semi_major_m, b.landing_95.semi_major_m),
            ] {
                prop_assert!((x - y).abs() < 1e-9, "{} {}", x, y);
            }
        }
    }

    /// The whole rope is in balance: its end pulls carry its weight, and nothing is left over sideways.
    #[test]
    fn the_forces_on_a_rope_add_up(
        span_m in 0.5..60.0, rise_m in -20.0..60.0, weight_n_per_m in 0.05..8.0, stiffness_n in 2e3..5e6,
        slackness in 0.95..1.6,
    ) {
        let span = Span { span_m, rise_m, weight_n_per_m, stiffness_n };
        let rope = span.with_unstressed_length(slackness * span.chord_m()).unwrap();
        let scale = rope.tension_top_n.max(rope.tension_bottom_n);
        let weight_n = weight_n_per_m * rope.unstressed_m;
        prop_assert!((rope.vertical_top_n + rope.vertical_bottom_n() - weight_n).abs() < 1e-12 * scale);
        // Each end tension has the same horizontal part.
        for (tension, vertical) in
            [(rope.tension_top_n, rope.vertical_top_n), (rope.tension_bottom_n, rope.vertical_bottom_n())]
        {
            // An exact length pins the tension of a stiff rope only to 1e-16·EA.
            let tolerance = 1e-11 * scale + 1e-13 * stiffness_n;
            prop_assert!((rope.horizontal_n.hypot(vertical) - tension).abs() < tolerance);
        }
        // Moments about the lower end: the upper pull balances the weight at the rope's centre of weight.
        let parts = 2000;
        let arm_m = (0..parts)
            .map(|i| rope.point_at(rope.unstressed_m * (f64::from(i) + 0.5) / f64::from(parts))[0])
            .sum::<f64>() / f64::from(parts);
        let moment = rope.vertical_top_n * span_m - rope.horizontal_n * rise_m - weight_n * arm_m;
        prop_assert!(moment.abs() < (1e-6 * scale + 1e-12 * stiffness_n) * span.chord_m(), "{}", moment);
    }

    /// A point recomputed from its own ties lands on itself.
    #[test]
    fn a_point_lands_by_its_own_ties(
        point in prop::array::uniform2(-30.0..30.0),
        marks in prop::collection::vec(prop::array::uniform2(-30.0..30.0), 2..7),
        gradient in prop::array::uniform2(-0.2..0.2),
    ) {
        let ground = Ground { plane: Plane { height_0_m: 0.0, gradient, covariance: [[0.0; 3]; 3] }, surface: None };
        let marks: Vec<PlacedMark> = marks
            .iter()
            .enumerate()
            .map(|(i, &[e, n])| PlacedMark {
                id: i.to_string(),
                name: String::new(),
                at: [e, n, ground.height([e, n])],
                covariance: [[1e-4, 0.0], [0.0, 1e-4]],
            })
            .collect();
        if let Some(found) = ties(point, &marks, &ground, &Instruments::default()) {
            let at = |id: &str| marks.iter().find(|m| m.id == id).map(|m| [m.at[0], m.at[1]]).unwrap();
            let [a, b] = [at(&found.mark_a), at(&found.mark_b)];
            let [east, north] = landing(a, found.plan_a_m, b, found.plan_b_m, found.side).unwrap();
            prop_assert!((east - point[0]).hypot(north - point[1]) < 1e-6);
            // A tape along a slope is longer than its plan by the slope alone.
            let rise = ground.height(point) - ground.height(a);
            prop_assert!((found.tape_a_m - found.plan_a_m.hypot(rise)).abs() < 1e-9);
        }
    }
}
