//! What stands in the wind: the job's mast in its yard, raised or lowered.
//!
//! Lowered, every tube that goes into the one below is run down. A guy whose collar would sink into another tube is
//! made fast again at that tube's top, at its set tension, where the job says that this is done. The strands then hang
//! loose from the lowered top.

use super::types::MastHeight;
use crate::guys::spacing;
use crate::job::{GuyLevel, Job, Strands, TubeJoint, WhenLowered};
use crate::numerics::vector::{Vector, norm, subtract};
use crate::plan::{GuyResult, Layout, Stage};
use crate::resistance::MastUnshown;

/// A tube where it stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StandingTube {
    /// Above the foot.
    pub bottom_m: f64,
    pub top_m: f64,
    pub outside_m: f64,
    pub wall_m: f64,
    pub mass_kg: f64,
    /// Play on each side in the tube below.
    pub radial_gap_m: f64,
    /// It runs in the tube below, rather than standing on it.
    pub telescoped: bool,
}

/// A guy where it pulls.
#[derive(Debug, Clone)]
pub struct StandingGuy<'a> {
    pub level: &'a GuyLevel,
    pub planned: &'a GuyResult,
    pub attach_height_m: f64,
    /// From the mast's axis to where the rope leaves the collar.
    pub collar_offset_m: Vector,
}

/// A strand from the top to its ring point.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StandingStrand {
    pub ring_point: Vector,
    /// From the mast's axis, level, to where it begins on the circle at the top.
    pub top_offset_m: Vector,
    pub length_m: f64,
    /// It hangs loose.
    pub slack: bool,
}

/// Everything that stands in the wind.
#[derive(Debug, Clone)]
pub struct Standing<'a> {
    pub job: &'a Job,
    pub layout: &'a Layout,
    pub height: MastHeight,
    /// Foot of the mast in the site frame.
    pub foot_m: Vector,
    /// The foot above the ground at the mast.
    pub foot_above_ground_m: f64,
    pub top_m: f64,
    pub tubes: Vec<StandingTube>,
    pub guys: Vec<StandingGuy<'a>>,
    /// The guys that pull at one anchor, or at anchors too near to each other to count twice, by their places.
    pub anchors: Vec<Vec<usize>>,
    pub strands: Vec<StandingStrand>,
    /// Height above the foot where the strands pull.
    pub strands_top_m: f64,
    /// Why nobody can say what it bears, whatever its parts may carry; none where that is known.
    pub unknown: Option<MastUnshown>,
}

impl<'a> Standing<'a> {
    pub fn of(job: &'a Job, layout: &'a Layout, height: MastHeight) -> Self {
        let mast = &layout.mast;
        let tubes = tubes(job, &mast.stages, height);
        let foot_m = [mast.east_m, mast.north_m, mast.foot_m];
        let moved = |raised_m: f64| moved(raised_m, &mast.stages, &tubes);
        let guy = |planned: &'a GuyResult| {
            let level = job.rig.guy_levels.iter().find(|level| level.id == planned.level_id)?;
            let on_axis = [foot_m[0], foot_m[1], foot_m[2] + level.attach_height_m];
            let collar_offset_m = subtract(planned.attach, on_axis);
            Some(StandingGuy {
                level,
                planned,
                attach_height_m: moved(level.attach_height_m),
                collar_offset_m,
            })
        };
        let guys: Vec<StandingGuy> = layout.guys.iter().filter_map(guy).collect();
        let unknown = unknown(job, &guys);
        let planned: Vec<&GuyResult> = guys.iter().map(|guy| guy.planned).collect();
        let anchors = spacing::counted_once(&planned, &job.rig.guy_levels, job.yard.soil);
        let strands_top_m = job.rig.strands.as_ref().map_or(0.0, |it| moved(it.top_height_m));
        Self {
            job,
            layout,
            height,
            foot_m,
            foot_above_ground_m: mast.foot_m - mast.ground_m,
            top_m: tubes.iter().fold(0.0, |top: f64, tube| top.max(tube.top_m)),
            guys,
            anchors,
            strands: strands(job.rig.strands.as_ref(), layout, height),
            strands_top_m,
            tubes,
            unknown,
        }
    }
}

/// What stands in the way of saying what the mast bears.
fn unknown(job: &Job, guys: &[StandingGuy]) -> Option<MastUnshown> {
    let cord = job.rig.strands.as_ref().map(|strands| &strands.cord);
    if cord.is_some_and(|cord| cord.diameter_mm.is_none()) {
        return Some(MastUnshown::StrandThicknessUnknown);
    }
    if cord.is_some_and(|cord| cord.mass_g_per_m.is_none()) {
        return Some(MastUnshown::StrandMassUnknown);
    }
    let unsaid = |guy: &StandingGuy| guy.comes_down() && guy.level.when_lowered == WhenLowered::Unsaid;
    guys.iter().any(unsaid).then_some(MastUnshown::RunDownUnsaid)
}

impl StandingGuy<'_> {
    /// Its collar is lower than on the raised mast: as long as it was, it hangs slack.
    pub fn comes_down(&self) -> bool {
        self.attach_height_m < self.level.attach_height_m - 1e-6
    }
}

