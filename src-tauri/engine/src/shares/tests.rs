//! Shares against the plan's own derivatives and intervals, and sums by hand.

use super::*;
use crate::finding::Subject;
use crate::job::{BearingReference, SlopeReading};
use crate::numerics::random::Random;
use crate::quantity::{UnitSystem, Units};

fn all(job: &Job) -> ReadingShares {
    reading_shares(job, &mut |_, _| true).expect("it can be placed")
}

/// Where nothing is off, everything comes out as planned.
#[test]
fn nothing_off_is_the_plan() {
    let job = crate::demo::lantern_green();
    let plan = compute(&as_set_out(&job)).unwrap().plan;
    let set_out = SetOut::of(&job, &plan);
    let values = set_out.values(&mut |_| 0.0).unwrap();
    let mut at = 0;
    for of in &set_out.asked {
        let value = values[at].expect("it is there");
        let planned = of.planned_m(&plan);
        match of {
            SharedOf::AnchorPlace { guy } => {
                let guy = plan.guys.iter().find(|it| it.id == *guy).unwrap();
                let north = values[at + 1].unwrap();
                assert!((value - guy.east_m).abs() < 1e-6 && (north - guy.north_m).abs() < 1e-6, "{guy:?}");
            }
            _ => assert!((value - planned).abs() < 1e-6, "{of:?}: {value} and {planned}"),
        }
        at += of.values();
    }
    assert_eq!(at, values.len());
}

/// Ground that nobody measured, or only one way: what is not known comes from no reading, and no part of it is told.
#[test]
fn no_share_is_told_on_ground_that_nobody_measured() {
    let mut job = crate::demo::lantern_green();
    job.yard.spot_heights.clear();
    let slopes = std::mem::take(&mut job.yard.slopes);
    for count in [0, 1] {
        job.yard.slopes = slopes[..count].to_vec();
        let found = all(&job);
        assert_eq!(found, ReadingShares::default(), "{count} slopes");
        let report = crate::report::shares(&job, &compute(&job).unwrap(), &found);
        assert!(
            report.headline.starts_with("Not known yet: nobody measured the ground both ways"),
            "{}",
            report.headline
        );
        assert!(report.sections.is_empty() && report.best.is_none());
    }
}

/// What all errors together make of the guys is the ± that the plan gives them, which comes from covariances. Under the legs the plan's ±
/// holds besides that a base on doubtful ground stands rather higher than lower: it is no narrower.
#[test]
fn all_shares_together_are_the_plan_s_own_interval() {
    let mut compared = 0;
    for job in [crate::demo::lantern_green(), crate::demo::yardstick()] {
        let plan = compute(&as_set_out(&job)).unwrap().plan;
        for number in &all(&job).numbers {
            let together: f64 = number.shares.iter().map(|it| it.share).sum();
            assert!((together - 1.0).abs() < 1e-9, "{number:?}");
            let Some(plan_95_m) = number.of.plan_95_m(&plan) else { continue };
            let ratio = number.half_width_95_m / plan_95_m;
            println!("{:?}: {:.5} of {plan_95_m:.5}, {ratio:.3}", number.of, number.half_width_95_m);
            for share in number.shares.iter().take(5) {
                println!("   {:.3} {:?}", share.share, share.of);
            }
            let allowed = match number.of {
                SharedOf::Foot { .. } => 0.4..1.15,
                _ => 0.87..1.13,
            };
            assert!(allowed.contains(&ratio), "{:?}: {ratio}", number.of);
            compared += 1;
        }
    }
    assert!(compared >= 12, "{compared}");
}

/// The other way: each error moved alone by half its standard uncertainty to either side, the plan's own derivative. Anchors and distances
/// answer to it as to the curves through the draws, within two hundredths. Feet, and the guys of the mast that stands on them, do not: turned
/// to either side the base stands higher, so the derivative at the planned point is none. They are held below.
#[test]
fn shares_are_those_of_the_plan_s_derivatives() {
    let job = crate::demo::yardstick();
    let plan = compute(&as_set_out(&job)).unwrap().plan;
    let set_out = SetOut::of(&job, &plan);
    let errors = errors_of(&set_out).unwrap();
    let step = |at: usize, by: f64| {
        // That error alone.
        let mut numbers = (0..errors.len()).map(|other| if other == at { by } else { 0.0 });
        let values = set_out.values(&mut |_| numbers.next().expect("as many as there are")).unwrap();
        values.into_iter().map(|it| it.unwrap_or(f64::NAN)).collect::<Vec<f64>>()
    };
    let answers: Vec<Vec<f64>> = (0..errors.len())
        .map(|at| step(at, 0.5).iter().zip(step(at, -0.5)).map(|(high, low)| high - low).collect())
        .collect();
    let (mut first, mut worst) = (0, 0.0_f64);
    for number in &all(&job).numbers {
        let mut parts: BTreeMap<&ErrorOf, f64> = BTreeMap::new();
        for value in first..first + number.of.values() {
            for (of, answered) in errors.iter().zip(&answers) {
                *parts.entry(of).or_default() += answered[value] * answered[value];
            }
        }
        first += number.of.values();
        if matches!(number.of, SharedOf::Foot { .. } | SharedOf::GuyLength { .. }) {
            continue;
        }
        let variance: f64 = parts.values().sum();
        for (of, part) in parts {
            let share = number.shares.iter().find(|it| it.of == *of).map_or(0.0, |it| it.share);
            let off = (share - part / variance).abs();
            // The pipe's first point hangs on two tapes that nearly run along one line.
            let bent = matches!(&number.of, SharedOf::Distance { to: Subject::BuriedService { .. }, .. });
            worst = if bent { worst } else { worst.max(off) };
            assert!(
                off < if bent { 0.15 } else { 0.02 },
                "{:?} by {of:?}: {share} {}",
                number.of,
                part / variance
            );
        }
    }
    println!("{} errors, furthest off by {worst:.4}", errors.len());
}

