//! A guy made fast to a wall or a tree where the job says that it may: by hand, in the wind, in the search, and without leave.

use mastwright_engine::finding::{Finding, Rule, Severity, Subject};
use mastwright_engine::job::{
    AnchorKind, AnchorLayout, BarrierKind, FastBefore, GuyFixing, GuyToThing, Hinge, Job, Obstacle, PointFix,
    Shape, StrandsInTilt, TiltedTubes, WhenLowered,
};
use mastwright_engine::pegging::{Driven, guide};
use mastwright_engine::plan::{Computed, FixedPoints, GuyResult, compute};
use mastwright_engine::raising::as_said;
use mastwright_engine::siting::{SitingChange, SitingPattern, SitingSearch, SitingWishes};
use mastwright_engine::spread::yard_spread;
use mastwright_engine::verdict::MissingKind;
use mastwright_engine::wind_capacity::{
    MastHeight, PartKind, PartUse, WindQuestion, WindTable, missing_of, wind_table, withstand,
};

use crate::moved::Move;
use crate::siting::{of_plans, surveyed};
use crate::siting_openings::rectangle;

fn at([east_m, north_m]: [f64; 2]) -> PointFix {
    PointFix::Coordinates { east_m, north_m }
}

fn leave(height_m: f64, holds_n: Option<f64>) -> Option<GuyFixing> {
    Some(GuyFixing { height_m, holds_n })
}

fn tree(middle: [f64; 2]) -> Obstacle {
    let shape = Shape::Tree {
        at: at(middle),
        trunk_radius_m: 0.2,
        crown_radius_m: 1.0,
        crown_base_m: 4.0,
        height_m: 8.0,
        height_sigma_m: None,
    };
    let (id, name) = ("elm".to_owned(), "Old elm".to_owned());
    Obstacle { id, name, shape, keep_off_m: Some(0.3), guy_fixing: leave(1.5, Some(5000.0)) }
}

fn wall(ends: [[f64; 2]; 2]) -> Obstacle {
    let shape = Shape::Barrier {
        what: BarrierKind::Wall,
        line: ends.map(at).to_vec(),
        thickness_m: 0.2,
        height_m: 2.5,
        height_sigma_m: None,
    };
    let (id, name) = ("wall".to_owned(), "Garden wall".to_owned());
    Obstacle { id, name, shape, keep_off_m: Some(0.3), guy_fixing: leave(1.8, Some(5000.0)) }
}

/// A level lawn of 24 m by 24 m, the mast in its middle, three guys 3.4 m out, the first to the north; an elm 3 m east and 4 m
/// north of the mast, to which the first guy is made fast 1.5 m up.
fn by_the_elm() -> Job {
    let mut job = rectangle([24.0, 24.0], 3, 3.4);
    job.placement.mast = at([12.0, 12.0]);
    job.yard.obstacles = vec![tree([15.0, 16.0])];
    job.rig.guy_levels[0].to_thing = Some(GuyToThing { guy: 1, thing: "elm".into() });
    job
}

fn planned(job: &Job) -> Computed {
    compute(job).unwrap_or_else(|errors| panic!("{errors}"))
}

fn has<'a>(findings: &'a [Finding], rule: &str) -> Option<&'a Finding> {
    findings.iter().find(|finding| finding.rule == rule)
}

fn near(a: f64, b: f64, within: f64) -> bool {
    (a - b).abs() < within
}

