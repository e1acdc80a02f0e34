//! Random jobs, each turned with everything in it: the same limit from the same side, raised and lowered. Five hundred
//! of them by `cargo xtask sweep-wind`.

use mastwright_engine::finding::wind::Collapse;
use mastwright_engine::job::{Job, Shape, SpotHeight};
use mastwright_engine::plan::{Layout, compute};
use mastwright_engine::structure::{Outcome, Solver};
use mastwright_engine::wind_capacity::parts::parts;
use mastwright_engine::wind_capacity::rose::{bearings_round, blows_to};
use mastwright_engine::wind_capacity::search::{Search, Windy};
use mastwright_engine::wind_capacity::standing::Standing;
use mastwright_engine::wind_capacity::{MastHeight, WindQuestion, air, wind_table};

use crate::bumpy_yard::{at, fixes, thing};
use crate::moved::Move;
use crate::random_jobs::{Chance, random_job};

/// Nine directions of the 72 that `cargo xtask sweep-wind` compares: what a limit is must not hang on which others are
/// looked at, and all of them would take eight times as long.
const DIRECTIONS: u32 = 9;
const APART_DEG: f64 = 40.0;
const HEIGHTS: [MastHeight; 2] = [MastHeight::Raised, MastHeight::Lowered];

/// The largest gust from each direction, begun at a bearing, as the rose finds it: each with what it knows from the one
/// before.
fn limits(job: &Job, layout: &Layout, height: MastHeight, first_deg: f64) -> Vec<f64> {
    let standing = Standing::of(job, layout, height);
    let parts = parts(&standing);
    let (mut search, mut guess): (Option<Search>, f64) = (None, 100.0);
    let mut limit = |index: u32| {
        let from_deg = (first_deg + APART_DEG * f64::from(index)) % 360.0;
        let mut windy = Windy::new(&standing, &air::route(job), blows_to(from_deg)).expect("a structure");
        let search = search.get_or_insert_with(|| Search::new(&parts, &mut windy));
        let gust_squared = search.limit(&mut windy, guess).gust_squared;
        guess = if gust_squared > 0.0 { gust_squared } else { guess };
        gust_squared.sqrt()
    };
    (0..DIRECTIONS).map(&mut limit).collect()
}

/// A limit of nothing only where the mast falls or a part is fully used, in 1 m/s or in still air, and it is settled.
fn nothing_is_so(job: &Job, layout: &Layout, height: MastHeight, from_deg: f64) {
    let table = |gust_m_per_s: f64| {
        let question = WindQuestion { height, gust_m_per_s, from_deg: Some(from_deg) };
        wind_table(job, layout, &question).expect("a structure")
    };
    let is_full = |gust_m_per_s: f64| {
        let table = table(gust_m_per_s);
        let settled = table.falls_because != Some(Collapse::NotSettled);
        assert!(settled, "{height:?} from {from_deg}°: {:?}", table.falls_because);
        let uses = table.parts.iter().filter_map(|part| part.utilisation);
        table.falls_because.is_some() || uses.fold(0.0, f64::max) >= 0.999
    };
    assert!(is_full(1.0) || is_full(0.0), "{height:?} from {from_deg}°: 0, though it stands at 1 m/s");
}

/// Each by its own direction turned with everything.
fn holds_turned(what: &str, job: &Job, turns_deg: &[f64]) {
    let layout = |job: &Job| compute(job).expect("a place for the mast").layout;
    let here = layout(job);
    let before = HEIGHTS.map(|height| limits(job, &here, height, 0.0));
    for &by_deg in turns_deg {
        let turned = Move::Turn { by_deg }.job(job);
        let there = layout(&turned);
        for (height, before) in HEIGHTS.into_iter().zip(&before) {
            for (index, (a, b)) in before.iter().zip(limits(&turned, &there, height, by_deg)).enumerate() {
                assert!(
                    (a - b).abs() <= 2e-3 * a.max(b),
                    "{what}, {height:?}, from {}°, turned by {by_deg}°: {a} m/s, then {b}",
                    APART_DEG * index as f64
                );
            }
        }
    }
    for (height, before) in HEIGHTS.into_iter().zip(&before) {
        if let Some(index) = before.iter().position(|gust| *gust <= 0.0) {
            nothing_is_so(job, &here, height, APART_DEG * index as f64);
        }
    }
}

