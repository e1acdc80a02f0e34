//! Pegging out: the order, the tapes by hand, how far off a peg may be, and stake-outs drawn by chance in which a tape was
//! swapped, or none.

use mastwright_engine::finding::Severity;
use mastwright_engine::guys::guy::FoundAnchor;
use mastwright_engine::job::{
    AnchorKind, AsBuilt, AsBuiltAnchor, Job, PegDone, PegTape, PointFix, ScrewShaft, Side, read_job_value,
};
use mastwright_engine::numerics::least_squares::DMatrix;
use mastwright_engine::numerics::random::Random;
use mastwright_engine::pegging::blunders::{
    CheckReading, StakeOutFound, TapeSet, known_blunders, limit_for, told,
};
use mastwright_engine::pegging::network::{Network, SetBy};
use mastwright_engine::pegging::{
    Blunder, Driven, PegChecked, PegOutGuide, PegStage, StakeOutState, ToleranceBy, guide, network_of,
};
use mastwright_engine::plan::{self, Computed, FixedPoints, Surveyed};
use serde_json::{Value, json};

use crate::moved::Move;
use crate::yardstick::yardstick;

type Point = [f64; 2];

/// A bare yard: marks by tapes, no thing in it, a base of three legs with six stakes, three anchors.
fn bare(marks: &Value, slopes: &[(f64, f64)], mast: Point, front_deg: f64) -> Job {
    let mut job = serde_json::to_value(yardstick()).expect("a job is JSON");
    let yard = &mut job["yard"];
    yard["bearings"] = json!({ "kind": "true" });
    yard["marks"] = marks.clone();
    yard["measurements"] = json!([]);
    yard["spot_heights"] = json!([]);
    yard["obstacles"] = json!([]);
    yard["overhead_lines"] = json!([]);
    yard["buried_services"] = json!([]);
    yard["boundary"] = Value::Null;
    yard["underground"] = json!({ "kind": "none_there", "answered_at": null });
    yard["overhead"] = json!({ "kind": "none_within", "distance_m": 60.0 });
    let slope = |(number, (bearing_deg, slope_deg)): (usize, &(f64, f64))| json!({ "id": format!("s{number}"), "bearing_deg": bearing_deg, "slope_deg": slope_deg });
    yard["slopes"] = slopes.iter().enumerate().map(slope).collect();
    let rig = &mut job["rig"];
    rig["stakes"]["per_leg"] = json!(2);
    rig["guy_levels"][0]["anchor_layout"] = json!({ "rule": "equal_radius", "radius_m": 5.0 });
    rig["guy_levels"][0]["count"] = json!(3);
    job["placement"]["mast"] = json!({ "by": "coordinates", "east_m": mast[0], "north_m": mast[1] });
    job["placement"]["front_bearing_deg"] = json!(front_deg);
    read_job_value(&job).unwrap_or_else(|errors| panic!("a bare yard: {errors}"))
}

/// Marks A at the origin, B so far to the east, others by two tapes from both, left of the line.
fn marks(b_m: f64, others: &[(&str, Point)]) -> Value {
    let mut all = vec![
        json!({ "id": "A", "name": "A", "at": { "by": "origin" } }),
        json!({ "id": "B", "name": "B",
            "at": { "by": "bearing_tape", "from": "A", "bearing_deg": 90.0, "tape_m": b_m } }),
    ];
    for (id, [east, north]) in others {
        let side = if *north > 0.0 { "left" } else { "right" };
        all.push(json!({ "id": id, "name": id, "at": { "by": "two_tapes", "from_a": "A", "tape_a_m": east.hypot(*north),
            "from_b": "B", "tape_b_m": (east - b_m).hypot(*north), "side": side } }));
    }
    all.into()
}

struct Whole {
    job: Job,
    surveyed: Surveyed,
    points: FixedPoints,
    computed: Computed,
    /// Of the covariance of the ground's slope.
    slope_root: DMatrix<f64>,
}

impl Whole {
    fn of(job: Job) -> Self {
        let surveyed = plan::survey(&job.yard, job.units).expect("the marks can be placed");
        let points = FixedPoints::of(&surveyed, &job);
        let computed = plan::compute_on_points(&surveyed, &points, &job).expect("it can be planned");
        let slope_root = root(&surveyed.positions.joint_covariance(&[]));
        Self { job, surveyed, points, computed, slope_root }
    }

