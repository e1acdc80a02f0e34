//! The tubes going up: the mast run down and after each stage, side by side, with the pins being set and from where.

use std::ops::RangeInclusive;

use crate::quantity::Units;
use crate::report::format;
use crate::workshop::stages::{Stages, WorkStage};

use super::canvas::Canvas;
use super::geometry::circle_points;
use super::labels::{WhereTo, Wish};
use super::scene::{Align, Bounds, Role, Scene};
use super::words::workshop as sentences;

/// Letter heights from one mast to the next: what the words of a pair of pins take.
const APART_EM: f64 = 12.0;
/// Letter heights over the whole height of the tallest mast.
const HIGH_EM: f64 = 30.0;
/// Stature of the person who is drawn, for scale (common practice).
const PERSON_M: f64 = 1.75;
/// Half the floor of a platform, in letter heights.
const PLATFORM_EM: f64 = 1.3;

/// A tube of one of the masts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShownTube {
    /// Above the ground.
    pub lower_m: f64,
    pub upper_m: f64,
}

/// Where each tube stands once the first `done` stages are made, the bottom one first: above the ground beside the mast.
///
/// # Accuracy
/// As the stages: a tube that goes up takes every tube above it along by its travel.
pub fn shown_tubes(stages: &Stages, done: usize) -> Vec<ShownTube> {
    let raised_m = |tube: u32| -> f64 {
        stages.stages.iter().take(done).filter(|stage| stage.tube <= tube).map(|stage| stage.travel_m).sum()
    };
    let tubes = stages.tubes.iter().map(|tube| {
        let lower_m = stages.foot_above_ground_m + tube.stands_m + raised_m(tube.tube);
        ShownTube { lower_m, upper_m: lower_m + tube.length_m }
    });
    tubes.collect()
}

/// The picture with how wide it has to be shown.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct StagesPicture {
    pub scene: Scene,
    /// Letter heights across: narrower than that its words run into one another.
    pub least_letters: f64,
}

/// Draws them; none where nothing is cranked up.
///
/// # Units
/// Metres, heights at scale over the level ground beside the mast; the tubes are drawn thicker than they are.
pub fn stages_picture(stages: &Stages, units: Units) -> Option<StagesPicture> {
    if stages.stages.is_empty() {
        return None;
    }
    let scene = masts_picture(stages, 0..=stages.stages.len(), units);
    let least_letters = scene.bounds.width() / picture_text_m(&scene);
    Some(StagesPicture { scene, least_letters })
}

/// Draws the mast before and after one stage, counted from 0; none where there is no such stage.
///
/// # Units
/// As [`stages_picture`].
pub fn stage_picture(stages: &Stages, stage: usize, units: Units) -> Option<Scene> {
    (stage < stages.stages.len()).then(|| masts_picture(stages, stage..=stage + 1, units))
}

/// The letter height that such a picture was laid out with: its words take 5.6 letters over and under the mast.
pub(crate) fn picture_text_m(picture: &Scene) -> f64 {
    picture.bounds.height() / (HIGH_EM + 5.6)
}

/// The mast after so many stages each.
fn masts_picture(stages: &Stages, masts: RangeInclusive<usize>, units: Units) -> Scene {
    let top_m = |done: usize| shown_tubes(stages, done).iter().map(|tube| tube.upper_m).fold(0.0, f64::max);
    let height_m = masts.clone().map(top_m).fold(PERSON_M, f64::max);
    let em = height_m / HIGH_EM;
    let apart_m = APART_EM * em;
    let bounds = Bounds {
        min: [-0.45 * apart_m, -3.4 * em],
        max: [((masts.end() - masts.start()) as f64 + 0.62) * apart_m, height_m + 2.2 * em],
    };
    let picture = Picture { stages, units, em, canvas: Canvas::new(bounds, em) };
    picture.draw(apart_m, masts.map(|done| (done, top_m(done))).collect())
}

struct Picture<'a> {
    stages: &'a Stages,
    units: Units,
    em: f64,
    canvas: Canvas,
}

