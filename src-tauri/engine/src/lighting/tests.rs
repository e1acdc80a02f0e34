//! Labels added up by hand, a lead measured by vectors, and nothing known that nobody has said.

use super::conductor::ohm_per_m;
use super::load::load;
use super::*;
use crate::demo;
use crate::finding::lights::{LightsQuestion, LightsRule};
use crate::finding::{Rule, Severity};
use crate::job::{CordConductor, LabelSays, LeadFeeds, Lights, PointFix, Unread};
use crate::quantity::convert::FOOT_M;
use crate::workshop::bench_work;

fn worked(job: &Job) -> LightsWork {
    let computed = plan::compute(job).expect("it can be placed");
    let stages = bench_work(job, &computed).expect("every section is known").stages;
    lights(job, &computed, &stages).expect("it has strands")
}

fn said(work: &LightsWork) -> Vec<&'static str> {
    work.findings.iter().map(|finding| finding.rule.name()).collect()
}

fn open(work: &LightsWork) -> Vec<LightsQuestion> {
    let open = work.findings.iter().find_map(|finding| match &finding.rule {
        Rule::Lights(LightsRule::NotSaid { open }) => Some(open.clone()),
        _ => None,
    });
    open.unwrap_or_default()
}

fn near(found: Option<f64>, by_hand: f64, within: f64) {
    let found = found.expect("a number");
    assert!((found - by_hand).abs() <= within, "{found} is not {by_hand}");
}

/// A flat yard of the demo's rig: the mast at the first mark, nothing that stands in the way.
fn flat() -> Job {
    let mut job = demo::lantern_green();
    job.yard.slopes.clear();
    job.yard.spot_heights.clear();
    job.yard.obstacles.clear();
    job.yard.boundary = None;
    job.as_built = None;
    job.placement.mast = PointFix::Coordinates { east_m: 1.0, north_m: 2.0 };
    job.lights = Unread::default();
    job
}

fn at(east_m: f64, north_m: f64) -> PointFix {
    PointFix::Coordinates { east_m, north_m }
}

/// By hand: twenty strands of 6 W at 120 V take 0.05 A each, 1 A and 120 W together, and a breaker of 1.25 A (NEC 210.20(A)); with 3 A of
/// other things 4.25 A. Five plugged one behind the other make four runs, and 0.25 A in their first plug.
#[test]
fn labels_are_added_up_by_hand() {
    let mut lights = Lights::default();
    lights.strand.load_watts = Some(6.0);
    lights.strand.plug_volts = Some(120.0);
    lights.strand.end_to_end = Some(5);
    let sum = load(&lights, 20, None);
    near(sum.total_amps, 1.0, 1e-12);
    near(sum.total_watts, 120.0, 1e-12);
    near(sum.lights_need_amps, 1.25, 1e-12);
    assert_eq!((sum.needs_amps, sum.runs), (None, Some(4)), "nobody said what else runs on it");
    near(sum.first_plug_amps, 0.25, 1e-12);
    lights.circuit.other_amps = Some(3.0);
    near(load(&lights, 20, None).needs_amps, 4.25, 1e-12);
    // 21 strands make five runs, the last one of one.
    assert_eq!(load(&lights, 21, None).runs, Some(5));
    // A transformer takes more amperes than its watts come to: the greater counts.
    lights.strand.load_amps = Some(0.08);
    near(load(&lights, 20, None).total_amps, 1.6, 1e-12);
    lights.strand.load_amps = Some(0.01);
    near(load(&lights, 20, None).total_amps, 1.0, 1e-12);
}