    fn guide(&self) -> PegOutGuide {
        guide(&self.surveyed, &self.points, &self.job, &self.computed)
    }

    fn network(&self) -> Network<'_> {
        network_of(&self.surveyed, &self.job, &self.computed)
    }
}

fn drawn_yard(random: &mut Random) -> Whole {
    let mut between = |low: f64, high: f64| low + (high - low) * random.even();
    let b_m = between(14.0, 28.0);
    let c = [between(0.0, b_m), between(14.0, 24.0)];
    let d = [between(0.0, b_m), -between(4.0, 9.0)];
    let slopes = [(0.0, between(-7.0, 7.0)), (90.0, between(-7.0, 7.0)), (45.0, 0.0)];
    let mast = [between(0.3 * b_m, 0.7 * b_m), between(4.0, 8.0)];
    let front = between(0.0, 360.0);
    // The third reading agrees with the other two as far as readings do.
    let tangent = |degrees: f64| degrees.to_radians().tan();
    let third = ((tangent(slopes[0].1) + tangent(slopes[1].1)) / 2.0_f64.sqrt()).atan().to_degrees();
    let slopes = [slopes[0], slopes[1], (45.0, third)];
    Whole::of(bare(&marks(b_m, &[("C", c), ("D", d)]), &slopes, mast, front))
}

/// Marks 12 m apart on level ground, the mast 6 m along and 8 m off: both tapes 10 m, and they cross at 2·atan(6/8) = 73.74°
/// on the left, walking from A to B. From A, the nearest of the two, the bearing is atan(6/8) = 36.87°.
#[test]
fn the_masts_ties_by_hand() {
    let level = [(0.0, 0.0), (90.0, 0.0)];
    let guide = Whole::of(bare(&marks(12.0, &[]), &level, [6.0, 8.0], 180.0)).guide();
    let mast = &guide.steps[0];
    let ties = &mast.ties.as_ref().expect("both marks serve").ties;
    assert_eq!((ties.mark_a.as_str(), ties.mark_b.as_str(), ties.side), ("mark:A", "mark:B", Side::Left));
    assert!((ties.tape_a_m - 10.0).abs() < 1e-9 && (ties.tape_b_m - 10.0).abs() < 1e-9);
    assert!((ties.crossing_deg - 73.739_795).abs() < 1e-5 && ties.good);
    let from = mast.from.as_ref().expect("a tape with a bearing");
    assert!((from.bearing_deg - 36.869_898).abs() < 1e-5 && from.height_difference_m.abs() < 1e-9);
}

/// On ground that rises by 0.1 to the east and 0.05 to the north an anchor 5 m from the mast, 3 m east and 4 m north of it,
/// stands 0.3 + 0.2 = 0.5 m higher, and the tape along the ground is √(25 + 0.25) = 5.0249 m.
///
/// Its reading: with 10 mm and 1 mm a metre of standard deviation 11.2 mm; the slope's 0.3° to either side moves the tape by
/// less than 3 mm: ± 1.96 · √(11.2² + …) is between 21.9 and 23 mm.
#[test]
fn a_tape_along_the_slope_by_hand() {
    let degrees = |grade: f64| grade.atan().to_degrees();
    let slopes = [(90.0, degrees(0.1)), (0.0, degrees(0.05))];
    let mast = [4.0, 6.0];
    let mut job = bare(&marks(12.0, &[("C", [3.0, 15.0])]), &slopes, mast, 0.0);
    // The first guy towards atan(3/4) = 36.87°.
    job.placement.guy_turn_deg = 36.869_897_645_844_02;
    let whole = Whole::of(job);
    let guide = whole.guide();
    let anchor = guide.steps.iter().find(|step| (step.east_m - 7.0).abs() < 1e-6).expect("the first anchor");
    let from = anchor.from.as_ref().expect("a tape from the mast");
    assert!((from.height_difference_m - 0.5).abs() < 1e-6);
    assert!((from.tape_m.value - 5.024_937_8).abs() < 1e-6, "{}", from.tape_m.value);
    assert!((0.0219..0.0235).contains(&from.tape_m.half_width_95), "{}", from.tape_m.half_width_95);
    assert!((from.reading_deg - 36.869_898).abs() < 1e-5);
}

