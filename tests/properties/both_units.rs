//! One yard typed in metres by one neighbour and in feet and inches by another gives one plan. The pairs are
//! exact: 1 in = 25.4 mm (NIST SP 811, 2008, B.6), 1 lbf = 4.448 221 615 260 5 N (the same).

use mastwright_engine::demo::lantern_green;
use mastwright_engine::job::read_job_value;
use mastwright_engine::plan::{Plan, compute};
use mastwright_engine::quantity::entry::read_quantity;
use mastwright_engine::quantity::{UnitSystem, Units};
use serde_json::{Value, json};

/// Field, as typed in metric, as typed in imperial.
const TYPED: &[(&str, &str, &str)] = &[
    ("/rig/tubes/0/length_m", "3.048", "10'"),
    ("/rig/tubes/1/overlap_m", "609.6 mm", "2 ft"),
    ("/rig/guy_levels/0/attach_height_m", "4.2291 m", "13' 10 1/2\""),
    ("/rig/guy_levels/0/collar_radius_mm", "50.8", "2"),
    ("/rig/guy_levels/0/tension_n", "133.446648457815 N", "30 lbf"),
    ("/rig/guy_levels/0/lower_end_m", "1,524 m", "5"),
    ("/rig/base/front_reach_m", "1854.2 mm", "73in"),
    ("/rig/base/side_reach_m", "100,33 cm", "3' 3 1/2\""),
    ("/rig/base/timber_width_mm", "88.9", "3 1/2"),
    ("/rig/base/foot_thickness_mm", "3.81 cm", "1 1/2 in"),
    ("/yard/marks/1/at/tape_m", "25.8445 m", "84' 9 1/2″"),
    ("/yard/spot_heights/0/height_m", "−1.8161", "−5' 11 1/2\""),
    ("/yard/slopes/0/slope_deg", "-6.9", "−6.9°"),
    ("/placement/front_bearing_deg", "225", "S 45 W"),
];

fn typed(system: UnitSystem) -> Plan {
    let units = Units { system, inch_fraction: 16 };
    let mut job = serde_json::to_value(lantern_green()).expect("a job is JSON");
    for (field, metric, imperial) in TYPED {
        let text = if system == UnitSystem::Metric { metric } else { imperial };
        let value = read_quantity(field, text, units).unwrap_or_else(|error| panic!("{}", error.sentence()));
        let place: &mut Value = job.pointer_mut(field).unwrap_or_else(|| panic!("the demo has {field}"));
        *place = json!(value);
    }
    let mut job = read_job_value(&job).unwrap_or_else(|errors| panic!("{errors}"));
    // What is shown follows the units, and so do limits that nobody gave (round_in_both_systems.rs).
    job.units = Units { system: UnitSystem::Metric, inch_fraction: 16 };
    compute(&job).expect("it can be placed").plan
}

/// The numbers of a JSON value in their order.
fn numbers(value: &Value, into: &mut Vec<f64>) {
    match value {
        Value::Number(number) => into.extend(number.as_f64()),
        Value::Array(items) => items.iter().for_each(|item| numbers(item, into)),
        Value::Object(members) => members.values().for_each(|item| numbers(item, into)),
        _ => {}
    }
}

#[test]
fn metric_and_imperial_entry_give_one_plan() {
    let [metric, imperial] = [UnitSystem::Metric, UnitSystem::Imperial].map(|system| {
        let mut found = Vec::new();
        numbers(&serde_json::to_value(typed(system)).expect("a plan is JSON"), &mut found);
        found
    });
    assert_eq!(metric.len(), imperial.len());
    assert!(metric.len() > 1000, "a whole plan was compared: {}", metric.len());
    for (left, right) in metric.iter().zip(&imperial) {
        assert!((left - right).abs() <= 1e-9 * left.abs().max(1.0), "{left} and {right}");
    }
}