/// By two multiples of 5°.
fn all_hold_turned(seeds: &[u64]) {
    for &seed in seeds {
        let mut chance = Chance::new(seed ^ 0xABCD);
        let turns_deg = [(); 2].map(|()| 5.0 * f64::from(chance.whole(1, 71)));
        holds_turned(&format!("job {seed}"), &random_job(seed), &turns_deg);
    }
}

// Three tests of ten jobs each, to be run side by side.

/// Before, a limit of 0 was made of most of these by rounding, turned this way or that.
#[test]
fn turned_jobs_that_rounding_once_made_fall() {
    all_hold_turned(&[2, 9, 10, 18, 20, 26, 30, 102, 125, 162]);
}

/// Before, how these came to rest hung on the way there: two screwed tubes run down into a third, a lean of half a
/// radian, a bow left over from the direction before.
#[test]
fn turned_jobs_that_once_rested_elsewhere() {
    all_hold_turned(&[39, 54, 67, 80, 84, 135, 137, 141, 179, 258]);
}

#[test]
fn turned_jobs_as_they_come() {
    all_hold_turned(&[3, 4, 5, 6, 8, 11, 13, 14, 15, 16]);
}

/// The same with ground that is no plane, known by heights measured here and there, and with things about.
#[test]
fn a_turned_job_on_rough_ground_has_the_turned_limit() {
    let mut job = random_job(13);
    let layout = compute(&job).expect("a place").layout;
    let [east, north] = [layout.mast.east_m, layout.mast.north_m];
    let mut chance = Chance::new(5);
    for index in 0..18 {
        let around = [east + chance.between(-9.0, 9.0), north + chance.between(-9.0, 9.0)];
        job.yard.spot_heights.push(SpotHeight {
            id: format!("h{index}"),
            at: at(around),
            height_m: chance.between(-0.6, 0.6),
            sigma_m: None,
            struck: false,
        });
    }
    let outline = [[14.0, 2.0], [17.0, 2.0], [17.0, 6.0]].map(|[x, y]| [east + x, north + y]);
    job.yard.obstacles.push(thing("bed", Shape::KeepOff { outline: fixes(&outline) }));
    holds_turned("rough ground", &job, &[35.0, 80.0, 285.0]);
}

/// The whole mast's limit is found to a tenth of a per cent: a wind that rises by a hundredth of a per cent at a time,
/// from still air, has it stand in 1.65 times the limit's pressure and fall within two tenths of a per cent above.
#[test]
fn the_whole_mast_falls_just_above_its_limit() {
    let job = random_job(80);
    let layout = compute(&job).expect("a place for the mast").layout;
    let standing = Standing::of(&job, &layout, MastHeight::Raised);
    let parts = parts(&standing);
    let mut seen = 0;
    for from_deg in [60.0, 85.0, 240.0, 255.0] {
        let mut windy = Windy::new(&standing, &air::route(&job), blows_to(from_deg)).expect("a structure");
        let mut search = Search::new(&parts, &mut windy);
        let limit = search.limit(&mut windy, 100.0);
        if limit.part != search.whole() {
            continue;
        }
        seen += 1;
        let fall = 1.65 * limit.gust_squared;
        let mut solver = Solver::new(&windy.model);
        let mut stood = 0.0;
        let coarse = (0..100).map(|step| 0.99 * fall * f64::from(step) / 99.0);
        let fine = (1..).map(|step| fall * (0.99 + 2e-4 * f64::from(step)));
        for gust_squared in coarse.chain(fine) {
            windy.loads.set(&mut windy.case, gust_squared);
            if !matches!(solver.solve(&windy.model, &windy.case), Outcome::Stands(_)) {
                break;
            }
            stood = gust_squared;
        }
        let (limit, stood) = (fall.sqrt(), f64::sqrt(stood));
        assert!(
            stood >= limit * (1.0 - 1e-3) && stood <= limit * (1.0 + 2e-3),
            "from {from_deg}°: stands in {stood}, told {limit}"
        );
    }
    assert!(seen > 0);
}

/// Ice comes onto ropes that were set without it. Before, a rope of the iced weight had to hold itself up at the tension
/// set, and these jobs, whose ropes or strands are set to little, had no structure.
#[test]
fn iced_ropes_set_to_little_have_a_structure() {
    for seed in [17, 100, 209, 278, 409] {
        let job = random_job(seed);
        assert!(job.wind.ice_mm > 0.0);
        let layout = compute(&job).expect("a place for the mast").layout;
        for height in HEIGHTS {
            let standing = Standing::of(&job, &layout, height);
            for from_deg in [0.0, 100.0] {
                let windy = Windy::new(&standing, &air::route(&job), blows_to(from_deg));
                assert!(windy.is_ok(), "job {seed}, {height:?}: {:?}", windy.err());
            }
        }
    }
}

