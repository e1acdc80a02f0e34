//! How fast the engine is on this machine. The goals are in docs/performance.md.

use divan::{Bencher, black_box};
use mastwright_engine::ground::Surface;
use mastwright_engine::job::{Boundary, Hinge, Job, Obstacle, PointFix, Shape, StrandsInTilt, TiltedTubes};
use mastwright_engine::plan::compute;
use mastwright_engine::raising::raise_ways;
use mastwright_engine::siting::{SitingSearch, SitingWishes};

#[path = "../../tests/support/yardstick.rs"]
mod yardstick;
use yardstick::{YARDSTICK, yardstick};

fn main() {
    divan::main();
}

/// The plan alone. Goal: at most 2 ms.
#[divan::bench]
fn plan_of_the_yardstick(bencher: Bencher) {
    let job = yardstick();
    bencher.bench(|| compute(black_box(&job)).expect("the yardstick has a plan"));
}

/// A surface through many spot heights. Goal: at most 300 ms.
#[divan::bench(sample_count = 10)]
fn surface_from_100_000_heights(bencher: Bencher) {
    let heights = spot_heights();
    bencher.bench(|| Surface::new(black_box(&heights)).expect("they make a surface"));
}

/// A height on that surface. Goal: at most 1 µs, each place far from the one before.
#[divan::bench]
fn height_on_that_surface(bencher: Bencher) {
    let surface = Surface::new(&spot_heights()).expect("they make a surface");
    let mut index = 0;
    bencher.bench_local(|| {
        index += 1;
        surface.height(black_box(place(index * 7_919))).expect("inside the surface")
    });
}

const HEIGHTS: u32 = 100_000;

/// An uneven lawn of 100 m by 100 m; its corners first, so that every place lies inside.
fn spot_heights() -> Vec<[f64; 3]> {
    let corners = [[0.0, 0.0], [100.0, 0.0], [0.0, 100.0], [100.0, 100.0]];
    let places = corners.into_iter().chain((4..HEIGHTS).map(place));
    places.map(|[x, y]| [x, y, 0.1 * x - 0.05 * y + 0.3 * (x / 7.0).sin() * (y / 5.0).cos()]).collect()
}

/// Places that fill the lawn evenly and in no row: the R2 sequence, g³ = g + 1. Source: M. Roberts, The unreasonable
/// effectiveness of quasirandom sequences (2018), from memory.
fn place(index: u32) -> [f64; 2] {
    const G: f64 = 1.324_717_957_244_746;
    let n = f64::from(index % HEIGHTS);
    [(0.5 + n / G).fract() * 100.0, (0.5 + n / (G * G)).fract() * 100.0]
}

/// What the screen asks while a finger drags the mast: the job is in hand, each answer is for another place. The map's
/// static shapes are kept by the asker.
#[divan::bench]
fn api_place_while_dragging(bencher: Bencher) {
    let mut session = mastwright_api::Session::default();
    let job: serde_json::Value = serde_json::from_str(YARDSTICK).expect("JSON");
    let held = session.call("hold_job", &serde_json::json!({ "job": job, "name": "1" }).to_string());
    assert!(held.starts_with("{\"ok\""), "{held}");
    let mut ask = |east_m: f64, static_kept: &serde_json::Value| {
        let mut placement = job["placement"].clone();
        placement["mast"] = serde_json::json!({ "by": "coordinates", "east_m": east_m, "north_m": -2.0 });
        let request = serde_json::json!({
            "held": "1", "placement": placement, "map": { "text_m": 0.5, "static_kept": static_kept }
        });
        let answer = session.call("place", &request.to_string());
        assert!(answer.starts_with("{\"ok\""), "{}", answer.get(..300).unwrap_or(&answer));
        answer
    };
    let first: serde_json::Value = serde_json::from_str(&ask(0.0, &serde_json::Value::Null)).expect("JSON");
    let static_key = first["ok"]["map_static"].clone();
    let mut step = 0;
    bencher.bench_local(|| {
        step += 1;
        ask(0.01 * f64::from(step % 100), black_box(&static_key))
    });
}