/// On level ground, guys at a radius of 5 m: what first goes wrong is the pull. Square to its guy the peg opens the gap to a
/// neighbour by atan(r/5); 1/sin(120° + δ) is a twentieth more than 1/sin 120° at δ = 4.44°, r = 0.388 m. Towards the mast
/// by r the angle grows: 1/cos is a twentieth more only nearer than that. So of the round steps 0.3 m is the last, and 0.4 m
/// too much.
#[test]
fn an_anchors_tolerance_by_hand() {
    let level = [(0.0, 0.0), (90.0, 0.0)];
    let mut job = bare(&marks(12.0, &[("C", [3.0, 15.0])]), &level, [5.0, 6.0], 0.0);
    job.units.system = mastwright_engine::quantity::UnitSystem::Metric;
    let level = &mut job.rig.guy_levels[0];
    (level.lower_end_m, level.collar_radius_mm) = (2.0, 0.0);
    // The foot stands a little over the ground: so high that the guy falls at 45°.
    let foot_m = plan::compute(&job).expect("a plan").plan.mast.foot_m;
    let level = &mut job.rig.guy_levels[0];
    level.attach_height_m = 5.0 - foot_m + level.anchor_eye_height_m;
    let whole = Whole::of(job);
    let guide = whole.guide();
    for anchor in guide.steps.iter().filter(|step| step.stage == PegStage::Anchors) {
        assert_eq!(anchor.tolerance.off_m, 0.3, "{:?}", anchor.tolerance);
        assert!(matches!(anchor.tolerance.by, ToleranceBy::Pull { .. }), "{:?}", anchor.tolerance);
    }
}

/// Anywhere within its tolerance a peg does nothing to the plan: tried in directions that the search did not try.
#[test]
fn within_its_tolerance_an_anchor_does_no_harm() {
    let mut random = Random::seeded(5);
    let whole = drawn_yard(&mut random);
    let guide = whole.guide();
    let mut tried = 0;
    for step in guide.steps.iter().filter(|step| step.stage == PegStage::Anchors) {
        let id = step.key.trim_start_matches("guy:").to_owned();
        for _ in 0..24 {
            let (turn, off_m) = (std::f64::consts::TAU * random.even(), 0.98 * step.tolerance.off_m);
            let at = [step.east_m + off_m * turn.cos(), step.north_m + off_m * turn.sin()];
            let mut placed = whole.computed.layout.placed_work.clone();
            let covariance = [[1e-6, 0.0], [0.0, 1e-6]];
            let at = Some(mastwright_engine::survey::positions::PositionEstimate { at, covariance });
            placed.anchors.insert(id.clone(), FoundAnchor { at, eye_height_m: None });
            let trial = plan::try_placed(&whole.surveyed, &whole.points, &whole.job, placed).expect("a plan");
            let grave = |severity| severity == Severity::Stop;
            let before = whole.computed.plan.findings.iter().filter(|it| grave(it.severity)).count();
            assert!(trial.findings.iter().filter(|it| grave(it.severity)).count() <= before);
            tried += 1;
        }
    }
    assert_eq!(tried, 72);
}

/// Every peg is tied from marks and from pegs that stand by then; the base comes before the anchors, these before the stakes.
#[test]
fn each_peg_is_tied_from_what_stands() {
    let mut random = Random::seeded(7);
    for _ in 0..6 {
        let guide = drawn_yard(&mut random).guide();
        assert_eq!(guide.steps.len(), 13);
        assert!(guide.steps.iter().map(|step| step.stage).is_sorted());
        let mut stand = std::collections::BTreeSet::new();
        let mut from_pegs = 0;
        for step in &guide.steps {
            if let Some(PegTiesOf { from }) = PegTiesOf::of(step) {
                for key in from {
                    assert!(key.starts_with("mark:") || stand.contains(&key), "{} from {key}", step.key);
                    from_pegs += usize::from(!key.starts_with("mark:"));
                }
            }
            stand.insert(step.key.clone());
        }
        assert!(from_pegs > 0, "near the mast its peg is the best mark");
        assert!(guide.walk_m <= guide.listed_walk_m + 1e-9);
    }
}

