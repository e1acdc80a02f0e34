//! Marks that take more than the plan of a place: the gust limit, the view, the walk; and what is not known.

use mastwright_engine::job::{Cord, Job, PointFix, SoilFeel, Standpoint};
use mastwright_engine::pegging::guide;
use mastwright_engine::plan::{FixedPoints, compute_on_points};
use mastwright_engine::siting::{
    Siting, SitingMerit, SitingPlace, SitingSearch, SitingUnknown, SitingWeights, SitingWishes,
};
use mastwright_engine::view::{YardToSee, eyes_of};
use mastwright_engine::wind_capacity::withstand;

use crate::siting::{bare_square, surveyed};

fn wishes(weights: SitingWeights) -> SitingWishes {
    SitingWishes {
        step_m: Some(2.5),
        guy_turns: 2,
        best: 1,
        apart_m: 4.0,
        weights,
        ..SitingWishes::default()
    }
}

fn standpoint(id: &str, at: [f64; 2]) -> Standpoint {
    Standpoint {
        id: id.to_owned(),
        name: id.to_owned(),
        at: PointFix::Coordinates { east_m: at[0], north_m: at[1] },
        floor_height_m: 0.0,
        eye_height_m: Some(1.6),
        toward_deg: None,
    }
}

/// The bare square with a house in it, two standpoints, and half a cone that opens to the front.
fn seen_square() -> Job {
    let mut job = serde_json::to_value(bare_square()).unwrap();
    let corner = |[e, n]: [f64; 2]| crate::cramped_yard::at([e, n]);
    let outline = [[13.0, 7.0], [15.0, 7.0], [15.0, 13.0], [13.0, 13.0]].map(corner);
    job["yard"]["obstacles"] = serde_json::json!([{ "id": "house", "name": "House", "keep_off_m": 0.3,
        "shape": { "kind": "building", "outline": outline, "height_m": 4.0, "height_sigma_m": null } }]);
    let mut job = mastwright_engine::job::read_job_value(&job).unwrap_or_else(|errors| panic!("{errors}"));
    job.standpoints = vec![standpoint("gate", [19.0, 10.0]), standpoint("step", [10.0, 1.0])];
    let strands = job.rig.strands.as_mut().expect("the yardstick has strands");
    (strands.sweep_deg, strands.facing_turn_deg) = (180.0, 30.0);
    job
}

fn looked_at(job: &Job, weights: SitingWeights) -> Siting {
    let surveyed = surveyed(job);
    let mut search =
        SitingSearch::begin(&surveyed, job, &wishes(weights)).unwrap_or_else(|errors| panic!("{errors}"));
    search.go_on(100_000).expect("places can be planned");
    search.look_closer(&mut |_, _| true).expect("places can be planned");
    search.answer().expect("places can be planned")
}

fn mark(place: &SitingPlace, merit: SitingMerit) -> (Option<f64>, Option<SitingUnknown>) {
    let found = place.score.marks.iter().find(|mark| mark.merit == merit).expect("it counts");
    (found.mark, found.unknown.clone())
}

/// Each place planned as a job of its own: the least of its rose, what shows from both standpoints, the guide's walk; from
/// them the marks by the scales of the page of methods, and from all marks the total.
#[test]
fn marks_of_the_best_places_by_hand() {
    let job = seen_square();
    let weights = SitingWeights { walking: 0.7, ..SitingWeights::default() };
    let found = looked_at(&job, weights);
    assert_eq!(found.best.len(), 1);
    let surveyed = surveyed(&job);
    for place in &found.best {
        let placed = Job { placement: place.placement.clone(), ..job.clone() };
        let points = FixedPoints::of(&surveyed, &placed);
        let computed =
            compute_on_points(&surveyed, &points, &placed).unwrap_or_else(|errors| panic!("{errors}"));
        let rose = withstand(&placed, &computed.layout, &mut |_, _, _| true);
        let least = rose.raised.least.expect("all of it is known").gust_m_per_s;
        let told = place.score.gust_limit.as_ref().expect("all of it is known");
        assert!((told.gust_m_per_s - least).abs() < 1e-9, "{told:?} {least}");
        let wind = ((least - 10.0) / 20.0).clamp(0.0, 1.0);
        let yard = YardToSee::of(&placed, &computed);
        let mut view = 0.0;
        for standpoint in &job.standpoints {
            let eyes = eyes_of(&surveyed, standpoint, "").expect("it can be found");
            let share = yard.seen_from(&eyes).cone.expect("there are strands").share;
            let away = [eyes.east_m - place.at_m[0], eyes.north_m - place.at_m[1]];
            let toward_deg = away[0].atan2(away[1]).to_degrees();
            let off_deg = toward_deg - place.placement.front_bearing_deg - 30.0;
            view += share * (1.0 + off_deg.to_radians().cos()) / 2.0 / 2.0;
        }
        let walk_m = guide(&surveyed, &points, &placed, &computed).walk_m;
        assert!((place.score.walk_m.expect("two marks") - walk_m).abs() < 1e-9);
        let walking = (1.0 - (walk_m - 50.0) / 350.0).clamp(0.0, 1.0);
        for (merit, by_hand) in
            [(SitingMerit::Wind, wind), (SitingMerit::View, view), (SitingMerit::Walking, walking)]
        {
            let (given, _) = mark(place, merit);
            assert!((given.expect("it is known") - by_hand).abs() < 1e-9, "{merit:?} {given:?} {by_hand}");
        }
        let marks = &place.score.marks;
        let of = |merit: SitingMerit| marks.iter().find(|it| it.merit == merit).unwrap().mark.unwrap();
        use SitingMerit::{Clearance, Fall, GuyAngles, LowFoot, Ties, View, Walking, Wind};
        let sum = 2.0 * of(Clearance) + of(LowFoot) + of(GuyAngles) + of(Fall) + of(Ties);
        let total = (sum + 2.0 * of(Wind) + of(View) + 0.7 * of(Walking)) / 9.7;
        assert!(
            (place.score.total - total).abs() < 1e-12 && place.score.not_known == 0.0,
            "{:?}",
            place.score
        );
    }
}

