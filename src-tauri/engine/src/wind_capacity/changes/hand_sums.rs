//! What each change makes of the job, by hand: every place that differs, and nothing else.

use serde_json::{Value, json};

use super::candidates::*;
use super::*;
use crate::anchor::soil::{ClayFeel, SandFeel};
use crate::demo::yardstick;
use crate::job::{AnchorKind, AnchorLayout, GuyLevel, SoilFeel, TubeJoint};
use crate::plan::compute;
use crate::quantity::UnitSystem;

/// A job of round numbers in metres, of which everything is known.
fn round() -> Job {
    let mut job = yardstick();
    job.units.system = UnitSystem::Metric;
    job.yard.soil = SoilFeel::Clay { feel: ClayFeel::Stiff };
    let level = &mut job.rig.guy_levels[0];
    level.attach_height_m = 4.0;
    level.anchor_layout = AnchorLayout::EqualRadius { radius_m: 4.0 };
    level.tension_n = 120.0;
    level.rope.diameter_mm = 8.0;
    level.rope.mass_g_per_m = 32.0;
    level.rope.stretch_at_n = 1600.0;
    level.rope.stretch_percent = 3.0;
    level.rope.strength.minimum_n = Some(8000.0);
    level.anchor = AnchorKind::Plate { side_m: 0.4, depth_m: 0.8 };
    for (tube, (overlap_m, hole_mm)) in job.rig.tubes.iter_mut().zip([(0.0, None), (0.6, Some(12.0))]) {
        (tube.length_m, tube.overlap_m, tube.pin_hole_mm) = (3.0, overlap_m, hole_mm);
    }
    let strands = job.rig.strands.as_mut().unwrap();
    (strands.top_height_m, strands.count, strands.cord.tension_n) = (5.3, 24, 16.0);
    let base = &mut job.rig.base;
    (base.timber_width_mm, base.timber_depth_mm) = (100.0, 50.0);
    (base.foot_width_mm, base.foot_thickness_mm) = (90.0, 60.0);
    (base.pad_mm, base.joint_pad_mm) = (None, None);
    (base.seat_plate_mm, base.seat_plate_thickness_mm) = (None, None);
    let stakes = &mut job.rig.stakes;
    (stakes.per_leg, stakes.diameter_mm, stakes.length_m) = (1, 16.0, 0.9);
    job
}

fn level(job: &mut Job) -> &mut GuyLevel {
    &mut job.rig.guy_levels[0]
}

fn with(change: impl Fn(&mut Job)) -> Job {
    let mut job = round();
    change(&mut job);
    job
}

/// Every place in which two documents differ, with what the second has there.
fn differences(at: &str, before: &Value, after: &Value, found: &mut Vec<(String, Value)>) {
    match (before, after) {
        (Value::Object(a), Value::Object(b)) if a.keys().eq(b.keys()) => {
            a.iter().for_each(|(key, value)| differences(&format!("{at}/{key}"), value, &b[key], found));
        }
        (Value::Array(a), Value::Array(b)) if a.len() == b.len() => {
            let both = a.iter().zip(b).enumerate();
            both.for_each(|(i, (a, b))| differences(&format!("{at}/{i}"), a, b, found));
        }
        _ if before == after => {}
        _ => found.push((at.to_owned(), after.clone())),
    }
}

fn same(found: &Value, by_hand: &Value) -> bool {
    match (found, by_hand) {
        (Value::Object(a), Value::Object(b)) => {
            a.keys().eq(b.keys()) && a.iter().all(|(key, value)| same(value, &b[key]))
        }
        (Value::Array(a), Value::Array(b)) => a.len() == b.len() && a.iter().zip(b).all(|(a, b)| same(a, b)),
        _ => match (found.as_f64(), by_hand.as_f64()) {
            (Some(a), Some(b)) => (a - b).abs() <= 1e-9 * b.abs().max(1.0),
            _ => found == by_hand,
        },
    }
}

fn option_of(job: &Job, kind: ChangeKind) -> Option<Change> {
    let layout = compute(job).unwrap().layout;
    options(job, &layout).into_iter().find(|option| option.step.kind() == kind)
}