struct PegTiesOf {
    from: [String; 2],
}

impl PegTiesOf {
    fn of(step: &mastwright_engine::pegging::PegStep) -> Option<Self> {
        let ties = &step.ties.as_ref()?.ties;
        Some(Self { from: [ties.mark_a.clone(), ties.mark_b.clone()] })
    }
}

/// The whole job turned: the same pegs in the same order by the same tapes with the same tolerance, and the same check tapes;
/// only the bearings turn.
#[test]
fn a_turned_job_has_the_same_guide() {
    let mut random = Random::seeded(9);
    for by_deg in [37.0, 111.0, 240.0] {
        let whole = drawn_yard(&mut random);
        let (guide, turn) = (whole.guide(), Move::Turn { by_deg });
        let turned = Whole::of(turn.job(&whole.job)).guide();
        assert_eq!(guide.steps.len(), turned.steps.len());
        for (a, b) in guide.steps.iter().zip(&turned.steps) {
            assert_eq!((&a.key, a.check_covers), (&b.key, b.check_covers));
            assert!((a.tolerance.off_m - b.tolerance.off_m).abs() < 1e-9, "{}", a.key);
            let (from_a, from_b) = (a.from.as_ref().expect("a"), b.from.as_ref().expect("b"));
            assert!((from_a.tape_m.value - from_b.tape_m.value).abs() < 1e-6);
            let off =
                (from_b.bearing_deg - turn.bearing(from_a.bearing_deg) + 180.0).rem_euclid(360.0) - 180.0;
            assert!(off.abs() < 1e-5, "{off}");
            let (ties_a, ties_b) = (&a.ties.as_ref().expect("a").ties, &b.ties.as_ref().expect("b").ties);
            assert_eq!(
                (&ties_a.mark_a, &ties_a.mark_b, ties_a.side),
                (&ties_b.mark_a, &ties_b.mark_b, ties_b.side)
            );
            assert!((ties_a.tape_a_m - ties_b.tape_a_m).abs() < 1e-6);
        }
        let ends = |guide: &PegOutGuide| -> Vec<(String, String)> {
            guide.checks.iter().map(|tape| (tape.from.clone(), tape.to.clone())).collect()
        };
        assert_eq!(ends(&guide), ends(&turned));
    }
}

/// Few tapes: fewer than two a peg, and every peg that a blunder could put anywhere wrong is covered.
#[test]
fn the_list_of_tapes_is_short_and_covers_every_peg() {
    let mut random = Random::seeded(13);
    let (mut tapes, mut covered, mut pegs) = (0, 0, 0);
    for _ in 0..8 {
        let guide = drawn_yard(&mut random).guide();
        tapes += guide.checks.len();
        pegs += guide.steps.len();
        covered += guide.steps.iter().filter(|step| step.check_covers).count();
        for tape in &guide.checks {
            assert!(tape.read_m.is_none() && tape.expected_m.half_width_95 > 0.0 && !tape.extra);
        }
        assert_eq!(guide.test.state, StakeOutState::NotRead);
        assert!(guide.steps.iter().all(|step| step.checked == PegChecked::NotYet));
    }
    println!("{tapes} tapes for {pegs} pegs, {covered} covered");
    assert!(tapes < 2 * pegs && covered * 10 >= pegs * 9);
}

