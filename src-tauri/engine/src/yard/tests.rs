//! The checks on a small yard whose answers can be reckoned by hand: level ground, a mast of 6 m at the origin, three
//! guys from 5 m down to anchors 5 m out (north, south-east, south-west).

use super::approach::{Approach, ChainKind};
use super::clearance::{Work, check};
use super::*;
use crate::finding::buried::{BuriedRemedy, BuriedRule};
use crate::finding::overhead::OverheadRemedy;
use crate::finding::yard::*;
use crate::finding::{Clear, Finding, Limit, Quantity, Remedy, Rule, Severity, Subject};
use crate::ground::{Ground, Plane};
use crate::job::PathUse;
use crate::plan::*;
use crate::quantity::bearing;
use crate::quantity::estimate::Estimate;

struct Rig {
    mast: MastResult,
    base: BaseResult,
    guys: Vec<GuyResult>,
}

fn rig() -> Rig {
    let mast = MastResult {
        east_m: 0.0,
        north_m: 0.0,
        ground_m: 0.0,
        foot_m: 0.0,
        raised_height_m: 6.0,
        lowered_height_m: 3.0,
        top_above_ground_m: 6.0,
        fall_radius_m: 6.0,
        mass_kg: 20.0,
        stages: Vec::new(),
    };
    let stakes = vec![StakePoint { id: "front-right".into(), east_m: 0.1, north_m: 1.0, ground_m: 0.0 }];
    let contour = ContourTurn::default();
    let base = BaseResult { underside_m: 0.0, legs: Vec::new(), contacts: Vec::new(), stakes, contour };
    Rig { mast, base, guys: (0..3).map(guy).collect() }
}

fn guy(number: u32) -> GuyResult {
    let azimuth_deg = 120.0 * f64::from(number);
    let [east, north] = bearing::unit(azimuth_deg).map(|x| 5.0 * x);
    let (eye, attach) = ([east, north, 0.0], [0.0, 0.0, 5.0]);
    let estimate = |value| Estimate { value, half_width_95: 0.0 };
    GuyResult {
        id: format!("g-{}", number + 1),
        level_id: "g".into(),
        name: format!("{}", number + 1),
        shared_with: Vec::new(),
        made_fast: None,
        east_m: east,
        north_m: north,
        ground_m: 0.0,
        azimuth_deg,
        reading_deg: azimuth_deg,
        turn_from_front_deg: azimuth_deg,
        radius_m: 5.0,
        tape_m: 5.0,
        height_difference_m: 0.0,
        attach,
        eye,
        chord_m: 50.0_f64.sqrt(),
        angle_deg: 45.0,
        unstressed_m: estimate(50.0_f64.sqrt()),
        cut_m: estimate(8.0),
        sag_m: 0.0,
        tension_top_n: 200.0,
        tension_bottom_n: 200.0,
        horizontal_n: 140.0,
        natural_frequency_hz: 5.0,
        landing_95: Ellipse::default(),
        rope: vec![eye, attach],
    }
}

fn level() -> Ground {
    Ground { plane: Plane { height_0_m: 0.0, gradient: [0.0; 2], covariance: [[0.0; 3]; 3] }, surface: None }
}

fn measure(yard: &PlacedYard) -> (Vec<Clearance>, Vec<Finding>) {
    let rig = rig();
    let work = Work { mast: &rig.mast, base: &rig.base, guys: &rig.guys, ring: None, sigma_m: 0.0 };
    let checks = check(yard, &work, &level());
    (checks.clearances, checks.findings)
}

fn obstacle(shape: PlacedShape, keep_off_m: f64, sigma_m: f64) -> PlacedYard {
    let thing = PlacedObstacle {
        id: "o".into(),
        name: "Thing".into(),
        keep_off_m,
        shape,
        sigma_m,
        height_sigma_m: 0.0,
    };
    PlacedYard { obstacles: vec![thing], ..PlacedYard::default() }
}

fn distance(clearances: &[Clearance], what: Approach) -> f64 {
    clearances
        .iter()
        .find(|c| c.what == what)
        .unwrap_or_else(|| panic!("no {what:?}: {clearances:?}"))
        .distance_m
}