/// The change of a kind makes just this of the job, is called by this step, and leads to a place that it changes.
#[track_caller]
fn makes(job: &Job, step: WindStep, by_hand: &[(&str, Value)]) {
    let change = option_of(job, step.kind()).expect("it can be made");
    let document = |job: &Job| serde_json::to_value(job).unwrap();
    let mut found = Vec::new();
    differences("", &document(job), &document(&change.job), &mut found);
    assert_eq!(change.step, step);
    let fits = |((at, value), (at_by_hand, by_hand)): (&(String, Value), &(&str, Value))| {
        at == at_by_hand && same(value, by_hand)
    };
    let mut by_hand = by_hand.to_vec();
    by_hand.sort_by(|a, b| a.0.cmp(b.0));
    found.sort_by(|a, b| a.0.cmp(&b.0));
    assert!(found.len() == by_hand.len() && found.iter().zip(&by_hand).all(fits), "{step:?}: {found:#?}");
    let beside = |at: &str| at.starts_with(&change.pointer) || change.pointer.starts_with(at);
    assert!(found.iter().any(|(at, _)| beside(at)), "{step:?} leads to {}", change.pointer);
}

#[track_caller]
fn not_made(job: &Job, kind: ChangeKind) {
    assert!(option_of(job, kind).is_none(), "{kind:?}");
}

const LEVEL: &str = "/rig/guy_levels/0";

#[test]
fn guys_by_hand() {
    let at = |field: &str| format!("{LEVEL}/{field}");
    let job = round();
    makes(&job, WindStep::GuysTighter, &[(&at("tension_n"), json!(180.0))]);
    makes(&job, WindStep::GuysLooser, &[(&at("tension_n"), json!(80.0))]);
    // A quarter thicker: 25/16 of the area, with weight, stiffness and strength.
    let thicker = [
        (&*at("rope/diameter_mm"), json!(10.0)),
        (&at("rope/mass_g_per_m"), json!(50.0)),
        (&at("rope/stretch_at_n"), json!(2500.0)),
        (&at("rope/strength/minimum_n"), json!(12_500.0)),
    ];
    makes(&job, WindStep::RopeThicker, &thicker);
    let unknown = with(|job| level(job).rope.strength.minimum_n = None);
    makes(&unknown, WindStep::RopeThicker, &thicker[..3]);
    makes(&job, WindStep::RopeStiffer, &[(&at("rope/stretch_percent"), json!(1.5))]);
    let knotted = with(|job| level(job).rope.strength.end = crate::resistance::rope::RopeEnd::Knot);
    makes(&knotted, WindStep::RopeEndsBetter, &[(&at("rope/strength/end"), json!("figure_eight_loop"))]);
    not_made(&job, ChangeKind::RopeEndsBetter);
    // A rope of unknown strength gains nothing that anybody can tell by a better knot.
    let mut unknown = knotted;
    level(&mut unknown).rope.strength.minimum_n = None;
    not_made(&unknown, ChangeKind::RopeEndsBetter);
    makes(&job, WindStep::FourGuys, &[(&at("count"), json!(4))]);
    not_made(&with(|job| level(job).count = 4), ChangeKind::FourGuys);
}

/// Of two levels the lower one is proved: what makes anchors bigger is entered at the upper one, and changes that alone.
#[test]
fn a_change_leads_to_the_level_that_it_changes() {
    let mut job = option_of(&round(), ChangeKind::SecondLevel).unwrap().job;
    job.rig.guy_levels[0].proof_pull_n = Some(5000.0);
    let at = "/rig/guy_levels/1/anchor";
    let (side, depth) = (format!("{at}/side_m"), format!("{at}/depth_m"));
    makes(&job, WindStep::AnchorsBigger, &[(&side, json!(0.5)), (&depth, json!(1.0))]);
    assert_eq!(option_of(&job, ChangeKind::AnchorsBigger).unwrap().pointer, at);
}

/// The lower level comes first, and hangs half as high; a collar under 30 cm is none.
#[test]
fn a_second_level_by_hand() {
    let job = round();
    let upper = serde_json::to_value(&job.rig.guy_levels[0]).unwrap();
    let mut lower = upper.clone();
    (lower["id"], lower["name"]) = (json!("upper-lower"), json!("Lower guys"));
    lower["attach_height_m"] = json!(2.0);
    makes(&job, WindStep::SecondLevel, &[("/rig/guy_levels", json!([lower, upper]))]);
    let two = option_of(&job, ChangeKind::SecondLevel).unwrap().job;
    not_made(&two, ChangeKind::SecondLevel);
    let low = |height_m: f64| with(|job| level(job).attach_height_m = height_m);
    not_made(&low(0.58), ChangeKind::SecondLevel);
    assert!(option_of(&low(0.62), ChangeKind::SecondLevel).is_some());
}

