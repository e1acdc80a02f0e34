//! Whether anybody asked what lies underground and looked up for wires: not knowing is never better than knowing that
//! there is nothing.

use mastwright_engine::anchor::soil::ClayFeel;
use mastwright_engine::finding::buried::{BuriedRemedy, BuriedRule, ServiceAnswer};
use mastwright_engine::finding::{Finding, Rule, Severity};
use mastwright_engine::job::{
    AnchorKind, BuriedService, FastBefore, Hinge, Job, Located, LogEntry, Overhead, Raising, ServiceKind,
    SoilFeel, StrandsInTilt, TiltedTubes, Underground, read_job, write_job,
};
use mastwright_engine::judge::judged;
use mastwright_engine::plan::compute;
use mastwright_engine::quantity::UnitSystem;
use mastwright_engine::source::SourceKey;
use mastwright_engine::verdict::Verdict;

use serde_json::json;

use crate::bumpy_yard::fixes;
use crate::random_jobs::random_job;
use crate::yardstick::yardstick;

fn none_there(answered: Option<&str>, until: Option<&str>) -> Underground {
    let answer =
        json!({ "kind": "none_there", "answered_at": answered, "holds_until": until, "reference": "A-17" });
    serde_json::from_value(answer).expect("an answer")
}

/// A yard in which all else is known, without a line over it or under it.
fn quiet() -> Job {
    let mut job = yardstick();
    job.yard.soil = SoilFeel::Clay { feel: ClayFeel::Stiff };
    job.rig.guy_levels[0].anchor = AnchorKind::Plate { side_m: 0.3, depth_m: 0.9 };
    job.yard.surveyed_at = serde_json::from_value(json!("2026-11-20T12:00:00+00:00")).expect("a moment");
    job.yard.obstacles.clear();
    job.yard.boundary = None;
    job.yard.overhead_lines.clear();
    job.yard.buried_services.clear();
    job.yard.overhead = Overhead::NoneWithin { distance_m: 100.0 };
    job.yard.underground = none_there(Some("2026-11-10T09:00:00+00:00"), None);
    // About a pin, towards its third guy.
    job.raising = Raising {
        hinge: Hinge::Pin { height_m: 0.3 },
        lies_toward_deg: Some(90.0),
        tubes: TiltedTubes::DrawnOut,
        strands: StrandsInTilt::PutOnLater,
        fast_before: FastBefore::AsNeeded,
        ..Raising::default()
    };
    job
}

fn verdict(job: &Job) -> Verdict {
    judged(job).expect("it can be placed").plan.verdict.expect("a verdict")
}

fn rank(verdict: &Verdict) -> u8 {
    match verdict {
        Verdict::Stop { .. } => 0,
        Verdict::NotKnown { .. } => 1,
        Verdict::Look { .. } => 2,
    }
}

fn found(job: &Job, rule: &str) -> Option<Finding> {
    let plan = compute(job).expect("it can be placed").plan;
    plan.findings.into_iter().find(|finding| finding.rule == rule)
}

#[test]
fn a_yard_of_which_the_utilities_say_that_nothing_lies_there_is_not_unknown_for_ever() {
    let mut job = quiet();
    assert!(matches!(verdict(&job), Verdict::Look { .. }), "{:?}", verdict(&job));
    job.yard.underground = Underground::NotAsked;
    assert!(matches!(verdict(&job), Verdict::NotKnown { .. }));
    job = quiet();
    job.yard.overhead = Overhead::NotLooked;
    assert!(matches!(verdict(&job), Verdict::NotKnown { .. }));
    job = quiet();
    job.raising.tubes = TiltedTubes::Unsaid;
    assert!(matches!(verdict(&job), Verdict::NotKnown { unchecked: 1, .. }), "how it goes up is asked");
    job = quiet();
    job.raising.fast_before = FastBefore::These { guys: Vec::new() };
    assert!(matches!(verdict(&job), Verdict::Stop { .. }), "nothing stops it at plumb");
}

/// Whatever else the job is like, and whatever lines are entered.
#[test]
fn not_asked_is_never_better_than_nothing_there() {
    let mut jobs: Vec<Job> = (0..6).map(random_job).collect();
    jobs.extend([quiet(), yardstick()]);
    let service = |located| BuriedService {
        id: "pipe".into(),
        name: "Pipe".into(),
        carries: ServiceKind::PotableWater,
        located,
        line: fixes(&[[-90.0, -80.0], [90.0, -80.0]]),
        width_m: 0.1,
        tolerance_m: None,
    };
    let lists = [
        vec![],
        vec![service(Located::Guessed)],
        vec![service(Located::Exposed)],
        vec![service(Located::MarkedByUtility)],
    ];
    for (number, job) in jobs.iter().enumerate() {
        for list in &lists {
            let of = |underground: Underground, overhead: Overhead| {
                let mut job = job.clone();
                job.yard.buried_services = list.clone();
                (job.yard.underground, job.yard.overhead) = (underground, overhead);
                rank(&verdict(&job))
            };
            let known = none_there(Some("2026-11-10T09:00:00+00:00"), None);
            let far = Overhead::NoneWithin { distance_m: 500.0 };
            let best = of(known.clone(), far);
            assert!(of(Underground::NotAsked, far) <= best, "job {number}, {list:?}");
            assert!(of(known.clone(), Overhead::NotLooked) <= best, "job {number}, {list:?}");
            // Nor an answer without its date better than one with it, nor a look too near than one far enough.
            assert!(of(none_there(None, None), far) <= best, "job {number}, {list:?}");
            assert!(of(known, Overhead::NoneWithin { distance_m: 0.5 }) <= best, "job {number}, {list:?}");
        }
    }
    // A line that somebody dug up says nothing of others; one that the utility marked says that it was asked.
    let mut job = quiet();
    job.yard.underground = Underground::NotAsked;
    job.yard.buried_services = vec![service(Located::Exposed)];
    let unknown = found(&job, "buried_services_unknown").expect("nobody asked");
    assert_eq!((unknown.severity, unknown.source), (Severity::Unchecked, SourceKey::CgaTolerance));
    job.yard.buried_services = vec![service(Located::MarkedByUtility)];
    assert_eq!(found(&job, "buried_services_unknown"), None);
    // Marked, and not entered.
    job.yard.underground = Underground::Marked;
    assert_eq!(found(&job, "buried_services_unknown"), None);
    job.yard.buried_services.clear();
    assert!(found(&job, "buried_services_unknown").is_some());
}

