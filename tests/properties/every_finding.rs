//! Every rule of the yard, of what lies under it and over it, and of turning the mast up: each is brought about, and says how far,
//! what is to be kept, by whom and what helps, and shows on the map; where it can't, the table says why. A new rule does not
//! compile without its line.

use std::collections::BTreeSet;

use mastwright_engine::drawing::scene::{Role, Scene};
use mastwright_engine::drawing::{MapOptions, staking_map};
use mastwright_engine::finding::buried::{BuriedRule, ServiceAnswer};
use mastwright_engine::finding::overhead::OverheadRule;
use mastwright_engine::finding::raising::{RaisingRule, SweptPart};
use mastwright_engine::finding::yard::{OverBoundary, PegKind, PegName, WorkPart, YardRule};
use mastwright_engine::finding::{Finding, Limit, Quantity, Rule, Sense, Severity, Subject};
use mastwright_engine::job::{
    BasePattern, FastBefore, Hinge, Job, Overhead, RaisingStep, StrandsInTilt, read_job_value,
};
use mastwright_engine::judge::judged;
use mastwright_engine::report::finding_text;
use mastwright_engine::source::SourceKey;
use serde_json::{Value, json};

use crate::cramped_yard::{at, cramped};
use crate::raising::{computed, meadow, post, these, ways, with};
use crate::siting::{of_plans, searched};

