//! Where nothing fits: the least change that opens a place, by hand and by the search itself.

use mastwright_engine::finding::Severity;
use mastwright_engine::job::{AnchorLayout, Job, PointFix};
use mastwright_engine::plan::{self, Surveyed};
use mastwright_engine::quantity::UnitSystem;
use mastwright_engine::siting::{SitingChange, SitingOpenings, SitingSearch, SitingWishes};

use crate::cramped_yard::cramped;
use crate::siting::of_plans;

fn surveyed(job: &Job) -> Surveyed {
    plan::survey(&job.yard, job.units).unwrap_or_else(|errors| panic!("{errors}"))
}

fn openings(surveyed: &Surveyed, job: &Job, wishes: &SitingWishes) -> SitingOpenings {
    let search = SitingSearch::begin(surveyed, job, wishes).unwrap_or_else(|errors| panic!("{errors}"));
    search.openings(&mut |_, _| true).unwrap_or_else(|errors| panic!("{errors}"))
}

fn opened(job: &Job, wishes: &SitingWishes) -> SitingOpenings {
    openings(&surveyed(job), job, wishes)
}

/// A flat rectangle with a corner in the origin and nothing in it, measured to a hair; guys `radius_m` out, no strands.
pub(crate) fn rectangle([width_m, depth_m]: [f64; 2], count: u8, radius_m: f64) -> Job {
    let mut job = cramped(2);
    job.units.system = UnitSystem::Metric;
    let yard = &mut job.yard;
    yard.obstacles.clear();
    yard.overhead_lines.clear();
    yard.buried_services.clear();
    yard.spot_heights.clear();
    yard.slopes.iter_mut().for_each(|slope| slope.slope_deg = 0.0);
    let corners = [[0.0, 0.0], [width_m, 0.0], [width_m, depth_m], [0.0, depth_m]];
    yard.boundary.as_mut().expect("it has one").outline =
        corners.map(|[east_m, north_m]| PointFix::Coordinates { east_m, north_m }).to_vec();
    // With what a good tape and compass leave open no place is good that is clear by a few centimetres only.
    let instruments = &mut yard.instruments;
    (instruments.bearing_sigma_deg, instruments.slope_sigma_deg) = (0.001, 0.001);
    (instruments.tape_sigma_m, instruments.tape_sigma_mm_per_m) = (0.0001, 0.0);
    (instruments.spot_height_sigma_m, instruments.sketched_sigma_m) = (0.0001, 0.001);
    job.rig.strands = None;
    let level = &mut job.rig.guy_levels[0];
    (level.count, level.anchor_layout) = (count, AnchorLayout::EqualRadius { radius_m });
    job.placement.front_bearing_deg = 0.0;
    job.placement.guy_turn_deg = 0.0;
    job
}

fn amount(found: &SitingOpenings, wanted: impl Fn(SitingChange) -> Option<f64>) -> Option<f64> {
    found.opened.iter().find_map(|opening| wanted(opening.change))
}

/// Four guys 3.4 m out in a square of 4.6 m, one of whose cells has its middle in the square's: they fit on the diagonals
/// only, and only where radius / √2 is no more than half the square. 3.4 - 2.3 · √2 = 0.147, so all have to be 0.2 m nearer;
/// letting the mast down opens nothing, nor does one guy alone, nor three of them at the same radius (a square about an
/// equilateral triangle of that circle has a side of 3.4 · √3 · cos 15° = 5.69 m).
#[test]
fn a_square_by_hand() {
    let job = rectangle([4.6, 4.6], 4, 3.4);
    let wishes = SitingWishes { step_m: Some(0.2), guy_turns: 12, ..of_plans() };
    let found = opened(&job, &wishes);
    let nearer = amount(&found, |change| match change {
        SitingChange::GuysNearer { by_m } => Some(by_m),
        _ => None,
    });
    assert!((nearer.expect("nearer guys fit") - 0.2).abs() < 1e-9, "{:?}", found.opened);
    assert_eq!(found.opened.len(), 1, "{:?}", found.opened);
    assert!(found.closed.contains(&SitingChange::GuyCount { count: 3 }), "{:?}", found.closed);
    assert!(matches!(found.closed.last(), Some(SitingChange::MastLower { .. })), "{:?}", found.closed);
}

/// A long strip 4.75 m deep: an equilateral triangle is nowhere less wide than its height, 1.5 · 3.4 = 5.1 m, so one guy has
/// to come 0.35 m nearer, 0.4 m in steps of 0.1. All of them would have to come to 4.75 / 1.5 = 3.167 m: 0.3 m nearer. Four
/// guys at the same radius are at least 3.4 · √2 = 4.81 m wide, so they don't fit. Steps of 0.69 m have the middle of a row 1.725 m and one 3.105 m from the side, in what is
/// free for the first (1.70 to 1.75 m) and, upside down, for the second (3.10 to 3.20 m).
#[test]
fn a_strip_by_hand() {
    let job = rectangle([16.0, 4.75], 3, 3.4);
    let wishes = SitingWishes { step_m: Some(0.69), guy_turns: 12, ..of_plans() };
    let found = opened(&job, &wishes);
    let one = amount(&found, |change| match change {
        SitingChange::OneGuyNearer { by_m } => Some(by_m),
        _ => None,
    });
    let all = amount(&found, |change| match change {
        SitingChange::GuysNearer { by_m } => Some(by_m),
        _ => None,
    });
    assert!((one.expect("one guy nearer fits") - 0.4).abs() < 1e-9, "{found:?}");
    assert!((all.expect("all guys nearer fit") - 0.3).abs() < 1e-9, "{found:?}");
    assert!(found.closed.contains(&SitingChange::GuyCount { count: 4 }), "{:?}", found.closed);
    // The least stands first.
    assert!(matches!(found.opened[0].change, SitingChange::GuysNearer { .. }), "{:?}", found.opened);
    // With one guy moved each anchor stands where it stands, two at 3.4 m and one at 3.0 m.
    let moved = found.opened.iter().find(|it| matches!(it.change, SitingChange::OneGuyNearer { .. }));
    let moved = moved.expect("found above");
    let AnchorLayout::Free { anchors } = &moved.rig.guy_levels[0].anchor_layout else {
        panic!("{:?}", moved.rig)
    };
    let mut radii: Vec<f64> = anchors
        .iter()
        .map(|fix| {
            let PointFix::Coordinates { east_m, north_m } = fix else { panic!("{fix:?}") };
            (east_m - moved.place.at_m[0]).hypot(north_m - moved.place.at_m[1])
        })
        .collect();
    radii.sort_by(f64::total_cmp);
    for (radius, by_hand) in radii.iter().zip([3.0, 3.4, 3.4]) {
        assert!((radius - by_hand).abs() < 1e-9, "{radii:?}");
    }
}