#[test]
fn anchors_by_hand() {
    let at = |field: &str| format!("{LEVEL}/{field}");
    let holding = |kind: AnchorKind| with(|job| level(job).anchor = kind);
    let bigger = |kind: AnchorKind, by_hand: &[(&str, Value)]| {
        let places: Vec<(String, Value)> =
            by_hand.iter().map(|(field, value)| (at(&format!("anchor/{field}")), value.clone())).collect();
        let places: Vec<(&str, Value)> = places.iter().map(|(at, value)| (&**at, value.clone())).collect();
        makes(&holding(kind), WindStep::AnchorsBigger, &places);
    };
    bigger(
        AnchorKind::Plate { side_m: 0.4, depth_m: 0.8 },
        &[("side_m", json!(0.5)), ("depth_m", json!(1.0))],
    );
    bigger(
        AnchorKind::Deadman { length_m: 1.2, face_m: 0.2, is_log: true, depth_m: 0.8 },
        &[("length_m", json!(1.5)), ("face_m", json!(0.25)), ("depth_m", json!(1.0))],
    );
    bigger(AnchorKind::Ballast { mass_kg: 200.0 }, &[("mass_kg", json!(300.0))]);
    let screw = |helix_mm: Option<f64>, depth_m: Option<f64>| AnchorKind::Screw {
        shaft: crate::job::ScrewShaft::Round,
        shaft_mm: 40.0,
        torque_nm: Some(100.0),
        helix_mm,
        depth_m,
    };
    bigger(
        screw(Some(160.0), Some(1.2)),
        &[("helix_mm", json!(200.0)), ("depth_m", json!(1.5)), ("torque_nm", json!(150.0))],
    );
    // Of a screw whose helix or depth nobody knows, or of an anchor of no rule, there is no bigger one.
    for unknown in [screw(None, Some(1.2)), screw(Some(160.0), None), AnchorKind::Unknown] {
        not_made(&holding(unknown), ChangeKind::AnchorsBigger);
    }
    use crate::anchor::picket::Pickets::{OneOne, OneOneOne, Single, ThreeTwoOne, TwoOne};
    for (now, next) in [(Single, OneOne), (OneOne, OneOneOne), (OneOneOne, TwoOne), (TwoOne, ThreeTwoOne)] {
        let next = serde_json::to_value(next).unwrap();
        bigger(AnchorKind::Pickets { pattern: now }, &[("pattern", next)]);
    }
    not_made(&holding(AnchorKind::Pickets { pattern: ThreeTwoOne }), ChangeKind::AnchorsBigger);
    // What a proof pull shows counts whatever is in the ground.
    let proved = with(|job| level(job).proof_pull_n = Some(5000.0));
    not_made(&proved, ChangeKind::AnchorsBigger);

    let timber = |length_m: f64, face_m: f64, depth_m: f64| {
        json!({
            "kind": "deadman", "length_m": length_m, "face_m": face_m, "is_log": false, "depth_m": depth_m
        })
    };
    let place = at("anchor");
    makes(&round(), WindStep::AnchorsTimber, &[(&place, timber(1.2, 0.15, 1.0))]);
    // 48, 6 and 40 inches.
    let imperial = with(|job| job.units.system = UnitSystem::Imperial);
    makes(&imperial, WindStep::AnchorsTimber, &[(&place, timber(1.2192, 0.1524, 1.016))]);
    let pull = at("proof_pull_n");
    makes(&proved, WindStep::AnchorsTimber, &[(&place, timber(1.2, 0.15, 1.0)), (&pull, Value::Null)]);
    let buried = AnchorKind::Deadman { length_m: 2.0, face_m: 0.2, is_log: true, depth_m: 1.2 };
    not_made(&holding(buried), ChangeKind::AnchorsTimber);

    // Tried with a pull that no guy reaches (20 t), where everything else is known.
    makes(&round(), WindStep::AnchorsProved, &[(&pull, json!(200_000.0))]);
    let unknown = with(|job| level(job).rope.strength.minimum_n = None);
    not_made(&unknown, ChangeKind::AnchorsProved);
}