/// Which numbers it has; where one is missing, why.
#[derive(Clone, Copy)]
enum Has {
    Both,
    Found(&'static str),
    Kept(&'static str),
    Neither(&'static str),
}
use Has::{Both, Found, Kept, Neither};

struct Row {
    name: &'static str,
    has: Has,
    /// Why it is nowhere on the map; none where it is.
    nowhere: Option<&'static str>,
    sources: &'static [SourceKey],
}

macro_rules! rows {
    ($($pattern:pat $(if $guard:expr)? => $name:literal, $has:expr, $nowhere:expr, $sources:expr;)*) => {
        /// None for rules about other subjects.
        fn row(rule: &Rule) -> Option<Row> {
            match rule {
                $($pattern $(if $guard)? => {
                    Some(Row { name: $name, has: $has, nowhere: $nowhere, sources: $sources })
                })*
                Rule::Document(_) | Rule::Ground(_) | Rule::Points(_) | Rule::North(_) | Rule::Guys(_)
                | Rule::Mast(_) | Rule::Wind(_) | Rule::Workshop(_) | Rule::Lights(_) => None,
            }
        }

        const NAMES: &[&str] = &[$($name),*];
    };
}

const HABIT: &[SourceKey] = &[SourceKey::CommonPractice];
const HEADROOM: &[SourceKey] = &[SourceKey::AdaHeadroom, SourceKey::VehicleHeadroom];
const GEOMETRY: &[SourceKey] = &[SourceKey::Geometry];
const WIRES: &[SourceKey] = &[SourceKey::Cfr1926_1408];
const ZONES: &[SourceKey] = &[SourceKey::CgaTolerance];
const ANY_OF_A_ROPE: &[SourceKey] =
    &[SourceKey::CommonPractice, SourceKey::AdaHeadroom, SourceKey::VehicleHeadroom, SourceKey::Cfr1926_1408];
const TICKET: &[SourceKey] = &[SourceKey::CgaTicketLife];
const STAKES: &[SourceKey] = &[SourceKey::CommonPractice, SourceKey::CgaTolerance];

const ASKED: &str = "a question, or its answer";
const YES_OR_NO: &str = "it is there or it is not";
const OF_YARD: &str = "it is about the whole yard";

rows! {
    Rule::Yard(YardRule::Near { part: WorkPart::Rope(_), .. }) => "rope near", Both, None, HABIT;
    Rule::Yard(YardRule::Near { part: WorkPart::Mast, .. }) => "mast near", Both, None, HABIT;
    Rule::Yard(YardRule::Near { part: WorkPart::Strand, .. }) => "strand near", Both, None, HABIT;
    Rule::Yard(YardRule::Near { part: WorkPart::Cone, .. }) => "cone near", Both, None, HABIT;
    Rule::Yard(YardRule::Near { part: WorkPart::Base, .. }) => "base near", Both, None, HABIT;
    Rule::Yard(YardRule::Near { part: WorkPart::Peg(PegName { kind: PegKind::Anchor, .. }), .. }) =>
        "anchor near", Both, None, HABIT;
    Rule::Yard(YardRule::Near { part: WorkPart::Peg(PegName { kind: PegKind::Stake, .. }), .. }) =>
        "stake near", Both, None, HABIT;
    Rule::Yard(YardRule::RingInKeepOff { .. }) => "ring in keep-off", Both, None, HABIT;
    Rule::Yard(YardRule::FallReaches { .. }) => "fall reaches", Both, None, HABIT;
    Rule::Yard(YardRule::PathHeadroom { .. }) => "headroom", Both, None, HEADROOM;
    Rule::Yard(YardRule::BoundaryNotGiven) => "no boundary", Neither(ASKED), Some("there is none to show"), HABIT;
    Rule::Yard(YardRule::OverBoundary { part: OverBoundary::Base, .. }) => "base over", Both, None, GEOMETRY;
    Rule::Yard(YardRule::OverBoundary { part: OverBoundary::Ring, .. }) => "ring over", Both, None, GEOMETRY;
    Rule::Yard(YardRule::OverBoundary { part: OverBoundary::Peg(PegKind::Anchor), .. }) =>
        "anchor over", Both, None, GEOMETRY;
    Rule::Yard(YardRule::OverBoundary { part: OverBoundary::Peg(PegKind::Stake), .. }) =>
        "stake over", Both, None, GEOMETRY;
    Rule::Yard(YardRule::FallReachesOverBoundary) => "fall over", Both, None, HABIT;

    Rule::Buried(BuriedRule::LocationGuessed { .. }) =>
        "guessed", Neither("distances to a guess prove nothing"), None, ZONES;
    Rule::Buried(BuriedRule::ToleranceByHabit { .. }) => "usual zone", Kept("it is about the zone itself"), None, ZONES;
    Rule::Buried(BuriedRule::PegInZone { peg: PegName { kind: PegKind::Anchor, .. }, .. }) =>
        "anchor in zone", Both, None, ZONES;
    Rule::Buried(BuriedRule::PegInZone { peg: PegName { kind: PegKind::Stake, .. }, .. }) =>
        "stake in zone", Both, None, ZONES;
    Rule::Buried(BuriedRule::RingInZone { .. }) => "ring in zone", Both, None, ZONES;
    Rule::Buried(BuriedRule::ServicesUnknown { .. }) => "not asked", Neither(ASKED), Some(OF_YARD), ZONES;
    Rule::Buried(BuriedRule::Answer(ServiceAnswer { .. })) => "answered", Neither(ASKED), Some(OF_YARD), TICKET;

    Rule::Overhead(OverheadRule::VoltageUnknown { .. }) =>
        "no voltage", Neither("what to keep hangs on the voltage; the least band is held meanwhile"), None, WIRES;
    Rule::Overhead(OverheadRule::BeyondTable { .. }) => "beyond table", Both, None, WIRES;
    Rule::Overhead(OverheadRule::Near { .. }) => "near wire", Both, None, WIRES;
    Rule::Overhead(OverheadRule::Reach { .. }) => "fall to wire", Both, None, WIRES;
    Rule::Overhead(OverheadRule::LooseReach { part: WorkPart::Rope(_), .. }) => "loose rope", Both, None, WIRES;
    Rule::Overhead(OverheadRule::LooseReach { .. }) => "loose strand", Both, None, WIRES;
    Rule::Overhead(OverheadRule::PegUnder { .. }) => "peg under wire", Both, None, WIRES;
    Rule::Overhead(OverheadRule::LinesUnknown { looked: false }) => "not looked", Neither(ASKED), Some(OF_YARD), WIRES;
    Rule::Overhead(OverheadRule::LinesUnknown { looked: true }) => "looked too near", Both, Some(OF_YARD), WIRES;

    Rule::Raising(RaisingRule::WhenRunDown { .. }) => "run down", Both, None, ANY_OF_A_ROPE;
    Rule::Raising(RaisingRule::NotSaid { .. }) => "not said", Neither(ASKED), None, HABIT;
    Rule::Raising(RaisingRule::StrandThicknessUnknown) => "thickness", Neither(ASKED), None, HABIT;
    Rule::Raising(RaisingRule::SweepNear { .. }) => "sweep near", Both, None, HABIT;
    Rule::Raising(RaisingRule::SweepNearLine { .. }) => "sweep near wire", Both, None, WIRES;
    Rule::Raising(RaisingRule::LooseEndNearLine { .. }) => "loose end near wire", Both, None, WIRES;
    Rule::Raising(RaisingRule::TrailsOnGround { within, .. }) if within.is_empty() =>
        "trails free", Neither("nothing lies within reach"), None, HABIT;
    Rule::Raising(RaisingRule::TrailsOnGround { .. }) => "trails", Both, None, HABIT;
    Rule::Raising(RaisingRule::SlackRopeOver { at_deg: Some(_), .. }) => "rope catches", Both, None, HABIT;
    Rule::Raising(RaisingRule::SlackRopeOver { at_deg: None, .. }) => "rope over", Neither("a slack rope lies on it"), None, HABIT;
    Rule::Raising(RaisingRule::CorridorBlocked { .. }) => "walkers blocked", Both, None, HABIT;
    Rule::Raising(RaisingRule::CorridorOn { .. }) => "walkers on", Both, None, HABIT;
    Rule::Raising(RaisingRule::CorridorOverBoundary { mast_too: true }) => "lies over", Both, None, HABIT;
    Rule::Raising(RaisingRule::CorridorOverBoundary { mast_too: false }) => "walkers over", Both, None, HABIT;
    Rule::Raising(RaisingRule::BackLegInTheWay) => "back leg", Neither(YES_OR_NO), None, HABIT;
    Rule::Raising(RaisingRule::BaseFacesElsewhere { .. }) => "faces elsewhere", Both, None, HABIT;
    Rule::Raising(RaisingRule::HingeUnheld { .. }) => "hinge unheld", Neither(YES_OR_NO), None, HABIT;
    Rule::Raising(RaisingRule::StakeHasNoPlace { .. }) => "edge stake", Both, None, STAKES;
    Rule::Raising(RaisingRule::NoStopGuy) => "no stop guy", Neither(YES_OR_NO), None, HABIT;
    Rule::Raising(RaisingRule::StopGuyNotFast { .. }) => "stop guy not fast", Neither(YES_OR_NO), None, HABIT;
    Rule::Raising(RaisingRule::StopGuysNotSetBefore) => "stop guys late", Neither(YES_OR_NO), None, HABIT;
    Rule::Raising(RaisingRule::SideGuysNotSetBefore) => "side guys late", Neither(YES_OR_NO), None, HABIT;
    Rule::Raising(RaisingRule::TooShortUntilPlumb { .. }) => "too short", Both, None, GEOMETRY;
    Rule::Raising(RaisingRule::FarGuysSetBefore) => "far guys early", Neither(YES_OR_NO), None, HABIT;
    Rule::Raising(RaisingRule::SideNotHeld { .. }) => "side unheld", Neither(YES_OR_NO), None, HABIT;
    Rule::Raising(RaisingRule::Tended { .. }) => "tended", Found("a helper gives as much as it takes"), None, HABIT;
    Rule::Raising(RaisingRule::StepMissing { .. }) => "step missing", Neither(YES_OR_NO), None, HABIT;
    Rule::Raising(RaisingRule::NoSuchGuy { .. }) => "no such guy", Neither(YES_OR_NO), None, HABIT;
}

fn thing(id: &str, shape: Value) -> Value {
    json!({ "id": id, "name": format!("The {id}"), "shape": shape, "keep_off_m": 0.3 })
}

fn square([east, north]: [f64; 2], half_m: f64) -> Value {
    let corner = |[e, n]: [f64; 2]| at([east + half_m * e, north + half_m * n]);
    let corners = [[-1.0, -1.0], [1.0, -1.0], [1.0, 1.0], [-1.0, 1.0]].map(corner);
    json!(corners)
}

fn path(from: [f64; 2], to: [f64; 2]) -> Value {
    let line = [from, to].map(at);
    thing(
        "path",
        json!({ "kind": "path", "used_by": "foot", "line": line, "width_m": 0.6, "headroom_m": null }),
    )
}

fn wire(out: f64, height_m: f64, voltage_kv: Option<f64>) -> Value {
    let support = |north: f64| json!({ "at": at([out, north]), "wire_height_m": height_m });
    json!({ "id": "wire", "name": "The wire", "voltage_kv": voltage_kv, "supports": [support(-30.0), support(30.0)],
            "sag_m": 0.0, "height_sigma_m": 0.0 })
}

fn pipe(from: [f64; 2], to: [f64; 2], located: &str) -> Value {
    let line = [from, to].map(at);
    json!({ "id": "pipe", "name": "The pipe", "carries": "potable_water", "located": located, "line": line,
            "width_m": 0.05, "tolerance_m": null })
}

fn but(change: impl FnOnce(&mut Job)) -> Job {
    let mut job = meadow();
    change(&mut job);
    job
}

fn changed(change: impl FnOnce(&mut Value)) -> Job {
    let mut job = serde_json::to_value(meadow()).unwrap();
    change(&mut job);
    read_job_value(&job).unwrap_or_else(|errors| panic!("{errors}"))
}

fn bounded(east_m: f64) -> Job {
    let outline = [[-40.0, -40.0], [east_m, -40.0], [east_m, 40.0], [-40.0, 40.0]].map(at);
    changed(|job| job["yard"]["boundary"]["outline"] = json!(outline))
}

fn bunch(bearings_deg: [f64; 3]) -> Job {
    changed(|job| {
        let anchors =
            bearings_deg.map(|deg| at([4.0 * deg.to_radians().sin(), 4.0 * deg.to_radians().cos()]));
        job["rig"]["guy_levels"][0]["anchor_layout"] = json!({ "rule": "free", "anchors": anchors });
    })
}

fn edge() -> Job {
    let mut job = meadow();
    (job.raising.hinge, job.placement.front_bearing_deg, job.placement.guy_turn_deg) =
        (Hinge::BaseEdge, 270.0, 90.0);
    job
}

/// A post that the upper guys of the raised demo pass high over, and those made fast again on the mast run down do not.
fn run_down() -> Job {
    let mut job = mastwright_engine::demo::lantern_green();
    let plan = computed(&job).plan;
    let guy = plan.guys.iter().find(|guy| guy.id == "upper-1").expect("the demo has it");
    let east_m = plan.mast.east_m + 0.5 * (guy.east_m - plan.mast.east_m);
    let north_m = plan.mast.north_m + 0.5 * (guy.north_m - plan.mast.north_m);
    job.yard.obstacles.push(mastwright_engine::job::Obstacle {
        id: "pole".into(),
        name: "The pole".into(),
        shape: mastwright_engine::job::Shape::Post {
            at: mastwright_engine::job::PointFix::Coordinates { east_m, north_m },
            radius_m: 0.05,
            height_m: 0.9,
            height_sigma_m: None,
        },
        keep_off_m: Some(0.3),
        guy_fixing: None,
    });
    for level in &mut job.rig.guy_levels {
        level.when_lowered = mastwright_engine::job::WhenLowered::MadeFast;
    }
    job
}

/// Jobs of which each brings about what it is here for; the mast stands in the origin and lies to the east.
fn jobs() -> Vec<Job> {
    let things = |all: &[Value]| all.iter().fold(meadow(), |job, it| with(&job, "obstacles", it.clone()));
    let tree = json!({ "kind": "tree", "at": at([0.0, 3.8]), "trunk_radius_m": 0.2, "crown_radius_m": 1.0,
                       "crown_base_m": 1.0, "height_m": 6.0, "height_sigma_m": null });
    let shed = json!({ "kind": "building", "outline": square([1.4, -1.2], 0.4), "height_m": 2.0, "height_sigma_m": null });
    let bed = |middle: [f64; 2]| thing("bed", json!({ "kind": "keep_off", "outline": square(middle, 0.3) }));
    let mut four = with(&meadow(), "obstacles", {
        let shape = json!({ "kind": "post", "at": at([1.7, 1.7]), "radius_m": 0.1, "height_m": 0.2, "height_sigma_m": null });
        thing("stub", shape)
    });
    four.yard.instruments.sketched_sigma_m = 0.005;
    let strands = four.rig.strands.as_mut().unwrap();
    (strands.count, strands.top_radius_m) = (4, Some(0.0));
    // Its collar's way brings the loose far guy near to a wire, and the standing mast does not.
    let loose = bunch([0.0, 180.0, 270.0]);
    let rope_m = computed(&loose).plan.guys[2].cut_m.value;
    let out_m = ((3.8 + rope_m + 3.048_f64 - 0.3).powi(2) - 4.7_f64.powi(2)).sqrt();
    let underground = |answer: Value| changed(|job| job["yard"]["underground"] = answer);
    let order = |steps: &[RaisingStep]| but(|job| job.raising.order = steps.to_vec());
    use RaisingStep::{HoldHinge, SetFarGuys, SetSideGuys, SetStopGuys, WalkUp};
    let mut all = vec![
        things(&[thing("tree", tree), thing("shed", shed), bed([2.2, 0.0])]),
        things(&[post([0.2, 0.0], 4.0), path([-5.0, 3.4], [5.0, 3.4])]),
        things(&[path([-1.5, 0.1], [1.5, 0.1])]),
        four,
        changed(|job| job["yard"]["boundary"] = Value::Null),
        bounded(0.2),
        bounded(6.0),
        with(&meadow(), "buried_services", pipe([-5.0, 0.5], [5.0, 0.5], "guessed")),
        with(&meadow(), "buried_services", pipe([-5.0, 3.9], [5.0, 3.9], "marked_by_utility")),
        underground(json!({ "kind": "not_asked" })),
        underground(json!({ "kind": "none_there", "answered_at": "2026-11-10T09:00:00+00:00",
                            "holds_until": null, "reference": "" })),
        with(&meadow(), "overhead_lines", wire(3.0, 4.0, None)),
        with(&meadow(), "overhead_lines", wire(3.0, 6.0, Some(1200.0))),
        but(|job| job.yard.overhead = Overhead::NotLooked),
        but(|job| job.yard.overhead = Overhead::NoneWithin { distance_m: 2.0 }),
        but(|job| job.raising = Default::default()),
        but(|job| {
            job.raising.strands = StrandsInTilt::TiedAlong;
            job.rig.strands.as_mut().unwrap().cord.diameter_mm = None;
        }),
        things(&[post([3.0, 0.2], 4.0), bed([1.5, -0.6])]),
        things(&[path([2.0, -5.0], [2.0, 5.0]), post([2.2, -2.3], 0.3)]),
        with(&loose, "overhead_lines", wire(out_m, 5.0, Some(0.24))),
        with(&loose, "obstacles", post([8.0, 0.0], 0.3)),
        loose,
        bunch([200.0, 270.0, 340.0]),
        bunch([20.0, 40.0, 60.0]),
        with(&edge(), "buried_services", pipe([0.3, -5.0], [0.3, 5.0], "marked_by_utility")),
        but(|job| job.raising.fast_before = these(&[])),
        but(|job| job.raising.fast_before = these(&["upper-2", "upper-3", "upper-9"])),
        but(|job| job.raising.fast_before = FastBefore::AsNeeded),
        order(&[HoldHinge, SetFarGuys, WalkUp, SetSideGuys, SetStopGuys]),
        order(&[HoldHinge]),
        order(&[WalkUp, HoldHinge, SetSideGuys, SetStopGuys, SetFarGuys]),
    ];
    all.push(run_down());
    let mut crossed = edge();
    (crossed.rig.base.pattern, crossed.rig.base.back_reach_m) = (BasePattern::X, Some(1.0));
    crossed.raising.lies_toward_deg = Some(100.0);
    all.push(crossed);
    all
}

/// The name of a thing of the job.
fn named<'a>(job: &'a Job, subject: &Subject) -> Option<&'a str> {
    let yard = &job.yard;
    match subject {
        Subject::Obstacle { id } => yard.obstacles.iter().find(|it| it.id == *id).map(|it| it.name.as_str()),
        Subject::OverheadLine { id } => {
            yard.overhead_lines.iter().find(|it| it.id == *id).map(|it| it.name.as_str())
        }
        Subject::BuriedService { id } => {
            yard.buried_services.iter().find(|it| it.id == *id).map(|it| it.name.as_str())
        }
        Subject::Boundary => Some("bound"),
        _ => None,
    }
}

/// Its number is on the wrong side of its limit, or may be.
fn agrees(finding: &Finding) -> bool {
    let (Some(measured), Some(Limit { sense, quantity })) = (finding.measured, finding.limit) else {
        return true;
    };
    let number = |of: Quantity| match of {
        Quantity::LengthM { value } | Quantity::AngleDeg { value } | Quantity::VoltageKv { value } => value,
        other => panic!("{other:?}"),
    };
    let half = finding.measured_half_width_95.unwrap_or(0.0) + 1e-9;
    match sense {
        Sense::AtLeast => number(measured) - half <= number(quantity),
        Sense::AtMost => number(measured) + half >= number(quantity),
    }
}

/// What every finding says, wherever it came up.
fn says_all(job: &Job, finding: &Finding) -> Option<Row> {
    let row = row(&finding.rule)?;
    let said = finding_text(finding, job.units);
    let context = format!("{}: {finding:?} {said:?}", row.name);
    let (found, kept) = match row.has {
        Both => (true, true),
        Found(why) => (true, why.is_empty()),
        Kept(why) => (why.is_empty(), true),
        Neither(why) => (why.is_empty(), why.is_empty()),
    };
    assert_eq!((finding.measured.is_some(), finding.limit.is_some()), (found, kept), "{context}");
    assert_eq!(said.numbers.contains("found "), found, "{context}");
    let limit = said.numbers.contains("needed at least ") || said.numbers.contains("allowed at most ");
    assert_eq!(limit, kept, "{context}");
    assert!(agrees(finding), "{context}");
    assert!(row.sources.contains(&finding.source) && said.source.len() > 5, "{context}");
    for words in [&said.sentence, &said.remedy] {
        assert!(words.len() > 15 && words.ends_with('.'), "{context}");
    }
    if let Some(name) = finding.against.as_ref().and_then(|against| named(job, against)) {
        let either = format!("{} {}", said.sentence, said.remedy);
        assert!(either.contains(name), "{context}");
    }
    Some(row)
}

/// The base has no sign of its own: the map shows the mast for it.
fn is_on_map(scene: &Scene, subject: &Subject) -> bool {
    let shown = if *subject == Subject::Base { &Subject::Mast } else { subject };
    scene.shapes.iter().any(|shape| shape.subject.as_ref() == Some(shown))
}

#[test]
fn every_rule_is_brought_about_and_says_all_that_there_is() {
    let mut met: BTreeSet<&str> = BTreeSet::new();
    for (number, job) in jobs().iter().enumerate() {
        let judged = judged(job).unwrap_or_else(|errors| panic!("job {number}: {errors}"));
        let scene = staking_map(job, &judged, &MapOptions::lettering(0.3));
        for finding in &judged.plan.findings {
            let Some(row) = says_all(job, finding) else { continue };
            met.insert(row.name);
            let subjects = [Some(&finding.subject), finding.against.as_ref()];
            let shown = subjects.into_iter().flatten().any(|subject| is_on_map(&scene, subject));
            assert_eq!(
                shown,
                row.nowhere.is_none(),
                "job {number}: {} {finding:?} {:?}",
                row.name,
                row.nowhere
            );
            if finding.severity == Severity::Stop {
                let is_cross = |it: &mastwright_engine::drawing::scene::SceneShape| {
                    it.role == Role::Conflict && it.subject.as_ref() == Some(&finding.subject)
                };
                assert!(scene.shapes.iter().any(is_cross), "job {number}: no cross for {finding:?}");
            }
        }
    }
    let missing: Vec<&&str> = NAMES.iter().filter(|name| !met.contains(**name)).collect();
    assert!(missing.is_empty(), "no job brings about {missing:?}");
}

/// What closes places and ways, and what they wait for, are findings of the same rules: they say as much.
#[test]
fn what_refuses_places_and_ways_says_as_much() {
    let yard = cramped(6);
    let wishes = mastwright_engine::siting::SitingWishes { step_m: Some(1.6), guy_turns: 3, ..of_plans() };
    let found = searched(&yard, &wishes, 100_000);
    let of_places = found.refusals.iter().chain(&found.waits_for);
    let of_places = of_places.filter_map(|it| says_all(&yard, it)).count();
    let mut job = yard.clone();
    job.raising = meadow().raising;
    let round = ways(&job);
    let of_ways = round.refusals.iter().chain(&round.waits_for).filter_map(|it| says_all(&job, it)).count();
    assert!(of_places > 2 && of_ways > 1, "{of_places} {of_ways}");
}

/// A rope low over a way says how high it has to hang, that it is to be flagged, and where to cross; a peg beside the way is
/// to be flagged, too.
#[test]
fn ropes_and_pegs_at_a_way_are_to_be_marked() {
    let job = with(&meadow(), "obstacles", path([-5.0, 3.4], [5.0, 3.4]));
    let plan = judged(&job).unwrap().plan;
    let said = |rule: &str| {
        let found = plan.findings.iter().find(|it| it.rule == rule).unwrap_or_else(|| panic!("{rule}"));
        finding_text(found, job.units)
    };
    let rope = said("path_headroom");
    assert!(rope.numbers.contains("6' 8\"") && rope.remedy.contains("mark the rope"), "{rope:?}");
    let anchor = said("anchor_near_path");
    assert!(anchor.sentence.contains("trip") && anchor.remedy.contains("flag it"), "{anchor:?}");
}

/// What trails is told of strands that hang, by the part.
#[test]
fn strands_that_hang_trail() {
    let job = but(|job| (job.raising.strands, job.raising.strands_hang) = (StrandsInTilt::Unsaid, true));
    let found = judged(&with(&job, "obstacles", post([6.0, 2.0], 0.3))).unwrap().plan.findings;
    let trails = found.iter().find(|it| it.rule == "loose_end_on_ground").expect("they trail");
    let Rule::Raising(RaisingRule::TrailsOnGround { what, within }) = &trails.rule else {
        panic!("{trails:?}")
    };
    assert_eq!((what.as_slice(), within.as_slice()), (&[SweptPart::Strands][..], &["Post".to_owned()][..]));
    assert_eq!(trails.severity, Severity::Caution);
}