/// Outside: NEC chapter 9, table 8, solid column, 3.07, 1.93, 1.21 ohms in 1,000 ft of 14, 12, 10 AWG at 75 °C, as on a public page, and
/// the resistance of annealed copper itself: 1/58 Ω·mm²/m at 20 °C, 0.393 % more a degree (IEC 60028), over the gauge's section (ASTM
/// B258: 92 to the power of (36 − n)/39 times 0.005 in thick). Stranded wires are 2 to 3 % longer than they look; IEC 60228 lets them be
/// thinner, too.
#[test]
fn a_wire_resists_as_its_section_lets_it() {
    use CordConductor::*;
    let warm = 1.0 + 0.003_93 * 55.0;
    for (wire, gauge) in [(Awg18, 18), (Awg16, 16), (Awg14, 14), (Awg12, 12), (Awg10, 10)] {
        let thick_mm = 0.127 * crate::numerics::real::pow(92.0, f64::from(36 - gauge) / 39.0);
        let solid = warm / 58.0 / (std::f64::consts::PI / 4.0 * thick_mm * thick_mm);
        let more = ohm_per_m(wire).expect("known").0 / solid;
        assert!((1.015..1.03).contains(&more), "{gauge}: {more}");
    }
    for (wire, mm2) in [(Mm2_0_75, 0.75), (Mm2_1, 1.0), (Mm2_1_5, 1.5), (Mm2_2_5, 2.5)] {
        let more = ohm_per_m(wire).expect("known").0 / (warm / 58.0 / mm2);
        assert!((1.1..1.17).contains(&more), "{mm2}: {more}");
    }
    for (wire, solid) in [(Awg14, 3.07), (Awg12, 1.93), (Awg10, 1.21)] {
        let more = ohm_per_m(wire).expect("known").0 * 1000.0 * FOOT_M / solid;
        assert!((1.015..1.03).contains(&more), "{more}");
    }
    assert!(ohm_per_m(Unsaid).is_none());
}

/// By hand: 30 m of 1.5 mm² at 13.3 Ω/km cold, 16.22 warm, there and back, 4 A: 2 · 30 · 0.016 22 · 4 = 3.893 V, 1.693 % of 230 V.
#[test]
fn what_the_lead_keeps_of_the_voltage_by_hand() {
    let mut lights = Lights::default();
    lights.strand.load_amps = Some(0.4);
    lights.circuit.supply_volts = Some(230.0);
    lights.lead.conductor = CordConductor::Mm2_1_5;
    assert_eq!(load(&lights, 10, None).drop_volts, None, "nobody knows how long it is");
    lights.lead.bought_m = Some(30.0);
    let sum = load(&lights, 10, None);
    near(sum.drop_volts, 3.893, 1e-3);
    near(sum.drop_percent, 1.693, 1e-3);
}

/// By vectors: outlet 9 m north of the mast, a bend 12 m east of there: 12 m and √(12² + 9²) = 15 m, 27 m on level ground. Down 1.2 m,
/// up to the top, two loops of a foot (the demo is in feet), a tenth more.
#[test]
fn a_lead_is_as_long_as_its_way_with_all_that_goes_up_and_down() {
    let mut job = flat();
    job.lights.change(|lights| lights.lead.way = vec![at(1.0, 11.0), at(13.0, 11.0)]);
    let before = worked(&job).lead.expect("it lies somewhere");
    assert!((before.ground_m - 27.0).abs() < 1e-9, "{}", before.ground_m);
    assert_eq!((before.needed_m, before.reach), (None, CordReach::NotKnown));
    job.lights.change(|lights| lights.lead.outlet_height_m = Some(1.2));
    job.lights.change(|lights| lights.lead.feeds = LeadFeeds::Foot);
    let foot = worked(&job).lead.expect("it lies somewhere");
    near(foot.needed_m, 1.1 * (27.0 + 1.2 + 0.6096), 1e-9);
    near(foot.mass_on_mast_kg, 0.0, 0.0);
    job.lights.change(|lights| lights.lead.feeds = LeadFeeds::Top);
    job.lights.change(|lights| lights.lead.mass_g_per_m = Some(100.0));
    let computed = plan::compute(&job).expect("it can be placed");
    let up_m = 5.5 + computed.plan.mast.foot_m - computed.plan.mast.ground_m;
    let top = worked(&job).lead.expect("it lies somewhere");
    near(top.needed_m, 1.1 * (27.0 + 1.2 + 0.6096 + up_m), 1e-9);
    near(top.mass_on_mast_kg, 0.1 * up_m, 1e-9);
    // Tubes, a topper of 0.9 kg, and strands of 35 g a metre.
    let ring = computed.plan.ring.as_ref().expect("a ring");
    let all = computed.plan.mast.mass_kg + 0.9 + 0.035 * ring.strand_lengths_m.iter().sum::<f64>();
    near(top.of_mast_percent, 100.0 * 0.1 * up_m / all, 1e-9);
    // A foot short, and a foot over: the outlet by coordinates is as sure as a sketch.
    let needed = top.needed_m.expect("a number");
    let half = top.ground_half_width_95_m;
    assert!(half > 0.0);
    for (bought, reach) in [
        (needed + half + 0.01, CordReach::Reaches),
        (needed, CordReach::Barely),
        (needed - half - 0.01, CordReach::TooShort),
    ] {
        job.lights.change(|lights| lights.lead.bought_m = Some(bought));
        let work = worked(&job);
        assert_eq!(work.lead.as_ref().map(|lead| lead.reach), Some(reach));
        assert_eq!(said(&work).contains(&"lights_cord_too_short"), reach == CordReach::TooShort);
        assert_eq!(said(&work).contains(&"lights_cord_barely_reaches"), reach == CordReach::Barely);
    }
}

