//! The profile along the front leg: ground, level timber, foot with its saw cut, mast; at true scale.

use crate::finding::Subject;
use crate::ground;
use crate::job::{BasePattern, Job};
use crate::numerics::real::atan_deg;
use crate::plan::{Computed, LegResult, Support};
use crate::quantity::Units;
use crate::report::format;

use super::canvas::Canvas;
use super::geometry::{along, reading_turn};
use super::labels::{WhereTo, Wish};
use super::scene::{Align, Bounds, Role, Scene};
use super::words::pictures;

/// Lettering as a part of the picture's width: about 30 letters across.
const TEXT_SHARE: f64 = 1.0 / 30.0;

/// Draws the profile along the front leg, or along the first leg where none is called `front`.
///
/// # Units
/// Metres: x out from the mast's axis along the leg, y up in the site frame's heights; one scale for both.
pub fn leg_profile(job: &Job, computed: &Computed) -> Scene {
    let legs = &computed.plan.base.legs;
    let Some(leg) = legs.iter().find(|leg| leg.id == "front").or(legs.first()) else {
        let bounds = Bounds::around([0.0, computed.plan.mast.ground_m], 1.0);
        let title = "Profile along the front leg".to_string();
        return Scene {
            title,
            bounds,
            static_count: 0,
            shapes: Vec::new(),
            description: pictures::NO_LEG.into(),
        };
    };
    profile_of(job, computed, leg)
}

/// Draws the profile along a leg.
pub(crate) fn profile_of(job: &Job, computed: &Computed, leg: &LegResult) -> Scene {
    Profile::new(job, computed, leg).draw(format!("Profile along the {} leg", leg.id))
}

/// The letter height that a profile was laid out with.
pub(crate) fn picture_text_m(profile: &Scene) -> f64 {
    TEXT_SHARE * profile.bounds.width()
}

/// Letter heights that a line of words with its rim takes.
const ROOM_FOR_WORDS: f64 = 1.7;

/// What the profile is drawn from, in its own plane.
struct Profile<'a> {
    job: &'a Job,
    computed: &'a Computed,
    leg: &'a LegResult,
    /// (x, y) along the ground.
    ground: Vec<[f64; 2]>,
    underside: f64,
    top: f64,
    /// Left end of the timber.
    back: f64,
    /// Top of the piece of mast that is drawn.
    mast_top: f64,
    text_m: f64,
    bounds: Bounds,
}

impl<'a> Profile<'a> {
    fn new(job: &'a Job, computed: &'a Computed, leg: &'a LegResult) -> Self {
        let base = &job.rig.base;
        let mast = &computed.plan.mast;
        let reach = leg.reach_m;
        let out_to = 1.45 * reach;
        let back_to = -0.35 * reach;
        let at = [mast.east_m, mast.north_m];
        let (from, to) = (along(at, leg.bearing_deg, back_to), along(at, leg.bearing_deg, out_to));
        let ground: Vec<[f64; 2]> =
            ground::profile(&computed.ground, from, to).into_iter().map(|p| [back_to + p[0], p[1]]).collect();
        let underside = computed.plan.base.underside_m;
        let top = underside + base.timber_depth_mm / 1000.0;
        let mast_top = mast.foot_m.max(top) + 0.3 * reach;
        let lowest = ground.iter().map(|p| p[1]).fold(underside, f64::min);
        let text_m = TEXT_SHARE * (out_to - back_to);
        let bounds = Bounds { min: [back_to, lowest - 5.2 * text_m], max: [out_to, mast_top + 1.5 * text_m] };
        let back = match (base.pattern, base.back_reach_m) {
            (BasePattern::X, Some(back_reach)) => -back_reach,
            _ => -base.timber_width_mm / 2000.0,
        };
        Self { job, computed, leg, ground, underside, top, back: back.max(back_to), mast_top, text_m, bounds }
    }

    fn units(&self) -> Units {
        self.job.units
    }

    fn subject(&self) -> Option<Subject> {
        Some(Subject::Leg { id: self.leg.id.clone() })
    }