fn to_post(kind: ChainKind) -> Approach {
    Approach::Chain { kind, to: Thing::Post }
}

fn to_boundary(kind: PegKind) -> Approach {
    Approach::Boundary { of: OverBoundary::Peg(kind) }
}

fn found<'a>(findings: &'a [Finding], rule: &str) -> Option<&'a Finding> {
    findings.iter().find(|f| f.rule == rule)
}

fn post(at: [f64; 2], top_z: f64) -> PlacedShape {
    PlacedShape::Post { at, radius_m: 0.1, height_m: top_z, top_z }
}

#[test]
fn a_post_beside_a_rope_is_measured_to_its_skin() {
    // Rope 1 hangs in the plane east = 0, at height 5 − north. A tall post 1 m east of it: 1 − 0.1.
    let (clearances, findings) = measure(&obstacle(post([1.0, 2.0], 9.0), 0.3, 0.0));
    assert!((distance(&clearances, to_post(ChainKind::Rope)) - 0.9).abs() < 1e-12);
    assert!((distance(&clearances, to_post(ChainKind::Mast)) - (5.0_f64.sqrt() - 0.1)).abs() < 1e-12);
    assert!(
        (distance(&clearances, Approach::Peg { kind: PegKind::Anchor, to: Thing::Post })
            - (10.0_f64.sqrt() - 0.1))
            .abs()
            < 1e-12
    );
    assert!(found(&findings, "guy_near_post").is_none());
}

#[test]
fn a_rope_too_near_says_which_way_to_turn() {
    let (_, findings) = measure(&obstacle(post([0.3, 2.5], 9.0), 0.5, 0.0));
    let finding = found(&findings, "guy_near_post").unwrap();
    assert_eq!((finding.severity, &finding.subject), (Severity::Stop, &Subject::Guy { id: "g-1".into() }));
    // 0.3 m to gain at 2.5 m from the mast: atan(0.3 / 2.5) = 6.8°, away from the post, which stands clockwise of it.
    let Remedy::Yard(YardRemedy::MoveGuy { turn: Some(turn), clear }) = &finding.remedy else {
        panic!("{finding:?}")
    };
    assert_eq!(*turn, Turn { about_deg: 7.0, clockwise: false });
    assert!((clear.by_m - 0.3).abs() < 1e-9, "{clear:?}");
    assert!((clear.toward_deg.unwrap() - 270.0).abs() < 1e-6, "{clear:?}");
}

#[test]
fn doubt_is_a_caution() {
    let (_, findings) = measure(&obstacle(post([1.0, 2.0], 9.0), 0.5, 0.25));
    assert_eq!(found(&findings, "guy_near_post").unwrap().severity, Severity::Caution);
}

#[test]
fn a_low_post_under_a_rope_is_measured_on_the_slant() {
    // The rope's height over the post's near rim (0, 1.9) … the rope falls 45°; rim point (0, 2.1, 1): on the line
    // z = 5 − n the distance is |2.1 + 1 − 5| / √2.
    let (clearances, _) = measure(&obstacle(post([0.0, 2.0], 1.0), 0.3, 0.0));
    assert!((distance(&clearances, to_post(ChainKind::Rope)) - 1.9 / 2.0_f64.sqrt()).abs() < 1e-9);
}

#[test]
fn headroom_is_taken_at_the_edge_of_the_path() {
    // A path 2 m wide along east–west at north 3 m: the rope is 5 − 4 = 1 m above its far edge.
    let line = vec![[-20.0, 3.0], [20.0, 3.0]];
    let path = PlacedShape::Path {
        used_by: PathUse::Foot,
        outline: flat::widened(&line, 2.0),
        line,
        width_m: 2.0,
        headroom_m: 2.03,
    };
    let (clearances, findings) = measure(&obstacle(path, 0.3, 0.0));
    assert!((distance(&clearances, Approach::Headroom { kind: ChainKind::Rope }) - 1.0).abs() < 1e-12);
    let finding = found(&findings, "path_headroom").unwrap();
    assert_eq!(finding.severity, Severity::Stop);
    // 45°: 1.03 m higher is 1.03 m nearer.
    let Remedy::Yard(YardRemedy::CrossNearerToMast { nearer_m: Some(nearer_m) }) = finding.remedy else {
        panic!("{finding:?}")
    };
    assert!((nearer_m - 1.03).abs() < 1e-9, "{nearer_m}");
    assert_eq!(found(&findings, "fall_reaches_path").unwrap().severity, Severity::Caution);
}

