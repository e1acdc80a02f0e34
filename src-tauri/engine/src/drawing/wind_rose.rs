//! The gust limit as a rose: how far from the mast a direction reaches is how strong a gust may come from there.

use crate::finding::Subject;
use crate::job::Job;
use crate::numerics::real::cos_deg;
use crate::plan::Plan;
use crate::quantity::convert::MILE_PER_HOUR_M_PER_S;
use crate::quantity::{UnitSystem, Units};
use crate::report::{format, verdict};
use crate::wind_capacity::{DirectionLimit, WindCapacity};

use super::canvas::Canvas;
use super::geometry::along;
use super::labels::{WhereTo, Wish};
use super::scene::{Bounds, Role, Scene};
use super::words::pictures;

/// Lettering as a part of the picture's width.
const TEXT_SHARE: f64 = 1.0 / 26.0;

/// Draws the rose round the mast, its farthest reach as long as the fall circle is wide.
///
/// # Units
/// Metres of the site frame, x east, y north, so that it may lie on the staking map; the circles say which gust.
pub fn wind_rose(job: &Job, plan: &Plan, limit: &WindCapacity) -> Scene {
    let mast = [plan.mast.east_m, plan.mast.north_m];
    let radius_m = plan.mast.fall_radius_m.max(1.0);
    let all = || limit.raised.directions.iter().chain(&limit.lowered.directions);
    let strongest = all().map(|it| it.gust_m_per_s).fold(1.0, f64::max);
    let bounds = Bounds::around(mast, 1.32 * radius_m);
    let text_m = TEXT_SHARE * bounds.width();
    let rose = Rose { job, plan, mast, m_per_speed: radius_m / strongest };
    let mut canvas = Canvas::new(bounds, text_m);
    rose.area(&mut canvas, &limit.raised.directions);
    if limit.missing.is_empty() {
        rose.circles(&mut canvas, strongest);
    }
    rose.line(&mut canvas, &limit.lowered.directions);
    for guy in &plan.guys {
        let to = along(mast, guy.azimuth_deg, guy.radius_m.min(radius_m));
        canvas.line(Role::Guy, Some(Subject::Guy { id: guy.id.clone() }), vec![mast, to]);
    }
    rose.worst(&mut canvas, limit);
    canvas.sign(Role::MastAxis, Some(Subject::Mast), mast, 0.0);
    canvas.sign(Role::North, None, along(mast, 0.0, 1.15 * radius_m), 0.0);
    canvas.finish("Gust limit by where the wind comes from".into(), description(limit, job.units))
}

struct Rose<'a> {
    job: &'a Job,
    plan: &'a Plan,
    mast: [f64; 2],
    m_per_speed: f64,
}