    fn draw(&self, title: String) -> Scene {
        let mut canvas = Canvas::new(self.bounds, self.text_m);
        let beyond_foot = self.leg.reach_m + 1.2 * self.text_m;
        let level = vec![[self.bounds.min[0], self.underside], [beyond_foot, self.underside]];
        canvas.line(Role::LevelLine, self.subject(), level);
        self.mast(&mut canvas);
        self.timber(&mut canvas);
        self.foot(&mut canvas);
        canvas.line(Role::GroundLine, Some(Subject::Ground), self.ground.clone());
        self.dimensions(&mut canvas);
        self.slope(&mut canvas);
        canvas.finish(title, self.description())
    }

    fn mast(&self, canvas: &mut Canvas) {
        let mast = &self.computed.plan.mast;
        let radius = mast.stages.first().map_or(0.03, |stage| stage.outside_mm / 2000.0);
        let foot = mast.foot_m;
        if foot > self.top {
            // The plate or socket between timber and tube.
            let half = 1.5 * radius;
            let seat = vec![[-half, self.top], [half, self.top], [half, foot], [-half, foot]];
            canvas.area(Role::Foot, Some(Subject::Mast), seat);
        }
        // A slanting upper end says that the tube goes on.
        let tube =
            vec![[-radius, foot], [radius, foot], [radius, self.mast_top], [-radius, self.mast_top - radius]];
        canvas.area(Role::MastTube, Some(Subject::Mast), tube);
        let below = self.underside - 1.5 * self.text_m;
        let above = self.mast_top + self.text_m;
        canvas.line(Role::LevelLine, Some(Subject::Mast), vec![[0.0, below], [0.0, above]]);
        let at = [radius + 0.4 * self.text_m, self.mast_top - 1.5 * radius];
        self.words(canvas, vec!["plumb".into()], Role::LabelQuiet, at_start(at));
    }

    fn timber(&self, canvas: &mut Canvas) {
        let half = self.job.rig.base.timber_width_mm / 2000.0;
        let bar = |from: f64, to: f64| {
            vec![[from, self.underside], [to, self.underside], [to, self.top], [from, self.top]]
        };
        canvas.area(Role::BaseTimber, self.subject(), bar(self.back, self.leg.reach_m));
        // The cross leg in section: end grain shown by its diagonals, as on a joiner's drawing.
        canvas.area(Role::BaseTimber, Some(Subject::Base), bar(-half, half));
        for (a, b) in [(self.underside, self.top), (self.top, self.underside)] {
            canvas.line(Role::Dimension, None, vec![[-half, a], [half, b]]);
        }
    }

    /// Faces of the foot, from the mast out.
    fn faces(&self) -> [f64; 3] {
        let thickness = self.job.rig.base.foot_thickness_mm / 1000.0;
        let outer = self.leg.reach_m;
        [outer - thickness, outer - thickness / 2.0, outer]
    }

    fn foot(&self, canvas: &mut Canvas) {
        if self.leg.support == Support::OnGround {
            return;
        }
        let [inner, _, outer] = self.faces();
        let points = vec![
            [inner, self.underside],
            [outer, self.underside],
            [outer, self.underside - self.leg.gap_outer_m],
            [inner, self.underside - self.leg.gap_inner_m],
        ];
        canvas.area(Role::Foot, self.subject(), points);
    }

    fn dimensions(&self, canvas: &mut Canvas) {
        let em = self.text_m;
        let units = self.units();
        let above = self.top + 1.6 * em;
        let reach = self.leg.reach_m;
        for x in [0.0, reach] {
            canvas.line(Role::Dimension, None, vec![[x, self.top], [x, above + 0.4 * em]]);
        }
        measure(canvas, [0.0, above], [reach, above], em);
        let text = format!("reach {}", format::length(reach, units));
        self.words(canvas, vec![text], Role::Label, on([0.6 * reach, above + 0.7 * em]));
        let x = 0.42 * reach;
        measure(canvas, [x, self.underside], [x, self.top], em);
        let depth = format::length(self.top - self.underside, units);
        // In a timber too thin for it the words would strike through its edges: they stand above it.
        let thick = self.top - self.underside >= ROOM_FOR_WORDS * em;
        let y = if thick { (self.underside + self.top) / 2.0 } else { self.top + 0.8 * em };
        let text = vec![format!("timber {depth}")];
        self.words(canvas, text, Role::LabelQuiet, at_start([x + 0.5 * em, y]));
        if self.leg.support != Support::OnGround {
            self.gaps(canvas);
        }
    }