/// Another way to the same indices, without any curve: pairs of yards that have nothing in common but one reading's errors; how much what
/// comes out of both goes together is that reading's share (Sobol' 2001). For the heaviest reading of each foot, from 500 pairs, which
/// tell it to some five hundredths.
#[test]
fn shares_are_those_of_pairs_that_have_one_error_in_common() {
    let job = crate::demo::yardstick();
    let plan = compute(&as_set_out(&job)).unwrap().plan;
    let set_out = SetOut::of(&job, &plan);
    let errors = errors_of(&set_out).unwrap();
    let mut random = Random::seeded(5);
    let mut yard = || (0..errors.len()).map(|_| random.normal()).collect::<Vec<f64>>();
    let yards: Vec<[Vec<f64>; 2]> = (0..500).map(|_| [yard(), yard()]).collect();
    let values = |errors: &[f64]| {
        let mut numbers = errors.iter().copied();
        let found = set_out.values(&mut |_| numbers.next().expect("as many as there are")).ok()?;
        found.into_iter().collect::<Option<Vec<f64>>>()
    };
    let pairs = |of: &ErrorOf| -> Vec<[Vec<f64>; 2]> {
        let mixed = yards.iter().filter_map(|[first, second]| {
            let kept = |(at, own): (usize, &f64)| if errors[at] == *of { first[at] } else { *own };
            let other: Vec<f64> = second.iter().enumerate().map(kept).collect();
            Some([values(first)?, values(&other)?])
        });
        mixed.collect()
    };
    let mut known: BTreeMap<ErrorOf, Vec<[Vec<f64>; 2]>> = BTreeMap::new();
    let mut feet = 0;
    for (value, number) in all(&job).numbers.iter().enumerate() {
        if !matches!(number.of, SharedOf::Foot { .. }) {
            continue;
        }
        let heaviest = number.shares.iter().find(|it| it.of != ErrorOf::Together).expect("something is off");
        let drawn = known.entry(heaviest.of.clone()).or_insert_with(|| pairs(&heaviest.of));
        let count = drawn.len() as f64;
        assert!(count > 400.0, "{count}");
        let mean = |side: usize| drawn.iter().map(|pair| pair[side][value]).sum::<f64>() / count;
        let means = [mean(0), mean(1)];
        let off = |pair: &[Vec<f64>; 2], side: usize| pair[side][value] - means[side];
        let spread = |side: usize| drawn.iter().map(|pair| off(pair, side) * off(pair, side)).sum::<f64>();
        let together: f64 = drawn.iter().map(|pair| off(pair, 0) * off(pair, 1)).sum();
        let share = together / (spread(0) * spread(1)).sqrt();
        println!("{:?} by {:?}: {:.3} and {share:.3}", number.of, heaviest.of, heaviest.share);
        assert!((share - heaviest.share).abs() < 0.12, "{:?}: {share} {heaviest:?}", number.of);
        feet += 1;
    }
    assert!(feet >= 2);
}

fn plain() -> Job {
    let mut job = crate::job::blank(Units { system: UnitSystem::Metric, inch_fraction: 16 });
    job.yard.bearings = BearingReference::True;
    job
}

fn slope(id: &str, bearing_deg: f64, slope_deg: f64) -> SlopeReading {
    SlopeReading { id: id.into(), bearing_deg, slope_deg, sigma_deg: None, struck: false }
}

/// By hand: level ground read once along the front leg and once across it. The front foot's height answers to the slope along it alone:
/// nearly all of its ± is that one reading; of the right leg's it is the one across. Bearings say nothing on level ground.
#[test]
fn a_foot_s_share_is_the_slope_along_it() {
    let mut job = plain();
    job.yard.slopes = vec![slope("along", 0.0, 0.0), slope("across", 90.0, 0.0)];
    job.placement.front_bearing_deg = 0.0;
    let found = all(&job);
    for (leg, id) in [("front", "along"), ("right", "across")] {
        let foot = found.numbers.iter().find(|it| it.of == SharedOf::Foot { leg: leg.into() });
        let Some(foot) = foot else { continue };
        let first = &foot.shares[0];
        assert!(matches!(&first.of, ErrorOf::Slope { id: of, .. } if of == id), "{leg}: {:?}", foot.shares);
        assert!(first.share > 0.45, "{leg}: {:?}", foot.shares);
    }
    assert!(found.numbers.iter().any(|it| matches!(it.of, SharedOf::Foot { .. })));
    // Nothing of bearings: a level plane has no direction.
    let turn = |it: &&ErrorShare| matches!(it.of, ErrorOf::SetOutTurn);
    let feet = found.numbers.iter().filter(|it| matches!(it.of, SharedOf::Foot { .. }));
    assert!(feet.flat_map(|it| it.shares.iter().filter(turn)).all(|it| it.share < 0.02));
}