#[test]
fn anchors_farther_out_by_hand() {
    let placed = |anchors: AnchorLayout| with(|job| level(job).anchor_layout = anchors.clone());
    let at = |field: &str| format!("{LEVEL}/anchor_layout/{field}");
    makes(&round(), WindStep::AnchorsFartherOut, &[(&at("radius_m"), json!(4.8))]);
    let by_tape = placed(AnchorLayout::EqualTape { tape_m: 5.0 });
    makes(&by_tape, WindStep::AnchorsFartherOut, &[(&at("tape_m"), json!(6.0))]);
    // On level ground 1.2 times as far out is tan⁻¹(1/1.2) = 39.8056° in place of 45°.
    let by_angle = placed(AnchorLayout::EqualAngle { angle_deg: 45.0 });
    makes(&by_angle, WindStep::AnchorsFartherOut, &[(&at("angle_deg"), json!(39.805_571_092_265_2))]);
}

#[test]
fn soil_by_hand() {
    let soil = |is: SoilFeel| with(|job| job.yard.soil = is);
    let clay = |feel| soil(SoilFeel::Clay { feel });
    makes(&clay(ClayFeel::Firm), WindStep::SoilStiffer, &[("/yard/soil/feel", json!("stiff"))]);
    let loose = soil(SoilFeel::Sand { feel: SandFeel::Loose, under_water: false });
    makes(&loose, WindStep::SandDenser, &[("/yard/soil/feel", json!("medium"))]);
    not_made(&clay(ClayFeel::Hard), ChangeKind::SoilFirmer);
}

#[test]
fn tubes_by_hand() {
    let yields = |mpa: [Option<f64>; 2]| {
        with(|job| job.rig.tubes.iter_mut().zip(mpa).for_each(|(tube, mpa)| tube.yield_mpa = mpa))
    };
    let (lower, upper) = ("/rig/tubes/0/yield_mpa", "/rig/tubes/1/yield_mpa");
    makes(
        &yields([None, Some(235.0)]),
        WindStep::TubesStronger,
        &[(lower, json!(355.0)), (upper, json!(355.0))],
    );
    // Each of its own: a better one stays what it is.
    makes(&yields([Some(690.0), Some(235.0)]), WindStep::TubesStronger, &[(upper, json!(355.0))]);
    not_made(&yields([Some(690.0), Some(355.0)]), ChangeKind::TubesStronger);
    // 50 ksi in imperial units: 344.74 MPa.
    let mut imperial = yields([Some(690.0), None]);
    imperial.units.system = UnitSystem::Imperial;
    makes(&imperial, WindStep::TubesStronger, &[(upper, json!(50.0 * 6.894_757_293_168_36))]);

    // ANSI C80.1: size 2 is 2.375 by 0.146 in at least; measured tubes keep the sum to what was measured.
    let measured = |outside_mm: f64, wall_mm: f64| crate::job::Section::Measured { outside_mm, wall_mm };
    let plain = with(|job| {
        job.rig.tubes[0].section = measured(60.0, 4.0);
        job.rig.tubes[1].section = measured(50.0, 3.0);
    });
    let place = |tube: usize, field: &str| format!("/rig/tubes/{tube}/section/{field}");
    makes(
        &plain,
        WindStep::TubesLarger,
        &[
            (&place(0, "outside_mm"), json!(72.0)),
            (&place(0, "wall_mm"), json!(4.8)),
            (&place(1, "outside_mm"), json!(60.0)),
            (&place(1, "wall_mm"), json!(3.6)),
        ],
    );
    let threaded = with(|job| {
        job.rig.tubes[1].joint = TubeJoint::Threaded;
        (job.rig.tubes[1].overlap_m, job.rig.tubes[1].pin_hole_mm) = (0.0, None);
        job.rig.guy_levels[0].attach_height_m = 2.5;
    });
    not_made(&threaded, ChangeKind::TubesLarger);

    makes(&round(), WindStep::PinHoleSmaller, &[("/rig/tubes/1/pin_hole_mm", json!(9.0))]);
    not_made(&threaded, ChangeKind::PinHoleSmaller);
}