#[test]
fn an_anchor_in_a_path_is_a_stop() {
    let line = vec![[-20.0, 5.0], [20.0, 5.0]];
    let path = PlacedShape::Path {
        used_by: PathUse::Foot,
        outline: flat::widened(&line, 1.0),
        line,
        width_m: 1.0,
        headroom_m: 2.03,
    };
    let (_, findings) = measure(&obstacle(path, 0.3, 0.0));
    let finding = found(&findings, "anchor_near_path").unwrap();
    assert_eq!(finding.severity, Severity::Stop);
    let part = WorkPart::Peg(PegName { kind: PegKind::Anchor, name: "1".into() });
    let rule = YardRule::Near { part, thing: Thing::Path, name: "Thing".into(), how: Nearness::Inside };
    assert_eq!(finding.rule, Rule::from(rule));
}

fn overhead(voltage_kv: Option<f64>, east: f64, height_sigma_m: f64) -> PlacedYard {
    let wire = vec![[east, -50.0, 7.0], [east, 0.0, 7.0], [east, 50.0, 7.0]];
    let line = PlacedOverheadLine {
        id: "l".into(),
        name: "The line".into(),
        voltage_kv,
        supports: wire.clone(),
        wire,
        sway_m: 0.0,
        height_sigma_m,
        sigma_m: 0.0,
    };
    PlacedYard { overhead_lines: vec![line], ..PlacedYard::default() }
}

/// A wire that sags by 0.4 m in its span swings as far: 3.05 m and 0.4 m are kept from where it hangs, also by the falling mast.
#[test]
fn a_wire_that_swings_is_kept_further_off() {
    let swinging = |east: f64| {
        let mut yard = overhead(Some(11.0), east, 0.0);
        yard.overhead_lines[0].sway_m = 0.4;
        measure(&yard).1
    };
    let limit = 6.0 + (3.05 + 0.4);
    let near = swinging(limit - 0.01);
    assert_eq!(
        found(&near, "overhead_reach").unwrap().limit,
        Limit::at_least(Quantity::LengthM { value: limit })
    );
    assert!(found(&swinging(limit + 0.01), "overhead_reach").is_none());
}

#[test]
fn the_falling_mast_stays_the_band_away() {
    let limit = 6.0 + 3.05;
    let (_, near) = measure(&overhead(Some(11.0), limit - 0.01, 0.0));
    let finding = found(&near, "overhead_reach").unwrap();
    assert_eq!(finding.severity, Severity::Stop);
    assert_eq!(finding.limit, Limit::at_least(Quantity::LengthM { value: limit }));
    let Remedy::Overhead(OverheadRemedy::MoveOrLowerMast { by_m, toward_deg: Some(toward_deg) }) =
        finding.remedy
    else {
        panic!("{finding:?}")
    };
    assert!((by_m - 0.01).abs() < 1e-9 && (toward_deg - 270.0).abs() < 1e-6, "{by_m} {toward_deg}");
    let (_, clear) = measure(&overhead(Some(11.0), limit + 0.01, 0.0));
    assert!(found(&clear, "overhead_reach").is_none());
    assert!(clear.iter().all(|f| f.severity > Severity::Stop || f.against.is_none()));
}

/// A wire 2 m above the collar: each rope is within 3.05 m of it and is said by itself, as each can be moved; strands are
/// too many for that, so the one that hangs nearest stands for all.
#[test]
fn every_rope_near_a_wire_is_said_and_of_the_strands_the_nearest() {
    let rig = rig();
    let (tops, points) = (vec![[0.0, 0.0, 5.5]; 3], vec![[2.0, 0.0, 0.0], [0.0, 2.0, 0.0], [-2.0, 0.0, 0.0]]);
    let ring = RingResult { radius_m: 2.0, points, top_radius_m: 0.0, tops, strand_lengths_m: vec![5.9; 3] };
    let work = Work { mast: &rig.mast, base: &rig.base, guys: &rig.guys, ring: Some(&ring), sigma_m: 0.0 };
    let findings = check(&overhead(Some(11.0), 0.0, 0.0), &work, &level()).findings;
    let count = |rule: &str| findings.iter().filter(|finding| finding.rule == rule).count();
    assert_eq!((count("guy_near_overhead_line"), count("strand_near_overhead_line")), (3, 1));
    assert_eq!(count("mast_near_overhead_line"), 1);
}