/// A tick, a tape and an anchor that was measured elsewhere are in the guide.
#[test]
fn what_was_done_and_read_is_in_the_guide() {
    let mut random = Random::seeded(17);
    let whole = drawn_yard(&mut random);
    let guide = whole.guide();
    let mut job = whole.job.clone();
    let first = &guide.checks[0];
    let read_m = first.expected_m.value + 0.005;
    let tape = |id: &str, from: &str, to: &str| PegTape {
        id: id.into(),
        from: from.into(),
        to: to.into(),
        tape_m: read_m,
    };
    let tapes = vec![
        tape("one", &first.to, &first.from),
        tape("lost", "stake:nowhere", "mast"),
        tape("marks", "mark:A", "mark:B"),
    ];
    job.pegging.change(|it| {
        it.done = vec![PegDone { peg: "mast".into() }];
        it.tapes = tapes;
    });
    let guy = whole.computed.plan.guys[0].id.clone();
    job.as_built = Some(AsBuilt {
        anchors: vec![AsBuiltAnchor {
            guy: guy.clone(),
            at: Some(PointFix::BearingTape {
                from: "mast".into(),
                bearing_deg: whole.computed.plan.guys[0].azimuth_deg,
                tape_m: 4.2,
            }),
            eye_height_m: None,
        }],
        ..Default::default()
    });
    let now = Whole::of(job).guide();
    assert!(now.steps[0].done && now.steps[1..].iter().all(|step| !step.done));
    assert_eq!(now.test.without_peg, ["lost", "marks"]);
    assert_eq!((now.test.read, now.test.state), (1, StakeOutState::Agrees));
    let read = now.checks.iter().find(|tape| tape.id == "one").expect("the tape, read from its other end");
    assert!(read.off_m.is_some());
    let anchor = now.steps.iter().find(|step| step.key == format!("guy:{guy}")).expect("the anchor");
    assert!(anchor.as_built && (anchor.from.as_ref().expect("a tape").tape_m.value - 4.2).abs() < 0.02);
}

/// A screw goes in along the guy: at 50° to the level its shaft is 40° from plumb, its head towards the mast. A picket leans
/// 15° the other way (NAVEDTRA 14251), and a bar stands plumb.
#[test]
fn what_goes_in_leans_as_it_should() {
    let mut random = Random::seeded(19);
    let mut job = drawn_yard(&mut random).job;
    let with = |job: &mut Job, anchor: AnchorKind| {
        job.rig.guy_levels[0].anchor = anchor;
        let whole = Whole::of(job.clone());
        let step =
            whole.guide().steps.into_iter().find(|step| step.stage == PegStage::Anchors).expect("an anchor");
        let guy =
            whole.computed.plan.guys.iter().find(|guy| step.key.ends_with(&guy.id)).expect("its guy").clone();
        (step.into_ground.expect("something goes in"), guy)
    };
    let screw = AnchorKind::Screw {
        shaft: ScrewShaft::Round,
        shaft_mm: 16.0,
        torque_nm: None,
        helix_mm: Some(150.0),
        depth_m: Some(0.9),
    };
    let back = |azimuth: f64| (azimuth + 180.0).rem_euclid(360.0);
    let (it, guy) = with(&mut job, screw);
    assert_eq!((it.what, it.depth_m), (Driven::Screw, Some(0.9)));
    assert!((it.batter_deg.expect("a lean") + guy.angle_deg - 90.0).abs() < 1e-9);
    assert!((it.leans_toward_deg.expect("a way") - back(guy.azimuth_deg)).abs() < 1e-9);
    let pickets = AnchorKind::Pickets { pattern: mastwright_engine::anchor::picket::Pickets::Single };
    let (it, guy) = with(&mut job, pickets);
    assert_eq!(it.batter_deg, Some(15.0));
    assert!((it.leans_toward_deg.expect("a way") - guy.azimuth_deg).abs() < 1e-9);
    assert!((it.depth_m.expect("a depth") - 0.9144).abs() < 1e-9);
    let (it, _) = with(&mut job, AnchorKind::Stake { diameter_mm: 16.0, driven_m: 0.8 });
    assert_eq!((it.batter_deg, it.leans_toward_deg, it.depth_m), (Some(0.0), None, Some(0.8)));
    let (it, guy) = with(&mut job, AnchorKind::Unknown);
    assert_eq!((it.what, it.depth_m, it.batter_deg), (Driven::NotChosen, None, None));
    assert!((it.pull_rises_deg.expect("a pull") - guy.angle_deg).abs() < 1e-9);
}

// --- stake-outs drawn by chance -------------------------------------------------------------------------------------------

/// The real yard: another slope, the marks elsewhere than the plan has them, and tapes that read as tapes do. Nothing of the
/// engine's geometry is in it: a tape on a plane is √(d² + (g·d)²), a peg lies where Newton finds both its tapes right.
struct Real<'a> {
    network: &'a Network<'a>,
    gradient: Point,
    at: Vec<Point>,
}

