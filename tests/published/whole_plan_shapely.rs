//! Whole plans against a program of its own, which computes them from the job document alone: least squares by SciPy, the
//! ground by Qhull's triangulation, geometry by shapely, ropes by SciPy's root finder, distances by dense sampling.
//! Fixture and versions: `scripts/whole_plan_shapely.py`, `data/whole_plan_shapely.json`.
//!
//! Lantern Green, and yards that are odd: 18° steep, two levels of guys on a bank, a ditch, one wrong reading, a short and
//! stout mast, anchors that two levels share. Each as it is and turned by three angles, which must change nothing.

use mastwright_engine::finding::Subject;
use mastwright_engine::finding::yard::{PegKind, Thing};
use mastwright_engine::job::{BearingReference, Job, read_job};
use mastwright_engine::plan::{GroundModelKind, Plan, compute};
use mastwright_engine::yard::approach::{Approach, ChainKind};
use serde_json::Value;

use crate::moved::Move;

/// How near two programs come whose ground is the same: a twentieth of a millimetre. Distances in space are sampled along
/// ropes there: three millimetres.
const SAME_M: f64 = 5e-5;
const SAMPLED_M: f64 = 3e-3;

/// Lantern Green's ground comes from one fit of all readings in the other program and from two in turn in the plan, which
/// weights a spot's own place by the slope that the first found: their gradients differ by 7·10⁻⁶.
const ONE_FIT_M: f64 = 3e-4;

struct Allowed {
    heights_m: f64,
    sampled_m: f64,
}

/// The other program's words for what it compares.
fn compared(what: &str) -> Approach {
    if what == "anchor to the buried service's edge" {
        return Approach::PegToService { kind: PegKind::Anchor };
    }
    let (part, thing) = what.split_once(" to ").expect("a part and a thing");
    let to = match thing {
        "tree" => Thing::Tree,
        "building" => Thing::Building,
        "barrier" => Thing::Barrier,
        "post" => Thing::Post,
        "ground to keep off" => Thing::KeepOff,
        _ => panic!("{what}"),
    };
    match part {
        "rope" => Approach::Chain { kind: ChainKind::Rope, to },
        "anchor" => Approach::Peg { kind: PegKind::Anchor, to },
        "base timber" => Approach::Timber { to },
        _ => panic!("{what}"),
    }
}

fn fixture() -> Value {
    serde_json::from_str(include_str!("data/whole_plan_shapely.json")).expect("the fixture reads")
}

fn number(value: &Value) -> f64 {
    value.as_f64().expect("a number")
}

/// What disagrees, all of it.
#[derive(Default)]
struct Found(Vec<String>);

impl Found {
    fn near(&mut self, what: &str, ours: f64, theirs: &Value, within: f64) {
        let theirs = number(theirs);
        if (ours - theirs).abs() > within || ours.is_nan() {
            self.0.push(format!("{what}: the plan {ours}, the other program {theirs}"));
        }
    }

    fn none(self) {
        assert!(self.0.is_empty(), "{:#?}", self.0);
    }
}

/// Everything that does not turn with the yard.
fn compare(found: &mut Found, name: &str, plan: &Plan, expected: &Value, allowed: &Allowed) {
    found.near(
        &format!("{name}: underside"),
        plan.base.underside_m,
        &expected["underside_m"],
        allowed.heights_m,
    );
    for leg in &plan.base.legs {
        let what = format!("{name}: {} leg", leg.id);
        found.near(&what, leg.gap_centre_m.value, &expected["gaps_m"][&leg.id], allowed.heights_m);
    }
    assert_eq!(plan.guys.len(), expected["guys"].as_object().expect("guys").len(), "{name}");
    for guy in &plan.guys {
        let (of, what) = (&expected["guys"][&guy.id], format!("{name}: {}", guy.id));
        found.near(&format!("{what} ground"), guy.ground_m, &of["ground_m"], allowed.heights_m);
        found.near(&format!("{what} chord"), guy.chord_m, &of["chord_m"], allowed.heights_m);
        found.near(&format!("{what} length"), guy.unstressed_m.value, &of["unstressed_m"], allowed.heights_m);
        // The angle's part of a tenth of a millimetre over metres.
        found.near(&format!("{what} angle"), guy.angle_deg, &of["angle_deg"], 20.0 * allowed.heights_m);
    }
    for row in expected["clearances"].as_array().expect("clearances") {
        let (to, what) = (row["to"].as_str().expect("an id"), row["what"].as_str().expect("words"));
        let is = |subject: &Subject| match subject {
            Subject::Obstacle { id } | Subject::BuriedService { id } => id == to,
            _ => false,
        };
        let row_of = plan.clearances.iter().find(|one| one.what == compared(what) && is(&one.to));
        let ours = row_of.unwrap_or_else(|| panic!("{name}: no {what} ({to})"));
        let place = format!("{name}: {what} ({to}), from {:?} to {:?}", ours.from_point, ours.to_point);
        found.near(&place, ours.distance_m, &row["distance_m"], allowed.sampled_m);
    }
}

fn each(mut visit: impl FnMut(&str, &Job, &Value, &Allowed)) {
    let fixture = fixture();
    let mut seen = Vec::new();
    for yard in fixture["yards"].as_array().expect("yards") {
        let name = yard["name"].as_str().expect("a name");
        let job = read_job(&yard["job"].to_string()).unwrap_or_else(|errors| panic!("{name}: {errors}"));
        let plan = compute(&job).unwrap_or_else(|errors| panic!("{name}: {errors}")).plan;
        // Whether the ground is a surface is a judgement by chi-square; the other program computed both where that is in
        // question.
        if (plan.ground.model == GroundModelKind::Surface) != yard["surface"].as_bool().expect("a model") {
            continue;
        }
        seen.push(name.to_owned());
        let demo = !job.yard.slopes.is_empty();
        let (heights_m, sampled_m) = if demo { (ONE_FIT_M, SAMPLED_M) } else { (SAME_M, SAMPLED_M) };
        visit(name, &job, &yard["expected"], &Allowed { heights_m, sampled_m });
    }
    seen.dedup();
    assert_eq!(seen.len(), 7, "{seen:?}");
}

#[test]
fn whole_plans_agree_with_another_program() {
    let mut found = Found::default();
    each(|name, job, expected, allowed| {
        let plan = compute(job).expect("it was planned").plan;
        compare(&mut found, name, &plan, expected, allowed);
        for guy in &plan.guys {
            let (of, what) = (&expected["guys"][&guy.id], format!("{name}: {}", guy.id));
            found.near(&format!("{what} east"), guy.east_m, &of["east_m"], allowed.heights_m);
            found.near(&format!("{what} north"), guy.north_m, &of["north_m"], allowed.heights_m);
        }
    });
    found.none();
}

#[test]
fn a_turned_yard_has_the_same_plan() {
    let mut found = Found::default();
    each(|name, job, expected, allowed| {
        let mut job = job.clone();
        let north = compute(&job).expect("it was planned").plan.north;
        if let BearingReference::Magnetic { declination_deg } = &mut job.yard.bearings {
            *declination_deg = Some(north.add_to_reading_deg);
        }
        for by_deg in [37.0, 128.5, 271.0] {
            let plan = compute(&Move::Turn { by_deg }.job(&job)).expect("it can be turned").plan;
            compare(&mut found, &format!("{name} turned by {by_deg}°"), &plan, expected, allowed);
        }
    });
    found.none();
}