/// By hand: ground that falls by 3 in 4 to the west makes 4 m of plan 5 m of cord; a way 2 m wide across the lead takes its middle 6 m
/// out in plan.
#[test]
fn where_a_way_crosses_it_is_measured_along_the_ground() {
    let mut job = flat();
    let way = serde_json::json!({ "id": "drive", "name": "Drive", "shape": { "kind": "path", "used_by": "vehicles", "width_m": 2.0,
        "line": [{ "by": "coordinates", "east_m": -5.0, "north_m": -3.0 }, { "by": "coordinates", "east_m": -5.0, "north_m": 9.0 }] } });
    job.yard.obstacles.push(serde_json::from_value(way).expect("a way"));
    job.lights.change(|lights| lights.lead.way = vec![at(-11.0, 2.0)]);
    let lead = worked(&job).lead.expect("it lies somewhere");
    let [trip] = lead.trips.as_slice() else { panic!("one place: {:?}", lead.trips) };
    assert!((trip.along_m - 6.0).abs() < 1e-9 && (trip.on_it_m - 2.0).abs() < 1e-9, "{trip:?}");
    assert!((trip.at[0] + 5.0).abs() < 1e-9 && (trip.at[1] - 2.0).abs() < 1e-9 && trip.vehicles);
    assert!(said(&worked(&job)).contains(&"lights_crosses_way"));
    // A bend on the way does not make two of one; a lead that never touches it makes none.
    job.lights.change(|lights| lights.lead.way = vec![at(-11.0, 2.0), at(-5.0, 3.0)]);
    assert_eq!(worked(&job).lead.expect("it lies").trips.len(), 1);
    job.lights.change(|lights| lights.lead.way = vec![at(9.0, 2.0)]);
    assert!(worked(&job).lead.expect("it lies").trips.is_empty());
}

#[test]
fn a_lead_through_a_house_is_told_and_one_along_its_wall_is_not() {
    let mut job = flat();
    let corner =
        |east: f64, north: f64| serde_json::json!({ "by": "coordinates", "east_m": east, "north_m": north });
    let house = serde_json::json!({ "id": "house", "name": "House", "shape": { "kind": "building", "height_m": 4.0,
        "outline": [corner(20.0, 0.0), corner(26.0, 0.0), corner(26.0, 4.0), corner(20.0, 4.0)] } });
    job.yard.obstacles.push(serde_json::from_value(house).expect("a house"));
    job.lights.change(|lights| lights.lead.way = vec![at(26.0, 2.0)]);
    assert!(said(&worked(&job)).contains(&"lights_lead_through"));
    job.lights.change(|lights| lights.lead.way = vec![at(20.0, 2.0)]);
    assert!(!said(&worked(&job)).contains(&"lights_lead_through"));
}

