//! Every limit and default is a round number in the user's own system of units: 20 in, not 1' 7 11/16"; 90 mm, not 88.9.

use mastwright_engine::demo::lantern_green;
use mastwright_engine::finding::Quantity;
use mastwright_engine::job::{Job, Located, PathUse, PointFix, Shape, blank};
use mastwright_engine::plan::{Plan, compute};
use mastwright_engine::quantity::{UnitSystem, Units};
use mastwright_engine::report::finding_text;
use mastwright_engine::round_figures::{ALL, FigureUnit, RoundFigure, feet_or_metres, rounded_up};
use mastwright_engine::yard::approach::Approach;
use proptest::prelude::*;
use serde_json::Value;

const BOTH: [UnitSystem; 2] = [UnitSystem::Metric, UnitSystem::Imperial];

/// A whole multiple of a step, to rounding.
fn is_multiple(value: f64, step: f64) -> bool {
    (value / step - (value / step).round()).abs() < 1e-6
}

/// Half centimetres or whole inches; below three inches eighths of one (the finest a rope or a bar comes in), below half
/// an inch the tape's sixteenths; below two millimetres half ones, as drills come; what only a feeler gauge tells in tenths of a millimetre, thousandths of an inch.
fn round_length(metres: f64, system: UnitSystem) -> bool {
    match system {
        UnitSystem::Metric if metres.abs() < 0.001 => is_multiple(metres, 0.0001),
        UnitSystem::Imperial if metres.abs() < 0.001 => is_multiple(metres, 0.0254 / 1000.0),
        UnitSystem::Metric if metres.abs() < 0.002 => is_multiple(metres, 0.0005),
        UnitSystem::Imperial if metres.abs() < 0.5 * 0.0254 => is_multiple(metres, 0.0254 / 16.0),
        UnitSystem::Metric if metres.abs() < 0.1 => is_multiple(metres, 0.001),
        UnitSystem::Metric => is_multiple(metres, 0.05) || is_multiple(metres, 0.01),
        UnitSystem::Imperial if metres.abs() < 4.0 * 0.0254 => is_multiple(metres, 0.0254 / 8.0),
        UnitSystem::Imperial => is_multiple(metres, 0.0254),
    }
}

fn is_round(habit: RoundFigure, system: UnitSystem) -> bool {
    let value = habit.of(system);
    let imperial = system == UnitSystem::Imperial;
    match habit.unit {
        FigureUnit::LengthM => round_length(value, system),
        FigureUnit::LengthMm => round_length(value / 1000.0, system),
        FigureUnit::ForceN => is_multiple(value, if imperial { 10.0 * 4.448_221_615_260_5 } else { 50.0 }),
        FigureUnit::MassGPerM => is_multiple(value, if imperial { 453.592_37 / 30.48 } else { 1.0 }),
        FigureUnit::StressMpa => is_multiple(value, if imperial { 5.0 * 6.894_757_293_168 } else { 5.0 }),
        FigureUnit::MmPerM => is_multiple(value, if imperial { 25.4 / 30.48 } else { 0.5 }),
        FigureUnit::SpeedMPerS => is_multiple(value, if imperial { 5.0 * 0.447_04 } else { 1.0 }),
    }
}

#[test]
fn every_habit_is_round_in_either_system_and_nearly_the_same_in_both() {
    for (name, habit) in ALL {
        for system in BOTH {
            assert!(is_round(*habit, system), "{name} in {system:?}: {}", habit.of(system));
        }
        let [metric, imperial] = BOTH.map(|system| habit.of(system));
        assert!((metric - imperial).abs() <= 0.17 * metric.max(imperial), "{name}: {metric} and {imperial}");
    }
}

/// 2030 mm, 4.5 m, 24 in and the feet of Table A are least distances: in neither system less.
#[test]
fn what_a_publication_sets_as_least_is_not_rounded_below_it() {
    use mastwright_engine::round_figures::keep;
    for system in BOTH {
        assert!(keep::HEADROOM_FOOT.of(system) >= 80.0 * 0.0254 - 1e-12);
        assert!(keep::HEADROOM_VEHICLES.of(system) >= 4.5);
        assert!(keep::BURIED_TOLERANCE.of(system) >= 24.0 * 0.0254 - 1e-12);
        for feet in [10.0, 15.0, 20.0, 25.0, 35.0, 45.0] {
            let metres = feet_or_metres(feet, system);
            assert!(
                metres >= feet * 0.3048 - 1e-12 && round_length(metres, system),
                "{feet} ft in {system:?}"
            );
        }
    }
}

/// The demo with one thing of every kind and no distance given, so that all habits are at work.
fn everything(system: UnitSystem) -> Job {
    by_habits(lantern_green(), system)
}