    fn gaps(&self, canvas: &mut Canvas) {
        let em = self.text_m;
        let units = self.units();
        let [inner, centre, outer] = self.faces();
        let bottom = |gap: f64| self.underside - gap;
        let leg = self.leg;
        measure(canvas, [inner - 0.7 * em, self.underside], [inner - 0.7 * em, bottom(leg.gap_inner_m)], em);
        measure(canvas, [outer + 0.7 * em, self.underside], [outer + 0.7 * em, bottom(leg.gap_outer_m)], em);
        let from_top = |gap: f64| self.underside - 0.5 * gap.max(0.6 * em);
        let at = [outer + 1.3 * em, from_top(leg.gap_outer_m)];
        let text = vec!["outer face".to_string(), format::length(leg.gap_outer_m, units)];
        self.words(canvas, text, Role::Label, at_start(at));
        // There is no room between timber and ground: a leader takes it under the ground.
        let x = inner - 0.7 * em;
        let under = bottom(leg.gap_inner_m) - 1.7 * em;
        canvas.line(
            Role::Dimension,
            None,
            vec![[x, bottom(leg.gap_inner_m)], [x, under], [x - 0.5 * em, under]],
        );
        let text = vec![format!("inner face {}", format::length(leg.gap_inner_m, units))];
        self.words(canvas, text, Role::Label, at_end([x - 0.7 * em, under]));
        let gap = &leg.gap_centre_m;
        let interval = format::length_interval(gap.half_width_95, units);
        let lines = vec![
            format!("centre {} {interval}", format::length(gap.value, units)).trim_end().to_string(),
            pictures::bevel_words(leg),
        ];
        let ground = bottom(gap.value);
        let below = ground - 2.6 * em;
        canvas.line(Role::Dimension, None, vec![[centre, self.underside], [centre, below]]);
        canvas.sign(Role::Dimension, None, [centre, ground], 180.0);
        self.words(canvas, lines, Role::Label, on([centre, below - 1.4 * em]));
    }

    /// The ground's slope along the leg, written under it.
    fn slope(&self, canvas: &mut Canvas) {
        let (Some(&a), Some(&b)) = (self.ground.first(), self.ground.last()) else { return };
        let angle = atan_deg((b[1] - a[1]) / (b[0] - a[0]).max(1e-9));
        let way = if angle > 0.0 { "rises" } else { "falls" };
        let text = format!("ground {way} {}", format::angle(angle.abs()));
        let turn = reading_turn(a, b);
        let up = crate::quantity::bearing::unit(turn);
        let at = |share: f64| {
            let y = a[1] + (b[1] - a[1]) * share;
            [a[0] + (b[0] - a[0]) * share - 0.9 * self.text_m * up[0], y - 0.9 * self.text_m * up[1]]
        };
        let places = [0.2, 0.25, 0.3, 0.4].map(|share| (at(share), turn)).to_vec();
        self.words(canvas, vec![text], Role::LabelQuiet, WhereTo::On { places });
    }

    fn words(&self, canvas: &mut Canvas, lines: Vec<String>, role: Role, where_to: WhereTo) {
        canvas.label(Wish { lines, role, subject: self.subject(), priority: 0, must: true, where_to });
    }

    fn description(&self) -> String {
        pictures::leg(self.leg, self.computed.plan.knows_under(&self.leg.id), self.units())
    }
}

fn on(at: [f64; 2]) -> WhereTo {
    WhereTo::On { places: vec![(at, 0.0)] }
}

