//! The ways to stand in one place: turns of the base and of the guys, and where the work's points lie from the mast in
//! each.

use crate::base::frame::Frame;
use crate::base::stakes::stakes;
use crate::base::{BaseInput, BaseResult};
use crate::guys::fixing::FixingShape;
use crate::guys::layout::{LevelOnGround, anchors};
use crate::job::{AnchorLayout, GuyLevel, GuyToThing, Job, PointFix, Rig};
use crate::numerics::real::hypot;
use crate::plan::Surveyed;
use crate::quantity::bearing::wrap_360;
use crate::yard::flat::P2;

use super::wishes::{MOST_POSES, SitingWishes};

/// Turns of the base and of the guys, and which guy is moved.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Pose {
    pub front_bearing_deg: f64,
    pub guy_turn_deg: f64,
    pub moved: Option<MovedGuy>,
}

/// Guys with their anchors farther out than the rule of their level has them, or nearer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct MovedGuy {
    /// One of each level, in the order of its guys; none: all of them.
    pub guy: Option<usize>,
    pub out_m: f64,
    /// It is made fast to this thing of the yard, by its number in the job's list.
    pub to_thing: Option<usize>,
}

/// Which guys a search moves, and how far.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum GuyMove {
    /// One of each level, each in turn.
    One {
        out_m: f64,
    },
    All {
        out_m: f64,
    },
    /// One of each level, each in turn, is made fast to a thing.
    ToThing {
        thing: u32,
    },
}

impl MovedGuy {
    /// Where the anchor then is: on the same line from the mast.
    fn moved(self, mast: P2, anchor: P2) -> P2 {
        let [east, north] = [anchor[0] - mast[0], anchor[1] - mast[1]];
        let grown = 1.0 + self.out_m / hypot(east, north);
        [mast[0] + grown * east, mast[1] + grown * north]
    }
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
    /// The thing that a guy is made fast to, and on which bearing that guy would leave the mast by its level's rule.
    pub aim: Option<Aim>,
    pub moved: Option<MovedGuy>,
    /// Anchors that stand in one way to the mast wherever that stands: where the ground bends, only those of one
    /// radius do; what was measured stands still.
    pub anchors: Vec<P2>,
}

/// A thing of the yard that a guy is made fast to.
#[derive(Debug, Clone)]
pub(super) struct Aim {
    /// Its number in the job's list.
    pub thing: usize,
    pub shape: FixingShape,
    pub azimuth_deg: f64,
    /// As far off its own bearing a guy may go to a trunk or a post: half a turn's step, so that a turn is left for every place.
    pub within_deg: f64,
}

/// Every turn that is tried, those of the base outermost; with one guy moved, each for every guy.
pub(super) fn base_turns(
    surveyed: &Surveyed,
    job: &Job,
    wishes: &SitingWishes,
    guy_move: Option<GuyMove>,
) -> Vec<BaseTurn> {
    let downhill_deg = surveyed.fall.bearing_deg.unwrap_or(job.placement.front_bearing_deg);
    let step_deg = 360.0 / f64::from(wishes.base_turns.max(1));
    (0..wishes.base_turns)
        .map(|turn| {
            let front_bearing_deg = wrap_360(downhill_deg + step_deg * f64::from(turn));
            base_turn(surveyed, job, front_bearing_deg, &guy_poses(job, wishes, guy_move))
        })
        .collect()
}

/// A turn of the guys with which of them is moved.
type GuyPose = (f64, Option<MovedGuy>);