fn tubes(job: &Job, stages: &[Stage], height: MastHeight) -> Vec<StandingTube> {
    let mut tubes: Vec<StandingTube> = Vec::with_capacity(stages.len());
    for (tube, stage) in job.rig.tubes.iter().zip(stages) {
        let telescoped = tube.joint == TubeJoint::Telescoped && !tubes.is_empty();
        let goes_in = telescoped && stage.radial_gap_mm.is_some_and(|gap| gap >= 0.0);
        let bottom_m = match (tubes.last(), height) {
            (None, _) => 0.0,
            (Some(_), MastHeight::Raised) => stage.bottom_height_m,
            (Some(below), MastHeight::Lowered) if goes_in => below.bottom_m,
            (Some(below), MastHeight::Lowered) => below.top_m - tube.overlap_m,
        };
        tubes.push(StandingTube {
            bottom_m,
            top_m: bottom_m + tube.length_m,
            outside_m: stage.outside_mm / 1000.0,
            wall_m: stage.wall_mm / 1000.0,
            mass_kg: stage.mass_kg,
            radial_gap_m: stage.radial_gap_mm.unwrap_or(0.0).max(0.0) / 1000.0,
            telescoped,
        });
    }
    tubes
}

/// Where a thing on the mast is, given where it is when raised: it goes with the outermost tube there, and no lower
/// than the top of the tubes round that.
fn moved(raised_m: f64, stages: &[Stage], tubes: &[StandingTube]) -> f64 {
    let here = |stage: &Stage| (stage.bottom_height_m..=stage.top_height_m + 1e-6).contains(&raised_m);
    let Some(on) = stages.iter().position(here) else { return raised_m };
    let (Some(stage), Some(tube)) = (stages.get(on), tubes.get(on)) else { return raised_m };
    let own_m = tube.bottom_m + raised_m - stage.bottom_height_m;
    tubes.iter().take(on).fold(own_m, |m, outer| m.max(outer.top_m)).min(top(tubes))
}

fn top(tubes: &[StandingTube]) -> f64 {
    tubes.iter().fold(0.0, |top: f64, tube| top.max(tube.top_m))
}

fn strands(strands: Option<&Strands>, layout: &Layout, height: MastHeight) -> Vec<StandingStrand> {
    let (Some(_), Some(ring)) = (strands, &layout.ring) else { return Vec::new() };
    let slack = height == MastHeight::Lowered;
    let ends = ring.points.iter().zip(&ring.tops);
    ends.zip(&ring.strand_lengths_m)
        .map(|((&ring_point, top), &length_m)| {
            let top_offset_m = [top[0] - layout.mast.east_m, top[1] - layout.mast.north_m, 0.0];
            StandingStrand { ring_point, top_offset_m, length_m, slack }
        })
        .collect()
}

/// Direction from one point to another, and how far.
pub(super) fn toward(from: Vector, to: Vector) -> (Vector, f64) {
    let run = subtract(to, from);
    let length = norm(run).max(1e-9);
    (run.map(|part| part / length), length)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{AsBuilt, AsBuiltAnchor, PointFix};
    use crate::numerics::real::{atan_deg, hypot};
    use crate::{demo::yardstick, plan::compute};

    /// Angle of a guy to the level, from what the wind's model takes of it.
    fn angle_deg(standing: &Standing, index: usize) -> f64 {
        let guy = &standing.guys[index];
        let collar = [0, 1, 2].map(|axis| {
            let up_m = if axis == 2 { guy.attach_height_m } else { 0.0 };
            standing.foot_m[axis] + up_m + guy.collar_offset_m[axis]
        });
        let [east, north, rise] = subtract(collar, guy.planned.eye);
        atan_deg(rise / hypot(east, north))
    }

    #[test]
    fn what_really_stands_is_what_the_wind_meets() {
        let mut job = yardstick();
        let planned = compute(&job).unwrap().layout;
        let (guy, mast) = (planned.guys[0].clone(), planned.mast.clone());
        // Two thirds of the way out.
        let nearer = |mast_m: f64, at_m: f64| mast_m + (at_m - mast_m) / 1.5;
        let at = PointFix::Coordinates {
            east_m: nearer(mast.east_m, guy.east_m),
            north_m: nearer(mast.north_m, guy.north_m),
        };
        let anchors = vec![AsBuiltAnchor { guy: guy.id, at: Some(at), eye_height_m: None }];
        job.as_built = Some(AsBuilt { anchors, ..AsBuilt::default() });
        let built = compute(&job).unwrap().layout;
        let before = Standing::of(&job, &planned, MastHeight::Raised);
        let after = Standing::of(&job, &built, MastHeight::Raised);
        let [was, is] = [&before, &after].map(|standing| angle_deg(standing, 0));
        assert!(is > was + 7.0, "{was} {is}");
        assert!((angle_deg(&after, 1) - angle_deg(&before, 1)).abs() < 1e-9);
        // The mast half a metre to the east.
        let east_m = mast.east_m + 0.5;
        let moved = Some(PointFix::Coordinates { east_m, north_m: mast.north_m });
        job.as_built = Some(AsBuilt { mast: moved, ..AsBuilt::default() });
        let built = compute(&job).unwrap().layout;
        assert!((Standing::of(&job, &built, MastHeight::Raised).foot_m[0] - east_m).abs() < 1e-9);
    }

    #[test]
    fn the_upper_tube_goes_down_and_its_collar_stops_on_the_lower_one() {
        let job = yardstick();
        let layout = compute(&job).unwrap().layout;
        let raised = Standing::of(&job, &layout, MastHeight::Raised);
        assert!((raised.top_m - layout.mast.raised_height_m).abs() < 1e-12);
        assert!((raised.guys[0].attach_height_m - 3.9624).abs() < 1e-12);
        let lowered = Standing::of(&job, &layout, MastHeight::Lowered);
        assert!((lowered.top_m - layout.mast.lowered_height_m).abs() < 1e-12);
        assert_eq!(lowered.guys[0].attach_height_m, 3.048);
        assert!(lowered.strands.iter().all(|strand| strand.slack) && lowered.strands.len() == 24);
    }
}