/// The same of an asker that sends the whole job each time, as the screens did at 53a387c.
#[divan::bench]
fn api_plan_while_dragging(bencher: Bencher) {
    let request = plan_request(false);
    bencher.bench(|| answered("plan", &request));
}

/// What the screen asks when the finger lifts: map, profile, report and shown texts too.
#[divan::bench]
fn api_plan_with_everything(bencher: Bencher) {
    let request = plan_request(true);
    bencher.bench(|| answered("plan", &request));
}

fn plan_request(report: bool) -> String {
    let job: serde_json::Value = serde_json::from_str(YARDSTICK).expect("JSON");
    let request = serde_json::json!({
        "job": job, "map": { "text_m": 0.5 }, "profile": report, "report": report
    });
    request.to_string()
}

/// 10,000 yards drawn, found and put into words. Goal: at most 250 ms, in wasm 800 ms.
#[divan::bench(sample_count = 20, sample_size = 1)]
fn api_spread_10_000_draws(bencher: Bencher) {
    let job: serde_json::Value = serde_json::from_str(YARDSTICK).expect("JSON");
    let request = serde_json::json!({ "job": job, "draws": 10_000, "seed": 1 }).to_string();
    bencher.bench(|| answered("spread", &request));
}

/// The gust limit of the yardstick from 72 directions, raised and lowered, with rose and words. Goal: at most 50 ms, in wasm
/// 150 ms.
#[divan::bench(sample_count = 50, sample_size = 1)]
fn api_wind_capacity(bencher: Bencher) {
    let job: serde_json::Value = serde_json::from_str(YARDSTICK).expect("JSON");
    let request = serde_json::json!({ "job": job }).to_string();
    bencher.bench(|| answered("wind_capacity", &request));
}

/// The quick rules' answer for [`crowded`] lawn's 40,000 places as a screen gets it first. Goal in wasm: at most 600 ms.
#[divan::bench(sample_count = 10, sample_size = 1)]
fn api_siting_quick_rules_40_000_places(bencher: Bencher) {
    let job = serde_json::to_value(crowded(150)).expect("it can be written");
    let wishes = serde_json::json!({ "step_m": 0.25 });
    let request = serde_json::json!({ "job": job, "wishes": wishes, "plans": 0 }).to_string();
    bencher.bench(|| answered("siting", &request));
}

/// The first coarse answer as a screen gets it, in the step that is taken by itself. Goal: on screen within 100 ms.
#[divan::bench(sample_count = 20, sample_size = 1)]
fn api_siting_first_answer(bencher: Bencher) {
    let job = serde_json::to_value(crowded(150)).expect("it can be written");
    let request = serde_json::json!({ "job": job, "plans": 0 }).to_string();
    bencher.bench(|| answered("siting", &request));
}

/// A refused request would be answered fast and measure nothing.
fn answered(operation: &str, request: &str) -> String {
    let answer = mastwright_api::call(operation, black_box(request));
    assert!(answer.starts_with("{\"ok\""), "{}", answer.get(..300).unwrap_or(&answer));
    answer
}

/// The quick rules of a siting search: 40,000 places at 12 turns among 150 things, three guys. Goal: at most 220 ms on
/// one processor.
#[divan::bench(sample_count = 10)]
fn siting_quick_rules_40_000_places(bencher: Bencher) {
    let job = crowded(150);
    let surveyed = mastwright_engine::plan::survey(&job.yard, job.units).expect("the marks can be placed");
    let wishes = SitingWishes { step_m: Some(0.25), ..SitingWishes::default() };
    bencher.bench(|| {
        SitingSearch::begin(black_box(&surveyed), &job, &wishes).map(|_| ()).expect("it can begin")
    });
}