fn at_start(at: [f64; 2]) -> WhereTo {
    WhereTo::At { at, align: Align::Start }
}

fn at_end(at: [f64; 2]) -> WhereTo {
    WhereTo::At { at, align: Align::End }
}

/// A dimension line with its arrows: inside where there is room, from outside where there is not.
fn measure(canvas: &mut Canvas, a: [f64; 2], b: [f64; 2], em: f64) {
    let bearing = crate::quantity::bearing::of_vector(b[0] - a[0], b[1] - a[1]);
    let long = super::geometry::distance(a, b) > 1.3 * em;
    if long {
        canvas.line(Role::Dimension, None, vec![a, b]);
    } else {
        canvas.line(Role::Dimension, None, vec![along(a, bearing, -0.8 * em), along(b, bearing, 0.8 * em)]);
    }
    let turn = if long { bearing } else { bearing + 180.0 };
    canvas.sign(Role::Dimension, None, b, crate::quantity::bearing::wrap_360(turn));
    canvas.sign(Role::Dimension, None, a, crate::quantity::bearing::wrap_360(turn + 180.0));
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::sample::sample;
    use crate::drawing::scene::Geometry;
    use crate::quantity::UnitSystem;

    #[test]
    fn the_foot_has_its_three_heights_and_reaches_the_tip() {
        let (job, computed) = sample(UnitSystem::Metric);
        let scene = leg_profile(&job, &computed);
        let leg = &computed.plan.base.legs[0];
        let foot = scene
            .shapes
            .iter()
            .find(|s| s.role == Role::Foot && s.subject == Some(Subject::Leg { id: "front".into() }))
            .expect("foot");
        let Geometry::Area { points } = &foot.geometry else { panic!("area") };
        assert_eq!(points[2], [leg.reach_m, computed.plan.base.underside_m - leg.gap_outer_m]);
        let words: Vec<&str> = scene
            .shapes
            .iter()
            .filter_map(|s| match &s.geometry {
                Geometry::Words { text, .. } => Some(text.as_str()),
                _ => None,
            })
            .collect();
        for text in
            ["inner face 146 mm", "outer face", "centre 151 mm ± 9 mm", "saw bevel 7.0°", "reach 1.420 m"]
        {
            assert!(words.contains(&text), "{text} in {words:?}");
        }
    }

    #[test]
    fn the_ground_drawn_is_the_ground() {
        let (job, computed) = sample(UnitSystem::Metric);
        let scene = leg_profile(&job, &computed);
        let line = scene.shapes.iter().find(|s| s.role == Role::GroundLine).expect("ground");
        let Geometry::Line { points } = &line.geometry else { panic!("line") };
        for p in points {
            let at = along([5.6, 4.6], 225.0, p[0]);
            assert!((computed.ground.height(at) - p[1]).abs() < 1e-9);
        }
    }

    #[test]
    fn everything_drawn_lies_within_the_frame_that_is_printed() {
        for system in [UnitSystem::Metric, UnitSystem::Imperial] {
            let (job, computed) = sample(system);
            crate::drawing::sample::assert_within_bounds(&leg_profile(&job, &computed), |_| true);
        }
    }

    #[test]
    fn the_timber_s_words_strike_through_none_of_its_edges() {
        for depth_mm in [38.0, 90.0, 300.0] {
            let (mut job, _) = sample(UnitSystem::Metric);
            job.rig.base.timber_depth_mm = depth_mm;
            let computed = crate::plan::compute(&job).unwrap();
            let scene = leg_profile(&job, &computed);
            let em = TEXT_SHARE * scene.bounds.width();
            let y = scene.shapes.iter().find_map(|shape| match &shape.geometry {
                Geometry::Words { at, text, .. } if text.starts_with("timber") => Some(at[1]),
                _ => None,
            });
            let (y, underside) = (y.unwrap(), computed.plan.base.underside_m);
            for edge in [underside, underside + depth_mm / 1000.0] {
                assert!((y - edge).abs() > 0.7 * em, "{depth_mm}: {y} at {edge}, letters {em}");
            }
        }
    }
}