/// By hand, a wire 7 m up 11 m east of the mast: the second guy's eye, at (5 sin 120°, 5 cos 120°, 0), is
/// √(6.670² + 7²) = 9.669 m from it and every guy's upper end, 5 m up on the mast, √(11² + 2²) = 11.180 m. Ropes swing 8 m,
/// the first one 9 m, and the band is 3.05 m: the first is 0.870 m short, the second 1.381 m, and the third clears it.
#[test]
fn of_the_ropes_let_loose_the_one_that_reaches_farthest_is_named() {
    let mut rig = rig();
    rig.guys[0].cut_m.value = 9.0;
    let of = |east: f64| {
        let work = Work { mast: &rig.mast, base: &rig.base, guys: &rig.guys, ring: None, sigma_m: 0.0 };
        check(&overhead(Some(11.0), east, 0.0), &work, &level()).findings
    };
    let near = of(11.0);
    let finding = found(&near, "loose_guy_reach").unwrap();
    assert_eq!((finding.severity, &finding.subject), (Severity::Caution, &Subject::Guy { id: "g-2".into() }));
    assert_eq!(finding.limit, Limit::at_least(Quantity::LengthM { value: 11.05 }));
    let Some(Quantity::LengthM { value }) = finding.measured else { panic!("{finding:?}") };
    assert!((value - 9.6689).abs() < 1e-4, "{value}");
    assert!(found(&of(16.5), "loose_guy_reach").is_none());
}

/// By hand, a wire 7 m up on the other side, 10 m west of the mast: the second guy's upper end is nearer to it than its eye,
/// √(10² + 2²) = 10.198 m, less than the 8 m that it swings and the band of 3.05 m.
#[test]
fn a_rope_let_loose_swings_about_either_end() {
    let mut rig = rig();
    rig.guys = vec![guy(1)];
    let work = Work { mast: &rig.mast, base: &rig.base, guys: &rig.guys, ring: None, sigma_m: 0.0 };
    let findings = check(&overhead(Some(11.0), -10.0, 0.0), &work, &level()).findings;
    let finding = found(&findings, "loose_guy_reach").unwrap();
    let Some(Quantity::LengthM { value }) = finding.measured else { panic!("{finding:?}") };
    assert!((value - 10.198).abs() < 1e-3, "{value}");
}

#[test]
fn an_unknown_voltage_is_never_passed() {
    let (_, far) = measure(&overhead(None, 500.0, 0.0));
    assert_eq!(found(&far, "overhead_voltage_unknown").unwrap().severity, Severity::Unchecked);
    let (_, beyond) = measure(&overhead(Some(1100.0), 500.0, 0.0));
    assert_eq!(found(&beyond, "overhead_beyond_table").unwrap().severity, Severity::Stop);
}

#[test]
fn the_heights_doubt_is_taken_off_the_vertical_part() {
    // Right above the mast: 7 − 6 = 1 m; with a sigma of 0.25 m, 1 − 1.96 · 0.25.
    let (clearances, _) = measure(&overhead(Some(11.0), 0.0, 0.25));
    assert!(
        (distance(&clearances, Approach::ChainToWire { kind: ChainKind::Mast, voltage_known: true })
            - (1.0 - 1.959964 * 0.25))
            .abs()
            < 1e-6
    );
    // Level with it nothing is taken off.
    let (clearances, _) = measure(&overhead(Some(11.0), 4.0, 0.6));
    assert!(
        (distance(&clearances, Approach::ChainToWire { kind: ChainKind::Mast, voltage_known: true }) - 4.0)
            .abs()
            < 1e-9
    );
}