impl Rose<'_> {
    fn at(&self, direction: &DirectionLimit) -> [f64; 2] {
        along(self.mast, direction.from_deg, self.m_per_speed * direction.gust_m_per_s)
    }

    fn outline(&self, directions: &[DirectionLimit]) -> Vec<[f64; 2]> {
        directions.iter().map(|direction| self.at(direction)).collect()
    }

    /// Raised; while it is being found, what there is of it.
    fn area(&self, canvas: &mut Canvas, directions: &[DirectionLimit]) {
        if directions.len() > 1 {
            canvas.area(Role::WindRaised, Some(Subject::Mast), self.outline(directions));
        }
    }

    /// Lowered, closed once it is whole.
    fn line(&self, canvas: &mut Canvas, directions: &[DirectionLimit]) {
        let mut outline = self.outline(directions);
        if directions.len() == crate::wind_capacity::rose::DIRECTIONS as usize {
            outline.extend(outline.first().copied());
        }
        if outline.len() > 1 {
            canvas.line(Role::WindLowered, Some(Subject::Mast), outline);
        }
    }

    fn circles(&self, canvas: &mut Canvas, strongest: f64) {
        let unit = match self.job.units.system {
            UnitSystem::Metric => 1.0,
            UnitSystem::Imperial => MILE_PER_HOUR_M_PER_S,
        };
        // Three to six circles.
        let step =
            [5.0, 10.0, 20.0, 50.0].into_iter().find(|step| strongest / unit / step <= 6.0).unwrap_or(100.0);
        let mut at = step;
        let clear_deg = self.clear_deg();
        while at * unit <= strongest {
            let radius_m = self.m_per_speed * at * unit;
            canvas.circle(Role::WindScale, None, self.mast, radius_m);
            let place = along(self.mast, clear_deg, radius_m);
            let text = format::speed(at * unit, self.job.units);
            canvas.label(words(vec![text], Role::LabelQuiet, WhereTo::On { places: vec![(place, 0.0)] }));
            at += step;
        }
    }

    /// Where the numbers of the circles stand: between two guys, as near to north or south of the mast as there is
    /// such a place, so that they stand below each other.
    fn clear_deg(&self) -> f64 {
        let Some(first) = self.plan.guys.first() else { return 0.0 };
        let level = || self.plan.guys.iter().filter(|guy| guy.level_id == first.level_id);
        let half_step_deg = 180.0 / level().count() as f64;
        let upright = |bearing_deg: &f64| cos_deg(*bearing_deg).abs();
        let between = level().map(|guy| guy.azimuth_deg + half_step_deg);
        between.max_by(|a, b| upright(a).total_cmp(&upright(b))).unwrap_or(0.0)
    }

    /// An arrow that blows in from the weakest direction, with its gust.
    fn worst(&self, canvas: &mut Canvas, limit: &WindCapacity) {
        let Some(least) = &limit.raised.least else { return };
        let at = self.at(least);
        canvas.sign(Role::WindArrow, Some(Subject::Mast), at, (least.from_deg + 180.0) % 360.0);
        let text = format::speed_rounded_down(least.gust_m_per_s, self.job.units);
        let clear_m = 0.7 * canvas.text_m;
        let where_to = WhereTo::Beside { at, clear_m, away_from: Some(self.mast) };
        canvas.label(words(vec![text], Role::Label, where_to));
    }
}

fn words(lines: Vec<String>, role: Role, where_to: WhereTo) -> Wish {
    Wish { lines, role, subject: None, priority: 0, must: true, where_to }
}

fn description(limit: &WindCapacity, units: Units) -> String {
    if !limit.missing.is_empty() {
        return verdict::long(Some(&limit.verdict));
    }
    let of = |name: &str, least: &Option<DirectionLimit>| pictures::rose(name, least.as_ref(), units);
    format!("{} {}", of("Raised,", &limit.raised.least), of("Lowered,", &limit.lowered.least))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo::yardstick;
    use crate::drawing::scene::Geometry;
    use crate::plan::{Computed, compute};
    use crate::wind_capacity::withstand;

    #[test]
    fn its_reach_in_a_direction_is_the_gust_limit_from_there() {
        let job = yardstick();
        let Computed { plan, layout, .. } = compute(&job).unwrap();
        let limit = withstand(&job, &layout, &mut |_, _, _| true);
        let scene = wind_rose(&job, &plan, &limit);
        let area = scene.shapes.iter().find(|shape| shape.role == Role::WindRaised).unwrap();
        let Geometry::Area { points } = &area.geometry else { panic!("an area") };
        let reach =
            |at: &[f64; 2]| super::super::geometry::distance([plan.mast.east_m, plan.mast.north_m], *at);
        let ratio = reach(&points[0]) / reach(&points[20]);
        let gusts = &limit.raised.directions;
        assert!((ratio - gusts[0].gust_m_per_s / gusts[20].gust_m_per_s).abs() < 1e-9);
        // North wind: north of the mast.
        assert!(points[0][1] > plan.mast.north_m && (points[0][0] - plan.mast.east_m).abs() < 1e-9);
        assert!(scene.description.contains("Raised, the weakest direction is wind from the"));
    }
}