fn on_plane_m(g: Point, a: Point, b: Point) -> f64 {
    let d = [b[0] - a[0], b[1] - a[1]];
    let rise = g[0] * d[0] + g[1] * d[1];
    (d[0] * d[0] + d[1] * d[1] + rise * rise).sqrt()
}

fn meet(g: Point, a: Point, b: Point, [ta, tb]: Point, side: Side) -> Point {
    let (d, base) = ([b[0] - a[0], b[1] - a[1]], (b[0] - a[0]).hypot(b[1] - a[1]));
    let along = (base * base + ta * ta - tb * tb) / (2.0 * base);
    let off = (ta * ta - along * along).max(1e-4).sqrt() * if side == Side::Left { 1.0 } else { -1.0 };
    let mut at = [a[0] + (along * d[0] - off * d[1]) / base, a[1] + (along * d[1] + off * d[0]) / base];
    for _ in 0..60 {
        let f = |p: Point| [on_plane_m(g, a, p) - ta, on_plane_m(g, b, p) - tb];
        let h = 1e-6;
        let (now, east, north) = (f(at), f([at[0] + h, at[1]]), f([at[0], at[1] + h]));
        let j = [
            [(east[0] - now[0]) / h, (north[0] - now[0]) / h],
            [(east[1] - now[1]) / h, (north[1] - now[1]) / h],
        ];
        let determinant = j[0][0] * j[1][1] - j[0][1] * j[1][0];
        let step = [
            (now[0] * j[1][1] - now[1] * j[0][1]) / determinant,
            (now[1] * j[0][0] - now[0] * j[1][0]) / determinant,
        ];
        let share = (0.5 / step[0].hypot(step[1])).min(1.0);
        at = [at[0] - share * step[0], at[1] - share * step[1]];
        if step[0].hypot(step[1]) < 1e-12 {
            break;
        }
    }
    at
}

/// Where the marks really are, if what was read of them is off as readings are.
fn real_marks(job: &Job, gradient: Point, random: &mut Random) -> Vec<Point> {
    let mut at: Vec<Point> = Vec::new();
    let bearing_sigma_deg = job.yard.instruments.bearing_sigma_deg;
    for mark in &job.yard.marks {
        let mut tape = |tape_m: f64| tape_m - sigma_m(job, tape_m) * random.normal();
        at.push(match &mark.at {
            PointFix::BearingTape { bearing_deg, tape_m, .. } => {
                let tape_m = tape(*tape_m);
                let (sin, cos) = (bearing_deg - bearing_sigma_deg * random.normal()).to_radians().sin_cos();
                let plan_m = tape_m / 1.0_f64.hypot(gradient[0] * sin + gradient[1] * cos);
                [plan_m * sin, plan_m * cos]
            }
            PointFix::TwoTapes { tape_a_m, tape_b_m, side, .. } => {
                let tapes_m = [tape(*tape_a_m), tape(*tape_b_m)];
                meet(gradient, at[0], at[1], tapes_m, side.expect("a side"))
            }
            _ => [0.0; 2],
        });
    }
    at
}

/// A square root of a covariance that may be singular.
fn root(covariance: &DMatrix<f64>) -> DMatrix<f64> {
    let eigen = covariance.clone().symmetric_eigen();
    let roots = DMatrix::from_diagonal(&eigen.eigenvalues.map(|value| value.max(0.0).sqrt()));
    eigen.eigenvectors * roots
}

fn sigma_m(job: &Job, tape_m: f64) -> f64 {
    let instruments = &job.yard.instruments;
    instruments.tape_sigma_m.hypot(instruments.tape_sigma_mm_per_m / 1000.0 * tape_m)
}