fn buried(north: f64, located: crate::job::Located, sigma_m: f64) -> PlacedYard {
    let service = PlacedBuriedService {
        id: "b".into(),
        name: "the pipe".into(),
        carries: crate::job::ServiceKind::PotableWater,
        located,
        line: vec![[-50.0, north], [50.0, north]],
        width_m: 0.2,
        rule_of_thumb: false,
        tolerance_m: 0.61,
        sigma_m,
    };
    PlacedYard { buried_services: vec![service], ..PlacedYard::default() }
}

/// Michigan keeps 48 in: the usual 24 in are not passed off as the rule everywhere, nor the middle as the edge.
#[test]
fn the_usual_zone_is_said_to_be_only_usual() {
    let with = |rule_of_thumb, width_m| {
        let mut yard = buried(20.0, crate::job::Located::MarkedByUtility, 0.0);
        (yard.buried_services[0].rule_of_thumb, yard.buried_services[0].width_m) = (rule_of_thumb, width_m);
        measure(&yard).1
    };
    let usual = with(true, 0.2);
    let note = found(&usual, "buried_tolerance_by_habit").unwrap();
    let rule_of_thumb =
        |width_known| BuriedRule::ToleranceByHabit { service: "the pipe".into(), width_known };
    assert_eq!(note.rule, Rule::from(rule_of_thumb(true)));
    assert_eq!(note.limit, Limit::at_least(Quantity::LengthM { value: 0.61 }));
    let unknown_width = with(true, 0.0);
    assert_eq!(
        found(&unknown_width, "buried_tolerance_by_habit").unwrap().rule,
        Rule::from(rule_of_thumb(false))
    );
    assert!(found(&with(false, 0.2), "buried_tolerance_by_habit").is_none());
}

#[test]
fn an_anchor_in_the_tolerance_zone_is_a_stop_with_the_way_out() {
    use crate::job::Located::MarkedByUtility;
    // Anchor 1 at north 5, edge at 5.5: 0.5 m < 0.61 m.
    let (clearances, findings) = measure(&buried(5.6, MarkedByUtility, 0.0));
    assert!((distance(&clearances, Approach::PegToService { kind: PegKind::Anchor }) - 0.5).abs() < 1e-12);
    let finding = found(&findings, "anchor_in_buried_zone").unwrap();
    assert_eq!(finding.severity, Severity::Stop);
    // 0.11 m are missing, southwards from the pipe.
    let Remedy::Buried(BuriedRemedy::MovePeg { kind: PegKind::Anchor, clear }) = &finding.remedy else {
        panic!("{finding:?}")
    };
    assert!((clear.by_m - 0.11).abs() < 1e-9 && clear.toward_deg == Some(180.0), "{clear:?}");
    let (_, doubtful) = measure(&buried(5.8, MarkedByUtility, 0.1));
    assert_eq!(found(&doubtful, "anchor_in_buried_zone").unwrap().severity, Severity::Caution);
    let (_, clear) = measure(&buried(5.8, MarkedByUtility, 0.0));
    assert!(found(&clear, "anchor_in_buried_zone").is_none());
}

#[test]
fn guessed_and_unlisted_services_are_unchecked() {
    let (_, guessed) = measure(&buried(40.0, crate::job::Located::Guessed, 0.0));
    let finding = found(&guessed, "buried_location_guessed").unwrap();
    assert_eq!((finding.severity, &finding.remedy), (Severity::Unchecked, &BuriedRemedy::CallFirst.into()));
    let (_, none) = measure(&PlacedYard::default());
    assert_eq!(found(&none, "buried_services_unknown").unwrap().severity, Severity::Unchecked);
    assert_eq!(found(&none, "overhead_lines_unknown").unwrap().severity, Severity::Unchecked);
    assert_eq!(found(&none, "boundary_not_given").unwrap().severity, Severity::Note);
}

#[test]
fn what_lies_outside_the_boundary_is_a_stop() {
    let boundary = Some(vec![[-9.0, -9.0], [9.0, -9.0], [9.0, 4.5], [-9.0, 4.5]]);
    let (clearances, findings) = measure(&PlacedYard { boundary, ..PlacedYard::default() });
    assert!((distance(&clearances, to_boundary(PegKind::Anchor)) + 0.5).abs() < 1e-12);
    assert!((distance(&clearances, to_boundary(PegKind::Stake)) - 3.5).abs() < 1e-12);
    let finding = found(&findings, "anchor_over_boundary").unwrap();
    let clear = Clear { by_m: 0.5, toward_deg: Some(180.0) };
    assert_eq!(
        (finding.severity, &finding.remedy),
        (Severity::Stop, &YardRemedy::MoveInside { clear }.into())
    );
    assert_eq!(found(&findings, "fall_reaches_over_boundary").unwrap().severity, Severity::Caution);
    assert_eq!(clearances[0].what, to_boundary(PegKind::Anchor), "the worst margin comes first");
}