/// The trunk's face is 5 - 0.2 m off on the bearing atan(3/4), the rope's end 1.5 m over the level ground; its chord goes from
/// the collar on that side. The other two guys stay where their rule has them.
#[test]
fn a_guy_to_a_tree_by_hand() {
    let job = by_the_elm();
    let computed = planned(&job);
    let level = &job.rig.guy_levels[0];
    let guy = &computed.plan.guys[0];
    let (foot_m, collar_m) = (computed.plan.mast.foot_m, level.collar_radius_mm / 1000.0);
    assert!(near(guy.azimuth_deg, 36.869_897_645_844_02, 1e-6) && near(guy.radius_m, 4.8, 1e-9));
    assert!(near(guy.east_m, 12.0 + 4.8 * 0.6, 1e-9) && near(guy.north_m, 12.0 + 4.8 * 0.8, 1e-9));
    let (run, rise) = (4.8 - collar_m, foot_m + level.attach_height_m - 1.5);
    assert!(near(guy.chord_m, run.hypot(rise), 1e-6), "{}", guy.chord_m);
    assert!(near(guy.angle_deg, (rise / run).atan().to_degrees(), 1e-6));
    let fast = guy.made_fast.as_ref().expect("it is");
    assert_eq!((fast.thing.as_str(), fast.height_m, fast.holds_n), ("elm", 1.5, Some(5000.0)));
    for other in &computed.plan.guys[1..] {
        assert!(near(other.radius_m, 3.4, 1e-9) && other.made_fast.is_none());
    }
    // It sways, and its owner decides: a caution that is always there. Nothing stops.
    let caution = has(&computed.plan.findings, "guy_made_fast_to_thing").expect("it is told");
    assert_eq!(caution.severity, Severity::Caution);
    assert_eq!(caution.against, Some(Subject::Obstacle { id: "elm".into() }));
    let stops: Vec<&Finding> =
        computed.plan.findings.iter().filter(|it| it.severity == Severity::Stop).collect();
    assert!(stops.is_empty(), "{stops:?}");
}

/// 4 m to the east a wall 0.2 m thick; the first guy turned to 70° meets its face at 3.9 m east: 3.9/sin 70° out.
#[test]
fn a_guy_to_a_wall_meets_its_face_on_its_own_line() {
    let mut job = by_the_elm();
    job.yard.obstacles = vec![wall([[16.0, 6.0], [16.0, 18.0]])];
    job.rig.guy_levels[0].to_thing = Some(GuyToThing { guy: 1, thing: "wall".into() });
    job.placement.guy_turn_deg = 70.0;
    let guy = planned(&job).plan.guys[0].clone();
    assert!(near(guy.azimuth_deg, 70.0, 1e-9) && near(guy.radius_m, 3.9 / 70_f64.to_radians().sin(), 1e-9));
    // Pointing away from it there is no guy, and no plan to build.
    job.placement.guy_turn_deg = 250.0;
    let past = planned(&job).plan;
    assert_eq!(past.guys.len(), 2);
    assert_eq!(has(&past.findings, "guy_without_fixing").map(|it| it.severity), Some(Severity::Stop));
}

/// Each thing that is wrong with a fixing is told, and the guy left out; a fixing as high as the collar is found fault with by
/// the guy's angle.
#[test]
fn what_is_wrong_with_a_fixing_stops() {
    let refused = |change: &dyn Fn(&mut Job)| {
        let mut job = by_the_elm();
        change(&mut job);
        let plan = planned(&job).plan;
        let finding =
            has(&plan.findings, "guy_without_fixing").unwrap_or_else(|| panic!("{:?}", plan.findings));
        assert_eq!(finding.severity, Severity::Stop);
        plan.guys.len()
    };
    // Leave withdrawn, the thing gone, a fixing over its top, the mast at it, too far off, a guy that is not there.
    assert_eq!(refused(&|job| job.yard.obstacles[0].guy_fixing = None), 2);
    assert_eq!(refused(&|job| job.yard.obstacles.clear()), 2);
    assert_eq!(refused(&|job| job.yard.obstacles[0].guy_fixing = leave(8.1, None)), 2);
    assert_eq!(refused(&|job| job.yard.obstacles[0] = tree([12.0, 12.1])), 2);
    assert_eq!(refused(&|job| job.yard.obstacles[0] = tree([12.0, 112.0])), 2);
    let no_such = |job: &mut Job| job.rig.guy_levels[0].to_thing.as_mut().expect("it has one").guy = 4;
    assert_eq!(refused(&no_such), 3);
    let mut high = by_the_elm();
    high.yard.obstacles[0].guy_fixing = leave(7.0, None);
    assert!(has(&planned(&high).plan.findings, "guy_does_not_rise").is_some());
}

/// Everything known, so that there is a gust limit.
fn known(mut job: Job) -> Job {
    let level = &mut job.rig.guy_levels[0];
    level.when_lowered = WhenLowered::MadeFast;
    level.proof_pull_n = Some(6000.0);
    job
}