impl<'a> Real<'a> {
    fn drawn(whole: &Whole, network: &'a Network<'a>, swapped: Option<usize>, random: &mut Random) -> Self {
        let by = &whole.slope_root * DMatrix::from_fn(2, 1, |_, _| random.normal());
        let plane = whole.computed.ground.plane.gradient;
        let gradient = [plane[0] + by[0], plane[1] + by[1]];
        let marks = real_marks(&whole.job, gradient, random);
        let mut at: Vec<Point> = Vec::new();
        for (number, node) in network.nodes().iter().enumerate() {
            at.push(match &node.set_by {
                SetBy::Mark { number } => marks[*number],
                SetBy::Otherwise { .. } => panic!("every peg here has its ties"),
                SetBy::Ties { from, tapes_m: [a, b], side } => {
                    let meant = if swapped == Some(number) { [*b, *a] } else { [*a, *b] };
                    let laid = meant.map(|tape_m| tape_m + sigma_m(&whole.job, tape_m) * random.normal());
                    let starts = [at[from[0]], at[from[1]]];
                    let met = meet(gradient, starts[0], starts[1], laid, *side);
                    let misses =
                        |tape: usize| (on_plane_m(gradient, starts[tape], met) - laid[tape]).abs() > 1e-4;
                    if misses(0) || misses(1) {
                        // They do not reach each other: it is put beside the nearer point, as it was meant.
                        let near = usize::from(b < a);
                        let planned = network.nodes()[from[near]].at;
                        let mut beside = |axis: usize| {
                            node.at[axis] + starts[near][axis] - planned[axis] + 0.01 * random.normal()
                        };
                        [beside(0), beside(1)]
                    } else {
                        met
                    }
                }
            });
        }
        Self { network, gradient, at }
    }

    fn read(&self, whole: &Whole, ends: &[[usize; 2]], random: &mut Random) -> Vec<CheckReading> {
        let reading = |(row, &[from, to]): (usize, &[usize; 2])| {
            let length_m = on_plane_m(self.gradient, self.at[from], self.at[to]);
            let tape_m = length_m + sigma_m(&whole.job, length_m) * random.normal();
            CheckReading { id: row.to_string(), from, to, tape_m }
        };
        assert_eq!(self.at.len(), self.network.nodes().len());
        ends.iter().enumerate().map(reading).collect()
    }
}

#[derive(Debug, Default)]
struct Counted {
    swaps: u32,
    named: u32,
    /// The swap itself stands first, not only its peg.
    as_swap: u32,
    sound: u32,
    doubted: u32,
    tapes: usize,
    pegs: usize,
    /// Pegs of which a swap moves nothing that matters.
    harmless: usize,
}

/// Stake-outs in drawn yards: `each` with one peg's tapes swapped, and as many sound ones.
fn simulated(seed: u64, yards: u32, each: u32) -> Counted {
    let mut random = Random::seeded(seed);
    let mut counted = Counted::default();
    for _ in 0..yards {
        let whole = drawn_yard(&mut random);
        let guide = whole.guide();
        let network = whole.network();
        let known = known_blunders(&network);
        let ends: Vec<[usize; 2]> = guide
            .checks
            .iter()
            .map(|tape| [&tape.from, &tape.to].map(|key| network.node(key).expect("a point")))
            .collect();
        let matters = |node: usize, key: &str| {
            let step = guide.steps.iter().find(|step| step.key == key).expect("its step");
            let swap = Blunder::Swapped { peg: key.to_owned() };
            let Some(one) = known.iter().find(|one| one.blunder == swap) else { return false };
            let at = network.nodes()[node].at;
            let moved_m = (one.places[node][0] - at[0]).hypot(one.places[node][1] - at[1]);
            moved_m > step.tolerance.off_m.max(step.tolerance.landing_m.unwrap_or(0.0))
        };
        let pegs: Vec<usize> = (0..network.nodes().len())
            .filter(|&node| matches!(network.nodes()[node].set_by, SetBy::Ties { .. }))
            .collect();
        let swappable: Vec<usize> =
            pegs.iter().copied().filter(|&node| matters(node, &network.nodes()[node].key)).collect();
        counted.tapes += ends.len();
        counted.pegs += pegs.len();
        counted.harmless += pegs.len() - swappable.len();
        assert_eq!(pegs.len(), 13);
        for _ in 0..each {
            let place = (random.even() * swappable.len() as f64) as usize;
            let node = swappable[place.min(swappable.len() - 1)];
            let readings =
                Real::drawn(&whole, &network, Some(node), &mut random).read(&whole, &ends, &mut random);
            let found = told(&network, &known, &readings);
            let peg = &network.nodes()[node].key;
            counted.swaps += 1;
            counted.named += u32::from(names(&found, peg));
            let first = found.suspects.first().map(|suspect| &suspect.blunder);
            counted.as_swap += u32::from(first == Some(&Blunder::Swapped { peg: peg.clone() }));
            let readings = Real::drawn(&whole, &network, None, &mut random).read(&whole, &ends, &mut random);
            counted.sound += 1;
            counted.doubted += u32::from(told(&network, &known, &readings).state != StakeOutState::Agrees);
        }
    }
    counted
}