/// The same 40,000 places as the lawn grows with what stands on it, as thick everywhere.
#[divan::bench(sample_count = 5, args = [10, 100, 1_000, 10_000])]
fn siting_quick_rules_as_the_yard_grows(bencher: Bencher, things: u32) {
    let side_m = 50.0 * (f64::from(things) / 150.0).sqrt();
    let job = crowded_on(side_m, things);
    let surveyed = mastwright_engine::plan::survey(&job.yard, job.units).expect("the marks can be placed");
    let wishes = SitingWishes { step_m: Some(side_m / 200.0), ..SitingWishes::default() };
    bencher.bench(|| {
        SitingSearch::begin(black_box(&surveyed), &job, &wishes).map(|_| ()).expect("it can begin")
    });
}

/// Places planned whole, the best of them moved about: a cramped lawn from the first cell to the answer. Goal: at most 3 s.
#[divan::bench(sample_count = 3)]
fn siting_from_beginning_to_end(bencher: Bencher) {
    let job = crowded(150);
    let surveyed = mastwright_engine::plan::survey(&job.yard, job.units).expect("the marks can be placed");
    bencher.bench(|| {
        let mut search =
            SitingSearch::begin(black_box(&surveyed), &job, &SitingWishes::default()).expect("it can begin");
        while search.go_on(1000).expect("places can be planned") {}
        search.answer().expect("places can be planned").plans
    });
}

/// Every bearing along which the mast can be walked up, among 150 walls, trees and houses. Goal: at most 1 s on one processor.
#[divan::bench(sample_count = 10)]
fn raise_ways_all_round(bencher: Bencher) {
    let mut job = crowded(0);
    let at = |index: u32| {
        let [east_m, north_m] = place(index).map(|x| x / 2.0);
        PointFix::Coordinates { east_m, north_m }
    };
    let tree = |index: u32| Shape::Tree {
        at: at(index),
        trunk_radius_m: 0.2,
        crown_radius_m: 1.5,
        crown_base_m: 2.0,
        height_m: 6.0,
        height_sigma_m: None,
    };
    let post = |index: u32| Shape::Post { at: at(index), radius_m: 0.1, height_m: 3.0, height_sigma_m: None };
    let thing = |index: u32| Obstacle {
        id: format!("t{index}"),
        name: format!("Thing {index}"),
        shape: if index.is_multiple_of(2) { tree(index) } else { post(index) },
        keep_off_m: None,
        guy_fixing: None,
    };
    job.yard.obstacles = (0..150).map(thing).collect();
    job.placement.mast = PointFix::Coordinates { east_m: 25.0, north_m: 25.0 };
    job.raising.hinge = Hinge::Pin { height_m: 0.3 };
    job.raising.tubes = TiltedTubes::DrawnOut;
    job.raising.strands = StrandsInTilt::TiedAlong;
    let computed = compute(&job).expect("it has a plan");
    bencher.bench(|| {
        let ways = raise_ways(black_box(&job), &computed, &mut |_| true);
        assert!(!ways.bearings.is_empty());
        ways
    });
}

/// A lawn of 50 m by 50 m, fallen as the yardstick's, with so many squares of a metre to stay off.
fn crowded(things: u32) -> Job {
    crowded_on(50.0, things)
}

fn crowded_on(side_m: f64, things: u32) -> Job {
    let mut job = yardstick();
    let at = |[east_m, north_m]: [f64; 2]| PointFix::Coordinates { east_m, north_m };
    let square = |[x, y]: [f64; 2], side: f64| {
        [[x, y], [x + side, y], [x + side, y + side], [x, y + side]].map(at).to_vec()
    };
    job.yard.spot_heights.clear();
    job.yard.overhead_lines.clear();
    job.yard.buried_services.clear();
    job.yard.boundary = Some(Boundary { outline: square([0.0, 0.0], side_m) });
    let thing = |index: u32| Obstacle {
        id: format!("t{index}"),
        name: format!("Bed {index}"),
        shape: Shape::KeepOff { outline: square(place(index).map(|x| x / 100.0 * side_m), 1.0) },
        keep_off_m: None,
        guy_fixing: None,
    };
    job.yard.obstacles = (0..things).map(thing).collect();
    job
}