/// With nearly all weight on the view the places stand in the order of what is seen of them, and the totals are those marks;
/// what has no weight is not looked at.
#[test]
fn weights_put_the_places_in_order() {
    let job = seen_square();
    let mut weights = SitingWeights::default();
    SitingMerit::ALL.into_iter().for_each(|other| weights.set(other, 0.0));
    weights.set(SitingMerit::View, 1.0);
    let surveyed = surveyed(&job);
    let wishes = SitingWishes { best: 4, ..wishes(weights) };
    let mut search =
        SitingSearch::begin(&surveyed, &job, &wishes).unwrap_or_else(|errors| panic!("{errors}"));
    search.go_on(100_000).expect("places can be planned");
    search.look_closer(&mut |_, _| true).expect("places can be planned");
    let best = search.answer().expect("places can be planned").best;
    let marks: Vec<f64> = best.iter().map(|place| mark(place, SitingMerit::View).0.expect("known")).collect();
    assert!(marks.len() == 4 && marks.windows(2).all(|pair| pair[0] >= pair[1]), "{marks:?}");
    assert!(marks[0] > marks[3] + 0.01, "{marks:?}");
    for (place, mark) in best.iter().zip(marks) {
        assert!(
            (place.score.total - mark).abs() < 1e-12 && place.score.marks.len() == 1,
            "{:?}",
            place.score
        );
        assert!(place.score.gust_limit.is_none() && place.score.walk_m.is_none());
    }
    // Stopped after the first of those looked at, the others have no mark yet.
    let mut stopped = SitingSearch::begin(&surveyed, &job, &wishes).unwrap();
    stopped.go_on(100_000).unwrap();
    stopped.look_closer(&mut |done, _| done < 1).unwrap();
    let best = stopped.answer().unwrap().best;
    assert_eq!(best.iter().filter(|it| it.score.not_known == 0.0).count(), 1);
    assert_eq!(mark(&best[3], SitingMerit::View), (None, Some(SitingUnknown::NotLookedAt)));
}

/// What nobody entered has no mark, says what is missing, and adds nothing to the total; what was known stays as it was.
#[test]
fn what_is_not_known_is_never_good() {
    let mut job = seen_square();
    job.standpoints.clear();
    job.yard.soil = SoilFeel::Unknown;
    job.yard.obstacles.clear();
    job.rig.strands.as_mut().unwrap().cord = Cord { diameter_mm: None, ..Cord::default() };
    let found = looked_at(&job, SitingWeights::default());
    for place in &found.best {
        let score = &place.score;
        assert_eq!(mark(place, SitingMerit::View), (None, Some(SitingUnknown::NoStandpoint)));
        let (wind, why) = mark(place, SitingMerit::Wind);
        let Some(SitingUnknown::NoGustLimit { missing }) = why else { panic!("{why:?}") };
        assert!(wind.is_none() && score.gust_limit.is_none() && !missing.is_empty());
        // 2 of 9.5 on the wind and 1 on the view.
        let more = score.marks.iter().filter(|it| it.mark.is_none()).map(|it| it.weight).sum::<f64>() / 9.5;
        assert!(score.not_known >= 3.0 / 9.5 - 1e-12 && (score.not_known - more).abs() < 1e-12, "{score:?}");
        let sum: f64 = score.marks.iter().filter_map(|it| it.mark.map(|mark| mark * it.weight)).sum();
        assert!((score.total - sum / 9.5).abs() < 1e-12 && score.total <= 1.0 - score.not_known + 1e-12);
    }
    let mut unmeasured = seen_square();
    unmeasured.yard.slopes.clear();
    let weights = SitingWeights { wind: 0.0, ..SitingWeights::default() };
    for place in &looked_at(&unmeasured, weights).best {
        for merit in [SitingMerit::LowFoot, SitingMerit::GuyAngles] {
            assert_eq!(mark(place, merit), (None, Some(SitingUnknown::GroundNotMeasured)));
        }
    }
    // Before it is looked at nothing is said of it.
    let surveyed = surveyed(&job);
    let mut search = SitingSearch::begin(&surveyed, &job, &wishes(SitingWeights::default())).unwrap();
    search.go_on(100_000).unwrap();
    for place in search.answer().unwrap().best {
        assert_eq!(mark(&place, SitingMerit::Walking), (None, Some(SitingUnknown::NotLookedAt)));
    }
}