/// The peg with swapped tapes, and no other thing.
fn names(found: &StakeOutFound, peg: &str) -> bool {
    !found.suspects.is_empty() && found.suspects.iter().all(|suspect| suspect.blunder.peg() == Some(peg))
}

/// Wilson's interval (1927) of a share at 95 %.
fn interval(hits: u32, of: u32) -> [f64; 2] {
    let (n, z) = (f64::from(of), 1.959_964);
    let share = f64::from(hits) / n;
    let middle = (share + z * z / (2.0 * n)) / (1.0 + z * z / n);
    let half = z * (share * (1.0 - share) / n + z * z / (4.0 * n * n)).sqrt() / (1.0 + z * z / n);
    [middle - half, middle + half]
}

fn told_of(counted: &Counted) {
    let [low, high] = interval(counted.named, counted.swaps);
    let [least, most] = interval(counted.doubted, counted.sound);
    println!(
        "{counted:?}\nnamed {:.2} % ({:.2} to {:.2}), as swap {:.2} %, doubted {:.2} % ({:.2} to {:.2})",
        100.0 * f64::from(counted.named) / f64::from(counted.swaps),
        100.0 * low,
        100.0 * high,
        100.0 * f64::from(counted.as_swap) / f64::from(counted.swaps),
        100.0 * f64::from(counted.doubted) / f64::from(counted.sound),
        100.0 * least,
        100.0 * most,
    );
}

/// A swapped tape among 13 pegs is named in at least 95 of 100 stake-outs, and a sound one doubted in at most 3.
#[test]
fn a_swapped_tape_is_named_and_a_sound_stake_out_is_not_doubted() {
    let counted = simulated(2026, 6, 60);
    told_of(&counted);
    assert_eq!((counted.swaps, counted.sound), (360, 360));
    assert!(counted.named * 100 >= counted.swaps * 95, "{counted:?}");
    assert!(counted.doubted * 100 <= counted.sound * 3, "{counted:?}");
}

/// The same many more times.
#[test]
#[ignore = "long"]
fn many_stake_outs_by_chance() {
    let counted = simulated(27, 60, 200);
    told_of(&counted);
    assert!(interval(counted.named, counted.swaps)[0] >= 0.95, "{counted:?}");
    assert!(interval(counted.doubted, counted.sound)[1] <= 0.03, "{counted:?}");
}

/// The misfits of sound stake-outs have the covariance that the test takes: their χ² has its number of tapes as its mean.
#[test]
fn sound_misfits_are_as_wide_as_said() {
    let mut random = Random::seeded(41);
    let whole = drawn_yard(&mut random);
    let (guide, network) = (whole.guide(), whole.network());
    let ends: Vec<[usize; 2]> = guide
        .checks
        .iter()
        .map(|tape| [&tape.from, &tape.to].map(|key| network.node(key).expect("a point")))
        .collect();
    let tapes = TapeSet::new(&network, &ends).expect("a covariance");
    let (runs, count) = (800, ends.len() as f64);
    let mut sum = 0.0;
    for _ in 0..runs {
        let readings = Real::drawn(&whole, &network, None, &mut random).read(&whole, &ends, &mut random);
        sum += told(&network, &[], &readings).chi_square;
    }
    let mean = sum / f64::from(runs);
    // The mean of so many has a deviation of √(2n/runs); what is not linear adds a little.
    let spread = (2.0 * count / f64::from(runs)).sqrt();
    println!("mean {mean}, {count} tapes, deviation {spread}");
    assert!((mean - count).abs() < 5.0 * spread, "{mean} {count}");
    assert!(tapes.expected_m.iter().all(|tape_m| *tape_m > 0.2) && limit_for(60) > 10.8);
}
