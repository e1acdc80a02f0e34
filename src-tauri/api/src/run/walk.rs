//! A line walked over the ground, shown as it grows and taken into the job.

use mastwright_engine::drawing;
use mastwright_engine::job::{self, SpotHeight};
use mastwright_engine::plan;
use mastwright_engine::quantity::FieldErrors;
use mastwright_engine::quantity::format;
use mastwright_engine::report;
use mastwright_engine::survey::walk::{Walked, walked};

use super::exchange::id_stem;
use crate::messages::*;

/// Findings that say how the ground is no plane.
const ABOUT_THE_PLANE: [&str; 2] = ["ground_not_plane", "spot_height_stands_out"];

pub fn walk_line(request: &WalkRequest) -> Result<WalkAnswer, FieldErrors> {
    let mut job = job::read_job_value(&request.job)?;
    let computed = plan::compute(&job)?;
    let points = walked(&job, &computed.yard.marks, &computed.ground, &request.walk)?;
    let picture = drawing::walk_section(&job, &computed, &request.walk, &points).rounded();
    let said = points.iter().skip(1).map(|it| report::walked(it, job.units)).collect();
    let stem = id_stem("height", &request.device);
    let first = free_number(&job, &stem);
    let spots: Vec<SpotHeight> = points
        .into_iter()
        .skip(1)
        .zip(first..)
        .map(|(it, number)| spot(it, format!("{stem}-{number}")))
        .collect();
    job.yard.spot_heights.extend(spots.iter().cloned());
    let computed = plan::compute(&job)?;
    let findings = report::report(&job, &computed).findings;
    let plane = findings.into_iter().filter(|it| ABOUT_THE_PLANE.contains(&it.rule.as_str())).collect();
    let front_foot = computed.plan.base.legs.iter().find(|leg| leg.id == "front");
    let front_foot =
        front_foot.map_or_else(String::new, |leg| format::length(leg.gap_centre_m.value, job.units));
    Ok(WalkAnswer { picture, said, spots, plane, front_foot })
}

fn spot(it: Walked, id: String) -> SpotHeight {
    let millimetre = |m: f64| (m * 1000.0).round() / 1000.0;
    SpotHeight {
        id,
        at: it.fix,
        height_m: millimetre(it.height_m),
        // Rounded up, so that it is never taken for surer than it is.
        sigma_m: Some((it.sigma_m * 1000.0).ceil() / 1000.0),
        struck: false,
    }
}

/// From here on `height-N`, or what the ids begin with here, is taken by none.
fn free_number(job: &job::Job, stem: &str) -> usize {
    let number = |spot: &SpotHeight| spot.id.strip_prefix(stem)?.strip_prefix('-')?.parse::<usize>().ok();
    let largest = job.yard.spot_heights.iter().filter_map(number).max().unwrap_or(0);
    largest.min(usize::MAX - 1_000) + 1
}

#[cfg(test)]
mod tests {
    use super::*;
    use mastwright_engine::demo;
    use serde_json::json;

    fn answer(walk: serde_json::Value) -> WalkAnswer {
        let job = serde_json::to_value(demo::lantern_green()).unwrap();
        let request = serde_json::from_value(json!({ "job": job, "walk": walk })).unwrap();
        walk_line(&request).unwrap()
    }

    #[test]
    fn a_hump_is_said_with_how_much_and_where() {
        let step = |rise_m: f64| json!({ "tape_m": 2.0, "rise": { "by": "height", "rise_m": rise_m } });
        let walk = json!({ "from": "A", "along": { "by": "bearing", "bearing_deg": 238.0 },
            "steps": [step(-0.2), step(0.5), step(-0.9), step(-0.2)] });
        let answer = answer(walk);
        assert_eq!((answer.spots.len(), answer.said.len()), (4, 4));
        let finding = answer.plane.first().expect("half a metre up on a lawn that falls is no plane");
        assert_eq!(finding.rule, "ground_not_plane");
        assert!(finding.numbers.contains("departs"), "{}", finding.numbers);
        let ids: std::collections::BTreeSet<_> = answer.spots.iter().map(|spot| &spot.id).collect();
        let taken = demo::lantern_green().yard.spot_heights;
        assert!(ids.len() == 4 && taken.iter().all(|spot| !ids.contains(&spot.id)));
    }
}
