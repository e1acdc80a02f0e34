//! Whether the mast can be walked up in the places that a search names.

use mastwright_engine::demo;
use mastwright_engine::job::{Job, Obstacle, PointFix, Shape};
use mastwright_engine::plan;
use mastwright_engine::raising::{WayUpFound, raise_ways, way_up};
use mastwright_engine::siting::{SitingSearch, SitingWayUp, SitingWishes};

use crate::siting::{of_plans, surveyed};

fn looked_closer(job: &Job, wishes: &SitingWishes) -> mastwright_engine::siting::Siting {
    let surveyed = surveyed(job);
    let mut search = SitingSearch::begin(&surveyed, job, wishes).unwrap_or_else(|errors| panic!("{errors}"));
    search.go_on(400).expect("places can be planned");
    search.look_closer(&mut |_, _| true).expect("places can be looked at");
    search.answer().expect("places can be planned")
}

/// A post 3 m high every so many degrees round a place.
fn ringed(job: &mut Job, at: [f64; 2], radius_m: f64, every_deg: u16) {
    let posts = (0..360).step_by(usize::from(every_deg)).map(|degree| {
        let (sin, cos) = f64::from(degree).to_radians().sin_cos();
        let at = PointFix::Coordinates { east_m: at[0] + radius_m * sin, north_m: at[1] + radius_m * cos };
        Obstacle {
            id: format!("post{degree}"),
            name: format!("Post {degree}"),
            shape: Shape::Post { at, radius_m: 0.05, height_m: 3.0, height_sigma_m: None },
            keep_off_m: Some(0.3),
            guy_fixing: None,
        }
    });
    job.yard.obstacles.extend(posts);
}

/// Each way that a place is named with is clear by the look all round, and the mast is planned there.
#[test]
fn the_way_named_is_clear_by_the_look_all_round() {
    let job = demo::lantern_green();
    let wishes = SitingWishes { step_m: Some(4.0), guy_turns: 3, best: 2, ..of_plans() };
    let found = looked_closer(&job, &wishes);
    assert_eq!(found.best.len(), 2);
    for place in &found.best {
        let SitingWayUp::Clear { lies_toward_deg } = place.way_up else { panic!("{:?}", place.way_up) };
        let there = Job { placement: place.placement.clone(), ..job.clone() };
        let computed = plan::compute(&there).expect("it can be placed");
        assert_eq!(way_up(&there, &computed), WayUpFound::Clear { lies_toward_deg });
        let mut own = there.clone();
        own.raising.lies_toward_deg = Some(lies_toward_deg);
        let ways = raise_ways(&own, &computed, &mut |_| true);
        assert!(ways.as_said.expect("all is said").clear, "{lies_toward_deg}");
    }
}

/// Posts 2 m apart in a ring of 4 m: a mast of 9 m stands between them and comes down over one wherever it lies. With the posts of one
/// side gone it comes down there, and nowhere else.
#[test]
fn in_a_ring_of_posts_it_stands_and_cannot_be_walked_up() {
    let mut job = demo::lantern_green();
    job.yard.obstacles.clear();
    let computed = plan::compute(&job).expect("it can be placed");
    let at = [computed.plan.mast.east_m, computed.plan.mast.north_m];
    assert!(matches!(way_up(&job, &computed), WayUpFound::Clear { .. }));
    let mut closed = job.clone();
    ringed(&mut closed, at, 4.0, 10);
    let inside = plan::compute(&closed).expect("it can be placed");
    assert_eq!(way_up(&closed, &inside), WayUpFound::NoneClear { looked_at: 72 });
    let mut open = closed.clone();
    let fallen = [60, 70, 80, 90, 100, 110, 120].map(|degree| format!("post{degree}"));
    open.yard.obstacles.retain(|it| !fallen.contains(&it.id));
    let through = plan::compute(&open).expect("it can be placed");
    let WayUpFound::Clear { lies_toward_deg } = way_up(&open, &through) else {
        panic!("it lies through the gap")
    };
    assert!((70.0..=110.0).contains(&lies_toward_deg), "{lies_toward_deg}");
    // Where nobody said how it turns up nobody knows.
    let mut unsaid = job.clone();
    unsaid.raising.hinge = mastwright_engine::job::Hinge::Unsaid;
    assert_eq!(way_up(&unsaid, &computed), WayUpFound::NotSaid);
}