/// Half a metre less of a mast of two tubes of 3 m, 60 cm of which overlap: the top comes down from 5.4 m to 4.9 m, and the
/// upper tube begins where the lower one ends, at 3 m.
#[test]
fn a_top_tube_run_down_by_hand() {
    let (overlap, guy, strands) =
        ("/rig/tubes/1/overlap_m", "/rig/guy_levels/0/attach_height_m", "/rig/strands/top_height_m");
    let guyed = |height_m: f64| with(|job| level(job).attach_height_m = height_m);
    let lower = |height_m: f64, by_hand: &[(&str, Value)]| {
        let both = [(overlap, json!(1.1)), (strands, json!(4.8))];
        makes(&guyed(height_m), WindStep::TopTubeLower, &[&both[..], by_hand].concat());
    };
    lower(4.0, &[(guy, json!(3.5))]);
    // Its collar can't go into the lower tube.
    lower(3.2, &[(guy, json!(3.0))]);
    // On the lower tube nothing moves.
    lower(2.9, &[]);
    // In feet and inches 20 inches.
    let imperial = with(|job| job.units.system = UnitSystem::Imperial);
    makes(
        &imperial,
        WindStep::TopTubeLower,
        &[(overlap, json!(1.108)), (strands, json!(4.792)), (guy, json!(3.492))],
    );
    // No more than nine tenths of the shorter tube may overlap: 2.7 m of two of 3 m; 1.8 m where the lower one has 2 m.
    let overlapping = |lower_m: f64, overlap_m: f64| {
        with(|job| {
            (job.rig.tubes[0].length_m, job.rig.tubes[1].overlap_m) = (lower_m, overlap_m);
            level(job).attach_height_m = 1.9;
            job.rig.strands.as_mut().unwrap().top_height_m = 2.8;
        })
    };
    for (lower_m, overlap_m, can) in
        [(3.0, 2.15, true), (3.0, 2.25, false), (2.0, 1.25, true), (2.0, 1.35, false)]
    {
        let change = option_of(&overlapping(lower_m, overlap_m), ChangeKind::LessHigh);
        assert_eq!(change.is_some(), can, "{lower_m} {overlap_m}");
    }
}

/// A mast of one tube is cut short; what hung in its last 5 cm hangs as far below the new end, what hung lower stays, and
/// what hung in the half metre cut off comes down to 5 cm below the end.
#[test]
fn a_mast_cut_short_by_hand() {
    let (length, guy, strands) =
        ("/rig/tubes/0/length_m", "/rig/guy_levels/0/attach_height_m", "/rig/strands/top_height_m");
    let single = |length_m: f64, guy_m: f64, strands_m: f64| {
        with(|job| {
            job.rig.tubes.truncate(1);
            job.rig.tubes[0].length_m = length_m;
            level(job).attach_height_m = guy_m;
            job.rig.strands.as_mut().unwrap().top_height_m = strands_m;
        })
    };
    makes(
        &single(3.0, 2.7, 2.98),
        WindStep::MastShorter,
        &[(length, json!(2.5)), (guy, json!(2.45)), (strands, json!(2.48))],
    );
    makes(&single(3.0, 2.2, 2.4), WindStep::MastShorter, &[(length, json!(2.5))]);
    makes(&single(3.0, 2.2, 3.0), WindStep::MastShorter, &[(length, json!(2.5)), (strands, json!(2.5))]);
    // More than two such steps must be left.
    assert!(option_of(&single(1.55, 1.0, 1.2), ChangeKind::LessHigh).is_some());
    not_made(&single(1.45, 0.9, 1.2), ChangeKind::LessHigh);
}

#[test]
fn boards_and_plates_by_hand() {
    let pad = |side_mm: Option<f64>| with(|job| job.rig.base.pad_mm = side_mm);
    let place = "/rig/base/pad_mm";
    makes(&round(), WindStep::Boards, &[(place, json!(300.0))]);
    makes(&pad(Some(200.0)), WindStep::Boards, &[(place, json!(300.0))]);
    makes(&pad(Some(300.0)), WindStep::BoardsWider, &[(place, json!(450.0))]);
    // A board of 12 in entered in millimetres is one of 300 mm to a millimetre.
    makes(&pad(Some(299.5)), WindStep::BoardsWider, &[(place, json!(449.25))]);
    makes(&pad(Some(800.0)), WindStep::BoardsWider, &[(place, json!(1000.0))]);
    not_made(&pad(Some(1000.0)), ChangeKind::BiggerPads);
    let mut imperial = pad(Some(203.2));
    imperial.units.system = UnitSystem::Imperial;
    makes(&imperial, WindStep::Boards, &[(place, json!(304.8))]);

    let plate = |side_mm: Option<f64>, thick_mm: Option<f64>| {
        with(|job| {
            (job.rig.base.seat_plate_mm, job.rig.base.seat_plate_thickness_mm) = (side_mm, thick_mm);
        })
    };
    let (side, thick) = ("/rig/base/seat_plate_mm", "/rig/base/seat_plate_thickness_mm");
    makes(&round(), WindStep::SeatPlate, &[(side, json!(200.0)), (thick, json!(10.0))]);
    makes(&plate(Some(150.0), Some(6.0)), WindStep::SeatPlate, &[(side, json!(200.0)), (thick, json!(10.0))]);
    makes(&plate(Some(199.5), Some(12.0)), WindStep::SeatPlateWider, &[(side, json!(299.25))]);
    makes(&plate(Some(500.0), Some(10.0)), WindStep::SeatPlateWider, &[(side, json!(600.0))]);
    not_made(&plate(Some(600.0), Some(10.0)), ChangeKind::SeatPlate);
}

