//! The ways to stand in one place: turns of the base and of the guys, and where the work's points lie from the mast in
//! each.

use crate::base::frame::Frame;
use crate::base::stakes::stakes;
use crate::base::{BaseInput, BaseResult};
use crate::guys::layout::{LevelOnGround, anchors};
use crate::job::{AnchorLayout, Job};
use crate::plan::Surveyed;
use crate::quantity::bearing::wrap_360;
use crate::yard::flat::P2;

use super::wishes::SitingWishes;

/// Turns of the base and of the guys.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Pose {
    pub front_bearing_deg: f64,
    pub guy_turn_deg: f64,
}

/// One turn of the base, with those of the guys that are tried with it.
#[derive(Debug, Clone)]
pub(super) struct BaseTurn {
    pub front_bearing_deg: f64,
    /// Stakes, from the mast.
    pub stakes: Vec<P2>,
    /// Corners of each leg's timber, from the mast.
    pub timbers: Vec<Vec<P2>>,
    pub guy_turns: Vec<GuyTurn>,
}

#[derive(Debug, Clone)]
pub(super) struct GuyTurn {
    pub guy_turn_deg: f64,
    /// Anchors that stand in one way to the mast wherever that stands: where the ground bends, only those of one
    /// radius do; what was measured stands still.
    pub anchors: Vec<P2>,
}

/// Every turn that is tried, those of the base outermost.
pub(super) fn base_turns(surveyed: &Surveyed, job: &Job, wishes: &SitingWishes) -> Vec<BaseTurn> {
    let downhill_deg = surveyed.fall.bearing_deg.unwrap_or(job.placement.front_bearing_deg);
    let step_deg = 360.0 / f64::from(wishes.base_turns.max(1));
    (0..wishes.base_turns)
        .map(|turn| base_turn(surveyed, job, wishes, wrap_360(downhill_deg + step_deg * f64::from(turn))))
        .collect()
}

fn base_turn(surveyed: &Surveyed, job: &Job, wishes: &SitingWishes, front_bearing_deg: f64) -> BaseTurn {
    let ground = &surveyed.fit.ground;
    let input = BaseInput {
        base: &job.rig.base,
        stakes: &job.rig.stakes,
        ground,
        mast_at: [0.0; 2],
        front_bearing_deg,
        turning_sigma_deg: surveyed.instruments.bearing_sigma_deg,
        fall_bearing_deg: surveyed.fall.bearing_deg,
    };
    let frame = Frame::lay(input.base, ground, input.mast_at, front_bearing_deg);
    let timbers_m = (job.rig.base.timber_depth_mm + job.rig.base.seat_height_mm) / 1000.0;
    let foot_m = frame.underside_m + timbers_m;
    let turns = guy_turns_deg(job, wishes);
    let guy_turns = turns.into_iter().map(|guy_turn_deg| GuyTurn {
        guy_turn_deg,
        anchors: anchors_of(surveyed, job, foot_m, Pose { front_bearing_deg, guy_turn_deg }),
    });
    BaseTurn {
        front_bearing_deg,
        stakes: stakes(&frame, &input).iter().map(|stake| [stake.east_m, stake.north_m]).collect(),
        timbers: frame.legs.iter().map(|leg| leg.outline.to_vec()).collect(),
        guy_turns: guy_turns.collect(),
    }
}

/// Turns that differ: a level of three looks the same again after 120°. The job's own turn comes first.
fn guy_turns_deg(job: &Job, wishes: &SitingWishes) -> Vec<f64> {
    let round = job.rig.guy_levels.iter().filter(|level| !is_free(&level.anchor_layout));
    let Some(together) = round.map(|level| u32::from(level.count.max(1))).reduce(greatest_common) else {
        // Anchors that stand where they stand do not turn.
        return vec![job.placement.guy_turn_deg];
    };
    let step_deg = 360.0 / f64::from(together) / f64::from(wishes.guy_turns.max(1));
    let turned = |turn: u32| (job.placement.guy_turn_deg + step_deg * f64::from(turn)) % 360.0;
    (0..wishes.guy_turns).map(turned).collect()
}

fn is_free(layout: &AnchorLayout) -> bool {
    matches!(layout, AnchorLayout::Free { .. })
}

/// Euclid, Elements VII.2.
fn greatest_common(a: u32, b: u32) -> u32 {
    if b == 0 { a } else { greatest_common(b, a % b) }
}

fn anchors_of(surveyed: &Surveyed, job: &Job, foot_m: f64, pose: Pose) -> Vec<P2> {
    let ground = &surveyed.fit.ground;
    let still = |layout: &AnchorLayout| match layout {
        AnchorLayout::Free { .. } => false,
        AnchorLayout::EqualRadius { .. } => true,
        AnchorLayout::EqualTape { .. } | AnchorLayout::EqualAngle { .. } => ground.surface.is_none(),
    };
    let levels = job.rig.guy_levels.iter().filter(|level| still(&level.anchor_layout));
    let placed = levels.flat_map(|level| {
        anchors(&LevelOnGround {
            ground,
            mast: [0.0; 2],
            foot_m,
            front_bearing_deg: pose.front_bearing_deg,
            guy_turn_deg: pose.guy_turn_deg,
            level,
            free_anchors: &[],
        })
    });
    // One that has no place is found fault with by the plan.
    let mut points: Vec<P2> = placed.flatten().map(|anchor| anchor.at).collect();
    // Levels often share their anchors.
    let mut once: Vec<P2> = Vec::with_capacity(points.len());
    points.drain(..).for_each(|p| {
        let repeats = |other: &P2| (other[0] - p[0]).abs() + (other[1] - p[1]).abs() < 1e-9;
        if !once.iter().any(repeats) {
            once.push(p);
        }
    });
    once
}

/// How high what stands under a leg's tip is at the most.
pub(super) fn tallest_gap_m(base: &BaseResult) -> f64 {
    base.legs.iter().map(|leg| leg.gap_centre_m.value).fold(0.0, f64::max)
}