/// Without a word on what the tree may be pulled with there is no gust limit and no good sign, only what is missing; a proof pull
/// of the other anchors says nothing of it. With one the limit goes with it.
#[test]
fn without_its_hold_no_number() {
    let limit = |holds_n: Option<f64>| {
        let mut job = known(by_the_elm());
        job.yard.obstacles[0].guy_fixing = leave(1.5, holds_n);
        let computed = planned(&job);
        let unknown = has(&computed.plan.findings, "fixing_hold_unknown").map(|it| it.severity);
        let missing = missing_of(&job, &computed.layout);
        let found = withstand(&job, &computed.layout, &mut |_, _, _| true);
        (unknown, missing, found.raised.least.map(|least| least.gust_m_per_s))
    };
    let (unknown, missing, gust) = limit(None);
    assert_eq!((unknown, gust), (Some(Severity::Unchecked), None));
    let entry = missing.iter().find(|it| it.kind == MissingKind::FixingHold).expect("it is asked for");
    assert_eq!(entry.pointer, "/yard/obstacles/0/guy_fixing/holds_n");
    assert_eq!(entry.about.as_deref(), Some("Old elm"));
    let (unknown, _, strong) = limit(Some(50_000.0));
    let (_, missing, weak) = limit(Some(150.0));
    assert!(unknown.is_none() && missing.is_empty(), "{missing:?}");
    let (strong, weak) = (strong.expect("all is known"), weak.expect("all is known"));
    assert!(weak < 0.8 * strong, "{weak} {strong}");
}

/// To the wind a guy on a thing is one from an eye as high at the same place: the same mast with three anchors in the ground there,
/// their eyes 1.5 m up, takes the same pulls and leans as far; and the thing carries what was said of it, whatever pull proved the
/// others.
#[test]
fn the_wind_meets_it_as_an_eye_in_the_same_place() {
    let mut job = known(by_the_elm());
    job.rig.guy_levels[0].anchor_eye_height_m = 1.5;
    let computed = planned(&job);
    let mut in_ground = job.clone();
    let level = &mut in_ground.rig.guy_levels[0];
    let anchors = computed.plan.guys.iter().map(|guy| at([guy.east_m, guy.north_m])).collect();
    (level.to_thing, level.anchor_layout) = (None, AnchorLayout::Free { anchors });
    let same = planned(&in_ground);
    let guy = computed.plan.guys[0].clone();
    for from_deg in [guy.azimuth_deg, 100.0, 290.0] {
        let question =
            WindQuestion { height: MastHeight::Raised, gust_m_per_s: 20.0, from_deg: Some(from_deg) };
        let [on_thing, on_eye] = [(&job, &computed), (&in_ground, &same)]
            .map(|(job, computed)| wind_table(job, &computed.layout, &question).expect("it stands"));
        let pulls = |table: &WindTable| {
            let ropes = table.parts.iter().filter(|it| it.part.kind == PartKind::Rope);
            let mut pulls: Vec<(Option<String>, f64)> =
                ropes.map(|it| (it.part.guy.clone(), it.force_n.expect("it stands"))).collect();
            pulls.sort_by(|a, b| a.0.cmp(&b.0));
            pulls
        };
        let (a, b) = (pulls(&on_thing), pulls(&on_eye));
        assert_eq!(a.len(), 3);
        assert!(a.iter().zip(&b).all(|(a, b)| a.0 == b.0 && near(a.1 / b.1, 1.0, 1e-6)), "{a:?} {b:?}");
        assert!(near(on_thing.top_movement_m, on_eye.top_movement_m, 1e-9));
        let carries = |table: &WindTable| {
            let is_its =
                |it: &&PartUse| it.part.kind == PartKind::Anchor && it.part.guy == Some(guy.id.clone());
            table.parts.iter().find(is_its).and_then(|it| it.carries.as_ref()?.allowable_n())
        };
        assert_eq!((carries(&on_thing), carries(&on_eye)), (Some(5000.0), Some(4000.0)));
    }
}