/// Fifteen things and eight guys: `cargo test --release -p mastwright-engine how_long -- --ignored --nocapture`.
#[test]
#[ignore = "a measurement, not a check"]
fn how_long_a_check_takes() {
    let tree = |i: f64| PlacedShape::Tree {
        at: [9.0 * (i * 1.7).fract() - 4.0, 9.0 * (i * 2.3).fract() - 4.0],
        trunk_radius_m: 0.2,
        crown_radius_m: 1.5,
        crown_base_m: 2.0,
        height_m: 7.0,
        crown_base_z: 2.0,
        top_z: 7.0,
    };
    let house = |i: f64| PlacedShape::Building {
        outline: vec![[i, 6.0], [i + 5.0, 6.0], [i + 5.0, 9.0], [i + 2.0, 9.0], [i + 2.0, 11.0], [i, 11.0]],
        height_m: 4.0,
        ground_z: [0.0; 2],
        top_z: 4.0,
    };
    let fence = |i: f64| PlacedShape::Barrier {
        what: crate::job::BarrierKind::Fence,
        line: vec![[-12.0, -i], [12.0, -i]],
        thickness_m: 0.1,
        height_m: 1.5,
        top_z: 1.5,
    };
    let shapes = (0..11).map(|i| match i % 3 {
        0 => tree(f64::from(i)),
        1 => house(f64::from(i)),
        _ => fence(f64::from(i)),
    });
    let mut yard = overhead(Some(11.0), 12.0, 0.5);
    yard.overhead_lines[0].wire = (0..=64).map(|i| [12.0, f64::from(i) - 32.0, 7.0]).collect();
    yard.buried_services = buried(4.0, crate::job::Located::MarkedByUtility, 0.1).buried_services;
    yard.boundary = Some(vec![[-15.0, -15.0], [15.0, -15.0], [15.0, 15.0], [-15.0, 15.0]]);
    yard.obstacles = shapes.flat_map(|shape| obstacle(shape, 0.5, 0.1).obstacles).collect();
    let mut rig = rig();
    rig.guys = (0..8)
        .map(|i| {
            let mut guy = guy(i);
            guy.rope = (0..=32).map(|k| flat::along(guy.eye, guy.attach, f64::from(k) / 32.0)).collect();
            guy
        })
        .collect();
    let work = Work { mast: &rig.mast, base: &rig.base, guys: &rig.guys, ring: None, sigma_m: 0.02 };
    let start = std::time::Instant::now();
    let count = 2000;
    let mut rows = 0;
    for _ in 0..count {
        rows += check(&yard, &work, &level()).clearances.len();
    }
    println!(
        "{:.1} µs a check, {} rows",
        start.elapsed().as_secs_f64() * 1e6 / f64::from(count),
        rows / count as usize
    );
}

/// The same beside the second guy, which points to the south-east: 0.3 m off it at 2.5 m from the mast, to either side.
#[test]
fn a_rope_turns_away_from_what_stands_on_either_side() {
    for (off_m, clockwise) in [(0.3, false), (-0.3, true)] {
        let [out, aside] = [120.0, 210.0].map(bearing::unit);
        let at = [0, 1].map(|k| 2.5 * out[k] + off_m * aside[k]);
        let (_, findings) = measure(&obstacle(post(at, 9.0), 0.5, 0.0));
        let finding = found(&findings, "guy_near_post").unwrap();
        assert_eq!(finding.subject, Subject::Guy { id: "g-2".into() });
        let Remedy::Yard(YardRemedy::MoveGuy { turn: Some(turn), .. }) = &finding.remedy else {
            panic!("{finding:?}")
        };
        assert_eq!(*turn, Turn { about_deg: 7.0, clockwise });
    }
}