/// Whatever is left open is asked, nothing is a number, and nothing is good.
#[test]
fn nothing_is_known_of_what_nobody_said() {
    let mut job = flat();
    let work = worked(&job);
    let load = &work.load;
    let all = [load.total_amps, load.total_watts, load.needs_amps, load.drop_percent, load.first_plug_amps];
    assert!(all.iter().all(Option::is_none) && load.runs.is_none() && work.lead.is_none());
    assert_eq!(open(&work).len(), 16, "all but what a cord up the mast weighs");
    job.lights.change(|lights| lights.lead.feeds = LeadFeeds::Top);
    assert!(open(&worked(&job)).contains(&LightsQuestion::CordMass));
    // Watts without volts are no amperes.
    job.lights.change(|lights| lights.strand.load_watts = Some(5.0));
    let work = worked(&job);
    assert!(work.load.total_amps.is_none() && work.load.total_watts.is_some());
    assert!(open(&work).contains(&LightsQuestion::StrandVolts));
}

/// Each rule by a yard that just breaks it, and one that just keeps it.
#[test]
fn each_stop_has_its_limit() {
    let full = demo::lantern_green();
    let check = |rule: &str, change: &dyn Fn(&mut Lights), stops: bool| {
        let mut job = full.clone();
        job.lights.change(change);
        let work = worked(&job);
        let found =
            work.findings.iter().any(|finding| finding.rule == rule && finding.severity == Severity::Stop);
        assert_eq!(found, stops, "{rule}: {:?}", said(&work));
    };
    // 21 strands of 0.5 A are 10.5 A; a quarter more 13.125 A, with 2 A more 15.125 A.
    let breaker = |breaker: f64, other: Option<f64>| {
        move |lights: &mut Lights| {
            lights.strand.load_amps = Some(0.5);
            lights.strand.load_watts = None;
            lights.circuit.breaker_amps = Some(breaker);
            lights.circuit.other_amps = other;
        }
    };
    check("lights_breaker_too_small", &breaker(15.13, Some(2.0)), false);
    check("lights_breaker_too_small", &breaker(15.12, Some(2.0)), true);
    // Nobody knows what else runs on it: the lights alone may be too much already.
    check("lights_breaker_too_small", &breaker(13.12, None), true);
    check("lights_breaker_too_small", &breaker(13.13, None), false);
    let cord = |rated: f64| {
        move |lights: &mut Lights| {
            lights.strand.load_amps = Some(0.5);
            lights.strand.load_watts = None;
            lights.lead.rated_amps = Some(rated);
        }
    };
    check("lights_cord_overloaded", &cord(10.49), true);
    check("lights_cord_overloaded", &cord(10.51), false);
    let ends = |plugged: u16| {
        move |lights: &mut Lights| {
            lights.strand.most_end_to_end = Some(4);
            lights.strand.end_to_end = Some(plugged);
        }
    };
    check("lights_too_many_end_to_end", &ends(5), true);
    check("lights_too_many_end_to_end", &ends(4), false);
    let volts = |plug: f64| move |lights: &mut Lights| lights.strand.plug_volts = Some(plug);
    check("lights_volts_differ", &volts(230.0), true);
    check("lights_volts_differ", &volts(127.0), false);
    check(
        "lights_no_residual_current_device",
        &|lights| lights.circuit.residual_current_device = LabelSays::No,
        true,
    );
    check("lights_not_for_outdoors", &|lights| lights.lead.outdoors = LabelSays::No, true);
    check("lights_not_for_outdoors", &|lights| lights.strand.outdoors = LabelSays::No, true);
    check("lights_stay_dark", &|lights| lights.tested[0].lit = false, true);
    check("lights_stay_dark", &|_| {}, false);
}