/// The elm is no obstacle to its own guy, but it is to the next one; and nothing is driven in at it: a pipe under the fixing
/// bothers no peg.
#[test]
fn it_is_no_obstacle_to_its_own_guy() {
    let job = by_the_elm();
    let near_elm = |job: &Job| {
        let computed = planned(job);
        let of = |finding: &&Finding| {
            matches!(finding.rule, Rule::Yard(_))
                && finding.against == Some(Subject::Obstacle { id: "elm".into() })
                && matches!(finding.subject, Subject::Guy { .. })
        };
        computed.plan.findings.iter().filter(of).count()
    };
    assert_eq!(near_elm(&job), 0);
    // The same guy anchored in the ground beside the trunk, a hand's breadth from it.
    let mut in_ground = job.clone();
    in_ground.rig.guy_levels[0].to_thing = None;
    in_ground.yard.obstacles[0] = tree([12.0, 15.7]);
    assert!(near_elm(&in_ground) > 0);
    // Made fast to it, but in the way of its own rope farther up: a crown down to 1.6 m.
    let mut through = job.clone();
    if let Shape::Tree { crown_base_m, crown_radius_m, .. } = &mut through.yard.obstacles[0].shape {
        (*crown_base_m, *crown_radius_m) = (1.6, 3.0);
    }
    assert!(near_elm(&through) > 0);
}

/// The peg-out goes to the fixing: a tape and no stake, its height told, and what it is.
#[test]
fn the_way_to_it_is_told_without_a_peg() {
    let job = by_the_elm();
    let computed = planned(&job);
    let surveyed = surveyed(&job);
    let points = FixedPoints::of(&surveyed, &job);
    let peg = computed.plan.pegs.iter().find(|peg| peg.fixing_height_m.is_some()).expect("it is listed");
    assert!(peg.name.ends_with("fixing") && peg.fixing_height_m == Some(1.5), "{}", peg.name);
    assert!(peg.from_mast.as_ref().is_some_and(|tape| near(tape.tape_m, 4.8, 1e-6)));
    let guide = guide(&surveyed, &points, &job, &computed);
    let step = guide.steps.iter().find(|step| step.subject == peg.subject).expect("so is its step");
    let what = step.into_ground.as_ref().expect("it says what");
    assert_eq!((what.what, what.above_ground_m, what.depth_m), (Driven::FixingOnTree, Some(1.5), None));
}

/// Turned up about a pin, the guy's length is that from its real eye: by vectors, with the collar on its circle about the hinge.
#[test]
fn turning_up_it_is_as_long_as_its_eye_makes_it() {
    let mut job = by_the_elm();
    job.raising.hinge = Hinge::Pin { height_m: 0.3 };
    job.raising.tubes = TiltedTubes::DrawnOut;
    job.raising.strands = StrandsInTilt::TiedAlong;
    job.raising.lies_toward_deg = Some(180.0);
    job.raising.fast_before = FastBefore::These { guys: vec!["upper-2".into()] };
    let computed = planned(&job);
    let way = as_said(&job, &computed).expect("all is said");
    let guy = computed.plan.guys[0].clone();
    let tilted = way.guys.iter().find(|it| it.id == guy.id).expect("it is there");
    let hinge = [12.0, 12.0, computed.plan.mast.ground_m + 0.3];
    assert!(near(tilted.eye_above_hinge_m, guy.eye[2] - hinge[2], 1e-9));
    for step in &tilted.angles {
        // Lying to the south: from plumb it turns by 90° less its elevation about the east-west line through the pin.
        let (sin, cos) = (90.0 - step.elevation_deg).to_radians().sin_cos();
        let [north, up] = [guy.attach[1] - hinge[1], guy.attach[2] - hinge[2]];
        let collar = [guy.attach[0], hinge[1] + north * cos - up * sin, hinge[2] + up * cos + north * sin];
        let by_hand = (0..3).map(|axis| (collar[axis] - guy.eye[axis]).powi(2)).sum::<f64>().sqrt();
        assert!(near(step.length_m, by_hand, 1e-6), "{}: {} {by_hand}", step.elevation_deg, step.length_m);
    }
}

/// A tree measured with a tape and a compass that read badly: how long the guy's rope comes out by chance is what its interval
/// says.
#[test]
fn its_interval_covers_where_the_tree_may_stand() {
    let mut job = by_the_elm();
    let instruments = &mut job.yard.instruments;
    (instruments.tape_sigma_m, instruments.bearing_sigma_deg) = (0.05, 1.0);
    let Shape::Tree { at, .. } = &mut job.yard.obstacles[0].shape else { panic!("it is a tree") };
    *at = PointFix::BearingTape { from: "A".into(), bearing_deg: 43.152, tape_m: 21.93 };
    let guy = &planned(&job).plan.guys[0];
    assert!(guy.unstressed_m.half_width_95 > 0.05, "{:?}", guy.unstressed_m);
    let found = yard_spread(&job, 2000, 3, &mut |_| true).expect("it can be drawn");
    let share = found.guys.iter().find(|it| it.id == guy.id).expect("it is there").share_in_plan;
    assert!((0.92..=0.98).contains(&share), "{share}");
}

