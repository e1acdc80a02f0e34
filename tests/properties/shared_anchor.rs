//! Guys of two levels that come down to one anchor: their pulls add up as vectors, the peg is listed once.

use mastwright_engine::anchor::soil::{ClayFeel, SandFeel};
use mastwright_engine::drawing::scene::{Geometry, Role};
use mastwright_engine::drawing::staking_map::{MapOptions, staking_map};
use mastwright_engine::finding::Subject;
use mastwright_engine::job::*;
use mastwright_engine::plan::{Layout, Plan, compute};
use mastwright_engine::quantity::{UnitSystem, Units};
use mastwright_engine::wind_capacity::{
    MastHeight, PartKind, PartName, WindQuestion, WindTable, wind_table, withstand,
};

/// One tube on level ground, guys at 4.0 m and 0.8 m, all anchors 3.0 m out: 3-4-5 triangles for the upper ones.
fn two_levels() -> Job {
    let mut job = blank(Units { system: UnitSystem::Metric, inch_fraction: 16 });
    job.yard.bearings = BearingReference::True;
    job.rig.base.timber_depth_mm = 89.0;
    job.rig.tubes.truncate(1);
    job.rig.tubes[0].length_m = 4.5;
    let upper = &mut job.rig.guy_levels[0];
    (upper.collar_radius_mm, upper.tension_n) = (0.0, 200.0);
    (upper.rope.mass_g_per_m, upper.rope.stretch_percent) = (4.0, 0.5);
    upper.anchor_layout = AnchorLayout::EqualRadius { radius_m: 3.0 };
    // The eyes as high as the foot on its timber.
    upper.anchor_eye_height_m = 0.089;
    let mut lower = upper.clone();
    (lower.id, lower.name) = ("lower".into(), "Lower guy".into());
    (lower.attach_height_m, lower.tension_n) = (0.8, 150.0);
    job.rig.guy_levels.insert(0, lower);
    job
}

fn layout(job: &Job) -> Layout {
    compute(job).unwrap().layout
}

fn plan(job: &Job) -> Plan {
    compute(job).unwrap().plan
}

fn still_air(job: &Job) -> WindTable {
    let question = WindQuestion { height: MastHeight::Raised, gust_m_per_s: 0.0, from_deg: Some(0.0) };
    wind_table(job, &layout(job), &question).unwrap()
}

/// Upper: 200 N at 4:3, so 120 N level and 160 N up. Lower: 150 N at 0.8:3, so 144.936 N level and 38.650 N up. Together
/// 264.936 and 198.650 N: 331.14 N. The greater alone would be 200 N, their plain sum 350 N.
#[test]
fn what_two_guys_pull_at_one_anchor_is_the_sum_of_their_vectors() {
    let mut job = two_levels();
    for level in &mut job.rig.guy_levels {
        level.proof_pull_n = Some(3000.0);
    }
    let table = still_air(&job);
    let anchors: Vec<_> = table.parts.iter().filter(|part| part.part.kind == PartKind::Anchor).collect();
    assert_eq!(anchors.len(), 3, "one for each peg");
    for anchor in anchors {
        let force_n = anchor.force_n.unwrap();
        assert!((force_n / 331.14 - 1.0).abs() < 0.015, "{force_n}");
        // Proved with 3000 N, it may carry 2000 N.
        assert!((anchor.utilisation.unwrap() - force_n / 2000.0).abs() < 1e-12);
        let PartName::AnchorOf { guys } = &anchor.part.name else { panic!("{:?}", anchor.part.name) };
        let is_of = |level: &str| guys.iter().any(|name| name.starts_with(level));
        assert!(guys.len() == 2 && is_of("Lower guy") && is_of("Upper guy"), "{guys:?}");
    }
}

/// The load to prove an anchor with is one and a half of what both guys pull there.
#[test]
fn one_proof_pull_an_anchor_and_for_both_guys() {
    let job = two_levels();
    let limit = withstand(&job, &layout(&job), &mut |_, _, _| true);
    assert_eq!(limit.proof_pulls.len(), 3);
    for pull in &limit.proof_pulls {
        assert!(pull.greatest_tension_n > 1.01 * 331.14 / 1.015, "{}", pull.greatest_tension_n);
        assert!(pull.name.contains(" + "));
    }
}

#[test]
fn a_shared_anchor_is_said_once_and_the_weaker_counts_where_it_is_said_twice() {
    let mut job = two_levels();
    job.yard.soil = SoilFeel::Clay { feel: ClayFeel::Stiff };
    let plate = |side_m| AnchorKind::Plate { side_m, depth_m: 0.6 };
    job.rig.guy_levels[1].anchor = plate(0.2);
    let carries = |job: &Job| {
        let table = still_air(job);
        let anchor = table.parts.into_iter().find(|part| part.part.kind == PartKind::Anchor).unwrap();
        anchor.carries.unwrap().allowable_n()
    };
    let once = carries(&job).unwrap();
    job.rig.guy_levels[0].anchor = plate(0.2);
    assert_eq!(carries(&job), Some(once));
    job.rig.guy_levels[0].anchor = plate(0.1);
    assert!(carries(&job).unwrap() < once);
    for level in &mut job.rig.guy_levels {
        level.anchor = AnchorKind::Unknown;
    }
    assert_eq!(carries(&job), None);
}