/// A turn of the head, asked as a screen asks it: JSON in, the whole picture out, each time another way. Goal: at most 4 ms,
/// in wasm 10 ms.
#[divan::bench]
fn view_turn_of_the_demo(bencher: Bencher) {
    view_turn(bencher, demo_with_a_standpoint());
}

/// The same among 150 trees, houses, hedges and posts. Goal: the same.
#[divan::bench]
fn view_turn_among_150_things(bencher: Bencher) {
    view_turn(bencher, built_up(150));
}

/// Standing somewhere: the plan, what there is to see, what hides what, the words and the first picture. No goal.
#[divan::bench(sample_count = 20)]
fn view_stand_in_the_demo(bencher: Bencher) {
    let request = stand_request(demo_with_a_standpoint());
    bencher.bench(|| answered("stand", &request));
}

#[divan::bench(sample_count = 20)]
fn view_stand_among_150_things(bencher: Bencher) {
    let request = stand_request(built_up(150));
    bencher.bench(|| answered("stand", &request));
}

fn view_turn(bencher: Bencher, job: serde_json::Value) {
    let mut session = mastwright_api::Session::default();
    let first = session.call("stand", &stand_request(job));
    assert!(first.starts_with("{\"ok\""), "{}", first.get(..300).unwrap_or(&first));
    let mut toward_deg = 0.0;
    bencher.bench_local(|| {
        toward_deg = (toward_deg + 7.0) % 360.0;
        let look =
            serde_json::json!({ "toward_deg": toward_deg, "pitch_deg": 0.0, "aspect": 1.2, "text": 3.6 });
        let answer = session.call("look", &serde_json::json!({ "held": "1", "look": look }).to_string());
        assert!(answer.starts_with("{\"ok\""), "{}", answer.get(..300).unwrap_or(&answer));
        answer
    });
}

fn stand_request(job: serde_json::Value) -> String {
    let look = serde_json::json!({ "aspect": 1.2, "text": 3.6 });
    serde_json::json!({ "job": job, "standpoint": "step", "name": "1", "look": look }).to_string()
}

fn demo_with_a_standpoint() -> serde_json::Value {
    serde_json::to_value(mastwright_engine::demo::lantern_green()).expect("JSON")
}

/// The demo among as many things that stand up, on a lawn of 60 m by 60 m.
fn built_up(things: u32) -> serde_json::Value {
    let at = |[x, y]: [f64; 2]| serde_json::json!({ "by": "coordinates", "east_m": x, "north_m": y });
    let shape = |index: u32| {
        let [x, y] = place(index).map(|part| 0.6 * part - 30.0);
        let outline = [[x, y], [x + 3.0, y], [x + 3.0, y + 2.0], [x, y + 2.0]].map(at);
        match index % 4 {
            0 => serde_json::json!({ "kind": "building", "outline": outline, "height_m": 2.6 }),
            1 => {
                serde_json::json!({ "kind": "tree", "at": at([x, y]), "trunk_radius_m": 0.2, "crown_radius_m": 1.6,
                "crown_base_m": 1.8, "height_m": 5.0 })
            }
            2 => {
                serde_json::json!({ "kind": "barrier", "what": "hedge", "line": [at([x, y]), at([x + 4.0, y + 3.0])],
                "thickness_m": 0.5, "height_m": 1.4 })
            }
            _ => serde_json::json!({ "kind": "post", "at": at([x, y]), "radius_m": 0.1, "height_m": 3.0 }),
        }
    };
    let mut job = demo_with_a_standpoint();
    let thing = |index: u32| serde_json::json!({ "id": format!("t{index}"), "name": format!("Thing {index}"), "shape": shape(index) });
    job["yard"]["obstacles"] = (0..things).map(thing).collect();
    job
}