/// The round of directions begins beside the first guy, wherever the yard lies: before, it began at north, and each
/// direction knew another one before it.
#[test]
fn the_round_turns_with_the_yard() {
    for seed in [2, 9, 171] {
        let job = random_job(seed);
        let round = |job: &Job| -> Vec<f64> {
            let layout = compute(job).expect("a place for the mast").layout;
            bearings_round(&Standing::of(job, &layout, MastHeight::Raised), 72).collect()
        };
        let here = round(&job);
        for by_deg in [5.0, 130.0, 355.0] {
            let there = round(&Move::Turn { by_deg }.job(&job));
            for (a, b) in here.iter().zip(&there) {
                let off = (b - a - by_deg).rem_euclid(360.0);
                assert!(off.min(360.0 - off) < 1e-9, "job {seed}, turned by {by_deg}°: from {a}°, then {b}°");
            }
        }
    }
}

/// What still air does to a direction is the same bit by bit whatever was looked at before: the mast begins it as it was
/// set up.
#[test]
fn a_direction_begins_with_the_mast_as_it_was_set_up() {
    let mut seen = 0;
    for seed in [1, 5, 7, 23, 39, 54, 67, 135] {
        let job = random_job(seed);
        let layout = compute(&job).expect("a place for the mast").layout;
        let standing = Standing::of(&job, &layout, MastHeight::Lowered);
        let parts = parts(&standing);
        let windy =
            |from_deg| Windy::new(&standing, &air::route(&job), blows_to(from_deg)).expect("a structure");
        let (mut before, mut here, mut again) = (windy(20.0), windy(60.0), windy(60.0));
        let mut search = Search::new(&parts, &mut before);
        if search.limit(&mut before, 100.0).gust_squared <= 0.0 {
            continue;
        }
        seen += 1;
        // Up to a wind that bends it well.
        search.at(&mut before, 30.0);
        let (after, fresh) = (search.begin(&mut here), Search::new(&parts, &mut again).begin(&mut again));
        assert_eq!(
            after.utilisation.to_bits(),
            fresh.utilisation.to_bits(),
            "job {seed}: {after:?} {fresh:?}"
        );
    }
    assert!(seen > 4, "{seen}");
}

/// A part that still air uses up with the spans bent one way only makes the limit nothing: the table, which tries every
/// way, says so too.
#[test]
fn still_air_counts_in_every_shape() {
    let (mut seen, mut begun) = (0, 0);
    for seed in [22, 29, 35, 36, 38, 39] {
        let job = random_job(seed);
        let layout = compute(&job).expect("a place for the mast").layout;
        for height in HEIGHTS {
            let standing = Standing::of(&job, &layout, height);
            let parts = parts(&standing);
            for from_deg in [0.0, 60.0, 120.0, 180.0, 240.0, 300.0] {
                let windy =
                    || Windy::new(&standing, &air::route(&job), blows_to(from_deg)).expect("a structure");
                let (mut one, mut all) = (windy(), windy());
                let in_one = Search::new(&parts, &mut one).at(&mut one, 0.0).utilisation;
                let question = WindQuestion { height, gust_m_per_s: 0.0, from_deg: Some(from_deg) };
                let table = wind_table(&job, &layout, &question).expect("a structure");
                let uses = table.parts.iter().filter_map(|part| part.utilisation);
                let in_any = if table.falls_because.is_some() { 2.0 } else { uses.fold(0.0, f64::max) };
                if in_one >= 1.0 || in_any < 1.001 {
                    continue;
                }
                seen += 1;
                let mut search = Search::new(&parts, &mut all);
                // Told already where a direction begins, before any wind is looked at, where much is used in one shape.
                if in_one >= 0.5 {
                    begun += 1;
                    let worst = search.begin(&mut all).utilisation;
                    assert!(
                        worst >= 1.0,
                        "job {seed}, {height:?}, from {from_deg}°: {in_one}, {worst}, {in_any}"
                    );
                }
                let limit = search.limit(&mut all, 100.0).gust_squared;
                assert!(
                    limit <= 0.0,
                    "job {seed}, {height:?}, from {from_deg}°: {in_one}, {in_any}, {limit}"
                );
            }
        }
    }
    assert!(seen > 0 && begun > 0, "{seen} {begun}");
}