/// A job with no distance of its own.
pub fn by_habits(mut job: Job, system: UnitSystem) -> Job {
    job.units = Units { system, inch_fraction: 16 };
    for obstacle in &mut job.yard.obstacles {
        obstacle.keep_off_m = None;
        if let Shape::Path { headroom_m, used_by, .. } = &mut obstacle.shape {
            (*headroom_m, *used_by) = (None, PathUse::Foot);
        }
    }
    for service in &mut job.yard.buried_services {
        (service.tolerance_m, service.located) = (None, Located::MarkedByUtility);
    }
    job
}

fn plan(job: &Job) -> Plan {
    compute(job).expect("it can be planned").plan
}

/// Whether a number stands before one of these units.
fn says_a_number_of(text: &str, units: &[&str]) -> bool {
    let words: Vec<&str> = text.split([' ', '(', ')', ',', ';']).collect();
    let of = |pair: &[&str]| {
        let unit = pair[1].trim_end_matches('.');
        pair[0].ends_with(|c: char| c.is_ascii_digit()) && units.contains(&unit) && pair[0] != "811"
    };
    words.windows(2).any(of)
}

/// A limit that is no habit: how far the mast reaches, and what is kept from a wire, to which comes how far that wire swings.
fn is_a_reach(what: Approach) -> bool {
    matches!(what, Approach::FallToWire { .. } | Approach::ChainToWire { .. })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    #[test]
    fn limits_shown_are_round_wherever_the_mast_stands(east_m in -30.0..0.0f64, north_m in -36.0..6.0f64) {
        for system in BOTH {
            let mut job = everything(system);
            job.placement.mast = PointFix::Coordinates { east_m, north_m };
            let plan = plan(&job);
            for row in plan.clearances.iter().filter(|row| !is_a_reach(row.what)) {
                prop_assert!(round_length(row.needed_m, system), "{system:?}: {:?} {}", row.what, row.needed_m);
            }
            for finding in plan.findings.iter().filter(|finding| {
                finding.rule.name().contains("near") && !finding.rule.name().contains("overhead")
            }) {
                if let Some(Quantity::LengthM { value }) = finding.limit.map(|limit| limit.quantity) {
                    prop_assert!(round_length(value, system), "{system:?}: {:?} {value}", finding.rule);
                }
            }
            // What to do is said in the user's own unit only.
            for finding in &plan.findings {
                let of_the_others: &[&str] =
                    if system == UnitSystem::Metric { &["in", "ft", "feet"] } else { &["m", "cm", "mm"] };
                let remedy = finding_text(finding, job.units).remedy;
                prop_assert!(!says_a_number_of(&remedy, of_the_others), "{remedy}");
                let inches = remedy.contains('"');
                prop_assert!(system == UnitSystem::Imperial || !inches, "{remedy}");
            }
        }
    }

    #[test]
    fn what_to_move_is_never_less_than_what_is_missing(length_m in 0.001..40.0f64) {
        let metres: f64 = rounded_up(length_m, UnitSystem::Metric).trim_end_matches(" m").parse().unwrap();
        prop_assert!(metres >= length_m - 1e-6 && metres < length_m + 0.1 + 1e-6);
        let units = Units { system: UnitSystem::Imperial, inch_fraction: 16 };
        let text = rounded_up(length_m, UnitSystem::Imperial);
        let back = mastwright_engine::quantity::entry::read_quantity("reach_m", &text, units).unwrap();
        prop_assert!(back >= length_m - 1e-6 && back < length_m + 0.0254 + 1e-6, "{text}");
    }
}

/// A new job's numbers, by their path.
fn lengths(value: &Value, path: &str, into: &mut Vec<(String, f64)>) {
    match value {
        Value::Number(number) => into.push((path.to_owned(), number.as_f64().unwrap())),
        Value::Array(items) => {
            items.iter().enumerate().for_each(|(i, v)| lengths(v, &format!("{path}/{i}"), into))
        }
        Value::Object(map) => map.iter().for_each(|(name, v)| lengths(v, &format!("{path}/{name}"), into)),
        _ => {}
    }
}

#[test]
fn a_new_job_begins_with_round_numbers() {
    for system in BOTH {
        let job = serde_json::to_value(blank(Units { system, inch_fraction: 16 })).unwrap();
        let (mut all, mut seen) = (Vec::new(), 0);
        lengths(&job, "", &mut all);
        for (path, value) in all {
            let metres = if path.ends_with("_mm") { value / 1000.0 } else { value };
            if path.ends_with("_mm") || (path.ends_with("_m") && !path.ends_with("_per_m")) {
                assert!(round_length(metres, system), "{path} in {system:?}: {value}");
                seen += 1;
            }
        }
        assert!(seen > 20, "{seen}");
    }
}

/// By hand: a dressed 2×4 is 1 1/2" by 3 1/2", a 4×4 3 1/2" square.
#[test]
fn timbers_have_their_actual_sizes() {
    let job = blank(Units { system: UnitSystem::Imperial, inch_fraction: 16 });
    let base = &job.rig.base;
    assert!((base.timber_width_mm - 88.9).abs() < 1e-9 && (base.timber_depth_mm - 88.9).abs() < 1e-9);
    assert!((base.shim_up_to_mm - 38.1).abs() < 1e-9);
}