#[test]
fn timbers_feet_and_stakes_by_hand() {
    let at = |field: &str| format!("/rig/base/{field}");
    let (wide, deep) = (at("timber_width_mm"), at("timber_depth_mm"));
    makes(&round(), WindStep::TimberWider, &[(&wide, json!(150.0)), (&deep, json!(75.0))]);
    let beam = with(|job| (job.rig.base.timber_width_mm, job.rig.base.timber_depth_mm) = (400.0, 360.0));
    makes(&beam, WindStep::TimberWider, &[(&wide, json!(500.0)), (&deep, json!(500.0))]);
    let (foot_wide, foot_thick) = (at("foot_width_mm"), at("foot_thickness_mm"));
    makes(&round(), WindStep::FootThicker, &[(&foot_wide, json!(135.0)), (&foot_thick, json!(90.0))]);
    let block = with(|job| (job.rig.base.foot_width_mm, job.rig.base.foot_thickness_mm) = (450.0, 350.0));
    makes(&block, WindStep::FootThicker, &[(&foot_wide, json!(500.0)), (&foot_thick, json!(500.0))]);
    let joint = at("joint_pad_mm");
    makes(&round(), WindStep::JointPacked, &[(&joint, json!(300.0))]);
    not_made(&with(|job| job.rig.base.joint_pad_mm = Some(200.0)), ChangeKind::JointPacked);
    let wood = at("wood");
    makes(&round(), WindStep::WoodHarder, &[(&wood, json!("douglas_fir_larch"))]);
    let hard = with(|job| job.rig.base.wood = crate::resistance::timber::Wood::DouglasFirLarch);
    not_made(&hard, ChangeKind::WoodHarder);

    let (count, long, thick) = ("/rig/stakes/per_leg", "/rig/stakes/length_m", "/rig/stakes/diameter_mm");
    makes(&round(), WindStep::MoreStakes, &[(count, json!(2))]);
    makes(&round(), WindStep::LongerStakes, &[(long, json!(1.2))]);
    makes(&round(), WindStep::ThickerStakes, &[(thick, json!(24.0))]);
    let bars = with(|job| (job.rig.stakes.per_leg, job.rig.stakes.diameter_mm) = (2, 50.0));
    makes(&bars, WindStep::ThickerStakes, &[(thick, json!(60.0))]);
    not_made(&bars, ChangeKind::MoreStakes);
    let none = with(|job| job.rig.stakes.per_leg = 0);
    not_made(&none, ChangeKind::LongerStakes);
    not_made(&none, ChangeKind::ThickerStakes);
    makes(&none, WindStep::MoreStakes, &[(count, json!(2))]);
}

#[test]
fn strands_and_topper_by_hand() {
    let strands = |count: u32, tension_n: f64| {
        with(|job| {
            let strands = job.rig.strands.as_mut().unwrap();
            (strands.count, strands.cord.tension_n) = (count as _, tension_n);
        })
    };
    let (count, tension) = ("/rig/strands/count", "/rig/strands/cord/tension_n");
    makes(&round(), WindStep::FewerStrands, &[(count, json!(16))]);
    // Two thirds of five, whole ones.
    makes(&strands(5, 16.0), WindStep::FewerStrands, &[(count, json!(3))]);
    not_made(&strands(1, 16.0), ChangeKind::FewerStrands);
    makes(&round(), WindStep::StrandsLooser, &[(tension, json!(8.0))]);
    makes(&strands(24, 2.0), WindStep::StrandsLooser, &[(tension, json!(1.0))]);
    not_made(&strands(24, 1.9), ChangeKind::StrandsLooser);
    makes(&round(), WindStep::NoTopper, &[("/rig/topper", Value::Null)]);
    let bare = with(|job| (job.rig.strands, job.rig.topper) = (None, None));
    for kind in [ChangeKind::FewerStrands, ChangeKind::StrandsLooser, ChangeKind::NoTopper] {
        not_made(&bare, kind);
    }
}