/// A strip 4.4 m wide along a wall: three guys 3.4 m out are 5.1 m wide however they are turned, so they fit nowhere; with one
/// made fast to the wall the other two reach 1.7 m from the mast.
fn along_the_wall() -> Job {
    let mut job = rectangle([4.4, 12.0], 3, 3.4);
    job.yard.obstacles = vec![wall([[4.3, 0.0], [4.3, 12.0]])];
    // The other anchors as the wall's guy has none.
    job.rig.guy_levels[0].anchor = AnchorKind::Unknown;
    job
}

fn to_things(job: &Job) -> Vec<SitingPattern> {
    let surveyed = surveyed(job);
    let wishes = SitingWishes { step_m: Some(0.4), guy_turns: 6, ..of_plans() };
    let mut search = SitingSearch::begin(&surveyed, job, &wishes).unwrap_or_else(|errors| panic!("{errors}"));
    search.go_on(2000).expect("places can be planned");
    search.try_patterns(400, &mut |_, _| true).expect("places can be planned");
    let patterns = search.answer().expect("places can be planned").patterns.expect("they were tried");
    let is_thing = |it: &SitingPattern| matches!(it.change, SitingChange::GuyToThing { .. });
    patterns.tried.into_iter().filter(is_thing).collect()
}

/// The search goes to the wall only where the job says so; what it finds is a plan without a stop, turned with the yard.
#[test]
fn the_search_goes_to_the_wall_where_it_may() {
    let job = along_the_wall();
    let found = to_things(&job);
    let [pattern] = &found[..] else { panic!("one thing may hold a guy: {found:?}") };
    assert_eq!(pattern.change, SitingChange::GuyToThing { thing: 0 });
    assert!(pattern.opens_cells > 0, "{pattern:?}");
    let best = pattern.best.as_ref().expect("it opens places");
    let taken = Job { rig: best.rig.clone(), placement: best.place.placement.clone(), ..job.clone() };
    let plan = planned(&taken).plan;
    let stops = plan.findings.iter().filter(|it| it.severity == Severity::Stop).count();
    let fast: Vec<&GuyResult> = plan.guys.iter().filter(|guy| guy.made_fast.is_some()).collect();
    assert!(stops == 0 && fast.len() == 1 && plan.guys.len() == 3);
    // Its rope ends on the wall's face.
    assert!(near(fast[0].east_m, 4.2, 1e-9), "{}", fast[0].east_m);
    let turned = to_things(&Move::Turn { by_deg: 90.0 }.job(&job));
    assert_eq!(turned.len(), 1);
    let [here, there] = [pattern.opens_cells, turned[0].opens_cells].map(f64::from);
    assert!((here - there).abs() <= 0.05 * here, "{here} {there}");
    let mut without = job.clone();
    without.yard.obstacles[0].guy_fixing = None;
    assert!(to_things(&without).is_empty());
    // Taken over and then withdrawn, it is refused.
    let withdrawn = Job { yard: without.yard.clone(), ..taken };
    assert!(has(&planned(&withdrawn).plan.findings, "guy_without_fixing").is_some());
}

/// Turned and moved with its yard the guy keeps its length, and its bearing turns with it.
#[test]
fn it_turns_with_its_yard() {
    let job = by_the_elm();
    let before = planned(&job).plan.guys;
    let after = planned(&Move::Turn { by_deg: 37.0 }.job(&job)).plan.guys;
    for (a, b) in before.iter().zip(&after) {
        assert!(near(a.unstressed_m.value, b.unstressed_m.value, 1e-6));
        assert!(near((b.azimuth_deg - a.azimuth_deg).rem_euclid(360.0), 37.0, 1e-6));
        assert!(near(a.unstressed_m.half_width_95, b.unstressed_m.half_width_95, 1e-6));
    }
}