/// With a guy moved as many as fit one search: fewer turns.
fn guy_poses(job: &Job, wishes: &SitingWishes, guy_move: Option<GuyMove>) -> Vec<GuyPose> {
    let alike = |moved: Option<MovedGuy>| -> Vec<GuyPose> {
        guy_turns_deg(job, wishes.guy_turns).into_iter().map(|turn_deg| (turn_deg, moved)).collect()
    };
    let (out_m, to_thing) = match guy_move {
        None => return alike(None),
        Some(GuyMove::All { out_m }) => return alike(Some(MovedGuy { guy: None, out_m, to_thing: None })),
        Some(GuyMove::One { out_m }) => (out_m, None),
        Some(GuyMove::ToThing { thing }) => (0.0, Some(thing as usize)),
    };
    let guys = job.rig.guy_levels.iter().map(|level| u32::from(level.count)).max().unwrap_or(1).max(1);
    let most = MOST_POSES / wishes.base_turns.max(1) / guys;
    let turns_deg = guy_turns_deg(job, wishes.guy_turns.min(most).max(1));
    let of = |turn_deg: f64| {
        (0..guys as usize).map(move |guy| (turn_deg, Some(MovedGuy { guy: Some(guy), out_m, to_thing })))
    };
    turns_deg.into_iter().flat_map(of).collect()
}

fn base_turn(surveyed: &Surveyed, job: &Job, front_bearing_deg: f64, guys: &[GuyPose]) -> BaseTurn {
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
    let foot_m = foot_m(&frame, job);
    let guy_turns = guys.iter().map(|&(guy_turn_deg, moved)| GuyTurn {
        guy_turn_deg,
        moved,
        aim: moved.and_then(|moved| aim(surveyed, job, front_bearing_deg + guy_turn_deg, moved, guys.len())),
        anchors: anchors_of(surveyed, job, foot_m, Pose { front_bearing_deg, guy_turn_deg, moved }),
    });
    BaseTurn {
        front_bearing_deg,
        stakes: stakes(&frame, &input).iter().map(|stake| [stake.east_m, stake.north_m]).collect(),
        timbers: frame.legs.iter().map(|leg| leg.outline.to_vec()).collect(),
        guy_turns: guy_turns.collect(),
    }
}

/// With so many turns and guys in all a step between two bearings of any guy is the circle over that many.
fn aim(surveyed: &Surveyed, job: &Job, first_deg: f64, moved: MovedGuy, ways: usize) -> Option<Aim> {
    let (thing, guy) = (moved.to_thing?, moved.guy?);
    let count = job.rig.guy_levels.first()?.count.max(1);
    let shape = surveyed.guy_things.shape(surveyed, thing)?;
    let azimuth_deg = wrap_360(first_deg + 360.0 * guy as f64 / f64::from(count));
    Some(Aim { thing, shape, azimuth_deg, within_deg: 180.0 / ways.max(1) as f64 + 1e-6 })
}

/// Level of the mast's foot on a base that lies so.
fn foot_m(frame: &Frame, job: &Job) -> f64 {
    frame.underside_m + (job.rig.base.timber_depth_mm + job.rig.base.seat_height_mm) / 1000.0
}

/// Turns that differ: a level of three looks the same again after 120°. The job's own turn comes first.
fn guy_turns_deg(job: &Job, turns: u32) -> Vec<f64> {
    let round = job.rig.guy_levels.iter().filter(|level| !is_free(&level.anchor_layout));
    let Some(together) = round.map(|level| u32::from(level.count.max(1))).reduce(greatest_common) else {
        // Anchors that stand where they stand do not turn.
        return vec![job.placement.guy_turn_deg];
    };
    let step_deg = 360.0 / f64::from(together) / f64::from(turns.max(1));
    let turned = |turn: u32| (job.placement.guy_turn_deg + step_deg * f64::from(turn)) % 360.0;
    (0..turns).map(turned).collect()
}

fn is_free(layout: &AnchorLayout) -> bool {
    matches!(layout, AnchorLayout::Free { .. })
}

/// Euclid, Elements VII.2.
fn greatest_common(a: u32, b: u32) -> u32 {
    if b == 0 { a } else { greatest_common(b, a % b) }
}