/// What one more reading does is what the plan with it says; and the best one is better than none by a twentieth at least.
#[test]
fn one_more_slope_does_what_the_plan_with_it_says() {
    let mut job = plain();
    job.yard.slopes = vec![slope("along", 0.0, 4.0), slope("across", 90.0, 1.0)];
    let found = all(&job);
    let best = found.best.as_ref().expect("two slopes are few");
    let reading = &found.readings[best.reading as usize];
    let mut with = job.clone();
    let plan = compute(&job).unwrap().plan;
    match reading {
        FurtherReading::Slope { reading_deg, .. } => {
            let [east, north] = crate::quantity::bearing::unit(*reading_deg);
            let gradient = compute(&job).unwrap().ground.plane.gradient;
            let along_deg =
                crate::numerics::real::atan(gradient[0] * east + gradient[1] * north).to_degrees();
            with.yard.slopes.push(slope("more", *reading_deg, along_deg));
        }
        FurtherReading::Again { of: ErrorOf::Slope { number, .. } } => {
            let again = job.yard.slopes[*number as usize].clone();
            with.yard.slopes.push(SlopeReading { id: "more".into(), ..again });
        }
        FurtherReading::Height { east_m, north_m, .. } => {
            println!("a height at {east_m} {north_m}");
            return;
        }
        other => panic!("{other:?}"),
    }
    let after = compute(&with).unwrap().plan;
    for gain in &best.gains {
        let of = &found.numbers[gain.number as usize].of;
        assert!((gain.before_95_m - of.plan_95_m(&plan).unwrap()).abs() < 1e-12, "{of:?}");
        assert!((gain.after_95_m / of.plan_95_m(&after).unwrap() - 1.0).abs() < 0.02, "{of:?} {gain:?}");
    }
}

/// A height of ± that was sighted is half as sure as twice sighted: by hand, with its whole share s, ±·√(1 − s/2).
#[test]
fn what_hangs_on_no_network_is_averaged() {
    let job = crate::demo::lantern_green();
    let found = all(&job);
    let mut seen = 0;
    for number in &found.numbers {
        let Some(further) = &number.further else { continue };
        let FurtherReading::Again { of } = &found.readings[further.reading as usize] else { continue };
        if matches!(number.of, SharedOf::Distance { .. }) {
            let own = number.shares.iter().find(|it| it.of == *of).expect("it has a share").share;
            let by_hand = further.before_95_m * (1.0 - 0.5 * own).sqrt();
            assert!((further.after_95_m - by_hand).abs() < 1e-9, "{number:?}");
            seen += 1;
        }
    }
    println!("{seen} by hand");
    assert!(seen > 0);
}

#[test]
fn what_was_stopped_is_not_known() {
    let found = reading_shares(&crate::demo::yardstick(), &mut |done, _| done < 3).unwrap();
    assert!(found.numbers.is_empty() && found.best.is_none());
}

/// The same job, the same shares.
#[test]
fn shares_do_not_change_from_run_to_run() {
    let mut job = plain();
    job.yard.slopes = vec![slope("along", 20.0, 4.0), slope("across", 110.0, 1.0)];
    assert_eq!(all(&job), all(&job));
}

/// A slope is off by its own standard uncertainty, or by the instruments' where it has none; by no other reading's error.
#[test]
fn a_slope_is_off_by_its_own_sigma() {
    let mut job = crate::demo::lantern_green();
    job.yard.slopes[0].sigma_deg = Some(0.7);
    job.yard.slopes[1].sigma_deg = None;
    let of_slopes = &mut |of: &dyn Fn() -> ErrorOf| f64::from(matches!(of(), ErrorOf::Slope { .. }));
    let drawn = errors::reread(&job, &errors::Everything, of_slopes);
    let off_deg = |at: usize| drawn.yard.slopes[at].slope_deg - job.yard.slopes[at].slope_deg;
    assert!((off_deg(0) - 0.7).abs() < 1e-12, "{}", off_deg(0));
    let instruments = &job.yard.instruments;
    assert!((off_deg(1) - instruments.slope_sigma_deg).abs() < 1e-12, "{}", off_deg(1));
    let turned_deg = drawn.yard.slopes[0].bearing_deg - job.yard.slopes[0].bearing_deg;
    assert!((turned_deg - instruments.bearing_sigma_deg).abs() < 1e-9, "{turned_deg}");
    assert_eq!(drawn.yard.marks, job.yard.marks);
}