/// Answered on the tenth: the usual least time ends on the twenty-fourth. The engine has no clock; the job's own latest
/// entry is what it goes by.
#[test]
fn an_answer_grows_old_and_stops_nothing() {
    let mut job = quiet();
    let note = found(&job, "buried_answer_none").expect("a note");
    assert_eq!(note.severity, Severity::Note);
    let day = |day: u32| {
        let moment = format!("2026-11-{day}T09:00:00+00:00");
        serde_json::from_value(json!(moment)).expect("a moment")
    };
    let answer = ServiceAnswer {
        at: day(10),
        notice: "A-17".into(),
        holds_until: None,
        usually_until: day(24),
        is_old: false,
    };
    assert_eq!(note.rule, Rule::from(BuriedRule::Answer(answer)));
    assert_eq!(note.remedy, BuriedRemedy::AskAgainLater.into());
    assert_eq!(note.source, SourceKey::CgaTicketLife);
    let entry = |at: &str| -> LogEntry {
        let entry = json!({
            "number": 1, "taken_at": at, "subject": { "kind": "ground" }, "name": "Slope", "part": "slope",
            "action": "read", "value": { "kind": "turned", "bearing_deg": 1.0 }, "instrument": "typed",
        });
        serde_json::from_value(entry).expect("an entry")
    };
    job.log = vec![entry("2026-11-24T08:00:00+00:00")];
    assert_eq!(found(&job, "buried_answer_old"), None);
    job.log = vec![entry("2026-11-24T10:00:00+00:00")];
    let old = found(&job, "buried_answer_old").expect("it is old");
    assert_eq!(old.severity, Severity::Caution);
    assert_eq!(old.remedy, BuriedRemedy::AskAgainFirst.into());
    assert_eq!(rank(&verdict(&job)), 2, "an old answer stops nothing by itself");
    // What the notice says itself goes before the usual time, both ways.
    job.yard.underground = none_there(Some("2026-11-10T09:00:00+00:00"), Some("2026-12-08T00:00:00+00:00"));
    assert_eq!(found(&job, "buried_answer_old"), None);
    job.log.clear();
    job.yard.underground = none_there(Some("2026-11-10T09:00:00+00:00"), Some("2026-11-15T00:00:00+00:00"));
    assert!(found(&job, "buried_answer_old").is_some());
    // The caution at each anchor and stake stays.
    let computed = judged(&job).expect("it can be placed");
    let report = mastwright_engine::report::report(&job, &computed);
    for section in report.sections.iter().filter(|section| section.id == "peg") {
        let of_ground = format!("{:?}", section.subject);
        if of_ground.contains("Guy") || of_ground.contains("Stake") {
            assert!(section.caution.contains("by hand"), "{}", section.title);
        }
    }
}

/// By hand: the yardstick's mast and its longest loose end, and ten feet: rounded up to whole metres or feet. A mast
/// that grew asks for another look.
#[test]
fn who_looked_up_looked_as_far_as_the_mast_falls() {
    let mut job = quiet();
    let plan = compute(&job).expect("it can be placed").plan;
    let ropes = plan.guys.iter().map(|guy| guy.cut_m.value);
    let strands = plan.ring.iter().flat_map(|ring| ring.strand_lengths_m.iter().copied());
    let longest = ropes.chain(strands).fold(plan.mast.fall_radius_m, f64::max);
    let (foot_m, band_m) = (0.3048, 10.0 * 0.3048);
    let expected = match job.units.system {
        UnitSystem::Imperial => ((longest + band_m) / foot_m).ceil() * foot_m,
        UnitSystem::Metric => (longest + 3.05).ceil(),
    };
    assert!((plan.look_up_m - expected).abs() < 1e-9, "{} {expected}", plan.look_up_m);
    job.yard.overhead = Overhead::NoneWithin { distance_m: plan.look_up_m };
    assert_eq!(found(&job, "overhead_lines_unknown"), None);
    job.yard.overhead = Overhead::NoneWithin { distance_m: plan.look_up_m - 0.5 };
    let near = found(&job, "overhead_lines_unknown").expect("not far enough");
    assert_eq!(near.severity, Severity::Unchecked);
    job.yard.overhead = Overhead::NoneWithin { distance_m: plan.look_up_m };
    let tallest = job.rig.tubes.last_mut().expect("a tube");
    tallest.length_m += 7.0;
    assert!(found(&job, "overhead_lines_unknown").is_some(), "the mast has grown");
}

/// Jobs from before read as not asked.
#[test]
fn an_old_document_reads_as_not_asked() {
    let job = quiet();
    let mut old = serde_json::to_value(&job).expect("a job is JSON");
    let yard = old["yard"].as_object_mut().expect("a yard");
    yard.remove("underground");
    yard.remove("overhead");
    let read = read_job(&old.to_string()).expect("it still reads");
    assert_eq!((read.yard.underground, read.yard.overhead), (Underground::NotAsked, Overhead::NotLooked));
    assert_eq!(read_job(&write_job(&job)), Ok(job));
}