impl Picture<'_> {
    fn draw(mut self, apart_m: f64, masts: Vec<(usize, f64)>) -> Scene {
        let bounds = self.canvas.bounds;
        self.canvas.line(Role::GroundLine, None, vec![[bounds.min[0], 0.0], [bounds.max[0], 0.0]]);
        let mut says = Vec::new();
        for (place, &(done, top_m)) in masts.iter().enumerate() {
            let x = place as f64 * apart_m;
            self.mast(x, done);
            let top = format::length(top_m, self.units);
            self.words(vec![top.clone()], Role::Label, on([x, top_m + 0.9 * self.em]));
            let set = done.checked_sub(1).and_then(|index| self.stages.stages.get(index));
            let name = sentences::after_stage(done, set.map_or("", |stage| stage.name.as_str()));
            self.words(name.clone(), Role::LabelQuiet, on([x, -1.9 * self.em]));
            says.push(sentences::stands_so(&name.join(" "), &top));
            if let Some(stage) = set {
                self.pins(x, stage);
                self.person(x, stage.platform_m.unwrap_or(0.0));
            }
        }
        self.canvas.finish(sentences::STAGES_PICTURE.to_owned(), says.join(" "))
    }

    /// The inner ones thinner, and drawn over the outer ones.
    fn mast(&mut self, x: f64, done: usize) {
        let foot_m = self.stages.foot_above_ground_m;
        self.canvas.line(Role::Dimension, None, vec![[x, 0.0], [x, foot_m]]);
        let tubes = shown_tubes(self.stages, done);
        let count = tubes.len() as f64;
        for (index, tube) in tubes.iter().enumerate() {
            let half = self.em * (0.55 - 0.35 * index as f64 / count);
            let corners = vec![
                [x - half, tube.lower_m],
                [x + half, tube.lower_m],
                [x + half, tube.upper_m],
                [x - half, tube.upper_m],
            ];
            self.canvas.area(Role::MastTube, None, corners);
        }
    }

    fn pins(&mut self, x: f64, stage: &WorkStage) {
        let [lower, upper] = stage.pins_above_ground_m;
        for height_m in [lower, upper] {
            let (from, to) = (x - 1.1 * self.em, x + 1.1 * self.em);
            self.canvas.line(Role::Conflict, None, vec![[from, height_m], [to, height_m]]);
        }
        let at = [x + 1.5 * self.em, (lower + upper) / 2.0];
        let heights = [lower, upper].map(|height_m| format::length(height_m, self.units));
        let lines = sentences::pins_at(&heights);
        self.words(lines, Role::Label, WhereTo::At { at, align: Align::Start });
    }

    /// Somebody for scale, on the floor from which the pins are set.
    fn person(&mut self, x: f64, floor_m: f64) {
        let em = self.em;
        let at = x - 3.2 * em;
        if floor_m > 0.0 {
            let (left, right) = (at - PLATFORM_EM * em, at + PLATFORM_EM * em);
            let stand =
                vec![[left - 0.5 * em, 0.0], [left, floor_m], [right, floor_m], [right + 0.5 * em, 0.0]];
            self.canvas.line(Role::Dimension, None, stand);
            let floor = format::length(floor_m, self.units);
            let place = on([at, 0.45 * floor_m]);
            self.words(vec![floor], Role::LabelQuiet, place);
        }
        let part = |share: f64| floor_m + share * PERSON_M;
        let wide = 0.12 * PERSON_M;
        let body = [
            vec![[at - wide, part(0.0)], [at, part(0.47)], [at + wide, part(0.0)]],
            vec![[at, part(0.47)], [at, part(0.83)]],
            vec![[at - wide, part(0.55)], [at, part(0.8)], [at + 2.0 * wide, part(0.85)]],
            circle_points([at, part(0.92)], 0.08 * PERSON_M),
        ];
        for line in body {
            self.canvas.line(Role::Dimension, None, line);
        }
    }

    fn words(&mut self, lines: Vec<String>, role: Role, where_to: WhereTo) {
        self.canvas.label(Wish { lines, role, subject: None, priority: 0, must: true, where_to });
    }
}

fn on(at: [f64; 2]) -> WhereTo {
    WhereTo::On { places: vec![(at, 0.0)] }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo::lantern_green;
    use crate::drawing::scene::Geometry;
    use crate::plan::compute;
    use crate::workshop::{fit, stages};

    fn demo() -> (f64, Stages, Units) {
        let job = lantern_green();
        let computed = compute(&job).expect("plan");
        let fit = fit::fit(&job).expect("fit");
        let stages = stages::plan(&job, &computed.plan, &fit).expect("stages");
        let mast = &computed.plan.mast;
        (mast.foot_m + mast.raised_height_m - mast.ground_m, stages, job.units)
    }

    #[test]
    fn after_all_stages_the_mast_is_as_high_as_the_plan_says() {
        let (top_m, stages, _) = demo();
        let highest = |done| shown_tubes(&stages, done).iter().map(|it| it.upper_m).fold(0.0, f64::max);
        assert!((highest(2) - top_m).abs() < 1e-9, "{} {top_m}", highest(2));
        assert!((highest(0) - stages.run_down_m - stages.foot_above_ground_m).abs() < 1e-9);
        assert!(highest(0) < highest(1) && highest(1) < highest(2));
    }

    /// The pin goes through the tube and the one below: both are where it is set.
    #[test]
    fn a_pin_is_set_where_both_its_tubes_are() {
        let (_, stages, _) = demo();
        for (index, stage) in stages.stages.iter().enumerate() {
            let tubes = shown_tubes(&stages, index + 1);
            for pin_m in stage.pins_above_ground_m {
                for tube in [stage.tube as usize, stage.tube as usize - 1] {
                    let at = tubes[tube];
                    assert!((at.lower_m..=at.upper_m).contains(&pin_m), "{pin_m} in {at:?}");
                }
            }
        }
    }

    #[test]
    fn every_mast_stands_in_the_picture_with_its_pins_named() {
        let (_, stages, units) = demo();
        let StagesPicture { scene, least_letters } = stages_picture(&stages, units).expect("a picture");
        // By hand: twelve letters a mast and 0.45 + 0.62 of that beside them.
        assert!((least_letters - 12.0 * (stages.stages.len() as f64 + 1.07)).abs() < 1e-9);
        let tubes = scene.shapes.iter().filter(|shape| shape.role == Role::MastTube).count();
        assert_eq!(tubes, 3 * 3);
        let words: Vec<&str> = scene
            .shapes
            .iter()
            .filter_map(|shape| match &shape.geometry {
                Geometry::Words { text, .. } => Some(text.as_str()),
                _ => None,
            })
            .collect();
        for stage in &stages.stages {
            for pin_m in stage.pins_above_ground_m {
                assert!(words.contains(&format::length(pin_m, units).as_str()), "{words:?}");
            }
        }
        let Geometry::Area { points } =
            &scene.shapes.iter().rfind(|it| it.role == Role::MastTube).unwrap().geometry
        else {
            panic!("an area")
        };
        assert!(points.iter().all(|at| scene.bounds.holds(*at)));
    }
}
