//! Other patterns of guys: which opens what the job's own leaves closed.

use mastwright_engine::finding::Severity;
use mastwright_engine::job::{AnchorLayout, Job, Placement, PointFix};
use mastwright_engine::plan;
use mastwright_engine::siting::{
    Siting, SitingChange, SitingPatternState, SitingPatterns, SitingSearch, SitingWishes,
};

use crate::siting::{cells, is_open, middle, of_plans, surveyed};
use crate::siting_openings::rectangle;

fn tried(job: &Job, wishes: &SitingWishes) -> (Siting, SitingPatterns) {
    let surveyed = surveyed(job);
    let mut search = SitingSearch::begin(&surveyed, job, wishes).unwrap_or_else(|errors| panic!("{errors}"));
    search.go_on(100_000).expect("places can be planned");
    search.try_patterns(600, &mut |_, _| true).expect("places can be planned");
    let found = search.answer().expect("places can be planned");
    let patterns = found.patterns.clone().expect("they were tried");
    (found, patterns)
}

fn states(patterns: &SitingPatterns) -> Vec<SitingPatternState> {
    let run =
        |[state, count]: &[u32; 2]| std::iter::repeat_n(patterns.states[*state as usize], *count as usize);
    patterns.runs.iter().flat_map(run).collect()
}

fn stops(job: &Job) -> usize {
    let planned = plan::compute(job).unwrap_or_else(|errors| panic!("{errors}")).plan;
    planned.findings.iter().filter(|it| it.severity == Severity::Stop).count()
}

/// A strip 4.9 m deep, three guys 3.4 m out: a triangle of that circle is 1.5 · 3.4 = 5.1 m high, so they fit nowhere; with one
/// anchor 0.7 m nearer (half of four tenths of 3.4 m, in steps of 0.1) it is 4.4 m high and does. Four at the same radius are
/// 4.81 m wide at least, which is less than the strip, but what one nearer guy opens it has already.
#[test]
fn a_strip_has_its_pattern_by_hand() {
    let job = rectangle([16.0, 4.9], 3, 3.4);
    let wishes = SitingWishes { step_m: Some(0.7), guy_turns: 12, ..of_plans() };
    let (found, patterns) = tried(&job, &wishes);
    assert!(found.best.is_empty() && !patterns.stopped);
    let by: Vec<f64> = patterns
        .tried
        .iter()
        .filter_map(|it| match it.change {
            SitingChange::OneGuyNearer { by_m } => Some(by_m),
            _ => None,
        })
        .collect();
    assert!(by.len() == 2 && (by[0] - 0.7).abs() < 1e-9 && (by[1] - 1.3).abs() < 1e-9, "{by:?}");
    let first = &patterns.tried[0];
    assert!(matches!(first.change, SitingChange::OneGuyNearer { .. }) && first.opens_cells > 0, "{first:?}");
    // Its best place, taken over with its parts, is a plan without a stop: two anchors 3.4 m out, one 2.7 m.
    let best = first.best.as_ref().expect("it opens places");
    let taken = Job { rig: best.rig.clone(), placement: best.place.placement.clone(), ..job.clone() };
    assert_eq!(stops(&taken), 0);
    let AnchorLayout::Free { anchors } = &best.rig.guy_levels[0].anchor_layout else { panic!("{best:?}") };
    let mut radii: Vec<f64> = anchors
        .iter()
        .map(|fix| {
            let PointFix::Coordinates { east_m, north_m } = fix else { panic!("{fix:?}") };
            (east_m - best.place.at_m[0]).hypot(north_m - best.place.at_m[1])
        })
        .collect();
    radii.sort_by(f64::total_cmp);
    assert!(radii.iter().zip([2.7, 3.4, 3.4]).all(|(a, b)| (a - b).abs() < 1e-9), "{radii:?}");
    // One farther out fits nowhere.
    let farther = patterns.tried.iter().filter(|it| matches!(it.change, SitingChange::OneGuyFarther { .. }));
    assert!(
        farther.clone().count() == 2 && farther.clone().all(|it| it.best.is_none() && it.opens_cells == 0)
    );
}

/// In a strip that four guys fit into and three do not, four open it, and the cells say so; where the job's own pattern stands
/// no other is named.
#[test]
fn cells_say_which_pattern_opens_them() {
    // 3.4 · √2 = 4.81 m for four on the diagonals; 5.1 m for three. A square end gives three room in the east.
    let mut job = rectangle([16.0, 4.9], 3, 3.4);
    let corners = [[0.0, 0.0], [16.0, 0.0], [16.0, 9.0], [10.0, 9.0], [10.0, 4.9], [0.0, 4.9]];
    job.yard.boundary.as_mut().unwrap().outline =
        corners.map(|[east_m, north_m]| PointFix::Coordinates { east_m, north_m }).to_vec();
    let wishes = SitingWishes { step_m: Some(0.35), guy_turns: 4, ..of_plans() };
    let (found, patterns) = tried(&job, &wishes);
    assert!(!found.best.is_empty());
    let area = found.area.as_ref().unwrap();
    let (mut opened, mut counted) = (0, vec![0; patterns.tried.len()]);
    for (cell, (own, state)) in cells(area).into_iter().zip(states(&patterns)).enumerate() {
        let SitingPatternState::Opens { by } = state else { continue };
        assert!(!is_open(own), "{own:?}");
        counted[by as usize] += 1;
        // In the place that is named the changed parts stand in one turn at least.
        let pattern = &patterns.tried[by as usize];
        let SitingChange::GuyCount { count } = pattern.change else { continue };
        let mut changed = job.clone();
        changed.rig.guy_levels[0].count = count;
        let [east_m, north_m] = middle(area, cell);
        let stands = (0..4).any(|turn| {
            changed.placement = Placement {
                mast: PointFix::Coordinates { east_m, north_m },
                guy_turn_deg: job.placement.guy_turn_deg + 90.0 / 4.0 * f64::from(turn),
                ..job.placement.clone()
            };
            stops(&changed) == 0
        });
        assert!(stands, "{:?}", middle(area, cell));
        opened += 1;
    }
    let told: Vec<u32> = patterns.tried.iter().map(|it| it.opens_cells).collect();
    assert_eq!(counted, told);
    assert!(told.iter().sum::<u32>() > 3, "{told:?} {opened}");
}
