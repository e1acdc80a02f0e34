//! A walked line in section: the ground as walked, and what the plan had it for.

use super::canvas::Canvas;
use super::geometry::along;
use super::labels::{WhereTo, Wish};
use super::scene::{Align, Bounds, Role, Scene};
use super::words::pictures;
use crate::ground;
use crate::job::Job;
use crate::numerics::real::hypot;
use crate::plan::Computed;
use crate::report::format;
use crate::survey::walk::{Walk, Walked};

/// As in the profile, about 30 letters across.
const TEXT_SHARE: f64 = 1.0 / 30.0;
/// A lawn is long and flat: its heights are drawn so many times as high, the least that fills a third of the width.
const TIMES: [f64; 5] = [1.0, 2.0, 5.0, 10.0, 20.0];
/// The shortest picture.
const LEAST_M: f64 = 2.0;
/// Half of a 95 % interval in sigmas. Source: GUM 2008, table G.2.
const COVERAGE_95: f64 = 1.96;

/// Draws the section of a walk, its heights magnified as its words say.
///
/// # Units
/// Metres out from the start; heights above the first mark, magnified.
pub fn walk_section(job: &Job, computed: &Computed, walk: &Walk, points: &[Walked]) -> Scene {
    let out_m = points.last().map_or(0.0, |last| last.out_m).max(LEAST_M);
    let text_m = TEXT_SHARE * 1.15 * out_m;
    let planned = planned(computed, walk, out_m);
    let heights = points.iter().map(|it| it.height_m).chain(planned.iter().map(|it| it[1]));
    let [low, high] = heights
        .fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], height| [low.min(height), high.max(height)]);
    let fills = |times: &f64| (high - low) * times >= out_m / 3.0;
    let too_much = |times: &f64| (high - low) * times > out_m;
    let times = TIMES
        .into_iter()
        .find(fills)
        .filter(|times| !too_much(times))
        .unwrap_or(TIMES.into_iter().rev().find(|times| !too_much(times)).unwrap_or(1.0));
    let bounds = Bounds {
        min: [-2.0 * text_m, low * times - 3.0 * text_m],
        max: [out_m + 3.0 * text_m, high * times + 4.0 * text_m],
    };
    let mut canvas = Canvas::new(bounds, text_m);
    let magnified = |line: &[[f64; 2]]| line.iter().map(|it| [it[0], it[1] * times]).collect::<Vec<_>>();
    canvas.line(Role::LevelLine, None, magnified(&planned));
    let walked: Vec<[f64; 2]> = points.iter().map(|it| [it.out_m, it.height_m]).collect();
    canvas.line(Role::GroundLine, None, magnified(&walked));
    for (i, it) in points.iter().enumerate() {
        let at = [it.out_m, it.height_m * times];
        let half = COVERAGE_95 * it.sigma_m * times;
        canvas.line(Role::Dimension, None, vec![[at[0], at[1] - half], [at[0], at[1] + half]]);
        canvas.sign(if i == 0 { Role::Mark } else { Role::SpotHeight }, None, at, 0.0);
        let height = if i == 0 { walk.from.clone() } else { format::height(it.height_m, job.units) };
        let clear_m = super::signs::half_size_em(Role::Mark) * text_m + half;
        canvas.label(Wish {
            lines: vec![height],
            role: Role::Label,
            subject: None,
            priority: u8::from(i + 1 != points.len()),
            must: i + 1 == points.len(),
            where_to: WhereTo::Beside { at, clear_m, away_from: Some([at[0], bounds.min[1]]) },
        });
    }
    let words =
        if times > 1.0 { format!("heights drawn {times} times as high") } else { "true to scale".into() };
    let corner = [bounds.min[0] + text_m, bounds.min[1] + text_m];
    canvas.label(Wish {
        lines: vec![words.clone()],
        role: Role::LabelQuiet,
        subject: None,
        priority: 9,
        must: true,
        where_to: WhereTo::At { at: corner, align: Align::Start },
    });
    let [out, height] = points.last().map_or([0.0; 2], |last| [last.out_m, last.height_m]);
    let [out, height] = [out, height].map(|value_m| format::length(value_m, job.units));
    let description = pictures::walk(points.len(), &walk.from, &out, &height, &words);
    canvas.finish("The line walked, in section".into(), description)
}

/// What the plan has for the ground along the line.
fn planned(computed: &Computed, walk: &Walk, out_m: f64) -> Vec<[f64; 2]> {
    let Some(from) = computed.yard.marks.iter().find(|mark| mark.id == walk.from) else { return Vec::new() };
    let from = [from.at[0], from.at[1]];
    let to = along(from, walk.true_bearing_deg(&computed.yard.marks, &computed.plan.north), out_m);
    if hypot(to[0] - from[0], to[1] - from[1]) < 1e-6 {
        return Vec::new();
    }
    let origin_m = computed.ground.height([0.0, 0.0]);
    ground::profile(&computed.ground, from, to).into_iter().map(|it| [it[0], it[1] - origin_m]).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::walk::{Along, Rise, WalkStep, walked};
    use crate::{demo, plan};

    #[test]
    fn a_flat_lawn_is_drawn_higher_than_it_is_and_says_so() {
        let job = demo::yardstick();
        let computed = plan::compute(&job).unwrap();
        let step = |rise_m| WalkStep { tape_m: 3.0, rise: Rise::Height { rise_m } };
        // Across the slope, where the plan has it nearly level.
        let walk = Walk {
            from: "A".into(),
            along: Along::Bearing { bearing_deg: 328.0 },
            steps: vec![step(0.1), step(-0.05), step(0.02)],
        };
        let points = walked(&job, &computed.yard.marks, &computed.ground, &walk).unwrap();
        let scene = walk_section(&job, &computed, &walk, &points);
        assert!(scene.description.contains("times as high"), "{}", scene.description);
        assert_eq!(scene.shapes.iter().filter(|shape| shape.role == Role::SpotHeight).count(), 3);
        assert!(scene.bounds.height() <= 2.0 * scene.bounds.width());
    }
}