/// Tubes, stages, lift and base of the demo on the bench, with its plan at hand. Goal: at most 3 ms.
#[divan::bench]
fn workshop_of_the_demo(bencher: Bencher) {
    let job = mastwright_engine::demo::lantern_green();
    let computed = compute(&job).expect("the demo has a plan");
    bencher.bench(|| {
        mastwright_engine::workshop::bench_work(black_box(&job), &computed).expect("its tubes are known")
    });
}

/// The same as a screen asks for it, with the plan before it, words and picture. No goal of its own.
#[divan::bench]
fn api_workshop_of_the_demo(bencher: Bencher) {
    of_the_demo(bencher, "workshop");
}

/// The step cards with every force by angle and a gust for each stage, JSON in, JSON out; asked by their pages alone.
#[divan::bench]
fn api_cards_of_the_demo(bencher: Bencher) {
    of_the_demo(bencher, "cards");
}

/// The lists of what to buy and cut.
#[divan::bench]
fn api_shopping_of_the_demo(bencher: Bencher) {
    of_the_demo(bencher, "shopping");
}

/// Topper, ring and strands as they are sold.
#[divan::bench]
fn api_circles_of_the_demo(bencher: Bencher) {
    of_the_demo(bencher, "circles");
}

fn of_the_demo(bencher: Bencher, operation: &str) {
    let request = serde_json::json!({ "job": mastwright_engine::demo::lantern_green() }).to_string();
    bencher.bench(|| answered(operation, &request));
}

/// Sixty pieces over three stock lengths, each plan proven. Goal: at most 200 ms, in wasm 600 ms.
#[divan::bench(sample_count = 10, sample_size = 1)]
fn cut_sixty_few_kinds(bencher: Bencher) {
    cut_sixty(bencher, "cut_sixty_few_kinds");
}

#[divan::bench(sample_count = 10, sample_size = 1)]
fn cut_sixty_without_saw_cut(bencher: Bencher) {
    cut_sixty(bencher, "cut_sixty_without_saw_cut");
}

#[divan::bench(sample_count = 10, sample_size = 1)]
fn cut_sixty_at_metric_prices(bencher: Bencher) {
    cut_sixty(bencher, "cut_sixty_at_metric_prices");
}

#[divan::bench(sample_count = 10, sample_size = 1)]
fn cut_sixty_of_half_inches(bencher: Bencher) {
    cut_sixty(bencher, "cut_sixty_of_half_inches");
}

fn cut_sixty(bencher: Bencher, row: &str) {
    let asked = mastwright_benches::sixty_pieces(row).expect("such a row");
    bencher.bench(|| mastwright_benches::proven(black_box(&asked)).expect("proven"));
}

/// The workshop's sheets of the demo on A4 from the job to the bytes, [`SET_PAGES`] pages or more. Goal for those: at most
/// 300 ms, in wasm 900 ms.
#[divan::bench(sample_count = 20, sample_size = 1)]
fn pdf_of_the_workshop_sheets(bencher: Bencher) {
    let job = serde_json::to_value(mastwright_engine::demo::lantern_green()).expect("JSON");
    let request = serde_json::json!({ "job": job, "paper": "a4", "set": "workshop" });
    let request: mastwright_api::messages::SheetsRequest =
        serde_json::from_value(request).expect("a request");
    let (document, _) = mastwright_api::run::judged_sheets(&request).expect("the demo can be drawn");
    let pages = document.pages.len();
    assert!(pages >= SET_PAGES, "{pages} pages");
    bencher.bench(|| mastwright_paper::sheets(black_box(&request)).expect("a PDF"));
}

/// The set that the goal speaks of.
const SET_PAGES: usize = 12;