fn anchors_of(surveyed: &Surveyed, job: &Job, foot_m: f64, pose: Pose) -> Vec<P2> {
    let bent = surveyed.fit.ground.surface.is_some();
    let stays = |layout: &AnchorLayout| match layout {
        AnchorLayout::Free { .. } => false,
        AnchorLayout::EqualRadius { .. } => true,
        AnchorLayout::EqualTape { .. } | AnchorLayout::EqualAngle { .. } => !bent,
    };
    let levels = job.rig.guy_levels.iter().filter(|level| stays(&level.anchor_layout));
    // One that has no place is found fault with by the plan; one on a thing of the yard is none.
    let of_level = |level: &GuyLevel| {
        let aimed = pose.moved.filter(|moved| moved.to_thing.is_some()).and_then(|moved| moved.guy);
        let own = level.to_thing.as_ref().map(|to| usize::from(to.guy).saturating_sub(1));
        let all = level_anchors(surveyed, level, [0.0; 2], foot_m, pose).into_iter().enumerate();
        let in_ground = all.filter(|(guy, _)| ![aimed, own].contains(&Some(*guy)));
        in_ground.filter_map(|(_, anchor)| anchor).collect::<Vec<P2>>()
    };
    let placed = levels.flat_map(of_level);
    // Levels often share their anchors.
    let mut once: Vec<P2> = Vec::new();
    placed.for_each(|p| {
        let repeats = |other: &P2| (other[0] - p[0]).abs() + (other[1] - p[1]).abs() < 1e-9;
        if !once.iter().any(repeats) {
            once.push(p);
        }
    });
    once
}

/// The anchors of a level in the order of its guys; none for one that has no place on this ground.
fn level_anchors(
    surveyed: &Surveyed,
    level: &GuyLevel,
    mast: P2,
    foot_m: f64,
    pose: Pose,
) -> Vec<Option<P2>> {
    let placed = anchors(&LevelOnGround {
        ground: &surveyed.fit.ground,
        mast,
        foot_m,
        front_bearing_deg: pose.front_bearing_deg,
        guy_turn_deg: pose.guy_turn_deg,
        level,
        free_anchors: &[],
    });
    let moved = |(guy, at): (usize, P2)| {
        let out = pose.moved.filter(|moved| moved.guy.is_none_or(|one| one == guy));
        out.map_or(at, |moved| moved.moved(mast, at))
    };
    placed.into_iter().enumerate().map(|(guy, anchor)| anchor.ok().map(|it| moved((guy, it.at)))).collect()
}

/// The parts with one guy of each level made fast to a thing; the others follow their rules.
fn with_guy_to(job: &Job, guy: usize, thing: usize) -> Option<Rig> {
    let (thing, guy) = (job.yard.obstacles.get(thing)?.id.clone(), u8::try_from(guy + 1).ok()?);
    let mut rig = job.rig.clone();
    rig.guy_levels
        .iter_mut()
        .for_each(|level| level.to_thing = Some(GuyToThing { guy, thing: thing.clone() }));
    Some(rig)
}

/// The parts with each anchor where it stands in this place and pose; none where one has no place.
pub(super) fn anchored_rig(surveyed: &Surveyed, job: &Job, mast: P2, pose: Pose) -> Option<Rig> {
    if let Some(MovedGuy { guy: Some(guy), to_thing: Some(thing), .. }) = pose.moved {
        return with_guy_to(job, guy, thing);
    }
    let frame = Frame::lay(&job.rig.base, &surveyed.fit.ground, mast, pose.front_bearing_deg);
    let foot_m = foot_m(&frame, job);
    let mut rig = job.rig.clone();
    for level in &mut rig.guy_levels {
        let at: Option<Vec<P2>> = level_anchors(surveyed, level, mast, foot_m, pose).into_iter().collect();
        let fixed = |p: P2| PointFix::Coordinates { east_m: p[0], north_m: p[1] };
        level.anchor_layout = AnchorLayout::Free { anchors: at?.into_iter().map(fixed).collect() };
    }
    Some(rig)
}

/// How high what stands under a leg's tip is at the most.
pub(super) fn tallest_gap_m(base: &BaseResult) -> f64 {
    base.legs.iter().map(|leg| leg.gap_centre_m.value).fold(0.0, f64::max)
}