/// A full ring begins where the cone faces; a part lies evenly to both sides of it. Clockwise as seen from above.
#[test]
fn strands_are_numbered_from_the_view() {
    let mut job = flat();
    let work = worked(&job);
    assert!((work.view_bearing_deg - 225.0).abs() < 1e-9, "it faces where the front leg does");
    assert!(work.strands[0].turn_from_view_deg.abs() < 1e-9);
    assert!((work.strands[1].turn_from_view_deg - 360.0 / 21.0).abs() < 1e-9);
    assert!((work.strands[20].turn_from_view_deg + 360.0 / 21.0).abs() < 1e-9);
    // The chord of 1/21 of a turn on 2.6 m: 2 · 2.6 · sin(180°/21) = 0.775 05 m.
    assert!((work.strands[20].to_next_m.expect("round it goes") - 0.775_05).abs() < 1e-4);
    let strands = job.rig.strands.as_mut().expect("strands");
    (strands.count, strands.sweep_deg, strands.facing_turn_deg) = (5, 180.0, 45.0);
    let work = worked(&job);
    assert!((work.view_bearing_deg - 270.0).abs() < 1e-9);
    let turns: Vec<f64> = work.strands.iter().map(|strand| strand.turn_from_view_deg.round()).collect();
    assert_eq!(turns, [-90.0, -45.0, 0.0, 45.0, 90.0]);
    assert!(work.strands[4].to_next_m.is_none() && work.strands[0].to_next_m.is_some());
}

/// Two places that fit its tapes: nobody knows how long the lead is, and it is told.
#[test]
fn an_outlet_that_may_lie_in_two_places_is_no_length() {
    let mut job = demo::lantern_green();
    let fix = serde_json::json!({ "by": "two_tapes", "from_a": "A", "tape_a_m": 5.0, "from_b": "B", "tape_b_m": 30.0, "side": null });
    job.lights.change(|lights| lights.lead.way = vec![serde_json::from_value(fix).expect("a fix")]);
    let work = worked(&job);
    assert!(work.lead.is_none() && said(&work).contains(&"lights_lead_not_found"));
}

/// Vectors: each strand by the places of its ends, lowered by the last tube's way, with the demo's stretch of 0.5 % at 100 N: EA 20 kN.
#[test]
fn slack_and_pull_follow_from_where_the_ends_are() {
    let job = demo::lantern_green();
    let computed = plan::compute(&job).expect("it can be placed");
    let last = worked(&job).last_tube.expect("a tube goes up");
    let ring = computed.plan.ring.as_ref().expect("a ring");
    let far = |a: [f64; 3], b: [f64; 3]| {
        crate::numerics::real::hypot(crate::numerics::real::hypot(a[0] - b[0], a[1] - b[1]), a[2] - b[2])
    };
    let by_m = last.tie_below_m.expect("a height");
    let mut most = 0.0_f64;
    for (index, strand) in last.strands.iter().enumerate() {
        let (top, at) = (ring.tops[index], ring.points[index]);
        let up = far(top, at);
        let before = far([top[0], top[1], top[2] - last.drop_m], at);
        // Without tension 12 N shorter by 12/20 000 of itself.
        let slack = up / (1.0 + 12.0 / 20_000.0) - before;
        near(strand.slack_m, slack, 1e-9);
        let tied = far([top[0], top[1], top[2] - by_m], at);
        let pull = 20_000.0 * (up - tied) / tied;
        near(strand.tension_n, pull, 1e-6);
        most = most.max(pull);
    }
    assert!((most - 12.0).abs() < 1e-6, "the tightest gets what is to be set: {most}");
    let mut job = job;
    job.lights.change(|lights| lights.spring_pull_n = Some(10.0));
    assert!(worked(&job).last_tube.expect("a tube").tie_below_m.is_none(), "half a spring is none");
}