/// In cramped yards whose guys reach too far: every opening, put into the job, can be planned without a stop, and one step
/// less of a change of all guys or of the mast opens nothing.
#[test]
fn openings_stand_when_planned_and_are_the_least() {
    let wishes = SitingWishes { step_m: Some(1.2), guy_turns: 4, ..of_plans() };
    let (mut yards, mut checked) = (0, 0);
    for seed in 0..10 {
        // Each yard takes thousands of plans: so many show it.
        if yards >= 4 && checked >= 3 {
            break;
        }
        let mut job = cramped(seed);
        job.units.system = UnitSystem::Metric;
        job.rig.guy_levels[0].anchor_layout = AnchorLayout::EqualRadius { radius_m: 7.5 };
        let surveyed = surveyed(&job);
        if fits(&surveyed, &job, &wishes) {
            continue;
        }
        yards += 1;
        for opening in openings(&surveyed, &job, &wishes).opened {
            let mut changed = job.clone();
            (changed.rig, changed.placement) = (opening.rig.clone(), opening.place.placement.clone());
            let planned = plan::compute(&changed).unwrap_or_else(|errors| panic!("{errors}")).plan;
            let stop = planned.findings.iter().find(|it| it.severity == Severity::Stop);
            assert!(stop.is_none(), "yard {seed}, {:?}: {stop:?}", opening.change);
            if let SitingChange::GuysNearer { by_m } = opening.change {
                let mut less = job.clone();
                less.rig.guy_levels[0].anchor_layout =
                    AnchorLayout::EqualRadius { radius_m: 7.5 - (by_m - 0.1) };
                assert!(!fits(&surveyed, &less, &wishes), "yard {seed}: {by_m} is not the least");
                checked += 1;
            }
        }
    }
    assert!(yards >= 4 && checked >= 3, "{yards} yards without a place, {checked} opened by nearer guys");
}

fn fits(surveyed: &Surveyed, job: &Job, wishes: &SitingWishes) -> bool {
    let mut search = SitingSearch::begin(surveyed, job, wishes).unwrap_or_else(|errors| panic!("{errors}"));
    search.go_on(600).expect("places can be planned");
    !search.answer().expect("places can be planned").best.is_empty()
}

/// Without a boundary nobody knows whether anything fits, and nothing is said to open it.
#[test]
fn what_waits_is_not_opened() {
    let mut job = rectangle([4.6, 4.6], 4, 3.4);
    job.yard.boundary = None;
    let found = opened(&job, &of_plans());
    assert!(found.stopped && found.opened.is_empty() && found.closed.is_empty(), "{found:?}");
}

/// Where the wish alone stands in the way, giving it up is what opens a place: no mast of more than five metres is its own
/// height from every side of a yard of ten.
#[test]
fn a_wish_is_offered_to_be_given_up() {
    let job = rectangle([10.0, 10.0], 3, 3.4);
    let wishes = SitingWishes { step_m: Some(0.5), guy_turns: 4, clear_of_fall: true, ..of_plans() };
    let surveyed = surveyed(&job);
    assert!(!fits(&surveyed, &job, &wishes));
    assert!(fits(&surveyed, &job, &SitingWishes { clear_of_fall: false, ..wishes.clone() }));
    let found = opened(&job, &wishes);
    let given_up = found.opened.iter().any(|it| it.change == SitingChange::FallReaches);
    assert!(given_up, "{found:?}");
}

/// The strip by hand once more, with a second level of guys at the same anchors, told by the angle of its own: still all of them
/// have to come 0.3 m nearer.
#[test]
fn levels_of_two_rules_come_nearer_together() {
    let mut job = rectangle([16.0, 4.75], 3, 3.4);
    let mut steeper = job.rig.guy_levels[0].clone();
    steeper.id = "steeper".into();
    // Nearer to the mast than the others whatever the ground does.
    steeper.attach_height_m -= 1.2;
    steeper.anchor_layout = AnchorLayout::EqualAngle { angle_deg: 55.0 };
    job.rig.guy_levels.insert(0, steeper);
    let wishes = SitingWishes { step_m: Some(0.69), guy_turns: 12, ..of_plans() };
    let found = opened(&job, &wishes);
    let all = found.opened.iter().find(|it| matches!(it.change, SitingChange::GuysNearer { .. }));
    let all = all.unwrap_or_else(|| panic!("{found:?}"));
    let SitingChange::GuysNearer { by_m } = all.change else { panic!("{all:?}") };
    assert!((by_m - 0.3).abs() < 1e-9, "{by_m}");
    for level in &all.rig.guy_levels {
        assert!(matches!(level.anchor_layout, AnchorLayout::Free { .. }), "{level:?}");
    }
}