#[test]
fn the_peg_is_listed_once_with_both_guys_on_list_map_and_page() {
    let job = two_levels();
    let computed = compute(&job).unwrap();
    let plan = &computed.plan;
    assert_eq!(plan.guys.len(), 6);
    let pegs: Vec<_> = plan.pegs.iter().filter(|peg| !peg.guys.is_empty()).collect();
    assert_eq!(pegs.len(), 3);
    for peg in &pegs {
        assert_eq!(peg.guys.len(), 2, "{}", peg.name);
        assert!(peg.name.contains("Lower guy") && peg.name.contains("Upper guy"), "{}", peg.name);
    }
    let map = staking_map(&job, &computed, &MapOptions::lettering(0.4));
    let is_anchor =
        |role: Role, geometry: &Geometry| role == Role::Anchor && matches!(geometry, Geometry::Sign { .. });
    assert_eq!(map.shapes.iter().filter(|shape| is_anchor(shape.role, &shape.geometry)).count(), 3);
    let page = mastwright_engine::report::report(&job, &computed);
    let told = page.sections.iter().flat_map(|section| &section.rows).filter(|row| row.id == "shared_with");
    assert_eq!(told.count(), 6);
}

#[test]
fn measuring_the_shared_peg_moves_both_guys() {
    let mut job = two_levels();
    let planned = plan(&job);
    let of = |plan: &Plan, id: &str| plan.guys.iter().find(|guy| guy.id == id).unwrap().clone();
    let before = of(&planned, "upper-2");
    let at = PointFix::Coordinates { east_m: before.east_m + 1.5, north_m: before.north_m - 0.2 };
    let anchors = vec![AsBuiltAnchor { guy: "upper-2".into(), at: Some(at), eye_height_m: Some(0.2) }];
    job.as_built = Some(AsBuilt { anchors, ..AsBuilt::default() });
    let stands = plan(&job);
    for id in ["upper-2", "lower-2"] {
        let guy = of(&stands, id);
        assert!((guy.east_m - before.east_m - 1.5).abs() < 1e-9 && (guy.eye[2] - 0.2).abs() < 1e-9, "{id}");
    }
    assert_eq!(stands.pegs.iter().filter(|peg| !peg.guys.is_empty()).count(), 3);
    let far =
        |plan: &Plan| plan.findings.iter().filter(|finding| finding.rule == "stands_far_from_plan").count();
    assert_eq!((far(&planned), far(&stands)), (0, 1), "one peg, told of once");
    // The other guys' pegs stay.
    assert!((of(&stands, "lower-1").east_m - of(&planned, "lower-1").east_m).abs() < 1e-12);
}

/// Helices of 150 mm: three diameters are 0.45 m, five 0.75 m.
#[test]
fn anchors_nearer_than_their_soil_allows_are_found_and_count_as_one() {
    let screw = AnchorKind::Screw {
        shaft: ScrewShaft::Square,
        shaft_mm: 38.1,
        torque_nm: Some(300.0),
        helix_mm: Some(150.0),
        depth_m: Some(0.9),
    };
    let clay = SoilFeel::Clay { feel: ClayFeel::Stiff };
    let sand = SoilFeel::Sand { feel: SandFeel::Dense, under_water: false };
    for (soil, apart_m, too_near) in
        [(clay, 0.40, true), (clay, 0.50, false), (sand, 0.50, true), (sand, 0.80, false)]
    {
        let mut job = two_levels();
        job.yard.soil = soil;
        for level in &mut job.rig.guy_levels {
            level.anchor = screw;
        }
        job.rig.guy_levels[0].anchor_layout = AnchorLayout::EqualRadius { radius_m: 3.0 - apart_m };
        let plan = plan(&job);
        let found: Vec<_> =
            plan.findings.iter().filter(|finding| finding.rule == "anchors_too_near").collect();
        assert_eq!(found.len(), if too_near { 3 } else { 0 }, "{soil:?} {apart_m}");
        assert!(found.iter().all(|finding| matches!(finding.against, Some(Subject::Guy { .. }))));
        let table = still_air(&job);
        let anchors = table.parts.iter().filter(|part| part.part.kind == PartKind::Anchor);
        assert_eq!(anchors.count(), if too_near { 3 } else { 6 }, "{soil:?} {apart_m}");
        assert_eq!(plan.pegs.iter().filter(|peg| !peg.guys.is_empty()).count(), 6);
    }
}
